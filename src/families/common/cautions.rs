//! Cautions that stand beside the work of several families.

use crate::record::design::{Check, Design, Verdict};
use crate::source::Source;

const TIE_DOWN: Check = Check {
    key: "not_a_tie_down",
    what: "a locator is not a tie-down",
    worst: Verdict::Ok,
    source: Source::Published(
        "49 CFR 393.102: 0.8 g forward, 0.5 g rearward and sideways, by securement that is not the locator",
    ),
};

const EITHER: Check = Check {
    source: Source::Published(
        "where it goes on a road 49 CFR 393.102: 0.8 g forward, 0.5 g rearward and sideways, by securement that is not the locator; where it stands still the code of the place",
    ),
    ..TIE_DOWN
};

const STANDING: Check = Check {
    source: Source::Derived("a cone holds nothing upwards; wind, ice, earthquake and people by the code of the place"),
    ..TIE_DOWN
};

/// Where something hangs over the work.
const HOISTING: &[&str] = &["stand the frame on blocks", "hoist", "frame"];

/// Places with a machine that throws chips or sparks.
const MACHINES: &[&str] = &["lathe", "drill", "mill", "grinder"];

/// Says that a locator holds nothing down; what the parts stand on drives, or it stays where it is, or nobody has said.
pub fn locator(design: &mut Design, drives: Option<bool>) {
    let (check, carried) = match drives {
        Some(true) => (&TIE_DOWN, "Anything carried on a road or over people"),
        Some(false) => (&STANDING, "Anything that stands or is hoisted over people"),
        None => (&EITHER, "Anything carried on a road, standing or hoisted over people"),
    };
    design.note(check, "cones and cups say where the frame goes; straps or bolts hold it there");
    design.caution(
        &[],
        "A locator is no tie-down: secure the load to the rules of the place.",
        format!(
            "These parts locate. They do not hold the load down: secure it to the rules of the place. {carried} wants a look by a qualified person; local codes and licensed practice rule."
        ),
    );
}

/// Lines for work with a hung load.
pub fn hoisting(design: &mut Design) {
    design.caution(HOISTING, "Nobody under a hung load, no hands between frame and cone; lower slowly.", "Nobody under a hung load, no hands between frame and cone: steer it with a line. Lower slowly; a touch at 50 mm/s (2 in/s) doubles the load on the seats.");
    design.caution(
        HOISTING,
        "Slings and hooks looked over today; weight known, inside the rating on the tag.",
        "Look slings and hooks over each day, know the weight, stay inside the rating on the tag.",
    );
}

/// Lines for every machine: said once, whatever the part goes through.
pub fn at_machines(design: &mut Design) {
    design.caution(MACHINES, "Safety glasses, ears covered; chips by brush, machine stopped.", "Safety glasses at every machine and at the grinder, hearing protection where it is loud. Chips are taken away with a brush or hook, machine stopped.");
}

/// Lines for the lathe.
pub fn at_the_lathe(design: &mut Design) {
    at_machines(design);
    design.caution(&["lathe"], "Chuck key out; no gloves, no loose sleeves; bar behind the spindle supported.", "Remove the chuck key before the spindle starts. No gloves, loose sleeves or hand-held cloth at turning work. Bar that sticks out of the back of the spindle must be supported: it whips.");
}

/// Lines for the drill press.
pub fn at_the_drill(design: &mut Design) {
    design.caution(
        &["drill"],
        "Clamp the work at the drill press; no gloves near the spindle.",
        "Clamp the work at the drill press: a drill that grabs at break-through spins it. No gloves near the spindle.",
    );
}

/// Steps and lines for welding a part on.
pub fn weld_steps(design: &mut Design, what: &str, zinc: bool, preheated: bool) {
    let (warm, cool) = if preheated {
        (
            "Warm both parts right through to 200 °C (392 °F), or what the steel's maker says, by torch and temperature crayon, and keep them there; dry low-hydrogen filler. ",
            "let it cool slowly under sand or wool, overnight",
        )
    } else {
        ("", "let it cool")
    };
    design.step("welder", format!("{warm}Set the {what} where it belongs, tack at four points opposite each other, measure. Weld in short runs opposite each other, {cool}, measure again: a weld pulls."));
    design.caution(&["welder"], "Shield, gloves, covered arms, screens; keep a fire watch for half an hour.", "Arc light burns eyes and skin: welding shield, gloves, covered arms, screens for others. Clear away what burns and keep a fire watch for half an hour after the last arc.");
    design.caution(&["welder"], "Never weld a closed tube or tank: drill a vent first.", "Never weld a closed tube or tank: drill a vent first. Weld by the rules of the place and within what you are qualified for.");
    if zinc {
        design.caution(&["welder"], "Strip zinc 100 mm (4 in) on each side: its fume is poisonous.", "Zinc gives poisonous fume when it is welded: strip it 100 mm (4 in) on each side, work in fresh air with the head out of the plume.");
    } else {
        design.caution(&["welder"], "Strip zinc 100 mm (4 in) on each side where there is any: its fume is poisonous.", "Galvanised or plated steel gives poisonous zinc fume when it is welded: strip it 100 mm (4 in) on each side, fresh air, head out of the plume.");
    }
}
