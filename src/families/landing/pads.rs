//! Pads and level: whether the hole of a clear seat is clear at the height of its pad, whether pads bear, and how level
//! the frame lies.

use crate::families::common::packed;
use crate::families::cup::seat::settling;
use crate::formulas::frame::Landing;
use crate::formulas::frame::rest::Rest;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::show::Say;
use crate::source::Source;
use crate::units::{Angle, Length};

use super::degrees;
use super::heights::{Heights, on_pad};
use super::read::{self, SeatSpec, Spec};
use super::results::Results;
use super::seated::SEATED_WITHIN;
use super::shims::{self, Shims, UNDER, USUAL_LEVEL};

const CLEAR_HOLE: Check = Check {
    key: "clear_hole",
    what: "room that the hole of a clear seat leaves its cone at the height of its pad",
    worst: Verdict::Fail,
    source: Source::Derived("half of hole less cone at the height at which the pad holds the plate"),
};
const LAND: Check = Check {
    key: "pad_land",
    what: "plate left for the pad beside a clear hole",
    worst: Verdict::Fail,
    source: Source::Derived("half of the plate's lesser extent, less hole and clearance; 10 mm is common practice"),
};
const NOSE: Check = Check {
    key: "clear_nose",
    what: "nose of the cone over the entry face of its clear hole",
    worst: Verdict::Caution,
    source: Source::Derived("height of the cone less the height at which the pad holds the plate"),
};
const BEARS: Check = Check {
    key: "all_bear",
    what: "greatest gap under a seat that should carry",
    worst: Verdict::Caution,
    source: Source::Derived("lowest pose of the centre of mass over all seats"),
};
const SETTLES: Check = Check {
    key: "settling_uneven",
    what: "difference in settling of the seats under the first full load",
    worst: Verdict::Caution,
    source: Source::Derived(
        "bedding in of every cup under its seat_load, as its own sheet works it; pads do not settle",
    ),
};
const LEVEL: Check = Check {
    key: "level",
    what: "tilt of the frame at rest, roll and pitch together",
    worst: Verdict::Fail,
    source: Source::Derived("lowest pose of the centre of mass over seats of the stated heights"),
};

/// Width that a pad needs to bear on beside a hole. Source: common practice, no source.
pub const BEARING: Length = Length::mm(10.0);

/// All checks of pads and level.
pub fn judge(design: &mut Design, s: &Spec, heights: &Heights, landing: &Landing, r: &Results) {
    for seat in s.seats.iter().filter(|seat| seat.kind == Some("clear")) {
        clear_hole(design, heights, seat);
        nose(design, heights, seat);
        land(design, heights, seat);
    }
    settles(design, s);
    if let (Ok(rest), Some(shims)) = (&r.rest, &r.shims) {
        bears(design, landing, rest, shims);
        shimmed_bolts(design, s, shims);
        level(design, s, landing, rest, shims);
    }
}

/// A hole that is said to be clear must be so at the height of its pad.
fn clear_hole(design: &mut Design, heights: &Heights, seat: &SeatSpec) {
    let say = design.say();
    let (Some(room), Some(written)) = (heights.room(seat), seat.clearance) else { return };
    let (room, written) = (room.rounded(), written.rounded());
    let hole = say.length(heights.cone_there(seat) + written * 2.0);
    let because = if room <= Length::ZERO {
        format!(
            "{} is written clear, but its cone seats in the hole of its cup before the pad bears: it is a round cup; bore it {hole} or more",
            seat.name
        )
    } else if room < written {
        format!(
            "{} is written clear by {}, its hole leaves less: bore it {hole} or more",
            seat.name,
            say.length(written)
        )
    } else {
        format!("{} has the room that is written", seat.name)
    };
    design.at_least(&CLEAR_HOLE, Value::Length(room), Value::Length(written), None, because);
}

/// A cone that ends under the plate guides nothing, and the figures of its hole are those of a flank that is not there.
fn nose(design: &mut Design, heights: &Heights, seat: &SeatSpec) {
    let over = (seat.cone.height - heights.entry(seat)).rounded();
    let (verdict, because) = if over > Length::ZERO {
        (Verdict::Ok, format!("the cone of {} reaches into its hole", seat.name))
    } else {
        let because = format!(
            "the cone of {} ends under the plate when it lies on its pad: it guides nothing, and what is said of room and capture there does not hold; a taller cone, or kind = \"pad\", and none is set there",
            seat.name
        );
        (Verdict::Caution, because)
    };
    let what = format!("{}, {}", NOSE.what, seat.name);
    let limit = Limit::AtLeast(Value::Length(Length::ZERO));
    design.told(&NOSE, what, verdict, (Value::Length(over), limit), because, None);
}

/// Something of the plate must be left beside the hole for the pad to bear on, wherever the frame lies within its room.
fn land(design: &mut Design, heights: &Heights, seat: &SeatSpec) {
    let (Some(cup), Some(clearance)) = (&seat.cup, seat.clearance) else { return };
    let (along, across) = cup.plate.extent();
    let left = along.min(across) / 2.0 - heights.hole(seat) / 2.0 - clearance;
    design.at_least(
        &LAND,
        Value::Length(left.rounded()),
        Value::Length(Length::ZERO),
        Some(Value::Length(BEARING)),
        format!("beside the hole of {}, with the frame at the end of its room", seat.name),
    );
}

/// A seat that should carry and hangs free leaves the frame on the others.
fn bears(design: &mut Design, landing: &Landing, rest: &Rest, shims: &Shims) {
    let say = design.say();
    let gaps = landing.seats().iter().zip(&rest.seats).filter(|(seat, _)| seat.carries());
    let free: Vec<(&str, Length)> = gaps.map(|(seat, at)| (seat.name.as_str(), at.gap.rounded())).collect();
    let greatest = free.iter().map(|f| f.1).fold(Length::ZERO, Length::max);
    let hanging: Vec<String> = free
        .iter()
        .filter(|f| f.1 > SEATED_WITHIN)
        .map(|(name, gap)| format!("{name} by {}", say.length(*gap)))
        .collect();
    let (verdict, because) = if hanging.is_empty() {
        (Verdict::Ok, "every seat that should carry bears".to_string())
    } else {
        let free = hanging.join(" and ");
        let shims = shims.words(say, landing).join(", ");
        // Seats of one height with the frame crooked: it lies up on rims that do not go down.
        let cure = if shims.is_empty() {
            "no shim cures that, it lies up on rims that do not go down over their cones: set those right first".into()
        } else {
            format!("shim {shims}, or it rocks")
        };
        (Verdict::Caution, format!("the frame stands on the others and hangs free at {free}: {cure}"))
    };
    let cure = shims.cure(say, landing).filter(|_| verdict > Verdict::Ok);
    let value = (Value::Length(greatest), Limit::AtMost(Value::Length(SEATED_WITHIN)));
    design.told(&BEARS, BEARS.what.into(), verdict, value, because, cure);
}

/// Whether nothing can be said of how far a cup settles that carries a stated load.
fn settles_unknown(seat: &SeatSpec) -> bool {
    let loaded = |cup: &&crate::families::cup::read::Spec| cup.seat_load.is_some() && !on_pad(seat);
    seat.cup.as_ref().filter(loaded).is_some_and(|cup| settling(cup, &seat.cone).is_none())
}

/// How unevenly the cups settle under the first full load: the heights above are those of the sheets, before it.
fn settles(design: &mut Design, s: &Spec) {
    let say = design.say();
    let all: Vec<(&str, (Length, Length))> = s
        .seats
        .iter()
        .filter_map(|seat| match &seat.cup {
            _ if on_pad(seat) => Some((seat.name.as_str(), (Length::ZERO, Length::ZERO))),
            Some(cup) => Some((seat.name.as_str(), settling(cup, &seat.cone)?)),
            None => None,
        })
        .collect();
    let unknown: Vec<&str> =
        s.seats.iter().filter(|seat| settles_unknown(seat)).map(|seat| seat.name.as_str()).collect();
    if !unknown.is_empty() {
        let because = format!(
            "how far {} settles cannot be told, so no height of the set stands until it can: its own sheet says what is in the way",
            unknown.join(", ")
        );
        design.finding(&SETTLES, Verdict::Caution, None, None, because);
        return;
    }
    let span = |of: fn(&(Length, Length)) -> Length| {
        let each = || all.iter().map(|(_, settled)| of(settled));
        each().fold(Length::ZERO, Length::max) - each().reduce(Length::min).unwrap_or_default()
    };
    if all.len() < 2 {
        return;
    }
    let uneven = span(|s| s.0).max(span(|s| s.1)).rounded();
    let one = |(name, (least, most)): &(&str, (Length, Length))| match *most == Length::ZERO {
        true => format!("{name} on its pad not at all"),
        false => format!("{name} by {} to {}", say.length(*least), say.length(*most)),
    };
    let each: Vec<String> = all.iter().map(one).collect();
    let verdict = if uneven > SEATED_WITHIN { Verdict::Caution } else { Verdict::Ok };
    let because = format!(
        "{}: set it down once with its full weight, then measure the heights and shim; rims that settle alike, rounded or of harder plate, spare that",
        each.join(", ")
    );
    let limit = Limit::AtMost(Value::Length(SEATED_WITHIN));
    design.finding(&SETTLES, verdict, Some(Value::Length(uneven)), limit, because);
}

/// A shim under a cone that is bolted on bears on its bolt: its own file judges that.
fn shimmed_bolts(design: &mut Design, s: &Spec, shims: &Shims) {
    let bolted = |seat: &SeatSpec| !seat.cone.weld_on && seat.cone.bolt.as_ref().is_some_and(|b| b.packing.is_none());
    let under = s.seats.iter().zip(&shims.amounts).filter(|(seat, by)| **by > SEATED_WITHIN && bolted(seat));
    let names: Vec<&str> = under.map(|(seat, _)| seat.name.as_str()).collect();
    if !names.is_empty() {
        packed::shimmed(design, &names.join(", "));
    }
}

/// What levels it, and what is left then.
fn levelled(say: Say, landing: &Landing, shims: &Shims, limit: Angle) -> String {
    let made = "; heights of the crossbars, cups and pads make it";
    let amounts = shims.words(say, landing).join(", ");
    match shims.tilt {
        Some(left) if left <= limit && !amounts.is_empty() => {
            format!("{made}: shim {amounts} {UNDER}, and {} are left", degrees(left))
        }
        _ if amounts.is_empty() => {
            "; it rides up on its flanks: shims do not level it, the places of the cups do".into()
        }
        _ => format!("{made}: shim {amounts} {UNDER}; what is left comes of flanks that it rides up on"),
    }
}

/// A frame can seat fully and still lie crooked.
fn level(design: &mut Design, s: &Spec, landing: &Landing, rest: &Rest, shims: &Shims) {
    let say = design.say();
    let tilt = shims::tilt(rest).as_degrees();
    let limit = design.given_or(&read::LEVEL, s.level.as_ref(), USUAL_LEVEL, Value::Angle, "common practice");
    let slope = Angle::degrees(tilt).tan();
    let target = s.target.map_or(s.centre.1, |t| t.1);
    let because = format!(
        "{}; it carries the target {} aside{}",
        say.slope(Angle::degrees(tilt)),
        say.length(target * slope),
        if tilt > limit.as_degrees() { levelled(say, landing, shims, limit) } else { String::new() }
    );
    // A hundredth of the limit is far below what a level shows.
    let tilt = Angle::degrees((tilt * 1000.0).round() / 1000.0);
    let verdict = match (tilt > limit, &s.level) {
        (true, Some(_)) => Verdict::Fail,
        (true, None) => Verdict::Caution,
        _ => Verdict::Ok,
    };
    let cure = shims.cure(say, landing).filter(|_| verdict > Verdict::Ok);
    let value = (Value::Angle(tilt), Limit::AtMost(Value::Angle(limit)));
    design.told(&LEVEL, LEVEL.what.into(), verdict, value, because, cure);
}
