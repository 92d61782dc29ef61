//! A clamp on a tube: what its screws press on the tube, what then slips, and what closing it costs.
//!
//! Thin rings, elastic; friction by Coulomb. Source of the ways of pressing: Roloff/Matek, Maschinenelemente, clamped connections (from
//! memory): pressed in two lines, by the cosine, or evenly, as bore and tube fit each other.

use std::f64::consts::PI;

use super::{MechanicsError, not_negative, positive};
use crate::units::{Force, Length, Stress, Torque};

/// How the clamp is parted.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Parted {
    /// One slit: the ring is a hinge opposite to it.
    Once,
    /// Two halves, screws on both sides.
    InHalves,
}

/// How bore and tube lie on each other.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Lies {
    /// In two opposite lines: the bore is larger and stiff.
    InLines,
    /// By the cosine of the angle from the line of the force.
    ByCosine,
    /// Evenly all round: the ring hugs the tube.
    Evenly,
}

impl Lies {
    /// Sum of all normal forces over the force that presses the two sides together, halved: 1, 4/π or π/2.
    /// Source: Roloff/Matek, factor K of 1, π²/8 and π/2 the other way round, from memory; derived by integration.
    pub const fn factor(self) -> f64 {
        match self {
            Self::InLines => 1.0,
            Self::ByCosine => 4.0 / PI,
            Self::Evenly => PI / 2.0,
        }
    }
}

/// The force that presses each side of a clamp on the tube: the pull of all screws of two halves; of a slit ring the pull times its
/// lever about the hinge opposite to the slit, (R + e)/R; R mean radius of the ring, e from its axis to the screws, e at least R.
/// Source: Roloff/Matek, slit hub as two levers; moments about the hinge.
pub fn pressed_by(pull: Force, parted: Parted, mean_radius: Length, screw: Length) -> Result<Force, MechanicsError> {
    not_negative("the pull of the screws", pull.as_newtons())?;
    positive("the mean radius", mean_radius.as_mm())?;
    match parted {
        Parted::InHalves => Ok(pull),
        Parted::Once if screw < mean_radius => Err(MechanicsError::OutOfRange {
            what: "the distance of the screws from the axis",
            range: "at least the mean radius of the ring",
        }),
        Parted::Once => Ok(pull * ((mean_radius + screw) / mean_radius)),
    }
}

/// Torque that slips the tube in its clamp: µ K N D, N from [`pressed_by`], K from [`Lies::factor`], D of the tube.
/// Source: two sides, each µ K N at D/2.
pub fn slip_torque(pressed: Force, lies: Lies, friction: f64, tube: Length) -> Result<Torque, MechanicsError> {
    Ok(slip_force(pressed, lies, friction)? * (tube / 2.0))
}

/// Force along the tube, or round its surface, that slips it: 2 µ K N.
pub fn slip_force(pressed: Force, lies: Lies, friction: f64) -> Result<Force, MechanicsError> {
    not_negative("the force on each side", pressed.as_newtons())?;
    not_negative("the friction coefficient", friction)?;
    Ok(pressed * (2.0 * friction * lies.factor()))
}

/// Force round the surface and along the tube that a torque and a force ask for together, √(F² + (2 T/D)²).
/// Source: both slip the same face, square to each other.
pub fn asked(torque: Torque, force: Force, tube: Length) -> Result<Force, MechanicsError> {
    positive("the diameter of the tube", tube.as_mm())?;
    let round = 2000.0 * torque.as_newton_metres() / tube.as_mm();
    Ok(Force::newtons(libm::hypot(force.as_newtons(), round)))
}

/// How much a gap closes until the clamp lies on its tube: π c of a slit ring, c of each gap of two halves; c the clearance of bore over
/// tube on the diameter. Source: the fibre of the bore keeps its length; halves move towards each other.
pub fn gap_closes(clearance: Length, parted: Parted) -> Length {
    match parted {
        Parted::Once => clearance * PI,
        Parted::InHalves => clearance,
    }
}

/// A slit ring as a bent bar.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct SlitRing {
    /// Bore.
    pub bore: Length,
    /// Outside.
    pub outside: Length,
    /// Along the tube.
    pub width: Length,
    /// From the axis to the screws.
    pub screw: Length,
    /// Young's modulus.
    pub modulus: Stress,
}

impl SlitRing {
    /// Mean radius and wall, mm. The wall is at most half of the mean radius: a thicker ring does not bend as a thin one, to within a
    /// few per cent (Timoshenko, Strength of Materials, curved bars).
    fn check(&self) -> Result<(f64, f64), MechanicsError> {
        positive("the bore", self.bore.as_mm())?;
        positive("the width", self.width.as_mm())?;
        positive("Young's modulus", self.modulus.as_mpa())?;
        if self.bore >= self.outside {
            return Err(MechanicsError::NotSmaller { smaller: "the bore", larger: "the outside of the ring" });
        }
        let (mean, wall) =
            ((self.bore.as_mm() + self.outside.as_mm()) / 4.0, (self.outside.as_mm() - self.bore.as_mm()) / 2.0);
        if wall > mean / 2.0 {
            return Err(MechanicsError::OutOfRange {
                what: "the wall of the ring",
                range: "at most half of its mean radius",
            });
        }
        if self.screw.as_mm() < mean {
            return Err(MechanicsError::OutOfRange {
                what: "the distance of the screws from the axis",
                range: "at least the mean radius of the ring",
            });
        }
        Ok((mean, wall))
    }

    /// Second moment of the wall, mm⁴.
    fn inertia(&self, wall: f64) -> f64 {
        self.width.as_mm() * wall * wall * wall / 12.0
    }

    /// How much the slit closes where the screws are, for each newton: R (2 π e² + π R²)/(E I), M = P (e − R cos θ) summed over the ring.
    /// 3 π R³/(E I) for forces at the mean radius. Source: Timoshenko, Strength of Materials, thin slit ring, Castigliano.
    pub fn closes_by(&self, pull: Force) -> Result<Length, MechanicsError> {
        let (r, wall) = self.check()?;
        let e = self.screw.as_mm();
        let stiffness = self.modulus.as_mpa() * self.inertia(wall);
        Ok(Length::mm(pull.as_newtons() * r * (2.0 * PI * e * e + PI * r * r) / stiffness))
    }

    /// Pull that closes the ring on a tube that is smaller by a clearance: the slit closes by π c e/R at the screws.
    /// Source: the mean fibre keeps its length, the slit faces stay radial; [`SlitRing::closes_by`].
    pub fn pull_to_close(&self, clearance: Length) -> Result<Force, MechanicsError> {
        let (r, _) = self.check()?;
        not_negative("the clearance", clearance.as_mm())?;
        let wanted = PI * clearance.as_mm() * self.screw.as_mm() / r;
        Ok(Force::newtons(wanted / self.closes_by(Force::newtons(1.0))?.as_mm()))
    }

    /// Bending stress opposite to the slit while it is closed: 6 P (e + R)/(w h²). Source: beam theory.
    pub fn bent_by(&self, pull: Force) -> Result<Stress, MechanicsError> {
        let (r, wall) = self.check()?;
        let moment = pull.as_newtons() * (self.screw.as_mm() + r);
        Ok(Stress::mpa(6.0 * moment / (self.width.as_mm() * wall * wall)))
    }

    /// The greatest clearance at which the screws still press with a wanted pull, of all that they have; none where they have less.
    pub fn clearance_that_leaves(&self, pull: Force, wanted: Force) -> Result<Option<Length>, MechanicsError> {
        let left = pull - wanted;
        if left < Force::ZERO {
            return Ok(None);
        }
        let for_one = self.pull_to_close(Length::mm(1.0))?;
        Ok(Some(Length::mm(left / for_one)))
    }
}

/// Bending stress of an ear where it leaves the ring: 6 F a/(w t²), F the pull of all its screws, a from there to the screws.
/// Source: cantilever, M = F a; Shigley, Mechanical Engineering Design.
pub fn ear_bending(pull: Force, arm: Length, width: Length, thickness: Length) -> Result<Stress, MechanicsError> {
    not_negative("the arm of the ear", arm.as_mm())?;
    positive("the width of the ear", width.as_mm())?;
    positive("the thickness of the ear", thickness.as_mm())?;
    let t = thickness.as_mm();
    Ok(Stress::mpa(6.0 * pull.as_newtons() * arm.as_mm() / (width.as_mm() * t * t)))
}

/// Hoop stress of a thin tube squeezed evenly: N/w over its wall and both sides, p = N/(D w), σ = p D/(2 t).
/// Source: thin vessel under outer pressure, Timoshenko, Strength of Materials.
pub fn tube_squeezed(pressed: Force, width: Length, wall: Length) -> Result<Stress, MechanicsError> {
    positive("the width", width.as_mm())?;
    positive("the wall of the tube", wall.as_mm())?;
    Ok(Stress::mpa(pressed.as_newtons() / (2.0 * width.as_mm() * wall.as_mm())))
}
