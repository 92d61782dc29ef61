//! What a landing is: seats, what presses on them, and the small motion that describes a pose.

use std::fmt;

use crate::units::{Angle, Force, Length};

/// A place or a displacement in plan.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Plan {
    /// Along x.
    pub x: Length,
    /// Along y.
    pub y: Length,
}

impl Plan {
    /// From two numbers in millimetres.
    pub const fn mm(x: f64, y: f64) -> Self {
        Self { x: Length::mm(x), y: Length::mm(y) }
    }
    /// Distance from the origin.
    pub fn length(self) -> Length {
        self.x.hypot(self.y)
    }
    /// Direction from the x axis.
    pub fn direction(self) -> Angle {
        Angle::atan2(self.y.as_mm(), self.x.as_mm())
    }
    /// Neither NaN nor infinite.
    pub fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite()
    }
    /// x and y in mm.
    pub const fn pair(self) -> [f64; 2] {
        [self.x.as_mm(), self.y.as_mm()]
    }
}

impl std::ops::Add for Plan {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        Self { x: self.x + o.x, y: self.y + o.y }
    }
}
impl std::ops::Sub for Plan {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        Self { x: self.x - o.x, y: self.y - o.y }
    }
}
impl std::ops::Mul<f64> for Plan {
    type Output = Self;
    fn mul(self, k: f64) -> Self {
        Self { x: self.x * k, y: self.y * k }
    }
}

/// How a seat holds the frame.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum SeatKind {
    /// A round cup on a cone: holds both ways in plan.
    Round,
    /// A slotted cup on a cone: free along `direction` until the cone meets a round end, holds across it.
    Slot {
        /// Direction of the slot's length in plan, from the x axis.
        direction: Angle,
        /// How far the cone may lie off the middle either way before it meets the end: half of length less width.
        /// Endless where no length is known ([`SeatKind::endless_slot`]).
        travel: Length,
    },
    /// A flat pad: carries weight, holds nothing in plan.
    Pad,
    /// A hole with room around its cone; beyond the room its rim climbs the cone as any rim does.
    Clear {
        /// Radial room all round, at the height of the seat.
        clearance: Length,
        /// A pad at the seat height carries weight beside the hole.
        on_pad: bool,
    },
}

impl SeatKind {
    /// A slot of which no end is known.
    pub const fn endless_slot(direction: Angle) -> Self {
        Self::Slot { direction, travel: Length::mm(f64::INFINITY) }
    }
}

/// One cone and its cup.
#[derive(Clone, PartialEq, Debug)]
pub struct Seat {
    /// What the shop calls it.
    pub name: String,
    /// Nominal place in plan.
    pub at: Plan,
    /// Cup minus cone in plan.
    pub mismatch: Plan,
    /// Seat height over the common plane (thickness, diameter and welding differences).
    pub height: Length,
    /// Height at which the plate meets the crossbar face, if it can.
    pub face: Option<Length>,
    /// Half-angle of the cone from its axis.
    pub half_angle: Angle,
    /// How it holds.
    pub kind: SeatKind,
}

impl Seat {
    /// A round cup at nominal height without mismatch.
    #[allow(dead_code, reason = "tests make theirs with it")]
    pub fn round(name: &str, at: Plan, half_angle: Angle) -> Self {
        let (mismatch, height) = (Plan::default(), Length::ZERO);
        Self { name: name.to_owned(), at, mismatch, height, face: None, half_angle, kind: SeatKind::Round }
    }
    /// The same seat of another kind.
    pub fn with_kind(mut self, kind: SeatKind) -> Self {
        self.kind = kind;
        self
    }
    /// The same seat with a mismatch, cup minus cone.
    pub fn with_mismatch(mut self, mismatch: Plan) -> Self {
        self.mismatch = mismatch;
        self
    }
    /// The same seat at another height.
    #[allow(dead_code, reason = "tests make theirs with it")]
    pub fn with_height(mut self, height: Length) -> Self {
        self.height = height;
        self
    }
    /// Can it carry weight?
    pub fn carries(&self) -> bool {
        !matches!(self.kind, SeatKind::Clear { on_pad: false, .. }) || self.face.is_some()
    }
    /// Slope of the flank: rise per offset, cot α.
    pub(super) fn slope(&self) -> f64 {
        1.0 / self.half_angle.tan()
    }
    /// The part of an offset that presses the rim against the cone: all of it in a round cup, what is left outside the
    /// line between the centres of the two round ends in a slot, what exceeds the room in a clear hole. Derived: a circle
    /// lies inside a rim as long as its centre stays that far from the rim's middle line.
    pub fn off_rim(&self, offset: Plan) -> Plan {
        match self.kind {
            SeatKind::Round => offset,
            SeatKind::Slot { direction, travel } => {
                let along = (offset.x * direction.cos() + offset.y * direction.sin()).max(-travel).min(travel);
                offset - Plan { x: along * direction.cos(), y: along * direction.sin() }
            }
            SeatKind::Pad => Plan::default(),
            SeatKind::Clear { clearance, .. } => {
                let length = offset.length();
                if length > clearance { offset * (1.0 - clearance / length) } else { Plan::default() }
            }
        }
    }
    /// Rise over its own seating that an offset asks for.
    pub(super) fn climb(&self, offset: Plan) -> Length {
        self.off_rim(offset).length() * self.slope()
    }
}

/// A further downward pull on the frame, such as a tie-down.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Pull {
    /// Where it acts in plan.
    pub at: Plan,
    /// How hard, downward.
    pub down: Force,
}

/// What acts on the frame.
#[derive(Clone, PartialEq, Debug)]
pub struct Load {
    /// Weight.
    pub weight: Force,
    /// Centre of mass in plan.
    pub centre: Plan,
    /// Centre of mass above the seats.
    pub height: Length,
    /// Sideways force at the centre of mass (inertia, wind), along x and y.
    pub side: [Force; 2],
    /// Tie-downs and other downward pulls.
    pub pulls: Vec<Pull>,
}

impl Load {
    /// Weight alone.
    pub fn of_weight(weight: Force, centre: Plan) -> Self {
        Self { weight, centre, height: Length::ZERO, side: [Force::ZERO; 2], pulls: Vec::new() }
    }
    /// All that presses downward.
    pub fn down(&self) -> Force {
        self.weight + self.pulls.iter().map(|p| p.down).sum()
    }
    /// Where the resultant of all forces meets the plane of the seats:
    /// centre of the downward forces, shifted by height · side / down.
    pub fn foot(&self) -> Plan {
        let down = self.down().as_newtons();
        let moment = |w: f64, k: fn(Plan) -> f64| {
            w * k(self.centre) + self.pulls.iter().map(|p| p.down.as_newtons() * k(p.at)).sum::<f64>()
        };
        let [fx, fy] = self.side.map(|f| f.as_newtons() * self.height.as_mm());
        let w = self.weight.as_newtons();
        Plan::mm((moment(w, |p| p.x.as_mm()) + fx) / down, (moment(w, |p| p.y.as_mm()) + fy) / down)
    }
}

/// A small rigid motion of the frame from full seating.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Pose {
    /// Shift along x of the point at the origin.
    pub dx: Length,
    /// Shift along y of the point at the origin.
    pub dy: Length,
    /// Rise of the point at the origin.
    pub z: Length,
    /// θ, about z.
    pub yaw: Angle,
    /// φx, about x.
    pub roll: Angle,
    /// φy, about y.
    pub pitch: Angle,
}

impl Pose {
    /// Shift in plan of a point of the frame at `at`, `height` above the seats:
    /// (dx − θ y + φy h, dy + θ x − φx h).
    pub fn shift_at(&self, at: Plan, height: Length) -> Plan {
        let [x, y] = at.pair();
        let (yaw, roll, pitch) = (self.yaw.as_radians(), self.roll.as_radians(), self.pitch.as_radians());
        let h = height.as_mm();
        Plan { x: self.dx + Length::mm(pitch * h - yaw * y), y: self.dy + Length::mm(yaw * x - roll * h) }
    }
    /// Rise of a point of the frame: z + φx y − φy x.
    pub fn rise_at(&self, at: Plan) -> Length {
        let [x, y] = at.pair();
        self.z + Length::mm(self.roll.as_radians() * y - self.pitch.as_radians() * x)
    }
}

/// Why a landing cannot be worked.
#[derive(Clone, PartialEq, Debug)]
pub enum InputError {
    /// No seat at all.
    NoSeats,
    /// A number of the seat is missing, not a number, or infinite.
    NotANumber(String),
    /// A half-angle of nought or less, or 90° and more.
    HalfAngle(String, Angle),
    /// A clear hole without room.
    NoRoom(String),
    /// A slot shorter than it is wide.
    NoTravel(String),
    /// Two seats in one place.
    SamePlace(String, String),
    /// Nothing presses the frame down.
    NoWeight,
    /// A friction coefficient below nought or not a number.
    Friction,
    /// Any other quantity outside its range, by name.
    OutOfRange(&'static str),
}

impl fmt::Display for InputError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoSeats => write!(f, "no seats are given"),
            Self::NotANumber(what) => write!(f, "{what}: a value is not a finite number"),
            Self::HalfAngle(seat, a) => {
                write!(f, "seat {seat}: the half-angle must lie between 0 and 90 deg, not {} deg", a.as_degrees())
            }
            Self::NoRoom(seat) => write!(f, "seat {seat}: a clear hole needs a clearance above nought"),
            Self::NoTravel(seat) => write!(f, "seat {seat}: a slot cannot be shorter than it is wide"),
            Self::SamePlace(a, b) => write!(f, "seats {a} and {b} are in one place"),
            Self::NoWeight => write!(f, "nothing presses the frame down: the weight must be above nought"),
            Self::Friction => write!(f, "the friction coefficient must be nought or more"),
            Self::OutOfRange(what) => write!(f, "{what} is outside its range"),
        }
    }
}

impl std::error::Error for InputError {}

/// A checked landing: seats and load, ready to be worked.
#[derive(Clone, PartialEq, Debug)]
pub struct Landing {
    seats: Vec<Seat>,
    load: Load,
}

impl Landing {
    /// Checks every number once.
    pub fn new(seats: Vec<Seat>, load: Load) -> Result<Self, InputError> {
        if seats.is_empty() {
            return Err(InputError::NoSeats);
        }
        seats.iter().try_for_each(check_seat)?;
        for (i, a) in seats.iter().enumerate() {
            if let Some(b) = seats.iter().skip(i + 1).find(|b| (a.at - b.at).length().as_mm() < 1e-3) {
                return Err(InputError::SamePlace(a.name.clone(), b.name.clone()));
            }
        }
        check_load(&load)?;
        Ok(Self { seats, load })
    }
    /// The seats.
    pub fn seats(&self) -> &[Seat] {
        &self.seats
    }
    /// What acts on the frame.
    pub const fn load(&self) -> &Load {
        &self.load
    }
    /// Seats to be changed by a caller that keeps them sound (draws of the chance study).
    pub(super) fn seats_mut(&mut self) -> &mut [Seat] {
        &mut self.seats
    }
}

fn check_seat(s: &Seat) -> Result<(), InputError> {
    let face = s.face.unwrap_or(Length::ZERO);
    if !(s.at.is_finite() && s.mismatch.is_finite() && s.height.is_finite() && face.is_finite()) {
        return Err(InputError::NotANumber(format!("seat {}", s.name)));
    }
    if !(s.half_angle.as_degrees() > 0.0 && s.half_angle.as_degrees() < 90.0) {
        return Err(InputError::HalfAngle(s.name.clone(), s.half_angle));
    }
    match s.kind {
        SeatKind::Slot { direction, .. } if !direction.is_finite() => {
            Err(InputError::NotANumber(format!("seat {}, direction of the slot", s.name)))
        }
        // Also where it is no number.
        SeatKind::Slot { travel, .. } if travel.as_mm().is_nan() || travel < Length::ZERO => {
            Err(InputError::NoTravel(s.name.clone()))
        }
        SeatKind::Clear { clearance, .. } if !(clearance > Length::ZERO && clearance.is_finite()) => {
            Err(InputError::NoRoom(s.name.clone()))
        }
        _ => Ok(()),
    }
}

fn check_load(load: &Load) -> Result<(), InputError> {
    let pulls = load.pulls.iter().all(|p| p.at.is_finite() && p.down.is_finite());
    let side = load.side.iter().all(|f| f.is_finite());
    if !(load.weight.is_finite() && load.centre.is_finite() && load.height.is_finite() && side && pulls) {
        return Err(InputError::NotANumber("load".to_owned()));
    }
    let lifted = load.pulls.iter().any(|p| p.down < Force::ZERO);
    if lifted || load.weight < Force::ZERO || load.down() <= Force::ZERO {
        return Err(InputError::NoWeight);
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_resultant_moves_with_a_side_force() {
        let mut load = Load::of_weight(Force::newtons(1000.0), Plan::mm(100.0, 0.0));
        load.height = Length::mm(500.0);
        load.side = [Force::newtons(200.0), Force::ZERO];
        assert_eq!(load.foot(), Plan::mm(200.0, 0.0));
    }

    #[test]
    fn bad_seats_are_named() {
        let a = Angle::degrees(30.0);
        let load = Load::of_weight(Force::newtons(1.0), Plan::default());
        let seat = |x: f64, angle: Angle| Seat::round("FL", Plan::mm(x, 0.0), angle);
        let fault = |seats: Vec<Seat>| Landing::new(seats, load.clone()).unwrap_err();
        assert_eq!(fault(vec![]), InputError::NoSeats);
        assert_eq!(fault(vec![seat(f64::NAN, a)]).to_string(), "seat FL: a value is not a finite number");
        assert!(matches!(fault(vec![seat(0.0, Angle::degrees(f64::NAN))]), InputError::HalfAngle(..)));
        assert!(matches!(fault(vec![seat(0.0, a), seat(0.0, a)]), InputError::SamePlace(..)));
        let heavy = Load::of_weight(Force::newtons(-5.0), Plan::default());
        assert_eq!(Landing::new(vec![seat(0.0, a)], heavy).unwrap_err(), InputError::NoWeight);
    }
}
