//! Reading a shim's part file.

use crate::description::Fields;
use crate::families::Workplace;
use crate::families::common::{self, Common};
use crate::key::{Given, Key, Kind};
use crate::mechanics::shims::{FloatTarget, ShimQuestion, ShimSource, Sides};
use crate::mechanics::uncertainty::{Instrument, Measured};
use crate::units::Length;

pub const REPLACES: Key = Key::new(
    "replaces",
    "shims replaced",
    Kind::POSITIVES,
    "measured widths of the shims that come out, such as [\"0.52 mm\", \"0.31 mm\"]",
);
pub const PRESENT_FLOAT: Key = Key::new(
    "present_float",
    "present float",
    Kind::NOT_NEGATIVE,
    "end float measured with those shims in place; 0 if left out",
);
pub const GAP: Key =
    Key::new("gap", "gap without shims", Kind::POSITIVE, "end float measured without any shim, such as \"1.28 mm\"");
pub const TARGET_FLOAT: Key = Key::new(
    "target_float",
    "target float",
    Kind::LengthRange,
    "wanted end float, such as \"0.10 mm\", or a range such as [\"0.05 mm\", \"0.15 mm\"]",
);
pub const SIDES: Key =
    Key::new("sides", "sides", Kind::Count { min: 1, max: 2 }, "1: one shim; 2: one shim on each side");
pub const OFFSET: Key = Key::new(
    "offset",
    "centring offset",
    Kind::LENGTH,
    "two sides: how far to the right of the middle the part is to sit",
);
pub const BORE: Key = Key::new("bore", "bore", Kind::POSITIVE, "inside diameter of the ring");
pub const OUTSIDE_DIAMETER: Key =
    Key::new("outside_diameter", "outside diameter", Kind::POSITIVE, "outside diameter of the ring");
pub const INSTRUMENT: Key =
    Key::new("instrument", "instrument for the shims", INSTRUMENTS, "with what the old shims were measured");
pub const FLOAT_INSTRUMENT: Key =
    Key::new("float_instrument", "instrument for the float", INSTRUMENTS, "with what the float or gap was measured");
pub const STOCK: Key = Key::new(
    "stock",
    "stock thicknesses",
    Kind::POSITIVES,
    "what is at hand, such as [\"1.0 mm\", \"1.5 mm\"]; a list of usual stock if left out",
);
pub const GRINDING: Key = Key::new(
    "grinding_allowance",
    "grinding allowance",
    Kind::NOT_NEGATIVE,
    "least metal to grind off, such as \"0.1 mm\"",
);

const INSTRUMENTS: Kind =
    Kind::Choice(&["tape", "calliper", "feeler gauge", "depth micrometer", "dial indicator", "micrometer"]);

/// Keys of a shim's part file.
pub const KEYS: &[Key] = &[
    common::FAMILY,
    common::NAME,
    common::COUNT,
    common::MATERIAL,
    common::UNITS,
    common::NOTE,
    common::GENERAL_TOLERANCE,
    common::ENVIRONMENT,
    common::COATING,
    common::COATING_THICKNESS,
    REPLACES,
    PRESENT_FLOAT,
    GAP,
    TARGET_FLOAT,
    SIDES,
    OFFSET,
    BORE,
    OUTSIDE_DIAMETER,
    INSTRUMENT,
    FLOAT_INSTRUMENT,
    STOCK,
    GRINDING,
];

/// Permitted error of the float either way where a single figure was asked for.
/// Source: common practice, no source.
pub const USUAL_FLOAT_TOLERANCE: Length = Length::mm(0.03);

/// A shim as read.
pub struct Spec {
    pub common: Common,
    pub source: Source,
    pub target: Given<(Length, Length)>,
    pub sides: Sides,
    pub offset: Option<Given<Length>>,
    pub ring: Option<(Given<Length>, Given<Length>)>,
    pub shim_instrument: Instrument,
    pub float_instrument: Instrument,
    pub stock: Option<Given<Vec<Length>>>,
    pub grinding: Option<Given<Length>>,
}

/// What was measured.
pub enum Source {
    Replaces { shims: Given<Vec<Length>>, present_float: Option<Given<Length>> },
    Gap(Given<Length>),
}

impl Spec {
    /// Least and greatest permitted float: as written, or a usual tolerance about a single figure.
    pub fn float_range(&self) -> FloatTarget {
        float_range(self.target.value.0, self.target.value.1)
    }

    /// The question that the mechanics answer.
    pub fn question(&self) -> ShimQuestion {
        let source = match &self.source {
            Source::Gap(gap) => ShimSource::Gap(Measured::by(gap.value, self.float_instrument)),
            Source::Replaces { shims, present_float } => ShimSource::Replaces {
                shims: shims.value.iter().map(|s| Measured::by(*s, self.shim_instrument)).collect(),
                present_float: Measured::by(
                    present_float.as_ref().map_or(Length::ZERO, |f| f.value),
                    self.float_instrument,
                ),
            },
        };
        ShimQuestion {
            source,
            target: self.float_range(),
            sides: self.sides,
            offset: self.offset.as_ref().map_or(Length::ZERO, |o| o.value),
        }
    }
}

/// A range as it is; a single figure with the usual tolerance, never below nought.
pub fn float_range(min: Length, max: Length) -> FloatTarget {
    if max > min {
        return FloatTarget { min, max };
    }
    let tolerance = USUAL_FLOAT_TOLERANCE.min(min);
    FloatTarget { min: min - tolerance, max: max + tolerance }
}

/// Reads the file; every problem is noted, `None` if one stands in the way.
pub fn read(fields: &Fields, place: &Workplace) -> Option<Spec> {
    let common = common::read(fields, place, "shim", "steel 1045");
    let source = source(fields);
    let target = fields.required_length_range(&TARGET_FLOAT);
    let sides = fields.count(&SIDES).map_or(Sides::One, |n| if n.value == 2 { Sides::Two } else { Sides::One });
    let (offset, bore, outside) = (fields.length(&OFFSET), fields.length(&BORE), fields.length(&OUTSIDE_DIAMETER));
    let shim_instrument = instrument(fields, &INSTRUMENT, Instrument::Micrometer);
    let float_instrument = instrument(fields, &FLOAT_INSTRUMENT, Instrument::DialIndicator);
    let (stock, grinding) = (fields.lengths(&STOCK), fields.length(&GRINDING));
    let ring = match (bore, outside) {
        (Some(bore), Some(outside)) if bore.value < outside.value => Some(Some((bore, outside))),
        (Some(bore), Some(outside)) => {
            fields.problem_at(
                &BORE,
                format!("a bore of {} does not fit inside {}", bore.text, outside.text),
                Some("the bore must be smaller than the outside diameter".into()),
            );
            None
        }
        (Some(_), None) | (None, Some(_)) => {
            fields.missing(
                "a ring needs both bore and outside_diameter",
                Some("bore = \"20 mm\", outside_diameter = \"32 mm\""),
            );
            None
        }
        (None, None) => Some(None),
    };
    Some(Spec {
        common: common?,
        source: source?,
        target: target?,
        sides,
        offset,
        ring: ring?,
        shim_instrument,
        float_instrument,
        stock,
        grinding,
    })
}

fn source(fields: &Fields) -> Option<Source> {
    let (replaces, present, gap) = (fields.lengths(&REPLACES), fields.length(&PRESENT_FLOAT), fields.length(&GAP));
    match (fields.has(&REPLACES), fields.has(&GAP)) {
        (true, true) => {
            fields.problem_at(
                &GAP,
                "either gap (measured without shims) or replaces (measured shims) is wanted, not both".into(),
                Some("the gap is the better measurement: leave replaces out".into()),
            );
            None
        }
        (false, false) => {
            fields.missing("nothing was measured: gap or replaces is missing", Some("gap = \"1.28 mm\", measured without shims, or replaces = [\"0.52 mm\", \"0.31 mm\"] with present_float"));
            None
        }
        (true, false) => Some(Source::Replaces { shims: replaces?, present_float: present }),
        (false, true) => {
            if fields.has(&PRESENT_FLOAT) {
                fields.problem_at(
                    &PRESENT_FLOAT,
                    "present_float belongs to replaces; a gap is measured without shims".into(),
                    Some("leave present_float out".into()),
                );
            }
            gap.map(Source::Gap)
        }
    }
}

fn instrument(fields: &Fields, key: &'static Key, usual: Instrument) -> Instrument {
    fields.choice(key).and_then(|c| Instrument::ALL.into_iter().find(|i| i.name() == c.value)).unwrap_or(usual)
}
