//! The rows of the chain: which sizes make the gap that the shim is to fill, and how well each is known.

use crate::description::Fields;
use crate::families::Workplace;
use crate::families::common::{self, Common};
use crate::formulas::Range;
use crate::formulas::stack::{Direction, Distribution, Member, Size};
use crate::formulas::uncertainty::{Instrument, Measured};
use crate::record::design::LEAST_LIMIT;
use crate::record::key::{Given, Key, Kind};
use crate::shop::instruments::{self, Gauge, Reads};
use crate::slip::{self, Slip};
use crate::standards::galvanic::Environment;
use crate::standards::{iso286, iso2768};
use crate::suggest;
use crate::units::Length;

pub const MEMBER: Key = Key::new(
    "member",
    "member of the chain",
    Kind::Rows(MEMBER_KEYS),
    "sizes that make the gap: name, direction, size, and how well it is known",
);
const NAME: Key = Key::new("name", "member", Kind::Text, "such as \"fork, inside width\"");
const DIRECTION: Key = Key::new(
    "direction",
    "direction",
    Kind::Choice(&["adds", "takes"]),
    "\"adds\": a larger one makes the gap larger; \"takes\": it makes the gap smaller",
);
const SIZE: Key = Key::new("size", "size", Kind::POSITIVE, "nominal size, or the reading, such as \"68.00 mm\"");
const TOLERANCE: Key = Key::new(
    "tolerance",
    "tolerance",
    Kind::Deviations,
    "\"0.05 mm\" for ±0.05, or lower and upper deviation such as [\"-0.1 mm\", \"0 mm\"]",
);
const CLASS: Key = Key::new("class", "tolerance class", Kind::Text, "ISO 286 class such as \"h9\"");
const INSTRUMENT: Key = Key::new(
    "instrument",
    "measured with",
    Kind::Text,
    "for a size that was measured: with what, such as \"calliper\"; shop.toml tells those of the shop",
);
const SPREAD: Key = Key::new(
    "spread",
    "spread between the limits",
    Kind::Choice(&["uniform", "normal", "triangular"]),
    "\"uniform\" if left out, the most cautious",
);
const MATERIAL: Key =
    Key::new("material", "material of the member", Kind::Text, "wanted for temperature_range, such as \"steel S235\"");

const MEMBER_KEYS: &[Key] = &[NAME, DIRECTION, SIZE, TOLERANCE, CLASS, INSTRUMENT, SPREAD, MATERIAL];

/// A member with the words for its row of the sheet.
pub struct Row {
    /// As the chain takes it.
    pub member: Member,
    /// How its size is known: `±0.05 mm`, `h9`, `ISO 2768-m`, `micrometer`.
    pub known: String,
    /// By what part of its size it grows with water, where it does.
    pub swells: f64,
}

/// The member whose size, after a slip of the pen, would bring the gap between the two; `None` where the gap lies there
/// already, or where more than one would do.
pub fn slipped(members: &[Member], least: Length, greatest: Length) -> Option<(&Member, Slip)> {
    let sign = |m: &Member| if m.direction == Direction::Adds { 1.0 } else { -1.0 };
    let gap: Length = members.iter().map(|m| m.middle() * sign(m)).sum();
    if least <= gap && gap <= greatest {
        return None;
    }
    let mut found = members.iter().filter_map(|m| {
        // What this member must be for the gap to be right.
        let others = (gap - m.middle() * sign(m)) * sign(m);
        let (a, b) =
            if sign(m) > 0.0 { (least - others, greatest - others) } else { (-others - greatest, -others - least) };
        slip::likely(m.middle(), a.max(LEAST_LIMIT), b).map(|slip| (m, slip))
    });
    let first = found.next()?;
    found.next().is_none().then_some(first)
}

/// Reads all rows; `None` if a problem was noted in any. With `warm`, every member must say its material.
pub fn read(fields: &Fields, place: &Workplace, common: Option<&Common>, warm: bool) -> Option<Vec<Row>> {
    let rows: Vec<Option<Row>> = fields.rows(&MEMBER).iter().map(|row| one(row, place, common, warm)).collect();
    rows.into_iter().collect()
}

fn one(row: &Fields, place: &Workplace, common: Option<&Common>, warm: bool) -> Option<Row> {
    let name = row.required_text(&NAME);
    let direction = row.required_choice(&DIRECTION);
    let size = row.required_length(&SIZE);
    let material = if row.has(&MATERIAL) {
        Some(common::material(row, place, &MATERIAL, "")?)
    } else if warm {
        row.missing(
            "temperature_range needs to know what every member is made of",
            Some("material = \"steel S235\" in this member"),
        );
        return None;
    } else {
        None
    };
    let stands = common.map_or(Environment::Harsh, |c| c.environment);
    let swells = material.as_ref().and_then(|m| m.swells(stands)).unwrap_or(0.0);
    let known = knowledge(row, place, size.as_ref(), common);
    let (size, known) = known?;
    let name = name?.value;
    row.left_out_of(&MATERIAL, &name, "not known", "cold and heat are not judged without it");
    if !row.has(&INSTRUMENT) {
        if !row.has(&CLASS) {
            row.left_out_of(&TOLERANCE, &name, known.clone(), "nothing is written: the general tolerance");
        }
        row.left_out_of(&SPREAD, &name, "uniform", "any size between the limits is as likely");
    }
    let member = Member {
        name,
        direction: if direction?.value == "adds" { Direction::Adds } else { Direction::Subtracts },
        size,
        expansion: material.map(|m| m.elastic.expansion),
    };
    Some(Row { member, known, swells })
}

/// How the size is known: by an instrument, a tolerance or a class, or else by the general tolerance.
fn knowledge(
    row: &Fields,
    place: &Workplace,
    size: Option<&Given<Length>>,
    common: Option<&Common>,
) -> Option<(Size, String)> {
    let ways: Vec<&'static Key> = [&TOLERANCE, &CLASS, &INSTRUMENT].into_iter().filter(|k| row.has(k)).collect();
    let spread = row.choice(&SPREAD).map_or("uniform", |s| s.value);
    if let [first, second, ..] = ways.as_slice() {
        row.problem_at(
            second,
            format!("`{}` and `{}` both say how well the size is known", first.name, second.name),
            Some("keep one: tolerance or class for a size as drawn, instrument for a size as measured".into()),
        );
        return None;
    }
    let nominal = size?.value;
    if row.has(&INSTRUMENT) {
        if row.has(&SPREAD) {
            row.problem_at(&SPREAD, "a measured size has no spread between limits".into(), Some("leave it out".into()));
        }
        let with = instrument(row, place, &INSTRUMENT, Instrument::Calliper);
        return Some((Size::Measured(Measured::with_expanded(nominal, with.length())), with.name));
    }
    let (limits, known) = drawn(row, nominal, size?, common)?;
    if nominal + limits.min < LEAST_LIMIT {
        let say = common::say(row);
        let least = say.length((nominal + limits.min).rounded());
        let key = if row.has(&TOLERANCE) { &TOLERANCE } else { &SIZE };
        let help = "a size is larger than its tolerance; is that the unit which was meant?";
        let message = format!("nothing would be left of {}: its least size would be {least}", say.length(nominal));
        row.problem_at(key, message, Some(help.into()));
        return None;
    }
    let distribution = match spread {
        "normal" => Distribution::Normal,
        "triangular" => Distribution::Triangular,
        _ => Distribution::Uniform,
    };
    Some((Size::Toleranced { nominal, lower: limits.min, upper: limits.max, distribution }, known))
}

/// Deviations of a size as drawn, and the words for them.
fn drawn(
    row: &Fields,
    nominal: Length,
    size: &Given<Length>,
    common: Option<&Common>,
) -> Option<(Range<Length>, String)> {
    let range = |min, max| Range { min, max };
    if row.has(&TOLERANCE) {
        let given = row.deviations(&TOLERANCE)?;
        let (lower, upper) = given.value;
        let words = if lower == -upper { "tolerance, either way" } else { "deviations" };
        return Some((range(lower, upper), words.into()));
    }
    if row.has(&CLASS) {
        let class = row.text(&CLASS)?;
        let found = iso286::ToleranceClass::parse(&class.value)
            .map_err(|e| e.to_string())
            .and_then(|parsed| iso286::limits(nominal, parsed).map_err(|e| e.to_string()));
        let limits = found.map_err(|message| row.problem_at(&CLASS, message, Some(CLASS.help.into()))).ok()?;
        return Some((range(limits.lower, limits.upper), class.value));
    }
    let general = common?.general;
    let Ok(by) = iso2768::general_tolerance(general, nominal) else {
        row.problem_in(
            size.span.clone(),
            format!("ISO 2768-1 has no tolerance for {}", common::say(row).length(nominal)),
            Some("state tolerance, class or instrument".into()),
        );
        return None;
    };
    Some((range(-by.value, by.value), format!("ISO 2768-{general}")))
}

/// The instrument as written, or the usual one: as the shop has it.
pub fn instrument(fields: &Fields, place: &Workplace, key: &'static Key, usual: Instrument) -> Gauge {
    let all = &place.shop.instruments;
    let usual = instruments::of_kind(all, usual);
    fields.left_out(key, usual.name.as_str(), "the usual one for it");
    let Some(word) = fields.text(key) else { return usual };
    let name = word.value.trim().to_lowercase();
    let lengths = || all.iter().filter(|g| g.reads != Reads::Angle);
    if let Some(gauge) = instruments::called(all, &name).filter(|g| g.reads != Reads::Angle) {
        return gauge.clone();
    }
    let near = suggest::nearest_names(&name, lengths().map(|g| g.name.as_str()));
    let names = lengths().map(|g| g.name.as_str()).collect::<Vec<_>>().join(", ");
    let help = if near.is_empty() {
        format!("one of {names}; [[instrument]] in shop.toml adds others")
    } else {
        format!("did you mean {}?", near.join(" or "))
    };
    fields.problem_in(word.span, format!("the shop has no instrument `{}` for lengths", word.value.trim()), Some(help));
    usual
}
