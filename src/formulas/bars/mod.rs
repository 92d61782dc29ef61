//! Bars cut to pieces: which pieces come from which bar, so that the least length of bar is begun.
//!
//! The one-dimensional cutting problem with several lengths of bar. Every bar of length L holds a set of pieces l with
//! Σ (l + k) ≤ L + k, where k is the kerf: the last piece needs no cut behind it where it ends with the bar. What is sought
//! is the least Σ L over the bars that are begun, bars that are bought counting before all that lie in the rack.
//!
//! Source of the bound and of the columns: P. C. Gilmore and R. E. Gomory, A linear programming approach to the
//! cutting-stock problem, Operations Research 9 (1961). The search over what is left is a best-first search whose bound is
//! proven in whole numbers, so that "least" is least and not nearly so.

mod price;
mod search;

use crate::formulas::{MechanicsError, not_negative, positive};
use crate::units::Length;

/// A length of bar that can be had.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Stock {
    /// Its length.
    pub length: Length,
    /// So many lie in the rack; none: as many as are wanted.
    pub at_hand: Option<u32>,
    /// It has to be bought: nothing is bought while the rack does.
    pub bought: bool,
}

/// Pieces of one length.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Piece {
    /// Length of one.
    pub length: Length,
    /// So many.
    pub count: u32,
}

/// Bars that are cut alike.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Cut {
    /// Which of the lengths of bar.
    pub stock: usize,
    /// So many bars.
    pub bars: u32,
    /// Pieces from each bar: which of the pieces, how many; the longest first.
    pub pieces: Vec<(usize, u32)>,
}

/// A plan for the saw.
#[derive(Clone, PartialEq, Debug)]
pub struct Plan {
    /// The bars, those with the longest pieces first.
    pub cuts: Vec<Cut>,
    /// No plan begins less; otherwise the search was given up at [`MOST_STATES`], and this is the best that it met.
    pub least: bool,
    /// Length of the bars that are begun.
    pub begun: Length,
    /// Pieces that no bar holds, or for which the rack has no bar left: which, how many.
    pub without: Vec<(usize, u32)>,
}

/// So many states of what is left to cut are looked at before the search is given up: some thirty pieces of a dozen lengths.
pub const MOST_STATES: usize = 60_000;

/// Most pieces that are planned at all.
pub const MOST_PIECES: u32 = 5_000;

/// Bars are measured in tenths of a micrometre, in whole numbers, so that no rounding decides whether a piece fits.
fn whole(length: Length) -> u64 {
    (length.as_mm() * 1e4).round() as u64
}

/// How much a bought bar counts before one of the rack, and a piece that no bar is left for before both.
const BOUGHT: u64 = 1_000;
const MISSING: u64 = 1_000_000;

/// A length of bar in whole numbers.
#[derive(Clone, Copy, Debug)]
struct Bar {
    /// Which of the stock; none: the bar that is missing where the rack has too few.
    of: Option<usize>,
    /// What it holds: its length and one kerf.
    holds: u64,
    /// What beginning it costs.
    costs: u64,
    at_hand: Option<u32>,
}

/// The problem in whole numbers: pieces with their kerf, the longest first.
struct Order {
    bars: Vec<Bar>,
    /// Length with kerf, count, which of the pieces.
    pieces: Vec<(u64, u32, usize)>,
}

/// Plans the cuts.
///
/// Range: bars and pieces above nought, a kerf of nought or more, no more than [`MOST_PIECES`] pieces.
///
/// # Errors
/// A length that makes no sense, no bars at all, or too many pieces.
pub fn plan(stock: &[Stock], pieces: &[Piece], kerf: Length) -> Result<Plan, MechanicsError> {
    stock.iter().try_for_each(|s| positive("the length of a bar", s.length.as_mm()))?;
    pieces.iter().try_for_each(|p| positive("the length of a piece", p.length.as_mm()))?;
    not_negative("the kerf", kerf.as_mm())?;
    if stock.is_empty() {
        return Err(MechanicsError::Empty("bars"));
    }
    if pieces.iter().map(|p| u64::from(p.count)).sum::<u64>() > u64::from(MOST_PIECES) {
        return Err(MechanicsError::TooMany { what: "pieces", most: MOST_PIECES as usize });
    }
    let (order, mut without) = ordered(stock, pieces, whole(kerf));
    let found = search::least(&order);
    let mut cuts: Vec<Cut> = Vec::new();
    for (bar, taken) in found.bars {
        let pieces: Vec<(usize, u32)> =
            taken.iter().zip(&order.pieces).filter(|(n, _)| **n > 0).map(|(n, p)| (p.2, *n)).collect();
        let Some(stock) = order.bars.get(bar).and_then(|b| b.of) else {
            without.extend(pieces);
            continue;
        };
        match cuts.iter_mut().find(|c| c.stock == stock && c.pieces == pieces) {
            Some(cut) => cut.bars += 1,
            None => cuts.push(Cut { stock, bars: 1, pieces }),
        }
    }
    let length = |c: &Cut| stock.get(c.stock).map_or(Length::ZERO, |s| s.length);
    let longest = |c: &Cut| c.pieces.first().and_then(|(i, _)| pieces.get(*i)).map_or(Length::ZERO, |p| p.length);
    cuts.sort_by(|a, b| {
        longest(b).as_mm().total_cmp(&longest(a).as_mm()).then(length(b).as_mm().total_cmp(&length(a).as_mm()))
    });
    let begun = cuts.iter().fold(Length::ZERO, |sum, c| sum + length(c) * f64::from(c.bars));
    Ok(Plan { cuts, least: found.least, begun, without: summed(without) })
}

/// Each of the pieces once.
fn summed(mut all: Vec<(usize, u32)>) -> Vec<(usize, u32)> {
    all.sort_unstable();
    all.into_iter().fold(Vec::new(), |mut sum: Vec<(usize, u32)>, (which, count)| {
        match sum.last_mut().filter(|last| last.0 == which) {
            Some(last) => last.1 += count,
            None => sum.push((which, count)),
        }
        sum
    })
}

/// In whole numbers, alike pieces together, and what no bar holds apart.
fn ordered(stock: &[Stock], pieces: &[Piece], kerf: u64) -> (Order, Vec<(usize, u32)>) {
    let bars = stock.iter().enumerate().filter(|(_, s)| s.at_hand != Some(0)).map(|(of, s)| {
        let length = whole(s.length);
        let costs = if s.bought { length.saturating_mul(BOUGHT) } else { length };
        Bar { of: Some(of), holds: length + kerf, costs, at_hand: s.at_hand }
    });
    let mut bars: Vec<Bar> = bars.collect();
    let longest = bars.iter().map(|b| b.holds).max().unwrap_or_default();
    // So there is always a plan, and what is missing is as little as may be.
    bars.push(Bar { of: None, holds: longest, costs: longest.max(1).saturating_mul(MISSING), at_hand: None });
    let (mut held, mut without) = (Vec::new(), Vec::new());
    for (which, piece) in pieces.iter().enumerate().filter(|(_, p)| p.count > 0) {
        let length = whole(piece.length) + kerf;
        if length > longest { without.push((which, piece.count)) } else { held.push((length, piece.count, which)) }
    }
    held.sort_by(|a, b| b.0.cmp(&a.0).then(a.2.cmp(&b.2)));
    (Order { bars, pieces: held }, without)
}

/// Every way to fill a bar with the first of what is left, so that nothing more of what is left fits; told to `see`, which
/// says whether to go on.
fn fillings(pieces: &[(u64, u32, usize)], left: &[u32], holds: u64, see: &mut dyn FnMut(&[u32]) -> bool) {
    let Some(first) = left.iter().position(|n| *n > 0) else { return };
    let Some(room) = pieces.get(first).and_then(|p| holds.checked_sub(p.0)) else { return };
    let mut taken = vec![0; left.len()];
    taken.iter_mut().skip(first).take(1).for_each(|n| *n = 1);
    let smallest = pieces.iter().zip(left).filter(|(_, n)| **n > 0).map(|(p, _)| p.0).min().unwrap_or(u64::MAX);
    fill(&Filling { pieces, left, smallest }, first, room, &mut taken, see);
}

struct Filling<'a> {
    pieces: &'a [(u64, u32, usize)],
    left: &'a [u32],
    smallest: u64,
}

fn fill(f: &Filling, at: usize, room: u64, taken: &mut [u32], see: &mut dyn FnMut(&[u32]) -> bool) -> bool {
    let (Some(piece), Some(left)) = (f.pieces.get(at), f.left.get(at)) else {
        // What still fits is found in another filling that holds it too.
        let full = f.pieces.iter().zip(f.left.iter().zip(&*taken)).all(|(p, (l, t))| t >= l || p.0 > room);
        return !full || see(taken);
    };
    if room < f.smallest {
        return fill(f, f.pieces.len(), room, taken, see);
    }
    let before = taken.get(at).copied().unwrap_or_default();
    let most = u32::try_from(room / piece.0.max(1)).unwrap_or(u32::MAX).min(left.saturating_sub(before));
    for more in (0..=most).rev() {
        taken.iter_mut().skip(at).take(1).for_each(|n| *n = before + more);
        if !fill(f, at + 1, room - piece.0 * u64::from(more), taken, see) {
            return false;
        }
    }
    taken.iter_mut().skip(at).take(1).for_each(|n| *n = before);
    true
}
