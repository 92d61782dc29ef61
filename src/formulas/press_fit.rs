//! A sleeve pressed into a hub, a ring pressed onto a shaft: how tight, how stressed, how hard to push, what closes.
//!
//! Thick cylinders after Lamé, plane stress (free ends, no friction along the joint while it settles), both parts
//! elastic, equally long. Interference is diametral. Source: Ugural & Fenster, Advanced Mechanics of Materials and
//! Applied Elasticity, chapter 8; Boresi & Schmidt, Advanced Mechanics of Materials, chapter 11.

use super::{Elastic, MechanicsError, Range, finite, not_negative, positive, warm_enough};
use crate::source::{Cited, Confirmed};
use crate::units::{Force, Length, Stress, Temperature, TemperatureChange, Torque};

/// The coldest that an inner part is made: liquid nitrogen. Source: common practice, no source.
pub const COLDEST: Temperature = Temperature::celsius(-190.0);

/// Rings of hardened bearing steel are not to be heated above this.
pub const HARD_RING_LIMIT: Cited<Temperature> = Cited {
    value: Temperature::celsius(120.0),
    confirmed: Confirmed::One,
    source: "bearing maker's mounting advice: heat bearings and hard rings to 120 °C at most",
};

/// Heat that a hub of mild steel stands without scale and with its paint gone.
/// Source: common practice, no source.
pub const SOFT_HUB_LIMIT: Temperature = Temperature::celsius(250.0);
/// Rz taken for each unit of Ra when only Ra is known; 4 to 7 is met. Common practice, no source.
pub const RZ_PER_RA: f64 = 5.0;

/// Growth of a size as a share of it, small against 1: at most a twentieth either way.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Strain(f64);

impl Strain {
    /// Refuses what is not small.
    pub fn new(share: f64) -> Result<Self, MechanicsError> {
        finite("the growth by heat and water", share)?;
        if share.abs() <= 0.05 {
            Ok(Self(share))
        } else {
            Err(MechanicsError::OutOfRange { what: "the growth by heat and water", range: "at most 5 % of the size" })
        }
    }
}

/// Two parts to be pressed together. The outer one is the hub or the ring, the inner one the sleeve or the shaft.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Press {
    /// Diameter of the joint.
    pub interface: Length,
    /// Outside diameter of the outer part.
    pub hub_outside: Length,
    /// Bore diameter of the inner part; nought for a solid shaft.
    pub sleeve_bore: Length,
    /// Length of the joint.
    pub length: Length,
    /// Material of the outer part.
    pub hub: Elastic,
    /// Material of the inner part.
    pub sleeve: Elastic,
}

/// Stress at one place of the wall; tension positive, axial stress nought.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct WallStress {
    /// Diameter of the place.
    pub diameter: Length,
    /// Radial stress.
    pub radial: Stress,
    /// Hoop stress.
    pub hoop: Stress,
    /// Equivalent stress after von Mises.
    pub mises: Stress,
    /// Equivalent stress after Tresca (largest difference of principal stresses).
    pub tresca: Stress,
}

impl WallStress {
    fn of(diameter: f64, radial: f64, hoop: f64) -> Self {
        let mises = (hoop * hoop - hoop * radial + radial * radial).sqrt();
        let tresca = radial.max(hoop).max(0.0) - radial.min(hoop).min(0.0);
        Self {
            diameter: Length::mm(diameter),
            radial: Stress::mpa(radial),
            hoop: Stress::mpa(hoop),
            mises: Stress::mpa(mises),
            tresca: Stress::mpa(tresca),
        }
    }
}

fn smaller(small: &'static str, a: Length, large: &'static str, b: Length) -> Result<(), MechanicsError> {
    if a < b { Ok(()) } else { Err(MechanicsError::NotSmaller { smaller: small, larger: large }) }
}

/// Lamé on checked numbers; diameters in mm, pressures in MPa.
fn lame(bore: f64, outside: f64, inside_pressure: f64, outside_pressure: f64, at: f64) -> WallStress {
    if bore == 0.0 {
        return WallStress::of(at, -outside_pressure, -outside_pressure);
    }
    let (a2, b2) = (bore * bore, outside * outside);
    let mean = (inside_pressure * a2 - outside_pressure * b2) / (b2 - a2);
    let swing = (inside_pressure - outside_pressure) * a2 * b2 / ((b2 - a2) * at * at);
    WallStress::of(at, mean - swing, mean + swing)
}

/// What one interference does.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Pressed {
    /// Diametral interference.
    pub interference: Length,
    /// Pressure in the joint.
    pub pressure: Stress,
    /// Outer part at the joint.
    pub hub_at_joint: WallStress,
    /// Outer part at its outside.
    pub hub_at_outside: WallStress,
    /// Inner part at its bore (at the axis when solid).
    pub sleeve_at_bore: WallStress,
    /// Inner part at the joint.
    pub sleeve_at_joint: WallStress,
    /// By how much the bore of the inner part gets smaller in diameter.
    pub bore_closes: Length,
    /// By how much the outside of the outer part grows in diameter.
    pub outside_grows: Length,
}

/// What the smallest and the largest interference do.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct PressedRange {
    /// At the smallest interference; `None` when that is a clearance, so that the part may sit loose.
    pub min: Option<Pressed>,
    /// At the largest interference.
    pub max: Pressed,
}

/// Which of the two parts.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Part {
    /// The outer one.
    Hub,
    /// The inner one.
    Sleeve,
}

impl Press {
    /// Refuses walls that are not there and materials that make no sense.
    pub fn check(&self) -> Result<(), MechanicsError> {
        positive("the joint diameter", self.interface.as_mm())?;
        positive("the hub's outside diameter", self.hub_outside.as_mm())?;
        not_negative("the sleeve's bore", self.sleeve_bore.as_mm())?;
        positive("the length of the joint", self.length.as_mm())?;
        smaller("the joint diameter", self.interface, "the hub's outside diameter", self.hub_outside)?;
        smaller("the sleeve's bore", self.sleeve_bore, "the joint diameter", self.interface)?;
        self.hub.check()?;
        self.sleeve.check()
    }

    /// Interference per unit of pressure, mm/MPa, on checked numbers.
    ///
    /// δ/p = D [ (1/E_o)((D_o² + D²)/(D_o² - D²) + ν_o) + (1/E_i)((D² + d_i²)/(D² - d_i²) - ν_i) ].
    fn compliance(&self) -> f64 {
        let (d, outside, bore) = (self.interface.as_mm(), self.hub_outside.as_mm(), self.sleeve_bore.as_mm());
        let (d2, outside2, bore2) = (d * d, outside * outside, bore * bore);
        let outer = ((outside2 + d2) / (outside2 - d2) + self.hub.poisson) / self.hub.youngs_modulus.as_mpa();
        let inner = ((d2 + bore2) / (d2 - bore2) - self.sleeve.poisson) / self.sleeve.youngs_modulus.as_mpa();
        d * (outer + inner)
    }

    /// Pressure in the joint for a diametral interference.
    ///
    /// p = δ / { D [ (1/E_o)((D_o² + D²)/(D_o² - D²) + ν_o) + (1/E_i)((D² + d_i²)/(D² - d_i²) - ν_i) ] }; all diameters.
    /// Source: Ugural & Fenster, section 8.5. Example there (8.3): 150/200/250 mm radii, 0.1 mm radial, E 200 GPa:
    ///
    /// ```
    /// use setdown::{formulas::{Elastic, press_fit::Press}, units::*};
    /// let steel = Elastic { youngs_modulus: Stress::gpa(200.0), poisson: 0.3, expansion: Expansion::per_million_kelvin(11.7) };
    /// let press = Press { interface: Length::mm(400.0), hub_outside: Length::mm(500.0), sleeve_bore: Length::mm(300.0),
    ///     length: Length::mm(100.0), hub: steel, sleeve: steel };
    /// assert_eq!((press.pressure(Length::mm(0.2))?.as_mpa() * 10.0).round(), 123.0);
    /// # Ok::<(), setdown::formulas::MechanicsError>(())
    /// ```
    pub fn pressure(&self, interference: Length) -> Result<Stress, MechanicsError> {
        self.check()?;
        not_negative("the interference", interference.as_mm())?;
        Ok(Stress::mpa(interference.as_mm() / self.compliance()))
    }

    /// Everything that one interference does.
    pub fn pressed(&self, interference: Length) -> Result<Pressed, MechanicsError> {
        let pressure = self.pressure(interference)?;
        let sleeve_at_bore = self.at(Part::Sleeve, pressure, self.sleeve_bore);
        let hub_at_outside = self.at(Part::Hub, pressure, self.hub_outside);
        Ok(Pressed {
            interference,
            pressure,
            hub_at_joint: self.at(Part::Hub, pressure, self.interface),
            hub_at_outside,
            sleeve_at_bore,
            sleeve_at_joint: self.at(Part::Sleeve, pressure, self.interface),
            bore_closes: -growth(&sleeve_at_bore, &self.sleeve),
            outside_grows: growth(&hub_at_outside, &self.hub),
        })
    }

    /// Everything at both ends of an interference range, as a fit of two toleranced parts gives it.
    pub fn pressed_range(&self, interference: Range<Length>) -> Result<PressedRange, MechanicsError> {
        finite("the smallest interference", interference.min.as_mm())?;
        if interference.max < interference.min {
            return Err(MechanicsError::NotSmaller {
                smaller: "the smallest interference",
                larger: "the largest interference",
            });
        }
        positive("the largest interference", interference.max.as_mm())?;
        let max = self.pressed(interference.max)?;
        let loose = interference.min < Length::ZERO;
        Ok(PressedRange { min: if loose { None } else { Some(self.pressed(interference.min)?) }, max })
    }

    fn at(&self, part: Part, pressure: Stress, diameter: Length) -> WallStress {
        let (joint, p) = (self.interface.as_mm(), pressure.as_mpa());
        match part {
            Part::Hub => lame(joint, self.hub_outside.as_mm(), p, 0.0, diameter.as_mm()),
            Part::Sleeve => lame(self.sleeve_bore.as_mm(), joint, 0.0, p, diameter.as_mm()),
        }
    }

    /// Stress across the wall of one part, from its inside to its outside, at `steps` + 1 places.
    pub fn profile(&self, part: Part, interference: Length, steps: u32) -> Result<Vec<WallStress>, MechanicsError> {
        let pressure = self.pressure(interference)?;
        let (from, to) = match part {
            Part::Hub => (self.interface, self.hub_outside),
            Part::Sleeve => (self.sleeve_bore, self.interface),
        };
        let steps = steps.max(1);
        let place = |i: u32| from + (to - from) * (f64::from(i) / f64::from(steps));
        Ok((0..=steps).map(|i| self.at(part, pressure, place(i))).collect())
    }

    /// The interference at which a part begins to yield, at its inside, where the equivalent stress after von Mises is largest.
    pub fn interference_at_yield(&self, part: Part, yield_strength: Stress) -> Result<Length, MechanicsError> {
        positive("the yield strength", yield_strength.as_mpa())?;
        let unit = self.pressed(Length::mm(1.0))?;
        let worst = match part {
            Part::Hub => unit.hub_at_joint,
            Part::Sleeve => unit.sleeve_at_bore,
        };
        Ok(Length::mm(yield_strength / worst.mises))
    }

    /// Force along the axis that slips the joint, and that presses it together at full length: μ π D L p.
    pub fn axial_force(&self, pressure: Stress, friction: f64) -> Result<Force, MechanicsError> {
        self.check()?;
        not_negative("the pressure", pressure.as_mpa())?;
        not_negative("the friction coefficient", friction)?;
        let area = std::f64::consts::PI * (self.interface * self.length);
        Ok(friction * (pressure * area))
    }

    /// Torque that slips the joint: μ π D² L p / 2.
    pub fn torque(&self, pressure: Stress, friction: f64) -> Result<Torque, MechanicsError> {
        Ok(self.axial_force(pressure, friction)? * (self.interface / 2.0))
    }

    /// Interference once both parts have grown by a share of their size: δ + D (ε_inner − ε_outer). Negative: loose.
    ///
    /// Strains by heat (α ΔT) and by water. Source: derived, growth of both diameters of the joint; what is left out is the
    /// interference times a strain.
    pub fn interference_grown(&self, interference: Length, inner: Strain, outer: Strain) -> Length {
        interference + self.interface * (inner.0 - outer.0)
    }

    /// The temperature at which an interference is gone by heat or cold alone; `None` when it grows or stays on both sides of 20 °C
    /// down to absolute zero.
    pub fn loose_at(&self, interference: Length) -> Result<Option<Temperature>, MechanicsError> {
        self.check()?;
        not_negative("the interference", interference.as_mm())?;
        let per_kelvin =
            self.interface.as_mm() * (self.sleeve.expansion - self.hub.expansion) * TemperatureChange::kelvin(1.0);
        let at = Temperature::REFERENCE + TemperatureChange::kelvin(-interference.as_mm() / per_kelvin);
        Ok((at.is_finite() && at >= Temperature::ABSOLUTE_ZERO).then_some(at))
    }

    /// Temperature to which the outer part is heated so that it slips on with `gap` to spare.
    ///
    /// T = T_start + (δ + gap)/(α_o D). Gap 0.02 to 0.05 mm: common practice, no source.
    pub fn heat_hub(
        &self,
        interference: Length,
        gap: Length,
        start: Temperature,
        limit: Temperature,
    ) -> Result<Heating, MechanicsError> {
        let rise = self.change_for(interference, gap, self.hub.expansion.as_per_million_kelvin(), start)?;
        warm_enough("the temperature limit", limit)?;
        let temperature = start + rise;
        Ok(Heating { temperature, beyond_limit: temperature > limit })
    }

    /// Temperature to which the inner part is cooled so that it slips in with `gap` to spare.
    pub fn cool_sleeve(
        &self,
        interference: Length,
        gap: Length,
        start: Temperature,
    ) -> Result<Temperature, MechanicsError> {
        let fall = self.change_for(interference, gap, self.sleeve.expansion.as_per_million_kelvin(), start)?;
        let temperature = start + -fall;
        if temperature < Temperature::ABSOLUTE_ZERO {
            return Err(MechanicsError::Impossible(
                "cooling alone cannot do it: it would have to go below absolute zero",
            ));
        }
        Ok(temperature)
    }

    fn change_for(
        &self,
        interference: Length,
        gap: Length,
        expansion: f64,
        start: Temperature,
    ) -> Result<TemperatureChange, MechanicsError> {
        self.check()?;
        not_negative("the interference", interference.as_mm())?;
        not_negative("the assembly gap", gap.as_mm())?;
        positive("the coefficient of expansion", expansion)?;
        warm_enough("the starting temperature", start)?;
        Ok(TemperatureChange::kelvin((interference + gap) / self.interface / (expansion * 1e-6)))
    }

    /// Bore to machine before pressing so that it ends at `finished`; `self.sleeve_bore` is not used.
    ///
    /// Solves d - closing(d) = finished by bisection: between `finished` and `finished` + δ, as no bore closes by
    /// more than the interference.
    pub fn bore_before(&self, finished: Length, interference: Length) -> Result<Length, MechanicsError> {
        positive("the finished bore", finished.as_mm())?;
        Press { sleeve_bore: finished, ..*self }.pressure(interference)?;
        let ends = |bore: f64| -> Result<f64, MechanicsError> {
            let press = Press { sleeve_bore: Length::mm(bore), ..*self };
            Ok(bore - press.pressed(interference)?.bore_closes.as_mm() - finished.as_mm())
        };
        let mut span = (finished.as_mm(), finished.as_mm() + interference.as_mm());
        for _ in 0..60 {
            let middle = 0.5 * (span.0 + span.1);
            if ends(middle)? < 0.0 { span.0 = middle } else { span.1 = middle }
        }
        Ok(Length::mm(0.5 * (span.0 + span.1)))
    }

    /// Limits for the bore before pressing so that every interference of the range ends inside `finished`.
    pub fn bore_limits_before(
        &self,
        finished: Range<Length>,
        interference: Range<Length>,
    ) -> Result<Range<Length>, MechanicsError> {
        let min = self.bore_before(finished.min, interference.max)?;
        let max = self.bore_before(finished.max, interference.min.max(Length::ZERO))?;
        if max < min {
            return Err(MechanicsError::Impossible(
                "the closing differs by more than the bore's tolerance from the loosest to the tightest fit: finish the bore after pressing",
            ));
        }
        Ok(Range { min, max })
    }

    /// Outside diameter to machine before pressing so that it ends at `finished` (a raceway ring on a shaft);
    /// `self.hub_outside` is not used.
    pub fn outside_before(&self, finished: Length, interference: Length) -> Result<Length, MechanicsError> {
        let ends = |outside: f64| -> Result<f64, MechanicsError> {
            let press = Press { hub_outside: Length::mm(outside), ..*self };
            Ok(outside + press.pressed(interference)?.outside_grows.as_mm() - finished.as_mm())
        };
        ends(finished.as_mm())?;
        let mut span = ((finished - interference).max(self.interface).as_mm(), finished.as_mm());
        for _ in 0..60 {
            let middle = 0.5 * (span.0 + span.1);
            if ends(middle)? < 0.0 { span.0 = middle } else { span.1 = middle }
        }
        Ok(Length::mm(0.5 * (span.0 + span.1)))
    }
}

/// What to machine a bore or an outside to before pressing where it is finished afterwards.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct FinishAfter {
    /// Limits before pressing.
    pub before: Range<Length>,
    /// What is then left on the diameter to the nearer limit of the finished size (least) and to the farther (greatest).
    pub left: Range<Length>,
}

impl Press {
    /// Bore before pressing that, closed by any interference of the range, still leaves `stock` to take out.
    ///
    /// Greatest: d - closing(d, least interference) = finished least - stock; least: that less `tolerance`. What is left
    /// is greatest with the least bore and the greatest interference. `self.sleeve_bore` is not used.
    pub fn bore_to_finish_after(
        &self,
        finished: Range<Length>,
        interference: Range<Length>,
        stock: Length,
        tolerance: Length,
    ) -> Result<FinishAfter, MechanicsError> {
        let max = self.bore_before(finished.min - stock, interference.min.max(Length::ZERO))?;
        let min = max - tolerance;
        let pressed = Press { sleeve_bore: min, ..*self }.pressed(interference.max)?;
        let most = finished.max - (min - pressed.bore_closes);
        Ok(FinishAfter { before: Range { min, max }, left: Range { min: stock, max: most } })
    }

    /// Outside before it goes on that, grown by any interference of the range, still leaves `stock` to take off.
    /// `self.hub_outside` is not used.
    pub fn outside_to_finish_after(
        &self,
        finished: Range<Length>,
        interference: Range<Length>,
        stock: Length,
        tolerance: Length,
    ) -> Result<FinishAfter, MechanicsError> {
        let min = self.outside_before(finished.max + stock, interference.min.max(Length::ZERO))?;
        let max = min + tolerance;
        let pressed = Press { hub_outside: max, ..*self }.pressed(interference.max)?;
        let most = max + pressed.outside_grows - finished.min;
        Ok(FinishAfter { before: Range { min, max }, left: Range { min: stock, max: most } })
    }

    /// Limits for the outside before it goes on so that every interference of the range ends inside `finished`.
    pub fn outside_limits_before(
        &self,
        finished: Range<Length>,
        interference: Range<Length>,
    ) -> Result<Range<Length>, MechanicsError> {
        let min = self.outside_before(finished.min, interference.min.max(Length::ZERO))?;
        let max = self.outside_before(finished.max, interference.max)?;
        if max < min {
            return Err(MechanicsError::Impossible(
                "the growth differs by more than the tolerance from the loosest to the tightest pair: finish the outside after it is on",
            ));
        }
        Ok(Range { min, max })
    }
}

/// By how much the bore of a ring closes for each unit by which a stiff housing holds its outside back:
/// 2 D d/((D² + d²) − ν (D² − d²)), D outside, d bore; both diametral, plane stress, elastic.
/// Source: thick cylinders after Lamé (Boresi & Schmidt, chapter 11), the housing taken as rigid.
pub fn closes_per_squeeze(bore: Length, outside: Length, poisson: f64) -> f64 {
    let (d, big) = (bore.as_mm(), outside.as_mm());
    2.0 * big * d / ((big * big + d * d) - poisson * (big * big - d * d))
}

/// By how much the outside of a ring grows for each unit by which a stiff shaft forces its bore open:
/// 2 D d/((D² + d²) + ν (D² − d²)), D outside, d bore; both diametral, plane stress, elastic.
/// Source: thick cylinders after Lamé (Boresi & Schmidt, chapter 11), the shaft taken as rigid.
pub fn grows_per_stretch(bore: Length, outside: Length, poisson: f64) -> f64 {
    let (d, big) = (bore.as_mm(), outside.as_mm());
    2.0 * big * d / ((big * big + d * d) + poisson * (big * big - d * d))
}

/// Change of a free diameter from its hoop stress (radial stress is nought there): σ_θ d/E.
fn growth(at: &WallStress, material: &Elastic) -> Length {
    at.diameter * (at.hoop / material.youngs_modulus)
}

/// A temperature to heat to, and whether that is more than the part may see. It is reported as it is.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Heating {
    /// The temperature needed.
    pub temperature: Temperature,
    /// True when it is above the limit given.
    pub beyond_limit: bool,
}

/// Interference lost because peaks are flattened in pressing: 0.8 (Rz1 + Rz2), on the diameter, Rz taken as [`RZ_PER_RA`] Ra.
///
/// Source: from memory, DIN 7190-1.
pub fn roughness_loss(hub: Length, sleeve: Length) -> Result<Length, MechanicsError> {
    not_negative("the roughness", hub.as_mm())?;
    not_negative("the roughness", sleeve.as_mm())?;
    Ok(0.8 * RZ_PER_RA * (hub + sleeve))
}
