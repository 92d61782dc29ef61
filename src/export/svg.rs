//! Sheets as SVG: looks the same in every viewer, since the letters are drawn as outlines; the words lie over them
//! unseen, so that they can be searched and copied. White paper is drawn first.

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::fmt::Write;
use std::sync::OnceLock;

use ttf_parser::{GlyphId, OutlineBuilder};

use super::digits::Digits;
use crate::sheet::font::{self, CAPITAL, UNITS_PER_EM};
use crate::sheet::{Mark, Page, Path, Point, Shade, Step, Text};

/// Paper millimetres are written to a tenth of a micrometre.
const DECIMALS: usize = 4;

/// One page as an SVG file.
pub fn write(page: &Page) -> String {
    let mut out = Drawn { out: String::new(), height: page.height };
    out.head(page);
    for mark in &page.marks {
        out.mark(mark);
    }
    out.out.push_str("</g>\n</svg>\n");
    out.out
}

/// An SVG file that grows; its y runs downwards from the height of the page.
struct Drawn {
    out: String,
    height: f64,
}

impl Drawn {
    fn put(&mut self, words: &str) {
        self.out.push_str(words);
    }

    /// Paper millimetres.
    fn number(&mut self, mm: f64) {
        self.out.fixed(mm, DECIMALS);
    }

    /// A place on paper, with what stands before it.
    fn place(&mut self, before: &str, p: Point) {
        self.put(before);
        self.number(p.x);
        self.put(" ");
        self.number(self.height - p.y);
    }

    fn head(&mut self, page: &Page) {
        let (mut w, mut h) = (String::new(), String::new());
        w.fixed(page.width, DECIMALS);
        h.fixed(page.height, DECIMALS);
        // Writing into a string cannot fail.
        let _ = write!(
            self.out,
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\">\n\
             <title>{}</title>\n<defs>\n",
            escape(&page.title)
        );
        let used: BTreeSet<u16> = page.texts().flat_map(|t| t.words.chars()).map(|c| font::glyph(c).id).collect();
        for id in used {
            self.put("<path id=\"g");
            self.out.whole(u32::from(id));
            self.put("\" d=\"");
            self.put(outline(id));
            self.put("\"/>\n");
        }
        let _ = writeln!(self.out, "</defs>\n<rect width=\"{w}\" height=\"{h}\" fill=\"#fff\"/>");
        self.put("<g fill=\"none\" stroke=\"#000\">\n");
    }

    fn mark(&mut self, mark: &Mark) {
        match mark {
            Mark::Stroke(path, line, stretch) => {
                self.put("<path d=\"");
                self.path(path);
                self.put("\" stroke-width=\"");
                self.number(line.width());
                for (i, dash) in line.pattern().iter().enumerate() {
                    self.put(if i == 0 { "\" stroke-dasharray=\"" } else { " " });
                    self.number(dash * stretch);
                }
                self.put("\"/>\n");
            }
            Mark::Fill(path, shade) => {
                self.put("<path d=\"");
                self.path(path);
                self.put("\" fill=\"");
                self.put(colour(*shade));
                self.put("\" fill-rule=\"evenodd\" stroke=\"none\"/>\n");
            }
            Mark::Text(text) => self.text(text),
        }
    }

    fn text(&mut self, text: &Text) {
        if text.words.trim().is_empty() {
            return;
        }
        let size = text.height / CAPITAL;
        self.place("<g fill=\"#000\" stroke=\"none\" transform=\"translate(", text.start());
        self.put(")");
        if text.turn != 0.0 {
            self.put(" rotate(");
            self.number(-text.turn);
            self.put(")");
        }
        for before in ["\"><g transform=\"scale(", " -"] {
            self.put(before);
            self.out.fixed(size / UNITS_PER_EM, 7);
        }
        self.put(")\">");
        self.letters(&text.words);
        self.put("</g><text font-size=\"");
        self.number(size);
        self.put("\" fill-opacity=\"0\" textLength=\"");
        self.number(text.width());
        self.put("\" xml:space=\"preserve\">");
        self.put(&escape(&text.words));
        self.put("</text></g>\n");
    }

    fn letters(&mut self, words: &str) {
        let mut along = 0_u32;
        for c in words.chars() {
            let glyph = font::glyph(c);
            if !c.is_whitespace() {
                self.put("<use href=\"#g");
                self.out.whole(u32::from(glyph.id));
                self.put("\" x=\"");
                self.out.whole(along);
                self.put("\"/>");
            }
            along += u32::from(glyph.advance);
        }
    }

    fn path(&mut self, path: &Path) {
        for contour in &path.contours {
            self.place("M", contour.start);
            for (from, step) in contour.pieces() {
                match step {
                    Step::Line(to) => self.place("L", to),
                    Step::Arc { centre, sweep, to } => {
                        let radius = centre.distance(from);
                        for before in ["A", " "] {
                            self.put(before);
                            self.number(radius);
                        }
                        self.put(if sweep.abs() > 180.0 { " 0 1" } else { " 0 0" });
                        self.place(if sweep < 0.0 { " 1 " } else { " 0 " }, to);
                    }
                }
            }
            if contour.closed {
                self.put("Z");
            }
        }
    }
}

fn colour(shade: Shade) -> &'static str {
    match shade {
        Shade::Black => "#000",
        Shade::White => "#fff",
        Shade::Grey => "#d9d9d9",
    }
}

/// The outline of a letter by its number in the font; each is drawn once in a run.
fn outline(id: u16) -> &'static str {
    static OUTLINES: OnceLock<Vec<OnceLock<String>>> = OnceLock::new();
    let Some(face) = font::face() else { return "" };
    let all = OUTLINES.get_or_init(|| (0..face.number_of_glyphs()).map(|_| OnceLock::new()).collect());
    let drawn = || {
        let mut outline = Outline(String::new());
        face.outline_glyph(GlyphId(id), &mut outline);
        outline.0
    };
    all.get(usize::from(id)).map_or("", |cell| cell.get_or_init(drawn))
}

struct Outline(String);

impl Outline {
    fn step(&mut self, kind: char, numbers: &[f32]) {
        self.0.push(kind);
        for (i, x) in numbers.iter().enumerate() {
            if i > 0 {
                self.0.push(' ');
            }
            // A font's points are whole, and those between them halves.
            if (x * 2.0).fract() == 0.0 {
                self.0.fixed(f64::from(*x), 1);
            } else {
                let _ = write!(self.0, "{x}");
            }
        }
    }
}

impl OutlineBuilder for Outline {
    fn move_to(&mut self, x: f32, y: f32) {
        self.step('M', &[x, y]);
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.step('L', &[x, y]);
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.step('Q', &[x1, y1, x, y]);
    }
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.step('C', &[x1, y1, x2, y2, x, y]);
    }
    fn close(&mut self) {
        self.0.push('Z');
    }
}

fn escape(words: &str) -> Cow<'_, str> {
    if words.contains(['&', '<', '>', '"']) {
        words.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;").into()
    } else {
        words.into()
    }
}
