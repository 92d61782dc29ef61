//! One shim instead of a stack: how wide, how exact, ground from which stock, or put together from what is at hand.
//!
//! A loose stack is thicker than the sum of its shims by film, burr and curl at each joint: the
//! float without shims, less the float with them, is what the stack really took up.

mod batch;
mod search;

pub use batch::{order_by_share, size_classes};
pub use search::{Combination, MOST_AT_HAND, Prefer, StockChoice, best_combination, from_stock};

use super::uncertainty::{Contribution, Measured, TWO_SIGMA, combine};
use super::{MechanicsError, finite, not_negative, positive};
use crate::units::Length;

/// The thinnest that a shim or a limit of its width may be: below it, none is put in.
/// Source: common practice, no source.
pub const THINNEST: Length = Length::um(2.0);

/// What was measured.
#[derive(Clone, PartialEq, Debug)]
pub enum ShimSource {
    /// Old shims, each measured alone, and the float with them in place.
    Replaces {
        /// Every shim that comes out.
        shims: Vec<Measured>,
        /// Float with these shims in.
        present_float: Measured,
    },
    /// The float (gap) without any shim.
    Gap(Measured),
}

/// The float wanted, smallest and largest.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct FloatTarget {
    /// Smallest permitted float.
    pub min: Length,
    /// Largest permitted float.
    pub max: Length,
}

/// On how many sides a shim goes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Sides {
    /// One shim.
    One,
    /// One shim left, one right.
    Two,
}

impl Sides {
    /// Their number.
    pub const fn count(self) -> f64 {
        match self {
            Self::One => 1.0,
            Self::Two => 2.0,
        }
    }
}

/// Width of the shims that come next where the float is not what was wanted: w + (f − t)/n, with w the width of one that is in, f the
/// float as measured, t the one wanted, n the number of shims that share it. Lengths in one unit, n 1 or 2.
/// Source: derived; float = gap − n w.
pub fn next_width(inside: Length, float: Length, target: Length, sides: u32) -> Result<Length, MechanicsError> {
    finite("a width", inside.as_mm())?;
    finite("a float", float.as_mm())?;
    if !(1..=2).contains(&sides) {
        return Err(MechanicsError::OutOfRange { what: "the number of shims", range: "1 or 2" });
    }
    Ok(inside + (float - target) / f64::from(sides))
}

/// The whole question.
#[derive(Clone, PartialEq, Debug)]
pub struct ShimQuestion {
    /// What was measured.
    pub source: ShimSource,
    /// The float wanted.
    pub target: FloatTarget,
    /// One shim or two.
    pub sides: Sides,
    /// How far to the right of the middle the part is to sit; two sides only.
    pub offset: Length,
}

/// Which shim is meant.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Side {
    /// The only one.
    Only,
    /// On the left.
    Left,
    /// On the right.
    Right,
}

/// One shim to be made.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ShimSize {
    /// Where it goes.
    pub side: Side,
    /// Nominal width.
    pub width: Length,
    /// Smallest width that may be made.
    pub lower: Length,
    /// Largest width that may be made.
    pub upper: Length,
}

/// The float that comes out.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct FloatForecast {
    /// Smallest, shims at their largest and the measurement wrong by its uncertainty.
    pub min: Length,
    /// With shims at nominal width and a true measurement.
    pub nominal: Length,
    /// Largest.
    pub max: Length,
}

/// What the answer should not be read without.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum ShimWarning {
    /// Widths of loose shims were added; the stack was thicker than its sum.
    StackOfLooseShims,
    /// The measuring uncertainty is as large as the permitted float leaves room for.
    UncertaintyFillsTheFloat,
}

impl ShimWarning {
    /// The warning as a sentence.
    pub const fn text(self) -> &'static str {
        match self {
            Self::StackOfLooseShims => {
                "shims measured one by one add up to less than their stack took up (film and burr, a few micrometres \
                 each joint): measure the float without any shim instead"
            }
            Self::UncertaintyFillsTheFloat => {
                "the measurement is not good enough for this float: even a shim of exactly this width may leave the \
                 float outside its limits; measure again with a finer instrument, or allow more float"
            }
        }
    }
}

/// The answer.
#[derive(Clone, PartialEq, Debug)]
pub struct ShimAnswer {
    /// Float without any shim, as measured or as added up.
    pub gap: Length,
    /// Width of all new shims together.
    pub total: Length,
    /// Width of each when shared equally.
    pub each: Length,
    /// Smallest width of each when shared equally.
    pub lower: Length,
    /// Largest width of each when shared equally.
    pub upper: Length,
    /// The shims to make, left before right, centring offset included.
    pub sizes: Vec<ShimSize>,
    /// The float that comes out.
    pub float: FloatForecast,
    /// Expanded uncertainty of `total`, 95.45 % (k = 2 when the instruments' figures are taken as known).
    pub uncertainty: Length,
    /// What to keep in mind.
    pub warnings: Vec<ShimWarning>,
}

/// Width and tolerance of the shim that brings the float to its target.
///
/// total = Σ s_i + f_present - f_target, or total = gap - f_target, with f_target the middle of the permitted range;
/// two sides: left = (total + 2c)/2, right = (total - 2c)/2 for a part that sits c to the right of the middle.
/// Tolerance: the half range of the float, less the measuring uncertainty U, shared over the sides (acceptance only
/// inside limits pulled in by U: the idea of ISO 14253-1, from memory). When U leaves nothing, the tolerance is nil
/// and a warning says so. Where the gap itself, U either way, lies within the permitted range, none is needed:
/// a least width of nought or less says the same. All lengths are widths along the axis.
/// Source: derived here (the gap is filled by float and shims).
///
/// ```
/// use setdown::formulas::shims::*;
/// use setdown::formulas::uncertainty::Measured;
/// use setdown::units::Length;
/// let answer = shim_width(&ShimQuestion {
///     source: ShimSource::Gap(Measured::with_expanded(Length::mm(1.28), Length::ZERO)),
///     target: FloatTarget { min: Length::mm(0.05), max: Length::mm(0.15) },
///     sides: Sides::One,
///     offset: Length::ZERO,
/// })?;
/// assert!((answer.total.as_mm() - 1.18).abs() < 1e-12);
/// # Ok::<(), setdown::formulas::MechanicsError>(())
/// ```
pub fn shim_width(question: &ShimQuestion) -> Result<ShimAnswer, MechanicsError> {
    check_target(&question.target)?;
    let (gap, uncertainty) = gap_and_uncertainty(&question.source)?;
    if question.target.min <= gap - uncertainty && gap + uncertainty <= question.target.max {
        return Err(MechanicsError::NotNeeded("no shim is needed: without any, the float is already what is wanted"));
    }
    let target = (question.target.min + question.target.max) / 2.0;
    let total = gap - target;
    if total <= Length::ZERO {
        return Err(MechanicsError::Impossible(
            "the float is already smaller than wanted: there is no room for a shim",
        ));
    }
    let sides = question.sides.count();
    let spare = (question.target.max - question.target.min) / 2.0 - uncertainty;
    let half_tolerance = spare.max(Length::ZERO) / sides;
    let each = total / sides;
    if each < THINNEST {
        return Err(MechanicsError::Impossible("the shim would be thinner than anything that can be made"));
    }
    let swing = half_tolerance * sides + uncertainty;
    Ok(ShimAnswer {
        gap,
        total,
        each,
        lower: (each - half_tolerance).max(THINNEST),
        upper: each + half_tolerance,
        sizes: sizes(total, half_tolerance, question)?,
        float: FloatForecast { min: target - swing, nominal: target, max: target + swing },
        uncertainty,
        warnings: warnings(&question.source, spare),
    })
}

fn check_target(target: &FloatTarget) -> Result<(), MechanicsError> {
    not_negative("the smallest float", target.min.as_mm())?;
    finite("the largest float", target.max.as_mm())?;
    if target.min <= target.max {
        Ok(())
    } else {
        Err(MechanicsError::NotSmaller { smaller: "the smallest float", larger: "the largest float" })
    }
}

/// The gap that float and shims share, and its expanded uncertainty.
fn gap_and_uncertainty(source: &ShimSource) -> Result<(Length, Length), MechanicsError> {
    let mut parts = Vec::new();
    let gap = match source {
        ShimSource::Gap(gap) => {
            gap.check("the gap")?;
            parts.push(*gap);
            gap.value
        }
        ShimSource::Replaces { shims, present_float } => {
            check_stack(shims)?;
            present_float.check("the present float")?;
            not_negative("the present float", present_float.value.as_mm())?;
            parts.extend(shims.iter().copied().chain([*present_float]));
            parts.iter().map(|part| part.value).sum()
        }
    };
    positive("the gap", gap.as_mm())?;
    let budget: Vec<Contribution> = parts.iter().map(|part| Contribution::of(1.0, part)).collect();
    Ok((gap, combine(&budget)?.expanded(TWO_SIGMA)?))
}

fn check_stack(shims: &[Measured]) -> Result<(), MechanicsError> {
    if shims.is_empty() {
        return Err(MechanicsError::Empty("shims to replace"));
    }
    for shim in shims {
        shim.check("a shim's width")?;
        positive("a shim's width", shim.value.as_mm())?;
    }
    Ok(())
}

fn sizes(total: Length, half_tolerance: Length, question: &ShimQuestion) -> Result<Vec<ShimSize>, MechanicsError> {
    finite("the centring offset", question.offset.as_mm())?;
    let size = |side, width: Length| {
        let lower = (width - half_tolerance).max(THINNEST);
        ShimSize { side, width, lower, upper: width + half_tolerance }
    };
    match question.sides {
        Sides::One if question.offset != Length::ZERO => {
            Err(MechanicsError::Impossible("a centring offset needs a shim on both sides"))
        }
        Sides::One => Ok(vec![size(Side::Only, total)]),
        Sides::Two => {
            let (left, right) = split(total, question.offset);
            if left.min(right) - half_tolerance < THINNEST {
                return Err(MechanicsError::Impossible("the centring offset leaves no shim on one side"));
            }
            Ok(vec![size(Side::Left, left), size(Side::Right, right)])
        }
    }
}

/// Left and right shim for a part that sits `offset` to the right of the middle: (S + 2c)/2 and (S - 2c)/2.
pub fn split(total: Length, offset: Length) -> (Length, Length) {
    ((total + 2.0 * offset) / 2.0, (total - 2.0 * offset) / 2.0)
}

fn warnings(source: &ShimSource, spare: Length) -> Vec<ShimWarning> {
    let mut warnings = Vec::new();
    if matches!(source, ShimSource::Replaces { shims, .. } if shims.len() > 1) {
        warnings.push(ShimWarning::StackOfLooseShims);
    }
    if spare <= Length::ZERO {
        warnings.push(ShimWarning::UncertaintyFillsTheFloat);
    }
    warnings
}

/// What a stack really takes up: float without it less float with it, f0 - f1.
pub fn effective_stack(float_without: Length, float_with: Length) -> Result<Length, MechanicsError> {
    positive("the float without shims", float_without.as_mm())?;
    not_negative("the float with shims", float_with.as_mm())?;
    if float_with < float_without {
        Ok(float_without - float_with)
    } else {
        Err(MechanicsError::NotSmaller { smaller: "the float with shims", larger: "the float without shims" })
    }
}

/// Film, burr and curl per joint of a stack: (effective stack - Σ widths)/(n - 1). Negative: the readings disagree.
pub fn film_per_joint(effective: Length, widths: &[Length]) -> Result<Length, MechanicsError> {
    positive("the effective stack", effective.as_mm())?;
    if widths.len() < 2 {
        return Err(MechanicsError::OutOfRange { what: "the number of shims in a stack", range: "2 or more" });
    }
    for width in widths {
        positive("a shim's width", width.as_mm())?;
    }
    Ok((effective - widths.iter().copied().sum()) / (widths.len() - 1) as f64)
}
