//! Whether a thing that stands on its edge of contact tips over it: on a slope, by a push, by both.

use super::{MechanicsError, not_negative, positive};
use crate::units::{Angle, Length};

/// The slope at which a load falls over its edge, atan(e/h): e from the edge to the line of the load, h its height over the floor.
/// Source: textbooks of statics; moments about the edge.
pub fn angle(edge: Length, height: Length) -> Result<Angle, MechanicsError> {
    not_negative("the distance from the edge", edge.as_mm())?;
    positive("the height", height.as_mm())?;
    Ok(Angle::atan2(edge.as_mm(), height.as_mm()))
}

/// How often what holds it down is what tips it, moments about the edge: e cos θ/(h (sin θ + q)), q the push as a share of the load, along the
/// slope at that height, θ the slope. Slope and push not below nought, one of them above it; slope below 90 degrees.
/// Source: textbooks of statics; moments about the edge.
pub fn safety(edge: Length, height: Length, slope: Angle, push: f64) -> Result<f64, MechanicsError> {
    not_negative("the distance from the edge", edge.as_mm())?;
    positive("the height", height.as_mm())?;
    not_negative("the slope", slope.as_degrees())?;
    not_negative("the push", push)?;
    if slope.as_degrees() >= 90.0 {
        return Err(MechanicsError::OutOfRange { what: "the slope", range: "below 90 degrees" });
    }
    let tips = slope.sin() + push;
    positive("slope or push", tips)?;
    Ok(edge / height * slope.cos() / tips)
}
