//! Hatching of cut faces: narrow lines at an angle, kept inside the outline and out of its holes.

use crate::sheet::area::Point;
use crate::sheet::{Line, Mark, Path, Step};
use crate::units::Angle;

/// How the faces of one part are hatched; neighbours differ in angle or pitch (ISO 128-3:2020).
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Hatch {
    /// Direction of the lines, degrees.
    pub angle: f64,
    /// Distance between the lines, mm on paper; at least 0.7 mm (ISO 128-2, from memory).
    pub pitch: f64,
}

impl Hatch {
    /// The hatching of the first, second, third part of a picture.
    pub fn of_part(number: usize) -> Self {
        let angle = if number.is_multiple_of(2) { 45.0 } else { 135.0 };
        let pitch = [2.5, 2.5, 1.6, 1.6, 4.0, 4.0].get(number % 6).copied().unwrap_or(2.5);
        Self { angle, pitch }
    }
}

/// The lines of the hatching inside a path, even-odd: one stroke of many pieces.
pub fn hatch(path: &Path, style: Hatch) -> Mark {
    let along = Angle::degrees(style.angle);
    let (cos, sin) = (along.cos(), along.sin());
    // Turn the path so that hatching lines lie level, cut it there, turn the cuts back.
    let level = |p: Point| Point::new(p.x * cos + p.y * sin, p.y * cos - p.x * sin);
    let back = |p: Point| Point::new(p.x * cos - p.y * sin, p.x * sin + p.y * cos);
    let edges: Vec<(Point, Point)> = path.chords(6.0).iter().map(|(a, b)| (level(*a), level(*b))).collect();
    let mut strokes = Path::default();
    for (from, to) in level_cuts(&edges, style.pitch) {
        strokes.contours.extend(Path::open(back(from), vec![Step::Line(back(to))]).contours);
    }
    Mark::stroke(strokes, Line::Narrow)
}

fn level_cuts(edges: &[(Point, Point)], pitch: f64) -> Vec<(Point, Point)> {
    let low = edges.iter().map(|(a, b)| a.y.min(b.y)).fold(f64::INFINITY, f64::min);
    let high = edges.iter().map(|(a, b)| a.y.max(b.y)).fold(f64::NEG_INFINITY, f64::max);
    // Lines lie on a raster of the whole sheet, so that the faces of one part match.
    let (first, last) = ((low / pitch).ceil() as i64, (high / pitch).floor() as i64);
    (first..=last).flat_map(|i| cuts_at(edges, (i as f64 + 0.137) * pitch)).collect()
}

fn cuts_at(edges: &[(Point, Point)], y: f64) -> Vec<(Point, Point)> {
    let crossing =
        |(a, b): &(Point, Point)| ((a.y <= y) != (b.y <= y)).then(|| a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y));
    let mut xs: Vec<f64> = edges.iter().filter_map(crossing).collect();
    xs.sort_by(f64::total_cmp);
    let pairs = xs.chunks_exact(2).filter_map(|c| Some((*c.first()?, *c.get(1)?)));
    pairs.filter(|(a, b)| b - a > 0.2).map(|(a, b)| (Point::new(a, y), Point::new(b, y))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::{Area, Contour};

    #[test]
    fn hatching_covers_area_over_pitch_and_leaves_holes_free() {
        // Total length of the lines times their pitch is the hatched area (Cavalieri's principle).
        let mut path = Path::rectangle(Area::new(10.0, 10.0, 60.0, 40.0));
        path.contours.push(Contour::circle(Point::new(40.0, 30.0), 12.0));
        let Mark::Stroke(lines, ..) = hatch(&path, Hatch { angle: 45.0, pitch: 0.7 }) else { panic!("not a stroke") };
        let total: f64 = lines.chords(6.0).iter().map(|(a, b)| a.distance(*b)).sum();
        let area = 60.0 * 40.0 - std::f64::consts::PI * 144.0;
        assert!((total * 0.7 / area - 1.0).abs() < 0.01, "{} against {area}", total * 0.7);
        let centre = Point::new(40.0, 30.0);
        assert!(lines.chords(6.0).iter().all(|(a, b)| a.middle(*b).distance(centre) > 11.9));
    }
}
