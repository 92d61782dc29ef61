//! The drawing of a sleeve: its section, all pieces in their places, each as it is machined.

use crate::record::design::{Design, Value};
use crate::record::drawing::{Characteristic, Drawing, Frame, Side, View};
use crate::record::key::Size;
use crate::record::show;
use crate::shape::{Body, Point, Solid};
use crate::units::{Angle, Length};

use super::make::Machined;
use super::read::{self, Segment, Spec};
use super::sizes::{self, Surface};
use super::{rollers, surface};

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
        let view = bodies.first().map(|t| whole(design, s, m, View::section(title, t)));
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
    let outside = if g.outside < s.outside.value { &smaller } else { m.outside.0 };
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
    match s.grease_hole.as_ref().filter(|h| h.position > from && h.position < to) {
        Some(h) => hole(view, &sizes::GREASE_HOLE_ON_PIECE, h.position - from, g.outside),
        None => view,
    }
}

/// The bore, whose axis the rest is held against where anything is.
fn bore(design: &Design, m: &Machined, view: View) -> View {
    let view = view.diameter(m.bore.0, Length::ZERO, m.bore.1, Side::Left);
    let held = [&sizes::BORE_TO_OUTSIDE, &sizes::ENDS_SQUARE].iter().any(|size| design.dimension(size).is_some());
    if held { view.as_datum('A') } else { view }
}

/// Geometric tolerances of the outside, as recorded.
fn outside_true(design: &Design, view: View, outside: Length, length: Length) -> View {
    let has = |size: &Size| design.dimension(size).is_some();
    let mut view = view;
    if has(&sizes::BORE_TO_OUTSIDE) {
        let frame = Frame::new(Characteristic::CircularRunOut, &sizes::BORE_TO_OUTSIDE).to('A');
        view = view.frame(Point::new(length * 0.6, outside / -2.0), Angle::degrees(-90.0), frame);
    }
    if has(&sizes::OUTSIDE_CYLINDRICITY) {
        let frame = Frame::new(Characteristic::Cylindricity, &sizes::OUTSIDE_CYLINDRICITY);
        view = view.frame(Point::new(length * 0.4, outside / 2.0), Angle::degrees(90.0), frame);
    }
    view
}

/// The run-out of the ends, as recorded.
fn ends_square(design: &Design, view: View, bore: Length, outside: Length, length: Length) -> View {
    if design.dimension(&sizes::ENDS_SQUARE).is_none() {
        return view;
    }
    let frame = Frame::new(Characteristic::CircularRunOut, &sizes::ENDS_SQUARE).to('A');
    view.frame(Point::new(length, (outside + bore) / -4.0), Angle::ZERO, frame)
}

fn texture(design: &Design, view: View, surface: &Surface, at: Point, off: f64) -> View {
    match surface::of(design, surface) {
        Some(ra) => view.texture(at, Angle::degrees(off), &ra),
        None => view,
    }
}

/// The grease hole at its place along the piece.
fn hole(view: View, place: &Size, along: Length, outside: Length) -> View {
    view.pointed_diameter(&sizes::GREASE_HOLE_DIAMETER, Point::new(along, outside / 2.0)).axial(
        place,
        (Length::ZERO, outside),
        (along, outside),
        Side::Below,
    )
}

fn whole(design: &Design, s: &Spec, m: &Machined, view: View) -> View {
    let (bore, outside, length) = (m.bore.1, m.outside.1, s.length.value);
    let mut view = self::bore(design, m, view).diameter(m.outside.0, length, outside, Side::Right).axial(
        &sizes::LENGTH,
        (Length::ZERO, outside),
        (length, outside),
        Side::Above,
    );
    view = texture(design, view, &sizes::AT_OUTSIDE, Point::new(length * 0.7, outside / 2.0), 90.0);
    view = texture(design, view, &sizes::AT_BORE, Point::new(length * 0.4, bore / -2.0), 90.0);
    view = finished(design, m, view, length);
    view = outside_true(design, view, outside, length);
    view = ends_square(design, view, bore, outside, length);
    if let Some(g) = &s.groove {
        let (from, to) = (g.position - g.width.value / 2.0, g.position + g.width.value / 2.0);
        let floor = if g.inside { s.bore.value + g.depth.value * 2.0 } else { s.outside.value - g.depth.value * 2.0 };
        view = view
            .axial(&sizes::GROOVE_WIDTH, (from, outside), (to, outside), Side::Below)
            .axial(&sizes::GROOVE_POSITION, (Length::ZERO, outside), (g.position, outside), Side::Below)
            .pointed_diameter(&sizes::GROOVE_DIAMETER, Point::new(g.position, floor / -2.0));
    }
    if let Some(h) = &s.grease_hole {
        view = view.pointed_diameter(&sizes::GREASE_HOLE_DIAMETER, Point::new(h.position, outside / 2.0));
        if s.groove.as_ref().is_none_or(|g| g.position != h.position) {
            view =
                view.axial(&sizes::GREASE_HOLE_POSITION, (Length::ZERO, outside), (h.position, outside), Side::Below);
        }
    }
    for (size, given, d, sign) in
        [(&sizes::CHAMFER, &s.chamfer, outside, -1.0), (&sizes::BORE_CHAMFER, &s.bore_chamfer, bore, 1.0)]
    {
        let c = read::chamfer(given);
        if c > Length::ZERO {
            view = view.chamfer(size, Point::new(length - c / 2.0, d / 2.0 + c * (sign / 2.0)));
        }
    }
    view
}

/// The finished size in brackets beside the one that is machined.
fn finished(design: &Design, m: &Machined, view: View, length: Length) -> View {
    let words = |size: &Size| {
        let d = design.dimension(size)?;
        let Value::Length(size) = d.value else { return None };
        let size = show::length_number(size, design.header.unit);
        let class = d.limits.as_ref().filter(|l| l.by.len() <= 4).map_or_else(String::new, |l| format!(" {}", l.by));
        Some(format!("(Ø{size}{class} after pressing)"))
    };
    let mut view = view;
    for ((machined, size), finished) in [(&m.bore, &sizes::BORE), (&m.outside, &sizes::OUTSIDE_DIAMETER)] {
        if !machined.is(finished)
            && let Some(words) = words(finished)
        {
            view = view.note(Point::new(length * 0.25, *size / 2.0), &words);
        }
    }
    view
}
