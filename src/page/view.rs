//! One view of a part on paper: hatching, edges, axes and all its dimensions at a scale.

use std::collections::BTreeMap;

use crate::drawing::{Drawn, Edge, How, Noted, View};
use crate::page::hatch::{Hatch, hatch};
use crate::page::label::Label;
use crate::page::leader::{Corner, Leader};
use crate::page::place::{Scene, place};
use crate::page::spans::Span;
use crate::page::symbols::Sign;
use crate::page::{Area, Contour, Line, Mark, Path, Point, Step};
use crate::shape::{self, Segment};

/// Overrun of an axis over the outline, mm (ISO 128-2, from memory: 2 to 3 mm).
const OVERRUN: f64 = 3.0;

/// What stands on the dimension of each key.
pub type Labels = BTreeMap<String, Label>;

/// Something drawn, with the rectangle it needs; the origin of the part lies at the origin of the paper.
#[derive(Clone, PartialEq, Debug)]
pub struct Block {
    /// What is drawn.
    pub marks: Vec<Mark>,
    /// What it needs.
    pub area: Area,
    /// Dimensions for which there was no room or no recorded value.
    pub left_out: usize,
}

impl Block {
    /// From marks alone.
    pub fn new(marks: Vec<Mark>) -> Self {
        let area = Area::of(&marks);
        Self { marks, area, left_out: 0 }
    }

    /// The marks moved.
    pub fn moved(&self, by: Point) -> impl Iterator<Item = Mark> + '_ {
        self.marks.iter().map(move |m| m.moved(by))
    }
}

/// The rectangle of the bare view, mm on the part.
pub fn bare_area(view: &View) -> Area {
    let edges = view.edges.iter().filter(|(e, _)| *e != Edge::Axis).map(|(_, s)| path(s, 1.0));
    edges.fold(Area::EMPTY, |a, p| a.with(p.area()))
}

/// Draws a view; sizes without a label are left out and counted.
pub fn draw(view: &View, scale: f64, labels: &Labels) -> Block {
    let mut marks = Vec::new();
    for cut in &view.cuts {
        let face = Path { contours: cut.outlines.iter().flat_map(|o| path(o, scale).contours).collect() };
        marks.push(hatch(&face, Hatch::of_part(cut.part)));
    }
    marks.extend(view.edges.iter().map(|(edge, segments)| edge_mark(*edge, segments, scale)));
    let (scene, missing) = scene(view, scale, labels);
    let placed = place(&scene);
    marks.extend(placed.marks);
    let area = Area::of(&marks);
    Block { marks, area, left_out: missing + placed.left_out }
}

fn edge_mark(edge: Edge, segments: &[Segment], scale: f64) -> Mark {
    let line = match edge {
        Edge::Visible => Line::Wide,
        Edge::Hidden => Line::Hidden,
        Edge::Neighbour => Line::Adjacent,
        Edge::Axis => Line::Centre,
    };
    match segments {
        [one] if one.arc().is_none() => {
            let (from, to) = (at(one.from(), scale), at(one.to(), scale));
            let over = if edge == Edge::Axis { OVERRUN } else { 0.0 };
            let direction = from.direction(to);
            Mark::line(from.along(direction, -over), to.along(direction, over), line)
        }
        _ => Mark::stroke(path(segments, scale), line),
    }
}

/// A point of the part on paper.
fn at(p: shape::Point, scale: f64) -> Point {
    Point::new(p.x().as_mm() * scale, p.y().as_mm() * scale)
}

/// Joined edges on paper, closed when they end where they began.
pub fn path(segments: &[Segment], scale: f64) -> Path {
    let (Some(first), Some(last)) = (segments.first(), segments.last()) else { return Path::default() };
    let step = |s: &Segment| match s.arc() {
        None => Step::Line(at(s.to(), scale)),
        Some(arc) => {
            Step::Arc { centre: at(arc.centre(), scale), sweep: arc.sweep().as_degrees(), to: at(s.to(), scale) }
        }
    };
    let closed = first.from().distance(last.to()).as_mm() < 1e-6;
    let steps = segments.iter().map(step).collect();
    Path { contours: vec![Contour { start: at(first.from(), scale), steps, closed }] }
}

/// The dimensions of the view for placing, and how many have no label.
fn scene(view: &View, scale: f64, labels: &Labels) -> (Scene, usize) {
    let mut scene = Scene::default();
    let (mut edges, mut missing) = (Vec::new(), 0);
    for (_, segments) in &view.edges {
        edges.extend(path(segments, scale).chords(6.0));
    }
    scene.lines = edges;
    scene.outline = outline(view, scale);
    for drawn in &view.dimensions {
        match labels.get(&drawn.key) {
            Some(label) => add(&mut scene, drawn, label, scale),
            None => missing += 1,
        }
    }
    for (point, words) in &view.notes {
        scene.leaders.push(pointer(at(*point, scale), Label::small(words)));
    }
    for (point, off, words) in &view.textures {
        let within = Some((off.as_degrees() - 70.0, off.as_degrees() + 70.0));
        let label = Label::small(words).signed(Sign::Machined);
        scene.leaders.push(Leader { within, ..pointer(at(*point, scale), label) });
    }
    (scene, missing)
}

/// What counts as the part: the cut faces, or without a cut the closed edges.
fn outline(view: &View, scale: f64) -> Vec<Path> {
    if view.cuts.is_empty() {
        let visible = view.edges.iter().filter(|(edge, _)| *edge == Edge::Visible);
        return visible.map(|(_, s)| path(s, scale)).filter(|p| p.contours.iter().all(|c| c.closed)).collect();
    }
    view.cuts.iter().flat_map(|c| &c.outlines).map(|o| path(o, scale)).collect()
}

fn pointer(at: Point, label: Label) -> Leader {
    Leader { at, radius: 0.0, arrow: true, within: None, label }
}

fn add(scene: &mut Scene, drawn: &Drawn, label: &Label, scale: f64) {
    let label = label.clone();
    match &drawn.how {
        How::Across { from, to, side, diameter } => {
            let label = if *diameter { label.after("Ø") } else { label };
            scene.spans.push(Span { from: at(*from, scale), to: at(*to, scale), side: *side, label });
        }
        How::Corner { vertex, from, to } => {
            let (from, to) = (from.as_degrees(), to.as_degrees());
            scene.corners.push(Corner { vertex: at(*vertex, scale), from, to, shown: (1.0, 1.0), label });
        }
        How::Hole { centre, diameter, count } => {
            let before = if *count > 1 { format!("{count}× Ø") } else { "Ø".into() };
            let radius = diameter.as_mm() * scale / 2.0;
            scene.leaders.push(Leader { radius, ..pointer(at(*centre, scale), label.after(&before)) });
        }
        How::Radius { centre, radius, direction } => {
            let d = direction.as_degrees();
            let leader = pointer(at(*centre, scale), label.after("R"));
            scene.leaders.push(Leader { radius: radius.as_mm() * scale, within: Some((d - 40.0, d + 40.0)), ..leader });
        }
        How::Taper { at: point, to_left } => {
            scene.leaders.push(pointer(at(*point, scale), label.signed(Sign::Taper { to_left: *to_left })));
        }
        How::Note { at: point, kind } => {
            let label = match kind {
                Noted::Plain => label,
                Noted::Diameter => label.after("Ø"),
                Noted::Chamfer => label.before(" × 45°"),
            };
            scene.leaders.push(pointer(at(*point, scale), label));
        }
    }
}
