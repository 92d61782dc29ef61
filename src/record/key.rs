//! The keys of a part file as data: name, words for the sheet, kind and range. Reading, help and tests work from them.
//! And the handles of what is recorded: a size and a table are named in one place, and what draws, limits, measures or
//! looks one up takes the handle, so that a slip of the pen is no program.

use std::borrow::Cow;
use std::ops::Range;

use crate::units::Length;

/// One key of a part file.
#[derive(Debug)]
pub struct Key {
    /// As written in the file.
    pub name: &'static str,
    /// In the words of the trade, for sheets and lists.
    pub label: &'static str,
    /// What is written behind it.
    pub kind: Kind,
    /// One line: what it is, with an example.
    pub help: &'static str,
}

impl Key {
    /// A key.
    pub const fn new(name: &'static str, label: &'static str, kind: Kind, help: &'static str) -> Self {
        Self { name, label, kind, help }
    }

    /// The size that is recorded of it, in its words.
    pub const fn size(&self) -> Size {
        Size::new(self.name, self.label)
    }

    /// The same of one row or table of several: `material_shaft`, "material of the shaft".
    pub fn size_of(&self, row: &str) -> Size {
        let name = row.trim_start_matches("the ").replace(' ', "_");
        Size::one_of(format!("{}_{name}", self.name), "").called(format!("{} of {row}", self.label))
    }
}

/// Handle of a recorded size or figure: its name for programs, and its words for the sheet. The name is spoken once, in
/// `sizes.rs` of its family.
#[derive(Clone, Debug)]
pub struct Size {
    name: Cow<'static, str>,
    label: Cow<'static, str>,
}

impl Size {
    /// A size that every part of the family may have.
    pub const fn new(name: &'static str, label: &'static str) -> Self {
        Self { name: Cow::Borrowed(name), label: Cow::Borrowed(label) }
    }

    /// A size of one of several pieces, seats or ends, which are known only when the part is read.
    pub fn one_of(name: String, label: impl Into<Cow<'static, str>>) -> Self {
        Self { name: Cow::Owned(name), label: label.into() }
    }

    /// The same size in other words, where they depend on the part.
    pub fn called(&self, label: impl Into<Cow<'static, str>>) -> Self {
        Self { name: self.name.clone(), label: label.into() }
    }

    /// Its name, for what is written and looked up from outside.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Whether it is that size, in whatever words.
    pub fn is(&self, other: &Self) -> bool {
        self.name == other.name
    }

    /// Its words.
    pub fn label(&self) -> &str {
        &self.label
    }
}

/// Handle of a table.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct TableName(&'static str);

impl TableName {
    /// A table of that name; spoken once, in `sizes.rs` of its family.
    pub const fn new(name: &'static str) -> Self {
        Self(name)
    }

    /// Its name, for what is written and looked up from outside.
    pub const fn name(self) -> &'static str {
        self.0
    }
}

/// The handles of a family's sizes, a line each: `WALL = "wall", "wall of the tube";`.
macro_rules! sizes {
    ($($size:ident = $name:literal, $label:literal;)*) => {
        $(#[doc = $label] pub static $size: $crate::record::key::Size = $crate::record::key::Size::new($name, $label);)*
    };
}

/// The handles of sizes that are keys of the part file, a line each: `BORE = read::BORE;`.
macro_rules! sizes_of_keys {
    ($($size:ident = $key:path;)*) => {
        $(#[doc = concat!("`", stringify!($key), "`")] pub static $size: $crate::record::key::Size = $key.size();)*
    };
}

/// The handles of a family's tables, a line each: `LANDS_TABLE = "lands";`.
macro_rules! tables {
    ($($table:ident = $name:literal;)*) => {
        $(#[doc = $name] pub const $table: $crate::record::key::TableName = $crate::record::key::TableName::new($name);)*
    };
}
pub(crate) use {sizes, sizes_of_keys, tables};

/// What is written behind a key, with the range that the program accepts. Ranges are limits of sense; limits of
/// engineering are checks with a source.
#[derive(Clone, Copy, Debug)]
pub enum Kind {
    /// A length.
    Length(Bounds),
    /// A single length or a list of two, least and greatest, not below 0.
    LengthRange,
    /// A list of lengths.
    Lengths(Bounds),
    /// One length t for ±t, or a list of two, lower deviation first.
    Deviations,
    /// An angle between these degrees, both excluded.
    Angle(f64, f64),
    /// A mass above 0.
    Mass,
    /// A force, not below 0.
    Force,
    /// A mass (its weight is meant) or a force, above 0.
    Load,
    /// A stress above 0.
    Stress,
    /// A temperature.
    Temperature,
    /// A list of two temperatures, the lower first.
    TemperatureRange,
    /// An acceleration in g, not below 0.
    Acceleration,
    /// A pure number between these two, both included.
    Number(f64, f64),
    /// A list of pure numbers between these two, both included.
    Numbers(f64, f64),
    /// A whole number.
    Count {
        /// Least.
        min: u32,
        /// Greatest.
        max: u32,
    },
    /// `true` or `false`.
    Flag,
    /// Any text.
    Text,
    /// The name of a file beside this one.
    File,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// A table with its own keys.
    Table(&'static [Key]),
    /// A list of tables with their own keys.
    Rows(&'static [Key]),
    /// A list whose rows the family reads itself.
    List,
}

/// The smallest size that anything is made or measured to; what is smaller is a slip of the pen.
/// Source: common practice, no source.
pub const LEAST: Length = Length::um(1.0);

/// Range of a length.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Bounds {
    /// Above 0, and at least [`LEAST`].
    Positive,
    /// 0 or more; what is not 0 is at least [`LEAST`], as what is above 0.
    NotNegative,
    /// 0 or more, however small: a film, a roughness, a deviation.
    Fine,
    /// Any sign.
    Any,
}

impl Kind {
    /// A length above 0.
    pub const POSITIVE: Self = Self::Length(Bounds::Positive);
    /// A length of 0 or more.
    pub const NOT_NEGATIVE: Self = Self::Length(Bounds::NotNegative);
    /// A length of 0 or more, however small.
    pub const FINE: Self = Self::Length(Bounds::Fine);
    /// A length of any sign.
    pub const LENGTH: Self = Self::Length(Bounds::Any);
    /// Lengths above 0.
    pub const POSITIVES: Self = Self::Lengths(Bounds::Positive);
    /// A half-angle from the axis.
    pub const HALF_ANGLE: Self = Self::Angle(0.0, 90.0);
    /// The included angle of a drill's point.
    pub const TIP_ANGLE: Self = Self::Angle(20.0, 180.0);
    /// A direction.
    pub const ANY_ANGLE: Self = Self::Angle(-360.000_001, 360.000_001);
}

/// A value read from a part file, with the text as written and its place.
#[derive(Clone, Debug)]
pub struct Given<T> {
    /// The value.
    pub value: T,
    /// As written.
    pub text: String,
    /// Its bytes in the file.
    pub span: Range<usize>,
}

impl<T> Given<T> {
    /// The same place with another value.
    pub fn map<U>(self, change: impl FnOnce(T) -> U) -> Given<U> {
        Given { value: change(self.value), text: self.text, span: self.span }
    }
}
