//! What plates, cones, bolts and welds carry, against printed tables, and what the program says of it.

use approx::assert_relative_eq as near;
use setdown::formulas::bolts::{
    BoltClass, CLASS_8_8, CLASSES, SHARE, engagement, preload, tightening_torque, tipping_pull,
};
use setdown::formulas::strength::{self, RoundSection};
use setdown::record::design::{Design, Verdict};
use setdown::standards::threads::Thread;
use setdown::standards::welding::{self, Composition, Joint, Metal};
use setdown::units::{Angle, Force, Length, Stress};

use super::seats::{cone, cup, number, plate};

fn mm(x: f64) -> Length {
    Length::mm(x)
}
fn newtons(x: f64) -> Force {
    Force::newtons(x)
}

/// Timoshenko, Theory of Plates and Shells, section 17, table 3, case 1 (reprinted in a mechanical engineer's data handbook,
/// plates with a central hole): k in k P/t² for a/b = 1.25 (from memory), 1.5, 2, 3, 4, 5, Poisson's ratio 0.3; worked by
/// slide rule, off by up to 3 %. Roark, Formulas for Stress and Strain, table 11.2 case 1a (from memory): moment at the hole
/// K w a under a line load w at its edge, to four places.
#[test]
fn plate_with_a_loaded_hole_against_the_printed_tables() {
    let bending = |a: f64, b: f64, load: f64| {
        strength::holed_plate_bending(newtons(load), mm(a), mm(b), mm(8.0), 0.3).unwrap().as_mpa()
    };
    for (ratio, k) in [(1.25, 1.10), (1.5, 1.26), (2.0, 1.48), (3.0, 1.88), (4.0, 2.17), (5.0, 2.34)] {
        near!(bending(20.0 * ratio, 20.0, 6400.0), k * 100.0, max_relative = 0.033);
    }
    for (inner, k) in [(0.1, 0.3374), (0.3, 0.6210), (0.5, 0.7757), (0.7, 0.8814), (0.9, 0.9638)] {
        let (a, b) = (50.0, 50.0 * inner);
        let w = 100.0;
        let moment = bending(a, b, w * std::f64::consts::TAU * b) * 64.0 / 6.0;
        near!(moment, k * w * a, max_relative = 2e-4);
    }
    assert!(strength::holed_plate_bending(newtons(1.0), mm(20.0), mm(20.0), mm(8.0), 0.3).is_err());
}

/// EN 1993-1-8 as tabulated (three tables agree): class 8.8, threads in the shear plane: M12 32.4, M16 60.3, M20 94.1,
/// M24 135.6 kN; stress areas 84.3, 157, 245, 353 mm². Tension, M20: 141 kN. ASME B1.1: 1/2-13 0.1419, 3/4-10 0.334 in².
#[test]
fn bolts_against_the_printed_tables() {
    for (thread, area, shear) in
        [("M12", 84.3, 32.4), ("M16", 157.0, 60.3), ("M20", 245.0, 94.1), ("M24", 353.0, 135.6)]
    {
        let stress_area = Thread::parse(thread).unwrap().stress_area();
        near!(stress_area.as_mm2(), area, max_relative = 3e-3);
        near!(CLASS_8_8.shear(stress_area).as_newtons(), shear * 1000.0, max_relative = 3e-3);
    }
    let m20 = Thread::parse("M20").unwrap().stress_area();
    near!(CLASS_8_8.tension(m20).as_newtons(), 141_000.0, max_relative = 2e-3);
    for (thread, area) in [("1/2", 0.1419), ("3/4", 0.334)] {
        near!(Thread::parse(thread).unwrap().stress_area().as_mm2() / 645.16, area, max_relative = 2e-3);
    }
    // Half in shear, half of 1.4 times the tension: all of it. Tension alone counts by itself.
    near!(CLASS_8_8.taken(m20, newtons(47_040.0), newtons(98_770.0)), 1.0, epsilon = 5e-3);
    near!(CLASS_8_8.taken(m20, newtons(0.0), newtons(141_120.0)), 1.0, epsilon = 3e-3);
}

/// EN 1993-1-8 table 3.4 by hand, As 157 and 245 mm²: 4.6 in shear 0.6 x 400 x 245/1.25 = 47.0 kN, in tension 0.9 x 400 x
/// 245/1.25 = 70.6 kN; 10.9, M16, 0.5 x 1000 x 157/1.25 = 62.8 and 113.0 kN. Tensile strengths of ISO 898-1:2013, table 3
/// (least): 400, 520, 800, 1040, 1220 MPa; of ISO 3506-1: 700 (A2-70), 800 (A4-80).
#[test]
fn property_classes_against_the_standards() {
    let class = |name: &str| *CLASSES.iter().find(|c| c.name == name).unwrap();
    let area = |thread: &str| Thread::parse(thread).unwrap().stress_area();
    near!(class("4.6").shear(area("M20")).as_newtons(), 47_000.0, max_relative = 3e-3);
    near!(class("4.6").tension(area("M20")).as_newtons(), 70_600.0, max_relative = 3e-3);
    near!(class("10.9").shear(area("M16")).as_newtons(), 62_800.0, max_relative = 3e-3);
    near!(class("10.9").tension(area("M16")).as_newtons(), 113_000.0, max_relative = 3e-3);
    for (name, least) in [
        ("4.6", 400.0),
        ("5.8", 520.0),
        ("8.8", 800.0),
        ("10.9", 1040.0),
        ("12.9", 1220.0),
        ("A2-70", 700.0),
        ("A4-80", 800.0),
    ] {
        let tensile = class(name).tensile.as_mpa();
        assert!(tensile <= least && tensile > least * 0.95, "{name}: {tensile}");
    }
}

/// Proof loads of ISO 898-1 (table 6 of the edition of 2013, as a maker of bolts reprints it), N.
const PROOF_LOADS: [(&str, &str, f64); 12] = [
    ("M6", "4.6", 4520.0),
    ("M8", "5.8", 13_900.0),
    ("M8", "8.8", 21_200.0),
    ("M10", "8.8", 33_700.0),
    ("M12", "8.8", 48_900.0),
    ("M16", "8.8", 91_000.0),
    ("M20", "8.8", 147_000.0),
    ("M24", "8.8", 212_000.0),
    ("M10", "10.9", 48_100.0),
    ("M16", "10.9", 130_000.0),
    ("M8", "12.9", 35_500.0),
    ("M24", "12.9", 342_000.0),
];

#[test]
fn proof_loads_of_metric_bolts() {
    for (thread, class, load) in PROOF_LOADS {
        let thread = Thread::parse(thread).unwrap();
        let class = BoltClass::of(class, thread.major).unwrap();
        near!(preload(thread.stress_area(), class.proof, 1.0).unwrap().as_newtons(), load, max_relative = 6e-3);
    }
}

/// Chart of tightening torques for grades 5 and 8 after IFI technical data N-16, as a dealer in bolts reprints it: clamp load of 75 % of the
/// proof load in lbf, torque in lbf ft at nut factors 0.20 and 0.15. Grade 2: another dealer's chart, same rule.
#[test]
fn torques_against_the_printed_chart() {
    for (thread, grade, clamp, dry, oiled) in [
        ("1/2-13", "grade 5", 9075.0, 76.0, 57.0),
        ("3/4-10", "grade 5", 21_300.0, 266.0, 200.0),
        ("3/8-16", "grade 8", 6975.0, 44.0, 33.0),
        ("1/2-13", "grade 8", 12_750.0, 106.0, 80.0),
        ("3/4-16", "grade 8", 33_600.0, 420.0, 315.0),
        ("1/2-13", "grade 2", 5853.0, 48.8, 36.6),
        ("7/8-9", "grade 2", 11_435.0, 167.0, 125.0),
    ] {
        let thread = Thread::parse(thread).unwrap();
        let class = BoltClass::of(grade, thread.major).unwrap();
        let pull = preload(thread.stress_area(), class.proof, SHARE).unwrap();
        near!(pull.as_pounds_force(), clamp, max_relative = 5e-3);
        for (factor, torque) in [(0.20, dry), (0.15, oiled)] {
            let found = tightening_torque(pull, thread.major, factor).unwrap().as_pound_force_feet();
            near!(found, torque, max_relative = 1.2e-2);
        }
    }
}

/// Least sheared area of an inner thread for each inch, from memory of the tables of FED-STD-H28: 1/2-13 class 2B,
/// 1.12 square inches; what is taken here lies below it, not by more than a fifth.
#[test]
fn threads_strip_as_the_table_says() {
    let yields = Stress::mpa(100.0);
    let pull = newtons(10_000.0);
    let length = engagement(pull, mm(12.7), yields).unwrap();
    let area = pull.as_newtons() / (100.0 / 3.0_f64.sqrt()) / length.as_mm() / 25.4;
    assert!((0.8 * 1.12..1.12).contains(&area), "{area} square inches for each inch");
}

/// Moments about the edge of a foot of 80 mm: 1000 N across, 40 mm up, is 1000 N in the bolt in its middle.
#[test]
fn a_tipped_foot_pulls_its_bolt() {
    near!(tipping_pull(newtons(1000.0), mm(40.0), mm(80.0)).as_newtons(), 1000.0, epsilon = 1e-9);
    near!(tipping_pull(newtons(1000.0), mm(60.0), mm(80.0)).as_newtons(), 1500.0, epsilon = 1e-9);
}

/// EN 1993-1-8 4.5.3.3: 208 N/mm² for S235 (360), 223 for S275 (410), 241 for S355 (470), as tabulated.
#[test]
fn welds_against_the_printed_table() {
    for (tensile, strength) in [(360.0, 208.0), (410.0, 223.0), (470.0, 241.0)] {
        near!(strength::weld_strength(Stress::mpa(tensile)).as_mpa(), strength, epsilon = 0.5);
    }
    // Weld as a line, round: sum the line load over the circle: moment of the bending, force of the shear.
    let (force, arm, d) = (6000.0, 30.0, 60.0);
    let bending = strength::ring_weld(newtons(force), mm(arm), newtons(0.0), mm(d)).unwrap();
    let shear = force / (std::f64::consts::PI * d);
    let peak = (bending * bending - shear * shear).sqrt();
    let pieces = 3600;
    let moment: f64 = (0..pieces)
        .map(|i| {
            let t = std::f64::consts::TAU * f64::from(i) / f64::from(pieces);
            peak * t.sin() * (d / 2.0 * t.sin()) * std::f64::consts::PI * d / f64::from(pieces)
        })
        .sum();
    near!(moment, force * arm, max_relative = 1e-9);
}

/// Solid round bar of 50 mm, 1 kN at 200 mm: 32 M/(π d³) = 16.30 MPa; bored 25: 1/(1 - 1/16) of it. Shear 4/3 of the mean
/// in a solid bar, twice the mean in a thin ring (Gere and Timoshenko). Two strips: F L/4 over w t²/6.
#[test]
fn sections_against_the_textbook() {
    let solid = RoundSection { outside: mm(50.0), bore: mm(0.0) };
    near!(solid.bending(newtons(1000.0), mm(200.0)).unwrap().as_mpa(), 16.297, epsilon = 1e-3);
    let bored = RoundSection { outside: mm(50.0), bore: mm(25.0) };
    near!(bored.bending(newtons(1000.0), mm(200.0)).unwrap().as_mpa(), 16.297 * 16.0 / 15.0, epsilon = 1e-3);
    near!(solid.shear(newtons(1963.5)).unwrap().as_mpa(), 4.0 / 3.0, epsilon = 1e-4);
    let ring = RoundSection { outside: mm(50.0), bore: mm(49.99) };
    near!(ring.shear(newtons(1.0)).unwrap() / ring.along(newtons(1.0)).unwrap(), 2.0, epsilon = 1e-3);
    let strips = strength::two_strips_bending(newtons(8000.0), mm(80.0), mm(30.0), mm(8.0)).unwrap();
    near!(strips.as_mpa(), (4000.0 * 80.0 / 4.0) / (30.0 * 64.0 / 6.0), epsilon = 1e-9);
}

/// Punching: 100 kN through a disc of 50 mm in 10 mm plate is 63.66 MPa (textbook: F/(π d t)). A thick ring of 20/40 mm
/// under 60 MPa inside: hoop 100 MPa at the bore (Lamé, (400 + 100)/(400 - 100)).
#[test]
fn rims_against_the_textbook() {
    near!(strength::punching_shear(newtons(100_000.0), mm(50.0), mm(10.0)).unwrap().as_mpa(), 63.662, epsilon = 1e-3);
    let load = 60.0 * std::f64::consts::PI * 20.0 * 10.0;
    let hoop = strength::spread_hole(newtons(load), Angle::degrees(45.0), mm(20.0), mm(20.0), mm(10.0)).unwrap();
    near!(hoop.as_mpa(), 100.0, epsilon = 1e-9);
}

/// IIW carbon equivalent by hand: C 0.40, Mn 0.85, Cr + Mo 1.15 (4140): 0.772; EN 10025-2 gives S235 a CEV of at most 0.35.
#[test]
fn what_can_be_welded_to_what() {
    let composition =
        Composition { carbon: 0.40, manganese: 0.85, chromium_molybdenum_vanadium: 1.15, nickel_copper: 0.0 };
    near!(composition.carbon_equivalent(), 0.7717, epsilon = 1e-4);
    let nickel = Composition { carbon: 0.2, manganese: 0.6, chromium_molybdenum_vanadium: 0.5, nickel_copper: 3.0 };
    near!(nickel.carbon_equivalent(), 0.6, epsilon = 1e-12);
    let of = |name: &str| welding::metal(name, false).unwrap();
    let Metal::Steel(s235) = of("steel S235") else { panic!() };
    near!(s235.carbon_equivalent(), 0.35, epsilon = 1e-12);
    assert!(matches!(welding::joint(of("steel S235"), of("steel A36")), Joint::Plain { .. }));
    let Joint::Plain { filler } = welding::joint(of("stainless 304"), of("steel S235")) else { panic!() };
    assert!(filler.contains("309"));
    assert!(matches!(welding::joint(of("steel 4140 prehard"), of("steel S235")), Joint::Preheated { .. }));
    for (a, b) in
        [("aluminium 6061-T6", "steel S235"), ("steel 52100 hardened", "steel S235"), ("bronze C93200", "steel S235")]
    {
        assert!(matches!(welding::joint(of(a), of(b)), Joint::Never { .. }), "{a}");
    }
    assert!(matches!(welding::joint(of("aluminium 6061-T6"), of("aluminium 6061-T6")), Joint::Plain { .. }));
}

/// Every material of the table is known to the welder.
#[test]
fn every_metal_of_the_table_is_known_to_the_welder() {
    for material in setdown::standards::materials::materials() {
        let plastic = material.youngs_modulus.value < Stress::gpa(20.0);
        assert!(welding::metal(material.name, plastic).is_some(), "{}", material.name);
    }
}

fn verdict(design: &Design, key: &str) -> Verdict {
    design.findings.iter().filter(|f| f.key == key).map(|f| f.verdict).max().unwrap_or_else(|| panic!("no {key}"))
}

fn rig(load: &str, hole: &str, cone_keys: &str) -> Design {
    let text =
        format!("seat_load = \"{load}\"\n{hole}[mounting]\nthread = \"M10\"\nspacing = [\"120 mm\", \"95 mm\"]\n");
    cup(&plate(152.0, 9.525, &text), &format!("{}{cone_keys}", cone(60.0, 24.0, 30.0)))
}

/// 40,000 lb on a plate of 3/8 in: everything that can fail does; 900 lb is carried.
#[test]
fn overload_fails_and_a_sound_load_does_not() {
    let hole = "[hole]\nkind = \"round\"\ndiameter = \"44.45 mm\"\nchamfer = \"0.5 mm\"\n";
    let heavy = rig(
        "40000 lb",
        hole,
        "crossbar_wall = \"3 mm\"\nmounting = \"bolt-on\"\n[bolt]\nthread = \"M8\"\nway = \"from below\"\n",
    );
    for key in ["bedding_in", "rim_shear", "hole_spread", "plate_bending", "cone_bolt", "crossbar_wall", "cup_bolts"] {
        assert_eq!(verdict(&heavy, key), Verdict::Fail, "{key}");
    }
    let slim = cup(&plate(152.0, 30.0, &format!("seat_load = \"40000 lb\"\n{hole}")), &cone(46.0, 24.0, 12.0));
    assert_eq!(verdict(&slim, "cone_shear"), Verdict::Caution);
    let light = rig(
        "900 lb",
        hole,
        "crossbar_wall = \"5 mm\"\nmounting = \"bolt-on\"\n[bolt]\nthread = \"M10\"\nway = \"from below\"\n",
    );
    for key in [
        "rim_shear",
        "hole_spread",
        "plate_bending",
        "cone_bolt",
        "crossbar_wall",
        "cup_bolts",
        "cone_root",
        "cone_shear",
    ] {
        assert_eq!(verdict(&light, key), Verdict::Ok, "{key}");
    }
}

/// A welded cone: 8336 N, 0.8 of it across, 22.821 mm up on a foot of 60 mm: 35.4 and 53.8 N/mm, together 64.4: 0.31 mm of
/// throat by 208 MPa, so the least of 3 mm, leg 4.5 mm. Hardened steel is not welded; an overload asks for too much.
#[test]
fn a_welded_cone_states_its_weld() {
    let text = |load: &str| {
        format!("{}foot = \"6 mm\"\nmounting = \"weld-on\"\nseat_load = \"{load}\"\n", cone(60.0, 24.0, 30.0))
    };
    let work = |text: &str| {
        let nobody = |_: &str, _: &str| Err(String::new());
        setdown::job::work("cone.toml", text, &setdown::shop::Shop::default(), &nobody).unwrap()
    };
    let sound = work(&text("850 kg"));
    near!(number(&sound, "weld_throat"), 3.0, epsilon = 1e-9);
    near!(number(&sound, "weld_leg"), 4.5, epsilon = 1e-9);
    assert_eq!(verdict(&sound, "weldable"), Verdict::Ok);
    assert_eq!(verdict(&sound, "weld_throat"), Verdict::Ok);
    let heavy = work(&text("60 t"));
    let (side, arm, d) = (60_000.0 * 9.80665 * 0.8, 6.0 + 18.0 / 30.0_f64.to_radians().tan(), 60.0);
    let line = (side / (std::f64::consts::PI * d)).hypot(4.0 * side * arm / (std::f64::consts::PI * d * d));
    near!(number(&heavy, "weld_throat"), line / 207.85, max_relative = 1e-4);
    assert_eq!(verdict(&heavy, "weld_throat"), Verdict::Fail);
    assert_eq!(verdict(&heavy, "cone_root"), Verdict::Fail);
    let hard = work(&text("850 kg").replace("family", "material = \"steel 52100 hardened\"\nfamily"));
    assert_eq!(verdict(&hard, "weldable"), Verdict::Fail);
    assert!(sound.operations.iter().any(|o| o.at == "welder" && o.text.contains("leg 4.5 mm")));
}

/// A cup without mounting holes is welded all round: 60 t and 0.8 of it across on 608 mm: 1239 N/mm, 5.96 mm of throat. Only
/// pressed, a round weld bears P/(pi D).
#[test]
fn a_welded_cup_states_its_weld() {
    let hole = "seat_load = \"60 t\"\n[hole]\nkind = \"round\"\ndiameter = \"44.45 mm\"\n";
    let welded = cup(&plate(152.0, 9.525, hole), &cone(60.0, 24.0, 30.0));
    near!(number(&welded, "weld_throat"), 60_000.0 * 9.80665 * 1.64_f64.sqrt() / 608.0 / 207.85, max_relative = 1e-4);
    assert_eq!(verdict(&welded, "weld_throat"), Verdict::Ok);
    let pressed = strength::ring_weld(newtons(0.0), mm(10.0), newtons(6000.0), mm(60.0)).unwrap();
    near!(pressed, 6000.0 / (std::f64::consts::PI * 60.0), max_relative = 1e-12);
}

/// EN 1993-1-8, 4.5.3.3 and table 4.1 (from memory): 430 MPa is still of the second row, 430/(sqrt(3) 0.85 1.25) = 233.66 MPa.
/// Ring weld of 40 mm as a line: 1000 N across at 50 mm and 5000 N along make 7.958 N/mm across and 39.789 + 39.789 along the
/// axis, 79.974 together (section modulus pi D^2/4, worked by hand).
#[test]
fn welds_by_hand() {
    near!(strength::weld_strength(Stress::mpa(430.0)).as_mpa(), 233.657, epsilon = 1e-3);
    let line = strength::ring_weld(newtons(1000.0), mm(50.0), newtons(5000.0), mm(40.0)).unwrap();
    near!(line, 79.97437, epsilon = 1e-4);
}
