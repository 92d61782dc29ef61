//! Bolts, their threads, and the holes that they go through.

use super::{Common, gauged};
use crate::description::Fields;
use crate::formulas::bolts::{BoltClass, CLASS_8_8, GRADE_5};
use crate::formulas::uncertainty::Instrument;
use crate::record::design::{Check, Design, Value, Verdict};
use crate::record::key::{Given, Key, Kind, Size};
use crate::record::show;
use crate::source::Source;
use crate::standards::clearance_holes::{self, Series};
use crate::standards::drills;
use crate::standards::threads::{Thread, ThreadKind};
use crate::units::{Length, LengthUnit};

/// Property class of a bolt.
pub const BOLT_CLASS: Key = Key::new(
    "class",
    "property class of the bolt",
    Kind::Choice(&[
        "4.6", "5.8", "8.8", "10.9", "12.9", "A2-70", "A4-80", "grade 2", "grade 5", "grade 8", "A325", "A490", "A574",
    ]),
    "of the bolt: 4.6 to 12.9 (ISO 898-1, metric), \"grade 2\" to \"grade 8\" (SAE J429, inch), \"A325\", \"A490\" (ASTM F3125, inch, from 1/2), \"A574\" (inch socket screws), \"A2-70\", \"A4-80\" (ISO 3506-1); 8.8, grade 5 or A574 if left out",
);

/// The bolt's steel, and the key as written.
pub struct BoltSteel {
    /// Its strength.
    pub class: BoltClass,
    written: Option<Given<&'static str>>,
}

/// What a bolt has to be turned by, which decides how it is ordered, what room its head wants and of what steel it is sold.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Head {
    /// Hexagon head, outside the part. Sold in every class of bolts. Source: ISO 4014, ISO 4017, ASME B18.2.1.
    Hex,
    /// Cylinder with a socket, in a counterbore. Source: ISO 4762, ASME B18.3.
    Socket,
    /// Countersunk with a socket. Source: ISO 10642, ASME B18.3.
    Countersunk,
}

impl Head {
    /// As it is ordered, one.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Hex => "hex bolt",
            Self::Socket => "socket head cap screw",
            Self::Countersunk => "countersunk socket screw",
        }
    }

    /// Whether screws of that head are sold in that class: socket screws from 8.8 (ISO 4762, ISO 10642), in inch of the alloy
    /// steel of ASTM A574, and of stainless; hex bolts in all others. Source: those standards, from memory.
    fn sold_in(self, class: &BoltClass) -> bool {
        let socket = class.stainless() || matches!(class.name, "8.8" | "10.9" | "12.9" | "A574");
        match self {
            Self::Hex => class.name != "A574",
            Self::Socket | Self::Countersunk => socket,
        }
    }
}

/// Reads the property class; where nothing is said 8.8, for an inch thread grade 5, or A574 for a socket screw.
pub fn bolt_class(table: &Fields, thread: Option<Thread>, head: Head) -> BoltSteel {
    let written = table.choice(&BOLT_CLASS);
    let inch = thread.is_some_and(|t| t.kind == ThreadKind::Unified);
    let usual = if inch { GRADE_5 } else { CLASS_8_8 };
    let alloy = inch && head != Head::Hex;
    let name = written.as_ref().map_or(if alloy { "A574" } else { usual.name }, |w| w.value);
    let major = thread.map_or(Length::ZERO, |t| t.major);
    let found = BoltClass::of(name, major);
    if found.is_none() && thread.is_some() {
        let message = format!("no bolt of class {name} is known of that thread");
        let help = "A325 and A490 are made from 1/2 to 1-1/2 in: class = \"grade 5\" or \"grade 8\"";
        table.problem_at(&BOLT_CLASS, message, Some(help.into()));
    }
    let class = found.unwrap_or(usual);
    if let Some(thread) = thread.filter(|_| !class.stainless() && class.is_grade() != inch) {
        let (of, instead) = if inch { ("metric", "grade 5") } else { ("inch", "8.8") };
        let message = format!("class {name} is one of {of} bolts, and the thread is {thread}");
        table.problem_at(
            &BOLT_CLASS,
            message,
            Some(format!("class = \"{instead}\", or a stainless one such as \"A2-70\"")),
        );
    }
    if thread.is_some() && class.is_grade() == inch && !head.sold_in(&class) {
        let (message, help) = match head {
            Head::Hex => {
                (format!("a hex bolt is not sold in {name}: that is the steel of inch socket screws"), "grade 8")
            }
            _ => (format!("a {} is not sold in {name}", head.name()), if inch { "A574" } else { "8.8" }),
        };
        let help = format!("class = \"{help}\", or a stainless one such as \"A2-70\"");
        table.problem_at(&BOLT_CLASS, message, Some(help));
    }
    BoltSteel { class, written }
}

/// Records the property class, written or assumed.
pub fn bolt_steel(design: &mut Design, steel: &BoltSteel) {
    let size = super::sizes::BOLT_CLASS.called(BOLT_CLASS.label);
    match &steel.written {
        Some(w) => design.computed(&size, Value::Text(w.value.into()), "as written"),
        None => design.assumed(&size, Value::Text(steel.class.name.into()), "not written: the usual class"),
    }
}

/// Series of clearance holes, medium where nothing is said.
pub fn series(table: &Fields, key: &Key) -> Series {
    match table.choice(key).map(|c| c.value) {
        Some("fine") => Series::Fine,
        Some("coarse") => Series::Coarse,
        _ => Series::Medium,
    }
}

/// A thread as written; `None` when a problem was noted.
pub fn thread(table: &Fields, key: &Key, written: &Given<String>) -> Option<Thread> {
    let help = || Some("such as \"M12\", \"M12x1.25\" or \"1/2\"".into());
    Thread::parse(&written.value).map_err(|error| table.problem_at(key, error.to_string(), help())).ok()
}

/// The clearance hole for a thread; `None` when a problem was noted.
pub fn clearance_hole(table: &Fields, key: &Key, thread: Thread, series: Series) -> Option<Length> {
    let found = clearance_holes::clearance_hole(thread, series).map(|c| c.value);
    found
        .map_err(|error| {
            table.problem_at(key, error.to_string(), Some("another thread, or the hole's diameter itself".into()))
        })
        .ok()
        .map(Length::rounded)
}

/// Of which table the clearance hole of a thread is.
pub const fn clearance_from(thread: &Thread) -> &'static str {
    match thread.kind {
        ThreadKind::Metric => "clearance hole of ISO 273",
        ThreadKind::Unified => "clearance hole of ASME B18.2.8",
    }
}

/// The drill for a hole of recorded limits that a bolt goes through: its size, or where that lies on the least limit the next
/// drill that reads good by calliper, of the part's own system if there is one.
pub fn drill_within(design: &mut Design, common: &Common, size: &Size) -> Length {
    let Some(dimension) = design.dimension(size) else { return Length::ZERO };
    let Value::Length(nominal) = dimension.value else { return Length::ZERO };
    let Some(limits) = &dimension.limits else { return nominal };
    let (lower, upper) = (limits.lower, limits.upper);
    if nominal >= lower + common.gauge(Instrument::Calliper).length() && is_sold(nominal) {
        return nominal;
    }
    let u = gauged::rests_on(design, common, Instrument::Calliper);
    let (least, most) = (lower + u, upper - u);
    let unit = design.header.unit;
    let units = [unit, show::other_unit(unit)];
    // The nearest to the size that leaves the hole within its limits, else the least that does.
    let of = |unit| {
        let near = drills::nearest(nominal, unit).filter(|d| d.diameter >= least && d.diameter <= most);
        near.or_else(|| drills::least_between(least, most, unit)).map(|d| d.diameter)
    };
    units.into_iter().find_map(of).unwrap_or(nominal)
}

/// Whether a drill of that size is sold, in either system.
fn is_sold(diameter: Length) -> bool {
    [LengthUnit::Mm, LengthUnit::Inch]
        .into_iter()
        .filter_map(|unit| drills::nearest(diameter, unit))
        .any(|d| (d.diameter - diameter).abs() <= drills::SAME)
}

/// A drill as a step and the list of tools name it: by what is stamped on it, with its size; where none of that size is
/// sold in either system, the nearest of the part's own.
pub fn drill(diameter: Length, unit: LengthUnit) -> String {
    let size = show::length_both(diameter.rounded(), unit);
    let sold = |unit| drills::nearest(diameter, unit).filter(|d| (d.diameter - diameter).abs() <= drills::SAME);
    match (sold(unit), sold(show::other_unit(unit)), drills::nearest(diameter, unit)) {
        (Some(_), ..) if unit == LengthUnit::Mm => size,
        (Some(own), ..) => format!("{}, {size}", own.name),
        (None, Some(_), _) if unit == LengthUnit::Inch => show::length_both(diameter.rounded(), LengthUnit::Mm),
        (None, Some(other), _) => format!("{} ({})", other.name, show::length(diameter.rounded(), unit)),
        (None, None, Some(near)) => format!("{}, nearest to {size}", near.name),
        _ => size,
    }
}

/// A reamer by the size that it is sold in, and what it is to leave: one of whole tenths of a millimetre stays metric in an
/// inch part.
pub fn reamer(design: &Design, hole: &Size, nominal: Length) -> String {
    let metric = (nominal - nominal.to_nearest(Length::mm(0.1))).abs() < drills::SAME;
    let unit = if metric { LengthUnit::Mm } else { design.header.unit };
    format!("reamer {} that leaves {}", show::length(nominal.rounded(), unit), super::between(design, hole))
}

const THREAD_SOLD: Check = Check {
    key: "thread_sold",
    what: "pitch of the thread",
    worst: Verdict::Caution,
    source: Source::Memory("series of ISO 261 and ASME B1.1"),
};

/// Says that nobody sells a tap or a bolt of that pitch.
pub fn standard_thread(design: &mut Design, thread: &Thread) {
    if thread.is_standard() {
        return;
    }
    let known: Vec<String> = thread.standard_pitches().iter().map(ToString::to_string).collect();
    let instead = if known.is_empty() {
        "take a standard diameter".into()
    } else {
        format!("at this diameter there are {}", known.join(", "))
    };
    let because = format!("{thread} stands in no series of the standard: tap and bolt are made to order; {instead}");
    design.finding(&THREAD_SOLD, Verdict::Caution, Some(Value::Text(thread.to_string())), None, because);
}
