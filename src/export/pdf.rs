//! Sheets as PDF: true to size, lettering that can be searched and copied, the same bytes each time.
//!
//! Follows ISO 32000-1: Type 0 font with identity encoding, the used letters of the font embedded, a table from
//! letters back to text. The file asks to be printed without scaling. No clock, no random name.

use std::collections::BTreeMap;

use pdf_writer::types::{CidFontType, FontFlags, LineCapStyle, LineJoinStyle, SystemInfo, UnicodeCmap};
use pdf_writer::{Content, Filter, Finish, Name, Pdf, Rect, Ref, Str, TextStr};
use subsetter::GlyphRemapper;
use zlib_rs::{Deflate, DeflateFlush, compress_bound};

use crate::sheet::font::{self, CAPITAL, FONT, UNITS_PER_EM};
use crate::sheet::{Line, Mark, Page, Path, Point, Step, Text};
use crate::units::Angle;

/// Points of 1/72 inch in a millimetre.
const POINTS_PER_MM: f64 = 72.0 / 25.4;
/// Name of the embedded font; the six letters mark a subset (ISO 32000-1, 9.6.4).
const FONT_NAME: Name<'static> = Name(b"SETDWN+DejaVuSans");
const FONT_KEY: Name<'static> = Name(b"F");
/// Arcs are cut into pieces of at most this many degrees; a cubic curve then keeps to the circle within
/// 2e-8 of its radius.
const ARC_PIECE: f64 = 30.0;

/// How hard the streams are packed: beyond it files shrink by a hundredth, and take up to four times as long.
const LEVEL: i32 = 5;

const CATALOG: Ref = Ref::new(1);
const PAGES: Ref = Ref::new(2);
const INFO: Ref = Ref::new(3);
const FONT_REF: Ref = Ref::new(4);
const CID_FONT: Ref = Ref::new(5);
const DESCRIPTOR: Ref = Ref::new(6);
const FONT_FILE: Ref = Ref::new(7);
const TO_UNICODE: Ref = Ref::new(8);
const FIRST_PAGE: i32 = 9;

/// The letters used in a file and their numbers in the embedded font.
struct Letters {
    remapper: GlyphRemapper,
    /// What each number in the embedded font stands for, and how wide it is; the first is the letter for none.
    used: BTreeMap<u16, (char, u16)>,
    /// Numbers in the embedded font by those in the whole one; nought for a letter that is not used.
    numbers: Vec<u16>,
}

impl Letters {
    fn of(pages: &[Page]) -> Self {
        let mut letters = Self { remapper: GlyphRemapper::new(), used: BTreeMap::new(), numbers: Vec::new() };
        for c in pages.iter().flat_map(Page::texts).flat_map(|t| t.words.chars()) {
            let glyph = font::glyph(c);
            let place = usize::from(glyph.id);
            if letters.numbers.get(place).is_none_or(|number| *number == 0) {
                letters.numbers.resize(letters.numbers.len().max(place + 1), 0);
                let number = letters.remapper.remap(glyph.id);
                letters.numbers.get_mut(place).into_iter().for_each(|n| *n = number);
                letters.used.entry(number).or_insert((c, glyph.advance));
            }
        }
        letters
    }

    fn encode(&self, words: &str) -> Vec<u8> {
        let number = |c: char| self.numbers.get(usize::from(font::glyph(c).id)).copied().unwrap_or(0);
        words.chars().map(number).flat_map(u16::to_be_bytes).collect()
    }
}

/// Packs the streams of one file as ISO 32000-1, 7.4.4 wants it (zlib, RFC 1950).
struct Packer {
    deflate: Deflate,
    room: Vec<u8>,
}

impl Packer {
    fn new() -> Self {
        Self { deflate: Deflate::new(LEVEL, true, 15), room: Vec::new() }
    }

    fn pack(&mut self, bytes: &[u8]) -> &[u8] {
        self.deflate.reset();
        self.room.resize(compress_bound(bytes.len()), 0);
        // With the room that it asks for it cannot fail.
        let _ = self.deflate.compress(bytes, &mut self.room, DeflateFlush::Finish);
        self.room.get(..self.deflate.total_out() as usize).unwrap_or_default()
    }
}

/// All pages as one PDF file with that document title.
pub fn write(pages: &[Page], title: &str) -> Vec<u8> {
    let letters = Letters::of(pages);
    let (mut pdf, mut packer) = (Pdf::new(), Packer::new());
    let page_refs = (0..).map(|i| Ref::new(FIRST_PAGE + 2 * i));
    write_catalog(&mut pdf, title);
    let kids: Vec<Ref> = page_refs.take(pages.len()).collect();
    pdf.pages(PAGES).kids(kids.iter().copied()).count(i32::try_from(pages.len()).unwrap_or(i32::MAX));
    for (page, id) in pages.iter().zip(&kids) {
        write_page(&mut pdf, page, *id, &letters, &mut packer);
    }
    write_font(&mut pdf, &letters, &mut packer);
    pdf.finish()
}

fn write_catalog(pdf: &mut Pdf, title: &str) {
    let mut catalog = pdf.catalog(CATALOG);
    catalog.pages(PAGES);
    catalog.lang(TextStr("en"));
    let mut preferences = catalog.viewer_preferences();
    preferences.display_doc_title(true);
    preferences.pair(Name(b"PrintScaling"), Name(b"None"));
    preferences.finish();
    catalog.finish();
    pdf.document_info(INFO).title(TextStr(title)).producer(TextStr("setdown"));
}

fn write_page(pdf: &mut Pdf, page: &Page, id: Ref, letters: &Letters, packer: &mut Packer) {
    let contents = Ref::new(id.get() + 1);
    let size = |mm: f64| (mm * POINTS_PER_MM) as f32;
    let mut written = pdf.page(id);
    written.parent(PAGES).media_box(Rect::new(0.0, 0.0, size(page.width), size(page.height))).contents(contents);
    written.resources().fonts().pair(FONT_KEY, FONT_REF);
    written.finish();
    pdf.stream(contents, packer.pack(&page_content(page, letters))).filter(Filter::FlateDecode);
}

fn page_content(page: &Page, letters: &Letters) -> Vec<u8> {
    let mut content = Content::new();
    let scale = POINTS_PER_MM as f32;
    content.transform([scale, 0.0, 0.0, scale, 0.0, 0.0]);
    content.set_line_join(LineJoinStyle::MiterJoin).set_line_cap(LineCapStyle::ButtCap);
    let mut pen = None;
    for mark in &page.marks {
        match mark {
            Mark::Stroke(path, line, stretch) => {
                set_pen(&mut content, &mut pen, *line, *stretch);
                trace(&mut content, path);
                content.stroke();
            }
            Mark::Fill(path, shade) => {
                content.set_fill_gray(shade.level());
                trace(&mut content, path);
                content.fill_even_odd();
                content.set_fill_gray(0.0);
            }
            Mark::Text(text) => show(&mut content, text, letters),
        }
    }
    content.finish().into_vec()
}

fn set_pen(content: &mut Content, pen: &mut Option<(Line, f64)>, line: Line, stretch: f64) {
    if *pen != Some((line, stretch)) {
        *pen = Some((line, stretch));
        content.set_line_width(line.width() as f32);
        content.set_dash_pattern(line.pattern().iter().map(|d| (d * stretch) as f32), 0.0);
    }
}

fn trace(content: &mut Content, path: &Path) {
    for contour in &path.contours {
        content.move_to(contour.start.x as f32, contour.start.y as f32);
        for (from, step) in contour.pieces() {
            match step {
                Step::Line(to) => {
                    content.line_to(to.x as f32, to.y as f32);
                }
                Step::Arc { centre, sweep, .. } => trace_arc(content, from, centre, sweep),
            }
        }
        if contour.closed {
            content.close_path();
        }
    }
}

/// An arc of t degrees as a cubic curve: control points at 4/3 · tan(t/4) · r along the tangents (from memory; the
/// usual approximation, exact at the ends and in the middle).
fn trace_arc(content: &mut Content, from: Point, centre: Point, sweep: f64) {
    let (start, radius) = (centre.direction(from), centre.distance(from));
    let count = (sweep.abs() / ARC_PIECE).ceil().max(1.0);
    let piece = sweep / count;
    let handle = 4.0 / 3.0 * Angle::degrees(piece / 4.0).tan() * radius;
    for i in 0..count as usize {
        let (a, b) = (start + piece * i as f64, start + piece * (i + 1) as f64);
        let (p, q) = (centre.along(a, radius), centre.along(b, radius));
        let (c, d) = (p.along(a + 90.0, handle), q.along(b + 90.0, -handle));
        content.cubic_to(c.x as f32, c.y as f32, d.x as f32, d.y as f32, q.x as f32, q.y as f32);
    }
}

fn show(content: &mut Content, text: &Text, letters: &Letters) {
    let start = text.start();
    let (turn, size) = (Angle::degrees(text.turn), (text.height / CAPITAL) as f32);
    let (cos, sin) = (turn.cos() as f32, turn.sin() as f32);
    content.begin_text().set_font(FONT_KEY, size);
    content.set_text_matrix([cos, sin, -sin, cos, start.x as f32, start.y as f32]);
    content.show(Str(&letters.encode(&text.words))).end_text();
}

fn write_font(pdf: &mut Pdf, letters: &Letters, packer: &mut Packer) {
    let identity = SystemInfo { registry: Str(b"Adobe"), ordering: Str(b"Identity"), supplement: 0 };
    pdf.type0_font(FONT_REF)
        .base_font(FONT_NAME)
        .encoding_predefined(Name(b"Identity-H"))
        .descendant_font(CID_FONT)
        .to_unicode(TO_UNICODE);
    let mut cid = pdf.cid_font(CID_FONT);
    cid.subtype(CidFontType::Type2).base_font(FONT_NAME).system_info(identity).font_descriptor(DESCRIPTOR);
    cid.default_width(600.0).cid_to_gid_map_predefined(Name(b"Identity"));
    let mut widths = cid.widths();
    for (id, (_, advance)) in &letters.used {
        widths.consecutive(*id, [(f64::from(*advance) * 1000.0 / UNITS_PER_EM) as f32]);
    }
    widths.finish();
    cid.finish();
    write_descriptor(pdf);
    write_font_streams(pdf, letters, packer, identity);
}

fn write_descriptor(pdf: &mut Pdf) {
    let per_mille = |units: i16| f32::from(units) * 1000.0 / UNITS_PER_EM as f32;
    let Some(face) = font::face() else { return };
    let b = face.global_bounding_box();
    pdf.font_descriptor(DESCRIPTOR)
        .name(FONT_NAME)
        .flags(FontFlags::NON_SYMBOLIC)
        .bbox(Rect::new(per_mille(b.x_min), per_mille(b.y_min), per_mille(b.x_max), per_mille(b.y_max)))
        .italic_angle(0.0)
        .ascent(per_mille(face.ascender()))
        .descent(per_mille(face.descender()))
        .cap_height((CAPITAL * 1000.0) as f32)
        .stem_v(80.0)
        .font_file2(FONT_FILE);
}

fn write_font_streams(pdf: &mut Pdf, letters: &Letters, packer: &mut Packer, identity: SystemInfo<'_>) {
    // The subset cannot fail on the font that is compiled in; should it ever, the whole font is right as well as long.
    let file = subsetter::subset(FONT, 0, &letters.remapper).unwrap_or_else(|_| FONT.to_vec());
    let length = i32::try_from(file.len()).unwrap_or(i32::MAX);
    pdf.stream(FONT_FILE, packer.pack(&file)).filter(Filter::FlateDecode).pair(Name(b"Length1"), length);
    let mut cmap = UnicodeCmap::new(Name(b"Custom"), identity);
    for (id, (c, _)) in &letters.used {
        cmap.pair(*id, *c);
    }
    pdf.cmap(TO_UNICODE, &cmap.finish());
}
