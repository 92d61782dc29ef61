//! Pictures of a landing: the seats with their loads, before and after; ride-off in every direction; the target's spread.

use crate::families::cup;
use crate::formulas::frame::arrangement::Hole;
use crate::formulas::frame::capture;
use crate::formulas::frame::chance::Chance;
use crate::formulas::frame::rest::{Rest, SeatRest};
use crate::formulas::frame::{Landing, Plan, Seat, SeatKind};
use crate::record::design::{Design, Value};
use crate::record::drawing::{Picture, SeatMark};
use crate::record::show;
use crate::shape::Point;
use crate::shop::by_unit;
use crate::units::{Angle, Length, LengthUnit};

use super::heights::Heights;
use super::read::{SeatSpec, Spec};
use super::results::{DIRECTIONS, Results, becomes, kind_name};

/// By how much offsets are drawn larger than the plan.
const MAGNIFIED: f64 = 50.0;

/// Puts the pictures into the design.
pub fn pictures(design: &mut Design, s: &Spec, heights: &Heights, landing: &Landing, r: &Results) {
    if let Ok(found) = &r.rest {
        let to_do = to_do(s, heights, landing, r);
        design.pictures.push(seats("At rest, as it is", s, landing, found, &to_do));
    }
    if let Some((landing, Ok(found))) = &r.all_round {
        design.pictures.push(seats("At rest with a round cup on every cone", s, landing, found, &[]));
    }
    if let (Some(a), Some(Ok(found))) = (&r.arrangement, &r.as_arranged) {
        design.pictures.push(seats("At rest, as arranged", s, &a.landing, found, &[]));
    }
    // One seat stands for all that are alike: the first with a cup that carries.
    design.pictures.extend(s.seats.iter().find_map(section));
    let least_needed = s.demands.forward.value().min(s.demands.rearward.value()).min(s.demands.sideways.value());
    let radii: Vec<f64> = r.ride_off.iter().map(|x| x.limit.map_or(FARTHEST, |g| g.as_g().min(FARTHEST))).collect();
    if !radii.is_empty() {
        design.pictures.push(Picture::Polar {
            title: "Sideways acceleration before it climbs off, without friction".into(),
            radii,
            ring: 0.5,
            needed: least_needed.as_g(),
            words: format!(
                "rings 0.5 g apart; grey: {} in every direction",
                show::value(&Value::Acceleration(least_needed), s.common.header.unit)
            ),
        });
    }
    design.pictures.push(hanging(s, r));
    if let Some(c) = &r.chance {
        design.pictures.push(bars(c, s));
    }
}

/// How far off the frame may hang in every direction, turned by what is left beside the swing.
fn hanging(s: &Spec, r: &Results) -> Picture {
    let yaw = r.capture.yaw_at_swing;
    let every = 360.0 / DIRECTIONS as f64;
    let reach = |i: usize| capture::reach(&r.catches, yaw, Angle::degrees(every * i as f64)).as_mm();
    let swing = s.swing();
    let unit = s.common.header.unit;
    let ring = by_unit(unit, 5.0, 0.25);
    Picture::Polar {
        title: format!(
            "How far off it may hang and still be caught, turned by {}° either way",
            show::trimmed(yaw.as_degrees(), 2)
        ),
        radii: (0..DIRECTIONS).map(reach).collect(),
        ring: ring.as_mm(),
        needed: swing.as_mm(),
        words: format!(
            "rings {} apart; grey: the hoist swing of {}",
            show::length(ring, unit),
            show::length(swing, unit)
        ),
    }
}

/// Limits beyond this are drawn here, g.
const FARTHEST: f64 = 3.0;

fn section(seat: &SeatSpec) -> Option<Picture> {
    let cup = seat.cup.as_ref().filter(|_| !matches!(seat.kind, Some("clear" | "pad")))?;
    let title = format!("Section through seat {}, fully home", seat.name);
    Some(Picture::Section { view: cup::seated(&title, cup, &seat.cone)?, title })
}

fn point(p: Plan) -> Point {
    Point::new(p.x, p.y)
}

/// What is to be done at each seat, in the order in which it is done: the shim and the pad under it, the cup that it has
/// or shall have where another set is better, what holds it down.
fn to_do(s: &Spec, heights: &Heights, landing: &Landing, r: &Results) -> Vec<Vec<String>> {
    let unit = s.common.header.unit;
    // Only an arrangement that finds its place is worth making.
    let seats_arranged = matches!(r.as_arranged, Some(Ok(_)));
    let better = r.arrangement.as_ref().filter(|_| seats_arranged && r.changed);
    let down = super::setting_out::held_down(s, r).map(|f| format!("tie down {}", show::value(&Value::Force(f), unit)));
    let of = |((i, seat), spec): ((usize, &Seat), &SeatSpec)| {
        let shim = r.shims_told().and_then(|shims| shims.amounts.get(i)).filter(|by| **by > Length::ZERO);
        let shim = shim.map(|by| format!("shim {} under it", show::length(*by, unit)));
        let becoming = better.and_then(|a| a.holes.get(i));
        let cup = becoming.map_or_else(
            || Some(stands(seat, spec, heights, unit)),
            |hole| {
                if is_wide_enough(seat, spec, heights, hole) {
                    return Some(stands(seat, spec, heights, unit));
                }
                change(seat, hole, unit)
            },
        );
        // A seat that becomes another one has no pad to be made for what it was.
        let pad = heights.pads.get(i).copied().flatten().filter(|_| becoming.is_none());
        let made = |pad| show::length(super::setting_out::pad_made(pad, unit), unit);
        let pad = pad.map(|pad| match spec.pad {
            Some(own) => format!("pad {} high", show::length(own, unit)),
            None => format!("pad {} high, shimmed up", made(pad)),
        });
        shim.into_iter().chain(pad).chain(cup).chain(down.clone()).collect()
    };
    landing.seats().iter().enumerate().zip(&s.seats).map(of).collect()
}

/// Whether a clear hole stays as it is, being no smaller than what is asked.
fn is_wide_enough(seat: &Seat, spec: &SeatSpec, heights: &Heights, hole: &Hole) -> bool {
    let Hole::Clear { diameter, .. } = hole else { return false };
    matches!(seat.kind, SeatKind::Clear { .. }) && heights.hole(spec) >= *diameter
}

/// What is made of a cup: `make it a slot at -24° from x, 52.5 mm long`.
fn change(seat: &Seat, hole: &Hole, unit: LengthUnit) -> Option<String> {
    let (what, size, _) = becomes(seat, hole);
    Some(match (hole, size) {
        (Hole::Slot { .. }, Some(size)) => {
            format!("make it a {what}, {} long", show::length(room_for(size, unit), unit))
        }
        (Hole::Clear { .. }, Some(size)) => {
            format!("open it to clear Ø{}, on a pad", show::length(room_for(size, unit), unit))
        }
        _ if seat.kind == SeatKind::Round => what,
        _ => "make it round".into(),
    })
}

/// The cup that stands and stays.
fn stands(seat: &Seat, spec: &SeatSpec, heights: &Heights, unit: LengthUnit) -> String {
    match seat.kind {
        SeatKind::Round => "round".into(),
        SeatKind::Slot { direction, .. } => {
            let at = show::trimmed(direction.as_degrees(), 1);
            match spec.cup.as_ref().map(|cup| &cup.hole) {
                Some(cup::read::Hole::Slot { length, .. }) => {
                    format!("slot at {at}° from x, {} long", show::length(length.value, unit))
                }
                _ => format!("slot at {at}° from x"),
            }
        }
        SeatKind::Pad => "pad".into(),
        SeatKind::Clear { .. } => format!("clear Ø{}", show::length(room_for(heights.hole(spec), unit), unit)),
    }
}

/// The steps in which a plate is cut and a pad is faced: a tenth of a millimetre, five thou.
fn step(unit: LengthUnit) -> Length {
    if unit == LengthUnit::Mm { Length::mm(0.1) } else { Length::inches(0.005) }
}

/// A hole that shall leave room, rounded to the side that leaves more.
fn room_for(size: Length, unit: LengthUnit) -> Length {
    size.up_to(step(unit)).rounded()
}

fn seats(title: &str, s: &Spec, landing: &Landing, found: &Rest, to_do: &[Vec<String>]) -> Picture {
    let mark = |(i, (seat, at)): (usize, (&Seat, &SeatRest))| SeatMark {
        // Where it says what is to be done there, the kind stands among that.
        name: match to_do.get(i) {
            Some(_) => seat.name.clone(),
            None => format!("{}, {}", seat.name, kind_name(&seat.kind)),
        },
        at: point(seat.at),
        off: point(at.offset),
        load: if at.load.as_newtons() < 0.5 {
            String::new()
        } else {
            show::value(&Value::Force(at.load), s.common.header.unit)
        },
        touches: at.touching,
        to_do: to_do.get(i).cloned().unwrap_or_default(),
    };
    Picture::Seats {
        title: title.into(),
        seats: landing.seats().iter().zip(&found.seats).enumerate().map(mark).collect(),
        centre: point(s.centre.0),
        magnified: MAGNIFIED,
    }
}

fn bars(c: &Chance, s: &Spec) -> Picture {
    let unit = s.common.header.unit;
    let edge = |i: usize| show::length_number((c.bin_width * i as f64).rounded(), unit);
    Picture::Bars {
        title: format!("How far off its place the target comes to rest, {}: {} draws", show::unit_name(unit), c.solved),
        edges: (0..=c.bins.len()).map(edge).collect(),
        counts: c.bins.iter().map(|n| *n as u32).collect(),
        limits: Vec::new(),
    }
}
