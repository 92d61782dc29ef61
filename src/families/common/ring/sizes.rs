//! The sizes of a ring between a shaft and a housing: every name that is recorded, spoken once.

use crate::record::key::{Size, sizes, sizes_of_keys};

use super::read;

sizes! {
    BORE_BEFORE_PRESSING = "bore_before_pressing", "bore to machine, before pressing";
    BORE_CLEARANCE_MAX = "bore_clearance_max", "greatest clearance between shaft and sleeve";
    BORE_CLEARANCE_MIN = "bore_clearance_min", "least clearance between shaft and sleeve";
    BORE_CLOSES_MAX = "bore_closes_max", "bore closes by, tightest pair";
    BORE_CLOSES_MIN = "bore_closes_min", "bore closes by, loosest pair";
    BORE_FIT = "bore_fit", "fit on the shaft";
    BORE_OPENS_AT_SERVICE = "bore_opens_at_service", "change of clearance at service temperature between shaft and sleeve";
    BORE_ROUGHNESS = "bore_roughness", "roughness of the bore";
    BORE_SWELLS = "bore_swells", "bore of the free sleeve grows with water by";
    BORE_TO_OUTSIDE = "bore_to_outside", "outside true to the bore, run-out";
    COLDEST = "coldest", "coldest in service";
    COMPOUND_FORCE = "compound_force", "force that shears the compound";
    COMPOUND_TORQUE = "compound_torque", "torque that shears the compound";
    COOL_AS_WELL_TO = "cool_as_well_to", "and cool the inner part to";
    COOL_TO = "cool_to", "or cool the inner part to";
    ENDS_SQUARE = "ends_square", "ends square to the bore, run-out";
    FINISHED_TRUE = "finished_true", "finished surface true to the other part, run-out";
    FINISH_AFTER_PRESSING_MAX = "finish_after_pressing_max", "to take off after pressing, at most";
    FINISH_AFTER_PRESSING_MIN = "finish_after_pressing_min", "to take off after pressing, at least";
    GREASE_HOLE_DIAMETER = "grease_hole_diameter", "grease hole diameter";
    GREASE_HOLE_ON_PIECE = "grease_hole_on_piece", "grease hole from the left end of its piece";
    GREASE_HOLE_POSITION = "grease_hole_position", "grease hole from the left end";
    GROOVE_DEPTH = "groove_depth", "groove depth";
    GROOVE_DIAMETER = "groove_diameter", "diameter at the groove's floor";
    GROOVE_POSITION = "groove_position", "middle of the groove from the left end";
    GROOVE_WIDTH = "groove_width", "groove width";
    HEAT_TO = "heat_to", "heat the outer part to";
    HOLDING_FORCE = "holding_force", "force that pushes it out, at least";
    HOLDING_TORQUE = "holding_torque", "torque that slips it, at least";
    HOUSING_DIAMETER = "housing_diameter", "housing diameter";
    INNER_EQUIVALENT_MAX = "inner_equivalent_max", "equivalent stress, inner part, tightest pair";
    INNER_EQUIVALENT_MIN = "inner_equivalent_min", "equivalent stress, inner part, loosest pair";
    INNER_HOOP_MAX = "inner_hoop_max", "hoop stress, inner part at its bore, tightest pair";
    INNER_HOOP_MIN = "inner_hoop_min", "hoop stress, inner part at its bore, loosest pair";
    INTERFERENCE_AT_SERVICE_MAX = "interference_at_service_max", "greatest interference at the service temperature";
    INTERFERENCE_AT_SERVICE_MIN = "interference_at_service_min", "least interference at the service temperature";
    INTERFERENCE_MAX = "interference_max", "greatest interference";
    INTERFERENCE_MIN = "interference_min", "least interference";
    LOOSE_AT = "loose_at", "temperature at which the loosest pair comes loose";
    OUTER_EQUIVALENT_MAX = "outer_equivalent_max", "equivalent stress, outer part, tightest pair";
    OUTER_EQUIVALENT_MIN = "outer_equivalent_min", "equivalent stress, outer part, loosest pair";
    OUTER_HOOP_MAX = "outer_hoop_max", "hoop stress, outer part at its bore, tightest pair";
    OUTER_HOOP_MIN = "outer_hoop_min", "hoop stress, outer part at its bore, loosest pair";
    OUTSIDE_BEFORE_PRESSING = "outside_before_pressing", "outside to machine, before it goes on";
    OUTSIDE_CLEARANCE_MAX = "outside_clearance_max", "greatest clearance between housing and sleeve";
    OUTSIDE_CLEARANCE_MIN = "outside_clearance_min", "least clearance between housing and sleeve";
    OUTSIDE_CYLINDRICITY = "outside_cylindricity", "raceway cylindrical within";
    OUTSIDE_FIT = "outside_fit", "fit on the housing";
    OUTSIDE_GROWS_MAX = "outside_grows_max", "outside grows by, tightest pair";
    OUTSIDE_GROWS_MIN = "outside_grows_min", "outside grows by, loosest pair";
    OUTSIDE_OPENS_AT_SERVICE = "outside_opens_at_service", "change of clearance at service temperature between housing and sleeve";
    OUTSIDE_ROUGHNESS = "outside_diameter_roughness", "roughness of the outside";
    OUTSIDE_ROUNDNESS = "outside_roundness", "raceway round within";
    OUTSIDE_SWELLS = "outside_swells", "outside of the free sleeve grows with water by";
    PRESSURE_MAX = "pressure_max", "pressure in the joint, tightest pair";
    PRESSURE_MIN = "pressure_min", "pressure in the joint, loosest pair";
    PRESS_FORCE = "press_force", "force to press it, at most";
    JOINT_MATERIAL = "joint_material", "material of what it is pressed with";
    SHAFT_DIAMETER = "shaft_diameter", "shaft diameter";
    SMOOTHING = "smoothing", "interference lost by smoothing";
    WALL = "wall", "wall";
    WARMEST = "warmest", "warmest in service";
}

sizes_of_keys! {
    BORE = read::BORE;
    BORE_CHAMFER = read::BORE_CHAMFER;
    CHAMFER = read::CHAMFER;
    LENGTH = read::LENGTH;
    OUTSIDE_DIAMETER = read::OUTSIDE_DIAMETER;
}

/// What is recorded of one of the two surfaces: how it fits its partner and how smooth it is.
pub struct Surface {
    /// `bore` or `outside`.
    pub word: &'static str,
    /// Its diameter.
    pub own: &'static Size,
    /// That diameter before a press fit changes it.
    pub before: &'static Size,
    /// The diameter of its partner.
    pub partner: &'static Size,
    /// Least and greatest clearance.
    pub clearance: [&'static Size; 2],
    /// What kind of fit that is.
    pub fit: &'static Size,
    /// What the service temperature does to it.
    pub opens_at_service: &'static Size,
    /// How smooth it is.
    pub roughness: &'static Size,
}

/// The bore, on a shaft.
pub static AT_BORE: Surface = Surface {
    word: "bore",
    own: &BORE,
    before: &BORE_BEFORE_PRESSING,
    partner: &SHAFT_DIAMETER,
    clearance: [&BORE_CLEARANCE_MIN, &BORE_CLEARANCE_MAX],
    fit: &BORE_FIT,
    opens_at_service: &BORE_OPENS_AT_SERVICE,
    roughness: &BORE_ROUGHNESS,
};

/// The outside, in a housing.
pub static AT_OUTSIDE: Surface = Surface {
    word: "outside",
    own: &OUTSIDE_DIAMETER,
    before: &OUTSIDE_BEFORE_PRESSING,
    partner: &HOUSING_DIAMETER,
    clearance: [&OUTSIDE_CLEARANCE_MIN, &OUTSIDE_CLEARANCE_MAX],
    fit: &OUTSIDE_FIT,
    opens_at_service: &OUTSIDE_OPENS_AT_SERVICE,
    roughness: &OUTSIDE_ROUGHNESS,
};

/// Form and place tolerances, in the order of the sheet.
pub static FORM: [&Size; 4] = [&OUTSIDE_ROUNDNESS, &OUTSIDE_CYLINDRICITY, &ENDS_SQUARE, &BORE_TO_OUTSIDE];
