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
    /// Its standard uncertainty, above 0.
    pub standard: f64,
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
    /// The greatest residual in standard deviations of its reading, and which reading has it; none where nothing is left over.
    pub worst: Option<(f64, usize)>,
}

/// Steps after which the search has long come to rest.
const STEPS: usize = 30;

/// Base diameter D and half-angle a from readings y_i with standard uncertainties u_i: the least of Σ ((y_i − f_i(D, a))/u_i)², by
/// the steps of Gauss and Newton from what is drawn; their covariance is (Jᵀ W J)⁻¹, W = 1/u_i².
/// D in mm, a in degrees; valid for half-angles of 0.2° to 88°, outside it gives no answer.
/// Source: JCGM 102:2011 and any text on adjustment (weighted least squares, from memory).
pub fn fit(observations: &[Observation], drawn: (Length, Angle)) -> Result<Fitted, MechanicsError> {
    if observations.is_empty() {
        return Err(MechanicsError::Empty("readings"));
    }
    for one in observations {
        positive("a standard uncertainty", one.standard)?;
        super::finite("a reading", one.read)?;
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
        normal = Normal::at(observations, base, angle);
        let (step_base, step_angle) = normal.step();
        base += step_base;
        angle += step_angle;
        if step_base.abs() < 1e-10 && step_angle.abs() < 1e-11 {
            break;
        }
    }
    let (var_base, var_angle, covariance) = normal.variances();
    let residual = |o: &Observation| (o.read - o.of.read(Length::mm(base), Angle::degrees(angle))) / o.standard;
    let over = observations.len() > usize::from(var_base.is_some()) + usize::from(var_angle.is_some());
    let sizes = observations.iter().map(|o| residual(o).abs()).enumerate().map(|(i, r)| (r, i));
    let worst = sizes.max_by(|a, b| a.0.total_cmp(&b.0)).filter(|_| over);
    Ok(Fitted {
        base: var_base.map(|v| (Length::mm(base), Length::mm(v.sqrt()))),
        half_angle: var_angle.map(|v| (Angle::degrees(angle), Angle::degrees(v.sqrt()))),
        covariance,
        worst,
    })
}

/// The normal equations of two unknowns.
#[derive(Clone, Copy, Default)]
struct Normal {
    bb: f64,
    ba: f64,
    aa: f64,
    b: f64,
    a: f64,
}

impl Normal {
    fn at(observations: &[Observation], base: f64, angle: f64) -> Self {
        let mut n = Self::default();
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
        }
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
