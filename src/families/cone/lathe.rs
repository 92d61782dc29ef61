//! The figures of the lathe for a cone: stock, speeds, slide, roughing table, set-over, sizes over rollers.

use crate::families::common::bolt_length::Stack;
use crate::families::common::bolted::Bolted;
use crate::families::common::gauged;
use crate::families::common::packed;
use crate::families::common::welded::Weld;
use crate::families::common::{self, Cut, Pace};
use crate::formulas::turning::{self, Setover, Support};
use crate::formulas::uncertainty::Instrument;
use crate::record::design::{Design, LEAST_LIMIT, Limits, Table, Value};
use crate::record::key::Size;
use crate::record::show;
use crate::shop::{Shop, by_unit};
use crate::standards::stock;
use crate::units::{Angle, Length, LengthUnit};

use super::read::{self, BoltKind, Recess, Spec};
use super::sizes;
use super::strength::{Forces, weld_line};

/// What the lathe work needs, as recorded.
pub struct Lathe {
    pub stock_diameter: Option<Length>,
    pub depth_of_cut: Length,
    /// How its flank is turned.
    pub taper: Taper,
    /// Pilot and mouth of the centre in its nose, where the tailstock's centre has to carry it.
    pub centre: Option<(Length, Length)>,
    pub stock_length: Length,
    pub hold_out: Length,
    pub rough: Pace,
    pub finish: Pace,
    pub slant: Length,
    /// Nothing where it is not turned here.
    pub setover: Option<Setover>,
    /// Reading of a dial on the flank over [`dial_travel`].
    pub dial: Length,
}

impl Lathe {
    /// No work at this lathe: the cone is printed, or another maker turns it.
    const fn none(taper: Taper, stock_diameter: Option<Length>, hold_out: Length, slant: Length) -> Self {
        let none = Length::ZERO;
        Self {
            stock_diameter,
            depth_of_cut: none,
            taper,
            centre: None,
            stock_length: none,
            hold_out,
            rough: Pace::STILL,
            finish: Pace::STILL,
            slant,
            setover: None,
            dial: none,
        }
    }
}

/// How the flank is turned.
#[derive(Clone, PartialEq, Debug)]
pub enum Taper {
    /// With the compound slide.
    Compound,
    /// With the compound slide, the carriage moved once.
    TwoSettings,
    /// With the taper attachment.
    Attachment,
    /// Not on this lathe, and why.
    Elsewhere(String),
    /// Not turned: it is printed.
    Printed,
}

/// Travel over which the flank is run by the dial: short enough for a dial of 10 mm or 1/2 in at any usual cone.
pub fn dial_travel(s: &Spec) -> Length {
    by_unit(s.common.header.unit, 10.0, 0.5)
}

/// Metal for cleaning up one face. Source: common practice, no source.
pub fn face_allowance(s: &Spec) -> Length {
    common::face_allowance(s.common.header.unit)
}

/// What the lathe can do for this flank, and what carries its free end.
fn way(s: &Spec, shop: &Shop, hold_out: Length, diameter: Length) -> (Taper, Option<(Length, Length)>) {
    let unit = s.common.header.unit;
    let say = |l: Length| show::length(l.rounded(), unit);
    let slant = turning::slant(s.height, s.half_angle);
    let tapped = s.bolt.as_ref().is_some_and(|b| matches!(b.kind, BoltKind::FromBelow { .. }));
    let flat = crate::formulas::seating::nose_flat(s.tip, s.half_angle, s.nose_radius());
    let support = turning::support(hold_out, diameter);
    let centre = turning::centre_drill(flat, diameter).filter(|(_, mouth)| *mouth >= diameter / 20.0 && !tapped);
    let slender = |why: &str| {
        Taper::Elsewhere(format!(
            "{} of it stand out of the chuck, {} diameters, and {why}",
            say(hold_out),
            show::trimmed(hold_out / diameter, 1)
        ))
    };
    let fits = |(length, angle): (Length, Angle)| s.height <= length && s.half_angle <= angle;
    let taper = match (support, centre) {
        (Support::CentreAndRest, _) => slender("no steady can run on a flank"),
        (Support::Centre, None) => slender("its nose bears no centre"),
        _ if slant <= shop.compound_travel => Taper::Compound,
        _ if shop.taper_attachment.is_some_and(fits) => Taper::Attachment,
        _ if slant <= shop.compound_travel * 2.0 => Taper::TwoSettings,
        _ => Taper::Elsewhere(format!(
            "its flank is {} long, the compound slide travels {}, and no taper attachment of the shop reaches",
            say(slant),
            say(shop.compound_travel)
        )),
    };
    (taper, centre.filter(|_| support == Support::Centre))
}

/// Records stock, speeds, steps, set-over and check sizes.
pub fn lathe(design: &mut Design, s: &Spec, shop: &Shop) -> Lathe {
    if s.common.material.printed {
        check_sizes(design, s, shop);
        return Lathe::none(Taper::Printed, None, Length::ZERO, Length::ZERO);
    }
    let (bar, out) = (bar(s), hold_out(s));
    let (taper, centre) = way(s, shop, out, bar.unwrap_or(s.base.max(s.foot_width())));
    if matches!(taper, Taper::Elsewhere(_)) {
        check_sizes(design, s, shop);
        return Lathe::none(taper, bar, out, turning::slant(s.height, s.half_angle));
    }
    slide(design, s);
    let (stock_diameter, stock_length, hold_out) = stock(design, s, bar, out);
    let (rough, finish) = speeds(design, s, shop);
    let between_centres = design.length_or(
        &read::BETWEEN_CENTRES,
        s.between_centres.as_ref(),
        stock_length,
        "the whole of the stock between centres",
    );
    let setover = turning::tailstock_setover(between_centres, turning::taper_ratio(s.half_angle));
    design.computed_length(&sizes::TAILSTOCK_SETOVER, setover.by, "L (D - d)/(2 h)");
    let depth_of_cut = roughing(design, s, shop);
    let (roller, blocks) = check_sizes(design, s, shop);
    flank_proof(design, s, roller, blocks);
    let travel = if s.common.header.unit == LengthUnit::Mm { "10 mm" } else { "1/2 in" };
    let dial = design.computed_length(
        &sizes::DIAL_ON_FLANK.called(format!("dial on the flank over {travel} of carriage travel")),
        turning::dial_over_travel(dial_travel(s), s.half_angle),
        "travel x tan a",
    );
    flank_by_dial(design, s);
    Lathe {
        stock_diameter,
        depth_of_cut,
        taper,
        centre,
        stock_length,
        hold_out,
        rough,
        finish,
        slant: turning::slant(s.height, s.half_angle),
        setover: Some(setover),
        dial,
    }
}

/// Settings of the compound slide.
fn slide(design: &mut Design, s: &Spec) {
    design.computed(&sizes::COMPOUND_ANGLE, Value::Angle(s.half_angle), "a");
    design.computed(
        &sizes::COMPOUND_FROM_SQUARE,
        Value::Angle(turning::compound_from_square(s.half_angle)),
        "90 deg - a",
    );
    if let Some(zero) = &s.compound_zero {
        design.computed(
            &sizes::compound_shows(),
            Value::Angle(s.half_angle + zero.by),
            "a, and the zero of the shop's own scale",
        );
    }
    design.angle_may_be_read(
        &sizes::compound_setting(),
        s.half_angle,
        ("compound scale", "two test cuts tell where the scale counts from"),
    );
}

/// The bar from which it is turned; `None` where none so thick is sold.
fn bar(s: &Spec) -> Option<Length> {
    let unit = s.common.header.unit;
    stock::next_bar(s.base.max(s.foot_width()) + stock::to_turn_off(unit), unit)
}

/// Length of the bar out of the chuck.
fn hold_out(s: &Spec) -> Length {
    s.height + s.foot_height() + common::turned_ends(s.common.header.unit)
}

fn stock(design: &mut Design, s: &Spec, bar: Option<Length>, hold_out: Length) -> (Option<Length>, Length, Length) {
    let widest = s.base.max(s.foot_width());
    if let Some(bar) = bar {
        design.computed_length(
            &sizes::STOCK_DIAMETER,
            bar,
            "next bar at least 1 mm (0.04 in) over the widest diameter",
        );
    }
    // A rule sets it, so it comes in whole steps of one.
    let step = by_unit(s.common.header.unit, 1.0, 1.0 / 16.0);
    let hold_out = design.computed_length(
        &sizes::HOLD_OUT,
        hold_out.up_to(step),
        "part + 1 mm (0.04 in) each face + 3 mm (0.12 in) parting tool + 5 mm (0.2 in) clear of the jaws, up to a whole mm or 1/16 in",
    );
    let grip = bar.unwrap_or(widest);
    let length =
        design.computed_length(&sizes::STOCK_LENGTH, hold_out + grip, "length out of the chuck + one diameter of grip");
    (bar, length, hold_out)
}

fn speeds(design: &mut Design, s: &Spec, shop: &Shop) -> (Pace, Pace) {
    let widest = s.base.max(s.foot_width());
    let speeds = s.common.material.cutting(s.carbide);
    let mut speed = |size: &Size, cutting| {
        let setting = shop.machines.turn(cutting, widest);
        let formula = if setting.too_fast() {
            "the slowest that the lathe has"
        } else if shop.machines.lathe_known {
            "the lathe's speed next below 1000 v/(pi D), widest diameter"
        } else {
            "next below 1000 v/(pi D) in steps of ISO 229, as shop.toml has no lathe_speeds_rpm"
        };
        let pace = common::spindle(design, size.label(), setting, Cut::Point(&s.common.material, s.carbide));
        design.computed(size, Value::SpindleSpeed(pace.speed()), formula);
        pace
    };
    (speed(&sizes::ROUGHING_SPEED, speeds.rough), speed(&sizes::FINISHING_SPEED, speeds.finish))
}

fn roughing(design: &mut Design, s: &Spec, shop: &Shop) -> Length {
    let cut = design.length_or(
        &read::DEPTH_OF_CUT,
        s.depth_of_cut.as_ref(),
        shop.depth_of_cut(s.common.header.unit),
        "the shop's usual roughing cut per side",
    );
    let left = design.length_or(
        &read::FINISH_ALLOWANCE,
        s.finish_allowance.as_ref(),
        shop.finish_allowance(s.common.header.unit),
        "the shop's usual allowance square to the flank",
    );
    let steps = turning::roughing_steps(s.base, s.tip, s.half_angle, cut, left);
    let thickest = turning::thickest_left(s.half_angle, cut, left);
    design.computed_length(&sizes::THICKEST_LEFT, thickest, "allowance + cut x cos a");
    // To no more figures than a roughing cut holds, on the side that leaves metal: diameters up, stops down.
    let division = by_unit(s.common.header.unit, 0.05, 0.001);
    let whole = |l: Length, round: fn(f64) -> f64, slip: f64| (division * round(l / division + slip)).rounded();
    let rows = steps.iter().enumerate().map(|(i, step)| {
        let (diameter, stop) = (whole(step.diameter, libm::ceil, -1e-6), whole(step.stop, libm::floor, 1e-6));
        vec![Value::Count(i as u32 + 1), Value::Length(diameter), Value::Length(stop)]
    });
    design.tables.push(Table::new(
        sizes::ROUGHING_STEPS_TABLE,
        "Roughing steps, from the stock inwards",
        &["cut", "turn to diameter", "stop at Z from the tip face"],
        rows,
    ));
    cut
}

/// Whether the rollers lie on blocks beside the foot; on a wider foot they lie on the foot itself.
pub fn on_blocks(s: &Spec, roller: Length) -> bool {
    let over = turning::over_rollers(s.base, s.half_angle, roller).rounded();
    s.foot_width().as_mm() <= (over - roller).as_mm()
}

/// Gives the roller, and the blocks that it lies on beside a foot.
fn check_sizes(design: &mut Design, s: &Spec, shop: &Shop) -> (Length, Option<Length>) {
    let roller = design.length_or(
        &read::CHECK_ROLLER,
        s.check_roller.as_ref(),
        shop.check_roller(s.common.header.unit),
        "the shop's usual pair of rollers",
    );
    let over = turning::over_rollers(s.base, s.half_angle, roller);
    design.computed_length(
        &sizes::OVER_ROLLERS,
        over,
        "D + roller (1 + tan(45 deg - a/2)), rollers level with the base circle",
    );
    let blocks = on_blocks(s, roller).then(|| s.foot_height());
    limits_of_check(design, &sizes::OVER_ROLLERS, s, |c| {
        // On blocks of the drawn foot's height a higher foot lifts the base circle over them.
        let level = blocks.map_or(Length::ZERO, |b| c.foot - b);
        turning::over_rollers(c.base + level * turning::taper_ratio(c.half_angle), c.half_angle, roller)
    });
    if let Some(ring) = &s.check_ring {
        let bore = design.given_length(&read::CHECK_RING, ring);
        design.computed_length(
            &sizes::RING_HEIGHT,
            s.foot_height() + turning::ring_height(s.base, s.half_angle, bore),
            "foot + (D - ring)/(2 tan a)",
        );
        limits_of_check(design, &sizes::RING_HEIGHT, s, |c| c.foot + turning::ring_height(c.base, c.half_angle, bore));
    }
    (roller, blocks)
}

/// How many rows the table of the flank's proof has on each side of the right angle.
const PROOF_ROWS: i32 = 3;

/// A proof is worth its name when its doubt is no more than this part of the tolerance. Source: common practice, no source.
const PROOF_SHARE: f64 = 4.0;

/// The size over the same rollers raised, and what half-angle each difference of the two sizes is.
fn flank_proof(design: &mut Design, s: &Spec, roller: Length, blocks: Option<Length>) {
    let nose = s.nose_radius() * (1.0 - s.half_angle.sin());
    let step = by_unit(s.common.header.unit, 1.0, 1.0 / 16.0);
    let Some(rise) = turning::roller_rise(s.height - nose, s.half_angle, roller, step) else { return };
    let limits = s.half_angle_limits();
    let doubt = turning::roller_doubt(s.common.gauge(Instrument::Micrometer).length(), s.half_angle, rise);
    if doubt * PROOF_SHARE > (limits.upper - limits.lower) / 2.0 {
        return;
    }
    let rise = design.computed_length(&sizes::ROLLER_RISE, rise, "as high as the flank carries them");
    let raised = |c: Corner| {
        let level = blocks.map_or(Length::ZERO, |b| c.foot - b) - rise;
        turning::over_rollers(c.base + level * turning::taper_ratio(c.half_angle), c.half_angle, roller)
    };
    let over = raised(Corner { base: s.base, half_angle: s.half_angle, foot: s.foot_height() });
    let formula = "size over two rollers - 2 rise tan a";
    let over = design.computed_length(&sizes::OVER_ROLLERS_RAISED, over, formula);
    limits_of_check(design, &sizes::OVER_ROLLERS_RAISED, s, raised);
    roller_length(design, s, (over - roller) / 2.0, blocks.is_some());
    gauged::rests_on(design, &s.common, Instrument::Micrometer);
    let formula = "sqrt(2) U cos^2 a/(2 rise), U of the micrometer";
    design.computed(&sizes::HALF_ANGLE_DOUBT, Value::Angle(doubt), formula);
    let difference = |a: Angle| rise * turning::taper_ratio(a);
    let right = difference(s.half_angle);
    let ends = (difference(limits.lower) - right, difference(limits.upper) - right);
    let rows = (-PROOF_ROWS..=PROOF_ROWS).map(|i| {
        let share = f64::from(i.abs()) / f64::from(PROOF_ROWS);
        let read = (right + if i < 0 { ends.0 } else { ends.1 } * share).rounded();
        let is = turning::half_angle_over_rollers(over + read, over, rise);
        vec![Value::Length(read), Value::Angle(is), Value::Angle(s.half_angle - is)]
    });
    design.tables.push(Table::new(
        sizes::FLANK_PROOF_TABLE,
        "Half-angle from the two sizes over rollers",
        &["first size less second", "half-angle", "slide to be turned by"],
        rows,
    ));
}

/// Raised rollers lie nearer to the axis than the cone is wide below, so that their blocks stand left and right of it: how
/// far a roller reaches then, with what lies on each block.
fn roller_length(design: &mut Design, s: &Spec, axis: Length, beside_foot: bool) {
    let unit = s.common.header.unit;
    let round = if beside_foot { s.foot_width() } else { s.base };
    let span = turning::roller_span(round, axis);
    if span <= Length::ZERO {
        return;
    }
    let step = by_unit(unit, 1.0, 1.0 / 16.0);
    let length = step * ((span + by_unit(unit, ON_BLOCKS.0, ON_BLOCKS.1)) / step - 1e-9).ceil();
    let formula = "chord of what the blocks stand beside, and half of 10 mm (3/8 in) on each of them";
    design.computed_length(&sizes::ROLLER_LENGTH, length.rounded(), formula);
}

/// What of a roller lies on its two blocks, mm and inch. Source: common practice, no source.
const ON_BLOCKS: (f64, f64) = (10.0, 0.375);

/// The most that a dial is let run over. Source: dials of 10 mm and of 1/2 in; common practice, no source.
const DIAL_REACH: Length = Length::mm(8.0);

/// What a dial must read along the finished flank, pulled in by what the dial leaves open; nothing where that leaves no room.
fn flank_by_dial(design: &mut Design, s: &Spec) {
    let unit = s.common.header.unit;
    let limits = s.half_angle_limits();
    let nose = s.nose_radius() * (1.0 - s.half_angle.sin());
    let reach = DIAL_REACH / limits.upper.tan();
    let step = by_unit(unit, 1.0, 1.0 / 16.0);
    let travel = (step * ((s.height - nose).min(reach) / step).floor()).rounded();
    if travel < step {
        return;
    }
    let open = s.common.gauge(Instrument::DialIndicator).length();
    let read = |a: Angle| turning::dial_over_travel(travel, a);
    let (lower, upper) = ((read(limits.lower) + open).rounded(), (read(limits.upper) - open).rounded());
    let middle = read(s.half_angle).rounded();
    if lower >= middle || upper <= middle || lower < LEAST_LIMIT {
        return;
    }
    let said = show::length(travel, unit);
    gauged::rests_on(design, &s.common, Instrument::DialIndicator);
    design.computed_length(&sizes::FLANK_DIAL_TRAVEL, travel, "what flank and dial have room for");
    let dial = sizes::FLANK_DIAL.called(format!("dial on the finished flank over {said}"));
    design.computed_length(&dial, middle, "travel x tan a");
    let by = "limits of half-angle less U of the dial".into();
    design.limit(&dial, Limits { lower, upper, by, confirmed: limits.confirmed });
}

/// A cone as it may come out within its limits.
#[derive(Clone, Copy)]
struct Corner {
    base: Length,
    half_angle: Angle,
    foot: Length,
}

/// Limits of a check size: the least and greatest that it reads at all corners of the limits of base, half-angle and foot.
/// It rises or falls steadily with each of them, so that no cone inside reads beyond the corners.
fn limits_of_check(design: &mut Design, size: &Size, s: &Spec, reading: impl Fn(Corner) -> Length) {
    let (angle, base, foot) = (s.half_angle_limits(), s.base_limits(), s.foot_limits());
    let mut least_most: Option<(Length, Length)> = None;
    for base in [base.0, base.1] {
        for half_angle in [angle.lower, angle.upper] {
            for foot in [foot.0, foot.1] {
                let read = reading(Corner { base, half_angle, foot });
                least_most = Some(least_most.map_or((read, read), |(l, m)| (l.min(read), m.max(read))));
            }
        }
    }
    let Some((lower, upper)) = least_most.map(|(l, m)| (l.rounded(), m.rounded())) else { return };
    let by = "limits of base, half-angle and foot".into();
    design.limit(size, Limits { lower, upper, by, confirmed: angle.confirmed });
}

/// The bolt as it is drawn tight; none where a weld holds the cone or it is only printed.
pub fn clamped(s: &Spec) -> Option<Bolted<'_>> {
    let bolt = s.bolt.as_ref().filter(|_| !s.weld_on && !s.common.material.printed)?;
    let (into, recess) = match &bolt.kind {
        BoltKind::FromBelow { depth, .. } => (Some((&s.common.material, *depth)), Recess::None),
        BoltKind::Through { recess, .. } => (None, *recess),
    };
    let between = packed::thickness(bolt.packing.as_ref());
    // A countersunk screw is as long as it is deep, head and all.
    let part = match (&bolt.kind, recess) {
        (BoltKind::FromBelow { .. }, _) => Length::ZERO,
        (_, Recess::Counterbore { depth, .. }) => s.height + s.foot_height() - depth,
        _ => s.height + s.foot_height(),
    };
    let washers = if into.is_none() && recess == Recess::None { 2 } else { 1 };
    let wall = s.crossbar_wall.as_ref().map(|w| w.value);
    let wall_is = ("wall of the crossbar", "crossbar_wall");
    let stack = Stack { part: part + between, wall, wall_is, washers, thread: into.map(|(_, depth)| depth) };
    let (head, class, thread) = (bolt.head, bolt.steel.class, bolt.size);
    Some(Bolted { head, class, thread, count: 1, into, stack, tapped_instead: None })
}

/// The hole in what the cone stands on; a recess for the foot has its own step.
pub fn crossbar_hole(design: &mut Design, s: &Spec) {
    if design.dimension(&sizes::CROSSBAR_HOLE).is_none() {
        return;
    }
    let Some(bolt) = &s.bolt else { return };
    let pace = common::drill_speed(design, &s.common.machines, &s.crossbar_material, bolt.clearance);
    let drill = common::drill(common::drill_within(design, &s.common, &sizes::CROSSBAR_HOLE), s.common.header.unit);
    let wall = match &s.crossbar_wall {
        Some(wall) => format!("its wall of {}", show::length_both(wall.value, s.common.header.unit)),
        None => "its wall".into(),
    };
    design
        .step("drill press", format!(
            "Drill the crossbar for the bolt, {drill}, through {wall} at {pace}, no faster where it is drilled by hand; deburr. Open the far wall of a hollow bar for washer and spanner."
        ))
        .measure(&sizes::CROSSBAR_HOLE, "calliper")
        .tool(format!("twist drill {drill}"));
    common::at_the_drill(design);
}

/// The weld all round the foot.
pub fn weld_of<'s>(s: &'s Spec, forces: Option<&Forces>) -> Weld<'s> {
    let wall = s.crossbar_wall.as_ref().map(|w| w.value);
    let foot = s.foot.as_ref().map(|f| f.value);
    Weld {
        what: "cone",
        onto: &s.crossbar_material,
        assumed: !s.crossbar_written,
        line_load: forces.and_then(|f| weld_line(s, f)),
        load_key: "seat_load",
        thinner: wall.into_iter().chain(foot).reduce(Length::min),
        runs: s.foot_width() * std::f64::consts::PI,
    }
}
