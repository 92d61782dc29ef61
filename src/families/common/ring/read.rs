//! What a file says of a ring between a shaft and a housing: its sizes, its partners, its groove and its press.

use crate::description::{Fields, Taken};
use crate::families::Workplace;
use crate::families::common::{self, Common, settled};
use crate::record::key::{Given, Key, Kind};
use crate::record::show::Say;
use crate::shop::Material;
use crate::units::{Length, Temperature};

use super::press;

pub const BORE: Key = Key::new("bore", "bore", Kind::POSITIVE, "inside diameter, such as \"20 mm\"");
pub const OUTSIDE_DIAMETER: Key = Key::new("outside_diameter", "outside diameter", Kind::POSITIVE, "such as \"25 mm\"");
pub const LENGTH: Key = Key::new("length", "length", Kind::POSITIVE, "overall, such as \"60 mm\"");
pub const BORE_CLASS: Key =
    Key::new("bore_class", "bore class", Kind::Text, "tolerance class of the bore, such as \"H7\"");
pub const OUTSIDE_CLASS: Key =
    Key::new("outside_class", "outside class", Kind::Text, "tolerance class of the outside, such as \"h5\"");
pub const SHAFT: Key =
    Key::new("shaft", "shaft", Kind::Table(MATING_KEYS), "the shaft in the bore: its class, or its measured diameter");
pub const HOUSING: Key = Key::new(
    "housing",
    "housing",
    Kind::Table(MATING_KEYS),
    "the housing around the outside: its class, or its measured diameter",
);
pub const CHAMFER: Key = Key::new(
    "chamfer",
    "outside chamfer",
    Kind::NOT_NEGATIVE,
    "45 degree chamfer of the outer edges, such as \"0.5 mm\"",
);
pub const BORE_CHAMFER: Key = Key::new(
    "bore_chamfer",
    "bore chamfer",
    Kind::NOT_NEGATIVE,
    "45 degree chamfer of the bore's edges, such as \"0.5 mm\"",
);
pub const GROOVE: Key = Key::new("groove", "groove", Kind::Table(GROOVE_KEYS), "a grease groove");
pub const GREASE_HOLE: Key = Key::new("grease_hole", "grease hole", Kind::Table(HOLE_KEYS), "a hole through the wall");
pub const PRESSED_IN: Key = Key::new(
    "pressed_in",
    "pressed in",
    Kind::Table(press::IN_KEYS),
    "the hub into which the sleeve is pressed; its class stands in [housing]",
);
pub const SLID_ON: Key = Key::new(
    "slid_on",
    "slid on",
    Kind::Table(press::ON_KEYS),
    "the shaft onto which the sleeve is shrunk; its class stands in [shaft]",
);
pub const STOCK: Key = Key::new(
    "stock",
    "made from",
    Kind::Choice(&["bar", "tube"]),
    "\"bar\", or \"tube\": honed tube bought with its bore finished; bar if left out",
);
pub const TEMPERATURE: Key = Key::new(
    "service_temperature",
    "service temperature",
    Kind::Temperature,
    "temperature at which the fit is asked as well, such as \"60 C\"",
);
pub const TEMPERATURE_RANGE: Key = Key::new(
    "temperature_range",
    "temperatures of service",
    Kind::TemperatureRange,
    "coldest and warmest at which the fits must work, such as [\"-20 C\", \"45 C\"]; by the environment if left out",
);
pub const MATING_DIAMETER: Key = Key::new(
    "diameter",
    "diameter",
    Kind::POSITIVE,
    "measured, such as \"19.985 mm\"; the sleeve's own size if left out",
);
pub const MATING_CLASS: Key =
    Key::new("class", "class", Kind::Text, "tolerance class, such as \"g6\" for a shaft or \"H7\" for a housing");
pub const MATING_MATERIAL: Key =
    Key::new("material", "material", Kind::Text, "of the mating part; steel S235 if left out");
pub const SIDE: Key =
    Key::new("side", "groove side", Kind::Choice(&["inside", "outside"]), "\"inside\" or \"outside\"");
pub const POSITION: Key = Key::new(
    "position",
    "position",
    Kind::POSITIVE,
    "of the middle, from the left end; the middle of the sleeve if left out",
);
pub const GROOVE_WIDTH: Key = Key::new("width", "groove width", Kind::POSITIVE, "along the axis, such as \"4 mm\"");
pub const GROOVE_DEPTH: Key = Key::new("depth", "groove depth", Kind::POSITIVE, "into the wall, such as \"0.8 mm\"");
pub const HOLE_DIAMETER: Key = Key::new("diameter", "grease hole diameter", Kind::POSITIVE, "such as \"3 mm\"");
pub const LOOSE: Key = Key::new(
    "loose",
    "loose on purpose",
    Kind::Flag,
    "true where more play is meant than any class of ISO 286 leaves at this size",
);
/// Keys of `[shaft]` and `[housing]`.
pub const MATING_KEYS: &[Key] = &[MATING_DIAMETER, MATING_CLASS, MATING_MATERIAL, LOOSE];
/// Keys of `[groove]`.
pub const GROOVE_KEYS: &[Key] = &[SIDE, POSITION, GROOVE_WIDTH, GROOVE_DEPTH];
/// Keys of `[grease_hole]`.
pub const HOLE_KEYS: &[Key] = &[POSITION, HOLE_DIAMETER];

/// A ring as read: a sleeve, a raceway, a bush.
pub struct Ring {
    /// What it is: `sleeve`.
    pub word: &'static str,
    pub common: Common,
    pub bore: Given<Length>,
    pub outside: Given<Length>,
    pub length: Given<Length>,
    pub bore_class: Option<Given<String>>,
    pub outside_class: Option<Given<String>>,
    pub shaft: Option<Mating>,
    pub housing: Option<Mating>,
    pub chamfer: Option<Given<Length>>,
    pub bore_chamfer: Option<Given<Length>>,
    pub groove: Option<Groove>,
    pub grease_hole: Option<GreaseHole>,
    /// Made from tube whose bore is finished as bought.
    pub from_tube: bool,
    pub service: Option<Given<Temperature>>,
    /// Coldest and warmest, as written.
    pub temperatures: Option<Given<(Temperature, Temperature)>>,
    pub pressed_in: Option<press::Pressing>,
    pub slid_on: Option<press::Pressing>,
    /// Rollers run on its outside.
    pub rolls: bool,
    /// It is a stack of several pieces.
    pub stacked: bool,
    /// One of them ends hard.
    pub hard: bool,
}

/// The part that runs in or around the ring.
pub struct Mating {
    pub diameter: Option<Given<Length>>,
    pub class: Option<Given<String>>,
    pub material: Material,
    /// So much play is meant.
    pub loose: bool,
}

/// A groove, its middle from the left end.
pub struct Groove {
    pub inside: bool,
    pub position: Length,
    pub width: Given<Length>,
    pub depth: Given<Length>,
}

/// A hole through the wall.
pub struct GreaseHole {
    pub position: Length,
    pub diameter: Given<Length>,
}

/// One piece along the ring.
#[derive(Clone, Copy, Debug)]
pub struct Along {
    /// Where it begins.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
    /// Its outside diameter.
    pub outside: Length,
}

impl Ring {
    /// The ring in one piece.
    pub fn whole(&self) -> Along {
        Along { from: Length::ZERO, to: self.length.value, outside: self.outside.value }
    }
}

/// Reads what every ring says; its family adds what it is for.
pub fn ring(fields: &Fields, place: &Workplace, word: &'static str, usual: &'static str) -> Option<Ring> {
    let common = common::read(fields, place, word, usual);
    let (bore, outside, length) =
        (fields.required_length(&BORE), fields.required_length(&OUTSIDE_DIAMETER), fields.required_length(&LENGTH));
    let (bore_class, outside_class) = (fields.text(&BORE_CLASS), fields.text(&OUTSIDE_CLASS));
    let shaft = fields.table(&SHAFT).map(|t| mating(&t, place, "the shaft"));
    let housing = fields.table(&HOUSING).map(|t| mating(&t, place, "the housing"));
    let (chamfer, bore_chamfer, service) =
        (fields.length(&CHAMFER), fields.length(&BORE_CHAMFER), fields.temperature(&TEMPERATURE));
    let temperatures = fields.temperature_range(&TEMPERATURE_RANGE);
    let middle = length.as_ref().map(|l| l.value / 2.0);
    let groove = fields.table(&GROOVE).map(|t| groove(&t, middle));
    let grease_hole = fields.table(&GREASE_HOLE).map(|t| grease_hole(&t, middle));
    let pressed_in = fields.table(&PRESSED_IN).map(|t| press::read(&t, place, press::Way::In));
    let slid_on = fields.table(&SLID_ON).map(|t| press::read(&t, place, press::Way::On));
    let from_tube = fields.choice(&STOCK).is_some_and(|c| c.value == "tube");
    let common = common?;
    Some(Ring {
        word,
        bore: bore?,
        outside: outside?,
        length: length?,
        bore_class,
        outside_class,
        chamfer,
        bore_chamfer,
        from_tube,
        service,
        temperatures,
        hard: common.material.hardened,
        common,
        shaft: settled(shaft)?,
        housing: settled(housing)?,
        groove: settled(groove)?,
        grease_hole: settled(grease_hole)?,
        pressed_in: settled(pressed_in)?,
        slid_on: settled(slid_on)?,
        rolls: false,
        stacked: false,
    })
}

/// Tables that need each other.
pub fn belongs_together(fields: &Fields, s: &Ring) -> bool {
    let mut sound = true;
    let mut refuse = |key: &'static Key, message: &str, help: &str| {
        fields.problem_at(key, message.into(), Some(help.into()));
        sound = false;
    };
    if s.pressed_in.is_some() && s.housing.is_none() {
        refuse(&PRESSED_IN, "pressed_in needs the size of the hole", "add [housing] with class = \"H7\"");
    }
    if s.slid_on.is_some() && s.shaft.is_none() {
        refuse(&SLID_ON, "slid_on needs the size of the shaft", "add [shaft] with class = \"p6\"");
    }
    sound
}

fn mating(table: &Fields, place: &Workplace, of: &str) -> Option<Mating> {
    let (diameter, class) = (table.length(&MATING_DIAMETER), table.text(&MATING_CLASS));
    let material = common::material(table, place, &MATING_MATERIAL, "steel S235");
    table.left_out_of(&MATING_MATERIAL, of, "steel S235", "nothing is written");
    let loose = table.flag(&LOOSE).is_some_and(|l| l.value);
    if !table.has(&MATING_DIAMETER) && !table.has(&MATING_CLASS) {
        table.missing(
            "neither a class nor a measured diameter is given",
            Some("class = \"g6\", or diameter = \"19.985 mm\""),
        );
        return None;
    }
    Some(Mating { diameter, class, material: material?, loose })
}

fn groove(table: &Fields, middle: Option<Length>) -> Option<Groove> {
    let (side, position) = (table.choice(&SIDE), table.length(&POSITION));
    table.left_out_of(&SIDE, "the groove", "inside", "nothing is written");
    if let Some(middle) = middle {
        table.left_out_of(&POSITION, "the groove", Taken::Length(middle), "in the middle");
    }
    let (width, depth) = (table.required_length(&GROOVE_WIDTH), table.required_length(&GROOVE_DEPTH));
    Some(Groove {
        inside: side.is_none_or(|s| s.value == "inside"),
        position: position.map(|p| p.value).or(middle)?,
        width: width?,
        depth: depth?,
    })
}

fn grease_hole(table: &Fields, middle: Option<Length>) -> Option<GreaseHole> {
    let (position, diameter) = (table.length(&POSITION), table.required_length(&HOLE_DIAMETER));
    if let Some(middle) = middle {
        table.left_out_of(&POSITION, "the grease hole", Taken::Length(middle), "in the middle");
    }
    Some(GreaseHole { position: position.map(|p| p.value).or(middle)?, diameter: diameter? })
}

/// Geometry that cannot be made is a problem at the key that causes it.
pub fn possible(fields: &Fields, s: &Ring, pieces: &[Along]) -> bool {
    let say = Say(s.common.header.unit);
    let mut sound = true;
    let mut refuse = |key: &'static Key, message: String, help: &str| {
        fields.problem_at(key, message, Some(help.into()));
        sound = false;
    };
    let narrowest = pieces.iter().map(|g| g.outside).fold(s.outside.value, Length::min);
    let wall = (narrowest - s.bore.value) / 2.0;
    if wall <= Length::ZERO {
        refuse(
            &BORE,
            format!("a bore of {} leaves no wall inside {}", say.length(s.bore.value), say.length(narrowest)),
            "the bore must be smaller than the outside diameter",
        );
        return false;
    }
    let (outer, inner) = (chamfer(&s.chamfer), chamfer(&s.bore_chamfer));
    let shortest = pieces.iter().map(|g| g.to - g.from).fold(s.length.value, Length::min);
    if outer + inner >= wall || outer.max(inner) * 2.0 >= shortest {
        refuse(
            if s.chamfer.is_some() { &CHAMFER } else { &BORE_CHAMFER },
            format!("the chamfers use up the wall of {} or the length of {}", say.length(wall), say.length(shortest)),
            "make the chamfers smaller",
        );
    }
    if let Some(g) = &s.groove {
        if g.depth.value >= wall {
            refuse(
                &GROOVE,
                format!("a groove {} deep goes through the wall of {}", say.length(g.depth.value), say.length(wall)),
                "make depth smaller",
            );
        }
        if !inside_one_piece(s, pieces, g.position, g.width.value) {
            refuse(
                &GROOVE,
                format!(
                    "a groove {} wide at {} does not lie within one piece of the {}, clear of its chamfers",
                    say.length(g.width.value),
                    say.length(g.position),
                    s.word
                ),
                "move position, or make width smaller",
            );
        }
    }
    hole_possible(s, pieces, &mut refuse);
    sound
}

/// A grease hole that runs into an edge, or is as wide as the bore.
fn hole_possible(s: &Ring, pieces: &[Along], refuse: &mut dyn FnMut(&'static Key, String, &str)) {
    let say = Say(s.common.header.unit);
    if let Some(h) = &s.grease_hole {
        let across =
            s.groove.as_ref().filter(|g| (g.position - h.position).abs() < (g.width.value + h.diameter.value) / 2.0);
        let clean =
            across.is_none_or(|g| (g.position - h.position).abs() + h.diameter.value / 2.0 < g.width.value / 2.0);
        if !inside_one_piece(s, pieces, h.position, h.diameter.value) {
            refuse(
                &GREASE_HOLE,
                format!(
                    "a hole of {} at {} does not lie within one piece of the {}, clear of its chamfers",
                    say.length(h.diameter.value),
                    say.length(h.position),
                    s.word
                ),
                "move position",
            );
        } else if !clean {
            refuse(
                &GREASE_HOLE,
                "the hole runs across the edge of the groove".into(),
                "put it in the middle of the groove and make it narrower than the groove, or clear of it",
            );
        }
        if h.diameter.value >= s.bore.value {
            refuse(
                &GREASE_HOLE,
                format!("a grease hole of {} is as wide as the bore", say.length(h.diameter.value)),
                "make it smaller",
            );
        }
    }
}

/// Size of a chamfer that may be absent.
pub fn chamfer(given: &Option<Given<Length>>) -> Length {
    given.as_ref().map_or(Length::ZERO, |g| g.value)
}

/// Whether something that wide, with its middle there, lies within one piece and clear of its chamfers.
fn inside_one_piece(s: &Ring, pieces: &[Along], position: Length, width: Length) -> bool {
    let edge = chamfer(&s.chamfer).max(chamfer(&s.bore_chamfer));
    let within = |p: &Along| position - width / 2.0 > p.from + edge && position + width / 2.0 < p.to - edge;
    pieces.iter().any(within)
}
