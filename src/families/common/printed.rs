//! The printed route: how a part lies in the printer, what the printer makes of its sizes, and whether it goes on the bed.

use crate::record::design::{Check, Design, Operation, Verdict};
use crate::record::show;
use crate::shop::printer::Printer;
use crate::source::Source;
use crate::units::Length;

use super::reading::Common;

const BED: Check = Check {
    key: "printer_bed",
    what: "print on the bed of the printer",
    worst: Verdict::Fail,
    source: Source::Derived("its extents against bed and height in shop.toml"),
};

/// Outlines printed one within the other, so that what another part touches is solid. Source: common practice, no source.
const OUTLINES: u32 = 4;

/// How a part is printed.
pub struct Print<'a> {
    /// The word for it: "cone".
    pub what: &'a str,
    /// How it lies, "standing on its base, nose up".
    pub lies: &'a str,
    /// Its extents as it lies: across, across, up.
    pub extents: (Length, Length, Length),
    /// It is printed to find out how far the printer is off.
    pub tells: bool,
}

/// The steps at the printer and at the bench after it, where what came out is measured, and the blank in the list.
pub fn step<'d>(design: &'d mut Design, common: &Common, print: &Print) -> &'d mut Operation {
    let askew = fits(design, common, print);
    let (count, name) = (design.header.count, &common.material.name);
    design.tools.push(format!("{count} x {}, printed in {name} from the STL or 3MF file", print.what));
    let size = |l: Length| show::length_both(l.rounded(), common.header.unit);
    let printer = &common.printer;
    let turned = if askew { format!(", {ASKEW}") } else { String::new() };
    let text = format!(
        "Print the {} from the STL or 3MF file {}{turned}, without supports: layers of {}, {OUTLINES} outlines, {} of solid wall. {}",
        print.what,
        print.lies,
        size(printer.layer),
        size(printer.line * f64::from(OUTLINES)),
        if print.tells {
            "Print it as every other part is printed, with the same plastic, layers and speed.".into()
        } else {
            offsets(printer, &size)
        }
    );
    design.step("3D printer", text);
    design.step(
        "bench",
        "Let it cool on the bed before it is taken off. Take off the brim and the swollen edge of the first layers: it must lie on a flat plate without rocking. Measure what came.",
    )
}

/// What is told of the printer: by how much it is off, or how that is found.
fn offsets(printer: &Printer, size: &dyn Fn(Length) -> String) -> String {
    let off = |what: &str, by: Length, u: Option<Length>| {
        let u = u.map_or_else(String::new, |u| format!(" (± {})", size(u)));
        match by {
            by if by < Length::ZERO => format!("{what} {} small{u}", size(by.abs())),
            by if by > Length::ZERO => format!("{what} {} large{u}", size(by)),
            _ => format!("{what} to size{u}"),
        }
    };
    let files = "the files are as drawn";
    match (printer.hole_offset, printer.outside_offset) {
        (None, None) => format!(
            "How far this printer is off is not known: print the ladders of a try-out first (`setdown start test-fit`), and write hole_offset and outside_offset under [printer] in shop.toml; {files}."
        ),
        (hole, outside) => {
            let hole = hole.map(|by| off("holes", by, printer.hole_uncertainty));
            let outside = outside.map(|by| off("outsides", by, printer.outside_uncertainty));
            let told: Vec<String> = hole.into_iter().chain(outside).collect();
            format!(
                "This printer makes {} on the diameter: let the slicing program take that back; {files}.",
                told.join(" and ")
            )
        }
    }
}

/// How a part lies that is longer than the bed.
const ASKEW: &str = "turned towards the corners of the bed: it is longer than that is";

/// Judges whether it goes on the printer, where that is known; gives whether it goes on askew alone.
fn fits(design: &mut Design, common: &Common, print: &Print) -> bool {
    let (x, y, z) = print.extents;
    let Some(goes) = common.printer.holds(print.extents) else { return false };
    let askew = goes && common.printer.askew(print.extents);
    let say = design.say();
    let said = format!("{} x {} across and {} high as it lies", say.length(x), say.length(y), say.length(z));
    let (verdict, because) = if goes {
        (Verdict::Ok, if askew { format!("{said}, {ASKEW}") } else { said })
    } else {
        (
            Verdict::Fail,
            format!("{said}: more than the bed or the height in shop.toml; print it in pieces or elsewhere"),
        )
    };
    design.finding(&BED, verdict, None, None, because);
    askew
}
