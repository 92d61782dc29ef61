//! What a try-out tells: by how much the printer, the cutter or the lathe makes sizes off, and where that is written.

use crate::description::Fields;
use crate::families::Workplace;
use crate::formulas::ladder::{self, Fits, Offset, Rung};
use crate::record::design::{Check, Design, Lesson, Limit, Value, Verdict};
use crate::record::key::Size;
use crate::record::show::{self, Say};
use crate::source::Source;
use crate::units::Length;

use super::read::{self, Ladder, Made, Spec};
use super::sizes;

const OFFSET: Check = Check {
    key: "offset_found",
    what: "sizes come out off what is drawn, plus is larger, by what was measured",
    worst: Verdict::Ok,
    source: Source::Published("JCGM 100:2008, 4.2: the mean of the rungs, its scatter, and what all readings share"),
};
const BY_FIT: Check = Check {
    what: "sizes come out off what is drawn, plus is larger, by the rung that fits",
    source: Source::Derived("the rung that fits and the one beside it bound the offset"),
    ..OFFSET
};

/// Keys of the shop's file: an offset and its uncertainty.
type Keys = (&'static str, &'static str);
const HOLES: Keys = ("printer.hole_offset", "printer.hole_offset_uncertainty");
const OUTSIDES: Keys = ("printer.outside_offset", "printer.outside_offset_uncertainty");

/// Says what was found, by the readings of the rungs and by the rung that fits.
pub fn findings(design: &mut Design, fields: &Fields, place: &Workplace) {
    let Some(s) = read::read(fields, place) else { return };
    let Made::Ladder { kind, rungs, .. } = &s.made else { return };
    let read: Vec<Rung> =
        rungs.iter().enumerate().flat_map(|(i, drawn)| measured(design, &sizes::rung(*kind, i), *drawn)).collect();
    if let Ok(offset) = ladder::offset(&read) {
        let how = format!("by {} readings", read.len());
        tell(design, &s, *kind, &OFFSET, offset, &how);
        let days = design.dimensions.iter().flat_map(|d| &d.readings).filter_map(|r| r.on);
        let last = days.reduce(|a, b| if b.days() > a.days() { b } else { a }).map(|day| day.to_string());
        if let Some(lesson) = design.lessons.last_mut() {
            lesson.on = last;
        }
    }
}

/// What the rung that fits tells; part of the work, since no reading of the part is needed for it.
pub fn by_fit(design: &mut Design, s: &Spec) {
    let Made::Ladder { kind, step, rungs, tried: Some(tried), .. } = &s.made else { return };
    let Some(rung) = rungs.get((tried.fits_at.value as usize).saturating_sub(1)) else { return };
    let fits = if *kind == Ladder::Pins { Fits::LargestPin } else { Fits::SmallestHole };
    let Ok(offset) = ladder::offset_by_fit(fits, tried.with.value, *rung, *step) else { return };
    let how = format!("by the mate of {} at rung {}", design.say().length(tried.with.value), tried.fits_at.value);
    tell(design, s, *kind, &BY_FIT, offset, &how);
}

fn measured(design: &Design, size: &Size, drawn: Length) -> Vec<Rung> {
    let Some(dimension) = design.dimension(size) else { return Vec::new() };
    let one = |r: &&crate::record::reading::Reading| match (&r.value, &r.u) {
        (Value::Length(measured), Value::Length(u)) => Some(Rung { drawn, measured: *measured, u: *u }),
        _ => None,
    };
    dimension.measured().iter().filter_map(one).collect()
}

fn tell(design: &mut Design, s: &Spec, kind: Ladder, check: &Check, offset: Offset, how: &str) {
    let say = Say(design.header.unit);
    let keys = match kind {
        Ladder::Holes | Ladder::Slots => Some(HOLES),
        Ladder::Pins => Some(OUTSIDES),
        // How thick layers come out is no offset of outlines.
        Ladder::Treads => None,
    };
    // No finer than a calliper reads.
    let grid = Length::mm(0.01);
    let by = offset.by.to_nearest(grid).rounded();
    let doubtful = by.abs() <= offset.u;
    let unit = s.common.header.unit;
    let to_do = match (s.common.material.printed, keys) {
        (true, Some((key, _))) => format!(
            "write {} = \"{}\" under [printer] in shop.toml, as `setdown record PART --teach` does",
            key.trim_start_matches("printer."),
            show::length(by, unit)
        ),
        (true, None) => {
            "where every tread is off by the same share, the printer's steps upwards are to be set".to_string()
        }
        (false, _) => "draw the real one so much the other way, or tell the cutter".to_string(),
    };
    let doubt = if doubtful { "; it may as well be nothing" } else { "" };
    let u = (grid * (offset.u / grid).ceil()).rounded();
    let because = format!("± {} (95 of 100), {how}{doubt}: {to_do}", say.length(u));
    design.finding(check, Verdict::Ok, Some(Value::Length(by)), Limit::None, because);
    if let Some((key, u_key)) = keys.filter(|_| s.common.material.printed) {
        let (value, u) = (show::length(by, unit), show::length(u, unit));
        // What was measured stands over what was only tried.
        design.lessons =
            vec![Lesson { key, value, u_key, u, on_key: "printer.measured_on", on: None, beside: Vec::new() }];
    }
}
