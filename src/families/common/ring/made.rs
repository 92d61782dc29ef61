//! A press fit as its two parts were made: the interference that they really have, and what it does.

use crate::formulas::conformity::{self, Zone};
use crate::record::design::{Check, Design, Dimension, Limit, Value, Verdict};
use crate::record::key::Size;
use crate::record::reading::Reading;
use crate::record::show::{self, Say};
use crate::source::Source;
use crate::units::{Length, LengthUnit, Temperature};

use super::fit::{other, press};
use super::press::{Pressing, Way};
use super::pressing::{USUAL_GAP, friction_range};
use super::read::Ring;
use super::sizes;

const INTERFERENCE: Check = Check {
    key: "interference_as_made",
    what: "interference of the two parts as measured",
    worst: Verdict::Fail,
    source: Source::Derived(
        "shaft less hole, both as measured, U of both in squares (JCGM 100:2008); thick cylinders after Lame",
    ),
};

/// What is known of a size: as measured with its expanded uncertainty, or the middle of its limits with half their width.
fn known(dimension: &Dimension, piece: u32) -> Option<(f64, f64, bool)> {
    let of = |r: &&&Reading| r.piece == piece;
    if let Some(r) = dimension.measured().iter().find(of) {
        return Some((r.value.number(), r.u.number(), true));
    }
    let l = dimension.limits.as_ref()?;
    let (lower, upper) = (l.lower.as_mm(), l.upper.as_mm());
    Some((f64::midpoint(lower, upper), (upper - lower) / 2.0, false))
}

/// Says of each piece how tight it really is.
pub fn findings(design: &mut Design, s: &Ring) {
    let (Some(p), own, partner) = (match (&s.pressed_in, &s.slid_on) {
        (Some(p), _) => (Some(p), &sizes::OUTSIDE_DIAMETER, &sizes::HOUSING_DIAMETER),
        (None, p) => (p.as_ref(), &sizes::BORE, &sizes::SHAFT_DIAMETER),
    }) else {
        return;
    };
    for piece in 1..=design.header.count {
        one(design, s, p, (own, partner), piece);
    }
}

fn one(design: &mut Design, s: &Ring, p: &Pressing, (own, partner): (&Size, &Size), piece: u32) -> Option<()> {
    let (own_at, own_u, own_read) = known(design.dimension(own)?, piece)?;
    let (partner_at, partner_u, partner_read) = known(design.dimension(partner)?, piece)?;
    if !own_read && !partner_read {
        return None;
    }
    let limit = |size: &Size| design.dimension(size).map(|d| d.value.number());
    let (least, most) = (limit(&sizes::INTERFERENCE_MIN)?, limit(&sizes::INTERFERENCE_MAX)?);
    let tight = if p.way == Way::In { own_at - partner_at } else { partner_at - own_at };
    // What was not measured lies anywhere in its limits; what was, within its uncertainty.
    let u = if own_read && partner_read { libm::hypot(own_u, partner_u) } else { own_u + partner_u };
    let zone = conformity::zone(tight, (least, most), u).ok()?;
    let say = Say(design.header.unit);
    let length = |mm: f64| say.length(Length::mm(mm));
    let metal = if p.way == Way::In {
        "grind it off the outside of the sleeve"
    } else {
        "take it out of the bore of the sleeve"
    };
    let (verdict, next) = match zone {
        Zone::Acceptance => (Verdict::Ok, None),
        Zone::Rejection if tight > most => {
            let over = length(tight - f64::midpoint(least, most));
            (
                Verdict::Caution,
                Some(format!("{over} too much to the middle of what was meant: {metal} before pressing")),
            )
        }
        Zone::Rejection => (
            Verdict::Fail,
            Some(format!(
                "{} less than the loosest pair that was meant: make the sleeve anew to the other part as it is",
                length(least - tight)
            )),
        ),
        Zone::Uncertainty if own_read && partner_read => (
            Verdict::Caution,
            Some(
                "nearer to the end of what was meant than the readings tell: measure both with a finer instrument"
                    .into(),
            ),
        ),
        Zone::Uncertainty => (Verdict::Ok, None),
    };
    let does = does(design, s, p, (tight, u), &say);
    let other_too = if own_read && partner_read { "" } else { "; the other part as drawn: measure it too" };
    let said = next.clone().map_or_else(String::new, |n| format!(": {n}"));
    let because = format!("{} ± {}{other_too}{does}{said}", length(tight), length(u));
    let what = if design.header.count > 1 {
        format!("{}, piece {piece}", INTERFERENCE.what)
    } else {
        INTERFERENCE.what.into()
    };
    let near = if most - tight < tight - least {
        Limit::AtMost(Value::Length(Length::mm(most)))
    } else {
        Limit::AtLeast(Value::Length(Length::mm(least)))
    };
    design.told(&INTERFERENCE, what, verdict, (Value::Length(Length::mm(tight).rounded()), near), because, next);
    Some(())
}

/// What such an interference does: pressure, force, heat, and where the bore comes to.
fn does(design: &Design, s: &Ring, p: &Pressing, (tight, u): (f64, f64), say: &Say) -> String {
    let press = press(s, p);
    let (low, high) = (Length::mm((tight - u).max(0.0)), Length::mm((tight + u).max(0.0)));
    let (Ok(loose), Ok(firm)) = (press.pressed(low), press.pressed(high)) else { return String::new() };
    let mut text = format!("; pressure {} to {}", stress(loose.pressure), stress(firm.pressure));
    if let Ok(force) = press.axial_force(firm.pressure, friction_range(p).1) {
        text += &format!(", pressed with up to {}", say.force(force));
    }
    let outer = if p.way == Way::In { other(s, p) } else { &s.common.material };
    let (gap, room) =
        (p.gap.as_ref().map_or(USUAL_GAP, |g| g.value), p.room.as_ref().map_or(Temperature::REFERENCE, |r| r.value));
    if let Ok(heat) = press.heat_hub(high, gap, room, outer.heat_limit())
        && !heat.beyond_limit
    {
        let at = show::value(&Value::Temperature(heat.temperature), design.header.unit);
        text += &format!(", or slipped on at {at}");
    }
    let (closes, way) = match p.way {
        Way::In => (firm.bore_closes, "bore closes"),
        Way::On => (firm.outside_grows, "outside grows"),
    };
    text + &format!("; the {way} by up to {}", say.length(closes))
}

fn stress(pressure: crate::units::Stress) -> String {
    show::value(&Value::Stress(pressure), LengthUnit::Mm)
}
