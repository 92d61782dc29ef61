//! Pictures of a landing: the seats with their loads, before and after; ride-off in every direction; the target's spread.

use crate::families::cup;
use crate::formulas::frame::capture;
use crate::formulas::frame::chance::Chance;
use crate::formulas::frame::rest::{Rest, SeatRest};
use crate::formulas::frame::{Landing, Plan, Seat};
use crate::record::design::{Design, Value};
use crate::record::drawing::{Picture, SeatMark};
use crate::record::show;
use crate::shape::Point;
use crate::shop::by_unit;
use crate::units::{Angle, Length};

use super::read::{SeatSpec, Spec};
use super::results::{DIRECTIONS, Results, becomes, kind_name};

/// By how much offsets are drawn larger than the plan.
const MAGNIFIED: f64 = 50.0;

/// Puts the pictures into the design.
pub fn pictures(design: &mut Design, s: &Spec, landing: &Landing, r: &Results) {
    if let Ok(found) = &r.rest {
        let to_do = to_do(s, landing, r);
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

/// What is to be done at each seat: the cup that it shall have where another set is better than the one that stands, and the
/// shim under it.
fn to_do(s: &Spec, landing: &Landing, r: &Results) -> Vec<Vec<String>> {
    let unit = s.common.header.unit;
    // Only an arrangement that finds its place is worth making.
    let seats_arranged = matches!(r.as_arranged, Some(Ok(_)));
    let better = r.arrangement.as_ref().filter(|_| seats_arranged && !r.kept);
    let of = |(i, seat): (usize, &Seat)| {
        let cup = better.and_then(|a| a.holes.get(i)).map(|hole| match becomes(seat, hole) {
            (what, Some(size), _) => format!("{what}, {}", show::length(size, unit)),
            (what, None, _) => what,
        });
        let shim = r.shims.as_ref().and_then(|shims| shims.amounts.get(i)).filter(|by| **by > Length::ZERO);
        // In the order in which it is done: what lies under the cup is there before the cup is.
        shim.map(|by| format!("shim {} under it", show::length(*by, unit))).into_iter().chain(cup).collect()
    };
    landing.seats().iter().enumerate().map(of).collect()
}

fn seats(title: &str, s: &Spec, landing: &Landing, found: &Rest, to_do: &[Vec<String>]) -> Picture {
    let mark = |(i, (seat, at)): (usize, (&Seat, &SeatRest))| SeatMark {
        name: format!("{}, {}", seat.name, kind_name(&seat.kind)),
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
