//! From a nearly exact lowest point to an exact one: which constraints touch, and Newton's method on them.
//!
//! Proximal method of multipliers on the touching constraints (Rockafellar, Mathematics of Operations
//! Research 1 (1976) 97-116): 6 by 6 systems again, indifferent to doubled constraints, and its cost grows
//! in proportion to the number of seats. The same step started from a neighbouring case serves as warm start.
#![allow(clippy::indexing_slicing, reason = "the lists are sized together with the programme")]

use super::cone_program::{Block, Program, Vec3, Workspace, tail};
use super::small::{FREEDOMS, Vec6, add_scaled, add_square, factor, largest, solve};

/// How a cone constraint touches.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(super) enum Touch {
    /// Not at all.
    #[default]
    Off,
    /// On its surface: one flank.
    Flank,
    /// At its apex: seated all round.
    Apex,
}

/// A point, its multipliers and what touches there.
#[derive(Clone, Debug, Default)]
pub(super) struct Solution {
    pub x: Vec6,
    pub block_z: Vec<Vec3>,
    pub row_z: Vec<f64>,
    pub blocks: Vec<Touch>,
    pub rows: Vec<bool>,
}

/// Newton steps from a nearly exact point.
pub(super) const FROM_NEAR: usize = 12;
/// Newton steps from a neighbouring case: more do not pay.
pub(super) const FROM_NEIGHBOUR: usize = 5;
const PENALTY: f64 = 1e5;
const PROXIMITY: f64 = 1e-9;
/// Largest violation of an optimality condition in an accepted answer (scaled units).
const ACCEPTED: f64 = 1e-9;

impl Solution {
    /// Reads the touching constraints off an interior-point answer.
    pub(super) fn read(&mut self, w: &Workspace) {
        self.x = w.x;
        self.block_z.clone_from(&w.block_z);
        self.row_z.clone_from(&w.row_z);
        self.blocks.clear();
        self.blocks.extend(w.block_s.iter().zip(&w.block_z).map(|(s, z)| classify(s, z)));
        self.rows.clear();
        self.rows.extend(w.row_s.iter().zip(&w.row_z).map(|(s, z)| z > s));
    }

    /// Sharpens the point in place; `false` if the touching set proved wrong.
    pub(super) fn sharpen(&mut self, p: &Program, steps: usize) -> bool {
        self.approach(p, steps, &[]) && self.holds(p)
    }

    /// The point at which the touching constraints touch, without a move along the directions `held`: those that they leave
    /// free, where rounding alone would decide. Whether all conditions hold there is not looked at.
    pub(super) fn approach(&mut self, p: &Program, steps: usize, held: &[Vec6]) -> bool {
        self.clear_inactive();
        for _ in 0..steps {
            let Some(moved) = self.newton(p, held) else { return false };
            if moved < 1e-12 {
                break;
            }
        }
        true
    }

    fn clear_inactive(&mut self) {
        for (z, touch) in self.block_z.iter_mut().zip(&self.blocks) {
            if *touch == Touch::Off {
                *z = [0.0; 3];
            }
        }
        for (z, touch) in self.row_z.iter_mut().zip(&self.rows) {
            if !touch {
                *z = 0.0;
            }
        }
    }

    /// One step; gives the largest movement.
    fn newton(&mut self, p: &Program, held: &[Vec6]) -> Option<f64> {
        let mut m = [[0.0; FREEDOMS]; FREEDOMS];
        let mut rhs = p.cost.map(|c| -c);
        for (i, b) in p.blocks.iter().enumerate() {
            match self.blocks[i] {
                Touch::Off => {}
                Touch::Flank => add_flank(b, &self.x, &self.block_z[i], &mut m, &mut rhs)?,
                Touch::Apex => add_apex(b, &self.x, &self.block_z[i], &mut m, &mut rhs),
            }
        }
        for (i, r) in p.rows.iter().enumerate().filter(|(i, _)| self.rows[*i]) {
            add_square(&mut m, PENALTY, &r.row);
            add_scaled(&mut rhs, self.row_z[i] - PENALTY * r.at(&self.x), &r.row);
        }
        held.iter().for_each(|direction| add_square(&mut m, PENALTY, direction));
        for (i, row) in m.iter_mut().enumerate() {
            row[i] += PROXIMITY;
        }
        factor(&mut m).then(|| self.take(p, &solve(&m, &rhs)))
    }

    /// Moves by `d` and updates the multipliers.
    fn take(&mut self, p: &Program, d: &Vec6) -> f64 {
        let mut moved = largest(d);
        for (i, b) in p.blocks.iter().enumerate() {
            let (s, ds) = (b.at(&self.x), b.map(d));
            let z = &mut self.block_z[i];
            match self.blocks[i] {
                Touch::Off => {}
                Touch::Flank => {
                    let t = tail(&s);
                    let grown = s[0] - t + ds[0] - (s[1] * ds[1] + s[2] * ds[2]) / t;
                    let head = z[0] - PENALTY * grown;
                    moved = moved.max(PENALTY * grown.abs());
                    let next = [s[1] + ds[1], s[2] + ds[2]];
                    let length = (next[0] * next[0] + next[1] * next[1]).sqrt();
                    *z = [head, -head * next[0] / length, -head * next[1] / length];
                }
                Touch::Apex => {
                    for k in 0..3 {
                        let change = PENALTY * (s[k] + ds[k]);
                        z[k] -= change;
                        moved = moved.max(change.abs());
                    }
                }
            }
        }
        for (i, r) in p.rows.iter().enumerate().filter(|(i, _)| self.rows[*i]) {
            let change = PENALTY * (r.at(&self.x) + super::small::dot(&r.row, d));
            self.row_z[i] -= change;
            moved = moved.max(change.abs());
        }
        add_scaled(&mut self.x, 1.0, d);
        moved
    }

    /// Are all optimality conditions met?
    pub(super) fn holds(&self, p: &Program) -> bool {
        self.presses(p) && self.lies_within(p)
    }

    /// Does every touching constraint touch and press, and do all together balance the load?
    pub(super) fn presses(&self, p: &Program) -> bool {
        let mut balance = p.cost.map(|c| -c);
        for (i, b) in p.blocks.iter().enumerate() {
            let (s, z) = (b.at(&self.x), &self.block_z[i]);
            let presses = match self.blocks[i] {
                Touch::Off => continue,
                Touch::Flank => z[0] >= -ACCEPTED && (s[0] - tail(&s)).abs() <= ACCEPTED && s[0] > -ACCEPTED,
                Touch::Apex => z[0] - tail(z) >= -ACCEPTED && largest(&s) <= ACCEPTED,
            };
            if !presses {
                return false;
            }
            b.add_back(&mut balance, 1.0, z);
        }
        for (i, r) in p.rows.iter().enumerate().filter(|(i, _)| self.rows[*i]) {
            if self.row_z[i] < -ACCEPTED || r.at(&self.x).abs() > ACCEPTED {
                return false;
            }
            add_scaled(&mut balance, self.row_z[i], &r.row);
        }
        largest(&balance) <= ACCEPTED && self.x.iter().all(|v| v.is_finite())
    }

    /// Is every constraint that does not touch obeyed?
    fn lies_within(&self, p: &Program) -> bool {
        let mut blocks = p.blocks.iter().zip(&self.blocks).filter(|(_, touch)| **touch == Touch::Off);
        let mut rows = p.rows.iter().zip(&self.rows).filter(|(_, touches)| !**touches);
        let within = |s: &Vec3| s[0] - tail(s) >= -ACCEPTED;
        blocks.all(|(b, _)| within(&b.at(&self.x))) && rows.all(|(r, _)| r.at(&self.x) >= -ACCEPTED)
    }
}

/// Complementary pairs: the larger of the two margins tells.
fn classify(s: &Vec3, z: &Vec3) -> Touch {
    if s[0] - tail(s) > z[0] {
        Touch::Off
    } else if z[0] - tail(z) > s[0] {
        Touch::Apex
    } else {
        Touch::Flank
    }
}

/// Unit gradient direction of |s1| and the gradient of s0 − |s1|.
pub(super) fn flank_gradient(b: &Block, s: &Vec3) -> Option<([f64; 2], Vec6)> {
    let t = tail(s);
    if t.is_nan() || t <= f64::MIN_POSITIVE {
        return None;
    }
    let omega = [s[1] / t, s[2] / t];
    let mut gradient = [0.0; FREEDOMS];
    b.add_back(&mut gradient, 1.0, &[1.0, -omega[0], -omega[1]]);
    Some((omega, gradient))
}

fn add_flank(b: &Block, x: &Vec6, z: &Vec3, m: &mut [Vec6; FREEDOMS], rhs: &mut Vec6) -> Option<()> {
    let s = b.at(x);
    let (omega, gradient) = flank_gradient(b, &s)?;
    add_square(m, PENALTY, &gradient);
    add_scaled(rhs, z[0] - PENALTY * (s[0] - tail(&s)), &gradient);
    let mut across = [0.0; FREEDOMS];
    b.add_back(&mut across, 1.0, &[0.0, -omega[1], omega[0]]);
    add_square(m, z[0].max(0.0) / tail(&s), &across);
    Some(())
}

fn add_apex(b: &Block, x: &Vec6, z: &Vec3, m: &mut [Vec6; FREEDOMS], rhs: &mut Vec6) {
    let s = b.at(x);
    for k in 0..3 {
        add_square(m, PENALTY, &b.rows[k]);
        add_scaled(rhs, z[k] - PENALTY * s[k], &b.rows[k]);
    }
}
