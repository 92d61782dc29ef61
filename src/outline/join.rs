//! Pieces end to end: joined into closed outlines where their ends lie within a stated gap of each other.

use std::collections::BTreeMap;

use super::entities::Piece;
use crate::shape::{Point, Segment};

/// Ends nearer than this are the same point, mm.
pub const TOGETHER: f64 = 1e-3;

/// A run of edges, closed or not.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// Edges, each beginning where the one before it ends.
    pub edges: Vec<Segment>,
    /// Its end is its beginning.
    pub closed: bool,
    /// Number of the layer of its first piece.
    pub layer: usize,
    /// Area of the curves that it stands for, less that of its edges, in its direction, mm².
    pub area: f64,
}

impl Run {
    /// Enclosed area of what was drawn, mm².
    pub fn drawn_area(&self) -> f64 {
        (self.edges.iter().map(Segment::area).sum::<f64>() + self.area).abs()
    }
    /// Length of its edges, mm.
    pub fn length(&self) -> f64 {
        self.edges.iter().map(|s| s.length().as_mm()).sum()
    }
    /// First corner.
    pub fn start(&self) -> Point {
        self.edges.first().map_or(Point::ORIGIN, |s| s.from)
    }
    /// Last corner.
    pub fn end(&self) -> Point {
        self.edges.last().map_or(Point::ORIGIN, |s| s.to)
    }
}

/// What came of joining.
#[derive(Default)]
pub struct Joined {
    /// The runs.
    pub runs: Vec<Run>,
    /// Gaps that were closed: layer, place, width in mm.
    pub gaps: Vec<(usize, Point, f64)>,
    /// Joints that were made where two pieces met.
    pub joints: usize,
}

/// One end of an open piece.
#[derive(Clone, Copy)]
struct End {
    piece: usize,
    at_end: bool,
    at: Point,
    /// Unit vector out of the piece.
    out: Point,
}

/// Joins open pieces by their ends, nearest first; where several ends lie in one place those that run straight on.
pub fn joined(pieces: &[Piece], gap: f64) -> Joined {
    let ends = ends_of(pieces);
    let links = links(&ends, gap.max(TOGETHER), pieces);
    let mut out = Joined::default();
    let mut done = vec![false; pieces.len()];
    for (i, piece) in pieces.iter().enumerate() {
        if piece.lowered.closed {
            let edges = piece.lowered.edges.clone();
            out.runs.push(Run { edges, closed: true, layer: piece.layer, area: piece.lowered.area });
        } else if !piece.lowered.edges.is_empty() && !done.get(i).copied().unwrap_or(true) {
            walk(pieces, &links, i, &mut done, &mut out);
        }
    }
    out
}

fn ends_of(pieces: &[Piece]) -> Vec<End> {
    let mut ends = Vec::new();
    for (piece, p) in pieces.iter().enumerate().filter(|(_, p)| !p.lowered.closed) {
        if let (Some(first), Some(last)) = (p.lowered.edges.first(), p.lowered.edges.last()) {
            let back = first.tangent(false).times(-1.0);
            ends.push(End { piece, at_end: false, at: first.from, out: back });
            ends.push(End { piece, at_end: true, at: last.to, out: last.tangent(true) });
        }
    }
    ends
}

/// Which end (piece, at its end) is joined to which.
type Links = BTreeMap<(usize, bool), (usize, bool)>;

/// Ends that may stand in one cell of the net; more are no joint.
const CROWD: usize = 64;

fn links(ends: &[End], gap: f64, pieces: &[Piece]) -> Links {
    let cell = |p: Point| ((p.x / gap).floor() as i64, (p.y / gap).floor() as i64);
    let mut net: BTreeMap<(i64, i64), Vec<usize>> = BTreeMap::new();
    for (i, end) in ends.iter().enumerate() {
        net.entry(cell(end.at)).or_default().push(i);
    }
    let mut pairs: Vec<(bool, f64, f64, usize, usize)> = Vec::new();
    for (i, end) in ends.iter().enumerate() {
        let (x, y) = cell(end.at);
        let around = (-1..=1).flat_map(|dx| (-1..=1).map(move |dy| (x + dx, y + dy)));
        let near = around.filter_map(|c| net.get(&c)).flat_map(|list| list.iter().take(CROWD)).copied();
        for j in near.filter(|j| *j > i) {
            let Some(other) = ends.get(j) else { continue };
            let apart = end.at.to(other.at);
            let own = end.piece == other.piece && length(pieces, end.piece) <= 2.0 * gap;
            if apart <= gap && !own {
                // Straight on is -1: the two ends look against each other.
                pairs.push((
                    apart > TOGETHER,
                    if apart > TOGETHER { apart } else { 0.0 },
                    end.out.dot(other.out),
                    i,
                    j,
                ));
            }
        }
    }
    pairs.sort_by(|a, b| {
        a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a.2.total_cmp(&b.2)).then((a.3, a.4).cmp(&(b.3, b.4)))
    });
    let mut links = Links::new();
    for (_, _, _, i, j) in pairs {
        if let (Some(a), Some(b)) = (ends.get(i), ends.get(j)) {
            let (a, b) = ((a.piece, a.at_end), (b.piece, b.at_end));
            if !links.contains_key(&a) && !links.contains_key(&b) {
                links.insert(a, b);
                links.insert(b, a);
            }
        }
    }
    links
}

fn length(pieces: &[Piece], i: usize) -> f64 {
    pieces.get(i).map_or(0.0, |p| p.lowered.edges.iter().map(|s| s.length().as_mm()).sum())
}

/// Follows the links from a piece: back to where its run begins, then along it.
fn walk(pieces: &[Piece], links: &Links, first: usize, done: &mut [bool], out: &mut Joined) {
    let mut begin = (first, false);
    // Against the run until an end without a link, or round to where this began.
    while let Some((piece, at_end)) = links.get(&begin) {
        begin = (*piece, !at_end);
        if begin == (first, false) {
            break;
        }
    }
    let closed = links.contains_key(&begin);
    let layer = pieces.get(begin.0).map_or(0, |p| p.layer);
    let mut run = Run { edges: Vec::new(), closed, layer, area: 0.0 };
    let mut at = Some(begin);
    while let Some((piece, entered_at_end)) = at.filter(|(p, _)| done.get(*p) == Some(&false)) {
        if let Some(flag) = done.get_mut(piece) {
            *flag = true;
        }
        let Some(p) = pieces.get(piece) else { break };
        let edges = &p.lowered.edges;
        let turned: Vec<Segment> =
            if entered_at_end { edges.iter().rev().map(Segment::reversed).collect() } else { edges.clone() };
        run.area += if entered_at_end { -p.lowered.area } else { p.lowered.area };
        let last = run.edges.len();
        run.edges.extend(turned);
        if last > 0 {
            meet(&mut run, last - 1, last, out);
        }
        at = links.get(&(piece, !entered_at_end)).copied();
    }
    if run.closed {
        let last = run.edges.len() - 1;
        meet(&mut run, last, 0, out);
    }
    out.runs.push(run);
}

/// Two edges that follow each other get one corner, in the middle of the gap.
fn meet(run: &mut Run, before: usize, after: usize, out: &mut Joined) {
    let (Some(a), Some(b)) = (run.edges.get(before).map(|s| s.to), run.edges.get(after).map(|s| s.from)) else {
        return;
    };
    let (apart, corner) = (a.to(b), if a == b { a } else { a.plus(b).times(0.5) });
    if let Some(edge) = run.edges.get_mut(before) {
        edge.to = corner;
    }
    if let Some(edge) = run.edges.get_mut(after) {
        edge.from = corner;
    }
    out.joints += 1;
    if apart > TOGETHER {
        out.gaps.push((run.layer, corner, apart));
    }
}
