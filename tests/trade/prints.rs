//! Parts of printed plastic: the printer makes them, whatever the family.

use setdown::families::{self, FAMILIES};
use setdown::job;
use setdown::record::design::{Design, Verdict};
use setdown::shop::Shop;

/// The template of a family in that material, in that shop.
fn template(family: &str, material: &str, shop: &str) -> Result<Design, String> {
    let family = families::family(family).unwrap();
    let written = family.template.lines().find(|line| line.starts_with("material")).unwrap();
    let text = family.template.replacen(written, &format!("material = \"{material}\""), 1);
    let beside = |_: &str, name: &str| {
        let found = family.companions.iter().find(|(file, _)| *file == name);
        found.map(|(file, text)| ((*file).to_string(), (*text).to_string())).ok_or_else(|| "no such file".to_string())
    };
    let shop = Shop::read("shop.toml", &format!("family = \"shop\"\n{shop}")).unwrap();
    job::work("part.toml", &text, &shop, &beside).map_err(|problems| job::render(&problems, &text))
}

/// No lathe, no cutter, no welder in the work of a print, and nothing for the cutter; a tube that is welded is no print.
#[test]
fn a_print_is_made_by_the_printer() {
    // The material of a landing is that of its frame.
    for family in FAMILIES.iter().filter(|f| f.name != "landing") {
        let metal = template(family.name, "steel S235", "").unwrap();
        assert!(metal.operations.iter().all(|o| o.at != "3D printer"), "{}", family.name);
        for plastic in ["PLA", "PETG"] {
            let design = match template(family.name, plastic, "") {
                Ok(design) => design,
                Err(why) => {
                    let refused = [("tube-sleeve", "plastic is not welded"), ("bush", "a print is no bearing")];
                    assert!(refused.iter().any(|(name, words)| family.name == *name && why.contains(words)), "{why}");
                    continue;
                }
            };
            let places: Vec<&str> = design.operations.iter().map(|o| o.at).collect();
            assert!(places.contains(&"3D printer"), "{}: {places:?}", family.name);
            assert!(places.iter().all(|at| ["3D printer", "bench"].contains(at)), "{}: {places:?}", family.name);
            assert!(design.cutting.is_none() && design.bars.is_empty(), "{}", family.name);
            let tools = design.tools.join("; ");
            assert!(tools.contains(&format!("printed in {plastic}")), "{}: {tools}", family.name);
            for word in ["laser", "sheet", "plate steel", "lathe", "chuck", "weld"] {
                assert!(!tools.contains(word), "{}: {tools}", family.name);
                let cut = design.operations.iter().find(|o| o.text.contains(word));
                assert!(cut.is_none(), "{}: {cut:?}", family.name);
            }
        }
    }
}

/// What the printer is known to do off size is told; where it is not, how that is found. Too large a print is a failure.
#[test]
fn the_printer_of_the_shop_counts() {
    let step = |design: &Design| design.operations.iter().find(|o| o.at == "3D printer").unwrap().text.clone();
    let unknown = template("cone", "PLA", "").unwrap();
    assert!(step(&unknown).contains("print the ladders"), "{}", step(&unknown));
    assert!(unknown.findings.iter().all(|f| f.key != "printer_bed"));
    let known = "[printer]\nbed = [\"220 mm\", \"200 mm\"]\nheight = \"250 mm\"\nhole_offset = \"-0.25 mm\"\noutside_offset = \"0.1 mm\"\nlayer = \"0.3 mm\"\n";
    let cone = template("cone", "PLA", known).unwrap();
    for said in ["holes 0.25 mm (0.0098 in) small and outsides 0.1 mm (0.0039 in) large", "layers of 0.3 mm"] {
        assert!(step(&cone).contains(said), "{}", step(&cone));
    }
    let bed = |design: &Design| design.findings.iter().find(|f| f.key == "printer_bed").unwrap().verdict;
    assert_eq!(bed(&cone), Verdict::Ok);
    let small = known.replace("220 mm", "40 mm");
    assert_eq!(bed(&template("cone", "PLA", &small).unwrap()), Verdict::Fail);
    for wrong in
        ["[printer]\nbed = [\"220 mm\"]\n", "[printer]\nhole_offset = \"25 mm\"\n", "[printer]\nnozzle = \"1 mm\"\n"]
    {
        assert!(Shop::read("shop.toml", &format!("family = \"shop\"\n{wrong}")).is_err(), "{wrong}");
    }
}

fn try_out(lines: &str) -> Design {
    let text = format!("family = \"test-fit\"\n{lines}");
    let nobody = |_: &str, _: &str| Err(String::new());
    job::work("part.toml", &text, &Shop::default(), &nobody)
        .unwrap_or_else(|p| panic!("{}\n{text}", job::render(&p, &text)))
}

fn value(design: &Design, key: &str) -> f64 {
    design.named(key).unwrap_or_else(|| panic!("no {key}")).value.number()
}

/// A ladder of seven holes about 20 mm, steps of 0.1: by hand 19.7 to 20.3. Four readings 0.22, 0.20, 0.24 and 0.22 under what was drawn: mean
/// -0.22, s = 0.01633, t for 3 degrees of freedom 3.182 (JCGM 100:2008 table G.2): 3.182 x 0.01633/2 = 0.02598; with the calliper's 0.03
/// 0.0397. The smallest hole that takes a pin of 20 mm is number 6, drawn 20.2: 0.15 small, half a step either way.
#[test]
fn a_ladder_tells_how_far_the_printer_is_off() {
    let reading = |hole: u32, mm: f64| {
        format!("[[measured]]\nwhat = \"hole_{hole}\"\nvalue = \"{mm} mm\"\nwith = \"calliper\"\n")
    };
    let readings = [(1, 19.48), (3, 19.70), (5, 19.86), (7, 20.08)].map(|(hole, mm)| reading(hole, mm)).concat();
    let lines =
        "kind = \"holes\"\nnominal = \"20 mm\"\nstep = \"0.1 mm\"\nnumber = 7\ntried_with = \"20 mm\"\nfits_at = 6\n";
    let design = try_out(&format!("{lines}{readings}"));
    for (hole, drawn) in [(1, 19.7), (4, 20.0), (7, 20.3)] {
        assert!((value(&design, &format!("hole_{hole}")) - drawn).abs() < 1e-9);
    }
    let told: Vec<(f64, String)> = design
        .findings
        .iter()
        .filter(|f| f.key == "offset_found")
        .map(|f| (f.value.as_ref().unwrap().number(), f.because.clone()))
        .collect();
    let [(by_fit, fit), (by_readings, read)] = told.as_slice() else { panic!("{told:?}") };
    assert!((by_fit + 0.15).abs() < 1e-9 && fit.contains("± 0.05 mm"), "{fit}");
    assert!((by_readings + 0.22).abs() < 1e-9 && read.contains("± 0.04 mm"), "{read}");
    assert!(read.contains("hole_offset = \"-0.22 mm\"") && read.contains("4 readings"), "{read}");
    // The text can be written as it stands.
    assert!(Shop::read("shop.toml", "family = \"shop\"\n[printer]\nhole_offset = \"-0.22 mm\"\n").is_ok());
}

/// 20 H11 is 20.000 to 20.130 (ISO 286-2, printed table): a plug takes a tenth, 0.013 mm, inside both ends; a ring for 20 h11 (19.870 to
/// 20.000) the same, its go ring at the greatest shaft. Boring does not hold IT8 of 20 mm, 0.033 mm, in 0.013: a caution; H7 neither.
#[test]
fn gauges_lie_inside_what_they_gauge() {
    let steel = "material = \"steel 1045\"\nnominal = \"20 mm\"\n";
    let plug = try_out(&format!("kind = \"plug\"\nclass = \"H11\"\n{steel}"));
    let ring = try_out(&format!("kind = \"ring\"\nclass = \"h11\"\n{steel}"));
    let ends = |design: &Design, key: &str| {
        let limits = design.named(key).unwrap().limits.clone().unwrap();
        [limits.lower.as_mm(), limits.upper.as_mm()]
    };
    for (design, key, wanted) in [
        (&plug, "go_diameter", [20.0, 20.013]),
        (&plug, "not_go_diameter", [20.117, 20.130]),
        (&ring, "go_bore", [19.987, 20.0]),
        (&ring, "not_go_bore", [19.870, 19.883]),
    ] {
        let got = ends(design, key);
        assert!(got.iter().zip(wanted).all(|(g, w)| (g - w).abs() < 1e-9), "{key}: {got:?}");
    }
    let verdict = |design: &Design| design.findings.iter().find(|f| f.key == "gauge_tolerance").unwrap().verdict;
    assert_eq!((verdict(&plug), verdict(&ring)), (Verdict::Ok, Verdict::Caution));
    let fine = try_out(&format!("kind = \"plug\"\nclass = \"H7\"\n{steel}"));
    assert_eq!(verdict(&fine), Verdict::Caution);
}

/// A flat gauge of 30 degrees, 40 mm high: its edge is (40 - 1.5)/cos 30 = 44.456 mm long, and a slit of 0.02 mm there is 1.547' (3437.75' x
/// 0.02/44.456). Its leaning edge goes back by 40 tan 30 = 23.094.
#[test]
fn a_flat_gauge_leans_as_the_cone() {
    let design = try_out("kind = \"angle\"\nhalf_angle = \"30 deg\"\nlength = \"40 mm\"\n");
    assert!((value(&design, "edge_length") - 44.456).abs() < 1e-3);
    assert!((value(&design, "angle_seen") * 60.0 - 3437.75 * 0.02 / 44.456).abs() < 1e-3);
    let setdown::shape::Body::Flat(flat) = &design.solids[0].body else { panic!() };
    assert!((flat.extents().least().x().as_mm() + 23.094).abs() < 1e-3);
}
