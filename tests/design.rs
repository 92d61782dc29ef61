//! What every design must hold, seen on parts drawn by lot, on the demo and on the templates.

#![allow(clippy::expect_used, reason = "a test stops at the first thing that is not as it should be")]

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use lot::part;
use setdown::families::FAMILIES;
use setdown::job;
use setdown::record::design::{Design, Verdict};
use setdown::shop::Shop;

mod held;
mod lot;

/// How many parts are drawn by lot, and how many of them at least must be such as can be made.
const PARTS: u64 = 400;
const WORKED: usize = 370;

/// Parts with what neither the demo has nor the lot draws: a register, dowels, coatings, nylon, a retaining compound.
const SELDOM: [(&str, &str); 14] = [
    (
        "clamp-with-a-liner.toml",
        "family = 'clamp'\nkind = 'halves'\nmaterial = 'aluminium 6061-T6'\nbore = '38 mm'\noutside_diameter = '58 mm'\nwidth = '26 mm'\n\
         gap = '3 mm'\near_thickness = '14 mm'\near_height = '46 mm'\n[screw]\nthread = 'M8'\nclass = '8.8'\n[tube]\n\
         diameter = '36 mm'\ntolerance = '0.05 mm'\nwall = '3 mm'\n[holds]\nforce_on_lever = '130 N'\nlever = '150 mm'\n[liner]\n\
         material = 'brass C36000'\n",
    ),
    (
        "adapter-spacer.toml",
        "family = 'adapter'\nkind = 'spacer'\noutside_diameter = '180 mm'\nthickness = '40 mm'\nbore = '40 mm'\nbore_below = '44 mm'\n[upper]\n\
         circle = '90 mm'\nnumber = 4\nthread = 'M10'\nhole = 'tapped'\nthread_depth = '16 mm'\ngasket = '1 mm'\nmate_diameter = '120 mm'\n\
         first_angle = '20 deg'\n[lower]\ncircle = '140 mm'\nnumber = 6\nthread = 'M8'\nhole = 'counterbored'\nclass = '10.9'\n\
         first_angle = '15 deg'\ngasket = '2 mm'\nonto_thickness = '10 mm'\n[load]\npull = '1 kN'\nacross = '200 N'\n",
    ),
    (
        "shim-coated.toml",
        "family = 'shim'\ngap = '2.28 mm'\ntarget_float = ['0.05 mm', '0.15 mm']\nsides = 2\noffset = '0.2 mm'\n\
         coating = 'zinc plate 8'\nbore = '20 mm'\noutside_diameter = '32 mm'\n",
    ),
    (
        "cone-with-a-register.toml",
        "family = 'cone'\nbase_diameter = '60 mm'\ntip_diameter = '40 mm'\nhalf_angle = '30 deg'\nfoot = '8 mm'\n\
         mounting = 'bolt-on'\n[bolt]\nthread = 'M8'\nway = 'through'\nregister = 'foot'\n",
    ),
    (
        "cup-with-dowels.toml",
        "family = 'cup'\nlength = '140 mm'\nwidth = '100 mm'\nthickness = '8 mm'\n[hole]\nkind = 'round'\n\
         diameter = '40 mm'\n[mounting]\nthread = 'M8'\nspacing = ['90 mm', '70 mm']\ndowels = '6 mm'\n\
         dowel_spacing = '100 mm'\n",
    ),
    (
        "cone-dipped.toml",
        "family = 'cone'\nbase_diameter = '60 mm'\ntip_diameter = '24 mm'\nhalf_angle = '30 deg'\nfoot = '8 mm'\n\
         coating = 'hot-dip zinc over 6 mm'\nmounting = 'bolt-on'\n[bolt]\nthread = 'M12'\nway = 'from below'\n",
    ),
    (
        "cup-dipped.toml",
        "family = 'cup'\nlength = '140 mm'\nthickness = '8 mm'\nmates = 'cone-front-left.toml'\n\
         coating = 'hot-dip zinc over 6 mm'\n[hole]\nkind = 'round'\ndiameter = '40 mm'\n",
    ),
    (
        "bush-of-nylon.toml",
        "family = 'sleeve'\nmaterial = 'nylon 6/6'\nbore = '16 mm'\noutside_diameter = '22 mm'\nlength = '25 mm'\n\
         bore_class = 'H9'\noutside_class = 'd9'\n[shaft]\nclass = 'f8'\n[housing]\nclass = 'H9'\n",
    ),
    (
        "cone-as-made.toml",
        "family = 'cone'\nbase_diameter = '60 mm'\ntip_diameter = '24 mm'\nhalf_angle = '30 deg'\nmaterial = 'steel 1045'\n\
         mounting = 'weld-on'\n[[measured]]\nwhat = 'base_diameter'\nvalue = '60.1 mm'\nwith = 'micrometer'\n\
         [[measured]]\nwhat = 'half_angle'\nvalue = '30 deg'\nwith = 'sine bar'\n",
    ),
    (
        "cup-on-one-as-made.toml",
        "family = 'cup'\nlength = '140 mm'\nthickness = '8 mm'\nmates = 'cone-as-made.toml'\n\
         [hole]\nkind = 'round'\ndiameter = '40 mm'\n",
    ),
    (
        "test-fit-plug.toml",
        "family = 'test-fit'\nkind = 'plug'\nnominal = '20 mm'\nclass = 'H11'\nmaterial = 'steel 1045'\n",
    ),
    (
        "stand-bolted.toml",
        "family = 'stand'\ncount = 4\nheight = '500 mm'\nlength = '400 mm'\nwidth = '450 mm'\nthickness = '8 mm'\nkerf = '0.3 mm'\n\
         lock = 'bolts'\nload = '300 kg'\nload_height = '400 mm'\napart = '900 mm'\n",
    ),
    ("test-fit-angle.toml", "family = 'test-fit'\nkind = 'angle'\nhalf_angle = '15 deg'\n"),
    (
        "sleeve-in-compound.toml",
        "family = 'sleeve'\nbore = '20 mm'\noutside_diameter = '30 mm'\nlength = '20 mm'\nbore_class = 'H7'\n[shaft]\n\
         class = 's6'\n[slid_on]\nsecured = 'compound'\nshear_strength = '15 MPa'\nshaft_bore = '5 mm'\n",
    ),
];

fn lot_drawn() -> Vec<(String, Design)> {
    let named = |seed: u64| {
        let part = part(seed);
        let name = format!("{}-{seed}", part.family);
        part.work(&format!("{name}.toml")).ok().map(|design| (name, design))
    };
    (1000..1000 + PARTS).filter_map(named).collect()
}

fn demo_and_templates() -> Vec<(String, Design)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("parts");
    let beside = |of: &str, name: &str| {
        let text = fs::read_to_string(folder.join(name)).map_err(|e| e.to_string());
        let own = FAMILIES.iter().flat_map(|f| f.companions).find(|(n, _)| of.starts_with("template") && *n == name);
        let seldom = SELDOM.iter().find(|(n, _)| *n == name);
        let own = own.or(seldom).map_or(text, |(_, text)| Ok((*text).to_string()));
        own.map(|text| (name.to_string(), text))
    };
    let mut texts: Vec<(String, String)> =
        FAMILIES.iter().map(|f| (format!("template-{}.toml", f.name), f.template.to_string())).collect();
    for entry in fs::read_dir(&folder).expect("parts") {
        let path = entry.expect("a part").path();
        let name = path.file_name().expect("a name").to_string_lossy().into_owned();
        if name.ends_with(".toml") && name != "shop.toml" {
            texts.push((name, fs::read_to_string(&path).expect("text")));
        }
    }
    // What neither the demo nor the lot has.
    for (name, text) in SELDOM {
        texts.push((name.into(), text.into()));
    }
    let demo = texts.iter().find(|(name, _)| name == "landing-observatory.toml").expect("the demo's landing");
    let hinged = demo.1.replacen("\nmass = ", "\nfirst_end = \"front\"\nmass = ", 1);
    let read = format!(
        "{}\n[[measured]]\nwhat = \"height_FL\"\nvalue = \"0.6 mm\"\nwith = \"depth micrometer\"\n",
        texts.iter().find(|(name, _)| name == "landing-observatory.toml").map_or("", |(_, text)| text.as_str())
    );
    texts.push(("landing-hinged.toml".into(), hinged));
    texts.push(("landing-as-it-stands.toml".into(), read));
    let work = |(name, text): (String, String)| {
        let design = job::work(&name, &text, &Shop::default(), &beside);
        let design = design.unwrap_or_else(|problems| panic!("{name}:\n{}", job::render(&problems, &text)));
        (name, design)
    };
    texts.into_iter().map(work).collect()
}

#[test]
fn every_design_holds() {
    let drawn = lot_drawn();
    assert!(drawn.len() >= WORKED, "only {} of {PARTS} worked", drawn.len());
    let all: Vec<(String, Design)> = drawn.into_iter().chain(demo_and_templates()).collect();
    let mut found: Vec<String> = Vec::new();
    for (name, design) in &all {
        found.extend(held::faults(design).into_iter().map(|f| format!("{name}: {f}")));
    }
    found.extend(handles_never_recorded(&all));
    assert!(found.is_empty(), "{} faults:\n{}", found.len(), found[..found.len().min(40)].join("\n"));
}

/// Handles of sizes and tables that no part records: they are named for nothing.
fn handles_never_recorded(all: &[(String, Design)]) -> Vec<String> {
    let sizes = all.iter().flat_map(|(_, d)| d.dimensions.iter().map(|d| d.key.as_str()));
    let tables = all.iter().flat_map(|(_, d)| d.tables.iter().map(|t| t.key));
    let recorded: BTreeSet<&str> = sizes.chain(tables).collect();
    let mut found = Vec::new();
    let mut named = 0;
    for family in FAMILIES.iter().map(|f| f.name.replace('-', "_")).chain(["common".into()]) {
        let file = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("src/families/{family}/sizes.rs"));
        let text = fs::read_to_string(file).expect("handles");
        let names = text.lines().filter_map(|line| line.split_once(" = \"")?.1.split('"').next());
        named += names.clone().count();
        // A size of one of two faces bears the word of its face.
        let of_a_face =
            |name: &str| ["upper", "lower"].iter().any(|f| recorded.contains(format!("{name}_{f}").as_str()));
        let nowhere = names.filter(|name| !recorded.contains(name) && !of_a_face(name));
        found.extend(nowhere.map(|name| format!("{family}: no part has {name}")));
    }
    assert!(named > 200, "only {named} handles seen");
    found
}

fn refused(text: &str) -> String {
    match job::work("a.toml", text, &Shop::default(), &|_, _| Err("no such file".into())) {
        Err(problems) => job::render(&problems, text),
        Ok(_) => String::new(),
    }
}

/// A size that nothing can be made to is refused at its key, on `check` as on `make`.
/// Source of the limit of 1 µm: common practice, no source.
#[test]
fn sizes_too_small_to_be_made_are_refused_at_their_key() {
    let sleeve = "family = 'sleeve'\nbore = '20 mm'\noutside_diameter = '30 mm'\nlength = '60 mm'\n";
    let cone = "family = 'cone'\nbase_diameter = '60 mm'\ntip_diameter = '24 mm'\nhalf_angle = '30 deg'\n";
    let shim = "family = 'shim'\ngap = '1.28 mm'\ntarget_float = '0.1 mm'\n";
    for (text, line, told) in [
        (format!("{sleeve}[grease_hole]\ndiameter = '0.00005 um'\n"), 6, "smaller than anything"),
        (format!("{sleeve}chamfer = '0.5 um'\n"), 5, "smaller than anything"),
        (format!("{sleeve}[groove]\nwidth = '3 mm'\ndepth = '0.02 um'\n"), 7, "smaller than anything"),
        (format!("{cone}tip_radius = '0.00001 mm'\n"), 5, "smaller than anything"),
        (format!("{cone}foot = '0.0009 mm'\n"), 5, "smaller than anything"),
        (format!("{shim}stock = ['1 mm', '0.1 um']\n"), 4, "smaller than anything"),
        (
            "family = 'sleeve'\nbore = '0.0005 mm'\noutside_diameter = '30 mm'\nlength = '60 mm'\n".into(),
            2,
            "smaller than anything",
        ),
        (format!("{sleeve}[shaft]\ndiameter = '0.0014 mm'\nclass = 'g6'\n"), 7, "leaves nothing of"),
        (
            format!("{sleeve}[[segment]]\nlength = '0.02 mm'\n[[segment]]\n"),
            1,
            "nothing would be left of the length of",
        ),
    ] {
        let message = refused(&text);
        assert!(message.contains(told) && message.contains(&format!("a.toml:{line}:")), "{text}\n{message}");
    }
}

/// Limits decide: a stop that a mark keeps to ±0.3 mm (common practice, no source) leaves nothing of 0.2 mm.
#[test]
fn a_stop_depth_within_its_mark_is_refused() {
    let text = "family = 'cup'\nlength = '120 mm'\nthickness = '4 mm'\n[hole]\nkind = 'stepped'\nsteps = ['36 mm', '38 mm', '40 mm']\nstep_height = '4 mm'\nstop_depth = '0.2 mm'\n";
    let message = refused(text);
    assert!(
        message.contains("a.toml:8:14") && message.contains("nothing would be left of the stop depth"),
        "{message}"
    );
}

/// A float that is right without any shim; the range is as wide as the gap, less the readings' uncertainty.
#[test]
fn no_shim_where_none_is_needed() {
    let text = "family = 'shim'\nreplaces = ['0.52 mm', '0.31 mm']\npresent_float = '0.12 mm'\ntarget_float = ['0.003 in', '0.09 in']\n";
    let message = refused(text);
    assert!(message.contains("no shim is needed") && message.contains("a.toml:4:16"), "{message}");
    let more = text.replace("0.09 in", "0.03 in");
    assert_eq!(refused(&more), "", "a gap of 0.95 mm is more than 0.762 mm");
}

fn cup_on(cone: &str, hole: &str) -> Design {
    let text = format!(
        "family = 'cup'\nlength = '120 mm'\nthickness = '8 mm'\nmates = 'cone.toml'\n[hole]\nkind = 'round'\ndiameter = '{hole}'\n"
    );
    let cone = cone.to_string();
    let beside = move |_: &str, name: &str| Ok((name.to_string(), cone.clone()));
    job::work("cup.toml", &text, &Shop::default(), &beside).expect("a cup")
}

/// A base of 60 mm ± 0.3 (ISO 2768-1 m, over 30 to 120 mm) in a hole of 59.8 mm ± 0.3: height 0.2/(2 tan 30°) = 0.173 mm,
/// by ± 0.6/(2 tan 30°) = 0.520 mm from -0.346 to 0.693 mm: part of the batch stands on its plate.
#[test]
fn limits_decide_whether_a_cup_seats() {
    let cone = "family = 'cone'\nbase_diameter = '60 mm'\ntip_diameter = '24 mm'\nhalf_angle = '30 deg'\n";
    let verdict = |hole: &str| {
        let design = cup_on(cone, hole);
        let found = design.findings.iter().find(|f| f.key == "bottoms_out").expect("judged");
        (found.verdict, found.value.as_ref().map_or(f64::NAN, setdown::record::design::Value::number))
    };
    let (fails, least) = verdict("59.8 mm");
    assert_eq!(fails, Verdict::Fail);
    // The half-angle may be 30' off (ISO 2768-1 m, 10 to 50 mm), which turns 0.346 mm by 2 % either way.
    assert!((-0.354..=-0.339).contains(&least), "{least}");
    assert_eq!(verdict("58.5 mm").0, Verdict::Caution, "0.9/(2 tan 30°) = 0.779 mm is above nought, below 1 mm");
    assert_eq!(verdict("40 mm").0, Verdict::Ok);
}

/// A base of 60 mm ± 0.3 (ISO 2768-1 m, over 30 to 120 mm) may be 59.7 mm: a ring of 59.8 mm would fall to the plate.
#[test]
fn limits_decide_where_a_check_ring_rests() {
    let cone = |ring: &str| {
        format!(
            "family = 'cone'\nbase_diameter = '60 mm'\ntip_diameter = '24 mm'\nhalf_angle = '30 deg'\ncheck_ring = '{ring}'\n"
        )
    };
    for ring in ["59.8 mm", "59.7 mm", "24.1 mm", "60 mm"] {
        let message = refused(&cone(ring));
        assert!(message.contains("a.toml:5:14") && message.contains("the narrowest base 59.7 mm"), "{message}");
    }
    assert_eq!(refused(&cone("59.6 mm")), "");
    assert_eq!(refused(&cone("24.3 mm")), "");
}

/// The look at a design sees what does not hold.
#[test]
fn faults_of_a_design_are_seen() {
    use setdown::record::design::{Limits, Table, Value};
    use setdown::record::key::{Size, TableName};
    use setdown::units::Length;
    let sound = || {
        let text = FAMILIES.iter().find(|f| f.name == "cone").expect("a cone").template;
        job::work("a.toml", text, &Shop::default(), &|_, _| Err("no such file".into())).expect("the template")
    };
    assert_eq!(held::faults(&sound()), Vec::<String>::new());
    let limits = |lower: f64, upper: f64| Limits {
        lower: Length::mm(lower),
        upper: Length::mm(upper),
        by: "a test".into(),
        confirmed: setdown::source::Confirmed::Memory,
    };
    let height = Size::new("height", "height");
    type Spoil = fn(&mut Design);
    let spoilt: [(&str, Spoil); 6] = [
        ("is recorded twice", |d| d.computed(&Size::new("height", "height"), Value::Count(1), "")),
        ("new is Number(NaN)", |d| d.computed(&Size::new("new", "new"), Value::Number(f64::NAN), "")),
        ("which is not recorded", |d| {
            d.step("bench", "Look.").measure(&Size::new("nowhere", ""), "calliper");
        }),
        ("is ragged", |d| {
            d.tables.push(Table::new(TableName::new("t"), "", &["a"], vec![vec![]]));
        }),
        ("names the table", |d| {
            d.step("bench", "Look.").table(TableName::new("nowhere"));
        }),
        ("is recorded as", |d| {
            let of = |key: &str| d.dimensions.iter().position(|x| x.key == key).expect("recorded");
            let at = of("base_diameter");
            d.dimensions[at].value = Value::Length(Length::mm(1.0));
            d.dimensions[at].limits = None;
        }),
    ];
    for (words, spoil) in spoilt {
        let mut design = sound();
        spoil(&mut design);
        let found = held::faults(&design);
        assert!(found.iter().any(|f| f.contains(words)), "{words}: {found:?}");
    }
    for (lower, upper, words) in [(2.0, 1.0, "limits of height"), (0.0, 1.0, "least height is 0"), (-1.0, 1.0, "least")]
    {
        let mut design = sound();
        design.limit(&height, limits(lower, upper));
        assert!(held::faults(&design).iter().any(|f| f.contains(words)), "{words}");
        assert_eq!(design.vanishing().count(), usize::from(lower <= 0.0));
        design.range(&height, limits(lower, upper));
        assert_eq!(design.vanishing().count(), 0, "a range may be nought");
    }
}

/// A hole wider than the base: 62 mm ± 0.3 over 60 mm ± 0.3, 30° ± 30' (ISO 2768-1 m). Plane geometry of the cone:
/// (59.7 - 62.3)/(2 tan 29.5°) = -2.298 mm, (60.3 - 61.7)/(2 tan 30.5°) = -1.188 mm.
#[test]
fn limits_of_a_seat_under_the_base_are_in_order() {
    let cone = "family = 'cone'\nbase_diameter = '60 mm'\ntip_diameter = '24 mm'\nhalf_angle = '30 deg'\n";
    let design = cup_on(cone, "62 mm");
    assert_eq!(held::faults(&design), Vec::<String>::new());
    let limits = design.named("seat_height").and_then(|d| d.limits.clone()).expect("limits");
    for (limit, base, hole, angle) in [(limits.lower, 59.7, 62.3, 29.5_f64), (limits.upper, 60.3, 61.7, 30.5)] {
        let wanted = (base - hole) / (2.0 * angle.to_radians().tan());
        assert!((limit.as_mm() - wanted).abs() < 2e-4, "{limit:?} is not {wanted}");
    }
}

/// Where a formula ends no number of it reaches a sheet: rollers on aluminium share their load as is usual, not as Palmgren's
/// constant of steel would have it; a ring wider than the rule for chucks is held by what the chuck has; a frame hung as steep
/// as the flank of its cones is refused.
#[test]
fn no_number_from_beyond_a_formula() {
    let work = |text: &str| {
        let found = job::work("a.toml", text, &Shop::default(), &|_, _| Err("no such file".into()));
        found.unwrap_or_else(|problems| panic!("{}", job::render(&problems, text)))
    };
    let raceway = |material: &str| {
        work(&format!(
            "family = 'sleeve'\nbore = '20 mm'\noutside_diameter = '30 mm'\nlength = '60 mm'\nmaterial = '{material}'\n\
             outside_class = 'h5'\n[runs_under]\nrollers = 24\nroller_diameter = '2.5 mm'\nroller_length = '12 mm'\n\
             load = '600 N'\nneedle_bore_class = 'F6'\nhardness = '120 HV'\n"
        ))
    };
    let factor = |design: &Design| design.named("load_factor").expect("recorded").value.number();
    let (steel, aluminium) = (raceway("steel 1018"), raceway("aluminium 6061-T6"));
    assert!(factor(&steel) != 5.0 && steel.named("load_factor_least").is_some());
    assert!(factor(&aluminium) == 5.0 && aluminium.named("load_factor_least").is_none());
    let wide = work("family = 'sleeve'\nbore = '190 mm'\noutside_diameter = '230 mm'\nlength = '40 mm'\n");
    assert!(wide.operations.iter().any(|o| o.text.contains("as much as they take")), "{:?}", wide.operations);
    let parts = Path::new(env!("CARGO_MANIFEST_DIR")).join("parts");
    let text = fs::read_to_string(parts.join("landing-observatory.toml")).expect("the demo's landing");
    let beside = |_: &str, name: &str| {
        fs::read_to_string(parts.join(name)).map(|text| (name.to_string(), text)).map_err(|e| e.to_string())
    };
    let hung = |pitch: &str| {
        let text = text.replacen("\nmass = ", &format!("\nfirst_end = \"front\"\npitch = \"{pitch}\"\nmass = "), 1);
        job::work("a.toml", &text, &Shop::default(), &beside).is_ok()
    };
    // The demo's cones have 30 degrees.
    assert!(hung("29.9 deg") && !hung("30 deg") && !hung("-1 deg"));
}
