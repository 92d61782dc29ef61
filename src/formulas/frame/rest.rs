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

use super::cone_program::{Outcome, Workspace};
use super::extent::{self, Free};
use super::level;
use super::loads::tip_margin;
use super::model::{Landing, Plan, Pose, Seat, SeatKind};
pub use super::outcome::{Carrier, NoRest, Rest, SeatRest};
use super::polish::{FROM_NEAR, FROM_NEIGHBOUR, Solution, Touch};
use super::scaled::{Ended, Rim, Scaled, Slots};
use super::small::Vec6;
use crate::units::{Force, Length};

/// Solves one landing after another with kept memory and a warm start.
#[derive(Clone, Debug)]
pub struct Solver {
    scaled: Scaled,
    workspace: Workspace,
    solution: Solution,
    /// What touched in neighbouring cases; tried in this order.
    starts: Vec<Start>,
}

/// A set of touching constraints that was met, with the answer that it gave.
#[derive(Clone, Debug)]
struct Start {
    solution: Solution,
    rims: Vec<Rim>,
    /// Motions left free, to the middle of which the answer is taken.
    free: Vec<Vec6>,
    /// How often it was met.
    met: usize,
}

impl Start {
    fn touches_as(&self, solution: &Solution, rims: &[Rim]) -> bool {
        self.rims == rims && self.solution.blocks == solution.blocks && self.solution.rows == solution.rows
    }
}

/// Sets of touching constraints that are kept; every one costs a few Newton steps in a case that it does not fit.
const MOST_STARTS: usize = 12;
/// Most programmes for one pose before the search among slot ends is given up.
const MOST_RUNS: usize = 2_000;
/// A cone counts as short of an end, or a force as nought, within this (scaled).
const AT_END: f64 = 1e-9;

impl Solver {
    /// Prepares for `landing`; later calls of [`Solver::pose`] must have the same seats, kinds and load
    /// and may differ in mismatch, height, face height and clearance.
    pub fn new(landing: &Landing) -> Self {
        let (scaled, workspace, solution) = (Scaled::new(landing), Workspace::default(), Solution::default());
        Self { scaled, workspace, solution, starts: Vec::new() }
    }

    /// Rest pose alone: the quick way, for many draws.
    pub fn pose(&mut self, landing: &Landing) -> Result<Pose, NoRest> {
        self.solve(landing)?;
        Ok(self.scaled.pose(&self.solution.x))
    }

    /// Keeps what touches in the last answer as a start of those that follow, where that tells the answer.
    pub fn keep_as_start(&mut self) {
        let known = self.starts.iter().any(|start| start.touches_as(&self.solution, &self.scaled.rims));
        if known || self.starts.len() >= MOST_STARTS || self.is_loose_at_an_end() {
            return;
        }
        let free = match extent::free(&self.scaled.program, &self.solution) {
            Free::Nothing => Vec::new(),
            Free::Along(motions) => motions,
            Free::Curved => return,
        };
        self.starts.push(Start { solution: self.solution.clone(), rims: self.scaled.rims.clone(), free, met: 0 });
    }

    /// Is a slot taken by an end that nothing touches? Its sides might then tell another middle.
    fn is_loose_at_an_end(&self) -> bool {
        let loose = |ended: &Ended| {
            let block = self.scaled.slots.get(ended.seat).and_then(|s| s.block);
            block.and_then(|b| self.solution.blocks.get(b)) == Some(&Touch::Off)
        };
        self.scaled.ended.iter().any(loose)
    }

    /// Puts the starts in the order in which they are met, and gives up those that are met too seldom in `cases` cases to pay,
    /// or all if together they serve less than half of the cases.
    pub fn sort_starts(&mut self, cases: usize) {
        self.starts.sort_by_key(|start| std::cmp::Reverse(start.met));
        if 2 * self.warm_hits() < cases {
            self.starts.clear();
        }
        self.starts.retain(|start| 50 * start.met >= cases);
    }

    /// How many answers came from a start alone.
    pub fn warm_hits(&self) -> usize {
        self.starts.iter().map(|start| start.met).sum()
    }

    /// From a start if one fits, else by the cone programme; both finished exactly. An answer that cannot be
    /// finished exactly is still good to the tolerance of the programme (a millionth of the mismatch).
    fn solve(&mut self, landing: &Landing) -> Result<(), NoRest> {
        if self.as_before(landing) {
            return Ok(());
        }
        self.scaled.rims.fill(Rim::Sides);
        self.scaled.reset(landing);
        let mut runs = 0;
        self.lowest(landing, self.scaled.ended.len(), &mut runs).map_err(|e| match e {
            Stop::Falls(direction) => self.falls_along(&direction),
            Stop::Unsolved => NoRest::Unsolved,
        })
    }

    /// The answer with the touching constraints of a start, if all conditions of the lowest pose hold there.
    fn as_before(&mut self, landing: &Landing) -> bool {
        let mut ready = false;
        for i in 0..self.starts.len() {
            let Some(start) = self.starts.get(i) else { return false };
            self.solution.clone_from(&start.solution);
            if !ready || self.scaled.rims != start.rims {
                self.scaled.rims.clone_from(&start.rims);
                self.scaled.reset(landing);
                ready = true;
            }
            let Some(start) = self.starts.get(i) else { return false };
            let program = &self.scaled.program;
            let found = self.solution.approach(program, FROM_NEIGHBOUR, &start.free)
                && self.solution.presses(program)
                && (start.free.is_empty() || extent::centre(program, &mut self.solution, &start.free));
            if found && self.solution.holds(program) && self.rims_hold(landing) {
                self.starts.get_mut(i).into_iter().for_each(|start| start.met += 1);
                return true;
            }
        }
        false
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
            let free = self.free_motions();
            if self.solution.approach(&self.scaled.program, FROM_NEAR, &free) {
                self.take_middle(&free);
                if self.solution.holds(&self.scaled.program) {
                    return Ok(());
                }
            }
        }
        self.solution.read(&self.workspace);
        Ok(())
    }

    /// Straight motions that the answer leaves free.
    fn free_motions(&self) -> Vec<Vec6> {
        match extent::free(&self.scaled.program, &self.solution) {
            Free::Along(motions) => motions,
            Free::Nothing | Free::Curved => Vec::new(),
        }
    }

    /// Where the pose is free to move, its middle; where there is none, it stays as the programme left it.
    fn take_middle(&mut self, free: &[Vec6]) {
        let x = self.solution.x;
        if !free.is_empty() && !extent::centre(&self.scaled.program, &mut self.solution, free) {
            self.solution.x = x;
        }
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
