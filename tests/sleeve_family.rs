//! The sleeve from its part file: pressed bores worked through by another hand, long pieces, pieces and their surfaces.

use std::f64::consts::PI;
use std::fs;

use program::run_in;
use serde_json::Value as Json;

mod program;

/// A part as `make` writes it.
fn made(text: &str) -> Json {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("part.toml"), text).unwrap();
    let ran = run_in(folder.path(), &["make", "part.toml", "--only", "json"]);
    let bytes = fs::read(folder.path().join("out/part.json")).unwrap_or_else(|_| panic!("{}", ran.err));
    serde_json::from_slice(&bytes).unwrap()
}

fn dimension<'a>(part: &'a Json, key: &str) -> Option<&'a Json> {
    part["dimensions"].as_array().unwrap().iter().find(|d| d["key"] == key)
}

fn mm(part: &Json, key: &str) -> f64 {
    dimension(part, key).unwrap_or_else(|| panic!("no {key}"))["nominal_mm"].as_f64().unwrap()
}

/// Limits of a size; a measured one has itself.
fn limits(part: &Json, key: &str) -> (f64, f64) {
    let d = dimension(part, key).unwrap_or_else(|| panic!("no {key}"));
    let of = |end: &str| d[end].as_f64().or(d["nominal_mm"].as_f64()).unwrap();
    (of("lower_mm"), of("upper_mm"))
}

fn finding<'a>(part: &'a Json, key: &str) -> Option<&'a Json> {
    part["findings"].as_array().unwrap().iter().find(|f| f["key"] == key)
}

fn steps(part: &Json) -> Vec<String> {
    part["operations"].as_array().unwrap().iter().map(|o| o["text"].as_str().unwrap().to_string()).collect()
}

#[track_caller]
fn near(value: f64, wanted: f64, within: f64) {
    assert!((value - wanted).abs() <= within, "{value} is not {wanted}");
}

/// By how much a bore closes: thick cylinders after Lame, written out anew; diameters, mm and MPa.
fn closes(
    bore: f64,
    joint: f64,
    hub: f64,
    (e_sleeve, e_hub, nu_sleeve, nu_hub): (f64, f64, f64, f64),
    tight: f64,
) -> f64 {
    let (b, j, h) = (bore / 2.0, joint / 2.0, hub / 2.0);
    let outer = ((h * h + j * j) / (h * h - j * j) + nu_hub) / e_hub;
    let inner = ((j * j + b * b) / (j * j - b * b) - nu_sleeve) / e_sleeve;
    let p = tight.max(0.0) / (joint * (outer + inner));
    let hoop = 2.0 * p * j * j / (j * j - b * b);
    hoop * bore / e_sleeve
}

const STEEL: (f64, f64) = (206.0e3, 0.29);

fn bush(material: &str, bore_class: &str, outside_class: &str) -> String {
    format!(
        "family = \"sleeve\"\nmaterial = \"{material}\"\nbore = \"25 mm\"\noutside_diameter = \"32 mm\"\nlength = \"30 mm\"\n\
         bore_class = \"{bore_class}\"\noutside_class = \"{outside_class}\"\n[shaft]\nclass = \"g6\"\n[housing]\nclass = \"H7\"\n\
         [pressed_in]\nhub_outside = \"60 mm\"\n"
    )
}

/// Roughness of both surfaces as the sheets ask for it: grade 6 and finer Ra 0.8, else Ra 1.6 (bearing makers' catalogues,
/// from memory); peaks flattened by 0.8 (Rz + Rz), Rz = 5 Ra (DIN 7190-1, from memory). Millimetres.
fn smoothing(outside: (f64, f64), hub: (f64, f64)) -> f64 {
    // IT6 of 30 to 50 mm is 16 um (ISO 286-1).
    let ra = |limits: (f64, f64)| if limits.1 - limits.0 <= 0.01605 { 0.0008 } else { 0.0016 };
    0.8 * 5.0 * (ra(outside) + ra(hub))
}

/// A bush pressed into its hub: with every bore inside the limits before pressing and every interference of the fit, what
/// is bored either ends inside its class, or leaves what the sheet says to ream out; never a bore that is too large.
#[test]
fn a_pressed_bore_ends_right_with_every_pair() {
    let mut by_itself = 0;
    for (material, e, bore_class, outside_class) in [
        ("steel 1045", STEEL, "H7", "p6"),
        ("steel 1045", STEEL, "H7", "s6"),
        ("bronze C93200", (100.0e3, 0.34), "H8", "n6"),
        ("steel 1045", STEEL, "F8", "r6"),
        ("steel 1045", STEEL, "H11", "p6"),
        ("steel 52100 hardened", STEEL, "H8", "n5"),
    ] {
        let part = made(&bush(material, bore_class, outside_class));
        let (finished, before) = (limits(&part, "bore"), limits(&part, "bore_before_pressing"));
        let (outside, hub) = (limits(&part, "outside_diameter"), limits(&part, "housing_diameter"));
        let (loosest, tightest) = (outside.0 - hub.1 - smoothing(outside, hub), outside.1 - hub.0);
        let elastic = (e.0, STEEL.0, e.1, STEEL.1);
        let after = |bore: f64, tight: f64| bore - closes(bore, 32.0, 60.0, elastic, tight);
        let (least, most) = (after(before.0, tightest), after(before.1, loosest));
        let case = format!("{material} {bore_class}/{outside_class}: {before:?} ends {least} to {most}");
        let work = steps(&part);
        let pressed = work.iter().position(|s| s.contains("press with up to")).unwrap();
        if dimension(&part, "finish_after_pressing_min").is_some() {
            assert!(most < finished.0 - 0.02, "{case}: nothing is left to take out");
            near(mm(&part, "finish_after_pressing_min"), finished.0 - most, 0.0015);
            near(mm(&part, "finish_after_pressing_max"), finished.1 - least, 0.0015);
            let finish = work.iter().position(|s| s.starts_with("After pressing")).unwrap();
            assert!(finish > pressed && !work[pressed].contains("finished size"), "{work:?}");
            let measured = part["operations"][finish]["measure"].to_string();
            assert!(measured.contains("\"bore\""), "{measured}");
        } else {
            by_itself += 1;
            assert!(least >= finished.0 - 0.001 && most <= finished.1 + 0.001, "{case}, wanted {finished:?}");
            assert!(before.1 - before.0 > 0.009, "{case}: no machine of the shop holds that");
        }
        // One bore: what is measured before pressing, and what the solid has (no chamfers).
        let before_it = &part["operations"].as_array().unwrap()[..pressed];
        assert!(serde_json::to_string(before_it).unwrap().contains("bore_before_pressing"), "{case}");
        let bored = f64::midpoint(before.0, before.1);
        let volume = dimension(&part, "volume").unwrap()["value"].as_f64().unwrap();
        near(volume, PI / 4.0 * (32.0 * 32.0 - bored * bored) * 30.0, 0.5);
    }
    assert!(by_itself > 0, "a wide class needs no reamer");
}

fn pressed(keys: &str, outside_class: &str, housing: &str, joint: &str) -> Json {
    made(&format!(
        "family = \"sleeve\"\nmaterial = \"bronze C93200\"\n{keys}bore = \"25 mm\"\noutside_diameter = \"40 mm\"\nlength = \"30 mm\"\n\
         bore_class = \"H7\"\noutside_class = \"{outside_class}\"\n[shaft]\nclass = \"f7\"\n[housing]\n{housing}\n[pressed_in]\n\
         hub_outside = \"64 mm\"\n{joint}"
    ))
}

/// Bronze 18e-6, steel 12e-6 per kelvin (data sheets). 40 H7/p6 leaves 1 um in the loosest pair (ISO 286-1), which is gone
/// at 20 - 0.001/(40 x 6e-6) = 15.8 degrees where nothing is smoothed, a few degrees nearer where 0.08 um is.
#[test]
fn a_press_fit_must_hold_in_the_cold() {
    let smooth = "roughness = \"0.01 um\"\n";
    let part = pressed("environment = \"dry\"\n", "p6", "class = \"H7\"", smooth);
    let at = dimension(&part, "loose_at").unwrap()["value"].as_f64().unwrap();
    near(at, 20.0 - (0.001 - 0.8 * 5.0 * 0.00002) / (40.0 * 6e-6), 0.01);
    let holds = finding(&part, "press_holds").unwrap();
    assert_eq!(holds["verdict"], "caution", "{holds}");
    let because = holds["because"].as_str().unwrap();
    assert!(because.contains("10 °C") && because.contains("assumed for a part that stands dry"), "{because}");
    // A range that is written is the one that counts: nothing colder than where it comes loose.
    let warm = pressed("temperature_range = [\"18 C\", \"30 C\"]\n", "p6", "class = \"H7\"", smooth);
    // The micrometre that is left holds, but two micrometers of +-5 um do not tell it from none (JCGM 100: 5 sqrt 2 = 7 um).
    let holds = finding(&warm, "press_holds").unwrap();
    assert_eq!(holds["verdict"], "caution", "{holds}");
    assert!(holds["because"].as_str().unwrap().contains("two micrometers cannot tell it from none"), "{holds}");
    near(holds["limit"].as_f64().unwrap(), 0.005 * 2.0_f64.sqrt(), 1e-4);
    // As turned and bored, 0.8 x 5 x (0.8 + 1.6) = 9.6 um of peaks are flattened: the loosest pair is not held at all.
    let rough = pressed("temperature_range = [\"18 C\", \"30 C\"]\n", "p6", "class = \"H7\"", "");
    near(mm(&rough, "smoothing"), 0.0096, 1e-9);
    assert_eq!(finding(&rough, "press_holds").unwrap()["verdict"], "caution");
    assert!(dimension(&rough, "loose_at").is_none());
    // Both measured and paired: 40.017 - 40.004 - 9.6 um leaves 3.4 um, which a heated room does not take (2.4 um), a
    // winter outdoors does (9.6 um). What is left in the room is less than two micrometers can tell.
    let measured = "diameter = \"40.004 mm\"";
    let because =
        |keys: &str| finding(&pressed(keys, "n6", measured, ""), "press_holds").unwrap()["because"].to_string();
    assert!(because("environment = \"dry\"\n").contains("cannot tell it from none"));
    assert!(because("").contains("comes loose"), "{}", because(""));
    // An aluminium hub (23.6e-6) opens faster than a bronze bush: 30 K x 40 x 5.6e-6 = 6.7 um; nothing of 5 um is left.
    let hub = "diameter = \"40.028 mm\"\nmaterial = \"aluminium 6061-T6\"";
    assert_eq!(finding(&pressed("", "n6", hub, ""), "press_holds").unwrap()["verdict"], "fail");
}

/// A bush that its hub holds back closes inward as it warms: 16/22 acetal (100e-6) in a steel housing (12e-6) without play,
/// on a shaft of 304 (17.3e-6), 25 K warmer and with the water of a room (0.05 %, from memory). Thick ring after Lame in
/// a stiff housing.
#[test]
fn a_bush_that_jams_in_its_housing_closes_on_its_shaft() {
    let bush = |outside: &str| {
        made(&format!(
            "family = \"sleeve\"\nmaterial = \"acetal\"\nenvironment = \"dry\"\ntemperature_range = [\"20 C\", \"45 C\"]\n\
             bore = \"16 mm\"\noutside_diameter = \"22 mm\"\nlength = \"25 mm\"\nbore_class = \"H9\"\noutside_class = \"{outside}\"\n\
             [shaft]\nclass = \"h9\"\nmaterial = \"stainless 304\"\n[housing]\nclass = \"H9\"\n"
        ))
    };
    let found = |part: &Json, side: &str| {
        let all = part["findings"].as_array().unwrap().iter();
        let mut own = all.filter(|f| f["key"] == "service_fit" && f["because"].as_str().unwrap().contains(side));
        own.next().unwrap().clone()
    };
    let grows = 100e-6 * 25.0 + 0.0005;
    let (squeeze, free) = (22.0 * (grows - 12e-6 * 25.0), 16.0 * (grows - 17.3e-6 * 25.0));
    let inward = 2.0 * 22.0 * 16.0 / ((22.0_f64.powi(2) + 256.0) - 0.35 * (22.0_f64.powi(2) - 256.0));
    let tight = bush("h9");
    let on_shaft = found(&tight, "side of the shaft");
    near(on_shaft["value"].as_f64().unwrap(), free - squeeze * inward, 2e-4);
    assert_eq!(on_shaft["verdict"], "caution", "{on_shaft}");
    near(found(&tight, "side of the housing")["value"].as_f64().unwrap(), -squeeze, 2e-4);
    // With room to grow it is free: 22 d9 leaves 65 um (ISO 286-1).
    let roomy = bush("d9");
    assert_eq!(found(&roomy, "side of the shaft")["verdict"], "ok");
    near(found(&roomy, "side of the housing")["value"].as_f64().unwrap(), 0.065 - squeeze, 2e-4);
    // Pressed in, the same: bronze in steel at 50 degrees, thick cylinders worked above.
    let part = pressed("service_temperature = \"50 C\"\n", "n6", "diameter = \"40.004 mm\"", "");
    let elastic = (100.0e3, 210.0e3, 0.34, 0.30);
    let opens = 25.0 * 6e-6 * 30.0 - closes(25.0, 40.0, 64.0, elastic, 40.0 * 6e-6 * 30.0);
    near(mm(&part, "bore_opens_at_service"), opens, 2e-4);
    assert!(opens < 0.0, "a free ring would open");
}

/// PA66 takes up 8 % of water when soaked and 2.5 % in a room, a quarter of which it grows in length (from memory): 22 mm by
/// 0.44 mm in the rain, more than any pair of 22 H9/d9 (65 to 169 um) leaves.
#[test]
fn nylon_swells() {
    let bush = |place: &str| {
        made(&format!(
            "family = \"sleeve\"\nmaterial = \"nylon 6/6\"\n{place}temperature_range = [\"20 C\", \"21 C\"]\nbore = \"16 mm\"\n\
             outside_diameter = \"22 mm\"\nlength = \"25 mm\"\nbore_class = \"H9\"\noutside_class = \"d9\"\n[shaft]\nclass = \"f8\"\n\
             [housing]\nclass = \"H9\"\n"
        ))
    };
    let rain = bush("");
    near(mm(&rain, "outside_swells"), 0.44, 1e-9);
    let jams = finding(&rain, "service_fit").unwrap();
    assert!(jams["verdict"] == "fail" || jams["because"].as_str().unwrap().contains("shaft"), "{jams}");
    let worst = |part: &Json| {
        let all = part["findings"].as_array().unwrap().iter().filter(|f| f["key"] == "service_fit");
        all.map(|f| f["value"].as_f64().unwrap()).fold(f64::INFINITY, f64::min)
    };
    // The housing keeps 0.44 - 0.065 mm back, and more than that goes into the bore.
    assert!(worst(&rain) < -(0.44 - 0.065), "{}", worst(&rain));
    let room = bush("environment = \"dry\"\n");
    near(mm(&room, "outside_swells"), 22.0 * 0.025 / 4.0, 1e-9);
    // A shim of it fills the float: 2 mm by 40 um; a cone of 60 mm stands 1.2 mm wider.
    let shim = made(
        "family = \"shim\"\nmaterial = \"nylon 6/6\"\ngap = \"2.05 mm\"\ntarget_float = [\"0.02 mm\", \"0.08 mm\"]\n",
    );
    let least = finding(&shim, "float_swollen").unwrap();
    assert_eq!(least["verdict"], "fail", "{least}");
    near(least["value"].as_f64().unwrap(), mm(&shim, "float_min") - mm(&shim, "total") * 0.02, 2e-4);
    let cone = made(
        "family = \"cone\"\nmaterial = \"nylon 6/6\"\nbase_diameter = \"60 mm\"\ntip_diameter = \"24 mm\"\nhalf_angle = \"30 deg\"\n",
    );
    let swells = finding(&cone, "swells").unwrap();
    assert_eq!((&swells["verdict"], swells["value"].as_f64().unwrap()), (&Json::from("caution"), 1.2));
}

/// The lines that a finding says to write, put into the part file: `key = "value"` at the top, or `… in [table]`.
fn written_as_said(text: &str, because: &str) -> String {
    let said =
        because.split("both are in order with ").nth(1).expect("one remedy").split(" [").collect::<Vec<_>>().join(" [");
    let mut made = text.to_string();
    let lines = said.split(", ").flat_map(|part| {
        let (pairs, table) = part.split_once(" in ").map_or((part, None), |(pairs, table)| (pairs, Some(table.trim())));
        pairs.split(" and ").map(move |pair| (pair, table))
    });
    for (pair, table) in lines {
        let key = pair.split(" = ").next().unwrap().trim();
        let rows: Vec<&str> = made.lines().collect();
        let from = table.map_or(0, |t| rows.iter().position(|row| *row == t).expect("its table") + 1);
        let until = rows[from..].iter().position(|row| row.starts_with('[')).map_or(rows.len(), |n| from + n);
        let at = (from..until).find(|i| rows[*i].starts_with(&format!("{key} =")));
        let mut rows: Vec<String> = rows.iter().map(|row| (*row).to_string()).collect();
        match at {
            Some(i) => rows[i] = pair.trim().to_string(),
            None => rows.insert(from, pair.trim().to_string()),
        }
        made = rows.join("\n") + "\n";
    }
    made
}

/// A bush that yields, or that comes loose, says the one thing that puts both in order, and it does: the same words from both
/// findings, written into the file, leave neither. Bores, walls and materials drawn over; at least some are asked for.
#[test]
fn a_bush_that_yields_says_what_would_do() {
    let (mut told, mut none) = (0, 0);
    for (material, range) in [
        ("bronze C93200", "\"15 C\", \"20 C\""),
        ("bronze C93200", "\"5 C\", \"35 C\""),
        ("steel 1045", "\"0 C\", \"40 C\""),
    ] {
        for class in ["m6", "n6", "p6", "r6", "s6", "u6"] {
            for outside in ["29 mm", "32 mm", "40 mm"] {
                let text =
                    format!("temperature_range = [{range}]\n{}", bush(material, "H8", class)).replace("32 mm", outside);
                let part = made(&text);
                let bad = |part: &Json| -> Vec<String> {
                    let of = |key: &str| finding(part, key).filter(|f| f["verdict"] != "ok");
                    let all = ["press_holds", "inner_part_yields", "outer_part_yields"].into_iter().filter_map(of);
                    all.map(|f| f["because"].as_str().unwrap().to_string()).collect()
                };
                let wrong = bad(&part);
                let Some(because) = wrong.first() else { continue };
                if because.contains("no class that exists puts both in order") {
                    none += 1;
                    continue;
                }
                let better = made(&written_as_said(&text, because));
                assert!(bad(&better).is_empty(), "{material} {class} {outside}: {because}\nstill {:?}", bad(&better));
                told += 1;
            }
        }
    }
    assert!(told > 15, "{told} remedies, {none} without");
}

/// 33 x 400 with a wall of 1.5 mm: no boring bar reaches through it; from tube it is held on a mandrel and in a steady.
#[test]
fn a_long_thin_sleeve_is_supported_or_refused() {
    let long = "family = \"sleeve\"\nmaterial = \"bronze C93200\"\nbore = \"30 mm\"\noutside_diameter = \"33 mm\"\n\
                length = \"400 mm\"\nbore_class = \"H7\"\noutside_class = \"h6\"\n";
    let part = made(long);
    assert_eq!(finding(&part, "bore_depth").unwrap()["verdict"], "fail");
    let part = made(&format!("{long}stock = \"tube\"\n"));
    assert!(finding(&part, "bore_depth").is_none());
    let work = steps(&part).join("\n");
    assert!(work.contains("fixed steady") && work.contains("mandrel") && !work.contains("drill"), "{work}");
    assert!(part["tools"].to_string().contains("honed tube"));
    // A short one with a stout wall is turned in the chuck.
    let short = made(&long.replace("400 mm", "40 mm").replace("33 mm", "40 mm"));
    assert!(!steps(&short).join("\n").contains("mandrel"));
}

const PIVOT: &str = "family = \"sleeve\"\nmaterial = \"steel 52100 hardened\"\nbore = \"20 mm\"\noutside_diameter = \"25 mm\"\n\
    length = \"60 mm\"\noutside_class = \"h5\"\nchamfer = \"0.5 mm\"\n[shaft]\nclass = \"g6\"\n[grease_hole]\nposition = \"20 mm\"\n\
    diameter = \"1.5 mm\"\n[[segment]]\nname = \"left\"\nmaterial = \"steel S235\"\noutside_diameter = \"24.6 mm\"\nlength = \"18 mm\"\n\
    [[segment]]\nname = \"raceway\"\nlength = \"24 mm\"\n[[segment]]\nname = \"right\"\nmaterial = \"steel S235\"\n\
    outside_diameter = \"24.6 mm\"\n";
const NEEDLES: &str = "[runs_under]\nrollers = 24\nroller_diameter = \"2.5 mm\"\nroller_length = \"12 mm\"\nload = \"6 kN\"\n\
    hardness = \"60 HRC\"\nposition = \"30 mm\"\n";

/// What each piece is made of, where the hole is measured on the loose ring, and what the surfaces do: rollers run on
/// Ra 0.2, round within a quarter and cylindrical within half of the diameter's tolerance (bearing makers' catalogues);
/// 25 h5 is 9 um wide (ISO 286-1).
#[test]
fn pieces_and_their_surfaces() {
    let part = made(&format!("{PIVOT}{NEEDLES}"));
    near(mm(&part, "grease_hole_on_piece"), 2.0, 1e-9);
    assert_eq!(limits(&part, "grease_hole_on_piece"), (1.9, 2.1));
    assert_eq!(dimension(&part, "outside_diameter_roughness").unwrap()["value"], "Ra 0.2");
    near(mm(&part, "outside_roundness"), 0.00225, 6e-5);
    near(mm(&part, "outside_cylindricity"), 0.0045, 5e-5);
    assert!(dimension(&part, "ends_square").is_some());
    let tables = part["tables"].as_array().unwrap();
    let rows = &tables.iter().find(|t| t["key"] == "pieces").unwrap()["rows"];
    assert_eq!((&rows[0][1], &rows[1][1]), (&Json::from("steel S235"), &Json::from("steel 52100 hardened")));
    assert_eq!((&rows[1][2], &rows[1][3]), (&Json::from("60 HRC"), &Json::from("Ra 0.2")));
    assert!(rows[1][6].as_str().unwrap().contains("at 2 mm") && rows[0][6] == "none", "{rows}");
    // The bore has no class and goes over a shaft: not smaller than that (20 is ±0.2 by ISO 2768-m).
    assert_eq!(limits(&part, "bore"), (20.0, 20.4));
}

/// The share of the most loaded needle is that of the greatest clearance: 30 G6 in the hub less 25 h5 is 7 to 29 um
/// (ISO 286-1: +7/+20 and 0/-9); without a clearance it is told to be assumed.
#[test]
fn the_most_loaded_needle_by_its_clearance() {
    let number = |part: &Json, key: &str| dimension(part, key).unwrap()["value"].as_f64().unwrap();
    let known = made(&format!("{PIVOT}{NEEDLES}needle_bore_class = \"G6\"\n"));
    near(number(&known, "load_factor_least"), 4.76, 0.02);
    near(number(&known, "load_factor"), 6.13, 0.02);
    let unknown = made(&format!("{PIVOT}{NEEDLES}"));
    assert_eq!(number(&unknown, "load_factor"), 5.0);
    let too_small = made(&format!("{PIVOT}{NEEDLES}needle_bore_class = \"G6\"\nload_factor = 4.1\n"));
    assert_eq!(finding(&too_small, "load_factor").unwrap()["verdict"], "caution");
}

/// An aluminium hub (23.6 um/m/K, engineering tables) round steel needles (12) on a steel raceway (12): 30 x 23.6 - 5 x 12 - 25 x 12 = 348 nm
/// for each kelvin: -13.92 um at -20 C, +6.96 at 40 C. 25 F6 over 25 h5 leaves 20 um at least, 6.08 when cold; 30 G6 7, and nothing when cold.
#[test]
fn the_clearance_of_needles_cold_and_warm() {
    let range = "temperature_range = [\"-20 C\", \"40 C\"]\n";
    let number = |part: &Json, key: &str| dimension(part, key).unwrap()["nominal_mm"].as_f64().unwrap();
    let work = |class: &str, hub: &str| made(&format!("{range}{PIVOT}{NEEDLES}needle_bore_class = \"{class}\"\n{hub}"));
    let hub = "hub_material = \"aluminium 6061-T6\"\n";
    let wide = work("F6", hub);
    near(number(&wide, "clearance_cold"), -0.0139, 1.01e-4);
    near(number(&wide, "clearance_warm"), 0.0070, 1.01e-4);
    let left = finding(&wide, "clearance_in_service").unwrap();
    assert_eq!(left["verdict"], "ok");
    near(left["value"].as_f64().unwrap(), 0.0061, 1.01e-4);
    let close = work("G6", hub);
    assert_eq!(finding(&close, "clearance_in_service").unwrap()["verdict"], "fail");
    let steel = work("G6", "");
    assert_eq!(finding(&steel, "clearance_in_service").unwrap()["verdict"], "ok");
    assert!(dimension(&steel, "clearance_cold").is_none());
}

#[test]
fn a_housing_beside_rollers_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("part.toml"), format!("{PIVOT}{NEEDLES}[housing]\nclass = \"F6\"\n")).unwrap();
    run_in(folder.path(), &["check", "part.toml"]).fails_with(2, &["part.toml:", "no housing is there"]);
}

/// Below 0.5 mm ISO 2768-1 gives no general tolerance (its table 1 begins there): a fit needs a class, and that is said.
#[test]
fn a_fit_without_any_limits_is_refused_with_its_place() {
    let folder = tempfile::tempdir().unwrap();
    let text = include_str!("fuzz/seeds/sleeve-no-limits.toml");
    fs::write(folder.path().join("part.toml"), text).unwrap();
    run_in(folder.path(), &["check", "part.toml"])
        .fails_with(2, &["part.toml:4:8", "general tolerances", "bore_class"]);
    fs::write(folder.path().join("part.toml"), text.replace("bore =", "bore_class = \"H7\"\nbore =")).unwrap();
    assert_ne!(run_in(folder.path(), &["check", "part.toml"]).code, 2);
}

/// The single questions tell what they rest on. 0.8 (Rz + Rz) with Rz = 5 Ra of Ra 1.6 and 0.8 is 9.6 um (DIN 7190-1,
/// from memory); pressure goes with the interference (Lame). Load factors as of the needles above.
#[test]
fn one_off_questions_say_what_they_assume() {
    let folder = tempfile::tempdir().unwrap();
    let ask = |arguments: &[&str]| run_in(folder.path(), arguments);
    let press = ["press", "--interface", "30mm", "--hub-outside", "60mm", "--bore", "25mm", "--length", "20mm"];
    let tight: Vec<&str> = press.into_iter().chain(["--interference", "20um", "30um"]).collect();
    let rough: Vec<&str> = tight.iter().copied().chain(["--roughness", "1.6um", "0.8um"]).collect();
    assert!(ask(&tight).out.contains("no roughness was told"));
    assert!(ask(&rough).out.contains("9.6 µm is taken off"));
    // 20 + (0.1 + 0.03)/(12e-6 x 30) is 381 degrees; a hub scales above 250 (common practice): no more is asked for. 20 + 0.06/(12e-6 x 30) is 186.7.
    let tighter: Vec<&str> = press.into_iter().chain(["--interference", "100um", "--gap", "0.03mm"]).collect();
    let said = ask(&tighter).out;
    assert!(said.contains("heat it to 250 °C, no more") && !said.contains("heat the outer part to"), "{said}");
    assert!(ask(&tight).out.contains("heat the outer part to 186.7 °C"), "{}", ask(&tight).out);
    let pressure = |arguments: &[&str]| {
        let all: Vec<&str> = arguments.iter().copied().chain(["--json"]).collect();
        ask(&all).json()["pressure_mpa"]["min"].as_f64().unwrap()
    };
    near(pressure(&rough) / pressure(&tight), 10.4 / 20.0, 1e-3);
    let row = ["raceway", "--rollers", "24", "--roller-diameter", "2.5mm", "--roller-length", "12mm"];
    let row: Vec<&str> =
        row.into_iter().chain(["--raceway", "25mm", "--load", "6007 N", "--hardness", "60 HRC"]).collect();
    let clear: Vec<&str> = row.iter().copied().chain(["--clearance", "29um"]).collect();
    assert!(ask(&row).out.contains("roller 5, assumed"));
    assert!(ask(&clear).out.contains("roller 6.13, of the clearance"));
}

/// Linear expansion by hand: bronze C93200 18, steel S235 12 per million and kelvin (handbooks); ISO 286-2 at 25 and 32 mm: H7 0/+21
/// and 0/+25, k6 +2/+15, m6 +9/+25, s6 +43/+59, g6 -20/-7 um. A ring held by a stiff housing: 2 D d/((D^2 + d^2) - nu (D^2 - d^2)).
#[test]
fn both_ends_of_a_fit_in_cold_and_heat() {
    let sleeve = |outside_class: &str, rest: &str| {
        made(&format!(
            "family = \"sleeve\"\nmaterial = \"bronze C93200\"\nbore = \"25 mm\"\noutside_diameter = \"32 mm\"\nlength = \"30 mm\"\n\
             bore_class = \"H7\"\noutside_class = \"{outside_class}\"\ntemperature_range = [\"-20 C\", \"50 C\"]\n{rest}"
        ))
    };
    let service = |part: &Json, side: &str| {
        let found = part["findings"].as_array().unwrap().iter();
        let found = found.filter(|f| f["key"] == "service_fit").find(|f| f["because"].as_str().unwrap().contains(side));
        found.unwrap_or_else(|| panic!("no service fit {side}")).clone()
    };
    let um = |f: &Json, what: &str| f[what].as_f64().unwrap() * 1e3;
    // Held by nothing but its fit: the loosest pair, 18 um, loses 32 mm x 6e-6 x 40 K = 7.7 um in the cold.
    let held = sleeve("s6", "[housing]\nclass = \"H7\"\n");
    let held = service(&held, "housing");
    near(um(&held, "value"), -18.0 + 7.68, 0.06);
    // Neither sure to slide nor to hold: -15 um less 25 x 6e-6 x 40 K of bore in the cold; +19 um and 25 x 6e-6 x 30 K in the heat,
    // where a pair that is loose in its housing is not held back.
    let neither = sleeve("m6", "[shaft]\nclass = \"k6\"\nmaterial = \"steel S235\"\n[housing]\nclass = \"H7\"\n");
    let neither = service(&neither, "shaft");
    near(um(&neither, "value"), -15.0 - 6.0, 0.06);
    near(um(&neither, "limit"), 19.0 + 4.5, 0.06);
    // Tight in its housing, its least play is in the heat: what cannot grow outward goes into the bore, and it says so.
    let slides = sleeve("s6", "[shaft]\nclass = \"g6\"\nmaterial = \"steel S235\"\n[housing]\nclass = \"H7\"\n");
    let slides = service(&slides, "shaft");
    let (d, big, nu) = (25.0_f64, 32.0_f64, 0.34);
    let inward = 2.0 * big * d / ((big * big + d * d) - nu * (big * big - d * d)) * 32.0 * 6e-6 * 30.0 * 1e3;
    near(um(&slides, "value"), 7.0 + 4.5 - inward, 0.1);
    assert!(slides["because"].as_str().unwrap().contains("its housing holds the outside back"), "{slides}");
    let free = service(&sleeve("s6", "[shaft]\nclass = \"g6\"\nmaterial = \"steel S235\"\n"), "shaft");
    near(um(&free, "value"), 7.0 - 6.0, 0.06);
    assert!(!free["because"].as_str().unwrap().contains("holds the outside back"), "{free}");
}

/// Anaerobic compounds hold on clean metal alone and set when they are hot (makers' data sheets, from memory: up to 150 degrees
/// in service): nothing greases a joint before it has set, and none is heated beyond that.
#[test]
fn a_compound_and_what_keeps_metals_apart_do_not_meet() {
    for by in ["grease", "paint"] {
        let keys = format!("kept_apart = \"{by}\"\n");
        let filled =
            steps(&pressed(&keys, "s6", "class = \"H7\"", "secured = \"compound\"\nshear_strength = \"20 MPa\"\n"));
        let at =
            |word: &str| filled.iter().position(|s| s.contains(word)).unwrap_or_else(|| panic!("{word}: {filled:#?}"));
        assert!(at("retaining compound") < at("once the compound has cured"), "{filled:#?}");
        let both_faces = |s: &String| s.contains("Grease both faces") || s.contains("Paint both parts");
        assert!(!filled.iter().any(both_faces), "{filled:#?}");
        let oiled = filled.iter().find(|s| s.contains("retaining compound")).unwrap();
        assert!(!oiled.contains("oil the joint") && !oiled.contains("Heat the outer part"), "{oiled}");
        let bare = steps(&pressed(&keys, "s6", "class = \"H7\"", ""));
        assert!(bare.iter().any(|s| s.contains("both ends of the joint")), "{bare:#?}");
        assert!(!bare.iter().any(both_faces), "{bare:#?}");
    }
}

/// ISO 286-1, preferred fits: G7/h6, H7/g6, H8/f7, H9/e8 and so on: the hole of the same grade or one coarser.
#[test]
fn a_coarse_hole_on_a_fine_shaft_is_told() {
    let sleeve = |class: &str| {
        made(&format!(
            "family = \"sleeve\"\nmaterial = \"steel 1045\"\nbore = \"25 mm\"\noutside_diameter = \"32 mm\"\nlength = \"30 mm\"\nbore_class = \"{class}\"\n[shaft]\nclass = \"g6\"\n"
        ))
    };
    for (class, verdict) in [("H11", "caution"), ("H9", "caution"), ("H8", "ok"), ("H7", "ok")] {
        let part = sleeve(class);
        assert_eq!(finding(&part, "bore_grade").unwrap()["verdict"], verdict, "{class}");
    }
    let asked = sleeve("?");
    let by = dimension(&asked, "bore").unwrap()["limits_by"].as_str().unwrap_or_default().to_string();
    let grade: u32 = asked.to_string().split("bore_class = \\\"").nth(1).map_or(0, |at| {
        at.chars()
            .skip_while(|c| c.is_alphabetic())
            .take_while(char::is_ascii_digit)
            .collect::<String>()
            .parse()
            .unwrap_or(0)
    });
    assert!((5..=8).contains(&grade), "{by}: {grade}: {}", asked["notes"]);
}

/// A hardness that no step makes: 1045 comes with some 170 HV, and 58 HRC are 653 (ASTM E140). Named as the steel that is hardened, it is
/// made so by a step; a measured figure near what was delivered passes.
#[test]
fn a_hardness_that_no_step_makes_fails() {
    let of = |steel: &str, hardness: &str| {
        let text = format!(
            "family = \"sleeve\"\nmaterial = \"{steel}\"\nbore = \"25 mm\"\noutside_diameter = \"32 mm\"\nlength = \"40 mm\"\n\
             bore_class = \"H7\"\noutside_class = \"h5\"\n[shaft]\nclass = \"g6\"\n[runs_under]\nrollers = 26\n\
             roller_diameter = \"3 mm\"\nroller_length = \"17 mm\"\nload = \"1 kN\"\nneedle_bore_class = \"F6\"\nhardness = \"{hardness}\"\n"
        );
        let part = made(&text);
        let judged = finding(&part, "hardness_made").map(|f| f["verdict"].as_str().unwrap().to_string());
        (judged, steps(&part).join("\n").contains("arden"))
    };
    assert_eq!(of("steel 1045", "58 HRC"), (Some("fail".into()), false));
    assert_eq!(of("steel 1045", "190 HV").0, Some("ok".into()));
    assert_eq!(of("steel 52100 hardened", "60 HRC"), (None, true));
}
