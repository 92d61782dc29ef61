//! How a size moves over time: a straight line through readings, and when it would reach a limit.

use super::{MechanicsError, finite, positive};

/// A reading on a day.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Observed {
    /// The day, counted from any.
    pub day: f64,
    /// The reading.
    pub value: f64,
    /// Its standard uncertainty, in the unit of the value.
    pub standard: f64,
}

/// A straight line through readings.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Trend {
    /// Day about which the line turns: the weighted mean of the days.
    pub middle: f64,
    /// Value there.
    pub at_middle: f64,
    /// Standard uncertainty of that.
    pub standard_at_middle: f64,
    /// Change a day.
    pub slope: f64,
    /// Standard uncertainty of that.
    pub standard_slope: f64,
}

/// Fewest readings through which a line is laid: two always lie on one.
pub const FEWEST: usize = 3;

/// The weighted line y = y_m + b (t − t_m): w = 1/u², t_m = Σ w t/Σ w, b = Σ w (t − t_m) y/S, S = Σ w (t − t_m)², u_b = 1/√S,
/// u_ym = 1/√Σ w. Where the readings scatter more than their uncertainties say (χ²/(n − 2) above 1), both are widened by its root.
/// Times in days, values and uncertainties in one unit; valid for three readings or more on two days or more.
/// Source: any text on least squares; the widening is that of the Particle Data Group's averages (from memory).
pub fn trend(points: &[Observed]) -> Result<Trend, MechanicsError> {
    if points.len() < FEWEST {
        return Err(MechanicsError::OutOfRange { what: "the number of readings", range: "3 or more" });
    }
    for p in points {
        finite("a day", p.day)?;
        finite("a reading", p.value)?;
        positive("a standard uncertainty", p.standard)?;
    }
    let weight = |p: &Observed| 1.0 / (p.standard * p.standard);
    let all: f64 = points.iter().map(weight).sum();
    let mean = |of: &dyn Fn(&Observed) -> f64| points.iter().map(|p| weight(p) * of(p)).sum::<f64>() / all;
    let (middle, at_middle) = (mean(&|p| p.day), mean(&|p| p.value));
    let spread: f64 = points.iter().map(|p| weight(p) * (p.day - middle).powi(2)).sum();
    positive("the time between the readings", spread)?;
    let slope = points.iter().map(|p| weight(p) * (p.day - middle) * p.value).sum::<f64>() / spread;
    let left = |p: &Observed| weight(p) * (p.value - at_middle - slope * (p.day - middle)).powi(2);
    let scatter = points.iter().map(left).sum::<f64>() / (points.len() - 2) as f64;
    let wider = scatter.max(1.0).sqrt();
    Ok(Trend {
        middle,
        at_middle,
        standard_at_middle: wider / all.sqrt(),
        slope,
        standard_slope: wider / spread.sqrt(),
    })
}

impl Trend {
    /// The value on a day.
    pub fn at(&self, day: f64) -> f64 {
        self.at_middle + self.slope * (day - self.middle)
    }

    /// Whether it moves by more than the readings leave open (k = 2).
    pub fn is_sure(&self) -> bool {
        self.slope.abs() > 2.0 * self.standard_slope
    }

    /// Between which days it would reach a limit that lies on its way, with the slope at both ends of what is open of it (k = 2);
    /// none while the readings cannot tell that it moves, or where it moves away.
    pub fn reaches(&self, limit: f64) -> Option<(f64, f64)> {
        let way = limit - self.at_middle;
        if !self.is_sure() || way * self.slope <= 0.0 {
            return None;
        }
        let open = 2.0 * self.standard_slope;
        let day = |slope: f64| self.middle + way.abs() / slope;
        Some((day(self.slope.abs() + open), day(self.slope.abs() - open)))
    }
}
