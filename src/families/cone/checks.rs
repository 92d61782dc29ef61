//! What is checked on a cone by itself. How it sits in its cup is checked where the cup is worked.

use crate::families::common;
use crate::families::common::overhang::{self, Carried};
use crate::formulas::seating;
use crate::formulas::turning::Setover;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::show;
use crate::shop::Shop;
use crate::source::Source;
use crate::standards::iso1119;
use crate::units::{Angle, Length};

use super::lathe::{Lathe, Taper};
use super::read::{self, Bolt, BoltKind, Recess, Spec};
use super::sizes;

const STICKS: Check = Check {
    key: "self_holding",
    what: "half-angle against sticking in a seat",
    worst: Verdict::Fail,
    source: Source::Derived(
        "a cone holds itself when its half-angle is below the friction angle, atan of the coefficient of friction",
    ),
};
const HANGS: Check = Check {
    key: "slides_home",
    what: "half-angle against hanging on one flank",
    worst: Verdict::Fail,
    source: Source::Derived("a plate slides down one flank when half-angle plus friction angle stay below 90 degrees"),
};
const NOSE: Check =
    Check { key: "nose_width", what: "nose against the base", worst: Verdict::Caution, source: Source::CommonPractice };
const WALL: Check = Check {
    key: "wall_at_bolt",
    what: "wall around the bolt at the nose",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};
const THREAD: Check = Check {
    key: "thread_engagement",
    what: "full thread in the cone",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};
const HEAD: Check = Check {
    key: "screw_head",
    what: "sizes of the screw's head",
    worst: Verdict::Ok,
    source: Source::Memory("ISO 4762, DIN 974-1 and ISO 10642 head sizes"),
};
const PREFERRED: Check = Check {
    key: "preferred_cone",
    what: "nearest preferred cone",
    worst: Verdict::Ok,
    source: Source::Published(iso1119::TABLE_1),
};
const COMPOUND: Check = Check {
    key: "compound_travel",
    what: "slant against the travel of the compound slide",
    worst: Verdict::Caution,
    source: Source::CommonPractice,
};
const WAY: Check = Check {
    key: "tailstock_setover",
    what: "way to turn the taper",
    worst: Verdict::Ok,
    source: Source::CommonPractice,
};
const ROUTE: Check = Check {
    key: "lathe_route",
    what: "whether this lathe can turn it",
    worst: Verdict::Caution,
    source: Source::Published(
        "lathe owner's manual, safety page: work longer than 3 diameters out of the chuck is to be supported",
    ),
};
const ARBOR: Check = Check {
    key: "stub_arbor",
    what: "screw of the stub arbor against the base",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};

const OVER_HOLE: Check = Check {
    key: "over_tapped_hole",
    what: "metal left over the point of the tap drill",
    worst: Verdict::Caution,
    source: Source::CommonPractice,
};

/// Friction of a greased seat, of a dry one, and of clean dry steel; printed values for steel run from 0.12 to 0.80.
pub const FRICTIONS: [f64; 3] = [0.12, 0.30, 0.80];

/// All checks of a cone.
pub fn checks(design: &mut Design, s: &Spec, shop: &Shop, lathe: &Lathe) {
    flank(design, s);
    nose(design, s);
    if let Some(bolt) = &s.bolt {
        common::standard_thread(design, &bolt.size);
        over_tapped_hole(design, s, bolt);
        stub_arbor(design, s, bolt, matches!(lathe.taper, Taper::Printed | Taper::Elsewhere(_)));
    }
    if lathe.taper != Taper::Printed {
        lathe_checks(design, s, shop, lathe);
    }
    common::checks(design, &s.common);
    common::swells(design, &s.common, s.base.max(s.foot_width()).max(s.height));
    common::locator(design, None);
}

/// A nose that the drill all but reaches bulges or breaks out: a quarter of the drill stays, also where the cone comes out short.
fn over_tapped_hole(design: &mut Design, s: &Spec, bolt: &Bolt) {
    let BoltKind::FromBelow { tap_drill, depth } = bolt.kind else { return };
    let overall = s.height + s.foot_height();
    let least = design.dimension(sizes::overall(s)).and_then(|d| d.limits.as_ref()).map_or(overall, |l| l.lower);
    let left = least - read::drilled_depth(depth, &bolt.size) - read::drill_point(tap_drill);
    let wanted = tap_drill / 4.0;
    let verdict = if left < wanted { Verdict::Caution } else { Verdict::Ok };
    let because = "the cone at its shortest, the drill with its point: less depth or a smaller thread";
    let limit = Limit::AtLeast(Value::Length(wanted.rounded()));
    design.finding(&OVER_HOLE, verdict, Some(Value::Length(left.rounded())), limit, because);
}

/// A half-angle that comes free whatever the surfaces, short of clean dry steel.
/// Source: common practice, no source.
const COMES_FREE: Angle = Angle::degrees(22.5);

/// The one rule for sticking, told the same on cone, cup and landing: at or below the friction angle of a greased seat it
/// holds itself, below 22.5 degrees it may when dry.
pub fn sticking(design: &mut Design, check: &Check, half_angle: Angle) {
    let [greased, dry, clean] = FRICTIONS.map(seating::friction_angle);
    let shown = |a: Angle| show::trimmed(a.as_degrees(), 1);
    let because = format!(
        "going up it sticks at or below {}° greased (friction {}), {}° dry ({}), {}° on clean dry steel ({}): keep the flanks greased; a corner that holds on jumps when it lets go",
        shown(greased),
        FRICTIONS[0],
        shown(dry),
        FRICTIONS[1],
        shown(clean),
        FRICTIONS[2]
    );
    design.at_least(check, Value::Angle(half_angle), Value::Angle(greased), Some(Value::Angle(COMES_FREE)), because);
}

fn flank(design: &mut Design, s: &Spec) {
    sticking(design, &STICKS, s.half_angle);
    preferred(design, s);
    let dry = seating::greatest_sliding_half_angle(0.30);
    design.at_most(&HANGS, Value::Angle(s.half_angle), Value::Angle(dry), Some(Value::Angle(seating::greatest_sliding_half_angle(0.80))),
        "a plate that touches one flank must slide down it: at friction 0.30 below 73.3 degrees, on clean dry steel (0.80) below 51.3 degrees");
}

/// A half-angle near a preferred one and not it: says so.
fn preferred(design: &mut Design, s: &Spec) {
    let Some((cone, off)) = iso1119::neighbour(s.half_angle).filter(|(_, off)| !iso1119::same(*off)) else { return };
    let shown = |a: Angle| show::value(&Value::Angle(a), s.common.header.unit);
    design.note(
        &PREFERRED,
        format!(
            "the half-angle is {} off that of the preferred cone {}, {}: gauges and countersinks are sold for that one",
            shown(off.abs()),
            cone.name,
            shown(cone.half_angle())
        ),
    );
}

fn nose(design: &mut Design, s: &Spec) {
    let verdict = if s.tip < s.base * 0.2 { Verdict::Caution } else { Verdict::Ok };
    design.finding(
        &NOSE,
        verdict,
        Some(Value::Length(s.tip)),
        Limit::AtLeast(Value::Length(s.base * 0.2)),
        "a nose narrower than a fifth of the base is a spike: it bends, and it digs into a plate that lands on it",
    );
    let Some(bolt) = &s.bolt else { return };
    let has_recess = |kind: &BoltKind| matches!(kind, BoltKind::Through { recess, .. } if *recess != Recess::None);
    if bolt.unconfirmed && has_recess(&bolt.kind) {
        design.note(&HEAD, "measure the screw in your hand before the recess is cut");
    }
    match bolt.kind {
        BoltKind::Through { hole, recess } => {
            let mouth = match recess {
                Recess::Counterbore { diameter, .. } | Recess::Countersink { diameter, .. } => diameter,
                Recess::None => hole,
            };
            let flat = seating::nose_flat(s.tip, s.half_angle, s.nose_radius());
            let wanted = (hole * 0.15).max(Length::mm(1.5));
            design.at_least(
                &WALL,
                Value::Length((flat - mouth) / 2.0),
                Value::Length(Length::mm(0.8)),
                Some(Value::Length(wanted)),
                format!(
                    "a thin lip around the head tears when the nose is struck; keep {}",
                    design.say().length(wanted)
                ),
            );
        }
        BoltKind::FromBelow { depth, .. } => {
            design.at_least(
                &THREAD,
                Value::Length(depth),
                Value::Length(bolt.size.major * 0.8),
                Some(Value::Length(bolt.size.major)),
                "one thread diameter of engagement in steel carries the bolt; softer metal wants 1.5 to 2",
            );
            let (major, beside) = (bolt.size.major, "its thread");
            common::slip(
                design,
                Verdict::Caution,
                "the depth of full thread",
                depth,
                (major * 0.8, major * 4.0),
                beside,
            );
        }
    }
}

fn lathe_checks(design: &mut Design, s: &Spec, shop: &Shop, lathe: &Lathe) {
    let diameter = lathe.stock_diameter.unwrap_or(s.base);
    let carried = if lathe.centre.is_some() { Carried::Centre } else { Carried::Elsewhere };
    overhang::judge(design, lathe.hold_out, diameter, carried);
    let slant = Some(Value::Length(lathe.slant.rounded()));
    let travel = Value::Length(shop.compound_travel);
    if !matches!(lathe.taper, Taper::Elsewhere(_)) {
        design.finding(&ROUTE, Verdict::Ok, None, None, "the steps are for the lathe of the shop");
    }
    match &lathe.taper {
        Taper::Attachment => design.finding(
            &COMPOUND,
            Verdict::Ok,
            slant,
            Limit::Against(travel),
            "longer than the compound slide travels: the taper attachment turns it",
        ),
        Taper::TwoSettings => design.finding(
            &COMPOUND,
            Verdict::Caution,
            slant,
            Limit::AtMost(travel),
            "a flank longer than the slide's travel must be cut in two settings, and the joint shows",
        ),
        Taper::Elsewhere(why) => design.finding(
            &ROUTE,
            Verdict::Caution,
            None,
            None,
            format!("not on this lathe: {why}; give the STEP file and the drawing to a shop that can"),
        ),
        _ => design.finding(
            &COMPOUND,
            Verdict::Ok,
            slant,
            Limit::AtMost(travel),
            "the slide cuts the whole flank at one setting",
        ),
    }
    if !matches!(lathe.taper, Taper::Elsewhere(_)) {
        lathe.setover.iter().for_each(|setover| way(design, setover));
        common::at_the_lathe(design);
    }
}

/// A cone tapped from below is turned on a screw of its own thread.
fn stub_arbor(design: &mut Design, s: &Spec, bolt: &Bolt, made_elsewhere: bool) {
    if !matches!(bolt.kind, BoltKind::FromBelow { .. }) || made_elsewhere {
        return;
    }
    let least = (s.base / 8.0).rounded();
    let thin = bolt.size.major < least;
    let (verdict, because) = if thin {
        (
            Verdict::Caution,
            "it is turned on a screw of its own thread; one thinner than an eighth of the base bends: take half the depth of cut",
        )
    } else {
        (Verdict::Ok, "it is turned on a screw of its own thread, its base on the arbor's shoulder")
    };
    design.finding(
        &ARBOR,
        verdict,
        Some(Value::Length(bolt.size.major)),
        Limit::AtLeast(Value::Length(least)),
        because,
    );
}

/// Between centres a taper must be slender; the compound slide turns any.
fn way(design: &mut Design, setover: &Setover) {
    let unit = design.header.unit;
    let [asked, borne] = [setover.by, setover.most].map(|l| show::length(l.rounded(), unit));
    let way = if setover.is_borne() { "compound slide, or between centres" } else { "compound slide" };
    design.finding(
        &WAY,
        Verdict::Ok,
        Some(Value::Text(way.into())),
        None,
        format!("between centres it asks for a tailstock set-over of {asked}; ordinary centres bear {borne}, a fiftieth of their distance"),
    );
}
