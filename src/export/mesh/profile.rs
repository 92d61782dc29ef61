//! From the edges of a turned profile to rings: where to put them and how many chords each needs.

use super::facet;
use super::ring::{Ring, chords, half_step, sagitta};
use crate::shape::{HypotMm, Segment};

/// How many divisions of an arc are compared before the cheapest is taken; the cost is flat near its least.
const PLANS_TRIED: u32 = 24;

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
    let plain = |r: f64, z: f64| Ring { r, z, n: chords(r, tol), half: false, even: false };
    if s.bulge() == 0.0 {
        return vec![plain(s.from.x, s.from.y), plain(s.to.x, s.to.y)];
    }
    // An eighth of the radius at most, lest a small rounding lose its shape.
    let planned = s.arc().map_or(tol, |a| tol.min(a.radius / 8.0));
    let (fewest, most) = (rows(s, 0.97 * planned), rows(s, 0.2 * planned));
    let stride = ((most - fewest) / PLANS_TRIED).max(1) as usize;
    let counts = || (fewest..=most).step_by(stride);
    let one_by_one = counts().filter_map(|m| uneven(s, m, planned)).min_by_key(|rings| cost(rings));
    let together = counts().filter_map(|m| staggered(s, m + m % 2, planned)).min_by_key(|rings| cost(rings));
    let ready = |rings: Vec<Ring>| facet::tightened(s, with_full_ends(rings, tol), tol);
    one_by_one.into_iter().chain(together).map(ready).min_by_key(|rings| cost(rings)).unwrap_or_default()
}

/// Triangles of the strips between rings.
fn cost(rings: &[Ring]) -> u32 {
    let edges = |r: &Ring| if r.r == 0.0 { 0 } else { r.n };
    rings.iter().zip(rings.iter().skip(1)).map(|(a, b)| edges(a) + edges(b)).sum()
}

/// Rows that an arc must be cut into for their own sagitta to stay within `sagitta`. The best plan spends between
/// a fifth and nearly all of the tolerance on it.
fn rows(s: &Segment, sagitta: f64) -> u32 {
    s.arc().map_or(1, |a| (a.sweep.abs() / (2.0 * half_step(a.radius, sagitta))).ceil().max(1.0) as u32)
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
            (p.x.max(0.0), p.y, ((p.x - arc.centre.x) / arc.radius).abs())
        })
        .collect()
}

/// Chords of a ring on an arc of radius ρ whose surface normal has the radial share `lean`: their sagitta S reaches
/// S·lean below the surface, and S²/2ρ more for its part along the arc. S·lean + S²/2ρ = q solved for S.
fn arc_chords(r: f64, lean: f64, rho: f64, q: f64) -> u32 {
    chords(r, rho * ((lean * lean + 2.0 * q / rho).sqrt() - lean))
}

/// Each ring with its own number of chords. A facet lies below the surface by no more than the sum of the sagittas
/// along and across (half the variance of its corners in the metric of the curvatures), so the rings get what the
/// rows leave of the tolerance.
fn uneven(s: &Segment, m: u32, tol: f64) -> Option<Vec<Ring>> {
    let left = tol - row_sagitta(s, m);
    let rho = s.arc()?.radius;
    let ring =
        |(r, z, lean): (f64, f64, f64)| Ring { r, z, n: arc_chords(r, lean, rho, left), half: false, even: false };
    (left > 0.02 * tol).then(|| row_points(s, m).into_iter().map(ring).collect())
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
    let rho = s.arc()?.radius;
    let ends = [s.from.x, s.to.x].map(|r| chords(r, tol));
    let n = points.iter().map(|(r, _, lean)| arc_chords(*r, *lean, rho, q)).chain(ends).max()?;
    let ring =
        |(k, (r, z, _)): (usize, (f64, f64, f64))| Ring { r, z, n, half: k % 2 == 1, even: 0 < k && k < m as usize };
    Some(points.into_iter().enumerate().map(ring).collect())
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
/// cross there. So do the rings of an arc that are turned against each other, and the two ends of each edge that
/// `must_match`.
#[allow(clippy::indexing_slicing, reason = "indices are taken modulo the length")]
pub(crate) fn match_near(rings: &mut [Ring], closed: bool, tol: f64, must_match: impl Fn(&Ring, &Ring) -> bool) {
    let n = rings.len();
    let pairs = if closed { n } else { n.saturating_sub(1) };
    loop {
        let before = rings.to_vec();
        for k in 0..pairs {
            let (a, b) = (rings[k], rings[(k + 1) % n]);
            let same = (a.r - b.r).hypot_mm(a.z - b.z) < 2.0 * tol || a.even || b.even || must_match(&a, &b);
            if same && a.r > 0.0 && b.r > 0.0 {
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
