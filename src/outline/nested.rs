//! Which outline lies in which: parts, their holes, and parts in the holes.

use super::doubled::MOST_PAIRS;
use super::join::Run;
use super::scan::Refusal;
use crate::shape::{Point, Segment, near};

/// A closed outline and where it lies.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    /// Its edges.
    pub run: Run,
    /// In how many others it lies: even for the edge of a part, odd for a hole.
    pub depth: usize,
    /// The innermost that it lies in.
    pub within: Option<usize>,
}

impl Outline {
    /// A hole, not the edge of a part.
    pub const fn is_hole(&self) -> bool {
        self.depth % 2 == 1
    }
}

/// Places a run on the others that it lies in.
///
/// # Errors
/// More boxes of outlines overlap than can be looked at.
pub fn nested(runs: Vec<Run>) -> Result<Vec<Outline>, Refusal> {
    let boxes: Vec<(Point, Point)> = runs.iter().map(|r| corners(&r.edges)).collect();
    let areas: Vec<f64> = runs.iter().map(Run::drawn_area).collect();
    let area = |i: usize| areas.get(i).copied().unwrap_or(0.0);
    let mut around: Vec<Vec<usize>> = vec![Vec::new(); runs.len()];
    let diagonals: Vec<Segment> = boxes.iter().map(|(a, b)| Segment { from: *a, to: *b, bulge: 0.0 }).collect();
    let mut looked = 0;
    near::pairs(&diagonals, 0.0, &mut |i, j| {
        looked += 1;
        let (inner, outer) = if area(i) < area(j) { (i, j) } else { (j, i) };
        if let (Some(a), Some(b), Some(small), Some(large)) =
            (boxes.get(inner), boxes.get(outer), runs.get(inner), runs.get(outer))
            && box_holds(*b, *a)
            && holds(&large.edges, &small.edges)
            && let Some(list) = around.get_mut(inner)
        {
            list.push(outer);
        }
        looked <= MOST_PAIRS
    });
    if looked > MOST_PAIRS {
        return Err(Refusal {
            line: None,
            what: "its outlines lie in each other in more places than can be looked at".into(),
        });
    }
    let innermost = |list: &[usize]| list.iter().copied().min_by(|a, b| area(*a).total_cmp(&area(*b)));
    let placed = runs.into_iter().zip(around);
    Ok(placed.map(|(run, around)| Outline { run, depth: around.len(), within: innermost(&around) }).collect())
}

fn corners(edges: &[Segment]) -> (Point, Point) {
    let far = Point::mm(f64::MAX, f64::MAX);
    edges.iter().map(Segment::bounds).fold((far, far.times(-1.0)), |(a, b), (c, d)| {
        (Point::mm(a.x.min(c.x), a.y.min(c.y)), Point::mm(b.x.max(d.x), b.y.max(d.y)))
    })
}

fn box_holds(outer: (Point, Point), inner: (Point, Point)) -> bool {
    outer.0.x <= inner.0.x && outer.0.y <= inner.0.y && outer.1.x >= inner.1.x && outer.1.y >= inner.1.y
}

fn holds(outer: &[Segment], inner: &[Segment]) -> bool {
    // A place on the inner outline that is level with no corner of the outer one.
    let Some(edge) = inner.first() else { return false };
    let places = [0.381_966, 0.618_034, 0.271_828, 0.141_421, 0.866_025].map(|t| edge.at(t));
    let level = |p: &Point| outer.iter().any(|s| (s.from.y - p.y).abs() < 1e-9);
    places.into_iter().find(|p| !level(p)).is_some_and(|p| inside(outer, p))
}

/// Whether a point lies inside: the level line to its right meets the outline an odd number of times.
pub fn inside(outline: &[Segment], p: Point) -> bool {
    let meets = |s: &Segment| -> usize {
        let Some(arc) = s.arc() else {
            let (a, b) = (s.from, s.to);
            let crosses = (a.y > p.y) != (b.y > p.y);
            return usize::from(crosses && a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x) > p.x);
        };
        let up = p.y - arc.centre.y;
        let square = arc.radius * arc.radius - up * up;
        if square <= 0.0 || arc.centre.x + arc.radius < p.x {
            return 0;
        }
        let half = square.sqrt();
        let on = |x: f64| arc.centre.x + x > p.x && arc.fraction_of(libm::atan2(up, x)).is_some();
        usize::from(on(half)) + usize::from(on(-half))
    };
    outline.iter().map(meets).sum::<usize>() % 2 == 1
}
