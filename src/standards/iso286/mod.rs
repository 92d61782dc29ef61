//! Limits of a hole or shaft from its size and class: ISO 286-1:2010, above 0 up to 3150 mm.
//!
//! Limits = fundamental deviation (the letter) and tolerance width (the grade). Tables stand in [`grades`],
//! [`shafts`], [`holes`] as printed; everything else is rule.

pub mod class;
pub mod fits;
pub(crate) mod grades;
pub(crate) mod holes;
pub(crate) mod shafts;

pub use super::fit::{FitRange, Limits, fit_of};
pub use class::{ClassError, Feature, Grade, ToleranceClass};
pub use fits::{Fit, likely_nominal, standard_fits_holding, widest_clearance, widest_interference};

use crate::source::Confirmed;
use crate::units::Length;

/// A table value at a size, in µm.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct SizedValue {
    pub(crate) um: f64,
    pub(crate) confirmed: Confirmed,
    pub(crate) source: &'static str,
}

/// Which end of the zone the fundamental deviation fixes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Side {
    Lower,
    Upper,
}

/// Where the zone lies.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) enum Position {
    /// One end is given, the other is one width away.
    End(Side, SizedValue),
    /// js, JS: half the width to either side.
    Middle,
}

impl Position {
    /// Lower and upper deviation in µm for a zone `width` wide.
    fn place(self, width: f64) -> (f64, f64) {
        match self {
            Self::End(Side::Lower, lower) => (lower.um, lower.um + width),
            Self::End(Side::Upper, upper) => (upper.um - width, upper.um),
            Self::Middle => (-width / 2.0, width / 2.0),
        }
    }
}

/// Largest nominal size of ISO 286-1, mm.
const LARGEST: f64 = 3150.0;

/// The size to choose a step by, mm: rounded to 1 nm, so that 30 mm that came out of a sum stays in 18 to 30.
fn step_size(nominal: Length) -> Result<f64, ClassError> {
    let size = (nominal.as_mm() * 1e6).round() / 1e6;
    if size > 0.0 && size <= LARGEST { Ok(size) } else { Err(ClassError::SizeOutOfRange(nominal)) }
}

/// Width of tolerance grade `grade` at `nominal` (ISO 286-1:2010 table 1).
///
/// 25 mm IT7: 21 µm.
pub fn it_width(nominal: Length, grade: Grade) -> Result<Length, ClassError> {
    grades::width_um(nominal, grade).map(|width| Length::um(width.um))
}

/// Lower and upper deviation of `class` at `nominal` (ISO 286-1:2010, exact in µm).
///
/// Shafts a to h: es from the table, ei = es − IT. Shafts j to zc: ei from the table, es = ei + IT.
/// Holes A to H: EI = −es of the same letter, ES = EI + IT. Holes J to ZC: ES by [`holes`], EI = ES − IT.
/// js, JS: ±IT/2, not rounded (some tables round an odd width of grades 7 to 11 down to the even one).
///
/// 25 mm: H7 0/+21 µm, g6 −20/−7 µm.
pub fn limits(nominal: Length, class: ToleranceClass) -> Result<Limits, ClassError> {
    let width = grades::width_um(nominal, class.grade)?;
    let position = match class.feature {
        Feature::Shaft => shafts::position(nominal, class.letter, class.grade)?,
        Feature::Hole => holes::position(nominal, class.letter, class.grade)?,
    };
    let (lower, upper) = position.place(width.um);
    let (confirmed, source) = match position {
        Position::End(_, end) => (end.confirmed.min(width.confirmed), end.source),
        Position::Middle => (width.confirmed, width.source),
    };
    Ok(Limits { lower: Length::um(lower), upper: Length::um(upper), confirmed, source })
}
