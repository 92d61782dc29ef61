//! How long the bolts of a bolted part are: what lies between head and nut, or head and thread, and the length that is sold.

use super::sizes;
use crate::record::design::{Design, Value};
use crate::record::show;
use crate::standards::bolting;
use crate::standards::threads::{Thread, ThreadKind};
use crate::units::Length;

/// What the bolts go through and into.
pub struct Stack {
    /// What the part itself puts between head and nut.
    pub part: Length,
    /// The wall that it is bolted to, where its thickness is written.
    pub wall: Option<Length>,
    /// That wall in words, and the key that states it.
    pub wall_is: (&'static str, &'static str),
    /// Washers on each bolt.
    pub washers: u32,
    /// Full thread of the part that they go into; none: a nut goes on.
    pub thread: Option<Length>,
}

/// Pitches that stand out beyond a nut: its chamfer and the bolt's. Source: common practice, no source.
const BEYOND_NUT: f64 = 2.0;

impl Stack {
    fn washers(&self, thread: &Thread) -> Length {
        bolting::washer(thread).value * f64::from(self.washers)
    }

    /// What is clamped beside the wall.
    pub fn past_the_wall_without_nut(&self, thread: &Thread) -> Length {
        self.part + self.washers(thread)
    }

    /// What the bolt has to be longer than the wall by: at least that for a nut, at most that in a blind thread.
    fn past_the_wall(&self, thread: &Thread) -> Length {
        let other = self.past_the_wall_without_nut(thread);
        match self.thread {
            // Below the full thread lies what the drill goes deeper.
            Some(depth) => other + depth,
            None => other + bolting::nut_height(thread).value + thread.pitch * BEYOND_NUT,
        }
    }

    /// The bolt that is sold; `None` where the wall is not known or none is.
    pub fn sold(&self, thread: &Thread) -> Option<Length> {
        let right = self.wall? + self.past_the_wall(thread);
        if self.thread.is_some() { bolting::sold_to(thread, right) } else { bolting::sold_from(thread, right) }
    }

    /// How much of the thread that it goes into takes the bolt.
    pub fn engaged(&self, thread: &Thread) -> Option<Length> {
        let within = self.sold(thread)? - self.wall? - self.part - self.washers(thread);
        Some(within.min(self.thread?).max(Length::ZERO))
    }

    /// Records what is clamped and the bolt's length, or what is known of it.
    pub fn record(&self, design: &mut Design, thread: &Thread) {
        let (Some(wall), Some(sold)) = (self.wall, self.sold(thread)) else {
            let beyond = sizes::BOLT_BEYOND_WALL.called(format!("length of the bolts beyond the {}", self.wall_is.0));
            let formula = match self.thread {
                Some(_) => "at most: washer + full thread",
                None => "at least: part + washers + nut + 2 pitches",
            };
            design.computed_length(&beyond, self.past_the_wall(thread), formula);
            return;
        };
        let grip = wall + self.past_the_wall_without_nut(thread);
        design.computed_length(&sizes::BOLT_GRIP, grip, "wall + part + washers");
        design.computed_length(
            &sizes::BOLT_LENGTH,
            sold,
            match (self.thread, thread.kind) {
                (Some(_), ThreadKind::Metric) => {
                    "longest sold that ends in the full thread at its greatest (ISO 888, js15 of ISO 4759-1)"
                }
                (None, ThreadKind::Metric) => "shortest sold that reaches 2 pitches out of the nut (ISO 888)",
                (Some(_), ThreadKind::Unified) => "longest usually stocked that ends in the full thread (no source)",
                (None, ThreadKind::Unified) => {
                    "shortest usually stocked that reaches 2 pitches out of the nut (no source)"
                }
            },
        );
        match self.engaged(thread) {
            Some(within) => {
                design.computed_length(&sizes::BOLT_ENGAGED, within, "length - clamped");
            }
            None => {
                let out = sold - grip - bolting::nut_height(thread).value;
                design.computed_length(&sizes::BOLT_OUT_OF_NUT, out, "length - clamped - nut");
            }
        }
    }

    /// The bolt as it is ordered: `M10 × 35`, `3/8-16 × 1-1/2 in`; without its length where that hangs on the wall.
    pub fn ordered(&self, thread: &Thread) -> String {
        self.sold(thread).map_or_else(|| thread.to_string(), |sold| bolting::ordered(thread, sold))
    }

    /// What a step adds where the length hangs on a wall that nobody has written.
    pub fn hangs_on(&self, design: &Design, thread: &Thread) -> Option<String> {
        if self.sold(thread).is_some() {
            return None;
        }
        let by = show::value(&Value::Length(self.past_the_wall(thread).rounded()), design.header.unit);
        let (what, key) = self.wall_is;
        let most =
            if self.thread.is_some() { "the longest sold that is not longer than" } else { "the next sold from" };
        Some(format!("Length: {most} the {what} and {by}; write {key} and it is worked out."))
    }
}
