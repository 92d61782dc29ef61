//! Two curved bodies pressed together: width of the contact, pressure, and shear below the skin.
//!
//! Hertz contact: elastic half-spaces, no friction, contact small against the radii: half its width at most a fifth of the
//! relative radius, so that a parabola stands for the circle to a hundredth. Source: K. L. Johnson, Contact Mechanics
//! (1985), chapter 4 and appendix 3 (from memory); the bound derived, b²/(4 R²).

use super::{Elastic, MechanicsError, not_negative, positive};
use crate::units::{Force, Length, Stress};

/// Depth of the largest shear below a line contact, in half-widths: where 1 - ζ(2 + ζ²)/(1 + ζ²)^1.5 = 0.
pub const LINE_SHEAR_DEPTH: f64 = 0.786_151_377_757_423_3;
/// Largest shear below a line contact, in peak pressures: ζ - ζ²/√(1 + ζ²) at [`LINE_SHEAR_DEPTH`].
pub const LINE_SHEAR: f64 = 0.300_283_106_000_777_6;

/// Half-width up to which the contact is small, in relative radii.
const WIDEST: f64 = 0.2;

/// Contact modulus E*: 1/E* = (1 - ν1²)/E1 + (1 - ν2²)/E2.
pub fn contact_modulus(first: &Elastic, second: &Elastic) -> Result<Stress, MechanicsError> {
    first.check()?;
    second.check()?;
    let give = 1.0 / first.plane_strain_modulus().as_mpa() + 1.0 / second.plane_strain_modulus().as_mpa();
    Ok(Stress::mpa(1.0 / give))
}

/// Relative radius R of two round bars in contact: 1/R = 1/R1 + 1/R2.
pub fn relative_radius(first: Length, second: Length) -> Result<Length, MechanicsError> {
    positive("a radius", first.as_mm())?;
    positive("a radius", second.as_mm())?;
    Ok(Length::mm(1.0 / (1.0 / first.as_mm() + 1.0 / second.as_mm())))
}

/// Two cylinders, axes parallel, pressed together along a line.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct LineContact {
    /// Load per mm of length, N/mm.
    load_per_mm: f64,
    /// Relative radius.
    pub relative_radius: Length,
    /// Contact modulus E*.
    pub contact_modulus: Stress,
}

impl LineContact {
    /// From the force on the whole length of the line; refused where the contact is not small against the radii.
    pub fn new(
        force: Force,
        length: Length,
        relative_radius: Length,
        contact_modulus: Stress,
    ) -> Result<Self, MechanicsError> {
        not_negative("the contact force", force.as_newtons())?;
        positive("the contact length", length.as_mm())?;
        positive("the relative radius", relative_radius.as_mm())?;
        positive("the contact modulus", contact_modulus.as_mpa())?;
        let contact = Self { load_per_mm: force.as_newtons() / length.as_mm(), relative_radius, contact_modulus };
        if contact.half_width() > relative_radius * WIDEST {
            return Err(MechanicsError::OutOfRange {
                what: "half the width of the contact",
                range: "at most a fifth of the relative radius: less load, or a stiffer material",
            });
        }
        Ok(contact)
    }

    /// The contact at which the peak pressure is just `pressure`.
    pub fn at_pressure(
        pressure: Stress,
        relative_radius: Length,
        contact_modulus: Stress,
    ) -> Result<Self, MechanicsError> {
        not_negative("the pressure", pressure.as_mpa())?;
        let squared = pressure.as_mpa() * pressure.as_mpa();
        let load = squared * std::f64::consts::PI * relative_radius.as_mm() / contact_modulus.as_mpa();
        Self::new(Force::newtons(load), Length::mm(1.0), relative_radius, contact_modulus)
    }

    /// The force carried by `length` of the line.
    pub fn force_on(&self, length: Length) -> Force {
        Force::newtons(self.load_per_mm * length.as_mm())
    }

    /// Half-width b = √(4 w R/(π E*)); w: load per length.
    pub fn half_width(&self) -> Length {
        let square = 4.0 * self.load_per_mm * self.relative_radius.as_mm();
        Length::mm((square / (std::f64::consts::PI * self.contact_modulus.as_mpa())).sqrt())
    }

    /// Peak pressure p0 = √(w E*/(π R)).
    pub fn peak_pressure(&self) -> Stress {
        let square = self.load_per_mm * self.contact_modulus.as_mpa();
        Stress::mpa((square / (std::f64::consts::PI * self.relative_radius.as_mm())).sqrt())
    }

    /// Largest shear below the skin, 0.300 p0.
    pub fn largest_shear(&self) -> Stress {
        LINE_SHEAR * self.peak_pressure()
    }

    /// Depth of the largest shear, 0.786 b.
    pub fn shear_depth(&self) -> Length {
        LINE_SHEAR_DEPTH * self.half_width()
    }

    /// Depth, beyond that of the largest, at which the shear has fallen to `shear`; nought when it never is that large.
    ///
    /// On the axis τ = p0 (ζ - ζ²/√(1 + ζ²)), ζ = z/b, falling steadily beyond ζ = 0.786; found by bisection.
    pub fn depth_where_shear_falls_to(&self, shear: Stress) -> Result<Length, MechanicsError> {
        positive("the shear stress", shear.as_mpa())?;
        let wanted = shear / self.peak_pressure();
        if !wanted.is_finite() || wanted >= LINE_SHEAR {
            return Ok(Length::ZERO);
        }
        // Far down τ/p0 nears 1/(2ζ), from below: the root lies above 1/(2τ).
        let (mut low, mut high) = (LINE_SHEAR_DEPTH, 0.5 / wanted + 1.0);
        for _ in 0..100 {
            let middle = 0.5 * (low + high);
            if shear_on_axis(middle) > wanted { low = middle } else { high = middle }
        }
        Ok(0.5 * (low + high) * self.half_width())
    }
}

/// τ/p0 on the axis of a line contact at ζ half-widths deep.
fn shear_on_axis(zeta: f64) -> f64 {
    // ζ - ζ²/√(1+ζ²) without the cancellation far down.
    let root = (1.0 + zeta * zeta).sqrt();
    zeta / (root * (root + zeta))
}
