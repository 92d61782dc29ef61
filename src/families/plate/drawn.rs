//! The outline of a plate and its holes from a drawing of any origin.

use crate::description::Fields;
use crate::families::Workplace;
use crate::outline::{self, Ask};
use crate::record::key::{Given, Key};
use crate::shape::Contour;
use crate::units::Length;

/// Ends nearer than this are joined where nothing else is said. Source: common practice, no source.
pub const USUAL_GAP: Length = Length::mm(0.05);

/// What the drawing holds.
pub struct Drawn {
    /// The outline.
    pub outer: Contour,
    /// The holes in it.
    pub holes: Vec<Contour>,
    /// What was put right in reading it.
    pub mended: Vec<String>,
    /// Engraved lines and lines to bend along, which are left out.
    pub left_out: usize,
}

/// Reads the drawing; what cannot be cut from it is told at the key that names it.
pub fn read(
    fields: &Fields,
    place: &Workplace,
    (key, file): (&'static Key, &Given<String>),
    gap: Length,
) -> Option<Drawn> {
    let refuse = |message: String, help: &str| {
        fields.problem_at(key, message, Some(help.into()));
        None
    };
    let (name, text) = match (place.neighbour)(&file.value) {
        Ok(found) => found,
        Err(why) => return refuse(why, "the name is relative to the folder of this part file"),
    };
    let found = match outline::inspect(text.as_bytes(), &Ask { gap, unit: None, least: None }) {
        Ok(found) => found,
        Err(outline::Refusal { line: Some(line), what }) => {
            return refuse(format!("{name}, line {line}: {what}"), LOOK);
        }
        Err(outline::Refusal { line: None, what }) => return refuse(format!("{name}: {what}"), LOOK),
    };
    if let Some(first) = found.unsound.first() {
        return refuse(format!("{name}: {first}"), LOOK);
    }
    let parts = found.outlines.iter().filter(|o| o.depth == 0).count();
    if parts != 1 || found.outlines.iter().any(|o| o.depth > 1) {
        return refuse(format!("{name} holds more than one part"), "one drawing for each part file");
    }
    let mut contours = match found.contours() {
        Ok(contours) => contours.into_iter(),
        Err(error) => return refuse(format!("{name}: {error}"), LOOK),
    };
    let outer = contours.next()?;
    let left_out = found.marks.len() + found.bends.len();
    Some(Drawn { outer, holes: contours.collect(), mended: found.mended, left_out })
}

const LOOK: &str = "`setdown inspect` shows every place, with --picture as a drawing";
