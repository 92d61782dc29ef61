//! First positions by the cosine rule, from several base lines, so that one bad reading cannot spoil
//! the start.
#![allow(clippy::indexing_slicing, reason = "point numbers come from the list of names")]

use super::{Line, SurveyError};

/// Position of a point.
pub(super) type Point = [f64; 2];

/// Longest side too long by more than this many sigma of the three: the triangle cannot close.
const CANNOT_CLOSE: f64 = 5.0;

/// Mean length of each measured pair.
pub(super) fn table(n: usize, lines: &[Line]) -> Vec<Vec<Option<f64>>> {
    let mut sums = vec![vec![(0.0, 0.0); n]; n];
    for l in lines {
        let w = 1.0 / (l.sigma * l.sigma);
        for (i, j) in [(l.a, l.b), (l.b, l.a)] {
            sums[i][j].0 += w * l.length;
            sums[i][j].1 += w;
        }
    }
    let mean = |(sum, weight): &(f64, f64)| (*weight > 0.0).then(|| sum / weight);
    sums.iter().map(|row| row.iter().map(mean).collect()).collect()
}

/// Every triangle of three measured lengths must close, within the readings' uncertainty.
pub(super) fn check_triangles(names: &[String], lines: &[Line]) -> Result<(), SurveyError> {
    let t = table(names.len(), lines);
    let sigma = lines.iter().map(|l| l.sigma).fold(0.0, f64::max);
    for a in 0..names.len() {
        for b in a + 1..names.len() {
            for c in b + 1..names.len() {
                let (Some(x), Some(y), Some(z)) = (t[a][b], t[b][c], t[a][c]) else { continue };
                let longest = x.max(y).max(z);
                let by = 2.0 * longest - x - y - z;
                if by > CANNOT_CLOSE * sigma * 3f64.sqrt() {
                    let corners = [names[a].clone(), names[b].clone(), names[c].clone()];
                    return Err(SurveyError::CannotClose { corners, by: crate::units::Length::mm(by) });
                }
            }
        }
    }
    Ok(())
}

/// The two points at the distances `ra` from `a` and `rb` from `b`.
fn intersections(a: Point, b: Point, ra: f64, rb: f64) -> [Point; 2] {
    let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
    let base = libm::hypot(dx, dy).max(f64::MIN_POSITIVE);
    let along = (ra * ra - rb * rb + base * base) / (2.0 * base);
    let up = (ra * ra - along * along).max(0.0).sqrt();
    let (ux, uy) = (dx / base, dy / base);
    [1.0, -1.0].map(|s| [a[0] + along * ux - s * up * uy, a[1] + along * uy + s * up * ux])
}

/// Places all points outward from the base line (a, b). Points that two placed neighbours hold are taken in the
/// order of the best cut; `choices` decides, bit by bit, between the two places where nothing else does.
/// Gives the positions and how many free choices there were.
pub(super) fn place_from(t: &[Vec<Option<f64>>], a: usize, b: usize, choices: u32) -> Option<(Vec<Point>, u32)> {
    let mut at: Vec<Option<Point>> = vec![None; t.len()];
    at[a] = Some([0.0, 0.0]);
    at[b] = Some([t[a][b]?, 0.0]);
    let mut asked = 0;
    for _ in 2..t.len() {
        let (point, i, j) = best_cut(t, &at)?;
        let [p, q] = intersections(at[i]?, at[j]?, t[i][point]?, t[j][point]?);
        let (misfit_p, misfit_q) = (misfit(t, &at, point, p), misfit(t, &at, point, q));
        let apart = libm::hypot(p[0] - q[0], p[1] - q[1]);
        let open = (misfit_p - misfit_q).abs() < 1e-9 * apart;
        let first = if open { choices >> asked.min(31) & 1 == 0 } else { misfit_p < misfit_q };
        asked += u32::from(open);
        at[point] = Some(if first { p } else { q });
    }
    Some((at.into_iter().collect::<Option<Vec<_>>>()?, asked))
}

/// The unplaced point and two placed neighbours with the squarest cut.
fn best_cut(t: &[Vec<Option<f64>>], at: &[Option<Point>]) -> Option<(usize, usize, usize)> {
    let mut best: Option<(f64, (usize, usize, usize))> = None;
    for point in (0..t.len()).filter(|p| at[*p].is_none()) {
        for i in 0..t.len() {
            for j in i + 1..t.len() {
                let (Some(p), Some(q), Some(ra), Some(rb)) = (at[i], at[j], t[i][point], t[j][point]) else { continue };
                let base = libm::hypot(q[0] - p[0], q[1] - p[1]);
                let cosine = (ra * ra + rb * rb - base * base) / (2.0 * ra * rb);
                if best.is_none_or(|(c, _)| cosine.abs() < c) {
                    best = Some((cosine.abs(), (point, i, j)));
                }
            }
        }
    }
    best.map(|(_, found)| found)
}

/// Sum of misfits of a candidate against all placed neighbours.
fn misfit(t: &[Vec<Option<f64>>], at: &[Option<Point>], point: usize, candidate: Point) -> f64 {
    let one = |(i, place): (usize, &Option<Point>)| {
        let (Some(p), Some(r)) = (place, t[i][point]) else { return 0.0 };
        (libm::hypot(candidate[0] - p[0], candidate[1] - p[1]) - r).abs()
    };
    at.iter().enumerate().map(one).sum()
}
