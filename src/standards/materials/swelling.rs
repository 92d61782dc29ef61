//! How far plastics grow when they take up water.

use crate::source::Source;

/// Where the figures stand.
pub const SWELLING_SOURCE: Source = Source::Memory(
    "a quarter per cent of length for each per cent of water; water by weight as nylon makers print it: 2.5 % in a room of 60 % humidity, 7 to 8.5 % soaked; acetal 0.8 % soaked",
);

/// Growth of every length as a part of it, from dry to so much water.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Swelling {
    /// In a room.
    pub in_a_room: f64,
    /// In rain or under water.
    pub soaked: f64,
}

/// Growth of length for each part of water by weight. Source: [`SWELLING_SOURCE`].
const LENGTH_PER_WATER: f64 = 0.25;

/// Water by weight in a room and soaked, in per cent. Source: [`SWELLING_SOURCE`].
const WATER: &[(&str, f64, f64)] = &[("nylon 6/6", 2.5, 8.0), ("acetal", 0.2, 0.8)];

/// How far a material of the table swells; `None` where it takes up next to nothing.
/// Valid for whole parts that stand in it for weeks. Source: [`SWELLING_SOURCE`].
pub fn swelling(material: &str) -> Option<Swelling> {
    let (_, room, soaked) = WATER.iter().find(|row| row.0 == material)?;
    let grows = |per_cent: f64| LENGTH_PER_WATER * per_cent / 100.0;
    Some(Swelling { in_a_room: grows(*room), soaked: grows(*soaked) })
}
