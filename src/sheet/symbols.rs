//! Signs of the drawing office that no lettering has: rate of taper, machined surface, method of projection, check bars.

use crate::sheet::area::{Area, Point};
use crate::sheet::{Anchor, Line, Mark, Path, SMALL, Shade, Text};

/// A sign that stands in a line of lettering.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Sign {
    /// Rate of taper, ISO 3040: points the way the cone narrows.
    Taper {
        /// The cone narrows to the left.
        to_left: bool,
    },
    /// Surface from which material has to be removed: a tick with a bar (ISO 21920-1, form from memory).
    Machined,
}

impl Sign {
    /// Width in heights.
    pub fn width(self) -> f64 {
        match self {
            Self::Taper { .. } => 2.0,
            Self::Machined => 1.5,
        }
    }

    /// Drawn with its foot at a point.
    pub fn marks(self, at: Point, height: f64, turn: f64) -> Vec<Mark> {
        let p = |x: f64, y: f64| at.along(turn, x * height).along(turn + 90.0, y * height);
        match self {
            Self::Taper { to_left: false } => {
                vec![Mark::stroke(Path::polygon(&[p(0.0, 0.1), p(2.0, 0.5), p(0.0, 0.9)]), Line::Narrow)]
            }
            Self::Taper { to_left: true } => {
                vec![Mark::stroke(Path::polygon(&[p(2.0, 0.1), p(0.0, 0.5), p(2.0, 0.9)]), Line::Narrow)]
            }
            Self::Machined => {
                let tick = Path::polyline(&[p(0.0, 0.55), p(0.35, 0.0), p(1.0, 1.05)]);
                let bar = Path::polyline(&[p(0.0, 0.55), p(0.68, 0.55)]);
                vec![Mark::stroke(tick, Line::Narrow), Mark::stroke(bar, Line::Narrow)]
            }
        }
    }
}

/// In which order views are laid out (ISO 5456-2).
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Projection {
    /// First angle: what is seen from above lies under the front view. Usual in Europe.
    #[default]
    First,
    /// Third angle: what is seen from above lies over the front view. Usual in North America.
    Third,
}

/// The sign of the method of projection: a frustum from the side and from its end (ISO 5456-2; sides from memory).
/// Narrow end to the left; the circles to its right in first angle, to its left in third.
pub fn projection_sign(projection: Projection, centre: Point, height: f64) -> Vec<Mark> {
    let r = height / 2.0;
    let away = if projection == Projection::First { 1.0 } else { -1.0 };
    let (end, side) = (centre + Point::new(away * r * 1.25, 0.0), centre - Point::new(away * r * 1.25, 0.0));
    let p = |x: f64, y: f64| side + Point::new(x * r, y * r);
    let mut marks =
        vec![Mark::stroke(Path::polygon(&[p(-0.9, -0.5), p(0.9, -1.0), p(0.9, 1.0), p(-0.9, 0.5)]), Line::Wide)];
    marks.extend([r, r * 0.5].map(|r| Mark::stroke(Path::circle(end, r), Line::Wide)));
    let over = r * 1.2;
    let axis = |a: Point, b: Point| Mark::line(a, b, Line::Narrow);
    marks.push(axis(side - Point::new(over, 0.0), side + Point::new(over, 0.0)));
    marks.push(axis(end - Point::new(over, 0.0), end + Point::new(over, 0.0)));
    marks.push(axis(end - Point::new(0.0, over), end + Point::new(0.0, over)));
    marks
}

/// A bar of a known length, in steps black and white by turns, to be measured on the print; its left end at a point.
pub fn check_bar(at: Point, length: f64, steps: usize, words: &str) -> Vec<Mark> {
    let (step, height) = (length / steps as f64, 2.0);
    let mut marks = vec![Mark::stroke(Path::rectangle(Area::new(at.x, at.y, length, height)), Line::Narrow)];
    for i in (0..steps).step_by(2) {
        let black = Area::new(at.x + i as f64 * step, at.y, step, height);
        marks.push(Mark::Fill(Path::rectangle(black), Shade::Black));
    }
    let middle = Point::new(at.x + length / 2.0, at.y + height + 1.2);
    marks.push(Mark::Text(Text::new(middle, SMALL, words).anchored(Anchor::Middle)));
    marks
}

/// The two bars that stand on every sheet, side by side from a point; they and their words are 135 mm long at most.
pub fn check_bars(at: Point) -> Vec<Mark> {
    let mut marks = check_bar(at, 50.0, 5, "50 mm");
    marks.extend(check_bar(at + Point::new(60.0, 0.0), 50.8, 4, "2 in"));
    marks
}
