//! Threads by name, with pitch, tap drill and the room a screw head needs.

use std::fmt;

use super::drills::{self, Drill};
use crate::source::Cited;
use crate::source::Confirmed::{self, Memory, One as O, TwoOrMore as T};
use crate::units::{Area, Length, LengthUnit};

/// Which family of threads.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum ThreadKind {
    /// ISO metric, ISO 261.
    Metric,
    /// Unified inch, ASME B1.1.
    Unified,
}

/// A thread: family, diameter, pitch.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Thread {
    /// Metric or unified.
    pub kind: ThreadKind,
    /// Major (nominal) diameter.
    pub major: Length,
    /// Distance from thread to thread.
    pub pitch: Length,
}

/// Why a thread cannot be read.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum ThreadError {
    /// Not a thread name.
    NotAThread(String),
    /// The coarse pitch of this size is not in the table.
    PitchNeeded(String),
    /// A pitch that is not below the diameter.
    PitchTooCoarse(String),
}

impl fmt::Display for ThreadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotAThread(text) => {
                write!(f, "\"{text}\" is not a thread: write M10, M10x1.25, 3/8, 3/8-16 or #10-24")
            }
            Self::PitchNeeded(text) => {
                write!(
                    f,
                    "\"{text}\" has no coarse pitch in the table: write the pitch too, such as M10x1.25 or 3/8-24"
                )
            }
            Self::PitchTooCoarse(text) => {
                write!(f, "\"{text}\": the pitch must be above 0 and below half the diameter")
            }
        }
    }
}

impl std::error::Error for ThreadError {}

/// Metric coarse thread: diameter, pitch, tap drill, all mm.
struct Coarse {
    major: f64,
    pitch: f64,
    tap_drill: f64,
    confirmed: Confirmed,
}

const fn coarse(major: f64, pitch: f64, tap_drill: f64, confirmed: Confirmed) -> Coarse {
    Coarse { major, pitch, tap_drill, confirmed }
}

/// ISO 261 coarse pitches with tap drills (ISO 2306), mm. T: two reprints agree on the drill, O: one.
#[rustfmt::skip]
const METRIC_COARSE: &[Coarse] = &[
    coarse(  1., 0.25,  0.75, O),
    coarse( 1.2, 0.25,  0.95, O),
    coarse( 1.4,  0.3,   1.1, O),
    coarse( 1.6, 0.35,  1.25, T),
    coarse( 1.8, 0.35,  1.45, T),
    coarse(  2.,  0.4,   1.6, T),
    coarse( 2.5, 0.45,  2.05, T),
    coarse(  3.,  0.5,   2.5, T),
    coarse( 3.5,  0.6,   2.9, T),
    coarse(  4.,  0.7,   3.3, T),
    coarse( 4.5, 0.75,   3.7, O), // another reprint prints 3.75
    coarse(  5.,  0.8,   4.2, T),
    coarse(  6.,   1.,    5., T),
    coarse(  7.,   1.,    6., T),
    coarse(  8., 1.25,   6.8, T),
    coarse(  9., 1.25,   7.8, T),
    coarse( 10.,  1.5,   8.5, T),
    coarse( 11.,  1.5,   9.5, T),
    coarse( 12., 1.75,  10.2, O), // another reprint prints 10.3
    coarse( 14.,   2.,   12., O), // another reprint prints 12.1
    coarse( 16.,   2.,   14., T),
    coarse( 18.,  2.5,  15.5, T),
    coarse( 20.,  2.5,  17.5, T),
    coarse( 22.,  2.5,  19.5, O), // another reprint prints 18.5
    coarse( 24.,   3.,   21., O),
    coarse( 27.,   3.,   24., O),
    coarse( 30.,  3.5,  26.5, O),
    coarse( 33.,  3.5,  29.5, O),
    coarse( 36.,   4.,   32., O),
    coarse( 39.,   4.,   35., O),
    coarse( 42.,  4.5,  37.5, O),
    coarse( 45.,  4.5,  40.5, O),
    coarse( 48.,   5.,   43., O),
    coarse( 52.,   5.,   47., O),
    coarse( 56.,  5.5,  50.5, O),
    coarse( 60.,  5.5,  54.5, O),
    coarse( 64.,   6.,   58., O),
];

/// Unified coarse: name, major diameter in inches, threads per inch (ASME B1.1, from memory).
#[rustfmt::skip]
const UNIFIED_COARSE: &[(&str, f64, f64)] = &[
    ("#1", 0.073, 64.), ("#2", 0.086, 56.), ("#3", 0.099, 48.), ("#4", 0.112, 40.), ("#5", 0.125, 40.),
    ("#6", 0.138, 32.), ("#8", 0.164, 32.), ("#10", 0.19, 24.), ("#12", 0.216, 24.),
    ("1/4", 0.25, 20.), ("5/16", 0.3125, 18.), ("3/8", 0.375, 16.), ("7/16", 0.4375, 14.), ("1/2", 0.5, 13.),
    ("9/16", 0.5625, 12.), ("5/8", 0.625, 11.), ("3/4", 0.75, 10.), ("7/8", 0.875, 9.), ("1", 1., 8.),
    ("1-1/8", 1.125, 7.), ("1-1/4", 1.25, 7.), ("1-3/8", 1.375, 6.), ("1-1/2", 1.5, 6.),
];

/// Pitches of ISO 261 beside the coarse one, from memory: up to this diameter and from this one, in mm.
#[rustfmt::skip]
const METRIC_FINE: &[(f64, &[f64])] = &[
    (1., &[0.2]), (1.2, &[0.2]), (1.4, &[0.2]), (1.6, &[0.2]), (1.8, &[0.2]), (2., &[0.25]), (2.5, &[0.35]),
    (3., &[0.35]), (3.5, &[0.35]), (4., &[0.5]), (4.5, &[0.5]), (5., &[0.5]), (6., &[0.75]), (7., &[0.75]),
    (8., &[1., 0.75]), (9., &[1., 0.75]), (10., &[1.25, 1., 0.75]), (11., &[1., 0.75]), (12., &[1.5, 1.25, 1.]),
    (14., &[1.5, 1.25, 1.]), (15., &[1.5, 1.]), (16., &[1.5, 1.]), (17., &[1.5, 1.]), (18., &[2., 1.5, 1.]),
    (20., &[2., 1.5, 1.]), (22., &[2., 1.5, 1.]), (24., &[2., 1.5, 1.]), (25., &[2., 1.5, 1.]), (26., &[1.5]),
    (27., &[2., 1.5, 1.]), (28., &[2., 1.5, 1.]), (30., &[3., 2., 1.5, 1.]), (32., &[2., 1.5]),
    (33., &[3., 2., 1.5]), (35., &[1.5]), (36., &[3., 2., 1.5]), (38., &[1.5]), (39., &[3., 2., 1.5]),
    (40., &[3., 2., 1.5]), (42., &[4., 3., 2., 1.5]), (45., &[4., 3., 2., 1.5]), (48., &[4., 3., 2., 1.5]),
    (50., &[3., 2., 1.5]), (52., &[4., 3., 2., 1.5]), (56., &[4., 3., 2., 1.5]), (60., &[4., 3., 2., 1.5]),
    (64., &[4., 3., 2., 1.5]),
];

/// Threads per inch of ASME B1.1 beside the coarse one, from memory: fine, extra fine and constant-pitch series.
#[rustfmt::skip]
const UNIFIED_FINE: &[(&str, &[f64])] = &[
    ("#1", &[72.]), ("#2", &[64.]), ("#3", &[56.]), ("#4", &[48.]), ("#5", &[44.]), ("#6", &[40.]), ("#8", &[36.]),
    ("#10", &[32.]), ("#12", &[28., 32.]), ("1/4", &[28., 32.]), ("5/16", &[20., 24., 28., 32.]),
    ("3/8", &[20., 24., 28., 32.]), ("7/16", &[16., 20., 28., 32.]), ("1/2", &[16., 20., 28., 32.]),
    ("9/16", &[16., 18., 20., 24., 28., 32.]), ("5/8", &[12., 16., 18., 20., 24., 28., 32.]),
    ("3/4", &[12., 16., 20., 28., 32.]), ("7/8", &[12., 14., 16., 20., 28., 32.]), ("1", &[12., 16., 20., 28., 32.]),
    ("1-1/8", &[8., 12., 16., 18., 20., 28.]), ("1-1/4", &[8., 12., 16., 18., 20., 28.]),
    ("1-3/8", &[8., 12., 16., 18., 20., 28.]), ("1-1/2", &[8., 12., 16., 18., 20., 28.]),
];

/// Diametral allowance of nuts for hot-dipped bolts: up to this diameter, in inches.
/// Source: ASTM A563, table of overtapping, from memory.
const OVERTAPPED: &[(f64, f64)] =
    &[(0.25, 0.016), (0.375, 0.017), (0.5, 0.018), (0.75, 0.020), (0.875, 0.022), (1.25, 0.024), (1.5, 0.027)];

/// What the tap drill leaves: as near as drills allow to 75 per cent of full thread.
/// Source: common practice, no source; printed charts of tap drills follow it.
const WANTED_THREAD: f64 = 0.75;

/// The drill for a tap, with the nearest of the other system for a rack that holds no other.
#[derive(Clone, PartialEq, Debug)]
pub struct TapDrill {
    /// The drill of the thread's own system.
    pub drill: Drill,
    /// The nearest of the other system.
    pub other: Option<Drill>,
    /// How well it is confirmed.
    pub confirmed: Confirmed,
    /// Where it is from.
    pub source: &'static str,
}

impl Thread {
    /// Share of full thread that a hole leaves, (D − d)/(2 · 0.64952 P): the height of the external thread counts as full.
    /// Source: Machinery's Handbook, 31st edition, tap drill sizes and percentage of thread.
    pub fn share(&self, hole: Length) -> f64 {
        (self.major - hole) / (self.pitch * 1.299_038)
    }

    /// The pitches that the standard knows for this diameter, coarse first; none where it knows no such diameter.
    /// Source: ISO 261 and ASME B1.1, fine series from memory.
    pub fn standard_pitches(&self) -> Vec<Self> {
        let with = |pitch| Self { pitch, ..*self };
        match self.kind {
            ThreadKind::Metric => {
                let major = self.major.as_mm();
                let coarse = METRIC_COARSE.iter().filter(|row| row.major == major).map(|row| row.pitch);
                let fine = METRIC_FINE.iter().filter(|row| row.0 == major).flat_map(|row| row.1.iter().copied());
                coarse.chain(fine).map(|pitch| with(Length::mm(pitch))).collect()
            }
            ThreadKind::Unified => {
                let size = UNIFIED_COARSE.iter().find(|row| (row.1 - self.major.as_inches()).abs() < 1e-9);
                let fine = UNIFIED_FINE.iter().filter(|row| size.is_some_and(|s| s.0 == row.0));
                let per_inch = size.map(|row| row.2).into_iter().chain(fine.flat_map(|row| row.1.iter().copied()));
                per_inch.map(|n| with(Length::inches(1.0 / n))).collect()
            }
        }
    }

    /// Whether taps and bolts of this pitch are sold: it stands in a series of ISO 261 or ASME B1.1.
    pub fn is_standard(&self) -> bool {
        self.standard_pitches().iter().any(|t| (t.pitch - self.pitch).abs() < Length::um(0.1))
    }

    /// Reads "M10", "M10x1.25", "3/8", "3/8-16 UNC", "#10-24", "1-1/4-7". Without a pitch the coarse one counts.
    pub fn parse(text: &str) -> Result<Self, ThreadError> {
        let text = text.trim();
        match text.strip_prefix(['M', 'm']) {
            Some(rest) => parse_metric(text, rest),
            None => parse_unified(text),
        }
    }

    /// Play on the pitch diameter that a bolt of the usual class is made with: 6g, 15 + 11 P in µm; class 2A,
    /// 0.3 (0.0015 D^1/3 + 0.0015 √D + 0.015 P^2/3) in inches for an engagement of one diameter. M10: 32 µm, 1/2-13: 1.5 thou.
    /// Source: ISO 965-1:1998, 13.1 (es of position g) and ASME B1.1-2003, 5.8 (formulas from memory).
    pub fn bolt_allowance(&self) -> Length {
        match self.kind {
            ThreadKind::Metric => Length::um(15.0 + 11.0 * self.pitch.as_mm()),
            ThreadKind::Unified => {
                let (d, p) = (self.major.as_inches(), self.pitch.as_inches());
                let tolerance = 0.0015 * libm::cbrt(d) + 0.0015 * d.sqrt() + 0.015 * libm::cbrt(p * p);
                Length::inches(0.3 * tolerance)
            }
        }
    }

    /// How much larger a thread is tapped on its pitch diameter for a bolt that is hot-dipped: metric from M8, position AZ,
    /// 300 + 20 P in µm; unified by the table. `None` where no standard has one. M12: 335 µm.
    /// Source: ISO 965-5 position AZ, as ISO 10684 asks for; ASTM A563 (both from memory).
    pub fn oversize_for_hot_dip(&self) -> Option<Cited<Length>> {
        let (value, source) = match self.kind {
            ThreadKind::Metric => {
                let inside = (8.0..=64.0).contains(&self.major.as_mm());
                (
                    inside.then(|| Length::um(300.0 + 20.0 * self.pitch.as_mm()))?,
                    "ISO 965-5, AZ: 300 + 20 P um (from memory)",
                )
            }
            ThreadKind::Unified => {
                let inches = self.major.as_inches();
                let row = OVERTAPPED.iter().find(|(up_to, _)| (0.25 - 1e-9..=*up_to + 1e-9).contains(&inches))?;
                (Length::inches(row.1), "ASTM A563, diametral allowance of overtapped nuts (from memory)")
            }
        };
        Some(Cited { value, confirmed: Memory, source })
    }

    /// Stress area, π/4 (d − 0.9382 P)²; unified π/4 (d − 0.9743 P)². M12: 84.3 mm², M20: 245 mm².
    /// Source: ISO 898-1; ASME B1.1.
    pub fn stress_area(&self) -> Area {
        let lost = if self.kind == ThreadKind::Metric { 0.938_194 } else { 0.974_3 };
        let d = self.major - self.pitch * lost;
        d * d * std::f64::consts::FRAC_PI_4
    }

    /// Drill for the tap, one that is sold. Metric: the table for coarse threads, else D − P to the next 0.1 mm. Unified: the
    /// fraction, number or letter drill that leaves most nearly 75 per cent of thread.
    ///
    /// M10: 8.5 mm. M12x1.25: 10.8 mm. 1/2-13: 27/64 in, or 10.8 mm.
    pub fn tap_drill(&self) -> TapDrill {
        let off = |drill: Length| (self.share(drill) - WANTED_THREAD).abs();
        let near = |unit| drills::best(unit, off);
        let row = METRIC_COARSE.iter().find(|row| {
            self.kind == ThreadKind::Metric && row.major == self.major.as_mm() && row.pitch == self.pitch.as_mm()
        });
        let metric = |diameter: f64| Drill {
            diameter: Length::mm(diameter),
            name: crate::units::show::trimmed(diameter, 2) + " mm",
        };
        match (self.kind, row) {
            (ThreadKind::Metric, Some(row)) => TapDrill {
                drill: metric(row.tap_drill),
                other: near(LengthUnit::Inch),
                confirmed: row.confirmed,
                source: "tap drills for ISO 261 coarse threads (reprints of ISO 2306)",
            },
            (ThreadKind::Unified, _) => TapDrill {
                drill: near(LengthUnit::Inch)
                    .unwrap_or_else(|| metric(((self.major - self.pitch).as_mm() * 10.0).ceil() / 10.0)),
                other: near(LengthUnit::Mm),
                confirmed: O,
                source: "of the inch drills, what leaves most nearly 75 % of thread",
            },
            (ThreadKind::Metric, None) => {
                let wanted = (self.major - self.pitch).as_mm();
                TapDrill {
                    drill: metric((wanted * 10.0 - 1e-6).ceil() / 10.0),
                    other: near(LengthUnit::Inch),
                    confirmed: Memory,
                    source: "D - P to the next 0.1 mm, common practice, no source",
                }
            }
        }
    }
}

fn parse_metric(text: &str, rest: &str) -> Result<Thread, ThreadError> {
    let not = || ThreadError::NotAThread(text.to_owned());
    let mut numbers = rest.splitn(2, ['x', 'X', '×']).map(|part| part.trim().parse::<f64>().map_err(|_| not()));
    let major = numbers.next().ok_or_else(not)??;
    let pitch = match numbers.next() {
        Some(pitch) => pitch?,
        None => {
            let row = METRIC_COARSE.iter().find(|row| row.major == major);
            row.ok_or_else(|| ThreadError::PitchNeeded(text.to_owned()))?.pitch
        }
    };
    checked(Thread { kind: ThreadKind::Metric, major: Length::mm(major), pitch: Length::mm(pitch) }, text)
}

fn parse_unified(text: &str) -> Result<Thread, ThreadError> {
    let upper = text.to_uppercase();
    let name = ["UNC", "UNF", "UNEF", "UN"].iter().find_map(|end| upper.strip_suffix(end)).unwrap_or(&upper).trim();
    let name = name.trim_end_matches(['"', ' ']).replace(' ', "-");
    // the longest size that begins the name, so that 1-1/4 is not read as 1 with 1/4 threads
    let sizes = UNIFIED_COARSE.iter().filter(|row| follows(&name, row.0).is_some());
    let (size, major, coarse) =
        *sizes.max_by_key(|row| row.0.len()).ok_or_else(|| ThreadError::NotAThread(text.to_owned()))?;
    let per_inch = match follows(&name, size) {
        None | Some("") => coarse,
        Some(number) => number.parse().map_err(|_| ThreadError::NotAThread(text.to_owned()))?,
    };
    checked(
        Thread { kind: ThreadKind::Unified, major: Length::inches(major), pitch: Length::inches(1.0 / per_inch) },
        text,
    )
}

/// What stands behind the size in the name: nothing, or threads per inch behind a dash.
fn follows<'a>(name: &'a str, size: &str) -> Option<&'a str> {
    let rest = name.strip_prefix(size)?;
    if rest.is_empty() { Some(rest) } else { rest.trim_start_matches('"').strip_prefix('-') }
}

fn checked(thread: Thread, text: &str) -> Result<Thread, ThreadError> {
    let good = thread.major.is_finite() && thread.pitch > Length::ZERO && thread.pitch < thread.major / 2.0;
    if good { Ok(thread) } else { Err(ThreadError::PitchTooCoarse(text.to_owned())) }
}

impl fmt::Display for Thread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.kind {
            ThreadKind::Metric => {
                let (major, pitch) = (self.major.as_mm(), self.pitch.as_mm());
                let coarse = METRIC_COARSE.iter().any(|row| row.major == major && row.pitch == pitch);
                if coarse { write!(f, "M{major}") } else { write!(f, "M{major}x{pitch}") }
            }
            ThreadKind::Unified => {
                let inches = self.major.as_inches();
                let size = UNIFIED_COARSE.iter().find(|row| (row.1 - inches).abs() < 1e-9).map_or("", |row| row.0);
                write!(f, "{size}-{}", (1.0 / self.pitch.as_inches()).round())
            }
        }
    }
}

/// The room that a screw head needs.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Head {
    /// Diameter of the head.
    pub diameter: Length,
    /// Height of the head.
    pub height: Length,
    /// Diameter of the seat: counterbore, or the countersink at the surface.
    pub seat_diameter: Length,
    /// Depth of the seat.
    pub seat_depth: Length,
}

/// Socket head cap screws ISO 4762 in counterbores DIN 974-1 series 1, mm, from memory:
/// thread, head diameter, head height, counterbore diameter, counterbore depth.
#[rustfmt::skip]
const SOCKET_HEADS: &[[f64; 5]] = &[
    [ 3.,  5.5,  3.,  6.5,  3.4],
    [ 4.,  7. ,  4.,  8. ,  4.4],
    [ 5.,  8.5,  5., 10. ,  5.4],
    [ 6., 10. ,  6., 11. ,  6.4],
    [ 8., 13. ,  8., 15. ,  8.6],
    [10., 16. , 10., 18. , 10.6],
    [12., 18. , 12., 20. , 12.6],
    [14., 21. , 14., 24. , 14.6],
    [16., 24. , 16., 26. , 16.6],
    [20., 30. , 20., 33. , 20.6],
    [24., 36. , 24., 40. , 24.8],
    [30., 45. , 30., 50. , 31. ],
    [36., 54. , 36., 58. , 37. ],
];

/// Countersunk socket screws ISO 10642, 90° included, mm, from memory: thread, sharp-edged head diameter.
#[rustfmt::skip]
const COUNTERSUNK_HEADS: &[[f64; 2]] = &[
    [3., 6.72], [4., 8.96], [5., 11.2], [6., 13.44], [8., 17.92], [10., 22.4], [12., 26.88], [16., 33.6], [20., 40.32],
];

const HEAD_MEMORY: &str = "ISO 4762 and DIN 974-1, from memory, unconfirmed";
const COUNTERSUNK_MEMORY: &str = "ISO 10642, from memory, unconfirmed";
const INCH_HEAD_MEMORY: &str = "head 1.5 d by d, counterbore 1/16 in wider, from memory, unconfirmed";

/// Head and counterbore of a socket head cap screw; none where no size is known.
pub fn socket_head(thread: Thread) -> Option<Cited<Head>> {
    if thread.kind == ThreadKind::Unified {
        let (d, diameter) = (thread.major, thread.major * 1.5);
        let head = Head { diameter, height: d, seat_diameter: diameter + Length::inches(1.0 / 16.0), seat_depth: d };
        return Some(Cited { value: head, confirmed: Memory, source: INCH_HEAD_MEMORY });
    }
    let &[_, diameter, height, bore, depth] = SOCKET_HEADS.iter().find(|row| row[0] == thread.major.as_mm())?;
    let [diameter, height, seat_diameter, seat_depth] = [diameter, height, bore, depth].map(Length::mm);
    Some(Cited { value: Head { diameter, height, seat_diameter, seat_depth }, confirmed: Memory, source: HEAD_MEMORY })
}

/// Head of a 90° countersunk screw, metric only: the seat is the sharp-edged cone, its depth (dk − d)/2.
pub fn countersunk_head(thread: Thread) -> Option<Cited<Head>> {
    let major = (thread.kind == ThreadKind::Metric).then(|| thread.major.as_mm())?;
    let &[_, sharp] = COUNTERSUNK_HEADS.iter().find(|row| row[0] == major)?;
    let (diameter, height) = (Length::mm(sharp), Length::mm((sharp - major) / 2.0));
    let head = Head { diameter, height, seat_diameter: diameter, seat_depth: height };
    Some(Cited { value: head, confirmed: Memory, source: COUNTERSUNK_MEMORY })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn thread(text: &str) -> Thread {
        Thread::parse(text).unwrap()
    }

    #[test]
    fn names_read_and_read_back() {
        for (text, back) in [
            ("M10", "M10"),
            ("m10 x 1.25", "M10x1.25"),
            ("M2.5", "M2.5"),
            ("3/8", "3/8-16"),
            ("3/8-24 UNF", "3/8-24"),
            ("#10-24", "#10-24"),
            ("1-8 UNC", "1-8"),
            ("1 1/4", "1-1/4-7"),
            ("1-1/4-12", "1-1/4-12"),
            ("1/2\"", "1/2-13"),
        ] {
            assert_eq!(thread(text).to_string(), back);
            assert_eq!(thread(back), thread(text));
        }
    }

    #[test]
    fn refusals() {
        let text = |name| Thread::parse(name).unwrap_err().to_string();
        assert!(text("10").contains("is not a thread"));
        assert!(text("M").contains("is not a thread"));
        assert!(text("M13").contains("write the pitch too"));
        assert!(text("M10x8").contains("below half the diameter"));
        assert!(text("MNaN").contains("write the pitch too"));
        assert!(text("3/8-x").contains("is not a thread"));
        assert!(text("3/8-0").contains("below half the diameter"));
    }

    /// Tap drills printed for M10 (8.5 mm) and M12 (10.2 mm); minor diameter of M10 is 8.376 mm (ISO 724). Fine threads by
    /// DIN 336 (from memory): M10x1.25 8.8, M12x1.25 10.8, M16x1.5 14.5 mm.
    #[test]
    fn taps() {
        for (name, drill) in [
            ("M10", "8.5 mm"),
            ("M12", "10.2 mm"),
            ("M10x1.25", "8.8 mm"),
            ("M12x1.25", "10.8 mm"),
            ("M16x1.5", "14.5 mm"),
        ] {
            assert_eq!(thread(name).tap_drill().drill.name, drill);
        }
    }

    /// Machinery's Handbook, 31st edition, p. 2168, table 4, commercial tap drills; #8-32 from a metal supplier's chart.
    #[test]
    fn unified_tap_drills_as_printed() {
        for (name, drill) in [
            ("#8-32", "#29"),
            ("1/4-20", "#7"),
            ("1/4-28", "#3"),
            ("5/16-18", "letter F"),
            ("5/16-24", "letter I"),
            ("3/8-16", "5/16 in"),
            ("3/8-24", "letter Q"),
            ("7/16-14", "letter U"),
            ("7/16-20", "25/64 in"),
            ("1/2-20", "29/64 in"),
            ("1/2-13", "27/64 in"),
            ("9/16-12", "31/64 in"),
            ("5/8-11", "17/32 in"),
            ("3/4-10", "21/32 in"),
            ("3/4-16", "11/16 in"),
            ("7/8-9", "49/64 in"),
            ("1-8", "7/8 in"),
        ] {
            assert_eq!(thread(name).tap_drill().drill.name, drill, "{name}");
        }
        assert_eq!(thread("1/2-13").tap_drill().other.unwrap().name, "10.8 mm");
    }

    /// Machinery's Handbook, 31st edition, p. 2155, table 2: percentage of full thread.
    #[test]
    fn share_of_thread_as_printed() {
        for (name, drill, percent) in [
            ("#1-64", 0.0595, 66.0),
            ("#1-64", 0.0625, 51.0),
            ("#2-56", 0.0700, 69.0),
            ("#2-64", 0.0700, 79.0),
            ("#3-48", 0.0785, 76.0),
        ] {
            let share = thread(name).share(Length::inches(drill)) * 100.0;
            assert!((share - percent).abs() <= 1.0, "{name}: {share}");
        }
    }

    /// ISO 261 and ASME B1.1 know these, and not those.
    #[test]
    fn pitches_that_are_sold() {
        for name in ["M10", "M10x1.25", "M12x1.5", "1/2-13", "1/2-20", "#10-32", "1-12", "3/4-16", "5/8-18"] {
            assert!(thread(name).is_standard(), "{name}");
        }
        for name in ["1/2-12", "1/2-14", "M12x3", "M10x2", "3/8-18", "#10-30"] {
            assert!(!thread(name).is_standard(), "{name}");
        }
    }

    /// The drill leaves thread: it lies between the basic minor diameter (or 0.02 mm under) and D − 0.8 P.
    #[test]
    fn tap_drills_leave_enough_thread() {
        for row in METRIC_COARSE {
            let minor = row.major - 1.082_531_75 * row.pitch;
            assert!(row.tap_drill > minor - 0.02 && row.tap_drill < row.major - 0.8 * row.pitch, "M{}", row.major);
        }
    }

    #[test]
    fn heads() {
        let head = socket_head(thread("M12")).unwrap();
        assert_eq!((head.value.diameter, head.value.seat_diameter), (Length::mm(18.0), Length::mm(20.0)));
        assert_eq!(head.confirmed, Memory);
        let depth = countersunk_head(thread("M8")).unwrap().value.seat_depth;
        assert!((depth.as_mm() - 4.96).abs() < 1e-9);
        assert!(countersunk_head(thread("3/8")).is_none());
        assert!(socket_head(thread("M3.5")).is_none());
    }
}
