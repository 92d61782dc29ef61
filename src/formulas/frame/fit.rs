//! Laying one pattern of points over another: best rigid motion by least squares, and the motion with the
//! smallest largest miss (for the size of clear holes).

use std::fmt;

use super::model::Plan;
use crate::units::Angle;

/// A rigid motion q = R(yaw) p + shift, and what it leaves.
#[derive(Clone, PartialEq, Debug)]
pub struct RigidFit {
    /// Turn, counter-clockwise.
    pub yaw: Angle,
    /// Shift after the turn.
    pub shift: Plan,
    /// Target minus moved source, per point.
    pub misses: Vec<Plan>,
}

impl RigidFit {
    /// Where a source point comes to lie.
    pub fn apply(&self, p: Plan) -> Plan {
        turned(p, self.yaw) + self.shift
    }
}

/// Why two patterns cannot be laid over each other.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FitError {
    /// The patterns differ in their number of points.
    Unpaired,
    /// Fewer than two points, or all in one place: no direction to turn to.
    NoDirection,
    /// A coordinate is not a finite number.
    NotANumber,
}

impl fmt::Display for FitError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Unpaired => "the two patterns differ in their number of points",
            Self::NoDirection => {
                "at least two points in different places are needed to turn one pattern onto the other"
            }
            Self::NotANumber => "a coordinate is not a finite number",
        })
    }
}

impl std::error::Error for FitError {}

fn turned(p: Plan, yaw: Angle) -> Plan {
    let (s, c) = (yaw.sin(), yaw.cos());
    Plan { x: p.x * c - p.y * s, y: p.x * s + p.y * c }
}

/// Best rigid motion of `source` onto `target` in the least-squares sense.
///
/// θ = atan2(Σ p × q, Σ p · q) about the centroids; no scaling, which would hide a wrong tape.
/// Schönemann, Psychometrika 31 (1966) 1-10 (orthogonal Procrustes problem), in the plane.
pub fn rigid_fit(source: &[Plan], target: &[Plan]) -> Result<RigidFit, FitError> {
    weighted_fit(source, target, &vec![1.0; source.len()])
}

fn weighted_fit(source: &[Plan], target: &[Plan], weights: &[f64]) -> Result<RigidFit, FitError> {
    if source.len() != target.len() {
        return Err(FitError::Unpaired);
    }
    if !source.iter().chain(target).all(|p| p.is_finite()) {
        return Err(FitError::NotANumber);
    }
    let (a, b) = (centroid(source, weights), centroid(target, weights));
    let (mut along, mut across, mut size) = (0.0, 0.0, 0.0);
    for ((p, q), w) in source.iter().zip(target).zip(weights) {
        let ([px, py], [qx, qy]) = ((*p - a).pair(), (*q - b).pair());
        along += w * (px * qx + py * qy);
        across += w * (px * qy - py * qx);
        size += w * (px * px + py * py).max(qx * qx + qy * qy);
    }
    if source.len() < 2 || libm::hypot(along, across) <= 1e-12 * size {
        return Err(FitError::NoDirection);
    }
    let yaw = Angle::atan2(across, along);
    let shift = b - turned(a, yaw);
    let misses = source.iter().zip(target).map(|(p, q)| *q - (turned(*p, yaw) + shift)).collect();
    Ok(RigidFit { yaw, shift, misses })
}

fn centroid(points: &[Plan], weights: &[f64]) -> Plan {
    let total: f64 = weights.iter().sum();
    points.iter().zip(weights).fold(Plan::default(), |sum, (p, w)| sum + *p * (w / total))
}

/// Mismatch of two patterns after the best rigid motion of the frame: cup minus cone, per seat.
pub fn mismatch(cones: &[Plan], cups: &[Plan]) -> Result<Vec<Plan>, FitError> {
    let fit = rigid_fit(cups, cones)?;
    Ok(fit.misses.iter().map(|m| *m * -1.0).collect())
}
