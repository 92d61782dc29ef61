//! Pushing it off: the largest sideways acceleration in every direction before the frame climbs off its
//! cones, and the preload per corner that holds the transport accelerations.

#![allow(clippy::indexing_slicing, reason = "indices run over the three plan and six space freedoms")]

use super::cone_program::{Block, Outcome, Program, Row, Workspace};
use super::model::{InputError, Landing, Plan, Seat, SeatKind};
use super::scaled::{motion_rows, times};
use super::small::{Vec6, add_scaled, dot};
use crate::units::{Acceleration, Angle, Force, Length, Mass, STANDARD_GRAVITY};

/// Largest sideways acceleration in one direction.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct RideOff {
    /// Direction of the force on the frame, from the x axis.
    pub direction: Angle,
    /// Acceleration at which it climbs off or tips; `None`: no limit from the seats (self-holding cones).
    pub limit: Option<Acceleration>,
}

/// Friction at which sideways holding is judged, and how much of the weight counts.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Holding {
    /// Friction coefficient on the flanks that hold (nought: conservative under vibration).
    pub friction: f64,
    /// Part of the weight counted on over bumps.
    pub weight_part: f64,
}

impl Default for Holding {
    /// No friction, the whole weight.
    fn default() -> Self {
        Self { friction: 0.0, weight_part: 1.0 }
    }
}

/// The limit in `count` evenly spaced directions, beginning at +x.
///
/// A sideways force F at the centre of mass is held as long as seats that only press can balance it, frictionless
/// flanks of slope cot(α − φ). The largest F is found exactly: max t with Gᵀz = q0 + t q1, z in K, by its dual
/// min q0·v with q1·v = −1, G v in K. Clear holes and the ends of slots are not counted on: locators hold.
pub fn ride_off(landing: &Landing, holding: &Holding, count: usize) -> Result<Vec<RideOff>, InputError> {
    let mut work = Workspace::default();
    let setup = Setup::new(landing, holding)?;
    let direction = |i: usize| Angle::degrees(360.0 * i as f64 / count as f64);
    Ok((0..count).map(|i| setup.limit(direction(i), &mut work)).collect())
}

/// The least of a set of limits.
pub fn least(limits: &[RideOff]) -> Option<RideOff> {
    let bounded = limits.iter().filter_map(|r| Some((r, r.limit?)));
    bounded.min_by(|a, b| a.1.as_g().total_cmp(&b.1.as_g())).map(|(r, _)| *r)
}

/// Slope beyond which a flank counts as self-holding.
const STEEPEST: f64 = 1e4;

struct Setup {
    blocks: Vec<Block>,
    rows: Vec<Row>,
    weight: Vec6,
    height: f64,
    /// Force per g over the unit of force.
    per_g: f64,
}

impl Setup {
    fn new(landing: &Landing, holding: &Holding) -> Result<Self, InputError> {
        let phi = super::contact::friction_angle(holding.friction)?;
        if !(holding.weight_part > 0.0 && holding.weight_part <= 1.0) {
            return Err(InputError::OutOfRange("part of the weight"));
        }
        let load = landing.load();
        let far = |s: &Seat| (s.at - load.centre).length().as_mm();
        let radius = landing.seats().iter().map(far).fold(1.0, f64::max);
        let place = |at: Plan| (at - load.centre).pair().map(|v| v / radius);
        let weight = load.weight.as_newtons();
        let unit = weight.max(load.down().as_newtons());
        let mut down = times(holding.weight_part * weight / unit, &motion_rows(0.0, 0.0)[2]);
        for pull in &load.pulls {
            let [x, y] = place(pull.at);
            add_scaled(&mut down, pull.down.as_newtons() / unit, &motion_rows(x, y)[2]);
        }
        let height = load.height.as_mm() / radius;
        let mut made = Self { blocks: vec![], rows: vec![], weight: down, height, per_g: weight / unit };
        landing.seats().iter().for_each(|s| made.add(s, place(s.at), phi));
        Ok(made)
    }

    fn add(&mut self, seat: &Seat, [x, y]: [f64; 2], phi: Angle) {
        let [across_x, across_y, up] = motion_rows(x, y);
        let angle = seat.half_angle - phi;
        let slope = if angle > Angle::ZERO { (1.0 / angle.tan()).min(STEEPEST) } else { STEEPEST };
        match seat.kind {
            SeatKind::Round => {
                let rows = [up, times(slope, &across_x), times(slope, &across_y)];
                self.blocks.push(Block { rows, shift: [0.0; 3] });
            }
            SeatKind::Slot { direction, .. } => {
                for sign in [slope, -slope] {
                    let mut row = up;
                    add_scaled(&mut row, -sign * direction.sin(), &across_x);
                    add_scaled(&mut row, sign * direction.cos(), &across_y);
                    self.rows.push(Row { row, shift: 0.0 });
                }
            }
            SeatKind::Pad | SeatKind::Clear { on_pad: true, .. } => self.rows.push(Row { row: up, shift: 0.0 }),
            SeatKind::Clear { .. } => {}
        }
        if seat.face.is_some() && !matches!(seat.kind, SeatKind::Pad) {
            self.rows.push(Row { row: up, shift: 0.0 });
        }
    }

    /// max t by the dual: v = v0 + (what is across q1), q1·v0 = −1.
    fn limit(&self, direction: Angle, work: &mut Workspace) -> RideOff {
        let (fx, fy) = (direction.cos() * self.per_g, direction.sin() * self.per_g);
        let push = [-fx, -fy, 0.0, 0.0, fy * self.height, -fx * self.height];
        let size = dot(&push, &push);
        if size <= 0.0 {
            return RideOff { direction, limit: None };
        }
        let start = push.map(|v| -v / size);
        let project = |row: &Vec6| {
            let mut out = *row;
            add_scaled(&mut out, -dot(row, &push) / size, &push);
            out
        };
        let mut p = Program { cost: project(&self.weight), ..Program::default() };
        for b in &self.blocks {
            p.blocks.push(Block {
                rows: [project(&b.rows[0]), project(&b.rows[1]), project(&b.rows[2])],
                shift: b.map(&start),
            });
        }
        p.rows.extend(self.rows.iter().map(|r| Row { row: project(&r.row), shift: dot(&r.row, &start) }));
        let least = dot(&self.weight, &start);
        let found = match p.free_directions() {
            Err(_) => Some(0.0),
            Ok(()) => match work.run(&p, 1e-9) {
                Outcome::Lowest => Some((least + dot(&p.cost, &work.x)).max(0.0)),
                Outcome::Unbounded => Some(0.0),
                Outcome::Infeasible | Outcome::Stalled => None,
            },
        };
        let steep = found.is_some_and(|g| g > 0.01 * STEEPEST);
        RideOff { direction, limit: found.filter(|_| !steep).map(Acceleration::g) }
    }
}

/// A frame held by one round cup and one slot, loads shared as on equal springs.
#[derive(Clone, PartialEq, Debug)]
pub struct Transport {
    /// Mass of the frame.
    pub mass: Mass,
    /// Centre of mass in plan.
    pub centre: Plan,
    /// Centre of mass above the seats.
    pub height: Length,
    /// All seats.
    pub seats: Vec<Plan>,
    /// Index of the round cup.
    pub round: usize,
    /// Index of the slotted cup.
    pub slot: usize,
    /// Direction of the slot's length.
    pub slot_direction: Angle,
    /// Half-angle of the cone under the round cup.
    pub half_angle: Angle,
    /// Half-angle of the cone under the slot.
    pub slot_half_angle: Angle,
    /// Friction that helps to hold.
    pub friction: f64,
    /// Part of the weight counted on over bumps.
    pub weight_part: f64,
    /// Safety factor on climbing.
    pub safety: f64,
}

/// A stated acceleration of the frame's inertia force.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Case {
    /// What it is called.
    pub name: &'static str,
    /// Along x (front positive).
    pub along: Acceleration,
    /// Along y (left positive).
    pub across: Acceleration,
}

/// What one case asks of the two locators.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct CaseResult {
    /// The case.
    pub case: Case,
    /// Side force on the round cup.
    pub round: Force,
    /// Side force on the slotted cup.
    pub slot: Force,
    /// Least downward preload at every seat, loads shared as on equal springs.
    pub preload: Force,
    /// The same where a stiff frame may stand on any three: a seat counts on no more than the least load that statics
    /// leaves it, standing or pushed, and on its own tie-down.
    pub preload_on_three: Force,
}

/// Least preload per seat for each case: S = −[(rG − rR) × F]/[(rS − rR) × n], R = −F − S n (planar statics, n
/// square to the slot), vertical loads as on equal springs with the overturning moment F h; needed
/// P_i >= safety · side force_i · tan(α − φ) at R and S, P_i >= 0 elsewhere. Derived. Self-holding cones: an error,
/// as they hold without preload but do not release.
pub fn least_preloads(t: &Transport, cases: &[Case]) -> Result<Vec<CaseResult>, InputError> {
    let phi = super::contact::friction_angle(t.friction)?;
    let angles = [t.half_angle - phi, t.slot_half_angle - phi];
    let (Some(round), Some(slot)) = (t.seats.get(t.round), t.seats.get(t.slot)) else {
        return Err(InputError::NoSeats);
    };
    for (angle, half) in angles.into_iter().zip([t.half_angle, t.slot_half_angle]) {
        if !(angle > Angle::ZERO && half.as_degrees() < 90.0) {
            return Err(InputError::HalfAngle("self-holding".to_owned(), half));
        }
    }
    let lever = cross((*slot - *round).pair(), [-t.slot_direction.sin(), t.slot_direction.cos()]);
    let reach = (*slot - *round).length().as_mm();
    if !(reach > 0.0 && lever.abs() > 1e-9 * reach) {
        return Err(InputError::OutOfRange("direction of the slot (it cannot stop the frame from turning)"));
    }
    Ok(cases.iter().map(|case| case_result(t, *case, angles, lever, round)).collect())
}

fn cross(a: [f64; 2], b: [f64; 2]) -> f64 {
    a[0] * b[1] - a[1] * b[0]
}

fn case_result(t: &Transport, case: Case, angles: [Angle; 2], lever: f64, round: &Plan) -> CaseResult {
    let per_g = t.mass.as_kg() * STANDARD_GRAVITY;
    let f = [case.along.as_g() * per_g, case.across.as_g() * per_g];
    let slot = -cross((t.centre - *round).pair(), f) / lever;
    let n = [-t.slot_direction.sin(), t.slot_direction.cos()];
    let held = libm::hypot(f[0] + slot * n[0], f[1] + slot * n[1]);
    let (springs, least) = vertical_loads(t, f);
    let need = |i: usize| match i {
        _ if i == t.round => t.safety * held * angles[0].tan(),
        _ if i == t.slot => t.safety * slot.abs() * angles[1].tan(),
        _ => 0.0,
    };
    let lacking = |loads: &[f64]| loads.iter().enumerate().map(|(i, p)| need(i) - p).fold(0.0, f64::max);
    let preload = lacking(&springs);
    let on_three = lacking(&least).max(preload);
    let newtons = Force::newtons;
    CaseResult {
        case,
        round: newtons(held),
        slot: newtons(slot.abs()),
        preload: newtons(preload),
        preload_on_three: newtons(on_three),
    }
}

/// Spring shares of the counted weight plus the overturning moment, and the least that each seat may be left with by any
/// three, with that moment or without it (one that helps is not counted on). Three seats leave statics nothing open: there
/// the two are one.
fn vertical_loads(t: &Transport, f: [f64; 2]) -> (Vec<f64>, Vec<f64>) {
    let w = t.mass.as_kg() * STANDARD_GRAVITY * t.weight_part;
    let h = t.height.as_mm();
    let foot = [t.centre.x.as_mm() + f[0] * h / w, t.centre.y.as_mm() + f[1] * h / w];
    let at: Vec<[f64; 2]> = t.seats.iter().map(|p| p.pair()).collect();
    let springs: Vec<f64> = super::loads::spring_plane_all(&at, foot).into_iter().map(|s| s * w).collect();
    if at.len() == 3 {
        return (springs.clone(), springs);
    }
    let least = |foot| super::loads::least_shares(&at, foot);
    let (pushed, standing) = (least(foot), least(t.centre.pair()));
    let at_least = |i: usize, spring: &f64| {
        let of = |shares: &Option<Vec<f64>>| shares.as_ref().and_then(|s| s.get(i)).map_or(*spring, |s| s * w);
        of(&pushed).min(of(&standing))
    };
    let least = springs.iter().enumerate().map(|(i, spring)| at_least(i, spring)).collect();
    (springs, least)
}

/// Greatest preload over all cases where the frame may stand on any three.
pub fn governing_on_three(results: &[CaseResult]) -> Option<Force> {
    results.iter().map(|r| r.preload_on_three).reduce(Force::max)
}

/// Greatest preload over all cases.
pub fn governing(results: &[CaseResult]) -> Option<CaseResult> {
    results.iter().copied().max_by(|a, b| a.preload.as_newtons().total_cmp(&b.preload.as_newtons()))
}
