//! Room of slots and clear holes: how far the cone wants to lie off the middle, and what that, heat and doubt ask for.

use crate::formulas::frame::arrangement::carried_room;
use crate::formulas::frame::rest::rest;
use crate::formulas::frame::{Landing, Seat, SeatKind};
use crate::record::design::{Check, Design, Value, Verdict};
use crate::record::show::Say;
use crate::source::Source;
use crate::units::Length;

use super::growth;
use super::heights::Heights;
use super::places::Places;
use super::read::{SeatSpec, Spec};

const SLOT: Check = Check {
    key: "slot_travel",
    what: "room of the slot each way",
    worst: Verdict::Fail,
    source: Source::Derived(
        "half of slot length less width, against offset along it, growth, and three sigma of both places",
    ),
};
const UNKNOWN: Check = Check {
    key: "slot_travel",
    what: "room of the slot each way",
    worst: Verdict::Caution,
    source: Source::Derived("no file of the cup says how long the slot is"),
};
const CLEAR: Check = Check {
    key: "clear_room",
    what: "room of the clear hole all round",
    worst: Verdict::Fail,
    source: Source::Derived(
        "clearance against offset, growth, and three sigma of the places of round cup, slot and hole",
    ),
};

/// The room of one slot or clear hole.
pub struct Room {
    /// Which seat.
    pub seat: usize,
    /// It is a slot: room both ways along it; else a clear hole: room all round.
    pub slot: bool,
    /// Room each way; `None`: no file says.
    pub has: Option<Length>,
    /// How far off its middle the cone would lie if nothing but the other seats stopped it.
    pub off: Length,
    /// Growth there, either way.
    pub heat: Length,
    /// Three sigma of the places that decide about it.
    pub doubt: Length,
}

impl Room {
    /// What it should have each way.
    pub fn wanted(&self) -> Length {
        self.off + self.heat + self.doubt
    }

    /// What is left of it beside what is known: offset and growth.
    pub fn left(&self) -> Option<Length> {
        self.has.map(|has| has - self.off - self.heat)
    }

    /// Whether the room is known and enough by the whole rule.
    pub fn suffices(&self) -> bool {
        self.has.is_some_and(|has| has.rounded() >= self.wanted().rounded())
    }
}

/// The landing with nothing to hold it but round cups and the sides of slots.
pub fn without_bounds(landing: &Landing) -> Option<Landing> {
    let open = |seat: &Seat| match seat.kind {
        SeatKind::Slot { direction, .. } => seat.clone().with_kind(SeatKind::endless_slot(direction)),
        SeatKind::Clear { on_pad: true, .. } => seat.clone().with_kind(SeatKind::Pad),
        _ => seat.clone(),
    };
    Landing::new(landing.seats().iter().map(open).collect(), landing.load().clone()).ok()
}

/// Every slot and clear hole; empty where the frame does not come to rest even without their bounds.
pub fn rooms(s: &Spec, places: &Places, landing: &Landing) -> Vec<Room> {
    let Some(found) = without_bounds(landing).and_then(|l| rest(&l).ok()) else { return Vec::new() };
    let seats = landing.seats();
    let round = seats.iter().position(|seat| seat.kind == SeatKind::Round);
    let slot = seats.iter().position(|seat| matches!(seat.kind, SeatKind::Slot { .. }));
    let sigma = |i: usize| places.sigma.get(i).copied().unwrap_or(Length::ZERO);
    let held = round.and_then(|i| seats.get(i)).map_or_else(|| super::middle(&places.at), |seat| seat.at);
    let line = slot.and_then(|i| seats.get(i)).map(|seat| seat.at - held);
    let room = |(i, (seat, at)): (usize, (&Seat, &crate::formulas::frame::rest::SeatRest))| {
        let grown = growth::growth(s, seat.at - held);
        let both = sigma(i).hypot(round.map_or(Length::ZERO, sigma));
        match seat.kind {
            SeatKind::Slot { direction, travel } => Some(Room {
                seat: i,
                slot: true,
                has: travel.is_finite().then_some(travel),
                off: growth::along(at.offset, direction).abs(),
                heat: growth::along(grown, direction).abs(),
                doubt: both * 3.0,
            }),
            SeatKind::Clear { clearance, .. } => {
                let worst = both.max(slot.map_or(Length::ZERO, sigma)).max(sigma(i));
                let doubt = line.map_or(both * 3.0, |line| carried_room(seat.at - held, line, worst * 3.0));
                Some(Room {
                    seat: i,
                    slot: false,
                    has: Some(clearance),
                    off: at.offset.length(),
                    heat: grown.length(),
                    doubt,
                })
            }
            SeatKind::Round | SeatKind::Pad => None,
        }
    };
    seats.iter().zip(&found.seats).enumerate().filter_map(room).collect()
}

/// Judges every slot and clear hole: beyond its room the rim meets the cone and the frame cannot go down.
pub fn judge(design: &mut Design, s: &Spec, heights: &Heights, rooms: &[Room]) {
    let say = design.say();
    for room in rooms {
        let Some(seat) = s.seats.get(room.seat) else { continue };
        let parts = format!(
            "the cone of {} lies {} off the middle{}, grows {} either way with the temperature, and the doubt of the places is {} (three sigma)",
            seat.name,
            say.length(room.off),
            if room.slot { " of its slot" } else { "" },
            say.length(room.heat),
            say.length(room.doubt)
        );
        let check = if room.slot { &SLOT } else { &CLEAR };
        let (off, wanted) = (room.off.rounded(), room.wanted().rounded());
        let more = wider(say, seat, heights, room, wanted);
        let Some(has) = room.has.map(Length::rounded) else {
            design.finding(
                &UNKNOWN,
                Verdict::Caution,
                None,
                None,
                format!("no cup file says how long the slot of {} is; {parts}: {more}", seat.name),
            );
            continue;
        };
        let because = match (has < off, has < wanted) {
            (true, _) => format!("{parts}: the rim meets the cone and the frame cannot go down; {more}"),
            (false, true) => format!("{parts}: {more}"),
            (false, false) => parts,
        };
        design.at_least(check, Value::Length(has), Value::Length(off), Some(Value::Length(wanted)), because);
    }
}

/// What to do about it.
fn wider(say: Say, seat: &SeatSpec, heights: &Heights, room: &Room, wanted: Length) -> String {
    // Up to a whole hundredth of a millimetre: what is told is enough when it is written.
    let wanted = Length::mm((wanted.as_mm() * 100.0 - 1e-6).ceil() / 100.0);
    if !room.slot {
        let bore = heights.cone_there(seat) + wanted * 2.0;
        let bore = Length::mm((bore.as_mm() * 100.0 - 1e-6).ceil() / 100.0);
        return format!(
            "bore it {}, so that {} are free all round the cone at the plate",
            say.length(bore),
            say.length(wanted)
        );
    }
    let long = seat
        .cup
        .as_ref()
        .map_or_else(String::new, |cup| format!(", {} long", say.length(super::entry_ring(cup) + wanted * 2.0)));
    format!("make the slot {} each way{long}", say.length(wanted))
}
