//! Dimensions that do not lie beside the view: leaders to holes and radii, and angles.
//!
//! Both look for room: leaders try directions and lengths and take the shortest that crosses least, angles take the
//! smallest arc whose figures touch nothing.

use crate::sheet::annotation::{Annotation, Arrow, HEAD};
use crate::sheet::area::{Area, Point};
use crate::sheet::label::{GAP, Label};
use crate::sheet::{Line, Mark, Path, Step};
use crate::units::Angle;

/// Overrun of the legs of an angle over its arc, mm.
const LEG: f64 = 2.0;
/// Length of the level part of a leader before boxes, mm.
const SHELF: f64 = 3.0;
/// How much farther a leader goes to spare crossing one line, mm.
const CROSSING: f64 = 14.0;
/// How much farther it goes to spare crossing another leader or a dimension line, mm.
const CONFUSING: f64 = 60.0;
/// Free space between the level part of a leader and the words of another at the same height, mm.
const APART: f64 = 2.5;

/// Length of a leader that has room for little more than its arrow, mm.
const SHORT: f64 = 5.0;
/// How much farther a leader goes than to be so short, mm.
const CRAMPED: f64 = 22.0;

/// How much farther a leader goes to leave the part at once and not along its edge, mm.
const OVER_PART: f64 = 25.0;

/// The end of a leader at the part.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum End {
    /// An arrow.
    Arrow,
    /// Nothing: it ends on a dimension line (ISO 128-2).
    Bare,
    /// The triangle of a datum, square to the surface (ISO 5459).
    Triangle,
}

/// A note joined to a point or a circle by a line.
#[derive(Clone, PartialEq, Debug)]
pub struct Leader {
    /// The point, or the centre of the circle.
    pub at: Point,
    /// Further points where it may begin as well: of a surface any one is as good as another.
    pub others: Vec<Point>,
    /// Radius of the circle on paper; nought for a point.
    pub radius: f64,
    /// How it ends at the part.
    pub end: End,
    /// Directions in which it may leave, degrees from and to (counter-clockwise); `None` for any.
    pub within: Option<(f64, f64)>,
    /// What stands on it.
    pub label: Label,
    /// Key of the dimension, or the words of a note: what it is called where it finds no room.
    pub name: String,
}

/// An angle between two directions from a point; both legs are drawn as extension lines.
#[derive(Clone, PartialEq, Debug)]
pub struct Corner {
    /// Where the legs meet.
    pub vertex: Point,
    /// First direction, degrees.
    pub from: f64,
    /// Second direction, degrees; larger than the first.
    pub to: f64,
    /// From where on the legs need to be drawn: the length of each leg that the view already shows, mm.
    pub shown: (f64, f64),
    /// What stands on it.
    pub label: Label,
    /// Key of the dimension, or the words of a note: what it is called where it finds no room.
    pub name: String,
}

/// What new lettering has to respect.
pub struct Ground<'a> {
    /// Edges of the view.
    edges: &'a [(Point, Point)],
    /// Lines drawn, or lines that will be drawn.
    lines: &'a [(Point, Point)],
    /// Both by their height on the paper.
    bands: Bands,
    /// Lettering already there: nothing may lie on it and no line pass through it.
    labels: &'a [Area],
    /// Arrow heads already there: no lettering may lie on them.
    heads: &'a [Area],
    /// Leaders already there: one that crosses another is followed to the wrong end.
    leaders: &'a [(Point, Point)],
    /// Dimension lines already there: nothing is to cross them.
    dimension_lines: &'a [(Point, Point)],
}

impl<'a> Ground<'a> {
    /// Edges of the view, lines drawn or that will be drawn, lettering and arrow heads already there.
    pub fn new(
        edges: &'a [(Point, Point)],
        lines: &'a [(Point, Point)],
        labels: &'a [Area],
        heads: &'a [Area],
    ) -> Self {
        let bands = Bands::of(edges.iter().chain(lines));
        Self { edges, lines, bands, labels, heads, leaders: &[], dimension_lines: &[] }
    }

    /// The same with leaders and dimension lines already there.
    pub fn with_leaders(self, leaders: &'a [(Point, Point)], dimension_lines: &'a [(Point, Point)]) -> Self {
        Self { leaders, dimension_lines, ..self }
    }

    /// Lettering here touches nothing and does not lie on the part.
    pub fn is_free(&self, area: Area) -> bool {
        let wide = area.grown(GAP);
        !self.labels.iter().chain(self.heads).any(|t| t.overlaps(wide))
            && !self.bands.near(wide).any(|(a, b)| wide.is_cut_by(*a, *b))
            && !self.leaders.iter().any(|(a, b)| wide.widened(APART).is_cut_by(*a, *b))
            && !self.on_part(area.centre())
    }

    /// The point lies within the edges of the view, even-odd.
    fn on_part(&self, p: Point) -> bool {
        let right_of = |(a, b): &&(Point, Point)| {
            (a.y <= p.y) != (b.y <= p.y) && a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y) > p.x
        };
        self.edges.iter().filter(right_of).count() % 2 == 1
    }

    /// The level part of a leader runs up to the words of another, as if it belonged to them.
    fn runs_into_labels(&self, elbow: Point, far: Point) -> bool {
        self.labels.iter().any(|t| t.grown(GAP).widened(APART).is_cut_by(elbow, far))
    }

    fn crosses_labels(&self, from: Point, to: Point) -> bool {
        self.labels.iter().any(|t| t.grown(0.5).is_cut_by(from, to))
    }

    /// A point lies closer to an edge of the view than that.
    fn is_near_edge(&self, p: Point, distance: f64) -> bool {
        self.edges.iter().any(|(a, b)| {
            let (along, to) = (*b - *a, p - *a);
            let length = (along.x * along.x + along.y * along.y).max(1e-12);
            let share = ((along.x * to.x + along.y * to.y) / length).clamp(0.0, 1.0);
            p.distance(*a + along * share) < distance
        })
    }

    fn covers_head(&self, leader: &Leader, tip: Point, from: Point) -> bool {
        let head = Arrow { tip, from }.head().area();
        leader.end != End::Bare && self.labels.iter().any(|l| l.overlaps(head))
    }

    fn crossings(&self, from: Point, to: Point) -> usize {
        self.lines.iter().filter(|(a, b)| cross(*a, *b, from, to)).count()
    }
}

/// Lines in bands across the paper, so that only those at the height of some lettering are looked at. A line that passes
/// through several bands stands in each.
struct Bands {
    bottom: f64,
    bands: Vec<Vec<(Point, Point)>>,
}

impl Bands {
    /// Height of a band, mm: about that of lettering.
    const HEIGHT: f64 = 5.0;
    const MOST: usize = 200;

    fn of<'a>(lines: impl Iterator<Item = &'a (Point, Point)> + Clone) -> Self {
        let bottom = lines.clone().map(|(a, b)| a.y.min(b.y)).fold(f64::INFINITY, f64::min);
        let mut bands = Self { bottom, bands: Vec::new() };
        for (a, b) in lines {
            let (low, high) = (bands.band(a.y.min(b.y)), bands.band(a.y.max(b.y)));
            bands.bands.resize(bands.bands.len().max(high + 1), Vec::new());
            bands.bands.iter_mut().take(high + 1).skip(low).for_each(|band| band.push((*a, *b)));
        }
        bands
    }

    /// The band at a height; what lies far off the paper stands in the last.
    fn band(&self, y: f64) -> usize {
        (((y - self.bottom) / Self::HEIGHT) as usize).min(Self::MOST)
    }

    /// The lines that may come into an area, some of them more than once.
    fn near(&self, area: Area) -> impl Iterator<Item = &(Point, Point)> {
        // A line that lies along the edge of the area counts by a hair's breadth.
        let (low, high) = (self.band(area.bottom - 1e-6), self.band(area.top + 1e-6));
        self.bands.iter().take(high + 1).skip(low).flatten()
    }
}

fn cross(a: Point, b: Point, c: Point, d: Point) -> bool {
    let side = |p: Point, q: Point, r: Point| (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x) > 0.0;
    side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b)
}

/// One way of drawing a leader.
#[derive(Clone, Copy)]
pub struct Way {
    tip: Point,
    elbow: Point,
    /// End of its level part.
    far: Point,
    corner: Point,
    cost: f64,
    /// How many leaders and dimension lines it crosses.
    confusing: usize,
}

impl Way {
    /// Its length, and what it crosses as a length.
    pub fn cost(&self) -> f64 {
        self.cost
    }

    /// It crosses a leader or a dimension line.
    pub fn is_confusing(&self) -> bool {
        self.confusing > 0
    }

    /// Draws a leader this way.
    pub fn draw(&self, leader: &Leader, out: &mut Annotation) {
        out.line(self.tip, self.elbow);
        if self.elbow.distance(self.far) > 1e-9 {
            out.line(self.elbow, self.far);
        }
        let arrow = Arrow { tip: self.tip, from: self.elbow };
        match leader.end {
            End::Arrow => out.arrow(arrow),
            End::Triangle => out.triangle(arrow),
            End::Bare => (),
        }
        out.label(&leader.label, self.corner, 0.0);
    }
}

/// The way on which a leader disturbs least; none when there is no room within reach. From further points only where the
/// first gives none without crossing a leader or a dimension line.
pub fn best_way(leader: &Leader, ground: &Ground<'_>) -> Option<Way> {
    let best = way_from(leader.at, leader, ground);
    if best.is_some_and(|way| !way.is_confusing()) {
        return best;
    }
    let others = leader.others.iter().filter_map(|at| way_from(*at, leader, ground));
    others.chain(best).min_by(|a, b| a.cost.total_cmp(&b.cost))
}

/// Tries lengths from short to long; stops when no longer one can be better.
fn way_from(at: Point, leader: &Leader, ground: &Ground<'_>) -> Option<Way> {
    let turns = (0..24).filter(|i| i % 6 != 0).map(|i| f64::from(i) * 15.0).filter(|d| leaves(leader, *d));
    let directions: Vec<f64> = match (leader.end, leader.within) {
        (End::Triangle, Some((only, _))) => vec![only],
        _ => turns.collect(),
    };
    let size = Point::new(leader.label.width(), leader.label.height());
    let tries: Vec<Try> = directions.into_iter().map(|d| Try::new((at, leader), size, d, ground)).collect();
    // Between the outline and its first dimension line there is room for one that is short.
    let cramped = tries.iter().filter_map(|t| t.way(SHORT, ground)).map(|w| Way { cost: w.cost + CRAMPED, ..w });
    let mut best: Option<Way> = cramped.min_by(|a, b| a.cost.total_cmp(&b.cost));
    for length in (2..60).map(|i| f64::from(i) * 4.0) {
        let dearest = best.as_ref().map_or(f64::INFINITY, |b| b.cost);
        if dearest <= length {
            break;
        }
        let ways = tries.iter().filter(|t| length + t.over_part <= dearest).filter_map(|t| t.way(length, ground));
        best = ways.chain(best).min_by(|a, b| a.cost.total_cmp(&b.cost));
    }
    best
}

fn leaves(leader: &Leader, direction: f64) -> bool {
    leader.within.is_none_or(|(from, to)| (direction - from).rem_euclid(360.0) <= (to - from).rem_euclid(360.0))
}

/// A leader in one direction, with what is the same for every length.
struct Try<'a> {
    leader: &'a Leader,
    /// Width and height of its label.
    size: Point,
    unit: Point,
    tip: Point,
    /// What it costs to leave over the part or along its edge.
    over_part: f64,
}

impl<'a> Try<'a> {
    fn new((at, leader): (Point, &'a Leader), size: Point, direction: f64, ground: &Ground<'_>) -> Self {
        let unit = Point::unit(direction);
        let tip = at.towards(unit, leader.radius);
        let grazes = ground.is_near_edge(tip.towards(unit, 8.0), 4.0);
        let over_part = if grazes || ground.on_part(tip.towards(unit, 1.5)) { OVER_PART } else { 0.0 };
        Self { leader, size, unit, tip, over_part }
    }

    fn way(&self, length: f64, ground: &Ground<'_>) -> Option<Way> {
        let (tip, elbow) = (self.tip, self.tip.towards(self.unit, length));
        let (far, corner) = self.shelf(elbow);
        if ground.crosses_labels(tip, elbow)
            || ground.runs_into_labels(elbow, far)
            || !ground.is_free(Area::around([corner, corner + self.size]))
            || ground.covers_head(self.leader, tip, elbow)
        {
            return None;
        }
        let crossings = ground.crossings(tip, elbow) + ground.crossings(elbow, far);
        // One that begins on a dimension line does not cross it there.
        let off = tip.towards(self.unit, 0.1);
        let crossed = |(a, b): &&(Point, Point)| cross(*a, *b, off, elbow) || cross(*a, *b, elbow, far);
        let confusing = ground.leaders.iter().chain(ground.dimension_lines).filter(crossed).count();
        let cost = length + self.over_part + CROSSING * crossings as f64 + CONFUSING * confusing as f64;
        Some(Way { tip, elbow, far, corner, cost, confusing })
    }

    /// Where the level part of a leader ends, and the lower left corner of its label: words stand on the line, boxes
    /// are met in the middle of their side, and the box of a datum lies straight before its triangle.
    fn shelf(&self, elbow: Point) -> (Point, Point) {
        let (Point { x: width, y: height }, Point { x: cos, y: sin }) = (self.size, self.unit);
        if self.leader.end == End::Triangle {
            let half = (width / 2.0 / cos.abs().max(1e-9)).min(height / 2.0 / sin.abs().max(1e-9));
            let centre = elbow.towards(self.unit, half);
            return (elbow, Point::new(centre.x - width / 2.0, centre.y - height / 2.0));
        }
        let to_left = cos < 0.0;
        let back = if to_left { width } else { 0.0 };
        if self.leader.label.is_boxed() {
            let far = Point::new(elbow.x + if to_left { -SHELF } else { SHELF }, elbow.y);
            return (far, Point::new(far.x - back, far.y - height / 2.0));
        }
        (Point::new(elbow.x + width - 2.0 * back, elbow.y), Point::new(elbow.x - back, elbow.y + GAP))
    }
}

/// Draws an angle with the smallest arc whose figures are free. Where figures fit nowhere outside the arc, the arc is
/// drawn all the same, and a leader from its middle is given back, to be drawn when all else is placed.
pub fn draw_corner(corner: &Corner, ground: &Ground<'_>, out: &mut Annotation) -> Option<Leader> {
    let label = &corner.label;
    let radii = || (3..40).map(|i| f64::from(i) * 4.0).filter(|r| is_arc_free(corner, *r, ground));
    let free = radii().take_while(|r| *r <= FAR).find(|r| ground.is_free(label.area(figures(corner, *r), 0.0)));
    let radius = free.or_else(|| radii().next()).unwrap_or(FAR);
    draw_arc(corner, radius, holds_arrows(corner, radius), out);
    if free.is_some() {
        out.label(label, figures(corner, radius), 0.0);
        return None;
    }
    let middle = (corner.from + corner.to) / 2.0;
    let from = if holds_arrows(corner, radius) { middle } else { corner.from - tail(radius) };
    let at = corner.vertex.along(from, radius);
    let (label, name) = (label.clone(), corner.name.clone());
    Some(Leader { at, others: Vec::new(), radius: 0.0, within: None, end: End::Bare, label, name })
}

/// Largest arc of an angle for the sake of its figures, mm.
const FAR: f64 = 28.0;

/// Both arrows fit between the legs.
fn holds_arrows(corner: &Corner, radius: f64) -> bool {
    (corner.to - corner.from).to_radians() * radius >= 2.0 * HEAD + 3.0
}

/// Degrees of the arc that carries an arrow outside its leg.
fn tail(radius: f64) -> f64 {
    (2.0 * HEAD / radius).to_degrees()
}

/// Lower left corner of the figures outside the arc, in its middle.
fn figures(corner: &Corner, radius: f64) -> Point {
    let (middle, w, h) = ((corner.from + corner.to) / 2.0, corner.label.width(), corner.label.height());
    let m = Angle::degrees(middle);
    let away = radius + LEG + GAP + m.cos().abs() * w / 2.0 + m.sin().abs() * h / 2.0;
    corner.vertex.along(middle, away) - Point::new(w / 2.0, h / 2.0)
}

fn is_arc_free(corner: &Corner, radius: f64, ground: &Ground<'_>) -> bool {
    let reach = if holds_arrows(corner, radius) { 0.0 } else { tail(radius) };
    let (from, to) = (corner.from - reach, corner.to + reach);
    let ends: Vec<Point> =
        (0..=8).map(|i| corner.vertex.along(from + (to - from) * f64::from(i) / 8.0, radius)).collect();
    !ends.iter().zip(ends.iter().skip(1)).any(|(a, b)| ground.crosses_labels(*a, *b))
}

fn draw_arc(corner: &Corner, radius: f64, inside: bool, out: &mut Annotation) {
    let legs = [(corner.from, corner.shown.0), (corner.to, corner.shown.1)];
    for (direction, shown) in legs {
        if shown < radius + 1.0 {
            out.line(corner.vertex.along(direction, shown), corner.vertex.along(direction, radius + LEG));
        }
    }
    let middle = (corner.from + corner.to) / 2.0;
    let reach = if inside { 0.0 } else { tail(radius) };
    let start = corner.vertex.along(corner.from - reach, radius);
    let sweep = corner.to - corner.from + 2.0 * reach;
    let arc = Path::open(start, vec![Step::arc(start, corner.vertex, sweep)]);
    out.lines.extend(arc.chords(10.0));
    out.dimension_lines.extend(arc.chords(10.0));
    out.marks.push(Mark::stroke(arc, Line::Narrow));
    // The head is straight: it points along the chord of its own length, so that tip and heel both lie on the arc.
    let head = (HEAD / radius).to_degrees();
    let signs = if inside { [1.0, -1.0] } else { [-1.0, 1.0] };
    for ((direction, _), sign) in legs.into_iter().zip(signs) {
        let tip = corner.vertex.along(direction, radius);
        let span = if inside { (middle - direction).abs() } else { tail(radius) };
        let heel = corner.vertex.along(direction + sign * head.min(span), radius);
        out.arrow(Arrow { tip, from: tip.along(tip.direction(heel), span.to_radians() * radius) });
    }
}
