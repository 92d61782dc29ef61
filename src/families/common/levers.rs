//! What may be moved to clear findings that several families have, and grids that they share.

use crate::record::lever::{Grid, Lever, Remedy};

/// A turned or bored diameter or a depth.
pub const SIZE: Grid = Grid::Length(0.1, 0.005, 0.5, 2000.0);
/// A small size: chamfer, radius, clearance.
pub const SMALL: Grid = Grid::Length(0.1, 0.005, 0.0, 50.0);
/// A length that is sawn, cut out or measured by tape.
pub const ROUGH: Grid = Grid::Length(1.0, 0.0625, 1.0, 5000.0);
/// Plate as it is sold, in whole millimetres and sixteenths.
/// Source: common practice, no source.
pub const PLATE: Grid = Grid::Length(1.0, 0.0625, 1.0, 100.0);
/// A ground or measured size.
pub const FINE: Grid = Grid::Length(0.01, 0.0005, 0.0, 2000.0);
/// A half-angle that a protractor sets.
pub const HALF_ANGLE: Grid = Grid::Angle(0.5, 1.0, 89.0);
/// A direction in plan.
pub const DIRECTION: Grid = Grid::Angle(0.5, -180.0, 180.0);
/// Steels from soft to hard, as cones, cups and spacers are made of.
pub const STEELS: Grid = Grid::Words(&["steel S235", "steel 1018", "steel 1045", "steel 4140 prehard"]);
/// Metals and hard steels that a sleeve is made of, from soft to hard.
pub const SLEEVES: Grid = Grid::Words(&["steel S235", "steel 1045", "steel 4140 prehard", "steel 52100 hardened"]);
/// Shafts from loose to tight.
pub const SHAFTS: Grid = Grid::Words(&[
    "e8", "f7", "g6", "h8", "h7", "h6", "h5", "k5", "k6", "m5", "m6", "n5", "n6", "p5", "p6", "r6", "s6",
]);
/// Holes from loose to tight.
pub const HOLES: Grid = Grid::Words(&["E9", "F8", "F7", "G7", "G6", "H11", "H9", "H8", "H7", "H6"]);
/// Threads from small to large.
pub const THREADS: Grid = Grid::Words(&["M6", "M8", "M10", "M12", "M16", "M20", "M24"]);
/// Property classes from weak to strong.
pub const BOLTS: Grid = Grid::Words(&["4.6", "5.8", "8.8", "10.9", "12.9"]);
/// What keeps two metals apart.
pub const APART: Grid = Grid::Words(&["grease", "paint", "insulation"]);

/// A welded cone bolted on instead, from below, its foot in a register, with the screw that carries it.
pub const BOLTED_ON: Lever = Lever::bought("bolt.thread", THREADS).along(FROM_BELOW);
const FROM_BELOW: &[(&str, &str)] =
    &[("mounting", "\"bolt-on\""), ("bolt.way", "\"from below\""), ("bolt.register", "\"foot\"")];
/// The same, of a steel that is not to be welded, with one of the screws.
pub const HARDER_BOLTED_ON: [Lever; 4] = [
    Lever::bought("material", STEELS).along(&[
        ("mounting", "\"bolt-on\""),
        ("bolt.thread", "\"M10\""),
        ("bolt.way", "\"from below\""),
        ("bolt.register", "\"foot\""),
    ]),
    Lever::bought("material", STEELS).along(&[
        ("mounting", "\"bolt-on\""),
        ("bolt.thread", "\"M12\""),
        ("bolt.way", "\"from below\""),
        ("bolt.register", "\"foot\""),
    ]),
    Lever::bought("material", STEELS).along(&[
        ("mounting", "\"bolt-on\""),
        ("bolt.thread", "\"M16\""),
        ("bolt.way", "\"from below\""),
        ("bolt.register", "\"foot\""),
    ]),
    Lever::bought("material", STEELS).along(&[
        ("mounting", "\"bolt-on\""),
        ("bolt.thread", "\"M20\""),
        ("bolt.way", "\"from below\""),
        ("bolt.register", "\"foot\""),
    ]),
];

/// Findings of every family.
pub const REMEDIES: &[Remedy] = &[
    Remedy {
        checks: &["dissimilar_metals"],
        levers: &[Lever::free("kept_apart", APART)],
        otherwise: "keep the two metals apart with grease, paint or a sleeve of plastic",
    },
    Remedy {
        checks: &["weldable", "welded_wall"],
        levers: &[
            BOLTED_ON,
            Lever::bought("material", STEELS),
            Lever::bought("thickness", PLATE),
            Lever::bought("crossbar_material", STEELS),
            Lever::free("crossbar_wall", PLATE),
        ],
        otherwise: "take a steel of low carbon where it is welded, or bolt it",
    },
    Remedy {
        checks: &["weld_throat"],
        levers: &[
            Lever::free("base_diameter", SIZE),
            Lever::free("foot_diameter", SIZE),
            Lever::free("height", SIZE),
            BOLTED_ON,
        ],
        otherwise: "a longer seam or a thicker plate carries more, or bolt it on; have the weld worked out",
    },
    Remedy {
        checks: &["thread_sold"],
        levers: &[Lever::bought("bolt.thread", THREADS), Lever::bought("mounting.thread", THREADS)],
        otherwise: "take a thread of a standard pitch",
    },
    Remedy {
        checks: &["coating_class"],
        levers: &[Lever::free("coating_thickness", Grid::Length(0.005, 0.0002, 0.0, 0.2))],
        otherwise: "agree on the thickness of the film with the plater",
    },
    Remedy {
        checks: &["coated_hole", "coated_thread", "coating_clearance", "coating_film"],
        levers: &[
            Lever::free("coating_thickness", Grid::Length(0.005, 0.0002, 0.0, 0.2)),
            Lever::free("hole.diameter", SIZE),
            Lever::free("bore", SIZE),
            Lever::free("mounting.diameter", SIZE),
            Lever::bought("bolt.thread", THREADS),
        ],
        otherwise: "make the hole larger before plating, take a thinner film, or plug the hole when it is plated",
    },
    Remedy {
        checks: &["comes_back"],
        levers: &[
            Lever::free("bolt.register", Grid::Words(&["foot"])),
            Lever::free("bolt.clearance", Grid::Words(&["fine"])),
            Lever::free("mounting.dowels", Grid::Length(1.0, 0.0625, 3.0, 20.0)),
            Lever::free("mounting.clearance", Grid::Words(&["fine"])),
        ],
        otherwise: "dowel it, or let it sit in a register",
    },
    Remedy {
        checks: &["bolts_slip"],
        levers: &[
            Lever::free("mounting.number", Grid::Count(3, 12)),
            Lever::free("mounting.dowels", Grid::Length(1.0, 0.0625, 3.0, 20.0)),
            Lever::bought("mounting.thread", THREADS),
            Lever::bought("mounting.class", BOLTS),
        ],
        otherwise: "more or larger bolts, or dowels: dowels and dowel_spacing in [mounting]",
    },
    Remedy {
        checks: &["cone_bolt_slip"],
        levers: &[
            Lever::free("bolt.register", Grid::Words(&["foot"])),
            Lever::bought("bolt.thread", THREADS),
            Lever::bought("bolt.class", BOLTS),
            Lever::of_mate("mates", "bolt.register", Grid::Words(&["foot"])),
            Lever::bought_for_mate("mates", "bolt.thread", THREADS),
            Lever::bought_for_mate("mates", "bolt.class", BOLTS),
        ],
        otherwise: "a register for the foot of the cone, a larger or stronger screw, or weld it on",
    },
    Remedy {
        checks: &["slowest_speed"],
        levers: &[Lever::free("tool", Grid::Words(&["carbide"]))],
        otherwise: "no figure of the part does it: a machine that goes slower, or a smaller tool first; tell the speeds of yours in shop.toml",
    },
    Remedy {
        checks: &["slip"],
        levers: &[],
        otherwise: "measure that size again and write it with its unit; if it is right, the others are not",
    },
    Remedy {
        checks: &["as_measured"],
        levers: &[],
        otherwise: "cut it, or measure it with the instrument that tells, and record the new size",
    },
    Remedy {
        checks: &["printed_under_load", "swells"],
        levers: &[Lever::bought("material", STEELS)],
        otherwise: "make it of metal; a print is a try-out",
    },
];
