//! What is to be seen on a part's drawing: views with edges, cut faces and axes, and which sizes stand where.
//!
//! A family fills this in with sizes of the part, in millimetres on the part; the sheet chooses the scale and puts
//! every dimension in its place. A dimension is named by its handle, so that figures and limits come from the one place
//! where they were recorded.

mod geometric;
mod views;

pub use geometric::{Characteristic, Frame};

use crate::record::key::Size;
use crate::shape::{Point, Segment};
use crate::units::{Angle, Length, Stress};

/// All views of a part, the first one the most telling.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Drawing {
    /// The views.
    pub views: Vec<View>,
}

/// A picture that is no view of a part; texts are finished, places are in millimetres on the rig.
#[derive(Clone, PartialEq, Debug)]
pub enum Picture {
    /// Seats seen from above, with what each carries and how far the frame lies off it.
    Seats {
        /// What it shows.
        title: String,
        /// The seats.
        seats: Vec<SeatMark>,
        /// Centre of mass.
        centre: Point,
        /// By how much offsets are drawn larger than the plan.
        magnified: f64,
    },
    /// A value in every direction, evenly spaced from +x.
    Polar {
        /// What it shows.
        title: String,
        /// Radii.
        radii: Vec<f64>,
        /// Distance of the rings.
        ring: f64,
        /// What is needed in every direction.
        needed: f64,
        /// Words under it.
        words: String,
    },
    /// How often a value fell into each of several equal steps.
    Bars {
        /// What it shows.
        title: String,
        /// Edges of the steps, one more than `counts`.
        edges: Vec<String>,
        /// How often.
        counts: Vec<u32>,
        /// Limits: a place from 0 (first edge) to the number of steps, and its text.
        limits: Vec<(f64, String)>,
    },
    /// Lengths one after the other, each from where the last one ended, and the gap that is left.
    Chain {
        /// What it shows.
        title: String,
        /// The lengths.
        links: Vec<ChainLink>,
        /// What is left between the last end and the beginning.
        gap: ChainLink,
    },
    /// Tolerance zones about a nominal size, and the clearances between them.
    Fit {
        /// What it shows.
        title: String,
        /// Hole first.
        zones: Vec<FitZone>,
        /// Clearances: from the shaft's edge of the zone to the hole's, with a word.
        gaps: Vec<(Length, Length, String)>,
        /// What it comes to.
        outcome: Vec<String>,
    },
    /// A view without dimensions, not to a stated scale.
    Section {
        /// What it shows.
        title: String,
        /// The view.
        view: View,
    },
    /// Stress across a wall.
    Stress {
        /// What it shows.
        title: String,
        /// One after the other from the inside to the outside.
        curves: Vec<StressCurve>,
        /// Places that are named: diameter and words.
        places: Vec<(Length, String)>,
        /// What it comes to at the surfaces.
        outcome: Vec<String>,
    },
}

/// One part of a fit.
#[derive(Clone, PartialEq, Debug)]
pub struct FitZone {
    /// What it is.
    pub name: String,
    /// Deviations from the nominal size, lower and upper.
    pub deviations: (Length, Length),
    /// Limits of size as text, lower and upper.
    pub texts: [String; 2],
}

/// Stress along a diameter of one part.
#[derive(Clone, PartialEq, Debug)]
pub struct StressCurve {
    /// Hoop stress, else radial.
    pub hoop: bool,
    /// Diameter and stress, from the inside to the outside.
    pub points: Vec<(Length, Stress)>,
}

/// One length of a chain.
#[derive(Clone, PartialEq, Debug)]
pub struct ChainLink {
    /// What it is.
    pub name: String,
    /// Its length; negative where the chain runs back.
    pub length: Length,
    /// The length as text.
    pub text: String,
}

/// One seat of a picture.
#[derive(Clone, PartialEq, Debug)]
pub struct SeatMark {
    /// Name.
    pub name: String,
    /// Place.
    pub at: Point,
    /// How far the frame lies off the seat.
    pub off: Point,
    /// Load with its unit; empty for none.
    pub load: String,
    /// Metal touches metal.
    pub touches: bool,
    /// What is to be done there, a line each.
    pub to_do: Vec<String>,
}

/// On which side of the view a dimension lies.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Side {
    /// Level, over the view.
    Above,
    /// Level, under the view.
    Below,
    /// Upright, left of the view.
    Left,
    /// Upright, right of the view.
    Right,
}

impl Side {
    /// The next one clockwise.
    pub fn next(self) -> Self {
        match self {
            Self::Above => Self::Right,
            Self::Right => Self::Below,
            Self::Below => Self::Left,
            Self::Left => Self::Above,
        }
    }
}

/// A face cut through, hatched.
#[derive(Clone, PartialEq, Debug)]
pub struct Cut {
    /// Closed outlines; what lies within an even number of them is not cut.
    pub outlines: Vec<Vec<Segment>>,
    /// Which part of an assembly: neighbours are hatched differently.
    pub part: usize,
    /// A solid part is not cut lengthwise (ISO 128-3:2020): its outline counts, but it is not hatched.
    pub solid: bool,
}

/// How a line of the view is drawn.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Edge {
    /// A visible edge.
    Visible,
    /// An axis or pitch circle.
    Axis,
    /// The root of a thread (ISO 6410-1:1993, 3.1: a narrow line, three quarters of a circle seen from the end).
    Thread,
}

/// How a view hangs together with the next one.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Stands {
    /// It stands for itself.
    #[default]
    Alone,
    /// The section of a flat part; its plan follows.
    Front,
    /// The plan of a flat part.
    Above {
        /// It is the same all round.
        round: bool,
    },
}

/// One view of a part or an assembly; x to the right, y upwards.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct View {
    /// What it is: `Section on the axis`, `Plan`.
    pub title: String,
    /// How it hangs together with the next view.
    pub stands: Stands,
    /// Faces cut through.
    pub cuts: Vec<Cut>,
    /// Lines of joined edges.
    pub edges: Vec<(Edge, Vec<Segment>)>,
    /// Dimensions.
    pub dimensions: Vec<Drawn>,
    /// Short texts that point at something.
    pub notes: Vec<(Point, String)>,
    /// Surface texture where it matters: a point on the surface, the direction off the surface, the text (`Ra 0.8`).
    pub textures: Vec<(Point, Angle, String)>,
    /// Geometric tolerances of a surface: a point on it, the direction off it, the frame.
    pub frames: Vec<(Point, Angle, Frame)>,
    /// Surfaces that others are held against: a point on it, the direction off it, the letter.
    pub datums: Vec<(Point, Angle, char)>,
    /// Keys of the sizes of further pieces that are shown by this one, since they are alike.
    pub alike: Vec<String>,
}

/// A dimension in a view.
#[derive(Clone, PartialEq, Debug)]
pub struct Drawn {
    /// Key of the recorded dimension whose figures it shows.
    pub key: String,
    /// How it is drawn.
    pub how: How,
    /// What stands behind the size on the same line: words, and the key of one more recorded figure after them.
    pub behind: Vec<(String, String)>,
    /// It follows from other sizes and stands in brackets (ISO 129-1, auxiliary dimension).
    pub auxiliary: bool,
    /// Geometric tolerances of the axis or middle plane of this size.
    pub frames: Vec<Frame>,
    /// The axis or middle plane of this size is a datum of that letter.
    pub datum: Option<char>,
}

/// The ways of drawing a dimension.
#[derive(Clone, PartialEq, Debug)]
pub enum How {
    /// A distance between two points along a side of the view; `diameter` puts Ø before it.
    Across {
        /// One end.
        from: Point,
        /// The other end.
        to: Point,
        /// Where it is drawn.
        side: Side,
        /// It is a diameter seen from the side.
        diameter: bool,
    },
    /// An angle between two directions, drawn on the free side of a corner.
    Corner {
        /// Where the legs meet.
        vertex: Point,
        /// First direction.
        from: Angle,
        /// Second direction, larger.
        to: Angle,
    },
    /// A leader to a round hole or shaft seen from its end.
    Hole {
        /// Centre.
        centre: Point,
        /// Diameter as drawn.
        diameter: Length,
        /// How many alike.
        count: u32,
    },
    /// A leader to an arc.
    Radius {
        /// Centre of the arc.
        centre: Point,
        /// Radius as drawn.
        radius: Length,
        /// Direction in which the arc is met.
        direction: Angle,
    },
    /// The rate of taper with its symbol (ISO 3040), on a leader from a point of the cone's surface; narrows to the
    /// right unless `to_left`.
    Taper {
        /// A point of the surface.
        at: Point,
        /// The cone narrows to the left.
        to_left: bool,
    },
    /// A note from a point: a thread, a depth.
    Note {
        /// Where it points.
        at: Point,
        /// What kind of size it is.
        kind: Noted,
    },
}

/// What a size on a leader is, where its figure alone does not say it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Noted {
    /// As it is.
    Plain,
    /// A diameter.
    Diameter,
    /// A radius.
    Radius,
    /// The width of a chamfer of 45 degrees.
    Chamfer,
}

impl View {
    /// An empty view.
    pub fn new(title: &str) -> Self {
        Self { title: title.into(), ..Self::default() }
    }

    fn drawn(mut self, size: &Size, how: How) -> Self {
        let (behind, frames) = (Vec::new(), Vec::new());
        self.dimensions.push(Drawn { key: size.name().into(), how, behind, auxiliary: false, frames, datum: None });
        self
    }

    fn last(mut self, change: impl FnOnce(&mut Drawn)) -> Self {
        if let Some(drawn) = self.dimensions.last_mut() {
            change(drawn);
        }
        self
    }

    /// Sets words and one more recorded figure behind the last dimension: `.pointed(&THREAD, at).also(" × ", &DEPTH)`;
    /// words that begin with a line feed begin a new line.
    pub fn also(self, words: &str, size: &Size) -> Self {
        self.last(|d| d.behind.push((words.into(), size.name().into())))
    }

    /// Sets the last dimension in brackets: it follows from others and nobody makes it.
    #[allow(dead_code, reason = "not asked yet")]
    pub fn auxiliary(self) -> Self {
        self.last(|d| d.auxiliary = true)
    }

    /// Holds the axis or middle plane of the last dimension to a geometric tolerance.
    pub fn toleranced(self, frame: Frame) -> Self {
        self.last(|d| d.frames.push(frame))
    }

    /// Makes the axis or middle plane of the last dimension a datum.
    #[allow(clippy::wrong_self_convention, reason = "the builder hands itself on; the word is that of the drawing")]
    pub fn as_datum(self, letter: char) -> Self {
        self.last(|d| d.datum = Some(letter))
    }

    /// A diameter of a turned part seen from the side, at the place `along` the axis.
    pub fn diameter(self, size: &Size, along: Length, diameter: Length, side: Side) -> Self {
        let (from, to) = (Point::new(along, diameter * -0.5), Point::new(along, diameter * 0.5));
        self.drawn(size, How::Across { from, to, side, diameter: true })
    }

    /// A diameter between two points, measured along the side: a bore in the section of a plate.
    pub fn diameter_between(self, size: &Size, from: Point, to: Point, side: Side) -> Self {
        self.drawn(size, How::Across { from, to, side, diameter: true })
    }

    /// A length along the axis of a turned part, between two places, each with the diameter at which it is met.
    pub fn axial(self, size: &Size, from: (Length, Length), to: (Length, Length), side: Side) -> Self {
        let half = if side == Side::Below { -0.5 } else { 0.5 };
        self.distance(size, Point::new(from.0, from.1 * half), Point::new(to.0, to.1 * half), side)
    }

    /// A distance between two points, measured along the side.
    pub fn distance(self, size: &Size, from: Point, to: Point, side: Side) -> Self {
        self.drawn(size, How::Across { from, to, side, diameter: false })
    }

    /// An angle between two directions from a point, on the free side of the part.
    pub fn corner(self, size: &Size, vertex: Point, from: Angle, to: Angle) -> Self {
        self.drawn(size, How::Corner { vertex, from, to })
    }

    /// A hole, with how many alike.
    pub fn hole(self, size: &Size, centre: Point, diameter: Length, count: u32) -> Self {
        self.drawn(size, How::Hole { centre, diameter, count })
    }

    /// A radius.
    pub fn radius(self, size: &Size, centre: Point, radius: Length, direction: Angle) -> Self {
        self.drawn(size, How::Radius { centre, radius, direction })
    }

    /// A rate of taper.
    pub fn taper(self, size: &Size, at: Point, to_left: bool) -> Self {
        self.drawn(size, How::Taper { at, to_left })
    }

    /// The value of a size on a leader.
    pub fn pointed(self, size: &Size, at: Point) -> Self {
        self.drawn(size, How::Note { at, kind: Noted::Plain })
    }

    /// A diameter on a leader, where it is not seen as one.
    pub fn pointed_diameter(self, size: &Size, at: Point) -> Self {
        self.drawn(size, How::Note { at, kind: Noted::Diameter })
    }

    /// A radius on a leader, where the section is too small for an arc.
    pub fn pointed_radius(self, size: &Size, at: Point) -> Self {
        self.drawn(size, How::Note { at, kind: Noted::Radius })
    }

    /// A chamfer of 45 degrees on a leader.
    pub fn chamfer(self, size: &Size, at: Point) -> Self {
        self.drawn(size, How::Note { at, kind: Noted::Chamfer })
    }

    /// Free words on a leader.
    pub fn note(mut self, at: Point, words: &str) -> Self {
        self.notes.push((at, words.into()));
        self
    }

    /// A surface texture sign.
    pub fn texture(mut self, at: Point, off: Angle, words: &str) -> Self {
        self.textures.push((at, off, words.into()));
        self
    }

    /// A geometric tolerance of the surface at a point.
    pub fn frame(mut self, at: Point, off: Angle, frame: Frame) -> Self {
        self.frames.push((at, off, frame));
        self
    }

    /// Makes the surface at a point a datum.
    pub fn datum(mut self, at: Point, off: Angle, letter: char) -> Self {
        self.datums.push((at, off, letter));
        self
    }
}
