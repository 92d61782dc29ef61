//! A frame on its cones: where it comes to rest, what carries it, which cup should be which, what pushes it off.

mod checks;
mod figures;
mod heat;
mod pictures;
mod places;
pub mod read;
mod results;
mod rooms;
mod rubbing;

use crate::description::Fields;
use crate::design::Design;
use crate::families::cup::seat::{capture, corners, entry_ring};
use crate::families::{Family, Workplace, cone, cup};
use crate::landing::{Landing, Load, Plan, Pull, Seat, SeatKind};
use crate::seating;
use crate::units::{Angle, Force, Length};

use places::Places;
use read::{SeatSpec, Spec};

/// The family's record.
pub const FAMILY: Family = Family {
    name: "landing",
    about: "a hoisted frame coming down on its cones: survey, rest, loads, arrangement, ride-off",
    keys: read::KEYS,
    work,
    template: include_str!("template.toml"),
    companions: &[("cone.toml", cone::FAMILY.template), ("cup.toml", cup::FAMILY.template)],
};

fn work(fields: &Fields, place: &Workplace) -> Option<Design> {
    let spec = read::read(fields, place)?;
    let places = places::places(fields, &spec)?;
    let landing =
        landing(&spec, &places, true).map_err(|e| fields.problem_at(&read::SEAT, e.to_string(), None)).ok()?;
    let all_round = landing_all_round(&landing);
    let mut design = Design::new(spec.common.header.clone());
    let results = results::results(&spec, &places, &landing, &all_round, place.progress)
        .map_err(|e| fields.problem_at(&read::SEAT, e.to_string(), None))
        .ok()?;
    results::record(&mut design, &spec, &places, &landing, &results);
    checks::checks(&mut design, &spec, &places, &landing, &results);
    pictures::pictures(&mut design, &spec, &landing, &results);
    figures::figures(&mut design, &spec, &places, &landing, &results);
    Some(design)
}

/// The same set with a round cup everywhere: what the builder would do first.
fn landing_all_round(landing: &Landing) -> Option<Landing> {
    let seats = landing.seats().iter().map(|s| s.clone().with_kind(SeatKind::Round)).collect();
    Landing::new(seats, landing.load().clone()).ok()
}

/// Seats and load for the mechanics.
fn landing(s: &Spec, places: &Places, pulls: bool) -> Result<Landing, crate::landing::InputError> {
    let row = |seat: &SeatSpec| seat.height.unwrap_or(Length::ZERO);
    let built: Vec<Option<Length>> = s.seats.iter().map(|seat| frame_height(seat).map(|h| h + row(seat))).collect();
    let known: Vec<Length> = built.iter().flatten().copied().collect();
    let mean = known.iter().copied().sum::<Length>() / known.len().max(1) as f64;
    // A pad is made to the height of the others; only what the row says sets it apart.
    let heights: Vec<Length> = s.seats.iter().zip(&built).map(|(seat, h)| h.map_or(row(seat), |h| h - mean)).collect();
    let seats = s.seats.iter().zip(&heights).zip(places.at.iter().zip(&places.mismatch)).map(
        |((seat, height), (at, mismatch))| {
            let height = height.rounded();
            let face = seat.cup.as_ref().map(|cup| height - face_gap(seat, cup));
            Seat {
                name: seat.name.clone(),
                at: *at,
                mismatch: *mismatch,
                height,
                face,
                half_angle: seat.cone.half_angle,
                kind: kind(seat),
            }
        },
    );
    let mut load = Load::of_weight(s.mass.value.weight(), s.centre.0);
    load.height = s.centre.1;
    if let Some(down) = s.tie_down.as_ref().filter(|t| pulls && t.value > Force::ZERO) {
        load.pulls = places.at.iter().map(|at| Pull { at: *at, down: down.value }).collect();
    }
    Landing::new(seats.collect(), load).map(Landing::levelled)
}

/// Height of the frame's underside over the face that the cone stands on: foot + seat height + plate. `None` for a pad.
fn frame_height(seat: &SeatSpec) -> Option<Length> {
    let cup = seat.cup.as_ref().filter(|_| !matches!(seat.kind, Some("clear" | "pad")))?;
    Some(seat.cone.foot_height() + seat_height(seat, cup) + cup.thickness.value)
}

/// Seat height of the cup on its cone.
fn seat_height(seat: &SeatSpec, cup: &crate::families::cup::read::Spec) -> Length {
    seating::seat(seat.cone.base, seat.cone.half_angle, &corners(cup), Length::ZERO).map_or(Length::ZERO, |f| f.height)
}

/// How far the plate would have to fall past full seating to land on the foot or the crossbar.
fn face_gap(seat: &SeatSpec, cup: &crate::families::cup::read::Spec) -> Length {
    let on_foot = seat.cone.foot_width() > capture_ring(cup);
    let height = seat_height(seat, cup);
    if on_foot { height } else { height + seat.cone.foot_height() }
}

fn capture_ring(cup: &crate::families::cup::read::Spec) -> Length {
    entry_ring(cup)
}

/// How the seat holds: as the row says, or as the cup's hole is.
fn kind(seat: &SeatSpec) -> SeatKind {
    use crate::families::cup::read::Hole;
    match (seat.kind, seat.cup.as_ref().map(|c| &c.hole)) {
        (Some("clear"), _) => SeatKind::Clear { clearance: seat.clearance.unwrap_or(Length::mm(1.0)), on_pad: true },
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
    }
}

/// Capture radius of one seat by itself.
fn own_capture(seat: &SeatSpec) -> Length {
    match (&seat.cup, seat.clearance) {
        (Some(cup), _) => capture(cup, &seat.cone),
        (None, clearance) => clearance.unwrap_or(Length::ZERO) + (seat.cone.base - seat.cone.tip) / 2.0,
    }
}

/// Middle of the seats.
fn middle(at: &[Plan]) -> Plan {
    let n = at.len().max(1) as f64;
    Plan { x: at.iter().map(|p| p.x).sum::<Length>() / n, y: at.iter().map(|p| p.y).sum::<Length>() / n }
}
