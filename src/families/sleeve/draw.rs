//! The drawing of a sleeve: its section, all pieces in their places.

use crate::drawing::{Drawing, Side, View};
use crate::shape::{Body, Point, Solid};
use crate::units::{Angle, Length};

use super::read::{self, Spec};

/// The section with its dimensions; for a sleeve in pieces, one section for each.
pub fn drawing(s: &Spec, solids: &[Solid]) -> Drawing {
    let turned = |solid: &Solid| match &solid.body {
        Body::Turned(t) => Some(t.clone()),
        Body::Flat(_) => None,
    };
    let bodies: Vec<_> = solids.iter().filter_map(turned).collect();
    if s.segments.is_empty() {
        return Drawing {
            views: bodies.first().map(|t| whole(s, View::section("Section on the axis", t))).into_iter().collect(),
        };
    }
    let views = s.segments.iter().zip(&bodies).enumerate().map(|(i, (g, t))| {
        let key = |what: &str| format!("segment_{}_{what}", i + 1);
        let outside = if g.outside < s.outside.value { key("outside") } else { "outside_diameter".into() };
        View::section(&g.name, t)
            .diameter("bore", Length::ZERO, s.bore.value, Side::Left)
            .diameter(&outside, g.length, g.outside, Side::Right)
            .axial(&key("length"), (Length::ZERO, g.outside), (g.length, g.outside), Side::Above)
    });
    Drawing { views: views.collect() }
}

fn whole(s: &Spec, view: View) -> View {
    let (bore, outside, length) = (s.bore.value, s.outside.value, s.length.value);
    let mut view = view
        .diameter("bore", Length::ZERO, bore, Side::Left)
        .diameter("outside_diameter", length, outside, Side::Right)
        .axial("length", (Length::ZERO, outside), (length, outside), Side::Above)
        .texture(Point::new(length * 0.7, outside / 2.0), Angle::degrees(90.0), "Ra 0.8");
    if let Some(g) = &s.groove {
        let (from, to) = (g.position - g.width.value / 2.0, g.position + g.width.value / 2.0);
        let floor = if g.inside { bore + g.depth.value * 2.0 } else { outside - g.depth.value * 2.0 };
        view = view
            .axial("groove_width", (from, outside), (to, outside), Side::Below)
            .axial("groove_position", (Length::ZERO, outside), (g.position, outside), Side::Below)
            .pointed_diameter("groove_diameter", Point::new(g.position, floor / -2.0));
    }
    if let Some(h) = &s.grease_hole {
        view = view.pointed_diameter("grease_hole_diameter", Point::new(h.position, outside / 2.0));
        if s.groove.as_ref().is_none_or(|g| g.position != h.position) {
            view = view.axial("grease_hole_position", (Length::ZERO, outside), (h.position, outside), Side::Below);
        }
    }
    for (key, given, d, sign) in [("chamfer", &s.chamfer, outside, -1.0), ("bore_chamfer", &s.bore_chamfer, bore, 1.0)]
    {
        let c = read::chamfer(given);
        if c > Length::ZERO {
            view = view.chamfer(key, Point::new(length - c / 2.0, d / 2.0 + c * (sign / 2.0)));
        }
    }
    view
}
