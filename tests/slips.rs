//! A unit that is not the one which was meant, or a decimal point in the wrong place, is told where two sizes must go
//! together. 1 in = 25.4 mm by definition; every other figure is plain arithmetic or has its source beside it.

#![allow(clippy::expect_used, reason = "a test stops at the first thing that is not as it should be")]

use proptest::prelude::*;
use setdown::job;
use setdown::record::design::{Design, Finding, Verdict};
use setdown::shop::Shop;
use setdown::slip::{self, Slip};
use setdown::standards::iso286::{widest_clearance, widest_interference};
use setdown::units::{Length, LengthUnit};

const CONE: &str = "family = 'cone'\nbase_diameter = '60 mm'\ntip_diameter = '24 mm'\nhalf_angle = '30 deg'\n";
const CUP: &str = "family = 'cup'\nlength = '120 mm'\nthickness = '8 mm'\nmates = 'cone.toml'\n[hole]\nkind = 'round'\ndiameter = '40 mm'\n";

fn work(text: &str) -> Result<Design, String> {
    let beside = |_: &str, name: &str| match name {
        "cone.toml" => Ok((name.to_string(), CONE.to_string())),
        "cup.toml" => Ok((name.to_string(), CUP.to_string())),
        _ => Err("no such file".into()),
    };
    job::work("a.toml", text, &Shop::default(), &beside).map_err(|problems| job::render(&problems, text))
}

#[track_caller]
fn finding(text: &str, key: &str) -> Option<Finding> {
    work(text).unwrap_or_else(|told| panic!("{told}")).findings.into_iter().find(|f| f.key == key)
}

#[track_caller]
fn tells(text: &str, key: &str, verdict: Verdict, words: &str) {
    let found = finding(text, key).unwrap_or_else(|| panic!("no {key}:\n{text}"));
    assert!(found.verdict == verdict && found.because.contains(words), "{found:?}");
}

/// 20 mm: H11 is +130/0, a11 is -300/-430, zc11 is +318/+188 µm (ISO 286-2:2010, limit deviations of holes and shafts).
#[test]
fn widest_and_tightest_class_of_a_handbook() {
    let um = |l: Option<Length>| l.expect("in the tables").as_um();
    assert!((um(widest_clearance(Length::mm(20.0))) - (130.0 + 430.0)).abs() < 1e-6);
    assert!((um(widest_interference(Length::mm(20.0))) - 318.0).abs() < 1e-6);
}

fn bush(more: &str) -> String {
    format!(
        "family = 'sleeve'\nbore = '3/4 in'\noutside_diameter = '1 in'\nlength = '1-1/4 in'\nbore_class = 'H7'\noutside_class = 'h6'\n{more}"
    )
}

#[test]
fn shaft_and_housing() {
    tells(&bush("[shaft]\ndiameter = '0.7495 mm'\n"), "bore_fit", Verdict::Fail, "0.7495 in was meant?");
    tells(&bush("[shaft]\ndiameter = '19.03 in'\n"), "bore_fit", Verdict::Fail, "19.03 mm was meant?");
    tells(&bush("[shaft]\ndiameter = '190.3 mm'\n"), "bore_fit", Verdict::Fail, "19.03 mm was meant?");
    tells(&bush("[shaft]\ndiameter = '1.903 mm'\n"), "bore_fit", Verdict::Fail, "19.03 mm was meant?");
    tells(&bush("[housing]\ndiameter = '1.0005 mm'\n"), "outside_fit", Verdict::Fail, "1.0005 in was meant?");
    tells(&bush("[housing]\ndiameter = '25.41 in'\n"), "outside_fit", Verdict::Fail, "25.41 mm was meant?");
    tells(&bush("[shaft]\ndiameter = '0.7495 in'\n"), "bore_fit", Verdict::Ok, "always some play or none");
}

/// Least clearance of 0.55 mm is within H11/a11 at 19.05 mm (560 µm), 0.57 mm is beyond.
#[test]
fn play_beyond_every_class_until_the_file_says_so() {
    tells(&bush("[shaft]\ndiameter = '18.5 mm'\n"), "bore_fit", Verdict::Ok, "always some play");
    tells(&bush("[shaft]\ndiameter = '18.48 mm'\n"), "bore_fit", Verdict::Fail, "more play than the widest class");
    tells(&bush("[shaft]\ndiameter = '18.48 mm'\n"), "bore_fit", Verdict::Fail, "loose = true");
    tells(&bush("[shaft]\ndiameter = '18.48 mm'\nloose = true\n"), "bore_fit", Verdict::Ok, "always some play");
    tells(&bush("[shaft]\ndiameter = '19.4 mm'\n"), "bore_fit", Verdict::Fail, "more interference than the tightest");
}

/// The same on the command line, and a class that leaves nothing: g6 up to 3 mm is -2/-8 µm (ISO 286-2:2010).
#[test]
fn two_measured_sizes_and_a_class() {
    use setdown::standards::fitting::{beyond_any_class, by_class, by_size};
    let beyond = |hole: Length, shaft: Length| {
        beyond_any_class(hole, shaft, true, &by_size(None, hole, shaft).range.expect("both sides"))
    };
    let found = beyond(Length::inches(0.75), Length::mm(0.7495)).expect("beyond any class");
    assert!(found.play && found.slip == Some(Slip::Inches));
    let found = beyond(Length::mm(19.05), Length::inches(19.0)).expect("beyond any class");
    assert!(!found.play && found.slip == Some(Slip::Millimetres));
    assert_eq!(beyond(Length::mm(25.012), Length::mm(24.990)), None);
    assert_eq!(beyond(Length::mm(25.0), Length::mm(25.1)), None);
    assert!(by_class(Length::mm(0.0014), "g6").expect_err("nothing left").contains("`g6` leaves nothing"));
    assert!(by_class(Length::mm(0.009), "H7/g6").expect_err("nothing left").contains("`g6` leaves nothing"));
    assert!(by_class(Length::mm(0.02), "H7/g6").is_ok());
}

#[test]
fn hub_around_a_sleeve() {
    let pressed = |hub: &str| {
        format!(
            "family = 'sleeve'\nbore = '20 mm'\noutside_diameter = '25 mm'\nlength = '30 mm'\noutside_class = 's6'\n[housing]\nclass = 'H7'\n[pressed_in]\nhub_outside = '{hub}'\n"
        )
    };
    let told = work(&pressed("2 mm")).expect_err("a hub of 2 mm around 25 mm");
    assert!(told.contains("a.toml:9:15") && told.contains("2 in was meant?"), "{told}");
    tells(&pressed("50 in"), "slip", Verdict::Caution, "50 mm was meant?");
    assert!(finding(&pressed("50 mm"), "slip").is_none());
    assert!(finding(&pressed("200 mm"), "slip").is_none());
}

#[test]
fn hole_and_plate_of_a_cup() {
    tells(&CUP.replace("40 mm", "1.575 mm"), "slip", Verdict::Fail, "1.575 in was meant?");
    tells(&CUP.replace("40 mm", "4 mm"), "slip", Verdict::Fail, "40 mm was meant?");
    tells(&CUP.replace("8 mm", "80 mm"), "slip", Verdict::Caution, "8 mm was meant?");
    assert!(finding(CUP, "slip").is_none());
    let bolted =
        |hole: &str| format!("{CUP}[mounting]\nthread = 'M8'\ndiameter = '{hole}'\nspacing = ['90 mm', '90 mm']\n");
    tells(&bolted("0.354 mm"), "slip", Verdict::Fail, "0.354 in was meant?");
    tells(&bolted("7.9 mm"), "bolt_passes", Verdict::Fail, "does not pass");
    tells(&bolted("9 mm"), "bolt_passes", Verdict::Ok, "");
    assert!(finding(&bolted("9 mm"), "slip").is_none());
}

#[test]
fn members_of_a_gap() {
    let shim = |hub: &str, more: &str| {
        let member = |name: &str, way: &str, size: &str| {
            format!("[[member]]\nname = '{name}'\ndirection = '{way}'\nsize = '{size}'\ninstrument = 'micrometer'\n")
        };
        format!(
            "family = 'shim'\ntarget_float = ['0.05 mm', '0.25 mm']\n{more}{}{}{}",
            member("fork", "adds", "68 mm"),
            member("hub", "takes", hub),
            member("washer", "takes", "26.7 mm")
        )
    };
    assert!(finding(&shim("40 mm", ""), "chain_slip").is_none());
    tells(&shim("1.575 mm", ""), "chain_slip", Verdict::Caution, "hub: 1.575 in was meant?");
    tells(&shim("4 mm", ""), "chain_slip", Verdict::Caution, "hub: 40 mm was meant?");
    let told = work(&shim("40 in", "")).expect_err("a hub longer than its fork");
    assert!(told.contains("hub: 40 mm was meant?"), "{told}");
    tells(&shim("4 mm", "gap = '1.3 mm'\n"), "chain_slip", Verdict::Caution, "hub: 40 mm was meant?");
    let old = "family = 'shim'\nreplaces = ['0.52 mm', '0.31 in', '0.4 mm']\ntarget_float = '0.1 mm'\n";
    tells(old, "slip", Verdict::Caution, "0.31 mm was meant?");
    assert!(finding(&old.replace("0.31 in", "0.31 mm"), "slip").is_none());
}

fn landing(fl: &str, reading: &str, more: &str) -> String {
    let seat = |name: &str, at: &str, more: &str| {
        format!("[[seat]]\nname = '{name}'\ncone = 'cone.toml'\ncup = 'cup.toml'\nat = [{at}]\n{more}")
    };
    let head = "family = 'landing'\nmass = '400 kg'\ncentre_of_mass = ['0 mm', '0 mm', '500 mm']\ndraws = 100\n";
    let survey = format!(
        "[survey.cones]\nreadings = [\n['FL', 'FR', '{reading}'],\n['FR', 'RR', '800 mm'],\n['RR', 'RL', '1800 mm'],\n['RL', 'FL', '800 mm'],\n['FL', 'RR', '1969.77 mm'],\n['FR', 'RL', '1969.77 mm'],\n]\n"
    );
    [
        head.to_string(),
        seat("FL", fl, more),
        seat("FR", "'900 mm', '400 mm'", ""),
        seat("RL", "'-900 mm', '-400 mm'", ""),
        seat("RR", "'900 mm', '-400 mm'", ""),
        if reading.is_empty() { String::new() } else { survey },
    ]
    .concat()
}

#[test]
fn places_readings_and_heights_of_a_landing() {
    let fl = "'-900 mm', '400 mm'";
    assert!(finding(&landing(fl, "1800 mm", ""), "slip").is_none());
    for (reading, meant) in
        [("70.866 mm", "70.866 in was meant?"), ("1800 in", "1800 mm was meant?"), ("180 mm", "1800 mm was meant?")]
    {
        let told = work(&landing(fl, reading, "")).expect_err("a reading that is no distance of its seats");
        assert!(told.contains("the reading FL-FR") && told.contains(meant), "{told}");
    }
    let without =
        |text: String| text.lines().filter(|l| !l.starts_with("at =")).map(|l| format!("{l}\n")).collect::<String>();
    assert!(finding(&without(landing(fl, "1800 mm", "")), "slip").is_none());
    let told = work(&without(landing(fl, "70.866 mm", ""))).expect_err("a reading that closes no triangle");
    assert!(told.contains("the other readings") && told.contains("70.866 in was meant?"), "{told}");
    tells(&landing("'-900 in', '400 mm'", "", ""), "slip", Verdict::Caution, "-900 mm was meant?");
    tells(&landing("'-35.433 mm', '15.748 mm'", "", ""), "slip", Verdict::Caution, "-35.433 in was meant?");
    tells(&landing(fl, "", "height = '0.4 in'\n"), "slip", Verdict::Caution, "0.4 mm was meant?");
    tells(&landing(fl, "", "mismatch = ['0.5 in', '0.1 mm']\n"), "slip", Verdict::Caution, "0.5 mm was meant?");
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, rng_seed: proptest::test_runner::RngSeed::Fixed(3), ..ProptestConfig::default() })]

    /// What is told goes; what goes already is not told; a size that was written wrongly is found out.
    #[test]
    fn a_slip_is_recognised(hundredths in 100_u32..500_000, width in 0.01..0.5_f64) {
        let meant = Length::mm(f64::from(hundredths) / 100.0);
        let goes = (meant * (1.0 - width), meant * (1.0 + width));
        prop_assert_eq!(slip::likely(meant, goes.0, goes.1), None);
        for (wrong, wanted) in [
            (Length::inches(meant.as_mm()), Slip::Millimetres),
            (meant / 10.0, Slip::TenTimes),
            (meant * 10.0, Slip::ATenth),
        ] {
            let found = slip::likely(wrong, goes.0, goes.1);
            prop_assert_eq!(found, Some(wanted));
            prop_assert!((wanted.corrected(wrong).as_mm() - meant.as_mm()).abs() < 1e-9 * meant.as_mm());
            prop_assert!(wanted.question(wrong, LengthUnit::Mm).ends_with(" mm was meant?"));
        }
        let inches = Length::inches(f64::from(hundredths) / 1000.0);
        let (least, greatest) = (inches * (1.0 - width), inches * (1.0 + width));
        prop_assert_eq!(slip::likely(Length::mm(inches.as_inches()), least, greatest), Some(Slip::Inches));
    }
}
