//! All dimensions of a view, placed by rule: nothing overlaps, nothing lies on the part.

use crate::record::drawing::Side;
use crate::sheet::Path;
use crate::sheet::annotation::Annotation;
use crate::sheet::area::{Area, Point};
use crate::sheet::label::{GAP, Label};
use crate::sheet::leader::{Corner, End, Ground, Leader, Way, best_way, draw_corner};
use crate::sheet::spans::{Span, draw_side};

/// A view on paper and the dimensions that it shall have.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Scene {
    /// Edges of the view as drawn.
    pub outline: Vec<Path>,
    /// Other lines of the view: edges behind the cut, axes.
    pub lines: Vec<(Point, Point)>,
    /// Linear dimensions.
    pub spans: Vec<Span>,
    /// Angles.
    pub corners: Vec<Corner>,
    /// Leaders.
    pub leaders: Vec<Leader>,
    /// Letters beside the circles of details.
    pub letters: Vec<Letter>,
}

/// The letter of a detail, beside the circle about its place.
#[derive(Clone, PartialEq, Debug)]
pub struct Letter {
    /// Middle of the circle.
    pub centre: Point,
    /// Radius of the circle.
    pub radius: f64,
    /// The letter.
    pub letter: char,
}

impl Letter {
    fn label(&self) -> Label {
        Label::new(&self.letter.to_string(), "")
    }

    /// Lower left corners close to the circle, those at its upper right first.
    fn places(&self) -> impl Iterator<Item = Point> {
        let label = self.label();
        let half = Point::new(label.width() / 2.0, label.height() / 2.0);
        let (centre, radius) = (self.centre, self.radius);
        [45.0, 135.0, -45.0, -135.0, 0.0, 180.0, 90.0, -90.0].into_iter().flat_map(move |direction| {
            let unit = Point::unit(direction);
            let out = radius + GAP + 0.2 + half.x * unit.x.abs() + half.y * unit.y.abs();
            [0.0, 2.0, 4.0].map(|more| centre.towards(unit, out + more) - half)
        })
    }

    /// Where no place close to the circle is free it stands on a line to it.
    fn leader(&self) -> Leader {
        let (at, name) = (self.centre, format!("detail {}", self.letter));
        Leader { at, others: Vec::new(), radius: self.radius, end: End::Bare, within: None, label: self.label(), name }
    }
}

/// Places all dimensions of a view.
pub fn place(scene: &Scene) -> Annotation {
    let edges: Vec<(Point, Point)> = scene.outline.iter().flat_map(|p| p.chords(6.0)).collect();
    let edge = Area::around(edges.iter().flat_map(|(a, b)| [*a, *b]));
    let mut out = Annotation::default();
    let noted = place_corners(scene, &edges, &mut out);
    let arcs: Vec<Area> = out.lines.iter().flat_map(|(a, b)| boxes_along(*a, *b)).collect();
    let none = |side: Side| !scene.spans.iter().any(|s| s.side == side);
    let down = none(Side::Above) && !none(Side::Below);
    for side in Side::ALL {
        let spans: Vec<&Span> = scene.spans.iter().filter(|s| s.side == side).collect();
        let taken: Vec<Area> = out.taken().into_iter().chain(arcs.iter().copied()).collect();
        let drawn = draw_side(side, &spans, edge, &taken, down && matches!(side, Side::Left | Side::Right));
        out.append(drawn);
    }
    let lettered = place_letters(scene, &edges, &mut out);
    let leaders: Vec<&Leader> = noted.iter().chain(&lettered).chain(&scene.leaders).collect();
    let mut led = Led { leaders: &leaders, ways: vec![None; leaders.len()], edges: &edges, scene, under: &out };
    led.place();
    let ways = led.ways;
    for (leader, way) in leaders.iter().zip(ways) {
        match way {
            Some(way) => way.draw(leader, &mut out),
            None => out.left_out.push(leader.name.clone()),
        }
    }
    out
}

/// Letters of details close to their circles; gives back those that want a line.
fn place_letters(scene: &Scene, edges: &[(Point, Point)], out: &mut Annotation) -> Vec<Leader> {
    let mut led = Vec::new();
    for letter in &scene.letters {
        let (label, heads, labels) = (letter.label(), out.heads(), out.labels.clone());
        let lines = [out.lines.as_slice(), &scene.lines].concat();
        let ground = Ground::new(edges, &lines, &labels, &heads);
        match letter.places().find(|corner| ground.is_free(label.area(*corner, 0.0))) {
            Some(corner) => out.label(&label, corner, 0.0),
            None => led.push(letter.leader()),
        }
    }
    led
}

/// The leaders of a view, over everything else that is said of it.
struct Led<'a> {
    leaders: &'a [&'a Leader],
    /// How each of them is drawn as yet.
    ways: Vec<Option<Way>>,
    edges: &'a [(Point, Point)],
    scene: &'a Scene,
    under: &'a Annotation,
}

/// Rounds in which leaders that cross something make room for each other.
const ROUNDS: usize = 3;

impl Led<'_> {
    /// One after the other, each where it disturbs least; then those that still cross something, or found no room, with
    /// one of the others taken off and set again after them.
    fn place(&mut self) {
        for i in 0..self.leaders.len() {
            self.set(i);
        }
        for _ in 0..ROUNDS {
            let before = self.cost();
            for i in 0..self.leaders.len() {
                if self.ways.get(i).is_some_and(|w| w.is_none_or(|w| w.is_confusing())) {
                    self.make_room(i);
                }
            }
            if self.cost() >= before {
                break;
            }
        }
    }

    /// Sets one leader anew, by itself or with each of the others set after it; the best is kept.
    fn make_room(&mut self, i: usize) {
        let mut best = (self.cost(), self.ways.clone());
        for other in 0..self.leaders.len() {
            let was = self.ways.clone();
            self.take_off(i);
            self.take_off(other);
            self.set(i);
            if other != i {
                self.set(other);
            }
            if self.cost() < best.0 - 1e-9 {
                best = (self.cost(), self.ways.clone());
            }
            self.ways = was;
        }
        self.ways = best.1;
    }

    fn take_off(&mut self, i: usize) {
        if let Some(way) = self.ways.get_mut(i) {
            *way = None;
        }
    }

    fn set(&mut self, i: usize) {
        let way = self.leaders.get(i).and_then(|leader| self.best(leader, i));
        if let Some(place) = self.ways.get_mut(i) {
            *place = way;
        }
    }

    /// What all of them cost; one left out more than any that is drawn.
    fn cost(&self) -> f64 {
        self.ways.iter().map(|w| w.map_or(LEFT_OUT, |w| w.cost())).sum()
    }

    /// The best way for one among the others as they are drawn.
    fn best(&self, leader: &Leader, i: usize) -> Option<Way> {
        let mut others = Annotation::default();
        let drawn = self.leaders.iter().zip(&self.ways).enumerate().filter(|(at, _)| *at != i);
        for (other, way) in drawn.filter_map(|(_, (other, way))| Some((other, (*way)?))) {
            way.draw(other, &mut others);
        }
        let labels = [self.under.labels.as_slice(), &others.labels].concat();
        let heads = [self.under.heads(), others.heads()].concat();
        let lines = [self.under.lines.as_slice(), &self.scene.lines, &others.lines].concat();
        let ground = Ground::new(self.edges, &lines, &labels, &heads);
        best_way(leader, &ground.with_leaders(&others.lines, &self.under.dimension_lines))
    }
}

/// What leaving a leader out counts, mm of leader.
const LEFT_OUT: f64 = 2000.0;

/// Angles come first, clear of every extension line that will be drawn; gives back the notes still to be placed.
fn place_corners(scene: &Scene, edges: &[(Point, Point)], out: &mut Annotation) -> Vec<Leader> {
    let rays: Vec<(Point, Point)> = scene.spans.iter().flat_map(Span::extension_rays).collect();
    let mut noted = Vec::new();
    for corner in &scene.corners {
        let (labels, heads) = (out.labels.clone(), out.heads());
        let lines: Vec<(Point, Point)> = rays.iter().chain(&out.lines).chain(&scene.lines).copied().collect();
        let ground = Ground::new(edges, &lines, &labels, &heads);
        noted.extend(draw_corner(corner, &ground, out));
    }
    noted
}

/// Small rectangles along a line, so that later lettering keeps off it.
fn boxes_along(a: Point, b: Point) -> Vec<Area> {
    let count = (a.distance(b) / 3.0).ceil().max(1.0) as usize;
    let at = |i: usize| a + (b - a) * (i as f64 / count as f64);
    (0..count).map(|i| Area::around([at(i), at(i + 1)]).grown(0.1)).collect()
}
