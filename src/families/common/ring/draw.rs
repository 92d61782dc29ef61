//! The drawing of a ring: its section as it is machined, with what it must be after pressing.

use crate::record::design::{Design, Value};
use crate::record::drawing::{Characteristic, Frame, Side, View};
use crate::record::key::Size;
use crate::record::show;
use crate::shape::Point;
use crate::units::{Angle, Length};

use super::make::Machined;
use super::read::{self, Ring};
use super::sizes::{self, Surface};
use super::surface;

/// The bore, whose axis the rest is held against where anything is.
pub fn bore(design: &Design, m: &Machined, view: View) -> View {
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

/// The roughness recorded for a surface.
pub fn texture(design: &Design, view: View, surface: &Surface, at: Point, off: f64) -> View {
    match surface::of(design, surface) {
        Some(ra) => view.texture(at, Angle::degrees(off), &ra),
        None => view,
    }
}

/// The grease hole at its place along the piece.
pub fn hole(view: View, place: &Size, along: Length, outside: Length) -> View {
    view.pointed_diameter(&sizes::GREASE_HOLE_DIAMETER, Point::new(along, outside / 2.0)).axial(
        place,
        (Length::ZERO, outside),
        (along, outside),
        Side::Below,
    )
}

/// The section of a ring in one piece.
pub fn whole(design: &Design, s: &Ring, m: &Machined, view: View) -> View {
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
