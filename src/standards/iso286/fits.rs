//! Pairs of hole and shaft: reads "H7/g6", lists the preferred pairs, names those that hold two measured sizes.

use std::fmt;

use super::class::{ClassError, Feature, Name, ToleranceClass};
use super::{FitRange, Limits, fit_of, limits};
use crate::source::Confirmed;
use crate::units::Length;

/// A hole class with a shaft class.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Fit {
    /// The hole.
    pub hole: ToleranceClass,
    /// The shaft.
    pub shaft: ToleranceClass,
}

impl Fit {
    /// Reads "H7/g6": hole first.
    pub fn parse(text: &str) -> Result<Self, ClassError> {
        let wrong = || ClassError::NotAFit(text.trim().to_owned());
        let (hole, shaft) = text.split_once('/').ok_or_else(wrong)?;
        let (hole, shaft) = (ToleranceClass::parse(hole)?, ToleranceClass::parse(shaft)?);
        let in_order = hole.feature == Feature::Hole && shaft.feature == Feature::Shaft;
        if in_order { Ok(Self { hole, shaft }) } else { Err(wrong()) }
    }

    /// Limits of hole and shaft at a nominal size.
    pub fn limits(&self, nominal: Length) -> Result<(Limits, Limits), ClassError> {
        Ok((limits(nominal, self.hole)?, limits(nominal, self.shaft)?))
    }

    /// Clearances at a nominal size.
    pub fn range(&self, nominal: Length) -> Result<FitRange, ClassError> {
        self.limits(nominal).map(|(hole, shaft)| fit_of(&hole, &shaft))
    }
}

impl fmt::Display for Fit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}", self.hole, self.shaft)
    }
}

/// Greatest clearance of the widest class that the tables hold at that size: hole H11, shaft a11 (c11 or d11 where the
/// standard ends earlier), -es + 2 IT11.
/// Source: ISO 286-1:2010 tables 1 and 4. 20 mm: 300 + 2 x 130 = 560 um.
pub fn widest_clearance(nominal: Length) -> Option<Length> {
    let with = |letter| Fit { hole: ToleranceClass::hole(Name::H, 11), shaft: ToleranceClass::shaft(letter, 11) };
    [Name::A, Name::C, Name::D].into_iter().find_map(|l| with(l).range(nominal).ok()).map(|r| r.max_clearance)
}

/// Greatest interference of the tightest class that the tables hold at that size: shaft zc11 (x11 or u11 where the
/// standard ends earlier) in a hole H, ei + IT11.
/// Source: ISO 286-1:2010 tables 1 and 5. 20 mm: 188 + 130 = 318 um.
pub fn widest_interference(nominal: Length) -> Option<Length> {
    let shaft = |letter| limits(nominal, ToleranceClass::shaft(letter, 11));
    [Name::Zc, Name::X, Name::U].into_iter().find_map(|l| shaft(l).ok()).map(|l| l.upper)
}

/// A fit that a standard recommends.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ListedFit {
    /// The pair.
    pub fit: Fit,
    /// What the standard calls it; empty where it gives no name.
    pub description: &'static str,
    /// How well the entry is confirmed.
    pub confirmed: Confirmed,
    /// The list it stands in.
    pub source: &'static str,
}

const B4_2: (Confirmed, &str) = (Confirmed::TwoOrMore, "ANSI B4.2-1978, preferred fits (two reprints)");
const BOTH: (Confirmed, &str) =
    (Confirmed::TwoOrMore, "ANSI B4.2-1978, preferred fits (two reprints); ISO 286-1:2010, hole-basis list");
const ISO_LIST: (Confirmed, &str) = (Confirmed::One, "ISO 286-1:2010, hole-basis list (one reprint)");

const fn listed(
    hole: Name,
    hole_grade: i8,
    shaft: Name,
    shaft_grade: i8,
    description: &'static str,
    (confirmed, source): (Confirmed, &'static str),
) -> ListedFit {
    let fit = Fit { hole: ToleranceClass::hole(hole, hole_grade), shaft: ToleranceClass::shaft(shaft, shaft_grade) };
    ListedFit { fit, description, confirmed, source }
}

/// Preferred fits: hole basis, then shaft basis (ANSI B4.2-1978), then the rest of the ISO 286-1 hole-basis list.
#[rustfmt::skip]
const LISTED: &[ListedFit] = &[
    listed(Name::H, 11, Name::C, 11, "loose running", BOTH),
    listed(Name::H,  9, Name::D,  9, "free running", B4_2),
    listed(Name::H,  8, Name::F,  7, "close running", BOTH),
    listed(Name::H,  7, Name::G,  6, "sliding", BOTH),
    listed(Name::H,  7, Name::H,  6, "locational clearance", BOTH),
    listed(Name::H,  7, Name::K,  6, "locational transition", BOTH),
    listed(Name::H,  7, Name::N,  6, "locational transition (more interference)", BOTH),
    listed(Name::H,  7, Name::P,  6, "locational interference", BOTH),
    listed(Name::H,  7, Name::S,  6, "medium drive", BOTH),
    listed(Name::H,  7, Name::U,  6, "force", BOTH),
    listed(Name::C, 11, Name::H, 11, "loose running", B4_2),
    listed(Name::D,  9, Name::H,  9, "free running", B4_2),
    listed(Name::F,  8, Name::H,  7, "close running", B4_2),
    listed(Name::G,  7, Name::H,  6, "sliding", B4_2),
    listed(Name::K,  7, Name::H,  6, "locational transition", B4_2),
    listed(Name::N,  7, Name::H,  6, "locational transition (more interference)", B4_2),
    listed(Name::P,  7, Name::H,  6, "locational interference", B4_2),
    listed(Name::S,  7, Name::H,  6, "medium drive", B4_2),
    listed(Name::U,  7, Name::H,  6, "force", B4_2),
    listed(Name::H,  6, Name::G,  5, "", ISO_LIST),
    listed(Name::H,  6, Name::H,  5, "", ISO_LIST),
    listed(Name::H,  6, Name::Js,  5, "", ISO_LIST),
    listed(Name::H,  6, Name::K,  5, "", ISO_LIST),
    listed(Name::H,  6, Name::M,  5, "", ISO_LIST),
    listed(Name::H,  6, Name::N,  5, "", ISO_LIST),
    listed(Name::H,  6, Name::P,  5, "", ISO_LIST),
    listed(Name::H,  7, Name::F,  6, "", ISO_LIST),
    listed(Name::H,  7, Name::Js,  6, "", ISO_LIST),
    listed(Name::H,  7, Name::M,  6, "", ISO_LIST),
    listed(Name::H,  7, Name::R,  6, "", ISO_LIST),
    listed(Name::H,  7, Name::T,  6, "", ISO_LIST),
    listed(Name::H,  7, Name::X,  6, "", ISO_LIST),
    listed(Name::H,  8, Name::E,  7, "", ISO_LIST),
    listed(Name::H,  8, Name::H,  7, "", ISO_LIST),
    listed(Name::H,  8, Name::Js,  7, "", ISO_LIST),
    listed(Name::H,  8, Name::K,  7, "", ISO_LIST),
    listed(Name::H,  8, Name::M,  7, "", ISO_LIST),
    listed(Name::H,  8, Name::S,  7, "", ISO_LIST),
    listed(Name::H,  8, Name::U,  7, "", ISO_LIST),
    listed(Name::H,  8, Name::D,  8, "", ISO_LIST),
    listed(Name::H,  8, Name::E,  8, "", ISO_LIST),
    listed(Name::H,  8, Name::F,  8, "", ISO_LIST),
    listed(Name::H,  8, Name::H,  8, "", ISO_LIST),
    listed(Name::H,  9, Name::D,  8, "", ISO_LIST),
    listed(Name::H,  9, Name::E,  8, "", ISO_LIST),
    listed(Name::H,  9, Name::F,  8, "", ISO_LIST),
    listed(Name::H,  9, Name::H,  8, "", ISO_LIST),
    listed(Name::H, 10, Name::B,  9, "", ISO_LIST),
    listed(Name::H, 10, Name::C,  9, "", ISO_LIST),
    listed(Name::H, 10, Name::D,  9, "", ISO_LIST),
    listed(Name::H, 10, Name::E,  9, "", ISO_LIST),
    listed(Name::H, 10, Name::H,  9, "", ISO_LIST),
    listed(Name::H, 11, Name::B, 11, "", ISO_LIST),
    listed(Name::H, 11, Name::D, 10, "", ISO_LIST),
    listed(Name::H, 11, Name::H, 10, "", ISO_LIST),
];

/// The pairs that ANSI B4.2 and ISO 286-1 recommend, each once.
#[allow(dead_code, reason = "tests sweep the table with it")]
pub fn preferred_fits() -> &'static [ListedFit] {
    LISTED
}

/// The listed fits whose limits at `nominal` hold both measured sizes, in the order of the list.
pub fn standard_fits_holding(nominal: Length, hole: Length, shaft: Length) -> Vec<Fit> {
    let holds = |fit: &Fit| fit.limits(nominal).is_ok_and(|(h, s)| h.hold(nominal, hole) && s.hold(nominal, shaft));
    LISTED.iter().map(|listed| listed.fit).filter(holds).collect()
}

/// A guess at the nominal size behind two measured sizes: of the whole halves of a millimetre and sixteenths of an inch the
/// one that lies nearest to either of them, then to their middle; millimetres where both are as near
/// (common practice, no source). Below 0.25 mm the guess is 0, which no class accepts.
pub fn likely_nominal(hole: Length, shaft: Length) -> Length {
    let middle = (hole + shaft) / 2.0;
    let whole = |step: Length, size: Length| size.to_nearest(step);
    let steps = [Length::mm(0.5), Length::inches(1.0 / 16.0)];
    let guesses = steps.into_iter().flat_map(|step| [hole, shaft, middle].map(|size| whole(step, size)));
    let off = |n: &Length| {
        let near = (hole - *n).abs().min((shaft - *n).abs());
        (near.rounded().as_mm(), (middle - *n).abs().as_mm())
    };
    let nearer = |a: &Length, b: &Length| {
        let ((an, am), (bn, bm)) = (off(a), off(b));
        an.total_cmp(&bn).then(am.total_cmp(&bm))
    };
    guesses.min_by(nearer).unwrap_or(middle)
}
