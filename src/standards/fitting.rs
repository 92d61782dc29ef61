//! One question about a hole and a shaft, answered in full: limits, clearance, kind, at another temperature too.

use crate::slip::{self, Slip};
use crate::source::Confirmed;
use crate::standards::ansi_b4_1;
use crate::standards::fit::{FitRange, Limits, fit_of};
use crate::standards::iso286::{self, Feature, Fit, ToleranceClass};
use crate::units::{Expansion, Length, LengthUnit, Temperature};

/// The least that a limit may be: below it the answer would show nought in one unit or the other.
const LEAST_LIMIT: Length = Length::um(2.0);

/// Play or interference beyond any class, as a part of the size, where ISO 286-1 has no letters for it.
/// Source: common practice, no source.
const BEYOND: f64 = 0.005;

/// More play, or more interference, than any class of that size has: two parts that were not meant for each other.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Beyond {
    /// It is play, else interference.
    pub play: bool,
    /// The most that a class has.
    pub most: Length,
    /// The slip that would explain it.
    pub slip: Option<Slip>,
}

impl Beyond {
    /// In words, for a partner of that size.
    pub fn said(&self, partner: Length, most: &str, unit: LengthUnit) -> String {
        let much = if self.play {
            "more play than the widest class of ISO 286 leaves"
        } else {
            "more interference than the tightest class of ISO 286 asks for"
        };
        let meant = self.slip.map_or_else(|| "measure again".into(), |slip| slip.question(partner, unit));
        format!("{much} at this size, {most}: {meant}")
    }
}

/// Whether a fit of that nominal size is beyond every class; `partner` is the size that would be the slip, the shaft or
/// else the hole.
pub fn beyond_any_class(nominal: Length, partner: Length, partner_is_shaft: bool, range: &FitRange) -> Option<Beyond> {
    let widest = iso286::widest_clearance(nominal).unwrap_or(nominal * BEYOND);
    let tightest = iso286::widest_interference(nominal).unwrap_or(nominal * BEYOND);
    let (smaller, larger) = if partner_is_shaft { (widest, tightest) } else { (tightest, widest) };
    let slip = slip::likely(partner, nominal - smaller, nominal + larger);
    if range.min_clearance > widest {
        Some(Beyond { play: true, most: widest, slip })
    } else if -range.max_clearance > tightest {
        Some(Beyond { play: false, most: tightest, slip })
    } else {
        None
    }
}

/// One side of the fit.
#[derive(Clone, Debug)]
pub struct Side {
    /// Its class or `RC4`-like symbol; `None` for a measured size.
    pub class: Option<String>,
    /// Its deviations from the nominal size.
    pub limits: Limits,
}

/// The answer.
#[derive(Clone, Debug)]
pub struct FitAnswer {
    /// Nominal size.
    pub nominal: Length,
    /// The hole, if it was asked for.
    pub hole: Option<Side>,
    /// The shaft, if it was asked for.
    pub shaft: Option<Side>,
    /// What they give together, if both are there.
    pub range: Option<FitRange>,
    /// Listed fits that hold both measured sizes.
    pub held_by: Vec<String>,
    /// What is kept, where a part is made to one that is measured.
    pub kept: Option<String>,
}

impl FitAnswer {
    fn new(nominal: Length, hole: Option<Side>, shaft: Option<Side>) -> Self {
        let range = match (&hole, &shaft) {
            (Some(h), Some(s)) => Some(fit_of(&h.limits, &s.limits)),
            _ => None,
        };
        Self { nominal, hole, shaft, range, held_by: Vec::new(), kept: None }
    }

    /// The weakest confirmation among the table values used.
    pub fn confirmed(&self) -> Confirmed {
        [&self.hole, &self.shaft]
            .into_iter()
            .flatten()
            .map(|s| s.limits.confirmed)
            .min()
            .unwrap_or(Confirmed::TwoOrMore)
    }

    /// The fit with hole and shaft at other temperatures: each grows by D α (t − 20 °C).
    /// Source: linear expansion; reference temperature ISO 1. `None` without both sides.
    pub fn at(&self, hole: (Expansion, Temperature), shaft: (Expansion, Temperature)) -> Option<FitRange> {
        let grown = |side: &Side, (expansion, t): (Expansion, Temperature)| {
            let growth = self.nominal * (expansion * t.above_reference());
            Limits { lower: side.limits.lower + growth, upper: side.limits.upper + growth, ..side.limits }
        };
        Some(fit_of(&grown(self.hole.as_ref()?, hole), &grown(self.shaft.as_ref()?, shaft)))
    }
}

/// Answers `H7/g6`, `H7`, `g6` or an inch class such as `RC4` for a nominal size.
///
/// # Errors
/// A sentence: not a class, or not defined for this size, and why.
pub fn by_class(nominal: Length, text: &str) -> Result<FitAnswer, String> {
    if ansi_b4_1::inch_fit_names().any(|name| name.eq_ignore_ascii_case(text)) {
        let fit = ansi_b4_1::inch_fit(nominal, &text.to_ascii_uppercase()).map_err(|e| e.to_string())?;
        let side = |symbol: &str, limits| Some(Side { class: Some(symbol.to_string()), limits });
        return standing(FitAnswer::new(nominal, side(fit.hole_symbol, fit.hole), side(fit.shaft_symbol, fit.shaft)));
    }
    if text.contains('/') {
        let fit = Fit::parse(text).map_err(|e| e.to_string())?;
        return standing(FitAnswer::new(nominal, Some(side(nominal, fit.hole)?), Some(side(nominal, fit.shaft)?)));
    }
    let class = ToleranceClass::parse(text).map_err(|e| e.to_string())?;
    let one = side(nominal, class)?;
    standing(match class.feature {
        Feature::Hole => FitAnswer::new(nominal, Some(one), None),
        Feature::Shaft => FitAnswer::new(nominal, None, Some(one)),
    })
}

/// The answer, unless a class leaves nothing of the size.
fn standing(answer: FitAnswer) -> Result<FitAnswer, String> {
    let sides = [&answer.hole, &answer.shaft].into_iter().flatten();
    let gone = sides.filter(|s| answer.nominal + s.limits.lower < LEAST_LIMIT).find_map(|s| s.class.clone());
    match gone {
        None => Ok(answer),
        Some(class) => Err(format!(
            "`{class}` leaves nothing of so small a size: its least would be nought or less; is that the unit which was meant?"
        )),
    }
}

fn side(nominal: Length, class: ToleranceClass) -> Result<Side, String> {
    let limits = iso286::limits(nominal, class).map_err(|e| e.to_string())?;
    Ok(Side { class: Some(class.to_string()), limits })
}

/// The part that is there, as measured.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum There {
    /// The hole is bored.
    Hole,
    /// The shaft is turned.
    Shaft,
}

/// What to make to a part that is there already. By a class for what is made (`g6` to a hole): its deviations counted from
/// the part as measured instead of from the nominal size, as if that were a basic hole or shaft. By a pair (`H7/g6`,
/// `RC4`): between what keeps the least and what keeps the greatest clearance of the pair.
/// Source: derived; clearance = hole - shaft. ISO 286-1:2010, 3.3.
///
/// # Errors
/// A sentence: not a class or not the one that is wanted, not defined for this size, or a part that is not of this size.
pub fn to_measured(nominal: Length, text: &str, there: There, size: Length) -> Result<FitAnswer, String> {
    let table = by_class(nominal, text)?;
    let off = size - nominal;
    let room = |most: Option<Length>| most.unwrap_or(nominal * BEYOND);
    if off.abs() > room(iso286::widest_clearance(nominal)).max(room(iso286::widest_interference(nominal))) {
        return Err("the part as measured is off the nominal size by more than any class: measure again, or give another nominal size".into());
    }
    let (made, is, wanted) = match there {
        There::Hole => (&table.shaft, "hole is bored", "the shaft's, such as g6, or the pair, such as H7/g6"),
        There::Shaft => (&table.hole, "shaft is turned", "the hole's, such as H7, or the pair, such as H7/g6"),
    };
    let Some(made) = made else { return Err(format!("the {is} already: the class that is wanted is {wanted}")) };
    let limits = match (&table.range, there) {
        (Some(r), There::Hole) => (off - r.max_clearance, off - r.min_clearance),
        (Some(r), There::Shaft) => (off + r.min_clearance, off + r.max_clearance),
        (None, _) => (off + made.limits.lower, off + made.limits.upper),
    };
    let kept = if table.range.is_some() {
        format!("least and greatest clearance of {text} are kept")
    } else {
        let part = if there == There::Hole { "hole" } else { "shaft" };
        format!("the deviations of {text} are counted from the {part} as measured")
    };
    let limits = Limits { lower: limits.0, upper: limits.1, ..made.limits };
    let made = Some(Side { class: Some(format!("to {text}")), limits });
    let measured = Some(measured(size, nominal));
    let answer = match there {
        There::Hole => FitAnswer::new(nominal, measured, made),
        There::Shaft => FitAnswer::new(nominal, made, measured),
    };
    standing(FitAnswer { kept: Some(kept), ..answer })
}

fn measured(size: Length, nominal: Length) -> Side {
    let off = size - nominal;
    Side { class: None, limits: Limits { lower: off, upper: off, confirmed: Confirmed::TwoOrMore, source: "measured" } }
}

/// What fit two measured sizes are, and which listed fits hold both.
pub fn by_size(nominal: Option<Length>, hole: Length, shaft: Length) -> FitAnswer {
    let nominal = nominal.unwrap_or_else(|| iso286::likely_nominal(hole, shaft));
    let mut answer = FitAnswer::new(nominal, Some(measured(hole, nominal)), Some(measured(shaft, nominal)));
    answer.held_by = iso286::standard_fits_holding(nominal, hole, shaft).iter().map(ToString::to_string).collect();
    answer
}
