//! Leaders and dimension lines that do not cross: ISO 129-1:2018 (a dimension line is not to be crossed where it can be
//! avoided) and ISO 128-2 (leaders do not cross one another): what crosses is followed to the wrong end.

use setdown::record::design::Design;
use setdown::sheet::annotation::HEAD;
use setdown::sheet::{Line, Mark, Page, Path, Point, Shade, of_design};

use super::lot::part;
use super::{demonstration, inches, styles};

/// Straight pieces of one line, with how many arrow heads it carries.
struct Drawn {
    pieces: Vec<(Point, Point)>,
    leader: bool,
}

/// Tip of an arrow head, and its heel.
fn head(mark: &Mark) -> Option<(Point, Point)> {
    let Mark::Fill(Path { contours }, Shade::Black) = mark else { return None };
    let [one] = contours.as_slice() else { return None };
    let [tip, a, b, _] = one.points(6.0).try_into().ok()?;
    let heel = a.middle(b);
    ((tip.distance(heel) - HEAD).abs() < 1e-6 && (a.distance(b) - HEAD / 3.0).abs() < 1e-6).then_some((tip, heel))
}

fn lies_on(chords: &[(Point, Point)], p: Point) -> bool {
    chords.iter().any(|(a, b)| (a.distance(p) + p.distance(*b) - a.distance(*b)).abs() < 0.02)
}

fn straight(mark: &Mark) -> Option<(Point, Point)> {
    let Mark::Stroke(path, Line::Narrow, _) = mark else { return None };
    match path.chords(4.0).as_slice() {
        [one] => Some(*one),
        _ => None,
    }
}

/// Dimension lines and leaders of a page: what carries two heads is the first, what begins at one and goes on level
/// under words is the second.
fn drawn(page: &Page) -> Vec<Drawn> {
    let heads: Vec<(Point, Point)> = page.marks.iter().filter_map(head).collect();
    let mut all = Vec::new();
    for (i, mark) in page.marks.iter().enumerate() {
        let Mark::Stroke(path, Line::Narrow, _) = mark else { continue };
        if path.contours.iter().any(|c| c.closed) {
            continue;
        }
        let mut pieces = path.chords(4.0);
        let on: Vec<Point> =
            heads.iter().filter(|(tip, heel)| lies_on(&pieces, *tip) && lies_on(&pieces, *heel)).map(|h| h.0).collect();
        match (on.as_slice(), pieces.first().copied()) {
            ([one], Some((from, to))) if pieces.len() == 1 && one.distance(from) < 1e-6 => {
                let level = page
                    .marks
                    .get(i + 1)
                    .and_then(straight)
                    .filter(|(a, b)| a.distance(to) < 1e-6 && (a.y - b.y).abs() < 1e-6);
                pieces.extend(level);
                all.push(Drawn { pieces, leader: true });
            }
            ([_, _, ..], _) => all.push(Drawn { pieces, leader: false }),
            _ => (),
        }
    }
    all
}

/// Both pass through each other, not merely up to each other.
fn cross((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    let side = |p: Point, q: Point, r: Point| {
        let across = (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
        across / p.distance(q).max(1e-9)
    };
    let apart = |s: f64, t: f64| s * t < 0.0 && s.abs() > 1e-3 && t.abs() > 1e-3;
    apart(side(a, b, c), side(a, b, d)) && apart(side(c, d, a), side(c, d, b))
}

/// How many pairs of leaders cross on a page, and how many pairs of a leader and a dimension line.
pub fn crossings(page: &Page) -> (usize, usize) {
    let all = drawn(page);
    let meet = |a: &Drawn, b: &Drawn| a.pieces.iter().any(|p| b.pieces.iter().any(|q| cross(*p, *q)));
    let (mut leaders, mut lines) = (0, 0);
    for (i, a) in all.iter().enumerate() {
        for b in all.iter().skip(i + 1).filter(|b| meet(a, b)) {
            match (a.leader, b.leader) {
                (true, true) => leaders += 1,
                (false, false) => (),
                _ => lines += 1,
            }
        }
    }
    (leaders, lines)
}

/// Crossings over the sheets of some parts, with where they stand, and how many leaders were seen.
fn over(designs: &[Design]) -> (usize, Vec<String>, usize) {
    let (mut pairs, mut places, mut leaders) = (0, Vec::new(), 0);
    for design in designs {
        for style in styles() {
            let Ok(sheets) = of_design::sheets(design, &style) else { continue };
            for page in &sheets.bench {
                leaders += drawn(page).iter().filter(|d| d.leader).count();
                let (both, one) = crossings(page);
                if both + one > 0 {
                    pairs += both + one;
                    let stem = &design.header.stem;
                    places.push(format!("{stem}, {:?}: {both} leaders, {one} dimension lines", style.paper));
                }
            }
        }
    }
    (pairs, places, leaders)
}

#[test]
fn no_leader_of_the_demo_crosses_another_or_a_dimension_line() {
    let (pairs, places, leaders) = over(&[demonstration(), inches()].concat());
    assert!(leaders > 100, "only {leaders} leaders seen");
    // One dimension line of the bush with its washer, in inches, has no room left on either paper.
    let known =
        |place: &&String| place.starts_with("bush-arm-latch-inch") && place.ends_with("0 leaders, 1 dimension lines");
    let others: Vec<&String> = places.iter().filter(|place| !known(place)).collect();
    assert!(pairs <= 2 && others.is_empty(), "{others:?}");
}

#[test]
fn hardly_a_leader_of_parts_by_lot_crosses_anything() {
    let designs: Vec<Design> = (0..300_u64)
        .filter(|s| s % 5 != 4)
        .filter_map(|seed| part(seed).work(&format!("part-{seed}.toml")).ok())
        .collect();
    let (pairs, places, leaders) = over(&designs);
    assert!(leaders > 1000, "only {leaders} leaders seen");
    // Some sleeves have more said of one side than has room there.
    assert!(pairs * 60 <= leaders, "{pairs} of {leaders}: {}", places.join("\n"));
}
