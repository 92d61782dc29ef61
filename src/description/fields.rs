//! One table of a part file, read key by key; every fault is noted in its place.

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::document::Document;
use crate::key::{Bounds, Given, Key, Kind};
use crate::suggest;
use crate::units::text::{self, TextError};
use crate::units::{Acceleration, Angle, Force, Length, LengthUnit, Mass, Stress, Temperature};

/// A table of a part file.
pub struct Fields<'d> {
    document: &'d Document<'d>,
    table: &'d DeTable<'d>,
    /// Place of the table's head, for what is missing in it.
    head: Range<usize>,
}

type Item<'d> = &'d Spanned<DeValue<'d>>;

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

    fn note_unknown(&self, keys: &[Key]) {
        let names: Vec<&str> = keys.iter().map(|k| k.name).collect();
        for key in self.table.keys().filter(|k| !names.contains(&k.get_ref().as_ref())) {
            if self.document.is_full() {
                return;
            }
            let near = suggest::nearest(key.get_ref(), names.iter().copied());
            let help = if near.is_empty() {
                format!("the keys here are {}", names.join(", "))
            } else {
                format!("did you mean {}?", near.join(" or "))
            };
            self.document.note(key.span(), format!("there is no key `{}` here", shortened(key.get_ref())), Some(help));
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

    /// Notes a problem at a key's value; at the head of the table where the key is not written.
    pub fn problem_at(&self, key: &Key, message: String, help: Option<String>) {
        let span = self.table.get(key.name).map_or_else(|| self.head_span(), Spanned::span);
        self.document.note(span, message, help);
    }

    /// Notes that something is missing from this table.
    pub fn missing(&self, message: &str, help: Option<&str>) {
        self.document.note(self.head_span(), message.into(), help.map(str::to_string));
    }

    /// Notes a problem of the table as a whole.
    pub fn problem_here(&self, message: String) {
        self.document.note(self.head_span(), message, None);
    }

    /// The line of `family` for the top level, else the head of the table.
    fn head_span(&self) -> Range<usize> {
        if !self.head.is_empty() {
            return self.head.clone();
        }
        self.table
            .get("family")
            .map_or(0..self.document.text.find('\n').unwrap_or(self.document.text.len()), Spanned::span)
    }

    fn need<T>(&self, key: &Key, value: Option<T>) -> Option<T> {
        if value.is_none() && !self.has(key) {
            self.missing(&format!("`{}` is missing: {}", key.name, key.help), None);
        }
        value
    }

    fn item(&self, key: &Key) -> Option<Item<'d>> {
        self.table.get(key.name)
    }

    /// What is written, as in the file.
    fn written(&self, item: Item) -> String {
        match item.get_ref() {
            DeValue::String(text) => text.to_string(),
            _ => self.document.text.get(item.span()).unwrap_or_default().to_string(),
        }
    }

    fn given<T>(&self, item: Item, value: T) -> Given<T> {
        Given { value, text: self.written(item), span: item.span() }
    }

    /// Notes a fault inside a text, at its very characters where the file holds them unchanged.
    fn note_text(&self, item: Item, inner: &str, error: TextError) {
        let span = item.span();
        let raw = self.document.text.get(span.clone()).unwrap_or_default();
        let inside = raw.get(1..raw.len().saturating_sub(1)).is_some_and(|r| r == inner);
        let place = if inside && !error.at.is_empty() {
            span.start + 1 + error.at.start..span.start + 1 + error.at.end
        } else {
            span
        };
        self.document.note(place, error.what, error.help);
    }

    fn not_this(&self, item: Item, key: &Key, wanted: &str) {
        let what = match item.get_ref() {
            DeValue::String(_) => "a text",
            DeValue::Integer(_) | DeValue::Float(_) => "a bare number",
            DeValue::Boolean(_) => "true or false",
            DeValue::Datetime(_) => "a date",
            DeValue::Array(_) => "a list",
            DeValue::Table(_) => "a table",
        };
        self.document.note(item.span(), format!("`{}` is {what}; {wanted} is wanted", key.name), Some(key.help.into()));
    }

    /// Reads a text with a unit by the given reader.
    fn quantity<T>(
        &self,
        item: Item,
        key: &Key,
        wanted: &str,
        read: impl Fn(&str) -> Result<T, TextError>,
    ) -> Option<Given<T>> {
        let DeValue::String(text) = item.get_ref() else {
            self.not_this(item, key, wanted);
            return None;
        };
        match read(text) {
            Ok(value) => Some(self.given(item, value)),
            Err(error) => {
                self.note_text(item, text, error);
                None
            }
        }
    }

    /// A text with a unit, by the given reader; `wanted` says what is.
    pub fn by<T>(&self, key: &Key, wanted: &str, read: impl Fn(&str) -> Result<T, TextError>) -> Option<Given<T>> {
        self.quantity(self.item(key)?, key, wanted, read)
    }

    fn one_length(&self, item: Item, key: &Key, bounds: Bounds) -> Option<Given<Length>> {
        let given = match (number(item), self.document.unit) {
            (Some(n), Some(unit)) => match text::length_from_number(n, unit) {
                Ok(value) => self.given(item, value),
                Err(error) => {
                    self.document.note(item.span(), error.what, error.help);
                    return None;
                }
            },
            (Some(_), None) => {
                let n = self.written(item);
                let help = format!(
                    "`{} = \"{n} mm\"` or `\"{n} in\"`, or state units = \"mm\" at the top of the file",
                    key.name
                );
                self.document.note(
                    item.span(),
                    format!("`{}` is a bare number; its unit is missing", key.name),
                    Some(help),
                );
                return None;
            }
            (None, unit) => self.quantity(item, key, "a length such as \"12 mm\" or \"1/2 in\"", |t| {
                text::length_with_default(t, unit)
            })?,
        };
        let wanted = match bounds {
            Bounds::Positive if given.value <= Length::ZERO => "greater than 0",
            Bounds::NotNegative if given.value < Length::ZERO => "0 or more",
            _ => return Some(given),
        };
        self.document.note(item.span(), format!("`{}` must be {wanted}", key.name), Some(key.help.into()));
        None
    }

    /// A length.
    pub fn length(&self, key: &Key) -> Option<Given<Length>> {
        let bounds = match key.kind {
            Kind::Length(bounds) => bounds,
            _ => Bounds::Any,
        };
        self.one_length(self.item(key)?, key, bounds)
    }

    /// A length that must be there.
    pub fn required_length(&self, key: &Key) -> Option<Given<Length>> {
        self.need(key, self.length(key))
    }

    /// A list of lengths.
    pub fn lengths(&self, key: &Key) -> Option<Given<Vec<Length>>> {
        let item = self.item(key)?;
        let bounds = match key.kind {
            Kind::Lengths(bounds) => bounds,
            _ => Bounds::Any,
        };
        let DeValue::Array(array) = item.get_ref() else {
            self.not_this(item, key, "a list of lengths such as [\"1 mm\", \"2 mm\"]");
            return None;
        };
        let read: Vec<Option<Given<Length>>> = array.iter().map(|i| self.one_length(i, key, bounds)).collect();
        let values: Option<Vec<Length>> = read.into_iter().map(|g| g.map(|g| g.value)).collect();
        Some(self.given(item, values?))
    }

    /// A list of lengths that must be there.
    pub fn required_lengths(&self, key: &Key) -> Option<Given<Vec<Length>>> {
        self.need(key, self.lengths(key))
    }

    /// One length (least and greatest alike) or a list of two, least first.
    pub fn length_range(&self, key: &Key) -> Option<Given<(Length, Length)>> {
        let item = self.item(key)?;
        let DeValue::Array(array) = item.get_ref() else {
            return self.one_length(item, key, Bounds::NotNegative).map(|g| g.map(|l| (l, l)));
        };
        let read: Vec<Option<Given<Length>>> =
            array.iter().map(|i| self.one_length(i, key, Bounds::NotNegative)).collect();
        let values: Vec<Length> = read.into_iter().map(|g| g.map(|g| g.value)).collect::<Option<_>>()?;
        match values.as_slice() {
            [least, greatest] if least < greatest => Some(self.given(item, (*least, *greatest))),
            _ => {
                self.document.note(
                    item.span(),
                    format!("`{}` as a list is two lengths, the least first", key.name),
                    Some(key.help.into()),
                );
                None
            }
        }
    }

    /// A range of lengths that must be there.
    pub fn required_length_range(&self, key: &Key) -> Option<Given<(Length, Length)>> {
        self.need(key, self.length_range(key))
    }

    fn within(&self, item: Item, key: &Key, inside: bool, range: String) -> bool {
        if !inside {
            self.document.note(item.span(), format!("`{}` must lie {range}", key.name), Some(key.help.into()));
        }
        inside
    }

    /// An angle.
    pub fn angle(&self, key: &Key) -> Option<Given<Angle>> {
        let item = self.item(key)?;
        let given = self.quantity(item, key, "an angle such as \"30 deg\"", text::angle)?;
        let Kind::Angle(above, below) = key.kind else { return Some(given) };
        let a = given.value.as_degrees();
        self.within(item, key, a > above && a < below, format!("between {:.0} and {:.0} degrees", above, below))
            .then_some(given)
    }

    /// An angle that must be there.
    pub fn required_angle(&self, key: &Key) -> Option<Given<Angle>> {
        self.need(key, self.angle(key))
    }

    /// A mass above 0.
    pub fn mass(&self, key: &Key) -> Option<Given<Mass>> {
        let item = self.item(key)?;
        let given = self.quantity(item, key, "a mass such as \"640 kg\"", text::mass)?;
        self.within(item, key, given.value > Mass::ZERO, "above 0".into()).then_some(given)
    }

    /// A force, not below 0.
    pub fn force(&self, key: &Key) -> Option<Given<Force>> {
        let item = self.item(key)?;
        let given = self.quantity(item, key, "a force such as \"2.5 kN\"", text::force)?;
        self.within(item, key, given.value >= Force::ZERO, "at 0 or above".into()).then_some(given)
    }

    /// A force, or a mass whose weight is meant; above 0.
    pub fn load(&self, key: &Key) -> Option<Given<Force>> {
        let item = self.item(key)?;
        let read = |t: &str| {
            text::force(t).or_else(|as_force| {
                text::mass(t).map(Mass::weight).map_err(|as_mass| if t.contains('g') { as_mass } else { as_force })
            })
        };
        let given = self.quantity(item, key, "a mass such as \"160 kg\" or a force such as \"1.6 kN\"", read)?;
        self.within(item, key, given.value > Force::ZERO, "above 0".into()).then_some(given)
    }

    /// A stress above 0.
    pub fn stress(&self, key: &Key) -> Option<Given<Stress>> {
        let item = self.item(key)?;
        let given = self.quantity(item, key, "a stress such as \"250 MPa\"", text::stress)?;
        self.within(item, key, given.value > Stress::ZERO, "above 0".into()).then_some(given)
    }

    /// A temperature.
    pub fn temperature(&self, key: &Key) -> Option<Given<Temperature>> {
        let item = self.item(key)?;
        let given = self.quantity(item, key, "a temperature such as \"60 C\"", text::temperature)?;
        self.within(item, key, given.value >= Temperature::ABSOLUTE_ZERO, "at or above absolute zero".into())
            .then_some(given)
    }

    /// An acceleration, not below 0.
    pub fn acceleration(&self, key: &Key) -> Option<Given<Acceleration>> {
        let item = self.item(key)?;
        let given = self.quantity(item, key, "an acceleration such as \"0.8 g\"", text::acceleration)?;
        self.within(item, key, given.value >= Acceleration::ZERO, "at 0 or above".into()).then_some(given)
    }

    fn one_number(&self, item: Item, key: &Key, least: f64, most: f64) -> Option<Given<f64>> {
        let value = match number(item) {
            Some(value) => value,
            None => self.quantity(item, key, "a pure number such as 0.3", text::bare_number)?.value,
        };
        self.within(item, key, value >= least && value <= most, format!("between {least} and {most}"))
            .then(|| self.given(item, value))
    }

    /// A pure number.
    pub fn number(&self, key: &Key) -> Option<Given<f64>> {
        let Kind::Number(least, most) = key.kind else { return None };
        self.one_number(self.item(key)?, key, least, most)
    }

    /// A list of pure numbers.
    pub fn numbers(&self, key: &Key) -> Option<Given<Vec<f64>>> {
        let item = self.item(key)?;
        let (Kind::Numbers(least, most), DeValue::Array(array)) = (key.kind, item.get_ref()) else {
            self.not_this(item, key, "a list of numbers such as [0.1, 0.3]");
            return None;
        };
        let read: Vec<Option<Given<f64>>> = array.iter().map(|i| self.one_number(i, key, least, most)).collect();
        let values: Option<Vec<f64>> = read.into_iter().map(|g| g.map(|g| g.value)).collect();
        Some(self.given(item, values?))
    }

    /// A whole number.
    pub fn count(&self, key: &Key) -> Option<Given<u32>> {
        let item = self.item(key)?;
        let Kind::Count { min, max } = key.kind else { return None };
        let DeValue::Integer(integer) = item.get_ref() else {
            self.not_this(item, key, "a whole number");
            return None;
        };
        let value = u32::from_str_radix(integer.as_str(), integer.radix()).ok().filter(|n| (min..=max).contains(n));
        self.within(item, key, value.is_some(), format!("between {min} and {max}"));
        Some(self.given(item, value?))
    }

    /// `true` or `false`.
    pub fn flag(&self, key: &Key) -> Option<Given<bool>> {
        let item = self.item(key)?;
        match item.get_ref() {
            DeValue::Boolean(value) => Some(self.given(item, *value)),
            _ => {
                self.not_this(item, key, "true or false");
                None
            }
        }
    }

    /// A text.
    pub fn text(&self, key: &Key) -> Option<Given<String>> {
        let item = self.item(key)?;
        match item.get_ref() {
            DeValue::String(value) => Some(self.given(item, value.to_string())),
            _ => {
                self.not_this(item, key, "a text in quotes");
                None
            }
        }
    }

    /// A text that must be there.
    pub fn required_text(&self, key: &Key) -> Option<Given<String>> {
        self.need(key, self.text(key))
    }

    /// One of the words of the key.
    pub fn choice(&self, key: &Key) -> Option<Given<&'static str>> {
        let text = self.text(key)?;
        let Kind::Choice(words) = key.kind else { return None };
        if let Some(word) = words.iter().find(|w| **w == text.value) {
            return Some(text.map(|_| *word));
        }
        let near = suggest::nearest(&text.value, words.iter().copied());
        let help = if near.is_empty() {
            format!("one of {}", words.join(", "))
        } else {
            format!("did you mean {}?", near.join(" or "))
        };
        self.problem_at(key, format!("`{}` cannot be `{}`", key.name, shortened(&text.value)), Some(help));
        None
    }

    /// One of the words of the key, which must be there.
    pub fn required_choice(&self, key: &Key) -> Option<Given<&'static str>> {
        self.need(key, self.choice(key))
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

    /// The place of a table's name, to point at when something is missing in it.
    fn head_of(&self, key: &Key, item: Item) -> Range<usize> {
        self.table.get_key_value(key.name).map_or_else(|| item.span(), |(name, _)| name.span())
    }

    /// A table that must be there.
    pub fn required_table(&self, key: &Key) -> Option<Fields<'d>> {
        self.need(key, self.table(key))
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
        array.iter().filter_map(row).collect()
    }

    /// The head of one table of a list; its first line where the parser gives the whole.
    fn row_head(&self, row: Item) -> Range<usize> {
        let span = row.span();
        let text = self.document.text.get(span.clone()).unwrap_or_default();
        let first = text.find('\n').unwrap_or(text.len());
        span.start..span.start + first.max(1).min(text.len().max(1))
    }

    /// The rows of a list of lists of texts, such as tape readings, each with its place.
    pub fn text_rows(&self, key: &Key) -> Option<Vec<Given<Vec<String>>>> {
        let item = self.item(key)?;
        let DeValue::Array(array) = item.get_ref() else {
            self.not_this(item, key, "a list");
            return None;
        };
        let row = |row: Item<'d>| match row.get_ref() {
            DeValue::Array(cells) => Some(self.given(row, cells.iter().map(|c| self.written(c)).collect())),
            _ => {
                self.not_this(row, key, "a list of lists");
                None
            }
        };
        let rows: Vec<Option<Given<Vec<String>>>> = array.iter().map(row).collect();
        rows.into_iter().collect()
    }

    /// Notes a problem at a place given by a value read before.
    pub fn problem_in(&self, span: Range<usize>, message: String, help: Option<String>) {
        self.document.note(span, message, help);
    }
}

/// The number of a TOML integer or float.
fn number(item: Item) -> Option<f64> {
    match item.get_ref() {
        DeValue::Integer(i) => i64::from_str_radix(i.as_str(), i.radix()).ok().map(|n| n as f64),
        DeValue::Float(f) => f.as_str().parse().ok(),
        _ => None,
    }
}

/// At most forty characters of a word, for messages.
fn shortened(word: &str) -> String {
    if word.chars().count() <= 40 { word.into() } else { word.chars().take(39).chain(['…']).collect() }
}
