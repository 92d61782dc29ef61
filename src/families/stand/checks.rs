//! What is judged of a stand: that it goes together, carries, stays locked, and stays upright.

use crate::families::common;
use crate::formulas::tabs;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::show;
use crate::shape::{Contour, FlatHole, least_metal};
use crate::source::Source;
use crate::standards::processes;
use crate::units::{Force, Length, Stress};

use super::Made;
use super::form::{Form, Locked};
use super::loads::Loads;
use super::read::{Lock, Spec, cut_off};
use super::recorded::{USUAL_FRICTION, sheet};
use super::sizes;

/// Factors on the yield strength: below the first a stand fails, below the second it is a caution.
/// Source: ASME BTH-1, design categories A (2.0) and B (3.0), from memory.
const LEAST: f64 = 2.0;
const WANTED: f64 = 3.0;

const STRENGTH: Source = Source::Memory(
    "twice against yield is ASME BTH-1 design category A, three times its category B, for devices whose load people work beside",
);

const fn strong(key: &'static str, what: &'static str) -> Check {
    Check { key, what, worst: Verdict::Fail, source: STRENGTH }
}

const RAIL: Check = strong("stand_rail_bends", "bending stress of a rail, the load in its middle");
const TOP: Check = strong("stand_top_bends", "bending stress of the top plate between the rails");
const LEG: Check = strong("stand_leg_bends", "stress of a leg, pressed by the load and bent by the push along");
const TAB: Check = strong("stand_tab_shear", "shear stress at the root of a tab");
const BEARS: Check = strong("stand_tab_bears", "pressure of a tab on the end of its slot");
const UNDER: Check = strong("stand_under_slot", "shear stress of the end plate under a slot");
const PULLED: Check = strong("stand_tab_pulled", "stress of a tab beside and beyond its wedge, by the push along");
const BUCKLES: Check = Check {
    key: "stand_leg_buckles",
    what: "load of a leg, against that at which it buckles over its thickness",
    worst: Verdict::Fail,
    source: Source::Published(
        "Shigley, Mechanical Engineering Design: Euler, Johnson below; held by the rails, free to sway: twice the length",
    ),
};
const BOLT: Check = Check {
    key: "stand_bolt_pulled",
    what: "pull of a bolt by the push along, against half of what one carries",
    worst: Verdict::Fail,
    source: Source::Published("EN 1993-1-8 table 3.4 (tension)"),
};
const TIPS: Check = Check {
    key: "stand_tips",
    what: "what holds it upright over what tips it, push and slope together",
    worst: Verdict::Fail,
    source: Source::Derived("moments about the edge of the feet; the load off the middle, towards that edge"),
};
const WHOLE: Check = Check {
    key: "stand_whole_tips",
    what: "the same of all stands together under the load",
    worst: Verdict::Fail,
    source: Source::Derived("moments about the line of two stands, push and slope at the height of the load's centre"),
};
const FLOOR: Check = Check {
    key: "stand_floor",
    what: "pressure under a foot, against what the floor bears",
    worst: Verdict::Caution,
    source: Source::Memory(
        "EN 338 for timber across the grain, International Building Code table 1806.2 for sand, practice for the others",
    ),
};
const HOLDS: Check = Check {
    key: "stand_wedge_holds",
    what: "taper of the wedges, against the greatest that stays where it was driven",
    worst: Verdict::Fail,
    source: Source::Published(
        "textbooks of statics: a wedge holds itself up to the sum of the angles of friction of its faces",
    ),
};
const TRAVEL: Check = Check {
    key: "stand_wedge_reserve",
    what: "wedge left to drive, beyond what the limits of the thickness ask for",
    worst: Verdict::Caution,
    source: Source::CommonPractice,
};
const WEDGES_MEET: Check = Check {
    key: "stand_wedges_meet",
    what: "room between the wedges at one end, to drive them out again",
    worst: Verdict::Caution,
    source: Source::Derived("rails apart less a wedge"),
};
const GOES_IN: Check = Check {
    key: "stand_joint_goes_in",
    what: "least play of a plate in its slot",
    worst: Verdict::Fail,
    source: Source::Published("EN 10029 or EN 10051 for the plate, ISO 9013 class 1 for the slot"),
};
const SLACK: Check = Check {
    key: "stand_joint_slack",
    what: "greatest play of a plate in its slot",
    worst: Verdict::Caution,
    source: Source::CommonPractice,
};
const WEB: Check = Check {
    key: "stand_web",
    what: "least metal between two cut edges",
    worst: Verdict::Fail,
    source: Source::Published("public design guides of laser cutting services: at least the plate's thickness"),
};
const SHEET: Check = Check {
    key: "stand_fits_sheet",
    what: "largest plate, of the cutter's sheet less 10 mm (0.4 in) all round",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};
const UNEVEN: Check = Check {
    key: "stand_uneven",
    what: "stands share a load unevenly",
    worst: Verdict::Ok,
    source: Source::Derived("a stiff frame on more than three points: the floor decides which of them carry"),
};
const PEOPLE: Check = Check {
    key: "stand_people",
    what: "people under what stands on it",
    worst: Verdict::Ok,
    source: Source::CommonPractice,
};

/// All of them.
pub fn checks(design: &mut Design, s: &Spec, f: &Form, loads: &Loads, made: &[Made]) {
    common::checks(design, &s.common);
    common::printed_under_load(design, &[&s.common.material]);
    strength(design, s, loads);
    joint(design, s, f);
    locked(design, s, f, loads);
    upright(design, s, loads);
    cut(design, s, f, made);
    common::swells(design, &s.common, f.height.max(f.length));
    if s.stands() > 3 {
        let share = show::value(&Value::Force(loads.stand), design.header.unit);
        design.note(&UNEVEN, format!(
            "the most loaded is taken to carry {share}: put them on one level, pack the low ones with sheet until none can be turned by hand, and look again when the load stands"
        ));
    }
    design.note(&PEOPLE, "nobody gets under a load that rests on these stands alone: a second support that carries it by itself stands beside them (packing, cribs); what stands over people wants a look by a qualified person, and local codes and licensed practice rule");
    safety(design);
}

fn safety(design: &mut Design) {
    design.caution(&["stand"], "Level, firm floor; every wedge driven or bolt tight before the load comes down.", "The figures hold for the stated load at rest on a level, firm floor, free of oil and ice, with every wedge driven or every bolt tight. A load that is dropped, shaken or rolled on them wants more; local codes and licensed practice rule.");
    design.caution(&["stand"], "Lower slowly, hands away; no one under the load.", "Lower the load slowly onto the middle of the top, hands away from top and tabs; nobody under it. Work that pulls sideways with more than the stated push (a long lever, a come-along) is not for stands: tie the load back first.");
    design.caution(
        &["stand"],
        "Not on another stand, not on blocks; no ladder, no jack.",
        "Stands are not put on each other nor on loose blocks; they are no ladder and no jack.",
    );
}

/// A stress against half of the yield strength, and a third of it.
fn against(design: &mut Design, check: &Check, stress: Option<Stress>, yields: Stress, because: &str) {
    let Some(stress) = stress else { return };
    let at = |factor: f64| Value::Stress(yields / factor);
    design.at_most(check, Value::Stress(stress), at(LEAST), Some(at(WANTED)), because);
}

fn strength(design: &mut Design, s: &Spec, l: &Loads) {
    let Some(yields) = s.common.material.yield_strength else {
        let because = "cannot be judged: no yield strength is known of this material; give it in shop.toml";
        return design.finding(&RAIL, Verdict::Fail, None, None, because);
    };
    let shear = yields * crate::formulas::strength::SHEAR_SHARE;
    against(
        design,
        &RAIL,
        l.rail_stress,
        yields,
        "deeper rails, thicker plates, or a shorter stand; the top keeps the rails upright",
    );
    against(design, &TOP, l.top_stress, yields, "thicker plates, or rails closer together under a narrower top");
    against(
        design,
        &TAB,
        l.tab_shear,
        shear,
        "one tab takes the load of its end and its rail: deeper rails or thicker plates",
    );
    against(
        design,
        &BEARS,
        l.tab_bearing,
        yields,
        "a tab bears on the lower end of its slot, plate across plate: thicker plates",
    );
    against(design, &UNDER, l.under_slot, shear, "deeper rails leave more of the end plate under their slots");
    let because = "a leg is as thin as its plate and sways along the rails: thicker plates, broader legs, deeper rails, a lower stand";
    match l.critical {
        Some(critical) => {
            let at = |factor: f64| Value::Force(critical / factor);
            design.at_most(&BUCKLES, Value::Force(l.leg), at(LEAST), Some(at(WANTED)), because);
        }
        None => design.finding(&BUCKLES, Verdict::Fail, None, None, "cannot be judged: no such leg is known"),
    }
    match l.leg_stress {
        Some(_) => against(
            design,
            &LEG,
            l.leg_stress,
            yields,
            "the push along the rails bends the legs over their thickness: thicker plates, broader legs, deeper rails, or less push",
        ),
        None => design.finding(
            &LEG,
            Verdict::Fail,
            None,
            None,
            "the leg buckles before anything bends it: thicker plates, broader legs, deeper rails",
        ),
    }
    common::strength_of_plate(design, &s.common.material);
}

fn joint(design: &mut Design, s: &Spec, f: &Form) {
    let off = cut_off(f.slot_wide, f.t);
    let (least, most) = tabs::play((s.thick.least, s.thick.most), (f.slot_wide - off, f.slot_wide + off));
    let least = design.computed_length(&sizes::JOINT_LEAST, least, "narrowest slot less the thickest plate");
    let most = design.computed_length(&sizes::JOINT_MOST, most, "widest slot less the thinnest plate");
    design.at_least(
        &GOES_IN,
        Value::Length(least),
        Value::Length((-off).rounded()),
        Some(Value::Length(Length::ZERO)),
        "the thickest plate does not go into the narrowest slot: more clearance, or a file",
    );
    let slack = (f.t * SLACK_SHARE).rounded();
    let verdict = if most > slack { Verdict::Caution } else { Verdict::Ok };
    let because = "the thinnest plate leans in the widest slot, and the stand shakes before it is loaded: measure the plate at the cutter (measured_thickness), or have it cut from strip";
    design.finding(&SLACK, verdict, Some(Value::Length(most)), Limit::AtMost(Value::Length(slack)), because);
}

/// Play of more than that share of the thickness is felt. Source: common practice, no source.
const SLACK_SHARE: f64 = 0.2;

fn locked(design: &mut Design, s: &Spec, f: &Form, l: &Loads) {
    match (&f.locked, &s.lock) {
        (Locked::Wedge(wedge, hole), Lock::Wedges { friction, .. }) => {
            let friction = friction.as_ref().map_or(USUAL_FRICTION, |f| f.value);
            if let Ok(holds) = tabs::wedge_holds(friction, friction) {
                design.at_most(
                    &HOLDS,
                    Value::Angle(wedge.taper),
                    Value::Angle(holds),
                    Some(Value::Angle(holds / HOLDS_WELL)),
                    "a wedge that is too blunt comes out by itself when the stand shakes: a slighter taper, dry faces",
                );
            }
            if let Ok((_, out)) = tabs::wedge_drives(Force::newtons(1.0), wedge.taper, friction) {
                let share = (out.as_newtons() * 1e4).round() / 1e4;
                design.computed(&sizes::WEDGE_DRIVEN, Value::Number(share), "tan φ + tan(φ - a), least friction");
            }
            let wanted = f.t / 2.0;
            let verdict = if wedge.reserve < wanted { Verdict::Caution } else { Verdict::Ok };
            let because =
                "the wedge is at its end when the plates are at their limits: a blunter taper, or measure the plate";
            let (reserve, wanted) = (Value::Length(wedge.reserve.rounded()), Value::Length(wanted.rounded()));
            design.finding(&TRAVEL, verdict, Some(reserve), Limit::AtLeast(wanted), because);
            let room = (f.rails_apart - wedge.long).rounded();
            let wanted = (f.t * 2.0).rounded();
            let verdict = if room < wanted { Verdict::Caution } else { Verdict::Ok };
            let because = "the narrow ends of two wedges meet, and no drift gets at them: a wider top, a blunter taper, or measure the plate";
            let limit = Limit::AtLeast(Value::Length(wanted));
            design.finding(&WEDGES_MEET, verdict, Some(Value::Length(room)), limit, because);
            let thin = s.thick.least.min(f.t);
            let pulled = tabs::Tab { thick: thin, high: f.tab_high }.pulled(l.pull, hole.high, hole.nose);
            if let Some(yields) = s.common.material.yield_strength {
                against(
                    design,
                    &PULLED,
                    pulled.ok(),
                    yields,
                    "the push along levers the rails out of the end plates: deeper rails, thicker plates",
                );
            }
        }
        (Locked::Bolt(_), Lock::Bolts { thread, steel, .. }) => {
            let carries = steel.class.tension(thread.stress_area());
            design.at_most(
                &BOLT,
                Value::Force(l.pull),
                Value::Force(carries / LEAST),
                None,
                "the push along levers the rails out of the end plates: deeper rails, larger bolts",
            );
        }
        _ => {}
    }
}

/// By how much the taper is to be slighter than the one that just holds. Source: common practice, no source.
const HOLDS_WELL: f64 = 1.5;

fn upright(design: &mut Design, s: &Spec, l: &Loads) {
    let wanted = Some(Value::Number(1.5));
    let safe = l.tips.unwrap_or(0.0);
    let because = if s.stands() > 2 {
        "wider feet, a longer or a lower stand, the load nearer to the middle, less push"
    } else {
        "one stand, or two in a row, hold the load's centre over their own feet: wider feet, a longer or a lower stand, a third stand"
    };
    design.at_least(&TIPS, Value::Number(safe), Value::Number(1.0), wanted.clone(), because);
    if let Some(whole) = l.whole_tips {
        let because = "the stands farther apart, a lower stand, less push, or the load tied back";
        design.at_least(&WHOLE, Value::Number(whole), Value::Number(1.0), wanted, because);
    }
    let verdict = if l.pressure > l.bears { Verdict::Caution } else { Verdict::Ok };
    let because = "a foot sinks in and the stand leans: a sole of steel plate or hardwood under each foot (sole), larger on softer ground";
    design.finding(&FLOOR, verdict, Some(Value::Stress(l.pressure)), Limit::AtMost(Value::Stress(l.bears)), because);
}

fn cut(design: &mut Design, s: &Spec, f: &Form, made: &[Made]) {
    // Of the finished plate what is cut: a hole that is drilled leaves its web cold.
    let is_cut = |c: &Contour| c.as_circle().is_none_or(|c| processes::can_be_cut(c.diameter() - s.kerf(), f.t));
    let holes = |m: &Made| -> Vec<Contour> {
        m.flat.holes().filter_map(|h: &FlatHole| h.widest().ok()).filter(is_cut).collect()
    };
    let web = made.iter().filter_map(|m| least_metal(m.flat.outer(), &holes(m))).reduce(Length::min);
    if let Some(web) = web.filter(|_| !s.common.material.printed) {
        design.at_least(
            &WEB,
            Value::Length(web.rounded()),
            Value::Length(processes::burnt_web(f.t).rounded()),
            Some(Value::Length(processes::least_web(f.t))),
            "a narrow web warps in cutting and tears under load",
        );
    }
    let margin = crate::shop::by_unit(s.common.header.unit, 10.0, 0.4) * 2.0;
    let (long, wide) = sheet(s);
    let of = |m: &Made| {
        let e = m.flat.extents();
        let (a, b) = (e.width().max(e.height()), e.width().min(e.height()));
        let left = |side: Length| (side - margin).max(Length::um(1.0));
        (a / left(long)).max(b / left(wide))
    };
    let taken = made.iter().map(of).fold(0.0, f64::max);
    let shown = Value::Share((taken.min(99.0) * 1000.0).ceil() / 1000.0);
    let because = "a plate that is larger than the sheet is not cut in one piece: a smaller stand, or another cutter";
    design.at_most(&SHEET, shown, Value::Share(1.0), None, because);
}
