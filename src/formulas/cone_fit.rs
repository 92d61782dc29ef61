//! A cone as it came out: base diameter and half-angle from whatever was measured of it, all readings together.

use super::turning;
use super::{MechanicsError, positive};
use crate::units::{Angle, Length};

/// What a reading is of, with what it hangs on.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Observed {
    /// A diameter, so far above the base circle.
    Diameter {
        /// Over the base circle.
        above: Length,
    },
    /// A size over two rollers of that diameter which lie so far above the base circle (below nought: under it).
    OverRollers {
        /// Diameter of a roller.
        roller: Length,
        /// Over the base circle.
        above: Length,
    },
    /// How far over the base circle a ring of that bore comes to rest.
    Ring {
        /// Its bore.
        bore: Length,
    },
    /// What a dial reads along the flank over that travel along the axis.
    Dial {
        /// Along the axis.
        travel: Length,
    },
    /// The half-angle itself; its reading is in degrees.
    HalfAngle,
}

impl Observed {
    /// What is read of a cone of that base and half-angle: millimetres, or degrees.
    pub fn read(&self, base: Length, half_angle: Angle) -> f64 {
        let at = |above: Length| turning::small_diameter(base, half_angle, above);
        let read = match *self {
            Self::Diameter { above } => at(above),
            Self::OverRollers { roller, above } => turning::over_rollers(at(above), half_angle, roller),
            Self::Ring { bore } => turning::ring_height(base, half_angle, bore),
            Self::Dial { travel } => turning::dial_over_travel(travel, half_angle),
            Self::HalfAngle => return half_angle.as_degrees(),
        };
        read.as_mm()
    }
}

/// A reading with its standard uncertainty, in millimetres or degrees.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Observation {
    /// What was read.
    pub of: Observed,
    /// The reading.
    pub read: f64,
    /// Its standard uncertainty, above 0, without what all readings have in common.
    pub standard: f64,
    /// By how much it reads more where the level that all readings are taken from lies 1 mm higher than is known: mm, or degrees.
    pub by_level: f64,
}

/// What readings say of a cone. A figure that they do not determine is none.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Fitted {
    /// Base diameter, with its standard uncertainty.
    pub base: Option<(Length, Length)>,
    /// Half-angle, with its standard uncertainty.
    pub half_angle: Option<(Angle, Angle)>,
    /// Covariance of the two in mm degrees, where both are determined.
    pub covariance: f64,
    /// How far the reading that is furthest off lies from what all others say, in standard deviations of that difference, and which
    /// it is; none where nothing is left over.
    pub worst: Option<(f64, usize)>,
}

/// Steps after which the search has long come to rest.
const STEPS: usize = 30;

/// Base diameter D and half-angle a from readings y_i with standard uncertainties u_i: the least of rᵀ V⁻¹ r, r_i = y_i − f_i(D, a), by
/// the steps of Gauss and Newton from what is drawn; their covariance is (Jᵀ V⁻¹ J)⁻¹. V = diag(u_i²) + u_l² s sᵀ: the level from
/// which the readings s_i are taken is known to u_l, in mm, and moves all of them together. A reading is off by
/// w_i = √(rᵀ V⁻¹ r − the same without it).
/// D in mm, a in degrees; valid for half-angles of 0.2° to 88°, outside it gives no answer.
/// Source: JCGM 102:2011 and any text on adjustment (generalised least squares, test of single readings; from memory).
pub fn fit(observations: &[Observation], level: Length, drawn: (Length, Angle)) -> Result<Fitted, MechanicsError> {
    let solved = solve(observations, level, drawn)?;
    let (var_base, var_angle, covariance) = solved.normal.variances();
    Ok(Fitted {
        base: var_base.map(|v| (Length::mm(solved.base), Length::mm(v.sqrt()))),
        half_angle: var_angle.map(|v| (Angle::degrees(solved.angle), Angle::degrees(v.sqrt()))),
        covariance,
        worst: worst(observations, level, drawn, &solved),
    })
}

/// Readings that are each enough to leave out for all others to agree to that many standard deviations; none where all agree. Several:
/// which of them is wrong the readings do not tell.
/// Source: as [`fit`].
pub fn suspects(observations: &[Observation], level: Length, drawn: (Length, Angle), most: f64) -> Vec<usize> {
    let off = |all: &[Observation]| fit(all, level, drawn).ok().and_then(|f| f.worst).is_some_and(|(by, _)| by > most);
    if !off(observations) {
        return Vec::new();
    }
    (0..observations.len()).filter(|i| !off(&without(observations, *i))).collect()
}

/// All readings but one.
pub fn without(observations: &[Observation], leave: usize) -> Vec<Observation> {
    observations.iter().enumerate().filter(|(i, _)| *i != leave).map(|(_, o)| *o).collect()
}

/// Where the search came to rest.
struct Solved {
    base: f64,
    angle: f64,
    normal: Normal,
    /// rᵀ V⁻¹ r.
    left: f64,
    /// So many readings are over.
    over: usize,
}

fn solve(observations: &[Observation], level: Length, drawn: (Length, Angle)) -> Result<Solved, MechanicsError> {
    if observations.is_empty() {
        return Err(MechanicsError::Empty("readings"));
    }
    super::finite("what is open of the level", level.as_mm())?;
    for one in observations {
        positive("a standard uncertainty", one.standard)?;
        super::finite("a reading", one.read)?;
        super::finite("what the level does to a reading", one.by_level)?;
    }
    let (mut base, mut angle) = (drawn.0.as_mm(), drawn.1.as_degrees());
    let mut normal = Normal::default();
    for _ in 0..STEPS {
        if !(0.2..=88.0).contains(&angle) {
            return Err(MechanicsError::OutOfRange {
                what: "the half-angle by these readings",
                range: "0.2 to 88 degrees",
            });
        }
        normal = Normal::at(observations, level.as_mm(), base, angle);
        let (step_base, step_angle) = normal.step();
        base += step_base;
        angle += step_angle;
        if step_base.abs() < 1e-10 && step_angle.abs() < 1e-11 {
            break;
        }
    }
    let told = if normal.both() { 2 } else { 1 };
    let left = Normal::at(observations, level.as_mm(), base, angle).left;
    Ok(Solved { base, angle, normal, left, over: observations.len().saturating_sub(told) })
}

/// The reading that is furthest off what all others say.
fn worst(observations: &[Observation], level: Length, drawn: (Length, Angle), solved: &Solved) -> Option<(f64, usize)> {
    if solved.over == 0 {
        return None;
    }
    let off = |i: usize| {
        let rest = solve(&without(observations, i), level, drawn).ok()?;
        // Where nothing is over without it, the rest fits whatever it says.
        let left = if rest.over == 0 { 0.0 } else { rest.left };
        // A figure that this reading alone tells is held against nothing.
        let held = rest.normal.both() || !solved.normal.both();
        held.then_some(((solved.left - left).max(0.0).sqrt(), i))
    };
    (0..observations.len()).filter_map(off).max_by(|a, b| a.0.total_cmp(&b.0))
}

/// The normal equations of two unknowns.
#[derive(Clone, Copy, Default)]
struct Normal {
    bb: f64,
    ba: f64,
    aa: f64,
    b: f64,
    a: f64,
    left: f64,
}

impl Normal {
    fn at(observations: &[Observation], level: f64, base: f64, angle: f64) -> Self {
        let mut n = Self::default();
        // With the level: its part in the sums, taken out at the end (Sherman and Morrison).
        let (mut by_base_level, mut by_angle_level, mut left_level, mut levels) = (0.0, 0.0, 0.0, 0.0);
        for o in observations {
            let read = |base: f64, angle: f64| o.of.read(Length::mm(base), Angle::degrees(angle));
            // Differences over small steps both ways: the readings are smooth in both.
            let (h, k) = (1e-3, 1e-4);
            let by_base = (read(base + h, angle) - read(base - h, angle)) / (2.0 * h) / o.standard;
            let by_angle = (read(base, angle + k) - read(base, angle - k)) / (2.0 * k) / o.standard;
            let left = (o.read - read(base, angle)) / o.standard;
            n.bb += by_base * by_base;
            n.ba += by_base * by_angle;
            n.aa += by_angle * by_angle;
            n.b += by_base * left;
            n.a += by_angle * left;
            n.left += left * left;
            let by_level = o.by_level * level / o.standard;
            by_base_level += by_base * by_level;
            by_angle_level += by_angle * by_level;
            left_level += left * by_level;
            levels += by_level * by_level;
        }
        let share = 1.0 / (1.0 + levels);
        n.bb -= by_base_level * by_base_level * share;
        n.ba -= by_base_level * by_angle_level * share;
        n.aa -= by_angle_level * by_angle_level * share;
        n.b -= by_base_level * left_level * share;
        n.a -= by_angle_level * left_level * share;
        n.left -= left_level * left_level * share;
        n
    }

    /// Whether both unknowns are told apart.
    fn both(&self) -> bool {
        self.bb * self.aa - self.ba * self.ba > 1e-9 * self.bb * self.aa
    }

    /// An unknown of which the readings say nothing stays where it is; of two that only a mixture is known both stay.
    fn step(&self) -> (f64, f64) {
        let determinant = self.bb * self.aa - self.ba * self.ba;
        if self.both() {
            return (
                (self.aa * self.b - self.ba * self.a) / determinant,
                (self.bb * self.a - self.ba * self.b) / determinant,
            );
        }
        match (self.of_base_alone(), self.of_angle_alone()) {
            (true, _) => (self.b / self.bb, 0.0),
            (_, true) => (0.0, self.a / self.aa),
            _ => (0.0, 0.0),
        }
    }

    fn of_base_alone(&self) -> bool {
        self.bb > 0.0 && self.aa * 1e-6 < 1e-9 * self.bb
    }

    fn of_angle_alone(&self) -> bool {
        self.aa > 0.0 && self.bb < 1e-9 * self.aa
    }

    /// Variances of base and half-angle, and their covariance.
    fn variances(&self) -> (Option<f64>, Option<f64>, f64) {
        let determinant = self.bb * self.aa - self.ba * self.ba;
        if self.both() {
            return (Some(self.aa / determinant), Some(self.bb / determinant), -self.ba / determinant);
        }
        let base = self.of_base_alone().then(|| 1.0 / self.bb);
        (base, self.of_angle_alone().then(|| 1.0 / self.aa), 0.0)
    }
}

/// What is left of a cone when its flank is cut to the right half-angle: of its base D, half-angle a and height h the base
/// diameter that cleans up, D − max(0, 2 h (tan a − tan a0)). A flank that is too steep cleans up from its base, one that is too
/// blunt from its tip.
/// Source: derived; the new flank must lie inside the old one over the whole height.
pub fn cleans_up(base: Length, half_angle: Angle, height: Length, wanted: Angle) -> Length {
    base - (height * (turning::taper_ratio(half_angle) - turning::taper_ratio(wanted))).max(Length::ZERO)
}

/// How far the rim of a swivel of that diameter moves when it is turned by an angle: π d a/360.
/// Source: geometry.
pub fn at_the_rim(swivel: Length, by: Angle) -> Length {
    swivel * (std::f64::consts::PI * by.as_degrees() / 360.0)
}
