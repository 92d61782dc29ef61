//! Detail views: a place whose sizes are too small at the scale of its view stands in a circle with a letter, and is drawn
//! larger beside the view with these sizes (ISO 128-3:2020, local detail views; under it the letter and, in brackets, its
//! scale after ISO 5455).

use crate::record::drawing::{Drawn, Edge, How, Noted, Side, View};
use crate::shape::{self, Segment};
use crate::sheet::area::Point;
use crate::sheet::scale::Scale;
use crate::sheet::{Contour, Path};
use crate::units::Length;

/// What carries a size and is shorter than this on paper, mm, wants a detail.
pub const TOO_SMALL: f64 = 2.5;
/// A detail makes it so long where it can, mm on paper.
const CLEAR: f64 = 5.0;
/// Radius of the circle about the place, at least, mm on paper.
const RING: f64 = 1.75;
/// Radius of the enlarged view, at most, mm on paper.
const LARGEST: f64 = 21.0;
/// Places no farther from each other than this, mm on paper, may stand in one circle.
const NEAR: f64 = 15.0;
/// A scale that is not so many times larger than that of the view is not worth a detail.
const WORTH: f64 = 1.9;
/// Letters from the end of the alphabet, since datums have those from its beginning (common practice, no source); without
/// those that are read as figures.
const LETTERS: &[u8] = b"ZYXWVUTSRPNMLKJHGFEDC";

/// A place drawn larger beside its view.
#[derive(Clone, PartialEq, Debug)]
pub struct Detail {
    /// Its letter.
    pub letter: char,
    /// Middle of the place, on the part.
    pub centre: shape::Point,
    /// Radius of the circle about it, mm on the part.
    pub radius: f64,
    /// Scale at which it is drawn.
    pub scale: Scale,
    /// Which of the view's dimensions stand in it.
    pub dimensions: Vec<usize>,
}

impl Detail {
    /// What stands under the enlarged view.
    pub fn title(&self) -> String {
        format!("{} ({})", self.letter, self.scale)
    }
}

/// Some sizes and the circle that holds what they measure.
#[derive(Clone)]
struct Place {
    centre: shape::Point,
    /// Radius that holds it with something of its neighbourhood, mm on the part.
    reach: f64,
    /// The shortest of what is measured, mm on the part.
    shortest: f64,
    dimensions: Vec<usize>,
}

impl Place {
    fn with(&self, other: &Self) -> Self {
        let apart = self.centre.distance(other.centre).as_mm();
        Self {
            centre: shape::Point::mm(
                (self.centre.x() + other.centre.x()).as_mm() / 2.0,
                (self.centre.y() + other.centre.y()).as_mm() / 2.0,
            ),
            reach: apart / 2.0 + self.reach.max(other.reach),
            shortest: self.shortest.min(other.shortest),
            dimensions: self.dimensions.iter().chain(&other.dimensions).copied().collect(),
        }
    }

    /// The radius of its circle at a scale of the view, mm on the part.
    fn radius(&self, factor: f64) -> f64 {
        self.reach.max(RING / factor)
    }

    /// The least scale of the series at which it is clear, or else the largest that its circle allows and that helps.
    fn enlarged(&self, factor: f64) -> Option<Scale> {
        let fits = |s: &&Scale| s.factor() >= WORTH * factor && self.radius(factor) * s.factor() <= LARGEST;
        let least = Scale::SERIES.iter().rev().filter(fits).find(|s| self.shortest * s.factor() >= CLEAR);
        let largest = || Scale::SERIES.iter().find(fits).filter(|s| self.shortest * s.factor() >= TOO_SMALL);
        least.or_else(largest).copied()
    }
}

/// So many sizes of a view may ever want a detail: as many letters are kept for it.
pub fn most(view: &View) -> usize {
    (0..view.dimensions.len()).filter(|i| place(view, *i, 0.0).is_some()).count()
}

/// The details of a view at a scale, the most needed first; the first letters of the alphabet's end are passed over.
pub fn details(view: &View, scale: Scale, passed: usize) -> Vec<Detail> {
    let factor = scale.factor();
    let mut places: Vec<Place> = Vec::new();
    for one in (0..view.dimensions.len()).filter_map(|i| place(view, i, factor)) {
        let joined = places.iter_mut().find_map(|place| {
            let both = place.with(&one);
            let near = place.centre.distance(one.centre).as_mm() * factor <= NEAR;
            (near && both.enlarged(factor).is_some()).then_some((place, both))
        });
        match joined {
            Some((place, both)) => *place = both,
            None if one.enlarged(factor).is_some() => places.push(one),
            None => (),
        }
    }
    places.sort_by(|a, b| a.shortest.total_cmp(&b.shortest));
    let letters = LETTERS.iter().skip(passed).map(|letter| char::from(*letter));
    let of = |(place, letter): (Place, char)| {
        let scale = place.enlarged(factor)?;
        let (centre, radius) = (place.centre, place.radius(factor));
        Some(Detail { letter, centre, radius, scale, dimensions: place.dimensions })
    };
    places.into_iter().zip(letters).filter_map(of).collect()
}

/// The place of one dimension, where what it measures is too small at that factor; at nought anything is.
fn place(view: &View, index: usize, factor: f64) -> Option<Place> {
    let small = |length: f64| length > 0.0 && length * factor < TOO_SMALL;
    let drawn = view.dimensions.get(index)?;
    let place = |centre, reach, shortest| Place { centre, reach, shortest, dimensions: vec![index] };
    match &drawn.how {
        How::Across { from, to, side, diameter: false } => {
            let length = along(*side, *from, *to);
            let whole = length > along_view(view, *side) - 1e-3;
            // Its ends are corners that the circle can show.
            let close = from.distance(*to).as_mm() < 3.0 * length;
            let corners = [from, to].into_iter().all(|p| is_corner(view, *p));
            let found = || place(between(*from, *to), from.distance(*to).as_mm(), length);
            (small(length) && !whole && close && corners).then(found)
        }
        How::Note { at, kind: Noted::Chamfer | Noted::Radius } => {
            let (edge, off) = nearest(view, *at)?;
            let (length, leg) = (edge.length().as_mm(), leg(&edge));
            (small(leg) && off <= length).then(|| place(between(edge.from(), edge.to()), length, leg))
        }
        How::Radius { centre, radius, direction } => {
            let r = radius.as_mm();
            let on = shape::Point::new(centre.x() + *radius * direction.cos(), centre.y() + *radius * direction.sin());
            small(r).then(|| place(on, r * 1.4, r))
        }
        _ => None,
    }
}

/// The longer of both reaches of an edge, mm.
fn leg(edge: &Segment) -> f64 {
    let (a, b) = (edge.from(), edge.to());
    (b.x() - a.x()).abs().as_mm().max((b.y() - a.y()).abs().as_mm())
}

fn between(a: shape::Point, b: shape::Point) -> shape::Point {
    shape::Point::new((a.x() + b.x()) * 0.5, (a.y() + b.y()) * 0.5)
}

/// A distance as it is measured along a side, mm.
fn along(side: Side, from: shape::Point, to: shape::Point) -> f64 {
    match side {
        Side::Above | Side::Below => (to.x() - from.x()).abs().as_mm(),
        Side::Left | Side::Right => (to.y() - from.y()).abs().as_mm(),
    }
}

/// The whole view as it is measured along a side, mm: what is as long is no detail of it.
fn along_view(view: &View, side: Side) -> f64 {
    let area = super::trace::bare_area(view);
    if matches!(side, Side::Above | Side::Below) { area.width() } else { area.height() }
}

fn visible(view: &View) -> impl Iterator<Item = &Segment> {
    view.edges.iter().filter(|(edge, _)| *edge == Edge::Visible).flat_map(|(_, segments)| segments)
}

fn is_corner(view: &View, p: shape::Point) -> bool {
    visible(view).any(|s| [s.from(), s.to()].iter().any(|end| end.distance(p) < Length::um(10.0)))
}

/// The edge nearest to a point, and how far it lies off, mm.
fn nearest(view: &View, p: shape::Point) -> Option<(Segment, f64)> {
    let off = |s: &Segment| between(s.from(), s.to()).distance(p).as_mm();
    let all = visible(view).map(|s| (*s, off(s)));
    all.min_by(|a, b| a.1.total_cmp(&b.1))
}

/// A dimension moved by the middle of its detail, so that this lies at the origin.
pub fn moved(drawn: &Drawn, to_origin: shape::Point) -> Drawn {
    let at = |p: shape::Point| shape::Point::new(p.x() - to_origin.x(), p.y() - to_origin.y());
    let how = match drawn.how.clone() {
        How::Across { from, to, side, diameter } => How::Across { from: at(from), to: at(to), side, diameter },
        How::Corner { vertex, from, to } => How::Corner { vertex: at(vertex), from, to },
        How::Hole { centre, diameter, count } => How::Hole { centre: at(centre), diameter, count },
        How::Radius { centre, radius, direction } => How::Radius { centre: at(centre), radius, direction },
        How::Taper { at: point, to_left } => How::Taper { at: at(point), to_left },
        How::Note { at: point, kind } => How::Note { at: at(point), kind },
    };
    Drawn { how, ..drawn.clone() }
}

/// What of some edges lies within a circle about the origin, joined pieces together.
pub fn clipped(edges: &[(Point, Point)], radius: f64) -> Path {
    let mut runs: Vec<Vec<Point>> = Vec::new();
    for (from, to) in edges.iter().filter_map(|(a, b)| within(*a, *b, radius)) {
        match runs.last_mut() {
            Some(run) if run.last().is_some_and(|last| last.distance(from) < 1e-9) => run.push(to),
            _ => runs.push(vec![from, to]),
        }
    }
    Path { contours: runs.iter().filter_map(|run| Contour::through(run, false)).collect() }
}

/// The part of a straight line within a circle about the origin.
fn within(a: Point, b: Point, radius: f64) -> Option<(Point, Point)> {
    let d = b - a;
    let (dd, ad, aa) = (d.x * d.x + d.y * d.y, a.x * d.x + a.y * d.y, a.x * a.x + a.y * a.y);
    let root = ad * ad - dd * (aa - radius * radius);
    if dd < 1e-18 || root <= 0.0 {
        return None;
    }
    let (low, high) = ((-ad - root.sqrt()) / dd, (-ad + root.sqrt()) / dd);
    let (low, high) = (low.max(0.0), high.min(1.0));
    let at = |t: f64| {
        if t == 0.0 {
            a
        } else if t == 1.0 {
            b
        } else {
            a + d * t
        }
    };
    (high - low > 1e-9).then(|| (at(low), at(high)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_lies_outside_the_circle_is_cut_off() {
        let p = Point::new;
        let inside = |a, b| within(a, b, 5.0);
        assert_eq!(inside(p(-10.0, 3.0), p(10.0, 3.0)), Some((p(-4.0, 3.0), p(4.0, 3.0))));
        assert_eq!(inside(p(0.0, 0.0), p(1.0, 2.0)), Some((p(0.0, 0.0), p(1.0, 2.0))));
        assert_eq!(inside(p(-10.0, 6.0), p(10.0, 6.0)), None);
        assert_eq!(inside(p(6.0, 0.0), p(10.0, 0.0)), None);
        let path = clipped(&[(p(-10.0, 0.0), p(0.0, 0.0)), (p(0.0, 0.0), p(0.0, 10.0))], 5.0);
        assert_eq!(path, Path::polyline(&[p(-5.0, 0.0), p(0.0, 0.0), p(0.0, 5.0)]));
    }
}
