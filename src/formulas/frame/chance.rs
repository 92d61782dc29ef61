//! How likely does it seat? Seeded draws of all errors, the rest pose solved for each.
//!
//! Every draw has its own generator, made from the seed and the number of the draw, so the result does not
//! depend on the number of threads. Errors are normal.

use rayon::prelude::*;

use super::model::{InputError, Landing, Plan, Pose, Seat};
use super::outcome::NoRest;
use super::rest::Solver;
use crate::formulas::random::SplitMix;
use crate::formulas::shares::first_order;
use crate::units::Length;

/// Draws worked when nothing else is said.
pub const DRAWS: usize = 20_000;
/// Draws between two calls of the progress function.
const CHUNK: usize = 1_000;

/// Uncertainty of one seat, one sigma.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct SeatSpread {
    /// Cup against cone, along x and along y each.
    pub position: Length,
    /// Seat height.
    pub height: Length,
    /// Lower and upper deviation of the height by the limits of cup and cone: two even draws between them, one of the cup
    /// and one of the cone.
    pub rise: (Length, Length),
}

/// What is drawn and what is watched.
#[derive(Clone, PartialEq, Debug)]
pub struct Study {
    /// One entry per seat.
    pub spread: Vec<SeatSpread>,
    /// Lower triangle in mm, two rows for each seat, that makes all positions of a draw from independent normal numbers;
    /// `None`: each seat's position by itself.
    pub together: Option<Vec<Vec<f64>>>,
    /// Number of draws.
    pub draws: usize,
    /// Seed.
    pub seed: u64,
    /// A seat counts as seated when it has no more gap and no more lift than this.
    pub seated_within: Length,
    /// Point of the frame whose place is watched.
    pub target: Plan,
    /// Its height above the seats.
    pub target_height: Length,
    /// Number of bars of the histogram.
    pub bins: usize,
}

/// Spread of one quantity.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Spread {
    /// Mean.
    pub mean: Length,
    /// Standard deviation.
    pub deviation: Length,
    /// 95 of 100 are below.
    pub p95: Length,
    /// Largest.
    pub largest: Length,
}

/// Result of a study.
#[derive(Clone, PartialEq, Debug)]
pub struct Chance {
    /// Draws with a rest pose.
    pub solved: usize,
    /// Draws in which the frame does not go on (clear holes clash) or slides away.
    pub not_landed: usize,
    /// Draws that could not be computed.
    pub unsolved: usize,
    /// Share of all draws in which every seat is fully seated.
    pub seating_share: f64,
    /// Shift of the target along x.
    pub target_x: Spread,
    /// Shift of the target along y.
    pub target_y: Spread,
    /// Distance of the target from its nominal place in plan.
    pub target_off: Spread,
    /// Rise of the target point.
    pub target_rise: Spread,
    /// Gap under the worst seat of each draw.
    pub worst_gap: Spread,
    /// Mean and largest gap per seat.
    pub seat_gaps: Vec<Spread>,
    /// Width of one bar of the histogram of the target's distance, from nought.
    pub bin_width: Length,
    /// Draws per bar.
    pub bins: Vec<usize>,
    /// From which inputs it comes whether a frame seats, and where its target lies.
    pub shares: Shares,
}

/// First-order shares of the inputs in the variance: of what is 1 where a frame seats and 0 where it does not, and of the
/// place of the target in plan.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Shares {
    /// In the order of [`INPUTS`]: of seating.
    pub seating: [f64; 3],
    /// Of the target's place.
    pub target: [f64; 3],
}

/// Inputs of the draws that are told apart.
pub const INPUTS: [&str; 3] = ["places of the seats", "heights of the seats as measured", "limits of cups and cones"];

/// Draws of which the second has one input of the first.
const PAIRS: usize = 1_500;

/// What one draw gives, in mm.
#[derive(Clone, Debug)]
struct Draw {
    shift: [f64; 2],
    rise: f64,
    gaps: Vec<f64>,
    seated: bool,
}

/// Works a study on the threads of the present pool. `progress` is told how many draws are done.
pub fn chance(landing: &Landing, study: &Study, progress: &(dyn Fn(usize) + Sync)) -> Result<Chance, InputError> {
    check(landing, study)?;
    let nominal = trained_solver(landing, study);
    let done = std::sync::atomic::AtomicUsize::new(0);
    let chunks: Vec<Vec<Result<Draw, NoRest>>> = (0..study.draws.div_ceil(CHUNK))
        .into_par_iter()
        .map(|chunk| {
            let range = chunk * CHUNK..((chunk + 1) * CHUNK).min(study.draws);
            let out = work_chunk(landing, study, &nominal, range.clone());
            progress(done.fetch_add(range.len(), std::sync::atomic::Ordering::Relaxed) + range.len());
            out
        })
        .collect();
    let mut found = summary(landing, study, chunks.into_iter().flatten());
    found.shares = shares(landing, study, &nominal);
    Ok(found)
}

/// Which input the spread comes from: pairs of draws that have one of them in common.
fn shares(landing: &Landing, study: &Study, start: &Solver) -> Shares {
    const FIRST: u64 = 1 << 40;
    let pairs = PAIRS.min(study.draws);
    let one = |k: usize| {
        let (mut solver, mut own) = (start.clone(), landing.clone());
        let (base, anew) = (FIRST + 2 * k as u64, FIRST + 2 * k as u64 + 1);
        let mut of = |from: [u64; 3]| {
            shake_from(landing, study, &mut own, from);
            answer(study, &mut solver, &own)
        };
        let whole = of([base; 3]);
        let frozen = [0, 1, 2].map(|i| of([0, 1, 2].map(|j| if i == j { base } else { anew })));
        (whole, frozen)
    };
    let all: Vec<(Option<Draw>, [Option<Draw>; 3])> = (0..pairs).into_par_iter().map(one).collect();
    let seats = |d: &Option<Draw>| [f64::from(d.as_ref().is_some_and(|d| d.seated))];
    let mut found = Shares::default();
    for (i, (seating, target)) in found.seating.iter_mut().zip(&mut found.target).enumerate() {
        let pairs = || all.iter().filter_map(|(whole, frozen)| Some((whole, frozen.get(i)?)));
        *seating = first_order(&pairs().map(|(a, b)| (seats(a), seats(b))).collect::<Vec<_>>());
        let both = |(a, b): (&Option<Draw>, &Option<Draw>)| Some((a.as_ref()?.shift, b.as_ref()?.shift));
        *target = first_order(&pairs().filter_map(both).collect::<Vec<_>>());
    }
    found
}

fn check(landing: &Landing, study: &Study) -> Result<(), InputError> {
    if study.spread.len() != landing.seats().len() {
        return Err(InputError::OutOfRange("number of spreads (one per seat)"));
    }
    let sound = |l: Length| l.is_finite() && l >= Length::ZERO;
    let spreads = study
        .spread
        .iter()
        .all(|s| sound(s.position) && sound(s.height) && sound(s.rise.1 - s.rise.0) && s.rise.0.is_finite());
    let target = study.target.is_finite() && study.target_height.is_finite() && sound(study.seated_within);
    let rows = study.together.as_ref().is_none_or(|rows| rows.len() == 2 * study.spread.len());
    if spreads && rows && target && study.draws > 0 && study.bins > 0 {
        return Ok(());
    }
    Err(InputError::OutOfRange("spread, target, draws or bins"))
}

/// A solver that knows what touches in most draws, from some drawn apart from the study's own. The same for every chunk, so
/// that the answer does not hang on how the draws are shared out.
fn trained_solver(landing: &Landing, study: &Study) -> Solver {
    const TRIALS: usize = 200;
    let mut solver = Solver::new(landing);
    for i in 0..TRIALS {
        if solver.pose(&drawn(landing, study, u64::MAX - i as u64)).is_ok() {
            solver.keep_as_start();
        }
    }
    solver.sort_starts(TRIALS);
    solver
}

fn work_chunk(
    landing: &Landing,
    study: &Study,
    start: &Solver,
    range: std::ops::Range<usize>,
) -> Vec<Result<Draw, NoRest>> {
    let (mut solver, mut own) = (start.clone(), landing.clone());
    range.map(|i| draw(landing, study, &mut solver, &mut own, i as u64)).collect()
}

/// The landing with the errors of one draw.
fn drawn(landing: &Landing, study: &Study, index: u64) -> Landing {
    let mut own = landing.clone();
    shake(landing, study, &mut own, index);
    own
}

fn shake(landing: &Landing, study: &Study, own: &mut Landing, index: u64) {
    let mut random = SplitMix::for_draw(study.seed, index);
    place(landing, study, own, &mut || numbers(&mut random));
}

/// The same with each input from a draw of its own: places, heights, limits.
fn shake_from(landing: &Landing, study: &Study, own: &mut Landing, from: [u64; 3]) {
    let mut streams = from.map(|index| SplitMix::for_draw(study.seed, index));
    // Every stream goes through all numbers, so that three of the same draw give what that draw gives.
    place(landing, study, own, &mut || {
        let [(place, ..), (_, height, _), (.., within)] = streams.each_mut().map(numbers);
        (place, height, within)
    });
}

/// Moves every seat by the numbers that are drawn for it.
fn place(landing: &Landing, study: &Study, own: &mut Landing, numbers: &mut dyn FnMut() -> Numbers) {
    let pairs = landing.seats().iter().zip(&study.spread);
    let mut drawn = Vec::new();
    for (seat, (nominal, spread)) in own.seats_mut().iter_mut().zip(pairs) {
        let ([ex, ey], height, within) = numbers();
        let (least, most) = spread.rise;
        drawn.extend([ex, ey]);
        let off = match &study.together {
            None => Plan { x: spread.position * ex, y: spread.position * ey },
            Some(rows) => moved_together(rows, &drawn),
        };
        seat.mismatch = nominal.mismatch + off;
        seat.height = nominal.height + spread.height * height + least + (most - least) * within;
    }
}

/// The numbers of one seat: two for its place, one for its height, one between its limits.
type Numbers = ([f64; 2], f64, f64);

fn numbers(random: &mut SplitMix) -> Numbers {
    let (place, [height, _]) = (random.normals(), random.normals());
    (place, height, 0.5 * (random.uniform() + random.uniform()))
}

/// Position of the seat whose two normal numbers were drawn last: its rows of the triangle times all drawn so far.
fn moved_together(rows: &[Vec<f64>], drawn: &[f64]) -> Plan {
    let row = |i: usize| {
        let row = rows.get(i).map(Vec::as_slice).unwrap_or_default();
        row.iter().zip(drawn).map(|(a, b)| a * b).sum::<f64>()
    };
    let last = drawn.len().saturating_sub(2);
    Plan::mm(row(last), row(last + 1))
}

fn draw(landing: &Landing, study: &Study, solver: &mut Solver, own: &mut Landing, i: u64) -> Result<Draw, NoRest> {
    shake(landing, study, own, i);
    let pose = solver.pose(own)?;
    Ok(read(study, own, &pose))
}

/// The same for a landing that was shaken already; none where it finds no place.
fn answer(study: &Study, solver: &mut Solver, own: &Landing) -> Option<Draw> {
    solver.pose(own).ok().map(|pose| read(study, own, &pose))
}

fn read(study: &Study, own: &Landing, pose: &Pose) -> Draw {
    let within = study.seated_within.as_mm();
    let gaps: Vec<f64> = own.seats().iter().map(|s| gap(s, pose)).collect();
    let lifts = own.seats().iter().filter(|s| s.carries()).map(|s| (pose.rise_at(s.at) - s.height).as_mm());
    let seated = lifts.fold(0.0, f64::max) <= within;
    let shift = pose.shift_at(study.target, study.target_height).pair();
    Draw { shift, rise: pose.rise_at(study.target).as_mm(), gaps, seated }
}

fn gap(seat: &Seat, pose: &Pose) -> f64 {
    let offset = pose.shift_at(seat.at, Length::ZERO) + seat.mismatch;
    super::rest::gap(seat, offset, pose.rise_at(seat.at) - seat.height).as_mm()
}

fn spread_of(mut values: Vec<f64>) -> Spread {
    let n = values.len();
    if n == 0 {
        return Spread::default();
    }
    let mean = values.iter().sum::<f64>() / n as f64;
    let square: f64 = values.iter().map(|v| (v - mean) * (v - mean)).sum();
    values.sort_by(f64::total_cmp);
    let at = |share: f64| values.get(((n - 1) as f64 * share).round() as usize).copied().unwrap_or(0.0);
    let deviation = (square / (n.max(2) - 1) as f64).sqrt();
    Spread {
        mean: Length::mm(mean),
        deviation: Length::mm(deviation),
        p95: Length::mm(at(0.95)),
        largest: Length::mm(at(1.0)),
    }
}

fn summary(landing: &Landing, study: &Study, draws: impl Iterator<Item = Result<Draw, NoRest>>) -> Chance {
    let (mut good, mut unsolved, mut not_landed) = (Vec::new(), 0, 0);
    for d in draws {
        match d {
            Ok(d) => good.push(d),
            Err(NoRest::Unsolved) => unsolved += 1,
            Err(_) => not_landed += 1,
        }
    }
    let column = |f: &dyn Fn(&Draw) -> f64| good.iter().map(f).collect::<Vec<f64>>();
    let off = column(&|d| libm::hypot(d.shift[0], d.shift[1]));
    let gap_of = |i: usize| spread_of(column(&|d| d.gaps.get(i).copied().unwrap_or(0.0)));
    let (bin_width, bins) = histogram(&off, study.bins);
    Chance {
        solved: good.len(),
        not_landed,
        unsolved,
        seating_share: good.iter().filter(|d| d.seated).count() as f64 / study.draws as f64,
        target_x: spread_of(column(&|d| d.shift[0])),
        target_y: spread_of(column(&|d| d.shift[1])),
        target_off: spread_of(off),
        target_rise: spread_of(column(&|d| d.rise)),
        worst_gap: spread_of(column(&|d| d.gaps.iter().copied().fold(0.0, f64::max))),
        seat_gaps: (0..landing.seats().len()).map(gap_of).collect(),
        bin_width,
        bins,
        shares: Shares::default(),
    }
}

fn histogram(values: &[f64], count: usize) -> (Length, Vec<usize>) {
    let top = values.iter().copied().fold(0.0, f64::max).max(1e-6);
    let width = top / count as f64;
    let mut bins = vec![0; count];
    for v in values {
        let bar = ((v / width) as usize).min(count - 1);
        if let Some(b) = bins.get_mut(bar) {
            *b += 1;
        }
    }
    (Length::mm(width), bins)
}
