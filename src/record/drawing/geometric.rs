//! Geometric tolerances: what a surface or an axis is held to, and against which datums (ISO 1101:2017, ISO 5459:2011).

use crate::record::key::Size;

/// What is held.
#[allow(dead_code, reason = "the table of ISO 1101 stands whole, and the sheet draws all of it")]
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Characteristic {
    /// A line is straight.
    Straightness,
    /// A face is flat.
    Flatness,
    /// A circle is round.
    Roundness,
    /// A cylinder is round and straight.
    Cylindricity,
    /// Parallel to a datum.
    Parallelism,
    /// Square to a datum.
    Perpendicularity,
    /// At a stated angle to a datum.
    Angularity,
    /// At its stated place.
    Position,
    /// On the same axis as a datum.
    Coaxiality,
    /// On the middle plane of a datum.
    Symmetry,
    /// Any one turn about the datum axis.
    CircularRunOut,
    /// The whole surface, turned about the datum axis.
    TotalRunOut,
}

impl Characteristic {
    /// All of them.
    #[allow(dead_code, reason = "tests draw every one")]
    pub const ALL: [Self; 12] = [
        Self::Straightness,
        Self::Flatness,
        Self::Roundness,
        Self::Cylindricity,
        Self::Parallelism,
        Self::Perpendicularity,
        Self::Angularity,
        Self::Position,
        Self::Coaxiality,
        Self::Symmetry,
        Self::CircularRunOut,
        Self::TotalRunOut,
    ];
}

/// A tolerance frame; the width of the zone is a recorded dimension like any other.
#[derive(Clone, PartialEq, Debug)]
pub struct Frame {
    /// What is held.
    pub what: Characteristic,
    /// Key of the recorded width of the zone.
    pub key: String,
    /// The zone is a cylinder: Ø stands before its width.
    pub round: bool,
    /// Datums in their order.
    pub to: Vec<char>,
}

impl Frame {
    /// A zone between two lines, planes or circles, the recorded length of that size wide.
    pub fn new(what: Characteristic, size: &Size) -> Self {
        Self { what, key: size.name().into(), round: false, to: Vec::new() }
    }

    /// The same with a cylinder for a zone.
    pub fn round(mut self) -> Self {
        self.round = true;
        self
    }

    /// The same held against one more datum.
    pub fn to(mut self, letter: char) -> Self {
        self.to.push(letter);
        self
    }
}
