//! The drawing of a plate: its plan with the sizes of its shape, and its thickness.

use crate::record::drawing::{Drawing, Side, View};
use crate::shape::{Flat, Point};
use crate::units::{Angle, Length};

use super::read::{Made, Shape, Spec};
use super::sizes;

/// Plan and section.
pub fn drawing(s: &Spec, flat: &Flat) -> Drawing {
    let e = flat.extents();
    let middle = (e.least().y() + e.greatest().y()) / 2.0;
    let left = flat.outer().extents().least().x();
    let section = View::through("Section", flat, middle);
    let t = s.thickness.value;
    let section = section.distance(&sizes::THICKNESS, Point::new(left, Length::ZERO), Point::new(left, t), Side::Left);
    Drawing { views: vec![section, plan(s, flat)] }
}

fn plan(s: &Spec, flat: &Flat) -> View {
    let view = View::plan("Plan", flat);
    let e = flat.extents();
    let (a, b) = (e.least(), e.greatest());
    let (low_right, up_left) = (Point::new(b.x(), a.y()), Point::new(a.x(), b.y()));
    let along = |view: View, x: &crate::record::key::Size, y: &crate::record::key::Size| {
        view.distance(x, a, low_right, Side::Below).distance(y, a, up_left, Side::Left)
    };
    let view = match &s.shape {
        Shape::Rectangle { length, width, corner } => {
            let view = along(view, &sizes::LENGTH, &sizes::WIDTH);
            match corner.as_ref().filter(|r| r.value > Length::ZERO) {
                Some(r) => {
                    let at = Point::new(length.value / 2.0 - r.value, width.value / 2.0 - r.value);
                    view.radius(&sizes::CORNER_RADIUS, at, r.value, Angle::degrees(45.0))
                }
                None => view,
            }
        }
        Shape::Disc(d) => {
            let end = |half: f64| Point::new(d.value * half, Length::ZERO);
            view.diameter_between(&sizes::DIAMETER, end(-0.5), end(0.5), Side::Below)
        }
        Shape::Segment { diameter, bore, .. } => {
            let (outside, inside) =
                (Point::new(diameter.value / 2.0, Length::ZERO), Point::new(bore.value / 2.0, Length::ZERO));
            view.pointed_diameter(&sizes::DIAMETER, outside).pointed_diameter(&sizes::BORE, inside)
        }
        Shape::Arm { .. } => along(view, &sizes::LENGTH, &sizes::WIDTH),
        Shape::Gusset { length, blunt, .. } => along(view, &sizes::LENGTH, &sizes::WIDTH).distance(
            &sizes::BLUNT,
            Point::new(length.value, Length::ZERO),
            Point::new(length.value, blunt.value),
            Side::Right,
        ),
        Shape::Angle { length, leg, inner, .. } => {
            let view = along(view, &sizes::LENGTH, &sizes::WIDTH).distance(
                &sizes::LEG,
                Point::new(length.value, Length::ZERO),
                Point::new(length.value, leg.value),
                Side::Right,
            );
            match inner.as_ref().filter(|r| r.value > Length::ZERO) {
                Some(r) => {
                    let at = Point::new(leg.value + r.value, leg.value + r.value);
                    view.radius(&sizes::INNER_RADIUS, at, r.value, Angle::degrees(225.0))
                }
                None => view,
            }
        }
        Shape::Drawn { .. } => along(view, &sizes::EXTENT_X, &sizes::EXTENT_Y),
    };
    holes(s, view)
}

/// The holes with their sizes, and the roots of their threads.
fn holes(s: &Spec, mut view: View) -> View {
    for (i, row) in s.holes.iter().enumerate() {
        let Some(first) = row.centres.first() else { continue };
        view = match &row.made {
            Made::Slot { length, direction } => {
                let reach = length.value / 2.0;
                let end = Point::new(first.x() + reach * direction.cos(), first.y() + reach * direction.sin());
                view.pointed(&sizes::hole(i), end)
            }
            Made::Tapped(thread) => {
                let view = view.hole(&sizes::hole(i), *first, row.diameter, row.centres.len() as u32);
                row.centres
                    .iter()
                    .fold(view, |view, at| view.thread_seen(*at, thread.major))
                    .also("; tapped ", &sizes::thread(i))
            }
            Made::Round => view.hole(&sizes::hole(i), *first, row.diameter, row.centres.len() as u32),
        };
    }
    view
}
