//! How turned rings are held while their second end is faced.

use crate::formulas::turning::{self, Load};
use crate::record::show;
use crate::shop::by_unit;
use crate::units::{Length, LengthUnit};

/// Grip of the finished outside while the second end is faced: in soft jaws, or where the piece is too short for them, on a
/// stub that fills its bore.
pub fn second_grip(width: Length, outside: Length, unit: LengthUnit) -> String {
    let size = |l: Length| show::length_both(l.rounded(), unit);
    let clear = by_unit(unit, 1.0, 0.04);
    let whole = by_unit(unit, 1.0, 1.0 / 16.0);
    let grip = whole * (turning::least_grip(outside, width, Load::Light) / whole - 1e-9).ceil();
    if grip + clear <= width {
        format!("hold at least {} of it in soft jaws bored to its outside", size(grip))
    } else {
        "too short for jaws: slide it on a stub that is turned in place to fill its bore, its finished face against the shoulder, and stick it there with a drop of quick adhesive, which heat lets go".into()
    }
}
