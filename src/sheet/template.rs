//! A paper template at true size for a flat part: glued on, centre-punched through, checked with a rule.
//!
//! Outline, holes and marks as they are cut; a cross through every centre, rings round it in steps of a millimetre so
//! that a drill which wanders is seen. Larger parts are spread over several sheets with marks where they meet.

use crate::shape::{self, Contour, Cutting};
use crate::sheet::SMALL;
use crate::sheet::area::{Area, Point};
use crate::sheet::label::SIZE;
use crate::sheet::scale::Paper;
use crate::sheet::symbols::check_bar;
use crate::sheet::trace::path;
use crate::sheet::{Anchor, Line, Mark, Page, Path, Text};

/// Free strip round the printable area, mm; home printers reach no closer to the edge.
const MARGIN: f64 = 10.0;
/// Height of the strip with check bars and words, mm.
const FOOT: f64 = 26.0;
/// How much of the neighbouring sheet is repeated, mm.
const OVERLAP: f64 = 10.0;
/// Steps and number of the rings round a centre, mm.
const RING_STEP: f64 = 1.0;
const RINGS: u32 = 3;

/// Draws the template: one sheet, or several from left to right and from top to bottom.
pub fn template(cutting: &Cutting, name: &str, paper: Paper) -> Vec<Page> {
    let marks = drawn(cutting);
    let area = path(cutting.outer().segments(), 1.0).area();
    let (across, down, turned) = tiles(area, paper);
    let (w, h) = sheet(paper, turned);
    let room = printable(paper, turned);
    let single = across * down == 1;
    let step = Point::new(room.width() - OVERLAP, room.height() - OVERLAP);
    // All sheets together, with the part in the middle.
    let all = (step.x * across as f64 + OVERLAP, step.y * down as f64 + OVERLAP);
    let first = Point::new(area.centre().x - all.0 / 2.0, area.centre().y + all.1 / 2.0);
    let spare = (all.0 - area.width() - 2.0, all.1 - area.height() - 2.0);
    let centres = centres(cutting);
    let (xs, ys): (Vec<f64>, Vec<f64>) = centres.iter().map(|c| (c.x - first.x, first.y - c.y)).unzip();
    let first = first + Point::new(clear_of(&xs, step.x, across, spare.0), -clear_of(&ys, step.y, down, spare.1));
    let places = (0..down).flat_map(|j| (0..across).map(move |i| (i, j)));
    places
        .map(|(i, j)| {
            let corner = Point::new(first.x + step.x * i as f64, first.y - step.y * j as f64 - room.height());
            let by = Point::new(room.left, room.bottom) - corner;
            let mut page = Page::new(w, h, format!("{name}: template"));
            page.marks.extend(marks.iter().filter(|m| m.area().moved(by).overlaps(room)).map(|m| m.moved(by)));
            cover_margins(&mut page, room);
            if !single {
                meeting_marks(&mut page, room, (i > 0, i + 1 < across, j > 0, j + 1 < down));
            }
            foot(&mut page, name, (j * across + i + 1, across * down), !centres.is_empty());
            page
        })
        .collect()
}

/// Every point that is punched or looked at.
fn centres(cutting: &Cutting) -> Vec<Point> {
    let marks = cutting.marks().iter().filter_map(|mark| match mark {
        shape::Mark::Circle(c) => Some(c.centre()),
        shape::Mark::Cross { centre, .. } => Some(*centre),
        shape::Mark::Line { .. } => None,
    });
    cutting.holes().iter().map(Contour::centroid).chain(marks).map(point).collect()
}

/// How far to move the sheets, within the paper to spare, so that no two meet at a centre: the least move that keeps
/// the seams clear of all of them, or else the one that keeps farthest off. `places` count from the first sheet.
fn clear_of(places: &[f64], step: f64, count: usize, spare: f64) -> f64 {
    let gap = |move_by: f64| {
        let seams = (1..count).map(|i| step * i as f64 + OVERLAP / 2.0 + move_by);
        let gaps = seams.flat_map(|seam| places.iter().map(move |p| (p - seam).abs()));
        gaps.fold(f64::INFINITY, f64::min).min(2.0 * OVERLAP)
    };
    let moves = (0..=40).flat_map(|i| [1.0, -1.0].map(|sign| sign * f64::from(i) / 80.0 * spare.max(0.0)));
    moves.fold(0.0, |best, next| if gap(next) > gap(best) + 1e-9 { next } else { best })
}

/// Width and height of the sheet, laid on its side if `turned`.
fn sheet(paper: Paper, turned: bool) -> (f64, f64) {
    let (w, h) = paper.size();
    if turned { (h, w) } else { (w, h) }
}

fn printable(paper: Paper, turned: bool) -> Area {
    let (w, h) = sheet(paper, turned);
    Area { left: MARGIN, bottom: MARGIN + FOOT, right: w - MARGIN, top: h - MARGIN }
}

/// How many sheets across and down, and whether they lie on their side: whatever takes fewest.
fn tiles(area: Area, paper: Paper) -> (usize, usize, bool) {
    let count = |need: f64, room: f64| {
        if need <= room { 1 } else { ((need - OVERLAP) / (room - OVERLAP)).ceil() as usize }
    };
    let of = |turned: bool| {
        let room = printable(paper, turned);
        (count(area.width() + 2.0, room.width()), count(area.height() + 2.0, room.height()), turned)
    };
    let (upright, lying) = (of(false), of(true));
    if lying.0 * lying.1 < upright.0 * upright.1 { lying } else { upright }
}

fn drawn(cutting: &Cutting) -> Vec<Mark> {
    let outline = |c: &Contour| Mark::stroke(path(c.segments(), 1.0), Line::Narrow);
    let mut marks: Vec<Mark> = std::iter::once(cutting.outer()).chain(cutting.holes()).map(outline).collect();
    for hole in cutting.holes() {
        match hole.as_circle() {
            Some(circle) => marks.extend(target(point(circle.centre()), circle.diameter().as_mm() / 2.0)),
            None => marks.extend(cross(point(hole.centroid()), 4.0)),
        }
    }
    for mark in cutting.marks() {
        match mark {
            shape::Mark::Circle(c) => {
                let (centre, radius) = (point(c.centre()), c.diameter().as_mm() / 2.0);
                marks.push(Mark::stroke(Path::circle(centre, radius), Line::Narrow));
                marks.extend(cross(centre, radius + 3.0));
            }
            shape::Mark::Cross { centre, size } => marks.extend(target(point(*centre), size.as_mm() / 2.0)),
            shape::Mark::Line { from, to } => marks.push(Mark::line(point(*from), point(*to), Line::Narrow)),
        }
    }
    marks
}

fn point(p: shape::Point) -> Point {
    Point::new(p.x().as_mm(), p.y().as_mm())
}

/// Cross over a hole of that radius, and rings outside it that show how far a hole has wandered.
fn target(centre: Point, radius: f64) -> Vec<Mark> {
    let mut marks = cross(centre, radius + RING_STEP * f64::from(RINGS) + 2.0);
    for i in 1..=RINGS {
        let ring = radius + RING_STEP * f64::from(i);
        // Rings are four short arcs, so that they are not taken for the edge of the hole.
        for quarter in 0..4 {
            let start = centre.along(f64::from(quarter) * 90.0 + 33.0, ring);
            let arc = crate::sheet::Step::arc(start, centre, 24.0);
            marks.push(Mark::stroke(Path::open(start, vec![arc]), Line::Narrow));
        }
    }
    marks
}

fn cross(centre: Point, reach: f64) -> Vec<Mark> {
    let (x, y) = (Point::new(reach, 0.0), Point::new(0.0, reach));
    vec![Mark::line(centre - x, centre + x, Line::Narrow), Mark::line(centre - y, centre + y, Line::Narrow)]
}

/// White over everything outside the room, since marks are not cut at its edge.
fn cover_margins(page: &mut Page, room: Area) {
    // A little beyond the paper, so that no hair of a line is left at its edge.
    let paper = Area::new(0.0, 0.0, page.width, page.height).grown(2.0);
    let strips = [
        Area { right: room.left, ..paper },
        Area { left: room.right, ..paper },
        Area { top: room.bottom, ..paper },
        Area { bottom: room.top, ..paper },
    ];
    page.marks.extend(strips.map(|s| Mark::Fill(Path::rectangle(s), crate::sheet::Shade::White)));
}

/// Dashed lines where the neighbouring sheets meet this one, with crosses that come to lie on each other.
fn meeting_marks(page: &mut Page, room: Area, (left, right, above, below): (bool, bool, bool, bool)) {
    let half = OVERLAP / 2.0;
    let upright = |x: f64| (Point::new(x, room.bottom), Point::new(x, room.top));
    let level = |y: f64| (Point::new(room.left, y), Point::new(room.right, y));
    let lines = [
        (left, upright(room.left + half)),
        (right, upright(room.right - half)),
        (above, level(room.top - half)),
        (below, level(room.bottom + half)),
    ];
    for (_, (from, to)) in lines.into_iter().filter(|(there, _)| *there) {
        page.marks.push(Mark::line(from, to, Line::Hidden));
        for share in [0.25, 0.75] {
            page.marks.extend(cross(from + (to - from) * share, half - 1.0));
        }
    }
}

fn foot(page: &mut Page, name: &str, (number, count): (usize, usize), rings: bool) {
    let bottom = MARGIN;
    page.marks.extend(check_bar(Point::new(MARGIN, bottom + 10.0), 100.0, 10, "100 mm: measure me before use"));
    page.marks.extend(check_bar(Point::new(MARGIN, bottom + 1.0), 101.6, 8, "4 in"));
    let right = page.width - MARGIN;
    let lines =
        [(SIZE, format!("{name}: template 1:1")), (SMALL, format!("Sheet {number} of {count}; print without scaling"))];
    let of_rings = rings.then(|| (SMALL, "Rings: 1 mm apart, off the hole".to_string()));
    let mut y = bottom + 17.0;
    for (height, words) in lines.into_iter().chain(of_rings) {
        let room = right - MARGIN - 106.0;
        for line in crate::sheet::font::wrap(&words, height, room) {
            page.marks.push(Mark::Text(Text::new(Point::new(right, y), height, line).anchored(Anchor::End)));
            y -= height * 1.7;
        }
    }
}
