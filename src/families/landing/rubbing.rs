//! The friction on the flanks: as written, or as printed for the materials that meet there.

use crate::formulas::frame::friction::{Held, Turned};
use crate::record::design::{Design, Value};
use crate::shop;
use crate::units::Length;

use super::read::{self, Spec};
use super::sizes;

/// Friction where neither the file nor a table says one: dry steel with oxide film (LBNL engineering page on friction,
/// 0.27).
const USUAL: f64 = 0.30;

/// What rubs how hard.
pub struct Rubbing {
    /// The coefficient that the answers in one number rest on.
    pub taken: f64,
    /// Least and greatest printed for the pairs of cup and cone, dry.
    printed: Option<(f64, f64)>,
}

impl Rubbing {
    /// Of all seats that have a cup.
    pub fn of(s: &Spec) -> Self {
        let pairs = s.seats.iter().filter_map(|seat| Some((&seat.cone.common, &seat.cup.as_ref()?.common)));
        let ranges = pairs.filter_map(|(cone, cup)| shop::friction_pair(&cone.material, &cup.material));
        let printed = ranges.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)));
        let usual = printed.map_or(USUAL, |(least, greatest)| USUAL.clamp(least, greatest));
        Self { taken: s.friction.as_ref().map_or(usual, |f| f.value), printed }
    }

    /// Every coefficient at which the answers are given, from slippery to rough: the three of the trade, what is taken,
    /// and the ends of what is printed.
    pub fn all(&self) -> Vec<f64> {
        let ends = self.printed.into_iter().flat_map(|(least, greatest)| [least, greatest]);
        let mut all: Vec<f64> =
            crate::families::cone::checks::FRICTIONS.into_iter().chain([self.taken]).chain(ends).collect();
        all.sort_by(f64::total_cmp);
        all.dedup();
        all
    }

    /// Puts it among the figures.
    pub fn record(&self, design: &mut Design, s: &Spec) {
        match (&s.friction, self.printed) {
            (Some(given), _) => {
                design.given(&read::FRICTION, given, Value::Number);
            }
            (None, Some(_)) => self.assumed(design, "0.30, or the nearest value printed for these materials, dry"),
            (None, None) => self.assumed(design, "that of dry steel: none is printed for these materials"),
        }
        if let Some((least, greatest)) = self.printed.filter(|_| s.friction.is_none()) {
            let how = "tables for cone and cup, dry; a surface decides where between";
            design.computed(&sizes::FRICTION_LEAST, Value::Number(least), how);
            design.computed(&sizes::FRICTION_MOST, Value::Number(greatest), how);
        }
    }

    fn assumed(&self, design: &mut Design, why: &'static str) {
        design.assumed(&read::FRICTION.size(), Value::Number(self.taken), why);
    }
}

/// So far off its place friction is looked at. Source: common practice, no source.
pub const WANDER_RANGE: Length = Length::mm(5.0);

/// Farthest that friction may leave the target, no farther off than the frame swings while it comes down.
pub fn left_by_friction(s: &Spec, held: &[Held], turned: &[Turned]) -> Length {
    let (target, _) = s.target.unwrap_or(s.centre);
    // Held as far as was looked, it is held wherever the swing sets it down.
    let reached = |shift: Length| if shift >= WANDER_RANGE { s.swing() } else { shift.min(s.swing()) };
    let shifted = held.iter().map(|h| reached(h.shift));
    let turned = turned.iter().map(|t| {
        let part = if t.shift > Length::ZERO { reached(t.shift) / t.shift } else { 0.0 };
        (target - t.centre).length() * (t.turn.abs().as_radians() * part)
    });
    shifted.chain(turned).fold(Length::ZERO, Length::max)
}
