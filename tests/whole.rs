//! The whole job: what all parts of a folder need together, and the folder for the cutter.

mod lot;
mod program;

use std::collections::BTreeSet;
use std::fs;

use program::Bench;
use serde_json::Value as Json;

const CONE: &str = "family = \"cone\"\ncount = 2\nmaterial = \"steel S235\"\nbase_diameter = \"60 mm\"\ntip_diameter = \"24 mm\"\nhalf_angle = \"30 deg\"\ntip_radius = \"2 mm\"\nfoot = \"6 mm\"\nmounting = \"weld-on\"\n";
const CUP: &str = "family = \"cup\"\ncount = 3\nmaterial = \"steel S235\"\nlength = \"120 mm\"\nwidth = \"100 mm\"\nthickness = \"8 mm\"\nframe_wall = \"6 mm\"\n[hole]\nkind = \"round\"\ndiameter = \"40 mm\"\nclass = \"H11\"\nchamfer = \"0.5 mm\"\n[mounting]\nthread = \"M8\"\nspacing = [\"84 mm\", \"64 mm\"]\n";

fn job(bench: &Bench) -> Json {
    serde_json::from_str(&bench.read("out/job.json")).unwrap()
}

/// The lines of a list of the job.
fn list<'j>(job: &'j Json, key: &str) -> Vec<&'j Json> {
    let list = job["lists"].as_array().unwrap().iter().find(|l| l["key"] == key).unwrap();
    list["lines"].as_array().unwrap().iter().collect()
}

fn cutters(bench: &Bench) -> Vec<String> {
    bench.out().into_keys().filter_map(|n| n.strip_prefix("to-cutter/").map(str::to_string)).collect()
}

/// A second call changes nothing; a part by itself gives the bytes that all give together.
#[test]
fn one_part_by_itself_spoils_nothing() {
    let bench = Bench::new();
    bench.part("a.toml", CONE).part("b.toml", CUP);
    bench.make(&[]);
    let whole = bench.out();
    assert!(["job.pdf", "job.json", "job.csv", "to-cutter/order.txt"].iter().all(|n| whole.contains_key(*n)));
    assert!(bench.make(&[]).out.contains("nothing changed"));
    bench.part("b.toml", &CUP.replace("count = 3", "count = 4"));
    bench.make(&["parts/b.toml"]);
    let one = bench.out();
    assert_eq!(cutters(&bench), ["order.txt", "steel-S235_8mm_4x_b.dxf"]);
    fs::remove_dir_all(bench.path("out")).unwrap();
    bench.make(&[]);
    assert_eq!(bench.out(), one, "the same job, whichever way it came about");
    // With some kinds of file alone there is no job; one that is there stays while its parts do.
    bench.make(&["--only", "txt"]);
    assert!(bench.out().contains_key("job.pdf"));
    bench.part("b.toml", CUP);
    let ran = bench.make(&["--only", "txt"]);
    assert!(ran.out.contains("job: its parts have changed"), "{}", ran.out);
    assert!(!bench.out().keys().any(|n| n.starts_with("job.") || n.starts_with("to-cutter/")));
    bench.make(&[]);
    assert_eq!(bench.out(), whole);
}

/// A part that is faulty, and one that fails, stand in the list, marked, and nothing is ordered for them.
#[test]
fn what_is_not_in_order_is_left_out() {
    let bench = Bench::new();
    bench.part("a.toml", CONE).part("b.toml", CUP).part("c.toml", "family = \"cup\"\nthickness = \"-1 mm\"\n");
    bench.part("e.toml", &CUP.replace("count = 3", "count = 0"));
    bench.part("d.toml", &CUP.replace("\"M8\"", "\"M30\"").replace("40 mm", "70 mm"));
    let ran = bench.run(&["make"]);
    assert_ne!(ran.code, 0);
    let job = job(&bench);
    let verdict =
        |part: &str| job["parts"].as_array().unwrap().iter().find(|p| p["part"] == part).map(|p| p["verdict"].clone());
    assert_eq!((verdict("c"), verdict("e")), (Some("faulty".into()), Some("faulty".into())));
    let files: Vec<String> = cutters(&bench);
    assert!(files.iter().any(|f| f.ends_with("_b.dxf")) && !files.iter().any(|f| f.ends_with("_c.dxf")), "{files:?}");
    if verdict("d") != Some("ok".into()) && verdict("d") != Some("caution".into()) {
        assert!(!files.iter().any(|f| f.ends_with("_d.dxf")), "{files:?}");
    }
    assert!(
        list(&job, "parts").iter().any(|l| l["size"] == "FAULTY, left out" && !l["note"].as_str().unwrap().is_empty())
    );
    // Mended, it comes in.
    bench.part("c.toml", CUP).part("d.toml", CUP).part("e.toml", CUP);
    bench.make(&[]);
    assert_eq!(cutters(&bench).len(), 5);
}

/// Two materials or thicknesses never share a file, and every drawing of the order is that of its part.
#[test]
fn each_file_of_the_order_is_of_one_material_and_thickness() {
    let bench = Bench::new();
    bench.part("b.toml", CUP).part("c.toml", &CUP.replace("8 mm", "6 mm").replace("\"M8\"", "\"M6\""));
    bench.part("d.toml", &CUP.replace("steel S235", "aluminium 6061-T6"));
    bench.part("e.toml", "family = \"shim\"\nmaterial = \"steel 1045\"\ntarget_float = [\"0.10 mm\", \"0.40 mm\"]\nfloat_instrument = \"feeler gauge\"\nbore = \"17 mm\"\noutside_diameter = \"24 mm\"\nbatch = 12\n[[member]]\nname = \"housing\"\ndirection = \"adds\"\nsize = \"24 mm\"\ntolerance = \"0.4 mm\"\n[[member]]\nname = \"bearing\"\ndirection = \"takes\"\nsize = \"23 mm\"\ntolerance = \"0.2 mm\"\n");
    bench.part("f.toml", include_str!("../src/families/stand/template.toml"));
    bench.make(&[]);
    let job = job(&bench);
    let cuts = job["cutter"].as_array().unwrap();
    let stands: Vec<(&str, u64)> = cuts
        .iter()
        .filter(|c| c["part"] == "f")
        .map(|c| (c["piece"].as_str().unwrap(), c["count"].as_u64().unwrap()))
        .collect();
    // Four stands of two end plates, two rails, a top and four wedges.
    assert_eq!(stands, [("1-end", 8), ("2-rail", 8), ("3-top", 4), ("4-wedge", 16)]);
    let out = bench.out();
    let mut seen = BTreeSet::new();
    for cut in cuts {
        let file = cut["file"].as_str().unwrap();
        assert!(seen.insert(file), "{file} twice");
        let own = match cut["piece"].as_str().unwrap() {
            "" => format!("{}.dxf", cut["part"].as_str().unwrap()),
            piece => format!("{}-{piece}.dxf", cut["part"].as_str().unwrap()),
        };
        assert_eq!(out.get(&format!("to-cutter/{file}")), out.get(&own), "{file}");
        let thick = cut["thickness_mm"].as_f64().unwrap();
        assert!(file.contains(&format!("_{thick}mm_{}x_", cut["count"])), "{file}");
    }
    let shims: Vec<&Json> = cuts.iter().filter(|c| c["part"] == "e").collect();
    let thicknesses: BTreeSet<String> = shims.iter().map(|c| c["thickness_mm"].to_string()).collect();
    assert!(shims.len() > 1 && thicknesses.len() == shims.len(), "{cuts:?}");
    let list = bench.read("out/to-cutter/order.txt");
    assert!(seen.iter().all(|file| list.contains(file)), "{list}");
    assert_eq!(cutters(&bench).len(), seen.len() + 1);
    // Our own drawings are never sent back.
    for cut in cuts {
        let ran = bench.run(&["inspect", &format!("out/to-cutter/{}", cut["file"].as_str().unwrap()), "--json"]);
        assert_eq!((ran.code, ran.json()["findings"].as_array().map(Vec::len)), (0, Some(0)), "{}", ran.out);
    }
}

/// ISO 9013 knows laser cuts up to 32 mm of thickness (its scope, from memory): what is thicker is ordered apart, by water jet, and its
/// list does not speak of that standard.
#[test]
fn what_no_laser_cuts_is_ordered_by_water_jet() {
    let plate = |t: f64| {
        format!(
            "family = \"plate\"\nmaterial = \"steel S235\"\nshape = \"rectangle\"\nlength = \"200 mm\"\nwidth = \"120 mm\"\nthickness = \"{t} mm\"\n"
        )
    };
    let bench = Bench::new();
    bench.part("thick.toml", &plate(40.0));
    bench.make(&[]);
    let alone = bench.read("out/to-cutter/order.txt");
    assert!(
        alone.starts_with("Order for water jet cutting") && !alone.to_lowercase().contains("laser cutting"),
        "{alone}"
    );
    bench.part("thin.toml", &plate(30.0));
    bench.make(&[]);
    let order = bench.read("out/to-cutter/order.txt");
    let (laser, jet) = order.split_once("Order for water jet cutting").unwrap();
    assert!(
        laser.starts_with("Order for laser cutting") && laser.contains("thin") && laser.contains("ISO 9013"),
        "{order}"
    );
    assert!(
        !laser.contains("_thick") && jet.contains("_thick") && !jet.contains("_thin") && !jet.contains("9013"),
        "{order}"
    );
    let job = job(&bench);
    assert_eq!((list(&job, "cutter").len(), list(&job, "water_jet").len()), (1, 1));
}

/// By hand: M8 through a wall of 6 mm, a plate of 8 mm and two washers of 1.6 mm (ISO 7089): 17.2 mm clamped; with a nut of
/// 6.8 mm (ISO 4032) and two pitches of 1.25 mm 26.5 mm, sold at 30 mm (ISO 888). Three plates with four bolts: 12, 12 nuts,
/// 24 washers. The spanner for M8 is 13 mm (ISO 4014).
#[test]
fn the_counter_gets_bolts_with_lengths() {
    let bench = Bench::new();
    bench.part("b.toml", CUP);
    bench.make(&[]);
    let job = job(&bench);
    let bolts = &job["fasteners"][0];
    assert_eq!((bolts["what"].as_str(), bolts["count"].as_u64()), (Some("hex bolt M8 × 30"), Some(12)));
    assert_eq!(bolts["holds"][0]["grip_mm"].as_f64(), Some(17.2));
    let count = |item: &str| list(&job, "fasteners").iter().find(|l| l["item"] == item).map(|l| l["count"].clone());
    assert_eq!(count("nut M8, class 8"), Some("12".into()));
    assert_eq!(count("washer for M8"), Some("24".into()));
    assert!(list(&job, "road").iter().any(|l| l["item"].as_str().unwrap().contains("13 mm, for M8")));
    assert!(list(&job, "road").iter().any(|l| l["item"] == "torque wrench"));
}

/// The rack of the shop's file comes first; without one what is assumed is said.
#[test]
fn the_saw_takes_from_the_rack() {
    let bench = Bench::new();
    bench.part("a.toml", CONE);
    bench.make(&[]);
    let before = job(&bench);
    let bars = &before["saw"]["bars"][0];
    assert!(bars["assumed"] == true && bars["least"] == true && bars["cuts"][0]["bought"] == true);
    assert!(before["lists"].to_string().contains("No bar of"));
    let (across, each) = (bars["diameter_mm"].as_f64().unwrap(), bars["pieces"][0]["length_mm"].as_f64().unwrap());
    // Two lengths that hold one piece each, to the kerf.
    bench.part("shop.toml", &format!("family = \"shop\"\nsaw_kerf = \"3 mm\"\n[[rack]]\nmaterial = \"steel S235\"\ndiameter = \"{across} mm\"\nlength = \"{each} mm\"\npieces = 2\n"));
    bench.make(&[]);
    let after = job(&bench);
    let bars = &after["saw"]["bars"][0];
    assert!(bars["assumed"] == false && bars["cuts"].as_array().unwrap().len() == 1, "{bars}");
    assert_eq!((bars["cuts"][0]["bars"].as_u64(), bars["cuts"][0]["bought"].as_bool()), (Some(2), Some(false)));
    assert_eq!(bars["cuts"][0]["left_over_mm"].as_f64(), Some(0.0));
    assert_eq!(after["saw"]["kerf_mm"].as_f64(), Some(3.0));
}

/// Each cell that a spreadsheet would reckon with stays a name.
#[test]
fn a_name_is_no_formula() {
    let bench = Bench::new();
    bench.part("a.toml", &format!("name = \"=2+3, \\\"quoted\\\"\"\n{CONE}"));
    bench.make(&[]);
    let text = bench.read("out/job.csv");
    assert!(text.starts_with("\u{feff}list,item,count,material,size,parts,note\r\n"));
    assert!(text.contains("\"'=2+3, \"\"quoted\"\"\""), "{text}");
}

/// The folder for the cutter is kept as the others: what a person puts into it stops the run, what a person changes is kept.
#[test]
fn what_a_person_does_in_the_order_is_not_lost() {
    let bench = Bench::new();
    bench.part("b.toml", CUP);
    bench.make(&[]);
    let name = "out/to-cutter/steel-S235_8mm_3x_b.dxf";
    bench.write("out/to-cutter/own.txt", "mine");
    let ran = bench.run(&["make"]);
    ran.fails_with(3, &["to-cutter/own.txt"]);
    assert_eq!(bench.read("out/to-cutter/own.txt"), "mine");
    fs::remove_file(bench.path("out/to-cutter/own.txt")).unwrap();
    let whole = bench.out();
    bench.write(name, "changed");
    let ran = bench.make(&[]);
    assert!(ran.out.contains("set aside") && bench.out() == whole, "{}", ran.out);
    assert!(program::files(&bench.path("out-set-aside")).values().any(|b| b == b"changed"));
    // Nothing is left to be ordered: the folder goes.
    bench.part("b.toml", CONE);
    bench.make(&[]);
    assert!(!bench.path("out/to-cutter").exists());
}

/// A part is told by its own name only: what is called like the files of the job is refused.
#[test]
fn no_part_is_called_job() {
    let bench = Bench::new();
    bench.part("Job.toml", CONE);
    bench.run(&["make"]).fails_with(2, &["whole job"]);
}

/// The demo: a landing takes the frame to weigh 640 kg; the cups that it carries weigh what closed forms say: plates of
/// 120 x 100 x 8 mm with corners of 8 mm, less their holes, at 7850 kg/m³.
#[test]
fn weights_and_order_of_the_demo() {
    let job: Json = serde_json::from_str(&fs::read_to_string("out/job.json").unwrap()).unwrap();
    let carried = &job["carried"][0];
    assert_eq!(carried["assumed_kg"].as_f64(), Some(640.0));
    let mass = carried["mass_kg"].as_f64().unwrap();
    let solid = 2.0 * 120.0 * 100.0 * 8.0 * 7.85e-6;
    assert!(mass < solid && mass > solid * 0.8, "{mass} of {solid}");
    // One cup stands at +900, +400, the other at -900, -400, each nearly as heavy.
    assert!(carried["at_mm"].as_array().unwrap().iter().all(|x| x.as_f64().unwrap().abs() < 60.0), "{carried}");
    let work = &job["work"];
    let at = |i: &Json| &work["stretches"][i.as_u64().unwrap() as usize];
    let edges = work["before"].as_array().unwrap();
    assert!(edges.iter().all(|e| at(&e[0])["turn"].as_u64() < at(&e[1])["turn"].as_u64()));
    // No cup is ordered from the cutter before its cone is measured.
    let waits = |from: &str, to: &str| edges.iter().any(|e| at(&e[0])["part"] == from && at(&e[1])["part"] == to);
    assert!(waits("cone-front-left", "cup-front-left") && waits("cup-front-left", "landing-observatory"));
    // Cones are set out on the trailer as soon as they are measured, before the cups are there and before they are welded on.
    let first =
        |part: &str, to: &str| edges.iter().find(|e| at(&e[0])["part"] == part && at(&e[1])["part"] == to).unwrap();
    let (cone, cup) = (first("cone-front-left", "landing-observatory"), first("cup-front-left", "landing-observatory"));
    assert_eq!((&at(&cone[1])["at"], &at(&cup[1])["at"]), (&Json::from("trailer"), &Json::from("frame")));
    assert_ne!(at(&cone[0])["at"], "welder");
    // And drilled in where they were set out; the frame comes down on what is fixed.
    let drilled = first("landing-observatory", "cone-rear");
    assert_eq!((&at(&drilled[0])["at"], &at(&drilled[1])["at"]), (&Json::from("trailer"), &Json::from("drill press")));
}

/// Metal in a fillet: half a square of the leg over its length; a handbook prints 0.141 kg a metre for a leg of 6 mm (from memory).
/// Two cones of 60 mm take twice 188 mm of it; as electrodes twice that is bought.
#[test]
fn filler_is_bought_by_its_mass() {
    use setdown::formulas::strength::weld_metal;
    use setdown::units::Length;
    let a_metre = weld_metal(Length::mm(6.0), Length::mm(1000.0)).as_mm3() * 7.85e-6;
    assert!((a_metre - 0.141).abs() < 5e-4, "{a_metre}");
    let bench = Bench::new();
    bench.part("a.toml", CONE);
    bench.make(&[]);
    let job = job(&bench);
    let filler =
        list(&job, "consumables").into_iter().find(|l| l["size"].as_str().unwrap().contains("fillet")).unwrap().clone();
    let leg: f64 =
        filler["size"].as_str().unwrap().split("leg ").nth(1).unwrap().split(' ').next().unwrap().parse().unwrap();
    let grams: f64 = filler["count"].as_str().unwrap().strip_suffix(" g").unwrap().parse().unwrap();
    let by_hand = 2.0 * 2.0 * leg * leg / 2.0 * std::f64::consts::PI * 60.0 * 7.85e-3;
    assert!(grams >= by_hand && grams < by_hand + 10.1, "{grams} of {by_hand}");
}

/// Two printouts of two states of the job can be told apart: the title block bears six figures, which hang on the lists.
#[test]
fn the_job_bears_a_revision() {
    use setdown::shop::Shop;
    use setdown::whole::{Job, pages::pages, share::Share};
    let nobody = |_: &str, _: &str| Err(String::new());
    let revision = |text: &str| {
        let design = setdown::job::work("a.toml", text, &Shop::default(), &nobody).ok().unwrap();
        let pages = pages(&Job::of(vec![Share::of(&design, &Shop::default())], &Shop::default()), &Default::default());
        let words = pages.iter().flat_map(|p| &p.marks).filter_map(|m| match m {
            setdown::sheet::Mark::Text(text) => Some(text.words.clone()),
            _ => None,
        });
        let is_mark = |w: &String| w.len() == 6 && w.chars().all(|c| c.is_ascii_hexdigit());
        words.filter(is_mark).collect::<Vec<_>>()
    };
    let (two, four) = (revision(CONE), revision(&CONE.replace("count = 2", "count = 4")));
    assert!(!two.is_empty() && two.iter().all(|r| *r == two[0]), "{two:?}");
    assert_ne!(two[0], four[0]);
    assert_eq!(two, revision(CONE));
}
