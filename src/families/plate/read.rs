//! Reading a plate's part file.

use crate::description::{Fields, Taken};
use crate::families::Workplace;
use crate::families::common::{self, BoltSteel, Common, Head};
use crate::record::key::{Bounds, Given, Key, Kind};
use crate::shape::Point;
use crate::shop::Material;
use crate::standards::threads::Thread;
use crate::units::{Angle, Force, Length};

use super::drawn;

pub const SHAPE: Key = Key::new(
    "shape",
    "shape",
    Kind::Choice(&["rectangle", "disc", "ring segment", "arm", "gusset", "angle"]),
    "\"rectangle\", \"disc\", \"ring segment\", \"arm\" (round ends), \"gusset\" (a right triangle with blunt ends) or \"angle\" (an L)",
);
pub const OUTLINE: Key = Key::new(
    "outline",
    "outline from",
    Kind::File,
    "a drawing (DXF) with the outline and its holes instead of a shape, such as \"mount.dxf\"",
);
pub const GAP: Key = Key::new(
    "gap",
    "gap that is joined",
    Kind::NOT_NEGATIVE,
    "ends in the drawing that lie nearer than this are joined, such as \"0.05 mm\"",
);
pub const LENGTH: Key = Key::new("length", "length", Kind::POSITIVE, "along x, overall, such as \"160 mm\"");
pub const WIDTH: Key = Key::new("width", "width", Kind::POSITIVE, "along y, overall, such as \"80 mm\"");
pub const DIAMETER: Key =
    Key::new("diameter", "outside diameter", Kind::POSITIVE, "of a disc or a ring segment, such as \"120 mm\"");
pub const BORE: Key = Key::new("bore", "inside diameter", Kind::POSITIVE, "of a ring segment, such as \"80 mm\"");
pub const SWEEP: Key =
    Key::new("sweep", "sweep", Kind::Angle(1.0, 350.0), "angle that a ring segment spans, such as \"90 deg\"");
pub const CORNER_RADIUS: Key =
    Key::new("corner_radius", "corner radius", Kind::NOT_NEGATIVE, "of a rectangle's corners, such as \"6 mm\"");
pub const LEG: Key = Key::new("leg", "width of the legs", Kind::POSITIVE, "of an angle, such as \"40 mm\"");
pub const INNER_RADIUS: Key = Key::new(
    "inner_radius",
    "radius of the inner corner",
    Kind::NOT_NEGATIVE,
    "of an angle; sharp if left out, such as \"6 mm\"",
);
pub const BLUNT: Key = Key::new("blunt", "blunt ends", Kind::POSITIVE, "of a gusset, such as \"15 mm\"");
pub const THICKNESS: Key = Key::new("thickness", "thickness", Kind::POSITIVE, "such as \"5 mm\"");
pub const HOLE: Key = Key::new("hole", "hole", Kind::Rows(HOLE_KEYS), "a hole, a slot, or several alike on a circle");
pub const ONTO: Key = Key::new(
    "onto",
    "material that it is bolted to",
    Kind::Text,
    "what the plate is bolted to, such as \"aluminium 6061-T6\"",
);
pub const ONTO_THICKNESS: Key = Key::new(
    "onto_thickness",
    "wall that it is bolted to",
    Kind::POSITIVE,
    "thickness of the wall between plate and nut, such as \"4 mm\"; the length of the bolts follows from it",
);
pub const LOAD: Key = Key::new(
    "load",
    "load",
    Kind::Load,
    "in the plane of the plate, towards -y, held by the bolts, such as \"25 kg\" or \"400 N\"",
);
pub const LOAD_AT: Key = Key::new(
    "load_at",
    "load acts at",
    Kind::Lengths(Bounds::Any),
    "x and y of the load in the coordinates of the holes, such as [\"120 mm\", \"0 mm\"]",
);

pub const AT: Key =
    Key::new("at", "at", Kind::Lengths(Bounds::Any), "x and y of its middle, such as [\"30 mm\", \"0 mm\"]");
pub const HOLE_DIAMETER: Key =
    Key::new("diameter", "hole diameter", Kind::POSITIVE, "of a hole, or the width of a slot, such as \"9 mm\"");
pub const THREAD: Key =
    Key::new("thread", "thread", Kind::Text, "of the bolt that goes through, such as \"M8\"; sets the hole by ISO 273");
pub const TAPPED: Key = Key::new("tapped", "tapped", Kind::Flag, "true: the thread is tapped into the plate");
pub const CLEARANCE: Key = Key::new(
    "clearance",
    "clearance series",
    Kind::Choice(&["fine", "medium", "coarse"]),
    "series of the clearance hole, ISO 273 or ASME B18.2.8; medium if left out",
);
pub const SLOT_LENGTH: Key = Key::new(
    "length",
    "slot length",
    Kind::POSITIVE,
    "of a slot, overall, such as \"24 mm\"; a round hole if left out",
);
pub const DIRECTION: Key =
    Key::new("direction", "slot direction", Kind::ANY_ANGLE, "of a slot from the x axis, such as \"30 deg\"");
pub const CIRCLE: Key = Key::new(
    "circle",
    "bolt circle",
    Kind::POSITIVE,
    "diameter of a circle about `at` on which several lie, such as \"90 mm\"",
);
pub const NUMBER: Key =
    Key::new("number", "number", Kind::Count { min: 1, max: 360 }, "how many lie on the circle, such as 6");
pub const FIRST_ANGLE: Key = Key::new(
    "first_angle",
    "first at",
    Kind::ANY_ANGLE,
    "where the first one lies, from the x axis, such as \"30 deg\"",
);

#[rustfmt::skip]
const HOLE_KEYS: &[Key] = &[
    AT, HOLE_DIAMETER, THREAD, TAPPED, CLEARANCE, common::BOLT_CLASS, SLOT_LENGTH, DIRECTION, CIRCLE, NUMBER, FIRST_ANGLE,
];
#[rustfmt::skip]
pub const KEYS: &[Key] = &[
    common::FAMILY, common::NAME, common::COUNT, common::MATERIAL, common::UNITS, common::NOTE, common::GENERAL_TOLERANCE,
    common::ENVIRONMENT, common::COATING, common::COATING_THICKNESS, common::KEPT_APART, common::MEASURED, SHAPE, OUTLINE, GAP, LENGTH, WIDTH,
    DIAMETER, BORE, SWEEP, CORNER_RADIUS, LEG, INNER_RADIUS, BLUNT, THICKNESS, HOLE, ONTO, ONTO_THICKNESS, LOAD, LOAD_AT,
];

/// The outline.
pub enum Shape {
    Rectangle { length: Given<Length>, width: Given<Length>, corner: Option<Given<Length>> },
    Disc(Given<Length>),
    Segment { diameter: Given<Length>, bore: Given<Length>, sweep: Given<Angle> },
    Arm { length: Given<Length>, width: Given<Length> },
    Gusset { length: Given<Length>, width: Given<Length>, blunt: Given<Length> },
    Angle { length: Given<Length>, width: Given<Length>, leg: Given<Length>, inner: Option<Given<Length>> },
    Drawn { file: Given<String>, gap: Option<Given<Length>>, from: drawn::Drawn },
}

/// How a hole is made.
pub enum Made {
    /// Cut to its diameter.
    Round,
    /// A slot: length overall and direction.
    Slot { length: Given<Length>, direction: Angle },
    /// Drilled for the tap.
    Tapped(Thread),
}

/// One row of holes.
pub struct Holes {
    pub centres: Vec<Point>,
    pub diameter: Length,
    /// That is written; else it is of the bolt.
    pub written: bool,
    pub made: Made,
    /// The thread as it was written, with what it is.
    pub thread: Option<(Given<String>, Thread)>,
    pub steel: BoltSteel,
    pub circle: Option<Given<Length>>,
}

impl Holes {
    /// The bolt that goes through.
    pub fn bolt(&self) -> Option<Thread> {
        self.thread.as_ref().filter(|_| !matches!(self.made, Made::Tapped(_))).map(|(_, thread)| *thread)
    }
}

/// A load in the plane of the plate.
pub struct Load {
    pub force: Given<Force>,
    pub at: Point,
}

/// What the file says.
pub struct Spec {
    pub common: Common,
    pub shape: Shape,
    pub thickness: Given<Length>,
    pub holes: Vec<Holes>,
    pub frame: Option<Material>,
    /// The wall between plate and nut.
    pub onto_thickness: Option<Given<Length>>,
    pub load: Option<Load>,
}

/// Reads the file; every problem is noted, `None` if one stands in the way.
pub fn read(fields: &Fields, place: &Workplace) -> Option<Spec> {
    let common = common::read(fields, place, "plate", "steel S235");
    let shape = shape(fields, place);
    let thickness = fields.required_length(&THICKNESS);
    let rows = fields.rows(&HOLE);
    let holes: Vec<Option<Holes>> = rows.iter().enumerate().map(|(i, row)| holes(row, i)).collect();
    let frame = if fields.has(&ONTO) { Some(common::material(fields, place, &ONTO, "steel S235")?) } else { None };
    let load = load(fields, &holes);
    Some(Spec {
        common: common?,
        shape: shape?,
        thickness: thickness?,
        holes: holes.into_iter().collect::<Option<_>>()?,
        frame,
        onto_thickness: fields.length(&ONTO_THICKNESS),
        load: load?,
    })
}

/// Keys of a shape's sizes.
const SIZES: &[&Key] = &[&LENGTH, &WIDTH, &DIAMETER, &BORE, &SWEEP, &CORNER_RADIUS, &LEG, &INNER_RADIUS, &BLUNT];

fn shape(fields: &Fields, place: &Workplace) -> Option<Shape> {
    if fields.has(&OUTLINE) {
        let more: Vec<&Key> = SIZES.iter().copied().chain([&SHAPE]).collect();
        common::not_here(fields, &more, "the outline is in the drawing: leave out the one or the other");
        let (file, gap) = (fields.text(&OUTLINE)?, fields.length(&GAP));
        let from = drawn::read(fields, place, (&OUTLINE, &file), gap.as_ref().map_or(drawn::USUAL_GAP, |g| g.value))?;
        return Some(Shape::Drawn { file, gap, from });
    }
    common::not_here(fields, &[&GAP], "it is of a drawing: add outline = \"mount.dxf\"");
    let kind = fields.required_choice(&SHAPE)?;
    let mine: &[&Key] = match kind.value {
        "rectangle" => &[&LENGTH, &WIDTH, &CORNER_RADIUS],
        "disc" => &[&DIAMETER],
        "ring segment" => &[&DIAMETER, &BORE, &SWEEP],
        "arm" => &[&LENGTH, &WIDTH],
        "gusset" => &[&LENGTH, &WIDTH, &BLUNT],
        _ => &[&LENGTH, &WIDTH, &LEG, &INNER_RADIUS],
    };
    let others: Vec<&Key> = SIZES.iter().copied().filter(|key| !mine.iter().any(|k| k.name == key.name)).collect();
    let names: Vec<&str> = mine.iter().map(|k| k.name).collect();
    common::not_here(fields, &others, &format!("the sizes of this shape are {}", names.join(", ")));
    let length = |key: &'static Key| fields.required_length(key);
    Some(match kind.value {
        "rectangle" => {
            let (l, w) = (length(&LENGTH), length(&WIDTH));
            Shape::Rectangle { length: l?, width: w?, corner: fields.length(&CORNER_RADIUS) }
        }
        "disc" => Shape::Disc(length(&DIAMETER)?),
        "ring segment" => {
            let (d, b, sweep) = (length(&DIAMETER), length(&BORE), fields.required_angle(&SWEEP));
            Shape::Segment { diameter: d?, bore: b?, sweep: sweep? }
        }
        "arm" => {
            let (l, w) = (length(&LENGTH), length(&WIDTH));
            Shape::Arm { length: l?, width: w? }
        }
        "gusset" => {
            let (l, w, b) = (length(&LENGTH), length(&WIDTH), length(&BLUNT));
            Shape::Gusset { length: l?, width: w?, blunt: b? }
        }
        _ => {
            let (l, w, leg) = (length(&LENGTH), length(&WIDTH), length(&LEG));
            Shape::Angle { length: l?, width: w?, leg: leg?, inner: fields.length(&INNER_RADIUS) }
        }
    })
}

/// Two coordinates; a note where they are not two.
fn point(fields: &Fields, key: &'static Key) -> Option<Point> {
    let given = fields.required_lengths(key)?;
    if let [x, y] = given.value.as_slice() {
        return Some(Point::new(*x, *y));
    }
    fields.problem_at(key, format!("`{}` is two lengths, along x and along y", key.name), Some(key.help.into()));
    None
}

fn holes(row: &Fields, index: usize) -> Option<Holes> {
    let name = format!("hole {}", index + 1);
    let (at, diameter, written) = (point(row, &AT), row.length(&HOLE_DIAMETER), row.text(&THREAD));
    let tapped = row.flag(&TAPPED).is_some_and(|t| t.value);
    let series = common::series(row, &CLEARANCE);
    let (slot, direction) = (row.length(&SLOT_LENGTH), row.angle(&DIRECTION));
    let (circle, number, first) = (row.length(&CIRCLE), row.count(&NUMBER), row.angle(&FIRST_ANGLE));
    let thread = written.map(|w| common::thread(row, &THREAD, &w).map(|t| (w, t)));
    let steel = common::bolt_class(row, thread.as_ref().and_then(|t| t.as_ref().map(|(_, t)| *t)), Head::Hex);
    if thread.is_none() {
        common::not_here(row, &[&TAPPED, &CLEARANCE, &common::BOLT_CLASS], "it is that of a bolt: add thread = \"M8\"");
    } else if tapped {
        let not = [&HOLE_DIAMETER, &CLEARANCE, &SLOT_LENGTH];
        common::not_here(row, &not, "the hole is drilled for the tap");
    } else if diameter.is_some() {
        common::not_here(row, &[&CLEARANCE], "the hole's diameter is written: leave out one of the two");
    } else {
        row.left_out_of(&CLEARANCE, &name, "medium", "the usual series");
    }
    if thread.is_some() {
        row.left_out_of(&common::BOLT_CLASS, &name, steel.class.name, "the usual class");
    }
    if slot.is_none() {
        common::not_here(row, &[&DIRECTION], "it is that of a slot: add length = \"24 mm\"");
    } else {
        row.left_out_of(&DIRECTION, &name, Taken::Angle(Angle::ZERO), "along x: nothing is written");
    }
    if circle.is_none() {
        common::not_here(row, &[&NUMBER, &FIRST_ANGLE], "it is that of a circle: add circle = \"90 mm\"");
    } else {
        row.left_out_of(&NUMBER, &name, Taken::Count(4), "nothing is written");
        row.left_out_of(&FIRST_ANGLE, &name, Taken::Angle(Angle::ZERO), "along x: nothing is written");
    }
    let thread = common::settled(thread)?;
    let (diameter, made) = match (&thread, diameter, slot) {
        (Some((_, thread)), _, _) if tapped => (thread.tap_drill().drill.diameter, Made::Tapped(*thread)),
        (None, None, _) => {
            row.missing("the size of the hole is missing", Some("diameter = \"9 mm\", or thread = \"M8\""));
            return None;
        }
        (thread, diameter, slot) => {
            let by_bolt = |t: &(Given<String>, Thread)| common::clearance_hole(row, &THREAD, t.1, series);
            let diameter = diameter.map(|d| d.value).or_else(|| thread.as_ref().and_then(by_bolt))?;
            let direction = direction.map_or(Angle::ZERO, |d| d.value);
            (diameter, slot.map_or(Made::Round, |length| Made::Slot { length, direction }))
        }
    };
    let centres = centres(at?, circle.as_ref(), number.map_or(4, |n| n.value), first.map_or(Angle::ZERO, |a| a.value));
    let written = row.has(&HOLE_DIAMETER);
    Some(Holes { centres, diameter, written, made, thread, steel, circle })
}

fn centres(at: Point, circle: Option<&Given<Length>>, number: u32, first: Angle) -> Vec<Point> {
    let Some(circle) = circle else { return vec![at] };
    let angle = |i: u32| first + Angle::degrees(360.0 * f64::from(i) / f64::from(number));
    let place = |a: Angle| Point::new(at.x() + circle.value * (a.cos() / 2.0), at.y() + circle.value * (a.sin() / 2.0));
    (0..number).map(angle).map(place).collect()
}

/// The load; inner `None` where none is written.
fn load(fields: &Fields, holes: &[Option<Holes>]) -> Option<Option<Load>> {
    if !fields.has(&LOAD) {
        common::not_here(fields, &[&LOAD_AT], "it is where a load acts: add load = \"25 kg\"");
        return Some(None);
    }
    let (force, at) = (fields.load(&LOAD), point(fields, &LOAD_AT));
    if !holes.iter().flatten().any(|h| h.bolt().is_some()) {
        let help = "a hole with thread = \"M8\", not tapped";
        fields.problem_at(&LOAD, "a load that no bolt of this plate holds".into(), Some(help.into()));
        return None;
    }
    Some(Some(Load { force: force?, at: at? }))
}
