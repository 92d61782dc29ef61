//! The adapter as a solid, what is cut of its plate, and its gaskets.

use crate::shape::{Bored, Circle, Contour, Cutting, Flat, FlatHole, Mark, Point, ShapeError};
use crate::standards::{processes, stock};
use crate::units::Length;

use super::read::{Face, Spec, Way, Which};

/// What a face that is turned takes off the plate. Source: common practice, no source.
pub const FACING: Length = Length::mm(1.0);

/// By how much a bore that is turned is cut smaller, and a hole for a tap: the tool takes the hard skin away.
/// Source: common practice, no source.
pub const SKIN: Length = Length::mm(3.0);
const TAP_SKIN: Length = Length::mm(1.0);
/// Size of the crosses that mark drilled centres.
const CROSS: Length = Length::mm(4.0);
/// Depth of a drill's point of 118 degrees for each diameter, 0.5/tan 59.
const POINT: f64 = 0.300_43;

/// Where the bolts of a pattern lie, seen from above.
pub fn centres(face: &Face) -> Vec<Point> {
    let half = face.circle.value / 2.0;
    face.angles().map(|a| Point::new(half * a.cos(), half * a.sin())).collect()
}

/// The finished adapter; its lower face lies at nought, its upper face at the thickness.
pub fn flat(s: &Spec) -> Result<Flat, ShapeError> {
    let t = s.thickness.value;
    let mut holes = middle(s)?;
    for face in s.faces() {
        for at in centres(face) {
            holes.push(FlatHole::Bored(hole(face, at, t)?));
        }
    }
    Flat::disc(s.outside.value, t, holes)
}

/// One hole of a pattern.
fn hole(face: &Face, at: Point, t: Length) -> Result<Bored, ShapeError> {
    let (d, none) = (face.hole, Length::ZERO);
    let up = face.which == Which::Upper;
    match (face.way, face.drilled()) {
        (Way::Counterbored(head), _) => {
            let (deep, wide) = (head.seat_depth, head.seat_diameter);
            if up {
                Bored::from_corners(at, &[(none, d), (t - deep, d), (t - deep, wide), (t, wide)])
            } else {
                Bored::from_corners(at, &[(none, wide), (deep, wide), (deep, d), (t, d)])
            }
        }
        (Way::Tapped, Some(deep)) => {
            let corners = [(none, d), (deep, d), (deep + d * POINT, none)];
            if up { Bored::from_corners(at, &corners) } else { Bored::from_below(at, &corners, t) }
        }
        _ => Bored::through(at, d, t),
    }
}

/// Bore, registers and grooves about the axis: one turned middle, or one on each face where there is no bore.
fn middle(s: &Spec) -> Result<Vec<FlatHole>, ShapeError> {
    let t = s.thickness.value;
    let features = |face: &Face| face.register.is_some() || face.ring.is_some();
    if let (Some(above), Some(below)) = (s.bore_at(Which::Upper), s.bore_at(Which::Lower)) {
        let corners = [half(&s.upper, above), from_below(half(&s.lower, below), t)].concat();
        return Ok(vec![FlatHole::Bored(Bored::turned(Point::ORIGIN, &without_twins(corners))?)]);
    }
    let none = Length::ZERO;
    let mut all = Vec::new();
    if features(&s.upper) {
        all.push(FlatHole::Bored(Bored::turned(Point::ORIGIN, &without_twins(half(&s.upper, none)))?));
    }
    if features(&s.lower) {
        let corners = without_twins(from_below(half(&s.lower, none), t));
        all.push(FlatHole::Bored(Bored::turned(Point::ORIGIN, &corners)?));
    }
    Ok(all)
}

/// Corners (depth, diameter) from the widest edge in a face to its bore.
fn half(face: &Face, bore: Length) -> Vec<(Length, Length)> {
    let none = Length::ZERO;
    let mut corners = Vec::new();
    if let Some(ring) = &face.ring {
        let ((inner, outer), deep) = (ring.walls(), ring.depth());
        corners.extend([(none, outer), (deep, outer), (deep, inner), (none, inner)]);
    }
    let mut level = none;
    if let Some(register) = &face.register {
        level = if register.spigot { -register.height.value } else { register.height.value };
        corners.extend([(none, register.diameter.value), (level, register.diameter.value)]);
    }
    corners.push((level, bore));
    corners
}

/// The same from the lower face up, in the order from the top down.
fn from_below(corners: Vec<(Length, Length)>, t: Length) -> Vec<(Length, Length)> {
    corners.into_iter().rev().map(|(depth, d)| (t - depth, d)).collect()
}

fn without_twins(mut corners: Vec<(Length, Length)>) -> Vec<(Length, Length)> {
    corners.dedup();
    corners
}

/// Thickness that is ordered: what stands over the faces is turned out of it, each turned face takes one millimetre at least,
/// and what is turned comes from the next plate that is sold.
pub fn blank_thickness(s: &Spec) -> Length {
    let spigot = |f: &Face| f.register.as_ref().filter(|r| r.spigot).map_or(Length::ZERO, |r| r.height.value);
    let whole = s.thickness.value + spigot(&s.upper) + spigot(&s.lower);
    let ordered = if s.is_turned() { stock::plate_to_turn(whole + FACING * 2.0, s.common.header.unit) } else { whole };
    ordered.rounded()
}

/// Width to which the holes of a pattern are cut; none where they are drilled.
pub fn cut_width(s: &Spec, face: &Face) -> Option<Length> {
    let width = if face.tapped() { face.hole - TAP_SKIN } else { face.hole };
    let through = face.thread_depth.is_none();
    (through && processes::can_be_cut(width, blank_thickness(s))).then_some(width)
}

/// Diameter to which the bore is cut; none where it is drilled or there is none.
pub fn cut_bore(s: &Spec) -> Option<Length> {
    let bore = s.bore_at(Which::Upper)?.min(s.bore_at(Which::Lower)?);
    let width = if s.is_turned() { bore - SKIN } else { bore };
    processes::can_be_cut(width, blank_thickness(s)).then_some(width)
}

/// What the laser cuts of the plate.
pub fn cutting(s: &Spec) -> Result<Cutting, ShapeError> {
    let circle = |at: Point, d: Length| Circle::new(at, d).and_then(Contour::circle);
    let (mut holes, mut marks) = (Vec::new(), Vec::new());
    if let Some(bore) = cut_bore(s) {
        holes.push(circle(Point::ORIGIN, bore)?);
    }
    for face in s.faces() {
        for at in centres(face) {
            match cut_width(s, face) {
                Some(width) => holes.push(circle(at, width)?),
                // Both faces are turned before anything is drilled: a mark would go with the chips.
                None if s.is_turned() => {}
                // What is blind from below is set out on the face that it is drilled from.
                None if face.which == Which::Lower && face.thread_depth.is_some() => {}
                None => marks.push(Mark::Cross { centre: at, size: CROSS }),
            }
        }
    }
    Cutting::new(circle(Point::ORIGIN, s.outside.value)?, holes, marks)
}

/// Diameter of a bolt's hole in a gasket: a tenth and a millimetre over the bolt. Source: common practice, no source.
pub fn gasket_hole(face: &Face) -> Length {
    let half = Length::mm(0.5);
    half * ((face.thread.major * 1.1 + Length::mm(1.0)) / half).ceil()
}

/// Hole in the middle of a gasket: the bore, or clear of the register.
pub fn gasket_bore(s: &Spec, face: &Face) -> Option<Length> {
    let clear = Length::mm(1.0);
    let register = face.register.as_ref().map(|r| r.diameter.value + clear);
    register.or_else(|| s.bore_at(face.which))
}

/// The gasket of a face: as wide as the mate or the adapter, the lesser.
pub fn gasket(s: &Spec, face: &Face) -> Result<Cutting, ShapeError> {
    let circle = |at: Point, d: Length| Circle::new(at, d).and_then(Contour::circle);
    let outside = face.mate().min(s.outside.value);
    let mut holes = Vec::new();
    if let Some(bore) = gasket_bore(s, face) {
        holes.push(circle(Point::ORIGIN, bore)?);
    }
    for at in centres(face) {
        holes.push(circle(at, gasket_hole(face))?);
    }
    Cutting::new(circle(Point::ORIGIN, outside)?, holes, Vec::new())
}
