//! Pictures of a landing: where the seats are and what they carry, in which directions the frame may arrive off its
//! place and still ride home, and how well it comes back.

use crate::page::area::{Area, Point};
use crate::page::label::{SIZE, SMALL};
use crate::page::place::Arrow;
use crate::page::{Anchor, Line, Mark, Path, Shade, Text};

/// One seat seen from above.
#[derive(Clone, PartialEq, Debug)]
pub struct Seat {
    /// Name.
    pub name: String,
    /// Place, mm.
    pub x: f64,
    /// Place, mm.
    pub y: f64,
    /// How far the frame lies off the seat, mm.
    pub off: (f64, f64),
    /// Load with unit, as text; empty for none.
    pub load: String,
    /// Metal touches metal.
    pub touches: bool,
}

/// A landing seen from above.
#[derive(Clone, PartialEq, Debug)]
pub struct Plan {
    /// The seats.
    pub seats: Vec<Seat>,
    /// Centre of gravity, mm.
    pub centre_of_gravity: Option<(f64, f64)>,
    /// By how much offsets are drawn larger than the plan.
    pub magnified: f64,
}

/// Draws a plan, 120 mm across. A seat that touches is filled; an arrow shows where the frame lies off it.
pub fn plan(plan: &Plan) -> Vec<Mark> {
    let places = plan.seats.iter().map(|s| Point::new(s.x, s.y));
    let area = Area::around(places.clone());
    let scale = (120.0 / area.width().max(1.0)).min(120.0 / area.height().max(1.0));
    let on_paper = |x: f64, y: f64| (Point::new(x, y) - area.centre()) * scale;
    let mut marks =
        vec![Mark::stroke(Path::polygon(&around(places.map(|p| on_paper(p.x, p.y)).collect())), Line::Adjacent)];
    for seat in &plan.seats {
        let at = on_paper(seat.x, seat.y);
        marks.extend(seat_marks(seat, at, Point::new(seat.off.0, seat.off.1) * (scale * plan.magnified)));
    }
    if let Some((x, y)) = plan.centre_of_gravity {
        marks.extend(centre_of_gravity(on_paper(x, y)));
    }
    let foot = Point::new(0.0, Area::of(&marks).bottom - 7.0);
    let words =
        format!("Arrows: where the frame lies off its seats, drawn {} times larger than the plan", plan.magnified);
    marks.push(text(foot, SMALL, &words, Anchor::Middle));
    marks
}

fn seat_marks(seat: &Seat, at: Point, off: Point) -> Vec<Mark> {
    let ring = Path::circle(at, 4.0);
    let mut marks = vec![Mark::stroke(ring, Line::Wide)];
    if seat.touches {
        marks.push(Mark::Fill(Path::circle(at, 2.5), Shade::Black));
    }
    let length = Point::default().distance(off);
    if length > 4.0 {
        let tip = at + off;
        marks.push(Mark::line(at, tip, Line::Wide));
        marks.push(Mark::Fill(Arrow { tip, from: at }.head(), Shade::Black));
    }
    // Lettering stands on the outer side of the seat, clear of an arrow that points that way.
    let side = if at.y >= 0.0 { 1.0 } else { -1.0 };
    let clear = 6.0 + (off.y * side).max(0.0);
    let first = if side > 0.0 { clear + SIZE * 1.6 } else { -clear - SIZE };
    let touches = if seat.touches { "touches" } else { "free" };
    let words = if seat.load.is_empty() { touches.to_string() } else { format!("{}, {touches}", seat.load) };
    marks.push(text(at + Point::new(0.0, first), SIZE, &seat.name, Anchor::Middle));
    marks.push(text(at + Point::new(0.0, first - SIZE * 1.5), SMALL, &words, Anchor::Middle));
    marks
}

/// A circle in black and white quarters.
fn centre_of_gravity(at: Point) -> Vec<Mark> {
    let mut marks = vec![Mark::stroke(Path::circle(at, 3.0), Line::Narrow)];
    for start in [0.0, 180.0] {
        let from = at.along(start, 3.0);
        let quarter = vec![crate::page::Step::arc(from, at, 90.0), crate::page::Step::Line(at)];
        let mut path = Path::open(from, quarter);
        path.contours.iter_mut().for_each(|c| c.closed = true);
        marks.push(Mark::Fill(path, Shade::Black));
    }
    marks
}

/// The points in order round their middle.
fn around(mut points: Vec<Point>) -> Vec<Point> {
    let middle = Area::around(points.iter().copied()).centre();
    points.sort_by(|a, b| middle.direction(*a).total_cmp(&middle.direction(*b)));
    points
}

fn text(at: Point, height: f64, words: &str, anchor: Anchor) -> Mark {
    Mark::Text(Text::new(at, height, words).anchored(anchor))
}

/// A value in every direction; directions evenly spaced from the x axis counter-clockwise.
#[derive(Clone, PartialEq, Debug)]
pub struct RideOff {
    /// Radii.
    pub radii: Vec<f64>,
    /// What is needed in every direction; drawn as a grey area.
    pub needed: Option<f64>,
    /// The distance between two rings.
    pub ring: f64,
    /// Name of the unit and the step, as text: `rings 10 mm apart`.
    pub words: String,
}

/// Draws the ride-off as a polar picture, 100 mm across.
pub fn ride_off(ride: &RideOff) -> Vec<Mark> {
    let largest = ride.radii.iter().copied().chain(ride.needed).fold(ride.ring, f64::max);
    let scale = 50.0 / largest.max(1e-9);
    let grey = |needed: f64| Mark::Fill(Path::circle(Point::default(), needed * scale), Shade::Grey);
    let mut marks: Vec<Mark> = ride.needed.map(grey).into_iter().collect();
    let rings = (largest / ride.ring.max(largest / 20.0)).ceil() as u32;
    for i in 1..=rings {
        let radius = f64::from(i) * ride.ring.max(largest / 20.0) * scale;
        marks.push(Mark::stroke(Path::circle(Point::default(), radius), Line::Narrow));
    }
    let reach = f64::from(rings) * ride.ring.max(largest / 20.0) * scale + 4.0;
    for direction in [0.0, 90.0] {
        let tip = Point::default().along(direction, reach);
        marks.push(Mark::line(Point::default() - tip, tip, Line::Centre));
    }
    let count = ride.radii.len() as f64;
    let outline: Vec<Point> = ride
        .radii
        .iter()
        .enumerate()
        .map(|(i, r)| Point::default().along(360.0 * i as f64 / count, r * scale))
        .collect();
    marks.push(Mark::stroke(Path::polygon(&outline), Line::Frame));
    marks.push(text(Point::new(0.0, -reach - 6.0), SMALL, &ride.words, Anchor::Middle));
    marks.push(text(Point::new(reach + 1.5, -SIZE / 2.0), SIZE, "x", Anchor::Start));
    marks.push(text(Point::new(0.0, reach + 1.5), SIZE, "y", Anchor::Middle));
    marks
}

/// How often a figure fell into each of several equal steps.
#[derive(Clone, PartialEq, Debug)]
pub struct Histogram {
    /// What is counted: `Position after landing, mm`.
    pub words: String,
    /// Edges of the steps as text, one more than `counts`.
    pub edges: Vec<String>,
    /// How often.
    pub counts: Vec<u32>,
    /// Limits, each as a place from 0 (first edge) to the number of steps, with its text.
    pub limits: Vec<(f64, String)>,
}

/// Draws a histogram, 120 mm wide and 50 mm high.
pub fn histogram(h: &Histogram) -> Vec<Mark> {
    let (width, height) = (120.0, 50.0);
    let step = width / h.counts.len().max(1) as f64;
    let most = f64::from(h.counts.iter().copied().max().unwrap_or(1).max(1));
    let mut marks = vec![Mark::line(Point::default(), Point::new(width, 0.0), Line::Wide)];
    for (i, count) in h.counts.iter().enumerate().filter(|(_, c)| **c > 0) {
        let bar = Path::rectangle(Area::new(i as f64 * step, 0.0, step, height * f64::from(*count) / most));
        marks.push(Mark::Fill(bar.clone(), Shade::Grey));
        marks.push(Mark::stroke(bar, Line::Narrow));
    }
    // As many edges are named as stand clear of each other.
    let widest = h.edges.iter().map(|e| crate::page::font::width(e, SMALL)).fold(1.0, f64::max) + 3.0;
    let every = (widest / step).ceil().max(1.0) as usize;
    for (i, edge) in h.edges.iter().enumerate().step_by(every) {
        let at = Point::new(i as f64 * step, 0.0);
        marks.push(Mark::line(at, at - Point::new(0.0, 1.5), Line::Narrow));
        marks.push(text(at - Point::new(0.0, 5.0), SMALL, edge, Anchor::Middle));
    }
    let middle = h.counts.len() as f64 / 2.0;
    for (row, (place, words)) in h.limits.iter().enumerate() {
        // Each on a line of its own, beside its line and towards the middle, so that they never meet.
        let (x, y) = (place * step, height + 3.0 + 5.0 * row as f64);
        marks.push(Mark::line(Point::new(x, 0.0), Point::new(x, y + SMALL), Line::Hidden));
        let (off, anchor) = if *place < middle { (1.5, Anchor::Start) } else { (-1.5, Anchor::End) };
        marks.push(text(Point::new(x + off, y), SMALL, words, anchor));
    }
    marks.push(text(Point::new(width / 2.0, -11.5), SIZE, &h.words, Anchor::Middle));
    marks
}
