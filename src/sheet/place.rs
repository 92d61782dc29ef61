//! All dimensions of a view, placed by rule: nothing overlaps, nothing lies on the part.

use crate::record::drawing::Side;
use crate::sheet::Path;
use crate::sheet::annotation::Annotation;
use crate::sheet::area::{Area, Point};
use crate::sheet::leader::{Corner, Ground, Leader, draw_corner, draw_leader};
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
