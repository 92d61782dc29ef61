//! Does it land? Where a frame comes to rest on its cones, what each seat carries, how far it may
//! wander, and what it takes to push it off again.
//!
//! Conventions: x and y in plan, z up from full seating, right-handed. Small rigid motion of the frame:
//! dx, dy and yaw θ about z, roll φx about x, pitch φy about y, all about the origin of the plan.
//! A seat at (x, y) with the mismatch e (cup minus cone) is then off centre by
//! δ = (dx − θ y + ex, dy + θ x + ey) and lifted by z + φx y − φy x.
//! Half-angles are measured from the axis of the cone.

pub mod arrangement;
pub mod capture;
pub mod chance;
mod cone_program;
pub mod contact;
mod extent;
pub mod fit;
pub mod friction;
pub mod hinged;
mod level;
pub mod loads;
mod model;
pub mod outcome;
mod polish;
pub mod rest;
pub mod ride_off;
mod scaled;
mod settle;
mod small;

#[allow(unused_imports, reason = "tests name it")]
pub use model::Pose;
pub use model::{InputError, Landing, Load, Plan, Pull, Seat, SeatKind};
