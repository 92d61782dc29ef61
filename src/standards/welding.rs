//! Which metals can be welded to which, and with what care.

use crate::source::Source;

/// Where the carbon equivalent stands.
pub const CARBON_EQUIVALENT_SOURCE: Source =
    Source::Published("IIW doc. IX-535-67, carbon equivalent C + Mn/6 + (Cr + Mo + V)/5 + (Ni + Cu)/15; EN 1011-2");

/// Composition of a steel in per cent by mass, as far as it decides how it hardens beside a weld.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Composition {
    /// Carbon.
    pub carbon: f64,
    /// Manganese.
    pub manganese: f64,
    /// Chromium, molybdenum and vanadium together.
    pub chromium_molybdenum_vanadium: f64,
    /// Nickel and copper together.
    pub nickel_copper: f64,
}

impl Composition {
    /// Carbon equivalent CE = C + Mn/6 + (Cr + Mo + V)/5 + (Ni + Cu)/15. For carbon and low-alloy steels.
    /// Source: [`CARBON_EQUIVALENT_SOURCE`].
    pub fn carbon_equivalent(&self) -> f64 {
        self.carbon + self.manganese / 6.0 + self.chromium_molybdenum_vanadium / 5.0 + self.nickel_copper / 15.0
    }
}

const fn steel(carbon: f64, manganese: f64, chromium_molybdenum_vanadium: f64, nickel_copper: f64) -> Metal {
    Metal::Steel(Composition { carbon, manganese, chromium_molybdenum_vanadium, nickel_copper })
}

/// What a metal is to a welder.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Metal {
    /// Carbon or low-alloy steel.
    Steel(Composition),
    /// Austenitic stainless steel.
    Stainless,
    /// Aluminium that welds with a filler.
    Aluminium,
    /// Aluminium that cracks beside the weld.
    AluminiumThatCracks,
    /// Brass or bronze with lead or zinc.
    CopperAlloy,
    /// No metal.
    Plastic,
}

/// Upper ends of the printed ranges (ASTM A36, SAE J403 and J404, ISO 683, EN 10025-2 with its CEV of 0.35), from memory.
const METALS: &[(&str, Metal)] = &[
    ("steel S235", steel(0.17, 1.08, 0.0, 0.0)),
    ("steel A36", steel(0.25, 0.80, 0.0, 0.20)),
    ("steel 1018", steel(0.20, 0.90, 0.0, 0.0)),
    ("steel 1045", steel(0.50, 0.90, 0.0, 0.0)),
    ("steel 4140 prehard", steel(0.43, 1.00, 1.35, 0.0)),
    ("steel 52100 hardened", steel(1.10, 0.45, 1.60, 0.0)),
    ("tool steel O1 hardened", steel(0.95, 1.30, 0.75, 0.0)),
    ("tool steel A2 hardened", steel(1.05, 0.90, 6.80, 0.0)),
    ("stainless 304", Metal::Stainless),
    ("stainless 316", Metal::Stainless),
    ("aluminium 6061-T6", Metal::Aluminium),
    ("aluminium 2024-T3", Metal::AluminiumThatCracks),
    ("brass C36000", Metal::CopperAlloy),
    ("bronze C93200", Metal::CopperAlloy),
];

/// What is known of a material by its name in the material table; `None` for a name that is not in it.
pub fn metal(name: &str, plastic: bool) -> Option<Metal> {
    if plastic {
        return Some(Metal::Plastic);
    }
    METALS.iter().find(|(known, _)| *known == name).map(|(_, metal)| *metal)
}

/// Whether two metals can be welded to each other.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Joint {
    /// Without further care.
    Plain {
        /// Filler and its reason.
        filler: &'static str,
    },
    /// Warmed before and cooled slowly.
    Preheated {
        /// The larger carbon equivalent.
        carbon_equivalent: f64,
    },
    /// Not in this shop.
    Never {
        /// Why.
        because: &'static str,
    },
}

/// Carbon equivalent up to which steel is welded without preheat. Source: EN 1011-2 and IIW guidance (from memory).
pub const PLAIN_UP_TO: f64 = 0.45;
/// Carbon equivalent beyond which a part is not welded without a metallurgist. Source: common practice, no source.
pub const NEVER_BEYOND: f64 = 0.90;

/// How two metals are joined by arc welding.
/// Source: fillers: AWS A5.9 and EN ISO 14343 (309L between stainless and carbon steel), from memory.
pub fn joint(a: Metal, b: Metal) -> Joint {
    use Metal::{Aluminium, AluminiumThatCracks, CopperAlloy, Plastic, Stainless, Steel};
    match (a, b) {
        (Plastic, _) | (_, Plastic) => Joint::Never { because: "plastic is not welded to a frame: bolt it" },
        (CopperAlloy, _) | (_, CopperAlloy) => {
            Joint::Never { because: "brass and bronze with lead or zinc crack and fume: braze or bolt" }
        }
        (AluminiumThatCracks, _) | (_, AluminiumThatCracks) => {
            Joint::Never { because: "this aluminium cracks beside the weld: bolt it" }
        }
        (Aluminium, Aluminium) => Joint::Plain {
            filler: "filler 4043 or 5356; beside the weld the T6 temper is lost, count on half the strength",
        },
        (Aluminium, _) | (_, Aluminium) => {
            Joint::Never { because: "aluminium and steel make a brittle seam: bolt it, metals parted" }
        }
        (Stainless, Stainless) => Joint::Plain { filler: "filler 308L or 316L" },
        (Steel(steel), Stainless) | (Stainless, Steel(steel)) => by_equivalent(
            steel.carbon_equivalent(),
            "filler 309L, which stands the mixing of stainless and carbon steel",
        ),
        (Steel(one), Steel(other)) => {
            let equivalent = one.carbon_equivalent().max(other.carbon_equivalent());
            by_equivalent(equivalent, "plain filler, 70 ksi (E7018, ER70S-6)")
        }
    }
}

fn by_equivalent(carbon_equivalent: f64, filler: &'static str) -> Joint {
    match carbon_equivalent {
        ce if ce <= PLAIN_UP_TO => Joint::Plain { filler },
        ce if ce <= NEVER_BEYOND => Joint::Preheated { carbon_equivalent },
        _ => Joint::Never { because: "so much carbon and alloy turns glass-hard beside the weld and cracks: bolt it" },
    }
}
