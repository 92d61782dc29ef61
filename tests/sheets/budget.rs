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
