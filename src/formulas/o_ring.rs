//! An O-ring in its groove: how far its section is squeezed, how far it fills the groove, and how far it is stretched.

use super::{MechanicsError, positive};
use crate::units::Length;

/// Share by which the section is squeezed, (s - h)/s; s section, h depth of the groove under the mating face. Below nought it does
/// not touch. Source: handbooks of seals.
pub fn squeeze(section: Length, depth: Length) -> Result<f64, MechanicsError> {
    positive("the section of the ring", section.as_mm())?;
    positive("the depth of the groove", depth.as_mm())?;
    Ok((section - depth) / section)
}

/// Share of the groove that the ring fills, (pi s²/4)/(w h); s section, w width, h depth: rubber keeps its volume.
/// Source: handbooks of seals.
pub fn fill(section: Length, width: Length, depth: Length) -> Result<f64, MechanicsError> {
    positive("the section of the ring", section.as_mm())?;
    positive("the width of the groove", width.as_mm())?;
    positive("the depth of the groove", depth.as_mm())?;
    let s = section.as_mm();
    Ok(std::f64::consts::FRAC_PI_4 * s * s / (width.as_mm() * depth.as_mm()))
}

/// Share by which the ring is stretched over a diameter, (d - d1)/d1; below nought it is compressed along its length. Of its outside
/// the same with the outside diameter. Source: handbooks of seals.
pub fn stretch(over: Length, own: Length) -> Result<f64, MechanicsError> {
    positive("the diameter of the groove", over.as_mm())?;
    positive("the diameter of the ring", own.as_mm())?;
    Ok((over - own) / own)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Public charts of static face seals, inches: section with its tolerance, depth of the groove from, to; squeeze at least, at
    /// most, in inches and in whole per cent.
    #[test]
    fn squeeze_by_the_printed_chart() {
        for (section, tolerance, from, to, least, most, per_cent) in [
            (0.070, 0.003, 0.050, 0.054, 0.013, 0.023, (19.0, 32.0)),
            (0.103, 0.003, 0.074, 0.080, 0.020, 0.032, (20.0, 30.0)),
            (0.139, 0.004, 0.101, 0.107, 0.028, 0.042, (20.0, 30.0)),
            (0.210, 0.005, 0.152, 0.162, 0.043, 0.063, (21.0, 30.0)),
            (0.275, 0.006, 0.201, 0.211, 0.058, 0.080, (21.0, 29.0)),
        ] {
            let of = |section: f64, depth: f64| squeeze(Length::inches(section), Length::inches(depth)).unwrap();
            let (low, high) = (of(section - tolerance, to), of(section + tolerance, from));
            assert!((low * (section - tolerance) - least).abs() < 1e-9, "{section}");
            assert!((high * (section + tolerance) - most).abs() < 1e-9, "{section}");
            assert!((low * 100.0 - per_cent.0).abs() < 1.0 && (high * 100.0 - per_cent.1).abs() < 1.0, "{section}");
        }
    }

    /// A section of 2 mm in a groove 1.6 deep and 3.2 wide: squeeze 20 %, fill 61.36 % (a public worked example); 51 mm over 50: 2 %.
    #[test]
    fn fill_and_stretch_by_a_worked_example() {
        let mm = Length::mm;
        assert!((squeeze(mm(2.0), mm(1.6)).unwrap() - 0.20).abs() < 1e-12);
        assert!((fill(mm(2.0), mm(3.2), mm(1.6)).unwrap() - 0.6136).abs() < 5e-5);
        assert!((stretch(mm(51.0), mm(50.0)).unwrap() - 0.02).abs() < 1e-12);
        assert!(squeeze(mm(2.0), mm(2.2)).unwrap() < 0.0);
        assert!(fill(mm(2.0), Length::ZERO, mm(1.6)).is_err() && stretch(mm(1.0), Length::ZERO).is_err());
    }
}
