//! Bolts: pull and torque of tightening, and what they carry.

use super::{MechanicsError, finite, not_negative, positive};
use crate::units::{Angle, Area, Force, Length, Stress, Torque};

/// Pull of a bolt tightened to a share of its proof stress: share × S_p A_s.
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

/// Distance from hole to hole of a bolt circle, to which dividers are set: D sin(180°/n); n at least 2.
/// Source: machinery handbooks, lengths of chords for spacing off the circumference of circles.
pub fn chord(circle: Length, holes: u32) -> Length {
    circle * Angle::degrees(180.0 / f64::from(holes.max(2))).sin()
}

/// Tightening torque T = K F d; K nut factor (0.20 plain and dry, 0.15 oiled: torque charts), d thread diameter.
pub fn tightening_torque(pull: Force, diameter: Length, nut_factor: f64) -> Result<Torque, MechanicsError> {
    not_negative("the bolt's pull", pull.as_newtons())?;
    positive("the thread diameter", diameter.as_mm())?;
    positive("the nut factor", nut_factor)?;
    Ok(nut_factor * (pull * diameter))
}

/// The share of its proof load to which a bolt that comes off again is drawn. Source: Shigley, Mechanical Engineering Design
/// (reused connections); the IFI charts of torques take the same.
pub const SHARE: f64 = 0.75;

/// How far the pull strays either way at one torque. Source: VDI 2230, torque wrench with friction estimated: tightening
/// factor 1.6 to 2, which is 23 to 33 %.
pub const SCATTER: f64 = 0.3;

/// Length of thread in a softer part that carries a pull without yielding: F/(0.6 π d σy/√3). 0.6 π d is the sheared area
/// of an inner thread for each length, at the limits of 6H and 6g from M4 (0.62) to M16 (0.71), more beyond; d thread
/// diameter, 4 mm or more: a smaller thread has less of it.
/// Source: area by the formula of FED-STD-H28 (from memory), shear yield after von Mises.
pub fn engagement(pull: Force, diameter: Length, yield_strength: Stress) -> Result<Length, MechanicsError> {
    not_negative("the bolt's pull", pull.as_newtons())?;
    positive("the thread diameter", diameter.as_mm())?;
    positive("the yield strength", yield_strength.as_mpa())?;
    if diameter < Length::mm(4.0) {
        return Err(MechanicsError::OutOfRange { what: "the thread diameter", range: "4 mm or more" });
    }
    let around = INNER_THREAD * std::f64::consts::PI * diameter.as_mm();
    Ok(Length::mm(pull.as_newtons() / (around * yield_strength.as_mpa() * super::strength::SHEAR_SHARE)))
}

/// Share of the cylinder about an inner thread that is sheared where it strips.
const INNER_THREAD: f64 = 0.6;

/// Steel of a bolt.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct BoltClass {
    /// As it stands on the head: `8.8`, `A2-70`.
    pub name: &'static str,
    /// Tensile strength fub.
    pub tensile: Stress,
    /// Proof stress, or where none is stated the 0.2 % limit.
    pub proof: Stress,
    /// Smallest thread that is made so.
    pub from: Length,
    /// Largest thread of which that holds.
    pub up_to: Length,
    /// Share of it that counts in shear through the thread, αv.
    pub in_shear: f64,
}

const fn class(name: &'static str, tensile_mpa: f64, proof_mpa: f64, in_shear: f64) -> BoltClass {
    BoltClass {
        name,
        tensile: Stress::mpa(tensile_mpa),
        proof: Stress::mpa(proof_mpa),
        from: Length::ZERO,
        up_to: ANY,
        in_shear,
    }
}

const fn from(mm: f64, class: BoltClass) -> BoltClass {
    BoltClass { from: Length::mm(mm), ..class }
}

const fn up_to(mm: f64, class: BoltClass) -> BoltClass {
    BoltClass { up_to: Length::mm(mm), ..class }
}

/// Larger than any bolt here.
const ANY: Length = Length::mm(1000.0);

/// A grade of SAE J429, strengths in pounds per square inch.
const fn grade(name: &'static str, tensile: f64, proof: f64, in_shear: f64) -> BoltClass {
    class(name, tensile / PSI, proof / PSI, in_shear)
}

/// Pounds per square inch in one MPa.
const PSI: f64 = 145.037_738;

/// Property class 8.8: 800 MPa, αv 0.6. Source: EN 1993-1-8 tables 3.1 and 3.4.
pub const CLASS_8_8: BoltClass = up_to(16.0, class("8.8", 800.0, 580.0, 0.6));

/// Grade 5 of SAE J429, the usual inch bolt.
pub const GRADE_5: BoltClass = up_to(25.4, grade("grade 5", 120_000.0, 85_000.0, 0.6));

/// Property classes with the nominal tensile strength (the figure before the dot, in hundreds of MPa). ISO 898-1:2013, table
/// 3, asks for at least that: 400, 520, 800, 1040, 1220 MPa (two reprints). αv by EN 1993-1-8 table 3.4: 0.6 for 4.6 and
/// 8.8, 0.5 for 5.8 and 10.9; it ends there, and 12.9 is taken as 10.9. Stainless: ISO 3506-1, 700 and 800 MPa; αv 0.5 in
/// the thread (EN 1993-1-4, from memory). Proof stresses: ISO 898-1:2013 (its table of proof loads over stress areas);
/// stainless, the 0.2 % limit of ISO 3506-1. Inch: SAE J429, proof and tensile (two reprints); αv by the class of like
/// strength, common practice. A325 and A490: ASTM F3125, from memory; 1/2 to 1-1/2 in. A574, the alloy steel of inch socket screws:
/// ASTM A574, from memory.
pub const CLASSES: &[BoltClass] = &[
    class("4.6", 400.0, 225.0, 0.6),
    class("5.8", 500.0, 380.0, 0.5),
    CLASS_8_8,
    class("8.8", 800.0, 600.0, 0.6),
    class("10.9", 1000.0, 830.0, 0.5),
    class("12.9", 1200.0, 970.0, 0.5),
    class("A2-70", 700.0, 450.0, 0.5),
    class("A4-80", 800.0, 600.0, 0.5),
    up_to(19.05, grade("grade 2", 74_000.0, 55_000.0, 0.6)),
    grade("grade 2", 60_000.0, 33_000.0, 0.6),
    GRADE_5,
    grade("grade 5", 105_000.0, 74_000.0, 0.6),
    grade("grade 8", 150_000.0, 120_000.0, 0.5),
    up_to(38.1, from(12.7, grade("A325", 120_000.0, 85_000.0, 0.6))),
    up_to(38.1, from(12.7, grade("A490", 150_000.0, 120_000.0, 0.5))),
    up_to(12.7, grade("A574", 180_000.0, 140_000.0, 0.5)),
    grade("A574", 170_000.0, 135_000.0, 0.5),
];

impl BoltClass {
    /// The class of that name for a thread of that diameter.
    pub fn of(name: &str, diameter: Length) -> Option<Self> {
        CLASSES.iter().find(|c| c.name == name && diameter >= c.from && diameter <= c.up_to).copied()
    }

    /// Whether it is of stainless steel.
    pub fn stainless(&self) -> bool {
        self.name.starts_with("A2-") || self.name.starts_with("A4-")
    }

    /// Whether it is a grade of inch bolts.
    pub fn is_grade(&self) -> bool {
        self.name.starts_with("grade") || self.structural() || self.name == "A574"
    }

    /// Whether it is a bolt for steel structures.
    pub fn structural(&self) -> bool {
        matches!(self.name, "A325" | "A490")
    }

    /// The nut that carries it: ISO 898-2, SAE J995, ASTM A563 and ISO 3506-2, a full nut of no lesser class.
    pub fn nut(&self) -> &'static str {
        match self.name {
            "4.6" | "5.8" => "class 5",
            "8.8" => "class 8",
            "10.9" => "class 10",
            "12.9" => "class 12",
            "A325" | "A490" => "grade DH, heavy hex",
            // No nut is sold for it; that of grade 8 bears 150 000 psi, more than its proof stress.
            "A574" => "grade 8",
            own => own,
        }
    }

    /// What one bolt carries in shear through its thread, αv fub As/γM2. M20: 94.1 kN.
    /// Source: EN 1993-1-8 table 3.4.
    pub fn shear(&self, stress_area: Area) -> Force {
        self.tensile * stress_area * (self.in_shear / super::strength::JOINT_FACTOR)
    }

    /// What one bolt carries in tension, 0.9 fub As/γM2. M20: 141 kN. Source: EN 1993-1-8 table 3.4.
    pub fn tension(&self, stress_area: Area) -> Force {
        self.tensile * stress_area * (0.9 / super::strength::JOINT_FACTOR)
    }

    /// Share of its strength that a force across takes where the bolt bridges a gap and bends: F l/(αM M), M = 1.2 W fub/γ
    /// (1 − Ft/Ft,Rd), W = π ds³/32 of the stress area, l = gap + d: half a diameter inside each part. αM is 1 where the part can
    /// turn on it, 2 where others hold it from turning. Where the pull along takes all by itself, Ft/Ft,Rd + Fv/Fv,Rd, which is
    /// above 1. γ: fub over the yield, here the proof stress, at least 1.25, from 800 MPa 1.5.
    /// Source: EN 1992-4, 6.2.2.3 and 7.2.2.3.2 (shear with a lever arm; factors of its table 4.1 from memory).
    pub fn bent_across(
        &self,
        stress_area: Area,
        diameter: Length,
        gap: Length,
        held: bool,
        across: Force,
        along: Force,
    ) -> f64 {
        let section = 2.0 * libm::sqrt(stress_area.as_mm2() / std::f64::consts::PI);
        let modulus = std::f64::consts::PI * section.powi(3) / 32.0;
        let least = if self.tensile.as_mpa() > HARD { 1.5 } else { 1.25 };
        let factor = (self.tensile / self.proof).max(least);
        let left = 1.0 - along / self.tension(stress_area);
        let restraint = if held { 2.0 } else { 1.0 };
        let moment = 1.2 * modulus * self.tensile.as_mpa() / factor * left;
        if moment <= 0.0 {
            return along / self.tension(stress_area) + across / self.shear(stress_area);
        }
        across.as_newtons() * (gap + diameter).as_mm() / (restraint * moment)
    }

    /// Share of a bolt's strength that shear and tension together take: Fv/Fv,Rd + Ft/(1.4 Ft,Rd), and Ft/Ft,Rd by itself.
    /// Source: EN 1993-1-8 table 3.4.
    pub fn taken(&self, stress_area: Area, shear: Force, tension: Force) -> f64 {
        let alone = tension / self.tension(stress_area);
        (shear / self.shear(stress_area) + alone / 1.4).max(alone)
    }
}

/// Tensile strength beyond which a bolt bends less before it breaks, MPa (grade 5 and A325 still count as 8.8).
const HARD: f64 = 830.0;

/// Share of its shear strength that solid packing of that thickness leaves a bolt: 9 d/(8 d + 3 t), 1 up to a third of the
/// bolt's diameter. Up to 4/3 of it, as BS 5950-1, 6.3.2.2 bounds the same rule (from memory).
/// Source: EN 1993-1-8, 3.6.1(12), from memory.
pub fn packed_share(diameter: Length, packing: Length) -> Result<f64, MechanicsError> {
    positive("the thread diameter", diameter.as_mm())?;
    not_negative("the packing", packing.as_mm())?;
    if packing > diameter * (4.0 / 3.0) {
        return Err(MechanicsError::OutOfRange { what: "the packing", range: "at most 4/3 of the bolt's diameter" });
    }
    Ok((9.0 * diameter.as_mm() / (8.0 * diameter.as_mm() + 3.0 * packing.as_mm())).min(1.0))
}

/// What one bolt holds by friction of the faces that it draws together: ks µ (Fp − 0.8 Ft)/γM3, γM3 1.25, one pair of faces; Fp
/// its pull, Ft what pulls it off, ks by the hole. Nothing where Ft takes all of it.
/// Source: EN 1993-1-8, 3.9.1 and 3.9.2 (M20, 8.8, Fp = 0.7 fub As, µ 0.2: 22.0 kN).
pub fn held_by_friction(pull: Force, off: Force, hole_factor: f64, slip_factor: f64) -> Force {
    (pull - off * 0.8).max(Force::ZERO) * (hole_factor * slip_factor / super::strength::JOINT_FACTOR)
}

/// Pull on the bolt in the middle of a round foot that a force across tips, no weight holding it down: F h/(D/2).
/// Source: derived; moments about the edge of the foot.
pub fn tipping_pull(across: Force, arm: Length, foot: Length) -> Force {
    across * (arm / (foot / 2.0))
}
