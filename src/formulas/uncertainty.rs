//! How far a reading can be trusted: instruments of the bench, and uncertainties put together.
//!
//! Method of JCGM 100:2008 (GUM): standard uncertainties add in squares weighted by their
//! sensitivities; the coverage factor comes from Student's t with the effective degrees of
//! freedom of Welch and Satterthwaite.

use super::{MechanicsError, finite, not_negative, positive};
use crate::source::{Cited, Confirmed};
use crate::units::Length;

/// Probability inside ±2 standard deviations of a normal distribution, the "k = 2" of a certificate.
pub const TWO_SIGMA: f64 = 0.954_499_736_103_641_6;

/// What a size was taken with.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Instrument {
    /// Steel tape, one reading.
    Tape,
    /// Calliper.
    Calliper,
    /// Feeler blades.
    Feeler,
    /// Depth micrometer.
    DepthMicrometer,
    /// Dial indicator on a stand.
    DialIndicator,
    /// Outside micrometer.
    Micrometer,
}

impl Instrument {
    /// Every instrument, coarse ones first.
    pub const ALL: [Self; 6] =
        [Self::Tape, Self::Calliper, Self::Feeler, Self::DepthMicrometer, Self::DialIndicator, Self::Micrometer];

    /// Their names, in the order of [`Self::ALL`].
    pub const NAMES: [&'static str; 6] =
        ["tape", "calliper", "feeler gauge", "depth micrometer", "dial indicator", "micrometer"];

    /// What it is called at the bench.
    pub const fn name(self) -> &'static str {
        let [tape, calliper, feeler, depth_micrometer, dial_indicator, micrometer] = Self::NAMES;
        match self {
            Self::Tape => tape,
            Self::Calliper => calliper,
            Self::Feeler => feeler,
            Self::DepthMicrometer => depth_micrometer,
            Self::DialIndicator => dial_indicator,
            Self::Micrometer => micrometer,
        }
    }

    /// Whether it measures the thickness of a ring: a feeler gauge reads gaps only, a tape nothing so thin.
    pub const fn measures_thickness(self) -> bool {
        !matches!(self, Self::Feeler | Self::Tape)
    }

    /// Whether it measures a float or a gap: an outside micrometer reads thicknesses only.
    pub const fn measures_gaps(self) -> bool {
        !matches!(self, Self::Micrometer)
    }

    /// Expanded uncertainty U (k = 2) of one careful reading, a first guess to be replaced by the owner's own figure.
    pub const fn expanded_uncertainty(self) -> Cited<Length> {
        let value = match self {
            Self::Tape => Length::mm(2.0),
            Self::Calliper => Length::mm(0.03),
            Self::Feeler => Length::mm(0.02),
            Self::DepthMicrometer => Length::mm(0.015),
            Self::DialIndicator => Length::mm(0.01),
            Self::Micrometer => Length::mm(0.005),
        };
        Cited { value, confirmed: Confirmed::Memory, source: "common practice, no source" }
    }
}

/// Standard uncertainty that reading in steps of δ leaves, δ/√12: the truth lies anywhere within half a step, evenly.
/// In the unit of the step; valid for any step.
/// Source: JCGM 100:2008 (GUM), F.2.2.1: u = 0.29 δx.
pub fn by_steps(step: f64) -> f64 {
    step / libm::sqrt(12.0)
}

/// A size with what is known about its error.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Measured {
    /// The size.
    pub value: Length,
    /// Standard uncertainty u (one standard deviation).
    pub standard_uncertainty: Length,
    /// Degrees of freedom of u; `None`: taken as known without doubt.
    pub degrees_of_freedom: Option<f64>,
}

impl Measured {
    /// From an expanded uncertainty U with k = 2.
    pub fn with_expanded(value: Length, expanded: Length) -> Self {
        Self { value, standard_uncertainty: expanded / 2.0, degrees_of_freedom: None }
    }
    /// One reading of an instrument, with that instrument's usual uncertainty.
    #[allow(dead_code, reason = "tests make theirs with it")]
    pub fn by(value: Length, instrument: Instrument) -> Self {
        Self::with_expanded(value, instrument.expanded_uncertainty().value)
    }
    /// Refuses what is no number, negative uncertainties and degrees of freedom below 1.
    pub fn check(&self, what: &'static str) -> Result<(), MechanicsError> {
        finite(what, self.value.as_mm())?;
        not_negative("a measuring uncertainty", self.standard_uncertainty.as_mm())?;
        check_degrees(self.degrees_of_freedom)
    }
}

fn check_degrees(degrees: Option<f64>) -> Result<(), MechanicsError> {
    match degrees {
        Some(nu) if !(nu.is_finite() && nu >= 1.0) => {
            Err(MechanicsError::OutOfRange { what: "the number of degrees of freedom", range: "1 or more" })
        }
        _ => Ok(()),
    }
}

/// One term of an uncertainty budget.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Contribution {
    /// By how much the result changes per unit of this input.
    pub sensitivity: f64,
    /// Standard uncertainty of the input.
    pub standard_uncertainty: Length,
    /// Degrees of freedom of it; `None`: taken as known without doubt.
    pub degrees_of_freedom: Option<f64>,
}

impl Contribution {
    /// The term that a measured size brings with it.
    pub fn of(sensitivity: f64, measured: &Measured) -> Self {
        Self {
            sensitivity,
            standard_uncertainty: measured.standard_uncertainty,
            degrees_of_freedom: measured.degrees_of_freedom,
        }
    }
}

/// An uncertainty budget added up.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Combined {
    /// Combined standard uncertainty u_c.
    pub standard: Length,
    /// Effective degrees of freedom; `None`: without bound.
    pub degrees_of_freedom: Option<f64>,
}

/// Adds an uncertainty budget for uncorrelated inputs.
///
/// u_c² = Σ (c_i u_i)² (GUM 5.1.2); ν_eff = u_c⁴ / Σ ((c_i u_i)⁴/ν_i) (Welch-Satterthwaite, GUM G.4.1).
/// Lengths in mm, c_i pure numbers. First order only: valid while the result is near enough linear in the inputs.
/// Source: JCGM 100:2008.
pub fn combine(parts: &[Contribution]) -> Result<Combined, MechanicsError> {
    let (mut squares, mut fourths) = (0.0, 0.0);
    for part in parts {
        finite("a sensitivity", part.sensitivity)?;
        not_negative("a standard uncertainty", part.standard_uncertainty.as_mm())?;
        check_degrees(part.degrees_of_freedom)?;
        let square = (part.sensitivity * part.standard_uncertainty.as_mm()).powi(2);
        squares += square;
        fourths += part.degrees_of_freedom.map_or(0.0, |nu| square * square / nu);
    }
    let degrees_of_freedom = if fourths > 0.0 { Some(squares * squares / fourths) } else { None };
    Ok(Combined { standard: Length::mm(squares.sqrt()), degrees_of_freedom })
}

impl Combined {
    /// Expanded uncertainty U = t_p(ν_eff) u_c for the two-sided probability p.
    pub fn expanded(&self, probability: f64) -> Result<Length, MechanicsError> {
        Ok(self.standard * coverage_factor(self.degrees_of_freedom, probability)?)
    }
}

/// Coverage factor t_p(ν): ν rounded down to a whole number (GUM G.4.1), at least 1; normal when ν is `None`.
/// Two-sided probability p, above 0 and at most 0.9999.
pub fn coverage_factor(degrees_of_freedom: Option<f64>, probability: f64) -> Result<f64, MechanicsError> {
    positive("the probability", probability)?;
    if probability > 0.9999 {
        return Err(MechanicsError::OutOfRange { what: "the probability", range: "at most 0.9999" });
    }
    check_degrees(degrees_of_freedom)?;
    let inside = |t: f64| match degrees_of_freedom {
        Some(nu) if nu < 1000.0 => student_inside(t, nu.floor() as u32),
        _ => libm::erf(t / std::f64::consts::SQRT_2),
    };
    let (mut low, mut high) = (0.0, 1e4);
    for _ in 0..100 {
        let middle = 0.5 * (low + high);
        if inside(middle) < probability { low = middle } else { high = middle }
    }
    Ok(0.5 * (low + high))
}

/// Probability that Student's t with ν (whole, 1 or more) lies inside ±`t`.
///
/// With θ = atan(t/√ν): ν odd: (2/π)[θ + sinθ (cosθ + 2/3 cos³θ + … )], ν even: sinθ (1 + 1/2 cos²θ + …).
/// Source: Abramowitz & Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4 (from memory).
fn student_inside(t: f64, nu: u32) -> f64 {
    let theta = libm::atan(t / f64::from(nu).sqrt());
    let (sine, cosine) = (libm::sin(theta), libm::cos(theta));
    let odd = nu % 2 == 1;
    let mut term = if odd { cosine } else { 1.0 };
    let mut sum = if nu == 1 { 0.0 } else { term };
    let mut k = if odd { 3 } else { 2 };
    while k + 2 <= nu {
        term *= cosine * cosine * f64::from(k - 1) / f64::from(k);
        sum += term;
        k += 2;
    }
    if odd { std::f64::consts::FRAC_2_PI * (theta + sine * sum) } else { sine * sum }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Student's t, JCGM 100:2008 table G.2, quoted from memory to its two decimals.
    #[test]
    fn coverage_factors_of_the_table() {
        for (nu, p, expected) in [
            (Some(1.0), 0.95, 12.71),
            (Some(2.0), 0.95, 4.30),
            (Some(5.0), 0.95, 2.57),
            (Some(16.8), 0.99, 2.92),
            (Some(10.0), TWO_SIGMA, 2.28),
            (Some(20.0), 0.95, 2.09),
            (None, 0.95, 1.960),
            (None, TWO_SIGMA, 2.0),
        ] {
            let k = coverage_factor(nu, p).unwrap();
            assert!((k - expected).abs() < 0.005, "t({nu:?}, {p}) = {k}, table {expected}");
        }
    }

    #[test]
    fn nonsense_is_refused() {
        assert!(coverage_factor(Some(0.5), 0.95).is_err());
        assert!(coverage_factor(None, 1.0).is_err());
        assert!(coverage_factor(None, f64::NAN).is_err());
    }
}
