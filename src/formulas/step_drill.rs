//! What a step drill leaves in a plate, and how deep to go.
//!
//! Depths count from the face at which the drill enters; for a cup that is the face which meets the cone.

use crate::units::{Angle, Length};

/// How far a hole lies from the size of the step that cuts it, either way.
/// Source: common practice, no source.
pub const SIZE_HELD: Length = Length::mm(0.1);

/// A step drill as measured by its owner: no standard fixes the steps.
#[derive(Clone, Debug, PartialEq)]
pub struct StepDrill {
    /// Diameters from the tip upwards, ascending.
    pub steps: Vec<Length>,
    /// Axial height of each step.
    pub step_height: Length,
    /// Included angle of the tip.
    pub tip_angle: Angle,
}

/// One cylindrical land of a stepped bore.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Land {
    /// Diameter.
    pub diameter: Length,
    /// Depth at which it starts.
    pub from: Length,
    /// Depth at which it ends.
    pub to: Length,
}

impl StepDrill {
    /// Length of the tip in front of the first step, d₁/(2 tan(tip/2)).
    /// Source: geometry of the drill point.
    pub fn tip_length(&self) -> Length {
        self.steps.first().map_or(Length::ZERO, |d| *d / (2.0 * (self.tip_angle / 2.0).tan()))
    }

    /// Room needed below the entry face when the largest used step has gone `stop` deep:
    /// stop + the heights of the steps before it + the tip.
    pub fn reach(&self, stop: Length) -> Length {
        stop + self.step_height * (self.steps.len().saturating_sub(1) as f64) + self.tip_length()
    }

    /// Half-angle of the envelope, atan((d_k − d_(k−1))/(2 h)) of the two largest steps; `None` for one step.
    /// Source: geometry.
    pub fn envelope_half_angle(&self) -> Option<Angle> {
        let [.., smaller, larger] = self.steps.as_slice() else { return None };
        Some(Angle::atan((*larger - *smaller) / (self.step_height * 2.0)))
    }

    /// The lands left in a plate when the largest step has gone `stop` deep: that step over 0 to `stop`, the one before it
    /// over the next step height, and so on until the plate ends (or the drill does). What the tip leaves is not a land.
    /// Source: geometry.
    pub fn lands(&self, stop: Length, thickness: Length) -> Vec<Land> {
        let mut lands = Vec::new();
        let (mut from, mut to) = (Length::ZERO, stop);
        for &diameter in self.steps.iter().rev() {
            if from >= thickness {
                break;
            }
            lands.push(Land { diameter, from, to: to.min(thickness) });
            (from, to) = (to, to + self.step_height);
        }
        lands
    }

    /// Whether the smallest step goes right through the plate.
    pub fn goes_through(&self, stop: Length, thickness: Length) -> bool {
        stop + self.step_height * (self.steps.len().saturating_sub(1) as f64) >= thickness
    }
}
