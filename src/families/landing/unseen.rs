//! What a wrong tape reading could do unseen: the smallest blunder that each reading could show, how far it would move the
//! seats, and whether that is more than the room there.

use crate::formulas::frame::rest::{Rest, rest};
use crate::formulas::frame::{Landing, Plan, SeatKind};
use crate::formulas::survey::{Judged, Verdict as SurveyVerdict};
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::source::Source;
use crate::units::Length;

use super::growth;
use super::places::{Adjusted, Places, transferred};
use super::read::Spec;
use super::results::Results;
use super::rooms;

const RELIABILITY: Source =
    Source::Memory("external reliability after Baarda: effect of the smallest blunder found in 80 of 100, 4.13 sigma");
const CONES: Check = Check {
    key: "survey_cones_unseen",
    what: "shift of a seat by a wrong reading that could pass unseen, cones",
    worst: Verdict::Caution,
    source: RELIABILITY,
};
const CUPS: Check = Check {
    key: "survey_cups_unseen",
    what: "shift of a seat by a wrong reading that could pass unseen, cups",
    worst: Verdict::Caution,
    source: RELIABILITY,
};

/// What is taken for a slip of the tape where nothing checks a reading: hooked or read one decimetre wrong.
/// Source: common practice, no source.
const SLIP: Length = Length::mm(100.0);
/// Readings, those that move the seats most, of which the frame's rest is worked.
const WORKED: usize = 24;

/// The reading of one survey whose blunder could do the most unseen.
pub struct Unseen {
    reading: String,
    /// How wrong it could be; `None`: nothing checks it.
    blunder: Option<Length>,
    /// The line that would check it best.
    helped_by: Option<String>,
    seat: usize,
    /// How much farther off its middle the cone of that seat would lie.
    shift: Length,
    /// Room that is left there.
    room: Length,
}

impl Unseen {
    /// Whether it would do harm.
    pub fn harms(&self) -> bool {
        self.shift.rounded() > self.room.rounded()
    }
}

/// The worst of each survey, cones and cups; nothing where no survey decides where the cups are.
pub fn worst(s: &Spec, places: &Places, landing: &Landing, r: &Results) -> [Option<Unseen>; 2] {
    let free = rooms::without_bounds(landing).filter(|_| !transferred(s));
    let Some(free) = free else { return [None, None] };
    let Ok(as_it_is) = rest(&free) else { return [None, None] };
    let of = |network: &Option<Adjusted>| {
        let network = network.as_ref()?;
        let agree = matches!(network.survey.verdict, SurveyVerdict::Agree);
        agree.then(|| worst_of(s, network, (&free, &as_it_is), landing, r)).flatten()
    };
    [of(&places.cones), of(&places.cups)]
}

/// The readings that move the seats most, each made wrong by what it could hide, both ways.
fn worst_of(s: &Spec, n: &Adjusted, free: (&Landing, &Rest), landing: &Landing, r: &Results) -> Option<Unseen> {
    let moved = |j: &Judged| -> Vec<Plan> {
        let by = j.detectable.unwrap_or(SLIP).as_mm();
        // A place that was measured by itself does not follow the survey.
        let own = |(pull, seat): (Plan, &super::SeatSpec)| pull * if seat.mismatch.is_some() { 0.0 } else { by };
        n.pulls(j, &s.seats).into_iter().zip(&s.seats).map(own).collect()
    };
    let mut all: Vec<(&Judged, Vec<Plan>)> = n.survey.readings.iter().map(|j| (j, moved(j))).collect();
    let farthest = |moved: &[Plan]| moved.iter().map(|p| p.length()).fold(Length::ZERO, Length::max);
    all.sort_by(|a, b| farthest(&b.1).as_mm().total_cmp(&farthest(&a.1).as_mm()));
    let tried = all.iter().take(WORKED).flat_map(|(j, moved)| [(j, moved, 1.0), (j, moved, -1.0)]);
    let found = tried.filter_map(|(j, moved, way)| {
        let (seat, shift, room) = harm(s, free, landing, r, moved, way)?;
        let line = |(a, b): &(String, String)| format!("{a}-{b}");
        Some(Unseen {
            reading: format!("{}-{}", j.from, j.to),
            blunder: j.detectable,
            helped_by: j.helped_by.as_ref().map(line),
            seat,
            shift,
            room,
        })
    });
    found.reduce(|a, b| if b.shift - b.room > a.shift - a.room { b } else { a })
}

/// The seat that suffers most when all cups stand off by `moved`: how much farther its cone lies off, and the room there.
fn harm(
    s: &Spec,
    (free, as_it_is): (&Landing, &Rest),
    landing: &Landing,
    r: &Results,
    moved: &[Plan],
    way: f64,
) -> Option<(usize, Length, Length)> {
    let off =
        |(seat, by): (&crate::formulas::frame::Seat, &Plan)| seat.clone().with_mismatch(seat.mismatch + *by * way);
    let shaken = Landing::new(free.seats().iter().zip(moved).map(off).collect(), free.load().clone()).ok()?;
    // A frame that finds no place at all is the worst that a reading can hide.
    let Ok(shaken) = rest(&shaken) else {
        let farthest = moved.iter().enumerate().max_by(|a, b| a.1.length().as_mm().total_cmp(&b.1.length().as_mm()));
        return farthest.map(|(i, _)| (i, Length::mm(f64::INFINITY), Length::ZERO));
    };
    let swing = s.swing();
    let one = |(i, seat): (usize, &crate::formulas::frame::Seat)| {
        let (now, then) = (as_it_is.seats.get(i)?.offset, shaken.seats.get(i)?.offset);
        let room = || r.rooms.iter().find(|room| room.seat == i);
        let (shift, room) = match seat.kind {
            SeatKind::Slot { direction, .. } => {
                let along = |p| growth::along(p, direction).abs();
                (along(then) - along(now), room()?.left()?)
            }
            SeatKind::Clear { .. } => (then.length() - now.length(), room()?.left()?),
            SeatKind::Round => {
                let catch = r.catches.get(i)?;
                let by = (catch.mismatch + *moved.get(i)? * way).length() - catch.mismatch.length();
                (by, catch.capture - catch.mismatch.length() - swing)
            }
            SeatKind::Pad => return None,
        };
        // Where there is no room as it is, that is told already.
        (room > Length::ZERO).then_some((i, shift.max(Length::ZERO), room))
    };
    let seats = landing.seats().iter().enumerate().filter_map(one);
    seats.reduce(|a, b| if b.1 - b.2 > a.1 - a.2 { b } else { a })
}

/// Tells for each survey what it could hide.
pub fn judge(design: &mut Design, s: &Spec, places: &Places, hides: &[Option<Unseen>; 2]) {
    let say = design.say();
    let networks = [(&CONES, &places.cones), (&CUPS, &places.cups)];
    for ((check, network), found) in networks.into_iter().zip(hides) {
        let (Some(found), Some(network)) = (found, network) else { continue };
        let name = s.seats.get(found.seat).map_or("", |seat| seat.name.as_str());
        let wrong = match found.blunder {
            Some(by) => format!("{} could be {} wrong and pass unseen", found.reading, say.length(by)),
            None => format!("nothing checks {}: were it {} wrong", found.reading, say.length(SLIP)),
        };
        let does = if found.shift.is_finite() {
            let (shift, room) = (say.length(found.shift), say.length(found.room));
            format!("{wrong}; the cone of {name} would lie {shift} farther off, where {room} are left")
        } else {
            format!("{wrong}; the frame would find no place at all, {name} moved most")
        };
        let (verdict, because) = if found.harms() {
            (Verdict::Caution, format!("{does}: {}", more(network, found)))
        } else {
            (Verdict::Ok, does)
        };
        let (shift, room) = (Value::Length(found.shift.rounded()), Value::Length(found.room.rounded()));
        let (shift, limit) =
            if found.shift.is_finite() { (Some(shift), Limit::AtMost(room)) } else { (None, Limit::None) };
        design.finding(check, verdict, shift, limit, because);
    }
}

/// What to measure more.
fn more(network: &Adjusted, found: &Unseen) -> String {
    let measured = |line: &str| {
        network.survey.readings.iter().any(|j| {
            let (one, other) = (format!("{}-{}", j.from, j.to), format!("{}-{}", j.to, j.from));
            one == line || other == line
        })
    };
    match &found.helped_by {
        Some(line) if !measured(line) => format!("measure {line} as well, and {} once more", found.reading),
        _ => format!(
            "measure {} once more with the tape hooked afresh, and all lines from one more point well outside",
            found.reading
        ),
    }
}
