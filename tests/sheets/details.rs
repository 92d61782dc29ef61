//! Detail views: what is too small at the scale of the sheet stands in a circle with a letter and is drawn larger on the same
//! sheet, at a scale of ISO 5455, with its sizes there and not in the view (ISO 128-3:2020, local detail views).

use setdown::sheet::content::Style;
use setdown::sheet::detail::{TOO_SMALL, details};
use setdown::sheet::scale::{Paper, Scale};
use setdown::sheet::{Line, Mark, Page, Step, of_design};

use super::{demonstration, inches, mock};

/// The scale in the title block, and letter and scale of every detail.
fn scales(page: &Page) -> (Option<Scale>, Vec<(String, Scale)>) {
    let series = |words: &str| Scale::SERIES.into_iter().find(|s| s.to_string() == words);
    let main = page.texts().find_map(|t| series(&t.words));
    let detail = |words: &str| {
        let (letter, scale) = words.strip_suffix(')')?.split_once(" (")?;
        Some((letter.to_string(), series(scale)?))
    };
    (main, page.texts().filter_map(|t| detail(&t.words)).collect())
}

/// Radii of the whole circles in narrow lines.
fn circles(page: &Page) -> Vec<f64> {
    let radius = |mark: &Mark| {
        let Mark::Stroke(path, Line::Narrow, _) = mark else { return None };
        let [one] = path.contours.as_slice() else { return None };
        let round = one.closed && one.steps.iter().all(|s| matches!(s, Step::Arc { .. }));
        round.then(|| mark.area().width() / 2.0)
    };
    page.marks.iter().filter_map(radius).collect()
}

/// Every detail has its circle, larger than that about its place as its scale is larger; its letter stands beside that; its
/// figures stand once.
#[test]
fn details_show_their_place_larger() {
    let (mut seen, mut faults, mut wanted) = (0, Vec::new(), 0);
    for design in [demonstration(), inches()].concat() {
        for paper in [Paper::A4, Paper::Letter] {
            let sheets = of_design::sheets(&design, &Style { paper, ..Style::default() }).expect("sheets");
            let content = of_design::content(&design);
            for page in &sheets.bench[..sheets.drawings] {
                let (Some(main), found) = scales(page) else { continue };
                let all = circles(page);
                for (letter, scale) in &found {
                    seen += 1;
                    let ratio = scale.factor() / main.factor();
                    let pair =
                        all.iter().any(|small| all.iter().any(|large| (large / small / ratio - 1.0).abs() < 1e-6));
                    let letters = page.texts().filter(|t| t.words == *letter).count();
                    if ratio < 1.9 || !pair || letters != 1 {
                        faults.push(format!("{}, {paper:?}: {letter} {scale} of {main}", design.header.stem));
                    }
                }
                // What wants a detail at this scale and what has one.
                for view in &content.drawing.views {
                    for detail in details(view, main, 0) {
                        wanted += 1;
                        let keys = detail.dimensions.iter().map(|i| &view.dimensions[*i].key);
                        for figure in keys.filter_map(|key| content.labels.get(key)?.figure()) {
                            let said = page.texts().filter(|t| t.height > 3.0 && t.words.contains(figure)).count();
                            if found.iter().any(|(_, scale)| *scale == detail.scale) && said == 0 {
                                faults.push(format!("{}, {paper:?}: {figure} stands nowhere", design.header.stem));
                            }
                        }
                    }
                }
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert!(wanted > 20 && seen * 10 >= wanted * 7, "{seen} details for {wanted} that are wanted");
}

/// A chamfer of 0.5 mm at 1:1 is under 2.5 mm on paper, the plate's own thickness is no detail of it, and at 10:1 nothing is small.
#[test]
fn only_what_is_small_wants_a_detail() {
    let view = mock::cone_view();
    const { assert!(TOO_SMALL > 2.0) };
    let at = |paper, part| details(&view, Scale { paper, part }, 0).len();
    assert_eq!(at(10, 1), 0, "all is large enough");
    let demo = demonstration();
    let cup = demo.iter().find(|d| d.header.stem == "cup-front-left").expect("a cup with a chamfer");
    let section = &cup.drawing.as_ref().expect("a drawing").views[0];
    let found = details(section, Scale { paper: 1, part: 2 }, 0);
    assert_eq!(found.len(), 1);
    let keys: Vec<&str> = found[0].dimensions.iter().map(|i| section.dimensions[*i].key.as_str()).collect();
    assert_eq!(keys, ["chamfer"], "the chamfer alone");
    // 0.5 mm at 1:2 is 0.25 mm on paper; at 5:1 it is the 2.5 mm that are wanted.
    assert_eq!(found[0].scale, Scale { paper: 5, part: 1 });
}
