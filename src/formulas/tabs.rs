//! Plates that are put together by tabs in slots: how wide a slot is for a plate that is not as thick as its name, what a joint carries,
//! and the wedge that draws it tight.

use super::strength::SHEAR_SHARE;
use super::{MechanicsError, not_negative, positive};
use crate::units::{Angle, Force, Length, Stress};

/// Least and greatest of something.
pub type Between = (Length, Length);

/// Width of a slot into which the thickest plate goes with that clearance. Source: derived.
pub fn slot_for(thickest: Length, clearance: Length) -> Result<Length, MechanicsError> {
    positive("the thickest plate", thickest.as_mm())?;
    not_negative("the clearance", clearance.as_mm())?;
    Ok(thickest + clearance)
}

/// Least and greatest play of a tab in its slot, from the limits of both. The least is below nought where the worst pair does not go
/// together. Source: derived.
pub fn play(tab: Between, slot: Between) -> Between {
    (slot.0 - tab.1, slot.1 - tab.0)
}

/// How a size of a drawing has to be drawn where the cutter's beam follows the line itself and takes a kerf of that width: a slot narrower
/// by it, a tab wider. Source: derived; half of the kerf is taken on either side of the line.
pub fn drawn(size: Length, kerf: Length, slot: bool) -> Length {
    if slot { size - kerf } else { size + kerf }
}

/// A tab: a rectangle of its plate's thickness that stands out of an edge.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Tab {
    /// Thickness of its plate.
    pub thick: Length,
    /// Its size along the edge.
    pub high: Length,
}

impl Tab {
    fn check(&self) -> Result<(f64, f64), MechanicsError> {
        positive("the tab's thickness", self.thick.as_mm())?;
        positive("the tab's height", self.high.as_mm())?;
        Ok((self.thick.as_mm(), self.high.as_mm()))
    }

    /// Greatest shear stress at its root by a force along the edge, 1.5 F/(t h). Source: Gere and Timoshenko, Mechanics of Materials,
    /// shear in rectangular sections.
    pub fn shear(&self, across: Force) -> Result<Stress, MechanicsError> {
        let (t, h) = self.check()?;
        Ok(Stress::mpa(1.5 * across.as_newtons() / (t * h)))
    }

    /// Pressure on the end of the slot, on which it bears with its own thickness over that of the other plate, F/(t1 t2).
    /// Source: derived; mean pressure.
    pub fn bearing(&self, across: Force, other: Length) -> Result<Stress, MechanicsError> {
        let (t, _) = self.check()?;
        positive("the other plate's thickness", other.as_mm())?;
        Ok(Stress::mpa(across.as_newtons() / (t * other.as_mm())))
    }

    /// Stress of a pull along the tab, made comparable to a yield strength: in the section beside a hole of that height, F/(t (h − d)),
    /// or √3 times the shear of the nose that the wedge would push out, F/(2 t n); whichever is greater. The hole is lower than the
    /// tab. Source: derived; von Mises for the shear.
    pub fn pulled(&self, pull: Force, hole: Length, nose: Length) -> Result<Stress, MechanicsError> {
        let (t, h) = self.check()?;
        not_negative("the hole", hole.as_mm())?;
        positive("the tab's nose", nose.as_mm())?;
        if hole >= self.high {
            return Err(MechanicsError::NotSmaller { smaller: "the hole", larger: "the tab's height" });
        }
        let (f, beside) = (pull.as_newtons().abs(), h - hole.as_mm());
        Ok(Stress::mpa((f / (t * beside)).max(f / (2.0 * t * nose.as_mm() * SHEAR_SHARE))))
    }
}

/// The greatest taper at which a wedge stays where it was driven: the sum of the angles of friction of its two faces, α < atan µ1 + atan
/// µ2. Friction from 0, below 1.
/// Source: textbooks of statics (Singer, Engineering Mechanics, problem 535: at most twice the angle of friction).
pub fn wedge_holds(one: f64, other: f64) -> Result<Angle, MechanicsError> {
    for friction in [one, other] {
        not_negative("friction", friction)?;
        if friction >= 1.0 {
            return Err(MechanicsError::OutOfRange { what: "friction", range: "below 1" });
        }
    }
    Ok(Angle::atan(one) + Angle::atan(other))
}

/// Force that drives a wedge in against a squeeze F, F (tan φ + tan(α + φ)), both faces alike; and the one that drives it out again,
/// F (tan φ + tan(φ − α)), below nought where it comes by itself. Valid for α + φ below 90 degrees.
/// Source: textbooks of statics, wedges (Meriam, Statics), one face tapered.
pub fn wedge_drives(squeeze: Force, taper: Angle, friction: f64) -> Result<(Force, Force), MechanicsError> {
    positive("the taper", taper.as_degrees())?;
    let phi = wedge_holds(friction, 0.0)?;
    if (taper + phi).as_degrees() >= 90.0 {
        return Err(MechanicsError::OutOfRange { what: "the taper", range: "such that it slides in" });
    }
    Ok((squeeze * (phi.tan() + (taper + phi).tan()), squeeze * (phi.tan() + (phi - taper).tan())))
}

/// How far a wedge goes further for so much of a gap, g/tan α. The taper above nought, below 90 degrees. Source: plane geometry.
pub fn wedge_travel(gap: Length, taper: Angle) -> Result<Length, MechanicsError> {
    not_negative("the gap", gap.as_mm())?;
    positive("the taper", taper.as_degrees())?;
    if taper.as_degrees() >= 90.0 {
        return Err(MechanicsError::OutOfRange { what: "the taper", range: "below 90 degrees" });
    }
    Ok(gap / taper.tan())
}
