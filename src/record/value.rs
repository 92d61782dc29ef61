//! A number with its kind: what is recorded, and what is held against a limit.

use crate::units::{
    Acceleration, Angle, Area, Force, Length, Mass, SpindleSpeed, Stress, Temperature, TemperatureChange, Torque,
    Volume,
};

/// A number with its kind, so that one place decides how it is written.
#[derive(Clone, PartialEq, Debug)]
pub enum Value {
    /// A size on the part or in the machine.
    Length(Length),
    /// An angle.
    Angle(Angle),
    /// A surface.
    Area(Area),
    /// A volume.
    Volume(Volume),
    /// A mass.
    Mass(Mass),
    /// A force.
    Force(Force),
    /// A torque.
    Torque(Torque),
    /// A stress, pressure or modulus.
    Stress(Stress),
    /// A temperature.
    Temperature(Temperature),
    /// A temperature difference.
    TemperatureChange(TemperatureChange),
    /// A spindle speed.
    SpindleSpeed(SpindleSpeed),
    /// An acceleration.
    Acceleration(Acceleration),
    /// A pure number: a ratio, a coefficient of friction, a factor.
    Number(f64),
    /// A share of one, shown in per cent.
    Share(f64),
    /// How many.
    Count(u32),
    /// A word: a class, a thread, a material.
    Text(String),
}

impl Value {
    /// The number in the stored unit; NaN for a word.
    pub fn number(&self) -> f64 {
        match self {
            Self::Length(v) => v.as_mm(),
            Self::Angle(v) => v.as_degrees(),
            Self::Area(v) => v.as_mm2(),
            Self::Volume(v) => v.as_mm3(),
            Self::Mass(v) => v.as_kg(),
            Self::Force(v) => v.as_newtons(),
            Self::Torque(v) => v.as_newton_metres(),
            Self::Stress(v) => v.as_mpa(),
            Self::Temperature(v) => v.as_celsius(),
            Self::TemperatureChange(v) => v.as_kelvin(),
            Self::SpindleSpeed(v) => v.as_rpm(),
            Self::Acceleration(v) => v.as_g(),
            Self::Number(v) | Self::Share(v) => *v,
            Self::Count(n) => f64::from(*n),
            Self::Text(_) => f64::NAN,
        }
    }

    /// The unit in which [`Value::number`] is meant, as written in JSON.
    pub fn unit(&self) -> &'static str {
        match self {
            Self::Length(_) => "mm",
            Self::Angle(_) => "deg",
            Self::Area(_) => "mm2",
            Self::Volume(_) => "mm3",
            Self::Mass(_) => "kg",
            Self::Force(_) => "N",
            Self::Torque(_) => "N m",
            Self::Stress(_) => "MPa",
            Self::Temperature(_) => "C",
            Self::TemperatureChange(_) => "K",
            Self::SpindleSpeed(_) => "rpm",
            Self::Acceleration(_) => "g",
            Self::Number(_) | Self::Share(_) | Self::Count(_) => "1",
            Self::Text(_) => "",
        }
    }
}
