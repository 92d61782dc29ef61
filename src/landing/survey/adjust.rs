//! Gauss-Newton adjustment of a network from several starts.
#![allow(clippy::indexing_slicing, reason = "point numbers come from the list of names, unknowns from their count")]

use super::start::{Point, place_from, table};
use super::{Line, Network, Side, SurveyError};

/// A settled adjustment.
#[derive(Clone, Debug)]
pub(super) struct Settled {
    pub at: Vec<Point>,
    /// Σ (v/σ)².
    pub cost: f64,
    /// (JᵀPJ)⁻¹ over the unknowns.
    pub cofactor: Vec<Vec<f64>>,
}

/// Column of the unknown x (k = 0) or y (k = 1) of a point; the first point and the y of the second are held.
pub(super) fn column(point: usize, k: usize) -> Option<usize> {
    match (point, k) {
        (0, _) | (1, 1) => None,
        (1, _) => Some(0),
        _ => Some(2 * point - 3 + k),
    }
}

/// The row of a line: up to four entries.
pub(super) fn gradient(line: &Line, at: &[Point]) -> ([(usize, f64); 4], usize, f64) {
    let (p, q) = (at[line.a], at[line.b]);
    let d = [q[0] - p[0], q[1] - p[1]];
    let length = libm::hypot(d[0], d[1]).max(f64::MIN_POSITIVE);
    let (mut entries, mut count) = ([(0, 0.0); 4], 0);
    for (point, sign) in [(line.a, -1.0), (line.b, 1.0)] {
        for (k, part) in d.iter().enumerate() {
            if let Some(c) = column(point, k) {
                entries[count] = (c, sign * part / length);
                count += 1;
            }
        }
    }
    (entries, count, length)
}

/// Best adjustment over all starts.
pub(super) fn best_of_starts(network: &Network, lines: &[Line]) -> Result<Settled, SurveyError> {
    let n = network.points.len();
    let mut found: Vec<Settled> = Vec::new();
    for start in starts(network, lines) {
        found.extend(settle(orient(start, network.third), lines));
    }
    found.sort_by(|a, b| a.cost.total_cmp(&b.cost));
    let best = found.first().cloned().ok_or(SurveyError::NotRigid)?;
    if let Some(rough) = complete_rough(network) {
        return Ok(nearest_to(&rough, &found).unwrap_or(best));
    }
    let same = |s: &&Settled| s.cost - best.cost < 1e-6 * (1.0 + best.cost);
    let apart = |s: &Settled, i: usize| libm::hypot(s.at[i][0] - best.at[i][0], s.at[i][1] - best.at[i][1]);
    let sigma = lines.iter().map(|l| l.sigma).fold(0.0, f64::max);
    match found.iter().filter(same).find_map(|s| (0..n).find(|i| apart(s, *i) > sigma)) {
        Some(i) => Err(SurveyError::EitherSide(network.points[i].clone())),
        None => Ok(best),
    }
}

/// All rough positions, if every point has one.
fn complete_rough(network: &Network) -> Option<Vec<Point>> {
    if network.rough.len() != network.points.len() {
        return None;
    }
    network.rough.iter().map(|p| p.filter(|p| p.is_finite()).map(super::super::model::Plan::pair)).collect()
}

/// Of the equally good answers the one nearest to the rough positions.
fn nearest_to(rough: &[Point], found: &[Settled]) -> Option<Settled> {
    let best = found.first()?.cost;
    let off = |s: &Settled| s.at.iter().zip(rough).map(|(p, q)| libm::hypot(p[0] - q[0], p[1] - q[1])).sum::<f64>();
    let good = found.iter().filter(|s| s.cost - best < 1e-6 * (1.0 + best));
    good.min_by(|a, b| off(a).total_cmp(&off(b))).cloned()
}

/// Starts from up to sixteen base lines and all free choices of side (up to 64 together per base line).
fn starts(network: &Network, lines: &[Line]) -> Vec<Vec<Point>> {
    let t = table(network.points.len(), lines);
    let mut bases: Vec<(usize, usize)> = lines.iter().map(|l| (l.a.min(l.b), l.a.max(l.b))).collect();
    bases.sort_unstable();
    bases.dedup();
    let stride = bases.len().div_ceil(16).max(1);
    let mut all: Vec<Vec<Point>> = complete_rough(network).into_iter().collect();
    for (a, b) in bases.into_iter().step_by(stride) {
        let Some((first, asked)) = place_from(&t, a, b, 0) else { continue };
        all.push(first);
        // the first free choice is the mirror image, which the stated side settles
        for choices in 1..(1_u32 << asked.saturating_sub(1).min(6)) {
            all.extend(place_from(&t, a, b, choices << 1).map(|(at, _)| at));
        }
    }
    all
}

/// Moves the first point to the origin, the second onto +x and the third to its side.
fn orient(at: Vec<Point>, side: Side) -> Vec<Point> {
    let o = at[0];
    let d = [at[1][0] - o[0], at[1][1] - o[1]];
    let length = libm::hypot(d[0], d[1]).max(f64::MIN_POSITIVE);
    let (c, s) = (d[0] / length, d[1] / length);
    let turn = |p: &Point| {
        let (x, y) = (p[0] - o[0], p[1] - o[1]);
        [x * c + y * s, y * c - x * s]
    };
    let mut turned: Vec<Point> = at.iter().map(turn).collect();
    let wrong = turned.get(2).is_some_and(|p| (p[1] < 0.0) == (side == Side::Left));
    if wrong {
        turned.iter_mut().for_each(|p| p[1] = -p[1]);
    }
    turned
}

/// Gauss-Newton with step halving.
fn settle(mut at: Vec<Point>, lines: &[Line]) -> Option<Settled> {
    let unknowns = 2 * at.len() - 3;
    let mut cost = cost_of(&at, lines);
    for _ in 0..60 {
        let (normal, rhs) = normal_equations(&at, lines, unknowns);
        let step = solve(cholesky(normal)?, rhs);
        let mut k = 1.0;
        let (next, next_cost) = loop {
            let moved = moved_by(&at, &step, k);
            let c = cost_of(&moved, lines);
            if c <= cost || k < 1e-6 {
                break (moved, c);
            }
            k *= 0.5;
        };
        let small = step.iter().all(|s| s.abs() < 1e-10 * (1.0 + libm::sqrt(cost)) * 1e2);
        let done = next_cost >= cost && k < 1e-6;
        if !done {
            (at, cost) = (next, next_cost);
        }
        if small || done {
            break;
        }
    }
    let (normal, _) = normal_equations(&at, lines, unknowns);
    let factor = cholesky(normal)?;
    let unit = |j: usize| (0..unknowns).map(|i| if i == j { 1.0 } else { 0.0 }).collect();
    let cofactor = (0..unknowns).map(|j| solve(factor.clone(), unit(j))).collect();
    cost.is_finite().then_some(Settled { at, cost, cofactor })
}

fn cost_of(at: &[Point], lines: &[Line]) -> f64 {
    let one = |l: &Line| {
        let v = (libm::hypot(at[l.b][0] - at[l.a][0], at[l.b][1] - at[l.a][1]) - l.length) / l.sigma;
        v * v
    };
    lines.iter().map(one).sum()
}

fn moved_by(at: &[Point], step: &[f64], k: f64) -> Vec<Point> {
    let shift = |i: usize, axis: usize| column(i, axis).map_or(0.0, |c| k * step[c]);
    at.iter().enumerate().map(|(i, p)| [p[0] + shift(i, 0), p[1] + shift(i, 1)]).collect()
}

fn normal_equations(at: &[Point], lines: &[Line], unknowns: usize) -> (Vec<Vec<f64>>, Vec<f64>) {
    let (mut m, mut rhs) = (vec![vec![0.0; unknowns]; unknowns], vec![0.0; unknowns]);
    for l in lines {
        let (entries, count, length) = gradient(l, at);
        let w = 1.0 / (l.sigma * l.sigma);
        for (i, a) in &entries[..count] {
            rhs[*i] += w * a * (l.length - length);
            for (j, b) in &entries[..count] {
                m[*i][*j] += w * a * b;
            }
        }
    }
    (m, rhs)
}

/// Lower Cholesky factor; `None` if the network can move (a pivot is lost).
fn cholesky(mut m: Vec<Vec<f64>>) -> Option<Vec<Vec<f64>>> {
    let largest = m.iter().enumerate().map(|(i, r)| r[i]).fold(0.0, f64::max);
    for j in 0..m.len() {
        for i in j..m.len() {
            let sum: f64 = (0..j).map(|k| m[i][k] * m[j][k]).sum();
            let v = m[i][j] - sum;
            if i > j {
                m[i][j] = v / m[j][j];
            } else if v.is_nan() || v <= 1e-10 * largest {
                return None;
            } else {
                m[j][j] = v.sqrt();
            }
        }
    }
    Some(m)
}

fn solve(l: Vec<Vec<f64>>, mut x: Vec<f64>) -> Vec<f64> {
    for i in 0..x.len() {
        let sum: f64 = (0..i).map(|k| l[i][k] * x[k]).sum();
        x[i] = (x[i] - sum) / l[i][i];
    }
    for i in (0..x.len()).rev() {
        let sum: f64 = (i + 1..x.len()).map(|k| l[k][i] * x[k]).sum();
        x[i] = (x[i] - sum) / l[i][i];
    }
    x
}
