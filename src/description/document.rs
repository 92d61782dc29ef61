//! One part file as it was read, and the collector of its problems.

use std::cell::RefCell;
use std::ops::Range;

use toml::Spanned;
use toml::de::DeTable;

use super::Problem;
use crate::units::LengthUnit;

/// A part file.
pub struct Document<'t> {
    pub(super) file: String,
    pub(super) text: &'t str,
    pub(super) table: Spanned<DeTable<'t>>,
    pub(super) unit: Option<LengthUnit>,
    pub(super) problems: RefCell<Vec<Problem>>,
}

impl<'t> Document<'t> {
    /// Notes a problem.
    pub(super) fn note(&self, span: Range<usize>, message: &str, help: Option<&str>) {
        self.problems.borrow_mut().push(Problem::at(&self.file, span, message, help));
    }

    /// All problems in the order of their places, none twice.
    pub fn into_problems(self) -> Vec<Problem> {
        let mut problems = self.problems.into_inner();
        let place = |p: &Problem| p.span.as_ref().map_or((0, 0), |s| (s.start, s.end));
        problems.sort_by(|a, b| place(a).cmp(&place(b)).then_with(|| a.message.cmp(&b.message)));
        problems.dedup_by(|a, b| a.span == b.span && a.message == b.message);
        problems
    }
}
