//! Where the shim comes from: stock to be ground, pieces from the drawer, a ladder of sizes for a batch; and which
//! instrument is good enough to tell.

use crate::description::Fields;
use crate::design::{Check, Design, Limits, Table, Value, Verdict};
use crate::mechanics::Range;
use crate::mechanics::shims::{self, Combination, ShimAnswer, Side, Sides};
use crate::mechanics::stack::{Trials, acceptance_limits, instruments_good_enough, simulate};
use crate::mechanics::uncertainty::Instrument;
use crate::show;
use crate::source::{Confirmed, Source};
use crate::units::Length;

use super::chain::{GROUND, Worked};
use super::read::{self, Spec};

/// Chance that no size of a batch runs out. Source: common practice, no source.
const NO_SHORTAGE: f64 = 0.95;
/// Instruments may take up this part of a tolerance at worst. Source: common practice, no source.
const GOOD_ENOUGH: f64 = 0.25;

const WIDTH_INSTRUMENT: Check = Check {
    key: "width_instrument",
    what: "uncertainty of the instrument for the shim against its tolerance",
    source: Source::Memory("ISO 14253-1: a size is proved inside limits pulled in by the uncertainty"),
};
const AT_HAND: Check = Check {
    key: "at_hand",
    what: "nearest set of shims at hand, its error",
    source: Source::Derived("exact search over all sets of at most four pieces"),
};
const BATCH: Check = Check {
    key: "batch",
    what: "sizes needed so that every assembly finds its shim",
    source: Source::Derived("step = float range - 2 (shim tolerance + measuring uncertainty)"),
};

/// Readings that prove the width, and whether the instrument can.
pub fn instruments(design: &mut Design, s: &Spec, w: &Worked) {
    let a = &w.answer;
    let with = s.shim_instrument;
    let u = with.expanded_uncertainty().value;
    let limits = Range { min: a.lower, max: a.upper };
    if let Ok(accept) = acceptance_limits(limits, u) {
        design.computed_length(
            "width_reading",
            "reading that proves the width",
            a.each,
            "limits of the width, each pulled in by U",
        );
        design.limit(
            "width_reading",
            Limits {
                lower: accept.min.rounded(),
                upper: accept.max.rounded(),
                by: format!("guard band for the {}", with.name()),
                confirmed: Confirmed::TwoOrMore,
            },
        );
    }
    judged(design, s, w);
    if limits.max - limits.min <= Length::um(0.05) {
        return;
    }
    let good = instruments_good_enough(limits, GOOD_ENOUGH).unwrap_or_default();
    let names: Vec<&str> = good.iter().map(|i| i.name()).collect();
    let because = if names.is_empty() {
        "no instrument of the bench is good enough for this tolerance: compare with gauge blocks".to_string()
    } else {
        format!("good enough: {}", names.join(", "))
    };
    let part = |k: f64| Value::Length(((limits.max - limits.min) * k).rounded());
    design.at_most(&WIDTH_INSTRUMENT, Value::Length(u), part(0.5), Some(part(GOOD_ENOUGH)), because);
}

/// Every instrument with the part of the float's range and of the shim's tolerance that it takes up.
fn judged(design: &mut Design, s: &Spec, w: &Worked) {
    let (float, width) = (w.window.max - w.window.min, w.answer.upper - w.answer.lower);
    let part = |u: Length, of: Length| {
        if of > Length::um(0.05) { Value::Share(u / of) } else { Value::Text("none is left".into()) }
    };
    let row = |i: Instrument| {
        let u = i.expanded_uncertainty().value;
        let used = match (i == s.float_instrument, i == s.shim_instrument) {
            (true, true) => "float and shims",
            (true, false) => "float",
            (false, true) => "shims",
            (false, false) => "",
        };
        vec![Value::Text(i.name().into()), Value::Length(u), part(u, float), part(u, width), Value::Text(used.into())]
    };
    design.tables.push(Table {
        key: "instruments",
        title: "Instruments: U with k = 2 (common practice, no source); a quarter of a tolerance is good enough".into(),
        columns: ["instrument", "U", "of the float's range", "of the shim's tolerance", "used for"]
            .map(String::from)
            .into(),
        rows: Instrument::ALL.into_iter().filter(|i| i.expanded_uncertainty().value <= float).map(row).collect(),
    });
}

/// The nearest sets of pieces at hand, one for each side; the side served first is chosen so that the worse error is
/// the smaller one. `false` when a problem was noted.
pub fn at_hand(design: &mut Design, s: &Spec, a: &ShimAnswer, film: Length, fields: &Fields) -> bool {
    let Some(list) = &s.at_hand else { return true };
    let tolerance = ((a.upper - a.lower) / 2.0).max(Length::ZERO);
    let mut orders = vec![a.sizes.clone()];
    if s.sides == Sides::Two {
        orders.push(a.sizes.iter().rev().copied().collect());
    }
    let served: Result<Vec<Served>, _> =
        orders.iter().map(|order| serve(order, &list.value, tolerance, film)).collect();
    let best = match served {
        Ok(all) => all.into_iter().min_by(|a, b| worst(a).total_cmp(&worst(b))),
        Err(error) => {
            fields.problem_at(&read::AT_HAND, error.to_string(), Some("list more shims, or leave it out".into()));
            return false;
        }
    };
    let Some(mut best) = best else { return true };
    best.sort_by_key(|(side, ..)| *side == Side::Right);
    record_sets(design, s, &best);
    true
}

/// One side, the pieces put there by width, and what the search said.
type Served = Vec<(Side, Vec<Length>, Combination)>;

fn worst(served: &Served) -> f64 {
    served.iter().map(|(_, _, c)| c.error.as_mm().abs()).fold(0.0, f64::max)
}

fn serve(
    order: &[shims::ShimSize],
    list: &[Length],
    tolerance: Length,
    film: Length,
) -> Result<Served, crate::mechanics::MechanicsError> {
    let mut left: Vec<Length> = list.to_vec();
    let mut served = Vec::new();
    for size in order {
        let found = shims::nearest_combination(&left, size.width, tolerance, film)?;
        let pieces: Vec<Length> = found.pieces.iter().filter_map(|i| left.get(*i).copied()).collect();
        let taken = &found.pieces;
        left = left.iter().enumerate().filter(|(i, _)| !taken.contains(i)).map(|(_, l)| *l).collect();
        served.push((size.side, pieces, found));
    }
    Ok(served)
}

fn record_sets(design: &mut Design, s: &Spec, best: &Served) {
    let unit = s.common.header.unit;
    let side = |side: &Side| match side {
        Side::Only => "",
        Side::Left => "left",
        Side::Right => "right",
    };
    let row = |(at, pieces, c): &(Side, Vec<Length>, Combination)| {
        let list: Vec<String> = pieces.iter().map(|l| show::length(*l, unit)).collect();
        vec![
            Value::Text(side(at).into()),
            Value::Text(list.join(" + ")),
            Value::Length(c.total.rounded()),
            Value::Length(c.error.rounded()),
        ]
    };
    design.tables.push(Table {
        key: "at_hand",
        title: "Nearest sets of shims at hand, film at the joints included".into(),
        columns: ["side", "pieces", "together", "error"].map(String::from).into(),
        rows: best.iter().map(row).collect(),
    });
    let error = Length::mm(worst(best)).rounded();
    let (within, pieces) =
        (best.iter().all(|b| b.2.within_tolerance), best.iter().map(|b| b.1.len()).max().unwrap_or(0));
    let (verdict, because) = match (within, pieces) {
        (true, 1) => (Verdict::Ok, "a single piece at hand is within the tolerance: nothing needs to be ground"),
        (true, _) => {
            (Verdict::Caution, "within the tolerance, but a stack again: measure the float once it is tightened")
        }
        (false, _) => (Verdict::Caution, "nothing at hand comes within the tolerance: grind one"),
    };
    design.finding(&AT_HAND, verdict, Some(Value::Length(error)), None, because);
}

/// The ladder of sizes for a batch and how many of each. `false` when a problem was noted.
pub fn batch(design: &mut Design, s: &Spec, fields: &Fields) -> bool {
    let (Some(batch), Some(chain)) = (&s.batch, &s.chain) else { return true };
    design.given(&read::BATCH, batch, Value::Count);
    let range = s.float_range();
    let float = Range { min: range.min, max: range.max };
    let (gaps, u) = (chain.worst_case(), s.float_instrument.expanded_uncertainty().value);
    let sides = s.sides.count() as u32;
    let planned = shims::size_classes(gaps, float, GROUND * s.sides.count(), u).and_then(|classes| {
        let count = classes.sizes.len();
        let width = (gaps.max - gaps.min) / count as f64;
        let drawn = simulate(chain, float, Trials::default())?;
        let edge = |i: usize| drawn.share_under(gaps.min + width * i as f64);
        let mut shares: Vec<f64> = (0..count).map(|i| (edge(i + 1) - edge(i)).clamp(0.0, 1.0)).collect();
        // What lies beyond the worst case belongs to the last size at its end (normal members have tails).
        if let Some(first) = shares.first_mut() {
            *first = (*first + edge(0)).min(1.0)
        }
        if let Some(last) = shares.last_mut() {
            *last = (*last + 1.0 - edge(count)).min(1.0)
        }
        let order = shims::order_by_share(&shares, batch.value, sides, NO_SHORTAGE)?;
        Ok((classes, width, order, shares))
    });
    let (classes, width, order, shares) = match planned {
        Ok(planned) => planned,
        Err(error) => {
            fields.problem_at(
                &read::BATCH,
                error.to_string(),
                Some("allow more float, or a finer float_instrument".into()),
            );
            return false;
        }
    };
    let row = |(i, ((size, count), share)): (usize, ((&Length, &u32), &f64))| {
        let from = gaps.min + width * i as f64;
        vec![
            Value::Length((*size / s.sides.count()).rounded()),
            Value::Length(from.rounded()),
            Value::Length((from + width).rounded()),
            Value::Share(*share),
            Value::Count(*count),
        ]
    };
    design.tables.push(Table {
        key: "classes",
        title: "Sizes for the batch, each ±0.01 mm: measure the gap, take the size of its row".into(),
        columns: ["width of each shim", "gap from", "gap to", "of the batch", "make"].map(String::from).into(),
        rows: classes.sizes.iter().zip(&order).zip(&shares).enumerate().map(row).collect(),
    });
    design.header.count = order.iter().sum();
    let because = "as many of each size as leave a chance of one in twenty that any runs out";
    design.finding(&BATCH, Verdict::Ok, Some(Value::Count(classes.sizes.len() as u32)), None, because);
    true
}
