//! Tubes: walls that a bolt squeezes, what a hole leaves of them, and where another tube meets a round one.

use std::f64::consts::PI;

use super::columns::buckling;
use super::strength::holed_plate_bending;
use super::{MechanicsError, positive};
use crate::units::{Angle, Force, Length, Stress};

/// Outline of a tube across its length.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Across {
    /// A round tube of that outside diameter.
    Round(Length),
    /// Flat walls: how far apart the outsides of the two pierced walls are, and how wide these walls are.
    Flat {
        /// From outside to outside through the hole.
        through: Length,
        /// Width of a pierced wall, over the outsides of the side walls.
        width: Length,
    },
}

/// A tube as its hole sees it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Tube {
    /// Its outline.
    pub across: Across,
    /// Its wall.
    pub wall: Length,
}

/// Shares of the bending stiffness that a hole through both walls leaves.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Left {
    /// Bent towards the openings: the pierced walls are the flanges.
    pub towards: f64,
    /// Bent sideways: the pierced walls are the webs, holed in their middle.
    pub sideways: f64,
}

impl Tube {
    fn check(&self) -> Result<(), MechanicsError> {
        positive("the tube's wall", self.wall.as_mm())?;
        let least = match self.across {
            Across::Round(outside) => outside,
            Across::Flat { through, width } => through.min(width),
        };
        if self.wall * 2.0 >= least {
            return Err(MechanicsError::NotSmaller { smaller: "twice the tube's wall", larger: "the tube's width" });
        }
        Ok(())
    }

    /// Pull of a bolt at which a wall begins to yield under its washer, with nothing inside that takes the pull.
    ///
    /// Round: a ring as long as the washer is wide, squeezed at two opposite places, M = F R/π, σ = 6 M/(b t²), hence
    /// F = π σ b t²/(6 R), R radius of the wall's middle; thin rings, t at most R/5. What the tube beside the washer carries
    /// is left out. Source: Timoshenko, Strength of Materials, thin ring under two opposite forces (M = 0.318 F R).
    ///
    /// Flat: a round plate as wide as the wall between its side walls, free to turn there, loaded round the edge of the
    /// washer, as [`holed_plate_bending`].
    pub fn yields_from(&self, yield_strength: Stress, poisson: f64, washer: Length) -> Result<Force, MechanicsError> {
        self.check()?;
        positive("the washer's diameter", washer.as_mm())?;
        positive("the yield strength", yield_strength.as_mpa())?;
        match self.across {
            Across::Round(outside) => {
                let radius = (outside - self.wall) / 2.0;
                if self.wall > radius / 5.0 {
                    let range = "at most a fifth of its radius: a thicker one does not bend as a thin ring";
                    return Err(MechanicsError::OutOfRange { what: "the tube's wall", range });
                }
                let (b, t) = (washer.as_mm(), self.wall.as_mm());
                Ok(Force::newtons(PI * yield_strength.as_mpa() * b * t * t / (6.0 * radius.as_mm())))
            }
            Across::Flat { width, .. } => {
                let span = (width - self.wall * 2.0) / 2.0;
                let one = holed_plate_bending(Force::newtons(1.0), span, washer / 2.0, self.wall, poisson)?;
                Ok(Force::newtons(yield_strength.as_mpa() / one.as_mpa()))
            }
        }
    }

    /// What a hole through both walls leaves of the second moment of area.
    ///
    /// Flat: of I = (B H³ − (B − 2 t)(H − 2 t)³)/12 two pieces d × t are gone, at (H − t)/2 from the middle where they are
    /// flanges: 2 (d t³/12 + d t ((H − t)/2)²), and 2 t d³/12 where they are webs. Round, as a thin ring with
    /// sin φ = d/(2 R): shares 2 (φ ± sin φ cos φ)/π are gone. Sharp corners, hole narrower than the wall.
    /// Source: second moments of area, Timoshenko, Strength of Materials.
    pub fn left_by(&self, hole: Length) -> Result<Left, MechanicsError> {
        self.check()?;
        positive("the hole", hole.as_mm())?;
        let (d, t) = (hole.as_mm(), self.wall.as_mm());
        match self.across {
            Across::Round(outside) => {
                let radius = ((outside - self.wall) / 2.0).as_mm();
                if d >= 2.0 * radius {
                    return Err(MechanicsError::NotSmaller { smaller: "the hole", larger: "the tube" });
                }
                let half = libm::asin(d / (2.0 * radius));
                let both = libm::sin(2.0 * half) / 2.0;
                Ok(Left { towards: 1.0 - 2.0 * (half + both) / PI, sideways: 1.0 - 2.0 * (half - both) / PI })
            }
            Across::Flat { through, width } => {
                let (h, b) = (through.as_mm(), width.as_mm());
                if d >= b - 2.0 * t {
                    return Err(MechanicsError::NotSmaller { smaller: "the hole", larger: "the flat of the wall" });
                }
                let of = |b: f64, h: f64| (b * h.powi(3) - (b - 2.0 * t) * (h - 2.0 * t).powi(3)) / 12.0;
                let flanges = 2.0 * (d * t.powi(3) / 12.0 + d * t * ((h - t) / 2.0).powi(2));
                let webs = 2.0 * t * d.powi(3) / 12.0;
                Ok(Left { towards: 1.0 - flanges / of(b, h), sideways: 1.0 - webs / of(h, b) })
            }
        }
    }

    /// How far from the middle of the tube, along a sleeve that goes through it, the sleeve's outside leaves the tube's
    /// outside, at the angle `around` from the line that leans farthest along the tube. The sleeve is `sleeve` thick and leans by `lean`
    /// from square to the tube, in the plane of the tube's axis.
    ///
    /// r sin β cos φ from the lean, with it (√(R² − r² sin² φ)) of a round tube or H/2 of a flat wall:
    /// t = (√(R² − r² sin² φ) + r sin β cos φ)/cos β. Lean below 60 degrees, sleeve no thicker than a round tube.
    /// Source: line on a cylinder met with a cylinder or a plane, analytic geometry.
    pub fn meets(&self, sleeve: Length, lean: Angle, around: Angle) -> Result<Length, MechanicsError> {
        self.check()?;
        positive("the sleeve's diameter", sleeve.as_mm())?;
        let leans = lean.as_degrees().abs();
        if leans.is_nan() || leans >= 60.0 {
            return Err(MechanicsError::OutOfRange { what: "the lean", range: "less than 60 degrees from square" });
        }
        let r = (sleeve / 2.0).as_mm();
        let square = match self.across {
            Across::Round(outside) => {
                let across = r * around.sin();
                let radius = (outside / 2.0).as_mm();
                if r > radius {
                    return Err(MechanicsError::NotSmaller { smaller: "the sleeve", larger: "the tube" });
                }
                libm::sqrt((radius * radius - across * across).max(0.0))
            }
            Across::Flat { through, .. } => (through / 2.0).as_mm(),
        };
        Ok(Length::mm((square + r * lean.sin() * around.cos()) / lean.cos()))
    }
}

/// Stress at which a short tube under a load along it gives way by buckling, ends free to turn, k = √(D² + d²)/4, by
/// [`buckling`].
pub fn column(
    outside: Length,
    bore: Length,
    length: Length,
    yield_strength: Stress,
    youngs_modulus: Stress,
) -> Result<Stress, MechanicsError> {
    positive("the length", length.as_mm())?;
    if bore >= outside {
        return Err(MechanicsError::NotSmaller { smaller: "the bore", larger: "the outside" });
    }
    let gyration = libm::hypot(outside.as_mm(), bore.as_mm()) / 4.0;
    buckling(length.as_mm() / gyration, yield_strength, youngs_modulus)
}
