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
use super::model::{InputError, Landing, Load, Plan, Pose, Seat, SeatKind};
use super::outcome::Rest;
use super::scaled::{motion_rows, times};
use super::settle::Threes;
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
    /// Cosine and sine of φ.
    rubs: [f64; 2],
    yields: f64,
    /// Generalised load in scaled freedoms.
    load: Vec6,
    fixed: Vec<Fixed>,
    /// `None` where a programme has to tell on what it settles.
    threes: Option<Threes>,
}

/// What of a seat is the same at every pose.
struct Fixed {
    rows: [Vec6; 3],
    sin: f64,
    cos: f64,
    slope: f64,
}

impl<'a> Place<'a> {
    fn new(landing: &'a Landing, grip: Grip) -> Result<Self, InputError> {
        let phi = friction_angle(grip.friction)?;
        let far = |s: &Seat| (s.at - landing.load().centre).length().as_mm();
        let radius = landing.seats().iter().map(far).fold(1.0, f64::max);
        let scaled = |at: Plan| (at - landing.load().centre).pair().map(|v| v / radius);
        let fixed = |seat: &Seat| {
            let [x, y] = scaled(seat.at);
            let (sin, cos) = (seat.half_angle.sin(), seat.half_angle.cos());
            Fixed { rows: motion_rows(x, y), sin, cos, slope: seat.slope() }
        };
        let at: Vec<[f64; 2]> = landing.seats().iter().map(|s| scaled(s.at)).collect();
        let carries: Vec<bool> = landing.seats().iter().map(Seat::carries).collect();
        let foot = scaled(landing.load().foot());
        Ok(Self {
            landing,
            phi,
            rubs: [phi.cos(), phi.sin()],
            yields: grip.yields.as_mm(),
            load: scaled_load(landing.load(), foot),
            fixed: landing.seats().iter().map(fixed).collect(),
            threes: Threes::of(&at, &carries, foot),
        })
    }

    fn seats(&self) -> impl Iterator<Item = (&Seat, &Fixed)> {
        self.landing.seats().iter().zip(&self.fixed)
    }

    /// Motions that a contact with unit normal (up, x, y) and friction φ lets happen without loss:
    /// w·n >= |w| sin φ, as a block over the freedoms: head w·n cos φ, tail the tangential part times sin φ,
    /// from w·n >= sin φ √((w·n)² + |w_t|²). The tangential part has two components.
    fn contact(&self, [x, y, up]: &[Vec6; 3], normal: Vec3) -> Block {
        let combine = |k: Vec3| {
            let mut row = times(k[0], up);
            add_scaled(&mut row, k[1], x);
            add_scaled(&mut row, k[2], y);
            row
        };
        let lateral = libm::hypot(normal[1], normal[2]);
        let (cx, cy) = if lateral > 1e-12 { (normal[1] / lateral, normal[2] / lateral) } else { (1.0, 0.0) };
        let along = [-lateral, normal[0] * cx, normal[0] * cy];
        let [c, s] = self.rubs;
        let rows = [combine(normal.map(|v| v * c)), combine(along.map(|v| v * s)), combine([0.0, -cy * s, cx * s])];
        Block { rows, shift: [0.0; 3] }
    }

    /// Adds the contacts of a seat at an offset, if it touches.
    fn add(&self, p: &mut Program, (seat, fixed): (&Seat, &Fixed), at: &Asked, centred: f64) {
        let (rows, sin, cos) = (&fixed.rows, fixed.sin, fixed.cos);
        let mut flank = |towards: [f64; 2]| {
            p.blocks.push(self.contact(rows, [sin, -cos * towards[0], -cos * towards[1]]));
        };
        let off = at.off_rim.length().as_mm();
        if off > centred {
            return flank(at.off_rim.pair().map(|v| v / off));
        }
        match seat.kind {
            SeatKind::Round => {
                let rest = seat.half_angle - self.phi;
                let slope = if rest > Angle::ZERO { 1.0 / rest.tan() } else { SELF_HOLDING };
                let [x, y, up] = rows;
                p.blocks.push(Block { rows: [*up, times(slope, x), times(slope, y)], shift: [0.0; 3] });
            }
            SeatKind::Slot { direction, travel } => {
                let (c, s) = (direction.cos(), direction.sin());
                let along = at.offset.x.as_mm() * c + at.offset.y.as_mm() * s;
                [[-s, c], [s, -c]].into_iter().for_each(&mut flank);
                if along.abs() >= travel.as_mm() - centred {
                    flank([c * along.signum(), s * along.signum()]);
                }
            }
            SeatKind::Pad | SeatKind::Clear { .. } => p.blocks.push(self.contact(rows, [1.0, 0.0, 0.0])),
        }
    }
}

/// Generalised load in scaled freedoms, its resultant at the scaled place `foot`.
fn scaled_load(load: &Load, foot: [f64; 2]) -> Vec6 {
    let down = load.down().as_newtons();
    let mut q = motion_rows(foot[0], foot[1])[2];
    let [fx, fy] = load.side.map(|f| f.as_newtons() / down);
    add_scaled(&mut q, -1.0, &[fx, fy, 0.0, 0.0, 0.0, 0.0]);
    q
}

/// Slope that stands for a cone that holds by itself.
const SELF_HOLDING: f64 = 1e4;

/// What a seat asks for at a pose in plan.
struct Asked {
    /// Height of the frame there, mm.
    height: f64,
    offset: Plan,
    /// What of the offset presses the rim against the cone.
    off_rim: Plan,
}

impl Asked {
    fn at((seat, fixed): (&Seat, &Fixed), offset: Plan) -> Self {
        let off_rim = seat.off_rim(offset);
        let height = (seat.height + off_rim.length() * fixed.slope).as_mm();
        Self { height: seat.face.map_or(height, |f| height.max(f.as_mm())), offset, off_rim }
    }
}

/// Motions kept that have shown of some pose that nothing holds it there.
const MOST_PROOFS: usize = 8;

/// A search from pose to pose: its memory, and what showed of poses before that they are not held. What is found does not hang
/// on what is kept.
#[derive(Default)]
struct Search {
    work: Workspace,
    program: Program,
    asked: Vec<Asked>,
    heights: Vec<f64>,
    gaps: Vec<f64>,
    proofs: Vec<Vec6>,
}

impl Search {
    /// Can friction hold the frame where its plan position is `pose` (heights settle on the seats)?
    fn holds(&mut self, place: &Place<'_>, pose: &Pose) -> bool {
        self.asked.clear();
        let offset = |seat: &Seat| pose.shift_at(seat.at, Length::ZERO) + seat.mismatch;
        self.asked.extend(place.seats().map(|seat| Asked::at(seat, offset(seat.0))));
        if !self.settles(place) {
            return false;
        }
        let size = self.asked.iter().map(|a| a.height.abs().max(a.offset.length().as_mm())).fold(1e-3, f64::max);
        let touches = (TOUCHES * size).max(place.yields.min(YIELDS_WITHIN * size));
        self.program.blocks.clear();
        self.program.cost = place.load;
        for ((seat, at), gap) in place.seats().zip(&self.asked).zip(&self.gaps) {
            if seat.0.carries() && *gap <= touches {
                place.add(&mut self.program, seat, at, TOUCHES * size);
            }
        }
        !self.is_refuted() && self.balances()
    }

    /// Gap under each seat when the frame settles straight down at its plan position; `false` where it finds no place.
    fn settles(&mut self, place: &Place<'_>) -> bool {
        self.heights.clear();
        self.heights.extend(self.asked.iter().map(|a| a.height));
        match &place.threes {
            Some(threes) => threes.gaps(&self.heights, &mut self.gaps),
            None => match settled_gaps(place, &self.heights, &mut self.work) {
                Some(gaps) => self.gaps = gaps,
                None => return false,
            },
        }
        true
    }

    /// Does a motion that showed it of another pose show it of this one?
    fn is_refuted(&mut self) -> bool {
        let Some(found) = self.proofs.iter().position(|motion| self.program.falls_along(motion)) else { return false };
        self.proofs.get_mut(..=found).into_iter().for_each(|first| first.rotate_right(1));
        true
    }

    /// Is there a balance of contact forces? Keeps the motion that shows that there is none.
    fn balances(&mut self) -> bool {
        if self.program.free_directions().is_err() {
            return false;
        }
        let outcome = self.work.run(&self.program, 1e-8);
        if outcome == Outcome::Unbounded && self.program.falls_along(&self.work.x) {
            self.proofs.truncate(MOST_PROOFS - 1);
            self.proofs.insert(0, self.work.x);
        }
        outcome == Outcome::Lowest
    }
}

/// Gap under each seat by a programme, where three seats do not tell.
fn settled_gaps(place: &Place<'_>, heights: &[f64], work: &mut Workspace) -> Option<Vec<f64>> {
    let unit = heights.iter().map(|h| h.abs()).fold(1e-3, f64::max);
    let mut q = place.load;
    q.iter_mut().take(3).for_each(|v| *v = 0.0);
    let mut p = Program { cost: q, ..Program::default() };
    let seats = || place.seats().zip(heights);
    p.rows.extend(seats().filter(|((seat, _), _)| seat.carries()).map(|((_, fixed), height)| {
        let [_, _, row] = fixed.rows;
        Row { row, shift: -height / unit }
    }));
    p.free_directions().ok()?;
    if work.run(&p, 1e-9) != Outcome::Lowest {
        return None;
    }
    let mut exact = super::polish::Solution::default();
    exact.read(work);
    exact.sharpen(&p, super::polish::FROM_NEAR);
    let gap = |((_, fixed), height): ((&Seat, &Fixed), &f64)| {
        let [_, _, row] = &fixed.rows;
        dot(row, &exact.x) * unit - height
    };
    Some(seats().map(gap).collect())
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
    let one = |search: &mut Search, direction: &Angle| {
        let shifted = |t: Length| {
            let (dx, dy) = (rest.pose.dx + t * direction.cos(), rest.pose.dy + t * direction.sin());
            Pose { dx, dy, ..rest.pose }
        };
        let (shift, everywhere) = last_held(range.as_mm(), |t| search.holds(&place, &shifted(Length::mm(t))));
        Held { direction: *direction, shift: Length::mm(shift), everywhere }
    };
    Ok(directions.par_iter().map_init(Search::default, one).collect())
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
    let one = |search: &mut Search, (about, at, sign): &(Option<usize>, Plan, f64)| {
        let reach = |s: &Seat| (s.at - *at).length().as_mm();
        let far = seats.iter().map(reach).enumerate().max_by(|a, b| a.1.total_cmp(&b.1));
        let (farthest, radius) = far.filter(|f| f.1 > 0.0)?;
        let turned = |shift: f64| {
            let turn = sign * shift / radius;
            let (dx, dy) = (rest.pose.dx + at.y * turn, rest.pose.dy - at.x * turn);
            Pose { dx, dy, yaw: rest.pose.yaw + Angle::radians(turn), ..rest.pose }
        };
        let (shift, everywhere) = last_held(range.as_mm(), |t| search.holds(&place, &turned(t)));
        let turn = Angle::radians(sign * shift / radius);
        Some(Turned { centre: *at, about: *about, farthest, turn, shift: Length::mm(shift), everywhere })
    };
    Ok(turns.par_iter().map_init(Search::default, one).flatten().collect())
}

/// Parts of the range that are looked at.
const STEPS: u32 = 32;

/// Largest t in [0, range] that is good (steps of a 32nd of the range, then halving), and whether all are.
fn last_held(range: f64, mut good: impl FnMut(f64) -> bool) -> (f64, bool) {
    let step = |i: u32| range * f64::from(i) / f64::from(STEPS);
    let last = (1..=STEPS).rev().find(|i| good(step(*i))).unwrap_or(0);
    if last == STEPS {
        return (range, (1..STEPS).rev().all(|i| good(step(i))));
    }
    let mut low = step(last);
    let mut high = low + range / f64::from(STEPS);
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
    let mut p = Program { cost: place.load, ..Program::default() };
    for (i, (s, r)) in place.seats().zip(&rest.seats).enumerate() {
        if !(s.0.carries() && r.gap.as_mm() <= TOUCHES * size) {
            continue;
        }
        let before = p.blocks.len();
        place.add(&mut p, s, &Asked::at(s, r.offset), TOUCHES * size);
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::formulas::random::SplitMix;

    /// Five seats of all kinds, off centre and at differing heights, pushed aside.
    fn shaken(random: &mut SplitMix) -> Landing {
        let slot = SeatKind::Slot { direction: Angle::degrees(360.0 * random.uniform()), travel: Length::mm(1.0) };
        let clear = SeatKind::Clear { clearance: Length::mm(0.5), on_pad: true };
        let kinds = [SeatKind::Round, slot, clear, SeatKind::Pad, SeatKind::Round];
        let one = |(i, kind): (usize, SeatKind)| {
            let a = Angle::degrees(72.0 * i as f64 + 20.0 * random.uniform());
            let ([ex, ey], [height, _]) = (random.normals(), random.normals());
            let at = Plan::mm(800.0 * a.cos(), 500.0 * a.sin());
            let seat = Seat::round(&format!("s{i}"), at, Angle::degrees(20.0 + 25.0 * random.uniform()));
            seat.with_kind(kind).with_mismatch(Plan::mm(0.5 * ex, 0.5 * ey)).with_height(Length::mm(0.2 * height))
        };
        let seats = kinds.into_iter().enumerate().map(one).collect();
        let centre = Plan::mm(200.0 * random.uniform(), 100.0 * random.uniform());
        let load = Load {
            side: [Force::newtons(300.0 * random.uniform()), Force::ZERO],
            height: Length::mm(400.0),
            ..Load::of_weight(Force::newtons(6000.0), centre)
        };
        Landing::new(seats, load).unwrap()
    }

    /// Three seats tell the gaps that the programme tells, and a search that keeps what it has found judges every pose as one
    /// that begins anew.
    #[test]
    fn short_cuts_change_no_verdict() {
        let mut random = SplitMix::new(31);
        let (mut held, mut free, mut kept) = (0, 0, 0);
        for case in 0..60 {
            let landing = shaken(&mut random);
            let friction = [0.2, 0.6, 1.2][case % 3];
            let yields = Length::mm([0.0, 0.05][case % 2]);
            let place = Place::new(&landing, Grip { friction, yields }).unwrap();
            let mut search = Search::default();
            for _ in 0..60 {
                let [dx, dy] = random.normals().map(Length::mm);
                let pose = Pose { dx, dy, yaw: Angle::degrees(0.1 * random.normals()[0]), ..Pose::default() };
                let found = search.holds(&place, &pose);
                assert_eq!(found, Search::default().holds(&place, &pose), "case {case}, {pose:?}");
                if found {
                    held += 1
                } else {
                    free += 1
                }
                let gaps = settled_gaps(&place, &search.heights, &mut search.work).unwrap();
                assert!(place.threes.is_some());
                assert!(gaps.iter().zip(&search.gaps).all(|(a, b)| (a - b).abs() < 1e-5), "case {case}, {gaps:?}");
            }
            kept += search.proofs.len();
        }
        assert!(held > 200 && free > 1000 && kept > 200, "{held} held, {free} free, {kept} kept");
    }
}
