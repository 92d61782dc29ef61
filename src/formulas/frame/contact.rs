//! One cone in its cup: friction on its flank, and a relieved cone.
//! α half-angle of the cone from its axis, μ friction coefficient, φ = atan μ. All derived from the
//! equilibrium of one flank unless a source is named. What [`crate::formulas::seating`] has already is called from there; here the
//! inputs are checked first.

use super::model::InputError;
use crate::formulas::seating;
use crate::units::{Angle, Length};

/// Friction angle φ = atan μ.
pub fn friction_angle(friction: f64) -> Result<Angle, InputError> {
    if friction.is_finite() && friction >= 0.0 {
        Ok(seating::friction_angle(friction))
    } else {
        Err(InputError::Friction)
    }
}

fn flank(half_angle: Angle) -> Result<Angle, InputError> {
    let within = half_angle.as_degrees() > 0.0 && half_angle.as_degrees() < 90.0;
    if within { Ok(half_angle) } else { Err(InputError::HalfAngle("cone".to_owned(), half_angle)) }
}

fn positive(what: &'static str, values: &[f64]) -> Result<(), InputError> {
    let sound = values.iter().all(|v| v.is_finite() && *v > 0.0);
    if sound { Ok(()) } else { Err(InputError::OutOfRange(what)) }
}

/// Rise of a relieved cone (two flats, arcs of half-angle ψ left at each side) in a round cup of diameter d
/// when it floats u along its free axis: (u sin ψ + u² cos² ψ/d)/tan α. Derived.
/// Example: u 1, ψ 10°, α 30°, d 40: 0.342763 mm.
pub fn relieved_cone_rise(
    float: Length,
    arc_half_angle: Angle,
    half_angle: Angle,
    diameter: Length,
) -> Result<Length, InputError> {
    let a = flank(half_angle)?;
    let (u, psi) = (float.as_mm().abs(), arc_half_angle);
    positive("cup diameter", &[diameter.as_mm()])?;
    if !(u.is_finite() && psi.as_degrees() >= 0.0 && psi.as_degrees() < 90.0) {
        return Err(InputError::OutOfRange("float or arc of the relieved cone"));
    }
    let square = u * psi.cos();
    Ok(Length::mm((u * psi.sin() + square * square / diameter.as_mm()) / a.tan()))
}
