//! How far the facets of a strip on a rounded face leave the true surface: measured, not estimated.

use std::f64::consts::TAU;

use super::ring::Ring;
use crate::shape::{HypotMm, Point, Segment, meeting};

/// A facet is looked at on a grid of this many parts; what lies between its points is allowed for by [`MARGIN`].
const FINE: u32 = 12;

/// A facet's depth is near enough a parabola, of which a grid of n parts misses at most (1/n)² of the height.
const MARGIN: f64 = 1.0 + 1.0 / (FINE * FINE) as f64;

/// How often a ring's chords are made a fiftieth more before giving up: enough for any plan that is near right.
const TIGHTER_TRIES: u32 = 200;

/// Rings with as many more chords as their facets need to hold the tolerance.
///
/// Plans count curvature to the second order and as constant over one facet, so that a facet may come out too deep,
/// mostly where the tolerance is not small beside the radius or where the face turns square to the axis.
pub(crate) fn tightened(s: &Segment, mut rings: Vec<Ring>, tol: f64) -> Vec<Ring> {
    let more = |ring: &mut Ring| ring.n += ring.n.div_ceil(50);
    for k in 1..rings.len() {
        for _ in 0..TIGHTER_TRIES {
            match rings.get_mut(k - 1..=k) {
                Some([a, b]) if strip_deviation(s, a, b) > tol * (1.0 + 1e-7) => {
                    if a.even || b.even {
                        rings.iter_mut().for_each(more)
                    } else {
                        [a, b].into_iter().for_each(more)
                    }
                }
                _ => break,
            }
        }
    }
    rings
}

/// The facets of a strip stand on an edge of either ring; each is taken with its apex in the middle, where they are
/// widest, and with its apex as far off as the stitching lets it come.
fn strip_deviation(s: &Segment, a: &Ring, b: &Ring) -> f64 {
    let step = |ring: &Ring| TAU / f64::from(ring.n);
    let staggered = a.n == b.n && a.half != b.half;
    let facets = [(a, b), (b, a)].into_iter().filter(|(base, _)| base.r > 0.0).flat_map(|(base, apex)| {
        let off = if staggered || apex.r == 0.0 { 0.0 } else { step(apex) / 2.0 };
        [0.0, off.min(step(base) / 2.0), off].map(|off| facet(base, apex, step(base), off))
    });
    facets.map(|corners| facet_deviation(s, &corners)).fold(0.0, f64::max)
}

/// Corners of the facet on a chord of `step` radians of ring `base`, its apex `off` radians from the chord's middle.
fn facet(base: &Ring, apex: &Ring, step: f64, off: f64) -> [[f64; 3]; 3] {
    let at = |ring: &Ring, angle: f64| {
        let p = Point::ORIGIN.polar(ring.r, angle);
        [p.x, p.y, ring.z]
    };
    [at(base, -step / 2.0), at(base, step / 2.0), at(apex, off)]
}

fn facet_deviation(s: &Segment, corners: &[[f64; 3]; 3]) -> f64 {
    let grid = (0..=FINE).flat_map(|i| (0..=FINE - i).map(move |j| [i, j, FINE - i - j]));
    grid.map(|weights| depth(s, profile_point(corners, weights))).fold(0.0, f64::max)
}

/// One point of a facet turned into the plane of the profile; the weights of its corners in parts of [`FINE`].
fn profile_point([a, b, c]: &[[f64; 3]; 3], weights: [u32; 3]) -> Point {
    let [u, v, w] = weights.map(|k| f64::from(k) / f64::from(FINE));
    let mix = |(a, b, c): (f64, f64, f64)| u * a + v * b + w * c;
    let [x, y, z] = [(a[0], b[0], c[0]), (a[1], b[1], c[1]), (a[2], b[2], c[2])].map(mix);
    Point::mm(x.hypot_mm(y), z)
}

/// Distance from the arc. Beyond its ends it falls from that of the end ring's chords, which need no allowance.
fn depth(s: &Segment, p: Point) -> f64 {
    let off = meeting::to_point(s, p);
    if off < s.from.to(p).min(s.to.to(p)) { MARGIN * off } else { off }
}
