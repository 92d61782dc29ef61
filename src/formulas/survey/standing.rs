//! A landing as it stands: where cones and cups are and how high every seat is, from the old survey and all readings taken
//! since, each by its weight.
//!
//! Unknowns x: places of cones and cups in plan, heights of the crossbars, what cup and cone put over them, and the pose of the
//! frame when it is down; before the readings μ with covariance Σ (the pose is not known). Readings y = h(x) + e, H = ∂h/∂x, R =
//! diag(u²): S = H Σ Hᵀ + R, x̂ = μ + Σ Hᵀ S⁻¹ (y − h(μ)), Q = Σ − Σ Hᵀ S⁻¹ H Σ; begun anew at x̂ until it rests (Gauss-Newton).
//! That is weighted least squares of readings and old survey together. With M = S⁻¹ and u = M (y − h) the sum of squares without
//! what stands in the columns C, a reading or what was known of a seat, is less by uᵀC (Cᵀ M C)⁻¹ Cᵀu: which of them is wrong is
//! decided by that as in a tape survey.
//! (JCGM 102:2011; Ghilani, Adjustment Computations, chapters 11, 16 and 21; Baarda 1968; from memory.)
#![allow(clippy::indexing_slicing, reason = "unknowns and readings are counted here")]

use super::matrix::{Matrix, cholesky, inverse, solve};
use super::spread::{Covariance, shifts_in_datum};
use super::verdict::{RARER, TOLD_APART};
use super::{DETECTABLE, SUSPECT};
use crate::formulas::frame::{InputError, Landing, Plan, Pose, Seat};
use crate::units::{Angle, Length};

/// What is known of all seats before the readings.
#[derive(Clone, Debug)]
pub struct Before {
    /// Places of the cones, then of the cups, all together.
    pub places: Covariance,
    /// Heights of the crossbars as written, and one sigma of each.
    pub bars: Vec<(Length, Length)>,
    /// One sigma of what cup and cone put over them.
    pub rises: Vec<Length>,
}

/// What a reading is of: seats by their number.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Observed {
    /// Height of the crossbar.
    Height(usize),
    /// The cup's centre off the cone's along x, the frame down.
    OffsetX(usize),
    /// The same along y.
    OffsetY(usize),
    /// How far the seat still has to fall, the frame down.
    Gap(usize),
    /// Distance of two cones in plan.
    Cones(usize, usize),
    /// Distance of two cups in plan.
    Cups(usize, usize),
}

/// A reading with its standard uncertainty.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Observation {
    /// Of what.
    pub of: Observed,
    /// What it said.
    pub read: Length,
    /// One sigma.
    pub sigma: Length,
}

/// What may be wrong where readings do not go together.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Cause {
    /// A reading.
    Reading(usize),
    /// The place of a seat's cup, as it was known before.
    Place(usize),
    /// The height of a seat, as it was known before.
    Height(usize),
}

/// What readings and survey say of each other.
#[derive(Clone, PartialEq, Debug)]
pub enum Agreement {
    /// All go together.
    Agree,
    /// One of these is wrong, or more than one of all: which, they cannot tell.
    OneOf(Vec<Cause>),
    /// This is wrong.
    Wrong {
        /// What.
        cause: Cause,
        /// A reading minus the truth, about; none for what was known before.
        by: Option<Length>,
        /// Two others that would explain it nearly as well, were both of them wrong.
        unless: Option<[Cause; 2]>,
    },
}

/// A seat as it stands.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Stands {
    /// Place of its cone.
    pub at: Plan,
    /// Cup minus cone, against the best fit of all.
    pub mismatch: Plan,
    /// One sigma of that, each way.
    pub sigma: Length,
    /// Higher than it was held to be.
    pub higher: Length,
    /// One sigma of that.
    pub height_sigma: Length,
}

/// A landing as it stands.
#[derive(Clone, PartialEq, Debug)]
pub struct Standing {
    /// In the order of the seats.
    pub seats: Vec<Stands>,
    /// What the readings say of each other; a reading that is surely wrong is left out.
    pub agreement: Agreement,
    /// Of every reading, what is left over once all is estimated, in sigmas; none where nothing checks it.
    pub left_over: Vec<Option<f64>>,
}

/// Where the frame lies when it is down is not known: one sigma in mm, and in mm on a metre. Large beside any mismatch.
const NOT_KNOWN: f64 = 20.0;
/// Rounds after which it rests.
const ROUNDS: usize = 12;
/// One sigma of a reading that counts for nothing: far more than any place is in doubt by.
const LEFT_OUT: Length = Length::mm(100.0);
/// Steps of the differences, both ways, in mm.
const STEP: f64 = 1e-4;
/// A reading that others leave free but for the unknown pose has a variance of that of the pose: this much less of it is a check.
const CHECKED: f64 = 4.0;
/// A cause of two figures explains more by chance: limits of χ² at 0.1 % with two and with one degree of freedom, 13.82 − 10.83.
const TWO_FIGURES: f64 = 2.99;
/// Causes of which pairs are looked at.
const IN_PAIRS: usize = 40;

impl Before {
    /// Number of seats.
    fn seats(&self) -> usize {
        self.bars.len()
    }
}

/// The places of one lot of points beside those of another that knows nothing of it.
pub fn beside(first: &Covariance, second: &Covariance) -> Covariance {
    let (a, b) = (first.rows(), second.rows());
    let wide = |row: &Vec<f64>, before: usize, after: usize| {
        let nought = |n: usize| std::iter::repeat_n(0.0, n);
        nought(before).chain(row.iter().copied()).chain(nought(after)).collect()
    };
    let upper = a.iter().map(|row| wide(row, 0, b.len()));
    Covariance::of_rows(upper.chain(b.iter().map(|row| wide(row, a.len(), 0))).collect())
}

/// The places of points beside those of others that were set by them, each with an error of its own.
pub fn set_by(first: &Covariance, error: &Covariance) -> Covariance {
    let twice = |row: &Vec<f64>| row.iter().chain(row).copied().collect::<Vec<f64>>();
    let both = |(row, own): (&Vec<f64>, &Vec<f64>)| {
        let with = row.iter().zip(own).map(|(a, b)| a + b);
        row.iter().copied().chain(with).collect::<Vec<f64>>()
    };
    let upper = first.rows().iter().map(twice);
    Covariance::of_rows(upper.chain(first.rows().iter().zip(error.rows()).map(both)).collect())
}

/// The landing as it stands by all readings; the frame is looked for about `pose`.
///
/// # Errors
/// A seat that is not there, a sigma that is not above nought, or numbers that no place fits.
pub fn stand(
    before: &Before,
    landing: &Landing,
    pose: Pose,
    observations: &[Observation],
) -> Result<Standing, InputError> {
    let model = Model { before, seats: landing.seats(), mean: mean(landing, pose), home: home(landing, pose) };
    model.check(observations)?;
    let found = model.estimate(observations, None)?;
    let agreement = model.agreement(&found, observations);
    let left_over = (0..observations.len()).map(|i| found.standardised(i)).collect();
    let (found, rivals) = match &agreement {
        Agreement::Wrong { cause, .. } => (model.estimate(observations, Some(*cause))?, Vec::new()),
        Agreement::OneOf(causes) => {
            let without = |c: &Cause| model.estimate(observations, Some(*c)).map(|rival| rival.x);
            (found, causes.iter().map(without).collect::<Result<_, _>>()?)
        }
        Agreement::Agree => (found, Vec::new()),
    };
    Ok(Standing { seats: model.seats_of(&found, &rivals), agreement, left_over })
}

/// The landing with its seats as they stand.
///
/// # Errors
/// As those of a landing.
pub fn landing_as_it_stands(landing: &Landing, standing: &Standing) -> Result<Landing, InputError> {
    let seat = |(seat, found): (&Seat, &Stands)| Seat {
        at: found.at,
        mismatch: found.mismatch,
        height: seat.height + found.higher,
        face: seat.face.map(|face| face + found.higher),
        ..seat.clone()
    };
    Landing::new(landing.seats().iter().zip(&standing.seats).map(seat).collect(), landing.load().clone())
        .map(Landing::levelled)
}

fn mean(landing: &Landing, pose: Pose) -> Vec<f64> {
    let seats = landing.seats();
    let cones = seats.iter().flat_map(|s| s.at.pair());
    let cups = seats.iter().flat_map(|s| (s.at + s.mismatch).pair());
    let heights = std::iter::repeat_n(0.0, 2 * seats.len());
    let turns = [pose.yaw, pose.roll, pose.pitch].map(|a| a.as_milliradians());
    let shifts = [pose.dx, pose.dy, pose.z].map(Length::as_mm);
    cones.chain(cups).chain(heights).chain(shifts).chain(turns).collect()
}

/// A seat is home where its rim is no further off its cone.
const HOME: Length = Length::mm(0.02);

fn home(landing: &Landing, pose: Pose) -> Vec<bool> {
    let off = |seat: &Seat| seat.off_rim(pose.shift_at(seat.at, Length::ZERO) + seat.mismatch);
    landing.seats().iter().map(|seat| off(seat).length() <= HOME).collect()
}

/// What the readings would be for given unknowns.
struct Model<'a> {
    before: &'a Before,
    seats: &'a [Seat],
    mean: Vec<f64>,
    /// Which seats are home: at the apex of their cone a shift any way lifts, and none is a slope.
    home: Vec<bool>,
}

impl Model<'_> {
    fn check(&self, observations: &[Observation]) -> Result<(), InputError> {
        let n = self.seats.len();
        let fits = self.before.seats() == n && self.before.rises.len() == n && self.before.places.rows().len() == 4 * n;
        let there = |o: &Observation| match o.of {
            Observed::Cones(a, b) | Observed::Cups(a, b) => a < n && b < n && a != b,
            Observed::Height(i) | Observed::OffsetX(i) | Observed::OffsetY(i) | Observed::Gap(i) => i < n,
        };
        let sound = |o: &Observation| o.read.is_finite() && o.sigma.is_finite() && o.sigma > Length::ZERO;
        if fits && observations.iter().all(|o| there(o) && sound(o)) {
            return Ok(());
        }
        Err(InputError::OutOfRange("a reading of the landing"))
    }

    fn read(&self, of: Observed, x: &[f64]) -> f64 {
        let n = self.seats.len();
        let cone = |i: usize| Plan::mm(x[2 * i], x[2 * i + 1]);
        let cup = |i: usize| Plan::mm(x[2 * (n + i)], x[2 * (n + i) + 1]);
        let turn = |k: usize| Angle::milliradians(x[6 * n + 3 + k]);
        let shift = |k: usize| Length::mm(x[6 * n + k]);
        let pose = || Pose { dx: shift(0), dy: shift(1), z: shift(2), yaw: turn(0), roll: turn(1), pitch: turn(2) };
        let offset = |i: usize| pose().shift_at(self.seats[i].at, Length::ZERO) + cup(i) - cone(i);
        match of {
            Observed::Height(i) => self.before.bars[i].0.as_mm() + x[4 * n + i],
            Observed::OffsetX(i) => offset(i).x.as_mm(),
            Observed::OffsetY(i) => offset(i).y.as_mm(),
            Observed::Cones(a, b) => (cone(b) - cone(a)).length().as_mm(),
            Observed::Cups(a, b) => (cup(b) - cup(a)).length().as_mm(),
            Observed::Gap(i) => {
                let seat = &self.seats[i];
                let off = if self.home[i] { Length::ZERO } else { seat.off_rim(offset(i)).length() };
                let climb = off / seat.half_angle.tan();
                let height = seat.height.as_mm() + x[4 * n + i] + x[5 * n + i];
                pose().rise_at(seat.at).as_mm() - height - climb.as_mm()
            }
        }
    }

    /// Covariance before the readings; what was known of a seat that is wrong counts for nothing.
    fn sigma(&self, wrong: Option<Cause>) -> Matrix {
        let n = self.seats.len();
        let mut all = vec![vec![0.0; self.mean.len()]; self.mean.len()];
        for (row, known) in all.iter_mut().zip(self.before.places.rows()) {
            row[..4 * n].copy_from_slice(known);
        }
        let square = |l: Length| l.as_mm() * l.as_mm();
        for i in 0..n {
            all[4 * n + i][4 * n + i] = square(self.before.bars[i].1);
            all[5 * n + i][5 * n + i] = square(self.before.rises[i]);
        }
        let not_known = match wrong {
            Some(Cause::Place(i)) => vec![2 * (n + i), 2 * (n + i) + 1],
            Some(Cause::Height(i)) => vec![4 * n + i],
            Some(Cause::Reading(_)) | None => Vec::new(),
        };
        for i in not_known.into_iter().chain(6 * n..self.mean.len()) {
            all[i][i] += NOT_KNOWN * NOT_KNOWN;
        }
        all
    }

    /// With all readings, or without one thing that is wrong.
    fn estimate(&self, observations: &[Observation], wrong: Option<Cause>) -> Result<Estimate, InputError> {
        let sigma = self.sigma(wrong);
        let out = |(i, o): (usize, &Observation)| {
            let sigma = if wrong == Some(Cause::Reading(i)) { LEFT_OUT } else { o.sigma };
            Observation { sigma, ..*o }
        };
        let observations: Vec<Observation> = observations.iter().enumerate().map(out).collect();
        let mut x = self.mean.clone();
        let mut last = None;
        for _ in 0..ROUNDS {
            let found =
                self.step(&sigma, &observations, &x).ok_or(InputError::OutOfRange("readings of the landing"))?;
            let moved = found.x.iter().zip(&x).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
            x.clone_from(&found.x);
            last = Some(found);
            if moved < 1e-7 {
                break;
            }
        }
        last.ok_or(InputError::OutOfRange("readings of the landing"))
    }

    /// One round, linear about x.
    fn step(&self, sigma: &Matrix, observations: &[Observation], x: &[f64]) -> Option<Estimate> {
        let slope = |of: Observed, j: usize| {
            let at = |by: f64| {
                let mut moved = x.to_vec();
                moved[j] += by;
                self.read(of, &moved)
            };
            (at(STEP) - at(-STEP)) / (2.0 * STEP)
        };
        let h: Matrix = observations.iter().map(|o| (0..x.len()).map(|j| slope(o.of, j)).collect()).collect();
        let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
        // Σ Hᵀ, row by row of the unknowns.
        let reach: Matrix = sigma.iter().map(|row| h.iter().map(|h| dot(row, h)).collect()).collect();
        let column = |i: usize| reach.iter().map(|row| row[i]).collect::<Vec<f64>>();
        let mut s: Matrix = (0..h.len())
            .map(|i| {
                let c = column(i);
                h.iter().map(|h| dot(h, &c)).collect()
            })
            .collect();
        for (i, o) in observations.iter().enumerate() {
            s[i][i] += o.sigma.as_mm() * o.sigma.as_mm();
        }
        let m = inverse(&cholesky(s)?);
        let misfit: Vec<f64> = observations
            .iter()
            .zip(&h)
            .map(|(o, h)| {
                let back: f64 = h.iter().zip(x.iter().zip(&self.mean)).map(|(h, (x, mean))| h * (mean - x)).sum();
                o.read.as_mm() - self.read(o.of, x) - back
            })
            .collect();
        let pull: Vec<f64> = m.iter().map(|row| dot(row, &misfit)).collect();
        let found = self.mean.iter().zip(&reach).map(|(mean, row)| mean + dot(row, &pull)).collect();
        Some(Estimate { n: self.seats.len(), sigma: sigma.clone(), h, reach, m, pull, x: found })
    }

    /// What readings and survey say of each other.
    fn agreement(&self, found: &Estimate, observations: &[Observation]) -> Agreement {
        let readings = (0..observations.len()).map(Cause::Reading);
        let seats = (0..self.seats.len()).flat_map(|i| [Cause::Place(i), Cause::Height(i)]);
        let mut causes: Vec<(f64, Cause)> = readings.chain(seats).map(|c| (found.explained(c), c)).collect();
        causes.sort_by(|a, b| b.0.total_cmp(&a.0));
        let Some((most, cause)) = causes.first().copied().filter(|(most, _)| *most > SUSPECT * SUSPECT) else {
            return Agreement::Agree;
        };
        let alike = causes.iter().filter(|(by, _)| most - by < TOLD_APART).count();
        let rest = self.estimate(observations, Some(cause));
        let sound = |rest: &Estimate| {
            (0..observations.len()).all(|i| rest.standardised(i).is_none_or(|w| w.abs() <= DETECTABLE))
        };
        if alike > 1 || !rest.as_ref().is_ok_and(sound) {
            let stands_out = |(by, _): &&(f64, Cause)| most - by < RARER;
            return Agreement::OneOf(causes.iter().filter(stands_out).map(|(_, c)| *c).collect());
        }
        let by = match cause {
            Cause::Reading(i) => Some(Length::mm(found.pull[i] / found.m[i][i])),
            Cause::Place(_) | Cause::Height(_) => None,
        };
        Agreement::Wrong { cause, by, unless: found.pair_as_good(cause, &causes) }
    }

    /// The seats of an estimate; where it is not told which of several is wrong they may be those without any one of them.
    fn seats_of(&self, found: &Estimate, rivals: &[Vec<f64>]) -> Vec<Stands> {
        let n = self.seats.len();
        let mut q = found.covariance();
        for rival in rivals {
            let d: Vec<f64> = rival.iter().zip(&found.x).map(|(a, b)| a - b).collect();
            for (row, a) in q.iter_mut().zip(&d) {
                row.iter_mut().zip(&d).for_each(|(q, b)| *q += a * b / rivals.len() as f64);
            }
        }
        let off = |i: usize, j: usize| {
            let (c, d) = (2 * n + i, 2 * n + j);
            q[c][d] - q[c][j] - q[i][d] + q[i][j]
        };
        let rows = (0..2 * n).map(|i| (0..2 * n).map(|j| off(i, j)).collect()).collect();
        let at: Vec<Plan> = (0..n).map(|i| Plan::mm(found.x[2 * i], found.x[2 * i + 1])).collect();
        let raw: Vec<Plan> = (0..n).map(|i| Plan::mm(found.x[2 * (n + i)], found.x[2 * (n + i) + 1]) - at[i]).collect();
        let all: Vec<usize> = (0..n).collect();
        let datum = n >= 2;
        let covariance = Covariance::of_rows(rows);
        let covariance = if datum { covariance.in_datum(&at, &all) } else { covariance };
        let mismatch = if datum { shifts_in_datum(&raw, &at, &all) } else { raw };
        let one = |i: usize| {
            let (b, r) = (4 * n + i, 5 * n + i);
            let variance: f64 = q[b][b] + q[r][r] + 2.0 * q[b][r];
            Stands {
                at: at[i],
                mismatch: mismatch[i],
                sigma: covariance.sigma(i),
                higher: Length::mm(found.x[b] + found.x[r]),
                height_sigma: Length::mm(variance.max(0.0).sqrt()),
            }
        };
        (0..n).map(one).collect()
    }
}

/// An estimate with all that says how far its readings go together.
#[derive(Clone)]
struct Estimate {
    n: usize,
    sigma: Matrix,
    h: Matrix,
    /// Σ Hᵀ.
    reach: Matrix,
    /// S⁻¹.
    m: Matrix,
    /// S⁻¹ (y − h(μ)).
    pull: Vec<f64>,
    x: Vec<f64>,
}

impl Estimate {
    /// Q = Σ − Σ Hᵀ S⁻¹ H Σ.
    fn covariance(&self) -> Matrix {
        let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
        let half: Matrix = self.reach.iter().map(|row| self.m.iter().map(|m| dot(m, row)).collect()).collect();
        let row = |i: usize| (0..self.x.len()).map(|j| self.sigma[i][j] - dot(&half[i], &self.reach[j])).collect();
        (0..self.x.len()).map(row).collect()
    }

    /// The columns that a cause may have moved, one for each of its figures.
    fn columns(&self, cause: Cause) -> Vec<Vec<f64>> {
        let of = |j: usize| self.h.iter().map(|row| row[j]).collect();
        match cause {
            Cause::Reading(i) => vec![(0..self.h.len()).map(|k| f64::from(u8::from(k == i))).collect()],
            Cause::Place(i) => vec![of(2 * (self.n + i)), of(2 * (self.n + i) + 1)],
            Cause::Height(i) => vec![of(4 * self.n + i)],
        }
    }

    /// What is taken off the sum of squares without these: uᵀC (Cᵀ M C)⁻¹ Cᵀu. None where nothing checks them.
    fn freed(&self, causes: &[Cause]) -> Option<f64> {
        let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
        let columns: Vec<Vec<f64>> = causes.iter().flat_map(|c| self.columns(*c)).collect();
        // A figure that no reading moves with frees nothing.
        let columns: Vec<Vec<f64>> = columns.into_iter().filter(|c| c.iter().any(|v| v.abs() > 1e-9)).collect();
        if columns.is_empty() {
            return None;
        }
        let through: Matrix = columns.iter().map(|c| self.m.iter().map(|row| dot(row, c)).collect()).collect();
        let normal = through.iter().map(|t| columns.iter().map(|c| dot(t, c)).collect()).collect();
        let right: Vec<f64> = columns.iter().map(|c| dot(c, &self.pull)).collect();
        let by = solve(&cholesky(normal)?, right.clone());
        Some(dot(&by, &right))
    }

    /// By how much a cause explains the misfit, over what chance gives.
    fn explained(&self, cause: Cause) -> f64 {
        let chance = if matches!(cause, Cause::Place(_)) { TWO_FIGURES } else { 0.0 };
        let checked = !matches!(cause, Cause::Reading(i) if self.standardised(i).is_none());
        if checked { self.freed(&[cause]).map_or(0.0, |by| by - chance) } else { 0.0 }
    }

    /// A reading's w: u_i/√M_ii; none where it only says where the frame lies.
    fn standardised(&self, i: usize) -> Option<f64> {
        let own = self.m[i][i];
        (own * NOT_KNOWN * NOT_KNOWN > CHECKED).then(|| self.pull[i] / own.sqrt())
    }

    /// Two others without which the rest fits nearly as well.
    fn pair_as_good(&self, cause: Cause, causes: &[(f64, Cause)]) -> Option<[Cause; 2]> {
        let most = self.freed(&[cause])?;
        let others: Vec<Cause> = causes.iter().map(|(_, c)| *c).filter(|c| *c != cause).take(IN_PAIRS).collect();
        let pairs = others.iter().enumerate().flat_map(|(i, a)| others[..i].iter().map(move |b| [*b, *a]));
        let judged = pairs.filter_map(|pair| {
            let places = pair.iter().filter(|c| matches!(c, Cause::Place(_))).count() as f64;
            Some((self.freed(&pair)? - places * TWO_FIGURES, pair))
        });
        let (by, pair) = judged.max_by(|a, b| a.0.total_cmp(&b.0))?;
        (most - by < TOLD_APART - RARER).then_some(pair)
    }
}
