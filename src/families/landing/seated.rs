//! Whether the landing that stands seats fully, and whether it stays: a set as good as the best is not made anew.

use crate::formulas::frame::arrangement::{Arrangement, Judged};
use crate::formulas::frame::rest::{Carrier, Rest};
use crate::formulas::frame::{Landing, SeatKind};
use crate::units::Length;

use super::rooms::Room;

/// A seat counts as seated with no more gap or lift than this.
/// Source: common practice, no source.
pub const SEATED_WITHIN: Length = Length::mm(0.2);
/// What is better by less than this is as good.
pub const MARKEDLY: f64 = 1.03;

/// The cone that stands highest in its cup, slot or clear hole, and how high; with its name. A pad that hangs free is
/// another matter.
pub fn highest(landing: &Landing, rest: &Rest) -> (String, Length) {
    let lifts = landing.seats().iter().zip(&rest.seats).filter(|(s, at)| match s.kind {
        SeatKind::Pad => false,
        SeatKind::Clear { .. } => at.carrier == Carrier::Flank,
        SeatKind::Round | SeatKind::Slot { .. } => true,
    });
    lifts
        .map(|(s, at)| (s.name.clone(), at.lift.max(at.gap)))
        .fold((String::new(), Length::ZERO), |a, b| if b.1 > a.1 { b } else { a })
}

/// The pair that stands now, where it is such a set and seats.
pub fn standing<'a>(landing: &Landing, rest: Option<&Rest>, rooms: &[Room], a: &'a Arrangement) -> Option<&'a Judged> {
    if !stands_so(landing, rest, rooms) {
        return None;
    }
    a.pairs.iter().find(|j| {
        let kind = |i: usize| landing.seats().get(i).map(|s| s.kind);
        kind(j.pair.round) == Some(SeatKind::Round) && matches!(kind(j.pair.slot), Some(SeatKind::Slot { .. }))
    })
}

/// Whether the landing is already one round cup and one slot that points at it and is long enough, the rest clear, and
/// seats.
fn stands_so(landing: &Landing, rest: Option<&Rest>, rooms: &[Room]) -> bool {
    let of = |wanted: fn(&SeatKind) -> bool| landing.seats().iter().filter(|s| wanted(&s.kind)).count();
    let one = of(|k| *k == SeatKind::Round) == 1 && of(|k| matches!(k, SeatKind::Slot { .. })) == 1;
    let bears = |rest: &Rest| rest.seats.iter().all(|at| at.gap <= SEATED_WITHIN);
    let seats = |rest: &Rest| rest.unique() && bears(rest) && highest(landing, rest).1 <= SEATED_WITHIN;
    one && rest.is_some_and(seats) && rooms.iter().all(Room::suffices)
}

/// One sum decides, the one by which the table ranks.
pub fn as_good(best: &Judged, other: &Judged) -> bool {
    other.score.is_finite() && other.score <= best.score * MARKEDLY
}

/// Is what stands one round cup, one slot and clear holes: a set that comes down without luck?
pub fn is_pair(landing: &Landing) -> bool {
    let count = |kind: fn(&SeatKind) -> bool| landing.seats().iter().filter(|s| kind(&s.kind)).count();
    let (round, slots) = (count(|k| *k == SeatKind::Round), count(|k| matches!(k, SeatKind::Slot { .. })));
    let clear = count(|k| matches!(k, SeatKind::Clear { .. }));
    round == 1 && slots == 1 && round + slots + clear == landing.seats().len()
}

/// Does the set that stands now stay: the best pair, or as good?
pub fn is_kept(landing: &Landing, rest: Option<&Rest>, rooms: &[Room], a: &Arrangement) -> bool {
    let now = standing(landing, rest, rooms, a).zip(a.pairs.first());
    now.is_some_and(|(now, best)| now.pair == best.pair || as_good(best, now))
}
