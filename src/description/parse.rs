//! From the bytes of a part file to a document.

use std::cell::RefCell;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::{Document, Problem};
use super::{gate, syntax};
use crate::record::key::{Key, Kind};
use crate::units::LengthUnit;

/// The most that a part file may hold, in bytes; far beyond any that a person writes.
pub const MAX_BYTES: usize = 1 << 20;

/// The key that says what bare numbers are, in every file.
const UNITS: Key = Key::new("units", "units", Kind::Choice(&["mm", "in"]), "unit of bare numbers: \"mm\" or \"in\"");

impl<'t> Document<'t> {
    /// Parses a file's text. A wrong `units` and texts with unseen characters are noted at once.
    ///
    /// # Errors
    /// All faults of the TOML itself.
    pub fn parse(file: &str, text: &'t str) -> Result<Self, Vec<Problem>> {
        let (table, errors) = DeTable::parse_recoverable(text);
        if !errors.is_empty() {
            return Err(syntax::problems(file, text, &errors));
        }
        let unit = match table.get_ref().get(UNITS.name).map(Spanned::get_ref) {
            None => None,
            Some(DeValue::String(s)) if s == "in" => Some(LengthUnit::Inch),
            // A wrong word is noted below; that every bare number then lacks a unit would only hide it.
            Some(_) => Some(LengthUnit::Mm),
        };
        let document =
            Self { file: file.into(), text, table, unit, problems: RefCell::default(), left_out: RefCell::default() };
        gate::guard(&document, document.table.get_ref());
        document.root_unchecked().choice(&UNITS);
        Ok(document)
    }
}

/// Bytes as text.
///
/// # Errors
/// The place of the first byte that is not UTF-8.
pub fn decode(file: &str, bytes: &[u8]) -> Result<String, Problem> {
    std::str::from_utf8(bytes).map(str::to_owned).map_err(|error| {
        let good = bytes.get(..error.valid_up_to()).and_then(|b| std::str::from_utf8(b).ok()).unwrap_or_default();
        let (line, column) = super::position(good, good.len());
        let help =
            "save the file as UTF-8; ° and µ from other encodings are the usual cause (`deg` and `um` always do)";
        let message = "this byte is not UTF-8 text";
        Problem { help: Some(help.into()), ..Problem::whole_file(&format!("{file}:{line}:{column}"), message) }
    })
}
