//! What is judged of a tube sleeve: that the bolt does not crush it, goes through after welding, and what is left of the tube.

use crate::families::common::overhang::Reach;
use crate::families::common::{self, welded};
use crate::formulas::bolts::{self, SCATTER, SHARE};
use crate::formulas::strength::RoundSection;
use crate::formulas::tubes;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::key::Size;
use crate::record::show;
use crate::shop::by_unit;
use crate::source::Source;
use crate::standards::galvanic::Environment;
use crate::units::{Angle, Force, Length};

use super::read::{Bolt, Bore, Spec};
use super::sizes;

const CRUSHED: Check = Check {
    key: "sleeve_crushed",
    what: "stress in the sleeve under the tight bolt, 30 % over its pull",
    worst: Verdict::Fail,
    source: Source::Derived("1.3 x 0.75 x proof load over the area of the sleeve's wall, against its yield strength"),
};
const BUCKLES: Check = Check {
    key: "sleeve_buckles",
    what: "stress in the sleeve under the tight bolt, against buckling",
    worst: Verdict::Fail,
    source: Source::Published("Shigley, Mechanical Engineering Design: Johnson's parabola, Euler's column"),
};
const UNDER_BOLT: Check = Check {
    key: "wall_without_sleeve",
    what: "tube under the bolt if there were no sleeve",
    worst: Verdict::Ok,
    source: Source::Published(
        "Timoshenko: thin ring under two opposite forces; round plate loaded round a hole: where the wall begins to yield",
    ),
};
const GOES_THROUGH: Check = Check {
    key: "bolt_goes_through",
    what: "room round the bolt once the sleeve is welded in",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};
const BEARS: Check = Check {
    key: "bolt_head_bears",
    what: "bore that a plain washer bridges",
    worst: Verdict::Fail,
    source: Source::Memory(
        "ISO 7089: a washer is 1.8 times its thread and more across; a fifth of a diameter of it bears all round",
    ),
};
const IN_WALL: Check = Check {
    key: "hole_in_wall",
    what: "share of the pierced wall that the hole takes",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};
const ON_FLAT: Check = Check {
    key: "weld_on_flat",
    what: "hole and weld against the flat between the tube's corners",
    worst: Verdict::Fail,
    source: Source::Memory("EN 10219-2: outside corner radius up to 2.4 t to 6 mm of wall, 3 t beyond"),
};
const GAP: Check = Check {
    key: "gap_to_weld",
    what: "gap between sleeve and hole",
    worst: Verdict::Fail,
    source: Source::Memory("EN ISO 5817: gap of a fillet weld at most 0.5 mm + 0.1 a at level B, up to 4 mm in all"),
};
const DRAINS: Check = Check {
    key: "tube_drains",
    what: "way out of the tube for water, and for what boils in a zinc bath",
    worst: Verdict::Fail,
    source: Source::Memory("ISO 14713-2: vents and drains of 10 mm and more, or a quarter of the tube's width"),
};
const FILLET: Check = Check {
    key: "fillet_stands",
    what: "how far the sleeve stands out for its fillet",
    worst: Verdict::Fail,
    source: Source::Derived("a fillet is as high as the part stands out: throat = leg/sqrt 2 of an even one"),
};
const GROOVE: Check = Check {
    key: "groove_throat",
    what: "throat of the weld that is left when it is ground flush",
    worst: Verdict::Fail,
    source: Source::Derived(
        "from the root of a chamfer of 45 degrees to a face level with it: the depth of the chamfer",
    ),
};
const SQUARE: Check = Check {
    key: "bolt_seats_square",
    what: "ends under the bolt's head and nut",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};

/// How far a sleeve closes when it is welded in, on its bore. Source: common practice, no source.
const CLOSES: Length = Length::mm(0.3);
/// Share of the pierced wall from which the tube is stiffened or looked at. Source: common practice, no source.
const HALF: f64 = 0.5;
/// Share that leaves no strip to weld to. Source: common practice, no source.
const MOST: f64 = 0.8;
/// The washer over the thread. Source: ISO 7089, M5 to M24: 1.83 and more.
const WASHER: f64 = 1.8;
/// Bore over the thread, where a fifth of the thread's diameter of washer bears all round it.
const BRIDGED: f64 = 1.4;

/// All of them.
pub fn checks(design: &mut Design, s: &Spec, length: Length) {
    common::checks(design, &s.common);
    if let Some((bolt, bore)) = s.bolt.as_ref().zip(s.bore.as_ref()) {
        under_the_bolt(design, s, (bolt, bore), length);
        room(design, s, bolt, bore);
        square(design, s);
    }
    if let Some(bore) = &s.bore {
        let because =
            "a drill of usual length does not come through, and a long one wanders: buy tube of this outside and bore";
        Reach::DrilledFromBoth.judge(design, length, bore.diameter, because);
    }
    in_the_wall(design, s);
    gap(design, s);
    if s.bore.is_some() {
        weld_left(design, s);
    }
    drains(design, s);
    common::dissimilar(design, &s.common, &s.tube.material, common::Meets::Frame, true);
}

fn pull(bolt: &Bolt) -> Option<Force> {
    bolts::preload(bolt.thread.stress_area(), bolt.steel.class.proof, SHARE).ok()
}

fn under_the_bolt(design: &mut Design, s: &Spec, (bolt, bore): (&Bolt, &Bore), length: Length) {
    let Some(pull) = pull(bolt) else { return };
    let most = pull * (1.0 + SCATTER);
    without(design, s, bolt, most);
    // The weakest sleeve that its limits let pass.
    let limits = |size: &Size| design.dimension(size).and_then(|d| d.limits.as_ref()).map(|l| (l.lower, l.upper));
    let outside = limits(&sizes::OUTSIDE_DIAMETER).map_or(s.outside.value, |l| l.0);
    let widest = limits(&sizes::BORE).map_or(bore.diameter, |l| l.1);
    let section = RoundSection { outside, bore: widest };
    let material = &s.common.material;
    let (Ok(stress), Some(strength)) = (section.along(most), material.yield_strength) else { return };
    design.computed(
        &sizes::SLEEVE_STRESS,
        Value::Stress(stress),
        "1.3 F/(pi/4 (D^2 - d^2)), least outside and greatest bore",
    );
    common::printed_under_load(design, &[material]);
    let because =
        "the sleeve takes the bolt's pull between the washers; where it yields it grows shorter and the bolt is loose";
    design.at_most(&CRUSHED, Value::Stress(stress), Value::Stress(strength), None, because);
    common::doubtful_strength(design, material);
    let modulus = material.elastic.youngs_modulus;
    if let Ok(column) = tubes::column(outside, widest, length, strength, modulus) {
        let because = "a long thin sleeve bows sideways before it yields: a thicker one";
        design.at_most(&BUCKLES, Value::Stress(stress), Value::Stress(column), None, because);
    }
}

/// What the tube would bear by itself: the reason for the sleeve.
fn without(design: &mut Design, s: &Spec, bolt: &Bolt, most: Force) {
    let material = &s.tube.material;
    let unit = design.header.unit;
    let Some(strength) = material.yield_strength else { return };
    let washer = bolt.thread.major * WASHER;
    let Ok(from) = s.tube.tube().yields_from(strength, material.elastic.poisson, washer) else {
        design.note(&UNDER_BOLT, "not worked out: the wall is too thick for its span, or the washer as wide as the tube, to bend as a thin wall; tubes that small and thick may do without a sleeve");
        return;
    };
    design.computed(&sizes::WALL_YIELDS_FROM, Value::Force(from), "where the wall under a washer begins to yield");
    let [from_words, pull_words] = [from, most].map(|f| show::value(&Value::Force(f), unit));
    let text = if from < most {
        format!(
            "the wall begins to yield at {from_words}, the tight bolt pulls up to {pull_words}: without the sleeve the tube is squeezed and the bolt comes loose"
        )
    } else {
        format!(
            "the wall bears {from_words}, the tight bolt pulls up to {pull_words}: the tube stands it by itself, the sleeve only keeps water out"
        )
    };
    design.note(&UNDER_BOLT, text);
    common::doubtful_strength(design, material);
}

fn room(design: &mut Design, s: &Spec, bolt: &Bolt, bore: &Bore) {
    let unit = s.common.header.unit;
    let least = design.dimension(&sizes::BORE).and_then(|d| d.limits.as_ref()).map_or(bore.diameter, |l| l.lower);
    let left = least - CLOSES - bolt.thread.major;
    let left = design.computed_length(&sizes::CLEARANCE_WELDED, left, "least bore - 0.3 mm of weld pull - thread");
    let because = format!(
        "welding closes a sleeve by some tenths, {} is counted; under that run the drill through again after welding",
        show::length(CLOSES, unit)
    );
    let wanted = Some(Value::Length(by_unit(unit, 0.2, 0.008)));
    design.at_least(&GOES_THROUGH, Value::Length(left), Value::Length(Length::ZERO), wanted, because);
    design.at_most(
        &BEARS,
        Value::Length(bore.diameter.rounded()),
        Value::Length((bolt.thread.major * BRIDGED).rounded()),
        None,
        "over a wider bore the washer dishes and the bolt loses its pull: a smaller bore, or a larger bolt",
    );
}

/// A head on a slanting or hollow end bends its bolt.
fn square(design: &mut Design, s: &Spec) {
    let slants = s.fitted && (s.tube.shape == "round" || s.lean() != Angle::ZERO);
    let (verdict, because) = if slants {
        (
            Verdict::Fail,
            "filed to the tube's face an end is not square to the bolt: its head bears on one edge and bends it; straight ends, flush where the tube stands out farthest",
        )
    } else {
        (Verdict::Ok, "they lie square to the bolt")
    };
    design.finding(&SQUARE, verdict, None, None, because);
}

/// The outside radius of the corners of a formed tube.
fn corner(wall: Length) -> Length {
    if wall <= Length::mm(6.0) { wall * 2.4 } else { wall * 3.0 }
}

fn in_the_wall(design: &mut Design, s: &Spec) {
    let (hole, pierced) = (s.hole(), s.tube.pierced());
    let share = hole / pierced;
    design.computed(&sizes::HOLE_SHARE, Value::Share(share), "hole / width of the pierced wall");
    let because = "a wide hole leaves little of the tube beside it: where the tube is bent, weld a plate over the place or have it worked out";
    design.at_most(&IN_WALL, Value::Share(share), Value::Share(MOST), Some(Value::Share(HALF)), because);
    if let (Ok(left), Some(_)) = (s.tube.tube().left_by(hole), &s.bore) {
        design.computed(&sizes::LEFT_TOWARDS, Value::Share(left.towards), "1 - I of the two openings / I of the tube");
        design.computed(&sizes::LEFT_SIDEWAYS, Value::Share(left.sideways), "the same, bent sideways");
    }
    if s.tube.shape != "round" {
        let flat = pierced - corner(s.tube.wall.value) * 2.0;
        let leg = super::weld_leg(s);
        design.at_most(
            &ON_FLAT,
            Value::Length((s.outside.value + leg * 2.0).rounded()),
            Value::Length(flat.rounded()),
            None,
            "on the rounded corners the hole runs out and the weld has no ground: a thinner sleeve, or a wider tube",
        );
    }
}

fn gap(design: &mut Design, s: &Spec) {
    let gap = ((s.hole() - s.outside.value) / 2.0).rounded();
    let because = "a wide gap is bridged by weld metal that falls through: a closer hole, or a ring of rod first";
    design.at_most(
        &GAP,
        Value::Length(gap),
        Value::Length(Length::mm(2.0)),
        Some(Value::Length(Length::mm(0.8))),
        because,
    );
}

/// What carries once everything that is told to be ground is ground off.
fn weld_left(design: &mut Design, s: &Spec) {
    let weld = super::weld(s);
    let needed = welded::needed(&s.common, &weld).unwrap_or(Length::ZERO);
    if s.grooved() {
        let because = "flush there is no corner for a fillet: the weld lies in the chamfer, and grinding it level takes nothing of its throat";
        let (left, needed) = (Value::Length(super::groove(s)), Value::Length(needed.rounded()));
        design.at_least(&GROOVE, left, needed, None, because);
        return;
    }
    let because = "a fillet needs a corner as high as its leg: let the sleeve stand out by that, or leave `proud` out where it can lie flush all round, in a chamfer";
    design.at_least(
        &FILLET,
        Value::Length(s.proud().rounded()),
        Value::Length((needed * std::f64::consts::SQRT_2).rounded()),
        Some(Value::Length(super::weld_leg(s).rounded())),
        because,
    );
}

fn drains(design: &mut Design, s: &Spec) {
    let hot = s.common.coating.as_ref().is_some_and(|c| c.hot_dip);
    let outdoors = s.common.environment == Environment::Harsh;
    if !hot && !outdoors {
        return;
    }
    let least =
        if hot { Length::mm(10.0).max(s.tube.pierced().min(s.tube.through.value) / 4.0) } else { Length::mm(5.0) };
    let drain = s.tube.drain.as_ref().map_or(Length::ZERO, |d| d.value);
    let because = if hot {
        "a closed tube bursts in the zinc bath: drain and vent at opposite corners of each chamber, agreed with the galvaniser"
    } else {
        "what condenses in a closed tube stays, rusts and freezes: a drain at the lowest place, open or with a plug that is taken out in autumn"
    };
    let verdict = match (drain >= least, hot) {
        (true, _) => Verdict::Ok,
        (false, true) => Verdict::Fail,
        (false, false) => Verdict::Caution,
    };
    let limit = Limit::AtLeast(Value::Length(least.rounded()));
    design.finding(&DRAINS, verdict, Some(Value::Length(drain)), limit, because);
}
