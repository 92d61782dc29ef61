//! How smooth and how true the surfaces of a sleeve must be, by what each of them does.

use crate::record::design::{Design, Limits, Value};
use crate::record::key::Size;
use crate::record::show;
use crate::source::Confirmed;
use crate::standards::iso286::{self, Grade};
use crate::units::Length;

use super::press::Way;
use super::read::Ring;
use super::sizes::{self, Surface};

/// Roughness of a surface on which rollers run.
/// Source: rolling bearing makers' catalogues, raceways on shafts and in housings: Ra 0.2 at most (two agree).
const RACEWAY: (Length, &str) =
    (Length::um(0.2), "rollers run on it; bearing makers' catalogues, raceways on shafts and in housings");
/// Roughness of a bore in which a shaft slides or turns. Source: common practice, no source.
const SLIDING: (Length, &str) = (Length::um(0.8), "the shaft runs in it; common practice, no source");
/// Roughness of a surface that is pressed or located.
/// Source: from memory, bearing makers' catalogues: seats of grade 6 to 80 mm Ra 0.8, of grade 7 Ra 1.6.
const SEAT_SOURCE: &str = "it is located or pressed; seats of bearing makers' catalogues, from memory";
const SEAT_FINE: Length = Length::um(0.8);
const SEAT: Length = Length::um(1.6);
/// Roughness of all other turned surfaces. Source: common practice, no source.
pub const TURNED: Length = Length::um(3.2);

/// Run-out of ends and of bore to outside: ground pieces, and turned ones. Source: common practice, no source.
const GROUND: Length = Length::mm(0.01);
const AS_TURNED: Length = Length::mm(0.02);

/// Roughness of a seat by the width of its limits: of grade 6 and finer Ra 0.8, else Ra 1.6.
fn seat(design: &Design, size: &Size) -> Length {
    let Some(d) = design.dimension(size) else { return SEAT };
    let (Value::Length(size), Some(l)) = (&d.value, &d.limits) else { return SEAT };
    let six = Grade::new(6).and_then(|g| iso286::it_width(*size, g).ok());
    if six.is_some_and(|six| l.upper - l.lower <= six + Length::um(0.05)) { SEAT_FINE } else { SEAT }
}

/// Roughness of both surfaces of a press fit, as the sheets ask for it: of the sleeve, and of its partner.
pub fn of_the_joint(design: &Design, way: Way) -> (Length, Length) {
    match way {
        Way::In => (seat(design, &sizes::OUTSIDE_DIAMETER), seat(design, &sizes::HOUSING_DIAMETER)),
        Way::On => (seat(design, &sizes::BORE), seat(design, &sizes::SHAFT_DIAMETER)),
    }
}

/// Records roughness by what each surface does, and how true it has to be.
pub fn record(design: &mut Design, s: &Ring) {
    let hard_bore = s.common.material.hardened && s.pressed_in.is_some() && s.shaft.is_none();
    let rough = |p: &super::press::Pressing| p.roughness.map(|(own, _)| own);
    let located = |size: &Size| (seat(design, size), SEAT_SOURCE);
    let bore = match (&s.slid_on, &s.shaft) {
        _ if hard_bore => Some(RACEWAY),
        (Some(_), _) => Some(located(&sizes::BORE)),
        (None, Some(_)) if s.rolls => Some(located(&sizes::BORE)),
        (None, Some(_)) => Some(SLIDING),
        (None, None) => None,
    };
    let outside = match (s.rolls, &s.housing) {
        (true, _) => Some(RACEWAY),
        (false, Some(_)) => Some(located(&sizes::OUTSIDE_DIAMETER)),
        (false, None) => None,
    };
    let pressed = [s.slid_on.as_ref().and_then(rough), s.pressed_in.as_ref().and_then(rough)];
    for ((at, usual), given) in [(&sizes::AT_BORE, bore), (&sizes::AT_OUTSIDE, outside)].into_iter().zip(pressed) {
        let said = |ra| Value::Text(show::roughness(ra, design.header.unit));
        match (given, usual) {
            (Some(ra), _) => design.computed(at.roughness, said(ra), "as written for the press fit"),
            (None, Some((ra, why))) => design.computed(at.roughness, said(ra), why),
            (None, None) => {}
        }
    }
    form(design, s);
}

/// Roughness recorded for a surface.
pub fn of(design: &Design, at: &Surface) -> Option<String> {
    match &design.dimension(at.roughness)?.value {
        Value::Text(text) => Some(text.clone()),
        _ => None,
    }
}

/// Roundness 25 % and cylindricity 50 % of the tolerance of a raceway's diameter; ends square to the bore and bore to
/// outside by run-out, where something fits both or pieces are stacked.
/// Source of the shares: bearing makers' catalogues, raceways on shafts and in housings.
fn form(design: &mut Design, s: &Ring) {
    let width =
        |d: &Design| d.dimension(&sizes::OUTSIDE_DIAMETER).and_then(|d| d.limits.as_ref()).map(|l| l.upper - l.lower);
    if let Some(width) = width(design).filter(|_| s.rolls) {
        let why = "share of the diameter's tolerance; bearing makers' catalogues, raceways on shafts";
        for (size, share) in [(&sizes::OUTSIDE_ROUNDNESS, 0.25), (&sizes::OUTSIDE_CYLINDRICITY, 0.5)] {
            allowed(design, size, width * share, why, "bearing makers");
        }
    }
    let run_out = if s.hard { GROUND } else { AS_TURNED };
    let why = "run-out; common practice, no source";
    if s.rolls || s.stacked {
        allowed(design, &sizes::ENDS_SQUARE, run_out, why, "common practice");
    }
    let both = s.shaft.is_some() && (s.housing.is_some() || s.rolls);
    if both || s.pressed_in.is_some() || s.slid_on.is_some() {
        // What is finished after pressing is true to the other part, not to the side that has gone into it.
        let after = design.dimension(&sizes::FINISH_AFTER_PRESSING_MIN).is_some();
        allowed(design, &sizes::BORE_TO_OUTSIDE, run_out, why, "common practice");
        if after {
            design.relabel(
                &sizes::BORE_TO_OUTSIDE,
                "outside true to the bore, both as machined before pressing, run-out",
            );
            allowed(design, &sizes::FINISHED_TRUE, run_out, why, "common practice");
        }
    }
}

fn allowed(design: &mut Design, size: &Size, most: Length, formula: &'static str, by: &str) {
    let most = design.computed_length(size, most, formula);
    let confirmed = if by == "common practice" { Confirmed::Memory } else { Confirmed::One };
    design.range(size, Limits { lower: Length::ZERO, upper: most, by: by.into(), confirmed });
}
