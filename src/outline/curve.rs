//! Curves as a drawing has them, and the lines and arcs that a cutter gets of them.
//!
//! An ellipse and a spline become arcs that leave it nowhere by more than [`ARC_ERROR`] and run on without a corner
//! where it does. What area lies between them is kept, so that the area of a drawing is that of its curves.

use std::f64::consts::TAU;

use super::affine::{Affine, round};
use crate::shape::{Point, SHORTEST_SEGMENT, Segment, meeting, quadrature};

/// How far arcs may lie off the curve that they stand for, mm.
pub const ARC_ERROR: f64 = 0.01;
/// Of that, what is used: the curve is looked at in [`LOOKS`] places only.
const USED: f64 = 0.7;
const LOOKS: usize = 12;
/// How often a stretch of curve is halved at most.
const HALVED: usize = 24;
/// Of so many edges a curve is taken no further, and refused.
pub const MOST_EDGES: usize = 20_000;
/// A flatter arc is a line, mm.
const FLATTEST: f64 = 50_000.0;

/// A curve in the plane of its block.
#[derive(Clone, Debug, PartialEq)]
pub enum Curve {
    /// Lines and arcs end to end: corners, each with the bulge of the edge that leaves it.
    Chain(Vec<(Point, f64)>, bool),
    /// c + u cos t + v sin t, from one parameter to another that is not smaller.
    Ellipse { centre: Point, u: Point, v: Point, from: f64, to: f64 },
    /// A spline of any degree, with weights or without.
    Spline(Spline),
}

/// A spline by its control points.
#[derive(Clone, Debug, PartialEq)]
pub struct Spline {
    degree: usize,
    knots: Vec<f64>,
    /// Control points times their weight, and the weight.
    points: Vec<(Point, f64)>,
}

/// Highest degree of a spline that is read.
pub const HIGHEST_DEGREE: usize = 15;

impl Spline {
    /// Checked: as many knots as belong to the points, rising, weights above nought. The sentence says what is wrong.
    pub fn new(degree: usize, knots: Vec<f64>, points: &[Point], weights: &[f64]) -> Result<Self, String> {
        if !(1..=HIGHEST_DEGREE).contains(&degree) {
            return Err(format!("a spline of degree {degree}; 1 to {HIGHEST_DEGREE} are read"));
        }
        let (have, want) = (knots.len(), points.len() + degree + 1);
        if points.len() <= degree || have != want {
            return Err(format!(
                "a spline of degree {degree} with {} control points and {have} knots; {want} knots belong to it",
                points.len()
            ));
        }
        if knots.iter().zip(knots.iter().skip(1)).any(|(a, b)| a > b) {
            return Err("a spline whose knots fall".into());
        }
        let weight = |i: usize| if weights.is_empty() { Some(1.0) } else { weights.get(i).copied() };
        let weighed = |(i, p): (usize, &Point)| weight(i).filter(|w| *w > 0.0).map(|w| (p.times(w), w));
        let points: Option<Vec<_>> = points.iter().enumerate().map(weighed).collect();
        let points = points.ok_or("a spline whose weights are not one above nought for each control point")?;
        Ok(Self { degree, knots, points })
    }

    /// Stretches between different knots, each with the number of its knot.
    fn spans(&self) -> Vec<(usize, f64, f64)> {
        let pair = |k: usize| Some((k, *self.knots.get(k)?, *self.knots.get(k + 1)?));
        (self.degree..self.points.len()).filter_map(pair).filter(|(_, a, b)| a < b).collect()
    }

    /// Point and derivative by de Boor's scheme in the stretch of knot `k`.
    fn at(&self, k: usize, t: f64) -> (Point, Point) {
        let p = self.degree;
        let mut d: Vec<(Point, f64)> =
            (0..=p).map(|j| self.points.get(j + k - p).copied().unwrap_or_default()).collect();
        let knot = |i: usize| self.knots.get(i).copied().unwrap_or(0.0);
        let mut slope = (Point::ORIGIN, 0.0);
        for r in 1..=p {
            if r == p
                && let (Some(a), Some(b)) = (d.get(p - 1), d.get(p))
            {
                let per = p as f64 / (knot(k + 1) - knot(k));
                slope = (b.0.minus(a.0).times(per), (b.1 - a.1) * per);
            }
            for j in (r..=p).rev() {
                let (low, high) = (knot(j + k - p), knot(j + 1 + k - r));
                let share = if high > low { (t - low) / (high - low) } else { 0.0 };
                let before = d.get(j - 1).copied().unwrap_or_default();
                if let Some(here) = d.get_mut(j) {
                    let mixed = before.0.times(1.0 - share).plus(here.0.times(share));
                    *here = (mixed, before.1 * (1.0 - share) + here.1 * share);
                }
            }
        }
        let (above, weight) = d.get(p).copied().unwrap_or_default();
        let at = above.times(1.0 / weight);
        (at, slope.0.minus(at.times(slope.1)).times(1.0 / weight))
    }
}

/// A curve as lines and arcs.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Lowered {
    /// Edges end to end.
    pub edges: Vec<Segment>,
    /// Where edges of no length were left out.
    pub nothing: Vec<Point>,
    /// The curve closes in itself.
    pub closed: bool,
    /// Area of the curve less that of its edges, in their direction, mm².
    pub area: f64,
    /// Largest distance of the arcs from the curve, mm, where there are arcs for a curve.
    pub off: Option<f64>,
}

impl Curve {
    /// The curve placed, as lines and arcs.
    pub fn lowered(&self, placed: &Affine) -> Lowered {
        let mut out = Lowered::default();
        match self {
            Self::Chain(corners, closed) => chain(corners, *closed, placed, &mut out),
            Self::Ellipse { centre, u, v, from, to } => {
                let (centre, u, v) = (placed.point(*centre), placed.vector(*u), placed.vector(*v));
                out.closed = to - from >= TAU - 1e-9;
                ellipse(centre, (u, v), (*from, *to), out.closed, &mut out);
            }
            Self::Spline(spline) => {
                let placed_spline = Spline {
                    points: spline.points.iter().map(|(p, w)| (placed.point(p.times(1.0 / w)).times(*w), *w)).collect(),
                    ..spline.clone()
                };
                for (k, a, b) in placed_spline.spans() {
                    fit(&|t| placed_spline.at(k, t), a, b, HALVED, &mut out);
                }
                close(&mut out);
            }
        }
        out
    }
}

/// A run of edges that ends where it began is closed.
fn close(out: &mut Lowered) {
    if let (Some(first), Some(last)) = (out.edges.first().map(|s| s.from), out.edges.last_mut()) {
        let ends = last.to.to(first) < SHORTEST_SEGMENT.as_mm();
        if ends && (out.edges.len() > 1) {
            out.closed = true;
            if let Some(last) = out.edges.last_mut() {
                last.to = first;
            }
        }
    }
}

fn chain(corners: &[(Point, f64)], closed: bool, placed: &Affine, out: &mut Lowered) {
    let sense = placed.growth().signum();
    let round = placed.keeps_circles();
    let ends = corners.iter().skip(1).chain(corners.iter().take(usize::from(closed)));
    for ((from, bulge), (to, _)) in corners.iter().zip(ends) {
        if *bulge != 0.0 && !round && from.to(*to) > 0.0 {
            if let Some(arc) = (Segment { from: *from, to: *to, bulge: *bulge }).arc() {
                let (s, c) = (libm::sin(arc.start), libm::cos(arc.start));
                let (u, v) = (Point::mm(c, s), Point::mm(-s, c).times(arc.sweep.signum()));
                let axes = (placed.vector(u.times(arc.radius)), placed.vector(v.times(arc.radius)));
                ellipse(placed.point(arc.centre), axes, (0.0, arc.sweep.abs()), false, out);
            }
            continue;
        }
        push(Segment { from: placed.point(*from), to: placed.point(*to), bulge: bulge * sense }, out);
    }
    out.closed = closed && !out.edges.is_empty();
    if out.closed
        && let (Some(first), Some(last)) = (out.edges.first().map(|s| s.from), out.edges.last_mut())
    {
        last.to = first;
    }
}

/// Takes an edge in, which begins where the one before it ends; one of no length is only noted.
fn push(mut edge: Segment, out: &mut Lowered) {
    if let Some(last) = out.edges.last() {
        edge.from = last.to;
    }
    if edge.from.to(edge.to) < SHORTEST_SEGMENT.as_mm() {
        out.nothing.push(edge.from);
    } else {
        let flat = edge.arc().is_some_and(|a| a.radius > FLATTEST);
        out.edges.push(if flat { Segment { bulge: 0.0, ..edge } } else { edge });
    }
}

fn ellipse(centre: Point, (u, v): (Point, Point), (from, to): (f64, f64), whole: bool, out: &mut Lowered) {
    let at = |t: f64| {
        let (s, c) = (libm::sin(t), libm::cos(t));
        (centre.plus(u.times(c)).plus(v.times(s)), v.times(c).minus(u.times(s)))
    };
    if u.dot(u).max(v.dot(v)).sqrt() < SHORTEST_SEGMENT.as_mm() {
        return out.nothing.push(centre);
    }
    if round(u, v) {
        let sense = u.cross(v).signum();
        if whole {
            let (right, left) = (centre.plus(u), centre.minus(u));
            push(Segment { from: right, to: left, bulge: sense }, out);
            push(Segment { from: left, to: right, bulge: sense }, out);
            return;
        }
        let halves = if to - from > TAU / 2.0 { 2 } else { 1 };
        let step = (to - from) / f64::from(halves);
        for i in 0..halves {
            let (a, b) = (from + step * f64::from(i), from + step * f64::from(i + 1));
            push(Segment { from: at(a).0, to: at(b).0, bulge: sense * libm::tan(step / 4.0) }, out);
        }
        return;
    }
    let parts = ((to - from) / (TAU / 8.0)).ceil().max(1.0);
    for i in 0..parts as usize {
        let place = |i: usize| from + (to - from) * i as f64 / parts;
        fit(&at, place(i), place(i + 1), HALVED, out);
    }
    if whole {
        close(out);
    }
}

/// Where a curve is at a parameter, and its derivative there.
type Place<'a> = &'a dyn Fn(f64) -> (Point, Point);

/// Arcs for a stretch of curve: two that run on into each other and with what lies beside, or else those of both halves.
fn fit(at: Place, a: f64, b: f64, left: usize, out: &mut Lowered) {
    if out.edges.len() > MOST_EDGES {
        return;
    }
    let (p, q) = (at(a).0, at(b).0);
    if p.to(q) < SHORTEST_SEGMENT.as_mm() && at((a + b) / 2.0).0.to(p) < SHORTEST_SEGMENT.as_mm() {
        return;
    }
    let pair = two_arcs(p, unit(at, a, b - a), q, unit(at, b, a - b).times(-1.0));
    let off = pair.as_ref().map_or(f64::INFINITY, |pair| deviation(at, a, b, pair));
    if off <= ARC_ERROR * USED || left == 0 {
        let pair = pair.unwrap_or_else(|| vec![Segment { from: p, to: q, bulge: 0.0 }]);
        take(at, a, b, &pair, off, out);
        return;
    }
    let middle = (a + b) / 2.0;
    fit(at, a, middle, left - 1, out);
    fit(at, middle, b, left - 1, out);
}

fn take(at: Place, a: f64, b: f64, pair: &[Segment], off: f64, out: &mut Lowered) {
    let p = at(a).0;
    let curve = 0.5
        * quadrature::integrate(a, b, 1, |t| {
            let (c, d) = at(t);
            c.minus(p).cross(d)
        });
    let home = |s: &Segment| Segment { from: s.from.minus(p), to: s.to.minus(p), ..*s };
    out.area += curve - pair.iter().map(|s| home(s).area()).sum::<f64>();
    out.off = Some(out.off.unwrap_or(0.0).max(if off.is_finite() { off } else { 0.0 }));
    for edge in pair {
        push(*edge, out);
    }
}

/// Direction of a curve at one end of a stretch, looking into it. Where it stands still there, that of a place beside.
fn unit(at: Place, t: f64, into: f64) -> Point {
    let (here, slope) = at(t);
    let long = slope.dot(slope).sqrt();
    let along = slope.times(into.signum());
    let step = at(t + into * 1e-3).0.minus(here);
    let chosen = if long * into.abs() > 1e-9 { along } else { step };
    let length = chosen.dot(chosen).sqrt();
    if length > 0.0 { chosen.times(1.0 / length) } else { Point::ORIGIN }
}

/// Two arcs from `p` to `q` that leave in direction `s`, arrive in direction `t` and meet without a corner, their
/// tangents equally long: d² (2 - 2 s·t) + 2 d v·(s + t) = v·v, with v from `p` to `q`.
/// Source: derived; K. M. Bolton, Biarc curves, Computer-Aided Design 7 (1975), from memory.
fn two_arcs(p: Point, s: Point, q: Point, t: Point) -> Option<Vec<Segment>> {
    let v = q.minus(p);
    let (a, b, c) = (2.0 * (1.0 - s.dot(t)), 2.0 * v.dot(s.plus(t)), v.dot(v));
    let d = if a > 1e-12 { (-b + (b * b + 4.0 * a * c).sqrt()) / (2.0 * a) } else { c / b };
    let middle = p.plus(q).plus(s.minus(t).times(d)).times(0.5);
    let straight = a < 1e-12 && s.cross(v).abs() < 1e-9 * c.sqrt();
    if !(d > 0.0 && d.is_finite()) {
        return None;
    }
    if straight {
        return Some(vec![Segment { from: p, to: q, bulge: 0.0 }]);
    }
    let arc = |from: Point, to: Point, tangent: Point, leaves: bool| {
        let chord = to.minus(from);
        let (sine, cosine) = if leaves {
            (tangent.cross(chord), tangent.dot(chord))
        } else {
            (chord.cross(tangent), chord.dot(tangent))
        };
        let half = libm::atan2(sine, cosine);
        (half.abs() < TAU / 4.0).then(|| Segment { from, to, bulge: libm::tan(half / 2.0) })
    };
    let pair = [arc(p, middle, s, true)?, arc(middle, q, t, false)?];
    let long = |s: &Segment| s.from.to(s.to) >= 2.0 * SHORTEST_SEGMENT.as_mm();
    pair.iter().all(long).then(|| pair.to_vec())
}

fn deviation(at: Place, a: f64, b: f64, pair: &[Segment]) -> f64 {
    let off = |i: usize| {
        let here = at(a + (b - a) * (i as f64 + 0.5) / LOOKS as f64).0;
        pair.iter().map(|s| meeting::to_point(s, here)).fold(f64::INFINITY, f64::min)
    };
    (0..LOOKS).map(off).fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn area(l: &Lowered) -> f64 {
        l.edges.iter().map(Segment::area).sum::<f64>() + l.area
    }

    #[test]
    fn an_ellipse_keeps_its_area() {
        // Area pi a b. Source: geometry of the ellipse.
        let e = Curve::Ellipse {
            centre: Point::mm(3.0, 4.0),
            u: Point::mm(40.0, 0.0),
            v: Point::mm(0.0, 15.0),
            from: 0.0,
            to: TAU,
        };
        let l = e.lowered(&Affine::scale(1.0));
        assert!(l.closed && l.off.unwrap() <= ARC_ERROR);
        assert!((area(&l) - TAU / 2.0 * 600.0).abs() < 1e-9 * 600.0, "{}", area(&l));
    }

    #[test]
    fn a_circle_as_a_weighed_spline() {
        // A full circle of radius 10 as nine weighed points. Source: L. Piegl, W. Tiller, The NURBS Book, 1997, example 7.2.
        let h = 0.5_f64.sqrt();
        let at = [(1., 0.), (1., 1.), (0., 1.), (-1., 1.), (-1., 0.), (-1., -1.), (0., -1.), (1., -1.), (1., 0.)];
        let points: Vec<Point> = at.iter().map(|(x, y)| Point::mm(10.0 * x, 10.0 * y)).collect();
        let weights = [1.0, h, 1.0, h, 1.0, h, 1.0, h, 1.0];
        let knots = vec![0., 0., 0., 0.25, 0.25, 0.5, 0.5, 0.75, 0.75, 1., 1., 1.];
        let s = Spline::new(2, knots, &points, &weights).unwrap();
        let l = Curve::Spline(s).lowered(&Affine::scale(1.0));
        assert!(l.closed && (area(&l) - TAU / 2.0 * 100.0).abs() < 1e-9, "{}", area(&l));
        assert!(l.off.unwrap() < 1e-9);
    }
}
