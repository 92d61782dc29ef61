//! How high every seat brings the frame, all over one datum, how high the pads beside clear holes must be, and what room a
//! clear hole leaves its cone at that height.

use crate::description::Fields;
use crate::families::common::packed;
use crate::families::cup;
use crate::families::cup::seat::corners;
use crate::formulas::seating;
use crate::units::Length;

use super::read::{SeatSpec, Spec};

/// Heights of all seats.
#[derive(Clone)]
pub struct Heights {
    /// Over the mean of the cups, in the order of the seats.
    pub seats: Vec<Length>,
    /// Pad that brings the frame level with the cups, or with the highest where the lower ones are shimmed to it; where none is
    /// written it is taken instead. `None` for a seat without a pad.
    pub pads: Vec<Option<Length>>,
    /// Lower and upper deviation of each by the limits of the sheets of cup and cone; nought on a pad, which is made to
    /// measure.
    pub rises: Vec<(Length, Length)>,
    /// Underside of the frame over the datum of the crossbars to which pads that are not written are made.
    level: Length,
    /// The same once every low cup is shimmed to the highest.
    frame: Length,
    /// What a pad that nobody has written is made higher than that, since the frame would hang free over it.
    raised: Vec<(String, Length)>,
}

/// Whether a seat stands on a pad instead of its cone.
pub fn on_pad(seat: &SeatSpec) -> bool {
    matches!(seat.kind, Some("clear" | "pad"))
}

/// Whether its pad is still to be made, as high as it is told.
pub fn is_left_out(seat: &SeatSpec) -> bool {
    on_pad(seat) && seat.pad.is_none()
}

/// What is packed under a cone that is bolted on.
pub fn packing(seat: &SeatSpec) -> Length {
    let bolt = seat.cone.bolt.as_ref().filter(|_| !seat.cone.weld_on);
    packed::thickness(bolt.and_then(|b| b.packing.as_ref()))
}

/// The face that the cone stands on, over the datum: the crossbar and what is packed under the cone.
pub fn face(seat: &SeatSpec) -> Length {
    seat.height.unwrap_or(Length::ZERO) + packing(seat)
}

/// The frame's underside over the face that the cone stands on: foot + seat height + what the films lift + plate + what is
/// packed over it. `None` for a pad.
pub fn frame_height(seat: &SeatSpec) -> Option<Length> {
    let cup = seat.cup.as_ref().filter(|_| !on_pad(seat))?;
    let films = cup::seat::film_rise(cup, &seat.cone);
    Some(seat.cone.foot_height() + seat_height(seat, cup) + films + plate(seat))
}

/// Seat height of the cup on its cone: as it was measured together with it, else by the sizes of both.
pub fn seat_height(seat: &SeatSpec, cup: &cup::read::Spec) -> Length {
    if let Some(gap) = cup.gap_made {
        return gap - seat.cone.foot_height();
    }
    seating::seat(seat.cone.base, seat.cone.half_angle, &corners(cup), Length::ZERO).map_or(Length::ZERO, |f| f.height)
}

/// What the limits of cup and cone leave of the seat height.
fn rise(seat: &SeatSpec, fields: &Fields) -> Option<(Length, Length)> {
    let cup = seat.cup.as_ref().filter(|_| !on_pad(seat))?;
    // What was measured on the cone has no limits any more.
    if cup.gap_made.is_some() {
        return Some((Length::ZERO, Length::ZERO));
    }
    let drawn = seat.cone.foot_height() + seat_height(seat, cup);
    let (lower, upper) = cup::gap_limits(cup, &seat.cone, fields)?;
    Some((lower - drawn, upper - drawn))
}

/// What the cup puts between its entry face and the frame: the plate, and the packing over it.
pub fn plate(seat: &SeatSpec) -> Length {
    seat.cup.as_ref().map_or(Length::ZERO, |cup| {
        cup.thickness.value + packed::thickness(cup.mounting.as_ref().and_then(|m| m.packing.as_ref()))
    })
}

/// Cups that differ by less are left as they stand, and the pads are made to the frame as it lies between them.
/// Source: common practice, no source.
const SHIMMED_FROM: Length = Length::mm(1.0);

fn mean(all: &[Length]) -> Option<Length> {
    (!all.is_empty()).then(|| all.iter().copied().sum::<Length>() / all.len() as f64)
}

impl Heights {
    /// The height of a crossbar is over one datum for all seats. A pad that is not written is made to bring the frame level with
    /// the highest cup over that datum, to which lower ones are shimmed, or half-way between cups that stand all but alike,
    /// whatever its own crossbar does; it is worked as it will be made. Heights count from the mean of the cups.
    pub fn of(s: &Spec, fields: &Fields) -> Self {
        let row = |seat: &SeatSpec| seat.height.unwrap_or(Length::ZERO);
        let cup = |seat: &SeatSpec| frame_height(seat).map(|built| built + packing(seat));
        let written = |seat: &SeatSpec| seat.pad.map(|pad| pad + plate(seat) + packing(seat));
        let top = |seat: &SeatSpec| cup(seat).map(|built| built + row(seat));
        let cups: Vec<Length> = s.seats.iter().filter_map(top).collect();
        let pads: Vec<Length> =
            s.seats.iter().filter_map(|seat| written(seat).map(|built| built + row(seat))).collect();
        let highest = cups.iter().copied().reduce(Length::max);
        let lowest = cups.iter().copied().reduce(Length::min);
        let alike = highest.zip(lowest).is_some_and(|(highest, lowest)| highest - lowest <= SHIMMED_FROM);
        let told = if alike { mean(&cups) } else { highest };
        let level = told.or_else(|| mean(&pads)).unwrap_or(Length::ZERO);
        let middle = mean(&cups).unwrap_or(level);
        let height = |seat: &SeatSpec| {
            let own = cup(seat).or_else(|| written(seat)).map(|built| built + row(seat)).unwrap_or(level);
            (own - middle).rounded()
        };
        let frame = highest.unwrap_or(level);
        let wanted = |seat: &SeatSpec| if seat.pad.is_some() { frame } else { level };
        let pad = |seat: &SeatSpec| on_pad(seat).then(|| (wanted(seat) - face(seat) - plate(seat)).rounded());
        let rises = s.seats.iter().map(|seat| rise(seat, fields).unwrap_or_default()).collect();
        Self {
            seats: s.seats.iter().map(height).collect(),
            pads: s.seats.iter().map(pad).collect(),
            rises,
            level,
            frame,
            raised: Vec::new(),
        }
    }

    /// With every pad that is left out made as high as the frame lies over it: by so much more, in the order of the seats, nought
    /// where it bears. `None` where none hangs, or one hangs by so much that the others are to be set right instead.
    pub fn raised(&self, s: &Spec, gaps: &[Length]) -> Option<Self> {
        let hangs = |(seat, gap): &(&SeatSpec, &Length)| is_left_out(seat) && **gap > Length::ZERO;
        let hanging = s.seats.iter().zip(gaps).filter(hangs);
        let raised: Vec<(String, Length)> = hanging.map(|(seat, gap)| (seat.name.clone(), gap.rounded())).collect();
        if raised.is_empty() || raised.iter().any(|(_, gap)| *gap > SHIMMED_FROM) {
            return None;
        }
        let mut heights = Self { raised, ..self.clone() };
        let more: Vec<Length> = s.seats.iter().map(|seat| heights.more(seat)).collect();
        heights.seats.iter_mut().zip(&more).for_each(|(height, by)| *height = (*height + *by).rounded());
        heights.pads.iter_mut().zip(&more).for_each(|(pad, by)| *pad = pad.map(|pad| (pad + *by).rounded()));
        Some(heights)
    }

    /// What its pad is made higher than one that is level with the cups.
    pub fn more(&self, seat: &SeatSpec) -> Length {
        self.raised.iter().find(|(name, _)| *name == seat.name).map_or(Length::ZERO, |(_, by)| *by)
    }

    /// The plate's entry face over the base of the cone, at a seat on a pad; at another, on the pad that it would have.
    pub fn entry(&self, seat: &SeatSpec) -> Length {
        let under = if on_pad(seat) { self.level + self.more(seat) } else { self.frame };
        seat.pad.unwrap_or(under - face(seat) - plate(seat)) - seat.cone.foot_height()
    }

    /// Diameter of the cone at the entry face of a seat on a pad.
    pub fn cone_there(&self, seat: &SeatSpec) -> Length {
        seating::diameter_at(seat.cone.base, seat.cone.half_angle, self.entry(seat)).max(Length::ZERO)
    }

    /// Radial room that the hole of the cup leaves its cone at the height of the pad, at its tightest ring; below nought:
    /// the cone seats in it before the pad bears. `None` without a cup or a pad.
    /// Source: derived; half of ring less cone at the depth of the ring.
    pub fn room(&self, seat: &SeatSpec) -> Option<Length> {
        let cup = seat.cup.as_ref().filter(|_| on_pad(seat))?;
        let cone = |depth: Length| seating::diameter_at(seat.cone.base, seat.cone.half_angle, self.entry(seat) + depth);
        corners(cup).iter().map(|c| (c.diameter - cone(c.depth)) / 2.0).reduce(Length::min)
    }

    /// Diameter of the clear hole at the entry face: as its cup has it, or what the written clearance makes.
    pub fn hole(&self, seat: &SeatSpec) -> Length {
        let written = seat.clearance.unwrap_or(Length::ZERO) * 2.0 + self.cone_there(seat);
        seat.cup.as_ref().map_or(written, super::entry_ring)
    }
}
