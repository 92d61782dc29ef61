//! Catching the frame: how far off may it hang and still drop onto its cones.

use super::model::{InputError, Plan};
use crate::units::{Angle, Length};

/// Largest yaw of a set about its middle that one capture radius e at the radius R allows:
/// θ = 2 asin(e/(2R)). Derived (chord of a circle). Example: e 14, R 943.398: 0.85027547°.
pub fn yaw_limit(capture: Length, radius: Length) -> Result<Angle, InputError> {
    let ratio = capture / (2.0 * radius);
    if !(ratio >= 0.0 && radius > Length::ZERO && radius.is_finite()) {
        return Err(InputError::OutOfRange("capture or radius"));
    }
    Ok(if ratio >= 1.0 { Angle::degrees(180.0) } else { 2.0 * Angle::asin(ratio) })
}

/// One seat as the hanging frame meets it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Catch {
    /// Place in plan, from the point the frame turns about.
    pub at: Plan,
    /// Cup minus cone.
    pub mismatch: Plan,
    /// Its own capture radius; without an end where nothing has to be caught.
    pub capture: Length,
}

/// What the whole set catches.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct SetCapture {
    /// Hanging error in any direction that every seat still catches, without yaw.
    pub radius: Length,
    /// Which seat limits it (index).
    pub limiting: usize,
    /// Yaw that every seat still catches, without hanging error.
    pub yaw: Angle,
    /// Yaw that is left to every seat when the frame hangs off by the swing as well, in the worst direction.
    pub yaw_at_swing: Angle,
    /// Capture left for the stated hoist swing and margin; negative: not covered.
    pub spare: Length,
}

/// Capture of the set: |e + θ × r_i + δ_i| <= e_i for every seat. `swing` is the measured hanging error,
/// `margin` what is kept in hand (5 mm: common practice, no source).
pub fn set_capture(seats: &[Catch], swing: Length, margin: Length) -> Result<SetCapture, InputError> {
    if !(swing.is_finite() && margin.is_finite() && seats.iter().all(|s| !s.capture.as_mm().is_nan())) {
        return Err(InputError::NotANumber("capture".to_owned()));
    }
    let room = |s: &Catch| s.capture - s.mismatch.length();
    let least = seats.iter().map(room).enumerate().min_by(|a, b| a.1.as_mm().total_cmp(&b.1.as_mm()));
    let (limiting, radius) = least.ok_or(InputError::NoSeats)?;
    let yaw_beside = |off: Length| -> Result<Angle, InputError> {
        let turned = seats.iter().filter(|s| s.at.length() > Length::ZERO);
        let limits = turned.map(|s| yaw_limit((room(s) - off).max(Length::ZERO), s.at.length()));
        Ok(limits.collect::<Result<Vec<_>, _>>()?.into_iter().fold(Angle::degrees(180.0), Angle::min))
    };
    let (yaw, yaw_at_swing) = (yaw_beside(Length::ZERO)?, yaw_beside(swing)?);
    Ok(SetCapture { radius, limiting, yaw, yaw_at_swing, spare: radius - swing - margin })
}

/// How far off in one direction the frame may hang, turned by `yaw` either way, so that every nose is still caught:
/// the largest e with |e d + (R(θ) − 1) r_i + δ_i| <= e_i for all seats and both turns. Derived, plane geometry.
pub fn reach(seats: &[Catch], yaw: Angle, direction: Angle) -> Length {
    let along = |p: Plan| p.x * direction.cos() + p.y * direction.sin();
    let one = |s: &Catch, turn: Angle| {
        let (c, n) = (turn.cos() - 1.0, turn.sin());
        let off = Plan { x: s.at.x * c - s.at.y * n, y: s.at.x * n + s.at.y * c } + s.mismatch;
        let (a, all, room) = (along(off).as_mm(), off.length().as_mm(), s.capture.as_mm());
        let square = room * room - all * all + a * a;
        if all > room { 0.0 } else { (square.max(0.0).sqrt() - a).max(0.0) }
    };
    let both = seats.iter().flat_map(|s| [one(s, yaw), one(s, -yaw)]);
    Length::mm(both.fold(f64::INFINITY, f64::min))
}
