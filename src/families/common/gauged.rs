//! What the shop measures with: how far its readings can be trusted, told wherever a figure rests on it.

use crate::formulas::uncertainty::Instrument;
use crate::record::design::{Design, Value};
use crate::record::show::Say;
use crate::shop::Shop;
use crate::shop::instruments::{self, Expanded, Gauge};
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

/// `the shop's, U 0.004 mm`, with its name where it has another than the step says or the step names several.
fn words(gauge: &Gauge, with: &str, say: Say) -> String {
    let u = match gauge.u {
        Expanded::Length(l) => say.length(l),
        Expanded::Angle(a) => say.angle(a),
    };
    if with == gauge.name { format!("the shop's, U {u}") } else { format!("the shop's {}, U {u}", gauge.name) }
}
