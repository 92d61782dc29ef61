//! What may be moved to clear a finding of a bush.

use crate::families::common::levers::{FINE, HOLES, ROUGH, SHAFTS, SIZE};
use crate::record::lever::{Grid, Lever, Remedy};

/// Bearing materials from soft to hard.
const BUSHES: Grid = Grid::Words(&["UHMWPE", "acetal", "bronze C93200"]);
/// Steels of a shaft from soft to hard.
const SHAFT_STEELS: Grid = Grid::Words(&["steel 1045", "steel 4140 prehard", "steel 52100 hardened"]);

const LENGTH: Lever = Lever::free("length", SIZE);
const BORE: Lever = Lever::free("bore", SIZE);
const BORE_CLASS: Lever = Lever::free("bore_class", HOLES);
const SHAFT_CLASS: Lever = Lever::free("shaft.class", SHAFTS);
const SHAFT_DIAMETER: Lever = Lever::free("shaft.diameter", FINE);
const OUTSIDE_CLASS: Lever = Lever::free("outside_class", SHAFTS);
const HOUSING_CLASS: Lever = Lever::free("housing.class", HOLES);
const MATERIAL: Lever = Lever::bought("material", BUSHES);
const TURNS: Lever = Lever::free("runs.turns_per_minute", Grid::Number(1.0, 1.0, 20_000.0));
const SWINGS: Lever = Lever::free("runs.swings_per_minute", Grid::Number(0.5, 0.5, 10_000.0));
const WASHER: Lever = Lever::free("washer.outside_diameter", ROUGH);

/// Remedies by check.
pub const REMEDIES: &[Remedy] = &[
    Remedy {
        checks: &["bush_pressure"],
        levers: &[LENGTH, MATERIAL, BORE],
        otherwise: "a longer bush, a thicker shaft, or less load",
    },
    Remedy {
        checks: &["bush_speed", "bush_pressure_speed"],
        levers: &[LENGTH, TURNS, SWINGS, MATERIAL],
        otherwise: "a longer bush, slower, or rollers",
    },
    Remedy {
        checks: &["bush_clearance", "bush_rattles", "bore_fit", "service_fit"],
        levers: &[BORE_CLASS, SHAFT_CLASS, SHAFT_DIAMETER, OUTSIDE_CLASS, HOUSING_CLASS],
        otherwise: "another class of the bore or of the shaft, or a shaft of another size",
    },
    Remedy { checks: &["bush_length"], levers: &[LENGTH], otherwise: "a bush of half to twice its bore" },
    Remedy {
        checks: &["bush_wear"],
        levers: &[
            LENGTH,
            Lever::free("runs.dirt", Grid::Flag),
            Lever::free("runs.hours", Grid::Number(10.0, 10.0, 1_000_000.0)),
            Lever::free("runs.wear", FINE),
        ],
        otherwise: "a longer bush, seals against dirt, or a new one sooner",
    },
    Remedy { checks: &["bush_warm", "bush_material"], levers: &[MATERIAL], otherwise: "another material of the bush" },
    Remedy {
        checks: &["bush_shaft_hardness"],
        levers: &[Lever::bought("shaft.material", SHAFT_STEELS), MATERIAL],
        otherwise: "a harder shaft, or a hard sleeve on it",
    },
    Remedy {
        checks: &["bush_grease"],
        levers: &[Lever::free("straight_groove", SIZE)],
        otherwise: "write [grease_hole] with its diameter, and straight_groove or a [groove] inside",
    },
    Remedy { checks: &["washer_pressure", "washer_pressure_speed"], levers: &[WASHER], otherwise: "a wider washer" },
];
