//! The units that are read, each with its exact size in the unit that the program keeps.

use super::number::Exact;

/// What kind of quantity a unit measures.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Dimension {
    Length,
    Angle,
    Ratio,
    Mass,
    Force,
    Stress,
    Torque,
    Temperature,
    TemperatureChange,
    Acceleration,
    CuttingSpeed,
    Expansion,
    Density,
    /// A force, or a mass whose weight is meant.
    Load,
}

impl Dimension {
    /// With its article, as a sentence needs it.
    pub fn noun(self) -> &'static str {
        match self {
            Self::Length => "a length",
            Self::Angle => "an angle",
            Self::Ratio => "a ratio",
            Self::Mass => "a mass",
            Self::Force => "a force",
            Self::Stress => "a stress or pressure",
            Self::Torque => "a torque",
            Self::Temperature => "a temperature",
            Self::TemperatureChange => "a change of temperature",
            Self::Acceleration => "an acceleration",
            Self::CuttingSpeed => "a cutting speed",
            Self::Expansion => "a coefficient of expansion",
            Self::Density => "a density",
            Self::Load => "a load",
        }
    }

    /// Two spellings that are right.
    pub fn example(self) -> &'static str {
        match self {
            Self::Length => "12 mm or 1/2 in",
            Self::Angle => "30 deg or 8°30'",
            Self::Ratio => "1:10 or 0.1",
            Self::Mass => "640 kg or 1410 lb",
            Self::Force => "2.5 kN or 560 lbf",
            Self::Stress => "250 MPa or 36 ksi",
            Self::Torque => "40 N m or 30 lbf ft",
            Self::Temperature => "20 °C or 68 °F",
            Self::TemperatureChange => "40 K or 72 °F",
            Self::Acceleration => "0.8 g or 7.8 m/s2",
            Self::CuttingSpeed => "30 m/min or 100 sfm",
            Self::Expansion => "11.7 um/m/K or 6.5 ppm/F",
            Self::Density => "7850 kg/m3 or 7.85 g/cm3",
            Self::Load => "160 kg or 1.6 kN",
        }
    }

    /// The two units offered when none is written.
    pub fn offered(self) -> [&'static str; 2] {
        match self {
            Self::Length => ["mm", "in"],
            Self::Angle => ["deg", "mrad"],
            Self::Ratio => ["%", "in/ft"],
            Self::Mass => ["kg", "lb"],
            Self::Force => ["kN", "lbf"],
            Self::Stress => ["MPa", "psi"],
            Self::Torque => ["N m", "lbf ft"],
            Self::Temperature => ["°C", "°F"],
            Self::TemperatureChange => ["K", "°F"],
            Self::Acceleration => ["g", "m/s2"],
            Self::CuttingSpeed => ["m/min", "sfm"],
            Self::Expansion => ["um/m/K", "ppm/F"],
            Self::Density => ["kg/m3", "g/cm3"],
            Self::Load => ["kg", "kN"],
        }
    }
}

/// How a unit behaves in a size of several parts (`2' 3"`, `8°30'15"`).
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Part {
    /// Only by itself.
    Alone,
    /// Feet, degrees: may be followed by the smaller unit.
    First,
    /// Inches: by itself, or after feet and then below 12.
    Inches,
    /// Minutes of arc: after degrees, below 60.
    Minutes,
    /// Seconds of arc: after minutes, below 60.
    Seconds,
}

/// One unit: `(written + offset) * over / under` is the number in the stored unit.
#[derive(Debug)]
pub(super) struct Unit {
    pub dimension: Dimension,
    /// Spellings, in the form that [`normal`] gives; the first is used in messages.
    pub names: &'static [&'static str],
    over: i128,
    under: i128,
    hundredths: i128,
    pub part: Part,
}

impl Unit {
    const fn new(dimension: Dimension, names: &'static [&'static str], over: i128, under: i128) -> Self {
        Self { dimension, names, over, under, hundredths: 0, part: Part::Alone }
    }
    const fn part(self, part: Part) -> Self {
        Self { part, ..self }
    }
    const fn from(self, hundredths: i128) -> Self {
        Self { hundredths, ..self }
    }

    /// A number of this unit in the stored unit; `None` when the digits are too many.
    pub fn stored(&self, written: Exact) -> Option<Exact> {
        written.plus(Exact::new(self.hundredths, 100)?)?.times(Exact::new(self.over, self.under)?)
    }
}

use Dimension as D;
use Part::{First, Inches, Minutes, Seconds};

/// A radian in degrees, 180/π, to 20 digits.
const RADIAN: (i128, i128) = (57_295_779_513_082_320_877, 1_000_000_000_000_000_000);
/// Pound-force in newtons: 0.45359237 kg (1959 agreement) at 9.80665 m/s² (ISO 80000-3), exact.
const POUND_FORCE: (i128, i128) = (44_482_216_152_605, 10_000_000_000_000);

/// Every unit. An inch is 127/5 mm, exact by definition (1959).
#[rustfmt::skip]
static UNITS: &[Unit] = &[
    Unit::new(D::Length, &["mm", "MM", "millimetre", "millimeter", "millimetres", "millimeters"], 1, 1),
    Unit::new(D::Length, &["in", "\"", "''", "IN", "inch", "inches"], 127, 5).part(Inches),
    Unit::new(D::Length, &["um", "micron", "microns"], 1, 1000),
    Unit::new(D::Length, &["thou", "mil", "mils"], 127, 5000),
    Unit::new(D::Length, &["uin", "microinch", "microinches"], 127, 5_000_000),
    Unit::new(D::Length, &["cm"], 10, 1),
    Unit::new(D::Length, &["m", "metre", "meter", "metres", "meters"], 1000, 1),
    Unit::new(D::Length, &["ft", "'", "foot", "feet"], 1524, 5).part(First),
    Unit::new(D::Angle, &["deg", "°", "d", "degree", "degrees"], 1, 1).part(First),
    Unit::new(D::Angle, &["min", "'", "m"], 1, 60).part(Minutes),
    Unit::new(D::Angle, &["sec", "\"", "''", "s"], 1, 3600).part(Seconds),
    Unit::new(D::Angle, &["rad"], RADIAN.0, RADIAN.1),
    Unit::new(D::Angle, &["mrad"], RADIAN.0, RADIAN.1 * 1000),
    Unit::new(D::Ratio, &["%"], 1, 100),
    Unit::new(D::Ratio, &["in/ft"], 1, 12),
    Unit::new(D::Ratio, &["mm/m"], 1, 1000),
    Unit::new(D::Mass, &["kg"], 1, 1),
    Unit::new(D::Mass, &["g"], 1, 1000),
    Unit::new(D::Mass, &["t"], 1000, 1),
    Unit::new(D::Mass, &["lb", "lbs"], 45_359_237, 100_000_000),
    Unit::new(D::Mass, &["oz"], 45_359_237, 1_600_000_000),
    Unit::new(D::Force, &["N"], 1, 1),
    Unit::new(D::Force, &["kN"], 1000, 1),
    Unit::new(D::Force, &["lbf"], POUND_FORCE.0, POUND_FORCE.1),
    Unit::new(D::Stress, &["MPa", "N/mm2"], 1, 1),
    Unit::new(D::Stress, &["GPa", "kN/mm2"], 1000, 1),
    Unit::new(D::Stress, &["kPa"], 1, 1000),
    Unit::new(D::Stress, &["Pa", "N/m2"], 1, 1_000_000),
    Unit::new(D::Stress, &["bar"], 1, 10),
    Unit::new(D::Stress, &["psi", "lbf/in2"], POUND_FORCE.0 * 25, POUND_FORCE.1 * 16129),
    Unit::new(D::Stress, &["ksi"], POUND_FORCE.0 * 25_000, POUND_FORCE.1 * 16129),
    Unit::new(D::Torque, &["N m", "Nm"], 1, 1),
    Unit::new(D::Torque, &["kN m", "kNm"], 1000, 1),
    Unit::new(D::Torque, &["N mm", "Nmm"], 1, 1000),
    Unit::new(D::Torque, &["lbf ft", "ft lbf", "lb ft", "ft lb"], POUND_FORCE.0 * 3048, POUND_FORCE.1 * 10_000),
    Unit::new(D::Torque, &["lbf in", "in lbf", "lb in", "in lb"], POUND_FORCE.0 * 254, POUND_FORCE.1 * 10_000),
    Unit::new(D::Temperature, &["°C", "C", "degC", "deg C"], 1, 1),
    Unit::new(D::Temperature, &["°F", "F", "degF", "deg F"], 5, 9).from(-3200),
    Unit::new(D::Temperature, &["K"], 1, 1).from(-27315),
    Unit::new(D::TemperatureChange, &["K", "°C", "C", "C°"], 1, 1),
    Unit::new(D::TemperatureChange, &["°F", "F", "F°"], 5, 9),
    Unit::new(D::Acceleration, &["g"], 1, 1),
    Unit::new(D::Acceleration, &["m/s2", "m/s/s"], 100_000, 980_665),
    Unit::new(D::CuttingSpeed, &["m/min"], 1, 1),
    Unit::new(D::CuttingSpeed, &["sfm", "ft/min"], 3048, 10_000),
    Unit::new(D::Expansion, &["um/m/K", "um/(m K)", "um/m K", "um/m/C", "um/m/°C", "ppm/K", "ppm/C", "ppm/°C"], 1, 1),
    Unit::new(D::Expansion, &["ppm/F", "ppm/°F", "uin/in/F", "uin/in/°F"], 9, 5),
    Unit::new(D::Density, &["kg/m3"], 1, 1),
    Unit::new(D::Density, &["g/cm3", "kg/dm3", "t/m3"], 1000, 1),
    Unit::new(D::Density, &["lb/in3"], 453_592_370_000, 16_387_064),
    Unit::new(D::Load, &["kg"], 980_665, 100_000),
    Unit::new(D::Load, &["t"], 980_665, 100),
    Unit::new(D::Load, &["lb", "lbs", "lbf"], POUND_FORCE.0, POUND_FORCE.1),
    Unit::new(D::Load, &["N"], 1, 1),
    Unit::new(D::Load, &["kN"], 1000, 1),
];

/// The unit of that spelling (see [`normal`]) and kind.
pub(super) fn find(dimension: Dimension, name: &str) -> Option<&'static Unit> {
    of(dimension).find(|u| u.names.contains(&name))
}

/// The kind of quantity that a spelling measures, whatever it is.
pub(super) fn dimension_of(name: &str) -> Option<Dimension> {
    UNITS.iter().find(|u| u.names.contains(&name)).map(|u| u.dimension)
}

/// All units of one kind.
pub(super) fn of(dimension: Dimension) -> impl Iterator<Item = &'static Unit> {
    UNITS.iter().filter(move |u| u.dimension == dimension)
}

/// One spelling for the many ways to type a unit: micro sign and Greek mu as `u`, primes as straight marks,
/// raised figures as figures, a product dot or dash as a space, single spaces.
pub(super) fn normal(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            'µ' | 'μ' => plain.push('u'),
            '’' | '′' => plain.push('\''),
            '”' | '″' => plain.push('"'),
            'º' | '˚' => plain.push('°'),
            '²' => plain.push('2'),
            '³' => plain.push('3'),
            '·' | '⋅' | '*' | '-' => plain.push(' '),
            c if c.is_whitespace() => plain.push(' '),
            c => plain.push(c),
        }
    }
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_spelling_means_one_unit_of_a_kind() {
        for (i, a) in UNITS.iter().enumerate() {
            for b in &UNITS[i + 1..] {
                let clash = a.dimension == b.dimension && a.names.iter().any(|n| b.names.contains(n));
                assert!(!clash, "{:?} and {:?}", a.names, b.names);
            }
        }
    }

    #[test]
    fn spellings_are_in_their_normal_form() {
        for name in UNITS.iter().flat_map(|u| u.names) {
            assert_eq!(normal(name), *name);
        }
    }

    /// What messages offer must be read back.
    #[test]
    fn offered_units_exist() {
        for unit in UNITS {
            for name in unit.dimension.offered() {
                assert!(find(unit.dimension, name).is_some(), "{name}");
            }
        }
    }

    #[test]
    fn spellings_of_the_same_unit() {
        assert_eq!(normal(" µm "), "um");
        assert_eq!(normal("N·m"), "N m");
        assert_eq!(normal("ft-lbf"), "ft lbf");
        assert_eq!(normal("N/mm²"), "N/mm2");
        assert_eq!(normal("g/cm³"), "g/cm3");
        assert_eq!(normal("″"), "\"");
    }
}
