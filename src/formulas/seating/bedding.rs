//! How far a rim beds into the flank of a cone under its first full load.
//!
//! Rim and flank are laid over each other as they were made, the plate lowered until what overlaps is wide enough to carry
//! the load at the pressure at which the metal gives way. Each rim has its own answer: a sharp ring is narrow and sinks far,
//! a rounded one is wide at once, the two straight edges of a slot touch at two points and sink most. The pressure of a
//! plastic contact lies between the yield strength and 2.8 times that (hardness relation of Tabor; Johnson, Contact
//! Mechanics, 1985, chapter 6: fully plastic at a mean pressure near 2.8 to 3 times yield).

use std::f64::consts::PI;

use super::Seat;
use crate::units::{Angle, Force, Length, Stress};

/// How the rim of a piece of the bore's wall is broken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rim {
    /// Left sharp.
    Sharp,
    /// Chamfered at 45°: axial depth.
    Chamfer(Length),
    /// Rounded with this radius.
    Radius(Length),
}

/// A piece of the bore's wall: metal outside `diameter` between two depths below the entry face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wall {
    /// Depth at which it begins.
    pub from: Length,
    /// Depth at which it ends.
    pub to: Length,
    /// Diameter where it begins.
    pub diameter: Length,
    /// By how much it leans to the axis as it goes deeper; nought for a cylinder.
    pub half_angle: Angle,
    /// Its rim at `from`.
    pub rim: Rim,
}

/// How the bore meets the cone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Touch {
    /// A ring, all round.
    Ring,
    /// The edges of a slot whose straight part is so long: two points.
    TwoPoints(Length),
}

/// A bore on the cone that it rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct Contact {
    /// Large end of the cone.
    pub base: Length,
    /// Half-angle of the cone.
    pub half_angle: Angle,
    /// Where it rests before it beds in.
    pub seat: Seat,
    /// The bore.
    pub walls: Vec<Wall>,
    /// Ring or slot.
    pub touch: Touch,
}

/// What the first full load does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Bedding {
    /// The rim gives way; the frame settles by at least and at most so much.
    Settles(Length, Length),
    /// The rim springs back: nothing to speak of.
    Elastic,
    /// It sinks beyond what can be judged so: more than a tenth of the plate.
    Beyond,
}

/// Steps of the sum over the length of a patch.
const SLICES: u32 = 64;

/// Peak of the elastic pressure over the yield strength at which a line contact begins to give way.
/// Source: Johnson, Contact Mechanics, 1985, section 4.2 (1.67 by Tresca).
const LINE_YIELDS: f64 = 1.67;

/// Share of the plate's thickness up to which the rim is taken to bed in rather than to be crushed.
/// Source: common practice, no source.
pub const DEEPEST: f64 = 0.1;

/// What of a contact stays as it is while the plate comes down.
struct Slopes {
    /// Tangent and cosine of the cone's half-angle.
    tan: f64,
    cos: f64,
    /// Tangent of the lean of every wall.
    leans: Vec<f64>,
    /// u/reach = sin t and its cosine in the middle of every slice of a patch: smooth at both ends.
    slices: Vec<(f64, f64)>,
}

impl Slopes {
    fn of(contact: &Contact) -> Self {
        let slice = |k: u32| {
            let t = Angle::degrees(90.0 * (f64::from(k) + 0.5) / f64::from(SLICES));
            (t.sin(), t.cos())
        };
        let slices = if contact.touch == Touch::Ring { 0 } else { SLICES };
        Self {
            tan: contact.half_angle.tan(),
            cos: contact.half_angle.cos(),
            leans: contact.walls.iter().map(|w| w.half_angle.tan()).collect(),
            slices: (0..slices).map(slice).collect(),
        }
    }
}

impl Contact {
    /// Load over a plastic pressure, square to the flank, for one patch: the surface that must bear, mm².
    fn wanted(&self, load: Force, pressure: Stress) -> f64 {
        let square = load.as_newtons() / self.half_angle.sin();
        square / pressure.as_mpa() / if self.touch == Touch::Ring { 1.0 } else { 2.0 }
    }

    /// Surface that bears when the plate is `lower` (mm) below first contact.
    /// Ring: land x π d. Slot: the land is summed along the edge, from which the cone falls away as `parts_by` says.
    /// Source: derived; overlap of the undeformed shapes.
    fn bears(&self, slopes: &Slopes, lower: f64) -> f64 {
        let Touch::TwoPoints(straight) = self.touch else {
            return PI * self.seat.contact_diameter.as_mm() * self.land(slopes, lower);
        };
        let half = straight.as_mm() / 2.0;
        let reach = self.patch_half_length(slopes.tan, lower, half);
        let slice = |(sin, cos): &(f64, f64)| {
            self.land(slopes, (lower - self.parts_by(slopes.tan, reach * sin, half)).max(0.0)) * cos
        };
        2.0 * reach * (PI / 2.0 / f64::from(SLICES)) * slopes.slices.iter().map(slice).sum::<f64>()
    }

    /// How much further the plate would have to come down for the flank to reach the edge at u from the middle of a slot,
    /// mm. The cone is round with R = d/(2 cos a) square to its flank: u² cos a/d away from a straight edge; beyond the
    /// straight half h the slot's round end, d/2, follows it and takes off (u − h)² cos a/d; over sin a. For u well below d/2.
    fn parts_by(&self, tan: f64, u: f64, half: f64) -> f64 {
        let round = (u - half).max(0.0);
        (u * u - round * round) / (self.seat.contact_diameter.as_mm() * tan)
    }

    /// Half the length of each patch of a slot: where the flank just reaches the edge.
    fn patch_half_length(&self, tan: f64, lower: f64, half: f64) -> f64 {
        let square = self.seat.contact_diameter.as_mm() * tan * lower;
        let straight = square.sqrt();
        if straight <= half { straight } else { (square + half * half) / (2.0 * half) }
    }

    /// Width of the land along the flank, when the plate is `lower` below first contact.
    fn land(&self, slopes: &Slopes, lower: f64) -> f64 {
        // The flank's radius at the entry face, and at depth y: at_face - y tan a.
        let at_face = self.base.as_mm() / 2.0 - (self.seat.height.as_mm() - lower) * slopes.tan;
        let walls = self.walls.iter().zip(&slopes.leans);
        walls.map(|(w, lean)| w.covered(at_face, slopes.tan, *lean)).sum::<f64>() / slopes.cos
    }

    /// Depth (mm) at which the bearing surface reaches `wanted`; `None` beyond `deepest`.
    fn lowered_until(&self, wanted: f64, deepest: f64) -> Option<f64> {
        let slopes = Slopes::of(self);
        if self.bears(&slopes, deepest) < wanted {
            return None;
        }
        let (mut low, mut high) = (0.0, deepest);
        for _ in 0..60 {
            let middle = (low + high) / 2.0;
            if self.bears(&slopes, middle) < wanted { low = middle } else { high = middle }
        }
        Some(high)
    }

    /// Settling at one plastic pressure; `None` if it goes beyond `deepest`.
    pub fn settles(&self, load: Force, pressure: Stress, deepest: Length) -> Option<Length> {
        let sound = load > Force::ZERO && pressure > Stress::ZERO && self.seat.contact_diameter > Length::ZERO;
        let found = sound.then(|| self.lowered_until(self.wanted(load, pressure), deepest.as_mm()))?;
        found.map(Length::mm)
    }

    /// Peak of the elastic pressure of a rounded rim on the flank, p₀ = √(q E*/(π r)), q = P/(π d sin a); `modulus` is E*.
    /// Source: line contact of Hertz; Johnson, Contact Mechanics, 1985, section 4.2.
    pub fn elastic_peak(&self, load: Force, radius: Length, modulus: Stress) -> Stress {
        let q = super::line_load_per_mm(load, self.seat.contact_diameter, self.half_angle);
        Stress::mpa((q * modulus.as_mpa() / (PI * radius.as_mm())).sqrt())
    }

    /// What the first full load does: `modulus` is E* of the pair, `yield_strength` that of the softer part.
    /// Valid for settling up to a tenth of the plate and patches of a slot shorter than a quarter of its width each way.
    pub fn bedding(&self, load: Force, yield_strength: Stress, modulus: Stress) -> Bedding {
        let thickness = self.walls.iter().map(|w| w.to).fold(Length::ZERO, Length::max);
        let deepest = thickness * DEEPEST;
        let radius = self.walls.iter().find_map(|w| if let Rim::Radius(r) = w.rim { Some(r) } else { None });
        let peak = radius.filter(|_| self.touch == Touch::Ring).map(|r| self.elastic_peak(load, r, modulus));
        if peak.is_some_and(|p| p <= yield_strength * LINE_YIELDS) {
            return Bedding::Elastic;
        }
        let ends = (self.settles(load, yield_strength * 2.8, deepest), self.settles(load, yield_strength, deepest));
        match ends {
            (Some(least), Some(most)) if self.short_enough(most) => Bedding::Settles(least, most),
            _ => Bedding::Beyond,
        }
    }

    fn short_enough(&self, lower: Length) -> bool {
        let Touch::TwoPoints(straight) = self.touch else { return true };
        let reach = self.patch_half_length(self.half_angle.tan(), lower.as_mm(), straight.as_mm() / 2.0);
        reach <= self.seat.contact_diameter.as_mm() / 4.0
    }
}

impl Wall {
    /// Depth range of the flank that lies inside this piece of metal; the flank's radius at depth y is
    /// `at_face` − y `slope`, that of the wall falls by `lean`. All in mm.
    fn covered(&self, at_face: f64, slope: f64, lean: f64) -> f64 {
        let (from, to, edge) = (self.from.as_mm(), self.to.as_mm(), self.diameter.as_mm() / 2.0);
        let inside_wall = (at_face - edge - from * lean, lean - slope);
        let Some((low, high)) = clipped((from, to), inside_wall) else { return 0.0 };
        match self.rim {
            Rim::Sharp => high - low,
            Rim::Chamfer(c) => {
                let beyond = (at_face - edge - from - c.as_mm(), 1.0 - slope);
                clipped((low, high), beyond).map_or(0.0, |(low, high)| high - low)
            }
            Rim::Radius(r) => {
                let start = (at_face - edge, from);
                rounded(start, slope, r.as_mm(), (low, high))
            }
        }
    }
}

/// The part of a range where a + b y ≥ 0.
fn clipped((low, high): (f64, f64), (a, b): (f64, f64)) -> Option<(f64, f64)> {
    let root = -a / b;
    let (low, high) = match b {
        b if b > 0.0 => (low.max(root), high),
        b if b < 0.0 => (low, high.min(root)),
        _ if a >= 0.0 => (low, high),
        _ => return None,
    };
    (low < high).then_some((low, high))
}

/// The range less what lies before the rounding of the rim. `start`: x of the flank at depth 0 beyond the wall, and the
/// depth of the rim.
fn rounded((x, rim): (f64, f64), slope: f64, r: f64, (low, high): (f64, f64)) -> f64 {
    // |(x - slope y - r, y - rim - r)| = r
    let (p, q) = (x - r, rim + r);
    let (a, b, c) = (1.0 + slope * slope, -(slope * p + q), p * p + q * q - r * r);
    let under = b * b - a * c;
    let before_arc = |y: f64| x - slope * y < r && y - rim < r;
    if under <= 0.0 {
        return if before_arc(low) { 0.0 } else { high - low };
    }
    let roots = ((-b - under.sqrt()) / a, (-b + under.sqrt()) / a);
    let low = if before_arc(low) { low.max(roots.0) } else { low };
    let high = if before_arc(high) { high.min(roots.1) } else { high };
    (high - low).max(0.0)
}
