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

    /// The text with another value at a path; a key that is not there yet is written behind the last one of its table. None
    /// where the table of the key is not there either.
    pub fn with(&self, path: &str, to: &str) -> Option<String> {
        if let Some(item) = self.item(path) {
            return Some(spliced(self.text, item.span(), to));
        }
        let (table, key) = path.rsplit_once('.').map_or((None, path), |(table, key)| (Some(table), key));
        let after = match table {
            None => last_of(self.table.get_ref()).unwrap_or(0),
            Some(table) => {
                let item = self.item(table)?;
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

    /// The text with a line more behind the one in which that byte lies.
    fn line_after(&self, byte: usize, line: &str) -> String {
        let rest = self.text.get(byte..).unwrap_or_default();
        let feed = if self.text.contains("\r\n") { "\r\n" } else { "\n" };
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
        assert!(file.with("nothing.here", "1").is_none(), "its table is not there");
        for text in [&changed, &file.with("hole.chamfer", "0.02").unwrap()] {
            assert!(File::read(text).is_some());
        }
        let inline = File::read("hole = { diameter = 1 }\r\n").unwrap();
        assert_eq!(inline.with("hole.class", "\"H7\"").unwrap(), "hole = { diameter = 1, class = \"H7\" }\r\n");
        assert_eq!(inline.with("count", "2").unwrap(), "count = 2\r\nhole = { diameter = 1 }\r\n");
        assert_eq!(File::read("a = 1").unwrap().with("b", "2").unwrap(), "a = 1\nb = 2\n");
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
