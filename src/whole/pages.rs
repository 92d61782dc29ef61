//! The whole job on paper: parts with small pictures, a list for each person, the order of work as a picture.

use super::Job;
use super::graph::{Graph, Node};
use super::lists::{List, lists};
use super::share::{PICTURE, Share};
use crate::sheet::content::{Content, Style};
use crate::sheet::flow::Flow;
use crate::sheet::table::{Cell, Row, widths};
use crate::sheet::{Anchor, Area, Line, Mark, Page, Path, Point, SMALL, Shade, Text, font, title_block};

/// More parts than these have no small pictures, and no picture of their work: the lists say it.
const CARDS: usize = 60;
/// Columns of small pictures on a sheet.
const COLUMNS: usize = 7;
/// Height of a small picture with its words, mm.
const CARD: f64 = PICTURE + 18.0;

/// The sheets.
pub fn pages(job: &Job, style: &Style) -> Vec<Page> {
    let lists = lists(job);
    let texts = lists.iter().flat_map(|list| list.lines.iter().flat_map(|line| line.cells().map(String::from)));
    let content = Content {
        revision: crate::record::show::mark(texts),
        name: "The whole job".into(),
        number: "job".into(),
        kind: "Job".into(),
        unit: crate::record::show::unit_name(job.unit).into(),
        ..Content::default()
    };
    let mut flow = Flow::new(&content, style);
    for list in lists {
        // A list for somebody else begins a sheet: it is handed over.
        if ["cutter", "water_jet", "saw", "fasteners", "road", "order"].contains(&list.key) && !list.lines.is_empty() {
            flow = flow.turned();
        }
        match list.key {
            "parts" => {
                one(&list, &mut flow);
                cards(job, &mut flow);
            }
            "order" => {
                work(job, &list, &mut flow);
                one(&list, &mut flow);
            }
            _ => one(&list, &mut flow),
        }
    }
    let mut pages = flow.finish();
    title_block::number_sheets(&mut pages, &content, style, false);
    pages
}

/// A list with its heading, as a table.
fn one(list: &List, flow: &mut Flow<'_>) {
    if list.lines.is_empty() {
        return;
    }
    flow.heading(list.title, 30.0);
    let shown: Vec<usize> = (0..list.heads.len())
        .filter(|i| list.heads.get(*i).is_some_and(|h| !h.is_empty()))
        .filter(|i| list.lines.iter().any(|l| l.cells().get(*i).is_some_and(|c| !c.is_empty())))
        .collect();
    let pick = |cells: &[&str]| shown.iter().filter_map(|i| cells.get(*i)).map(|c| Cell::new(*c, SMALL)).collect();
    let header: Vec<Cell> = pick(&list.heads);
    let rows: Vec<Vec<Cell>> = list.lines.iter().map(|l| pick(&l.cells())).collect();
    let columns = widths(&header, &rows, flow.width());
    let rows: Vec<Row> = rows.iter().map(|r| Row::new(&columns, r, 0.0)).collect();
    flow.table(&Row::new(&columns, &header, 0.0), &rows, 0.0);
    flow.gap(2.0);
    for note in &list.notes {
        flow.text(note, SMALL, 0.0);
    }
    flow.gap(2.0);
}

/// A small picture of each part, with its name and verdict under it.
fn cards(job: &Job, flow: &mut Flow<'_>) {
    if job.parts.len() > CARDS {
        return;
    }
    let width = flow.width() / COLUMNS as f64;
    for row in job.parts.chunks(COLUMNS) {
        let marks: Vec<Mark> =
            row.iter().enumerate().flat_map(|(i, part)| card(part, i as f64 * width, width)).collect();
        // The row is as wide as the sheet, so that the cards stand under each other on every row.
        let all = Area::new(0.0, 0.0, flow.width(), CARD);
        let paper = Mark::Fill(Path::rectangle(all), Shade::White);
        flow.picture("", &[vec![paper], marks].concat());
    }
}

fn card(part: &Share, left: f64, width: f64) -> Vec<Mark> {
    let points: Vec<Point> = part.picture.iter().flatten().map(|[x, y]| Point::new(*x, *y)).collect();
    let area = if points.is_empty() { Area::new(0.0, 0.0, 0.0, 0.0) } else { Area::around(points) };
    let scale = (PICTURE / area.width().max(1e-6)).min(PICTURE / area.height().max(1e-6)).min(1.0);
    let middle = Point::new(left + width / 2.0, CARD - PICTURE / 2.0);
    let put = |[x, y]: &[f64; 2]| middle + Point::new((x - area.centre().x) * scale, (y - area.centre().y) * scale);
    let lines = part.picture.iter().map(|line| {
        let points: Vec<Point> = line.iter().map(put).collect();
        Mark::stroke(Path::polyline(&points), Line::Narrow)
    });
    let mut marks: Vec<Mark> = lines.collect();
    if part.picture.is_empty() {
        marks.push(Mark::Text(Text::new(middle, SMALL, "no picture").anchored(Anchor::Middle)));
    }
    let verdict = if part.is_made() { part.verdict.clone() } else { format!("{}: LEFT OUT", part.verdict) };
    let words = font::wrap(&part.name, SMALL, width - 3.0);
    let all = words.into_iter().take(3).chain([format!("{} x, {verdict}", part.count)]);
    for (i, line) in all.enumerate() {
        let at = Point::new(middle.x, CARD - PICTURE - 5.0 - i as f64 * SMALL * 1.6);
        marks.push(Mark::Text(Text::new(at, SMALL, line).anchored(Anchor::Middle)));
    }
    marks
}

/// Most parts beside each other in the picture of the work.
const LANES: usize = 11;
/// Most turns below each other.
const TURNS: usize = 24;
/// Room for the names over the lanes, mm.
const NAMES: f64 = 42.0;
/// Height left for the picture, mm, less its names.
const HIGH: f64 = 176.0;

/// The order of work: a lane for each part, the turns from top to bottom, an arrow from what is waited for.
fn work(job: &Job, list: &List, flow: &mut Flow<'_>) {
    if list.lines.is_empty() || job.parts.len() > CARDS {
        return;
    }
    let made = job.made();
    let has = |i: &usize| job.graph.nodes.iter().any(|n| n.part == *i);
    let mut with_work: Vec<usize> = (0..made.len()).filter(has).collect();
    // Those that wait for each other stand beside each other.
    let part = |i: usize| job.graph.nodes.get(i).map(|n| n.part);
    let crossed =
        |i: usize| job.graph.edges.iter().any(|e| e.across && (part(e.from) == Some(i) || part(e.to) == Some(i)));
    with_work.sort_by_key(|i| !crossed(*i));
    for (i, lanes) in with_work.chunks(LANES).enumerate() {
        let picture = Lanes::new(&job.graph, lanes, flow.width());
        let more = if i == 0 { "" } else { ", continued" };
        flow.picture(&format!("Order of work: what waits for what{more}"), &picture.marks(&made));
    }
    if with_work.len() > LANES || job.graph.levels() > TURNS {
        flow.text("What does not stand on one picture with what it waits for stands in the list.", SMALL, 0.0);
    }
}

struct Lanes<'a> {
    graph: &'a Graph,
    lanes: &'a [usize],
    wide: f64,
    high: f64,
}

impl<'a> Lanes<'a> {
    fn new(graph: &'a Graph, lanes: &'a [usize], width: f64) -> Self {
        let levels = graph.levels().clamp(1, TURNS) as f64;
        Self { graph, lanes, wide: (width - 8.0) / LANES as f64, high: (HIGH / levels).min(15.0) }
    }

    /// The box of a stretch; none where it does not stand on this picture.
    fn place(&self, node: &Node) -> Option<Area> {
        let lane = self.lanes.iter().position(|l| *l == node.part)?;
        if node.level >= TURNS {
            return None;
        }
        let (x, y) = (8.0 + lane as f64 * self.wide, -(node.level as f64 + 1.0) * self.high);
        let gap = (self.high * 0.3).min(4.0);
        Some(Area::new(x + 0.7, y + gap, self.wide - 1.4, self.high - gap))
    }

    fn marks(&self, made: &[&Share]) -> Vec<Mark> {
        let mut marks = Vec::new();
        for edge in &self.graph.edges {
            let of = |i: usize| self.graph.nodes.get(i).and_then(|n| self.place(n));
            if let (Some(from), Some(to)) = (of(edge.from), of(edge.to)) {
                arrow(&mut marks, from, to, edge.across);
            }
        }
        for node in &self.graph.nodes {
            if let Some(area) = self.place(node) {
                stretch(&mut marks, node, area);
            }
        }
        for (i, lane) in self.lanes.iter().enumerate() {
            let name = made.get(*lane).map_or("", |p| p.part.as_str());
            let mut lines = font::wrap(name, SMALL, NAMES);
            lines.truncate(2);
            for (k, line) in lines.iter().enumerate() {
                let x = 8.0 + (i as f64 + 0.5) * self.wide + (k as f64 - 0.5) * SMALL * 1.5 + SMALL;
                marks.push(Mark::Text(Text::new(Point::new(x, 2.0), SMALL, line.as_str()).turned(90.0)));
            }
        }
        let used = |level: &usize| self.graph.nodes.iter().any(|n| n.level == *level && self.place(n).is_some());
        for level in (0..TURNS).filter(used) {
            let at = Point::new(6.0, -(level as f64 + 0.5) * self.high - SMALL * 0.2);
            marks.push(Mark::Text(Text::new(at, SMALL, (level + 1).to_string()).anchored(Anchor::End)));
        }
        // The whole width, so that one lane does not stand in the middle of the sheet.
        let right = 8.0 + LANES as f64 * self.wide;
        marks.push(Mark::stroke(Path::polyline(&[Point::new(0.0, 0.6), Point::new(right, 0.6)]), Line::Narrow));
        marks
    }
}

/// A stretch: grey where it goes out of the house, a wide line where something is measured.
fn stretch(marks: &mut Vec<Mark>, node: &Node, area: Area) {
    let shade = if node.stage.is_away() { Shade::Grey } else { Shade::White };
    marks.push(Mark::Fill(Path::rectangle(area), shade));
    let line = if node.stage.measures { Line::Wide } else { Line::Narrow };
    marks.push(Mark::stroke(Path::rectangle(area), line));
    let mut lines = font::wrap(&node.stage.at, SMALL, area.width() - 0.6);
    lines.truncate(((area.height() - 0.6) / (SMALL * 1.35)).floor().max(1.0) as usize);
    let top = area.centre().y + lines.len() as f64 * SMALL * 1.35 / 2.0;
    for (i, words) in lines.iter().enumerate() {
        let at = Point::new(area.centre().x, top - (i as f64 + 0.8) * SMALL * 1.35);
        marks.push(Mark::Text(Text::new(at, SMALL, words.as_str()).anchored(Anchor::Middle)));
    }
}

/// From the foot of one box to the head of another.
fn arrow(marks: &mut Vec<Mark>, from: Area, to: Area, across: bool) {
    let (start, end) = (Point::new(from.centre().x, from.bottom), Point::new(to.centre().x, to.top));
    if !across {
        marks.push(Mark::line(start, end, Line::Narrow));
        return;
    }
    // Beside the middle, so that it is told from the line of the part itself.
    let side = if end.x > start.x { 2.0 } else { -2.0 };
    let (start, end) = (Point::new(start.x + side, start.y), Point::new(end.x - side, end.y));
    let level = end.y + 1.8;
    let points = [start, Point::new(start.x, level.min(start.y)), Point::new(end.x, level.min(start.y)), end];
    marks.push(Mark::stroke(Path::polyline(&points), Line::Wide));
    let head = [end, Point::new(end.x - 0.9, end.y + 1.6), Point::new(end.x + 0.9, end.y + 1.6)];
    marks.push(Mark::Fill(Path::polygon(&head), Shade::Black));
}
