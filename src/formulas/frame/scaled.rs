//! A landing as a programme over the six freedoms of its frame, scaled so that lengths and angles weigh alike.

use super::cone_program::{Block, Program, Row};
use super::model::{Landing, Plan, Pose, Seat, SeatKind};
use super::small::{FREEDOMS, Vec6, add_scaled};
use crate::units::{Angle, Length};

/// Where each seat's constraints stand in the programme.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Slots {
    pub block: Option<usize>,
    pub pad: Option<usize>,
    pub face: Option<usize>,
    pub flanks: Option<usize>,
}

/// Which part of a slot's rim a lowest pose is looked for on.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub(super) enum Rim {
    /// Its two sides.
    #[default]
    Sides,
    /// The end towards +1 or −1 times its direction.
    End(f64),
}

/// A slot that has ends: which seat, and how far the cone still is from each end when taken by the sides.
#[derive(Clone, Debug)]
pub(super) struct Ended {
    pub seat: usize,
    short_of: [Row; 2],
}

/// A landing as a programme in scaled freedoms about the centre of mass.
#[derive(Clone, Debug)]
pub(super) struct Scaled {
    pub program: Program,
    pub slots: Vec<Slots>,
    /// One entry per seat; only slots use theirs.
    pub rims: Vec<Rim>,
    pub ended: Vec<Ended>,
    /// The rims for which the free directions of the programme hold.
    settled_for: Option<Vec<Rim>>,
    pub centre: [f64; 2],
    /// Radius that turns angles into lengths.
    pub radius: f64,
    /// Size of the mismatches: unit of length of the pose.
    pub unit: f64,
    /// Total downward force: unit of force.
    pub down: f64,
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
    pub(super) fn reset(&mut self, landing: &Landing) {
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
    pub(super) fn take_rim(&mut self, landing: &Landing, seat: usize, rim: Rim) {
        if let Some(taken) = self.rims.get_mut(seat).filter(|taken| **taken != rim) {
            *taken = rim;
            self.reset(landing);
        }
    }

    /// What no constraint feels, once for every choice of rims. `Err` with the direction if the load falls along one.
    pub(super) fn settle_free(&mut self) -> Result<(), Vec6> {
        if self.settled_for.as_ref() == Some(&self.rims) {
            return Ok(());
        }
        self.settled_for = None;
        self.program.free_directions()?;
        self.settled_for = Some(self.rims.clone());
        Ok(())
    }

    /// How far short of the end at `side` the cone of an ended slot lies, scaled; the same for a direction of fall.
    pub(super) fn short_of(&self, ended: usize, side: f64, x: &Vec6, falls: bool) -> f64 {
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
