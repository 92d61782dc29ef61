//! Sheets as SVG: looks the same in every viewer, since the letters are drawn as outlines; the words lie over them
//! unseen, so that they can be searched and copied. White paper is drawn first.

use std::collections::BTreeMap;
use std::fmt::Write;

use ttf_parser::{GlyphId, OutlineBuilder};

use crate::page::font::{self, CAPITAL, UNITS_PER_EM};
use crate::page::{Mark, Page, Path, Shade, Step, Text};

/// One page as an SVG file.
pub fn write(page: &Page) -> String {
    let (w, h) = (number(page.width), number(page.height));
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\">\n\
         <title>{}</title>\n<defs>\n",
        escape(&page.title)
    );
    for (id, outline) in outlines(page) {
        put(&mut out, format_args!("<path id=\"g{id}\" d=\"{outline}\"/>\n"));
    }
    put(&mut out, format_args!("</defs>\n<rect width=\"{w}\" height=\"{h}\" fill=\"#fff\"/>\n"));
    out.push_str("<g fill=\"none\" stroke=\"#000\">\n");
    for mark in page.marks.iter() {
        write_mark(&mut out, mark, page.height);
    }
    out.push_str("</g>\n</svg>\n");
    out
}

/// Writing into a string cannot fail.
fn put(out: &mut String, text: std::fmt::Arguments<'_>) {
    let _ = out.write_fmt(text);
}

fn write_mark(out: &mut String, mark: &Mark, height: f64) {
    match mark {
        Mark::Stroke(path, line, stretch) => {
            put(out, format_args!("<path d=\"{}\" stroke-width=\"{}\"", path_data(path, height), line.width()));
            let pattern: Vec<String> = line.pattern().iter().map(|d| number(d * stretch)).collect();
            if !pattern.is_empty() {
                put(out, format_args!(" stroke-dasharray=\"{}\"", pattern.join(" ")));
            }
            out.push_str("/>\n");
        }
        Mark::Fill(path, shade) => {
            let (data, colour) = (path_data(path, height), colour(*shade));
            put(out, format_args!("<path d=\"{data}\" fill=\"{colour}\" fill-rule=\"evenodd\" stroke=\"none\"/>\n"));
        }
        Mark::Text(text) => write_text(out, text, height),
    }
}

fn colour(shade: Shade) -> &'static str {
    match shade {
        Shade::Black => "#000",
        Shade::White => "#fff",
        Shade::Grey => "#d9d9d9",
    }
}

fn write_text(out: &mut String, text: &Text, height: f64) {
    if text.words.trim().is_empty() {
        return;
    }
    let start = text.start();
    let size = text.height / CAPITAL;
    let (x, y, turn) = (number(start.x), number(height - start.y), number(-text.turn));
    let rotate = if text.turn == 0.0 { String::new() } else { format!(" rotate({turn})") };
    let scale = fixed(size / UNITS_PER_EM, 7);
    put(out, format_args!("<g fill=\"#000\" stroke=\"none\" transform=\"translate({x} {y}){rotate}\">"));
    put(out, format_args!("<g transform=\"scale({scale} -{scale})\">"));
    let mut along = 0_u32;
    for c in text.words.chars() {
        let glyph = font::glyph(c);
        if !c.is_whitespace() {
            put(out, format_args!("<use href=\"#g{}\" x=\"{along}\"/>", glyph.id));
        }
        along += u32::from(glyph.advance);
    }
    let (words, length) = (escape(&text.words), number(text.width()));
    put(out, format_args!("</g><text font-size=\"{}\" fill-opacity=\"0\" textLength=\"{length}\"", number(size)));
    put(out, format_args!(" xml:space=\"preserve\">{words}</text></g>\n"));
}

fn path_data(path: &Path, height: f64) -> String {
    let mut data = String::new();
    for contour in &path.contours {
        put(&mut data, format_args!("M{} {}", number(contour.start.x), number(height - contour.start.y)));
        for (from, step) in contour.pieces() {
            match step {
                Step::Line(to) => put(&mut data, format_args!("L{} {}", number(to.x), number(height - to.y))),
                Step::Arc { centre, sweep, to } => {
                    let radius = number(centre.distance(from));
                    let (large, side) = (u8::from(sweep.abs() > 180.0), u8::from(sweep < 0.0));
                    let (x, y) = (number(to.x), number(height - to.y));
                    put(&mut data, format_args!("A{radius} {radius} 0 {large} {side} {x} {y}"));
                }
            }
        }
        if contour.closed {
            data.push('Z');
        }
    }
    data
}

/// The outline of every letter used, by its number in the font.
fn outlines(page: &Page) -> BTreeMap<u16, String> {
    let mut found = BTreeMap::new();
    let Some(face) = font::face() else { return found };
    for c in page.texts().flat_map(|t| t.words.chars()) {
        let id = font::glyph(c).id;
        found.entry(id).or_insert_with(|| {
            let mut outline = Outline(String::new());
            face.outline_glyph(GlyphId(id), &mut outline);
            outline.0
        });
    }
    found
}

struct Outline(String);

impl OutlineBuilder for Outline {
    fn move_to(&mut self, x: f32, y: f32) {
        put(&mut self.0, format_args!("M{x} {y}"));
    }
    fn line_to(&mut self, x: f32, y: f32) {
        put(&mut self.0, format_args!("L{x} {y}"));
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        put(&mut self.0, format_args!("Q{x1} {y1} {x} {y}"));
    }
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        put(&mut self.0, format_args!("C{x1} {y1} {x2} {y2} {x} {y}"));
    }
    fn close(&mut self) {
        self.0.push('Z');
    }
}

/// Paper millimetres to a tenth of a micrometre, without noughts at the end and without `-0`.
fn number(mm: f64) -> String {
    fixed(mm, 4)
}

fn fixed(x: f64, decimals: usize) -> String {
    let text = format!("{x:.decimals$}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" { "0".into() } else { short.into() }
}

fn escape(words: &str) -> String {
    words.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
