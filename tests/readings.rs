//! Readings: what is good, what is not and what cannot be told, against the rule of ISO 14253-1 and against simulated shops;
//! what is refused; and that `record` writes into a part file what was measured and nothing else.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod program;

use std::fs;
use std::io::Write;
use std::process::{Command, Stdio};
use std::time::Duration;

use program::{Bench, run_in};
use rayon::prelude::*;
use setdown::formulas::conformity::{self, Zone, at_reference, zone};
use setdown::formulas::random::SplitMix;
use setdown::formulas::uncertainty::TWO_SIGMA;
use setdown::job;
use setdown::record::design::{Design, Verdict};
use setdown::record::reading::{Decision, Reading};
use setdown::shop::Shop;
use setdown::units::{Expansion, Length, TemperatureChange};

const CONE: &str = "family = \"cone\"\nbase_diameter = \"60 mm\"\ntip_diameter = \"24 mm\"\nhalf_angle = \"30 deg\"\n\
                    foot = \"6 mm\"\nmaterial = \"steel 1045\"\nmounting = \"weld-on\"\nenvironment = \"dry\"\n";

fn work(text: &str, shop: &Shop) -> Result<Design, String> {
    job::work("cone.toml", text, shop, &|_, _| Err("no such file".into())).map_err(|p| job::render(&p, text))
}

fn with(rows: &[&str]) -> String {
    rows.iter().fold(CONE.to_string(), |text, row| format!("{text}\n[[measured]]\n{row}\n"))
}

fn reading(rows: &[&str], size: &str) -> Reading {
    let design = work(&with(rows), &Shop::default()).unwrap();
    design.named(size).unwrap().measured()[0].clone()
}

// --- the rule --------------------------------------------------------------------------------------------------------

/// Limits 25.000 and 25.021, U = 0.005: good from 25.005 to 25.016, not good below 24.995 and above 25.026.
/// Source: ISO 14253-1, clauses 5 and 6 (rule from memory), worked by hand.
#[test]
fn zones_of_the_rule() {
    use Zone::{Acceptance, Rejection, Uncertainty};
    for (value, expected) in [
        (25.010, Acceptance),
        (25.005, Acceptance),
        (25.016, Acceptance),
        (25.0049, Uncertainty),
        (25.0161, Uncertainty),
        (25.000, Uncertainty),
        (24.995, Uncertainty),
        (24.9949, Rejection),
        (25.026, Uncertainty),
        (25.0261, Rejection),
    ] {
        assert_eq!(zone(value, (25.0, 25.021), 0.005).unwrap(), expected, "{value}");
    }
    // An instrument that leaves open more than half the tolerance accepts nothing.
    assert_eq!(zone(25.0105, (25.0, 25.021), 0.03).unwrap(), Uncertainty);
    // Without a lower limit, as an error of form.
    assert_eq!(zone(0.001, (f64::NEG_INFINITY, 0.01), 0.005).unwrap(), Acceptance);
    assert!(zone(f64::NAN, (0.0, 1.0), 0.1).is_err() && zone(0.5, (1.0, 0.0), 0.1).is_err());
    assert!(zone(0.5, (0.0, 1.0), -0.1).is_err());
}

/// 100 mm of steel (11.5e-6/K) read at 30 °C are 99.9885 mm; the thermometer's 1 K/√3 and a tenth of the coefficient/√3 give
/// 0.66 µm each, which 2.5 µm of the instrument make 2.67 µm. By hand from JCGM 100:2008, 5.1.2.
#[test]
fn a_warm_part_is_brought_to_twenty_degrees() {
    let steel = Expansion::per_million_kelvin(11.5);
    let at = |kelvin| at_reference(Length::mm(100.0), Length::um(2.5), steel, TemperatureChange::kelvin(kelvin));
    let warm = at(10.0).unwrap();
    assert!((warm.value.as_mm() - 99.988_501).abs() < 1e-6, "{:?}", warm.value);
    assert!((warm.standard.as_um() - 2.6698).abs() < 1e-3, "{:?}", warm.standard);
    assert!(at(-10.0).unwrap().value > Length::mm(100.0));
    assert!(at(201.0).is_err() && at(200.0).is_ok());
}

/// Two readings exclude each other where they differ by more than both uncertainties in squares: 3, 4 and 5.
#[test]
fn readings_that_exclude_each_other() {
    assert!(!conformity::exclude((10.0, 0.3), (10.5, 0.4)));
    assert!(conformity::exclude((10.0, 0.3), (10.51, 0.4)));
}

// --- simulated shops -------------------------------------------------------------------------------------------------

/// How many of `n` may lie off the share `p`: four and a half standard deviations of the binomial distribution.
fn bound(n: usize, p: f64) -> f64 {
    4.5 * (n as f64 * p * (1.0 - p)).sqrt()
}

/// 2,000 cones with hidden sizes, read warm with hidden errors of micrometer, thermometer and expansion: the interval covers the
/// true size as often as k = 2 says.
#[test]
fn intervals_cover_what_is_hidden() {
    let n = 2000_usize;
    let shop = Shop::default();
    let one = |i: usize| {
        let mut lot = SplitMix::for_draw(17, i as u64);
        let truth = 59.4 + 1.2 * lot.uniform();
        let (at, thermometer) = (5.0 + 30.0 * lot.uniform(), 2.0 * lot.uniform() - 1.0);
        let stated = shop.material("steel 1045").unwrap().elastic.expansion.as_per_million_kelvin() * 1e-6;
        let expansion = stated * (1.0 + 0.1 * (2.0 * lot.uniform() - 1.0));
        let shown = truth * (1.0 + expansion * (at - 20.0 + thermometer)) + 0.0025 * lot.normals()[0];
        let row = format!("what = 'base'\nvalue = '{shown:.6} mm'\nwith = 'micrometer'\nat = '{at:.6} C'");
        let design = work(&with(&[&row]), &shop).unwrap();
        let r = design.named("base_diameter").unwrap().measured()[0].clone();
        usize::from((r.value.number() - truth).abs() <= r.u.number())
    };
    let covered: usize = (0..n).into_par_iter().map(one).sum();
    let expected = TWO_SIGMA * n as f64;
    // The rectangular parts reach less far than a normal one: a little over is in order, under is not.
    assert!((covered as f64) > expected - bound(n, TWO_SIGMA), "{covered} of {n}");
    assert!((covered as f64) < expected + bound(n, TWO_SIGMA), "{covered} of {n}");
}

/// Parts whose size is a limit or beyond it are taken for good in at most 2.3 of 100 cases, and good ones rejected in no more:
/// the tail of a normal distribution beyond two standard deviations (any table of it), which is what guard bands of U = 2 u
/// promise.
#[test]
fn false_accepts_are_as_rare_as_the_rule_promises() {
    let n = 2000_usize;
    let shop = Shop::default();
    let tail = (1.0 - TWO_SIGMA) / 2.0;
    for (truth, wrong) in [
        (60.3, Decision::Accept),
        (60.303, Decision::Accept),
        (59.7, Decision::Accept),
        (60.3, Decision::Reject),
        (59.7, Decision::Reject),
        (60.297, Decision::Reject),
    ] {
        let one = |i: usize| {
            let mut lot = SplitMix::for_draw(23, i as u64);
            let shown = truth + 0.0025 * lot.normals()[0];
            let row = format!("what = 'base'\nvalue = '{shown:.6} mm'\nwith = 'micrometer'");
            let design = work(&with(&[&row]), &shop).unwrap();
            usize::from(design.named("base_diameter").unwrap().measured()[0].decision == Some(wrong))
        };
        let found: usize = (0..n).into_par_iter().map(one).sum();
        assert!((found as f64) < tail * n as f64 + bound(n, tail), "{truth} {wrong:?}: {found} of {n}");
        if truth == 60.3 || truth == 59.7 {
            assert!(
                (found as f64) > tail * n as f64 - bound(n, tail),
                "{truth} {wrong:?}: {found} of {n}: too careful"
            );
        }
    }
}

// --- what a reading means --------------------------------------------------------------------------------------------

/// The base is 60 ± 0.3 (ISO 2768-m).
#[test]
fn what_a_reading_means() {
    let base =
        |value: &str| reading(&[&format!("what = 'base'\nvalue = '{value}'\nwith = 'micrometer'")], "base_diameter");
    let good = base("60.1 mm");
    assert_eq!(good.decision, Some(Decision::Accept));
    let large = base("60.5 mm");
    assert_eq!(large.decision, Some(Decision::Reject));
    assert!(large.next.contains("0.5 mm is left to take off the diameter, 0.25 mm on the radius"), "{}", large.next);
    let small = base("59.5 mm");
    assert!(small.next.contains("too small by 0.2 mm: no cut brings it back"), "{}", small.next);
    assert_eq!(base("60.298 mm").decision, Some(Decision::Open));
    assert!(base("60.298 mm").next.contains("take 0.298 mm off"), "{}", base("60.298 mm").next);
    assert!(!base("59.702 mm").next.contains("off"), "nothing is to be cut there: {}", base("59.702 mm").next);
    // A calliper leaves 0.03 mm open; a micrometer would tell.
    let coarse = reading(&["what = 'base'\nvalue = '60.28 mm'\nwith = 'calliper'"], "base_diameter");
    assert!(coarse.next.contains("a micrometer tells"), "{}", coarse.next);
    // A bore is made larger by a cut.
    let text = "family = 'sleeve'\nbore = '20 mm'\noutside_diameter = '30 mm'\nlength = '40 mm'\nbore_class = 'H7'\n\
                material = 'steel 1045'\nenvironment = 'dry'\n[[measured]]\nwhat = 'bore'\nvalue = '19.9 mm'\nwith = 'bore gauge'\n";
    let design = work(text, &Shop::default()).unwrap();
    let bore = design.named("bore").unwrap().measured()[0].clone();
    assert!(
        bore.next.contains("0.111 mm is left to take off the diameter") || bore.next.contains("0.1105 mm"),
        "{}",
        bore.next
    );
    let verdicts = |text: &str| {
        let design = work(text, &Shop::default()).unwrap();
        design.findings.iter().filter(|f| f.key == "as_measured").map(|f| f.verdict).collect::<Vec<_>>()
    };
    let row = |value: &str| with(&[&format!("what = 'base'\nvalue = '{value}'\nwith = 'micrometer'")]);
    assert_eq!(verdicts(&row("60.1 mm")), [Verdict::Ok]);
    assert_eq!(verdicts(&row("60.5 mm")), [Verdict::Caution]);
    assert_eq!(verdicts(&row("59.5 mm")), [Verdict::Fail]);
    assert_eq!(verdicts(CONE), []);
}

/// Of two readings of one state the finer counts; of two states the later.
#[test]
fn which_reading_counts() {
    let row =
        |value: &str, with: &str, more: &str| format!("what = 'base'\nvalue = '{value}'\nwith = '{with}'\n{more}");
    let counts = |rows: &[String]| {
        let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
        let design = work(&with(&rows), &Shop::default()).unwrap();
        let base = design.named("base_diameter").unwrap();
        assert_eq!(base.measured().len(), 1);
        assert_eq!(base.readings.len(), rows.len());
        base.measured()[0].value.number()
    };
    assert_eq!(counts(&[row("60.1 mm", "micrometer", ""), row("60.11 mm", "calliper", "")]), 60.1);
    assert_eq!(counts(&[row("60.11 mm", "calliper", ""), row("60.1 mm", "micrometer", "")]), 60.1);
    assert_eq!(counts(&[row("60.1 mm", "micrometer", ""), row("60.102 mm", "micrometer", "")]), 60.102);
    assert_eq!(counts(&[row("60.5 mm", "micrometer", ""), row("60.1 mm", "calliper", "after_cut = true")]), 60.1);
    let (may, june) = ("on = '2026-05-02'", "on = '2026-06-02'");
    assert_eq!(counts(&[row("60.5 mm", "micrometer", may), row("60.1 mm", "calliper", june)]), 60.1);
}

/// Each is told in its place.
#[test]
fn what_is_refused() {
    let row = |more: &str| format!("what = 'base'\nvalue = '60.1 mm'\n{more}");
    let cases: &[(&[String], &str)] = &[
        (&["what = 'base_diametr'\nvalue = '60.1 mm'".into()], "did you mean base_diameter?"),
        (&["what = 'wheel'\nvalue = '60.1 mm'".into()], "its sizes are base_diameter"),
        (&["what = 'volume'\nvalue = '60.1 mm'".into()], "not measured with length or angle"),
        (&["what = 'o'\nvalue = '60.1 mm'".into()], "may be several sizes"),
        (&["value = '60.1 mm'".into()], "`what` is missing"),
        (&["what = 'base'".into()], "`value` is missing"),
        (&["what = 'base'\nvalue = '2.366 mm'".into()], "2.366 in was meant?"),
        (&["what = 'base'\nvalue = '60.1 in'".into()], "60.1 mm was meant?"),
        (&["what = 'base'\nvalue = '6.01 mm'".into()], "60.1 mm was meant?"),
        (&["what = 'base'\nvalue = '601 mm'".into()], "60.1 mm was meant?"),
        (&["what = 'base'\nvalue = '-60 mm'".into()], "cannot read"),
        (&["what = 'base'\nvalue = '30 deg'".into()], "the base diameter is a length"),
        (&["what = 'half_angle'\nvalue = '30 mm'".into()], "the half-angle is an angle"),
        (&["what = 'half_angle'\nvalue = '59.6 deg'".into()], "29.8° was meant?"),
        (&["what = 'tip_diameter'\nvalue = '60.1 mm'".into()], "does not go with a tip diameter of 24 mm"),
        (&[row("with = 'micromter'")], "did you mean micrometer?"),
        (&[row("with = 'ruler'")], "[[instrument]] in shop.toml"),
        (&[row("with = 'sine bar'")], "reads angles"),
        (&[row("piece = 2")], "there is no piece 2"),
        (&[row("at = '400 C'")], "nobody measures at 400 C"),
        (&[row("on = '2026-02-30'")], "no day of the calendar"),
        (&[row("on = 'yesterday'")], "no day of the calendar"),
        (&[row("weather = 'fine'")], "there is no key `weather` here"),
        (
            &[
                "what = 'base'\nvalue = '60.1 mm'\nwith = 'micrometer'".into(),
                "what = 'base'\nvalue = '60.2 mm'\nwith = 'micrometer'".into(),
            ],
            "exclude each other",
        ),
    ];
    for (rows, words) in cases {
        let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
        let why = work(&with(&rows), &Shop::default()).expect_err(words);
        assert!(why.contains(words), "`{words}` is not in: {why}");
        assert!(why.contains("cone.toml:1") || why.contains("cone.toml:2"), "no place: {why}");
    }
    let several = format!("count = 3\n{}", with(&["what = 'base'\nvalue = '60.1 mm'"]));
    assert!(work(&several, &Shop::default()).expect_err("piece").contains("of which of the 3 pieces"));
}

/// JCGM 100:2008, F.2.2.1: u = 0.29 times the step.
#[test]
fn an_instrument_is_no_better_than_its_steps() {
    let ratio = setdown::formulas::uncertainty::by_steps(0.02) / (0.29 * 0.02);
    assert!((ratio - 1.0).abs() < 0.01, "{ratio}");
    let shop = "family = \"shop\"\n[[instrument]]\nname = \"calliper\"\nuncertainty = \"0.012 mm\"\nleast_count = \"0.02 mm\"\n";
    let shop = Shop::read("shop.toml", shop).unwrap();
    let own = shop.instruments.iter().find(|g| g.name == "calliper").unwrap();
    assert_eq!((own.u.number(), own.least_count.unwrap().number()), (0.012, 0.02));
}

/// The shop's own instrument stands over the usual one, and is no longer called assumed.
#[test]
fn the_shops_own_instruments() {
    let shop = "family = \"shop\"\n[[instrument]]\nname = \"micrometer\"\nuncertainty = \"2 um\"\n\
                [[instrument]]\nname = \"long arm\"\nreads = \"outside\"\nuncertainty = \"0.1 mm\"\n";
    let shop = Shop::read("shop.toml", shop).unwrap();
    let of = |with_what: &str| {
        let design = work(&with(&[&format!("what = 'base'\nvalue = '60.1 mm'\nwith = '{with_what}'")]), &shop).unwrap();
        let r = design.named("base_diameter").unwrap().measured()[0].clone();
        (r.u.number(), r.assumed)
    };
    assert_eq!(of("micrometer"), (0.002, false));
    assert_eq!(of("long arm"), (0.1, false));
    assert_eq!(of("calliper"), (0.03, true));
    for (row, words) in [
        ("name = \"micrometer\"", "`uncertainty` is missing"),
        ("uncertainty = \"2 um\"", "`name` is missing"),
        ("name = \"micrometer\"\nuncertainty = \"0 mm\"", "as good or as bad"),
        ("name = \"sine bar\"\nuncertainty = \"2 um\"", "deg"),
        // JCGM 100:2008, F.2.2.1: a step of 0.02 mm leaves u = 0.29 x 0.02 mm, U = 0.0115 mm with k = 2.
        ("name = \"calliper\"\nuncertainty = \"0.011 mm\"\nleast_count = \"0.02 mm\"", "coarser steps"),
        ("name = \"sine bar\"\nuncertainty = \"0.02 deg\"\nleast_count = \"0.04 deg\"", "coarser steps"),
        ("name = \"calliper\"\nuncertainty = \"0.03 mm\"\nleast_count = \"0 mm\"", "no such steps"),
    ] {
        let text = format!("family = \"shop\"\n[[instrument]]\n{row}\n");
        let why = Shop::read("shop.toml", &text).map_err(|p| job::render(&p, &text)).expect_err(words);
        assert!(why.contains(words), "{why}");
    }
}

// --- record ----------------------------------------------------------------------------------------------------------

fn bench() -> Bench {
    let bench = Bench::new();
    bench.part("cone.toml", CONE);
    bench
}

fn text(bench: &Bench) -> String {
    fs::read_to_string(bench.path("parts/cone.toml")).unwrap()
}

#[test]
fn record_writes_and_takes_back() {
    let bench = bench();
    let run = |arguments: &[&str]| run_in(bench.folder.path(), arguments);
    let all = [
        "record",
        "parts/cone.toml",
        "base=60.5mm",
        "tip d=24.1 mm",
        "--with",
        "micrometer",
        "--at",
        "24C",
        "--on",
        "2026-05-02",
        "--note",
        "say \"so\"",
    ];
    let ran = run(&all);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(
        ran.out.contains("base diameter")
            && ran.out.contains("not good")
            && ran.out.contains("left to take off the diameter"),
        "{}",
        ran.out
    );
    let row = |what: &str, value: &str| {
        format!(
            "\n[[measured]]\nwhat = \"{what}\"\nvalue = \"{value}\"\nwith = \"micrometer\"\nat = \"24C\"\non = \"2026-05-02\"\nnote = \"say \\\"so\\\"\"\n"
        )
    };
    let (first, second) = (row("base_diameter", "60.5mm"), row("tip_diameter", "24.1 mm"));
    assert_eq!(text(&bench), format!("{CONE}{first}{second}"));
    let json = run(&["check", "--json", "parts/cone.toml"]).json();
    let base = json[0]["dimensions"].as_array().unwrap().iter().find(|d| d["key"] == "base_diameter").unwrap().clone();
    assert_eq!(base["measured"]["decision"], "reject");
    assert!(base["measured"]["u"].as_f64().unwrap() > 0.005 && base["measured"]["value"].as_f64().unwrap() < 60.5);
    assert!(base["measured"]["next"].as_str().unwrap().contains("left to take off"));
    assert_eq!(run(&["record", "parts/cone.toml", "--undo"]).code, 0);
    assert_eq!(text(&bench), format!("{CONE}{first}"));
    assert!(run(&["record", "parts/cone.toml", "--undo"]).out.contains("taken back: base_diameter 60.5mm"));
    assert_eq!(text(&bench), CONE);
    run(&["record", "parts/cone.toml", "--undo"]).fails_with(2, &["no reading to take back"]);
    assert_eq!(bench.names("parts"), ["cone.toml"]);
}

#[test]
fn record_writes_nothing_where_something_is_wrong() {
    let bench = bench();
    for (arguments, code, words) in [
        (&["base=2.366mm"][..], 2, "2.366 in was meant?"),
        (&["base=60.1mm", "tip_diameter=240mm"], 2, "24 mm was meant?"),
        (&["base"], 2, "is no reading"),
        (&["base="], 2, "is no reading"),
        (&["bse=60.1mm"], 2, "there is no size `bse`"),
        (&["base=60.1mm", "--piece", "2"], 2, "there is no piece 2"),
        (&["base=60.1mm", "--with", "micromter"], 2, "did you mean micrometer?"),
        (&["base=60.1mm", "--on", "2999-01-01"], 2, "still to come"),
        (&["base=60.1mm", "--on", "2026-02-30"], 2, "no day of the calendar"),
        (&["base=60.1mm", "base=60.2mm", "--with", "micrometer"], 2, "exclude each other"),
        (&["base=60.1mm", "--undo"], 2, "cannot be used with"),
    ] {
        let call = ["record", "parts/cone.toml"].iter().chain(arguments).copied().collect::<Vec<_>>();
        run_in(bench.folder.path(), &call).fails_with(code, &[words]);
        assert_eq!(text(&bench), CONE, "{arguments:?}");
    }
    run_in(bench.folder.path(), &["record", "parts", "base=60.1mm"]).fails_with(2, &["is no part file"]);
    run_in(bench.folder.path(), &["record", "parts/none.toml", "base=60.1mm"]).fails_with(3, &["none.toml"]);
    assert_eq!(bench.names("parts"), ["cone.toml"]);
}

/// Asked one after the other, in the order of the sheet; return passes over, what is refused is asked again.
#[test]
fn record_asks() {
    let bench = bench();
    let mut child = Command::new(env!("CARGO_BIN_EXE_setdown"))
        .args(["record", "parts/cone.toml", "--with", "calliper"])
        .current_dir(bench.folder.path())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    child.stdin.take().unwrap().write_all(b"60.1 mm\n\n311.77 mm\n31.2 mm\n").unwrap();
    let ran = child.wait_with_output().unwrap();
    let (out, err) = (String::from_utf8(ran.stdout).unwrap(), String::from_utf8(ran.stderr).unwrap());
    assert!(ran.status.success() && err.contains("31.177 mm was meant?"), "{err}");
    let order = ["base diameter 60 mm (59.700 to 60.300): ", "tip diameter 24 mm", "cone height 31.177 mm"];
    let places: Vec<usize> =
        order.iter().map(|words| out.find(words).unwrap_or_else(|| panic!("{words}: {out}"))).collect();
    assert!(places.is_sorted() && out.contains("base diameter 60.1 mm: good"), "{out}");
    let after = text(&bench);
    assert!(
        after.contains("what = \"base_diameter\"\nvalue = \"60.1 mm\"")
            && after.contains("what = \"height\"\nvalue = \"31.2 mm\""),
        "{after}"
    );
    assert!(!after.contains("tip_diameter\"\nvalue"), "{after}");
}

/// Whatever stands in the file stays, byte for byte, and `--undo` gives the file back.
#[test]
fn every_other_byte_stays() {
    let bench = bench();
    let remarks =
        ["# Ø and µ, kept\n", "\n\n", "   # indented\r\n", "#[[measured]]\n", "# \"quotes' and \\ strokes\n", "\t\n"];
    let readings = [
        "base=60.1mm",
        "base=2.3661 in",
        "tip=24.1 mm",
        "half_angle=29.9 deg",
        "half=29d54m",
        "foot=6.02mm",
        "over_rollers=75.8mm",
    ];
    for i in 0..60 {
        let mut lot = SplitMix::for_draw(31, i);
        let mut pick = |n: usize| (lot.next_u64() % n as u64) as usize;
        let mut file = if pick(3) == 0 { "\u{feff}".to_string() } else { String::new() };
        for line in CONE.lines() {
            file += line;
            file += if pick(4) == 0 { "   # own remark\n" } else { "\n" };
            if pick(3) == 0 {
                file += remarks[pick(remarks.len())];
            }
        }
        let before = if pick(4) == 0 {
            format!("{}\n", file.trim_end()).replace("\r\n", "\n").replace('\n', "\r\n")
        } else {
            file
        };
        bench.part("cone.toml", &before);
        let mut states = vec![before.clone()];
        for _ in 0..=pick(3) {
            let reading = readings[pick(readings.len())];
            let ran = run_in(bench.folder.path(), &["record", "parts/cone.toml", reading, "--after-cut"]);
            assert_eq!(ran.code, 0, "{}{before}", ran.err);
            assert!(text(&bench).starts_with(states.last().unwrap().as_str()), "{}", text(&bench));
            states.push(text(&bench));
        }
        while let Some(state) = states.pop() {
            assert_eq!(text(&bench), state);
            if !states.is_empty() {
                assert_eq!(run_in(bench.folder.path(), &["record", "parts/cone.toml", "--undo"]).code, 0);
            }
        }
    }
}

/// Several at once lose nothing.
#[test]
fn several_at_once_lose_nothing() {
    let bench = bench();
    let (hands, each) = (6, 4);
    std::thread::scope(|scope| {
        for hand in 0..hands {
            let folder = bench.folder.path();
            scope.spawn(move || {
                for i in 0..each {
                    let reading = format!("base=60.{hand}{i}mm");
                    let ran = run_in(folder, &["record", "parts/cone.toml", &reading, "--after-cut"]);
                    assert_eq!(ran.code, 0, "{}", ran.err);
                }
            });
        }
    });
    let after = text(&bench);
    for (hand, i) in (0..hands).flat_map(|h| (0..each).map(move |i| (h, i))) {
        assert!(after.contains(&format!("value = \"60.{hand}{i}mm\"")), "60.{hand}{i} is lost");
    }
    assert_eq!(after.matches("[[measured]]").count(), hands * each);
    assert_eq!(bench.names("parts"), ["cone.toml"]);
}

/// Killed wherever it is, the file is as before or as after, and the next run works and sweeps.
#[test]
fn killed_in_the_middle() {
    let bench = bench();
    let kills: u64 = std::env::var("SETDOWN_KILLS").ok().and_then(|n| n.parse().ok()).unwrap_or(60);
    let (mut cut, mut before) = (0, CONE.to_string());
    for round in 0..kills {
        let reading = format!("base=60.{round:03}mm");
        let mut child = Command::new(env!("CARGO_BIN_EXE_setdown"))
            .args(["record", "parts/cone.toml", &reading, "--after-cut"])
            .current_dir(bench.folder.path())
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        std::thread::sleep(Duration::from_micros(round * 40_000 / kills));
        child.kill().unwrap();
        child.wait().unwrap();
        let after = text(&bench);
        let row = format!("\n[[measured]]\nwhat = \"base_diameter\"\nvalue = \"60.{round:03}mm\"\nafter_cut = true\n");
        assert!(after == before || after == format!("{before}{row}"), "{after}");
        cut += usize::from(after == before);
        before = after;
    }
    assert!(cut > 0, "no run was killed in time");
    assert_eq!(run_in(bench.folder.path(), &["record", "parts/cone.toml", "base=60.1mm", "--after-cut"]).code, 0);
    assert_eq!(bench.names("parts"), ["cone.toml"], "what killed runs left is swept");
}

// --- what readings teach of the shop -------------------------------------------------------------------------------

const LADDER: &str = "family = \"test-fit\"\nkind = \"holes\"\nnominal = \"20 mm\"\nstep = \"0.1 mm\"\nnumber = 5\n";

/// A ladder's readings go into the shop's file: the mean of -0.22, -0.20 and -0.24 is -0.22, t(2) s/sqrt 3 = 4.303 x 0.02/1.732 = 0.0497, with
/// the calliper's 0.03 0.058, rounded up 0.06 (JCGM 100:2008 table G.2). Every other byte stays; a second ladder stands in the place of the
/// first; what cannot be written is refused and changes nothing.
#[test]
fn a_ladder_teaches_the_shop() {
    let bench = Bench::new();
    bench.part("ladder.toml", LADDER);
    let teach = || bench.run(&["record", "parts/ladder.toml", "--teach"]);
    teach().fails_with(2, &["teaches nothing of the shop", "test-fit", "nothing is written"]);
    let put = bench.run(&[
        "record",
        "parts/ladder.toml",
        "hole_1=19.58mm",
        "hole_3=19.80mm",
        "hole_5=19.96mm",
        "--with",
        "calliper",
        "--on",
        "2026-03-14",
    ]);
    assert_eq!(put.code, 0, "{}", put.err);
    teach().fails_with(2, &["there is no parts/shop.toml", "setdown start shop parts/shop.toml"]);
    let before = "# ours\r\nfamily = \"shop\"   # kept\r\n\r\n[printer]\r\nlayer = \"0.2 mm\"  # fine\r\n\r\n[[material]]\r\nname = \"PLA\"\r\n";
    bench.part("shop.toml", before);
    let told = teach();
    assert_eq!(told.code, 0, "{}", told.err);
    assert!(told.out.contains("hole_offset = \"-0.22 mm\" (not written before)"), "{}", told.out);
    let lines =
        "hole_offset = \"-0.22 mm\"\r\nhole_offset_uncertainty = \"0.06 mm\"\r\nmeasured_on = \"2026-03-14\"\r\n";
    let after = before.replace("# fine\r\n", &format!("# fine\r\n{lines}"));
    assert_eq!(bench.read("parts/shop.toml"), after);
    let again = teach();
    assert!(again.code == 0 && again.out.contains("was \"-0.22 mm\""), "{}{}", again.out, again.err);
    assert_eq!(bench.read("parts/shop.toml"), after);
    let force = bench.run(&["check", "parts/shop.toml"]);
    assert!(force.out.contains("larger by -0.22 mm") && force.out.contains("2026-03-14"), "{}", force.out);
    let odd = "family = \"shop\"\nprinter = 3\n";
    bench.part("shop.toml", odd);
    assert_ne!(teach().code, 0);
    assert_eq!(bench.read("parts/shop.toml"), odd);
}

/// Of a known 2000 mm the tape reads 1998.8: 2000/1998.8 is 0.6004 mm on every metre, and a line read as 800 mm is 800.480. Two such
/// lines and the known length itself are all that is read; every other byte of the shop's file stays.
#[test]
fn a_known_length_teaches_the_tape() {
    let bench = Bench::new();
    let started = bench.run(&["start", "landing", "parts/landing.toml"]);
    assert_eq!(started.code, 0, "{}", started.err);
    let survey = "\n[survey]\nknown_length = \"2000 mm\"\n[survey.cones]\nuncertainty = \"1 mm\"\n\
                  readings = [[\"FL\", \"FR\", \"800 mm\"], [\"FR\", \"RR\", \"1800 mm\"], [\"FL\", \"RR\", \"1970 mm\"]]\n";
    let text = bench.read("parts/landing.toml").replacen("mass =", "draws = 100\nmass =", 1) + survey;
    bench.part("landing.toml", &text);
    let before = "# ours\nfamily = \"shop\"   # kept\n[[instrument]]\nname = \"tape\"\nuncertainty = \"0.8 mm\"\n";
    bench.part("shop.toml", before);
    let put = bench.run(&["record", "parts/landing.toml", "known_length=1998.8mm", "--on", "2026-05-02"]);
    assert_eq!(put.code, 0, "{}", put.err);
    let told = bench.run(&["record", "parts/landing.toml", "--teach"]);
    assert_eq!(told.code, 0, "{}", told.err);
    let after = bench.read("parts/shop.toml");
    assert!(after.starts_with(before), "{after}");
    for line in [
        "[tape]",
        "known = \"2000 mm\"",
        "reads = \"1998.8 mm\"",
        "reads_uncertainty = \"0.8 mm\"",
        "measured_on = \"2026-05-02\"",
    ] {
        assert!(after.contains(line), "{line}: {after}");
    }
    let json: serde_json::Value =
        serde_json::from_str(&bench.run(&["check", "parts/landing.toml", "--json"]).out).unwrap();
    let sizes = json[0]["dimensions"].as_array().unwrap();
    let correction = sizes.iter().find(|d| d["name"] == "tape_correction" || d["key"] == "tape_correction").unwrap();
    assert!((correction["nominal_mm"].as_f64().unwrap() - 0.6004).abs() < 1e-3, "{correction}");
    let residuals = json[0]["figures"]["landing"]["survey"]["residuals"]
        .as_array()
        .or_else(|| json[0]["landing"]["survey"]["residuals"].as_array());
    let lines = residuals.unwrap();
    let line = lines.iter().find(|r| r["from"] == "FL" && r["to"] == "FR").unwrap();
    assert!((line["measured_mm"].as_f64().unwrap() - 800.0 * 2000.0 / 1998.8).abs() < 1e-6, "{line}");
    // A tape that reads a tenth off was misread.
    let wrong = after.replace("1998.8 mm", "1898.8 mm");
    bench.part("shop.toml", &wrong);
    assert_ne!(bench.run(&["check", "parts/landing.toml"]).code, 0);
}

/// The scale showed 30 and then 30.7 degrees, and the cuts came to 29.3 and 30.0: it shows 0.7 more than it turns. The next sheet tells what
/// it is set to, 30.7. Two cuts that do not tell one zero teach nothing.
#[test]
fn two_test_cuts_teach_the_compound() {
    let bench = Bench::new();
    bench.part("cone.toml", CONE);
    bench.part("shop.toml", "family = \"shop\"\n[[material]]\nname = \"bar\"\nlike = \"steel S235\"\n");
    let put = |readings: &[&str], more: &[&str]| {
        let mut call = vec!["record", "parts/cone.toml"];
        call.extend(readings);
        call.extend(["--on", "2026-05-02"]);
        call.extend(more);
        let ran = bench.run(&call);
        assert_eq!(ran.code, 0, "{}", ran.err);
    };
    put(&["compound_setting=30deg"], &[]);
    put(&["half_angle=29.3deg"], &["--with", "sine bar"]);
    bench.run(&["record", "parts/cone.toml", "--teach"]).fails_with(2, &["teaches nothing of the shop"]);
    put(&["compound_setting=30.7deg"], &["--after-cut"]);
    put(&["half_angle=30deg"], &["--with", "sine bar", "--after-cut"]);
    let told = bench.run(&["record", "parts/cone.toml", "--teach"]);
    assert_eq!(told.code, 0, "{}", told.err);
    let shop = bench.read("parts/shop.toml");
    for line in [
        "compound_zero = \"0.7 deg\"",
        "compound_zero_uncertainty = \"0.18 deg\"",
        "compound_zero_measured_on = \"2026-05-02\"",
    ] {
        assert!(shop.contains(line), "{line}: {shop}");
    }
    let design = work(CONE, &Shop::read("shop.toml", &shop).unwrap()).unwrap();
    let steps: String = design.operations.iter().map(|o| o.text.as_str()).collect();
    assert!(steps.contains("scale shows 30.7° then"), "{steps}");
    assert!((design.named("compound_shows").unwrap().value.number() - 30.7).abs() < 1e-9);
    assert!(work(CONE, &Shop::default()).unwrap().named("compound_shows").is_none());
    let apart = with(&[
        "what = \"compound_setting\"\nvalue = \"30 deg\"",
        "what = \"half_angle\"\nvalue = \"29.3 deg\"\nwith = \"sine bar\"",
        "what = \"compound_setting\"\nvalue = \"33 deg\"\nafter_cut = true",
        "what = \"half_angle\"\nvalue = \"30 deg\"\nwith = \"sine bar\"\nafter_cut = true",
    ]);
    let design = work(&apart, &Shop::default()).unwrap();
    assert!(
        design.lessons.is_empty()
            && design.findings.iter().any(|f| f.key == "compound_zero" && f.verdict == Verdict::Caution)
    );
}
