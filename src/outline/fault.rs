//! What a cutter would send a drawing back for, or ask about.

use crate::shape::Point;

/// Kinds of fault.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Kind {
    /// No unit stated, an unusual one, or one that does not fit the size.
    Unit,
    /// An outline whose end is not its beginning.
    Open,
    /// Ends that do not meet, so near that they are joined.
    Gap,
    /// An outline that crosses or touches itself or another.
    Crossing,
    /// The same line twice.
    Double,
    /// A line of no length.
    ZeroLength,
    /// A spline.
    Spline,
    /// An ellipse.
    Ellipse,
    /// Lettering.
    Text,
    /// A hatched or filled area.
    Hatch,
    /// Something placed as a block.
    Block,
    /// A dimension or a leader.
    Dimension,
    /// A single point.
    Point,
    /// Not in the plane of the drawing.
    OffPlane,
    /// Anything else that is no outline.
    NoOutline,
    /// Lies on a layer that by its name is not for the machine.
    Layer,
    /// A hole too small for the thickness.
    Hole,
    /// Metal too narrow for the thickness.
    Web,
    /// Nothing in it to cut.
    Empty,
}

impl Kind {
    /// As it is printed.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Unit => "unit",
            Self::Open => "open outline",
            Self::Gap => "gap",
            Self::Crossing => "crossing",
            Self::Double => "double",
            Self::ZeroLength => "zero length",
            Self::Spline => "spline",
            Self::Ellipse => "ellipse",
            Self::Text => "text",
            Self::Hatch => "hatch",
            Self::Block => "block",
            Self::Dimension => "dimension",
            Self::Point => "point",
            Self::OffPlane => "out of plane",
            Self::NoOutline => "no outline",
            Self::Layer => "layer",
            Self::Hole => "hole too small",
            Self::Web => "web too thin",
            Self::Empty => "nothing to cut",
        }
    }

    /// Of an entity by its word in the file.
    pub fn of(word: &str) -> Self {
        match word {
            "TEXT" | "MTEXT" | "ATTRIB" | "ATTDEF" | "RTEXT" | "ARCALIGNEDTEXT" => Self::Text,
            "HATCH" | "MPOLYGON" | "SOLID" | "TRACE" | "WIPEOUT" => Self::Hatch,
            "DIMENSION"
            | "ARC_DIMENSION"
            | "LARGE_RADIAL_DIMENSION"
            | "LEADER"
            | "MULTILEADER"
            | "MLEADER"
            | "TOLERANCE" => Self::Dimension,
            "POINT" => Self::Point,
            "3DFACE" | "3DSOLID" | "BODY" | "REGION" | "MESH" | "SURFACE" => Self::OffPlane,
            _ => Self::NoOutline,
        }
    }
}

/// A fault at its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Fault {
    /// Its kind.
    pub kind: Kind,
    /// Name of its layer; empty where it is the drawing as a whole.
    pub layer: String,
    /// Where.
    pub at: Point,
    /// One sentence.
    pub says: String,
    /// A cutter would send the drawing back for it; else he would ask, or put it right himself.
    pub refused: bool,
}
