//! How the sleeve fits its shaft and its housing: limits on both sides, clearance or interference.

use crate::description::Fields;
use crate::families::common::{self, Side};
use crate::formulas::press_fit::Press;
use crate::record::design::{Design, Value};
use crate::record::key::Size;
use crate::shop::Material;
use crate::source::Confirmed;
use crate::standards::fit::{FitKind, FitRange, Limits, fit_of};
use crate::standards::fitting;
use crate::standards::iso286::{self, ToleranceClass};
use crate::units::{Length, LengthUnit};

use super::press::{Pressing, Way};
use super::read::{self, Mating, Ring};
use super::sizes::{self, Surface};

/// One side of the sleeve with its partner.
pub struct Joint {
    /// Which surface of the sleeve.
    pub at: &'static Surface,
    /// As the partner is called.
    pub partner: &'static str,
    pub range: FitRange,
    /// Nominal size of the sleeve here.
    pub nominal: Length,
    /// Nominal or measured size of the partner.
    pub size: Length,
    /// So much play is meant.
    pub loose: bool,
    pub confirmed: Confirmed,
}

/// Records both fits; `None` if a class makes no sense.
pub fn fits(design: &mut Design, s: &Ring, fields: &Fields) -> Option<Vec<Joint>> {
    let mut joints = Vec::new();
    if let Some(shaft) = &s.shaft {
        joints.push(joint(design, fields, shaft, true)?);
    }
    if let Some(housing) = &s.housing {
        joints.push(joint(design, fields, housing, false)?);
    }
    Some(joints)
}

/// Deviations of a recorded dimension from its nominal size.
fn own_limits(design: &Design, size: &Size) -> Option<(Length, Limits)> {
    let d = design.dimension(size)?;
    let (Value::Length(nominal), Some(l)) = (&d.value, &d.limits) else { return None };
    Some((
        *nominal,
        Limits { lower: l.lower - *nominal, upper: l.upper - *nominal, confirmed: l.confirmed, source: "" },
    ))
}

fn joint(design: &mut Design, fields: &Fields, mating: &Mating, at_bore: bool) -> Option<Joint> {
    let (at, partner, table_key) = if at_bore {
        (&sizes::AT_BORE, "shaft", &read::SHAFT)
    } else {
        (&sizes::AT_OUTSIDE, "housing", &read::HOUSING)
    };
    let Some((nominal, own_limits)) = own_limits(design, at.own) else {
        let (key, class) =
            if at_bore { (&read::BORE, &read::BORE_CLASS) } else { (&read::OUTSIDE_DIAMETER, &read::OUTSIDE_CLASS) };
        let message = format!(
            "the general tolerances say nothing of so small or so large a size, so its fit on the {partner} cannot be told"
        );
        fields.problem_at(key, message, Some(format!("give it a class of its own with `{}`", class.name)));
        return None;
    };
    let table = fields.table(table_key)?;
    let partner_limits = partner_limits(design, &table, mating, nominal, at)?;
    let range = if at_bore { fit_of(&own_limits, &partner_limits) } else { fit_of(&partner_limits, &own_limits) };
    let [least, greatest] = at.clearance;
    let [least, greatest] =
        [least, greatest].map(|size| size.called(size.label().replace("sleeve", design.header.family)));
    design.computed_length(&least, range.min_clearance, "least hole - greatest shaft; negative: interference");
    design.computed_length(&greatest, range.max_clearance, "greatest hole - least shaft");
    design.computed(at.fit, Value::Text(range.kind.to_string()), "ISO 286-1");
    let size = mating.diameter.as_ref().map_or(nominal, |d| d.value.rounded());
    let confirmed = own_limits.confirmed.min(partner_limits.confirmed);
    Some(Joint { at, partner, range, nominal, size, loose: mating.loose, confirmed })
}

/// Limits of the partner: its class about the sleeve's nominal size, or its measured size.
fn partner_limits(
    design: &mut Design,
    table: &Fields,
    mating: &Mating,
    nominal: Length,
    at: &Surface,
) -> Option<Limits> {
    let side = if at.own.is(&sizes::BORE) { Side::Shaft } else { Side::Hole };
    let diameter = at.partner;
    match (&mating.class, &mating.diameter) {
        (Some(class), given) => {
            let size = given.as_ref().map_or(nominal, |d| d.value.rounded());
            match given {
                Some(d) => design.written_length(diameter, d),
                None => {
                    design.computed_length(diameter, nominal, "the sleeve's nominal size");
                }
            }
            common::class_limits(design, table, diameter, size, class, side)?;
            let parsed = ToleranceClass::parse(&class.value).ok()?;
            let l = iso286::limits(size, parsed).ok()?;
            let shift = size - nominal;
            Some(Limits { lower: l.lower + shift, upper: l.upper + shift, ..l })
        }
        (None, Some(d)) => {
            design.written_length(&diameter.called(format!("{}, measured", diameter.label())), d);
            let deviation = d.value.rounded() - nominal;
            Some(Limits { lower: deviation, upper: deviation, confirmed: Confirmed::TwoOrMore, source: "measured" })
        }
        (None, None) => None,
    }
}

impl Joint {
    /// Between the sleeve's bore and its shaft.
    pub fn at_bore(&self) -> bool {
        self.at.own.is(&sizes::BORE)
    }

    /// Why this is no fit at all: more play, or more interference, than the widest class of its size; a slip, as long as
    /// the file does not say that so much play is meant.
    pub fn beyond_any_class(&self, unit: LengthUnit) -> Option<String> {
        let beyond = fitting::beyond_any_class(self.nominal, self.size, self.at_bore(), &self.range)?;
        let most = crate::record::show::length(beyond.most, unit);
        match (beyond.play, self.loose) {
            (true, true) => None,
            (true, false) => {
                Some(beyond.said(self.size, &format!("{most} (loose = true says that it is meant)"), unit))
            }
            (false, _) => Some(beyond.said(self.size, &most, unit)),
        }
    }
}

/// In words, for findings.
pub fn kind_word(kind: FitKind) -> &'static str {
    match kind {
        FitKind::Clearance => "always some play or none",
        FitKind::Transition => "play or interference, as the two sizes fall: measure both and choose",
        FitKind::Interference => "always pressed: heat, cool or press",
    }
}

/// Outer part, inner part, and the joint.
pub fn press(s: &Ring, p: &Pressing) -> Press {
    let other = other(s, p).elastic;
    let (bore, outside) = (s.bore.value.rounded(), s.outside.value.rounded());
    let sleeve = s.common.material.elastic;
    let length = s.length.value.rounded();
    match p.way {
        Way::In => {
            Press { interface: outside, hub_outside: p.far.value, sleeve_bore: bore, length, hub: other, sleeve }
        }
        Way::On => Press {
            interface: bore,
            hub_outside: outside,
            sleeve_bore: p.far.value,
            length,
            hub: sleeve,
            sleeve: other,
        },
    }
}

/// Material of hub or shaft.
pub fn other<'s>(s: &'s Ring, p: &'s Pressing) -> &'s Material {
    let mating = match p.way {
        Way::In => s.housing.as_ref(),
        Way::On => s.shaft.as_ref(),
    };
    p.material.as_ref().or(mating.map(|m| &m.material)).unwrap_or(&s.common.material)
}
