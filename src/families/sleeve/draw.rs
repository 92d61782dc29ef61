//! The drawing of a sleeve: its section, all pieces in their places, each as it is machined.

use crate::families::common::ring::draw::{bore, hole, texture, whole};
use crate::families::common::ring::make::Machined;
use crate::record::design::Design;
use crate::record::drawing::{Drawing, Side, View};
use crate::shape::{Body, Point, Solid};
use crate::units::Length;

use super::read::{self, Segment, Spec};
use super::{rollers, sizes};

/// The section with its dimensions; for a sleeve in pieces, one section for each.
pub fn drawing(design: &Design, s: &Spec, m: &Machined, solids: &[Solid]) -> Drawing {
    let turned = |solid: &Solid| match &solid.body {
        Body::Turned(t) => Some(t.clone()),
        Body::Flat(_) => None,
    };
    let bodies: Vec<_> = solids.iter().filter_map(turned).collect();
    if s.segments.is_empty() {
        let pressed = !m.bore.0.is(&sizes::BORE) || !m.outside.0.is(&sizes::OUTSIDE_DIAMETER);
        let title = if pressed { "Section, as machined before pressing" } else { "Section on the axis" };
        let view = bodies.first().map(|t| whole(design, &s.ring, m, View::section(title, t)));
        return Drawing { views: view.into_iter().collect() };
    }
    let ends = read::pieces(s);
    let pieces = s.segments.iter().zip(&bodies).zip(ends).enumerate();
    let views = pieces.map(|(i, ((g, t), ends))| piece(design, s, m, (i, g, ends), View::section(&g.name, t)));
    let mut drawn: Vec<View> = Vec::new();
    for view in views {
        if !drawn.iter_mut().any(|earlier| earlier.stands_for(&view)) {
            drawn.push(view);
        }
    }
    Drawing { views: drawn }
}

/// One piece of several.
fn piece(
    design: &Design,
    s: &Spec,
    m: &Machined,
    (i, g, (from, to)): (usize, &Segment, (Length, Length)),
    view: View,
) -> View {
    let smaller = sizes::segment_outside(i);
    let outside = if g.outside < s.ring.outside.value { &smaller } else { m.outside.0 };
    let mut view = bore(design, m, view).diameter(outside, g.length, g.outside, Side::Right).axial(
        &sizes::segment_length(i),
        (Length::ZERO, g.outside),
        (g.length, g.outside),
        Side::Above,
    );
    let (raceway, ..) = rollers::raceway_piece(s);
    if raceway == Some(i) && s.rollers.is_some() {
        view = texture(design, view, &sizes::AT_OUTSIDE, Point::new(g.length * 0.7, g.outside / 2.0), 90.0);
    }
    match s.ring.grease_hole.as_ref().filter(|h| h.position > from && h.position < to) {
        Some(h) => hole(view, &sizes::GREASE_HOLE_ON_PIECE, h.position - from, g.outside),
        None => view,
    }
}
