//! All dimensions of a view, placed by rule: nothing overlaps, nothing lies on the part.

use crate::drawing::Side;
use crate::page::area::{Area, Point};
use crate::page::label::Label;
use crate::page::leader::{Corner, Ground, Leader, draw_corner, draw_leader};
use crate::page::spans::{Span, draw_side, narrow};
use crate::page::{Mark, Path, Shade};

/// Length of an arrow head, mm; three times its width (ISO 129-1).
pub const HEAD: f64 = 3.5;

/// An arrow: its tip, and the far end of the straight line that carries it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Arrow {
    /// The point.
    pub tip: Point,
    /// End of the line behind it.
    pub from: Point,
}

impl Arrow {
    /// The filled head.
    pub fn head(&self) -> Path {
        let back = self.tip.direction(self.from);
        let heel = self.tip.along(back, HEAD);
        Path::polygon(&[self.tip, heel.along(back + 90.0, HEAD / 6.0), heel.along(back - 90.0, HEAD / 6.0)])
    }
}

/// Dimensions as drawn, with what is needed to keep others clear of them.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Annotation {
    /// What is drawn.
    pub marks: Vec<Mark>,
    /// The rectangle of each label.
    pub labels: Vec<Area>,
    /// The arrows.
    pub arrows: Vec<Arrow>,
    /// Straight lines (arcs as chords).
    pub lines: Vec<(Point, Point)>,
    /// Names of the dimensions and notes that found no room.
    pub left_out: Vec<String>,
}

impl Annotation {
    /// Adds a narrow line.
    pub fn line(&mut self, from: Point, to: Point) {
        self.marks.push(narrow(from, to));
        self.lines.push((from, to));
    }

    /// Adds an arrow head; the line is drawn apart.
    pub fn arrow(&mut self, arrow: Arrow) {
        self.marks.push(Mark::Fill(arrow.head(), Shade::Black));
        self.arrows.push(arrow);
    }

    /// Adds the triangle of a datum in place of a head, its base on the surface.
    pub fn triangle(&mut self, arrow: Arrow) {
        let away = arrow.tip.direction(arrow.from);
        let side = |turn: f64| arrow.tip.along(away + turn, HEAD / 2.0);
        let corners = [side(90.0), side(-90.0), arrow.tip.along(away, HEAD * 0.8)];
        self.marks.push(Mark::Fill(Path::polygon(&corners), Shade::Black));
        self.arrows.push(arrow);
    }

    /// Adds a label with its lower left corner (in the label's own frame) at a point.
    pub fn label(&mut self, label: &Label, corner: Point, turn: f64) {
        // A line ends at the side of boxes, which is no line through them.
        let within = if label.is_boxed() { -0.05 } else { 0.0 };
        self.labels.push(label.area(corner, turn).grown(within));
        self.marks.extend(label.marks(corner, turn));
    }

    fn append(&mut self, mut other: Self) {
        self.marks.append(&mut other.marks);
        self.labels.append(&mut other.labels);
        self.arrows.append(&mut other.arrows);
        self.lines.append(&mut other.lines);
        self.left_out.append(&mut other.left_out);
    }

    fn lines_with(&self, more: &[(Point, Point)]) -> Vec<(Point, Point)> {
        self.lines.iter().chain(more).copied().collect()
    }

    fn heads(&self) -> Vec<Area> {
        self.arrows.iter().map(|a| a.head().area()).collect()
    }

    fn taken(&self) -> Vec<Area> {
        self.labels.iter().copied().chain(self.heads()).collect()
    }
}

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
}

/// Places all dimensions of a view.
pub fn place(scene: &Scene) -> Annotation {
    let edges: Vec<(Point, Point)> = scene.outline.iter().flat_map(|p| p.chords(6.0)).collect();
    let edge = Area::around(edges.iter().flat_map(|(a, b)| [*a, *b]));
    let mut out = Annotation::default();
    let noted = place_corners(scene, &edges, &mut out);
    let arcs: Vec<Area> = out.lines.iter().flat_map(|(a, b)| boxes_along(*a, *b)).collect();
    for side in Side::ALL {
        let spans: Vec<&Span> = scene.spans.iter().filter(|s| s.side == side).collect();
        let taken: Vec<Area> = out.taken().into_iter().chain(arcs.iter().copied()).collect();
        let drawn = draw_side(side, &spans, edge, &taken);
        out.append(drawn);
    }
    let before = out.lines.len();
    for leader in noted.iter().chain(&scene.leaders) {
        let (labels, heads, lines) = (out.labels.clone(), out.heads(), out.lines_with(&scene.lines));
        let leaders = out.lines.get(before..).unwrap_or_default().to_vec();
        let ground = Ground::new(&edges, &lines, &labels, &heads).with_leaders(&leaders);
        if !draw_leader(leader, &ground, &mut out) {
            out.left_out.push(leader.name.clone());
        }
    }
    out
}

/// Angles come first, clear of every extension line that will be drawn; gives back the notes still to be placed.
fn place_corners(scene: &Scene, edges: &[(Point, Point)], out: &mut Annotation) -> Vec<Leader> {
    let rays: Vec<(Point, Point)> = scene.spans.iter().flat_map(Span::extension_rays).collect();
    let mut noted = Vec::new();
    for corner in &scene.corners {
        let (labels, heads) = (out.labels.clone(), out.heads());
        let lines: Vec<(Point, Point)> = rays.iter().chain(&out.lines_with(&scene.lines)).copied().collect();
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
