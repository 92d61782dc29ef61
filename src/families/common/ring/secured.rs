//! What holds a sleeve beside its press fit, or in its place: a grub screw, or a retaining compound.

use crate::families::common;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::show;
use crate::record::wants::Bolts;
use crate::shop::{Machines, Material, by_unit};
use crate::source::Source;
use crate::standards::bolting;
use crate::standards::iso286::{self, Grade};
use crate::standards::threads::Thread;
use crate::units::{Force, Length, LengthUnit, Stress};

use super::press::{SECURED, SHEAR_STRENGTH, Secured};
use super::sizes;

/// The widest gap on the diameter that a retaining compound is let fill. Source: common practice, no source; makers state their own.
const FILLED: Length = Length::mm(0.1);

const COMPOUND: Check = Check {
    key: "compound_strength",
    what: "what the retaining compound holds",
    worst: Verdict::Caution,
    source: Source::Published("ISO 10123: shear strength of anaerobic adhesives, pin-and-collar specimens"),
};

impl Secured {
    /// It is compound that fills the joint.
    pub fn fills(&self) -> bool {
        self.by.value == "compound"
    }

    /// The play of the loosest pair, on the diameter, that it takes up: the gap that a compound fills; beside a screw the
    /// width of IT7, more than which lets the sleeve hammer. Source: common practice, no source.
    pub fn takes_up(&self, nominal: Length) -> Length {
        if self.fills() {
            return FILLED;
        }
        Grade::new(7).and_then(|g| iso286::it_width(nominal, g).ok()).unwrap_or(Length::ZERO)
    }

    /// As a finding tells it.
    pub fn said(&self) -> &'static str {
        if self.fills() { "retaining compound" } else { "the grub screw" }
    }

    /// Records it, and what the compound holds over the joint: tau pi D L.
    pub fn record(&self, design: &mut Design, diameter: Length, length: Length) {
        design.given_text(&SECURED, &self.by.clone().map(String::from));
        if !self.fills() {
            return;
        }
        let Some(strength) = &self.strength else {
            let because =
                "how much it holds is not told: write its shear_strength, as its maker states it by ISO 10123";
            design.finding(&COMPOUND, Verdict::Caution, None, None, because);
            return;
        };
        design.given(&SHEAR_STRENGTH, strength, Value::Stress);
        let force: Force = compound_force(diameter, length, strength.value);
        design.computed(&sizes::COMPOUND_FORCE, Value::Force(force), "tau pi D L");
        let torque = Value::Torque(force * (diameter / 2.0));
        design.computed(&sizes::COMPOUND_TORQUE, torque, "tau pi D^2 L/2");
        let because = "that of clean steel, cured and at room temperature: oil, other metals and warmth take much of it, and what the press holds is not added";
        design.finding(&COMPOUND, Verdict::Ok, Some(Value::Force(force)), Limit::None, because);
    }

    /// What is done while, or after, it goes together; `before` the joint is closed, or after.
    pub fn step(
        &self,
        design: &mut Design,
        machines: &Machines,
        (outer, outer_wall): (&Material, Option<Length>),
        across: Length,
        wall: Length,
    ) {
        if self.fills() {
            return;
        }
        let unit = design.header.unit;
        let size = |l: Length| show::length_both(l.rounded(), unit);
        let name = screw(across, unit);
        let Ok(thread) = Thread::parse(name) else { return };
        let drill = thread.tap_drill().drill;
        let tenth = by_unit(unit, 0.1, 0.005);
        let spot = (tenth * (wall / 3.0 / tenth).floor()).max(tenth);
        // As long as the outer part's wall and the spot: it stands out nowhere.
        let sold = outer_wall.and_then(|outer| bolting::sold_to(&thread, outer + spot));
        let screw = sold.map_or_else(|| name.to_string(), |long| bolting::ordered(&thread, long));
        let speed = common::drill_speed(design, machines, outer, drill.diameter);
        let text = format!(
            "Grub screw: drill the outer part {} at {speed} square to the axis, clear of the load, of the grease hole and of any groove, tap {name} by hand, and spot the sleeve through it {} deep, no deeper. Screw with a cup point and thread lock; it keeps the sleeve from turning and creeping, and is counted on for no load. Where it stands the other side of the wall is felt for a bulge.",
            drill.name,
            size(spot)
        );
        design
            .step("drill press", text)
            .tool(format!("tap drill {}", drill.name))
            .tool(format!("tap {name}"))
            .tool(format!("grub screw {screw}, cup point, with its key"))
            .tool("thread lock");
        common::at_the_drill(design);
        design.wants.uses("thread lock", "the grub screw");
        design.wants.bolts.push(Bolts {
            what: format!("grub screw {screw}, cup point"),
            thread: name.into(),
            class: "45H".into(),
            stainless: false,
            each: 1,
            nut: None,
            washers: 0,
            grip: None,
            torque: None,
            touches: vec![outer.name.clone()],
            laid_out: format!("grub screw {screw}"),
        });
    }
}

/// The grub screw for a joint of that diameter. Source: common practice, no source; about a sixth of the diameter up to M8.
fn screw(across: Length, unit: LengthUnit) -> &'static str {
    let rows: [(f64, &str, &str); 4] =
        [(20.0, "M4", "#8-32"), (32.0, "M5", "#10-24"), (50.0, "M6", "1/4-20"), (f64::INFINITY, "M8", "5/16-18")];
    let row = rows.iter().find(|row| across.as_mm() <= row.0);
    row.map_or("M8", |(_, metric, inch)| if unit == LengthUnit::Inch { inch } else { metric })
}

/// Force that shears a compound in a cylindrical joint: tau pi D L, as for the pins of ISO 10123; all of it filled.
/// Source: ISO 10123, calculation of the shear strength.
pub fn compound_force(diameter: Length, length: Length, strength: Stress) -> Force {
    strength * (std::f64::consts::PI * (diameter * length))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A name that is no thread would leave the screw out of the work without a word.
    #[test]
    fn every_screw_is_a_thread_with_a_drill() {
        for across in [10.0, 25.0, 31.75, 40.0, 80.0] {
            for unit in [LengthUnit::Mm, LengthUnit::Inch] {
                let name = screw(Length::mm(across), unit);
                assert!(Thread::parse(name).is_ok(), "{name}");
            }
        }
    }
}
