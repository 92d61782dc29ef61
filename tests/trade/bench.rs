//! Orders of work that a person can follow to the end: what is bought, in which order it is worked, what proves it.

use approx::assert_relative_eq as near;
use setdown::design::{Design, Verdict};
use setdown::shop::Shop;

use super::seats::{cone, cup, number, plate};

fn alone(text: &str) -> Design {
    let nobody = |_: &str, _: &str| Err(String::new());
    setdown::job::work("part.toml", text, &Shop::default(), &nobody)
        .unwrap_or_else(|p| panic!("{}\n{text}", setdown::job::render(&p, text)))
}

fn steps(design: &Design) -> String {
    design.operations.iter().map(|o| format!("{}: {}\n", o.at, o.text)).collect()
}

/// Where that key is first measured.
fn measured(design: &Design, key: &str) -> usize {
    let at = design.operations.iter().position(|o| o.measure.iter().any(|m| m.key == key));
    at.unwrap_or_else(|| panic!("nobody measures {key}:\n{}", steps(design)))
}

fn verdict(design: &Design, key: &str) -> Verdict {
    design.findings.iter().filter(|f| f.key == key).map(|f| f.verdict).max().unwrap_or_else(|| panic!("no {key}"))
}

const SLEEVE: &str = "family = \"sleeve\"\nbore = \"20 mm\"\noutside_diameter = \"32 mm\"\nlength = \"30 mm\"\nbore_class = \"H7\"\n\
    outside_class = \"h6\"\nchamfer = \"0.5 mm\"\nbore_chamfer = \"0.5 mm\"\n";
const SHIM: &str = "family = \"shim\"\ngap = \"2.2 mm\"\ntarget_float = [\"0.05 mm\", \"0.25 mm\"]\nbore = \"20 mm\"\n\
    outside_diameter = \"32 mm\"\n";

/// Tool steel is sold annealed, cut while it is soft, and ground when it is hard (common practice): every family orders it
/// so, hardens it after the last cut and before the first grinding, and proves the hardness.
#[test]
fn hard_steel_is_bought_soft_and_proved_hard() {
    let hard = |text: &str| format!("material = \"tool steel O1 hardened\"\n{text}");
    let bolted =
        format!("{}foot = \"10 mm\"\nmounting = \"bolt-on\"\n[bolt]\nthread = \"M10\"\n", cone(60.0, 24.0, 30.0));
    let hole = "[hole]\nkind = \"round\"\ndiameter = \"40 mm\"\n[mounting]\nthread = \"M8\"\nspacing = [\"90 mm\", \"90 mm\"]\n";
    for design in [
        alone(&hard(SLEEVE)),
        alone(&hard(SHIM)),
        alone(&hard(&bolted)),
        cup(&hard(&plate(140.0, 8.0, hole)), &cone(60.0, 16.0, 30.0)),
    ] {
        let family = design.header.family;
        let bought = design.tools.join("\n");
        assert!(bought.contains("tool steel O1, annealed") && !bought.contains("hardened"), "{family}: {bought}");
        let all = steps(&design);
        assert!(!all.contains("O1 hardened plate"), "{all}");
        let furnace = measured(&design, "hardness");
        assert_eq!(design.operations[furnace].at, "furnace", "{all}");
        let at = |what: &str| design.operations.iter().rposition(|o| o.at == what);
        assert!(["lathe", "laser cutter"].iter().filter_map(|what| at(what)).all(|last| last < furnace), "{all}");
        assert!(at("grinder").is_some_and(|last| last > furnace), "{family}\n{all}");
    }
    // A soft one has none of it.
    assert!(alone(SLEEVE).dimension("hardness").is_none() && !steps(&alone(SLEEVE)).contains("furnace"));
}

/// What comes from the cutter and is used as cut is measured when it comes, and what a drill has made when it is drilled.
#[test]
fn what_is_cut_is_measured() {
    for thickness in [8.0, 20.0] {
        let hole = "[hole]\nkind = \"round\"\ndiameter = \"40 mm\"\n[mounting]\nthread = \"M8\"\nspacing = [\"90 mm\", \"80 mm\"]\n";
        let text = format!("length = \"140 mm\"\nwidth = \"130 mm\"\nthickness = \"{thickness} mm\"\n{hole}");
        let design = cup(&text, &cone(60.0, 16.0, 30.0));
        for key in ["thickness", "length", "width", "mounting_hole", "hole_diameter"] {
            measured(&design, key);
        }
        if thickness < 9.0 {
            assert_eq!(measured(&design, "mounting_spacing_x"), measured(&design, "thickness"));
        }
    }
    let ring = alone(SHIM);
    assert_eq!(measured(&ring, "outside_diameter"), measured(&ring, "bore"));
}

/// A cone touches a slot in two places: the plate rocks about the line through them, and no three readings agree.
#[test]
fn a_slot_is_propped_before_it_is_measured() {
    let slot = "[hole]\nkind = \"slot\"\ndiameter = \"40 mm\"\nlength = \"52 mm\"\n";
    let slot = cup(&plate(140.0, 8.0, slot), &cone(60.0, 16.0, 30.0));
    let text = &slot.operations[measured(&slot, "gap_to_crossbar")].text;
    assert!(text.contains("prop both ends of the slot") && !text.contains("three places"), "{text}");
    let round = cup(&plate(140.0, 8.0, "[hole]\nkind = \"round\"\ndiameter = \"40 mm\"\n"), &cone(60.0, 16.0, 30.0));
    assert!(round.operations[measured(&round, "gap_to_crossbar")].text.contains("three places"));
}

/// Both ends of a sleeve are chamfered, the second one after it is turned round.
#[test]
fn both_ends_are_chamfered() {
    let long = SLEEVE.replace("30 mm", "120 mm").replace("family", "stock = \"tube\"\nfamily");
    for text in [steps(&alone(SLEEVE)), steps(&alone(&long))] {
        let turned = text.find("turn round").unwrap();
        let ends = text[turned..].contains("chamfer this end") || text[turned..].contains("at both ends");
        assert!(ends, "{text}");
    }
}

/// No step heats a part more than it stands: a hard ring 120 degrees (a bearing maker's advice). 25 s6 on H7 is tight by 48 um
/// (ISO 286-1: +48 and 0); with 30 um to spare 78 um are wanted, 120 degrees open 25 x 12e-6 x 100 = 30 um, the shaft shrinks
/// by the rest at 20 - 0.048/(25 x 12e-6) = -140 degrees.
#[test]
fn no_step_heats_more_than_the_part_stands() {
    let ring = |class: &str| {
        let keys = "family = \"sleeve\"\nmaterial = \"tool steel O1 hardened\"\nbore = \"25 mm\"\noutside_diameter = \"40 mm\"\n\
                    length = \"20 mm\"\nbore_class = \"H7\"\noutside_class = \"h5\"\n";
        alone(&format!("{keys}[shaft]\nclass = \"{class}\"\n[slid_on]\n"))
    };
    let celsius = |design: &Design, key: &str| {
        design.dimension(key).map(|d| setdown::show::value(&d.value, setdown::units::LengthUnit::Mm))
    };
    let tight = ring("s6");
    assert_eq!(celsius(&tight, "heat_to").as_deref(), Some("120 °C"));
    assert_eq!(celsius(&tight, "cool_as_well_to").as_deref(), Some("-140 °C"));
    let text = steps(&tight);
    assert!(text.contains("to 120 °C, no more, cool the inner part to -140 °C as well"), "{text}");
    // Wider than liquid nitrogen brings: only the press is left.
    let tightest = ring("u6");
    assert!(
        celsius(&tightest, "cool_as_well_to").is_some()
            || steps(&tightest).contains("No heat that the outer part stands")
    );
}

/// A step drill whose point is 32 mm does not start in a hole of 10 mm; one of 12 mm does. The edge that it leaves inside
/// and that carries the cone is named where burrs are taken off.
#[test]
fn a_step_drill_starts_where_it_can() {
    let stepped = |list: &str, stop: f64, pilot: &str| {
        let hole = format!(
            "[hole]\nkind = \"stepped\"\nsteps = [{list}]\nstep_height = \"3 mm\"\nstop_depth = \"{stop} mm\"\n{pilot}"
        );
        steps(&cup(
            &plate(122.0, 6.0, &hole),
            "family = \"cone\"\nbase_diameter = \"50 mm\"\ntip_diameter = \"20 mm\"\nheight = \"30 mm\"\n",
        ))
    };
    let wide = stepped("\"32 mm\", \"34 mm\", \"36 mm\"", 1.0, "pilot = \"10 mm\"\n");
    assert!(wide.contains("first step of 32 mm") && wide.contains("25 mm"), "{wide}");
    // 50 less 34 over 2 x 0.5 is 16, less 1 mm of depth 15; the entry edge of 36 asks for 14 only.
    assert!(
        wide.contains("rests on the edge of 34 mm") && wide.contains("1 mm (0.0394 in) below the entry face"),
        "{wide}"
    );
    let small = stepped("\"12 mm\", \"14 mm\", \"16 mm\", \"18 mm\", \"20 mm\", \"22 mm\"", 3.0, "");
    assert!(!small.contains("too wide"), "{small}");
    // Stopped a whole step down, the entry edge carries: 14 against 16 - 3.
    let deep = stepped("\"32 mm\", \"34 mm\", \"36 mm\"", 3.0, "pilot = \"30 mm\"\n");
    assert!(deep.contains("leave the entry edge sharp") && !deep.contains("too wide"), "{deep}");
}

/// A fillet is no larger than the thinner part bears: leg at most its thickness, throat at most 0.7 of it (common practice);
/// below 2.5 mm a hollow section is not reckoned (EN 1993-1-8, 4.1, from memory). The least throat of 3 mm is for what bears it.
#[test]
fn a_weld_fits_the_wall() {
    let on = |wall: f64| {
        alone(&format!(
            "{}foot = \"6 mm\"\nmounting = \"weld-on\"\nseat_load = \"235 kg\"\ncrossbar_wall = \"{wall} mm\"\n",
            cone(50.0, 20.0, 26.565)
        ))
    };
    for (wall, leg, throat, told) in
        [(2.0, 2.0, 1.4, Verdict::Caution), (4.0, 4.0, 2.8, Verdict::Ok), (6.0, 4.5, 3.0, Verdict::Ok)]
    {
        let design = on(wall);
        near!(number(&design, "weld_leg"), leg, epsilon = 1e-9);
        near!(number(&design, "weld_throat"), throat, epsilon = 1e-9);
        assert_eq!((verdict(&design, "welded_wall"), verdict(&design, "weld_throat")), (told, Verdict::Ok), "{wall}");
        assert!(leg <= wall);
    }
}

/// A feeler gauge reads gaps: it is neither taken for the shim nor said to be good enough for it.
#[test]
fn a_feeler_gauge_measures_no_ring() {
    let nobody = |_: &str, _: &str| Err(String::new());
    let text = format!("{SHIM}instrument = \"feeler gauge\"\n");
    let refused = setdown::job::work("part.toml", &text, &Shop::default(), &nobody).unwrap_err();
    assert!(setdown::job::render(&refused, &text).contains("float_instrument"));
    let wide = alone(
        &SHIM
            .replace("[\"0.05 mm\", \"0.25 mm\"]", "[\"0.05 mm\", \"0.6 mm\"]")
            .replace("family", "float_instrument = \"feeler gauge\"\nfamily"),
    );
    let good = &wide.findings.iter().find(|f| f.key == "width_instrument").unwrap().because;
    assert!(good.contains("micrometer") && !good.contains("feeler"), "{good}");
}
