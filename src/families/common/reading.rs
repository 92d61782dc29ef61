//! What every part file says about itself, and how it is read.

use crate::description::{Document, Fields, Taken};
use crate::formulas::uncertainty::Instrument;
use crate::record::design::Header;
use crate::record::key::{Given, Key, Kind};
use crate::record::show::Say;
use crate::shop::instruments::{self, Gauge};
use crate::shop::printer::Printer;
use crate::shop::{Machines, Material};
use crate::source::Confirmed;
use crate::standards::coatings;
use crate::standards::galvanic::Environment;
use crate::standards::iso2768::GeneralClass;
use crate::units::{Length, LengthUnit};

use crate::families::{Family, Workplace};

pub const FAMILY: Key =
    Key::new("family", "family", Kind::Text, "the kind of part, such as \"cone\"; `setdown families` lists them");

pub const NAME: Key = Key::new("name", "name", Kind::Text, "name on the sheet, such as \"front left cone\"");

pub const COUNT: Key = Key::new("count", "count", Kind::Count { min: 1, max: 10_000 }, "how many to make, such as 4");

pub const MATERIAL: Key =
    Key::new("material", "material", Kind::Text, "such as \"steel S235\"; `setdown materials` lists them");

pub const UNITS: Key = Key::new(
    "units",
    "units",
    Kind::Choice(&["mm", "in"]),
    "unit of bare numbers and unit shown first: \"mm\" or \"in\"",
);

pub const NOTE: Key = Key::new("note", "note", Kind::Text, "a line for the sheet");

pub const GENERAL_TOLERANCE: Key = Key::new(
    "general_tolerance",
    "general tolerance",
    Kind::Choice(&["f", "m", "c", "v"]),
    "class of ISO 2768-1 for sizes without a class: \"f\", \"m\", \"c\" or \"v\"",
);

pub const ENVIRONMENT: Key = Key::new(
    "environment",
    "environment",
    Kind::Choice(&["dry", "indoors", "outdoors"]),
    "where it stands: \"dry\", \"indoors\" or \"outdoors\" (rain, salt, road spray)",
);

pub const COATING: Key = Key::new(
    "coating",
    "coating",
    Kind::Text,
    "such as \"hot-dip zinc over 6 mm\" or \"zinc plate 8\"; leave out for bare metal",
);

pub const COATING_THICKNESS: Key =
    Key::new("coating_thickness", "coating thickness", Kind::FINE, "film per surface as measured, such as \"85 um\"");

pub const SEAT_MASKED: Key = Key::new(
    "seat_masked",
    "seat masked",
    Kind::Flag,
    "true: what meets the other half of the seat is masked when the part is coated and stays bare; no film lifts the seat",
);

/// Whether the seat stays bare; it says nothing of a part that is not coated.
pub fn seat_masked(fields: &Fields) -> bool {
    if !fields.has(&COATING) {
        not_here(fields, &[&SEAT_MASKED], "it goes with a coating: add coating = \"zinc plate 8\"");
    }
    fields.flag(&SEAT_MASKED).is_some_and(|masked| masked.value)
}

pub const KEPT_APART: Key = Key::new(
    "kept_apart",
    "two metals kept apart by",
    Kind::Choice(&["grease", "paint", "insulation"]),
    "what keeps this part and the metal that it touches dry or apart, on whichever of the two: \"grease\", \"paint\" or \"insulation\"",
);

/// What every part file says about itself.
pub struct Common {
    /// Names for the outputs.
    pub header: Header,
    /// Material of the part.
    pub material: Material,
    /// General tolerance class.
    pub general: GeneralClass,
    /// Where it stands.
    pub environment: Environment,
    /// The word for that, where it was written.
    pub environment_written: Option<Given<&'static str>>,
    /// Film on the part.
    pub coating: Option<Coating>,
    /// What keeps it from the other metal.
    pub kept_apart: Option<Given<&'static str>>,
    /// Speeds of the shop's lathe and drill press.
    pub machines: Machines,
    /// The shop's printer.
    pub printer: Printer,
    /// What the shop measures with.
    instruments: Vec<Gauge>,
}

impl Common {
    /// The shop's instrument of that kind: how far its readings can be trusted.
    pub fn gauge(&self, kind: Instrument) -> Gauge {
        instruments::of_kind(&self.instruments, kind)
    }

    /// The film on a surface; none on a bare part, and on what is masked.
    pub fn film(&self, masked: bool) -> Length {
        self.coating.as_ref().filter(|_| !masked).map_or(Length::ZERO, |c| c.growth)
    }

    /// Every instrument of the shop, coarse ones first.
    pub fn gauges(&self) -> Vec<&Gauge> {
        let mut all: Vec<&Gauge> = self.instruments.iter().collect();
        all.sort_by(|a, b| b.u.number().total_cmp(&a.u.number()));
        all
    }
}

/// A film on the part.
#[derive(Clone, Debug)]
pub struct Coating {
    /// Name as ordered.
    pub name: String,
    /// As written.
    pub written: Given<String>,
    /// Film as measured, where it was.
    pub thickness: Option<Given<Length>>,
    /// What one surface grows by at most, as far as is known.
    pub growth: Length,
    /// What it grows by at least.
    pub least: Length,
    /// The standard states a least film only: more may be there.
    pub least_only: bool,
    /// A zinc coating: its fume is poison when welded.
    pub zinc: bool,
    /// Dipped into molten zinc.
    pub hot_dip: bool,
    /// Where the thickness is from.
    pub by: String,
    /// How well it is confirmed.
    pub confirmed: Confirmed,
}

/// What is absent is in order; what is there and could not be read is not: its problem was noted.
pub fn settled<T>(read: Option<Option<T>>) -> Option<Option<T>> {
    match read {
        None => Some(None),
        Some(inner) => inner.map(Some),
    }
}

/// How a message about a part file speaks of lengths: in the unit that the file states.
pub fn say(fields: &Fields) -> Say {
    Say(fields.default_unit().unwrap_or(LengthUnit::Mm))
}

/// Reads the common keys. Notes every problem; `None` if one of them stands in the way.
pub fn read(fields: &Fields, place: &Workplace, family: &'static str, usual_material: &'static str) -> Option<Common> {
    let name = name(fields);
    let (count, note) = (fields.count(&COUNT), fields.text(&NOTE));
    fields.choice(&UNITS);
    let material = material(fields, place, &MATERIAL, usual_material);
    fields.left_out(&MATERIAL, usual_material, "nothing is written");
    let general = fields.choice(&GENERAL_TOLERANCE).and_then(|g| GeneralClass::parse(g.value).ok());
    let environment_written = fields.choice(&ENVIRONMENT);
    let environment = match environment_written.as_ref().map(|e| e.value) {
        Some("dry") => Environment::Controlled,
        Some("indoors") => Environment::Normal,
        _ => Environment::Harsh,
    };
    let coating = coating(fields, material.as_ref());
    let stem = stem(place.file);
    let material = material?;
    let header = Header {
        file: place.file.into(),
        family,
        name: name?.unwrap_or_else(|| stem.replace(['-', '_'], " ")),
        stem,
        count: count.map_or(1, |c| c.value),
        material: Some(material.name.clone()),
        note: note.map(|n| n.value),
        unit: fields.default_unit().unwrap_or(place.shop.unit),
    };
    Some(Common {
        header,
        material,
        general: general.unwrap_or(place.shop.general_tolerance),
        environment,
        environment_written,
        kept_apart: fields.choice(&KEPT_APART),
        coating: coating?,
        machines: place.shop.machines.clone(),
        printer: place.shop.printer.clone(),
        instruments: place.shop.instruments.clone(),
    })
}

fn stem(file: &str) -> String {
    let name = file.rsplit('/').next().unwrap_or(file);
    name.strip_suffix(".toml").unwrap_or(name).to_string()
}

/// The name on the sheet: words, no path. `None` when a problem was noted.
fn name(fields: &Fields) -> Option<Option<String>> {
    let Some(name) = fields.text(&NAME) else { return (!fields.has(&NAME)).then_some(None) };
    let text = name.value.trim();
    let leaves =
        text.starts_with(['/', '~']) || text.split(['/', '\\']).any(|step| step == "..") || text.contains('\\');
    let trouble = if leaves {
        Some("this name reads like a path and would leave the output folder")
    } else if text.is_empty() || text.chars().count() > 80 {
        Some("a name is 1 to 80 characters")
    } else {
        None
    };
    match trouble {
        Some(message) => {
            fields.problem_at(
                &NAME,
                message.into(),
                Some(
                    "a name is words for the sheet, such as \"front left cone\"; files are named after the part file"
                        .into(),
                ),
            );
            None
        }
        None => Some(Some(text.to_string())),
    }
}

/// The material of that key, or the usual one; unknown names are a problem with the nearest names.
pub fn material(fields: &Fields, place: &Workplace, key: &'static Key, usual: &str) -> Option<Material> {
    if !fields.has(key) {
        return place.shop.material(usual).ok();
    }
    let name = fields.text(key)?;
    place.shop.material(&name.value).map_err(|message| fields.problem_at(key, message, Some(key.help.into()))).ok()
}

/// The film: thickness as measured, or the greatest of the coating's usual range. Outer `None` when a problem was noted.
fn coating(fields: &Fields, material: Option<&Material>) -> Option<Option<Coating>> {
    let (name, thickness) = (fields.text(&COATING), fields.length(&COATING_THICKNESS));
    let Some(name) = name else {
        if fields.has(&COATING_THICKNESS) {
            fields.problem_at(
                &COATING_THICKNESS,
                "a thickness without a coating".into(),
                Some("add coating = \"zinc plate 8\"".into()),
            );
            return None;
        }
        return Some(None);
    };
    let Some(known) = coatings::coating(&name.value) else {
        let near = coatings::suggest(&name.value);
        let all: Vec<&str> = coatings::coatings().iter().map(|c| c.name).collect();
        let help = if near.is_empty() {
            format!("one of {}", all.join(", "))
        } else {
            format!("did you mean {}?", near.join(" or "))
        };
        fields.problem_at(&COATING, format!("the coating `{}` is not known", name.value), Some(help));
        return None;
    };
    if let Some((why, help)) = material.and_then(|m| does_not_take(m, known.name)) {
        fields.problem_at(&COATING, why, Some(help.into()));
        return None;
    }
    let (least, growth) = match &thickness {
        Some(t) => (t.value * known.growth_ratio, t.value * known.growth_ratio),
        None => known.growth_per_surface(),
    };
    if known.growth_ratio > 0.0 {
        let usual = Taken::Length(growth / known.growth_ratio);
        fields.left_out(&COATING_THICKNESS, usual, "the greatest of its usual range: none is measured");
    }
    Some(Some(Coating {
        name: known.name.into(),
        growth,
        least,
        least_only: known.is_minimum && thickness.is_none(),
        zinc: known.name.contains("zinc"),
        hot_dip: known.name.contains("hot-dip"),
        by: if thickness.is_some() { "thickness as measured".into() } else { known.source.to_string() },
        confirmed: if thickness.is_some() { Confirmed::One } else { known.confirmed },
        written: name,
        thickness,
    }))
}

/// Why a material cannot be coated so, and what would do.
fn does_not_take(material: &Material, coating: &str) -> Option<(String, &'static str)> {
    let paint = coating == "paint";
    let aluminium = material.name.contains("alumin");
    // A metal of the shop's own that is like no other may be anything.
    let known = material.anodic.is_some() || material.magnetic;
    let help = match coating {
        _ if material.plastic && !paint => "plastic is painted, or left as it is",
        "anodise" | "hard anodise" if known && !aluminium => {
            "zinc plate 8 for steel; stainless and bronze are left bare"
        }
        "paint" | "powder coat" | "anodise" | "hard anodise" => return None,
        _ if aluminium => "anodise, powder coat or paint",
        _ if known && !material.magnetic => "leave it bare, or powder coat or paint",
        _ => return None,
    };
    Some((format!("{} takes no {coating}", material.name), help))
}

/// Refuses keys that a family knows and cannot use; `help` says where they belong.
pub fn not_here(fields: &Fields, keys: &[&Key], help: &str) {
    for key in keys.iter().filter(|key| fields.has(key)) {
        fields.problem_at(key, format!("`{}` does nothing here", key.name), Some(help.into()));
    }
}

/// Reads another part file of a stated family; its faults are told as one problem at the key that names it.
pub fn neighbour<T>(
    fields: &Fields,
    place: &Workplace,
    file: &Given<String>,
    family: &Family,
    read: fn(&Fields, &Workplace) -> Option<T>,
) -> Option<T> {
    let refuse = |message: String, help: &str| {
        fields.problem_in(file.span.clone(), message, Some(help.into()));
        None
    };
    let beside = "the name is relative to the folder of this part file";
    let (name, text) = match (place.neighbour)(&file.value) {
        Ok(found) => found,
        Err(message) => return refuse(message, beside),
    };
    let document = match Document::parse(&name, &text) {
        Ok(document) => document,
        Err(_) => {
            return refuse(
                format!("{name} has faults of its own"),
                "see what is said about that file, or run `setdown check` on it",
            );
        }
    };
    let found = document.root_unchecked().text(&FAMILY).map(|f| f.value);
    if found.as_deref() != Some(family.name) {
        let is = found.map_or_else(|| "states no family".to_string(), |f| format!("is a {f}"));
        return refuse(format!("{name} {is}; a {} is wanted here", family.name), beside);
    }
    let there = Workplace {
        shop: place.shop,
        file: &name,
        neighbour: place.neighbour,
        depth: place.depth,
        as_drawn: place.as_drawn,
        progress: place.progress,
        kept: place.kept,
    };
    let spec = read(&document.root(family.keys), &there);
    let faults = document.into_problems().len();
    match spec {
        Some(spec) if faults == 0 => Some(spec),
        _ => refuse(
            if faults == 1 {
                format!("{name} has a fault of its own")
            } else {
                format!("{name} has {faults} faults of its own")
            },
            "see what is said about that file, or run `setdown check` on it",
        ),
    }
}
