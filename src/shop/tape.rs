//! The shop's tape: what it says of a length that is known otherwise, and what every line that it reads comes to by that.

use crate::description::Fields;
use crate::record::key::{Key, Kind};
use crate::units::Length;

/// Keys of `[tape]`.
pub const KEYS: &[Key] = &[KNOWN, READS, READS_UNCERTAINTY, MEASURED_ON];

const KNOWN: Key =
    Key::new("known", "known length", Kind::POSITIVE, "a length that is known otherwise, such as \"2000 mm\"");
const READS: Key = Key::new("reads", "the tape reads", Kind::POSITIVE, "of the known length, such as \"1998.8 mm\"");
const READS_UNCERTAINTY: Key = Key::new(
    "reads_uncertainty",
    "how well that is known",
    Kind::FINE,
    "expanded uncertainty of that reading, coverage factor 2, such as \"0.4 mm\"",
);
const MEASURED_ON: Key =
    Key::new("measured_on", "measured on", Kind::Text, "the day of that reading, such as \"2026-05-02\"");

/// A tape is out by no more than this part: beyond, a digit was misread. Source: common practice, no source.
const FARTHEST_OFF: f64 = 0.005;

/// What the tape reads of a known length.
#[derive(Clone, PartialEq, Debug)]
pub struct Tape {
    /// The length.
    pub known: Length,
    /// What the tape reads of it.
    pub reads: Length,
    /// Expanded uncertainty of that, coverage factor 2, where it is told.
    pub u: Option<Length>,
    /// The day.
    pub on: Option<String>,
}

impl Tape {
    /// What `[tape]` says; none where a problem was noted.
    pub(super) fn read(f: &Fields) -> Option<Self> {
        let (known, reads) = (f.required_length(&KNOWN), f.required_length(&READS));
        let (u, on) = (f.length(&READS_UNCERTAINTY), f.text(&MEASURED_ON));
        let found = Self { known: known?.value, reads: reads?.value, u: u.map(|u| u.value), on: on.map(|on| on.value) };
        if (found.factor() - 1.0).abs() <= FARTHEST_OFF {
            return Some(found);
        }
        let help = "a tape is out by a millimetre or two on a metre at the most: was a digit misread?";
        f.problem_at(&READS, "no tape reads so far off a known length".into(), Some(help.into()));
        None
    }

    /// What a line is, over what this tape reads of it.
    pub fn factor(&self) -> f64 {
        self.known / self.reads
    }

    /// What is added to every metre that it reads.
    pub fn on_a_metre(&self) -> Length {
        Length::mm(1000.0 * (self.factor() - 1.0))
    }
}
