//! Pictures of a landing: where the seats are and what they carry, in which directions the frame may arrive off its
//! place and still ride home, and how well it comes back.

use crate::sheet::SMALL;
use crate::sheet::annotation::Arrow;
use crate::sheet::area::{Area, Point};
use crate::sheet::label::SIZE;
use crate::sheet::{Anchor, Line, Mark, Path, Shade, Text, font};

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
    /// What is to be done there, a line each.
    pub to_do: Vec<String>,
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
    /// Distances of neighbouring seats, each with its place in the list of [`sides`], as text.
    pub distances: Vec<String>,
}

/// The sides of the figure that the seats make, each from one seat to the next round their middle.
pub fn sides(places: &[(f64, f64)]) -> Vec<((f64, f64), (f64, f64))> {
    let corners: Vec<(f64, f64)> =
        around(places.iter().map(|(x, y)| Point::new(*x, *y)).collect()).iter().map(|p| (p.x, p.y)).collect();
    let next = corners.iter().copied().cycle().skip(1);
    let count = if corners.len() == 2 { 1 } else { corners.len() };
    corners.iter().copied().zip(next).take(count).collect()
}

/// Draws a plan, up to 150 mm across. A seat that touches is filled; an arrow shows where the frame lies off it.
pub fn plan(plan: &Plan) -> Vec<Mark> {
    let places = plan.seats.iter().map(|s| Point::new(s.x, s.y));
    let area = Area::around(places.clone());
    let scale = (ACROSS / area.width().max(1.0)).min(UP / area.height().max(1.0));
    let on_paper = |x: f64, y: f64| (Point::new(x, y) - area.centre()) * scale;
    let corners = around(places.map(|p| on_paper(p.x, p.y)).collect());
    let mut marks = vec![Mark::stroke(Path::polygon(&corners), Line::Adjacent)];
    let mut taken = Taken {
        lines: corners.iter().copied().zip(corners.iter().copied().cycle().skip(1)).collect(),
        ..Taken::default()
    };
    let magnified = magnified(plan, scale, &on_paper);
    for seat in &plan.seats {
        let off = Point::new(seat.off.0, seat.off.1) * (scale * magnified);
        marks.extend(seat_marks(seat, on_paper(seat.x, seat.y), off, &mut taken));
    }
    if let Some((x, y)) = plan.centre_of_gravity {
        let sign = centre_of_gravity(on_paper(x, y));
        taken.areas.push(Area::of(&sign));
        marks.extend(sign);
    }
    let (lettered, below) = taken.letter_all(&plan.seats, &on_paper);
    marks.extend(lettered);
    for (((ax, ay), (bx, by)), words) in
        sides(&plan.seats.iter().map(|s| (s.x, s.y)).collect::<Vec<_>>()).into_iter().zip(&plan.distances)
    {
        marks.extend(taken.distance(on_paper(ax, ay), on_paper(bx, by), words));
    }
    let foot = Point::new(0.0, Area::of(&marks).bottom - ARM - 1.2 - SIZE * 1.6);
    marks.extend(axes(Point::new(-LETTERED / 2.0, foot.y)));
    let words = format!("Arrows: where the frame lies off its seats, drawn {magnified} times larger than the plan");
    marks.push(text(foot + Point::new(BESIDE_AXES, 0.0), SMALL, &words, Anchor::Middle));
    let line = |(i, words): (usize, &String)| {
        text(foot - Point::new(0.0, SMALL * 2.0 * (i + 1) as f64), SMALL, words, Anchor::Middle)
    };
    marks.extend(below.iter().enumerate().map(line));
    marks
}

/// By how much offsets are drawn larger: as asked, or half of that and so on, until no arrow leaves the room of the lettering.
fn magnified(plan: &Plan, scale: f64, on_paper: &dyn Fn(f64, f64) -> Point) -> f64 {
    let leaves = |by: f64| {
        let tip = |s: &Seat| on_paper(s.x, s.y).x + s.off.0 * scale * by;
        plan.seats.iter().any(|s| tip(s).abs() > LETTERED / 2.0 + 2.0)
    };
    let halves = std::iter::successors(Some(plan.magnified), |by| Some(by / 2.0));
    halves.take_while(|by| *by > 1.0).find(|by| !leaves(*by)).unwrap_or(1.0)
}

/// Greatest distances of two seats in the plan, across and up, and width that its lettering may fill, mm on paper.
const ACROSS: f64 = 150.0;
const UP: f64 = 100.0;
const LETTERED: f64 = 172.0;
/// Radius of the ring that stands for a seat, mm on paper.
const RING: f64 = 4.0;

fn seat_marks(seat: &Seat, at: Point, off: Point, taken: &mut Taken) -> Vec<Mark> {
    let ring = Mark::stroke(Path::circle(at, RING), Line::Wide);
    taken.areas.push(ring.area());
    let mut marks = vec![ring];
    if seat.touches {
        marks.push(Mark::Fill(Path::circle(at, 2.5), Shade::Black));
    }
    if Point::default().distance(off) > RING {
        let tip = at + off;
        let head = Mark::Fill(Arrow { tip, from: at }.head(), Shade::Black);
        taken.areas.push(head.area());
        taken.lines.push((at, tip));
        marks.push(Mark::line(at, tip, Line::Wide));
        marks.push(head);
    }
    marks
}

/// Beside the room that lettering may fill.
fn is_outside(area: Area) -> bool {
    area.left < -LETTERED / 2.0 || area.right > LETTERED / 2.0
}

/// What stands in a plan already, so that lettering keeps clear of it.
#[derive(Clone, Default)]
struct Taken {
    areas: Vec<Area>,
    lines: Vec<(Point, Point)>,
}

impl Taken {
    /// The lettering of all seats; where seats stand too close for what is to be done there, that is given back as lines to stand
    /// below the plan.
    fn letter_all(&mut self, seats: &[Seat], on_paper: &dyn Fn(f64, f64) -> Point) -> (Vec<Mark>, Vec<String>) {
        let letter = |taken: &mut Self, seats: &[Seat]| -> Vec<Vec<Mark>> {
            seats.iter().map(|seat| taken.letter(seat, on_paper(seat.x, seat.y))).collect()
        };
        let mut tried = self.clone();
        let beside = letter(&mut tried, seats);
        let clash = |(i, marks): (usize, &Vec<Mark>)| {
            let area = Area::of(marks).grown(0.4);
            let others = self.areas.iter().copied();
            let lettered = beside.iter().enumerate().filter(|(j, _)| *j != i).map(|(_, marks)| Area::of(marks));
            is_outside(area) || others.chain(lettered).any(|other| area.overlaps(other))
        };
        if !beside.iter().enumerate().any(clash) {
            *self = tried;
            return (beside.concat(), Vec::new());
        }
        let told = |seat: &&Seat| !seat.to_do.is_empty();
        let line = |s: &Seat| font::wrap(&format!("{}: {}", s.name, s.to_do.join(", ")), SMALL, LETTERED);
        let below = seats.iter().filter(told).flat_map(line).collect();
        let bare: Vec<Seat> = seats.iter().map(|seat| Seat { to_do: Vec::new(), ..seat.clone() }).collect();
        (letter(self, &bare).concat(), below)
    }

    /// The lettering of a seat where it meets least of what is there.
    fn letter(&mut self, seat: &Seat, at: Point) -> Vec<Mark> {
        let tries = places(at).map(|(place, anchor)| lettering(seat, place, anchor));
        let best = tries.min_by_key(|marks| self.met(Area::of(marks))).unwrap_or_default();
        self.areas.push(Area::of(&best));
        best
    }

    /// A distance beside the line that it belongs to, where it meets nothing; no distance where it fits nowhere.
    fn distance(&mut self, from: Point, to: Point, words: &str) -> Option<Mark> {
        let beside = [(0.0, 2.0), (0.0, -4.5), (2.0, -1.2), (-2.0, -1.2)];
        let along = [0.5, 0.35, 0.65].into_iter().flat_map(|share| beside.map(|(x, y)| (share, x, y)));
        let tries = along.map(|(share, x, y)| {
            let anchor = match f64::total_cmp(&x, &0.0) {
                std::cmp::Ordering::Less => Anchor::End,
                std::cmp::Ordering::Equal => Anchor::Middle,
                std::cmp::Ordering::Greater => Anchor::Start,
            };
            text(from + (to - from) * share + Point::new(x, y), SMALL, words, anchor)
        });
        let best = tries.min_by_key(|mark| self.met(mark.area())).filter(|mark| self.met(mark.area()) == 0)?;
        self.areas.push(best.area());
        Some(best)
    }

    /// How much of what is there an area meets; the edge of the picture counts as well.
    fn met(&self, area: Area) -> usize {
        let areas = self.areas.iter().filter(|a| area.grown(0.4).overlaps(**a)).count();
        let lines = self.lines.iter().filter(|(a, b)| area.is_cut_by(*a, *b)).count();
        let outside = is_outside(area);
        // A line through lettering is bad, lettering over lettering or out of the frame worse.
        4 * areas + lines + 8 * usize::from(outside)
    }
}

/// Where the lettering of a seat may stand, the best first: above or below on the outer side, beside it, on the inner
/// side, then farther off.
fn places(at: Point) -> impl Iterator<Item = (Point, Anchor)> {
    let up = if at.y >= 0.0 { 1.0 } else { -1.0 };
    let right = if at.x >= 0.0 { 1.0 } else { -1.0 };
    [1.0, 2.0, 3.5].into_iter().flat_map(move |far| {
        let (high, wide) = (9.5 * far, 6.5 * far);
        let beside =
            |side: f64| (at + Point::new(side * wide, 0.0), if side > 0.0 { Anchor::Start } else { Anchor::End });
        let over = |side: f64| (at + Point::new(0.0, side * high), Anchor::Middle);
        // Flush with the seat on the side where the picture ends.
        let flush = |side: f64| {
            let anchor = if right > 0.0 { Anchor::End } else { Anchor::Start };
            (at + Point::new(right * RING, side * high), anchor)
        };
        [over(up), beside(right), flush(up), over(-up), flush(-up), beside(-right)]
    })
}

/// Name, load and contact of a seat about a place.
fn lettering(seat: &Seat, place: Point, anchor: Anchor) -> Vec<Mark> {
    let touches = if seat.touches { "touches" } else { "free" };
    let words = if seat.load.is_empty() { touches.to_string() } else { format!("{}, {touches}", seat.load) };
    // The lines below the name: away from the seat where the lettering stands over it.
    let lines = seat.to_do.iter().chain([&words]);
    let over = place.y >= 0.0;
    let count = seat.to_do.len() as f64;
    let lift = if over { count * SMALL * 1.5 } else { 0.0 };
    let name = place + Point::new(0.0, 0.6 + lift);
    let below = |(i, line): (usize, &String)| {
        text(name - Point::new(0.0, SIZE * 1.5 + SMALL * 1.5 * i as f64), SMALL, line, anchor)
    };
    [text(name, SIZE, &seat.name, anchor)].into_iter().chain(lines.enumerate().map(below)).collect()
}

/// A circle in black and white quarters.
fn centre_of_gravity(at: Point) -> Vec<Mark> {
    let mut marks = vec![Mark::stroke(Path::circle(at, 3.0), Line::Narrow)];
    for start in [0.0, 180.0] {
        let from = at.along(start, 3.0);
        let quarter = vec![crate::sheet::Step::arc(from, at, 90.0), crate::sheet::Step::Line(at)];
        let mut path = Path::open(from, quarter);
        path.contours.iter_mut().for_each(|c| c.closed = true);
        marks.push(Mark::Fill(path, Shade::Black));
    }
    marks
}

/// How far words beside the axes stand out of the middle, mm on paper.
const BESIDE_AXES: f64 = 12.0;
/// Length of the arms of the axes, mm on paper.
const ARM: f64 = 8.0;

/// The directions x and y in which all places count.
fn axes(origin: Point) -> Vec<Mark> {
    let arms = [
        (Point::new(ARM, 0.0), "x, front", Point::new(1.5, -1.2)),
        (Point::new(0.0, ARM), "y, left", Point::new(-0.8, 1.2)),
    ];
    let arm = |(to, name, beside): (Point, &str, Point)| {
        let tip = origin + to;
        let head = Mark::Fill(Arrow { tip, from: origin }.head(), Shade::Black);
        [Mark::line(origin, tip, Line::Narrow), head, text(tip + beside, SIZE, name, Anchor::Start)]
    };
    arms.into_iter().flat_map(arm).collect()
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

/// Greatest width of the rings, mm on paper.
const ACROSS_RINGS: f64 = 68.0;

/// Draws the ride-off as a polar picture.
pub fn ride_off(ride: &RideOff) -> Vec<Mark> {
    let largest = ride.radii.iter().copied().chain(ride.needed).fold(ride.ring, f64::max);
    // The outermost ring holds everything, and is as wide as the picture may be.
    let ring = ride.ring.max(largest / 20.0).max(1e-9);
    let rings = (largest / ring).ceil().max(1.0);
    let scale = ACROSS_RINGS / 2.0 / (rings * ring);
    let grey = |needed: f64| Mark::Fill(Path::circle(Point::default(), needed * scale), Shade::Grey);
    let mut marks: Vec<Mark> = ride.needed.map(grey).into_iter().collect();
    for i in 1..=rings as u32 {
        marks.push(Mark::stroke(Path::circle(Point::default(), f64::from(i) * ring * scale), Line::Narrow));
    }
    let reach = rings * ring * scale + 4.0;
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
    let widest = h.edges.iter().map(|e| font::width(e, SMALL)).fold(1.0, f64::max) + 3.0;
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
