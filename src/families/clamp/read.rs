//! Reading a clamp's part file.

use crate::description::{Fields, Taken};
use crate::families::Workplace;
use crate::families::common::{self, BoltSteel, Common, Head, settled};
use crate::formulas::clamp::Parted;
use crate::record::key::{Given, Key, Kind};
use crate::record::show::Say;
use crate::shop::{Material, by_unit};
use crate::standards::clearance_holes::Series;
use crate::standards::threads::Thread;
use crate::units::{Force, Length};

pub const KIND: Key = Key::new(
    "kind",
    "kind",
    Kind::Choice(&["split", "halves"]),
    "\"split\": one ring with a slit; \"halves\": two halves with screws on both sides",
);
pub const BORE: Key = Key::new(
    "bore",
    "bore",
    Kind::POSITIVE,
    "with its packing in the slit, such as \"30 mm\"; with [opened] the step that goes over the tube if left out, else the tube's diameter",
);
pub const BORE_CLASS: Key =
    Key::new("bore_class", "bore class", Kind::Text, "tolerance class of the bore, such as \"H9\"");
pub const OUTSIDE_DIAMETER: Key =
    Key::new("outside_diameter", "outside diameter", Kind::POSITIVE, "of the ring, such as \"50 mm\"");
pub const WIDTH: Key = Key::new("width", "width", Kind::POSITIVE, "along the tube, such as \"20 mm\"");
pub const GAP: Key = Key::new(
    "gap",
    "gap",
    Kind::POSITIVE,
    "of the slit, or between the halves on each side, as bored, such as \"3 mm\"",
);
pub const EAR_THICKNESS: Key =
    Key::new("ear_thickness", "thickness of an ear", Kind::POSITIVE, "along its screws, such as \"12 mm\"");
pub const EAR_HEIGHT: Key = Key::new(
    "ear_height",
    "height of the ears",
    Kind::POSITIVE,
    "from the axis of the tube to their ends, such as \"45 mm\"",
);
pub const FRICTION: Key = Key::new(
    "friction",
    "coefficient of friction",
    Kind::Number(0.01, 1.0),
    "of clamp on tube, such as 0.15; the least that is printed for the two metals, dry, if left out",
);
pub const SCREW: Key = Key::new("screw", "screws", Kind::Table(SCREW_KEYS), "the screws across the slit");
pub const TUBE: Key = Key::new("tube", "tube", Kind::Table(TUBE_KEYS), "the tube or shaft in the clamp");
pub const HOLDS: Key = Key::new("holds", "holds", Kind::Table(HOLDS_KEYS), "what the clamp has to hold by friction");
pub const OPENED: Key = Key::new(
    "opened",
    "opened",
    Kind::Table(OPENED_KEYS),
    "a clamp at hand that is opened to a larger bore by step drill",
);
pub const LINER: Key =
    Key::new("liner", "liner", Kind::Table(LINER_KEYS), "a slit sleeve between a bore that is too large and the tube");

pub const THREAD: Key = Key::new("thread", "thread", Kind::Text, "of the screws, such as \"M8\" or \"5/16\"");
pub const NUMBER: Key = Key::new(
    "number",
    "number of screws",
    Kind::Count { min: 1, max: 6 },
    "beside each other along the tube, on each side that has some; 1 if left out",
);
pub const DISTANCE: Key = Key::new(
    "distance",
    "screws from the axis",
    Kind::POSITIVE,
    "of the tube to the axis of the screws, such as \"35 mm\"; in the middle of the ear's flat if left out",
);
pub const INTO: Key = Key::new(
    "into",
    "screws go into",
    Kind::Choice(&["thread", "nut"]),
    "\"thread\" in the far ear, or \"nut\" beyond it; thread if left out",
);

pub const TUBE_DIAMETER: Key = Key::new("diameter", "diameter of the tube", Kind::POSITIVE, "such as \"30 mm\"");
pub const TOLERANCE: Key = Key::new(
    "tolerance",
    "tolerance of the tube",
    Kind::Deviations,
    "such as \"0.1 mm\" for both ways, or [\"-0.2 mm\", \"0 mm\"]; half a per cent of the diameter either way if left out",
);
pub const TUBE_WALL: Key =
    Key::new("wall", "wall of the tube", Kind::POSITIVE, "such as \"3 mm\"; a solid bar if left out");
pub const TUBE_MATERIAL: Key = Key::new("material", "material", Kind::Text, "such as \"steel S235\"; that if left out");

pub const TORQUE: Key = Key::new(
    "force_on_lever",
    "force on the lever",
    Kind::Load,
    "that turns the clamp on the tube at the end of the lever, such as \"250 N\"; goes with lever",
);
pub const LEVER: Key = Key::new("lever", "lever", Kind::POSITIVE, "from the axis of the tube, such as \"250 mm\"");
pub const ALONG: Key = Key::new("along", "force along the tube", Kind::Load, "such as \"500 N\"");
pub const SAFETY: Key = Key::new(
    "safety",
    "safety against slip",
    Kind::Number(1.0, 10.0),
    "over the greatest that it has to hold; 1.5 if left out",
);

pub const BORE_BEFORE: Key = Key::new("bore_before", "bore of the clamp at hand", Kind::POSITIVE, "such as \"25 mm\"");
pub const STEPS: Key = Key::new(
    "steps",
    "steps of the drill",
    Kind::POSITIVES,
    "diameters, such as [\"24 mm\", \"26 mm\", \"28 mm\", \"30 mm\"]",
);
pub const STEP_HEIGHT: Key =
    Key::new("step_height", "height of a step", Kind::POSITIVE, "along the drill, such as \"8 mm\"");

pub const LINER_WALL: Key = Key::new(
    "wall",
    "wall of the liner",
    Kind::POSITIVE,
    "such as \"1.5 mm\"; half of what bore and tube differ by, less a sliding play, if left out",
);
pub const LINER_MATERIAL: Key =
    Key::new("material", "material", Kind::Text, "such as \"aluminium 6061-T6\"; that of the clamp if left out");

/// Keys of `[screw]`.
pub const SCREW_KEYS: &[Key] = &[THREAD, common::BOLT_CLASS, NUMBER, DISTANCE, INTO];
/// Keys of `[tube]`.
pub const TUBE_KEYS: &[Key] = &[TUBE_DIAMETER, TOLERANCE, TUBE_WALL, TUBE_MATERIAL];
/// Keys of `[holds]`.
pub const HOLDS_KEYS: &[Key] = &[TORQUE, LEVER, ALONG, SAFETY];
/// Keys of `[opened]`.
pub const OPENED_KEYS: &[Key] = &[BORE_BEFORE, STEPS, STEP_HEIGHT];
/// Keys of `[liner]`.
pub const LINER_KEYS: &[Key] = &[LINER_WALL, LINER_MATERIAL];
/// Keys of the file.
pub const KEYS: &[Key] = &[
    common::FAMILY,
    common::NAME,
    common::COUNT,
    common::MATERIAL,
    common::UNITS,
    common::NOTE,
    common::GENERAL_TOLERANCE,
    common::ENVIRONMENT,
    common::COATING,
    common::COATING_THICKNESS,
    common::KEPT_APART,
    common::MEASURED,
    KIND,
    BORE,
    BORE_CLASS,
    OUTSIDE_DIAMETER,
    WIDTH,
    GAP,
    EAR_THICKNESS,
    EAR_HEIGHT,
    FRICTION,
    SCREW,
    TUBE,
    HOLDS,
    OPENED,
    LINER,
];

/// A clamp as read.
pub struct Spec {
    pub common: Common,
    pub parted: Parted,
    pub bore: Bore,
    pub bore_class: Option<Given<String>>,
    pub outside: Given<Length>,
    pub width: Given<Length>,
    pub gap: Given<Length>,
    pub ear_thickness: Given<Length>,
    pub ear_height: Given<Length>,
    pub friction: Option<Given<f64>>,
    pub screw: Screw,
    pub tube: Tube,
    pub holds: Option<Holds>,
    pub opened: Option<Opened>,
    pub liner: Option<Liner>,
}

/// The bore, and as written where it is.
pub struct Bore {
    pub diameter: Length,
    pub written: Option<Given<Length>>,
}

/// The screws as read.
pub struct Screw {
    pub thread: Thread,
    pub steel: BoltSteel,
    pub number: Option<Given<u32>>,
    pub distance: Option<Given<Length>>,
    /// They go into a thread in the far ear.
    pub tapped: bool,
    /// What they go through.
    pub clearance: Length,
}

impl Screw {
    /// Beside each other on one side.
    pub fn number(&self) -> u32 {
        self.number.as_ref().map_or(1, |n| n.value)
    }

    /// Hole in the far ear.
    pub fn far(&self) -> Length {
        if self.tapped { self.thread.tap_drill().drill.diameter.rounded() } else { self.clearance }
    }
}

/// The tube in it.
pub struct Tube {
    pub diameter: Given<Length>,
    /// Lower and upper deviation, and as written where they are.
    pub tolerance: Option<Given<(Length, Length)>>,
    pub wall: Option<Given<Length>>,
    pub material: Material,
    pub material_written: bool,
}

/// Tolerance of a drawn tube where nothing is written, as a share of its diameter either way.
/// Source: EN 10305-1 and EN 10219-2 allow 0.3 to 1 %, from memory.
const USUAL: f64 = 0.005;

impl Tube {
    /// Least and greatest diameter.
    pub fn limits(&self) -> (Length, Length) {
        let d = self.diameter.value;
        let (lower, upper) = self.tolerance.as_ref().map_or((d * -USUAL, d * USUAL), |t| t.value);
        ((d + lower).rounded(), (d + upper).rounded())
    }
}

/// What it holds.
pub struct Holds {
    pub lever: Option<(Given<Force>, Given<Length>)>,
    pub along: Option<Given<Force>>,
    pub safety: Option<Given<f64>>,
}

/// A clamp at hand and the drill that opens it.
pub struct Opened {
    pub before: Given<Length>,
    pub steps: Given<Vec<Length>>,
    pub height: Given<Length>,
}

impl Opened {
    /// So many steps are no larger than the bore at hand: they run idle in it, and guide the drill.
    pub fn idle(&self) -> u32 {
        self.steps.value.iter().filter(|d| **d <= self.before.value).count() as u32
    }

    /// The first step that goes over a tube so thick.
    pub fn over(&self, greatest: Length) -> Option<Length> {
        self.steps.value.iter().copied().find(|d| *d >= greatest)
    }
}

/// A slit sleeve in it.
pub struct Liner {
    pub wall: Option<Given<Length>>,
    pub material: Material,
}

impl Spec {
    /// Screws from the axis: as written, or in the middle of the flat of the ear.
    pub fn distance(&self) -> Length {
        let (from, to) = self.flat();
        let step = by_unit(self.common.header.unit, 0.1, 0.005);
        let middle = ((from + to) / 2.0).to_nearest(step);
        self.screw.distance.as_ref().map_or(middle, |d| d.value).rounded()
    }

    /// Where the outer face of an ear leaves the ring, and where it ends, from the axis.
    pub fn flat(&self) -> (Length, Length) {
        let (r, x) = (self.outside.value.as_mm() / 2.0, (self.gap.value / 2.0 + self.ear_thickness.value).as_mm());
        let from = if x < r { Length::mm((r * r - x * x).sqrt()) } else { Length::ZERO };
        (from, self.ear_height.value)
    }

    /// Wall of the liner: as written, or what bore and tube leave, less the play that lets it slide, in steps that are turned.
    pub fn liner_wall(&self, liner: &Liner) -> Length {
        let play = by_unit(self.common.header.unit, 0.1, 0.004);
        let step = by_unit(self.common.header.unit, 0.05, 0.002);
        let (_, greatest) = self.tube.limits();
        let left = ((self.bore.diameter - greatest) / 2.0 - play / 2.0) / step;
        liner.wall.as_ref().map_or(step * (left + 1e-9).floor(), |w| w.value).rounded()
    }

    /// How many screws in all.
    pub fn screws(&self) -> u32 {
        self.screw.number() * if self.parted == Parted::InHalves { 2 } else { 1 }
    }
}

/// Reads the file; every problem is noted, `None` if one stands in the way.
pub fn read(fields: &Fields, place: &Workplace) -> Option<Spec> {
    let common = common::read(fields, place, "clamp", "steel S235");
    let (kind, bore, bore_class) = (fields.required_choice(&KIND), fields.length(&BORE), fields.text(&BORE_CLASS));
    let (outside, width, gap) =
        (fields.required_length(&OUTSIDE_DIAMETER), fields.required_length(&WIDTH), fields.required_length(&GAP));
    let (thickness, height) = (fields.required_length(&EAR_THICKNESS), fields.required_length(&EAR_HEIGHT));
    let friction = fields.number(&FRICTION);
    let screw = required(fields, &SCREW, "the screws are missing", "[screw] with thread = \"M8\"", screw);
    let help = "[tube] with diameter = \"30 mm\"";
    let tube = required(fields, &TUBE, "the tube in the clamp is missing", help, |t| tube(t, place));
    let holds = fields.table(&HOLDS).map(|t| holds(&t));
    let opened = fields.table(&OPENED).map(|t| opened(&t));
    let common = common?;
    let liner = fields.table(&LINER).map(|t| liner(&t, place, &common.material));
    let (tube, opened) = (tube?, settled(opened)?);
    let bore = match (bore, &opened) {
        (Some(given), _) => Bore { diameter: given.value, written: Some(given) },
        (None, _) if fields.has(&BORE) => return None,
        (None, Some(opened)) => {
            let (_, greatest) = tube.limits();
            let Some(step) = opened.over(greatest) else {
                let say = Say(common.header.unit);
                let message = format!("no step of the drill goes over a tube of {}", say.length(greatest));
                let help = "a larger drill, or bore it on the lathe: leave [opened] out and write bore";
                fields.problem_at(&OPENED, message, Some(help.into()));
                return None;
            };
            Bore { diameter: step, written: None }
        }
        (None, None) => Bore { diameter: tube.limits().1, written: None },
    };
    let parted = if kind?.value == "halves" { Parted::InHalves } else { Parted::Once };
    let spec = Spec {
        common,
        parted,
        bore,
        bore_class,
        outside: outside?,
        width: width?,
        gap: gap?,
        ear_thickness: thickness?,
        ear_height: height?,
        friction,
        screw: screw?,
        tube,
        holds: settled(holds)?,
        opened,
        liner: settled(liner)?,
    };
    possible(fields, &spec).then_some(spec)
}

/// A table that has to be there.
fn required<T>(
    fields: &Fields,
    key: &'static Key,
    missing: &str,
    help: &str,
    read: impl Fn(&Fields) -> Option<T>,
) -> Option<T> {
    match fields.table(key) {
        Some(table) => read(&table),
        None => {
            if !fields.has(key) {
                fields.missing(missing, Some(help));
            }
            None
        }
    }
}

fn screw(table: &Fields) -> Option<Screw> {
    let written = table.required_text(&THREAD);
    let thread = written.as_ref().and_then(|thread| common::thread(table, &THREAD, thread));
    let steel = common::bolt_class(table, thread, Head::Hex);
    let (number, distance, into) = (table.count(&NUMBER), table.length(&DISTANCE), table.choice(&INTO));
    table.left_out(&NUMBER, Taken::Count(1), "nothing is written");
    table.left_out(&INTO, "thread", "in the far ear: nothing is written");
    let clearance = common::clearance_hole(table, &THREAD, thread?, Series::Medium)?;
    let tapped = into.is_none_or(|i| i.value == "thread");
    Some(Screw { thread: thread?, steel, number, distance, tapped, clearance })
}

fn tube(table: &Fields, place: &Workplace) -> Option<Tube> {
    let (diameter, tolerance, wall) =
        (table.required_length(&TUBE_DIAMETER), table.deviations(&TOLERANCE), table.length(&TUBE_WALL));
    let material = common::material(table, place, &TUBE_MATERIAL, "steel S235");
    table.left_out_of(&TUBE_MATERIAL, "the tube", "steel S235", "nothing is written");
    table.left_out(&TOLERANCE, "0.5 %", "either way, as tubes are drawn: nothing is written");
    table.left_out(&TUBE_WALL, "solid", "a bar: nothing is written");
    let (diameter, material) = (diameter?, material?);
    if wall.as_ref().is_some_and(|w| w.value * 2.0 >= diameter.value) {
        table.problem_at(
            &TUBE_WALL,
            "so thick a wall leaves nothing inside the tube".into(),
            Some("leave it out for a solid bar".into()),
        );
        return None;
    }
    if tolerance.as_ref().is_some_and(|t| diameter.value + t.value.0 <= Length::ZERO) {
        table.problem_at(
            &TOLERANCE,
            "it leaves nothing of the tube".into(),
            Some("is that the unit which was meant?".into()),
        );
        return None;
    }
    Some(Tube { diameter, tolerance, wall, material, material_written: table.has(&TUBE_MATERIAL) })
}

fn holds(table: &Fields) -> Option<Holds> {
    let (force, lever, along, safety) =
        (table.load(&TORQUE), table.length(&LEVER), table.load(&ALONG), table.number(&SAFETY));
    let lever = match (table.has(&TORQUE), table.has(&LEVER)) {
        (true, true) => Some((force?, lever?)),
        (false, false) => None,
        (has, _) => {
            let help = if has { "lever = \"250 mm\", from the axis of the tube" } else { "force_on_lever = \"250 N\"" };
            table.missing("a force that turns has a lever", Some(help));
            return None;
        }
    };
    if lever.is_none() && !table.has(&ALONG) {
        table.missing("nothing is held", Some("force_on_lever and lever, or along = \"500 N\""));
        return None;
    }
    Some(Holds { lever, along, safety })
}

fn opened(table: &Fields) -> Option<Opened> {
    let (before, steps, height) =
        (table.required_length(&BORE_BEFORE), table.required_lengths(&STEPS), table.required_length(&STEP_HEIGHT));
    let (before, steps, height) = (before?, steps?, height?);
    let rises = steps.value.iter().zip(steps.value.iter().skip(1)).all(|(a, b)| a < b);
    if steps.value.is_empty() || !rises {
        table.problem_at(
            &STEPS,
            "the steps rise from the tip of the drill".into(),
            Some("[\"24 mm\", \"26 mm\", \"28 mm\"]".into()),
        );
        return None;
    }
    Some(Opened { before, steps, height })
}

fn liner(table: &Fields, place: &Workplace, of_clamp: &Material) -> Option<Liner> {
    let wall = table.length(&LINER_WALL);
    let material = if table.has(&LINER_MATERIAL) {
        common::material(table, place, &LINER_MATERIAL, "")
    } else {
        table.left_out_of(&LINER_MATERIAL, "the liner", of_clamp.name.clone(), "as the clamp");
        Some(of_clamp.clone())
    };
    Some(Liner { wall, material: material? })
}

/// Geometry that cannot be made is a problem at the key that causes it.
fn possible(fields: &Fields, s: &Spec) -> bool {
    let say = Say(s.common.header.unit);
    let mut sound = true;
    let mut refuse = |key: &'static Key, message: String, help: &str| {
        fields.problem_at(key, message, Some(help.into()));
        sound = false;
    };
    let (bore, outside) = (s.bore.diameter, s.outside.value);
    if bore >= outside {
        let message = format!("a bore of {} leaves no wall inside {}", say.length(bore), say.length(outside));
        refuse(&OUTSIDE_DIAMETER, message, "the bore must be smaller than the outside diameter");
        return false;
    }
    if s.gap.value >= bore / 2.0 {
        refuse(&GAP, format!("a gap of {} is half of the bore and more", say.length(s.gap.value)), "1 to 4 mm");
        return false;
    }
    if s.gap.value / 2.0 + s.ear_thickness.value >= outside / 2.0 {
        let message = format!(
            "ears {} thick are wider than the ring of {}",
            say.length(s.ear_thickness.value),
            say.length(outside)
        );
        refuse(&EAR_THICKNESS, message, "thinner ears: both and the gap are to be narrower than the ring");
        return false;
    }
    let (from, to) = s.flat();
    if to <= outside / 2.0 {
        let message = format!(
            "ears that end {} from the axis do not stand out of a ring of {}",
            say.length(to),
            say.length(outside)
        );
        refuse(
            &EAR_HEIGHT,
            message,
            "from the axis of the tube to their ends: half of the outside and twice the screw",
        );
        return false;
    }
    let (at, half) = (s.distance(), s.screw.clearance / 2.0);
    let room = Length::mm(0.2);
    if at - half < from + room || at + half > to - room {
        let message = format!(
            "the hole of {} at {} does not lie on the flat of the ear, from {} to {}",
            say.length(s.screw.clearance),
            say.length(at),
            say.length(from.rounded()),
            say.length(to)
        );
        refuse(&SCREW, message, "taller ears, smaller screws, or another distance");
    }
    if at - half < bore / 2.0 + room {
        let message = format!("the hole of {} at {} runs into the bore", say.length(s.screw.clearance), say.length(at));
        refuse(&SCREW, message, "screws further out, or a smaller bore");
    }
    let pitch = s.width.value / f64::from(s.screw.number());
    if pitch < s.screw.clearance + room {
        let message =
            format!("{} screws side by side do not go into a width of {}", s.screw.number(), say.length(s.width.value));
        refuse(&SCREW, message, "fewer or smaller screws, or a wider clamp");
    }
    sound && opening_possible(fields, s)
}

/// A drill that does not make the bore, a liner that does not go in.
fn opening_possible(fields: &Fields, s: &Spec) -> bool {
    let say = Say(s.common.header.unit);
    let bore = s.bore.diameter;
    let mut sound = true;
    let mut refuse = |key: &'static Key, message: String, help: &str| {
        fields.problem_at(key, message, Some(help.into()));
        sound = false;
    };
    if let Some(o) = &s.opened {
        if o.before.value >= bore {
            let message = format!(
                "a bore of {} is opened to {}: it is larger already",
                say.length(o.before.value),
                say.length(bore)
            );
            refuse(&OPENED, message, "leave [opened] out, or add [liner]");
        } else if !o.steps.value.iter().any(|d| (*d - bore).abs() < Length::um(1.0)) {
            let message = format!("{} is no step of the drill", say.length(bore));
            refuse(&BORE, message, "one of its steps, or leave bore out and the step that goes over the tube is taken");
        }
    }
    if let Some(l) = &s.liner {
        let wall = s.liner_wall(l);
        let (_, greatest) = s.tube.limits();
        if wall <= Length::ZERO || greatest + wall * 2.0 > bore {
            let message =
                format!("no liner goes between a bore of {} and a tube of {}", say.length(bore), say.length(greatest));
            refuse(&LINER, message, "a larger bore, a thinner liner, or none");
        }
    }
    sound
}
