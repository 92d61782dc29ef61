//! What each seat may carry: shares of equal springs, worst three points, and tipping.

#![allow(clippy::indexing_slicing, reason = "indices are drawn from the length of the same list")]

use super::model::{Landing, Seat};
use crate::units::{Force, Length, STANDARD_GRAVITY};

/// How far the load stands inside its supports.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct TipMargin {
    /// Distance to the nearest edge of the support; negative: outside.
    pub inside: Length,
}

/// The load of one seat over all equilibria that only press.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct LoadRange {
    /// Share on equal springs.
    pub spring: Force,
    /// Smallest.
    pub least: Force,
    /// Largest: the worst three points.
    pub greatest: Force,
}

type Point = [f64; 2];

fn supports(seats: &[Seat]) -> Vec<Point> {
    seats.iter().filter(|s| s.carries()).map(|s| s.at.pair()).collect()
}

fn cross(o: Point, a: Point, b: Point) -> f64 {
    (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0])
}

fn distance(a: Point, b: Point) -> f64 {
    libm::hypot(a[0] - b[0], a[1] - b[1])
}

/// Convex hull, counter-clockwise (Andrew's chain).
fn hull(mut points: Vec<Point>) -> Vec<Point> {
    points.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
    let mut chain: Vec<Point> = Vec::new();
    for pass in 0..2 {
        let start = chain.len();
        for p in &points {
            while chain.len() >= start + 2 && cross(chain[chain.len() - 2], chain[chain.len() - 1], *p) <= 0.0 {
                chain.pop();
            }
            chain.push(*p);
        }
        if pass == 0 || chain.len() > start + 1 || points.len() > 1 {
            chain.pop();
        }
        points.reverse();
    }
    chain
}

/// Distance of `p` from the segment a-b.
fn segment_distance(p: Point, a: Point, b: Point) -> f64 {
    let length = distance(a, b);
    if length <= 0.0 {
        return distance(p, a);
    }
    let along = ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / (length * length);
    let t = along.clamp(0.0, 1.0);
    distance(p, [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])])
}

/// How far the foot of the load stands inside the polygon of the seats that can carry.
/// `None` if none can.
pub fn tip_margin(landing: &Landing) -> Option<TipMargin> {
    let foot = landing.load().foot().pair();
    let corners = hull(supports(landing.seats()));
    let edges = corners.iter().zip(corners.iter().cycle().skip(1));
    let (mut nearest, mut within) = (f64::INFINITY, corners.len() >= 3);
    for (a, b) in edges {
        nearest = nearest.min(segment_distance(foot, *a, *b));
        within &= cross(*a, *b, foot) >= 0.0;
    }
    let inside = if within { nearest } else { -nearest };
    (!corners.is_empty()).then_some(TipMargin { inside: Length::mm(inside) })
}

/// Shares (fractions of the load) on the supports `at` that hold the foot, at most three of them.
fn shares(at: &[Point], foot: Point, slack: f64) -> Option<[f64; 3]> {
    let found = match *at {
        [a] => (distance(a, foot) <= slack).then_some([1.0, 0.0, 0.0]),
        [a, b] => {
            let length = distance(a, b);
            let on_line = cross(a, b, foot).abs() <= slack * length;
            let t = ((foot[0] - a[0]) * (b[0] - a[0]) + (foot[1] - a[1]) * (b[1] - a[1])) / (length * length);
            on_line.then_some([1.0 - t, t, 0.0])
        }
        [a, b, c] => {
            let area = cross(a, b, c);
            let thin = area.abs() <= slack * distance(a, b).max(distance(a, c)).max(distance(b, c));
            (!thin).then(|| [cross(foot, b, c) / area, cross(foot, c, a) / area, cross(foot, a, b) / area])
        }
        _ => None,
    };
    found.filter(|s| s.iter().all(|v| *v >= -1e-12))
}

/// Smallest and largest share of each support: the corners of the set of equilibria have at most three
/// loaded points. `None` if the load tips.
fn share_ranges(at: &[Point], foot: Point) -> Option<Vec<(f64, f64)>> {
    let mut ranges = vec![(f64::INFINITY, f64::NEG_INFINITY); at.len()];
    let slack = 1e-9 * at.iter().flatten().fold(1.0_f64, |m, v| m.max(v.abs()));
    let mut any = false;
    let mut take = |chosen: &[usize]| {
        let points: Vec<Point> = chosen.iter().map(|i| at[*i]).collect();
        let Some(found) = shares(&points, foot, slack) else { return };
        any = true;
        for (i, range) in ranges.iter_mut().enumerate() {
            let share = chosen.iter().position(|c| *c == i).map_or(0.0, |k| found[k].max(0.0));
            *range = (range.0.min(share), range.1.max(share));
        }
    };
    for i in 0..at.len() {
        take(&[i]);
        for j in i + 1..at.len() {
            take(&[i, j]);
            for k in j + 1..at.len() {
                take(&[i, j, k]);
            }
        }
    }
    any.then_some(ranges)
}

/// Shares on equal springs under a rigid frame: P_i = 1/N + bx (x_i − xm) + by (y_i − ym); supports that
/// would lift are left out and the rest worked again. Derived from least energy of equal springs.
pub(super) fn spring_shares(at: &[Point], foot: Point) -> Vec<f64> {
    let mut used: Vec<usize> = (0..at.len()).collect();
    loop {
        let share = spring_plane(at, &used, foot);
        let lifted = used.iter().zip(&share).filter(|(_, s)| **s < -1e-12).min_by(|a, b| a.1.total_cmp(b.1));
        let Some((out, _)) = lifted.filter(|_| used.len() > 1).map(|(i, s)| (*i, *s)) else {
            let mut all = vec![0.0; at.len()];
            used.iter().zip(&share).for_each(|(i, s)| all[*i] = *s);
            return all;
        };
        used.retain(|i| *i != out);
    }
}

fn spring_plane(at: &[Point], used: &[usize], foot: Point) -> Vec<f64> {
    let n = used.len() as f64;
    let mean = [0, 1].map(|k| used.iter().map(|i| at[*i][k]).sum::<f64>() / n);
    let sum =
        |f: &dyn Fn(Point) -> f64| used.iter().map(|i| f([at[*i][0] - mean[0], at[*i][1] - mean[1]])).sum::<f64>();
    let (xx, xy, yy) = (sum(&|p| p[0] * p[0]), sum(&|p| p[0] * p[1]), sum(&|p| p[1] * p[1]));
    let (rx, ry) = (foot[0] - mean[0], foot[1] - mean[1]);
    let det = xx * yy - xy * xy;
    let [bx, by] = if det > 1e-12 * (xx + yy) * (xx + yy) {
        [(yy * rx - xy * ry) / det, (xx * ry - xy * rx) / det]
    } else if xx + yy > 0.0 {
        [rx / (xx + yy), ry / (xx + yy)] // all on one line: the least tilt that balances
    } else {
        [0.0; 2]
    };
    used.iter().map(|i| 1.0 / n + bx * (at[*i][0] - mean[0]) + by * (at[*i][1] - mean[1])).collect()
}

/// Smallest, largest and spring load of every seat, in their order; a seat that cannot carry has noughts.
/// `None` if the load tips.
pub fn load_ranges(landing: &Landing) -> Option<Vec<LoadRange>> {
    let at = supports(landing.seats());
    let foot = landing.load().foot().pair();
    let down = landing.load().down();
    let ranges = share_ranges(&at, foot)?;
    let springs = spring_shares(&at, foot);
    let mut carried = ranges.iter().zip(&springs);
    let nothing = LoadRange { spring: Force::ZERO, least: Force::ZERO, greatest: Force::ZERO };
    let one = |seat: &Seat| {
        let Some(((low, high), spring)) = carried.by_ref().next_if_carries(seat) else { return nothing };
        LoadRange { spring: down * *spring, least: down * *low, greatest: down * *high }
    };
    Some(landing.seats().iter().map(one).collect())
}

/// Takes the next entry only for a seat that carries.
trait NextIfCarries: Iterator + Sized {
    fn next_if_carries(&mut self, seat: &Seat) -> Option<Self::Item> {
        if seat.carries() { self.next() } else { None }
    }
}
impl<I: Iterator> NextIfCarries for I {}

/// Load of every seat as on equal springs, in their order; nought where a seat cannot carry.
pub(super) fn spring_loads(landing: &Landing) -> Vec<Force> {
    let at = supports(landing.seats());
    let mut shares = spring_shares(&at, landing.load().foot().pair()).into_iter();
    let down = landing.load().down();
    let one = |seat: &Seat| if seat.carries() { down * shares.next().unwrap_or(0.0) } else { Force::ZERO };
    landing.seats().iter().map(one).collect()
}

/// Least share of every support over all equilibria that only press; `None` where the load tips.
pub(super) fn least_shares(at: &[Point], foot: Point) -> Option<Vec<f64>> {
    Some(share_ranges(at, foot)?.into_iter().map(|(least, _)| least).collect())
}

/// Spring shares on all supports, negative where a support would lift.
pub(super) fn spring_plane_all(at: &[Point], foot: Point) -> Vec<f64> {
    spring_plane(at, &(0..at.len()).collect::<Vec<_>>(), foot)
}

/// Factor on the load of a seat when the frame touches it at a speed, the rope slack: 1 + √(1 + v²/(g s)); v in m/s, s how far
/// it gives under that load at rest. 50 mm/s, 0.5 mm: 2.229; at no speed 2, the load let go at once.
/// Source: energy of a weight that drops on a spring; Timoshenko, Strength of Materials, impact.
pub fn set_down_factor(speed: f64, sag: Length) -> f64 {
    1.0 + (1.0 + speed * speed / (STANDARD_GRAVITY * sag.as_mm() / 1000.0)).sqrt()
}
