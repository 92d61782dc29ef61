//! Pictures that explain a part: the zones of a fit, the chain of a spacer stack.

use crate::page::area::{Area, Point};
use crate::page::hatch::{Hatch, hatch};
use crate::page::label::{SIZE, SMALL};
use crate::page::{Anchor, Line, Mark, Path, Shade, Step, Text, font};
use crate::units::show::trimmed;

/// The zone of one part of a fit.
#[derive(Clone, PartialEq, Debug)]
pub struct Zone {
    /// `Hole 30 H7`.
    pub name: String,
    /// Lower deviation, µm.
    pub lower: f64,
    /// Upper deviation, µm.
    pub upper: f64,
    /// The same as text: lower and upper.
    pub text: [String; 2],
    /// A size that was measured, as its deviation in µm, with its text.
    pub measured: Option<(f64, String)>,
}

/// Zones of hole and shaft over the line of the nominal size, ISO 286-1 fashion, with the words for play or
/// interference under them.
#[derive(Clone, PartialEq, Debug)]
pub struct FitPicture {
    /// What the fit is: `Ø30 H7/g6`.
    pub title: String,
    /// Hole first.
    pub zones: Vec<Zone>,
    /// Clearances to be drawn as bars beside the zones: deviation of the shaft's edge and of the hole's, µm, and a word.
    pub gaps: Vec<(f64, f64, String)>,
    /// What it comes to: `play 0.007 to 0.041 mm`.
    pub outcome: Vec<String>,
}

/// Draws the zones, about 120 mm wide.
pub fn fit_zones(fit: &FitPicture) -> Vec<Mark> {
    let (pitch, width, height) = (44.0, 22.0, 50.0);
    let values = fit.zones.iter().flat_map(|z| [Some(z.lower), Some(z.upper), z.measured.as_ref().map(|m| m.0)]);
    let (low, high) = values.flatten().fold((0.0_f64, 0.0_f64), |(a, b), v| (a.min(v), b.max(v)));
    let scale = height / (high - low).max(1e-6);
    let right = pitch * fit.zones.len() as f64;
    let mut marks = vec![Mark::line(Point::new(-12.0, 0.0), Point::new(right, 0.0), Line::Wide)];
    marks.push(text(Point::new(-13.5, -SIZE / 2.0), SIZE, "0", Anchor::End));
    for (i, zone) in fit.zones.iter().enumerate() {
        let x = pitch * i as f64;
        marks.extend(one_zone(
            zone,
            Area { left: x, right: x + width, bottom: zone.lower * scale, top: zone.upper * scale },
            i,
            scale,
        ));
    }
    marks.extend(gap_bars(fit, scale, right));
    let area = Area::of(&marks);
    if !fit.title.is_empty() {
        marks.push(text(Point::new(-12.0, area.top + 5.0), 5.0, &fit.title, Anchor::Start));
    }
    let lines = fit.outcome.iter().enumerate();
    marks.extend(
        lines.map(|(i, l)| text(Point::new(-12.0, area.bottom - 7.0 - 6.0 * i as f64), SIZE, l, Anchor::Start)),
    );
    marks
}

/// A bar for each clearance from edge to edge, with thin lines from the zones; the words stand over all of them.
fn gap_bars(fit: &FitPicture, scale: f64, right: f64) -> Vec<Mark> {
    let (width, pitch) = (22.0, 24.0);
    let edges = fit.zones.iter().flat_map(|z| [z.lower, z.upper]).chain([0.0]);
    let top = edges.fold(f64::NEG_INFINITY, f64::max) * scale + 5.0;
    let mut marks = Vec::new();
    for (i, (shaft, hole, words)) in fit.gaps.iter().enumerate() {
        let x = right + 6.0 + pitch * i as f64;
        let (a, b) = (Point::new(x, shaft * scale), Point::new(x, hole * scale));
        for (zone, edge) in [(1.0, a), (0.0, b)] {
            let from = Point::new(zone * 44.0 + width, edge.y);
            marks.push(Mark::line(from, edge + Point::new(1.5, 0.0), Line::Narrow));
        }
        let bar =
            Area { left: x - 0.7, right: x + 0.7, bottom: a.y.min(b.y), top: a.y.max(b.y).max(a.y.min(b.y) + 0.2) };
        marks.push(Mark::Fill(Path::rectangle(bar), if hole >= shaft { Shade::Grey } else { Shade::Black }));
        marks.push(Mark::stroke(Path::rectangle(bar), Line::Narrow));
        marks.push(text(Point::new(x, top), SMALL, words, Anchor::Middle));
    }
    marks
}

fn one_zone(zone: &Zone, area: Area, part: usize, scale: f64) -> Vec<Mark> {
    let bar = Path::rectangle(area);
    let mut marks = vec![hatch(&bar, Hatch::of_part(part)), Mark::stroke(bar, Line::Wide)];
    let beside = area.right + 1.5;
    // Both limits within their edges; a thin zone puts them outside. Clear of the lines that run on to the bars.
    let (clear, thin) = (0.9, area.height() < 3.6 * SIZE);
    let (upper, lower) = match thin {
        true => (area.top + clear, area.bottom - SIZE - clear),
        false => (area.top - SIZE - clear, area.bottom + clear),
    };
    for (y, words) in [(upper, &zone.text[1]), (lower, &zone.text[0])] {
        if !words.is_empty() {
            marks.push(text(Point::new(beside, y), SIZE, words, Anchor::Start));
        }
    }
    // The name stands clear of the line of the nominal size.
    let below = area.bottom.min(lower).min(0.0) - 3.0 - SMALL;
    marks.push(text(Point::new(area.left, below), SMALL, &zone.name, Anchor::Start));
    if let Some((at, words)) = &zone.measured {
        let y = at * scale;
        let tip = Point::new(area.left, y);
        let head = Path::polygon(&[tip, tip + Point::new(-3.5, 0.9), tip + Point::new(-3.5, -0.9)]);
        marks.push(Mark::Fill(head, Shade::Black));
        marks.push(Mark::line(tip, Point::new(area.right, y), Line::Wide));
        marks.push(text(Point::new(area.left - 4.5, y + 1.0), SMALL, words, Anchor::End));
    }
    marks
}

fn text(at: Point, height: f64, words: &str, anchor: Anchor) -> Mark {
    Mark::Text(Text::new(at, height, words).anchored(anchor))
}

/// A link of a chain: a part with its length and limits.
#[derive(Clone, PartialEq, Debug)]
pub struct Link {
    /// What it is.
    pub name: String,
    /// Length, mm; negative where the chain runs back.
    pub length: f64,
    /// The length with its limits, as text.
    pub text: String,
}

/// Width of the longest bar of a chain and room for the names beside it, mm on paper.
const BARS: f64 = 75.0;
const NAMES: f64 = 45.0;

/// Draws a chain of lengths as bars, one under the other, each beginning where the last one ended, and what is left
/// at the end as a gap; about 170 mm wide with names and sizes beside the bars.
pub fn chain(links: &[Link], gap: &Link) -> Vec<Mark> {
    let row = 11.0;
    let mut ends = vec![0.0];
    for link in links {
        ends.push(ends.last().copied().unwrap_or(0.0) + link.length);
    }
    let low = ends.iter().copied().fold(0.0, f64::min);
    let high = ends.iter().copied().fold(0.0, f64::max);
    let scale = BARS / (high - low).max(1e-6);
    let at = |x: f64| (x - low) * scale;
    let mut marks = Vec::new();
    let mut y = 0.0;
    for (i, (link, from)) in links.iter().zip(&ends).enumerate() {
        y -= row;
        marks.extend(link_bar(link, at(*from), at(from + link.length), y, i));
    }
    y -= row;
    let last = ends.last().copied().unwrap_or(0.0);
    marks.extend(link_bar(gap, at(last), at(last + gap.length), y, usize::MAX));
    for x in [0.0, last] {
        let foot = if x == 0.0 { -row } else { y };
        marks.push(Mark::line(Point::new(at(x), foot - 2.0), Point::new(at(x), 2.0), Line::Hidden));
    }
    marks
}

fn link_bar(link: &Link, from: f64, to: f64, y: f64, part: usize) -> Vec<Mark> {
    let bar = Area { left: from.min(to), right: from.max(to).max(from.min(to) + 0.6), bottom: y, top: y + 6.0 };
    let outline = Path::rectangle(bar);
    let mut marks = Vec::new();
    if part != usize::MAX {
        marks.push(hatch(&outline, Hatch::of_part(part)));
    }
    marks.push(Mark::stroke(outline, Line::Wide));
    let arrow = if to >= from { "→" } else { "←" };
    let name = format!("{arrow} {}", link.name);
    let mut lines = font::wrap(&name, SMALL, NAMES);
    lines.truncate(2);
    let lift = if lines.len() == 2 { SMALL * 0.7 } else { 0.0 };
    for (i, words) in lines.iter().enumerate() {
        let at = Point::new(-3.0, y + 1.8 + lift - SMALL * 1.4 * i as f64);
        marks.push(text(at, SMALL, words, Anchor::End));
    }
    marks.push(text(Point::new(BARS + 4.0, y + 1.8), SMALL, &link.text, Anchor::Start));
    marks
}

/// One curve of a chart.
#[derive(Clone, PartialEq, Debug)]
pub struct Curve {
    /// Drawn solid, else dashed.
    pub solid: bool,
    /// Across and up.
    pub points: Vec<(f64, f64)>,
}

/// Curves over a common base, with places of the base that are named.
#[derive(Clone, PartialEq, Debug)]
pub struct Chart {
    /// The curves.
    pub curves: Vec<Curve>,
    /// Places across and their words.
    pub places: Vec<(f64, String)>,
    /// What the solid curves are.
    pub solid: String,
    /// What the dashed curves are.
    pub dashed: String,
}

/// Draws a chart, 110 mm wide and 55 mm high.
pub fn chart(c: &Chart) -> Vec<Mark> {
    let (width, height) = (110.0, 55.0);
    let points = || c.curves.iter().flat_map(|curve| curve.points.iter().copied());
    let span = |of: fn((f64, f64)) -> f64, start: f64| {
        points().map(of).fold((start, start), |(low, high), v| (low.min(v), high.max(v)))
    };
    let (left, right) = span(|p| p.0, points().next().map_or(0.0, |p| p.0));
    let (low, high) = span(|p| p.1, 0.0);
    let step = round_step((high - low) / 5.0);
    let (bottom, top) = ((low / step).floor() * step, (high / step).ceil().max(1.0) * step);
    let on_paper = |x: f64, y: f64| {
        Point::new((x - left) / (right - left).max(1e-9) * width, (y - bottom) / (top - bottom) * height)
    };
    let mut marks = Vec::new();
    let rows = ((top - bottom) / step).round() as i32;
    for row in 0..=rows {
        let value = bottom + step * f64::from(row);
        let at = on_paper(left, value);
        let line = if value.abs() < step * 1e-6 { Line::Wide } else { Line::Narrow };
        marks.push(Mark::line(at, Point::new(width, at.y), line));
        marks.push(text(at - Point::new(2.0, SMALL / 2.0), SMALL, &trimmed(value, 6), Anchor::End));
    }
    for (i, (x, words)) in c.places.iter().enumerate() {
        // Places may lie close together: their words stand on two lines in turn, clear of the numbers at the left.
        let (at, drop) = (on_paper(*x, bottom), 6.0 + 4.0 * (i % 2) as f64);
        marks.push(Mark::line(at, Point::new(at.x, height + 1.5), Line::Centre));
        marks.push(text(at - Point::new(0.0, drop), SMALL, words, Anchor::Middle));
    }
    for curve in &c.curves {
        let line = if curve.solid { Line::Frame } else { Line::Hidden };
        let mut places = curve.points.iter().map(|(x, y)| on_paper(*x, *y));
        let Some(start) = places.next() else { continue };
        marks.push(Mark::stroke(Path::open(start, places.map(Step::Line).collect()), line));
    }
    for (row, (words, line)) in [(&c.solid, Line::Frame), (&c.dashed, Line::Hidden)].into_iter().enumerate() {
        let at = Point::new(width * 0.2 + 55.0 * row as f64, -17.0);
        marks.push(Mark::line(at, at + Point::new(12.0, 0.0), line));
        marks.push(text(at + Point::new(14.0, -SMALL / 2.0), SMALL, words, Anchor::Start));
    }
    marks
}

/// The next larger of 1, 2 and 5 times a power of ten.
fn round_step(x: f64) -> f64 {
    let power = 10f64.powi(libm::log10(x.max(1e-9)).floor() as i32);
    [1.0, 2.0, 5.0, 10.0].into_iter().map(|k| k * power).find(|s| *s >= x).unwrap_or(10.0 * power)
}
