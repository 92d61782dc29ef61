//! The sleeve from its part file: pressed bores worked through by another hand, long pieces, pieces and their surfaces.

use std::f64::consts::PI;
use std::fs;

use program::run_in;
use serde_json::Value as Json;

mod program;

/// A part as `make` writes it.
fn made(text: &str) -> Json {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("part.toml"), text).unwrap();
    let ran = run_in(folder.path(), &["make", "part.toml", "--only", "json"]);
    let bytes = fs::read(folder.path().join("out/part.json")).unwrap_or_else(|_| panic!("{}", ran.err));
    serde_json::from_slice(&bytes).unwrap()
}

fn dimension<'a>(part: &'a Json, key: &str) -> Option<&'a Json> {
    part["dimensions"].as_array().unwrap().iter().find(|d| d["key"] == key)
}

fn mm(part: &Json, key: &str) -> f64 {
    dimension(part, key).unwrap_or_else(|| panic!("no {key}"))["nominal_mm"].as_f64().unwrap()
}

/// Limits of a size; a measured one has itself.
fn limits(part: &Json, key: &str) -> (f64, f64) {
    let d = dimension(part, key).unwrap_or_else(|| panic!("no {key}"));
    let of = |end: &str| d[end].as_f64().or(d["nominal_mm"].as_f64()).unwrap();
    (of("lower_mm"), of("upper_mm"))
}

fn finding<'a>(part: &'a Json, key: &str) -> Option<&'a Json> {
    part["findings"].as_array().unwrap().iter().find(|f| f["key"] == key)
}

fn steps(part: &Json) -> Vec<String> {
    part["operations"].as_array().unwrap().iter().map(|o| o["text"].as_str().unwrap().to_string()).collect()
}

#[track_caller]
fn near(value: f64, wanted: f64, within: f64) {
    assert!((value - wanted).abs() <= within, "{value} is not {wanted}");
}

/// By how much a bore closes: thick cylinders after Lame, written out anew; diameters, mm and MPa.
fn closes(
    bore: f64,
    joint: f64,
    hub: f64,
    (e_sleeve, e_hub, nu_sleeve, nu_hub): (f64, f64, f64, f64),
    tight: f64,
) -> f64 {
    let (b, j, h) = (bore / 2.0, joint / 2.0, hub / 2.0);
    let outer = ((h * h + j * j) / (h * h - j * j) + nu_hub) / e_hub;
    let inner = ((j * j + b * b) / (j * j - b * b) - nu_sleeve) / e_sleeve;
    let p = tight.max(0.0) / (joint * (outer + inner));
    let hoop = 2.0 * p * j * j / (j * j - b * b);
    hoop * bore / e_sleeve
}

const STEEL: (f64, f64) = (206.0e3, 0.29);

fn bush(material: &str, bore_class: &str, outside_class: &str) -> String {
    format!(
        "family = \"sleeve\"\nmaterial = \"{material}\"\nbore = \"25 mm\"\noutside_diameter = \"32 mm\"\nlength = \"30 mm\"\n\
         bore_class = \"{bore_class}\"\noutside_class = \"{outside_class}\"\n[shaft]\nclass = \"g6\"\n[housing]\nclass = \"H7\"\n\
         [pressed_in]\nhub_outside = \"60 mm\"\n"
    )
}

/// A bush pressed into its hub: with every bore inside the limits before pressing and every interference of the fit, what
/// is bored either ends inside its class, or leaves what the sheet says to ream out; never a bore that is too large.
#[test]
fn a_pressed_bore_ends_right_with_every_pair() {
    let mut by_itself = 0;
    for (material, e, bore_class, outside_class) in [
        ("steel 1045", STEEL, "H7", "p6"),
        ("steel 1045", STEEL, "H7", "s6"),
        ("bronze C93200", (100.0e3, 0.34), "H8", "n6"),
        ("steel 1045", STEEL, "F8", "r6"),
        ("steel 1045", STEEL, "H11", "p6"),
        ("steel 52100 hardened", STEEL, "H8", "n5"),
    ] {
        let part = made(&bush(material, bore_class, outside_class));
        let (finished, before) = (limits(&part, "bore"), limits(&part, "bore_before_pressing"));
        let (outside, hub) = (limits(&part, "outside_diameter"), limits(&part, "housing_diameter"));
        let (loosest, tightest) = (outside.0 - hub.1, outside.1 - hub.0);
        let elastic = (e.0, STEEL.0, e.1, STEEL.1);
        let after = |bore: f64, tight: f64| bore - closes(bore, 32.0, 60.0, elastic, tight);
        let (least, most) = (after(before.0, tightest), after(before.1, loosest));
        let case = format!("{material} {bore_class}/{outside_class}: {before:?} ends {least} to {most}");
        let work = steps(&part);
        let pressed = work.iter().position(|s| s.contains("press with up to")).unwrap();
        if dimension(&part, "finish_after_pressing_min").is_some() {
            assert!(most < finished.0 - 0.02, "{case}: nothing is left to take out");
            near(mm(&part, "finish_after_pressing_min"), finished.0 - most, 0.0015);
            near(mm(&part, "finish_after_pressing_max"), finished.1 - least, 0.0015);
            let finish = work.iter().position(|s| s.starts_with("After pressing")).unwrap();
            assert!(finish > pressed && !work[pressed].contains("finished size"), "{work:?}");
            let measured = part["operations"][finish]["measure"].to_string();
            assert!(measured.contains("\"bore\""), "{measured}");
        } else {
            by_itself += 1;
            assert!(least >= finished.0 - 0.001 && most <= finished.1 + 0.001, "{case}, wanted {finished:?}");
            assert!(before.1 - before.0 > 0.009, "{case}: no machine of the shop holds that");
        }
        // One bore: what is measured before pressing, and what the solid has (no chamfers).
        let before_it = &part["operations"].as_array().unwrap()[..pressed];
        assert!(serde_json::to_string(before_it).unwrap().contains("bore_before_pressing"), "{case}");
        let bored = f64::midpoint(before.0, before.1);
        let volume = dimension(&part, "volume").unwrap()["value"].as_f64().unwrap();
        near(volume, PI / 4.0 * (32.0 * 32.0 - bored * bored) * 30.0, 0.5);
    }
    assert!(by_itself > 0, "a wide class needs no reamer");
}

/// A bush that yields says what would do, and that does.
#[test]
fn a_bush_that_yields_says_what_would_do() {
    let bronze = bush("bronze C93200", "H8", "p6");
    let part = made(&bronze);
    let yields = finding(&part, "inner_part_yields").unwrap();
    assert_eq!(yields["verdict"], "fail");
    assert!(yields["because"].as_str().unwrap().contains("n6 (at most"), "{yields}");
    let part = made(&bronze.replace("p6", "n6"));
    assert_ne!(finding(&part, "inner_part_yields").unwrap()["verdict"], "fail");
    // Warm, the bronze grows more than its hub: what does then is looser still, and does.
    let warm = format!("service_temperature = \"60 C\"\n{bronze}");
    let part = made(&warm);
    let because = finding(&part, "inner_part_yields").unwrap()["because"].as_str().unwrap();
    assert!(because.contains("m6 (at most"), "{because}");
    let part = made(&warm.replace("p6", "m6"));
    assert_ne!(finding(&part, "inner_part_yields").unwrap()["verdict"], "fail");
}

/// 33 x 400 with a wall of 1.5 mm: no boring bar reaches through it; from tube it is held on a mandrel and in a steady.
#[test]
fn a_long_thin_sleeve_is_supported_or_refused() {
    let long = "family = \"sleeve\"\nmaterial = \"bronze C93200\"\nbore = \"30 mm\"\noutside_diameter = \"33 mm\"\n\
                length = \"400 mm\"\nbore_class = \"H7\"\noutside_class = \"h6\"\n";
    let part = made(long);
    assert_eq!(finding(&part, "bore_depth").unwrap()["verdict"], "fail");
    let part = made(&format!("{long}stock = \"tube\"\n"));
    assert!(finding(&part, "bore_depth").is_none());
    let work = steps(&part).join("\n");
    assert!(work.contains("fixed steady") && work.contains("mandrel") && !work.contains("drill"), "{work}");
    assert!(part["tools"].to_string().contains("honed tube"));
    // A short one with a stout wall is turned in the chuck.
    let short = made(&long.replace("400 mm", "40 mm").replace("33 mm", "40 mm"));
    assert!(!steps(&short).join("\n").contains("mandrel"));
}

const PIVOT: &str = "family = \"sleeve\"\nmaterial = \"steel 52100 hardened\"\nbore = \"20 mm\"\noutside_diameter = \"25 mm\"\n\
    length = \"60 mm\"\noutside_class = \"h5\"\nchamfer = \"0.5 mm\"\n[shaft]\nclass = \"g6\"\n[grease_hole]\nposition = \"20 mm\"\n\
    diameter = \"1.5 mm\"\n[[segment]]\nname = \"left\"\nmaterial = \"steel S235\"\noutside_diameter = \"24.6 mm\"\nlength = \"18 mm\"\n\
    [[segment]]\nname = \"raceway\"\nlength = \"24 mm\"\n[[segment]]\nname = \"right\"\nmaterial = \"steel S235\"\n\
    outside_diameter = \"24.6 mm\"\n";
const NEEDLES: &str = "[runs_under]\nrollers = 24\nroller_diameter = \"2.5 mm\"\nroller_length = \"12 mm\"\nload = \"6 kN\"\n\
    hardness = \"60 HRC\"\nposition = \"30 mm\"\n";

/// What each piece is made of, where the hole is measured on the loose ring, and what the surfaces do: rollers run on
/// Ra 0.2, round within a quarter and cylindrical within half of the diameter's tolerance (bearing makers' catalogues);
/// 25 h5 is 9 um wide (ISO 286-1).
#[test]
fn pieces_and_their_surfaces() {
    let part = made(&format!("{PIVOT}{NEEDLES}"));
    near(mm(&part, "grease_hole_on_piece"), 2.0, 1e-9);
    assert_eq!(limits(&part, "grease_hole_on_piece"), (1.9, 2.1));
    assert_eq!(dimension(&part, "outside_diameter_roughness").unwrap()["value"], "Ra 0.2");
    near(mm(&part, "outside_roundness"), 0.00225, 6e-5);
    near(mm(&part, "outside_cylindricity"), 0.0045, 5e-5);
    assert!(dimension(&part, "ends_square").is_some());
    let tables = part["tables"].as_array().unwrap();
    let rows = &tables.iter().find(|t| t["key"] == "pieces").unwrap()["rows"];
    assert_eq!((&rows[0][1], &rows[1][1]), (&Json::from("steel S235"), &Json::from("steel 52100 hardened")));
    assert_eq!((&rows[1][2], &rows[1][3]), (&Json::from("60 HRC"), &Json::from("Ra 0.2")));
    assert!(rows[1][6].as_str().unwrap().contains("at 2 mm") && rows[0][6] == "none", "{rows}");
    // The bore has no class and goes over a shaft: not smaller than that (20 is ±0.2 by ISO 2768-m).
    assert_eq!(limits(&part, "bore"), (20.0, 20.4));
}

/// The share of the most loaded needle is that of the greatest clearance: 30 G6 in the hub less 25 h5 is 7 to 29 um
/// (ISO 286-1: +7/+20 and 0/-9); without a clearance it is told to be assumed.
#[test]
fn the_most_loaded_needle_by_its_clearance() {
    let number = |part: &Json, key: &str| dimension(part, key).unwrap()["value"].as_f64().unwrap();
    let known = made(&format!("{PIVOT}{NEEDLES}needle_bore_class = \"G6\"\n"));
    near(number(&known, "load_factor_least"), 4.76, 0.02);
    near(number(&known, "load_factor"), 6.13, 0.02);
    let unknown = made(&format!("{PIVOT}{NEEDLES}"));
    assert_eq!(number(&unknown, "load_factor"), 5.0);
    let too_small = made(&format!("{PIVOT}{NEEDLES}needle_bore_class = \"G6\"\nload_factor = 4.1\n"));
    assert_eq!(finding(&too_small, "load_factor").unwrap()["verdict"], "caution");
}

#[test]
fn a_housing_beside_rollers_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("part.toml"), format!("{PIVOT}{NEEDLES}[housing]\nclass = \"F6\"\n")).unwrap();
    run_in(folder.path(), &["check", "part.toml"]).fails_with(2, &["part.toml:", "no housing is there"]);
}

/// The single questions tell what they rest on. 0.8 (Rz + Rz) with Rz = 5 Ra of Ra 1.6 and 0.8 is 9.6 um (DIN 7190-1,
/// from memory); pressure goes with the interference (Lame). Load factors as of the needles above.
#[test]
fn one_off_questions_say_what_they_assume() {
    let folder = tempfile::tempdir().unwrap();
    let ask = |arguments: &[&str]| run_in(folder.path(), arguments);
    let press = ["press", "--interface", "30mm", "--hub-outside", "60mm", "--bore", "25mm", "--length", "20mm"];
    let tight: Vec<&str> = press.into_iter().chain(["--interference", "20um", "30um"]).collect();
    let rough: Vec<&str> = tight.iter().copied().chain(["--roughness", "1.6um", "0.8um"]).collect();
    assert!(ask(&tight).out.contains("no roughness was told"));
    assert!(ask(&rough).out.contains("9.6 µm is taken off"));
    let pressure = |arguments: &[&str]| {
        let all: Vec<&str> = arguments.iter().copied().chain(["--json"]).collect();
        ask(&all).json()["pressure_mpa"]["min"].as_f64().unwrap()
    };
    near(pressure(&rough) / pressure(&tight), 10.4 / 20.0, 1e-3);
    let row = ["raceway", "--rollers", "24", "--roller-diameter", "2.5mm", "--roller-length", "12mm"];
    let row: Vec<&str> =
        row.into_iter().chain(["--raceway", "25mm", "--load", "6007 N", "--hardness", "60 HRC"]).collect();
    let clear: Vec<&str> = row.iter().copied().chain(["--clearance", "29um"]).collect();
    assert!(ask(&row).out.contains("roller 5, assumed"));
    assert!(ask(&clear).out.contains("roller 6.13, of the clearance"));
}
