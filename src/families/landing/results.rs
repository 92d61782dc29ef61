//! Everything the mechanics say about the landing, and its record in the design.

use crate::families::{Depth, Progress};
use crate::formulas::frame::arrangement::{self, Allowances, Arrangement, Hole, Judged, Road};
use crate::formulas::frame::capture::{Catch, SetCapture, set_capture};
use crate::formulas::frame::chance::{self, Chance, DRAWS, SeatSpread, Study};
use crate::formulas::frame::friction::{self, Grip, Held, Locked, Turned};
use crate::formulas::frame::loads::{LoadRange, load_ranges, tip_margin};
use crate::formulas::frame::rest::{Carrier, NoRest, Rest, rest};
use crate::formulas::frame::ride_off::{self, Case, CaseResult, Holding, RideOff, Transport};
use crate::formulas::frame::{InputError, Landing, Plan, Seat, SeatKind};
use crate::record::design::{Design, Table, Value};
use crate::record::key::TableName;
use crate::record::show::Say;
use crate::units::{Acceleration, Angle, Expansion, Force, Length};

use super::growth;
use super::heat::{self, Heated};
use super::heights::Heights;
use super::places::{Places, USUAL_UNCERTAINTY};
use super::read::{self, SeatSpec, Spec};
use super::rooms::{self, Room};
use super::rubbing::{Rubbing, WANDER_RANGE};
use super::seated::{self, SEATED_WITHIN};
use super::shims::{self, Shims};
use super::sizes;
use super::{middle, own_capture};

/// Directions of the ride-off plot.
pub const DIRECTIONS: usize = 72;
/// Margin of the capture kept in hand.
/// Source: common practice, no source.
pub const CAPTURE_MARGIN: Length = Length::mm(5.0);
/// Safety factor on climbing. Source: common practice, no source.
const SAFETY: f64 = 1.5;
/// Arc half-angle of a relieved cone. Source: derived; 10° lets 1 mm pass for a third of a millimetre of lift.
const RELIEF: Angle = Angle::degrees(10.0);
/// By so much frame, crossbars and seats yield under the load, so that a seat that stands off by less carries too.
/// Source: common practice, no source.
pub const YIELDS: Length = Length::mm(0.05);
/// One sigma of a seat's height where none is stated. Source: common practice, no source.
pub const HEIGHT_SIGMA: Length = Length::mm(0.3);

/// All results.
pub struct Results {
    pub rest: Result<Rest, NoRest>,
    /// The same set with a round cup on every cone.
    pub all_round: Option<(Landing, Result<Rest, NoRest>)>,
    pub arrangement: Option<Arrangement>,
    pub as_arranged: Option<Result<Rest, NoRest>>,
    pub tip: Option<Length>,
    pub loads: Option<Vec<LoadRange>>,
    /// Greatest load of every seat, at rest or under the accelerations that it must stand.
    pub greatest: Option<Vec<Force>>,
    /// Greatest load of any seat by the weight alone, no tie-down on it yet.
    pub weight_on_one: Option<Force>,
    pub ride_off: Vec<RideOff>,
    pub preloads: Option<Vec<CaseResult>>,
    /// Why no tie-down can be told, where the mechanics refuse to.
    pub untold: Option<InputError>,
    /// The same two with the base as far out of level as it may stand.
    pub on_slope: Preloads,
    pub rooms: Vec<Room>,
    /// The set that stands is the best, or as good, and stays.
    pub kept: bool,
    /// The cups are to become others: what stands is no pair of a round cup and a slot.
    pub changed: bool,
    /// What levels the frame and lets every seat bear; `None` where it finds no place.
    pub shims: Option<Shims>,
    /// The frame was felt under its seats: what is shimmed is told of how it stands, not of how it is drawn.
    pub felt: bool,
    pub heated: Vec<Heated>,
    pub capture: SetCapture,
    pub catches: Vec<Catch>,
    pub rubbing: Rubbing,
    pub held: Vec<Held>,
    pub turned: Vec<Turned>,
    pub locked: Vec<Locked>,
    pub chance: Option<Chance>,
    pub chance_arranged: Option<Chance>,
    /// As arranged and with no doubt in the heights: what shims under the seats bring besides.
    pub chance_level: Option<Chance>,
}

impl Results {
    /// The shims that are told where the frame is worked as it is drawn.
    pub fn shims_told(&self) -> Option<&Shims> {
        self.shims.as_ref().filter(|_| !self.felt)
    }

    /// The greatest load of all seats, on the worst three.
    pub fn greatest_load(&self) -> Option<Force> {
        self.greatest.as_ref()?.iter().copied().reduce(Force::max)
    }
}

/// Works everything out.
pub fn results(
    s: &Spec,
    places: &Places,
    heights: &Heights,
    landing: &Landing,
    all_round: Option<Landing>,
    (depth, watch): (Depth, &Progress),
) -> Result<Results, InputError> {
    let at_rest = rest(landing);
    let ranked = depth.wants(&["all_round", "arrangement", "seats_fully", "one_place", "slot_travel", "clear_room"]);
    let arrangement = if ranked { arrange(s, places, heights, landing)? } else { None };
    let as_arranged = arrangement.as_ref().map(|a| rest(&a.landing));
    let untied = untied(landing)?;
    let rubbing = Rubbing::of(s);
    let rubs_asked = depth.wants(&["left_hanging", "comes_back"]);
    let heated =
        if rubs_asked || depth.wants(&["heat", "heat_no_place"]) { heat::heated(s, landing)? } else { Vec::new() };
    let (held, turned, locked) = match &at_rest {
        Ok(found) if rubs_asked => rubs(landing, found, &heated, &rubbing)?,
        _ => Default::default(),
    };
    let holding = Holding { friction: 0.0, weight_part: s.demands.bump.value() };
    let best = match (&arrangement, &as_arranged) {
        (Some(a), Some(Ok(_))) => Some(&a.landing),
        _ => None,
    };
    let catches = catches(s, places, heights, landing);
    let rooms = rooms::rooms(s, places, landing);
    let kept = arrangement.as_ref().is_some_and(|a| seated::is_kept(landing, at_rest.as_ref().ok(), &rooms, a));
    // Three studies, one after the other; none where only what one working gives is asked for.
    let best_drawn = best.filter(|_| depth.draws());
    let draws = |landing: &Landing, doubt, before: f64| {
        chance(s, places, heights, landing, doubt, &|share| watch((before + share) / 3.0))
    };
    let on_slope = preloads(s, landing, arrangement.as_ref(), s.tilt(), depth);
    let (preloads, untold) = preloads(s, landing, arrangement.as_ref(), Angle::ZERO, depth);
    Ok(Results {
        all_round: all_round.map(|l| (l.clone(), rest(&l))),
        tip: tip_margin(&untied).map(|t| t.inside),
        loads: load_ranges(landing),
        greatest: greatest(s, landing),
        weight_on_one: weight_on_one(&untied),
        ride_off: if depth.wants(&["ride_off", "tie_down_enough"]) {
            ride_off::ride_off(landing, &holding, DIRECTIONS)?
        } else {
            Vec::new()
        },
        preloads,
        untold,
        on_slope,
        rooms,
        kept,
        changed: !kept && !seated::is_pair(landing),
        shims: at_rest.as_ref().ok().map(|found| Shims::of(s, landing, found)),
        felt: false,
        heated,
        capture: capture(s, &catches)?,
        catches,
        rubbing,
        held,
        turned,
        locked,
        chance: (depth.draws() && at_rest.is_ok()).then(|| draws(landing, Doubt::Heights, 0.0)).transpose()?,
        chance_arranged: best_drawn.map(|best| draws(best, Doubt::Heights, 1.0)).transpose()?,
        chance_level: best_drawn.map(|best| draws(&shimmed(s, best), Doubt::Level, 2.0)).transpose()?,
        as_arranged,
        rest: at_rest,
        arrangement,
    })
}

/// The frame as it is set down: nothing is tied down then, and nothing but its weight keeps it from tipping.
fn untied(landing: &Landing) -> Result<Landing, InputError> {
    let mut load = landing.load().clone();
    load.pulls.clear();
    Landing::new(landing.seats().to_vec(), load)
}

/// The same with every seat shimmed until it touches.
fn shimmed(s: &Spec, landing: &Landing) -> Landing {
    let amounts = rest(landing).ok().map(|found| Shims::of(s, landing, &found).amounts);
    amounts.and_then(|amounts| shims::landing_with(landing, &amounts)).unwrap_or_else(|| landing.clone())
}

/// Greatest load of every seat of any three, at rest and under each of the accelerations that it must stand, the base as far
/// out of level as it may be: what is borne at the height of the centre of mass shifts the load's foot.
/// Source: statics; 49 CFR 393.102 gives accelerations where none are written.
fn greatest(s: &Spec, landing: &Landing) -> Option<Vec<Force>> {
    let mut all: Vec<Force> = load_ranges(landing)?.iter().map(|l| l.greatest).collect();
    for case in cases(s, s.tilt()) {
        let mut load = landing.load().clone();
        load.side = [case.along, case.across].map(|a| load.weight * a.as_g());
        // Where it would tip no load can be told: what it is tied down with is judged by itself.
        let pushed = Landing::new(landing.seats().to_vec(), load).ok();
        let Some(found) = pushed.as_ref().and_then(load_ranges) else { continue };
        all.iter_mut().zip(&found).for_each(|(most, here)| *most = most.max(here.greatest));
    }
    Some(all)
}

/// Greatest load of any seat of any three.
fn weight_on_one(landing: &Landing) -> Option<Force> {
    load_ranges(landing)?.iter().map(|l| l.greatest).reduce(|a, b| if a > b { a } else { b })
}

/// What friction does: shifts and turns that it holds, and the forces that it locks in.
type Rubs = (Vec<Held>, Vec<Turned>, Vec<Locked>);

/// How the seats hold the frame while it slides home.
pub fn grip(rubbing: &Rubbing) -> Grip {
    Grip { friction: rubbing.taken, yields: YIELDS }
}

/// How far friction may leave it off its place, and what it may lock in at any temperature of the range.
fn rubs(landing: &Landing, found: &Rest, heated: &[Heated], rubbing: &Rubbing) -> Result<Rubs, InputError> {
    let directions = friction::telling_directions(landing, 8);
    let grip = grip(rubbing);
    let held = friction::held_shifts(landing, found, grip, WANDER_RANGE, &directions)?;
    let mut turned = friction::held_turns(landing, found, grip, WANDER_RANGE)?;
    let mut points = friction::points_round(landing, 12, &[0.5, 1.0, 1.5, 2.5, 5.0]);
    points.extend(friction::points_between(landing));
    turned.extend(friction::held_about(landing, found, grip, WANDER_RANGE, &points)?);
    let mut locked = friction::locked_forces(landing, found, rubbing.taken)?;
    for end in heated {
        let Ok(found) = &end.rest else { continue };
        for (all, here) in locked.iter_mut().zip(friction::locked_forces(&end.landing, found, rubbing.taken)?) {
            *all = all.or_greater(here);
        }
    }
    Ok((held, turned, locked))
}

fn arrange(s: &Spec, places: &Places, heights: &Heights, landing: &Landing) -> Result<Option<Arrangement>, InputError> {
    if landing.seats().len() < 2 {
        return Ok(None);
    }
    let difference = growth::difference(s);
    let spread = places.sigma.iter().copied().fold(Length::ZERO, Length::max);
    // The mouth of a turned seat is no ring that carries: a seat without a straight hole of its own is slotted as wide as the
    // widest straight hole of the set.
    let rings = |turned: bool| {
        use crate::families::cup::read::Hole;
        let cups = s.seats.iter().filter_map(|seat| seat.cup.as_ref());
        cups.filter(move |cup| matches!(cup.hole, Hole::Turned { .. }) == turned).map(super::entry_ring)
    };
    let widest = |turned: bool| rings(turned).fold(Length::ZERO, Length::max);
    let seat_diameter = if rings(false).next().is_some() { widest(false) } else { widest(true) };
    let width = |i: usize| {
        let cup = s.seats.get(i).and_then(|seat| seat.cup.as_ref().filter(|_| !super::heights::on_pad(seat)));
        let straight = cup.filter(|cup| !matches!(cup.hole, crate::families::cup::read::Hole::Turned { .. }));
        straight.map_or(seat_diameter, super::entry_ring)
    };
    let cone = |i: usize| s.seats.get(i).map_or(seat_diameter, |seat| heights.cone_there(seat));
    let allow = Allowances {
        expansion: Expansion::per_million_kelvin(difference.as_per_million_kelvin().abs()),
        temperature: growth::change(s),
        position: spread * 3.0,
        seat_diameter: seat_diameter.max(Length::mm(1.0)),
        relief: RELIEF,
    };
    let road = Road { weight_part: s.demands.bump.value(), safety: SAFETY, cases: cases(s, Angle::ZERO) };
    arrangement::arrange(landing, &allow, &road).map(|found| Some(found.sized(&width, &cone)))
}

/// Tie-down case by case, and why there is none.
pub type Preloads = (Option<Vec<CaseResult>>, Option<InputError>);

/// Least preload for the round and the slot that are there, or else for the pair of the arrangement, on a slope that
/// pushes along with every case; and why where none could be found. One check turns on it.
fn preloads(s: &Spec, landing: &Landing, arrangement: Option<&Arrangement>, slope: Angle, depth: Depth) -> Preloads {
    let Some(transport) = depth
        .wants(&["cup_side_factor", "tie_down_enough"])
        .then(|| transport(s, landing, arrangement, slope))
        .flatten()
    else {
        return (None, None);
    };
    match ride_off::least_preloads(&transport, &cases(s, slope)) {
        Ok(found) => (Some(found), None),
        Err(why) => (None, Some(why)),
    }
}

/// The load on its round cup and its slot, those that are there or else the pair of the arrangement; `None` without either.
fn transport(s: &Spec, landing: &Landing, arrangement: Option<&Arrangement>, slope: Angle) -> Option<Transport> {
    let at: Vec<Plan> = landing.seats().iter().map(|seat| seat.at).collect();
    let find = |wanted: fn(&SeatKind) -> bool| landing.seats().iter().position(|seat| wanted(&seat.kind));
    let rounds = landing.seats().iter().filter(|seat| seat.kind == SeatKind::Round).count();
    let own = (rounds == 1)
        .then(|| Some((find(|k| *k == SeatKind::Round)?, find(|k| matches!(k, SeatKind::Slot { .. }))?)))
        .flatten();
    let (round, slot) = own.or_else(|| arrangement.map(|a| (a.best.round, a.best.slot)))?;
    // The slot that stands holds square to its own line, wherever that runs.
    let direction = match landing.seats().get(slot)?.kind {
        SeatKind::Slot { direction, .. } if own.is_some() => direction,
        _ => (*at.get(slot)? - *at.get(round)?).direction(),
    };
    Some(Transport {
        mass: s.mass.value,
        centre: s.centre.0,
        height: s.centre.1,
        seats: at,
        round,
        slot,
        slot_direction: direction,
        half_angle: landing.seats().get(round)?.half_angle,
        slot_half_angle: landing.seats().get(slot)?.half_angle,
        friction: 0.0,
        weight_part: s.demands.bump.value() * slope.cos(),
        safety: SAFETY,
    })
}

/// The accelerations that the load must stand, one at a time, each with what a slope adds.
fn cases(s: &Spec, slope: Angle) -> Vec<Case> {
    let demands = &s.demands;
    let forward = if s.base().drives() { "braking" } else { "forward" };
    let steeper = |a: Acceleration| {
        let way = if a.as_g() == 0.0 { 0.0 } else { a.as_g().signum() };
        Acceleration::g(a.as_g() + way * slope.sin())
    };
    let case = |name, along, across| Case { name, along: steeper(along), across: steeper(across) };
    let none = Acceleration::ZERO;
    vec![
        case(forward, demands.forward.value(), none),
        case("rearward", -demands.rearward.value(), none),
        case("to the left", none, demands.sideways.value()),
        case("to the right", none, -demands.sideways.value()),
    ]
}

/// Every seat as the hanging frame meets it, about the middle of the set.
fn catches(s: &Spec, places: &Places, heights: &Heights, landing: &Landing) -> Vec<Catch> {
    let centre = middle(&places.at);
    // Without a cone a pad neither catches nor misses anything; where all seats are pads nothing guides the frame.
    let guided = landing.seats().iter().any(|s| matches!(s.kind, SeatKind::Round | SeatKind::Slot { .. }));
    // So is a nose that ends under the plate.
    let bare = |spec: &SeatSpec, seat: &Seat| match seat.kind {
        SeatKind::Pad => guided,
        SeatKind::Clear { .. } => guided && spec.cone.height <= heights.entry(spec),
        SeatKind::Round | SeatKind::Slot { .. } => false,
    };
    let catch = |(spec, seat): (&SeatSpec, &Seat)| {
        // A slot catches a cone anywhere between its ends as well as in its middle.
        let ended = matches!(seat.kind, SeatKind::Slot { .. });
        let mismatch = if ended { seat.off_rim(seat.mismatch) } else { seat.mismatch };
        let capture = if bare(spec, seat) { Length::mm(f64::INFINITY) } else { own_capture(spec, heights) };
        Catch { at: seat.at - centre, mismatch, capture }
    };
    s.seats.iter().zip(landing.seats()).map(catch).collect()
}

fn capture(s: &Spec, catches: &[Catch]) -> Result<SetCapture, InputError> {
    set_capture(catches, s.swing(), CAPTURE_MARGIN)
}

/// Whether the heights of a study are in doubt, or shimmed until every seat touches.
#[derive(Clone, Copy)]
enum Doubt {
    Heights,
    Level,
}

fn chance(
    s: &Spec,
    places: &Places,
    heights: &Heights,
    landing: &Landing,
    doubt: Doubt,
    watch: &Progress,
) -> Result<Chance, InputError> {
    let study = Study {
        spread: spreads(s, places, heights, landing, doubt),
        together: Some(places.covariance.factor()),
        draws: s.draws.as_ref().map_or(DRAWS, |d| d.value as usize),
        seed: 1,
        seated_within: SEATED_WITHIN,
        target: s.target.unwrap_or(s.centre).0,
        target_height: s.target.unwrap_or(s.centre).1,
        bins: 24,
    };
    chance::chance(landing, &study, &|done| watch(done as f64 / study.draws as f64))
}

/// One sigma of the height of a crossbar.
pub fn height_sigma(s: &Spec) -> Length {
    s.height_uncertainty.as_ref().map_or(HEIGHT_SIGMA, |h| h.value)
}

/// What is drawn of every seat.
fn spreads(s: &Spec, places: &Places, heights: &Heights, landing: &Landing, doubt: Doubt) -> Vec<SeatSpread> {
    let height = height_sigma(s);
    let of = |((seat, sigma), rise): ((&Seat, &Length), &(Length, Length))| match doubt {
        Doubt::Level => SeatSpread { position: *sigma, ..SeatSpread::default() },
        // A pad is made and shimmed to measure.
        Doubt::Heights if matches!(seat.kind, SeatKind::Pad | SeatKind::Clear { .. }) => {
            SeatSpread { position: *sigma, height, ..SeatSpread::default() }
        }
        Doubt::Heights => SeatSpread { position: *sigma, height, rise: *rise },
    };
    landing.seats().iter().zip(&places.sigma).zip(&heights.rises).map(of).collect()
}

/// In words, what carries a seat.
fn carrier_word(kind: &SeatKind, carrier: Carrier) -> &'static str {
    match carrier {
        Carrier::Cone if matches!(kind, SeatKind::Slot { .. }) => "both sides of the slot",
        Carrier::Nothing => "hangs free",
        Carrier::Cone => "cone, all round",
        Carrier::Flank if matches!(kind, SeatKind::Clear { .. }) => "rim of the clear hole",
        Carrier::Flank => "one flank",
        Carrier::End => "end of the slot",
        Carrier::Pad => "pad",
        Carrier::Face => "crossbar face",
    }
}

/// In words, how a seat holds.
pub fn kind_word(kind: &SeatKind, say: Say) -> String {
    let name = kind_name(kind);
    match kind {
        SeatKind::Round | SeatKind::Pad => name.into(),
        SeatKind::Slot { direction, travel } => {
            let at = format!("{name} at {}°", crate::record::show::trimmed(direction.as_degrees(), 1));
            if travel.is_finite() { format!("{at}, {} each way", say.length(travel.rounded())) } else { at }
        }
        SeatKind::Clear { clearance, .. } => {
            format!("{name} by {}, on a pad", say.length(clearance.rounded()))
        }
    }
}

/// In one word, what a seat is.
pub fn kind_name(kind: &SeatKind) -> &'static str {
    match kind {
        SeatKind::Round => "round",
        SeatKind::Slot { .. } => "slot",
        SeatKind::Pad => "pad",
        SeatKind::Clear { .. } => "clear",
    }
}

/// Puts figures and tables into the design.
pub fn record(design: &mut Design, s: &Spec, places: &Places, landing: &Landing, r: &Results) {
    design.given(&read::MASS, &s.mass, Value::Mass);
    design.computed(&sizes::WEIGHT, Value::Force(s.mass.value.weight()), "mass x 9.80665 m/s2");
    design.computed_length(&sizes::CENTRE_X, s.centre.0.x, "as written");
    design.computed_length(&sizes::CENTRE_Y, s.centre.0.y, "as written");
    design.computed_length(&sizes::CENTRE_HEIGHT, s.centre.1, "as written");
    r.rubbing.record(design, s);
    heat::record(design, s);
    if let Ok(found) = &r.rest {
        pose(design, &sizes::AT_REST, found);
    }
    if let Some(Ok(found)) = &r.as_arranged {
        pose(design, &sizes::AS_ARRANGED, found);
    }
    holding(design, r);
    repeatability(design, s, r);
    tables(design, s, places, landing, r);
}

/// Capture, ride-off and tie-down.
fn holding(design: &mut Design, r: &Results) {
    design.computed_length(&sizes::CAPTURE_RADIUS, r.capture.radius, "smallest of (hole - nose)/2 less the mismatch");
    design.computed(&sizes::CAPTURE_YAW, Value::Angle(r.capture.yaw), "2 asin(capture/(2 R))");
    design.computed(
        &sizes::CAPTURE_YAW_AT_SWING,
        Value::Angle(r.capture.yaw_at_swing),
        "2 asin((capture - swing)/(2 R)), the swing in the worst direction",
    );
    if let Some(limit) = ride_off::least(&r.ride_off) {
        design.computed(
            &sizes::RIDE_OFF,
            Value::Acceleration(limit.limit.unwrap_or(Acceleration::ZERO)),
            "frictionless, the stated part of the weight counted",
        );
        design.computed(&sizes::RIDE_OFF_DIRECTION, Value::Angle(limit.direction), "from x");
    }
    if let Some(worst) = r.preloads.as_ref().and_then(|p| ride_off::governing(p)) {
        design.computed(
            &sizes::LEAST_PRELOAD,
            Value::Force(worst.preload),
            "side force x 1.5 x tan a - vertical load, worst case",
        );
    }
    if let Some(worst) = r.preloads.as_ref().and_then(|p| ride_off::governing_on_three(p)) {
        design.computed(
            &sizes::LEAST_PRELOAD_ON_THREE,
            Value::Force(worst),
            "least load of any three instead, at the seat's own tie-down",
        );
    }
    // What is read first.
    design.principal(&[
        &sizes::CAPTURE_RADIUS,
        &sizes::RIDE_OFF,
        &sizes::LEAST_PRELOAD_ON_THREE,
        &sizes::SEATING_SHARE,
        &sizes::TARGET_SPREAD,
    ]);
}

/// What the draws rest on.
fn assumptions(design: &mut Design, s: &Spec, r: &Results) {
    if r.chance.is_none() {
        return;
    }
    let why = "one sigma, common practice";
    design.length_or(&read::HEIGHT_UNCERTAINTY, s.height_uncertainty.as_ref(), HEIGHT_SIGMA, why);
    // Whatever no survey says is where the file says, with this doubt.
    let placed = |network: bool| !network && s.seats.iter().all(|seat| seat.at.is_some());
    if !super::places::transferred(s) && (placed(s.cones.is_some()) || placed(s.cups.is_some())) {
        design.length_or(&read::POSITION_UNCERTAINTY, s.position_uncertainty.as_ref(), USUAL_UNCERTAINTY, why);
    }
    design.given_or(&read::DRAWS, s.draws.as_ref(), DRAWS as u32, Value::Count, "usual number");
}

/// What is drawn for each frame, seat by seat: so that the share can be reworked.
pub fn drawn_table(
    design: &mut Design,
    s: &Spec,
    (places, heights): (&Places, &Heights),
    landing: &Landing,
    r: &Results,
) {
    if r.chance.is_none() {
        return;
    }
    let drawn = spreads(s, places, heights, landing, Doubt::Heights);
    let rows = landing.seats().iter().zip(drawn).map(|(seat, drawn)| {
        let (least, most) = drawn.rise;
        let lengths = [drawn.position, drawn.height, least, most].map(|l| Value::Length(l.rounded()));
        std::iter::once(Value::Text(seat.name.clone())).chain(lengths).collect::<Vec<_>>()
    });
    table(
        design,
        sizes::DRAWN_TABLE,
        "Drawn for each frame: place (one sigma each way, all places together) and height (one sigma) normally; what the limits of cup and cone leave of the seat height as the mean of two even draws; all plates of one thickness",
        &["seat", "place", "height", "limits, least", "limits, most"],
        rows.collect(),
    );
}

/// How many frames built so seat, and how far their targets lie off.
fn repeatability(design: &mut Design, s: &Spec, r: &Results) {
    assumptions(design, s, r);
    if let Some(c) = &r.chance {
        design.computed(
            &sizes::SEATING_SHARE,
            Value::Share(c.seating_share),
            "seeded draws of positions, heights and the limits of cups and cones",
        );
        design.computed_length(&sizes::TARGET_SPREAD, c.target_off.p95, "the same draws");
        let named = |shares: [f64; 3]| chance::INPUTS.map(str::to_string).into_iter().zip(shares);
        design.comes_from(&sizes::SEATING_SHARE, named(c.shares.seating));
        design.comes_from(&sizes::TARGET_SPREAD, named(c.shares.target));
    }
    if let Some(c) = &r.chance_arranged {
        design.computed(&sizes::SEATING_SHARE_ARRANGED, Value::Share(c.seating_share), "seeded draws");
        design.computed_length(&sizes::TARGET_SPREAD_ARRANGED, c.target_off.p95, "seeded draws");
    }
}

fn pose(design: &mut Design, pose: &sizes::PoseName, rest: &Rest) {
    let (p, what) = (&rest.pose, pose.words());
    for (axis, value) in [("dx", p.dx), ("dy", p.dy), ("z", p.z)] {
        let label =
            if axis == "z" { format!("height {what} over full seating") } else { format!("shift {axis} {what}") };
        design.computed_length(&pose.along(axis, label), value, "lowest pose of the centre of mass");
    }
    for (axis, value) in [("yaw", p.yaw), ("roll", p.roll), ("pitch", p.pitch)] {
        design.computed(
            &pose.along(axis, format!("{axis} {what}")),
            Value::Angle(value),
            "lowest pose of the centre of mass",
        );
    }
}

fn table(design: &mut Design, name: TableName, title: &str, columns: &[&str], rows: Vec<Vec<Value>>) {
    design.tabulate(Table::new(name, title, columns, rows));
}

fn tables(design: &mut Design, s: &Spec, places: &Places, landing: &Landing, r: &Results) {
    seat_table(design, places, landing);
    if let Ok(found) = &r.rest {
        let title = rest_title("At rest, as it is", found);
        table(design, sizes::REST_TABLE, &title, REST_COLUMNS, rest_rows(landing, found));
        heat::table(design, s, landing, &r.heated);
    }
    if let (Some(a), Some(Ok(found))) = (&r.arrangement, &r.as_arranged) {
        table(
            design,
            sizes::ARRANGEMENT_TABLE,
            &arranged_title(landing, r, a),
            &["seat", if r.changed { "make it" } else { "it would be" }, "size", "room each way"],
            arrangement_rows(landing, a),
        );
        table(
            design,
            sizes::PAIRS_TABLE,
            &format!(
                "Round cup and slot: the best pairs; loads as on equal springs, {} of the weight; and how many times the best of all each asks for, summed over the five, a millimetre added to each room and a tenth of the weight to each tie-down (5: best in each)",
                crate::record::show::trimmed(s.demands.bump.value(), 2)
            ),
            &[
                "round, slot",
                "greatest room",
                "climbs off at",
                "tie-down, on three",
                "apart",
                "load, round",
                "load, slot",
                "sum",
            ],
            a.pairs.iter().take(PAIRS_SHOWN).map(|j| pair_row(landing, j)).collect(),
        );
        let title = rest_title("At rest, as arranged", found);
        table(design, sizes::REST_AS_ARRANGED_TABLE, &title, REST_COLUMNS, rest_rows(&a.landing, found));
    }
    load_tables(design, landing, r);
    friction_table(design, landing, r);
    locked_table(design, landing, r);
    survey_tables(design, places);
}

fn seat_table(design: &mut Design, places: &Places, landing: &Landing) {
    let say = design.say();
    let text = |t: &str| Value::Text(t.into());
    let place_rows = landing
        .seats()
        .iter()
        .zip(&places.sigma)
        .map(|(seat, sigma)| {
            vec![
                text(&seat.name),
                Value::Text(kind_word(&seat.kind, say)),
                Value::Length(seat.at.x.rounded()),
                Value::Length(seat.at.y.rounded()),
                Value::Length(seat.mismatch.x.rounded()),
                Value::Length(seat.mismatch.y.rounded()),
                Value::Length(seat.height),
                Value::Length(sigma.rounded()),
            ]
        })
        .collect();
    table(
        design,
        sizes::SEATS_TABLE,
        "Seats: cone in plan, cup minus cone, height difference, one sigma",
        &["seat", "as it is", "x", "y", "off in x", "off in y", "height", "sigma"],
        place_rows,
    );
}

/// Loads on the seats, and the tie-down that keeps them seated.
fn load_tables(design: &mut Design, landing: &Landing, r: &Results) {
    let text = |t: &str| Value::Text(t.into());
    if let Some(loads) = &r.loads {
        let rows = landing
            .seats()
            .iter()
            .zip(loads)
            .zip(r.greatest.iter().flatten())
            .map(|((seat, l), most)| {
                let forces = [l.least, l.spring, l.greatest, *most].map(Value::Force);
                std::iter::once(text(&seat.name)).chain(forces).collect()
            })
            .collect();
        table(
            design,
            sizes::LOADS_TABLE,
            "Load on each seat: least and greatest of any three supports, as on equal springs, and greatest when it is braked or pushed",
            &["seat", "least", "springs", "greatest", "braked, pushed"],
            rows,
        );
    }
    if let Some(cases) = &r.preloads {
        let rows = cases
            .iter()
            .map(|c| {
                vec![
                    text(c.case.name),
                    Value::Acceleration(c.case.along),
                    Value::Acceleration(c.case.across),
                    Value::Force(c.round),
                    Value::Force(c.slot),
                    Value::Force(c.preload),
                    Value::Force(c.preload_on_three),
                ]
            })
            .collect();
        table(
            design,
            sizes::PRELOAD_TABLE,
            "Tie-down that keeps it seated",
            &[
                "case",
                "along x",
                "along y",
                "side force, round",
                "side force, slot",
                "at each, on springs",
                "at each, on any three",
            ],
            rows,
        );
    }
}

/// Loads that statics leaves open are named as what they are.
fn rest_title(what: &str, rest: &Rest) -> String {
    if rest.shared { format!("{what} (loads shared as by equal springs)") } else { what.into() }
}

const REST_COLUMNS: &[&str] = &["seat", "off centre", "lift", "still to fall", "load", "carried by"];

fn rest_rows(landing: &Landing, rest: &Rest) -> Vec<Vec<Value>> {
    landing
        .seats()
        .iter()
        .zip(&rest.seats)
        .map(|(seat, at)| {
            vec![
                Value::Text(seat.name.clone()),
                Value::Length(at.offset.length().rounded()),
                Value::Length(at.lift.rounded()),
                Value::Length(at.gap.rounded()),
                Value::Force(at.load),
                Value::Text(carrier_word(&seat.kind, at.carrier).into()),
            ]
        })
        .collect()
}

/// Pairs of round cup and slot that are shown.
const PAIRS_SHOWN: usize = 5;

fn pair_row(landing: &Landing, j: &Judged) -> Vec<Value> {
    let name = |i: usize| landing.seats().get(i).map_or("", |s| s.name.as_str());
    vec![
        Value::Text(format!("{}, {}", name(j.pair.round), name(j.pair.slot))),
        Value::Length(j.room.rounded()),
        j.ride_off.map_or_else(|| Value::Text("no limit".into()), Value::Acceleration),
        if j.tie_down.is_finite() { Value::Force(j.tie_down) } else { Value::Text("none holds it".into()) },
        Value::Length(j.base.rounded()),
        Value::Force(j.loads[0]),
        Value::Force(j.loads[1]),
        if j.score.is_finite() {
            Value::Number((j.score * 100.0).round() / 100.0)
        } else {
            Value::Text("carries nothing".into())
        },
    ]
}

/// What a cup becomes, how large, and the room that this leaves.
pub fn becomes(seat: &Seat, hole: &Hole) -> (String, Option<Length>, Length) {
    match hole {
        Hole::Round if seat.kind == SeatKind::Round => ("round, as it is".into(), None, Length::ZERO),
        Hole::Round => ("a round cup".into(), None, Length::ZERO),
        Hole::Slot { direction, length, float, .. } => {
            let at = crate::record::show::trimmed(direction.as_degrees(), 1);
            (format!("slot at {at}° from x"), Some(length.rounded()), *float)
        }
        Hole::Clear { diameter, clearance } => ("clear hole on a pad".into(), Some(diameter.rounded()), *clearance),
    }
}

/// What the table of the best pair is: what is to be made, what stands, or another that would be no better.
fn arranged_title(landing: &Landing, r: &Results, a: &Arrangement) -> String {
    let is = |i: usize, kind: fn(&SeatKind) -> bool| landing.seats().get(i).is_some_and(|s| kind(&s.kind));
    let stands = is(a.best.round, |k| *k == SeatKind::Round) && is(a.best.slot, |k| matches!(k, SeatKind::Slot { .. }));
    match (r.kept, stands) {
        (false, _) if r.changed => "Which cup should be which".into(),
        (false, _) => {
            "What stands is a pair too, and the steps are for it. The best pair by the figures would be".into()
        }
        (true, true) => "What stands is the best pair by the figures and is kept: what its seats are then".into(),
        (true, false) => {
            "What stands is as good and is kept: nothing is to be made. The best pair by the figures would be".into()
        }
    }
}

fn arrangement_rows(landing: &Landing, a: &Arrangement) -> Vec<Vec<Value>> {
    let row = |(seat, hole): (&Seat, &Hole)| {
        let (what, size, room) = becomes(seat, hole);
        let size = size.map_or_else(|| Value::Text("-".into()), Value::Length);
        vec![Value::Text(seat.name.clone()), Value::Text(what), size, Value::Length(room.rounded())]
    };
    landing.seats().iter().zip(&a.holes).map(row).collect()
}

fn friction_table(design: &mut Design, landing: &Landing, r: &Results) {
    // A pad holds no cone, whatever it carries.
    let carrying = landing.seats().iter().zip(r.loads.iter().flatten()).filter(|(seat, _)| seat.carries());
    let slimmer = |a: &(&Seat, Force), b: &(&Seat, Force)| {
        let angle = a.0.half_angle.as_degrees().total_cmp(&b.0.half_angle.as_degrees());
        angle.then(b.1.as_newtons().total_cmp(&a.1.as_newtons()))
    };
    let Some((seat, load)) = carrying.map(|(seat, l)| (seat, l.greatest)).min_by(slimmer) else { return };
    let rows = r
        .rubbing
        .all()
        .into_iter()
        .map(|mu| {
            let centring = crate::formulas::seating::centring_force(load, seat.half_angle, mu);
            let home = if centring > crate::units::Force::ZERO { "slides home" } else { "hangs on the flank" };
            let release = crate::formulas::seating::release_force(load, seat.half_angle, mu);
            vec![
                Value::Number(mu),
                Value::Text(home.into()),
                Value::Text(if release.is_some() { "sticks" } else { "comes free" }.into()),
                Value::Force(release.unwrap_or(crate::units::Force::ZERO)),
            ]
        })
        .collect();
    table(
        design,
        sizes::FRICTION_TABLE,
        "Sliding home and coming off, slimmest cone under its greatest load",
        &["friction", "coming down", "going up", "pull to free it beyond the weight"],
        rows,
    );
}

/// Sideways forces between the seats and the frame.
fn locked_table(design: &mut Design, landing: &Landing, r: &Results) {
    let most = |l: &Locked| l.greatest.map_or_else(|| Value::Text("-".into()), Value::Force);
    let row = |(seat, l): (&crate::formulas::frame::Seat, &Locked)| {
        vec![Value::Text(seat.name.clone()), Value::Force(l.at_rest), most(l)]
    };
    table(
        design,
        sizes::LOCKED_IN_TABLE,
        &format!(
            "Sideways force between seat and frame over the range of temperature, and the most that friction {} can lock in",
            r.rubbing.taken
        ),
        &["seat", "without friction", "with friction, at most"],
        landing.seats().iter().zip(&r.locked).map(row).collect(),
    );
}

fn survey_tables(design: &mut Design, places: &Places) {
    for (name, title, network) in [
        (sizes::SURVEY_POINTS_CONES_TABLE, "Cones by the tape, in plan", &places.cones),
        (sizes::SURVEY_POINTS_CUPS_TABLE, "Cups by the tape, in plan", &places.cups),
    ] {
        let Some(network) = network else { continue };
        let rows = network
            .survey
            .points
            .iter()
            .zip(network.at.iter().zip(network.sigmas()))
            .map(|(p, (at, sigma))| {
                vec![
                    Value::Text(p.name.clone()),
                    Value::Length(at.x.rounded()),
                    Value::Length(at.y.rounded()),
                    Value::Length(sigma.rounded()),
                ]
            })
            .collect();
        table(design, name, title, &["point", "x", "y", "sigma within the seats"], rows);
    }
    for (name, title, network) in [
        (sizes::SURVEY_CONES_TABLE, "Tape readings between the cones", &places.cones),
        (sizes::SURVEY_CUPS_TABLE, "Tape readings between the cups", &places.cups),
    ] {
        let Some(network) = network else { continue };
        let judged = network.with_suspect.as_ref().unwrap_or(&network.survey);
        let title = if network.with_suspect.is_some() {
            format!("{title}, adjusted with the suspect one still in")
        } else {
            title.into()
        };
        let rows = judged
            .readings
            .iter()
            .map(|j| {
                vec![
                    Value::Text(format!("{}-{}", j.from, j.to)),
                    Value::Length(j.measured.rounded()),
                    Value::Length(j.residual.rounded()),
                    j.standardised.map_or_else(
                        || Value::Text("unchecked".into()),
                        |w| Value::Number((w * 100.0).round() / 100.0),
                    ),
                    j.detectable.map_or_else(|| Value::Text("-".into()), |d| Value::Length(d.rounded())),
                ]
            })
            .collect();
        table(
            design,
            name,
            &title,
            &["line", "measured", "computed - measured", "w", "smallest blunder it could show"],
            rows,
        );
    }
}
