//! Stands: the formulas of tabs, wedges, columns and tipping against printed figures; a stand worked from its file against statics by a second
//! route; its plates as the cutter gets them.

use approx::assert_relative_eq as near;
use setdown::export::{self, Options};
use setdown::formulas::columns::{Flat, buckling};
use setdown::formulas::{tabs, tipping};
use setdown::record::design::{Design, Verdict};
use setdown::shape::Body;
use setdown::shop::Shop;
use setdown::standards::stock;
use setdown::units::{Angle, Force, Length, Stress};

use super::seats::number;
use super::{deg, mm};

const STAND: &str = "family = \"stand\"\ncount = 4\nmaterial = \"steel S235\"\nenvironment = \"dry\"\nheight = \"450 mm\"\nlength = \"350 mm\"\n\
    width = \"400 mm\"\nthickness = \"8 mm\"\nload = \"640 kg\"\nshared_by = 4\n";

fn work(text: &str) -> Result<Design, String> {
    let none = |_: &str, _: &str| Err("no such file".to_string());
    setdown::job::work("stand.toml", text, &Shop::default(), &none).map_err(|p| setdown::job::render(&p, text))
}

fn stand(more: &str) -> Design {
    let text = format!("{STAND}{more}");
    work(&text).unwrap_or_else(|problems| panic!("{problems}\n{text}"))
}

fn verdict(design: &Design, key: &str) -> Verdict {
    design.findings.iter().filter(|f| f.key == key).map(|f| f.verdict).max().unwrap_or_else(|| panic!("no {key}"))
}

/// Mott, Machine Elements in Mechanical Design, problem 6-1: a round of 0.75 in, 32 in between pins, SAE 1040 (42 ksi, 30 000 ksi):
/// 4490 lb. Gere, Mechanics of Materials, problem 11.4-2: a pipe of 40 x 36 mm, 1.2 m, 210 GPa: 62.2 kN between pins, 15.6 kN fixed and
/// free, which is twice the length.
#[test]
fn columns_of_textbooks() {
    let psi = |x: f64| Stress::mpa(x * 0.006_894_757_293_168);
    let area = std::f64::consts::PI / 4.0 * 19.05 * 19.05;
    let pull = buckling(32.0 / 0.1875, psi(42_000.0), psi(30e6)).unwrap().as_mpa() * area / 4.448_221_615_260_5;
    near!(pull, 4490.0, max_relative = 1.5e-3);
    let (area, k) = (std::f64::consts::PI / 4.0 * (1600.0 - 1296.0), (1600.0_f64 + 1296.0).sqrt() / 4.0);
    for (length, kilonewtons) in [(1200.0, 62.2), (2400.0, 15.6)] {
        // Printed to three figures: half of the last is 0.05 of 15.6.
        let stress = buckling(length / k, Stress::mpa(2000.0), Stress::mpa(210_000.0)).unwrap();
        near!(stress.as_mpa() * area / 1000.0, kilonewtons, max_relative = 3.3e-3);
    }
    // Where both meet, σy/2 (Shigley): at √(2 π² E/σy).
    let meet = (2.0 * std::f64::consts::PI.powi(2) * 210_000.0 / 235.0_f64).sqrt();
    near!(buckling(meet, Stress::mpa(235.0), Stress::mpa(210_000.0)).unwrap().as_mpa(), 117.5, max_relative = 1e-9);
}

/// Timoshenko, Strength of Materials I, 5.6, as a verification case of a solver prints it: 1 m between supports, 50 x 50 mm, 200 GPa,
/// 1000 N in the middle: 0.200 mm. M = F L/4 = 250 N m, W = b h²/6 = 20 833 mm³: 12 MPa.
#[test]
fn a_beam_with_its_load_in_the_middle() {
    let (bar, load) = (Flat { thick: mm(50.0), wide: mm(50.0) }, Force::newtons(1000.0));
    near!(bar.sag(load, mm(1000.0), Stress::mpa(200_000.0)).unwrap().as_mm(), 0.2, max_relative = 1e-9);
    near!(bar.bending(load / 4.0, mm(1000.0)).unwrap().as_mpa(), 12.0, max_relative = 1e-9);
}

/// A beam-column pressed by a third of its critical load bends half as much again (Timoshenko and Gere, 1/(1 − P/Pcr)).
#[test]
fn a_pressed_bar_bends_more() {
    let bar = Flat { thick: mm(8.0), wide: mm(60.0) };
    let both = bar.pressed_and_bent(Force::newtons(1000.0), Force::newtons(3000.0), Stress::mpa(40.0)).unwrap();
    near!(both.as_mpa(), 1000.0 / 480.0 + 60.0, max_relative = 1e-12);
    assert!(bar.pressed_and_bent(Force::newtons(3000.0), Force::newtons(3000.0), Stress::mpa(40.0)).is_err());
}

/// Singer, Engineering Mechanics, problem 535: a wedge stays in a log up to twice the angle of friction. At that taper it takes nothing to
/// drive it out; in the middle between both, the sum of the forces in and out is by statics 2 F tan φ at no taper.
#[test]
fn wedges_of_textbooks() {
    let phi = 0.15_f64.atan().to_degrees();
    let holds = tabs::wedge_holds(0.15, 0.15).unwrap();
    near!(holds.as_degrees(), 2.0 * phi, max_relative = 1e-12);
    let squeeze = Force::newtons(1000.0);
    let (_, out) = tabs::wedge_drives(squeeze, holds, 0.15).unwrap();
    near!(out.as_newtons(), 0.0, epsilon = 1e-9);
    // Friction of 0.15 on both faces, 5 degrees, polygon of forces by hand: 1000 (0.15 + tan 13.531°) = 390.6 N, out 1000 (0.15 + tan 3.531°).
    let (into, out) = tabs::wedge_drives(squeeze, deg(5.0), 0.15).unwrap();
    near!(into.as_newtons(), 390.65, max_relative = 1e-4);
    near!(out.as_newtons(), 211.70, max_relative = 1e-4);
    near!(tabs::wedge_travel(mm(1.0), Angle::atan(0.1)).unwrap().as_mm(), 10.0, max_relative = 1e-9);
}

/// A stool of 3 ft across whose centre of mass lies 1 ft up falls over from 56.3 degrees (a machinists' forum, worked there). A push of a tenth
/// of the load on a level floor, 200 mm from the edge, 1000 mm up: 200/100 = 2.
#[test]
fn tipping_by_moments() {
    near!(tipping::angle(Length::inches(18.0), Length::inches(12.0)).unwrap().as_degrees(), 56.3, epsilon = 0.05);
    near!(tipping::safety(mm(200.0), mm(1000.0), deg(0.0), 0.1).unwrap(), 2.0, max_relative = 1e-12);
    // On the slope at which it falls it just stands.
    let falls = tipping::angle(mm(200.0), mm(1000.0)).unwrap();
    near!(tipping::safety(mm(200.0), mm(1000.0), falls, 0.0).unwrap(), 1.0, max_relative = 1e-12);
}

/// EN 10051:2010, category A, 1200 to 1500 mm wide, as a maker's tables and a dealer's reprint print it: 3.5 mm 0.24, 6 mm 0.28, 8 mm 0.30, 10 mm
/// 0.33, 20 mm 0.42. EN 10029 class A, 8 mm: −0.5/+1.2.
#[test]
fn limits_of_thickness_as_printed() {
    for (t, d) in [
        (2.0, 0.19),
        (2.5, 0.21),
        (3.0, 0.22),
        (3.5, 0.24),
        (5.0, 0.26),
        (6.0, 0.28),
        (8.0, 0.30),
        (10.0, 0.33),
        (12.0, 0.36),
        (15.0, 0.38),
        (20.0, 0.42),
    ] {
        assert_eq!(stock::strip_limits(mm(t)), Some(mm(d)), "{t}");
    }
    assert!(stock::strip_limits(mm(25.1)).is_none() && stock::strip_limits(mm(0.9)).is_none());
    assert_eq!(stock::plate_limits(mm(8.0)), Some((mm(-0.5), mm(1.2))));
}

/// The slot takes the thickest plate: EN 10029 9.2 mm, EN 10051 8.3 mm, or the one that was measured; ISO 9013 class 1 for 8 mm plate and a slot
/// under 10 mm: ± 0.25 mm.
#[test]
fn a_slot_takes_the_thickest_plate() {
    for (more, most, least) in [
        ("", 9.2, 7.5),
        ("rolled = \"strip\"\n", 8.3, 7.7),
        ("measured_thickness = [\"8.05 mm\", \"8.15 mm\"]\n", 8.15, 8.05),
    ] {
        let design = stand(&format!("{more}joint_clearance = \"0.35 mm\"\n"));
        let wide = number(&design, "slot_wide");
        assert!(wide >= most + 0.35 - 1e-9 && wide < most + 0.35 + 0.1, "{more} {wide}");
        near!(number(&design, "joint_play_least"), wide - 0.25 - most, epsilon = 1e-6);
        near!(number(&design, "joint_play_most"), wide + 0.25 - least, epsilon = 1e-6);
        assert_eq!(verdict(&design, "stand_joint_goes_in"), Verdict::Ok);
    }
    assert_eq!(verdict(&stand(""), "stand_joint_slack"), Verdict::Caution, "EN 10029 leaves more than a fifth");
    assert_eq!(verdict(&stand("measured_thickness = \"8.1 mm\"\n"), "stand_joint_slack"), Verdict::Ok);
    assert_eq!(verdict(&stand("joint_clearance = \"0.1 mm\"\n"), "stand_joint_goes_in"), Verdict::Caution);
}

/// 640 kg on four, of which two may carry all: 320 kg, 3138 N. Statics by hand: the load a sixth of 200 mm off the middle, 33 mm; rails 350 − 8 mm
/// long between supports; the thinnest plate 7.5 mm (EN 10029) throughout.
#[test]
fn a_stand_by_hand() {
    let design = stand("");
    let (g, push) = (9.80665, 0.1 + 1.0_f64.to_radians().sin());
    let p = 320.0 * g;
    near!(number(&design, "stand_load"), p, max_relative = 1e-9);
    let (t, span, apart, d) = (7.5, 342.0, number(&design, "rails_apart"), number(&design, "rail_depth"));
    assert_eq!((number(&design, "off_centre"), d), (33.0, 90.0));
    let (end, rail) = (0.5 + 33.0 / span, 0.5 + 33.0 / apart);
    // Bending moment by integration of the shear from the support to the middle.
    let steps = 1000;
    let moment: f64 = (0..steps).map(|_| p * rail / 2.0 * span / 2.0 / f64::from(steps)).sum();
    near!(number(&design, "rail_stress"), moment / (t * d * d / 6.0), max_relative = 1e-6);
    near!(number(&design, "tab_load"), p * end * rail, max_relative = 1e-6);
    // A leg: its half of the end, the load off the middle, the couple of the push between the feet; leaning.
    let (foot, high, width) = (number(&design, "foot_length"), 442.0, 400.0);
    let own = number(&design, "mass") * g;
    let on_foot = (p * end + own / 2.0) * (0.5 + 33.0 / (width - foot)) + p * end * push * high / (width - foot);
    near!(number(&design, "foot_load"), on_foot, max_relative = 1e-5);
    let lean = ((width - 200.0) / 2.0 / high).atan();
    near!(number(&design, "leg_load"), on_foot / lean.cos(), max_relative = 1e-5);
    // Euler by the section: I = w t³/12, twice the free leg of 442 − 90 mm; E of the steel.
    let e = Shop::default().material("steel S235").unwrap().elastic.youngs_modulus.as_mpa();
    let w = number(&design, "leg_width");
    let critical = std::f64::consts::PI.powi(2) * e * w * t.powi(3) / 12.0 / (2.0_f64 * 352.0).powi(2);
    near!(number(&design, "leg_buckles_at"), critical, max_relative = 1e-6);
    let bent = p * push * end / 2.0 * 352.0 / (w * t * t / 6.0) / (1.0 - on_foot / lean.cos() / critical);
    near!(number(&design, "leg_stress"), on_foot / lean.cos() / (w * t) + bent, max_relative = 1e-5);
    near!(number(&design, "tips_at"), ((171.0 - 33.0) / 450.0_f64).atan().to_degrees(), max_relative = 1e-6);
}

/// A stand goes together: what stands out of one plate lies before the slot of the other, and is smaller by the clearance in both ways.
#[test]
fn plates_go_together() {
    for more in ["", "lock = \"bolts\"\n", "rolled = \"strip\"\nheight_is = 1\n"] {
        let more = more.replace("height_is = 1\n", "");
        let design = stand(&more);
        let flat = |suffix: &str| {
            let solid = design.solids.iter().find(|s| s.name_suffix.as_deref() == Some(suffix)).unwrap();
            match &solid.body {
                Body::Flat(flat) => flat.clone(),
                Body::Turned(_) => panic!("{suffix} is turned"),
            }
        };
        let (end, rail, top) = (flat("1-end"), flat("2-rail"), flat("3-top"));
        let n = |key: &str| number(&design, key);
        // The rail's tabs, cut across beyond its shoulder, against the strips that the end plate leaves open in the line of the rail.
        let shoulder = mm(n("rail_length") / 2.0 + 2.0);
        let stands_out = rail.strips_at(shoulder);
        let foot = 442.0 - n("rail_depth");
        let metal = end.strips_at(mm(n("rails_apart") / 2.0));
        let open: Vec<(f64, f64)> = metal.windows(2).map(|w| (w[0].1.as_mm(), w[1].0.as_mm())).collect();
        for (low, high) in &stands_out {
            let (low, high) = (foot + low.as_mm(), foot + high.as_mm());
            let slot = open.iter().find(|(a, b)| *a < low && *b > high);
            assert!(slot.is_some(), "{more}: a tab from {low} to {high} meets no slot of {open:?}");
            let (a, b) = slot.unwrap();
            near!(b - a - (high - low), n("slot_high") - n("tab_height"), epsilon = 1e-6);
        }
        assert_eq!(stands_out.len(), if more.contains("bolts") { 2 } else { 1 });
        // The top lies on rails and end plates of one height; its slots stand over the rails' short tabs.
        near!(n("end_height") + 8.0, n("height"), epsilon = 1e-9);
        let across = top.strips_at(mm(n("top_slots_apart") / 2.0));
        let open: Vec<(f64, f64)> = across.windows(2).map(|w| (w[0].1.as_mm(), w[1].0.as_mm())).collect();
        assert_eq!(open.len(), 2, "{open:?}");
        near!((open[0].0 + open[0].1) / 2.0, -n("rails_apart") / 2.0, epsilon = 1e-6);
        near!(open[1].1 - open[1].0, n("slot_wide"), epsilon = 1e-6);
        assert!(n("top_tab_height") < n("thickness_least"));
    }
}

/// A wedge sits: between its narrow and its broad end lies what the hole leaves outside the end plate, thick or thin (plane geometry).
#[test]
fn a_wedge_takes_up_every_thickness() {
    for more in
        ["", "rolled = \"strip\"\n", "wedge_angle = \"6 deg\"\nfriction = 0.2\n", "measured_thickness = \"7.9 mm\"\n"]
    {
        let design = stand(more);
        let n = |key: &str| number(&design, key);
        let reach = n("wedge_hole_at") + n("wedge_hole_long");
        for t in [n("thickness_least"), n("thickness_most")] {
            let wide = reach - t;
            assert!(wide > n("wedge_narrow") && wide < n("wedge_broad"), "{more}: {wide}");
            assert!(n("wedge_hole_at") < t, "the hole begins inside the plate");
        }
        let rises = (n("wedge_broad") - n("wedge_narrow")) / n("wedge_length");
        near!(rises.atan().to_degrees(), n("wedge_angle"), epsilon = 0.1);
    }
    // Twice the angle of friction of 0.1 is 11.42 degrees, of which 1.5 is 7.6.
    for (taper, told) in [("7 deg", Verdict::Ok), ("8 deg", Verdict::Caution), ("12 deg", Verdict::Fail)] {
        assert_eq!(verdict(&stand(&format!("wedge_angle = \"{taper}\"\n")), "stand_wedge_holds"), told, "{taper}");
    }
}

/// A drawing for every kind of plate, so many of each; where the beam's kerf is drawn in, outlines are larger and holes smaller by half of it all
/// round: area by perimeter times half the kerf, and corners.
#[test]
fn a_drawing_for_each_plate() {
    let (plain, kerfed) = (stand(""), stand("kerf = \"0.3 mm\"\n"));
    let names: Vec<&str> = plain.cut_pieces.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(names, ["1-end", "2-rail", "3-top", "4-wedge"]);
    let counts: Vec<u32> = plain.wants.plates.iter().map(|p| p.count).collect();
    assert_eq!(counts, [8, 8, 4, 16]);
    let only = Options { only: vec!["dxf".into()], ..Options::default() };
    assert_eq!(export::files(&plain, &only).unwrap().len(), 4);
    for ((name, a), (_, b)) in plain.cut_pieces.iter().zip(&kerfed.cut_pieces) {
        let grown = b.outer().area().as_mm2() - a.outer().area().as_mm2();
        let around = a.outer().perimeter().as_mm() * 0.15;
        near!(grown, around, epsilon = 8.0);
        for (one, other) in a.holes().iter().zip(b.holes()) {
            let less = one.area().as_mm2() - other.area().as_mm2();
            near!(less, one.perimeter().as_mm() * 0.15, epsilon = 8.0);
        }
        assert!(!a.marks().is_empty() && a.marks() == b.marks(), "{name} has its number");
    }
    near!(number(&kerfed, "slot_wide_drawn"), number(&plain, "slot_wide") - 0.3, epsilon = 1e-9);
    // The solid is the plate as it comes, whatever the beam takes.
    assert_eq!(plain.solids, kerfed.solids);
}

/// What stands on soft ground sinks, a sole carries it; one stand alone holds the load's centre over its own feet, four do not.
#[test]
fn ground_and_company() {
    assert_eq!(verdict(&stand(""), "stand_floor"), Verdict::Ok);
    assert_eq!(verdict(&stand("floor = \"earth\"\n"), "stand_floor"), Verdict::Caution);
    assert_eq!(verdict(&stand("floor = \"earth\"\nsole = \"300 mm\"\n"), "stand_floor"), Verdict::Ok);
    let alone = STAND.replace("shared_by = 4", "shared_by = 1\nload_height = \"800 mm\"");
    let alone = work(&alone).unwrap();
    near!(number(&alone, "tipping_arm"), 1250.0, epsilon = 1e-9);
    assert!(verdict(&alone, "stand_tips") > Verdict::Ok);
    let whole = |apart: &str| stand(&format!("load_height = \"900 mm\"\napart = \"{apart}\"\n"));
    // 1350 mm up, 5 deg and a tenth would need 1350 x 0.1175 x 2: 317 mm apart at the least on 1 degree.
    assert_eq!(verdict(&whole("300 mm"), "stand_whole_tips"), Verdict::Fail);
    assert_eq!(verdict(&whole("400 mm"), "stand_whole_tips"), Verdict::Caution);
    assert_eq!(verdict(&whole("1100 mm"), "stand_whole_tips"), Verdict::Ok);
    // The moment of push and slope about the far stands, on one of which it may all come: 6276 N x 0.1175 x 1350/1100.
    let leans = 640.0 * 9.80665 * (0.1 + 1.0_f64.to_radians().sin()) * 1350.0 / 1100.0;
    near!(number(&whole("1100 mm"), "stand_load"), 320.0 * 9.80665 + leans, max_relative = 1e-9);
}

/// What cannot be made is refused at its key.
#[test]
fn impossible_stands_are_refused_at_their_key() {
    for (from, to, told) in [
        ("thickness = \"8 mm\"", "thickness = \"60 mm\"", "too thick"),
        ("width = \"400 mm\"", "width = \"90 mm\"", "no room"),
        ("load = \"640 kg\"\n", "", "the load is missing"),
        ("shared_by = 4", "shared_by = 4\nuneven = 5", "more than the load"),
        ("shared_by = 4", "shared_by = 4\nload_height = \"1 m\"", "how far apart"),
        ("shared_by = 4", "shared_by = 2\napart = \"1 m\"\nload_height = \"1 m\"", "does nothing here"),
        ("shared_by = 4", "shared_by = 4\nthread = \"M8\"", "it is of bolts"),
        ("shared_by = 4", "shared_by = 4\nlock = \"bolts\"\nthread = \"M12\"", "does not lie in a slot"),
        ("shared_by = 4", "shared_by = 4\nlock = \"bolts\"\nwedge_angle = \"4 deg\"", "it is of wedges"),
        ("shared_by = 4", "shared_by = 4\nmeasured_thickness = \"12 mm\"", "no plate of"),
        ("shared_by = 4", "shared_by = 4\nrail_depth = \"40 mm\"", "no room for their tabs"),
        ("shared_by = 4", "shared_by = 4\nrail_depth = \"400 mm\"", "leave no legs"),
        ("shared_by = 4", "shared_by = 4\ntop_width = \"500 mm\"", "wider than the feet"),
        ("shared_by = 4", "shared_by = 4\ncutter_sheet = [\"2 m\"]", "no sheet"),
    ] {
        assert!(STAND.contains(from), "{from}");
        let told_by = work(&STAND.replace(from, to)).err().unwrap_or_else(|| panic!("{to} is taken"));
        assert!(told_by.contains(told), "{to}:\n{told_by}");
    }
}

/// Every bolted stand whose legs have room stands up by its defaults, and a rail as deep as is told where a written one is too shallow
/// works. By trial over plates, heights and threads; common practice, no source.
#[test]
fn bolted_rails_are_deep_enough_by_themselves() {
    let text = |unit: &str, t: f64, high: f64, more: &str| {
        format!(
            "family = \"stand\"\nunits = \"{unit}\"\nmaterial = \"steel S235\"\nheight = {high}\nlength = {high}\nwidth = {high}\n\
             thickness = {t}\nload = \"100 kg\"\nshared_by = 4\nlock = \"bolts\"\n{more}"
        )
    };
    let plates = [3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0].map(|t| ("mm", t, ["M3", "M4", "M5"]));
    let inch = [0.1875, 0.25, 0.375, 0.5].map(|t| ("in", t, ["M3", "M4", "1/4"]));
    for (unit, t, threads) in plates.into_iter().chain(inch) {
        for times in [40.0, 48.0, 64.0] {
            work(&text(unit, t, t * times, "")).unwrap_or_else(|problems| panic!("{t} {unit} x {times}:\n{problems}"));
            for thread in threads {
                let shallow = format!("thread = \"{thread}\"\nrail_depth = {}\n", t * 6.0);
                let Err(problems) = work(&text(unit, t, t * times, &shallow)) else { continue };
                let told = problems.split_once("deeper rails: ").and_then(|(_, rest)| rest.split_once(" or more"));
                let Some((depth, _)) = told else { continue };
                assert!(!problems.contains("smaller bolts"), "{problems}");
                let deep = format!("thread = \"{thread}\"\nrail_depth = \"{depth}\"\n");
                let again = work(&text(unit, t, t * times, &deep));
                assert!(again.is_ok(), "{depth} was told, {t} {unit}, {thread}:\n{}", again.unwrap_err());
            }
        }
    }
}

/// What locks a stand is what its steps and its box name, and it is counted for a stand. Common practice, no source.
#[test]
fn a_bolted_stand_names_bolts_and_no_wedge() {
    for (lock, is, is_not) in [("", "wedge", "bolt"), ("lock = \"bolts\"\n", "bolt", "wedge")] {
        let design = stand(lock);
        let road: Vec<String> = design.wants.road.iter().map(|(what, used)| format!("{what} {used}")).collect();
        assert!(
            road.iter().any(|line| line.contains(is)) && !road.iter().any(|line| line.contains(is_not)),
            "{road:?}"
        );
        let steps: Vec<&str> = design.operations.iter().map(|o| o.text.as_str()).collect();
        assert!(steps.iter().any(|s| s.contains(is)) && !steps.iter().any(|s| s.contains(is_not)), "{steps:?}");
    }
    let bolted = stand("lock = \"bolts\"\n");
    let tools: Vec<&String> = bolted.operations.iter().flat_map(|o| &o.tools).collect();
    assert!(tools.iter().any(|t| t.starts_with("4 hex bolts") && t.ends_with("for each stand")), "{tools:?}");
}

/// A hole that is narrower than its plate is thick is burnt by a laser: it is marked, drilled, and no finding of `inspect`'s rules.
/// Source: public design guides of laser cutting services.
#[test]
fn holes_too_small_for_the_plate_are_drilled() {
    use setdown::outline::{self, Ask, Least};
    for (t, drilled) in [("12", true), ("6", false)] {
        let text = STAND.replace("\"8 mm\"", &format!("\"{t} mm\"")) + "lock = \"bolts\"\nthread = \"M6\"\n";
        let text = text
            .replace("\"450 mm\"", "\"700 mm\"")
            .replace("\"350 mm\"", "\"700 mm\"")
            .replace("\"400 mm\"", "\"700 mm\"");
        let design = work(&text).unwrap_or_else(|problems| panic!("{problems}"));
        let at_the_drill = design.operations.iter().any(|o| o.at == "drill press" && o.text.contains("crosses"));
        assert_eq!(at_the_drill, drilled, "{t} mm");
        let thick: f64 = t.parse().unwrap();
        let least = Least { hole: (mm(thick), mm(thick * 0.7)), web: (mm(thick), mm(thick * 0.5)) };
        let files = export::files(&design, &Options::default()).unwrap();
        for (name, bytes) in files.iter().filter(|(name, _)| name.ends_with(".dxf")) {
            let ask = Ask { gap: mm(0.01), unit: None, least: Some(least) };
            let found = outline::inspect(bytes, &ask).unwrap_or_else(|why| panic!("{name}: {}", why.what));
            assert!(!found.refused(), "{name} of {t} mm");
        }
    }
}
