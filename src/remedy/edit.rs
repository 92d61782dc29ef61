//! Single values of a part file found and replaced; every other byte stays.

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use crate::units::LengthUnit;

/// A value of a part file.
pub struct Found<'t> {
    /// As read.
    pub value: DeValue<'t>,
    /// Its place.
    pub place: Range<usize>,
}

type Item<'d, 't> = &'d Spanned<DeValue<'t>>;

/// A part file whose values can be looked up by their paths.
pub struct File<'t> {
    text: &'t str,
    table: Spanned<DeTable<'t>>,
}

impl<'t> File<'t> {
    /// Reads the text; none where it is no sound TOML.
    pub fn read(text: &'t str) -> Option<Self> {
        DeTable::parse(text).ok().map(|table| Self { text, table })
    }

    /// The value at a path.
    pub fn at(&self, path: &str) -> Option<Found<'t>> {
        let item = self.item(path)?;
        Some(Found { value: item.get_ref().clone(), place: item.span() })
    }

    /// What stands at a path, as written.
    pub fn written(&self, path: &str) -> Option<&'t str> {
        self.text.get(self.item(path)?.span())
    }

    /// A text at a path.
    pub fn string(&self, path: &str) -> Option<String> {
        match self.item(path)?.get_ref() {
            DeValue::String(text) => Some(text.to_string()),
            _ => None,
        }
    }

    /// The unit of bare numbers, where the file states one.
    pub fn unit(&self) -> Option<LengthUnit> {
        self.string("units").map(|unit| if unit == "in" { LengthUnit::Inch } else { LengthUnit::Mm })
    }

    fn item(&self, path: &str) -> Option<Item<'_, 't>> {
        let (first, rest) = head(path);
        let item = self.table.get_ref().get(first)?;
        rest.map_or(Some(item), |rest| inside(item, rest))
    }

    /// Every path that a path with stars stands for, in the order of the rows.
    pub fn paths(&self, path: &str) -> Vec<String> {
        let Some((before, after)) = path.split_once(".*") else { return vec![path.to_string()] };
        let rows = match self.item(before).map(Spanned::get_ref) {
            Some(DeValue::Array(rows)) => rows.len(),
            _ => 0,
        };
        (0..rows).flat_map(|i| self.paths(&format!("{before}.{i}{after}"))).collect()
    }

    /// Paths of all texts that are exactly this one.
    pub fn that_read(&self, wanted: &str) -> Vec<String> {
        let mut found = Vec::new();
        for (name, item) in self.table.get_ref() {
            gather(name.get_ref(), item, wanted, &mut found);
        }
        found
    }

    /// Whether the table in which a path stands is there.
    pub fn has_table_of(&self, path: &str) -> bool {
        path.rsplit_once('.').is_none_or(|(table, _)| table.contains('*') || self.item(table).is_some())
    }

    /// The text with another value at a path; a key that is not there yet is written behind the last one of its table, and a
    /// table that is not there at the end of the file. None where it would stand in a table of a table or in a row.
    pub fn with(&self, path: &str, to: &str) -> Option<String> {
        if let Some(item) = self.item(path) {
            return Some(spliced(self.text, item.span(), to));
        }
        let (table, key) = path.rsplit_once('.').map_or((None, path), |(table, key)| (Some(table), key));
        let after = match table {
            None => last_of(self.table.get_ref()).unwrap_or(0),
            Some(table) => {
                let Some(item) = self.item(table) else { return self.with_table(table, key, to) };
                let DeValue::Table(inner) = item.get_ref() else { return None };
                let written = self.text.get(item.span()).unwrap_or_default();
                if written.starts_with('{') {
                    let end = item.span().end.checked_sub(1)?;
                    let comma = if inner.is_empty() { "" } else { ", " };
                    let close = self.text.get(..end)?.trim_end().len();
                    return Some(spliced(self.text, close..end, &format!("{comma}{key} = {to} ")));
                }
                last_of(inner).unwrap_or(item.span().end)
            }
        };
        Some(self.line_after(after, &format!("{key} = {to}")))
    }

    /// The text with a table more at its end.
    fn with_table(&self, table: &str, key: &str, to: &str) -> Option<String> {
        if table.contains('.') {
            return None;
        }
        let feed = self.feed();
        let end = if self.text.is_empty() || self.text.ends_with('\n') { "" } else { feed };
        Some(format!("{}{end}{feed}[{table}]{feed}{key} = {to}{feed}", self.text))
    }

    /// The text with a row more at the end of a list of tables, its keys as they are to be written; a list that is not there
    /// yet begins at the end of the file. None where something else stands under that name.
    pub fn with_row(&self, list: &str, row: &[(&str, String)]) -> Option<String> {
        let feed = self.feed();
        if let Some(item) = self.item(list) {
            let DeValue::Array(rows) = item.get_ref() else { return None };
            if self.text.get(item.span())?.starts_with('[') && !self.text.get(item.span())?.starts_with("[[") {
                let inline = row.iter().map(|(key, value)| format!("{key} = {value}")).collect::<Vec<_>>().join(", ");
                let behind = rows.iter().last().map_or(item.span().start + 1, |last| last.span().end);
                let comma = if rows.is_empty() { "" } else { ", " };
                return Some(spliced(self.text, behind..behind, &format!("{comma}{{ {inline} }}")));
            }
        }
        let lines: String = row.iter().map(|(key, value)| format!("{key} = {value}{feed}")).collect();
        let end = if self.text.is_empty() || self.text.ends_with('\n') { "" } else { feed };
        Some(format!("{}{end}{feed}[[{list}]]{feed}{lines}", self.text))
    }

    /// The text without the last row of a list of tables; what stands behind it stays. None where there is no row.
    pub fn without_last_row(&self, list: &str) -> Option<String> {
        let DeValue::Array(rows) = self.item(list)?.get_ref() else { return None };
        let (count, last) = (rows.len(), rows.iter().last()?);
        let DeValue::Table(table) = last.get_ref() else { return None };
        let span = last.span();
        if self.text.get(span.clone())?.starts_with('{') {
            let from = count.checked_sub(2).and_then(|i| rows.get(i)).map_or(span.start, |before| before.span().end);
            return Some(spliced(self.text, from..span.end, ""));
        }
        let inside = table.values().map(|value| value.span().end).max().unwrap_or(span.end);
        let line = |byte: usize| self.text.get(..byte).and_then(|t| t.rfind('\n')).map_or(0, |at| at + 1);
        let begin = line(span.start);
        let end = self.text.get(inside..)?.find('\n').map_or(self.text.len(), |at| inside + at + 1);
        // The empty line that was written before it goes with it.
        let feed = self.feed();
        let before = self.text.get(..begin)?;
        let empty = before == feed || before.strip_suffix(feed).is_some_and(|rest| rest.ends_with('\n'));
        let gap = if empty { feed.len() } else { 0 };
        Some(spliced(self.text, begin - gap..end, ""))
    }

    /// How the file ends its lines.
    fn feed(&self) -> &'static str {
        if self.text.contains("\r\n") { "\r\n" } else { "\n" }
    }

    /// The text with a line more behind the one in which that byte lies.
    fn line_after(&self, byte: usize, line: &str) -> String {
        let rest = self.text.get(byte..).unwrap_or_default();
        let feed = self.feed();
        match rest.find('\n') {
            _ if byte == 0 => format!("{line}{feed}{}", self.text),
            Some(end) => spliced(self.text, byte + end + 1..byte + end + 1, &format!("{line}{feed}")),
            None => format!("{}{feed}{line}{feed}", self.text),
        }
    }
}

/// Where the last plain value of a table ends; its tables and their rows follow under heads of their own.
fn last_of(table: &DeTable) -> Option<usize> {
    let plain = table.values().filter(|item| match item.get_ref() {
        DeValue::Table(_) => false,
        DeValue::Array(rows) => !matches!(rows.first().map(Spanned::get_ref), Some(DeValue::Table(_))),
        _ => true,
    });
    plain.map(|item| item.span().end).max()
}

fn head(path: &str) -> (&str, Option<&str>) {
    path.split_once('.').map_or((path, None), |(first, rest)| (first, Some(rest)))
}

fn inside<'d, 't>(item: Item<'d, 't>, path: &str) -> Option<Item<'d, 't>> {
    let (first, rest) = head(path);
    let item = match item.get_ref() {
        DeValue::Table(table) => table.get(first)?,
        DeValue::Array(rows) => rows.get(first.parse::<usize>().ok()?)?,
        _ => return None,
    };
    rest.map_or(Some(item), |rest| inside(item, rest))
}

fn gather(path: &str, item: Item, wanted: &str, found: &mut Vec<String>) {
    match item.get_ref() {
        DeValue::String(text) if text == wanted => found.push(path.to_string()),
        DeValue::Table(table) => {
            for (name, inner) in table {
                gather(&format!("{path}.{}", name.get_ref()), inner, wanted, found);
            }
        }
        DeValue::Array(rows) => {
            for (i, inner) in rows.iter().enumerate() {
                gather(&format!("{path}.{i}"), inner, wanted, found);
            }
        }
        _ => {}
    }
}

fn spliced(text: &str, place: Range<usize>, to: &str) -> String {
    let (before, after) = (text.get(..place.start).unwrap_or_default(), text.get(place.end..).unwrap_or_default());
    [before, to, after].concat()
}

#[cfg(test)]
mod tests {
    use super::*;

    const FILE: &str = "family = \"cup\" # kept\nunits = \"in\"\n\n[hole]  # here\ndiameter = '1 in'  # as drilled\n\n[mounting]\nspacing = [1.0, 2.0]\n[[seat]]\nname = \"A\"\n[[seat]]\nname = \"B\"\nheight = \"1 mm\"\n";

    #[test]
    fn one_value_changes_and_nothing_else() {
        let file = File::read(FILE).unwrap();
        let changed = file.with("hole.diameter", "\"1.1 in\"").unwrap();
        assert_eq!(changed, FILE.replace("'1 in'", "\"1.1 in\""));
        assert_eq!(file.with("mounting.spacing.1", "2.5").unwrap(), FILE.replace("2.0]", "2.5]"));
        assert_eq!(file.with("seat.1.height", "\"2 mm\"").unwrap(), FILE.replace("1 mm", "2 mm"));
        assert_eq!(file.written("hole.diameter"), Some("'1 in'"));
    }

    #[test]
    fn a_new_key_stands_in_its_table() {
        let file = File::read(FILE).unwrap();
        let changed = file.with("hole.chamfer", "0.02").unwrap();
        assert_eq!(changed, FILE.replace("# as drilled\n", "# as drilled\nchamfer = 0.02\n"));
        let changed = file.with("thickness", "0.3").unwrap();
        assert_eq!(changed, FILE.replace("units = \"in\"\n", "units = \"in\"\nthickness = 0.3\n"));
        let changed = file.with("seat.0.height", "\"2 mm\"").unwrap();
        assert_eq!(changed, FILE.replace("name = \"A\"\n", "name = \"A\"\nheight = \"2 mm\"\n"));
        assert!(!file.has_table_of("nothing.here") && file.has_table_of("hole.here") && file.has_table_of("here"));
        let table = file.with("nothing.here", "1").unwrap();
        assert_eq!(table, format!("{FILE}\n[nothing]\nhere = 1\n"));
        assert!(file.with("nothing.at.all", "1").is_none(), "a table of a table");
        for text in [&changed, &file.with("hole.chamfer", "0.02").unwrap()] {
            assert!(File::read(text).is_some());
        }
        let inline = File::read("hole = { diameter = 1 }\r\n").unwrap();
        assert_eq!(inline.with("hole.class", "\"H7\"").unwrap(), "hole = { diameter = 1, class = \"H7\" }\r\n");
        assert_eq!(inline.with("count", "2").unwrap(), "count = 2\r\nhole = { diameter = 1 }\r\n");
        assert_eq!(File::read("a = 1").unwrap().with("b", "2").unwrap(), "a = 1\nb = 2\n");
    }

    #[test]
    fn a_row_comes_and_goes() {
        let row = [("what", "\"bore\"".to_string()), ("value", "\"25.01 mm\"".to_string())];
        let lines = "[[measured]]\nwhat = \"bore\"\nvalue = \"25.01 mm\"\n";
        for text in [FILE, "a = 1\n", "", "\n", "a = 1\n\n\n", "\u{feff}a = 1\n# end\n", "[x]\ny = 1\n"] {
            let one = File::read(text).unwrap().with_row("measured", &row).unwrap();
            assert_eq!(one, format!("{text}\n{lines}"));
            let two = File::read(&one).unwrap().with_row("measured", &row).unwrap();
            assert_eq!(File::read(&two).unwrap().without_last_row("measured").unwrap(), one);
            assert_eq!(File::read(&one).unwrap().without_last_row("measured").unwrap(), text);
        }
        let windows = File::read("a = 1\r\n").unwrap().with_row("measured", &row).unwrap();
        assert_eq!(windows, format!("a = 1\n\n{lines}").replace('\n', "\r\n"));
        assert_eq!(File::read(&windows).unwrap().without_last_row("measured").unwrap(), "a = 1\r\n");
        // Without a line feed at its end a file gets one; what stands behind the row stays.
        assert_eq!(File::read("a = 1").unwrap().with_row("measured", &row).unwrap(), format!("a = 1\n\n{lines}"));
        let behind = format!("a = 1\n{lines}# mine\n[b]\nc = 2\n");
        assert_eq!(File::read(&behind).unwrap().without_last_row("measured").unwrap(), "a = 1\n# mine\n[b]\nc = 2\n");
    }

    #[test]
    fn a_row_of_a_list_on_one_line() {
        let row = [("what", "\"x\"".to_string())];
        for (text, one) in [
            ("measured = []\nb = 1\n", "measured = [{ what = \"x\" }]\nb = 1\n"),
            ("measured = [ { what = 'y' }, ] # own\n", "measured = [ { what = 'y' }, { what = \"x\" }, ] # own\n"),
        ] {
            let got = File::read(text).unwrap().with_row("measured", &row).unwrap();
            assert_eq!(got, one);
            assert_eq!(File::read(&got).unwrap().without_last_row("measured").unwrap(), text);
        }
        assert!(File::read("measured = 1\n").unwrap().with_row("measured", &row).is_none());
        assert!(File::read("a = 1\n").unwrap().without_last_row("measured").is_none());
    }

    #[test]
    fn rows_and_questions_are_found() {
        let file = File::read(FILE).unwrap();
        assert_eq!(file.paths("seat.*.height"), ["seat.0.height", "seat.1.height"]);
        assert_eq!(file.paths("hole.diameter"), ["hole.diameter"]);
        assert!(file.paths("member.*.size").is_empty());
        let asked =
            File::read("a = \"?\"\n[hole]\ndiameter = '?'\nsteps = [\"1 mm\", \"?\"]\nname = \"what?\"\n").unwrap();
        assert_eq!(asked.that_read("?"), ["a", "hole.diameter", "hole.steps.1"]);
    }
}
