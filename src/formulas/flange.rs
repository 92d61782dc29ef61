//! A round flange between two bolt patterns: pull of the bolts by force and moment, bending of the metal between two circles, and the
//! cone in which its bore runs from one diameter to another.

use super::{MechanicsError, finite, not_negative, positive};
use crate::units::{Angle, Area, Force, Length, Stress, Torque};

/// Greatest pull of one bolt of a pattern: P/n + 4 M/(n D); P pull along the axis, n bolts, M moment about any line across, D bolt
/// circle. The faces stay flat and turn about their middle. From 3 bolts on: two hold no moment about the line through them.
/// Source: pressure vessel handbooks, tension of the bolts of a round base, 4 M/(n D) and the force along shared alike.
pub fn bolt_pull(pull: Force, moment: Torque, number: u32, circle: Length) -> Result<Force, MechanicsError> {
    finite("the pull", pull.as_newtons())?;
    not_negative("the moment", moment.as_newton_metres())?;
    positive("the bolt circle", circle.as_mm())?;
    if number < 3 {
        return Err(MechanicsError::OutOfRange { what: "the number of bolts", range: "3 or more" });
    }
    let n = f64::from(number);
    let by_moment = 4.0 * moment.as_newton_metres() * 1000.0 / (n * circle.as_mm());
    Ok(Force::newtons(pull.as_newtons() / n + by_moment))
}

/// Bending stress of the strip of a flange between a bolt and the circle that holds it: 6 F e/(w t²), F pull of the bolt, e arm to the
/// nearest bolt of the other circle, w its share of the smaller circle, t thickness. The ring beside the strip helps, which is left out.
/// Source: beam theory, a rectangle in bending; the strip is common practice, no source.
pub fn strip_bending(pull: Force, arm: Length, width: Length, thickness: Length) -> Result<Stress, MechanicsError> {
    not_negative("the pull", pull.as_newtons())?;
    not_negative("the arm", arm.as_mm())?;
    positive("the width of the strip", width.as_mm())?;
    positive("the thickness", thickness.as_mm())?;
    let modulus = width.as_mm() * thickness.as_mm() * thickness.as_mm() / 6.0;
    Ok(Stress::mpa(pull.as_newtons() * arm.as_mm() / modulus))
}

/// Area of flow of a round bore, pi d²/4.
pub fn flow_area(bore: Length) -> Result<Area, MechanicsError> {
    positive("the bore", bore.as_mm())?;
    Ok(bore * bore * std::f64::consts::FRAC_PI_4)
}

/// Half-angle of a bore that runs from one diameter to another over a length, atan(|D - d|/(2 l)).
pub fn half_angle(from: Length, to: Length, length: Length) -> Result<Angle, MechanicsError> {
    positive("the bore", from.as_mm())?;
    positive("the bore", to.as_mm())?;
    positive("the length", length.as_mm())?;
    Ok(Angle::atan2((from - to).abs().as_mm() / 2.0, length.as_mm()))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Eight bolts on a circle of 500 mm under a moment of 12 kN m and a push of 8 kN: by hand 4 x 12 000/(8 x 0.5) = 12 000 N, less
    /// 8 000/8 = 1 000 N: 11 000 N. The formula of pressure vessel handbooks for the bolts of a skirt, 4 M/(n D) - W/n (from memory).
    #[test]
    fn bolts_of_a_round_base() {
        let pull = bolt_pull(Force::newtons(-8000.0), Torque::newton_metres(12_000.0), 8, Length::mm(500.0)).unwrap();
        assert!((pull.as_newtons() - 11_000.0).abs() < 1e-6, "{pull:?}");
        // The sum of all bolts about the middle is the moment again: sum of F cos(a) r over eight places.
        let most = bolt_pull(Force::ZERO, Torque::newton_metres(12_000.0), 8, Length::mm(500.0)).unwrap().as_newtons();
        let back: f64 = (0..8).map(|i| Angle::degrees(45.0 * f64::from(i)).cos()).map(|c| most * c * c * 0.25).sum();
        assert!((back - 12_000.0).abs() < 1e-6, "{back}");
        assert!(bolt_pull(Force::ZERO, Torque::newton_metres(1.0), 2, Length::mm(500.0)).is_err());
    }

    /// A strip 30 mm wide and 10 mm thick, 2 kN at 25 mm: W = 500 mm³, 100 MPa.
    #[test]
    fn a_strip_by_hand() {
        let mm = Length::mm;
        let stress = strip_bending(Force::newtons(2000.0), mm(25.0), mm(30.0), mm(10.0)).unwrap();
        assert!((stress.as_mpa() - 100.0).abs() < 1e-9);
        assert!(strip_bending(Force::newtons(1.0), mm(1.0), Length::ZERO, mm(1.0)).is_err());
    }

    /// From 40 to 60 mm over 50 mm: atan(10/50) = 11.310 degrees (table of tangents); twice the area wants 1.4142 times the bore.
    #[test]
    fn a_bore_that_widens() {
        let mm = Length::mm;
        assert!((half_angle(mm(40.0), mm(60.0), mm(50.0)).unwrap().as_degrees() - 11.310).abs() < 5e-4);
        let (small, large) = (flow_area(mm(50.0)).unwrap(), flow_area(mm(70.710_678)).unwrap());
        assert!((large.as_mm2() / small.as_mm2() - 2.0).abs() < 1e-6);
        assert!(half_angle(mm(40.0), mm(60.0), Length::ZERO).is_err() && flow_area(Length::ZERO).is_err());
    }
}
