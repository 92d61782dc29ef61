//! Speeds that the machines have, and what is said where none of them is slow enough; figures of the lathe in inches; compound.

use approx::assert_relative_eq as near;
use setdown::record::design::{Design, Value, Verdict};
use setdown::record::show;
use setdown::shop::Shop;
use setdown::units::LengthUnit;

use super::seats::{cone, number};

fn work(text: &str, shop: &str) -> Design {
    let shop = Shop::read("shop.toml", &format!("family = \"shop\"\n{shop}")).expect("a shop");
    let nobody = |_: &str, _: &str| Err(String::new());
    setdown::job::work("part.toml", text, &shop, &nobody)
        .unwrap_or_else(|p| panic!("{}", setdown::job::render(&p, text)))
}

fn steps(design: &Design) -> String {
    design.operations.iter().map(|o| format!("{}: {}\n", o.at, o.text)).collect()
}

fn slowest(design: &Design) -> Vec<(Verdict, String)> {
    design.findings.iter().filter(|f| f.key == "slowest_speed").map(|f| (f.verdict, f.because.clone())).collect()
}

const STEPPED: &str = "family = \"cup\"\nmaterial = \"steel S235\"\nlength = \"140 mm\"\nthickness = \"12 mm\"\n\
    [hole]\nkind = \"stepped\"\nsteps = [\"44 mm\", \"47 mm\", \"50 mm\"]\nstep_height = \"5 mm\"\nstop_depth = \"3 mm\"\npilot = \"12 mm\"\n";

/// By hand, 1000 v/(pi D): a step drill of 50 mm in S235 is driven at half of a twist drill's 24 m/min, 76 rpm. A drill press
/// that goes no slower than 300 does it four times too fast: no step orders 300, the finding cautions. One of 70 does it.
#[test]
fn a_drill_press_that_is_too_fast_is_not_told_to_drill() {
    let fast = work(STEPPED, "drill_press_speeds_rpm = [300, 600]\n");
    let wanted = (1000.0 * drill_speed() / 2.0 / (std::f64::consts::PI * 50.0)).floor();
    let words = format!(
        "The step drill goes at {wanted} rpm (the drill press goes no slower than 300: on a slower machine, or bored on the lathe)"
    );
    let all = steps(&fast);
    assert!(all.contains(&words), "{words}\n{all}");
    assert!(!all.contains("At most 300 rpm") && !all.contains("300 rpm at most"), "{all}");
    let told = slowest(&fast);
    assert!(
        told.iter().any(|(v, b)| *v == Verdict::Caution && b.starts_with("step drill: the drill press goes no slower")),
        "{told:?}"
    );
    let slow = work(STEPPED, "drill_press_speeds_rpm = [70, 300]\n");
    assert!(steps(&slow).contains("The step drill goes at 70 rpm at most"), "{}", steps(&slow));
    assert!(slowest(&slow).iter().all(|(v, _)| *v == Verdict::Ok));
}

/// The slow end of the table for drills in S235, m/min.
fn drill_speed() -> f64 {
    let steel = setdown::standards::materials::material("steel S235").unwrap();
    setdown::shop::Material::from(steel).cutting(false).drill.as_m_per_min()
}

/// In the lathe: where carbide stands the slowest speed it is named, where nothing does a slower machine is; a cut straight in
/// bears twice what it asks for, and says that care is wanted.
#[test]
fn a_lathe_that_is_too_fast_says_what_then() {
    let text = format!("{}foot = \"10 mm\"\nmounting = \"weld-on\"\n", cone(120.0, 60.0, 30.0));
    let turned = |least: &str| work(&text, &format!("lathe_speeds_rpm = [{least}, 1000]\n"));
    assert!(slowest(&turned("20")).iter().all(|(v, _)| *v == Verdict::Ok));
    let carbide = turned("120");
    assert!(
        steps(&carbide).contains("(the lathe goes no slower than 120: with a carbide tool)"),
        "{}",
        steps(&carbide)
    );
    let never = turned("900");
    assert!(steps(&never).contains("goes no slower than 900: on a slower machine)"), "{}", steps(&never));
    let told = slowest(&never);
    assert!(told.len() >= 2 && told.iter().all(|(v, _)| *v == Verdict::Caution), "{told:?}");
    // Parting asks for half of the roughing speed: at that very speed it is done with care, and is no caution.
    let steel = setdown::standards::materials::material("steel S235").unwrap();
    let rough = setdown::shop::Material::from(steel).cutting(false).rough.as_m_per_min();
    let bar = number(&turned("20"), "stock_diameter");
    let least = (0.75 * 1000.0 * rough / (std::f64::consts::PI * bar)).floor();
    let care = turned(&least.to_string());
    assert!(
        steps(&care).contains("is wanted, the lathe goes no slower: short light cuts, plenty of oil)"),
        "{}",
        steps(&care)
    );
    assert!(slowest(&care).iter().all(|(v, _)| *v == Verdict::Ok), "{:?}", slowest(&care));
}

/// NAVEDTRA 14345: a taper from 3 to 2 in over 12 in is 1 in per foot.
#[test]
fn taper_per_foot_as_printed() {
    let text =
        "family = \"cone\"\nunits = \"in\"\nbase_diameter = \"3 in\"\ntip_diameter = \"2 in\"\nheight = \"12 in\"\n";
    let design = work(text, "");
    let found = design.named("taper_per_foot").expect("in inches");
    assert_eq!(show::value(&found.value, LengthUnit::Inch), "1 in/ft");
}

/// ISO 10123, force over the joint's surface: 25 x 20 mm at 15 MPa, 15 pi 25 20 = 23,562 N; the torque at its radius, 294.5 N m.
#[test]
fn what_a_compound_holds() {
    let text = "family = \"sleeve\"\nbore = \"20 mm\"\noutside_diameter = \"25 mm\"\nlength = \"20 mm\"\nbore_class = \"H7\"\n\
        outside_class = \"h6\"\n[housing]\nclass = \"H7\"\n[pressed_in]\nhub_outside = \"50 mm\"\nsecured = \"compound\"\nshear_strength = \"15 MPa\"\n";
    let design = work(text, "");
    let value = |key: &str| match &design.named(key).expect(key).value {
        Value::Force(f) => f.as_newtons(),
        Value::Torque(t) => t.as_newton_metres(),
        other => panic!("{other:?}"),
    };
    near!(value("compound_force"), 15.0 * std::f64::consts::PI * 25.0 * 20.0, max_relative = 1e-9);
    near!(value("compound_torque"), 294.524, max_relative = 1e-5);
}
