//! What a plate, a cone and a weld carry: the plain formulas of strength of materials.

use std::f64::consts::PI;

use super::{MechanicsError, positive};
use crate::units::{Angle, Force, Length, Stress, Volume};

/// Yield strength in shear over that in tension, 1/√3. Source: von Mises; Timoshenko, Strength of Materials.
pub const SHEAR_SHARE: f64 = 0.577_350_269_189_625_8;

/// Greatest bending stress of a round plate with a round hole, loaded all round the edge of the hole and held up, free to
/// turn, on a ring: σ = 6 M/t², M = P/(4 π) (2 (1 + ν) a²/(a² − b²) ln(a/b) + 1 − ν); a radius of the ring, b of the hole.
/// For thin plates, a > b, t at most a quarter of the plate's width 2 a (Roark's Formulas for Stress and Strain, flat plates,
/// from memory). Source: Timoshenko, Theory of Plates and Shells, 2nd edition, section 17 (inner edge loaded by shearing
/// forces, outer edge simply supported); its table gives k = 1.48 for a/b = 2, σ = k P/t².
pub fn holed_plate_bending(
    load: Force,
    ring: Length,
    hole: Length,
    thickness: Length,
    poisson: f64,
) -> Result<Stress, MechanicsError> {
    positive("the load", load.as_newtons())?;
    positive("the hole's radius", hole.as_mm())?;
    positive("the plate's thickness", thickness.as_mm())?;
    if hole >= ring {
        return Err(MechanicsError::NotSmaller { smaller: "the hole's radius", larger: "that of the ring of bolts" });
    }
    if thickness > ring / 2.0 {
        return Err(MechanicsError::OutOfRange {
            what: "the plate's thickness",
            range: "at most a quarter of what it spans: a thicker one does not bend as a plate",
        });
    }
    let (a, b, t) = (ring.as_mm(), hole.as_mm(), thickness.as_mm());
    let shape = 2.0 * (1.0 + poisson) * a * a / (a * a - b * b) * libm::log(a / b) + 1.0 - poisson;
    Ok(Stress::mpa(6.0 * load.as_newtons() * shape / (4.0 * PI * t * t)))
}

/// Bending stress of one of two equal strips that carry a load in the middle between two supports: σ = 3 P L/(4 w t²),
/// each strip P/2. Source: beam on two supports, M = F L/4, W = w t²/6; Timoshenko, Strength of Materials.
pub fn two_strips_bending(
    load: Force,
    span: Length,
    width: Length,
    thickness: Length,
) -> Result<Stress, MechanicsError> {
    positive("the width of the strip", width.as_mm())?;
    positive("the plate's thickness", thickness.as_mm())?;
    let t = thickness.as_mm();
    Ok(Stress::mpa(3.0 * load.as_newtons() * span.as_mm() / (4.0 * width.as_mm() * t * t)))
}

/// Mean shear stress of a load that would punch a round piece out of a plate, P/(π d t).
/// Source: Timoshenko, Strength of Materials (punching shear).
pub fn punching_shear(load: Force, diameter: Length, thickness: Length) -> Result<Stress, MechanicsError> {
    positive("the diameter", diameter.as_mm())?;
    positive("the plate's thickness", thickness.as_mm())?;
    Ok(Stress::mpa(load.as_newtons() / (PI * diameter.as_mm() * thickness.as_mm())))
}

/// Hoop stress at a hole that a cone spreads: p = P/(π d t tan a) on the wall, σ = p (R² + r²)/(R² − r²), R distance of the
/// nearest edge from the axis. Source: thick ring under inner pressure after Lamé; Timoshenko, Strength of Materials.
pub fn spread_hole(
    load: Force,
    half_angle: Angle,
    hole: Length,
    edge: Length,
    thickness: Length,
) -> Result<Stress, MechanicsError> {
    let wall = punching_shear(load, hole, thickness)? / half_angle.tan();
    let r = hole / 2.0;
    if r >= edge {
        return Err(MechanicsError::NotSmaller { smaller: "the hole's radius", larger: "the distance of the edge" });
    }
    let (r, edge) = (r.as_mm(), edge.as_mm());
    Ok(wall * ((edge * edge + r * r) / (edge * edge - r * r)))
}

/// A round section, bored or not.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct RoundSection {
    /// Outside diameter.
    pub outside: Length,
    /// Bore; nought for a solid one.
    pub bore: Length,
}

impl RoundSection {
    fn check(&self) -> Result<(f64, f64), MechanicsError> {
        positive("the section's diameter", self.outside.as_mm())?;
        if self.bore >= self.outside {
            return Err(MechanicsError::NotSmaller { smaller: "the bore", larger: "the section's diameter" });
        }
        Ok((self.outside.as_mm(), self.bore.as_mm().max(0.0)))
    }

    /// Bending stress by a force across at a distance: σ = 32 F h D/(π (D⁴ − d⁴)).
    /// Source: beam theory; Shigley, Mechanical Engineering Design (σ = 32 M/(π d³) of a solid shaft).
    pub fn bending(&self, across: Force, arm: Length) -> Result<Stress, MechanicsError> {
        let (outside, bore) = self.check()?;
        let modulus = PI * (outside.powi(4) - bore.powi(4)) / (32.0 * outside);
        Ok(Stress::mpa(across.as_newtons() * arm.as_mm() / modulus))
    }

    /// Stress by a force along: 4 P/(π (D² − d²)).
    pub fn along(&self, force: Force) -> Result<Stress, MechanicsError> {
        let (outside, bore) = self.check()?;
        Ok(Stress::mpa(4.0 * force.as_newtons() / (PI * (outside * outside - bore * bore))))
    }

    /// Greatest shear stress by a force across: 4 F/(3 A) (D² + D d + d²)/(D² + d²); 4/3 of the mean for a solid one, twice
    /// it for a thin ring. Source: Gere and Timoshenko, Mechanics of Materials, shear stresses in circular sections.
    pub fn shear(&self, across: Force) -> Result<Stress, MechanicsError> {
        let (outside, bore) = self.check()?;
        let shape = (outside * outside + outside * bore + bore * bore) / (outside * outside + bore * bore);
        Ok(self.along(across)? * (4.0 / 3.0 * shape))
    }
}

/// Partial factor of joints γM2. Source: EN 1993-1-8 table 2.1.
pub const JOINT_FACTOR: f64 = 1.25;

/// Shear strength of the throat of a fillet weld, fu/(√3 βw γM2); `tensile` of the weaker part.
/// The table ends with S460, 550 MPa: a weld to a stronger steel is no better than its filler, and no more is counted.
/// Source: EN 1993-1-8, 4.5.3.3 (simplified method): 208 MPa for S235, 223 for S275.
pub fn weld_strength(tensile: Stress) -> Stress {
    let tensile = if tensile > STRONGEST_WELDED { STRONGEST_WELDED } else { tensile };
    tensile * (SHEAR_SHARE / (correlation(tensile) * JOINT_FACTOR))
}

/// Tensile strength of the strongest steel of EN 1993-1-8 table 4.1, S460 (from memory).
const STRONGEST_WELDED: Stress = Stress::mpa(550.0);

/// Correlation factor βw by the tensile strength of the weaker part. Source: EN 1993-1-8 table 4.1.
fn correlation(tensile: Stress) -> f64 {
    match tensile.as_mpa() {
        fu if fu <= 360.0 => 0.80,
        fu if fu <= 430.0 => 0.85,
        fu if fu <= 510.0 => 0.90,
        _ => 1.0,
    }
}

/// Metal in runs of that length: an even fillet of that leg, or a chamfer of 45 degrees so deep filled level, leg²/2 of section.
/// Source: derived; half a square (5 mm leg, 1 m: 12.5 cm³, 98 g of steel).
pub fn weld_metal(leg: Length, runs: Length) -> Volume {
    (leg * leg) * (runs / 2.0)
}

/// Force per length on the weld all round a disc, N/mm: shear F/(π D), and bending 4 F h/(π D²), square to each other.
/// Source: weld treated as a line, circle: length π D, section modulus π D²/4; Blodgett, Design of Welded Structures.
pub fn ring_weld(across: Force, arm: Length, along: Force, diameter: Length) -> Result<f64, MechanicsError> {
    positive("the weld's diameter", diameter.as_mm())?;
    let d = diameter.as_mm();
    let shear = across.as_newtons() / (PI * d);
    let bending = 4.0 * across.as_newtons() * arm.as_mm() / (PI * d * d) + along.as_newtons() / (PI * d);
    Ok(libm::hypot(shear, bending))
}
