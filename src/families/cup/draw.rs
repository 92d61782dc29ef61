//! The drawing of a cup plate: its plan from the entry face, a section through the hole, and the cone in it.

use crate::families::{common, cone};
use crate::record::drawing::{Characteristic, Drawing, Edge, Frame, Side, Stands, View};
use crate::record::show;
use crate::shape::{Contour, Flat, FlatHole, Point, Segment};
use crate::units::{Angle, Length};

use super::entry_face::on_entry_face;
use super::make::{entry_mark, rimmed};
use super::read::{Edge as Rim, Hole, Pattern, Plate, Spec};
use super::seat::Seat;
use super::seat_mouth;
use super::sizes;

/// Plan, section, and the cone in its cup where one is named.
pub fn drawing(s: &Spec, flat: &Flat, seat: Option<&Seat>) -> Drawing {
    let across = across(s, flat);
    let mut views = vec![section(s, &across), plan(s, flat)];
    if let (Some(seat), Some(mate)) = (seat.filter(|seat| seat.height > Length::ZERO), &s.mate) {
        views.extend(seated("Seated on its cone", &across, &mate.cone, seat.height, seat.contact));
    }
    Drawing { views }
}

/// The plate as it is cut through for a section: level through the middle; a slot across its length, where the cone touches.
pub fn across(s: &Spec, flat: &Flat) -> Flat {
    let Hole::Slot { width, length, direction, edge } = &s.hole else { return flat.clone() };
    let (x, y) = s.plate.extent();
    let cut = on_entry_face(direction.as_ref()) + Angle::degrees(90.0);
    let to = |side: Length, share: f64| if share.abs() > 1e-9 { side / share.abs() } else { Length::mm(f64::INFINITY) };
    let chord = match &s.plate {
        Plate::Round(d) => d.value,
        Plate::Rectangle { .. } => to(x, cut.cos()).min(to(y, cut.sin())),
    };
    // Cut through, a slot shows what a round hole of its width shows, its rim among it.
    let slot = rimmed(width.value, edge, flat.thickness()).map(FlatHole::Bored);
    let outer = Contour::rectangle(chord, length.value * 2.0, Length::ZERO);
    let cut = outer.and_then(|outer| Flat::new(outer, flat.thickness(), vec![slot?]));
    cut.unwrap_or_else(|_| flat.clone())
}

fn plan(s: &Spec, flat: &Flat) -> View {
    let (x, y) = s.plate.extent();
    let corner = |sx: f64, sy: f64| Point::new(x * (sx / 2.0), y * (sy / 2.0));
    let mut view = View::plan("Plan, entry face up", flat);
    view = match &s.plate {
        Plate::Rectangle { corner: radius, .. } => {
            let view = view.distance(&sizes::LENGTH, corner(-1.0, -1.0), corner(1.0, -1.0), Side::Below).distance(
                &sizes::WIDTH,
                corner(-1.0, -1.0),
                corner(-1.0, 1.0),
                Side::Left,
            );
            match radius.as_ref().filter(|r| r.value > Length::ZERO) {
                Some(r) => view.radius(
                    &sizes::CORNER_RADIUS,
                    Point::new(x / 2.0 - r.value, y / 2.0 - r.value),
                    r.value,
                    Angle::degrees(45.0),
                ),
                None => view,
            }
        }
        Plate::Round(_) => view.diameter_between(
            &sizes::DIAMETER,
            Point::new(x / -2.0, Length::ZERO),
            Point::new(x / 2.0, Length::ZERO),
            Side::Below,
        ),
    };
    view = slot_sizes(marked(view, s), s);
    let Some(m) = &s.mounting else { return view };
    let centres = m.centres();
    if let Some((cx, cy)) = centres.first() {
        view = view.hole(&sizes::MOUNTING_HOLE, Point::new(*cx, *cy), m.hole, centres.len() as u32);
        if let (Pattern::Circle { .. }, 2..) = (&m.pattern, centres.len()) {
            view = view.also(" first at ", &sizes::FIRST_ANGLE);
        }
        if m.size.is_some() {
            view = view.toleranced(Frame::new(Characteristic::Position, &sizes::MOUNTING_POSITION).round().to('A'));
        }
    }
    if let Some(dowels) = &m.dowels {
        let [(ax, ay), (bx, by)] = dowels.centres();
        view = view.hole(&common::sizes::DOWEL_HOLE, Point::new(bx, by), dowels.diameter.value, 2).distance(
            &sizes::DOWEL_SPACING,
            Point::new(ax, ay),
            Point::new(bx, by),
            Side::Above,
        );
    }
    match (&m.pattern, centres.as_slice()) {
        (Pattern::Rectangle(_), [a, b, c, ..]) => view
            .distance(&sizes::MOUNTING_SPACING_X, Point::new(b.0, b.1), Point::new(a.0, a.1), Side::Above)
            .distance(&sizes::MOUNTING_SPACING_Y, Point::new(a.0, c.1), Point::new(a.0, a.1), Side::Right),
        (Pattern::Circle { diameter, number, first }, _) => {
            let view = view.pitch_circle(Point::ORIGIN, diameter.value).diameter_between(
                &sizes::CIRCLE,
                Point::new(diameter.value / -2.0, Length::ZERO),
                Point::new(diameter.value / 2.0, Length::ZERO),
                Side::Above,
            );
            // Between two holes of the circle, where the leader meets nothing else.
            let a = *first - Angle::degrees(180.0 / f64::from(*number));
            let at = Point::new(diameter.value / 2.0 * a.cos(), diameter.value / 2.0 * a.sin());
            if *number > 1 { view.note(at, "equally spaced") } else { view }
        }
        _ => view,
    }
}

/// The mark on the entry face.
fn marked(mut view: View, s: &Spec) -> View {
    view.edges.extend(entry_mark(s).filter_map(|(a, b)| Some((Edge::Visible, vec![Segment::line(a, b).ok()?]))));
    view
}

/// Length and direction of a slot on a leader to its end; its width stands in the section across it.
fn slot_sizes(view: View, s: &Spec) -> View {
    let Hole::Slot { length, direction, .. } = &s.hole else { return view };
    let (a, reach) = (on_entry_face(direction.as_ref()), length.value / 2.0);
    let end = Point::new(reach * a.cos(), reach * a.sin());
    view.pointed(&sizes::SLOT_LENGTH, end).also(" at ", &sizes::SLOT_ON_FACE)
}

fn section(s: &Spec, flat: &Flat) -> View {
    let t = s.thickness.value;
    let x = flat.extents().width();
    let across = |d: Length, z: Length| (Point::new(d / -2.0, z), Point::new(d / 2.0, z));
    let title = match &s.hole {
        Hole::Slot { .. } => "Section across the slot, entry face up",
        _ => "Section, entry face up",
    };
    let mut view = View::through(title, flat, Length::ZERO);
    if matches!(s.hole, Hole::Slot { .. }) {
        // It looks along the slot, and not along an edge of the plan.
        view.stands = Stands::Alone;
    }
    let view =
        view.distance(&sizes::THICKNESS, Point::new(x / -2.0, Length::ZERO), Point::new(x / -2.0, t), Side::Left);
    match &s.hole {
        Hole::Stepped { drill, stop, .. } => {
            let lands = drill.lands(stop.value, t);
            let mut view = view;
            if let (Some(first), Some(last)) = (lands.first(), lands.last()) {
                let (a, b) = across(first.diameter, t);
                view = view.diameter_between(&sizes::HOLE_DIAMETER, a, b, Side::Above).as_datum('A');
                let (a, b) = across(last.diameter, Length::ZERO);
                view = view.diameter_between(&sizes::THROUGH_DIAMETER, a, b, Side::Below).auxiliary();
                view = view.distance(
                    &sizes::STOP_DEPTH,
                    Point::new(first.diameter / 2.0, t - stop.value),
                    Point::new(first.diameter / 2.0, t),
                    Side::Right,
                );
            }
            view
        }
        Hole::Turned { small, half_angle, .. } => {
            let mouth = seat_mouth(small.value, half_angle.value, t);
            let (a, b) = across(mouth, t);
            let (c, d) = across(small.value, Length::ZERO);
            let upper = Point::new((small.value + mouth * 3.0) / 8.0, t * 0.75);
            view.diameter_between(&sizes::SEAT_MOUTH, a, b, Side::Above)
                .as_datum('A')
                .diameter_between(&sizes::HOLE_DIAMETER, c, d, Side::Below)
                .auxiliary()
                .corner(&sizes::HALF_ANGLE, d, Angle::degrees(90.0) - half_angle.value, Angle::degrees(90.0))
                .texture(
                    upper,
                    Angle::degrees(180.0) - half_angle.value,
                    &show::roughness(Length::um(1.6), s.common.header.unit),
                )
        }
        Hole::Round { diameter: d, edge, .. } | Hole::Slot { width: d, edge, .. } => {
            let (a, b) = across(d.value, Length::ZERO);
            let view = match &s.hole {
                Hole::Round { .. } => view.diameter_between(&sizes::HOLE_DIAMETER, a, b, Side::Below),
                _ => view.distance(&sizes::HOLE_DIAMETER, a, b, Side::Below),
            };
            let view = view.as_datum('A');
            let at = Point::new(d.value / 2.0 + edge.reach() / 2.0, t - edge.reach() / 2.0);
            match edge {
                Rim::Sharp => view,
                Rim::Chamfer(_) => view.chamfer(&sizes::CHAMFER, at),
                Rim::Radius(_) => view.pointed_radius(&sizes::RIM_RADIUS, at),
            }
        }
    }
}

/// The cone in its cup, without dimensions: `height` of the entry face over the cone's base, ring on which they touch.
pub fn seated(title: &str, flat: &Flat, cone: &cone::read::Spec, height: Length, contact: Length) -> Option<View> {
    let turned = cone::solid(cone).ok()?;
    Some(View::seated(title, &turned, flat, Point::ORIGIN, height + cone.foot_height(), contact))
}
