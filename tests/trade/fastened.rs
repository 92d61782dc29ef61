//! Bolts to their ends: the holes that they go through, their lengths, nuts and washers; drills by their names.

use approx::assert_relative_eq as near;
use setdown::formulas::bolts::BoltClass;
use setdown::record::design::{Design, Limit, Value, Verdict};
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
    // Sold at js15 (ISO 4759-1, grade A), half of the 1.0 mm of IT15 over 30 to 50 mm: one of 40 may come as 40.5.
    assert_eq!(mm(sold_to(&metric, Length::mm(40.4))), Some(35.0));
    assert_eq!(mm(sold_to(&metric, Length::mm(40.5))), Some(40.0));
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
    assert!(all.contains("a hex bolt M12 × 25, class 8.8, with a washer"), "{all}");
    assert!(
        design.tools.iter().any(|t| t.contains("a hex bolt M12 × 25, class 8.8, with a washer for each cone")),
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

/// A thread that a plate has for the bolt of another part, by hand: M8 class 8.8 pulls 0.75 x 580 x 36.6 = 15.9 kN; S235 holds 0.6 pi 8
/// x 235/sqrt 3 = 2046 N a mm: 7.8 mm at least, 10.1 with 30 % over it; class 5.8 (380 MPa) 5.1 and 6.6.
#[test]
fn a_thread_in_a_plate_holds_the_bolt_that_goes_in() {
    let work_one = |thick: &str, class: &str| {
        let text = format!(
            "family = \"plate\"\nshape = \"rectangle\"\nmaterial = \"steel S235\"\nlength = \"100 mm\"\nwidth = \"60 mm\"\nthickness = \"{thick}\"\n[[hole]]\nat = [\"0 mm\", \"0 mm\"]\nthread = \"M8\"\ntapped = true\n{class}"
        );
        work(&text).unwrap().findings.into_iter().find(|f| f.key == "thread_strips").unwrap()
    };
    let thin = work_one("6 mm", "");
    assert_eq!(thin.verdict, Verdict::Fail);
    let Limit::AtLeast(least) = &thin.limit else { panic!("{:?}", thin.limit) };
    near!(least.number(), 15_921.0 / 2046.0, epsilon = 0.02);
    assert_eq!(work_one("8 mm", "").verdict, Verdict::Caution);
    assert_eq!(work_one("12 mm", "").verdict, Verdict::Ok);
    assert_eq!(work_one("8 mm", "class = \"5.8\"\n").verdict, Verdict::Ok);
}

/// Torques of a plate's bolts in every state, by the nut factor of each; of two kinds each by its name. M8 class 8.8: 15.9 kN x 8 mm x
/// 0.2 = 25 N m dry, 19 oiled, 15 with paste (IFI charts, nut factors).
#[test]
fn every_state_of_a_thread_has_its_torque() {
    let row = |at: &str, thread: &str| format!("[[hole]]\nat = [\"{at}\", \"0 mm\"]\nthread = \"{thread}\"\n");
    let plate = |rows: &str| {
        let sizes = "length = \"100 mm\"\nwidth = \"60 mm\"\nthickness = \"8 mm\"\n";
        let design =
            work(&format!("family = \"plate\"\nshape = \"rectangle\"\nmaterial = \"steel S235\"\n{sizes}{rows}"))
                .unwrap();
        let table = design.tables.iter().find(|t| t.key == "tightening").unwrap().clone();
        let text = |v: &Value| if let Value::Text(t) = v { t.clone() } else { String::new() };
        table.rows.iter().map(|row| row.iter().map(text).collect::<Vec<_>>()).collect::<Vec<_>>()
    };
    let one = plate(&row("-25 mm", "M8"));
    let torques: Vec<&str> = one.iter().map(|r| r[2].as_str()).collect();
    assert_eq!(torques, ["25 N m", "19 N m", "15 N m"]);
    let two = plate(&[row("-25 mm", "M8"), row("25 mm", "M10")].concat());
    let names: Vec<&str> = two.iter().map(|r| r[0].as_str()).collect();
    assert_eq!(names, ["M8, 8.8", "M8, 8.8", "M8, 8.8", "M10, 8.8", "M10, 8.8", "M10, 8.8"]);
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
    assert!(all.contains("4 hex bolts M8 × 30, class 8.8, with nut (class 8) and 2 washers each"), "{all}");
    assert!(all.contains("drill the frame 9 mm (0.3543 in)"), "{all}");
    let inch =
        work(&plate("units = \"in\"\nframe_wall = \"1/4 in\"\n", "thread = \"3/8-16\"\n").replace("8 mm", "1/2 in"))
            .unwrap();
    near!(number(&inch, "bolt_length"), 38.1, epsilon = 1e-9);
    assert!(
        steps(&inch).contains("4 hex bolts 3/8-16 × 1-1/2 in, grade 5, with nut (grade 5) and 2 washers each"),
        "{}",
        steps(&inch)
    );
    // A drill is called by what is stamped on it: 13/32, not 0.4062.
    assert!(steps(&inch).contains("13/32 in, 0.4062 in (10.318 mm)"), "{}", steps(&inch));
    let odd = steps(
        &work(&plate("", "diameter = \"9.27 mm\"\n").replace("thickness = \"8 mm\"", "thickness = \"12 mm\"")).unwrap(),
    );
    assert!(odd.contains("then 9.3 mm (0.3661 in) through"), "{odd}");
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

/// A counterbore of 13/16 in takes the socket head of a 1/2 in screw, 0.750 (ASME B18.3); its hex head is 0.866 across the
/// corners (ASME B18.2.1, both from memory). Such screws are of the alloy steel of ASTM A574 (from memory): 180 ksi and 140 ksi of
/// proof to 1/2 in, 170 and 135 beyond; metric ones from 8.8 (ISO 4762). The tables are those of the thread.
#[test]
fn a_screw_is_ordered_with_the_head_that_goes_into_its_recess() {
    let through = |bolt: &str| work(&bolted("crossbar_wall = \"6 mm\"\n", &format!("way = \"through\"\n{bolt}")));
    let inch = through("thread = \"1/2-13\"\n").unwrap();
    let all = steps(&inch);
    assert!(all.contains("a socket head cap screw 1/2-13 ×") && all.contains("A574, with nut (grade 8)"), "{all}");
    assert!(inch.tools.iter().any(|t| t.contains("socket head cap screw")), "{:?}", inch.tools);
    let rows = format!("{:?}", inch.dimensions);
    assert!(rows.contains("ASME B18.2.8") && !rows.contains("ISO 273") && !rows.contains("ISO 888"), "{rows}");
    let refused = through("thread = \"1/2-13\"\nclass = \"grade 8\"\n").unwrap_err();
    assert!(
        refused.contains("a socket head cap screw is not sold in grade 8") && refused.contains("A574"),
        "{refused}"
    );
    assert!(through("thread = \"M12\"\nclass = \"4.6\"\n").unwrap_err().contains("not sold in 4.6"));
    let metric = through("thread = \"M12\"\nclass = \"10.9\"\n").unwrap();
    assert!(steps(&metric).contains("a socket head cap screw M12 ×"), "{}", steps(&metric));
    let rows = format!("{:?}", metric.dimensions);
    assert!(rows.contains("ISO 273") && rows.contains("ISO 888") && !rows.contains("B18.2.8"), "{rows}");
    let sunk = through("thread = \"M10\"\nhead = \"countersink\"\n").unwrap();
    assert!(steps(&sunk).contains("a countersunk socket screw M10 ×"), "{}", steps(&sunk));
    let outside = through("thread = \"1/2-13\"\nhead = \"none\"\nclass = \"grade 8\"\n").unwrap();
    assert!(steps(&outside).contains("a hex bolt 1/2-13 ×"), "{}", steps(&outside));
    assert!(through("thread = \"1/2-13\"\nhead = \"none\"\nclass = \"A574\"\n").is_err());
    let of = |inches| BoltClass::of("A574", Length::inches(inches)).unwrap();
    for (inches, tensile, proof) in [(0.5, 180_000.0, 140_000.0), (0.625, 170_000.0, 135_000.0)] {
        near!(of(inches).tensile.as_mpa() * 145.037_738, tensile, max_relative = 1e-6);
        near!(of(inches).proof.as_mpa() * 145.037_738, proof, max_relative = 1e-6);
    }
}

fn tube_sleeve(keys: &str, tube: &str, thread: &str) -> Design {
    let text = format!(
        "family = \"tube-sleeve\"\noutside_diameter = \"22 mm\"\n{keys}[tube]\n{tube}wall = \"3 mm\"\ndrain = \"8 mm\"\n[bolt]\nthread = \"{thread}\"\n"
    );
    work(&text).unwrap_or_else(|problems| panic!("{problems}"))
}

const SQUARE: &str = "shape = \"square\"\nthrough = \"60 mm\"\n";

/// Flush with a tube there is no corner for a fillet. By hand: walls of 4 and 3 mm, throat 0.7 × 3 = 2.1 mm, so a chamfer of
/// 2.5 mm; a fillet of that throat has a leg of 2.1 √2 = 2.97, so 3 mm, and stands on a sleeve that stands out by as much.
#[test]
fn the_weld_of_a_sleeve_has_room_and_is_left() {
    let flush = tube_sleeve("bore = \"14 mm\"\n", SQUARE, "M12");
    near!(number(&flush, "weld_chamfer"), 2.5, epsilon = 1e-9);
    let all = steps(&flush);
    assert!(all.contains("a groove all round, 2.5 mm") && !all.contains("fillet"), "{all}");
    assert!(all.contains("chamfer the outer edge 2.5 mm (0.0984 in) x 45° for the weld"), "{all}");
    // The solid lacks a ring of π(c² R - c³/3) at each end: Pappus, the triangle's middle at R - c/3.
    let ring = |c: f64| std::f64::consts::PI * c * c * (11.0 - c / 3.0);
    let whole = std::f64::consts::PI * (11.0 * 11.0 - 49.0) * 60.0;
    near!(
        flush.named("volume").map_or(0.0, |_| number(&flush, "volume")),
        whole - 2.0 * ring(2.5),
        max_relative = 1e-3
    );
    let verdict = |design: &Design, key: &str| design.findings.iter().find(|f| f.key == key).map(|f| f.verdict);
    assert_eq!(verdict(&flush, "groove_throat"), Some(Verdict::Ok));
    assert_eq!(verdict(&flush, "fillet_stands"), None);
    for (proud, asked) in [("2.9 mm", Verdict::Caution), ("3 mm", Verdict::Ok)] {
        let out = tube_sleeve(&format!("bore = \"14 mm\"\nproud = \"{proud}\"\n"), SQUARE, "M12");
        assert_eq!(verdict(&out, "fillet_stands"), Some(asked), "{proud}");
        let all = steps(&out);
        assert!(all.contains("a fillet all round, leg 3 mm") && !all.contains("Grind the weld"), "{all}");
        assert!(all.contains("gets a recess over sleeve and weld, 30 mm"), "{all}");
    }
    // On a round tube an end is not flush all round: it stands out by the leg where nothing is written.
    let round = tube_sleeve("bore = \"14 mm\"\n", "shape = \"round\"\nthrough = \"60 mm\"\n", "M12");
    assert!(steps(&round).contains("3 mm (0.1181 in) out at each end") && steps(&round).contains("a fillet"));
    // 200 kN across: 100 kN on a ring of 69 mm ask for more than any chamfer of these walls.
    let torn = tube_sleeve("bore = \"14 mm\"\nside_load = \"200 kN\"\n", SQUARE, "M12");
    assert_eq!(verdict(&torn, "groove_throat"), Some(Verdict::Fail));
}

/// Unrolled: a sleeve of 22 mm square through a round tube of 60 mm is 60 mm long on the line along the tube, and a quarter round
/// shorter at each end by 30 - √(30² - 11²) = 2.0893 mm (a circle's sagitta); it is π 22 = 69.115 mm round. One that leans by 30° through a
/// square tube of 60 mm has its ends cut by two parallel planes: every line along it is as long, H/cos β = 69.282 mm, and one end
/// runs 22 tan 30° = 12.702 mm along it from side to side.
#[test]
fn the_ends_of_a_fitted_sleeve_unrolled() {
    let outline = |keys: &str, tube: &str| {
        let design = tube_sleeve(&format!("bore = \"14 mm\"\nends = \"fitted\"\n{keys}"), tube, "M12");
        let all = steps(&design);
        assert!(all.contains("part-template.pdf at true size"), "{all}");
        let corners = design.wrap.expect("fitted").outer().segments().iter().map(|s| s.from()).collect::<Vec<_>>();
        corners.iter().map(|p| (p.x().as_mm(), p.y().as_mm())).collect::<Vec<_>>()
    };
    // Of the corners at one place round it, the lower and the upper.
    let at = |corners: &[(f64, f64)], x: f64| {
        let mut y: Vec<f64> = corners.iter().filter(|c| (c.0 - x).abs() < 0.01).map(|c| c.1).collect();
        y.sort_by(f64::total_cmp);
        assert_eq!(y.len(), 2, "at {x}");
        (y[0], y[1])
    };
    let round = outline("", "shape = \"round\"\nthrough = \"60 mm\"\n");
    let long = |corners: &[(f64, f64)], x: f64| at(corners, x).1 - at(corners, x).0;
    let girth = std::f64::consts::PI * 22.0;
    let shorter = long(&round, 0.0) - long(&round, girth / 4.0);
    near!(shorter, 2.0 * 2.0893, epsilon = 1e-3);
    near!(long(&round, girth), long(&round, 0.0), epsilon = 1e-3);
    near!(long(&round, girth / 2.0), long(&round, 0.0), epsilon = 1e-3);
    let leaning = outline("lean = \"30 deg\"\n", SQUARE);
    let ends: Vec<f64> = [0.0, girth / 4.0, girth / 2.0, girth * 0.75].iter().map(|x| long(&leaning, *x)).collect();
    for length in &ends {
        near!(*length, ends[0], epsilon = 1e-3);
    }
    near!(at(&leaning, 0.0).1 - at(&leaning, girth / 2.0).1, 22.0 * 30.0_f64.to_radians().tan(), epsilon = 1e-3);
}

/// Leaning, the hole comes out of the far wall further along: 60 tan 30 = 34.641 mm. The end, square to the bolt, stands 22 tan 30 = 12.702
/// further off the tube on one side. Square to the tube both marks lie opposite.
#[test]
fn a_leaning_hole_is_marked_further_along_on_the_far_wall() {
    let leaning = tube_sleeve("bore = \"14 mm\"\nproud = \"5 mm\"\nlean = \"30 deg\"\n", SQUARE, "M12");
    near!(number(&leaning, "marks_apart"), 34.641, epsilon = 1e-3);
    let all = steps(&leaning);
    assert!(all.contains("move the mark of the far wall along the tube by 34.641 mm"), "{all}");
    assert!(
        all.contains("5 mm (0.1969 in) off the tube on one side and 17.702 mm") && !all.contains("recess"),
        "{all}"
    );
    let upright = tube_sleeve("bore = \"14 mm\"\nproud = \"5 mm\"\n", SQUARE, "M12");
    assert!(upright.named("marks_apart").is_none() && !steps(&upright).contains("move the mark"));
}

/// Hexagon keys of ISO 4762, ISO 10642 and ISO 4029, and of ASME B18.3, from memory; none beyond the tables.
#[test]
fn keys_of_socket_screws() {
    use setdown::standards::bolting::{Socketed, hexagon_key};
    let key = |thread: &str, of| hexagon_key(&Thread::parse(thread).unwrap(), of).map(|key| key.value.as_mm());
    assert_eq!(key("M8", Socketed::Cylinder), Some(6.0));
    assert_eq!(key("M12", Socketed::Countersunk), Some(8.0));
    assert_eq!(key("M5", Socketed::Grub), Some(2.5));
    near!(key("3/8-16", Socketed::Cylinder).unwrap(), 5.0 / 16.0 * 25.4, epsilon = 1e-9);
    near!(key("#10-24", Socketed::Grub).unwrap(), 3.0 / 32.0 * 25.4, epsilon = 1e-9);
    assert_eq!(key("M30", Socketed::Cylinder), None);
}

/// A hole that a bolt must pass has its size for its least limit, and a drill of that size leaves it there. ASME B18.2.8, loose
/// hole of 1/2: 0.609 in, 39/64; 0.03 mm is what a calliper leaves open; of metric drills 15.75 mm is the next that is sold (39/64 is 15.478).
#[test]
fn a_drill_brings_a_hole_over_its_least_size() {
    let metric = tube_sleeve("bore = \"14 mm\"\n", SQUARE, "M12");
    assert!(steps(&metric).contains("drill 14.25 mm (0.561 in) through at"), "{}", steps(&metric));
    assert!(metric.tools.iter().any(|t| t.contains("twist drill 14.25 mm")), "{:?}", metric.tools);
    let inch = tube_sleeve("units = \"in\"\n", SQUARE, "1/2");
    assert!(steps(&inch).contains("drill 15.75 mm (0.6201 in) through at"), "{}", steps(&inch));
    // Where the limits lie about the size its own drill is right.
    let cone = work(&bolted("crossbar_wall = \"6 mm\"\n", "way = \"through\"\nthread = \"M12\"\n")).unwrap();
    assert!(steps(&cone).contains("drill 13.5 mm (0.5315 in) through"), "{}", steps(&cone));
}

/// By hand: 1/2-13 pulls 9046 lbf in grade 5 (0.75 × 85 ksi × 0.1419 in²) and 12 771 in grade 8 (120 ksi): what takes 117 % of the
/// friction of one takes less than 85 % of the other's. A foot in a register takes the force off the bolt altogether.
#[test]
fn what_holds_the_cone_is_proposed() {
    let proposed = |load: &str| {
        let text = format!(
            "family = \"cone\"\nmaterial = \"steel 4140 prehard\"\nunits = \"in\"\nbase_diameter = \"3 in\"\ntip_diameter = \"1-1/4 in\"\n\
             half_angle = \"30 deg\"\nfoot = \"1/4 in\"\nseat_load = \"{load}\"\ncrossbar_wall = \"1/2 in\"\nmounting = \"bolt-on\"\n\
             [bolt]\nthread = \"1/2-13\"\nclass = \"grade 5\"\nway = \"from below\"\ndepth = \"1 in\"\n"
        );
        let nobody = |_: &str, _: &str| Err(String::new());
        let design = setdown::job::work_advised("part.toml", &text, &Shop::default(), &nobody, false, &|_| ()).unwrap();
        let found = design.findings.iter().find(|f| f.key == "cone_bolt_slip").unwrap();
        assert_eq!(found.verdict, Verdict::Caution);
        let all = found.clearing.changes.iter().flatten();
        all.map(|c| format!("{} = {}", c.key, c.to)).collect::<Vec<_>>().join("; ")
    };
    assert!(proposed("1100 lb").contains("bolt.class = \"grade 8\""), "{}", proposed("1100 lb"));
    assert!(proposed("2600 lb").contains("bolt.register = \"foot\""), "{}", proposed("2600 lb"));
}
