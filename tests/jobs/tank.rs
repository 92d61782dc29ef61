//! A second whole job, invented: the frame of a water tank that is craned onto three cones of a flatbed, with the bushes,
//! the raceway and the shim of its tipping arm. Its figures were worked by another route (`tank/work.py`, which reads nothing
//! that the program has written); its parts must read in order.

use super::*;

/// The job with some of its lines changed.
fn changed(changes: &[(&str, &str, &str)]) -> Vec<Json> {
    let folder = tempfile::tempdir().unwrap();
    let files = fs::read_dir(super::folder("tank")).unwrap().map(|entry| entry.unwrap().path());
    for file in files.filter(|file| file.extension().is_some_and(|e| e == "toml")) {
        let name = file.file_name().unwrap().to_str().unwrap();
        let mut text = fs::read_to_string(&file).unwrap();
        for (_, from, to) in changes.iter().filter(|c| c.0 == name) {
            assert!(text.contains(from), "{name} has no {from}");
            text = text.replace(from, to);
        }
        fs::write(folder.path().join(name), text).unwrap();
    }
    worked(folder.path())
}

#[test]
fn every_figure_by_the_second_route() {
    by_the_second_route("tank", 70);
}

/// A sound job reads in order. What does not, and why: a slot touches its cone in two points, which bed in by more than a tenth of a
/// millimetre under this load whatever its rim, and want one set-down before heights are measured; the loads in the files are those at
/// rest, and braking puts more on a front seat; the grease hole, 4 mm in, leaves 1.9 mm of hardened ring at the limits.
#[test]
fn the_sound_job_reads_in_order() {
    let told = not_in_order("tank");
    let wanted = ["cup-slot.toml bedding_in", "landing.toml cup_seat_load", "raceway.toml grease_hole_edge"];
    assert_eq!(told, wanted, "{told:?}");
}

/// A tie-down that is tight when the frame already stands is no part of the blow of setting it down: without one the blow is
/// the same; one of 5 kN at every seat loads it more than the blow does (1482 N and 5 kN, statics).
#[test]
fn a_tie_down_is_no_blow() {
    let blow = |tie: &str| {
        // Nothing pushes it: the base is level.
        let level = format!("trailer_tilt = \"0 deg\"\n{tie}");
        let still = ["forward = \"0.8 g\"", "rearward = \"0.5 g\"", "sideways = \"0.5 g\""].map(|a| {
            let (key, _) = a.split_once(" = ").unwrap();
            (a, format!("{key} = \"0 g\""))
        });
        let mut all = vec![("landing.toml", "tie_down = \"1.5 kN\"", level.as_str())];
        all.extend(still.iter().map(|(from, to)| ("landing.toml", *from, to.as_str())));
        value(part(&changed(&all), "landing.toml"), "finding:set_down")
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
    let all = worked(&super::folder("tank"));
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
        run_in(&super::folder("tank"), &["make", "landing.toml", "--only", "json", "--out", out.to_str().unwrap()]);
    let landing: Json =
        serde_json::from_str(&fs::read_to_string(out.join("landing.json")).unwrap_or_else(|_| panic!("{}", ran.err)))
            .unwrap();
    let pads = landing["tables"].as_array().unwrap().iter().find(|t| t["key"] == "pads").unwrap();
    assert!(pads["columns"].to_string().contains("clear of foot and weld"), "{pads}");
    assert_eq!(pads["rows"][0][2].as_f64().or(pads["rows"][0][2]["mm"].as_f64()), Some(60.0), "{pads}");
}
