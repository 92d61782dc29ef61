//! Reading an adapter's part file.

use crate::description::{Fields, Taken};
use crate::families::Workplace;
use crate::families::common::{self, BoltSteel, Common, Head, settled};
use crate::record::key::{Given, Key, Kind, Size};
use crate::record::show::Say;
use crate::shop::{Material, by_unit};
use crate::standards::o_rings::{self, Groove};
use crate::standards::threads::{self, Thread};
use crate::units::{Angle, Force, Length};

pub const KIND: Key = Key::new(
    "kind",
    "kind",
    Kind::Choice(&["flange", "spacer"]),
    "\"flange\": a disc from plate; \"spacer\": turned from bar, its faces at a distance",
);
pub const OUTSIDE_DIAMETER: Key =
    Key::new("outside_diameter", "outside diameter", Kind::POSITIVE, "of the disc, such as \"180 mm\"");
pub const THICKNESS: Key =
    Key::new("thickness", "thickness", Kind::POSITIVE, "from face to face, without spigots, such as \"20 mm\"");
pub const BORE: Key = Key::new("bore", "bore", Kind::POSITIVE, "such as \"60 mm\"; none if left out");
pub const BORE_BELOW: Key = Key::new(
    "bore_below",
    "bore at the lower face",
    Kind::POSITIVE,
    "where it differs: the bore runs as a cone from the one to the other, such as \"80 mm\"",
);
pub const BORE_CLASS: Key =
    Key::new("bore_class", "bore class", Kind::Text, "tolerance class of a straight bore, such as \"H8\"");
pub const UPPER: Key =
    Key::new("upper", "upper face", Kind::Table(FACE_KEYS), "the upper face and the bolt pattern that holds its mate");
pub const LOWER: Key =
    Key::new("lower", "lower face", Kind::Table(FACE_KEYS), "the lower face and the bolt pattern that holds its mate");
pub const LOAD: Key =
    Key::new("load", "load", Kind::Table(LOAD_KEYS), "what the mate of the upper face does to the adapter");

pub const CIRCLE: Key = Key::new("circle", "bolt circle", Kind::POSITIVE, "its diameter, such as \"120 mm\"");
pub const NUMBER: Key =
    Key::new("number", "number of bolts", Kind::Count { min: 2, max: 48 }, "evenly round the circle, such as 6");
pub const FIRST_ANGLE: Key = Key::new(
    "first_angle",
    "place of the first bolt",
    Kind::ANY_ANGLE,
    "from the x axis, both patterns seen from above, such as \"30 deg\"",
);
pub const THREAD: Key = Key::new("thread", "thread", Kind::Text, "of the bolts, such as \"M8\" or \"5/16\"");
pub const HOLE: Key = Key::new(
    "hole",
    "holes",
    Kind::Choice(&["clearance", "counterbored", "tapped"]),
    "\"clearance\": bolts go through, heads on the other face; \"counterbored\": socket heads sunk into the other face; \"tapped\": bolts of the mate go into the adapter",
);
pub const CLEARANCE: Key = Key::new(
    "clearance",
    "clearance series",
    Kind::Choice(&["fine", "medium", "coarse"]),
    "series of the clearance holes; medium if left out",
);
pub const THREAD_DEPTH: Key = Key::new(
    "thread_depth",
    "full thread",
    Kind::POSITIVE,
    "of tapped holes that are blind, such as \"16 mm\"; through if left out",
);
pub const ONTO: Key = Key::new("onto", "material of the mate", Kind::Text, "such as \"aluminium 6061-T6\"");
pub const ONTO_THICKNESS: Key = Key::new(
    "onto_thickness",
    "flange of the mate",
    Kind::POSITIVE,
    "what the bolts go through in the mate, such as \"12 mm\"; their length follows from it",
);
pub const MATE_DIAMETER: Key = Key::new(
    "mate_diameter",
    "outside of the mate",
    Kind::POSITIVE,
    "on this face, such as \"110 mm\"; its circle and three bolts if left out",
);
pub const REGISTER: Key = Key::new(
    "register",
    "register",
    Kind::Choice(&["spigot", "recess"]),
    "\"spigot\" stands out of the face into the mate, \"recess\" takes a spigot of the mate; none if left out",
);
pub const REGISTER_DIAMETER: Key =
    Key::new("register_diameter", "diameter of the register", Kind::POSITIVE, "such as \"80 mm\"");
pub const REGISTER_HEIGHT: Key =
    Key::new("register_height", "height of the register", Kind::POSITIVE, "or its depth, such as \"4 mm\"");
pub const REGISTER_CLASS: Key = Key::new(
    "register_class",
    "class of the register",
    Kind::Text,
    "of ISO 286; g6 for a spigot and H7 for a recess if left out",
);
pub const MATE_CLASS: Key = Key::new(
    "mate_class",
    "class of the mate's register",
    Kind::Text,
    "H7 for the mate's recess and g6 for its spigot if left out",
);
pub const GASKET: Key =
    Key::new("gasket", "gasket", Kind::POSITIVE, "a flat one on this face, its thickness, such as \"1.5 mm\"");
pub const RING_SECTION: Key = Key::new(
    "ring_section",
    "section of the O-ring",
    Kind::POSITIVE,
    "of an O-ring in a groove of this face, such as \"3.53 mm\"",
);
pub const RING_INSIDE: Key =
    Key::new("ring_inside", "inside diameter of the O-ring", Kind::POSITIVE, "such as \"88 mm\"");
pub const PRESSURE: Key = Key::new(
    "pressure",
    "side of the pressure",
    Kind::Choice(&["outside", "inside"]),
    "where it presses from: the ring lies at the other wall of its groove; outside (rain) if left out",
);
pub const GROOVE_DEPTH: Key =
    Key::new("groove_depth", "depth of the groove", Kind::POSITIVE, "by the table of grooves if left out");
pub const GROOVE_WIDTH: Key =
    Key::new("groove_width", "width of the groove", Kind::POSITIVE, "by the table of grooves if left out");
pub const GROOVE_DIAMETER: Key = Key::new(
    "groove_diameter",
    "resting wall of the groove",
    Kind::POSITIVE,
    "diameter of the groove's inner wall for pressure from outside, of its outer wall from inside; by the ring if left out",
);

pub const PULL: Key = Key::new("pull", "pull", Kind::Load, "along the axis, away from the adapter, such as \"2 kN\"");
pub const ACROSS: Key = Key::new("across", "force across", Kind::Load, "square to the axis, such as \"40 kg\"");
pub const LEVER: Key = Key::new(
    "lever",
    "lever",
    Kind::NOT_NEGATIVE,
    "how far over the upper face the force across acts, such as \"300 mm\"; on the face if left out",
);
pub const FRICTION: Key = Key::new(
    "friction",
    "slip factor",
    Kind::Number(0.05, 0.8),
    "of the faces, such as 0.3; 0.2 if left out, faces as rolled or turned",
);

/// Keys of a face.
#[rustfmt::skip]
pub const FACE_KEYS: &[Key] = &[
    CIRCLE, NUMBER, FIRST_ANGLE, THREAD, HOLE, CLEARANCE, THREAD_DEPTH, common::BOLT_CLASS, ONTO, ONTO_THICKNESS,
    MATE_DIAMETER, REGISTER, REGISTER_DIAMETER, REGISTER_HEIGHT, REGISTER_CLASS, MATE_CLASS, GASKET, RING_SECTION, RING_INSIDE,
    PRESSURE, GROOVE_DEPTH, GROOVE_WIDTH, GROOVE_DIAMETER,
];
/// Keys of the load.
pub const LOAD_KEYS: &[Key] = &[PULL, ACROSS, LEVER, FRICTION];
/// Keys of the file.
#[rustfmt::skip]
pub const KEYS: &[Key] = &[
    common::FAMILY, common::NAME, common::COUNT, common::MATERIAL, common::UNITS, common::NOTE, common::GENERAL_TOLERANCE,
    common::ENVIRONMENT, common::COATING, common::COATING_THICKNESS, common::KEPT_APART, common::MEASURED, KIND,
    OUTSIDE_DIAMETER, THICKNESS, BORE, BORE_BELOW, BORE_CLASS, UPPER, LOWER, LOAD,
];

/// An adapter as read.
pub struct Spec {
    pub common: Common,
    /// Turned from bar, and not from plate.
    pub spacer: bool,
    pub outside: Given<Length>,
    pub thickness: Given<Length>,
    pub bore: Option<Given<Length>>,
    pub bore_below: Option<Given<Length>>,
    pub bore_class: Option<Given<String>>,
    pub upper: Face,
    pub lower: Face,
    pub load: Option<Load>,
}

/// Which of the two.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Which {
    Upper,
    Lower,
}

impl Which {
    /// In words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Upper => "the upper face",
            Self::Lower => "the lower face",
        }
    }
    /// The file's word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Upper => "upper",
            Self::Lower => "lower",
        }
    }
    /// The size that is recorded of a key of this face.
    pub fn size(self, key: &Key) -> Size {
        key.size_of(self.name())
    }
}

/// How the bolts of a pattern go.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Way {
    Clearance,
    /// Heads sunk so deep and so wide into the other face.
    Counterbored(threads::Head),
    /// Into the adapter.
    Tapped,
}

/// A face with its pattern.
pub struct Face {
    pub which: Which,
    pub circle: Given<Length>,
    pub number: Given<u32>,
    pub first: Option<Given<Angle>>,
    pub thread: Thread,
    pub thread_written: Given<String>,
    pub way: Way,
    pub steel: BoltSteel,
    /// Diameter that is drilled.
    pub hole: Length,
    pub thread_depth: Option<Given<Length>>,
    pub onto: Option<(Given<String>, Material)>,
    pub onto_thickness: Option<Given<Length>>,
    pub mate_diameter: Option<Given<Length>>,
    pub register: Option<Register>,
    pub gasket: Option<Given<Length>>,
    pub ring: Option<Ring>,
}

/// What centres the mate.
pub struct Register {
    pub spigot: bool,
    pub diameter: Given<Length>,
    pub height: Given<Length>,
    pub class: Option<Given<String>>,
    pub mate_class: Option<Given<String>>,
}

/// An O-ring in its groove.
pub struct Ring {
    pub section: Given<Length>,
    pub inside: Given<Length>,
    pub from_inside: bool,
    pub row: Groove,
    pub depth: Option<Given<Length>>,
    pub width: Option<Given<Length>>,
    pub diameter: Option<Given<Length>>,
}

impl Ring {
    pub fn depth(&self) -> Length {
        self.depth.as_ref().map_or(self.row.depth, |d| d.value).rounded()
    }
    pub fn width(&self) -> Length {
        self.width.as_ref().map_or(self.row.width, |w| w.value).rounded()
    }
    /// The wall at which the ring lies: as written, or one that the ring just touches, to a tenth.
    pub fn wall(&self) -> Length {
        let outside = self.inside.value + self.section.value * 2.0;
        let own = if self.from_inside { outside } else { self.inside.value };
        let tenth = Length::mm(0.1);
        let to = own / tenth + if self.from_inside { 1e-9 } else { -1e-9 };
        let own = tenth * if self.from_inside { to.floor() } else { to.ceil() };
        self.diameter.as_ref().map_or(own, |d| d.value).rounded()
    }
    /// Inner and outer diameter of the groove.
    pub fn walls(&self) -> (Length, Length) {
        let (wall, wide) = (self.wall(), self.width() * 2.0);
        if self.from_inside { (wall - wide, wall) } else { (wall, wall + wide) }
    }
}

/// What it carries.
pub struct Load {
    pub pull: Option<Given<Force>>,
    pub across: Option<Given<Force>>,
    pub lever: Option<Given<Length>>,
    pub friction: Option<Given<f64>>,
}

/// Diameters of thread between a bolt circle and the outside of a mate that is not written. Source: common practice, no source.
const RIM: f64 = 3.0;
/// Pitches that a tap drill goes deeper than full thread. Source: common practice, no source.
const BELOW_THREAD: f64 = 3.0;

impl Face {
    /// How high a spigot stands on it; nought without one.
    pub fn spigot_height(&self) -> Length {
        self.register.as_ref().filter(|r| r.spigot).map_or(Length::ZERO, |r| r.height.value)
    }

    /// Where the bolts lie.
    pub fn angles(&self) -> impl Iterator<Item = Angle> + '_ {
        let first = self.first.as_ref().map_or(Angle::ZERO, |a| a.value);
        let n = self.number.value;
        (0..n).map(move |i| first + Angle::degrees(360.0 * f64::from(i) / f64::from(n)))
    }
    /// Outside of the mate on this face.
    pub fn mate(&self) -> Length {
        self.mate_diameter.as_ref().map_or(self.circle.value + self.thread.major * RIM, |d| d.value).rounded()
    }
    /// Its bolts go into the adapter.
    pub fn tapped(&self) -> bool {
        self.way == Way::Tapped
    }
    /// How deep a blind hole is drilled, to the corner of the drill.
    pub fn drilled(&self) -> Option<Length> {
        self.thread_depth.as_ref().map(|d| (d.value + self.thread.pitch * BELOW_THREAD).rounded())
    }
    /// Head of its bolts.
    pub fn head(&self) -> Head {
        if matches!(self.way, Way::Counterbored(_)) { Head::Socket } else { Head::Hex }
    }
}

impl Spec {
    /// From end to end: the faces, and the spigots that stand on them.
    pub fn through(&self) -> Length {
        self.faces().into_iter().fold(self.thickness.value, |all, face| all + face.spigot_height())
    }

    pub fn faces(&self) -> [&Face; 2] {
        [&self.upper, &self.lower]
    }
    /// The face opposite to one.
    pub fn other(&self, face: &Face) -> &Face {
        if face.which == Which::Upper { &self.lower } else { &self.upper }
    }
    /// Bore at that face.
    pub fn bore_at(&self, which: Which) -> Option<Length> {
        let bore = self.bore.as_ref()?.value;
        let below = self.bore_below.as_ref().map_or(bore, |b| b.value);
        Some(if which == Which::Upper { bore } else { below })
    }
    /// Length along which the bore runs: between the bottoms of recesses and the tops of spigots.
    pub fn bore_length(&self) -> Length {
        let over = |f: &Face| {
            f.register.as_ref().map_or(Length::ZERO, |r| if r.spigot { r.height.value } else { -r.height.value })
        };
        self.thickness.value + over(&self.upper) + over(&self.lower)
    }
    /// Something of it wants the lathe.
    pub fn is_turned(&self) -> bool {
        let face = |f: &Face| f.register.is_some() || f.ring.is_some();
        self.spacer || self.bore_class.is_some() || self.bore_below.is_some() || self.faces().into_iter().any(face)
    }
}

/// Reads the file; every problem is noted, `None` if one stands in the way.
pub fn read(fields: &Fields, place: &Workplace) -> Option<Spec> {
    let common = common::read(fields, place, "adapter", "steel S235");
    let kind = fields.required_choice(&KIND);
    let (outside, thickness) = (fields.required_length(&OUTSIDE_DIAMETER), fields.required_length(&THICKNESS));
    let (bore, bore_below, bore_class) = (fields.length(&BORE), fields.length(&BORE_BELOW), fields.text(&BORE_CLASS));
    let upper = fields.required_table(&UPPER).map(|t| face(&t, place, Which::Upper));
    let lower = fields.required_table(&LOWER).map(|t| face(&t, place, Which::Lower));
    let load = fields.table(&LOAD).map(|t| load(&t));
    if !fields.has(&BORE) {
        common::not_here(fields, &[&BORE_BELOW, &BORE_CLASS], "it is that of a bore: add bore = \"60 mm\"");
    }
    if fields.has(&BORE_BELOW) {
        common::not_here(fields, &[&BORE_CLASS], "a bore that runs as a cone has no class");
    }
    let spec = Spec {
        common: common?,
        spacer: kind?.value == "spacer",
        outside: outside?,
        thickness: thickness?,
        bore: settled(fields.has(&BORE).then_some(bore))?,
        bore_below: settled(fields.has(&BORE_BELOW).then_some(bore_below))?,
        bore_class,
        upper: upper??,
        lower: lower??,
        load: settled(load)?,
    };
    possible(fields, &spec).then_some(spec)
}

fn face(table: &Fields, place: &Workplace, which: Which) -> Option<Face> {
    let name = which.name();
    let (circle, number, first) = (table.required_length(&CIRCLE), table.count(&NUMBER), table.angle(&FIRST_ANGLE));
    if !table.has(&NUMBER) {
        table.missing("the number of bolts is missing", Some("number = 6"));
    }
    table.left_out_of(&FIRST_ANGLE, name, Taken::Angle(Angle::ZERO), "along x: nothing is written");
    let written = table.required_text(&THREAD);
    let thread = written.as_ref().and_then(|w| common::thread(table, &THREAD, w));
    let hole = table.choice(&HOLE).map(|h| h.value);
    table.left_out_of(&HOLE, name, "clearance", "nothing is written");
    let head = if hole == Some("counterbored") { Head::Socket } else { Head::Hex };
    let steel = common::bolt_class(table, thread, head);
    let series = common::series(table, &CLEARANCE);
    let onto = table.text(&ONTO);
    let material = onto.as_ref().map(|_| common::material(table, place, &ONTO, "steel S235"));
    let register = register(table, name);
    let ring = ring(table, name);
    let (thread_depth, onto_thickness) = (table.length(&THREAD_DEPTH), table.length(&ONTO_THICKNESS));
    let (mate_diameter, gasket) = (table.length(&MATE_DIAMETER), table.length(&GASKET));
    let thread = thread?;
    table.left_out_of(&common::BOLT_CLASS, name, steel.class.name, "the usual class");
    let (way, hole) = match hole {
        Some("tapped") => {
            table.left_out_of(&THREAD_DEPTH, name, "through", "tapped through: nothing is written");
            common::not_here(table, &[&CLEARANCE], "the hole is drilled for the tap");
            (Way::Tapped, thread.tap_drill().drill.diameter.rounded())
        }
        way => {
            common::not_here(table, &[&THREAD_DEPTH], "it is that of tapped holes: add hole = \"tapped\"");
            table.left_out_of(&CLEARANCE, name, "medium", "the usual series");
            let hole = common::clearance_hole(table, &THREAD, thread, series)?;
            (if way.is_some_and(|w| w == "counterbored") { counterbore(table, thread)? } else { Way::Clearance }, hole)
        }
    };
    if gasket.is_some() && table.has(&RING_SECTION) {
        table.problem_at(&GASKET, "a gasket and an O-ring on one face".into(), Some("one of the two seals it".into()));
    }
    let circle = circle?;
    let mate = Taken::Length((circle.value + thread.major * RIM).rounded());
    table.left_out_of(&MATE_DIAMETER, name, mate, "its circle and three diameters of the bolt");
    Some(Face {
        which,
        circle,
        number: number?,
        first,
        thread,
        thread_written: written?,
        way,
        steel,
        hole,
        thread_depth,
        onto: match (onto, material) {
            (Some(onto), Some(material)) => Some((onto, material?)),
            _ => None,
        },
        onto_thickness,
        mate_diameter,
        register: register?,
        gasket,
        ring: ring?,
    })
}

/// The counterbore of a socket head; a problem where none is known.
fn counterbore(table: &Fields, thread: Thread) -> Option<Way> {
    let Some(head) = threads::socket_head(thread) else {
        let message = format!("no counterbore is known for a socket head of {thread}");
        table.problem_at(&HOLE, message, Some("a thread of the usual series, or hole = \"clearance\"".into()));
        return None;
    };
    Some(Way::Counterbored(head.value))
}

/// A spigot that goes into a recess by hand and hardly rocks. Source: ISO 286 preferred fits, close running.
pub const SPIGOT: &str = "g6";
pub const RECESS: &str = "H7";

/// The register; inner `None` where none is written.
fn register(table: &Fields, face: &str) -> Option<Option<Register>> {
    let keys = [&REGISTER_DIAMETER, &REGISTER_HEIGHT, &REGISTER_CLASS, &MATE_CLASS];
    if !table.has(&REGISTER) {
        common::not_here(table, &keys, "it is that of a register: add register = \"spigot\"");
        return Some(None);
    }
    let kind = table.choice(&REGISTER);
    let (diameter, height) = (table.required_length(&REGISTER_DIAMETER), table.required_length(&REGISTER_HEIGHT));
    let (class, mate_class) = (table.text(&REGISTER_CLASS), table.text(&MATE_CLASS));
    let spigot = kind?.value == "spigot";
    let (own, mate) = if spigot { (SPIGOT, RECESS) } else { (RECESS, SPIGOT) };
    table.left_out_of(&REGISTER_CLASS, face, own, "a close running fit");
    table.left_out_of(&MATE_CLASS, face, mate, "a close running fit");
    Some(Some(Register { spigot, diameter: diameter?, height: height?, class, mate_class }))
}

/// The O-ring; inner `None` where none is written.
fn ring(table: &Fields, face: &str) -> Option<Option<Ring>> {
    if !table.has(&RING_SECTION) {
        let keys = [&RING_INSIDE, &PRESSURE, &GROOVE_DEPTH, &GROOVE_WIDTH, &GROOVE_DIAMETER];
        common::not_here(table, &keys, "it is that of an O-ring: add ring_section = \"3.53 mm\"");
        return Some(None);
    }
    let (section, inside) = (table.length(&RING_SECTION), table.required_length(&RING_INSIDE));
    let from = table.choice(&PRESSURE);
    let (depth, width, diameter) =
        (table.length(&GROOVE_DEPTH), table.length(&GROOVE_WIDTH), table.length(&GROOVE_DIAMETER));
    let section = section?;
    let Some(row) = o_rings::face_groove(section.value) else {
        let message = "no groove is known for a ring of that section".to_string();
        table.problem_at(&RING_SECTION, message, Some(format!("sections in mm: {}", o_rings::sections())));
        return None;
    };
    let from_inside = from.is_some_and(|f| f.value == "inside");
    table.left_out_of(&PRESSURE, face, "outside", "rain: nothing is written");
    let ring = Ring { section, inside: inside?, from_inside, row: row.value, depth, width, diameter };
    let by_table = "table of grooves in a face after ISO 3601-2";
    table.left_out_of(&GROOVE_DEPTH, face, Taken::Length(ring.depth()), by_table);
    table.left_out_of(&GROOVE_WIDTH, face, Taken::Length(ring.width()), by_table);
    table.left_out_of(&GROOVE_DIAMETER, face, Taken::Length(ring.wall()), "the ring just touches it");
    Some(Some(ring))
}

fn load(table: &Fields) -> Option<Load> {
    let (pull, across, lever, friction) =
        (table.load(&PULL), table.load(&ACROSS), table.length(&LEVER), table.number(&FRICTION));
    if !table.has(&PULL) && !table.has(&ACROSS) {
        table
            .missing("nothing pulls or pushes", Some("pull = \"2 kN\", or across = \"40 kg\" with lever = \"300 mm\""));
        return None;
    }
    if !table.has(&ACROSS) {
        common::not_here(table, &[&LEVER, &FRICTION], "it is that of a force across: add across = \"40 kg\"");
    } else {
        table.left_out(&FRICTION, Taken::Word("0.2".into()), "faces as rolled or turned: nothing is written");
        table.left_out(&LEVER, Taken::Length(Length::ZERO), "on the face: nothing is written");
    }
    Some(Load { pull, across, lever, friction })
}

/// Geometry that cannot be made is a problem at the key that causes it.
fn possible(fields: &Fields, s: &Spec) -> bool {
    let say = Say(s.common.header.unit);
    let mut sound = true;
    let mut refuse = |key: &'static Key, message: String, help: &str| {
        fields.problem_at(key, message, Some(help.into()));
        sound = false;
    };
    let (outside, t) = (s.outside.value, s.thickness.value);
    let room = by_unit(s.common.header.unit, 0.2, 0.01);
    for face in s.faces() {
        let key = if face.which == Which::Upper { &UPPER } else { &LOWER };
        let reach = face.circle.value + widest(face);
        if reach + room * 2.0 > outside {
            let message = format!(
                "holes {} wide on a circle of {} do not lie inside {}",
                say.length(widest(face)),
                say.length(face.circle.value),
                say.length(outside)
            );
            refuse(key, message, "a smaller circle or a larger outside");
        }
        if face.drilled().is_some_and(|d| d + face.hole * 0.31 + room > t) {
            let message = "a blind thread so deep comes out of the other face".to_string();
            refuse(key, message, "a shallower thread_depth, or leave it out and tap through");
        }
        if let Way::Counterbored(head) = face.way
            && head.seat_depth + room > t
        {
            refuse(key, "the heads are sunk deeper than it is thick".into(), "a thicker one, or hole = \"tapped\"");
        }
        if let Some(why) = middle_fault(s, face, room) {
            refuse(key, why, "from the outside inwards: bolts, groove of the O-ring, register, bore");
        }
    }
    let spigot = |f: &Face| f.register.as_ref().is_some_and(|r| r.spigot);
    if s.common.material.printed && spigot(&s.upper) && spigot(&s.lower) {
        let help = "make one of them a recess, or make it of metal";
        refuse(&common::MATERIAL, "with a spigot on both faces no face lies flat on the printer".into(), help);
    }
    let deep = |f: &Face| {
        let recess = f.register.as_ref().filter(|r| !r.spigot).map_or(Length::ZERO, |r| r.height.value);
        recess.max(f.ring.as_ref().map_or(Length::ZERO, Ring::depth))
    };
    if deep(&s.upper) + deep(&s.lower) + room > t {
        refuse(&THICKNESS, "recesses and grooves from both faces meet".into(), "a thicker one, or shallower recesses");
    }
    sound
}

/// Widest that a hole of the pattern is.
pub fn widest(face: &Face) -> Length {
    match face.way {
        Way::Counterbored(head) => head.seat_diameter.max(face.hole),
        _ => face.hole,
    }
}

/// Why register, groove and bore of a face do not go into each other.
fn middle_fault(s: &Spec, face: &Face, room: Length) -> Option<String> {
    let say = Say(s.common.header.unit);
    let mut inner = s.bore_at(face.which).unwrap_or(Length::ZERO);
    if let Some(register) = &face.register {
        if register.diameter.value < inner + room {
            let (d, bore) = (say.length(register.diameter.value), say.length(inner));
            return Some(format!("a register of {d} is not larger than the bore of {bore}"));
        }
        inner = register.diameter.value;
    }
    if let Some(ring) = &face.ring {
        let (a, b) = ring.walls();
        if a < inner + room {
            let (a, inner) = (say.length(a), say.length(inner));
            return Some(format!("the groove begins at {a}, inside of the register or the bore of {inner}"));
        }
        inner = b;
    }
    (inner + room > s.outside.value)
        .then(|| format!("{} is no smaller than the outside of {}", say.length(inner), say.length(s.outside.value)))
}
