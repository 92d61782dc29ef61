//! What may be moved to clear a finding of a landing: by the exact part, not by draws.

use crate::families::common::levers::{DIRECTION, HALF_ANGLE, PLATE_STEELS, SIZE};
use crate::record::lever::{Grid, Lever, Remedy};

const SWING: Lever = Lever::free("hoist_swing", Grid::Length(0.1, 0.005, 0.0, 100.0))
    .stated("once hand lines or posts keep it from swinging further");
const TIE: Lever = Lever::free("tie_down", Grid::Load(100_000.0));
const PAD: Lever = Lever::free("seat.*.pad", Grid::Length(0.05, 0.002, 0.5, 500.0));
const ROOM: Lever = Lever::free("seat.*.clearance", Grid::Length(0.5, 0.02, 0.5, 50.0));
const TURNED: Lever = Lever::free("seat.*.direction", DIRECTION).aimed();
const KIND: Lever = Lever::free("seat.*.kind", Grid::Words(&["clear"]));
const HOLE: Lever = Lever::of_mate("seat.*.cup", "hole.diameter", SIZE);
const SLOT: Lever = Lever::of_mate("seat.*.cup", "hole.length", SIZE);
const SLOT_TURNED: Lever = Lever::of_mate("seat.*.cup", "hole.direction", DIRECTION).aimed();
const CUP_SIDE: Lever = Lever::of_mate("seat.*.cup", "side_factor", Grid::Number(0.01, 0.0, 5.0));
const CUP_LOAD: Lever = Lever::of_mate("seat.*.cup", "seat_load", Grid::Load(1_000_000.0));
const CUP_STEEL: Lever = Lever::bought_for_mate("seat.*.cup", "material", PLATE_STEELS);
const TIP: Lever = Lever::of_mate("seat.*.cone", "tip_diameter", SIZE);
const TALL: Lever = Lever::of_mate("seat.*.cone", "height", SIZE);
const ANGLE: Lever = Lever::of_mate("seat.*.cone", "half_angle", HALF_ANGLE);
const CENTRE_X: Lever = Lever::free("centre_of_mass.0", Grid::Length(5.0, 0.25, -5000.0, 5000.0)).stated(SHIFTED);
const CENTRE_Y: Lever = Lever::free("centre_of_mass.1", Grid::Length(5.0, 0.25, -5000.0, 5000.0)).stated(SHIFTED);
const SHIFTED: &str = "once weight was moved on the frame";
/// Greased, in a few steps; drier is no remedy.
const FRICTION: Lever = Lever::free("friction", Grid::Number(0.05, 0.1, 0.3)).stated("once they are greased");
const TILT: Lever = Lever::free("trailer_tilt", Grid::Angle(0.1, 0.0, 30.0)).stated("once it stands so level");
const PITCH: Lever = Lever::free("pitch", Grid::Angle(0.1, 0.0, 45.0)).stated("once it is hung so");

/// Remedies by check.
pub const REMEDIES: &[Remedy] = &[
    Remedy {
        checks: &["survey_cones", "survey_cups"],
        levers: &[],
        otherwise: "a reading is no choice: take the one that is named again and write what the tape says",
    },
    Remedy {
        checks: &["survey_cones_unseen", "survey_cups_unseen"],
        levers: &[],
        otherwise: "one more line that crosses the doubtful one, from another point, would show it",
    },
    Remedy {
        checks: &["stands", "heat_no_place"],
        levers: &[CENTRE_X, CENTRE_Y],
        otherwise: "move weight on the frame, or a seat further out",
    },
    Remedy {
        checks: &["seats_fully", "one_place", "all_bear", "level"],
        levers: &[SLOT, KIND, ROOM],
        otherwise: "shim what the list of shims names; where it names nothing the cups lie off their cones: bring them over; where the set is not yet one seat round, one slot and the others clear, make it so",
    },
    Remedy {
        checks: &["all_round", "arrangement"],
        levers: &[KIND, SLOT, ROOM],
        otherwise: "make one cup round and one a slot, the others clear",
    },
    Remedy {
        checks: &["capture", "hinged_first", "hinged_second", "slope_capture"],
        levers: &[ROOM, SWING, HOLE, TIP, TILT, PITCH],
        otherwise: "guide the frame by hand lines or posts while it comes down, never by hands under it",
    },
    Remedy {
        checks: &["ride_off", "slope_ride_off"],
        levers: &[TIE, ANGLE, CENTRE_X, CENTRE_Y],
        otherwise: "tie it down before it moves; a locator is not a tie-down",
    },
    Remedy {
        checks: &["tie_down_enough"],
        levers: &[TIE],
        otherwise: "tie it down with what the last step asks for, and write that or leave tie_down out",
    },
    Remedy {
        checks: &["comes_free", "slides_home"],
        levers: &[FRICTION, ANGLE],
        otherwise: "grease the cones; a half-angle of 20 to 45 degrees comes free",
    },
    // Every trial of these takes as long as all else of the landing.
    Remedy {
        checks: &["left_hanging"],
        levers: &[FRICTION],
        otherwise: "grease the cones, write their friction, and rock the frame home",
    },
    Remedy {
        checks: &["slope_home"],
        levers: &[FRICTION],
        otherwise: "level what carries the cones, grease the cones and rock the frame home",
    },
    Remedy {
        checks: &["seating_share"],
        levers: &[],
        otherwise: "it is a matter of chance: measure what its shares name most, then shim and open holes to what was measured",
    },
    Remedy {
        checks: &["comes_back"],
        levers: &[SWING, FRICTION],
        otherwise: "the largest of its causes stands first in the table of repeatability",
    },
    Remedy {
        checks: &["clear_nose"],
        levers: &[TALL, KIND],
        otherwise: "a taller cone there, or a pad and no cone: kind = \"pad\"",
    },
    Remedy {
        checks: &["cup_seat_load"],
        levers: &[CUP_LOAD],
        otherwise: "write the load of the table of loads into the files of the cups and cones",
    },
    Remedy {
        checks: &["cup_side_factor"],
        levers: &[CUP_SIDE],
        otherwise: "write the force across as side_factor, a share of seat_load, into the files of cup and cone",
    },
    Remedy {
        checks: &["slot_direction"],
        levers: &[TURNED, SLOT_TURNED],
        otherwise: "turn the slot to the line that is named",
    },
    Remedy {
        checks: &["slot_travel", "clear_room", "clear_hole", "pad_land"],
        levers: &[SLOT, ROOM, HOLE, PAD],
        otherwise: "open the hole as the finding says",
    },
    Remedy {
        checks: &["settling_uneven"],
        levers: &[CUP_STEEL],
        otherwise: "set the frame down several times, measure the seats, and shim after that",
    },
    Remedy {
        checks: &["heat"],
        levers: &[SLOT, KIND],
        otherwise: "it grows freely with one seat round, one a slot that points at it and the others clear, each with the room that the table of heat asks for",
    },
    Remedy {
        checks: &["stands_agree", "stands_level", "stands_bears", "stands_room", "stands_weld"],
        levers: &[],
        otherwise: "shim, open or measure as it says, and record what is then",
    },
    Remedy { checks: &["hinged_over"], levers: &[PITCH], otherwise: "let it down level" },
];
