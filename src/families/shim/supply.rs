//! Where the shim comes from: stock to be ground, pieces from the drawer, a ladder of sizes for a batch; and which
//! instrument is good enough to tell.

use crate::description::Fields;
use crate::formulas::shims::{self, Combination, Prefer, ShimAnswer, Side, Sides};
use crate::formulas::stack::{Trials, acceptance_limits, good_enough, simulate};
use crate::formulas::{MechanicsError, Range};
use crate::record::design::{Check, Design, Limits, Table, Value, Verdict};
use crate::record::show;
use crate::shop::instruments::{Gauge, Reads};
use crate::source::{Confirmed, Source};
use crate::units::Length;

use super::chain::{GROUND, Worked};
use super::read::{self, Spec};
use super::sizes;

/// Chance that no size of a batch runs out. Source: common practice, no source.
const NO_SHORTAGE: f64 = 0.95;
/// Instruments may take up this part of a tolerance at worst. Source: common practice, no source.
const GOOD_ENOUGH: f64 = 0.25;

const WIDTH_INSTRUMENT: Check = Check {
    key: "width_instrument",
    what: "uncertainty of the instrument for the shim against its tolerance",
    worst: Verdict::Fail,
    source: Source::Memory("ISO 14253-1: a size is proved inside limits pulled in by the uncertainty"),
};
const AT_HAND: Check = Check {
    key: "at_hand",
    what: "set of the fewest shims at hand, its error",
    worst: Verdict::Caution,
    source: Source::Derived("exact search over all sets of at most four pieces"),
};
const BATCH: Check = Check {
    key: "batch",
    what: "sizes needed so that every assembly finds its shim",
    worst: Verdict::Ok,
    source: Source::Derived("step = float range - 2 (shim tolerance + measuring uncertainty)"),
};

/// Readings that prove the width, and whether the instrument can.
pub fn instruments(design: &mut Design, s: &Spec, w: &Worked) {
    let a = &w.answer;
    let with = &s.shim_instrument;
    let u = with.length();
    let limits = Range { min: a.lower, max: a.upper };
    if let Ok(accept) = acceptance_limits(limits, u) {
        design.computed_length(&sizes::WIDTH_READING, a.each, "limits of the width, each pulled in by U");
        design.limit(
            &sizes::WIDTH_READING,
            Limits {
                lower: accept.min.rounded(),
                upper: accept.max.rounded(),
                by: format!("guard band for the {}", with.name),
                confirmed: Confirmed::TwoOrMore,
            },
        );
    }
    judged(design, s, w);
    if limits.max - limits.min <= Length::um(0.05) {
        return;
    }
    let gauges = s.common.gauges();
    let good = |g: &&&Gauge| g.measures_thickness() && good_enough(limits, g.length(), GOOD_ENOUGH).unwrap_or(false);
    let names: Vec<&str> = gauges.iter().filter(good).map(|g| g.name.as_str()).collect();
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
    let row = |g: &Gauge| {
        let u = g.length();
        let used = match (*g == s.float_instrument, *g == s.shim_instrument) {
            (true, true) => "float and shims",
            (true, false) => "float",
            (false, true) => "shims",
            (false, false) => "",
        };
        let of_the_shim = if g.measures_thickness() { part(u, width) } else { Value::Text("reads gaps only".into()) };
        let name = if g.assumed { g.name.clone() } else { format!("{}, the shop's", g.name) };
        vec![Value::Text(name), Value::Length(u), part(u, float), of_the_shim, Value::Text(used.into())]
    };
    let gauges = s.common.gauges();
    let every_usual = gauges.iter().all(|g| g.assumed);
    design.tables.push(Table::new(
        sizes::INSTRUMENTS_TABLE,
        if every_usual {
            "Instruments: U with k = 2 (common practice, no source); a quarter of a tolerance is good enough"
        } else {
            "Instruments: U with k = 2, the shop's own or else common practice; a quarter of a tolerance is good enough"
        },
        &["instrument", "U", "of the float's range", "of the shim's tolerance", "used for"],
        gauges
            .into_iter()
            .filter(|g| g.reads != Reads::Angle && g.reads != Reads::Inside && g.length() <= float)
            .map(row),
    ));
}

/// Sets of pieces at hand, one for each side: of the fewest pieces within the tolerance, and the nearest of all. Gives
/// back the pieces where a single one on each side will do. `None` when a problem was noted.
pub fn at_hand(
    design: &mut Design,
    s: &Spec,
    a: &ShimAnswer,
    film: Length,
    fields: &Fields,
) -> Option<Option<Vec<(Side, Length)>>> {
    let Some(list) = &s.at_hand else { return Some(None) };
    let tolerance = ((a.upper - a.lower) / 2.0).max(Length::ZERO);
    let best = |prefer| best_served(a, s.sides, &list.value, tolerance, film, prefer);
    let both = best(Prefer::FewestPieces).and_then(|fewest| Ok((fewest, best(Prefer::SmallestError)?)));
    let (fewest, nearest) = match both {
        Ok(both) => both,
        Err(error) => {
            fields.problem_at(&read::AT_HAND, error.to_string(), Some("list more shims, or leave it out".into()));
            return None;
        }
    };
    record_sets(design, s, &fewest, &nearest);
    let single = |(side, pieces, c): &(Side, Vec<Length>, Combination)| match pieces.as_slice() {
        [one] if c.within_tolerance => Some((*side, *one)),
        _ => None,
    };
    Some(fewest.iter().map(single).collect())
}

/// One side, the pieces put there by width, and what the search said.
type Served = Vec<(Side, Vec<Length>, Combination)>;

/// The side served first is chosen so that the worse error is the smaller one.
fn best_served(
    a: &ShimAnswer,
    sides: Sides,
    list: &[Length],
    tolerance: Length,
    film: Length,
    prefer: Prefer,
) -> Result<Served, MechanicsError> {
    let mut orders = vec![a.sizes.clone()];
    if sides == Sides::Two {
        orders.push(a.sizes.iter().rev().copied().collect());
    }
    let served: Vec<Served> =
        orders.iter().map(|order| serve(order, list, tolerance, film, prefer)).collect::<Result<_, _>>()?;
    let mut best = served.into_iter().min_by(|a, b| worst(a).total_cmp(&worst(b))).unwrap_or_default();
    best.sort_by_key(|(side, ..)| *side == Side::Right);
    Ok(best)
}

fn worst(served: &Served) -> f64 {
    served.iter().map(|(_, _, c)| c.error.as_mm().abs()).fold(0.0, f64::max)
}

fn serve(
    order: &[shims::ShimSize],
    list: &[Length],
    tolerance: Length,
    film: Length,
    prefer: Prefer,
) -> Result<Served, MechanicsError> {
    let mut left: Vec<Length> = list.to_vec();
    let mut served = Vec::new();
    for size in order {
        let found = shims::best_combination(&left, size.width, tolerance, film, prefer)?;
        let pieces: Vec<Length> = found.pieces.iter().filter_map(|i| left.get(*i).copied()).collect();
        let taken = &found.pieces;
        left = left.iter().enumerate().filter(|(i, _)| !taken.contains(i)).map(|(_, l)| *l).collect();
        served.push((size.side, pieces, found));
    }
    Ok(served)
}

fn record_sets(design: &mut Design, s: &Spec, fewest: &Served, nearest: &Served) {
    let unit = s.common.header.unit;
    let side = |side: &Side| match side {
        Side::Only => "",
        Side::Left => "left",
        Side::Right => "right",
    };
    let row = |(at, pieces, c): &(Side, Vec<Length>, Combination), choice: &str| {
        let list: Vec<String> = pieces.iter().map(|l| show::length(*l, unit)).collect();
        vec![
            Value::Text(side(at).into()),
            Value::Text(list.join(" + ")),
            Value::Length(c.total.rounded()),
            Value::Length(c.error.rounded()),
            Value::Text(choice.into()),
        ]
    };
    let same = fewest.iter().zip(nearest).all(|(a, b)| a.1 == b.1);
    let first = if same { "fewest pieces, and nearest" } else { "fewest pieces within the tolerance" };
    let mut rows: Vec<Vec<Value>> = fewest.iter().map(|set| row(set, first)).collect();
    if !same {
        rows.extend(nearest.iter().map(|set| row(set, "nearest")));
    }
    design.tables.push(Table::new(
        sizes::AT_HAND_TABLE,
        "Sets of shims at hand, at most four pieces, film at the joints included",
        &["side", "pieces", "together", "error", "which"],
        rows,
    ));
    let error = Length::mm(worst(fewest)).rounded();
    let within = fewest.iter().all(|b| b.2.within_tolerance);
    let because = match (within, fewest.iter().map(|b| b.1.len()).max().unwrap_or(0)) {
        (true, 1) => "a single piece at hand is within the tolerance: nothing is cut or ground",
        (true, _) => {
            "within the tolerance, but a stack again: one is made all the same; with the stack, measure the float once it is tightened"
        }
        (false, _) => "nothing at hand comes within the tolerance: one is made",
    };
    design.finding(&AT_HAND, Verdict::Ok, Some(Value::Length(error)), None, because);
}

/// The ladder of sizes for a batch and how many of each; empty without one. `None` when a problem was noted.
pub fn batch(design: &mut Design, s: &Spec, fields: &Fields) -> Option<Vec<(Length, u32)>> {
    let (Some(batch), Some(chain)) = (&s.batch, &s.chain) else { return Some(Vec::new()) };
    design.given(&read::BATCH, batch, Value::Count);
    let range = s.float_range();
    let float = Range { min: range.min, max: range.max };
    let (gaps, u) = (chain.worst_case(), s.float_instrument.length());
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
            return None;
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
    design.tables.push(Table::new(
        sizes::CLASSES_TABLE,
        "Sizes for the batch, each ±0.01 mm (0.0004 in): measure the gap, take the size of its row",
        &["width of each shim", "gap from", "gap to", "of the batch", "make"],
        classes.sizes.iter().zip(&order).zip(&shares).enumerate().map(row),
    ));
    design.header.count = order.iter().sum();
    let because = "as many of each size as leave a chance of one in twenty that any runs out";
    design.finding(&BATCH, Verdict::Ok, Some(Value::Count(classes.sizes.len() as u32)), None, because);
    let widths = classes.sizes.iter().map(|size| (*size / s.sides.count()).rounded());
    let ladder: Vec<(Length, u32)> = widths.zip(order).filter(|(_, count)| *count > 0).collect();
    record_ladder(design, &ladder);
    Some(ladder)
}

/// Every width of the ladder as a size to make, with how many; the one of the middle of the members decides nothing.
fn record_ladder(design: &mut Design, ladder: &[(Length, u32)]) {
    design.relabel(&sizes::WIDTH, "width for the middle of the members");
    design.relabel(&sizes::WIDTH_READING, "reading that proves that width");
    design.secondary(&[&sizes::WIDTH]);
    for (i, (width, count)) in ladder.iter().enumerate() {
        let rung = sizes::rung(i + 1).called(format!("width, make {count}"));
        let width = design.computed_length(&rung, *width, "ladder of sizes");
        let (lower, upper) = (width - GROUND, width + GROUND);
        design.limit(&rung, Limits { lower, upper, by: "as ground".into(), confirmed: Confirmed::TwoOrMore });
        design.principal(&[&rung]);
    }
    design.computed(&sizes::WIDTHS, Value::Text("width see table".into()), "ladder of sizes");
}
