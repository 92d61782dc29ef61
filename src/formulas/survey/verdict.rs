//! Is a reading wrong, which one, and what further reading would tell?
#![allow(clippy::indexing_slicing, reason = "line and point numbers come from the same lists")]

use super::adjust::{Settled, all_of_starts, cofactor, column, gradient, greatest_sigma, nearest_to, settle};
use super::matrix::Matrix;
use super::spread::Covariance;
use super::start::Point;
use super::{DETECTABLE, Ellipse, Judged, Line, Network, SUSPECT, Survey, SurveyError, Surveyed};
use crate::formulas::frame::Plan;
use crate::units::{Angle, Length};

/// What the readings say about each other.
#[derive(Clone, PartialEq, Debug)]
pub enum Verdict {
    /// No reading is checked by another: no check possible.
    NoCheck,
    /// All readings agree within their uncertainty.
    Agree,
    /// Something is wrong, but which of these the readings cannot tell (indices of readings): without
    /// any one of them the others fit nearly as well, or more than one is wrong.
    Unlocated(Vec<usize>),
    /// This reading is wrong.
    Suspect {
        /// Index of the reading.
        reading: usize,
        /// Reading minus truth, about.
        blunder: Length,
        /// s0 of the others without it; `None` if nothing is left to check.
        s0_without: Option<f64>,
        /// Two others that would explain it nearly as well, were both of them wrong: it is certain only if no more than
        /// one reading is.
        unless: Option<[usize; 2]>,
    },
}

impl Verdict {
    /// Whether it says of one reading, or of two or three, that it is wrong.
    pub fn names(&self) -> bool {
        match self {
            Self::Suspect { .. } => true,
            Self::Unlocated(lines) => lines.len() <= 3,
            Self::NoCheck | Self::Agree => false,
        }
    }
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

/// Two wrong readings are so much rarer than one, in sums of squares: 2 ln 100, one reading in a hundred being wrong.
/// Source: common practice, no source.
pub(super) const RARER: f64 = 9.21;
/// Pairs that are left out in turn to see whether one explains the misfit too: those that the linear model likes best.
const PAIRS: usize = 8;
/// Readings of which pairs are looked at: those that stand out most.
const IN_PAIRS: usize = 60;
/// A reading less redundant than this is not checked by others.
const UNCHECKED: f64 = 1e-6;
/// Two readings are told apart when the sum of squares without the one is smaller by so much than without the other:
/// 2 ln 10 000, a likelihood ratio of ten thousand to one.
pub(super) const TOLD_APART: f64 = 18.42;
/// Mean square of the rest over which even the best of them is not believed.
const ASKEW: f64 = 4.0;
/// Sums of squares that differ by less say nothing about which is right.
const AS_GOOD: f64 = 0.1;
/// Readings up to which all are left out in turn.
const AFRESH: usize = 60;
/// Places that differ by more than so many sigma are not the same.
const OTHER_PLACE: f64 = 20.0;
/// Readings that are left out in turn to see which explains the misfit best.
const RIVALS: usize = 12;

/// A settled adjustment with what it says of its own doubt.
struct Known<'a> {
    s: &'a Settled,
    /// (JᵀPJ)⁻¹ over the unknowns.
    cofactor: &'a Matrix,
}

impl Known<'_> {
    /// The cofactor times the row of a line, over its sigma: Q J_jᵀ/σ_j.
    fn towards(&self, j: &Line) -> Vec<f64> {
        let (entries, count, _) = gradient(j, &self.s.at);
        let one = |row: &Vec<f64>| entries[..count].iter().map(|(l, y)| row[*l] * y).sum::<f64>() / j.sigma;
        self.cofactor.iter().map(one).collect()
    }

    /// J_i Q J_jᵀ/(σ_i σ_j), from what `towards` gives for j.
    fn shared(&self, i: &Line, towards_j: &[f64]) -> f64 {
        let (entries, count, _) = gradient(i, &self.s.at);
        entries[..count].iter().map(|(k, x)| x * towards_j[*k]).sum::<f64>() / i.sigma
    }
}

/// Writes the whole result.
pub(super) fn report(network: &Network, lines: &[Line], s: &Settled) -> Result<Survey, SurveyError> {
    check_places(network, lines, s)?;
    let cofactor = cofactor(&s.at, lines).ok_or(SurveyError::NotRigid)?;
    let known = Known { s, cofactor: &cofactor };
    let readings: Vec<Judged> =
        network.readings.iter().zip(lines).map(|(r, l)| judge(&r.from, &r.to, l, &known)).collect();
    let redundancy = lines.len() - (2 * s.at.len() - 3);
    let s0 = (redundancy > 0).then(|| (s.cost / redundancy as f64).sqrt());
    let (verdict, rivals) = decide(network, lines, &readings, s, s0);
    let (advice, helpers) = advise(network, lines, &known);
    let readings = readings.into_iter().zip(helpers).map(|(j, helped_by)| Judged { helped_by, ..j }).collect();
    let points = (0..s.at.len()).map(|i| surveyed(&network.points[i], i, &known)).collect();
    let covariance = covariance(&known, &verdict, &rivals, s0);
    Ok(Survey { points, readings, redundancy, s0, verdict, advice, covariance })
}

/// Of all points against the first two. Where one of several readings is wrong and nobody knows which, the places may be
/// those without any one of them; where nothing stands out but the scatter, all readings are so much worse than stated.
fn covariance(known: &Known, verdict: &Verdict, rivals: &[Rival], s0: Option<f64>) -> Covariance {
    let n = known.s.at.len();
    let rows = (0..2 * n).map(|i| (0..2 * n).map(|j| joint(known.cofactor, i, j)).collect()).collect();
    let stated = Covariance::of_rows(rows);
    match verdict {
        Verdict::Unlocated(_) if rivals.is_empty() => stated.times(s0.map_or(1.0, |s0| (s0 * s0).max(1.0))),
        Verdict::Unlocated(_) => {
            let step = |r: &Rival| r.at.iter().zip(&known.s.at).map(|(p, q)| [p[0] - q[0], p[1] - q[1]]).collect();
            stated.widened(&rivals.iter().map(step).collect::<Vec<_>>())
        }
        Verdict::NoCheck | Verdict::Agree | Verdict::Suspect { .. } => stated,
    }
}

/// Cofactor of two coordinates, counted x and y of each point in turn; nought for those that are held.
fn joint(cofactor: &Matrix, i: usize, j: usize) -> f64 {
    match (column(i / 2, i % 2), column(j / 2, j % 2)) {
        (Some(a), Some(b)) => cofactor[a][b],
        _ => 0.0,
    }
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

fn judge(from: &str, to: &str, line: &Line, known: &Known) -> Judged {
    let (_, _, computed) = gradient(line, &known.s.at);
    let v = computed - line.length;
    let towards = known.towards(line);
    let r = (1.0 - known.shared(line, &towards)).clamp(0.0, 1.0);
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
        pull: (0..known.s.at.len()).map(|i| pulled(i, &towards, line)).collect(),
        helped_by: None,
    }
}

/// How far a millimetre more in one reading moves a point against the first two: Q Jᵀ/σ².
fn pulled(point: usize, towards: &[f64], line: &Line) -> Plan {
    let part = |k: usize| column(point, k).and_then(|c| towards.get(c)).map_or(0.0, |t| t / line.sigma);
    Plan::mm(part(0), part(1))
}

fn surveyed(name: &str, i: usize, known: &Known) -> Surveyed {
    let q = |a: usize, b: usize| joint(known.cofactor, 2 * i + a, 2 * i + b);
    let (xx, yy, xy) = (q(0, 0), q(1, 1), q(0, 1));
    let (mean, half) = ((xx + yy) / 2.0, libm::hypot((xx - yy) / 2.0, xy));
    let direction = if half > 0.0 { Angle::atan2(2.0 * xy, xx - yy) / 2.0 } else { Angle::ZERO };
    let axis = |v: f64| Length::mm(v.max(0.0).sqrt());
    Surveyed {
        name: name.to_owned(),
        at: Plan::mm(known.s.at[i][0], known.s.at[i][1]),
        ellipse: Ellipse { major: axis(mean + half), minor: axis(mean - half), direction },
    }
}

/// The adjustment without one of the readings.
struct Rival {
    reading: usize,
    at: Vec<Point>,
    cost: f64,
}

impl Survey {
    /// Takes back what was said of one reading, for a reason that the lengths do not know: all that stand out are suspects
    /// again, and all places so much less sure as the readings scatter.
    pub fn doubt(&mut self) {
        let suspects = |j: &Judged| j.standardised.is_some_and(|w| w.abs() > SUSPECT);
        let all = 0..self.readings.len();
        let some: Vec<usize> = all.clone().filter(|i| self.readings.get(*i).is_some_and(suspects)).collect();
        self.verdict = Verdict::Unlocated(if some.len() > 1 { some } else { all.collect() });
        self.covariance = self.covariance.clone().times(self.s0.map_or(1.0, |s0| (s0 * s0).max(1.0)));
    }
}

/// w-test, and then the fits without each of the readings that stand out: only where one of them explains the misfit
/// better than any other by far, and the rest agrees without it, is it named.
fn decide(
    network: &Network,
    lines: &[Line],
    readings: &[Judged],
    s: &Settled,
    s0: Option<f64>,
) -> (Verdict, Vec<Rival>) {
    let Some(s0) = s0 else { return (Verdict::NoCheck, Vec::new()) };
    let w = |i: usize| readings[i].standardised.map_or(0.0, f64::abs);
    let mut order: Vec<usize> = (0..lines.len()).filter(|i| w(*i) > 0.0).collect();
    order.sort_by(|a, b| w(*b).total_cmp(&w(*a)));
    let Some(worst) = order.first().copied() else { return (Verdict::NoCheck, Vec::new()) };
    if w(worst) <= SUSPECT {
        let verdict = if s0 <= 2.0 { Verdict::Agree } else { Verdict::Unlocated(sorted(order)) };
        return (verdict, Vec::new());
    }
    let spare = lines.len() - (2 * s.at.len() - 3);
    let (mut rivals, askew) = rivals(network, lines, s, &order);
    let Some(best) = rivals.first() else { return (Verdict::Unlocated(sorted(order)), Vec::new()) };
    let s0_without = (spare > 1).then(|| (best.cost / (spare - 1) as f64).sqrt());
    let margin = TOLD_APART * s0_without.map_or(1.0, |s| (s * s).max(1.0));
    let (reading, least) = (best.reading, best.cost);
    // Told apart only where the fit without it and its w say so, both; w says nothing where all together settled askew.
    let alike: Vec<usize> = (0..lines.len())
        .filter(|i| {
            let tried = order.iter().take(RIVALS).any(|tried| tried == i);
            let fitted = rivals.iter().find(|r| r.reading == *i).map_or(tried, |r| r.cost - least < margin);
            fitted || (!askew && w(*i) > 0.0 && w(worst) * w(worst) - w(*i) * w(*i) < margin)
        })
        .collect();
    if alike.len() > 1 || spare < 2 {
        rivals.retain(|r| alike.contains(&r.reading));
        return (Verdict::Unlocated(alike), rivals);
    }
    let blunder = match readings[reading].blunder.filter(|_| !askew) {
        Some(blunder) => blunder,
        None => Length::mm(lines[reading].length - gradient(&lines[reading], &best.at).2),
    };
    if rest_agrees(network, lines, best) {
        let unless = pair_as_good(lines, best);
        return (Verdict::Suspect { reading, blunder, s0_without, unless }, Vec::new());
    }
    (Verdict::Unlocated((0..lines.len()).filter(|i| *i == reading || w(*i) > SUSPECT).collect()), rivals)
}

/// The fits without each of the readings that stand out, best first, and whether none of them fits. In a network that is
/// not large every reading is left out in turn and the places are begun afresh too: a gross blunder may have drawn all
/// of them askew.
fn rivals(network: &Network, lines: &[Line], s: &Settled, order: &[usize]) -> (Vec<Rival>, bool) {
    let mut found: Vec<Rival> = order.iter().take(RIVALS).filter_map(|i| without(lines, s, *i)).collect();
    let spare = (lines.len() - (2 * s.at.len() - 3)).saturating_sub(1) as f64;
    let askew = !found.iter().any(|r| r.cost <= ASKEW * spare.max(1.0));
    if lines.len() <= AFRESH {
        let afresh = |i: usize| {
            let best = nearest_to(&s.at, &all_of_starts(network, &others(lines, i)), AS_GOOD)?;
            Some(Rival { reading: i, at: best.at, cost: best.cost })
        };
        for rival in (0..lines.len()).filter_map(afresh) {
            match found.iter_mut().find(|r| r.reading == rival.reading) {
                Some(known) if known.cost <= rival.cost + AS_GOOD => {}
                Some(known) => *known = rival,
                None => found.push(rival),
            }
        }
    }
    found.sort_by(|a, b| a.cost.total_cmp(&b.cost));
    (found, askew)
}

fn sorted(mut readings: Vec<usize>) -> Vec<usize> {
    readings.sort_unstable();
    readings
}

/// The lines without one of them, begun from where they settled with it.
fn without(lines: &[Line], s: &Settled, reading: usize) -> Option<Rival> {
    let others = others(lines, reading);
    let found = settle(s.at.clone(), &others)?;
    Some(Rival { reading, at: found.at, cost: found.cost })
}

fn others(lines: &[Line], reading: usize) -> Vec<Line> {
    lines.iter().enumerate().filter(|(i, _)| *i != reading).map(|(_, l)| *l).collect()
}

/// Whether the readings without the worst agree so well that no other can be wrong too, and leave no point two places.
fn rest_agrees(network: &Network, lines: &[Line], best: &Rival) -> bool {
    let rest = others(lines, best.reading);
    let far = OTHER_PLACE * greatest_sigma(&rest);
    let elsewhere = |s: &Settled| s.at.iter().zip(&best.at).any(|(p, q)| libm::hypot(p[0] - q[0], p[1] - q[1]) > far);
    if all_of_starts(network, &rest).iter().any(|s| s.cost - best.cost < TOLD_APART && elsewhere(s)) {
        return false;
    }
    let settled = Settled { at: best.at.clone(), cost: best.cost };
    let Some(cofactor) = cofactor(&settled.at, &rest) else { return false };
    let known = Known { s: &settled, cofactor: &cofactor };
    rest.iter().all(|line| {
        let judged = judge("", "", line, &known);
        judged.standardised.is_none_or(|w| w.abs() <= DETECTABLE)
    })
}

/// Two readings beside the suspect without which the rest, the suspect with it, fits nearly as well.
///
/// Residuals v and their cofactors R = I − J Q Jᵀ of all readings, linear about the places without the suspect: without a
/// set S the sum of squares is Σ v² − v_Sᵀ R_SS⁻¹ v_S. The best few are adjusted anew. Source: Baarda (1968), A testing
/// procedure for use in geodetic networks, for several alternative hypotheses; from memory.
fn pair_as_good(lines: &[Line], best: &Rival) -> Option<[usize; 2]> {
    let settled = Settled { at: best.at.clone(), cost: best.cost };
    let cofactor = cofactor(&settled.at, lines)?;
    let known = Known { s: &settled, cofactor: &cofactor };
    let v = linear_residuals(lines, &known);
    let towards: Vec<Vec<f64>> = lines.iter().map(|l| known.towards(l)).collect();
    let r = |i: usize, j: usize| f64::from(u8::from(i == j)) - known.shared(&lines[i], &towards[j]);
    let all: f64 = v.iter().map(|v| v * v).sum();
    let without_both = |i: usize, j: usize| {
        let (a, b, c) = (r(i, i), r(i, j), r(j, j));
        let det = a * c - b * b;
        let fits = (c * v[i] * v[i] - 2.0 * b * v[i] * v[j] + a * v[j] * v[j]) / det;
        (det > UNCHECKED).then_some((all - fits, [i, j]))
    };
    let stands_out = |i: &usize| v[*i] * v[*i] / r(*i, *i).max(UNCHECKED);
    let mut some: Vec<usize> = (0..lines.len()).filter(|i| *i != best.reading).collect();
    some.sort_by(|i, j| stands_out(j).total_cmp(&stands_out(i)));
    some.truncate(IN_PAIRS);
    let mut pairs: Vec<(f64, [usize; 2])> =
        some.iter().enumerate().flat_map(|(k, i)| some[..k].iter().filter_map(|j| without_both(*i, *j))).collect();
    pairs.sort_by(|x, y| x.0.total_cmp(&y.0));
    let anew = |[i, j]: [usize; 2]| {
        let rest: Vec<Line> = lines.iter().enumerate().filter(|(k, _)| *k != i && *k != j).map(|(_, l)| *l).collect();
        settle(best.at.clone(), &rest).map(|s| (s.cost, [i.min(j), i.max(j)]))
    };
    let tried = pairs.into_iter().take(PAIRS).filter_map(|(_, pair)| anew(pair));
    let (cost, pair) = tried.min_by(|x, y| x.0.total_cmp(&y.0))?;
    (cost - best.cost < TOLD_APART - RARER).then_some(pair)
}

/// Residuals over their sigma after one step of all readings from where the places are.
fn linear_residuals(lines: &[Line], known: &Known) -> Vec<f64> {
    let mut step = vec![0.0; known.cofactor.len()];
    for line in lines {
        let (_, _, computed) = gradient(line, &known.s.at);
        let misfit = (line.length - computed) / line.sigma;
        step.iter_mut().zip(known.towards(line)).for_each(|(s, t)| *s += misfit * t);
    }
    let one = |line: &Line| {
        let (entries, count, computed) = gradient(line, &known.s.at);
        let moved: f64 = entries[..count].iter().map(|(k, x)| x * step[*k]).sum();
        (computed + moved - line.length) / line.sigma
    };
    lines.iter().map(one).collect()
}

/// How well a line is checked, over σ², if nothing more is measured.
fn checked(lines: &[Line], known: &Known) -> Vec<f64> {
    lines.iter().map(|l| 1.0 - known.shared(l, &known.towards(l))).collect()
}

/// What one more line would bring: the least redundancy over σ² of all readings then, and the sum of what it adds to all
/// redundancies, which decides between equals (rank-one change of the cofactor). Notes the readings that it helps most.
fn with_extra((lines, plain): (&[Line], &[f64]), known: &Known, extra: &Line, most: &mut [Best]) -> (f64, f64) {
    let towards = known.towards(extra);
    let own = 1.0 + known.shared(extra, &towards);
    let one = |((l, plain), most): ((&Line, &f64), &mut Best)| {
        let cross = known.shared(l, &towards);
        let gained = cross * cross / own;
        if gained > most.0 {
            *most = (gained, Some((extra.a, extra.b)));
        }
        ((plain + gained).max(0.0) / (l.sigma * l.sigma), gained)
    };
    let all = lines.iter().zip(plain).zip(most).map(one);
    all.fold((f64::INFINITY, 0.0), |(least, sum), (a, b)| (least.min(a), sum + b))
}

/// What the best further line adds to the redundancy of a reading, and that line.
type Best = (f64, Option<(usize, usize)>);

/// Ends of a line by name.
type Ends = (String, String);

/// A further line has to help a reading by so much of its redundancy to be worth a word.
const WORTH: f64 = 1e-3;

/// Tries every line, unmeasured ones first: the one that helps the worst, and for every reading the one that helps it most.
fn advise(network: &Network, lines: &[Line], known: &Known) -> (Option<Advice>, Vec<Option<Ends>>) {
    let name = |(a, b): (usize, usize)| (network.points[a].clone(), network.points[b].clone());
    let mut most = vec![(WORTH, None); lines.len()];
    let advice = best_line(network, lines, known, &mut most);
    (advice, most.into_iter().map(|(_, ends)| ends.map(name)).collect())
}

fn best_line(network: &Network, lines: &[Line], known: &Known, most: &mut [Best]) -> Option<Advice> {
    let n = known.s.at.len();
    let sigma = lines.iter().map(|l| l.sigma).fold(0.0, f64::max);
    let measured: std::collections::BTreeSet<_> = lines.iter().map(|l| (l.a.min(l.b), l.a.max(l.b))).collect();
    let all = (0..n).flat_map(|a| (a + 1..n).map(move |b| (a, b)));
    let (done, fresh): (Vec<_>, Vec<_>) = all.partition(|pair| measured.contains(pair));
    let complete = fresh.is_empty();
    let candidates = if complete { done } else { fresh };
    let plain = checked(lines, known);
    let now = lines.iter().zip(&plain).map(|(l, r)| r.max(0.0) / (l.sigma * l.sigma)).fold(f64::INFINITY, f64::min);
    let scored = candidates.into_iter().map(|(a, b)| {
        let extra = Line { a, b, length: 0.0, sigma };
        (with_extra((lines, &plain), known, &extra, most), (a, b))
    });
    let order = |x: &(f64, f64), y: &(f64, f64)| x.partial_cmp(y).unwrap_or(std::cmp::Ordering::Equal);
    let ((best, _), (a, b)) = scored.reduce(|x, y| if order(&y.0, &x.0).is_gt() { y } else { x })?;
    let seen = |v: f64| (v > UNCHECKED).then(|| Length::mm(DETECTABLE / v.sqrt()));
    let (from, to) = (network.points[a].clone(), network.points[b].clone());
    Some(Advice { from, to, detectable_now: seen(now), detectable_then: seen(best), point_outside: complete })
}
