//! How turned rings are held while their second end is faced.

use crate::formulas::turning::{self, Load, Support};
use crate::record::show;
use crate::shop::by_unit;
use crate::units::{Length, LengthUnit};

/// Grip of the finished outside while the second end is faced: in soft jaws, or where the piece is too short for them, on a
/// stub that fills its bore.
pub fn second_grip(width: Length, outside: Length, unit: LengthUnit) -> String {
    let size = |l: Length| show::length_both(l.rounded(), unit);
    let clear = by_unit(unit, 1.0, 0.04);
    let whole = by_unit(unit, 1.0, 1.0 / 16.0);
    let grip = turning::least_grip(outside, width, Load::Light).map(|grip| grip.up_to(whole));
    match grip {
        Some(grip) if grip + clear <= width => {
            let steady = match turning::support(width - grip, outside) {
                Support::None => "",
                _ => ", the other end in a fixed steady",
            };
            format!("hold at least {} of it in soft jaws bored to its outside{steady}", size(grip))
        }
        None => "hold it in soft jaws bored to its outside, as far in as they take it".into(),
        Some(_) => "too short for jaws: slide it on a stub that is turned in place to fill its bore, its finished face against the shoulder, and stick it there with a drop of quick adhesive, which heat lets go".into(),
    }
}

/// How much of a bar the jaws hold for heavy cuts, in whole millimetres or sixteenths: `at least 30 mm (1.1811 in)`; work for which no rule is known is held by
/// as much as they take.
pub fn in_jaws(diameter: Length, stands_out: Length, unit: LengthUnit) -> String {
    match turning::least_grip(diameter, stands_out, Load::Heavy) {
        Some(grip) => {
            let whole = by_unit(unit, 1.0, 1.0 / 16.0);
            format!("at least {}", show::length_both(grip.up_to(whole).rounded(), unit))
        }
        None => "as much as they take".into(),
    }
}

/// What of a bar lies in the chuck: the grip, no shorter than the bar is thick.
/// Source: common practice, no source.
pub fn in_the_chuck(bar: Length, stands_out: Length) -> Length {
    turning::least_grip(bar, stands_out, Load::Heavy).map_or(bar, |grip| grip.max(bar))
}
