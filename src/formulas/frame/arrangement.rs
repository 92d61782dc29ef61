//! Which cup becomes round, which becomes the slot, and how large the clear holes must be: one round cup, one
//! slot pointing at it, the rest clear on pads. Such a frame rests flat, at one place, with no force locked in.
//!
//! For every ordered pair the frame is set exactly: round cup on its cone, turned until the slot's cup lies on
//! the line to its own cone. What is left along that line is the slot's float; what is left elsewhere asks
//! for clearance. Pairs are ranked by what they ask for and what they hold: room with growth and doubt, sideways force
//! before it climbs off, tie-down, length between the two, load on both. A seat that carries nothing is neither.
#![allow(clippy::indexing_slicing, reason = "indices run over the seats of the same landing")]

use super::contact::relieved_cone_rise;
use super::loads::spring_loads;
use super::model::{InputError, Landing, Plan, Seat, SeatKind};
use super::ride_off::{self, Case, Holding, Transport};
use crate::units::{Acceleration, Angle, Expansion, Force, Length, Mass, STANDARD_GRAVITY, TemperatureChange};

/// What is known beside the positions.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Allowances {
    /// Frame against what carries the cones: difference of expansion.
    pub expansion: Expansion,
    /// Temperature change they must bear.
    pub temperature: TemperatureChange,
    /// Radial tolerance of the place of each cup against its cone, three sigma, kept as further room.
    pub position: Length,
    /// Cup diameter on the cone.
    pub seat_diameter: Length,
    /// Half-angle of the arcs of a relieved cone.
    pub relief: Angle,
}

/// What each seat becomes.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Hole {
    /// Round, the seat diameter.
    Round,
    /// Slotted.
    Slot {
        /// Direction of its length from x.
        direction: Angle,
        /// Overall length: seat diameter + 2 float.
        length: Length,
        /// Float needed each way.
        float: Length,
        /// Rise of a relieved cone instead of the slot, at that float.
        relieved_rise: Length,
    },
    /// Round with room, on a flat pad at the seat height.
    Clear {
        /// Hole diameter: cone diameter at the pad + 2 clearance.
        diameter: Length,
        /// Radial room.
        clearance: Length,
    },
}

/// One pair tried.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Pair {
    /// Index of the round cup.
    pub round: usize,
    /// Index of the slot.
    pub slot: usize,
    /// Cup minus cone distance along the slot, signed.
    pub float: Length,
    /// Largest offset of the other seats.
    pub clearance: Length,
}

/// What the road asks of a pair.
#[derive(Clone, PartialEq, Debug)]
pub struct Road {
    /// Part of the weight counted on over bumps.
    pub weight_part: f64,
    /// Safety factor on climbing.
    pub safety: f64,
    /// Accelerations to be held.
    pub cases: Vec<Case>,
}

/// A pair with all that speaks for it and against it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Judged {
    /// The pair.
    pub pair: Pair,
    /// Greatest room that any clear hole or the slot asks for, growth and doubt included.
    pub room: Length,
    /// Least sideways acceleration that climbs off; `None`: no limit.
    pub ride_off: Option<Acceleration>,
    /// Least tie-down at each seat, the frame on any three.
    pub tie_down: Force,
    /// Distance of the two.
    pub base: Length,
    /// Load on the round cup and on the slot as on equal springs, over bumps.
    pub loads: [Force; 2],
    /// How many times the best of all pairs it asks for, summed over the five (5: the best in each); endless where the
    /// round cup or the slot carries nothing.
    pub score: f64,
}

/// The arrangement found.
#[derive(Clone, PartialEq, Debug)]
pub struct Arrangement {
    /// The best pair.
    pub best: Pair,
    /// Every pair tried, the best first.
    pub pairs: Vec<Judged>,
    /// What each seat becomes, in their order.
    pub holes: Vec<Hole>,
    /// The landing as arranged.
    pub landing: Landing,
}

impl Arrangement {
    /// The same with the holes sized seat by seat: slots as wide as the hole of that cup, clear holes from the cone where the
    /// plate meets it.
    pub fn sized(mut self, width: &dyn Fn(usize) -> Length, cone: &dyn Fn(usize) -> Length) -> Self {
        for (i, hole) in self.holes.iter_mut().enumerate() {
            match hole {
                Hole::Round => {}
                Hole::Slot { length, float, .. } => *length = width(i) + 2.0 * *float,
                Hole::Clear { diameter, clearance } => *diameter = cone(i) + 2.0 * *clearance,
            }
        }
        self
    }
}

/// Thermal growth over a distance: L |Δα| ΔT. Example: 1600 mm, 11.9e-6/K, 40 K: 0.7616 mm.
pub fn thermal_growth(distance: Length, difference: Expansion, change: TemperatureChange) -> Length {
    (distance * (difference * change)).abs()
}

/// Actual places of cone and cup of a seat: the cone at its nominal place, the cup off by the mismatch.
fn cup(seat: &Seat) -> Plan {
    seat.at + seat.mismatch
}

/// Offsets of all cups when cup `round` sits on its cone and cup `slot` lies on the line to its own.
fn offsets(seats: &[Seat], round: usize, slot: usize) -> Vec<Plan> {
    let (cone_r, cup_r) = (seats[round].at, cup(&seats[round]));
    let wanted = (seats[slot].at - cone_r).direction();
    let turn = wanted - (cup(&seats[slot]) - cup_r).direction();
    let (s, c) = (turn.sin(), turn.cos());
    let moved = |p: Plan| {
        let d = p - cup_r;
        Plan { x: d.x * c - d.y * s, y: d.x * s + d.y * c } + cone_r
    };
    seats.iter().map(|seat| moved(cup(seat)) - seat.at).collect()
}

fn try_pair(seats: &[Seat], round: usize, slot: usize) -> Pair {
    let left = offsets(seats, round, slot);
    let direction = (seats[slot].at - seats[round].at).direction();
    let float = left[slot].x * direction.cos() + left[slot].y * direction.sin();
    let others = left.iter().enumerate().filter(|(i, _)| *i != round && *i != slot);
    let clearance = others.map(|(_, d)| d.length()).fold(Length::ZERO, Length::max);
    Pair { round, slot, float, clearance }
}

/// Pairs that are judged in full where there are many: those that ask for the least room.
const JUDGED: usize = 30;
/// A seat that carries less than this part of an even share carries nothing. Source: common practice, no source.
const CARRIES: f64 = 0.05;
/// No criterion counts for more than this many times the best.
const WORST: f64 = 10.0;

/// Tries every ordered pair and builds the arrangement of the best.
pub fn arrange(landing: &Landing, allow: &Allowances, road: &Road) -> Result<Arrangement, InputError> {
    check(allow)?;
    let seats = landing.seats();
    let indices = 0..seats.len();
    let ordered = indices.clone().flat_map(|r| indices.clone().map(move |s| (r, s))).filter(|(r, s)| r != s);
    let mut tried = ordered
        .map(|(r, s)| {
            let pair = try_pair(seats, r, s);
            arranged(landing, allow, pair).map(|made| (pair, made))
        })
        .collect::<Result<Vec<_>, InputError>>()?;
    tried.sort_by(|a, b| most_room(&a.1.holes).as_mm().total_cmp(&most_room(&b.1.holes).as_mm()));
    tried.truncate(JUDGED);
    let mut pairs: Vec<Judged> = tried.iter().map(|(pair, made)| judged(*pair, made, road)).collect();
    score(&mut pairs, landing, road);
    pairs.sort_by(|a, b| a.score.total_cmp(&b.score));
    let best = pairs.first().ok_or(InputError::OutOfRange("number of seats (two at least)"))?.pair;
    Ok(Arrangement { pairs, ..arranged(landing, allow, best)? })
}

/// The arrangement for a chosen pair alone.
#[allow(dead_code, reason = "tests ask for one pair with it")]
pub fn of_pair(landing: &Landing, allow: &Allowances, round: usize, slot: usize) -> Result<Arrangement, InputError> {
    check(allow)?;
    let known = round.max(slot) < landing.seats().len() && round != slot;
    if !known {
        return Err(InputError::OutOfRange("seats of the pair"));
    }
    arranged(landing, allow, try_pair(landing.seats(), round, slot))
}

fn most_room(holes: &[Hole]) -> Length {
    let room = |hole: &Hole| match *hole {
        Hole::Round => Length::ZERO,
        Hole::Slot { float, .. } => float,
        Hole::Clear { clearance, .. } => clearance,
    };
    holes.iter().map(room).fold(Length::ZERO, Length::max)
}

/// What a pair asks for and holds.
fn judged(pair: Pair, made: &Arrangement, road: &Road) -> Judged {
    let landing = &made.landing;
    let (seats, load) = (landing.seats(), landing.load());
    let (round, slot) = (&seats[pair.round], &seats[pair.slot]);
    let holding = Holding { friction: 0.0, weight_part: road.weight_part };
    // What cannot be held counts as the worst: no hold at all, no tie-down that is enough.
    let limits = ride_off::ride_off(landing, &holding, 24);
    let transport = Transport {
        mass: Mass::kg(load.weight.as_newtons() / STANDARD_GRAVITY),
        centre: load.centre,
        height: load.height,
        seats: seats.iter().map(|s| s.at).collect(),
        round: pair.round,
        slot: pair.slot,
        slot_direction: (slot.at - round.at).direction(),
        half_angle: round.half_angle,
        slot_half_angle: slot.half_angle,
        friction: 0.0,
        weight_part: road.weight_part,
        safety: road.safety,
    };
    let preloads = ride_off::least_preloads(&transport, &road.cases).ok();
    let carried = spring_loads(landing);
    let on = |i: usize| carried.get(i).map_or(Force::ZERO, |l| *l * road.weight_part);
    Judged {
        pair,
        room: most_room(&made.holes),
        ride_off: limits.map_or(Some(Acceleration::ZERO), |all| ride_off::least(&all).and_then(|l| l.limit)),
        tie_down: preloads.and_then(|p| ride_off::governing_on_three(&p)).unwrap_or(Force::newtons(f64::INFINITY)),
        base: (slot.at - round.at).length(),
        loads: [on(pair.round), on(pair.slot)],
        score: 0.0,
    }
}

/// Holds every pair against the best of all in each of the five.
fn score(pairs: &mut [Judged], landing: &Landing, road: &Road) {
    let load = |j: &Judged| j.loads[0].min(j.loads[1]).as_newtons();
    let most = |f: &dyn Fn(&Judged) -> f64| pairs.iter().map(f).fold(0.0, f64::max);
    let least = |f: &dyn Fn(&Judged) -> f64| pairs.iter().map(f).fold(f64::INFINITY, f64::min);
    let weight = landing.load().weight.as_newtons();
    let even = landing.load().down().as_newtons() * road.weight_part / landing.seats().len().max(1) as f64;
    // A tie-down of nought is no endless advantage over a small one.
    let tie = |j: &Judged| j.tie_down.as_newtons() + 0.1 * weight;
    let room = |j: &Judged| j.room.as_mm() + 1.0;
    let held = |j: &Judged| j.ride_off.map_or(f64::INFINITY, |g| g.as_g());
    let finite = |j: &Judged| if held(j).is_finite() { held(j) } else { 0.0 };
    let bests = (least(&room), most(&finite), least(&tie), most(&|j| j.base.as_mm()), most(&load));
    for j in pairs {
        let ratios = [
            room(j) / bests.0,
            bests.1 / held(j).min(bests.1).max(f64::MIN_POSITIVE),
            tie(j) / bests.2,
            bests.3 / j.base.as_mm(),
            bests.4 / load(j).max(f64::MIN_POSITIVE),
        ];
        let sum = ratios.iter().map(|r| if r.is_finite() { r.clamp(1.0, WORST) } else { WORST }).sum();
        j.score = if load(j) < CARRIES * even { f64::INFINITY } else { sum };
    }
}

fn check(allow: &Allowances) -> Result<(), InputError> {
    let numbers = [allow.position.as_mm(), allow.seat_diameter.as_mm(), allow.relief.as_degrees()];
    let finite = allow.expansion.is_finite() && allow.temperature.is_finite();
    if finite && numbers.iter().all(|v| v.is_finite() && *v >= 0.0) {
        return Ok(());
    }
    Err(InputError::OutOfRange("allowances"))
}

/// The arrangement for a chosen pair.
fn arranged(landing: &Landing, allow: &Allowances, best: Pair) -> Result<Arrangement, InputError> {
    let seats = landing.seats();
    let left = offsets(seats, best.round, best.slot);
    let growth = |i: usize| {
        let distance = (seats[i].at - seats[best.round].at).length();
        thermal_growth(distance, allow.expansion, allow.temperature)
    };
    let line = seats[best.slot].at - seats[best.round].at;
    let mut holes = Vec::new();
    for (i, seat) in seats.iter().enumerate() {
        holes.push(match i {
            _ if i == best.round => Hole::Round,
            _ if i == best.slot => {
                // Two places count along the slot: that of the round cup and its own.
                let room = growth(i) + allow.position * std::f64::consts::SQRT_2;
                slot_hole(seat, best, room, line.direction(), allow)?
            }
            _ => {
                let room = growth(i) + carried_room(seat.at - seats[best.round].at, line, allow.position);
                let clearance = (left[i].length() + room).max(Length::um(1.0));
                Hole::Clear { diameter: allow.seat_diameter + 2.0 * clearance, clearance }
            }
        });
    }
    let kinds = seats.iter().zip(&holes).map(|(seat, hole)| seat.clone().with_kind(kind_of(hole)));
    let landing = Landing::new(kinds.collect(), landing.load().clone())?;
    Ok(Arrangement { best, pairs: Vec::new(), holes, landing })
}

/// Room that the errors of place of all three pairs ask for at a clear hole `off` from the round cup, three sigma.
pub fn carried_room(off: Plan, line: Plan, tolerance: Length) -> Length {
    let (base, direction) = (line.length(), line.direction());
    let along = off.x * direction.cos() + off.y * direction.sin();
    let across = off.y * direction.cos() - off.x * direction.sin();
    three_sigma(along / base, across / base, tolerance)
}

fn slot_hole(seat: &Seat, best: Pair, room: Length, direction: Angle, allow: &Allowances) -> Result<Hole, InputError> {
    let float = best.float.abs() + room;
    let diameter = allow.seat_diameter.max(Length::um(1.0));
    let relieved_rise = relieved_cone_rise(float, allow.relief, seat.half_angle, diameter)?;
    Ok(Hole::Slot { direction, length: allow.seat_diameter + 2.0 * float, float, relieved_rise })
}

/// The room of a hole counts a hair larger in the programme, so that rounding cannot turn a fit into a clash.
const HAIR: Length = Length::um(0.1);

fn kind_of(hole: &Hole) -> SeatKind {
    match *hole {
        Hole::Round => SeatKind::Round,
        Hole::Slot { direction, float, .. } => SeatKind::Slot { direction, travel: float + HAIR },
        Hole::Clear { clearance, .. } => SeatKind::Clear { clearance: clearance + HAIR, on_pad: true },
    }
}

/// Three sigma of a third seat at (x along, y across) over the base length: greatest axis of the covariance over sigma²,
/// I + (I+M)(I+M)ᵀ + M Mᵀ.
fn three_sigma(x: f64, y: f64, tolerance: Length) -> Length {
    let (xx, xy, yy) = (2.0 + 2.0 * y * y, y * (1.0 - x) - x * y, 1.0 + (1.0 - x) * (1.0 - x) + x * x);
    tolerance * ((xx + yy) / 2.0 + libm::hypot((xx - yy) / 2.0, xy)).sqrt()
}
