//! The edges of a view as paths on paper, and the room that they take.

use crate::record::drawing::{Edge, View};
use crate::shape::{self, Segment};
use crate::sheet::{Area, Contour, Path, Point, Step};

/// A point of the part on paper.
pub fn at(p: shape::Point, scale: f64) -> Point {
    Point::new(p.x().as_mm() * scale, p.y().as_mm() * scale)
}

/// The rectangle of the bare view, mm on the part.
pub fn bare_area(view: &View) -> Area {
    let edges = view.edges.iter().filter(|(e, _)| *e != Edge::Axis).map(|(_, s)| path(s, 1.0));
    edges.fold(Area::EMPTY, |a, p| a.with(p.area()))
}

/// Joined edges on paper, closed when they end where they began.
pub fn path(segments: &[Segment], scale: f64) -> Path {
    let (Some(first), Some(last)) = (segments.first(), segments.last()) else { return Path::default() };
    let step = |s: &Segment| match s.arc() {
        None => Step::Line(at(s.to(), scale)),
        Some(arc) => {
            Step::Arc { centre: at(arc.centre(), scale), sweep: arc.sweep().as_degrees(), to: at(s.to(), scale) }
        }
    };
    let closed = first.from().distance(last.to()).as_mm() < 1e-6;
    let steps = segments.iter().map(step).collect();
    Path { contours: vec![Contour { start: at(first.from(), scale), steps, closed }] }
}
