//! What the answers rest on beside the seats: every value that may be left out is recorded, as written or as assumed.

use crate::formulas::uncertainty::Instrument;
use crate::record::design::{Design, Value};
use crate::record::key::Key;
use crate::units::{Angle, Force, Length};

use super::heights::{Heights, on_pad};
use super::read::{self, Network, SeatSpec, Spec, Stated};
use super::results::{CAPTURE_MARGIN, YIELDS};
use super::sizes;
use crate::families::cup::read::Hole;

const STILL: &str = "a knock by load or hoist, common practice: wind and earthquake go by the rules of the place";
const ROAD: &str = "49 CFR 393.102(a)";

/// Records it all.
pub fn record(design: &mut Design, s: &Spec, heights: &Heights) {
    let say = design.say();
    let words = |design: &mut Design, key: &'static Key, given: Option<&str>, usual: &str, why| match given {
        Some(word) => design.computed(&key.size(), Value::Text(word.into()), "as written"),
        None => design.assumed(&key.size(), Value::Text(usual.into()), why),
    };
    words(design, &read::BASE, s.base.as_ref().map(|b| b.value), s.base().word(), "nothing is written");
    let carrier = s.trailer_material.as_ref().map(|t| t.value.as_str());
    words(design, &read::TRAILER_MATERIAL, carrier, &s.trailer.name, "nothing is written");
    let target =
        s.target.map(|(at, height)| format!("{}, {}, {}", say.length(at.x), say.length(at.y), say.length(height)));
    words(design, &read::TARGET, target.as_deref(), "the centre of mass", "nothing is written");
    length(design, &read::HOIST_SWING, &s.hoist_swing, "common practice");
    design.assumed(&sizes::CAPTURE_MARGIN, Value::Length(CAPTURE_MARGIN), "common practice");
    let why = "common practice; a seat that stands off by less carries while the frame slides home";
    design.assumed(&sizes::YIELDS, Value::Length(YIELDS), why);
    let none = "nothing is written: not tied down";
    design.given_or(&read::TIE_DOWN, s.tie_down.as_ref(), Force::ZERO, Value::Force, none);
    demands(design, s);
    surveys(design, s);
    seats(design, s, heights);
}

/// A length as written, or else the usual one for the stated reason.
fn length(design: &mut Design, key: &'static Key, stated: &Stated<Length>, why: &'static str) {
    design.length_or(key, stated.given.as_ref(), stated.usual, why);
}

/// What the load must stand.
fn demands(design: &mut Design, s: &Spec) {
    let (why, part) =
        if s.base().drives() { (ROAD, "common practice") } else { (STILL, "it stands still: the whole weight") };
    let d = &s.demands;
    for (key, demand) in [(&read::FORWARD, &d.forward), (&read::REARWARD, &d.rearward), (&read::SIDEWAYS, &d.sideways)]
    {
        design.given_or(key, demand.given.as_ref(), demand.usual, Value::Acceleration, why);
    }
    design.given_or(&read::BUMP, d.bump.given.as_ref(), d.bump.usual, Value::Number, part);
}

/// How well the tape says where they are, and how the cups were placed.
fn surveys(design: &mut Design, s: &Spec) {
    let tape = s.common.gauge(Instrument::Tape);
    let sigma = tape.length() / 2.0;
    let of = |network: &Option<Network>, design: &mut Design, what: &str| {
        let Some(network) = network else { return };
        let size = sizes::survey_uncertainty(what);
        match &network.uncertainty {
            Some(given) => design.computed(&size, Value::Length(given.value), "as written"),
            None if tape.assumed => design.assumed(&size, Value::Length(sigma), "one sigma of a tape, common practice"),
            None => design.computed(&size, Value::Length(sigma), "half of U of the shop's own tape"),
        }
        if placed_by_plan(s, network) {
            return;
        }
        let size = sizes::survey_third_point(what);
        match &network.third {
            Some(given) => design.computed(&size, Value::Text(given.value.into()), "as written"),
            None => design.assumed(&size, Value::Text("left".into()), "same lengths fit both; nothing is written"),
        }
    };
    if let Some(tape) = s.tape.as_ref().filter(|_| s.cones.is_some() || s.cups.is_some()) {
        let why = "the shop's own: what its tape reads of a known length";
        design.computed(&sizes::tape_correction(), Value::Length(tape.on_a_metre().rounded()), why);
    }
    of(&s.cones, design, "cones");
    of(&s.cups, design, "cups");
    let Some(fit_up) = &s.fit_up else { return };
    if fit_up.placed.is_none() {
        let key = &read::PLACED;
        design.assumed(&key.size(), Value::Text("surveyed apart".into()), "nothing is written");
    }
    if fit_up.transferred() {
        length(design, &read::TRANSFER_ERROR, &fit_up.transfer_error, "one sigma, common practice");
    }
    length(design, &read::WELD_PULL, &fit_up.weld_pull, "one sigma, common practice");
}

/// Whether the seats themselves say on which side the third point lies.
fn placed_by_plan(s: &Spec, network: &Network) -> bool {
    let mut points: Vec<&str> = Vec::new();
    for name in network.readings.iter().flat_map(|r| [r.from.as_str(), r.to.as_str()]) {
        if !points.contains(&name) {
            points.push(name);
        }
    }
    let known = |name: &&str| s.seats.iter().any(|seat| seat.name == **name && seat.at.is_some());
    points.len() >= 3 && points.iter().take(3).all(known)
}

/// Heights, pads and slot directions that no row of a seat writes.
fn seats(design: &mut Design, s: &Spec, heights: &Heights) {
    let names = |wanted: &dyn Fn(&SeatSpec) -> bool| -> Vec<&str> {
        s.seats.iter().filter(|seat| wanted(seat)).map(|seat| seat.name.as_str()).collect()
    };
    let level = names(&|seat| seat.height.is_none());
    if !level.is_empty() {
        let label = format!("height of the crossbar at {}", level.join(", "));
        design.assumed(
            &read::HEIGHT.size().called(label),
            Value::Length(Length::ZERO),
            "on the datum of all: nothing is written",
        );
    }
    for (seat, pad) in s.seats.iter().zip(&heights.pads) {
        if let Some(pad) = pad.filter(|_| seat.pad.is_none()) {
            let why = if heights.more(seat) > Length::ZERO { PAD_RAISED } else { PAD };
            design.assumed(&sizes::pad(&seat.name), Value::Length(pad), why);
        }
    }
    for seat in s.seats.iter().filter(|seat| undirected(seat)) {
        design.assumed(&sizes::slot_direction(&seat.name), Value::Angle(Angle::ZERO), "along x");
    }
}

const PAD_RAISED: &str = "as high as the frame lies over it: nothing is written";
const PAD: &str = "level with the cups, or with the highest to which lower ones are shimmed: nothing is written";

/// A slot of which neither the row nor the cup says where it points.
fn undirected(seat: &SeatSpec) -> bool {
    let hole = seat.cup.as_ref().map(|cup| &cup.hole);
    let is_slot = match (seat.kind, hole) {
        (Some(kind), _) => kind == "slot",
        (None, hole) => matches!(hole, Some(Hole::Slot { .. })),
    };
    is_slot && !on_pad(seat) && seat.direction.is_none() && !matches!(hole, Some(Hole::Slot { direction: Some(_), .. }))
}
