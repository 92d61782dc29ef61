//! Where the frame comes to rest without friction: the lowest pose of its weight on all seats, what each
//! seat then carries, and whether that pose is the only one.
//!
//! min Σ P (z + φx y − φy x) − F·(shift of the centre of mass) over z_i >= s_i + |δ_i| cot α_i (round), the same with
//! the distance of δ from the line between the two ends (slot), z_i >= s_i (pad), z_i >= s_i + (|δ_i| − c_i) cot α_i
//! (clear), z_i >= f_i (face). The multipliers are the seat loads. Derived from the principle of least potential energy.
//!
//! A slot is taken by its sides first. Where the cone then lies beyond an end, the half-round end takes the place of the
//! sides, a cone constraint again. That is exact: the feasible set is convex, so a lowest pose that is not one of the
//! sides alone has the cone at the end towards which the sides alone would let it go.

use std::fmt;

use super::cone_program::{Block, Outcome, Program, Row, Workspace};
use super::loads::{TipMargin, tip_margin};
use super::model::{Landing, Plan, Pose, Seat, SeatKind};
use super::polish::{FROM_NEAR, FROM_NEIGHBOUR, Solution, Touch};
use super::small::{FREEDOMS, Vec6, add_scaled};
use super::{extent, level};
use crate::units::show::fixed;
use crate::units::{Angle, Force, Length};

/// Where the frame rests and how.
#[derive(Clone, PartialEq, Debug)]
pub struct Rest {
    /// The pose.
    pub pose: Pose,
    /// One entry per seat, in their order.
    pub seats: Vec<SeatRest>,
    /// How far the pose may wander without any rise.
    pub wander: Wander,
    /// How far inside its supports the load stands.
    pub tip: TipMargin,
    /// More supports touch than statics can tell apart: the loads are shared as by equal springs.
    pub shared: bool,
}

impl Rest {
    /// Is the pose the only one? (Within a thousandth of a micrometre.)
    pub fn unique(&self) -> bool {
        self.wander.is_none()
    }
}

/// What carries a seat's load.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Carrier {
    /// Nothing: it hangs free.
    Nothing,
    /// The cone, all round.
    Cone,
    /// One flank of the cone.
    Flank,
    /// The round end of a slot, against one flank of the cone.
    End,
    /// The flat pad.
    Pad,
    /// The crossbar face, before the cone fills the cup.
    Face,
}

/// One seat at rest.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct SeatRest {
    /// δ: cup off the cone's axis.
    pub offset: Plan,
    /// Rise above its own full seating.
    pub lift: Length,
    /// How far it would still have to fall to touch.
    pub gap: Length,
    /// Vertical load.
    pub load: Force,
    /// Sideways force of the seat on the frame.
    pub side: [Force; 2],
    /// Does it carry or push?
    pub touching: bool,
    /// What carries.
    pub carrier: Carrier,
}

/// Least and greatest of a freedom over all lowest poses. `None` at an end: no end.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Wander {
    /// dx in mm.
    pub dx: (Option<Length>, Option<Length>),
    /// dy in mm.
    pub dy: (Option<Length>, Option<Length>),
    /// Yaw.
    pub yaw: (Option<Angle>, Option<Angle>),
    /// Number of independent motions without rise.
    pub freedoms: usize,
}

impl Wander {
    /// No wandering at all.
    pub const fn is_none(&self) -> bool {
        self.freedoms == 0
    }
}

/// Why there is no rest pose.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum NoRest {
    /// No seat can carry weight.
    NothingCarries,
    /// The load stands outside its supports.
    Tips {
        /// How far outside.
        by: Length,
    },
    /// The sideways force drives it off its seats.
    SlidesAway {
        /// Direction of the motion in plan.
        direction: Angle,
    },
    /// The solver found no answer (reported, never guessed).
    Unsolved,
}

impl fmt::Display for NoRest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NothingCarries => write!(f, "no seat can carry weight: the frame falls past all of them"),
            Self::Tips { by } => write!(f, "it tips: the load stands {} mm outside its supports", fixed(by.as_mm(), 1)),
            Self::SlidesAway { direction } => {
                write!(f, "it slides away towards {} deg from x", fixed(direction.as_degrees(), 0))
            }
            Self::Unsolved => write!(f, "the rest pose could not be computed"),
        }
    }
}

impl std::error::Error for NoRest {}

/// Where each seat's constraints stand in the programme.
#[derive(Clone, Copy, Debug, Default)]
struct Slots {
    block: Option<usize>,
    pad: Option<usize>,
    face: Option<usize>,
    flanks: Option<usize>,
}

/// Which part of a slot's rim a lowest pose is looked for on.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
enum Rim {
    /// Its two sides.
    #[default]
    Sides,
    /// The end towards +1 or −1 times its direction.
    End(f64),
}

/// A slot that has ends: which seat, and how far the cone still is from each end when taken by the sides.
#[derive(Clone, Debug)]
struct Ended {
    seat: usize,
    short_of: [Row; 2],
}

/// A landing as a programme in scaled freedoms about the centre of mass.
#[derive(Clone, Debug)]
pub(super) struct Scaled {
    pub program: Program,
    slots: Vec<Slots>,
    /// One entry per seat; only slots use theirs.
    rims: Vec<Rim>,
    ended: Vec<Ended>,
    /// The rims for which the free directions of the programme hold.
    settled_for: Option<Vec<Rim>>,
    centre: [f64; 2],
    /// Radius that turns angles into lengths.
    radius: f64,
    /// Size of the mismatches: unit of length of the pose.
    unit: f64,
    /// Total downward force: unit of force.
    down: f64,
}

/// Rows of δx, δy and z of a seat at the scaled place (x, y), in the freedoms (dx, dy, θ, z, φx, φy).
pub(super) const fn motion_rows(x: f64, y: f64) -> [Vec6; 3] {
    [[1.0, 0.0, -y, 0.0, 0.0, 0.0], [0.0, 1.0, x, 0.0, 0.0, 0.0], [0.0, 0.0, 0.0, 1.0, y, -x]]
}

/// k times a row.
pub(super) fn times(k: f64, row: &Vec6) -> Vec6 {
    row.map(|v| k * v)
}

impl Scaled {
    /// Sets the programme up.
    pub(super) fn new(landing: &Landing) -> Self {
        let load = landing.load();
        let centre = load.centre.pair();
        let far = |s: &Seat| (s.at - load.centre).length().as_mm();
        let radius = landing.seats().iter().map(far).fold(1.0, f64::max);
        let sizes = landing.seats().iter().map(size_of_errors);
        let unit = sizes.fold(0.0, f64::max);
        let unit = if unit > 0.0 { unit } else { 1.0 };
        let down = load.down().as_newtons();
        let rims = vec![Rim::default(); landing.seats().len()];
        let (program, slots, ended, settled_for) = (Program::default(), Vec::new(), Vec::new(), None);
        let mut made = Self { program, slots, rims, ended, settled_for, centre, radius, unit, down };
        made.program.cost = made.cost(landing);
        made.reset(landing);
        made
    }

    /// New mismatches and heights in the same programme (same seats, same kinds).
    fn reset(&mut self, landing: &Landing) {
        let unit = landing.seats().iter().map(size_of_errors).fold(0.0, f64::max);
        self.unit = if unit > 0.0 { unit } else { 1.0 };
        self.program.blocks.clear();
        self.program.rows.clear();
        self.slots.clear();
        self.ended.clear();
        for (i, seat) in landing.seats().iter().enumerate() {
            self.add_seat(i, seat);
        }
    }

    /// Takes a slot by another part of its rim.
    fn take_rim(&mut self, landing: &Landing, seat: usize, rim: Rim) {
        if let Some(taken) = self.rims.get_mut(seat).filter(|taken| **taken != rim) {
            *taken = rim;
            self.reset(landing);
        }
    }

    /// What no constraint feels, once for every choice of rims. `Err` with the direction if the load falls along one.
    fn settle_free(&mut self) -> Result<(), Vec6> {
        if self.settled_for.as_ref() == Some(&self.rims) {
            return Ok(());
        }
        self.settled_for = None;
        self.program.free_directions()?;
        self.settled_for = Some(self.rims.clone());
        Ok(())
    }

    /// How far short of the end at `side` the cone of an ended slot lies, scaled; the same for a direction of fall.
    fn short_of(&self, ended: usize, side: f64, x: &Vec6, falls: bool) -> f64 {
        let row = self.ended.get(ended).and_then(|e| e.short_of.get(usize::from(side < 0.0)));
        row.map_or(0.0, |row| if falls { super::small::dot(&row.row, x) } else { row.at(x) })
    }

    fn place(&self, at: Plan) -> [f64; 2] {
        let [x, y] = at.pair();
        [(x - self.centre[0]) / self.radius, (y - self.centre[1]) / self.radius]
    }

    /// Gradient of the potential energy.
    fn cost(&self, landing: &Landing) -> Vec6 {
        let load = landing.load();
        let mut cost = [0.0; FREEDOMS];
        let weight = super::model::Pull { at: load.centre, down: load.weight };
        for pull in load.pulls.iter().chain([&weight]) {
            let [x, y] = self.place(pull.at);
            add_scaled(&mut cost, pull.down.as_newtons() / self.down, &motion_rows(x, y)[2]);
        }
        let [fx, fy] = load.side.map(|f| f.as_newtons() / self.down);
        let h = load.height.as_mm() / self.radius;
        add_scaled(&mut cost, -1.0, &[fx, fy, 0.0, 0.0, -fy * h, fx * h]);
        cost
    }

    fn add_seat(&mut self, index: usize, seat: &Seat) {
        let [x, y] = self.place(seat.at);
        let [across_x, across_y, up] = motion_rows(x, y);
        let e = seat.mismatch.pair().map(|v| v / self.unit);
        let height = seat.height.as_mm() / self.unit;
        let slope = seat.slope();
        let mut slots = Slots::default();
        let cone = [up, times(slope, &across_x), times(slope, &across_y)];
        match seat.kind {
            SeatKind::Round => slots.block = Some(self.add_block(cone, [-height, slope * e[0], slope * e[1]])),
            SeatKind::Slot { direction, travel } => {
                let (along, travel) = ([direction.cos(), direction.sin()], travel.as_mm() / self.unit);
                match self.rims.get(index) {
                    Some(Rim::End(side)) => {
                        let past = [e[0] - side * travel * along[0], e[1] - side * travel * along[1]];
                        slots.block = Some(self.add_block(cone, [-height, slope * past[0], slope * past[1]]));
                    }
                    _ => slots.flanks = Some(self.add_sides(&cone, along, e, height, slope)),
                }
                if travel.is_finite() {
                    self.add_ends(index, [&across_x, &across_y], along, e, travel);
                }
            }
            SeatKind::Pad => slots.pad = Some(self.add_row(up, -height)),
            SeatKind::Clear { clearance, on_pad } => {
                let below = slope * clearance.as_mm() / self.unit - height;
                slots.block = Some(self.add_block(cone, [below, slope * e[0], slope * e[1]]));
                if on_pad {
                    slots.pad = Some(self.add_row(up, -height));
                }
            }
        }
        if let Some(face) = seat.face {
            slots.face = Some(self.add_row(up, -face.as_mm() / self.unit));
        }
        self.slots.push(slots);
    }

    /// The two sides of a slot; gives the first of its two rows.
    fn add_sides(&mut self, cone: &[Vec6; 3], along: [f64; 2], e: [f64; 2], height: f64, slope: f64) -> usize {
        let [up, x, y] = cone;
        let n = [-along[1], along[0]];
        let mut across = times(n[0], x);
        add_scaled(&mut across, n[1], y);
        let off = slope * (n[0] * e[0] + n[1] * e[1]);
        let mut add = |sign: f64| {
            let mut row = *up;
            add_scaled(&mut row, sign, &across);
            self.add_row(row, sign * off - height)
        };
        let first = add(1.0);
        add(-1.0);
        first
    }

    /// How far the cone is from the two ends of a slot, the end along its direction first.
    fn add_ends(&mut self, seat: usize, [x, y]: [&Vec6; 2], along: [f64; 2], e: [f64; 2], travel: f64) {
        let off = along[0] * e[0] + along[1] * e[1];
        let short = |sign: f64| {
            let mut row = times(-sign * along[0], x);
            add_scaled(&mut row, -sign * along[1], y);
            Row { row, shift: travel - sign * off }
        };
        self.ended.push(Ended { seat, short_of: [short(1.0), short(-1.0)] });
    }

    /// Rows that keep every slot taken by its sides between its ends.
    pub(super) fn between_ends(&self) -> impl Iterator<Item = &Row> {
        let by_sides = |e: &&Ended| self.rims.get(e.seat) == Some(&Rim::Sides);
        self.ended.iter().filter(by_sides).flat_map(|e| &e.short_of)
    }

    fn add_block(&mut self, rows: [Vec6; 3], shift: [f64; 3]) -> usize {
        self.program.blocks.push(Block { rows, shift });
        self.program.blocks.len() - 1
    }

    fn add_row(&mut self, row: Vec6, shift: f64) -> usize {
        self.program.rows.push(Row { row, shift });
        self.program.rows.len() - 1
    }

    /// Scaled freedoms about the centre of mass to a pose about the origin.
    pub(super) fn pose(&self, x: &Vec6) -> Pose {
        let [dx, dy, yaw, z, roll, pitch] = *x;
        let turn = self.unit / self.radius;
        let (yaw, roll, pitch) = (yaw * turn, roll * turn, pitch * turn);
        let [xc, yc] = self.centre;
        Pose {
            dx: Length::mm(dx * self.unit + yaw * yc),
            dy: Length::mm(dy * self.unit - yaw * xc),
            z: Length::mm(z * self.unit - roll * yc + pitch * xc),
            yaw: Angle::radians(yaw),
            roll: Angle::radians(roll),
            pitch: Angle::radians(pitch),
        }
    }

    /// The linear functions dx, dy (mm, of the point at the origin) and yaw (rad) of the scaled freedoms.
    pub(super) fn plan_functions(&self) -> [Vec6; 3] {
        let (u, turn, [xc, yc]) = (self.unit, self.unit / self.radius, self.centre);
        let yaw = [0.0, 0.0, turn, 0.0, 0.0, 0.0];
        [[u, 0.0, turn * yc, 0.0, 0.0, 0.0], [0.0, u, -turn * xc, 0.0, 0.0, 0.0], yaw]
    }
}

fn size_of_errors(seat: &Seat) -> f64 {
    let face = seat.face.unwrap_or(Length::ZERO);
    let room = match seat.kind {
        SeatKind::Clear { clearance, .. } => clearance,
        SeatKind::Slot { travel, .. } if travel.is_finite() => travel,
        _ => Length::ZERO,
    };
    seat.mismatch.length().max(seat.height.abs()).max(face.abs()).max(room).as_mm()
}

/// Solves one landing after another with kept memory and a warm start.
#[derive(Clone, Debug)]
pub struct Solver {
    scaled: Scaled,
    workspace: Workspace,
    solution: Solution,
    start: Option<(Solution, Vec<Rim>)>,
    warm_hits: usize,
}

/// Most programmes for one pose before the search among slot ends is given up.
const MOST_RUNS: usize = 2_000;
/// A cone counts as short of an end, or a force as nought, within this (scaled).
const AT_END: f64 = 1e-9;

impl Solver {
    /// Prepares for `landing`; later calls of [`Solver::pose`] must have the same seats, kinds and load
    /// and may differ in mismatch, height, face height and clearance.
    pub fn new(landing: &Landing) -> Self {
        let (scaled, workspace, solution) = (Scaled::new(landing), Workspace::default(), Solution::default());
        Self { scaled, workspace, solution, start: None, warm_hits: 0 }
    }

    /// Rest pose alone: the quick way, for many draws.
    pub fn pose(&mut self, landing: &Landing) -> Result<Pose, NoRest> {
        self.solve(landing)?;
        Ok(self.scaled.pose(&self.solution.x))
    }

    /// Keeps the last answer as the start of all that follow.
    pub fn keep_as_start(&mut self) {
        self.start = Some((self.solution.clone(), self.scaled.rims.clone()));
    }

    /// Gives the start up again.
    pub fn forget_start(&mut self) {
        self.start = None;
    }

    /// How many answers came from the start alone.
    pub const fn warm_hits(&self) -> usize {
        self.warm_hits
    }

    /// Warm start if there is one, then the cone programme; both finished exactly. An answer that cannot be
    /// finished exactly is still good to the tolerance of the programme (a millionth of the mismatch).
    fn solve(&mut self, landing: &Landing) -> Result<(), NoRest> {
        if let Some((start, rims)) = &self.start {
            self.solution.clone_from(start);
            self.scaled.rims.clone_from(rims);
            self.scaled.reset(landing);
            if self.solution.sharpen(&self.scaled.program, FROM_NEIGHBOUR) && self.rims_hold(landing) {
                self.warm_hits += 1;
                return Ok(());
            }
        }
        self.scaled.rims.fill(Rim::Sides);
        self.scaled.reset(landing);
        let mut runs = 0;
        self.lowest(landing, self.scaled.ended.len(), &mut runs).map_err(|e| match e {
            Stop::Falls(direction) => self.falls_along(&direction),
            Stop::Unsolved => NoRest::Unsolved,
        })
    }

    /// The lowest pose with the first `count` slots worked as they are, the others by the rims they have. A slot is taken
    /// by its sides, and where the cone lies (or falls) beyond an end, by that end.
    fn lowest(&mut self, landing: &Landing, count: usize, runs: &mut usize) -> Result<(), Stop> {
        let Some((last, seat)) = count.checked_sub(1).and_then(|i| Some((i, self.scaled.ended.get(i)?.seat))) else {
            *runs += 1;
            return if *runs > MOST_RUNS { Err(Stop::Unsolved) } else { self.run() };
        };
        self.scaled.take_rim(landing, seat, Rim::Sides);
        let found = self.lowest(landing, last, runs);
        let (x, falls) = match &found {
            Ok(()) => (self.solution.x, false),
            Err(Stop::Falls(direction)) => (*direction, true),
            Err(Stop::Unsolved) => return found,
        };
        let beyond = |side: &f64| self.scaled.short_of(last, *side, &x, falls) < -AT_END;
        let Some(side) = [1.0, -1.0].into_iter().find(beyond) else { return found };
        self.scaled.take_rim(landing, seat, Rim::End(side));
        self.lowest(landing, last, runs)
    }

    /// Is every slot taken by the right part of its rim? By its sides, the cone lies between the ends; by an end, it lies
    /// beyond that end, or pushes it outward from the apex, or is clear of it.
    fn rims_hold(&self, landing: &Landing) -> bool {
        let fits = |(i, ended): (usize, &Ended)| {
            let short = |side: f64| self.scaled.short_of(i, side, &self.solution.x, false);
            let Some(Rim::End(side)) = self.scaled.rims.get(ended.seat).copied() else {
                return short(1.0).min(short(-1.0)) >= -AT_END;
            };
            let block = self.scaled.slots.get(ended.seat).and_then(|s| s.block);
            let touch = block.and_then(|b| self.solution.blocks.get(b));
            match (touch, landing.seats().get(ended.seat).map(|s| s.kind)) {
                (Some(Touch::Flank), _) => short(side) <= AT_END,
                (Some(Touch::Apex), Some(SeatKind::Slot { direction, .. })) => {
                    let z = block.and_then(|b| self.solution.block_z.get(b)).copied().unwrap_or_default();
                    side * (z[1] * direction.cos() + z[2] * direction.sin()) <= AT_END
                }
                _ => true,
            }
        };
        self.scaled.ended.iter().enumerate().all(fits)
    }

    /// The lowest pose of the programme as it stands.
    fn run(&mut self) -> Result<(), Stop> {
        self.scaled.settle_free().map_err(Stop::Falls)?;
        for tolerance in [1e-8, 1e-11] {
            match self.workspace.run(&self.scaled.program, tolerance) {
                Outcome::Lowest => {}
                Outcome::Unbounded => return Err(Stop::Falls(self.workspace.x)),
                // Lifted high enough, every rim is clear of its cone: something fits always.
                Outcome::Infeasible | Outcome::Stalled => return Err(Stop::Unsolved),
            }
            self.solution.read(&self.workspace);
            if self.solution.sharpen(&self.scaled.program, FROM_NEAR) {
                return Ok(());
            }
        }
        self.solution.read(&self.workspace);
        Ok(())
    }

    fn falls_along(&self, x: &Vec6) -> NoRest {
        let pose = self.scaled.pose(x);
        NoRest::SlidesAway { direction: Plan { x: pose.dx, y: pose.dy }.direction() }
    }

    /// Load, sideways force and contact of each seat.
    fn seat_rest(&self, seat: &Seat, slots: &Slots, pose: &Pose) -> SeatRest {
        let offset = pose.shift_at(seat.at, Length::ZERO) + seat.mismatch;
        let lift = pose.rise_at(seat.at) - seat.height;
        let newtons = self.scaled.down;
        let row = |i: Option<usize>| i.and_then(|i| self.solution.row_z.get(i)).map_or(0.0, |z| z * newtons);
        let block = slots.block.and_then(|i| self.solution.block_z.get(i)).copied().unwrap_or_default();
        let mut cone = block[0] * newtons;
        let mut side = [block[1] * seat.slope() * newtons, block[2] * seat.slope() * newtons];
        if let (SeatKind::Slot { direction, .. }, Some(_)) = (seat.kind, slots.flanks) {
            let (plus, minus) = (row(slots.flanks), row(slots.flanks.map(|i| i + 1)));
            cone = plus + minus;
            let across = (plus - minus) * seat.slope();
            side = [-direction.sin() * across, direction.cos() * across];
        }
        let parts = [cone, row(slots.pad), row(slots.face)];
        let load: f64 = parts.iter().sum();
        let carrier = self.carrier(seat, slots, parts);
        SeatRest {
            offset,
            lift,
            gap: gap(seat, offset, lift),
            load: Force::newtons(load),
            side: side.map(Force::newtons),
            touching: carrier != Carrier::Nothing,
            carrier,
        }
    }

    fn carrier(&self, seat: &Seat, slots: &Slots, parts: [f64; 3]) -> Carrier {
        let least = 1e-9 * self.scaled.down;
        let [cone, pad, face] = parts;
        let all_round = || match slots.flanks {
            Some(i) => self.solution.rows.get(i).zip(self.solution.rows.get(i + 1)) == Some((&true, &true)),
            None => slots.block.and_then(|i| self.solution.blocks.get(i)) == Some(&Touch::Apex),
        };
        match seat.kind {
            _ if face > least && face >= cone.max(pad) => Carrier::Face,
            _ if pad > least && pad >= cone => Carrier::Pad,
            _ if cone > least && all_round() => Carrier::Cone,
            SeatKind::Slot { .. } if cone > least && slots.block.is_some() => Carrier::End,
            _ if cone > least => Carrier::Flank,
            _ => Carrier::Nothing,
        }
    }
}

/// Why a programme gave no lowest pose.
enum Stop {
    /// It falls without end along this direction.
    Falls(Vec6),
    /// No answer was found.
    Unsolved,
}

/// Fall left until the seat touches: lift − the height its offset asks for.
pub(super) fn gap(seat: &Seat, offset: Plan, lift: Length) -> Length {
    let on_flank = seat.climb(offset);
    let needed = seat.face.map_or(on_flank, |f| on_flank.max(f - seat.height));
    (lift - needed).max(Length::ZERO)
}

/// The rest pose of a landing.
pub fn rest(landing: &Landing) -> Result<Rest, NoRest> {
    let tip = tip_margin(landing).ok_or(NoRest::NothingCarries)?;
    let scale = landing.seats().iter().map(|s| s.at.length().as_mm()).fold(1.0, f64::max);
    if tip.inside < Length::mm(-1e-9 * scale) {
        return Err(NoRest::Tips { by: tip.inside.abs() });
    }
    let mut solver = Solver::new(landing);
    solver.solve(landing)?;
    let pose = solver.scaled.pose(&solver.solution.x);
    let pairs = landing.seats().iter().zip(&solver.scaled.slots);
    let mut seats: Vec<SeatRest> = pairs.map(|(seat, slots)| solver.seat_rest(seat, slots, &pose)).collect();
    let wander = extent::wander(&solver.scaled, &solver.solution, &mut solver.workspace);
    let shared = level::share(landing, &mut seats);
    Ok(Rest { pose, seats, wander, tip, shared })
}
