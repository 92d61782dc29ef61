//! The formulas of the trade: cone seats and tapers, what presses, rolls, stretches and adds up, where a frame comes to rest, what a
//! tape measured.
//!
//! Pure functions over quantities. Material figures come in as [`Elastic`]; nothing here
//! knows a table, a part file or a picture. A number that makes no sense is refused with
//! a [`MechanicsError`], never bent into one that does.

pub mod bars;
pub mod bolts;
pub mod bracket;
pub mod clamp;
pub mod columns;
pub mod cone_fit;
pub mod conformity;
pub mod flange;
pub mod frame;
pub mod hardness;
pub mod hertz;
pub mod ladder;
pub mod o_ring;
pub mod plain_bearing;
pub mod press_fit;
pub mod raceway;
pub mod random;
pub mod seating;
pub mod shares;
pub mod shims;
pub mod stack;
pub mod step_drill;
pub mod strength;
pub mod survey;
pub mod tabs;
pub mod tipping;
pub mod trend;
pub mod tubes;
pub mod turning;
pub mod uncertainty;

use std::fmt;

use crate::units::{Expansion, Stress, Temperature};

/// How a material gives way elastically and grows with heat.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Elastic {
    /// Young's modulus E.
    pub youngs_modulus: Stress,
    /// Poisson's ratio ν, above 0 and below 0.5.
    pub poisson: f64,
    /// Coefficient of linear expansion.
    pub expansion: Expansion,
}

impl Elastic {
    /// Refuses a modulus that is not positive, ν outside 0..0.5 and an expansion that is no number.
    pub fn check(&self) -> Result<(), MechanicsError> {
        positive("Young's modulus", self.youngs_modulus.as_mpa())?;
        finite("the coefficient of expansion", self.expansion.as_per_million_kelvin())?;
        finite("Poisson's ratio", self.poisson)?;
        if self.poisson > 0.0 && self.poisson < 0.5 {
            Ok(())
        } else {
            Err(MechanicsError::OutOfRange { what: "Poisson's ratio", range: "above 0 and below 0.5" })
        }
    }

    /// Plane-strain modulus E/(1 - ν²) of this body alone.
    pub fn plane_strain_modulus(&self) -> Stress {
        self.youngs_modulus / (1.0 - self.poisson * self.poisson)
    }
}

/// The smallest and the largest value that something can take.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Range<T> {
    /// Smallest.
    pub min: T,
    /// Largest.
    pub max: T,
}

impl<T: Copy + PartialOrd> Range<T> {}

/// Why a question cannot be answered.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum MechanicsError {
    /// A number that is none, or infinite.
    NotFinite(&'static str),
    /// Must be larger than nought.
    NotPositive(&'static str),
    /// Must not be below nought.
    Negative(&'static str),
    /// Outside the range in which the formula or the quantity makes sense.
    OutOfRange {
        /// The quantity.
        what: &'static str,
        /// The range, in words.
        range: &'static str,
    },
    /// Colder than anything can be.
    BelowAbsoluteZero(&'static str),
    /// Two sizes that leave no wall or no room between them.
    NotSmaller {
        /// What has to be smaller.
        smaller: &'static str,
        /// Than what.
        larger: &'static str,
    },
    /// A list with nothing in it.
    Empty(&'static str),
    /// A list too long to search exactly.
    TooMany {
        /// The list.
        what: &'static str,
        /// The most that are taken.
        most: usize,
    },
    /// The answer cannot be reached: the reason, as a sentence.
    Impossible(&'static str),
    /// There is nothing to be made: the reason, as a sentence.
    NotNeeded(&'static str),
}

impl fmt::Display for MechanicsError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotFinite(what) => write!(f, "{what} is not a number"),
            Self::NotPositive(what) => write!(f, "{what} must be larger than 0"),
            Self::Negative(what) => write!(f, "{what} must not be negative"),
            Self::OutOfRange { what, range } => write!(f, "{what} must be {range}"),
            Self::BelowAbsoluteZero(what) => write!(f, "{what} is below absolute zero (-273.15 °C)"),
            Self::NotSmaller { smaller, larger } => write!(f, "{smaller} must be smaller than {larger}"),
            Self::Empty(what) => write!(f, "no {what} given"),
            Self::TooMany { what, most } => write!(f, "more than {most} {what}: too many to search them all"),
            Self::Impossible(reason) | Self::NotNeeded(reason) => f.write_str(reason),
        }
    }
}

impl std::error::Error for MechanicsError {}

/// Refuses NaN and infinity.
pub(crate) fn finite(what: &'static str, value: f64) -> Result<(), MechanicsError> {
    if value.is_finite() { Ok(()) } else { Err(MechanicsError::NotFinite(what)) }
}

/// Refuses what is not larger than nought.
pub(crate) fn positive(what: &'static str, value: f64) -> Result<(), MechanicsError> {
    finite(what, value)?;
    if value > 0.0 { Ok(()) } else { Err(MechanicsError::NotPositive(what)) }
}

/// Refuses what is below nought.
pub(crate) fn not_negative(what: &'static str, value: f64) -> Result<(), MechanicsError> {
    finite(what, value)?;
    if value >= 0.0 { Ok(()) } else { Err(MechanicsError::Negative(what)) }
}

/// Refuses a temperature that is no number or below absolute zero.
pub(crate) fn warm_enough(what: &'static str, value: Temperature) -> Result<(), MechanicsError> {
    finite(what, value.as_celsius())?;
    if value >= Temperature::ABSOLUTE_ZERO { Ok(()) } else { Err(MechanicsError::BelowAbsoluteZero(what)) }
}
