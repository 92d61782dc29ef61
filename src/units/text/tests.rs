//! Every form that is read, every refusal with its words, and properties over random text.

use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use super::*;

/// Inch sizes by the definition of the inch, 25.4 mm; decimal equivalents of fractions as in any drill chart.
#[test]
fn lengths_as_people_write_them() {
    #[rustfmt::skip]
    let rows = [
        ("25.4 mm", 25.4), ("25.4mm", 25.4), (" 25.4 mm ", 25.4), ("25 MM", 25.0), (".5 mm", 0.5), ("0 mm", 0.0),
        ("40 cm", 400.0), ("1.6 m", 1600.0), ("12 µm", 0.012), ("12 μm", 0.012), ("12 um", 0.012), ("12um", 0.012),
        ("1 in", 25.4), ("1\"", 25.4), ("1”", 25.4), ("1″", 25.4), ("1''", 25.4), ("1 inch", 25.4), ("2 inches", 50.8),
        ("1-1/4 in", 31.75), ("1 1/4\"", 31.75), ("1¼ in", 31.75), ("1 ¼ in", 31.75), ("1–1/4 in", 31.75), ("1 1⁄4 in", 31.75),
        ("3/8 in", 9.525), ("3/8\"", 9.525), ("⅜ in", 9.525), ("½\"", 12.7), ("5/4 in", 31.75), ("1/3 in", 25.4 / 3.0),
        ("0.001 in", 0.0254), ("0.1 in", 2.54), ("10 thou", 0.254), ("1 thou", 0.0254),
        ("6 ft", 1828.8), ("2'", 609.6), ("2' 3-1/2\"", 698.5), ("2’ 3-1/2”", 698.5), ("2′3½″", 698.5), ("2 ft 3.5 in", 698.5),
        ("2'-3 1/2\"", 698.5), ("2'0\"", 609.6), ("5' 11-63/64\"", 1828.403125), ("1\u{a0}1/4\u{202f}in", 31.75),
        ("-1-1/4 in", -31.75), ("−2 mm", -2.0), ("+2 mm", 2.0), ("- 2 mm", -2.0), ("-2' 6\"", -762.0), ("100 m", 100_000.0),
    ];
    for (text, mm) in rows {
        assert_eq!(length(text).map(Length::as_mm), Ok(mm), "{text}");
    }
}

#[test]
fn nought_has_no_sign() {
    assert!(length("-0 mm").unwrap().as_mm().is_sign_positive());
}

/// 128 of the 64ths up to 2 inches: n · 127 / 320 mm in one division, as exact as hardware gives.
#[test]
fn sixty_fourths_are_rounded_once() {
    for n in 1..=128_u32 {
        let wanted = f64::from(n * 127) / 320.0;
        assert_eq!(length(&format!("{n}/64 in")).unwrap().as_mm(), wanted);
    }
}

#[test]
fn angles_as_people_write_them() {
    let rows = [
        ("30 deg", 30.0),
        ("30°", 30.0),
        ("30º", 30.0),
        ("8°30'", 8.5),
        ("8° 30′", 8.5),
        ("8°30’", 8.5),
        ("8d30m", 8.5),
        ("8 deg 30 min", 8.5),
        ("8°30'36\"", 8.51),
        ("8d30m36s", 8.51),
        ("8°30.6'", 8.51),
        ("-8°30'", -8.5),
        ("7 1/2 deg", 7.5),
    ];
    for (text, degrees) in rows {
        assert_eq!(angle(text).map(Angle::as_degrees), Ok(degrees), "{text}");
    }
    assert_eq!(angle("0.5 rad").unwrap().as_degrees(), 0.5_f64.to_degrees());
    assert!((angle("10 mrad").unwrap().as_milliradians() - 10.0).abs() < 1e-14);
}

/// Standard conical tapers with their half-angles (ISO 1119 prints 1:10 as 2°51'45", 1:3 as 9°27'44", 1:20 as 1°25'56";
/// the printed angle is rounded to the second).
#[test]
fn tapers_give_half_angles() {
    for (text, printed) in [("1:10", "2°51'45\""), ("1:3", "9°27'44\""), ("1:20", "1°25'56\"")] {
        let gap = angle(text).unwrap() - angle(printed).unwrap();
        assert!(gap.abs() < Angle::degrees(0.51 / 3600.0), "{text} {gap:?}");
    }
}

#[test]
fn ratios_as_people_write_them() {
    for (text, wanted) in
        [("1:10", 0.1), ("1 : 10", 0.1), ("1:19.922", 1.0 / 19.922), ("0.1", 0.1), ("1/10", 0.1), ("10 %", 0.1)]
    {
        assert_eq!(ratio(text), Ok(wanted), "{text}");
    }
    assert_eq!(ratio("0.6 in/ft"), Ok(0.05));
    assert_eq!(ratio("3 mm/m"), Ok(0.003));
    assert_eq!(bare_number("-0.15"), Ok(-0.15));
    assert_eq!(bare_number("3/4"), Ok(0.75));
}

/// Conversion factors from NIST SP 811 appendix B.8 (from memory), to the figures printed there.
#[test]
fn other_quantities() {
    assert_eq!(mass("640 kg").unwrap().as_kg(), 640.0);
    assert_eq!(mass("1410 lb").unwrap().as_kg(), 639.565_241_7);
    assert_eq!(mass("250 g").unwrap().as_kg(), 0.25);
    assert_eq!(force("2.5 kN").unwrap().as_newtons(), 2500.0);
    assert_eq!(force("1 lbf").unwrap().as_newtons(), 4.448_221_615_260_5);
    assert_eq!(load("640 kg").unwrap().as_newtons(), 6276.256);
    assert_eq!(load("1.6 kN").unwrap().as_newtons(), 1600.0);
    assert_eq!(load("10 lb"), force("10 lbf"));
    for same in ["250 MPa", "250 N/mm2", "250 N/mm²", "0.25 GPa", "2500 bar"] {
        assert_eq!(stress(same).unwrap().as_mpa(), 250.0, "{same}");
    }
    assert!((stress("1 psi").unwrap().as_mpa() - 6.894_757e-3).abs() < 1e-9);
    assert!((stress("1 ksi").unwrap().as_psi() - 1000.0).abs() < 1e-9);
    for same in ["20 °C", "20 C", "68 F", "68 °F", "293.15 K"] {
        assert_eq!(temperature(same).unwrap().as_celsius(), 20.0, "{same}");
    }
    // the two scales meet at -40; absolute zero is -459.67 °F (definition of the Fahrenheit scale)
    for same in ["-40 °C", "-40 °F", "-40F", "233.15 K"] {
        assert_eq!(temperature(same).unwrap().as_celsius(), -40.0, "{same}");
    }
    assert!(temperature("-459.67 °F").is_ok() && temperature("-459.68 °F").is_err() && temperature("-1 K").is_err());
    assert_eq!(acceleration("0.8 g").unwrap().as_g(), 0.8);
    assert_eq!(acceleration("9.80665 m/s2").unwrap().as_g(), 1.0);
    assert_eq!(acceleration("9.80665 m/s²").unwrap().as_g(), 1.0);
    assert_eq!(expansion("11.7 µm/m/K"), expansion("11.7 ppm/K"));
    assert_eq!(expansion("6.5 ppm/F").unwrap().as_per_million_kelvin(), 11.7);
    assert_eq!(density("7.85 g/cm³"), density("7850 kg/m3"));
    assert!((density("1 lb/in3").unwrap().as_kg_per_m3() - 27_679.90).abs() < 5e-3);
}

#[test]
fn files_with_a_stated_unit() {
    let inch = Some(LengthUnit::Inch);
    assert_eq!(length_with_default("1-1/4", inch), length("1-1/4 in"));
    assert_eq!(length_with_default("6 mm", inch), length("6 mm"));
    assert_eq!(length_with_default("6", Some(LengthUnit::Mm)), length("6 mm"));
    assert_eq!(length_from_number(0.1, LengthUnit::Inch), length("0.1 in"));
    assert_eq!(length_from_number(-1e3, LengthUnit::Mm), length("-1 m"));
    for (number, what) in [
        (f64::NAN, "`NaN` is not a size that can be made"),
        (f64::NEG_INFINITY, "`inf` is not a size that can be made"),
        (1e300, "this number is longer than 100 m"),
        (4e3, "this number is longer than 100 m"),
    ] {
        assert_eq!(length_from_number(number, LengthUnit::Inch).unwrap_err().what, what);
    }
}

/// (text, place in characters of the refused part, the words, the help)
type Refusal = (&'static str, &'static str, &'static str, Option<&'static str>);

fn check<T: std::fmt::Debug>(read: impl Fn(&str) -> Result<T, TextError>, rows: &[Refusal]) {
    for (text, part, what, help) in rows {
        let error = read(text).expect_err(text);
        assert_eq!((error.what.as_str(), error.help.as_deref()), (*what, *help), "{text}");
        assert_eq!(&text[error.at], *part, "{text}");
    }
}

#[test]
fn refused_lengths() {
    const COMMA: &str = "a number is written with a decimal point, not with a comma";
    const LESS: &str = "the fraction after a whole number must be less than 1";
    const NEAT: &str = "a fraction is written without spaces, such as 3/8 or 1-1/4";
    const POWER: &str = "a number is written out here, without a power of ten";
    #[rustfmt::skip]
    check(length, &[
        ("", "", "nothing is written here", Some("a length, such as 12 mm or 1/2 in")),
        ("  ", "", "nothing is written here", Some("a length, such as 12 mm or 1/2 in")),
        ("6", "6", "6 has no unit", Some("6 mm  or  6 in")),
        ("1-1/4", "1-1/4", "1-1/4 has no unit", Some("1-1/4 mm  or  1-1/4 in")),
        ("2' 3", "3", "3 has no unit", Some("2' 3\"")),
        ("1,25 in", "1,25", COMMA, Some("1.25 in")),
        ("1,250 mm", "1,250", COMMA, Some("1.250 mm  or  1250 mm")),
        ("1,250.5 mm", "1,250.5", COMMA, Some("1250.5 mm")),
        ("1.250,5 mm", "1.250,5", COMMA, Some("1250.5 mm")),
        ("1,250,000 um", "1,250,000", COMMA, Some("1250000 um")),
        ("2' 3,5\"", "3,5", COMMA, Some("2' 3.5\"")),
        ("1e3 mm", "1e3", POWER, Some("0.001 rather than 1e-3")),
        ("1E-3 mm", "1E-3", POWER, Some("0.001 rather than 1e-3")),
        ("1e308 mm", "1e308", POWER, Some("0.001 rather than 1e-3")),
        ("NaN mm", "NaN", "`NaN` is not a size that can be made", None),
        ("inf mm", "inf", "`inf` is not a size that can be made", None),
        ("-∞ mm", "∞", "`∞` is not a size that can be made", None),
        ("about 5 mm", "about", "a number is wanted first, not `about`", None),
        ("mm", "mm", "a number is wanted first, not `mm`", None),
        ("-", "", "a number is missing here", None),
        ("1-5/4 in", "5/4", LESS, None),
        ("1 4/4 in", "4/4", LESS, None),
        ("3/0 in", "3/0", "a fraction cannot have 0 under the bar", None),
        ("3/ in", "3/", "this fraction has nothing under the bar", Some("3/8 in")),
        ("5. mm", ".", "a decimal point needs a figure after it", Some("5 mm")),
        ("1 - 1/4 in", "1 - 1/4", "`1 - 1/4` is not one number", Some(NEAT)),
        ("3 /8 in", "3 /8", "`3 /8` is not one number", Some(NEAT)),
        ("1-4 in", "1-4", "`1-4` is not one number", Some("one and a quarter is written 1-1/4")),
        ("1 250 mm", "1 250", "a number is written without spaces", Some("1250 mm")),
        ("1 2 in", "1 2", "a number is written without spaces", None),
        ("1.2.3 mm", "1.2.3", "`1.2.3` is not one number", None),
        ("1/2/3 in", "1/2/3", "`1/2/3` is not one number", None),
        ("123456789012345678901 mm", "123456789012345678901", "this number has too many figures", None),
        ("2 im", "im", "`im` is not a unit of length", Some("did you mean: 2 mm  or  2 in")),
        ("2’ 3-1/2 mn", "mn", "`mn` is not a unit of length", Some("did you mean: 2’ 3-1/2 mm  or  2’ 3-1/2 in")),
        ("2 fet", "fet", "`fet` is not a unit of length", Some("did you mean: 2 ft  or  2 feet")),
        ("2 furlong", "furlong", "`furlong` is not a unit of length", Some("known here: mm, in, um, thou, uin, cm, m, ft")),
        ("30 deg", "30 deg", "30 deg is an angle; a length is wanted here, such as 12 mm or 1/2 in", None),
        (" 8°30' ", "8°30'", "8°30' is an angle; a length is wanted here, such as 12 mm or 1/2 in", None),
        ("1:10", "1:10", "1:10 is a ratio; a length is wanted here, such as 12 mm or 1/2 in", None),
        ("5 kg", "5 kg", "5 kg is a mass; a length is wanted here, such as 12 mm or 1/2 in", None),
        ("5 N/mm2", "5 N/mm2", "5 N/mm2 is a stress or pressure; a length is wanted here, such as 12 mm or 1/2 in", None),
        ("30 m/min", "30 m/min", "30 m/min is a cutting speed; a length is wanted here, such as 12 mm or 1/2 in", None),
        ("25 mm thick", "thick", "`thick` is not expected after 25 mm", None),
        ("3\" 2'", "2'", "feet come before inches", None),
        ("10 mm 5 mm", "5 mm", "one size is wanted here, not two", None),
        ("2' 12\"", "12\"", "inches after feet must be less than 12", None),
        ("2.5' 3\"", "' 3\"", "only the last part of a size may have a fraction", None),
        ("101 m", "101 m", "101 m is longer than 100 m", None),
        ("5 m\u{1b}[31m", "\u{1b}[31m", "`\u{fffd}[31m` is not expected after 5 m", None),
    ]);
    let long = format!("{} mm", "’".repeat(80));
    let error = length(&long).unwrap_err();
    assert_eq!(error.what, "a quantity has at most 64 characters");
    assert_eq!(error.at, 192..long.len());
    assert_eq!(length("6").unwrap_err().to_string(), "6 has no unit (6 mm  or  6 in)");
}

#[test]
fn refused_others() {
    #[rustfmt::skip]
    check(angle, &[
        ("25 mm", "25 mm", "25 mm is a length; an angle is wanted here, such as 30 deg or 8°30'", None),
        ("20 °C", "20 °C", "20 °C is a temperature; an angle is wanted here, such as 30 deg or 8°30'", None),
        ("15", "15", "15 has no unit", Some("15 deg  or  15 mrad")),
        ("8°30", "30", "30 has no unit", Some("8°30'")),
        ("8°30'15", "15", "15 has no unit", Some("8°30'15\"")),
        ("8°60'", "60'", "minutes after degrees must be less than 60", None),
        ("8°30'60\"", "60\"", "seconds after minutes must be less than 60", None),
        ("8°30\"", "30\"", "seconds come after minutes", None),
        ("8°30'5°", "5°", "degrees come before minutes and seconds", None),
        ("8.5°30'", "°30'", "only the last part of a size may have a fraction", None),
        ("30'", "30'", "minutes and seconds come after degrees", Some("0°30'")),
        ("400°", "400°", "400° is more than a full turn", None),
        ("1:0", "0", "a ratio cannot end in 0", Some("1:10")),
        ("1:", "", "a number is missing here", None),
        ("30 dgrees", "dgrees", "`dgrees` is not a unit of angle", Some("did you mean: 30 degrees")),
    ]);
    #[rustfmt::skip]
    check(ratio, &[
        ("1:10 mm", "mm", "`mm` is not expected after 1:10", None),
        ("10 mm", "10 mm", "10 mm is a length; a ratio is wanted here, such as 1:10 or 0.1", None),
    ]);
    #[rustfmt::skip]
    check(force, &[
        ("5 lb", "5 lb", "5 lb is a mass; a force is wanted here, such as 2.5 kN or 560 lbf", None),
        ("5", "5", "5 has no unit", Some("5 kN  or  5 lbf")),
        ("5 kn", "kn", "`kn` is not a unit of force", Some("did you mean: 5 kN")),
    ]);
    #[rustfmt::skip]
    check(load, &[
        ("160", "160", "160 has no unit", Some("160 kg  or  160 kN")),
        ("160 mm", "160 mm", "160 mm is a length; a load is wanted here, such as 160 kg or 1.6 kN", None),
        ("1.6 kn", "kn", "`kn` is not a unit of load", Some("did you mean: 1.6 kN")),
    ]);
    check(temperature, &[("-300 C", "-300 C", "-300 C is below absolute zero, -273.15 °C", None)]);
    #[rustfmt::skip]
    check(bare_number, &[
        ("", "", "nothing is written here", Some("a plain number, such as 0.15")),
        ("0.15 mm", "mm", "a plain number is wanted here, without `mm`", None),
    ]);
}

fn all(text: &str) -> [Option<TextError>; 12] {
    [
        length(text).err(),
        angle(text).err(),
        ratio(text).err(),
        bare_number(text).err(),
        mass(text).err(),
        force(text).err(),
        stress(text).err(),
        temperature(text).err(),
        acceleration(text).err(),
        expansion(text).err(),
        density(text).err(),
        load(text).err(),
    ]
}

/// Text made of the pieces that quantities are made of, so that the deep paths are met.
fn pieces() -> impl Strategy<Value = String> {
    #[rustfmt::skip]
    let piece = prop::sample::select(vec![
        "1", "12", "0", "3/8", "-", "–", " ", "\u{a0}", ".", ",", "/", "⁄", "½", "mm", "in", "ft", "'", "’", "\"", "”", "°",
        "deg", "m", "d", "µ", "μm", "e5", ":", "N", "kg", "/s2", "²", "∞", "nan", "é", "\u{301}", "\t", "\u{1b}", "😀",
    ]);
    prop::collection::vec(piece, 0..12).prop_map(|v| v.concat())
}

fn places_are_sound(text: &str) -> Result<(), TestCaseError> {
    for error in all(text).into_iter().flatten() {
        prop_assert!(text.get(error.at.clone()).is_some(), "{:?} in {:?}", error, text);
        prop_assert!(!error.what.is_empty() && !error.what.contains(char::is_control));
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig {
        failure_persistence: None,
        rng_seed: RngSeed::Fixed(20),
        ..ProptestConfig::default()
    })]
    #[test]
    fn no_text_panics_and_places_are_on_character_boundaries(text in any::<String>(), built in pieces(), wide in "\\PC{60,70}") {
        places_are_sound(&text)?;
        places_are_sound(&built)?;
        places_are_sound(&wide)?;
    }

    #[test]
    fn what_is_read_is_finite(built in pieces()) {
        prop_assert!(length(&built).map_or(true, |l| l.is_finite() && l.abs() <= LONGEST));
        prop_assert!(angle(&built).map_or(true, |a| a.is_finite()));
        prop_assert!(ratio(&built).map_or(true, f64::is_finite));
    }

    #[test]
    fn decimals_of_a_millimetre_are_read_exactly(x in -99_999.0..99_999.0_f64) {
        prop_assert_eq!(length(&format!("{x} mm")).unwrap().as_mm(), x);
    }

    /// Help that offers a unit must be accepted as it stands.
    #[test]
    fn offers_for_a_missing_unit_are_right(whole in 0_u32..90, over in 1_u32..8) {
        for text in [format!("{whole}"), format!("{whole}-{over}/8"), format!("{whole}.{over}")] {
            for offer in length(&text).unwrap_err().help.unwrap().split("  or  ") {
                prop_assert!(length(offer).is_ok(), "{}", offer);
            }
        }
    }
}
