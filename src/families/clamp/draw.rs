//! The drawing of a clamp: seen along the tube and along its screws; its liner.

use crate::formulas::clamp::Parted;
use crate::record::drawing::{Drawing, Edge, Side, View};
use crate::shape::{Body, Circle, Contour, Flat, Point, Segment, Solid};
use crate::units::{Angle, Length};

use super::outline::{heights, liner_sizes};
use super::read::Spec;
use super::sizes;

/// All views.
pub fn drawing(s: &Spec, solids: &[(Solid, bool)]) -> Drawing {
    let flats = solids.iter().filter_map(|(solid, own)| match &solid.body {
        Body::Flat(flat) => Some((flat, *own)),
        Body::Turned(_) => None,
    });
    let mut views = Vec::new();
    for (flat, own) in flats {
        match own {
            // The other half differs by its holes only.
            true if !views.is_empty() => {}
            true => views.extend([along_tube(s, flat), along_screws(s)]),
            false => views.extend(liner(s, flat)),
        }
    }
    Drawing { views }
}

fn line(a: Point, b: Point) -> Vec<Segment> {
    Segment::line(a, b).into_iter().collect()
}

/// Seen along the tube: the outline with its sizes, the axes of the screws.
fn along_tube(s: &Spec, flat: &Flat) -> View {
    let title = match (s.parted, s.screw.tapped) {
        (Parted::Once, _) => "Seen along the tube",
        (Parted::InHalves, false) => "One half, seen along the tube; two alike",
        (Parted::InHalves, true) => "One half, seen along the tube; the other with threads",
    };
    let mut view = View::new(title);
    view.edges.push((Edge::Visible, flat.outer().segments().to_vec()));
    let (ring, face) = (s.outside.value / 2.0, s.gap.value / 2.0 + s.ear_thickness.value);
    let (top, distance, gap) = (s.ear_height.value, s.distance(), s.gap.value / 2.0);
    let left = if s.parted == Parted::Once { -face } else { gap };
    view.edges.push((Edge::Axis, line(Point::new(left, distance), Point::new(face, distance))));
    if s.parted == Parted::InHalves {
        view.edges.push((Edge::Axis, line(Point::new(left, -distance), Point::new(face, -distance))));
    }
    let view = view.cross(Point::ORIGIN, s.outside.value);
    let zero = Length::ZERO;
    let o = Point::ORIGIN;
    let view = view
        .pointed_diameter(&sizes::BORE, on(s.bore.diameter / 2.0, -35.0))
        .pointed_diameter(&sizes::OUTSIDE_DIAMETER, on(ring, -55.0))
        .distance(&sizes::EAR_HEIGHT, o, Point::new(face, top), Side::Right)
        .distance(&sizes::SCREW_DISTANCE, o, Point::new(face, distance), Side::Right)
        .distance(&sizes::EAR_THICKNESS, Point::new(gap, top), Point::new(face, top), Side::Above);
    match s.parted {
        Parted::Once => view.distance(&sizes::GAP, Point::new(-gap, top), Point::new(gap, top), Side::Above),
        Parted::InHalves => view
            .pointed(&sizes::GAP, Point::new(gap, zero - top * 0.98))
            .also(" between the halves; ears ", &sizes::EAR_HEIGHT),
    }
}

fn on(radius: Length, degrees: f64) -> Point {
    let a = Angle::degrees(degrees);
    Point::new(radius * a.cos(), radius * a.sin())
}

/// Seen along the screws, on the near ear: the width, the holes.
fn along_screws(s: &Spec) -> View {
    let mut view = View::new("Seen along the screws, on the near ear");
    let (width, top, ring) = (s.width.value.rounded(), s.ear_height.value, s.outside.value / 2.0);
    let low = if s.parted == Parted::Once { -ring } else { -top };
    let corner = |x: Length, y: Length| Point::new(x, y);
    let outline = [corner(Length::ZERO, low), corner(width, low), corner(width, top), corner(Length::ZERO, top)];
    if let Ok(contour) = Contour::polygon(&outline) {
        view.edges.push((Edge::Visible, contour.segments().to_vec()));
    }
    let (flat, _) = s.flat();
    view.edges.push((Edge::Visible, line(corner(Length::ZERO, flat), corner(width, flat))));
    if s.parted == Parted::InHalves {
        view.edges.push((Edge::Visible, line(corner(Length::ZERO, -flat), corner(width, -flat))));
    }
    let ears: &[f64] = if s.parted == Parted::InHalves { &[1.0, -1.0] } else { &[1.0] };
    let mut first = None;
    for along in heights(s) {
        for ear in ears {
            let at = corner(along, s.distance() * *ear);
            if let Ok(circle) = Circle::new(at, s.screw.clearance).and_then(Contour::circle) {
                view.edges.push((Edge::Visible, circle.segments().to_vec()));
            }
            view = view.cross(at, s.screw.clearance);
            first = first.or(Some(at));
        }
    }
    let count = s.screw.number() * ears.len() as u32;
    let at = first.unwrap_or(Point::ORIGIN);
    let view = view
        .distance(&sizes::WIDTH, corner(Length::ZERO, low), corner(width, low), Side::Below)
        .hole(&sizes::SCREW_HOLE, at, s.screw.clearance, count)
        .also("; in the far ear ", &sizes::FAR_HOLE);
    let view = if s.screw.tapped { view.also(", tapped; ", &sizes::SCREW_THREAD) } else { view };
    match s.screw.number() {
        1 => view,
        _ => {
            let second = Point::new(at.x() + width / f64::from(s.screw.number()), at.y());
            view.distance(&sizes::SCREW_PITCH, at, second, Side::Above)
        }
    }
}

/// The liner, seen along the tube.
fn liner(s: &Spec, flat: &Flat) -> Option<View> {
    let (bore, outside) = liner_sizes(s, s.liner.as_ref()?);
    let mut view = View::new("Liner, seen along the tube; as wide as the clamp");
    view.edges.push((Edge::Visible, flat.outer().segments().to_vec()));
    Some(
        view.cross(Point::ORIGIN, outside)
            .pointed_diameter(&sizes::LINER_BORE, on(bore / 2.0, -35.0))
            .pointed_diameter(&sizes::LINER_OUTSIDE, on(outside / 2.0, -60.0)),
    )
}
