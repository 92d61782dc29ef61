//! The mesh of a turned part: rings along the profile, strips between them, walls with cross holes apart.

use super::profile::{match_near, rings};
use super::radial::{self};
use super::ring::{Placed, Ring, disc, strip};
use super::{Mesh, MeshError, finer};
use crate::shape::{Point, Segment, Turned, meeting};

pub(super) fn mesh(turned: &Turned, tol: f64) -> Result<Mesh, MeshError> {
    let tol = tol.min(0.45 * thinnest(turned.profile().segments()));
    // A profile of an arc and its chord shrinks to nothing at a coarse tolerance.
    let rounded = |tol: f64| Some((tol, plan(turned, tol))).filter(|(_, plan)| plan.len() > 2);
    let (tol, plan) = finer(tol, rounded).ok_or(MeshError::TooThin)?;
    let phase = radial::phase(turned, &plan);
    let mut mesh = Mesh::default();
    let placed: Vec<Placed> = plan.iter().map(|ring| place(&mut mesh, &plan, ring, phase)).collect();
    let walls = radial::sides(turned);
    for (a, b) in placed.iter().zip(placed.iter().cycle().skip(1)) {
        if !walls.iter().any(|side| side.spans(&a.ring, &b.ring)) {
            face(&mut mesh, a, b);
        }
    }
    radial::walls(&mut mesh, turned, &placed, phase, tol).ok_or(MeshError::TooThin)?;
    Ok(mesh)
}

/// A ring's points; the middle of a flat disc gets none.
fn place(mesh: &mut Mesh, plan: &[Ring], ring: &Ring, phase: f64) -> Placed {
    let next = plan.iter().cycle().skip(1);
    let tips = |(a, b): (&Ring, &Ring)| (a == ring && b.r > 0.0 || b == ring && a.r > 0.0) && a.z != b.z;
    let used = ring.r > 0.0 || plan.iter().zip(next).any(tips);
    let points = if used { ring.place(mesh, Point::ORIGIN, phase) } else { Vec::new() };
    Placed { ring: *ring, points }
}

/// Smallest distance between profile edges at least three places apart: a thin wall needs finer chords, a small
/// chamfer does not.
pub(super) fn thinnest(profile: &[Segment]) -> f64 {
    let n = profile.len();
    let far = |i: usize, j: usize| j - i > 2 && n - (j - i) > 2;
    let pairs = profile.iter().enumerate().flat_map(|(i, a)| {
        profile
            .iter()
            .enumerate()
            .skip(i + 1)
            .filter(move |(j, _)| far(i, *j))
            .map(move |(_, b)| meeting::distance(a, b))
    });
    pairs.fold(f64::INFINITY, f64::min)
}

fn plan(turned: &Turned, tol: f64) -> Vec<Ring> {
    let mut plan = rings(turned.profile().segments(), true, tol);
    let walls = radial::sides(turned);
    match_near(&mut plan, true, tol, |a, b| walls.iter().any(|side| side.spans(a, b)));
    plan
}

/// One plain face of the profile.
fn face(mesh: &mut Mesh, a: &Placed, b: &Placed) {
    match (a.ring.r == 0.0, b.ring.r == 0.0) {
        (true, true) => {}
        (true, false) if a.ring.z == b.ring.z => disc(mesh, &b.points, false),
        (false, true) if a.ring.z == b.ring.z => disc(mesh, &a.points, true),
        _ => strip(mesh, a, b),
    }
}
