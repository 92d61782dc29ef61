//! Which metals eat each other when wet: anodic index, potentials in sea water, and how far apart they may be.

#![allow(dead_code, reason = "the two series of other sources are to be shown beside the figure")]

use crate::source::Cited;
use crate::source::Confirmed::{self, Memory, One, TwoOrMore};
use crate::units::Temperature;

/// A group of metals with one anodic index.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct AnodicGroup {
    /// The metals.
    pub name: &'static str,
    /// Volts below gold.
    pub index_volts: f64,
    /// How well it is confirmed.
    pub confirmed: Confirmed,
}

const fn group(name: &'static str, index_volts: f64, confirmed: Confirmed) -> AnodicGroup {
    AnodicGroup { name, index_volts, confirmed }
}

/// Where the anodic indices stand.
pub const ANODIC_SOURCE: &str = "tables of the anodic index (two reprints; some rows from memory)";

// The groups that a material of this project belongs to have a name; the rest stand in the table only.
/// Brass and bronzes.
pub const BRASS_BRONZE: AnodicGroup = group("brass and bronzes", 0.4, One);
/// High brasses and bronzes.
pub const HIGH_BRASS: AnodicGroup = group("high brasses and bronzes", 0.45, One);
/// 18 % chromium stainless.
pub const STAINLESS: AnodicGroup = group("18 % chromium stainless", 0.5, One);
/// 2000-series wrought aluminium.
pub const ALUMINIUM_2000: AnodicGroup = group("2000-series wrought aluminium", 0.75, One);
/// Iron and low alloy steel.
pub const STEEL: AnodicGroup = group("iron and low alloy steel", 0.85, Memory);
/// Aluminium other than 2000 series (6061 etc.).
pub const ALUMINIUM: AnodicGroup = group("aluminium other than 2000 series (6061 etc.)", 0.9, Memory);
/// Hot-dip zinc plate, galvanised steel.
pub const HOT_DIP_ZINC: AnodicGroup = group("hot-dip zinc plate, galvanised steel", 1.2, Memory);
/// Zinc, zinc plating.
pub const ZINC_PLATE: AnodicGroup = group("zinc, zinc plating", 1.25, Memory);

/// Anodic index, noble first.
#[rustfmt::skip]
const ANODIC_INDEX: &[AnodicGroup] = &[
    group("gold", 0.0, TwoOrMore),
    group("rhodium plated", 0.05, One),
    group("silver, monel", 0.15, One),
    group("nickel, titanium", 0.3, One),
    group("copper, silver solder, low brasses or bronzes", 0.35, One),
    BRASS_BRONZE,
    HIGH_BRASS,
    STAINLESS,
    group("chromium plate, tin plate, 12 % chromium stainless", 0.6, One),
    group("tin-lead solder", 0.65, One),
    group("lead", 0.7, One),
    ALUMINIUM_2000,
    STEEL,
    ALUMINIUM,
    group("cast aluminium-silicon", 0.95, Memory),
    HOT_DIP_ZINC,
    ZINC_PLATE,
    group("magnesium", 1.75, Memory),
];

/// Where a pair of metals stands.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Environment {
    /// Outdoors, high humidity, salt: road spray too.
    Harsh,
    /// Stores, no control of temperature or humidity.
    Normal,
    /// Temperature and humidity under control.
    Controlled,
}

impl Environment {
    /// Coldest and warmest that a part there is taken to become: in frost and in the sun, in a store, in a heated room.
    /// Source: common practice, no source.
    pub const fn temperatures(self) -> (Temperature, Temperature) {
        let (cold, warm) = match self {
            Self::Harsh => (-20.0, 50.0),
            Self::Normal => (0.0, 40.0),
            Self::Controlled => (10.0, 35.0),
        };
        (Temperature::celsius(cold), Temperature::celsius(warm))
    }

    /// As the part file names it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Harsh => "outdoors",
            Self::Normal => "indoors",
            Self::Controlled => "dry",
        }
    }
}

/// Greatest difference of anodic index in volts that a bare pair may have.
///
/// Steel on aluminium: 0.90 − 0.85 = 0.05 V, fit for salt. Steel on stainless: 0.35 V, not even indoors.
pub const fn allowed_difference_volts(environment: Environment) -> Cited<f64> {
    let value = match environment {
        Environment::Harsh => 0.15,
        Environment::Normal => 0.25,
        Environment::Controlled => 0.50,
    };
    Cited { value, confirmed: TwoOrMore, source: "anodic index rule (two reprints)" }
}

/// All groups, noble first.
pub fn anodic_groups() -> &'static [AnodicGroup] {
    ANODIC_INDEX
}

/// Difference of anodic index of two groups in volts, and which one is eaten (the second, if true).
pub fn anodic_difference_volts(a: &AnodicGroup, b: &AnodicGroup) -> (f64, bool) {
    // hundredths of a volt: the printed step, so that 0.90 - 0.85 is 0.05
    let difference = ((b.index_volts - a.index_volts) * 100.0).round() / 100.0;
    (difference.abs(), difference > 0.0)
}

/// A metal in sea water.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct SeaWaterPotential {
    /// The metal.
    pub metal: &'static str,
    /// Volts, active negative.
    pub volts: f64,
    /// What the reprints print.
    pub spread: &'static str,
}

const fn sea(metal: &'static str, volts: f64, spread: &'static str) -> SeaWaterPotential {
    SeaWaterPotential { metal, volts, spread }
}

/// Greatest difference in sea water in volts, immersed (one reprint).
pub const SEA_WATER_LIMIT_VOLTS: Cited<f64> =
    Cited { value: 0.2, confirmed: One, source: "galvanic series in sea water, 200 mV rule (one reprint)" };

/// Galvanic series in flowing sea water, in the order of the printed series.
#[rustfmt::skip]
const SEA_WATER: &[SeaWaterPotential] = &[
    sea("magnesium", -1.6, "reprint 1 -1.60..-1.65; reprint 3 -1.73 (Ag/AgCl)"),
    sea("zinc", -1.03, "reprint 1 -0.98..-1.03; reprint 2 -1.03 (SCE); reprint 3 -1.05"),
    sea("galvanised steel (hot dip)", -1.14, "reprint 3"),
    sea("aluminium alloys (5xxx, 6061)", -0.82, "reprint 3 -0.82; reprint 1 -0.76..-1.00; reprint 2 3003 -0.79"),
    sea("cadmium", -0.72, "reprint 1 -0.70..-0.73; reprint 3 -0.86"),
    sea("mild steel, cast iron", -0.61, "reprint 2 -0.61; reprint 1 -0.60..-0.71; reprint 3 A36 -0.79"),
    sea("stainless 304 active", -0.53, "reprint 2; reprint 1 -0.46..-0.58"),
    sea("stainless 316 active", -0.48, "reprint 1 -0.43..-0.54; reprint 2 prints -0.18 (differs)"),
    sea("aluminium bronze", -0.36, "reprint 1 -0.31..-0.42"),
    sea("naval, yellow, red brass", -0.36, "reprint 1 -0.30..-0.40; reprint 2 naval -0.40; reprint 3 -0.45"),
    sea("tin", -0.32, "reprint 1 -0.31..-0.33"),
    sea("copper", -0.36, "reprint 2 -0.36; reprint 1 -0.30..-0.57 as printed"),
    sea("manganese bronze", -0.3, "reprint 1 -0.27..-0.34"),
    sea("silicon bronze", -0.28, "reprint 1 -0.26..-0.29"),
    sea("tin bronze (G / M)", -0.28, "reprint 1 -0.24..-0.31; reprint 2 -0.31"),
    sea("cupronickel 90/10", -0.28, "reprint 2"),
    sea("cupronickel 70/30", -0.25, "reprint 2"),
    sea("nickel", -0.2, "reprint 2"),
    sea("silver", -0.13, "reprint 2"),
    sea("titanium", -0.1, "reprint 2"),
    sea("monel 400", -0.08, "reprint 2"),
    sea("stainless 304 passive", -0.08, "reprint 2"),
    sea("stainless 316 passive", -0.05, "reprint 2"),
    sea("platinum", 0.15, "reprint 2"),
    sea("graphite", 0.25, "reprint 2"),
];

/// The galvanic series in sea water.
pub fn sea_water_series() -> &'static [SeaWaterPotential] {
    SEA_WATER
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn noble_first() {
        assert!(ANODIC_INDEX.windows(2).all(|pair| pair[0].index_volts < pair[1].index_volts));
        assert_eq!((ANODIC_INDEX.len(), SEA_WATER.len()), (18, 25));
    }

    #[test]
    fn pairs() {
        assert_eq!(anodic_difference_volts(&STEEL, &ALUMINIUM), (0.05, true));
        assert_eq!(anodic_difference_volts(&STEEL, &STAINLESS), (0.35, false));
        assert!(0.35 > allowed_difference_volts(Environment::Normal).value);
    }
}
