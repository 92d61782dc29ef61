//! The try-outs as solids: strips, stairs and gauges from plate, pins, plugs and rings from the lathe or the printer.

use crate::shape::{Body, Bored, Contour, Flat, FlatHole, Path, Point, ShapeError, Solid, Turned};
use crate::units::{Angle, Length};

use super::read::Ladder;

/// Metal or plastic between two rungs: three tenths of the largest, 4 mm at least. Source: common practice, no source.
fn between(largest: Length) -> Length {
    (largest * 0.3).max(Length::mm(4.0))
}

/// Height of a pin's foot, and by how much the feet grow from pin to pin: so they are told apart.
pub const FOOT: Length = Length::mm(2.0);
/// A foot is wider than its pin by so much at least.
const FOOT_OVER: Length = Length::mm(6.0);

/// A strip with one corner cut off at its small end.
pub struct Strip {
    /// Length overall.
    pub long: Length,
    /// Width overall.
    pub wide: Length,
    /// Middle of each rung.
    pub at: Vec<Point>,
    outline: Contour,
}

/// The strip for rungs that take so much room along and across it.
pub fn strip(rungs: &[Length], across: Length) -> Result<Strip, ShapeError> {
    let largest = rungs.last().copied().unwrap_or(Length::ZERO);
    let gap = between(largest);
    let pitch = largest + gap;
    let (long, wide) = ((pitch * rungs.len() as f64 + gap).rounded(), (across + gap * 2.0).rounded());
    let at = |i: usize| Point::new((gap + largest / 2.0 + pitch * i as f64).rounded(), wide / 2.0);
    let none = Length::ZERO;
    let path = Path::start(Point::ORIGIN).line_to(Point::new(long, none)).line_to(Point::new(long, wide));
    let outline = path.line_to(Point::new(gap, wide)).line_to(Point::new(none, wide - gap)).close()?;
    Ok(Strip { long, wide, at: (0..rungs.len()).map(at).collect(), outline })
}

/// A rectangle about a middle.
fn rectangle(at: Point, x: Length, y: Length) -> Result<Contour, ShapeError> {
    let corner = |i: f64, j: f64| Point::new(at.x() + x * (i / 2.0), at.y() + y * (j / 2.0));
    let path = Path::start(corner(-1.0, -1.0)).line_to(corner(1.0, -1.0));
    path.line_to(corner(1.0, 1.0)).line_to(corner(-1.0, 1.0)).close()
}

/// The strip as a solid: round holes, or slots with square ends across it.
pub fn of_strip(
    strip: &Strip,
    kind: Ladder,
    rungs: &[Length],
    length: Length,
    thickness: Length,
) -> Result<Flat, ShapeError> {
    let hole = |(at, size): (&Point, &Length)| match kind {
        Ladder::Slots => Ok(FlatHole::Cut(rectangle(*at, *size, length)?)),
        _ => Ok(FlatHole::Bored(Bored::through(*at, *size, thickness)?)),
    };
    let holes = strip.at.iter().zip(rungs).map(hole).collect::<Result<_, ShapeError>>()?;
    Flat::new(strip.outline.clone(), thickness, holes)
}

/// A stair that lies on its side: each tread so thick.
pub fn stair(rungs: &[Length], tread: Length, wide: Length) -> Result<Flat, ShapeError> {
    let long = tread * rungs.len() as f64;
    let mut path = Path::start(Point::ORIGIN).line_to(Point::new(long, Length::ZERO));
    for (i, height) in rungs.iter().enumerate().rev() {
        path =
            path.line_to(Point::new(tread * (i as f64 + 1.0), *height)).line_to(Point::new(tread * i as f64, *height));
    }
    Flat::new(path.close()?, wide, Vec::new())
}

/// By how much the corner of a gauging edge stays clear of a fillet or a burr at the foot of the cone.
pub const CLEAR: Length = Length::mm(1.5);

/// The gauge that stands beside a cone, its edge leaning by the half-angle; as wide at its foot as it is high.
pub fn edge(half_angle: Angle, height: Length, thickness: Length) -> Result<Flat, ShapeError> {
    let leans = |y: Length| Point::new(-y * half_angle.tan(), y);
    let path = Path::start(Point::new(CLEAR, Length::ZERO)).line_to(Point::new(height, Length::ZERO));
    let path = path.line_to(Point::new(height, height)).line_to(leans(height)).line_to(leans(CLEAR));
    Flat::new(path.close()?, thickness, Vec::new())
}

/// Length of the gauging edge along the flank.
pub fn edge_length(half_angle: Angle, height: Length) -> Length {
    (height - CLEAR) / half_angle.cos()
}

/// A pin; printed it stands on a foot, wider from pin to pin.
pub fn pin(diameter: Length, length: Length, foot: Option<usize>) -> Result<Turned, ShapeError> {
    let (r, none) = (diameter / 2.0, Length::ZERO);
    let at = Point::new;
    match foot {
        None => Turned::from_corners(&[at(none, none), at(r, none), at(r, length), at(none, length)]),
        Some(index) => {
            let f = r + FOOT_OVER / 2.0 + Length::mm(1.0) * index as f64;
            let top = FOOT + length;
            Turned::from_corners(&[at(none, none), at(f, none), at(f, FOOT), at(r, FOOT), at(r, top), at(none, top)])
        }
    }
}

/// Widest foot and height of the pins as they are printed.
pub fn pins_extent(rungs: &[Length], length: Length) -> (Length, Length) {
    let largest = rungs.last().copied().unwrap_or(Length::ZERO);
    (largest + FOOT_OVER + Length::mm(2.0) * rungs.len() as f64, length + FOOT)
}

/// A plug with a neck between its two ends.
pub struct Plug {
    /// Length of the go end.
    pub go_length: Length,
    /// Length of the not-go end.
    pub not_go_length: Length,
    /// Length overall.
    pub overall: Length,
    /// The solid, its go end down.
    pub solid: Turned,
}

/// The plug: its go end one and a half diameters long, the not-go end half of that. Source: common practice, no source.
pub fn plug(go: Length, not_go: Length) -> Result<Plug, ShapeError> {
    let (a, b) = ((go * 1.5).rounded(), (go * 0.75).rounded());
    let neck = (go * 0.5).max(Length::mm(5.0)).rounded();
    let (r, n, x) = (go / 2.0, go * 0.4, not_go / 2.0);
    let (none, overall) = (Length::ZERO, a + neck + b);
    let corners =
        [(none, none), (r, none), (r, a), (n, a), (n, a + neck), (x, a + neck), (x, overall), (none, overall)];
    let solid = Turned::from_corners(&corners.map(|(r, z)| Point::new(r, z)))?;
    Ok(Plug { go_length: a, not_go_length: b, overall, solid })
}

/// Outside and thickness of a ring gauge for such a shaft. Source: common practice, no source.
pub fn ring_sizes(nominal: Length) -> (Length, Length) {
    ((nominal * 1.8).max(nominal + Length::mm(16.0)).rounded(), (nominal * 0.6).max(Length::mm(10.0)).rounded())
}

/// The solids of a ladder of pins, in the order of the rungs.
pub fn pins(rungs: &[Length], length: Length, printed: bool) -> Result<Vec<Solid>, ShapeError> {
    let one = |(i, d): (usize, &Length)| {
        let body = Body::Turned(pin(*d, length, printed.then_some(i))?);
        Ok(Solid::named(&format!("pin-{}", i + 1), body))
    };
    rungs.iter().enumerate().map(one).collect()
}
