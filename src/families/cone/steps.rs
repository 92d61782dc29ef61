//! The order of work for a cone: every step at the lathe names its grip, and the grip carries the step.

use crate::families::common::printed::{self, Print};
use crate::families::common::{self, Cut, Pace, bolted, gripped, hardening, packed, welded};
use crate::formulas::seating::nose_flat;
use crate::formulas::turning::{self, Load};
use crate::formulas::uncertainty::Instrument;
use crate::record::design::{Bar, Design, Value};
use crate::record::key::Size;
use crate::record::show;
use crate::shop::by_unit;
use crate::units::{Length, LengthUnit};

use super::lathe::{Lathe, Taper, clamped, crossbar_hole, dial_travel, face_allowance, weld_of};
use super::read::{self, Bolt, BoltKind, Recess, Spec};
use super::sizes;
use super::strength::Forces;

/// The order of work.
pub fn operations(design: &mut Design, s: &Spec, lathe: &Lathe, forces: Option<&Forces>) {
    let unit = s.common.header.unit;
    let size = |l: Length| show::length_both(l, unit);
    let count = s.common.header.count;
    let material = &hardening::bought(&s.common.material);
    if matches!(lathe.taper, Taper::Elsewhere(_)) {
        let name = &s.common.material.name;
        design.tools.push(format!("{count} x finished cone of {name}, ordered from the STEP file and the drawing"));
    } else if lathe.taper != Taper::Printed {
        design.bars.push(Bar {
            material: material.clone(),
            across: lathe.stock_diameter,
            count,
            each: lathe.stock_length,
            grip: lathe.stock_length - lathe.hold_out,
            what: None,
        });
    }
    match &lathe.taper {
        Taper::Elsewhere(why) => elsewhere(design, s, why),
        Taper::Printed => as_printed(design, s),
        _ => turned(design, s, lathe),
    }
    bench(design, s, &size);
    if s.bolt.as_ref().is_some_and(|bolt| bolt.register) {
        let cutting = s.common.machines.cutting(&s.crossbar_material).finish;
        let setting = s.common.machines.turn(cutting, s.foot_width());
        let bored = common::spindle(design, "boring", setting, Cut::point(&s.common.machines, &s.crossbar_material));
        design
            .step("lathe", format!(
                "Bore the recess for the foot at {}, {} H7, right through a ring or plate some {} thick, which is welded or bolted to the crossbar: the foot stands on the crossbar itself, goes in by hand and does not rock.",
                bored,
                size(s.foot_width()),
                size(s.foot_height() / 2.0 + packed::thickness(s.bolt.as_ref().and_then(|b| b.packing.as_ref())))
            ))
            .measure(&common::sizes::REGISTER_BORE, "bore gauge or plug gauge");
    }
    let fixed = design.operations.len();
    if let Some(bolted) = clamped(s) {
        crossbar_hole(design, s);
        packed::step(design, s.bolt.as_ref().and_then(|b| b.packing.as_ref()), "cone");
        bolted::step(design, &bolted, "cone");
    }
    if s.weld_on && lathe.taper != Taper::Printed {
        welded::weld(design, &s.common, &weld_of(s, forces));
    }
    design.fixed_from(fixed);
}

fn size(s: &Spec, length: Length) -> String {
    show::length_both(length.rounded(), s.common.header.unit)
}

/// Length at which it is parted off: the part, and what its base is faced with.
fn parted(s: &Spec) -> Length {
    s.height + s.foot_height() + face_allowance(s)
}

/// The lathe work, in the order that suits the way it is bolted.
pub fn turned(design: &mut Design, s: &Spec, lathe: &Lathe) {
    match &s.bolt {
        Some(bolt) if matches!(bolt.kind, BoltKind::FromBelow { .. }) => {
            base_first(design, s, lathe, bolt);
            cylinders(design, s, lathe);
            flank(design, s, lathe);
            nose(design, s, matches!(arbor_centre(s, bolt), Centred::With(_)));
            design.step("lathe", "Unscrew the cone from the arbor with a strap or by its foot, never by the flank. Leave arbor and slide as they are until the checks are done: against the same shoulder it goes on again for another cut.");
        }
        _ => {
            let grip = bar_grip(s, lathe);
            let centre = lathe.centre.map_or_else(String::new, |(pilot, _)| centred(s, pilot));
            let text = format!(
                "Chuck the bar with {} out of the jaws, {grip} in them. Face the tip end at {}.{centre}",
                size(s, lathe.hold_out),
                lathe.rough
            );
            let step = design.step("lathe", text);
            if let Some((pilot, _)) = lathe.centre {
                step.tool(format!("centre drill, pilot {}", size(s, pilot)));
            }
            cylinders(design, s, lathe);
            flank(design, s, lathe);
            nose(design, s, lathe.centre.is_some());
            through(design, s);
            second_side(design, s, lathe);
        }
    }
    if s.common.material.hardened {
        hard(design, s);
    }
}

/// Hardened when it is turned, then ground: on the base, which it stands on, and along the flank.
fn hard(design: &mut Design, s: &Spec) {
    hardening::harden(design, &s.common.material, &common::sizes::HARDNESS, "the cone", None);
    let angle = show::value(&Value::Angle(s.half_angle), s.common.header.unit);
    design
        .step("grinder", format!(
            "Grind or lap the base flat. With a grinding spindle on the compound slide, set to {angle} from the axis as for turning: grind the flank to size; cover the ways of the lathe."
        ))
        .measure(&sizes::TIP_DIAMETER, "calliper")
        .measure(&sizes::HEIGHT, "depth micrometer")
        .measure(&sizes::HALF_ANGLE, "sine bar or two sizes over rollers");
}

/// Speed for parting off.
fn parting(design: &mut Design, s: &Spec, lathe: &Lathe) -> Pace {
    let widest = lathe.stock_diameter.unwrap_or(s.base.max(s.foot_width()));
    common::straight_in_speed(design, "parting off", &s.common.machines, &s.common.material, widest)
}

/// What the jaws hold of the bar.
fn bar_grip(s: &Spec, lathe: &Lathe) -> String {
    let bar = lathe.stock_diameter.unwrap_or(s.base.max(s.foot_width()));
    gripped::in_jaws(bar, lathe.hold_out, s.common.header.unit)
}

/// Base, drill and tap while the bar is still held whole; then a stub arbor with the same thread carries the blank.
fn base_first(design: &mut Design, s: &Spec, lathe: &Lathe, bolt: &Bolt) {
    let BoltKind::FromBelow { tap_drill, depth } = bolt.kind else { return };
    let (material, machines) = (&s.common.material, &s.common.machines);
    let speed = common::drill_speed_in_lathe(design, machines, material, tap_drill);
    let deep = read::drilled_depth(depth, &bolt.size);
    design.step("lathe", format!(
        "The base comes first. Chuck the bar with {} out of the jaws, {} in them. Face the end at {}: it is the base.",
        size(s, lathe.hold_out), bar_grip(s, lathe), lathe.rough
    ));
    design.step("lathe", format!(
        "In the same grip: centre drill, drill {} {} deep at {}, tap {} by hand, the tap led by the tailstock's centre, {} of full thread.",
        drill_name(s, bolt, tap_drill), size(s, deep), speed, bolt.thread.value, size(s, depth)
    )).measure(&sizes::DRILL_DEPTH, "depth gauge").measure(&sizes::THREAD_DEPTH, "screw and depth gauge")
        .tool(tap_drill_of(s, bolt, tap_drill))
        .tool(format!("tap {}, taper and bottoming", bolt.thread.value));
    let pace = parting(design, s, lathe);
    design.step("lathe", format!("In the same grip: part off at {} from the base, at {pace}.", size(s, parted(s))));
    let shoulder = shoulder(s, bolt);
    design.step("lathe", format!(
        "Chuck a stub of bar, {} in the jaws. At {} face its end, turn a screw {} on it by the die, turned by hand, {} long, with an undercut at a shoulder of {}: a stub arbor, made in place, so that it runs true. Screw the blank on until its base bears on the shoulder; the cut tightens it. It stays there until the cone is done.",
        gripped::in_jaws(shoulder, s.height + s.foot_height(), s.common.header.unit), lathe.rough, bolt.thread.value, size(s, depth * 0.8), size(s, shoulder)
    )).tool(format!("stub of bar, at least {} across, for the arbor", size(s, shoulder))).tool(format!("die {}", bolt.thread.value));
    let centre = arbor_centre(s, bolt);
    let support = match centre {
        Centred::NotNeeded => String::new(),
        Centred::With(pilot) => centred(s, pilot),
        Centred::None => " Its nose bears no centre: a sharp tool and light cuts, half of those told below.".into(),
    };
    let step = design
        .step(
            "lathe",
            format!(
                "On the arbor: face the tip end to {} overall, at {}.{support}",
                size(s, s.height + s.foot_height()),
                lathe.rough
            ),
        )
        .measure(sizes::overall(s), "depth micrometer");
    if let Centred::With(pilot) = centre {
        step.tool(format!("centre drill, pilot {}", size(s, pilot)));
    }
}

/// Whether the tailstock's centre carries a cone on its screw arbor, and the pilot of its centre.
#[derive(Clone, Copy)]
enum Centred {
    NotNeeded,
    With(Length),
    None,
}

/// A cone that stands out further than the arbor's shoulder is wide is carried at its free end as well: the screw holds it at
/// one face only. Source: common practice, no source.
fn arbor_centre(s: &Spec, bolt: &Bolt) -> Centred {
    if s.height + s.foot_height() <= shoulder(s, bolt) {
        return Centred::NotNeeded;
    }
    let flat = nose_flat(s.tip, s.half_angle, s.nose_radius());
    turning::centre_drill(flat, s.base).map_or(Centred::None, |(pilot, _)| Centred::With(pilot))
}

/// The sentence that has the tailstock carry the free end.
fn centred(s: &Spec, pilot: Length) -> String {
    format!(
        " Centre drill it, pilot {}, bring up the tailstock's centre and keep it there for every cut outside.",
        size(s, pilot)
    )
}

/// The arbor's shoulder: as wide as the base lets it be without being cut, at least one and a half threads.
/// Source: common practice, no source.
fn shoulder(s: &Spec, bolt: &Bolt) -> Length {
    let whole = by_unit(s.common.header.unit, 1.0, 1.0 / 16.0);
    let wide = (s.foot_width() * 0.8).max(bolt.size.major * 1.5);
    whole * (wide / whole).floor()
}

/// The tap drill in the list of what is laid out.
fn tap_drill_of(s: &Spec, bolt: &Bolt, diameter: Length) -> String {
    format!("tap drill {}", drill_name(s, bolt, diameter).trim_end_matches(','))
}

/// The drill by its name, with its size and what does instead.
fn drill_name(s: &Spec, bolt: &Bolt, diameter: Length) -> String {
    let tap = bolt.size.tap_drill();
    let unit = s.common.header.unit;
    // Each with its own size: what is stamped in millimetres in inches as well, a fraction, number or letter in the part's unit.
    let sized = |name: &str, diameter: Length| {
        let other = if name.ends_with(" mm") { LengthUnit::Inch } else { unit };
        format!("{name} ({})", show::length(diameter.rounded(), other))
    };
    let or = tap.other.map_or_else(String::new, |other| format!(", or {}", sized(&other.name, other.diameter)));
    format!("{}{or},", sized(&tap.drill.name, diameter))
}

/// The cylinders from which the cone is cut.
fn cylinders(design: &mut Design, s: &Spec, lathe: &Lathe) {
    let rpm = lathe.rough;
    let passes = |from: Option<Length>, to: Length| {
        let count = from.map_or(0, |from| turning::passes(from, to, lathe.depth_of_cut));
        if count > 1 {
            format!(" in {count} cuts of at most {} a side", size(s, lathe.depth_of_cut))
        } else {
            String::new()
        }
    };
    // A foot that goes into a register is turned to its limits, not to its round size.
    let registered = s.bolt.as_ref().is_some_and(|bolt| bolt.register && !s.weld_on);
    let wide = if registered { common::between(design, sizes::widest(s)) } else { size(s, s.foot_width()) };
    let text = if s.foot_width() > s.base {
        format!(
            "At {rpm} turn the foot to {wide}{} up to {} from the tip face, then {}{} up to {}.",
            passes(lathe.stock_diameter, s.foot_width()),
            size(s, parted(s)),
            size(s, s.base),
            passes(Some(s.foot_width()), s.base),
            size(s, s.height)
        )
    } else {
        format!(
            "At {rpm} turn {wide}{} up to {} from the tip face.",
            passes(lathe.stock_diameter, s.base),
            size(s, parted(s))
        )
    };
    let step = design.step("lathe", text).measure(&sizes::BASE_DIAMETER, "micrometer");
    if registered && s.foot_diameter.is_some() {
        step.measure(&sizes::FOOT_DIAMETER, "micrometer");
    }
}

/// The flank, roughed in steps and finished at its angle.
fn flank(design: &mut Design, s: &Spec, lathe: &Lathe) {
    let angle = |a| show::value(&Value::Angle(a), s.common.header.unit);
    design
        .step("lathe", format!("Rough the flank in steps at {}; Z counts from the tip face.", lathe.rough))
        .table(sizes::ROUGHING_STEPS_TABLE);
    let dial = format!(
        "Take a first pass along the flank, then run a dial along it: over {} of carriage travel it must read {}.",
        size(s, dial_travel(s)),
        size(s, lathe.dial)
    );
    let (set, feed) = match lathe.taper {
        Taper::Attachment => {
            (format!("Set the taper attachment to {} from the axis.", angle(s.half_angle)), "the carriage")
        }
        _ => {
            let twice = if lathe.taper == Taper::TwoSettings {
                " in two settings, the carriage moved between and the joint picked up by the dial"
            } else {
                ""
            };
            let shows = s.compound_zero.as_ref().map_or_else(String::new, |zero| {
                let on = zero.on.as_ref().map_or_else(String::new, |on| format!(", {on}"));
                let u = zero.u.map_or_else(String::new, |u| format!(" ± {}", angle(u)));
                format!(
                    " This lathe's scale shows {} then: it shows {}{u} more than it turns (test cuts{on}).",
                    angle(s.half_angle + zero.by),
                    angle(zero.by)
                )
            });
            let set = format!(
                "Set the compound slide to {} from the axis ({} if its scale reads 0 square to the axis); the cut needs {} of slide travel{twice}.{shows}",
                angle(s.half_angle),
                angle(turning::compound_from_square(s.half_angle)),
                size(s, lathe.slant)
            );
            (set, "the compound slide")
        }
    };
    design.step("lathe", format!("{set} {dial}"));
    let by = by_unit(s.common.header.unit, 0.1, 0.005);
    let hard = s.common.material.hardened;
    let left = if hard {
        format!(" and leave {} square to it for grinding", size(s, hardening::ground_after(s.common.header.unit) / 2.0))
    } else {
        String::new()
    };
    let step = design.step("lathe", format!(
        "Finish the flank at {}{left}, tool exactly on centre height. Feed with {feed} only; the cross slide sets the depth: {} in takes {} off the diameter. Leave the base edge sharp until the check over rollers is done.",
        lathe.finish, size(s, by), size(s, by * 2.0)
    ));
    if hard {
        return;
    }
    step.measure(&sizes::TIP_DIAMETER, "calliper").measure(&sizes::HEIGHT, "depth micrometer");
    proved_in_the_grip(design, s);
}

/// The angle is proved while the next cut can still be taken: by the dial, over as much of the flank as it reads.
fn proved_in_the_grip(design: &mut Design, s: &Spec) {
    let unit = s.common.header.unit;
    let said = |size: &Size| design.dimension(size).map(|d| show::length_both(Length::mm(d.value.number()), unit));
    match said(&sizes::FLANK_DIAL_TRAVEL) {
        Some(travel) => {
            let text = format!(
                "Before it leaves this grip: run the dial along the finished flank, stem square to the axis, {travel} of carriage travel by the carriage's own dial or a gauge block. Outside the limits the slide is turned and the flank cut once more: where it reads too much, turn the slide towards the axis; too little, away from it."
            );
            design.step("lathe", text).measure(&sizes::FLANK_DIAL, "dial indicator");
        }
        None => {
            design
                .step("lathe", "Before it leaves this grip: prove the angle; outside its limits turn the slide and cut the flank once more.")
                .measure(&sizes::HALF_ANGLE, "sine bar on the flank, or a bevel protractor where its limits are wide");
        }
    }
}

fn nose(design: &mut Design, s: &Spec, on_centre: bool) {
    if s.nose_radius() > Length::ZERO {
        let back = if on_centre { "Draw the tailstock back; light cuts. " } else { "" };
        let text = format!(
            "{back}Round the nose to {} at {}, with a form tool or by two hands and a file.",
            size(s, s.nose_radius()),
            common::straight_in_speed(design, "form tool", &s.common.machines, &s.common.material, s.tip)
        );
        design.step("lathe", text).measure(&sizes::TIP_RADIUS, "radius gauge");
    }
}

/// The hole for a bolt through the axis, while the bar is still held whole.
fn through(design: &mut Design, s: &Spec) {
    let Some(Bolt { kind: BoltKind::Through { hole, recess }, thread, .. }) = &s.bolt else { return };
    let head = match recess {
        Recess::Counterbore { diameter, depth } => {
            format!(", counterbore {} to {} deep", size(s, *diameter), size(s, *depth))
        }
        Recess::Countersink { diameter, included } => format!(
            ", countersink {} included to {}",
            show::value(&Value::Angle(*included), s.common.header.unit),
            size(s, *diameter)
        ),
        Recess::None => String::new(),
    };
    let speed = common::drill_speed_in_lathe(design, &s.common.machines, &s.common.material, *hole);
    let drill = common::drill(common::drill_within(design, &s.common, &sizes::BOLT_HOLE), s.common.header.unit);
    let widest = match recess {
        Recess::Counterbore { diameter, .. } | Recess::Countersink { diameter, .. } => Some(*diameter),
        Recess::None => None,
    };
    let slow = widest
        .map(|d| common::straight_in_speed(design, "head of the bolt", &s.common.machines, &s.common.material, d));
    let head = slow.map_or_else(|| head.clone(), |rpm| format!("{head} at {rpm}"));
    let text = format!(
        "In the same grip: centre drill, drill {drill} through and {} beyond at {} for {}{head}.",
        size(s, face_allowance(s) * 2.0),
        speed,
        thread.value
    );
    let drill = format!("twist drill {drill}");
    let step = design.step("lathe", text).measure(&sizes::BOLT_HOLE, "calliper").tool(drill);
    match recess {
        Recess::Counterbore { diameter, .. } => step.tool(format!("counterbore {}", size(s, *diameter))),
        Recess::Countersink { included, .. } => {
            let angle = show::value(&Value::Angle(*included), s.common.header.unit);
            step.tool(format!("countersink {angle} included"))
        }
        Recess::None => step,
    };
}

/// Parted off in the bar's grip; the base is faced where a grip for light cuts is to be had, else it stays as parted.
fn second_side(design: &mut Design, s: &Spec, lathe: &Lathe) {
    let clear = by_unit(s.common.header.unit, 1.0, 0.04);
    let grip = s.foot_height() - clear;
    let overall = s.height + s.foot_height();
    let light = turning::least_grip(s.foot_width(), clear + face_allowance(s), Load::Light);
    let text = if light.is_some_and(|least| grip >= least) {
        format!(
            "In the same grip: part off at {}, at {}. Turn round, hold {} of the foot in soft jaws bored to {}, the foot pressed against their step. Face the base to {} overall at {}, cuts of at most {}: this grip carries no more.",
            size(s, parted(s)),
            parting(design, s, lathe),
            size(s, grip),
            size(s, s.foot_width()),
            size(s, overall),
            lathe.rough,
            size(s, common::skim(s.common.header.unit))
        )
    } else {
        format!(
            "In the same grip: part off at {} with a sharp tool ground square, at {}. No cylinder is left to hold the cone by for another cut: take off the pip and dress the base on a flat plate with abrasive cloth until it does not rock.",
            size(s, overall),
            parting(design, s, lathe)
        )
    };
    design.step("lathe", text).measure(sizes::overall(s), "calliper");
}

/// The steps of a cone that this lathe cannot turn.
pub fn elsewhere(design: &mut Design, s: &Spec, why: &str) {
    let thread =
        s.bolt.as_ref().map_or_else(String::new, |bolt| format!(", the hole for {} as drawn", bolt.thread.value));
    design.step("other maker", format!(
        "Not on this lathe: {why}. Give the STEP file and the drawing to a shop with a numerically controlled lathe; order {} of {} with every size of the table inside its limits{thread}, the base edge sharp, and the certificate of the material.",
        s.common.header.count, s.common.material.name
    ));
    let step = design.step(
        "bench",
        "On receipt, before it is paid for: stand it on a flat plate, it must not rock; measure every piece.",
    );
    step.measure(&sizes::BASE_DIAMETER, "micrometer")
        .measure(&sizes::TIP_DIAMETER, "calliper")
        .measure(sizes::overall(s), "depth micrometer")
        .measure(&sizes::HALF_ANGLE, "sine bar or two sizes over rollers");
    if s.nose_radius() > Length::ZERO {
        step.measure(&sizes::TIP_RADIUS, "radius gauge");
    }
    match s.bolt.as_ref().map(|bolt| &bolt.kind) {
        Some(BoltKind::Through { .. }) => step.measure(&sizes::BOLT_HOLE, "calliper"),
        Some(BoltKind::FromBelow { .. }) => step.measure(&sizes::THREAD_DEPTH, "screw and depth gauge"),
        None => step,
    };
}

/// The steps of a printed cone.
pub fn as_printed(design: &mut Design, s: &Spec) {
    let across = s.base.max(s.foot_width());
    let print = Print {
        what: "cone",
        lies: "standing on its base, nose up",
        extents: (across, across, s.height + s.foot_height()),
        tells: false,
    };
    printed::step(design, &s.common, &print)
        .measure(&sizes::BASE_DIAMETER, "calliper")
        .measure(&sizes::TIP_DIAMETER, "calliper")
        .measure(sizes::overall(s), "calliper");
    let Some(bolt) = &s.bolt else { return };
    let text = match bolt.kind {
        BoltKind::Through { hole, .. } => {
            format!(
                "Clear the bolt hole with a drill of {}, turned by hand.",
                common::drill(hole, s.common.header.unit)
            )
        }
        BoltKind::FromBelow { tap_drill, depth } => format!(
            "Clear the hole with the tap drill, {} turned by hand, and tap {} to {}; for trying the fit only.",
            drill_name(s, bolt, tap_drill),
            bolt.thread.value,
            size(s, depth)
        ),
    };
    let tools = match bolt.kind {
        BoltKind::Through { hole, .. } => vec![format!("twist drill {}", common::drill(hole, s.common.header.unit))],
        BoltKind::FromBelow { tap_drill, .. } => {
            vec![tap_drill_of(s, bolt, tap_drill), format!("tap {}, taper and bottoming", bolt.thread.value)]
        }
    };
    design.step("bench", text).tools = tools;
}

/// What is measured on the finished cone.
fn bench(design: &mut Design, s: &Spec, size: &dyn Fn(Length) -> String) {
    let rollers = format!("two equal rollers of {}", common::both(design, &sizes::CHECK_ROLLER));
    design
        .step(
            "bench",
            format!(
                "Stand the cone on a flat plate, lay the two rollers against the flank{}, measure over them.",
                rollers_on(design, s, size)
            ),
        )
        .measure(&sizes::OVER_ROLLERS, "micrometer")
        .tool(rollers);
    let dimension = |size: &Size| design.dimension(size).map(|d| d.value.clone());
    if let (Some(Value::Length(rise)), Some(doubt)) =
        (dimension(&sizes::ROLLER_RISE), dimension(&sizes::HALF_ANGLE_DOUBT))
    {
        let (rise, doubt) = (size(rise), show::value(&doubt, s.common.header.unit));
        // The blocks stand where the cone is not: beside it, under the ends of the rollers.
        let long = match dimension(&sizes::ROLLER_LENGTH) {
            Some(Value::Length(long)) => format!(
                ", one under each end, left and right of the cone, so that the rollers are {} long at least",
                size(long)
            ),
            _ => String::new(),
        };
        let again = if s.bolt.as_ref().is_some_and(|b| matches!(b.kind, BoltKind::FromBelow { .. })) {
            "It goes back on the arbor for that."
        } else {
            "This one is parted off: that turn is for the next one."
        };
        design
            .step("bench", format!(
                "The flank is proved by a second size: lay the same rollers on equal blocks {rise} high, on what they lay on{long}; measure over them, take this size from the first. The table says what half-angle that is, and by how much the slide must be turned for it to be right; with a minus, towards the axis. {again} Two readings good to {} leave {doubt} open.",
                size(s.common.gauge(Instrument::Micrometer).length())
            ))
            .measure(&sizes::OVER_ROLLERS_RAISED, "micrometer")
            .table(sizes::FLANK_PROOF_TABLE);
    }
    if s.check_ring.is_some() {
        design
            .step("bench", "Stand the cone on a flat plate, drop the ring over the nose and measure from the plate to the ring's lower edge.")
            .measure(&sizes::RING_HEIGHT, "depth micrometer");
    }
    design.step(
        "bench",
        format!(
            "When the checks are done, break the outer edge of the base by about {}.",
            size(by_unit(s.common.header.unit, 0.25, 0.01))
        ),
    );
}

/// What the rollers lie on beside the cone, where it has a foot.
fn rollers_on(design: &Design, s: &Spec, size: &dyn Fn(Length) -> String) -> String {
    if s.foot_height() <= Length::ZERO {
        return String::new();
    }
    // Each lies half its thickness inside its outer side, so together one roller inside the size over both.
    let mm = |size: &Size| design.dimension(size).map_or(f64::NAN, |d| d.value.number());
    if s.foot_width().as_mm() > mm(&sizes::OVER_ROLLERS) - mm(&sizes::CHECK_ROLLER) {
        ", on the top face of the foot".into()
    } else {
        format!(", on blocks as high as the foot, {}", size(s.foot_height()))
    }
}
