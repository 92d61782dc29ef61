//! Heat: how much a part grows, what it really measures when warm, how hard it pushes when it cannot grow.

use super::{Elastic, MechanicsError, finite, not_negative, positive, warm_enough};
use crate::units::{Expansion, Length, Stress, Temperature, TemperatureChange};

/// Growth of a length: α L ΔT.
pub fn growth(length: Length, expansion: Expansion, change: TemperatureChange) -> Result<Length, MechanicsError> {
    finite("the length", length.as_mm())?;
    finite("the coefficient of expansion", expansion.as_per_million_kelvin())?;
    finite("the temperature change", change.as_kelvin())?;
    Ok(length * (expansion * change))
}

/// Size at a temperature of a part that has `size` at 20 °C: L (1 + α (T - 20 °C)).
pub fn size_at(size: Length, expansion: Expansion, temperature: Temperature) -> Result<Length, MechanicsError> {
    warm_enough("the temperature", temperature)?;
    Ok(size + growth(size, expansion, temperature.above_reference())?)
}

/// Size at 20 °C of a part read warm with a scale that has its own temperature.
///
/// L20 = L_read [1 + α_scale (T_scale - 20) - α_part (T_part - 20)], first order in α ΔT.
/// Source: derived here; ISO 1:2022 sets 20 °C.
pub fn size_when_cold(
    reading: Length,
    part: (Expansion, Temperature),
    scale: (Expansion, Temperature),
) -> Result<Length, MechanicsError> {
    warm_enough("the part's temperature", part.1)?;
    warm_enough("the scale's temperature", scale.1)?;
    let by_scale = growth(reading, scale.0, scale.1.above_reference())?;
    Ok(reading + by_scale - growth(reading, part.0, part.1.above_reference())?)
}

/// By how much more the first material grows than the second over the same length: (α1 - α2) L ΔT.
pub fn differential(
    length: Length,
    first: Expansion,
    second: Expansion,
    change: TemperatureChange,
) -> Result<Length, MechanicsError> {
    growth(length, first - second, change)
}

/// Stress in a bar that may give way by `free` only: E (α ΔT L - free)/L, at least nought; its magnitude, whether it
/// is pulled (cooling) or pressed (heating).
///
/// Source: Bansal, Strength of Materials, section 1.14. Example there (1.28): 2 m, 70 K, 12e-6/K, 100 GPa: 84 MPa.
pub fn blocked_stress(
    length: Length,
    material: &Elastic,
    change: TemperatureChange,
    free: Length,
) -> Result<Stress, MechanicsError> {
    material.check()?;
    positive("the length", length.as_mm())?;
    not_negative("the free travel", free.as_mm())?;
    let blocked = growth(length, material.expansion, change)?.abs() - free;
    Ok(material.youngs_modulus * (blocked / length).max(0.0))
}
