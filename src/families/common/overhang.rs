//! How far a bar stands out of the chuck and what carries its free end, and how deep a tool reaches into a piece: one rule for every
//! family that turns from bar.

use crate::formulas::turning::{self, Support};
use crate::record::design::{Check, Design, Limit, Operation, Value, Verdict};
use crate::record::show;
use crate::shop::{Machines, Material};
use crate::source::Source;
use crate::units::{Length, LengthUnit};

use super::gripped;

const HOLD_OUT: Check = Check {
    key: "hold_out",
    what: "length out of the chuck against the stock diameter",
    worst: Verdict::Fail,
    source: Source::Published(
        "lathe owner's manual, safety page: work longer than 3 diameters out of the chuck is to be supported",
    ),
};
const BORING: Check = Check {
    key: "bore_depth",
    what: "depth of the bore, in bores, against what a boring bar reaches from both ends",
    worst: Verdict::Fail,
    source: Source::Memory("makers of boring bars: steel bars to 4 of their diameters; a bar of 0.7 of the bore"),
};
const BORING_ONE_END: Check =
    Check { what: "depth of the bore, in bores, against what a boring bar reaches from one end", ..BORING };
const DRILLING: Check = Check {
    key: "bore_depth",
    what: "depth of the bore, in bores, against what a twist drill reaches from both ends",
    worst: Verdict::Caution,
    source: Source::Memory("DIN 338: flutes of 7 to 10 diameters from 5 mm up"),
};

/// What carries the free end of work that stands far out of the chuck, as the steps tell it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Carried {
    /// The tailstock's centre.
    Centre,
    /// The centre while the outside is turned, a fixed steady while it is drilled.
    CentreThenSteady,
    /// Nothing can: its end is too small for a centre.
    Nothing,
    /// It is not turned in this shop.
    Elsewhere,
}

/// Judges how far work stands out of the chuck.
pub fn judge(design: &mut Design, stands_out: Length, diameter: Length, carried: Carried) {
    let (verdict, limit, because) = match (turning::support(stands_out, diameter), carried) {
        (Support::None, _) => (
            Verdict::Ok,
            turning::UNSUPPORTED,
            "longer work bends away from the tool and can leave the chuck; support it with the tailstock centre",
        ),
        (_, Carried::Elsewhere) => (
            Verdict::Caution,
            turning::UNSUPPORTED,
            "longer work bends away from the tool and can leave the chuck, and here nothing can support it: it is made elsewhere",
        ),
        (_, Carried::Nothing) => (
            Verdict::Fail,
            turning::UNSUPPORTED,
            "longer work bends away from the tool and can leave the chuck, and its end is too small for a centre: a shorter or a thicker piece, or bar that is bought ground to size",
        ),
        (Support::CentreAndRest, _) => (
            Verdict::Caution,
            turning::WITH_CENTRE,
            "longer work bows between chuck and centre: a follow rest behind the tool and light cuts, as the steps say; a shorter or a thicker piece needs neither",
        ),
        (Support::Centre, Carried::Centre) => (
            Verdict::Ok,
            turning::WITH_CENTRE,
            "over 3 diameters the tailstock's centre carries the free end, as the steps say",
        ),
        (Support::Centre, Carried::CentreThenSteady) => (
            Verdict::Ok,
            turning::WITH_CENTRE,
            "over 3 diameters the tailstock's centre carries the free end, and a steady while it is drilled, as the steps say",
        ),
    };
    let shown = Value::Number((stands_out / diameter * 100.0).round() / 100.0);
    design.finding(&HOLD_OUT, verdict, Some(shown), Limit::AtMost(Value::Number(limit)), because);
}

/// A bar in the chuck from which a piece is turned and parted off.
#[derive(Clone, Copy, Debug)]
pub struct Chucked {
    bar: Length,
    out: Length,
    drilled: bool,
    unit: LengthUnit,
}

impl Chucked {
    /// A bar of that diameter, so much of it out of the jaws; whether it is drilled through once its outside is turned.
    pub const fn new(bar: Length, out: Length, drilled: bool, unit: LengthUnit) -> Self {
        Self { bar, out, drilled, unit }
    }

    fn support(&self) -> Support {
        turning::support(self.out, self.bar)
    }

    /// Whether the chuck alone does not carry it.
    pub fn slender(&self) -> bool {
        self.support() != Support::None
    }

    /// Pilot of the centre in its end, where it needs one and its end bears one.
    fn pilot(&self) -> Option<Length> {
        let centre = turning::centre_drill(self.bar, self.bar).filter(|_| self.slender());
        centre.map(|(pilot, _)| pilot)
    }

    /// What carries its free end.
    fn carried(&self) -> Carried {
        match (self.pilot(), self.drilled) {
            (Some(_), true) => Carried::CentreThenSteady,
            (Some(_), false) => Carried::Centre,
            (None, _) => Carried::Nothing,
        }
    }

    /// Records how far it stands out, and what carries it.
    pub fn judge(&self, design: &mut Design) {
        judge(design, self.out, self.bar, self.carried());
    }

    /// The length out of the jaws that pulls at them: beyond three diameters the other end is carried.
    fn pulls(&self) -> Length {
        self.out.min(self.bar * turning::UNSUPPORTED)
    }

    /// What of the bar lies in the chuck.
    pub fn in_the_chuck(&self) -> Length {
        gripped::in_the_chuck(self.bar, self.pulls())
    }

    /// How it is chucked, from `Chuck ` on: `the bar with 40 mm out of the jaws, at least 13 mm in them`.
    pub fn how(&self) -> String {
        let size = |l: Length| show::length_both(l.rounded(), self.unit);
        let jaws = gripped::in_jaws(self.bar, self.pulls(), self.unit);
        let held = format!("with {} out of the jaws, {jaws} in them", size(self.out));
        let Some(pilot) = self.pilot() else { return format!("the bar {held}") };
        let rest = match self.support() {
            Support::CentreAndRest => ", a follow rest behind the tool and light cuts",
            _ => "",
        };
        format!(
            "the bar with its end close to the jaws, face it and centre drill it, pilot {}; draw it out and chuck it {held}, the tailstock's centre in its end{rest}",
            size(pilot)
        )
    }

    /// The first cut, before ` the outside`: an end with a centre in it was faced before.
    pub fn first_cut(&self) -> &'static str {
        if self.pilot().is_some() { "Turn" } else { "Face, turn" }
    }

    /// Before it is drilled: the centre makes room for the drill.
    pub fn for_the_drill(&self) -> &'static str {
        if self.pilot().is_some() { ", run a fixed steady on it near its end and draw the centre away" } else { "" }
    }

    /// How it comes off the bar, `off at 300 rpm` after `part `; a slender one closes on a parting tool and climbs.
    pub fn comes_off(&self, design: &mut Design, what: &str, machines: &Machines, material: &Material) -> Off {
        if self.slender() {
            return Off { how: "saw it off", at: " by the jaws, the spindle at rest".into() };
        }
        let pace = super::straight_in_speed(design, what, machines, material, self.bar);
        Off { how: "part off", at: format!(" at {pace}") }
    }

    /// Writes down the centre drill, where one is used.
    pub fn tools(&self, step: &mut Operation) {
        if let Some(pilot) = self.pilot() {
            step.tool(format!("centre drill, pilot {}", show::length_both(pilot.rounded(), self.unit)));
        }
    }
}

/// How a piece comes off its bar: `part off`, what stands between, ` at 300 rpm`.
pub struct Off {
    pub how: &'static str,
    pub at: String,
}

/// With what a bore is made, and from where.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Reach {
    /// A boring bar, half from each end where one end does not do.
    BoredFromBoth,
    /// A boring bar, all of it from one end.
    BoredFromOne,
    /// A twist drill, half from each end where one end does not do.
    DrilledFromBoth,
}

impl Reach {
    /// How many bores deep it works from one end.
    const fn one_end(self) -> f64 {
        match self {
            Self::BoredFromBoth | Self::BoredFromOne => turning::BORED_FROM_ONE_END,
            Self::DrilledFromBoth => turning::DRILLED_FROM_ONE_END,
        }
    }

    /// Whether a bore is made half from each end.
    pub fn in_halves(self, deep: Length, bore: Length) -> bool {
        self != Self::BoredFromOne && deep / bore > self.one_end()
    }

    /// Judges the depth of a bore against what reaches into it.
    pub fn judge(self, design: &mut Design, deep: Length, bore: Length, because: &str) {
        let value = Value::Number((deep / bore * 100.0).round() / 100.0);
        let most = |ends: f64| Value::Number(ends * self.one_end());
        let (check, ends) = match self {
            Self::BoredFromBoth => (&BORING, 2.0),
            Self::BoredFromOne => (&BORING_ONE_END, 1.0),
            Self::DrilledFromBoth => {
                let verdict = if deep / bore > 2.0 * self.one_end() { Verdict::Caution } else { Verdict::Ok };
                return design.finding(&DRILLING, verdict, Some(value), Limit::AtMost(most(2.0)), because);
            }
        };
        design.at_most(check, value, most(ends), None, because);
    }
}
