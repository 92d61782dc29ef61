//! What a drawing sheet costs: laid out, and written as PDF and as SVG, for every part of the demo.
//!
//! Run: cargo bench --bench pages

#![allow(clippy::expect_used, reason = "a bench stops with a message when its own inputs are wrong")]

use std::path::Path;
use std::time::{Duration, Instant};

use setdown::design::Design;
use setdown::export::{pdf, svg};
use setdown::page::content::Style;
use setdown::page::of_design;
use setdown::shop::Shop;

const RUNS: usize = 5;

fn demo() -> Vec<Design> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("parts");
    let read = |name: &str| std::fs::read_to_string(folder.join(name)).map_err(|e| e.to_string());
    let neighbour = |_: &str, name: &str| Ok((name.to_string(), read(name)?));
    let entries = std::fs::read_dir(&folder).expect("the folder of parts");
    let mut names: Vec<String> = entries.filter_map(|e| e.expect("an entry").file_name().into_string().ok()).collect();
    names.retain(|n| n.ends_with(".toml") && n != "shop.toml");
    names.sort();
    let work = |name: &String| {
        setdown::job::work(name, &read(name).expect("a part file"), &Shop::default(), &neighbour).expect("a sound part")
    };
    names.iter().map(work).collect()
}

/// Least time of a few runs to lay all sheets of a part out and write them both ways, and how many there are.
fn sheets(design: &Design) -> (Duration, usize) {
    let once = || {
        let start = Instant::now();
        let pages = of_design::sheets(design, &Style::default()).expect("sheets");
        std::hint::black_box(pdf::write(&pages, &design.header.name));
        pages.iter().for_each(|page| drop(std::hint::black_box(svg::write(page))));
        (start.elapsed(), pages.len())
    };
    (0..RUNS).map(|_| once()).min().expect("some runs")
}

fn main() {
    println!("drawing sheets: laid out, PDF and SVG written, one core, least of {RUNS}");
    let mut whole = (Duration::ZERO, 0);
    for design in demo() {
        let (time, pages) = sheets(&design);
        println!("  {:<22}{pages:>3} pages {:8.3} ms each", design.header.stem, each(time, pages));
        whole = (whole.0 + time, whole.1 + pages);
    }
    println!("  all {:>21} pages {:8.3} ms each", whole.1, each(whole.0, whole.1));
}

fn each(time: Duration, pages: usize) -> f64 {
    time.as_secs_f64() * 1e3 / pages as f64
}
