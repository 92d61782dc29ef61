//! Press fits and raceways as a person asks for them: `setdown press` and `setdown raceway` against elasticity worked
//! here from its equations, and what they say to bad input.

use std::f64::consts::PI;
use std::fs;

use program::{Ran, run_in};
use serde_json::Value as Json;
use setdown::formulas::press_fit;
use setdown::formulas::random::SplitMix;
use setdown::job;
use setdown::record::drawing::Picture;
use setdown::shop::Shop;
use setdown::units::Length;

mod program;

// --- helpers ---------------------------------------------------------------------------------------------------------

/// Refused as bad input: status 2, nothing answered, and each of the words in the message.
#[track_caller]
fn refused(ran: &Ran, words: &[&str]) {
    ran.fails_with(2, words);
    assert_eq!(ran.out, "", "an answer beside the refusal");
}

/// A command with its usual options; those in `changed` replace or join them, as `--name=value` or a bare `--name`.
fn call(command: &str, usual: &[(&str, &str)], changed: &[(&str, &str)]) -> Vec<String> {
    let mut all: Vec<(&str, &str)> = usual.to_vec();
    for (name, value) in changed {
        match all.iter_mut().find(|o| o.0 == *name) {
            Some(option) => option.1 = value,
            None => all.push((name, value)),
        }
    }
    let written = all.iter().map(|(n, v)| if v.is_empty() { format!("--{n}") } else { format!("--{n}={v}") });
    std::iter::once(command.to_owned()).chain(written).collect()
}

/// The joint of the worked values: steel in steel, 40 mm.
const JOINT: [(&str, &str); 5] =
    [("interface", "40mm"), ("hub-outside", "70mm"), ("bore", "25mm"), ("length", "30mm"), ("interference", "0.020mm")];

/// The raceway of the worked values.
const RACEWAY: [(&str, &str); 6] = [
    ("rollers", "24"),
    ("roller-diameter", "3mm"),
    ("roller-length", "15.8mm"),
    ("raceway", "25mm"),
    ("load", "8000N"),
    ("hardness", "60HRC"),
];

fn press(changed: &[(&str, &str)]) -> Ran {
    run_in(&std::env::temp_dir(), &call("press", &JOINT, changed))
}

fn raceway(changed: &[(&str, &str)]) -> Ran {
    run_in(&std::env::temp_dir(), &call("raceway", &RACEWAY, changed))
}

fn number(json: &Json, path: &[&str]) -> f64 {
    let found = path.iter().fold(json, |j, key| &j[*key]);
    found.as_f64().unwrap_or_else(|| panic!("{path:?} is no number in {json}"))
}

#[track_caller]
fn near(got: f64, want: f64, tolerance: f64, what: &str) {
    assert!((got - want).abs() <= tolerance, "{what}: got {got}, want {want} within {tolerance}");
}

/// Equal to nine digits, or to the last place that the JSON prints.
#[track_caller]
fn same(got: f64, want: f64, what: &str) {
    near(got, want, 1e-9 * want.abs() + 1e-8, what);
}

/// Repeatable random numbers.
struct Random(SplitMix);

impl Random {
    fn unit(&mut self) -> f64 {
        self.0.uniform()
    }
    /// Between two figures, with `digits` decimals: the text that is passed on, and its value.
    fn decimal(&mut self, low: f64, high: f64, digits: usize) -> (String, f64) {
        let text = format!("{:.digits$}", low + (high - low) * self.unit());
        let value = text.parse().unwrap();
        (text, value)
    }
}

/// E in MPa, Poisson's ratio, expansion per kelvin, yield in MPa where the table has one.
#[derive(Clone, Copy)]
struct Stuff {
    e: f64,
    nu: f64,
    expansion: f64,
    strength: Option<f64>,
}

/// All materials of the tool's own table, by name.
fn materials() -> Vec<(String, Stuff)> {
    let ran = run_in(&std::env::temp_dir(), &["materials".to_owned(), "--json".to_owned()]);
    let one = |m: &Json| {
        let stuff = Stuff {
            e: 1e3 * number(m, &["youngs_modulus_gpa", "value"]),
            nu: number(m, &["poisson", "value"]),
            expansion: 1e-6 * number(m, &["expansion_per_million_k", "value"]),
            strength: m["yield_mpa"]["value"].as_f64(),
        };
        (m["name"].as_str().unwrap().to_owned(), stuff)
    };
    ran.json().as_array().unwrap().iter().map(one).collect()
}

// --- press fit -------------------------------------------------------------------------------------------------------

/// Gauss elimination with pivoting.
fn solve(mut m: [[f64; 5]; 4]) -> [f64; 4] {
    for i in 0..4 {
        let pivot = (i..4).max_by(|a, b| m[*a][i].abs().total_cmp(&m[*b][i].abs())).unwrap();
        m.swap(i, pivot);
        for row in 0..4 {
            if row != i {
                let factor = m[row][i] / m[i][i];
                let from = m[i];
                m[row].iter_mut().zip(from).for_each(|(v, f)| *v -= factor * f);
            }
        }
    }
    [0, 1, 2, 3].map(|i| m[i][4] / m[i][i])
}

/// One ring of a joint in plane stress: radial shift u = A r + B/r.
#[derive(Clone, Copy)]
struct Ring {
    e: f64,
    nu: f64,
    a: f64,
    b: f64,
}

impl Ring {
    fn shift(&self, r: f64) -> f64 {
        self.a * r + if self.b == 0.0 { 0.0 } else { self.b / r }
    }
    /// Radial (sign -1) or hoop (sign +1) stress: E/(1-ν²)·[(1+ν)A ± (1-ν)B/r²].
    fn stress(&self, r: f64, sign: f64) -> f64 {
        let outer = if self.b == 0.0 { 0.0 } else { (1.0 - self.nu) * self.b / (r * r) };
        self.e / (1.0 - self.nu * self.nu) * ((1.0 + self.nu) * self.a + sign * outer)
    }
    /// Von Mises in plane stress.
    fn equivalent(&self, r: f64) -> f64 {
        let (t, s) = (self.stress(r, 1.0), self.stress(r, -1.0));
        (t * t - t * s + s * s).sqrt()
    }
}

/// Two rings joined, by the four conditions of the thick-cylinder equations (Lamé; as in Timoshenko, Strength of
/// Materials part II, thick cylinders, and Shigley, press and shrink fits): inner surface free (or no B in a solid
/// shaft), outer surface free, equal pressure at the joint, and shifts that differ by half the interference.
/// Radii and interference on the diameter in millimetres, stresses in MPa.
fn joined(sleeve: Stuff, hub: Stuff, radii: [f64; 3], interference: f64) -> (Ring, Ring) {
    let [bore, joint, outside] = radii;
    let radial = |m: Stuff, r: f64| {
        let k = m.e / (1.0 - m.nu * m.nu) / sleeve.e;
        [k * (1.0 + m.nu), -k * (1.0 - m.nu) * joint * joint / (r * r)]
    };
    let free = if bore > 0.0 { radial(sleeve, bore) } else { [0.0, 1.0] };
    let (out, s, h) = (radial(hub, outside), radial(sleeve, joint), radial(hub, joint));
    // the unknowns are A and B/joint² of sleeve and hub
    let [sa, sb, ha, hb] = solve([
        [free[0], free[1], 0.0, 0.0, 0.0],
        [0.0, 0.0, out[0], out[1], 0.0],
        [s[0], s[1], -h[0], -h[1], 0.0],
        [-joint, -joint, joint, joint, interference / 2.0],
    ]);
    let square = joint * joint;
    let ring = |m: Stuff, a: f64, b: f64| Ring { e: m.e, nu: m.nu, a, b: b * square };
    (ring(sleeve, sa, if bore > 0.0 { sb } else { 0.0 }), ring(hub, ha, hb))
}

/// Steel on steel, E 206 GPa, ν 0.3; 25/40/70 mm, 30 mm long, friction 0.12. Worked twice by hand from Lamé's formulas.
#[test]
fn steel_sleeve_in_a_steel_hub() {
    let json = press(&[
        ("interference", "0.020mm"),
        ("hub-modulus", "206 GPa"),
        ("hub-poisson", "0.3"),
        ("sleeve-modulus", "206 GPa"),
        ("sleeve-poisson", "0.3"),
        ("friction", "0.12"),
        ("json", ""),
    ]);
    let one = json.json();
    // the same with both interferences in one call
    let mut arguments = call(
        "press",
        &JOINT[..4],
        &[("hub-modulus", "206GPa"), ("hub-poisson", "0.3"), ("sleeve-modulus", "206GPa"), ("sleeve-poisson", "0.3")],
    );
    arguments.extend(["--json", "--friction", "0.12", "--interference", "0.020mm", "45um"].map(String::from));
    let both = run_in(&std::env::temp_dir(), &arguments);
    assert_eq!((json.code, both.code), (0, 0));
    let both = both.json();
    for (key, least, greatest, half) in [
        ("pressure_mpa", 24.2253, 54.507, [0.000_05, 0.000_5]),
        ("hub_hoop_mpa", 47.717, 107.362, [0.000_5; 2]),
        ("sleeve_hoop_mpa", -79.509, -178.895, [0.000_5; 2]),
        ("bore_closes_um", 9.649, 21.711, [0.000_5; 2]),
        ("force_n", 10959.0, 24658.0, [0.5; 2]),
        ("torque_nm", 10.959 * 20.0, 24.658 * 20.0, [0.01; 2]),
    ] {
        near(number(&both, &[key, "min"]), least, half[0], key);
        near(number(&both, &[key, "max"]), greatest, half[1], key);
        for end in ["min", "max"] {
            same(number(&one, &[key, end]), number(&both, &[key, "min"]), key);
        }
    }
    for end in ["min", "max"] {
        same(
            number(&both, &["torque_nm", end]),
            number(&both, &["force_n", end]) * 0.040 / 2.0,
            "torque is force x 20 mm",
        );
    }
}

/// Two hundred random joints, with figures given and with figures of the table, solid shafts among them.
#[test]
fn random_joints_by_lame() {
    let table = materials();
    assert!(table.len() > 10);
    let mut random = Random(SplitMix::new(11));
    for case in 0..200 {
        let mut pick = || table[(random.unit() * table.len() as f64) as usize].clone();
        let ((hub_name, mut hub), (sleeve_name, mut sleeve)) = (pick(), pick());
        let (interface, d) = random.decimal(5.0, 200.0, 2);
        let (outside, big) = random.decimal(1.05 * d, 4.0 * d, 2);
        let (bore, small) = if case % 5 == 0 { ("0".to_owned(), 0.0) } else { random.decimal(0.1 * d, 0.95 * d, 2) };
        let (length, l) = random.decimal(0.2 * d, 3.0 * d, 1);
        let (least, low) = random.decimal(2e-5 * d, 5e-4 * d, 4);
        let (greatest, high) = random.decimal(6e-4 * d, 2e-3 * d, 4);
        let (friction, mu) = random.decimal(0.05, 0.3, 3);
        let (gap, play) = random.decimal(0.0, 0.2, 3);
        let (room, cold) = random.decimal(-40.0, 40.0, 1);
        let mut arguments = vec!["press".to_owned()];
        let mut give = |name: &str, value: String| arguments.push(format!("--{name}={value}"));
        give("interface", format!("{interface} mm"));
        give("hub-outside", format!("{outside} mm"));
        give("bore", format!("{bore} mm"));
        give("length", format!("{length} mm"));
        give("friction", friction);
        give("gap", format!("{gap} mm"));
        give("room", format!("{room} C"));
        give("hub-material", hub_name);
        give("sleeve-material", sleeve_name);
        for (which, m) in [("hub", &mut hub), ("sleeve", &mut sleeve)] {
            if case % 2 == 0 {
                let ((e, gpa), (nu, ratio)) = (random.decimal(2.0, 220.0, 2), random.decimal(0.05, 0.49, 3));
                (m.e, m.nu) = (1e3 * gpa, ratio);
                give(&format!("{which}-modulus"), format!("{e} GPa"));
                give(&format!("{which}-poisson"), nu);
            }
        }
        arguments.extend(["--json".into(), "--interference".into(), format!("{least}mm"), format!("{greatest}mm")]);
        let ran = run_in(&std::env::temp_dir(), &arguments);
        assert!(ran.code < 2, "{arguments:?}\n{}", ran.err);
        let json = ran.json();
        for (end, interference) in [("min", low), ("max", high)] {
            let what = |key: &str| format!("{key} in {arguments:?}");
            let radii = [small / 2.0, d / 2.0, big / 2.0];
            let (s, h) = joined(sleeve, hub, radii, interference);
            let p = -h.stress(d / 2.0, -1.0);
            let force = mu * p * PI * d * l;
            for (key, want) in [
                ("interference_um", 1e3 * interference),
                ("pressure_mpa", p),
                ("hub_hoop_mpa", h.stress(d / 2.0, 1.0)),
                ("sleeve_hoop_mpa", s.stress(small / 2.0, 1.0)),
                ("hub_equivalent_mpa", greatest_of(&h, d / 2.0, big / 2.0)),
                ("sleeve_equivalent_mpa", greatest_of(&s, small / 2.0, d / 2.0)),
                ("bore_closes_um", -2e3 * s.shift(small / 2.0)),
                ("outside_grows_um", 2e3 * h.shift(big / 2.0)),
                ("force_n", force),
                ("torque_nm", force * d / 2.0 / 1e3),
            ] {
                same(number(&json, &[key, end]), want, &what(key));
            }
        }
        // linear expansion of the hole: it must grow by the greatest interference and the play wanted
        same(number(&json, &["heat_to_c"]), cold + (high + play) / (hub.expansion * d), "heat_to_c");
        let mut fails = false;
        for (key, equivalent, m) in
            [("hub_yields", "hub_equivalent_mpa", hub), ("sleeve_yields", "sleeve_equivalent_mpa", sleeve)]
        {
            if let Some(strength) = m.strength {
                assert_eq!(json[key], number(&json, &[equivalent, "max"]) > strength, "{key} in {arguments:?}");
            }
            fails |= json[key] == true;
        }
        assert_eq!(ran.code, i32::from(fails), "status of {arguments:?}");
    }
}

/// Greatest von Mises stress anywhere in the wall.
fn greatest_of(ring: &Ring, from: f64, to: f64) -> f64 {
    (0..=200).map(|i| ring.equivalent(from + (to - from) * f64::from(i) / 200.0)).fold(0.0, f64::max)
}

/// A ring held back by a stiff housing, and one forced open by a stiff shaft: the same equations of elasticity with a
/// partner a million times as stiff.
#[test]
fn a_ring_between_stiff_partners() {
    let stiff = Stuff { e: 1e12, nu: 0.3, expansion: 0.0, strength: None };
    for (bore, outside, nu) in [(16.0, 22.0, 0.35), (25.0, 40.0, 0.34), (30.0, 33.0, 0.29)] {
        let ring = Stuff { e: 2800.0, nu, expansion: 0.0, strength: None };
        let (b, o) = (Length::mm(bore), Length::mm(outside));
        let (inner, _) = joined(ring, stiff, [bore / 2.0, outside / 2.0, outside], 0.05);
        near(-2.0 * inner.shift(bore / 2.0) / 0.05, press_fit::closes_per_squeeze(b, o, nu), 1e-6, "closes");
        let (_, outer) = joined(stiff, ring, [0.0, bore / 2.0, outside / 2.0], 0.05);
        near(2.0 * outer.shift(outside / 2.0) / 0.05, press_fit::grows_per_stretch(b, o, nu), 1e-6, "grows");
    }
}

/// A fit gives the interference between its limits. ISO 286, any handbook: 40 H7 0/+25, p6 +26/+42: 1 to 42 µm.
#[test]
fn interference_of_a_fit() {
    let mut arguments = call("press", &JOINT[..4], &[("json", "")]);
    arguments.push("--fit=H7/p6".to_owned());
    let fit = run_in(&std::env::temp_dir(), &arguments).json();
    same(number(&fit, &["interference_um", "min"]), 1.0, "least");
    same(number(&fit, &["interference_um", "max"]), 42.0, "greatest");
    arguments.pop();
    arguments.extend(["--interference", "1um", "42um"].map(String::from));
    assert_eq!(run_in(&std::env::temp_dir(), &arguments).json(), fit);
    arguments.truncate(6);
    arguments.push("--fit=H7/g6".to_owned());
    refused(&run_in(&std::env::temp_dir(), &arguments), &["H7/g6", "play"]);
}

/// A joint that may just touch holds nothing at its loosest, written as a plain nought.
#[test]
fn a_joint_that_may_just_touch() {
    let mut arguments = call("press", &JOINT[..4], &[("json", "")]);
    arguments.extend(["--interference", "0mm", "20um"].map(String::from));
    let ran = run_in(&std::env::temp_dir(), &arguments);
    assert!(!ran.out.contains("-0.0,") && !ran.out.contains("-0.0\n"), "{}", ran.out);
    for key in ["pressure_mpa", "hub_hoop_mpa", "sleeve_hoop_mpa", "bore_closes_um", "force_n", "torque_nm"] {
        assert_eq!(number(&ran.json(), &[key, "min"]), 0.0, "{key}");
        assert_eq!(ran.json()[key]["max"], press(&[("json", "")]).json()[key]["max"], "{key}");
    }
}

/// A cold room in any scale: -40 °F is -40 °C (definition of the Fahrenheit scale).
#[test]
fn a_cold_room_in_three_scales() {
    for room in ["-40 C", "-40 F", "233.15 K"] {
        let json = press(&[("room", room), ("json", "")]).json();
        near(number(&json, &["heat_to_c"]), -40.0 + 0.050 / (12e-6 * 40.0), 1e-6, room);
    }
}

/// A part that yields is told in words, in the JSON, and by the exit status (1: something is `fail`).
#[test]
fn a_part_that_yields_is_told() {
    let text = press(&[("interference", "0.200mm")]);
    for words in ["fail", "outer part yields", "inner part yields", "235 MPa"] {
        assert!(text.out.contains(words), "`{words}` is not in:\n{}", text.out);
    }
    let json = press(&[("interference", "0.200mm"), ("json", "")]);
    assert_eq!((&json.json()["hub_yields"], &json.json()["sleeve_yields"]), (&true.into(), &true.into()));
    assert_eq!((text.code, json.code), (1, 1));
    // a soft sleeve alone
    let text = press(&[("interference", "0.100mm"), ("hub-material", "steel 4140 prehard")]);
    assert!(text.out.contains("inner part yields") && !text.out.contains("outer part yields"), "{}", text.out);
    assert_eq!(text.code, 1);
    let fine = press(&[]);
    assert!(!fine.out.contains("fail") && !fine.out.contains("yields"), "{}", fine.out);
    assert_eq!(fine.code, 0);
}

#[test]
fn bad_press_input() {
    for (changed, words) in [
        (&[("hub-outside", "30mm")] as &[_], &["outside", "smaller"] as &[_]),
        (&[("hub-outside", "40mm")], &["outside", "smaller"]),
        (&[("bore", "40mm")], &["bore", "smaller"]),
        (&[("bore", "45mm")], &["bore", "smaller"]),
        (&[("bore", "-5mm")], &["--bore", "negative"]),
        (&[("interface", "0mm")], &["--interface", "greater than 0"]),
        (&[("interface", "0.0004mm")], &["--interface", "under 0.001 mm"]),
        (&[("hub-outside", "-70mm")], &["--hub-outside", "greater than 0"]),
        (&[("length", "0mm")], &["--length", "greater than 0"]),
        (&[("length", "-3mm")], &["--length", "greater than 0"]),
        (&[("interference", "-0.020mm")], &["--interference", "negative"]),
        (&[("interference", "0mm")], &["interference", "larger than 0"]),
        (&[("interference", "NaN")], &["--interference", "NaN"]),
        (&[("interference", "nan mm")], &["--interference", "nan"]),
        (&[("interference", "inf mm")], &["--interference", "inf"]),
        (&[("interference", "1e999mm")], &["--interference", "power of ten"]),
        (&[("interference", "20")], &["--interference", "no unit"]),
        (&[("interface", "infinity")], &["--interface", "infinity"]),
        (&[("bore", "NaN mm")], &["--bore", "NaN"]),
        (&[("room", "-300 C")], &["--room", "absolute zero"]),
        (&[("room", "-273.16 C")], &["--room", "absolute zero"]),
        (&[("room", "-460 F")], &["--room", "absolute zero"]),
        (&[("room", "-1 K")], &["--room", "absolute zero"]),
        (&[("room", "NaN")], &["--room", "NaN"]),
        (&[("gap", "-1mm")], &["--gap", "negative"]),
        (&[("friction", "-0.1")], &["friction", "negative"]),
        (&[("friction", "NaN")], &["friction", "not a number"]),
        (&[("friction", "inf")], &["friction"]),
        (&[("hub-modulus", "0 GPa")], &["Young's modulus"]),
        (&[("hub-modulus", "-206 GPa")], &["Young's modulus"]),
        (&[("sleeve-modulus", "NaN")], &["--sleeve-modulus", "NaN"]),
        (&[("sleeve-modulus", "206")], &["--sleeve-modulus", "no unit"]),
        (&[("hub-poisson", "0.6")], &["Poisson", "below 0.5"]),
        (&[("sleeve-poisson", "-0.1")], &["Poisson", "above 0"]),
        (&[("sleeve-poisson", "NaN")], &["Poisson", "not a number"]),
        (&[("fit", "H7/p6")], &["--fit", "--interference"]),
    ] {
        refused(&press(changed), words);
        let with_json: Vec<_> = changed.iter().copied().chain([("json", "")]).collect();
        refused(&press(&with_json), words);
    }
    let reversed =
        ["press", "--interface=40mm", "--hub-outside=70mm", "--length=30mm", "--interference", "45um", "20um"];
    refused(&run_in(&std::env::temp_dir(), &reversed.map(String::from)), &["smallest", "largest"]);
    refused(&run_in(&std::env::temp_dir(), &call("press", &JOINT[..4], &[])), &["--interference"]);
}

// --- materials -------------------------------------------------------------------------------------------------------

/// A shop file with one material of one's own.
fn own(poisson: &str) -> (tempfile::TempDir, String) {
    let folder = tempfile::tempdir().unwrap();
    let text = format!(
        "family = \"shop\"\n\n[[material]]\nname = \"foundry iron\"\nlike = \"steel S235\"\n\
         youngs_modulus = \"120 GPa\"\npoisson = {poisson}\nexpansion = \"10 um/m/K\"\nyield = \"150 MPa\"\n"
    );
    fs::write(folder.path().join("shop.toml"), text).unwrap();
    let path = folder.path().join("shop.toml").to_str().unwrap().to_owned();
    (folder, path)
}

#[test]
fn unknown_materials_get_suggestions() {
    refused(&press(&[("hub-material", "steel S253")]), &["`steel S253` is not known", "steel S235"]);
    refused(&press(&[("sleeve-material", "bronze C9320")]), &["`bronze C9320` is not known", "bronze C93200"]);
    refused(&raceway(&[("material", "steel 1054")]), &["`steel 1054` is not known", "steel 1045"]);
    refused(&press(&[("hub-material", "unobtainium")]), &["not known", "setdown materials"]);
    refused(&raceway(&[("material", "")]), &["--material"]);
    // a name of the shop's own file is suggested as well
    let (_folder, shop) = own("0.25");
    refused(&press(&[("shop", &shop), ("hub-material", "foundry iorn")]), &["not known", "foundry iron"]);
}

/// A material of the shop's own file gives its own figures; its Poisson's ratio of 0.6 is refused at its place.
#[test]
fn materials_of_the_shop() {
    let (_folder, shop) = own("0.25");
    let json = press(&[("shop", &shop), ("hub-material", "foundry iron"), ("json", "")]).json();
    let iron = Stuff { e: 120e3, nu: 0.25, expansion: 10e-6, strength: Some(150.0) };
    let steel = materials().into_iter().find(|m| m.0 == "steel S235").unwrap().1;
    let (s, h) = joined(steel, iron, [12.5, 20.0, 35.0], 0.020);
    same(number(&json, &["pressure_mpa", "max"]), -h.stress(20.0, -1.0), "pressure");
    same(number(&json, &["hub_hoop_mpa", "max"]), h.stress(20.0, 1.0), "hub");
    same(number(&json, &["sleeve_hoop_mpa", "max"]), s.stress(12.5, 1.0), "sleeve");
    same(number(&json, &["heat_to_c"]), 20.0 + 0.050 / (10e-6 * 40.0), "heat");
    // it yields at its own 150 MPa: the steel that it is like would bear that
    let strained =
        press(&[("shop", &shop), ("hub-material", "foundry iron"), ("interference", "0.080mm"), ("json", "")]);
    let stress = number(&strained.json(), &["hub_equivalent_mpa", "max"]);
    assert!(stress > 150.0 && stress < 235.0, "{stress}");
    assert_eq!(strained.json()["hub_yields"], true);
    for poisson in ["0.6", "0.5", "-0.2", "nan", "inf"] {
        let (_folder, shop) = own(poisson);
        refused(&press(&[("shop", &shop), ("hub-material", "foundry iron")]), &["poisson", "shop.toml:7:11"]);
    }
    // even where nothing is made of it
    let (_folder, bad) = own("0.6");
    refused(&press(&[("shop", &bad)]), &["poisson", "shop.toml:7:11", "0.6"]);
    assert_eq!(press(&[("shop", "no-such-shop.toml")]).code, 3);
}

// --- raceway ---------------------------------------------------------------------------------------------------------

/// Line contact of a roller on the outside of a round raceway (Hertz; Johnson, Contact Mechanics, chapter 4, from memory):
/// a parabola of relative curvature 1/R pressed flat gives p0 = E* b/(2R), the load per length is π b p0/2.
/// Greatest pressure in MPa and half-width in millimetres.
fn hertz(load: f64, length: f64, roller: (f64, Stuff), race: (f64, Stuff)) -> (f64, f64) {
    let curvature = 2.0 / roller.0 + 2.0 / race.0;
    let yielding = |m: Stuff| (1.0 - m.nu * m.nu) / m.e;
    let contact = 1.0 / (yielding(roller.1) + yielding(race.1));
    let b = (load / length / (PI * contact * curvature / 4.0)).sqrt();
    (contact * b * curvature / 2.0, b)
}

/// Depth over half-width, and shear over greatest pressure, where the shear under the middle of a line contact is
/// greatest: σx = -p0[(1+2ζ²)/√(1+ζ²) - 2ζ], σz = -p0/√(1+ζ²) (Johnson, chapter 4, from memory; there 0.78 and 0.30).
fn greatest_shear() -> (f64, f64) {
    let shear = |z: f64| {
        let root = (1.0 + z * z).sqrt();
        (1.0 / root - ((1.0 + 2.0 * z * z) / root - 2.0 * z)) / 2.0
    };
    let (mut low, mut high) = (0.0, 3.0);
    while high - low > 1e-9 {
        let (a, b) = (low + (high - low) * 0.382, low + (high - low) * 0.618);
        if shear(a) < shear(b) { low = a } else { high = b }
    }
    (low, shear(low))
}

const STEEL: Stuff = Stuff { e: 206e3, nu: 0.3, expansion: 12e-6, strength: None };

/// 24 rollers of 3 x 15.8 mm on a 25 mm raceway, 8000 N, load factor 5. Worked twice by hand from Hertz's formulas.
#[test]
fn rollers_on_a_steel_raceway() {
    let ran = raceway(&[("factor", "5"), ("json", "")]);
    assert_eq!(ran.code, 0);
    let json = ran.json();
    near(number(&json, &["roller_load_n"]), 1666.67, 0.005, "Q");
    near(number(&json, &["pressure_mpa"]), 1684.54, 0.005, "p0");
    near(number(&json, &["half_width_um"]), 39.865, 0.000_5, "b");
    near(number(&json, &["shear_depth_um"]) / number(&json, &["half_width_um"]), 0.786, 0.000_5, "z/b");
    // the factor of five and the steel are what is taken if nothing is said
    assert_eq!(raceway(&[("json", "")]).json(), json);
    // a mass means its weight at standard gravity, 9.80665 m/s² (ISO 80000-3)
    let weight = raceway(&[("load", "800 kg"), ("json", "")]).json();
    same(number(&weight, &["roller_load_n"]), 5.0 * 800.0 * 9.80665 / 24.0, "weight");
}

#[test]
fn random_raceways_by_hertz() {
    let table = materials();
    let (depth, shear) = greatest_shear();
    near(depth, 0.786, 0.000_5, "depth of the greatest shear");
    near(shear, 0.300, 0.000_5, "greatest shear");
    let mut random = Random(SplitMix::new(12));
    let mut wide = 0;
    for case in 0..200 {
        let (race, d) = random.decimal(8.0, 150.0, 2);
        let (roller, dw) = random.decimal(0.05 * d, 0.4 * d, 2);
        let (length, l) = random.decimal(dw, 8.0 * dw, 2);
        // as many as fit on the circle of their centres, shoulder to shoulder
        let most = (PI / (dw / (d + dw)).asin()).floor();
        let rollers = (1.0 + random.unit() * (most - 1.0)).floor();
        let (load, f) = random.decimal(50.0, 40_000.0, 1);
        let (factor, k) = random.decimal(1.0, 6.0, 2);
        let (hardness, hv) = if case % 3 == 0 {
            let (text, c) = random.decimal(20.0, 68.0, 1);
            (text + " HRC", (223.0 * c + 14500.0) / (100.0 - c))
        } else {
            let (text, hv) = random.decimal(50.0, 1000.0, 0);
            (text + " HV", hv)
        };
        let mut changed = vec![
            ("rollers", format!("{rollers}")),
            ("roller-diameter", format!("{roller} mm")),
            ("roller-length", format!("{length} mm")),
            ("raceway", format!("{race} mm")),
            ("load", format!("{load} N")),
            ("factor", factor),
            ("hardness", hardness),
            ("json", String::new()),
        ];
        let mut of = STEEL;
        if case % 2 == 0 {
            let (name, stuff) = table[(random.unit() * table.len() as f64) as usize].clone();
            changed.push(("material", name));
            of = stuff;
        }
        let ask = |changed: &[(&str, String)]| {
            let ran = raceway(&changed.iter().map(|(n, v)| (*n, v.as_str())).collect::<Vec<_>>());
            assert!(ran.code < 2, "{changed:?}\n{}", ran.err);
            (ran.json(), ran.code)
        };
        let q = k * f / rollers;
        let (p, b) = hertz(q, l, (dw, STEEL), (d, of));
        // Half the width is small against the radius up to a fifth of it, under the load and where the dents begin, at 2.8
        // times yield over three: 9.80665 HV/3 over twice the share of the greatest shear.
        let (relative, dents) = (b * (2.0 / dw + 2.0 / d), 9.806_65 * hv / (6.0 * shear));
        let widest = relative * (dents / p).max(1.0);
        if widest > 0.2 {
            let ran = raceway(&changed.iter().map(|(n, v)| (*n, v.as_str())).collect::<Vec<_>>());
            assert!(
                ran.code == 2 && ran.err.contains("half the width of the contact"),
                "{widest}: {changed:?} {}",
                ran.err
            );
            wide += 1;
            continue;
        }
        let (json, code) = ask(&changed);
        for (key, want, digits) in [
            ("roller_load_n", q, 1e-9),
            ("pressure_mpa", p, 1e-9),
            ("half_width_um", 1e3 * b, 1e-9),
            ("shear_depth_um", 1e3 * b * depth, 2e-5),
            ("shear_mpa", p * shear, 2e-5),
        ] {
            near(number(&json, &[key]), want, digits * want + 1e-8, &format!("{key} in {changed:?}"));
        }
        // pressure goes with the square root of the load
        let allowed = number(&json, &["allowed_mpa"]);
        let from = number(&json, &["dents_from_load_n"]);
        near(from, f * (allowed / p).powi(2), 1e-8 * from, "dents_from_load_n");
        assert_eq!(json["dents"], f > from, "{changed:?}");
        assert_eq!(code, i32::from(f > from), "status of {changed:?}");
        for (share, dents) in [(0.999, false), (1.001, true)] {
            changed[4].1 = format!("{:.6} N", share * from);
            let (json, code) = ask(&changed);
            assert_eq!((&json["dents"], code), (&dents.into(), i32::from(dents)), "{changed:?}");
            near(number(&json, &["pressure_mpa"]), allowed * f64::sqrt(share), 1e-6 * allowed, "pressure at that load");
        }
    }
    assert!((1..100).contains(&wide), "{wide} of 200 contacts are wide");
}

/// What a hardness bears grows in proportion to it (a rule of thumb of the trade: yield in shear as a share of the Vickers
/// hardness; common practice, no source), and the hardness asked for is the one that just bears the load.
#[test]
fn the_hardness_asked_for_bears_the_load() {
    let at = |hv: &str| number(&raceway(&[("hardness", hv), ("json", "")]).json(), &["allowed_mpa"]);
    same(at("400 HV"), 2.0 * at("200 HV"), "twice as hard");
    let needed = number(&raceway(&[("json", "")]).json(), &["needed_hv"]);
    for (share, dents) in [(0.999, true), (1.001, false)] {
        let hardness = format!("{:.3} HV", share * needed);
        assert_eq!(raceway(&[("hardness", &hardness), ("json", "")]).json()["dents"], dents);
    }
    // harder than hardened steel can be: no figure rather than a wrong one
    assert_eq!(raceway(&[("rollers", "1"), ("json", "")]).json()["needed_hv"], Json::Null);
}

/// A raceway that dents is told in words, in the JSON, and by the exit status.
#[test]
fn a_raceway_that_dents_is_told() {
    let text = raceway(&[("hardness", "130 HV")]);
    assert!(text.out.contains("fail") && text.out.contains("dent"), "{}", text.out);
    let json = raceway(&[("hardness", "130 HV"), ("json", "")]);
    assert_eq!(json.json()["dents"], true);
    assert_eq!((text.code, json.code), (1, 1));
    let fine = raceway(&[]);
    assert!(!fine.out.contains("fail"), "{}", fine.out);
    assert_eq!(fine.code, 0);
}

#[test]
fn bad_raceway_input() {
    for (changed, words) in [
        (&[("rollers", "0")] as &[_], &["rollers", "larger than 0"] as &[_]),
        (&[("rollers", "-3")], &["--rollers", "-3"]),
        (&[("rollers", "2.5")], &["--rollers", "2.5"]),
        (&[("rollers", "NaN")], &["--rollers", "NaN"]),
        (&[("rollers", "500")], &["rollers", "do not fit"]),
        (&[("roller-diameter", "0mm")], &["--roller-diameter", "greater than 0"]),
        (&[("roller-diameter", "-3mm")], &["--roller-diameter", "greater than 0"]),
        (&[("roller-diameter", "NaN mm")], &["--roller-diameter", "NaN"]),
        (&[("roller-diameter", "60mm")], &["rollers", "do not fit"]),
        (&[("roller-length", "0mm")], &["--roller-length", "greater than 0"]),
        (&[("roller-length", "inf mm")], &["--roller-length", "inf"]),
        (&[("raceway", "0mm")], &["--raceway", "greater than 0"]),
        (&[("raceway", "-25mm")], &["--raceway", "greater than 0"]),
        (&[("load", "0N")], &["--load", "greater than 0"]),
        (&[("load", "-8kN")], &["--load", "greater than 0"]),
        (&[("load", "NaN N")], &["--load", "NaN"]),
        (&[("load", "inf")], &["--load", "inf"]),
        (&[("load", "8000")], &["--load", "no unit"]),
        (&[("load", "8 mm")], &["--load"]),
        (&[("hardness", "0 HV")], &["--hardness", "between 50 and 1000 HV"]),
        (&[("hardness", "-130 HV")], &["--hardness"]),
        (&[("hardness", "85 HRC")], &["--hardness", "between 20 and 68 HRC"]),
        (&[("hardness", "130")], &["--hardness", "scale"]),
        (&[("hardness", "NaN HV")], &["--hardness"]),
        (&[("factor", "0")], &["factor", "1 or more"]),
        (&[("factor", "-5")], &["factor", "1 or more"]),
        (&[("factor", "NaN")], &["factor", "not a number"]),
        (&[("factor", "inf")], &["factor"]),
    ] {
        refused(&raceway(changed), words);
        let with_json: Vec<_> = changed.iter().copied().chain([("json", "")]).collect();
        refused(&raceway(&with_json), words);
    }
}

// --- pictures ----------------------------------------------------------------------------------------------------------

/// The demo's ring in the hub: bars of the fit are the recorded clearances, and the curves end on the recorded stresses.
/// Across a thick wall without axial load the radial and the hoop stress add up to the same everywhere, 2A of Lamé's
/// solution; at the joint both radial stresses are the pressure, at the free surfaces nought (Timoshenko, Strength of
/// Materials II, thick cylinders; from memory).
#[test]
fn pictures_of_the_ring_in_the_hub() {
    let text = fs::read_to_string("parts/sleeve-pivot-hub.toml").unwrap();
    let alone = |_: &str, _: &str| Err("no other part".to_owned());
    let design = job::work("parts/sleeve-pivot-hub.toml", &text, &Shop::default(), &alone).unwrap();
    let recorded = |key: &str| design.named(key).unwrap_or_else(|| panic!("no {key}")).value.number();
    let (mut fits, mut walls) = (0, Vec::new());
    for picture in &design.pictures {
        match picture {
            Picture::Fit { gaps, .. } => {
                fits += 1;
                for ((shaft, hole, word), end) in gaps.iter().zip(["min", "max"]) {
                    let bar = (*hole - *shaft).as_mm();
                    near(bar, recorded(&format!("outside_clearance_{end}")), 1e-9, word);
                }
            }
            Picture::Stress { curves, .. } => walls.clone_from(curves),
            _ => panic!("a picture that is not looked at here"),
        }
    }
    assert_eq!((fits, walls.len()), (1, 4));
    let mpa = |wall: usize, at: usize| walls[wall].points[at].1.as_mpa();
    let last = walls[0].points.len() - 1;
    let (sleeve_hoop, sleeve_radial, hub_hoop, hub_radial) = (0, 1, 2, 3);
    near(mpa(sleeve_hoop, 0), recorded("inner_hoop_max"), 1e-9, "hoop at the ring's bore");
    near(mpa(hub_hoop, 0), recorded("outer_hoop_max"), 1e-9, "hoop at the hub's bore");
    let pressure = recorded("pressure_max");
    near(mpa(sleeve_radial, last), -pressure, 1e-9, "radial in the ring at the joint");
    near(mpa(hub_radial, 0), -pressure, 1e-9, "radial in the hub at the joint");
    near(mpa(sleeve_radial, 0), 0.0, 1e-9, "radial at the ring's bore");
    near(mpa(hub_radial, last), 0.0, 1e-9, "radial at the hub's outside");
    for (hoop, radial) in [(sleeve_hoop, sleeve_radial), (hub_hoop, hub_radial)] {
        for at in 0..=last {
            near(mpa(hoop, at) + mpa(radial, at), mpa(hoop, 0) + mpa(radial, 0), 1e-9, "sum across the wall");
        }
    }
}
