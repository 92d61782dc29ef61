//! What is ordered from outside the house.

use super::hardening;
use super::reading::Common;
use crate::record::design::{Check, Design, Limit, Value, Verdict};
use crate::record::show;
use crate::record::wants::Plate;
use crate::shop::Material;
use crate::source::Source;
use crate::standards::{stock, welding};
use crate::units::{Length, LengthUnit};

/// Records plates that the cutter gets: so many of that thickness.
pub fn plate(design: &mut Design, common: &Common, thickness: Length, count: u32) {
    piece(design, common, "", thickness, count);
}

/// The same of a part of several plates: so many of the piece whose solid has that suffix.
pub fn piece(design: &mut Design, common: &Common, name: &str, thickness: Length, count: u32) {
    sold(design, common, thickness);
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

const SOLD: Check = Check {
    key: "plate_sold",
    what: "thickness of the plate that is ordered",
    worst: Verdict::Caution,
    source: Source::CommonPractice,
};

/// A plate as it was measured may be so far off the one that it was sold as, at least, and as a share. Source: common practice, no source.
const OFF_ITS_NAME: (Length, f64) = (Length::mm(0.3), 0.04);

/// Says where nobody has plate of that thickness.
fn sold(design: &mut Design, common: &Common, thickness: Length) {
    let thickness = thickness.rounded();
    let value = Value::Length(thickness);
    if design.findings.iter().any(|f| f.key == SOLD.key && f.value.as_ref() == Some(&value)) {
        return;
    }
    let near = |size: &Length| (*size - thickness).abs() <= OFF_ITS_NAME.0.max(*size * OFF_ITS_NAME.1);
    let all = [LengthUnit::Mm, LengthUnit::Inch].map(stock::plate_thicknesses);
    let thickest = all.iter().filter_map(|sizes| sizes.last()).copied().fold(Length::ZERO, Length::max);
    let is_sold = all.iter().any(|sizes| sizes.iter().any(near));
    let own = stock::plate_thicknesses(common.header.unit);
    let say = |size: &Length| show::length(*size, common.header.unit);
    let below = own.iter().rfind(|size| **size < thickness).map(say);
    let above = own.iter().find(|size| **size > thickness).map(say);
    let near: Vec<String> = below.into_iter().chain(above).collect();
    let (verdict, because) = match is_sold {
        true => (Verdict::Ok, "a plate of that thickness is stocked".to_string()),
        false if thickness > thickest => {
            (Verdict::Caution, format!("no plate so thick is stocked: {} at most", say(&thickest)))
        }
        false => (
            Verdict::Caution,
            format!("plate is stocked of {}: another thickness is a mill's order", near.join(" and of ")),
        ),
    };
    design.finding(&SOLD, verdict, Some(value), Limit::None, because);
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
