//! Part files spoilt at random, worked in this process as the program works them. No panic, no number that is none, no
//! limit of nought, nothing unseen, no part that `check` accepts and `make` cannot write, the same bytes twice.
//!
//!     cargo test --test fuzz -- SECONDS [SEED]
//!
//! Seeds are the demo, the templates, the files in `tests/fuzz/seeds` and parts drawn by lot. What is found is left in
//! `target/tmp/fuzz`, and the run ends with an error.

#![allow(
    clippy::expect_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing that is not as it should be"
)]

#[path = "../held/mod.rs"]
mod held;
#[path = "../lot/mod.rs"]
mod lot;
mod spoil;

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};
use std::{env, fs, process};

use lot::Lot;
use setdown::description::Problem;
use setdown::export;
use setdown::families::FAMILIES;
use setdown::job;
use setdown::printable::first_unseen;
use setdown::record::design::Design;
use setdown::sheet::content::Style;
use setdown::shop::Shop;
use setdown::units::Length;

/// A part file with the files beside it.
#[derive(Clone)]
pub struct Seed {
    pub name: String,
    pub text: String,
    pub beside: BTreeMap<String, String>,
}

/// One case in so many has its files made, and one of those has them made twice.
const FILES: usize = 6;
const TWICE: usize = 4;
/// A case that takes longer is a find: a person would think that the program hangs.
const PATIENCE: Duration = Duration::from_secs(20);
/// Facets as coarse as `make` allows, so that more cases fit into the time.
const CHORD: Length = Length::mm(0.5);

#[derive(Default)]
struct Tally {
    cases: u64,
    accepted: u64,
    written: u64,
    slowest: Duration,
    finds: BTreeMap<String, u64>,
}

fn main() {
    let mut numbers = env::args().skip(1).filter_map(|a| a.parse::<u64>().ok());
    let (seconds, seed) = (numbers.next().unwrap_or(5), numbers.next().unwrap_or(1));
    std::panic::set_hook(Box::new(|_| ()));
    let _ = fs::remove_dir_all(folder());
    fs::create_dir_all(folder()).expect("a folder");
    let seeds = seeds();
    let (mut tally, mut lot) = (Tally::default(), Lot::new(seed));
    let end = Instant::now() + Duration::from_secs(seconds);
    while Instant::now() < end {
        let case = spoil::spoilt(&seeds, &mut lot);
        run(&case, &mut lot, &mut tally);
    }
    println!(
        "{} part files spoilt, {} accepted, files made of {}; the slowest took {} ms; {} kinds of finds",
        tally.cases,
        tally.accepted,
        tally.written,
        tally.slowest.as_millis(),
        tally.finds.len()
    );
    for (what, count) in &tally.finds {
        println!("{count:>6} x {what}");
    }
    process::exit(i32::from(!tally.finds.is_empty()));
}

/// Where finds are left.
fn folder() -> PathBuf {
    Path::new(env!("CARGO_TARGET_TMPDIR")).join("fuzz")
}

fn run(case: &Seed, lot: &mut Lot, tally: &mut Tally) {
    tally.cases += 1;
    let begun = Instant::now();
    let found = match catch_unwind(AssertUnwindSafe(|| work(case))) {
        Err(panic) => vec![format!("panic: {}", said(&*panic))],
        Ok(Err(problems)) => refused(&problems, &case.text),
        Ok(Ok(design)) => {
            tally.accepted += 1;
            let mut found = held::sure_faults(&design);
            if lot.one_in(FILES) {
                tally.written += 1;
                let twice = lot.one_in(TWICE);
                found.extend(match catch_unwind(AssertUnwindSafe(|| written(&design, case, twice))) {
                    Ok(found) => found,
                    Err(panic) => vec![format!("panic in a file: {}", said(&*panic))],
                });
            }
            found
        }
    };
    let took = begun.elapsed();
    tally.slowest = tally.slowest.max(took);
    let slow = (took > PATIENCE).then(|| "it takes longer than anybody waits".to_string());
    for what in found.into_iter().chain(slow) {
        leave(case, &what, tally);
    }
}

fn work(case: &Seed) -> Result<Design, Vec<Problem>> {
    let neighbour = |_: &str, name: &str| {
        let found = case.beside.get(name).ok_or_else(|| format!("cannot read {name}"))?;
        Ok((name.to_string(), found.clone()))
    };
    job::work(&case.name, &case.text, &Shop::default(), &neighbour)
}

fn said(panic: &(dyn std::any::Any + Send)) -> String {
    let text = panic.downcast_ref::<String>().map(String::as_str).or_else(|| panic.downcast_ref::<&str>().copied());
    text.unwrap_or("without a word").to_string()
}

/// A refusal has a reason, in a place that is there, without anything unseen.
fn refused(problems: &[Problem], text: &str) -> Vec<String> {
    let mut found = Vec::new();
    if problems.is_empty() {
        found.push("refused without a reason".into());
    }
    if problems.iter().any(|p| p.message.contains("a fault in the program")) {
        found.push("refused by a fault in the program".into());
    }
    if !no_numbers(text) && problems.iter().any(|p| p.message.contains("NaN") || p.message.contains("inf ")) {
        found.push("a reason with a number that is none".into());
    }
    let told = job::render(problems, text);
    if let Some((_, c, _)) = told.split('\n').find_map(first_unseen) {
        found.push(format!("unseen in a reason: U+{:04X}", u32::from(c)));
    }
    found
}

/// Whether a part file itself holds words that read like a number which is none.
fn no_numbers(text: &str) -> bool {
    ["nan", "inf"].iter().any(|w| text.to_ascii_lowercase().contains(w))
}

/// Files of every format can be made, and are the same a second time.
fn written(design: &Design, case: &Seed, twice: bool) -> Vec<String> {
    // What no paper holds at a legible size is refused by `check` as by `make`, in a sentence.
    if let Some(why) = export::undrawable(design, &Style::default()) {
        let unseen = why.contains("NaN") || first_unseen(&why).is_some() || why.contains("not worked out");
        return unseen.then(|| format!("a drawing refused for: {why}")).into_iter().collect();
    }
    let (files, mut found) = match held::files(design, CHORD) {
        Ok(made) => made,
        Err(why) => return vec![format!("accepted, but cannot be written: {why}")],
    };
    if no_numbers(&case.text) || case.beside.values().any(|t| no_numbers(t)) {
        found.retain(|f| !f.ends_with("nan") && !f.ends_with("inf") && !f.ends_with("NaN") && !f.ends_with("Inf"));
    }
    if twice {
        let again = work(case).ok().and_then(|d| held::files(&d, CHORD).ok()).map(|(files, _)| files);
        if again.as_ref() != Some(&files) {
            found.push("other bytes the second time".into());
        }
    }
    found
}

/// Counts a find under its kind, and leaves the first case of it.
fn leave(case: &Seed, what: &str, tally: &mut Tally) {
    // Figures are of the case, not of the kind.
    let kind: String = what.chars().map(|c| if c.is_ascii_digit() { '#' } else { c }).take(160).collect();
    let mut kind = kind;
    while kind.contains("##") {
        kind = kind.replace("##", "#");
    }
    let number = tally.finds.len();
    let count = tally.finds.entry(kind).or_insert(0);
    *count += 1;
    if *count > 1 || number >= 100 {
        return;
    }
    let folder = folder().join(format!("find-{number}"));
    fs::create_dir_all(&folder).expect("a folder");
    let files = case.beside.iter().chain([(&case.name, &case.text)]);
    files.for_each(|(name, text)| fs::write(folder.join(name), text).expect("written"));
    println!("{}: {what}", folder.join(&case.name).display());
}

fn seeds() -> Vec<Seed> {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut seeds: Vec<Seed> = FAMILIES
        .iter()
        .map(|f| Seed {
            name: format!("{}.toml", f.name),
            text: f.template.into(),
            beside: f.companions.iter().map(|(n, t)| ((*n).to_string(), (*t).to_string())).collect(),
        })
        .collect();
    for folder in [here.join("parts"), here.join("tests/fuzz/seeds")] {
        let mut beside = BTreeMap::new();
        for entry in fs::read_dir(folder).expect("seeds") {
            let path = entry.expect("a seed").path();
            let name = path.file_name().expect("a name").to_string_lossy().into_owned();
            if name.ends_with(".toml") && name != "shop.toml" {
                beside.insert(name, fs::read_to_string(&path).expect("text"));
            }
        }
        seeds.extend(beside.iter().map(|(n, t)| Seed { name: n.clone(), text: t.clone(), beside: named(t, &beside) }));
    }
    seeds
}

/// The files of the folder that a text names, and those that these name.
fn named(text: &str, folder: &BTreeMap<String, String>) -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    let mut texts = vec![text.to_string()];
    while let Some(text) = texts.pop() {
        for (name, other) in folder.iter().filter(|(name, _)| text.contains(&format!("\"{name}\""))) {
            if found.insert(name.clone(), other.clone()).is_none() {
                texts.push(other.clone());
            }
        }
    }
    found
}
