//! A size as it was measured: what was read, what it comes to at 20 degrees, how far it can be trusted, and what it means.

use crate::record::value::Value;
use crate::units::Temperature;
use crate::units::date::Date;

/// Good or not, as far as the instrument can tell.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Decision {
    /// Within the limits by more than the instrument leaves open.
    Accept,
    /// Beyond a limit by more than that.
    Reject,
    /// Too near a limit to tell.
    Open,
}

impl Decision {
    /// The word for programs.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Accept => "accept",
            Self::Reject => "reject",
            Self::Open => "open",
        }
    }

    /// The word for the bench.
    pub const fn said(self) -> &'static str {
        match self {
            Self::Accept => "good",
            Self::Reject => "not good",
            Self::Open => "too near to tell",
        }
    }
}

/// A reading of one size.
#[derive(Clone, PartialEq, Debug)]
pub struct Reading {
    /// The how-many-eth of the file's readings it is.
    pub row: usize,
    /// As it was read.
    pub read: Value,
    /// What it comes to at 20 degrees.
    pub value: Value,
    /// Its expanded uncertainty, coverage factor 2, in the unit of the value.
    pub u: Value,
    /// Good or not; none where the size has no limits.
    pub decision: Option<Decision>,
    /// What is to be done next, one sentence.
    pub next: String,
    /// The instrument.
    pub with: String,
    /// The instrument is written; else it is that of the order of work, or a usual one.
    pub told: bool,
    /// The instrument is not written, or its uncertainty is not the shop's own figure.
    pub assumed: bool,
    /// How warm the part was.
    pub at: Option<Temperature>,
    /// Which piece of several, from 1.
    pub piece: u32,
    /// The day.
    pub on: Option<Date>,
    /// Metal was cut since the reading before it.
    pub after_cut: bool,
    /// A remark.
    pub note: Option<String>,
    /// No later reading of that piece stands in its place.
    pub counts: bool,
}
