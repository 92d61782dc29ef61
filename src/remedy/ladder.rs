//! The values that may stand behind one key of one file, as a ladder of texts.

use toml::de::DeValue;

use crate::record::lever::Grid;
use crate::units::text;
use crate::units::{Length, LengthUnit, show};

/// What a rung is written as.
#[derive(Clone, PartialEq, Debug)]
enum Manner {
    /// A number with a unit, in quotes.
    Quoted(&'static str),
    /// A number alone.
    Bare,
    /// Words; with quotes or without.
    Words(&'static [&'static str], bool),
}

/// A ladder: rung `i` is `i` steps from nought, the i-th size, or the i-th word.
#[derive(Clone, PartialEq, Debug)]
pub struct Ladder {
    /// Step in the unit that is written.
    step: f64,
    /// Least and greatest rung.
    pub least: i64,
    /// Greatest rung.
    pub most: i64,
    /// Where it stands now, in steps; none where nothing is known of it.
    pub now: Option<f64>,
    manner: Manner,
    /// The sizes of its rungs where they are no whole steps, and what stands now.
    sizes: Vec<f64>,
    stands: f64,
}

/// Whether what is written is that word, of an inch thread without its pitch or with the name of its series too.
fn says(written: &str, word: &str) -> bool {
    let bare = written.trim_end_matches(" UNC");
    bare == word || word.split_once('-').is_some_and(|(size, _)| size == bare)
}

/// The words of the system of units that is written, else of the file's.
fn by_unit(
    metric: &'static [&'static str],
    inch: &'static [&'static str],
    written: Option<&DeValue>,
    unit: Option<LengthUnit>,
) -> &'static [&'static str] {
    match written {
        Some(DeValue::String(word)) if word.starts_with('M') => metric,
        Some(DeValue::String(word)) if word.starts_with(|c: char| c.is_ascii_digit() || c == '#') => inch,
        _ if unit == Some(LengthUnit::Inch) => inch,
        _ => metric,
    }
}

/// The words of a switch.
const SWITCH: &[&str] = &["false", "true"];

impl Ladder {
    /// The ladder of a grid for what stands there now; `usual` is what is assumed where nothing is written, in the base unit of
    /// the grid (millimetres, degrees, newtons). None where what stands there is nothing of that kind.
    pub fn of(grid: Grid, written: Option<&DeValue>, unit: Option<LengthUnit>, usual: Option<f64>) -> Option<Self> {
        match grid {
            Grid::Length(mm, inch, least, most) => length([mm, inch, least, most], written, unit, usual),
            Grid::Sold(metric, inch) => sold(metric, inch, written, unit, usual),
            Grid::Angle(step, least, most) => {
                let now = read(written, usual, |t| text::angle(t).ok().map(crate::units::Angle::as_degrees))?;
                Some(Self::numbers(step, least, most, now, Manner::Quoted(" deg")))
            }
            Grid::Number(step, least, most) => {
                let now = match written.and_then(plain) {
                    Some(number) => Some(number),
                    None => read(written, usual, |t| text::bare_number(t).ok())?,
                };
                Some(Self::numbers(step, least, most, now, Manner::Bare))
            }
            Grid::Count(least, most) => {
                let now = match written {
                    Some(value) => Some(plain(value)?),
                    None => usual,
                };
                Some(Self::numbers(1.0, f64::from(least), f64::from(most), now, Manner::Bare))
            }
            Grid::Load(most) => load(most, written, unit, usual),
            Grid::Words(words) => Self::words(words, written, true),
            Grid::ByUnit(metric, inch) => Self::words(by_unit(metric, inch, written, unit), written, true),
            Grid::Flag => Self::words(SWITCH, written, false),
        }
    }

    fn numbers(step: f64, least: f64, most: f64, now: Option<f64>, manner: Manner) -> Self {
        let rung = |x: f64| x / step;
        Self {
            step,
            least: (rung(least) - 1e-9).ceil() as i64,
            most: (rung(most) + 1e-9).floor() as i64,
            now: now.map(rung),
            manner,
            sizes: Vec::new(),
            stands: now.unwrap_or(0.0),
        }
    }

    fn words(words: &'static [&'static str], written: Option<&DeValue>, quoted: bool) -> Option<Self> {
        let now = match written {
            None => None,
            Some(DeValue::String(word)) if quoted => words.iter().position(|w| says(word, w)),
            Some(DeValue::Boolean(on)) if !quoted => Some(usize::from(*on)),
            Some(_) => return None,
        };
        // A word that is not among them stands before the first.
        let now = now.map_or(-1.0, |at| at as f64);
        Some(Self {
            step: 1.0,
            least: 0,
            most: words.len() as i64 - 1,
            now: Some(now),
            manner: Manner::Words(words, quoted),
            sizes: Vec::new(),
            stands: now,
        })
    }

    /// What is written at a rung, as TOML.
    pub fn text(&self, rung: i64) -> String {
        match &self.manner {
            Manner::Words(words, quoted) => {
                let word = usize::try_from(rung).ok().and_then(|at| words.get(at)).copied().unwrap_or_default();
                if *quoted { format!("\"{word}\"") } else { word.to_string() }
            }
            Manner::Quoted(unit) => format!("\"{}{unit}\"", self.number(rung)),
            Manner::Bare => self.number(rung),
        }
    }

    fn number(&self, rung: i64) -> String {
        show::trimmed(self.size(rung), 6)
    }

    /// What a rung stands for, in the unit that is written.
    fn size(&self, rung: i64) -> f64 {
        let listed = usize::try_from(rung).ok().and_then(|at| self.sizes.get(at)).copied();
        listed.unwrap_or(rung as f64 * self.step)
    }

    /// The next rung up (`true`) or down from where it stands; none beyond the ends.
    pub fn first(&self, up: bool) -> Option<i64> {
        let now = self.now?;
        let rung = if up { (now + 1e-6).floor() as i64 + 1 } else { (now - 1e-6).ceil() as i64 - 1 };
        let rung = if up { rung.max(self.least) } else { rung.min(self.most) };
        (self.least..=self.most).contains(&rung).then_some(rung)
    }

    /// What is one rung nearer to where it stands; none where that is there already.
    pub fn nearer(&self, rung: i64) -> Option<String> {
        let up = rung as f64 > self.now?;
        (self.first(up)? != rung).then(|| self.text(if up { rung - 1 } else { rung + 1 }))
    }

    /// How large a change is, as a share of what stands there; of words, how many of them it goes past.
    pub fn share(&self, rung: i64) -> f64 {
        let now = self.now.unwrap_or(0.0);
        let by = (rung as f64 - now).abs();
        match self.manner {
            Manner::Words(..) => 0.1 * by,
            _ if !self.sizes.is_empty() => (self.size(rung) - self.stands).abs() / self.stands.abs().max(1e-9),
            _ => by / now.abs().max(1.0),
        }
    }
}

/// The number that stands there as a text, else what is usual; the outer none where the text is nothing of the kind.
#[allow(clippy::option_option, reason = "nothing known and nothing of the kind are two things")]
fn read(written: Option<&DeValue>, usual: Option<f64>, by: impl Fn(&str) -> Option<f64>) -> Option<Option<f64>> {
    match written {
        None => Some(usual),
        // What is still to be found.
        Some(DeValue::String(text)) if text == "?" => Some(usual),
        Some(DeValue::String(text)) => by(text).map(Some),
        Some(_) => None,
    }
}

fn plain(value: &DeValue) -> Option<f64> {
    match value {
        DeValue::Integer(i) => i.as_str().parse().ok(),
        DeValue::Float(f) => f.as_str().parse().ok(),
        _ => None,
    }
}

fn length(
    [mm, inch, least, most]: [f64; 4],
    written: Option<&DeValue>,
    unit: Option<LengthUnit>,
    usual: Option<f64>,
) -> Option<Ladder> {
    let bare = written.and_then(plain);
    let (now, inches) = match bare {
        Some(number) => {
            let unit = unit?;
            (Some(text::length_from_number(number, unit).ok()?.as_mm()), unit == LengthUnit::Inch)
        }
        None => {
            let now =
                read(written, usual, |t| text::length_with_default(t, unit).ok().map(crate::units::Length::as_mm))?;
            let inches = match written {
                Some(DeValue::String(text)) if text.chars().any(|c| c.is_ascii_alphabetic() || "\"'°".contains(c)) => {
                    text.contains("in") || text.contains("thou") || text.contains("mil") || text.contains(['"', '\''])
                }
                _ => unit == Some(LengthUnit::Inch),
            };
            (now, inches)
        }
    };
    let (step, per) = if inches { (inch, 25.4) } else { (mm, 1.0) };
    let manner = match (bare.is_some(), inches) {
        (true, _) => Manner::Bare,
        (false, true) => Manner::Quoted(" in"),
        (false, false) => Manner::Quoted(" mm"),
    };
    Some(Ladder::numbers(step, least / per, most / per, now.map(|n| n / per), manner))
}

/// The sizes that are sold, in the unit that is written: rung by rung, what stands between two of them half-way.
fn sold(
    metric: &[Length],
    inch: &[Length],
    written: Option<&DeValue>,
    unit: Option<LengthUnit>,
    usual: Option<f64>,
) -> Option<Ladder> {
    // Steps of one unit: where it stands is a size then, and the step tells which unit is written.
    let base = length([1.0, 0.5, 0.0, 1.0], written, unit, usual)?;
    let inches = base.step < 1.0;
    let sizes: Vec<f64> = match inches {
        true => inch.iter().map(|l| l.as_inches()).collect(),
        false => metric.iter().map(|l| l.as_mm()).collect(),
    };
    let stands = base.now.map(|now| now * base.step);
    let now = stands.map(|stands| {
        let below = sizes.iter().filter(|size| **size < stands - 1e-9).count();
        let on_one = sizes.get(below).is_some_and(|size| (size - stands).abs() < 1e-9);
        below as f64 - if on_one { 0.0 } else { 0.5 }
    });
    let most = sizes.len() as i64 - 1;
    Some(Ladder { least: 0, most, now, stands: stands.unwrap_or(0.0), sizes, ..base })
}

/// Units of loads: as written, newtons in one, and the step.
const LOADS: &[(&str, &str, f64)] =
    &[(" kg", "1 kg", 5.0), (" lb", "1 lb", 10.0), (" kN", "1 kN", 0.05), (" lbf", "1 lbf", 10.0), (" N", "1 N", 50.0)];

fn load(most: f64, written: Option<&DeValue>, file: Option<LengthUnit>, usual: Option<f64>) -> Option<Ladder> {
    let now = read(written, usual, |t| text::load(t).ok().map(crate::units::Force::as_newtons))?;
    let ends_with = |unit: &str| match written {
        Some(DeValue::String(text)) => text.trim_end().ends_with(unit.trim()),
        _ if file == Some(LengthUnit::Inch) => unit == " lbf",
        _ => unit == " kN",
    };
    let (unit, one, step) = LOADS.iter().find(|(unit, ..)| ends_with(unit)).or(LOADS.last())?;
    let one = text::load(one).ok()?.as_newtons();
    Some(Ladder::numbers(*step, 0.0, most / one, now.map(|n| n / one), Manner::Quoted(unit)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::remedy::edit::File;

    fn ladder(grid: Grid, file: &str, unit: Option<LengthUnit>) -> Option<Ladder> {
        let file = File::read(file).unwrap();
        let found = file.at("a");
        Ladder::of(grid, found.as_ref().map(|f| &f.value), unit, Some(7.0))
    }

    const SIZE: Grid = Grid::Length(0.1, 0.005, 1.0, 100.0);

    #[test]
    fn a_ladder_is_written_as_the_file_writes() {
        for (file, unit, up, down) in [
            ("a = \"41 mm\"", None, "\"41.1 mm\"", "\"40.9 mm\""),
            ("a = '1-5/8 in'", None, "\"1.63 in\"", "\"1.62 in\""),
            ("a = 1.6251", Some(LengthUnit::Inch), "1.63", "1.625"),
            ("a = \"40.03\"", Some(LengthUnit::Mm), "\"40.1 mm\"", "\"40 mm\""),
            ("a = '12 thou'", None, "\"0.04 in\"", ""),
            ("b = 1", None, "\"7.1 mm\"", "\"6.9 mm\""),
        ] {
            let l = ladder(SIZE, file, unit).unwrap();
            let text = |up| l.first(up).map(|r| l.text(r)).unwrap_or_default();
            assert_eq!((text(true).as_str(), text(false).as_str()), (up, down), "{file}");
        }
        assert!(ladder(SIZE, "a = true", None).is_none());
        assert!(ladder(SIZE, "a = \"H7\"", None).is_none());
    }

    /// Of plates that are sold: 10 mm goes to 12 and to 8, 11 mm to 12 and to 10, 3/8 in to 1/2.
    #[test]
    fn sizes_that_are_sold() {
        const PLATE: Grid = Grid::Sold(
            &[Length::mm(8.0), Length::mm(10.0), Length::mm(12.0)],
            &[Length::inches(0.25), Length::inches(0.375), Length::inches(0.5)],
        );
        for (file, up, down) in [
            ("a = \"10 mm\"", "\"12 mm\"", "\"8 mm\""),
            ("a = \"11 mm\"", "\"12 mm\"", "\"10 mm\""),
            ("a = '3/8 in'", "\"0.5 in\"", "\"0.25 in\""),
            ("a = \"60 mm\"", "", "\"12 mm\""),
        ] {
            let l = ladder(PLATE, file, None).unwrap();
            let text = |up| l.first(up).map(|r| l.text(r)).unwrap_or_default();
            assert_eq!((text(true).as_str(), text(false).as_str()), (up, down), "{file}");
        }
        let l = ladder(PLATE, "a = \"10 mm\"", None).unwrap();
        assert!((l.share(2) - 0.2).abs() < 1e-12);
    }

    #[test]
    fn other_kinds() {
        let up = |grid, file: &str| {
            let l = ladder(grid, file, None).unwrap();
            l.first(true).map(|r| l.text(r))
        };
        assert_eq!(up(Grid::Angle(0.5, 5.0, 80.0), "a = \"29.7 deg\"").unwrap(), "\"30 deg\"");
        assert_eq!(up(Grid::Angle(0.5, 5.0, 80.0), "a = \"79.9 deg\"").unwrap(), "\"80 deg\"");
        assert_eq!(up(Grid::Angle(0.5, 5.0, 80.0), "a = \"80 deg\""), None);
        assert_eq!(up(Grid::Load(1e5), "a = \"850 kg\"").unwrap(), "\"855 kg\"");
        assert_eq!(up(Grid::Load(1e5), "a = \"2.5 kN\"").unwrap(), "\"2.55 kN\"");
        assert_eq!(up(Grid::Count(1, 9), "a = 4").unwrap(), "5");
        assert_eq!(up(Grid::Number(0.05, 0.0, 1.0), "a = 0.30").unwrap(), "0.35");
        assert_eq!(up(Grid::Words(&["x", "y"]), "a = \"x\"").unwrap(), "\"y\"");
        assert_eq!(up(Grid::Words(&["x", "y"]), "a = \"other\"").unwrap(), "\"x\"");
        assert_eq!(up(Grid::Flag, "a = false").unwrap(), "true");
    }
}
