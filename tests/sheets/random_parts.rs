//! Sheets of parts that nobody chose: part files drawn by lot, worked as the program works them, every page looked at.

use std::path::PathBuf;

use setdown::export::{self, Options};
use setdown::record::design::{Design, Verdict};
use setdown::sheet::annotation::HEAD;
use setdown::sheet::arrange::LEGIBLE;
use setdown::sheet::content::Style;
use setdown::sheet::label::Label;
use setdown::sheet::scale::Paper;
use setdown::sheet::symbols::Projection;
use setdown::sheet::{Area, Line, Mark, Page, Path, Point, Shade, of_design};
use setdown::shop::Shop;

use super::all_of;
use super::lot::part;

/// How many parts are drawn by lot, and how many of them at least must be such as can be made.
const PARTS: u64 = 300;
const WORKED: usize = 280;

/// Each paper with each projection; the first as the seed has it.
fn styles(seed: u64) -> [Style; 4] {
    let of = |k: u64| Style {
        paper: if k.is_multiple_of(2) { Paper::A4 } else { Paper::Letter },
        projection: if (k / 2).is_multiple_of(2) { Projection::First } else { Projection::Third },
        date: seed.is_multiple_of(3).then(|| "2025-03-01".into()),
        owner: seed.is_multiple_of(5).then(|| "Rig shop, bay behind the paint store".into()),
        ..Style::default()
    };
    [0, 1, 2, 3].map(|k| of(seed / 5 + k))
}

/// Tip and heel of an arrow head.
fn head(mark: &Mark) -> Option<(Point, Point)> {
    let Mark::Fill(Path { contours }, Shade::Black) = mark else { return None };
    let [one] = contours.as_slice() else { return None };
    let [tip, a, b, _] = one.points(6.0).try_into().ok()?;
    let heel = a.middle(b);
    let is_head = (tip.distance(heel) - HEAD).abs() < 1e-6 && (a.distance(b) - HEAD / 3.0).abs() < 1e-6;
    is_head.then_some((tip, heel))
}

/// How far along the line the point lies; `None` if it does not lie on it. Arcs count as chords.
fn along(chords: &[(Point, Point)], p: Point) -> Option<f64> {
    let mut before = 0.0;
    for (a, b) in chords {
        let length = a.distance(*b);
        if (a.distance(p) + p.distance(*b) - length).abs() < 0.02 {
            return Some(before + a.distance(p));
        }
        before += length;
    }
    None
}

/// ISO 129-1: every arrow head lies whole on a line that carries it, and two that point away from each other on one
/// line have room for both.
fn arrow_faults(page: &Page) -> Vec<String> {
    let carrier = |m: &Mark| match m {
        Mark::Stroke(path, Line::Narrow | Line::Wide, _) if path.contours.iter().all(|c| !c.closed) => {
            Some(path.chords(2.0))
        }
        _ => None,
    };
    let lines: Vec<Vec<(Point, Point)>> = page.marks.iter().filter_map(carrier).collect();
    let heads: Vec<(Point, Point)> = page.marks.iter().filter_map(head).collect();
    let mut carried = vec![false; heads.len()];
    let mut found = Vec::new();
    for line in &lines {
        let mut on: Vec<(f64, bool)> = Vec::new();
        for (i, (tip, heel)) in heads.iter().enumerate() {
            if let (Some(t), Some(h)) = (along(line, *tip), along(line, *heel)) {
                carried[i] = true;
                on.push((t, h > t));
            }
        }
        on.sort_by(|a, b| a.0.total_cmp(&b.0));
        let short = on.windows(2).find(|pair| pair[0].1 && !pair[1].1 && pair[1].0 - pair[0].0 < 2.0 * HEAD);
        found.extend(short.map(|pair| format!("arrows inside only {:.2} mm", pair[1].0 - pair[0].0)));
    }
    let loose = heads.iter().zip(&carried).filter(|(_, on)| !**on);
    found.extend(loose.map(|((tip, _), _)| format!("arrow not on a line, tip {tip:?}")));
    found
}

/// A line that ends on a number, and its unit alone at the beginning of the next.
fn torn_units(page: &Page) -> Vec<String> {
    let unit = |words: &str| {
        let first = words.split(' ').next().unwrap_or("");
        ["mm", "in", "N", "kN", "MPa", "kg", "lb", "°C", "rpm"].contains(&first.trim_end_matches(['.', ',', ';']))
    };
    let texts: Vec<_> = page.texts().collect();
    let torn = texts.windows(2).filter(|pair| {
        let under = pair[0].at.y - pair[1].at.y;
        let next = (pair[0].at.x - pair[1].at.x).abs() < 1e-6 && under > 0.0 && under < 2.0 * pair[0].height;
        let number = pair[0].words.rsplit(' ').next().is_some_and(|w| w.parse::<f64>().is_ok());
        next && number && unit(&pair[1].words)
    });
    torn.map(|pair| format!("`{}` torn from `{}`", pair[0].words, pair[1].words)).collect()
}

/// Lettering over an arrow head.
fn words_on_heads(page: &Page) -> Vec<String> {
    let heads: Vec<_> = page.marks.iter().filter(|m| head(m).is_some()).map(Mark::area).collect();
    let covered = page.texts().filter(|t| heads.iter().any(|h| t.area().grown(-0.05).overlaps(*h)));
    covered.map(|t| format!("`{}` over an arrow head", t.words)).collect()
}

/// A check in order must not show a value that misses its limit.
fn green_beside_a_missed_limit(design: &Design) -> Vec<String> {
    let in_order = design.findings.iter().filter(|f| f.verdict == Verdict::Ok);
    let missed = in_order.filter(|f| f.value.as_ref().is_some_and(|v| f.limit.is_missed_by(v)));
    missed.map(|f| format!("{} is in order: {:?}, {:?}", f.key, f.value, f.limit)).collect()
}

/// ISO 129-1:2018: a size stands once on a drawing; where it helps to have it again, or where it follows from others, it is
/// auxiliary and stands in brackets. Each of several pieces is a part of its own.
fn twice(design: &Design) -> Vec<String> {
    let views = design.drawing.iter().flat_map(|drawing| &drawing.views).filter(|_| design.solids.len() == 1);
    let mut keys: Vec<&str> =
        views.flat_map(|v| &v.dimensions).filter(|d| !d.auxiliary).map(|d| d.key.as_str()).collect();
    keys.sort_unstable();
    let again = keys.windows(2).filter(|pair| pair[0] == pair[1]);
    again.map(|pair| format!("{} stands twice without brackets", pair[0])).collect()
}

/// The views on a page: all wide lines over the title block.
fn views_on(page: &Page) -> Area {
    let wide = |m: &&Mark| matches!(m, Mark::Stroke(_, Line::Wide, _)) && m.area().bottom > TITLE_BLOCK;
    Area::of(page.marks.iter().filter(wide))
}

/// Upper edge of the title block of a first sheet, mm.
const TITLE_BLOCK: f64 = 46.0;
/// The views and what is said of them cover at least this share of the paper.
const SHARE: f64 = 0.025;

fn scales(page: &Page) -> Vec<f64> {
    let ratio = |words: &str| {
        let (paper, part) = words.strip_prefix("Drawing, continued: scale ").unwrap_or(words).split_once(':')?;
        // Whole numbers: a taper is written 1:0.866.
        Some(f64::from(paper.parse::<u32>().ok()?) / f64::from(part.parse::<u32>().ok()?))
    };
    page.texts().filter_map(|t| ratio(&t.words)).collect()
}

/// What is wrong with the drawing of a part: a sheet with a scale and no view, views too small to be read, a size
/// that the drawing asks for and neither shows nor names.
fn drawing_faults(design: &Design, pages: &[Page]) -> Vec<String> {
    let content = of_design::content(design);
    let drawn: Vec<&Page> = pages.iter().filter(|p| !scales(p).is_empty()).collect();
    if content.drawing.views.is_empty() {
        return drawn.iter().map(|_| "a scale on a sheet without a view".to_string()).collect();
    }
    let mut found = Vec::new();
    if drawn.first().map(|p| p.marks.len()) != pages.first().map(|p| p.marks.len()) {
        found.push("no scale on the first sheet".to_string());
    }
    for page in &drawn {
        let (views, scale) = (views_on(page), scales(page));
        let heads = page.marks.iter().filter(|m| head(m).is_some()).map(Mark::area);
        let all = heads.fold(views, Area::with);
        let share = all.width() * all.height() / (page.width * page.height);
        if scale.len() != 1 || views.width().max(views.height()) < LEGIBLE - 1e-6 || share < SHARE {
            found.push(format!(
                "views of {:.1} × {:.1} mm, {share:.3} of the sheet, scales {scale:?}",
                views.width(),
                views.height()
            ));
        }
    }
    found.extend(twice(design));
    let words: Vec<&str> = drawn.iter().flat_map(|p| p.texts()).map(|t| t.words.as_str()).collect();
    let all = words.join(" ");
    for key in content.drawing.views.iter().flat_map(|v| &v.dimensions).map(|d| &d.key) {
        let figure = content.labels.get(key).and_then(Label::figure).unwrap_or("no figure");
        let name = content.sizes.iter().find(|s| s.key == *key).map_or("no name", |s| s.what.as_str());
        let named = all.contains("No room in the drawing") && all.contains(name);
        if !named && !words.iter().any(|w| w.contains(figure)) {
            found.push(format!("{key}, {figure}, is neither drawn nor named"));
        }
    }
    found
}

/// Works one part; how many arrows its sheets have and their faults, each with the seed, or why it was refused. One
/// set of its files is left for the readers in tests/oracle.
fn look_at(seed: u64) -> Result<(usize, Vec<String>), String> {
    let part = part(seed);
    let family = part.family;
    let design = part
        .work(&format!("{family}-{seed}.toml"))
        .map_err(|told| format!("{seed} {family}: {}", told.lines().take(3).collect::<Vec<_>>().join(" ")))?;
    let mut found = green_beside_a_missed_limit(&design);
    let mut arrows = 0;
    for style in styles(seed) {
        let pages =
            all_of(of_design::sheets(&design, &style).map_err(|why| format!("{seed} {family}: no sheet: {why}"))?);
        let drawn = drawing_faults(&design, &pages).into_iter();
        found.extend(drawn.map(|f| format!("{:?}, {:?}: {f}", style.paper, style.projection)));
        for (i, page) in pages.iter().enumerate() {
            let all = super::faults(page).into_iter().chain(arrow_faults(page)).chain(torn_units(page));
            let place = format!("{:?}, {:?}, sheet {}", style.paper, style.projection, i + 1);
            found.extend(all.chain(words_on_heads(page)).map(|f| format!("{place}: {f}")));
            arrows += page.marks.iter().filter_map(head).count();
        }
    }
    leave_files(&design, &styles(seed)[0]);
    Ok((arrows, found.into_iter().map(|f| format!("{seed} {family}: {f}")).collect()))
}

/// Where the files of the parts are left.
fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("sheets")
}

fn leave_files(design: &Design, style: &Style) {
    let only = ["pdf", "svg", "json", "dxf"].map(String::from).to_vec();
    let options = Options { style: style.clone(), only, ..Options::default() };
    for (name, bytes) in export::files(design, &options).expect("files") {
        std::fs::write(folder().join(name), bytes).expect("written");
    }
}

/// The scale of every sheet with a drawing, on both papers and in both projections; every fault of them.
fn scales_of(text: &str, beside: &[(&'static str, String)]) -> (Vec<f64>, Vec<String>) {
    let neighbour = |_: &str, name: &str| {
        let found = beside.iter().find(|(n, _)| *n == name).ok_or("no such file")?;
        Ok((name.to_string(), found.1.clone()))
    };
    let design = setdown::job::work("part.toml", text, &Shop::default(), &neighbour).expect("a sound part");
    let styles = [Paper::A4, Paper::Letter].into_iter().flat_map(|paper| {
        [Projection::First, Projection::Third].map(|projection| Style { paper, projection, ..Style::default() })
    });
    let (mut all, mut faults) = (Vec::new(), Vec::new());
    for style in styles {
        let pages = all_of(of_design::sheets(&design, &style).expect("sheets"));
        all.extend(pages.first().into_iter().flat_map(scales));
        faults.extend(drawing_faults(&design, &pages));
        faults.extend(pages.iter().flat_map(super::faults));
    }
    (all, faults)
}

/// A slot is drawn as large as its plate allows, whatever its angle and however long the title of its view.
#[test]
fn slots_at_any_angle_have_a_drawing() {
    let cone = "family = \"cone\"\nname = \"its cone\"\nbase_diameter = \"60 mm\"\ntip_diameter = \"24 mm\"\nhalf_angle = \"30 deg\"\n";
    let beside = [("cone.toml", cone.to_string())];
    for unit in ["mm", "in"] {
        for mates in ["", "mates = \"cone.toml\"\n"] {
            for (length, degrees) in
                [(52.473, -23.96), (45.0, 0.0), (50.0, 45.0), (47.5, 67.35), (52.0, 90.0), (44.3, 120.0)]
            {
                let text = format!(
                    "family = \"cup\"\nname = \"slot\"\nunits = \"{unit}\"\nlength = \"120 mm\"\nwidth = \"100 mm\"\n\
                     thickness = \"8 mm\"\n{mates}[hole]\nkind = \"slot\"\ndiameter = \"40 mm\"\nlength = \"{length} mm\"\n\
                     direction = \"{degrees} deg\"\n[mounting]\nthread = \"M8\"\nspacing = [\"90 mm\", \"70 mm\"]\n"
                );
                let (scales, faults) = scales_of(&text, &beside);
                assert!(faults.is_empty(), "{text}: {}", faults.join("; "));
                assert!(scales.len() == 4 && scales.iter().all(|s| *s >= 0.5), "{text}: {scales:?}");
            }
        }
    }
}

/// A sleeve in many pieces is laid out in rows or over more sheets.
#[test]
fn sleeves_in_many_pieces_have_a_drawing() {
    for pieces in 2..9 {
        let mut text = "family = \"sleeve\"\nname = \"stack\"\nbore = \"30 mm\"\noutside_diameter = \"50 mm\"\nlength = \"150 mm\"\n\
                        bore_class = \"H7\"\noutside_class = \"h6\"\n"
            .to_string();
        for i in 0..pieces {
            let length = if i + 1 == pieces { String::new() } else { format!("length = \"{} mm\"\n", 150 / pieces) };
            text += &format!("[[segment]]\nname = \"piece {i}\"\n{length}");
        }
        let (scales, faults) = scales_of(&text, &[]);
        assert!(faults.is_empty(), "{pieces} pieces: {}", faults.join("; "));
        assert!(scales.len() == 4 && scales.iter().all(|s| *s >= 0.5), "{pieces} pieces: {scales:?}");
    }
}

#[test]
fn parts_drawn_by_lot_have_sheets_in_order() {
    let _ = std::fs::remove_dir_all(folder());
    std::fs::create_dir_all(folder()).expect("a folder");
    let shares: Vec<Vec<_>> = std::thread::scope(|scope| {
        let run = |k: u64| scope.spawn(move || (0..PARTS).filter(|s| s % 2 == k).map(look_at).collect());
        [run(0), run(1)].into_iter().map(|t| t.join().expect("a share of the parts")).collect()
    });
    let (mut worked, mut arrows, mut refused, mut found) = (0, 0, Vec::new(), Vec::new());
    for part in shares.into_iter().flatten() {
        match part {
            Ok((heads, faults)) => {
                worked += 1;
                arrows += heads;
                found.extend(faults);
            }
            Err(why) => refused.push(why),
        }
    }
    assert!(worked >= WORKED, "{} refused: {}", refused.len(), refused[..refused.len().min(12)].join("\n"));
    assert!(arrows > 15 * worked, "only {arrows} arrows seen on {worked} parts");
    assert!(found.is_empty(), "{} faults: {}", found.len(), found[..found.len().min(5000)].join("\n"));
}

/// Arrows that need more room than their line has, and one that points the wrong way.
#[test]
fn the_arrow_check_sees_faults() {
    let mut page = Page::new(210.0, 297.0, "two arrows on a line too short for them");
    let (a, b) = (Point::new(100.0, 100.0), Point::new(105.0, 100.0));
    let arrow = |tip, from| Mark::Fill(setdown::sheet::annotation::Arrow { tip, from }.head(), Shade::Black);
    page.marks = vec![Mark::line(a, b, Line::Narrow), arrow(a, b), arrow(b, a)];
    assert_eq!(arrow_faults(&page).len(), 1);
    page.marks = vec![Mark::line(a, b, Line::Narrow), arrow(a, a - b + a)];
    assert_eq!(arrow_faults(&page).len(), 1);
}
