//! The trailer out of level: what it leaves of capture, of the hold on the road and of the tie-down, and whether the frame
//! still slides home.

use crate::families::Depth;
use crate::formulas::frame::friction;
use crate::formulas::frame::rest::rest;
use crate::formulas::frame::ride_off::{self, Holding, RideOff};
use crate::formulas::frame::{InputError, Landing, Load, hinged};
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::show;
use crate::source::Source;
use crate::units::{Acceleration, Angle, Length};

use super::degrees;
use super::heights::Heights;
use super::read::{self, Spec};
use super::results::{DIRECTIONS, Results, grip};
use super::rubbing::WANDER_RANGE;
use super::seated::SEATED_WITHIN;
use super::sizes;

const CAPTURE: Check = Check {
    key: "slope_capture",
    what: "capture, standing out of level, against the hoist swing",
    worst: Verdict::Fail,
    source: Source::Derived(
        "the level frame over leaning cones: capture - d/2 (1 - cos) - t sin - L (1 - cos) - d/2 tan a sin",
    ),
};
const RIDE: Check = Check {
    key: "slope_ride_off",
    what: "sideways acceleration before it climbs off, standing out of level",
    worst: Verdict::Fail,
    source: Source::Derived("weight x cos of the slope holds, weight x sin of it pushes"),
};
const HOME: Check = Check {
    key: "slope_home",
    what: "farthest that friction may leave it off its place, out of level",
    worst: Verdict::Fail,
    source: Source::Derived(
        "contact forces within the friction angle that balance the weight on the slope, eight ways",
    ),
};

/// Ways that it may lean.
const WAYS: u32 = 8;

/// What the slope does.
pub struct Slope {
    /// Capture that is left, and the seat.
    pub capture: Option<(usize, Length)>,
    /// Limits on the slope, less what the slope takes.
    pub ride_off: Vec<RideOff>,
    /// What friction leaves; `None`: it finds no place.
    pub held: Option<Left>,
}

/// Where friction may leave the frame, whichever way it leans.
#[derive(Clone, Copy, Default)]
pub struct Left {
    /// Farthest that it is held off its place, and which way it leans then.
    pub farthest: (Length, Angle),
    /// Farthest that the target is, set down no farther off than the frame swings.
    pub left: Length,
}

/// The landing with the weight pulling aside, the ways that it may lean.
pub fn leaning(landing: &Landing, tilt: Angle) -> Vec<(Angle, Result<Landing, InputError>)> {
    let (down, side) = (landing.load().weight * tilt.cos(), landing.load().weight * tilt.sin());
    let one = |i: u32| {
        let way = Angle::degrees(360.0 / f64::from(WAYS) * f64::from(i));
        let load = Load { weight: down, side: [side * way.cos(), side * way.sin()], ..landing.load().clone() };
        (way, Landing::new(landing.seats().to_vec(), load))
    };
    (0..WAYS).map(one).collect()
}

/// Works it out.
pub fn slope(s: &Spec, heights: &Heights, landing: &Landing, r: &Results, depth: Depth) -> Result<Slope, InputError> {
    let tilt = s.tilt();
    let holding = Holding { friction: 0.0, weight_part: s.demands.bump.value() * tilt.cos() };
    let mut ride_off = ride_off::ride_off(landing, &holding, DIRECTIONS)?;
    for one in &mut ride_off {
        one.limit = one.limit.map(|limit| limit - Acceleration::g(tilt.sin()));
    }
    let home = r.rest.is_ok() && depth.wants(&["slope_home", "comes_back"]);
    let held = if home { held(s, landing, r, tilt)? } else { None };
    Ok(Slope { capture: capture(s, heights, landing, r, tilt), ride_off, held })
}

fn capture(s: &Spec, heights: &Heights, landing: &Landing, r: &Results, tilt: Angle) -> Option<(usize, Length)> {
    let seats = landing.seats();
    let apart = seats.iter().flat_map(|a| seats.iter().map(|b| (a.at - b.at).length())).fold(Length::ZERO, Length::max);
    let left = |(i, ((spec, seat), catch)): (
        usize,
        ((&read::SeatSpec, &crate::formulas::frame::Seat), &crate::formulas::frame::capture::Catch),
    )| {
        let (ring, thick) = super::hinged::ring(spec, heights);
        let back = hinged::shortening(apart, tilt) + hinged::pitched_shift(ring, seat.half_angle, tilt)?;
        Some((i, hinged::pitched_capture(catch.capture, ring, thick, tilt) - catch.mismatch.length() - back))
    };
    super::hinged::least_of(s.seats.iter().zip(seats).zip(&r.catches).enumerate().filter_map(left))
}

/// Farthest that friction may leave it, whichever way it leans.
fn held(s: &Spec, landing: &Landing, r: &Results, tilt: Angle) -> Result<Option<Left>, InputError> {
    let mut worst = Left::default();
    for (way, leaning) in leaning(landing, tilt) {
        let leaning = leaning?;
        let Ok(found) = rest(&leaning) else { return Ok(None) };
        let directions = friction::telling_directions(&leaning, WAYS);
        let grip = grip(&r.rubbing);
        let shifted = friction::held_shifts(&leaning, &found, grip, WANDER_RANGE, &directions)?;
        let mut turned = friction::held_turns(&leaning, &found, grip, WANDER_RANGE)?;
        let mut points = friction::points_round(&leaning, 6, &[1.0, 2.5]);
        points.extend(friction::points_between(&leaning));
        turned.extend(friction::held_about(&leaning, &found, grip, WANDER_RANGE, &points)?);
        let most =
            shifted.iter().map(|h| h.shift).chain(turned.iter().map(|t| t.shift)).fold(Length::ZERO, Length::max);
        if most > worst.farthest.0 {
            worst.farthest = (most, way);
        }
        worst.left = worst.left.max(super::rubbing::left_by_friction(s, &shifted, &turned));
    }
    Ok(Some(worst))
}

/// Records the slope that is reckoned with and what it leaves.
pub fn record(design: &mut Design, s: &Spec, r: &Results) {
    design.given_or(&read::TRAILER_TILT, s.trailer_tilt.as_ref(), read::USUAL_TILT, Value::Angle, "common practice");
    let on_three = r.on_slope.0.as_ref().and_then(|p| ride_off::governing_on_three(p));
    if let Some(force) = on_three {
        design.computed(
            &sizes::LEAST_PRELOAD_ON_SLOPE,
            Value::Force(force),
            "the slope pushes along with every case, and takes of the weight",
        );
    }
}

/// Judges what the slope leaves.
pub fn judge(design: &mut Design, s: &Spec, found: &Slope, r: &Results) {
    let by = degrees(s.tilt());
    let swing = s.swing();
    if let Some((seat, left)) = found.capture {
        let name = s.seats.get(seat).map_or("", |seat| seat.name.as_str());
        design.at_least(
            &CAPTURE,
            Value::Length(left.rounded()),
            Value::Length(swing),
            // The 5 mm in hand of the level capture are for what is not reckoned; here the slope is.
            None,
            format!(
                "{by} out of level: the frame hangs level and meets the higher end first; {name} is the first to miss"
            ),
        );
    }
    if let Some((limit, wanted, direction)) = super::checks::shortest(s, &found.ride_off) {
        let shown = |a: Acceleration| Value::Acceleration(Acceleration::g((a.as_g() * 1000.0).round() / 1000.0));
        let tie = r.on_slope.0.as_ref().and_then(|p| ride_off::governing_on_three(p));
        let tie = match (tie, &r.on_slope.1) {
            (Some(force), _) => format!("; tie down each seat with at least {}", design.say().force(force)),
            (None, Some(why)) => super::checks::no_tie_down(why),
            (None, None) => String::new(),
        };
        design.at_least(
            &RIDE,
            shown(limit),
            shown(Acceleration::ZERO),
            Some(shown(wanted)),
            format!(
                "leaning {by} towards {}° from x, {}{tie}",
                show::trimmed(direction.as_degrees(), 0),
                if s.base().drives() { "driving or braking across it" } else { "pushed down the slope" }
            ),
        );
    }
    home(design, found, r, &by, s.base().word());
}

fn home(design: &mut Design, found: &Slope, r: &Results, by: &str, base: &str) {
    if r.rest.is_err() {
        return;
    }
    let Some(Left { farthest: (shift, way), .. }) = found.held else {
        design.finding(
            &HOME,
            Verdict::Fail,
            None,
            None,
            format!("{by} out of level it tips or slides off: level the {base} first"),
        );
        return;
    };
    let (verdict, because) = if shift > SEATED_WITHIN {
        let way = show::trimmed(way.as_degrees(), 0);
        let how = format!("leaning {by} towards {way}° from x, at friction {}", r.rubbing.taken);
        (
            Verdict::Caution,
            format!("{how}: level the {base} before, grease the flanks, push it home before the rope is slack"),
        )
    } else {
        (Verdict::Ok, format!("{by} out of level any way, at friction {}, it still slides home", r.rubbing.taken))
    };
    design.finding(
        &HOME,
        verdict,
        Some(Value::Length(shift.rounded())),
        Limit::AtMost(Value::Length(SEATED_WITHIN)),
        because,
    );
}
