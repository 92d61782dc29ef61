//! What goes to the bench is short: the drawing, the work in order, no more.

use std::path::Path as File;

use setdown::record::design::Design;
use setdown::sheet::content::Style;
use setdown::sheet::of_design;
use setdown::sheet::scale::Paper;
use setdown::shop::Shop;

/// Sheets that a part and a landing may have at the bench.
const PART: usize = 3;
const LANDING: usize = 4;

fn demo(shop: &Shop) -> Vec<Design> {
    let folder = File::new(env!("CARGO_MANIFEST_DIR")).join("parts");
    let read = |name: &str| std::fs::read_to_string(folder.join(name)).map_err(|e| e.to_string());
    let beside = |_: &str, name: &str| Ok((name.to_string(), read(name)?));
    let names = std::fs::read_dir(&folder).expect("the demo").map(|f| f.expect("a file").file_name());
    let mut names: Vec<String> = names.map(|n| n.to_string_lossy().into_owned()).collect();
    names.retain(|n| n.ends_with(".toml") && n != "shop.toml");
    names.sort();
    let work = |name: &String| setdown::job::work(name, &read(name).expect("a file"), shop, &beside).expect("sound");
    names.iter().map(work).collect()
}

/// On both papers, in mm and in inch: a few sheets at the bench, drawings among the first, the rest among the reasons.
#[test]
fn the_bench_gets_few_sheets() {
    let inch = Shop::read("shop.toml", "family = \"shop\"\nunits = \"in\"\n").expect("a shop");
    let mut found = Vec::new();
    for shop in [Shop::default(), inch] {
        let designs = demo(&shop);
        assert!(designs.len() >= 10);
        for design in designs {
            for paper in [Paper::A4, Paper::Letter] {
                let sheets = of_design::sheets(&design, &Style { paper, ..Style::default() }).expect("sheets");
                let most = match design.header.family {
                    "landing" => LANDING,
                    // Pieces whose drawings find no room on one sheet.
                    _ => PART + sheets.drawings - 1,
                };
                let (bench, stem) = (sheets.bench.len(), &design.header.stem);
                if bench > most || sheets.drawings > 2 || sheets.reasons.is_empty() {
                    found.push(format!(
                        "{stem}, {paper:?}, {:?}: {bench} sheets, {} drawings",
                        shop.unit, sheets.drawings
                    ));
                }
            }
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
}

/// The demo and every template, in mm and in inch.
fn all_parts() -> Vec<Design> {
    let inch = Shop::read("shop.toml", "family = \"shop\"\nunits = \"in\"\n").expect("a shop");
    let mut all = Vec::new();
    for shop in [Shop::default(), inch] {
        all.extend(demo(&shop));
        for family in setdown::families::FAMILIES {
            let beside = |_: &str, name: &str| Err::<(String, String), String>(format!("no {name}"));
            let file = format!("template-{}.toml", family.name);
            all.extend(setdown::job::work(&file, family.template, &shop, &beside).ok());
        }
    }
    all
}

/// Drawings in the other unit than the one they were made in, and of tapped clamps, whose figures take all the room that the sizes
/// would want.
const CROWDED: [(&str, &str); 12] = [
    ("adapter-counterweight", "in"),
    ("template-adapter", "mm"),
    ("template-adapter", "in"),
    ("template-stand", "mm"),
    ("template-stand", "in"),
    ("cup-rear-right", "in"),
    ("sleeve-pivot", "in"),
    ("bush-arm-latch", "mm"),
    ("bush-arm-latch", "in"),
    ("clamp-hand-crank", "in"),
    ("template-clamp", "mm"),
    ("template-clamp", "in"),
];

/// Every size that is made stands on the first sheet, whole: nobody turns the page at the machine to find one, and no figure
/// is broken over two lines.
#[test]
fn every_size_stands_whole_on_the_first_sheet() {
    let mut found = Vec::new();
    let mut seen = 0;
    for design in all_parts() {
        for paper in [Paper::A4, Paper::Letter] {
            let style = Style { paper, ..Style::default() };
            let content = of_design::content(&design);
            let sheets = of_design::sheets(&design, &style).expect("sheets");
            let first: Vec<&str> = sheets.bench[0].texts().map(|t| t.words.as_str()).collect();
            for size in content.to_make() {
                seen += 1;
                let figures = [&size.least[0], &size.most[0]].into_iter().filter(|f| !f.is_empty());
                let crowded = CROWDED.contains(&(design.header.stem.as_str(), content.unit.as_str()));
                for figure in figures.filter(|f| !crowded && !first.contains(&f.as_str())) {
                    found.push(format!("{}, {paper:?}, {}: {} {figure}", design.header.stem, content.unit, size.what));
                }
            }
            for word in [&content.kind, &content.number] {
                if !first.contains(&word.as_str()) {
                    found.push(format!("{}, {paper:?}: `{word}` is broken in the title block", design.header.stem));
                }
            }
        }
    }
    assert!(seen > 300, "only {seen} sizes seen");
    assert!(found.is_empty(), "{} of {seen}: {}", found.len(), found.join("\n"));
}

/// Of eight pieces the first three and the last have boxes beside the sizes; the others a line each after the work.
#[test]
fn every_piece_has_a_box() {
    let text = "family = \"cone\"\ncount = 8\nmaterial = \"steel S235\"\nbase_diameter = \"60 mm\"\ntip_diameter = \"24 mm\"\nhalf_angle = \"30 deg\"\nfoot = \"6 mm\"\nmounting = \"weld-on\"\n";
    let nobody = |_: &str, _: &str| Err(String::new());
    let design = setdown::job::work("cone.toml", text, &Shop::default(), &nobody).expect("a cone");
    let sheets = of_design::sheets(&design, &Style::default()).expect("sheets");
    let words = |page: &setdown::sheet::Page| -> Vec<String> {
        let texts = page.marks.iter().filter_map(|m| match m {
            setdown::sheet::Mark::Text(text) => Some(text.words.clone()),
            _ => None,
        });
        texts.collect()
    };
    let all: Vec<String> = sheets.bench.iter().flat_map(words).collect();
    for wanted in ["no. 1", "no. 2", "no. 3", "last", "Measured, piece by piece", "4", "5", "6", "7"] {
        assert!(all.iter().any(|w| w == wanted), "no {wanted}");
    }
}
