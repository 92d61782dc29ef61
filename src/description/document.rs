//! One part file as it was read, and the collector of its problems.

use std::cell::RefCell;
use std::ops::Range;

use toml::Spanned;
use toml::de::DeTable;

use super::Problem;
use crate::record::key::Size;
use crate::units::{Angle, Length, LengthUnit};

/// A part file.
pub struct Document<'t> {
    pub(super) file: String,
    pub(super) text: &'t str,
    pub(super) table: Spanned<DeTable<'t>>,
    pub(super) unit: Option<LengthUnit>,
    pub(super) problems: RefCell<Vec<Problem>>,
    pub(super) left_out: RefCell<Vec<LeftOut>>,
}

/// A key that is not written though it counts, and what is taken in its place.
#[derive(Clone, Debug)]
pub struct LeftOut {
    /// What tells it.
    pub size: Size,
    pub taken: Taken,
    pub why: &'static str,
}

/// What is taken where a key is not written.
#[derive(Clone, PartialEq, Debug)]
pub enum Taken {
    Word(String),
    Count(u32),
    Length(Length),
    /// Ra of a surface.
    Roughness(Length),
    Angle(Angle),
}

impl<T: Into<String>> From<T> for Taken {
    fn from(word: T) -> Self {
        Self::Word(word.into())
    }
}

impl<'t> Document<'t> {
    /// Notes a problem.
    pub(super) fn note(&self, span: Range<usize>, message: &str, help: Option<&str>) {
        self.problems.borrow_mut().push(Problem::at(&self.file, span, message, help));
    }

    /// What was left out so far, in the order in which it was looked for.
    pub fn left_out(&self) -> Vec<LeftOut> {
        self.left_out.borrow().clone()
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
