//! Work that stands far out of the chuck, and bores that are deep: whoever turns it, something carries it and something reaches.

use setdown::record::design::{Design, Verdict};
use setdown::shop::Shop;

use crate::lot;

fn alone(text: &str) -> Design {
    let nobody = |_: &str, _: &str| Err(String::new());
    setdown::job::work("part.toml", text, &Shop::default(), &nobody)
        .unwrap_or_else(|p| panic!("{}\n{text}", setdown::job::render(&p, text)))
}

fn judged(design: &Design, key: &str) -> (Verdict, String) {
    let found = design.findings.iter().find(|f| f.key == key).unwrap_or_else(|| panic!("no {key}"));
    (found.verdict, found.because.clone())
}

fn turned(design: &Design) -> String {
    design.operations.iter().filter(|o| o.at == "lathe").map(|o| format!("{}\n", o.text)).collect()
}

const TUBE_SLEEVE: &str = "family = 'tube-sleeve'\nmaterial = 'steel S235'\nenvironment = 'dry'\noutside_diameter = '18 mm'\nbore = '9 mm'\n\
    [tube]\nshape = 'square'\nthrough = '62 mm'\nwall = '3 mm'\n";
const SPACER: &str = "family = 'adapter'\nkind = 'spacer'\nmaterial = 'steel 1045'\nenvironment = 'dry'\noutside_diameter = '60 mm'\nthickness = '300 mm'\n\
    bore = '20 mm'\n[upper]\ncircle = '42 mm'\nnumber = 4\nthread = 'M5'\nhole = 'tapped'\nthread_depth = '10 mm'\n\
    [lower]\ncircle = '42 mm'\nnumber = 4\nthread = 'M5'\nhole = 'tapped'\nthread_depth = '10 mm'\n";
const PINS: &str =
    "family = 'test-fit'\nkind = 'pins'\nmaterial = 'steel 1045'\nnominal = '20 mm'\nlength = '120 mm'\n";

/// The millimetres that stand before ` out of the jaws`, in whichever of both units the sheet has first.
fn out_of_the_jaws(text: &str) -> Vec<f64> {
    let befores = text.match_indices(" out of the jaws").filter_map(|(at, _)| text.get(..at));
    let number = |before: &str| {
        let tail = before.rsplit("with ").next()?;
        let words: Vec<&str> = tail.split([' ', '(', ')']).filter(|w| !w.is_empty()).collect();
        let at = words.iter().position(|w| *w == "mm")?;
        words.get(at.checked_sub(1)?)?.parse().ok()
    };
    befores.filter_map(number).collect()
}

/// Lathe owner's manual, safety page: work longer than 3 diameters out of the chuck is to be supported. Every family that chucks a bar
/// says what carries it, or fails.
#[test]
fn nothing_long_hangs_free_of_the_chuck() {
    let mut met = 0;
    let lots = (0..1500).map(lot::part).filter_map(|p| p.work("part.toml").ok());
    let long = [TUBE_SLEEVE, SPACER, PINS].map(alone);
    for design in long.into_iter().chain(lots) {
        let [bar] = design.bars.as_slice() else { continue };
        let Some(across) = bar.across else { continue };
        let fails = design.findings.iter().any(|f| f.key == "hold_out" && f.verdict == Verdict::Fail);
        for step in &design.operations {
            for out in out_of_the_jaws(&step.text) {
                met += 1;
                let carried = ["tailstock's centre", "steady", "centre drill"].iter().any(|w| step.text.contains(w));
                let free = out / across.as_mm() > 3.0 + 1e-6;
                assert!(!free || carried || fails, "{} {out} of {across:?}\n{}", design.header.family, step.text);
            }
        }
    }
    assert!(met > 100, "{met} bars in a chuck");
}

/// 62 mm of 18 stand 74 mm out of 20: 3.7 diameters. 300 mm of 60 stand 310 mm out, five diameters, and when it is turned round more
/// than four hang out of the soft jaws. Pins of 20 x 120: six.
#[test]
fn the_steps_say_what_carries_it() {
    for text in [TUBE_SLEEVE, SPACER, PINS] {
        let design = alone(text);
        assert_eq!(judged(&design, "hold_out").0, Verdict::Ok, "{text}");
        let work = turned(&design);
        assert!(work.contains("centre drill it") && work.contains("the tailstock's centre in its end"), "{work}");
        // A parting tool between chuck and centre is pinched (common practice, no source).
        assert!(work.contains("saw it off") && !work.contains("part off"), "{work}");
        let tools =
            design.tools.join("\n") + &design.operations.iter().flat_map(|o| o.tools.clone()).collect::<String>();
        assert!(tools.contains("centre drill"), "{tools}");
        assert_eq!(work.contains("fixed steady"), text != PINS, "{work}");
    }
    assert!(turned(&alone(SPACER)).contains("the other end in a fixed steady"));
    // A short one is turned as ever.
    let short = alone(&SPACER.replace("300 mm", "50 mm"));
    assert_eq!(judged(&short, "hold_out").0, Verdict::Ok);
    assert!(turned(&short).contains("part off") && !turned(&short).contains("steady"));
    // Pins so thin that a centre alone does not carry them.
    let thin = alone(
        "family = 'test-fit'\nkind = 'pins'\nmaterial = 'steel 1045'\nnominal = '3 mm'\nstep = '0.05 mm'\nlength = '60 mm'\n",
    );
    let (verdict, because) = judged(&thin, "hold_out");
    assert!(
        verdict == Verdict::Fail || (verdict == Verdict::Caution && turned(&thin).contains("follow rest")),
        "{because}"
    );
}

/// A hole keeps its own diameter of metal to the edge of its ring, a groove its own depth (common practice, no source); 3 mm at 29.2 of
/// 31.75 leave 31.75 - 29.2 - 1.5 - 0.76 = 0.29 mm before any limit.
#[test]
fn a_grease_hole_stays_clear_of_the_end() {
    let ring = |family: &str, at: f64| {
        let runs = if family == "bush" {
            "[shaft]\nclass = 'f7'\n[housing]\nclass = 'H7'\n[runs]\nload = '500 N'\nswings_per_minute = 2\nswing = '60 deg'\n"
        } else {
            ""
        };
        let metal = if family == "bush" { "bronze C93200" } else { "steel 1045" };
        alone(&format!(
            "family = '{family}'\nmaterial = '{metal}'\nenvironment = 'dry'\nbore = '25 mm'\noutside_diameter = '40 mm'\nlength = '31.75 mm'\n\
             bore_class = 'H7'\nchamfer = '0.76 mm'\nbore_chamfer = '0.76 mm'\n[grease_hole]\ndiameter = '3 mm'\nposition = '{at} mm'\n{runs}"
        ))
    };
    for family in ["sleeve", "bush"] {
        assert_eq!(judged(&ring(family, 29.2), "grease_hole_edge").0, Verdict::Fail, "{family}");
        assert_eq!(judged(&ring(family, 27.5), "grease_hole_edge").0, Verdict::Caution, "{family}");
        assert_eq!(judged(&ring(family, 16.0), "grease_hole_edge").0, Verdict::Ok, "{family}");
    }
    let groove = |at: f64| {
        alone(&format!(
            "family = 'sleeve'\nmaterial = 'steel 1045'\nenvironment = 'dry'\nbore = '25 mm'\noutside_diameter = '40 mm'\nlength = '30 mm'\n\
             [groove]\nside = 'outside'\nposition = '{at} mm'\nwidth = '4 mm'\ndepth = '2 mm'\n"
        ))
    };
    let groove = |at| judged(&groove(at), "groove_edge").0;
    assert_eq!([groove(15.0), groove(26.5), groove(27.9)], [Verdict::Ok, Verdict::Caution, Verdict::Fail]);
}

/// Of a surface that is cut, metal on the one side of its limits is left to come off, and only on the other is the part lost (common
/// practice, no source): a spigot, a recess, both walls of a groove for a seal, a groove in a bore, what is pressed later, a liner.
#[test]
fn metal_that_is_left_comes_off() {
    let adapter = |register: &str| {
        format!(
            "family = 'adapter'\nkind = 'flange'\nmaterial = 'steel 1045'\nenvironment = 'dry'\noutside_diameter = '160 mm'\nthickness = '20 mm'\nbore = '40 mm'\n\
             [upper]\ncircle = '130 mm'\nnumber = 6\nthread = 'M8'\nregister = '{register}'\nregister_diameter = '60 mm'\nregister_height = '4 mm'\n\
             [lower]\ncircle = '110 mm'\nnumber = 6\nthread = 'M8'\nhole = 'tapped'\nring_section = '3.53 mm'\nring_inside = '60 mm'\n"
        )
    };
    let grooved = "family = 'sleeve'\nmaterial = 'steel 1045'\nenvironment = 'dry'\nbore = '25 mm'\noutside_diameter = '45 mm'\nlength = '30 mm'\n\
        [groove]\nside = 'inside'\nwidth = '4 mm'\ndepth = '1 mm'\n";
    let (spigot, recess, grooved) = (adapter("spigot"), adapter("recess"), grooved.to_string());
    for (text, key, over_is_left) in [
        (&spigot, "register_upper", true),
        (&spigot, "register_height_upper", true),
        (&recess, "register_upper", false),
        (&recess, "register_height_upper", false),
        (&spigot, "groove_inner_lower", true),
        (&spigot, "groove_outer_lower", false),
        (&grooved, "groove_diameter", false),
    ] {
        let design = alone(text);
        let limits = design.named(key).and_then(|d| d.limits.clone()).unwrap_or_else(|| panic!("no limits of {key}"));
        for over in [true, false] {
            let at = if over { limits.upper.as_mm() + 0.2 } else { limits.lower.as_mm() - 0.2 };
            let row = format!("{text}[[measured]]\nwhat = '{key}'\nvalue = '{at:.4} mm'\nwith = 'micrometer'\n");
            let (verdict, because) = judged(&alone(&row), "as_measured");
            let left = over == over_is_left;
            assert_eq!(verdict, if left { Verdict::Caution } else { Verdict::Fail }, "{key} {over}: {because}");
            assert_eq!(because.contains("is left to take off"), left, "{key}: {because}");
        }
    }
}

/// Steel boring bars work at four of their diameters (makers, from memory); a bar of 0.7 of the bore: 2.8 bores from each end.
#[test]
fn a_bore_is_no_deeper_than_something_reaches() {
    assert_eq!(judged(&alone(SPACER), "bore_depth").0, Verdict::Fail);
    let halves = alone(&SPACER.replace("300 mm", "100 mm"));
    assert_eq!(judged(&halves, "bore_depth").0, Verdict::Ok);
    assert!(turned(&halves).contains("the rest from the other end") && turned(&halves).contains("bore the rest of it"));
    let one = alone(&SPACER.replace("300 mm", "50 mm"));
    assert!(!turned(&one).contains("bore the rest"), "{}", turned(&one));
    // A bore that widens is turned from one end only.
    let cone =
        alone(&SPACER.replace("300 mm", "100 mm").replace("bore = '20 mm'", "bore = '20 mm'\nbore_below = '24 mm'"));
    assert_eq!(judged(&cone, "bore_depth").0, Verdict::Fail);
    // Flutes of seven diameters (DIN 338 from memory): 62 mm of 9 by one drill, of 6 half from each end, of 4 by none.
    let sleeve = |bore: &str| alone(&TUBE_SLEEVE.replace("'9 mm'", bore));
    assert!(turned(&sleeve("'9 mm'")).contains("through at"));
    assert!(turned(&sleeve("'6 mm'")).contains("drill the other half"));
    assert_eq!(judged(&sleeve("'6 mm'"), "bore_depth").0, Verdict::Ok);
    assert_eq!(judged(&sleeve("'4 mm'"), "bore_depth").0, Verdict::Caution);
}
