//! Limits of sizes: by class, by general tolerance, and of what must pass over its partner.

use crate::description::Fields;
use crate::record::design::{Check, Design, LEAST_LIMIT, Limits, Value, Verdict};
use crate::record::key::{Given, Size};
use crate::record::show;
use crate::shop::{self};
use crate::slip;
use crate::source::{Confirmed, Source};
use crate::standards::iso286::{self, Feature, ToleranceClass};
use crate::standards::iso2768::{self};
use crate::standards::stock;
use crate::units::{Length, LengthUnit};

use super::reading::{Common, say};

/// On which side of a fit a class is meant.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Side {
    /// Internal: capital letters.
    Hole,
    /// External: small letters.
    Shaft,
}

/// Sets the limits of a thickness: a steel plate is as thick as it was rolled, anything else as the general tolerance says.
/// Source: EN 10029 class A by [`stock::plate_limits`].
pub fn as_rolled(design: &mut Design, common: &Common, size: &Size, thickness: Length) {
    let rolled = stock::plate_limits(thickness).filter(|_| common.material.magnetic);
    let Some((lower, upper)) = rolled else { return general_limits(design, common, &[size]) };
    let by = "EN 10029 A".into();
    let (lower, upper) = (thickness + lower, thickness + upper);
    design.limit(size, Limits { lower, upper, by, confirmed: Confirmed::TwoOrMore });
}

/// Sets the limits of a recorded length by a tolerance class; `None` when a problem was noted.
pub fn class_limits(
    design: &mut Design,
    fields: &Fields,
    size: &Size,
    nominal: Length,
    class: &Given<String>,
    side: Side,
) -> Option<()> {
    let wanted = if side == Side::Hole { Feature::Hole } else { Feature::Shaft };
    let found = ToleranceClass::parse(&class.value).map_err(|e| (e.to_string(), None)).and_then(|parsed| {
        if parsed.feature != wanted {
            let (is, other) = if side == Side::Hole {
                ("a hole", class.value.to_uppercase())
            } else {
                ("a shaft", class.value.to_lowercase())
            };
            return Err((
                format!("`{}` is the wrong side: this is {is}", class.value),
                Some(format!("such as \"{other}\": capital letters for holes, small ones for shafts")),
            ));
        }
        iso286::limits(nominal, parsed).map_err(|e| (e.to_string(), None))
    });
    match found {
        Ok(l) if nominal + l.lower < LEAST_LIMIT => {
            let say = say(fields);
            let least = say.length((nominal + l.lower).rounded());
            let message =
                format!("`{}` leaves nothing of {}: its least size would be {least}", class.value, say.length(nominal));
            let help = "a finer class, or another size: is that the unit which was meant?";
            fields.problem_in(class.span.clone(), message, Some(help.into()));
            None
        }
        Ok(l) => {
            let by = if l.confirmed == Confirmed::Memory {
                format!("{} (unconfirmed)", class.value)
            } else {
                class.value.clone()
            };
            design
                .limit(size, Limits { lower: nominal + l.lower, upper: nominal + l.upper, by, confirmed: l.confirmed });
            Some(())
        }
        Err((message, help)) => {
            fields.problem_in(class.span.clone(), message, help);
            None
        }
    }
}

/// Sets the limits of recorded lengths by ISO 2768-1, where they have none yet and the standard has a value.
pub fn general_limits(design: &mut Design, common: &Common, sizes: &[&Size]) {
    for handle in sizes {
        let Some(dimension) = design.dimension(handle).filter(|d| d.limits.is_none()) else { continue };
        let Value::Length(size) = dimension.value else { continue };
        let radius = ["radius", "chamfer"].iter().any(|word| handle.name().contains(word));
        let found = if radius {
            iso2768::general_radius_tolerance(common.general, size)
        } else {
            iso2768::general_tolerance(common.general, size)
        };
        if let Ok(t) = found {
            let by = format!("ISO 2768-{}", common.general);
            design.limit(handle, Limits { lower: size - t.value, upper: size + t.value, by, confirmed: t.confirmed });
        }
    }
}

/// Sets the limits of a recorded length that has no class by ISO 2768-1. What must pass over a shaft or into a hole has
/// the whole width of that tolerance on the side that lets it pass: 0/+ for a hole, -/0 for an outside.
/// Source: common practice, no source.
pub fn passes(design: &mut Design, common: &Common, handle: &Size, side: Side, has_partner: bool) {
    general_limits(design, common, &[handle]);
    let Some(dimension) = design.dimension(handle).filter(|_| has_partner) else { return };
    let (Value::Length(size), Some(l)) = (&dimension.value, dimension.limits.clone()) else { return };
    let (size, width) = (*size, l.upper - l.lower);
    let (lower, upper) = match side {
        Side::Hole => (size, size + width),
        Side::Shaft => (size - width, size),
    };
    let by = match side {
        Side::Hole => "goes over a shaft",
        Side::Shaft => "goes into a hole",
    };
    design.limit(handle, Limits { lower, upper, by: by.into(), ..l });
}

/// A rough size in whole numbers of its unit: millimetres, or sixteenths of an inch.
pub fn in_whole(size: Length, unit: LengthUnit) -> Length {
    let whole = shop::by_unit(unit, 1.0, 1.0 / 16.0);
    whole * (size / whole).floor()
}

/// A recorded length in both units; nothing where it is none.
pub fn both(design: &Design, size: &Size) -> String {
    match design.dimension(size).map(|d| &d.value) {
        Some(Value::Length(l)) => show::length_both(*l, design.header.unit),
        _ => String::new(),
    }
}

/// The limits of a recorded size in words, in both units: `25.000 to 25.021 mm (0.9843 to 0.9850 in)`; the size where
/// it has none.
pub fn between(design: &Design, size: &Size) -> String {
    let unit = design.header.unit;
    let Some(dimension) = design.dimension(size) else { return String::new() };
    let Some(l) = &dimension.limits else { return show::value(&dimension.value, unit) };
    let pair = |unit| {
        let [least, most] = show::limit_pair(l.lower, l.upper, unit);
        format!("{least} to {most} {}", show::unit_name(unit))
    };
    format!("{} ({})", pair(unit), pair(show::other_unit(unit)))
}

/// Sets equal limits about a recorded length.
pub fn plus_minus(design: &mut Design, handle: &Size, by: Length) {
    if let Some(Value::Length(size)) = design.dimension(handle).map(|d| d.value.clone()) {
        let by = by.rounded();
        design.limit(
            handle,
            Limits { lower: size - by, upper: size + by, by: "common practice".into(), confirmed: Confirmed::Memory },
        );
    }
}

const SLIP: Check = Check {
    key: "slip",
    what: "size that does not go with its neighbour",
    worst: Verdict::Fail,
    source: Source::Derived("it would after a slip of the unit (25.4) or of the decimal point (10)"),
};

/// Tells a size which would go with its neighbour after a slip of the pen, and as it is written does not.
pub fn slip(design: &mut Design, verdict: Verdict, what: &str, written: Length, goes: (Length, Length), beside: &str) {
    let Some(slip) = slip::likely(written, goes.0, goes.1) else { return };
    let unit = design.header.unit;
    let because = format!("{what} does not go with {beside}: {}", slip.question(written, unit));
    design.finding(&SLIP, verdict, Some(Value::Length(written.rounded())), None, because);
}
