//! A chain of sizes that closes in one gap: how large the float comes out, at worst, usually, and in the cold.
//!
//! float = Σ ± size. Each member either has a tolerance, or has been measured.

mod draws;
mod monte_carlo;
mod normal;
mod wide;

pub use monte_carlo::{Bin, Simulated, Trials, simulate};

use super::uncertainty::Measured;
use super::{MechanicsError, Range, finite, not_negative, warm_enough};
use crate::units::{Expansion, Length, Temperature};

/// Which way a member acts on the float.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Direction {
    /// A larger member makes the float larger.
    Adds,
    /// A larger member makes the float smaller.
    Subtracts,
}

impl Direction {
    /// +1 or -1.
    pub const fn sign(self) -> f64 {
        match self {
            Self::Adds => 1.0,
            Self::Subtracts => -1.0,
        }
    }
}

/// How sizes are spread between their limits.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Distribution {
    /// Bell curve, the limits at ±3 standard deviations; one in 370 lies outside.
    Normal,
    /// Every size between the limits equally likely.
    Uniform,
    /// Most likely in the middle, falling straight to nought at the limits.
    Triangular,
}

impl Distribution {
    /// Standard deviation for a half-width of 1.
    fn deviation(self) -> f64 {
        match self {
            Self::Normal => 1.0 / 3.0,
            Self::Uniform => 1.0 / 3.0_f64.sqrt(),
            Self::Triangular => 1.0 / 6.0_f64.sqrt(),
        }
    }
}

/// What is known of a member's size.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Size {
    /// As drawn.
    Toleranced {
        /// Nominal size.
        nominal: Length,
        /// Lower deviation (usually nought or negative).
        lower: Length,
        /// Upper deviation.
        upper: Length,
        /// Spread between the limits.
        distribution: Distribution,
    },
    /// As made. At worst it is wrong by its expanded uncertainty (k = 2); in draws its error is normal.
    Measured(Measured),
}

/// One size of the chain.
#[derive(Clone, PartialEq, Debug)]
pub struct Member {
    /// Its name.
    pub name: String,
    /// Which way it acts.
    pub direction: Direction,
    /// Its size.
    pub size: Size,
    /// Expansion of its material; needed for other temperatures only.
    pub expansion: Option<Expansion>,
}

impl Member {
    /// A member with a symmetric or one-sided tolerance.
    #[allow(dead_code, reason = "tests make theirs with it")]
    pub fn toleranced(
        name: &str,
        direction: Direction,
        nominal: Length,
        deviations: Range<Length>,
        distribution: Distribution,
    ) -> Self {
        let size = Size::Toleranced { nominal, lower: deviations.min, upper: deviations.max, distribution };
        Self { name: name.to_owned(), direction, size, expansion: None }
    }

    /// Middle of its limits, or the measured size.
    pub fn middle(&self) -> Length {
        match self.size {
            Size::Toleranced { nominal, lower, upper, .. } => nominal + (lower + upper) / 2.0,
            Size::Measured(measured) => measured.value,
        }
    }

    /// Half the width between its limits; for a measured one 2u.
    pub fn half_width(&self) -> Length {
        match self.size {
            Size::Toleranced { lower, upper, .. } => (upper - lower) / 2.0,
            Size::Measured(measured) => 2.0 * measured.standard_uncertainty,
        }
    }

    /// Standard deviation of its size.
    pub fn standard_deviation(&self) -> Length {
        match self.size {
            Size::Toleranced { distribution, .. } => self.half_width() * distribution.deviation(),
            Size::Measured(measured) => measured.standard_uncertainty,
        }
    }

    fn check(&self) -> Result<(), MechanicsError> {
        match self.size {
            Size::Measured(measured) => {
                measured.check("a measured member")?;
                not_negative("a member's size", measured.value.as_mm())
            }
            Size::Toleranced { nominal, lower, upper, .. } => {
                not_negative("a member's size", nominal.as_mm())?;
                finite("a member's lower deviation", lower.as_mm())?;
                finite("a member's upper deviation", upper.as_mm())?;
                if lower <= upper {
                    return Ok(());
                }
                Err(MechanicsError::NotSmaller { smaller: "a lower deviation", larger: "the upper one" })
            }
        }
    }
}

/// The chain.
#[derive(Clone, PartialEq, Debug)]
pub struct Chain {
    members: Vec<Member>,
}

/// What one member contributes.
#[derive(Clone, PartialEq, Debug)]
pub struct Share {
    /// The member's name.
    pub name: String,
    /// Change of the float per change of the member: +1 or -1.
    pub sensitivity: f64,
    /// Its part of the worst-case half-width, 0 to 1.
    pub of_worst_case: f64,
    /// Its part of the variance, 0 to 1.
    pub of_variance: f64,
}

/// The longest chain that is taken.
const MOST_MEMBERS: usize = 1000;

impl Chain {
    /// Refuses a chain that does not close: fewer than two members, or all of them pointing one way.
    pub fn new(members: Vec<Member>) -> Result<Self, MechanicsError> {
        if members.len() > MOST_MEMBERS {
            return Err(MechanicsError::TooMany { what: "members", most: MOST_MEMBERS });
        }
        members.iter().try_for_each(Member::check)?;
        let adding = members.iter().filter(|m| m.direction == Direction::Adds).count();
        if adding == 0 || adding == members.len() {
            return Err(MechanicsError::Impossible(
                "the chain does not close: it needs members that add to the float and members that take from it",
            ));
        }
        Ok(Self { members })
    }

    /// Its members.
    pub fn members(&self) -> &[Member] {
        &self.members
    }

    fn signed(&self, of: impl Fn(&Member) -> Length) -> Length {
        self.members.iter().map(|m| m.direction.sign() * of(m)).sum()
    }

    /// Float with every member in the middle of its limits.
    pub fn middle(&self) -> Length {
        self.signed(Member::middle)
    }

    /// Float at worst: middle ± Σ half-widths. Example: 50 ± 0.05 less 20 ± 0.02, 24.9 ± 0.03, 5 ± 0.01: -0.01 to 0.21.
    pub fn worst_case(&self) -> Range<Length> {
        let half: Length = self.members.iter().map(Member::half_width).sum();
        Range { min: self.middle() - half, max: self.middle() + half }
    }

    /// Float by root sum of squares: middle ± √Σ half-width². Usual for many members of like tolerance, centred and
    /// independent; it is exceeded about as often as a member exceeds its own limits only if all are normal.
    pub fn root_sum_square(&self) -> Range<Length> {
        let half = root_sum(self.members.iter().map(Member::half_width));
        Range { min: self.middle() - half, max: self.middle() + half }
    }

    /// What the members leave open either way: Σ half-widths of those with a tolerance, at worst, and √Σ (2u)² of those
    /// measured (JCGM 100:2008, k = 2). A tolerance is a promise that may be used up; a reading's error is not.
    pub fn left_open(&self) -> Length {
        let toleranced = |m: &&Member| matches!(m.size, Size::Toleranced { .. });
        let (drawn, measured): (Vec<&Member>, Vec<&Member>) = self.members.iter().partition(toleranced);
        let drawn: Length = drawn.into_iter().map(Member::half_width).sum();
        drawn + root_sum(measured.into_iter().map(Member::half_width))
    }

    /// Standard deviation of the float, members independent.
    pub fn standard_deviation(&self) -> Length {
        root_sum(self.members.iter().map(Member::standard_deviation))
    }

    /// What each member contributes, in the order of the chain. All nought when nothing varies.
    pub fn shares(&self) -> Vec<Share> {
        let half: Length = self.members.iter().map(Member::half_width).sum();
        let deviation = self.standard_deviation();
        let part = |a: Length, b: Length| if b > Length::ZERO { a / b } else { 0.0 };
        let share = |m: &Member| Share {
            name: m.name.clone(),
            sensitivity: m.direction.sign(),
            of_worst_case: part(m.half_width(), half),
            of_variance: part(m.standard_deviation(), deviation).powi(2),
        };
        self.members.iter().map(share).collect()
    }

    /// Change of the float from 20 °C to a temperature: Σ ± α L (T - 20 °C).
    pub fn change_at(&self, temperature: Temperature) -> Result<Length, MechanicsError> {
        warm_enough("the temperature", temperature)?;
        let missing = MechanicsError::Empty("expansion for one of the members");
        let mut change = Length::ZERO;
        for member in &self.members {
            let expansion = member.expansion.ok_or(missing)?;
            finite("a member's expansion", expansion.as_per_million_kelvin())?;
            change = change + member.direction.sign() * (member.middle() * (expansion * temperature.above_reference()));
        }
        Ok(change)
    }
}

fn root_sum(lengths: impl Iterator<Item = Length>) -> Length {
    Length::mm(lengths.map(|l| l.as_mm() * l.as_mm()).sum::<f64>().sqrt())
}

fn check_limits(limits: Range<Length>) -> Result<(), MechanicsError> {
    finite("the lower limit", limits.min.as_mm())?;
    finite("the upper limit", limits.max.as_mm())?;
    if limits.min < limits.max {
        Ok(())
    } else {
        Err(MechanicsError::NotSmaller { smaller: "the lower limit", larger: "the upper limit" })
    }
}

/// Limits between which a reading proves that the size is inside `limits`: both pulled in by the expanded uncertainty.
///
/// Source: ISO 14253-1 (from memory).
pub fn acceptance_limits(limits: Range<Length>, expanded: Length) -> Result<Range<Length>, MechanicsError> {
    check_limits(limits)?;
    not_negative("the measuring uncertainty", expanded.as_mm())?;
    let inside = Range { min: limits.min + expanded, max: limits.max - expanded };
    if inside.min > inside.max {
        return Err(MechanicsError::Impossible(
            "the measuring uncertainty is larger than half the tolerance: no reading can prove the size",
        ));
    }
    Ok(inside)
}

/// Whether an expanded uncertainty is at most `share` of the tolerance.
/// Usual shares 1/10, at worst 1/4: common practice, no source.
pub fn good_enough(limits: Range<Length>, expanded: Length, share: f64) -> Result<bool, MechanicsError> {
    check_limits(limits)?;
    if !(share > 0.0 && share <= 0.5) {
        return Err(MechanicsError::OutOfRange {
            what: "the share of the tolerance",
            range: "above 0 and at most 0.5",
        });
    }
    let most = (limits.max - limits.min) * share;
    // A rounding error does not disqualify an instrument that is just good enough.
    Ok(expanded <= most + Length::mm(1e-9))
}
