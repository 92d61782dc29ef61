//! What a coating does to a part, with figures worked by hand beside it.

use setdown::job;
use setdown::record::design::{Design, Value, Verdict};
use setdown::shop::Shop;
use setdown::standards::threads::Thread;

fn worked(text: &str) -> Result<Design, String> {
    let beside = |_: &str, name: &str| Err(format!("no {name}"));
    job::work("a.toml", text, &Shop::default(), &beside).map_err(|p| job::render(&p, text))
}

fn part(text: &str) -> Design {
    worked(text).unwrap_or_else(|why| panic!("{why}"))
}

fn mm(design: &Design, key: &str) -> f64 {
    design.named(key).unwrap_or_else(|| panic!("no {key}")).value.number()
}

fn limits(design: &Design, key: &str) -> (f64, f64) {
    let l = design.named(key).and_then(|d| d.limits.clone()).unwrap_or_else(|| panic!("no limits of {key}"));
    (l.lower.as_mm(), l.upper.as_mm())
}

/// Least and most before coating and after, of the row with that label.
fn row(design: &Design, label: &str) -> [f64; 4] {
    let table = design.tables.iter().find(|t| t.key == "coated").expect("a table of sizes");
    let row = table.rows.iter().find(|r| r[0] == Value::Text(label.into())).unwrap_or_else(|| panic!("no {label}"));
    [1, 2, 3, 4].map(|i| row[i].number())
}

const SHIM: &str = "family = 'shim'\ngap = '1.28 mm'\ntarget_float = ['0.05 mm', '0.15 mm']\nbore = '20 mm'\noutside_diameter = '32 mm'\n";
const CONE: &str =
    "family = 'cone'\nbase_diameter = '60 mm'\ntip_diameter = '24 mm'\nhalf_angle = '30 deg'\nfoot = '6 mm'\n";
const CUP: &str = "family = 'cup'\nlength = '120 mm'\nthickness = '8 mm'\n[hole]\nkind = 'round'\ndiameter = '40 mm'\n";

/// Two faces of 10 µm: the shim of 1.18 mm (1.28 less 0.10) is ground 1.16 mm, its float is as without a film, its bore is
/// made 0.02 mm larger.
#[test]
fn a_shim_is_ground_thinner_by_both_films() {
    let bare = part(SHIM);
    let coated = part(&format!("{SHIM}coating = 'zinc plate 8'\ncoating_thickness = '10 um'\n"));
    assert_eq!((mm(&bare, "width"), mm(&coated, "width")), (1.18, 1.18));
    assert!((mm(&coated, "width_before") - 1.16).abs() < 1e-9);
    let ((a, b), (c, d)) = (limits(&coated, "width"), limits(&coated, "width_before"));
    assert!((a - c - 0.02).abs() < 2e-4 && (b - d - 0.02).abs() < 2e-4);
    assert!((limits(&coated, "bore").0 - limits(&bare, "bore").0 - 0.02).abs() < 2e-4);
    // What is cut and drawn is the bare ring: 1.16 of 1.18 of the volume but for the bore.
    let volume = |d: &Design| d.solids[0].body.volume().as_mm3();
    assert!((volume(&coated) / volume(&bare) - 1.16 / 1.18).abs() < 2e-3);
    assert_eq!(mm(&coated, "float_min"), mm(&bare, "float_min"));
    let places: Vec<&str> = coated.operations.iter().map(|o| o.at).collect();
    assert!(places.contains(&"plater"), "{places:?}");
}

/// ISO 1461: over 6 mm at least 70 µm, 85 in the mean: 2 x (85 - 70) = 30 µm on two faces, all that a float of 0.03 mm leaves.
#[test]
fn hot_dip_on_a_shim_fails() {
    let shim = SHIM.replace("['0.05 mm', '0.15 mm']", "['0.09 mm', '0.12 mm']");
    let coated = part(&format!("{shim}coating = 'hot-dip zinc over 6 mm'\n"));
    let film = coated.findings.iter().find(|f| f.key == "coating_film").expect("judged");
    assert_eq!(film.verdict, Verdict::Fail);
    assert!((film.value.as_ref().map_or(0.0, Value::number) - 0.030).abs() < 1e-9);
    assert!(coated.findings.iter().any(|f| f.key == "coating_class" && f.verdict == Verdict::Caution));
}

/// Holes close by two films, outsides grow by two: 85 µm of zinc takes 0.17 mm off the 9 mm hole of an M8 (ISO 273) and
/// adds 0.14 to 0.17 mm to 8 mm of plate. A seat of 30 degrees is lifted by film/sin 30 = 2 films.
#[test]
fn holes_close_and_plates_grow() {
    let head = "coating = 'hot-dip zinc over 6 mm'\n";
    let cup = part(&format!("{head}{CUP}[mounting]\nthread = 'M8'\nspacing = ['90 mm', '90 mm']\n"));
    let [before, _, after, _] = row(&cup, "mounting hole");
    assert!((before - after - 0.17).abs() < 2e-4);
    let [least, most, grown_least, grown_most] = row(&cup, "plate thickness");
    assert!((grown_least - least - 0.14).abs() < 2e-4 && (grown_most - most - 0.17).abs() < 2e-4);
    let passes = cup.findings.iter().find(|f| f.key == "coated_hole").expect("judged");
    assert_eq!(passes.verdict, Verdict::Ok);
    let cone = part(&format!("{head}{CONE}"));
    assert!((mm(&cone, "coating_rise") - 0.17).abs() < 1e-9);
    let text = format!("{:?}", cone.operations);
    assert!(text.contains("hot-dip zinc over 6 mm") && text.contains("After welding"), "{text}");
}

/// Hot-dip zinc of 85 µm closes the pitch diameter of a thread by 2 x 0.085/sin 30° = 0.34 mm; position AZ of ISO 965-5 for a
/// pitch of 1.5 mm is 330 µm (from memory).
#[test]
fn a_tapped_hole_is_plugged_and_its_oversize_told() {
    let bolt = "mounting = 'bolt-on'\n[bolt]\nthread = 'M10'\nway = 'from below'\n";
    let cone = part(&format!("coating = 'hot-dip zinc over 6 mm'\n{CONE}{bolt}"));
    assert!((mm(&cone, "thread_closes") - 0.34).abs() < 1e-9);
    assert!((mm(&cone, "thread_oversize") - 0.33).abs() < 1e-9);
    assert!(cone.operations.iter().any(|o| o.at == "galvanizer" && o.text.contains("Plug the tapped hole M10")));
}

/// es of position g (ISO 965-1, table of fundamental deviations, from memory): 0.8 24, 1 26, 1.25 28, 1.5 32, 1.75 34, 2 38,
/// 2.5 42, 3 48 µm. ASME B1.1, allowance of class 2A: 1/4-20 0.0011, 3/8-16 0.0013, 1/2-13 0.0015, 3/4-10 0.0018 in.
#[test]
fn play_of_bolts_against_the_printed_tables() {
    for (thread, um) in [
        ("M5", 24.0),
        ("M6", 26.0),
        ("M8", 28.0),
        ("M10", 32.0),
        ("M12", 34.0),
        ("M16", 38.0),
        ("M20", 42.0),
        ("M24", 48.0),
    ] {
        let play = Thread::parse(thread).unwrap().bolt_allowance().as_um();
        assert!((play - um).abs() <= 1.01, "{thread}: {play}");
    }
    for (thread, thou) in [("1/4", 1.1), ("3/8", 1.3), ("1/2", 1.5), ("3/4", 1.8)] {
        let play = Thread::parse(thread).unwrap().bolt_allowance().as_thou();
        assert!((play - thou).abs() <= 0.06, "{thread}: {play}");
    }
    assert!(Thread::parse("M6").unwrap().oversize_for_hot_dip().is_none(), "ISO 10684 begins with M8");
}

/// A metal that does not take the coating is refused at the coating, with one that it takes.
#[test]
fn a_coating_that_the_metal_does_not_take_is_refused() {
    for (material, coating, instead) in [
        ("steel S235", "anodise", "zinc plate"),
        ("aluminium 6061-T6", "zinc plate 8", "anodise"),
        ("stainless 304", "hot-dip zinc over 6 mm", "bare"),
        ("PETG", "powder coat", "painted"),
    ] {
        let why = worked(&format!("{CONE}material = '{material}'\ncoating = '{coating}'\n")).expect_err("refused");
        assert!(why.contains("a.toml:7:11") && why.contains("takes no") && why.contains(instead), "{why}");
    }
    part(&format!("{CONE}material = 'aluminium 6061-T6'\ncoating = 'hard anodise'\n"));
}

/// Iron rusts where it is wet; stainless and bronze do not, nor steel in a heated room (common knowledge of the trade).
#[test]
fn bare_steel_outdoors_is_told_and_nothing_else() {
    for (material, environment, told) in [
        ("steel S235", "outdoors", true),
        ("steel S235", "dry", false),
        ("stainless 304", "outdoors", false),
        ("bronze C93200", "outdoors", false),
    ] {
        let cone = part(&format!("{CONE}material = '{material}'\nenvironment = '{environment}'\n"));
        assert_eq!(cone.notes.iter().any(|n| n.key == "bare_steel"), told, "{material} {environment}");
    }
}

/// A cup whose cone is not named, 300 kg with half of it across, on four M10 8.8 bolts at 104 x 78 mm. Roark, table 11.2 case 1a
/// (from memory): b/a = 19.5/65 = 0.3, K 0.6210, moment K w a under w = P/(2 pi b), stress 6 M/t^2. EN 1993-1-8 table 3.4:
/// 0.6 x 800 x 58/1.25 = 22.3 kN in shear each.
#[test]
fn a_loaded_cup_without_its_cone_is_judged_as_far_as_it_can_be() {
    let text = "family = 'cup'\nmaterial = 'steel S235'\nlength = '130 mm'\nwidth = '110 mm'\nthickness = '10 mm'\n\
                seat_load = '300 kg'\nside_factor = 0.5\n[hole]\nkind = 'round'\ndiameter = '39 mm'\n\
                [mounting]\nthread = 'M10'\nclass = '8.8'\nspacing = ['104 mm', '78 mm']\n";
    let cup = part(text);
    let value = |key: &str| {
        let found = cup.findings.iter().find(|f| f.key == key).unwrap_or_else(|| panic!("no {key}"));
        found.value.as_ref().map_or(0.0, Value::number)
    };
    let load = 300.0 * 9.806_65;
    let moment = 0.6210 * load / (std::f64::consts::TAU * 19.5) * 65.0;
    assert!((value("plate_bending") / (6.0 * moment / 100.0) - 1.0).abs() < 0.01);
    assert!((value("cup_bolts") / (load / 2.0 / 4.0 / (0.6 * 800.0 * 58.0 / 1.25)) - 1.0).abs() < 0.01);
    assert!(cup.findings.iter().any(|f| f.key == "load_unjudged" && f.verdict == Verdict::Caution));
    let bare = part(&text.replace("seat_load = '300 kg'\nside_factor = 0.5\n", ""));
    assert!(bare.findings.iter().all(|f| f.key != "load_unjudged" && f.key != "plate_bending"));
}

/// What is coated is coated before it is bolted, pressed or drawn tight where it belongs, and after it is welded; dowel holes are drilled
/// when the bolts hold the plate. Common practice, no source.
#[test]
fn nothing_is_coated_where_it_is_fixed() {
    let nobody = |_: &str, _: &str| Err(String::new());
    let mut seen = 0;
    for family in setdown::families::FAMILIES.iter().filter(|f| f.name != "landing") {
        for coating in ["paint", "zinc plate 8"] {
            let text =
                format!("coating = \"{coating}\"\n{}", family.template.replacen("\ncoating = ", "\n# coating = ", 1));
            let Ok(design) = setdown::job::work("part.toml", &text, &setdown::shop::Shop::default(), &nobody) else {
                continue;
            };
            let at = |word: &str| design.operations.iter().position(|o| o.text.contains(word));
            let Some(coated) = at("All sizes of the drawing are before coating") else { continue };
            for fixing in ["on with", "straight, in one go", "Slide the clamp on", "Drill the crossbar"] {
                if let Some(fixed) = at(fixing) {
                    seen += 1;
                    assert!(coated < fixed, "{} {coating}: {fixing}", family.name);
                }
            }
            if let Some(welded) = design.operations.iter().rposition(|o| o.at == "welder") {
                assert!(coated > welded, "{} {coating}: before it is welded", family.name);
            }
        }
    }
    assert!(seen >= 4, "{seen}");
}

/// By hand, zinc of 0.1 mm on flanks of 30 degrees: a cup sits 0.1/sin 30° = 0.2 mm higher; masked not at all. The cone stands on bare
/// metal: its height grows by one film, not by two, and a foot that goes into a register by none.
#[test]
fn what_is_masked_does_not_grow() {
    let zinc = "coating = 'zinc plate 8'\ncoating_thickness = '0.1 mm'\nmounting = 'weld-on'\n";
    let plain = part(&format!("{CONE}{zinc}"));
    approx::assert_relative_eq!(mm(&plain, "coating_rise"), 0.2, epsilon = 1e-9);
    approx::assert_relative_eq!(mm(&plain, "flank_growth"), 0.2 / 30.0_f64.to_radians().cos(), epsilon = 1e-4);
    let masked = part(&format!("{CONE}{zinc}seat_masked = true\n"));
    assert_eq!((mm(&masked, "coating_rise"), mm(&masked, "flank_growth")), (0.0, 0.0));
    let label = plain.named("overall_height").unwrap().label.clone();
    let [before, most, after, coated] = row(&plain, &label);
    approx::assert_relative_eq!(after - before, 0.1, epsilon = 1e-9);
    approx::assert_relative_eq!(coated - most, 0.1, epsilon = 1e-9);
    assert!(worked(&format!("{CONE}seat_masked = true\n")).unwrap_err().contains("it goes with a coating"));
}
