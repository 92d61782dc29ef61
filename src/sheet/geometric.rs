//! The signs of geometric tolerances, drawn in a square of one letter height (forms of ISO 1101:2017, from memory).

use crate::record::drawing::Characteristic;
use crate::sheet::area::Point;
use crate::sheet::{Line, Mark, Path, Shade};

/// The sign with the lower left corner of its square at a point; `size` is the side of the square.
pub fn sign(what: Characteristic, at: Point, size: f64, turn: f64) -> Vec<Mark> {
    let p = |x: f64, y: f64| at.along(turn, x * size).along(turn + 90.0, y * size);
    let line = |points: &[Point]| Mark::stroke(Path::polyline(points), Line::Narrow);
    let circle = |radius: f64| Mark::stroke(Path::circle(p(0.5, 0.5), radius * size), Line::Narrow);
    match what {
        Characteristic::Straightness => vec![line(&[p(0.0, 0.5), p(1.0, 0.5)])],
        Characteristic::Flatness => {
            let corners = [p(0.0, 0.2), p(0.7, 0.2), p(1.0, 0.8), p(0.3, 0.8)];
            vec![Mark::stroke(Path::polygon(&corners), Line::Narrow)]
        }
        Characteristic::Roundness => vec![circle(0.45)],
        Characteristic::Cylindricity => {
            vec![circle(0.27), line(&[p(0.0, 0.08), p(0.5, 1.0)]), line(&[p(0.5, 0.0), p(1.0, 0.92)])]
        }
        Characteristic::Parallelism => vec![line(&[p(0.1, 0.0), p(0.5, 1.0)]), line(&[p(0.5, 0.0), p(0.9, 1.0)])],
        Characteristic::Perpendicularity => {
            vec![line(&[p(0.0, 0.05), p(1.0, 0.05)]), line(&[p(0.5, 0.05), p(0.5, 1.0)])]
        }
        Characteristic::Angularity => vec![line(&[p(0.9, 0.8), p(0.0, 0.1), p(1.0, 0.1)])],
        Characteristic::Position => {
            vec![circle(0.33), line(&[p(0.0, 0.5), p(1.0, 0.5)]), line(&[p(0.5, 0.0), p(0.5, 1.0)])]
        }
        Characteristic::Coaxiality => vec![circle(0.45), circle(0.22)],
        Characteristic::Symmetry => vec![
            line(&[p(0.2, 0.8), p(0.8, 0.8)]),
            line(&[p(0.0, 0.5), p(1.0, 0.5)]),
            line(&[p(0.2, 0.2), p(0.8, 0.2)]),
        ],
        Characteristic::CircularRunOut => arrow(p(0.1, 0.0), p(0.8, 1.0), size),
        Characteristic::TotalRunOut => {
            let mut marks = arrow(p(-0.05, 0.0), p(0.45, 0.95), size);
            marks.extend(arrow(p(0.5, 0.0), p(1.0, 0.95), size));
            marks.push(line(&[p(-0.05, 0.0), p(0.5, 0.0)]));
            marks
        }
    }
}

fn arrow(from: Point, to: Point, size: f64) -> Vec<Mark> {
    let (back, length) = (to.direction(from), size * 0.4);
    let heel = to.along(back, length);
    let head = [to, heel.along(back + 90.0, length / 4.0), heel.along(back - 90.0, length / 4.0)];
    vec![Mark::line(from, heel, Line::Narrow), Mark::Fill(Path::polygon(&head), Shade::Black)]
}
