//! How near two edges come to each other, and where they cross.

use super::{Arc, Point, Segment};

/// Smallest distance between two edges, mm; nought where they cross.
///
/// Two edges that do not cross are nearest at an end of one of them, or where a common perpendicular stands:
/// for an arc, on the line from its centre square to the other edge.
pub(crate) fn distance(a: &Segment, b: &Segment) -> f64 {
    if !crossings(a, b).is_empty() {
        return 0.0;
    }
    let ends = [to_point(b, a.from), to_point(b, a.to), to_point(a, b.from), to_point(a, b.to)];
    let squares = [square_to(a, b), square_to(b, a)];
    ends.into_iter().chain(squares).fold(f64::INFINITY, f64::min)
}

/// Smallest distance between two edges, mm, and the points of both where they are so near.
pub(crate) fn nearest(a: &Segment, b: &Segment) -> (f64, Point, Point) {
    if let Some(p) = crossings(a, b).first() {
        return (0.0, *p, *p);
    }
    let (of_a, of_b) = (|p: Point| (point_on(a, p), p), |p: Point| (p, point_on(b, p)));
    let ends = [of_b(a.from), of_b(a.to), of_a(b.from), of_a(b.to)];
    let squares = feet(a, b).into_iter().map(of_a).chain(feet(b, a).into_iter().map(of_b));
    let measured = ends.into_iter().chain(squares).map(|(p, q)| (p.to(q), p, q));
    measured.fold((f64::INFINITY, a.from, b.from), |best, now| if now.0 < best.0 { now } else { best })
}

/// The point of an edge that is nearest to `p`.
fn point_on(s: &Segment, p: Point) -> Point {
    let end = if s.from.to(p) <= s.to.to(p) { s.from } else { s.to };
    let Some(arc) = s.arc() else { return foot(s, p).unwrap_or(end) };
    let d = p.minus(arc.centre);
    arc.fraction_of(libm::atan2(d.y, d.x)).map_or(end, |t| arc.at(t))
}

/// Distance from a point to an edge, mm.
pub(crate) fn to_point(s: &Segment, p: Point) -> f64 {
    match s.arc() {
        Some(arc) => to_point_of_arc(s, &arc, p),
        None => foot(s, p).map_or_else(|| s.from.to(p).min(s.to.to(p)), |f| f.to(p)),
    }
}

/// The same for an edge whose arc is known.
pub(crate) fn to_point_of_arc(s: &Segment, arc: &Arc, p: Point) -> f64 {
    let d = p.minus(arc.centre);
    match arc.fraction_of(libm::atan2(d.y, d.x)) {
        Some(_) => (arc.centre.to(p) - arc.radius).abs(),
        None => s.from.to(p).min(s.to.to(p)),
    }
}

/// Foot of the perpendicular from `p`, where it falls within a straight edge.
fn foot(line: &Segment, p: Point) -> Option<Point> {
    let d = line.to.minus(line.from);
    let t = p.minus(line.from).dot(d) / d.dot(d);
    (0.0..=1.0).contains(&t).then(|| line.from.plus(d.times(t)))
}

/// Distance along a common perpendicular through the centre of arc `a`, or infinity.
fn square_to(a: &Segment, b: &Segment) -> f64 {
    feet(a, b).into_iter().map(|p| to_point(a, p)).fold(f64::INFINITY, f64::min)
}

/// The points of `b` where a perpendicular through the centre of arc `a` meets it; none where `a` is straight.
fn feet(a: &Segment, b: &Segment) -> Vec<Point> {
    let Some(arc) = a.arc() else { return Vec::new() };
    match b.arc() {
        None => foot(b, arc.centre).into_iter().collect(),
        Some(other) => on_centre_line(&arc, &other),
    }
}

/// The points of `other` on the line through both centres.
fn on_centre_line(arc: &Arc, other: &Arc) -> Vec<Point> {
    let d = other.centre.minus(arc.centre);
    if d.dot(d) == 0.0 {
        return vec![other.at(0.0)];
    }
    let angle = libm::atan2(d.y, d.x);
    let on = |angle: f64| other.fraction_of(angle).map(|t| other.at(t));
    on(angle).into_iter().chain(on(angle + std::f64::consts::PI)).collect()
}

/// Points where two edges cross or touch (overlapping edges need not be reported).
pub(crate) fn crossings(a: &Segment, b: &Segment) -> Vec<Point> {
    match (a.arc(), b.arc()) {
        (None, None) => line_line(a, b).into_iter().collect(),
        (None, Some(arc)) => line_arc(a, &arc),
        (Some(arc), None) => line_arc(b, &arc),
        (Some(one), Some(two)) => arc_arc(&one, &two),
    }
}

fn line_line(a: &Segment, b: &Segment) -> Option<Point> {
    let (u, v, w) = (a.to.minus(a.from), b.to.minus(b.from), b.from.minus(a.from));
    let det = u.cross(v);
    let (s, t) = (w.cross(v) / det, w.cross(u) / det);
    ((0.0..=1.0).contains(&s) && (0.0..=1.0).contains(&t)).then(|| a.from.plus(u.times(s)))
}

fn line_arc(line: &Segment, arc: &Arc) -> Vec<Point> {
    let length = line.from.to(line.to);
    let u = line.to.minus(line.from).times(1.0 / length);
    let w = arc.centre.minus(line.from);
    let (along, off) = (w.dot(u), w.cross(u));
    let half = arc.radius * arc.radius - off * off;
    if half < 0.0 {
        return Vec::new();
    }
    [along - half.sqrt(), along + half.sqrt()]
        .into_iter()
        .filter(|t| (0.0..=length).contains(t))
        .map(|t| line.from.plus(u.times(t)))
        .filter(|p| on_arc(arc, *p))
        .collect()
}

fn arc_arc(a: &Arc, b: &Arc) -> Vec<Point> {
    let w = b.centre.minus(a.centre);
    let d = w.dot(w).sqrt();
    let along = (d * d + a.radius * a.radius - b.radius * b.radius) / (2.0 * d);
    let half = a.radius * a.radius - along * along;
    if !half.is_finite() || half < 0.0 {
        return Vec::new();
    }
    let (u, left) = (w.times(1.0 / d), Point::mm(-w.y / d, w.x / d));
    [half.sqrt(), -half.sqrt()]
        .into_iter()
        .map(|h| a.centre.plus(u.times(along)).plus(left.times(h)))
        .filter(|p| on_arc(a, *p) && on_arc(b, *p))
        .collect()
}

fn on_arc(arc: &Arc, p: Point) -> bool {
    let d = p.minus(arc.centre);
    arc.fraction_of(libm::atan2(d.y, d.x)).is_some()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(x0: f64, y0: f64, x1: f64, y1: f64) -> Segment {
        Segment::line(Point::mm(x0, y0), Point::mm(x1, y1)).unwrap()
    }

    #[test]
    fn distances_by_hand() {
        let half = Segment::bulged(Point::mm(5.0, 0.0), Point::mm(-5.0, 0.0), 1.0).unwrap();
        assert_eq!(distance(&half, &line(-9.0, 7.0, 9.0, 7.0)), 2.0);
        assert_eq!(distance(&half, &line(-9.0, 3.0, 9.0, 3.0)), 0.0);
        assert_eq!(distance(&half, &line(-1.0, 1.0, 1.0, 1.0)), 5.0 - 2.0_f64.sqrt());
        assert_eq!(distance(&line(0.0, 0.0, 1.0, 0.0), &line(0.0, 2.0, 1.0, 3.0)), 2.0);
        let inner = Segment::bulged(Point::mm(3.0, 1.0), Point::mm(-3.0, 1.0), 1.0).unwrap();
        assert!((distance(&half, &inner) - 1.0).abs() < 1e-12);
        let (apart, on, there) = nearest(&half, &line(-9.0, 7.0, 9.0, 7.0));
        assert!((apart - 2.0).abs() < 1e-12 && on.to(Point::mm(0.0, 5.0)) < 1e-12 && there == Point::mm(0.0, 7.0));
    }
}
