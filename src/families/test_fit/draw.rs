//! The drawing of a try-out.

use crate::record::design::Design;
use crate::record::drawing::{Drawing, Side, View};
use crate::record::key::Size;
use crate::shape::{Body, Flat, Point, Solid, Turned};
use crate::units::{Angle, Length};

use super::Form;
use super::read::{Ladder, Made, Spec};
use super::{shape, sizes};

/// Its views.
pub fn drawing(s: &Spec, design: &Design, form: &Form) -> Option<Drawing> {
    let views = match (&s.made, form) {
        (Made::Ladder { kind: Ladder::Pins, rungs, length, .. }, Form::Turned(solids)) => {
            pins(s, rungs, *length, solids)
        }
        (Made::Ladder { kind: Ladder::Treads, rungs, length, .. }, Form::Flat(flat)) => {
            vec![flat_ladder(Ladder::Treads, rungs, *length, flat)]
        }
        (Made::Ladder { kind, rungs, length, thickness, .. }, Form::Flat(flat)) => {
            vec![thick(flat, *thickness), flat_ladder(*kind, rungs, *length, flat)]
        }
        (Made::Edge { half_angle, height, thickness }, Form::Flat(flat)) => {
            vec![thick(flat, *thickness), edge(half_angle.value, *height, flat)]
        }
        (Made::Limits { plug, .. }, Form::Turned(solids)) => gauges(design, *plug, solids),
        _ => Vec::new(),
    };
    (!views.is_empty()).then_some(Drawing { views })
}

fn turned(solids: &[Solid]) -> impl Iterator<Item = &Turned> {
    solids.iter().filter_map(|s| match &s.body {
        Body::Turned(t) => Some(t),
        _ => None,
    })
}

/// How thick it is.
fn thick(flat: &Flat, thickness: Length) -> View {
    let e = flat.extents();
    let left = e.least().x();
    let middle = (e.least().y() + e.greatest().y()) / 2.0;
    let at = |z: Length| Point::new(left, z);
    View::through("Section", flat, middle).distance(&sizes::THICKNESS, at(Length::ZERO), at(thickness), Side::Left)
}

fn flat_ladder(kind: Ladder, rungs: &[Length], length: Length, flat: &Flat) -> View {
    let e = flat.extents();
    let (a, b) = (e.least(), e.greatest());
    let below = Point::new(b.x(), a.y());
    let title = if kind == Ladder::Treads { "Side" } else { "Plan; the cut corner is at the smallest" };
    let mut view = View::plan(title, flat).distance(&sizes::OVERALL, a, below, Side::Below);
    if kind == Ladder::Treads {
        for (i, rung) in rungs.iter().enumerate() {
            let x = length * i as f64;
            view = view.distance(&sizes::rung(kind, i), Point::new(x, Length::ZERO), Point::new(x, *rung), Side::Left);
        }
        return view;
    }
    view = view.distance(&sizes::ACROSS, a, Point::new(a.x(), b.y()), Side::Left);
    let across = if kind == Ladder::Slots { length } else { rungs.last().copied().unwrap_or(length) };
    let Ok(strip) = shape::strip(rungs, across) else { return view };
    for (i, (at, rung)) in strip.at.iter().zip(rungs).enumerate() {
        view = match kind {
            Ladder::Slots => {
                let y = at.y() + length / 2.0;
                view.pointed(&sizes::rung(kind, i), Point::new(at.x(), y))
            }
            _ => view.hole(&sizes::rung(kind, i), *at, *rung, 1),
        };
    }
    view
}

fn edge(half_angle: Angle, height: Length, flat: &Flat) -> View {
    let leans = |y: Length| Point::new(-y * half_angle.tan(), y);
    let middle = leans(height * 0.5);
    let up = Angle::degrees(90.0);
    View::plan("Plan", flat).corner(&sizes::HALF_ANGLE, middle, up, up + half_angle).distance(
        &sizes::LENGTH,
        Point::new(height, Length::ZERO),
        Point::new(height, height),
        Side::Right,
    )
}

fn pins(s: &Spec, rungs: &[Length], length: Length, solids: &[Solid]) -> Vec<View> {
    let foot = if s.common.material.printed { shape::FOOT } else { Length::ZERO };
    let one = |(i, (solid, rung)): (usize, (&Turned, &Length))| {
        View::section(&format!("Pin {}", i + 1), solid).diameter(
            &sizes::rung(Ladder::Pins, i),
            foot + length,
            *rung,
            Side::Right,
        )
    };
    turned(solids).zip(rungs).enumerate().map(one).collect()
}

fn gauges(design: &Design, plug: bool, solids: &[Solid]) -> Vec<View> {
    let length = |size: &Size| design.dimension(size).map_or(Length::ZERO, |d| Length::mm(d.value.number()));
    if plug {
        let overall = length(&sizes::OVERALL);
        return turned(solids)
            .map(|solid| {
                View::section("Go end at the left", solid)
                    .diameter(&sizes::GO, Length::ZERO, length(&sizes::GO), Side::Left)
                    .diameter(&sizes::NOT_GO, overall, length(&sizes::NOT_GO), Side::Right)
                    .axial(
                        &sizes::OVERALL,
                        (Length::ZERO, length(&sizes::GO)),
                        (overall, length(&sizes::NOT_GO)),
                        Side::Above,
                    )
            })
            .collect();
    }
    let (outside, thick) = (length(&sizes::RING_OUTSIDE), length(&sizes::RING_THICK));
    let ring = |(solid, (title, size)): (&Turned, (&str, &Size))| {
        let view = View::section(title, solid).diameter(size, Length::ZERO, length(size), Side::Left);
        if title == "Go ring" {
            view.diameter(&sizes::RING_OUTSIDE, thick, outside, Side::Right).axial(
                &sizes::RING_THICK,
                (Length::ZERO, outside),
                (thick, outside),
                Side::Above,
            )
        } else {
            view
        }
    };
    turned(solids).zip([("Go ring", &sizes::GO_RING), ("Not-go ring", &sizes::NOT_GO_RING)]).map(ring).collect()
}
