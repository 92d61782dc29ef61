//! What is judged of a clamp: that it goes on, closes, grips, and breaks nothing.

use crate::families::common;
use crate::formulas::clamp::Parted;
use crate::formulas::step_drill;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::shop::by_unit;
use crate::source::Source;
use crate::standards::processes::{self, Process};
use crate::units::{Length, Stress};

use super::grip::Grip;
use super::read::Spec;
use super::sizes;

const GOES_OVER: Check = Check {
    key: "clamp_goes_over",
    what: "least clearance of the bore over the tube",
    worst: Verdict::Fail,
    source: Source::Derived("least bore less greatest tube, and less a liner's wall"),
};
const CLOSES: Check = Check {
    key: "clamp_gap",
    what: "gap that is left when it is tight on the thinnest tube",
    worst: Verdict::Fail,
    source: Source::Derived("the slit closes by pi times the clearance, the gap of halves by the clearance"),
};
const SLIPS: Check = Check {
    key: "clamp_slips",
    what: "force at the surface of the tube that slips it, at least",
    worst: Verdict::Fail,
    source: Source::Memory(
        "Roloff/Matek, clamped connections: two lines of contact, least printed friction, 30 % less pull",
    ),
};
const TAKES: Check = Check {
    key: "clamp_pull_to_close",
    what: "pull that closes the ring, of the least pull of its screws",
    worst: Verdict::Fail,
    source: Source::Published("Timoshenko, Strength of Materials: thin slit ring, Castigliano"),
};
const STIFF: Check = Check {
    key: "clamp_stiff",
    what: "closing of the ring",
    worst: Verdict::Caution,
    source: Source::Derived("the formula of the thin ring holds for a wall up to half of the mean radius"),
};
const EAR: Check = Check {
    key: "clamp_ear",
    what: "bending stress of an ear, 30 % over the pull",
    worst: Verdict::Fail,
    source: Source::Published("Shigley, Mechanical Engineering Design: cantilever"),
};
const RING: Check = Check {
    key: "clamp_ring",
    what: "stress in the ring opposite to its slit, as if elastic",
    worst: Verdict::Caution,
    source: Source::Published(
        "Timoshenko, Strength of Materials: thin slit ring, tension of the screws; a rectangle is a plastic hinge from 1.5 times its first yield",
    ),
};
const TUBE: Check = Check {
    key: "clamp_squeezes",
    what: "hoop stress of the squeezed tube, 30 % over the pull",
    worst: Verdict::Fail,
    source: Source::Published("Timoshenko, Strength of Materials: thin tube under outer pressure"),
};
const WALL: Check =
    Check { key: "clamp_wall", what: "wall of the ring", worst: Verdict::Fail, source: Source::CommonPractice };
const TO_SCREW: Check = Check {
    key: "clamp_screw_hole",
    what: "metal between the bore and the hole of a screw",
    worst: Verdict::Fail,
    source: Source::CommonPractice,
};
const SEAT: Check = Check {
    key: "clamp_head_seats",
    what: "flat of the ear beside the middle of the screw, against the half of a washer",
    worst: Verdict::Fail,
    source: Source::Memory(
        "ISO 7089: a washer is 1.8 to 2.2 times its thread across; on a round a head bears on one edge",
    ),
};
const REACHES: Check = Check {
    key: "step_drill_reaches",
    what: "width of the clamp, against what the step cuts from both sides before the next enters",
    worst: Verdict::Fail,
    source: Source::Derived("height of a step from each side; the last step of the drill goes on"),
};
const BORE_HELD: Check = Check {
    key: "bore_process",
    what: "width of the bore's tolerance against what its last process holds",
    worst: Verdict::Caution,
    source: Source::Published("machinery handbooks, tolerance grades of processes; of step drills common practice"),
};
const GUIDED: Check = Check {
    key: "step_drill_guided",
    what: "steps that run idle in the bore at hand and guide the drill",
    worst: Verdict::Caution,
    source: Source::CommonPractice,
};
const LINER: Check =
    Check { key: "clamp_liner", what: "least wall of the liner", worst: Verdict::Fail, source: Source::CommonPractice };
const NOT_ALONE: Check = Check {
    key: "clamp_is_friction",
    what: "a clamp holds by friction",
    worst: Verdict::Ok,
    source: Source::CommonPractice,
};

/// Gap that is to be left, so that a tube at its least and dirt in the slit still let it draw. Source: common practice, no source.
const fn wanted_gap(unit: crate::units::LengthUnit) -> Length {
    by_unit(unit, 0.5, 0.02)
}

/// Plastic over elastic moment of a rectangle. Source: Timoshenko, Strength of Materials.
const PLASTIC: f64 = 1.5;

/// All of them.
pub fn checks(design: &mut Design, s: &Spec, g: &Grip) {
    common::checks(design, &s.common);
    fits(design, s, g);
    slips(design, s, g);
    closing(design, s, g);
    stresses(design, s, g);
    metal(design, s);
    drill(design, s);
    bore_held(design, s);
    liner(design, s);
    common::dissimilar(design, &s.common, &s.tube.material, common::Meets::Shaft, true);
    design.note(&NOT_ALONE, "grease, paint and vibration let it creep: mark its place across clamp and tube, look at the mark, draw the screws again after the first day; where somebody could be hurt when it slips, a pin or a bolt through both holds beside it");
}

fn fits(design: &mut Design, s: &Spec, g: &Grip) {
    let because =
        "a bore that is smaller than the tube is driven on and grips on its lips only: a larger bore, or a closer tube";
    design.at_least(&GOES_OVER, Value::Length(g.clearance.0), Value::Length(Length::ZERO), None, because);
    let wanted = Some(Value::Length(wanted_gap(design.header.unit)));
    let because = "when the gap is shut the screws press the ears on each other and not the ring on the tube: a wider gap, or a closer bore";
    let because = if s.liner.is_some() {
        "when the gap is shut the screws press the ears on each other and not the ring on the tube: a thicker liner, or a wider gap"
    } else {
        because
    };
    design.at_least(&CLOSES, Value::Length(g.gap_left), Value::Length(Length::um(10.0)), wanted, because);
}

fn slips(design: &mut Design, s: &Spec, g: &Grip) {
    let Some((asked, safety)) = g.asked else { return };
    common::printed_under_load(design, &[&s.common.material]);
    let mut because =
        "dry and clean, two lines of contact; oil halves it: larger screws, more of them, a closer bore".to_string();
    if let Some(most) = g.bore_at_most {
        because =
            format!("{because}; a bore of {} at most leaves the grip that is asked for", design.say().length(most));
    }
    let wanted = Some(Value::Force(asked * safety));
    design.at_least(&SLIPS, Value::Force(g.slips), Value::Force(asked), wanted, because);
}

fn closing(design: &mut Design, s: &Spec, g: &Grip) {
    if s.parted == Parted::InHalves {
        return;
    }
    let Some(to_close) = g.to_close else {
        let because = "so thick a ring does not bend as a thin one: what closing it takes of the screws is not told and not counted; bore it to the tube as it is, or take two halves";
        design.finding(&STIFF, Verdict::Caution, None, None, because);
        return;
    };
    design.finding(&STIFF, Verdict::Ok, None, None, "it bends as a thin ring, and what that takes is counted");
    let half = Value::Force(g.pull.0 * 0.5);
    let because = "what bends the ring is lost to the grip: a closer bore, a thinner ring, or two halves";
    design.at_most(&TAKES, Value::Force(to_close), Value::Force(g.pull.0), Some(half), because);
}

fn stresses(design: &mut Design, s: &Spec, g: &Grip) {
    let material = &s.common.material;
    if let Some(strength) = material.yield_strength {
        let because = "an ear that bends stays bent, and its screw with it: thicker, or the screws closer to the ring";
        design.at_most(&EAR, Value::Stress(g.ear), Value::Stress(strength), None, because);
        if let Some(stress) = g.ring {
            ring(design, &RING, stress, strength, String::new());
        }
        match s.opened {
            Some(_) => common::doubtful_strength(design, material),
            None => common::strength_of_plate(design, material),
        }
    }
    if let (Some(stress), Some(strength)) = (g.tube, s.tube.material.yield_strength) {
        let wanted: Stress = strength * 0.5;
        let because = "an uneven squeeze, in two lines, does more: half of the yield strength leaves room; a wider clamp, less torque, or a plug in the tube";
        design.at_most(&TUBE, Value::Stress(stress), Value::Stress(strength), Some(Value::Stress(wanted)), because);
        common::doubtful_strength(design, &s.tube.material);
    }
}

/// Whether the back of the ring stays what it is when it is drawn shut.
pub fn ring(design: &mut Design, check: &'static Check, stress: Stress, strength: Stress, of: String) {
    let most = strength * PLASTIC;
    let because = "the outer fibre may yield once; beyond half as much again the back is a hinge that stays bent, and cracks when it is opened often: a closer bore, a thinner ring, a stronger steel";
    let verdict = if stress > most { Verdict::Caution } else { Verdict::Ok };
    let limit = Limit::AtMost(Value::Stress(most));
    design.finding(check, verdict, Some(Value::Stress(stress)), limit, of + because);
}

fn metal(design: &mut Design, s: &Spec) {
    let unit = design.header.unit;
    let wall = ((s.outside.value - s.bore.diameter) / 2.0).rounded();
    let wanted = (s.bore.diameter * 0.1).max(by_unit(unit, 3.0, 0.12)).rounded();
    let because = "a thinner ring gives way before it grips, and a drill that grabs in it tears it";
    design.at_least(
        &WALL,
        Value::Length(wall),
        Value::Length((wanted * 0.5).rounded()),
        Some(Value::Length(wanted)),
        because,
    );
    let to_screw = (s.distance() - s.screw.clearance / 2.0 - s.bore.diameter / 2.0).rounded();
    let because = "a bore that comes near the screw leaves a lip that folds: screws further out";
    let (least, wanted) = (by_unit(unit, 0.5, 0.02), by_unit(unit, 1.5, 0.06));
    design.at_least(&TO_SCREW, Value::Length(to_screw), Value::Length(least), Some(Value::Length(wanted)), because);
    let (from, to) = s.flat();
    let beside = (s.distance() - from).min(to - s.distance()).rounded();
    let washer = (s.screw.thread.major * WASHER).rounded();
    let because = "a head that hangs over the flat bends its screw: taller ears, a smaller screw, or spot-face the ear";
    let head = (s.screw.thread.major * HEAD).rounded();
    design.at_least(&SEAT, Value::Length(beside), Value::Length(head), Some(Value::Length(washer)), because);
}

/// Half of a washer and half of a socket head, in threads. Source: ISO 7089 and ISO 4762, M5 to M24, from memory.
const WASHER: f64 = 1.0;
const HEAD: f64 = 0.8;

/// Whether the step goes through before the next one enters.
fn drill(design: &mut Design, s: &Spec) {
    let Some(o) = &s.opened else { return };
    let last = o.steps.value.last().is_some_and(|d| (*d - s.bore.diameter).abs() < Length::um(1.0));
    let idle = o.idle();
    let (verdict, because) = if idle > 0 {
        (Verdict::Ok, "they lie in the bore before the first edge bites")
    } else {
        (
            Verdict::Caution,
            "the first step bites unguided and catches in the slit: list the smaller steps of a drill that has them, or bore it on the lathe",
        )
    };
    design.finding(&GUIDED, verdict, Some(Value::Count(idle)), Limit::AtLeast(Value::Count(1)), because);
    let width = Value::Length(s.width.value.rounded());
    if last {
        let because = "it is the drill's last step, behind which the shank follows: from one side, to the end";
        design.finding(&REACHES, Verdict::Ok, Some(width), Limit::None, because);
        return;
    }
    let because = "from each side a step cuts as deep as it is high, then the next one enters: a drill with higher steps, one that ends with this step, or bore it on the lathe";
    design.at_most(&REACHES, width, Value::Length((o.height.value * 2.0).rounded()), None, because);
}

/// Whether the tool that makes the bore keeps within the limits that are asked of it.
fn bore_held(design: &mut Design, s: &Spec) {
    let limits = design.dimension(&sizes::BORE).and_then(|d| d.limits.as_ref());
    let Some(width) = limits.map(|l| (l.upper - l.lower).rounded()) else { return };
    let of = |process| processes::at_best(process, s.bore.diameter, s.width.value).map(|held| held.value.rounded());
    let (held, because) = if s.opened.is_some() {
        (
            Some(step_drill::SIZE_HELD * 2.0),
            "a step drill cuts so near to its step at best: a coarser class, none at all, or bore it on the lathe, without [opened]",
        )
    } else if s.common.material.printed {
        (of(Process::Printed), "a print holds no closer limits: a coarser class, or print it small and bore it")
    } else {
        (of(Process::Bored), "a boring tool holds no closer limits here: a coarser class")
    };
    let Some(held) = held else { return };
    let (verdict, because) = if width >= held {
        (Verdict::Ok, "what makes the bore keeps within its limits")
    } else {
        (Verdict::Caution, because)
    };
    design.finding(&BORE_HELD, verdict, Some(Value::Length(width)), Limit::AtLeast(Value::Length(held)), because);
}

fn liner(design: &mut Design, s: &Spec) {
    let Some(l) = &s.liner else { return };
    let unit = design.header.unit;
    let limits = design.dimension(&sizes::LINER_WALL).and_then(|d| d.limits.as_ref());
    let wall = limits.map_or_else(|| s.liner_wall(l), |limits| limits.lower).rounded();
    let because = "a thinner sleeve cannot be turned: roll it from sheet of that thickness, its joint in the slit";
    let (least, wanted) = (by_unit(unit, 0.3, 0.012), by_unit(unit, 1.0, 0.04));
    design.at_least(&LINER, Value::Length(wall), Value::Length(least), Some(Value::Length(wanted)), because);
}
