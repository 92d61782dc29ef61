//! What a part's files cost: its sheets laid out and written as PDF and as SVG, and all of it from the text of the part
//! file to the bytes of every file, for every part of the demo.
//!
//! Run: cargo bench --bench pages

#![allow(clippy::expect_used, reason = "a bench stops with a message when its own inputs are wrong")]

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use setdown::export::{self, Options, pdf, svg};
use setdown::record::design::Design;
use setdown::sheet::content::Style;
use setdown::sheet::of_design;
use setdown::shop::Shop;

const RUNS: usize = 15;

/// A page, laid out and written both ways, ms.
const PAGE: f64 = 0.5;
/// A part with all its files, ms; the landing's and the shims' draws are not of this bench.
const PART: f64 = 8.0;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("parts")
}

fn read(name: &str) -> Result<String, String> {
    std::fs::read_to_string(folder().join(name)).map_err(|e| e.to_string())
}

fn names() -> Vec<String> {
    let entries = std::fs::read_dir(folder()).expect("the folder of parts");
    let mut names: Vec<String> = entries.filter_map(|e| e.expect("an entry").file_name().into_string().ok()).collect();
    names.retain(|n| n.ends_with(".toml") && n != "shop.toml");
    names.sort();
    names
}

fn work(name: &str) -> Design {
    let neighbour = |_: &str, name: &str| Ok((name.to_string(), read(name)?));
    setdown::job::work(name, &read(name).expect("a part file"), &Shop::default(), &neighbour).expect("a sound part")
}

/// Least time of some runs.
fn least(mut once: impl FnMut()) -> Duration {
    let timed = |_| {
        let start = Instant::now();
        once();
        start.elapsed()
    };
    (0..RUNS).map(timed).min().expect("some runs")
}

/// Lays all sheets of a part out and writes them both ways; gives back how many there are.
fn sheets(design: &Design) -> usize {
    let sheets = of_design::sheets(design, &Style::default()).expect("sheets");
    let pages: Vec<_> = sheets.bench.into_iter().chain(sheets.reasons).collect();
    std::hint::black_box(pdf::write(&pages, &design.header.name));
    pages.iter().for_each(|page| drop(std::hint::black_box(svg::write(page))));
    pages.len()
}

fn main() {
    println!("sheets: laid out, PDF and SVG written, one core, least of {RUNS}; files: every kind, in memory");
    println!("  {:<22}{:>6} {:>13} {:>13} {:>14}", "part", "pages", "ms a page", "ms of work", "ms all files");
    let mut whole = (Duration::ZERO, 0);
    let mut dearest = 0.0_f64;
    for name in names() {
        let design = work(&name);
        let pages = sheets(&design);
        let time = least(|| {
            sheets(&design);
        });
        let worked = least(|| drop(std::hint::black_box(work(&name))));
        let files = least(|| drop(std::hint::black_box(export::files(&design, &Options::default()).expect("files"))));
        let [work, files] = [worked, files].map(|t| t.as_secs_f64() * 1e3);
        println!("  {:<22}{pages:>6} {:13.3} {work:13.3} {files:14.3}", design.header.stem, each(time, pages));
        whole = (whole.0 + time, whole.1 + pages);
        dearest = dearest.max(files);
    }
    println!("  a page of all {:>13} {:13.3} ms, aim {PAGE}", whole.1, each(whole.0, whole.1));
    println!("  all files of the dearest part {dearest:11.3} ms, aim {PART} with the work");
}

fn each(time: Duration, pages: usize) -> f64 {
    time.as_secs_f64() * 1e3 / pages as f64
}
