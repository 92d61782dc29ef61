//! One table of a part file: its keys, the tables inside it, and where its problems are noted.
//! The values are read in `values`.

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeArray, DeString, DeTable, DeValue};

use super::document::{Document, LeftOut, Taken};
use super::problem::MOST_OF_A_KIND;
use crate::printable::printable;
use crate::record::key::{Given, Key, Kind};
use crate::suggest;
use crate::units::LengthUnit;

impl Document<'_> {
    /// The top level, held against a family's keys: unknown keys are noted.
    pub fn root(&self, keys: &'static [Key]) -> Fields<'_> {
        Fields::checked(self, self.table.get_ref(), 0..0, keys)
    }

    /// The top level without a look at its keys, to find out the family.
    pub fn root_unchecked(&self) -> Fields<'_> {
        Fields::unchecked(self, self.table.get_ref(), 0..0)
    }
}

/// A table of a part file.
pub struct Fields<'d> {
    pub(super) document: &'d Document<'d>,
    table: &'d DeTable<'d>,
    /// Place of the table's head, for what is missing in it.
    head: Range<usize>,
}

pub(super) type Item<'d> = &'d Spanned<DeValue<'d>>;

impl<'d> Fields<'d> {
    pub(super) fn unchecked(document: &'d Document<'d>, table: &'d DeTable<'d>, head: Range<usize>) -> Self {
        Self { document, table, head }
    }

    pub(super) fn checked(
        document: &'d Document<'d>,
        table: &'d DeTable<'d>,
        head: Range<usize>,
        keys: &[Key],
    ) -> Self {
        let fields = Self { document, table, head };
        fields.note_unknown(keys);
        fields
    }

    /// The text of the whole file.
    pub(crate) fn text_of_file(&self) -> &str {
        self.document.text
    }

    /// A text in a table below, as it is written; nothing is judged or noted.
    pub(crate) fn text_in(&self, table: &str, key: &str) -> Option<&'d str> {
        let DeValue::Table(below) = self.table.get(table)?.get_ref() else { return None };
        match below.get(key)?.get_ref() {
            DeValue::String(text) => Some(text),
            _ => None,
        }
    }

    /// Whether anything was noted so far.
    pub(crate) fn has_problems(&self) -> bool {
        !self.document.problems.borrow().is_empty()
    }

    /// Unknown keys in the order of the file; beyond a hundred only their number.
    fn note_unknown(&self, keys: &[Key]) {
        let names: Vec<&str> = keys.iter().map(|k| k.name).collect();
        let known = |key: &Spanned<DeString>| names.contains(&key.get_ref().as_ref());
        let mut unknown: Vec<&Spanned<DeString>> = self.table.keys().filter(|k| !known(k)).collect();
        unknown.sort_by_key(|k| k.span().start);
        for key in unknown.iter().take(MOST_OF_A_KIND) {
            let help = did_you_mean(key.get_ref(), &names)
                .unwrap_or_else(|| format!("the keys here are {}", names.join(", ")));
            self.document.note(
                key.span(),
                &format!("there is no key `{}` here", shortened(key.get_ref())),
                Some(&help),
            );
        }
        if let Some(next) = unknown.get(MOST_OF_A_KIND) {
            let message = format!("from here on there are {} more unknown keys", unknown.len() - MOST_OF_A_KIND);
            self.document.note(next.span(), &message, None);
        }
    }

    /// The unit of bare numbers that the file states.
    pub fn default_unit(&self) -> Option<LengthUnit> {
        self.document.unit
    }

    /// Whether the key is written.
    pub fn has(&self, key: &Key) -> bool {
        self.table.contains_key(key.name)
    }

    /// The place of a key's value.
    pub fn span(&self, key: &Key) -> Option<Range<usize>> {
        self.item(key).map(Spanned::span)
    }

    /// Notes a problem at a key's value; at the head of the table where the key is not written.
    pub fn problem_at(&self, key: &Key, message: String, help: Option<String>) {
        let span = self.span(key).unwrap_or_else(|| self.head_span());
        self.problem_in(span, message, help);
    }

    /// Notes a problem at the value behind a name, here or in a table inside; at the head where it is not written.
    pub fn problem_at_name(&self, name: &str, message: String, help: Option<String>) {
        let inside = || {
            self.table.values().find_map(|item| match item.get_ref() {
                DeValue::Table(table) => table.get(name).map(Spanned::span),
                _ => None,
            })
        };
        let span = self.table.get(name).map(Spanned::span).or_else(inside).unwrap_or_else(|| self.head_span());
        self.problem_in(span, message, help);
    }

    /// Tells what is taken where the key is not written, and why.
    pub fn left_out(&self, key: &'static Key, taken: impl Into<Taken>, why: &'static str) {
        self.left_out_of(key, "", taken, why);
    }

    /// The same of one row of several: the name of the row goes with it.
    pub fn left_out_of(&self, key: &'static Key, row: &str, taken: impl Into<Taken>, why: &'static str) {
        if self.has(key) {
            return;
        }
        let size = if row.is_empty() { key.size() } else { key.size_of(row) };
        self.document.left_out.borrow_mut().push(LeftOut { size, taken: taken.into(), why });
    }

    /// What was left out of the file so far, in the order in which it was looked for.
    pub fn all_left_out(&self) -> Vec<LeftOut> {
        self.document.left_out()
    }

    /// Notes that something is missing from this table.
    pub fn missing(&self, message: &str, help: Option<&str>) {
        self.document.note(self.head_span(), message, help);
    }

    /// Notes a problem of the table as a whole.
    pub fn problem_here(&self, message: String) {
        self.document.note(self.head_span(), &message, None);
    }

    /// Notes a problem at a place given by a value read before.
    pub fn problem_in(&self, span: Range<usize>, message: String, help: Option<String>) {
        self.document.note(span, &message, help.as_deref());
    }

    /// The line of `family` for the top level, else the head of the table.
    fn head_span(&self) -> Range<usize> {
        if !self.head.is_empty() {
            return self.head.clone();
        }
        let first_line = self.document.text.lines().next().unwrap_or_default();
        self.table.get("family").map_or(0..first_line.len(), Spanned::span)
    }

    pub(super) fn need<T>(&self, key: &Key, value: Option<T>) -> Option<T> {
        if value.is_none() && !self.has(key) {
            self.missing(&format!("`{}` is missing: {}", key.name, key.help), None);
        }
        value
    }

    pub(super) fn item(&self, key: &Key) -> Option<Item<'d>> {
        self.table.get(key.name)
    }

    /// What is written, as in the file; a list on one line, without the remarks between its items.
    pub(super) fn written(&self, item: Item) -> String {
        match item.get_ref() {
            DeValue::String(text) => text.to_string(),
            DeValue::Array(items) => {
                format!("[{}]", items.iter().map(|i| self.written(i)).collect::<Vec<_>>().join(", "))
            }
            _ => printable(self.document.text.get(item.span()).unwrap_or_default()),
        }
    }

    pub(super) fn given<T>(&self, item: Item, value: T) -> Given<T> {
        Given { value, text: self.written(item), span: item.span() }
    }

    /// Notes that something else is written than what is wanted.
    pub(super) fn not_this(&self, item: Item, key: &Key, wanted: &str) {
        let what = match item.get_ref() {
            DeValue::String(_) => "a text",
            DeValue::Integer(_) | DeValue::Float(_) => "a bare number",
            DeValue::Boolean(_) => "true or false",
            DeValue::Datetime(_) => "a date",
            DeValue::Array(_) => "a list",
            DeValue::Table(_) => "a table",
        };
        let subject = self.subject(&item.span(), key);
        self.document.note(item.span(), &format!("{subject} is {what}; {wanted} is wanted"), Some(key.help));
    }

    /// What a fault is about: the key, or an item of the list behind it.
    pub(super) fn subject(&self, span: &Range<usize>, key: &Key) -> String {
        let whole = self.span(key).is_some_and(|s| s == *span);
        format!("{}`{}`", if whole { "" } else { "an item of " }, key.name)
    }

    /// Reads each item of a list; `None` if one failed.
    pub(super) fn all<T>(&self, array: &'d DeArray<'d>, read: impl Fn(Item<'d>) -> Option<T>) -> Option<Vec<T>> {
        let values = self.each(array, read);
        (values.len() == array.len()).then_some(values)
    }

    /// Reads each item of a list and gives those that are right. After a hundred that are not the rest is left.
    fn each<T>(&self, array: &'d DeArray<'d>, read: impl Fn(Item<'d>) -> Option<T>) -> Vec<T> {
        let mut faults = 0;
        let mut values = Vec::new();
        for item in array.iter() {
            if faults == MOST_OF_A_KIND {
                self.document.note(item.span(), "the rest of this list is not looked at", None);
                break;
            }
            match read(item) {
                Some(value) => values.push(value),
                None => faults += 1,
            }
        }
        values
    }

    /// A table inside this one.
    pub fn table(&self, key: &Key) -> Option<Fields<'d>> {
        let item = self.item(key)?;
        let Kind::Table(keys) = key.kind else { return None };
        match item.get_ref() {
            DeValue::Table(table) => Some(Fields::checked(self.document, table, self.head_of(key, item), keys)),
            _ => {
                self.not_this(item, key, "a table of keys");
                None
            }
        }
    }

    /// A table that must be there.
    pub fn required_table(&self, key: &Key) -> Option<Fields<'d>> {
        self.need(key, self.table(key))
    }

    /// The place of a table's name, to point at when something is missing in it.
    fn head_of(&self, key: &Key, item: Item) -> Range<usize> {
        self.table.get_key_value(key.name).map_or_else(|| item.span(), |(name, _)| name.span())
    }

    /// A list of tables; empty where the key is not written.
    pub fn rows(&self, key: &Key) -> Vec<Fields<'d>> {
        let (Some(item), Kind::Rows(keys)) = (self.item(key), key.kind) else { return Vec::new() };
        let DeValue::Array(array) = item.get_ref() else {
            self.not_this(item, key, "a list of tables");
            return Vec::new();
        };
        let row = |row: Item<'d>| match row.get_ref() {
            DeValue::Table(table) => Some(Fields::checked(self.document, table, self.row_head(row), keys)),
            _ => {
                self.not_this(row, key, "a table of keys");
                None
            }
        };
        self.each(array, row)
    }

    /// The head of one table of a list; its first line where the parser gives the whole.
    fn row_head(&self, row: Item) -> Range<usize> {
        let span = row.span();
        let text = self.document.text.get(span.clone()).unwrap_or_default();
        let first = text.lines().next().unwrap_or_default().len();
        span.start..span.start + first
    }
}

/// The nearest of the words, as a question.
pub(super) fn did_you_mean(word: &str, known: &[&str]) -> Option<String> {
    let near = suggest::nearest(word, known.iter().copied());
    (!near.is_empty()).then(|| format!("did you mean {}?", near.join(" or ")))
}

/// At most forty characters of a word, for messages.
pub(super) fn shortened(word: &str) -> String {
    if word.chars().count() <= 40 { word.into() } else { word.chars().take(39).chain(['…']).collect() }
}
