//! Reading a stand's part file.

use crate::description::Fields;
use crate::families::Workplace;
use crate::families::common::{self, BoltSteel, Common, Head};
use crate::record::key::{Bounds, Given, Key, Kind};
use crate::record::show::Say;
use crate::shop::by_unit;
use crate::standards::threads::Thread;
use crate::standards::{bolting, processes, stock};
use crate::units::{Angle, Force, Length, Stress};

pub const HEIGHT: Key = Key::new("height", "height", Kind::POSITIVE, "from the floor to the top, such as \"500 mm\"");
pub const LENGTH: Key = Key::new(
    "length",
    "length",
    Kind::POSITIVE,
    "over the two end plates, along the rails; the tabs of wedges stand out beyond, such as \"400 mm\"",
);
pub const WIDTH: Key = Key::new("width", "width", Kind::POSITIVE, "of an end plate over its feet, such as \"450 mm\"");
pub const TOP_WIDTH: Key = Key::new(
    "top_width",
    "width of the top",
    Kind::POSITIVE,
    "of the top plate and of an end plate at its head, such as \"220 mm\"; half of the width if left out",
);
pub const THICKNESS: Key =
    Key::new("thickness", "thickness", Kind::POSITIVE, "of all plates, as they are named, such as \"8 mm\"");
pub const MEASURED_THICKNESS: Key = Key::new(
    "measured_thickness",
    "thickness of the plate as measured",
    Kind::LengthRange,
    "where the plate lies at the cutter already: \"8.1 mm\", or least and greatest [\"8.0 mm\", \"8.2 mm\"]; the standard's limits if left out",
);
pub const ROLLED: Key = Key::new(
    "rolled",
    "rolled as",
    Kind::Choice(&["plate", "strip"]),
    "\"plate\" (EN 10029, class A) or \"strip\" (cut from a coil, EN 10051, closer); plate if left out",
);
pub const KERF: Key = Key::new(
    "kerf",
    "kerf drawn into the files",
    Kind::NOT_NEGATIVE,
    "what the cutter's beam takes, where it follows the lines as they are drawn, such as \"0.3 mm\"; nought if left out: a cutter allows for it himself",
);
pub const CLEARANCE: Key = Key::new(
    "joint_clearance",
    "clearance of the joints",
    Kind::NOT_NEGATIVE,
    "of a slot over the thickest plate, such as \"0.3 mm\"; what a cut edge may be off and 0.1 mm (0.004 in) if left out",
);
pub const LOCK: Key = Key::new(
    "lock",
    "locked by",
    Kind::Choice(&["wedges", "bolts"]),
    "\"wedges\" of the same plate through the tabs, or \"bolts\" into nuts in the rails; wedges if left out",
);
pub const WEDGE_ANGLE: Key = Key::new(
    "wedge_angle",
    "taper of the wedges",
    Kind::Angle(0.5, 30.0),
    "whole angle between its two long edges, such as \"4 deg\"",
);
pub const FRICTION: Key = Key::new(
    "friction",
    "coefficient of friction",
    Kind::Number(0.01, 0.9),
    "of a wedge on the plates, at least, such as 0.1; the least that is printed for oiled steel if left out",
);
pub const THREAD: Key = Key::new(
    "thread",
    "thread",
    Kind::Text,
    "of the bolts that lock it, such as \"M8\"; the largest up to M10 that is no thicker than the plate if left out",
);
pub const RAIL_DEPTH: Key = Key::new(
    "rail_depth",
    "depth of the rails",
    Kind::POSITIVE,
    "upright, such as \"110 mm\"; a fifth of the height and at least ten thicknesses if left out",
);
pub const LEG_WIDTH: Key = Key::new(
    "leg_width",
    "width of a leg",
    Kind::POSITIVE,
    "square to the leg, in its plate, such as \"60 mm\"; an eighth of the height and at least six thicknesses if left out",
);
pub const LOAD: Key = Key::new(
    "load",
    "load",
    Kind::Load,
    "all that stands on the stands together, at rest, such as \"640 kg\" or \"6.3 kN\"",
);
pub const SHARED_BY: Key = Key::new(
    "shared_by",
    "stands that carry it",
    Kind::Count { min: 1, max: 24 },
    "how many stands carry the load together, such as 4; as many as are made if left out",
);
pub const UNEVEN: Key = Key::new(
    "uneven",
    "share of the most loaded stand",
    Kind::Number(1.0, 24.0),
    "over the even share, such as 2; if left out half of the stands where there are four or more (a stiff frame rests on two across), 1.2 for two or three",
);
pub const OFF_CENTRE: Key = Key::new(
    "off_centre",
    "load off the middle",
    Kind::NOT_NEGATIVE,
    "how far from the middle of the top the load may stand, either way, such as \"30 mm\"; a sixth of the top's shorter side if left out",
);
pub const LOAD_HEIGHT: Key = Key::new(
    "load_height",
    "centre of the load over the top",
    Kind::NOT_NEGATIVE,
    "height of its centre of mass over the top of the stand, such as \"600 mm\"",
);
pub const APART: Key = Key::new(
    "apart",
    "stands apart",
    Kind::POSITIVE,
    "from middle to middle of the stands, the less of the two ways, such as \"800 mm\"; goes with load_height where three or more carry",
);
pub const PUSH: Key = Key::new(
    "push",
    "push sideways",
    Kind::Force,
    "greatest force across on the whole load, any direction, at the top of the stands, such as \"600 N\"; a tenth of the load if left out",
);
pub const SLOPE: Key = Key::new(
    "slope",
    "slope of the floor",
    Kind::Angle(0.0, 20.0),
    "greatest slope on which it stands, such as \"1.5 deg\"; 1 degree if left out",
);
pub const FLOOR: Key = Key::new(
    "floor",
    "floor",
    Kind::Choice(&["concrete", "timber", "asphalt", "earth"]),
    "on which it stands: \"concrete\", \"timber\", \"asphalt\" or \"earth\"; concrete if left out",
);
pub const SOLE: Key = Key::new(
    "sole",
    "sole under each foot",
    Kind::POSITIVE,
    "side of a square of steel plate or hardwood that is laid under each foot, such as \"150 mm\"",
);
pub const CUTTER_SHEET: Key = Key::new(
    "cutter_sheet",
    "sheet of the cutter",
    Kind::Lengths(Bounds::Positive),
    "length and width of the sheets that the cutter takes, such as [\"2500 mm\", \"1250 mm\"]; that if left out",
);

#[rustfmt::skip]
pub const KEYS: &[Key] = &[
    common::FAMILY, common::NAME, common::COUNT, common::MATERIAL, common::UNITS, common::NOTE, common::GENERAL_TOLERANCE,
    common::ENVIRONMENT, common::COATING, common::COATING_THICKNESS, common::MEASURED, HEIGHT, LENGTH, WIDTH, TOP_WIDTH,
    THICKNESS, MEASURED_THICKNESS, ROLLED, KERF, CLEARANCE, LOCK, WEDGE_ANGLE, FRICTION, THREAD, common::BOLT_CLASS, RAIL_DEPTH,
    LEG_WIDTH, LOAD, SHARED_BY, UNEVEN, OFF_CENTRE, LOAD_HEIGHT, APART, PUSH, SLOPE, FLOOR, SOLE, CUTTER_SHEET,
];

/// How rails and end plates are locked.
pub enum Lock {
    /// Wedges through the tabs.
    Wedges { taper: Option<Given<Angle>>, friction: Option<Given<f64>> },
    /// Bolts along the rails, into nuts that lie in them.
    Bolts { written: Option<Given<String>>, thread: Thread, hole: Length, steel: BoltSteel },
}

/// Least and greatest thickness of the plates, and what says so.
pub struct Thick {
    pub least: Length,
    pub most: Length,
    pub by: String,
    pub confirmed: crate::source::Confirmed,
}

/// What the file says.
pub struct Spec {
    pub common: Common,
    pub height: Given<Length>,
    pub length: Given<Length>,
    pub width: Given<Length>,
    pub top_width: Option<Given<Length>>,
    pub thickness: Given<Length>,
    pub measured_thickness: Option<Given<(Length, Length)>>,
    pub rolled: Option<Given<&'static str>>,
    pub thick: Thick,
    pub kerf: Option<Given<Length>>,
    pub clearance: Option<Given<Length>>,
    pub lock: Lock,
    pub rail_depth: Option<Given<Length>>,
    pub leg_width: Option<Given<Length>>,
    pub load: Given<Force>,
    pub shared_by: Option<Given<u32>>,
    pub uneven: Option<Given<f64>>,
    pub off_centre: Option<Given<Length>>,
    pub load_height: Option<Given<Length>>,
    pub apart: Option<Given<Length>>,
    pub push: Option<Given<Force>>,
    pub slope: Option<Given<Angle>>,
    pub floor: Option<Given<&'static str>>,
    pub sole: Option<Given<Length>>,
    pub cutter_sheet: Option<Given<Vec<Length>>>,
}

impl Spec {
    /// How many stands carry the load.
    pub fn stands(&self) -> u32 {
        self.shared_by.as_ref().map_or(self.common.header.count, |n| n.value)
    }

    /// What the cutter's beam takes beside the lines.
    pub fn kerf(&self) -> Length {
        self.kerf.as_ref().map_or(Length::ZERO, |k| k.value)
    }
}

/// Reads the file; every problem is noted, `None` if one stands in the way.
pub fn read(fields: &Fields, place: &Workplace) -> Option<Spec> {
    let common = common::read(fields, place, "stand", "steel S235");
    let (height, length, width) =
        (fields.required_length(&HEIGHT), fields.required_length(&LENGTH), fields.required_length(&WIDTH));
    let (thickness, measured) = (fields.required_length(&THICKNESS), fields.length_range(&MEASURED_THICKNESS));
    let rolled = fields.choice(&ROLLED);
    let load = fields.load(&LOAD);
    if !fields.has(&LOAD) {
        fields.missing("the load is missing", Some("load = \"640 kg\", and how many stands carry it: shared_by = 4"));
    }
    let common = common?;
    let (height, length, width, thickness) = (height?, length?, width?, thickness?);
    let lock = lock(fields, thickness.value)?;
    let thick = thick(fields, &common, &thickness, measured.as_ref(), rolled.as_ref());
    let spec = Spec {
        common,
        height,
        length,
        width,
        top_width: fields.length(&TOP_WIDTH),
        thickness,
        measured_thickness: measured,
        rolled,
        thick: thick?,
        kerf: fields.length(&KERF),
        clearance: fields.length(&CLEARANCE),
        lock,
        rail_depth: fields.length(&RAIL_DEPTH),
        leg_width: fields.length(&LEG_WIDTH),
        load: load?,
        shared_by: fields.count(&SHARED_BY),
        uneven: fields.number(&UNEVEN),
        off_centre: fields.length(&OFF_CENTRE),
        load_height: fields.length(&LOAD_HEIGHT),
        apart: fields.length(&APART),
        push: fields.force(&PUSH),
        slope: fields.angle(&SLOPE),
        floor: fields.choice(&FLOOR),
        sole: fields.length(&SOLE),
        cutter_sheet: fields.lengths(&CUTTER_SHEET),
    };
    belongs(fields, &spec).then_some(spec)
}

/// What goes with what, and by how much a share may be uneven.
fn belongs(fields: &Fields, s: &Spec) -> bool {
    let many = s.stands() > 2;
    let mut sound = true;
    let mut refuse = |key: &'static Key, message: String, help: &str| {
        fields.problem_at(key, message, Some(help.into()));
        sound = false;
    };
    match (&s.load_height, &s.apart) {
        (None, Some(_)) => refuse(
            &APART,
            "how far the stands are apart counts with the height of the load's centre".into(),
            "add load_height = \"600 mm\"",
        ),
        (Some(_), None) if many => refuse(
            &LOAD_HEIGHT,
            "three stands and more tip as one under the load: how far apart are they?".into(),
            "add apart = \"800 mm\", the less of the two ways",
        ),
        (_, Some(_)) if !many => refuse(
            &APART,
            "one stand, or two in a row, tip each over their own feet: how far apart they are does nothing here".into(),
            "leave it out, or write shared_by = 3 or more",
        ),
        _ => {}
    }
    if let Some(uneven) = s.uneven.as_ref().filter(|u| u.value > f64::from(s.stands())) {
        let message = format!("{} times the even share of {} stands is more than the load", uneven.value, s.stands());
        refuse(&UNEVEN, message, "at most as many as there are stands: then one carries all");
    }
    if let Some(sheet) = s.cutter_sheet.as_ref().filter(|sheet| sheet.value.len() != 2) {
        let message = format!("{} lengths are no sheet", sheet.value.len());
        refuse(&CUTTER_SHEET, message, "length and width: [\"2500 mm\", \"1250 mm\"]");
    }
    sound
}

/// The threads of the bolts, the largest first; a plate that is thinner than the least inch bolt takes a metric one.
/// Source: ISO 262, coarse; ASME B1.1.
const USUAL: [&str; 6] = ["M10", "M8", "M6", "M5", "M4", "M3"];
const USUAL_INCH: [&str; 6] = ["3/8", "5/16", "1/4", "M5", "M4", "M3"];

fn lock(fields: &Fields, thickness: Length) -> Option<Lock> {
    let (taper, friction, written) = (fields.angle(&WEDGE_ANGLE), fields.number(&FRICTION), fields.text(&THREAD));
    let bolts = fields.choice(&LOCK).is_some_and(|l| l.value == "bolts");
    fields.left_out(&LOCK, "wedges", "nothing is written");
    if !bolts {
        common::not_here(fields, &[&THREAD, &common::BOLT_CLASS], "it is of bolts: add lock = \"bolts\"");
        return Some(Lock::Wedges { taper, friction });
    }
    common::not_here(fields, &[&WEDGE_ANGLE, &FRICTION], "it is of wedges: leave out lock = \"bolts\"");
    let inch = common::say(fields).0 == crate::units::LengthUnit::Inch;
    let usual: &[&str] = if inch { &USUAL_INCH } else { &USUAL };
    let fits = |name: &&&str| Thread::parse(name).is_ok_and(|t| t.major <= thickness);
    let name = usual.iter().find(fits).or(usual.last()).copied().unwrap_or("M5");
    let thread = match &written {
        Some(written) => common::thread(fields, &THREAD, written)?,
        None => Thread::parse(name).ok()?,
    };
    fields.left_out(&THREAD, name, "the largest that is no thicker than the plate");
    let steel = common::bolt_class(fields, Some(thread), Head::Hex);
    if bolting::across_flats(&thread).is_none() {
        let message = format!("how wide a nut of {thread} is, is not known");
        fields.problem_at(&THREAD, message, Some("a usual one, such as \"M8\" or \"5/16\"".into()));
        return None;
    }
    let hole = common::clearance_hole(fields, &THREAD, thread, crate::standards::clearance_holes::Series::Medium)?;
    Some(Lock::Bolts { written, thread, hole, steel })
}

/// The limits of the thickness: as measured, else by the standard of how it is rolled, else by the general tolerance.
fn thick(
    fields: &Fields,
    common: &Common,
    thickness: &Given<Length>,
    measured: Option<&Given<(Length, Length)>>,
    rolled: Option<&Given<&'static str>>,
) -> Option<Thick> {
    use crate::source::Confirmed;
    let t = thickness.value;
    let say = Say(common.header.unit);
    if let Some(range) = measured {
        common::not_here(fields, &[&ROLLED], "the thickness is measured: leave out the one or the other");
        let (least, most) = range.value;
        if least < t * 0.7 || most > t * 1.3 {
            let message = format!("that is no plate of {}", say.length(t));
            fields.problem_at(&MEASURED_THICKNESS, message, Some("within a third of its thickness".into()));
            return None;
        }
        return Some(Thick { least, most, by: "as measured".into(), confirmed: Confirmed::One });
    }
    if fields.has(&MEASURED_THICKNESS) {
        return None;
    }
    let strip = rolled.is_some_and(|r| r.value == "strip");
    let steel = common.material.magnetic;
    let found = match strip {
        true => stock::strip_limits(t).map(|d| (-d, d, "EN 10051, category A", Confirmed::TwoOrMore)),
        false => stock::plate_limits(t).map(|(a, b)| (a, b, "EN 10029 A, as rolled", Confirmed::TwoOrMore)),
    };
    let sheet = || stock::sheet_limits(t).map(|d| (-d, d, "EN 10131, as rolled", Confirmed::Memory));
    let found = found.or_else(sheet).filter(|_| steel);
    // What no standard of steel says: common practice, no source.
    let (lower, upper, by, confirmed) =
        found.unwrap_or((t * -0.05, t * 0.05, "a twentieth either way, common practice", Confirmed::Memory));
    Some(Thick { least: (t + lower).rounded(), most: (t + upper).rounded(), by: by.into(), confirmed })
}

/// What a cut edge may be off at sizes of a joint. Source: ISO 9013 by its table; beyond it a twentieth of the thickness.
pub fn cut_off(size: Length, thickness: Length) -> Length {
    processes::cut_deviation(size, thickness).map_or(thickness * 0.05, |d| d.value)
}

/// Usual clearance of a joint. Source: derived; what a cut edge may be off, and a hair more.
pub fn usual_clearance(s: &Spec) -> Length {
    let unit = s.common.header.unit;
    let step = by_unit(unit, 0.1, 0.005);
    let wanted = cut_off(s.thick.most, s.thickness.value) + by_unit(unit, 0.1, 0.004);
    wanted.up_to(step)
}

/// What a floor bears, and what says so.
pub fn floor_bears(floor: &str) -> Stress {
    // Timber: EN 338, C24 across the grain, 2.5 MPa less a factor of 1.3; earth: the International Building Code, table 1806.2, sand:
    // 2000 lbf/ft²; concrete C20/25 and asphalt in summer: common practice, no source. All from memory.
    Stress::mpa(match floor {
        "timber" => 1.9,
        "asphalt" => 1.0,
        "earth" => 0.096,
        _ => 8.0,
    })
}
