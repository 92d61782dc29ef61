//! The sizes and tables of a landing: every name that is recorded, spoken once.

use crate::record::key::{Size, sizes, tables};

sizes! {
    CAPTURE_MARGIN = "capture_margin", "capture kept in hand beside the swing";
    CAPTURE_RADIUS = "capture_radius", "capture radius of the set";
    CAPTURE_YAW = "capture_yaw", "capture in yaw";
    CAPTURE_YAW_AT_SWING = "capture_yaw_at_swing", "yaw left at the stated hoist swing";
    CENTRE_HEIGHT = "centre_height", "centre of mass above the seats";
    CENTRE_X = "centre_x", "centre of mass, x";
    CENTRE_Y = "centre_y", "centre of mass, y";
    DRAWN_BACK = "drawn_back", "holes of the second end drawn back then, towards the first";
    ENTRY_PITCH = "entry_pitch", "pitch at which the noses of the second end meet their holes";
    FRICTION_LEAST = "friction_least", "least friction printed for cone and cup";
    FRICTION_MOST = "friction_most", "greatest friction printed for cone and cup";
    GROWTH_PER_METRE = "growth_per_metre", "frame outgrows what carries the cones over one metre by";
    HINGE_LOAD = "hinge_load", "load on the first end while the second hangs at the stated pitch";
    LEAST_PRELOAD = "least_preload", "least tie-down at each seat";
    LEAST_PRELOAD_ON_SLOPE = "least_preload_on_slope", "least tie-down at each seat on three, standing out of level";
    LEAST_PRELOAD_ON_THREE = "least_preload_on_three", "least tie-down at each seat where a stiff frame stands on three";
    RIDE_OFF = "ride_off", "least sideways acceleration that climbs off";
    RIDE_OFF_DIRECTION = "ride_off_direction", "in the direction";
    SEATING_SHARE = "seating_share", "chance that a frame built so seats fully";
    SEATING_SHARE_ARRANGED = "seating_share_arranged", "the same as arranged";
    SET_DOWN_FACTOR = "set_down_factor", "set-down factor on the load of a seat";
    TARGET_SPREAD = "target_spread", "target point of such frames off its place, 95 of 100 below";
    TARGET_SPREAD_ARRANGED = "target_spread_arranged", "target point off its place as arranged";
    WEIGHT = "weight", "weight";
    YIELDS = "yields", "frame, crossbars and seats yield under the load by";
}

tables! {
    ARRANGEMENT_TABLE = "arrangement";
    PAIRS_TABLE = "pairs";
    SEATS_TABLE = "seats";
    LOADS_TABLE = "loads";
    PRELOAD_TABLE = "preload";
    FRICTION_TABLE = "friction";
    LOCKED_IN_TABLE = "locked_in";
    REST_TABLE = "rest";
    REST_AS_ARRANGED_TABLE = "rest_as_arranged";
    SURVEY_POINTS_CONES_TABLE = "survey_points_cones";
    SURVEY_POINTS_CUPS_TABLE = "survey_points_cups";
    SURVEY_CONES_TABLE = "survey_cones";
    SURVEY_CUPS_TABLE = "survey_cups";
    HEAT_TABLE = "heat";
    COMES_BACK_TABLE = "comes_back";
    SETTING_OUT_TABLE = "setting_out";
    HEIGHTS_TABLE = "heights";
    PADS_TABLE = "pads";
    DRAWN_TABLE = "drawn";
    SLOT_DIRECTION_TABLE = "slot_direction";
    STANDS_TABLE = "stands";
    STANDS_REST_TABLE = "stands_rest";
}

/// Where the frame comes to lie: first part of the names, and words.
pub struct PoseName(&'static str, &'static str);

/// As it is.
pub static AT_REST: PoseName = PoseName("rest", "at rest");
/// With the cups as they should be.
pub static AS_ARRANGED: PoseName = PoseName("arranged", "as arranged");

impl PoseName {
    /// What it is.
    pub fn words(&self) -> &'static str {
        self.1
    }

    /// The shift along an axis or the turn about one.
    pub fn along(&self, axis: &str, label: String) -> Size {
        Size::one_of(format!("{}_{axis}", self.0), label)
    }
}

/// How well the tape says where these are: `cones` or `cups`.
pub fn survey_uncertainty(of: &str) -> Size {
    Size::one_of(format!("survey_{of}_uncertainty"), format!("uncertainty of one reading, {of}"))
}

/// On which side the third of these lies.
pub fn survey_third_point(of: &str) -> Size {
    Size::one_of(format!("survey_{of}_third_point"), format!("third point of the {of} lies to the"))
}

/// The pad at that seat.
pub fn pad(seat: &str) -> Size {
    Size::one_of(format!("pad_{seat}"), format!("height of the pad at {seat}"))
}

/// Where the slot at that seat points.
pub fn slot_direction(seat: &str) -> Size {
    Size::one_of(format!("direction_{seat}"), format!("direction of the slot at {seat}"))
}

/// Height of the crossbar at that seat.
pub fn height(seat: &str) -> Size {
    Size::one_of(format!("height_{seat}"), format!("height of the crossbar at {seat}"))
}

/// The cup's centre off the cone's at that seat along an axis, the frame down.
pub fn offset(axis: &str, seat: &str) -> Size {
    Size::one_of(format!("offset_{axis}_{seat}"), format!("cup off its cone in {axis} at {seat}, frame down"))
}

/// How far that seat still has to fall, the frame down.
pub fn gap(seat: &str) -> Size {
    Size::one_of(format!("gap_{seat}"), format!("gap under {seat}, frame down"))
}

/// Distance of two cones or two cups: `cones` or `cups`.
pub fn line(of: &str, from: &str, to: &str) -> Size {
    Size::one_of(format!("{of}_{from}_{to}"), format!("{of}, {from} to {to}"))
}

/// What the scale of the shop's tape adds to a metre.
pub fn tape_correction() -> Size {
    Size::one_of("tape_correction".into(), "added to every metre that the tape reads")
}
