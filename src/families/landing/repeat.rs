//! How well the frame as it is built comes back to its place, set down again and again: what friction leaves, heat, a
//! trailer out of level, wear. Errors of building are the same at every set-down and do not count here.

use crate::formulas::frame::Landing;
use crate::formulas::frame::rest::{Rest, rest};
use crate::record::design::{Check, Design, Limit, Table, Value, Verdict};
use crate::record::show::{self, Say};
use crate::source::Source;
use crate::units::{Angle, Length};

use super::growth;
use super::read::{self, Spec};
use super::results::Results;
use super::rubbing::left_by_friction;
use super::sizes;
use super::slope::{self, Slope};

const COMES_BACK: Check = Check {
    key: "comes_back",
    what: "the frame as built brings the target back to its place within",
    worst: Verdict::Fail,
    source: Source::Derived("sum of the greatest shift by each cause, rest poses of the frame as built"),
};

/// Wear or dirt on one seat where nothing is written, in height. Source: common practice, no source.
const USUAL_WEAR: Length = Length::mm(0.1);

/// What moves the target from one set-down to the next.
pub struct Cause {
    pub what: &'static str,
    /// What is reckoned with.
    pub with: String,
    /// Greatest shift of the target in plan; `None`: the frame does not come to rest so.
    pub shift: Option<Length>,
}

fn wear(s: &Spec) -> Length {
    s.wear.as_ref().map_or(USUAL_WEAR, |w| w.value)
}

/// Every cause, with the shift of the target that it makes.
pub fn causes(s: &Spec, landing: &Landing, found: &Rest, r: &Results, slope: Option<&Slope>) -> Vec<Cause> {
    let say = Say(s.common.header.unit);
    let (target, height) = s.target.unwrap_or(s.centre);
    let moved = |other: &Rest| (other.pose.shift_at(target, height) - found.pose.shift_at(target, height)).length();
    let worst = |rests: Vec<Option<Rest>>| {
        rests.into_iter().map(|one| one.as_ref().map(moved)).try_fold(Length::ZERO, |most, one| Some(most.max(one?)))
    };
    let from = growth::held(landing);
    let grown = r.heated.iter().map(|end| {
        let pose = &end.rest.as_ref().ok()?.pose;
        let own = growth::growth(s, target - from) * end.way;
        Some((pose.shift_at(target, height) + own - found.pose.shift_at(target, height)).length())
    });
    let heat = grown.into_iter().try_fold(Length::ZERO, |most, one| Some(most.max(one?)));
    vec![
        Cause { what: "left by friction", with: friction_words(s, r), shift: Some(friction(s, r, slope)) },
        Cause {
            what: "temperature of the day",
            with: format!("{} K either way", show::trimmed(growth::change(s).as_kelvin(), 1)),
            shift: heat,
        },
        Cause {
            what: "base out of level",
            with: format!("{}° any way", show::trimmed(s.tilt().as_degrees(), 2)),
            shift: worst(tilted(landing, s.tilt())),
        },
        Cause { what: "wear or dirt on one seat", with: say.length(wear(s)), shift: worst(worn(landing, wear(s))) },
    ]
}

fn friction_words(s: &Spec, r: &Results) -> String {
    let say = Say(s.common.header.unit);
    format!("friction {}, set down up to {} off, level or out of level", r.rubbing.taken, say.length(s.swing()))
}

/// What it leaves on a level base or on one that leans, whichever is more; that it finds no place there is told by another cause.
fn friction(s: &Spec, r: &Results, slope: Option<&Slope>) -> Length {
    let leans = slope.and_then(|slope| slope.held.as_ref()).map_or(Length::ZERO, |held| held.left);
    left_by_friction(s, &r.held, &r.turned).max(leans)
}

/// At rest with the weight pulling aside, eight ways.
fn tilted(landing: &Landing, tilt: Angle) -> Vec<Option<Rest>> {
    slope::leaning(landing, tilt).into_iter().map(|(_, leaning)| rest(&leaning.ok()?).ok()).collect()
}

/// At rest with one seat after the other higher and lower.
fn worn(landing: &Landing, by: Length) -> Vec<Option<Rest>> {
    let one = |i: usize, change: Length| {
        let mut seats = landing.seats().to_vec();
        let seat = seats.get_mut(i)?;
        seat.height = seat.height + change;
        rest(&Landing::new(seats, landing.load().clone()).ok()?).ok()
    };
    (0..landing.seats().len()).flat_map(|i| [one(i, by), one(i, -by)]).collect()
}

/// Sum of all causes; `None` where one of them leaves it without a place.
pub fn total(causes: &[Cause]) -> Option<Length> {
    causes.iter().map(|c| c.shift).try_fold(Length::ZERO, |sum, one| Some(sum + one?))
}

/// Records what is reckoned with, the table, and the finding.
pub fn record(design: &mut Design, s: &Spec, causes: &[Cause]) {
    let say = design.say();
    if causes.is_empty() {
        return;
    }
    design.length_or(&read::WEAR, s.wear.as_ref(), USUAL_WEAR, "common practice");
    let row = |c: &Cause| {
        let shift = c.shift.map_or_else(|| Value::Text("no place".into()), |l| Value::Length(l.rounded()));
        vec![Value::Text(c.what.into()), Value::Text(c.with.clone()), shift]
    };
    design.tables.push(Table::new(
        sizes::COMES_BACK_TABLE,
        "How far the target may be off from one set-down to the next, the frame as built",
        &["cause", "reckoned with", "target off by"],
        causes.iter().map(row),
    ));
    let Some(sum) = total(causes) else {
        let stuck = causes.iter().find(|c| c.shift.is_none()).map_or("", |c| c.what);
        design.finding(&COMES_BACK, Verdict::Fail, None, None, format!("{stuck}: the frame finds no place then"));
        return;
    };
    let parts: Vec<String> =
        causes.iter().filter_map(|c| Some(format!("{} {}", c.what, say.length(c.shift?)))).collect();
    design.finding(
        &COMES_BACK,
        Verdict::Ok,
        Some(Value::Length(sum.rounded())),
        Limit::None,
        format!("{}; a cone in a round cup has no play of its own; what the cups wear off over many set-downs is not judged: measure the seat heights again each season", parts.join(", ")),
    );
}
