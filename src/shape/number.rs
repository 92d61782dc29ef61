//! A part's number in single strokes, to be engraved: letters of straight lines, five wide and six high at most.

use super::cutting::{Cutting, Mark};
use super::{Contour, Point};
use crate::units::Length;

/// Heights of the letters that are tried, mm: as large as there is room for, and none that a cutter burns shut.
const HEIGHTS: [f64; 4] = [6.0, 5.0, 4.0, 3.0];
/// What stays free round the lettering, mm.
const FREE: f64 = 2.0;
/// Steps in which a place is looked for, mm.
const STEP: f64 = 0.5;
/// Units of the grid of a letter: its height, and from one letter to the next.
const HIGH: f64 = 6.0;
const PITCH: f64 = 5.5;
/// Width of a letter, units of the grid.
const WIDE: f64 = 4.0;

/// The lines of a letter: pairs of figures are x and y on its grid, `|` lifts the tool. What has no letter is a dash.
fn strokes(letter: char) -> &'static str {
    match letter.to_ascii_uppercase() {
        '0' | 'O' => "10 30 41 45 36 16 05 01 10",
        '1' => "15 26 20|10 30",
        '2' => "05 16 36 45 44 00 40",
        '3' => "05 16 36 45 44 33 13|33 42 41 30 10 01",
        '4' => "30 36 02 42",
        '5' => "01 10 30 41 43 34 04 06 46",
        '6' => "03 14 34 43 41 30 10 01 05 16 36 45",
        '7' => "06 46 10",
        '8' => "13 04 05 16 36 45 44 33 13 02 01 10 30 41 42 33",
        '9' => "43 32 12 03 05 16 36 45 41 30 10 01",
        'A' => "00 04 26 44 40|02 42",
        'B' => "00 06 36 45 44 33 03|33 42 41 30 00",
        'C' => "41 30 10 01 05 16 36 45",
        'D' => "00 06 26 44 42 20 00",
        'E' => "40 00 06 46|03 33",
        'F' => "00 06 46|03 33",
        'G' => "45 36 16 05 01 10 30 41 43 23",
        'H' => "00 06|40 46|03 43",
        'I' => "10 30|20 26|16 36",
        'J' => "01 10 30 41 46",
        'K' => "00 06|46 03 40",
        'L' => "06 00 40",
        'M' => "00 06 23 46 40",
        'N' => "00 06 40 46",
        'P' => "00 06 36 45 44 33 03",
        'Q' => "10 30 41 45 36 16 05 01 10|22 40",
        'R' => "00 06 36 45 44 33 03|23 40",
        'S' => "01 10 30 41 42 33 13 04 05 16 36 45",
        'T' => "06 46|20 26",
        'U' => "06 01 10 30 41 46",
        'V' => "06 20 46",
        'W' => "06 10 23 30 46",
        'X' => "00 46|06 40",
        'Y' => "06 23 46|23 20",
        'Z' => "06 46 00 40",
        '.' => "20 21",
        ' ' => "",
        _ => "13 33",
    }
}

/// The lines of some words with their lower left corner at a place.
fn lines(words: &str, corner: (f64, f64), height: f64) -> Vec<Mark> {
    let unit = height / HIGH;
    let mut marks = Vec::new();
    for (i, letter) in words.chars().enumerate() {
        let left = corner.0 + i as f64 * PITCH * unit;
        let point = |pair: &str| {
            let mut figures = pair.chars().filter_map(|c| c.to_digit(10)).map(f64::from);
            let (x, y) = (figures.next()?, figures.next()?);
            Some(Point::mm(left + x * unit, corner.1 + y * unit))
        };
        for run in strokes(letter).split('|') {
            let points: Vec<Point> = run.split(' ').filter_map(point).collect();
            marks.extend(points.iter().zip(points.iter().skip(1)).map(|(a, b)| Mark::Line { from: *a, to: *b }));
        }
    }
    marks
}

/// An upright rectangle, mm: left, bottom, right, top.
type Rectangle = (f64, f64, f64, f64);

fn extents(contour: &Contour) -> Rectangle {
    let (least, greatest) = (contour.extents().least(), contour.extents().greatest());
    (least.x().as_mm(), least.y().as_mm(), greatest.x().as_mm(), greatest.y().as_mm())
}

fn around(mark: &Mark) -> Rectangle {
    let square = |c: Point, half: Length| {
        let (x, y, half) = (c.x().as_mm(), c.y().as_mm(), half.as_mm());
        (x - half, y - half, x + half, y + half)
    };
    match mark {
        Mark::Circle(circle) => square(circle.centre(), circle.diameter() / 2.0),
        Mark::Cross { centre, size } => square(*centre, *size / 2.0),
        Mark::Line { from, to } => {
            let (a, b) = ((from.x().as_mm(), from.y().as_mm()), (to.x().as_mm(), to.y().as_mm()));
            (a.0.min(b.0), a.1.min(b.1), a.0.max(b.0), a.1.max(b.1))
        }
    }
}

fn apart(a: Rectangle, b: Rectangle) -> bool {
    a.2 + FREE <= b.0 || b.2 + FREE <= a.0 || a.3 + FREE <= b.1 || b.3 + FREE <= a.1
}

/// Whether a rectangle lies inside an outline and off its edge; only of a circle are the corners looked at, and of any
/// other outline rounded corners are left a quarter of its lesser side.
fn inside(outline: &Contour, area: Rectangle) -> bool {
    let (left, bottom, right, top) = extents(outline);
    let within = area.0 >= left + FREE && area.1 >= bottom + FREE && area.2 <= right - FREE && area.3 <= top - FREE;
    let corners = [(area.0, area.1), (area.2, area.1), (area.2, area.3), (area.0, area.3)];
    match outline.as_circle() {
        Some(circle) => {
            let (x, y, reach) =
                (circle.centre().x().as_mm(), circle.centre().y().as_mm(), circle.diameter().as_mm() / 2.0 - FREE);
            corners.iter().all(|(a, b)| libm::hypot(a - x, b - y) <= reach)
        }
        None => {
            let round = (right - left).min(top - bottom) / 4.0;
            within && area.0 >= left + round && area.2 <= right - round
        }
    }
}

impl Cutting {
    /// The same with words engraved where there is room between holes, marks and edge: under the middle or over it, as
    /// large as may be; without them where there is none.
    pub fn numbered(self, words: &str) -> Self {
        let (_, bottom, _, top) = extents(self.outer());
        let count = words.chars().count() as f64;
        let taken: Vec<Rectangle> = self.holes().iter().map(extents).chain(self.marks().iter().map(around)).collect();
        let steps = ((top - bottom) / 2.0 / STEP).floor().max(0.0) as u32;
        for height in HEIGHTS {
            let width = ((count - 1.0) * PITCH + WIDE) * height / HIGH;
            let rows = (0..steps).flat_map(|i| {
                let off = FREE + f64::from(i) * STEP;
                [bottom + off, top - off - height]
            });
            let free = |y: &f64| {
                let area = (-width / 2.0, *y, width / 2.0, y + height);
                taken.iter().all(|other| apart(area, *other)) && inside(self.outer(), area)
            };
            if let Some(y) = rows.into_iter().find(free) {
                return self.with_marks(lines(words, (-width / 2.0, y), height));
            }
        }
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The grid is four wide and six high, and no line of a letter is drawn twice or has no length.
    #[test]
    fn letters_keep_to_their_grid() {
        for letter in ('0'..='9').chain('A'..='Z').chain(['-', '.']) {
            let drawn = lines(&letter.to_string(), (0.0, 0.0), HIGH);
            assert!(!drawn.is_empty(), "{letter}");
            for (i, mark) in drawn.iter().enumerate() {
                let (left, bottom, right, top) = around(mark);
                assert!(left >= 0.0 && bottom >= 0.0 && right <= WIDE && top <= HIGH, "{letter}");
                assert!(right - left > 0.5 || top - bottom > 0.5, "{letter}");
                assert!(drawn.iter().skip(i + 1).all(|other| other != mark), "{letter}");
            }
        }
    }

    /// It stands inside the plate, off its hole; where there is no room it is left out.
    #[test]
    fn the_number_stands_where_there_is_room() {
        let plate = |side: f64, hole: f64| {
            let outer = Contour::rectangle(Length::mm(side), Length::mm(side), Length::ZERO).expect("a plate");
            let circle = super::super::Circle::new(Point::ORIGIN, Length::mm(hole)).expect("a circle");
            let hole = Contour::circle(circle).expect("a hole");
            Cutting::new(outer, vec![hole], Vec::new()).expect("sound").numbered("CUP-1")
        };
        let told = plate(100.0, 40.0);
        assert!(told.marks().len() > 10);
        let hole = (-20.0, -20.0, 20.0, 20.0);
        assert!(told.marks().iter().all(|m| apart(around(m), hole) && inside(told.outer(), around(m))));
        assert!(plate(50.0, 47.0).marks().is_empty());
    }
}
