//! What is ordered from outside the house.

use super::hardening;
use super::reading::Common;
use crate::record::design::Design;
use crate::record::wants::Plate;
use crate::shop::Material;
use crate::standards::{stock, welding};
use crate::units::Length;

/// Records plates that the cutter gets: so many of that thickness.
pub fn plate(design: &mut Design, common: &Common, thickness: Length, count: u32) {
    piece(design, common, "", thickness, count);
}

/// The same of a part of several plates: so many of the piece whose solid has that suffix.
pub fn piece(design: &mut Design, common: &Common, name: &str, thickness: Length, count: u32) {
    let hardness = if common.material.hardened { "soft, hardened after cutting" } else { "as delivered" };
    let rolled = stock::plate_limits(thickness).filter(|_| common.material.magnetic);
    let plate = Plate {
        piece: name.into(),
        material: hardening::bought(&common.material),
        thickness: thickness.rounded(),
        rolled: if rolled.is_some() { "EN 10029 A".into() } else { String::new() },
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

/// What a cut edge of a steel that hardens asks for: the beam leaves it as quenched. Empty for soft ones, and for other metals.
/// Source: common practice, no source, from the carbon equivalent at which a weld's edge hardens as well.
pub fn hard_edge(material: &Material) -> &'static str {
    match welding::metal(&material.name, material.printed) {
        Some(welding::Metal::Steel(c)) if c.carbon_equivalent() > welding::PLAIN_UP_TO => {
            " This steel's cut edge comes hard from the beam, and a file skids on it: take it off with a stone or a grinder, drill and bore inside it with carbide; or order it cut by water jet."
        }
        _ => "",
    }
}

/// Says of all plates of the part how they are rolled, where it is more than usual.
pub fn rolled(design: &mut Design, words: &str) {
    design.wants.plates.iter_mut().for_each(|plate| plate.rolled = words.into());
}
