//! The strip at the foot of a sheet: who, what, how many, at which scale (fields of ISO 7200, own layout), and the bars
//! that show whether the printer kept to size.

use crate::page::area::{Area, Point};
use crate::page::content::{Content, Style};
use crate::page::label::{SIZE, SMALL};
use crate::page::symbols::{Projection, check_bars, projection_sign};
use crate::page::{Anchor, Line, Mark, Page, Path, Text, font};

/// Margin at the left, where the sheet is filed, mm (ISO 5457).
pub const LEFT: f64 = 20.0;
/// Margin elsewhere, mm (ISO 5457).
pub const MARGIN: f64 = 10.0;
/// Height of the bars and their words, mm.
const BARS: f64 = 8.0;
/// Height of one row of the block, mm.
const ROW: f64 = 10.0;

/// The rectangle inside the frame.
pub fn frame(page: &Page) -> Area {
    Area { left: LEFT, bottom: MARGIN, right: page.width - MARGIN, top: page.height - MARGIN }
}

/// A field: its name, what stands in it, its share of the width.
type Field = (&'static str, String, f64);

/// Draws frame, bars and the full block; gives back the room that is left.
pub fn full(page: &mut Page, content: &Content, style: &Style, scale: &str) -> Area {
    let frame = outline(page);
    let strip = |row: f64| Area::new(frame.left, frame.bottom + row * ROW, frame.width(), ROW);
    draw_fields(page, &technical(content, scale), strip(0.0), Some(style.projection));
    draw_fields(page, &people(content, style), strip(1.0), None);
    draw_fields(page, &head(content), strip(2.0), None);
    let bottom = frame.bottom + 3.0 * ROW;
    page.marks.extend(check_bars(Point::new(frame.left + 3.0, bottom + 2.0)));
    Area { bottom: bottom + BARS + 1.0, ..frame }
}

/// Draws frame, bars and a slim strip for the sheets after the first.
pub fn slim(page: &mut Page, content: &Content) -> Area {
    let frame = outline(page);
    draw_fields(page, &head(content), Area::new(frame.left, frame.bottom, frame.width(), ROW), None);
    page.marks.extend(check_bars(Point::new(frame.left + 3.0, frame.bottom + ROW + 2.0)));
    Area { bottom: frame.bottom + ROW + BARS + 1.0, ..frame }
}

fn outline(page: &mut Page) -> Area {
    let frame = frame(page);
    page.marks.push(Mark::stroke(Path::rectangle(frame), Line::Frame));
    frame
}

fn head(content: &Content) -> Vec<Field> {
    vec![("Title", content.name.clone(), 4.0), ("Number", content.number.clone(), 2.6), ("Sheet", String::new(), 1.2)]
}

fn people(content: &Content, style: &Style) -> Vec<Field> {
    let mut fields = vec![("Document", content.kind.clone(), 1.6)];
    let material = Some(content.material.clone()).filter(|m| !m.is_empty());
    let optional = [
        ("Material", material, 1.8),
        ("Owner", style.owner.clone(), 1.6),
        ("Drawn by", style.creator.clone(), 1.4),
        ("Approved by", style.approved.clone(), 1.4),
        ("Date of issue", style.date.clone(), 1.1),
    ];
    fields.extend(optional.into_iter().filter_map(|(name, value, share)| Some((name, value?, share))));
    fields
}

fn technical(content: &Content, scale: &str) -> Vec<Field> {
    let general = if content.general.is_empty() { "as in the table".into() } else { content.general.clone() };
    vec![
        ("Wanted", content.count.to_string(), 0.8),
        ("Scale", scale.into(), 0.8),
        ("Sizes in", content.unit.clone(), 0.8),
        ("Limits where none are given", general, 2.6),
        ("", String::new(), 1.2),
    ]
}

fn draw_fields(page: &mut Page, fields: &[Field], strip: Area, projection: Option<Projection>) {
    let shares: f64 = fields.iter().map(|f| f.2).sum();
    let mut left = strip.left;
    for (name, value, share) in fields {
        let field = Area::new(left, strip.bottom, strip.width() * share / shares, strip.height());
        page.marks.push(Mark::stroke(Path::rectangle(field), Line::Narrow));
        let at = Point::new(field.left + 1.5, field.top - SMALL - 0.9);
        page.marks.push(Mark::Text(Text::new(at, SMALL, fit(name, SMALL, field.width() - 3.0))));
        if let (true, Some(projection)) = (name.is_empty(), projection) {
            page.marks.extend(projection_sign(projection, field.centre(), 6.5));
        }
        let at = Point::new(field.left + 1.5, field.bottom + 1.6);
        let height = shrink(value, SIZE, field.width() - 3.0);
        page.marks.push(Mark::Text(Text::new(at, height, fit(value, height, field.width() - 3.0))));
        left = field.right;
    }
}

/// The height at which words fit, not under the smallest.
fn shrink(words: &str, height: f64, room: f64) -> f64 {
    let width = font::width(words, height);
    if width > room { (height * room / width).max(SMALL) } else { height }
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

/// Writes `1 of 3` into the sheet field of every page; the first one has the full block.
pub fn number_sheets(pages: &mut [Page]) {
    let count = pages.len();
    for (i, page) in pages.iter_mut().enumerate() {
        let row = if i == 0 { 2.0 * ROW } else { 0.0 };
        let at = Point::new(page.width - MARGIN - 1.5, MARGIN + row + 1.6);
        page.marks.push(Mark::Text(Text::new(at, SIZE, format!("{} of {count}", i + 1)).anchored(Anchor::End)));
    }
}
