//! What the shop measures with: how far its readings can be trusted, told wherever a figure rests on it.

use crate::formulas::uncertainty::Instrument;
use crate::record::design::{Check, Design, Dimension, Value, Verdict};
use crate::record::show::Say;
use crate::shop::Shop;
use crate::shop::instruments::{self, Expanded, Gauge};
use crate::source::Source;
use crate::units::Length;

use super::{Common, sizes};

/// U of the shop's instrument of that kind; it stands among the sizes as what others rest on.
pub fn rests_on(design: &mut Design, common: &Common, kind: Instrument) -> Length {
    let gauge = common.gauge(kind);
    let size = sizes::u_of(kind.name(), &gauge.name);
    if design.dimension(&size).is_none() {
        if gauge.assumed {
            design.assumed(&size, Value::Length(gauge.length()), "common practice; shop.toml tells those of the shop");
        } else {
            design.computed(&size, Value::Length(gauge.length()), "the shop's own figure");
        }
    }
    gauge.length()
}

/// Says of every instrument that a step names what the shop has of it, where that is its own.
pub fn named_at_the_steps(design: &mut Design, shop: &Shop) {
    let say = design.say();
    for measure in design.operations.iter_mut().flat_map(|step| &mut step.measure) {
        let own = instruments::named_in(&shop.instruments, &measure.with);
        let words = own.into_iter().filter(|gauge| !gauge.assumed).map(|gauge| words(gauge, &measure.with, say));
        measure.own = words.collect::<Vec<_>>().join(", ");
    }
}

const UNPROVED: Check = Check {
    key: "unproved",
    what: "limits that no reading of the instrument proves",
    worst: Verdict::Ok,
    source: Source::Memory("ISO 14253-1: a size is accepted within its limits narrowed by U on both sides"),
};

/// Says which limits lie so close that what the step measures with cannot show the size within them, whatever it reads.
pub fn unproved(design: &mut Design, shop: &Shop) {
    let say = design.say();
    let mut told: Vec<String> = Vec::new();
    for measure in design.operations.iter().flat_map(|step| &step.measure) {
        let Some((width, label)) = design.dimensions.iter().find(|d| d.key == measure.key).and_then(room) else {
            continue;
        };
        let gauges = instruments::named_in(&shop.instruments, &measure.with);
        let lengths = gauges.into_iter().filter(|gauge| matches!(gauge.u, Expanded::Length(_)));
        let Some(finest) = lengths.min_by(|a, b| a.u.number().total_cmp(&b.u.number())) else { continue };
        let Expanded::Length(u) = finest.u else { continue };
        if u * 2.0 >= width {
            let line = format!("{label}, {} wide, by {} with U {}", say.length(width), finest.name, say.length(u));
            if !told.contains(&line) {
                told.push(line);
            }
        }
    }
    if !told.is_empty() {
        let because = format!(
            "{}: that reading may refuse the piece, it cannot pass it; a finer instrument (shop.toml tells U), or the record of whoever grinds it",
            told.join("; ")
        );
        design.note(&UNPROVED, because);
    }
}

/// How wide the limits of a length are, where a reading is held against both; of an error of form twice its limit, which is
/// held against one.
fn room(dimension: &Dimension) -> Option<(Length, String)> {
    let limits = dimension.limits.as_ref()?;
    let form = dimension.may_vanish && limits.lower == Length::ZERO;
    let width = if form { limits.upper * 2.0 } else { limits.upper - limits.lower };
    Some((width.rounded(), dimension.label.clone()))
}

/// `the shop's, U 0.004 mm`, with its name where it has another than the step says or the step names several.
fn words(gauge: &Gauge, with: &str, say: Say) -> String {
    let u = match gauge.u {
        Expanded::Length(l) => say.length(l),
        Expanded::Angle(a) => say.angle(a),
    };
    if with == gauge.name { format!("the shop's, U {u}") } else { format!("the shop's {}, U {u}", gauge.name) }
}
