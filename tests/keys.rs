//! Every key that a family takes does something, and every remark of a template is a line that can be used.

#![allow(clippy::expect_used, reason = "a test stops at the first thing that is not as it should be")]

use std::collections::{BTreeMap, BTreeSet};

use lot::part;
use setdown::families::{FAMILIES, Family};
use setdown::job;
use setdown::record::design::Origin;
use setdown::record::key::{Key, Kind};
use setdown::shop::Shop;

mod lot;

/// Parts of all families that are drawn by lot.
const PARTS: u64 = 300;

/// A part file, and what stands beside it.
#[derive(Clone)]
struct Case {
    text: String,
    beside: BTreeMap<String, String>,
}

impl Case {
    /// Everything that the part comes to; what is said where it is refused.
    fn outcome(&self) -> Result<String, String> {
        let neighbour = |_: &str, name: &str| {
            let found = self.beside.get(name).ok_or("no such file")?;
            Ok((name.to_string(), found.clone()))
        };
        job::work("a.toml", &self.text, &Shop::default(), &neighbour)
            .map(|design| format!("{design:?}"))
            .map_err(|problems| job::render(&problems, &self.text))
    }

    fn with(&self, text: String) -> Self {
        Self { text, beside: self.beside.clone() }
    }
}

fn template(family: &Family, text: &str) -> Case {
    let cone = FAMILIES.iter().find(|f| f.name == "cone").expect("a cone").template;
    let mut beside: BTreeMap<String, String> =
        family.companions.iter().map(|(n, t)| ((*n).to_string(), (*t).to_string())).collect();
    beside.entry("cone.toml".into()).or_insert_with(|| cone.into());
    beside.insert("mount.dxf".into(), include_str!("../parts/mount-control-box.dxf").into());
    // A landing takes long with its usual number of draws.
    let text = if family.name == "landing" { text.replacen("mass =", "draws = 200\nmass =", 1) } else { text.into() };
    Case { text, beside }
}

// --- remarks of the templates ----------------------------------------------------------------------------------------

/// `key = …` or `[table]` behind the mark of a remark.
fn line_behind(remark: &str) -> Option<&str> {
    let line = remark.strip_prefix('#')?.trim_start();
    let word = line.split(" = ").next().filter(|_| line.contains(" = "));
    let key = word
        .is_some_and(|w| !w.is_empty() && w.chars().all(|c| c.is_ascii_lowercase() || c == '_' || c.is_ascii_digit()));
    (key || line.starts_with('[')).then_some(line)
}

/// What stands instead of keys that the template uses: those keys, and the lines that take their place.
fn instead(remark: &str) -> Option<(Vec<&str>, Vec<&str>)> {
    let (keys, lines) = remark.strip_prefix("# instead of ")?.split_once(": ")?;
    Some((keys.split(", ").collect(), lines.split("; ").collect()))
}

/// Every remark of a template used once, with its line: alone; with its whole block where the block holds a table; in the
/// place of what it stands for.
fn freed(text: &str) -> Vec<(usize, String)> {
    let lines: Vec<&str> = text.lines().collect();
    let mut found = Vec::new();
    let mut at = 0;
    while at < lines.len() {
        let end = at + lines[at..].iter().take_while(|l| l.starts_with('#')).count();
        let (block, tables) =
            (at..end, lines[at..end].iter().any(|l| line_behind(l).is_some_and(|l| l.starts_with('['))));
        let with = |free: &dyn Fn(usize) -> bool| {
            let line = |(i, l): (usize, &&str)| {
                if free(i) { line_behind(l).unwrap_or(l).to_string() } else { (*l).to_string() }
            };
            lines.iter().enumerate().map(line).collect::<Vec<_>>().join("\n") + "\n"
        };
        if tables {
            found.push((at + 1, with(&|i| block.contains(&i))));
        }
        for i in block.filter(|_| !tables) {
            if line_behind(lines[i]).is_some() {
                found.push((i + 1, with(&|free| free == i)));
            }
            if let Some((keys, new)) = instead(lines[i]) {
                let kept =
                    lines.iter().enumerate().filter(|(_, l)| !keys.iter().any(|k| l.split(" = ").next() == Some(k)));
                let put = |(at, l): (usize, &&str)| if at == i { new.join("\n") } else { (*l).to_string() };
                found.push((i + 1, kept.map(put).collect::<Vec<_>>().join("\n") + "\n"));
            }
        }
        at = end.max(at + 1);
    }
    found
}

#[test]
fn every_remark_of_a_template_is_a_line_that_works() {
    let (mut refused, mut count) = (Vec::new(), 0);
    for family in FAMILIES {
        assert!(template(family, family.template).outcome().is_ok(), "{}", family.name);
        let all = freed(family.template);
        assert!(all.len() >= 8, "only {} remarks of {}", all.len(), family.name);
        for (line, text) in all {
            count += 1;
            if let Err(why) = template(family, &text).outcome() {
                refused.push(format!("{}, line {line}: {why}", family.name));
            }
        }
    }
    let shop = include_str!("../src/cli/shop.toml");
    assert_eq!(Shop::read("shop.toml", shop).err().map(|p| job::render(&p, shop)), None);
    for (line, text) in freed(shop) {
        count += 1;
        if let Err(problems) = Shop::read("shop.toml", &text) {
            refused.push(format!("shop, line {line}: {}", job::render(&problems, &text)));
        }
    }
    assert!(count > 70, "only {count} remarks");
    assert!(refused.is_empty(), "{} remarks are refused:\n{}", refused.len(), refused.join("\n"));
}

// --- keys ------------------------------------------------------------------------------------------------------------

/// All keys of a family with the path of their table: `hole.diameter`.
fn keys(of: &'static [Key], path: &str, found: &mut BTreeMap<String, &'static Key>) {
    for key in of {
        let name = format!("{path}{}", key.name);
        if let Kind::Table(inside) | Kind::Rows(inside) = key.kind {
            keys(inside, &format!("{name}."), found);
        }
        found.insert(name, key);
    }
}

/// The lines of a part file: path of the key on each, and of the table that it opens.
fn paths(text: &str) -> Vec<Option<String>> {
    let mut table = String::new();
    let of = |line: &str| {
        let line = line.trim();
        if let Some(head) = line.strip_prefix('[') {
            let name = head.trim_start_matches('[').split(']').next().unwrap_or_default();
            table = format!("{name}.");
            return Some(name.to_string());
        }
        let (key, _) = line.split_once(" = ").filter(|_| !line.starts_with('#'))?;
        Some(format!("{table}{key}"))
    };
    text.lines().map(of).collect()
}

/// The file without that line; without the whole table where the line opens one.
fn without(text: &str, line: usize) -> String {
    let paths = paths(text);
    let head = |i: usize| text.lines().nth(i).is_some_and(|l| l.trim_start().starts_with('['));
    let end = if head(line) { (line + 1..paths.len()).find(|i| head(*i)).unwrap_or(paths.len()) } else { line + 1 };
    let kept = text.lines().enumerate().filter(|(i, _)| !(line..end).contains(i)).map(|(_, l)| format!("{l}\n"));
    kept.collect()
}

/// The file without that line, and with every other word where the key takes one of several.
fn others(text: &str, line: usize, key: &Key) -> Vec<String> {
    let words = if let Kind::Choice(words) = key.kind { words } else { &[] };
    let with = |word: &&str| {
        let put = |(i, l): (usize, &str)| {
            let new = l.split_once(" = ").filter(|_| i == line).map(|(key, _)| format!("{key} = \"{word}\""));
            new.unwrap_or_else(|| l.to_string()) + "\n"
        };
        text.lines().enumerate().map(put).collect()
    };
    std::iter::once(without(text, line)).chain(words.iter().map(with)).collect()
}

/// Part files with what neither the lot nor the templates have.
const SELDOM: &[&str] = &[
    "family = 'stand'\nname = 'low'\nnote = 'shed'\ncount = 2\nunits = 'mm'\nheight = '300 mm'\nlength = '300 mm'\nwidth = '300 mm'\nthickness = '6 mm'\n\
     general_tolerance = 'c'\nenvironment = 'dry'\ncoating = 'zinc plate 8'\ncoating_thickness = '8 um'\nlock = 'bolts'\nthread = 'M6'\nclass = '10.9'\n\
     load = '100 kg'\nshared_by = 4\nuneven = 1.5\noff_centre = '20 mm'\npush = '100 N'\nslope = '2 deg'\nfloor = 'timber'\nsole = '80 mm'\n\
     cutter_sheet = ['200 mm', '200 mm']\n",
    "family = 'test-fit'\nkind = 'ring'\nnominal = '20 mm'\nclass = 'h11'\ngeneral_tolerance = 'c'\nnote = 'shelf'\n",
    "family = 'adapter'\nkind = 'flange'\noutside_diameter = '180 mm'\nthickness = '20 mm'\nbore = '40 mm'\nbore_class = 'H9'\nname = 'ring'\n\
     note = 'dot up'\ncount = 2\nunits = 'mm'\ngeneral_tolerance = 'c'\nmaterial = 'steel S235'\nenvironment = 'outdoors'\n\
     coating = 'zinc plate 8'\ncoating_thickness = '8 um'\nkept_apart = 'paint'\n[upper]\ncircle = '90 mm'\nnumber = 4\nthread = 'M10'\n\
     hole = 'tapped'\nthread_depth = '9 mm'\nfirst_angle = '45 deg'\nonto = 'aluminium 6061-T6'\nonto_thickness = '12 mm'\n\
     class = '5.8'\nregister = 'recess'\nregister_diameter = '60 mm'\nregister_height = '3 mm'\nregister_class = 'H8'\n\
     mate_class = 'f7'\n[lower]\ncircle = '140 mm'\nnumber = 6\nthread = 'M8'\nclearance = 'fine'\nmate_diameter = '160 mm'\n\
     ring_section = '3.53 mm'\nring_inside = '70 mm'\npressure = 'inside'\ngroove_depth = '2.8 mm'\ngroove_width = '5.2 mm'\n\
     groove_diameter = '77 mm'\nclass = '10.9'\nonto = 'aluminium 6061-T6'\n[load]\npull = '1 kN'\nacross = '2 kN'\nlever = '100 mm'\nfriction = 0.3\n",
    "family = 'adapter'\nkind = 'spacer'\noutside_diameter = '180 mm'\nthickness = '40 mm'\nbore = '40 mm'\nbore_below = '44 mm'\n[upper]\n\
     circle = '90 mm'\nnumber = 4\nthread = 'M10'\nhole = 'tapped'\nthread_depth = '16 mm'\ngasket = '1 mm'\nmate_diameter = '120 mm'\n\
     first_angle = '20 deg'\nregister = 'spigot'\nregister_diameter = '60 mm'\nregister_height = '4 mm'\nmate_class = 'H8'\n[lower]\n\
     circle = '140 mm'\nnumber = 6\nthread = 'M8'\nhole = 'counterbored'\nclearance = 'coarse'\nclass = '10.9'\nfirst_angle = '15 deg'\n\
     gasket = '2 mm'\nonto_thickness = '10 mm'\nregister = 'spigot'\nregister_diameter = '60 mm'\nregister_height = '5 mm'\n\
     register_class = 'f7'\n[load]\npull = '1 kN'\nacross = '200 N'\n",
    "family = 'adapter'\nkind = 'flange'\noutside_diameter = '180 mm'\nthickness = '20 mm'\n[upper]\ncircle = '130 mm'\nnumber = 4\n\
     thread = 'M10'\nclearance = 'coarse'\nring_section = '3.53 mm'\nring_inside = '70 mm'\npressure = 'outside'\ngroove_depth = '2.8 mm'\n\
     groove_width = '5.2 mm'\ngroove_diameter = '71 mm'\nclass = '10.9'\nmate_diameter = '155 mm'\n[lower]\ncircle = '80 mm'\nnumber = 6\n\
     thread = 'M8'\nhole = 'tapped'\nthread_depth = '10 mm'\nfirst_angle = '15 deg'\nclass = '5.8'\nmate_diameter = '100 mm'\n\
     register = 'recess'\nregister_diameter = '50 mm'\nregister_height = '3 mm'\nregister_class = 'H8'\nmate_class = 'f7'\n",
    "family = 'clamp'\nkind = 'split'\nbore = '36 mm'\noutside_diameter = '50 mm'\nwidth = '30 mm'\ngap = '3 mm'\near_thickness = '14 mm'\n\
     ear_height = '44 mm'\nfriction = 0.2\ncoating = 'zinc plate 8'\ncoating_thickness = '8 um'\n[screw]\nthread = 'M8'\nclass = '8.8'\n\
     number = 2\ndistance = '32 mm'\ninto = 'nut'\n[tube]\ndiameter = '30 mm'\ntolerance = '0.1 mm'\nwall = '3 mm'\n\
     material = 'aluminium 6061-T6'\n[holds]\nforce_on_lever = '100 N'\nlever = '100 mm'\nalong = '200 N'\nsafety = 2\n[liner]\n\
     wall = '2 mm'\nmaterial = 'acetal'\n",
    "family = 'clamp'\nkind = 'halves'\nbore_class = 'H9'\noutside_diameter = '50 mm'\nwidth = '20 mm'\ngap = '3 mm'\near_thickness = '14 mm'\n\
     ear_height = '44 mm'\n[screw]\nthread = 'M8'\n[tube]\ndiameter = '30 mm'\n[opened]\nbore_before = '25 mm'\n\
     steps = ['24 mm', '28 mm', '32 mm', '34 mm']\nstep_height = '12 mm'\n",
    "family = 'bush'\nnote = 'both sides'\nbore = '20 mm'\noutside_diameter = '28 mm'\nlength = '25 mm'\nbore_class = 'F8'\noutside_class = 'p6'\n\
     coating = 'paint'\n[shaft]\nclass = 'h8'\n[housing]\nclass = 'H7'\n[pressed_in]\nhub_outside = '60 mm'\n[runs]\nload = '500 N'\n\
     shock = 2\nturns_per_minute = 40\nhours = 100\nwear = '0.1 mm'\nwear_factor = 2e-6\nfriction = 0.1\ndirt = true\n\
     shaft_hardness = '200 HV'\nallowed_pressure = '20 MPa'\nallowed_pressure_speed = 2.6\n[washer]\noutside_diameter = '40 mm'\n\
     bore = '21 mm'\nthickness = '3 mm'\nload = '100 N'\n",
    "family = 'bush'\nbore = '20 mm'\noutside_diameter = '28 mm'\nlength = '25 mm'\nbore_class = 'F8'\noutside_class = 'm6'\n\
     coating = 'zinc plate 8'\ncoating_thickness = '8 um'\nmaterial = 'steel S235'\n[shaft]\ndiameter = '19.4 mm'\nloose = true\n\
     [housing]\ndiameter = '27.99 mm'\nloose = true\n[pressed_in]\nhub_outside = '60 mm'\nmaterial = 'steel 1045'\nfriction = 0.1\n\
     roughness = '0.8 um'\nother_roughness = '0.4 um'\nassembly_gap = '0.05 mm'\nroom = '15 C'\nsecured = 'compound'\n\
     shear_strength = '15 MPa'\n[runs]\nload = '500 N'\n[grease_hole]\ndiameter = '3 mm'\nposition = '9 mm'\n[groove]\nside = 'inside'\n\
     width = '5 mm'\ndepth = '0.5 mm'\nposition = '9 mm'\n",
    "family = 'bush'\nbore = '20 mm'\noutside_diameter = '28 mm'\nlength = '25 mm'\nbore_class = 'F8'\noutside_class = 'f7'\n\
     [shaft]\nclass = 'h8'\n[housing]\ndiameter = '28.6 mm'\nloose = true\n[pressed_in]\nhub_outside = '60 mm'\nsecured = 'screw'\n\
     [runs]\nload = '500 N'\n",
    "family = 'tube-sleeve'\nnote = 'both sides'\noutside_diameter = '22 mm'\nbore = '14 mm'\ncoating = 'zinc plate 8'\n\
     coating_thickness = '11 um'\n[tube]\nshape = 'round'\nthrough = '60 mm'\nwall = '3 mm'\n[bolt]\nthread = 'M12'\n",
    "family = 'cone'\nbase_diameter = '60 mm'\ntip_diameter = '40 mm'\nhalf_angle = '30 deg'\nfoot = '8 mm'\n\
     coating = 'zinc plate 8'\ncoating_thickness = '11 um'\nseat_masked = true\nseat_load = '160 kg'\nside_factor = 0.5\n\
     crossbar_wall = '5 mm'\ncrossbar_material = 'stainless 304'\nmounting = 'weld-on'\n[bolt]\nthread = 'M8'\n\
     head_depth = '9.5 mm'\nregister = 'foot'\nclass = '10.9'\n",
    "family = 'cup'\nlength = '160 mm'\nthickness = '8 mm'\nmates = 'cone.toml'\nlift = '5 mm'\nseat_load = '160 kg'\n\
     side_factor = 0.5\nframe_material = 'aluminium 6061-T6'\ncoating = 'zinc plate 8'\ncoating_thickness = '11 um'\nseat_masked = true\n\
     [hole]\nkind = 'stepped'\nsteps = ['36 mm', '38 mm', '40 mm']\nstep_height = '4 mm'\nstop_depth = '2 mm'\n\
     pilot = '10 mm'\n[mounting]\nthread = 'M8'\nclearance = 'coarse'\nspacing = ['120 mm', '120 mm']\ndowels = '6 mm'\n\
     dowel_spacing = '130 mm'\nclass = 'A2-70'\n",
    "family = 'cup'\ndiameter = '160 mm'\nthickness = '8 mm'\n[hole]\nkind = 'round'\ndiameter = '40 mm'\n[mounting]\n\
     diameter = '9.2 mm'\ncircle = '130 mm'\nnumber = 6\nfirst_angle = '15 deg'\n",
    "family = 'sleeve'\nbore = '20 mm'\noutside_diameter = '30 mm'\nlength = '40 mm'\nenvironment = 'dry'\n\
     coating = 'phosphate'\ncoating_thickness = '8 um'\n[shaft]\ndiameter = '19.0 mm'\nmaterial = 'stainless 304'\n\
     loose = true\n[housing]\ndiameter = '31.0 mm'\nmaterial = 'aluminium 6061-T6'\nloose = true\n",
    "family = 'sleeve'\nbore = '20 mm'\noutside_diameter = '30 mm'\nlength = '20 mm'\nbore_class = 'H7'\n\
     outside_class = 'r6'\n[housing]\nclass = 'H7'\n[pressed_in]\nhub_outside = '60 mm'\nmaterial = 'aluminium 6061-T6'\n\
     friction = 0.2\nroughness = '0.8 um'\nother_roughness = '1.6 um'\nassembly_gap = '0.05 mm'\nroom = '5 C'\n",
    "family = 'sleeve'\nbore = '20 mm'\noutside_diameter = '30 mm'\nlength = '20 mm'\nbore_class = 'H7'\n[shaft]\n\
     class = 's6'\n[slid_on]\nsecured = 'compound'\nshear_strength = '15 MPa'\nshaft_bore = '5 mm'\nmaterial = 'stainless 304'\nfriction = 0.2\nroughness = '0.8 um'\n\
     other_roughness = '1.6 um'\nassembly_gap = '0.05 mm'\nroom = '5 C'\n",
    "family = 'sleeve'\nbore = '20 mm'\noutside_diameter = '30 mm'\nlength = '60 mm'\nmaterial = 'steel 52100 hardened'\n\
     [runs_under]\nrollers = 24\nroller_diameter = '2.5 mm'\nroller_length = '12 mm'\nmass = '245 kg'\nlever = 2.5\n\
     shock = 1.5\nmotion = 'swings'\nswing = '40 deg'\nload_factor = 6\nhardness = '60 HRC'\ncase_depth = '0.4 mm'\n\
     core_hardness = '400 HV'\nend_float = '0.3 mm'\nposition = '20 mm'\nsealed = true\n",
    "family = 'shim'\nreplaces = ['0.52 mm', '0.31 mm', '0.41 mm']\npresent_float = '0.12 mm'\n\
     target_float = ['0.05 mm', '0.35 mm']\ninstrument = 'calliper'\nfloat_instrument = 'feeler gauge'\n\
     environment = 'dry'\ncoating = 'zinc plate 5'\ncoating_thickness = '6 um'\n",
    "family = 'plate'\nunits = 'mm'\nnote = 'burr outwards'\ncount = 3\nname = 'foot'\nmaterial = 'steel S235'\n\
     general_tolerance = 'f'\ncoating = 'zinc plate 8'\ncoating_thickness = '11 um'\nshape = 'rectangle'\n\
     length = '120 mm'\nwidth = '60 mm'\nthickness = '6 mm'\n[[hole]]\nat = ['40 mm', '0 mm']\nthread = 'M6'\n\
     tapped = true\n[[hole]]\nat = ['-40 mm', '0 mm']\nthread = 'M8'\nclass = '10.9'\n",
    "family = 'landing'\nmass = '640 kg'\ncentre_of_mass = ['0 mm', '0 mm', '700 mm']\n\
     trailer_material = 'aluminium 6061-T6'\ntrailer_tilt = '2 deg'\nfirst_end = 'front'\npitch = '2 deg'\nwear = '0.4 mm'\ntemperature_change = 30\n\
     [accelerations]\nforward = '0.6 g'\nrearward = '0.4 g'\nsideways = '0.3 g'\nbump = 0.6\n\
     [fit_up]\nplaced = 'transferred'\ntransfer_error = '0.6 mm'\nweld_pull = '0.9 mm'\n\
     [survey]\nknown_length = '2000 mm'\n[survey.cones]\nuncertainty = '2 mm'\nthird_point = 'right'\n\
     readings = [['A', 'B', '800 mm'], ['B', 'C', '1800 mm'], ['A', 'C', '1970 mm']]\n\
     [survey.cups]\nuncertainty = '1.2 mm'\nthird_point = 'right'\n\
     readings = [['A', 'B', '801 mm'], ['B', 'C', '1800 mm'], ['A', 'C', '1970 mm']]\n\
     [[seat]]\nname = 'A'\ncone = 'cone.toml'\ncup = 'cup.toml'\n[[seat]]\nname = 'B'\ncone = 'cone.toml'\n\
     cup = 'cup.toml'\n[[seat]]\nname = 'C'\ncone = 'cone.toml'\ncup = 'cup.toml'\n",
];

/// The template with a reading of the second of three pieces, by two instruments.
fn measured(family: &Family) -> Vec<Case> {
    let remark = |key: &str| family.template.lines().find_map(|l| l.strip_prefix(&format!("# {key} = "))).expect("it");
    let (what, value) = (remark("what"), remark("value"));
    let text = family.template.replacen("count = 1\n", "count = 3\n", 1);
    let (with, piece) = (["calliper", "micrometer"], if text.contains("count = 3") { 2 } else { 1 });
    let row =
        |with: &str| format!("[[measured]]\nwhat = {what}\nvalue = {value}\nwith = \"{with}\"\npiece = {piece}\n");
    with.map(|with| template(family, &format!("{text}\n{}", row(with)))).into()
}

/// Keys that a family knows only to say where they belong.
const REFUSED: &[(&str, &str)] = &[
    ("landing", "coating"),
    ("landing", "coating_thickness"),
    ("landing", "environment"),
    ("landing", "general_tolerance"),
];

/// What is written behind a key in a part that refuses it.
const WRITTEN: &[(&str, &str)] = &[
    ("coating", "'zinc plate 8'"),
    ("coating_thickness", "'8 um'"),
    ("environment", "'dry'"),
    ("general_tolerance", "'f'"),
];

/// Parts drawn by lot, and the template with each of its remarks used.
fn pool(family: &Family) -> Vec<Case> {
    let drawn = (3000..3000 + PARTS).map(part).filter(|p| p.family == family.name);
    let drawn = drawn
        .map(|p| Case { beside: p.beside.iter().map(|(n, t)| ((*n).to_string(), t.clone())).collect(), text: p.text });
    let freed = freed(family.template).into_iter().map(|(_, text)| template(family, &text));
    let seldom = SELDOM.iter().filter(|t| t.starts_with(&format!("family = '{}'", family.name)));
    seldom.map(|t| template(family, t)).chain(measured(family)).chain(freed).chain(drawn).collect()
}

/// Keys of a family that no part shows to do anything, and those that no part has.
fn without_effect(family: &Family) -> Vec<String> {
    let mut open = BTreeMap::new();
    keys(family.keys, "", &mut open);
    let mut seen: BTreeSet<String> = BTreeSet::new();
    for case in pool(family) {
        let mut outcome = None;
        for (line, path) in paths(&case.text).into_iter().enumerate() {
            let Some(path) = path.filter(|p| open.contains_key(p)) else { continue };
            let whole = outcome.get_or_insert_with(|| case.outcome());
            // What is refused anyway shows nothing.
            let Ok(whole) = whole else { break };
            seen.insert(path.clone());
            let changed = others(&case.text, line, open[&path]);
            if changed.into_iter().any(|text| case.with(text).outcome().as_ref() != Ok(whole)) {
                // A table does what is in it.
                path.match_indices('.').for_each(|(at, _)| {
                    open.remove(&path[..at]);
                });
                open.remove(&path);
            }
        }
    }
    // There is one landing, and its readings are of that one.
    let one = |path: &String| family.name == "landing" && path == "measured.piece";
    open.into_keys()
        .filter(|path| !one(path) && !REFUSED.contains(&(family.name, path.as_str())))
        .map(|path| {
            let why = if seen.contains(&path) { "changes nothing" } else { "stands in no part" };
            format!("{}: `{path}` {why}", family.name)
        })
        .collect()
}

/// Each of them is refused at its place, with what would be right.
#[test]
fn a_key_that_a_family_cannot_use_is_refused_at_its_place() {
    for (name, key) in REFUSED {
        let family = FAMILIES.iter().find(|f| f.name == *name).expect("a family");
        let value = WRITTEN.iter().find(|(k, _)| k == key).expect("a value").1;
        let text = family.template.replacen("mass =", &format!("{key} = {value}\nmass ="), 1);
        let why = template(family, &text).outcome().expect_err("refused");
        let line = text.lines().position(|l| l.starts_with(&format!("{key} ="))).expect("written") + 1;
        assert!(why.contains(&format!("`{key}` does nothing here")) && why.contains("write it there"), "{why}");
        assert!(why.contains(&format!("a.toml:{line}:")), "line {line}: {why}");
    }
}

#[test]
fn every_key_of_every_family_does_something() {
    let dead: Vec<String> = FAMILIES.iter().flat_map(|f| without_effect(f)).collect();
    assert!(dead.is_empty(), "{} keys:\n{}", dead.len(), dead.join("\n"));
}

// --- what is left out ------------------------------------------------------------------------------------------------

/// Keys of which nothing is taken where they are left out, by table and name or by name alone, and why.
const NOTHING_TAKEN: &[(&str, &[&str])] = &[
    (
        "words about the part, and which unit is shown first",
        &["name", "note", "count", "units", "seat.name", "segment.name"],
    ),
    (
        "what is not there is not made",
        &[
            "bolt.register",
            "chamfer",
            "bore_chamfer",
            "coating",
            "seat_masked",
            "corner_radius",
            "foot",
            "hole.chamfer",
            "hole.pilot",
            "hole.rim_radius",
            "tip_radius",
            "crossbar_wall",
            "runs_under.case_depth",
            "housing.loose",
            "shaft.loose",
            "slid_on",
            "pressed_in",
            "stock",
            "kept_apart",
            "offset",
            "bolt",
            "mounting.thread",
            "tube.drain",
            "inner_radius",
            "hole.thread",
            "hole.diameter",
            "hole.length",
            "hole.circle",
            "hole.tapped",
            "pressed_in.secured",
            "straight_groove",
            "sole",
            "survey.known_length",
            "bore_below",
            "gasket",
        ],
    ),
    (
        "nothing is judged or worked without it",
        &[
            "check_ring",
            "frame_wall",
            "seat_load",
            "mates",
            "at_hand",
            "batch",
            "over",
            "runs_under.needle_bore_class",
            "shear_strength",
            "side_load",
            "bolt.clamped",
            "onto",
            "load",
            "load_at",
            "onto_thickness",
            "runs.hours",
            "runs.turns_per_minute",
            "runs.wear_factor",
            "holds.along",
            "load_height",
            "apart",
            "load.pull",
            "load.across",
        ],
    ),
    (
        "by the general tolerance, which stands beside the size",
        &["bore_class", "outside_class", "half_angle_tolerance", "general_tolerance"],
    ),
    (
        "by the other figures",
        &[
            "base_diameter",
            "tip_diameter",
            "half_angle",
            "height",
            "gap",
            "replaces",
            "float_without",
            "bore",
            "hole",
            "screw.distance",
            "liner.wall",
            "measured_thickness",
        ],
    ),
    (
        "told beside the reading",
        &["measured.with", "measured.at", "measured.piece", "measured.on", "measured.after_cut"],
    ),
    (
        "measured instead of drawn, or the other way",
        &["shaft.class", "shaft.diameter", "seat.at", "seat.kind", "seat.mismatch"],
    ),
];

/// Keys whose place in the table of sizes has another name.
const TOLD_AS: &[(&str, &str)] = &[
    ("coating_thickness", "coating"),
    ("member.class", "tolerance"),
    ("member.instrument", "tolerance"),
    ("service_temperature", "coldest"),
    ("temperature_range", "coldest"),
    ("pressed_in.material", "joint_material"),
    ("slid_on.material", "joint_material"),
    ("runs.allowed_pressure", "pressure_allowed"),
    ("runs.allowed_pressure_speed", "pressure_speed_allowed"),
];

/// What a part takes by itself, and tells as assumed.
fn told_as_assumed(case: &Case) -> BTreeSet<String> {
    let neighbour = |_: &str, name: &str| {
        let found = case.beside.get(name).ok_or("no such file")?;
        Ok((name.to_string(), found.clone()))
    };
    let design = job::work("a.toml", &case.text, &Shop::default(), &neighbour).expect("worked before");
    let assumed = design.dimensions.iter().filter(|d| matches!(d.origin, Origin::Assumed(_)));
    assumed.map(|d| d.key.clone()).collect()
}

/// Whether a part without that line is another and does not say what it takes instead; `None` where it is none or the same.
fn silent(case: &Case, whole: &str, line: usize, path: &str) -> Option<bool> {
    let other = case.with(without(&case.text, line));
    if other.outcome().ok()? == whole {
        return None;
    }
    let key = path.rsplit('.').next()?;
    let other_name = TOLD_AS.iter().find(|(of, _)| *of == path).map_or(key, |(_, told)| told);
    let tells = |told: &String| {
        let named =
            |key: &str| told == key || told.ends_with(&format!("_{key}")) || told.starts_with(&format!("{key}_"));
        named(key) || named(other_name)
    };
    Some(!told_as_assumed(&other).iter().any(tells))
}

/// Two parts of each key suffice.
const LOOKED_AT: usize = 2;

/// What is left out and counts stands in the table of sizes as assumed, or nothing is taken for it.
#[test]
fn what_is_left_out_and_counts_is_told() {
    let mut unsaid: BTreeMap<String, usize> = BTreeMap::new();
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    for family in FAMILIES {
        let mut open = BTreeMap::new();
        keys(family.keys, "", &mut open);
        for case in pool(family) {
            let mut whole = None;
            for (line, path) in paths(&case.text).into_iter().enumerate() {
                // A table that is not there is a part without what it tells of.
                let single =
                    |p: &String| open.get(p).is_some_and(|k| !matches!(k.kind, Kind::Table(_) | Kind::Rows(_)));
                let Some(path) = path.filter(single) else { continue };
                let exempt = |words: &&str| **words == *path || path.rsplit('.').next() == Some(words);
                let name = format!("{} {path}", family.name);
                let enough = seen.get(&name).is_some_and(|n| *n >= LOOKED_AT);
                if enough || NOTHING_TAKEN.iter().any(|(_, keys)| keys.iter().any(exempt)) {
                    continue;
                }
                let Ok(whole) = whole.get_or_insert_with(|| case.outcome()) else { break };
                if let Some(silent) = silent(&case, whole, line, &path) {
                    *seen.entry(name.clone()).or_default() += 1;
                    *unsaid.entry(name).or_default() += usize::from(silent);
                }
            }
        }
    }
    assert!(seen.len() > 60, "only {} keys were left out", seen.len());
    unsaid.retain(|_, times| *times > 0);
    assert!(unsaid.is_empty(), "left out without a word: {unsaid:#?}");
}
