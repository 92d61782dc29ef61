//! Reading a sleeve's part file.

use crate::description::{Fields, Taken};
use crate::families::Workplace;
use crate::families::common::ring::read as ring;
pub use crate::families::common::ring::read::{Along, Ring};
use crate::families::common::ring::read::{
    BORE, BORE_CHAMFER, BORE_CLASS, CHAMFER, GREASE_HOLE, GROOVE, HOUSING, LENGTH, OUTSIDE_CLASS, OUTSIDE_DIAMETER,
    PRESSED_IN, SHAFT, SLID_ON, STOCK, TEMPERATURE, TEMPERATURE_RANGE,
};
use crate::families::common::{self, Common, settled};
use crate::record::key::{Given, Key, Kind};
use crate::record::show::Say;
use crate::shop::Material;
use crate::units::Length;

use super::runs_under;

pub const SEGMENT: Key =
    Key::new("segment", "segment", Kind::Rows(SEGMENT_KEYS), "the sleeve cut into pieces that fill its length");
pub const RUNS_UNDER: Key = Key::new(
    "runs_under",
    "rollers",
    Kind::Table(runs_under::KEYS),
    "the rollers that run on the outside, and their load",
);

pub const SEGMENT_NAME: Key = Key::new("name", "segment name", Kind::Text, "such as \"raceway\" or \"spacer left\"");
pub const SEGMENT_LENGTH: Key = Key::new(
    "length",
    "segment length",
    Kind::POSITIVE,
    "along the axis; one segment without a length takes what is left",
);
pub const SEGMENT_MATERIAL: Key =
    Key::new("material", "segment material", Kind::Text, "such as \"steel 52100 hardened\"");
pub const SEGMENT_OUTSIDE: Key = Key::new(
    "outside_diameter",
    "segment outside diameter",
    Kind::POSITIVE,
    "a spacer 0.2 to 0.5 mm smaller than the raceway keeps out of the rollers' way",
);

/// Keys of `[[segment]]`.
pub const SEGMENT_KEYS: &[Key] = &[SEGMENT_NAME, SEGMENT_LENGTH, SEGMENT_MATERIAL, SEGMENT_OUTSIDE];
/// Keys of a sleeve's part file.
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
    CHAMFER,
    BORE_CHAMFER,
    GROOVE,
    GREASE_HOLE,
    SEGMENT,
    STOCK,
    TEMPERATURE,
    TEMPERATURE_RANGE,
    RUNS_UNDER,
    PRESSED_IN,
    SLID_ON,
];

/// A sleeve as read.
pub struct Spec {
    pub ring: Ring,
    pub segments: Vec<Segment>,
    pub rollers: Option<runs_under::Rollers>,
}

/// One piece of a sleeve made in several.
pub struct Segment {
    pub name: String,
    pub length: Length,
    pub given: bool,
    pub material: Material,
    pub outside: Length,
}

/// Reads the file; every problem is noted, `None` if one stands in the way.
pub fn read(fields: &Fields, place: &Workplace) -> Option<Spec> {
    let ring = ring::ring(fields, place, "sleeve", "steel 1045");
    let rollers = fields.table(&RUNS_UNDER).map(|t| runs_under::read(&t, place));
    let rows = fields.rows(&SEGMENT);
    let mut ring = ring?;
    let segments = segments(fields, &rows, place, &ring.common, &ring.outside, &ring.length)?;
    let rollers = settled(rollers)?;
    ring.rolls = rollers.is_some();
    ring.stacked = !segments.is_empty();
    ring.hard = ring.hard || segments.iter().any(|g| g.material.hardened);
    let spec = Spec { ring, segments, rollers };
    let all = all_along(&spec);
    (ring::possible(fields, &spec.ring, &all) && belongs_together(fields, &spec)).then_some(spec)
}

/// Tables that need each other or shut each other out.
fn belongs_together(fields: &Fields, s: &Spec) -> bool {
    let mut sound = ring::belongs_together(fields, &s.ring);
    let mut refuse = |key: &'static Key, message: &str, help: &str| {
        fields.problem_at(key, message.into(), Some(help.into()));
        sound = false;
    };
    if s.ring.housing.is_some() && s.rollers.is_some() {
        refuse(
            &HOUSING,
            "rollers run round the outside, so that no housing is there",
            "leave [housing] out; needle_bore_class in [runs_under] says how large the circle inside the rollers is",
        );
    }
    if s.ring.pressed_in.is_some() && s.rollers.is_some() {
        refuse(
            &PRESSED_IN,
            "the outside cannot be pressed into a hub and run under rollers",
            "a sleeve under rollers sits on a shaft: use slid_on",
        );
    }
    if (s.ring.pressed_in.is_some() || s.ring.slid_on.is_some()) && !s.segments.is_empty() {
        refuse(&SEGMENT, "a press fit is worked out for a sleeve in one piece", "make a part file for each piece");
    }
    sound
}

fn segments(
    fields: &Fields,
    rows: &[Fields],
    place: &Workplace,
    common: &Common,
    outside: &Given<Length>,
    length: &Given<Length>,
) -> Option<Vec<Segment>> {
    let say = Say(common.header.unit);
    let read: Vec<Option<(Option<Length>, Segment)>> =
        rows.iter().enumerate().map(|(i, row)| segment(row, i, place, common, outside)).collect();
    let mut read: Vec<(Option<Length>, Segment)> = read.into_iter().collect::<Option<_>>()?;
    let taken: Length = read.iter().filter_map(|(l, _)| *l).sum();
    let open = read.iter().filter(|(l, _)| l.is_none()).count();
    let left = length.value - taken;
    let trouble = match open {
        _ if read.is_empty() => None,
        0 if (left.as_mm()).abs() > 0.005 => Some(format!(
            "the segments add up to {}, the sleeve is {} long",
            say.length(taken),
            say.length(length.value)
        )),
        1 if left <= Length::ZERO => Some(format!(
            "the segments with a length already use {} of {}",
            say.length(taken),
            say.length(length.value)
        )),
        n if n > 1 => Some(format!("{n} segments have no length; only one may take what is left")),
        _ => None,
    };
    if let Some(message) = trouble {
        fields.problem_at(
            &SEGMENT,
            message,
            Some("make the segment lengths add up to the length, or leave one of them out".into()),
        );
        return None;
    }
    for (given, segment) in &mut read {
        segment.length = given.unwrap_or(left);
    }
    Some(read.into_iter().map(|(_, segment)| segment).collect())
}

fn segment(
    row: &Fields,
    index: usize,
    place: &Workplace,
    common: &Common,
    outside: &Given<Length>,
) -> Option<(Option<Length>, Segment)> {
    let say = Say(common.header.unit);
    let (name, length, width) = (row.text(&SEGMENT_NAME), row.length(&SEGMENT_LENGTH), row.length(&SEGMENT_OUTSIDE));
    let material = if row.has(&SEGMENT_MATERIAL) {
        common::material(row, place, &SEGMENT_MATERIAL, "")
    } else {
        Some(common.material.clone())
    };
    if let Some(width) = width.as_ref().filter(|w| w.value > outside.value) {
        row.problem_at(
            &SEGMENT_OUTSIDE,
            format!("a segment of {} is wider than the sleeve, {}", say.length(width.value), say.length(outside.value)),
            Some("outside_diameter of the sleeve is that of its widest piece".into()),
        );
    }
    let name = name.map_or_else(|| format!("segment {}", index + 1), |n| n.value);
    row.left_out_of(&SEGMENT_MATERIAL, &name, common.material.name.clone(), "as the sleeve");
    row.left_out_of(&SEGMENT_OUTSIDE, &name, Taken::Length(outside.value), "as the sleeve");
    let given = length.is_some();
    Some((
        length.map(|l| l.value),
        Segment {
            name,
            length: Length::ZERO,
            given,
            material: material?,
            outside: width.map_or(outside.value, |w| w.value),
        },
    ))
}

/// Name and start of the piece in which a place of the stack lies; none for a sleeve in one piece.
pub fn piece_at(s: &Spec, position: Length) -> Option<(&str, Length)> {
    let mut all = s.segments.iter().zip(pieces(s));
    all.find(|(_, (from, to))| position > *from && position < *to).map(|(g, (from, _))| (g.name.as_str(), from))
}

/// Every piece along the sleeve, with its outside.
pub fn all_along(s: &Spec) -> Vec<Along> {
    let outside = |i: usize| s.segments.get(i).map_or(s.ring.outside.value, |g| g.outside);
    let piece = |(i, (from, to)): (usize, (Length, Length))| Along { from, to, outside: outside(i) };
    pieces(s).into_iter().enumerate().map(piece).collect()
}

/// Start and end of every piece along the sleeve.
pub fn pieces(s: &Spec) -> Vec<(Length, Length)> {
    if s.segments.is_empty() {
        return vec![(Length::ZERO, s.ring.length.value)];
    }
    let mut at = Length::ZERO;
    s.segments
        .iter()
        .map(|g| {
            let from = at;
            at = at + g.length;
            (from, at)
        })
        .collect()
}
