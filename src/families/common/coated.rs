//! The coating of a part and where it stands, told in one way for every family: what was written, what each size becomes,
//! what is ordered from whoever coats it.

use crate::record::design::{Check, Design, Limit, Limits, Table, Value, Verdict};
use crate::record::key::Size;
use crate::record::show;
use crate::source::Source;
use crate::standards::coatings;
use crate::standards::galvanic::Environment;
use crate::standards::threads::Thread;
use crate::units::Length;

use crate::families::common::{self, Coating, Common, Side};

use super::sizes;

const BARE: Check =
    Check { key: "bare_steel", what: "steel without a coating", worst: Verdict::Ok, source: Source::CommonPractice };
const CLASS: Check = Check {
    key: "coating_class",
    what: "thickness that the zinc class is meant for",
    worst: Verdict::Caution,
    source: Source::Published("ISO 1461, table of least films by thickness of the steel"),
};
const HOLE: Check = Check {
    key: "coated_hole",
    what: "hole with the film in it, against what goes through",
    worst: Verdict::Fail,
    source: Source::Derived("a film on the wall takes twice its thickness off the diameter"),
};
const THREAD: Check = Check {
    key: "coated_thread",
    what: "how far a film closes the thread, against the play that its bolt is made with",
    worst: Verdict::Ok,
    source: Source::Derived(
        "a film t square to flanks of 60 degrees moves the pitch diameter by 2 t/sin 30 deg = 4 t; play: 6g of ISO 965-1, 2A of ASME B1.1",
    ),
};

/// What the family adds to the order.
#[derive(Default)]
pub struct Order<'a> {
    /// A recorded length, and whether the film closes it or makes it larger.
    pub sizes: &'a [(&'a Size, Side)],
    /// Recorded lengths between a coated face and one that stays bare: one film.
    pub one_face: &'a [&'a Size],
    /// What is kept free of the film, one sentence; empty for nothing.
    pub masked: &'a str,
    /// It is welded on first.
    pub welded: bool,
}

/// Records where the part stands and what it is coated with.
pub fn record(design: &mut Design, common: &Common) {
    let key = &common::ENVIRONMENT;
    match &common.environment_written {
        Some(written) => {
            design.given(key, written, |word| Value::Text(word.into()));
        }
        None => {
            let place = Value::Text(common.environment.name().into());
            design.assumed(&key.size(), place, "not written: the worst of the three");
        }
    }
    let Some(coating) = &common.coating else {
        if common.material.magnetic && common.environment == Environment::Harsh {
            design.note(
                &BARE,
                "bare steel rusts outdoors: keep what locates or runs greased, and coat or paint the rest",
            );
        }
        return;
    };
    design.given_text(&common::COATING, &coating.written);
    if let Some(thickness) = &coating.thickness {
        design.given_length(&common::COATING_THICKNESS, thickness);
    }
    design.computed_length(
        &sizes::COATING_GROWTH,
        coating.growth,
        "film, or half of it where it grows inward (anodise)",
    );
    let (lower, upper, by) = (coating.least.rounded(), coating.growth.rounded(), coating.by.clone());
    design.range(&sizes::COATING_GROWTH, Limits { lower, upper, by, confirmed: coating.confirmed });
}

/// The sizes before and after coating, and the order; nothing for a bare part.
pub fn order(design: &mut Design, common: &Common, order: &Order) {
    let Some(coating) = &common.coating else { return };
    let tabled = sizes_table(design, coating, order);
    let unit = common.header.unit;
    let text = |l: Length| show::length_both(l.rounded(), unit);
    let film = match (coating.least == coating.growth, coating.least_only) {
        (true, true) => format!("at least {}", text(coating.growth)),
        (true, false) => text(coating.growth),
        (false, true) => format!("at least {}, mean at least {}", text(coating.least), text(coating.growth)),
        (false, false) => format!("{} to {}", text(coating.least), text(coating.growth)),
    };
    let welded = if order.welded { "After welding, with what it is welded to. " } else { "" };
    let baked = if common.material.hardened && coating.name.starts_with("zinc plate") {
        " The steel is hard: have it baked at once, against hydrogen, as ISO 9588 says (from memory), or it cracks later."
    } else {
        ""
    };
    let bath = if coating.hot_dip {
        " No closed hollow goes into the bath: it bursts. Afterwards knock off lumps and runs where it bears."
    } else {
        ""
    };
    let masked = if order.masked.is_empty() { String::new() } else { format!(" {}", order.masked) };
    let told = if tabled { "; the table says what they become." } else { "." };
    let pieces = match design.header.count {
        1 => "One piece".to_string(),
        count => format!("{count} pieces"),
    };
    let line = format!(
        "{welded}{pieces}, {}: {film} that each surface grows ({}). All sizes of the drawing are before coating{told}{masked}{baked}{bath}",
        coating.name, coating.by
    );
    let step = design.step_before_fixing(maker(&coating.name), line);
    if tabled {
        step.table(sizes::COATED_TABLE);
    }
}

/// Who coats it.
fn maker(coating: &str) -> &'static str {
    match coating {
        "paint" => "bench",
        "powder coat" => "powder coater",
        hot if hot.starts_with("hot-dip") => "galvanizer",
        _ => "plater",
    }
}

/// Limits with the film on: what is outside grows by two films, a hole closes by two.
/// Source: geometry.
pub fn with_film((lower, upper): (Length, Length), coating: &Coating, side: Side) -> (Length, Length) {
    let (least, most) = (coating.least * 2.0, coating.growth * 2.0);
    match side {
        Side::Shaft => (lower + least, upper + most),
        Side::Hole => (lower - most, upper - least),
    }
}

fn sizes_table(design: &mut Design, coating: &Coating, order: &Order) -> bool {
    let row = |size: &Size, side: Option<Side>| {
        let dimension = design.dimension(size)?;
        let Value::Length(size) = dimension.value else { return None };
        let before = dimension.limits.as_ref().map_or((size, size), |l| (l.lower, l.upper));
        let one_film = (before.0 + coating.least, before.1 + coating.growth);
        let after = side.map_or(one_film, |side| with_film(before, coating, side));
        let lengths = [before.0, before.1, after.0, after.1].map(|l| Value::Length(l.rounded()));
        Some(std::iter::once(Value::Text(dimension.label.clone())).chain(lengths).collect())
    };
    let both = order.sizes.iter().filter_map(|(size, side)| row(size, Some(*side)));
    let rows: Vec<Vec<Value>> = order.one_face.iter().filter_map(|size| row(size, None)).chain(both).collect();
    let any = !rows.is_empty();
    let open = if coating.least_only { " (a thicker film shifts them further)" } else { "" };
    design.tabulate(Table::new(
        sizes::COATED_TABLE,
        format!("Sizes before and after {}{open}", coating.name),
        &["size", "before, least", "before, most", "coated, least", "coated, most"],
        rows,
    ));
    any
}

/// Says whether the zinc class goes with the thickness of the steel.
pub fn class_for(design: &mut Design, common: &Common, thickness: Length) {
    let Some(coating) = common.coating.as_ref().filter(|c| c.hot_dip && !c.name.contains("casting")) else { return };
    let Some(wanted) = coatings::hot_dip_zinc(thickness) else { return };
    let (verdict, because) = if wanted.name == coating.name {
        (Verdict::Ok, "the class is the one for steel so thick".to_string())
    } else {
        (Verdict::Caution, format!("for steel so thick ISO 1461 has another film: write coating = \"{}\"", wanted.name))
    };
    design.finding(&CLASS, verdict, Some(Value::Length(thickness.rounded())), Limit::None, because);
}

/// A hole that something must still pass when it is coated.
pub fn passes(design: &mut Design, common: &Common, hole: &Size, through: Length, what: &str) {
    let Some(coating) = common.coating.as_ref().filter(|c| c.growth > Length::ZERO) else { return };
    let Some(Value::Length(size)) = design.dimension(hole).map(|d| d.value.clone()) else { return };
    let least = design.dimension(hole).and_then(|d| d.limits.as_ref()).map_or(size, |l| l.lower);
    let (left, _) = with_film((least, least), coating, Side::Hole);
    let because = format!("{what} must go through once the hole is coated: a larger hole, a thinner film, or plug it");
    design.at_least(&HOLE, Value::Length(left.rounded()), Value::Length(through.rounded()), None, because);
}

/// A tapped hole: how far the film closes it, and what a bolt that is itself hot-dipped asks for. Gives the sentence for the
/// order.
pub fn tapped(design: &mut Design, common: &Common, thread: &Thread) -> String {
    let Some(coating) = common.coating.as_ref().filter(|c| c.growth > Length::ZERO) else { return String::new() };
    let closes =
        design.computed_length(&sizes::THREAD_CLOSES, coating.growth * 4.0, "4 x film on flanks of 60 degrees");
    let play = thread.bolt_allowance().rounded();
    let tight = closes > play;
    let because = if tight {
        "the bolt would not go in: the hole is plugged while it is coated, as the order says"
    } else {
        "the bolt still goes in"
    };
    design.finding(&THREAD, Verdict::Ok, Some(Value::Length(closes)), Limit::Against(Value::Length(play)), because);
    let unit = common.header.unit;
    let mut said = if tight {
        format!("Plug the tapped hole {thread}; where film got in, chase it with the tap and grease it.")
    } else {
        String::new()
    };
    if let Some(more) = thread.oversize_for_hot_dip().filter(|_| coating.hot_dip) {
        let more = design.computed_length(&sizes::THREAD_OVERSIZE, more.value, more.source);
        said = format!(
            "{said} A bolt that is itself hot-dipped (ISO 10684) wants the thread tapped oversize, {} more on the pitch diameter; a plain or stainless bolt does not.",
            show::length_both(more, unit)
        );
    }
    said.trim().to_string()
}
