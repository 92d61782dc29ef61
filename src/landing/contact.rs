//! One cone in its cup: pull to the centre, sticking and release, climbing.
//! α half-angle of the cone from its axis, μ friction coefficient, φ = atan μ. All derived from the
//! equilibrium of one flank unless a source is named. What [`crate::seating`] has already is called from there; here the
//! inputs are checked first.

use super::model::InputError;
use crate::seating;
use crate::units::{Angle, Force, Length};

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

/// Pull towards the centre of a frame that touches one flank under the vertical load P: P/tan(α + φ);
/// nought if α + φ reaches 90°: it stays where it is. Example: α 30°, μ 0.3, 1000 N: 942.377 N.
pub fn centring_pull(half_angle: Angle, friction: f64, load: Force) -> Result<Force, InputError> {
    friction_angle(friction)?;
    Ok(seating::centring_force(load, flank(half_angle)?, friction))
}

/// Largest half-angle that still slides to the centre: 90° − φ.
pub fn centring_limit(friction: f64) -> Result<Angle, InputError> {
    friction_angle(friction)?;
    Ok(seating::greatest_sliding_half_angle(friction))
}

/// Pull beyond the weight that frees a cone which sticks: P sin(φ − α)/sin(φ + α), P the largest vertical load
/// ever applied; nought if it does not stick. Example: α 5°, μ 0.15, 5000 N: 1316.09 N.
pub fn release_pull(half_angle: Angle, friction: f64, load: Force) -> Result<Force, InputError> {
    friction_angle(friction)?;
    Ok(seating::release_force(load, flank(half_angle)?, friction).unwrap_or(Force::ZERO))
}

/// Side force over vertical load at which one cone begins to climb: 1/tan(α − φ); `None` if it sticks and never
/// climbs. Example: α 30°: 1.73205 without friction, 2.54265 at μ 0.15.
pub fn climb_ratio(half_angle: Angle, friction: f64) -> Result<Option<f64>, InputError> {
    let rest = flank(half_angle)? - friction_angle(friction)?;
    Ok((rest > Angle::ZERO).then(|| 1.0 / rest.tan()))
}

/// Side force over vertical load up to which the ring keeps contact all round: 1/(2 tan α) (elastic ring,
/// line load p0 + p1 cos t, no friction).
pub fn full_ring_ratio(half_angle: Angle) -> Result<f64, InputError> {
    Ok(0.5 / flank(half_angle)?.tan())
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

/// Land width left on a relieved pin: (d c/2 + c²/4 − x²)/x for the pin diameter d, the diametral clearance c and
/// the float x each way. Derived. Example: d 20, c 0.2, x 1: 1.01 mm.
pub fn relieved_pin_land(pin: Length, clearance: Length, float: Length) -> Result<Length, InputError> {
    let (d, c, x) = (pin.as_mm(), clearance.as_mm(), float.as_mm());
    positive("pin, clearance or float", &[d, c, x])?;
    let land = (d * c / 2.0 + c * c / 4.0 - x * x) / x;
    if land > 0.0 { Ok(Length::mm(land)) } else { Err(InputError::OutOfRange("float (no land is left)")) }
}
