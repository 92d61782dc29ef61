//! A bolt and the sleeve it clamps: pull, torque, and how much shorter the sleeve gets.

use super::{MechanicsError, finite, not_negative, positive};
use crate::units::{Area, Force, Length, Stress, Torque};

/// Pull of a bolt tightened to a share of its proof stress: share × S_p A_s.
#[allow(dead_code, reason = "to be asked by the bolted parts")]
pub fn preload(stress_area: Area, proof_stress: Stress, share: f64) -> Result<Force, MechanicsError> {
    positive("the stress area", stress_area.as_mm2())?;
    positive("the proof stress", proof_stress.as_mpa())?;
    finite("the share of the proof stress", share)?;
    if share > 0.0 && share <= 1.0 {
        Ok(share * (proof_stress * stress_area))
    } else {
        Err(MechanicsError::OutOfRange { what: "the share of the proof stress", range: "above 0 and at most 1" })
    }
}

/// Tightening torque T = K F d; K nut factor (0.20 plain and dry, 0.15 oiled: torque charts), d thread diameter.
#[allow(dead_code, reason = "to be asked by the bolted parts")]
pub fn tightening_torque(pull: Force, diameter: Length, nut_factor: f64) -> Result<Torque, MechanicsError> {
    not_negative("the bolt's pull", pull.as_newtons())?;
    positive("the thread diameter", diameter.as_mm())?;
    positive("the nut factor", nut_factor)?;
    Ok(nut_factor * (pull * diameter))
}

/// A sleeve clamped endwise by one bolt.
#[allow(dead_code, reason = "to be asked by the bolted parts")]
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ClampedSleeve {
    /// Outside diameter of the sleeve.
    pub outside: Length,
    /// Bore of the sleeve.
    pub bore: Length,
    /// Length of the sleeve.
    pub length: Length,
    /// Young's modulus of the sleeve.
    pub sleeve_modulus: Stress,
    /// Stress area of the bolt's thread.
    pub stress_area: Area,
    /// Length of bolt between head and nut.
    pub grip: Length,
    /// Young's modulus of the bolt.
    pub bolt_modulus: Stress,
}

/// What clamping does.
#[allow(dead_code, reason = "to be asked by the bolted parts")]
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Clamped {
    /// Compressive stress in the sleeve.
    pub sleeve_stress: Stress,
    /// By how much the sleeve gets shorter: it must stand proud by this and the end float.
    pub shortens: Length,
    /// Share of an added pull that the bolt feels: k_b/(k_b + k_c).
    pub bolt_share: f64,
    /// Preload lost when the faces bed in.
    pub embedding_loss: Force,
}

#[allow(dead_code, reason = "to be asked by the bolted parts")]
impl ClampedSleeve {
    /// Cross-section of the sleeve.
    pub fn area(&self) -> Area {
        std::f64::consts::FRAC_PI_4 * (self.outside * self.outside - self.bore * self.bore)
    }

    fn check(&self) -> Result<(), MechanicsError> {
        positive("the sleeve's outside diameter", self.outside.as_mm())?;
        not_negative("the sleeve's bore", self.bore.as_mm())?;
        if self.bore >= self.outside {
            return Err(MechanicsError::NotSmaller { smaller: "the sleeve's bore", larger: "its outside diameter" });
        }
        positive("the sleeve's length", self.length.as_mm())?;
        positive("the sleeve's Young's modulus", self.sleeve_modulus.as_mpa())?;
        positive("the bolt's stress area", self.stress_area.as_mm2())?;
        positive("the bolt's grip", self.grip.as_mm())?;
        positive("the bolt's Young's modulus", self.bolt_modulus.as_mpa())
    }

    /// Clamped by `pull`, faces bedding in by `embedding`.
    ///
    /// k_c = E A/L, k_b = E A_s/L_grip; loss = f k_b k_c/(k_b + k_c); stress F/A; shortening F/k_c. The bolt is taken
    /// as a bar of its stress area, the sleeve as carrying all the clamping. Source: derived here (two springs); idea
    /// of VDI 2230 (from memory).
    pub fn clamp(&self, pull: Force, embedding: Length) -> Result<Clamped, MechanicsError> {
        self.check()?;
        not_negative("the bolt's pull", pull.as_newtons())?;
        not_negative("the bedding-in", embedding.as_mm())?;
        let sleeve = self.sleeve_modulus.as_mpa() * self.area().as_mm2() / self.length.as_mm();
        let bolt = self.bolt_modulus.as_mpa() * self.stress_area.as_mm2() / self.grip.as_mm();
        Ok(Clamped {
            sleeve_stress: pull / self.area(),
            shortens: Length::mm(pull.as_newtons() / sleeve),
            bolt_share: bolt / (bolt + sleeve),
            embedding_loss: Force::newtons(embedding.as_mm() * bolt * sleeve / (bolt + sleeve)),
        })
    }
}

/// Steel of a bolt.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct BoltClass {
    /// Tensile strength fub.
    pub tensile: Stress,
    /// Share of it that counts in shear through the thread, αv.
    pub in_shear: f64,
}

/// Property class 8.8: 800 MPa, αv 0.6. Source: EN 1993-1-8 tables 3.1 and 3.4.
pub const CLASS_8_8: BoltClass = BoltClass { tensile: Stress::mpa(800.0), in_shear: 0.6 };

impl BoltClass {
    /// What one bolt carries in shear through its thread, αv fub As/γM2. M20: 94.1 kN.
    /// Source: EN 1993-1-8 table 3.4.
    pub fn shear(&self, stress_area: Area) -> Force {
        self.tensile * stress_area * (self.in_shear / super::strength::JOINT_FACTOR)
    }

    /// What one bolt carries in tension, 0.9 fub As/γM2. M20: 141 kN. Source: EN 1993-1-8 table 3.4.
    pub fn tension(&self, stress_area: Area) -> Force {
        self.tensile * stress_area * (0.9 / super::strength::JOINT_FACTOR)
    }

    /// Share of a bolt's strength that shear and tension together take: Fv/Fv,Rd + Ft/(1.4 Ft,Rd), and Ft/Ft,Rd by itself.
    /// Source: EN 1993-1-8 table 3.4.
    pub fn taken(&self, stress_area: Area, shear: Force, tension: Force) -> f64 {
        let alone = tension / self.tension(stress_area);
        (shear / self.shear(stress_area) + alone / 1.4).max(alone)
    }
}

/// Pull on the bolt in the middle of a round foot that a force across tips, no weight holding it down: F h/(D/2).
/// Source: derived; moments about the edge of the foot.
pub fn tipping_pull(across: Force, arm: Length, foot: Length) -> Force {
    across * (arm / (foot / 2.0))
}
