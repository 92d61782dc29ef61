//! A frame that is not parallel to the plane of its cones while it comes down: hung pitched, swung down about one end, or
//! hung level over a trailer that is not.

use crate::units::{Angle, Length};

/// Capture that is left of a hole of diameter d in a plate of thickness t pitched by θ: seen along the cone the hole is
/// d cos θ wide, and its far edge leans over it by t sin θ: e − d/2 (1 − cos θ) − t sin θ.
/// `capture` is that of the level plate. 0 <= θ < 90°. Derived, plane geometry.
pub fn pitched_capture(capture: Length, ring: Length, thickness: Length, pitch: Angle) -> Length {
    capture - ring / 2.0 * (1.0 - pitch.cos()) - thickness * pitch.sin()
}

/// How far the middle of a ring of diameter d, pitched by θ on a cone of half-angle α, lies off the cone's axis, away from
/// its raised side: d/2 tan α sin θ. It touches at both ends of its fall line, 0 <= θ < α; `None` outside: pitched as
/// steep as the flank it jams. Derived, plane geometry.
pub fn pitched_shift(ring: Length, half_angle: Angle, pitch: Angle) -> Option<Length> {
    let touches = pitch >= Angle::ZERO && pitch < half_angle;
    touches.then(|| ring / 2.0 * half_angle.tan() * pitch.sin())
}

/// How far a base L swung up by θ draws back in plan: L (1 − cos θ). Derived.
pub fn shortening(base: Length, pitch: Angle) -> Length {
    base * (1.0 - pitch.cos())
}

/// Pitch at which a nose that stands H over the plane of the seats meets the hole at the distance L from the hinge:
/// asin(H/L), 90° where the nose is longer. Derived.
pub fn entry_pitch(nose: Length, lever: Length) -> Angle {
    Angle::asin((nose / lever).clamp(0.0, 1.0))
}

/// Pitch at which a centre of mass, a inside the hinge and h above it, stands over the hinge and the frame falls over
/// backwards: atan(a/h). Derived, statics.
pub fn overbalance(inside: Length, height: Length) -> Angle {
    Angle::atan2(inside.as_mm().max(0.0), height.as_mm().max(0.0))
}

/// Share of the weight on the hinge while a vertical rope at the far end, L away, holds the frame pitched by θ:
/// 1 − (a cos θ − h sin θ)/(L cos θ), moments about the hinge. Derived, statics.
pub fn share_on_hinge(inside: Length, height: Length, base: Length, pitch: Angle) -> f64 {
    1.0 - (inside - height * pitch.tan()) / base
}
