//! Whole jobs, invented: the part files of a folder beside this file, worked by the real program, each figure held against another route
//! (`work.py` in that folder, which reads nothing that the program has written) and every verdict that is not in order named.

use std::fs;
use std::path::{Path, PathBuf};

use program::run_in;
use serde_json::Value as Json;

mod program;

#[path = "jobs/cage.rs"]
mod cage;
#[path = "jobs/skid.rs"]
mod skid;
#[path = "jobs/tank.rs"]
mod tank;

/// Where the files of a job lie.
fn folder(job: &str) -> PathBuf {
    Path::new("tests/jobs").join(job)
}

/// All parts of a folder.
fn worked(folder: &Path) -> Vec<Json> {
    let ran = run_in(folder, &["check", ".", "--json"]);
    // What fails says so in its findings.
    assert!(ran.code <= 1, "{}", ran.err);
    ran.json().as_array().unwrap().clone()
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

/// Every figure of the second route, each with how it was worked in its row of the table; more than so many.
#[track_caller]
fn by_the_second_route(job: &str, more_than: usize) {
    let all = worked(&folder(job));
    let table = fs::read_to_string(folder(job).join("figures.csv")).unwrap();
    let mut wrong = Vec::new();
    for row in table.lines().skip(1) {
        let cells: Vec<&str> = row.splitn(5, ',').collect();
        let (file, key, how) = (cells[0], cells[1], cells[4]);
        let (wanted, within): (f64, f64) = (cells[2].parse().unwrap(), cells[3].parse().unwrap());
        let got = value(part(&all, file), key);
        if (got - wanted).abs() > within {
            wrong.push(format!("{file} {key}: {got} is not {wanted} within {within}: {how}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(table.lines().count() > more_than + 1);
}

/// `file finding` of all that is not in order.
fn not_in_order(job: &str) -> Vec<String> {
    let name =
        |part: &Json| Path::new(part["file"].as_str().unwrap()).file_name().unwrap().to_string_lossy().into_owned();
    let all = worked(&folder(job));
    let of = |part: &Json| -> Vec<String> {
        let open = part["findings"].as_array().unwrap().iter().filter(|f| f["verdict"] != "ok");
        open.map(|f| format!("{} {}", name(part), f["key"].as_str().unwrap())).collect()
    };
    all.iter().flat_map(of).collect()
}
