//! What is said fits the job: no braking where nothing drives, microinches where a shop works in inches, advice about what fails.

#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing that is amiss"
)]

use std::path::Path;

use setdown::export::{self, Options};
use setdown::families::FAMILIES;
use setdown::job;
use setdown::record::design::{Design, Verdict};
use setdown::record::show;
use setdown::sheet::content::Style;
use setdown::sheet::of_design;
use setdown::shop::Shop;
use setdown::units::{Length, LengthUnit, text};

fn demo(name: &str) -> String {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("parts");
    std::fs::read_to_string(folder.join(name)).expect("a part of the demo")
}

/// What the person wrote may speak of a trailer; nothing else shall.
fn plain(text: &str) -> String {
    let keys = text.replace("trailer_tilt", "base_tilt").replace("trailer_material", "base_material");
    let plain = keys.replace("trailer", "stand").replace("Trailer", "Stand");
    plain.replace("base_tilt", "trailer_tilt").replace("base_material", "trailer_material")
}

fn work(file: &str, text: &str, shop: &Shop) -> Design {
    let beside = |_: &str, name: &str| Ok((name.to_string(), plain(&demo(name))));
    job::work(file, text, shop, &beside).unwrap_or_else(|told| panic!("{file}: {told:?}"))
}

/// All that anybody reads of a part.
fn said(design: &Design) -> Vec<String> {
    let options = Options { only: vec!["txt".into()], ..Options::default() };
    let mut lines = Vec::new();
    for (_, bytes) in export::files(design, &options).expect("files") {
        lines.extend(String::from_utf8_lossy(&bytes).lines().map(str::to_string));
    }
    let sheets = of_design::sheets(design, &Style::default()).expect("sheets");
    lines.extend(sheets.bench.iter().chain(&sheets.reasons).flat_map(|p| p.texts()).map(|t| t.words.clone()));
    lines
}

/// Words of the road.
const ROAD: [&str; 8] = ["braking", "bump", "trailer", "lashing", "driving", "cornering", " road", "ride"];

#[test]
fn words_fit_what_carries_the_cones() {
    let landing = plain(&demo("landing-observatory.toml"));
    assert!(!landing.contains("\nbase ="));
    for base in ["slab", "steelwork", "trailer"] {
        let text = landing.replacen("family = \"landing\"", &format!("family = \"landing\"\nbase = \"{base}\""), 1);
        for unit in ["mm", "in"] {
            let shop = Shop::read("shop.toml", &format!("family = \"shop\"\nunits = \"{unit}\"\n")).expect("a shop");
            let lines = said(&work("landing.toml", &text, &shop));
            let of_road = |line: &&String| {
                let bare = line.to_lowercase().replace("trailer_tilt", "").replace("trailer_material", "");
                ROAD.iter().any(|word| bare.contains(word))
            };
            let found: Vec<&String> = lines.iter().filter(of_road).collect();
            if base == "trailer" {
                assert!(found.iter().any(|l| l.contains("braking")), "nothing speaks of braking on a trailer");
            } else {
                assert!(found.is_empty(), "{base}, {unit}: {found:#?}");
            }
        }
    }
}

/// A cup and a cone do not know what carries them: what they say holds on each.
#[test]
fn a_cup_says_what_holds_on_every_base() {
    for name in ["cup-front-left.toml", "cup-rear-right.toml", "cup-spare-stepped.toml", "cone-front-left.toml"] {
        let lines = said(&work(name, &plain(&demo(name)), &Shop::default()));
        let only_road = ["braking", "bump", "trailer", "lashing", "driving", "cornering"];
        let found: Vec<&String> =
            lines.iter().filter(|l| only_road.iter().any(|w| l.to_lowercase().contains(w))).collect();
        assert!(found.is_empty(), "{name}: {found:#?}");
        let all = lines.join(" ");
        assert!(
            !all.contains("49 CFR 393.102: 0.8 g forward, 0.5") || all.contains("stands still"),
            "{name}: the road alone"
        );
    }
}

/// ASME B46.1 (from memory): Ra in µin beside Ra in µm.
#[test]
fn roughness_in_inch_jobs_is_in_microinches() {
    for (um, uin) in [(0.1, 4), (0.2, 8), (0.4, 16), (0.8, 32), (1.6, 63), (3.2, 125), (6.3, 250), (12.5, 500)] {
        assert_eq!(show::roughness(Length::um(um), LengthUnit::Inch), format!("Ra {uin} µin"));
    }
    assert_eq!(show::roughness(Length::um(0.8), LengthUnit::Mm), "Ra 0.8");
    // Between two preferred values it stands as it is: 1.0 µm is 39.37 µin.
    assert_eq!(show::roughness(Length::um(1.0), LengthUnit::Inch), "Ra 39.4 µin");
    // 1 µin = 0.0254 µm, exact since 1959; a mil is a thou.
    let read = |words: &str| text::length(words).expect("a length").as_um();
    assert!((read("32 µin") - 0.8128).abs() < 1e-9 && (read("100 uin") - 2.54).abs() < 1e-9);
    assert!((read("3 mil") - 76.2).abs() < 1e-9);
    assert_eq!(show::length(Length::um(0.8), LengthUnit::Inch), "31 µin");
    assert_eq!(show::length(Length::um(2.54), LengthUnit::Inch), "0.0001 in");
}

#[test]
fn no_small_figure_of_an_inch_job_is_lost_in_noughts() {
    let inch = Shop::read("shop.toml", "family = \"shop\"\nunits = \"in\"\n").expect("a shop");
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("parts");
    let mut names: Vec<String> =
        std::fs::read_dir(folder).expect("the demo").filter_map(|e| e.ok()?.file_name().into_string().ok()).collect();
    names.retain(|n| n.ends_with(".toml") && n != "shop.toml");
    names.sort();
    let strip =
        |text: &str| text.lines().filter(|l| !l.starts_with("units")).map(|l| format!("{l}\n")).collect::<String>();
    let mut designs: Vec<Design> = names
        .iter()
        .map(|name| {
            let (text, beside) = (plain(&demo(name)), |_: &str, name: &str| Ok((name.to_string(), plain(&demo(name)))));
            // A part with bare figures keeps its unit.
            job::work(name, &strip(&text), &inch, &beside).unwrap_or_else(|_| work(name, &text, &inch))
        })
        .collect();
    for family in FAMILIES {
        let none = |_: &str, name: &str| Err::<(String, String), String>(format!("no {name}"));
        designs.extend(job::work(&format!("{}.toml", family.name), &strip(family.template), &inch, &none).ok());
    }
    let (mut rough, mut found) = (0, Vec::new());
    for design in designs.iter().filter(|d| d.header.unit == LengthUnit::Inch) {
        for line in said(design) {
            rough += usize::from(line.contains("µin"));
            // Nought itself stands as it is, and so does a size with limits, whose figures are those of its limits.
            let tiny = |w: &str| w.trim_start_matches(['-', '(']).parse::<f64>().is_ok_and(|x| x > 0.0 && x < 5e-5);
            let words: Vec<&str> = line.split(' ').collect();
            let noughts = words.windows(2).any(|pair| tiny(pair[0]) && pair[1].starts_with("in"));
            let metric = line.contains("Ra 0.") || line.contains("Ra 1.6") || line.contains("Ra 3.2");
            if noughts || metric {
                found.push(format!("{}: {line}", design.header.stem));
            }
        }
    }
    assert!(rough > 10, "only {rough} lines in microinches");
    assert!(found.is_empty(), "{found:#?}");
}

/// A slot that its width all but fills is a hole: told, and so no remedy leads there.
#[test]
fn a_slot_as_long_as_wide_is_a_hole() {
    for (length, verdict) in
        [("40.4 mm", Verdict::Caution), ("41.9 mm", Verdict::Caution), ("42 mm", Verdict::Ok), ("52 mm", Verdict::Ok)]
    {
        let text = format!(
            "family = \"cup\"\nname = \"slot\"\nlength = \"120 mm\"\nwidth = \"100 mm\"\nthickness = \"8 mm\"\n\
             [hole]\nkind = \"slot\"\ndiameter = \"40 mm\"\nlength = \"{length}\"\ndirection = \"0 deg\"\n"
        );
        let design = work("slot.toml", &text, &Shop::default());
        let found = design.findings.iter().find(|f| f.key == "slot_is_hole").expect("it is judged");
        assert_eq!(found.verdict, verdict, "{length}");
    }
}

/// A frame whose centre of mass lies off its base tips, hot or cold; room for growth is no advice.
#[test]
fn a_frame_that_tips_is_told_so_and_not_to_grow_freely() {
    let landing = demo("landing-observatory.toml");
    let line = landing.lines().find(|l| l.starts_with("centre_of_mass")).expect("a centre of mass");
    let text = landing.replacen(line, "centre_of_mass = [\"9000 mm\", \"9000 mm\", \"900 mm\"]", 1);
    let design = work("landing.toml", &text, &Shop::default());
    let find = |key: &str| design.findings.iter().find(|f| f.key == key);
    assert!(find("heat").is_none_or(|f| f.verdict == Verdict::Ok), "it does not fail by heat");
    assert_eq!(find("heat_no_place").map(|f| f.verdict), Some(Verdict::Fail));
    let advice = |key: &str| {
        let rows = FAMILIES.iter().filter(|f| f.name == "landing").flat_map(|f| f.remedies);
        rows.clone().find(|r| r.checks.contains(&key)).map(|r| r.otherwise)
    };
    assert_eq!(advice("heat_no_place"), advice("stands"));
}
