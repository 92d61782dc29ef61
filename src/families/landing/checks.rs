//! What is checked on a landing.

use crate::families::common;
use crate::families::cup::read::Hole as CupHole;
use crate::formulas::frame::arrangement::{Arrangement, Hole, Judged};
use crate::formulas::frame::chance::Chance;
use crate::formulas::frame::loads::set_down_factor;
use crate::formulas::frame::rest::{NoRest, Rest};
use crate::formulas::frame::ride_off;
use crate::formulas::frame::{InputError, Landing, SeatKind};
use crate::formulas::survey::Verdict as SurveyVerdict;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::key::Given;
use crate::record::show::{self, Say};
use crate::source::Source;
use crate::units::{Acceleration, Angle, Force, Length};

use super::heat::RISES;
use super::heights::{Heights, on_pad};
use super::places::{Adjusted, Places};
use super::read::{Demands, SeatSpec, Spec};
use super::results::{CAPTURE_MARGIN, Results};
use super::seated::{MARKEDLY, SEATED_WITHIN, as_good, highest, standing};
use super::sizes;
use super::unseen::{self, Unseen};
use super::{heat, pads, rooms};

const NETWORK: Source = Source::Memory("w-test after Baarda: 3.29 and 4.13 sigma");
const SURVEY_CONES: Check = Check {
    key: "survey_cones",
    what: "tape survey of the cones, scatter over what was stated",
    worst: Verdict::Fail,
    source: NETWORK,
};
const SURVEY_CUPS: Check = Check {
    key: "survey_cups",
    what: "tape survey of the cups, scatter over what was stated",
    worst: Verdict::Fail,
    source: NETWORK,
};
const STANDS: Check = Check {
    key: "stands",
    what: "centre of mass inside the supports",
    worst: Verdict::Fail,
    source: Source::Derived("statics: the load's foot must lie inside the polygon of the supports, on a slope too"),
};
const SEATS: Check = Check {
    key: "seats_fully",
    what: "greatest lift at rest over full seating",
    worst: Verdict::Fail,
    source: Source::Derived("lowest pose of the centre of mass over all cones, a second-order cone programme"),
};
const UNIQUE: Check = Check {
    key: "one_place",
    what: "ways in which it can still slide or turn once it rests",
    worst: Verdict::Fail,
    source: Source::Derived("extent of all lowest poses"),
};
const ALL_ROUND: Check = Check {
    key: "all_round",
    what: "the same set with a round cup on every cone",
    worst: Verdict::Fail,
    source: Source::Derived("each tight round cup holds two freedoms of three in plan; the rest must fit by luck"),
};
const ARRANGED: Check = Check {
    key: "arrangement",
    what: "one round cup, one slot pointing at it, the others clear on pads: highest lift",
    worst: Verdict::Caution,
    source: Source::Derived(
        "every ordered pair of round and slot tried: room, climbing off, tie-down, distance and load, each against the best",
    ),
};
const CAPTURE: Check = Check {
    key: "capture",
    what: "capture radius against hoist swing and what is kept in hand",
    worst: Verdict::Fail,
    source: Source::Derived("every nose must lie inside its hole, mismatch taken off"),
};
const RIDE: Check = Check {
    key: "ride_off",
    what: "sideways acceleration before it climbs off a cone",
    worst: Verdict::Fail,
    source: Source::Published("49 CFR 393.102(a): 0.8 g forward, 0.5 g rearward and sideways"),
};
const RIDE_STILL: Check = Check {
    key: "ride_off",
    what: "sideways push, as part of the weight, before it climbs off a cone",
    worst: Verdict::Fail,
    source: Source::Derived(
        "a knock by load or hoist, common practice; wind and earthquake by the rules of the place are not judged here",
    ),
};
const STICKS: Check = Check {
    key: "comes_free",
    what: "slimmest cone against sticking",
    worst: Verdict::Fail,
    source: Source::Derived("a cone sticks when its half-angle is at or below atan(friction)"),
};
const HANGS: Check = Check {
    key: "left_hanging",
    what: "farthest off its place that friction may leave it",
    worst: Verdict::Caution,
    source: Source::Derived(
        "contact forces within the friction angle that balance the weight; shifted in eight directions and along every slot, turned about every seat, the centre of mass and points between and all round",
    ),
};
const CHANCE: Check = Check {
    key: "seating_share",
    what: "chance that a frame built so seats fully",
    worst: Verdict::Caution,
    source: Source::Derived(
        "seeded draws of positions, heights and the limits of cups and cones; each frame is built once",
    ),
};
const SET_DOWN: Check = Check {
    key: "set_down",
    what: "greatest load on one seat, the blow of setting down included",
    worst: Verdict::Ok,
    source: Source::Derived("energy of a touch at 50 mm/s with 0.5 mm of sag, rope slack: 1 + sqrt(1 + v^2/(g s))"),
};
const TIED: Check = Check {
    key: "tie_down_enough",
    what: "tie-down at each seat as written, against what holds a stiff frame on three, level or not",
    worst: Verdict::Caution,
    source: Source::Derived("least tie-down that keeps every seat loaded under the accelerations that it must stand"),
};
const CUP_LOAD: Check = Check {
    key: "cup_seat_load",
    what: "least seat_load in the files of cups and cones",
    worst: Verdict::Fail,
    source: Source::Derived(
        "greatest load of any three supports, at rest and under the accelerations that it must stand",
    ),
};
const CUP_SIDE: Check = Check {
    key: "cup_side_factor",
    what: "force across that the cup file reckons with",
    worst: Verdict::Fail,
    source: Source::Derived("side forces of the accelerations that it must stand, at the round cup and at the slot"),
};
const SLOT: Check = Check {
    key: "slot_direction",
    what: "slot against the line to the round cup",
    worst: Verdict::Fail,
    source: Source::Derived("a slot square to that line lets the frame turn about the round cup"),
};

/// How fast the frame is let down, m/s, and how far slings and frame give under its weight.
/// Source: common practice, no source.
const LET_DOWN: f64 = 0.05;
const SAG: Length = Length::mm(0.5);

/// The checks that rest on what a wrong reading could hide.
pub const BY_SURVEY: [&str; 4] = ["survey_cones", "survey_cups", "survey_cones_unseen", "survey_cups_unseen"];

/// All checks of a landing; what a wrong reading could hide is looked for where it is asked for.
pub fn checks(
    design: &mut Design,
    s: &Spec,
    (places, surveyed): (&Places, bool),
    heights: &Heights,
    landing: &Landing,
    r: &Results,
) {
    let hides = if surveyed { unseen::worst(s, places, landing, r) } else { [None, None] };
    survey(design, &SURVEY_CONES, places.cones.as_ref(), hides[0].as_ref());
    survey(design, &SURVEY_CUPS, places.cups.as_ref(), hides[1].as_ref());
    if super::places::transferred(s) && places.cups.is_some() {
        design.note(
            &SURVEY_CUPS,
            "with placed = \"transferred\" these readings are held against each other alone: the cups are taken to lie where their cones do, within transfer_error and weld_pull; measured again after welding they count once the file says placed = \"surveyed apart\"",
        );
    }
    unseen::judge(design, s, places, &hides);
    stands(design, s, r);
    at_rest(design, s, landing, r);
    pads::judge(design, s, heights, landing, r);
    arrangement(design, landing, r);
    slot(design, s, landing);
    rooms::judge(design, s, heights, &r.rooms);
    heat::judge(design, s, r.rest.is_ok(), &r.heated);
    capture(design, s, r);
    road(design, s, r);
    sticks(design, landing);
    hangs(design, landing, r);
    chance(design, r);
    loads(design, r);
    cup_loads(design, s, r);
    cup_sides(design, s, landing, r);
    let carry = s.seats.iter().flat_map(|seat| [Some(&seat.cone.common), seat.cup.as_ref().map(|c| &c.common)]);
    common::printed_under_load(design, &carry.flatten().map(|c| &c.material).collect::<Vec<_>>());
    common::locator(design, Some(s.base().drives()));
    common::hoisting(design);
    design.caution(
        &["Set it down once with its full weight", "frame"],
        "Set the frame down once with its full weight before heights are measured.",
        "Set the frame down once with its full weight before heights are measured: sharp rims bed in by some tenths.",
    );
}

/// Scatter of the readings that are used, over what was stated, from which nothing can be built on them.
/// Source: common practice, no source.
const BEYOND_USE: f64 = 10.0;

fn survey(design: &mut Design, check: &Check, network: Option<&Adjusted>, hides: Option<&Unseen>) {
    let Some(network) = network else { return };
    let judged = network.judged();
    let left = network.survey.s0.unwrap_or(0.0);
    let s0 = judged.s0.map(|s0| Value::Number((s0 * 1000.0).round() / 1000.0));
    let advice = judged.advice.as_ref().map_or_else(String::new, |a| {
        if a.point_outside {
            "; all lines are measured: one more point well outside would help most".into()
        } else {
            format!("; reading {}-{} as well would help most", a.from, a.to)
        }
    });
    let (verdict, because) = match &judged.verdict {
        SurveyVerdict::NoCheck => {
            (Verdict::Caution, format!("no reading is checked by another, so a wrong one cannot show{advice}"))
        }
        SurveyVerdict::Agree if hides.is_some_and(Unseen::harms) => {
            (Verdict::Ok, format!("all readings agree, and would if one that matters were wrong: see below{advice}"))
        }
        SurveyVerdict::Agree => (Verdict::Ok, format!("all readings agree within their uncertainty{advice}")),
        SurveyVerdict::Unlocated(lines) => (Verdict::Caution, one_of(design.say(), network, lines)),
        SurveyVerdict::Suspect { reading, blunder, unless, .. } => {
            named(design.say(), network, *reading, *blunder, *unless)
        }
    };
    let (verdict, because) = if left >= BEYOND_USE {
        (
            Verdict::Fail,
            format!(
                "{because}; the readings contradict each other ten times more than was stated, and no place below can be relied on: hook the tape afresh and measure every line twice, or state the uncertainty that the tape really has"
            ),
        )
    } else {
        (verdict, because)
    };
    design.finding(check, verdict, s0, Limit::AtMost(Value::Number(2.0)), because);
}

/// `A-B`, and what the tape said where that line was measured more than once.
fn line(say: Say, network: &Adjusted, reading: usize) -> String {
    let all = &network.judged().readings;
    let Some(j) = all.get(reading) else { return String::new() };
    let same = |from: &str, to: &str| (from == j.from && to == j.to) || (from == j.to && to == j.from);
    match all.iter().filter(|other| same(&other.from, &other.to)).count() {
        1 => format!("{}-{}", j.from, j.to),
        _ => format!("{}-{} ({})", j.from, j.to, say.length(j.measured)),
    }
}

/// Several readings explain the misfit nearly as well as each other: none is left out.
fn one_of(say: Say, network: &Adjusted, lines: &[usize]) -> String {
    let names: Vec<String> = lines.iter().map(|i| line(say, network, *i)).collect();
    let again = "measure them again, or add one more point well outside";
    match names.as_slice() {
        [a, b] => format!(
            "if only one reading is wrong it is one of these two, {a} or {b}, and the lines cannot tell which: {again}; neither is left out, and every place below is so much less sure"
        ),
        _ => format!(
            "something is wrong, but the lines cannot tell which of {}: {again}; none is left out, and every place below is so much less sure",
            names.join(", ")
        ),
    }
}

/// One reading is wrong: left out, or still in because the others do not hold the network without it.
fn named(
    say: Say,
    network: &Adjusted,
    reading: usize,
    blunder: Length,
    unless: Option<[usize; 2]>,
) -> (Verdict, String) {
    let by = if blunder > Length::ZERO { "too long" } else { "too short" };
    let (name, off) = (line(say, network, reading), say.length(blunder.abs()));
    let what = match unless {
        None => format!("the reading {name} is wrong, about {off} {by}: measure it again"),
        Some([a, b]) => format!(
            "if only one reading is wrong it is {name}, about {off} {by}: measure it again (were two wrong, {} and {} would explain it as well: measure those next)",
            line(say, network, a),
            line(say, network, b)
        ),
    };
    match &network.still_in {
        None => (Verdict::Caution, format!("{what}; it is left out of all that is worked from the survey")),
        Some(why) => (Verdict::Fail, format!("{what}; without it {why}, so that it is still in everything below")),
    }
}

/// Inertia at which nothing may climb off or tip, tied down or not: that of standing on a slope of one in twenty.
/// Source: common practice, no source.
const SLOPE: f64 = 0.05;

fn stands(design: &mut Design, s: &Spec, r: &Results) {
    let say = design.say();
    match (&r.rest, r.tip) {
        (Err(NoRest::Tips { by }), _) => design.finding(
            &STANDS,
            Verdict::Fail,
            Some(Value::Length(-by.rounded())),
            Limit::AtLeast(Value::Length(Length::ZERO)),
            format!("it tips: the centre of mass stands {} outside its supports", say.length(*by)),
        ),
        (_, Some(inside)) => {
            design.at_least(
                &STANDS,
                Value::Length(inside.rounded()),
                Value::Length((s.centre.1 * SLOPE).max(Length::ZERO).rounded()),
                Some(Value::Length((s.centre.1 * (2.0 * SLOPE)).max(Length::mm(50.0)).rounded())),
                "the nearer the edge, the sooner a knock or a slope lifts a corner: less than a twentieth of the height of the centre of mass inside, and it tips on a slope of one in twenty",
            );
        }
        _ => {}
    }
}

fn at_rest(design: &mut Design, s: &Spec, landing: &Landing, r: &Results) {
    match &r.rest {
        Err(NoRest::Tips { .. }) => {}
        Err(why) => design.finding(&SEATS, Verdict::Fail, None, None, why.to_string()),
        Ok(found) => {
            let (name, lift) = highest(landing, found);
            let lift = lift.rounded();
            let verdict = if lift > RISES {
                Verdict::Fail
            } else if lift > SEATED_WITHIN {
                Verdict::Caution
            } else {
                Verdict::Ok
            };
            let where_ = if lift > Length::ZERO { format!("{name} stands highest; ") } else { String::new() };
            let because = format!(
                "{where_}a cup that does not seat hangs by one flank, rocks, and drops {}",
                if s.base().drives() { "on the road" } else { "when it is touched" }
            );
            let cure = r.shims.as_ref().and_then(|shims| shims.cure(design.say(), landing));
            let value = (Value::Length(lift), Limit::AtMost(Value::Length(SEATED_WITHIN)));
            let next = cure.clone().filter(|_| verdict > Verdict::Ok);
            design.told(&SEATS, SEATS.what.into(), verdict, value, because, next);
            let freedoms = found.wander.freedoms as u32;
            let verdict = if found.unique() { Verdict::Ok } else { Verdict::Fail };
            let because = if found.unique() {
                "the frame comes to rest at one place only"
            } else {
                "the frame may rest anywhere along at least one direction: it is not located there"
            };
            let value = (Value::Count(freedoms), Limit::AtMost(Value::Count(0)));
            let next = cure.filter(|_| verdict > Verdict::Ok);
            design.told(&UNIQUE, UNIQUE.what.into(), verdict, value, because.into(), next);
        }
    }
}

/// What a round cup on every cone does, or would do where the file has another arrangement already.
fn all_round(design: &mut Design, landing: &Landing, found: &Rest, is_so: bool) {
    let say = design.say();
    let (name, lift) = highest(landing, found);
    let carrying = found.seats.iter().filter(|s| s.load.as_newtons() > 1.0).count();
    let worst = found.seats.iter().map(|s| s.gap).fold(Length::ZERO, Length::max);
    let high = lift.rounded() > SEATED_WITHIN;
    let count = landing.seats().len();
    let comes = if is_so {
        format!("with {count} round cups it comes to rest")
    } else {
        format!("do not make the other cups round as well: with {count} round cups it would come to rest")
    };
    let short = if worst.rounded() > Length::ZERO {
        format!(", the worst {} short of touching", say.length(worst))
    } else {
        String::new()
    };
    let because = if lift.rounded() > Length::ZERO {
        format!(
            "{comes} {} up at {name}, on {carrying} of them{short}: every set-down depends on luck",
            say.length(lift)
        )
    } else {
        format!("with {count} round cups it seats too as long as the places are exactly these: each error lifts it")
    };
    if is_so {
        let verdict = if high { Verdict::Fail } else { Verdict::Ok };
        let (lift, limit) = (Value::Length(lift.rounded()), Limit::AtMost(Value::Length(SEATED_WITHIN)));
        design.finding(&ALL_ROUND, verdict, Some(lift), limit, because);
    } else {
        design.note(&ALL_ROUND, because);
    }
}

fn arrangement(design: &mut Design, landing: &Landing, r: &Results) {
    let say = design.say();
    let rounds = landing.seats().iter().filter(|s| s.kind == SeatKind::Round).count();
    let all = rounds == landing.seats().len() && rounds > 1;
    if let Some((round, Ok(found))) = &r.all_round {
        all_round(design, round, found, all);
    }
    if let (Some(a), Some(Ok(found))) = (&r.arrangement, &r.as_arranged) {
        let (_, lift) = highest(&a.landing, found);
        let name = |i: usize| landing.seats().get(i).map_or("", |s| s.name.as_str());
        let slot = a.holes.iter().find_map(|h| match h {
            Hole::Slot { direction, length, .. } => {
                Some(format!("{} long at {}° from x", say.length(*length), show::trimmed(direction.as_degrees(), 1)))
            }
            _ => None,
        });
        let clear: Vec<String> = a
            .holes
            .iter()
            .enumerate()
            .filter_map(|(i, h)| match h {
                Hole::Clear { diameter, .. } => Some(format!("{} at {}", say.length(*diameter), name(i))),
                _ => None,
            })
            .collect();
        let clear = if clear.is_empty() {
            String::new()
        } else {
            format!("; clear holes of {} or more, on pads at the seat height", clear.join(", "))
        };
        let (verdict, outcome) = as_arranged(say, &a.landing, found, lift);
        let now = standing(landing, r.rest.as_ref().ok(), &r.rooms, a);
        let lost = runner_up(say, landing, a, now);
        let keep = stands_now(say, landing, a, now);
        design.finding(
            &ARRANGED,
            verdict,
            Some(Value::Length(lift.rounded())),
            Limit::AtMost(Value::Length(SEATED_WITHIN)),
            format!(
                "round at {}, slot at {} {}{clear}: {outcome}{keep}{lost}",
                name(a.best.round),
                name(a.best.slot),
                slot.unwrap_or_default()
            ),
        );
    }
}

/// The next best pair, and by what it lost.
fn runner_up(say: Say, landing: &Landing, a: &Arrangement, told: Option<&Judged>) -> String {
    let [best, next, ..] = a.pairs.as_slice() else { return String::new() };
    if told.is_some_and(|now| now.pair == next.pair) {
        return String::new();
    }
    let pair = pair_name(landing, next);
    if as_good(best, next) {
        return format!("; {pair} is as good ({})", sums(best, next));
    }
    format!("; next comes {pair}, with {}", against(say, best, next))
}

/// A pair in words.
fn pair_name(landing: &Landing, j: &Judged) -> String {
    let name = |i: usize| landing.seats().get(i).map_or("", |s| s.name.as_str());
    format!("round at {} and slot at {}", name(j.pair.round), name(j.pair.slot))
}

/// What the pair that stands now gives away against the best.
fn stands_now(say: Say, landing: &Landing, a: &Arrangement, now: Option<&Judged>) -> String {
    let (Some(now), Some(best)) = (now, a.pairs.first()) else { return String::new() };
    if now.pair == best.pair {
        return "; that is what stands now, and it seats fully: keep it".into();
    }
    let pair = pair_name(landing, now);
    if as_good(best, now) {
        return format!("; what stands now, {pair}, seats fully and is as good ({}): keep it", sums(best, now));
    }
    format!(
        "; what stands now, {pair}, seats fully too, with {}: it may stay where that is enough",
        against(say, best, now)
    )
}

/// The sums of two pairs.
fn sums(best: &Judged, other: &Judged) -> String {
    if !other.score.is_finite() {
        return "a round cup or slot that carries nothing".into();
    }
    format!("a sum of {} against {}", show::trimmed(other.score, 2), show::trimmed(best.score, 2))
}

/// The sum, and by what the other pair is worse and better.
fn against(say: Say, best: &Judged, other: &Judged) -> String {
    let (worse, better) = (loses(say, best, other), loses(say, other, best));
    let mut said = sums(best, other);
    if worse.is_empty() {
        said += ", a little worse in each";
    } else {
        said += &format!(": {}", worse.join(", "));
    }
    if !better.is_empty() {
        said += &format!("; but the better one has {}", better.join(", "));
    }
    said
}

/// By what one pair is worse than another.
fn loses(say: Say, best: &Judged, next: &Judged) -> Vec<String> {
    let mut by = Vec::new();
    let force = |f: crate::units::Force| match f.is_finite() {
        true => say.force(f),
        false => "no end".into(),
    };
    let g = |v: Option<Acceleration>| v.map_or(f64::INFINITY, |v| v.as_g());
    if next.room > best.room * MARKEDLY {
        by.push(format!("{} of room against {}", say.length(next.room), say.length(best.room)));
    }
    if g(next.ride_off) * MARKEDLY < g(best.ride_off) {
        by.push(format!(
            "climbing off at {} g against {} g",
            show::trimmed(g(next.ride_off), 3),
            show::trimmed(g(best.ride_off), 3)
        ));
    }
    if next.tie_down > best.tie_down * MARKEDLY {
        by.push(format!("{} of tie-down against {}", force(next.tie_down), force(best.tie_down)));
    }
    if next.base * MARKEDLY < best.base {
        by.push(format!("{} apart against {}", say.length(next.base), say.length(best.base)));
    }
    let (low, high) = (next.loads[0].min(next.loads[1]), best.loads[0].min(best.loads[1]));
    if low * MARKEDLY < high {
        by.push(format!("{} on one of them against {}", force(low), force(high)));
    }
    by
}

/// How the frame rests once arranged: flat at one place, or what still stands in the way.
fn as_arranged(say: Say, landing: &Landing, found: &Rest, lift: Length) -> (Verdict, String) {
    let free: Vec<String> = landing
        .seats()
        .iter()
        .zip(&found.seats)
        .filter(|(_, at)| at.gap.rounded() > Length::ZERO)
        .map(|(seat, at)| format!("{} by {}", seat.name, say.length(at.gap)))
        .collect();
    let heights = if free.is_empty() {
        String::new()
    } else {
        format!(" once the heights are shimmed level: now it stands clear of {}", free.join(" and "))
    };
    let verdict = if lift.rounded() > SEATED_WITHIN || !found.unique() { Verdict::Caution } else { Verdict::Ok };
    (verdict, format!("it rests flat, at one place, with no force in the frame{heights}"))
}

/// A slot must point at the round cup, else the frame can turn.
fn slot(design: &mut Design, s: &Spec, landing: &Landing) {
    let rounds: Vec<_> = landing.seats().iter().filter(|s| s.kind == SeatKind::Round).collect();
    let [round] = rounds.as_slice() else { return };
    for (seat, spec) in landing.seats().iter().zip(&s.seats) {
        let SeatKind::Slot { direction, .. } = seat.kind else { continue };
        let line = (seat.at - round.at).direction();
        let off = ((direction - line).as_degrees() + 90.0).rem_euclid(180.0) - 90.0;
        design.at_most(
            &SLOT,
            Value::Angle(Angle::degrees((off.abs() * 10.0).round() / 10.0)),
            Value::Angle(Angle::degrees(60.0)),
            Some(Value::Angle(Angle::degrees(10.0))),
            format!(
                "the line from {} to {} runs at {}° from x{}",
                round.name,
                seat.name,
                show::trimmed(line.as_degrees(), 1),
                turned_plate(spec, direction)
            ),
        );
    }
}

/// By how much the plate of a slot is to be turned on the frame, where its file cuts the slot in another direction.
fn turned_plate(seat: &SeatSpec, direction: Angle) -> String {
    let cut = match seat.cup.as_ref().map(|cup| &cup.hole) {
        Some(CupHole::Slot { direction: Some(cut), .. }) => cut.value,
        _ => return String::new(),
    };
    let by = ((direction - cut).as_degrees() + 90.0).rem_euclid(180.0) - 90.0;
    if by.abs() < 0.05 {
        return String::new();
    }
    format!(
        "; its cup file cuts it at {}°: the plate goes on the frame turned by {}°, or write that direction there",
        show::trimmed(cut.as_degrees(), 1),
        show::trimmed(by, 1)
    )
}

fn capture(design: &mut Design, s: &Spec, r: &Results) {
    let swing = s.swing();
    let name = s.seats.get(r.capture.limiting).map_or("", |seat| seat.name.as_str());
    design.at_least(
        &CAPTURE,
        Value::Length(r.capture.radius.rounded()),
        Value::Length(swing),
        Some(Value::Length(swing + CAPTURE_MARGIN)),
        format!("{name} is the first to miss; a nose that lands on the plate puts hands under the load"),
    );
}

/// The direction of the demand that a direction of force falls under.
fn demand(d: &Demands, direction: Angle) -> Acceleration {
    let (along, across) = (direction.cos(), direction.sin());
    let fore = if along >= 0.0 { d.forward.value() } else { d.rearward.value() };
    // One demand at a time: an ellipse through forward (or rearward) and sideways.
    let (a, b) = (along / fore.as_g().max(1e-9), across / d.sideways.value().as_g().max(1e-9));
    Acceleration::g(1.0 / (a * a + b * b).sqrt())
}

/// Of all limits the one that is the least share of what is demanded in its direction: limit, demand, direction.
pub(super) fn shortest(s: &Spec, all: &[ride_off::RideOff]) -> Option<(Acceleration, Acceleration, Angle)> {
    let each = all.iter().filter_map(|x| Some((x.limit?, demand(&s.demands, x.direction), x.direction)));
    each.min_by(|a, b| (a.0 / a.1).total_cmp(&(b.0 / b.1)))
}

fn road(design: &mut Design, s: &Spec, r: &Results) {
    let check = if s.base().drives() { &RIDE } else { &RIDE_STILL };
    let Some((limit, wanted, direction)) = shortest(s, &r.ride_off) else {
        design.finding(
            check,
            Verdict::Ok,
            None,
            None,
            "no sideways force climbs off these cones; check that they come free",
        );
        return;
    };
    let preload = r.preloads.as_ref().and_then(|p| ride_off::governing(p));
    let force = |f| design.say().force(f);
    let on_three = r.preloads.as_ref().and_then(|p| ride_off::governing_on_three(p));
    let tie = match (preload.zip(on_three), &r.untold) {
        (Some((p, three)), _) => format!(
            "; tie down each seat with at least {} ({}), {} where a stiff frame may stand on three",
            force(p.preload),
            p.case.name,
            force(three)
        ),
        (None, Some(why)) => no_tie_down(why),
        (None, None) => String::new(),
    };
    tied(design, s, super::setting_out::asked_down(r));
    let shown = |a: Acceleration| Value::Acceleration(Acceleration::g((a.as_g() * 1000.0).round() / 1000.0));
    let slope = Acceleration::g(SLOPE);
    let least = if wanted < slope { wanted } else { slope };
    design.at_least(
        check,
        shown(limit),
        shown(least),
        Some(shown(wanted)),
        format!(
            "towards {}° from x, without friction, by the cones and the stated tie-downs alone{tie}",
            show::trimmed(direction.as_degrees(), 0)
        ),
    );
}

/// A tie-down that is written is what is drawn at every seat: less than the last step asks for is told.
fn tied(design: &mut Design, s: &Spec, on_three: Option<Force>) {
    let stated = s.tie_down.as_ref().map(|t| t.value).filter(|t| *t > Force::ZERO);
    if let (Some(stated), Some(wanted)) = (stated, on_three) {
        let because = "drawing and last step say what is asked; the loads of the seats are reckoned with what is written: write what is asked, and look at those loads again";
        let wanted = Some(Value::Force(wanted));
        design.at_least(&TIED, Value::Force(stated), Value::Force(Force::ZERO), wanted, because);
    }
}

fn sticks(design: &mut Design, landing: &Landing) {
    let Some(slimmest) = landing.seats().iter().map(|s| s.half_angle).reduce(Angle::min) else { return };
    crate::families::cone::checks::sticking(design, &STICKS, slimmest);
}

/// Whether friction may keep the frame from coming home.
fn hangs(design: &mut Design, landing: &Landing, r: &Results) {
    let say = design.say();
    let name = |i: usize| landing.seats().get(i).map_or("", |seat| seat.name.as_str());
    let shifted = r.held.iter().map(|h| {
        let how = format!("shifted towards {}° from x", show::trimmed(h.direction.as_degrees(), 0));
        (h.shift, h.everywhere, how)
    });
    let turned = r.turned.iter().map(|t| {
        let about = match t.about {
            Some(i) => name(i).to_string(),
            None if t.centre == landing.load().centre => "its centre of mass".into(),
            None => format!("a point at {}, {}", say.length(t.centre.x), say.length(t.centre.y)),
        };
        let degrees = show::trimmed(t.turn.abs().as_degrees(), 2);
        let how = format!("turned by up to {} at {}, {degrees}° about {about}", say.length(t.shift), name(t.farthest));
        (t.shift, t.everywhere, how)
    });
    let worst = shifted.chain(turned).reduce(|a, b| if b.0 > a.0 { b } else { a });
    let Some((shift, everywhere, how)) = worst else { return };
    let mu = r.rubbing.taken;
    let because = if everywhere {
        format!(
            "at friction {mu} nothing brings it home, {how}: grease the flanks, or steer it by hand lines until it sits"
        )
    } else if shift > SEATED_WITHIN {
        format!("at friction {mu}, {how}: grease the flanks, and push it home before the rope is slack")
    } else if shift.rounded() > Length::ZERO {
        let within = say.length(shift);
        format!("at friction {mu} it comes home to within {within} from every side, also when it lies turned")
    } else {
        format!("at friction {mu} it slides home from every side, also when it lies turned")
    };
    let verdict = if shift > SEATED_WITHIN { Verdict::Caution } else { Verdict::Ok };
    design.finding(
        &HANGS,
        verdict,
        Some(Value::Length(shift.rounded())),
        Limit::AtMost(Value::Length(SEATED_WITHIN)),
        because,
    );
}

fn chance(design: &mut Design, r: &Results) {
    let say = design.say();
    let Some(c) = &r.chance else { return };
    let verdict = if c.seating_share < 0.5 { Verdict::Caution } else { Verdict::Ok };
    let percent = |c: &Chance| show::trimmed(c.seating_share * 100.0, 1);
    let arranged = r.chance_arranged.as_ref().zip(r.chance_level.as_ref()).map_or_else(String::new, |(a, level)| {
        format!(
            "; as arranged {} %, target within {}, and with every height shimmed to touch besides {} %",
            percent(a),
            say.length(a.target_off.p95),
            percent(level)
        )
    });
    design.finding(&CHANCE, verdict, Some(Value::Share(c.seating_share)), Limit::AtLeast(Value::Share(0.5)), format!("of frames built with the stated uncertainties, seated within {} everywhere; their targets come to rest within {} of the place in 95 of 100{arranged}", say.length(SEATED_WITHIN), say.length(c.target_off.p95)));
}

fn loads(design: &mut Design, r: &Results) {
    let (Some(tied), Some(weight)) = (r.greatest_load(), r.weight_on_one) else { return };
    let factor = set_down_factor(LET_DOWN, SAG);
    let shown = Value::Number((factor * 1000.0).round() / 1000.0);
    design.computed(&sizes::SET_DOWN_FACTOR, shown, "1 + sqrt(1 + v^2/(g s))");
    let blow = weight * factor;
    let (greatest, how) = if tied > blow {
        (
            tied,
            "under its tie-downs and the accelerations that it must stand, which is more than the blow of setting down",
        )
    } else {
        (blow, "as it touches down, before it is tied down")
    };
    let because = format!(
        "{how}: design every seat, weld and crossbar for this, not for a quarter of the weight: a stiff frame stands on three"
    );
    design.finding(&SET_DOWN, Verdict::Ok, Some(Value::Force(greatest)), None, because);
}

/// Whether the files of cups and cones were worked with the force across that their seat gets, which is a share of seat_load
/// there.
fn cup_sides(design: &mut Design, s: &Spec, landing: &Landing, r: &Results) {
    let (Some(cases), Some(greatest)) = (&r.preloads, &r.greatest) else { return };
    let most = |of: fn(&ride_off::CaseResult) -> Force| cases.iter().map(of).reduce(Force::max);
    let worked = s.seats.iter().zip(landing.seats()).zip(greatest).filter_map(|((seat, stands), down)| {
        let across = match stands.kind {
            SeatKind::Round => most(|c| c.round)?,
            SeatKind::Slot { .. } => most(|c| c.slot)?,
            SeatKind::Pad | SeatKind::Clear { .. } => return None,
        };
        let cup = seat.cup.as_ref()?;
        let cone = &seat.cone;
        let of_cup = cup.seat_load.as_ref().map(|load| (load.value, common::side_share(cup.side_factor.as_ref())));
        let of_cone = cone.seat_load.as_ref().map(|load| (load.value, common::side_share(cone.side_factor.as_ref())));
        let across_of = |(load, share): (Force, f64)| load * share;
        let both = of_cup.into_iter().chain(of_cone);
        let least = both.min_by(|a, b| across_of(*a).as_newtons().total_cmp(&across_of(*b).as_newtons()))?;
        // The share is told of the load that stands in the file, unless that is too little itself.
        Some((seat, across, down.max(least.0), across_of(least)))
    });
    for (seat, across, down, reckoned) in worked {
        let share = (across.as_newtons() / down.as_newtons() * 100.0 - 1e-6).ceil() / 100.0;
        let verdict = too_little(reckoned, across);
        let say = design.say();
        let because = format!(
            "{} of them across at {}: with seat_load = {} in the files of this cup and its cone that is side_factor = {}; where it is not written 0.8 of seat_load counts, tie-down and all",
            say.force(across),
            seat.name,
            say.force(down),
            show::trimmed(share, 2)
        );
        let what = format!("{}, {}", CUP_SIDE.what, seat.name);
        let value = (Value::Force(reckoned), Limit::AtLeast(Value::Force(across)));
        design.told(&CUP_SIDE, what, verdict, value, because, None);
    }
}

/// Says that no tie-down is told, and why.
pub fn no_tie_down(why: &InputError) -> String {
    format!("; what tie-down it needs cannot be told: {why}")
}

/// Strengths that were worked with less than that share of what can come hold nothing: safety factors of steel are about as much.
/// Source: common practice, no source.
const FAR_TOO_LITTLE: f64 = 1.0 / 1.5;

/// A load that was reckoned with against the one that can come. Written as it is told, to four figures, it is enough.
fn too_little(reckoned: Force, can_come: Force) -> Verdict {
    if reckoned < can_come * FAR_TOO_LITTLE {
        Verdict::Fail
    } else if reckoned < can_come * (1.0 - 5e-4) {
        Verdict::Caution
    } else {
        Verdict::Ok
    }
}

/// Says that nothing of the cups and cones was worked with a load.
fn unloaded(design: &mut Design, s: &Spec, all: &[Force]) {
    let bare = |seat: &&(&SeatSpec, &Force)| {
        let carries = !on_pad(seat.0);
        carries && seat.0.cone.seat_load.is_none() && seat.0.cup.as_ref().is_some_and(|cup| cup.seat_load.is_none())
    };
    let pairs: Vec<(&SeatSpec, &Force)> = s.seats.iter().zip(all).collect();
    let names: Vec<&str> = pairs.iter().filter(bare).map(|(seat, _)| seat.name.as_str()).collect();
    if names.is_empty() {
        return;
    }
    let most = design.say().force(all.iter().copied().reduce(Force::max).unwrap_or_default());
    let because = format!(
        "{}: neither cup nor cone has a seat_load in its file, so no seat, weld, plate or wall there is judged: write seat_load, up to {most}",
        names.join(", ")
    );
    design.finding(&CUP_LOAD, Verdict::Caution, None, None, because);
}

/// Whether the files of cups and cones were worked with the load that the landing can put on them.
fn cup_loads(design: &mut Design, s: &Spec, r: &Results) {
    let Some(all) = &r.greatest else { return };
    unloaded(design, s, all);
    let worked = s.seats.iter().zip(all).flat_map(|(seat, greatest)| {
        let cup = seat.cup.as_ref();
        let of = |what: &str, load: &Given<Force>| (format!("{what} of {}", seat.name), load.value, *greatest);
        let of_cup = cup.and_then(|cup| cup.seat_load.as_ref()).map(|load| of("the cup", load));
        // A cone under a pad carries nothing.
        let of_cone = seat.cone.seat_load.as_ref().filter(|_| !on_pad(seat)).map(|load| of("the cone", load));
        of_cup.into_iter().chain(of_cone)
    });
    let Some((name, load, greatest)) =
        worked.min_by(|a, b| (a.1 - a.2).as_newtons().total_cmp(&(b.1 - b.2).as_newtons()))
    else {
        return;
    };
    design.finding(
        &CUP_LOAD,
        too_little(load, greatest),
        Some(Value::Force(load)),
        Limit::AtLeast(Value::Force(greatest)),
        format!("{name} can come to carry that much when the frame stands on three and is braked: bedding, seat pressure, weld, bolts and wall in its file rest on seat_load; what acts across is a share of it, side_factor"),
    );
}
