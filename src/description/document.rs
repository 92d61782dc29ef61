//! One part file: parsed, with the collector of its problems.

use std::cell::{Cell, RefCell};
use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::Problem;
use super::fields::Fields;
use crate::key::Key;
use crate::units::LengthUnit;

/// The most that a part file may hold, in bytes; far beyond any that a person writes.
pub const MAX_BYTES: usize = 1 << 20;
/// Problems noted before the rest are only counted as one.
const MOST_NOTED: usize = 200;

/// A part file.
pub struct Document<'t> {
    file: String,
    pub(super) text: &'t str,
    table: Spanned<DeTable<'t>>,
    pub(super) unit: Option<LengthUnit>,
    problems: RefCell<Vec<Problem>>,
    full: Cell<bool>,
}

impl<'t> Document<'t> {
    /// Parses a file's text.
    ///
    /// # Errors
    /// All faults of the TOML itself.
    pub fn parse(file: &str, text: &'t str) -> Result<Self, Vec<Problem>> {
        let (table, errors) = DeTable::parse_recoverable(text);
        if !errors.is_empty() {
            let problem = |e: toml::de::Error| syntax(file, text, e.message(), e.span());
            return Err(errors.into_iter().map(problem).collect());
        }
        let unit = match table.get_ref().get("units").map(Spanned::get_ref) {
            Some(DeValue::String(s)) if s == "mm" => Some(LengthUnit::Mm),
            Some(DeValue::String(s)) if s == "in" => Some(LengthUnit::Inch),
            _ => None,
        };
        Ok(Self { file: file.into(), text, table, unit, problems: RefCell::default(), full: Cell::new(false) })
    }

    /// The top level, held against a family's keys: unknown keys are noted.
    pub fn root(&self, keys: &'static [Key]) -> Fields<'_> {
        Fields::checked(self, self.table.get_ref(), 0..0, keys)
    }

    /// The top level without a look at its keys, to find out the family.
    pub fn root_unchecked(&self) -> Fields<'_> {
        Fields::unchecked(self, self.table.get_ref(), 0..0)
    }

    /// Notes a problem.
    pub(super) fn note(&self, span: Range<usize>, message: String, help: Option<String>) {
        let mut problems = self.problems.borrow_mut();
        if problems.len() >= MOST_NOTED {
            self.full.set(true);
            return;
        }
        problems.push(Problem { file: self.file.clone(), span: Some(span), message, help });
    }

    /// Whether so many problems were noted that no more are wanted.
    pub(super) fn is_full(&self) -> bool {
        self.full.get()
    }

    /// All problems in the order of their places, none twice.
    pub fn into_problems(self) -> Vec<Problem> {
        let mut problems = self.problems.into_inner();
        problems.sort_by_key(|p| p.span.as_ref().map_or((0, 0), |s| (s.start, s.end)));
        problems.dedup();
        problems
    }
}

/// A fault of the TOML, in words of the bench where the parser's own would not help.
fn syntax(file: &str, text: &str, message: &str, span: Option<Range<usize>>) -> Problem {
    let span = span.unwrap_or(0..0);
    let line_start = text.get(..span.start.min(text.len())).and_then(|t| t.rfind('\n')).map_or(0, |i| i + 1);
    let line = text.get(line_start..).and_then(|t| t.lines().next()).unwrap_or_default();
    if is_inch_mark_in_double_quotes(line) {
        return Problem {
            file: file.into(),
            span: Some(line_start..line_start + line.len()),
            message: "an inch mark inside double quotes ends the text too early".into(),
            help: Some("use single quotes around it, such as '3/8\"', or write 3/8 in".into()),
        };
    }
    Problem { file: file.into(), span: Some(span), message: format!("this is not TOML: {message}"), help: None }
}

/// `key = "3/8""`: an odd number of double quotes, the last two together after a digit.
fn is_inch_mark_in_double_quotes(line: &str) -> bool {
    let Some((_, value)) = line.split_once('=') else { return false };
    let marks = value.matches('"').count();
    let after_digit = value.split('"').nth(1).is_some_and(|inner| inner.ends_with(|c: char| c.is_ascii_digit()));
    value.trim_start().starts_with('"') && marks % 2 == 1 && after_digit
}

/// Bytes as text.
///
/// # Errors
/// The place of the first byte that is not UTF-8.
pub fn decode(file: &str, bytes: &[u8]) -> Result<String, Problem> {
    std::str::from_utf8(bytes).map(str::to_owned).map_err(|error| {
        let good = bytes.get(..error.valid_up_to()).and_then(|b| std::str::from_utf8(b).ok()).unwrap_or_default();
        let (line, column) = super::position(good, good.len());
        Problem {
            file: format!("{file}:{line}:{column}"),
            span: None,
            message: "this byte is not UTF-8 text".into(),
            help: Some(
                "save the file as UTF-8; ° and µ from other encodings are the usual cause (`deg` and `um` always do)"
                    .into(),
            ),
        }
    })
}
