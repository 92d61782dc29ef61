//! A ladder of try-outs: by how much a process makes sizes off, from what was measured on the rungs or from the rung that fits.

use super::uncertainty::coverage_factor;
use super::{MechanicsError, finite, not_negative, positive};
use crate::units::Length;

/// A rung as it was drawn and as it was measured, with the expanded uncertainty (k = 2) of the reading.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Rung {
    /// Drawn.
    pub drawn: Length,
    /// Measured.
    pub measured: Length,
    /// U of the reading, k = 2.
    pub u: Length,
}

/// By how much sizes come out larger than drawn, and how well that is known (95 of 100).
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Offset {
    /// Made less drawn; negative where sizes come out small.
    pub by: Length,
    /// Expanded uncertainty.
    pub u: Length,
}

/// Offset of a process from n rungs: mean of d_i = made − drawn; U = sqrt((t s/√n)² + U_r²), s² = Σ (d_i − mean)²/(n − 1), t of Student
/// for n − 1 degrees of freedom and 95 %, U_r the mean of the readings' own U, which all of them share (one instrument). Of one rung U_r alone.
/// Lengths in one unit; one rung at least. Source: JCGM 100:2008, 4.2 (mean and its scatter), G.3 (Student's t).
pub fn offset(rungs: &[Rung]) -> Result<Offset, MechanicsError> {
    let n = rungs.len();
    if n == 0 {
        return Err(MechanicsError::OutOfRange { what: "the number of rungs", range: "1 or more" });
    }
    for rung in rungs {
        finite("a rung as drawn", rung.drawn.as_mm())?;
        finite("a rung as measured", rung.measured.as_mm())?;
        not_negative("an uncertainty", rung.u.as_mm())?;
    }
    let off = |r: &Rung| (r.measured - r.drawn).as_mm();
    let count = n as f64;
    let by = rungs.iter().map(off).sum::<f64>() / count;
    let shared = rungs.iter().map(|r| r.u.as_mm()).sum::<f64>() / count;
    let scatter = if n > 1 {
        let s = (rungs.iter().map(|r| (off(r) - by).powi(2)).sum::<f64>() / (count - 1.0)).sqrt();
        coverage_factor(Some(count - 1.0), 0.95)? * s / count.sqrt()
    } else {
        0.0
    };
    Ok(Offset { by: Length::mm(by), u: Length::mm(libm::hypot(scatter, shared)) })
}

/// Which rung was found to fit.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Fits {
    /// The smallest hole that takes the mate.
    SmallestHole,
    /// The largest pin that goes into the mate.
    LargestPin,
}

/// Offset from the rung r of a ladder of step s that fits a mate of size m: a hole that takes it is at least m and the one below it is
/// not: made − drawn lies between m − r and m − r + s; of pins between m − r − s and m − r. The middle, and half a step either way.
/// Lengths in one unit, the step above nought. Source: derived, the two bounds of the fit.
pub fn offset_by_fit(fits: Fits, mate: Length, rung: Length, step: Length) -> Result<Offset, MechanicsError> {
    positive("the mate", mate.as_mm())?;
    positive("the rung", rung.as_mm())?;
    positive("the step of the ladder", step.as_mm())?;
    let half = step / 2.0;
    let by = match fits {
        Fits::SmallestHole => mate - rung + half,
        Fits::LargestPin => mate - rung - half,
    };
    Ok(Offset { by, u: half })
}

/// By how much a gauge edge of that length shows its angle off, for light that is seen under a gap: atan(gap/edge), degrees.
/// Both above nought. Source: geometry; a slit of 0.02 mm is seen against the light (common practice, no source).
pub fn angle_seen(gap: Length, edge: Length) -> Result<crate::units::Angle, MechanicsError> {
    positive("the gap", gap.as_mm())?;
    positive("the edge", edge.as_mm())?;
    Ok(crate::units::Angle::atan2(gap.as_mm(), edge.as_mm()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq as near;

    fn mm(x: f64) -> Length {
        Length::mm(x)
    }

    /// JCGM 100:2008, 4.4.3 and table 1: twenty readings, mean 100.145, s = 1.489, s/√20 = 0.333 (from memory); t for 19 degrees of freedom
    /// 2.09 (table G.2). Readings that have just that mean and scatter: ±a about the mean, a = s √(19/20).
    #[test]
    fn scatter_of_a_mean_by_the_guide() {
        let a = 1.489 * (19.0_f64 / 20.0).sqrt();
        let rung = |i: usize| Rung {
            drawn: mm(100.0),
            measured: mm(100.145 + if i.is_multiple_of(2) { a } else { -a }),
            u: Length::ZERO,
        };
        let found = offset(&(0..20).map(rung).collect::<Vec<_>>()).unwrap();
        near!(found.by.as_mm(), 0.145, epsilon = 1e-9);
        near!(found.u.as_mm(), 2.09 * 0.333, epsilon = 2e-3);
    }

    /// One reading is as good as its instrument; no rung gives no figure; what all share does not average out.
    #[test]
    fn what_all_readings_share_stays() {
        let rung = |off: f64| Rung { drawn: mm(10.0), measured: mm(10.0 + off), u: mm(0.03) };
        assert_eq!(offset(&[rung(-0.2)]).unwrap(), Offset { by: mm(10.0 - 0.2) - mm(10.0), u: mm(0.03) });
        assert!(offset(&[]).is_err());
        let many = offset(&vec![rung(-0.2); 50]).unwrap();
        near!(many.u.as_mm(), 0.03, epsilon = 1e-12);
    }

    /// By hand: a pin of 20.00 enters the hole drawn 20.30 and not the one drawn 20.20: holes come out 0.2 to 0.3 small. A pin drawn 19.9 goes
    /// into a bore of 20.00, the one drawn 20.0 does not: pins come out 0 to 0.1 large.
    #[test]
    fn the_rung_that_fits() {
        let hole = offset_by_fit(Fits::SmallestHole, mm(20.0), mm(20.3), mm(0.1)).unwrap();
        near!(hole.by.as_mm(), -0.25, epsilon = 1e-12);
        near!(hole.u.as_mm(), 0.05, epsilon = 1e-12);
        let pin = offset_by_fit(Fits::LargestPin, mm(20.0), mm(19.9), mm(0.1)).unwrap();
        near!(pin.by.as_mm(), 0.05, epsilon = 1e-12);
        assert!(offset_by_fit(Fits::LargestPin, mm(20.0), mm(19.9), Length::ZERO).is_err());
    }

    /// 0.02 mm over 60 mm is 1.146 minutes of arc: 3437.75' x 0.02/60 (the radian in minutes, any handbook).
    #[test]
    fn light_under_an_edge() {
        near!(angle_seen(mm(0.02), mm(60.0)).unwrap().as_degrees() * 60.0, 3437.75 * 0.02 / 60.0, epsilon = 1e-4);
        assert!(angle_seen(Length::ZERO, mm(60.0)).is_err());
    }
}
