//! A picture of outlines as they were found in a drawing, with places marked and a line of words for each.

use super::{Anchor, Line, Mark, NARROW, Page, Path, Point, SMALL, Shade, Step, Text};
use crate::shape::{self, Segment};

/// A place to mark: where, and the words beside its number.
pub type Marked = (shape::Point, String);

/// Width of the picture, mm.
const WIDTH: f64 = 277.0;
/// Greatest height of the outlines, mm.
const HIGHEST: f64 = 180.0;
/// Margin around everything.
const MARGIN: f64 = 10.0;
/// Lines of words.
const ROW: f64 = 5.0;
/// Radius of the ring about a place.
const RING: f64 = 2.5;
/// Places that are marked at most; the words say how many more there are.
const MOST: usize = 200;

/// A page with the outlines as large as it holds, rings about the places, their words below.
pub fn picture(title: &str, runs: &[(&[Segment], Line)], places: &[Marked]) -> Page {
    let corners = runs.iter().flat_map(|(edges, _)| edges.iter()).flat_map(|s| {
        let (a, b) = s.bounds();
        [a, b]
    });
    let all = corners.chain(places.iter().map(|(p, _)| *p)).fold(None, around);
    let (low, high) = all.unwrap_or((shape::Point::ORIGIN, shape::Point::mm(1.0, 1.0)));
    let (wide, tall) = ((high.x - low.x).max(1e-6), (high.y - low.y).max(1e-6));
    let scale = (WIDTH / wide).min(HIGHEST / tall);
    let rows = places.len().min(MOST) + usize::from(places.len() > MOST);
    let words = (rows + 2) as f64 * ROW;
    let mut page = Page::new(WIDTH + 2.0 * MARGIN, tall * scale + words + 2.0 * MARGIN, title);
    let base = MARGIN + words;
    let to_paper = |p: shape::Point| Point::new(MARGIN + (p.x - low.x) * scale, base + (p.y - low.y) * scale);
    for (edges, line) in runs.iter().filter(|(edges, _)| !edges.is_empty()) {
        page.marks.push(Mark::stroke(path(edges, &to_paper), *line));
    }
    let line = |i: usize, text: String| Text::new(Point::new(MARGIN, base - ROW * (i as f64 + 1.5)), SMALL, text);
    let head = if places.is_empty() { format!("{title}: no fault found") } else { title.to_string() };
    page.marks.push(Mark::Text(line(0, head)));
    for (i, (at, says)) in places.iter().take(MOST).enumerate() {
        ring(&mut page, to_paper(*at), i + 1);
        page.marks.push(Mark::Text(line(i + 1, format!("{}  {says}", i + 1))));
    }
    if places.len() > MOST {
        page.marks.push(Mark::Text(line(MOST + 1, format!("and {} more", places.len() - MOST))));
    }
    page
}

type Corners = Option<(shape::Point, shape::Point)>;

fn around(all: Corners, p: shape::Point) -> Corners {
    let (a, b) = all.unwrap_or((p, p));
    Some((shape::Point::mm(a.x.min(p.x), a.y.min(p.y)), shape::Point::mm(b.x.max(p.x), b.y.max(p.y))))
}

fn path(edges: &[Segment], to_paper: &dyn Fn(shape::Point) -> Point) -> Path {
    let step = |s: &Segment| match s.arc() {
        Some(arc) => {
            Step::Arc { centre: to_paper(arc.centre()), sweep: arc.sweep().as_degrees(), to: to_paper(s.to()) }
        }
        None => Step::Line(to_paper(s.to())),
    };
    let start = edges.first().map_or(shape::Point::ORIGIN, Segment::from);
    Path::open(to_paper(start), edges.iter().map(step).collect())
}

fn ring(page: &mut Page, at: Point, number: usize) {
    page.marks.push(Mark::stroke(Path::circle(at, RING), Line::Wide));
    let beside = Point::new(at.x + RING + 0.5, at.y + RING - 1.0);
    let text = Text::new(beside, SMALL, number.to_string()).anchored(Anchor::Start);
    let mut under = text.area();
    under.left -= NARROW;
    page.marks.push(Mark::Fill(Path::rectangle(under), Shade::White));
    page.marks.push(Mark::Text(text));
}
