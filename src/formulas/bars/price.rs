//! What each piece costs at least: prices at which no filling of a bar is worth more than the bar.

use super::{Bar, Order};

/// Prices are in parts of a cost of one: so many parts to one.
pub const PARTS: u64 = 1 << 10;

/// What came of the linear programme.
pub struct Prices {
    /// Of one piece each, in [`PARTS`]; proven in whole numbers.
    pub pieces: Vec<u64>,
    /// What one bar more of each length in the rack would spare, in [`PARTS`].
    pub rack: Vec<u64>,
    /// Fillings that the programme would use: bar, pieces, how many times.
    pub fillings: Vec<(usize, Vec<u32>, f64)>,
}

/// A filling of a bar, or what is left of a length in the rack.
#[derive(Clone)]
struct Column {
    filling: Option<(usize, Vec<u32>)>,
    /// One figure for each length of piece, then one for each length of bar of which there are only so many.
    figures: Vec<f64>,
    costs: f64,
}

/// So many rounds at most; each brings in one filling.
const ROUNDS: usize = 400;
/// So many fillings are looked at for the dearest one.
const MOST_TRIED: usize = 50_000;

/// Bars of which there are only so many, with the number.
fn limited(order: &Order) -> Vec<(usize, u32)> {
    order.bars.iter().enumerate().filter_map(|(i, b)| Some((i, b.at_hand?))).collect()
}

/// Solves min Σ c x with Σ a x = d for the pieces and Σ x ≤ n for the bars at hand, over all fillings a, by bringing in the
/// filling that spares most; proves its prices.
pub fn prices(order: &Order) -> Prices {
    let counts: Vec<u32> = order.pieces.iter().map(|p| p.1).collect();
    let few = limited(order);
    let right: Vec<f64> = counts.iter().chain(few.iter().map(|(_, n)| n)).map(|n| f64::from(*n)).collect();
    let mut basis = first_basis(order, &counts, &few);
    let mut worth = Vec::new();
    for _ in 0..ROUNDS {
        let Some(now) = solve(&basis, true, &basis.iter().map(|c| c.costs).collect::<Vec<_>>()) else { break };
        worth = now;
        let Some(enters) = best(order, &counts, &few, &worth) else { break };
        let (Some(x), Some(step)) = (solve(&basis, false, &right), solve(&basis, false, &enters.figures)) else {
            break;
        };
        let ratios = x.iter().zip(&step).enumerate().filter(|(_, (_, s))| **s > 1e-9).map(|(i, (x, s))| (x / s, i));
        let Some((_, leaves)) = ratios.min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1))) else { break };
        basis.iter_mut().skip(leaves).take(1).for_each(|c| *c = enters.clone());
    }
    let times = solve(&basis, false, &right).unwrap_or_default();
    let used = basis.into_iter().zip(times).filter_map(|(c, x)| c.filling.map(|(bar, takes)| (bar, takes, x)));
    let fillings = used.collect();
    let (pieces, rack) = proven(order, &counts, &worth);
    Prices { pieces, rack, fillings }
}

fn filling(order: &Order, few: &[(usize, u32)], bar: usize, takes: Vec<u32>) -> Column {
    let of_rack = few.iter().map(|(i, _)| if *i == bar { 1.0 } else { 0.0 });
    let figures = takes.iter().map(|n| f64::from(*n)).chain(of_rack).collect();
    let costs = order.bars.get(bar).map_or(0.0, |b| b.costs as f64);
    Column { filling: Some((bar, takes)), figures, costs }
}

/// What is left of a length in the rack.
fn left_over(pieces: usize, few: usize, row: usize) -> Column {
    let figures = (0..pieces + few).map(|i| if i == pieces + row { 1.0 } else { 0.0 }).collect();
    Column { filling: None, figures, costs: 0.0 }
}

/// Each piece by itself, as often as it fits, in the bar that is cheapest for it and of which there is no end; nothing of the rack.
fn first_basis(order: &Order, counts: &[u32], few: &[(usize, u32)]) -> Vec<Column> {
    let one = |(i, piece): (usize, &(u64, u32, usize))| {
        let times = |b: &Bar| u32::try_from(b.holds / piece.0.max(1)).unwrap_or(u32::MAX).min(piece.1);
        let each = |b: &Bar| b.costs as f64 / f64::from(times(b));
        let fits = order.bars.iter().enumerate().filter(|(_, b)| b.at_hand.is_none() && times(b) > 0);
        let (bar, of) = fits.min_by(|a, b| each(a.1).total_cmp(&each(b.1)).then(a.0.cmp(&b.0)))?;
        let mut takes = vec![0; counts.len()];
        takes.iter_mut().skip(i).take(1).for_each(|n| *n = times(of));
        Some(filling(order, few, bar, takes))
    };
    let pieces = order.pieces.iter().enumerate().filter_map(one);
    pieces.chain((0..few.len()).map(|row| left_over(counts.len(), few.len(), row))).collect()
}

/// Solves B x = r for the matrix of these columns, or its transpose; `None` where it has no one answer.
fn solve(basis: &[Column], transposed: bool, right: &[f64]) -> Option<Vec<f64>> {
    let n = basis.len();
    let entry = |row: usize, column: usize| {
        let (c, r) = if transposed { (row, column) } else { (column, row) };
        basis.get(c).and_then(|b| b.figures.get(r)).copied().unwrap_or_default()
    };
    let mut rows: Vec<Vec<f64>> =
        (0..n).map(|r| (0..n).map(|c| entry(r, c)).chain(right.get(r).copied()).collect()).collect();
    for i in 0..n {
        let size = |row: &Vec<f64>| row.get(i).map_or(0.0, |v| v.abs());
        let pivot = (i..n).max_by(|a, b| {
            let of = |r: &usize| rows.get(*r).map_or(0.0, size);
            of(a).total_cmp(&of(b)).then(b.cmp(a))
        })?;
        rows.swap(i, pivot);
        let lead = rows.get(i)?.clone();
        let by = *lead.get(i)?;
        if by.abs() < 1e-11 {
            return None;
        }
        for (_, row) in rows.iter_mut().enumerate().filter(|(r, _)| *r != i) {
            let factor = row.get(i).copied().unwrap_or_default() / by;
            if factor != 0.0 {
                row.iter_mut().zip(&lead).for_each(|(v, l)| *v -= factor * l);
            }
        }
    }
    rows.iter().enumerate().map(|(i, row)| Some(row.get(n)? / row.get(i)?)).collect()
}

/// What spares most when it is brought in, for its cost; `None` where nothing spares anything.
fn best(order: &Order, counts: &[u32], few: &[(usize, u32)], worth: &[f64]) -> Option<Column> {
    let of_rack = |row: usize| worth.get(counts.len() + row).copied().unwrap_or_default();
    let dearest_cost = order.bars.iter().map(|b| b.costs).max().unwrap_or(1) as f64;
    if let Some(row) = (0..few.len()).find(|row| of_rack(*row) > 1e-9 * dearest_cost) {
        return Some(left_over(counts.len(), few.len(), row));
    }
    let most = worth.iter().take(counts.len()).copied().fold(0.0, f64::max);
    // Whole values of forty bits: the search compares without rounding.
    let values: Vec<u64> =
        worth.iter().take(counts.len()).map(|w| (w.max(0.0) / most.max(1e-300) * (1u64 << 40) as f64) as u64).collect();
    let mut found: Option<(f64, Column)> = None;
    for (i, bar) in order.bars.iter().enumerate() {
        let (_, takes) = dearest(order, counts, &values, bar.holds);
        let value: f64 = takes.iter().zip(worth).map(|(n, w)| f64::from(*n) * w).sum();
        let costs = bar.costs as f64 - few.iter().position(|(of, _)| *of == i).map_or(0.0, of_rack);
        let gain = (value - costs) / costs.max(1.0);
        if gain > 1e-9 && found.as_ref().is_none_or(|(most, _)| gain > *most) {
            found = Some((gain, filling(order, few, i, takes)));
        }
    }
    found.map(|(_, column)| column)
}

/// Whole prices that are feasible for certain: what the programme says, brought down until no filling of a bar of which there
/// is no end is worth more than the bar; what a filling of the others is worth beyond its cost is the price of their number.
fn proven(order: &Order, counts: &[u32], worth: &[f64]) -> (Vec<u64>, Vec<u64>) {
    let price = |i: usize| worth.get(i).map_or(0.0, |w| w.max(0.0)) * PARTS as f64;
    let mut pieces: Vec<u64> = (0..counts.len()).map(|i| price(i) as u64).collect();
    let limit = |bar: &Bar| u128::from(bar.costs) * u128::from(PARTS);
    let endless = || order.bars.iter().filter(|b| b.at_hand.is_none());
    for round in 0.. {
        let worths = endless().map(|bar| (dearest(order, counts, &pieces, bar.holds).0, limit(bar)));
        let over = worths.filter(|(value, limit)| value > limit).max_by(|a, b| (a.0 * b.1).cmp(&(b.0 * a.1)));
        let Some((value, limit)) = over else { break };
        // Rounding makes a filling worth too much by parts of a million: once or twice brings it down.
        let down = |p: u64| u64::try_from(u128::from(p) * limit / value).unwrap_or(0).saturating_sub(1);
        pieces.iter_mut().for_each(|p| *p = if round < 6 { down(*p) } else { 0 });
    }
    let beyond = |bar: &Bar| match bar.at_hand {
        Some(_) => dearest(order, counts, &pieces, bar.holds).0.saturating_sub(limit(bar)),
        None => 0,
    };
    let rack = order.bars.iter().map(|b| u64::try_from(beyond(b)).unwrap_or(u64::MAX)).collect();
    (pieces, rack)
}

/// The filling of the highest value, and that value or a bound on it: by branch and bound over the pieces in the order of
/// value for length.
fn dearest(order: &Order, counts: &[u32], values: &[u64], holds: u64) -> (u128, Vec<u32>) {
    let mut by: Vec<usize> = (0..counts.len()).collect();
    let length = |i: usize| order.pieces.get(i).map_or(1, |p| p.0.max(1));
    let value = |i: usize| values.get(i).copied().unwrap_or(0);
    by.sort_by(|a, b| {
        let rate = |i: usize, other: usize| u128::from(value(i)) * u128::from(length(other));
        rate(*b, *a).cmp(&rate(*a, *b)).then(a.cmp(b))
    });
    let items: Vec<(u64, u64, u32)> =
        by.iter().map(|i| (length(*i), value(*i), counts.get(*i).copied().unwrap_or(0))).collect();
    let mut search = Dearest { items: &items, best: (0, vec![0; items.len()]), tried: 0 };
    search.go(0, holds, 0, &mut vec![0; items.len()]);
    let (mut best, found) = search.best;
    if search.tried >= MOST_TRIED {
        // Not looked at to the end: no filling is worth more than its length at the highest rate.
        best = items.first().map_or(0, |(l, v, _)| u128::from(*v) * u128::from(holds) / u128::from(*l) + 1);
    }
    let mut takes = vec![0; counts.len()];
    by.iter().zip(found).for_each(|(i, n)| takes.iter_mut().skip(*i).take(1).for_each(|t| *t = n));
    (best, takes)
}

struct Dearest<'a> {
    /// Length, value, count.
    items: &'a [(u64, u64, u32)],
    best: (u128, Vec<u32>),
    tried: usize,
}

impl Dearest<'_> {
    fn go(&mut self, at: usize, room: u64, value: u128, taken: &mut Vec<u32>) {
        self.tried += 1;
        if value > self.best.0 {
            self.best = (value, taken.clone());
        }
        let Some((length, each, count)) = self.items.get(at).copied() else { return };
        let bound = value * u128::from(length) + u128::from(each) * u128::from(room);
        if bound <= self.best.0 * u128::from(length) || self.tried >= MOST_TRIED {
            return;
        }
        let most = u32::try_from(room / length).unwrap_or(u32::MAX).min(count);
        for n in (0..=most).rev() {
            taken.iter_mut().skip(at).take(1).for_each(|t| *t = n);
            self.go(at + 1, room - length * u64::from(n), value + u128::from(each) * u128::from(n), taken);
        }
        taken.iter_mut().skip(at).take(1).for_each(|t| *t = 0);
    }
}
