//! How far the frame may wander without rising: the extent of the set of lowest poses.
//!
//! At a lowest pose every seat that carries fixes part of the motion: all round, all three of its
//! freedoms; on one flank, the motion off that flank and across it. What is left is a flat set,
//! bounded by the other seats; its extent is found with the same cone programme on that set, and its middle stands for it.
#![allow(clippy::indexing_slicing, reason = "indices run over fixed array sizes")]

use super::cone_program::{Block, Outcome, Program, Row, Vec3, Workspace, tail};
use super::outcome::Wander;
use super::polish::{Solution, Touch, flank_gradient};
use super::scaled::Scaled;
use super::small::{FREEDOMS, Mat6, Vec6, add_scaled, add_square, dot, factor, null_directions, solve};
use crate::units::{Angle, Length};

/// Multipliers above this (scaled: share of the load) count as carrying.
const CARRIES: f64 = 1e-8;

/// A row in the coordinates along the directions of `basis`.
fn onto(row: &Vec6, basis: &[Vec6]) -> Vec6 {
    std::array::from_fn(|k| basis.get(k).map_or(0.0, |b| dot(row, b)))
}

/// Least and greatest dx, dy and yaw over the lowest poses.
pub(super) fn wander(scaled: &Scaled, solution: &Solution, work: &mut Workspace) -> Wander {
    let basis = free_motions(&scaled.program, solution);
    let [fx, fy, turn] = scaled.plan_functions();
    let at = |f: &Vec6| dot(f, &solution.x);
    let mut face = restricted(&scaled.program, solution, &basis);
    // A slot stops the motion at its ends, also one that carries nothing and could still climb there.
    for row in scaled.between_ends() {
        let along = onto(&row.row, &basis);
        face.rows.push(Row { row: along, shift: row.at(&solution.x).max(0.0) });
    }
    let mut ends = |f: &Vec6| {
        let along = onto(f, &basis);
        if basis.is_empty() || super::small::largest(&along) < 1e-12 * super::small::largest(f) {
            return (Some(at(f)), Some(at(f)));
        }
        let low = lowest(&mut face, &along, work).map(|v| at(f) + v);
        let high = lowest(&mut face, &along.map(|v| -v), work).map(|v| at(f) - v);
        (low, high)
    };
    let mm = |(a, b): (Option<f64>, Option<f64>)| (a.map(Length::mm), b.map(Length::mm));
    let (dx, dy) = (mm(ends(&fx)), mm(ends(&fy)));
    let (low, high) = ends(&turn);
    Wander { dx, dy, yaw: (low.map(Angle::radians), high.map(Angle::radians)), freedoms: basis.len() }
}

/// What the seats that carry leave free, in the answers of one set of touching constraints.
#[derive(Clone, PartialEq, Debug)]
pub(super) enum Free {
    /// Nothing but motions that no seat feels at all.
    Nothing,
    /// These motions, which do not turn with the pose.
    Along(Vec<Vec6>),
    /// Some, along a flank: they turn with the pose.
    Curved,
}

/// What is free at a lowest pose.
pub(super) fn free(p: &Program, solution: &Solution) -> Free {
    let basis = free_motions(p, solution);
    if basis.len() <= p.free.len() {
        return Free::Nothing;
    }
    if solution.blocks.contains(&Touch::Flank) { Free::Curved } else { Free::Along(basis) }
}

/// Most Newton steps to the middle; from a neighbouring case it takes about six.
const TO_THE_MIDDLE: usize = 40;

/// Edges that come in by no more than this share in a step do not meet: the set is empty.
const STUCK: f64 = 0.95;

/// Takes the pose to the middle of where it may lie without rising: the analytic centre of the flat set, where the product
/// of its distances from all other constraints is greatest (Boyd, Vandenberghe, Convex Optimization, 2004, section 8.5.3).
/// From outside the set the edges are first moved outward past the pose, then drawn in again. `false` where there is no middle:
/// an empty set, or one without an end.
pub(super) fn centre(p: &Program, solution: &mut Solution, basis: &[Vec6]) -> bool {
    let edges = Edges::of(p, solution, basis);
    let mut along = [0.0; FREEDOMS];
    let found = edges.middle(&mut along);
    along.iter().zip(basis).for_each(|(k, b)| add_scaled(&mut solution.x, *k, b));
    found
}

/// What does not touch, seen along the free motions: where it stands, and its rows along them.
struct Edges {
    blocks: Vec<(Vec3, [Vec6; 3])>,
    rows: Vec<(f64, Vec6)>,
    motions: usize,
}

impl Edges {
    fn of(p: &Program, solution: &Solution, basis: &[Vec6]) -> Self {
        let blocks = p.blocks.iter().zip(&solution.blocks).filter(|(_, touch)| **touch == Touch::Off);
        let rows = p.rows.iter().zip(&solution.rows).filter(|(_, touches)| !**touches);
        Self {
            blocks: blocks.map(|(b, _)| (b.at(&solution.x), b.rows.each_ref().map(|row| onto(row, basis)))).collect(),
            rows: rows.map(|(r, _)| (r.at(&solution.x), onto(&r.row, basis))).collect(),
            motions: basis.len(),
        }
    }

    /// Moves by Newton's method to the middle; `false` where there is none.
    fn middle(&self, along: &mut Vec6) -> bool {
        let mut out = self.moved_out(along);
        for _ in 0..TO_THE_MIDDLE {
            let Some(mut f) = Barrier::at(self, along, out) else { return false };
            if !factor(&mut f.curvature) {
                return false;
            }
            let step = solve(&f.curvature, &f.slope.map(|v| -v));
            let decrement = -dot(&step, &f.slope);
            // Inside a Newton decrement of a quarter full steps converge squarely; farther out this length stays in the set.
            let length = if decrement < 1.0 / 16.0 { 1.0 } else { 1.0 / (1.0 + decrement.sqrt()) };
            step.iter().take(self.motions).zip(along.iter_mut()).for_each(|(by, at)| *at += length * by);
            if out > 0.0 {
                let before = std::mem::replace(&mut out, self.moved_out(along));
                if out > STUCK * before {
                    return false;
                }
            } else if decrement < 1e-18 {
                return true;
            }
        }
        false
    }

    /// The blocks and rows at that place.
    fn blocks_at(&self, along: &Vec6) -> impl Iterator<Item = (Vec3, &[Vec6; 3])> {
        self.blocks.iter().map(|(at, rows)| {
            let moved = |i: usize| at[i] + dot(&rows[i], along);
            ([moved(0), moved(1), moved(2)], rows)
        })
    }

    fn rows_at(&self, along: &Vec6) -> impl Iterator<Item = (f64, &Vec6)> {
        self.rows.iter().map(|(at, row)| (at + dot(row, along), row))
    }

    /// How far the edges have to be moved outward for the place to lie well inside them; nought where it does.
    fn moved_out(&self, along: &Vec6) -> f64 {
        let blocks = self.blocks_at(along).map(|(s, _)| s[0] - tail(&s));
        let least = blocks.chain(self.rows_at(along).map(|(s, _)| s)).fold(f64::INFINITY, f64::min);
        if least > 0.0 { 0.0 } else { 1e-3 - 4.0 * least }
    }
}

/// Slope and curvature of −Σ log of the distances, along the free motions.
#[derive(Default)]
struct Barrier {
    slope: Vec6,
    curvature: Mat6,
}

impl Barrier {
    /// At a place along the free motions, all edges moved outward by `out`; `None` on or outside an edge.
    fn at(edges: &Edges, along: &Vec6, out: f64) -> Option<Self> {
        let mut made = Self::default();
        for (mut s, rows) in edges.blocks_at(along) {
            s[0] += out;
            let room = s[0] * s[0] - s[1] * s[1] - s[2] * s[2];
            if s[0] <= 0.0 || room <= 0.0 {
                return None;
            }
            // Slope of the room s0² − s1² − s2² along the motions; its curvature is 2 (g0 g0 − g1 g1 − g2 g2).
            let mut slope = [0.0; FREEDOMS];
            for (sign, (value, row)) in [2.0, -2.0, -2.0].into_iter().zip(s.iter().zip(rows)) {
                add_scaled(&mut slope, sign * value, row);
                add_square(&mut made.curvature, -sign / room, row);
            }
            add_scaled(&mut made.slope, -1.0 / room, &slope);
            add_square(&mut made.curvature, 1.0 / (room * room), &slope);
        }
        for (s, row) in edges.rows_at(along) {
            let s = s + out;
            if s <= 0.0 {
                return None;
            }
            add_scaled(&mut made.slope, -1.0 / s, row);
            add_square(&mut made.curvature, 1.0 / (s * s), row);
        }
        made.hold_the_rest(edges.motions);
        Some(made)
    }

    /// Motions past the last, and those that nothing stops, stay where they are.
    fn hold_the_rest(&mut self, motions: usize) {
        let greatest = (0..FREEDOMS).map(|i| self.curvature[i][i]).fold(f64::MIN_POSITIVE, f64::max);
        for (i, row) in self.curvature.iter_mut().enumerate() {
            row[i] += if i < motions { 1e-13 * greatest } else { greatest };
        }
    }
}

/// Motions that no carrying seat forbids.
fn free_motions(p: &Program, s: &Solution) -> Vec<Vec6> {
    let mut held = [[0.0; FREEDOMS]; FREEDOMS];
    for (b, (touch, z)) in p.blocks.iter().zip(s.blocks.iter().zip(&s.block_z)) {
        if z[0] <= CARRIES {
            continue;
        }
        match (touch, flank_gradient(b, &b.at(&s.x))) {
            (Touch::Apex, _) => b.rows.iter().for_each(|row| add_square(&mut held, 1.0, row)),
            (Touch::Flank, Some((omega, gradient))) => {
                let mut across = [0.0; FREEDOMS];
                b.add_back(&mut across, 1.0, &[0.0, -omega[1], omega[0]]);
                add_square(&mut held, 1.0, &gradient);
                add_square(&mut held, 1.0, &across);
            }
            _ => {}
        }
    }
    // Before an answer is sharpened also what does not touch has a trace of load.
    let carries = p.rows.iter().zip(s.row_z.iter().zip(&s.rows)).filter(|(_, (z, touches))| **touches && **z > CARRIES);
    carries.for_each(|(r, _)| add_square(&mut held, 1.0, &r.row));
    null_directions(&held, 1e-13)
}

/// The programme over the free motions: coordinates along `basis`, from the solution.
fn restricted(p: &Program, s: &Solution, basis: &[Vec6]) -> Program {
    let onto = |row: &Vec6| onto(row, basis);
    let mut face = Program::default();
    for (b, (touch, z)) in p.blocks.iter().zip(s.blocks.iter().zip(&s.block_z)) {
        let at = b.at(&s.x);
        match (touch, z[0] > CARRIES) {
            (Touch::Apex, true) => {}
            (Touch::Flank, true) => face.rows.push(stays_on_flank(b, &at, onto)),
            _ => face.blocks.push(Block { rows: [onto(&b.rows[0]), onto(&b.rows[1]), onto(&b.rows[2])], shift: at }),
        }
    }
    for (r, _) in p.rows.iter().zip(&s.row_z).filter(|(_, z)| **z <= CARRIES) {
        face.rows.push(Row { row: onto(&r.row), shift: r.at(&s.x) });
    }
    face
}

/// The offset on a carrying flank must not change sides.
fn stays_on_flank(b: &Block, at: &Vec3, onto: impl Fn(&Vec6) -> Vec6) -> Row {
    let length = tail(at);
    let mut outward = [0.0; FREEDOMS];
    b.add_back(&mut outward, 1.0 / length, &[0.0, at[1], at[2]]);
    Row { row: onto(&outward), shift: length }
}

/// Lowest value of `along` on the face, or `None` if there is none.
fn lowest(face: &mut Program, along: &Vec6, work: &mut Workspace) -> Option<f64> {
    let size = super::small::largest(along);
    face.cost = along.map(|v| v / size);
    face.free_directions().ok()?;
    match work.run(face, 1e-9) {
        Outcome::Lowest => Some(dot(along, &work.x)),
        Outcome::Infeasible => Some(0.0),
        Outcome::Unbounded | Outcome::Stalled => None,
    }
}
