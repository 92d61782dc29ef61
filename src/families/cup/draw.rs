//! The drawing of a cup plate: its plan from the entry face, a section through the hole, and the cone in it.

use crate::drawing::{Drawing, Side, View};
use crate::families::cone;
use crate::shape::{Flat, Point};
use crate::show;
use crate::units::{Angle, Length};

use super::make::on_entry_face;
use super::read::{Edge, Hole, Pattern, Plate, Spec};
use super::seat::Seat;
use super::seat_mouth;

/// Plan, section, and the cone in its cup where one is named.
pub fn drawing(s: &Spec, flat: &Flat, seat: Option<&Seat>) -> Drawing {
    let mut views = vec![section(s, flat), plan(s, flat)];
    if let (Some(seat), Some(mate)) = (seat.filter(|seat| seat.height > Length::ZERO), &s.mate) {
        views.extend(seated("Seated on its cone", flat, &mate.cone, seat.height, seat.contact));
    }
    Drawing { views }
}

fn plan(s: &Spec, flat: &Flat) -> View {
    let (x, y) = s.plate.extent();
    let corner = |sx: f64, sy: f64| Point::new(x * (sx / 2.0), y * (sy / 2.0));
    let mut view = View::plan(&plan_title(s), flat);
    view = match &s.plate {
        Plate::Rectangle { corner: radius, .. } => {
            let view = view.distance("length", corner(-1.0, -1.0), corner(1.0, -1.0), Side::Below).distance(
                "width",
                corner(-1.0, -1.0),
                corner(-1.0, 1.0),
                Side::Left,
            );
            match radius.as_ref().filter(|r| r.value > Length::ZERO) {
                Some(r) => view.radius(
                    "corner_radius",
                    Point::new(x / 2.0 - r.value, y / 2.0 - r.value),
                    r.value,
                    Angle::degrees(45.0),
                ),
                None => view,
            }
        }
        Plate::Round(_) => view.diameter_between(
            "diameter",
            Point::new(x / -2.0, Length::ZERO),
            Point::new(x / 2.0, Length::ZERO),
            Side::Below,
        ),
    };
    let Some(m) = &s.mounting else { return view };
    let centres = m.centres();
    if let Some((cx, cy)) = centres.first() {
        view = view.hole("mounting_hole", Point::new(*cx, *cy), m.hole, centres.len() as u32);
    }
    match (&m.pattern, centres.as_slice()) {
        (Pattern::Rectangle(_), [a, b, c, ..]) => view
            .distance("mounting_spacing_x", Point::new(b.0, b.1), Point::new(a.0, a.1), Side::Above)
            .distance("mounting_spacing_y", Point::new(a.0, c.1), Point::new(a.0, a.1), Side::Right),
        (Pattern::Circle { diameter, .. }, _) => view.pitch_circle(Point::ORIGIN, diameter.value).diameter_between(
            "circle",
            Point::new(diameter.value / -2.0, Length::ZERO),
            Point::new(diameter.value / 2.0, Length::ZERO),
            Side::Above,
        ),
        _ => view,
    }
}

/// A slot's sizes stand in the title: a leader to a slot at an angle would widen the view and shrink the drawing.
fn plan_title(s: &Spec) -> String {
    let Hole::Slot { width, length, direction, .. } = &s.hole else { return "Plan, entry face up".into() };
    let size = |l: Length| show::length_number(l, s.common.header.unit);
    let shown = |a: Angle| show::trimmed(a.as_degrees(), 2);
    let (seen, used) = (on_entry_face(direction.as_ref()), direction.as_ref().map_or(Angle::ZERO, |d| d.value));
    let run = if used == Angle::ZERO {
        "along x".to_string()
    } else {
        format!("at {}° ({}° from above, in use)", shown(seen), shown(used))
    };
    format!("Plan, entry face up; slot {} x {} {run}", size(width.value), size(length.value))
}

fn section(s: &Spec, flat: &Flat) -> View {
    let t = s.thickness.value;
    let (x, _) = s.plate.extent();
    let across = |d: Length, z: Length| (Point::new(d / -2.0, z), Point::new(d / 2.0, z));
    let view = View::through("Section through the hole, entry face up", flat, Length::ZERO).distance(
        "thickness",
        Point::new(x / -2.0, Length::ZERO),
        Point::new(x / -2.0, t),
        Side::Left,
    );
    match &s.hole {
        Hole::Stepped { drill, stop, .. } => {
            let lands = drill.lands(stop.value, t);
            let mut view = view;
            if let (Some(first), Some(last)) = (lands.first(), lands.last()) {
                let (a, b) = across(first.diameter, t);
                view = view.diameter_between("hole_diameter", a, b, Side::Above);
                let (a, b) = across(last.diameter, Length::ZERO);
                view = view.diameter_between("through_diameter", a, b, Side::Below);
                view = view.distance(
                    "stop_depth",
                    Point::new(first.diameter / 2.0, t - stop.value),
                    Point::new(first.diameter / 2.0, t),
                    Side::Right,
                );
            }
            view
        }
        Hole::Turned { small, half_angle, .. } => {
            let (a, b) = across(seat_mouth(small.value, half_angle.value, t), t);
            let (c, d) = across(small.value, Length::ZERO);
            view.diameter_between("seat_mouth", a, b, Side::Above).diameter_between("hole_diameter", c, d, Side::Below)
        }
        Hole::Round { diameter: d, edge, .. } | Hole::Slot { width: d, edge, .. } => {
            let (a, b) = across(d.value, Length::ZERO);
            let view = match &s.hole {
                Hole::Round { .. } => view.diameter_between("hole_diameter", a, b, Side::Below),
                // A slot is cut along its length or askew here; its width stands in the plan.
                _ => view,
            };
            let at = Point::new(d.value / 2.0 + edge.reach() / 2.0, t - edge.reach() / 2.0);
            match edge {
                Edge::Sharp => view,
                Edge::Chamfer(_) => view.chamfer("chamfer", at),
                Edge::Radius(_) => view.pointed_radius("rim_radius", at),
            }
        }
    }
}

/// The cone in its cup, without dimensions: `height` of the entry face over the cone's base, ring on which they touch.
pub fn seated(title: &str, flat: &Flat, cone: &cone::read::Spec, height: Length, contact: Length) -> Option<View> {
    let turned = cone::solid(cone).ok()?;
    Some(View::seated(title, &turned, flat, Point::ORIGIN, height + cone.foot_height(), contact))
}
