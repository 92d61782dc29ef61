//! Bars pressed along: the stress at which they buckle, and what bends them besides.

use std::f64::consts::PI;

use super::{MechanicsError, not_negative, positive};
use crate::units::{Force, Length, Stress};

/// Stress at which a column of that slenderness L/k gives way: σy (1 − σy (L/k)²/(4 π² E)); beyond the slenderness at which that is
/// half of σy, √(2 π² E/σy), Euler's π² E/(L/k)². L is the length of the bow between two hinges (twice the length of one that is held
/// against turning at one end and free to sway), k = √(I/A). Straight, pressed in its axis.
/// Source: Shigley, Mechanical Engineering Design, J. B. Johnson's parabola and Euler's column.
pub fn buckling(slenderness: f64, yield_strength: Stress, youngs_modulus: Stress) -> Result<Stress, MechanicsError> {
    positive("the slenderness", slenderness)?;
    positive("the yield strength", yield_strength.as_mpa())?;
    positive("Young's modulus", youngs_modulus.as_mpa())?;
    let (y, e) = (yield_strength.as_mpa(), youngs_modulus.as_mpa());
    let limit = libm::sqrt(2.0 * PI * PI * e / y);
    Ok(Stress::mpa(if slenderness <= limit {
        y * (1.0 - y * slenderness * slenderness / (4.0 * PI * PI * e))
    } else {
        PI * PI * e / (slenderness * slenderness)
    }))
}

/// A bar of rectangular section.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Flat {
    /// Thickness, in the direction in which it bends.
    pub thick: Length,
    /// Width, square to that.
    pub wide: Length,
}

impl Flat {
    fn check(&self) -> Result<(f64, f64), MechanicsError> {
        positive("the thickness", self.thick.as_mm())?;
        positive("the width", self.wide.as_mm())?;
        Ok((self.thick.as_mm(), self.wide.as_mm()))
    }

    /// Load at which it buckles over its thickness, k = t/√12, by [`buckling`] on the whole section.
    pub fn buckles_at(&self, bow: Length, yield_strength: Stress, e: Stress) -> Result<Force, MechanicsError> {
        let (t, w) = self.check()?;
        let stress = buckling(bow.as_mm() * libm::sqrt(12.0) / t, yield_strength, e)?;
        Ok(Force::newtons(stress.as_mpa() * t * w))
    }

    /// Bending stress of a moment as force times arm over its thickness, 6 F a/(w t²). Source: beam theory; Timoshenko, Strength of
    /// Materials.
    pub fn bending(&self, force: Force, arm: Length) -> Result<Stress, MechanicsError> {
        let (t, w) = self.check()?;
        Ok(Stress::mpa(6.0 * force.as_newtons().abs() * arm.as_mm().abs() / (w * t * t)))
    }

    /// Sag in the middle of a beam on two supports under a load there, F L³/(48 E I). Source: Timoshenko, Strength of Materials.
    pub fn sag(&self, load: Force, span: Length, youngs_modulus: Stress) -> Result<Length, MechanicsError> {
        let (t, w) = self.check()?;
        positive("Young's modulus", youngs_modulus.as_mpa())?;
        let inertia = w * t.powi(3) / 12.0;
        let l = span.as_mm();
        Ok(Length::mm(load.as_newtons() * l * l * l / (48.0 * youngs_modulus.as_mpa() * inertia)))
    }

    /// Stress of a bar that is pressed by P and bent by a moment besides: P/A + σb/(1 − P/Pcr); the bow makes the moment larger. Valid
    /// below the load at which it buckles.
    /// Source: Timoshenko and Gere, Theory of Elastic Stability: beam-columns, amplification 1/(1 − P/Pcr), close for any moment.
    pub fn pressed_and_bent(&self, load: Force, critical: Force, bending: Stress) -> Result<Stress, MechanicsError> {
        let (t, w) = self.check()?;
        not_negative("the load", load.as_newtons())?;
        positive("the critical load", critical.as_newtons())?;
        let share = load / critical;
        if share >= 1.0 {
            return Err(MechanicsError::OutOfRange { what: "the load", range: "below that at which the bar buckles" });
        }
        Ok(Stress::mpa(load.as_newtons() / (t * w) + bending.as_mpa() / (1.0 - share)))
    }
}
