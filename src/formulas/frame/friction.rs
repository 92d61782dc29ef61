//! What friction adds: how far off its lowest pose the frame may be left hanging, and the forces it can lock
//! into the frame.
//!
//! A contact force stays within the friction angle φ of its normal: on a flank that is a centring force
//! between cot(α + φ) and cot(α − φ) times the vertical load, in a ring that touches all round anything up to
//! cot(α − φ). Whether such forces can balance the load is a cone programme; its dual has the six freedoms
//! of the frame again (no motion loses energy).

use rayon::prelude::*;

use super::cone_program::{Block, Outcome, Program, Row, Vec3, Workspace};
use super::contact::friction_angle;
use super::model::{InputError, Landing, Plan, Pose, Seat, SeatKind};
use super::outcome::Rest;
use super::scaled::{motion_rows, times};
use super::small::{FREEDOMS, Vec6, add_scaled, dot};
use crate::units::{Angle, Force, Length};

/// How far the frame may be left off its lowest pose in one direction.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Held {
    /// Direction of the shift in plan, from x.
    pub direction: Angle,
    /// Largest shift at which friction can still hold it, within the search range.
    pub shift: Length,
    /// Holds everywhere in the range: nothing brings it home.
    pub everywhere: bool,
}

/// Largest sideways force that friction can lock in between one seat and the frame.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Locked {
    /// Frictionless, at rest.
    pub at_rest: Force,
    /// Greatest with friction, in the direction of the offset (or away from the middle when centred).
    pub greatest: Option<Force>,
}

impl Locked {
    /// The greater of two, seat for seat the same.
    pub fn or_greater(self, other: Self) -> Self {
        let greatest = match (self.greatest, other.greatest) {
            (Some(a), Some(b)) => Some(a.max(b)),
            (a, b) => a.or(b),
        };
        Self { at_rest: self.at_rest.max(other.at_rest), greatest }
    }
}

/// How surfaces rub, and by how much the bodies yield.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Grip {
    /// Coefficient of friction.
    pub friction: f64,
    /// A seat that stands off by no more than this carries too; nought where everything is rigid.
    pub yields: Length,
}

impl From<f64> for Grip {
    /// Between rigid bodies.
    fn from(friction: f64) -> Self {
        Self { friction, yields: Length::ZERO }
    }
}

/// Touching within this height counts as contact, relative to the size of the shift.
const TOUCHES: f64 = 1e-7;
/// Bodies that yield touch within this part of the size of the shift at most: close to home nothing is held that a rigid
/// frame would not hold farther out.
const YIELDS_WITHIN: f64 = 0.02;

struct Place<'a> {
    landing: &'a Landing,
    phi: Angle,
    radius: f64,
    yields: f64,
}

impl<'a> Place<'a> {
    fn new(landing: &'a Landing, grip: Grip) -> Result<Self, InputError> {
        let phi = friction_angle(grip.friction)?;
        let far = |s: &Seat| (s.at - landing.load().centre).length().as_mm();
        let radius = landing.seats().iter().map(far).fold(1.0, f64::max);
        Ok(Self { landing, phi, radius, yields: grip.yields.as_mm() })
    }

    fn rows(&self, seat: &Seat) -> [Vec6; 3] {
        let [x, y] = (seat.at - self.landing.load().centre).pair();
        motion_rows(x / self.radius, y / self.radius)
    }

    /// Generalised load in scaled freedoms.
    fn load(&self) -> Vec6 {
        let load = self.landing.load();
        let down = load.down().as_newtons();
        let [x, y] = (load.foot() - load.centre).pair();
        let mut q = motion_rows(x / self.radius, y / self.radius)[2];
        let [fx, fy] = load.side.map(|f| f.as_newtons() / down);
        add_scaled(&mut q, -1.0, &[fx, fy, 0.0, 0.0, 0.0, 0.0]);
        q
    }

    /// Motions that a contact with unit normal (up, x, y) and friction φ lets happen without loss:
    /// w·n >= |w| sin φ, as a block over the freedoms: head w·n cos φ, tail the tangential part times sin φ,
    /// from w·n >= sin φ √((w·n)² + |w_t|²). The tangential part has two components.
    fn contact(&self, seat: &Seat, normal: Vec3) -> Block {
        let [x, y, up] = self.rows(seat);
        let combine = |k: Vec3| {
            let mut row = times(k[0], &up);
            add_scaled(&mut row, k[1], &x);
            add_scaled(&mut row, k[2], &y);
            row
        };
        let lateral = libm::hypot(normal[1], normal[2]);
        let (cx, cy) = if lateral > 1e-12 { (normal[1] / lateral, normal[2] / lateral) } else { (1.0, 0.0) };
        let along = [-lateral, normal[0] * cx, normal[0] * cy];
        let (c, s) = (self.phi.cos(), self.phi.sin());
        let rows = [combine(normal.map(|v| v * c)), combine(along.map(|v| v * s)), combine([0.0, -cy * s, cx * s])];
        Block { rows, shift: [0.0; 3] }
    }

    /// Adds the contacts of a seat at an offset, if it touches.
    fn add(&self, p: &mut Program, seat: &Seat, offset: Plan, centred: f64) {
        let [x, y, up] = self.rows(seat);
        let (sin, cos) = (seat.half_angle.sin(), seat.half_angle.cos());
        let mut flank = |towards: [f64; 2]| {
            p.blocks.push(self.contact(seat, [sin, -cos * towards[0], -cos * towards[1]]));
        };
        let off = seat.off_rim(offset);
        if off.length().as_mm() > centred {
            return flank(off.pair().map(|v| v / off.length().as_mm()));
        }
        match seat.kind {
            SeatKind::Round => {
                let rest = seat.half_angle - self.phi;
                let slope = if rest > Angle::ZERO { 1.0 / rest.tan() } else { SELF_HOLDING };
                p.blocks.push(Block { rows: [up, times(slope, &x), times(slope, &y)], shift: [0.0; 3] });
            }
            SeatKind::Slot { direction, travel } => {
                let (c, s) = (direction.cos(), direction.sin());
                let along = offset.x.as_mm() * c + offset.y.as_mm() * s;
                [[-s, c], [s, -c]].into_iter().for_each(&mut flank);
                if along.abs() >= travel.as_mm() - centred {
                    flank([c * along.signum(), s * along.signum()]);
                }
            }
            SeatKind::Pad | SeatKind::Clear { .. } => p.blocks.push(self.contact(seat, [1.0, 0.0, 0.0])),
        }
    }
}

/// Slope that stands for a cone that holds by itself.
const SELF_HOLDING: f64 = 1e4;

/// Height each seat asks for at a pose in plan, and its offset.
fn asked(seat: &Seat, pose: &Pose) -> (f64, Plan) {
    let offset = pose.shift_at(seat.at, Length::ZERO) + seat.mismatch;
    let height = (seat.height + seat.climb(offset)).as_mm();
    (seat.face.map_or(height, |f| height.max(f.as_mm())), offset)
}

/// Can friction hold the frame where its plan position is `pose` (heights settle on the seats)?
fn holds(place: &Place<'_>, pose: &Pose, work: &mut Workspace) -> bool {
    let seats = place.landing.seats();
    let asked: Vec<(f64, Plan)> = seats.iter().map(|s| asked(s, pose)).collect();
    let Some(gaps) = settled_gaps(place, &asked, work) else { return false };
    let size = asked.iter().map(|(h, o)| h.abs().max(o.length().as_mm())).fold(1e-3, f64::max);
    let touches = (TOUCHES * size).max(place.yields.min(YIELDS_WITHIN * size));
    let mut p = Program { cost: place.load(), ..Program::default() };
    for ((seat, (_, offset)), gap) in seats.iter().zip(&asked).zip(gaps) {
        if seat.carries() && gap <= touches {
            place.add(&mut p, seat, *offset, TOUCHES * size);
        }
    }
    p.free_directions().is_ok() && matches!(work.run(&p, 1e-8), Outcome::Lowest)
}

/// Gap under each seat when the frame settles straight down at its plan position.
fn settled_gaps(place: &Place<'_>, asked: &[(f64, Plan)], work: &mut Workspace) -> Option<Vec<f64>> {
    let seats = place.landing.seats();
    let unit = asked.iter().map(|(h, _)| h.abs()).fold(1e-3, f64::max);
    let mut q = place.load();
    q.iter_mut().take(3).for_each(|v| *v = 0.0);
    let mut p = Program { cost: q, ..Program::default() };
    for (seat, (height, _)) in seats.iter().zip(asked).filter(|(s, _)| s.carries()) {
        let [_, _, row] = place.rows(seat);
        p.rows.push(Row { row, shift: -height / unit });
    }
    p.free_directions().ok()?;
    if work.run(&p, 1e-9) != Outcome::Lowest {
        return None;
    }
    let mut exact = super::polish::Solution::default();
    exact.read(work);
    exact.sharpen(&p, super::polish::FROM_NEAR);
    let gap = |(seat, (height, _)): (&Seat, &(f64, Plan))| {
        let [_, _, row] = place.rows(seat);
        dot(&row, &exact.x) * unit - height
    };
    Some(seats.iter().zip(asked).map(gap).collect())
}

/// How far friction may leave the frame off its lowest pose, shifted in plan in each of the `directions` from x (yaw as
/// at rest). `range`: how far to look. The range is looked at in steps of its 32nd part; the last one that holds counts,
/// also where one before it does not, and is refined by halving.
pub fn held_shifts(
    landing: &Landing,
    rest: &Rest,
    grip: impl Into<Grip>,
    range: Length,
    directions: &[Angle],
) -> Result<Vec<Held>, InputError> {
    let place = Place::new(landing, grip.into())?;
    sound_range(range)?;
    let one = |work: &mut Workspace, direction: &Angle| {
        let shifted = |t: Length| {
            let (dx, dy) = (rest.pose.dx + t * direction.cos(), rest.pose.dy + t * direction.sin());
            Pose { dx, dy, ..rest.pose }
        };
        let (shift, everywhere) = last_held(range.as_mm(), |t| holds(&place, &shifted(Length::mm(t)), work));
        Held { direction: *direction, shift: Length::mm(shift), everywhere }
    };
    Ok(directions.par_iter().map_init(Workspace::default, one).collect())
}

fn sound_range(range: Length) -> Result<(), InputError> {
    let sound = range > Length::ZERO && range.is_finite();
    if sound { Ok(()) } else { Err(InputError::OutOfRange("search range")) }
}

/// Directions worth a look: evenly all round, and both ways along every slot, where nothing but friction holds.
pub fn telling_directions(landing: &Landing, count: u32) -> Vec<Angle> {
    let even = (0..count).map(|i| Angle::degrees(360.0 * f64::from(i) / f64::from(count)));
    let along = landing
        .seats()
        .iter()
        .filter_map(|s| if let SeatKind::Slot { direction, .. } = s.kind { Some(direction) } else { None });
    let both = along.flat_map(|d| [d, d + Angle::degrees(180.0)]);
    even.chain(both).map(|a| Angle::degrees(a.as_degrees().rem_euclid(360.0))).collect()
}

/// How far the frame may be left turned off its lowest pose.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Turned {
    /// The point that it is turned about.
    pub centre: Plan,
    /// The seat there (index).
    pub about: Option<usize>,
    /// The seat farthest from there.
    pub farthest: usize,
    /// Largest turn at which friction can still hold it, signed.
    pub turn: Angle,
    /// How far the farthest seat is then off.
    pub shift: Length,
    /// Holds everywhere in the range.
    pub everywhere: bool,
}

/// How far friction may leave the frame turned, either way about every seat and about the centre of mass, until the
/// farthest seat is off by `range`. A turn about a seat is a shift and a turn at once.
pub fn held_turns(
    landing: &Landing,
    rest: &Rest,
    grip: impl Into<Grip>,
    range: Length,
) -> Result<Vec<Turned>, InputError> {
    let seats = landing.seats().iter().enumerate().map(|(i, s)| (Some(i), s.at));
    let about: Vec<_> = seats.chain([(None, landing.load().centre)]).collect();
    turns(landing, rest, grip.into(), range, &about)
}

/// The same about other points. Any shift and turn at once is a turn about some point, often one well outside.
pub fn held_about(
    landing: &Landing,
    rest: &Rest,
    grip: impl Into<Grip>,
    range: Length,
    points: &[Plan],
) -> Result<Vec<Turned>, InputError> {
    let about: Vec<_> = points.iter().map(|at| (None, *at)).collect();
    turns(landing, rest, grip.into(), range, &about)
}

/// Points all round the centre of mass, `count` ways, so many `times` as far out as the farthest seat.
pub fn points_round(landing: &Landing, count: u32, times: &[f64]) -> Vec<Plan> {
    let centre = landing.load().centre;
    let far = landing.seats().iter().map(|s| (s.at - centre).length()).fold(Length::ZERO, Length::max);
    let ways = (0..count).map(|i| Angle::degrees(360.0 * f64::from(i) / f64::from(count)));
    let out =
        |way: Angle| times.iter().map(move |k| centre + Plan { x: far * (way.cos() * k), y: far * (way.sin() * k) });
    ways.flat_map(out).collect()
}

/// Pairs of seats that climb of which the points between are looked at.
const PAIRS: usize = 15;

/// Points halfway between any two seats that climb, and square to their line: turned about those, both climb alike, and
/// the pull home of the one is taken up by the other.
pub fn points_between(landing: &Landing) -> Vec<Plan> {
    let climbs = |s: &&Seat| matches!(s.kind, SeatKind::Round | SeatKind::Slot { .. });
    let seats: Vec<Plan> = landing.seats().iter().filter(climbs).map(|s| s.at).collect();
    let pairs = seats.iter().enumerate().flat_map(|(i, a)| seats.iter().skip(i + 1).map(move |b| (*a, *b)));
    let square = |(a, b): (Plan, Plan)| {
        let line = b - a;
        let across = Plan { x: -line.y, y: line.x };
        [-0.5, -0.4, -0.3, -0.2, -0.1, 0.0, 0.1, 0.2, 0.3, 0.4, 0.5].map(|k| a + line * 0.5 + across * k)
    };
    pairs.take(PAIRS).flat_map(square).collect()
}

fn turns(
    landing: &Landing,
    rest: &Rest,
    grip: Grip,
    range: Length,
    about: &[(Option<usize>, Plan)],
) -> Result<Vec<Turned>, InputError> {
    let place = Place::new(landing, grip)?;
    sound_range(range)?;
    let seats = landing.seats();
    let turns: Vec<(Option<usize>, Plan, f64)> =
        about.iter().flat_map(|(i, at)| [(*i, *at, 1.0), (*i, *at, -1.0)]).collect();
    let one = |work: &mut Workspace, (about, at, sign): &(Option<usize>, Plan, f64)| {
        let reach = |s: &Seat| (s.at - *at).length().as_mm();
        let far = seats.iter().map(reach).enumerate().max_by(|a, b| a.1.total_cmp(&b.1));
        let (farthest, radius) = far.filter(|f| f.1 > 0.0)?;
        let turned = |shift: f64| {
            let turn = sign * shift / radius;
            let (dx, dy) = (rest.pose.dx + at.y * turn, rest.pose.dy - at.x * turn);
            Pose { dx, dy, yaw: rest.pose.yaw + Angle::radians(turn), ..rest.pose }
        };
        let (shift, everywhere) = last_held(range.as_mm(), |t| holds(&place, &turned(t), work));
        let turn = Angle::radians(sign * shift / radius);
        Some(Turned { centre: *at, about: *about, farthest, turn, shift: Length::mm(shift), everywhere })
    };
    Ok(turns.par_iter().map_init(Workspace::default, one).flatten().collect())
}

/// Largest t in [0, range] that is good (steps of a 32nd of the range, then halving), and whether all are.
fn last_held(range: f64, mut good: impl FnMut(f64) -> bool) -> (f64, bool) {
    let steps: Vec<bool> = (1..=32).map(|i| good(range * f64::from(i) / 32.0)).collect();
    let last = steps.iter().rposition(|held| *held).map_or(0, |i| i + 1);
    if last == steps.len() {
        return (range, steps.iter().all(|held| *held));
    }
    let mut low = range * last as f64 / 32.0;
    let mut high = low + range / 32.0;
    for _ in 0..12 {
        let middle = 0.5 * (low + high);
        if good(middle) { low = middle } else { high = middle }
    }
    (low, false)
}

/// Forces locked into the frame at rest, and the greatest friction can lock in at the same pose.
/// max f·d over all contact forces within friction that balance the load, by its dual in six freedoms.
pub fn locked_forces(landing: &Landing, rest: &Rest, friction: f64) -> Result<Vec<Locked>, InputError> {
    let place = Place::new(landing, friction.into())?;
    let mut work = Workspace::default();
    let mut all = Vec::new();
    for (i, at_rest) in rest.seats.iter().enumerate() {
        let [fx, fy] = at_rest.side.map(|f| f.as_newtons());
        let greatest = greatest_side(&place, rest, i, &mut work);
        all.push(Locked { at_rest: Force::newtons(libm::hypot(fx, fy)), greatest });
    }
    Ok(all)
}

/// Greatest sideways force on seat `chosen` along its force at rest (or away from the centre of mass).
fn greatest_side(place: &Place<'_>, rest: &Rest, chosen: usize, work: &mut Workspace) -> Option<Force> {
    let seats = place.landing.seats();
    let (seat, at_rest) = (seats.get(chosen)?, rest.seats.get(chosen)?);
    if !matches!(seat.kind, SeatKind::Round | SeatKind::Slot { .. }) {
        return None;
    }
    let offset = at_rest.offset;
    let size = rest.seats.iter().map(|s| s.offset.length().as_mm()).fold(1e-3, f64::max);
    let outward = if offset.length().as_mm() > TOUCHES * size { offset } else { seat.at - place.landing.load().centre };
    let d = outward.pair().map(|v| -v / outward.length().as_mm().max(f64::MIN_POSITIVE));
    let mut p = Program { cost: place.load(), ..Program::default() };
    for (i, (s, r)) in seats.iter().zip(&rest.seats).enumerate() {
        if !(s.carries() && r.gap.as_mm() <= TOUCHES * size) {
            continue;
        }
        let before = p.blocks.len();
        place.add(&mut p, s, r.offset, TOUCHES * size);
        if i == chosen {
            p.blocks.iter_mut().skip(before).for_each(|b| shift_by(b, d));
        }
    }
    p.free_directions().ok()?;
    let newtons = place.landing.load().down().as_newtons();
    match work.run(&p, 1e-8) {
        Outcome::Lowest => Some(Force::newtons(dot(&p.cost, &work.x).max(0.0) * newtons)),
        _ => None,
    }
}

/// The block evaluated at the motion w − d instead of w, d a unit motion in plan: dx and dy enter every row
/// directly.
fn shift_by(b: &mut Block, d: [f64; 2]) {
    let mut probe = [0.0; FREEDOMS];
    probe.iter_mut().zip(d).for_each(|(p, v)| *p = v);
    b.shift = b.map(&probe).map(|v| -v);
}
