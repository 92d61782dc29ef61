//! The search for the plan that begins least: what the linear programme says rounded down, and a best-first search for the rest;
//! where that is not proven, a best-first search for the whole.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

use super::price::{self, PARTS, Prices};
use super::{MOST_STATES, Order, fillings};

/// Bars with what is cut from each.
type Bars = Vec<(usize, Vec<u32>)>;

/// What was found.
pub struct Found {
    /// The bars.
    pub bars: Bars,
    /// Nothing begins less.
    pub least: bool,
}

/// What is left to do: pieces to cut, bars at hand.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
struct State {
    left: Vec<u32>,
    rack: Vec<u32>,
}

impl State {
    fn whole(order: &Order) -> Self {
        let left = order.pieces.iter().map(|p| p.1).collect();
        Self { left, rack: order.bars.iter().map(|b| b.at_hand.unwrap_or(u32::MAX)).collect() }
    }

    fn is_done(&self) -> bool {
        self.left.iter().all(|n| *n == 0)
    }

    /// The same after a bar was cut; `None` where it cannot be.
    fn after(&self, bar: usize, taken: &[u32]) -> Option<Self> {
        let mut next = self.clone();
        let in_rack = next.rack.get_mut(bar)?;
        if *in_rack != u32::MAX {
            *in_rack = in_rack.checked_sub(1)?;
        }
        for (left, n) in next.left.iter_mut().zip(taken) {
            *left = left.checked_sub(*n)?;
        }
        Some(next)
    }
}

/// The plan that begins least.
pub fn least(order: &Order) -> Found {
    let whole = State::whole(order);
    if whole.is_done() {
        return Found { bars: Vec::new(), least: true };
    }
    let prices = price::prices(order);
    let bound = Bound::new(order, &prices, &whole);
    let at_least = bound.of(&whole);
    let costs = |bars: &Bars| bars.iter().filter_map(|(b, _)| order.bars.get(*b)).map(|b| b.costs).sum::<u64>();
    let mut best = greedy(order, &whole);
    for rounded in
        [rounded(order, &prices, &whole, &bound, f64::floor), rounded(order, &prices, &whole, &bound, f64::round)]
    {
        if costs(&rounded) < costs(&best) {
            best = rounded;
        }
    }
    if costs(&best) <= at_least {
        return Found { bars: best, least: true };
    }
    match best_first(order, &whole, &bound, costs(&best), MOST_STATES) {
        Search::Better(bars) => Found { bars, least: true },
        Search::None => Found { bars: best, least: true },
        Search::GivenUp => Found { bars: best, least: false },
    }
}

/// What the rest of the work costs at least.
struct Bound<'a> {
    prices: &'a Prices,
    /// Every cost is a multiple of it.
    step: u64,
    /// The least sum of costs of bars that is not less than so many steps; empty where that would be too long a list.
    sums: Vec<u64>,
}

/// So many steps are worth a list.
const LIST: u64 = 20_000;

impl<'a> Bound<'a> {
    fn new(order: &Order, prices: &'a Prices, whole: &State) -> Self {
        let step = order.bars.iter().fold(0, |g, b| common_divisor(g, b.costs)).max(1);
        let mut bound = Self { prices, step, sums: Vec::new() };
        let steps = bound.of(whole) / step + 1;
        if steps <= LIST {
            let mut can = vec![true];
            let longest = order.bars.iter().map(|b| b.costs / step).min().unwrap_or(1);
            for n in 1..=steps + longest {
                let reach = |b: &super::Bar| n.checked_sub(b.costs / step).and_then(|m| can.get(m as usize)).copied();
                can.push(order.bars.iter().any(|b| reach(b).unwrap_or(false)));
            }
            let mut sums = vec![0; can.len()];
            let mut next = can.len() as u64;
            for (n, sum) in sums.iter_mut().enumerate().rev() {
                if can.get(n).copied().unwrap_or(false) {
                    next = n as u64;
                }
                *sum = next;
            }
            bound.sums = sums;
        }
        bound
    }

    fn of(&self, state: &State) -> u64 {
        let sum = |prices: &[u64], counts: &[u32]| -> u128 {
            prices.iter().zip(counts).filter(|(p, _)| **p > 0).map(|(p, n)| u128::from(*p) * u128::from(*n)).sum()
        };
        let worth = sum(&self.prices.pieces, &state.left).saturating_sub(sum(&self.prices.rack, &state.rack));
        let steps = u64::try_from(worth.div_ceil(u128::from(PARTS) * u128::from(self.step))).unwrap_or(u64::MAX);
        self.sums.get(steps as usize).copied().unwrap_or(steps).saturating_mul(self.step)
    }
}

fn common_divisor(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { common_divisor(b, a % b) }
}

/// So many fillings of one bar are compared.
const COMPARED: usize = 3_000;

/// Bar by bar the filling that costs least for its length.
fn greedy(order: &Order, from: &State) -> Bars {
    let (mut state, mut bars) = (from.clone(), Bars::new());
    while !state.is_done() {
        let mut best: Option<(u128, u128, usize, Vec<u32>)> = None;
        for (i, bar) in order.bars.iter().enumerate().filter(|(i, _)| state.rack.get(*i).is_some_and(|n| *n > 0)) {
            let mut seen = 0;
            fillings(&order.pieces, &state.left, bar.holds, &mut |taken| {
                seen += 1;
                let used: u128 = taken.iter().zip(&order.pieces).map(|(n, p)| u128::from(*n) * u128::from(p.0)).sum();
                let costs = u128::from(bar.costs);
                if best.as_ref().is_none_or(|(c, u, ..)| costs * u < c * used) {
                    best = Some((costs, used, i, taken.to_vec()));
                }
                seen < COMPARED
            });
        }
        let Some((.., bar, taken)) = best else { break };
        let Some(next) = state.after(bar, &taken) else { break };
        state = next;
        bars.push((bar, taken));
    }
    bars
}

/// The fillings of the linear programme as many times as whole bars go, the rest searched for.
fn rounded(order: &Order, prices: &Prices, whole: &State, bound: &Bound, round: fn(f64) -> f64) -> Bars {
    let (mut state, mut bars) = (whole.clone(), Bars::new());
    for (bar, takes, times) in &prices.fillings {
        for _ in 0..round(times + 1e-7).max(0.0) as u32 {
            let Some(next) = state.after(*bar, takes) else { break };
            state = next;
            bars.push((*bar, takes.clone()));
        }
    }
    let costs = |bars: &Bars| bars.iter().filter_map(|(b, _)| order.bars.get(*b)).map(|b| b.costs).sum::<u64>();
    let mut rest = greedy(order, &state);
    let most = costs(&rest);
    if most > bound.of(&state)
        && let Search::Better(better) = best_first(order, &state, bound, most, MOST_STATES / 10)
    {
        rest = better;
    }
    bars.extend(rest);
    bars
}

enum Search {
    /// Less than was known, and the least.
    Better(Bars),
    /// Nothing is less than what was known.
    None,
    /// Too many states.
    GivenUp,
}

struct Node {
    state: State,
    so_far: u64,
    from: Option<(usize, usize, Vec<u32>)>,
}

/// Best first: of all states the one whose plan may cost least; of those the one that is nearest to its end.
fn best_first(order: &Order, from: &State, bound: &Bound, below: u64, most_states: usize) -> Search {
    let mut nodes = vec![Node { state: from.clone(), so_far: 0, from: None }];
    let mut known: BTreeMap<State, u64> = BTreeMap::from([(from.clone(), 0)]);
    let mut open = BinaryHeap::from([Reverse((bound.of(from), u64::MAX, 0_usize))]);
    while let Some(Reverse((_, _, at))) = open.pop() {
        let Some(node) = nodes.get(at) else { continue };
        if node.state.is_done() {
            return Search::Better(path(&nodes, at));
        }
        let (state, so_far) = (node.state.clone(), node.so_far);
        if known.get(&state).is_some_and(|g| *g < so_far) {
            continue;
        }
        for (i, bar) in order.bars.iter().enumerate() {
            let mut full = false;
            fillings(&order.pieces, &state.left, bar.holds, &mut |taken| {
                let Some(next) = state.after(i, taken) else { return false };
                let costs = so_far + bar.costs;
                let rest = bound.of(&next);
                let better = known.get(&next).is_none_or(|g| *g > costs);
                if costs.saturating_add(rest) < below && better {
                    known.insert(next.clone(), costs);
                    open.push(Reverse((costs + rest, rest, nodes.len())));
                    nodes.push(Node { state: next, so_far: costs, from: Some((at, i, taken.to_vec())) });
                    full = nodes.len() > most_states;
                }
                !full
            });
            if full {
                return Search::GivenUp;
            }
        }
    }
    Search::None
}

fn path(nodes: &[Node], mut at: usize) -> Bars {
    let mut bars = Bars::new();
    while let Some((before, bar, taken)) = nodes.get(at).and_then(|n| n.from.clone()) {
        bars.push((bar, taken));
        at = before;
    }
    bars.reverse();
    bars
}
