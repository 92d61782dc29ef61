//! Setting out: the distances, heights, pads and directions that are laid out on the trailer and under the frame, and the
//! work in order.

use serde_json::json;

use crate::formulas::frame::{Landing, Plan, Seat, SeatKind, ride_off};
use crate::record::design::{Design, Table, Value};
use crate::record::show::{self, Say};
use crate::shop::by_unit;
use crate::units::{Force, Length, LengthUnit};

use super::degrees;
use super::heights::{Heights, face, frame_height, is_left_out, on_pad, packing, plate};
use super::pads::BEARING;
use super::places::Places;
use super::read::{SeatSpec, Spec};
use super::results::Results;
use super::shims::UNDER;
use super::sizes;
use crate::families::cone;
use crate::record::key::TableName;

/// Play between a pad and what it stands round. Source: common practice, no source.
const CLEAR_OF_WELD: Length = Length::mm(2.0);
/// Leg along the line from slot to round cup over which its offset is laid out with a square.
const LEG: Length = Length::mm(500.0);

/// A point that is laid out: its name, its place, and one sigma of the cup there.
struct Mark {
    name: String,
    cone: Plan,
    /// Cup minus cone; `None` for a point that has no cup.
    off: Option<Plan>,
    sigma: Length,
}

/// Seats, and points of the cones' survey that are none, such as the hitch.
fn marks(places: &Places, landing: &Landing) -> Vec<Mark> {
    let seats = landing.seats().iter().zip(&places.sigma).map(|(seat, sigma)| Mark {
        name: seat.name.clone(),
        cone: seat.at,
        off: Some(seat.mismatch),
        sigma: *sigma,
    });
    let others = places.cones.iter().flat_map(|n| n.survey.points.iter().zip(n.at.iter().zip(n.sigmas())));
    let others = others
        .filter(|(p, _)| !landing.seats().iter().any(|seat| seat.name == p.name))
        .map(|(p, (at, sigma))| Mark { name: p.name.clone(), cone: *at, off: None, sigma });
    seats.chain(others).collect()
}

/// Seats from each of which every other is laid out where there are too many for all distances.
const BASES: usize = 2;
/// Seats up to which every distance is told, both diagonals of four among them.
const ALL_UP_TO: usize = 5;

/// Distances between the seats, from all to all or from the first two, and from every other point to all seats.
fn distances(marks: &[Mark]) -> Vec<(&Mark, &Mark)> {
    let seats = marks.iter().filter(|m| m.off.is_some()).count();
    let mut all = Vec::new();
    for (i, a) in marks.iter().enumerate() {
        for b in marks.iter().skip(i + 1) {
            let between_seats = a.off.is_some() && b.off.is_some();
            let told = seats <= ALL_UP_TO || i < BASES || !between_seats;
            if told && (a.off.is_some() || b.off.is_some()) {
                all.push((a, b));
            }
        }
    }
    all
}

/// Two sigma of a distance: of both places.
fn doubt(a: &Mark, b: &Mark) -> Length {
    a.sigma.hypot(b.sigma) * 2.0
}

/// Puts tables, steps and figures of the setting out into the design.
pub fn record(design: &mut Design, s: &Spec, places: &Places, heights: &Heights, landing: &Landing, r: &Results) {
    let marks = marks(places, landing);
    let unit = s.common.header.unit;
    distance_table(design, &marks, unit);
    height_table(design, s, heights, landing, r);
    direction_table(design, landing, unit);
    steps(design, s, heights, landing, r);
    let rows = distances(&marks).into_iter().map(|(a, b)| {
        let mm = |l: Length| (l.as_mm() * 1e6).round() / 1e6;
        json!({ "from": a.name, "to": b.name, "cones_mm": mm((a.cone - b.cone).length()), "doubt_mm": mm(doubt(a, b)) })
    });
    design.figures.insert("setting_out", rows.collect());
}

fn text(words: impl Into<String>) -> Value {
    Value::Text(words.into())
}

/// What is measured with whatever lies at hand stands in both units.
fn push(design: &mut Design, name: TableName, title: &str, columns: &[&str], rows: Vec<Vec<Value>>) {
    design.tabulate(Table::new(name, title, columns, rows).in_both_units());
}

/// Step of what is laid out with a tape or a rule; none reads nearer. Source: common practice, no source.
const fn tape(unit: LengthUnit) -> Length {
    by_unit(unit, 0.1, 0.01)
}

/// A length as a tape or a rule tells it.
fn by_tape(length: Length, unit: LengthUnit) -> Value {
    Value::Length(length.to_nearest(tape(unit)).rounded())
}

/// The same for what must be no less: a room, an opening, a doubt.
fn at_least_by_tape(length: Length, unit: LengthUnit) -> Value {
    Value::Length(length.up_to(tape(unit)).rounded())
}

fn distance_table(design: &mut Design, marks: &[Mark], unit: LengthUnit) {
    let row = |(a, b): (&Mark, &Mark)| {
        let cups = a.off.zip(b.off).map(|(x, y)| (a.cone + x - b.cone - y).length());
        vec![
            text(format!("{} to {}", a.name, b.name)),
            by_tape((a.cone - b.cone).length(), unit),
            cups.map_or_else(|| text("-"), |l| by_tape(l, unit)),
            at_least_by_tape(doubt(a, b), unit),
        ]
    };
    let rows = distances(marks).into_iter().map(row).collect();
    push(
        design,
        sizes::SETTING_OUT_TABLE,
        "Setting out: centre distances, level; the cups want the distances of the cones",
        &["from, to", "cones", "cups now", "doubt, two sigma"],
        rows,
    );
}

/// Height of the crossbar, and what is packed on it under the cone.
fn crossbar(say: Say, seat: &SeatSpec) -> Value {
    let height = seat.height.unwrap_or(Length::ZERO).rounded();
    let packing = packing(seat);
    if packing == Length::ZERO {
        return Value::Length(height);
    }
    text(format!("{}, packed by {}", say.length(height), say.length(packing)))
}

/// The frame's underside over the face that the cone stands on: on its cup, or on its pad, as written or as high as it is wanted.
fn underside(seat: &SeatSpec, wanted: Option<Length>) -> Option<Length> {
    let on_pad = || Some(seat.pad.unwrap_or(wanted?) + plate(seat));
    frame_height(seat).or_else(|| wanted.and_then(|_| on_pad()))
}

/// What holds the frame up at a seat. The column of pads as written stands only where one is.
fn height_table(design: &mut Design, s: &Spec, heights: &Heights, landing: &Landing, r: &Results) {
    let written = s.seats.iter().any(|seat| seat.pad.is_some());
    let (say, unit) = (design.say(), s.common.header.unit);
    let row = |(i, seat): (usize, &SeatSpec)| {
        let at = r.shims_told().and_then(|shims| shims.amounts.get(i));
        let shim = at.map_or_else(|| text("-"), |by| Value::Length(*by));
        let or_dash = |l: Option<Length>| l.map_or_else(|| text("-"), |l| Value::Length(l.rounded()));
        let needed = heights.pads.get(i).copied().flatten();
        let frame = underside(seat, needed).map(|built| built + face(seat));
        // A pad that is there stays as it is.
        let wanted = needed.filter(|_| seat.pad.is_none());
        let head = [text(seat.name.clone()), crossbar(say, seat), or_dash(frame), or_dash(wanted)];
        head.into_iter().chain(written.then(|| or_dash(needed.and(seat.pad)))).chain([shim]).collect()
    };
    let columns: &[&str] = if written {
        &["seat", "crossbar", "underside of the frame", "pad wanted", "pad written", "shim up by"]
    } else {
        &["seat", "crossbar", "underside of the frame", "pad wanted", "shim up by"]
    };
    push(
        design,
        sizes::HEIGHTS_TABLE,
        "Setting out: crossbars and underside of the frame over one datum; pads from the face that the cone stands on",
        columns,
        s.seats.iter().enumerate().map(row).collect(),
    );
    let pad = |(seat, found): (&SeatSpec, &Seat)| {
        let clearance = if let SeatKind::Clear { clearance, .. } = found.kind { clearance } else { Length::ZERO };
        let hole = heights.hole(seat);
        let inside = seat.cone.foot_width().max(seat.cone.base) + cone::fillet(&seat.cone) * 2.0 + CLEAR_OF_WELD;
        // What bears lies outside the hole wherever the frame comes to lie, and outside what the pad itself leaves open.
        let reach = (hole + clearance * 2.0).max(inside) + BEARING * 2.0;
        vec![
            text(seat.name.clone()),
            Value::Length(hole.rounded()),
            at_least_by_tape(inside, unit),
            at_least_by_tape(reach, unit),
        ]
    };
    let on_pads = s.seats.iter().zip(landing.seats()).filter(|(seat, _)| on_pad(seat));
    push(
        design,
        sizes::PADS_TABLE,
        "Pads: a ring or two blocks round the foot of the cone that reach under the frame wherever it lies within its room",
        &["seat", "hole over the cone", "open inside, clear of foot and weld", "reach out to diameter"],
        on_pads.map(pad).collect(),
    );
}

/// The direction of every slot as legs that a square and a rule can measure.
fn direction_table(design: &mut Design, landing: &Landing, unit: LengthUnit) {
    let row = |seat: &Seat| {
        let SeatKind::Slot { direction, .. } = seat.kind else { return None };
        let (c, s) = (direction.cos(), direction.sin());
        // The longer leg is the base that is measured along.
        let (base, along, across) = if c.abs() >= s.abs() { ("along x", c, s) } else { ("along y", s, c) };
        let offset = LEG * (across / along);
        let towards = match (base, offset >= Length::ZERO) {
            ("along x", true) => "towards +y as x grows",
            ("along x", false) => "towards -y as x grows",
            (_, true) => "towards +x as y grows",
            (_, false) => "towards -x as y grows",
        };
        Some(vec![
            text(seat.name.clone()),
            Value::Angle(direction),
            text(base),
            Value::Length(LEG),
            by_tape(offset.abs(), unit),
            text(towards),
        ])
    };
    push(
        design,
        sizes::SLOT_DIRECTION_TABLE,
        "Setting out: direction of the slot as two legs square to each other",
        &["seat", "from x", "first leg", "length", "second leg", "which way"],
        landing.seats().iter().filter_map(row).collect(),
    );
}

/// A pad is made so much too low: a shim makes up for it. Source: common practice, no source.
fn under(unit: LengthUnit) -> Length {
    by_unit(unit, 0.1, 0.004)
}

/// How high a pad is made, to the figures that work at the bench holds, so that it stands as high as is wanted when it is
/// shimmed.
pub fn pad_made(wanted: Length, unit: LengthUnit) -> Length {
    (wanted.to_nearest(Length::mm(0.01)) - under(unit)).rounded()
}

/// The work in order.
fn steps(design: &mut Design, s: &Spec, heights: &Heights, landing: &Landing, r: &Results) {
    set_cones(design, s, landing, r);
    pads(design, s, heights);
    if landing.seats().iter().any(|seat| matches!(seat.kind, SeatKind::Slot { .. })) {
        let meets = meets(landing, design.say());
        let text = format!("Mark the direction of the slot with a square from the frame's own x{meets}.");
        design.step("frame", text).table(sizes::SLOT_DIRECTION_TABLE);
    }
    opened(design, s, heights);
    set_cups(design, s, r);
    let base = s.base().word();
    let level = super::shims::limit(s);
    design.step(base, format!("Set it down once with its full weight, then lay a level on it both ways, within {} or {}, and feel under every seat with a feeler gauge: shim where it hangs free.", degrees(level), design.say().slope(level)));
    tied_down(design, s, r);
}

/// Cones are set out, levelled, shimmed, and only then welded.
fn set_cones(design: &mut Design, s: &Spec, landing: &Landing, r: &Results) {
    let say = design.say();
    let base = s.base().word();
    let widest = marks_apart(landing).to_nearest(tape(s.common.header.unit)).rounded();
    let widest = show::length_both(widest, s.common.header.unit);
    let across = if landing.seats().len() > 3 { "both diagonals," } else { "every side," };
    design
        .step(base, format!("Set the cones out by centre distances; measure {across} and one long line of {} twice. Note what the tape says: the landing is worked with what is, not with what was meant.", widest))
        .table(sizes::SETTING_OUT_TABLE);
    design
        .step(base, "Level the faces that the cones stand on against each other, from one datum, nothing packed under them, and write what is left as `height` of each seat.")
        .table(sizes::HEIGHTS_TABLE);
    let shims = r.shims_told().map_or_else(Vec::new, |shims| shims.words(say, landing));
    if !shims.is_empty() {
        design.step(base, format!("Shim the low seats before the frame comes, {UNDER}: {}.", shims.join(", ")));
    }
    if s.seats.iter().any(|seat| seat.cone.weld_on) {
        design.step(base, format!("Tack every cone that is welded on at three places and measure the centre distances, {across} again: knock over what has moved while the tacks give. Weld as the sheet of each cone says, in short runs from opposite sides, cone by cone in turns; when it is cold measure all of it once more and write it into the part file: the cups are set to what came out."));
    }
}

/// Pads beside clear holes: those that are not made yet, and what any of them stands round.
fn pads(design: &mut Design, s: &Spec, heights: &Heights) {
    let both = |l: Length| show::length_both(l.rounded(), s.common.header.unit);
    let unit = s.common.header.unit;
    if !s.seats.iter().any(on_pad) {
        return;
    }
    let open = |(seat, _): &(&SeatSpec, &Option<Length>)| is_left_out(seat);
    let to_make: Vec<(&SeatSpec, &Option<Length>)> = s.seats.iter().zip(&heights.pads).filter(open).collect();
    let text = if to_make.is_empty() {
        "Look that the pads stand as high as they are written, and clear of the cones by the table.".to_string()
    } else {
        let under = both(under(unit));
        let names: Vec<&str> = to_make.iter().map(|(seat, _)| seat.name.as_str()).collect();
        let names = names.join(", ");
        format!(
            "Make the pads of {names} {under} lower than the height wanted: a shim makes up for it when the frame stands. They stand clear of the cones by the table."
        )
    };
    let place = if to_make.is_empty() { s.base().word() } else { "lathe or saw" };
    design.step(place, text).table(sizes::PADS_TABLE);
    for (seat, high) in to_make.into_iter().filter_map(|(seat, pad)| Some((seat, (*pad)?))) {
        design.wants.uses(
            format!("pad, a ring or two blocks of steel, {} high", both(pad_made(high, unit))),
            format!("the frame at {}, by the table of pads", seat.name),
        );
    }
}

/// Cups are set over their cones, and fixed.
fn set_cups(design: &mut Design, s: &Spec, r: &Results) {
    let unit = s.common.header.unit;
    let taped = |l: Length| show::length_both(l.to_nearest(tape(unit)).rounded(), unit);
    // Plates with mounting holes are bolted, the others welded.
    let mut cups = s.seats.iter().filter_map(|seat| seat.cup.as_ref()).peekable();
    let bolted = cups.peek().is_some() && cups.all(|cup| cup.mounting.is_some());
    let before = if bolted { "Before the frame is drilled" } else { "Before tacking" };
    design.step("frame", format!("{before}: stand the frame on blocks, level over the cones, cups clamped (nobody reaches under a hung load): round cup home on its cone first, then the slot square over its cone, then look for room all round in every clear hole."));
    let room = r.rooms.iter().filter_map(|room| Some((s.seats.get(room.seat)?, room.has?, room.off)));
    let rooms: Vec<String> =
        room.map(|(seat, has, off)| format!("{} {} less {}", seat.name, taped(has), taped(off))).collect();
    if !rooms.is_empty() {
        design.step("frame", format!("Room to be found there, least side: {}.", rooms.join("; ")));
    }
    let [fix, again] = if bolted {
        [
            "Clamp each plate, mark the frame through its holes, drill and bolt it, in turns, the round cup last. Lift off and set down: it must come home by itself.",
            "After bolting: measure the centre distances of the cups once more and write them into the part file.",
        ]
    } else {
        [
            "Tack each plate at two opposite places, in turns, the round cup last moved. Lift off and set down: it must come home by itself.",
            "After tacking, and again after welding in short runs from opposite sides: measure the centre distances of the cups once more and write them into the part file.",
        ]
    };
    design.step("frame", fix);
    design.step("frame", again);
}

/// What each seat is tied down with: what a stiff frame on three asks for, and no less than what is written.
pub fn held_down(s: &Spec, r: &Results) -> Option<Force> {
    let written = s.tie_down.as_ref().map(|t| t.value);
    asked_down(r).into_iter().chain(written).reduce(Force::max).filter(|force| *force > Force::ZERO)
}

/// What a stiff frame on three asks for at each seat, on a level base and on one that leans.
pub fn asked_down(r: &Results) -> Option<Force> {
    let both = [r.preloads.as_ref(), r.on_slope.0.as_ref()];
    both.into_iter().flatten().filter_map(|cases| ride_off::governing_on_three(cases)).reduce(Force::max)
}

/// A nose that stands up through its plate wants an opening in the frame; without it the frame lies on the nose and nothing seats.
fn opened(design: &mut Design, s: &Spec, heights: &Heights) {
    let unit = s.common.header.unit;
    let one = |(i, seat): (usize, &SeatSpec)| {
        let pad = heights.pads.get(i).copied().flatten();
        let up = (seat.cone.height + seat.cone.foot_height() - underside(seat, pad)?).rounded();
        (up > Length::ZERO).then(|| format!("{} by {}", seat.name, show::length_both(up, unit)))
    };
    let through: Vec<String> = s.seats.iter().enumerate().filter_map(one).collect();
    if through.is_empty() {
        return;
    }
    design.step("frame", format!(
        "Noses stand up into the frame: {}. Before anything is clamped open the underside of the frame over each of them, nowhere smaller than the hole of its own cup, over a slot as long as that, over a pad as wide as the hole over the cone; and look that it is clear as high as the nose reaches and a hand's breadth beyond where the frame swings.",
        through.join("; ")
    )).tool("hole saw, or what opens the frame");
}

/// A line by eye and square meets its mark within this. Source: common practice, no source.
const MEETS: Length = Length::mm(5.0);

/// Where the line of the slot passes the round cup: it is to meet its centre, and does so as it is drawn, or it does not.
fn meets(landing: &Landing, say: Say) -> String {
    let rounds: Vec<&Seat> = landing.seats().iter().filter(|seat| seat.kind == SeatKind::Round).collect();
    let [round] = rounds.as_slice() else { return String::new() };
    let miss = landing.seats().iter().filter_map(|seat| match seat.kind {
        SeatKind::Slot { direction, .. } => {
            let [x, y] = (round.at - seat.at).pair();
            Some(Length::mm((x * direction.sin() - y * direction.cos()).abs()))
        }
        _ => None,
    });
    let most = miss.fold(Length::ZERO, Length::max);
    if most <= MEETS {
        return "; the line must meet the centre of the round cup".into();
    }
    let name = &round.name;
    format!(
        "; as it is written that line misses the centre of the round cup at {name} by {}, which a finding is about: not before that is settled",
        say.length(most)
    )
}

/// The last step before it moves or is worked on.
fn tied_down(design: &mut Design, s: &Spec, r: &Results) {
    let Some(least) = held_down(s, r) else { return };
    let before = if s.base().drives() { "Before it is driven" } else { "Before anybody works on it" };
    let again = if s.base().drives() {
        " After the first quarter of an hour on the road look at every one and draw it again."
    } else {
        ""
    };
    let least = design.say().force(least);
    design.step(s.base().word(), format!("{before} tie it down: at least {least} straight down at each seat, with gear that is rated for it and an anchor that holds it. Cones and cups hold nothing down.{again}"));
}

/// The longest distance between two seats.
fn marks_apart(landing: &Landing) -> Length {
    let seats = landing.seats();
    seats.iter().flat_map(|a| seats.iter().map(|b| (a.at - b.at).length())).fold(Length::ZERO, Length::max)
}
