//! Hardness of a raceway, and what pressure a surface of that hardness stands.

use super::hertz::LINE_SHEAR;
use super::{MechanicsError, finite};
use crate::units::{STANDARD_GRAVITY, Stress};

/// Hardness as it was stated.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Hardness {
    /// Vickers number.
    Vickers(f64),
    /// Rockwell C number.
    RockwellC(f64),
}

impl Hardness {
    /// Reads `130 HV`, `60 HRC` or `170 HB`; Brinell is taken as Vickers, which holds below 350 (common practice, no source).
    ///
    /// # Errors
    /// A sentence, for anything else and for figures outside the scales taken here.
    pub fn parse(text: &str) -> Result<Self, String> {
        let text = text.trim();
        let split = text.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(text.len());
        let (figure, scale) = text.split_at(split);
        let value: f64 =
            figure.parse().map_err(|_| format!("`{text}` is no hardness: write it as 130 HV or 60 HRC"))?;
        let hardness = match scale.trim().to_ascii_uppercase().as_str() {
            "HV" => Self::Vickers(value),
            "HRC" => Self::RockwellC(value),
            "HB" if value <= 350.0 => Self::Vickers(value),
            "HB" => return Err("a Brinell figure above 350 is not converted: measure HRC or HV".into()),
            "" => return Err(format!("`{text}` lacks its scale: {text} HV or {text} HRC")),
            other => return Err(format!("the hardness scale `{other}` is not known: use HV, HRC or HB")),
        };
        hardness.vickers().map(|_| hardness).map_err(|error| error.to_string())
    }

    /// Vickers number: HV = (223 HRC + 14500)/(100 - HRC), for steel, as quoted in machine-design tables.
    ///
    /// Valid from 20 to 68 HRC, and 50 to 1000 HV as stated; steel only. Gives 653 HV for 58 HRC, 513 for 50.
    pub fn vickers(self) -> Result<f64, MechanicsError> {
        match self {
            Self::Vickers(hv) => checked("the Vickers hardness", hv, 50.0, 1000.0, "between 50 and 1000 HV"),
            Self::RockwellC(hrc) => {
                let hrc = checked("the Rockwell C hardness", hrc, 20.0, 68.0, "between 20 and 68 HRC")?;
                Ok((223.0 * hrc + 14500.0) / (100.0 - hrc))
            }
        }
    }

    /// Rockwell C number: HRC = (100 HV - 14500)/(HV + 223), the inverse; refused outside 20 to 68 HRC.
    pub fn rockwell_c(self) -> Result<f64, MechanicsError> {
        let hrc = match self {
            Self::RockwellC(hrc) => hrc,
            Self::Vickers(_) => {
                let hv = self.vickers()?;
                (100.0 * hv - 14500.0) / (hv + 223.0)
            }
        };
        checked("the hardness on the Rockwell C scale", hrc, 20.0, 68.0, "between 20 and 68 HRC")
    }

    /// Indentation pressure H = 9.80665 HV MPa (definition of HV: kgf per mm² of indented surface, nearly the mean
    /// pressure under the pyramid; D. Tabor, The Hardness of Metals, from memory).
    pub fn indentation_pressure(self) -> Result<Stress, MechanicsError> {
        Ok(Stress::mpa(STANDARD_GRAVITY * self.vickers()?))
    }

    /// Flow stress, about H/3 (Tabor). The true yield strength of soft steel may be half of it.
    pub fn yield_strength(self) -> Result<Stress, MechanicsError> {
        Ok(self.indentation_pressure()? / 3.0)
    }

    /// Peak line-contact pressure at which a surface of this hardness begins to yield below the skin (Tresca).
    ///
    /// 0.3003 p0 = S_y/2 with S_y = H/3, so p0 = 0.555 H = 5.44 HV MPa; the same as "largest shear = H/6"
    /// (S. J. Bull, elastic contact formulae). Source: Johnson, Contact Mechanics, section 6.1 (from memory).
    pub fn onset_pressure(self) -> Result<Stress, MechanicsError> {
        Ok(self.yield_strength()? / (2.0 * LINE_SHEAR))
    }

    /// The hardness whose [`Hardness::onset_pressure`] is `pressure`; refused when no steel is that hard (1000 HV).
    pub fn needed_for(pressure: Stress) -> Result<Self, MechanicsError> {
        finite("the pressure", pressure.as_mpa())?;
        let hv = pressure.as_mpa() * 6.0 * LINE_SHEAR / STANDARD_GRAVITY;
        if hv > 1000.0 {
            return Err(MechanicsError::Impossible("no steel is hard enough for this pressure: lower the roller load"));
        }
        // Softer than any steel: 50 HV is the bottom of the scale taken here, so any steel will do.
        Ok(Self::Vickers(hv.max(50.0)))
    }
}

fn checked(what: &'static str, value: f64, low: f64, high: f64, range: &'static str) -> Result<f64, MechanicsError> {
    finite(what, value)?;
    if low <= value && value <= high { Ok(value) } else { Err(MechanicsError::OutOfRange { what, range }) }
}
