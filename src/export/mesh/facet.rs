//! How far the facets of a strip on a rounded face leave the true surface: measured, not estimated.

use std::f64::consts::TAU;

use super::ring::Ring;
use crate::shape::{Arc, HypotMm, Point, Segment, meeting};

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
    let Some(arc) = s.arc() else { return rings };
    let face = Face { edge: s, arc };
    for k in 1..rings.len() {
        for _ in 0..TIGHTER_TRIES {
            match rings.get_mut(k - 1..=k) {
                Some([a, b]) if face.strip_leaves(a, b, tol * (1.0 + 1e-7)) => {
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

/// A rounded face: the edge of the profile that it is turned from, and its arc.
struct Face<'a> {
    edge: &'a Segment,
    arc: Arc,
}

impl Face<'_> {
    /// Whether a facet of the strip between two rings leaves the face by more than the tolerance. The facets stand on an
    /// edge of either ring; each is taken with its apex in the middle, where they are widest, and with its apex as far
    /// off as the stitching lets it come.
    fn strip_leaves(&self, a: &Ring, b: &Ring, tol: f64) -> bool {
        let step = |ring: &Ring| TAU / f64::from(ring.n);
        let staggered = a.n == b.n && a.half != b.half;
        [(a, b), (b, a)].into_iter().filter(|(base, _)| base.r > 0.0).any(|(base, apex)| {
            let off = if staggered || apex.r == 0.0 { 0.0 } else { step(apex) / 2.0 };
            let mut offs = vec![0.0, off.min(step(base) / 2.0), off];
            offs.dedup();
            offs.into_iter().any(|off| self.facet_leaves(&facet(base, apex, step(base), off), off == 0.0, tol))
        })
    }

    /// An even facet is the same on both sides of its middle, and one is looked at.
    fn facet_leaves(&self, corners: &[[f64; 3]; 3], even: bool, tol: f64) -> bool {
        let grid = (0..=FINE).flat_map(|i| (0..=FINE - i).map(move |j| [i, j, FINE - i - j]));
        grid.filter(|[i, j, _]| !even || i <= j).any(|weights| self.depth(profile_point(corners, weights)) > tol)
    }

    /// Distance from the arc. Beyond its ends it falls from that of the end ring's chords, which need no allowance.
    fn depth(&self, p: Point) -> f64 {
        let off = meeting::to_point_of_arc(self.edge, &self.arc, p);
        if off < self.edge.from.to(p).min(self.edge.to.to(p)) { MARGIN * off } else { off }
    }
}

/// Corners of the facet on a chord of `step` radians of ring `base`, its apex `off` radians from the chord's middle.
fn facet(base: &Ring, apex: &Ring, step: f64, off: f64) -> [[f64; 3]; 3] {
    let at = |ring: &Ring, angle: f64| {
        let p = Point::ORIGIN.polar(ring.r, angle);
        [p.x, p.y, ring.z]
    };
    [at(base, -step / 2.0), at(base, step / 2.0), at(apex, off)]
}

/// One point of a facet turned into the plane of the profile; the weights of its corners in parts of [`FINE`].
fn profile_point([a, b, c]: &[[f64; 3]; 3], weights: [u32; 3]) -> Point {
    let [u, v, w] = weights.map(|k| f64::from(k) / f64::from(FINE));
    let mix = |(a, b, c): (f64, f64, f64)| u * a + v * b + w * c;
    let [x, y, z] = [(a[0], b[0], c[0]), (a[1], b[1], c[1]), (a[2], b[2], c[2])].map(mix);
    Point::mm(x.hypot_mm(y), z)
}
