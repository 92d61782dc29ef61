//! What a file says of a press fit: `[pressed_in]` and `[slid_on]`.

use crate::description::{Fields, Taken};
use crate::families::Workplace;
use crate::families::common;
use crate::record::key::{Given, Key, Kind};
use crate::shop::Material;
use crate::units::{Length, Stress, Temperature};

pub const HUB_OUTSIDE: Key =
    Key::new("hub_outside", "outside diameter of the hub", Kind::POSITIVE, "metal round the hole, such as \"60 mm\"");
pub const SHAFT_BORE: Key =
    Key::new("shaft_bore", "bore of the shaft", Kind::NOT_NEGATIVE, "of a hollow shaft; solid if left out");
pub const MATERIAL: Key =
    Key::new("material", "material of the other part", Kind::Text, "that of [housing] or [shaft] if left out");
pub const FRICTION: Key =
    Key::new("friction", "coefficient of friction", Kind::Number(0.01, 1.0), "such as 0.12; 0.08 to 0.16 if left out");
pub const ROUGHNESS: Key = Key::new(
    "roughness",
    "roughness of the sleeve, Ra",
    Kind::FINE,
    "such as \"0.8 um\"; what the sheet asks for if left out",
);
pub const OTHER_ROUGHNESS: Key = Key::new(
    "other_roughness",
    "roughness of the other part, Ra",
    Kind::FINE,
    "such as \"1.6 um\"; as the sleeve if left out",
);
pub const GAP: Key =
    Key::new("assembly_gap", "play wanted while the hot part goes on", Kind::NOT_NEGATIVE, "such as \"0.03 mm\"");
pub const ROOM: Key = Key::new("room", "temperature of the shop", Kind::Temperature, "such as \"20 C\"");

pub const SECURED: Key = Key::new(
    "secured",
    "held beside the press by",
    Kind::Choice(&["screw", "compound"]),
    "\"screw\": a grub screw through the outer part; \"compound\": retaining compound in the whole joint",
);
pub const SHEAR_STRENGTH: Key = Key::new(
    "shear_strength",
    "shear strength of the compound",
    Kind::Stress,
    "as its maker states it, tested by ISO 10123 on pin and collar, such as \"15 MPa\"",
);

/// Keys of `[pressed_in]`.
pub const IN_KEYS: &[Key] =
    &[HUB_OUTSIDE, MATERIAL, FRICTION, ROUGHNESS, OTHER_ROUGHNESS, GAP, ROOM, SECURED, SHEAR_STRENGTH];
/// Keys of `[slid_on]`.
pub const ON_KEYS: &[Key] =
    &[SHAFT_BORE, MATERIAL, FRICTION, ROUGHNESS, OTHER_ROUGHNESS, GAP, ROOM, SECURED, SHEAR_STRENGTH];

/// Which way the sleeve is held.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Way {
    /// In a hub around it.
    In,
    /// On a shaft inside it.
    On,
}

/// What the file says about the press fit.
pub struct Pressing {
    pub way: Way,
    /// Hub's outside, or the shaft's bore.
    pub far: Given<Length>,
    pub material: Option<Material>,
    pub friction: Option<Given<f64>>,
    pub roughness: Option<(Length, Length)>,
    pub gap: Option<Given<Length>>,
    pub room: Option<Given<Temperature>>,
    /// What holds it beside the press.
    pub secured: Option<Secured>,
}

/// Reads `[pressed_in]` or `[slid_on]`; `None` when a problem was noted.
pub fn read(table: &Fields, place: &Workplace, way: Way) -> Option<Pressing> {
    let far = match way {
        Way::In => table.required_length(&HUB_OUTSIDE),
        Way::On if table.has(&SHAFT_BORE) => table.length(&SHAFT_BORE),
        Way::On => {
            table.left_out(&SHAFT_BORE, "solid", "nothing is written");
            Some(Given { value: Length::ZERO, text: "solid".into(), span: 0..0 })
        }
    };
    let material =
        if table.has(&MATERIAL) { common::material(table, place, &MATERIAL, "").map(Some) } else { Some(None) };
    let own = table.length(&ROUGHNESS).map(|l| l.value);
    let other = table.length(&OTHER_ROUGHNESS).map(|l| l.value);
    for (key, written) in [(&ROUGHNESS, other), (&OTHER_ROUGHNESS, own)] {
        if let Some(written) = written {
            table.left_out(key, Taken::Roughness(written), "as that of the other surface");
        }
    }
    Some(Pressing {
        way,
        far: far?,
        material: material?,
        friction: table.number(&FRICTION),
        roughness: own.or(other).map(|any| (own.unwrap_or(any), other.unwrap_or(any))),
        gap: table.length(&GAP),
        room: table.temperature(&ROOM),
        secured: secured(table),
    })
}

/// What secures it, as written.
pub struct Secured {
    pub by: Given<&'static str>,
    pub strength: Option<Given<Stress>>,
}

/// Reads it; a strength without a compound is refused.
fn secured(table: &Fields) -> Option<Secured> {
    let (by, strength) = (table.choice(&SECURED), table.stress(&SHEAR_STRENGTH));
    if by.as_ref().is_none_or(|b| b.value != "compound") {
        let help = "it is that of a retaining compound: add secured = \"compound\"";
        common::not_here(table, &[&SHEAR_STRENGTH], help);
    }
    Some(Secured { by: by?, strength })
}
