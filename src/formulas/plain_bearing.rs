//! A bush that is greased now and then, or runs dry: pressure, sliding speed, wear and friction at the border of lubrication.
//!
//! No film of oil carries here; what does is called boundary lubrication. Source: Shigley, Mechanical Engineering Design, chapter 12,
//! boundary-lubricated bearings; Mott, Machine Elements in Mechanical Design, chapter 16, plain surface bearings.

use std::f64::consts::PI;

use super::{MechanicsError, not_negative, positive};
use crate::units::{Angle, CuttingSpeed, Force, Length, SpindleSpeed, Stress, Torque};

/// Mean pressure on the projected area of a bush, p = F/(d L); d bore, L the length that bears (without grooves).
/// Source: Mott, section 16-4 (150 lb on 1.5 x 1.5 in: 66.7 psi); Shigley, section 12-15.
pub fn pressure(load: Force, bore: Length, length: Length) -> Result<Stress, MechanicsError> {
    not_negative("the load", load.as_newtons())?;
    positive("the bore", bore.as_mm())?;
    positive("the length that bears", length.as_mm())?;
    Ok(load / (bore * length))
}

/// Mean pressure on a flat ring, 4 F/(π (D² − d²)). Source: load over area.
pub fn thrust_pressure(load: Force, bore: Length, outside: Length) -> Result<Stress, MechanicsError> {
    not_negative("the load", load.as_newtons())?;
    positive("the bore", bore.as_mm())?;
    if bore >= outside {
        return Err(MechanicsError::NotSmaller { smaller: "the bore", larger: "the outside of the washer" });
    }
    let (d, big) = (bore.as_mm(), outside.as_mm());
    Ok(Stress::mpa(4.0 * load.as_newtons() / (PI * (big * big - d * d))))
}

/// Diameter at which a flat ring rubs, by moment: (2/3) (D³ − d³)/(D² − d²), evenly pressed.
/// Source: Shigley, Mechanical Engineering Design, disk clutches, uniform pressure.
pub fn rubbing_diameter(bore: Length, outside: Length) -> Result<Length, MechanicsError> {
    positive("the bore", bore.as_mm())?;
    if bore >= outside {
        return Err(MechanicsError::NotSmaller { smaller: "the bore", larger: "the outside of the washer" });
    }
    let (d, big) = (bore.as_mm(), outside.as_mm());
    Ok(Length::mm(2.0 / 3.0 * (big.powi(3) - d.powi(3)) / (big * big - d * d)))
}

/// How the shaft moves in its bush.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Motion {
    /// Round and round.
    Turns(SpindleSpeed),
    /// To and fro by a whole angle, so many times there and back in a minute.
    Swings(Angle, f64),
}

impl Motion {
    /// Mean sliding speed at a diameter: π d n; of a swing θ there and back f times a minute, θ d f (θ in radians).
    /// Source: arc length; Mott, section 16-4 (1.5 in at 500 rpm: 196 ft/min).
    pub fn speed(self, diameter: Length) -> Result<CuttingSpeed, MechanicsError> {
        positive("the diameter", diameter.as_mm())?;
        let metres = diameter.as_mm() / 1000.0;
        match self {
            Self::Turns(n) => {
                not_negative("the speed of rotation", n.as_rpm())?;
                Ok(CuttingSpeed::m_per_min(PI * metres * n.as_rpm()))
            }
            Self::Swings(swing, often) => {
                positive("the swing", swing.as_degrees())?;
                not_negative("the number of swings", often)?;
                Ok(CuttingSpeed::m_per_min(swing.as_radians() * metres * often))
            }
        }
    }
}

/// Pressure times sliding speed, MPa m/s: what the friction heats each area by, but for the coefficient.
pub fn pressure_speed(pressure: Stress, speed: CuttingSpeed) -> f64 {
    pressure.as_mpa() * speed.as_m_per_min() / 60.0
}

/// How long a bush runs until it has worn so deep on the loaded side: t = w/(k (4/π) p v), in hours; k wear factor mm³/(N m), the
/// pressure greatest in the line of the load, 4/π of the mean. Conditions as when k was measured: clean, not hot.
/// Source: Shigley, Mechanical Engineering Design, section 12-15, equation of the radial wear (brass bush 1 in x 1 in, 700 lbf,
/// 33 ft/min, 0.005 in, motion factor 1.3: 2180 h, from memory).
pub fn wear_life(wear: Length, wear_factor: f64, pressure: Stress, speed: CuttingSpeed) -> Result<f64, MechanicsError> {
    positive("the wear", wear.as_mm())?;
    positive("the wear factor", wear_factor)?;
    positive("the pressure", pressure.as_mpa())?;
    positive("the sliding speed", speed.as_m_per_min())?;
    // mm³/(N m) × N/mm² × m/h = mm/h.
    Ok(wear.as_mm() / (wear_factor * 4.0 / PI * pressure.as_mpa() * speed.as_m_per_min() * 60.0))
}

/// One wear factor of in³ min/(lbf ft h), as American tables print it, in mm³/(N m). Source: 25.4, 0.3048 and 4.448 22, exact.
#[allow(dead_code, reason = "tests turn printed factors with it")]
pub fn wear_factor_from_inch(printed: f64) -> f64 {
    let cubic_inch = 25.4_f64.powi(3);
    printed * cubic_inch / (60.0 * Force::pounds_force(1.0).as_newtons() * 0.3048)
}

/// Torque of friction at a diameter, µ F d/2. Source: Coulomb.
pub fn friction_torque(load: Force, friction: f64, diameter: Length) -> Torque {
    load * friction * (diameter / 2.0)
}

/// Heat of friction, µ F v, in watts. Source: power of a force that slides.
pub fn friction_watts(load: Force, friction: f64, speed: CuttingSpeed) -> f64 {
    friction * load.as_newtons() * speed.as_m_per_min() / 60.0
}
