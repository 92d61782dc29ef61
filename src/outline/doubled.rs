//! Edges that lie over each other: drawn twice, the cutter cuts them twice.

use std::collections::{BTreeMap, BTreeSet};
use std::f64::consts::TAU;

use super::entities::Piece;
use super::scan::Refusal;
use crate::shape::{Arc, Point, Segment, near};

/// Edges nearer to each other than this over their length are the same line, mm.
const SAME: f64 = 0.01;
/// Most pairs of edges whose boxes meet.
pub const MOST_PAIRS: usize = 3_000_000;

/// What became of pieces that were drawn twice.
#[derive(Default)]
pub struct Undoubled {
    /// Pieces without what lay over others.
    pub pieces: Vec<Piece>,
    /// Number of the layer and place of what was left out.
    pub dropped: Vec<(usize, Point)>,
    /// Number of the layer and place of what lies over others only in part, and was left.
    pub partly: Vec<(usize, Point)>,
}

/// How an edge lies over another.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Over {
    /// Nowhere, or only at its ends.
    Not,
    /// All of it.
    Whole,
    /// The other lies over all of it.
    Under,
    /// Part of it over part of the other.
    Part,
}

/// Leaves out what lies wholly over something else.
///
/// # Errors
/// Too many edges lie across each other to be looked at.
pub fn undoubled(mut pieces: Vec<Piece>) -> Result<Undoubled, Refusal> {
    // What is closed in itself stays where it lies over loose lines.
    pieces.sort_by_key(|p| !p.lowered.closed);
    let owner: Vec<(usize, usize)> =
        pieces.iter().enumerate().flat_map(|(i, p)| (0..p.lowered.edges.len()).map(move |e| (i, e))).collect();
    let edges: Vec<Segment> = pieces.iter().flat_map(|p| p.lowered.edges.iter().copied()).collect();
    let mut looked = 0;
    let mut gone: BTreeMap<usize, BTreeSet<usize>> = BTreeMap::new();
    let mut partly: BTreeSet<(usize, usize)> = BTreeSet::new();
    let mut over_each_other = Vec::new();
    near::pairs(&edges, SAME, &mut |i, j| {
        looked += 1;
        if let (Some(a), Some(b)) = (edges.get(i), edges.get(j)) {
            let over = over(b, a);
            if over != Over::Not {
                over_each_other.push((i, j, over));
            }
        }
        looked <= MOST_PAIRS
    });
    if looked > MOST_PAIRS {
        let what = "its lines lie across each other in more places than can be looked at".into();
        return Err(Refusal { line: None, what });
    }
    over_each_other.sort_by_key(|(i, j, _)| (*i, *j));
    for (i, j, over) in over_each_other {
        let (Some(first), Some(second)) = (owner.get(i).copied(), owner.get(j).copied()) else { continue };
        let is_gone = |at: (usize, usize)| gone.get(&at.0).is_some_and(|g: &BTreeSet<usize>| g.contains(&at.1));
        if is_gone(first) || is_gone(second) {
            continue;
        }
        let later = match over {
            Over::Under if !whole_circle(&pieces, first.0) => first,
            Over::Part if !whole_circle(&pieces, first.0) => {
                partly.insert(second);
                continue;
            }
            _ => second,
        };
        gone.entry(later.0).or_default().insert(later.1);
    }
    Ok(without(pieces, &gone, &partly))
}

fn whole_circle(pieces: &[Piece], i: usize) -> bool {
    pieces.get(i).is_some_and(|p| {
        p.lowered.closed && matches!(p.lowered.edges.as_slice(), [a, b] if a.bulge.abs() == 1.0 && b.bulge.abs() == 1.0)
    })
}

fn without(
    pieces: Vec<Piece>,
    gone: &BTreeMap<usize, BTreeSet<usize>>,
    partly: &BTreeSet<(usize, usize)>,
) -> Undoubled {
    let mut out = Undoubled::default();
    for (i, piece) in pieces.into_iter().enumerate() {
        let place = |e: usize| piece.lowered.edges.get(e).map_or(Point::ORIGIN, |s| s.at(0.5));
        let in_part = partly.iter().filter(|(p, _)| *p == i).map(|(_, e)| *e).min();
        let empty = BTreeSet::new();
        let lost = gone.get(&i).unwrap_or(&empty);
        if lost.len() < piece.lowered.edges.len() && piece.lowered.closed && !lost.is_empty() {
            // An outline that shares an edge with another stays whole: which of both it belongs to, nobody knows.
            out.partly.extend(lost.first().map(|e| (piece.layer, place(*e))));
            out.pieces.push(piece);
            continue;
        }
        out.partly.extend(in_part.map(|e| (piece.layer, place(e))));
        out.dropped.extend(lost.first().map(|e| (piece.layer, place(*e))));
        if lost.is_empty() {
            out.pieces.push(piece);
        } else {
            out.pieces.extend(remains(&piece, lost));
        }
    }
    out
}

/// What is left of an open piece, run by run.
fn remains(piece: &Piece, lost: &BTreeSet<usize>) -> Vec<Piece> {
    let mut runs: Vec<Vec<Segment>> = vec![Vec::new()];
    for (e, edge) in piece.lowered.edges.iter().enumerate() {
        if lost.contains(&e) {
            runs.push(Vec::new());
        } else if let Some(run) = runs.last_mut() {
            run.push(*edge);
        }
    }
    let part = |edges: Vec<Segment>| {
        let mut part = piece.clone();
        part.lowered.edges = edges;
        part.lowered.nothing.clear();
        // Of a curve in pieces nobody knows which had what share.
        part.lowered.area = 0.0;
        part
    };
    runs.into_iter().filter(|run| !run.is_empty()).map(part).collect()
}

/// How `a` lies over `b`.
fn over(a: &Segment, b: &Segment) -> Over {
    match (a.arc(), b.arc()) {
        (None, None) => lines(a, b),
        (Some(x), Some(y)) if x.centre.to(y.centre) < SAME && (x.radius - y.radius).abs() < SAME => arcs(&x, &y),
        _ => Over::Not,
    }
}

fn lines(a: &Segment, b: &Segment) -> Over {
    let long = b.from.to(b.to);
    let along = b.to.minus(b.from).times(1.0 / long);
    let place = |p: Point| (p.minus(b.from).dot(along), p.minus(b.from).cross(along).abs());
    let ((s, off), (t, off_too)) = (place(a.from), place(a.to));
    // A long line that leaves a short one slowly is judged from the short one.
    if long < a.from.to(a.to) {
        return match lines(b, a) {
            Over::Whole => Over::Under,
            other => other,
        };
    }
    if off.max(off_too) > SAME {
        return Over::Not;
    }
    shared((s.min(t), s.max(t)), (0.0, long))
}

fn arcs(a: &Arc, b: &Arc) -> Over {
    let ends = |arc: &Arc| if arc.sweep > 0.0 { (arc.start, arc.sweep) } else { (arc.start + arc.sweep, -arc.sweep) };
    let ((start, sweep), (other, other_sweep)) = (ends(a), ends(b));
    // Both unrolled from where the second begins; the first may lie a turn further.
    let begin = (start - other).rem_euclid(TAU);
    let lengths = |from: f64| (from * b.radius, (from + sweep) * b.radius);
    let there = (0.0, other_sweep * b.radius);
    let found = [shared(lengths(begin), there), shared(lengths(begin - TAU), there)];
    found.into_iter().find(|f| *f != Over::Not).unwrap_or(Over::Not)
}

/// How one stretch of a line lies over another, in mm along it.
fn shared((a, b): (f64, f64), (c, d): (f64, f64)) -> Over {
    let common = b.min(d) - a.max(c);
    if common <= SAME.min(0.5 * (b - a)).min(0.5 * (d - c)) {
        Over::Not
    } else if a >= c - SAME && b <= d + SAME {
        Over::Whole
    } else if c >= a - SAME && d <= b + SAME {
        Over::Under
    } else {
        Over::Part
    }
}
