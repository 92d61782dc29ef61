//! The outline of a plate by its sizes, the plate with its holes, and what the laser cuts of it.

use crate::shape::{Bored, Circle, Contour, Cutting, Flat, FlatHole, Mark, Path, Point, ShapeError, Turn};
use crate::standards::processes;
use crate::units::{Angle, Length};

use super::drawn::Drawn;
use super::read::{Made, Shape, Spec};

/// Size of the crosses that mark drilled centres.
const CROSS: Length = Length::mm(4.0);
/// By how much a hole for a tap is cut smaller than its drill: the drill takes the hard skin away.
/// Source: common practice, no source.
pub const SKIN: Length = Length::mm(1.0);

/// The outline. A rectangle, a disc and an arm lie about the origin, a ring segment about the x axis with its middle in the
/// origin; a gusset and an angle have their right angle in the origin and their legs along x and y.
fn outline(shape: &Shape) -> Result<Contour, ShapeError> {
    match shape {
        Shape::Rectangle { length, width, corner } => {
            Contour::rectangle(length.value, width.value, corner.as_ref().map_or(Length::ZERO, |c| c.value))
        }
        Shape::Disc(diameter) => Contour::circle(Circle::new(Point::ORIGIN, diameter.value)?),
        Shape::Segment { diameter, bore, sweep } => segment(diameter.value, bore.value, sweep.value),
        Shape::Arm { length, width } => Contour::slot(Point::ORIGIN, width.value, length.value, Angle::ZERO),
        Shape::Gusset { length, width, blunt } => {
            let (l, w, b, none) = (length.value, width.value, blunt.value, Length::ZERO);
            let path = Path::start(Point::ORIGIN).line_to(Point::new(l, none)).line_to(Point::new(l, b));
            path.line_to(Point::new(b, w)).line_to(Point::new(none, w)).close()
        }
        Shape::Angle { length, width, leg, inner } => {
            let (l, w, b, none) = (length.value, width.value, leg.value, Length::ZERO);
            let path = Path::start(Point::ORIGIN).line_to(Point::new(l, none)).line_to(Point::new(l, b));
            let r = inner.as_ref().map_or(Length::ZERO, |r| r.value);
            let path = if r > Length::ZERO {
                let centre = Point::new(b + r, b + r);
                path.line_or_nothing(Point::new(b + r, b)).arc_to(Point::new(b, b + r), centre, Turn::Clockwise)
            } else {
                path.line_to(Point::new(b, b))
            };
            path.line_or_nothing(Point::new(b, w)).line_to(Point::new(none, w)).close()
        }
        Shape::Drawn { from, .. } => Ok(from.outer.clone()),
    }
}

fn segment(diameter: Length, bore: Length, sweep: Angle) -> Result<Contour, ShapeError> {
    if bore >= diameter {
        return Err(ShapeError::RingWithoutWall);
    }
    let at = |d: Length, half: f64| Point::new(d * (0.5 * (sweep * half).cos()), d * (0.5 * (sweep * half).sin()));
    let (outside, inside) = (|h| at(diameter, h), |h| at(bore, h));
    Path::start(outside(-0.5))
        .arc_to(outside(0.0), Point::ORIGIN, Turn::Anticlockwise)
        .arc_to(outside(0.5), Point::ORIGIN, Turn::Anticlockwise)
        .line_to(inside(0.5))
        .arc_to(inside(0.0), Point::ORIGIN, Turn::Clockwise)
        .arc_to(inside(-0.5), Point::ORIGIN, Turn::Clockwise)
        .close()
}

/// The holes of a drawing that no row of the part file stands for: a row at the place of a drawn hole says what that is.
pub fn kept<'a>(s: &'a Spec, from: &'a Drawn) -> impl Iterator<Item = &'a Contour> {
    let rows = || s.holes.iter().flat_map(|row| &row.centres);
    let taken =
        move |c: &&Contour| c.as_circle().is_some_and(|c| rows().any(|at| at.distance(c.centre()) < Length::mm(0.01)));
    from.holes.iter().filter(move |c| !taken(c))
}

/// The finished plate.
pub fn flat(s: &Spec) -> Result<Flat, ShapeError> {
    let t = s.thickness.value;
    let mut holes = Vec::new();
    for row in &s.holes {
        for centre in &row.centres {
            holes.push(match &row.made {
                Made::Slot { length, direction } => {
                    FlatHole::Slot { centre: *centre, width: row.diameter, length: length.value, direction: *direction }
                }
                Made::Round | Made::Tapped(_) => FlatHole::Bored(Bored::through(*centre, row.diameter, t)?),
            });
        }
    }
    if let Shape::Drawn { from, .. } = &s.shape {
        for hole in kept(s, from) {
            holes.push(match hole.as_circle() {
                Some(circle) => FlatHole::Bored(Bored::through(circle.centre(), circle.diameter(), t)?),
                None => FlatHole::Cut(hole.clone()),
            });
        }
    }
    Flat::new(outline(&s.shape)?, t, holes)
}

/// Width to which a row of holes is cut; none where it is drilled from a mark.
pub fn cut_width(s: &Spec, row: &super::read::Holes) -> Option<Length> {
    let t = s.thickness.value;
    let cut = if matches!(row.made, Made::Tapped(_)) { row.diameter - SKIN } else { row.diameter };
    let always = matches!(row.made, Made::Slot { .. });
    (always || processes::can_be_cut(cut, t)).then_some(cut)
}

/// What the laser cuts: holes to size, those for a tap under size; what is too small for the plate is a cross.
pub fn cutting(s: &Spec) -> Result<Cutting, ShapeError> {
    let (mut holes, mut marks) = (Vec::new(), Vec::new());
    for row in &s.holes {
        for centre in &row.centres {
            match (cut_width(s, row), &row.made) {
                (Some(cut), Made::Slot { length, direction }) => {
                    holes.push(Contour::slot(*centre, cut, length.value, *direction)?);
                }
                (Some(cut), _) => holes.push(Contour::circle(Circle::new(*centre, cut)?)?),
                (None, _) => marks.push(Mark::Cross { centre: *centre, size: CROSS }),
            }
        }
    }
    if let Shape::Drawn { from, .. } = &s.shape {
        holes.extend(kept(s, from).cloned());
    }
    Cutting::new(outline(&s.shape)?, holes, marks)
}
