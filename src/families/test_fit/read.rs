//! Reading a try-out's part file.

use crate::description::{Fields, Taken};
use crate::families::Workplace;
use crate::families::common::{self, Common};
use crate::record::key::{Given, Key, Kind};
use crate::units::{Angle, Length};

pub const KIND: Key = Key::new(
    "kind",
    "kind",
    Kind::Choice(&["holes", "pins", "slots", "feelers", "angle", "plug", "ring"]),
    "a ladder of \"holes\", \"pins\" or \"slots\", a stair of \"feelers\", a flat gauge for an \"angle\", a \"plug\" or \"ring\" gauge",
);
pub const NOMINAL: Key = Key::new(
    "nominal",
    "nominal size",
    Kind::POSITIVE,
    "middle of the ladder, first tread of a stair, or the size that is gauged, such as \"20 mm\"",
);
pub const STEP: Key = Key::new("step", "step", Kind::POSITIVE, "from rung to rung, such as \"0.1 mm\"");
pub const NUMBER: Key = Key::new("number", "rungs", Kind::Count { min: 2, max: 25 }, "how many, such as 7");
pub const THICKNESS: Key = Key::new(
    "thickness",
    "thickness",
    Kind::POSITIVE,
    "of the strip or plate, or how wide a stair is, such as \"5 mm\"",
);
pub const LENGTH: Key = Key::new(
    "length",
    "length",
    Kind::POSITIVE,
    "of a pin, a slot or a tread, or the height of a gauging edge, such as \"20 mm\"",
);
pub const CLASS: Key = Key::new(
    "class",
    "class that is gauged",
    Kind::Text,
    "tolerance class of the bore (plug) or the shaft (ring), such as \"H11\" or \"h11\"",
);
pub const HALF_ANGLE: Key =
    Key::new("half_angle", "half-angle", Kind::HALF_ANGLE, "of the cone that is gauged, such as \"30 deg\"");
pub const TRIED_WITH: Key = Key::new(
    "tried_with",
    "tried with",
    Kind::POSITIVE,
    "the mate as measured that was tried on the ladder, such as \"20.00 mm\"",
);
pub const FITS_AT: Key = Key::new(
    "fits_at",
    "fits at",
    Kind::Count { min: 1, max: 25 },
    "number of the smallest hole that takes it, or of the largest pin that goes in, such as 5",
);

#[rustfmt::skip]
pub const KEYS: &[Key] = &[
    common::FAMILY, common::NAME, common::COUNT, common::MATERIAL, common::UNITS, common::NOTE, common::GENERAL_TOLERANCE,
    common::MEASURED, KIND, NOMINAL, STEP, NUMBER, THICKNESS, LENGTH, CLASS, HALF_ANGLE, TRIED_WITH, FITS_AT,
];

/// What has rungs.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Ladder {
    /// Holes in a strip.
    Holes,
    /// Pins, each on its own foot.
    Pins,
    /// Slots in a strip.
    Slots,
    /// Treads of a stair.
    Treads,
}

/// What was tried on it.
pub struct Tried {
    pub with: Given<Length>,
    pub fits_at: Given<u32>,
}

/// The try-out.
pub enum Made {
    /// A ladder: its rungs from the smallest.
    Ladder { kind: Ladder, step: Length, rungs: Vec<Length>, length: Length, thickness: Length, tried: Option<Tried> },
    /// A flat gauge that stands beside a cone.
    Edge { half_angle: Given<Angle>, height: Length, thickness: Length },
    /// A plug gauge for a bore, or two ring gauges for a shaft.
    Limits { plug: bool, nominal: Given<Length>, class: Given<String> },
}

/// Sizes as they were written, where they were.
#[derive(Default)]
pub struct Written {
    pub nominal: Option<Given<Length>>,
    pub step: Option<Given<Length>>,
    pub number: Option<Given<u32>>,
    pub length: Option<Given<Length>>,
    pub thickness: Option<Given<Length>>,
}

/// What the file says.
pub struct Spec {
    pub common: Common,
    pub made: Made,
    pub written: Written,
}

/// Reads the file; every problem is noted, `None` if one stands in the way.
pub fn read(fields: &Fields, place: &Workplace) -> Option<Spec> {
    let common = common::read(fields, place, "test-fit", "PLA")?;
    let kind = fields.required_choice(&KIND)?;
    let ladder = match kind.value {
        "holes" => Some(Ladder::Holes),
        "pins" => Some(Ladder::Pins),
        "slots" => Some(Ladder::Slots),
        "feelers" => Some(Ladder::Treads),
        _ => None,
    };
    let written = Written {
        nominal: fields.length(&NOMINAL),
        step: fields.length(&STEP),
        number: fields.count(&NUMBER),
        length: fields.length(&LENGTH),
        thickness: fields.length(&THICKNESS),
    };
    let made = match (ladder, kind.value) {
        (Some(kind), _) => self::ladder(fields, &common, kind, &written),
        (None, "angle") => edge(fields, &written),
        (None, word) => limits(fields, word == "plug"),
    };
    Some(Spec { made: made?, common, written })
}

fn ladder(fields: &Fields, common: &Common, kind: Ladder, written: &Written) -> Option<Made> {
    common::not_here(fields, &[&CLASS, &HALF_ANGLE], "it is that of a gauge: kind = \"plug\", \"ring\" or \"angle\"");
    if kind == Ladder::Treads && !common.material.printed {
        let help = "print it, or take the feeler gauges that are sold";
        fields.problem_at(&KIND, "no stair of feelers is cut from plate".into(), Some(help.into()));
        return None;
    }
    let nominal = fields.required_length(&NOMINAL);
    let usual_step = if kind == Ladder::Treads { common.printer.layer } else { Length::mm(0.1) };
    let step = written.step.as_ref().map_or(usual_step, |s| s.value);
    let number = written.number.as_ref().map_or(7, |n| n.value);
    fields.left_out(&STEP, Taken::Length(step), "a step that is felt");
    fields.left_out(&NUMBER, Taken::Count(number), "usual");
    let nominal = nominal?;
    let first = match kind {
        Ladder::Treads => nominal.value,
        _ => nominal.value - step * (f64::from(number - 1) / 2.0),
    };
    if first <= Length::ZERO {
        let help = "a smaller step, fewer rungs, or a larger nominal size";
        fields.problem_at(&NOMINAL, "the smallest rung would be nought or less".into(), Some(help.into()));
        return None;
    }
    let rungs: Vec<Length> = (0..number).map(|i| (first + step * f64::from(i)).rounded()).collect();
    let largest = rungs.last().copied().unwrap_or(first);
    let usual_length = match kind {
        Ladder::Holes => Length::ZERO,
        Ladder::Pins => (largest * 1.5).max(Length::mm(12.0)),
        Ladder::Slots => (largest * 3.0).max(Length::mm(20.0)),
        Ladder::Treads => Length::mm(10.0),
    };
    let length = written.length.as_ref().map_or(usual_length, |l| l.value);
    let usual_thickness = if kind == Ladder::Treads { Length::mm(15.0) } else { Length::mm(5.0) };
    match kind {
        Ladder::Holes => common::not_here(fields, &[&LENGTH], "a hole goes through the strip"),
        Ladder::Pins => common::not_here(fields, &[&THICKNESS], "a pin stands on its own foot"),
        Ladder::Slots | Ladder::Treads => {}
    }
    if kind != Ladder::Holes {
        fields.left_out(&LENGTH, Taken::Length(length), "long enough to try the mate");
    }
    let thickness = written.thickness.as_ref().map_or(usual_thickness, |t| t.value);
    if kind != Ladder::Pins {
        fields.left_out(&THICKNESS, Taken::Length(thickness), "usual");
    }
    let tried = tried(fields, kind, number)?;
    Some(Made::Ladder { kind, step, rungs, length, thickness, tried })
}

/// What was tried; inner `None` where nothing is written, `None` where a problem was noted.
fn tried(fields: &Fields, kind: Ladder, number: u32) -> Option<Option<Tried>> {
    if !fields.has(&TRIED_WITH) && !fields.has(&FITS_AT) {
        return Some(None);
    }
    if kind == Ladder::Treads {
        common::not_here(fields, &[&TRIED_WITH, &FITS_AT], "a stair of feelers is measured, nothing fits it");
        return None;
    }
    let with = fields.required_length(&TRIED_WITH);
    let Some(fits_at) = fields.count(&FITS_AT) else {
        fields.missing("which rung it fits is missing", Some("fits_at = 5, counted from the smallest, which is 1"));
        return None;
    };
    let with = with?;
    if fits_at.value > number {
        let message = format!("there are {number} rungs");
        fields.problem_at(&FITS_AT, message, Some("counted from the smallest, which is 1".into()));
        return None;
    }
    Some(Some(Tried { with, fits_at }))
}

fn edge(fields: &Fields, written: &Written) -> Option<Made> {
    let none = [&NOMINAL, &STEP, &NUMBER, &CLASS, &TRIED_WITH, &FITS_AT];
    common::not_here(fields, &none, "a flat gauge for an angle has half_angle, length and thickness");
    let half_angle = fields.required_angle(&HALF_ANGLE);
    let height = written.length.as_ref().map_or(Length::mm(40.0), |l| l.value);
    let thickness = written.thickness.as_ref().map_or(Length::mm(3.0), |t| t.value);
    fields.left_out(&LENGTH, Taken::Length(height), "usual");
    fields.left_out(&THICKNESS, Taken::Length(thickness), "thin enough to see light");
    Some(Made::Edge { half_angle: half_angle?, height, thickness })
}

fn limits(fields: &Fields, plug: bool) -> Option<Made> {
    let none = [&STEP, &NUMBER, &THICKNESS, &LENGTH, &HALF_ANGLE, &TRIED_WITH, &FITS_AT];
    common::not_here(fields, &none, "a plug or a ring has nominal and class");
    let (nominal, class) = (fields.required_length(&NOMINAL), fields.required_text(&CLASS));
    Some(Made::Limits { plug, nominal: nominal?, class: class? })
}
