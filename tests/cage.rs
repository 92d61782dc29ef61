//! A fifth whole job, invented: a water tank of 1.2 t in its cage, craned onto steelwork: a cone on a packing and one in inches, both bolted,
//! a round cup and a slot, two pads, a pressed bush, a raceway in an aluminium hub, a shim. Figures by another route (`cage/work.py`)
//! beside it.

use std::fs;
use std::path::Path;

use program::run_in;
use serde_json::Value as Json;

mod program;

fn worked() -> Vec<Json> {
    let ran = run_in(Path::new("tests/cage"), &["check", ".", "--json"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    ran.json().as_array().unwrap().clone()
}

fn value(part: &Json, key: &str) -> f64 {
    let of = |list: &str, key: &str| part[list].as_array().unwrap().iter().find(|x| x["key"] == key).cloned();
    let found = match key.strip_prefix("finding:") {
        Some(key) => of("findings", key).and_then(|f| f["value"].as_f64()),
        None => of("dimensions", key).and_then(|d| d["nominal_mm"].as_f64().or(d["value"].as_f64())),
    };
    found.unwrap_or_else(|| panic!("{} has no number {key}", part["file"]))
}

#[test]
fn every_figure_by_the_second_route() {
    let all = worked();
    let table = fs::read_to_string("tests/cage/figures.csv").unwrap();
    let mut wrong = Vec::new();
    for row in table.lines().skip(1) {
        let cells: Vec<&str> = row.splitn(5, ',').collect();
        let (wanted, within): (f64, f64) = (cells[2].parse().unwrap(), cells[3].parse().unwrap());
        let part = all.iter().find(|p| p["file"].as_str().unwrap().ends_with(cells[0])).unwrap();
        let got = value(part, cells[1]);
        if (got - wanted).abs() > within {
            wrong.push(format!("{} {}: {got} is not {wanted} within {within}: {}", cells[0], cells[1], cells[4]));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(table.lines().count() > 24);
}

/// What is not in order is rightly so: a slot touches in two points and beds in; so the seats settle unevenly, and by the stated doubt of places
/// and heights a frame seats fully by chance only.
#[test]
fn what_does_not_read_in_order_is_rightly_so() {
    let mut told = Vec::new();
    for part in worked() {
        let file = Path::new(part["file"].as_str().unwrap()).file_name().unwrap().to_string_lossy().into_owned();
        for f in part["findings"].as_array().unwrap().iter().filter(|f| f["verdict"] != "ok") {
            told.push(format!("{file} {}", f["key"].as_str().unwrap()));
        }
    }
    assert_eq!(told, ["cup-slot.toml bedding_in", "landing.toml settling_uneven", "landing.toml seating_share"]);
}

/// The frame lies level because the packings count: crossbar -4, packing 4, seat 24.490, plate 15 and packing 1.5 make 40.990 over the datum; the
/// other end 1.4 + 23.698 + 15.875 = 40.973. Bolted cups are drilled and bolted, not tacked.
#[test]
fn the_landing_counts_what_is_packed() {
    let out = tempfile::tempdir().unwrap();
    let to = out.path().join("out");
    let made = ["make", "landing.toml", "--only", "txt", "--out", to.to_str().unwrap()];
    let ran = run_in(Path::new("tests/cage"), &made);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let text = fs::read_to_string(to.join("landing.txt")).unwrap();
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for said in ["-4 mm, packed by", "40.99 mm", "drill and bolt it", "nothing packed under them"] {
        assert!(text.contains(said), "{said}: {text}");
    }
    assert!(!text.contains("Tack each plate"), "{text}");
}
