//! Lathe, seat and step-drill formulas against published examples and closed forms. The source stands beside each row.

mod lot;

#[path = "trade/adapters.rs"]
mod adapters;
#[path = "trade/bench.rs"]
mod bench;
#[path = "trade/bushes.rs"]
mod bushes;
#[path = "trade/clamps.rs"]
mod clamps;
#[path = "trade/coated.rs"]
mod coated;
#[path = "trade/crushed.rs"]
mod crushed;
#[path = "trade/far_out.rs"]
mod far_out;
#[path = "trade/fastened.rs"]
mod fastened;
#[path = "trade/gauges.rs"]
mod gauges;
#[path = "trade/packed.rs"]
mod packed;
#[path = "trade/prints.rs"]
mod prints;
#[path = "trade/route.rs"]
mod route;
#[path = "trade/seats.rs"]
mod seats;
#[path = "trade/speeds.rs"]
mod speeds;
#[path = "trade/stands.rs"]
mod stands;
#[path = "trade/strength.rs"]
mod strength;

use approx::assert_relative_eq as near;
use setdown::formulas::seating::{self, Corner, EdgeBreak};
use setdown::formulas::step_drill::StepDrill;
use setdown::formulas::turning::{self, KnownTaper};
use setdown::units::{Angle, CuttingSpeed, Force, Length};

fn mm(x: f64) -> Length {
    Length::mm(x)
}
fn deg(x: f64) -> Angle {
    Angle::degrees(x)
}

/// The triangle of 3, 4 and 5: a chord 3 off the middle of a circle of 10 is 8 long; beside the circle there is none.
#[test]
fn a_roller_over_a_round_foot() {
    near!(turning::roller_span(mm(10.0), mm(3.0)).as_mm(), 8.0, epsilon = 1e-12);
    assert!(
        turning::roller_span(mm(10.0), mm(5.0)) == Length::ZERO
            && turning::roller_span(mm(10.0), mm(6.0)) == Length::ZERO
    );
}

/// US Navy training text NAVEDTRA 14345: a 12 in long taper from 3 to 2 in is 1 in per foot, set-over 1/2 in; 6 in long
/// at 1 in per foot 1/4 in. Rose, Modern Machine-Shop Practice p. 614: 36 in at 1 in per foot 1 1/2 in.
#[test]
fn tailstock_setover_of_published_examples() {
    for (between_centres, taper_per_foot, setover) in [(12.0, 1.0, 0.5), (6.0, 1.0, 0.25), (36.0, 1.0, 1.5)] {
        let s = turning::tailstock_setover(Length::inches(between_centres), taper_per_foot / 12.0);
        near!(s.by.as_inches(), setover, epsilon = 1e-12);
    }
    // A workshop class example: 15 in between centres, 0.0625 in per inch, 0.46875 in.
    near!(turning::tailstock_setover(Length::inches(15.0), 0.0625).by.as_inches(), 0.46875, epsilon = 1e-12);
    // A university machining exercise: 1200 mm overall, taper 1 in 200: set-over 3 mm.
    near!(turning::tailstock_setover(mm(1200.0), 1.0 / 200.0).by.as_mm(), 3.0, epsilon = 1e-12);
}

/// A university machining exercise: D 60, d 20, l 80 mm: compound rest at 14° 2'.
/// A hobby machinists' forum: 0.745 and 0.620 in, 1 in apart: 3.5763° (3° 34' 35").
#[test]
fn half_angle_from_diameters() {
    let a = turning::half_angle_of(mm(60.0), mm(20.0), mm(80.0));
    assert_eq!(a.as_degrees_minutes(), (false, 14, 2.2));
    let a = turning::half_angle_of(Length::inches(0.745), Length::inches(0.620), Length::inches(1.0));
    near!(a.as_degrees(), 3.5763, epsilon = 5e-5);
}

/// "Turning and Boring Tapers", 1902: taper per inch of included angles.
#[test]
fn taper_per_inch_of_an_old_table() {
    for (included, taper) in [(1.0, 0.01746), (10.0, 0.17498), (30.0, 0.53590), (45.0, 0.82842), (50.0, 0.93262)] {
        // The book prints five decimals, and cuts off rather than rounds in places: 1.5 units of the last.
        near!(turning::taper_ratio(deg(included / 2.0)), taper, epsilon = 1.5e-5);
    }
}

/// ISO 1119 table 1 as reprinted in GOST R 53440-2009: 1:3 has 18° 55' 28.72", 1:10 has 5° 43' 29.32".
#[test]
fn preferred_tapers() {
    for (ratio, included) in [(1.0 / 3.0, 18.92464442), (0.1, 5.72481045), (0.02, 1.14587740)] {
        near!((turning::half_angle_of_ratio(ratio) * 2.0).as_degrees(), included, epsilon = 5e-8);
    }
}

/// Machinery's Handbook, cutting speed: 30 m/min on 60 mm is 159 rpm; n = 3.82 x sfm / d(in) gives the same.
#[test]
fn spindle_speed_both_ways() {
    let v = CuttingSpeed::m_per_min(30.0);
    let n = turning::spindle_speed(v, mm(60.0));
    assert_eq!(n.whole(), 159);
    near!(n.as_rpm(), 3.8197 * v.as_sfm() / (60.0 / 25.4), max_relative = 1e-4);
}

/// Taper plug over two rollers (textbook exercise in metrology): 1:10, small end 30 mm on the plate, rollers 10 mm, blocks
/// 0 and 50 mm: M1 50.5125, M2 55.5125, from which tan a = 0.05. Standing on its small end the half-angle counts negative.
#[test]
fn taper_plug_over_rollers() {
    let a = turning::half_angle_of_ratio(0.1);
    let m1 = turning::over_rollers(mm(30.0), -a, mm(10.0));
    near!(m1.as_mm(), 50.5125, epsilon = 5e-5);
    let m2 = turning::over_rollers(mm(30.0) + mm(50.0) * 0.1, -a, mm(10.0));
    near!(m2.as_mm(), 55.5125, epsilon = 5e-5);
    near!(turning::half_angle_over_rollers(m2, m1, mm(50.0)).tan(), 0.05, epsilon = 1e-9);
}

/// The size over rollers, found again by brute force: the roller's centre is moved out until it is a radius off the flank.
#[test]
fn over_rollers_by_search() {
    for (base, angle, roller) in [(60.0, 30.0, 10.0), (40.0, 15.0, 6.0), (75.0, 45.0, 12.7)] {
        let (r, a) = (roller / 2.0, deg(angle));
        let distance = |x: f64| (x - base / 2.0) * a.cos() + r * a.sin();
        let (mut low, mut high) = (base / 2.0 - roller, base / 2.0 + 2.0 * roller);
        for _ in 0..100 {
            let middle = (low + high) / 2.0;
            if distance(middle) < r { low = middle } else { high = middle }
        }
        near!(turning::over_rollers(mm(base), a, mm(roller)).as_mm(), 2.0 * (low + r), epsilon = 1e-9);
    }
}

/// Every roughing step, by its definition: its corner stays the finishing allowance off the flank, measured square to it.
#[test]
fn roughing_steps_keep_their_distance() {
    let (d, a, left) = (12.0, deg(30.0), 0.3);
    let steps = turning::roughing_steps(mm(60.0), mm(d), a, mm(3.0), mm(left));
    assert_eq!(steps.len(), 7);
    for step in &steps {
        let flank_radius_there = d / 2.0 + step.stop.as_mm() * a.tan();
        near!((step.diameter.as_mm() / 2.0 - flank_radius_there) * a.cos(), left, epsilon = 1e-9);
    }
    near!(steps.last().unwrap().stop.as_mm(), 4.596, epsilon = 5e-4);
    near!(steps.first().unwrap().stop.as_mm(), 35.773, epsilon = 5e-4);
}

#[test]
fn a_taper_from_any_figures() {
    let all = KnownTaper {
        large: Some(mm(60.0)),
        small: Some(mm(12.0)),
        length: Some(mm(41.56921938165306)),
        half_angle: Some(deg(30.0)),
        ratio: None,
    };
    for leave_out in 0..4 {
        let mut known = all;
        match leave_out {
            0 => known.large = None,
            1 => known.small = None,
            2 => known.length = None,
            _ => known.half_angle = None,
        }
        let t = turning::solve(known).unwrap();
        near!(t.large.unwrap().as_mm(), 60.0, epsilon = 1e-9);
        near!(t.small.unwrap().as_mm(), 12.0, epsilon = 1e-9);
        near!(t.length.unwrap().as_mm(), 41.56921938165306, epsilon = 1e-9);
        near!(t.half_angle.as_degrees(), 30.0, epsilon = 1e-9);
    }
    let wrong = turning::solve(KnownTaper { small: Some(mm(14.0)), ..all }).unwrap_err().to_string();
    assert_eq!(
        wrong,
        "the figures contradict each other: the small diameter is given as 14.0000 mm, the others make it 12.0000 mm"
    );
    assert!(turning::solve(KnownTaper { large: Some(mm(20.0)), ..Default::default() }).is_err());
    assert!(
        turning::solve(KnownTaper {
            large: Some(mm(20.0)),
            length: Some(mm(90.0)),
            half_angle: Some(deg(45.0)),
            ..Default::default()
        })
        .unwrap_err()
        .to_string()
        .contains("comes to a point")
    );
    assert!(
        turning::solve(KnownTaper { large: Some(mm(20.0)), half_angle: Some(deg(95.0)), ..Default::default() })
            .is_err()
    );
}

/// Countersink depths by plain geometry: from 10 to 16 mm at 90°, 82°, 60° included: 3, 3.4511, 5.1962 mm. The ring of the
/// mouth of a seat and a cone's height are the same triangle.
#[test]
fn countersink_depths() {
    for (included, depth) in [(90.0, 3.0), (82.0, 3.4511), (60.0, 5.1962)] {
        near!(turning::taper_length(mm(16.0), mm(10.0), deg(included / 2.0)).as_mm(), depth, epsilon = 5e-5);
    }
}

fn ring(diameter: f64, depth: f64, edge: EdgeBreak) -> Corner {
    Corner { diameter: mm(diameter), depth: mm(depth), edge }
}

/// Height at which a rim of any shape first touches a cone, by lowering it in small steps: an oracle that knows no formula.
fn lowered(base: f64, a: Angle, rim: impl Fn(f64) -> (f64, f64)) -> f64 {
    // rim(u) gives (diameter, height over the entry face) for u in 0..1
    (0..=200_000)
        .map(|i| rim(f64::from(i) / 200_000.0))
        .map(|(d, y)| (base - d) / (2.0 * a.tan()) - y)
        .fold(f64::MIN, f64::max)
}

#[test]
fn seat_height_of_every_rim_against_a_search() {
    let (base, d, a) = (60.0, 40.0, deg(30.0));
    let sharp = seating::height_on(mm(base), a, &ring(d, 0.0, EdgeBreak::Sharp));
    near!(sharp.0.as_mm(), 300.0_f64.sqrt(), epsilon = 1e-9);
    let chamfer = seating::seat(mm(base), a, &Corner::chamfered(mm(d), mm(0.5)), mm(0.0)).unwrap();
    near!(chamfer.height.as_mm(), lowered(base, a, |u| (d + 1.0 * (1.0 - u), 0.5 * u)), epsilon = 1e-9);
    let radius = seating::height_on(mm(base), a, &ring(d, 0.0, EdgeBreak::Radius(mm(1.0))));
    let fillet = |u: f64| {
        let t = deg(90.0 * u);
        (d + 2.0 * (1.0 - t.sin()), 1.0 - t.cos())
    };
    near!(radius.0.as_mm(), lowered(base, a, fillet), epsilon = 1e-8);
    near!(radius.1.as_mm(), 40.2679492, epsilon = 1e-7);
}

/// Steps ... 40, 42, 44 of height 3 in a plate of 6, the largest 2 deep: lands 44 over 0-2, 42 over 2-5, 40 over 5-6; a 60°
/// cone of 60 mm carries on the entry edge at 13.8564. Two ways: the closed form of each ring, and the list of lands by hand.
#[test]
fn step_drilled_cup() {
    let drill = StepDrill {
        steps: [36.0, 38.0, 40.0, 42.0, 44.0].map(mm).to_vec(),
        step_height: mm(3.0),
        tip_angle: deg(118.0),
    };
    let lands: Vec<_> =
        drill.lands(mm(2.0), mm(6.0)).iter().map(|l| (l.diameter.as_mm(), l.from.as_mm(), l.to.as_mm())).collect();
    assert_eq!(lands, [(44.0, 0.0, 2.0), (42.0, 2.0, 5.0), (40.0, 5.0, 6.0)]);
    let corners: Vec<Corner> = lands.iter().map(|l| ring(l.0, l.1, EdgeBreak::Sharp)).collect();
    let heights: Vec<f64> = corners.iter().map(|c| seating::height_on(mm(60.0), deg(30.0), c).0.as_mm()).collect();
    for (height, by_hand) in heights.iter().zip([13.8564, 13.5885, 12.3205]) {
        near!(*height, by_hand, epsilon = 5e-5);
    }
    let seat = seating::seat(mm(60.0), deg(30.0), &corners, mm(0.05)).unwrap();
    assert_eq!((seat.corner, seat.near, seat.contact_diameter.as_mm()), (0, 1, 44.0));
    near!(drill.envelope_half_angle().unwrap().as_degrees(), 18.43, epsilon = 5e-3);
    // A slim cone goes to the far edge: 8 degrees from 24 mm in steps 20 over 3 deep, 18 below, plate 8.
    let slim = seating::seat(
        mm(24.0),
        deg(8.0),
        &[ring(20.0, 0.0, EdgeBreak::Sharp), ring(18.0, 3.0, EdgeBreak::Sharp)],
        mm(0.05),
    )
    .unwrap();
    assert_eq!(slim.corner, 1);
    near!(slim.height.as_mm(), 18.346, epsilon = 5e-4);
    // Tip of a 4 mm drill: 1.20 mm at 118 degrees, 0.83 at 135: cotangent table.
    for (tip, length) in [(118.0, 1.2017), (135.0, 0.8284)] {
        let d = StepDrill { steps: vec![mm(4.0)], step_height: mm(3.0), tip_angle: deg(tip) };
        near!(d.tip_length().as_mm(), length, epsilon = 5e-5);
    }
}

/// A machinists' forum gives about 7° half-angle as the most that holds itself; that is friction 0.123. Printed friction of
/// steel 0.27 (oxide film) holds to 15.1°, 0.78 (clean, dry) to 38° (LBNL engineering page on friction, after Gieck).
#[test]
fn self_holding_limits_of_published_frictions() {
    for (friction, half_angle) in [(0.123, 7.0), (0.27, 15.1), (0.78, 38.0)] {
        near!(seating::friction_angle(friction).as_degrees(), half_angle, epsilon = 0.06);
        assert!(seating::release_force(Force::newtons(1.0), deg(half_angle - 0.2), friction).is_some());
        assert!(seating::release_force(Force::newtons(1.0), deg(half_angle + 0.2), friction).is_none());
    }
}

/// Equilibrium on the flank solved as two linear equations, instead of the closed form.
#[test]
fn friction_forces_against_equilibrium() {
    for (angle, mu) in [(30.0, 0.3), (22.5, 0.12), (45.0, 0.8)] {
        let (a, p) = (deg(angle), 1000.0);
        // Down: N (sin a + mu cos a) = P; pull = N (cos a - mu sin a).
        let n = p / (a.sin() + mu * a.cos());
        let pull = n * (a.cos() - mu * a.sin());
        near!(seating::centring_force(Force::newtons(p), a, mu).as_newtons(), pull, max_relative = 1e-9);
    }
    // Up: locked normal force N from P = N (sin a + mu cos a); pulling needs N (mu cos a - sin a).
    let (a, mu, p) = (deg(5.0), 0.15, 5000.0);
    let n = p / (a.sin() + mu * a.cos());
    near!(
        seating::release_force(Force::newtons(p), a, mu).unwrap().as_newtons(),
        n * (mu * a.cos() - a.sin()),
        max_relative = 1e-9
    );
    assert_eq!(seating::centring_force(Force::newtons(1.0), deg(60.0), 0.8), Force::ZERO);
}

/// ISO 1461: 85 µm mean on steel over 6 mm; on both parts, 60° cone: 0.34 mm.
#[test]
fn hot_dip_zinc_lifts_the_frame() {
    near!(seating::coating_rise(Length::um(85.0), Length::um(85.0), deg(30.0)).as_mm(), 0.34, epsilon = 1e-12);
}

#[test]
fn nose_and_capture() {
    assert_eq!(seating::capture_radius(mm(40.0), seating::nose_flat(mm(12.0), deg(30.0), mm(0.0))).as_mm(), 14.0);
    // Tangent circle of a 2 mm fillet in a corner of 120 degrees: 2 tan 30 from the corner.
    near!(seating::nose_flat(mm(24.0), deg(30.0), mm(2.0)).as_mm(), 24.0 - 4.0 * deg(30.0).tan(), epsilon = 1e-12);
    near!(seating::side_play(mm(5.0), deg(30.0)).as_mm(), 5.7735, epsilon = 5e-5);
}

/// Grips: a third of what stands out from the balance of moments told at the function, worked here with its numbers:
/// 0.8 kN at 90 mm against 20 kN on jaws of 30 mm, margin 2: 72 N m against 75 N m; a jaw of 25 mm no longer carries it.
#[test]
fn a_grip_carries_the_cut_that_follows() {
    let carries = |grip: f64, out: f64| 0.8 * out <= 20.0 * grip / (4.0 * 2.0);
    let least = turning::least_grip(mm(20.0), mm(90.0), turning::Load::Heavy).unwrap().as_mm();
    assert!(carries(least, 90.0) && !carries(least * 0.9, 90.0));
    // A foot of 6 mm bears no drill and tap in a cone of 60 mm, but a skim of its base.
    assert!(turning::least_grip(mm(60.0), mm(2.0), turning::Load::Heavy).unwrap() > mm(6.0));
    assert!(turning::least_grip(mm(60.0), mm(2.0), turning::Load::Light).unwrap() <= mm(5.0));
}

/// Lathe owner's manual, safety page: more than 3 diameters out of the chuck is to be supported. 330 mm of 55 mm bar is 6.
#[test]
fn slender_work_gets_its_support() {
    assert_eq!(turning::support(mm(150.0), mm(50.0)), turning::Support::None);
    assert_eq!(turning::support(mm(330.0), mm(55.0)), turning::Support::Centre);
    assert_eq!(turning::support(mm(420.0), mm(35.0)), turning::Support::CentreAndRest);
    // ISO 866 form A (from memory): 2 mm pilot, mouth 4.25 mm, on a face of 10 mm; none on a face of 2 mm.
    assert_eq!(turning::centre_drill(mm(10.0), mm(50.0)), Some((mm(2.0), mm(4.25))));
    assert_eq!(turning::centre_drill(mm(2.0), mm(50.0)), None);
}

/// 65 mm bar to 60 mm in cuts of at most 1.5 mm a side: 2.5 mm takes two; 3.0 mm just two; 3.02 mm three.
#[test]
fn passes_by_hand() {
    for (from, to, passes) in [(65.0, 60.0, 2), (66.0, 60.0, 2), (66.04, 60.0, 3), (60.0, 60.0, 0)] {
        assert_eq!(turning::passes(mm(from), mm(to), mm(1.5)), passes);
    }
}

/// Limit deviations of ISO 9013:2017, tolerance class 1, as a cutting firm prints them; grades of machining processes
/// as machinery handbooks chart them (drilling 10 to 13, reaming 6 to 10, turning 7 to 13, boring 8 to 13, cylindrical
/// grinding 5 to 7), their widths from ISO 286-1 table 1 (25 mm: IT5 9 um, IT6 13 um, IT7 21 um, IT8 33 um, IT10 84 um).
#[test]
fn what_processes_hold() {
    use setdown::standards::processes::{Process, at_best, cut_deviation, cut_squareness, usually};
    let cut = |size, thickness| cut_deviation(mm(size), mm(thickness)).map(|c| c.value.as_mm());
    for (size, thickness, printed) in [
        (2.0, 0.8, 0.075),
        (9.0, 16.0, 0.4),
        (40.0, 8.0, 0.3),
        (35.0, 8.0, 0.3),
        (34.0, 12.0, 0.35),
        (120.0, 3.15, 0.25),
        (120.0, 3.2, 0.25),
        (400.0, 6.0, 0.4),
        (1500.0, 30.0, 1.6),
    ] {
        assert_eq!(cut(size, thickness), Some(printed), "{size} in {thickness} mm");
    }
    assert!(cut(2.0, 8.0).is_none() && cut(40.0, 33.0).is_none() && cut(2500.0, 8.0).is_none());
    let best = |p| at_best(p, mm(25.0), mm(8.0)).unwrap().value.as_um();
    for (process, um) in [
        (Process::CylindricallyGround, 9.0),
        (Process::Reamed, 13.0),
        (Process::Turned, 21.0),
        (Process::Bored, 33.0),
        (Process::Drilled, 84.0),
        (Process::LaserCut, 600.0),
    ] {
        near!(best(process), um, epsilon = 1e-9);
    }
    let all = [Process::LaserCut, Process::Drilled, Process::Bored, Process::Turned, Process::Reamed];
    for process in all.into_iter().chain([Process::CylindricallyGround]) {
        let (best, usual) = (at_best(process, mm(25.0), mm(8.0)), usually(process, mm(25.0), mm(8.0)));
        assert!(best.unwrap().value <= usual.unwrap().value, "{process}");
    }
    // ISO 9013, range 2, from memory: 0.15 + 0.007 a.
    near!(cut_squareness(mm(10.0)).unwrap().value.as_mm(), 0.22, epsilon = 1e-12);
}

/// Printed tables of tangents: tan 30° 0.57735, tan 14° 2.2' 0.25 (the university exercise above: 20 mm in 80). A protractor that
/// reads 0 square to the axis shows the complement of the half-angle (US Navy training text NAVEDTRA 14345: 90° less it).
#[test]
fn what_slide_and_dial_show() {
    near!(turning::dial_over_travel(mm(10.0), deg(30.0)).as_mm(), 5.7735, epsilon = 5e-5);
    let exercise = turning::half_angle_of(mm(60.0), mm(20.0), mm(80.0));
    near!(turning::dial_over_travel(mm(80.0), exercise).as_mm(), 20.0, epsilon = 1e-9);
    for (half_angle, square) in [(30.0, 60.0), (14.25, 75.75), (1.5, 88.5)] {
        near!(turning::compound_from_square(deg(half_angle)).as_degrees(), square, epsilon = 1e-12);
    }
    // Common practice, no source: a fiftieth of the distance between centres.
    near!(turning::tailstock_setover(mm(500.0), 0.05).most.as_mm(), 10.0, epsilon = 1e-12);
}

/// By the picture of the steps: the sharpest corner that a step leaves stands as far off the flank as is said.
#[test]
fn the_thickest_metal_stands_at_a_corner_of_the_steps() {
    for (half_angle, cut, left) in [(30.0, 3.0, 0.3), (12.0, 1.5, 0.2), (45.0, 2.0, 0.5)] {
        let (d, a) = (12.0, deg(half_angle));
        let steps = turning::roughing_steps(mm(60.0), mm(d), a, mm(cut), mm(left));
        let corner = steps.windows(2).map(|pair| {
            let flank_there = d / 2.0 + pair[1].stop.as_mm() * a.tan();
            (pair[0].diameter.as_mm() / 2.0 - flank_there) * a.cos()
        });
        let thickest = corner.fold(0.0, f64::max);
        near!(turning::thickest_left(a, mm(cut), mm(left)).as_mm(), thickest, epsilon = 1e-9);
    }
}

/// A roller of radius r that lies at height h on a plate beside a cone touches its flank at h + r (1 - sin a): on the flank at
/// the rise that is said, beyond its end one step higher.
#[test]
fn the_raised_roller_touches_the_flank() {
    for (flank, half_angle, roller, step) in [(31.0, 30.0, 10.0, 1.0), (33.3, 12.0, 8.0, 0.5), (6.0, 45.0, 10.0, 1.0)] {
        let a = deg(half_angle);
        let touches = |h: f64| h + roller / 2.0 * (1.0 - a.sin());
        let rise = turning::roller_rise(mm(flank), a, mm(roller), mm(step)).expect("room").as_mm();
        assert!(touches(rise) <= flank && touches(rise + step) > flank, "{flank}: {rise}");
    }
    assert!(turning::roller_rise(mm(2.0), deg(30.0), mm(10.0), mm(1.0)).is_none());
}

/// A centre no wider than a quarter of the work (common practice, no source): 5 mm of 20, so the mouth of 4.25 mm of
/// ISO 866 form A (from memory), not that of 5.3. Grips: never less than half the bar, a fifteenth of it, 4 mm. Cuts: no table
/// is longer than 500 rows.
#[test]
fn ends_of_the_rules_of_the_lathe() {
    use turning::{Load, least_grip};
    assert_eq!(turning::centre_drill(mm(30.0), mm(20.0)), Some((mm(2.0), mm(4.25))));
    assert_eq!(least_grip(mm(60.0), mm(10.0), Load::Heavy), Some(mm(30.0)));
    assert_eq!(least_grip(mm(10.0), mm(2.0), Load::Light), Some(mm(4.0)));
    assert_eq!(least_grip(mm(150.0), mm(9.0), Load::Light), Some(mm(10.0)));
    assert_eq!(least_grip(mm(30.0), mm(90.0), Load::Light), Some(mm(10.0)));
    assert_eq!(turning::passes(mm(5000.0), mm(1.0), mm(0.1)), 500);
    assert!(turning::roughing_steps(mm(5000.0), mm(1.0), deg(30.0), mm(0.1), mm(0.1)).len() <= 500);
    assert!(turning::roughing_steps(mm(1000.0), mm(1.0), deg(30.0), mm(1.0), mm(0.1)).len() > 495);
}

/// Printed charts of tap drills for fine metric threads: M12x1.25 10.8, M14x1.25 12.8, M20x1.5 18.5, M10x1 9.0 mm.
/// ISO 965-5 AZ (from memory): 300 + 20 P, M8 325, M64x6 420 um; ASTM A563 (from memory): 1/2 in 0.018, 3/4 in 0.020.
/// ASME B18.3: head of a 1/2 in socket screw 0.750 by 0.500 in; counterbore 13/16 in (handbook charts, from memory).
#[test]
fn threads_by_printed_charts() {
    use setdown::standards::threads::{Thread, socket_head};
    let thread = |name: &str| Thread::parse(name).unwrap();
    for (name, drill) in [("M12x1.25", 10.8), ("M14x1.25", 12.8), ("M20x1.5", 18.5), ("M10x1", 9.0)] {
        near!(thread(name).tap_drill().drill.diameter.as_mm(), drill, epsilon = 1e-9);
    }
    let over = |name: &str| thread(name).oversize_for_hot_dip().map(|c| c.value);
    for (name, um) in [("M8", 325.0), ("M12", 335.0), ("M64", 420.0)] {
        near!(over(name).expect(name).as_um(), um, epsilon = 1e-6);
    }
    for (name, inches) in [("1/2", 0.018), ("3/4", 0.020)] {
        near!(over(name).expect(name).as_inches(), inches, epsilon = 1e-9);
    }
    let head = socket_head(thread("1/2")).unwrap().value;
    let sizes = [head.diameter, head.height, head.seat_diameter, head.seat_depth].map(Length::as_inches);
    for (is, printed) in sizes.into_iter().zip([0.75, 0.5, 0.8125, 0.5]) {
        near!(is, printed, epsilon = 1e-9);
    }
}

/// The flank of a taper of 60 on 20 over 80 mm is the long side of a triangle of 80 and 20: 82.4621 mm (Pythagoras).
#[test]
fn slant_of_a_flank() {
    near!(turning::slant(mm(80.0), deg(14.0362435)).as_mm(), 82.4621125, epsilon = 1e-6);
}

/// Two readings over rollers, each in doubt by 0.01 mm, 50 mm apart on a flank of 30 degrees: each turns the angle by
/// atan((D + 0.01)/100) - atan(D/100), D = 100 tan(30), and the two add up as roots of squares: 0.0060766 degrees.
/// Source: worked with an arc tangent apart from this program.
#[test]
fn doubt_of_an_angle_over_rollers() {
    let (d, doubt) = (57.735027_f64, 0.01_f64);
    let one = ((d + doubt) / 100.0).atan() - (d / 100.0).atan();
    let both = (one * 2.0_f64.sqrt()).to_degrees();
    near!(turning::roller_doubt(mm(doubt), deg(30.0), mm(50.0)).as_degrees(), both, max_relative = 1e-4);
}
