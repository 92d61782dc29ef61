//! A point, and one edge of an outline: a straight line or a circular arc.
//!
//! An arc is kept as its two ends and its bulge, tan(sweep / 4), positive anticlockwise: three facts that
//! cannot contradict each other (centre and radius follow).

use std::f64::consts::TAU;
use std::fmt;

use super::{LARGEST_COORDINATE, LARGEST_RADIUS, SHORTEST_SEGMENT, ShapeError};
use crate::units::show::fixed;
use crate::units::{Angle, Length};

/// A point in the plane of a flat part (x, y), or of a turned profile (radius, distance along the axis).
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Point {
    /// First coordinate, mm.
    pub(crate) x: f64,
    /// Second coordinate, mm.
    pub(crate) y: f64,
}

impl Point {
    /// The origin.
    pub const ORIGIN: Self = Self { x: 0.0, y: 0.0 };
    /// From two lengths.
    pub const fn new(x: Length, y: Length) -> Self {
        Self { x: x.as_mm(), y: y.as_mm() }
    }
    /// From two numbers in millimetres.
    pub const fn mm(x: f64, y: f64) -> Self {
        Self { x, y }
    }
    /// First coordinate (radius in a turned profile).
    pub const fn x(self) -> Length {
        Length::mm(self.x)
    }
    /// Second coordinate (along the axis in a turned profile).
    pub const fn y(self) -> Length {
        Length::mm(self.y)
    }
    /// Distance to another point.
    pub fn distance(self, other: Self) -> Length {
        Length::mm(self.to(other))
    }
    pub(crate) fn to(self, other: Self) -> f64 {
        (self.x - other.x).hypot_mm(self.y - other.y)
    }
    pub(crate) fn minus(self, o: Self) -> Self {
        Self { x: self.x - o.x, y: self.y - o.y }
    }
    pub(crate) fn plus(self, o: Self) -> Self {
        Self { x: self.x + o.x, y: self.y + o.y }
    }
    pub(crate) fn times(self, k: f64) -> Self {
        Self { x: self.x * k, y: self.y * k }
    }
    pub(crate) fn cross(self, o: Self) -> f64 {
        self.x * o.y - self.y * o.x
    }
    pub(crate) fn dot(self, o: Self) -> f64 {
        self.x * o.x + self.y * o.y
    }
    /// The point at distance `r` in direction `angle` (radians) from this one.
    pub(crate) fn polar(self, r: f64, angle: f64) -> Self {
        Self { x: self.x + r * libm::cos(angle), y: self.y + r * libm::sin(angle) }
    }
    pub(crate) fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite()
    }
    pub(crate) fn check(self) -> Result<Self, ShapeError> {
        if !self.is_finite() {
            return Err(ShapeError::NotFinite);
        }
        if self.x.abs().max(self.y.abs()) > LARGEST_COORDINATE.as_mm() {
            return Err(ShapeError::TooLarge);
        }
        Ok(self)
    }
}

impl fmt::Display for Point {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "({}, {}) mm", fixed(self.x, 3), fixed(self.y, 3))
    }
}

/// √(a² + b²) of plain millimetres; magnitudes here never over- or underflow.
pub(crate) trait HypotMm {
    fn hypot_mm(self, other: f64) -> f64;
}
impl HypotMm for f64 {
    fn hypot_mm(self, other: f64) -> f64 {
        (self * self + other * other).sqrt()
    }
}

/// Which way an arc runs.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Turn {
    /// Against the clock, seen with x to the right and y up.
    Anticlockwise,
    /// With the clock.
    Clockwise,
}

/// Centre, radius and sweep of an arc edge.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Arc {
    /// Centre.
    pub(crate) centre: Point,
    /// Radius, mm.
    pub(crate) radius: f64,
    /// Direction of the start from the centre, radians.
    pub(crate) start: f64,
    /// Signed angle from start to end, radians, positive anticlockwise.
    pub(crate) sweep: f64,
}

impl Arc {
    /// Centre of the arc.
    pub fn centre(&self) -> Point {
        self.centre
    }
    /// Radius of the arc.
    pub fn radius(&self) -> Length {
        Length::mm(self.radius)
    }
    /// Direction of its start, seen from the centre.
    pub fn start(&self) -> Angle {
        Angle::radians(self.start)
    }
    /// Signed angle from start to end, positive anticlockwise.
    pub fn sweep(&self) -> Angle {
        Angle::radians(self.sweep)
    }
    pub(crate) fn at(&self, fraction: f64) -> Point {
        self.centre.polar(self.radius, self.start + self.sweep * fraction)
    }
    /// Where along the arc the direction `angle` (radians) lies, 0 to 1, if it lies on it.
    pub(crate) fn fraction_of(&self, angle: f64) -> Option<f64> {
        let along = (angle - self.start) * self.sweep.signum();
        let turned = along.rem_euclid(TAU);
        (turned <= self.sweep.abs()).then(|| turned / self.sweep.abs())
    }
}

/// One edge of an outline: a line, or an arc.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Segment {
    pub(crate) from: Point,
    pub(crate) to: Point,
    pub(crate) bulge: f64,
}

impl Segment {
    /// A straight edge.
    pub fn line(from: Point, to: Point) -> Result<Self, ShapeError> {
        Self::bulged(from, to, 0.0)
    }

    /// An arc of the given bulge, tan(sweep / 4), positive anticlockwise; 0 is a straight line, 1 a half circle.
    pub fn bulged(from: Point, to: Point, bulge: f64) -> Result<Self, ShapeError> {
        let (from, to) = (from.check()?, to.check()?);
        if !bulge.is_finite() {
            return Err(ShapeError::NotFinite);
        }
        if from.to(to) < SHORTEST_SEGMENT.as_mm() {
            return Err(ShapeError::ShortSegment(from));
        }
        let segment = Self { from, to, bulge };
        let radius = segment.arc().map_or(0.0, |a| a.radius);
        if radius > LARGEST_RADIUS.as_mm() || bulge.abs() > 20.0 {
            return Err(ShapeError::ArcOutOfRange(from));
        }
        Ok(segment)
    }

    /// An arc about a centre. The two ends must be equally far from it (within 1 µm).
    pub fn arc_about(from: Point, to: Point, centre: Point, turn: Turn) -> Result<Self, ShapeError> {
        centre.check()?;
        if (centre.to(from) - centre.to(to)).abs() > 1e-3 {
            return Err(ShapeError::UnevenArc(from));
        }
        let (a, b) = (from.minus(centre), to.minus(centre));
        let anticlockwise = libm::atan2(a.cross(b), a.dot(b)).rem_euclid(TAU);
        let sweep = match turn {
            Turn::Anticlockwise => anticlockwise,
            Turn::Clockwise => anticlockwise - TAU,
        };
        Self::bulged(from, to, libm::tan(sweep / 4.0))
    }

    /// Start.
    pub fn from(&self) -> Point {
        self.from
    }
    /// End.
    pub fn to(&self) -> Point {
        self.to
    }
    /// tan(sweep / 4); 0 for a line.
    pub fn bulge(&self) -> f64 {
        self.bulge
    }
    /// The same edge run the other way.
    pub fn reversed(&self) -> Self {
        Self { from: self.to, to: self.from, bulge: -self.bulge }
    }

    /// Length of the edge.
    pub fn length(&self) -> Length {
        Length::mm(self.arc().map_or(self.from.to(self.to), |a| a.radius * a.sweep.abs()))
    }

    /// The arc, unless the edge is straight.
    ///
    /// Centre = middle of the chord + left normal · (1 − b²)/(4b), radius = chord · (1 + b²)/(4|b|),
    /// sweep = 4·atan b, with b the bulge.
    pub fn arc(&self) -> Option<Arc> {
        if self.bulge == 0.0 {
            return None;
        }
        let (b, chord) = (self.bulge, self.to.minus(self.from));
        let left = Point::mm(-chord.y, chord.x);
        let middle = self.from.plus(self.to).times(0.5);
        let centre = middle.plus(left.times((1.0 - b * b) / (4.0 * b)));
        let radius = self.from.to(self.to) * (1.0 + b * b) / (4.0 * b.abs());
        let start = self.from.minus(centre);
        Some(Arc { centre, radius, start: libm::atan2(start.y, start.x), sweep: 4.0 * libm::atan(b) })
    }

    /// The point a fraction (0 to 1) along; the ends come out exactly.
    pub(crate) fn at(&self, fraction: f64) -> Point {
        match self.arc() {
            _ if fraction <= 0.0 => self.from,
            _ if fraction >= 1.0 => self.to,
            Some(arc) => arc.at(fraction),
            None => self.from.plus(self.to.minus(self.from).times(fraction)),
        }
    }

    /// Unit tangent at the start (`false`) or the end (`true`), in the running direction.
    pub(crate) fn tangent(&self, at_end: bool) -> Point {
        let chord = self.to.minus(self.from).times(1.0 / self.from.to(self.to));
        let turn = 2.0 * libm::atan(self.bulge) * if at_end { 1.0 } else { -1.0 };
        let (s, c) = (libm::sin(turn), libm::cos(turn));
        Point::mm(chord.x * c - chord.y * s, chord.x * s + chord.y * c)
    }

    /// Corners of the box around the edge.
    pub(crate) fn bounds(&self) -> (Point, Point) {
        let (mut lo, mut hi) = (self.from, self.from);
        let mut take = |p: Point| {
            lo = Point::mm(lo.x.min(p.x), lo.y.min(p.y));
            hi = Point::mm(hi.x.max(p.x), hi.y.max(p.y));
        };
        take(self.to);
        if let Some(arc) = self.arc() {
            let quarters = [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)];
            for (quarter, (x, y)) in quarters.into_iter().enumerate() {
                if arc.fraction_of(quarter as f64 * TAU / 4.0).is_some() {
                    take(arc.centre.plus(Point::mm(x, y).times(arc.radius)));
                }
            }
        }
        (lo, hi)
    }

    /// Its share of the enclosed area, ½∮(x dy − y dx), mm²: shoelace plus the circular segment ½ρ²(s − sin s).
    pub(crate) fn area(&self) -> f64 {
        let chord = 0.5 * self.from.cross(self.to);
        chord + self.arc().map_or(0.0, |a| 0.5 * a.radius * a.radius * (a.sweep - libm::sin(a.sweep)))
    }

    /// Its share of the first moment about the second axis, ½∮x² dy, mm³.
    ///
    /// Line: Δy (x₀² + x₀x₁ + x₁²)/6. Arc with centre c, radius ρ:
    /// ½ρ[c² sin t + cρ(t + sin t cos t) + ρ²(sin t − ⅓ sin³ t)] between its end directions.
    pub(crate) fn moment(&self) -> f64 {
        let (a, b) = (self.from, self.to);
        let Some(arc) = self.arc() else {
            return (b.y - a.y) * (a.x * a.x + a.x * b.x + b.x * b.x) / 6.0;
        };
        let (c, r) = (arc.centre.x, arc.radius);
        let integral = |t: f64| {
            let (s, co) = (libm::sin(t), libm::cos(t));
            c * c * s + c * r * (t + s * co) + r * r * (s - s * s * s / 3.0)
        };
        0.5 * r * (integral(arc.start + arc.sweep) - integral(arc.start))
    }

    /// Its share of ½∮x² y dy, mm⁴ (axial moment of a solid of revolution).
    ///
    /// Gauss-Legendre, ten points on pieces of at most 15°: exact for lines, to rounding for arcs.
    pub(crate) fn axial_moment(&self) -> f64 {
        let Some(arc) = self.arc() else {
            let (d, a) = (self.to.minus(self.from), self.from);
            return 0.5
                * super::quadrature::integrate(0.0, 1.0, 1, |t| (a.x + t * d.x).powi(2) * (a.y + t * d.y) * d.y);
        };
        let pieces = (arc.sweep.abs() / (TAU / 24.0)).ceil() as usize;
        0.5 * super::quadrature::integrate(arc.start, arc.start + arc.sweep, pieces, |t| {
            let (x, y) = (arc.centre.x + arc.radius * libm::cos(t), arc.centre.y + arc.radius * libm::sin(t));
            x * x * y * arc.radius * libm::cos(t)
        })
    }

    /// ∫x ds, mm²: 2π times it is the area swept in a turn about the second axis (Pappus).
    pub(crate) fn swept(&self) -> f64 {
        let Some(arc) = self.arc() else {
            return 0.5 * (self.from.x + self.to.x) * self.from.to(self.to);
        };
        let ends = libm::sin(arc.start + arc.sweep) - libm::sin(arc.start);
        arc.radius * (arc.centre.x * arc.sweep + arc.radius * ends).abs()
    }
}
