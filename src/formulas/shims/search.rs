//! The shim that is at hand: nearest stock to grind down, or the few pieces that come closest together.

use crate::formulas::{MechanicsError, not_negative, positive};
use crate::units::Length;

/// The most pieces that are put together; more than that is a stack again.
pub const MOST_PIECES: usize = 4;
/// The longest list that is searched exactly.
pub const MOST_AT_HAND: usize = 300;

/// A stock thickness and what is to be ground off it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct StockChoice {
    /// Stock thickness.
    pub stock: Length,
    /// To grind off, both faces together; nought when the stock fits as it is.
    pub grind_off: Length,
}

/// The thinnest stock that either fits within ±`tolerance` as it is or leaves at least `allowance` to grind off.
/// `None` when all stock is too thin. Grinding allowance 0.1 to 0.3 mm: common practice, no source.
pub fn from_stock(
    stock: &[Length],
    wanted: Length,
    tolerance: Length,
    allowance: Length,
) -> Result<Option<StockChoice>, MechanicsError> {
    positive("the width wanted", wanted.as_mm())?;
    not_negative("the tolerance", tolerance.as_mm())?;
    not_negative("the grinding allowance", allowance.as_mm())?;
    check_pieces(stock)?;
    let as_it_is = stock.iter().copied().filter(|s| (*s - wanted).abs() <= tolerance);
    if let Some(fits) = as_it_is.min_by(|a, b| (*a - wanted).abs().as_mm().total_cmp(&(*b - wanted).abs().as_mm())) {
        return Ok(Some(StockChoice { stock: fits, grind_off: Length::ZERO }));
    }
    // A width a rounding error under its allowance is not refused.
    let enough = wanted + allowance - Length::mm(1e-9);
    let thinnest = stock.iter().copied().filter(|s| *s >= enough).min_by(|a, b| a.as_mm().total_cmp(&b.as_mm()));
    Ok(thinnest.map(|s| StockChoice { stock: s, grind_off: s - wanted }))
}

/// A set of pieces at hand, put together.
#[derive(Clone, PartialEq, Debug)]
pub struct Combination {
    /// Positions in the list at hand, thinnest first.
    pub pieces: Vec<usize>,
    /// Width of the set, film at its joints included.
    pub total: Length,
    /// `total` less the width wanted.
    pub error: Length,
    /// True when the error is inside the tolerance.
    pub within_tolerance: bool,
}

/// Which set is the best one.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Prefer {
    /// Of the sets within the tolerance the one of the fewest pieces, then of the smallest error.
    FewestPieces,
    /// The smallest error of all sets, then the fewest pieces.
    SmallestError,
}

/// The best set of at most four pieces; where none is within ±`tolerance` the one of the smallest error. Each piece is
/// used once. Every set is looked at (the last piece by bisection), so the answer is exact. `film` is added at every
/// joint between two pieces.
pub fn best_combination(
    at_hand: &[Length],
    wanted: Length,
    tolerance: Length,
    film: Length,
    prefer: Prefer,
) -> Result<Combination, MechanicsError> {
    positive("the width wanted", wanted.as_mm())?;
    not_negative("the tolerance", tolerance.as_mm())?;
    not_negative("the film at a joint", film.as_mm())?;
    check_pieces(at_hand)?;
    let sorted = sorted_with_positions(at_hand);
    let mut best: Option<Candidate> = None;
    for pieces in 1..=MOST_PIECES.min(sorted.len()) {
        let goal = wanted.as_mm() - film.as_mm() * (pieces - 1) as f64;
        let found = Search { sorted: &sorted, best: None }.run(pieces, goal);
        best = better(best, found);
        // A hair of slack, so that an error equal to the tolerance counts as inside.
        let inside = best.as_ref().is_some_and(|b| b.error.abs() <= tolerance.as_mm() + 1e-9);
        if inside && prefer == Prefer::FewestPieces {
            break;
        }
    }
    let best = best.ok_or(MechanicsError::Empty("shims at hand"))?;
    let error = Length::mm(best.error);
    let within_tolerance = best.error.abs() <= tolerance.as_mm() + 1e-9;
    Ok(Combination { pieces: best.pieces, total: wanted + error, error, within_tolerance })
}

fn check_pieces(pieces: &[Length]) -> Result<(), MechanicsError> {
    if pieces.is_empty() {
        return Err(MechanicsError::Empty("shims at hand"));
    }
    if pieces.len() > MOST_AT_HAND {
        return Err(MechanicsError::TooMany { what: "shims at hand", most: MOST_AT_HAND });
    }
    pieces.iter().try_for_each(|piece| positive("a shim's width", piece.as_mm()))
}

fn sorted_with_positions(at_hand: &[Length]) -> Vec<(f64, usize)> {
    let mut sorted: Vec<(f64, usize)> = at_hand.iter().enumerate().map(|(i, w)| (w.as_mm(), i)).collect();
    sorted.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    sorted
}

#[derive(Clone)]
struct Candidate {
    pieces: Vec<usize>,
    error: f64,
}

/// Keeps the first unless the second is closer by more than rounding.
fn better(first: Option<Candidate>, second: Option<Candidate>) -> Option<Candidate> {
    match (first, second) {
        (Some(a), Some(b)) if a.error.abs() <= b.error.abs() + 1e-9 => Some(a),
        (a, b) => b.or(a),
    }
}

struct Search<'a> {
    sorted: &'a [(f64, usize)],
    best: Option<Candidate>,
}

impl Search<'_> {
    fn run(mut self, pieces: usize, goal: f64) -> Option<Candidate> {
        let mut chosen = Vec::with_capacity(MOST_PIECES);
        self.choose(0, pieces, goal, &mut chosen);
        self.best
    }

    /// Chooses `left` more pieces from position `from` on so that they come nearest to `goal`.
    fn choose(&mut self, from: usize, left: usize, goal: f64, chosen: &mut Vec<usize>) {
        let rest = self.sorted.get(from..).unwrap_or_default();
        if left == 1 {
            return self.last(rest, goal, chosen);
        }
        for (step, &(width, position)) in rest.iter().enumerate() {
            chosen.push(position);
            self.choose(from + step + 1, left - 1, goal - width, chosen);
            chosen.pop();
        }
    }

    /// The last piece: the neighbours of `goal` in the sorted rest.
    fn last(&mut self, rest: &[(f64, usize)], goal: f64, chosen: &[usize]) {
        let above = rest.partition_point(|piece| piece.0 < goal);
        for &(width, position) in rest.iter().skip(above.saturating_sub(1)).take(2) {
            let error = width - goal;
            if self.best.as_ref().is_none_or(|b| error.abs() < b.error.abs() - 1e-12) {
                let pieces = chosen.iter().copied().chain([position]).collect();
                self.best = Some(Candidate { pieces, error });
            }
        }
    }
}
