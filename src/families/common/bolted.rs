//! How bolted parts are drawn tight: pull of the bolts, torque for each state of their threads, and whether the thread that
//! they go into holds them.

use crate::formulas::bolts::{self, BoltClass, SCATTER, SHARE};
use crate::record::design::{Check, Design, Table, Value};
use crate::record::show;
use crate::shop::Material;
use crate::source::Source;
use crate::standards::threads::Thread;
use crate::units::{Force, Length, LengthUnit, Torque};

use super::sizes;

const ENGAGED: Check = Check {
    key: "thread_engagement",
    what: "full thread in the part that the bolt goes into",
    worst: crate::record::design::Verdict::Fail,
    source: Source::Derived(
        "shear of the inner thread at yield/sqrt 3: 0.6 pi d for each length; pull of the bolt, and 30 % over it",
    ),
};
const TORQUE: Check = Check {
    key: "torque_spread",
    what: "torque and pull",
    worst: crate::record::design::Verdict::Ok,
    source: Source::Published(
        "VDI 2230: torque wrench, friction estimated, tightening factor 1.6 to 2; nut factors of the IFI charts of torques",
    ),
};

/// Bolts that hold a part.
pub struct Bolted<'a> {
    /// Their steel.
    pub class: BoltClass,
    /// Their thread.
    pub thread: Thread,
    /// So many for one part.
    pub count: usize,
    /// The part whose thread they go into, and how deep that is full; none where they go into a nut or into the frame.
    pub into: Option<(&'a Material, Length)>,
}

/// States of thread and underside of the head, with their nut factor. Source: IFI charts of torques (0.20 plain, 0.15
/// oiled or plated); paste 0.12, from memory.
const STATES: [(&str, f64); 3] = [("dry, as delivered", 0.20), ("oiled", 0.15), ("anti-seize paste", 0.12)];

/// The state in which they are drawn tight here: steel oiled, stainless with paste, since it galls.
fn state(class: &BoltClass) -> (&'static str, f64) {
    let [_, oiled, paste] = STATES;
    if class.stainless() { paste } else { oiled }
}

fn pull(b: &Bolted) -> Option<Force> {
    bolts::preload(b.thread.stress_area(), b.class.proof, SHARE).ok()
}

fn torque(b: &Bolted, nut_factor: f64) -> Option<Torque> {
    bolts::tightening_torque(pull(b)?, b.thread.major, nut_factor).ok()
}

/// A torque as a wrench is set, whole from 10 up, in the unit shown first and in the other.
fn in_words(torque: Torque, unit: LengthUnit) -> [String; 2] {
    let whole = |n: f64| show::trimmed(n, if n < 10.0 { 1 } else { 0 });
    let metric = format!("{} N m", whole(torque.as_newton_metres()));
    let inch = format!("{} lbf ft", whole(torque.as_pound_force_feet()));
    if unit == LengthUnit::Mm { [metric, inch] } else { [inch, metric] }
}

/// Records pull and torques, and checks the thread that the bolts go into.
pub fn record(design: &mut Design, b: &Bolted) {
    let Some(pull) = pull(b) else { return };
    let formula = "0.75 x proof stress x stress area";
    design.computed(&sizes::BOLT_PULL, Value::Force(pull), formula);
    let unit = design.header.unit;
    let row = |(state, factor): (&str, f64)| {
        let [first, other] = in_words(torque(b, factor)?, unit).map(Value::Text);
        Some(vec![Value::Text(state.into()), Value::Number(factor), first, other])
    };
    design.tables.push(Table::new(
        sizes::TIGHTENING_TABLE,
        "Torque of one bolt by the state of its thread and of the face under its head",
        &["state", "nut factor", "torque", "other unit"],
        STATES.into_iter().filter_map(row),
    ));
    let [least, most] = [1.0 - SCATTER, 1.0 + SCATTER].map(|of| show::value(&Value::Force(pull * of), unit));
    design.note(&TORQUE, format!(
        "the same torque pulls {least} to {most}, since friction differs; oil and anti-seize lower it: with the dry torque they overdraw the bolt"
    ));
    engaged(design, b, pull);
}

fn engaged(design: &mut Design, b: &Bolted, pull: Force) {
    let Some((material, depth)) = b.into else { return };
    let Some(strength) = material.yield_strength else { return };
    let needed = |pull: Force| bolts::engagement(pull, b.thread.major, strength).ok().map(Length::rounded);
    let (Some(least), Some(wanted)) = (needed(pull), needed(pull * (1.0 + SCATTER))) else { return };
    let because = format!(
        "the thread in {} strips before the bolt of class {} is tight: deeper, a larger bolt, or a softer one with less torque",
        material.name, b.class.name
    );
    let wanted = Some(Value::Length(wanted));
    design.at_least(&ENGAGED, Value::Length(depth.rounded()), Value::Length(least), wanted, because);
}

/// The step that draws them tight.
pub fn step(design: &mut Design, b: &Bolted, what: &str) {
    let (state, factor) = state(&b.class);
    let Some(torque) = torque(b, factor) else { return };
    let [first, other] = in_words(torque, design.header.unit);
    let torque = format!("{first} ({other})");
    let rounds = if b.count > 1 { ", crosswise in two rounds" } else { "" };
    design
        .step("bench", format!(
            "Bolt the {what} on with {} x {} of class {}, thread and face under the head: {state}. Draw tight by torque wrench to {torque}{rounds}. In any other state take the torque of its row, never that of dry threads on oil or paste.",
            b.count, b.thread, b.class.name
        ))
        .table(sizes::TIGHTENING_TABLE)
        .tool(format!("{} x {} of class {} for each {what}", b.count, b.thread, b.class.name));
}
