//! What is checked on a try-out: whether its rungs can be told apart, whether a gauge is finer than what it gauges.

use crate::families::common;
use crate::formulas::ladder;
use crate::record::design::{Check, Design, Limits, Value, Verdict};
use crate::record::key::Size;
use crate::source::{Confirmed, Source};
use crate::standards::processes::{self, Process};
use crate::units::Length;

use super::Form;
use super::read::{Ladder, Made, Spec};
use super::sizes;

const LADDER_STEP: Check =
    Check { key: "ladder_step", what: "step of the ladder", worst: Verdict::Caution, source: Source::CommonPractice };
const GAUGE: Check = Check {
    key: "gauge_tolerance",
    what: "what the gauge may differ, against what its making holds",
    worst: Verdict::Caution,
    source: Source::Published("machinery handbooks: a gauge takes a tenth of the tolerance that it gauges"),
};
const LASER_RUNG: Check = Check {
    key: "laser_rung",
    what: "smallest rung that is cut, against the plate's thickness",
    worst: Verdict::Fail,
    source: Source::Published(
        "public design guides of laser cutting services: hole at least the plate's thickness, 0.7 of it the hard limit",
    ),
};
const LAYERS: Check = Check {
    key: "whole_layers",
    what: "tread beside whole layers of the printer, at most",
    worst: Verdict::Caution,
    source: Source::Derived("a printer lays whole layers: what is no whole number of them is rounded"),
};
const EDGE: Check =
    Check { key: "edge_tells", what: "angle that the gauge tells", worst: Verdict::Ok, source: Source::CommonPractice };

/// Share of the tolerance that a gauge takes. Source: machinery handbooks (the ten per cent rule of gauge makers).
pub const GAUGE_SHARE: f64 = 0.1;
/// A step that hand and calliper tell. Source: common practice, no source.
const FELT: Length = Length::mm(0.05);
/// A slit that is seen against the light. Source: common practice, no source.
const SLIT: Length = Length::mm(0.02);

/// Records a gauging size at the middle of its limits.
pub fn limit(design: &mut Design, size: &Size, (lower, upper): (Length, Length), formula: &'static str) {
    design.computed_length(size, (lower + upper) / 2.0, formula);
    let by = "a tenth of what it gauges".into();
    design.limit(size, Limits { lower, upper, by, confirmed: Confirmed::One });
}

/// All checks of a try-out.
pub fn checks(design: &mut Design, s: &Spec, form: &Form) {
    match &s.made {
        Made::Ladder { kind, step, rungs, thickness, .. } => {
            rung_step(design, s, *kind, *step, rungs);
            if !s.common.material.printed && matches!(form, Form::Flat(_)) {
                cut(design, rungs, *thickness);
            }
        }
        Made::Edge { .. } => edge(design),
        Made::Limits { plug, nominal, .. } => gauge(design, s, *plug, nominal.value),
    }
    common::checks(design, &s.common);
}

fn rung_step(design: &mut Design, s: &Spec, kind: Ladder, step: Length, rungs: &[Length]) {
    if kind == Ladder::Treads {
        let layer = s.common.printer.layer;
        let beside = |h: &Length| {
            let layers = *h / layer;
            layer * (layers - layers.round()).abs()
        };
        if let Some(most) = rungs.iter().map(beside).reduce(Length::max) {
            design.at_most(
                &LAYERS,
                Value::Length(most.rounded()),
                Value::Length(layer),
                Some(Value::Length(Length::um(5.0))),
                "a tread comes out as thick as whole layers: take first tread and step as whole layers",
            );
        }
        return;
    }
    design.at_least(
        &LADDER_STEP,
        Value::Length(step),
        Value::Length(Length::ZERO),
        Some(Value::Length(FELT)),
        "rungs that differ by less feel alike, and a calliper does not tell them apart",
    );
}

fn cut(design: &mut Design, rungs: &[Length], thickness: Length) {
    let Some(least) = rungs.first() else { return };
    design.at_least(
        &LASER_RUNG,
        Value::Length(*least),
        Value::Length(processes::burnt_below(thickness)),
        Some(Value::Length(processes::least_cut_hole(thickness))),
        "a smaller hole or slot is burnt rather than cut: a thinner plate",
    );
}

fn edge(design: &mut Design) {
    let Some(Value::Length(long)) = design.dimension(&sizes::EDGE).map(|d| d.value.clone()) else { return };
    let Ok(seen) = ladder::angle_seen(SLIT, long) else { return };
    design.computed(&sizes::SEEN, Value::Angle(seen), "atan(0.02 mm/edge)");
    let slit = design.say().length(SLIT);
    let because = format!(
        "light is seen under a slit of {slit}; the gauge itself is proved first, on a sine bar or against a protractor, since a cut or printed edge may be further off"
    );
    design.finding(&EDGE, Verdict::Ok, Some(Value::Angle(seen)), None, because);
}

fn gauge(design: &mut Design, s: &Spec, plug: bool, nominal: Length) {
    let size = if plug { &sizes::GO } else { &sizes::GO_RING };
    let Some(width) = design.dimension(size).and_then(|d| d.limits.as_ref()).map(|l| l.upper - l.lower) else { return };
    let (process, how) = match (s.common.material.printed, plug) {
        (true, _) => (Process::Printed, "printing"),
        (false, true) => (Process::CylindricallyGround, "grinding"),
        (false, false) => (Process::Bored, "boring"),
    };
    let Some(best) = processes::at_best(process, nominal, nominal) else { return };
    design.at_least(
        &GAUGE,
        Value::Length(width.rounded()),
        Value::Length(Length::ZERO),
        Some(Value::Length(best.value.rounded())),
        format!("{how} holds no less: a gauge for so fine a class is bought, or measure with a micrometer instead"),
    );
}
