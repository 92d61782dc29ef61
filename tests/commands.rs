//! The real program, run as a person runs it: answers, exit status, hostile input, and a folder that is whole or untouched.

use std::fs;
use std::path::Path;
use std::process::Command;

use program::{Bench, Ran, run_in};
use serde_json::Value as Json;

mod program;

fn run(arguments: &[&str]) -> Ran {
    run_in(&std::env::temp_dir(), arguments)
}

// --- one-off answers -------------------------------------------------------------------------------------------------

/// 25 H7/g6 by ISO 286: any handbook: H7 0/+21, g6 -20/-7, clearance 7 to 41 µm.
#[test]
fn fit_of_a_handbook() {
    let json = run(&["fit", "25mm", "H7/g6", "--json"]).json();
    assert_eq!(json["nominal_mm"], 25.0);
    assert_eq!(
        (&json["hole"]["class"], &json["hole"]["lower_um"], &json["hole"]["upper_um"]),
        (&"H7".into(), &0.0.into(), &21.0.into())
    );
    assert_eq!(
        (&json["shaft"]["class"], &json["shaft"]["lower_um"], &json["shaft"]["upper_um"]),
        (&"g6".into(), &(-20.0).into(), &(-7.0).into())
    );
    assert_eq!((&json["clearance_um"]["min"], &json["clearance_um"]["max"]), (&7.0.into(), &41.0.into()));
    assert_eq!(json["kind"], "clearance");
    let one = run(&["fit", "25mm", "H7", "--json"]).json();
    assert!(one.get("shaft").is_none() && one.get("clearance_um").is_none());
    let text = run(&["fit", "25mm", "H7/g6"]);
    for words in ["25.021", "24.980", "0.9843", "clearance fit", "least +7 µm", "greatest +41 µm"] {
        assert!(text.out.contains(words), "`{words}` is not in:\n{}", text.out);
    }
}

/// ANSI B4.1-1967 RC4 at 1 in (Machinery's Handbook table 8a): hole +1.2/0, shaft -0.8/-1.6, clearance 0.8 to 2.8 thou.
#[test]
fn inch_fit_of_a_handbook() {
    let json = run(&["fit", "1 in", "RC4", "--json"]).json();
    let thou = |v: &Json| (v.as_f64().unwrap() / 25.4 * 100.0).round() / 100.0;
    assert_eq!(thou(&json["hole"]["upper_um"]), 1.2);
    assert_eq!((thou(&json["shaft"]["upper_um"]), thou(&json["shaft"]["lower_um"])), (-0.8, -1.6));
    assert_eq!((thou(&json["clearance_um"]["min"]), thou(&json["clearance_um"]["max"])), (0.8, 2.8));
}

/// Sharma, Production Engineering, ex. 9.5: hole 30.020/30.000, shaft 29.995/29.982: clearance 0.005 to 0.038. The extreme
/// sizes taken as two measured pairs.
#[test]
fn measured_sizes() {
    for (hole, shaft, clearance) in [("30.000mm", "29.995mm", 5.0), ("30.020mm", "29.982mm", 38.0)] {
        let json = run(&["fit", "--hole", hole, "--shaft", shaft, "--json"]).json();
        assert_eq!(json["clearance_um"]["min"], clearance);
        assert_eq!(json["nominal_mm"], 30.0);
    }
    let json = run(&["fit", "--hole", "25.012mm", "--shaft", "24.990mm", "--json"]).json();
    assert!(json["held_by"].as_array().unwrap().iter().any(|f| f == "H7/g6"), "{json}");
}

/// ISO 286-1:2010: 25 mm H7 0/+21, g6 -7/-20, so H7/g6 has 7 to 41 µm. To a hole bored 25.031 mm: the deviations of g6
/// counted from it give 25.011 to 25.024; the clearance of the pair is kept from 25.031 - 0.041 to 25.031 - 0.007.
#[test]
fn what_to_make_to_a_part_that_is_there() {
    let limits = |arguments: &[&str], side: &str| {
        let json = run(&[&["fit", "25mm"], arguments, &["--json"]].concat()).json();
        let [lower, upper] = ["lower_um", "upper_um"].map(|end| json[side][end].as_f64().unwrap());
        let [min, max] = ["min", "max"].map(|end| json["clearance_um"][end].as_f64().unwrap());
        (lower, upper, min, max)
    };
    assert_eq!(limits(&["g6", "--hole", "25.031mm"], "shaft"), (11.0, 24.0, 7.0, 20.0));
    assert_eq!(limits(&["H7/g6", "--hole", "25.031mm"], "shaft"), (-10.0, 24.0, 7.0, 41.0));
    // And the reverse: a shaft turned to 24.970 mm.
    assert_eq!(limits(&["H7", "--shaft", "24.970mm"], "hole"), (-30.0, -9.0, 0.0, 21.0));
    assert_eq!(limits(&["H7/g6", "--shaft", "24.970mm"], "hole"), (-23.0, 11.0, 7.0, 41.0));
    let text = run(&["fit", "25mm", "g6", "--hole", "25.031mm"]);
    assert!(
        text.out.contains("25.011") && text.out.contains("25.024") && text.out.contains("as measured"),
        "{}",
        text.out
    );
    for (arguments, told) in [
        (vec!["H7", "--hole", "25.031mm"], "the hole is bored already"),
        (vec!["g6", "--shaft", "24.97mm"], "the shaft is turned already"),
        (vec!["g6", "--hole", "2.503mm"], "off the nominal size"),
        (vec!["g6", "--hole", "25.03mm", "--shaft", "24.9mm"], "leave it out"),
        (vec!["--hole", "25.03mm"], "the shaft is missing"),
    ] {
        let ran = run(&[&["fit", "25mm"], arguments.as_slice()].concat());
        assert!(ran.code == 2 && ran.err.contains(told), "{arguments:?}: {}", ran.err);
    }
}

/// A pair about one inch is guessed as one inch; pairs about whole and half millimetres as these.
#[test]
fn the_size_behind_two_readings() {
    for (hole, shaft, nominal) in [
        ("0.9998 in", "25.385mm", 25.4),
        ("25.012mm", "24.990mm", 25.0),
        ("12.518mm", "12.495mm", 12.5),
        ("1.2512 in", "1.2490 in", 31.75),
        ("40.05mm", "39.6mm", 40.0),
    ] {
        let json = run(&["fit", "--hole", hole, "--shaft", shaft, "--json"]).json();
        assert_eq!(json["nominal_mm"], nominal, "{hole} {shaft}");
    }
}

/// The shop's file is told as what it is; an unsound one with its place.
#[test]
fn the_file_of_the_shop() {
    let bench = Bench::new();
    let begun = bench.run(&["start", "shop", "parts/shop.toml"]);
    assert!(begun.code == 0 && begun.out.contains("setdown check parts/shop.toml"), "{}{}", begun.out, begun.err);
    let told = bench.run(&["check", "parts/shop.toml"]);
    assert_eq!(told.code, 0, "{}", told.err);
    for words in ["the shop's file", "it is sound", "70, 120, 210, 360, 620, 1100 rpm", "75 mm", "not written: usual"] {
        assert!(told.out.contains(words), "`{words}` is not in:\n{}", told.out);
    }
    let json = bench.run(&["check", "parts/shop.toml", "--json"]).json();
    assert_eq!(json[0]["family"], "shop");
    bench.part("shop.toml", "family = 'shop'\nlathe_speeds_rpm = [70, 120]\nmax_speed_rpm = 800\n");
    let unsound = bench.run(&["check", "parts/shop.toml"]);
    assert!(unsound.code == 2 && unsound.err.contains("parts/shop.toml:3:17"), "{}", unsound.err);
    bench.part("cone.toml", "family = 'shop'\n");
    bench.part("shop.toml", "family = 'shop'\n");
    let other = bench.run(&["check", "parts/cone.toml"]);
    assert!(other.code == 2 && other.err.contains("call it shop.toml"), "{}", other.err);
    let readme = include_str!("../README.md");
    for line in include_str!("../src/cli/shop.toml").lines() {
        let keys = line.split([' ', ';', ':']).filter(|w| w.contains("_rpm") || w.contains("taper_attachment"));
        keys.for_each(|key| assert!(readme.contains(key), "{key}"));
    }
}

/// `check` judges on the paper on which `make` draws: both take a part or refuse it, whether the paper comes from the call or
/// from the shop's file. Letter is 8-1/2 x 11 in, A4 210 x 297 mm (ISO 216).
#[test]
fn check_and_make_have_the_same_paper() {
    let bench = Bench::new();
    for (name, long) in [("small", 55), ("long", 900), ("longer", 2500), ("thin", 6000)] {
        let text = format!(
            "family = 'sleeve'\nbore = '30 mm'\noutside_diameter = '33 mm'\nlength = '{long} mm'\nstock = 'tube'\n"
        );
        bench.part(&format!("{name}.toml"), &text);
    }
    let ends = |arguments: &[&str]| {
        let parts = ["small", "long", "longer", "thin"].map(|name| format!("parts/{name}.toml"));
        parts.map(|part| (bench.run(&[&[arguments[0], &part], &arguments[1..]].concat()).code == 2, part))
    };
    for paper in ["A4", "letter"] {
        assert_eq!(ends(&["check", "--paper", paper]), ends(&["make", "--paper", paper, "--out", paper]), "{paper}");
        bench.part("shop.toml", &format!("family = 'shop'\npaper = '{paper}'\nprojection = 'third'\n"));
        assert_eq!(ends(&["check"]), ends(&["make", "--out", "shop"]), "{paper}");
        let sheet = bench.read("shop/small.svg");
        let width = if paper == "A4" { "width=\"210" } else { "width=\"215.9" };
        assert!(sheet.contains(width), "{paper}: {}", &sheet[..200]);
    }
    let wrong = bench.run(&["check", "--paper", "A5"]);
    assert!(wrong.code == 2 && wrong.err.contains("A4 or letter"), "{}", wrong.err);
}

/// 100 mm aluminium bore on a steel shaft, both from 20 to 40 °C: 23.6 and 11.7 (steel A36) per million and kelvin: +23.8 µm.
#[test]
fn fit_at_temperature() {
    let json = run(&[
        "fit",
        "100mm",
        "H7/h6",
        "--json",
        "--hole-material",
        "aluminium 6061-T6",
        "--shaft-material",
        "steel A36",
        "--hole-temperature",
        "40 C",
        "--shaft-temperature",
        "40 C",
    ])
    .json();
    let grown =
        json["at_temperature"]["clearance_um"]["min"].as_f64().unwrap() - json["clearance_um"]["min"].as_f64().unwrap();
    assert!((grown - 23.8).abs() < 0.005, "{grown}");
}

/// D 60, d 20, l 80: 14.0362°, from a university machining exercise; 3 to 2 in over 12 in: 1 in per foot, US Navy text.
#[test]
fn tapers() {
    let json = run(&["taper", "--large", "60mm", "--small", "20mm", "--length", "80mm", "--json"]).json();
    assert!((json["half_angle_deg"].as_f64().unwrap() - 14.0362).abs() < 5e-5);
    assert_eq!(json["ratio"], 0.5);
    let json = run(&[
        "taper",
        "--large",
        "3 in",
        "--small",
        "2 in",
        "--length",
        "12 in",
        "--between-centres",
        "12 in",
        "--json",
    ])
    .json();
    assert_eq!(json["taper_per_foot_in"], 1.0);
    assert_eq!(json["tailstock_setover_mm"], 12.7);
    run(&["taper", "--large", "60mm", "--small", "20mm", "--length", "80mm", "--half-angle", "20deg"])
        .fails_with(2, &["contradict"]);
}

/// Four shims 0.52 0.31 0.21 0.11 with 0.12 of float for a float of 0.10: 1.17 by sum; from the gap of 1.28: 1.18.
#[test]
fn shims() {
    let json = run(&[
        "shim",
        "--replaces",
        "0.52mm",
        "0.31mm",
        "0.21mm",
        "0.11mm",
        "--present-float",
        "0.12mm",
        "--target-float",
        "0.10mm",
        "--json",
    ])
    .json();
    assert!((json["width_mm"].as_f64().unwrap() - 1.17).abs() < 1e-9);
    assert!(!json["warnings"].as_array().unwrap().is_empty());
    let json = run(&["shim", "--gap", "1.28mm", "--target-float", "0.05mm", "0.15mm", "--sides", "2", "--json"]).json();
    assert!((json["width_mm"].as_f64().unwrap() - 0.59).abs() < 1e-9);
    assert_eq!(json["sides"], 2);
    let float = &json["float_mm"];
    assert!(
        (float["nominal"].as_f64().unwrap() - 0.1).abs() < 1e-9
            && float["min"].as_f64().unwrap() >= 0.05 - 1e-9
            && float["max"].as_f64().unwrap() <= 0.15 + 1e-9
    );
}

#[test]
fn calls_that_make_no_sense() {
    run(&["fit", "25", "H7"]).fails_with(2, &["mm"]);
    run(&["fit", "25mm", "Q7"]).fails_with(2, &["Q7"]);
    run(&["fit", "20mm", "t6"]).fails_with(2, &["24"]);
    run(&["fit", "25mm"]).fails_with(2, &["class"]);
    run(&["fit", "NaN mm", "H7"]).fails_with(2, &[]);
    run(&["fit", "1e400mm", "H7"]).fails_with(2, &[]);
    run(&["fit", "-25mm", "H7"]).fails_with(2, &[]);
    run(&["fit", "30 deg", "H7"]).fails_with(2, &["angle"]);
    run(&["taper", "--large", "60mm"]).fails_with(2, &["too few"]);
    run(&["shim", "--gap", "0.1mm", "--target-float", "0.2mm"]).fails_with(2, &["no room"]);
    run(&["shim", "--target-float", "0.2mm"]).fails_with(2, &["nothing was measured"]);
    run(&["mak"]).fails_with(2, &["make"]);
    run(&[]).fails_with(2, &["Usage"]);
}

#[test]
fn closed_pipes_and_full_disks() {
    let reader_gone = Command::new("sh")
        .args(["-c", &format!("{} families | head -c 1 >/dev/null", env!("CARGO_BIN_EXE_setdown"))])
        .output()
        .unwrap();
    assert!(reader_gone.stderr.is_empty(), "{}", String::from_utf8_lossy(&reader_gone.stderr));
    if Path::new("/dev/full").exists() {
        let full = Command::new("sh")
            .args(["-c", &format!("{} families > /dev/full", env!("CARGO_BIN_EXE_setdown"))])
            .output()
            .unwrap();
        assert_eq!(full.status.code(), Some(3));
    }
}

// --- part files ------------------------------------------------------------------------------------------------------

fn families() -> Vec<String> {
    run(&["families"]).out.lines().map(|l| l.split_whitespace().next().unwrap().to_string()).collect()
}

/// Every family's template builds as it is, and comments on every key.
#[test]
fn templates_build_as_they_are() {
    for family in families() {
        let bench = Bench::new();
        let file = format!("parts/my-{family}.toml");
        let start = bench.run(&["start", &family, &file]);
        assert_eq!(start.code, 0, "{family}: {}", start.err);
        bench.run(&["start", &family, &file]).fails_with(2, &["exists already"]);
        let made = bench.run(&["make", &file]);
        assert_eq!(made.code, 0, "{family}: {}{}", made.out, made.err);
        assert!(bench.out().iter().any(|(name, _)| *name == format!("my-{family}.json")));
    }
    run(&["start", "rocket", "x.toml"]).fails_with(2, &["no family `rocket`"]);
}

const CONE: &str = "family = \"cone\"\nname = \"test cone\"\nmaterial = \"steel S235\"\nbase_diameter = \"60 mm\"\ntip_diameter = \"12 mm\"\nhalf_angle = \"30 deg\"\n";

#[test]
fn hostile_files() {
    let bench = Bench::new();
    bench.run(&["make"]).fails_with(2, &["no part files", "setdown start cone"]);
    bench.run(&["make", "nowhere"]).fails_with(3, &["cannot read nowhere"]);
    bench.part("big.toml", &"#".repeat(10_000_000));
    bench.run(&["make", "parts/big.toml"]).fails_with(2, &["parts/big.toml", "10000000 bytes"]);
    fs::write(bench.path("parts/latin.toml"), b"family = \"cone\"\nhalf_angle = \"30\xb0\"\n").unwrap();
    bench.run(&["make", "parts/latin.toml"]).fails_with(2, &["parts/latin.toml:2:17", "UTF-8"]);
    bench.part("..odd.toml", CONE);
    bench.run(&["make", "parts/..odd.toml"]).fails_with(2, &["cannot name output files"]);
    bench.part("path.toml", &CONE.replace("test cone", "../../etc/passwd"));
    bench
        .run(&["make", "parts/path.toml"])
        .fails_with(2, &["parts/path.toml:2:8", "would leave the output folder", "../../etc/passwd"]);
    fs::create_dir(bench.path("more")).unwrap();
    fs::write(bench.path("more/twin.toml"), CONE).unwrap();
    bench.part("twin.toml", CONE);
    bench
        .run(&["make", "parts/twin.toml", "more/twin.toml"])
        .fails_with(2, &["parts/twin.toml", "more/twin.toml", "same names"]);
    bench.part("empty.toml", "");
    bench.run(&["make", "parts/empty.toml"]).fails_with(2, &["parts/empty.toml:1:1", "`family` is missing"]);
    bench.part("rocket.toml", "family = \"cine\"\n");
    bench
        .run(&["check", "parts/rocket.toml"])
        .fails_with(2, &["parts/rocket.toml:1:10", "no family `cine`", "did you mean cone?"]);
    bench.part("nested.toml", &format!("a = {}{}\n", "[".repeat(100_000), "]".repeat(100_000)));
    bench.run(&["check", "parts/nested.toml"]).fails_with(2, &["parts/nested.toml"]);
    bench.part(
        "keys.toml",
        &format!("family = \"cone\"\n{}", (0..60_000).map(|i| format!("k{i} = 1\n")).collect::<String>()),
    );
    bench.run(&["check", "parts/keys.toml"]).fails_with(2, &["more problems"]);
}

/// One row: what is changed in a sound file, and what must be said about it, with its place.
fn fault(name: &str, sound: &str, from: &str, to: &str, words: &[&str]) {
    let bench = Bench::new();
    assert!(sound.contains(from), "{name}: `{from}` is not in the sound file");
    bench.part("cone.toml", CONE).part("x.toml", &sound.replacen(from, to, 1));
    let ran = bench.run(&["check", "parts/x.toml"]);
    assert_eq!(ran.code, 2, "{name}: {}{}", ran.out, ran.err);
    for word in words {
        assert!(ran.err.contains(word), "{name}: `{word}` is not in:\n{}", ran.err);
    }
}

#[test]
fn faults_of_a_cone_file() {
    let rows: &[(&str, &str, &[&str])] = &[
        (
            "base_diameter",
            "base_diamter",
            &["parts/x.toml:4:1", "no key `base_diamter`", "did you mean base_diameter?"],
        ),
        ("\"60 mm\"", "60", &["parts/x.toml:4:17", "bare number", "60 mm", "60 in"]),
        ("\"60 mm\"", "\"60\"", &["parts/x.toml:4:1", "60 mm"]),
        ("\"60 mm\"", "\"30 deg\"", &["parts/x.toml:4:1", "angle"]),
        ("\"60 mm\"", "\"60 mn\"", &["parts/x.toml:4:2", "mn", "did you mean"]),
        ("\"60 mm\"", "\"NaN mm\"", &["parts/x.toml:4:1"]),
        ("\"60 mm\"", "nan", &["parts/x.toml:4:17"]),
        ("\"60 mm\"", "\"-60 mm\"", &["parts/x.toml:4:17", "greater than 0"]),
        ("\"60 mm\"", "\"1e9 mm\"", &["parts/x.toml:4:1"]),
        ("\"60 mm\"", "\"9999999999 mm\"", &["parts/x.toml:4:1"]),
        ("\"60 mm\"", "\"3/8\"\"", &["parts/x.toml:4:1", "inch mark", "single quotes"]),
        ("\"60 mm\"", "\"10 mm\"", &["parts/x.toml", "large diameter must be larger"]),
        ("\"30 deg\"", "\"95 deg\"", &["parts/x.toml:6:14", "between 0 and 90"]),
        ("\"30 deg\"", "\"30 mm\"", &["parts/x.toml:6:1", "length"]),
        ("half_angle = \"30 deg\"\n", "", &["three of base_diameter", "any three give the fourth"]),
        ("half_angle", "height = \"50 mm\"\nhalf_angle", &["contradict", "tip_diameter"]),
        ("half_angle", "tip_radius = \"20 mm\"\nhalf_angle", &["parts/x.toml:6:14", "does not fit"]),
        ("half_angle", "foot_diameter = \"40 mm\"\nhalf_angle", &["narrower than the cone's base"]),
        ("half_angle", "check_ring = \"80 mm\"\nhalf_angle", &["does not rest on the flank of every cone"]),
        ("steel S235", "stel S235", &["parts/x.toml:3:12", "not known", "did you mean"]),
        ("\"test cone\"", "\"\"", &["1 to 80 characters"]),
        ("half_angle", "count = 0\nhalf_angle", &["parts/x.toml:6:9", "between 1 and"]),
        ("half_angle", "count = 1.5\nhalf_angle", &["whole number"]),
        ("half_angle", "coating = \"gold leaf\"\nhalf_angle", &["coating `gold leaf` is not known"]),
        ("half_angle = \"30 deg\"\n", "half_angle = \"30 deg\"\n[bolt]\nthread = \"M12\"\n", &["bolt", "nose"]),
        ("half_angle = \"30 deg\"\n", "half_angle = \"30 deg\"\n[bolt]\nway = \"through\"\n", &["`thread` is missing"]),
        (
            "half_angle = \"30 deg\"\n",
            "half_angle = \"30 deg\"\n[bolt]\nthread = \"Q9\"\n",
            &["parts/x.toml:8:10", "Q9"],
        ),
    ];
    for (from, to, words) in rows {
        fault(to, CONE, from, to, words);
    }
}

/// Four faults in one file: four messages, each in its place.
#[test]
fn all_faults_at_once() {
    let bench = Bench::new();
    bench.part(
        "x.toml",
        "family = \"cone\"\nbase_diameter = \"60 mn\"\ntip_diamter = \"12 mm\"\nhalf_angle = \"200 deg\"\ncount = -1\n",
    );
    let ran = bench.run(&["check", "parts/x.toml"]);
    ran.fails_with(2, &["x.toml:2:", "x.toml:3:1", "x.toml:4:14", "x.toml:5:9"]);
}

const CUP: &str = "family = \"cup\"\nlength = \"120 mm\"\nwidth = \"100 mm\"\nthickness = \"8 mm\"\nmates = \"cone.toml\"\n[hole]\nkind = \"round\"\ndiameter = \"40 mm\"\n";

#[test]
fn faults_of_a_cup_file() {
    let rows: &[(&str, &str, &[&str])] = &[
        ("cone.toml", "cine.toml", &["parts/x.toml:5:9", "cannot read", "cine.toml"]),
        ("cone.toml", "x.toml", &["parts/x.toml:5:9", "is a cup; a cone is wanted"]),
        ("length = \"120 mm\"\n", "", &["plate's size is missing"]),
        ("thickness = \"8 mm\"\n", "", &["`thickness` is missing"]),
        ("kind = \"round\"", "kind = \"sqare\"", &["parts/x.toml:7:8", "cannot be `sqare`"]),
        ("kind = \"round\"", "kind = \"round\"\nsteps = [\"1 mm\"]", &["a round hole has no steps"]),
        ("diameter = \"40 mm\"", "diameter = \"140 mm\"", &["does not fit into a plate"]),
        ("width", "corner_radius = \"60 mm\"\nwidth", &["parts/x.toml:3:17", "larger than half"]),
        ("diameter = \"40 mm\"", "diameter = \"40 mm\"\nchamfer = \"9 mm\"", &["goes through the plate"]),
        ("diameter = \"40 mm\"", "diameter = \"40 mm\"\nclass = \"h7\"", &["parts/x.toml:9:9", "wrong side", "H7"]),
        (
            "diameter = \"40 mm\"",
            "diameter = \"40 mm\"\n[mounting]\nspacing = [\"96 mm\", \"76 mm\"]",
            &["size of the mounting holes is missing"],
        ),
        (
            "diameter = \"40 mm\"",
            "diameter = \"40 mm\"\n[mounting]\nthread = \"M8\"",
            &["where the mounting holes are"],
        ),
        (
            "diameter = \"40 mm\"",
            "diameter = \"40 mm\"\n[mounting]\nthread = \"M8\"\nspacing = [\"20 mm\", \"20 mm\"]",
            &["hole"],
        ),
    ];
    for (from, to, words) in rows {
        fault(to, CUP, from, to, words);
    }
    let stepped = "kind = \"stepped\"\nsteps = [\"38 mm\", \"40 mm\"]\nstep_height = \"2 mm\"\nstop_depth = \"1 mm\"";
    fault(
        "blind",
        &CUP.replace("kind = \"round\"\ndiameter = \"40 mm\"", stepped),
        "width",
        "width",
        &["parts/x.toml:6:", "does not come through the plate of 8 mm"],
    );
    let bench = Bench::new();
    bench.part("cone.toml", &CONE.replace("60 mm", "60")).part("x.toml", CUP);
    bench.run(&["check", "parts/x.toml"]).fails_with(2, &["parts/x.toml:5:9", "of its own"]);
}

/// A cone in a cup, by closed forms: rim 40 in 60/30°: 17.3205 high, 0.5 chamfer 0.5 lower; capture (40 - 12)/2.
#[test]
fn a_cone_in_a_cup() {
    let bench = Bench::new();
    bench
        .part("cone.toml", CONE)
        .part("x.toml", CUP)
        .part("y.toml", &CUP.replace("\"40 mm\"\n", "\"40 mm\"\nchamfer = \"0.5 mm\"\n"));
    let json = bench.run(&["check", "--json"]).json();
    let part = |name: &str| {
        json.as_array().unwrap().iter().find(|p| p["file"] == format!("parts/{name}.toml")).unwrap().clone()
    };
    let size = |part: &Json, key: &str| {
        part["dimensions"]
            .as_array()
            .unwrap()
            .iter()
            .find(|d| d["key"] == key)
            .map(|d| d.get("nominal_mm").or(d.get("value")).unwrap().as_f64().unwrap())
            .unwrap()
    };
    assert!((size(&part("x"), "seat_height") - 17.3205).abs() < 5e-5);
    assert!((size(&part("y"), "seat_height") - 16.8205).abs() < 5e-5);
    assert!((size(&part("x"), "capture_radius") - 14.0).abs() < 1e-9);
    assert_eq!(size(&part("x"), "contact_diameter"), 40.0);
    let cone = part("cone");
    assert!(
        (size(&cone, "height") - 41.5692).abs() < 5e-5
            && (size(&cone, "slant") - 48.0).abs() < 1e-3
            && (size(&cone, "taper_ratio") - 1.1547).abs() < 5e-5
    );
    let volume = std::f64::consts::PI * 41.569219 / 12.0 * (60.0_f64 * 60.0 + 60.0 * 12.0 + 12.0 * 12.0);
    assert!((size(&cone, "volume") / volume - 1.0).abs() < 1e-6);
    assert!((size(&cone, "mass") / (volume * 7850e-9) - 1.0).abs() < 1e-6);
    assert_eq!(size(&cone, "compound_angle"), 30.0);
    // Findings carry verdict, reason and source.
    for finding in cone["findings"].as_array().unwrap() {
        assert!(["ok", "caution", "fail"].contains(&finding["verdict"].as_str().unwrap()));
        assert!(
            finding["because"].as_str().unwrap().len() > 10 && !finding["source"].as_str().unwrap().is_empty(),
            "{finding}"
        );
    }
    assert!(cone["notes"].as_array().unwrap().iter().any(|n| n["key"] == "not_a_tie_down"));
}

/// A failing check: files are written all the same, marked, and the status is 1.
#[test]
fn a_failing_check() {
    let bench = Bench::new();
    bench.part("steep.toml", &CONE.replace("30 deg", "5 deg").replace("12 mm", "50 mm"));
    let ran = bench.run(&["make"]);
    assert_eq!(ran.code, 1, "{}{}", ran.out, ran.err);
    assert!(ran.out.contains("fail"));
    let sheet = fs::read_to_string(bench.path("out/steep.txt")).unwrap();
    assert!(sheet.contains("FAIL") && sheet.contains("sticks"));
    // A plate that reaches the base before the flank fills the hole.
    bench.part("cone.toml", CONE).part("x.toml", &CUP.replace("\"40 mm\"\n", "\"62 mm\"\n"));
    let json = bench.run(&["check", "parts/x.toml", "--json"]).json();
    assert!(
        json[0]["findings"].as_array().unwrap().iter().any(|f| f["key"] == "bottoms_out" && f["verdict"] == "fail"),
        "{json}"
    );
}

/// The same numbers on the bench sheet, in JSON of `make` and in JSON of `check`; inch files show inch first.
#[test]
fn the_same_numbers_everywhere() {
    let bench = Bench::new();
    bench.part(
        "a.toml",
        &CONE.replace("family", "units = \"in\"\nfamily").replace("\"60 mm\"", "2.375").replace("\"12 mm\"", "'1/2\"'"),
    );
    assert_eq!(bench.run(&["make"]).code, 0);
    let whole: Json = serde_json::from_slice(&fs::read(bench.path("out/a.json")).unwrap()).unwrap();
    let summary = bench.run(&["check", "--json"]).json();
    let sheet = fs::read_to_string(bench.path("out/a.txt")).unwrap();
    assert_eq!(whole["dimensions"], summary[0]["dimensions"]);
    assert_eq!(whole["findings"], summary[0]["findings"]);
    for dimension in whole["dimensions"].as_array().unwrap() {
        let text = dimension["text"].as_str().unwrap();
        assert!(sheet.contains(text), "`{text}` of {} is not on the sheet", dimension["key"]);
    }
    assert!(sheet.contains("2.375 in") && sheet.contains("60.325 mm") && sheet.contains("0.5 in"));
}

/// No colour codes in a pipe.
#[test]
fn no_colour_in_a_pipe() {
    let bench = Bench::new();
    bench.part("a.toml", CONE);
    assert!(!bench.run(&["check"]).out.contains('\u{1b}') && !bench.run(&["make"]).out.contains('\u{1b}'));
}

#[test]
fn shells_complete() {
    for shell in ["bash", "zsh", "fish"] {
        assert!(run(&["completions", shell]).out.contains("setdown"));
    }
}

/// What `check` accepts `make` can draw: shims much wider than their ring, a block of a plate, both by their sheets.
#[test]
fn what_is_checked_can_be_drawn() {
    let bench = Bench::new();
    let shim = |gap: &str| {
        format!(
            "family = 'shim'\ngap = '{gap}'\ntarget_float = ['0.05 mm', '0.15 mm']\nbore = '20 mm'\noutside_diameter = '32 mm'\n"
        )
    };
    let block = "family = 'cup'\nlength = '120 mm'\nwidth = '100 mm'\nthickness = '508 mm'\n[hole]\nkind = 'round'\ndiameter = '40 mm'\n";
    bench.part("wide.toml", &shim("221 mm")).part("wider.toml", &shim("630 mm")).part("block.toml", block);
    for file in ["wide", "wider", "block"] {
        let path = format!("parts/{file}.toml");
        let (checked, made) = (bench.run(&["check", &path]), bench.run(&["make", &path]));
        assert!(checked.code <= 1 && made.code <= 1, "{file}: {} {}\n{}", checked.code, made.code, made.err);
        assert!(bench.out().iter().any(|(name, _)| *name == format!("{file}.pdf")), "{file}");
    }
}

// --- what to change, written where it is wanted ----------------------------------------------------------------------

/// `check --change --write` with these answers typed.
fn answered(folder: &Path, file: &str, answers: &str) -> String {
    use std::io::Write;
    let mut child = Command::new(env!("CARGO_BIN_EXE_setdown"))
        .args(["check", file, "--change", "--write"])
        .current_dir(folder)
        .stdin(std::process::Stdio::piped())
        .stdout(std::process::Stdio::piped())
        .stderr(std::process::Stdio::piped())
        .spawn()
        .unwrap();
    child.stdin.take().unwrap().write_all(answers.as_bytes()).unwrap();
    let output = child.wait_with_output().unwrap();
    assert_eq!(String::from_utf8(output.stderr).unwrap(), "");
    String::from_utf8(output.stdout).unwrap()
}

/// A cone that sticks: of 10 degrees, where dry steel holds up to 22.5. The change that is chosen stands in the file, every
/// other byte is as it was, and nothing is written where nothing is chosen.
#[test]
fn a_change_is_written_only_where_it_is_chosen() {
    let bench = Bench::new();
    let text = "# mine\r\nfamily = \"cone\"\r\nbase_diameter = \"60 mm\"   # as bought\r\nheight = \"40 mm\"\r\nhalf_angle = '10 deg' # too slim\r\n";
    bench.write("cone.toml", text);
    let folder = bench.path("");
    for nothing in ["", "\n\n\n\n\n\n", "0\n99\nno\n\n\n\n"] {
        let said = answered(&folder, "cone.toml", nothing);
        assert!(said.contains("half-angle against sticking") && !said.contains("written:"), "{said}");
        assert_eq!(bench.read("cone.toml"), text, "after {nothing:?}");
    }
    // The best is the first that is named; that finding is in order then.
    let said = answered(&folder, "cone.toml", "1\n");
    assert_eq!(said.matches("written:").count(), 1, "{said}");
    let written = bench.read("cone.toml");
    let differ: Vec<(&str, &str)> =
        text.split("\r\n").zip(written.split("\r\n")).filter(|(before, after)| before != after).collect();
    assert_eq!(text.split("\r\n").count(), written.split("\r\n").count());
    assert_eq!(differ.len(), 1, "{differ:?}");
    assert!(
        written.contains("# mine") && written.contains("# as bought") && written.contains("# too slim"),
        "{written}"
    );
    let json = bench.run(&["check", "cone.toml", "--json"]).json();
    let finding = json[0]["findings"].as_array().unwrap().iter().find(|f| f["key"] == "self_holding").unwrap().clone();
    assert_eq!(finding["verdict"], "ok", "{finding}");
    assert_eq!(bench.names(""), ["cone.toml", "parts"], "nothing else lies about");
}

/// The words of a command as a shell takes them: quotes hold together.
fn words(line: &str) -> Vec<String> {
    line.split('\'')
        .enumerate()
        .flat_map(|(i, part)| {
            let own: Vec<String> =
                if i % 2 == 1 { vec![part.into()] } else { part.split_whitespace().map(String::from).collect() };
            own
        })
        .collect()
}

/// What help shows as an example is a call that the program takes.
#[test]
fn every_example_of_the_help_is_taken() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut seen = 0;
    for topic in ["seat", "fit", "landing", "shims", "press", "measure", "units"] {
        let help = run_in(root, &["help", topic]).out;
        for line in help.lines().filter_map(|l| l.strip_prefix("  setdown ")) {
            // Two spaces part the call from what it is for.
            let call = words(line.split("  ").next().unwrap_or_default());
            // What writes is not run here.
            if call.is_empty() || ["record", "make", "start"].contains(&call[0].as_str()) {
                continue;
            }
            seen += 1;
            let ran = run_in(root, &call.iter().map(String::as_str).collect::<Vec<_>>());
            assert!(!ran.err.contains("unexpected argument"), "help {topic}: {line}\n{}", ran.err);
        }
    }
    assert!(seen >= 3, "{seen}");
}
