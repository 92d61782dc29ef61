//! Supports in one plane: nearly level heights made exactly so, and the load shared among more supports than statics
//! can tell apart.

use super::loads::{spring_plane_all, spring_shares};
use super::model::{Landing, Seat, SeatKind};
use super::outcome::{Carrier, SeatRest};
use crate::units::{Force, Length};

/// Heights closer than this to one plane are that plane: any seat yields by more under its load.
/// Source: common practice, no source.
const LEVEL_WITHIN: Length = Length::um(10.0);
/// What counts as touching once the heights are level: far below anything measured, far above rounding.
const TOUCHES_WITHIN: Length = Length::um(0.001);
/// A sideways force below this part of the whole load is rounding.
const NO_FORCE: f64 = 1e-6;

impl Landing {
    /// The landing with the heights of its supports put onto their common plane where they lie within ten micrometres of
    /// it. Rounding of heights and places then decides no longer which three of four supports carry.
    pub fn levelled(mut self) -> Self {
        let carrying: Vec<&Seat> = self.seats().iter().filter(|s| s.carries()).collect();
        let at: Vec<[f64; 2]> = carrying.iter().map(|s| s.at.pair()).collect();
        // The plane through springs of those heights: each seat's own row of shares weighs them.
        let plane = |seat: &Seat| -> Length {
            spring_plane_all(&at, seat.at.pair()).iter().zip(&carrying).map(|(share, s)| s.height * *share).sum()
        };
        let planes: Vec<Length> = self.seats().iter().map(plane).collect();
        let near = |(seat, plane): (&Seat, &Length)| !seat.carries() || (seat.height - *plane).abs() <= LEVEL_WITHIN;
        if carrying.len() > 3 && self.seats().iter().zip(&planes).all(near) {
            for (seat, plane) in self.seats_mut().iter_mut().zip(planes).filter(|(seat, _)| seat.carries()) {
                seat.height = plane;
            }
        }
        self
    }
}

/// Whether a seat touches there in such a way that it can only press upward.
fn touches_flat(seat: &Seat, at: &SeatRest) -> bool {
    if at.gap > TOUCHES_WITHIN || !seat.carries() {
        return false;
    }
    let faced = seat.face.is_some_and(|face| (at.lift + seat.height - face).abs() <= TOUCHES_WITHIN);
    faced || at.lift <= TOUCHES_WITHIN
}

/// Where nothing pushes sideways, and every seat that touches is seated flat, statics leaves the loads of more than three
/// supports open. They are then shared as by equal springs, the least energy of all equilibria. Says whether it did so.
pub(super) fn share(landing: &Landing, seats: &mut [SeatRest]) -> bool {
    let down = landing.load().down();
    let pushed = |f: &Force| f.abs() > down * NO_FORCE;
    let flat: Vec<bool> = landing.seats().iter().zip(seats.iter()).map(|(seat, at)| touches_flat(seat, at)).collect();
    let count = flat.iter().filter(|flat| **flat).count();
    let open = seats.iter().zip(&flat).all(|(at, flat)| *flat || !(pushed(&at.load) || at.side.iter().any(pushed)));
    if count <= 3 || !open || landing.load().side.iter().any(pushed) {
        return false;
    }
    let supports = landing.seats().iter().zip(&flat).filter(|(_, flat)| **flat);
    let at: Vec<[f64; 2]> = supports.map(|(seat, _)| seat.at.pair()).collect();
    let shares = spring_shares(&at, landing.load().foot().pair());
    let touching = landing.seats().iter().zip(seats.iter_mut()).zip(&flat).filter(|(_, flat)| **flat);
    for (((seat, at), _), share) in touching.zip(shares) {
        at.load = down * share;
        at.side = [Force::ZERO; 2];
        at.carrier = carrier(seat, at);
        at.touching = at.carrier != Carrier::Nothing;
    }
    true
}

/// What carries a seat that is seated flat.
fn carrier(seat: &Seat, at: &SeatRest) -> Carrier {
    match seat.kind {
        _ if at.load <= Force::ZERO => Carrier::Nothing,
        _ if at.lift > TOUCHES_WITHIN => Carrier::Face,
        SeatKind::Pad | SeatKind::Clear { .. } => Carrier::Pad,
        SeatKind::Round | SeatKind::Slot { .. } => Carrier::Cone,
    }
}
