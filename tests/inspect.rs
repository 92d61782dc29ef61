//! `inspect` as a person runs it: our own drawings never have a finding, planted faults are found with their places, what is mended
//! is sound, what is no drawing is refused. The many drawings of another library are in `tests/oracle/foreign_dxf.py`.

use std::fs;
use std::path::Path;

use program::{Ran, run_in};

mod program;

fn inspect(folder: &Path, arguments: &[&str]) -> Ran {
    run_in(folder, &[&["inspect"], arguments].concat())
}

/// A drawing in mm of these entities.
fn drawing(folder: &Path, entities: &str) {
    let text = format!(
        "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n{entities}0\nENDSEC\n0\nEOF\n"
    );
    fs::write(folder.join("a.dxf"), text).unwrap();
}

fn line(a: (f64, f64), b: (f64, f64)) -> String {
    format!("0\nLINE\n8\nedge\n10\n{}\n20\n{}\n11\n{}\n21\n{}\n", a.0, a.1, b.0, b.1)
}

fn square(side: f64) -> String {
    line((0.0, 0.0), (side, 0.0))
        + &line((side, side), (side, 0.0))
        + &line((side, side), (0.0, side))
        + &line((0.0, 0.0), (0.0, side))
}

fn circle(x: f64, y: f64, r: f64) -> String {
    format!("0\nCIRCLE\n8\nholes\n10\n{x}\n20\n{y}\n40\n{r}\n")
}

fn kinds(ran: &Ran) -> Vec<String> {
    ran.json()["findings"].as_array().unwrap().iter().map(|f| f["kind"].as_str().unwrap().to_string()).collect()
}

#[test]
fn our_own_drawings_have_no_finding() {
    let top = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut seen = 0;
    for entry in fs::read_dir(top.join("out")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|e| e == "dxf") {
            let ran = inspect(top, &[path.to_str().unwrap(), "--json"]);
            assert_eq!((ran.code, kinds(&ran)), (0, vec![]), "{}", path.display());
            seen += 1;
        }
    }
    assert!(seen >= 4, "only {seen} drawings in out/");
}

/// A square of 40 with a hole of 10: area and length by hand.
#[test]
fn area_length_and_mass_by_hand() {
    let here = tempfile::tempdir().unwrap();
    drawing(here.path(), &(square(40.0) + &circle(20.0, 20.0, 5.0)));
    let ran = inspect(here.path(), &["a.dxf", "--thickness", "2 mm", "--json"]);
    let json = ran.json();
    let near = |key: &str, want: f64| assert!((json[key].as_f64().unwrap() - want).abs() < 1e-8, "{key} {}", json[key]);
    near("area_mm2", 1600.0 - 25.0 * std::f64::consts::PI);
    near("cut_length_mm", 160.0 + 10.0 * std::f64::consts::PI);
    // Density of steel 7850 kg/m³: EN 1991-1-1, table A.4.
    near("mass_kg", (1600.0 - 25.0 * std::f64::consts::PI) * 2.0 * 7.85e-6);
    assert_eq!((&json["pierces"], &json["outlines"], &json["parts"]), (&2.into(), &2.into(), &1.into()));
    assert_eq!(ran.code, 0, "{}", ran.out);
}

#[test]
fn planted_faults_are_found_and_mended() {
    let here = tempfile::tempdir().unwrap();
    let faults = circle(20.0, 20.0, 5.0) + &circle(20.0, 20.0, 5.0) + &line((3.0, 3.0), (3.0, 3.0));
    let text = "0\nTEXT\n8\nwords\n10\n2\n20\n2\n40\n3\n1\nplate\n";
    drawing(here.path(), &(square(40.0) + &faults + text));
    let ran = inspect(here.path(), &["a.dxf", "--json", "--mend", "b.dxf", "--picture", "b.svg"]);
    assert_eq!(
        (ran.code, kinds(&ran)),
        (1, ["double", "zero length", "text"].map(String::from).to_vec()),
        "{}",
        ran.err
    );
    let found = ran.json();
    let text = &found["findings"][2];
    assert_eq!((&text["layer"], &text["at_mm"]), (&"words".into(), &serde_json::json!([2.0, 2.0])));
    let again = inspect(here.path(), &["b.dxf", "--json"]);
    assert_eq!((again.code, kinds(&again)), (0, vec![]));
    assert_eq!(again.json()["area_mm2"], found["area_mm2"]);
    let picture = fs::read_to_string(here.path().join("b.svg")).unwrap();
    assert!(["double", "zero length", "text"].iter().all(|kind| picture.contains(kind)));
    // Nothing that is there is written over.
    inspect(here.path(), &["a.dxf", "--mend", "b.dxf"]).fails_with(3, &["b.dxf", "there already"]);
}

#[test]
fn what_its_author_must_put_right_is_not_mended() {
    let here = tempfile::tempdir().unwrap();
    let open = line((0.0, 0.0), (40.0, 0.0)) + &line((40.0, 0.0), (40.0, 30.0)) + &line((40.0, 30.0), (0.0, 0.3));
    for (entities, kind) in [(open, "open outline"), (circle(0.0, 0.0, 10.0) + &circle(12.0, 0.0, 10.0), "crossing")] {
        drawing(here.path(), &entities);
        let ran = inspect(here.path(), &["a.dxf", "--json"]);
        assert_eq!((ran.code, kinds(&ran)), (1, vec![kind.to_string()]));
        inspect(here.path(), &["a.dxf", "--mend", "b.dxf"]).fails_with(1, &["nothing is written"]);
        assert!(!here.path().join("b.dxf").exists());
    }
    // A stated gap joins the first.
    drawing(
        here.path(),
        &(line((0.0, 0.0), (40.0, 0.0)) + &line((40.0, 0.0), (40.0, 30.0)) + &line((40.0, 30.0), (0.0, 0.3))),
    );
    let ran = inspect(here.path(), &["a.dxf", "--gap", "0.5 mm", "--json", "--mend", "b.dxf"]);
    assert_eq!((ran.code, kinds(&ran)), (0, vec!["gap".to_string()]));
    assert!(here.path().join("b.dxf").exists());
}

#[test]
fn holes_webs_and_units_are_held_against_what_they_must_be() {
    let here = tempfile::tempdir().unwrap();
    drawing(
        here.path(),
        &(square(60.0) + &circle(20.0, 20.0, 1.0) + &circle(40.0, 20.0, 5.0) + &circle(40.0, 31.0, 5.0)),
    );
    let ran = inspect(here.path(), &["a.dxf", "--thickness", "3mm", "--json"]);
    assert_eq!((ran.code, kinds(&ran)), (1, ["hole too small", "web too thin"].map(String::from).to_vec()));
    assert_eq!(ran.json()["findings"][1]["at_mm"], serde_json::json!([40.0, 25.5]));
    drawing(here.path(), &square(9000.0));
    assert_eq!(kinds(&inspect(here.path(), &["a.dxf", "--json"])), ["unit"]);
    assert_eq!(kinds(&inspect(here.path(), &["a.dxf", "--unit", "in", "--json"])), ["unit"]);
}

#[test]
fn what_is_no_drawing_is_refused_in_one_sentence() {
    let here = tempfile::tempdir().unwrap();
    let refused = |content: &[u8], words: &[&str]| {
        fs::write(here.path().join("a.dxf"), content).unwrap();
        let ran = inspect(here.path(), &["a.dxf", "--mend", "b.dxf"]);
        ran.fails_with(2, words);
        assert_eq!(ran.err.lines().count(), 1, "{}", ran.err);
        assert!(!here.path().join("b.dxf").exists());
    };
    refused(b"", &["empty"]);
    refused(b"solid cube\n", &["line 1", "not a DXF"]);
    refused(b"binary\x1a\0\0\0", &["binary"]);
    refused(b"0\nSECTION\n2\nENTITIES\n0\nLINE\n10\nNaN\n", &["line 8", "`NaN` where a number is wanted"]);
    refused(b"0\nSECTION\n2\nENTITIES\n0\nINSERT\n2\nA\n0\nENDSEC\n0\nEOF\n", &["line 5", "the block `a`"]);
    assert_eq!(inspect(here.path(), &["none.dxf"]).code, 2);
    assert_eq!(inspect(here.path(), &["."]).code, 2);
}
