//! Linear dimensions beside a view: extension lines, dimension lines in rows outside the outline, arrows, figures
//! above the line (ISO 129-1:2018; the distances of 10 mm and 8 mm from handbooks of drawing practice).
//!
//! Each side of the view has its own frame: `u` along the side, `v` outwards. Short sizes lie inside, a size that
//! reaches over another lies farther out, and no extension line passes through figures: figures move along their line
//! to where no later extension line will pass.

use crate::record::drawing::Side;
use crate::sheet::annotation::{Annotation, Arrow, HEAD};
use crate::sheet::area::{Area, Point};
use crate::sheet::label::{GAP, Label};

/// Least distance of the first dimension line from the outline, mm.
pub const FIRST: f64 = 10.0;
/// Least distance between dimension lines, mm.
pub const NEXT: f64 = 8.0;
/// Overrun of an extension line over the dimension line, mm.
const OVERRUN: f64 = 2.0;
/// Gap between the feature and its extension line, mm.
const CLEAR: f64 = 0.8;
/// Shortest distance on paper that can be dimensioned at all, mm.
const SHORTEST: f64 = 0.02;
/// Length of the line that carries an arrow outside a short size, mm.
const TAIL: f64 = 2.0 * HEAD;
/// Free space that figures keep from their own extension lines, mm.
const EDGE: f64 = 0.8;
/// Free space that figures keep from extension lines of other sizes, mm.
const KEEP: f64 = 1.2;

impl Side {
    /// All four, in the order in which they are filled.
    pub const ALL: [Self; 4] = [Self::Below, Self::Left, Self::Right, Self::Above];

    /// Paper to the frame of the side.
    fn uv(self, p: Point) -> (f64, f64) {
        match self {
            Self::Above => (p.x, p.y),
            Self::Below => (p.x, -p.y),
            Self::Right => (p.y, p.x),
            Self::Left => (p.y, -p.x),
        }
    }

    /// The frame of the side to paper.
    fn paper(self, u: f64, v: f64) -> Point {
        match self {
            Self::Above => Point::new(u, v),
            Self::Below => Point::new(u, -v),
            Self::Right => Point::new(v, u),
            Self::Left => Point::new(-v, u),
        }
    }

    /// Figures stand above level lines and left of upright ones: outwards on two sides, inwards on the others.
    fn figures(self) -> f64 {
        if matches!(self, Self::Above | Self::Left) { 1.0 } else { -1.0 }
    }

    fn turn(self) -> f64 {
        if matches!(self, Self::Above | Self::Below) { 0.0 } else { 90.0 }
    }

    /// How far the area reaches outwards on this side.
    fn reach(self, area: Area) -> f64 {
        area.corners().iter().map(|c| self.uv(*c).1).fold(f64::NEG_INFINITY, f64::max)
    }
}

/// A distance between two points of the view, along the side on which it is drawn.
#[derive(Clone, PartialEq, Debug)]
pub struct Span {
    /// One end, on paper.
    pub from: Point,
    /// The other end, on paper.
    pub to: Point,
    /// Where it is drawn.
    pub side: Side,
    /// What stands on it.
    pub label: Label,
    /// What is joined to the ends of its dimension line.
    pub tags: Vec<Tag>,
    /// Key of the dimension: what it is called where it finds no room.
    pub name: String,
}

/// Boxes joined to the end of a dimension line, in its direction: they speak of the axis or middle plane of the size
/// (ISO 1101:2017, ISO 5459:2011).
#[derive(Clone, PartialEq, Debug)]
pub struct Tag {
    /// The boxes.
    pub label: Label,
    /// A datum, joined by its triangle to the lower end; else tolerances, joined by an arrow to the upper.
    pub datum: bool,
}

impl Span {
    /// Widths of the boxes beyond the lower end and beyond the upper.
    fn tagged(&self) -> (f64, f64) {
        let of = |datum: bool| self.tags.iter().filter(move |t| t.datum == datum);
        let need = |datum: bool| of(datum).map(|t| t.label.width()).fold(0.0, f64::max);
        (need(true), need(false))
    }

    /// Both ends along the side, the smaller first, each with its place outwards.
    fn ends(&self) -> [(f64, f64); 2] {
        let (a, b) = (self.side.uv(self.from), self.side.uv(self.to));
        if a.0 <= b.0 { [a, b] } else { [b, a] }
    }

    fn length(&self) -> f64 {
        let [a, b] = self.ends();
        b.0 - a.0
    }

    /// The same with its deviations under the size, where the figures do not fit between the ends in one line: stacked they
    /// do, or stand out less beside them.
    fn fitted(&self) -> Self {
        let whole = self.label.width() <= self.length() - 2.0 * EDGE;
        Self { label: if whole { self.label.clone() } else { self.label.stacked() }, ..self.clone() }
    }

    /// The extension lines as far as they may ever reach.
    pub fn extension_rays(&self) -> [(Point, Point); 2] {
        self.ends().map(|(u, v)| (self.side.paper(u, v), self.side.paper(u, v + 500.0)))
    }
}

/// Where along its line a size has its figures, and what it needs of the row.
struct Fit {
    figures: f64,
    low: f64,
    high: f64,
    arrows_inside: bool,
    /// Where the boxes beyond the lower end stop, and where those beyond the upper begin.
    boxes: (f64, f64),
}

/// Draws the sizes of one side. `edge` is the outline, `taken` what may not be drawn over; `down` says that figures beside a
/// short size stand at its lower end, where other sizes need the room anyway.
pub fn draw_side(side: Side, spans: &[&Span], edge: Area, taken: &[Area], down: bool) -> Annotation {
    let mut out = Annotation::default();
    let (drawn, short): (Vec<&&Span>, Vec<&&Span>) = spans.iter().partition(|s| s.length() > SHORTEST);
    out.left_out.extend(short.iter().map(|s| s.name.clone()));
    let mut order: Vec<Span> = drawn.iter().map(|s| s.fitted()).collect();
    order.sort_by(|a, b| a.length().total_cmp(&b.length()).then(a.ends()[0].0.total_cmp(&b.ends()[0].0)));
    let tallest = order.iter().map(|s| s.label.height()).fold(0.0, f64::max);
    let first = side.reach(edge) + FIRST.max(tallest + 2.0 * GAP + 1.0);
    let boxes = order.iter().flat_map(|s| &s.tags).map(|t| t.label.height() / 2.0).fold(0.0, f64::max);
    let pitch = NEXT.max(tallest + GAP + OVERRUN.max(boxes) + 0.5);
    let first = first.max(side.reach(edge) + boxes + 2.0);
    let mut rows: Vec<(usize, f64, f64)> = Vec::new();
    for (i, span) in order.iter().enumerate() {
        let later: Vec<f64> = order.iter().skip(i + 1).flat_map(|s| s.ends().map(|e| e.0)).collect();
        let fit = fit(span, &later, down);
        let under = rows.iter().filter(|(_, low, high)| fit.low < *high && *low < fit.high);
        let mut row = under.map(|(row, ..)| row + 1).max().unwrap_or(0);
        while row < 60 && taken.iter().any(|t| t.overlaps(strip(side, &fit, first + row as f64 * pitch, span))) {
            row += 1;
        }
        rows.push((row, fit.low, fit.high));
        draw(side, span, &fit, first + row as f64 * pitch, &mut out);
    }
    out
}

/// All that a size covers of its row.
fn strip(side: Side, fit: &Fit, line: f64, span: &Span) -> Area {
    let reach = side.figures() * (span.label.height() + GAP);
    let half = span.tags.iter().map(|t| t.label.height() / 2.0).fold(HEAD / 2.0, f64::max);
    let (low, high) = (line + reach.min(-half), line + reach.max(half));
    Area::around([side.paper(fit.low, low), side.paper(fit.high, high)]).grown(GAP)
}

fn fit(span: &Span, later: &[f64], down: bool) -> Fit {
    let [(low, _), (high, _)] = span.ends();
    let width = span.label.width();
    let arrows_inside = high - low >= 2.0 * HEAD + 2.0;
    let tail = if arrows_inside { 0.0 } else { TAIL };
    let figures = within(low, high, width, later).unwrap_or_else(|| {
        let start = if arrows_inside { 2.0 } else { HEAD + 1.5 };
        let (right, left) = (beyond(high + start, width, later), beyond_left(low - start, width, later));
        let (up, under) = (right - high, low - left - width);
        let first = if down { up < under - 1e-9 } else { up <= under + 1e-9 };
        if first { right } else { left }
    });
    // Boxes stand beyond arrows and figures.
    let (left, right) = ((low - tail).min(figures), (high + tail).max(figures + width));
    let (below, above) = span.tagged();
    let boxes = (
        beyond_left((low - TAIL).min(left - EDGE), below, later) + below,
        beyond((high + TAIL).max(right + EDGE), above, later),
    );
    let left = if below > 0.0 { boxes.0 - below } else { left };
    let right = if above > 0.0 { boxes.1 + above } else { right };
    Fit { figures, low: left - GAP, high: right + GAP, arrows_inside, boxes }
}

/// The place nearest to the middle at which figures of that width fit between the ends, clear of `later` lines.
fn within(low: f64, high: f64, width: f64, later: &[f64]) -> Option<f64> {
    let middle = (low + high - width) / 2.0;
    let beside = later.iter().flat_map(|u| [u + KEEP, u - KEEP - width]);
    let free = |s: &f64| *s >= low + EDGE - 1e-9 && s + width <= high - EDGE + 1e-9 && is_clear(*s, width, later);
    let mut places: Vec<f64> = std::iter::once(middle).chain(beside).filter(free).collect();
    places.sort_by(|a, b| (a - middle).abs().total_cmp(&(b - middle).abs()));
    places.first().copied()
}

fn is_clear(start: f64, width: f64, later: &[f64]) -> bool {
    later.iter().all(|u| *u <= start - KEEP + 1e-9 || *u >= start + width + KEEP - 1e-9)
}

fn beyond(from: f64, width: f64, later: &[f64]) -> f64 {
    let mut places: Vec<f64> = later.iter().map(|u| u + KEEP).filter(|s| *s > from).collect();
    places.push(from);
    places.sort_by(f64::total_cmp);
    places.into_iter().find(|s| is_clear(*s, width, later)).unwrap_or(from)
}

fn beyond_left(to: f64, width: f64, later: &[f64]) -> f64 {
    let mirrored: Vec<f64> = later.iter().map(|u| -u).collect();
    -beyond(-to, width, &mirrored) - width
}

fn draw(side: Side, span: &Span, fit: &Fit, line: f64, out: &mut Annotation) {
    let ends = span.ends();
    let [(low, _), (high, _)] = ends;
    for (u, v) in ends {
        out.line(side.paper(u, (v + CLEAR).min(line)), side.paper(u, line + OVERRUN));
    }
    let width = span.label.width();
    let outside = fit.figures < low || fit.figures + width > high;
    let tail = if fit.arrows_inside { 0.0 } else { TAIL };
    let from = if outside { (low - tail).min(fit.figures) } else { low - tail };
    let to = if outside { (high + tail).max(fit.figures + width) } else { high + tail };
    out.dimension_line(side.paper(from, line), side.paper(to, line));
    let (a, b) = if fit.arrows_inside { ((low + high) / 2.0, (low + high) / 2.0) } else { (low - TAIL, high + TAIL) };
    out.arrow(Arrow { tip: side.paper(low, line), from: side.paper(a, line) });
    out.arrow(Arrow { tip: side.paper(high, line), from: side.paper(b, line) });
    let corner = side.paper(fit.figures, line + side.figures() * GAP);
    out.label(&span.label, corner, side.turn());
    for tag in &span.tags {
        draw_tag(side, tag, (low, high), fit, line, out);
    }
}

/// Boxes in the extension of the dimension line.
fn draw_tag(side: Side, tag: &Tag, (low, high): (f64, f64), fit: &Fit, line: f64, out: &mut Annotation) {
    let (tip, box_at, start) =
        if tag.datum { (low, fit.boxes.0, fit.boxes.0 - tag.label.width()) } else { (high, fit.boxes.1, fit.boxes.1) };
    out.dimension_line(side.paper(tip, line), side.paper(box_at, line));
    let arrow = Arrow { tip: side.paper(tip, line), from: side.paper(box_at, line) };
    if tag.datum {
        out.triangle(arrow);
    } else {
        out.arrow(arrow);
    }
    // The corner that is the lower left one for a reader: `v` runs against the paper on two sides.
    let half = tag.label.height() / 2.0;
    out.label(&tag.label, side.paper(start, line - side.figures() * half), side.turn());
}
