//! How quickly rest poses are found. Run with `cargo bench --bench landing`; the same cases in Python:
//! tests/bench/landing_python.py reads the file written here.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "a bench: a failure should stop it")]

use std::time::Instant;

use setdown::formulas::frame::chance::{SeatSpread, Study, chance};
use setdown::formulas::frame::rest::{Solver, rest};
use setdown::formulas::frame::{Landing, Load, Plan, Seat, SeatKind};
use setdown::formulas::random::SplitMix;
use setdown::units::{Angle, Force, Length};

fn ring(n: usize, seed: u64) -> Landing {
    let mut random = SplitMix::new(seed);
    let seats = (0..n).map(|k| {
        let a = Angle::degrees(360.0 * (k as f64 + 0.5) / n as f64);
        let [ex, ey] = random.normals();
        Seat::round(&format!("s{k}"), Plan::mm(900.0 * a.cos(), 600.0 * a.sin()), Angle::degrees(30.0))
            .with_mismatch(Plan::mm(ex, ey))
    });
    Landing::new(seats.collect(), Load::of_weight(Force::newtons(4000.0), Plan::default())).unwrap()
}

/// Seconds this thread has spent on a core (so that other work on the machine does not count); wall clock where the
/// system does not tell.
fn on_core(start: Instant) -> f64 {
    let text = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap_or_default();
    let nanoseconds = text.split(' ').next().and_then(|n| n.parse::<f64>().ok());
    nanoseconds.map_or_else(|| start.elapsed().as_secs_f64(), |n| 1e-9 * n)
}

/// Seconds on a core per call, best of five batches.
fn timed(batch: usize, mut f: impl FnMut(usize)) -> f64 {
    let one = |f: &mut dyn FnMut(usize)| {
        let start = Instant::now();
        let before = on_core(start);
        (0..batch).for_each(&mut *f);
        (on_core(start) - before) / batch as f64
    };
    (0..5).map(|_| one(&mut f)).fold(f64::INFINITY, f64::min)
}

fn main() {
    let cases: Vec<Landing> = (0..500).map(|i| ring(4, i)).collect();
    let mut solver = Solver::new(&cases[0]);
    let cold = timed(2500, |i| {
        let _ = std::hint::black_box(solver.pose(&cases[i % cases.len()]));
    });
    println!("rest pose, four round cups, cold, one core: {:.2} us, {:.0} poses/s", 1e6 * cold, 1.0 / cold);
    solver.pose(&cases[0]).unwrap();
    solver.keep_as_start();
    let warm = timed(2500, |i| {
        let _ = std::hint::black_box(solver.pose(&cases[i % cases.len()]));
    });
    println!("the same with a warm start:                 {:.2} us, {:.0} poses/s", 1e6 * warm, 1.0 / warm);
    let full = timed(2500, |i| {
        let _ = std::hint::black_box(rest(&cases[i % cases.len()]));
    });
    println!("full result (loads, uniqueness, wander):    {:.2} us", 1e6 * full);
    for n in [4, 8, 12, 16, 20, 24, 28, 32, 36, 40] {
        let many: Vec<Landing> = (0..60).map(|i| ring(n, i)).collect();
        let mut solver = Solver::new(&many[0]);
        let t = timed(30_000 / n, |i| {
            let _ = std::hint::black_box(solver.pose(&many[i % many.len()]));
        });
        println!("{n:3} seats: {:7.2} us, {:.2} us per seat", 1e6 * t, 1e6 * t / n as f64);
    }
    draws("four round cups", &ring(4, 0));
    let l = ring(4, 0);
    let slot = SeatKind::endless_slot((l.seats()[2].at - l.seats()[0].at).direction());
    let clear = SeatKind::Clear { clearance: Length::mm(30.0), on_pad: true };
    let kinds = [SeatKind::Round, clear, slot, clear];
    let seats = l.seats().iter().zip(kinds).map(|(s, k)| s.clone().with_kind(k)).collect();
    draws("round, slot, two clear", &Landing::new(seats, l.load().clone()).unwrap());
    write_cases(&cases);
}

fn draws(what: &str, l: &Landing) {
    let spread =
        SeatSpread { position: Length::mm(1.0), height: Length::mm(0.2), rise: (Length::mm(-0.15), Length::mm(0.15)) };
    let study = Study {
        together: None,
        spread: vec![spread; l.seats().len()],
        draws: 20_000,
        seed: 1,
        seated_within: Length::mm(0.1),
        target: Plan::default(),
        target_height: Length::mm(1500.0),
        bins: 30,
    };
    for threads in [1, 2] {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        let one = || {
            let start = Instant::now();
            let c = pool.install(|| chance(l, &study, &|_| {})).unwrap();
            assert_eq!(c.unsolved, 0);
            start.elapsed().as_secs_f64()
        };
        let t = (0..5).map(|_| one()).fold(f64::INFINITY, f64::min);
        println!("20,000 draws, {what}, {threads} thread(s): {t:.3} s by the clock");
    }
}

fn write_cases(cases: &[Landing]) {
    let seat = |s: &Seat| [s.at.x, s.at.y, s.mismatch.x, s.mismatch.y].map(|v| v.as_mm());
    let all: Vec<Vec<[f64; 4]>> = cases.iter().take(100).map(|l| l.seats().iter().map(seat).collect()).collect();
    let file = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("landing_bench_cases.json");
    std::fs::write(&file, serde_json::to_string(&all).unwrap()).unwrap();
    println!("cases written to {}", file.display());
}
