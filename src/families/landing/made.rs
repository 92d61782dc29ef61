//! A landing as it stands: what the readings taken with the frame down, by tape after the welding and over the crossbars say
//! together with the old survey, and what is to be shimmed, opened or cut free after that.

use crate::description::Fields;
use crate::families::common::measured::{MEASURED, WHAT};
use crate::families::cup::seat::entry_ring;
use crate::families::{Depth, Workplace};
use crate::formulas::frame::rest::{Rest, rest};
use crate::formulas::frame::{InputError, Landing, Plan, Pose, Seat, SeatKind};
use crate::formulas::survey::standing::{
    Agreement, Before, Cause, Observation, Observed, Standing, landing_as_it_stands, stand,
};
use crate::record::design::{Check, Design, Dimension, Lesson, Limit, Table, Value, Verdict};
use crate::record::show::Say;
use crate::shop::tape::Tape;
use crate::source::Source;
use crate::units::{Angle, Length};

use super::heights::{Heights, plate};
use super::places::{self, Places};
use super::read::{self, SeatSpec, Spec};
use super::results::{self, Results, YIELDS, height_sigma};
use super::shims::{self, Shims};
use super::sizes;

const AGREE: Check = Check {
    key: "stands_agree",
    what: "readings of the landing as it stands, against each other and the old survey",
    worst: Verdict::Caution,
    source: Source::Memory("Baarda (1968): a residual beyond 3.29 sigma is a blunder in all but one of 1000 cases"),
};
const LEVEL: Check = Check {
    key: "stands_level",
    what: "tilt of the frame as it stands",
    worst: Verdict::Caution,
    source: Source::Derived("lowest pose on the seats as they were measured"),
};
const BEARS: Check = Check {
    key: "stands_bears",
    what: "seat furthest from bearing as it stands",
    worst: Verdict::Caution,
    source: Source::Derived("lowest pose on the seats as they were measured"),
};
const ROOM: Check = Check {
    key: "stands_room",
    what: "room of a hole round its cone as it stands",
    worst: Verdict::Caution,
    source: Source::Derived("offset at rest by all readings with its expanded uncertainty, k = 2 (JCGM 100)"),
};
const WELD: Check = Check {
    key: "stands_weld",
    what: "plate left round a hole that is opened so far",
    worst: Verdict::Caution,
    source: Source::Memory("common practice: no less than its thickness"),
};

const SCALE: Check = Check {
    key: "tape_scale",
    what: "tape held against a known length, on a metre",
    worst: Verdict::Ok,
    source: Source::Derived("the known length over what the tape reads of it"),
};

/// The checks of this file.
const OWN: [&str; 6] = ["stands_agree", "stands_level", "stands_bears", "stands_room", "stands_weld", "tape_scale"];

/// What every reading of the landing goes into.
const STANDS: &str = "it goes with all others into how it stands";
/// Lines are offered for so many seats at most: of more there are too many to be listed.
const MOST_IN_LINES: usize = 12;

/// What may be measured of a landing beside what its sheet has.
pub fn readable(design: &mut Design, s: &Spec, landing: &Landing, r: &Results) {
    let found = r.rest.as_ref().ok();
    let seats = landing.seats();
    if let Some(known) = &s.known_length {
        design.may_be_read(&read::KNOWN_LENGTH.size(), known.value, ("tape", "it tells the scale of the tape"));
    }
    for (i, (spec, seat)) in s.seats.iter().zip(seats).enumerate() {
        let at = found.and_then(|f| f.seats.get(i));
        let (offset, gap) = at.map_or((seat.mismatch, Length::ZERO), |at| (at.offset, at.gap));
        design.may_be_read(&sizes::height(&seat.name), bar(spec), ("depth micrometer", STANDS));
        design.may_be_read(&sizes::offset("x", &seat.name), offset.x, ("calliper", STANDS));
        design.may_be_read(&sizes::offset("y", &seat.name), offset.y, ("calliper", STANDS));
        design.may_be_read(&sizes::gap(&seat.name), gap, ("feeler gauge", STANDS));
    }
    if seats.len() > MOST_IN_LINES {
        return;
    }
    for (a, b) in pairs(seats.len()) {
        let (Some(a), Some(b)) = (seats.get(a), seats.get(b)) else { continue };
        let cup = |seat: &Seat| seat.at + seat.mismatch;
        design.may_be_read(&sizes::line("cones", &a.name, &b.name), (b.at - a.at).length(), ("tape", STANDS));
        design.may_be_read(&sizes::line("cups", &a.name, &b.name), (cup(b) - cup(a)).length(), ("tape", STANDS));
    }
}

fn pairs(count: usize) -> impl Iterator<Item = (usize, usize)> {
    (0..count).flat_map(move |b| (0..b).map(move |a| (a, b)))
}

fn bar(seat: &SeatSpec) -> Length {
    seat.height.unwrap_or(Length::ZERO)
}

/// The row from which on the readings of the frame tell of the state that it is in: a shim under one seat moves it over all, and what was
/// felt and read off before tells of another state. Readings that stand together after a cut, each of another size, are of one state.
fn since<'d>(of_frame: impl Iterator<Item = &'d Dimension>) -> usize {
    let mut all: Vec<(usize, &str, bool)> =
        of_frame.flat_map(|d| d.readings.iter().map(|r| (r.row, d.key.as_str(), r.after_cut))).collect();
    all.sort_unstable();
    let Some(last) = all.iter().rposition(|(_, _, after_cut)| *after_cut) else { return 0 };
    let mut seen: Vec<&str> = Vec::new();
    let earlier = all.iter().take(last + 1).rev();
    let together = earlier.take_while(|(_, key, after_cut)| {
        let new = *after_cut && !seen.contains(key);
        seen.push(key);
        new
    });
    together.last().map_or(0, |(row, ..)| *row)
}

/// The readings that count, each with the name of its size.
fn observed(design: &Design, s: &Spec, landing: &Landing) -> Vec<(String, Observation)> {
    let factor = s.tape.as_ref().map_or(1.0, Tape::factor);
    let seats = landing.seats();
    let names = || seats.iter().map(|s| s.name.as_str()).enumerate();
    let one = names().flat_map(|(i, name)| {
        [
            (sizes::height(name), Observed::Height(i)),
            (sizes::offset("x", name), Observed::OffsetX(i)),
            (sizes::offset("y", name), Observed::OffsetY(i)),
            (sizes::gap(name), Observed::Gap(i)),
        ]
    });
    let name = |i: usize| seats.get(i).map_or("", |s| s.name.as_str());
    let lines = pairs(seats.len()).flat_map(|(a, b)| {
        [
            (sizes::line("cones", name(a), name(b)), Observed::Cones(a, b)),
            (sizes::line("cups", name(a), name(b)), Observed::Cups(a, b)),
        ]
    });
    let felt: Vec<(crate::record::key::Size, Observed)> = one.collect();
    let since = since(felt.iter().filter_map(|(size, _)| design.dimension(size)));
    felt.iter()
        .cloned()
        .chain(lines)
        .flat_map(|(size, of)| {
            let first = if matches!(of, Observed::Cones(..) | Observed::Cups(..)) { 0 } else { since };
            let dimension = design.dimension(&size);
            let counts = dimension
                .into_iter()
                .flat_map(|d| d.readings.iter().filter(move |r| r.counts && r.row >= first).map(move |r| (d, r)));
            counts
                .filter_map(move |(d, r)| {
                    let (Value::Length(read), Value::Length(u)) = (&r.value, &r.u) else { return None };
                    let by_tape = r.with.starts_with("tape") && matches!(of, Observed::Cones(..) | Observed::Cups(..));
                    let read = if by_tape { *read * factor } else { *read };
                    Some((d.label.clone(), Observation { of, read, sigma: *u / 2.0 }))
                })
                .collect::<Vec<_>>()
        })
        .collect()
}

/// What is known of the seats without the readings.
fn before(s: &Spec, places: &Places, heights: &Heights) -> Before {
    let sigma = height_sigma(s);
    // Anywhere between the limits of cup and cone, about what is drawn: the mean square of an even spread.
    let even = |(lower, upper): &(Length, Length)| {
        let (l, u) = (lower.as_mm(), upper.as_mm());
        Length::mm(((l * l + l * u + u * u) / 3.0).max(0.0).sqrt())
    };
    Before {
        places: places.before.clone(),
        bars: s.seats.iter().map(|seat| (bar(seat), sigma)).collect(),
        rises: heights.rises.iter().map(even).collect(),
    }
}

/// Whether gaps were felt under its seats.
pub fn is_felt(fields: &Fields, place: &Workplace) -> bool {
    let is_gap = |row: Fields| row.text(&WHAT).is_some_and(|what| what.value.trim().to_lowercase().starts_with("gap"));
    !place.as_drawn && fields.rows(&MEASURED).into_iter().any(is_gap)
}

/// What places and heights decide: where every seat was felt the frame as it stands decides it, not as it is drawn.
const RULED: [&str; 8] =
    ["seats_fully", "one_place", "all_bear", "level", "heat", "heat_no_place", "left_hanging", "arrangement"];

/// Puts those findings of the landing as it stands in the place of the drawn ones.
fn ruled(design: &mut Design, s: &Spec, (places, heights): (&Places, &Heights), made: &Landing, place: &Workplace) {
    let depth = if place.depth.draws() { Depth::Exact } else { place.depth };
    let Ok(results) = results::results(s, places, heights, made, None, (depth, place.progress)) else { return };
    let mut stands = Design::new(design.header.clone());
    super::checks::checks(&mut stands, s, (places, false), heights, made, &results);
    let words = results.shims.as_ref().filter(|shims| shims.cures).map(|shims| shims.words(design.say(), made));
    let cure = words
        .filter(|words| !words.is_empty())
        .map(|words| format!("shim {}, then measure the gaps again", words.join(", ")));
    for mut finding in stands.findings.into_iter().filter(|f| RULED.contains(&f.key.as_str())) {
        finding.because.push_str("; as it stands by its readings");
        if finding.verdict > Verdict::Ok && cure.is_some() {
            finding.clearing.why_none.clone_from(&cure);
        }
        match design.findings.iter_mut().find(|f| f.key == finding.key && f.what == finding.what) {
            Some(drawn) => *drawn = finding,
            None => design.findings.push(finding),
        }
    }
}

/// Says how it stands and what that asks for.
pub fn findings(design: &mut Design, fields: &Fields, place: &Workplace) {
    if !place.depth.wants(&OWN) && !place.depth.wants(&RULED) {
        return;
    }
    let Some(s) = read::read(fields, place) else { return };
    let Some(places) = places::places(fields, &s, place.kept) else { return };
    let Ok((heights, landing)) = super::on_its_pads(&s, &places, fields) else { return };
    teaches(design, &s);
    let observed = observed(design, &s, &landing);
    if observed.is_empty() {
        return;
    }
    let observations: Vec<Observation> = observed.iter().map(|(_, o)| *o).collect();
    let drawn = rest(&landing).ok();
    let pose = drawn.as_ref().map_or_else(Pose::default, |r| r.pose);
    let stood = stand(&before(&s, &places, &heights), &landing, pose, &observations)
        .and_then(|standing| Ok((landing_as_it_stands(&landing, &standing)?, standing)));
    let (made, standing) = match stood {
        Ok(both) => both,
        Err(why) => return untold(design, observations.len(), &why),
    };
    let found = rest(&made).ok();
    let names: Vec<&str> = observed.iter().map(|(name, _)| name.as_str()).collect();
    agree(design, &landing, &standing, &names);
    stands_table(design, &landing, &standing);
    let shims = found.as_ref().map(|found| Shims::of(&s, &made, found));
    let was_felt = |i: usize| observations.iter().any(|o| o.of == Observed::Gap(i));
    let all_felt = made.seats().iter().enumerate().all(|(i, seat)| !seat.carries() || was_felt(i));
    if all_felt && !matches!(standing.agreement, Agreement::OneOf(_)) {
        ruled(design, &s, (&places, &heights), &made, place);
    }
    if let (Some(found), Some(shims)) = (&found, &shims) {
        level(design, &s, found, shims, &made, &standing);
        if !unfelt(design, &made, found, &observations) {
            bears(design, &made, found, shims, (&standing, &observations));
        }
        let rooms = rooms(&s, &made, found, &standing);
        holes(design, &s, &made, &rooms, &standing);
        rest_table(design, &made, drawn.as_ref(), found, shims, &rooms);
    }
    figures(design, &landing, &standing, found.as_ref(), shims.as_ref(), &names);
}

/// Readings that do not tell how it stands are not passed over.
fn untold(design: &mut Design, count: usize, why: &InputError) {
    let next = "look at their values and instruments, and at what is stated of the seats".to_string();
    let because = format!("{count} readings do not tell how it stands: {why}; the landing is taken as drawn");
    let value = (Value::Count(count as u32), Limit::None);
    design.told(&AGREE, AGREE.what.into(), Verdict::Caution, value, because, Some(next));
}

/// What the tape reads of a length that is known tells its scale.
fn teaches(design: &mut Design, s: &Spec) {
    let (Some(known), unit) = (&s.known_length, design.header.unit) else { return };
    let found = design.dimension(&read::KNOWN_LENGTH.size()).and_then(|d| d.readings.iter().rfind(|r| r.counts));
    let Some((Value::Length(reads), Value::Length(u), on)) = found.map(|r| (r.value.clone(), r.u.clone(), r.on)) else {
        return;
    };
    let tape = Tape { known: known.value, reads, u: Some(u), on: None };
    let say = |l: Length| crate::record::show::length(l, unit);
    let because = format!(
        "the tape reads {} ± {} (k = 2) of {}: {} are added to every metre; `setdown record PART --teach` writes it into shop.toml, and every line is corrected by it",
        say(reads),
        say(u.rounded()),
        say(known.value),
        say(tape.on_a_metre().rounded())
    );
    let value = Some(Value::Length(tape.on_a_metre().rounded()));
    design.finding(&SCALE, Verdict::Ok, value, Limit::None, because);
    design.lessons = vec![Lesson {
        key: "tape.reads",
        value: say(reads),
        u_key: "tape.reads_uncertainty",
        u: say(u.rounded()),
        on_key: "tape.measured_on",
        on: on.map(|day| day.to_string()),
        beside: vec![("tape.known", say(known.value))],
    }];
}

/// A cause in words.
fn said(cause: Cause, landing: &Landing, names: &[&str]) -> String {
    let seat = |i: usize| landing.seats().get(i).map_or("", |s| s.name.as_str());
    match cause {
        Cause::Reading(i) => format!("the reading of {}", names.get(i).unwrap_or(&"")),
        Cause::Place(i) => format!("the old place of the cup at {}", seat(i)),
        Cause::Height(i) => format!("the old height of {}", seat(i)),
    }
}

fn agree(design: &mut Design, landing: &Landing, standing: &Standing, names: &[&str]) {
    let say = design.say();
    let words = |cause: &Cause| said(*cause, landing, names);
    let most = standing.left_over.iter().flatten().map(|w| w.abs()).fold(0.0, f64::max);
    let most = (most * 100.0).round() / 100.0;
    let (verdict, because, next) = match &standing.agreement {
        Agreement::Agree => {
            let checked = standing.left_over.iter().flatten().count();
            let because = format!("{} readings, {checked} of them checked by others or by the old survey", names.len());
            (Verdict::Ok, because, None)
        }
        Agreement::OneOf(causes) => {
            let list = causes.iter().map(words).collect::<Vec<_>>().join(", ");
            let because = format!(
                "they contradict each other; what explains it best is {list}: which it is they cannot tell, and all is told as so much less sure"
            );
            (Verdict::Caution, because, Some(format!("measure again: {list}")))
        }
        Agreement::Wrong { cause, by, unless } => {
            let by = by.map_or_else(String::new, |by| format!(" by about {}", say.length(by.rounded())));
            let or = unless.map_or_else(String::new, |pair| {
                format!("; unless both of {} are", pair.iter().map(words).collect::<Vec<_>>().join(" and "))
            });
            let what = words(cause);
            let (because, next) = match cause {
                Cause::Reading(_) => (format!("{what} is off{by}{or}: it is left out"), format!("take {what} again")),
                Cause::Place(_) | Cause::Height(_) => (
                    format!("{what} does not hold any more{or}: the new readings count there"),
                    format!("look at the weld: {what} was another"),
                ),
            };
            (Verdict::Caution, because, Some(next))
        }
    };
    let at_most = Limit::AtMost(Value::Number(3.29));
    design.told(&AGREE, AGREE.what.into(), verdict, (Value::Number(most), at_most), because, next);
}

fn stands_table(design: &mut Design, landing: &Landing, standing: &Standing) {
    let rows = landing.seats().iter().zip(&standing.seats).map(|(seat, now)| {
        let length = |l: Length| Value::Length(l.rounded());
        vec![
            Value::Text(seat.name.clone()),
            length(seat.mismatch.x),
            length(seat.mismatch.y),
            length(now.mismatch.x),
            length(now.mismatch.y),
            length(now.sigma * 2.0),
            length(seat.height),
            length(seat.height + now.higher),
            length(now.height_sigma * 2.0),
        ]
    });
    let table = Table::new(
        sizes::STANDS_TABLE,
        "As drawn and as it stands by all readings: cup minus cone, and height of the seat, each with U (k = 2)",
        &[
            "seat",
            "drawn, x",
            "drawn, y",
            "stands, x",
            "stands, y",
            "U",
            "height drawn",
            "height stands",
            "U of height",
        ],
        rows.collect::<Vec<_>>(),
    );
    design.tabulate(table);
}

/// Nothing is cut or shimmed on readings that contradict each other.
const fn first(standing: &Standing) -> &'static str {
    match standing.agreement {
        Agreement::OneOf(_) => "not before the readings agree: ",
        Agreement::Agree | Agreement::Wrong { .. } => "",
    }
}

fn level(design: &mut Design, s: &Spec, found: &Rest, shims: &Shims, made: &Landing, standing: &Standing) {
    let (tilt, most) = (shims::tilt(found), shims::limit(s));
    let (verdict, next) = if tilt > most {
        (Verdict::Caution, Some(format!("{}shim {}", first(standing), shims.words(design.say(), made).join(", "))))
    } else {
        (Verdict::Ok, None)
    };
    let because = next.clone().unwrap_or_else(|| "as level as it is to be".into());
    let limit = Limit::AtMost(Value::Angle(most));
    design.told(&LEVEL, LEVEL.what.into(), verdict, (Value::Angle(tilt), limit), because, next);
}

/// A gap that was felt and that the landing as it stands does not show: the readings leave open how the frame lies, since under the other
/// seats nothing was written. It is never in order; says whether it is so.
fn unfelt(design: &mut Design, made: &Landing, found: &Rest, observations: &[Observation]) -> bool {
    let say = design.say();
    let felt = observations.iter().filter_map(|o| match o.of {
        Observed::Gap(i) => Some((i, o.read, o.sigma * 2.0)),
        _ => None,
    });
    let felt: Vec<(usize, Length, Length)> = felt.collect();
    let stands = |i: usize| found.seats.get(i).map_or(Length::ZERO, |at| at.gap);
    // Where another corner hangs instead, the frame rocks from the one to the other, and that is told.
    let hangs = made.seats().iter().enumerate().any(|(i, seat)| seat.carries() && stands(i) > YIELDS);
    if hangs {
        return false;
    }
    let hidden = felt.iter().filter(|(i, read, u)| *read - *u > YIELDS && stands(*i) < *read - (*u + YIELDS));
    let Some((i, read, u)) = hidden.max_by(|a, b| a.1.as_mm().total_cmp(&b.1.as_mm())) else { return false };
    let seats = made.seats().iter().enumerate().filter(|(_, seat)| seat.carries());
    let left: Vec<&str> =
        seats.filter(|(j, _)| !felt.iter().any(|(k, ..)| k == j)).map(|(_, seat)| seat.name.as_str()).collect();
    let name = made.seats().get(*i).map_or("", |seat| seat.name.as_str());
    let next = if left.is_empty() {
        "set it down once more with its full weight and measure every gap again".to_string()
    } else {
        format!("record the gap of {} as well, 0 where it touches", left.join(", "))
    };
    let because = format!(
        "{name} was felt to hang free by {} ± {} (k = 2), and the readings do not tell on which of the others the frame lies: {next}",
        say.length(read.rounded()),
        say.length(u.rounded())
    );
    let limit = Limit::AtMost(Value::Length(YIELDS));
    let value = (Value::Length(read.rounded()), limit);
    design.told(&BEARS, BEARS.what.into(), Verdict::Caution, value, because, Some(next));
    true
}

/// U of a gap that was felt is that of the gauge; of one that follows from heights, theirs.
fn doubt(i: usize, standing: &Standing, observations: &[Observation]) -> Length {
    let felt = observations.iter().filter(|o| o.of == Observed::Gap(i)).map(|o| o.sigma * 2.0).reduce(Length::min);
    let by_height = standing.seats.get(i).map_or(Length::ZERO, |s| s.height_sigma * 2.0);
    felt.map_or(by_height, |felt| felt.min(by_height))
}

fn bears(
    design: &mut Design,
    made: &Landing,
    found: &Rest,
    shims: &Shims,
    (standing, observations): (&Standing, &[Observation]),
) {
    let say = design.say();
    let seats = made.seats().iter().zip(&found.seats).enumerate().filter(|(_, (seat, _))| seat.carries());
    let Some((i, (seat, at))) = seats.max_by(|a, b| a.1.1.gap.as_mm().total_cmp(&b.1.1.gap.as_mm())) else { return };
    let gap = at.gap.rounded();
    let by_height = standing.seats.get(i).map_or(Length::ZERO, |s| s.height_sigma * 2.0);
    let u = doubt(i, standing, observations);
    let (verdict, next) = if gap > YIELDS {
        let shim = shims.words(say, made).join(", ");
        (Verdict::Caution, Some(format!("{}shim {shim}, then measure the gaps again", first(standing))))
    } else {
        (Verdict::Ok, None)
    };
    let said = next.clone().unwrap_or_else(|| "what frame and crossbars yield closes it".into());
    let because = if gap > Length::ZERO {
        format!("{} hangs free by {} ± {} (k = 2): {said}", seat.name, say.length(gap), say.length(u.rounded()))
    } else {
        format!("every seat bears; how high each stands is known to about {} (k = 2)", say.length(by_height.rounded()))
    };
    let limit = Limit::AtMost(Value::Length(YIELDS));
    design.told(&BEARS, BEARS.what.into(), verdict, (Value::Length(gap), limit), because, next);
}

/// Room of one hole as it stands.
struct Room {
    seat: usize,
    /// What is left at its tightest place, U taken off; below nought: so far it is to be opened.
    left: Length,
    /// Towards where, from the middle of the hole.
    towards: Angle,
    /// Plate left beside the hole once it is opened, where it is to be and the plate is known.
    land: Option<Length>,
}

fn rooms(s: &Spec, made: &Landing, found: &Rest, standing: &Standing) -> Vec<Room> {
    let one = |(i, (seat, at)): (usize, (&Seat, &crate::formulas::frame::rest::SeatRest))| {
        let u = standing.seats.get(i).map_or(Length::ZERO, |s| s.sigma * 2.0);
        let (taken, room) = match seat.kind {
            SeatKind::Clear { clearance, .. } => (at.offset, clearance),
            SeatKind::Slot { direction, travel } if travel.is_finite() => {
                let along = at.offset.x * direction.cos() + at.offset.y * direction.sin();
                (Plan { x: along * direction.cos(), y: along * direction.sin() }, travel)
            }
            _ => return None,
        };
        let left = (room - taken.length() - u).rounded();
        // The cone stands off the middle of the hole against the way in which the cup is off the cone.
        let towards = (taken * -1.0).direction();
        let cup = s.seats.get(i).and_then(|spec| spec.cup.as_ref());
        let land = cup.filter(|_| left < Length::ZERO).map(|cup| {
            let (x, y) = cup.plate.extent();
            let ring = match seat.kind {
                SeatKind::Slot { travel, .. } => entry_ring(cup) / 2.0 + travel,
                _ => entry_ring(cup) / 2.0,
            };
            x.min(y) / 2.0 - ring + left
        });
        Some(Room { seat: i, left, towards, land })
    };
    made.seats().iter().zip(&found.seats).enumerate().filter_map(one).collect()
}

fn holes(design: &mut Design, s: &Spec, made: &Landing, rooms: &[Room], standing: &Standing) {
    let say = design.say();
    for room in rooms {
        let (Some(seat), Some(spec)) = (made.seats().get(room.seat), s.seats.get(room.seat)) else { continue };
        let open = room.left < Length::ZERO;
        let next = open.then(|| format!("{}{}", first(standing), opened(seat, room, say)));
        let because = next.clone().unwrap_or_else(|| format!("the cone has its room at {}, U taken off", seat.name));
        let verdict = if open { Verdict::Caution } else { Verdict::Ok };
        let limit = Limit::AtLeast(Value::Length(Length::ZERO));
        let what = format!("{}, {}", ROOM.what, seat.name);
        design.told(&ROOM, what, verdict, (Value::Length(room.left), limit), because, next);
        let Some(land) = room.land.map(Length::rounded) else { continue };
        let least = spec.cup.as_ref().map_or(plate(spec), |cup| cup.thickness.value);
        let bolted = spec.cup.as_ref().is_some_and(|cup| cup.mounting.is_some());
        let free = if bolted { "loosen its bolts, open their holes" } else { "cut its weld" };
        let next = (land < least).then(|| {
            format!(
                "{}{free} and set the cup at {} over by {} towards {}",
                first(standing),
                seat.name,
                say.length(-room.left),
                way(room.towards + Angle::degrees(180.0))
            )
        });
        let because = next.clone().unwrap_or_else(|| "it can be opened where it is: no weld is to be cut".into());
        let verdict = if next.is_some() { Verdict::Caution } else { Verdict::Ok };
        let what = format!("{}, {}", WELD.what, seat.name);
        design.told(&WELD, what, verdict, (Value::Length(land), Limit::AtLeast(Value::Length(least))), because, next);
    }
}

/// `open the hole at FR by 0.8 mm towards 120° from x (left and rear)`.
fn opened(seat: &Seat, room: &Room, say: Say) -> String {
    let by = say.length(-room.left);
    match seat.kind {
        SeatKind::Slot { .. } => format!("lengthen the slot at {} by {by} towards {}", seat.name, way(room.towards)),
        _ => format!("open the hole at {} by {by} towards {}", seat.name, way(room.towards)),
    }
}

/// An angle from x in words: front is +x, left is +y.
fn way(angle: Angle) -> String {
    let (x, y) = (angle.cos(), angle.sin());
    let least = 0.38;
    let along = [(x > least, "front"), (x < -least, "rear"), (y > least, "left"), (y < -least, "right")];
    let words: Vec<&str> = along.into_iter().filter(|(is, _)| *is).map(|(_, word)| word).collect();
    let turned = angle.as_degrees().rem_euclid(360.0);
    format!("{}° from x ({})", crate::record::show::trimmed(turned, 0), words.join(" and "))
}

fn rest_table(design: &mut Design, made: &Landing, drawn: Option<&Rest>, found: &Rest, shims: &Shims, rooms: &[Room]) {
    let say = design.say();
    let rows = made.seats().iter().zip(&found.seats).enumerate().map(|(i, (seat, at))| {
        let before = drawn.and_then(|r| r.seats.get(i)).map_or(Length::ZERO, |r| r.gap);
        let shim = shims.amounts.get(i).copied().unwrap_or(Length::ZERO);
        let open = rooms.iter().find(|r| r.seat == i && r.left < Length::ZERO);
        let hole = open.map_or_else(|| "as it is".to_string(), |room| opened(seat, room, say));
        vec![
            Value::Text(seat.name.clone()),
            Value::Length(before.rounded()),
            Value::Length(at.gap.rounded()),
            Value::Length(at.offset.length().rounded()),
            Value::Force(at.load),
            Value::Length(shim.rounded()),
            Value::Text(hole),
        ]
    });
    let table = Table::new(
        sizes::STANDS_REST_TABLE,
        "At rest as it stands: what hangs free, and what is put under which corner",
        &["seat", "gap as drawn", "gap as it stands", "off centre", "load", "shim", "hole"],
        rows.collect::<Vec<_>>(),
    );
    design.at_hand.push(sizes::STANDS_REST_TABLE);
    design.tabulate(table);
}

/// For programs.
fn figures(
    design: &mut Design,
    landing: &Landing,
    standing: &Standing,
    found: Option<&Rest>,
    shims: Option<&Shims>,
    names: &[&str],
) {
    let number = |x: f64| (x * 1e6).round() / 1e6;
    let mm = |l: Length| number(l.as_mm());
    let seats = landing.seats().iter().zip(&standing.seats).enumerate().map(|(i, (seat, now))| {
        let at = found.and_then(|f| f.seats.get(i));
        serde_json::json!({
            "name": seat.name,
            "mismatch_drawn_mm": [mm(seat.mismatch.x), mm(seat.mismatch.y)],
            "mismatch_mm": [mm(now.mismatch.x), mm(now.mismatch.y)], "mismatch_u_mm": mm(now.sigma * 2.0),
            "higher_mm": mm(now.higher), "higher_u_mm": mm(now.height_sigma * 2.0),
            "offset_mm": at.map(|a| mm(a.offset.length())), "gap_mm": at.map(|a| mm(a.gap)),
            "shim_mm": shims.and_then(|s| s.amounts.get(i)).map(|l| mm(*l)),
        })
    });
    let words = |cause: &Cause| said(*cause, landing, names);
    let (agreement, causes, or_both_of) = match &standing.agreement {
        Agreement::Agree => ("agree", Vec::new(), Vec::new()),
        Agreement::OneOf(causes) => ("one of these", causes.iter().map(words).collect(), Vec::new()),
        Agreement::Wrong { cause, unless, .. } => {
            ("wrong", vec![words(cause)], unless.iter().flatten().map(words).collect())
        }
    };
    let readings = names
        .iter()
        .zip(&standing.left_over)
        .map(|(name, w)| serde_json::json!({ "of": name, "standardised": w.map(number) }));
    let object = serde_json::json!({
        "seats": seats.collect::<Vec<_>>(), "agreement": agreement, "of": causes, "or_both_of": or_both_of,
        "readings": readings.collect::<Vec<_>>(),
    });
    design.figures.insert("landing_as_made", object);
}
