//! Keys and checks that every family has: name, count, material, coating, environment, general tolerances.

pub mod bolted;
pub mod coated;
pub mod gripped;
pub mod hardening;
pub mod location;
pub mod welded;

use crate::description::{Document, Fields};
use crate::formulas::bolts::{BoltClass, CLASS_8_8, GRADE_5};
use crate::record::design::{Check, Design, Header, LEAST_LIMIT, Limit, Limits, Value, Verdict};
use crate::record::key::{Given, Key, Kind};
use crate::record::show;
use crate::shop::{self, Machines, Material, Setting};
use crate::slip;
use crate::source::{Confirmed, Source};
use crate::standards::coatings;
use crate::standards::galvanic::{ANODIC_SOURCE, Environment};
use crate::standards::iso273::{self, Series};
use crate::standards::iso286::{self, Feature, ToleranceClass};
use crate::standards::iso2768::{self, GeneralClass};
use crate::standards::materials::swelling::SWELLING_SOURCE;
use crate::standards::threads::{Thread, ThreadKind};
use crate::units::{Force, Length, LengthUnit, SpindleSpeed, Volume};

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

/// A length in a message about a part file.
pub fn mm(length: Length) -> String {
    crate::record::show::length(length, crate::units::LengthUnit::Mm)
}

/// Reads the common keys. Notes every problem; `None` if one of them stands in the way.
pub fn read(fields: &Fields, place: &Workplace, family: &'static str, usual_material: &'static str) -> Option<Common> {
    let name = name(fields);
    let (count, note) = (fields.count(&COUNT), fields.text(&NOTE));
    fields.choice(&UNITS);
    let material = material(fields, place, &MATERIAL, usual_material);
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
    let there = Workplace { shop: place.shop, file: &name, neighbour: place.neighbour, progress: place.progress };
    let spec = read(&document.root(family.keys), &there);
    let faults = document.into_problems().len();
    match spec {
        Some(spec) if faults == 0 => Some(spec),
        _ => refuse(
            format!("{name} has {faults} faults of its own"),
            "see what is said about that file, or run `setdown check` on it",
        ),
    }
}

/// Property class of a bolt.
pub const BOLT_CLASS: Key = Key::new(
    "class",
    "property class of the bolt",
    Kind::Choice(&["4.6", "5.8", "8.8", "10.9", "12.9", "A2-70", "A4-80", "grade 2", "grade 5", "grade 8"]),
    "of the bolt: 4.6 to 12.9 (ISO 898-1, metric), \"grade 2\" to \"grade 8\" (SAE J429, inch), \"A2-70\", \"A4-80\" (ISO 3506-1); 8.8 or grade 5 if left out",
);

/// The bolt's steel, and the key as written.
pub struct BoltSteel {
    /// Its strength.
    pub class: BoltClass,
    written: Option<Given<&'static str>>,
}

/// Reads the property class; 8.8, or grade 5 for an inch thread, where nothing is said.
pub fn bolt_class(table: &Fields, thread: Option<Thread>) -> BoltSteel {
    let written = table.choice(&BOLT_CLASS);
    let inch = thread.is_some_and(|t| t.kind == ThreadKind::Unified);
    let usual = if inch { GRADE_5 } else { CLASS_8_8 };
    let name = written.as_ref().map_or(usual.name, |w| w.value);
    let major = thread.map_or(Length::ZERO, |t| t.major);
    let class = BoltClass::of(name, major).unwrap_or(usual);
    if let Some(thread) = thread.filter(|_| !class.stainless() && class.is_grade() != inch) {
        let (of, instead) = if inch { ("metric", "grade 5") } else { ("inch", "8.8") };
        let message = format!("class {name} is one of {of} bolts, and the thread is {thread}");
        table.problem_at(
            &BOLT_CLASS,
            message,
            Some(format!("class = \"{instead}\", or a stainless one such as \"A2-70\"")),
        );
    }
    BoltSteel { class, written }
}

/// Records the property class, written or assumed.
pub fn bolt_steel(design: &mut Design, steel: &BoltSteel) {
    let key = "bolt_class";
    match &steel.written {
        Some(w) => design.computed(key, BOLT_CLASS.label, Value::Text(w.value.into()), "as written"),
        None => {
            design.assumed(key, BOLT_CLASS.label, Value::Text(steel.class.name.into()), "not written: the usual class")
        }
    }
}

/// Series of clearance holes, medium where nothing is said.
pub fn series(table: &Fields, key: &Key) -> Series {
    match table.choice(key).map(|c| c.value) {
        Some("fine") => Series::Fine,
        Some("coarse") => Series::Coarse,
        _ => Series::Medium,
    }
}

/// A thread as written; `None` when a problem was noted.
pub fn thread(table: &Fields, key: &Key, written: &Given<String>) -> Option<Thread> {
    let help = || Some("such as \"M12\", \"M12x1.25\" or \"1/2\"".into());
    Thread::parse(&written.value).map_err(|error| table.problem_at(key, error.to_string(), help())).ok()
}

/// The clearance hole for a thread; `None` when a problem was noted.
pub fn clearance_hole(table: &Fields, key: &Key, thread: Thread, series: Series) -> Option<Length> {
    let found = iso273::clearance_hole(thread, series).map(|c| c.value);
    found
        .map_err(|error| {
            table.problem_at(key, error.to_string(), Some("another thread, or the hole's diameter itself".into()))
        })
        .ok()
}

/// On which side of a fit a class is meant.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Side {
    /// Internal: capital letters.
    Hole,
    /// External: small letters.
    Shaft,
}

/// Sets the limits of a recorded length by a tolerance class; `None` when a problem was noted.
pub fn class_limits(
    design: &mut Design,
    fields: &Fields,
    key: &str,
    nominal: Length,
    class: &Given<String>,
    side: Side,
) -> Option<()> {
    let wanted = if side == Side::Hole { Feature::Hole } else { Feature::Shaft };
    let found = ToleranceClass::parse(&class.value).map_err(|e| (e.to_string(), None)).and_then(|parsed| {
        if parsed.feature != wanted {
            let (is, other) = if side == Side::Hole {
                ("a hole", class.value.to_uppercase())
            } else {
                ("a shaft", class.value.to_lowercase())
            };
            return Err((
                format!("`{}` is the wrong side: this is {is}", class.value),
                Some(format!("such as \"{other}\": capital letters for holes, small ones for shafts")),
            ));
        }
        iso286::limits(nominal, parsed).map_err(|e| (e.to_string(), None))
    });
    match found {
        Ok(l) if nominal + l.lower < LEAST_LIMIT => {
            let least = mm((nominal + l.lower).rounded());
            let message =
                format!("`{}` leaves nothing of {}: its least size would be {least}", class.value, mm(nominal));
            let help = "a finer class, or another size: is that the unit which was meant?";
            fields.problem_in(class.span.clone(), message, Some(help.into()));
            None
        }
        Ok(l) => {
            let by = if l.confirmed == Confirmed::Memory {
                format!("{} (unconfirmed)", class.value)
            } else {
                class.value.clone()
            };
            design
                .limit(key, Limits { lower: nominal + l.lower, upper: nominal + l.upper, by, confirmed: l.confirmed });
            Some(())
        }
        Err((message, help)) => {
            fields.problem_in(class.span.clone(), message, help);
            None
        }
    }
}

/// Sets the limits of recorded lengths by ISO 2768-1, where they have none yet and the standard has a value.
pub fn general_limits(design: &mut Design, common: &Common, keys: &[&str]) {
    for key in keys {
        let Some(dimension) = design.dimension(key).filter(|d| d.limits.is_none()) else { continue };
        let Value::Length(size) = dimension.value else { continue };
        let radius = key.contains("radius") || key.contains("chamfer");
        let found = if radius {
            iso2768::general_radius_tolerance(common.general, size)
        } else {
            iso2768::general_tolerance(common.general, size)
        };
        if let Ok(t) = found {
            let by = format!("ISO 2768-{}", common.general);
            design.limit(key, Limits { lower: size - t.value, upper: size + t.value, by, confirmed: t.confirmed });
        }
    }
}

/// Sets the limits of a recorded length that has no class by ISO 2768-1. What must pass over a shaft or into a hole has
/// the whole width of that tolerance on the side that lets it pass: 0/+ for a hole, -/0 for an outside.
/// Source: common practice, no source.
pub fn passes(design: &mut Design, common: &Common, key: &str, side: Side, has_partner: bool) {
    general_limits(design, common, &[key]);
    let Some(dimension) = design.dimension(key).filter(|_| has_partner) else { return };
    let (Value::Length(size), Some(l)) = (&dimension.value, dimension.limits.clone()) else { return };
    let (size, width) = (*size, l.upper - l.lower);
    let (lower, upper) = match side {
        Side::Hole => (size, size + width),
        Side::Shaft => (size - width, size),
    };
    let by = match side {
        Side::Hole => "goes over a shaft",
        Side::Shaft => "goes into a hole",
    };
    design.limit(key, Limits { lower, upper, by: by.into(), ..l });
}

/// A rough size in whole numbers of its unit: millimetres, or sixteenths of an inch.
pub fn in_whole(size: Length, unit: LengthUnit) -> Length {
    let whole = shop::by_unit(unit, 1.0, 1.0 / 16.0);
    whole * (size / whole).floor()
}

/// A recorded length in both units; nothing where it is none.
pub fn both(design: &Design, key: &str) -> String {
    match design.dimension(key).map(|d| &d.value) {
        Some(Value::Length(l)) => show::length_both(*l, design.header.unit),
        _ => String::new(),
    }
}

/// The limits of a recorded size in words, in both units: `25.000 to 25.021 mm (0.9843 to 0.9850 in)`; the size where
/// it has none.
pub fn between(design: &Design, key: &str) -> String {
    let unit = design.header.unit;
    let Some(dimension) = design.dimension(key) else { return String::new() };
    let Some(l) = &dimension.limits else { return show::value(&dimension.value, unit) };
    let pair = |unit| {
        let [least, most] = show::limit_pair(l.lower, l.upper, unit);
        format!("{least} to {most} {}", show::unit_name(unit))
    };
    format!("{} ({})", pair(unit), pair(show::other_unit(unit)))
}

/// Sets equal limits about a recorded length.
pub fn plus_minus(design: &mut Design, key: &str, by: Length) {
    if let Some(Value::Length(size)) = design.dimension(key).map(|d| d.value.clone()) {
        let by = by.rounded();
        design.limit(
            key,
            Limits { lower: size - by, upper: size + by, by: "common practice".into(), confirmed: Confirmed::Memory },
        );
    }
}

/// Records volume and mass.
pub fn mass(design: &mut Design, material: &Material, volume: Volume, count: u32) {
    design.computed("volume", "volume", Value::Volume(volume), "closed form of the solid");
    let mass = material.density * volume;
    design.computed("mass", "mass of one", Value::Mass(mass), "density x volume");
    if count > 1 {
        design.computed("mass_all", "mass of all", Value::Mass(mass * f64::from(count)), "count x mass");
    }
}

/// Greatest force across over the load where none is stated: braking.
/// Source: 49 CFR 393.102: 0.8 g forward.
const SIDE_FACTOR: f64 = 0.8;

/// The share of a load that acts across: as written, or braking.
pub fn side_share(given: Option<&Given<f64>>) -> f64 {
    given.map_or(SIDE_FACTOR, |g| g.value)
}

/// Records the share of a load that acts across, and gives the force.
pub fn side_force(design: &mut Design, key: &'static Key, given: Option<&Given<f64>>, load: Force) -> Force {
    load * design.given_or(key, given, SIDE_FACTOR, Value::Number, "0.8 g forward, 49 CFR 393.102")
}

const PRINTED: Check =
    Check { key: "printed_plastic", what: "printed plastic", worst: Verdict::Ok, source: Source::CommonPractice };
const LOADED: Check = Check {
    key: "printed_under_load",
    what: "printed plastic under the stated load",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};
const FIGURES: Check = Check {
    key: "material_figures",
    what: "figures of the material",
    worst: Verdict::Ok,
    source: Source::Memory("at least one figure of this material was not seen in print"),
};
const METALS: Check = Check {
    key: "dissimilar_metals",
    what: "difference of anodic index of the two metals, volts",
    worst: Verdict::Caution,
    source: Source::Published(ANODIC_SOURCE),
};
const APART: Check = Check {
    key: "metals_kept_apart",
    what: "two metals kept apart",
    worst: Verdict::Ok,
    source: Source::Published(ANODIC_SOURCE),
};
const TIE_DOWN: Check = Check {
    key: "not_a_tie_down",
    what: "a locator is not a tie-down",
    worst: Verdict::Ok,
    source: Source::Published(
        "49 CFR 393.102: 0.8 g forward, 0.5 g rearward and sideways, by securement that is not the locator",
    ),
};

const FIT_UP: &str = "for fit-up only: printed plastic creeps under load and softens in the sun";

/// Refuses printed plastic where the file states a load that it would carry.
pub fn printed_under_load(design: &mut Design, materials: &[&Material]) {
    if materials.iter().any(|m| m.printed) {
        design.finding(
            &LOADED,
            Verdict::Fail,
            None,
            None,
            format!("{FIT_UP}; the file states a load: make it of metal"),
        );
    }
}

const SLIP: Check = Check {
    key: "slip",
    what: "size that does not go with its neighbour",
    worst: Verdict::Fail,
    source: Source::Derived("it would after a slip of the unit (25.4) or of the decimal point (10)"),
};

/// Tells a size which would go with its neighbour after a slip of the pen, and as it is written does not.
pub fn slip(design: &mut Design, verdict: Verdict, what: &str, written: Length, goes: (Length, Length), beside: &str) {
    let Some(slip) = slip::likely(written, goes.0, goes.1) else { return };
    let unit = design.header.unit;
    let because = format!("{what} does not go with {beside}: {}", slip.question(written, unit));
    design.finding(&SLIP, verdict, Some(Value::Length(written.rounded())), None, because);
}

/// What every part is told: plastic, unconfirmed figures.
pub fn checks(design: &mut Design, common: &Common) {
    if common.material.printed {
        design.note(&PRINTED, FIT_UP);
        design.caution("Printed parts carry no weight and no heat: use them to try the fit, then cut metal.");
    }
    if common.material.unconfirmed {
        design.note(
            &FIGURES,
            "mass, expansion and stiffness rest on remembered figures: ask the supplier where they decide something",
        );
    }
}

const SWELLS: Check = Check {
    key: "swells",
    what: "growth of the part when it takes up water",
    worst: Verdict::Caution,
    source: SWELLING_SOURCE,
};
/// Growth that is felt in how a part fits or how high it stands. Source: common practice, no source.
const FELT: Length = Length::mm(0.1);

/// How far a plastic part grows at its largest size where it takes up water.
pub fn swells(design: &mut Design, common: &Common, size: Length) {
    let Some(share) = common.material.swells(common.environment) else { return };
    let grows = (size * share).rounded();
    let verdict = if grows > FELT { Verdict::Caution } else { Verdict::Ok };
    let because = format!(
        "{} grows over {} by so much where it stands {}, and every other size in the same measure: a material that takes up no water, or a dry place",
        common.material.name,
        show::length(size.rounded(), common.header.unit),
        common.environment.name()
    );
    design.finding(&SWELLS, verdict, Some(Value::Length(grows)), Limit::AtMost(Value::Length(FELT)), because);
}

const STRENGTH: Check = Check {
    key: "strength_figures",
    what: "yield strength that a check above was held against",
    worst: Verdict::Ok,
    source: Source::Memory("strength of this material"),
};
const HARDNESS: Check = Check {
    key: "hardness_figures",
    what: "hardness that a check above was held against",
    worst: Verdict::Ok,
    source: Source::Memory("hardness of this material"),
};

/// Says that a check was held against a yield strength which is not to be relied on; once for each material.
pub fn doubtful_strength(design: &mut Design, material: &Material) {
    let Some(doubt) = material.strength_in_doubt else { return };
    let because = format!("that of {} is {doubt}: ask the supplier before relying on the margin", material.name);
    design.note(&STRENGTH, because);
}

/// Says that a check was held against a hardness which is not to be relied on.
pub fn doubtful_hardness(design: &mut Design, material: &Material) {
    let Some(doubt) = material.hardness_in_doubt else { return };
    let because = format!("that of {} is {doubt}: have the piece measured before relying on the margin", material.name);
    design.note(&HARDNESS, because);
}

/// Records what keeps the part from another metal, and orders it; after all other work.
pub fn kept_apart(design: &mut Design, common: &Common) {
    let Some(by) = &common.kept_apart else { return };
    design.computed(KEPT_APART.name, KEPT_APART.label, Value::Text(by.value.into()), "as written");
    let text = match by.value {
        "paint" => {
            "Paint both parts where they meet, the nobler metal above all: a scratch over the baser one alone is eaten deep. Let it dry before they go together; where they are pressed, paint over the ends of the joint instead."
        }
        "insulation" => {
            "Put a sheet, sleeve or washer of plastic between the two metals, under the heads of the bolts and round their shanks as well: no bare metal may touch."
        }
        _ => {
            "Grease both faces where the metals meet, and fill the edge of the joint; wipe off and grease again every season."
        }
    };
    design.step("bench", text);
}

/// Checks two metals that touch: bare, or as the file says that they are kept apart. Parts that are `pressed` together touch
/// whatever lies between, so that only what seals the ends of their joint counts.
pub fn dissimilar(design: &mut Design, common: &Common, other: &Material, pressed: bool) {
    let Some((difference, limit, second)) = shop::galvanic_pair(&common.material, other, common.environment) else {
        return;
    };
    let eaten = if difference == 0.0 {
        "neither is eaten by the other".to_string()
    } else {
        format!(
            "where it stays wet, {} is eaten: paint or grease the joint, or part the metals, and say so by kept_apart",
            if second { &other.name } else { &common.material.name }
        )
    };
    let pair = format!("{} against {}", common.material.name, other.name);
    let kept = common.kept_apart.as_ref().map(|by| by.value).filter(|by| !(pressed && *by == "insulation"));
    if let Some(by) = kept.filter(|_| difference > limit) {
        let because = format!(
            "{pair}, {} V, bare at most {} V: kept apart by {by}, as written; look at it every season",
            show::trimmed(difference, 2),
            show::trimmed(limit, 2)
        );
        design.finding(&APART, Verdict::Ok, None, None, because);
        return;
    }
    let because = format!("{pair}: {eaten}");
    let verdict = if difference > limit { Verdict::Caution } else { Verdict::Ok };
    if !design.findings.iter().any(|f| f.key == METALS.key && f.because == because) {
        design.finding(&METALS, verdict, Some(Value::Number(difference)), Limit::AtMost(Value::Number(limit)), because);
    }
}

/// Says that a locator holds nothing down.
pub fn locator(design: &mut Design) {
    design.note(&TIE_DOWN, "cones and cups say where the frame goes; straps or bolts hold it there");
    design.caution("These parts locate. They do not hold the load down: secure it to the rules of the place. Anything carried on a road or over people wants a look by a qualified person; local codes and licensed practice rule.");
}

/// Lines for work with a hung load.
pub fn hoisting(design: &mut Design) {
    design.caution("Nobody under a hung load, no hands between frame and cone: steer it with a line. Lower slowly; a touch at 50 mm/s doubles the load on the seats.");
    design.caution("Look slings and hooks over each day, know the weight, stay inside the rating on the tag.");
}

/// Metal for cleaning up one face, in the unit that the part is made in.
/// Source: common practice, no source.
pub const fn face_allowance(unit: LengthUnit) -> Length {
    shop::by_unit(unit, 1.0, 0.04)
}

/// What a turned piece needs beyond its length: 1 mm (0.04 in) for each face, a parting tool of 3 mm (0.12 in), 5 mm
/// (0.2 in) clear of the jaws.
/// Source: common practice, no source.
pub const fn turned_ends(unit: LengthUnit) -> Length {
    shop::by_unit(unit, 10.0, 0.4)
}

/// The deepest cut that a grip for light work bears. Source: common practice, no source.
pub const fn skim(unit: LengthUnit) -> Length {
    shop::by_unit(unit, 0.3, 0.012)
}

const TOO_FAST: Check = Check {
    key: "slowest_speed",
    what: "slowest speed of the machine",
    worst: Verdict::Caution,
    source: Source::Published("printed cutting speeds of the material, slow end"),
};

/// The speed of a setting; says so where even the machine's slowest is faster than the cut asks for.
pub fn spindle(design: &mut Design, what: &str, setting: Setting) -> SpindleSpeed {
    let [speed, wanted] = [setting.speed, setting.wanted].map(Value::SpindleSpeed);
    if setting.too_fast() {
        let because =
            format!("{what}: the machine goes no slower; take lighter cuts with plenty of oil, or a machine that does");
        design.findings.retain(|f| f.key != TOO_FAST.key || f.verdict != Verdict::Ok);
        if !design.findings.iter().any(|f| f.key == TOO_FAST.key && f.because == because) {
            design.finding(&TOO_FAST, Verdict::Caution, Some(speed), Limit::AtMost(wanted), because);
        }
    } else if !design.findings.iter().any(|f| f.key == TOO_FAST.key) {
        let because = "the machine goes as slowly as every cut of this part asks for";
        design.finding(&TOO_FAST, Verdict::Ok, Some(speed), Limit::AtMost(wanted), because);
    }
    setting.speed
}

/// Speed of the drill press for a twist drill of high-speed steel in that material.
pub fn drill_speed(design: &mut Design, machines: &Machines, material: &Material, diameter: Length) -> SpindleSpeed {
    let setting = machines.drill(material.cutting(false).drill, diameter);
    spindle(design, "drilling", setting)
}

/// Speed of the lathe for a twist drill held in its tailstock.
pub fn drill_speed_in_lathe(
    design: &mut Design,
    machines: &Machines,
    material: &Material,
    diameter: Length,
) -> SpindleSpeed {
    let setting = machines.turn(material.cutting(false).drill, diameter);
    spindle(design, "drilling in the lathe", setting)
}

/// Speed of the lathe for a broad cut with a tool of high-speed steel that goes straight in, to part off, to counterbore or to
/// ream: half of the roughing speed; the slowest that the machine has, where that is faster.
/// Source: common practice, no source.
pub fn straight_in_speed(machines: &Machines, material: &Material, diameter: Length) -> SpindleSpeed {
    machines.turn(material.cutting(false).rough * 0.5, diameter).speed
}

const THREAD_SOLD: Check = Check {
    key: "thread_sold",
    what: "pitch of the thread",
    worst: Verdict::Caution,
    source: Source::Memory("series of ISO 261 and ASME B1.1"),
};

/// Says that nobody sells a tap or a bolt of that pitch.
pub fn standard_thread(design: &mut Design, thread: &Thread) {
    if thread.is_standard() {
        return;
    }
    let known: Vec<String> = thread.standard_pitches().iter().map(ToString::to_string).collect();
    let instead = if known.is_empty() {
        "take a standard diameter".into()
    } else {
        format!("at this diameter there are {}", known.join(", "))
    };
    let because = format!("{thread} stands in no series of the standard: tap and bolt are made to order; {instead}");
    design.finding(&THREAD_SOLD, Verdict::Caution, Some(Value::Text(thread.to_string())), None, because);
}

/// How a thin piece is held for grinding its face: by a magnet where one holds the material.
pub fn held_for_grinding(material: &Material) -> &'static str {
    if material.magnetic {
        "by a magnet, or by tape on a flat plate with a stop in front of it"
    } else {
        "by tape on a flat plate with a stop in front of it (a magnet does not hold this material)"
    }
}

/// Lines for every machine: said once, whatever the part goes through.
pub fn at_machines(design: &mut Design) {
    design.caution("Safety glasses at every machine and at the grinder, hearing protection where it is loud. Chips are taken away with a brush or hook, machine stopped.");
}

/// Lines for the lathe.
pub fn at_the_lathe(design: &mut Design) {
    at_machines(design);
    design.caution("Remove the chuck key before the spindle starts. No gloves, loose sleeves or hand-held cloth at turning work. Bar that sticks out of the back of the spindle must be supported: it whips.");
}

/// Lines for the drill press.
pub fn at_the_drill(design: &mut Design) {
    design.caution(
        "Clamp the work at the drill press: a drill that grabs at break-through spins it. No gloves near the spindle.",
    );
}

/// Steps and lines for welding a part on.
pub fn weld_steps(design: &mut Design, what: &str, zinc: bool) {
    design.step("welder", format!("Set the {what} where it belongs, tack at four points opposite each other, measure. Weld in short runs opposite each other, let it cool, measure again: a fillet pulls by some tenths of a millimetre."));
    design.caution("Arc light burns eyes and skin: welding shield, gloves, covered arms, screens for others. Clear away what burns and keep a fire watch for half an hour after the last arc.");
    design.caution("Never weld a closed tube or tank: drill a vent first. Weld by the rules of the place and within what you are qualified for.");
    if zinc {
        design.caution("Zinc gives poisonous fume when it is welded: strip it 100 mm (4 in) on each side, work in fresh air with the head out of the plume.");
    } else {
        design.caution("Galvanised or plated steel gives poisonous zinc fume when it is welded: strip it 100 mm (4 in) on each side, fresh air, head out of the plume.");
    }
}
