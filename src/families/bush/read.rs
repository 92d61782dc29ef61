//! Reading a bush's part file: a ring between a shaft and a housing, and what runs in it.

use crate::description::Fields;
use crate::families::Workplace;
use crate::families::common;
use crate::families::common::ring::read as ring;
pub use crate::families::common::ring::read::Ring;
use crate::families::common::ring::read::{
    BORE, BORE_CHAMFER, BORE_CLASS, CHAMFER, GREASE_HOLE, GROOVE, HOUSING, LENGTH, OUTSIDE_CLASS, OUTSIDE_DIAMETER,
    PRESSED_IN, SHAFT, STOCK, TEMPERATURE, TEMPERATURE_RANGE,
};
use crate::families::common::settled;
use crate::formulas::hardness::Hardness;
use crate::formulas::plain_bearing::Motion;
use crate::record::key::{Given, Key, Kind};
use crate::record::show::Say;
use crate::units::{Angle, Force, Length, SpindleSpeed, Stress};

pub const RUNS: Key =
    Key::new("runs", "runs", Kind::Table(RUNS_KEYS), "what the shaft in the bush carries and how it moves");
pub const STRAIGHT_GROOVE: Key = Key::new(
    "straight_groove",
    "width of the straight groove",
    Kind::POSITIVE,
    "along the bore through the grease hole, on the side without load, such as \"3 mm\"",
);
pub const WASHER: Key =
    Key::new("washer", "thrust washer", Kind::Table(WASHER_KEYS), "a washer of the same material at one end");
pub const NEEDLES: Key =
    Key::new("needles", "needle rollers", Kind::Table(NEEDLE_KEYS), "rollers at the same place, for comparison");

pub const LOAD: Key = Key::new(
    "load",
    "radial load",
    Kind::Load,
    "greatest, as a force such as \"1.5 kN\" or a mass whose weight is meant",
);
pub const SHOCK: Key = Key::new("shock", "shock factor", Kind::Number(1.0, 20.0), "1 for a steady load, 2 for jolts");
pub const TURNS: Key =
    Key::new("turns_per_minute", "turns in a minute", Kind::Number(0.001, 20_000.0), "of the shaft, such as 60");
pub const SWING: Key =
    Key::new("swing", "swing", Kind::Angle(0.0, 360.0), "whole angle from end to end, such as \"40 deg\"");
pub const SWINGS: Key = Key::new(
    "swings_per_minute",
    "swings in a minute",
    Kind::Number(0.000_1, 10_000.0),
    "there and back, while it moves, such as 10",
);
pub const HOURS: Key = Key::new(
    "hours",
    "hours of motion wanted",
    Kind::Number(0.01, 1_000_000.0),
    "in which it may wear, such as 500; a pivot that moves a minute a day moves 6 hours a year",
);
pub const WEAR: Key = Key::new(
    "wear",
    "wear allowed",
    Kind::POSITIVE,
    "on the loaded side, such as \"0.1 mm\"; the greatest clearance once more if left out",
);
pub const DIRT: Key = Key::new("dirt", "dirt gets in", Kind::Flag, "true where no seal keeps sand and road dirt out");
pub const FRICTION: Key = Key::new(
    "friction",
    "coefficient of friction",
    Kind::Number(0.005, 1.0),
    "such as 0.12; the material's if left out",
);
pub const SHAFT_HARDNESS: Key = Key::new(
    "shaft_hardness",
    "hardness of the shaft",
    Kind::Text,
    "as measured, such as \"45 HRC\" or \"180 HV\"; that of its material if left out",
);
pub const WEAR_FACTOR: Key = Key::new(
    "wear_factor",
    "wear factor, mm³/(N m)",
    Kind::Number(1e-12, 1e-2),
    "as the maker of the material states it, such as 2e-6; that of the material if left out",
);
pub const PRESSURE: Key = Key::new(
    "allowed_pressure",
    "pressure that it bears",
    Kind::Stress,
    "as the maker of the material states it, such as \"20 MPa\"; that of the material if left out",
);
pub const PRESSURE_SPEED: Key = Key::new(
    "allowed_pressure_speed",
    "pressure times speed that it bears, MPa m/s",
    Kind::Number(0.001, 1000.0),
    "as the maker of the material states it, such as 2.6; that of the material if left out",
);

pub const WASHER_OUTSIDE: Key =
    Key::new("outside_diameter", "outside of the washer", Kind::POSITIVE, "such as \"40 mm\"");
pub const WASHER_BORE: Key = Key::new(
    "bore",
    "bore of the washer",
    Kind::POSITIVE,
    "such as \"21 mm\"; the bore of the bush and 0.5 mm (0.02 in) if left out",
);
pub const THICKNESS: Key = Key::new("thickness", "thickness of the washer", Kind::POSITIVE, "such as \"3 mm\"");
pub const THRUST: Key = Key::new("load", "load along the axis", Kind::Load, "greatest, such as \"300 N\"");

pub const ROLLERS: Key =
    Key::new("rollers", "number of rollers", Kind::Count { min: 1, max: 1000 }, "in one row, such as 24");
pub const ROLLER_DIAMETER: Key = Key::new("roller_diameter", "roller diameter", Kind::POSITIVE, "such as \"2.5 mm\"");
pub const ROLLER_LENGTH: Key =
    Key::new("roller_length", "effective roller length", Kind::POSITIVE, "without the rounded ends, such as \"12 mm\"");

/// Keys of `[runs]`.
pub const RUNS_KEYS: &[Key] = &[
    LOAD,
    SHOCK,
    TURNS,
    SWING,
    SWINGS,
    HOURS,
    WEAR,
    DIRT,
    FRICTION,
    SHAFT_HARDNESS,
    WEAR_FACTOR,
    PRESSURE,
    PRESSURE_SPEED,
];
/// Keys of `[washer]`.
pub const WASHER_KEYS: &[Key] = &[WASHER_OUTSIDE, WASHER_BORE, THICKNESS, THRUST];
/// Keys of `[needles]`.
pub const NEEDLE_KEYS: &[Key] = &[ROLLERS, ROLLER_DIAMETER, ROLLER_LENGTH];
/// Keys of the file.
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
    common::KEPT_APART,
    BORE,
    OUTSIDE_DIAMETER,
    LENGTH,
    BORE_CLASS,
    OUTSIDE_CLASS,
    SHAFT,
    HOUSING,
    PRESSED_IN,
    RUNS,
    CHAMFER,
    BORE_CHAMFER,
    GROOVE,
    STRAIGHT_GROOVE,
    GREASE_HOLE,
    WASHER,
    NEEDLES,
    STOCK,
    TEMPERATURE,
    TEMPERATURE_RANGE,
];

/// A bush as read.
pub struct Spec {
    pub ring: Ring,
    pub runs: Runs,
    pub straight: Option<Given<Length>>,
    pub washer: Option<Washer>,
    pub needles: Option<Needles>,
}

/// What the shaft carries and how it moves.
pub struct Runs {
    pub load: Given<Force>,
    pub shock: Option<Given<f64>>,
    pub turns: Option<Given<f64>>,
    pub swing: Option<(Given<Angle>, Given<f64>)>,
    pub hours: Option<Given<f64>>,
    pub wear: Option<Given<Length>>,
    pub dirt: bool,
    pub friction: Option<Given<f64>>,
    pub shaft_hardness: Option<Given<Hardness>>,
    pub wear_factor: Option<Given<f64>>,
    pub pressure: Option<Given<Stress>>,
    pub pressure_speed: Option<Given<f64>>,
}

impl Runs {
    /// How the shaft moves; none where nothing is written.
    pub fn motion(&self) -> Option<Motion> {
        let turns = self.turns.as_ref().map(|n| Motion::Turns(SpindleSpeed::rpm(n.value)));
        turns.or_else(|| self.swing.as_ref().map(|(swing, often)| Motion::Swings(swing.value, often.value)))
    }
}

/// A thrust washer.
pub struct Washer {
    pub outside: Given<Length>,
    pub bore: Option<Given<Length>>,
    pub thickness: Given<Length>,
    pub load: Option<Given<Force>>,
}

/// Rollers at the same place.
pub struct Needles {
    pub count: Given<u32>,
    pub diameter: Given<Length>,
    pub length: Given<Length>,
}

/// Reads the file; every problem is noted, `None` if one stands in the way.
pub fn read(fields: &Fields, place: &Workplace) -> Option<Spec> {
    let ring = ring::ring(fields, place, "bush", "bronze C93200");
    if ring.as_ref().is_some_and(|ring| ring.common.material.printed) {
        let help = "acetal, nylon or bronze; to try the fit only, print a sleeve of these sizes";
        fields.problem_at(
            &common::MATERIAL,
            "a print is no bearing: its layers tear and it creeps".into(),
            Some(help.into()),
        );
    }
    let runs = fields.table(&RUNS).map(|t| runs(&t));
    let straight = fields.length(&STRAIGHT_GROOVE);
    let washer = fields.table(&WASHER).map(|t| washer(&t));
    let needles = fields.table(&NEEDLES).map(|t| needles(&t));
    for (key, what, help) in [
        (&SHAFT, "the shaft that runs in it is missing", "[shaft] with class = \"f7\" or diameter = \"19.97 mm\""),
        (&HOUSING, "the housing that it is pressed into is missing", "[housing] with class = \"H7\""),
        (&RUNS, "what it carries is missing", "[runs] with load = \"1.5 kN\""),
    ] {
        if !fields.has(key) {
            fields.missing(what, Some(help));
        }
    }
    let spec = Spec { ring: ring?, runs: runs??, straight, washer: settled(washer)?, needles: settled(needles)? };
    let partners = spec.ring.shaft.is_some() && spec.ring.housing.is_some();
    let sound = ring::possible(fields, &spec.ring, &[spec.ring.whole()]);
    (partners && sound && ring::belongs_together(fields, &spec.ring) && possible(fields, &spec)).then_some(spec)
}

fn runs(table: &Fields) -> Option<Runs> {
    let load = table.load(&LOAD);
    if load.is_none() && !table.has(&LOAD) {
        table.missing("the load is missing", Some("load = \"1.5 kN\", or a mass whose weight is meant"));
    }
    let (shock, turns, swing, often) =
        (table.number(&SHOCK), table.number(&TURNS), table.angle(&SWING), table.number(&SWINGS));
    table.left_out(&SHOCK, "1", "a steady load: nothing is written");
    table.left_out(&DIRT, "no", "clean: nothing is written");
    let swing = match (table.has(&SWING), table.has(&SWINGS)) {
        _ if table.has(&TURNS) => {
            common::not_here(table, &[&SWING, &SWINGS], "a shaft turns or swings: leave one of them out");
            None
        }
        (true, true) => Some((swing?, often?)),
        (false, false) => None,
        (has, _) => {
            let help =
                if has { "swings_per_minute = 10, there and back" } else { "swing = \"40 deg\", from end to end" };
            table.missing("a swing has an angle and a number in a minute", Some(help));
            return None;
        }
    };
    if !table.has(&TURNS) && swing.is_none() {
        let help = "say how it moves: turns_per_minute, or swing and swings_per_minute";
        common::not_here(table, &[&HOURS, &WEAR], help);
    }
    Some(Runs {
        load: load?,
        shock,
        turns,
        swing,
        hours: table.number(&HOURS),
        wear: table.length(&WEAR),
        dirt: table.flag(&DIRT).is_some_and(|d| d.value),
        friction: table.number(&FRICTION),
        shaft_hardness: common::hardness(table, &SHAFT_HARDNESS)?,
        wear_factor: table.number(&WEAR_FACTOR),
        pressure: table.stress(&PRESSURE),
        pressure_speed: table.number(&PRESSURE_SPEED),
    })
}

fn washer(table: &Fields) -> Option<Washer> {
    let (outside, thickness) = (table.required_length(&WASHER_OUTSIDE), table.required_length(&THICKNESS));
    let (bore, load) = (table.length(&WASHER_BORE), table.load(&THRUST));
    Some(Washer { outside: outside?, bore, thickness: thickness?, load })
}

fn needles(table: &Fields) -> Option<Needles> {
    let count = table.count(&ROLLERS);
    if count.is_none() && !table.has(&ROLLERS) {
        table.missing("`rollers` is missing: how many there are in one row", Some("rollers = 24"));
    }
    let (diameter, length) = (table.required_length(&ROLLER_DIAMETER), table.required_length(&ROLLER_LENGTH));
    Some(Needles { count: count?, diameter: diameter?, length: length? })
}

/// Geometry that cannot be made is a problem at the key that causes it.
fn possible(fields: &Fields, s: &Spec) -> bool {
    let say = Say(s.ring.common.header.unit);
    let mut sound = true;
    let mut refuse = |key: &'static Key, message: String, help: &str| {
        fields.problem_at(key, message, Some(help.into()));
        sound = false;
    };
    let bore = s.ring.bore.value;
    if let Some(width) = &s.straight {
        if s.ring.grease_hole.is_none() {
            refuse(
                &STRAIGHT_GROOVE,
                "a straight groove starts at the grease hole".into(),
                "add [grease_hole] with diameter = \"4 mm\"",
            );
        }
        if width.value > bore / 2.0 {
            let message =
                format!("a groove {} wide leaves no bearing in {}", say.length(width.value), say.length(bore));
            refuse(&STRAIGHT_GROOVE, message, "a tenth to a fifth of the bore");
        }
    }
    if let Some(g) = s.ring.groove.as_ref().filter(|g| g.inside && g.width.value * 2.0 > s.ring.length.value) {
        let message = format!("a groove {} wide leaves less than half of the bush to bear", say.length(g.width.value));
        refuse(&GROOVE, message, "make width smaller");
    }
    if s.ring.groove.as_ref().is_some_and(|g| !g.inside) && s.ring.grease_hole.is_none() {
        refuse(
            &GROOVE,
            "a groove on the outside leads grease nowhere without a hole".into(),
            "add [grease_hole] in it",
        );
    }
    if let Some(w) = &s.washer {
        let hole = w.bore.as_ref().map_or(bore, |b| b.value);
        if hole < bore || w.outside.value <= hole {
            let message = format!(
                "a washer of {} outside and {} inside does not go over a shaft of {}",
                say.length(w.outside.value),
                say.length(hole),
                say.length(bore)
            );
            refuse(&WASHER, message, "its bore is larger than the shaft, its outside larger than its bore");
        }
    }
    sound
}
