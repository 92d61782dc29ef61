//! What a file says of the rollers that run on the sleeve: `[runs_under]`.

use crate::description::Fields;
use crate::families::Workplace;
use crate::families::common;
use crate::formulas::hardness::Hardness;
use crate::formulas::raceway::ClearanceWanted;
use crate::record::key::{Given, Key, Kind};
use crate::shop::Material;
use crate::units::{Angle, Force, Length};

pub const ROLLER_DIAMETER: Key = Key::new("roller_diameter", "roller diameter", Kind::POSITIVE, "such as \"2.5 mm\"");
pub const ROLLER_LENGTH: Key =
    Key::new("roller_length", "effective roller length", Kind::POSITIVE, "without the rounded ends, such as \"12 mm\"");
pub const ROLLERS: Key =
    Key::new("rollers", "number of rollers", Kind::Count { min: 1, max: 1000 }, "in one row, such as 24");
pub const LOAD: Key = Key::new(
    "load",
    "radial load",
    Kind::Load,
    "greatest, as a force such as \"6 kN\" or a mass whose weight is meant",
);
pub const MASS: Key = Key::new("mass", "mass carried", Kind::Mass, "instead of load, together with lever");
pub const LEVER: Key = Key::new(
    "lever",
    "lever",
    Kind::Number(0.01, 1000.0),
    "how many times the weight of the mass the pivot carries, such as 2.5; 1 if left out",
);
pub const LOAD_FACTOR: Key = Key::new(
    "load_factor",
    "load factor of the most loaded roller",
    Kind::Number(1.0, 50.0),
    "times its equal share; left out, it follows from the clearance that needle_bore_class leaves, or is 5",
);
pub const SHOCK: Key = Key::new("shock", "shock factor", Kind::Number(1.0, 20.0), "1 for a steady load, 2 for jolts");
pub const MOTION: Key = Key::new("motion", "motion", Kind::Choice(&["turns", "swings"]), "\"turns\" or \"swings\"");
pub const SWING: Key =
    Key::new("swing", "swing", Kind::Angle(0.0, 360.0), "whole angle from end to end, such as \"40 deg\"");
pub const CLEARANCE: Key = Key::new(
    "clearance",
    "running clearance wanted",
    Kind::Choice(&["small", "normal", "large"]),
    "\"small\", \"normal\" or \"large\"",
);
pub const NEEDLE_CLASS: Key = Key::new(
    "needle_bore_class",
    "class of the circle inside the rollers",
    Kind::Text,
    "from the bearing's table, such as \"F6\"",
);
pub const HARDNESS: Key = Key::new(
    "hardness",
    "hardness of the raceway",
    Kind::Text,
    "as measured, such as \"60 HRC\" or \"130 HV\"; the material's if left out",
);
pub const CASE_DEPTH: Key = Key::new(
    "case_depth",
    "case depth",
    Kind::POSITIVE,
    "of a case-hardened raceway after grinding; leave out if hard right through",
);
pub const CORE: Key = Key::new("core_hardness", "hardness of the core", Kind::Text, "such as \"350 HV\"");
pub const END_FLOAT: Key = Key::new("end_float", "end float of the pivot", Kind::NOT_NEGATIVE, "such as \"0.15 mm\"");
pub const POSITION: Key = Key::new(
    "position",
    "middle of the roller track",
    Kind::POSITIVE,
    "from the left end; the middle of the raceway if left out",
);
pub const SEALED: Key = Key::new("sealed", "sealed", Kind::Flag, "true when both ends have seals");

pub const HUB_MATERIAL: Key = Key::new(
    "hub_material",
    "material of the hub around the rollers",
    Kind::Text,
    "in which their outer ring sits, such as \"aluminium 6061-T6\": what cold and heat do to the clearance; steel like the rollers if left out",
);

/// Keys of `[runs_under]`.
pub const KEYS: &[Key] = &[
    ROLLER_DIAMETER,
    ROLLER_LENGTH,
    ROLLERS,
    LOAD,
    MASS,
    LEVER,
    LOAD_FACTOR,
    SHOCK,
    MOTION,
    SWING,
    CLEARANCE,
    NEEDLE_CLASS,
    HARDNESS,
    CASE_DEPTH,
    CORE,
    END_FLOAT,
    POSITION,
    SEALED,
    HUB_MATERIAL,
];

/// What runs on the sleeve.
pub struct Rollers {
    pub roller_diameter: Given<Length>,
    pub roller_length: Given<Length>,
    pub count: Given<u32>,
    pub load: Given<Force>,
    pub load_factor: Option<f64>,
    pub shock: f64,
    pub swing: Option<Angle>,
    pub clearance: ClearanceWanted,
    pub needle_class: Option<Given<String>>,
    pub hardness: Option<Given<Hardness>>,
    pub case_depth: Option<Given<Length>>,
    pub core: Option<Given<Hardness>>,
    pub end_float: Option<Given<Length>>,
    pub position: Option<Length>,
    pub sealed: bool,
    /// Of the hub, where it is written.
    pub hub: Option<Material>,
}

/// Reads `[runs_under]`; `None` when a problem was noted.
pub fn read(table: &Fields, place: &Workplace) -> Option<Rollers> {
    let (roller_diameter, roller_length) =
        (table.required_length(&ROLLER_DIAMETER), table.required_length(&ROLLER_LENGTH));
    let count = table.count(&ROLLERS);
    if count.is_none() && !table.has(&ROLLERS) {
        table.missing("`rollers` is missing: how many there are in one row", Some("rollers = 24"));
    }
    let load = load(table);
    let (hardness, core) = (common::hardness(table, &HARDNESS), common::hardness(table, &CORE));
    let motion = table.choice(&MOTION).map(|m| m.value);
    let swing = table.angle(&SWING).map(|a| a.value);
    if motion == Some("swings") && !table.has(&SWING) {
        table.missing("how far it swings is missing", Some("swing = \"40 deg\", from end to end"));
        return None;
    }
    if motion == Some("turns") {
        common::not_here(table, &[&SWING], "what turns has no swing: motion = \"swings\", or leave it out");
    }
    let number = |key: &'static Key, usual: f64| table.number(key).map_or(usual, |n| n.value);
    table.left_out(&SHOCK, "1", "a steady load: nothing is written");
    table.left_out(&CLEARANCE, "normal", "nothing is written");
    table.left_out(&SEALED, "no", "nothing is written");
    table.left_out(&HUB_MATERIAL, "steel", "as the rollers: nothing is written");
    let hub =
        if table.has(&HUB_MATERIAL) { common::material(table, place, &HUB_MATERIAL, "").map(Some) } else { Some(None) };
    Some(Rollers {
        roller_diameter: roller_diameter?,
        roller_length: roller_length?,
        count: count?,
        load: load?,
        load_factor: table.number(&LOAD_FACTOR).map(|n| n.value),
        shock: number(&SHOCK, 1.0),
        swing: swing.filter(|_| motion != Some("turns")),
        clearance: match table.choice(&CLEARANCE).map(|c| c.value) {
            Some("small") => ClearanceWanted::Small,
            Some("large") => ClearanceWanted::Large,
            _ => ClearanceWanted::Normal,
        },
        needle_class: table.text(&NEEDLE_CLASS),
        hardness: hardness?,
        case_depth: table.length(&CASE_DEPTH),
        core: core?,
        end_float: table.length(&END_FLOAT),
        position: table.length(&POSITION).map(|p| p.value),
        sealed: table.flag(&SEALED).is_some_and(|s| s.value),
        hub: hub?,
    })
}

fn load(table: &Fields) -> Option<Given<Force>> {
    let (load, mass, lever) = (table.load(&LOAD), table.mass(&MASS), table.number(&LEVER));
    match (table.has(&LOAD), table.has(&MASS)) {
        (true, true) => {
            table.problem_at(
                &MASS,
                "either load or mass is wanted, not both".into(),
                Some("mass is for a weight on a lever".into()),
            );
            None
        }
        (false, false) => {
            table.missing("the load is missing", Some("load = \"6 kN\", or mass = \"160 kg\" with lever = 2.5"));
            None
        }
        (true, false) => load,
        (false, true) => {
            let lever = lever.map_or(1.0, |l| l.value);
            table.left_out(&LEVER, "1", "the weight hangs on it as it is: nothing is written");
            let mut load = mass?.map(|m| m.weight() * lever);
            load.text = format!("weight of {} x lever {lever}", load.text);
            Some(load)
        }
    }
}
