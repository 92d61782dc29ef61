//! Rings of points around an axis, and the strips of triangles between them.

use std::f64::consts::{PI, TAU};

use super::Mesh;
use crate::shape::Point;

/// Fewest chords of a circle, however small: below six it no longer looks round.
pub(crate) const FEWEST_CHORDS: u32 = 6;

/// Chords of a circle of radius `r` whose sagitta stays within `tol` (both mm):
/// n = ⌈π / acos(1 − tol/r)⌉, with acos(1 − x) = 2 asin √(x/2), which keeps its digits at small x.
pub(crate) fn chords(r: f64, tol: f64) -> u32 {
    if tol >= r {
        return FEWEST_CHORDS;
    }
    ((PI / half_step(r, tol) - 1e-9).ceil() as u32).max(FEWEST_CHORDS)
}

/// Half the angle of the longest chord within `tol` on radius `r`, radians.
pub(crate) fn half_step(r: f64, tol: f64) -> f64 {
    2.0 * libm::asin((tol / (2.0 * r)).min(1.0).sqrt())
}

/// Sagitta of a chord that spans `angle` radians on radius `r`.
pub(crate) fn sagitta(r: f64, angle: f64) -> f64 {
    let s = libm::sin(angle / 4.0);
    2.0 * r * s * s
}

/// A planned ring: radius, height, number of chords, whether it is turned by half a chord, and whether its
/// neighbours must have as many chords. On the axis (radius nought) it is a single point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Ring {
    pub r: f64,
    pub z: f64,
    pub n: u32,
    pub half: bool,
    pub even: bool,
}

impl Ring {
    fn is_pole(&self) -> bool {
        self.r == 0.0
    }
    /// Puts the ring's points into the mesh; returns their numbers.
    pub fn place(&self, mesh: &mut Mesh, centre: Point, phase: f64) -> Vec<u32> {
        if self.is_pole() {
            return vec![mesh.add_point([centre.x, centre.y, self.z])];
        }
        let half = if self.half { 0.5 } else { 0.0 };
        let turn = |i: u32| TAU * (f64::from(i) + half) / f64::from(self.n) + phase;
        (0..self.n)
            .map(|i| {
                let p = centre.polar(self.r, turn(i));
                mesh.add_point([p.x, p.y, self.z])
            })
            .collect()
    }
}

/// A ring with the numbers of its points.
pub(crate) struct Placed {
    pub ring: Ring,
    pub points: Vec<u32>,
}

/// Fills the strip from ring `a` to ring `b`, seen along a profile that has the material on its left.
///
/// Edges of both rings are taken in the order of their middles, so that each gets the nearest point of the other
/// ring as its apex. On a cone of radii R₁, R₂ the diagonal then spans at most (s₁ + s₂)/2 of the two steps, and
/// its depth below the surface, at most ½ R₁R₂/(√R₁ + √R₂)² · span², is no more than the rings' own sagitta:
/// n₁ + n₂ triangles do, with no intermediate ring. The comparison is in whole numbers.
pub(crate) fn strip(mesh: &mut Mesh, a: &Placed, b: &Placed) {
    let middle = |ring: &Ring, k: u64| 2 * k + 1 + u64::from(ring.half);
    let (na, nb) = (u64::from(a.ring.n), u64::from(b.ring.n));
    let a_first = |i: usize, j: usize| middle(&a.ring, i as u64) * nb <= middle(&b.ring, j as u64) * na;
    stitch(mesh, &a.points, &b.points, a_first);
}

/// Fills the strip between two closed loops; `a_first(i, j)` tells whether edge i of `a` comes before edge j of `b`.
#[allow(clippy::indexing_slicing, reason = "indices are taken modulo the length")]
pub(crate) fn stitch(mesh: &mut Mesh, a: &[u32], b: &[u32], a_first: impl Fn(usize, usize) -> bool) {
    let edges = |ring: &[u32]| if ring.len() == 1 { 0 } else { ring.len() };
    let (ea, eb) = (edges(a), edges(b));
    let (mut i, mut j) = (0, 0);
    while i < ea || j < eb {
        let (p, q) = (a[i % a.len()], b[j % b.len()]);
        if j == eb || (i < ea && a_first(i, j)) {
            i += 1;
            mesh.triangles.push([p, a[i % a.len()], q]);
        } else {
            j += 1;
            mesh.triangles.push([b[j % b.len()], q, p]);
        }
    }
}

/// Fills a flat disc bounded by one ring with n − 2 triangles of good shape: every other corner is cut off, again
/// and again. `up` tells whether the disc faces along the axis.
#[allow(clippy::indexing_slicing, reason = "windows of three taken modulo the length")]
pub(crate) fn disc(mesh: &mut Mesh, ring: &[u32], up: bool) {
    let mut left = ring.to_vec();
    while left.len() > 2 {
        let n = left.len();
        let mut kept = Vec::with_capacity(n / 2 + 1);
        for k in (0..n).step_by(2) {
            kept.push(left[k]);
            if k + 1 < n && (n > 3 || k == 0) {
                let (p, q, r) = (left[k], left[k + 1], left[(k + 2) % n]);
                mesh.triangles.push(if up { [p, q, r] } else { [r, q, p] });
            }
        }
        left = if n == 3 { Vec::new() } else { kept };
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// n = ⌈π / acos(1 − tol/R)⌉, worked with a pocket calculator: R = 30, tol = 0.01: acos(0.999666...) =
    /// 0.025820 rad, π over it 121.67, so 122.
    #[test]
    fn chords_by_hand() {
        assert_eq!(chords(30.0, 0.01), 122);
        assert_eq!(chords(6.5, 0.01), 57);
        assert_eq!(chords(0.001, 0.01), 6);
    }

    #[test]
    fn discs_have_two_triangles_less_than_corners() {
        for n in 3..40u32 {
            let mut mesh = Mesh::default();
            let ring = Ring { r: 1.0, z: 0.0, n, half: false, even: false }.place(&mut mesh, Point::ORIGIN, 0.0);
            disc(&mut mesh, &ring, true);
            assert_eq!(mesh.triangles.len() as u32, n - 2, "{n}");
            assert!(mesh.triangles.iter().all(|t| mesh.normal(t)[2] > 0.0), "{n}");
            let area = 0.5 * f64::from(n) * libm::sin(TAU / f64::from(n));
            assert!((mesh.surface().as_mm2() - area).abs() < 1e-12, "{n}");
        }
    }
}
