//! Several views on one sheet: the largest recommended scale at which they fit with all their dimensions.
//!
//! A section and the plan of the same flat part keep together in projection (ISO 5456-2); any other view stands for
//! itself. What does not fit on one sheet at a legible size goes on to the next.

use std::cell::OnceCell;
use std::ops::Range;
use std::rc::Rc;

use crate::record::drawing::{Drawing, Stands, View};
use crate::sheet::label::SIZE;
use crate::sheet::scale::Scale;
use crate::sheet::symbols::Projection;
use crate::sheet::view::{Block, Labels, bare_area, draw, unrecorded};
use crate::sheet::{Anchor, Area, Mark, Point, SMALL, Text, font};

/// Free space between views, mm.
const BETWEEN: f64 = 8.0;
/// Free space round all views, mm.
const ROUND: f64 = 1.5;
/// The longer side of a view is at least so long on paper, mm; a smaller picture shows nothing.
pub const LEGIBLE: f64 = 25.0;
/// Height of a line of a title, in heights of its capitals.
const LINE: f64 = 1.6;
/// Titles are broken to the width of their view, but not narrower than that, mm.
const TITLE: f64 = 60.0;

/// Views placed in a room.
pub struct Arranged {
    /// At which scale.
    pub scale: Scale,
    set: Set,
    /// The longer side of the smallest view, mm on paper.
    pub smallest: f64,
    /// Keys of dimensions, and words of notes, that found no room.
    pub left_out: Vec<String>,
}

impl Arranged {
    /// What is drawn.
    pub fn marks(&self) -> Vec<Mark> {
        self.set.marks()
    }
}

/// Blocks set beside and under each other. Many ways are tried before one is taken, so each block only says how it is
/// moved, one move after the other.
#[derive(Clone)]
struct Set {
    blocks: Vec<(Rc<Block>, Vec<Point>)>,
    area: Area,
}

impl Set {
    fn of(block: Rc<Block>) -> Self {
        Self { area: block.area, blocks: vec![(block, Vec::new())] }
    }

    fn move_by(&mut self, by: Point) {
        self.blocks.iter_mut().for_each(|(_, moves)| moves.push(by));
        self.area = self.area.moved(by);
    }

    fn left_out(&self) -> impl Iterator<Item = &String> {
        self.blocks.iter().flat_map(|(block, _)| &block.left_out)
    }

    fn marks(&self) -> Vec<Mark> {
        let mut marks = Vec::new();
        for (block, moves) in &self.blocks {
            for mark in &block.marks {
                let mut mark = mark.clone();
                moves.iter().for_each(|by| mark.shift(*by));
                marks.push(mark);
            }
        }
        marks
    }
}

/// A view drawn at every scale at which somebody asked for it.
struct Sized {
    view: View,
    bare: Area,
    blocks: Vec<OnceCell<Rc<Block>>>,
}

impl Sized {
    fn new(view: View) -> Self {
        let blocks = Scale::SERIES.iter().map(|_| OnceCell::new()).collect();
        Self { bare: bare_area(&view), view, blocks }
    }

    fn at(&self, scale: usize, labels: &Labels) -> Option<Set> {
        let (cell, scale) = (self.blocks.get(scale)?, Scale::SERIES.get(scale)?);
        let drawn = || Rc::new(titled(draw(&self.view, scale.factor(), labels), &self.view.title));
        Some(Set::of(cell.get_or_init(drawn).clone()))
    }

    fn long_side(&self) -> f64 {
        self.bare.width().max(self.bare.height())
    }
}

/// The section of a flat part and its plan.
struct Pair {
    front: Sized,
    above: Sized,
    /// Where the plan is the same all round: the section lying on its side, to stand beside the plan.
    lying: Option<Sized>,
}

/// What keeps together.
enum Group {
    /// One view.
    One(Box<Sized>),
    /// Two in projection.
    Two(Box<Pair>),
}

impl Group {
    fn views(&self) -> Vec<&Sized> {
        match self {
            Self::One(view) => vec![view],
            Self::Two(pair) => vec![&pair.front, &pair.above],
        }
    }
}

/// All views of a drawing, ready to be set on sheets.
pub struct Views<'a> {
    groups: Vec<Group>,
    labels: &'a Labels,
    projection: Projection,
}

impl<'a> Views<'a> {
    /// Views and what stands on their dimensions.
    ///
    /// # Errors
    /// A view without edges, or a dimension that nobody recorded: faults of whoever made the drawing.
    pub fn new(drawing: &Drawing, labels: &'a Labels, projection: Projection) -> Result<Self, String> {
        if let Some(view) = drawing.views.iter().find(|v| bare_area(v).width().max(bare_area(v).height()) <= 0.0) {
            return Err(format!("the view `{}` of the drawing is empty", view.title));
        }
        let unknown: Vec<String> = drawing.views.iter().flat_map(|v| unrecorded(v, labels)).collect();
        if !unknown.is_empty() {
            return Err(format!("the drawing asks for sizes that were not worked out: {}", unknown.join(", ")));
        }
        Ok(Self { groups: grouped(&drawing.views, projection), labels, projection })
    }

    /// How many groups of views there are.
    pub fn count(&self) -> usize {
        self.groups.len()
    }

    /// How many groups come up to the last one in which a size stands.
    pub fn dimensioned(&self) -> usize {
        let has_sizes = |g: &Group| g.views().iter().any(|v| !v.view.dimensions.is_empty());
        self.groups.iter().rposition(has_sizes).map_or(0, |last| last + 1)
    }

    /// Some of the groups in a room at the largest scale at which nothing is left out, or else at the one at which
    /// least is; none where no legible scale has room.
    pub fn fit(&self, groups: Range<usize>, room: Area) -> Option<Arranged> {
        let chosen = self.groups.get(groups).filter(|g| !g.is_empty())?;
        let views: Vec<&Sized> = chosen.iter().flat_map(Group::views).collect();
        let shortest = views.iter().map(|v| v.long_side()).fold(f64::INFINITY, f64::min);
        let fits =
            |s: &Set| s.area.width() + 2.0 * ROUND <= room.width() && s.area.height() + 2.0 * ROUND <= room.height();
        let may_fit =
            |f: f64| views.iter().all(|v| v.bare.width() * f < room.width() && v.bare.height() * f < room.height());
        let mut best: Option<(Scale, Set, usize)> = None;
        for (i, scale) in Scale::SERIES.iter().enumerate().filter(|(_, s)| may_fit(s.factor())) {
            // A scale that is much smaller is no gain for the sake of one leader.
            let far = best.as_ref().is_some_and(|(b, ..)| b.factor() > 2.6 * scale.factor());
            if shortest * scale.factor() < LEGIBLE || far {
                break;
            }
            let Some(set) = self.ways(chosen, i).into_iter().find(fits) else { continue };
            let left_out = set.left_out().count();
            if best.as_ref().is_none_or(|(.., least)| left_out < *least) {
                best = Some((*scale, set, left_out));
            }
            if left_out == 0 {
                break;
            }
        }
        best.map(|(scale, set, _)| centred(scale, set, shortest * scale.factor(), room))
    }

    /// One group in a room that is too small for all that is said of it: the least important is left out and named.
    ///
    /// # Errors
    /// There is no room even for the bare views at a legible size.
    pub fn squeeze(&self, group: usize, room: Area) -> Result<Arranged, String> {
        let chosen = self.groups.get(group).map_or_else(Vec::new, Group::views);
        let mut views: Vec<View> = chosen.iter().map(|v| v.view.clone()).collect();
        let titles: Vec<String> = views.iter().map(|v| format!("`{}`", v.title)).collect();
        let mut dropped = Vec::new();
        loop {
            let fewer = Views { groups: grouped(&views, self.projection), ..*self };
            if let Some(mut arranged) = fewer.fit(0..fewer.count(), room) {
                arranged.left_out.extend(dropped);
                return Ok(arranged);
            }
            let fullest = views.iter_mut().max_by_key(|v| v.dimensions.len() + v.notes.len() + v.textures.len());
            let Some(name) = fullest.and_then(drop_one) else {
                return Err(format!("the drawing has no room on the paper at a legible size: {}", titles.join(", ")));
            };
            dropped.push(name);
        }
    }

    /// All ways of setting groups of views at one scale.
    fn ways(&self, groups: &[Group], scale: usize) -> Vec<Set> {
        let all: Option<Vec<Vec<Set>>> = groups.iter().map(|g| self.set(g, scale)).collect();
        let Some(mut all) = all else { return Vec::new() };
        if let [only] = all.as_mut_slice() {
            return std::mem::take(only);
        }
        let first: Vec<Set> = all.iter().filter_map(|a| a.first().cloned()).collect();
        let bare: Vec<Area> = groups.iter().filter_map(|g| Some(g.views().first()?.bare)).collect();
        let mut ways = grids(&first, &bare);
        if let Some(Group::Two(two)) = groups.first()
            && let (Some(front), Some(above)) = (two.front.at(scale, self.labels), two.above.at(scale, self.labels))
            && let Some((_, others)) = first.split_first()
        {
            // The others stand beside the plan, which stays under the section or over it.
            let beside: Vec<Set> = std::iter::once(above).chain(others.iter().cloned()).collect();
            let row = join(&beside, false, false);
            let pair = if self.projection == Projection::First { [front, row] } else { [row, front] };
            ways.push(join(&pair, true, true));
        }
        ways
    }

    /// The ways of setting one group.
    fn set(&self, group: &Group, scale: usize) -> Option<Vec<Set>> {
        let at = |view: &Sized| view.at(scale, self.labels);
        match group {
            Group::One(view) => Some(vec![at(view)?]),
            Group::Two(pair) => {
                let (front, above) = (at(&pair.front)?, at(&pair.above)?);
                let lying = pair.lying.as_ref().and_then(at);
                let beside = lying.map(|lying| join(&[above.clone(), lying], false, true));
                let order = if self.projection == Projection::First { [front, above] } else { [above, front] };
                Some(std::iter::once(join(&order, true, true)).chain(beside).collect())
            }
        }
    }
}

fn grouped(views: &[View], projection: Projection) -> Vec<Group> {
    let mut groups = Vec::new();
    let mut views = views.iter().peekable();
    while let Some(view) = views.next() {
        let plan = views.next_if(|next| view.stands == Stands::Front && matches!(next.stands, Stands::Above { .. }));
        groups.push(match plan {
            Some(plan) => {
                // Seen from the side on which it is set: the upper face is away from the plan in first angle.
                let lying = || Sized::new(view.clone().lying(projection == Projection::First));
                let lying = (plan.stands == Stands::Above { round: true }).then(lying);
                let (front, above) = (Sized::new(view.clone()), Sized::new(plan.clone()));
                Group::Two(Box::new(Pair { front, above, lying }))
            }
            None => Group::One(Box::new(Sized::new(view.clone()))),
        });
    }
    groups
}

fn centred(scale: Scale, mut set: Set, smallest: f64, room: Area) -> Arranged {
    set.move_by(room.centre() - set.area.centre());
    Arranged { scale, smallest, left_out: set.left_out().cloned().collect(), set }
}

/// Takes the least important thing said in a view off it; gives back its name.
fn drop_one(view: &mut View) -> Option<String> {
    let texture = |v: &mut View| v.textures.pop().map(|(_, _, words)| words);
    let note = |v: &mut View| v.notes.pop().map(|(_, words)| words);
    let frame = |v: &mut View| v.frames.pop().map(|(_, _, frame)| frame.key);
    let dimension = |v: &mut View| v.dimensions.pop().map(|d| d.key);
    texture(view).or_else(|| note(view)).or_else(|| frame(view)).or_else(|| dimension(view))
}

/// Blocks in rows of one, of all, of two, of three …
fn grids(blocks: &[Set], bare: &[Area]) -> Vec<Set> {
    let count = blocks.len();
    let columns = [1, count].into_iter().chain(2..count);
    columns.map(|columns| grid(blocks, bare, columns)).collect()
}

fn grid(blocks: &[Set], bare: &[Area], columns: usize) -> Set {
    let alike = |areas: &[Area], size: fn(Area) -> f64| {
        let first = areas.first().map_or(0.0, |a| size(*a));
        areas.iter().all(|a| (size(*a) - first).abs() < 1e-3)
    };
    let rows = blocks.chunks(columns).zip(bare.chunks(columns));
    let rows: Vec<Set> = rows.map(|(blocks, bare)| join(blocks, false, alike(bare, Area::height))).collect();
    join(&rows, true, columns == 1 && alike(bare, Area::width))
}

/// Blocks under each other or side by side; their origins in line where they show the same width or height.
fn join(sets: &[Set], under: bool, aligned: bool) -> Set {
    let mut joined = Set { blocks: Vec::new(), area: Area::EMPTY };
    for set in sets {
        let (a, area, first) = (set.area, joined.area, joined.blocks.is_empty());
        let centre = if aligned { Point::default() } else { a.centre() };
        let by = match (first, under) {
            (true, true) => Point::new(-centre.x, 0.0),
            (true, false) => Point::new(0.0, -centre.y),
            (false, true) => Point::new(-centre.x, area.bottom - BETWEEN - a.top),
            (false, false) => Point::new(area.right + BETWEEN - a.left, -centre.y),
        };
        let mut set = set.clone();
        set.move_by(by);
        joined.area = area.with(set.area);
        joined.blocks.extend(set.blocks);
    }
    joined
}

/// The title under a view, broken to its width.
fn titled(mut block: Block, title: &str) -> Block {
    if title.is_empty() {
        return block;
    }
    let (middle, width) = (block.area.centre().x, block.area.width().max(TITLE));
    let height = if font::width(title, SIZE) > width { SMALL } else { SIZE };
    for line in font::wrap(title, height, width) {
        let at = Point::new(middle, block.area.bottom - height * LINE - 1.0);
        let text = Mark::Text(Text::new(at, height, line).anchored(Anchor::Middle));
        block.area = block.area.with(text.area());
        block.marks.push(text);
    }
    block
}
