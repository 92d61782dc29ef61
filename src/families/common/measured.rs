//! `[[measured]]`: what was measured of the part, held against its sizes. The part is worked first, the readings are judged then.

use crate::description::{Fields, Measure};
use crate::formulas::conformity::{self, Zone};
use crate::record::design::{Check, Design, Dimension, Limit, Value, Verdict};
use crate::record::key::{Given, Key, Kind};
use crate::record::reading::{Decision, Reading};
use crate::record::show;
use crate::shop::Shop;
use crate::shop::instruments::{self, Gauge, Reads};
use crate::slip;
use crate::source::Source;
use crate::suggest;
use crate::units::date::Date;
use crate::units::{Angle, Expansion, Length, LengthUnit, Temperature};

pub const WHAT: Key =
    Key::new("what", "what", Kind::Text, "the size that was measured, by its name, such as \"base_diameter\"");
const VALUE: Key =
    Key::new("value", "value", Kind::Text, "what the instrument showed, such as \"25.013 mm\" or \"29.7 deg\"");
const WITH: Key =
    Key::new("with", "with", Kind::Text, "the instrument, such as \"micrometer\"; shop.toml tells those of the shop");
const AT: Key = Key::new(
    "at",
    "at",
    Kind::Temperature,
    "how warm the part was, such as \"31 C\"; leave it out where part and instrument are of steel and lay side by side",
);
const PIECE: Key = Key::new("piece", "piece", Kind::Count { min: 1, max: 10_000 }, "which of the pieces, such as 2");
const ON: Key = Key::new("on", "on", Kind::Text, "the day, such as \"2026-05-02\"");
const NOTE: Key = Key::new("note", "note", Kind::Text, "a remark, such as \"after the second cut\"");
const AFTER_CUT: Key = Key::new(
    "after_cut",
    "after a cut",
    Kind::Flag,
    "true where metal was cut since the reading before it, so that the two need not agree; of a landing also where a seat was shimmed or moved: what was felt before under any seat then counts no more",
);

/// Keys of `[[measured]]`.
pub const MEASURED_KEYS: &[Key] = &[WHAT, VALUE, WITH, AT, PIECE, ON, NOTE, AFTER_CUT];
/// What was measured of the part.
pub const MEASURED: Key =
    Key::new("measured", "measured", Kind::Rows(MEASURED_KEYS), "a reading of one size; `setdown record` writes them");

/// The check of a measured size.
const AS_MEASURED: Check = Check {
    key: "as_measured",
    what: "size as measured",
    worst: Verdict::Fail,
    source: Source::Memory(
        "ISO 14253-1, limits narrowed by U to accept and widened by U to reject; U with k = 2 as JCGM 100:2008",
    ),
};

/// Readings are taken between these.
const COLDEST: Temperature = Temperature::celsius(-40.0);
const WARMEST: Temperature = Temperature::celsius(150.0);

/// A row as the file has it.
struct Row {
    what: Given<String>,
    value: Given<Measure>,
    with: Option<Given<String>>,
    at: Option<Given<Temperature>>,
    piece: Option<Given<u32>>,
    on: Option<Given<Date>>,
    note: Option<String>,
    after_cut: bool,
}

/// Reads one row; none where a problem was noted.
fn row(fields: &Fields) -> Option<Row> {
    let (what, value) = (fields.required_text(&WHAT), fields.required_reading(&VALUE));
    let at = fields.temperature(&AT);
    if let Some(at) = at.as_ref().filter(|at| at.value < COLDEST || at.value > WARMEST) {
        let message = format!("nobody measures at {}", at.text);
        fields.problem_in(at.span.clone(), message, Some("between -40 C and 150 C; let it cool".into()));
    }
    let (with, piece, on) = (fields.text(&WITH), fields.count(&PIECE), fields.date(&ON));
    let (note, after_cut) = (fields.text(&NOTE), fields.flag(&AFTER_CUT));
    Some(Row {
        what: what?,
        value: value?,
        with,
        at,
        piece,
        on,
        note: note.map(|n| n.value),
        after_cut: after_cut.is_some_and(|a| a.value),
    })
}

/// The sizes that a reading may be of: lengths and angles.
pub fn measurable(dimension: &Dimension) -> bool {
    matches!(dimension.value, Value::Length(_) | Value::Angle(_))
}

/// The recorded size that a word means: its name, its words on the sheet, the beginning of its name, or beginnings of the words
/// of its name in their order (`o r` for `over_rollers`); of several those with limits.
///
/// # Errors
/// A sentence, and what would be right.
pub fn meant<'d>(design: &'d Design, word: &str) -> Result<&'d Dimension, (String, String)> {
    // A name may leave out an article of the words on the sheet.
    let plain = |text: &str| text.trim().to_lowercase().replace([' ', '-'], "_").replace("_the_", "_");
    let wanted = plain(word);
    let further = design.readable.iter().map(|r| &r.dimension);
    let all: Vec<&Dimension> = design.dimensions.iter().chain(further).filter(|d| measurable(d)).collect();
    if let Some(found) = all.iter().find(|d| plain(&d.key) == wanted || plain(&d.label) == wanted) {
        return Ok(found);
    }
    let limited = |d: &&&Dimension| d.limits.is_some() || d.angle_limits.is_some();
    for fits in [begins as fn(&str, &str) -> bool, words_begin] {
        let some: Vec<&Dimension> = all.iter().filter(|d| fits(&plain(&d.key), &wanted)).copied().collect();
        let made: Vec<&Dimension> = some.iter().filter(limited).copied().collect();
        match (made.as_slice(), some.as_slice()) {
            ([one], _) | ([], [one]) => return Ok(one),
            ([], []) => {}
            (several, rest) => {
                let several = if several.is_empty() { rest } else { several };
                let names: Vec<&str> = several.iter().map(|d| d.key.as_str()).collect();
                return Err((
                    format!("`{}` may be several sizes", word.trim()),
                    format!("one of {}", names.join(", ")),
                ));
            }
        }
    }
    Err(unknown(design, &all, word.trim(), &wanted))
}

fn begins(name: &str, wanted: &str) -> bool {
    !wanted.is_empty() && name.starts_with(wanted)
}

fn words_begin(name: &str, wanted: &str) -> bool {
    let (name, wanted): (Vec<&str>, Vec<&str>) = (name.split('_').collect(), wanted.split('_').collect());
    let begins = |(word, begin): (&&str, &&str)| !begin.is_empty() && word.starts_with(begin);
    wanted.len() <= name.len() && name.iter().zip(&wanted).all(begins)
}

fn unknown(design: &Design, all: &[&Dimension], word: &str, wanted: &str) -> (String, String) {
    if let Some(other) = design.dimensions.iter().find(|d| d.key == wanted) {
        return (format!("{} is not measured with length or angle", other.label), format!("`{word}` is no size"));
    }
    let near = suggest::nearest_names(wanted, all.iter().map(|d| d.key.as_str()));
    let sizes = || all.iter().filter(|d| d.limits.is_some() || d.angle_limits.is_some()).map(|d| d.key.as_str());
    let help = if near.is_empty() {
        format!("its sizes are {}", sizes().collect::<Vec<_>>().join(", "))
    } else {
        format!("did you mean {}?", near.join(" or "))
    };
    (format!("there is no size `{word}` on this part"), help)
}

/// What kind of size a size is for an instrument, and what a cut does to it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Feature {
    /// What measures it.
    pub kind: Reads,
    /// A cut makes it less, makes it more, or is not what makes it.
    pub cut: Cut,
    /// It is a diameter: half of a cut is on the radius.
    pub across: bool,
}

/// What a cut does to a size.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Cut {
    /// It gets less: an outside.
    Less,
    /// It gets more: a bore, a depth.
    More,
    /// It is a place, a form or a gap, or two surfaces move it both ways.
    Neither,
}

/// Names, or pieces of them, and what they are. The first that is in the name counts.
const FEATURES: &[(&[&str], Reads, Cut, bool)] = &[
    (
        &["position", "spacing", "circle", "on_piece", "true", "round", "cylind", "square", "parallel", "to_outside"],
        Reads::Any,
        Cut::Neither,
        false,
    ),
    (&["seat_height", "gap", "float", "reading", "radius", "chamfer"], Reads::Any, Cut::Neither, false),
    (&["dial"], Reads::Gap, Cut::Neither, false),
    (&["ring_height"], Reads::Depth, Cut::Neither, false),
    (&["over_rollers"], Reads::Outside, Cut::Neither, false),
    // Of the part that this one meets: what is cut is this one.
    (
        &["shaft_diameter", "housing_diameter", "needle_bore", "tube_diameter", "mate_register"],
        Reads::Any,
        Cut::Neither,
        false,
    ),
    (&["distance", "pitch"], Reads::Any, Cut::Neither, false),
    (&["groove_inner"], Reads::Outside, Cut::Less, true),
    (&["groove_outer"], Reads::Inside, Cut::More, true),
    (&["depth"], Reads::Depth, Cut::More, false),
    (&["groove_diameter"], Reads::Outside, Cut::Less, true),
    (&["slot", "groove_width"], Reads::Inside, Cut::More, false),
    (&["bore", "hole", "counter", "mouth"], Reads::Inside, Cut::More, true),
    (&["diameter", "_outside", "outside_before"], Reads::Outside, Cut::Less, true),
    (&["height", "foot"], Reads::Depth, Cut::Less, false),
    (&["width", "thickness", "length", "wall", "extent"], Reads::Outside, Cut::Less, false),
];

/// Beginnings of the words of sizes that one name does not tell apart: a register that stands out or in, a groove outside or inside.
const BY_WORDS: &[(&str, Reads, Cut, bool)] = &[
    ("spigot, ", Reads::Outside, Cut::Less, true),
    ("recess, ", Reads::Inside, Cut::More, true),
    ("height of the spigot", Reads::Depth, Cut::Less, false),
    ("depth of the recess", Reads::Depth, Cut::More, false),
    ("diameter at the groove's floor, in the bore", Reads::Inside, Cut::More, true),
];

/// What kind of size that is, by its words and its name.
pub fn feature(dimension: &Dimension) -> Feature {
    let none = Feature { kind: Reads::Any, cut: Cut::Neither, across: false };
    if matches!(dimension.value, Value::Angle(_)) {
        return Feature { kind: Reads::Angle, ..none };
    }
    if dimension.may_vanish {
        return none;
    }
    // The width of a slot is recorded as its hole's diameter.
    let slot = dimension.label.contains("slot");
    let worded = BY_WORDS.iter().find(|(words, ..)| dimension.label.starts_with(words));
    if let Some((_, kind, cut, across)) = worded {
        return Feature { kind: *kind, cut: *cut, across: *across };
    }
    let found = FEATURES.iter().find(|(words, ..)| words.iter().any(|word| dimension.key.contains(word)));
    found.map_or(none, |(_, kind, cut, across)| Feature { kind: *kind, cut: *cut, across: *across && !slot })
}

/// Reads every row and holds it against the part. Problems are noted where they stand.
pub fn judge(design: &mut Design, root: &Fields, shop: &Shop) {
    let mut judged: Vec<(usize, Judged)> = Vec::new();
    for fields in root.rows(&MEASURED) {
        let Some(row) = row(&fields) else { continue };
        told_once_measured(design, &row.what.value);
        let Some((at, one)) = hold(design, (root, &fields), shop, &row) else { continue };
        exclude(&fields, &row, (&Surfaces::of(design), &judged), at, &one);
        judged.push((at, one));
    }
    let surfaces = Surfaces::of(design);
    let superseded: Vec<bool> =
        (0..judged.len()).map(|i| !counts(&judged, i) || surfaces.cut_since(&judged, i)).collect();
    for (row, ((at, one), past)) in judged.into_iter().zip(superseded).enumerate() {
        if let Some(dimension) = design.dimensions.get_mut(at) {
            dimension.readings.push(Reading { row, counts: !past, ..one.reading });
        }
    }
    findings(design);
}

/// A size that is told only once it was measured takes its place among the others.
fn told_once_measured(design: &mut Design, what: &str) {
    let Ok(key) = meant(design, what).map(|d| d.key.clone()) else { return };
    if !design.dimensions.iter().any(|d| d.key == key) {
        let found = design.readable.iter().find(|r| r.dimension.key == key).map(|r| r.dimension.clone());
        design.dimensions.extend(found);
    }
}

/// A reading held against its size, and what of it says which others it stands beside.
struct Judged {
    reading: Reading,
}

impl Judged {
    fn numbers(&self) -> (f64, f64) {
        (self.reading.value.number(), self.reading.u.number())
    }
}

/// Sizes that one cut makes all anew, by the family that has them: a flank is cut as a whole, and so is a seat with its rim. What
/// was read of one of them before the cut says nothing of the others after it.
const ONE_SURFACE: &[(&str, &[&str])] = &[
    (
        "cone",
        &[
            "base_diameter",
            "tip_diameter",
            "half_angle",
            "over_rollers",
            "over_rollers_raised",
            "ring_height",
            "flank_dial",
        ],
    ),
    ("cup", &["hole_diameter", "seat_mouth", "half_angle", "chamfer", "rim_radius", "seat_height", "gap_to_crossbar"]),
];

/// The sizes of a design that one cut makes anew, by their places among its dimensions.
struct Surfaces(Vec<usize>);

impl Surfaces {
    fn of(design: &Design) -> Self {
        let names =
            ONE_SURFACE.iter().find(|(family, _)| *family == design.header.family).map_or(&[][..], |(_, names)| names);
        let all = design.dimensions.iter().enumerate();
        Self(all.filter(|(_, d)| names.contains(&d.key.as_str())).map(|(i, _)| i).collect())
    }

    /// Whether a cut of the one is a cut of the other.
    fn shared(&self, one: usize, other: usize) -> bool {
        one == other || (self.0.contains(&one) && self.0.contains(&other))
    }

    /// Whether metal was cut after the reading, by what was read of any size of its surface. Sizes that are read one after the other
    /// and say each that metal was cut are of one cut, until one of them comes again.
    fn cut_since(&self, judged: &[(usize, Judged)], i: usize) -> bool {
        let Some((at, own)) = judged.get(i) else { return false };
        let kin =
            |(size, other): &&(usize, Judged)| self.shared(*size, *at) && other.reading.piece == own.reading.piece;
        let (mut seen, mut same_cut) = (vec![*at], own.reading.after_cut);
        for (size, later) in judged.iter().skip(i + 1).filter(kin) {
            same_cut &= later.reading.after_cut && !seen.contains(size);
            if later.reading.after_cut && !same_cut {
                return true;
            }
            seen.push(*size);
        }
        false
    }
}

/// Whether a reading is of the same state of the same piece as an earlier one: no cut and no other day lies between.
fn together(judged: &[(usize, Judged)], earlier: usize, (at, one): (usize, &Judged)) -> bool {
    let same = |(size, other): &(usize, Judged)| *size == at && other.reading.piece == one.reading.piece;
    let Some(first) = judged.get(earlier).filter(|j| same(j)) else { return false };
    let cut_between = judged.iter().skip(earlier + 1).any(|j| same(j) && j.1.reading.after_cut);
    first.1.reading.on == one.reading.on && !cut_between && !one.reading.after_cut
}

/// Of the readings of one state the finest counts, of equally fine ones the last; a later state stands over an earlier one.
fn counts(judged: &[(usize, Judged)], i: usize) -> bool {
    let Some((at, own)) = judged.get(i) else { return false };
    let later = judged
        .iter()
        .enumerate()
        .skip(i + 1)
        .filter(|(_, (size, other))| size == at && other.reading.piece == own.reading.piece);
    let earlier_and_finer = (0..i).any(|e| {
        let before = judged.get(..i).unwrap_or_default();
        together(before, e, (*at, own)) && judged.get(e).is_some_and(|(_, other)| other.numbers().1 < own.numbers().1)
    });
    let overruled = later.into_iter().any(|(l, (_, other))| {
        let beside = judged.get(..l).is_some_and(|before| together(before, i, (*at, other)));
        !beside || other.numbers().1 <= own.numbers().1
    });
    !overruled && !earlier_and_finer
}

/// Notes two readings of one state that cannot both be right.
fn exclude(fields: &Fields, row: &Row, (surfaces, judged): (&Surfaces, &[(usize, Judged)]), at: usize, one: &Judged) {
    let of_state = |e: &usize| together(judged, *e, (at, one)) && !surfaces.cut_since(judged, *e);
    let against = (0..judged.len()).rev().filter(of_state).find_map(|e| {
        judged.get(e).map(|(_, other)| other).filter(|other| conformity::exclude(one.numbers(), other.numbers()))
    });
    let Some(other) = against else { return };
    let message = format!(
        "{} and the {} read before by {} exclude each other",
        row.value.text,
        told(&other.reading.read),
        other.reading.with
    );
    let help =
        "measure again and keep the right one; where metal was cut in between, write after_cut = true".to_string();
    fields.problem_in(row.value.span.clone(), message, Some(help));
}

/// A value as it was read, in words.
fn told(value: &Value) -> String {
    show::value(value, LengthUnit::Mm)
}

/// Holds a row against the size that it is of.
fn hold(design: &Design, (root, fields): (&Fields, &Fields), shop: &Shop, row: &Row) -> Option<(usize, Judged)> {
    let dimension = meant(design, &row.what.value)
        .map_err(|(message, help)| fields.problem_in(row.what.span.clone(), message, Some(help)))
        .ok()?;
    let at = design.dimensions.iter().position(|d| d.key == dimension.key)?;
    let piece = piece(design, fields, row);
    let gauge = gauge(design, dimension, fields, shop, row);
    let plausible = plausible(design, dimension, fields, row);
    let ((gauge, assumed), piece) = (gauge?, piece?);
    plausible?;
    let grows = expansion(design, root, shop, &dimension.key);
    let (value, u) = at_reference(grows, fields, row, &gauge)?;
    let zone = limits(dimension).and_then(|l| conformity::zone(value.number(), l, u.number()).ok());
    let decision = zone.map(|zone| match zone {
        Zone::Acceptance => Decision::Accept,
        Zone::Rejection => Decision::Reject,
        Zone::Uncertainty => Decision::Open,
    });
    let next = next(design, dimension, shop, &value, decision, &gauge);
    let reading = Reading {
        row: 0,
        read: as_read(row.value.value),
        value,
        u,
        decision,
        next,
        with: gauge.name,
        told: !assumed,
        assumed: assumed || gauge.assumed,
        at: row.at.as_ref().map(|t| t.value),
        piece,
        on: row.on.as_ref().map(|d| d.value),
        after_cut: row.after_cut,
        note: row.note.clone(),
        counts: true,
    };
    Some((at, Judged { reading }))
}

fn as_read(measure: Measure) -> Value {
    match measure {
        Measure::Length(l) => Value::Length(l),
        Measure::Angle(a) => Value::Angle(a),
    }
}

/// The piece: written, or the only one.
fn piece(design: &Design, fields: &Fields, row: &Row) -> Option<u32> {
    let count = design.header.count.max(1);
    match &row.piece {
        Some(piece) if piece.value > count => {
            let made = if count == 1 { "one piece is made".to_string() } else { format!("{count} pieces are made") };
            let message = format!("there is no piece {}: {made}", piece.value);
            fields.problem_in(piece.span.clone(), message, Some(format!("1 to {count}")));
            None
        }
        Some(piece) => Some(piece.value),
        None if fields.has(&PIECE) => None,
        None if count > 1 => {
            let message = format!("of which of the {count} pieces was that?");
            fields.problem_in(row.what.span.clone(), message, Some("piece = 1 for the first; mark them so".into()));
            None
        }
        None => Some(1),
    }
}

/// The instrument: written, or that of the order of work, or a calliper; whether it is assumed.
fn gauge(design: &Design, dimension: &Dimension, fields: &Fields, shop: &Shop, row: &Row) -> Option<(Gauge, bool)> {
    let kind = feature(dimension).kind;
    let Some(with) = &row.with else {
        if fields.has(&WITH) {
            return None;
        }
        let steps = design.operations.iter().flat_map(|o| &o.measure).filter(|m| m.key == dimension.key);
        let named =
            |text: &str| instruments::named_in(&shop.instruments, text).into_iter().filter(|g| g.measures(kind));
        // Of two that the step names the coarser is taken.
        let of_step = steps.flat_map(|m| named(&m.with)).max_by(|a, b| a.u.number().total_cmp(&b.u.number()));
        let own = design.readable.iter().find(|r| r.dimension.key == dimension.key).map(|r| r.with);
        let usual = own.unwrap_or(if kind == Reads::Angle { "bevel protractor" } else { "calliper" });
        let gauge = of_step.or_else(|| instruments::called(&shop.instruments, usual));
        return gauge.map(|g| (g.clone(), true));
    };
    let refuse = |message: String, help: String| {
        fields.problem_in(with.span.clone(), message, Some(help));
        None
    };
    let name = with.value.trim().to_lowercase();
    let names = || shop.instruments.iter().map(|g| g.name.as_str());
    let Some(gauge) = instruments::meant(&shop.instruments, &name, kind) else {
        let near = suggest::nearest_names(&name, names());
        let known =
            format!("one of {}; [[instrument]] in shop.toml adds others", names().collect::<Vec<_>>().join(", "));
        let help = if near.is_empty() { known } else { format!("did you mean {}?", near.join(" or ")) };
        return refuse(format!("the shop has no instrument `{}`", with.value.trim()), help);
    };
    let angle = kind == Reads::Angle;
    if angle != (gauge.reads == Reads::Angle) {
        let (is, reads) = if angle { ("an angle", "lengths") } else { ("a length", "angles") };
        let message = format!("the {} is {is}; a {} reads {reads}", dimension.label, gauge.name);
        let fit = shop.instruments.iter().filter(|g| g.measures(kind)).map(|g| g.name.as_str());
        return refuse(message, format!("one of {}", fit.collect::<Vec<_>>().join(", ")));
    }
    Some((gauge, false))
}

/// Notes a reading that is of another kind than the size, or that only a slip explains.
fn plausible(design: &Design, dimension: &Dimension, fields: &Fields, row: &Row) -> Option<()> {
    let refuse = |message: String, help: String| {
        fields.problem_in(row.value.span.clone(), message, Some(help));
        None
    };
    let unit = design.header.unit;
    let (label, drawn) = (&dimension.label, show::value(&dimension.value, unit));
    match (row.value.value, &dimension.value) {
        (Measure::Length(read), Value::Length(drawn_at)) => {
            let size = dimension.limits.is_some() && !dimension.may_vanish;
            if size && read <= Length::ZERO {
                return refuse(
                    format!("the {label} cannot read {}", row.value.text),
                    "what the instrument shows".into(),
                );
            }
            // A float or a gap may have grown or gone; only a size is held to be near what is drawn.
            if !size && drawn_at.abs() < Length::mm(5.0) {
                return Some(());
            }
            let (read_at, drawn_at) = (read.abs(), drawn_at.abs());
            match slip::likely(read, drawn_at * 0.7, drawn_at * 1.4) {
                Some(slip) => refuse(
                    format!("{} does not go with a {label} of {drawn}", row.value.text),
                    format!("{} measure again and write it with its unit", slip.question(read, unit)),
                ),
                None if read_at > drawn_at * 2.0 || read_at < drawn_at / 2.0 => refuse(
                    format!("{} does not go with a {label} of {drawn}", row.value.text),
                    "is it the size that was meant? `what` names it".into(),
                ),
                None => Some(()),
            }
        }
        (Measure::Angle(read), Value::Angle(drawn_at)) => match angle_slip(read, *drawn_at) {
            Some(question) => refuse(format!("{} does not go with a {label} of {drawn}", row.value.text), question),
            None => Some(()),
        },
        (Measure::Length(_), _) => {
            refuse(format!("the {label} is an angle"), "such as \"29.7 deg\" or \"29d42m\"".into())
        }
        (Measure::Angle(_), _) => refuse(format!("the {label} is a length"), "such as \"25.013 mm\"".into()),
    }
}

/// What was meant, where an angle does not go with the drawn one and a slip explains it: it was read whole where half is drawn, from
/// square where from the axis is drawn, or with its point in the wrong place.
fn angle_slip(read: Angle, drawn: Angle) -> Option<String> {
    let near =
        |angle: Angle| angle.as_degrees() > 0.7 * drawn.as_degrees() && angle.as_degrees() < 1.4 * drawn.as_degrees();
    let degrees = |angle: Angle| show::value(&Value::Angle(angle), LengthUnit::Mm);
    if near(read) {
        return None;
    }
    let meant = [
        (read / 2.0, "that is the whole angle: half of it is drawn"),
        (Angle::degrees(90.0) - read, "that is read from square: from the axis is drawn"),
        (read * 10.0, "the point is in the wrong place"),
        (read / 10.0, "the point is in the wrong place"),
    ];
    let found = meant.into_iter().find(|(angle, _)| near(*angle));
    let said = found.map(|(angle, why)| format!("{why}: {} was meant?", degrees(angle)));
    Some(said.unwrap_or_else(|| "is it the size that was meant? `what` names it".into()))
}

/// What a reading comes to at 20 degrees, with its expanded uncertainty.
fn at_reference(grows: Option<Expansion>, fields: &Fields, row: &Row, gauge: &Gauge) -> Option<(Value, Value)> {
    let length = match row.value.value {
        // An angle stays when the part grows.
        Measure::Angle(angle) => return Some((Value::Angle(angle), Value::Angle(Angle::degrees(gauge.u.number())))),
        Measure::Length(length) => length,
    };
    let standard = Length::mm(gauge.u.number() / 2.0);
    let Some(at) = &row.at else {
        return Some((Value::Length(length.rounded()), Value::Length(standard * 2.0)));
    };
    let Some(expansion) = grows else {
        let help = "leave `at` out, and measure at 20 degrees";
        fields.problem_in(at.span.clone(), "how this part grows with heat is not known".into(), Some(help.into()));
        return None;
    };
    match conformity::at_reference(length, standard, expansion, at.value.above_reference()) {
        Ok(found) => Some((Value::Length(found.value.rounded()), Value::Length(found.standard * 2.0))),
        Err(error) => {
            fields.problem_in(at.span.clone(), error.to_string(), Some(AT.help.into()));
            None
        }
    }
}

/// Other parts whose sizes are measured beside those of this one, by the tables of the file that tell of them.
const OTHERS: [&str; 3] = ["shaft", "housing", "tube"];

/// The expansion of what was measured: of the part's material, or of that of the shaft, housing or tube that it meets.
fn expansion(design: &Design, root: &Fields, shop: &Shop, key: &str) -> Option<Expansion> {
    let Some(other) = OTHERS.iter().find(|other| key.starts_with(&format!("{other}_"))) else {
        return own_expansion(design, shop);
    };
    // Where nothing is written what is taken stands among the sizes.
    let taken = || design.dimensions.iter().find(|d| d.key == format!("material_{other}"));
    let name = root.text_in(other, "material").map(str::to_string);
    let name = name.or_else(|| Some(show::value(&taken()?.value, design.header.unit)));
    name.map_or_else(|| own_expansion(design, shop), |name| shop.material(&name).ok().map(|m| m.elastic.expansion))
}

/// The expansion of the part's material; of several materials their middle.
fn own_expansion(design: &Design, shop: &Shop) -> Option<Expansion> {
    let names = design.header.material.as_deref()?;
    let whole = shop.material(names).ok().map(|m| vec![m]);
    let each = || names.split(", ").map(|name| shop.material(name).ok()).collect::<Option<Vec<_>>>();
    let all = whole.or_else(each)?;
    let figures = || all.iter().map(|m| m.elastic.expansion);
    let (first, rest) = (figures().next()?, figures().skip(1));
    let (least, most) = rest.fold((first, first), |(least, most), e| (least.min(e), most.max(e)));
    Some((least + most) / 2.0)
}

/// The limits in the unit of the value; an error of form has none below.
pub fn limits(dimension: &Dimension) -> Option<(f64, f64)> {
    if let Some(l) = &dimension.angle_limits {
        return Some((l.lower.as_degrees(), l.upper.as_degrees()));
    }
    let l = dimension.limits.as_ref()?;
    let form = dimension.may_vanish && l.lower == Length::ZERO;
    Some((if form { f64::NEG_INFINITY } else { l.lower.as_mm() }, l.upper.as_mm()))
}

/// A number of the unit of a size, as a value.
fn like(dimension: &Dimension, number: f64) -> Value {
    match dimension.value {
        Value::Angle(_) => Value::Angle(Angle::degrees(number)),
        _ => Value::Length(Length::mm(number).rounded()),
    }
}

/// What is to be done next, one sentence.
fn next(
    design: &Design,
    dimension: &Dimension,
    shop: &Shop,
    value: &Value,
    decision: Option<Decision>,
    gauge: &Gauge,
) -> String {
    let unit = design.header.unit;
    let say = |number: f64| show::value(&like(dimension, number), unit);
    let (Some(decision), Some((lower, upper))) = (decision, limits(dimension)) else {
        let goes_into = design.readable.iter().find(|r| r.dimension.key == dimension.key).map(|r| r.into);
        let said = goes_into.unwrap_or("it has no limits to be held against");
        return said.into();
    };
    let number = value.number();
    match decision {
        Decision::Accept => "it lies within its limits by more than the instrument leaves open".into(),
        Decision::Open => {
            // A cut to the middle is told only where the instrument could see that it came there.
            let u = gauge.u.number();
            let left = left(dimension, number).filter(|left| *left > u && steers((lower, upper), gauge));
            let more = left.map(|middle| format!("take {} off, to the middle of its limits, or ", say(middle)));
            finer(dimension, shop, number, gauge, &more.unwrap_or_default(), say)
        }
        Decision::Reject => {
            let what = beyond(dimension, number, (lower, upper), say);
            let cut = left(dimension, number).is_some();
            if cut && !steers((lower, upper), gauge) {
                format!(
                    "{what}; the {} (U {}) does not tell when it is there: the last of it by a finer one",
                    gauge.name,
                    say(gauge.u.number())
                )
            } else {
                what
            }
        }
    }
}

/// Whether an instrument can bring a size between its limits: what reads their middle lies within them.
fn steers((lower, upper): (f64, f64), gauge: &Gauge) -> bool {
    (upper - lower) / 2.0 >= gauge.u.number()
}

/// What a size beyond its limits asks for.
fn beyond(dimension: &Dimension, number: f64, (lower, upper): (f64, f64), say: impl Fn(f64) -> String) -> String {
    let feature = feature(dimension);
    let (over, by) = if number > upper { (true, number - upper) } else { (false, lower - number) };
    match left(dimension, number) {
        Some(middle) if feature.across => format!(
            "{} is left to take off the diameter, {} on the radius, to the middle of its limits",
            say(middle),
            say(middle / 2.0)
        ),
        Some(middle) => format!("{} is left to take off, to the middle of its limits", say(middle)),
        None if feature.cut == Cut::Neither => {
            format!("{} by {}", if over { "over its greatest" } else { "under its least" }, say(by))
        }
        None => format!("{} by {}: no cut brings it back", if over { "too large" } else { "too small" }, say(by)),
    }
}

/// How far a size is from the middle of its limits, where a cut takes it there.
fn left(dimension: &Dimension, number: f64) -> Option<f64> {
    let (lower, upper) = limits(dimension)?;
    let over = number - f64::midpoint(lower, upper);
    let cuts = matches!((feature(dimension).cut, over > 0.0), (Cut::Less, true) | (Cut::More, false));
    (cuts && over.is_finite()).then_some(over.abs())
}

/// Which instrument of the shop would tell: the coarsest that does.
fn finer(
    dimension: &Dimension,
    shop: &Shop,
    number: f64,
    gauge: &Gauge,
    or: &str,
    say: impl Fn(f64) -> String,
) -> String {
    let kind = feature(dimension).kind;
    let near = format!("nearer to a limit than the {} tells (U {})", gauge.name, say(gauge.u.number()));
    let Some(bounds) = limits(dimension) else { return near };
    let tells = |g: &&Gauge| !matches!(conformity::zone(number, bounds, g.u.number()), Ok(Zone::Uncertainty) | Err(_));
    let finer = shop.instruments.iter().filter(|g| g.measures(kind) && g.u.number() < gauge.u.number());
    let coarsest = finer.filter(tells).max_by(|a, b| a.u.number().total_cmp(&b.u.number()));
    match coarsest {
        Some(g) => format!("{near}: a {} tells (U {})", g.name, say(g.u.number())),
        None => format!("{near}, and than any other of the shop's: {or}have it measured with a finer one"),
    }
}

/// One finding for each reading that counts.
fn findings(design: &mut Design) {
    let unit = design.header.unit;
    let several = design.header.count > 1;
    let mut found: Vec<(String, Verdict, Value, Limit, String, Option<String>)> = Vec::new();
    for dimension in &design.dimensions {
        for r in dimension.measured() {
            let piece = if several { format!(", piece {}", r.piece) } else { String::new() };
            let what = format!("{} as measured{piece}", dimension.label);
            let verdict = verdict(dimension, r);
            let because = format!("{}: {}", how(r, unit), r.next);
            let next = (verdict > Verdict::Ok).then(|| r.next.clone());
            found.push((what, verdict, r.value.clone(), nearest(dimension, &r.value), because, next));
        }
    }
    for (what, verdict, value, limit, because, next) in found {
        design.told(&AS_MEASURED, what, verdict, (value, limit), because, next);
    }
}

/// A size that can still be cut, or that the instrument cannot tell, is work to be done; one that no cut brings back fails.
fn verdict(dimension: &Dimension, reading: &Reading) -> Verdict {
    match reading.decision {
        Some(Decision::Open) => Verdict::Caution,
        Some(Decision::Reject) if left(dimension, reading.value.number()).is_some() => Verdict::Caution,
        // An angle is cut anew where metal is left.
        Some(Decision::Reject) if matches!(dimension.value, Value::Angle(_)) => Verdict::Caution,
        Some(Decision::Reject) => Verdict::Fail,
        Some(Decision::Accept) | None => Verdict::Ok,
    }
}

/// The limit to which a value is nearest.
fn nearest(dimension: &Dimension, value: &Value) -> Limit {
    let Some((lower, upper)) = limits(dimension) else { return Limit::Against(dimension.value.clone()) };
    let number = value.number();
    if upper - number < number - lower {
        Limit::AtMost(like(dimension, upper))
    } else {
        Limit::AtLeast(like(dimension, lower))
    }
}

/// How it was measured: `micrometer, U 0.005 mm (k = 2, assumed), read 25.02 mm at 31 °C, 2026-05-02`.
pub fn how(r: &Reading, unit: LengthUnit) -> String {
    let assumed = if r.assumed { ", assumed" } else { "" };
    let taken = if r.told { "" } else { " (not written: taken)" };
    let mut text = format!("{}{taken}, U {} (k = 2{assumed})", r.with, show::value(&r.u, unit));
    if let Some(at) = r.at {
        let (read, at) = (show::value(&r.read, unit), show::value(&Value::Temperature(at), unit));
        text += &format!(", read {read} at {at} and brought to 20 °C");
    }
    for more in r.on.map(|d| d.to_string()).into_iter().chain(r.note.clone()) {
        text += &format!(", {more}");
    }
    text
}
