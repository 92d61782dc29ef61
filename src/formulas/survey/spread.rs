//! How well are the places known, each and all together? Covariances of points in plan, moved from one datum to another.
#![allow(clippy::indexing_slicing, reason = "every row has as many columns as there are rows, two for each point")]

use super::matrix::{Matrix, semidefinite_factor};
use crate::formulas::frame::Plan;
use crate::units::{Angle, Length};

/// Covariance of points in plan in mm²: rows x and y of the first point, x and y of the second, and so on.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Covariance(Matrix);

impl Covariance {
    /// From its rows in mm².
    pub(super) const fn of_rows(rows: Matrix) -> Self {
        Self(rows)
    }

    /// Points that know nothing of each other, each with one sigma both ways.
    pub fn independent(sigmas: &[Length]) -> Self {
        let own = |i: usize, j: usize| if i == j { square(sigmas[i / 2].as_mm()) } else { 0.0 };
        let n = 2 * sigmas.len();
        Self((0..n).map(|i| (0..n).map(|j| own(i, j)).collect()).collect())
    }

    /// The rows in mm².
    #[allow(dead_code, reason = "tests look at it")]
    pub const fn rows(&self) -> &Matrix {
        &self.0
    }

    /// The points of that order alone.
    pub fn pick(&self, points: &[usize]) -> Self {
        let rows: Vec<usize> = points.iter().flat_map(|p| [2 * p, 2 * p + 1]).collect();
        Self(rows.iter().map(|i| rows.iter().map(|j| self.0[*i][*j]).collect()).collect())
    }

    /// Both together: variances add.
    pub fn plus(&self, other: &Self) -> Self {
        let sum = |(a, b): (&Vec<f64>, &Vec<f64>)| a.iter().zip(b).map(|(x, y)| x + y).collect();
        Self(self.0.iter().zip(&other.0).map(sum).collect())
    }

    /// Widened by steps that the places may have taken besides, each as likely as the next: the mean of d dᵀ is added (law
    /// of total variance).
    pub(super) fn widened(mut self, steps: &[Vec<[f64; 2]>]) -> Self {
        for step in steps {
            let d: Vec<f64> = step.iter().flatten().copied().collect();
            for (row, a) in self.0.iter_mut().zip(&d) {
                row.iter_mut().zip(&d).for_each(|(q, b)| *q += a * b / steps.len() as f64);
            }
        }
        self
    }

    /// All variances by one factor.
    pub(super) fn times(mut self, factor: f64) -> Self {
        self.0.iter_mut().flatten().for_each(|q| *q *= factor);
        self
    }

    /// The same after the plan was turned: R Q Rᵀ for every pair of points.
    pub fn turned(&self, yaw: Angle) -> Self {
        let (s, c) = (yaw.sin(), yaw.cos());
        let rows = |m: &Matrix| -> Matrix {
            let pair = |k: usize| {
                let (x, y) = (&m[2 * k], &m[2 * k + 1]);
                let along = x.iter().zip(y).map(|(x, y)| x * c - y * s).collect();
                [along, x.iter().zip(y).map(|(x, y)| x * s + y * c).collect()]
            };
            (0..m.len() / 2).flat_map(pair).collect()
        };
        Self(transposed(&rows(&transposed(&rows(&self.0)))))
    }

    /// Against the best rigid motion of some of the points instead of whatever was held before: S Q Sᵀ with
    /// S = I - G (Gᵀ B G)⁻¹ Gᵀ B; the columns of G are a shift along x, one along y and a small turn, B picks the points
    /// of the datum.
    /// (Baarda, S-transformations and criterion matrices, 1973; Ghilani, Adjustment Computations, free networks.)
    pub fn in_datum(&self, at: &[Plan], datum: &[usize]) -> Self {
        Self(moved_to(&transposed(&moved_to(&self.0, at, datum)), at, datum))
    }

    /// One sigma of a point, the mean of both ways.
    pub fn sigma(&self, point: usize) -> Length {
        let sum = self.0[2 * point][2 * point] + self.0[2 * point + 1][2 * point + 1];
        Length::mm((sum.max(0.0) / 2.0).sqrt())
    }

    /// Lower triangle L in mm with L Lᵀ = Q: L times independent normal numbers is one draw of all places together.
    pub fn factor(&self) -> Matrix {
        semidefinite_factor(&self.0)
    }
}

/// Small shifts of all points, less the best rigid motion of some of them: S d.
pub fn shifts_in_datum(shifts: &[Plan], at: &[Plan], datum: &[usize]) -> Vec<Plan> {
    let column: Matrix = shifts.iter().flat_map(|p| p.pair().map(|v| vec![v])).collect();
    moved_to(&column, at, datum).chunks(2).map(|p| Plan::mm(p[0][0], p[1][0])).collect()
}

/// S times columns that have two rows for each point.
fn moved_to(of: &Matrix, at: &[Plan], datum: &[usize]) -> Matrix {
    let count = datum.len().max(1) as f64;
    let centre = datum.iter().fold([0.0, 0.0], |sum, i| {
        let [x, y] = at[*i].pair();
        [sum[0] + x / count, sum[1] + y / count]
    });
    let arm = |i: usize| {
        let [x, y] = at[i].pair();
        [x - centre[0], y - centre[1]]
    };
    let size: f64 = datum.iter().map(|i| square(arm(*i)[0]) + square(arm(*i)[1])).sum();
    let mut out = of.clone();
    for column in 0..of.first().map_or(0, Vec::len) {
        let q = |i: usize, k: usize| of[2 * i + k][column];
        let shift = [0, 1].map(|k| datum.iter().map(|i| q(*i, k)).sum::<f64>() / count);
        let moment: f64 = datum.iter().map(|i| arm(*i)[0] * q(*i, 1) - arm(*i)[1] * q(*i, 0)).sum();
        let turn = if size > 0.0 { moment / size } else { 0.0 };
        for i in 0..at.len() {
            out[2 * i][column] -= shift[0] - turn * arm(i)[1];
            out[2 * i + 1][column] -= shift[1] + turn * arm(i)[0];
        }
    }
    out
}

fn square(x: f64) -> f64 {
    x * x
}

fn transposed(m: &Matrix) -> Matrix {
    (0..m.len()).map(|j| m.iter().map(|row| row[j]).collect()).collect()
}
