//! Random but valid parts, the same for the same seed, and named ones that a shop would know.

use setdown::shape::{Body, Bored, Circle, Contour, Flat, FlatHole, Path, Point, RadialHole, ShapeError, Turn, Turned};
use setdown::units::{Angle, Length};

/// A small generator of numbers (64-bit linear congruence, Knuth's MMIX constants), so that a seed is a part.
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        let mut dice = Self(seed ^ 0x9e37_79b9_7f4a_7c15);
        (0..4).for_each(|_| {
            dice.unit();
        });
        dice
    }
    fn unit(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }
    pub fn between(&mut self, a: f64, b: f64) -> f64 {
        a + (b - a) * self.unit()
    }
    pub fn below(&mut self, n: usize) -> usize {
        (self.unit() * n as f64) as usize
    }
}

fn mm(x: f64) -> Length {
    Length::mm(x)
}

/// Cone with foot, bore and rounded tip.
pub fn cone(base: f64, tip: f64, height: f64, foot: f64, bore: f64, tip_radius: f64) -> Result<Body, ShapeError> {
    // The tip arc touches the flank and the tip face: tangent length t = r·tan(turn/2).
    let flank = Point::mm((tip - base) / 2.0, height - foot);
    let (fx, fy) = (flank.x().as_mm(), flank.y().as_mm());
    let length = (fx * fx + fy * fy).sqrt();
    let (ux, uy) = (fx / length, fy / length);
    let turn = (-ux).acos();
    let t = tip_radius * (turn / 2.0).tan();
    let (x1, z1) = (tip / 2.0 - ux * t, height - uy * t);
    let centre = Point::mm(tip / 2.0 - t, height - tip_radius);
    let mut path = Path::start(Point::mm(bore / 2.0, 0.0)).line_to(Point::mm(base / 2.0, 0.0));
    path = path.line_or_nothing(Point::mm(base / 2.0, foot));
    path = if tip_radius > 0.0 {
        path.line_to(Point::mm(x1, z1)).arc_to(Point::mm(tip / 2.0 - t, height), centre, Turn::Anticlockwise)
    } else {
        path.line_to(Point::mm(tip / 2.0, height))
    };
    let path = path.line_or_nothing(Point::mm(bore / 2.0, height));
    Ok(Body::Turned(Turned::from_profile(path.closed_edges()?)?))
}

/// Sleeve with chamfers, an inner groove with round corners and a grease hole in the groove's lee.
pub fn sleeve(bore: f64, outside: f64, length: f64, chamfer: f64, hole: Option<f64>) -> Result<Body, ShapeError> {
    let (i, o, c) = (bore / 2.0, outside / 2.0, chamfer);
    let (g0, g1, depth) = (length * 0.7, length * 0.8, (o - i) * 0.2);
    let path = Path::start(Point::mm(i + c, 0.0))
        .line_to(Point::mm(o - c, 0.0))
        .line_to(Point::mm(o, c))
        .line_to(Point::mm(o, length - c))
        .line_to(Point::mm(o - c, length))
        .line_to(Point::mm(i + c, length))
        .line_to(Point::mm(i, length - c))
        .line_to(Point::mm(i, g1))
        .bulge_to(Point::mm(i, g0), -2.0 * depth / (g1 - g0))
        .line_to(Point::mm(i, c));
    let turned = Turned::from_profile(path.closed_edges()?)?;
    Ok(Body::Turned(match hole {
        Some(d) => turned.with_radial_hole(RadialHole::new(mm(d), mm(length * 0.4), Angle::degrees(37.0))?)?,
        None => turned,
    }))
}

/// Sleeve with chamfers and nothing else.
pub fn plain_sleeve(bore: f64, outside: f64, length: f64, chamfer: f64) -> Result<Body, ShapeError> {
    let (i, o, c) = (bore / 2.0, outside / 2.0, chamfer);
    let corners = [(o - c, 0.0), (o, c), (o, length - c), (o - c, length), (i + c, length), (i, length - c), (i, c)];
    let start = Path::start(Point::mm(i + c, 0.0));
    let path = corners.iter().fold(start, |path, (r, z)| path.line_to(Point::mm(*r, *z)));
    Ok(Body::Turned(Turned::from_profile(path.closed_edges()?)?))
}

/// Cup plate: rounded rectangle, one stepped hole, four mounting holes, one slot.
pub fn plate() -> Result<Body, ShapeError> {
    let step = |d: f64, diameter: f64| (mm(d), mm(diameter));
    let stepped = Bored::from_corners(
        Point::ORIGIN,
        &[step(0.0, 32.0), step(2.0, 32.0), step(2.0, 28.0), step(4.0, 28.0), step(4.0, 24.0), step(8.0, 24.0)],
    )?;
    let mut holes = vec![FlatHole::Bored(stepped)];
    for (x, y) in [(48.0, 28.0), (-48.0, 28.0), (-48.0, -28.0), (48.0, -28.0)] {
        holes.push(FlatHole::Bored(Bored::through(Point::mm(x, y), mm(9.0), mm(8.0))?));
    }
    let (width, length) = (mm(8.0), mm(24.0));
    holes.push(FlatHole::Slot { centre: Point::mm(0.0, 28.0), width, length, direction: Angle::degrees(10.0) });
    Ok(Body::Flat(Flat::new(Contour::rectangle(mm(120.0), mm(80.0), mm(8.0))?, mm(8.0), holes)?))
}

/// A random part, turned or flat. Dimensions are dealt until they make a valid shape.
pub fn random(seed: u64) -> Body {
    let mut dice = Dice::new(seed);
    for _ in 0..200 {
        let tried = match dice.below(7) {
            0 => random_cone(&mut dice),
            1 => random_sleeve(&mut dice),
            2 => random_ball(&mut dice),
            3 => random_shaft(&mut dice),
            _ => random_plate(&mut dice),
        };
        if let Ok(body) = tried {
            return body;
        }
    }
    panic!("no valid part from seed {seed}");
}

/// A random flat part.
pub fn random_flat(seed: u64) -> Flat {
    let mut dice = Dice::new(seed);
    for _ in 0..200 {
        if let Ok(Body::Flat(flat)) = random_plate(&mut dice) {
            return flat;
        }
    }
    panic!("no valid plate from seed {seed}");
}

fn random_cone(d: &mut Dice) -> Result<Body, ShapeError> {
    let tip = d.between(5.0, 60.0);
    let base = tip + d.between(0.5, 80.0);
    let height = d.between(3.0, 90.0);
    let bore = [0.0, d.between(1.0, tip * 0.8)][d.below(2)];
    let radius = [0.0, d.between(0.05, 0.2 * tip)][d.below(2)];
    let foot = [0.0, d.between(0.01, 0.5) * height][d.below(2)];
    cone(base, tip, height, foot, bore, radius)
}

fn random_sleeve(d: &mut Dice) -> Result<Body, ShapeError> {
    let bore = d.between(4.0, 120.0);
    let outside = bore + d.between(0.5, 40.0);
    let length = d.between(3.0, 80.0);
    let hole = [None, Some(d.between(0.3, 0.4 * length))][d.below(2)];
    if d.below(3) == 0 {
        let ring = Turned::ring(mm(bore), mm(outside), mm(length))?;
        let mut around = d.between(0.0, 360.0);
        let mut turned = ring;
        for _ in 0..1 + d.below(3) {
            let diameter = d.between(0.1, 0.85) * bore.min(length * 0.9);
            let at = d.between(0.5 * diameter, length - 0.5 * diameter);
            around += d.between(20.0, 120.0);
            let drilled =
                turned.clone().with_radial_hole(RadialHole::new(mm(diameter), mm(at), Angle::degrees(around))?);
            turned = drilled.unwrap_or(turned);
        }
        return Ok(Body::Turned(turned));
    }
    sleeve(bore, outside, length, d.between(0.05, 0.2) * (outside - bore), hole)
}

/// A ball-ended pin: a sphere's cap on a shank, or a full ball.
fn random_ball(d: &mut Dice) -> Result<Body, ShapeError> {
    let r = d.between(0.5, 50.0);
    let shank = d.between(0.0, 2.0) * r;
    let path = Path::start(Point::mm(0.0, -r - shank)).line_to(Point::mm(r, -r - shank)).line_to(Point::mm(r, -r));
    let path = path.arc_to(Point::mm(0.0, 0.0), Point::mm(0.0, -r), Turn::Anticlockwise);
    Ok(Body::Turned(Turned::from_profile(path.closed_edges()?)?))
}

/// A shaft of random steps: cylinders, cones, fillets and beads.
fn random_shaft(d: &mut Dice) -> Result<Body, ShapeError> {
    let mut z = 0.0;
    let mut path = Path::start(Point::mm(0.0, 0.0)).line_to(Point::mm(d.between(2.0, 40.0), 0.0));
    for _ in 0..2 + d.below(5) {
        let (r, step) = (d.between(2.0, 40.0), d.between(0.2, 20.0));
        z += step;
        path = match d.below(3) {
            0 => path.line_to(Point::mm(r, z)),
            1 => path.bulge_to(Point::mm(r, z), d.between(-0.4, 0.4)),
            _ => {
                let r0 = d.between(2.0, 40.0);
                path.line_to(Point::mm(r0, z - step * 0.5)).line_to(Point::mm(r0, z))
            }
        };
    }
    Ok(Body::Turned(Turned::from_profile(path.line_to(Point::mm(0.0, z)).closed_edges()?)?))
}

fn random_plate(d: &mut Dice) -> Result<Body, ShapeError> {
    let (l, w, t) = (d.between(20.0, 400.0), d.between(20.0, 250.0), d.between(0.5, 25.0));
    let outer = match d.below(4) {
        0 => Contour::circle(Circle::new(Point::mm(3.0, -2.0), mm(l.min(w)))?)?,
        1 => Contour::slot(Point::ORIGIN, mm(w.min(l) * 0.7), mm(l.max(w)), Angle::degrees(d.between(0.0, 180.0)))?,
        2 => waisted(l, w, d)?,
        _ => Contour::rectangle(mm(l), mm(w), mm([0.0, d.between(0.0, 0.5) * l.min(w)][d.below(2)]))?,
    };
    let mut holes = Vec::new();
    for _ in 0..d.below(8) {
        let centre = Point::mm(d.between(-0.45, 0.45) * l, d.between(-0.45, 0.45) * w);
        let hole = random_hole(d, centre, t, l.min(w))?;
        let mut more = holes.clone();
        more.push(hole);
        if Flat::new(outer.clone(), mm(t), more.clone()).is_ok() {
            holes = more;
        }
    }
    Ok(Body::Flat(Flat::new(outer, mm(t), holes)?))
}

/// A plate with one side drawn in by an arc.
fn waisted(l: f64, w: f64, d: &mut Dice) -> Result<Contour, ShapeError> {
    let (x, y) = (l / 2.0, w / 2.0);
    Path::start(Point::mm(-x, -y))
        .line_to(Point::mm(x, -y))
        .bulge_to(Point::mm(x, y), d.between(-0.3, 0.3))
        .line_to(Point::mm(-x, y))
        .close()
}

fn random_hole(d: &mut Dice, centre: Point, t: f64, room: f64) -> Result<FlatHole, ShapeError> {
    let wide = d.between(1.0, 0.3 * room);
    let small = wide * d.between(0.3, 0.9);
    let deep = t * d.between(0.1, 0.9);
    let corners = |c: &[(f64, f64)]| {
        let list: Vec<_> = c.iter().map(|(depth, dia)| (mm(*depth), mm(*dia))).collect();
        Bored::from_corners(centre, &list).map(FlatHole::Bored)
    };
    match d.below(8) {
        0 => corners(&[(0.0, wide), (deep, wide), (deep, small), (t, small)]),
        1 => corners(&[(0.0, wide), (t, small)]),
        2 => corners(&[(0.0, small), (t, wide)]),
        3 => corners(&[(0.0, wide), (deep, wide), (deep, 0.0)]),
        4 => corners(&[(0.0, small), (deep, small), (deep + (t - deep) * 0.5, 0.0)]),
        5 => {
            let r = (0.4 * t).min(0.4 * wide);
            let at = |x: f64, y: f64| Point::mm(x, y);
            let path =
                Path::start(at(wide / 2.0, 0.0)).arc_to(at(wide / 2.0 - r, r), at(wide / 2.0, r), Turn::Clockwise);
            Ok(FlatHole::Bored(Bored::from_profile(centre, path.line_to(at(wide / 2.0 - r, t)).open()?)?))
        }
        6 => Ok(FlatHole::Slot {
            centre,
            width: mm(small),
            length: mm(wide),
            direction: Angle::degrees(d.between(0.0, 180.0)),
        }),
        _ => {
            let (cx, cy) = (centre.x().as_mm(), centre.y().as_mm());
            let corner = |x: f64, y: f64| Point::mm(cx + x * wide / 2.0, cy + y * small / 2.0);
            let path = Path::start(corner(-1.0, -1.0)).line_to(corner(1.0, -1.0)).line_to(corner(1.0, 1.0));
            Ok(FlatHole::Cut(path.bulge_to(corner(-1.0, 1.0), d.between(-0.3, 0.5)).close()?))
        }
    }
}
