//! O-rings and the grooves that they lie in when two flat faces press them.

use crate::source::{Cited, Confirmed};
use crate::units::Length;

/// A groove in a face.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Groove {
    /// Section of the ring.
    pub section: Length,
    /// The section may be more or less by that.
    pub section_tolerance: Length,
    /// Depth under the mating face, and what it may be more.
    pub depth: Length,
    /// See `depth`.
    pub depth_over: Length,
    /// Width, and what it may be more.
    pub width: Length,
    /// See `width`.
    pub width_over: Length,
    /// Radius at its floor.
    pub radius: Length,
}

/// Section, its tolerance either way, depth, width, radius at the floor; mm. Depth +0.1, width +0.2. Grooves in a face: a public table
/// of housings that goes by ISO 3601-2. Tolerances of the section: ISO 3601-1, from memory.
#[rustfmt::skip]
const ROWS: &[[f64; 5]] = &[
    [1.50, 0.08, 1.10, 2.10, 0.2], [1.78, 0.08, 1.30, 2.60, 0.3], [2.00, 0.08, 1.50, 2.80, 0.3], [2.50, 0.09, 1.90, 3.40, 0.3],
    [2.62, 0.09, 2.00, 3.80, 0.3], [3.00, 0.09, 2.30, 4.00, 0.6], [3.53, 0.10, 2.70, 5.00, 0.6], [4.00, 0.10, 3.10, 5.30, 0.6],
    [5.00, 0.13, 4.00, 6.70, 0.6], [5.33, 0.13, 4.30, 7.30, 0.6], [6.00, 0.13, 4.90, 7.60, 0.6], [7.00, 0.15, 5.80, 9.70, 1.0],
];

/// How near a section has to be to a row: inch sections are those of 1.78 to 7 mm.
const SAME: Length = Length::mm(0.02);

/// The groove in a face for a ring of that section; none for one that stands in no row.
pub fn face_groove(section: Length) -> Option<Cited<Groove>> {
    let mm = Length::mm;
    let &[section, tolerance, depth, width, radius] = ROWS.iter().find(|row| (section - mm(row[0])).abs() <= SAME)?;
    let value = Groove {
        section: mm(section),
        section_tolerance: mm(tolerance),
        depth: mm(depth),
        depth_over: mm(0.1),
        width: mm(width),
        width_over: mm(0.2),
        radius: mm(radius),
    };
    Some(Cited { value, confirmed: Confirmed::One, source: "table of grooves in a face after ISO 3601-2" })
}

/// The sections that have a row, in words.
pub fn sections() -> String {
    let all: Vec<String> = ROWS.iter().map(|row| crate::units::show::trimmed(row[0], 2)).collect();
    all.join(", ")
}

/// How far the inside diameter of a ring may be off either way, 0.009 d^0.95 + 0.11 mm. Source: ISO 3601-1, class B, from memory.
pub fn inside_tolerance(inside: Length) -> Length {
    Length::mm(libm::pow(inside.as_mm().max(0.0), 0.95) * 0.009 + 0.11)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rows against the inch chart of static face seals (public; depth and width in inches for liquids). The metric grooves are up to
    /// 0.65 mm deeper and 0.9 mm wider, most with the thickest ring; both squeeze the nominal section by 15 to 32 %.
    #[test]
    fn two_tables_agree() {
        for (section, depth, width) in [
            (0.070, (0.050, 0.054), (0.101, 0.107)),
            (0.103, (0.074, 0.080), (0.136, 0.142)),
            (0.139, (0.101, 0.107), (0.177, 0.187)),
            (0.210, (0.152, 0.162), (0.270, 0.290)),
            (0.275, (0.201, 0.211), (0.342, 0.362)),
        ] {
            let row = face_groove(Length::inches(section)).unwrap().value;
            let middle = |(a, b): (f64, f64)| (a + b) / 2.0 * 25.4;
            assert!((row.depth.as_mm() + 0.05 - middle(depth)).abs() < 0.7, "{section}");
            assert!((row.width.as_mm() + 0.1 - middle(width)).abs() < 0.9, "{section}");
            for deep in [row.depth, row.depth + row.depth_over, Length::mm(middle(depth))] {
                let squeeze = 1.0 - deep.as_mm() / row.section.as_mm();
                assert!((0.15..0.32).contains(&squeeze), "{section}: {squeeze}");
            }
        }
        assert!(face_groove(Length::mm(3.3)).is_none());
        assert!((inside_tolerance(Length::mm(100.0)).as_mm() - 0.825).abs() < 5e-3);
    }
}
