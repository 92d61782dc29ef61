//! How bolted parts are drawn tight: pull of the bolts, torque for each state of their threads, and whether the thread that
//! they go into holds them.

use super::bolt_length::Stack;
use super::fasteners::Head;
use crate::formulas::bolts::{self, BoltClass, SCATTER, SHARE};
use crate::record::design::{Check, Design, Table, Value};
use crate::record::show;
use crate::record::wants::Bolts;
use crate::shop::Material;
use crate::source::Source;
use crate::standards::threads::Thread;
use crate::units::{Force, Length, LengthUnit, Torque};

use super::sizes;

const ENGAGED: Check = Check {
    key: "thread_strips",
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
    /// Their head.
    pub head: Head,
    /// Their steel.
    pub class: BoltClass,
    /// Their thread.
    pub thread: Thread,
    /// So many for one part.
    pub count: usize,
    /// The part whose thread they go into, and how deep that is full; none where they go into a nut.
    pub into: Option<(&'a Material, Length)>,
    /// What they go through.
    pub stack: Stack,
    /// What could be tapped in place of the nuts.
    pub tapped_instead: Option<&'a Material>,
}

impl Bolted<'_> {
    /// As they are ordered, with what goes with them: `4 hex bolts M10 × 35, class 8.8, with nut (class 8) and 2 washers each`.
    pub fn ordered(&self) -> String {
        let class = self.class.name;
        let class =
            if class.starts_with(|c: char| c.is_ascii_digit()) { format!("class {class}") } else { class.into() };
        let washers =
            if self.stack.washers == 1 { "a washer".into() } else { format!("{} washers", self.stack.washers) };
        let with = if self.into.is_some() { washers } else { format!("nut ({}) and {washers}", self.class.nut()) };
        let each = if self.count > 1 { " each" } else { "" };
        let head = self.head.name();
        let bolts = if self.count > 1 { format!("{} {head}s", self.count) } else { format!("a {head}") };
        format!("{bolts} {}, {class}, with {with}{each}", self.stack.ordered(&self.thread))
    }
}

/// Torque of a bolt in words, in both units, and the state of thread and head for which it holds.
pub fn tightening(b: &Bolted, unit: LengthUnit) -> Option<([String; 2], &'static str)> {
    let (state, factor) = state(&b.class);
    torque(b, factor).map(|t| (in_words(t, unit), state))
}

/// States of thread and underside of the head, with their nut factor. Source: IFI charts of torques (0.20 plain, 0.15
/// oiled or plated); paste 0.12, from memory.
const STATES: [(&str, f64); 3] = [("dry, as delivered", 0.20), ("oiled", 0.15), ("anti-seize paste", 0.12)];

/// The state in which they are drawn tight here: steel oiled, stainless with paste, since it galls.
fn state(class: &BoltClass) -> (&'static str, f64) {
    let [_, oiled, paste] = STATES;
    if class.stainless() { paste } else { oiled }
}

/// Pull of one of them when it is tight.
pub fn pull(b: &Bolted) -> Option<Force> {
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
    torques(design, &[b]);
    let [least, most] = [1.0 - SCATTER, 1.0 + SCATTER].map(|of| show::value(&Value::Force(pull * of), unit));
    design.note(&TORQUE, format!(
        "the same torque pulls {least} to {most}, since friction differs; oil and anti-seize lower it: with the dry torque they overdraw the bolt"
    ));
    b.stack.record(design, &b.thread);
    bought(design, b);
    engaged(design, b, pull);
    tapped_instead(design, b, pull);
}

/// Torque of one bolt of each kind in every state of its thread; the kinds are named where there are several.
pub fn torques(design: &mut Design, kinds: &[&Bolted<'_>]) {
    let unit = design.header.unit;
    let mut named: Vec<(String, &Bolted<'_>)> = Vec::new();
    for b in kinds {
        let name = format!("{}, {}", b.thread, b.class.name);
        if !named.iter().any(|(other, _)| *other == name) {
            named.push((name, b));
        }
    }
    let several = named.len() > 1;
    let row = |name: &str, b: &Bolted<'_>, (state, factor): (&str, f64)| {
        let [first, other] = in_words(torque(b, factor)?, unit).map(Value::Text);
        let cells = [Value::Text(state.into()), Value::Number(factor), first, other];
        Some(several.then(|| Value::Text(name.into())).into_iter().chain(cells).collect())
    };
    let rows: Vec<Vec<Value>> =
        named.iter().flat_map(|(name, b)| STATES.into_iter().filter_map(move |state| row(name, b, state))).collect();
    let columns: &[&str] = if several {
        &["bolts", "state", "nut factor", "torque", "other unit"]
    } else {
        &["state", "nut factor", "torque", "other unit"]
    };
    if !rows.is_empty() {
        let title = "Torque of one bolt by the state of its thread and of the face under its head";
        design.tables.push(Table::new(sizes::TIGHTENING_TABLE, title, columns, rows));
    }
}

/// The bolts as they are laid out for each part of that name.
pub fn laid_out(b: &Bolted, what: &str) -> String {
    format!("{} for each {what}", b.ordered())
}

/// Records what is bought for it; the torque and the state for which it holds stand beside it.
pub fn bought(design: &mut Design, b: &Bolted) {
    let torque = tightening(b, design.header.unit).map(|(words, state)| (words.join(" / "), state.to_string()));
    let own = design.header.material.iter().cloned();
    let others = b.into.iter().map(|(material, _)| *material).chain(b.tapped_instead).map(|m| m.name.clone());
    let grip = b.stack.wall.map(|wall| (wall + b.stack.past_the_wall_without_nut(&b.thread)).rounded());
    design.wants.bolts.push(Bolts {
        what: format!("{} {}", b.head.name(), b.stack.ordered(&b.thread)),
        thread: b.thread.to_string(),
        class: b.class.name.into(),
        stainless: b.class.stainless(),
        each: u32::try_from(b.count).unwrap_or(u32::MAX),
        nut: b.into.is_none().then(|| b.class.nut().to_string()),
        washers: b.stack.washers,
        grip,
        torque,
        touches: own.chain(others).collect(),
        laid_out: b.ordered(),
    });
    let paste = if b.class.stainless() { "anti-seize paste" } else { "oil for threads" };
    design.wants.uses(paste, "bolts, thread and face under the head");
}

/// Holds the thread that the bolts go into against the pull of one.
pub fn engaged(design: &mut Design, b: &Bolted, pull: Force) {
    let Some((material, depth)) = b.into else { return };
    let Some(strength) = material.yield_strength else { return };
    let needed = |pull: Force| bolts::engagement(pull, b.thread.major, strength).ok().map(Length::rounded);
    let (Some(least), Some(wanted)) = (needed(pull), needed(pull * (1.0 + SCATTER))) else { return };
    let because = format!(
        "the thread in {} strips before the bolt of class {} is tight: deeper, a larger bolt, or a softer one with less torque",
        material.name, b.class.name
    );
    let wanted = Some(Value::Length(wanted));
    let depth = b.stack.engaged(&b.thread).unwrap_or(depth);
    design.at_least(&ENGAGED, Value::Length(depth.rounded()), Value::Length(least), wanted, because);
}

/// Thread that carries the bolts where they go into a tapped frame: with nuts of the class that goes with them, the nut
/// carries what the bolt does (ISO 898-2).
fn tapped_instead(design: &mut Design, b: &Bolted, pull: Force) {
    let Some(strength) = b.tapped_instead.and_then(|m| m.yield_strength) else { return };
    let Ok(needed) = bolts::engagement(pull * (1.0 + SCATTER), b.thread.major, strength) else { return };
    design.computed_length(&sizes::TAPPED_INSTEAD, needed, "1.3 pull/(0.6 pi d yield/sqrt 3)");
}

/// What draws them tight, as a step says it: `Bolt the cone on with … Draw tight by torque wrench to …`, in so many rounds.
pub fn drawn_tight(design: &mut Design, b: &Bolted, what: &str, rounds: &str) -> Option<String> {
    let ([first, other], state) = tightening(b, design.header.unit)?;
    let long = b.stack.hangs_on(design, &b.thread).map_or_else(String::new, |words| format!(" {words}"));
    Some(format!(
        "Bolt {what} on with {}, thread and face under the head: {state}.{long} Draw tight by torque wrench to {first} ({other}){rounds}.",
        b.ordered()
    ))
}

/// The step that draws them tight.
pub fn step(design: &mut Design, b: &Bolted, what: &str) {
    step_of(design, b, what, what);
}

/// The same where what is bolted on is not what they are counted for: the end plates of a stand.
pub fn step_of(design: &mut Design, b: &Bolted, what: &str, each: &str) {
    let rounds = if b.count > 1 { ", crosswise in two rounds" } else { "" };
    let Some(text) = drawn_tight(design, b, &format!("the {what}"), rounds) else { return };
    design
        .step(
            "bench",
            format!("{text} In any other state take the torque of its row, never that of dry threads on oil or paste."),
        )
        .table(sizes::TIGHTENING_TABLE)
        .tool(laid_out(b, each));
}
