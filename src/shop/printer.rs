//! The shop's 3D printer: what goes on its bed, its line and layer, and by how much it makes holes and outsides off size.

use crate::description::Fields;
use crate::record::key::{Bounds, Key, Kind};
use crate::units::Length;

/// Keys of `[printer]`.
pub const KEYS: &[Key] =
    &[BED, HEIGHT, LINE, LAYER, HOLE_OFFSET, HOLE_UNCERTAINTY, OUTSIDE_OFFSET, OUTSIDE_UNCERTAINTY, MEASURED_ON];

const BED: Key = Key::new(
    "bed",
    "bed of the printer",
    Kind::Lengths(Bounds::Positive),
    "width and depth that it prints, such as [\"220 mm\", \"220 mm\"]",
);
const HEIGHT: Key = Key::new("height", "height of the printer", Kind::POSITIVE, "that it prints, such as \"250 mm\"");
const LINE: Key = Key::new("line_width", "width of a line", Kind::POSITIVE, "such as \"0.45 mm\"");
const LAYER: Key = Key::new("layer", "height of a layer", Kind::POSITIVE, "such as \"0.2 mm\"");
const HOLE_OFFSET: Key = Key::new(
    "hole_offset",
    "holes come out larger by",
    Kind::LENGTH,
    "a printed hole less the drawn one, on the diameter: negative where it comes out small, such as \"-0.25 mm\"",
);
const OUTSIDE_OFFSET: Key = Key::new(
    "outside_offset",
    "outsides come out larger by",
    Kind::LENGTH,
    "a printed outside less the drawn one, on the diameter, such as \"0.1 mm\"",
);

const HOLE_UNCERTAINTY: Key = Key::new(
    "hole_offset_uncertainty",
    "how well that is known",
    Kind::FINE,
    "95 of 100 holes are off by that, this much more or less, such as \"0.05 mm\"",
);
const OUTSIDE_UNCERTAINTY: Key = Key::new(
    "outside_offset_uncertainty",
    "how well that is known",
    Kind::FINE,
    "95 of 100 outsides are off by that, this much more or less, such as \"0.05 mm\"",
);
const MEASURED_ON: Key =
    Key::new("measured_on", "measured on", Kind::Text, "the day of the last ladder, such as \"2026-05-02\"");

/// A printer that melts a thread of plastic.
#[derive(Clone, PartialEq, Debug)]
pub struct Printer {
    /// Width and depth of its bed.
    pub bed: Option<(Length, Length)>,
    /// Height that it prints.
    pub height: Option<Length>,
    /// Width of a line; 0.45 mm where nothing is written (a nozzle of 0.4 mm; common practice, no source).
    pub line: Length,
    /// Height of a layer; 0.2 mm where nothing is written (common practice, no source).
    pub layer: Length,
    /// A printed hole less the drawn one, on the diameter.
    pub hole_offset: Option<Length>,
    /// How well that is known, 95 of 100.
    pub hole_uncertainty: Option<Length>,
    /// A printed outside less the drawn one, on the diameter.
    pub outside_offset: Option<Length>,
    /// How well that is known, 95 of 100.
    pub outside_uncertainty: Option<Length>,
    /// The day of the last ladder.
    pub measured_on: Option<String>,
}

impl Default for Printer {
    fn default() -> Self {
        Self {
            bed: None,
            height: None,
            line: Length::mm(0.45),
            layer: Length::mm(0.2),
            hole_offset: None,
            hole_uncertainty: None,
            outside_offset: None,
            outside_uncertainty: None,
            measured_on: None,
        }
    }
}

impl Printer {
    /// What `[printer]` says.
    pub(super) fn read(f: &Fields) -> Self {
        let usual = Self::default();
        let length = |key: &Key| f.length(key).map(|g| g.value);
        let bed = f.lengths(&BED).and_then(|given| match given.value.as_slice() {
            [x, y] => Some((*x, *y)),
            _ => {
                f.problem_at(&BED, "`bed` is two lengths, width and depth".into(), Some(BED.help.into()));
                None
            }
        });
        let offset = |key: &Key| {
            let given = length(key)?;
            if given.abs() > FARTHEST_OFF {
                let help = "an offset is some tenths of a millimetre: what was measured less what was drawn";
                f.problem_at(key, format!("`{}` is more than 2 mm", key.name), Some(help.into()));
            }
            Some(given)
        };
        Self {
            bed,
            height: length(&HEIGHT),
            line: length(&LINE).unwrap_or(usual.line),
            layer: length(&LAYER).unwrap_or(usual.layer),
            hole_offset: offset(&HOLE_OFFSET),
            hole_uncertainty: length(&HOLE_UNCERTAINTY),
            outside_offset: offset(&OUTSIDE_OFFSET),
            outside_uncertainty: length(&OUTSIDE_UNCERTAINTY),
            measured_on: f.text(&MEASURED_ON).map(|t| t.value),
        }
    }

    /// Whether a body of these three extents goes on it, turned about the upright axis as it fits best; `None` where the
    /// printer is not known.
    pub fn holds(&self, (x, y, z): (Length, Length, Length)) -> Option<bool> {
        let flat = self.bed.map(|bed| lies_on((x, y), bed));
        let tall = self.height.map(|height| z <= height);
        match (flat, tall) {
            (Some(false), _) | (_, Some(false)) => Some(false),
            (Some(true), Some(true)) => Some(true),
            _ => None,
        }
    }

    /// Whether what goes on it goes on askew alone, turned towards a corner of the bed.
    pub fn askew(&self, (x, y, _): (Length, Length, Length)) -> bool {
        self.bed.is_some_and(|(a, b)| x.max(y) > a.max(b))
    }
}

/// Whether a rectangle p by q lies within another, a by b, straight or askew. With p ≥ q and a ≥ b: p ≤ a and q ≤ b, or
/// p > a, q ≤ b and b ≥ (2 p q a + (p² − q²) √(p² + q² − a²))/(p² + q²). Lengths in one unit.
/// Source: W. B. Carver, Solution to Problem E 1225, American Mathematical Monthly 64 (1957); from memory, checked by turning.
fn lies_on(of: (Length, Length), bed: (Length, Length)) -> bool {
    let sorted = |(x, y): (Length, Length)| (x.max(y).as_mm(), x.min(y).as_mm());
    let ((p, q), (a, b)) = (sorted(of), sorted(bed));
    if p <= a {
        return q <= b;
    }
    let squares = p * p + q * q;
    q <= b && b * squares >= 2.0 * p * q * a + (p * p - q * q) * (squares - a * a).max(0.0).sqrt()
}

/// The most that a printer makes a size off. Source: common practice, no source.
const FARTHEST_OFF: Length = Length::mm(2.0);

#[cfg(test)]
mod tests {
    use super::*;

    /// Every size on every bed against trial: turned by tenths of a degree, extents p c + q s and p s + q c.
    #[test]
    fn askew_as_by_turning() {
        for (p, q, a, b) in [
            (250.0, 30.0, 220.0, 200.0),
            (280.0, 20.0, 220.0, 200.0),
            (230.0, 100.0, 220.0, 200.0),
            (300.0, 5.0, 220.0, 220.0),
        ] {
            let fits = |tenth: u32| {
                let (s, c) = (f64::from(tenth) / 10.0).to_radians().sin_cos();
                let (x, y) = (p * c + q * s, p * s + q * c);
                x.max(y) <= a && x.min(y) <= b
            };
            let by_turning = (0..=900).any(fits);
            assert_eq!(lies_on((Length::mm(p), Length::mm(q)), (Length::mm(a), Length::mm(b))), by_turning, "{p} {q}");
        }
    }

    /// Boxes on a bed of 220 x 200 and 250 high, by hand.
    #[test]
    fn what_goes_on_the_bed() {
        let mm = Length::mm;
        let printer = Printer { bed: Some((mm(220.0), mm(200.0))), height: Some(mm(250.0)), ..Printer::default() };
        for (x, y, z, goes) in [(200.0, 220.0, 10.0, true), (210.0, 210.0, 10.0, false), (10.0, 10.0, 251.0, false)] {
            assert_eq!(printer.holds((mm(x), mm(y), mm(z))), Some(goes), "{x} {y} {z}");
        }
        // 241.58 x 41.12 turned by 45 degrees wants (241.58 + 41.12)/sqrt 2 = 199.9 both ways.
        let square = Printer { bed: Some((mm(200.0), mm(200.0))), ..printer.clone() };
        assert_eq!(square.holds((mm(41.12), mm(241.58), mm(5.0))), Some(true));
        assert_eq!(square.holds((mm(42.0), mm(242.0), mm(5.0))), Some(false));
        assert_eq!(Printer::default().holds((mm(1.0), mm(1.0), mm(1.0))), None);
        let only_bed = Printer { height: None, ..printer };
        assert_eq!(only_bed.holds((mm(300.0), mm(1.0), mm(1.0))), Some(false));
        assert_eq!(only_bed.holds((mm(30.0), mm(1.0), mm(1.0))), None);
    }
}
