//! Pictures that explain a part: the zones of a fit, the chain of a spacer stack.

use crate::record::drawing::{ChainLink, FitZone, StressCurve};
use crate::sheet::SMALL;
use crate::sheet::area::{Area, Point};
use crate::sheet::hatch::{Hatch, hatch};
use crate::sheet::label::SIZE;
use crate::sheet::{Anchor, Line, Mark, Path, Shade, Step, Text, font};
use crate::units::Length;
use crate::units::show::trimmed;

/// Distance of the zones from one another and their width, mm on paper.
const PITCH: f64 = 44.0;
const ZONE: f64 = 22.0;

/// Draws the zones of hole and shaft over the line of the nominal size, ISO 286-1 fashion, the clearances as bars
/// beside them and the words under them; about 150 mm wide. `gaps`: from the shaft's edge to the hole's, with a word.
pub fn fit_zones(zones: &[FitZone], gaps: &[(Length, Length, String)], outcome: &[String]) -> Vec<Mark> {
    let edges = || zones.iter().flat_map(|z| [z.deviations.0.as_um(), z.deviations.1.as_um()]);
    let (low, high) = edges().fold((0.0_f64, 0.0_f64), |(a, b), v| (a.min(v), b.max(v)));
    let scale = 50.0 / (high - low).max(1e-6);
    let right = PITCH * zones.len() as f64;
    let mut marks = vec![Mark::line(Point::new(-12.0, 0.0), Point::new(right, 0.0), Line::Wide)];
    marks.push(text(Point::new(-13.5, -SIZE / 2.0), SIZE, "0", Anchor::End));
    for (i, zone) in zones.iter().enumerate() {
        let left = PITCH * i as f64;
        let (bottom, top) = (zone.deviations.0.as_um() * scale, zone.deviations.1.as_um() * scale);
        marks.extend(one_zone(zone, Area { left, right: left + ZONE, bottom, top }, i));
    }
    for (i, gap) in gaps.iter().enumerate() {
        marks.extend(gap_bar(gap, right + 6.0 + 24.0 * i as f64, scale, high * scale + 5.0));
    }
    let area = Area::of(&marks);
    marks.extend(under(outcome, Point::new(-12.0, area.bottom - 7.0)));
    marks
}

/// A bar from edge to edge at `x`, with thin lines from the zones (hole first) and its word at `top`.
fn gap_bar((shaft, hole, words): &(Length, Length, String), x: f64, scale: f64, top: f64) -> Vec<Mark> {
    let (a, b) = (Point::new(x, shaft.as_um() * scale), Point::new(x, hole.as_um() * scale));
    let thin = |zone: f64, edge: Point| {
        Mark::line(Point::new(zone * PITCH + ZONE, edge.y), edge + Point::new(1.5, 0.0), Line::Narrow)
    };
    let bottom = a.y.min(b.y);
    let bar = Area { left: x - 0.7, right: x + 0.7, bottom, top: a.y.max(b.y).max(bottom + 0.2) };
    vec![
        thin(1.0, a),
        thin(0.0, b),
        Mark::Fill(Path::rectangle(bar), if hole >= shaft { Shade::Grey } else { Shade::Black }),
        Mark::stroke(Path::rectangle(bar), Line::Narrow),
        text(Point::new(x, top), SMALL, words, Anchor::Middle),
    ]
}

fn one_zone(zone: &FitZone, area: Area, part: usize) -> Vec<Mark> {
    let bar = Path::rectangle(area);
    let mut marks = vec![hatch(&bar, Hatch::of_part(part)), Mark::stroke(bar, Line::Wide)];
    let beside = area.right + 1.5;
    // Both limits within their edges; a thin zone puts them outside. Clear of the lines that run on to the bars.
    let (clear, thin) = (0.9, area.height() < 3.6 * SIZE);
    let (upper, lower) = match thin {
        true => (area.top + clear, area.bottom - SIZE - clear),
        false => (area.top - SIZE - clear, area.bottom + clear),
    };
    for (y, words) in [(upper, &zone.texts[1]), (lower, &zone.texts[0])] {
        if !words.is_empty() {
            marks.push(text(Point::new(beside, y), SIZE, words, Anchor::Start));
        }
    }
    // The name stands clear of the line of the nominal size.
    let below = area.bottom.min(lower).min(0.0) - 3.0 - SMALL;
    marks.push(text(Point::new(area.left, below), SMALL, &zone.name, Anchor::Start));
    marks
}

fn text(at: Point, height: f64, words: &str, anchor: Anchor) -> Mark {
    Mark::Text(Text::new(at, height, words).anchored(anchor))
}

/// Width of the longest bar of a chain and room for the names beside it, mm on paper.
const BARS: f64 = 75.0;
const NAMES: f64 = 45.0;

/// Draws a chain of lengths as bars, one under the other, each beginning where the last one ended, and what is left
/// at the end as a gap; about 170 mm wide with names and sizes beside the bars.
pub fn chain(links: &[ChainLink], gap: &ChainLink) -> Vec<Mark> {
    let row = 11.0;
    let mut ends = vec![0.0];
    for link in links {
        ends.push(ends.last().copied().unwrap_or(0.0) + link.length.as_mm());
    }
    let low = ends.iter().copied().fold(0.0, f64::min);
    let high = ends.iter().copied().fold(0.0, f64::max);
    let scale = BARS / (high - low).max(1e-6);
    let at = |x: f64| (x - low) * scale;
    let mut marks = Vec::new();
    let mut y = 0.0;
    for (i, (link, from)) in links.iter().zip(&ends).enumerate() {
        y -= row;
        marks.extend(link_bar(link, at(*from), at(from + link.length.as_mm()), y, i));
    }
    y -= row;
    let last = ends.last().copied().unwrap_or(0.0);
    marks.extend(link_bar(gap, at(last), at(last + gap.length.as_mm()), y, usize::MAX));
    for x in [0.0, last] {
        let foot = if x == 0.0 { -row } else { y };
        marks.push(Mark::line(Point::new(at(x), foot - 2.0), Point::new(at(x), 2.0), Line::Hidden));
    }
    marks
}

fn link_bar(link: &ChainLink, from: f64, to: f64, y: f64, part: usize) -> Vec<Mark> {
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

/// Draws the stress across a wall, 110 mm wide and 55 mm high: hoop solid, radial dashed; places of the base are named,
/// and the words of the outcome stand under it.
pub fn stress(curves: &[StressCurve], places: &[(Length, String)], outcome: &[String]) -> Vec<Mark> {
    let (width, height) = (110.0, 55.0);
    let of = |curve: &StressCurve| -> Vec<(f64, f64)> {
        curve.points.iter().map(|(d, s)| (d.as_mm(), s.as_mpa())).collect()
    };
    let points = || curves.iter().flat_map(of);
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
    for (i, (x, words)) in places.iter().enumerate() {
        // Places may lie close together: their words stand on two lines in turn, clear of the numbers at the left.
        let (at, drop) = (on_paper(x.as_mm(), bottom), 6.0 + 4.0 * (i % 2) as f64);
        marks.push(Mark::line(at, Point::new(at.x, height + 1.5), Line::Centre));
        marks.push(text(at - Point::new(0.0, drop), SMALL, words, Anchor::Middle));
    }
    for curve in curves {
        let line = if curve.hoop { Line::Frame } else { Line::Hidden };
        let mut places = of(curve).into_iter().map(|(x, y)| on_paper(x, y));
        let Some(start) = places.next() else { continue };
        marks.push(Mark::stroke(Path::open(start, places.map(Step::Line).collect()), line));
    }
    let legend = [("hoop stress, MPa", Line::Frame), ("radial stress, MPa", Line::Hidden)];
    for (row, (words, line)) in legend.into_iter().enumerate() {
        let at = Point::new(width * 0.2 + 55.0 * row as f64, -17.0);
        marks.push(Mark::line(at, at + Point::new(12.0, 0.0), line));
        marks.push(text(at + Point::new(14.0, -SMALL / 2.0), SMALL, words, Anchor::Start));
    }
    marks.extend(under(outcome, Point::new(-12.0, -26.0)));
    marks
}

/// Lines of words under a picture.
fn under(lines: &[String], first: Point) -> Vec<Mark> {
    let line = |(i, words): (usize, &String)| text(first - Point::new(0.0, 6.0 * i as f64), SIZE, words, Anchor::Start);
    lines.iter().enumerate().map(line).collect()
}

/// The next larger of 1, 2 and 5 times a power of ten.
fn round_step(x: f64) -> f64 {
    let power = 10f64.powi(libm::log10(x.max(1e-9)).floor() as i32);
    [1.0, 2.0, 5.0, 10.0].into_iter().map(|k| k * power).find(|s| *s >= x).unwrap_or(10.0 * power)
}
