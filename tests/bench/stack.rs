//! Draws per second of a dimension chain on one core, beside numpy doing the same chain.
//!
//! Run with `cargo bench --bench stack`. Python with numpy: the environment variable SETDOWN_PYTHON, else
//! tests/.venv/bin/python. Both sides make the same sums, mean, standard deviation, shares outside, a histogram and
//! five percentiles from a million draws; the best of several runs is shown, since other work only ever slows one down.

#![allow(
    clippy::expect_used,
    clippy::indexing_slicing,
    reason = "a bench stops with a message when its own inputs are wrong"
)]

use std::path::Path;
use std::process::Command;
use std::time::Instant;

use serde_json::{Value, json};
use setdown::formulas::Range;
use setdown::formulas::stack::{Chain, Direction, Distribution, Member, Simulated, Trials, simulate};
use setdown::units::Length;

const COUNT: u32 = 1_000_000;
const RUNS: usize = 15;
const PERCENTILES: [f64; 5] = [0.001, 0.05, 0.5, 0.95, 0.999];
const MEMBERS: [(&str, f64, f64, f64); 4] = [
    ("housing", 1.0, 50.0, 0.05),
    ("inner ring", -1.0, 20.0, 0.02),
    ("sleeve", -1.0, 24.9, 0.03),
    ("washer", -1.0, 5.0, 0.01),
];
const MIXES: [(&str, [Distribution; 4]); 4] = [
    ("uniform", [Distribution::Uniform; 4]),
    ("triangular", [Distribution::Triangular; 4]),
    ("normal", [Distribution::Normal; 4]),
    ("mixed", [Distribution::Normal, Distribution::Uniform, Distribution::Triangular, Distribution::Normal]),
];

fn chain(mix: &[Distribution; 4]) -> Chain {
    let member = |(m, distribution): (&(&str, f64, f64, f64), &Distribution)| {
        let direction = if m.1 > 0.0 { Direction::Adds } else { Direction::Subtracts };
        let deviations = Range { min: Length::mm(-m.3), max: Length::mm(m.3) };
        Member::toleranced(m.0, direction, Length::mm(m.2), deviations, *distribution)
    };
    Chain::new(MEMBERS.iter().zip(mix).map(member).collect()).expect("the chain closes")
}

/// Best time of one run in seconds, and the last result.
fn ours(mix: &[Distribution; 4]) -> (f64, Simulated) {
    let chain = chain(mix);
    let limits = Range { min: Length::ZERO, max: Length::mm(0.2) };
    let mut best = f64::INFINITY;
    let mut last = None;
    for seed in 0..RUNS as u64 {
        let start = Instant::now();
        let got = simulate(&chain, limits, Trials { seed, count: COUNT }).expect("valid trials");
        let bars = got.histogram(60);
        let found = PERCENTILES.map(|p| got.percentile(p).expect("a percentile"));
        best = best.min(start.elapsed().as_secs_f64());
        std::hint::black_box((bars, found));
        last = Some(got);
    }
    (best, last.expect("at least one run"))
}

/// numpy's answers for all mixes, or why there are none.
fn numpy() -> Result<Value, String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let python = std::env::var("SETDOWN_PYTHON")
        .unwrap_or_else(|_| root.join("tests/.venv/bin/python").to_string_lossy().into_owned());
    let members: Vec<Value> = MEMBERS.iter().map(|m| json!({"sign": m.1, "nominal": m.2, "half": m.3})).collect();
    let mixes: Vec<Value> = MIXES
        .iter()
        .map(|m| json!({"name": m.0, "kinds": m.1.iter().map(|d| format!("{d:?}").to_lowercase()).collect::<Vec<_>>()}))
        .collect();
    let task = json!({"members": members, "mixes": mixes, "count": COUNT, "runs": RUNS, "percentiles": PERCENTILES,
        "limits": [0.0, 0.2]});
    let output = Command::new(&python)
        .arg(root.join("tests/bench/stack_numpy.py"))
        .arg(task.to_string())
        .env("OMP_NUM_THREADS", "1")
        .output()
        .map_err(|error| format!("{python}: {error}"))?;
    if !output.status.success() {
        return Err(format!("{python}: {}", String::from_utf8_lossy(&output.stderr)));
    }
    serde_json::from_slice(&output.stdout).map_err(|error| error.to_string())
}

fn compare(name: &str, seconds: f64, got: &Simulated, numpy: &Value) {
    let rate = |s: f64| f64::from(COUNT) / s / 1e6;
    let theirs = &numpy[name];
    let number = |key: &str| theirs[key].as_f64().unwrap_or(f64::NAN);
    println!(
        "{name:<11} setdown {:7.1}   numpy {:6.1} (drawing alone {:6.1})   ratio {:.1}",
        rate(seconds),
        rate(number("seconds")),
        rate(number("seconds_drawing")),
        number("seconds") / seconds,
    );
    let sigma = got.standard_deviation.as_mm();
    for (i, p) in PERCENTILES.iter().enumerate() {
        let ours = got.percentile(*p).expect("a percentile").as_mm();
        let other = theirs["percentiles"][i].as_f64().unwrap_or(f64::NAN);
        // Density from the distance of two neighbouring percentiles.
        let step = 0.2 * p.min(1.0 - p);
        let wide = got.percentile(p + step).expect("a percentile") - got.percentile(p - step).expect("a percentile");
        let sampling = (2.0 * p * (1.0 - p) / f64::from(COUNT)).sqrt() * wide.as_mm() / (2.0 * step);
        println!(
            "    {:>5.1} %: {ours:9.6} and {other:9.6} mm, apart {:4.1} sampling errors ({:.5} sigma)",
            p * 100.0,
            (ours - other).abs() / sampling,
            (ours - other).abs() / sigma
        );
        assert!((ours - other).abs() < 6.0 * sampling, "percentiles differ by more than sampling explains");
    }
}

fn main() {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(1).build().expect("one thread");
    let results: Vec<_> = MIXES.iter().map(|(name, mix)| (*name, pool.install(|| ours(mix)))).collect();
    println!("chain of 4 members, {COUNT} draws with statistics, one core, million draws per second");
    match numpy() {
        Ok(numpy) => results.iter().for_each(|(name, (seconds, got))| compare(name, *seconds, got, &numpy)),
        Err(reason) => {
            for (name, (seconds, _)) in &results {
                println!("{name:<11} setdown {:7.1}", f64::from(COUNT) / seconds / 1e6);
            }
            println!("numpy: NOT RUN ({reason})");
            std::process::exit(1);
        }
    }
}
