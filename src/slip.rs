//! Slips of the pen in a size: a unit that is not the one which was meant, or a decimal point in the wrong place.

use crate::units::{Length, LengthUnit, show};

/// A slip that explains why a size does not go with its neighbour.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Slip {
    /// Millimetres are written, inches were meant.
    Inches,
    /// Inches are written, millimetres were meant.
    Millimetres,
    /// Ten times as much was meant.
    TenTimes,
    /// A tenth was meant.
    ATenth,
}

impl Slip {
    /// All, the likelier first.
    const ALL: [Self; 4] = [Self::Inches, Self::Millimetres, Self::TenTimes, Self::ATenth];

    /// What was meant, of what is written.
    pub fn corrected(self, written: Length) -> Length {
        match self {
            Self::Inches => Length::inches(written.as_mm()),
            Self::Millimetres => Length::mm(written.as_inches()),
            Self::TenTimes => written * 10.0,
            Self::ATenth => written / 10.0,
        }
    }

    /// Whether somebody can have written that size in the unit which the slip is about.
    fn can_be(self, written: Length) -> bool {
        match self {
            Self::Inches => ends(written.as_mm()),
            Self::Millimetres => ends(written.as_inches()),
            Self::TenTimes | Self::ATenth => true,
        }
    }

    /// What was meant, as a question.
    pub fn question(self, written: Length, unit: LengthUnit) -> String {
        let meant = self.corrected(written);
        let inches = match self {
            Self::Inches => true,
            Self::Millimetres => false,
            Self::TenTimes | Self::ATenth => unit == LengthUnit::Inch,
        };
        if inches {
            format!("{} in was meant?", show::trimmed(meant.as_inches(), 4))
        } else {
            format!("{} mm was meant?", show::trimmed(meant.as_mm(), 3))
        }
    }
}

/// The slip after which a size lies between the least and the greatest that go with its neighbour; `None` where it does
/// so as it is written, or after no slip. The sign stays as it is.
/// Source: 1 in = 25.4 mm; derived.
pub fn likely(written: Length, least: Length, greatest: Length) -> Option<Slip> {
    let goes = |size: Length| least <= size.abs() && size.abs() <= greatest;
    let explains = |slip: &Slip| slip.can_be(written) && goes(slip.corrected(written));
    if goes(written) { None } else { Slip::ALL.into_iter().find(explains) }
}

/// Whether a number is one that a person writes: it ends within six places.
fn ends(number: f64) -> bool {
    let millionths = number * 1e6;
    (millionths - millionths.round()).abs() < 0.01
}
