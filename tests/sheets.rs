//! Drawing sheets: dimensions placed by rule, pages that keep to their frame, files that other programs read.

#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing that is not as it should be"
)]

#[path = "sheets/budget.rs"]
mod budget;
#[path = "sheets/crossings.rs"]
mod crossings;
#[path = "sheets/details.rs"]
mod details;
mod lot;
#[path = "sheets/mock.rs"]
mod mock;
#[path = "sheets/random_parts.rs"]
mod random_parts;
#[path = "sheets/verdicts.rs"]
mod verdicts;

use std::path::PathBuf;

use proptest::prelude::*;
use setdown::export::{dxf, json, pdf, svg};
use setdown::record::design::Design;
use setdown::record::drawing::{Characteristic, Drawing, Edge, How, Side, Stands, View};
use setdown::shape::Segment;
use setdown::sheet::annotation::{Annotation, HEAD};
use setdown::sheet::content::{Content, Style};
use setdown::sheet::label::{Field, Label};
use setdown::sheet::leader::{Corner, End, Leader};
use setdown::sheet::place::{Scene, place};
use setdown::sheet::scale::Paper;
use setdown::sheet::spans::{FIRST, NEXT, Span, Tag};
use setdown::sheet::symbols::Projection;
use setdown::sheet::template::template;
use setdown::sheet::{Area, Line, Mark, Page, Path, Point, layout, of_design, title_block};
use setdown::units::{Length, LengthUnit};

/// A truncated cone lying on its side: the outline of a view with slanting edges.
fn outline() -> impl Strategy<Value = [Point; 4]> {
    (8.0..140.0_f64, 6.0..120.0_f64, 0.2..1.0_f64).prop_map(|(length, large, ratio)| {
        let small = large * ratio;
        [
            Point::new(0.0, -small / 2.0),
            Point::new(length, -large / 2.0),
            Point::new(length, large / 2.0),
            Point::new(0.0, small / 2.0),
        ]
    })
}

fn label() -> impl Strategy<Value = Label> {
    let size = prop_oneof!["Ø[1-9][0-9]{0,2}", "[1-9][0-9]?\\.[0-9]{1,3}", "R[1-9]", "4× Ø9 H12"];
    let tail = prop_oneof![Just(String::new()), "\\(\\+0\\.0[0-9]{2} / 0\\)", "h6 \\(0 / −0\\.013\\)"];
    (size, tail).prop_map(|(size, tail)| Label::new(&size, &tail))
}

fn side() -> impl Strategy<Value = Side> {
    prop::sample::select(Side::ALL.to_vec())
}

/// A point of the outline's rectangle, as parts of its width and height.
fn at(corners: &[Point; 4], (x, y): (f64, f64)) -> Point {
    let area = Area::around(*corners);
    Point::new(area.left + x * area.width(), area.bottom + y * area.height())
}

/// A tolerance frame, a datum, or both, at the ends of a dimension line.
fn tags() -> impl Strategy<Value = Vec<Tag>> {
    let frame = (prop::sample::select(Characteristic::ALL.to_vec()), 1..3_usize).prop_map(|(what, lines)| {
        let fields = || vec![Field::Sign(what), Field::Words("Ø0.05".into()), Field::Words("A".into())];
        let one = Label::boxed(fields());
        Tag { label: if lines == 1 { one } else { one.over(Label::boxed(fields())) }, datum: false }
    });
    let datum = Just(Tag { label: Label::boxed(vec![Field::Words("B".into())]), datum: true });
    let some = |frame: Option<Tag>, datum: Option<Tag>| frame.into_iter().chain(datum).collect::<Vec<Tag>>();
    (prop::option::weighted(0.3, frame), prop::option::weighted(0.3, datum)).prop_map(move |(f, d)| some(f, d))
}

prop_compose! {
    fn scene()(
        corners in outline(),
        spans in prop::collection::vec(((0.0..1.0_f64, 0.0..1.0_f64), (0.0..1.0_f64, 0.0..1.0_f64), side(), label(), tags()), 0..9),
        leaders in prop::collection::vec(((0.2..0.8_f64, 0.4..0.6_f64), 0.0..6.0_f64, label()), 0..5),
        angle in prop::option::of(label()),
    ) -> Scene {
        let spans = spans.into_iter().map(|(from, to, side, label, tags)| {
            Span { from: at(&corners, from), to: at(&corners, to), side, label, tags, name: "a size".into() }
        });
        let leaders = leaders.into_iter().map(|(p, radius, label)| Leader { at: at(&corners, p), others: vec![], radius, within: None, end: End::Arrow, label, name: String::new() });
        let [_, _, large, small] = corners;
        // The half-angle at the narrow end: between the axis direction and the slope, outside the body.
        let slope = large.direction(small).rem_euclid(360.0);
        let angles = angle.filter(|_| slope > 181.0).map(|label| Corner { vertex: small, from: 180.0, to: slope, shown: (0.0, 0.0), label, name: String::new() });
        Scene { outline: vec![Path::polygon(&corners)], spans: spans.collect(), corners: angles.into_iter().collect(), leaders: leaders.collect(), lines: vec![], letters: vec![] }
    }
}

fn texts(annotation: &Annotation) -> Vec<Area> {
    annotation.marks.iter().filter_map(|m| if let Mark::Text(t) = m { Some(t.area()) } else { None }).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, failure_persistence: None, rng_seed: proptest::test_runner::RngSeed::Fixed(5), ..ProptestConfig::default() })]

    /// ISO 129-1: dimensions are placed so that they can be read: nothing over figures; no arrow shorter than its head,
    /// none reversed, its head on the line that carries it.
    #[test]
    fn dimensions_never_touch(scene in scene()) {
        let placed = place(&scene);
        let drawn = |s: &&Span| match s.side {
            Side::Above | Side::Below => (s.from.x - s.to.x).abs() > 0.02,
            _ => (s.from.y - s.to.y).abs() > 0.02,
        };
        let (spans, short): (Vec<&Span>, Vec<&Span>) = scene.spans.iter().partition(|s| drawn(s));
        prop_assert_eq!(placed.left_out.len(), short.len(), "what is too short to be drawn is named");
        let wanted = spans.iter().map(|s| 1 + s.tags.len()).sum::<usize>() + scene.leaders.len() + scene.corners.len();
        prop_assert_eq!(placed.labels.len(), wanted);
        for (i, a) in placed.labels.iter().enumerate() {
            for b in &placed.labels[i + 1..] {
                prop_assert!(!a.overlaps(*b), "labels {:?} {:?}", a, b);
            }
            for (p, q) in placed.lines.iter().chain(&scene.outline[0].chords(6.0)) {
                prop_assert!(!a.is_cut_by(*p, *q), "line {:?} {:?} through label {:?}", p, q, a);
            }
            for arrow in &placed.arrows {
                prop_assert!(!a.overlaps(arrow.head().area()), "arrow {:?} on label {:?}", arrow, a);
            }
        }
        for arrow in &placed.arrows {
            prop_assert!(arrow.tip.distance(arrow.from) >= HEAD - 1e-6, "{:?}", arrow);
            let heel = Area::around(arrow.head().chords(6.0).into_iter().map(|(p, _)| p)).centre();
            prop_assert!(heel.distance(arrow.from) < arrow.tip.distance(arrow.from));
        }
        for text in texts(&placed) {
            prop_assert!(placed.labels.iter().any(|l| l.grown(0.01).holds(text)));
        }
    }

    /// Handbooks of drawing practice: first dimension line 10 mm off the outline, the next 8 mm on.
    #[test]
    fn dimension_lines_keep_their_distance(scene in scene()) {
        let mut alone = scene.clone();
        alone.leaders.clear();
        alone.corners.clear();
        alone.spans.retain(|s| s.side == Side::Above);
        let edge = Area::around(scene.outline[0].chords(6.0).into_iter().map(|(p, _)| p));
        let mut levels: Vec<f64> = place(&alone).lines.iter().filter(|(a, b)| (a.y - b.y).abs() < 1e-9).map(|(a, _)| a.y).collect();
        levels.sort_by(f64::total_cmp);
        levels.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
        if let Some(first) = levels.first() {
            prop_assert!(first - edge.top >= FIRST - 1e-9);
        }
        for pair in levels.windows(2) {
            prop_assert!(pair[1] - pair[0] >= NEXT - 1e-9);
        }
    }
}

/// Every part file of the demonstration rig, worked out.
fn demonstration() -> Vec<Design> {
    static ONCE: std::sync::OnceLock<Vec<Design>> = std::sync::OnceLock::new();
    ONCE.get_or_init(work_demonstration).clone()
}

fn work_demonstration() -> Vec<Design> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("parts");
    let read = |name: &str| std::fs::read_to_string(folder.join(name)).map_err(|e| e.to_string());
    let mut names: Vec<String> = std::fs::read_dir(&folder)
        .expect("the folder of parts")
        .map(|e| e.expect("an entry").file_name().into_string().expect("a name"))
        .collect();
    names.sort();
    names.retain(|n| n.ends_with(".toml") && n != "shop.toml");
    let neighbour = |_: &str, name: &str| Ok((name.to_string(), read(name)?));
    let shop = setdown::shop::Shop::default();
    let work = |name: &String| {
        setdown::job::work(name, &read(name).expect("a part file"), &shop, &neighbour).expect("a sound part")
    };
    names.iter().map(work).collect()
}

/// The same parts in a shop that works in inches.
fn inches() -> Vec<Design> {
    let mut designs = demonstration();
    for design in &mut designs {
        design.header.unit = LengthUnit::Inch;
        design.header.stem += "-inch";
    }
    designs
}

fn everything() -> Vec<Content> {
    let mut all = vec![mock::cone(), mock::plate()];
    all.extend([demonstration(), inches()].concat().iter().map(of_design::content));
    all
}

fn styles() -> [Style; 2] {
    let dated = Style { date: Some("2025-03-01".into()), owner: Some("Rig shop".into()), ..Style::default() };
    [dated, Style { paper: Paper::Letter, projection: Projection::Third, ..Style::default() }]
}

fn check_page(page: &Page) {
    let found = faults(page);
    assert!(found.is_empty(), "{}: {}", page.title, found.join("; "));
}

/// Every sheet, those for the bench and the reasons.
fn all_of(sheets: layout::Sheets) -> Vec<Page> {
    sheets.bench.into_iter().chain(sheets.reasons).collect()
}

/// What is wrong with a page: lettering too small, outside the frame or over other lettering; marks outside the frame.
fn faults(page: &Page) -> Vec<String> {
    let frame = title_block::frame(page);
    let texts: Vec<_> = page.texts().filter(|t| !t.words.trim().is_empty()).collect();
    let mut found = Vec::new();
    for (i, text) in texts.iter().enumerate() {
        let area = text.area();
        if text.height < 2.5 {
            found.push(format!("`{}` only {} mm high", text.words, text.height));
        }
        if !frame.holds(area) {
            found.push(format!("`{}` outside the frame: {area:?}", text.words));
        }
        for other in texts[i + 1..].iter().filter(|o| area.grown(-0.05).overlaps(o.area())) {
            found.push(format!("`{}` over `{}`: {area:?} {:?}", text.words, other.words, other.area()));
        }
    }
    let outside = page.marks.iter().map(Mark::area).filter(|a| !frame.grown(0.01).holds(*a));
    found.extend(outside.map(|a| format!("a mark outside the frame: {a:?}")));
    found
}

#[test]
fn sheets_keep_to_their_frame_and_letters_apart() {
    for content in everything() {
        for style in styles() {
            all_of(layout::sheets(&content, &style).expect("sheets")).iter().for_each(check_page);
        }
    }
}

/// No sheet is better than one that shows nothing, or not all: the fault is named.
#[test]
fn a_drawing_that_cannot_be_read_is_refused() {
    let told = |drawing: Drawing| {
        let content = Content { drawing, ..mock::cone() };
        layout::sheets(&content, &Style::default()).err().expect("no sheet")
    };
    let of = |view: View| Drawing { views: vec![view] };
    assert!(told(of(View::new("Nothing"))).contains("`Nothing`"));
    let asks = mock::cone_view().diameter(&mock::named("nobody_knows"), Length::ZERO, Length::mm(70.0), Side::Left);
    assert!(told(of(asks)).contains("nobody_knows"));
    let line = |title: &str, length: f64, stands: Stands| {
        let far = setdown::shape::Point::mm(length, 0.0);
        let edge = Segment::line(setdown::shape::Point::ORIGIN, far).expect("an edge");
        View { stands, edges: vec![(Edge::Visible, vec![edge])], ..View::new(title) }
    };
    // What keeps together and has no scale in common stands apart, each view at its own.
    let views = vec![line("Huge", 9000.0, Stands::Front), line("Tiny", 10.0, Stands::Above { round: false })];
    let apart = Content { drawing: Drawing { views }, ..mock::cone() };
    assert!(layout::sheets(&apart, &Style::default()).is_ok());
    let nothing = Content { drawing: Drawing::default(), pictures: Vec::new(), ..mock::cone() };
    assert!(layout::sheets(&nothing, &Style::default()).is_err());
}

/// Beside its plan a section lies on its side, its axis level; sizes go round with it.
#[test]
fn a_section_beside_its_plan_lies_down() {
    let flat = mock::plate_solid();
    let view = View::through("Section", &flat, Length::ZERO).distance(
        &mock::named("thickness"),
        setdown::shape::Point::ORIGIN,
        setdown::shape::Point::mm(0.0, 12.0),
        Side::Left,
    );
    let upright = setdown::sheet::trace::bare_area(&view);
    for clockwise in [true, false] {
        let lying = view.clone().lying(clockwise);
        let area = setdown::sheet::trace::bare_area(&lying);
        assert!((area.width() - upright.height()).abs() < 1e-9 && (area.height() - upright.width()).abs() < 1e-9);
        let How::Across { to, side, .. } = lying.dimensions[0].how else { panic!("a distance") };
        // In first angle the upper face is turned away from the plan on its left, in third towards it.
        let (x, wanted) = if clockwise { (12.0, Side::Above) } else { (-12.0, Side::Below) };
        assert!((to.x().as_mm() - x).abs() < 1e-9 && side == wanted, "{to:?} {side:?}");
    }
}

/// No seam of a tiled template runs through a centre that is punched.
#[test]
fn template_seams_keep_off_centres() {
    for width in [230.0, 260.0, 300.0, 340.0] {
        for paper in [Paper::A4, Paper::Letter] {
            let pages = template(&mock::plate_with_hole_in_the_middle(width), "plate", paper);
            let radius = |m: &Mark| {
                let area = m.area();
                ((area.width() - 20.0).abs() < 1e-6 && (area.height() - 20.0).abs() < 1e-6).then(|| area.centre())
            };
            for page in &pages {
                let dashed =
                    page.marks.iter().filter(|m| matches!(m, Mark::Stroke(_, Line::Hidden, _))).map(Mark::area);
                let seams: Vec<Area> = dashed.collect();
                for centre in page.marks.iter().filter_map(radius) {
                    assert!(!seams.iter().any(|s| s.grown(4.0).holds(Area::around([centre]))), "{width} {paper:?}");
                }
            }
        }
    }
}

/// Writes all sheets into the folder named by SHEETS_FOLDER, for the reader in tests/oracle; twice the same bytes.
#[test]
fn files_are_the_same_each_time() {
    let folder = std::env::var_os("SHEETS_FOLDER").map(PathBuf::from);
    for content in everything() {
        let pages = all_of(layout::sheets(&content, &styles()[0]).expect("sheets"));
        let bytes = pdf::write(&pages, &content.name);
        let again = all_of(layout::sheets(&content, &styles()[0]).expect("sheets"));
        assert!(bytes == pdf::write(&again, &content.name));
        assert!(bytes.starts_with(b"%PDF-1."));
        for (i, page) in pages.iter().enumerate() {
            let drawn = svg::write(page);
            assert!(drawn == svg::write(page) && drawn.ends_with("</svg>\n"));
            if let Some(folder) = &folder {
                std::fs::write(folder.join(format!("{}-sheet-{}.svg", content.number, i + 1)), drawn).expect("written");
            }
        }
        if let Some(folder) = &folder {
            std::fs::write(folder.join(format!("{}-sheet.pdf", content.number)), bytes).expect("written");
        }
    }
    if let Some(folder) = &folder {
        write_templates(folder);
    }
}

/// JSON, templates and the outlines for the laser, to compare with.
fn write_templates(folder: &std::path::Path) {
    let write = |name: String, bytes: Vec<u8>| std::fs::write(folder.join(name), bytes).expect("written");
    let mut cuttings =
        vec![("cup-plate".to_string(), mock::plate_cutting()), ("large-plate".to_string(), mock::large_cutting())];
    for design in demonstration() {
        write(format!("{}.json", design.header.stem), json::to_text(&json::whole(&design)).into_bytes());
        cuttings.extend(design.cutting.clone().map(|c| (design.header.stem.clone(), c)));
    }
    for (stem, cutting) in cuttings {
        let pages = template(&cutting, &stem, Paper::A4);
        write(format!("{stem}-template.pdf"), pdf::write(&pages, &stem));
        let options = dxf::Options { release: dxf::Release::R2000, unit: LengthUnit::Mm };
        write(format!("{stem}.dxf"), dxf::dxf(&cutting, options));
    }
}

/// A part larger than the sheet is spread over several, and every hole lies whole on at least one of them.
#[test]
fn a_large_template_is_tiled() {
    let pages = template(&mock::large_cutting(), "Frame plate", Paper::A4);
    assert!(pages.len() > 1);
    let holes = pages.iter().flat_map(|p| &p.marks).filter(|m| {
        let area = m.area();
        (area.width() - 40.0).abs() < 1e-6 && (area.height() - 40.0).abs() < 1e-6
    });
    assert!(holes.count() >= 4);
}

/// Pictures that explain: lettering apart, files written for the reader.
#[test]
fn pictures_keep_their_letters_apart() {
    let folder = std::env::var_os("SHEETS_FOLDER").map(PathBuf::from);
    for (name, marks) in mock::pictures() {
        let page = Page::cut_to(&marks, 5.0, name);
        let texts: Vec<_> = page.texts().collect();
        for (i, text) in texts.iter().enumerate() {
            for other in &texts[i + 1..] {
                assert!(
                    !text.area().grown(-0.05).overlaps(other.area()),
                    "{name}: {} over {}",
                    text.words,
                    other.words
                );
            }
        }
        if let Some(folder) = &folder {
            std::fs::write(folder.join(format!("{name}.svg")), svg::write(&page)).expect("written");
        }
    }
}
