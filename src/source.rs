//! Where a number comes from. Every limit, table row and check carries one of these.

use std::fmt;

/// Where a rule, a formula or a figure comes from.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Source {
    /// A published work: standard, handbook, textbook, with edition and place.
    Published(&'static str),
    /// Worked out in this project from stated assumptions; the text says which.
    Derived(&'static str),
    /// A fact of the trade that no publication was found for.
    CommonPractice,
    /// Written down from memory; the text says of what. Not confirmed.
    Memory(&'static str),
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Published(work) => f.write_str(work),
            Self::Derived(from) => write!(f, "derived: {from}"),
            Self::CommonPractice => f.write_str("common practice, no source"),
            Self::Memory("") => f.write_str("from memory, unconfirmed"),
            Self::Memory(what) => write!(f, "from memory, unconfirmed: {what}"),
        }
    }
}

/// How well a table value is confirmed by publications independent of each other.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Confirmed {
    /// Not seen in print; from memory. Shown as unconfirmed wherever it decides something.
    Memory,
    /// Seen in one publication.
    One,
    /// Seen in two or more publications.
    TwoOrMore,
}

/// A value with its source.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Cited<T> {
    /// The value itself.
    pub value: T,
    /// How well it is confirmed.
    pub confirmed: Confirmed,
    /// Where it was read.
    pub source: &'static str,
}
