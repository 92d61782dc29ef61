//! Gauss-Newton adjustment of a network from several starts.
#![allow(clippy::indexing_slicing, reason = "point numbers come from the list of names, unknowns from their count")]

use super::matrix::{Matrix, cholesky, inverse, solve};
use super::start::{Point, Table, place_from, table};
use super::{Line, Network, Side, SurveyError};

/// A settled adjustment.
#[derive(Clone, Debug)]
pub(super) struct Settled {
    pub at: Vec<Point>,
    /// Σ (v/σ)².
    pub cost: f64,
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

/// Base lines from which the places are begun.
const BASES: usize = 16;
/// Starts of one base line that are adjusted: those whose readings fit best as they are placed.
const TRIED: usize = 8;
/// Free choices of side that are tried both ways, so many bits.
const CHOICES: u32 = 6;
/// Readings that fit this badly may have settled in a wrong place: every base line is tried.
const DOUBTFUL: f64 = 3.0;

/// Best adjustment over all starts; two base lines that come to the same, well fitting, places are enough.
pub(super) fn best_of_starts(network: &Network, lines: &[Line]) -> Result<Settled, SurveyError> {
    pick(network, lines, &all_of_starts(network, lines))
}

/// Every adjustment that was begun, the best first.
pub(super) fn all_of_starts(network: &Network, lines: &[Line]) -> Vec<Settled> {
    let rough = complete_rough(network);
    let mut found: Vec<Settled> = rough.iter().filter_map(|at| placed(network, lines, at.clone())).collect();
    let t = table(network.points.len(), lines);
    let spare = lines.len() - (2 * network.points.len() - 3);
    let mut agreed = 0;
    for (a, b) in bases(lines) {
        let own = from_base(network, lines, &t, (a, b));
        let Some(best) = own.iter().min_by(|x, y| x.cost.total_cmp(&y.cost)) else { continue };
        let known = found.iter().map(|s| s.cost).fold(f64::INFINITY, f64::min);
        match best.cost - known {
            off if off.abs() < ALIKE * (1.0 + best.cost) => agreed += 1,
            off if off < 0.0 => agreed = 1,
            _ => {}
        }
        let fits = best.cost <= DOUBTFUL * DOUBTFUL * spare.max(1) as f64;
        found.extend(own);
        if agreed >= 2 && fits {
            break;
        }
    }
    found.sort_by(|a, b| a.cost.total_cmp(&b.cost));
    found
}

/// Two adjustments with no more between them fit equally well.
const ALIKE: f64 = 1e-6;

/// The best that was found; of equally good ones the one nearest to the rough places, and without those there may be one.
fn pick(network: &Network, lines: &[Line], found: &[Settled]) -> Result<Settled, SurveyError> {
    let best = found.first().ok_or(SurveyError::NotRigid)?;
    if let Some(rough) = complete_rough(network) {
        let within = ALIKE * (1.0 + best.cost);
        return Ok(nearest_to(&rough, found, within).unwrap_or_else(|| best.clone()));
    }
    let same = |s: &&Settled| s.cost - best.cost < ALIKE * (1.0 + best.cost);
    let apart = |s: &Settled, i: usize| libm::hypot(s.at[i][0] - best.at[i][0], s.at[i][1] - best.at[i][1]);
    let sigma = greatest_sigma(lines);
    match found.iter().filter(same).find_map(|s| (0..best.at.len()).find(|i| apart(s, *i) > sigma)) {
        Some(i) => Err(SurveyError::EitherSide(network.points[i].clone())),
        None => Ok(best.clone()),
    }
}

/// All rough positions, if every point has one.
fn complete_rough(network: &Network) -> Option<Vec<Point>> {
    if network.rough.len() != network.points.len() {
        return None;
    }
    network.rough.iter().map(|p| p.filter(|p| p.is_finite()).map(crate::formulas::frame::Plan::pair)).collect()
}

/// Of the answers, best first, that are worse than the best by less than that, the one nearest to the places: without a reading a
/// point may fit on either side of a line.
pub(super) fn nearest_to(places: &[Point], found: &[Settled], within: f64) -> Option<Settled> {
    let best = found.first()?.cost;
    let off = |s: &Settled| s.at.iter().zip(places).map(|(p, q)| libm::hypot(p[0] - q[0], p[1] - q[1])).sum::<f64>();
    let good = found.iter().filter(|s| s.cost - best < within);
    good.min_by(|a, b| off(a).total_cmp(&off(b))).cloned()
}

/// Misfits of two places that differ by less than so many sigma leave the side open.
const OPEN: f64 = 10.0;

pub(super) fn greatest_sigma(lines: &[Line]) -> f64 {
    lines.iter().map(|l| l.sigma).fold(0.0, f64::max)
}

/// Measured lines spread over the whole list.
fn bases(lines: &[Line]) -> Vec<(usize, usize)> {
    let mut all: Vec<(usize, usize)> = lines.iter().map(|l| (l.a.min(l.b), l.a.max(l.b))).collect();
    all.sort_unstable();
    all.dedup();
    let stride = all.len().div_ceil(BASES).max(1);
    all.into_iter().step_by(stride).collect()
}

/// The adjustments begun from one base line, with all free choices of side, best starts first.
fn from_base(network: &Network, lines: &[Line], t: &Table, (a, b): (usize, usize)) -> Vec<Settled> {
    let alike = OPEN * greatest_sigma(lines);
    let Some((first, asked)) = place_from(t, alike, (a, b), 0) else { return Vec::new() };
    // the first free choice is the mirror image, which the stated side settles
    let others = 1..(1_u32 << asked.saturating_sub(1).min(CHOICES));
    let mut starts: Vec<(f64, Vec<Point>)> = std::iter::once(first)
        .chain(others.filter_map(|choices| place_from(t, alike, (a, b), choices << 1).map(|(at, _)| at)))
        .map(|at| (cost_of(&at, lines), at))
        .collect();
    starts.sort_by(|x, y| x.0.total_cmp(&y.0));
    starts.into_iter().take(TRIED).filter_map(|(_, at)| placed(network, lines, at)).collect()
}

/// Adjusted from a start, in the frame of the first three points before and after.
fn placed(network: &Network, lines: &[Line], at: Vec<Point>) -> Option<Settled> {
    let found = settle(orient(at, network.third), lines)?;
    Some(Settled { at: orient(found.at, network.third), ..found })
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
pub(super) fn settle(mut at: Vec<Point>, lines: &[Line]) -> Option<Settled> {
    let mut cost = cost_of(&at, lines);
    for _ in 0..60 {
        let (normal, rhs) = normal_equations(&at, lines);
        let step = solve(&cholesky(normal)?, rhs);
        let mut k = 1.0;
        let (next, next_cost) = loop {
            let moved = moved_by(&at, &step, k);
            let c = cost_of(&moved, lines);
            if c <= cost || k < 1e-6 {
                break (moved, c);
            }
            k *= 0.5;
        };
        let small = step.iter().all(|s| s.abs() < 1e-8 * (1.0 + libm::sqrt(cost)));
        let done = next_cost >= cost && k < 1e-6;
        if !done {
            (at, cost) = (next, next_cost);
        }
        if small || done {
            break;
        }
    }
    cost.is_finite().then_some(Settled { at, cost })
}

/// (JᵀPJ)⁻¹ over the unknowns; `None` if the network can move.
pub(super) fn cofactor(at: &[Point], lines: &[Line]) -> Option<Matrix> {
    cholesky(normal_equations(at, lines).0).map(|l| inverse(&l))
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

fn normal_equations(at: &[Point], lines: &[Line]) -> (Matrix, Vec<f64>) {
    let unknowns = 2 * at.len() - 3;
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
