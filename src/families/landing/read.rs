//! Reading a landing's part file: mass, seats with their cones and cups, tape surveys, how the cups were placed.

use crate::description::Fields;
use crate::families::common::{self, Common, settled};
use crate::families::{Workplace, cone, cup};
use crate::formulas::frame::Plan;
use crate::formulas::survey::{Reading, Side};
use crate::formulas::uncertainty::Instrument;
use crate::record::key::{Bounds, Given, Key, Kind};
use crate::shop::instruments;
use crate::shop::tape::Tape;
use crate::units::{Acceleration, Angle, Force, Length, Mass};

pub const MASS: Key = Key::new("mass", "mass of the frame", Kind::Mass, "such as \"640 kg\"");
pub const CENTRE: Key = Key::new(
    "centre_of_mass",
    "centre of mass",
    Kind::Lengths(Bounds::Any),
    "x, y and height above the seats, such as [\"0 mm\", \"50 mm\", \"700 mm\"]",
);
pub const TARGET: Key = Key::new(
    "target",
    "target point",
    Kind::Lengths(Bounds::Any),
    "x, y and height of the point whose repeatability counts; the centre of mass if left out",
);
pub const FRICTION: Key = Key::new(
    "friction",
    "friction on the flanks",
    Kind::Number(0.0, 2.0),
    "such as 0.30; as printed for the materials of cone and cup if left out",
);
pub const HOIST_SWING: Key = Key::new(
    "hoist_swing",
    "hoist swing",
    Kind::NOT_NEGATIVE,
    "how far off it hangs while it comes down, such as \"8 mm\"; 10 mm is assumed if left out",
);
pub const TIE_DOWN: Key = Key::new(
    "tie_down",
    "tie-down at each seat",
    Kind::Force,
    "downward pull of the tie-down at each seat, such as \"2 kN\"",
);
pub const ACCELERATIONS: Key = Key::new(
    "accelerations",
    "transport accelerations",
    Kind::Table(ACCELERATION_KEYS),
    "what the load must stand; rules of the place come first",
);
pub const POSITION_UNCERTAINTY: Key = Key::new(
    "position_uncertainty",
    "uncertainty of the positions",
    Kind::NOT_NEGATIVE,
    "of a cup against its cone, one sigma each way, where no survey says it, such as \"1 mm\"",
);
pub const HEIGHT_UNCERTAINTY: Key = Key::new(
    "height_uncertainty",
    "uncertainty of the heights",
    Kind::NOT_NEGATIVE,
    "of a seat's height, one sigma, such as \"0.3 mm\"",
);
pub const TEMPERATURE_CHANGE: Key = Key::new(
    "temperature_change",
    "temperature change",
    Kind::Number(0.0, 150.0),
    "in kelvin, of frame and base together, either way from the day of fitting, such as 40",
);
pub const BASE: Key = Key::new(
    "base",
    "what carries the cones",
    Kind::Choice(&["trailer", "slab", "steelwork"]),
    "\"trailer\" goes on the road; \"slab\" and \"steelwork\" stand still; a trailer if left out",
);
pub const TRAILER_TILT: Key = Key::new(
    "trailer_tilt",
    "base out of level",
    Kind::Angle(-90.0, 90.0),
    "how far it may stand out of level when the frame is set down, such as \"1 deg\"",
);
pub const FIRST_END: Key = Key::new(
    "first_end",
    "end that is set down first",
    Kind::Choice(&["front", "rear", "left", "right"]),
    "front is +x, left is +y; the other end swings down about it; level, all at once, if left out",
);
pub const PITCH: Key = Key::new(
    "pitch",
    "pitch while one end comes down",
    Kind::Angle(0.0, 90.0),
    "steepest that the frame hangs with `first_end`, such as \"2 deg\"",
);
pub const WEAR: Key = Key::new(
    "wear",
    "wear or dirt on one seat",
    Kind::NOT_NEGATIVE,
    "in height, from one set-down to the next, such as \"0.1 mm\"",
);
pub const TRAILER_MATERIAL: Key =
    Key::new("trailer_material", "material that carries the cones", Kind::Text, "such as \"steel S235\"");
pub const SEAT: Key = Key::new("seat", "seat", Kind::Rows(SEAT_KEYS), "one row for each cone with its cup");
pub const SURVEY: Key = Key::new(
    "survey",
    "tape survey",
    Kind::Table(SURVEY_KEYS),
    "tape readings between the cones, and between the cups",
);
pub const FIT_UP: Key = Key::new("fit_up", "fit-up", Kind::Table(FIT_UP_KEYS), "how the cups were placed");
pub const DRAWS: Key = Key::new(
    "draws",
    "random draws",
    Kind::Count { min: 100, max: 1_000_000 },
    "for the chance of seating, such as 20000",
);

pub const SEAT_NAME: Key = Key::new("name", "seat name", Kind::Text, "such as \"FL\"; the surveys use the same names");
pub const CONE: Key = Key::new("cone", "cone", Kind::File, "part file of the cone");
pub const CUP: Key =
    Key::new("cup", "cup", Kind::File, "part file of the cup; may be left out for a clear hole or a pad");
pub const AT: Key = Key::new("at", "place", Kind::Lengths(Bounds::Any), "x and y, such as [\"900 mm\", \"400 mm\"]");
pub const KIND: Key = Key::new(
    "kind",
    "kind of seat",
    Kind::Choice(&["round", "slot", "clear", "pad"]),
    "as the cup's hole, unless \"clear\" (room around the cone, on a pad) or \"pad\" (no cone is set there, whatever its row names)",
);
pub const CLEARANCE: Key =
    Key::new("clearance", "radial clearance", Kind::POSITIVE, "of a clear hole, such as \"3 mm\"");
pub const DIRECTION: Key = Key::new(
    "direction",
    "direction of the slot",
    Kind::ANY_ANGLE,
    "in plan, from x, such as \"24 deg\"; as the cup's slot if left out",
);
pub const HEIGHT: Key = Key::new(
    "height",
    "height of the seat",
    Kind::LENGTH,
    "of the crossbar here over one datum for all seats, cups and pads alike; nought if left out, such as \"0.4 mm\"",
);
pub const PAD: Key = Key::new(
    "pad",
    "height of the pad",
    Kind::POSITIVE,
    "of a clear hole or pad: from the face that the cone stands on to the plate or frame that it bears, such as \"26.3 mm\"; level with the cups, or with the highest where they differ by more than 1 mm, if left out",
);
pub const LEVEL: Key = Key::new(
    "level",
    "tilt that is allowed",
    Kind::ANY_ANGLE,
    "of the frame at rest, roll and pitch together, such as \"0.1 deg\"; a caution from there, a failure beyond if written",
);
pub const MISMATCH: Key = Key::new(
    "mismatch",
    "mismatch",
    Kind::Lengths(Bounds::Any),
    "cup minus cone in x and y, such as [\"0.3 mm\", \"-0.8 mm\"]; overrides the surveys",
);

pub const CONES: Key =
    Key::new("cones", "survey of the cones", Kind::Table(NETWORK_KEYS), "tape readings between the cones");
pub const CUPS: Key =
    Key::new("cups", "survey of the cups", Kind::Table(NETWORK_KEYS), "tape readings between the cups");
pub const KNOWN_LENGTH: Key = Key::new(
    "known_length",
    "known length",
    Kind::POSITIVE,
    "a length that is known otherwise, such as \"2000 mm\": what the tape reads of it tells its scale",
);
pub const READINGS: Key = Key::new(
    "readings",
    "tape readings",
    Kind::List,
    "[\"FL\", \"FR\", \"1800 mm\"], a fourth entry is the height difference",
);
pub const UNCERTAINTY: Key =
    Key::new("uncertainty", "uncertainty of one reading", Kind::POSITIVE, "one sigma, such as \"1 mm\"");
pub const THIRD: Key = Key::new(
    "third_point",
    "side of the third point",
    Kind::Choice(&["left", "right"]),
    "of the line from the first to the second point named; same lengths fit both",
);

pub const PLACED: Key = Key::new(
    "placed",
    "how the cups were placed",
    Kind::Choice(&["surveyed apart", "transferred"]),
    "\"surveyed apart\", or \"transferred\": tacked with the frame standing on the cones",
);
pub const TRANSFER_ERROR: Key =
    Key::new("transfer_error", "transfer error", Kind::NOT_NEGATIVE, "one sigma, such as \"0.3 mm\"");
pub const WELD_PULL: Key = Key::new("weld_pull", "weld pull", Kind::NOT_NEGATIVE, "one sigma, such as \"0.5 mm\"");

pub const FORWARD: Key =
    Key::new("forward", "forward", Kind::Acceleration, "such as \"0.8 g\" for braking on the road");
pub const REARWARD: Key = Key::new("rearward", "rearward", Kind::Acceleration, "such as \"0.5 g\"");
pub const SIDEWAYS: Key =
    Key::new("sideways", "sideways", Kind::Acceleration, "such as \"0.5 g\" for cornering on the road");
pub const BUMP: Key =
    Key::new("bump", "part of the weight counted on", Kind::Number(0.05, 1.0), "such as 0.8 where it goes over bumps");

pub const ACCELERATION_KEYS: &[Key] = &[FORWARD, REARWARD, SIDEWAYS, BUMP];
pub const SEAT_KEYS: &[Key] = &[SEAT_NAME, CONE, CUP, AT, KIND, CLEARANCE, DIRECTION, HEIGHT, PAD, MISMATCH];
pub const NETWORK_KEYS: &[Key] = &[READINGS, UNCERTAINTY, THIRD];
pub const SURVEY_KEYS: &[Key] = &[CONES, CUPS, KNOWN_LENGTH];
pub const FIT_UP_KEYS: &[Key] = &[PLACED, TRANSFER_ERROR, WELD_PULL];

/// Keys of a landing's part file.
pub const KEYS: &[Key] = &[
    common::FAMILY,
    common::NAME,
    common::COUNT,
    common::MATERIAL,
    common::UNITS,
    common::NOTE,
    common::MEASURED,
    common::GENERAL_TOLERANCE,
    common::ENVIRONMENT,
    common::COATING,
    common::COATING_THICKNESS,
    MASS,
    CENTRE,
    TARGET,
    FRICTION,
    HOIST_SWING,
    TIE_DOWN,
    ACCELERATIONS,
    POSITION_UNCERTAINTY,
    HEIGHT_UNCERTAINTY,
    TEMPERATURE_CHANGE,
    BASE,
    TRAILER_TILT,
    FIRST_END,
    PITCH,
    WEAR,
    TRAILER_MATERIAL,
    LEVEL,
    SEAT,
    SURVEY,
    FIT_UP,
    DRAWS,
];

/// Most seats of one frame.
pub const MOST_SEATS: usize = 40;

/// A landing as read.
pub struct Spec {
    pub common: Common,
    pub trailer: crate::shop::Material,
    pub trailer_material: Option<Given<String>>,
    pub mass: Given<Mass>,
    pub centre: (Plan, Length),
    pub target: Option<(Plan, Length)>,
    pub friction: Option<Given<f64>>,
    pub hoist_swing: Stated<Length>,
    pub tie_down: Option<Given<Force>>,
    pub base: Option<Given<&'static str>>,
    pub demands: Demands,
    pub position_uncertainty: Option<Given<Length>>,
    pub height_uncertainty: Option<Given<Length>>,
    pub temperature_change: Option<Given<f64>>,
    pub trailer_tilt: Option<Given<Angle>>,
    pub first_end: Option<Given<&'static str>>,
    pub pitch: Option<Given<Angle>>,
    pub wear: Option<Given<Length>>,
    pub level: Option<Given<Angle>>,
    pub seats: Vec<SeatSpec>,
    pub cones: Option<Network>,
    pub cups: Option<Network>,
    /// A length that is known otherwise than by the tape.
    pub known_length: Option<Given<Length>>,
    /// What the shop's tape reads of a known length: every line is corrected by it.
    pub tape: Option<Tape>,
    pub fit_up: Option<FitUp>,
    pub draws: Option<Given<u32>>,
}

/// What the load must stand where it is.
#[derive(Clone)]
pub struct Demands {
    pub forward: Stated<Acceleration>,
    pub rearward: Stated<Acceleration>,
    pub sideways: Stated<Acceleration>,
    pub bump: Stated<f64>,
}

/// A value as written, or else what is usual.
#[derive(Clone)]
pub struct Stated<T> {
    pub given: Option<Given<T>>,
    pub usual: T,
}

impl<T: Copy> Stated<T> {
    /// What counts.
    pub fn value(&self) -> T {
        self.given.as_ref().map_or(self.usual, |g| g.value)
    }
}

/// One cone with its cup.
pub struct SeatSpec {
    pub name: String,
    pub cone: cone::read::Spec,
    pub cup: Option<cup::read::Spec>,
    pub at: Option<Plan>,
    pub kind: Option<&'static str>,
    pub clearance: Option<Length>,
    pub direction: Option<Angle>,
    pub height: Option<Length>,
    pub pad: Option<Length>,
    pub mismatch: Option<Plan>,
}

impl Spec {
    /// What carries the cones.
    pub fn base(&self) -> Base {
        Base::of(self.base.as_ref())
    }

    /// How far out of level its base may stand.
    pub fn tilt(&self) -> Angle {
        self.trailer_tilt.as_ref().map_or(USUAL_TILT, |t| t.value.abs())
    }

    /// How far off the frame hangs.
    pub fn swing(&self) -> Length {
        self.hoist_swing.value()
    }
}

/// How far out of level the trailer may stand where nothing is written. Source: common practice, no source.
pub const USUAL_TILT: Angle = Angle::degrees(1.0);

/// Tape readings between points.
pub struct Network {
    pub readings: Vec<Reading>,
    pub uncertainty: Option<Given<Length>>,
    pub third: Option<Given<&'static str>>,
}

impl Network {
    /// The side on which the third point lies.
    pub fn side(&self) -> Side {
        if self.third.as_ref().is_some_and(|t| t.value == "right") { Side::Right } else { Side::Left }
    }
}

/// How the cups were placed.
pub struct FitUp {
    pub placed: Option<Given<&'static str>>,
    /// One sigma of the transfer.
    pub transfer_error: Stated<Length>,
    /// One sigma of the pull.
    pub weld_pull: Stated<Length>,
}

impl FitUp {
    /// Tacked with the frame standing on the cones.
    pub fn transferred(&self) -> bool {
        self.placed.as_ref().is_some_and(|p| p.value == "transferred")
    }
}

/// How far off a hung frame comes down where nothing is written: two hand lines, slow hook, no wind.
/// Source: common practice, no source.
const USUAL_SWING: Length = Length::mm(10.0);
/// One sigma of what is lost between scribing and tacking. Source: common practice, no source.
const USUAL_TRANSFER: Length = Length::mm(0.3);
/// One sigma of what a weld pulls a plate aside. Source: common practice, no source.
const USUAL_PULL: Length = Length::mm(0.5);

/// Reads the file; every problem is noted, `None` if one stands in the way.
pub fn read(fields: &Fields, place: &Workplace) -> Option<Spec> {
    let common = common::read(fields, place, "landing", "steel S235");
    let trailer = common::material(fields, place, &TRAILER_MATERIAL, "steel S235");
    let mass = fields.mass(&MASS);
    if mass.is_none() && !fields.has(&MASS) {
        fields.missing("`mass` is missing: mass of the frame, such as \"640 kg\"", None);
    }
    if !fields.has(&CENTRE) {
        fields.missing(
            "`centre_of_mass` is missing: x, y and height above the seats, such as [\"0 mm\", \"50 mm\", \"700 mm\"]",
            None,
        );
    }
    common::not_here(
        fields,
        &[&common::ENVIRONMENT, &common::COATING, &common::COATING_THICKNESS],
        "it stands in the part files of the cones and cups: write it there",
    );
    common::not_here(fields, &[&common::GENERAL_TOLERANCE], "each cone and cup has its own: write it there");
    let (centre, target) = (point3(fields, &CENTRE), point3(fields, &TARGET));
    let (friction, hoist_swing, tie_down) =
        (fields.number(&FRICTION), fields.length(&HOIST_SWING), fields.force(&TIE_DOWN));
    let base = fields.choice(&BASE);
    let demands = demands(fields.table(&ACCELERATIONS).as_ref(), Base::of(base.as_ref()));
    let (position_uncertainty, height_uncertainty) =
        (fields.length(&POSITION_UNCERTAINTY), fields.length(&HEIGHT_UNCERTAINTY));
    let (temperature_change, draws) = (fields.number(&TEMPERATURE_CHANGE), fields.count(&DRAWS));
    let seats = seats(fields, place);
    let survey = fields.table(&SURVEY);
    let tape = instruments::of_kind(&place.shop.instruments, Instrument::Tape);
    let usual_sigma = tape.length() / 2.0;
    let factor = place.shop.tape.as_ref().map_or(1.0, Tape::factor);
    let known_length = survey.as_ref().and_then(|s| s.length(&KNOWN_LENGTH));
    let network =
        |key: &'static Key| survey.as_ref().and_then(|s| s.table(key)).map(|t| network(&t, usual_sigma, factor));
    let (cones, cups) = (network(&CONES), network(&CUPS));
    let fit_up = fields.table(&FIT_UP).map(|t| fit_up(&t));
    let spec = Spec {
        common: common?,
        trailer: trailer?,
        trailer_material: if fields.has(&TRAILER_MATERIAL) { fields.text(&TRAILER_MATERIAL) } else { None },
        mass: mass?,
        centre: centre?,
        target: if fields.has(&TARGET) { Some(target?) } else { None },
        friction,
        hoist_swing: Stated { given: hoist_swing, usual: USUAL_SWING },
        tie_down,
        base,
        demands,
        position_uncertainty,
        height_uncertainty,
        temperature_change,
        trailer_tilt: fields.angle(&TRAILER_TILT),
        first_end: fields.choice(&FIRST_END),
        pitch: fields.angle(&PITCH),
        wear: fields.length(&WEAR),
        level: fields.angle(&LEVEL),
        seats: seats?,
        known_length,
        tape: place.shop.tape.clone(),
        cones: settled(cones)?,
        cups: settled(cups)?,
        fit_up,
        draws,
    };
    (placed(fields, &spec) && hangs(fields, &spec)).then_some(spec)
}

/// Every seat must have a place: from `at`, or from a survey of the cones.
fn placed(fields: &Fields, s: &Spec) -> bool {
    if s.cones.is_none() && s.seats.iter().any(|seat| seat.at.is_none()) {
        fields.missing(
            "some seats have no place: neither `at` nor a survey of the cones",
            Some("at = [\"900 mm\", \"400 mm\"] in each [[seat]], or [survey.cones]"),
        );
        return false;
    }
    true
}

/// Pitched or leaning as steep as its steepest cones the frame jams on them, and nothing here says how it comes down.
fn hangs(fields: &Fields, s: &Spec) -> bool {
    let slimmest = s.seats.iter().map(|seat| seat.cone.half_angle).fold(Angle::degrees(90.0), Angle::min);
    let beyond = |written: &Option<Given<Angle>>| written.as_ref().is_some_and(|angle| angle.value.abs() >= slimmest);
    let steep = [(&PITCH, beyond(&s.pitch)), (&TRAILER_TILT, beyond(&s.trailer_tilt))];
    for (key, _) in steep.iter().filter(|(_, beyond)| *beyond) {
        let message = format!("a frame as steep as the flank of a cone, {}, jams on it", super::degrees(slimmest));
        fields.problem_at(key, message, Some("less than the half-angle of the slimmest cone".into()));
    }
    steep.iter().all(|(_, beyond)| !beyond)
}

fn point3(fields: &Fields, key: &'static Key) -> Option<(Plan, Length)> {
    let list = fields.lengths(key)?;
    let [x, y, h] = list.value.as_slice() else {
        fields.problem_at(key, format!("`{}` is three lengths: x, y and height", key.name), Some(key.help.into()));
        return None;
    };
    Some((Plan { x: *x, y: *y }, *h))
}

fn point2(fields: &Fields, key: &'static Key) -> Option<Option<Plan>> {
    if !fields.has(key) {
        return Some(None);
    }
    let list = fields.lengths(key)?;
    let [x, y] = list.value.as_slice() else {
        fields.problem_at(key, format!("`{}` is two lengths, x and y", key.name), Some(key.help.into()));
        return None;
    };
    Some(Some(Plan { x: *x, y: *y }))
}

/// Usual demands, forward, rearward, sideways, and the part of the weight that counts. On the road: 49 CFR 393.102(a); four
/// fifths of the weight over bumps (common practice, no source). On a base that stands still: a knock by load or hoist
/// (common practice, no source), the whole weight.
fn demands(table: Option<&Fields>, base: Base) -> Demands {
    let (fore, back, side, part) = if base.drives() { (0.8, 0.5, 0.5, 0.8) } else { (0.1, 0.1, 0.1, 1.0) };
    let g = |key: &Key, usual: f64| Stated {
        given: table.and_then(|t| t.acceleration(key)),
        usual: Acceleration::g(usual),
    };
    Demands {
        forward: g(&FORWARD, fore),
        rearward: g(&REARWARD, back),
        sideways: g(&SIDEWAYS, side),
        bump: Stated { given: table.and_then(|t| t.number(&BUMP)), usual: part },
    }
}

/// What carries the cones.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Base {
    Trailer,
    Slab,
    Steelwork,
}

impl Base {
    /// As written; a trailer where nothing is.
    fn of(word: Option<&Given<&'static str>>) -> Self {
        match word.map(|w| w.value) {
            Some("slab") => Self::Slab,
            Some("steelwork") => Self::Steelwork,
            _ => Self::Trailer,
        }
    }

    /// Whether it goes on the road.
    pub fn drives(self) -> bool {
        self == Self::Trailer
    }

    /// In one word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Trailer => "trailer",
            Self::Slab => "slab",
            Self::Steelwork => "steelwork",
        }
    }
}

fn seats(fields: &Fields, place: &Workplace) -> Option<Vec<SeatSpec>> {
    let rows = fields.rows(&SEAT);
    if rows.is_empty() && !fields.has(&SEAT) {
        fields.missing("there is no [[seat]]", Some("one row for each cone: name, cone, cup, at"));
        return None;
    }
    if rows.len() > MOST_SEATS {
        fields.problem_at(&SEAT, format!("{} seats; at most {MOST_SEATS} are worked", rows.len()), None);
        return None;
    }
    let read: Vec<Option<SeatSpec>> = rows.iter().enumerate().map(|(i, row)| seat(row, i, place)).collect();
    let seats: Vec<SeatSpec> = read.into_iter().collect::<Option<_>>()?;
    for (i, seat) in seats.iter().enumerate() {
        let before = seats.get(..i).unwrap_or_default();
        if before.iter().any(|other| other.name == seat.name) {
            fields.problem_at(
                &SEAT,
                format!("two seats are called {}", seat.name),
                Some("give each seat a name of its own".into()),
            );
            return None;
        }
        if let Some(other) =
            before.iter().find(|o| matches!((o.at, seat.at), (Some(a), Some(b)) if (a - b).length() < Length::mm(1.0)))
        {
            fields.problem_at(
                &SEAT,
                format!("{} and {} are in one place", other.name, seat.name),
                Some("check `at` of both".into()),
            );
            return None;
        }
    }
    Some(seats)
}

fn seat(row: &Fields, index: usize, place: &Workplace) -> Option<SeatSpec> {
    let (name, cone_file, cup_file) = (row.text(&SEAT_NAME), row.required_text(&CONE), row.text(&CUP));
    let (at, mismatch) = (point2(row, &AT), point2(row, &MISMATCH));
    let (kind, clearance, height) = (row.choice(&KIND).map(|k| k.value), row.length(&CLEARANCE), row.length(&HEIGHT));
    let (direction, pad) = (row.angle(&DIRECTION), row.length(&PAD));
    let cone = cone_file.and_then(|file| common::neighbour(row, place, &file, &cone::FAMILY, cone::for_mate));
    let cup = cup_file.map(|file| common::neighbour(row, place, &file, &cup::FAMILY, cup::for_mate));
    if !row.has(&CUP) && !matches!(kind, Some("clear" | "pad")) {
        row.missing(
            "`cup` is missing: part file of the cup",
            Some("only a clear hole or a pad may do without: kind = \"clear\" and clearance, or kind = \"pad\""),
        );
        return None;
    }
    if kind == Some("clear") && clearance.is_none() && !row.has(&CLEARANCE) {
        row.missing("a clear hole needs its radial clearance", Some("clearance = \"3 mm\""));
        return None;
    }
    let (cone, cup) = (cone?, settled(cup)?);
    fits_its_cone(row, &cone, cup.as_ref())?;
    Some(SeatSpec {
        name: name.map_or_else(|| format!("seat {}", index + 1), |n| n.value),
        cone,
        cup,
        at: at?,
        kind,
        clearance: clearance.map(|c| c.value),
        direction: direction.map(|d| d.value),
        height: height.map(|h| h.value),
        pad: pad.map(|p| p.value),
        mismatch: mismatch?,
    })
}

/// A cup that was worked for another cone than the one that stands here sits at another height, if at all.
fn fits_its_cone(row: &Fields, cone: &cone::read::Spec, cup: Option<&cup::read::Spec>) -> Option<()> {
    let Some(mate) = cup.and_then(|cup| cup.mate.as_ref()) else { return Some(()) };
    let near = |a: Length, b: Length| (a - b).abs() <= Length::um(1.0);
    let same_flank = (cone.half_angle - mate.cone.half_angle).abs() <= Angle::degrees(1e-3);
    let same_ends = near(cone.base, mate.cone.base) && near(cone.tip, mate.cone.tip);
    if same_flank && same_ends && near(cone.foot_height(), mate.cone.foot_height()) {
        return Some(());
    }
    row.problem_at(
        &CONE,
        format!("the cup of this seat mates with {}, which is not the cone that stands here", mate.file.value),
        Some("name that cone here, or the cup that belongs to this one".into()),
    );
    None
}

fn network(table: &Fields, usual: Length, factor: f64) -> Option<Network> {
    let uncertainty = table.length(&UNCERTAINTY);
    let sigma = uncertainty.as_ref().map_or(usual, |u| u.value);
    let third = table.choice(&THIRD);
    if !table.has(&READINGS) {
        table
            .missing("`readings` is missing: the tape readings", Some("readings = [[\"FL\", \"FR\", \"1800 mm\"], …]"));
    }
    let rows = table.text_rows(&READINGS)?;
    let read: Vec<Option<Reading>> = rows.iter().map(|row| reading(table, row, sigma, factor)).collect();
    Some(Network { readings: read.into_iter().collect::<Option<_>>()?, uncertainty, third })
}

fn reading(table: &Fields, row: &Given<Vec<String>>, sigma: Length, factor: f64) -> Option<Reading> {
    let length = |text: &String| match crate::units::text::length_with_default(text, table.default_unit()) {
        Ok(length) => Some(length),
        Err(error) => {
            table.problem_in(row.span.clone(), format!("`{text}`: {}", error.what), error.help);
            None
        }
    };
    let (from, to, measured, dz) = match row.value.as_slice() {
        [from, to, measured] => (from, to, length(measured)?, Length::ZERO),
        [from, to, measured, dz] => (from, to, length(measured)?, length(dz)?),
        _ => {
            table.problem_in(
                row.span.clone(),
                "a tape reading is two points and a length".into(),
                Some("[\"FL\", \"FR\", \"1800 mm\"]; a fourth entry is the height difference".into()),
            );
            return None;
        }
    };
    if measured <= Length::ZERO {
        table.problem_in(row.span.clone(), format!("the reading {from}-{to} must be greater than 0"), None);
        return None;
    }
    Some(Reading { from: from.clone(), to: to.clone(), length: measured * factor, dz, sigma })
}

fn fit_up(table: &Fields) -> FitUp {
    FitUp {
        placed: table.choice(&PLACED),
        transfer_error: Stated { given: table.length(&TRANSFER_ERROR), usual: USUAL_TRANSFER },
        weld_pull: Stated { given: table.length(&WELD_PULL), usual: USUAL_PULL },
    }
}
