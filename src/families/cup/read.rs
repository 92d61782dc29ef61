//! Reading a cup plate's part file.

use crate::description::{Fields, Taken};
use crate::families::Workplace;
use crate::families::common::packed::{self, Packing};
use crate::families::common::{self, BoltSteel, Common, Head, settled};
use crate::families::cone;
use crate::formulas::seating::bedding::Rim;
use crate::formulas::step_drill::StepDrill;
use crate::record::key::{Given, Key, Kind};
use crate::record::show::Say;
use crate::shop::Material;
use crate::standards::threads::Thread;
use crate::units::{Angle, Force, Length};

pub const LENGTH: Key = Key::new("length", "plate length", Kind::POSITIVE, "along x, such as \"120 mm\"");
pub const WIDTH: Key =
    Key::new("width", "plate width", Kind::POSITIVE, "along y, such as \"100 mm\"; the length if left out");
pub const DIAMETER: Key =
    Key::new("diameter", "plate diameter", Kind::POSITIVE, "of a round plate, instead of length and width");
pub const THICKNESS: Key = Key::new("thickness", "plate thickness", Kind::POSITIVE, "such as \"8 mm\" or \"5/16 in\"");
pub const CORNER_RADIUS: Key =
    Key::new("corner_radius", "corner radius", Kind::NOT_NEGATIVE, "of the plate's corners, such as \"8 mm\"");
pub const HOLE: Key = Key::new("hole", "hole", Kind::Table(HOLE_KEYS), "the hole that takes the cone");
pub const MOUNTING: Key =
    Key::new("mounting", "mounting holes", Kind::Table(MOUNTING_KEYS), "the bolts that hold the plate");
pub const MATES: Key =
    Key::new("mates", "mates with", Kind::File, "part file of the cone, such as \"cone-front.toml\"");
pub const SEAT_LOAD: Key = Key::new(
    "seat_load",
    "load on this seat",
    Kind::Load,
    "greatest weight or force on this seat, such as \"320 kg\" or \"3.2 kN\"",
);
pub const SIDE_FACTOR: Key = Key::new(
    "side_factor",
    "side force over the load",
    Kind::Number(0.0, 10.0),
    "greatest force across as a share of the load, such as 0.8",
);
pub const FRAME_MATERIAL: Key = Key::new(
    "frame_material",
    "material of the frame",
    Kind::Text,
    "of what the cup is bolted or welded to, such as \"steel S235\"",
);
pub const FRAME_WALL: Key = Key::new(
    "frame_wall",
    "wall of the frame",
    Kind::POSITIVE,
    "of the frame that the bolts go through, such as \"6 mm\"; it decides how long they are",
);
pub const LIFT: Key = Key::new(
    "lift",
    "lift for the side play",
    Kind::POSITIVE,
    "how high the plate is held over its seat when the side play is asked, such as \"5 mm\"",
);

pub const KIND: Key = Key::new(
    "kind",
    "hole kind",
    Kind::Choice(&["round", "slot", "stepped", "turned"]),
    "\"round\", \"slot\", \"stepped\" (step drill) or \"turned\" (a true cone seat)",
);
pub const HOLE_DIAMETER: Key = Key::new(
    "diameter",
    "hole diameter",
    Kind::POSITIVE,
    "round: the hole; slot: its width; turned: the small diameter of the seat",
);
pub const HOLE_CLASS: Key =
    Key::new("class", "hole class", Kind::Text, "tolerance class of a round hole, such as \"H8\"");
pub const SLOT_LENGTH: Key =
    Key::new("length", "slot length", Kind::POSITIVE, "overall, with its round ends, such as \"46 mm\"");
pub const DIRECTION: Key = Key::new(
    "direction",
    "slot direction",
    Kind::ANY_ANGLE,
    "of the slot from the x axis, seen from above as the plate sits on its cone, such as \"24 deg\"",
);
pub const SEAT_HALF_ANGLE: Key =
    Key::new("half_angle", "seat half-angle", Kind::HALF_ANGLE, "of a turned seat from the axis, such as \"30 deg\"");
pub const STEPS: Key = Key::new(
    "steps",
    "drill steps",
    Kind::POSITIVES,
    "diameters of the step drill from its tip upwards, such as [\"36 mm\", \"38 mm\", \"40 mm\"]",
);
pub const STEP_HEIGHT: Key = Key::new(
    "step_height",
    "step height",
    Kind::POSITIVE,
    "axial height of one step, measured on the drill, such as \"4 mm\"",
);
pub const TIP_ANGLE: Key = Key::new(
    "tip_angle",
    "drill tip angle",
    Kind::TIP_ANGLE,
    "included angle of the drill's point, such as \"118 deg\"",
);
pub const STOP_DEPTH: Key = Key::new(
    "stop_depth",
    "stop depth",
    Kind::POSITIVE,
    "how deep the largest working step goes below the entry face, such as \"2 mm\"",
);
pub const PILOT: Key = Key::new(
    "pilot",
    "pilot hole",
    Kind::POSITIVE,
    "hole that the laser cuts for the drill's tip; only a centre mark if left out",
);
pub const CHAMFER: Key =
    Key::new("chamfer", "rim chamfer", Kind::NOT_NEGATIVE, "45 degree break of the entry rim, such as \"0.5 mm\"");
pub const RIM_RADIUS: Key = Key::new(
    "rim_radius",
    "rim radius",
    Kind::NOT_NEGATIVE,
    "rounding of the entry rim, instead of a chamfer, such as \"0.5 mm\"",
);
pub const ALLOWANCE: Key = Key::new(
    "turning_allowance",
    "turning allowance",
    Kind::NOT_NEGATIVE,
    "metal on the diameter that the laser leaves for a turned seat, such as \"1 mm\"",
);

pub const BOLT: Key = Key::new(
    "thread",
    "mounting thread",
    Kind::Text,
    "bolt of the mounting holes, such as \"M8\"; sets the hole by ISO 273",
);
pub const MOUNTING_DIAMETER: Key =
    Key::new("diameter", "mounting hole diameter", Kind::POSITIVE, "instead of a thread, such as \"9 mm\"");
pub const CLEARANCE: Key = Key::new(
    "clearance",
    "clearance series",
    Kind::Choice(&["fine", "medium", "coarse"]),
    "series of the clearance hole, ISO 273 or ASME B18.2.8",
);
pub const SPACING: Key = Key::new(
    "spacing",
    "mounting hole spacing",
    Kind::POSITIVES,
    "four holes on a rectangle about the middle, such as [\"90 mm\", \"70 mm\"]",
);
pub const CIRCLE: Key = Key::new(
    "circle",
    "bolt circle diameter",
    Kind::POSITIVE,
    "holes on a circle about the middle, instead of spacing",
);
pub const NUMBER: Key =
    Key::new("number", "number of mounting holes", Kind::Count { min: 1, max: 48 }, "on the circle, such as 6");
pub const FIRST_ANGLE: Key = Key::new(
    "first_angle",
    "angle of the first hole",
    Kind::ANY_ANGLE,
    "of the first hole on the circle from the x axis, such as \"45 deg\"",
);

pub const DOWELS: Key = Key::new(
    "dowels",
    "dowel diameter",
    Kind::POSITIVE,
    "two dowels that bring the plate back to its place, such as \"8 mm\"",
);
pub const DOWEL_SPACING: Key = Key::new(
    "dowel_spacing",
    "dowel spacing",
    Kind::POSITIVE,
    "from dowel to dowel, along x through the middle, such as \"90 mm\"",
);

/// Keys of `[hole]`.
pub const HOLE_KEYS: &[Key] = &[
    KIND,
    HOLE_DIAMETER,
    HOLE_CLASS,
    SLOT_LENGTH,
    DIRECTION,
    SEAT_HALF_ANGLE,
    STEPS,
    STEP_HEIGHT,
    TIP_ANGLE,
    STOP_DEPTH,
    PILOT,
    CHAMFER,
    RIM_RADIUS,
    ALLOWANCE,
];
/// Keys of `[mounting]`.
pub const MOUNTING_KEYS: &[Key] = &[
    BOLT,
    common::BOLT_CLASS,
    MOUNTING_DIAMETER,
    CLEARANCE,
    SPACING,
    CIRCLE,
    NUMBER,
    FIRST_ANGLE,
    DOWELS,
    DOWEL_SPACING,
    packed::PACKING,
    packed::PACKED,
];
/// Keys of a cup's part file.
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
    common::SEAT_MASKED,
    common::KEPT_APART,
    LENGTH,
    WIDTH,
    DIAMETER,
    THICKNESS,
    CORNER_RADIUS,
    HOLE,
    MOUNTING,
    MATES,
    SEAT_LOAD,
    SIDE_FACTOR,
    FRAME_MATERIAL,
    FRAME_WALL,
    LIFT,
];

/// A cup plate as read.
pub struct Spec {
    /// The rim is masked when it is coated.
    pub seat_masked: bool,
    pub common: Common,
    /// Travel of the compound slide of the shop's lathe.
    pub compound_travel: Length,
    pub plate: Plate,
    pub thickness: Given<Length>,
    pub hole: Hole,
    pub mounting: Option<Mounting>,
    pub mate: Option<Mate>,
    pub seat_load: Option<Given<Force>>,
    pub side_factor: Option<Given<f64>>,
    /// What the cup is bolted or welded to, and whether that was written.
    pub frame_material: Material,
    pub frame_written: bool,
    /// What the bolts go through in the frame.
    pub frame_wall: Option<Given<Length>>,
    pub lift: Option<Given<Length>>,
    /// Entry face over what its cone stands on, as it was measured on it.
    pub gap_made: Option<Length>,
}

/// The cone that it mates with.
pub struct Mate {
    pub file: Given<String>,
    pub cone: cone::read::Spec,
}

/// Outline of the plate.
pub enum Plate {
    Rectangle { length: Given<Length>, width: Option<Given<Length>>, corner: Option<Given<Length>> },
    Round(Given<Length>),
}

impl Plate {
    /// Extent along x and along y.
    pub fn extent(&self) -> (Length, Length) {
        match self {
            Self::Rectangle { length, width, .. } => (length.value, width.as_ref().unwrap_or(length).value),
            Self::Round(diameter) => (diameter.value, diameter.value),
        }
    }
}

/// The hole that takes the cone.
#[derive(Clone)]
pub enum Hole {
    Round {
        diameter: Given<Length>,
        class: Option<Given<String>>,
        edge: Edge,
    },
    Slot {
        width: Given<Length>,
        length: Given<Length>,
        direction: Option<Given<Angle>>,
        edge: Edge,
    },
    Stepped {
        drill: StepDrill,
        stop: Given<Length>,
        step_height: Given<Length>,
        tip_angle: Option<Given<Angle>>,
        pilot: Option<Given<Length>>,
    },
    Turned {
        small: Given<Length>,
        half_angle: Given<Angle>,
        allowance: Option<Given<Length>>,
    },
}

impl Spec {
    /// The film on what meets the cone; none on a bare rim and on one that is masked.
    pub fn film(&self) -> Length {
        self.common.film(self.seat_masked)
    }
}

/// How the entry rim is broken.
#[derive(Clone)]
pub enum Edge {
    Sharp,
    Chamfer(Given<Length>),
    Radius(Given<Length>),
}

impl Edge {
    /// For the seat.
    pub fn as_rim(&self) -> Rim {
        match self {
            Self::Sharp => Rim::Sharp,
            Self::Chamfer(c) => Rim::Chamfer(c.value),
            Self::Radius(r) => Rim::Radius(r.value),
        }
    }

    /// How far it reaches sideways and into the plate.
    pub fn reach(&self) -> Length {
        match self {
            Self::Sharp => Length::ZERO,
            Self::Chamfer(g) | Self::Radius(g) => g.value,
        }
    }
}

/// The mounting holes.
pub struct Mounting {
    pub thread: Option<Given<String>>,
    /// Size of that thread.
    pub size: Option<Thread>,
    /// Steel of its bolts.
    pub steel: BoltSteel,
    pub hole: Length,
    pub given_hole: Option<Given<Length>>,
    pub pattern: Pattern,
    pub dowels: Option<Dowels>,
    /// What lies between plate and frame.
    pub packing: Option<Packing>,
}

/// Two dowels on the x axis through the middle.
pub struct Dowels {
    pub diameter: Given<Length>,
    pub spacing: Given<Length>,
}

impl Dowels {
    /// Their centres.
    pub fn centres(&self) -> [(Length, Length); 2] {
        let half = self.spacing.value / 2.0;
        [(-half, Length::ZERO), (half, Length::ZERO)]
    }
}

/// Where they are.
pub enum Pattern {
    Rectangle(Given<Vec<Length>>),
    Circle { diameter: Given<Length>, number: u32, first: Angle },
}

impl Mounting {
    /// Centres (x, y) about the middle of the plate.
    pub fn centres(&self) -> Vec<(Length, Length)> {
        match &self.pattern {
            Pattern::Rectangle(spacing) => {
                let half = |i: usize| spacing.value.get(i).map_or(Length::ZERO, |l| *l / 2.0);
                let (x, y) = (half(0), half(1));
                vec![(x, y), (-x, y), (-x, -y), (x, -y)]
            }
            Pattern::Circle { diameter, number, first } => (0..*number)
                .map(|i| *first + Angle::degrees(360.0 * f64::from(i) / f64::from(*number)))
                .map(|a| (diameter.value * (a.cos() / 2.0), diameter.value * (a.sin() / 2.0)))
                .collect(),
        }
    }
}

/// Reads the file; every problem is noted, `None` if one stands in the way.
pub fn read(fields: &Fields, place: &Workplace) -> Option<Spec> {
    let seat_masked = common::seat_masked(fields);
    let common = common::read(fields, place, "cup", "steel S235");
    let plate = plate(fields);
    let thickness = fields.required_length(&THICKNESS);
    let hole = fields.required_table(&HOLE).and_then(|table| hole(&table));
    let mounting = fields.table(&MOUNTING).map(|table| mounting(&table));
    let mate = fields.text(&MATES).map(|file| mate(fields, place, file));
    let (seat_load, lift) = (fields.load(&SEAT_LOAD), fields.length(&LIFT));
    let side_factor = fields.number(&SIDE_FACTOR);
    let frame_material = common::material(fields, place, &FRAME_MATERIAL, "steel S235");
    let frame_written = fields.has(&FRAME_MATERIAL);
    fields.left_out(&FRAME_MATERIAL, "steel S235", "nothing is written");
    let frame_wall = fields.length(&FRAME_WALL);
    if !fields.has(&SEAT_LOAD) {
        common::not_here(fields, &[&SIDE_FACTOR], "it is a share of seat_load: add seat_load = \"160 kg\"");
    }
    if mounting.as_ref().is_none_or(|m| m.as_ref().is_some_and(|m| m.thread.is_none())) {
        common::not_here(fields, &[&FRAME_WALL], "it decides how long bolts are: add thread = \"M8\" in [mounting]");
    }
    if !fields.has(&MATES) {
        common::not_here(fields, &[&LIFT], "the side play is that on a cone: add mates = \"cone.toml\"");
    }
    let mounting = settled(mounting)?;
    let mate = settled(mate)?;
    let spec = Spec {
        seat_masked,
        compound_travel: place.shop.compound_travel,
        common: common?,
        plate: plate?,
        thickness: thickness?,
        hole: hole?,
        mounting,
        mate,
        seat_load,
        side_factor,
        frame_material: frame_material?,
        frame_wall,
        frame_written,
        lift,
        gap_made: None,
    };
    possible(fields, &spec).then_some(spec)
}

fn plate(fields: &Fields) -> Option<Plate> {
    let (length, width, corner) = (fields.length(&LENGTH), fields.length(&WIDTH), fields.length(&CORNER_RADIUS));
    if fields.has(&DIAMETER) {
        for key in [&LENGTH, &WIDTH, &CORNER_RADIUS] {
            if fields.has(key) {
                fields.problem_at(
                    key,
                    format!("a round plate has no {}", key.label),
                    Some("give either diameter, or length and width".into()),
                );
            }
        }
        return fields.length(&DIAMETER).map(Plate::Round);
    }
    if !fields.has(&LENGTH) {
        fields.missing(
            "the plate's size is missing",
            Some("length = \"120 mm\" and width = \"100 mm\", or diameter = \"120 mm\""),
        );
    }
    Some(Plate::Rectangle { length: length?, width, corner })
}

fn hole(table: &Fields) -> Option<Hole> {
    let kind = table.required_choice(&KIND)?;
    let only: &[&Key] = match kind.value {
        "round" => &[&KIND, &HOLE_DIAMETER, &HOLE_CLASS, &CHAMFER, &RIM_RADIUS],
        "slot" => &[&KIND, &HOLE_DIAMETER, &SLOT_LENGTH, &DIRECTION, &CHAMFER, &RIM_RADIUS],
        "stepped" => &[&KIND, &STEPS, &STEP_HEIGHT, &TIP_ANGLE, &STOP_DEPTH, &PILOT],
        _ => &[&KIND, &HOLE_DIAMETER, &SEAT_HALF_ANGLE, &ALLOWANCE],
    };
    for key in HOLE_KEYS {
        if table.has(key) && !only.iter().any(|k| k.name == key.name) {
            let names: Vec<&str> = only.iter().map(|k| k.name).collect();
            table.problem_at(
                key,
                format!("a {} hole has no {}", kind.value, key.name),
                Some(format!("its keys are {}", names.join(", "))),
            );
        }
    }
    match kind.value {
        "round" => {
            let (diameter, class, edge) = (table.required_length(&HOLE_DIAMETER), table.text(&HOLE_CLASS), edge(table));
            Some(Hole::Round { diameter: diameter?, class, edge: edge? })
        }
        "slot" => {
            let (width, length, direction, edge) = (
                table.required_length(&HOLE_DIAMETER),
                table.required_length(&SLOT_LENGTH),
                table.angle(&DIRECTION),
                edge(table),
            );
            table.left_out(&DIRECTION, Taken::Angle(Angle::ZERO), "along x: nothing is written");
            Some(Hole::Slot { width: width?, length: length?, direction, edge: edge? })
        }
        "stepped" => stepped(table),
        _ => {
            let (small, half_angle, allowance) = (
                table.required_length(&HOLE_DIAMETER),
                table.required_angle(&SEAT_HALF_ANGLE),
                table.length(&ALLOWANCE),
            );
            Some(Hole::Turned { small: small?, half_angle: half_angle?, allowance })
        }
    }
}

fn edge(table: &Fields) -> Option<Edge> {
    match (table.length(&CHAMFER), table.length(&RIM_RADIUS)) {
        (Some(_), Some(_)) => {
            table.problem_at(
                &RIM_RADIUS,
                "the rim cannot have both a chamfer and a radius".into(),
                Some("leave one of them out".into()),
            );
            None
        }
        (Some(c), None) if c.value > Length::ZERO => Some(Edge::Chamfer(c)),
        (None, Some(r)) if r.value > Length::ZERO => Some(Edge::Radius(r)),
        _ => Some(Edge::Sharp),
    }
}

fn stepped(table: &Fields) -> Option<Hole> {
    let (steps, step_height) = (table.required_lengths(&STEPS), table.required_length(&STEP_HEIGHT));
    let (tip_angle, stop, pilot) = (table.angle(&TIP_ANGLE), table.required_length(&STOP_DEPTH), table.length(&PILOT));
    let (steps, step_height, stop) = (steps?, step_height?, stop?);
    if steps.value.is_empty() {
        table.problem_at(
            &STEPS,
            "a step drill has at least one step".into(),
            Some("such as [\"36 mm\", \"38 mm\", \"40 mm\"]".into()),
        );
        return None;
    }
    if steps.value.windows(2).any(|pair| matches!(pair, [a, b] if a >= b)) {
        table.problem_at(
            &STEPS,
            "the steps must grow from the tip upwards".into(),
            Some("list the diameters from the smallest to the largest".into()),
        );
        return None;
    }
    let drill = StepDrill {
        steps: steps.value.clone(),
        step_height: step_height.value,
        tip_angle: tip_angle.as_ref().map_or(Angle::degrees(118.0), |a| a.value),
    };
    if stop.value > step_height.value {
        table.problem_at(
            &STOP_DEPTH,
            "the largest working step is only as high as one step; deeper, the shank would have to enter".into(),
            Some("a stop depth up to step_height, or add the next larger step to steps".into()),
        );
        return None;
    }
    Some(Hole::Stepped { drill, stop, step_height, tip_angle, pilot })
}

fn mounting(table: &Fields) -> Option<Mounting> {
    let (thread, given_hole, series) =
        (table.text(&BOLT), table.length(&MOUNTING_DIAMETER), common::series(table, &CLEARANCE));
    let (spacing, circle, number, first) =
        (table.lengths(&SPACING), table.length(&CIRCLE), table.count(&NUMBER), table.angle(&FIRST_ANGLE));
    let size = thread.as_ref().map(|thread| common::thread(table, &BOLT, thread));
    if thread.is_none() {
        common::not_here(table, &[&common::BOLT_CLASS], "it is that of a bolt: add thread = \"M8\"");
    }
    if given_hole.is_some() {
        common::not_here(table, &[&CLEARANCE], "the hole's diameter is written: leave out one of the two");
    } else if thread.is_some() {
        table.left_out(&CLEARANCE, "medium", "the usual series");
    }
    if circle.is_some() {
        table.left_out(&NUMBER, Taken::Count(4), "nothing is written");
        table.left_out(&FIRST_ANGLE, Taken::Angle(Angle::ZERO), "along x: nothing is written");
    }
    if spacing.is_some() {
        common::not_here(table, &[&NUMBER, &FIRST_ANGLE], "they belong to circle; spacing is four on a rectangle");
    }
    let hole = match (&given_hole, size) {
        (Some(hole), _) => Some(hole.value),
        (None, Some(size)) => size.and_then(|size| common::clearance_hole(table, &BOLT, size, series)),
        (None, None) => {
            table.missing("the size of the mounting holes is missing", Some("thread = \"M8\" or diameter = \"9 mm\""));
            None
        }
    };
    let pattern = match (spacing, circle) {
        (Some(spacing), None) if spacing.value.len() == 2 => Some(Pattern::Rectangle(spacing)),
        (Some(_), None) => {
            table.problem_at(
                &SPACING,
                "spacing is two distances, along x and along y".into(),
                Some("such as [\"90 mm\", \"70 mm\"]".into()),
            );
            None
        }
        (None, Some(diameter)) => Some(Pattern::Circle {
            diameter,
            number: number.map_or(4, |n| n.value),
            first: first.map_or(Angle::ZERO, |a| a.value),
        }),
        (Some(_), Some(_)) => {
            table.problem_at(
                &CIRCLE,
                "mounting holes lie on a rectangle or on a circle, not both".into(),
                Some("leave out spacing or circle".into()),
            );
            None
        }
        (None, None) => {
            if !table.has(&SPACING) && !table.has(&CIRCLE) {
                table.missing(
                    "where the mounting holes are is missing",
                    Some("spacing = [\"90 mm\", \"70 mm\"], or circle = \"80 mm\" and number = 4"),
                );
            }
            None
        }
    };
    let packing = packed::read(table);
    let dowels = settled(dowels(table))?;
    let steel = common::bolt_class(table, size.flatten(), Head::Hex);
    Some(Mounting { thread, steel, size: settled(size)?, hole: hole?, given_hole, pattern: pattern?, dowels, packing })
}

fn dowels(table: &Fields) -> Option<Option<Dowels>> {
    match (table.length(&DOWELS), table.length(&DOWEL_SPACING)) {
        (None, None) if !table.has(&DOWELS) && !table.has(&DOWEL_SPACING) => None,
        (Some(diameter), Some(spacing)) => Some(Some(Dowels { diameter, spacing })),
        _ => {
            if table.has(&DOWELS) != table.has(&DOWEL_SPACING) {
                table.missing(
                    "dowels want both their diameter and their spacing",
                    Some("dowels = \"8 mm\" and dowel_spacing = \"90 mm\""),
                );
            }
            Some(None)
        }
    }
}

fn mate(fields: &Fields, place: &Workplace, file: Given<String>) -> Option<Mate> {
    let cone = common::neighbour(fields, place, &file, &cone::FAMILY, cone::for_mate)?;
    Some(Mate { file, cone })
}

/// Geometry that cannot be made is a problem at the key that causes it.
fn possible(fields: &Fields, s: &Spec) -> bool {
    let say = Say(s.common.header.unit);
    let mut sound = true;
    let mut refuse = |key: &'static Key, message: String, help: &str| {
        fields.problem_at(key, message, Some(help.into()));
        sound = false;
    };
    let (x, y) = s.plate.extent();
    let smaller = x.min(y);
    if let Plate::Rectangle { corner: Some(corner), .. } = &s.plate
        && corner.value * 2.0 > smaller
    {
        refuse(
            &CORNER_RADIUS,
            format!(
                "a corner radius of {} is larger than half the plate's smaller side, {}",
                say.length(corner.value),
                say.length(smaller / 2.0)
            ),
            "make it smaller, or give diameter for a round plate",
        );
    }
    if widest_hole(s) >= smaller {
        refuse(
            &HOLE,
            format!(
                "the hole, {} wide, does not fit into a plate {} wide",
                say.length(widest_hole(s)),
                say.length(smaller)
            ),
            "make the plate larger or the hole smaller",
        );
    }
    match &s.hole {
        Hole::Slot { width, length, .. } if length.value <= width.value => {
            refuse(
                &HOLE,
                format!(
                    "a slot {} long overall is not longer than its width of {}",
                    say.length(length.value),
                    say.length(width.value)
                ),
                "length is overall, with the round ends; for a round hole use kind = \"round\"",
            );
        }
        Hole::Stepped { drill, stop, .. } if !drill.goes_through(stop.value, s.thickness.value) => {
            refuse(
                &HOLE,
                format!(
                    "at this stop depth the smallest step does not come through the plate of {}",
                    say.length(s.thickness.value)
                ),
                "list the drill's smaller steps as well, go deeper, or take a thinner plate",
            );
        }
        Hole::Round { edge, .. } | Hole::Slot { edge, .. } if edge.reach() >= s.thickness.value => {
            refuse(
                &HOLE,
                format!(
                    "the rim break of {} goes through the plate of {}",
                    say.length(edge.reach()),
                    say.length(s.thickness.value)
                ),
                "make the break smaller",
            );
        }
        _ => {}
    }
    sound
}

fn widest_hole(s: &Spec) -> Length {
    match &s.hole {
        Hole::Round { diameter, edge, .. } => diameter.value + edge.reach() * 2.0,
        Hole::Slot { width, edge, .. } => width.value + edge.reach() * 2.0,
        Hole::Stepped { drill, .. } => drill.steps.last().copied().unwrap_or(Length::ZERO),
        Hole::Turned { small, half_angle, .. } => super::seat_mouth(small.value, half_angle.value, s.thickness.value),
    }
}
