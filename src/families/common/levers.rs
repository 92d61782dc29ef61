//! What may be moved to clear findings that several families have, and grids that they share.

use crate::record::lever::{Grid, Lever, Remedy};
use crate::standards::stock::{dowel_diameters, plate_thicknesses};
use crate::units::LengthUnit;

/// A turned or bored diameter or a depth.
pub const SIZE: Grid = Grid::Length(0.1, 0.005, 0.5, 2000.0);
/// A small size: chamfer, radius, clearance.
pub const SMALL: Grid = Grid::Length(0.1, 0.005, 0.0, 50.0);
/// A length that is sawn, cut out or measured by tape.
pub const ROUGH: Grid = Grid::Length(1.0, 0.0625, 1.0, 5000.0);
/// Plate as it is sold.
pub const PLATE: Grid = Grid::Sold(plate_thicknesses(LengthUnit::Mm), plate_thicknesses(LengthUnit::Inch));
/// Dowels as they are sold.
pub const DOWELS: Grid = Grid::Sold(dowel_diameters(LengthUnit::Mm), dowel_diameters(LengthUnit::Inch));
/// A ground or measured size.
pub const FINE: Grid = Grid::Length(0.01, 0.0005, 0.0, 2000.0);
/// A half-angle that a protractor sets.
pub const HALF_ANGLE: Grid = Grid::Angle(0.5, 1.0, 89.0);
/// A direction in plan.
pub const DIRECTION: Grid = Grid::Angle(0.5, -180.0, 180.0);
/// Steels from soft to hard, as cones, cups and spacers are made of.
pub const STEELS: Grid = Grid::Words(&["steel S235", "steel 1018", "steel 1045", "steel 4140 prehard"]);
/// Steels that are sold as plate and cut to outlines, from soft to hard: a bar's strength by drawing is not there.
/// Source: common practice, no source.
pub const PLATE_STEELS: Grid = Grid::Words(&["steel S235", "steel 1045", "steel 4140 prehard"]);
/// Metals and hard steels that a sleeve is made of, from soft to hard.
pub const SLEEVES: Grid = Grid::Words(&["steel S235", "steel 1045", "steel 4140 prehard", "steel 52100 hardened"]);
/// Shafts from loose to tight.
pub const SHAFTS: Grid = Grid::Words(&[
    "e8", "f7", "g6", "h8", "h7", "h6", "h5", "k5", "k6", "m5", "m6", "n5", "n6", "p5", "p6", "r6", "s6",
]);
/// Holes from loose to tight.
pub const HOLES: Grid = Grid::Words(&["E9", "F8", "F7", "G7", "G6", "H11", "H9", "H8", "H7", "H6"]);
/// Threads from small to large.
pub const THREADS: Grid = Grid::ByUnit(
    &["M6", "M8", "M10", "M12", "M16", "M20", "M24"],
    &["1/4-20", "5/16-18", "3/8-16", "1/2-13", "5/8-11", "3/4-10", "1-8"],
);
/// Property classes from weak to strong.
pub const BOLTS: Grid = Grid::Words(&["4.6", "5.8", "8.8", "10.9", "12.9"]);
/// Grades of inch hex bolts from weak to strong.
pub const GRADES: Grid = Grid::Words(&["grade 2", "grade 5", "grade 8"]);
/// What keeps two metals apart.
pub const APART: Grid = Grid::Words(&["grease", "paint", "insulation"]);

/// A welded cone bolted on instead, from below, its foot in a register, with the screw that carries it.
pub const BOLTED_ON: Lever = Lever::bought("bolt.thread", THREADS).along(FROM_BELOW);
const FROM_BELOW: &[(&str, &str)] =
    &[("mounting", "\"bolt-on\""), ("bolt.way", "\"from below\""), ("bolt.register", "\"foot\"")];
/// A steel that is not to be welded, bolted on so with that screw.
macro_rules! harder {
    ($unit:ident, $thread:literal) => {
        Lever::bought("material", STEELS)
            .along(&[
                ("mounting", "\"bolt-on\""),
                ("bolt.thread", concat!("\"", $thread, "\"")),
                ("bolt.way", "\"from below\""),
                ("bolt.register", "\"foot\""),
            ])
            .in_unit(LengthUnit::$unit)
    };
}
/// The same, of a steel that is not to be welded, with one of the screws.
pub const HARDER_BOLTED_ON: [Lever; 8] = [
    harder!(Mm, "M10"),
    harder!(Mm, "M12"),
    harder!(Mm, "M16"),
    harder!(Mm, "M20"),
    harder!(Inch, "3/8-16"),
    harder!(Inch, "1/2-13"),
    harder!(Inch, "5/8-11"),
    harder!(Inch, "3/4-10"),
];

/// Levers of a ring between a shaft and a housing.
const OUTSIDE_CLASS: Lever = Lever::free("outside_class", SHAFTS);
const BORE_CLASS: Lever = Lever::free("bore_class", HOLES);
const SHAFT_CLASS: Lever = Lever::free("shaft.class", SHAFTS);
const HOUSING_CLASS: Lever = Lever::free("housing.class", HOLES);
const RING_OUTSIDE: Lever = Lever::free("outside_diameter", SIZE);
const RING_BORE: Lever = Lever::free("bore", SIZE);
const RING_LENGTH: Lever = Lever::free("length", SIZE);
const RING_METAL: Lever = Lever::bought("material", SLEEVES);
const SHAFT_DIAMETER: Lever = Lever::free("shaft.diameter", FINE);
const HOUSING_DIAMETER: Lever = Lever::free("housing.diameter", FINE);
const HUB: Lever = Lever::free("pressed_in.hub_outside", ROUGH).stated("where there is so much metal round the hole");
const ROUGHNESS: Lever = Lever::free("pressed_in.roughness", Grid::Length(0.0002, 0.000_008, 0.0, 0.02));
const OTHER_ROUGHNESS: Lever = Lever::free("pressed_in.other_roughness", Grid::Length(0.0002, 0.000_008, 0.0, 0.02));
const SECURED: Lever = Lever::free("secured", Grid::Words(&["compound", "screw"]));

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
            Lever::free("mounting.dowels", DOWELS),
            Lever::free("mounting.clearance", Grid::Words(&["fine"])),
        ],
        otherwise: "dowel it, or let it sit in a register",
    },
    Remedy {
        checks: &["bolts_slip"],
        levers: &[
            Lever::free("mounting.number", Grid::Count(3, 12)),
            Lever::free("mounting.dowels", DOWELS),
            Lever::bought("mounting.thread", THREADS),
            Lever::bought("mounting.class", BOLTS),
            Lever::bought("mounting.class", GRADES),
        ],
        otherwise: "more or larger bolts, or dowels: dowels and dowel_spacing in [mounting]",
    },
    Remedy {
        checks: &["cone_bolt_slip"],
        levers: &[
            Lever::free("bolt.register", Grid::Words(&["foot"])),
            Lever::bought("bolt.thread", THREADS),
            Lever::bought("bolt.class", BOLTS),
            Lever::bought("bolt.class", GRADES),
            Lever::of_mate("mates", "bolt.register", Grid::Words(&["foot"])),
            Lever::bought_for_mate("mates", "bolt.thread", THREADS),
            Lever::bought_for_mate("mates", "bolt.class", BOLTS),
            Lever::bought_for_mate("mates", "bolt.class", GRADES),
        ],
        otherwise: "a larger or stronger screw, a foot on the cone in a register (register = \"foot\" in its [bolt], beside foot), or weld it on",
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
        checks: &["printer_bed"],
        levers: &[],
        otherwise: "a smaller part, print it in pieces that are glued and pinned, or have it printed elsewhere",
    },
    Remedy {
        checks: &["printed_under_load", "swells"],
        levers: &[Lever::bought("material", STEELS)],
        otherwise: "make it of metal; a print is a try-out",
    },
    Remedy {
        checks: &["interference_as_made"],
        levers: &[],
        otherwise: "cut, shim or measure as it says, and record the new size",
    },
    Remedy {
        checks: &["press_holds", "play_taken_up"],
        levers: &[OUTSIDE_CLASS, HOUSING_CLASS, HUB, ROUGHNESS, OTHER_ROUGHNESS, SECURED],
        otherwise: "a tighter class, a smoother face, or a screw or compound beside the press",
    },
    Remedy {
        checks: &["outer_part_yields", "inner_part_yields"],
        levers: &[
            OUTSIDE_CLASS,
            HOUSING_CLASS,
            HUB,
            RING_OUTSIDE,
            RING_METAL,
            Lever::bought("pressed_in.material", STEELS),
        ],
        otherwise: "a looser class, or a thicker hub",
    },
    Remedy {
        checks: &["heating"],
        levers: &[Lever::free("pressed_in.assembly_gap", FINE), OUTSIDE_CLASS],
        otherwise: "cool the inner part as well, or press it",
    },
    Remedy {
        checks: &["machine_before_pressing", "finish_after_pressing"],
        levers: &[BORE_CLASS, OUTSIDE_CLASS, HOUSING_CLASS, RING_OUTSIDE],
        otherwise: "finish the bore after pressing",
    },
    Remedy {
        checks: &["bore_depth"],
        levers: &[RING_LENGTH, RING_BORE],
        otherwise: "two shorter sleeves, or bore and hone it elsewhere",
    },
    Remedy {
        checks: &["hold_out"],
        levers: &[RING_LENGTH, RING_OUTSIDE],
        otherwise: "a shorter or a thicker piece, a follow rest, or bar that is bought ground to size",
    },
    Remedy { checks: &["wall"], levers: &[RING_OUTSIDE, RING_BORE], otherwise: "a thicker wall" },
    Remedy {
        checks: &["wall_at_groove"],
        levers: &[Lever::free("groove.depth", SMALL), RING_OUTSIDE],
        otherwise: "a shallower groove",
    },
    Remedy {
        checks: &["bore_fit", "service_fit"],
        levers: &[BORE_CLASS, SHAFT_CLASS, SHAFT_DIAMETER, OUTSIDE_CLASS],
        otherwise: "a looser class where it must run, a tighter one where it must hold",
    },
    Remedy {
        checks: &["bore_grade"],
        levers: &[BORE_CLASS, SHAFT_CLASS],
        otherwise: "a finer class for the coarser of the two",
    },
    Remedy {
        checks: &["outside_grade"],
        levers: &[OUTSIDE_CLASS, HOUSING_CLASS],
        otherwise: "a finer class for the coarser of the two",
    },
    Remedy {
        checks: &["outside_fit"],
        levers: &[OUTSIDE_CLASS, HOUSING_CLASS, HOUSING_DIAMETER],
        otherwise: "a looser class where it must come apart, a tighter one where it must hold",
    },
    Remedy {
        checks: &["grease_path"],
        levers: &[
            Lever::free("grease_hole.position", SIZE),
            Lever::free("grease_hole.diameter", SMALL),
            Lever::free("groove.width", SMALL),
        ],
        otherwise: "lead the grease to where it is wanted",
    },
    Remedy {
        checks: &["grease_hole_edge"],
        levers: &[
            Lever::free("grease_hole.position", SIZE),
            Lever::free("grease_hole.diameter", SMALL),
            RING_LENGTH,
            Lever::free("segment.*.length", SIZE),
        ],
        otherwise: "a smaller hole further in, a longer piece, or grease from its end",
    },
    Remedy {
        checks: &["groove_edge"],
        levers: &[
            Lever::free("groove.position", SIZE),
            Lever::free("groove.width", SMALL),
            RING_LENGTH,
            Lever::free("segment.*.length", SIZE),
        ],
        otherwise: "a narrower groove further in, or a longer piece",
    },
    Remedy {
        checks: &["plate_sold"],
        levers: &[Lever::bought("thickness", PLATE), Lever::bought("width", PLATE)],
        otherwise: "a plate that is stocked",
    },
    Remedy {
        checks: &["hub_wall"],
        levers: &[HUB, RING_OUTSIDE],
        otherwise: "a hub with more metal round the hole, or a thinner sleeve",
    },
    Remedy {
        checks: &["drawn_strength"],
        levers: &[Lever::bought("material", PLATE_STEELS)],
        otherwise: "a steel that is sold as plate, or the plate's own yield strength in shop.toml",
    },
    Remedy {
        checks: &["press_fit_not_worked"],
        levers: &[],
        otherwise: "write [pressed_in] with hub_outside and material, or [slid_on] with shaft_bore: the press is then worked out",
    },
    Remedy {
        checks: &["compound_strength"],
        levers: &[RING_LENGTH, RING_OUTSIDE],
        otherwise: "a screw beside the compound",
    },
];
