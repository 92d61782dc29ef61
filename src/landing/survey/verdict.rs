//! Is a reading wrong, which one, and what further reading would tell?
#![allow(clippy::indexing_slicing, reason = "line and point numbers come from the same lists")]

use super::adjust::{Settled, column, gradient};
use super::start::Point;
use super::{DETECTABLE, Ellipse, Judged, Line, Network, SUSPECT, Survey, SurveyError, Surveyed};
use crate::landing::model::Plan;
use crate::units::{Angle, Length};

/// What the readings say about each other.
#[derive(Clone, PartialEq, Debug)]
pub enum Verdict {
    /// No reading is checked by another: no check possible.
    NoCheck,
    /// All readings agree within their uncertainty.
    Agree,
    /// Something is wrong, but the geometry cannot tell which of these (indices of readings).
    Unlocated(Vec<usize>),
    /// This reading is wrong.
    Suspect {
        /// Index of the reading.
        reading: usize,
        /// Reading minus truth, about.
        blunder: Length,
        /// s0 of the others without it; `None` if nothing is left to check.
        s0_without: Option<f64>,
    },
}

/// The reading that would help most.
#[derive(Clone, PartialEq, Debug)]
pub struct Advice {
    /// From this point.
    pub from: String,
    /// To that one.
    pub to: String,
    /// Smallest blunder sure to be seen on the worst reading now; `None`: none at all.
    pub detectable_now: Option<Length>,
    /// The same with the further reading.
    pub detectable_then: Option<Length>,
    /// All lines are measured already: a further point well outside would help more.
    pub point_outside: bool,
}

/// Two residuals correlated more than this cannot be told apart.
const TOGETHER: f64 = 0.995;
/// A reading less redundant than this is not checked by others.
const UNCHECKED: f64 = 1e-6;

/// Row of a line in terms of all unknowns times the cofactor: J_i Q J_jᵀ/(σ_i σ_j).
fn shared(cofactor: &[Vec<f64>], at: &[Point], i: &Line, j: &Line) -> f64 {
    let ((a, na, _), (b, nb, _)) = (gradient(i, at), gradient(j, at));
    let pairs = a[..na].iter().flat_map(|p| b[..nb].iter().map(move |q| (p, q)));
    pairs.map(|((k, x), (l, y))| x * y * cofactor[*k][*l]).sum::<f64>() / (i.sigma * j.sigma)
}

fn redundancy_of(s: &Settled, line: &Line) -> f64 {
    (1.0 - shared(&s.cofactor, &s.at, line, line)).clamp(0.0, 1.0)
}

/// Writes the whole result.
pub(super) fn report(network: &Network, lines: &[Line], s: &Settled) -> Result<Survey, SurveyError> {
    check_places(network, lines, s)?;
    let readings: Vec<Judged> = network.readings.iter().zip(lines).map(|(r, l)| judge(&r.from, &r.to, l, s)).collect();
    let redundancy = lines.len() - (2 * s.at.len() - 3);
    let s0 = (redundancy > 0).then(|| (s.cost / redundancy as f64).sqrt());
    let verdict = decide(lines, &readings, s, redundancy, s0);
    let advice = advise(network, lines, s);
    let points = (0..s.at.len()).map(|i| surveyed(&network.points[i], i, s)).collect();
    Ok(Survey { points, readings, redundancy, s0, verdict, advice })
}

fn check_places(network: &Network, lines: &[Line], s: &Settled) -> Result<(), SurveyError> {
    let sigma = lines.iter().map(|l| l.sigma).fold(0.0, f64::max);
    for i in 0..s.at.len() {
        for j in i + 1..s.at.len() {
            if libm::hypot(s.at[i][0] - s.at[j][0], s.at[i][1] - s.at[j][1]) <= sigma {
                return Err(SurveyError::SamePlace(network.points[i].clone(), network.points[j].clone()));
            }
        }
    }
    Ok(())
}

fn judge(from: &str, to: &str, line: &Line, s: &Settled) -> Judged {
    let (_, _, computed) = gradient(line, &s.at);
    let v = computed - line.length;
    let r = redundancy_of(s, line);
    let checked = r > UNCHECKED;
    Judged {
        from: from.to_owned(),
        to: to.to_owned(),
        measured: Length::mm(line.length),
        residual: Length::mm(v),
        redundancy: r,
        standardised: checked.then(|| v / (line.sigma * r.sqrt())),
        detectable: checked.then(|| Length::mm(DETECTABLE * line.sigma / r.sqrt())),
        blunder: checked.then(|| Length::mm(-v / r)),
    }
}

fn surveyed(name: &str, i: usize, s: &Settled) -> Surveyed {
    let q = |a: usize, b: usize| match (column(i, a), column(i, b)) {
        (Some(a), Some(b)) => s.cofactor[a][b],
        _ => 0.0,
    };
    let (xx, yy, xy) = (q(0, 0), q(1, 1), q(0, 1));
    let (mean, half) = ((xx + yy) / 2.0, libm::hypot((xx - yy) / 2.0, xy));
    let direction = if half > 0.0 { Angle::atan2(2.0 * xy, xx - yy) / 2.0 } else { Angle::ZERO };
    let axis = |v: f64| Length::mm(v.max(0.0).sqrt());
    Surveyed {
        name: name.to_owned(),
        at: Plan::mm(s.at[i][0], s.at[i][1]),
        ellipse: Ellipse { major: axis(mean + half), minor: axis(mean - half), direction },
    }
}

/// w-test with a look at which readings could be told apart.
fn decide(lines: &[Line], readings: &[Judged], s: &Settled, redundancy: usize, s0: Option<f64>) -> Verdict {
    let Some(s0) = s0 else { return Verdict::NoCheck };
    let w = |i: usize| readings[i].standardised.map_or(0.0, f64::abs);
    let Some(worst) = (0..lines.len()).max_by(|a, b| w(*a).total_cmp(&w(*b))) else { return Verdict::NoCheck };
    if w(worst) <= SUSPECT && s0 <= 2.0 {
        return Verdict::Agree;
    }
    let alike: Vec<usize> =
        (0..lines.len()).filter(|i| *i == worst || together(lines, readings, s, worst, *i)).collect();
    let within_noise = w(worst) <= SUSPECT;
    match readings[worst].blunder {
        Some(blunder) if alike.len() == 1 && redundancy > 1 && !within_noise => {
            let rest = s.cost - w(worst) * w(worst);
            let s0_without = (redundancy > 1).then(|| (rest.max(0.0) / (redundancy - 1) as f64).sqrt());
            Verdict::Suspect { reading: worst, blunder, s0_without }
        }
        _ if within_noise => Verdict::Unlocated((0..lines.len()).filter(|i| w(*i) > 0.0).collect()),
        _ => Verdict::Unlocated(alike),
    }
}

/// Are the residuals of two readings so closely correlated that a blunder in either looks the same?
fn together(lines: &[Line], readings: &[Judged], s: &Settled, a: usize, b: usize) -> bool {
    let product = readings[a].redundancy * readings[b].redundancy;
    let correlation = shared(&s.cofactor, &s.at, &lines[a], &lines[b]) / product.sqrt().max(f64::MIN_POSITIVE);
    product > UNCHECKED * UNCHECKED && correlation.abs() > TOGETHER
}

/// Least redundancy over σ² of all readings if `extra` is measured too (rank-one change of the cofactor).
fn weakest(lines: &[Line], s: &Settled, extra: Option<&Line>) -> f64 {
    let one = |l: &Line| {
        let plain = 1.0 - shared(&s.cofactor, &s.at, l, l);
        let gained = extra.map_or(0.0, |e| {
            let cross = shared(&s.cofactor, &s.at, l, e);
            cross * cross / (1.0 + shared(&s.cofactor, &s.at, e, e))
        });
        (plain + gained).max(0.0) / (l.sigma * l.sigma)
    };
    lines.iter().map(one).fold(f64::INFINITY, f64::min)
}

/// Tries every line, unmeasured ones first.
fn advise(network: &Network, lines: &[Line], s: &Settled) -> Option<Advice> {
    let n = s.at.len();
    let sigma = lines.iter().map(|l| l.sigma).fold(0.0, f64::max);
    let measured = |a: usize, b: usize| lines.iter().any(|l| (l.a, l.b) == (a, b) || (l.b, l.a) == (a, b));
    let all = (0..n).flat_map(|a| (a + 1..n).map(move |b| (a, b)));
    let (done, fresh): (Vec<_>, Vec<_>) = all.partition(|(a, b)| measured(*a, *b));
    let complete = fresh.is_empty();
    let candidates = if complete { done } else { fresh };
    let now = weakest(lines, s, None);
    let then = |(a, b): &(usize, usize)| {
        let extra = Line { a: *a, b: *b, length: 0.0, sigma };
        (total(lines, s, &extra), weakest(lines, s, Some(&extra)))
    };
    let scored = candidates.into_iter().map(|c| (then(&c), c));
    let order =
        |x: &(f64, f64), y: &(f64, f64)| (x.1, x.0).partial_cmp(&(y.1, y.0)).unwrap_or(std::cmp::Ordering::Equal);
    let ((_, best), (a, b)) = scored.reduce(|x, y| if order(&y.0, &x.0).is_gt() { y } else { x })?;
    let seen = |v: f64| (v > UNCHECKED).then(|| Length::mm(DETECTABLE / v.sqrt()));
    let (from, to) = (network.points[a].clone(), network.points[b].clone());
    Some(Advice { from, to, detectable_now: seen(now), detectable_then: seen(best), point_outside: complete })
}

/// Sum of what `extra` adds to all redundancies: decides between equals.
fn total(lines: &[Line], s: &Settled, extra: &Line) -> f64 {
    let own = 1.0 + shared(&s.cofactor, &s.at, extra, extra);
    lines.iter().map(|l| shared(&s.cofactor, &s.at, l, extra)).map(|c| c * c / own).sum()
}
