//! The clamp as geometry: seen along the tube, its slit upwards, the tube's axis at the origin; its screws across.

use crate::formulas::clamp::Parted;
use crate::shape::{Circle, Contour, Cutting, Flat, Path, Point, ShapeError, Turn};
use crate::units::{Angle, Length};

use super::read::{Liner, Spec};

/// Metal left on the diameter of the bore in a blank, to be bored when it is slit. Source: common practice, no source.
pub const LEFT_IN_BORE: Length = Length::mm(2.0);

/// Measures of the outline in millimetres.
struct Sizes {
    bore: f64,
    ring: f64,
    gap: f64,
    /// Outer face of the ears.
    face: f64,
    top: f64,
}

impl Sizes {
    fn of(s: &Spec) -> Self {
        let half = |l: Length| l.rounded().as_mm() / 2.0;
        let gap = half(s.gap.value);
        Self {
            bore: half(s.bore.diameter),
            ring: half(s.outside.value),
            gap,
            face: gap + s.ear_thickness.value.rounded().as_mm(),
            top: s.ear_height.value.rounded().as_mm(),
        }
    }

    /// Where a circle of that radius is so far to the side.
    fn at(r: f64, x: f64) -> f64 {
        (r * r - x * x).max(0.0).sqrt()
    }
}

/// The pieces of the clamp, holes of the screws in them: the ring, or a half; where one half is tapped, both.
pub fn pieces(s: &Spec) -> Result<Vec<(Option<&'static str>, Flat)>, ShapeError> {
    match (s.parted, s.screw.tapped) {
        (Parted::Once, _) => {
            Ok(vec![(None, drilled(s, ring(s)?, &[(1.0, s.screw.clearance), (-1.0, s.screw.far())], &[1.0])?)])
        }
        (Parted::InHalves, _) => {
            let with = |hole| drilled(s, half(s)?, &[(1.0, hole)], &[1.0, -1.0]);
            Ok(vec![(Some("near-half"), with(s.screw.clearance)?), (Some("far-half"), with(s.screw.far())?)])
        }
    }
}

/// Holes in the ears on those sides of the slit, in the ears above or below the tube.
fn drilled(s: &Spec, outline: Contour, sides: &[(f64, Length)], ears: &[f64]) -> Result<Flat, ShapeError> {
    let z = Sizes::of(s);
    let mut flat = Flat::new(outline, s.width.value.rounded(), Vec::new())?;
    let middle = (z.gap + z.face) / 2.0;
    for height in heights(s) {
        for ear in ears {
            for (side, hole) in sides {
                let at = Point::new(Length::mm(side * middle), s.distance() * *ear);
                flat = flat.with_cross_hole(at, Angle::ZERO, height, *hole)?;
            }
        }
    }
    Ok(flat)
}

/// Heights of the screws along the tube, evenly over the width.
pub fn heights(s: &Spec) -> impl Iterator<Item = Length> + use<> {
    let (n, width) = (s.screw.number(), s.width.value.rounded());
    (0..n).map(move |i| (width * ((f64::from(i) + 0.5) / f64::from(n))).rounded())
}

fn mm(x: f64, y: f64) -> Point {
    Point::new(Length::mm(x), Length::mm(y))
}

/// The slit ring with its ears.
fn ring(s: &Spec) -> Result<Contour, ShapeError> {
    let z = Sizes::of(s);
    let (root, lip) = (Sizes::at(z.ring, z.face), Sizes::at(z.bore, z.gap));
    let o = Point::ORIGIN;
    Path::start(mm(z.face, z.top))
        .line_to(mm(z.gap, z.top))
        .line_to(mm(z.gap, lip))
        .arc_to(mm(0.0, -z.bore), o, Turn::Clockwise)
        .arc_to(mm(-z.gap, lip), o, Turn::Clockwise)
        .line_to(mm(-z.gap, z.top))
        .line_to(mm(-z.face, z.top))
        .line_to(mm(-z.face, root))
        .arc_to(mm(0.0, -z.ring), o, Turn::Anticlockwise)
        .arc_to(mm(z.face, root), o, Turn::Anticlockwise)
        .close()
}

/// The right half of two.
fn half(s: &Spec) -> Result<Contour, ShapeError> {
    let z = Sizes::of(s);
    let (root, lip) = (Sizes::at(z.ring, z.face), Sizes::at(z.bore, z.gap));
    let o = Point::ORIGIN;
    Path::start(mm(z.face, z.top))
        .line_to(mm(z.gap, z.top))
        .line_to(mm(z.gap, lip))
        .arc_to(mm(z.gap, -lip), o, Turn::Clockwise)
        .line_to(mm(z.gap, -z.top))
        .line_to(mm(z.face, -z.top))
        .line_to(mm(z.face, -root))
        .arc_to(mm(z.face, root), o, Turn::Anticlockwise)
        .close()
}

/// The blank as it is cut out: in one piece, its bore under size.
pub fn blank(s: &Spec) -> Result<Cutting, ShapeError> {
    let z = Sizes::of(s);
    let root = Sizes::at(z.ring, z.face);
    let o = Point::ORIGIN;
    let path = Path::start(mm(z.face, z.top)).line_to(mm(-z.face, z.top)).line_to(mm(-z.face, root));
    let outline = match s.parted {
        Parted::Once => path
            .arc_to(mm(0.0, -z.ring), o, Turn::Anticlockwise)
            .arc_to(mm(z.face, root), o, Turn::Anticlockwise)
            .close()?,
        Parted::InHalves => path
            .arc_to(mm(-z.face, -root), o, Turn::Anticlockwise)
            .line_to(mm(-z.face, -z.top))
            .line_to(mm(z.face, -z.top))
            .line_to(mm(z.face, -root))
            .arc_to(mm(z.face, root), o, Turn::Anticlockwise)
            .close()?,
    };
    let hole = Contour::circle(Circle::new(o, s.bore.diameter.rounded() - LEFT_IN_BORE)?)?;
    Cutting::new(outline, vec![hole], Vec::new())
}

/// The liner: a slit ring.
pub fn liner(s: &Spec, liner: &Liner) -> Result<Flat, ShapeError> {
    let (bore, outside) = liner_sizes(s, liner);
    let (r, big) = (bore.as_mm() / 2.0, outside.as_mm() / 2.0);
    let gap = Sizes::of(s).gap;
    let o = Point::ORIGIN;
    let outline = Path::start(mm(gap, Sizes::at(big, gap)))
        .line_to(mm(gap, Sizes::at(r, gap)))
        .arc_to(mm(0.0, -r), o, Turn::Clockwise)
        .arc_to(mm(-gap, Sizes::at(r, gap)), o, Turn::Clockwise)
        .line_to(mm(-gap, Sizes::at(big, gap)))
        .arc_to(mm(0.0, -big), o, Turn::Anticlockwise)
        .arc_to(mm(gap, Sizes::at(big, gap)), o, Turn::Anticlockwise)
        .close()?;
    Flat::new(outline, s.width.value.rounded(), Vec::new())
}

/// Bore and outside of the liner, before it is slit: over the tube as large as that may be.
pub fn liner_sizes(s: &Spec, liner: &Liner) -> (Length, Length) {
    let (_, greatest) = s.tube.limits();
    let bore = greatest.rounded();
    (bore, (bore + s.liner_wall(liner) * 2.0).rounded())
}
