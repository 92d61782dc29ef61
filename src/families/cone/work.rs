//! Lathe figures and the order of work for a cone.

use crate::design::{Design, Limits, Table, Value};
use crate::families::common::{FACE_ALLOWANCE, TURNED_ENDS, drill_speed};
use crate::families::welded::{self, Weld};
use crate::shop::Shop;
use crate::show;
use crate::standards::stock;
use crate::turning;
use crate::units::{Length, SpindleSpeed};

use super::read::{self, BoltKind, Recess, Spec};
use super::strength::{Forces, weld_line};

/// What the lathe work needs, as recorded.
pub struct Lathe {
    pub stock_diameter: Option<Length>,
    pub stock_length: Length,
    pub hold_out: Length,
    pub rough: SpindleSpeed,
    pub finish: SpindleSpeed,
    pub slant: Length,
    pub setover: Length,
    /// Reading of a dial on the flank over [`DIAL_TRAVEL`].
    dial: Length,
    pub between_centres: Length,
}

/// Travel over which the flank is run by the dial: short enough for a dial of 10 mm at any usual cone.
const DIAL_TRAVEL: Length = Length::mm(10.0);

/// Records stock, speeds, steps, set-over and check sizes.
pub fn lathe(design: &mut Design, s: &Spec, shop: &Shop) -> Lathe {
    let (stock_diameter, stock_length, hold_out) = stock(design, s);
    let (rough, finish) = speeds(design, s, shop);
    let between_centres = design.length_or(
        &read::BETWEEN_CENTRES,
        s.between_centres.as_ref(),
        stock_length,
        "the whole of the stock between centres",
    );
    let setover = turning::tailstock_setover(between_centres, turning::taper_ratio(s.half_angle));
    let setover = design.computed_length("tailstock_setover", "tailstock set-over", setover, "L (D - d)/(2 h)");
    roughing(design, s, shop);
    check_sizes(design, s, shop);
    let dial = design.computed_length(
        "dial_over_10_mm",
        "dial on the flank over 10 mm of carriage travel",
        turning::dial_over_travel(DIAL_TRAVEL, s.half_angle),
        "10 mm x tan a",
    );
    Lathe {
        stock_diameter,
        stock_length,
        hold_out,
        rough,
        finish,
        slant: turning::slant(s.height, s.half_angle),
        setover,
        dial,
        between_centres,
    }
}

fn stock(design: &mut Design, s: &Spec) -> (Option<Length>, Length, Length) {
    let widest = s.base.max(s.foot_width());
    let bar = stock::next_bar(widest + Length::mm(1.0), s.common.header.unit);
    if let Some(bar) = bar {
        design.computed_length(
            "stock_diameter",
            "stock diameter",
            bar,
            "next bar at least 1 mm over the widest diameter",
        );
    }
    let hold_out = design.computed_length(
        "hold_out",
        "length out of the chuck",
        s.height + s.foot_height() + TURNED_ENDS,
        "part + 1 mm each face + 3 mm parting tool + 5 mm clear of the jaws",
    );
    let grip = bar.unwrap_or(widest);
    let length = design.computed_length(
        "stock_length",
        "stock length",
        hold_out + grip,
        "length out of the chuck + one diameter of grip",
    );
    (bar, length, hold_out)
}

fn speeds(design: &mut Design, s: &Spec, shop: &Shop) -> (SpindleSpeed, SpindleSpeed) {
    let widest = s.base.max(s.foot_width());
    let speeds = s.common.material.cutting(s.carbide);
    let mut speed = |key: &str, label: &str, cutting| {
        let wanted = turning::spindle_speed(cutting, widest);
        let speed = wanted.min(shop.max_speed);
        let formula =
            if speed < wanted { "the lathe's greatest speed" } else { "1000 v/(pi D), at the widest diameter" };
        design.computed(key, label, Value::SpindleSpeed(speed), formula);
        speed
    };
    (
        speed("roughing_speed", "spindle speed, roughing", speeds.rough),
        speed("finishing_speed", "spindle speed, finishing", speeds.finish),
    )
}

fn roughing(design: &mut Design, s: &Spec, shop: &Shop) {
    let cut = design.length_or(
        &read::DEPTH_OF_CUT,
        s.depth_of_cut.as_ref(),
        shop.depth_of_cut,
        "the shop's usual roughing cut per side",
    );
    let left = design.length_or(
        &read::FINISH_ALLOWANCE,
        s.finish_allowance.as_ref(),
        shop.finish_allowance,
        "the shop's usual allowance square to the flank",
    );
    let steps = turning::roughing_steps(s.base, s.tip, s.half_angle, cut, left);
    let thickest = turning::thickest_left(s.half_angle, cut, left);
    design.computed_length("thickest_left", "thickest metal left by the steps", thickest, "allowance + cut x cos a");
    let rows = steps.iter().enumerate().map(|(i, step)| {
        vec![Value::Count(i as u32 + 1), Value::Length(step.diameter.rounded()), Value::Length(step.stop.rounded())]
    });
    design.tables.push(Table {
        key: "roughing_steps",
        title: "Roughing steps, from the stock inwards".into(),
        columns: ["cut", "turn to diameter", "stop at Z from the tip face"].map(String::from).into(),
        rows: rows.collect(),
    });
}

fn check_sizes(design: &mut Design, s: &Spec, shop: &Shop) {
    let roller = design.length_or(
        &read::CHECK_ROLLER,
        s.check_roller.as_ref(),
        shop.check_roller,
        "the shop's usual pair of rollers",
    );
    let over = turning::over_rollers(s.base, s.half_angle, roller);
    design.computed_length(
        "over_rollers",
        "size over two rollers",
        over,
        "D + roller (1 + tan(45 deg - a/2)), rollers level with the base circle",
    );
    limits_by_base(design, "over_rollers", |base| turning::over_rollers(base, s.half_angle, roller));
    if let Some(ring) = &s.check_ring {
        let bore = design.given_length(&read::CHECK_RING, ring);
        design.computed_length(
            "ring_height",
            "height of the ring over the face that the cone stands on",
            s.foot_height() + turning::ring_height(s.base, s.half_angle, bore),
            "foot + (D - ring)/(2 tan a)",
        );
        limits_by_base(design, "ring_height", |base| s.foot_height() + turning::ring_height(base, s.half_angle, bore));
    }
}

/// Limits of a check size that grows with the base diameter: what it reads at the limits of that diameter.
fn limits_by_base(design: &mut Design, key: &str, reading: impl Fn(Length) -> Length) {
    let Some(base) = design.dimension(read::BASE_DIAMETER.name).and_then(|d| d.limits.clone()) else { return };
    let (lower, upper) = (reading(base.lower).rounded(), reading(base.upper).rounded());
    design.limit(key, Limits { lower, upper, by: "limits of the base diameter".into(), confirmed: base.confirmed });
}

/// The order of work.
pub fn operations(design: &mut Design, s: &Spec, lathe: &Lathe, forces: Option<&Forces>) {
    let unit = s.common.header.unit;
    let size = |l: Length| show::length_both(l, unit);
    let bar = lathe.stock_diameter.map_or_else(|| "bar or plate blank".into(), |d| format!("round bar {}", size(d)));
    design.tools.push(format!(
        "{} x {bar}, {} long each, {}",
        s.common.header.count,
        size(lathe.stock_length),
        s.common.material.name
    ));
    design.tools.push("calliper, micrometer, dial indicator with stand, two equal rollers".into());
    cylinders(design, s, lathe, &size);
    flank(design, s, lathe, &size);
    nose_and_bolt(design, s, &size);
    second_side(design, s, &size);
    bench(design, s, &size);
    if s.bolt.as_ref().is_some_and(|bolt| bolt.register) {
        design
            .step("lathe", format!(
                "Bore the recess for the foot, {} H7 and some {} deep, in a ring or plate that is welded or bolted to the crossbar; the foot must go in by hand and not rock.",
                size(s.foot_width()),
                size(s.foot_height() / 2.0)
            ))
            .measure("register_bore", "bore gauge or plug gauge");
    }
    if s.weld_on {
        let wall = s.crossbar_wall.as_ref().map(|w| w.value);
        let foot = s.foot.as_ref().map(|f| f.value);
        let weld = Weld {
            what: "cone",
            onto: &s.crossbar_material,
            assumed: !s.crossbar_written,
            line_load: forces.and_then(|f| weld_line(s, f)),
            thinner: wall.into_iter().chain(foot).reduce(Length::min),
        };
        welded::weld(design, &s.common, &weld);
    }
}

/// Length at which it is parted off: the part, and what its base is faced with.
fn parted(s: &Spec) -> Length {
    s.height + s.foot_height() + FACE_ALLOWANCE
}

/// The cylinders from which the cone is cut.
fn cylinders(design: &mut Design, s: &Spec, lathe: &Lathe, size: &dyn Fn(Length) -> String) {
    design.step(
        "lathe",
        format!(
            "Chuck the bar with {} out of the jaws, hold at least one diameter. Face the tip end.",
            size(lathe.hold_out)
        ),
    );
    let turn = if s.foot_width() > s.base {
        format!(
            "At {} rpm turn the foot to {} up to {} from the tip face, then {} up to {}.",
            lathe.rough.whole(),
            size(s.foot_width()),
            size(parted(s)),
            size(s.base),
            size(s.height)
        )
    } else {
        format!("At {} rpm turn {} up to {} from the tip face.", lathe.rough.whole(), size(s.base), size(parted(s)))
    };
    design.step("lathe", turn).measure("base_diameter", "micrometer");
}

/// The flank, roughed in steps and finished with the compound slide.
fn flank(design: &mut Design, s: &Spec, lathe: &Lathe, size: &dyn Fn(Length) -> String) {
    let angle = |a| show::value(&Value::Angle(a), s.common.header.unit);
    design
        .step("lathe", format!("Rough the flank in steps at {} rpm; Z counts from the tip face.", lathe.rough.whole()))
        .table("roughing_steps");
    design.step("lathe", format!(
        "Set the compound slide to {} from the axis ({} if its scale reads 0 square to the axis); the cut needs {} of slide travel. Take a first pass along the whole flank, then run a dial along it: over {} of carriage travel it must read {}.",
        angle(s.half_angle), angle(turning::compound_from_square(s.half_angle)), size(lathe.slant), size(DIAL_TRAVEL), size(lathe.dial)
    ));
    design.step("lathe", format!(
        "Finish the flank at {} rpm, tool exactly on centre height. Feed with the compound slide only; the cross slide sets the depth: {} in takes {} off the diameter. Leave the base edge sharp until the check over rollers is done.",
        lathe.finish.whole(), size(Length::mm(0.1)), size(Length::mm(0.2))
    )).measure("tip_diameter", "calliper").measure("height", "depth micrometer");
}

/// Parted off, the base faced, the thread in it.
fn second_side(design: &mut Design, s: &Spec, size: &dyn Fn(Length) -> String) {
    design
        .step(
            "lathe",
            format!(
                "Part off at {}, turn round, hold it {}, face the base to {} overall.",
                size(parted(s)),
                hold(s),
                size(s.height + s.foot_height())
            ),
        )
        .measure("overall_height", "calliper");
    from_below(design, s, size);
}

/// What is measured on the finished cone.
fn bench(design: &mut Design, s: &Spec, size: &dyn Fn(Length) -> String) {
    design
        .step(
            "bench",
            format!(
                "Stand the cone on a flat plate, lay the two rollers against the flank{}, measure over them.",
                rollers_on(design, s, size)
            ),
        )
        .measure("over_rollers", "micrometer");
    if s.check_ring.is_some() {
        design
            .step("bench", "Stand the cone on a flat plate, drop the ring over the nose and measure from the plate to the ring's lower edge.")
            .measure("ring_height", "depth micrometer");
    }
    design.step(
        "bench",
        format!("When the checks are done, break the outer edge of the base by about {}.", size(Length::mm(0.25))),
    );
}

/// How the cone is held for its second side: nothing grips a flank.
fn hold(s: &Spec) -> &'static str {
    if s.foot_height() >= Length::mm(4.0) {
        "lightly by the foot in soft jaws"
    } else {
        "in a bush bored to the half-angle, or on a screw in its hole"
    }
}

/// What the rollers lie on beside the cone, where it has a foot.
fn rollers_on(design: &Design, s: &Spec, size: &dyn Fn(Length) -> String) -> String {
    if s.foot_height() <= Length::ZERO {
        return String::new();
    }
    // Each lies half its thickness inside its outer side, so together one roller inside the size over both.
    let mm = |key| design.dimension(key).map_or(f64::NAN, |d| d.value.number());
    if s.foot_width().as_mm() > mm("over_rollers") - mm(read::CHECK_ROLLER.name) {
        ", on the top face of the foot".into()
    } else {
        format!(", on blocks as high as the foot, {}", size(s.foot_height()))
    }
}

fn nose_and_bolt(design: &mut Design, s: &Spec, size: &dyn Fn(Length) -> String) {
    if s.nose_radius() > Length::ZERO {
        design
            .step("lathe", format!("Round the nose to {}.", size(s.nose_radius())))
            .measure("tip_radius", "radius gauge");
    }
    let Some(bolt) = &s.bolt else { return };
    let BoltKind::Through { hole, recess } = bolt.kind else { return };
    let head = match recess {
        Recess::Counterbore { diameter, depth } => {
            format!(", counterbore {} to {} deep", size(diameter), size(depth))
        }
        Recess::Countersink { diameter, included } => format!(
            ", countersink {} included to {}",
            show::value(&Value::Angle(included), s.common.header.unit),
            size(diameter)
        ),
        Recess::None => String::new(),
    };
    let speed = drill_speed(&s.common.material, hole);
    design
        .step(
            "lathe",
            format!(
                "Centre drill, drill {} through at {} rpm for {}{head}.",
                size(hole),
                speed.whole(),
                bolt.thread.value
            ),
        )
        .measure("bolt_hole", "calliper");
}

/// The thread in the base, once the base is there.
fn from_below(design: &mut Design, s: &Spec, size: &dyn Fn(Length) -> String) {
    let Some(bolt) = &s.bolt else { return };
    let BoltKind::FromBelow { tap_drill, depth } = bolt.kind else { return };
    let deep = read::drilled_depth(depth, &bolt.size);
    let speed = drill_speed(&s.common.material, tap_drill);
    design
        .step(
            "lathe",
            format!(
                "From the base: centre drill, drill {} to {} deep at {} rpm, tap {} by hand to {} of full thread.",
                size(tap_drill),
                size(deep),
                speed.whole(),
                bolt.thread.value,
                size(depth)
            ),
        )
        .measure("drill_depth", "depth gauge");
}
