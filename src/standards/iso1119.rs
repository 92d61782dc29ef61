//! Cone angles that others also use: preferred tapers and angles of ISO 1119.

use crate::units::Angle;

/// How a preferred cone is defined.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum ConeBasis {
    /// Taper 1 : n, diameter difference over length.
    OneIn(f64),
    /// Included cone angle in whole degrees.
    Included(f64),
}

/// A preferred cone.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct PreferredCone {
    /// As written, such as 1:10 or 60°.
    pub name: &'static str,
    /// The defining figure.
    pub basis: ConeBasis,
}

impl PreferredCone {
    /// Taper C = (D − d)/L.
    pub fn taper_ratio(&self) -> f64 {
        match self.basis {
            ConeBasis::OneIn(n) => 1.0 / n,
            ConeBasis::Included(degrees) => 2.0 * Angle::degrees(degrees / 2.0).tan(),
        }
    }

    /// Half-angle, axis to flank: tan a = C/2.
    pub fn half_angle(&self) -> Angle {
        match self.basis {
            ConeBasis::Included(degrees) => Angle::degrees(degrees / 2.0),
            _ => Angle::atan(self.taper_ratio() / 2.0),
        }
    }
}

/// Where the table stands.
pub const TABLE_1: &str = "ISO 1119:1998 table 1 (reprinted as GOST R 53440-2009 table 1; a web reprint)";

const fn listed(name: &'static str, basis: ConeBasis) -> PreferredCone {
    PreferredCone { name, basis }
}

/// ISO 1119:1998 table 1, general purpose.
#[rustfmt::skip]
const PREFERRED: &[PreferredCone] = &[
    listed("120°", ConeBasis::Included(120.)),
    listed("90°",  ConeBasis::Included(90.)),
    listed("75°",  ConeBasis::Included(75.)),
    listed("60°",  ConeBasis::Included(60.)),
    listed("45°",  ConeBasis::Included(45.)),
    listed("30°",  ConeBasis::Included(30.)),
    listed("1:3",   ConeBasis::OneIn(3.)),
    listed("1:4",   ConeBasis::OneIn(4.)),
    listed("1:5",   ConeBasis::OneIn(5.)),
    listed("1:6",   ConeBasis::OneIn(6.)),
    listed("1:7",   ConeBasis::OneIn(7.)),
    listed("1:8",   ConeBasis::OneIn(8.)),
    listed("1:10",  ConeBasis::OneIn(10.)),
    listed("1:12",  ConeBasis::OneIn(12.)),
    listed("1:15",  ConeBasis::OneIn(15.)),
    listed("1:20",  ConeBasis::OneIn(20.)),
    listed("1:30",  ConeBasis::OneIn(30.)),
    listed("1:50",  ConeBasis::OneIn(50.)),
    listed("1:100", ConeBasis::OneIn(100.)),
    listed("1:200", ConeBasis::OneIn(200.)),
    listed("1:500", ConeBasis::OneIn(500.)),
];

/// Half-angles that far apart are told as neighbours. Source: common practice, no source.
const NEAR: Angle = Angle::degrees(1.0);

/// A half-angle that far off is the preferred one itself: nobody sets a slide closer. Source: common practice, no source.
pub fn same(off: Angle) -> bool {
    off.abs() < Angle::degrees(0.005)
}

/// The preferred cone of ISO 1119 that is nearest to a half-angle and within a degree of it, and by how much the half-angle
/// is greater than that cone's.
pub fn neighbour(half_angle: Angle) -> Option<(&'static PreferredCone, Angle)> {
    let cone = nearest(half_angle)?;
    let off = half_angle - cone.half_angle();
    (off.abs() <= NEAR).then_some((cone, off))
}

/// The preferred cone of ISO 1119 whose half-angle is nearest; none if the angle is not a number.
pub fn nearest(half_angle: Angle) -> Option<&'static PreferredCone> {
    let off = |cone: &PreferredCone| (cone.half_angle() - half_angle).abs().as_degrees();
    let usable = half_angle.is_finite();
    PREFERRED.iter().filter(|_| usable).min_by(|a, b| off(a).total_cmp(&off(b)))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Included angles printed in ISO 1119 table 1 (GOST R 53440-2009), degrees to eight places.
    #[test]
    fn printed_angles() {
        #[rustfmt::skip]
        let printed = [
            ("1:3", 18.92464442), ("1:4", 14.25003270), ("1:5", 11.42118627), ("1:6", 9.52728338), ("1:7", 8.17123356),
            ("1:8", 7.15266875), ("1:10", 5.72481045), ("1:12", 4.77188806), ("1:15", 3.81830487), ("1:20", 2.86419237),
            ("1:30", 1.90968251), ("1:50", 1.14587740), ("1:100", 0.57295302), ("1:200", 0.28647830), ("1:500", 0.11459152),
        ];
        for (name, included) in printed {
            let cone = PREFERRED.iter().find(|cone| cone.name == name).unwrap();
            assert!((2.0 * cone.half_angle().as_degrees() - included).abs() < 5.1e-9, "{name}");
        }
        // the same table prints the angles as tapers 1:n
        for (name, one_in) in
            [("120°", 0.2886751), ("90°", 0.5), ("75°", 0.6516127), ("60°", 0.8660254), ("30°", 1.8660254)]
        {
            let cone = PREFERRED.iter().find(|cone| cone.name == name).unwrap();
            assert!((1.0 / cone.taper_ratio() - one_in).abs() < 5.1e-8, "{name}");
        }
    }

    #[test]
    fn nearest_cone() {
        assert_eq!(nearest(Angle::degrees(30.0)).unwrap().name, "60°");
        assert_eq!(nearest(Angle::degrees(14.0)).unwrap().name, "30°");
        assert_eq!(nearest(Angle::degrees(2.9)).unwrap().name, "1:10");
        assert!(nearest(Angle::degrees(f64::NAN)).is_none());
        let (cone, off) = neighbour(Angle::degrees(29.25)).unwrap();
        assert_eq!((cone.name, off.as_degrees()), ("60°", -0.75));
        assert!(neighbour(Angle::degrees(28.5)).is_none());
        assert!(PREFERRED.windows(2).all(|pair| pair[0].half_angle() > pair[1].half_angle()));
    }
}
