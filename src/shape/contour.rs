//! A closed outline of lines and arcs: a plate's edge, a cut-out, the profile of a turned part.

use std::f64::consts::TAU;

use super::{CLOSEST_EDGES, Point, Segment, ShapeError, Turn, meeting, near};
use crate::units::{Angle, Area, Length};

/// A circle: centre and diameter.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Circle {
    pub(crate) centre: Point,
    /// Diameter, mm.
    pub(crate) diameter: f64,
}

impl Circle {
    /// Checked: finite, diameter more than nought.
    pub fn new(centre: Point, diameter: Length) -> Result<Self, ShapeError> {
        positive(diameter, "diameter")?;
        Ok(Self { centre: centre.check()?, diameter: diameter.as_mm() })
    }
    /// Centre.
    pub fn centre(&self) -> Point {
        self.centre
    }
    /// Diameter.
    pub fn diameter(&self) -> Length {
        Length::mm(self.diameter)
    }
}

/// A length that must be a number above nought (and below 20 m).
pub(crate) fn positive(length: Length, what: &'static str) -> Result<f64, ShapeError> {
    match length.as_mm() {
        mm if !mm.is_finite() => Err(ShapeError::NotFinite),
        mm if mm <= 0.0 => Err(ShapeError::NotPositive(what)),
        mm if mm > 2.0 * super::LARGEST_COORDINATE.as_mm() => Err(ShapeError::TooLarge),
        mm => Ok(mm),
    }
}

/// The upright box around something flat.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Extents {
    pub(crate) least: Point,
    pub(crate) greatest: Point,
}

impl Extents {
    /// Lower left corner.
    pub fn least(&self) -> Point {
        self.least
    }
    /// Upper right corner.
    pub fn greatest(&self) -> Point {
        self.greatest
    }
    /// Size in the first direction.
    pub fn width(&self) -> Length {
        Length::mm(self.greatest.x - self.least.x)
    }
    /// Size in the second direction.
    pub fn height(&self) -> Length {
        Length::mm(self.greatest.y - self.least.y)
    }
}

/// A closed, simple outline of lines and arcs, kept anticlockwise.
#[derive(Clone, PartialEq, Debug)]
pub struct Contour {
    segments: Vec<Segment>,
}

impl Contour {
    /// From edges that follow one another; either direction is accepted, anticlockwise is kept.
    pub fn from_segments(segments: Vec<Segment>) -> Result<Self, ShapeError> {
        let lines_only = segments.iter().all(|s| s.bulge == 0.0);
        if segments.len() < if lines_only { 3 } else { 2 } {
            return Err(ShapeError::TooFewSegments);
        }
        check_joints(&segments)?;
        check_simple(&segments)?;
        let area: f64 = segments.iter().map(Segment::area).sum();
        if area.abs() < 1e-9 {
            return Err(ShapeError::NoArea);
        }
        if area < 0.0 {
            return Ok(Self { segments: segments.iter().rev().map(Segment::reversed).collect() });
        }
        Ok(Self { segments })
    }

    /// Straight edges through the given corners.
    pub fn polygon(corners: &[Point]) -> Result<Self, ShapeError> {
        let next = corners.iter().cycle().skip(1);
        let lines: Result<Vec<_>, _> = corners.iter().zip(next).map(|(a, b)| Segment::line(*a, *b)).collect();
        Self::from_segments(lines?)
    }

    /// A circle, as two half circles.
    pub fn circle(circle: Circle) -> Result<Self, ShapeError> {
        let r = Point::mm(circle.diameter / 2.0, 0.0);
        let (right, left) = (circle.centre.plus(r), circle.centre.minus(r));
        Self::from_segments(vec![Segment::bulged(right, left, 1.0)?, Segment::bulged(left, right, 1.0)?])
    }

    /// A rectangle about the origin, corners rounded (or sharp with radius nought).
    pub fn rectangle(length: Length, width: Length, corner_radius: Length) -> Result<Self, ShapeError> {
        let (l, w) = (positive(length, "length")? / 2.0, positive(width, "width")? / 2.0);
        let r = corner_radius.as_mm();
        if !r.is_finite() || r < 0.0 {
            return Err(ShapeError::NotPositive("corner radius"));
        }
        if r > l.min(w) {
            return Err(ShapeError::CornerTooLarge);
        }
        let corner = |x: f64, y: f64| Point::mm(x, y);
        let mut path = Path::start(corner(l, r - w));
        let quarter = libm::tan(TAU / 16.0);
        let ends = [
            (corner(l, w - r), corner(l - r, w)),
            (corner(r - l, w), corner(-l, w - r)),
            (corner(-l, r - w), corner(r - l, -w)),
            (corner(l - r, -w), corner(l, r - w)),
        ];
        for (line_end, arc_end) in ends {
            path = path.line_or_nothing(line_end);
            path = if r > 0.0 { path.bulge_to(arc_end, quarter) } else { path };
        }
        path.close()
    }

    /// A slot with round ends about `centre`: width, overall length, direction of its long axis.
    pub fn slot(centre: Point, width: Length, length: Length, direction: Angle) -> Result<Self, ShapeError> {
        let (w, l) = (positive(width, "width")?, positive(length, "length")?);
        if l <= w {
            return Err(ShapeError::SlotNotLonger);
        }
        if !direction.is_finite() {
            return Err(ShapeError::NotFinite);
        }
        let along = Point::mm(direction.cos(), direction.sin());
        let (reach, side) = (along.times((l - w) / 2.0), Point::mm(-along.y, along.x).times(w / 2.0));
        let at = |a: f64, b: f64| centre.plus(reach.times(a)).plus(side.times(b));
        Path::start(at(-1.0, -1.0))
            .line_to(at(1.0, -1.0))
            .bulge_to(at(1.0, 1.0), 1.0)
            .line_to(at(-1.0, 1.0))
            .bulge_to(at(-1.0, -1.0), 1.0)
            .close()
    }

    /// The edges in order, anticlockwise.
    pub fn segments(&self) -> &[Segment] {
        &self.segments
    }

    /// The circle, if this outline is one (two half circles).
    pub fn as_circle(&self) -> Option<Circle> {
        match self.segments.as_slice() {
            [a, b] if a.bulge == 1.0 && b.bulge == 1.0 => {
                Some(Circle { centre: a.from.plus(a.to).times(0.5), diameter: a.from.to(a.to) })
            }
            _ => None,
        }
    }

    /// Enclosed area.
    pub fn area(&self) -> Area {
        Area::mm2(self.area_mm2())
    }
    pub(crate) fn area_mm2(&self) -> f64 {
        self.segments.iter().map(Segment::area).sum()
    }

    /// Length of the outline.
    pub fn perimeter(&self) -> Length {
        self.segments.iter().map(Segment::length).sum()
    }

    /// First moments ∬x dA and ∬y dA, mm³.
    pub(crate) fn moments(&self) -> Point {
        let swapped = |s: &Segment| {
            let flip = |p: Point| Point::mm(p.y, p.x);
            Segment { from: flip(s.from), to: flip(s.to), bulge: -s.bulge }.moment()
        };
        Point::mm(self.segments.iter().map(Segment::moment).sum(), -self.segments.iter().map(swapped).sum::<f64>())
    }

    /// Centroid of the enclosed area.
    pub fn centroid(&self) -> Point {
        self.moments().times(1.0 / self.area_mm2())
    }

    /// The upright box around it.
    pub fn extents(&self) -> Extents {
        let mut out = Extents { least: Point::mm(f64::MAX, f64::MAX), greatest: Point::mm(f64::MIN, f64::MIN) };
        for (lo, hi) in self.segments.iter().map(Segment::bounds) {
            out.least = Point::mm(out.least.x.min(lo.x), out.least.y.min(lo.y));
            out.greatest = Point::mm(out.greatest.x.max(hi.x), out.greatest.y.max(hi.y));
        }
        out
    }

    /// Whether a point (not on the outline) lies inside: the outline turns once about it.
    pub(crate) fn holds(&self, p: Point) -> bool {
        self.segments.iter().map(|s| turn_about(s, p)).sum::<f64>().abs() > TAU / 2.0
    }

    /// Distance of a point from the nearest edge.
    pub fn distance_to(&self, p: Point) -> Length {
        Length::mm(self.segments.iter().map(|s| meeting::to_point(s, p)).fold(f64::INFINITY, f64::min))
    }

    /// By how much the outline turns at each corner, anticlockwise; nought where one edge runs on into the next.
    pub fn turns(&self) -> impl Iterator<Item = Angle> + '_ {
        let next = self.segments.iter().cycle().skip(1);
        self.segments.iter().zip(next).map(|(a, b)| {
            let (u, v) = (a.tangent(true), b.tangent(false));
            Angle::atan2(u.cross(v), u.dot(v))
        })
    }

    /// Smallest distance between this outline and another, mm.
    pub(crate) fn gap_to(&self, other: &Self) -> f64 {
        let boxed = |c: &Self| c.segments.iter().map(|s| (*s, s.bounds())).collect::<Vec<_>>();
        let (own, others) = (boxed(self), boxed(other));
        let mut least = f64::INFINITY;
        for (a, of_a) in &own {
            for (b, of_b) in &others {
                // Edges are no nearer than their boxes.
                if !near::apart(*of_a, *of_b, least) {
                    least = least.min(meeting::distance(a, b));
                }
            }
        }
        least
    }
}

/// Angle by which an edge turns about a point, radians. Seen from within its own circle an arc turns all the way in
/// its own sense.
fn turn_about(s: &Segment, p: Point) -> f64 {
    let (a, b) = (s.from.minus(p), s.to.minus(p));
    let chord = libm::atan2(a.cross(b), a.dot(b));
    let within = s.arc().is_some_and(|arc| arc.centre.to(p) < arc.radius);
    if within && chord * s.bulge < 0.0 { chord + TAU * s.bulge.signum() } else { chord }
}

fn check_joints(segments: &[Segment]) -> Result<(), ShapeError> {
    for (a, b) in segments.iter().zip(segments.iter().cycle().skip(1)) {
        if a.to != b.from {
            return Err(ShapeError::Open(a.to));
        }
        let (u, v) = (a.tangent(true), b.tangent(false));
        if u.dot(v) < 0.0 && u.cross(v).abs() < 1e-4 {
            return Err(ShapeError::FoldsBack(a.to));
        }
    }
    Ok(())
}

fn check_simple(segments: &[Segment]) -> Result<(), ShapeError> {
    let last = segments.len() - 1;
    // The first in the order of edges is told, in whichever order they are looked at.
    let mut crossed: Option<(usize, usize)> = None;
    near::pairs(segments, CLOSEST_EDGES, &mut |i, j| {
        if let (Some(a), Some(b)) = (segments.get(i), segments.get(j))
            && crossed.is_none_or(|first| (i, j) < first)
        {
            let neighbours = j == i + 1 || (i == 0 && j == last);
            let bad = if neighbours { neighbours_cross(a, b) } else { meeting::distance(a, b) < CLOSEST_EDGES };
            crossed = if bad { Some((i, j)) } else { crossed };
        }
        true
    });
    match crossed.and_then(|(i, _)| segments.get(i)) {
        Some(a) => Err(ShapeError::CrossesItself(a.from)),
        None => Ok(()),
    }
}

/// Neighbours share a corner; they must not meet anywhere else.
pub(crate) fn neighbours_cross(a: &Segment, b: &Segment) -> bool {
    let corners: Vec<Point> = [a.from, a.to].into_iter().filter(|p| *p == b.from || *p == b.to).collect();
    meeting::crossings(a, b).iter().any(|p| corners.iter().all(|c| c.to(*p) > CLOSEST_EDGES))
}

/// Draws an outline edge by edge; the first fault is kept and comes out at [`Path::close`].
#[derive(Clone, Debug)]
pub struct Path {
    start: Point,
    at: Point,
    edges: Result<Vec<Segment>, ShapeError>,
}

impl Path {
    /// Begin at a point.
    pub fn start(at: Point) -> Self {
        Self { start: at, at, edges: Ok(Vec::new()) }
    }
    /// A straight edge to a point.
    pub fn line_to(self, to: Point) -> Self {
        self.bulge_to(to, 0.0)
    }
    /// A straight edge, or none if the point is already reached.
    pub fn line_or_nothing(self, to: Point) -> Self {
        if self.at == to { self } else { self.line_to(to) }
    }
    /// An arc of the given bulge, tan(sweep / 4), positive anticlockwise.
    pub fn bulge_to(self, to: Point, bulge: f64) -> Self {
        let edge = Segment::bulged(self.at, to, bulge);
        self.push(edge, to)
    }
    /// An arc about a centre.
    pub fn arc_to(self, to: Point, centre: Point, turn: Turn) -> Self {
        let edge = Segment::arc_about(self.at, to, centre, turn);
        self.push(edge, to)
    }
    fn push(mut self, edge: Result<Segment, ShapeError>, to: Point) -> Self {
        if let Ok(edges) = &mut self.edges {
            match edge {
                Ok(edge) => edges.push(edge),
                Err(fault) => self.edges = Err(fault),
            }
        }
        self.at = to;
        self
    }
    /// The edges as an open path.
    pub fn open(self) -> Result<Vec<Segment>, ShapeError> {
        self.edges
    }
    /// The edges, closed by a straight line back to the start if they do not end there.
    pub fn closed_edges(self) -> Result<Vec<Segment>, ShapeError> {
        let start = self.start;
        self.line_or_nothing(start).edges
    }
    /// The closed outline.
    pub fn close(self) -> Result<Contour, ShapeError> {
        Contour::from_segments(self.closed_edges()?)
    }
}
