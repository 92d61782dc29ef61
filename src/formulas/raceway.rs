//! Rollers on a sleeve: what the most loaded one carries, whether it dents the raceway, and what the raceway needs.
//!
//! Static figures only. ISO 76 itself does not cover rollers that run on a shaft unless the shaft is as good as the
//! ring it replaces; the hardness factors here say how far it falls short.

use super::hardness::Hardness;
use super::hertz::{LineContact, contact_modulus, relative_radius};
use super::{Elastic, MechanicsError, Range, finite, not_negative, positive};
use crate::source::{Cited, Confirmed};
use crate::units::{Angle, Expansion, Force, Length, Stress};

/// Contact pressure at which a hard roller bearing keeps a dent of 1/10000 of the roller diameter.
pub const RATED_PRESSURE: Cited<Stress> = Cited {
    value: Stress::mpa(4000.0),
    confirmed: Confirmed::One,
    source: "ISO 76:2006: 4000 MPa for roller bearings (bearing makers' catalogues)",
};
/// Load factor k of the most loaded roller where the clearance is not known: of a usual small one (4.08 without any).
pub const USUAL_LOAD_FACTOR: f64 = 5.0;

/// Constant of Palmgren's deflection of a steel roller on a steel raceway, one contact: δ = c Q^0.9/L^0.8; mm, N.
/// Source: Palmgren; Harris & Kotzalas, Rolling Bearing Analysis, section 6 (from memory).
const PALMGREN: f64 = 3.84e-5;

/// Hardened bearing steel as the rating of ISO 76 takes it: 4000 MPa is its contact pressure with E 206 GPa and ν 0.3
/// (the expansion from memory).
pub const BEARING_STEEL: Elastic =
    Elastic { youngs_modulus: Stress::gpa(206.0), poisson: 0.3, expansion: Expansion::per_million_kelvin(12.0) };

/// One row of rollers on its raceway.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct RollerRow {
    /// Diameter of a roller.
    pub roller_diameter: Length,
    /// Effective length of a roller, without end relief.
    pub effective_length: Length,
    /// Number of rollers.
    pub count: u32,
    /// Outside diameter of the sleeve or shaft inside the rollers, on which they run.
    pub track: Length,
    /// Material of the rollers.
    pub roller: Elastic,
    /// Material of the raceway.
    pub raceway: Elastic,
}

/// What a radial load does to a raceway of a given hardness.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct RacewayLoad {
    /// Load on the most loaded roller.
    pub roller_load: Force,
    /// Its contact.
    pub contact: LineContact,
    /// Peak contact pressure.
    pub pressure: Stress,
    /// Pressure at which the raceway begins to yield.
    pub allowed_pressure: Stress,
    /// Radial load at which denting begins.
    pub dents_from: Force,
    /// Hardness that would stay elastic under this load; an error in words when no steel is that hard.
    pub needed: Result<Hardness, MechanicsError>,
}

impl RollerRow {
    /// Refuses rows that cannot be.
    pub fn check(&self) -> Result<(), MechanicsError> {
        positive("the roller diameter", self.roller_diameter.as_mm())?;
        positive("the effective roller length", self.effective_length.as_mm())?;
        if self.count == 0 {
            return Err(MechanicsError::NotPositive("the number of rollers"));
        }
        positive("the raceway diameter", self.track.as_mm())?;
        if f64::from(self.count) * self.roller_diameter.as_mm() > self.pitch_circumference() * (1.0 + 1e-3) {
            return Err(MechanicsError::Impossible("that many rollers do not fit round the raceway"));
        }
        self.roller.check()?;
        self.raceway.check()
    }

    /// Diameter of the circle of roller centres.
    pub fn pitch_diameter(&self) -> Length {
        self.track + self.roller_diameter
    }

    /// Room for the rollers side by side: Z_max = π/asin(D_w/D_pw) of them, so D_w Z_max.
    fn pitch_circumference(&self) -> f64 {
        let half_pitch = libm::asin(self.share_of_pitch().clamp(0.0, 1.0));
        std::f64::consts::PI / half_pitch * self.roller_diameter.as_mm()
    }

    /// γ = D_w/D_pw (contact angle nought).
    pub fn share_of_pitch(&self) -> f64 {
        self.roller_diameter / self.pitch_diameter()
    }

    /// Load on the most loaded roller: Q = k F/Z.
    pub fn most_loaded(&self, load: Force, load_factor: f64) -> Result<Force, MechanicsError> {
        self.check()?;
        not_negative("the radial load", load.as_newtons())?;
        load_factor_checked(load_factor)?;
        Ok(load * load_factor / f64::from(self.count))
    }

    /// Load factor k = Q_max Z/F of the most loaded roller for a diametral clearance, and the radial shift under the load.
    ///
    /// Equilibrium of the rollers one by one, one of them under the load: Σ Q_i cos ψ_i = F, Q_i = K (δ cos ψ_i - G/2)^n,
    /// ψ_i = 360° i/Z, n = 10/9, K from Palmgren's deflection c Q^0.9/L^0.8 at each of the two contacts of a roller.
    /// Steel on steel ([`RollerRow::of_steel`]), rings rigid, no preload: G of nought or more. From 4.08 (many rollers, no clearance) up to Z,
    /// where a single roller carries all. Source: Harris & Kotzalas, Rolling Bearing Analysis, section 7 (from memory).
    pub fn load_factor(&self, load: Force, clearance: Length) -> Result<(f64, Length), MechanicsError> {
        self.check()?;
        positive("the radial load", load.as_newtons())?;
        not_negative("the clearance", clearance.as_mm())?;
        if !self.of_steel() {
            return Err(MechanicsError::OutOfRange {
                what: "Young's modulus of rollers and raceway",
                range: "that of steel, 190 to 220 GPa, where the load factor follows from the clearance",
            });
        }
        let (power, half) = (10.0 / 9.0, clearance.as_mm() / 2.0);
        let one = libm::pow(libm::pow(self.effective_length.as_mm(), 0.8) / PALMGREN, 1.0 / 0.9);
        let stiffness = one / libm::pow(2.0, power);
        let carried = |shift: f64| -> f64 {
            let step = 360.0 / f64::from(self.count);
            let cosines = (0..self.count).map(|i| Angle::degrees(step * f64::from(i)).cos());
            cosines.map(|c| stiffness * libm::pow((shift * c - half).max(0.0), power) * c).sum()
        };
        // One roller alone would need the most shift.
        let alone = libm::pow(load.as_newtons() / stiffness, 1.0 / power);
        let mut span = (half, half + alone);
        for _ in 0..60 {
            let middle = 0.5 * (span.0 + span.1);
            if carried(middle) < load.as_newtons() { span.0 = middle } else { span.1 = middle }
        }
        let shift = 0.5 * (span.0 + span.1);
        let most = stiffness * libm::pow(shift - half, power);
        Ok((most * f64::from(self.count) / load.as_newtons(), Length::mm(shift)))
    }

    /// Whether rollers and raceway are both of steel, for which Palmgren's constant is.
    pub fn of_steel(&self) -> bool {
        let steel = Stress::gpa(190.0)..=Stress::gpa(220.0);
        [&self.roller, &self.raceway].into_iter().all(|body| steel.contains(&body.youngs_modulus))
    }

    /// Relative radius of roller and raceway.
    pub fn relative_radius(&self) -> Result<Length, MechanicsError> {
        relative_radius(self.roller_diameter / 2.0, self.track / 2.0)
    }

    /// Contact of one roller under its load.
    pub fn contact(&self, roller_load: Force) -> Result<LineContact, MechanicsError> {
        self.check()?;
        let modulus = contact_modulus(&self.roller, &self.raceway)?;
        LineContact::new(roller_load, self.effective_length, self.relative_radius()?, modulus)
    }

    /// Radial load at which the peak pressure is just `pressure`: F = Q Z/k with Q = p0² π R L_w/E*.
    pub fn load_at_pressure(&self, pressure: Stress, load_factor: f64) -> Result<Force, MechanicsError> {
        self.check()?;
        load_factor_checked(load_factor)?;
        let modulus = contact_modulus(&self.roller, &self.raceway)?;
        let contact = LineContact::at_pressure(pressure, self.relative_radius()?, modulus)?;
        Ok(contact.force_on(self.effective_length) * f64::from(self.count) / load_factor)
    }

    /// Load, pressure and margin of a raceway of the given hardness.
    pub fn under(&self, load: Force, load_factor: f64, hardness: Hardness) -> Result<RacewayLoad, MechanicsError> {
        let roller_load = self.most_loaded(load, load_factor)?;
        let contact = self.contact(roller_load)?;
        let allowed_pressure = hardness.onset_pressure()?;
        Ok(RacewayLoad {
            roller_load,
            contact,
            pressure: contact.peak_pressure(),
            allowed_pressure,
            dents_from: self.load_at_pressure(allowed_pressure, load_factor)?,
            needed: Hardness::needed_for(contact.peak_pressure()),
        })
    }

    /// Dent of an overloaded roller: depth a²/(2R), its half-width a = w/(2H) where the pressure is the hardness.
    ///
    /// w: load per length, H = 9.81 HV MPa. Valid where all of the contact is plastic: the land is no narrower than the
    /// elastic contact would be, its mean pressure π p0/4 at least H. Between that and first yield the dent is smaller.
    /// Source: derived here from Tabor's indentation pressure; 300 N/mm on 130 HV, R 1.136 mm: land 0.235 mm, 6.1 µm.
    pub fn dent(&self, roller_load: Force, hardness: Hardness) -> Result<Dent, MechanicsError> {
        let contact = self.contact(roller_load)?;
        let pressure = hardness.indentation_pressure()?;
        if contact.peak_pressure() * std::f64::consts::FRAC_PI_4 < pressure {
            return Err(MechanicsError::OutOfRange {
                what: "the mean pressure of the contact",
                range: "at least that of the hardness: the skin is not plastic all over, and the dent is smaller",
            });
        }
        let half = contact.force_on(Length::mm(1.0)).as_newtons() / (2.0 * pressure.as_mpa());
        let depth = half * half / (2.0 * contact.relative_radius.as_mm());
        Ok(Dent { width: Length::mm(2.0 * half), depth: Length::mm(depth) })
    }

    /// Basic static rating of one row, N: C0 = 44 (1 - γ) Z L_w D_w, lengths in mm.
    ///
    /// Source: ISO 76:2006, radial roller bearings, one row, contact angle nought (constant from memory; it is the
    /// load at 4000 MPa with k = 5 and E 206 to 210 GPa).
    pub fn static_rating(&self) -> Result<Force, MechanicsError> {
        self.check()?;
        let area = self.effective_length.as_mm() * self.roller_diameter.as_mm();
        Ok(Force::newtons(44.0 * (1.0 - self.share_of_pitch()) * f64::from(self.count) * area))
    }

    /// Static safety s0 = f C0/(F × shock); f: hardness factor.
    pub fn static_safety(&self, load: Force, shock: f64, hardness_factor: f64) -> Result<f64, MechanicsError> {
        positive("the radial load", load.as_newtons())?;
        positive("the shock factor", shock)?;
        not_negative("the hardness factor", hardness_factor)?;
        Ok(self.static_rating()? * hardness_factor / (load * shock))
    }

    /// Total swing from which the tracks of neighbouring rollers overlap: 720°/(Z (1 + γ)).
    ///
    /// Below it the same strips are rolled and grease is not renewed. Source: derived here from rolling without slip.
    pub fn overlap_swing(&self) -> Result<Angle, MechanicsError> {
        self.check()?;
        Ok(Angle::degrees(720.0 / (f64::from(self.count) * (1.0 + self.share_of_pitch()))))
    }

    /// Depth to which the case must reach: where the shear has fallen to the shear yield S_y/2 of the core.
    pub fn case_depth(&self, pressure: Stress, core: Hardness) -> Result<Length, MechanicsError> {
        self.check()?;
        let modulus = contact_modulus(&self.roller, &self.raceway)?;
        let contact = LineContact::at_pressure(pressure, self.relative_radius()?, modulus)?;
        contact.depth_where_shear_falls_to(core.yield_strength()? / 2.0)
    }

    /// Case depth to 550 HV as catalogues print it: 0.8 D_w (0.1 + 0.002 D_w), D_w in mm. From memory.
    pub fn catalogue_case_depth(&self) -> Length {
        let diameter = self.roller_diameter.as_mm();
        Length::mm(0.8 * diameter * (0.1 + 0.002 * diameter))
    }
}

fn load_factor_checked(load_factor: f64) -> Result<(), MechanicsError> {
    finite("the load factor", load_factor)?;
    if load_factor >= 1.0 {
        Ok(())
    } else {
        Err(MechanicsError::OutOfRange { what: "the load factor of the most loaded roller", range: "1 or more" })
    }
}

/// What an overloaded roller leaves behind.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Dent {
    /// Width of the land.
    pub width: Length,
    /// Depth.
    pub depth: Length,
}

/// Share of the static rating left at a hardness, by first yield: (p_onset/4000 MPa)², at most 1.
///
/// Source: derived here (load goes with pressure squared).
pub fn static_factor_by_yield(hardness: Hardness) -> Result<f64, MechanicsError> {
    let ratio = hardness.onset_pressure()? / RATED_PRESSURE.value;
    Ok((ratio * ratio).min(1.0))
}

/// Share of the static rating left at a hardness, roller on roller: 2 (HV/800)², at most 1. From memory
/// (Harris & Kotzalas, Rolling Bearing Analysis).
pub fn static_factor_by_handbook(hardness: Hardness) -> Result<f64, MechanicsError> {
    let ratio = hardness.vickers()? / 800.0;
    Ok((2.0 * ratio * ratio).min(1.0))
}

/// Running clearance wanted.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum ClearanceWanted {
    /// Little.
    Small,
    /// The usual.
    Normal,
    /// Much.
    Large,
}

/// Tolerance class of a raceway on a shaft or sleeve under needles without inner ring, housing K7.
///
/// Up to 65 mm k5/h5/g6, to 80 mm k5/h5/f6, to 160 mm k5/g5/f6. Source: needle bearing makers' catalogues (two agree).
pub fn raceway_class(diameter: Length, wanted: ClearanceWanted) -> Result<&'static str, MechanicsError> {
    positive("the raceway diameter", diameter.as_mm())?;
    let (small, normal, large) = match diameter.as_mm() {
        d if d <= 65.0 => ("k5", "h5", "g6"),
        d if d <= 80.0 => ("k5", "h5", "f6"),
        d if d <= 160.0 => ("k5", "g5", "f6"),
        _ => return Err(MechanicsError::OutOfRange { what: "the raceway diameter", range: "at most 160 mm" }),
    };
    Ok(match wanted {
        ClearanceWanted::Small => small,
        ClearanceWanted::Normal => normal,
        ClearanceWanted::Large => large,
    })
}

/// Change of the running clearance where hub, rollers and raceway grow by these shares of their size:
/// (F + 2 Dw) e_hub - 2 Dw e_rollers - F e_raceway; F diameter of the raceway, Dw of a roller. A thin outer ring follows its
/// hub. For shares small against one.
/// Source: linear expansion of the diameters; Harris & Kotzalas, Rolling Bearing Analysis (clearance and temperature), from memory.
pub fn clearance_change(raceway: Length, roller: Length, hub: f64, rollers: f64, sleeve: f64) -> Length {
    (raceway + roller * 2.0) * hub - roller * 2.0 * rollers - raceway * sleeve
}

/// Running clearance from the limits of the inscribed circle of the rollers and of the raceway, same nominal or not.
/// Sizes or deviations, as long as both are the same kind. Negative: preload.
pub fn running_clearance(inscribed: Range<Length>, raceway: Range<Length>) -> Range<Length> {
    Range { min: inscribed.min - raceway.max, max: inscribed.max - raceway.min }
}
