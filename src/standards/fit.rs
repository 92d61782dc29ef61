//! What a hole and a shaft give together: clearance, transition or interference.

use crate::source::Confirmed;
use crate::units::Length;

/// The two deviations of a hole or shaft from its nominal size, with sign.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Limits {
    /// Lower deviation (EI, ei): least permitted size minus nominal size.
    pub lower: Length,
    /// Upper deviation (ES, es): greatest permitted size minus nominal size.
    pub upper: Length,
    /// The weakest confirmation among the table values used.
    pub confirmed: Confirmed,
    /// Where the deviation was read.
    pub source: &'static str,
}

impl Limits {
    /// True when a measured size lies within the limits, both ends included.
    ///
    /// Sizes are compared to 1 nm: adding a deviation to a nominal size rounds in the last binary place,
    /// far below anything that is measured.
    pub fn hold(&self, nominal: Length, measured: Length) -> bool {
        let off = measured - nominal;
        off >= self.lower - ROUNDING && off <= self.upper + ROUNDING
    }
}

/// 1 nm, see [`Limits::hold`].
const ROUNDING: Length = Length::um(0.001);

/// Kind of fit, ISO 286-1:2010, 3.3.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FitKind {
    /// Always clearance; the least may be nought.
    Clearance,
    /// Clearance or interference, as the sizes fall.
    Transition,
    /// Always interference; the least may be nought.
    Interference,
}

impl std::fmt::Display for FitKind {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Clearance => "clearance",
            Self::Transition => "transition",
            Self::Interference => "interference",
        })
    }
}

/// The range of clearances of a fit, on the diameter. Interference is negative clearance.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct FitRange {
    /// Smallest hole minus largest shaft.
    pub min_clearance: Length,
    /// Largest hole minus smallest shaft.
    pub max_clearance: Length,
    /// Middle of the two.
    pub mean: Length,
    /// What that makes it.
    pub kind: FitKind,
}

/// Clearances of a hole and a shaft of the same nominal size (ISO 286-1:2010, 3.3):
/// min = EI − es, max = ES − ei, mean = (min + max)/2, all on the diameter.
///
/// 25 H7/g6: hole 0/+21, shaft −20/−7 µm: 7 to 41, mean 24 µm, clearance.
pub fn fit_of(hole: &Limits, shaft: &Limits) -> FitRange {
    let (min, max) = (hole.lower - shaft.upper, hole.upper - shaft.lower);
    FitRange { min_clearance: min, max_clearance: max, mean: (min + max) / 2.0, kind: kind_of(min, max) }
}

fn kind_of(min: Length, max: Length) -> FitKind {
    if min >= Length::ZERO {
        FitKind::Clearance
    } else if max <= Length::ZERO {
        FitKind::Interference
    } else {
        FitKind::Transition
    }
}
