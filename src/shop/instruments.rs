//! The shop's measuring instruments: what each can read, and how far its readings can be trusted.

use crate::description::Fields;
use crate::formulas::uncertainty::{self, Instrument};
use crate::record::key::{Key, Kind};
use crate::units::{Angle, Length};

const NAME: Key = Key::new("name", "name", Kind::Text, "name of the instrument, such as \"micrometer\"");
const READS: Key = Key::new(
    "reads",
    "reads",
    Kind::Choice(&["outside", "inside", "depth", "gap", "any", "angle"]),
    "what it measures: \"outside\", \"inside\", \"depth\", \"gap\", \"any\" (of these) or \"angle\"",
);
const UNCERTAINTY: Key = Key::new(
    "uncertainty",
    "uncertainty",
    Kind::Text,
    "expanded uncertainty of one careful reading, coverage factor 2, such as \"4 um\"; of an angle such as \"0.1 deg\"",
);

const LEAST_COUNT: Key = Key::new(
    "least_count",
    "least count",
    Kind::Text,
    "the step in which it reads, such as \"0.01 mm\", of an angle \"0.1 deg\"; no reading is better than that lets it be",
);

/// Keys of `[[instrument]]`.
pub const KEYS: &[Key] = &[NAME, READS, UNCERTAINTY, LEAST_COUNT];

/// What an instrument measures, and what kind of size a size is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Reads {
    /// An outside: a diameter, a thickness, a length.
    Outside,
    /// An inside: a bore, a slot.
    Inside,
    /// A depth or a height.
    Depth,
    /// A gap or a float.
    Gap,
    /// Any length.
    Any,
    /// An angle.
    Angle,
}

impl Reads {
    fn named(word: &str) -> Self {
        match word {
            "outside" => Self::Outside,
            "inside" => Self::Inside,
            "depth" => Self::Depth,
            "gap" => Self::Gap,
            "angle" => Self::Angle,
            _ => Self::Any,
        }
    }
}

/// How far one careful reading can be trusted: expanded uncertainty, coverage factor 2.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Expanded {
    /// Of a length.
    Length(Length),
    /// Of an angle.
    Angle(Angle),
}

impl Expanded {
    /// In millimetres or degrees.
    pub const fn number(self) -> f64 {
        match self {
            Self::Length(l) => l.as_mm(),
            Self::Angle(a) => a.as_degrees(),
        }
    }
}

/// A measuring instrument of the shop.
#[derive(Clone, PartialEq, Debug)]
pub struct Gauge {
    /// Its name.
    pub name: String,
    /// What it measures.
    pub reads: Reads,
    /// How far its readings can be trusted.
    pub u: Expanded,
    /// The step in which it reads, where the shop says so.
    pub least_count: Option<Expanded>,
    /// The figure is a usual one, not the shop's own.
    pub assumed: bool,
}

impl Gauge {
    /// Whether it measures that kind of size.
    pub fn measures(&self, kind: Reads) -> bool {
        match (self.reads, kind) {
            (Reads::Angle, Reads::Angle) => true,
            (Reads::Angle, _) | (_, Reads::Angle) => false,
            (Reads::Any, _) | (_, Reads::Any) => true,
            (reads, kind) => reads == kind,
        }
    }

    /// U of one reading of a length, with k = 2; nought of what reads angles.
    pub const fn length(&self) -> Length {
        match self.u {
            Expanded::Length(l) => l,
            Expanded::Angle(_) => Length::ZERO,
        }
    }

    /// Of which usual kind it is: "micrometer 0-25" is a micrometer.
    fn kind(&self) -> Option<Instrument> {
        Instrument::ALL.into_iter().find(|i| is_of(&self.name, i.name()))
    }

    /// Whether it measures the thickness of a ring.
    pub fn measures_thickness(&self) -> bool {
        self.kind().map_or(matches!(self.reads, Reads::Outside | Reads::Any), Instrument::measures_thickness)
    }

    /// Whether it measures a float or a gap.
    pub fn measures_gaps(&self) -> bool {
        let reads = !matches!(self.reads, Reads::Outside | Reads::Angle);
        self.kind().map_or(reads, Instrument::measures_gaps)
    }
}

/// Whether a name is that kind, or one of several of it: "micrometer" or "micrometer 0-25".
fn is_of(name: &str, kind: &str) -> bool {
    name.strip_prefix(kind).is_some_and(|rest| rest.is_empty() || rest.starts_with(' '))
}

/// The instrument that a word means: the shop's own of that name, of several of that kind the coarsest, else the usual one.
pub fn called<'g>(all: &'g [Gauge], name: &str) -> Option<&'g Gauge> {
    let own = all.iter().filter(|g| !g.assumed && is_of(&g.name, name));
    let coarsest = || own.max_by(|a, b| a.u.number().total_cmp(&b.u.number()));
    all.iter().find(|g| g.name == name).or_else(coarsest)
}

/// What else a bench has that a step may name, and with what a reading may have been taken; the sizes at the steps are not judged by them.
/// Source of the figures: common practice, no source; they are assumed until the shop states its own.
fn further() -> Vec<Gauge> {
    let own = |name: &str, reads, u| Gauge {
        name: name.into(),
        reads,
        u: Expanded::Length(Length::mm(u)),
        least_count: None,
        assumed: true,
    };
    vec![
        own("depth gauge", Reads::Depth, 0.05),
        own("radius gauge", Reads::Any, 0.1),
        own("telescopic gauge", Reads::Inside, 0.02),
        own("plug gauge", Reads::Inside, 0.01),
        own("gauge blocks", Reads::Any, 0.005),
    ]
}

/// The instrument that the words of a step mean, which may name several ("bore gauge or telescopic gauge and micrometer"): of those
/// that measure what is asked for the coarsest.
pub fn meant(all: &[Gauge], words: &str, kind: Reads) -> Option<Gauge> {
    if let Some(gauge) = called(all, words) {
        return Some(gauge.clone());
    }
    let spare = further().into_iter().filter(|g| !all.iter().any(|known| known.name == g.name));
    let every: Vec<Gauge> = all.iter().cloned().chain(spare).collect();
    let named = named_in(&every, words).into_iter().filter(|g| g.measures(kind));
    named.max_by(|a, b| a.u.number().total_cmp(&b.u.number())).cloned()
}

/// The shop's instrument of a usual kind: its own where it states one, else the usual one.
pub fn of_kind(all: &[Gauge], kind: Instrument) -> Gauge {
    called(all, kind.name()).cloned().unwrap_or_else(|| usual_one(kind))
}

/// The instruments that a text names, each as the shop has it.
pub fn named_in<'g>(all: &'g [Gauge], text: &str) -> Vec<&'g Gauge> {
    let mut words: Vec<String> =
        all.iter().map(|g| g.name.clone()).chain(usual().into_iter().chain(further()).map(|g| g.name)).collect();
    // "depth micrometer" is no micrometer.
    words.sort_by(|a, b| b.len().cmp(&a.len()).then_with(|| a.cmp(b)));
    words.dedup();
    let mut left = text.to_string();
    let mut found: Vec<(usize, &Gauge)> = Vec::new();
    for word in words {
        let Some(at) = left.find(&word) else { continue };
        left = left.replace(&word, &" ".repeat(word.len()));
        found.extend(called(all, &word).map(|gauge| (at, gauge)));
    }
    found.sort_by_key(|(at, _)| *at);
    found.into_iter().map(|(_, gauge)| gauge).collect()
}

/// What a usual bench has, coarse ones first: those of [`Instrument`], and what reads bores and angles.
/// Source of the figures: common practice, no source; they are shown as assumed until the shop states its own.
pub fn usual() -> Vec<Gauge> {
    let own = |name: &str, reads, u| Gauge { name: name.into(), reads, u, least_count: None, assumed: true };
    let more = [
        own("bore gauge", Reads::Inside, Expanded::Length(Length::mm(0.008))),
        own("bevel protractor", Reads::Angle, Expanded::Angle(Angle::degrees(10.0 / 60.0))),
        own("compound scale", Reads::Angle, Expanded::Angle(Angle::degrees(0.25))),
        own("sine bar", Reads::Angle, Expanded::Angle(Angle::degrees(1.0 / 60.0))),
    ];
    Instrument::ALL.into_iter().map(usual_one).chain(more).collect()
}

fn usual_one(i: Instrument) -> Gauge {
    let reads = match i {
        Instrument::Tape | Instrument::Calliper => Reads::Any,
        Instrument::Feeler | Instrument::DialIndicator => Reads::Gap,
        Instrument::DepthMicrometer => Reads::Depth,
        Instrument::Micrometer => Reads::Outside,
    };
    let u = Expanded::Length(i.expanded_uncertainty().value);
    Gauge { name: i.name().into(), reads, u, least_count: None, assumed: true }
}

/// The shop's own instruments over the usual ones.
pub fn read(rows: &[Fields]) -> Vec<Gauge> {
    let mut all = usual();
    let mut named: Vec<String> = Vec::new();
    for row in rows {
        let Some(gauge) = one(row, &all) else { continue };
        if named.contains(&gauge.name) {
            let help = "one name, one instrument: \"micrometer 0-25\" and \"micrometer 25-50\"";
            row.problem_at(&NAME, format!("there are two instruments called `{}`", gauge.name), Some(help.into()));
            continue;
        }
        named.push(gauge.name.clone());
        // Whoever states one micrometer has that one, not another beside it.
        all.retain(|known| known.name != gauge.name && !(known.assumed && is_of(&gauge.name, &known.name)));
        all.push(gauge);
    }
    all
}

fn one(row: &Fields, usual: &[Gauge]) -> Option<Gauge> {
    let name = row.required_text(&NAME)?.value.trim().to_lowercase();
    if name.is_empty() || name.chars().count() > 40 {
        row.problem_at(&NAME, "the name of an instrument is 1 to 40 characters".into(), Some(NAME.help.into()));
        return None;
    }
    let known = usual.iter().find(|g| g.name == name);
    let reads = match row.choice(&READS) {
        Some(word) => Reads::named(word.value),
        None => known.map_or(Reads::Any, |g| g.reads),
    };
    let (u, least_count) = (of(row, reads, &UNCERTAINTY), of(row, reads, &LEAST_COUNT));
    if row.has(&LEAST_COUNT) && least_count.is_none_or(|(_, sound)| !sound) {
        if least_count.is_some() {
            row.problem_at(&LEAST_COUNT, format!("{name} reads in no such steps"), Some(LEAST_COUNT.help.into()));
        }
        return None;
    }
    let Some((u, sound)) = u else {
        if !row.has(&UNCERTAINTY) {
            row.missing(&format!("`uncertainty` is missing: {}", UNCERTAINTY.help), None);
        }
        return None;
    };
    if !sound {
        let message = format!("no reading of {name} is as good or as bad as that");
        row.problem_at(&UNCERTAINTY, message, Some(UNCERTAINTY.help.into()));
        return None;
    }
    let least_count = least_count.map(|(step, _)| step);
    if least_count.is_some_and(|step| u.number() < uncertainty::by_steps(step.number()) * 2.0 * (1.0 - 1e-9)) {
        let message = format!("no reading of {name} is as good as that: it reads in coarser steps");
        let help = "0.58 of least_count or more (0.29 of it is one sigma, coverage factor 2)";
        row.problem_at(&UNCERTAINTY, message, Some(help.into()));
        return None;
    }
    Some(Gauge { name, reads, u, least_count, assumed: false })
}

/// A figure of an instrument in the kind of what it reads, and whether it is one that an instrument can have.
fn of(row: &Fields, reads: Reads, key: &'static Key) -> Option<(Expanded, bool)> {
    if reads == Reads::Angle {
        let given = row.by(key, "an angle such as \"0.1 deg\"", crate::units::text::angle);
        given.map(|g| (Expanded::Angle(g.value), g.value > Angle::ZERO && g.value < Angle::degrees(10.0)))
    } else {
        let given = row.by(key, "a length such as \"4 um\"", crate::units::text::length);
        given.map(|g| (Expanded::Length(g.value), g.value > Length::ZERO && g.value < Length::mm(100.0)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every name that a step prints is one with which a reading may have been taken. Common practice, no source.
    #[test]
    fn what_steps_name_is_known() {
        let all = usual();
        for (words, kind, is) in [
            ("depth gauge", Reads::Depth, "depth gauge"),
            ("screw and depth gauge", Reads::Depth, "depth gauge"),
            ("radius gauge", Reads::Any, "radius gauge"),
            ("calliper with thin jaws", Reads::Inside, "calliper"),
            ("depth micrometer or gauge blocks", Reads::Depth, "depth micrometer"),
            ("bore gauge or telescopic gauge and micrometer", Reads::Inside, "telescopic gauge"),
            ("sine bar or two sizes over rollers", Reads::Angle, "sine bar"),
        ] {
            assert_eq!(meant(&all, words, kind).unwrap().name, is, "{words}");
        }
        assert_eq!(meant(&all, "good eye", Reads::Any), None);
    }
}
