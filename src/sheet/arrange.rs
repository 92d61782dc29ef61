//! Several views on one sheet: the largest recommended scale at which they fit with all their dimensions.
//!
//! A section and the plan of the same flat part keep together in projection (ISO 5456-2); any other view stands for
//! itself. What does not fit on one sheet at a legible size goes on to the next. Details stand in the space that is left.

use std::cell::OnceCell;
use std::ops::Range;
use std::rc::Rc;

use crate::record::drawing::{Drawing, Stands, View};
use crate::sheet::detail::{self, Detail, details};
use crate::sheet::label::SIZE;
use crate::sheet::scale::Scale;
use crate::sheet::symbols::Projection;
use crate::sheet::trace::bare_area;
use crate::sheet::view::{Block, Labels, draw_detail, draw_with, unrecorded};
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
    /// How many sizes stand in details.
    pub detailed: usize,
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
    /// Details that are still to be set, each with the place that it shows.
    details: Vec<(Rc<Enlarged>, Point)>,
    /// How many sizes stand in details.
    detailed: usize,
}

/// A detail drawn.
struct Enlarged {
    block: Rc<Block>,
    sizes: usize,
}

/// A view drawn at a scale, and its details, each with the place on paper that it shows.
struct InScale {
    block: Rc<Block>,
    details: Vec<(Rc<Enlarged>, Point)>,
}

impl Set {
    fn of(drawn: &InScale) -> Self {
        let block = drawn.block.clone();
        Self { area: block.area, blocks: vec![(block, Vec::new())], details: drawn.details.clone(), detailed: 0 }
    }

    fn move_by(&mut self, by: Point) {
        self.blocks.iter_mut().for_each(|(_, moves)| moves.push(by));
        self.details.iter_mut().for_each(|(_, place)| *place = *place + by);
        self.area = self.area.moved(by);
    }

    /// The same in the middle of a room, its details beside it; none where they have no room.
    fn settled(mut self, room: Area) -> Option<Self> {
        let room = room.grown(-ROUND);
        if self.area.width() > room.width() || self.area.height() > room.height() {
            return None;
        }
        if !self.details.is_empty() {
            self = STANDS.iter().find_map(|(right, up)| self.clone().beside_details((*right, *up), room))?;
        }
        self.move_by(room.centre() - self.area.centre());
        Some(self)
    }

    /// The same at a place of a room, from nought for left and bottom to one for right and top, with every detail in the
    /// free space that is nearest to what it shows.
    fn beside_details(mut self, (right, up): (f64, f64), room: Area) -> Option<Self> {
        let (w, h) = (room.width() - self.area.width(), room.height() - self.area.height());
        let corner = Point::new(room.left + w * right, room.bottom + h * up);
        self.move_by(corner - Point::new(self.area.left, self.area.bottom));
        let moved = |(block, moves): &(Rc<Block>, Vec<Point>)| moves.iter().fold(block.area, |a, by| a.moved(*by));
        let mut taken: Vec<Area> = self.blocks.iter().map(moved).collect();
        for (detail, shows) in std::mem::take(&mut self.details) {
            let area = detail.block.area;
            let spot = free_spot(area, shows, &taken, room)?;
            let by = spot - Point::new(area.left, area.bottom);
            taken.push(area.moved(by));
            self.area = self.area.with(area.moved(by));
            self.detailed += detail.sizes;
            self.blocks.push((detail.block.clone(), vec![by]));
        }
        Some(self)
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

/// Where views stand in their room to leave space for details: in the middle, at a side, in a corner.
const STANDS: [(f64, f64); 9] =
    [(0.5, 0.5), (0.0, 0.5), (0.5, 1.0), (0.0, 1.0), (1.0, 0.5), (0.5, 0.0), (1.0, 1.0), (0.0, 0.0), (1.0, 0.0)];
/// Distance of the spots that are tried for a detail, mm.
const PITCH: f64 = 3.0;

/// The lower left corner of a free spot for an area, the nearest to what it shows.
fn free_spot(area: Area, shows: Point, taken: &[Area], room: Area) -> Option<Point> {
    let (w, h) = (area.width(), area.height());
    let steps = |free: f64| (0..=(free / PITCH).floor().max(-1.0) as i64).map(|i| i as f64 * PITCH);
    let spots = steps(room.width() - w).flat_map(|x| steps(room.height() - h).map(move |y| (x, y)));
    let spot = spots.map(|(x, y)| Area::new(room.left + x, room.bottom + y, w, h));
    let free = spot.filter(|a| !taken.iter().any(|t| t.grown(BETWEEN * 0.75).overlaps(*a)));
    let near = |a: &Area| a.centre().distance(shows);
    free.min_by(|a, b| near(a).total_cmp(&near(b))).map(|a| Point::new(a.left, a.bottom))
}

/// A view has at most so many details on a sheet.
const DETAILS: usize = 3;

/// A view drawn at every scale at which somebody asked for it, with as many of its details.
struct Sized {
    view: View,
    bare: Area,
    /// How many letters of details the views before it may need.
    passed: usize,
    details: Vec<OnceCell<Vec<Detail>>>,
    drawn: Vec<[OnceCell<InScale>; DETAILS + 1]>,
}

impl Sized {
    fn new(view: View, passed: usize) -> Self {
        let drawn = Scale::SERIES.iter().map(|_| Default::default()).collect();
        let details = Scale::SERIES.iter().map(|_| OnceCell::new()).collect();
        Self { bare: bare_area(&view), view, passed, details, drawn }
    }

    /// Its details at a scale of the series.
    fn details(&self, scale: usize) -> &[Detail] {
        let (Some(cell), Some(factor)) = (self.details.get(scale), Scale::SERIES.get(scale)) else { return &[] };
        cell.get_or_init(|| details(&self.view, *factor, self.passed))
    }

    /// Drawn at a scale of the series with at most so many details.
    fn at(&self, scale: usize, most: usize, labels: &Labels) -> Option<Set> {
        let factor = Scale::SERIES.get(scale)?.factor();
        let wanted = self.details(scale);
        let wanted = wanted.get(..most.min(DETAILS)).unwrap_or(wanted);
        let drawn = || {
            let (mut kept, mut details) = (Vec::new(), Vec::new());
            for detail in wanted {
                let block = titled(draw_detail(&self.view, detail, labels), &detail.title());
                if block.left_out.is_empty() {
                    let shows = Point::new(detail.centre.x().as_mm(), detail.centre.y().as_mm()) * factor;
                    details.push((Rc::new(Enlarged { block: Rc::new(block), sizes: detail.dimensions.len() }), shows));
                    kept.push(detail.clone());
                }
            }
            let view = draw_with(&self.view, factor, labels, &kept);
            InScale { block: Rc::new(titled(view, &self.view.title)), details }
        };
        let cell = self.drawn.get(scale)?.get(wanted.len())?;
        Some(Set::of(cell.get_or_init(drawn)))
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
        let settled =
            |scale: usize, most: usize| self.ways(chosen, scale, most).into_iter().find_map(|set| set.settled(room));
        let may_fit =
            |f: f64| views.iter().all(|v| v.bare.width() * f < room.width() && v.bare.height() * f < room.height());
        let mut best: Option<(Scale, Set, usize)> = None;
        for (i, scale) in Scale::SERIES.iter().enumerate().filter(|(_, s)| may_fit(s.factor())) {
            // A scale that is much smaller is no gain for the sake of one leader.
            let far = best.as_ref().is_some_and(|(b, ..)| b.factor() > 2.6 * scale.factor());
            if shortest * scale.factor() < LEGIBLE || far {
                break;
            }
            // What is larger comes before what has details.
            let details = views.iter().map(|v| v.details(i).len()).fold(0, usize::max).min(DETAILS);
            let Some(set) = (0..=details).rev().find_map(|most| settled(i, most)) else { continue };
            let left_out = set.left_out().count();
            if best.as_ref().is_none_or(|(.., least)| left_out < *least) {
                best = Some((*scale, set, left_out));
            }
            if left_out == 0 {
                break;
            }
        }
        best.map(|(scale, set, _)| {
            let left_out = set.left_out().cloned().collect();
            Arranged { scale, smallest: shortest * scale.factor(), left_out, detailed: set.detailed, set }
        })
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

    /// All ways of setting groups of views at one scale, each view with at most so many details.
    fn ways(&self, groups: &[Group], scale: usize, most: usize) -> Vec<Set> {
        let all: Option<Vec<Vec<Set>>> = groups.iter().map(|g| self.set(g, scale, most)).collect();
        let Some(mut all) = all else { return Vec::new() };
        if let [only] = all.as_mut_slice() {
            return std::mem::take(only);
        }
        let first: Vec<Set> = all.iter().filter_map(|a| a.first().cloned()).collect();
        let bare: Vec<Area> = groups.iter().filter_map(|g| Some(g.views().first()?.bare)).collect();
        let mut ways = grids(&first, &bare);
        if let Some(Group::Two(two)) = groups.first()
            && let (Some(front), Some(above)) =
                (two.front.at(scale, most, self.labels), two.above.at(scale, most, self.labels))
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
    fn set(&self, group: &Group, scale: usize, most: usize) -> Option<Vec<Set>> {
        let at = |view: &Sized| view.at(scale, most, self.labels);
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
    let mut passed = 0;
    let mut sized = |view: &View| {
        let sized = Sized::new(view.clone(), passed);
        passed += detail::most(view);
        sized
    };
    let mut views = views.iter().peekable();
    while let Some(view) = views.next() {
        let plan = views.next_if(|next| view.stands == Stands::Front && matches!(next.stands, Stands::Above { .. }));
        groups.push(match plan {
            Some(plan) => {
                let (front, above) = (sized(view), sized(plan));
                // Seen from the side on which it is set: the upper face is away from the plan in first angle.
                let lying = || Sized::new(view.clone().lying(projection == Projection::First), front.passed);
                let lying = (plan.stands == Stands::Above { round: true }).then(lying);
                Group::Two(Box::new(Pair { front, above, lying }))
            }
            None => Group::One(Box::new(sized(view))),
        });
    }
    groups
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
    let mut joined = Set { blocks: Vec::new(), area: Area::EMPTY, details: Vec::new(), detailed: 0 };
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
        joined.details.extend(set.details);
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
