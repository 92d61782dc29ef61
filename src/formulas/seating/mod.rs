//! A cone in a cup: where it touches, how high it sits, what it forgives, whether it slides home and comes off.
//!
//! Half-angle is from the axis. Depths in the plate count from the entry face, the face that meets the cone.

pub mod bedding;

use crate::units::{Angle, Area, Force, Length, Stress};

/// A ring of the bore on which a cone can come to rest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Corner {
    /// Diameter of the ring.
    pub diameter: Length,
    /// How deep it lies below the entry face.
    pub depth: Length,
    /// How its edge is broken.
    pub edge: EdgeBreak,
}

/// How an edge is broken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum EdgeBreak {
    /// Left sharp.
    Sharp,
    /// Rounded with this radius.
    Radius(Length),
}

/// Where a cone rests.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seat {
    /// Height of the entry face over the large end of the cone.
    pub height: Length,
    /// Diameter of the ring of contact.
    pub contact_diameter: Length,
    /// Which corner of the list touches.
    pub corner: usize,
    /// How many corners lie within the stated band below it.
    pub near: usize,
}

impl Corner {
    /// A sharp edge.
    pub const fn sharp(diameter: Length, depth: Length) -> Self {
        Self { diameter, depth, edge: EdgeBreak::Sharp }
    }

    /// The two edges of a 45° chamfer c at the entry rim of a bore d: its mouth, d + 2 c on the face, and where it runs
    /// out, d at the depth c. A cone slimmer than 45° rests on the inner one, a blunter one on the mouth.
    pub fn chamfered(diameter: Length, axial: Length) -> [Self; 2] {
        [Self::sharp(diameter + axial * 2.0, Length::ZERO), Self::sharp(diameter, axial)]
    }
}

/// Diameter of a cone at height z over its large end: D − 2 z tan a.
/// Source: geometry of the cone.
pub fn diameter_at(base: Length, half_angle: Angle, height: Length) -> Length {
    crate::formulas::turning::small_diameter(base, half_angle, height)
}

/// Height over the large end at which the entry face stands if this corner alone carried, and the ring of contact:
/// sharp (D − d)/(2 tan a) − y; radius r: contact on d + 2 r (1 − cos a), and lower by r (1 − sin a).
/// Source: derived; plane geometry of a line on an edge or a fillet.
pub fn height_on(base: Length, half_angle: Angle, corner: &Corner) -> (Length, Length) {
    let level = |d: Length| (base - d) / (2.0 * half_angle.tan()) - corner.depth;
    match corner.edge {
        EdgeBreak::Sharp => (level(corner.diameter), corner.diameter),
        EdgeBreak::Radius(radius) => {
            let contact = corner.diameter + radius * (2.0 * (1.0 - half_angle.cos()));
            (level(contact) - radius * (1.0 - half_angle.sin()), contact)
        }
    }
}

/// Where the cone rests among several corners: the one that asks for the greatest height.
/// `band` says how close below it another corner counts as near. `None` for an empty list.
/// Source: derived; a descending plate stops at the first contact.
pub fn seat(base: Length, half_angle: Angle, corners: &[Corner], band: Length) -> Option<Seat> {
    let heights: Vec<(Length, Length)> = corners.iter().map(|c| height_on(base, half_angle, c)).collect();
    let (index, &(height, contact_diameter)) =
        heights.iter().enumerate().max_by(|(i, a), (j, b)| a.0.as_mm().total_cmp(&b.0.as_mm()).then(j.cmp(i)))?;
    let near = heights.iter().filter(|(h, _)| height - *h <= band).count();
    Some(Seat { height, contact_diameter, corner: index, near })
}

/// How much lower a bore sits on a cone than was drawn (below 0: higher): seat height as drawn less that as made, each of base D,
/// half-angle a and rings of its own. None without a ring.
/// Source: geometry of the cone, as [`seat`]; half-angles above 0° and below 90°.
pub fn lower_than_drawn(drawn: (Length, Angle, &[Corner]), made: (Length, Angle, &[Corner])) -> Option<Length> {
    let height = |(base, half_angle, corners): (Length, Angle, &[Corner])| {
        seat(base, half_angle, corners, Length::ZERO).map(|seat| seat.height)
    };
    Some(height(drawn)? - height(made)?)
}

/// Change of seat height for a change of hole diameter: −Δd/(2 tan a).
/// Source: geometry of the cone.
pub fn height_for_hole(change: Length, half_angle: Angle) -> Length {
    -change / (2.0 * half_angle.tan())
}

/// Flat on the nose: where the nose radius starts, d_t − 2 r tan(45° − a/2); `tip` is the sharp tip diameter.
/// Source: derived; tangent length of a fillet in the corner between tip face and flank.
pub fn nose_flat(tip: Length, half_angle: Angle, radius: Length) -> Length {
    tip - radius * (2.0 * (Angle::degrees(45.0) - half_angle / 2.0).tan())
}

/// How far off centre the cone may hang and still find the hole: (d − d_flat)/2.
/// Source: derived; the nose flat must lie inside the hole.
pub fn capture_radius(entry: Length, nose_flat: Length) -> Length {
    (entry - nose_flat) / 2.0
}

/// Sideways play, in total, when the plate is held up by `lift` over its seat: 2 g tan a.
/// Source: derived; geometry of the cone.
pub fn side_play(lift: Length, half_angle: Angle) -> Length {
    lift * (2.0 * half_angle.tan())
}

/// Friction angle φ = atan μ.
pub fn friction_angle(friction: f64) -> Angle {
    Angle::atan(friction)
}

/// Greatest half-angle on which a plate touching one flank still slides down: 90° − atan μ.
/// Source: derived; equilibrium on the flank, F = P/tan(a + φ) must stay positive.
pub fn greatest_sliding_half_angle(friction: f64) -> Angle {
    Angle::degrees(90.0) - friction_angle(friction)
}

/// Horizontal pull towards the centre of a plate that slides down one flank under P: F = P/tan(a + φ); nought if it hangs.
/// Source: derived; equilibrium on the flank.
pub fn centring_force(load: Force, half_angle: Angle, friction: f64) -> Force {
    let sum = half_angle + friction_angle(friction);
    if sum >= Angle::degrees(90.0) { Force::ZERO } else { load / sum.tan() }
}

/// A cone sticks (holds itself) when a ≤ φ. Gives the pull beyond the weight that frees it,
/// F = P sin(φ − a)/sin(φ + a), with P the greatest vertical load ever applied; `None` when it does not stick.
/// Source: derived; equilibrium on the flank with friction reversed.
pub fn release_force(load: Force, half_angle: Angle, friction: f64) -> Option<Force> {
    let phi = friction_angle(friction);
    (half_angle <= phi).then(|| load * ((phi - half_angle).sin() / (phi + half_angle).sin()))
}

/// Rise of the seat by films on cone and cup, each measured square to its surface: (t₁ + t₂)/sin a.
/// Source: derived; geometry.
pub fn coating_rise(cone_film: Length, cup_film: Length, half_angle: Angle) -> Length {
    (cone_film + cup_film) / half_angle.sin()
}

/// Line load on a ring of contact, q = P/(π d sin a), in N per mm of circumference.
/// Source: derived; the normal force of a frictionless ring.
pub fn line_load_per_mm(load: Force, contact: Length, half_angle: Angle) -> f64 {
    load.as_newtons() / (std::f64::consts::PI * contact.as_mm() * half_angle.sin())
}

/// Mean pressure on a machined seat of the same angle as the cone: P / (π (D² − d²)/4), projected area.
/// Source: derived; hydrostatic distribution over a matching conical seat.
pub fn seat_pressure(load: Force, large: Length, small: Length) -> Stress {
    load / Area::mm2(std::f64::consts::FRAC_PI_4 * (large.as_mm() * large.as_mm() - small.as_mm() * small.as_mm()))
}
