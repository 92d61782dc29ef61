//! The order of work of an adapter: cut or sawn, turned from both sides, drilled and tapped, and bolted between its mates.

use crate::families::common::gripped;
use crate::families::common::overhang::{Chucked, Reach};
use crate::families::common::printed::{self, Print};
use crate::families::common::{self, Cut, bolted, hardening};
use crate::formulas::bolts;
use crate::record::design::{Bar, Design};
use crate::record::key::Size;
use crate::record::show;
use crate::shop::by_unit;
use crate::standards::{processes, stock};
use crate::units::{Angle, Length};

use super::bolting;
use super::read::{Face, Spec, Way, Which};
use super::{shape, sizes};

/// All of it.
pub fn operations(design: &mut Design, s: &Spec) {
    if s.common.material.printed {
        as_printed(design, s);
    } else {
        if s.spacer {
            from_bar(design, s)
        } else {
            from_plate(design, s)
        }
        if !s.spacer && s.is_turned() {
            turned_plate(design, s);
        }
        for face in s.faces() {
            holes(design, s, face);
        }
        if s.common.material.hardened {
            hardening::harden(design, &s.common.material, &common::sizes::HARDNESS, "the adapter", None);
        }
    }
    let fixed = design.operations.len();
    for face in s.faces() {
        join(design, s, face);
    }
    design.fixed_from(fixed);
}

fn size(s: &Spec, l: Length) -> String {
    show::length_both(l.rounded(), s.common.header.unit)
}

/// Sizes of the middle in a face, with what they are measured with.
fn of_face(s: &Spec, face: &Face) -> Vec<(Size, &'static str)> {
    let which = face.which;
    let mut all = Vec::new();
    if let Some(r) = &face.register {
        all.push((sizes::register(which), if r.spigot { "micrometer" } else { "bore gauge" }));
        all.push((sizes::register_height(which), "depth gauge"));
    }
    if face.ring.is_some() {
        all.push((sizes::groove_outer(which), "calliper"));
        all.push((sizes::groove_width(which), "calliper"));
        all.push((sizes::groove_depth(which), "depth gauge"));
    }
    if let Some(bore) = bore_size(s, which) {
        all.push((bore.clone(), if s.bore_class.is_some() { "bore gauge" } else { "calliper" }));
    }
    all
}

/// The bore that is measured from a face.
fn bore_size(s: &Spec, which: Which) -> Option<&'static Size> {
    s.bore.as_ref()?;
    match (which, &s.bore_below) {
        (Which::Upper, _) => Some(&sizes::BORE),
        (Which::Lower, Some(_)) => Some(&sizes::BORE_BELOW),
        (Which::Lower, None) => None,
    }
}

fn measured(design: &mut Design, of: Vec<(Size, &'static str)>) {
    if let Some(last) = design.operations.last_mut() {
        for (size, with) in of {
            last.measure(&size, with);
        }
    }
}

/// A print comes with its holes and grooves; holes for a tap are cleared and tapped by hand.
fn as_printed(design: &mut Design, s: &Spec) {
    let over = |f: &Face| f.spigot_height();
    let high = s.through();
    // A spigot on both faces is refused when the file is read.
    let lies = if over(&s.lower) > Length::ZERO { "flat on its upper face" } else { "flat on its lower face" };
    let print = Print { what: "adapter", lies, extents: (s.outside.value, s.outside.value, high), tells: false };
    printed::step(design, &s.common, &print)
        .measure(&sizes::OUTSIDE_DIAMETER, "calliper")
        .measure(&sizes::THICKNESS, "calliper");
    for face in s.faces() {
        let mut all = of_face(s, face);
        all.iter_mut().for_each(|(_, with)| *with = "calliper");
        all.push((sizes::hole(face.which), "calliper"));
        measured(design, all);
    }
    for face in s.faces().into_iter().filter(|f| f.tapped()) {
        let drill = common::drill(face.hole, s.common.header.unit);
        let text = format!(
            "Clear the holes of the {} face with a drill of {drill}, turned by hand, and tap {} by hand; a thread in a print is for the try-out only.",
            face.which.word(),
            face.thread
        );
        design
            .step("bench", text)
            .tool(format!("twist drill {drill}"))
            .tool(format!("tap {}, taper and bottoming", face.thread));
    }
}

fn from_plate(design: &mut Design, s: &Spec) {
    let plate = format!("{} plate {}", hardening::bought(&s.common.material), size(s, shape::blank_thickness(s)));
    design.tools.push(format!(
        "{} x {plate}, cut out from the DXF: layer CUT is cut, layer MARK only marked",
        s.common.header.count
    ));
    let under = if s.is_turned() && shape::cut_bore(s).is_some() {
        format!(" Its middle hole is cut {} under size and turned.", size(s, shape::SKIN))
    } else {
        String::new()
    };
    let text = format!(
        "Order the blank in {plate}, by {}. Sizes in the DXF are finished sizes but for holes that are tapped.{under}",
        processes::beam(shape::blank_thickness(s))
    );
    design.step("laser cutter", text).measure(&sizes::OUTSIDE_DIAMETER, "calliper");
    let hard = common::ordered::hard_edge(&s.common.material);
    design.step("bench", format!("Deburr both faces.{hard}"));
    if !s.is_turned() {
        let mut all = vec![(sizes::THICKNESS.clone(), "micrometer")];
        all.extend(s.bore.as_ref().map(|_| (sizes::BORE.clone(), "calliper")));
        measured(design, all);
    }
}

/// The speeds of roughing and finishing over the whole face.
fn speeds(design: &mut Design, s: &Spec) -> (String, String) {
    let (material, machines) = (&s.common.material, &s.common.machines);
    let cutting = machines.cutting(material);
    let mut speed = |speed| {
        common::spindle(design, "turning", machines.turn(speed, s.outside.value), Cut::point(machines, material))
            .to_string()
    };
    (speed(cutting.rough), speed(cutting.finish))
}

/// What is turned in a face, in words, from the outside inwards.
fn side(design: &Design, s: &Spec, face: &Face) -> String {
    let which = face.which;
    let mut text = String::new();
    if let Some(r) = &face.register {
        let across = common::between(design, &sizes::register(which));
        text += &if r.spigot {
            format!(
                ", turn the spigot to {across}, {} high, its root cut sharp or with a small undercut, its edge chamfered",
                size(s, r.height.value)
            )
        } else {
            format!(", bore the recess to {across}, {} deep, its edge chamfered", size(s, r.height.value))
        };
    }
    if let Some(r) = &face.ring {
        let (inner, outer) = r.walls();
        text += &format!(
            ", cut the groove from {} to {} across, {} deep, its floor round by {}, its edges broken by a scraper, no tool marks across it ({} or finer, sides and floor; the mate's face {})",
            size(s, inner),
            size(s, outer),
            common::between(design, &sizes::groove_depth(which)),
            size(s, r.row.radius),
            show::roughness(Length::um(3.2), s.common.header.unit),
            show::roughness(Length::um(1.6), s.common.header.unit)
        );
    }
    text
}

/// The bore, from the upper face.
fn bored(design: &Design, s: &Spec) -> String {
    match (&s.bore, &s.bore_below) {
        (None, _) => String::new(),
        (Some(bore), None) => {
            let halves =
                if in_halves(s, bore.value) { ", a little over half way, the rest from the other end" } else { "" };
            format!(", bore to {}{halves}", common::between(design, &sizes::BORE))
        }
        (Some(_), Some(_)) => format!(
            ", bore straight to the smaller of {} and {}, then the cone between them with the top slide set over",
            common::between(design, &sizes::BORE),
            common::between(design, &sizes::BORE_BELOW)
        ),
    }
}

/// Whether a boring bar makes a straight bore half from each end.
fn in_halves(s: &Spec, bore: Length) -> bool {
    s.bore_below.is_none() && Reach::BoredFromBoth.in_halves(s.bore_length(), bore)
}

/// The rest of a bore that was begun from the upper face.
fn rest_of_bore(design: &Design, s: &Spec) -> String {
    if !s.bore.as_ref().is_some_and(|bore| in_halves(s, bore.value)) {
        return String::new();
    }
    format!(", the bore run true by a dial, bore the rest of it to {}", common::between(design, &sizes::BORE))
}

/// A blank from plate, turned from both sides.
fn turned_plate(design: &mut Design, s: &Spec) {
    let (rough, finish) = speeds(design, s);
    let (above, bore) = (side(design, s, &s.upper), bored(design, s));
    let text = format!(
        "The upper face: on the face plate with three clamps at the rim, packing under it, run a dial along the face and round the outside until both are true. Face it inside of the clamps, the clamps moved one by one for the rim{above}{bore}. Facing and roughing {rough}, finishing {finish}. Break the edges."
    );
    design.step("lathe", text);
    measured(design, of_face(s, &s.upper));
    let hold = if s.upper.register.is_some() || s.bore.is_some() {
        "run a dial round what was turned"
    } else {
        "run a dial round the outside"
    };
    let below = rest_of_bore(design, s) + &side(design, s, &s.lower);
    let thick = common::between(design, &sizes::THICKNESS);
    let text = format!(
        "The lower face: turn it over on the face plate with three clamps, the finished face on packing of one height, {hold} until it is true. Face to {thick} between the faces{below}; {rough}, finishing {finish}. Break the edges."
    );
    design.step("lathe", text).measure(&sizes::THICKNESS, "micrometer");
    measured(design, of_face(s, &s.lower));
    common::at_the_lathe(design);
    design.caution(&["lathe"], "Clamps and corners on the face plate swing wide: turn it round by hand first.", "Clamps on the face plate swing beyond the work: turn it round by hand before the spindle starts, begin slowly, and stop it for every clamp that is moved.");
}

/// A spacer from bar.
fn from_bar(design: &mut Design, s: &Spec) {
    let unit = s.common.header.unit;
    let (material, machines) = (&s.common.material, &s.common.machines);
    let outside = s.outside.value;
    let bar = stock::round_to_turn(outside, unit);
    let out = s.through() + common::turned_ends(unit);
    let chucked = Chucked::new(bar, out, s.bore.is_some(), unit);
    let grip = chucked.in_the_chuck();
    design.bars.push(Bar {
        material: hardening::bought(material),
        across: Some(bar),
        count: s.common.header.count,
        each: out + grip,
        grip,
        what: None,
    });
    let (rough, finish) = speeds(design, s);
    let off = chucked.comes_off(design, "parting off", machines, material);
    let or_saw = if chucked.slender() { "" } else { ", or saw it off" };
    let drilled = if s.bore.is_some() {
        format!("{}, drill under size in steps", chucked.for_the_drill())
    } else {
        String::new()
    };
    let (above, bore) = (side(design, s, &s.upper), bored(design, s));
    let text = format!(
        "The upper face: chuck {}. {} the outside to {}{drilled}{bore}{above}; facing and roughing {rough}, finishing {finish}. Break the edges, {} {} long{}{or_saw}.",
        chucked.how(),
        chucked.first_cut(),
        common::between(design, &sizes::OUTSIDE_DIAMETER),
        off.how,
        size(s, s.through() + by_unit(unit, 1.0, 0.04)),
        off.at
    );
    let step = design.step("lathe", text).measure(&sizes::OUTSIDE_DIAMETER, "calliper");
    chucked.tools(step);
    chucked.judge(design);
    measured(design, of_face(s, &s.upper));
    let below = rest_of_bore(design, s) + &side(design, s, &s.lower);
    let text = format!(
        "The lower face: {}. Face to {} between the faces{below}; {rough}, finishing {finish}. Break the edges.",
        gripped::second_grip(s.thickness.value, outside, unit),
        common::between(design, &sizes::THICKNESS)
    );
    design.step("lathe", text).measure(&sizes::THICKNESS, "micrometer");
    measured(design, of_face(s, &s.lower));
    common::at_the_lathe(design);
}

/// The holes of a pattern: cut already, or drilled from its face; tapped; counterbored from the other.
fn holes(design: &mut Design, s: &Spec, face: &Face) {
    let unit = s.common.header.unit;
    let which = face.which;
    let cut = !s.spacer && shape::cut_width(s, face).is_some();
    let hole = sizes::hole(which);
    let diameter = if face.tapped() { face.hole } else { common::drill_within(design, &s.common, &hole) };
    let drill = common::drill(diameter, unit);
    if cut && !face.tapped() {
        design.step("bench", format!("Deburr the {} holes of the {} face.", face.number.value, which.word()));
        measured(design, vec![(hole, "calliper")]);
    } else {
        drilled(design, s, face, &drill, cut);
    }
    let Way::Counterbored(head) = face.way else { return };
    common::at_the_drill(design);
    let speed = common::drill_speed(design, &s.common.machines, &s.common.material, head.seat_diameter);
    let text = format!(
        "Turn it over: counterbore the {} holes of the {} face from the other one to {}, {} deep, the pilot in the hole, at {speed}.",
        face.number.value,
        which.word(),
        size(s, head.seat_diameter),
        size(s, head.seat_depth)
    );
    design
        .step("drill press", text)
        .measure(&sizes::counterbore(which), "calliper")
        .measure(&sizes::counterbore_depth(which), "depth gauge")
        .tool(format!("counterbore {} with a pilot of {}", size(s, head.seat_diameter), size(s, face.hole)));
}

fn drilled(design: &mut Design, s: &Spec, face: &Face, drill: &str, cut: bool) {
    let which = face.which;
    common::at_the_drill(design);
    let speed = common::drill_speed(design, &s.common.machines, &s.common.material, face.hole);
    let n = face.number.value;
    let start = if cut {
        format!("The {n} holes of the {} face are cut under size.", which.word())
    } else {
        let chord = bolts::chord(face.circle.value, n);
        let chord = design.computed_length(&sizes::chord(which), chord, "D sin(180°/n)");
        let first = face.first.as_ref().map_or(Angle::ZERO, |a| a.value);
        format!(
            "The {n} holes of the {} face: set out the circle of {} from the middle, the first hole at {} from x, step it into {n} from there with dividers set to {}, centre-punch, drill a pilot hole.",
            which.word(),
            size(s, face.circle.value),
            design.say().angle(first),
            size(s, chord)
        )
    };
    let depth = match face.drilled() {
        Some(deep) => format!("{} deep to its corner, by the depth stop", size(s, deep)),
        None => "through".to_string(),
    };
    let tap = match (face.tapped(), &face.thread_depth) {
        (true, Some(depth)) => {
            format!(", tap {} by hand, {} of full thread, with oil", face.thread, size(s, depth.value))
        }
        (true, None) => format!(", tap {} by hand, with oil", face.thread),
        _ => String::new(),
    };
    let text = format!("{start} Drill {drill} {depth} at {speed}, countersink lightly{tap}.");
    let hole = sizes::hole(which);
    let step = design.step("drill press", text).tool(format!("twist drill {drill}"));
    if !cut {
        step.tool("drill for the pilot");
    }
    if face.tapped() {
        step.tool(format!("tap {}, taper and bottoming", face.thread));
        if face.thread_depth.is_some() {
            step.measure(&sizes::drill_depth(which), "depth gauge");
            step.measure(&sizes::thread_depth(which), "screw and depth gauge");
        }
    } else {
        step.measure(&hole, "calliper");
    }
}

/// The mate of a face is put on: seal, register, bolts by their torque.
fn join(design: &mut Design, s: &Spec, face: &Face) {
    let which = face.which;
    let b = bolting::bolted(s, face);
    let rounds = if face.number.value > 3 { ", crosswise in two rounds" } else { ", in turn in two rounds" };
    let Some(tight) = bolted::drawn_tight(design, &b, "it", rounds) else { return };
    let mut text = format!("The mate of the {} face: wipe both faces clean and dry. ", which.word());
    if let Some(r) = &face.ring {
        text += &format!(
            "Grease the O-ring {} x {} thinly, with grease that its rubber stands, and lay it into its groove without a twist. ",
            size(s, r.inside.value),
            size(s, r.section.value)
        );
        let ring = format!("O-ring {} x {}", size(s, r.inside.value), size(s, r.section.value));
        let used = format!("{} face, one for each; NBR of 70 Shore A unless something else is wanted", which.word());
        design.wants.uses(ring, used);
        design.wants.uses("silicone grease, for NBR", "the O-ring");
    }
    if let Some(gasket) = &face.gasket {
        text += &format!(
            "Cut the gasket, {} thick, by knife along the paper or from its own DXF, and lay it on. ",
            size(s, gasket.value)
        );
        design.wants.uses("gasket sheet", "gaskets of an adapter");
    }
    if face.register.is_some() {
        text += "Let the register in by hand, straight; it goes in without a knock. ";
    }
    text += &tight;
    let what = format!("{} face of an adapter", which.word());
    let step = design.step("bench", text).tool(bolted::laid_out(&b, &what));
    if which == Which::Upper {
        step.table(sizes::BOLTS_TABLE);
    }
}
