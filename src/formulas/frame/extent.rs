//! How far the frame may wander without rising: the extent of the set of lowest poses.
//!
//! At a lowest pose every seat that carries fixes part of the motion: all round, all three of its
//! freedoms; on one flank, the motion off that flank and across it. What is left is a flat set,
//! bounded by the other seats; its extent is found with the same cone programme on that set.

use super::cone_program::{Block, Outcome, Program, Row, Vec3, Workspace};
use super::outcome::Wander;
use super::polish::{Solution, Touch, flank_gradient};
use super::scaled::Scaled;
use super::small::{FREEDOMS, Vec6, add_square, dot, null_directions};
use crate::units::{Angle, Length};

/// Multipliers above this (scaled: share of the load) count as carrying.
const CARRIES: f64 = 1e-8;

/// Least and greatest dx, dy and yaw over the lowest poses.
pub(super) fn wander(scaled: &Scaled, solution: &Solution, work: &mut Workspace) -> Wander {
    let basis = free_motions(&scaled.program, solution);
    let [fx, fy, turn] = scaled.plan_functions();
    let at = |f: &Vec6| dot(f, &solution.x);
    let mut face = restricted(&scaled.program, solution, &basis);
    // A slot stops the motion at its ends, also one that carries nothing and could still climb there.
    for row in scaled.between_ends() {
        let along: Vec6 = std::array::from_fn(|k| basis.get(k).map_or(0.0, |b| dot(&row.row, b)));
        face.rows.push(Row { row: along, shift: row.at(&solution.x).max(0.0) });
    }
    let mut ends = |f: &Vec6| {
        let along: Vec6 = std::array::from_fn(|k| basis.get(k).map_or(0.0, |b| dot(f, b)));
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
    for (r, _) in p.rows.iter().zip(&s.row_z).filter(|(_, z)| **z > CARRIES) {
        add_square(&mut held, 1.0, &r.row);
    }
    null_directions(&held, 1e-13)
}

/// The programme over the free motions: coordinates along `basis`, from the solution.
fn restricted(p: &Program, s: &Solution, basis: &[Vec6]) -> Program {
    let onto = |row: &Vec6| -> Vec6 { std::array::from_fn(|k| basis.get(k).map_or(0.0, |b| dot(row, b))) };
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
    let length = super::cone_program::tail(at);
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
