//! Good or not: a measured size held against its limits with what the measuring leaves open, and the size at 20 degrees.

use super::uncertainty::{Contribution, combine};
use super::{MechanicsError, finite, not_negative};
use crate::units::{Expansion, Length, TemperatureChange};

/// Where a measured value lies.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Zone {
    /// Within the limits by the uncertainty or more: the size is good.
    Acceptance,
    /// Beyond a limit by more than the uncertainty: it is not.
    Rejection,
    /// Nearer to a limit than the uncertainty: neither can be said.
    Uncertainty,
}

/// The zone in which a measured value lies: with limits l and u and the expanded uncertainty U (k = 2) of the value y
///
/// acceptance l + U <= y <= u - U; rejection y < l - U or y > u + U; between them the uncertainty zone.
/// All in one unit; a limit that does not exist is infinite.
/// Source: ISO 14253-1, clauses 5 and 6, guard bands of U on both sides of each limit (from memory; the edition of 2017 lets
/// the two sides agree on narrower ones).
pub fn zone(value: f64, (lower, upper): (f64, f64), expanded: f64) -> Result<Zone, MechanicsError> {
    finite("a measured value", value)?;
    not_negative("an expanded uncertainty", expanded)?;
    if lower.is_nan() || upper.is_nan() || lower > upper {
        return Err(MechanicsError::NotSmaller { smaller: "the lower limit", larger: "the upper one" });
    }
    // What is equal to the last printed figure is equal: a billionth of a millimetre is no reading.
    let noise = 1e-9;
    let inside = value >= lower + expanded - noise && value <= upper - expanded + noise;
    let outside = value < lower - expanded - noise || value > upper + expanded + noise;
    Ok(match (inside, outside) {
        (true, _) => Zone::Acceptance,
        (_, true) => Zone::Rejection,
        (false, false) => Zone::Uncertainty,
    })
}

/// Whether two readings of one size exclude each other: |a - b| > sqrt(Ua² + Ub²), the number E_n above 1.
/// Source: ISO 13528, E_n scores (from memory).
pub fn exclude((a, u_a): (f64, f64), (b, u_b): (f64, f64)) -> bool {
    (a - b).abs() > libm::hypot(u_a, u_b) + 1e-9
}

/// How well a thermometer tells the temperature of a part, half-width of a rectangular distribution.
/// Source: common practice, no source.
pub const THERMOMETER: TemperatureChange = TemperatureChange::kelvin(1.0);
/// How well a coefficient of expansion is known, share of it, half-width of a rectangular distribution.
/// Source: common practice, no source.
pub const EXPANSION_SPREAD: f64 = 0.1;

/// A size at 20 degrees with its standard uncertainty.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct AtReference {
    /// The size.
    pub value: Length,
    /// Standard uncertainty of it.
    pub standard: Length,
}

/// A length that was read on a part warmer than 20 degrees by `above`, with an instrument that is at 20 degrees, brought to 20
/// degrees: l20 = l / (1 + α θ); u² = u_l² + (l α u_θ)² + (l θ u_α)², u_θ = [`THERMOMETER`]/√3, u_α = α [`EXPANSION_SPREAD`]/√3.
/// Lengths in mm, α in 1/K, θ in K. Valid for θ of 200 K or less either way.
/// Source: ISO 1:2022 for the 20 degrees; JCGM 100:2008, 5.1.2 and H.1, whose terms for the part these are.
pub fn at_reference(
    read: Length,
    standard: Length,
    expansion: Expansion,
    above: TemperatureChange,
) -> Result<AtReference, MechanicsError> {
    finite("a measured length", read.as_mm())?;
    finite("a temperature", above.as_kelvin())?;
    if above.as_kelvin().abs() > 200.0 {
        return Err(MechanicsError::OutOfRange { what: "the temperature of a part", range: "within 200 K of 20 °C" });
    }
    let grown = expansion * above;
    let root_three = 3.0_f64.sqrt();
    let contribution =
        |standard: Length| Contribution { sensitivity: 1.0, standard_uncertainty: standard, degrees_of_freedom: None };
    let thermometer = read.abs() * (expansion * THERMOMETER).abs() / root_three;
    let coefficient = read.abs() * grown.abs() * EXPANSION_SPREAD / root_three;
    let combined = combine(&[contribution(standard), contribution(thermometer), contribution(coefficient)])?;
    Ok(AtReference { value: read / (1.0 + grown), standard: combined.standard })
}
