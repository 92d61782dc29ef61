//! What a coating does to a shim: it is ground thinner by the film on both faces, and the film's spread takes from the
//! tolerance of its width.

use crate::description::Fields;
use crate::families::common::coated::{self, Order};
use crate::families::common::{self, Side as Grows};
use crate::formulas::shims::{ShimAnswer, Side, THINNEST};
use crate::record::design::{Check, Design, Limit, Limits, Value, Verdict};
use crate::record::key::Size;
use crate::source::Source;
use crate::units::Length;

use super::chain::GROUND;
use super::read::Spec;
use super::sizes;

const FILM: Check = Check {
    key: "coating_film",
    what: "spread of the film on both faces against the tolerance of the width",
    worst: Verdict::Fail,
    source: Source::Derived(
        "two films, each between its least and its most, on a width that has to end inside its limits",
    ),
};

/// What the films on both faces add, in the middle of what is known of them.
pub fn both_faces(s: &Spec) -> Length {
    s.common.coating.as_ref().map_or(Length::ZERO, |c| c.least + c.growth)
}

/// The shims as they are ground, before they are coated; the answer itself for bare ones. `None` when a problem was noted.
/// least before = least - 2 least film, most before = most - 2 most film.
/// Source: derived; whatever the film, the coated width ends inside its limits.
pub fn before(s: &Spec, a: &ShimAnswer, fields: &Fields) -> Option<ShimAnswer> {
    let mut made = a.clone();
    let Some(coating) = &s.common.coating else { return Some(made) };
    let film = both_faces(s);
    let ends = |width: Length, lower: Length, upper: Length| {
        let (least, most) = (lower - coating.least * 2.0, upper - coating.growth * 2.0);
        if least < most { (least, most) } else { ((width - GROUND).max(THINNEST), width + GROUND) }
    };
    made.each = a.each - film;
    (made.lower, made.upper) = ends(made.each, a.lower, a.upper);
    for size in &mut made.sizes {
        size.width = size.width - film;
        (size.lower, size.upper) = ends(size.width, size.lower, size.upper);
    }
    if made.sizes.iter().any(|size| size.lower < THINNEST) || made.lower < THINNEST {
        let message =
            format!("two films of {} leave nothing of a shim of {}", coating.name, common::say(fields).length(a.each));
        fields.problem_at(&common::COATING, message, Some("a thinner film, or none: a shim may be oiled".into()));
        return None;
    }
    Some(made)
}

/// The width to which it is ground.
pub fn ground(design: &Design) -> &'static Size {
    if design.dimension(&sizes::WIDTH_BEFORE).is_some() { &sizes::WIDTH_BEFORE } else { &sizes::WIDTH }
}

/// Records the widths before coating, and whether the film leaves a tolerance to grind to. Shims from the drawer are
/// finished.
pub fn record(design: &mut Design, s: &Spec, a: &ShimAnswer, made: &ShimAnswer, finished: bool) {
    let Some(coating) = s.common.coating.as_ref().filter(|_| !finished) else { return };
    let mut width = |name: &Size, size: Length, (lower, upper): (Length, Length)| {
        design.computed_length(name, size, "coated width - film on both faces");
        let limits = Limits {
            lower: lower.rounded(),
            upper: upper.rounded(),
            by: "width less both films".into(),
            confirmed: coating.confirmed,
        };
        design.limit(name, limits);
    };
    width(&sizes::WIDTH_BEFORE, made.each, (made.lower, made.upper));
    for size in &made.sizes {
        let name = match size.side {
            Side::Left => &sizes::WIDTH_LEFT_BEFORE,
            Side::Right => &sizes::WIDTH_RIGHT_BEFORE,
            Side::Only => continue,
        };
        if s.offset.is_some() {
            width(name, size.width, (size.lower, size.upper));
        }
    }
    design.principal(&[&sizes::WIDTH_BEFORE, &sizes::WIDTH_LEFT_BEFORE, &sizes::WIDTH_RIGHT_BEFORE]);
    let (spread, tolerance) = (((coating.growth - coating.least) * 2.0).rounded(), (a.upper - a.lower).rounded());
    let (verdict, because) = if spread >= tolerance {
        (Verdict::Fail, "no shim so coated is sure to end inside its limits: a thinner film, or none and oil")
    } else if coating.least_only {
        (Verdict::Caution, "only the least film is known: have one coated, measure it, and write coating_thickness")
    } else if spread * 2.0 > tolerance {
        (Verdict::Caution, "the film takes more than half of the tolerance: measure it and write coating_thickness")
    } else {
        (Verdict::Ok, "ground thinner by both films, the coated width ends inside its limits")
    };
    design.finding(&FILM, verdict, Some(Value::Length(spread)), Limit::AtMost(Value::Length(tolerance)), because);
    coated::class_for(design, &s.common, made.each);
}

/// The order for the coating, and the reading that proves the coated width.
pub fn order(design: &mut Design, s: &Spec) {
    if s.common.coating.is_none() {
        return;
    }
    if let Some(through) = s.over.as_ref().or(s.ring.as_ref().map(|(bore, _)| bore)) {
        coated::passes(design, &s.common, &sizes::BORE, through.value, "the shaft");
    }
    let grows = [
        (&sizes::WIDTH_BEFORE, Grows::Shaft),
        (&sizes::WIDTH_LEFT_BEFORE, Grows::Shaft),
        (&sizes::WIDTH_RIGHT_BEFORE, Grows::Shaft),
        (&sizes::BORE, Grows::Hole),
        (&sizes::OUTSIDE_DIAMETER, Grows::Shaft),
    ];
    let masked = "The film on both faces is part of the width: no lumps, no wire marks on the faces.";
    coated::order(design, &s.common, &Order { sizes: &grows, masked, ..Order::default() });
}
