//! The drawing of an adapter: section on the axis, and the plan from above and from below.

use crate::record::drawing::{Drawing, Side, View};
use crate::shape::{Flat, Point};
use crate::units::{Angle, Length};

use super::read::{Face, Spec, Way, Which};
use super::{shape, sizes};

/// Section and plan.
pub fn drawing(s: &Spec, flat: &Flat) -> Drawing {
    Drawing { views: vec![section(s, flat), plan(s, flat)] }
}

fn section(s: &Spec, flat: &Flat) -> View {
    let view = View::through("Section on the axis", flat, Length::ZERO);
    let (half, t, none) = (s.outside.value / 2.0, s.thickness.value, Length::ZERO);
    let mut view = view.distance(&sizes::THICKNESS, Point::new(-half, none), Point::new(-half, t), Side::Left);
    if let Some(bore) = s.bore_at(Which::Upper) {
        view = view.pointed_diameter(&sizes::BORE, Point::new(-bore / 2.0, height_of_bore(s, Which::Upper)));
    }
    if let (Some(below), true) = (s.bore_at(Which::Lower), s.bore_below.is_some()) {
        view = view.pointed_diameter(&sizes::BORE_BELOW, Point::new(-below / 2.0, height_of_bore(s, Which::Lower)));
    }
    for face in s.faces() {
        view = face_sizes(view, s, face);
    }
    view
}

/// Height over the lower face at which the bore ends towards a face.
fn height_of_bore(s: &Spec, which: Which) -> Length {
    let (face, t) = match which {
        Which::Upper => (&s.upper, s.thickness.value),
        Which::Lower => (&s.lower, Length::ZERO),
    };
    let over = face.register.as_ref().map_or(Length::ZERO, |r| if r.spigot { r.height.value } else { -r.height.value });
    if which == Which::Upper { t + over } else { t - over }
}

/// Register, groove and depths of a face, on the right of the section.
fn face_sizes(mut view: View, s: &Spec, face: &Face) -> View {
    let up = face.which == Which::Upper;
    let level = if up { s.thickness.value } else { Length::ZERO };
    let into = |depth: Length| if up { level - depth } else { level + depth };
    let which = face.which;
    if let Some(r) = &face.register {
        let end = if r.spigot { into(-r.height.value) } else { into(r.height.value) };
        let x = r.diameter.value / 2.0;
        view = view
            .pointed_diameter(&sizes::register(which), Point::new(x, (level + end) / 2.0))
            .also(" × ", &sizes::register_height(which));
    }
    if let Some(r) = &face.ring {
        let ((inner, outer), deep) = (r.walls(), r.depth());
        view = view
            .pointed_diameter(&sizes::groove_inner(which), Point::new(inner / 2.0, into(deep / 2.0)))
            .pointed_diameter(&sizes::groove_outer(which), Point::new(outer / 2.0, into(deep / 2.0)))
            .also("; ", &sizes::groove_width(which))
            .also(" × ", &sizes::groove_depth(which));
    }
    view
}

fn plan(s: &Spec, flat: &Flat) -> View {
    let view = View::plan("Seen from above", flat);
    let end = |side: f64| Point::new(s.outside.value * side, Length::ZERO);
    let mut view = view.diameter_between(&sizes::OUTSIDE_DIAMETER, end(-0.5), end(0.5), Side::Below);
    for face in s.faces() {
        view = view.pitch_circle(Point::ORIGIN, face.circle.value);
        let r = face.circle.value / 2.0;
        // Beside the bolts, so that its line does not end in a hole.
        let half = Angle::degrees(180.0 / f64::from(face.number.value));
        let beside = face.angles().next().unwrap_or(Angle::ZERO) - half;
        let at = Point::new(r * beside.cos(), r * beside.sin());
        view = view.pointed_diameter(&face.which.size(&super::read::CIRCLE), at);
        let Some(first) = shape::centres(face).first().copied() else { continue };
        view = view.hole(&sizes::hole(face.which), first, face.hole, face.number.value);
        // A blind thread that opens below is not seen from above.
        if face.tapped() && (face.thread_depth.is_none() || face.which == Which::Upper) {
            view = shape::centres(face).into_iter().fold(view, |view, at| view.thread_seen(at, face.thread.major));
        }
        view = match face.way {
            Way::Counterbored(_) => view
                .also("; heads ", &sizes::counterbore(face.which))
                .also(" × ", &sizes::counterbore_depth(face.which)),
            Way::Tapped if face.thread_depth.is_none() => view.also("; tapped ", &sizes::thread(face.which)),
            Way::Tapped => view
                .also("; tapped ", &sizes::thread(face.which))
                .also(", full thread ", &sizes::thread_depth(face.which))
                .also(", drilled ", &sizes::drill_depth(face.which)),
            _ => view,
        };
    }
    view
}
