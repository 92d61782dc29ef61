//! Seating mechanics against closed forms, published examples, a second solver and brute force.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "helpers of tests may fail")]
#![allow(clippy::disallowed_methods, reason = "references are computed apart from the library under test")]
#![allow(clippy::approx_constant, reason = "a worked value happens to be 1/pi")]

use setdown::formulas::frame::rest::{Carrier, NoRest, Rest, SeatRest, Solver, rest};
use setdown::formulas::frame::{Landing, Load, Plan, Pull, Seat, SeatKind};
use setdown::units::{Angle, Force, Length};

const CORNERS: [(f64, f64); 4] = [(900.0, 400.0), (900.0, -400.0), (-900.0, 400.0), (-900.0, -400.0)];

fn deg(a: f64) -> Angle {
    Angle::degrees(a)
}

fn round(x: f64, y: f64, e: (f64, f64)) -> Seat {
    Seat::round(&format!("({x}, {y})"), Plan::mm(x, y), deg(30.0)).with_mismatch(Plan::mm(e.0, e.1))
}

fn landing(seats: Vec<Seat>, x: f64, y: f64) -> Landing {
    Landing::new(seats, Load::of_weight(Force::newtons(1000.0), Plan::mm(x, y))).unwrap()
}

fn near(got: f64, want: f64, tolerance: f64, what: &str) {
    assert!((got - want).abs() <= tolerance, "{what}: got {got}, want {want} within {tolerance}");
}

/// Vertical loads and sideways forces balance the load and its moments.
fn balances(l: &Landing, r: &Rest) {
    let load = l.load();
    let w = load.down().as_newtons();
    let foot = load.foot();
    let sum = |f: &dyn Fn(usize) -> f64| (0..r.seats.len()).map(f).sum::<f64>();
    let p = |i: usize| r.seats[i].load.as_newtons();
    let at = |i: usize| l.seats()[i].at;
    let side = |i: usize| r.seats[i].side.map(|f| f.as_newtons());
    near(sum(&p) / w, 1.0, 1e-6, "weight");
    near(sum(&|i| p(i) * at(i).x.as_mm()) / w, foot.x.as_mm(), 1e-3, "moment about y");
    near(sum(&|i| p(i) * at(i).y.as_mm()) / w, foot.y.as_mm(), 1e-3, "moment about x");
    let [fx, fy] = load.side.map(|f| f.as_newtons());
    near(sum(&|i| side(i)[0]) / w, -fx / w, 1e-6, "force x");
    near(sum(&|i| side(i)[1]) / w, -fy / w, 1e-6, "force y");
    let couple = sum(&|i| at(i).x.as_mm() * side(i)[1] - at(i).y.as_mm() * side(i)[0]);
    let own = load.centre.x.as_mm() * fy - load.centre.y.as_mm() * fx;
    near((couple + own) / w, 0.0, 1e-3, "yaw couple");
    assert!(r.seats.iter().all(|s| s.load.as_newtons() >= -1e-6 * w), "a seat pulls: {:?}", r.seats);
}

/// Three cups at 120 degrees, each cone too far out by eps: z = eps cot(alpha), nothing else.
/// Source: derived, elementary geometry of one symmetric flank.
#[test]
fn three_cups_all_too_far_in() {
    let seats = (0..3).map(|k| {
        let a = deg(120.0 * f64::from(k));
        round(500.0 * a.cos(), 500.0 * a.sin(), (-0.7 * a.cos(), -0.7 * a.sin()))
    });
    let l = landing(seats.collect(), 0.0, 0.0);
    let r = rest(&l).unwrap();
    near(r.pose.z.as_mm(), 0.7 * 3f64.sqrt(), 1e-9, "z");
    near(r.pose.dx.as_mm(), 0.0, 1e-9, "dx");
    near(r.pose.dy.as_mm(), 0.0, 1e-9, "dy");
    near(r.pose.yaw.as_milliradians(), 0.0, 1e-9, "yaw");
    assert!(r.unique());
    balances(&l, &r);
}

/// Four round cups with errors; reference values found by two general solvers that agreed with each other to
/// about 3e-5 (cone solver and another front end). Tighter digits from SciPy SLSQP and SCS run to 1e-10 on the same
/// programme, which agree with each other to 1e-7.
#[test]
fn four_round_cups_two_solvers() {
    let e = [(0.345, 0.821), (0.330, -1.303), (0.905, 0.446), (-0.537, 0.581)];
    let seats = CORNERS.iter().zip(e).map(|(c, e)| round(c.0, c.1, e)).collect();
    let l = landing(seats, 0.0, 0.0);
    let r = rest(&l).unwrap();
    let p = r.pose;
    let got = [p.z.as_mm(), p.dx.as_mm(), p.dy.as_mm(), p.yaw.as_milliradians(), p.roll.as_milliradians()];
    let got = [got[0], got[1], got[2], got[3], got[4], p.pitch.as_milliradians()];
    let first = [1.40703, -0.13704, -0.13982, 0.53534, 0.25833, -0.56002];
    let tighter = [1.40702542, -0.13706325, -0.13985208, 0.53534295, 0.25822970, -0.56001243];
    for k in 0..6 {
        near(got[k], first[k], 1.1e-4, "two solvers");
        near(got[k], tighter[k], 5e-8, "two tight solvers");
    }
    assert!(r.unique());
    assert!(r.seats.iter().all(|s| s.carrier == Carrier::Flank));
    balances(&l, &r);
}

/// Two round cups D too far apart climb D/(2 tan alpha) = 1.7320508 mm at D 2 mm, 30 degrees, and are
/// neutral along their line by D/2 each way. Source: derived; hang-up of two cups.
#[test]
fn two_round_cups_are_neutral_along_their_line() {
    let l = landing(vec![round(-800.0, 0.0, (-1.0, 0.0)), round(800.0, 0.0, (1.0, 0.0))], 0.0, 0.0);
    let r = rest(&l).unwrap();
    near(r.pose.z.as_mm(), 1.732_050_807_568_877, 1e-9, "z");
    assert!(!r.unique());
    near(r.wander.dx.0.unwrap().as_mm(), -1.0, 1e-6, "least dx");
    near(r.wander.dx.1.unwrap().as_mm(), 1.0, 1e-6, "greatest dx");
    near(r.wander.dy.0.unwrap().as_mm(), 0.0, 1e-6, "least dy");
    near(r.wander.dy.1.unwrap().as_mm(), 0.0, 1e-6, "greatest dy");
    balances(&l, &r);
}

#[test]
fn a_perfect_round_and_slot_sit_down_flat() {
    let slot = SeatKind::endless_slot(deg(0.0));
    let clear = SeatKind::Clear { clearance: Length::mm(2.0), on_pad: true };
    let seats = vec![
        round(900.0, 400.0, (0.3, -0.2)),
        round(-900.0, 400.0, (1.1, 0.4)).with_kind(slot),
        round(900.0, -400.0, (0.5, 0.5)).with_kind(clear),
        round(-900.0, -400.0, (-0.4, 0.6)).with_kind(clear),
    ];
    let l = landing(seats, 100.0, -50.0);
    let r = rest(&l).unwrap();
    near(r.pose.z.as_mm(), 0.0, 1e-9, "z");
    assert!(r.unique(), "{:?}", r.wander);
    assert!(r.seats.iter().all(|s| s.side.iter().all(|f| f.as_newtons().abs() < 1e-5)), "{:?}", r.seats);
    near(r.seats[0].offset.length().as_mm(), 0.0, 1e-9, "round cup is centred");
    near(r.seats[1].offset.y.as_mm(), 0.0, 1e-9, "slot is centred across");
    balances(&l, &r);
}

#[test]
fn tipping_sliding_and_hanging() {
    let pads = |n: usize| -> Vec<Seat> {
        CORNERS.iter().take(n).map(|c| round(c.0, c.1, (0.0, 0.0)).with_kind(SeatKind::Pad)).collect()
    };
    let NoRest::Tips { by } = rest(&landing(pads(4), 1000.0, 0.0)).unwrap_err() else { panic!("must tip") };
    near(by.as_mm(), 100.0, 1e-9, "outside by");
    let free = rest(&landing(pads(4), 0.0, 0.0)).unwrap();
    assert_eq!((free.wander.freedoms, free.wander.dx), (3, (None, None)));
    let clear = SeatKind::Clear { clearance: Length::mm(2.0), on_pad: true };
    let all_clear = CORNERS.iter().map(|c| round(c.0, c.1, (0.0, 0.0)).with_kind(clear)).collect();
    let r = rest(&landing(all_clear, 0.0, 0.0)).unwrap();
    near(r.wander.dx.1.unwrap().as_mm(), 2.0, 1e-6, "room");
    near(r.wander.yaw.1.unwrap().as_radians(), 2.0 / 970_000f64.sqrt(), 1e-8, "yaw room");
    let hanging = SeatKind::Clear { clearance: Length::mm(2.0), on_pad: false };
    let none = CORNERS.iter().map(|c| round(c.0, c.1, (0.0, 0.0)).with_kind(hanging)).collect();
    assert_eq!(rest(&landing(none, 0.0, 0.0)).unwrap_err(), NoRest::NothingCarries);
    let mut load = Load::of_weight(Force::newtons(1000.0), Plan::default());
    load.side = [Force::newtons(300.0), Force::ZERO];
    let pushed = rest(&Landing::new(pads(4), load).unwrap()).unwrap_err();
    let NoRest::SlidesAway { direction } = pushed else { panic!("must slide: {pushed:?}") };
    near(direction.as_degrees(), 0.0, 1e-6, "direction");
    let wide = SeatKind::Clear { clearance: Length::mm(0.5), on_pad: true };
    let stuck = vec![round(0.0, 0.0, (1.0, 0.0)).with_kind(wide), round(800.0, 0.0, (-1.0, 0.0)).with_kind(wide)];
    // Two holes that do not go over their cones together: each rim climbs by what it lacks, (1 - 0.5) cot 30.
    let lifted = rest(&landing(stuck, 400.0, 0.0)).unwrap();
    near(lifted.pose.rise_at(Plan::mm(400.0, 0.0)).as_mm(), 0.5 * 3f64.sqrt(), 1e-9, "clear holes climb");
    assert!(lifted.seats.iter().all(|s| s.carrier == Carrier::Flank));
}

#[test]
fn one_seat_and_forty_seats() {
    let one = rest(&landing(vec![round(10.0, 20.0, (0.5, 0.0))], 10.0, 20.0)).unwrap();
    near(one.pose.z.as_mm(), 0.0, 1e-9, "z");
    assert!(matches!(rest(&landing(vec![round(10.0, 20.0, (0.5, 0.0))], 0.0, 20.0)), Err(NoRest::Tips { .. })));
    let many = (0..40).map(|k| {
        let a = deg(9.0 * f64::from(k));
        round(800.0 * a.cos(), 800.0 * a.sin(), (-0.25 * a.cos(), -0.25 * a.sin()))
    });
    let l = landing(many.collect(), 0.0, 0.0);
    let r = rest(&l).unwrap();
    near(r.pose.z.as_mm(), 0.25 * 3f64.sqrt(), 1e-9, "z of forty");
    balances(&l, &r);
}

/// A slot of travel t whose cone lies e beyond it along the line to the round cup: both climb, the two flanks share the
/// lack, (e - t)/2 cot 30 each under the same weight (the hang-up of two cups above, the slot's end being half a cup).
/// Within the travel it sits down flat. Source: derived, elementary geometry of two flanks.
#[test]
fn a_slot_ends() {
    let with = |off: f64, travel: f64| {
        let slot = SeatKind::Slot { direction: deg(0.0), travel: mm(travel) };
        let pad = |y: f64| round(0.0, y, (0.0, 0.0)).with_kind(SeatKind::Pad).with_height(mm(-50.0));
        let seats = vec![
            round(-800.0, 0.0, (0.0, 0.0)),
            round(800.0, 0.0, (off, 0.0)).with_kind(slot),
            pad(500.0),
            pad(-500.0),
        ];
        rest(&landing(seats, 0.0, 0.0))
    };
    for (off, travel) in [(3.0, 0.2), (-3.0, 0.5), (5.0, 3.0), (2.0, 0.0)] {
        let r = with(off, travel).unwrap();
        near(r.pose.z.as_mm(), (off.abs() - travel) / 2.0 * 3f64.sqrt(), 1e-9, "climbs by half of what lacks");
        assert_eq!((r.seats[0].carrier, r.seats[1].carrier), (Carrier::Flank, Carrier::End));
        near(r.seats[1].side[0].as_newtons().abs(), 500.0 * 3f64.sqrt(), 1e-5, "the end pushes as a flank does");
    }
    for (off, travel) in [(0.199, 0.2), (-2.9, 3.0), (3.0, f64::INFINITY)] {
        near(with(off, travel).unwrap().pose.z.as_mm(), 0.0, 1e-9, "flat between the ends");
    }
}

/// Many poses one after the other with a warm start, the cone now between the ends and now beyond: the same as each alone.
#[test]
fn slot_ends_from_a_warm_start() {
    let mut random = SplitMix::new(31);
    let seats = |random: &mut SplitMix| {
        let mut seats = random_seats(random, 4, 1.0);
        for (i, travel) in [(1, 0.4), (2, 1.0)] {
            let direction = (seats[i].at - seats[0].at).direction();
            seats[i] = seats[i].clone().with_kind(SeatKind::Slot { direction, travel: mm(travel) });
        }
        seats
    };
    let base = landing(seats(&mut random), 0.0, 0.0);
    let mut solver = Solver::new(&base);
    solver.pose(&base).unwrap();
    solver.keep_as_start();
    let mut ends = 0;
    for _ in 0..300 {
        let drawn: Vec<Seat> = base
            .seats()
            .iter()
            .map(|s| {
                let [x, y] = random.normals();
                s.clone().with_mismatch(s.mismatch + Plan::mm(0.4 * x, 0.4 * y))
            })
            .collect();
        let l = landing(drawn, 0.0, 0.0);
        let alone = rest(&l).unwrap();
        ends += alone.seats.iter().filter(|s| s.carrier == Carrier::End).count();
        near(solver.pose(&l).unwrap().z.as_mm(), alone.pose.z.as_mm(), 1e-7, "warm and alone");
        let (second, _) = general_solver(&l).unwrap();
        near(alone.pose.z.as_mm(), second[3], 1e-6, "second solver");
    }
    assert!(ends > 20 && solver.warm_hits() > 20, "{ends} at an end, {} from the start", solver.warm_hits());
}

/// A round cup that carries nothing, loose on its cone: the frame stands on a slot and two pads and may still turn about the slot
/// and move along it. The middle of where it may lie is where the loose cone stands upright in its cup.
/// Source: geometry; the analytic centre of a disc is its centre.
#[test]
fn a_loose_cone_is_taken_in_the_middle_of_its_room() {
    let pad = |x: f64, y: f64| round(x, y, (0.0, 0.0)).with_kind(SeatKind::Pad);
    let slot = round(1000.0, 0.0, (0.1, -0.25)).with_kind(SeatKind::endless_slot(Angle::ZERO));
    let loose = round(0.0, 0.0, (0.2, 0.15)).with_height(mm(-1.0));
    let l = landing(vec![loose, slot, pad(0.0, 1000.0), pad(1000.0, 1000.0)], 700.0, 600.0);
    let rest = rest(&l).unwrap();
    assert_eq!(rest.seats[0].carrier, Carrier::Nothing);
    let at = rest.seats[0].offset;
    near(at.x.as_mm(), 0.0, 1e-9, "along x");
    near(at.y.as_mm(), 0.0, 1e-9, "along y");
    // across the slot it is held: dy + 1000 θ = 0.25, and dy = -0.15 at the loose cup
    near(rest.pose.yaw.as_radians(), 0.4 / 1000.0, 1e-12, "turn");
    assert_eq!(rest.wander.freedoms, 2);
}

/// A slot that carries nothing beside a round cup and two pads that do: the turn that is left ends in the middle between its sides.
#[test]
fn a_loose_slot_is_taken_between_its_sides() {
    let pad = |x: f64, y: f64| round(x, y, (0.0, 0.0)).with_kind(SeatKind::Pad);
    let slot = round(1000.0, 0.0, (0.3, -0.25)).with_kind(SeatKind::endless_slot(Angle::ZERO)).with_height(mm(-1.0));
    let l = landing(vec![round(0.0, 0.0, (0.0, 0.0)), slot, pad(0.0, 1000.0), pad(1000.0, 1000.0)], 400.0, 600.0);
    let rest = rest(&l).unwrap();
    assert_eq!(rest.seats[1].carrier, Carrier::Nothing);
    near(rest.seats[1].offset.y.as_mm(), 0.0, 1e-9, "between the sides");
    near(rest.pose.yaw.as_radians(), 0.25 / 1000.0, 1e-12, "turn");
}

/// Drawn poses come from what touched in earlier draws wherever that fits. Each is the one that the whole programme finds alone,
/// also where a cone or a slot is left loose; and nearly all are found so.
#[test]
fn what_touched_before_gives_the_same_pose() {
    let mut random = SplitMix::new(77);
    let (mut hits, mut loose, mut all) = (0, 0, 0);
    for case in 0..24 {
        let mut seats = random_seats(&mut random, 4 + case % 2, 0.5);
        let direction = (seats[2].at - seats[0].at).direction();
        seats[2] = seats[2].clone().with_kind(SeatKind::Slot { direction, travel: mm(3.0) });
        for i in (1..seats.len()).filter(|i| *i != 2) {
            let kind =
                if case % 3 == 0 { SeatKind::Round } else { SeatKind::Clear { clearance: mm(4.0), on_pad: true } };
            seats[i] = seats[i].clone().with_kind(kind);
        }
        let base = landing(seats, 60.0 * random.uniform(), 60.0 * random.uniform());
        let mut shaken = || {
            let moved = base.seats().iter().map(|s| {
                let ([x, y], [z, _]) = (random.normals(), random.normals());
                s.clone().with_mismatch(s.mismatch + Plan::mm(0.3 * x, 0.3 * y)).with_height(s.height + mm(0.2 * z))
            });
            Landing::new(moved.collect(), base.load().clone()).unwrap()
        };
        let mut solver = Solver::new(&base);
        (0..60).for_each(|_| {
            solver.pose(&shaken()).unwrap();
            solver.keep_as_start();
        });
        let before = solver.warm_hits();
        for _ in 0..60 {
            let l = shaken();
            let (pose, alone) = (solver.pose(&l).unwrap(), rest(&l).unwrap());
            loose += usize::from(alone.wander.freedoms > 0);
            for s in l.seats() {
                let apart = pose.shift_at(s.at, Length::ZERO) - alone.pose.shift_at(s.at, Length::ZERO);
                near(apart.length().as_mm(), 0.0, 1e-6, "in plan");
                near((pose.rise_at(s.at) - alone.pose.rise_at(s.at)).as_mm(), 0.0, 1e-7, "up");
            }
        }
        (hits, all) = (hits + solver.warm_hits() - before, all + 60);
    }
    assert!(10 * hits > 7 * all && loose > 100, "{hits} of {all} from what touched before, {loose} loose");
}

// ---------------------------------------------------------------- formulas with published or worked values

use setdown::formulas::frame::arrangement::{self, Allowances, Hole, Road};
use setdown::formulas::frame::chance::{Chance, SeatSpread, Study, chance};
use setdown::formulas::frame::contact;
use setdown::formulas::frame::fit::{mismatch, rigid_fit};
use setdown::formulas::frame::loads::load_ranges;
use setdown::formulas::frame::ride_off::{self, Case, Holding, Transport};
use setdown::formulas::frame::{capture, friction};
use setdown::formulas::random::SplitMix;
use setdown::formulas::seating;
use setdown::units::{Acceleration, Expansion, Mass, TemperatureChange};

fn mm(v: f64) -> Length {
    Length::mm(v)
}

fn newtons(v: f64) -> Force {
    Force::newtons(v)
}

/// Worked examples (each checked apart from this program by a second route: brute-force geometry,
/// integration or search); formulas of one flank in equilibrium, line contact after Hertz.
#[test]
fn one_cone_worked_examples() {
    let a = deg(30.0);
    near(seating::centring_force(newtons(1000.0), a, 0.3).as_newtons(), 942.377233, 1e-6, "centring");
    near(seating::greatest_sliding_half_angle(0.3).as_degrees(), 73.3007558, 1e-7, "limit");
    near(seating::release_force(newtons(5000.0), deg(5.0), 0.15).unwrap().as_newtons(), 1316.09096, 1e-5, "release");
    near(contact::friction_angle(0.15).unwrap().as_degrees(), 8.53076561, 1e-8, "sticks below");
    near(contact::relieved_cone_rise(mm(1.0), deg(10.0), a, mm(40.0)).unwrap().as_mm(), 0.342763043, 1e-9, "rise");
    let growth =
        arrangement::thermal_growth(mm(1600.0), Expansion::per_million_kelvin(11.9), TemperatureChange::kelvin(40.0));
    near(growth.as_mm(), 0.7616, 1e-9, "growth");
}

#[test]
fn capture_worked_examples() {
    let c = seating::capture_radius(mm(40.0), mm(12.0));
    near(c.as_mm(), 14.0, 0.0, "capture");
    near(capture::yaw_limit(c, mm(943.398113)).unwrap().as_degrees(), 0.85027547, 1e-8, "yaw");
    let at = [(800.0, 500.0), (-800.0, 500.0), (-800.0, -500.0), (800.0, -500.0)];
    let catches: Vec<_> = at
        .iter()
        .map(|p| capture::Catch { at: Plan::mm(p.0, p.1), mismatch: Plan::mm(3.0, 4.0), capture: c })
        .collect();
    let set = capture::set_capture(&catches, mm(6.0), mm(5.0)).unwrap();
    near(set.radius.as_mm(), 9.0, 1e-12, "radius");
    near(set.spare.as_mm(), -2.0, 1e-12, "spare");
    // What is left of 9 mm beside a swing of 6 mm: 3 mm at 943.4 mm. In the direction away from the mismatch there is more:
    // |e d + (3, 4)| <= 14 along the mismatch 9 mm, against it 19 mm. Source: plane geometry.
    near(set.yaw_at_swing.as_radians(), 3.0 / 943.398113, 1e-7, "yaw at the swing");
    let against = Angle::atan2(4.0, 3.0);
    near(capture::reach(&catches, deg(0.0), against).as_mm(), 9.0, 1e-9, "along");
    near(capture::reach(&catches, deg(0.0), against + deg(180.0)).as_mm(), 19.0, 1e-9, "against");
    let turned: Vec<f64> =
        (0..360).map(|i| capture::reach(&catches, set.yaw_at_swing, deg(f64::from(i))).as_mm()).collect();
    assert!(turned.iter().all(|e| *e >= 6.0 - 1e-6), "the swing is caught in every direction");
}

/// Loads on three and four cones: barycentric shares, equal springs, worst three points (worked apart from
/// this program; the spring model is that of the four-legged table of statics textbooks).
#[test]
fn load_shares_worked_examples() {
    let at = |p: &[(f64, f64)], x, y| {
        let seats = p.iter().map(|p| round(p.0, p.1, (0.0, 0.0))).collect();
        load_ranges(&Landing::new(seats, Load::of_weight(newtons(3922.66), Plan::mm(x, y))).unwrap()).unwrap()
    };
    let four = at(&[(0.0, 0.0), (1600.0, 0.0), (1600.0, 1000.0), (0.0, 1000.0)], 900.0, 450.0);
    let spring = [956.148375, 1201.31462, 1005.18162, 760.015375];
    let worst = [1716.16375, 2157.463, 1765.197, 1716.16375];
    for i in 0..4 {
        near(four[i].spring.as_newtons(), spring[i], 1e-5, "spring");
        near(four[i].greatest.as_newtons(), worst[i], 1e-5, "worst");
    }
    let three = at(&[(0.0, 0.0), (1600.0, 0.0), (800.0, 1000.0)], 850.0, 400.0);
    for (got, want) in three.iter().zip([1054.21487, 1299.38112, 1569.064]) {
        near(got.least.as_newtons(), want, 1e-5, "least of three");
        near(got.greatest.as_newtons(), want, 1e-5, "greatest of three");
        near(got.spring.as_newtons(), want, 1e-5, "spring of three");
    }
}

/// Round cup and slot both at the front, slot sideways; accelerations of 49 CFR 393.102(a)(1); the loads worked
/// apart from this program (planar statics).
#[test]
fn preload_worked_example() {
    let t = Transport {
        mass: Mass::kg(400.0),
        centre: Plan::default(),
        height: mm(500.0),
        seats: vec![Plan::mm(800.0, 500.0), Plan::mm(800.0, -500.0), Plan::mm(-800.0, 500.0), Plan::mm(-800.0, -500.0)],
        round: 0,
        slot: 1,
        slot_direction: deg(90.0),
        half_angle: deg(30.0),
        slot_half_angle: deg(30.0),
        friction: 0.0,
        weight_part: 0.8,
        safety: 1.5,
    };
    let got = ride_off::least_preloads(&t, &transport_cases()).unwrap();
    let want = [
        (1569.064, 1569.064, 83.9847842),
        (980.665, 980.665, 371.206615),
        (2511.72793, 1569.064, 1064.64978),
        (2511.72793, 1569.064, 1881.0207),
    ];
    for (g, w) in got.iter().zip(want) {
        near(g.round.as_newtons(), w.0, 1e-5, g.case.name);
        near(g.slot.as_newtons(), w.1, 1e-5, g.case.name);
        near(g.preload.as_newtons(), w.2, 1e-4, g.case.name);
    }
    near(ride_off::governing(&got).unwrap().preload.as_newtons(), 1881.0207, 1e-4, "governing");
    // Standing, the load in the middle, the round cup may carry nothing: 1.5 S tan 30 is all for its own tie-down.
    near(got[0].preload_on_three.as_newtons(), 1.5 * 1569.064 / 3f64.sqrt(), 1e-4, "on three");
    // Statics of three supports leave nothing open (any textbook): what any three bear is what springs bear.
    let three = Transport { seats: t.seats[..3].to_vec(), slot_direction: deg(180.0), slot: 2, ..t.clone() };
    for case in ride_off::least_preloads(&three, &transport_cases()).unwrap() {
        near(case.preload_on_three.as_newtons(), case.preload.as_newtons(), 1e-9, case.case.name);
    }
    let along = Transport { slot_direction: deg(90.0), slot: 2, ..t };
    assert!(
        ride_off::least_preloads(&Transport { slot_direction: deg(180.0), ..along.clone() }, &transport_cases())
            .is_ok()
    );
    assert!(ride_off::least_preloads(&Transport { friction: 2.0, ..along }, &transport_cases()).is_err());
}

/// Rigid best fit: data of a public statistics question on laying one quadrilateral over another; the result was
/// checked there by golden-section search.
#[test]
fn best_fit_published_data() {
    let source = [(712.0, 360.0), (960.0, 644.0), (968.0, 84.0), (1200.0, 360.0)].map(|p| Plan::mm(p.0, p.1));
    let target = [(744.0, 364.0), (996.0, 644.0), (980.0, 68.0), (1220.0, 336.0)].map(|p| Plan::mm(p.0, p.1));
    let fit = rigid_fit(&source, &target).unwrap();
    near(fit.yaw.as_degrees(), -2.80480283, 1e-8, "theta");
    near(fit.shift.x.as_mm(), 8.43611747, 1e-7, "tx");
    near(fit.shift.y.as_mm(), 38.4098168, 1e-7, "ty");
    let squares: f64 = fit.misses.iter().map(|m| m.length().as_mm().powi(2)).sum();
    near((squares / 4.0).sqrt(), 7.45817197, 1e-7, "root of the mean square");
    assert!(rigid_fit(&source[..1], &target[..1]).is_err());
    assert!(rigid_fit(&source, &target[..3]).is_err());
}

/// 0.8 g forward, 0.5 g rearward, 0.5 g to each side, one at a time (49 CFR 393.102(a)).
fn transport_cases() -> [Case; 4] {
    let case = |name, along, across| Case { name, along: Acceleration::g(along), across: Acceleration::g(across) };
    [case("braking", 0.8, 0.0), case("rearward", -0.5, 0.0), case("left", 0.0, 0.5), case("right", 0.0, -0.5)]
}

fn crooked_set() -> Landing {
    let cones = [(0.0, 0.0), (1600.0, 0.0), (1600.0, 1000.0), (0.0, 1000.0)];
    let cups = [(0.0, 0.0), (1602.0, 1.0), (1599.0, 1003.0), (-2.0, 999.0)];
    let plans = |p: [(f64, f64); 4]| p.map(|p| Plan::mm(p.0, p.1));
    let off = mismatch(&plans(cones), &plans(cups)).unwrap();
    let seats = cones.iter().zip(off).map(|(c, e)| round(c.0, c.1, (e.x.as_mm(), e.y.as_mm()))).collect();
    landing(seats, 800.0, 500.0)
}

fn road() -> Road {
    Road { weight_part: 0.8, safety: 1.5, cases: transport_cases().to_vec() }
}

/// A hold that is refused counts as none, not as endless.
#[test]
fn a_pair_whose_hold_is_refused_holds_nothing() {
    let seats = [(900.0, 400.0), (900.0, -400.0), (-900.0, 400.0), (-900.0, -400.0)];
    let l = landing(seats.into_iter().map(|(x, y)| round(x, y, (0.0, 0.0))).collect(), 0.0, 0.0);
    let sound = arrangement::arrange(&l, &no_allowance(), &road()).unwrap();
    assert!(sound.pairs.iter().all(|j| j.ride_off.unwrap() > Acceleration::ZERO && j.score < 20.0));
    let refused = arrangement::arrange(&l, &no_allowance(), &Road { weight_part: 0.0, ..road() }).unwrap();
    assert!(refused.pairs.iter().all(|j| j.ride_off == Some(Acceleration::ZERO)));
}

fn no_allowance() -> Allowances {
    Allowances {
        expansion: Expansion::per_million_kelvin(0.0),
        temperature: TemperatureChange::kelvin(0.0),
        position: mm(0.0),
        seat_diameter: mm(40.0),
        relief: deg(10.0),
    }
}

/// Measured set of four: all pairs searched by a second program apart from this one; clearance by
/// least squares; height of four round cups.
#[test]
fn arrangement_worked_example() {
    let before = crooked_set();
    let all = arrangement::arrange(&before, &no_allowance(), &road()).unwrap();
    let tightest = all.pairs.iter().map(|j| j.pair).min_by(|a, b| a.clearance.as_mm().total_cmp(&b.clearance.as_mm()));
    assert_eq!((tightest.unwrap().round, tightest.unwrap().slot, all.pairs.len()), (3, 1, 12));
    let a = arrangement::of_pair(&before, &no_allowance(), 3, 1).unwrap();
    near(a.best.float.abs().as_mm(), 2.33584944, 1e-6, "float");
    near(a.best.clearance.as_mm(), 1.26350066, 1e-6, "clearance");
    let worst = all.pairs.iter().map(|j| j.pair.clearance.as_mm()).fold(0.0, f64::max);
    near(worst, 4.28903847, 1e-6, "worst pair");
    assert!(matches!(a.holes[1], Hole::Slot { length, .. } if (length.as_mm() - 44.67169888).abs() < 1e-6));
    let was = rest(&before).unwrap();
    near(
        was.pose.rise_at(Plan::mm(800.0, 500.0)).as_mm(),
        2.02290495,
        5e-5,
        "rise of the middle (finite turn there, small turn here)",
    );
    let now = rest(&a.landing).unwrap();
    near(now.pose.rise_at(Plan::mm(800.0, 500.0)).as_mm(), 0.0, 1e-6, "rise as arranged");
    assert!(now.unique() && now.seats.iter().all(|s| s.lift.as_mm() < 1e-6));
    let (cones, cups): (Vec<Plan>, Vec<Plan>) = before.seats().iter().map(|s| (s.at, s.at + s.mismatch)).unzip();
    // 1.80634448 is the fit with a small (linearised) turn; SciPy least_squares with the finite turn
    // gives 1.80504765
    let misses = rigid_fit(&cups, &cones).unwrap().misses;
    let fitted = misses.iter().map(|m| m.length().as_mm()).fold(0.0, f64::max);
    near(fitted, 1.80634448, 2e-3, "least squares, small turn");
    near(fitted, 1.80504765, 1e-7, "least squares, SciPy");
}

/// Room of a clear hole of which every place is in doubt by 1 mm, the frame held at (0, 0) and by a line to (1000, 0) mm: along
/// the line its own error and that of the held seat, across it the line's between its ends as well. Halfway on the line
/// sqrt(2), as far again beyond it sqrt(1 + 1 + 4), square to its end the root of the greater eigenvalue 3 + sqrt(2) of
/// [[4, -1], [-1, 2]]. Source: derived, propagation of independent errors.
#[test]
fn room_carried_from_the_held_line() {
    let line = Plan::mm(1000.0, 0.0);
    for (x, y, want) in [(500.0, 0.0, 2.0), (2000.0, 0.0, 6.0), (1000.0, 1000.0, 3.0 + 2_f64.sqrt())] {
        let room = arrangement::carried_room(Plan::mm(x, y), line, mm(1.0));
        near(room.as_mm(), f64::sqrt(want), 1e-9, &format!("room at ({x}, {y})"));
    }
}

/// A load far off the middle, cups placed exactly: at (500, 250) mm the pair that was found by the smallest measured offset
/// held 0.117 g and wanted 3859 N where another holds 0.171 g and wants 1600 N on equal springs (worked apart from this
/// program). The choice must not be the worse one, and neither cup may stand where nothing is carried.
#[test]
fn the_arrangement_looks_at_the_load() {
    let seats: Vec<Seat> = CORNERS.iter().map(|c| round(c.0, c.1, (0.0, 0.0))).collect();
    let mut load = Load::of_weight(newtons(6276.0), Plan::mm(500.0, 250.0));
    load.height = mm(700.0);
    let l = Landing::new(seats, load).unwrap();
    let allow = Allowances { position: mm(1.5), ..no_allowance() };
    let a = arrangement::arrange(&l, &allow, &road()).unwrap();
    let chosen = a.pairs[0];
    assert_eq!(chosen.pair, a.best);
    let held = |j: &arrangement::Judged| j.ride_off.unwrap().as_g();
    let most = a.pairs.iter().map(held).fold(0.0, f64::max);
    assert!(held(&chosen) > 0.9 * most, "{} of {most}", held(&chosen));
    assert!(chosen.loads.iter().all(|f| f.as_newtons() > 100.0));
    assert!(a.pairs.windows(2).all(|w| w[0].score <= w[1].score));
}

// ---------------------------------------------------------------- ride-off

/// One-parameter cases: with its weight on the cones and a low centre of mass, a set of equal round cups climbs at
/// cot(alpha) g in every direction (each flank at its own limit; derived); a high centre of mass tips first at
/// half base over height.
#[test]
fn ride_off_closed_forms() {
    let seats: Vec<Seat> = CORNERS.iter().map(|c| round(c.0, c.1, (0.0, 0.0))).collect();
    let flat = landing(seats.clone(), 0.0, 0.0);
    for r in ride_off::ride_off(&flat, &Holding::default(), 72).unwrap() {
        near(r.limit.unwrap().as_g(), 3f64.sqrt(), 1e-6, "climbs");
    }
    let rubbing = Holding { friction: 0.15, weight_part: 1.0 };
    near(ride_off::ride_off(&flat, &rubbing, 1).unwrap()[0].limit.unwrap().as_g(), 2.54265089, 1e-6, "with friction");
    let sticky = Holding { friction: 2.0, weight_part: 1.0 };
    assert_eq!(ride_off::ride_off(&flat, &sticky, 1).unwrap()[0].limit, None);
    let mut load = Load::of_weight(newtons(1000.0), Plan::default());
    load.height = mm(1000.0);
    let high = Landing::new(seats, load).unwrap();
    let limits = ride_off::ride_off(&high, &Holding::default(), 4).unwrap();
    near(limits[0].limit.unwrap().as_g(), 0.9, 1e-6, "tips forward");
    near(limits[1].limit.unwrap().as_g(), 0.4, 1e-6, "tips sideways");
    near(ride_off::least(&limits).unwrap().limit.unwrap().as_g(), 0.4, 1e-6, "least");
    let pads = CORNERS.iter().map(|c| round(c.0, c.1, (0.0, 0.0)).with_kind(SeatKind::Pad)).collect();
    let sliding = ride_off::ride_off(&landing(pads, 0.0, 0.0), &Holding::default(), 3).unwrap();
    assert!(sliding.iter().all(|r| r.limit.unwrap().as_g() < 1e-9));
}

/// Just below the limit the pose is bounded, just above it slides or tips.
#[test]
fn ride_off_agrees_with_the_rest_pose() {
    let mut random = SplitMix::new(7);
    for _ in 0..20 {
        let mut seats = random_seats(&mut random, 4, 1.0);
        let towards = (16.0 * random.uniform()) as usize;
        let direction = deg(360.0 / 16.0 * towards as f64);
        seats[1] = seats[1].clone().with_kind(SeatKind::endless_slot(deg(180.0 * random.uniform())));
        let mut load = Load::of_weight(newtons(1000.0), Plan::mm(50.0, -30.0));
        load.height = mm(300.0);
        let base = Landing::new(seats, load.clone()).unwrap();
        let limit = ride_off::ride_off(&base, &Holding::default(), 16).unwrap()[towards].limit.unwrap().as_g();
        let pushed = |k: f64| {
            let f = newtons(1000.0 * limit * k);
            let load = Load { side: [f * direction.cos(), f * direction.sin()], ..load.clone() };
            rest(&Landing::new(base.seats().to_vec(), load).unwrap())
        };
        let held = pushed(0.99);
        assert!(held.is_ok(), "{held:?} at {limit} g");
        assert!(pushed(1.01).is_err(), "still held over {limit} g");
    }
}

/// A round cup at (-600, 0), a slot along x at (600, 0) and a pad at (0, 500) mm, 1000 N at (0, 150), 300 mm up, and 200 N of
/// tie-down at each: everything follows from levers.
fn cup_slot_and_pad(side: [f64; 2]) -> Landing {
    let slot = Seat { half_angle: deg(40.0), ..round(600.0, 0.0, (0.0, 0.0)) };
    let seats = vec![
        round(-600.0, 0.0, (0.0, 0.0)),
        slot.with_kind(SeatKind::endless_slot(deg(0.0))),
        round(0.0, 500.0, (0.0, 0.0)).with_kind(SeatKind::Pad),
    ];
    let mut load = Load::of_weight(newtons(1000.0), Plan::mm(0.0, 150.0));
    load.height = mm(300.0);
    load.side = side.map(newtons);
    load.pulls = seats.iter().map(|s| Pull { at: s.at, down: newtons(200.0) }).collect();
    Landing::new(seats, load).unwrap()
}

/// Shaken by a g on eight tenths of the weight. Weights: 280, 280 and 240 N by levers over 1200 and 500 mm, 200 N each
/// besides; pushed along x by a the slot takes a/8 (150/1200) and the cup a hypot(1, 1/8), the loads shift by 300/1200 a.
/// Forward the cup climbs first at cot(30), rearward the slot at cot(40); pushed along y each takes a half, the loads of both
/// lose 300/500 a /2, the slot climbs; the other way the pad lifts. Source: derived, equilibrium of three supports.
#[test]
fn a_shaken_frame_on_cup_slot_and_pad() {
    let limits =
        ride_off::ride_off(&cup_slot_and_pad([0.0; 2]), &Holding { friction: 0.0, weight_part: 0.8 }, 4).unwrap();
    let cot = |a: f64| 1.0 / a.to_radians().tan();
    let wanted = [
        cot(30.0) * 0.48 / (65_f64.sqrt() / 8.0 + cot(30.0) * 0.25),
        cot(40.0) * 0.48 / (0.5 + cot(40.0) * 0.3),
        cot(40.0) * 0.48 / (0.125 + cot(40.0) * 0.25),
        0.44 / 0.6,
    ];
    for (limit, want) in limits.iter().zip(wanted) {
        near(limit.limit.unwrap().as_g(), want, 1e-6, &format!("limit towards {}", limit.direction.as_degrees()));
    }
    // At rest under 0.3 g forward, all of the weight: the loads of the same levers, and who takes the push.
    let pushed = rest(&cup_slot_and_pad([300.0, 0.0])).unwrap();
    for (seat, [load, x, y]) in pushed.seats.iter().zip([[475.0, -300.0, -37.5], [625.0, 0.0, 37.5], [500.0, 0.0, 0.0]])
    {
        near(seat.load.as_newtons(), load, 1e-5, "load");
        near(seat.side[0].as_newtons(), x, 1e-5, "side along");
        near(seat.side[1].as_newtons(), y, 1e-5, "side across");
    }
}

// ---------------------------------------------------------------- friction

/// Two round cups along x: without friction neutral by half the spacing error; a slot and a pad stay put.
/// A single flank holds by friction only if alpha + phi >= 90 degrees.
#[test]
fn friction_holds_where_it_should() {
    let l = landing(vec![round(-800.0, 0.0, (-1.0, 0.0)), round(800.0, 0.0, (1.0, 0.0))], 0.0, 0.0);
    let r = rest(&l).unwrap();
    let held = friction::held_shifts(&l, &r, 0.3, mm(5.0), &even(2)).unwrap();
    near(r.pose.dx.as_mm() + held[0].shift.as_mm(), 1.0, 1e-4, "neutral length");
    let single = landing(vec![round(0.0, 0.0, (0.0, 0.0))], 0.0, 0.0);
    let r = rest(&single).unwrap();
    let free = friction::held_shifts(&single, &r, 0.3, mm(2.0), &even(4)).unwrap();
    assert!(free.iter().all(|h| h.shift.as_mm() < 1e-3 && !h.everywhere), "{free:?}");
    let steep = Seat::round("FL", Plan::default(), deg(50.0));
    let stuck = landing(vec![steep], 0.0, 0.0);
    let r = rest(&stuck).unwrap();
    assert!(friction::held_shifts(&stuck, &r, 2.0, mm(2.0), &even(4)).unwrap().iter().all(|h| h.everywhere));
    let zero = friction::held_shifts(&stuck, &r, 0.0, mm(2.0), &even(4)).unwrap();
    assert!(zero.iter().all(|h| h.shift.as_mm() < 1e-3));
    let turned = friction::held_turns(&l, &rest(&l).unwrap(), 0.3, mm(5.0)).unwrap();
    assert_eq!(turned.len(), 6);
    assert!(turned.iter().any(|t| t.turn.as_degrees() < 0.0) && turned.iter().any(|t| t.turn.as_degrees() > 0.0));
}

/// Three cups squeezed: frictionless side force P cot(alpha) each (P a third of the weight); with friction up to
/// P cot(alpha - phi) (derived: contact force within the friction angle of the flank's normal).
#[test]
fn locked_forces_of_three_squeezed_cups() {
    let seats = (0..3).map(|k| {
        let a = deg(120.0 * f64::from(k));
        round(500.0 * a.cos(), 500.0 * a.sin(), (-0.7 * a.cos(), -0.7 * a.sin()))
    });
    let l = landing(seats.collect(), 0.0, 0.0);
    let r = rest(&l).unwrap();
    let phi = contact::friction_angle(0.15).unwrap();
    for f in friction::locked_forces(&l, &r, 0.15).unwrap() {
        near(f.at_rest.as_newtons(), 1000.0 / 3.0 * 3f64.sqrt(), 1e-5, "at rest");
        near(f.greatest.unwrap().as_newtons(), 1000.0 / 3.0 / (deg(30.0) - phi).tan(), 1e-3, "with friction");
    }
}

// ---------------------------------------------------------------- brute force, second solver, oracle file

fn random_seats(random: &mut SplitMix, n: usize, size: f64) -> Vec<Seat> {
    (0..n)
        .map(|k| {
            let a = deg(360.0 * (k as f64 + 0.6 * (random.uniform() - 0.5)) / n as f64);
            let r = 600.0 + 500.0 * random.uniform();
            let [ex, ey] = random.normals();
            let [s, _] = random.normals();
            let angle = deg(25.0 + 20.0 * random.uniform());
            Seat::round(&format!("s{k}"), Plan::mm(r * a.cos(), r * a.sin()), angle)
                .with_mismatch(Plan::mm(size * ex, size * ey))
                .with_height(mm(0.3 * size * s))
        })
        .collect()
}

/// Least value of a convex function between two ends: a ninefold grid, again and again around its best point.
fn section(mut low: f64, mut high: f64, f: impl Fn(f64) -> f64) -> f64 {
    let width = high - low;
    let mut best = f64::INFINITY;
    while high - low > 1e-7 * width {
        let step = (high - low) / 8.0;
        let values: Vec<f64> = (0..9).map(|i| f(low + step * f64::from(i))).collect();
        let i = (0..9).min_by(|a, b| values[*a].total_cmp(&values[*b])).unwrap();
        best = best.min(values[i]);
        (low, high) = (low + step * (i as f64 - 1.0), low + step * (i as f64 + 1.0));
    }
    best
}

/// Lowest height of the centre of mass found by nested grids over dx, dy, yaw; with two or three cups the heights
/// follow from the plan position alone.
#[test]
fn brute_force_grid_two_and_three_cups() {
    let mut random = SplitMix::new(11);
    for case in 0..6 {
        let n = 2 + case % 2;
        let seats = random_seats(&mut random, n, 0.8);
        let share: Vec<f64> = if n == 2 { vec![0.4, 0.6] } else { vec![0.3, 0.3, 0.4] };
        let centre = seats.iter().zip(&share).fold(Plan::default(), |c, (s, k)| c + s.at * *k);
        let l = landing(seats.clone(), centre.x.as_mm(), centre.y.as_mm());
        let r = rest(&l).unwrap();
        let height = |p: [f64; 3]| {
            let rise = |s: &Seat| {
                let (x, y) = (s.at.x.as_mm(), s.at.y.as_mm());
                let dx = p[0] - p[2] * y + s.mismatch.x.as_mm();
                let dy = p[1] + p[2] * x + s.mismatch.y.as_mm();
                s.height.as_mm() + dx.hypot(dy) / s.half_angle.tan()
            };
            seats.iter().zip(&share).map(|(s, k)| k * rise(s)).sum::<f64>()
        };
        let over_y = |yaw: f64, x: f64| section(-12.0, 12.0, |y| height([x, y, yaw]));
        let over_x = |yaw: f64| section(-12.0, 12.0, |x| over_y(yaw, x));
        let best = section(-0.02, 0.02, over_x);
        let got = r.pose.rise_at(centre).as_mm();
        assert!(got <= best + 1e-8, "case {case}: grid found a lower pose: {best} < {got}");
        near(got, best, 1e-6, "grid");
        balances(&l, &r);
    }
}

// ---------------------------------------------------------------- survey

use setdown::formulas::survey::{self, Network, Reading, Side, SurveyError, Verdict, adjust};

fn network(n: usize, lines: &[(usize, usize, f64)]) -> Network {
    let name = |i: usize| format!("{}", i + 1);
    let readings = lines.iter().map(|(a, b, l)| Reading::level(&a.to_string(), &b.to_string(), mm(*l))).collect();
    Network { points: (0..n).map(name).collect(), rough: vec![], readings, third: Side::Left }
}

const FOUR: [(usize, usize, f64); 6] =
    [(1, 2, 1601.0), (2, 3, 999.0), (3, 4, 1599.0), (4, 1, 1002.0), (1, 3, 1888.0), (2, 4, 1886.0)];

/// Four cones from four sides and two diagonals; one redundancy: all |w| equal, a blunder can be noticed, never
/// located (worked apart from this program with SciPy).
#[test]
fn four_points_six_lengths() {
    let s = adjust(&network(4, &FOUR)).unwrap();
    near(s.points[1].at.x.as_mm(), 1600.97452, 1e-5, "x2");
    near(s.points[2].at.x.as_mm(), 1602.08919, 1e-5, "x3");
    near(s.points[2].at.y.as_mm(), 998.983409, 1e-6, "y3");
    near(s.points[3].at.x.as_mm(), 3.11751152, 1e-5, "x4");
    near(s.points[3].at.y.as_mm(), 1001.97923, 1e-5, "y4");
    near(s.s0.unwrap(), 0.0601492594, 1e-7, "s0");
    assert!(s.readings.iter().all(|r| (r.standardised.unwrap().abs() - 0.0601492594).abs() < 1e-6));
    assert_eq!((s.redundancy, &s.verdict), (1, &Verdict::Agree));
    assert!(s.advice.as_ref().unwrap().point_outside);
    let mut bad = FOUR;
    bad[4].2 = 1894.0;
    let s = adjust(&network(4, &bad)).unwrap();
    near(s.s0.unwrap(), 2.94381164, 1e-6, "s0 with a blunder of 6 mm");
    let largest = s.readings.iter().map(|r| r.residual.abs().as_mm()).fold(0.0, f64::max);
    near(largest, 1.47501429, 1e-6, "largest residual");
    assert!(matches!(&s.verdict, Verdict::Unlocated(all) if all.len() == 6));
}

/// Six points, all lengths, a blunder of 10 mm on line 2-5 (worked apart from this program; w-test of Baarda).
#[test]
fn six_points_fifteen_lengths_name_the_bad_one() {
    let l = [
        (1, 2, 1999.7),
        (1, 3, 2193.7),
        (1, 4, 1486.4),
        (1, 5, 899.7),
        (1, 6, 1018.9),
        (2, 3, 899.8),
        (2, 4, 1487.7),
        (2, 5, 2203.6),
        (2, 6, 1020.8),
        (3, 4, 1020.1),
        (3, 5, 2000.4),
        (3, 6, 1486.8),
        (4, 5, 1018.1),
        (4, 6, 1300.9),
        (5, 6, 1487.1),
    ];
    let s = adjust(&network(6, &l)).unwrap();
    let Verdict::Suspect { reading, blunder, s0_without, .. } = s.verdict else { panic!("{:?}", s.verdict) };
    assert_eq!((s.readings[reading].from.as_str(), s.readings[reading].to.as_str()), ("2", "5"));
    near(s.readings[reading].standardised.unwrap(), -7.41716433, 1e-6, "w");
    near(blunder.as_mm(), 10.3352814, 1e-5, "blunder");
    near(s.s0.unwrap(), 3.10165317, 1e-7, "s0");
    let mut w: Vec<f64> = s.readings.iter().map(|r| r.standardised.unwrap().abs()).collect();
    w.sort_by(f64::total_cmp);
    near(w[13], 3.71863192, 1e-6, "second");
    assert!(s0_without.unwrap() < 1.0);
}

#[test]
fn surveys_that_cannot_be_worked() {
    let fault = |n: usize, l: &[(usize, usize, f64)]| adjust(&network(n, l)).unwrap_err();
    assert_eq!(fault(4, &FOUR[..4]), SurveyError::TooFewLengths { have: 4, need: 5 });
    let mut l = FOUR;
    l[0].2 = 0.0;
    assert!(matches!(fault(4, &l), SurveyError::SamePlace(..)));
    l[0].2 = f64::NAN;
    assert!(matches!(fault(4, &l), SurveyError::BadReading(..)));
    l[0].2 = 4000.0;
    let SurveyError::CannotClose { by, .. } = fault(4, &l) else { panic!("must not close") };
    near(by.as_mm(), 4000.0 - 999.0 - 1888.0, 1e-9, "by");
    assert_eq!(fault(3, &FOUR), SurveyError::Unknown("4".to_owned()));
    assert!(matches!(fault(4, &[FOUR[0], FOUR[1], FOUR[4], FOUR[2], FOUR[3]]), SurveyError::EitherSide(_)));
    let loose = [FOUR[0], FOUR[1], FOUR[4], FOUR[2], (1, 5, 500.0), (2, 5, 1500.0), (3, 5, 1500.0)];
    assert_eq!(fault(5, &loose), SurveyError::Loose("4".to_owned()));
    let mut steep = network(4, &FOUR);
    steep.readings[0].dz = mm(1700.0);
    assert!(matches!(adjust(&steep).unwrap_err(), SurveyError::TooSteep(..)));
    near(survey::reduced_to_level(mm(1300.0), mm(500.0)).unwrap().as_mm(), 1200.0, 1e-9, "level");
    let mut three = network(3, &[FOUR[0], FOUR[1], FOUR[4]]);
    assert_eq!(adjust(&three).unwrap().verdict, Verdict::NoCheck);
    three.third = Side::Right;
    assert!(adjust(&three).unwrap().points[2].at.y.as_mm() < 0.0);
}

/// Repeated readings of one line: the mean is used, and two readings that contradict each other are both named.
#[test]
fn repeated_readings() {
    let mut n = network(3, &[FOUR[0], FOUR[1], FOUR[4], (1, 2, 1611.0)]);
    let s = adjust(&n).unwrap();
    near(s.points[1].at.x.as_mm(), 1606.0, 1e-9, "mean");
    assert_eq!(s.verdict, Verdict::Unlocated(vec![0, 3]));
    n.readings.push(Reading::level("1", "2", mm(1601.5)));
    assert!(matches!(adjust(&n).unwrap().verdict, Verdict::Suspect { reading: 3, .. }));
}

/// Blunders of 25 sigma planted in random networks of five to eight points, all lines measured: named in at least
/// 95 of 100.
#[test]
fn planted_blunders_are_found() {
    let mut random = SplitMix::new(3);
    let (mut found, total) = (0, 200);
    for case in 0..total {
        let n = 5 + case % 4;
        let at: Vec<(f64, f64)> = loop {
            let p: Vec<(f64, f64)> = (0..n).map(|_| (2000.0 * random.uniform(), 1500.0 * random.uniform())).collect();
            let apart = |i: usize| (0..i).all(|j| (p[i].0 - p[j].0).hypot(p[i].1 - p[j].1) > 250.0);
            let side = (p[1].0 - p[0].0) * (p[2].1 - p[0].1) - (p[1].1 - p[0].1) * (p[2].0 - p[0].0);
            if (0..n).all(apart) && side > 2e5 {
                break p;
            }
        };
        let mut lines: Vec<(usize, usize, f64)> = Vec::new();
        for i in 0..n {
            for j in i + 1..n {
                lines.push((i + 1, j + 1, (at[i].0 - at[j].0).hypot(at[i].1 - at[j].1) + random.normals()[0]));
            }
        }
        let planted = (random.uniform() * lines.len() as f64) as usize;
        lines[planted].2 += if random.uniform() < 0.5 { 25.0 } else { -25.0 };
        match adjust(&network(n, &lines)).map(|s| s.verdict) {
            Ok(Verdict::Suspect { reading, .. }) if reading == planted => found += 1,
            Ok(Verdict::Unlocated(all)) if all.contains(&planted) && all.len() < lines.len() => found += 1,
            _ => {}
        }
    }
    assert!(found * 100 >= total * 95, "found {found} of {total}");
    println!("planted blunders found: {found} of {total}");
}

/// One point from three control points by distances (feet). Data from memory: Ghilani and Wolf, Adjustment Computations,
/// chapter on trilateration, first example; the three distances meet within 0.1 ft, which confirms them. Result
/// recomputed with SciPy least_squares: U (6861.3168, 3727.8186), residuals -0.0374, 0.0768, -0.0474.
#[test]
fn textbook_point_from_three_control_points() {
    let (a, b, c, u) = ((865.40, 4527.15), (2432.55, 2047.25), (2865.22, 27.15), (6861.31678772, 3727.81856571));
    let apart = |p: (f64, f64), q: (f64, f64)| (p.0 - q.0).hypot(p.1 - q.1);
    let mut n = network(
        4,
        &[
            (1, 2, apart(a, b)),
            (1, 3, apart(a, c)),
            (2, 3, apart(b, c)),
            (1, 4, 6049.00),
            (2, 4, 4736.83),
            (3, 4, 5446.49),
        ],
    );
    n.third = Side::Right;
    for (i, r) in n.readings.iter_mut().enumerate() {
        r.sigma = mm(if i < 3 { 1e-4 } else { 0.1 });
    }
    let s = adjust(&n).unwrap();
    for (r, want) in s.readings[3..].iter().zip([-0.03737265, 0.07679284, -0.04736558]) {
        near(r.residual.as_mm(), want, 2e-5, "residual");
    }
    for (i, p) in [a, b, c].into_iter().enumerate() {
        near((s.points[3].at - s.points[i].at).length().as_mm(), apart(p, u), 2e-5, "distance to U");
    }
}

// ---------------------------------------------------------------- published networks

#[path = "published/networks.rs"]
mod published_networks;

use published_networks::{self as printed, Published};

/// Lengths between held points are given as readings a thousand times better than the others: that shifts nothing
/// by more than a millionth of a residual.
const HELD: f64 = 1e-3;

/// The network in our terms, metres to millimetres; lengths between held points come after the readings.
fn survey_of(p: &Published) -> Network {
    let (_, x, y) = p.points[0];
    let from_first = |i: usize| (p.points[i].1 - x, p.points[i].2 - y);
    let ((bx, by), (cx, cy)) = (from_first(1), from_first(2));
    let finest = p.readings.iter().map(|r| r.3).fold(f64::INFINITY, f64::min);
    let read =
        |a: &str, b: &str, l: f64, s: f64| Reading { sigma: mm(1000.0 * s), ..Reading::level(a, b, mm(1000.0 * l)) };
    let mut readings: Vec<Reading> = p.readings.iter().map(|(a, b, l, s)| read(a, b, *l, *s)).collect();
    for i in 0..p.fixed {
        for j in i + 1..p.fixed {
            let ((a, ax, ay), (b, bx, by)) = (p.points[i], p.points[j]);
            readings.push(read(a, b, (ax - bx).hypot(ay - by), HELD * finest));
        }
    }
    Network {
        points: p.points.iter().map(|(name, ..)| (*name).to_owned()).collect(),
        rough: vec![],
        readings,
        third: if bx * cy - by * cx > 0.0 { Side::Left } else { Side::Right },
    }
}

/// Turn and shift from our frame into the network's own: through the two first held points, or, where nothing is
/// held, the best fit onto the approximate places (which is the condition of a free adjustment: the sum of all
/// shifts is nought and so is the sum of their moments). Millimetres.
fn into_own_frame(p: &Published, s: &survey::Survey) -> (f64, impl Fn(Plan) -> (f64, f64)) {
    let n = if p.fixed > 0 { 2 } else { p.points.len() };
    let ours = |i: usize| (s.points[i].at.x.as_mm(), s.points[i].at.y.as_mm());
    let theirs = |i: usize| (1000.0 * p.points[i].1, 1000.0 * p.points[i].2);
    let mean = |f: &dyn Fn(usize) -> (f64, f64)| {
        let sum = (0..n).map(f).fold((0.0, 0.0), |m, q| (m.0 + q.0, m.1 + q.1));
        (sum.0 / n as f64, sum.1 / n as f64)
    };
    let (om, tm) = (mean(&ours), mean(&theirs));
    let (mut along, mut across) = (0.0, 0.0);
    for i in 0..n {
        let (o, t) = (ours(i), theirs(i));
        let (ox, oy, tx, ty) = (o.0 - om.0, o.1 - om.1, t.0 - tm.0, t.1 - tm.1);
        along += ox * tx + oy * ty;
        across += ox * ty - oy * tx;
    }
    let turn = f64::atan2(across, along);
    let moved = move |at: Plan| {
        let (x, y) = (at.x.as_mm() - om.0, at.y.as_mm() - om.1);
        (tm.0 + x * turn.cos() - y * turn.sin(), tm.1 + x * turn.sin() + y * turn.cos())
    };
    (turn, moved)
}

/// √(Σ (v/σ)²/redundancy) with the network's own redundancy: the lengths between held points do not count.
fn own_s0(p: &Published, s: &survey::Survey) -> f64 {
    let squares = s.s0.unwrap().powi(2) * s.redundancy as f64;
    (squares / p.redundancy as f64).sqrt()
}

/// Adjusted coordinates are printed to 0.1 mm, their standard deviations to 0.01 mm: half a step of tolerance, and a
/// hundredth of that for the lengths between held points.
#[test]
fn published_networks_coordinates() {
    let all = [
        printed::BENNING_8_2,
        printed::BENNING_8_8,
        printed::GHILANI_14_5,
        printed::STRANG_BORRE_HELD,
        printed::STRANG_BORRE_FREE,
        printed::WEISS,
        printed::HOEPKE_FREE,
    ];
    for p in &all {
        let s = adjust(&survey_of(p)).unwrap_or_else(|e| panic!("{}: {e}", p.source));
        let held = p.fixed * p.fixed.saturating_sub(1) / 2 - (2 * p.fixed).saturating_sub(3);
        assert_eq!(s.redundancy, p.redundancy + held, "{}", p.source);
        let shares: f64 = s.readings.iter().map(|r| r.redundancy).sum();
        near(shares, s.redundancy as f64, 1e-6, "shares of redundancy");
        let (turn, moved) = into_own_frame(p, &s);
        for (name, x, sx, y, sy) in p.adjusted {
            let point = s.points.iter().find(|q| q.name == *name).unwrap();
            let (gx, gy) = moved(point.at);
            let what = |of: &str| format!("{of} of {name} in {}", p.source);
            near(gx, 1000.0 * x, 0.0505, &what("x"));
            near(gy, 1000.0 * y, 0.0505, &what("y"));
            if p.fixed > 0 {
                // without held points the printed figures are against the mean of all points, ours against the first
                let (e, a) = (point.ellipse, point.ellipse.direction.as_radians() + turn);
                let axes = (e.major.as_mm() * own_s0(p, &s), e.minor.as_mm() * own_s0(p, &s));
                near((axes.0 * a.cos()).hypot(axes.1 * a.sin()), 10.0 * sx, 0.00505, &what("deviation of x"));
                near((axes.0 * a.sin()).hypot(axes.1 * a.cos()), 10.0 * sy, 0.00505, &what("deviation of y"));
            }
        }
    }
}

/// Residuals printed to 0.01 mm, the standard deviation of a reading to 0.001 mm.
#[test]
fn published_network_residuals() {
    let p = printed::BENNING_8_2;
    let s = adjust(&survey_of(&p)).unwrap();
    let (residuals, s0) = printed::BENNING_8_2_RESIDUALS;
    for (r, want) in s.readings.iter().zip(residuals) {
        near(r.residual.as_mm(), 10.0 * want, 0.00505, "residual");
    }
    near(10.0 * own_s0(&p, &s), s0, 0.00055, "s0");
    assert_eq!(s.verdict, Verdict::Agree);
}

/// A real misprint of five centimetres is named. Its size comes out within the standard deviation of that estimate,
/// s0 σ/√r with the s0 of the correct readings.
#[test]
fn published_network_names_the_misprint() {
    let good = adjust(&survey_of(&printed::HOEPKE_FREE)).unwrap();
    let mut n = survey_of(&printed::HOEPKE_FREE);
    let (from, to, listed, used) = printed::MISPRINT;
    let at = n.readings.iter().position(|r| r.from == from && r.to == to).unwrap();
    n.readings[at].length = mm(1000.0 * listed);
    // the weights of the print are relative: a reading is as uncertain as the correct readings show
    let scale = good.s0.unwrap();
    n.readings.iter_mut().for_each(|r| r.sigma = r.sigma * scale);
    let s = adjust(&n).unwrap();
    let Verdict::Suspect { reading, blunder, s0_without, .. } = s.verdict else { panic!("{:?}", s.verdict) };
    assert_eq!(reading, at);
    let uncertain = good.s0.unwrap() / good.readings[at].redundancy.sqrt();
    near(blunder.as_mm(), 1000.0 * (listed - used), uncertain, "size of the misprint");
    n.readings.remove(at);
    // told from the first adjustment, which is linear in the blunder
    near(s0_without.unwrap(), adjust(&n).unwrap().s0.unwrap(), 0.01, "s0 without it");
}

// ---------------------------------------------------------------- bad and odd input

/// Landings of wild sizes: every answer is a pose that obeys its own constraints and balances, or a stated reason.
#[test]
fn odd_landings_give_an_answer_or_a_reason() {
    let mut random = SplitMix::new(99);
    let (mut landed, mut unsolved) = (0, 0);
    for case in 0..300 {
        let n = 1 + (random.uniform() * 9.0) as usize;
        let size = [0.0, 1e-6, 1e-3, 1.0, 30.0][case % 5];
        let mut seats = random_seats(&mut random, n, size);
        for s in &mut seats {
            s.half_angle = deg(1.0 + 88.0 * random.uniform());
            s.kind = match (random.uniform() * 4.0) as usize {
                0 => SeatKind::Slot {
                    direction: deg(360.0 * random.uniform()),
                    travel: mm([0.0, 0.2 * size, f64::INFINITY][case % 3]),
                },
                1 => SeatKind::Pad,
                2 => SeatKind::Clear { clearance: mm(0.1 + 5.0 * random.uniform()), on_pad: random.uniform() < 0.7 },
                _ => SeatKind::Round,
            };
            s.face = (random.uniform() < 0.2).then(|| s.height + mm(0.3 * size));
        }
        let mut load = Load::of_weight(newtons(1000.0), Plan::mm(100.0 * random.uniform(), 0.0));
        load.side = [newtons(if case % 3 == 0 { 200.0 * random.uniform() } else { 0.0 }), newtons(0.0)];
        let l = Landing::new(seats, load).unwrap();
        match rest(&l) {
            Ok(r) => {
                landed += 1;
                balances(&l, &r);
                assert!(r.seats.iter().zip(l.seats()).all(|(s, seat)| !seat.carries() || s.lift.as_mm() > -1e-5));
            }
            Err(NoRest::Unsolved) => unsolved += 1,
            Err(reason) => assert!(!reason.to_string().is_empty()),
        }
    }
    println!("odd landings: {landed} landed, {unsolved} unsolved of 300");
    assert!(landed > 60 && unsolved == 0, "{landed} landed, {unsolved} unsolved");
}

// ---------------------------------------------------------------- chance

fn study(seats: usize, position: f64, draws: usize) -> Study {
    let spread = SeatSpread { position: mm(position), height: mm(0.1), rise: (mm(-0.15), mm(0.15)) };
    Study {
        together: None,
        spread: vec![spread; seats],
        draws,
        seed: 42,
        seated_within: mm(0.5),
        target: Plan::mm(0.0, 0.0),
        target_height: mm(1000.0),
        bins: 20,
    }
}

fn on_threads(n: usize, l: &Landing, s: &Study) -> Chance {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(n).build().unwrap();
    pool.install(|| chance(l, s, &|_| {}).unwrap())
}

#[test]
fn chance_is_the_same_on_any_number_of_threads() {
    let seats: Vec<Seat> = CORNERS.iter().map(|c| round(c.0, c.1, (0.0, 0.0))).collect();
    let l = landing(seats, 0.0, 0.0);
    let one = on_threads(1, &l, &study(4, 1.0, 1200));
    assert_eq!(one, on_threads(2, &l, &study(4, 1.0, 1200)));
    assert_eq!((one.solved, one.unsolved, one.bins.iter().sum::<usize>()), (1200, 0, 1200));
    assert!(one.seating_share < 0.05, "four round cups with 1 mm errors never sit: {}", one.seating_share);
    assert!(chance(&l, &study(3, 1.0, 10), &|_| {}).is_err());
}

/// Round cup and slot without height errors: the round cup's own error is the target's error. Standard deviation of
/// dx equals the position error of the round cup (closed form); one seed, 2000 draws, five standard errors.
#[test]
fn chance_of_a_round_and_a_slot() {
    let seats = vec![
        round(0.0, 0.0, (0.0, 0.0)),
        round(1600.0, 0.0, (0.0, 0.0)).with_kind(SeatKind::endless_slot(deg(0.0))),
        round(800.0, 900.0, (0.0, 0.0)).with_kind(SeatKind::Clear { clearance: mm(30.0), on_pad: true }),
    ];
    let l = landing(seats, 800.0, 300.0);
    let mut s = study(3, 1.0, 2000);
    s.spread.iter_mut().for_each(|p| (p.height, p.rise) = (mm(0.0), (mm(0.0), mm(0.0))));
    s.target_height = mm(0.0);
    let c = chance(&l, &s, &|_| {}).unwrap();
    near(c.target_x.deviation.as_mm(), 1.0, 5.0 / 4000f64.sqrt(), "dx");
    near(c.target_y.deviation.as_mm(), 1.0, 5.0 / 4000f64.sqrt(), "dy");
    near(c.seating_share, 1.0, 0.0, "always flat");
    near(c.worst_gap.largest.as_mm(), 0.0, 1e-6, "no gap");
}

/// One cup alone rises by what is drawn of its limits: the sum of two even draws over half of 1.2 mm each has the standard
/// deviation 1.2/sqrt(24) = 0.245 mm and never leaves the limits. Source: variance of an even draw, width^2/12.
#[test]
fn limits_are_drawn_and_never_left() {
    let l = landing(vec![round(0.0, 0.0, (0.0, 0.0))], 0.0, 0.0);
    let mut s = study(1, 0.0, 4000);
    s.spread.iter_mut().for_each(|p| (p.height, p.rise) = (mm(0.0), (mm(-0.4), mm(0.8))));
    let c = chance(&l, &s, &|_| {}).unwrap();
    near(c.target_rise.deviation.as_mm(), 1.2 / 24f64.sqrt(), 0.012, "deviation");
    near(c.target_rise.mean.as_mm(), 0.2, 0.02, "mean");
    assert!(c.target_rise.largest.as_mm() <= 0.8 && c.target_rise.largest.as_mm() > 0.7);
}

// ---------------------------------------------------------------- a general cone solver as second opinion

use clarabel::algebra::CscMatrix;
use clarabel::solver::{DefaultSettingsBuilder, DefaultSolver, IPSolver, SolverStatus, SupportedConeT};

/// Angles are taken times a metre, so that all six unknowns are millimetres.
const METRE: f64 = 1000.0;

/// The same programme, set up anew about the origin: rows (six coefficients, one more for every slot that has ends, and a
/// constant) of a slack that must lie in its cone; cone sizes 1 (half-line) and 3 (second order). A slot's further unknown
/// is where between its ends the middle of the cone's circle is taken, so that the whole rim is handed over at once.
fn general_programme(l: &Landing) -> (Vec<Vec<f64>>, Vec<usize>, Vec<usize>) {
    let ended = |s: &Seat| matches!(s.kind, SeatKind::Slot { travel, .. } if travel.is_finite());
    let width = 6 + l.seats().iter().filter(|s| ended(s)).count();
    let (mut rows, mut cones, mut owner): (Vec<Vec<f64>>, Vec<usize>, Vec<usize>) = (vec![], vec![], vec![]);
    let mut next = 6;
    for (i, s) in l.seats().iter().enumerate() {
        let (x, y) = (s.at.x.as_mm(), s.at.y.as_mm());
        let k = 1.0 / (s.half_angle.as_degrees().to_radians()).tan();
        let row = |six: [f64; 6], constant: f64| {
            let mut row = six.to_vec();
            row.resize(width, 0.0);
            row.push(constant);
            row
        };
        let up = row([0.0, 0.0, 0.0, 1.0, y / METRE, -x / METRE], -s.height.as_mm());
        let dx = row([k, 0.0, -k * y / METRE, 0.0, 0.0, 0.0], k * s.mismatch.x.as_mm());
        let dy = row([0.0, k, k * x / METRE, 0.0, 0.0, 0.0], k * s.mismatch.y.as_mm());
        let mut push = |new: Vec<Vec<f64>>| {
            cones.push(new.len());
            owner.push(i);
            rows.extend(new);
        };
        match s.kind {
            SeatKind::Round => push(vec![up, dx, dy]),
            SeatKind::Slot { direction, travel } if travel.is_finite() => {
                let a = direction.as_degrees().to_radians();
                let (mut px, mut py) = (dx, dy);
                (px[next], py[next]) = (-k * a.cos(), -k * a.sin());
                push(vec![up, px, py]);
                for sign in [1.0, -1.0] {
                    let mut end = row([0.0; 6], travel.as_mm());
                    end[next] = sign;
                    push(vec![end]);
                }
                next += 1;
            }
            SeatKind::Slot { direction, .. } => {
                let a = direction.as_degrees().to_radians();
                for sign in [1.0, -1.0] {
                    push(vec![(0..=width).map(|j| up[j] + sign * (a.cos() * dy[j] - a.sin() * dx[j])).collect()]);
                }
            }
            SeatKind::Pad => push(vec![up]),
            SeatKind::Clear { clearance, on_pad } => {
                let mut lower = up.clone();
                lower[width] += k * clearance.as_mm();
                push(vec![lower, dx, dy]);
                if on_pad {
                    push(vec![up]);
                }
            }
        }
    }
    (rows, cones, owner)
}

/// Pose (dx, dy, yaw, z, roll, pitch; angles times a metre) and vertical load per seat over the weight.
fn general_solver(l: &Landing) -> Option<([f64; 6], Vec<f64>)> {
    let (rows, cones, owner) = general_programme(l);
    let width = rows[0].len() - 1;
    let (mut colptr, mut rowval, mut nzval) = (vec![0], vec![], vec![]);
    for j in 0..width {
        for (i, r) in rows.iter().enumerate().filter(|(_, r)| r[j] != 0.0) {
            rowval.push(i);
            nzval.push(-r[j]);
        }
        colptr.push(rowval.len());
    }
    let a = CscMatrix::new(rows.len(), width, colptr, rowval, nzval);
    let b: Vec<f64> = rows.iter().map(|r| r[width]).collect();
    let c = l.load().centre;
    let mut q = vec![0.0; width];
    (q[3], q[4], q[5]) = (1.0, c.y.as_mm() / METRE, -c.x.as_mm() / METRE);
    let kinds: Vec<SupportedConeT<f64>> = cones
        .iter()
        .map(|n| if *n == 1 { SupportedConeT::NonnegativeConeT(1) } else { SupportedConeT::SecondOrderConeT(3) })
        .collect();
    let mut solver = DefaultSolver::new(&CscMatrix::zeros((width, width)), &q, &a, &b, &kinds, tight()).unwrap();
    solver.solve();
    if !matches!(solver.solution.status, SolverStatus::Solved | SolverStatus::AlmostSolved) {
        return None;
    }
    let mut loads = vec![0.0; l.seats().len()];
    let mut first = 0;
    for (n, i) in cones.iter().zip(&owner) {
        if rows[first][3] != 0.0 {
            loads[*i] += solver.solution.z[first];
        }
        first += n;
    }
    Some((std::array::from_fn(|k| solver.solution.x[k]), loads))
}

/// Settings of the second solver: as exact as it goes.
fn tight() -> clarabel::solver::DefaultSettings<f64> {
    DefaultSettingsBuilder::default()
        .verbose(false)
        .tol_gap_abs(1e-13)
        .tol_gap_rel(1e-13)
        .tol_feas(1e-13)
        .static_regularization_constant(1e-12)
        .iterative_refinement_reltol(1e-15)
        .iterative_refinement_abstol(1e-15)
        .iterative_refinement_max_iter(30)
        .build()
        .unwrap()
}

/// What touches at one place: where (mm), the normal on the frame (x, y, up), tangential force over normal force.
struct Touch {
    at: (f64, f64),
    normal: [f64; 3],
    slope: f64,
}

/// The part of an offset that presses rim against cone, written anew: from the nearest place where the cone has room.
fn pressing(s: &Seat, (x, y): (f64, f64)) -> (f64, f64) {
    match s.kind {
        SeatKind::Round => (x, y),
        SeatKind::Pad => (0.0, 0.0),
        SeatKind::Slot { direction, travel } => {
            let (sin, cos) = direction.as_degrees().to_radians().sin_cos();
            let along = (x * cos + y * sin).clamp(-travel.as_mm(), travel.as_mm());
            (x - along * cos, y - along * sin)
        }
        SeatKind::Clear { clearance, .. } => {
            let over = 1.0 - clearance.as_mm() / x.hypot(y).max(clearance.as_mm());
            (x * over, y * over)
        }
    }
}

/// Which points carry a plane let down on them: the three about the centre of mass whose plane lies over all others,
/// and whatever touches it besides. Every three are tried.
fn carrying(points: &[[f64; 3]], centre: (f64, f64)) -> Vec<usize> {
    let n = points.len();
    for (i, j, k) in (0..n).flat_map(|i| (i + 1..n).flat_map(move |j| (j + 1..n).map(move |k| (i, j, k)))) {
        let [a, b, c] = [i, j, k].map(|m| points[m]);
        let area = (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
        let shares = |x: f64, y: f64| {
            let v = ((x - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (y - a[1])) / area;
            let w = ((b[0] - a[0]) * (y - a[1]) - (x - a[0]) * (b[1] - a[1])) / area;
            [1.0 - v - w, v, w]
        };
        let gap = |p: &[f64; 3]| shares(p[0], p[1]).iter().zip([a, b, c]).map(|(s, q)| s * q[2]).sum::<f64>() - p[2];
        let inside = shares(centre.0, centre.1).iter().all(|s| *s >= 0.0);
        if area.abs() > 1e-3 && inside && points.iter().all(|p| gap(p) > -1e-8) {
            return (0..n).filter(|m| gap(&points[*m]) < 1e-6).collect();
        }
    }
    Vec::new()
}

/// Contacts of a seat that touches at an offset: one flank where the rim presses; else all round in a round cup, both
/// sides of a slot and the half circle of its end where the cone has come there, the flat of a pad.
fn touches_of(s: &Seat, offset: (f64, f64), friction: f64) -> Vec<Touch> {
    let alpha = s.half_angle.as_degrees().to_radians();
    let at = (s.at.x.as_mm(), s.at.y.as_mm());
    let flank = |towards: f64| {
        let normal = [-alpha.cos() * towards.cos(), -alpha.cos() * towards.sin(), alpha.sin()];
        Touch { at, normal, slope: friction }
    };
    let upright = |slope: f64| Touch { at, normal: [0.0, 0.0, 1.0], slope };
    let press = pressing(s, offset);
    if press.0.hypot(press.1) > 1e-6 {
        return vec![flank(press.1.atan2(press.0))];
    }
    match s.kind {
        SeatKind::Round => vec![upright(1.0 / (alpha - friction.atan()).tan())],
        SeatKind::Pad | SeatKind::Clear { .. } => vec![upright(friction)],
        SeatKind::Slot { direction, travel } => {
            let d = direction.as_degrees().to_radians();
            let along = offset.0 * d.cos() + offset.1 * d.sin();
            let quarter = std::f64::consts::FRAC_PI_2;
            let mut all = vec![flank(d + quarter), flank(d - quarter)];
            for end in [1.0, -1.0].into_iter().filter(|end| end * along > travel.as_mm() - 1e-6) {
                let middle = if end > 0.0 { d } else { d + 2.0 * quarter };
                all.extend((-8..=8).map(|m| flank(middle + quarter * f64::from(m) / 9.0)));
            }
            all
        }
    }
}

/// Everything that touches when the frame settles straight down at a place (dx, dy in mm, yaw in radians).
fn touches(l: &Landing, (dx, dy, yaw): (f64, f64, f64), friction: f64) -> Vec<Touch> {
    let at = |s: &Seat| (s.at.x.as_mm(), s.at.y.as_mm());
    let offset = |s: &Seat| {
        let (x, y) = at(s);
        (dx - yaw * y + s.mismatch.x.as_mm(), dy + yaw * x + s.mismatch.y.as_mm())
    };
    let point = |s: &Seat| {
        let press = pressing(s, offset(s));
        let climb = press.0.hypot(press.1) / s.half_angle.as_degrees().to_radians().tan();
        [at(s).0, at(s).1, s.height.as_mm() + climb]
    };
    let points: Vec<[f64; 3]> = l.seats().iter().map(point).collect();
    let centre = l.load().centre;
    let carry = carrying(&points, (centre.x.as_mm(), centre.y.as_mm()));
    carry.into_iter().map(|i| &l.seats()[i]).flat_map(|s| touches_of(s, offset(s), friction)).collect()
}

/// Is there a force at every contact, within friction of its normal, so that all of them balance the weight? Equilibrium
/// of forces and moments with one second-order cone per contact, handed whole to a second solver; `None`: undecided.
fn balanced(l: &Landing, place: (f64, f64, f64), friction: f64) -> Option<bool> {
    let touches = touches(l, place, friction);
    let wrench = |f: [f64; 3], at: (f64, f64)| {
        let (x, y) = (at.0 / METRE, at.1 / METRE);
        [f[0], f[1], f[2], y * f[2], -x * f[2], x * f[1] - y * f[0]]
    };
    let width = 3 * touches.len();
    let (mut colptr, mut rowval, mut nzval) = (vec![0], vec![], vec![]);
    for (k, t) in touches.iter().enumerate() {
        let [x, y, z] = t.normal;
        let flat = x.hypot(y);
        let (ux, uy) = if flat > 0.0 { (x / flat, y / flat) } else { (1.0, 0.0) };
        // Along the normal, up the steepest line, level: unit vectors at right angles.
        for (m, f) in [t.normal, [-z * ux, -z * uy, flat], [-uy, ux, 0.0]].into_iter().enumerate() {
            for (i, v) in wrench(f, t.at).into_iter().enumerate().filter(|(_, v)| *v != 0.0) {
                rowval.push(i);
                nzval.push(v);
            }
            rowval.push(6 + 3 * k + m);
            nzval.push(if m == 0 { -t.slope } else { -1.0 });
            colptr.push(rowval.len());
        }
    }
    let a = CscMatrix::new(6 + width, width, colptr, rowval, nzval);
    let centre = l.load().centre;
    let mut b = wrench([0.0, 0.0, 1.0], (centre.x.as_mm(), centre.y.as_mm())).to_vec();
    b.resize(6 + width, 0.0);
    let mut cones = vec![SupportedConeT::ZeroConeT(6)];
    cones.extend(touches.iter().map(|_| SupportedConeT::SecondOrderConeT(3)));
    let settings = DefaultSettingsBuilder::default().verbose(false).build().unwrap();
    let none = CscMatrix::zeros((width, width));
    let mut solver = DefaultSolver::new(&none, &vec![0.0; width], &a, &b, &cones, settings).unwrap();
    solver.solve();
    match solver.solution.status {
        SolverStatus::Solved | SolverStatus::AlmostSolved => Some(true),
        SolverStatus::PrimalInfeasible | SolverStatus::AlmostPrimalInfeasible => Some(false),
        _ => None,
    }
}

/// Place of the frame turned off its rest until its farthest seat is off by `shift` (mm).
fn turned_place(l: &Landing, r: &Rest, t: &friction::Turned, sign: f64, shift: f64) -> (f64, f64, f64) {
    let about = t.centre;
    let (x, y) = (about.x.as_mm(), about.y.as_mm());
    let far = l.seats()[t.farthest].at - about;
    let turn = sign * shift / far.x.as_mm().hypot(far.y.as_mm());
    (r.pose.dx.as_mm() + y * turn, r.pose.dy.as_mm() - x * turn, r.pose.yaw.as_radians() + turn)
}

/// Eighty landings of a round cup, a slot and a pad, the load often far off: whether friction holds the frame turned about
/// its round cup, by the dual in six freedoms and by forces with a second solver.
#[test]
fn turned_starts_against_a_second_solver() {
    let mut random = SplitMix::new(404);
    let (mut held, mut free) = (0, 0);
    for case in 0..80 {
        let seats = random_seats(&mut random, 3, 0.0);
        let seats: Vec<Seat> = seats.into_iter().map(|s| Seat { half_angle: deg(30.0), ..s }).collect();
        let direction = (seats[1].at - seats[0].at).direction();
        let kinds = [SeatKind::Round, SeatKind::endless_slot(direction), SeatKind::Pad];
        let share = [0.05 + 0.3 * random.uniform(), 0.02 + 0.2 * random.uniform(), 0.2 + 2.0 * random.uniform()];
        let total: f64 = share.iter().sum();
        let c = seats.iter().zip(share).fold(Plan::default(), |c, (s, k)| c + s.at * (k / total));
        let seats = seats.into_iter().zip(kinds).map(|(s, k)| s.with_kind(k)).collect();
        let l = landing(seats, c.x.as_mm(), c.y.as_mm());
        let friction = [0.12, 0.3, 0.45][case % 3];
        let turned = friction::held_turns(&l, &rest(&l).unwrap(), friction, mm(3.0)).unwrap();
        for t in turned.iter().take(2) {
            assert_eq!(t.about, Some(0));
            let sign = if std::ptr::eq(t, &turned[0]) { 1.0 } else { -1.0 };
            let place = turned_place(&l, &rest(&l).unwrap(), t, sign, 3.0);
            let second = balanced(&l, place, friction).unwrap();
            assert_eq!(t.everywhere, second, "case {case}, friction {friction}, {t:?}");
            if second { held += 1 } else { free += 1 }
        }
    }
    assert!(held > 10 && free > 10, "{held} held, {free} come home");
}

/// A random landing of three to eight seats of all kinds that stands on its supports.
fn random_landing(random: &mut SplitMix, case: usize) -> Landing {
    let n = 3 + case % 6;
    let mut seats = random_seats(random, n, [0.2, 1.0, 3.0][case % 3]);
    if case % 2 == 1 {
        let direction = (seats[1].at - seats[0].at).direction();
        let travel = mm([f64::INFINITY, 0.0, 0.5, 3.0][case / 2 % 4]);
        seats[1] = seats[1].clone().with_kind(SeatKind::Slot { direction, travel });
        for (i, s) in seats.iter_mut().enumerate().skip(2) {
            // Wide, and so tight that its rim climbs.
            let clearance = mm([25.0, 0.3][case / 3 % 2]);
            let clear = SeatKind::Clear { clearance, on_pad: true };
            *s = s.clone().with_kind([clear, SeatKind::Pad, SeatKind::Round][(i + case / 2) % 3]);
        }
    }
    let share: Vec<f64> = (0..n).map(|_| 0.2 + random.uniform()).collect();
    let total: f64 = share.iter().sum();
    let c = seats.iter().zip(&share).fold(Plan::default(), |c, (s, k)| c + s.at * (*k / total));
    landing(seats, c.x.as_mm(), c.y.as_mm())
}

fn numbers(p: &setdown::formulas::frame::Pose) -> [f64; 6] {
    let metre = |a: Angle| a.as_radians() * METRE;
    [p.dx.as_mm(), p.dy.as_mm(), metre(p.yaw), p.z.as_mm(), metre(p.roll), metre(p.pitch)]
}

/// Holds a rest pose against the second solver: always the height of the centre of mass, where there is one pose only also
/// that and the loads. How far those are off (mm, angles at one metre; part of the weight), `None` where there are several.
fn agrees(l: &Landing, r: &Rest, case: usize) -> Option<(f64, f64)> {
    balances(l, r);
    let (pose, loads) = general_solver(l).unwrap_or_else(|| panic!("case {case}: no second opinion"));
    let centre = l.load().centre;
    let height = |p: &[f64; 6]| p[3] + (p[4] * centre.y.as_mm() - p[5] * centre.x.as_mm()) / METRE;
    near(height(&numbers(&r.pose)), height(&pose), 1e-6, "lowest height of the centre of mass");
    if !r.unique() {
        return None;
    }
    let off = numbers(&r.pose).iter().zip(&pose).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
    let apart = r.seats.iter().zip(&loads).map(|(s, want)| (s.load.as_newtons() / 1000.0 - want).abs());
    let load = apart.fold(0.0, f64::max);
    assert!(off < 1e-4 && load < 1e-3, "case {case}: pose off by {off}, load by {load}: {l:?}");
    Some((off, load))
}

/// Two hundred random landings: pose within 1e-4 mm (angles: at one metre), loads within a thousandth of the weight.
/// The cases and answers are written for the Python checks (tests/oracle/landing_oracle.py).
#[test]
fn two_hundred_random_landings_against_a_general_solver() {
    let mut random = SplitMix::new(2024);
    let mut out = Vec::new();
    let (mut worst_pose, mut worst_load, mut unique, mut ends, mut climbing) = (0.0_f64, 0.0_f64, 0, 0, 0);
    for case in 0..200 {
        let l = random_landing(&mut random, case);
        let r = rest(&l).unwrap_or_else(|e| panic!("case {case}: {e}"));
        ends += r.seats.iter().filter(|s| s.carrier == Carrier::End).count();
        let clear =
            |(s, at): &(&Seat, &SeatRest)| matches!(s.kind, SeatKind::Clear { .. }) && at.carrier == Carrier::Flank;
        climbing += l.seats().iter().zip(&r.seats).filter(clear).count();
        if let Some((off, load)) = agrees(&l, &r, case) {
            unique += 1;
            (worst_pose, worst_load) = (worst_pose.max(off), worst_load.max(load));
        }
        out.push(case_json(&l, &r));
    }
    assert!(ends > 10 && climbing > 10, "too few that meet an end ({ends}) or climb out of a clear hole ({climbing})");
    println!("{unique} unique of 200; pose within {worst_pose:.1e} mm, loads within {worst_load:.1e}");
    assert!(unique > 150, "too few cases with one pose only: {unique}");
    let file = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("landing_cases.json");
    let json = serde_json::json!({ "landings": out, "surveys": survey_cases() });
    std::fs::write(file, serde_json::to_string(&json).unwrap()).unwrap();
}

/// Linear growth per kelvin of a frame of carbon steel and of what carries the cones, of aluminium alloy.
/// Source: EN 1993-1-1, 3.2.6 and EN 1999-1-1, 3.2.5, both from memory.
const GROWTH: [f64; 2] = [12e-6, 23e-6];

/// The landing when frame and trailer are warmer by so many kelvin, growth counted from a place that stays put.
fn warmer(l: &Landing, kelvin: f64, from: Plan) -> Landing {
    let grown = |s: &Seat| {
        let growth = (s.at - from) * ((GROWTH[0] - GROWTH[1]) * kelvin);
        s.clone().with_mismatch(s.mismatch + growth)
    };
    Landing::new(l.seats().iter().map(grown).collect(), l.load().clone()).unwrap()
}

/// Two hundred landings that have it all: a slot with ends, holes whose rims climb, up to 100 K either way between a
/// frame of steel and a trailer of aluminium, and starts turned about every seat, the centre of mass, points outside and points
/// between two seats, where four or five are all but in one plane. The rest pose is
/// held against the cone programme handed whole to a second solver; whether friction holds a turned start, against
/// contact forces that balance the load. From where growth is counted moves the frame as a whole, never its height.
#[test]
fn two_hundred_hot_and_turned_landings_against_a_second_solver() {
    let mut random = SplitMix::new(1201);
    let mut differ = Vec::new();
    let (mut unique, mut ends, mut climbing, mut held, mut free) = (0, 0, 0, 0, 0);
    for case in 0..200 {
        let cold = random_landing(&mut random, 2 * case + 1);
        let kelvin = 200.0 * (random.uniform() - 0.5);
        let l = warmer(&cold, kelvin, Plan::default());
        let r = rest(&l).unwrap_or_else(|e| panic!("case {case}: {e}"));
        unique += usize::from(agrees(&l, &r, case).is_some());
        let other = rest(&warmer(&cold, kelvin, l.seats()[0].at)).unwrap();
        let rise = |r: &Rest| r.pose.rise_at(l.load().centre).as_mm();
        near(rise(&other), rise(&r), 1e-6, "height, growth counted from another place");
        ends += r.seats.iter().filter(|s| s.carrier == Carrier::End).count();
        let clear = |s: &Seat| matches!(s.kind, SeatKind::Clear { .. });
        let climbs = |(s, at): &(&Seat, &SeatRest)| clear(s) && at.carrier == Carrier::Flank;
        climbing += l.seats().iter().zip(&r.seats).filter(climbs).count();
        let friction = [0.12, 0.3, 0.45][case % 3];
        let mut turned = friction::held_turns(&l, &r, friction, mm(3.0)).unwrap();
        let points = friction::points_round(&l, 3, &[1.6]);
        turned.extend(friction::held_about(&l, &r, friction, mm(3.0), &points).unwrap());
        let points: Vec<Plan> = friction::points_between(&l).into_iter().skip(case % 5).step_by(5).collect();
        turned.extend(friction::held_about(&l, &r, friction, mm(3.0), &points).unwrap());
        for (k, t) in turned.iter().enumerate() {
            let sign = if k % 2 == 0 { 1.0 } else { -1.0 };
            let step = 3.0 / 32.0;
            let last = t.shift.as_mm();
            let first = (last / step + 1e-9).floor() + 1.0;
            let beyond = [first, first + 1.0, 32.0].map(|m| m * step).into_iter().filter(|s| *s <= 3.0 + 1e-9);
            let second = |shift: f64| balanced(&l, turned_place(&l, &r, t, sign, shift), friction);
            // On the very edge two solvers may differ: a micrometre within it counts as well, one beyond it does not. Less than
            // that is the rest.
            if last > 1e-3 {
                held += 1;
                if second(last) != Some(true) && second(last - 1e-3) != Some(true) {
                    differ.push(format!("case {case}, friction {friction}, not held: {t:?}"));
                }
            }
            for shift in beyond.filter(|s| last < 3.0 && s - last > 1e-3) {
                free += 1;
                if second(shift) != Some(false) {
                    differ.push(format!("case {case}, friction {friction}, held at {shift}: {t:?}"));
                }
            }
        }
    }
    println!("{unique} of 200 unique; {ends} at an end, {climbing} climb; {held} held, {free} slide home");
    assert!(differ.is_empty(), "{} verdicts differ:\n{}", differ.len(), differ.join("\n"));
    assert!(unique > 120 && ends > 20 && climbing > 20, "{unique}, {ends}, {climbing}");
    assert!(held > 200 && free > 200, "{held} held, {free} slide home");
}

fn case_json(l: &Landing, r: &Rest) -> serde_json::Value {
    let seat = |s: &Seat| {
        let (kind, direction, clearance) = match s.kind {
            SeatKind::Round => ("round", 0.0, 0.0),
            // A slot without ends is one with ends far away.
            SeatKind::Slot { direction, travel } => ("slot", direction.as_degrees(), travel.as_mm().min(1000.0)),
            SeatKind::Pad => ("pad", 0.0, 0.0),
            SeatKind::Clear { clearance, .. } => ("clear", 0.0, clearance.as_mm()),
        };
        serde_json::json!({ "x": s.at.x.as_mm(), "y": s.at.y.as_mm(), "ex": s.mismatch.x.as_mm(),
            "ey": s.mismatch.y.as_mm(), "s": s.height.as_mm(), "alpha_deg": s.half_angle.as_degrees(),
            "kind": kind, "direction_deg": direction, "clearance": clearance })
    };
    let c = l.load().centre;
    serde_json::json!({ "centre": [c.x.as_mm(), c.y.as_mm()], "seats": l.seats().iter().map(seat).collect::<Vec<_>>(),
        "unique": r.unique(), "pose": numbers(&r.pose),
        "loads": r.seats.iter().map(|s| s.load.as_newtons() / 1000.0).collect::<Vec<_>>() })
}

/// Networks of four to eight points with noisy lengths and our adjustment of them.
fn survey_cases() -> Vec<serde_json::Value> {
    let mut random = SplitMix::new(77);
    let mut out = Vec::new();
    for case in 0..20 {
        let n = 4 + case % 5;
        let at: Vec<(f64, f64)> = (0..n)
            .map(|k| {
                let a = 360.0 * (k as f64 + 0.5 * random.uniform()) / n as f64;
                (1000.0 * deg(a).cos(), 700.0 * deg(a).sin())
            })
            .collect();
        let mut lines = Vec::new();
        for i in 0..n {
            for j in i + 1..n {
                lines.push((i + 1, j + 1, (at[i].0 - at[j].0).hypot(at[i].1 - at[j].1) + random.normals()[0]));
            }
        }
        let s = adjust(&network(n, &lines)).unwrap();
        let points: Vec<[f64; 2]> = s.points.iter().map(|p| [p.at.x.as_mm(), p.at.y.as_mm()]).collect();
        let w: Vec<f64> = s.readings.iter().map(|r| r.standardised.unwrap()).collect();
        let major: Vec<f64> = s.points.iter().map(|p| p.ellipse.major.as_mm()).collect();
        out.push(serde_json::json!({ "lines": lines, "points": points, "w": w, "s0": s.s0, "major": major }));
    }
    out
}

// --- more supports than statics can tell apart ----------------------------------------------------------------------

/// A round cup, a slot and two pads at (+-800, +-400) mm, in a tilted plane but for the last, 6276 N at (40, -10) mm.
fn nearly_level(last_off: f64) -> Rest {
    let across = SeatKind::endless_slot(deg(90.0));
    let kinds = [SeatKind::Round, across, SeatKind::Pad, SeatKind::Pad];
    let corners = [(800.0, 400.0), (800.0, -400.0), (-800.0, 400.0), (-800.0, -400.0)];
    let off = [0.0, 0.0, 0.0, last_off];
    let seats = corners.into_iter().zip(kinds).zip(off).map(|(((x, y), kind), off)| {
        round(x, y, (0.0, 0.0)).with_kind(kind).with_height(Length::mm(0.01 + 1e-4 * x - 2e-4 * y + off))
    });
    let load = Load::of_weight(Force::newtons(6276.0), Plan::mm(40.0, -10.0));
    rest(&Landing::new(seats.collect(), load).unwrap().levelled()).unwrap()
}

/// Equal springs under a rigid rectangle: P = W/4 (1 + x ex/a^2 + y ey/b^2), the rule of a group of piles or bolts.
/// Source: from memory, any textbook of statics. Every corner carries, whatever rounding says.
#[test]
fn level_supports_share_the_load_as_springs() {
    let found = nearly_level(1e-7);
    assert!(found.shared && found.unique());
    for (seat, (x, y)) in found.seats.iter().zip([(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)]) {
        let share = 0.25 * (1.0 + x * 40.0 / 800.0 - y * 10.0 / 400.0);
        near(seat.load.as_newtons(), 6276.0 * share, 1e-5, "load");
        assert!(seat.touching && seat.gap < Length::um(0.001));
    }
    let carriers: Vec<Carrier> = found.seats.iter().map(|s| s.carrier).collect();
    assert_eq!(carriers, [Carrier::Cone, Carrier::Cone, Carrier::Pad, Carrier::Pad]);
}

/// A corner a twentieth of a millimetre low is no rounding: three carry, and moments about the two sides that meet at the
/// first corner give their loads.
#[test]
fn a_low_corner_leaves_three() {
    let found = nearly_level(-0.05);
    assert!(!found.shared);
    assert_eq!(found.seats[3].carrier, Carrier::Nothing);
    near(found.seats[3].gap.as_mm(), 0.05, 1e-8, "gap");
    let [a, b, c] = [0, 1, 2].map(|i| found.seats[i].load.as_newtons());
    near(b, 6276.0 * 410.0 / 800.0, 1e-5, "load across");
    near(c, 6276.0 * 760.0 / 1600.0, 1e-5, "load along");
    near(a + b + c, 6276.0, 1e-5, "weight");
}

/// Directions evenly all round.
fn even(count: u32) -> Vec<Angle> {
    (0..count).map(|i| deg(360.0 / f64::from(count) * f64::from(i))).collect()
}

/// One round cup and two pads under a third of the weight each. Pushed off along the line of symmetry, the flank pulls
/// home with W/3 cot(alpha + phi), the pads hold back with at most 2 W/3 tan(phi): it stays where it is left when
/// tan(phi) tan(alpha + phi) >= 1/2, at 30 degrees from friction 0.396144 on. Source: derived, equilibrium of three forces.
#[test]
fn pads_hold_a_frame_off_its_cone() {
    let pad = |x, y| round(x, y, (0.0, 0.0)).with_kind(SeatKind::Pad);
    let l = landing(vec![round(-600.0, 0.0, (0.0, 0.0)), pad(300.0, 500.0), pad(300.0, -500.0)], 0.0, 0.0);
    let r = rest(&l).unwrap();
    let held = |mu| friction::held_shifts(&l, &r, mu, Length::mm(4.0), &even(1)).unwrap()[0];
    assert_eq!(held(0.3955).shift, Length::ZERO);
    assert!(held(0.3967).everywhere);
    // Along a slot nothing but friction holds: it is among the directions looked at.
    let slot = l.seats()[0].clone().with_kind(SeatKind::endless_slot(deg(24.0)));
    let slotted = Landing::new(vec![slot], l.load().clone()).unwrap();
    let looked: Vec<f64> = friction::telling_directions(&slotted, 4).iter().map(|a| a.as_degrees()).collect();
    assert_eq!(looked, [0.0, 90.0, 180.0, 270.0, 24.0, 204.0]);
}
