//! Shims for many assemblies: how far apart the sizes may be, and how many of each to make.

use crate::formulas::{MechanicsError, Range, not_negative, positive};
use crate::units::Length;

/// Most sizes that are worked out; more is a slip of the pen.
const MOST_CLASSES: f64 = 1000.0;

/// A ladder of shim sizes.
#[derive(Clone, PartialEq, Debug)]
pub struct SizeClasses {
    /// Largest step between sizes that still serves every gap.
    pub largest_step: Length,
    /// Nominal sizes, thinnest first, evenly spread over the gaps.
    pub sizes: Vec<Length>,
}

/// Sizes needed so that every gap of `gaps` finds a shim which leaves the float inside `float`.
///
/// step = (f_max - f_min) - 2 (t + U), number = ceil(range/step); size i serves the middle of its part of the range.
/// t: ± tolerance of the shim, U: expanded uncertainty of the gap, both per side of nominal.
/// Source: derived here (a gap at either end of a class must still be inside the float when shim and reading are
/// both at their worst). Gap range 0.40, float 0.05 to 0.15, t 0.010, U 0.015 mm: step 0.05, 8 sizes.
pub fn size_classes(
    gaps: Range<Length>,
    float: Range<Length>,
    shim_tolerance: Length,
    uncertainty: Length,
) -> Result<SizeClasses, MechanicsError> {
    not_negative("the shim tolerance", shim_tolerance.as_mm())?;
    not_negative("the measuring uncertainty", uncertainty.as_mm())?;
    not_negative("the range of gaps", (gaps.max - gaps.min).as_mm())?;
    not_negative("the smallest float", float.min.as_mm())?;
    let largest_step = (float.max - float.min) - 2.0 * (shim_tolerance + uncertainty);
    if largest_step <= Length::ZERO {
        return Err(MechanicsError::Impossible(
            "shim tolerance and measuring uncertainty use up the permitted float: no number of sizes is enough",
        ));
    }
    let range = gaps.max - gaps.min;
    // 0.40/0.05 must be 8 classes, not 9 for a rounding error.
    let count = (range / largest_step - 1e-9).ceil().max(1.0);
    if !count.is_finite() || count > MOST_CLASSES {
        return Err(MechanicsError::TooMany { what: "shim sizes", most: MOST_CLASSES as usize });
    }
    let first = gaps.min - (float.min + float.max) / 2.0;
    let sizes: Vec<Length> = (0..count as usize).map(|i| first + range * ((i as f64 + 0.5) / count)).collect();
    sizes.iter().try_for_each(|size| positive("the thinnest shim", (*size - shim_tolerance).as_mm()))?;
    Ok(SizeClasses { largest_step, sizes })
}

/// How many of each size to make for `assemblies`, `per_assembly` alike in each, so that none runs out with the given
/// `probability` (shared equally over the sizes, binomial quantile). `shares` of the batch, one for each size; 0 to 1.
///
/// Source: derived here (the number of assemblies that fall into a class is binomial; union bound over the classes).
pub fn order_by_share(
    shares: &[f64],
    assemblies: u32,
    per_assembly: u32,
    probability: f64,
) -> Result<Vec<u32>, MechanicsError> {
    if shares.is_empty() {
        return Err(MechanicsError::Empty("shim sizes"));
    }
    if !(probability > 0.0 && probability < 1.0) {
        return Err(MechanicsError::OutOfRange { what: "the probability", range: "between 0 and 1" });
    }
    if assemblies > 100_000 {
        return Err(MechanicsError::TooMany { what: "assemblies", most: 100_000 });
    }
    let run_out = (1.0 - probability) / shares.len() as f64;
    let count = |share: &f64| binomial_quantile(assemblies, *share, run_out).saturating_mul(per_assembly);
    Ok(shares.iter().map(count).collect())
}

/// Smallest k such that more than k of n fall into a class of share p with probability at most `tail`.
fn binomial_quantile(n: u32, p: f64, tail: f64) -> u32 {
    if p >= 1.0 {
        return n;
    }
    let mut below = 0.0;
    for k in 0..n {
        below += binomial(n, k, p);
        if 1.0 - below <= tail {
            return k;
        }
    }
    n
}

/// Probability of exactly k of n, by logarithms so that large n do not overflow.
fn binomial(n: u32, k: u32, p: f64) -> f64 {
    if p <= 0.0 {
        return if k == 0 { 1.0 } else { 0.0 };
    }
    let (n, k) = (f64::from(n), f64::from(k));
    let choose = libm::lgamma(n + 1.0) - libm::lgamma(k + 1.0) - libm::lgamma(n - k + 1.0);
    libm::exp(choose + k * libm::log(p) + (n - k) * libm::log1p(-p))
}
