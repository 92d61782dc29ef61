//! A frame on its cones: where it comes to rest, what carries it, which cup should be which, what pushes it off.

mod checks;
mod figures;
mod growth;
mod heat;
mod heights;
mod hinged;
mod levers;
mod made;
mod pads;
mod pictures;
mod places;
pub mod read;
mod repeat;
mod results;
mod rooms;
mod rubbing;
mod seated;
mod setting_out;
mod shims;
pub mod sizes;
mod slips;
mod slope;
mod stated;
mod unseen;

use crate::description::Fields;
use crate::families::cup::seat::{capture, entry_ring};
use crate::families::{Family, Workplace, cone, cup};
use crate::formulas::frame::rest::{Rest, rest};
use crate::formulas::frame::{InputError, Landing, Load, Plan, Pull, Seat, SeatKind};
use crate::formulas::seating;
use crate::record::design::Design;
use crate::record::show;
use crate::record::wants::{Frame, Seated, waits_for};
use crate::units::{Angle, Force, Length};

use heights::Heights;
use places::Places;
use read::{SeatSpec, Spec};
use results::Results;
use seated::SEATED_WITHIN;

/// The family's record.
pub const FAMILY: Family = Family {
    name: "landing",
    about: "a hoisted frame coming down on its cones: survey, rest, loads, arrangement, ride-off",
    keys: read::KEYS,
    work,
    made: made::findings,
    remedies: levers::REMEDIES,
    long: true,
    template: include_str!("template.toml"),
    companions: &[("cone.toml", cone::FAMILY.template), ("cup.toml", cup::FAMILY.template)],
};

fn work(fields: &Fields, place: &Workplace) -> Option<Design> {
    let spec = read::read(fields, place).filter(|spec| slips::readings_go(fields, spec))?;
    let places = places::places(fields, &spec, place.kept)?;
    let (heights, landing) =
        on_its_pads(&spec, &places, fields).map_err(|e| fields.problem_at(&read::SEAT, e.to_string(), None)).ok()?;
    no_room_for_pads(fields, &spec, &heights)?;
    let all_round = place.depth.wants(&["all_round"]).then(|| landing_all_round(&landing)).flatten();
    let mut design = Design::new(spec.common.header.clone());
    let results = results::results(&spec, &places, &heights, &landing, all_round, (place.depth, place.progress))
        .map_err(|e| fields.problem_at(&read::SEAT, e.to_string(), None))
        .ok()?;
    let results = Results { felt: made::is_felt(fields, place), ..results };
    stated::record(&mut design, &spec, &heights);
    results::record(&mut design, &spec, &places, &landing, &results);
    results::drawn_table(&mut design, &spec, (&places, &heights), &landing, &results);
    let sloping = place.depth.wants(&["slope_capture", "slope_ride_off", "slope_home", "comes_back"]);
    let slope = sloping
        .then(|| slope::slope(&spec, &heights, &landing, &results, place.depth))
        .transpose()
        .map_err(|e| fields.problem_at(&read::SEAT, e.to_string(), None))
        .ok()?;
    if slope.is_some() {
        slope::record(&mut design, &spec, &results);
    }
    let surveyed = place.depth.wants(&checks::BY_SURVEY);
    checks::checks(&mut design, &spec, (&places, surveyed), &heights, &landing, &results);
    if let Some(slope) = &slope {
        slope::judge(&mut design, &spec, slope, &results);
    }
    if seated::is_pair(&landing) {
        shims::come_first(&mut design, &landing, results.shims.as_ref());
    }
    let found = results.rest.as_ref().ok().filter(|_| place.depth.wants(&["comes_back"]));
    let causes = found.map_or_else(Vec::new, |found| repeat::causes(&spec, &landing, found, &results, slope.as_ref()));
    repeat::record(&mut design, &spec, &causes);
    // A survey is told with all its figures.
    let whole = surveyed || !place.depth.is_for_one();
    if whole {
        setting_out::record(&mut design, &spec, &places, &heights, &landing, &results);
    }
    hinged::record(&mut design, &spec, &heights, &landing, &results);
    made::readable(&mut design, &spec, &landing, &results);
    if !whole {
        return Some(design);
    }
    slips::tell(&mut design, &spec, &heights);
    pictures::pictures(&mut design, &spec, &heights, &landing, &results);
    figures::figures(&mut design, &spec, &places, &heights, &landing, &results, &causes);
    wanted(&mut design, &spec, &landing);
    let to_make = results.changed.then_some(sizes::ARRANGEMENT_TABLE);
    design.at_hand = to_make.into_iter().chain([sizes::LOADS_TABLE, sizes::PRELOAD_TABLE]).collect();
    Some(design)
}

/// Where the landing puts cones and cups, what it waits for, what is taken along, and what it takes the frame to weigh.
fn wanted(design: &mut Design, s: &Spec, landing: &Landing) {
    let wants = &mut design.wants;
    for (seat, at) in s.seats.iter().zip(landing.seats()) {
        // Cones are set out before they are fixed; cups are clamped before they are bolted or welded on.
        let mut put = |part: &str, on_frame, at: Plan| {
            let at = [at.x.rounded(), at.y.rounded()];
            wants.seats.push(Seated { seat: seat.name.clone(), part: part.into(), on_frame, at });
            if !wants.waits.iter().any(|w| w.part == part) {
                wants.waits.push(waits_for(part, on_frame.then_some("frame")));
            }
        };
        // A pad stands in the place of a cone.
        if at.kind != SeatKind::Pad {
            put(&seat.cone.common.header.stem, false, at.at);
        }
        if let Some(cup) = &seat.cup {
            put(&cup.common.header.stem, true, at.at + at.mismatch);
        }
    }
    let (at, height) = s.centre;
    wants.frame = Some(Frame { mass_kg: s.mass.value.as_kg(), centre: [at.x, at.y, height] });
    for (what, used) in [
        ("slings, hooks and two hand lines", "to hang the frame and steer it"),
        ("level", "frame after it is set down, both ways"),
        ("feeler gauge", "room all round in the clear holes, gap under every seat"),
        ("tape measure", "centre distances, where a seat was changed"),
        ("shims for the seats", "a seat that hangs free"),
    ] {
        wants.packs(what, used);
    }
}

/// The same set with a round cup everywhere: what the builder would do first.
fn landing_all_round(landing: &Landing) -> Option<Landing> {
    let seats = landing.seats().iter().map(|s| s.clone().with_kind(SeatKind::Round)).collect();
    Landing::new(seats, landing.load().clone()).ok()
}

/// A pad that is to be made needs room between its crossbar and the frame; `None` where it has none, told at the seats.
fn no_room_for_pads(fields: &Fields, s: &Spec, heights: &Heights) -> Option<()> {
    let seats = s.seats.iter().any(|seat| !heights::on_pad(seat));
    let under = |(seat, pad): &(&SeatSpec, &Option<Length>)| {
        seats && heights::is_left_out(seat) && pad.is_some_and(|pad| pad <= Length::ZERO)
    };
    let Some((seat, _)) = s.seats.iter().zip(&heights.pads).find(under) else { return Some(()) };
    let message =
        format!("the crossbar at {} stands as high as the frame comes to lie: no pad goes under it", seat.name);
    fields.problem_at(&read::SEAT, message, Some("its height, and those of the others, are over one datum".into()));
    None
}

/// Heights, and seats and load for the mechanics. Where the cups seat, a pad that is still to be made is made as high as the
/// frame lies over it.
fn on_its_pads(s: &Spec, places: &Places, fields: &Fields) -> Result<(Heights, Landing), InputError> {
    let heights = Heights::of(s, fields);
    let as_told = landing(s, places, &heights)?;
    let seats =
        |rest: &Rest| seated::highest(&as_told, rest).1 <= SEATED_WITHIN && shims::tilt(rest) <= shims::limit(s);
    let to_be_made = s.seats.iter().any(heights::is_left_out);
    let found = to_be_made.then(|| rest(&as_told).ok()).flatten().filter(seats);
    let hang = |under: Length| if under > SEATED_WITHIN { under } else { Length::ZERO };
    let gaps = found.map(|_| shims::under_the_plane(&as_told).into_iter().map(hang).collect::<Vec<_>>());
    match gaps.and_then(|gaps| heights.raised(s, &gaps)) {
        Some(raised) => landing(s, places, &raised).map(|landing| (raised, landing)),
        None => Ok((heights, as_told)),
    }
}

/// Seats and load for the mechanics.
fn landing(s: &Spec, places: &Places, heights: &Heights) -> Result<Landing, InputError> {
    let rows = s.seats.iter().zip(&heights.seats).zip(places.at.iter().zip(&places.mismatch));
    let seats = rows.map(|((seat, height), (at, mismatch))| {
        let cup = seat.cup.as_ref().filter(|_| !heights::on_pad(seat));
        let (kind, height) = kind(seat, *height, heights.room(seat));
        Seat {
            name: seat.name.clone(),
            at: *at,
            mismatch: *mismatch,
            height,
            face: cup.map(|cup| height - face_gap(seat, cup)),
            half_angle: seat.cone.half_angle,
            kind,
        }
    });
    let mut load = Load::of_weight(s.mass.value.weight(), s.centre.0);
    load.height = s.centre.1;
    if let Some(down) = s.tie_down.as_ref().filter(|t| t.value > Force::ZERO) {
        load.pulls = places.at.iter().map(|at| Pull { at: *at, down: down.value }).collect();
    }
    Landing::new(seats.collect(), load).map(Landing::levelled)
}

/// How far the plate would have to fall past full seating to land on the foot or the crossbar.
fn face_gap(seat: &SeatSpec, cup: &crate::families::cup::read::Spec) -> Length {
    let on_foot = seat.cone.foot_width() > entry_ring(cup);
    let height = heights::seat_height(seat, cup);
    if on_foot { height } else { height + seat.cone.foot_height() }
}

/// An angle in a sentence.
fn degrees(a: Angle) -> String {
    format!("{}°", show::trimmed(a.as_degrees(), 2))
}

/// How the seat holds, as the row says or as the cup's hole is, and its height. A hole that is said to be clear and leaves
/// its cone no room is the round cup that it is: the cone lifts it off its pad.
fn kind(seat: &SeatSpec, height: Length, room: Option<Length>) -> (SeatKind, Length) {
    use crate::families::cup::read::Hole;
    let kind = match (seat.kind, seat.cup.as_ref().map(|c| &c.hole)) {
        (Some("clear"), _) => {
            let written = seat.clearance.unwrap_or(Length::mm(1.0));
            let clearance = room.map_or(written, |room| room.min(written));
            if clearance <= Length::ZERO {
                return (SeatKind::Round, (height - clearance / seat.cone.half_angle.tan()).rounded());
            }
            SeatKind::Clear { clearance, on_pad: true }
        }
        (Some("pad"), _) => SeatKind::Pad,
        (Some("slot"), hole) | (None, hole @ Some(Hole::Slot { .. })) => {
            let (own, travel) = match hole {
                Some(Hole::Slot { direction, length, width, .. }) => {
                    (direction.as_ref().map(|d| d.value), Some((length.value - width.value) / 2.0))
                }
                _ => (None, None),
            };
            let direction = seat.direction.or(own).unwrap_or(Angle::ZERO);
            travel.map_or(SeatKind::endless_slot(direction), |travel| SeatKind::Slot { direction, travel })
        }
        _ => SeatKind::Round,
    };
    (kind, height)
}

/// Capture radius of one seat by itself.
fn own_capture(seat: &SeatSpec, heights: &Heights) -> Length {
    let flat = || seating::nose_flat(seat.cone.tip, seat.cone.half_angle, seat.cone.nose_radius());
    match &seat.cup {
        Some(cup) => capture(cup, &seat.cone),
        None => seating::capture_radius(heights.hole(seat), flat()),
    }
}

/// Middle of the seats.
fn middle(at: &[Plan]) -> Plan {
    let n = at.len().max(1) as f64;
    Plan { x: at.iter().map(|p| p.x).sum::<Length>() / n, y: at.iter().map(|p| p.y).sum::<Length>() / n }
}
