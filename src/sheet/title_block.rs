//! The strip at the foot of a sheet: who, what, how many, at which scale (fields of ISO 7200, own layout), and the bars
//! that show whether the printer kept to size.

use crate::sheet::SMALL;
use crate::sheet::area::{Area, Point};
use crate::sheet::content::{Content, Style};
use crate::sheet::label::SIZE;
use crate::sheet::symbols::{Projection, check_bars, projection_sign};
use crate::sheet::{Anchor, Line, Mark, Page, Path, Text, font};

/// Margin at the left, where the sheet is filed, mm (ISO 5457).
pub const LEFT: f64 = 20.0;
/// Margin elsewhere, mm (ISO 5457).
pub const MARGIN: f64 = 10.0;
/// Height of the bars and their words, mm.
const BARS: f64 = 8.0;
/// Height of one row of the block, mm.
const ROW: f64 = 9.7;
/// Height of a row with a value that takes two lines, mm.
const HEAD: f64 = 12.4;

/// The rectangle inside the frame.
pub fn frame(page: &Page) -> Area {
    Area { left: LEFT, bottom: MARGIN, right: page.width - MARGIN, top: page.height - MARGIN }
}

/// A field: its name, what stands in it, its share of the width.
type Field = (&'static str, String, f64);

/// Draws frame, bars and the full block; gives back the room that is left. A sheet without a scale has no bars.
pub fn full(page: &mut Page, content: &Content, style: &Style, scale: Option<&str>) -> Area {
    let frame = outline(page);
    let strip = |up: f64, height: f64| Area::new(frame.left, frame.bottom + up, frame.width(), height);
    draw_fields(page, &technical(content, scale), strip(0.0, ROW), Some(style.projection));
    let (people, head) = (people(content, style), head(content));
    let (low, high) = (height(&people, frame.width()), height(&head, frame.width()));
    draw_fields(page, &people, strip(ROW, low), None);
    draw_fields(page, &head, strip(ROW + low, high), None);
    bars(page, Area { bottom: frame.bottom + ROW + low + high, ..frame }, scale.is_some())
}

/// Draws frame and a slim strip for the sheets after the first, with bars where a drawing to scale stands on it.
pub fn slim(page: &mut Page, content: &Content, scaled: bool) -> Area {
    let frame = outline(page);
    let head = head(content);
    let high = height(&head, frame.width());
    draw_fields(page, &head, Area::new(frame.left, frame.bottom, frame.width(), high), None);
    bars(page, Area { bottom: frame.bottom + high, ..frame }, scaled)
}

/// The bars at the foot of a room, and what is left of it.
fn bars(page: &mut Page, room: Area, wanted: bool) -> Area {
    if !wanted {
        return Area { bottom: room.bottom + 1.0, ..room };
    }
    page.marks.extend(check_bars(Point::new(room.left + 3.0, room.bottom + 2.0)));
    Area { bottom: room.bottom + BARS + 1.0, ..room }
}

fn outline(page: &mut Page) -> Area {
    let frame = frame(page);
    page.marks.push(Mark::stroke(Path::rectangle(frame), Line::Frame));
    frame
}

fn head(content: &Content) -> Vec<Field> {
    vec![
        ("Title", content.name.clone(), 3.6),
        ("Number", content.number.clone(), 2.3),
        ("Revision", content.revision.clone(), 1.1),
        ("Sheet", String::new(), 1.0),
    ]
}

/// What is not known stands empty, to be written in by hand.
fn people(content: &Content, style: &Style) -> Vec<Field> {
    let given = |value: &Option<String>| value.clone().unwrap_or_default();
    vec![
        ("Document", content.kind.clone(), 1.0),
        ("Material", content.material.clone(), 2.0),
        ("Owner", given(&style.owner), 1.3),
        ("Drawn by", given(&style.creator), 1.3),
        ("Approved by", given(&style.approved), 1.3),
        ("Date of issue", given(&style.date), 1.3),
    ]
}

fn technical(content: &Content, scale: Option<&str>) -> Vec<Field> {
    let general = if content.general.is_empty() { "as in the table".into() } else { content.general.clone() };
    // What is not drawn as a part is not made either.
    let part = scale.map(|scale| [("Wanted", content.count.to_string(), 0.8), ("Scale", scale.to_string(), 0.8)]);
    let mut fields: Vec<Field> = part.into_iter().flatten().collect();
    fields.extend([
        ("Sizes in", content.unit.clone(), 0.8),
        ("Limits where none are given", general, 2.6),
        ("", String::new(), 1.2),
    ]);
    fields
}

fn draw_fields(page: &mut Page, fields: &[Field], strip: Area, projection: Option<Projection>) {
    let mut left = strip.left;
    for ((name, value, _), width) in fields.iter().zip(widths(fields, strip.width())) {
        let field = Area::new(left, strip.bottom, width, strip.height());
        page.marks.push(Mark::stroke(Path::rectangle(field), Line::Narrow));
        let at = Point::new(field.left + 1.5, field.top - SMALL - 0.9);
        page.marks.push(Mark::Text(Text::new(at, SMALL, fit(name, SMALL, field.width() - 3.0))));
        if let (true, Some(projection)) = (name.is_empty(), projection) {
            page.marks.extend(projection_sign(projection, field.centre(), 6.5));
        }
        page.marks.extend(value_marks(value, field));
        left = field.right;
    }
}

/// Height of a row of fields: for two lines where one of them has more than one.
fn height(fields: &[Field], room: f64) -> f64 {
    let long = |((_, value, _), width): (&Field, f64)| font::width(value, SMALL) > width - 3.0;
    if fields.iter().zip(widths(fields, room)).any(long) { HEAD } else { ROW }
}

/// Widths of the fields: their shares, but none narrower than its longest word, which those with room to spare give up.
fn widths(fields: &[Field], room: f64) -> Vec<f64> {
    let shares: f64 = fields.iter().map(|f| f.2).sum();
    let longest = |words: &str| font::pieces(words).iter().map(|w| font::width(w, SMALL)).fold(0.0, f64::max);
    let least = |(name, value, _): &Field| longest(value).max(font::width(name, SMALL)) + 3.05;
    let fair: Vec<(f64, f64)> = fields.iter().map(|f| (room * f.2 / shares, least(f))).collect();
    let lacks: f64 = fair.iter().map(|(width, least)| (least - width).max(0.0)).sum();
    let spare: f64 = fair.iter().map(|(width, least)| (width - least).max(0.0)).sum();
    let given = if spare > 0.0 { (lacks / spare).min(1.0) } else { 0.0 };
    // Where there is nothing left to give the words are cut.
    let lent = if lacks > 0.0 { (spare / lacks).min(1.0) } else { 0.0 };
    let width = |(width, least): &(f64, f64)| {
        if width > least { width - (width - least) * given } else { width + (least - width) * lent }
    };
    fair.iter().map(width).collect()
}

/// What stands in a field: one line, or two small ones where it is high enough for them.
fn value_marks(value: &str, field: Area) -> Vec<Mark> {
    let room = field.width() - 3.0;
    let line = |up: f64, height: f64, words: &str| {
        let at = Point::new(field.left + 1.5, field.bottom + 1.6 + up);
        Mark::Text(Text::new(at, height, fit(words, height, room)))
    };
    let height = shrink(value, SIZE, room);
    let lines = font::wrap(value, SMALL, room);
    match lines.split_first() {
        Some((first, rest)) if font::width(value, height) > room && field.height() > ROW + 1.0 => {
            vec![line(SMALL * 1.5, SMALL, first), line(0.0, SMALL, &rest.join(" "))]
        }
        _ => vec![line(0.0, height, value)],
    }
}

/// The height at which words fit, not under the smallest.
fn shrink(words: &str, height: f64, room: f64) -> f64 {
    let width = font::width(words, height);
    // A hair less, so that rounding does not cut what just fits.
    if width > room { (height * room / width * (1.0 - 1e-9)).max(SMALL) } else { height }
}

/// The words, cut with an ellipsis where even the smallest lettering is too long.
fn fit(words: &str, height: f64, room: f64) -> String {
    if font::width(words, height) <= room {
        return words.into();
    }
    let mut short: String = words.into();
    while !short.is_empty() && font::width(&format!("{short}…"), height) > room {
        short.pop();
    }
    short + "…"
}

/// Writes `1 of 3` into the sheet field of every page; the first one may have the full block.
pub fn number_sheets(pages: &mut [Page], content: &Content, style: &Style, full: bool) {
    let count = pages.len();
    for (i, page) in pages.iter_mut().enumerate() {
        let width = frame(page).width();
        let row = if i == 0 && full { ROW + height(&people(content, style), width) } else { 0.0 };
        let at = Point::new(page.width - MARGIN - 1.5, MARGIN + row + 1.6);
        page.marks.push(Mark::Text(Text::new(at, SIZE, format!("{} of {count}", i + 1)).anchored(Anchor::End)));
    }
}
