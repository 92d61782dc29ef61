//! Several views on one sheet: the largest recommended scale at which all of them fit with their dimensions.

use crate::drawing::{Drawing, View};
use crate::page::label::SIZE;
use crate::page::scale::Scale;
use crate::page::symbols::Projection;
use crate::page::view::{Block, Labels, bare_area, draw};
use crate::page::{Anchor, Area, Mark, Point, Text};

/// Free space between views, mm.
const BETWEEN: f64 = 8.0;
/// Free space round all views, mm.
const ROUND: f64 = 1.5;

/// Views placed in a room.
pub struct Arranged {
    /// At which scale.
    pub scale: Scale,
    /// What is drawn.
    pub marks: Vec<Mark>,
    /// Keys of dimensions, and words of notes, that found no room.
    pub left_out: Vec<String>,
    /// Keys that the drawing asks for and nobody recorded.
    pub unknown: Vec<String>,
}

/// Places all views in a room; where even the smallest scale has no room for all dimensions, the last ones of the
/// fullest view are left out and counted.
pub fn arrange(drawing: &Drawing, labels: &Labels, projection: Projection, room: Area) -> Arranged {
    let mut views = drawing.views.clone();
    if projection == Projection::Third {
        views.reverse();
    }
    let mut dropped = Vec::new();
    loop {
        if let Some((scale, block)) = largest(&views, labels, room) {
            let by = room.centre() - block.area.centre();
            let marks = block.moved(by).collect();
            dropped.extend(block.left_out);
            return Arranged { scale, marks, left_out: dropped, unknown: block.unknown };
        }
        let fullest = views.iter_mut().max_by_key(|v| v.dimensions.len() + v.notes.len() + v.textures.len());
        match fullest.and_then(drop_one) {
            Some(name) => dropped.push(name),
            None => {
                return Arranged { scale: Scale::TRUE, marks: Vec::new(), left_out: dropped, unknown: Vec::new() };
            }
        }
    }
}

/// Takes the least important thing said in a view off it; gives back its name.
fn drop_one(view: &mut View) -> Option<String> {
    let texture = |v: &mut View| v.textures.pop().map(|(_, _, words)| words);
    let note = |v: &mut View| v.notes.pop().map(|(_, words)| words);
    let frame = |v: &mut View| v.frames.pop().map(|(_, _, frame)| frame.key);
    let dimension = |v: &mut View| v.dimensions.pop().map(|d| d.key);
    texture(view).or_else(|| note(view)).or_else(|| frame(view)).or_else(|| dimension(view))
}

fn largest(views: &[View], labels: &Labels, room: Area) -> Option<(Scale, Block)> {
    let bare: Vec<Area> = views.iter().map(bare_area).collect();
    let may_fit = |s: &&Scale| {
        bare.iter().all(|a| a.width() * s.factor() < room.width() && a.height() * s.factor() < room.height())
    };
    Scale::SERIES.iter().filter(may_fit).find_map(|scale| {
        let blocks: Vec<Block> = views.iter().map(|v| titled(draw(v, scale.factor(), labels), &v.title)).collect();
        if blocks.is_empty() {
            return None;
        }
        let fits =
            |b: &Block| b.area.width() + 2.0 * ROUND <= room.width() && b.area.height() + 2.0 * ROUND <= room.height();
        ways(&blocks, &bare).into_iter().find(fits).map(|b| (*scale, b))
    })
}

/// One column; one row; the first over a row of the others.
fn ways(blocks: &[Block], bare: &[Area]) -> Vec<Block> {
    let alike = |size: fn(Area) -> f64| {
        let mut sizes = bare.iter().map(|a| size(*a));
        let first = sizes.next().unwrap_or(0.0);
        sizes.all(|s| (s - first).abs() < 1e-3)
    };
    let column = join(blocks, true, alike(Area::width));
    let row = join(blocks, false, alike(Area::height));
    match blocks.split_first() {
        Some((first, others)) if others.len() > 1 => {
            vec![column, row, join(&[first.clone(), join(others, false, false)], true, false)]
        }
        _ => vec![column, row],
    }
}

/// Blocks under each other or side by side; their origins in line where they show the same width or height.
fn join(blocks: &[Block], under: bool, aligned: bool) -> Block {
    let mut marks = Vec::new();
    let (mut area, mut left_out, mut unknown) = (Area::EMPTY, Vec::new(), Vec::new());
    for block in blocks {
        let (a, first) = (block.area, marks.is_empty());
        let centre = if aligned { Point::default() } else { a.centre() };
        let by = match (first, under) {
            (true, true) => Point::new(-centre.x, 0.0),
            (true, false) => Point::new(0.0, -centre.y),
            (false, true) => Point::new(-centre.x, area.bottom - BETWEEN - a.top),
            (false, false) => Point::new(area.right + BETWEEN - a.left, -centre.y),
        };
        area = area.with(a.moved(by));
        marks.extend(block.moved(by));
        left_out.extend(block.left_out.iter().cloned());
        unknown.extend(block.unknown.iter().cloned());
    }
    Block { marks, area, left_out, unknown }
}

fn titled(mut block: Block, title: &str) -> Block {
    if !title.is_empty() {
        let at = Point::new(block.area.centre().x, block.area.bottom - 3.0 - SIZE);
        let text = Mark::Text(Text::new(at, SIZE, title).anchored(Anchor::Middle));
        block.area = block.area.with(text.area());
        block.marks.push(text);
    }
    block
}
