//! Reading quantities as people write them at the bench: `1-1/4 in`, `2' 3"`, `8°30'`, `1:10`, `2.5 kN`.
//!
//! A unit is compulsory. Nothing is guessed: where a text could mean two things it is refused, with the
//! spellings that would be right. Every size is rounded once, from the exact fraction that was written.

mod number;
mod scan;
mod table;

use std::fmt;
use std::ops::Range;

use self::number::Exact;
use self::scan::Scan;
use self::table::{Dimension, Part, Unit};
use super::{Acceleration, Angle, Density, Expansion, Force, Length, LengthUnit, Mass, Stress, Temperature};
use crate::printable::{printable, unseen};
use crate::suggest;

/// Most characters in one quantity.
pub const MOST_CHARACTERS: usize = 64;
/// Longest length that is read, 100 m; a larger one is a slip of the unit.
pub const LONGEST: Length = Length::mm(100_000.0);

/// Why a text is not the quantity that was wanted.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct TextError {
    /// One sentence for the bench.
    pub what: String,
    /// The bytes of the text it is about, on character boundaries.
    pub at: Range<usize>,
    /// What would be right, where that can be said.
    pub help: Option<String>,
}

impl TextError {
    fn new(what: impl Into<String>, at: Range<usize>, help: Option<String>) -> Self {
        let spaced = |h: String| h.replace(|c| unseen(c).is_some(), " ");
        Self { what: printable(&what.into()), at, help: help.map(spaced) }
    }
}

impl fmt::Display for TextError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.help {
            Some(help) => write!(f, "{} ({help})", self.what),
            None => f.write_str(&self.what),
        }
    }
}

impl std::error::Error for TextError {}

/// A length such as `25.4 mm`, `1-1/4 in`, `1¼"`, `2' 3-1/2"`, `10 thou`, `12 µm`; the sign is the caller's to judge.
pub fn length(text: &str) -> Result<Length, TextError> {
    length_with_default(text, None)
}

/// A length, where a number without unit is in `default`.
pub fn length_with_default(text: &str, default: Option<LengthUnit>) -> Result<Length, TextError> {
    let unit = default.and_then(|unit| match unit {
        LengthUnit::Mm => table::find(Dimension::Length, "mm"),
        LengthUnit::Inch => table::find(Dimension::Length, "in"),
    });
    let length = Length::mm(read(text, Dimension::Length, unit)?);
    if length.abs() > LONGEST {
        return Err(TextError::new(format!("{} is longer than 100 m", text.trim()), whole(text), None));
    }
    Ok(length)
}

/// A length given as a bare number in the unit that the file states. Places in errors refer to nothing.
pub fn length_from_number(number: f64, unit: LengthUnit) -> Result<Length, TextError> {
    let near = match unit {
        LengthUnit::Mm => Length::mm(number),
        LengthUnit::Inch => Length::inches(number),
    };
    if number.is_finite() && near.abs() > LONGEST {
        return Err(TextError::new("this number is longer than 100 m", 0..0, None));
    }
    length_with_default(&number.to_string(), Some(unit)).map_err(|e| TextError { at: 0..0, ..e })
}

/// An angle such as `30 deg`, `8°30'`, `8d30m`, `8°30'15"`, `0.5 rad`, `10 mrad`. A taper `1:10` (change of
/// diameter to length) gives its half-angle, atan(1 / (2 · 10)).
pub fn angle(text: &str) -> Result<Angle, TextError> {
    if text.contains(':') {
        return Ok(Angle::atan(ratio(text)? / 2.0));
    }
    let angle = Angle::degrees(read(text, Dimension::Angle, None)?);
    if angle.abs() > Angle::degrees(360.0) {
        return Err(TextError::new(format!("{} is more than a full turn", text.trim()), whole(text), None));
    }
    Ok(angle)
}

/// A ratio such as `1:10` (0.1), `0.1`, `10 %`, or a taper per foot `0.6 in/ft` (0.05).
pub fn ratio(text: &str) -> Result<f64, TextError> {
    let mut scan = begin(text, Dimension::Ratio)?;
    let minus = scan.minus();
    let first = scan.number()?;
    let mut value = first;
    scan.spaces();
    if scan.eat(|c| c == ':') {
        scan.spaces();
        let start = scan.at;
        let none = TextError::new("a ratio cannot end in 0", start..text.len(), Some("1:10".into()));
        let inverse = scan.number()?.inverse().ok_or(none)?;
        value = first.times(inverse).ok_or_else(|| scan.too_many(0))?;
    } else if !scan.rest().is_empty() {
        let (unit, _) = unit(&mut scan, Dimension::Ratio, 0)?;
        value = unit.stored(first).ok_or_else(|| scan.too_many(0))?;
    }
    ends(&mut scan)?;
    Ok(signed(value, minus).value())
}

/// A plain number without unit, such as `0.15` or `3/4`.
pub fn bare_number(text: &str) -> Result<f64, TextError> {
    let mut scan = measured(text)?;
    if text.trim().is_empty() {
        return Err(TextError::new(
            "nothing is written here",
            whole(text),
            Some("a plain number, such as 0.15".into()),
        ));
    }
    let minus = scan.minus();
    let number = scan.number()?;
    scan.spaces();
    let rest = scan.rest().trim_end();
    if !rest.is_empty() {
        let what = format!("a plain number is wanted here, without `{rest}`");
        return Err(TextError::new(what, scan.at..scan.at + rest.len(), None));
    }
    Ok(signed(number, minus).value())
}

/// A mass such as `640 kg`, `1410 lb`.
pub fn mass(text: &str) -> Result<Mass, TextError> {
    read(text, Dimension::Mass, None).map(Mass::kg)
}
/// A force such as `2.5 kN`, `560 lbf`.
pub fn force(text: &str) -> Result<Force, TextError> {
    read(text, Dimension::Force, None).map(Force::newtons)
}
/// A load: a force such as `1.6 kN`, or a mass whose weight at standard gravity is meant, such as `160 kg`.
pub fn load(text: &str) -> Result<Force, TextError> {
    read(text, Dimension::Load, None).map(Force::newtons)
}
/// A stress, pressure or modulus such as `250 MPa`, `210 GPa`, `36 ksi`.
pub fn stress(text: &str) -> Result<Stress, TextError> {
    read(text, Dimension::Stress, None).map(Stress::mpa)
}
/// A temperature such as `20 °C`, `68 F`, `300 K`.
pub fn temperature(text: &str) -> Result<Temperature, TextError> {
    let temperature = Temperature::celsius(read(text, Dimension::Temperature, None)?);
    if temperature < Temperature::ABSOLUTE_ZERO {
        let what = format!("{} is below absolute zero, -273.15 °C", text.trim());
        return Err(TextError::new(what, whole(text), None));
    }
    Ok(temperature)
}
/// An acceleration such as `0.8 g`, `7.8 m/s2`.
pub fn acceleration(text: &str) -> Result<Acceleration, TextError> {
    read(text, Dimension::Acceleration, None).map(Acceleration::g)
}
/// A coefficient of linear expansion such as `11.7 um/m/K`, `6.5 ppm/F`.
pub fn expansion(text: &str) -> Result<Expansion, TextError> {
    read(text, Dimension::Expansion, None).map(Expansion::per_million_kelvin)
}
/// A density such as `7850 kg/m3`, `7.85 g/cm3`.
pub fn density(text: &str) -> Result<Density, TextError> {
    read(text, Dimension::Density, None).map(Density::kg_per_m3)
}

/// The number of a quantity in the stored unit.
fn read(text: &str, dimension: Dimension, default: Option<&'static Unit>) -> Result<f64, TextError> {
    let mut scan = begin(text, dimension)?;
    let minus = scan.minus();
    let (mut total, mut last) = term(&mut scan, dimension, default, minus)?;
    while let Some(start) = next_term(&mut scan, &last) {
        let number = scan.number()?;
        if scan.rest().trim().is_empty() {
            return Err(missing(&scan, smaller(&last), start..scan.at));
        }
        let (unit, range) = unit(&mut scan, dimension, start)?;
        follows(&last, unit, number, start..range.end)?;
        let more = unit.stored(signed(number, minus)).and_then(|n| total.plus(n));
        total = more.ok_or_else(|| scan.too_many(start))?;
        last = Last { unit, whole: number.is_whole(), at: range };
    }
    ends(&mut scan)?;
    Ok(total.value())
}

/// What the part before was, so that the next can be judged.
struct Last {
    unit: &'static Unit,
    whole: bool,
    at: Range<usize>,
}

/// The first number with its unit. The sign belongs to the written number: a temperature counts from another nought.
fn term(
    scan: &mut Scan,
    dim: Dimension,
    default: Option<&'static Unit>,
    minus: bool,
) -> Result<(Exact, Last), TextError> {
    let start = scan.at;
    let number = scan.number()?;
    let bare = scan.rest().trim().is_empty();
    let (unit, at) = match default {
        Some(unit) if bare => (unit, scan.at..scan.at),
        _ => unit(scan, dim, start)?,
    };
    if matches!(unit.part, Part::Minutes | Part::Seconds) {
        let help = Some(scan.with(&(start..start), "0°"));
        return Err(TextError::new("minutes and seconds come after degrees", start..at.end, help));
    }
    let stored = unit.stored(signed(number, minus)).ok_or_else(|| scan.too_many(start))?;
    Ok((stored, Last { unit, whole: number.is_whole(), at }))
}

/// Moves to the next number of a size in parts and gives its place; `None` when there is none.
fn next_term(scan: &mut Scan, last: &Last) -> Option<usize> {
    let mut ahead = scan.clone();
    ahead.spaces();
    if last.unit.part == Part::First && last.unit.dimension == Dimension::Length {
        ahead.eat(scan::is_dash);
        ahead.spaces();
    }
    let number = ahead.peek().is_some_and(scan::begins_number);
    number.then(|| {
        scan.at = ahead.at;
        scan.at
    })
}

/// The unit that may follow the last part.
fn smaller(last: &Last) -> &'static [&'static str] {
    match (last.unit.part, last.unit.dimension) {
        (Part::First, Dimension::Length) | (Part::Minutes, _) => &["\""],
        (Part::First, _) => &["'"],
        _ => &[],
    }
}

/// Judges a further part: smaller than the one before, below a whole of it, and no fraction before it.
fn follows(last: &Last, unit: &Unit, number: Exact, at: Range<usize>) -> Result<(), TextError> {
    let refuse = |what: &str| Err(TextError::new(what, at.clone(), None));
    match (last.unit.part, unit.part) {
        (Part::First, Part::Inches) if number.reaches(12) => refuse("inches after feet must be less than 12"),
        (Part::First, Part::Minutes) if number.reaches(60) => refuse("minutes after degrees must be less than 60"),
        (Part::Minutes, Part::Seconds) if number.reaches(60) => refuse("seconds after minutes must be less than 60"),
        (Part::First, Part::Inches | Part::Minutes) | (Part::Minutes, Part::Seconds) if last.whole => Ok(()),
        (Part::First, Part::Inches | Part::Minutes) | (Part::Minutes, Part::Seconds) => {
            let what = "only the last part of a size may have a fraction";
            Err(TextError::new(what, last.at.start..at.end, None))
        }
        (Part::Inches, Part::First) => refuse("feet come before inches"),
        (Part::First, Part::Seconds) => refuse("seconds come after minutes"),
        (Part::Minutes | Part::Seconds, Part::First) => refuse("degrees come before minutes and seconds"),
        _ => refuse("one size is wanted here, not two"),
    }
}

/// Takes a unit of the wanted kind and gives its place. The number before it begins at `start`.
fn unit(scan: &mut Scan, dim: Dimension, start: usize) -> Result<(&'static Unit, Range<usize>), TextError> {
    let number = start..scan.at;
    scan.spaces();
    let (begin, rest) = (scan.at, scan.rest().trim_end());
    if rest.is_empty() {
        return Err(missing(scan, &dim.offered(), number));
    }
    if let Some(unit) = table::find(dim, &table::normal(rest)) {
        scan.at += rest.len();
        return Ok((unit, begin..scan.at));
    }
    let word = symbol(scan);
    let (range, plain) = (begin..scan.at, table::normal(word));
    let other = other_kind(&table::normal(rest)).or_else(|| {
        let own = table::find(dim, &plain).is_some();
        if own { None } else { other_kind(&plain) }
    });
    match (other, table::find(dim, &plain)) {
        (Some(other), _) => Err(wrong_kind(scan.text, other, dim)),
        (None, Some(unit)) => Ok((unit, range)),
        (None, None) => Err(unknown(scan, dim, range)),
    }
}

/// Takes one unit sign or word.
fn symbol<'a>(scan: &mut Scan<'a>) -> &'a str {
    let start = scan.at;
    let mark = |c: char| "'’′\"”″°º˚%".contains(c);
    if scan.eat(|c| "'’′".contains(c)) {
        scan.eat(|c| "'’′".contains(c));
    } else if !scan.eat(mark) && scan.take(char::is_alphabetic).is_empty() {
        scan.take(|c| !c.is_whitespace());
    }
    scan.since(start)
}

fn other_kind(name: &str) -> Option<Dimension> {
    if name.starts_with(':') { Some(Dimension::Ratio) } else { table::dimension_of(name) }
}

fn wrong_kind(text: &str, is: Dimension, wanted: Dimension) -> TextError {
    let (is, noun, example) = (is.noun(), wanted.noun(), wanted.example());
    TextError::new(format!("{} is {is}; {noun} is wanted here, such as {example}", text.trim()), whole(text), None)
}

/// A number at `number` without unit, with the spellings that `units` would make right.
fn missing(scan: &Scan, units: &[&str], number: Range<usize>) -> TextError {
    let written = scan.text.get(number.clone()).unwrap_or("");
    let mark = |unit: &str| !unit.starts_with(char::is_alphabetic);
    let offer = |unit: &&str| format!("{}{}{unit}", scan.text.trim(), if mark(unit) { "" } else { " " });
    let offers: Vec<String> = units.iter().map(offer).collect();
    TextError::new(format!("{written} has no unit"), number, (!offers.is_empty()).then(|| offers.join("  or  ")))
}

/// An unknown unit at `range`: the nearest known ones, all of them on a tie, but only mm and in if they are among them.
fn unknown(scan: &Scan, dim: Dimension, range: Range<usize>) -> TextError {
    let word = scan.text.get(range.clone()).unwrap_or("");
    let names = table::of(dim).flat_map(|u| u.names.iter().copied());
    let mut near = suggest::nearest(&table::normal(word), names);
    if near.iter().any(|n| matches!(*n, "mm" | "in")) {
        near.retain(|n| matches!(*n, "mm" | "in"));
    }
    let help = if near.is_empty() {
        let all: Vec<&str> = table::of(dim).filter_map(|u| u.names.first().copied()).collect();
        format!("known here: {}", all.join(", "))
    } else {
        let spelt: Vec<String> = near.iter().map(|n| scan.with(&range, n)).collect();
        format!("did you mean: {}", spelt.join("  or  "))
    };
    TextError::new(format!("`{word}` is not a unit of {}", bare_noun(dim)), range, Some(help))
}

fn bare_noun(dim: Dimension) -> &'static str {
    dim.noun().trim_start_matches("an ").trim_start_matches("a ")
}

/// Refuses anything after the end of a quantity.
fn ends(scan: &mut Scan) -> Result<(), TextError> {
    let done = scan.since(0).trim();
    scan.spaces();
    let rest = scan.rest().trim_end();
    if rest.is_empty() {
        return Ok(());
    }
    let what = format!("`{rest}` is not expected after {done}");
    Err(TextError::new(what, scan.at..scan.at + rest.len(), None))
}

fn begin(text: &str, dimension: Dimension) -> Result<Scan<'_>, TextError> {
    if text.trim().is_empty() {
        let help = format!("{}, such as {}", dimension.noun(), dimension.example());
        return Err(TextError::new("nothing is written here", whole(text), Some(help)));
    }
    measured(text)
}

/// Starts reading, unless the text is too long.
fn measured(text: &str) -> Result<Scan<'_>, TextError> {
    match text.char_indices().nth(MOST_CHARACTERS) {
        None => Ok(Scan { text, at: 0 }),
        Some((at, _)) => {
            let what = format!("a quantity has at most {MOST_CHARACTERS} characters");
            Err(TextError::new(what, at..text.len(), None))
        }
    }
}

fn signed(number: Exact, minus: bool) -> Exact {
    if minus { number.negated() } else { number }
}

/// The text without the spaces around it.
fn whole(text: &str) -> Range<usize> {
    let start = text.len() - text.trim_start().len();
    start..start + text.trim().len()
}

#[cfg(test)]
mod tests;
