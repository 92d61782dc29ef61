//! The float as it was felt after fitting, and the shim that comes next.

use crate::description::Fields;
use crate::families::Workplace;
use crate::formulas::shims;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::key::Size;
use crate::record::reading::{Decision, Reading};
use crate::record::show::Say;
use crate::source::Source;
use crate::units::Length;

use super::read;
use super::sizes;

const NEXT: Check = Check {
    key: "next_shim",
    what: "shim that comes next by the float as measured, and the one that is in",
    worst: Verdict::Caution,
    source: Source::Derived("float = gap - shims: what the float is too much, the shims are too little"),
};

fn counted(design: &Design, size: &Size, piece: u32) -> Option<Reading> {
    design.dimension(size)?.measured().into_iter().find(|r| r.piece == piece).cloned()
}

/// Says which shim comes next after the float was measured.
pub fn findings(design: &mut Design, fields: &Fields, place: &Workplace) {
    let Some(s) = read::read(fields, place) else { return };
    let count = s.sides.count() as u32;
    for piece in 1..=design.header.count {
        let Some(float) = counted(design, &sizes::FLOAT_NOMINAL, piece) else { continue };
        let (Some(target), Some(drawn)) = (length(design, &sizes::FLOAT_NOMINAL), length(design, &sizes::WIDTH)) else {
            return;
        };
        let (inside, known) = match counted(design, &sizes::WIDTH, piece) {
            Some(r) => (Length::mm(r.value.number()), "as measured"),
            None => (drawn, "as drawn"),
        };
        let Ok(next) = shims::next_width(inside, Length::mm(float.value.number()), target, count) else { continue };
        let say = Say(design.header.unit);
        let wide = say.length(next.rounded());
        let (verdict, asks) = match float.decision {
            Some(Decision::Accept) => (Verdict::Ok, None),
            Some(Decision::Reject) if next <= Length::ZERO => (
                Verdict::Caution,
                Some("no shim brings it there: the members are too close; measure the gap".to_string()),
            ),
            Some(Decision::Reject) => (
                Verdict::Caution,
                Some(format!("put in a shim of {wide}: the float is then in the middle of its range")),
            ),
            _ => (
                Verdict::Caution,
                Some(format!("a shim of {wide} puts the float in the middle; or measure it with a dial indicator")),
            ),
        };
        let said = asks.clone().unwrap_or_else(|| "the shim stays".into());
        let because = format!(
            "float {} on a shim of {} ({known}){}: {said}",
            say.length(Length::mm(float.value.number())),
            say.length(inside),
            change(design, piece, &say)
        );
        let what = if design.header.count > 1 { format!("{}, piece {piece}", NEXT.what) } else { NEXT.what.into() };
        design.told(
            &NEXT,
            what,
            verdict,
            (Value::Length(next.rounded()), Limit::Against(Value::Length(inside.rounded()))),
            because,
            asks,
        );
    }
}

fn length(design: &Design, size: &Size) -> Option<Length> {
    match design.dimension(size).map(|d| &d.value) {
        Some(Value::Length(l)) => Some(*l),
        _ => None,
    }
}

/// What the float has done since it was last measured on another day, where both readings together can tell.
fn change(design: &Design, piece: u32, say: &Say) -> String {
    let readings = design.dimension(&sizes::FLOAT_NOMINAL).map(|d| d.readings.as_slice()).unwrap_or_default();
    let of: Vec<&Reading> = readings.iter().filter(|r| r.piece == piece && r.on.is_some()).collect();
    let [.., before, now] = of.as_slice() else { return String::new() };
    let (Some(first), Some(last)) = (before.on, now.on) else { return String::new() };
    let by = now.value.number() - before.value.number();
    let u = libm::hypot(before.u.number(), now.u.number());
    if first == last || now.after_cut || by.abs() <= u {
        return String::new();
    }
    let way = if by > 0.0 { "more" } else { "less" };
    format!(", {} ± {} {way} than on {first}", say.length(Length::mm(by.abs())), say.length(Length::mm(u)))
}
