//! What each part of a stand carries, from the load that stands somewhere about the middle of its top, the push and the slope.

use crate::families::common::in_whole;
use crate::formulas::columns::Flat;
use crate::formulas::tabs::Tab;
use crate::formulas::tipping;
use crate::record::design::{Design, Value};
use crate::units::{Angle, Force, Length, Stress, Volume};

use super::form::Form;
use super::read::{self, Spec, floor_bears};
use super::sizes;

/// A push of so much of the load is taken where none is written. Source: common practice, no source.
const USUAL_PUSH: f64 = 0.1;
/// Two or three stands carry so much more than their even share where nothing is written. Source: common practice, no source.
const USUAL_UNEVEN: f64 = 1.2;

/// Forces and stresses.
pub struct Loads {
    /// On the most loaded stand.
    pub stand: Force,
    pub rail_stress: Option<Stress>,
    pub leg: Force,
    pub critical: Option<Force>,
    pub leg_stress: Option<Stress>,
    pub tab_shear: Option<Stress>,
    pub tab_bearing: Option<Stress>,
    /// Shear of the end plate under a slot.
    pub under_slot: Option<Stress>,
    pub top_stress: Option<Stress>,
    /// On the end of a rail by the push along.
    pub pull: Force,
    pub tips: Option<f64>,
    pub whole_tips: Option<f64>,
    pub pressure: Stress,
    pub bears: Stress,
}

/// What is written or taken of the work that the stand does.
struct Work {
    stand: Force,
    off: Length,
    push: f64,
    slope: Angle,
    arm: Length,
}

impl Loads {
    /// Works them out and records what a person wants to see.
    pub fn of(design: &mut Design, s: &Spec, f: &Form, volume: Volume) -> Self {
        let w = work(design, s, f);
        let material = &s.common.material;
        let (thin, e) = (s.thick.least.min(f.t), material.elastic.youngs_modulus);
        let own = (material.density * volume).weight();
        let (span, tips) = (f.length - f.t, w.push + w.slope.sin());
        // The load stands nearer to one end and to one rail.
        let by_end = (w.off / span + 0.5).min(1.0);
        let by_rail = (w.off / f.rails_apart + 0.5).min(1.0);
        let rail = Flat { thick: f.rail_depth, wide: thin };
        let on_rail = w.stand * by_rail;
        let rail_stress = rail.bending(on_rail / 4.0, span).ok();
        let tab = w.stand * (by_end * by_rail);
        design.computed(&sizes::TAB_LOAD, Value::Force(tab), "its end's and its rail's share of the load");
        if let Some(stress) = rail_stress {
            design.computed(&sizes::RAIL_STRESS, Value::Stress(stress), "6 F L/(4 t d²), the load over its middle");
        }
        if let Ok(sag) = rail.sag(on_rail, span, e) {
            design.computed_length(&sizes::RAIL_SAG, sag, "F L³/(48 E I)");
        }
        let end = w.stand * by_end + own / 2.0;
        let aside = (w.off / f.feet_apart() + 0.5).min(1.0);
        let tipped = w.stand * (by_end * tips * (f.end_height / f.feet_apart()));
        let foot = end * aside + tipped;
        let leg = foot / f.lean().cos();
        design.computed(&sizes::LEG_LOAD, Value::Force(leg), "its share, and what push and slope add");
        let (critical, leg_stress) = legs(design, s, f, leg, w.stand * (tips * by_end / 2.0));
        let tab_of = Tab { thick: thin, high: f.tab_high };
        let under = Tab { thick: thin, high: f.under_slot() * 2.0 };
        let between = f.rails_apart;
        let top = Flat { thick: thin, wide: between.min(f.length) }.bending(w.stand / 4.0, between).ok();
        if let Some(stress) = top {
            design.computed(
                &sizes::TOP_STRESS,
                Value::Stress(stress),
                "6 F a/(4 b t²), a strip as wide as the rails are apart",
            );
        }
        let middle = f.rail_foot() + f.rail_depth / 2.0;
        let pull = w.stand * (tips * by_rail / 2.0 * (middle / (f.rail_depth / 2.0)));
        design.computed(
            &sizes::JOINT_PULL,
            Value::Force(pull),
            "half of the push's moment over half of the rail's depth",
        );
        let (safe, whole) = tipping(design, s, f, &w);
        let (pressure, bears) = floor(design, s, f, foot);
        Self {
            stand: w.stand,
            rail_stress,
            leg,
            critical,
            leg_stress,
            tab_shear: tab_of.shear(tab).ok(),
            tab_bearing: tab_of.bearing(tab, thin).ok(),
            under_slot: under.shear(tab).ok(),
            top_stress: top,
            pull,
            tips: safe,
            whole_tips: whole,
            pressure,
            bears,
        }
    }
}

/// Load at which a leg buckles, and its stress where the push along bends it over its thickness.
fn legs(design: &mut Design, s: &Spec, f: &Form, leg: Force, across: Force) -> (Option<Force>, Option<Stress>) {
    let (material, thin) = (&s.common.material, s.thick.least.min(f.t));
    let e = material.elastic.youngs_modulus;
    let (bar, free) = (Flat { thick: thin, wide: f.leg }, f.rail_foot());
    let critical = material.yield_strength.and_then(|y| bar.buckles_at(free * 2.0, y, e).ok());
    if let Some(critical) = critical {
        design.computed(&sizes::CRITICAL, Value::Force(critical), "Euler or Johnson, twice the free leg");
    }
    // The push along the rails bends the legs over their thickness, four of them.
    let bent = bar.bending(across, free).ok();
    let leg_stress = critical.zip(bent).and_then(|(c, bent)| bar.pressed_and_bent(leg, c, bent).ok());
    if let Some(stress) = leg_stress {
        design.computed(&sizes::LEG_STRESS, Value::Stress(stress), "P/A + M/W/(1 - P/Pcr)");
    }
    (critical, leg_stress)
}

fn work(design: &mut Design, s: &Spec, f: &Form) -> Work {
    let load = design.given(&read::LOAD, &s.load, Value::Force);
    let stands = design.given_or(
        &read::SHARED_BY,
        s.shared_by.as_ref(),
        s.common.header.count,
        Value::Count,
        "as many as are made",
    );
    let usual = match stands {
        1 => (1.0, "one carries all"),
        2 | 3 => (USUAL_UNEVEN, "common practice: the load's middle is not where it is thought"),
        n => (f64::from(n) / 2.0, "a stiff frame on four and more rests on two across from each other"),
    };
    let uneven = design.given_or(&read::UNEVEN, s.uneven.as_ref(), usual.0, Value::Number, usual.1);
    let sixth = in_whole(f.top.min(f.length) / 6.0, s.common.header.unit);
    let off = design.length_or(&read::OFF_CENTRE, s.off_centre.as_ref(), sixth, "a sixth of the top's shorter side");
    let push = design.given_or(
        &read::PUSH,
        s.push.as_ref(),
        load * USUAL_PUSH,
        Value::Force,
        "a tenth of the load: common practice, no source",
    );
    let degree = Angle::degrees(1.0);
    let slope =
        design.given_or(&read::SLOPE, s.slope.as_ref(), degree, Value::Angle, "a workshop's floor: common practice");
    // Three and more hold each other upright through the frame: each tips by itself only under its own top.
    let over = match (&s.load_height, stands) {
        (Some(height), _) => design.given_length(&read::LOAD_HEIGHT, height),
        (None, 1 | 2) => design.length_or(&read::LOAD_HEIGHT, None, f.height, "as high over the top as the stand is"),
        (None, _) => Length::ZERO,
    };
    let ratio = push / load;
    let even = load * (uneven / f64::from(stands.max(1)));
    // Push and slope at the height of the load's centre lean it on the stands of one side; the more uneven they share, the fewer.
    let leans = s.load_height.as_ref().zip(s.apart.as_ref()).map_or(Force::ZERO, |(height, apart)| {
        let share = (uneven * 2.0 / f64::from(stands.max(1))).min(1.0);
        load * ((ratio + slope.sin()) * share * ((f.height + height.value) / apart.value))
    });
    let stand = even + leans;
    design.computed(&sizes::SHARE, Value::Force(stand), "load/stands x its share, and what push and slope lean on it");
    let arm = if stands > 2 { f.height } else { f.height + over };
    design.computed_length(&sizes::ARM, arm, "its height; of one or two stands to the centre of the load");
    Work { stand, off, push: ratio, slope, arm }
}

/// The least of both ways, and of all stands together.
fn tipping(design: &mut Design, s: &Spec, f: &Form, w: &Work) -> (Option<f64>, Option<f64>) {
    let edge = ((f.width.min(f.length - f.t)) / 2.0 - w.off).max(Length::ZERO);
    let round = |x: f64| (x * 1000.0).round() / 1000.0;
    if let Ok(angle) = tipping::angle(edge, w.arm) {
        design.computed(&sizes::TIPS_AT, Value::Angle(angle), "atan(edge/height)");
    }
    let safe = tipping::safety(edge, w.arm, w.slope, w.push).ok().map(round);
    let whole = s.load_height.as_ref().zip(s.apart.as_ref()).and_then(|(height, apart)| {
        design.given_length(&read::APART, apart);
        tipping::safety(apart.value / 2.0, f.height + height.value, w.slope, w.push).ok().map(round)
    });
    (safe, whole)
}

/// Pressure under a foot, and what the floor bears.
fn floor(design: &mut Design, s: &Spec, f: &Form, foot: Force) -> (Stress, Stress) {
    design.computed(&sizes::FOOT_LOAD, Value::Force(foot), "its share, and what push and slope add");
    let floor = s.floor.as_ref().map_or("concrete", |floor| floor.value);
    match &s.floor {
        Some(given) => design.given_text(&read::FLOOR, &given.clone().map(String::from)),
        None => design.assumed(&read::FLOOR.size(), Value::Text(floor.into()), "nothing is written"),
    }
    let area = match &s.sole {
        Some(sole) => {
            let side = design.given_length(&read::SOLE, sole);
            side * side
        }
        None => f.foot * s.thick.least.min(f.t),
    };
    let bears = floor_bears(floor);
    design.computed(&sizes::FLOOR_BEARS, Value::Stress(bears), "of that floor, from memory");
    (foot / area, bears)
}
