//! A second whole job, invented: the frame of a water tank that is craned onto three cones of a flatbed, with the bushes,
//! the raceway and the shim of its tipping arm. Its figures were worked by another route (`tank/work.py`, which reads nothing
//! that the program has written); its parts must read in order.

use std::fs;
use std::path::Path;

use program::run_in;
use serde_json::Value as Json;

mod program;

const PARTS: [&str; 11] = [
    "bush-plain.toml",
    "bush-press.toml",
    "cone-bolt.toml",
    "cone-weld.toml",
    "cup-round.toml",
    "cup-slot.toml",
    "cup-step.toml",
    "cup-turned.toml",
    "landing.toml",
    "raceway.toml",
    "shim.toml",
];

fn worked(folder: &Path) -> Vec<Json> {
    let arguments: Vec<&str> = std::iter::once("check").chain(PARTS).chain(["--json"]).collect();
    let ran = run_in(folder, &arguments);
    assert_eq!(ran.code, 0, "{}", ran.err);
    ran.json().as_array().unwrap().clone()
}

/// The job with some of its lines changed.
fn changed(changes: &[(&str, &str, &str)]) -> Vec<Json> {
    let folder = tempfile::tempdir().unwrap();
    for name in PARTS.iter().chain(&["shop.toml"]) {
        let mut text = fs::read_to_string(Path::new("tests/tank").join(name)).unwrap();
        for (_, from, to) in changes.iter().filter(|c| c.0 == *name) {
            assert!(text.contains(from), "{name} has no {from}");
            text = text.replace(from, to);
        }
        fs::write(folder.path().join(name), text).unwrap();
    }
    worked(folder.path())
}

fn part<'a>(all: &'a [Json], file: &str) -> &'a Json {
    all.iter().find(|p| p["file"].as_str().unwrap().ends_with(file)).unwrap_or_else(|| panic!("no {file}"))
}

fn finding<'a>(part: &'a Json, key: &str) -> &'a Json {
    part["findings"].as_array().unwrap().iter().find(|f| f["key"] == key).unwrap_or_else(|| panic!("no {key}"))
}

/// A figure of a part: a dimension, or what a finding is about.
fn value(part: &Json, key: &str) -> f64 {
    let found = match key.strip_prefix("finding:") {
        Some(key) => finding(part, key)["value"].as_f64(),
        None => {
            let all = part["dimensions"].as_array().unwrap();
            let d = all.iter().find(|d| d["key"] == key).unwrap_or_else(|| panic!("{} has no {key}", part["file"]));
            d["nominal_mm"].as_f64().or(d["value"].as_f64())
        }
    };
    found.unwrap_or_else(|| panic!("{key} is no number"))
}

/// Every figure of the second route, each with how it was worked in its row of the table.
#[test]
fn every_figure_by_the_second_route() {
    let all = worked(Path::new("tests/tank"));
    let table = fs::read_to_string("tests/tank/figures.csv").unwrap();
    let mut wrong = Vec::new();
    let mut count = 0;
    for row in table.lines().skip(1) {
        let mut cells = row.splitn(5, ',');
        let mut cell = || cells.next().unwrap();
        let (file, key) = (cell(), cell());
        let (wanted, within): (f64, f64) = (cell().parse().unwrap(), cell().parse().unwrap());
        let got = value(part(&all, file), key);
        count += 1;
        if (got - wanted).abs() > within {
            wrong.push(format!("{file} {key}: {got} is not {wanted} within {within}: {}", cell()));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(count > 70, "{count}");
}

/// A sound job reads in order. One part does not, and why: a slot touches its cone in two points, which bed in by more than
/// a tenth of a millimetre under this load whatever its rim, and want one set-down before heights are measured.
#[test]
fn the_sound_job_reads_in_order() {
    let mut told = Vec::new();
    for part in worked(Path::new("tests/tank")) {
        for f in part["findings"].as_array().unwrap().iter().filter(|f| f["verdict"] != "ok") {
            told.push(format!("{} {}", part["file"].as_str().unwrap(), f["key"].as_str().unwrap()));
        }
    }
    assert_eq!(told, ["cup-slot.toml bedding_in"], "{told:?}");
}

/// A tie-down that is tight when the frame already stands is no part of the blow of setting it down: without one the blow is
/// the same; one of 5 kN at every seat loads it more than the blow does (1482 N and 5 kN, statics).
#[test]
fn a_tie_down_is_no_blow() {
    let blow = |tie: &str| {
        value(part(&changed(&[("landing.toml", "tie_down = \"1.5 kN\"", tie)]), "landing.toml"), "finding:set_down")
    };
    let rear = 2941.995 * (609.6 + 30.0) / 1270.0;
    // Energy of a touch at 50 mm/s with 0.5 mm of sag, rope slack, 1 + sqrt(1 + v²/(g s)): 2.2288; textbooks of impact.
    let touch = 1.0 + (1.0 + 0.05_f64.powi(2) / (9.80665 * 0.0005)).sqrt();
    assert!((touch - 2.22876284).abs() < 1e-8 && (blow("") - touch * rear).abs() < 0.5, "{} {touch}", blow(""));
    let tied = blow("tie_down = \"5 kN\"");
    assert!((tied - (rear + 5000.0)).abs() < 4.0, "{tied}");
}

/// What stands is told beside what is best, with what it gives away, and is not to be kept without a word: the rear seat as
/// slot stands 1349 mm from the round cup, the front right one 914.
#[test]
fn what_stands_is_weighed_against_the_best() {
    let all = worked(Path::new("tests/tank"));
    let because = finding(part(&all, "landing.toml"), "arrangement")["because"].as_str().unwrap();
    assert!(because.contains("round at FL, slot at R"), "{because}");
    assert!(because.contains("what stands now, round at FL and slot at FR, seats fully too, with"), "{because}");
    assert!(because.contains("apart against 1348.9") && !because.contains("keep it"), "{because}");
    // Told once: a pair that stands is not named a second time as the next best.
    assert_eq!(because.matches("round at FL and slot at FR").count(), 1, "{because}");
}

/// Sharp rims settle: a slot in two points by several times what a ring does, and the landing says so; rounded ones little.
/// A pad stands clear of the fillet round the foot that it stands round: 50 mm, 4 mm of leg on both sides, 2 mm of play.
#[test]
fn the_landing_knows_its_cups_and_welds() {
    let sharp = "chamfer = \"0.5 mm\"";
    let all = changed(&[
        ("cup-round.toml", "rim_radius = \"3 mm\"", sharp),
        ("cup-slot.toml", "rim_radius = \"3 mm\"", sharp),
    ]);
    let (slot, uneven) = (part(&all, "cup-slot.toml"), finding(part(&all, "landing.toml"), "settling_uneven"));
    assert_eq!(uneven["verdict"], "caution", "{uneven}");
    assert!((uneven["value"].as_f64().unwrap() - value(slot, "bedding_most")).abs() < 1e-3, "the pad does not settle");
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out");
    let ran =
        run_in(Path::new("tests/tank"), &["make", "landing.toml", "--only", "json", "--out", out.to_str().unwrap()]);
    let landing: Json =
        serde_json::from_str(&fs::read_to_string(out.join("landing.json")).unwrap_or_else(|_| panic!("{}", ran.err)))
            .unwrap();
    let pads = landing["tables"].as_array().unwrap().iter().find(|t| t["key"] == "pads").unwrap();
    assert!(pads["columns"].to_string().contains("clear of foot and weld"), "{pads}");
    assert_eq!(pads["rows"][0][2].as_f64().or(pads["rows"][0][2]["mm"].as_f64()), Some(60.0), "{pads}");
}
