//! Places, readings and heights of a landing that betray a slip of the pen beside the others.

use std::collections::BTreeMap;

use crate::description::Fields;
use crate::families::common;
use crate::formulas::frame::Plan;
use crate::formulas::survey::Reading;
use crate::record::design::{Design, Verdict};
use crate::record::show::Say;
use crate::slip;
use crate::units::Length;

use super::heights::Heights;
use super::read::{self, Network, SeatSpec, Spec};

/// A reading may be off the places of its seats, or beyond what the other readings leave, by this part of it.
/// Source: common practice, no source.
const OFF: f64 = 0.2;
/// One seat may be so many times as far out as any other.
/// Source: common practice, no source.
const FARTHER: f64 = 5.0;
/// Two coordinates are alike within this part.
/// Source: common practice, no source.
const ALIKE: f64 = 0.03;
/// Crossbars of one rig lie within so much of one height.
/// Source: common practice, no source.
const STEP: Length = Length::mm(10.0);

/// Notes readings that would go with the seats, or with the other readings, after a slip; `true` where there is none.
pub fn readings_go(fields: &Fields, s: &Spec) -> bool {
    let say = Say(s.common.header.unit);
    let Some(survey) = fields.table(&read::SURVEY) else { return true };
    let mut sound = true;
    for (key, network) in [(&read::CONES, &s.cones), (&read::CUPS, &s.cups)] {
        let (Some(network), Some(table)) = (network, survey.table(key)) else { continue };
        let Some(rows) = table.text_rows(&read::READINGS) else { continue };
        for (row, reading) in rows.iter().zip(&network.readings) {
            let Some((least, greatest, beside)) = goes(reading, network, s) else { continue };
            let Some(slip) = slip::likely(reading.length, least, greatest) else { continue };
            let message = format!(
                "the reading {}-{} of {} does not go with {beside}",
                reading.from,
                reading.to,
                say.length(reading.length)
            );
            table.problem_in(row.span.clone(), message, Some(slip.question(reading.length, s.common.header.unit)));
            sound = false;
        }
    }
    sound
}

/// Between which lengths a reading goes: about the distance of its seats, or within what every triangle leaves.
fn goes(reading: &Reading, network: &Network, s: &Spec) -> Option<(Length, Length, &'static str)> {
    let at = |name: &str| s.seats.iter().find(|seat| seat.name == name).and_then(|seat| seat.at);
    if let (Some(a), Some(b)) = (at(&reading.from), at(&reading.to)) {
        let distance = (a - b).length();
        return Some((distance * (1.0 - OFF), distance * (1.0 + OFF), "the places of its seats"));
    }
    let (from, to) = (lines_from(network, &reading.from), lines_from(network, &reading.to));
    let triangles: Vec<(Length, Length)> = from.iter().filter_map(|(k, a)| Some((*a, *to.get(k)?))).collect();
    let mut least: Vec<Length> = triangles.iter().map(|(a, b)| (*a - *b).abs()).collect();
    let mut greatest: Vec<Length> = triangles.iter().map(|(a, b)| *a + *b).collect();
    least.sort_by(|a, b| b.as_mm().total_cmp(&a.as_mm()));
    greatest.sort_by(|a, b| a.as_mm().total_cmp(&b.as_mm()));
    // One triangle alone may hold the wrong reading itself: where there are more, two must say so.
    let said = triangles.len().min(2).checked_sub(1)?;
    let (least, greatest) = (*least.get(said)?, *greatest.get(said)?);
    // Where the others contradict each other, the slip is theirs.
    (least <= greatest).then_some((least * (1.0 - OFF), greatest * (1.0 + OFF), "the other readings"))
}

/// Lengths from a point to the others that it was measured to.
fn lines_from<'n>(network: &'n Network, point: &str) -> BTreeMap<&'n str, Length> {
    let ends = network.readings.iter().filter_map(|r| match (r.from == point, r.to == point) {
        (true, false) => Some((r.to.as_str(), r.length)),
        (false, true) => Some((r.from.as_str(), r.length)),
        _ => None,
    });
    ends.collect()
}

/// Tells places, heights and mismatches that would go with the others after a slip.
pub fn tell(design: &mut Design, s: &Spec, heights: &Heights) {
    for (i, seat) in s.seats.iter().enumerate() {
        let others: Vec<Plan> = s.seats.iter().enumerate().filter(|(j, _)| *j != i).filter_map(|(_, o)| o.at).collect();
        if let Some(at) = seat.at {
            place(design, seat, at, &others);
        }
        if let Some(height) = seat.height {
            let what = format!("the height of {}", seat.name);
            common::slip(design, Verdict::Caution, &what, height, (Length::ZERO, STEP), "the other seats");
        }
        let catches = super::own_capture(seat, heights);
        for off in seat.mismatch.iter().flat_map(|m| [m.x, m.y]) {
            let what = format!("a mismatch of {}", seat.name);
            common::slip(design, Verdict::Caution, &what, off, (Length::ZERO, catches), "what the cup catches");
        }
    }
}

/// A seat far beyond all others, or one that a slip would put opposite another.
fn place(design: &mut Design, seat: &SeatSpec, at: Plan, others: &[Plan]) {
    let farthest = others.iter().map(|o| o.x.abs().max(o.y.abs())).fold(Length::ZERO, Length::max);
    if farthest == Length::ZERO {
        return;
    }
    for (name, along) in [("x", at.x), ("y", at.y)] {
        if along.abs() > farthest * FARTHER {
            let what = format!("the place of {} along {name}", seat.name);
            common::slip(design, Verdict::Caution, &what, along, (Length::ZERO, farthest * 2.0), "the other seats");
        }
    }
    let mirrored = |size: Length, other: Length| {
        let off = (size.abs() - other.abs()).abs();
        off <= other.abs() * ALIKE
    };
    let near = at.x.abs().max(at.y.abs()) * FARTHER < farthest;
    for other in others.iter().filter(|o| near && o.x != Length::ZERO && o.y != Length::ZERO) {
        let goes = (other.x.abs() * (1.0 - ALIKE), other.x.abs() * (1.0 + ALIKE));
        let both = slip::likely(at.x, goes.0, goes.1).filter(|slip| mirrored(slip.corrected(at.y), other.y));
        if both.is_some() {
            let what = format!("the place of {}", seat.name);
            common::slip(design, Verdict::Caution, &what, at.x, goes, "the other seats");
            return;
        }
    }
}
