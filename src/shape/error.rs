//! Why a shape cannot be made, in words for the bench.

use std::fmt;

use super::Point;
use crate::units::Length;
use crate::units::show::fixed;

/// What is wrong with a described shape.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum ShapeError {
    /// A coordinate, diameter or bulge is NaN or infinite.
    NotFinite,
    /// A coordinate lies further than 10 m from the origin.
    TooLarge,
    /// A contour needs at least two segments (two arcs) or three lines.
    TooFewSegments,
    /// A segment shorter than [`super::SHORTEST_SEGMENT`].
    ShortSegment(Point),
    /// A segment does not start where the one before it ends.
    Open(Point),
    /// The contour turns straight back on itself.
    FoldsBack(Point),
    /// Two segments of one contour cross or touch.
    CrossesItself(Point),
    /// The contour encloses nothing.
    NoArea,
    /// The two ends of an arc are not equally far from its centre.
    UnevenArc(Point),
    /// An arc of more than 100 m radius, or of more than about 350°.
    ArcOutOfRange(Point),
    /// A turned profile that reaches across its axis.
    AcrossAxis(Point),
    /// A turned profile that touches the axis in a single point from both sides, or nowhere along a straight run.
    PinchedAtAxis(Point),
    /// A diameter, width, length or thickness that is not positive.
    NotPositive(&'static str),
    /// A slot not longer than wide.
    SlotNotLonger,
    /// The corner radius exceeds half the shorter side.
    CornerTooLarge,
    /// A ring whose bore is not smaller than its outside diameter.
    RingWithoutWall,
    /// A bored hole whose profile does not begin at the top face, leaves the plate, or runs back up.
    HoleDepth(Point),
    /// A hole touches the outline or lies outside it.
    HoleOutside(Point),
    /// Two holes touch or overlap.
    HolesMeet(Point, Point),
    /// A radial hole that does not go through one wall between two straight cylindrical faces.
    RadialHoleOffWall(Length),
    /// A radial hole too wide for the bore it breaks into.
    RadialHoleTooWide,
    /// Two radial holes touch.
    RadialHolesMeet,
    /// A hole across a plate that does not go square through one wall between two straight edges.
    CrossHoleOffWall(Point),
    /// Two holes across a plate touch.
    CrossHolesMeet,
    /// The same mark twice, or a mark of no size.
    Mark(Point),
}

impl fmt::Display for ShapeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotFinite => f.write_str("a size of this shape is not a number"),
            Self::TooLarge => f.write_str("the shape reaches further than 10 m from its origin"),
            Self::TooFewSegments => f.write_str("an outline needs at least three lines, or two arcs"),
            Self::ShortSegment(p) => write!(f, "an edge at {p} is shorter than 0.001 mm"),
            Self::Open(p) => write!(f, "the outline is open at {p}"),
            Self::FoldsBack(p) => write!(f, "the outline turns straight back on itself at {p}"),
            Self::CrossesItself(p) => write!(f, "the outline crosses or touches itself at {p}"),
            Self::NoArea => f.write_str("the outline encloses nothing"),
            Self::UnevenArc(p) => write!(f, "the arc at {p} has its two ends at different distances from its centre"),
            Self::ArcOutOfRange(p) => write!(f, "the arc at {p} is flatter than 100 m radius or nearly a full circle"),
            Self::AcrossAxis(p) => write!(f, "the profile reaches across the axis at {p}"),
            Self::PinchedAtAxis(p) => write!(f, "the profile only just touches the axis at {p}"),
            Self::NotPositive(what) => write!(f, "the {what} must be more than nought"),
            Self::SlotNotLonger => f.write_str("a slot must be longer than it is wide"),
            Self::CornerTooLarge => f.write_str("the corner radius is more than half the shorter side"),
            Self::RingWithoutWall => f.write_str("the bore must be smaller than the outside diameter"),
            Self::HoleDepth(p) => write!(
                f,
                "the hole at {p} must begin at the top face, never run back up, and end at the bottom face or on its axis"
            ),
            Self::HoleOutside(p) => write!(f, "the hole at {p} breaks through the outline or lies outside it"),
            Self::HolesMeet(a, b) => write!(f, "the holes at {a} and {b} run into each other"),
            Self::RadialHoleOffWall(z) => write!(
                f,
                "the cross hole at {} mm along the axis does not pass through one wall with a straight bore and a straight outside",
                fixed(z.as_mm(), 3)
            ),
            Self::RadialHoleTooWide => f.write_str("a cross hole may be at most 0.9 of the bore it breaks into"),
            Self::RadialHolesMeet => f.write_str("two cross holes run into each other"),
            Self::CrossHoleOffWall(p) => write!(
                f,
                "the hole across at {p} does not go square through one wall between two straight edges, clear of its ends"
            ),
            Self::CrossHolesMeet => f.write_str("two holes across run into each other"),
            Self::Mark(p) => write!(f, "the mark at {p} has no size or is there twice"),
        }
    }
}

impl std::error::Error for ShapeError {}
