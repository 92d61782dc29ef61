//! First positions by the cosine rule, from several base lines, so that one bad reading cannot spoil
//! the start.
#![allow(clippy::indexing_slicing, reason = "point numbers come from the list of names")]

use super::{Line, SurveyError};

/// Position of a point.
pub(super) type Point = [f64; 2];

/// Longest side too long by more than this many sigma of the three: the triangle cannot close.
const CANNOT_CLOSE: f64 = 5.0;

/// Mean length of each measured pair.
pub(super) type Table = Vec<Vec<Option<f64>>>;

/// Mean length of each measured pair.
pub(super) fn table(n: usize, lines: &[Line]) -> Table {
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

/// Places all points outward from the base line (a, b): first those that three placed neighbours hold, of equals the one
/// with the squarest cut; `choices` decides, bit by bit, between the two places where their misfits are `alike` within mm;
/// without it the better one is taken.
/// Gives the positions and how many free choices there were.
pub(super) fn place_from(t: &Table, alike: f64, (a, b): (usize, usize), choices: u32) -> Option<(Vec<Point>, u32)> {
    let mut at: Vec<Option<Point>> = vec![None; t.len()];
    at[a] = Some([0.0, 0.0]);
    at[b] = Some([t[a][b]?, 0.0]);
    let mut cuts: Vec<Cut> = (0..t.len()).map(|p| Cut::of(t, p, &[a, b])).collect();
    cuts.iter_mut().enumerate().for_each(|(p, cut)| cut.see(t, &at, p, b));
    let mut asked = 0;
    for _ in 2..t.len() {
        let point = (0..t.len())
            .filter(|p| at[*p].is_none() && cuts[*p].best.is_some())
            .max_by(|p, q| cuts[*p].rank().partial_cmp(&cuts[*q].rank()).unwrap_or(std::cmp::Ordering::Equal))?;
        let (_, i, j) = cuts[point].best?;
        let [p, q] = intersections(at[i]?, at[j]?, t[i][point]?, t[j][point]?);
        let (misfit_p, misfit_q) = (misfit(t, &at, point, p), misfit(t, &at, point, q));
        let apart = libm::hypot(p[0] - q[0], p[1] - q[1]);
        let open = (misfit_p - misfit_q).abs() < alike.min(apart);
        let better = misfit_p <= misfit_q;
        let first = if open && choices >> asked.min(31) & 1 == 1 { !better } else { better };
        asked += u32::from(open);
        at[point] = Some(if first { p } else { q });
        cuts.iter_mut().enumerate().for_each(|(other, cut)| cut.meet(t, &at, other, point));
    }
    Some((at.into_iter().collect::<Option<Vec<_>>>()?, asked))
}

/// What holds a point that is not yet placed: its placed neighbours, and the squarest cut of two of them.
#[derive(Clone, Debug)]
struct Cut {
    held_by: Vec<usize>,
    /// Cosine of the cut, and the two.
    best: Option<(f64, usize, usize)>,
}

impl Cut {
    fn of(t: &Table, point: usize, placed: &[usize]) -> Self {
        Self { held_by: placed.iter().copied().filter(|i| t[*i][point].is_some()).collect(), best: None }
    }

    /// One more neighbour has its place.
    fn meet(&mut self, t: &Table, at: &[Option<Point>], point: usize, neighbour: usize) {
        if t[neighbour][point].is_some() && at[point].is_none() {
            self.held_by.push(neighbour);
            self.see(t, at, point, neighbour);
        }
    }

    /// The cuts of a neighbour with all the others.
    fn see(&mut self, t: &Table, at: &[Option<Point>], point: usize, j: usize) {
        for i in self.held_by.iter().copied().filter(|i| *i != j) {
            let (Some(p), Some(q), Some(ra), Some(rb)) = (at[i], at[j], t[i][point], t[j][point]) else { continue };
            let base = libm::hypot(q[0] - p[0], q[1] - p[1]);
            let cosine = ((ra * ra + rb * rb - base * base) / (2.0 * ra * rb)).abs();
            if self.best.is_none_or(|(least, ..)| cosine < least) {
                self.best = Some((cosine, i, j));
            }
        }
    }

    /// Better is greater.
    fn rank(&self) -> (bool, f64) {
        (self.held_by.len() > 2, -self.best.map_or(f64::INFINITY, |(cosine, ..)| cosine))
    }
}

/// Sum of misfits of a candidate against all placed neighbours.
fn misfit(t: &Table, at: &[Option<Point>], point: usize, candidate: Point) -> f64 {
    let one = |(i, place): (usize, &Option<Point>)| {
        let (Some(p), Some(r)) = (place, t[i][point]) else { return 0.0 };
        (libm::hypot(candidate[0] - p[0], candidate[1] - p[1]) - r).abs()
    };
    at.iter().enumerate().map(one).sum()
}
