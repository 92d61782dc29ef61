//! Cuts and speeds of the lathe and the drill press.

use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::shop::{self, Machines, Material, Setting};
use crate::source::Source;
use crate::units::{Length, LengthUnit, SpindleSpeed};

/// Metal for cleaning up one face, in the unit that the part is made in.
/// Source: common practice, no source.
pub const fn face_allowance(unit: LengthUnit) -> Length {
    shop::by_unit(unit, 1.0, 0.04)
}

/// What a turned piece needs beyond its length: 1 mm (0.04 in) for each face, a parting tool of 3 mm (0.12 in), 5 mm
/// (0.2 in) clear of the jaws.
/// Source: common practice, no source.
pub const fn turned_ends(unit: LengthUnit) -> Length {
    shop::by_unit(unit, 10.0, 0.4)
}

/// The deepest cut that a grip for light work bears. Source: common practice, no source.
pub const fn skim(unit: LengthUnit) -> Length {
    shop::by_unit(unit, 0.3, 0.012)
}

const TOO_FAST: Check = Check {
    key: "slowest_speed",
    what: "slowest speed of the machine",
    worst: Verdict::Caution,
    source: Source::Published("printed cutting speeds of the material, slow end"),
};

/// The speed of a setting; says so where even the machine's slowest is faster than the cut asks for.
pub fn spindle(design: &mut Design, what: &str, setting: Setting) -> SpindleSpeed {
    let [speed, wanted] = [setting.speed, setting.wanted].map(Value::SpindleSpeed);
    if setting.too_fast() {
        let because =
            format!("{what}: the machine goes no slower; take lighter cuts with plenty of oil, or a machine that does");
        design.findings.retain(|f| f.key != TOO_FAST.key || f.verdict != Verdict::Ok);
        if !design.findings.iter().any(|f| f.key == TOO_FAST.key && f.because == because) {
            design.finding(&TOO_FAST, Verdict::Caution, Some(speed), Limit::AtMost(wanted), because);
        }
    } else if !design.findings.iter().any(|f| f.key == TOO_FAST.key) {
        let because = "the machine goes as slowly as every cut of this part asks for";
        design.finding(&TOO_FAST, Verdict::Ok, Some(speed), Limit::AtMost(wanted), because);
    }
    setting.speed
}

/// Speed of the drill press for a twist drill of high-speed steel in that material.
pub fn drill_speed(design: &mut Design, machines: &Machines, material: &Material, diameter: Length) -> SpindleSpeed {
    let setting = machines.drill(material.cutting(false).drill, diameter);
    spindle(design, "drilling", setting)
}

/// Speed of the lathe for a twist drill held in its tailstock.
pub fn drill_speed_in_lathe(
    design: &mut Design,
    machines: &Machines,
    material: &Material,
    diameter: Length,
) -> SpindleSpeed {
    let setting = machines.turn(material.cutting(false).drill, diameter);
    spindle(design, "drilling in the lathe", setting)
}

/// Speed of the lathe for a broad cut with a tool of high-speed steel that goes straight in, to part off, to counterbore or to
/// ream: half of the roughing speed; the slowest that the machine has, where that is faster.
/// Source: common practice, no source.
pub fn straight_in_speed(machines: &Machines, material: &Material, diameter: Length) -> SpindleSpeed {
    machines.turn(material.cutting(false).rough * 0.5, diameter).speed
}
