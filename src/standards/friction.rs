//! How hard surfaces hold each other: printed ranges of the coefficient of friction, never one number.

use crate::source::Confirmed::{self, Memory, One, TwoOrMore};

/// What touches.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Body {
    /// Steel, any but stainless.
    Steel,
    /// Zinc-plated steel.
    ZincPlatedSteel,
    /// Grey cast iron.
    CastIron,
    /// Bronze.
    Bronze,
    /// Sintered bronze.
    SinteredBronze,
    /// Aluminium bronze.
    AluminiumBronze,
    /// Brass.
    Brass,
    /// Copper.
    Copper,
    /// Aluminium.
    Aluminium,
    /// PTFE.
    Ptfe,
    /// Nylon.
    Nylon,
    /// Acetal.
    Acetal,
    /// ABS.
    Abs,
    /// UHMWPE.
    Uhmwpe,
    /// A plastic without a row of its own.
    Plastic,
}

/// Standing still, sliding, or being pressed together.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Motion {
    /// At the point of moving.
    Static,
    /// Sliding.
    Kinetic,
    /// Axial assembly of a press fit.
    PressFit,
}

/// Dry, or with oil or grease.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Condition {
    /// Clean and dry.
    Dry,
    /// Oiled or greased.
    Lubricated,
}

/// A printed range.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Friction {
    /// The two bodies, in any order.
    pub bodies: (Body, Body),
    /// How they move.
    pub motion: Motion,
    /// What is between them.
    pub condition: Condition,
    /// Least and greatest printed coefficient.
    pub range: (f64, f64),
    /// How well it is confirmed.
    pub confirmed: Confirmed,
    /// Who prints what.
    pub source: &'static str,
}

const fn mu(
    a: Body,
    b: Body,
    motion: Motion,
    condition: Condition,
    range: (f64, f64),
    confirmed: Confirmed,
    source: &'static str,
) -> Friction {
    Friction { bodies: (a, b), motion, condition, range, confirmed, source }
}

const A: &str = "reference table of an engineering site";
const S: &str = "friction table of a bearing shop";
const M: &str = "from memory, unconfirmed";

use Body::*;
use Condition::{Dry, Lubricated};
use Motion::{Kinetic, PressFit, Static};

/// The widest range that the sources print, not the middle of it: what the surface is like decides.
#[rustfmt::skip]
const TABLE: &[Friction] = &[
    mu(Steel, Steel, Static, Dry,         (0.12, 0.80), TwoOrMore, "0.45-0.80 (reference table); 0.12-0.60 (drive manual); 0.31 (Handbook of Surface Improvement, table 11.1)"),
    mu(Steel, Steel, Kinetic, Dry,        (0.08, 0.70), TwoOrMore, "0.40-0.70 (reference table); 0.08-0.50 (drive manual); 0.23 (Handbook of Surface Improvement, table 11.1)"),
    mu(Steel, Steel, Static, Lubricated,  (0.10, 0.35), TwoOrMore, "0.10 (reference table); 0.12-0.35 (drive manual)"),
    mu(Steel, Steel, Kinetic, Lubricated, (0.04, 0.25), TwoOrMore, "0.04-0.25 (drive manual); 0.10 (reference table)"),
    mu(Steel, CastIron, Static, Dry,        (0.18, 0.40), TwoOrMore, "0.18-0.24 (reference table); 0.4 clean (bearing shop)"),
    mu(Steel, CastIron, Static, Lubricated, (0.10, 0.21), TwoOrMore, "0.10 (reference table); 0.21 (bearing shop)"),
    mu(Bronze, Steel, Static, Lubricated,         (0.16, 0.16), One, S),
    mu(SinteredBronze, Steel, Static, Lubricated, (0.13, 0.13), One, S),
    mu(AluminiumBronze, Steel, Static, Dry,       (0.45, 0.45), One, S),
    mu(Brass, Steel, Static, Dry,                 (0.51, 0.51), One, S),
    mu(Brass, Steel, Static, Lubricated,          (0.11, 0.19), One, "0.19 greased, 0.11 castor oil (bearing shop)"),
    mu(Aluminium, Steel, Static, Dry,             (0.35, 0.61), TwoOrMore, "0.61 (bearing shop); 0.35 (Handbook of Surface Improvement, table 11.1)"),
    mu(Aluminium, Steel, Kinetic, Dry,            (0.25, 0.25), One, "Handbook of Surface Improvement, table 11.1"),
    mu(Aluminium, Aluminium, Static, Dry,         (0.15, 1.35), TwoOrMore, "1.05-1.35 (bearing shop); 0.42 (Handbook of Surface Improvement); 0.15-0.60 (reference table)"),
    mu(Aluminium, Aluminium, Static, Lubricated,  (0.30, 0.30), One, S),
    mu(Copper, Steel, Static, Dry,                (0.53, 0.53), One, S),
    mu(Copper, Steel, Kinetic, Dry,               (0.23, 0.29), One, A),
    mu(Ptfe, Steel, Static, Dry,                  (0.18, 0.18), One, "Handbook of Surface Improvement, table 11.1"),
    mu(Ptfe, Steel, Kinetic, Dry,                 (0.04, 0.22), TwoOrMore, "0.04-0.22 (reference table); 0.16 (Handbook of Surface Improvement)"),
    mu(Nylon, Steel, Kinetic, Dry,                (0.32, 0.45), One, A),
    mu(Nylon, Steel, Kinetic, Lubricated,         (0.10, 0.10), One, A),
    mu(Acetal, Steel, Static, Dry,                (0.10, 0.30), One, "Shackelford, materials handbook, table 399"),
    mu(Abs, Steel, Static, Dry,                   (0.30, 0.30), One, "Handbook of Surface Improvement, table 11.1"),
    mu(Abs, Steel, Kinetic, Dry,                  (0.35, 0.35), One, "Handbook of Surface Improvement, table 11.1"),
    mu(Plastic, Steel, Static, Dry,               (0.20, 0.45), One, "drive manual"),
    mu(Uhmwpe, Steel, Kinetic, Dry,               (0.10, 0.22), Memory, M),
    mu(Steel, Steel, PressFit, Lubricated,        (0.08, 0.16), Memory, "from memory, unconfirmed; 0.15-0.20 is printed for shrink fits"),
    mu(ZincPlatedSteel, Steel, Static, Dry,       (0.15, 0.25), Memory, M),
];

/// The printed range for two bodies in any order; none where nothing is known.
pub fn friction(a: Body, b: Body, motion: Motion, condition: Condition) -> Option<&'static Friction> {
    let same = |row: &&Friction| row.bodies == (a, b) || row.bodies == (b, a);
    TABLE.iter().filter(same).find(|row| row.motion == motion && row.condition == condition)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn order_of_the_bodies_does_not_matter() {
        let one = friction(Steel, Aluminium, Static, Dry);
        assert!(one.is_some() && one == friction(Aluminium, Steel, Static, Dry));
        assert!(friction(Copper, Nylon, Static, Dry).is_none());
    }

    /// Printed values for dry steel run from 0.12 to 0.80 over three tables.
    #[test]
    fn dry_steel_spreads() {
        assert_eq!(friction(Steel, Steel, Static, Dry).unwrap().range, (0.12, 0.80));
        assert!(TABLE.iter().all(|row| row.range.0 > 0.0 && row.range.0 <= row.range.1));
    }
}
