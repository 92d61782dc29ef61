//! Where a frame rests: its pose, what carries each seat, how far it may wander, or why it rests nowhere.

use std::fmt;

use super::loads::TipMargin;
use super::model::{Plan, Pose};
use crate::units::show::fixed;
use crate::units::{Angle, Force, Length};

/// Where the frame rests and how.
#[derive(Clone, PartialEq, Debug)]
pub struct Rest {
    /// The pose.
    pub pose: Pose,
    /// One entry per seat, in their order.
    pub seats: Vec<SeatRest>,
    /// How far the pose may wander without any rise.
    pub wander: Wander,
    /// How far inside its supports the load stands.
    pub tip: TipMargin,
    /// More supports touch than statics can tell apart: the loads are shared as by equal springs.
    pub shared: bool,
}

impl Rest {
    /// Is the pose the only one? (Within a thousandth of a micrometre.)
    pub fn unique(&self) -> bool {
        self.wander.is_none()
    }
}

/// What carries a seat's load.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Carrier {
    /// Nothing: it hangs free.
    Nothing,
    /// The cone, all round.
    Cone,
    /// One flank of the cone.
    Flank,
    /// The round end of a slot, against one flank of the cone.
    End,
    /// The flat pad.
    Pad,
    /// The crossbar face, before the cone fills the cup.
    Face,
}

/// One seat at rest.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct SeatRest {
    /// δ: cup off the cone's axis.
    pub offset: Plan,
    /// Rise above its own full seating.
    pub lift: Length,
    /// How far it would still have to fall to touch.
    pub gap: Length,
    /// Vertical load.
    pub load: Force,
    /// Sideways force of the seat on the frame.
    pub side: [Force; 2],
    /// Does it carry or push?
    pub touching: bool,
    /// What carries.
    pub carrier: Carrier,
}

/// Least and greatest of a freedom over all lowest poses. `None` at an end: no end.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Wander {
    /// dx in mm.
    pub dx: (Option<Length>, Option<Length>),
    /// dy in mm.
    pub dy: (Option<Length>, Option<Length>),
    /// Yaw.
    pub yaw: (Option<Angle>, Option<Angle>),
    /// Number of independent motions without rise.
    pub freedoms: usize,
}

impl Wander {
    /// No wandering at all.
    pub const fn is_none(&self) -> bool {
        self.freedoms == 0
    }
}

/// Why there is no rest pose.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum NoRest {
    /// No seat can carry weight.
    NothingCarries,
    /// The load stands outside its supports.
    Tips {
        /// How far outside.
        by: Length,
    },
    /// The sideways force drives it off its seats.
    SlidesAway {
        /// Direction of the motion in plan.
        direction: Angle,
    },
    /// The solver found no answer (reported, never guessed).
    Unsolved,
}

impl fmt::Display for NoRest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NothingCarries => write!(f, "no seat can carry weight: the frame falls past all of them"),
            Self::Tips { by } => write!(f, "it tips: the load stands {} mm outside its supports", fixed(by.as_mm(), 1)),
            Self::SlidesAway { direction } => {
                write!(f, "it slides away towards {} deg from x", fixed(direction.as_degrees(), 0))
            }
            Self::Unsolved => write!(f, "the rest pose could not be computed"),
        }
    }
}

impl std::error::Error for NoRest {}
