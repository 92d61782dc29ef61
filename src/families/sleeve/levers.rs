//! What may be moved to clear a finding of a sleeve, a ring or a bush.

use crate::families::common::levers::{FINE, HOLES, ROUGH, SHAFTS, SIZE, SLEEVES, SMALL, STEELS};
use crate::record::lever::{Grid, Lever, Remedy};

/// Holes of a bush before it is pressed and of a ring, from loose to tight.
const OUTSIDE: Lever = Lever::free("outside_class", SHAFTS);
const BORE_CLASS: Lever = Lever::free("bore_class", HOLES);
const SHAFT_CLASS: Lever = Lever::free("shaft.class", SHAFTS);
const HOUSING_CLASS: Lever = Lever::free("housing.class", HOLES);
const OUTSIDE_DIAMETER: Lever = Lever::free("outside_diameter", SIZE);
const BORE: Lever = Lever::free("bore", SIZE);
const LENGTH: Lever = Lever::free("length", SIZE);
const STEEL: Lever = Lever::bought("material", SLEEVES);
const SHAFT_DIAMETER: Lever = Lever::free("shaft.diameter", FINE);
const HOUSING_DIAMETER: Lever = Lever::free("housing.diameter", FINE);
const HUB: Lever = Lever::free("pressed_in.hub_outside", ROUGH);
const ROUGHNESS: Lever = Lever::free("pressed_in.roughness", Grid::Length(0.0002, 0.000_008, 0.0, 0.02));
const OTHER_ROUGHNESS: Lever = Lever::free("pressed_in.other_roughness", Grid::Length(0.0002, 0.000_008, 0.0, 0.02));
const SECURED: Lever = Lever::free("secured", Grid::Words(&["compound", "screw"]));
const ROLLERS: Lever = Lever::bought("runs_under.rollers", Grid::Count(4, 80));
const ROLLER_LENGTH: Lever = Lever::bought("runs_under.roller_length", Grid::Length(0.5, 0.0625, 2.0, 100.0));
const ROLLER: Lever = Lever::bought("runs_under.roller_diameter", Grid::Length(0.5, 0.03125, 1.0, 20.0));
const HARD: Lever =
    Lever::free("runs_under.hardness", Grid::Words(&["52 HRC", "54 HRC", "56 HRC", "58 HRC", "60 HRC", "62 HRC"]));
const CLEARANCE: Lever = Lever::free("runs_under.clearance", Grid::Words(&["small", "normal", "large"]));
const NEEDLE_BORE: Lever = Lever::free("runs_under.needle_bore_class", Grid::Words(&["F6", "G5", "G6", "H5", "H6"]));
const ROLLER_PLACE: Lever = Lever::free("runs_under.position", SIZE);
const SEGMENT_LENGTH: Lever = Lever::free("segment.*.length", SIZE);
const SEGMENT_OUTSIDE: Lever = Lever::free("segment.*.outside_diameter", SIZE);

/// Remedies by check.
pub const REMEDIES: &[Remedy] = &[
    Remedy {
        checks: &["interference_as_made"],
        levers: &[],
        otherwise: "cut, shim or measure as it says, and record the new size",
    },
    Remedy {
        checks: &["press_holds", "play_taken_up"],
        levers: &[OUTSIDE, HOUSING_CLASS, HUB, ROUGHNESS, OTHER_ROUGHNESS, SECURED],
        otherwise: "a tighter class, a smoother face, or a screw or compound beside the press",
    },
    Remedy {
        checks: &["outer_part_yields", "inner_part_yields"],
        levers: &[OUTSIDE, HOUSING_CLASS, HUB, OUTSIDE_DIAMETER, STEEL, Lever::bought("pressed_in.material", STEELS)],
        otherwise: "a looser class, or a thicker hub",
    },
    Remedy {
        checks: &["heating"],
        levers: &[Lever::free("pressed_in.assembly_gap", FINE), OUTSIDE],
        otherwise: "cool the inner part as well, or press it",
    },
    Remedy {
        checks: &["machine_before_pressing", "finish_after_pressing"],
        levers: &[BORE_CLASS, OUTSIDE, HOUSING_CLASS, OUTSIDE_DIAMETER],
        otherwise: "finish the bore after pressing",
    },
    Remedy {
        checks: &["bore_depth"],
        levers: &[LENGTH, BORE],
        otherwise: "two shorter sleeves, or bore and hone it elsewhere",
    },
    Remedy { checks: &["wall"], levers: &[OUTSIDE_DIAMETER, BORE], otherwise: "a thicker wall" },
    Remedy {
        checks: &["wall_at_groove"],
        levers: &[Lever::free("groove.depth", SMALL), OUTSIDE_DIAMETER],
        otherwise: "a shallower groove",
    },
    Remedy {
        checks: &["bore_fit", "service_fit"],
        levers: &[BORE_CLASS, SHAFT_CLASS, SHAFT_DIAMETER, OUTSIDE],
        otherwise: "a looser class where it must run, a tighter one where it must hold",
    },
    Remedy {
        checks: &["outside_fit"],
        levers: &[OUTSIDE, HOUSING_CLASS, HOUSING_DIAMETER],
        otherwise: "a looser class where it must come apart, a tighter one where it must hold",
    },
    Remedy {
        checks: &["press_fit_not_worked"],
        levers: &[],
        otherwise: "write [pressed_in] with hub_outside and material, or [slid_on] with shaft_bore: the press is then worked out",
    },
    Remedy {
        checks: &["grease_path", "grease_to_rollers", "water"],
        levers: &[
            Lever::free("grease_hole.position", SIZE),
            Lever::free("grease_hole.diameter", SMALL),
            Lever::free("groove.width", SMALL),
            Lever::bought("runs_under.sealed", Grid::Flag),
        ],
        otherwise: "lead the grease to where it is wanted, and keep the water out",
    },
    Remedy {
        checks: &["spacer_clear", "spacer_limits"],
        levers: &[SEGMENT_OUTSIDE],
        otherwise: "spacers a little smaller than the raceway",
    },
    Remedy {
        checks: &["compound_strength"],
        levers: &[LENGTH, OUTSIDE_DIAMETER],
        otherwise: "a screw beside the compound",
    },
    Remedy {
        checks: &["raceway_dents", "static_safety", "load_factor"],
        levers: &[
            HARD,
            CLEARANCE,
            Lever::free("runs_under.load_factor", Grid::Number(0.1, 1.0, 50.0)),
            ROLLERS,
            ROLLER_LENGTH,
            ROLLER,
        ],
        otherwise: "harder, or more rollers under the load",
    },
    Remedy {
        checks: &["raceway_hardness", "case_depth"],
        levers: &[HARD, Lever::free("runs_under.case_depth", Grid::Length(0.1, 0.005, 0.1, 10.0)), STEEL],
        otherwise: "a steel that hardens through",
    },
    Remedy {
        checks: &["swing_renews_grease"],
        levers: &[ROLLERS],
        otherwise: "grease it more often, and turn it right round now and then",
    },
    Remedy {
        checks: &["raceway_class", "running_clearance", "clearance_in_service"],
        levers: &[OUTSIDE, NEEDLE_BORE, CLEARANCE, SHAFT_CLASS],
        otherwise: "grind the raceway to the rollers as measured",
    },
    Remedy {
        checks: &["raceway_length", "joints_clear", "chain_fills"],
        levers: &[SEGMENT_LENGTH, ROLLER_PLACE, LENGTH, Lever::free("runs_under.end_float", FINE)],
        otherwise: "a longer raceway",
    },
];
