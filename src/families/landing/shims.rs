//! What is put under which seat so that the frame lies level and every seat bears: the amounts, worked again with them.

use crate::formulas::frame::rest::{Rest, rest};
use crate::formulas::frame::{Landing, Plan, Seat, SeatKind};
use crate::record::design::{Design, Finding, Verdict};
use crate::record::show::Say;
use crate::units::{Angle, Length};

use super::read::Spec;
use super::seated::SEATED_WITHIN;

/// Tilt from which a caution is told where none is written: 1.75 mm on a metre.
/// Source: common practice, no source.
pub const USUAL_LEVEL: Angle = Angle::degrees(0.1);

/// Nothing thinner is put under a seat. Source: common practice, no source.
const THINNEST: Length = Length::mm(0.01);

/// Findings that say nothing of their own while a seat hangs that a shim cures.
const AFTER_SHIMS: [&str; 4] = ["heat", "arrangement", "left_hanging", "slope_home"];

/// Where shims cure the set that stands, they come before what else a hanging seat brings with it.
pub fn come_first(design: &mut Design, landing: &Landing, shims: Option<&Shims>) {
    let Some(cure) = shims.and_then(|shims| shims.cure(design.say(), landing)) else { return };
    let bad = |f: &&mut Finding| f.verdict > Verdict::Ok && AFTER_SHIMS.contains(&f.key.as_str());
    for finding in design.findings.iter_mut().filter(bad) {
        finding.clearing.why_none = Some(format!("first {cure}; what is left then is told anew"));
    }
}

/// The tilt that is allowed.
pub fn limit(s: &Spec) -> Angle {
    s.level.as_ref().map_or(USUAL_LEVEL, |l| l.value)
}

/// Where a shim goes: a clear seat keeps its room where its cone comes up with its pad.
pub const UNDER: &str = "under the cone, at a clear seat under cone and pad alike";

/// Shims, seat by seat.
pub struct Shims {
    /// In the order of the seats; nought where none is needed.
    pub amounts: Vec<Length>,
    /// Tilt of the frame with them in place; `None`: it finds no place.
    pub tilt: Option<Angle>,
    /// With them it lies level at one place, and every seat bears.
    pub cures: bool,
}

/// Roll and pitch together.
pub fn tilt(rest: &Rest) -> Angle {
    Angle::degrees(libm::hypot(rest.pose.roll.as_degrees(), rest.pose.pitch.as_degrees()))
}

impl Shims {
    /// Where the frame lies crooked beyond what is allowed every low seat is brought up to the highest; else a seat that
    /// hangs free is brought up to the plane on which the others hold the frame. What a rim lifts that stands on a flank is
    /// no shim's matter.
    /// Source: derived; a frame on seats of one height lies level.
    pub fn of(s: &Spec, landing: &Landing, found: &Rest) -> Self {
        let seats = landing.seats();
        let top = seats.iter().filter(|seat| seat.carries()).map(|seat| seat.height).reduce(Length::max);
        let crooked = tilt(found) > limit(s);
        let amount = |(seat, under): (&Seat, Length)| match top {
            Some(top) if crooked && seat.carries() => (top - seat.height).rounded(),
            _ => under.rounded(),
        };
        let told = |by: Length| if by < THINNEST { Length::ZERO } else { by };
        let amounts: Vec<Length> = seats.iter().zip(under_the_plane(landing)).map(amount).map(told).collect();
        let shimmed = landing_with(landing, &amounts).and_then(|landing| rest(&landing).ok());
        let bears = |rest: &Rest| {
            let mut at = seats.iter().zip(&rest.seats).filter(|(seat, _)| seat.carries());
            at.all(|(_, at)| at.gap <= SEATED_WITHIN && at.lift <= SEATED_WITHIN)
        };
        let cures = |rest: &Rest| rest.unique() && tilt(rest) <= limit(s) && bears(rest);
        Self { tilt: shimmed.as_ref().map(tilt), cures: shimmed.as_ref().is_some_and(cures), amounts }
    }

    /// What they do for a seat that hangs, where they do: what is done, and what is written then.
    pub fn cure(&self, say: Say, landing: &Landing) -> Option<String> {
        let words = self.words(say, landing).join(", ");
        (self.cures && !words.is_empty())
            .then(|| format!("shim {words}, {UNDER}, and write so much more as height of each"))
    }

    /// `A by 9.04 mm`, of all that are not nought.
    pub fn words(&self, say: Say, landing: &Landing) -> Vec<String> {
        let some = landing.seats().iter().zip(&self.amounts).filter(|(_, by)| **by > Length::ZERO);
        some.map(|(seat, by)| format!("{} by {}", seat.name, say.length(*by))).collect()
    }
}

/// How far every seat stands under the plane on which the frame would lie were each of them flat, in their order; nought of a
/// seat that carries nothing.
pub fn under_the_plane(landing: &Landing) -> Vec<Length> {
    let flat = |seat: &Seat| Seat { kind: SeatKind::Pad, face: None, mismatch: Plan::default(), ..seat.clone() };
    let carrying: Vec<Seat> = landing.seats().iter().filter(|seat| seat.carries()).map(flat).collect();
    let found = Landing::new(carrying, landing.load().clone()).ok().and_then(|flat| rest(&flat).ok());
    let mut gaps = found.into_iter().flat_map(|found| found.seats).map(|at| at.gap);
    let under = |seat: &Seat| if seat.carries() { gaps.next().unwrap_or(Length::ZERO) } else { Length::ZERO };
    landing.seats().iter().map(under).collect()
}

/// The landing with every seat higher by its shim.
pub fn landing_with(landing: &Landing, amounts: &[Length]) -> Option<Landing> {
    let seat = |(seat, by): (&Seat, &Length)| {
        let mut seat = seat.clone();
        seat.height = seat.height + *by;
        seat.face = seat.face.map(|face| face + *by);
        seat
    };
    Landing::new(landing.seats().iter().zip(amounts).map(seat).collect(), landing.load().clone())
        .ok()
        .map(Landing::levelled)
}
