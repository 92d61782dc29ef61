//! What is ordered from outside the house.

use super::hardening;
use super::reading::Common;
use crate::record::design::Design;
use crate::record::wants::Plate;
use crate::units::Length;

/// Records plates that the cutter gets: so many of that thickness.
pub fn plate(design: &mut Design, common: &Common, thickness: Length, count: u32) {
    piece(design, common, "", thickness, count);
}

/// The same of a part of several plates: so many of the piece whose solid has that suffix.
pub fn piece(design: &mut Design, common: &Common, name: &str, thickness: Length, count: u32) {
    let hardness = if common.material.hardened { "soft, hardened after cutting" } else { "as delivered" };
    let plate = Plate {
        piece: name.into(),
        material: hardening::bought(&common.material),
        thickness: thickness.rounded(),
        count,
        hardness: hardness.into(),
        plating: common.coating.as_ref().map(|c| c.name.clone()),
    };
    let same =
        |p: &&mut Plate| p.thickness == plate.thickness && p.material == plate.material && p.piece == plate.piece;
    match design.wants.plates.iter_mut().find(same) {
        Some(known) => known.count += count,
        None => design.wants.plates.push(plate),
    }
}
