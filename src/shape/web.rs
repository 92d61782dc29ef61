//! How narrow an opening is, and how much metal is left between two edges.

use std::collections::BTreeSet;

use super::{Contour, Point, Segment};
use crate::units::Length;

/// How wide an opening is at its narrowest, mm: a circle by its diameter, a slot by its width, anything else by the strip that
/// it just passes through, or by four areas over its edge where that is less.
pub(crate) fn narrowest(edges: &[Segment]) -> f64 {
    if let [a, b] = edges
        && a.bulge.abs() == 1.0
        && b.bulge == a.bulge
    {
        return a.from.to(a.to);
    }
    let area: f64 = edges.iter().map(Segment::area).sum::<f64>().abs();
    let length: f64 = edges.iter().map(|s| s.length().as_mm()).sum();
    let points: Vec<Point> = edges.iter().flat_map(|s| (0..8).map(|k| s.at(f64::from(k) / 8.0))).collect();
    let strip = directions(edges).into_iter().map(|d| {
        let across = points.iter().map(|p| p.dot(d));
        across.clone().fold(f64::MIN, f64::max) - across.fold(f64::MAX, f64::min)
    });
    strip.fold(4.0 * area / length, f64::min)
}

/// Directions square to the longest straight edges: a strip is narrowest along one of them.
fn directions(edges: &[Segment]) -> Vec<Point> {
    let mut straight: Vec<&Segment> = edges.iter().filter(|s| s.bulge == 0.0).collect();
    straight.sort_by(|a, b| b.from.to(b.to).total_cmp(&a.from.to(a.to)));
    let mut seen = BTreeSet::new();
    let unit = |s: &&Segment| {
        let d = s.to.minus(s.from).times(1.0 / s.from.to(s.to));
        Point::mm(-d.y, d.x)
    };
    straight.iter().take(64).map(unit).filter(|d| seen.insert(((d.x * 1e6) as i64, (d.y * 1e6) as i64))).collect()
}

/// Least metal between an outline and its holes, and between the holes; none without a hole.
pub fn least_metal(outer: &Contour, holes: &[Contour]) -> Option<Length> {
    let to_edge = holes.iter().map(|hole| outer.gap_to(hole));
    let others = |i: usize| holes.iter().skip(i + 1);
    let between = holes.iter().enumerate().flat_map(|(i, a)| others(i).map(move |b| a.gap_to(b)));
    to_edge.chain(between).reduce(f64::min).map(Length::mm)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::Circle;
    use crate::units::Angle;

    #[test]
    fn openings_by_hand() {
        let mm = Length::mm;
        let slot = Contour::slot(Point::mm(3.0, 4.0), mm(6.0), mm(40.0), Angle::degrees(30.0)).unwrap();
        assert!((narrowest(slot.segments()) - 6.0).abs() < 1e-9);
        let window = Contour::rectangle(mm(30.0), mm(8.0), mm(2.0)).unwrap();
        assert!((narrowest(window.segments()) - 8.0).abs() < 1e-9);
        let hole = |x: f64| Contour::circle(Circle::new(Point::mm(x, 0.0), mm(10.0)).unwrap()).unwrap();
        assert_eq!(narrowest(hole(0.0).segments()), 10.0);
        let plate = Contour::rectangle(mm(60.0), mm(30.0), mm(0.0)).unwrap();
        assert!((least_metal(&plate, &[hole(-10.0), hole(4.0)]).unwrap().as_mm() - 4.0).abs() < 1e-9);
        assert_eq!(least_metal(&plate, &[]), None);
    }
}
