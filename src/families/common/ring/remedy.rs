//! What would put a press fit in order: the classes that exist, smoother surfaces, a screw or a compound, tried one after the other
//! through the same functions that judge the fit of the file.
//!
//! It stands beside the general solver (`remedy`) and not under it: it chooses two classes, the smoothness of both surfaces and a screw
//! or a compound together, up to four keys of which some are tables that are not written yet, where the solver moves two keys that
//! exist; and it is a part of the working, since the finding names what it found. Single keys are levers of these checks all the same.

use crate::formulas::press_fit::roughness_loss;
use crate::formulas::{MechanicsError, Range};
use crate::record::design::{Design, Dimension, Value};
use crate::record::show;
use crate::standards::iso286::{self, ToleranceClass};
use crate::units::Length;

use super::press::{Pressing, SECURED, Secured, Way};
use super::read::Ring;
use super::sizes;
use super::weighed::Weighed;
use crate::record::key::Given;

/// Letters of usual fits, tight ones first, and grades, coarse ones first.
const LETTERS: [&str; 8] = ["u", "t", "s", "r", "p", "n", "m", "k"];
const SHAFT_GRADES: [u8; 3] = [7, 6, 5];
const HOLE_GRADES: [u8; 3] = [8, 7, 6];
/// Roughness that a fine cut or a grinder leaves. Source: common practice, no source.
const SMOOTH: Length = Length::um(0.4);

/// One thing that could be written instead.
struct Candidate {
    own: String,
    partner: Option<String>,
    smooth: bool,
    secured: Option<&'static str>,
}

impl Candidate {
    /// As it is written into the file.
    fn said(&self, p: &Pressing) -> String {
        let (own, partner, table) = match p.way {
            Way::In => ("outside_class", "[housing]", "[pressed_in]"),
            Way::On => ("bore_class", "[shaft]", "[slid_on]"),
        };
        let mut lines = vec![format!("{own} = \"{}\"", self.own)];
        lines.extend(self.partner.as_ref().map(|class| format!("class = \"{class}\" in {partner}")));
        if self.smooth {
            lines.push(format!("roughness = \"0.4 um\" and other_roughness = \"0.4 um\" in {table}"));
        }
        lines.extend(self.secured.map(|by| format!("secured = \"{by}\" in {table}")));
        lines.join(", ")
    }
}

/// The sizes of both surfaces at 20 °C.
struct Sizes {
    nominal: Length,
    /// The partner as it is.
    partner: Range<Length>,
    /// It has a class, which could be another.
    classed: bool,
}

fn at_hand(design: &Design, p: &Pressing) -> Option<Sizes> {
    let sizes::Surface { own, partner, .. } = match p.way {
        Way::In => &sizes::AT_OUTSIDE,
        Way::On => &sizes::AT_BORE,
    };
    let length = |d: &Dimension| match d.value {
        Value::Length(l) => Some(l),
        _ => None,
    };
    let nominal = length(design.dimension(own)?)?;
    let other = design.dimension(partner)?;
    let classed = other.limits.is_some();
    let partner = match &other.limits {
        Some(l) => Range { min: l.lower, max: l.upper },
        None => length(other).map(|l| Range { min: l, max: l })?,
    };
    Some(Sizes { nominal, partner, classed })
}

fn of_class(nominal: Length, class: &str) -> Option<Range<Length>> {
    let l = ToleranceClass::parse(class).ok().and_then(|c| iso286::limits(nominal, c).ok())?;
    Some(Range { min: nominal + l.lower, max: nominal + l.upper })
}

/// Interference of a shaft in a hole: negative where there is play.
fn interference(hole: &Range<Length>, shaft: &Range<Length>) -> Range<Length> {
    Range { min: shaft.min - hole.max, max: shaft.max - hole.min }
}

/// Every pair of classes with the interference it gives: what changes least comes first.
fn pairs(z: &Sizes, way: Way) -> Vec<(String, Option<String>, Range<Length>)> {
    let mut found = Vec::new();
    let hole_is_own = way == Way::On;
    // The sleeve's class against the partner as it is.
    for grade in if hole_is_own { HOLE_GRADES } else { SHAFT_GRADES } {
        for letter in LETTERS {
            let class =
                if hole_is_own { format!("{}{grade}", letter.to_uppercase()) } else { format!("{letter}{grade}") };
            let Some(own) = of_class(z.nominal, &class) else { continue };
            let fit = if hole_is_own { interference(&own, &z.partner) } else { interference(&z.partner, &own) };
            found.push((class, None, fit));
        }
    }
    if !z.classed {
        return found;
    }
    for (hole_grade, shaft_grade) in HOLE_GRADES.into_iter().flat_map(|h| SHAFT_GRADES.map(|s| (h, s))) {
        let hole_class = format!("H{hole_grade}");
        let Some(hole) = of_class(z.nominal, &hole_class) else { continue };
        for letter in LETTERS {
            let shaft_class = format!("{letter}{shaft_grade}");
            let Some(shaft) = of_class(z.nominal, &shaft_class) else { continue };
            let fit = interference(&hole, &shaft);
            let (own, partner) =
                if hole_is_own { (hole_class.clone(), shaft_class) } else { (shaft_class, hole_class.clone()) };
            found.push((own, Some(partner), fit));
        }
    }
    found
}

/// The one thing to write that puts both the grip and the stresses in order, as a clause; where there is none, the two demands
/// that stand against each other.
pub fn remedy(design: &Design, s: &Ring, p: &Pressing, w: &Weighed<'_>) -> Result<String, MechanicsError> {
    let Some(z) = at_hand(design, p) else { return Ok("another material or a thicker wall".into()) };
    let all = pairs(&z, p.way);
    let smooth = roughness_loss(SMOOTH, SMOOTH)?;
    for (loss, smoother) in [(w.loss, false), (smooth, true)] {
        if smoother && smooth >= w.loss {
            continue;
        }
        for (own, partner, fit) in &all {
            if fit.max > Length::ZERO && w.in_order(*fit, loss, p.secured.as_ref())? {
                let found = Candidate { own: own.clone(), partner: partner.clone(), smooth: smoother, secured: None };
                return Ok(format!("both are in order with {}", found.said(p)));
            }
        }
    }
    if p.secured.is_none() {
        for (own, partner, fit) in &all {
            let screw = Secured { by: Given { value: "screw", text: SECURED.name.into(), span: 0..0 }, strength: None };
            if fit.max > Length::ZERO && w.in_order(*fit, w.loss, Some(&screw))? {
                let found =
                    Candidate { own: own.clone(), partner: partner.clone(), smooth: false, secured: Some("screw") };
                return Ok(format!(
                    "no class holds by itself without yielding; both are in order with {}",
                    found.said(p)
                ));
            }
        }
    }
    let unit = s.common.header.unit;
    let text = |l: Length| show::length_both(l.rounded(), unit);
    Ok(format!(
        "no class that exists puts both in order: to hold, the loosest pair needs {} of interference at 20 °C; not to yield, the tightest may have {}: a material that yields higher, or a thicker wall",
        text(w.needed()),
        text(w.stands()?)
    ))
}
