//! Reading a shim's part file.

use crate::description::{Fields, Taken};
use crate::families::Workplace;
use crate::families::common::{self, Common};
use crate::formulas::shims::{FloatTarget, MOST_AT_HAND, ShimQuestion, ShimSource, Sides};
use crate::formulas::stack::{Chain, Direction, Member, Size};
use crate::formulas::uncertainty::{Instrument, Measured};
use crate::record::key::{Given, Key, Kind};
use crate::record::show;
use crate::shop::instruments::Gauge;
use crate::units::{Length, Temperature};

use super::members::{self, MEMBER, instrument};

pub const REPLACES: Key = Key::new(
    "replaces",
    "shims replaced",
    Kind::POSITIVES,
    "measured widths of the shims that come out, such as [\"0.52 mm\", \"0.31 mm\"]",
);
pub const PRESENT_FLOAT: Key = Key::new(
    "present_float",
    "present float",
    Kind::NOT_NEGATIVE,
    "end float measured with those shims in place; 0 if left out",
);
pub const GAP: Key =
    Key::new("gap", "gap without shims", Kind::POSITIVE, "end float measured without any shim, such as \"1.28 mm\"");
pub const FLOAT_WITHOUT: Key = Key::new(
    "float_without",
    "float without shims",
    Kind::POSITIVE,
    "beside replaces: float measured with every old shim taken out; the stack took up the difference",
);
pub const TEMPERATURE_RANGE: Key = Key::new(
    "temperature_range",
    "temperatures of service",
    Kind::TemperatureRange,
    "coldest and warmest, such as [\"-20 C\", \"45 C\"]; by the environment if left out and the members say their materials",
);
pub const AT_HAND: Key = Key::new(
    "at_hand",
    "shims at hand",
    Kind::POSITIVES,
    "finished shims in the drawer, measured; each may be used once, at most four on a side",
);
pub const BATCH: Key = Key::new(
    "batch",
    "assemblies",
    Kind::Count { min: 1, max: 100_000 },
    "how many assemblies are to be shimmed from a ladder of sizes",
);
pub const TARGET_FLOAT: Key = Key::new(
    "target_float",
    "target float",
    Kind::LengthRange,
    "wanted end float, such as \"0.10 mm\", or a range such as [\"0.05 mm\", \"0.15 mm\"]",
);
pub const SIDES: Key =
    Key::new("sides", "sides", Kind::Count { min: 1, max: 2 }, "1: one shim; 2: one shim on each side");
pub const OFFSET: Key = Key::new(
    "offset",
    "centring offset",
    Kind::LENGTH,
    "two sides: how far to the right of the middle the part is to sit",
);
pub const BORE: Key = Key::new("bore", "bore", Kind::POSITIVE, "inside diameter of the ring");
pub const OUTSIDE_DIAMETER: Key =
    Key::new("outside_diameter", "outside diameter", Kind::POSITIVE, "outside diameter of the ring");
pub const OVER: Key = Key::new(
    "over",
    "goes over",
    Kind::POSITIVE,
    "greatest diameter of the shaft that the bore goes over, such as \"19.993 mm\"; the bore itself if left out",
);
pub const INSTRUMENT: Key = Key::new(
    "instrument",
    "instrument for the shims",
    Kind::Text,
    "with what the shims are measured, old and new, such as \"micrometer\"; the gap has float_instrument",
);
pub const FLOAT_INSTRUMENT: Key = Key::new(
    "float_instrument",
    "instrument for the float",
    Kind::Text,
    "with what the float or gap was measured, such as \"dial indicator\"",
);
pub const STOCK: Key = Key::new(
    "stock",
    "stock thicknesses",
    Kind::POSITIVES,
    "what is at hand, such as [\"1.0 mm\", \"1.5 mm\"]; a list of usual stock if left out",
);
pub const GRINDING: Key = Key::new(
    "grinding_allowance",
    "grinding allowance",
    Kind::NOT_NEGATIVE,
    "least metal to grind off, such as \"0.1 mm\"",
);

/// Keys of a shim's part file.
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
    REPLACES,
    PRESENT_FLOAT,
    GAP,
    TARGET_FLOAT,
    SIDES,
    OFFSET,
    BORE,
    OUTSIDE_DIAMETER,
    OVER,
    INSTRUMENT,
    FLOAT_INSTRUMENT,
    STOCK,
    GRINDING,
    FLOAT_WITHOUT,
    TEMPERATURE_RANGE,
    AT_HAND,
    BATCH,
    MEMBER,
];

/// Permitted error of the float either way where a single figure was asked for.
/// Source: common practice, no source.
pub const USUAL_FLOAT_TOLERANCE: Length = Length::mm(0.03);

/// A shim as read.
pub struct Spec {
    pub common: Common,
    pub source: Source,
    pub target: Given<(Length, Length)>,
    pub sides: Sides,
    pub offset: Option<Given<Length>>,
    pub ring: Option<(Given<Length>, Given<Length>)>,
    /// Greatest diameter of what the bore goes over.
    pub over: Option<Given<Length>>,
    pub shim_instrument: Gauge,
    pub float_instrument: Gauge,
    pub stock: Option<Given<Vec<Length>>>,
    pub grinding: Option<Given<Length>>,
    /// The chain of members, where it is written; beside a measured gap it says how the gap changes.
    pub chain: Option<Chain>,
    /// How each of its members is known, in words.
    pub known: Vec<String>,
    /// By what part of its size each of them grows with water.
    pub swells: Vec<f64>,
    /// Coldest and warmest: as written, or by the environment where every member says its material.
    pub temperatures: Option<(Temperature, Temperature)>,
    pub at_hand: Option<Given<Vec<Length>>>,
    pub batch: Option<Given<u32>>,
}

/// From where the gap is known.
pub enum Source {
    /// Old shims, each measured, the float with them in, and where it was taken the float without them.
    Replaces {
        /// Every shim that comes out.
        shims: Given<Vec<Length>>,
        /// Float with them in.
        present_float: Option<Given<Length>>,
        /// Float with all of them out.
        float_without: Option<Given<Length>>,
    },
    /// Measured without shims.
    Gap(Given<Length>),
    /// Worked out from the members of the chain.
    Members,
}

impl Spec {
    /// Least and greatest permitted float: as written, or a usual tolerance about a single figure.
    pub fn float_range(&self) -> FloatTarget {
        float_range(self.target.value.0, self.target.value.1)
    }

    /// The question that the mechanics answer.
    pub fn question(&self) -> ShimQuestion {
        let float = |value| Measured::with_expanded(value, self.float_instrument.length());
        let source = match &self.source {
            Source::Gap(gap) | Source::Replaces { float_without: Some(gap), .. } => ShimSource::Gap(float(gap.value)),
            Source::Replaces { shims, present_float, .. } => ShimSource::Replaces {
                shims: shims.value.iter().map(|s| Measured::with_expanded(*s, self.shim_instrument.length())).collect(),
                present_float: float(present_float.as_ref().map_or(Length::ZERO, |f| f.value)),
            },
            Source::Members => {
                let (middle, open) = self.chain.as_ref().map_or_else(Default::default, |c| (c.middle(), c.left_open()));
                ShimSource::Gap(Measured::with_expanded(middle, open))
            }
        };
        ShimQuestion {
            source,
            target: self.float_range(),
            sides: self.sides,
            offset: self.offset.as_ref().map_or(Length::ZERO, |o| o.value),
        }
    }

    /// The members that make the gap, in the order in which they are told: as measured where it was measured.
    pub fn gap_members(&self) -> Vec<Member> {
        let read = |name: &str, value, with: &Gauge| Member {
            name: name.into(),
            direction: Direction::Adds,
            size: Size::Measured(Measured::with_expanded(value, with.length())),
            expansion: None,
        };
        let float = &self.float_instrument;
        match &self.source {
            Source::Members => self.chain.as_ref().map_or_else(Vec::new, |c| c.members().to_vec()),
            Source::Gap(gap) | Source::Replaces { float_without: Some(gap), .. } => {
                vec![read("gap without shims", gap.value, float)]
            }
            Source::Replaces { shims, present_float, .. } => {
                let old = shims.value.iter().enumerate();
                let mut all: Vec<Member> =
                    old.map(|(i, s)| read(&format!("old shim {}", i + 1), *s, &self.shim_instrument)).collect();
                all.push(read("present float", present_float.as_ref().map_or(Length::ZERO, |f| f.value), float));
                all
            }
        }
    }
}

/// A range as it is; a single figure with the usual tolerance, never below nought.
pub fn float_range(min: Length, max: Length) -> FloatTarget {
    if max > min {
        return FloatTarget { min, max };
    }
    let tolerance = USUAL_FLOAT_TOLERANCE.min(min);
    FloatTarget { min: min - tolerance, max: max + tolerance }
}

/// Reads the file; every problem is noted, `None` if one stands in the way.
pub fn read(fields: &Fields, place: &Workplace) -> Option<Spec> {
    let common = common::read(fields, place, "shim", "steel 1045");
    let written = fields.temperature_range(&TEMPERATURE_RANGE);
    let members = members::read(fields, place, common.as_ref(), fields.has(&TEMPERATURE_RANGE));
    let chain = members.as_deref().and_then(|rows| chain(fields, rows));
    let source = source(fields);
    let (at_hand, batch) = (fields.lengths(&AT_HAND), fields.count(&BATCH));
    further(fields, at_hand.as_ref());
    let target = fields.required_length_range(&TARGET_FLOAT);
    let sides = fields.count(&SIDES).map_or(Sides::One, |n| if n.value == 2 { Sides::Two } else { Sides::One });
    fields.left_out(&SIDES, Taken::Count(1), "nothing is written");
    let temperatures = temperatures(fields, written, common.as_ref(), members.as_deref());
    let (offset, bore, outside) = (fields.length(&OFFSET), fields.length(&BORE), fields.length(&OUTSIDE_DIAMETER));
    if sides == Sides::One {
        common::not_here(fields, &[&OFFSET], "a centring offset needs a shim on both sides: sides = 2");
    }
    let shim_instrument = instrument(fields, place, &INSTRUMENT, Instrument::Micrometer);
    if !shim_instrument.measures_thickness() {
        let message = format!("a {} does not measure the width of a shim", shim_instrument.name);
        let help =
            "instrument is for the shims: a micrometer or a calliper; for the float or the gap write float_instrument";
        fields.problem_at(&INSTRUMENT, message, Some(help.into()));
    }
    let float_instrument = instrument(fields, place, &FLOAT_INSTRUMENT, Instrument::DialIndicator);
    if !float_instrument.measures_gaps() {
        let message = format!("an outside {} does not go into a gap", float_instrument.name);
        let help = "float_instrument is for the float or the gap: a dial indicator, a feeler gauge or a depth micrometer; for the shims write instrument";
        fields.problem_at(&FLOAT_INSTRUMENT, message, Some(help.into()));
    }
    let (stock, grinding) = (fields.lengths(&STOCK), fields.length(&GRINDING));
    let over = fields.length(&OVER);
    passes_over(fields, over.as_ref(), bore.as_ref());
    let ring = match (bore, outside) {
        (Some(bore), Some(outside)) if bore.value < outside.value => Some(Some((bore, outside))),
        (Some(bore), Some(outside)) => {
            fields.problem_at(
                &BORE,
                format!("a bore of {} does not fit inside {}", bore.text, outside.text),
                Some("the bore must be smaller than the outside diameter".into()),
            );
            None
        }
        (Some(_), None) | (None, Some(_)) => {
            fields.missing(
                "a ring needs both bore and outside_diameter",
                Some("bore = \"20 mm\", outside_diameter = \"32 mm\""),
            );
            None
        }
        (None, None) => Some(None),
    };
    Some(Spec {
        common: common?,
        source: source?,
        target: target?,
        sides,
        offset,
        ring: ring?,
        over,
        shim_instrument,
        float_instrument,
        stock,
        grinding,
        chain: chain?,
        swells: members.iter().flatten().map(|row| row.swells).collect(),
        known: members?.into_iter().map(|row| row.known).collect(),
        temperatures,
        at_hand,
        batch,
    })
}

/// Between which temperatures the float must hold: as written, else by the environment, as of every fit. Where a member does
/// not say of what it is made nothing is known of its growth, and that is told.
fn temperatures(
    fields: &Fields,
    written: Option<Given<(Temperature, Temperature)>>,
    common: Option<&Common>,
    members: Option<&[members::Row]>,
) -> Option<(Temperature, Temperature)> {
    if let Some(given) = written {
        return Some(given.value);
    }
    let (environment, members) = (common?.environment, members?);
    if members.is_empty() {
        return None;
    }
    if members.iter().any(|row| row.member.expansion.is_none()) {
        let why = "cold and heat are not judged: not every member says its material";
        fields.left_out(&TEMPERATURE_RANGE, "20 °C alone", why);
        return None;
    }
    let (coldest, warmest) = environment.temperatures();
    let degrees = |t: Temperature| show::trimmed(t.as_celsius(), 1);
    let taken = format!("{} to {} °C, {}", degrees(coldest), degrees(warmest), environment.name());
    fields.left_out(&TEMPERATURE_RANGE, taken, "by where it stands; common practice, no source");
    Some((coldest, warmest))
}

/// The bore must be larger than what it goes over.
fn passes_over(fields: &Fields, over: Option<&Given<Length>>, bore: Option<&Given<Length>>) {
    let Some(over) = over else { return };
    match bore {
        Some(bore) if over.value > bore.value => fields.problem_at(
            &OVER,
            format!("a bore of {} does not go over {}", bore.text, over.text),
            Some("make the bore larger".into()),
        ),
        None => fields.problem_at(&OVER, "there is no bore to go over it".into(), Some("add bore".into())),
        Some(_) => {}
    }
}

/// Keys that need the members, and a list too long to search.
fn further(fields: &Fields, at_hand: Option<&Given<Vec<Length>>>) {
    for key in [&TEMPERATURE_RANGE, &BATCH] {
        if fields.has(key) && !fields.has(&MEMBER) {
            fields.problem_at(
                key,
                format!("`{}` needs the chain of sizes that makes the gap", key.name),
                Some("add [[member]] rows: name, direction, size, tolerance or instrument, material".into()),
            );
        }
    }
    if at_hand.is_some_and(|list| list.value.len() > MOST_AT_HAND) {
        fields.problem_at(&AT_HAND, format!("more than {MOST_AT_HAND} shims"), Some("list the likely ones".into()));
    }
}

fn source(fields: &Fields) -> Option<Source> {
    let (replaces, present, gap) = (fields.lengths(&REPLACES), fields.length(&PRESENT_FLOAT), fields.length(&GAP));
    let without = fields.length(&FLOAT_WITHOUT);
    for key in [&PRESENT_FLOAT, &FLOAT_WITHOUT] {
        if fields.has(key) && !fields.has(&REPLACES) {
            let help = format!("leave {} out; a gap is measured without shims", key.name);
            fields.problem_at(key, format!("{} belongs to replaces", key.name), Some(help));
        }
    }
    match (fields.has(&REPLACES), fields.has(&GAP)) {
        (true, true) => {
            fields.problem_at(
                &GAP,
                "either gap (measured without shims) or replaces (measured shims) is wanted, not both".into(),
                Some("with the old shims listed, the float without them is written as float_without".into()),
            );
            None
        }
        (false, false) if fields.has(&MEMBER) => Some(Source::Members),
        (false, false) => {
            fields.missing("nothing was measured: gap or replaces is missing", Some("gap = \"1.28 mm\", measured without shims, or replaces = [\"0.52 mm\", \"0.31 mm\"] with present_float, or the chain of sizes as [[member]] rows"));
            None
        }
        (true, false) => {
            stack_is_sound(fields, present.as_ref(), without.as_ref());
            Some(Source::Replaces { shims: replaces?, present_float: present, float_without: without })
        }
        (false, true) => gap.map(Source::Gap),
    }
}

/// The members as a chain, where there are any; one that does not close is a problem.
fn chain(fields: &Fields, members: &[members::Row]) -> Option<Option<Chain>> {
    if members.is_empty() {
        return Some(None);
    }
    let list = members.iter().map(|row| row.member.clone()).collect();
    let help = || "direction = \"adds\" for what makes the gap larger, \"takes\" for what fills it".to_string();
    Chain::new(list).map_err(|error| fields.problem_at(&MEMBER, error.to_string(), Some(help()))).ok().map(Some)
}

/// With the shims in there is less float than without.
fn stack_is_sound(fields: &Fields, present: Option<&Given<Length>>, without: Option<&Given<Length>>) {
    let say = common::say(fields);
    let with = present.map_or(Length::ZERO, |p| p.value);
    if let Some(without) = without.filter(|w| w.value <= with) {
        fields.problem_at(
            &FLOAT_WITHOUT,
            format!("the float without shims, {}, is not larger than with them, {}", without.text, say.length(with)),
            Some("measure both again; present_float is the one with the shims in".into()),
        );
    }
}
