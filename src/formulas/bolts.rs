//! Bolts: pull and torque of tightening, and what they carry.

use super::{MechanicsError, finite, not_negative, positive};
use crate::units::{Area, Force, Length, Stress, Torque};

/// Pull of a bolt tightened to a share of its proof stress: share × S_p A_s.
#[allow(dead_code, reason = "for the sheet of a bolted part, once its bolt has a class")]
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
#[allow(dead_code, reason = "for the sheet of a bolted part, once its bolt has a class")]
pub fn tightening_torque(pull: Force, diameter: Length, nut_factor: f64) -> Result<Torque, MechanicsError> {
    not_negative("the bolt's pull", pull.as_newtons())?;
    positive("the thread diameter", diameter.as_mm())?;
    positive("the nut factor", nut_factor)?;
    Ok(nut_factor * (pull * diameter))
}

/// Steel of a bolt.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct BoltClass {
    /// As it stands on the head: `8.8`, `A2-70`.
    pub name: &'static str,
    /// Tensile strength fub.
    pub tensile: Stress,
    /// Share of it that counts in shear through the thread, αv.
    pub in_shear: f64,
}

const fn class(name: &'static str, tensile_mpa: f64, in_shear: f64) -> BoltClass {
    BoltClass { name, tensile: Stress::mpa(tensile_mpa), in_shear }
}

/// Property class 8.8: 800 MPa, αv 0.6. Source: EN 1993-1-8 tables 3.1 and 3.4.
pub const CLASS_8_8: BoltClass = class("8.8", 800.0, 0.6);

/// Property classes with the nominal tensile strength (the figure before the dot, in hundreds of MPa). ISO 898-1:2013, table
/// 3, asks for at least that: 400, 520, 800, 1040, 1220 MPa (two reprints). αv by EN 1993-1-8 table 3.4: 0.6 for 4.6 and
/// 8.8, 0.5 for 5.8 and 10.9; it ends there, and 12.9 is taken as 10.9. Stainless: ISO 3506-1, 700 and 800 MPa; αv 0.5 in
/// the thread (EN 1993-1-4, from memory).
pub const CLASSES: &[BoltClass] = &[
    class("4.6", 400.0, 0.6),
    class("5.8", 500.0, 0.5),
    CLASS_8_8,
    class("10.9", 1000.0, 0.5),
    class("12.9", 1200.0, 0.5),
    class("A2-70", 700.0, 0.5),
    class("A4-80", 800.0, 0.5),
];

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
