//! Cuts and speeds of the lathe and the drill press.

use std::fmt;

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

/// How far over what a cut asks for it still goes with care: the printed ranges are about as wide, and a cut straight in that
/// asks for half of the roughing speed stands the whole of it. Source: common practice, no source.
const WITH_CARE: f64 = 1.5;
const WITH_CARE_STRAIGHT_IN: f64 = 2.0;

/// What a cut is, where the machine's slowest is too fast for it: what can be done instead differs.
#[derive(Clone, Copy)]
pub enum Cut<'a> {
    /// Turning and boring with a single point; the steel and whether the tool is carbide already.
    Point(&'a Material, bool),
    /// A twist drill.
    Drill,
    /// A drill with steps.
    StepDrill,
    /// Straight in: parting off, a counterbore, a form tool.
    StraightIn,
    /// A reamer.
    Ream,
}

/// What is done about a machine that goes no slower.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Instead {
    /// The machine goes slowly enough.
    Nothing,
    /// The cut is made with care.
    Care(&'static str),
    /// It is not made on that machine, or not with that tool.
    Otherwise(&'static str),
}

impl<'a> Cut<'a> {
    /// A cut with the shop's usual turning tool.
    pub const fn point(machines: &Machines, material: &'a Material) -> Self {
        Self::Point(material, machines.carbide)
    }
}

impl Cut<'_> {
    /// What is done where the machine goes `times` as fast as it should.
    fn instead(self, times: f64) -> Instead {
        let care = Instead::Care("short light cuts, plenty of oil");
        match self {
            Self::Point(material, false) if carbide_bears(material, times) => Instead::Otherwise("with a carbide tool"),
            Self::StraightIn | Self::Ream if times <= WITH_CARE_STRAIGHT_IN => care,
            _ if times <= WITH_CARE => care,
            Self::Ream => Instead::Otherwise("by hand, with a tap wrench"),
            Self::StepDrill => Instead::Otherwise("on a slower machine, or bored on the lathe"),
            Self::Drill => Instead::Otherwise("on a slower machine, or drilled under size and bored"),
            Self::StraightIn => Instead::Otherwise("too fast for such a tool: saw it off and face it in the next grip"),
            Self::Point(..) => Instead::Otherwise("on a slower machine"),
        }
    }

    /// Half of a speed is asked for where the whole is borne.
    fn is_straight_in(self) -> bool {
        matches!(self, Self::StraightIn | Self::Ream)
    }
}

/// Whether carbide stands the speed that high-speed steel does not.
fn carbide_bears(material: &Material, times: f64) -> bool {
    material.cutting(true).rough / material.cutting(false).rough >= times
}

/// The speed of a cut as a step tells it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pace {
    setting: Setting,
    instead: Instead,
}

impl Pace {
    /// Of a part that sees no machine.
    pub const STILL: Self = Self {
        setting: Setting { speed: SpindleSpeed::ZERO, wanted: SpindleSpeed::ZERO, machine: "lathe" },
        instead: Instead::Nothing,
    };

    /// The speed that the machine is set to.
    pub const fn speed(&self) -> SpindleSpeed {
        self.setting.speed
    }
}

impl fmt::Display for Pace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Setting { speed, wanted, machine } = self.setting;
        let (speed, wanted) = (speed.whole(), wanted.whole());
        match self.instead {
            Instead::Nothing => write!(f, "{speed} rpm"),
            Instead::Care(how) => write!(f, "{speed} rpm ({wanted} is wanted, the {machine} goes no slower: {how})"),
            Instead::Otherwise(how) => write!(f, "{wanted} rpm (the {machine} goes no slower than {speed}: {how})"),
        }
    }
}

/// The speed of a setting; where even the machine's slowest is faster than the cut asks for, says so and what then.
pub fn spindle(design: &mut Design, what: &str, setting: Setting, cut: Cut) -> Pace {
    let [speed, wanted] = [setting.speed, setting.wanted].map(Value::SpindleSpeed);
    let instead = if setting.too_fast() {
        cut.instead(setting.speed.as_rpm() / setting.wanted.as_rpm())
    } else {
        Instead::Nothing
    };
    let (verdict, because) = match instead {
        Instead::Nothing => (Verdict::Ok, "the machine goes as slowly as every cut of this part asks for".to_string()),
        Instead::Care(_) if cut.is_straight_in() => return Pace { setting, instead },
        Instead::Care(how) | Instead::Otherwise(how) => {
            (Verdict::Caution, format!("{what}: the {} goes no slower: {how}", setting.machine))
        }
    };
    let known = |verdict| design.findings.iter().any(|f| f.key == TOO_FAST.key && f.verdict == verdict);
    let told = if verdict == Verdict::Ok {
        known(Verdict::Ok) || known(Verdict::Caution)
    } else {
        design.findings.iter().any(|f| f.key == TOO_FAST.key && f.because == because)
    };
    if !told {
        design.findings.retain(|f| f.key != TOO_FAST.key || f.verdict != Verdict::Ok);
        design.finding(&TOO_FAST, verdict, Some(speed), Limit::AtMost(wanted), because);
    }
    Pace { setting, instead }
}

/// Speed of the drill press for a twist drill of high-speed steel in that material.
pub fn drill_speed(design: &mut Design, machines: &Machines, material: &Material, diameter: Length) -> Pace {
    let setting = machines.drill(material.cutting(false).drill, diameter);
    spindle(design, "drilling", setting, Cut::Drill)
}

/// Speed of the lathe for a twist drill held in its tailstock.
pub fn drill_speed_in_lathe(design: &mut Design, machines: &Machines, material: &Material, diameter: Length) -> Pace {
    let setting = machines.turn(material.cutting(false).drill, diameter);
    spindle(design, "drilling in the lathe", setting, Cut::Drill)
}

/// Speed of the lathe for a broad cut with a tool of high-speed steel that goes straight in, to part off or to counterbore.
pub fn straight_in_speed(
    design: &mut Design,
    what: &str,
    machines: &Machines,
    material: &Material,
    diameter: Length,
) -> Pace {
    spindle(design, what, half_speed(machines, material, diameter), Cut::StraightIn)
}

/// Speed of the lathe to ream.
pub fn reaming_speed(design: &mut Design, machines: &Machines, material: &Material, diameter: Length) -> Pace {
    spindle(design, "reaming", half_speed(machines, material, diameter), Cut::Ream)
}

/// Half of the roughing speed with high-speed steel. Source: common practice, no source.
fn half_speed(machines: &Machines, material: &Material, diameter: Length) -> Setting {
    machines.turn(material.cutting(false).rough * 0.5, diameter)
}
