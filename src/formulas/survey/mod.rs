//! Where are the points really? Positions from tape readings by least squares, with the reading that
//! does not fit named where the geometry allows it.
//!
//! Unknowns 2N − 3: the first point is the origin, the second lies on +x, the third on the stated side.
//! v = computed − measured, weights 1/σ², Q = (JᵀPJ)⁻¹, redundancy r_i = 1 − J_i Q J_iᵀ/σ_i²,
//! w_i = v_i/(σ_i √r_i); |w| > 3.29 is suspect (Baarda 1968: 0.1 % error of the first kind); smallest blunder
//! that is found with 80 % chance 4.13 σ/√r_i; blunder about −v_i/r_i.
//! (Baarda, A testing procedure for use in geodetic networks, 1968; Ghilani, Adjustment Computations, chapters
//! 14 and 21.)

mod adjust;
mod matrix;
pub mod spread;
pub mod standing;
mod start;
mod verdict;

use std::fmt;
use std::sync::{Mutex, PoisonError};

use crate::formulas::frame::Plan;
use crate::units::show::fixed;
use crate::units::{Angle, Length};

pub use spread::Covariance;
pub use verdict::{Advice, Verdict};

/// |w| above this is suspect.
pub const SUSPECT: f64 = 3.29;
/// Smallest blunder found with 80 % chance, over σ/√r.
pub const DETECTABLE: f64 = 4.13;
/// Default tape uncertainty, one reading, one sigma (common practice, no source).
pub const TAPE: Length = Length::mm(1.0);

/// One tape reading between two points.
#[derive(Clone, PartialEq, Debug)]
pub struct Reading {
    /// From this point.
    pub from: String,
    /// To that one.
    pub to: String,
    /// Tape reading along the line.
    pub length: Length,
    /// Height difference of the ends.
    pub dz: Length,
    /// Uncertainty, one sigma.
    pub sigma: Length,
}

impl Reading {
    /// A level reading with the default uncertainty.
    #[allow(dead_code, reason = "tests make theirs with it")]
    pub fn level(from: &str, to: &str, length: Length) -> Self {
        Self { from: from.to_owned(), to: to.to_owned(), length, dz: Length::ZERO, sigma: TAPE }
    }
}

/// On which side of the line first-second the third point lies, seen from above.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Side {
    /// Left: counter-clockwise.
    #[default]
    Left,
    /// Right: clockwise.
    Right,
}

/// What is to be adjusted.
#[derive(Clone, PartialEq, Debug)]
pub struct Network {
    /// Names of all points; the first three fix origin, direction and side.
    pub points: Vec<String>,
    /// Rough positions in the same frame, if known (they settle which side a point lies on); may be empty.
    pub rough: Vec<Option<Plan>>,
    /// All readings; a line may be read several times.
    pub readings: Vec<Reading>,
    /// Side of the third point.
    pub third: Side,
}

/// Error ellipse (one sigma) of a point against the first.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Ellipse {
    /// Half of the long axis.
    pub major: Length,
    /// Half of the short axis.
    pub minor: Length,
    /// Direction of the long axis from x.
    pub direction: Angle,
}

/// An adjusted point.
#[derive(Clone, PartialEq, Debug)]
pub struct Surveyed {
    /// Name.
    pub name: String,
    /// Position.
    pub at: Plan,
    /// Uncertainty.
    pub ellipse: Ellipse,
}

/// What the adjustment says of one reading.
#[derive(Clone, PartialEq, Debug)]
pub struct Judged {
    /// From this point.
    pub from: String,
    /// To that one.
    pub to: String,
    /// Measured length, reduced to the level.
    pub measured: Length,
    /// Computed minus measured.
    pub residual: Length,
    /// Share of this reading that others check, 0 to 1.
    pub redundancy: f64,
    /// w; `None` if nothing checks this reading.
    pub standardised: Option<f64>,
    /// Smallest blunder it could have seen; `None` if nothing checks this reading.
    pub detectable: Option<Length>,
    /// Size of the blunder if this reading is the wrong one (reading minus truth).
    pub blunder: Option<Length>,
    /// How far a millimetre more in this reading moves every point, against the first two.
    pub pull: Vec<Plan>,
    /// The further line that would check this reading best: an unmeasured one, or where all are measured one measured again.
    pub helped_by: Option<(String, String)>,
}

/// An adjusted network.
#[derive(Clone, PartialEq, Debug)]
pub struct Survey {
    /// Points in the given order.
    pub points: Vec<Surveyed>,
    /// Readings in the given order.
    pub readings: Vec<Judged>,
    /// Readings beyond what is needed.
    pub redundancy: usize,
    /// √(Σ (v/σ)²/redundancy): 1 is as good as stated, over 2: measure again. `None` without redundancy.
    pub s0: Option<f64>,
    /// Is a reading wrong, and which?
    pub verdict: Verdict,
    /// What would help most.
    pub advice: Option<Advice>,
    /// Of all points together, against the first two.
    pub covariance: Covariance,
}

/// Why a survey cannot be worked.
#[derive(Clone, PartialEq, Debug)]
pub enum SurveyError {
    /// Fewer than two points.
    TooFewPoints,
    /// A name stands twice in the list of points.
    Repeated(String),
    /// A reading names a point that is not in the list.
    Unknown(String),
    /// A reading from a point to itself.
    Itself(String),
    /// A number that is missing, infinite, or nought or less where it must not be.
    BadReading(String, String),
    /// The height difference is not smaller than the length.
    TooSteep(String, String),
    /// Two points in one place.
    SamePlace(String, String),
    /// Fewer readings than unknowns.
    TooFewLengths {
        /// Different lines measured.
        have: usize,
        /// Needed: 2N − 3.
        need: usize,
    },
    /// A point that fewer than two lengths hold.
    Loose(String),
    /// Enough lengths, but in the wrong places: part of the network can move.
    NotRigid,
    /// Three lengths that cannot form a triangle.
    CannotClose {
        /// Its corners.
        corners: [String; 3],
        /// By how much the longest side is too long.
        by: Length,
    },
    /// A point may lie on either side; a further length or a rough position settles it.
    EitherSide(String),
}

impl fmt::Display for SurveyError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooFewPoints => write!(f, "a survey needs at least two points"),
            Self::Repeated(p) => write!(f, "the point {p} is listed twice"),
            Self::Unknown(p) => write!(f, "the point {p} is not in the list of points"),
            Self::Itself(p) => write!(f, "a reading goes from {p} to itself"),
            Self::BadReading(a, b) => write!(f, "the reading {a}-{b} is not a length above nought"),
            Self::TooSteep(a, b) => {
                write!(f, "the reading {a}-{b}: the height difference is not smaller than the length")
            }
            Self::SamePlace(a, b) => write!(f, "the points {a} and {b} are in one place"),
            Self::TooFewLengths { have, need } => write!(f, "{need} different lengths are needed, {have} are given"),
            Self::Loose(p) => write!(f, "fewer than two lengths hold the point {p}"),
            Self::NotRigid => write!(f, "the lengths leave part of the network free to move"),
            Self::CannotClose { corners: [a, b, c], by } => {
                write!(
                    f,
                    "the triangle {a}, {b}, {c} cannot close: its longest side is {} mm too long",
                    fixed(by.as_mm(), 1)
                )
            }
            Self::EitherSide(p) => {
                write!(f, "the point {p} may lie on either side: one more length to it settles that")
            }
        }
    }
}

impl std::error::Error for SurveyError {}

impl Network {
    /// The same without one reading, at the places that were found with it, so that no side is in doubt.
    pub fn without(&self, reading: usize, found: &Survey) -> Self {
        let mut rest = self.clone();
        if reading < rest.readings.len() {
            rest.readings.remove(reading);
        }
        rest.rough = found.points.iter().map(|p| Some(p.at)).collect();
        rest
    }
}

/// A reading between point numbers, reduced to the level.
#[derive(Clone, Copy, Debug)]
struct Line {
    a: usize,
    b: usize,
    length: f64,
    sigma: f64,
}

/// Horizontal length of a reading: √(s² − dz²).
pub fn reduced_to_level(length: Length, dz: Length) -> Option<Length> {
    let (s, h) = (length.as_mm(), dz.as_mm());
    (s.is_finite() && h.is_finite() && s > h.abs()).then(|| Length::mm(((s - h) * (s + h)).sqrt()))
}

/// Adjusts a network.
pub fn adjust(network: &Network) -> Result<Survey, SurveyError> {
    let lines = lines_of(network)?;
    let closing = start::check_triangles(&network.points, &lines);
    let settled = adjust::best_of_starts(network, &lines);
    let survey = settled.and_then(|s| verdict::report(network, &lines, &s));
    match (closing, survey) {
        // the bad reading is named, or two or three to choose from: more use than the triangle that it spoils
        (_, Ok(survey)) if survey.verdict.names() => Ok(survey),
        (Err(open), _) => Err(open),
        (Ok(()), survey) => survey,
    }
}

/// Adjustments that were made already: a search works one survey many times over.
#[derive(Default, Debug)]
pub struct Adjustments(Mutex<Vec<(Network, Result<Survey, SurveyError>)>>);

/// So many are kept: those of the files as they stand come first.
const ADJUSTMENTS: usize = 8;

impl Adjustments {
    /// Adjusts a network, or gives it as it was adjusted before.
    pub fn of(&self, network: &Network) -> Result<Survey, SurveyError> {
        let held = || self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, found)) = held().iter().find(|(of, _)| of == network) {
            return found.clone();
        }
        // Not held while it works: two at once work the same and find the same.
        let found = adjust(network);
        let mut all = held();
        if all.len() < ADJUSTMENTS {
            all.push((network.clone(), found.clone()));
        }
        found
    }
}

fn lines_of(network: &Network) -> Result<Vec<Line>, SurveyError> {
    let names = &network.points;
    if names.len() < 2 {
        return Err(SurveyError::TooFewPoints);
    }
    for (i, name) in names.iter().enumerate() {
        if names.iter().take(i).any(|n| n == name) {
            return Err(SurveyError::Repeated(name.clone()));
        }
    }
    let lines = network.readings.iter().map(|r| line_of(names, r)).collect::<Result<Vec<_>, _>>()?;
    let mut pairs: Vec<_> = lines.iter().map(|l| (l.a.min(l.b), l.a.max(l.b))).collect();
    pairs.sort_unstable();
    pairs.dedup();
    let need = 2 * names.len() - 3;
    if pairs.len() < need {
        return Err(SurveyError::TooFewLengths { have: pairs.len(), need });
    }
    let held = |i: usize| pairs.iter().filter(|(a, b)| *a == i || *b == i).count();
    match names.iter().enumerate().find(|(i, _)| names.len() > 2 && held(*i) < 2) {
        Some((_, name)) => Err(SurveyError::Loose(name.clone())),
        None => Ok(lines),
    }
}

fn line_of(names: &[String], r: &Reading) -> Result<Line, SurveyError> {
    let find = |n: &String| names.iter().position(|p| p == n).ok_or_else(|| SurveyError::Unknown(n.clone()));
    let (a, b) = (find(&r.from)?, find(&r.to)?);
    if a == b {
        return Err(SurveyError::Itself(r.from.clone()));
    }
    let ends = || (r.from.clone(), r.to.clone());
    let sound = r.length.is_finite() && r.dz.is_finite() && r.sigma.is_finite() && r.sigma > Length::ZERO;
    if !sound || r.length < Length::ZERO {
        let (a, b) = ends();
        return Err(SurveyError::BadReading(a, b));
    }
    if r.length <= r.sigma {
        let (a, b) = ends();
        return Err(SurveyError::SamePlace(a, b));
    }
    let level = reduced_to_level(r.length, r.dz).ok_or_else(|| {
        let (a, b) = ends();
        SurveyError::TooSteep(a, b)
    })?;
    Ok(Line { a, b, length: level.as_mm(), sigma: r.sigma.as_mm() })
}
