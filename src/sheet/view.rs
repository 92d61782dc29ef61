//! One view of a part on paper: hatching, edges, axes and all its dimensions at a scale.

use std::collections::BTreeMap;

use crate::record::drawing::{Drawn, Edge, Frame, How, Noted, View};
use crate::shape::{self, Segment};
use crate::sheet::detail::{self, Detail};
use crate::sheet::hatch::{Hatch, hatch};
use crate::sheet::label::{Field, Label};
use crate::sheet::leader::{Corner, End, Leader};
use crate::sheet::place::{Letter, Scene, place};
use crate::sheet::spans::{Span, Tag};
use crate::sheet::symbols::Sign;
use crate::sheet::trace::{at, path};
use crate::sheet::{Area, Line, Mark, Path, Point};
use crate::units::{Angle, Length};

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
    /// Keys of dimensions, or words of notes, for which there was no room.
    pub left_out: Vec<String>,
}

impl Block {
    /// From marks alone.
    #[allow(dead_code, reason = "tests make theirs with it")]
    pub fn new(marks: Vec<Mark>) -> Self {
        let area = Area::of(&marks);
        Self { marks, area, left_out: Vec::new() }
    }
}

/// Draws a view; sizes for which there is no room are left out and named.
pub fn draw(view: &View, scale: f64, labels: &Labels) -> Block {
    draw_with(view, scale, labels, &[])
}

/// Draws a view with circles about the places of its details, without the sizes that stand in these.
pub fn draw_with(view: &View, scale: f64, labels: &Labels, details: &[Detail]) -> Block {
    let mut marks = Vec::new();
    for cut in view.cuts.iter().filter(|c| !c.solid) {
        let face = Path { contours: cut.outlines.iter().flat_map(|o| path(o, scale).contours).collect() };
        marks.push(hatch(&face, Hatch::of_part(cut.part)));
    }
    marks.extend(view.edges.iter().map(|(edge, segments)| edge_mark(*edge, segments, scale)));
    let mut scene = scene(view, scale, labels, |i| !details.iter().any(|d| d.dimensions.contains(&i)));
    for detail in details {
        let (centre, radius) = (at(detail.centre, scale), detail.radius * scale);
        let circle = Path::circle(centre, radius);
        scene.lines.extend(circle.chords(15.0));
        marks.push(Mark::stroke(circle, Line::Narrow));
        scene.letters.push(Letter { centre, radius, letter: detail.letter });
    }
    finished(marks, &scene)
}

/// Draws a detail of a view, its middle at the origin.
pub fn draw_detail(view: &View, detail: &Detail, labels: &Labels) -> Block {
    let scale = detail.scale.factor();
    let (radius, centre) = (detail.radius * scale, at(detail.centre, scale));
    let inside = |path: &Path| {
        let chords: Vec<(Point, Point)> = path.chords(2.0).iter().map(|(a, b)| (*a - centre, *b - centre)).collect();
        detail::clipped(&chords, radius)
    };
    let mut marks = Vec::new();
    for cut in view.cuts.iter().filter(|c| !c.solid) {
        let face = Path { contours: cut.outlines.iter().flat_map(|o| path(o, scale).contours).collect() };
        if let Mark::Stroke(lines, line, _) = hatch(&face, Hatch::of_part(cut.part)) {
            marks.push(Mark::stroke(inside(&lines), line));
        }
    }
    let mut scene = Scene { outline: vec![Path::circle(Point::default(), radius)], ..Scene::default() };
    for (edge, segments) in view.edges.iter().filter(|(edge, _)| *edge != Edge::Axis) {
        let seen = inside(&path(segments, scale));
        scene.lines.extend(seen.chords(6.0));
        marks.push(Mark::stroke(seen, if *edge == Edge::Visible { Line::Wide } else { Line::Narrow }));
    }
    marks.retain(|mark| !matches!(mark, Mark::Stroke(path, ..) if path.contours.is_empty()));
    marks.push(Mark::stroke(Path::circle(Point::default(), radius), Line::Narrow));
    for drawn in detail.dimensions.iter().filter_map(|i| view.dimensions.get(*i)) {
        let drawn = detail::moved(drawn, detail.centre);
        if let Ok(said) = Said::of(&drawn, labels) {
            add(&mut scene, &drawn, &said, scale);
        }
    }
    finished(marks, &scene)
}

/// What is drawn, with all that is said of it.
fn finished(mut marks: Vec<Mark>, scene: &Scene) -> Block {
    let placed = place(scene);
    marks.extend(placed.marks);
    let area = Area::of(&marks);
    Block { marks, area, left_out: placed.left_out }
}

fn edge_mark(edge: Edge, segments: &[Segment], scale: f64) -> Mark {
    let line = match edge {
        Edge::Visible => Line::Wide,
        Edge::Axis => Line::Centre,
        Edge::Thread => Line::Narrow,
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

/// Keys that a view asks for and nobody recorded: a fault of whoever made the drawing.
pub fn unrecorded(view: &View, labels: &Labels) -> Vec<String> {
    let dimensions = view.dimensions.iter().filter_map(|d| Said::of(d, labels).err());
    dimensions.chain(view.frames.iter().filter_map(|(_, _, f)| framed(f, labels).err())).collect()
}

/// The dimensions of the view for placing, those that are wanted; what was not recorded does not stand in it.
fn scene(view: &View, scale: f64, labels: &Labels, wanted: impl Fn(usize) -> bool) -> Scene {
    let mut scene = Scene::default();
    for (_, segments) in &view.edges {
        scene.lines.extend(path(segments, scale).chords(6.0));
    }
    scene.outline = outline(view, scale);
    for (_, drawn) in view.dimensions.iter().enumerate().filter(|(i, _)| wanted(*i)) {
        if let Ok(said) = Said::of(drawn, labels) {
            add(&mut scene, drawn, &said, scale);
        }
    }
    for (point, words) in &view.notes {
        scene.leaders.push(pointer(at(*point, scale), Label::small(words), words));
    }
    for (point, off, words) in &view.textures {
        let label = Label::small(words).signed(Sign::Machined);
        scene.leaders.push(off_surface((view, *point, scale), *off, label, words));
    }
    for (point, off, frame) in &view.frames {
        if let Ok(label) = framed(frame, labels) {
            scene.leaders.push(off_surface((view, *point, scale), *off, label, &frame.key));
        }
    }
    for (point, off, letter) in &view.datums {
        let d = off.as_degrees();
        let leader = pointer(at(*point, scale), lettered(*letter), &format!("datum {letter}"));
        scene.leaders.push(Leader { end: End::Triangle, within: Some((d, d)), ..leader });
    }
    scene
}

/// What is said of one dimension.
struct Said {
    /// The size and what stands behind it.
    label: Label,
    /// Tolerance frames of its axis or middle plane.
    frames: Vec<Label>,
    datum: Option<char>,
    auxiliary: bool,
}

impl Said {
    /// The label of a dimension, or the key that nobody recorded.
    fn of(drawn: &Drawn, labels: &Labels) -> Result<Self, String> {
        let find = |key: &String| labels.get(key).ok_or_else(|| key.clone());
        let mut label = find(&drawn.key)?.clone();
        for (words, key) in &drawn.behind {
            label = label.with(words, find(key)?);
        }
        let frames = drawn.frames.iter().map(|f| framed(f, labels)).collect::<Result<_, _>>()?;
        Ok(Self { label, frames, datum: drawn.datum, auxiliary: drawn.auxiliary })
    }

    /// The label with words before and behind the size, in brackets where it is auxiliary.
    fn named(&self, before: &str, behind: &str) -> Label {
        let label = self.label.clone().after(before).before(behind);
        if self.auxiliary { label.bracketed() } else { label }
    }

    /// The same with the frames and the datum under it, for a size on a leader.
    fn stacked(&self, before: &str, behind: &str) -> Label {
        let under = self.frames.iter().cloned().chain(self.datum.map(lettered));
        under.fold(self.named(before, behind), Label::over)
    }

    /// Frames and datum for the ends of a dimension line.
    fn tags(&self) -> Vec<Tag> {
        let frames = self.frames.iter().cloned().reduce(Label::over).map(|label| Tag { label, datum: false });
        frames.into_iter().chain(self.datum.map(|letter| Tag { label: lettered(letter), datum: true })).collect()
    }
}

/// The letter of a datum in its box.
fn lettered(letter: char) -> Label {
    Label::boxed(vec![Field::Words(letter.to_string())])
}

/// A tolerance frame: sign, width of the zone, datums; or the key that nobody recorded.
fn framed(frame: &Frame, labels: &Labels) -> Result<Label, String> {
    let width = labels.get(&frame.key).and_then(Label::figure).ok_or_else(|| frame.key.clone())?;
    let zone = if frame.round { format!("Ø{width}") } else { width.to_string() };
    let datums = frame.to.iter().map(|letter| Field::Words(letter.to_string()));
    Ok(Label::boxed([Field::Sign(frame.what), Field::Words(zone)].into_iter().chain(datums).collect()))
}

/// A leader that leaves a surface to its free side, from the point that is named or from another of the same edge.
fn off_surface((view, point, scale): (&View, shape::Point, f64), off: Angle, label: Label, name: &str) -> Leader {
    let d = off.as_degrees();
    let others = along_edge(view, point).into_iter().map(|p| at(p, scale)).collect();
    Leader { within: Some((d - 70.0, d + 70.0)), others, ..pointer(at(point, scale), label, name) }
}

/// Points along the straight edge on which a point lies, none of them close to its ends.
fn along_edge(view: &View, point: shape::Point) -> Vec<shape::Point> {
    let visible = view.edges.iter().filter(|(edge, _)| *edge == Edge::Visible).flat_map(|(_, segments)| segments);
    let on = |s: &&Segment| {
        let (from, to) = (s.from().distance(point), s.to().distance(point));
        s.arc().is_none() && from + to <= s.length() + Length::um(10.0)
    };
    let between = |s: &Segment, share: f64| {
        let (a, b) = (s.from(), s.to());
        shape::Point::new(a.x() + (b.x() - a.x()) * share, a.y() + (b.y() - a.y()) * share)
    };
    let longest = visible.filter(on).max_by(|a, b| a.length().as_mm().total_cmp(&b.length().as_mm()));
    longest.into_iter().flat_map(|s| (1..10).map(move |i| between(s, f64::from(i) / 10.0))).collect()
}

/// What counts as the part: the cut faces, or without a cut the closed edges.
fn outline(view: &View, scale: f64) -> Vec<Path> {
    if view.cuts.is_empty() {
        let visible = view.edges.iter().filter(|(edge, _)| *edge == Edge::Visible);
        return visible.map(|(_, s)| path(s, scale)).filter(|p| p.contours.iter().all(|c| c.closed)).collect();
    }
    view.cuts.iter().flat_map(|c| &c.outlines).map(|o| path(o, scale)).collect()
}

fn pointer(at: Point, label: Label, name: &str) -> Leader {
    Leader { at, others: Vec::new(), radius: 0.0, end: End::Arrow, within: None, label, name: name.into() }
}

fn add(scene: &mut Scene, drawn: &Drawn, said: &Said, scale: f64) {
    let name = drawn.key.as_str();
    match &drawn.how {
        How::Across { from, to, side, diameter } => {
            let label = said.named(if *diameter { "Ø" } else { "" }, "");
            let (from, to, tags, name) = (at(*from, scale), at(*to, scale), said.tags(), name.into());
            scene.spans.push(Span { from, to, side: *side, label, tags, name });
        }
        How::Corner { vertex, from, to } => {
            let (from, to, label) = (from.as_degrees(), to.as_degrees(), said.stacked("", ""));
            let shown = (1.0, 1.0);
            scene.corners.push(Corner { vertex: at(*vertex, scale), from, to, shown, label, name: name.into() });
        }
        How::Hole { centre, diameter, count } => {
            let before = if *count > 1 { format!("{count}× Ø") } else { "Ø".into() };
            let radius = diameter.as_mm() * scale / 2.0;
            scene.leaders.push(Leader { radius, ..pointer(at(*centre, scale), said.stacked(&before, ""), name) });
        }
        How::Radius { centre, radius, direction } => {
            let d = direction.as_degrees();
            let leader = pointer(at(*centre, scale), said.stacked("R", ""), name);
            scene.leaders.push(Leader { radius: radius.as_mm() * scale, within: Some((d - 40.0, d + 40.0)), ..leader });
        }
        How::Taper { at: point, to_left } => {
            let label = said.stacked("", "").signed(Sign::Taper { to_left: *to_left });
            scene.leaders.push(pointer(at(*point, scale), label, name));
        }
        How::Note { at: point, kind } => {
            let label = match kind {
                Noted::Plain => said.stacked("", ""),
                Noted::Diameter => said.stacked("Ø", ""),
                Noted::Radius => said.stacked("R", ""),
                Noted::Chamfer => said.stacked("", " × 45°"),
            };
            scene.leaders.push(pointer(at(*point, scale), label, name));
        }
    }
}
