//! One question about a hole and a shaft, answered in full: limits, clearance, kind, at another temperature too.

use crate::source::Confirmed;
use crate::standards::ansi_b4_1;
use crate::standards::fit::{FitRange, Limits, fit_of};
use crate::standards::iso286::{self, Feature, Fit, ToleranceClass};
use crate::units::{Expansion, Length, Temperature};

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
}

impl FitAnswer {
    fn new(nominal: Length, hole: Option<Side>, shaft: Option<Side>) -> Self {
        let range = match (&hole, &shaft) {
            (Some(h), Some(s)) => Some(fit_of(&h.limits, &s.limits)),
            _ => None,
        };
        Self { nominal, hole, shaft, range, held_by: Vec::new() }
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
        return Ok(FitAnswer::new(nominal, side(fit.hole_symbol, fit.hole), side(fit.shaft_symbol, fit.shaft)));
    }
    if text.contains('/') {
        let fit = Fit::parse(text).map_err(|e| e.to_string())?;
        return Ok(FitAnswer::new(nominal, Some(side(nominal, fit.hole)?), Some(side(nominal, fit.shaft)?)));
    }
    let class = ToleranceClass::parse(text).map_err(|e| e.to_string())?;
    let one = side(nominal, class)?;
    Ok(match class.feature {
        Feature::Hole => FitAnswer::new(nominal, Some(one), None),
        Feature::Shaft => FitAnswer::new(nominal, None, Some(one)),
    })
}

fn side(nominal: Length, class: ToleranceClass) -> Result<Side, String> {
    let limits = iso286::limits(nominal, class).map_err(|e| e.to_string())?;
    Ok(Side { class: Some(class.to_string()), limits })
}

/// What fit two measured sizes are, and which listed fits hold both.
pub fn by_size(nominal: Option<Length>, hole: Length, shaft: Length) -> FitAnswer {
    let nominal = nominal.unwrap_or_else(|| iso286::likely_nominal(hole, shaft));
    let measured = |size: Length| {
        let off = size - nominal;
        Side {
            class: None,
            limits: Limits { lower: off, upper: off, confirmed: Confirmed::TwoOrMore, source: "measured" },
        }
    };
    let mut answer = FitAnswer::new(nominal, Some(measured(hole)), Some(measured(shaft)));
    answer.held_by = iso286::standard_fits_holding(nominal, hole, shaft).iter().map(ToString::to_string).collect();
    answer
}
