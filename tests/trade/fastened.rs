//! Bolts to their ends: the holes that they go through, their lengths, nuts and washers; drills by their names.

use approx::assert_relative_eq as near;
use setdown::formulas::bolts::BoltClass;
use setdown::record::design::{Design, Verdict};
use setdown::shop::Shop;
use setdown::standards::bolting::{nut_height, sold_from, sold_to, washer};
use setdown::standards::threads::Thread;
use setdown::units::Length;

use super::seats::{cone, number};

fn work(text: &str) -> Result<Design, String> {
    let nobody = |_: &str, _: &str| Err(String::new());
    setdown::job::work("part.toml", text, &Shop::default(), &nobody).map_err(|p| setdown::job::render(&p, text))
}

fn steps(design: &Design) -> String {
    design.operations.iter().map(|o| format!("{}: {}\n", o.at, o.text)).collect()
}

fn bolted(keys: &str, bolt: &str) -> String {
    format!("{}foot = \"10 mm\"\n{keys}mounting = \"bolt-on\"\n[bolt]\n{bolt}", cone(60.0, 24.0, 30.0))
}

fn plate(keys: &str, mounting: &str) -> String {
    format!(
        "family = \"cup\"\nlength = \"140 mm\"\nthickness = \"8 mm\"\n{keys}[hole]\nkind = \"round\"\ndiameter = \"40 mm\"\n[mounting]\n{mounting}spacing = [\"100 mm\", \"100 mm\"]\n"
    )
}

/// ISO 4032, most of m, as two reprints print it; ISO 7089 h, ASME B18.2.2 and B18.21.1 from memory. Lengths: ISO 888.
#[test]
fn nuts_washers_and_lengths_as_printed() {
    for (thread, nut, flat) in [
        ("M6", 5.2, 1.6),
        ("M8", 6.8, 1.6),
        ("M10", 8.4, 2.0),
        ("M12", 10.8, 2.5),
        ("M16", 14.8, 3.0),
        ("M20", 18.0, 3.0),
    ] {
        let thread = Thread::parse(thread).unwrap();
        near!(nut_height(&thread).value.as_mm(), nut, epsilon = 1e-9);
        near!(washer(&thread).value.as_mm(), flat, epsilon = 1e-9);
    }
    let half = Thread::parse("1/2-13").unwrap();
    near!(nut_height(&half).value.as_inches(), 0.448, epsilon = 1e-9);
    near!(washer(&half).value.as_inches(), 0.095, epsilon = 1e-9);
    let metric = Thread::parse("M10").unwrap();
    let mm = |l: Option<Length>| l.map(Length::as_mm);
    assert_eq!(mm(sold_from(&metric, Length::mm(36.0))), Some(40.0));
    assert_eq!(mm(sold_from(&metric, Length::mm(40.0))), Some(40.0));
    assert_eq!(mm(sold_to(&metric, Length::mm(39.9))), Some(35.0));
    assert_eq!(mm(sold_to(&metric, Length::mm(5.0))), None);
    assert_eq!(mm(sold_from(&metric, Length::mm(301.0))), None);
    near!(sold_from(&half, Length::inches(1.3)).unwrap().as_inches(), 1.5, epsilon = 1e-9);
    near!(sold_from(&half, Length::inches(0.7)).unwrap().as_inches(), 0.75, epsilon = 1e-9);
}

/// From below, by hand: M12, a wall of 6 mm, a washer of 2.5 mm, 18 mm of full thread: 26.5 mm at most, so 25, of which 16.5 mm
/// hold. The crossbar has the hole of ISO 273, 13.5 mm, told as a size, drilled in a step and measured.
#[test]
fn a_cone_from_below_tells_hole_and_length() {
    let text = bolted("crossbar_wall = \"6 mm\"\n", "way = \"from below\"\nthread = \"M12\"\n");
    let design = work(&text).unwrap();
    near!(number(&design, "bolt_length"), 25.0, epsilon = 1e-9);
    near!(number(&design, "bolt_grip"), 8.5, epsilon = 1e-9);
    near!(number(&design, "bolt_engaged"), 16.5, epsilon = 1e-9);
    near!(number(&design, "crossbar_hole"), 13.5, epsilon = 1e-9);
    let all = steps(&design);
    assert!(
        all.contains("drill press: Drill the crossbar for the bolt, 13.5 mm (0.5315 in), through its wall of 6 mm"),
        "{all}"
    );
    assert!(all.contains("a bolt M12 × 25, class 8.8, with a washer"), "{all}");
    assert!(
        design.tools.iter().any(|t| t.contains("a bolt M12 × 25, class 8.8, with a washer for each cone")),
        "{:?}",
        design.tools
    );
    assert!(design.operations.iter().any(|o| o.measure.iter().any(|m| m.key == "crossbar_hole")));
    // The thread that takes the bolt is judged, not the thread that is cut: a wall of 14 mm leaves it 13.5 mm, one of 12 mm
    // 15.5, and 12.0 mm hold the pull of 36.7 kN (0.6 pi 12 x 235/sqrt 3 a mm).
    let engaged = |wall: &str| {
        let text = bolted(&format!("crossbar_wall = \"{wall}\"\n"), "way = \"from below\"\nthread = \"M12\"\n");
        let design = work(&text).unwrap();
        let verdict = design.findings.iter().find(|f| f.key == "thread_strips").unwrap().verdict;
        (number(&design, "bolt_engaged"), verdict)
    };
    assert_eq!(engaged("12 mm"), (15.5, Verdict::Caution));
    assert_eq!(engaged("16 mm"), (16.5, Verdict::Ok));
    assert_eq!(engaged("9 mm"), (13.5, Verdict::Caution));
    assert_eq!(engaged("11.2 mm"), (16.3, Verdict::Ok));
    // Without the wall the step says what is missing.
    let open = work(&bolted("", "way = \"from below\"\nthread = \"M12\"\n")).unwrap();
    near!(number(&open, "bolt_beyond_wall"), 20.5, epsilon = 1e-9);
    assert!(steps(&open).contains(
        "the longest sold that is not longer than the wall of the crossbar and 20.5 mm; write crossbar_wall"
    ));
}

/// Through, by hand: cone 31.177 + foot 10, the head of an M10 sunk by its counterbore c: 41.177 - c + wall 5 + washer 2 + nut 8.4 + 2
/// pitches 3. A plate: 8 + frame 6 + two washers 3.2 + nut 6.8 + 2 pitches 2.5 = 26.5, so M8 × 30, 6 mm out of the nut. In
/// inches: plate 1/2, frame 1/4, washers 0.13, nut 0.337, pitches 0.125: 1.342, so 1-1/2.
#[test]
fn nuts_want_bolts_that_reach_through() {
    let text = bolted("crossbar_wall = \"5 mm\"\n", "way = \"through\"\nthread = \"M10\"\nhead_depth = \"11 mm\"\n");
    let design = work(&text).unwrap();
    let least = number(&design, "overall_height") - 11.0 + 5.0 + 2.0 + 8.4 + 3.0;
    assert!(least > 45.0 && least < 50.0 || least > 50.0 && least < 55.0 || least > 55.0 && least < 60.0, "{least}");
    near!(number(&design, "bolt_length"), (least / 5.0).ceil() * 5.0, epsilon = 1e-9);
    assert!(steps(&design).contains("class 8.8, with nut (class 8) and a washer"), "{}", steps(&design));
    let cup = work(&plate("frame_wall = \"6 mm\"\n", "thread = \"M8\"\n")).unwrap();
    near!(number(&cup, "bolt_length"), 30.0, epsilon = 1e-9);
    near!(number(&cup, "bolt_out_of_nut"), 30.0 - 17.2 - 6.8, epsilon = 1e-9);
    let all = steps(&cup);
    assert!(all.contains("4 bolts M8 × 30, class 8.8, with nut (class 8) and 2 washers each"), "{all}");
    assert!(all.contains("drill the frame 9 mm (0.3543 in)"), "{all}");
    let inch =
        work(&plate("units = \"in\"\nframe_wall = \"1/4 in\"\n", "thread = \"3/8-16\"\n").replace("8 mm", "1/2 in"))
            .unwrap();
    near!(number(&inch, "bolt_length"), 38.1, epsilon = 1e-9);
    assert!(
        steps(&inch).contains("4 bolts 3/8-16 × 1-1/2 in, grade 5, with nut (grade 5) and 2 washers each"),
        "{}",
        steps(&inch)
    );
    // A drill is called by what is stamped on it: 13/32, not 0.4062.
    assert!(steps(&inch).contains("13/32 in, 0.4062 in (10.318 mm)"), "{}", steps(&inch));
    let odd = steps(
        &work(&plate("", "diameter = \"9.27 mm\"\n").replace("thickness = \"8 mm\"", "thickness = \"12 mm\"")).unwrap(),
    );
    assert!(odd.contains("9.3 mm, nearest to 9.27 mm"), "{odd}");
    let refused = work(&plate("frame_wall = \"6 mm\"\n", "diameter = \"9 mm\"\n")).unwrap_err();
    assert!(refused.contains("frame_wall") && refused.contains("thread"), "{refused}");
}

/// ASTM F3125 (from memory): A325 120 ksi and 85 ksi of proof like grade 5, A490 150 and 120 like grade 8, both from 1/2 to 1-1/2 in.
#[test]
fn structural_bolts_have_their_sizes() {
    let of = |name, inches| BoltClass::of(name, Length::inches(inches));
    let (a325, five) = (of("A325", 0.5).unwrap(), of("grade 5", 0.5).unwrap());
    assert_eq!((a325.tensile, a325.proof, a325.stainless(), a325.is_grade()), (five.tensile, five.proof, false, true));
    let (a490, eight) = (of("A490", 1.0).unwrap(), of("grade 8", 1.0).unwrap());
    assert_eq!((a490.tensile, a490.proof), (eight.tensile, eight.proof));
    assert!(of("A325", 0.375).is_none() && of("A490", 1.625).is_none() && of("A2-70", 0.4).unwrap().stainless());
    let made = work(&plate("", "thread = \"1/2-13\"\nclass = \"A325\"\n")).unwrap();
    assert!(steps(&made).contains("A325, with nut (grade DH, heavy hex)"), "{}", steps(&made));
    let small = work(&plate("", "thread = \"3/8-16\"\nclass = \"A325\"\n")).unwrap_err();
    assert!(small.contains("from 1/2 to 1-1/2 in"), "{small}");
    let metric = work(&plate("", "thread = \"M16\"\nclass = \"A490\"\n")).unwrap_err();
    assert!(metric.contains("inch bolts"), "{metric}");
}
