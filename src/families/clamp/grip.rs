//! What the screws of a clamp press, what slips, and what closing it takes of them.

use crate::description::Fields;
use crate::families::common::{self, Side};
use crate::formulas::MechanicsError;
use crate::formulas::bolts::{self, SCATTER, SHARE};
use crate::formulas::clamp::{self, Lies, Parted, SlitRing};
use crate::record::design::{Design, Limits, Table, Value};
use crate::record::key::Size;
use crate::record::show;
use crate::shop;
use crate::source::Confirmed;
use crate::units::{Force, Length, Stress, Torque};

use super::read::{self, Spec};
use super::{outline, sizes};

/// The worked answer, for the findings that come after all sizes are recorded.
pub struct Grip {
    /// Clearance of the bore over the tube, least and greatest, the liner counted.
    pub clearance: (Length, Length),
    /// Gap left when it is tight.
    pub gap_left: Length,
    /// Pull of all screws on one side, least and greatest.
    pub pull: (Force, Force),
    /// Of that, what closes the ring; none where the ring is too thick to bend as a thin one.
    pub to_close: Option<Force>,
    /// Force at the surface that slips it, at least; none where the ring takes all of the pull.
    pub slips: Force,
    /// What is asked for there, and the safety.
    pub asked: Option<(Force, f64)>,
    pub ear: Stress,
    pub ring: Option<Stress>,
    pub tube: Option<Stress>,
    /// Bore at most for the grip that is asked for.
    pub bore_at_most: Option<Length>,
}

/// Safety against slip where nothing is written. Source: Roloff/Matek, clamped connections at rest: 1.5 to 2, from memory.
const SAFETY: f64 = 1.5;

/// Works out and records everything; `None` when a problem was noted.
pub fn work(design: &mut Design, s: &Spec, fields: &Fields) -> Option<Grip> {
    record(design, s, fields)?;
    worked(design, s).map_err(|error| fields.problem_here(error.to_string())).ok()
}

/// The same with bore and tube between other ends than their limits; none keeps those. `None` when a problem was noted.
pub fn between(
    s: &Spec,
    fields: &Fields,
    bore: Option<Ends>,
    tube: Option<Ends>,
) -> Option<Result<Grip, MechanicsError>> {
    let mut design = Design::new(s.common.header.clone());
    record(&mut design, s, fields)?;
    for (size, ends) in [(&sizes::BORE, bore), (&sizes::TUBE_DIAMETER, tube)] {
        if let Some((lower, upper)) = ends {
            design.limit(size, Limits { lower, upper, by: "as measured".into(), confirmed: Confirmed::One });
        }
    }
    Some(worked(&mut design, s))
}

/// Least and greatest.
pub type Ends = (Length, Length);

fn record(design: &mut Design, s: &Spec, fields: &Fields) -> Option<()> {
    let kind = if s.parted == Parted::InHalves { "halves" } else { "split" };
    design.computed(&read::KIND.size(), Value::Text(kind.into()), "as written");
    let bore = match &s.bore.written {
        Some(given) => design.given_length(&read::BORE, given),
        None if s.opened.is_some() => {
            design.computed_length(&sizes::BORE, s.bore.diameter, "the step of the drill that goes over the tube")
        }
        None => design.computed_length(&sizes::BORE, s.bore.diameter, "the greatest diameter of the tube"),
    };
    for (key, given) in [
        (&read::OUTSIDE_DIAMETER, &s.outside),
        (&read::WIDTH, &s.width),
        (&read::GAP, &s.gap),
        (&read::EAR_THICKNESS, &s.ear_thickness),
        (&read::EAR_HEIGHT, &s.ear_height),
    ] {
        design.given_length(key, given);
    }
    design.computed_length(&sizes::WALL_LEFT, (s.outside.value - s.bore.diameter) / 2.0, "(D - d)/2");
    let (flat, _) = s.flat();
    design.computed_length(&sizes::EAR_FLAT, flat, "sqrt((D/2)^2 - (gap/2 + ear)^2)");
    screws(design, s);
    tube(design, s);
    common::passes(design, &s.common, &sizes::BORE, Side::Hole, true);
    if let Some(class) = &s.bore_class {
        common::class_limits(design, fields, &sizes::BORE, bore, class, Side::Hole)?;
    }
    common::general_limits(
        design,
        &s.common,
        &[&sizes::OUTSIDE_DIAMETER, &sizes::GAP, &sizes::EAR_THICKNESS, &sizes::EAR_HEIGHT, &sizes::SCREW_DISTANCE],
    );
    // Cut from plate it is as wide as that is thick; one at hand is what it is.
    match s.opened {
        Some(_) => common::general_limits(design, &s.common, &[&sizes::WIDTH]),
        None => common::as_rolled(design, &s.common, &sizes::WIDTH, s.width.value),
    }
    design.principal(&[&sizes::BORE, &sizes::OUTSIDE_DIAMETER, &sizes::WIDTH]);
    if let Some(l) = &s.liner {
        let (bore, outside) = outline::liner_sizes(s, l);
        design.computed_length(&sizes::LINER_BORE, bore, "the greatest diameter of the tube");
        design.computed_length(&sizes::LINER_OUTSIDE, outside, "its bore and twice its wall");
        design.computed_length(
            &sizes::LINER_WALL,
            s.liner_wall(l),
            "as written, or what bore and tube leave less 0.05 mm (0.002 in)",
        );
        liner_limits(design, s, (bore, outside));
    }
    Some(())
}

/// What turning holds on each diameter of a liner, its wall thin. Source: common practice, no source.
const fn liner_turned(unit: crate::units::LengthUnit) -> Length {
    shop::by_unit(unit, 0.05, 0.002)
}

/// Limits of a liner that let it go into the clamp and over the tube: its outside no larger, its bore no smaller than they are told.
fn liner_limits(design: &mut Design, s: &Spec, (bore, outside): (Length, Length)) {
    let off = liner_turned(s.common.header.unit);
    let wall = (outside - bore) / 2.0;
    let by = |by: &str| by.to_string();
    let mut limit = |size: &Size, lower: Length, upper: Length, by: String| {
        design.limit(size, Limits { lower, upper, by, confirmed: Confirmed::Memory });
    };
    limit(&sizes::LINER_BORE, bore, bore + off, by("goes over a shaft"));
    limit(&sizes::LINER_OUTSIDE, outside - off, outside, by("goes into a hole"));
    // Both diameters at the ends that leave the least metal between them.
    if wall > off {
        limit(&sizes::LINER_WALL, wall - off, wall, by("its bore and outside"));
    }
}

fn screws(design: &mut Design, s: &Spec) {
    let words = format!("{} x {}", s.screws(), s.screw.thread);
    design.computed(&sizes::SCREW_THREAD, Value::Text(words), "as written");
    common::bolt_steel(design, &s.screw.steel);
    common::standard_thread(design, &s.screw.thread);
    if s.screw.number() > 1 {
        design.computed_length(&sizes::SCREW_PITCH, s.width.value / f64::from(s.screw.number()), "width/number");
    }
    match &s.screw.distance {
        Some(given) => design.written_length(&sizes::SCREW_DISTANCE, given),
        None => {
            design.computed_length(
                &sizes::SCREW_DISTANCE,
                s.distance(),
                "middle of the flat of the ear, to 0.1 mm (0.005 in)",
            );
        }
    }
    design.computed_length(&sizes::SCREW_HOLE, s.screw.clearance, "medium clearance hole (ISO 273)");
    let formula = if s.screw.tapped { "tap drill" } else { "medium clearance hole (ISO 273)" };
    design.computed_length(&sizes::FAR_HOLE, s.screw.far(), formula);
}

fn tube(design: &mut Design, s: &Spec) {
    let t = &s.tube;
    design.written_length(&sizes::TUBE_DIAMETER, &t.diameter);
    let (lower, upper) = t.limits();
    let by = if t.tolerance.is_some() { "as written" } else { "as drawn, half a per cent" };
    let confirmed = if t.tolerance.is_some() { Confirmed::One } else { Confirmed::Memory };
    design.limit(&sizes::TUBE_DIAMETER, Limits { lower, upper, by: by.into(), confirmed });
    if let Some(wall) = &t.wall {
        design.written_length(&sizes::TUBE_WALL, wall);
    }
    if t.material_written {
        design.computed(&sizes::TUBE_MATERIAL, Value::Text(t.material.name.clone()), "as written");
    }
}

fn worked(design: &mut Design, s: &Spec) -> Result<Grip, MechanicsError> {
    let clearance = clearance(design, s);
    let gap_left = s.gap.value - clamp::gap_closes(clearance.1, s.parted);
    let formula = if s.parted == Parted::Once { "gap - pi x greatest clearance" } else { "gap - greatest clearance" };
    let gap_left = design.computed_length(&sizes::GAP_LEFT, gap_left, formula);
    let one = bolts::preload(s.screw.thread.stress_area(), s.screw.steel.class.proof, SHARE)?;
    let side = one * f64::from(s.screw.number());
    let pull = (side * (1.0 - SCATTER), side * (1.0 + SCATTER));
    let (mean, e) = ((s.bore.diameter + s.outside.value) / 4.0, s.distance());
    let ring = SlitRing {
        bore: s.bore.diameter,
        outside: s.outside.value,
        width: s.width.value,
        screw: e,
        modulus: s.common.material.elastic.youngs_modulus,
    };
    let to_close = match s.parted {
        Parted::Once => ring.pull_to_close(clearance.1).ok(),
        Parted::InHalves => Some(Force::ZERO),
    };
    if let Some(force) = to_close.filter(|_| s.parted == Parted::Once) {
        design.computed(
            &sizes::PULL_TO_CLOSE,
            Value::Force(force),
            "pi c (e/R) E I/(R (2 pi e^2 + pi R^2)), greatest clearance c",
        );
    }
    let sides = if s.parted == Parted::InHalves { 2.0 } else { 1.0 };
    let pressing = |pull: Force| clamp::pressed_by(pull * sides, s.parted, mean, e.max(mean));
    let left = (pull.0 - to_close.unwrap_or(Force::ZERO)).max(Force::ZERO);
    let pressed = pressing(left)?;
    let formula =
        if s.parted == Parted::Once { "(0.7 pull - pull to close) x (R + e)/R" } else { "0.7 x pull of all screws" };
    design.computed(&sizes::PRESSED, Value::Force(pressed), formula);
    let (mu, most_mu) = friction(design, s);
    let d = s.tube.diameter.value;
    let slips = clamp::slip_force(pressed, Lies::InLines, mu)?;
    design.computed(&sizes::SLIPS_ALONG, Value::Force(slips), "2 mu N: bore and tube touch in two lines");
    let least = Value::Torque(clamp::slip_torque(pressed, Lies::InLines, mu, d)?);
    design.computed(&sizes::SLIPS_ROUND, least, "mu N D");
    let most = clamp::slip_torque(pressing(pull.1)?, Lies::Evenly, most_mu, d)?;
    design.computed(
        &sizes::SLIPS_ROUND_MOST,
        Value::Torque(most),
        "(pi/2) mu N D, evenly pressed, greatest pull and friction",
    );
    lies_table(design, pressed, mu, d)?;
    let asked = asked(design, s)?;
    let arm = (e - s.flat().0).max(Length::ZERO);
    let ear = clamp::ear_bending(pull.1, arm, s.width.value, s.ear_thickness.value)?;
    design.computed(&sizes::EAR_STRESS, Value::Stress(ear), "6 F a/(w t^2), 1.3 x pull, from the ring to the screw");
    let ring_stress = ring_stress(design, s, &ring, pull.1, to_close)?;
    let tube =
        s.tube.wall.as_ref().map(|w| clamp::tube_squeezed(pressing(pull.1)?, s.width.value, w.value)).transpose()?;
    if let Some(stress) = tube {
        design.computed(&sizes::TUBE_STRESS, Value::Stress(stress), "N/(2 w t), 1.3 x pull");
    }
    let bore_at_most = match (s.parted, asked) {
        (Parted::Once, Some((force, safety))) => {
            let wanted = force * (safety / (2.0 * mu)) * (mean / (mean + e.max(mean)));
            let by_pull = ring.clearance_that_leaves(pull.0, wanted).ok().flatten();
            by_pull.map(|c| s.tube.limits().0 + c.min(s.gap.value / std::f64::consts::PI))
        }
        _ => None,
    };
    if let Some(bore) = bore_at_most {
        let formula = "least tube + (0.7 pull - pull that the grip asks for)/(pull to close 1 mm), at most gap/pi";
        design.computed_length(&sizes::BORE_AT_MOST, bore, formula);
    }
    Ok(Grip { clearance, gap_left, pull, to_close, slips, asked, ear, ring: ring_stress, tube, bore_at_most })
}

/// What slips it at the least pull and friction, by how bore and tube lie on each other.
fn lies_table(design: &mut Design, pressed: Force, mu: f64, tube: Length) -> Result<(), MechanicsError> {
    let mut rows = Vec::new();
    for (words, lies) in [
        ("in two lines: the bore is stiff and wider", Lies::InLines),
        ("by the cosine: a little wider, drawn round", Lies::ByCosine),
        ("evenly: it was bored to this tube", Lies::Evenly),
    ] {
        let torque = Value::Torque(clamp::slip_torque(pressed, lies, mu, tube)?);
        rows.push(vec![Value::Text(words.into()), torque, Value::Force(clamp::slip_force(pressed, lies, mu)?)]);
    }
    let title =
        "What slips it, least pull and friction, by how bore and tube lie on each other; the first is counted on";
    design.tabulate(Table::new(sizes::LIES_TABLE, title, &["they touch", "torque", "force along"], rows));
    Ok(())
}

/// Clearance of the bore over the tube on the diameter, the liner's wall taken off.
fn clearance(design: &mut Design, s: &Spec) -> (Length, Length) {
    let ends = |size: &Size, nominal: Length| {
        let limits = design.dimension(size).and_then(|d| d.limits.as_ref());
        limits.map_or((nominal, nominal), |l| (l.lower, l.upper))
    };
    let (least, greatest) = ends(&sizes::TUBE_DIAMETER, s.tube.diameter.value);
    let bore = ends(&sizes::BORE, s.bore.diameter);
    let liner = s.liner.as_ref().map_or((Length::ZERO, Length::ZERO), |l| ends(&sizes::LINER_WALL, s.liner_wall(l)));
    let formula = "bore - tube, and - twice the wall of a liner; all at their limits";
    let min = design.computed_length(&sizes::CLEARANCE_MIN, bore.0 - greatest - liner.1 * 2.0, formula);
    let max = design.computed_length(&sizes::CLEARANCE_MAX, bore.1 - least - liner.0 * 2.0, formula);
    (min, max)
}

/// Friction as written, or the printed range for the two metals, dry.
fn friction(design: &mut Design, s: &Spec) -> (f64, f64) {
    if let Some(given) = &s.friction {
        design.given(&read::FRICTION, given, Value::Number);
        return (given.value, given.value);
    }
    let own = s.liner.as_ref().map_or(&s.common.material, |l| &l.material);

    let (low, high) = shop::friction_pair(own, &s.tube.material).unwrap_or(UNKNOWN);
    let words = format!("{} to {}", show::trimmed(low, 2), show::trimmed(high, 2));
    design.assumed(
        &read::FRICTION.size(),
        Value::Text(words),
        "printed range of the two metals, dry; 0.1 to 0.3 where none is",
    );
    (low, high)
}

/// Friction of a pair of which nothing is printed. Source: common practice, no source.
const UNKNOWN: (f64, f64) = (0.10, 0.30);

/// Force at the surface of the tube that is asked for, and the safety.
fn asked(design: &mut Design, s: &Spec) -> Result<Option<(Force, f64)>, MechanicsError> {
    let Some(h) = &s.holds else { return Ok(None) };
    let mut torque = Torque::ZERO;
    if let Some((force, lever)) = &h.lever {
        design.given(&read::TORQUE, force, Value::Force);
        design.given_length(&read::LEVER, lever);
        torque = force.value * lever.value;
    }
    let along = match &h.along {
        Some(along) => design.given(&read::ALONG, along, Value::Force),
        None => Force::ZERO,
    };
    let force = clamp::asked(torque, along, s.tube.diameter.value)?;
    design.computed(&sizes::ASKED, Value::Force(force), "sqrt(along^2 + (2 T/D)^2)");
    let safety = design.given_or(&read::SAFETY, h.safety.as_ref(), SAFETY, Value::Number, "usual for a clamp at rest");
    Ok(Some((force, safety)))
}

/// Tension of the screws in the wall, and what closing bends it by.
fn ring_stress(
    design: &mut Design,
    s: &Spec,
    ring: &SlitRing,
    pull: Force,
    to_close: Option<Force>,
) -> Result<Option<Stress>, MechanicsError> {
    let Some(to_close) = to_close.filter(|_| s.parted == Parted::Once) else { return Ok(None) };
    let wall = (s.outside.value - s.bore.diameter) / 2.0;
    let tension = Stress::mpa(pull.as_newtons() / (wall.as_mm() * s.width.value.as_mm()));
    let stress = tension + ring.bent_by(to_close.min(pull))?;
    design.computed(&sizes::RING_STRESS, Value::Stress(stress), "1.3 pull/(w h) + 6 P (e + R)/(w h^2), P closes it");
    Ok(Some(stress))
}
