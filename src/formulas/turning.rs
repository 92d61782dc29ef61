//! Lathe figures for a taper: settings, step tables, checks over rollers and rings, speeds.
//!
//! Half-angle is always from the axis; `large` and `small` are diameters.

use std::fmt;

use crate::units::{Angle, CuttingSpeed, Length, SpindleSpeed};

/// Which of the figures of a taper are known. Two or more give the rest where geometry allows.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct KnownTaper {
    /// Large diameter.
    pub large: Option<Length>,
    /// Small diameter.
    pub small: Option<Length>,
    /// Length along the axis.
    pub length: Option<Length>,
    /// Half-angle from the axis.
    pub half_angle: Option<Angle>,
    /// Rate of taper C = (D − d)/L (ISO 1119).
    pub ratio: Option<f64>,
}

/// A taper worked out as far as its known figures allow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taper {
    /// Large diameter, if it follows.
    pub large: Option<Length>,
    /// Small diameter, if it follows.
    pub small: Option<Length>,
    /// Length along the axis, if it follows.
    pub length: Option<Length>,
    /// Half-angle from the axis.
    pub half_angle: Angle,
    /// Rate of taper C = (D − d)/L.
    pub ratio: f64,
}

/// Why figures do not make a taper.
#[derive(Clone, Debug, PartialEq)]
pub enum TaperError {
    /// Not enough figures.
    TooFew(&'static str),
    /// A figure outside its sense.
    Impossible(String),
    /// Figures that contradict each other: what, as given, as it follows from the others.
    Disagree {
        /// Which figure.
        what: &'static str,
        /// As given, in mm or as a ratio.
        given: f64,
        /// As it follows from the other figures.
        follows: f64,
        /// ` mm`, or nothing for a ratio.
        unit: &'static str,
    },
}

impl fmt::Display for TaperError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooFew(what) => f.write_str(what),
            Self::Impossible(what) => f.write_str(what),
            Self::Disagree { what, given, follows, unit } => write!(
                f,
                "the figures contradict each other: {what} is given as {}{unit}, the others make it {}{unit}",
                crate::units::show::fixed(*given, 4),
                crate::units::show::fixed(*follows, 4)
            ),
        }
    }
}

/// Rate of taper C = (D − d)/L = 2 tan a, a pure number. `half_angle` 0 to below 90°.
/// Source: ISO 1119:2011, definition of rate of taper.
pub fn taper_ratio(half_angle: Angle) -> f64 {
    2.0 * half_angle.tan()
}

/// Half-angle a = atan(C/2) of a rate of taper C = (D − d)/L.
/// Source: ISO 1119:2011. Halving atan(C) instead is a known, wrong short cut.
pub fn half_angle_of_ratio(ratio: f64) -> Angle {
    Angle::atan(ratio / 2.0)
}

/// Half-angle a = atan((D − d)/(2 L)); diameters and length in the same unit, length above 0.
/// Source: US Navy training text NAVEDTRA 14345, taper turning.
pub fn half_angle_of(large: Length, small: Length, length: Length) -> Angle {
    Angle::atan((large - small) / (length * 2.0))
}

/// Small diameter d = D − 2 L tan a.
/// Source: geometry of the cone; ISO 1119:2011.
pub fn small_diameter(large: Length, half_angle: Angle, length: Length) -> Length {
    large - length * taper_ratio(half_angle)
}

/// Length L = (D − d)/(2 tan a); half-angle above 0.
/// Source: geometry of the cone; ISO 1119:2011.
pub fn taper_length(large: Length, small: Length, half_angle: Angle) -> Length {
    (large - small) / taper_ratio(half_angle)
}

/// Length of the flank s = L / cos a; the travel that the compound slide needs.
/// Source: geometry.
pub fn slant(length: Length, half_angle: Angle) -> Length {
    length / half_angle.cos()
}

/// Taper in inches per foot, 12 C.
/// Source: US Navy training text NAVEDTRA 14345, taper turning.
pub fn taper_per_foot(ratio: f64) -> Length {
    Length::inches(12.0 * ratio)
}

/// Works out a taper from two or more known figures.
///
/// # Errors
/// Too few figures, an impossible one, or figures that contradict each other by more than
/// 0.005 mm in a diameter or length (0.005° in an angle).
pub fn solve(known: KnownTaper) -> Result<Taper, TaperError> {
    check_signs(&known)?;
    let from_sizes = match (known.large, known.small, known.length) {
        (Some(large), Some(small), Some(length)) => Some(half_angle_of(large, small, length)),
        _ => None,
    };
    let from_ratio = known.ratio.map(half_angle_of_ratio);
    let half_angle = known.half_angle.or(from_ratio).or(from_sizes).ok_or(TaperError::TooFew(
        "too few figures: give a half-angle or a ratio, or the large diameter, small diameter and length",
    ))?;
    let ratio = taper_ratio(half_angle);
    agree("the ratio", known.ratio, Some(ratio), 1e-4, "")?;
    let large = known.large.or_else(|| Some(known.small? + known.length? * ratio));
    let small = known.small.or_else(|| Some(small_diameter(known.large?, half_angle, known.length?)));
    let length = known.length.or_else(|| Some(taper_length(known.large?, known.small?, half_angle)));
    if let (Some(large), Some(length)) = (large, length) {
        agree(
            "the small diameter",
            known.small.map(Length::as_mm),
            Some(small_diameter(large, half_angle, length).as_mm()),
            0.005,
            " mm",
        )?;
    }
    if let Some(small) = small.filter(|s| *s < Length::ZERO) {
        return Err(TaperError::Impossible(format!(
            "the small diameter would be {} mm: the taper comes to a point before its length is up",
            crate::units::show::fixed(small.as_mm(), 3)
        )));
    }
    Ok(Taper { large, small, length, half_angle, ratio })
}

fn agree(
    what: &'static str,
    given: Option<f64>,
    follows: Option<f64>,
    within: f64,
    unit: &'static str,
) -> Result<(), TaperError> {
    match (given, follows) {
        (Some(given), Some(follows)) if (given - follows).abs() > within => {
            Err(TaperError::Disagree { what, given, follows, unit })
        }
        _ => Ok(()),
    }
}

fn check_signs(known: &KnownTaper) -> Result<(), TaperError> {
    let given = [
        known.large.is_some(),
        known.small.is_some(),
        known.length.is_some(),
        known.half_angle.is_some(),
        known.ratio.is_some(),
    ];
    if given.iter().filter(|g| **g).count() < 2 && known.half_angle.is_none() && known.ratio.is_none() {
        return Err(TaperError::TooFew(
            "too few figures: any two or three of large, small, length, half-angle and ratio are wanted",
        ));
    }
    let bad = |what: &str| Err(TaperError::Impossible(what.into()));
    if known.large.is_some_and(|v| v <= Length::ZERO) {
        return bad("the large diameter must be greater than 0");
    }
    if known.small.is_some_and(|v| v < Length::ZERO) {
        return bad("the small diameter cannot be negative");
    }
    if known.length.is_some_and(|v| v <= Length::ZERO) {
        return bad("the length must be greater than 0");
    }
    if known.half_angle.is_some_and(|a| a <= Angle::ZERO || a >= Angle::degrees(90.0)) {
        return bad("the half-angle must lie between 0 and 90 degrees (from the axis)");
    }
    if known.ratio.is_some_and(|r| !(r > 0.0 && r.is_finite())) {
        return bad("the ratio must be greater than 0, such as 1:10");
    }
    match (known.large, known.small) {
        (Some(large), Some(small)) if large <= small => bad("the large diameter must be larger than the small one"),
        _ => Ok(()),
    }
}

/// The other reading of the compound slide, 90° − a, for a scale that shows 0 square to the axis.
/// Source: common practice, no source.
pub fn compound_from_square(half_angle: Angle) -> Angle {
    Angle::degrees(90.0) - half_angle
}

/// Tailstock set-over, and whether the centres bear it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setover {
    /// How far the tailstock is set over.
    pub by: Length,
    /// The most that ordinary centres bear.
    pub most: Length,
}

impl Setover {
    /// Whether the taper is slender enough for ordinary centres.
    pub fn is_borne(&self) -> bool {
        self.by.rounded() <= self.most.rounded()
    }
}

/// Tailstock set-over S = C L_c/2 = L_c (D − d)/(2 L), with L_c the length between centres.
/// For slender tapers: above L_c/50 the centres bear badly (common practice, no source), as the answer says.
/// Source: US Navy training text NAVEDTRA 14345, offset tailstock method.
pub fn tailstock_setover(between_centres: Length, ratio: f64) -> Setover {
    Setover { by: between_centres * (ratio / 2.0), most: between_centres / 50.0 }
}

/// One cut of the roughing table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RoughingStep {
    /// Turn to this diameter.
    pub diameter: Length,
    /// Stop at this distance from the tip face.
    pub stop: Length,
}

/// Roughing a cone in steps: cut k is turned to D_k = D − 2 k a_p (from the stock inwards) and stops at
/// z_k = (D_k − d)/(2 tan a) − s/sin a from the tip face, so that the metal `finish` square to the flank stays.
/// Cuts whose stop would lie before the tip face are left out. Diameters descend, as the tool goes in.
///
/// `depth_of_cut` is radial (per side); all lengths above 0; half-angle 0 to 90°, both excluded.
/// Source: derived; geometry of a stepped cut parallel to the axis.
pub fn roughing_steps(
    large: Length,
    small: Length,
    half_angle: Angle,
    depth_of_cut: Length,
    finish: Length,
) -> Vec<RoughingStep> {
    let (tan, sin) = (half_angle.tan(), half_angle.sin());
    let cuts = ((large - small) / (depth_of_cut * 2.0)).ceil().clamp(0.0, 500.0) as u32;
    (0..cuts)
        .rev()
        .map(|k| small + depth_of_cut * (2.0 * f64::from(k)))
        .filter(|diameter| *diameter < large)
        .map(|diameter| RoughingStep { diameter, stop: (diameter - small) / (2.0 * tan) - finish / sin })
        .filter(|step| step.stop > Length::ZERO)
        .collect()
}

/// Thickest metal left on the flank after [`roughing_steps`], s + a_p cos a, square to the flank.
/// Source: derived; the corner of a step is a_p cos a from the envelope.
pub fn thickest_left(half_angle: Angle, depth_of_cut: Length, finish: Length) -> Length {
    finish + depth_of_cut * half_angle.cos()
}

/// Size over two equal rollers beside the base of a cone that stands on a plate:
/// M = D_b + d_r (1 + tan(45° − a/2)); the base edge must be sharp or its break known.
/// Source: derived; a roller touches plate and flank, whose corner opens 90° + a.
pub fn over_rollers(base: Length, half_angle: Angle, roller: Length) -> Length {
    base + roller * (1.0 + (Angle::degrees(45.0) - half_angle / 2.0).tan())
}

/// How high the second pair of rollers is raised for [`half_angle_over_rollers`]: as far as the flank carries it, in whole
/// steps; `None` where not even one step is left. A roller of radius r touches the flank r (1 - sin a) over what it lies on.
/// Source: derived.
pub fn roller_rise(flank: Length, half_angle: Angle, roller: Length, step: Length) -> Option<Length> {
    let steps = ((flank - roller / 2.0 * (1.0 - half_angle.sin())) / step).floor();
    (steps >= 1.0).then(|| step * steps)
}

/// How long a roller is at least that reaches from block to block over a round, its axis that far from the round's middle:
/// 2 sqrt((d/2)^2 - c^2); nothing where it lies beside the round. Source: geometry, the chord of a circle.
pub fn roller_span(round: Length, axis: Length) -> Length {
    let (r, c) = (round.as_mm() / 2.0, axis.as_mm());
    Length::mm(2.0 * libm::sqrt((r * r - c * c).max(0.0)))
}

/// How far off a half-angle may be that comes from two sizes over rollers, each good to U: √2 U cos² a/(2 h).
/// Source: derived; the two errors as independent ones (JCGM 100:2008), d(tan a) = da/cos² a.
pub fn roller_doubt(reading: Length, half_angle: Angle, rise: Length) -> Angle {
    let cos = half_angle.cos();
    Angle::radians(reading / rise * cos * cos * std::f64::consts::FRAC_1_SQRT_2)
}

/// Half-angle from two sizes over the same rollers, the second raised by `rise`: a = atan((M1 − M2)/(2 h)).
/// Source: textbook method of sine and roller checks, e.g. taper plug over rollers on slip gauges.
pub fn half_angle_over_rollers(low: Length, high: Length, rise: Length) -> Angle {
    half_angle_of(low, high, rise)
}

/// How far over the large end a ring of that bore comes to rest: z = (D − b)/(2 tan a).
/// Source: geometry of the cone.
pub fn ring_height(base: Length, half_angle: Angle, ring_bore: Length) -> Length {
    taper_length(base, ring_bore, half_angle)
}

/// Spindle speed n = 1000 v/(π D), v in m/min, D in mm; the largest diameter counts.
/// Source: Machinery's Handbook, cutting speed formulas.
pub fn spindle_speed(speed: CuttingSpeed, diameter: Length) -> SpindleSpeed {
    SpindleSpeed::rpm(1000.0 * speed.as_m_per_min() / (std::f64::consts::PI * diameter.as_mm()))
}

/// Reading of a dial on the flank when the carriage moves by `travel` along the axis: travel · tan a.
/// Source: geometry.
pub fn dial_over_travel(travel: Length, half_angle: Angle) -> Length {
    travel * half_angle.tan()
}

/// What a grip has to carry.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Load {
    /// Facing and skimming, at most 0.3 mm (0.012 in) deep.
    Light,
    /// Roughing, drilling, tapping, parting off.
    Heavy,
}

/// Least length of the jaws on the work, `diameter` gripped, `stands_out` the length before the jaws.
/// Heavy: a third of what stands out, no less than half the diameter: a roughing cut of 0.8 kN at the free end against jaws
/// that press with 20 kN, whose pressure shifts to a quarter of their length, F L < W g/(4 · 2), gives g > 0.32 L.
/// Light: a ninth of what stands out, a fifteenth of the diameter, 4 mm, whichever is most; the jaws bored to size.
/// For work of 3 to 200 mm in a three-jaw chuck; `None` outside. Source: common practice, no source; the third derived as told.
pub fn least_grip(diameter: Length, stands_out: Length, load: Load) -> Option<Length> {
    let known = diameter >= Length::mm(3.0) && diameter <= Length::mm(200.0);
    known.then(|| match load {
        Load::Heavy => (stands_out / 3.0).max(diameter / 2.0),
        Load::Light => (stands_out / 9.0).max(diameter / 15.0).max(Length::mm(4.0)),
    })
}

/// What holds the free end of work in a chuck.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Support {
    /// Nothing: it is short.
    None,
    /// The tailstock's centre.
    Centre,
    /// The centre, and a steady or follower rest between.
    CentreAndRest,
}

/// Longest overhang in diameters without any support.
/// Source: lathe owner's manual, safety page: work longer than 3 diameters out of the chuck is to be supported.
pub const UNSUPPORTED: f64 = 3.0;
/// Longest overhang in diameters that a centre alone supports. Source: common practice, no source.
pub const WITH_CENTRE: f64 = 10.0;

/// How many bores deep a steel boring bar of 0.7 of the bore works from one end, at four of its own diameters.
/// Source: makers of boring bars, from memory.
pub const BORED_FROM_ONE_END: f64 = 0.7 * 4.0;
/// How many bores deep a twist drill of usual length drills from one end: its flutes, of 5 to 20 mm the shortest.
/// Source: DIN 338 from memory.
pub const DRILLED_FROM_ONE_END: f64 = 7.0;

/// The support that work asks for by its length out of the chuck and the diameter it is turned from.
/// Source: see [`UNSUPPORTED`] and [`WITH_CENTRE`].
pub fn support(stands_out: Length, diameter: Length) -> Support {
    let slenderness = stands_out / diameter;
    if slenderness <= UNSUPPORTED {
        Support::None
    } else if slenderness <= WITH_CENTRE {
        Support::Centre
    } else {
        Support::CentreAndRest
    }
}

/// Centre drills of ISO 866, form A, from memory: pilot diameter and mouth of the 60° cone, mm.
const CENTRE_DRILLS: [(f64, f64); 8] =
    [(1.0, 2.12), (1.6, 3.35), (2.0, 4.25), (2.5, 5.3), (3.15, 6.7), (4.0, 8.5), (5.0, 10.6), (6.3, 13.2)];

/// The centre drill for a face: the largest whose mouth leaves half the face's width, and no wider than a quarter of the
/// work; pilot and mouth diameter. `None` where the face bears no centre.
/// Source: ISO 866 sizes from memory; the choice is common practice, no source.
pub fn centre_drill(face: Length, work: Length) -> Option<(Length, Length)> {
    let widest = (face / 2.0).min((work / 4.0).max(Length::mm(2.2)));
    let sizes = CENTRE_DRILLS.iter().rev().map(|(pilot, mouth)| (Length::mm(*pilot), Length::mm(*mouth)));
    sizes.into_iter().find(|(_, mouth)| *mouth <= widest)
}

/// Number of passes from one diameter to another, none deeper than `depth_of_cut` per side.
/// Source: arithmetic.
pub fn passes(from: Length, to: Length, depth_of_cut: Length) -> u32 {
    ((from - to) / (depth_of_cut * 2.0) - 1e-9).ceil().clamp(0.0, 500.0) as u32
}
