//! Quantities of the shop: one type each, stored in one unit, so that a length can
//! never be taken for an angle and a millimetre never for an inch.
//!
//! Every type keeps a plain `f64` in the unit its documentation names; constructors
//! and getters carry the unit in their name. Arithmetic that makes physical sense is
//! implemented, nothing else. Text forms ("1-1/4 in", "8°30'") are read in [`text`].

pub mod date;
pub mod show;
pub mod text;

use std::fmt;
use std::ops::{Add, Div, Mul, Neg, Sub};

/// Millimetres in one inch, exact by definition (international inch, 1959).
pub const MM_PER_INCH: f64 = 25.4;
/// Newtons of weight per kilogram: standard gravity, exact by definition (ISO 80000-3).
pub const STANDARD_GRAVITY: f64 = 9.80665;
/// Kilograms in one avoirdupois pound, exact by definition (1959 agreement).
pub const KG_PER_POUND: f64 = 0.45359237;

/// Declares a quantity: newtype over `f64`, ordered, with the arithmetic of a vector space.
macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $unit:ident, $get:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(f64);

        impl $name {
            /// Nought.
            pub const ZERO: Self = Self(0.0);
            /// From a number in the stored unit.
            pub const fn $unit(value: f64) -> Self { Self(value) }
            /// The number in the stored unit.
            pub const fn $get(self) -> f64 { self.0 }
            /// Neither NaN nor infinite.
            pub fn is_finite(self) -> bool { self.0.is_finite() }
            /// Magnitude without the sign.
            pub fn abs(self) -> Self { Self(self.0.abs()) }
            /// The smaller of two.
            pub fn min(self, other: Self) -> Self { Self(self.0.min(other.0)) }
            /// The larger of two.
            pub fn max(self, other: Self) -> Self { Self(self.0.max(other.0)) }
        }
        impl Add for $name { type Output = Self; fn add(self, o: Self) -> Self { Self(self.0 + o.0) } }
        impl Sub for $name { type Output = Self; fn sub(self, o: Self) -> Self { Self(self.0 - o.0) } }
        impl Neg for $name { type Output = Self; fn neg(self) -> Self { Self(-self.0) } }
        impl Mul<f64> for $name { type Output = Self; fn mul(self, k: f64) -> Self { Self(self.0 * k) } }
        impl Mul<$name> for f64 { type Output = $name; fn mul(self, q: $name) -> $name { $name(self * q.0) } }
        impl Div<f64> for $name { type Output = Self; fn div(self, k: f64) -> Self { Self(self.0 / k) } }
        impl Div for $name { type Output = f64; fn div(self, o: Self) -> f64 { self.0 / o.0 } }
        impl std::iter::Sum for $name { fn sum<I: Iterator<Item = Self>>(i: I) -> Self { i.fold(Self::ZERO, Add::add) } }
        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "{} {}", self.0, stringify!($unit))
            }
        }
    };
}

quantity!(/** A length, stored in millimetres. */ Length, mm, as_mm);
quantity!(/** An angle, stored in degrees (degrees survive text and back, radians do not). */ Angle, degrees, as_degrees);
quantity!(/** An area, stored in mm². */ Area, mm2, as_mm2);
quantity!(/** A volume, stored in mm³. */ Volume, mm3, as_mm3);
quantity!(/** A mass, stored in kilograms. */ Mass, kg, as_kg);
quantity!(/** A density, stored in kg/m³. */ Density, kg_per_m3, as_kg_per_m3);
quantity!(/** A force, stored in newtons. */ Force, newtons, as_newtons);
quantity!(/** A torque, stored in newton metres. */ Torque, newton_metres, as_newton_metres);
quantity!(/** A stress, pressure or modulus, stored in MPa = N/mm². */ Stress, mpa, as_mpa);
quantity!(/** A temperature difference, stored in kelvin. */ TemperatureChange, kelvin, as_kelvin);
quantity!(/** A coefficient of linear expansion, stored in 1e-6/K. */ Expansion, per_million_kelvin, as_per_million_kelvin);
quantity!(/** A speed of rotation, stored in revolutions per minute. */ SpindleSpeed, rpm, as_rpm);
quantity!(/** A cutting speed, stored in metres per minute. */ CuttingSpeed, m_per_min, as_m_per_min);
quantity!(/** An acceleration, stored in multiples of standard gravity. */ Acceleration, g, as_g);

/// A temperature, stored in degrees Celsius. Differences are [`TemperatureChange`].
#[derive(Clone, Copy, PartialEq, PartialOrd, Debug)]
pub struct Temperature(f64);

impl Temperature {
    /// The temperature at which sizes are meant, 20 °C (ISO 1:2022).
    pub const REFERENCE: Self = Self(20.0);
    /// Absolute zero.
    pub const ABSOLUTE_ZERO: Self = Self(-273.15);
    /// From degrees Celsius.
    pub const fn celsius(value: f64) -> Self {
        Self(value)
    }
    /// In degrees Celsius.
    pub const fn as_celsius(self) -> f64 {
        self.0
    }
    /// In degrees Fahrenheit.
    pub const fn as_fahrenheit(self) -> f64 {
        self.0 * 1.8 + 32.0
    }
    /// Neither NaN nor infinite.
    pub fn is_finite(self) -> bool {
        self.0.is_finite()
    }
    /// This temperature as a difference from the reference of 20 °C.
    pub fn above_reference(self) -> TemperatureChange {
        self - Self::REFERENCE
    }
}

impl Sub for Temperature {
    type Output = TemperatureChange;
    fn sub(self, o: Self) -> TemperatureChange {
        TemperatureChange(self.0 - o.0)
    }
}
impl Add<TemperatureChange> for Temperature {
    type Output = Self;
    fn add(self, o: TemperatureChange) -> Self {
        Self(self.0 + o.0)
    }
}

impl Length {
    /// From inches.
    pub const fn inches(value: f64) -> Self {
        Self(value * MM_PER_INCH)
    }
    /// From micrometres.
    pub const fn um(value: f64) -> Self {
        Self(value / 1000.0)
    }
    /// From thousandths of an inch.
    pub const fn thou(value: f64) -> Self {
        Self(value * MM_PER_INCH / 1000.0)
    }
    /// In inches.
    pub const fn as_inches(self) -> f64 {
        self.0 / MM_PER_INCH
    }
    /// In micrometres.
    pub const fn as_um(self) -> f64 {
        self.0 * 1000.0
    }
    /// In thousandths of an inch.
    pub const fn as_thou(self) -> f64 {
        self.0 * 1000.0 / MM_PER_INCH
    }
    /// Rounded to 0.1 µm, the step in which sizes are recorded.
    pub fn rounded(self) -> Self {
        Self((self.0 * 1e4).round() / 1e4)
    }
    /// Up to the next whole step, as a rule or a dial has it; what lies within the noise of the last bits of one counts as that.
    pub fn up_to(self, step: Self) -> Self {
        step * (self / step - 1e-6).ceil()
    }
    /// To the nearest whole step, as a rule or a dial is read.
    pub fn to_nearest(self, step: Self) -> Self {
        step * (self / step).round()
    }
    /// The right-angled hypotenuse √(a² + b²).
    pub fn hypot(self, other: Self) -> Self {
        Self((self.0 * self.0 + other.0 * other.0).sqrt())
    }
}
impl Mul for Length {
    type Output = Area;
    fn mul(self, o: Self) -> Area {
        Area(self.0 * o.0)
    }
}
impl Mul<Area> for Length {
    type Output = Volume;
    fn mul(self, o: Area) -> Volume {
        Volume(self.0 * o.0)
    }
}
impl Mul<Length> for Area {
    type Output = Volume;
    fn mul(self, o: Length) -> Volume {
        Volume(self.0 * o.0)
    }
}
impl Div<Length> for Area {
    type Output = Length;
    fn div(self, o: Length) -> Length {
        Length(self.0 / o.0)
    }
}
impl Div<Area> for Force {
    type Output = Stress;
    fn div(self, o: Area) -> Stress {
        Stress(self.0 / o.0)
    }
}
impl Mul<Area> for Stress {
    type Output = Force;
    fn mul(self, o: Area) -> Force {
        Force(self.0 * o.0)
    }
}
impl Mul<Volume> for Density {
    type Output = Mass;
    fn mul(self, o: Volume) -> Mass {
        Mass(self.0 * o.0 * 1e-9)
    }
}
/// Expansion times temperature change: a strain (pure number).
impl Mul<TemperatureChange> for Expansion {
    type Output = f64;
    fn mul(self, o: TemperatureChange) -> f64 {
        self.0 * 1e-6 * o.0
    }
}
impl Mul<Length> for Force {
    type Output = Torque;
    fn mul(self, o: Length) -> Torque {
        Torque(self.0 * o.0 / 1000.0)
    }
}

impl Mass {
    /// From pounds.
    pub const fn pounds(value: f64) -> Self {
        Self(value * KG_PER_POUND)
    }
    /// In pounds.
    pub const fn as_pounds(self) -> f64 {
        self.0 / KG_PER_POUND
    }
    /// Weight at standard gravity.
    pub const fn weight(self) -> Force {
        Force(self.0 * STANDARD_GRAVITY)
    }
}

impl Force {
    /// From pounds-force.
    pub const fn pounds_force(value: f64) -> Self {
        Self(value * KG_PER_POUND * STANDARD_GRAVITY)
    }
    /// In pounds-force.
    pub const fn as_pounds_force(self) -> f64 {
        self.0 / (KG_PER_POUND * STANDARD_GRAVITY)
    }
}

impl Torque {
    /// In pound-force feet.
    pub const fn as_pound_force_feet(self) -> f64 {
        self.0 / (KG_PER_POUND * STANDARD_GRAVITY * 0.3048)
    }
}

impl Stress {
    /// From gigapascals.
    pub const fn gpa(value: f64) -> Self {
        Self(value * 1000.0)
    }
    /// In gigapascals.
    pub const fn as_gpa(self) -> f64 {
        self.0 / 1000.0
    }
    /// In pounds per square inch.
    pub const fn as_psi(self) -> f64 {
        self.0 * 145.037_737_730_209_2
    }
}

impl Angle {
    /// From radians.
    pub fn radians(value: f64) -> Self {
        Self(value.to_degrees())
    }
    /// In radians.
    pub fn as_radians(self) -> f64 {
        self.0.to_radians()
    }
    /// From thousandths of a radian.
    pub fn milliradians(value: f64) -> Self {
        Self((value / 1000.0).to_degrees())
    }
    /// In thousandths of a radian.
    pub fn as_milliradians(self) -> f64 {
        self.as_radians() * 1000.0
    }
    /// Sine, the same on every machine, exact at multiples of 90°.
    pub fn sin(self) -> f64 {
        match self.0.rem_euclid(360.0) {
            0.0 | 180.0 => 0.0,
            90.0 => 1.0,
            270.0 => -1.0,
            _ => libm::sin(self.as_radians()),
        }
    }
    /// Cosine, the same on every machine, exact at multiples of 90°.
    pub fn cos(self) -> f64 {
        match self.0.rem_euclid(360.0) {
            90.0 | 270.0 => 0.0,
            0.0 => 1.0,
            180.0 => -1.0,
            _ => libm::cos(self.as_radians()),
        }
    }
    /// Tangent, the same on every machine. Large but finite next to 90°.
    pub fn tan(self) -> f64 {
        match self.0.rem_euclid(180.0) {
            0.0 => 0.0,
            45.0 => 1.0,
            135.0 => -1.0,
            _ => libm::tan(self.as_radians()),
        }
    }
    /// The angle whose tangent is `t`, between -90° and 90°.
    pub fn atan(t: f64) -> Self {
        Self(libm::atan(t).to_degrees())
    }
    /// The angle of the point (`x`, `y`) from the x axis, -180° to 180°.
    pub fn atan2(y: f64, x: f64) -> Self {
        Self(libm::atan2(y, x).to_degrees())
    }
    /// The angle whose sine is `s`; NaN outside -1 to 1.
    pub fn asin(s: f64) -> Self {
        Self(libm::asin(s).to_degrees())
    }
    /// The angle whose cosine is `c`; NaN outside -1 to 1.
    pub fn acos(c: f64) -> Self {
        Self(libm::acos(c).to_degrees())
    }
    /// Whole degrees, minutes, and seconds rounded to `decimals` (sign kept apart).
    pub fn as_degrees_minutes(self) -> (bool, u32, f64) {
        let tenths = (self.0.abs() * 600.0).round();
        (self.0 < 0.0, (tenths / 600.0).floor() as u32, (tenths % 600.0) / 10.0)
    }
}

impl SpindleSpeed {
    /// Speed in whole revolutions, rounded down (never faster than computed).
    pub fn whole(self) -> u32 {
        self.0.max(0.0).floor() as u32
    }
}
impl CuttingSpeed {
    /// In surface feet per minute.
    pub const fn as_sfm(self) -> f64 {
        self.0 / 0.3048
    }
}

/// In which unit lengths are shown first, and what a bare number in a file means.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum LengthUnit {
    /// Millimetre.
    #[default]
    Mm,
    /// Inch.
    Inch,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_angles_are_exact() {
        assert_eq!(Angle::degrees(45.0).tan(), 1.0);
        assert_eq!(Angle::degrees(90.0).cos(), 0.0);
        assert_eq!(Angle::degrees(-90.0).sin(), -1.0);
        assert_eq!(Angle::degrees(180.0).cos(), -1.0);
    }

    #[test]
    fn degrees_and_minutes() {
        assert_eq!(Angle::degrees(8.5).as_degrees_minutes(), (false, 8, 30.0));
        assert_eq!(Angle::degrees(-14.0362).as_degrees_minutes(), (true, 14, 2.2));
        assert_eq!(Angle::degrees(7.99999).as_degrees_minutes(), (false, 8, 0.0));
    }

    #[test]
    fn physical_products() {
        assert_eq!((Length::mm(2.0) * Length::mm(3.0)).as_mm2(), 6.0);
        assert_eq!((Force::newtons(10.0) * Length::mm(500.0)).as_newton_metres(), 5.0);
        assert_eq!(Length::inches(1.0).as_mm(), 25.4);
        assert_eq!(Temperature::celsius(20.0).as_fahrenheit(), 68.0);
        assert!((Mass::kg(640.0).weight().as_newtons() - 6276.256).abs() < 1e-9);
    }
}
