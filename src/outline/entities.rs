//! The entities of a drawing as curves in the plane, blocks taken apart.

use std::collections::BTreeMap;
use std::f64::consts::TAU;

use dxf::entities::{Entity, EntityType, Insert, LwPolyline, Polyline};

use super::affine::Affine;
use super::curve::{Curve, Lowered, MOST_EDGES, Spline};
use super::scan::{Refusal, Scanned};
use crate::shape::{Point, Segment};
use crate::units::Angle;

/// How deep blocks may stand in blocks.
const DEEPEST: usize = 24;
/// Most edges and blocks placed that a drawing may come to.
const MOST_PIECES: usize = 200_000;
/// So far apart in height the ends of a line may lie and still be in a plane, in units of the file.
const LEVEL: f64 = 1e-6;

/// What a piece was drawn as.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Drawn {
    /// Lines and arcs.
    Plain,
    /// An ellipse, or a circle in a block that is scaled unlike in x and y.
    Ellipse,
    /// A spline.
    Spline,
}

/// Edges end to end that were one thing in the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// The edges, with what was made of them.
    pub lowered: Lowered,
    /// Number of its layer.
    pub layer: usize,
    /// Line of the file.
    pub line: usize,
    /// What it was.
    pub drawn: Drawn,
}

/// A thing that is no outline, or an outline that cannot be taken.
#[derive(Clone, Debug, PartialEq)]
pub struct Beside {
    /// What the drawing calls it, or what is wrong with it.
    pub what: What,
    /// Number of its layer.
    pub layer: usize,
    /// Where.
    pub at: Point,
}

/// Why something is no outline.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// It is of another kind, by its word in the file.
    Other(String),
    /// Placed by a block of that name.
    Block(String),
    /// It does not lie in the plane.
    OffPlane,
    /// A spline of which only points on it are known.
    FitPoints,
}

/// Everything in a drawing, in mm.
#[derive(Clone, Debug, Default)]
pub struct Taken {
    /// Outlines.
    pub pieces: Vec<Piece>,
    /// All else.
    pub beside: Vec<Beside>,
}

struct Take<'a> {
    scanned: &'a Scanned,
    blocks: BTreeMap<usize, &'a dxf::Block>,
    out: Taken,
    placed: usize,
    /// Blocks that are open, outermost first.
    open: Vec<usize>,
    /// Line of the outermost insert.
    from: usize,
}

/// Reads the copy and takes its entities, scaled.
///
/// # Errors
/// The first thing for which it is not read.
pub fn take(scanned: &Scanned, scale: f64) -> Result<Taken, Refusal> {
    let unread = |what: String| Refusal { line: None, what };
    let drawing = dxf::Drawing::load(&mut scanned.copy.as_bytes());
    let drawing = drawing.map_err(|error| unread(format!("cannot be read: {error}")))?;
    let read = drawing.entities().count();
    if read != scanned.entities {
        return Err(unread(format!("cannot be read whole: {read} of {} entities", scanned.entities)));
    }
    let blocks = drawing.blocks().filter_map(|b| Some((b.name.parse().ok()?, b))).collect();
    let mut take = Take { scanned, blocks, out: Taken::default(), placed: 0, open: Vec::new(), from: 0 };
    for entity in drawing.entities() {
        take.entity(entity, &Affine::scale(scale), None)?;
    }
    Ok(take.out)
}

fn flat(p: &dxf::Point) -> Point {
    Point::mm(p.x, p.y)
}

/// The plane of an entity: seen from above, from below, or neither.
fn plane(normal: &dxf::Vector) -> Option<Affine> {
    let level = normal.x.abs().max(normal.y.abs()) <= 1e-9 * normal.z.abs();
    (level && normal.z != 0.0).then(|| if normal.z > 0.0 { Affine::scale(1.0) } else { Affine::seen_from_below() })
}

/// A curve as it was drawn, in which plane; or why it cannot be taken.
enum Found {
    Curve(Curve, Drawn, Affine),
    Not(What, Point),
}

impl Take<'_> {
    fn entity(&mut self, entity: &Entity, placed: &Affine, layer: Option<usize>) -> Result<(), Refusal> {
        let line = usize::try_from(entity.common.handle.0).unwrap_or(0);
        if self.open.is_empty() {
            self.from = line;
        }
        let own = entity.common.layer.parse::<usize>().unwrap_or(0);
        // What lies on layer 0 of a block goes where the block is placed.
        let layer = layer.filter(|_| own == 0).unwrap_or(own);
        if let EntityType::Insert(insert) = &entity.specific {
            return self.insert(insert, placed, layer, line);
        }
        match found(entity, line)? {
            Some(Found::Curve(curve, drawn, plane)) => {
                let lowered = curve.lowered(&placed.after(&plane));
                self.count(lowered.edges.len().max(1))?;
                if lowered.off.is_some() && lowered.edges.len() > MOST_EDGES {
                    return Err(Refusal::at(line, format!("a curve that comes to more than {MOST_EDGES} arcs")));
                }
                if !within_reach(&lowered.edges) {
                    return Err(Refusal::at(line, "reaches further than a kilometre from the origin, or nowhere"));
                }
                let drawn = if drawn == Drawn::Plain && lowered.off.is_some() { Drawn::Ellipse } else { drawn };
                self.out.pieces.push(Piece { lowered, layer, line, drawn });
            }
            Some(Found::Not(what, at)) => {
                self.count(1)?;
                self.out.beside.push(Beside { what, layer, at: placed.point(at) });
            }
            None => {
                if let EntityType::ModelPoint(p) = &entity.specific {
                    self.count(1)?;
                    let found = self.scanned.others.binary_search_by_key(&line, |o| o.line);
                    let word = found.ok().and_then(|i| self.scanned.others.get(i)).map_or("POINT", |o| &o.word);
                    let at = placed.point(flat(&p.location));
                    self.out.beside.push(Beside { what: What::Other(word.into()), layer, at });
                }
            }
        }
        Ok(())
    }

    fn count(&mut self, more: usize) -> Result<(), Refusal> {
        self.placed += more;
        if self.placed > MOST_PIECES {
            let what = format!("comes to more than {MOST_PIECES} edges, blocks taken apart; a part has far fewer");
            return Err(Refusal::at(self.from, what));
        }
        Ok(())
    }

    fn insert(&mut self, insert: &Insert, placed: &Affine, layer: usize, line: usize) -> Result<(), Refusal> {
        let number: usize = insert.name.parse().unwrap_or(usize::MAX);
        let name = self.scanned.blocks.get(number).cloned().unwrap_or_default();
        let Some(block) = self.blocks.get(&number).copied() else {
            return Err(Refusal::at(line, format!("places the block `{name}`, and there is none of that name")));
        };
        if self.open.contains(&number) {
            return Err(Refusal::at(line, format!("the block `{name}` stands within itself")));
        }
        if self.open.len() >= DEEPEST {
            return Err(Refusal::at(line, format!("blocks within blocks, more than {DEEPEST} deep")));
        }
        let plane = plane(&insert.extrusion_direction);
        if self.open.is_empty() {
            let at = placed.after(&plane.unwrap_or(Affine::scale(1.0))).point(flat(&insert.location));
            let what = if plane.is_some() { What::Block(name.clone()) } else { What::OffPlane };
            self.out.beside.push(Beside { what, layer, at });
        }
        let Some(plane) = plane else { return Ok(()) };
        let turned = Affine::turn(Angle::degrees(insert.rotation));
        let scaled = Affine::scales(insert.x_scale_factor, insert.y_scale_factor);
        if scaled.growth() == 0.0 {
            return Err(Refusal::at(line, format!("places the block `{name}` scaled to nothing")));
        }
        let home = Affine::shift(flat(&block.base_point).times(-1.0));
        self.open.push(number);
        for (row, column) in cells(insert) {
            self.count(1)?;
            let cell = Point::mm(column * insert.column_spacing, row * insert.row_spacing);
            let there = Affine::shift(flat(&insert.location)).after(&turned).after(&Affine::shift(cell));
            let whole = placed.after(&plane).after(&there).after(&scaled).after(&home);
            for entity in &block.entities {
                self.entity(entity, &whole, Some(layer))?;
            }
        }
        self.open.pop();
        Ok(())
    }
}

/// Rows and columns of an array of blocks; one where none is stated.
fn cells(insert: &Insert) -> impl Iterator<Item = (f64, f64)> {
    let (rows, columns) = (insert.row_count.max(1), insert.column_count.max(1));
    (0..rows).flat_map(move |r| (0..columns).map(move |c| (f64::from(r), f64::from(c))))
}

fn found(entity: &Entity, line: usize) -> Result<Option<Found>, Refusal> {
    let straight = Affine::scale(1.0);
    let curve = |curve, drawn, plane| Ok(Some(Found::Curve(curve, drawn, plane)));
    let off = |at: &dxf::Point| Ok(Some(Found::Not(What::OffPlane, flat(at))));
    match &entity.specific {
        EntityType::Line(l) if (l.p1.z - l.p2.z).abs() > LEVEL => off(&l.p1),
        EntityType::Line(l) => {
            curve(Curve::Chain(vec![(flat(&l.p1), 0.0), (flat(&l.p2), 0.0)], false), Drawn::Plain, straight)
        }
        EntityType::Arc(a) => match plane(&a.normal) {
            None => off(&a.center),
            Some(plane) => {
                let (from, to) = (Angle::degrees(a.start_angle).as_radians(), Angle::degrees(a.end_angle).as_radians());
                let sweep = (to - from).rem_euclid(TAU);
                let sweep = if sweep < 1e-12 { TAU } else { sweep };
                curve(circle(flat(&a.center), a.radius, from, from + sweep), Drawn::Plain, plane)
            }
        },
        EntityType::Circle(c) => match plane(&c.normal) {
            None => off(&c.center),
            Some(plane) => curve(circle(flat(&c.center), c.radius, 0.0, TAU), Drawn::Plain, plane),
        },
        EntityType::Ellipse(e) => {
            let Some(plane) = plane(&e.normal) else { return off(&e.center) };
            let u = Point::mm(e.major_axis.x, e.major_axis.y);
            let v = Point::mm(-u.y, u.x).times(e.minor_axis_ratio * plane.growth());
            let sweep = e.end_parameter - e.start_parameter;
            let sweep = if (sweep.abs() - TAU).abs() < 1e-9 { TAU } else { sweep.rem_euclid(TAU) };
            let (from, centre) = (e.start_parameter, flat(&e.center));
            curve(Curve::Ellipse { centre, u, v, from, to: from + sweep }, Drawn::Ellipse, straight)
        }
        EntityType::Spline(s) => spline(s, line).map(Some),
        EntityType::LwPolyline(p) => match plane(&p.extrusion_direction) {
            None => off(&dxf::Point::origin()),
            Some(plane) => curve(light(p), Drawn::Plain, plane),
        },
        EntityType::Polyline(p) => match (plane(&p.normal), p.flags & (16 | 64)) {
            (Some(plane), 0) if level(p) => {
                curve(heavy(p), Drawn::Plain, if p.flags & 8 == 0 { plane } else { straight })
            }
            _ => off(&p.vertices().next().map_or(dxf::Point::origin(), |v| v.location.clone())),
        },
        _ => Ok(None),
    }
}

fn circle(centre: Point, radius: f64, from: f64, to: f64) -> Curve {
    Curve::Ellipse { centre, u: Point::mm(radius.abs(), 0.0), v: Point::mm(0.0, radius.abs()), from, to }
}

fn light(p: &LwPolyline) -> Curve {
    Curve::Chain(p.vertices.iter().map(|v| (Point::mm(v.x, v.y), v.bulge)).collect(), p.flags & 1 != 0)
}

/// Corners that only steer a curve through the others are not on it.
fn heavy(p: &Polyline) -> Curve {
    let on_it = p.vertices().filter(|v| v.flags & 16 == 0);
    Curve::Chain(on_it.map(|v| (flat(&v.location), v.bulge)).collect(), p.flags & 1 != 0)
}

fn level(p: &Polyline) -> bool {
    let heights = || p.vertices().map(|v| v.location.z);
    heights().fold(f64::MIN, f64::max) - heights().fold(f64::MAX, f64::min) <= LEVEL
}

fn spline(s: &dxf::entities::Spline, line: usize) -> Result<Found, Refusal> {
    let all = || s.control_points.iter().chain(&s.fit_points);
    let heights = || all().map(|p| p.z);
    let first = all().next().map_or(Point::ORIGIN, flat);
    if heights().fold(f64::MIN, f64::max) - heights().fold(f64::MAX, f64::min) > LEVEL {
        return Ok(Found::Not(What::OffPlane, first));
    }
    if s.control_points.is_empty() {
        return Ok(Found::Not(What::FitPoints, first));
    }
    let points: Vec<Point> = s.control_points.iter().map(flat).collect();
    let degree = usize::try_from(s.degree_of_curve).unwrap_or(0);
    let spline = Spline::new(degree, s.knot_values.clone(), &points, &s.weight_values);
    let spline = spline.map_err(|what| Refusal::at(line, what))?;
    Ok(Found::Curve(Curve::Spline(spline), Drawn::Spline, Affine::scale(1.0)))
}

/// Whether every corner of the edges is a number within a kilometre.
fn within_reach(edges: &[Segment]) -> bool {
    edges.iter().all(|s| s.to.is_finite() && s.from.is_finite() && s.to.x.abs().max(s.to.y.abs()) < 1e6)
}
