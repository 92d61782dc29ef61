//! From the edges of a turned profile to rings: where to put them and how many chords each needs.

use super::ring::{Ring, chords, half_step, sagitta};
use crate::shape::{HypotMm, Segment};

/// One ring plan per profile corner and per inner point of an arc, in the order of the profile.
///
/// With `closed` the last edge ends at the first ring, which then is not repeated.
pub(crate) fn rings(profile: &[Segment], closed: bool, tol: f64) -> Vec<Ring> {
    let mut out: Vec<Ring> = Vec::new();
    for s in profile {
        let edge = edge_rings(s, tol);
        let (first, rest) = (edge.first().copied(), edge.into_iter().skip(1));
        match (out.last_mut(), first) {
            (Some(last), Some(first)) => last.n = last.n.max(first.n),
            (_, first) => out.extend(first),
        }
        out.extend(rest);
    }
    if closed && let Some(end) = out.pop() {
        out.iter_mut().take(1).for_each(|first| first.n = first.n.max(end.n));
    }
    out
}

fn edge_rings(s: &Segment, tol: f64) -> Vec<Ring> {
    let plain = |r: f64, z: f64| Ring { r, z, n: chords(r, tol), half: false };
    if s.bulge() == 0.0 {
        return vec![plain(s.from.x, s.from.y), plain(s.to.x, s.to.y)];
    }
    let rows = most_rows(s, tol);
    let plans = (1..=rows).flat_map(|m| [uneven(s, m, tol), staggered(s, m, tol)]);
    plans.flatten().min_by_key(|rings| cost(rings)).unwrap_or_default()
}

/// Triangles of the strips between rings.
fn cost(rings: &[Ring]) -> u32 {
    let edges = |r: &Ring| if r.r == 0.0 { 0 } else { r.n };
    rings.iter().zip(rings.iter().skip(1)).map(|(a, b)| edges(a) + edges(b)).sum()
}

/// No plan is better with more rows than these: a fifth of the tolerance left to the rows' own sagitta.
fn most_rows(s: &Segment, tol: f64) -> u32 {
    s.arc().map_or(1, |a| (a.sweep.abs() / (2.0 * half_step(a.radius, 0.2 * tol))).ceil().max(1.0) as u32)
}

/// Sagitta of one of `m` rows along the arc.
fn row_sagitta(s: &Segment, m: u32) -> f64 {
    s.arc().map_or(0.0, |a| sagitta(a.radius, a.sweep.abs() / f64::from(m)))
}

/// Points of the arc cut into `m` rows: (radius, height, radial share of the surface normal).
fn row_points(s: &Segment, m: u32) -> Vec<(f64, f64, f64)> {
    let Some(arc) = s.arc() else { return Vec::new() };
    (0..=m)
        .map(|k| {
            let p = s.at(f64::from(k) / f64::from(m));
            let leaning = ((p.x - arc.centre.x) / arc.radius).abs().max(0.05);
            (p.x.max(0.0), p.y, leaning)
        })
        .collect()
}

/// Each ring with its own number of chords. A facet lies below the surface by no more than the sum of the sagittas
/// along and across (half the variance of its corners in the metric of the curvatures), so the rings get what the
/// rows leave of the tolerance.
fn uneven(s: &Segment, m: u32, tol: f64) -> Option<Vec<Ring>> {
    let left = tol - row_sagitta(s, m);
    let ring = |(r, z, lean): (f64, f64, f64)| Ring { r, z, n: chords(r, (left / lean).min(r)), half: false };
    (left > 0.02 * tol).then(|| with_full_ends(row_points(s, m).into_iter().map(ring).collect(), tol))
}

/// All rings with the same number of chords, every other one turned by half a chord, so that the triangles are
/// near equal-sided in the metric of the curvatures: fewest per area. A triangle of row sagitta p and chord
/// sagitta q lies below the surface by half its squared circumradius, (4p + q)²/(16p), or by q where it is obtuse
/// (p ≤ tol/4). Solved for q: 4√(p·tol) − 4p. An even number of rows, so that both ends stand in line.
fn staggered(s: &Segment, m: u32, tol: f64) -> Option<Vec<Ring>> {
    let p = row_sagitta(s, m);
    let q = if p <= tol / 4.0 { tol } else { 4.0 * (p * tol).sqrt() - 4.0 * p };
    let points = row_points(s, m);
    if m % 2 == 1 || q <= 0.02 * tol || points.iter().any(|(r, ..)| *r == 0.0) {
        return None;
    }
    let n = points.iter().map(|(r, _, lean)| chords(*r, (q / lean).min(*r))).max()?;
    let ring = |(k, (r, z, _)): (usize, (f64, f64, f64))| Ring { r, z, n, half: k % 2 == 1 };
    Some(with_full_ends(points.into_iter().enumerate().map(ring).collect(), tol))
}

/// The rings at both ends are edges of the part: there the whole sagitta counts.
fn with_full_ends(mut rings: Vec<Ring>, tol: f64) -> Vec<Ring> {
    let last = rings.len().saturating_sub(1);
    for (k, ring) in rings.iter_mut().enumerate() {
        if k == 0 || k == last {
            ring.n = ring.n.max(chords(ring.r, tol));
        }
    }
    rings
}

/// Rings nearer than two tolerances get the same number of chords and stand in line: chords of unequal rings would
/// cross there. So do the two ends of each edge that `must_match`.
#[allow(clippy::indexing_slicing, reason = "indices are taken modulo the length")]
pub(crate) fn match_near(rings: &mut [Ring], closed: bool, tol: f64, must_match: impl Fn(&Ring, &Ring) -> bool) {
    let n = rings.len();
    let pairs = if closed { n } else { n.saturating_sub(1) };
    loop {
        let before = rings.to_vec();
        for k in 0..pairs {
            let (a, b) = (rings[k], rings[(k + 1) % n]);
            let near = (a.r - b.r).hypot_mm(a.z - b.z) < 2.0 * tol || must_match(&a, &b);
            if near && a.r > 0.0 && b.r > 0.0 {
                let most = a.n.max(b.n);
                rings[k].n = most;
                rings[(k + 1) % n].n = most;
            }
        }
        if before == rings {
            return;
        }
    }
}
