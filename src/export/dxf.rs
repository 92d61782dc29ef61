//! DXF for the laser: 1:1, what is cut and what is marked on layers apart, unit always stated.
//!
//! Only closed polylines with true arcs (as bulges), circles and lines; ASCII, CRLF, no clock, no random numbers.
//! The release is R2000 (AC1015) unless R12 (AC1009) is asked for. R12 has no unit variable; it is written
//! nevertheless, as readers honour it and others pass over it.

use std::fmt::Display;

use super::plain;
use crate::shape::{Circle, Contour, Cutting, Mark, Point, Segment};
use crate::units::LengthUnit;

/// Release of the format.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Release {
    /// AC1015.
    #[default]
    R2000,
    /// AC1009.
    R12,
}

/// How the file is written.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Options {
    /// Release of the format.
    pub release: Release,
    /// Unit of the numbers in the file.
    pub unit: LengthUnit,
}

/// Layer of everything that is cut through; colour 7.
pub const CUT_LAYER: &str = "CUT";
/// Layer of everything that is only marked; colour 5.
pub const MARK_LAYER: &str = "MARK";
/// Layer of lines to bend along; colour 3.
pub const BEND_LAYER: &str = "BEND";

/// Handles of the fixed records, so that owners can name each other before they are written.
mod handle {
    pub const BLOCK_RECORDS: u32 = 0x01;
    pub const MODEL: u32 = 0x02;
    pub const PAPER: u32 = 0x03;
    pub const ROOT: u32 = 0x04;
    pub const LAYOUTS: u32 = 0x05;
    pub const MODEL_LAYOUT: u32 = 0x06;
    pub const PAPER_LAYOUT: u32 = 0x07;
    pub const GROUPS: u32 = 0x08;
    pub const FIRST_FREE: u32 = 0x10;
}

/// What a file holds.
#[derive(Clone, Debug, Default)]
pub struct Content<'a> {
    /// Outlines to cut, parts before their holes.
    pub cut: Vec<&'a Contour>,
    /// Marks to engrave.
    pub marks: &'a [Mark],
    /// Lines to engrave or to bend along.
    pub lines: Vec<Lines<'a>>,
}

/// A run of edges that is not cut.
#[derive(Clone, Copy, Debug)]
pub struct Lines<'a> {
    /// Its layer: [`MARK_LAYER`] or [`BEND_LAYER`].
    pub layer: &'static str,
    /// Its edges end to end.
    pub edges: &'a [Segment],
    /// Its end is its beginning.
    pub closed: bool,
}

impl Content<'_> {
    fn extents(&self) -> (Point, Point) {
        let boxes = self.cut.iter().map(|c| (c.extents().least(), c.extents().greatest()));
        let around = |(a, b): (Point, Point), (c, d): (Point, Point)| {
            (Point::mm(a.x.min(c.x), a.y.min(c.y)), Point::mm(b.x.max(d.x), b.y.max(d.y)))
        };
        boxes.reduce(around).unwrap_or((Point::ORIGIN, Point::ORIGIN))
    }

    fn layers(&self) -> Vec<&'static str> {
        let bends = self.lines.iter().any(|l| l.layer == BEND_LAYER);
        ["0", CUT_LAYER, MARK_LAYER].into_iter().chain(bends.then_some(BEND_LAYER)).collect()
    }
}

/// Bytes of the DXF file of a cutting.
pub fn dxf(cutting: &Cutting, options: Options) -> Vec<u8> {
    let cut = [cutting.outer()].into_iter().chain(cutting.holes()).collect();
    write(&Content { cut, marks: cutting.marks(), lines: Vec::new() }, options)
}

/// Bytes of the DXF file.
pub fn write(content: &Content, options: Options) -> Vec<u8> {
    let mut body = Writer::new(options);
    match options.release {
        Release::R2000 => sections_2000(&mut body, content),
        Release::R12 => sections_12(&mut body, content),
    }
    body.pair(0, "EOF");
    let mut head = Writer::new(options);
    head.header(content, body.next_handle);
    (head.text + &body.text).into_bytes()
}

/// Group codes and values, one a line.
struct Writer {
    text: String,
    next_handle: u32,
    options: Options,
}

impl Writer {
    fn new(options: Options) -> Self {
        Self { text: String::new(), next_handle: handle::FIRST_FREE, options }
    }
    fn modern(&self) -> bool {
        self.options.release == Release::R2000
    }
    fn pair(&mut self, code: u16, value: impl Display) {
        self.text.push_str(&format!("{code:>3}\r\n{value}\r\n"));
    }
    fn pairs(&mut self, pairs: &[(u16, &str)]) {
        pairs.iter().for_each(|(code, value)| self.pair(*code, value));
    }
    /// A length in the file's unit.
    fn length(&mut self, code: u16, mm: f64) {
        let value = match self.options.unit {
            LengthUnit::Mm => mm,
            LengthUnit::Inch => mm / crate::units::MM_PER_INCH,
        };
        self.pair(code, plain(value));
    }
    fn point(&mut self, code: u16, p: Point, with_z: bool) {
        self.length(code, p.x);
        self.length(code + 10, p.y);
        if with_z {
            self.length(code + 20, 0.0);
        }
    }
    fn handle(&mut self, code: u16, handle: u32) {
        self.pair(code, format!("{handle:X}"));
    }
    fn free(&mut self) -> u32 {
        self.next_handle += 1;
        self.next_handle - 1
    }
    fn subclass(&mut self, names: &[&str]) {
        if self.modern() {
            names.iter().for_each(|name| self.pair(100, name));
        }
    }
    fn section(&mut self, name: &str, fill: impl FnOnce(&mut Self)) {
        self.pairs(&[(0, "SECTION"), (2, name)]);
        fill(self);
        self.pair(0, "ENDSEC");
    }

    fn header(&mut self, content: &Content, seed: u32) {
        let ((least, greatest), inch) = (content.extents(), self.options.unit == LengthUnit::Inch);
        let version = if self.modern() { "AC1015" } else { "AC1009" };
        self.pairs(&[(0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, version)]);
        self.pairs(&[(9, "$DWGCODEPAGE"), (3, "ANSI_1252"), (9, "$INSUNITS"), (70, if inch { "1" } else { "4" })]);
        self.pairs(&[(9, "$MEASUREMENT"), (70, if inch { "0" } else { "1" }), (9, "$LUNITS"), (70, "2")]);
        self.pair(9, "$EXTMIN");
        self.point(10, least, true);
        self.pair(9, "$EXTMAX");
        self.point(10, greatest, true);
        if !self.modern() {
            self.pairs(&[(9, "$HANDLING"), (70, "1")]);
        }
        self.pair(9, "$HANDSEED");
        self.handle(5, seed);
        self.pair(0, "ENDSEC");
    }

    /// A symbol table with its records; each record gets its own group codes from `fill`.
    fn table(&mut self, name: &str, class: &str, records: &[&str], fill: impl Fn(&mut Self, &str)) {
        self.pairs(&[(0, "TABLE"), (2, name)]);
        let own = if name == "BLOCK_RECORD" { handle::BLOCK_RECORDS } else { self.free() };
        if self.modern() {
            self.handle(5, own);
            self.pair(330, "0");
            self.pair(100, "AcDbSymbolTable");
        }
        self.pair(70, records.len());
        if self.modern() && name == "DIMSTYLE" {
            self.pair(100, "AcDbDimStyleTable");
        }
        for record in records {
            self.pair(0, name);
            let here = match *record {
                "*Model_Space" => handle::MODEL,
                "*Paper_Space" => handle::PAPER,
                _ => self.free(),
            };
            self.handle(if name == "DIMSTYLE" { 105 } else { 5 }, here);
            if self.modern() {
                self.handle(330, own);
            }
            self.subclass(&["AcDbSymbolTableRecord", class]);
            self.pair(2, record);
            fill(self, record);
        }
        self.pair(0, "ENDTAB");
    }

    fn entity(&mut self, kind: &str, layer: &str, class: &str) {
        self.pair(0, kind);
        let here = self.free();
        self.handle(5, here);
        if self.modern() {
            self.handle(330, handle::MODEL);
        }
        self.subclass(&["AcDbEntity"]);
        self.pair(8, layer);
        self.subclass(&[class]);
    }
    fn circle(&mut self, circle: &Circle, layer: &str) {
        self.entity("CIRCLE", layer, "AcDbCircle");
        self.point(10, circle.centre, true);
        self.length(40, circle.diameter / 2.0);
    }
    fn line(&mut self, from: Point, to: Point, layer: &str) {
        self.entity("LINE", layer, "AcDbLine");
        self.point(10, from, true);
        self.point(11, to, true);
    }
    fn corner(&mut self, p: Point, bulge: f64) {
        self.point(10, p, !self.modern());
        if bulge != 0.0 {
            self.pair(42, plain(bulge));
        }
    }
    /// One closed polyline; a circle stays a circle.
    fn outline(&mut self, contour: &Contour) {
        if let Some(circle) = contour.as_circle() {
            return self.circle(&circle, CUT_LAYER);
        }
        self.lines(&Lines { layer: CUT_LAYER, edges: contour.segments(), closed: true });
    }
    /// One polyline, with a last corner of its own where it is open.
    fn lines(&mut self, lines: &Lines) {
        let last = lines.edges.last().filter(|_| !lines.closed).map(|s| (s.to, 0.0));
        let corners: Vec<(Point, f64)> = lines.edges.iter().map(|s| (s.from, s.bulge)).chain(last).collect();
        let closed = u8::from(lines.closed);
        if self.modern() {
            self.entity("LWPOLYLINE", lines.layer, "AcDbPolyline");
            self.pair(90, corners.len());
            self.pair(70, closed);
            corners.iter().for_each(|(p, bulge)| self.corner(*p, *bulge));
        } else {
            self.entity("POLYLINE", lines.layer, "");
            self.pair(66, 1);
            self.pair(70, closed);
            self.point(10, Point::ORIGIN, true);
            for (p, bulge) in corners {
                self.entity("VERTEX", lines.layer, "");
                self.corner(p, bulge);
            }
            self.entity("SEQEND", lines.layer, "");
        }
    }
    fn mark(&mut self, mark: &Mark) {
        match mark {
            Mark::Circle(circle) => self.circle(circle, MARK_LAYER),
            Mark::Line { from, to } => self.line(*from, *to, MARK_LAYER),
            Mark::Cross { centre, size } => {
                let half = size.as_mm() / 2.0;
                for arm in [Point::mm(half, 0.0), Point::mm(0.0, half)] {
                    self.line(centre.minus(arm), centre.plus(arm), MARK_LAYER);
                }
            }
        }
    }
    fn entities(&mut self, content: &Content) {
        content.cut.iter().for_each(|contour| self.outline(contour));
        content.marks.iter().for_each(|mark| self.mark(mark));
        content.lines.iter().for_each(|lines| self.lines(lines));
    }
}

fn linetype(w: &mut Writer, name: &str) {
    let solid = if name.eq_ignore_ascii_case("CONTINUOUS") { "Solid line" } else { "" };
    w.pairs(&[(70, "0"), (3, solid), (72, "65"), (73, "0"), (40, "0.0")]);
}

fn layer(w: &mut Writer, name: &str) {
    let colour = match name {
        MARK_LAYER => "5",
        BEND_LAYER => "3",
        _ => "7",
    };
    w.pairs(&[(70, "0"), (62, colour), (6, "CONTINUOUS")]);
}

fn text_style(w: &mut Writer, _: &str) {
    w.pairs(&[(70, "0"), (40, "0.0"), (41, "1.0"), (50, "0.0"), (71, "0"), (42, "2.5"), (3, "txt"), (4, "")]);
}

/// The view that a reader opens with: the part in the middle, a tenth to spare.
fn viewport(w: &mut Writer, content: &Content) {
    let (least, greatest) = content.extents();
    let middle = least.plus(greatest).times(0.5);
    w.pair(70, 0);
    w.pairs(&[(10, "0.0"), (20, "0.0"), (11, "1.0"), (21, "1.0")]);
    w.point(12, middle, false);
    w.pairs(&[(13, "0.0"), (23, "0.0"), (14, "10.0"), (24, "10.0"), (15, "10.0"), (25, "10.0")]);
    w.pairs(&[(16, "0.0"), (26, "0.0"), (36, "1.0"), (17, "0.0"), (27, "0.0"), (37, "0.0")]);
    w.length(40, 1.1 * (greatest.y - least.y).max(greatest.x - least.x));
    w.pairs(&[(41, "1.0"), (42, "50.0"), (43, "0.0"), (44, "0.0"), (50, "0.0"), (51, "0.0")]);
    w.pairs(&[(71, "0"), (72, "100"), (73, "1"), (74, "3"), (75, "0"), (76, "0"), (77, "0"), (78, "0")]);
}

fn sections_12(w: &mut Writer, content: &Content) {
    w.section("TABLES", |w| {
        w.table("VPORT", "", &["*ACTIVE"], |w, _| viewport(w, content));
        w.table("LTYPE", "", &["CONTINUOUS"], linetype);
        w.table("LAYER", "", &content.layers(), layer);
        w.table("STYLE", "", &["STANDARD"], text_style);
    });
    w.section("BLOCKS", |_| {});
    w.section("ENTITIES", |w| w.entities(content));
}

fn sections_2000(w: &mut Writer, content: &Content) {
    w.section("CLASSES", |_| {});
    w.section("TABLES", |w| {
        w.table("VPORT", "AcDbViewportTableRecord", &["*Active"], |w, _| viewport(w, content));
        w.table("LTYPE", "AcDbLinetypeTableRecord", &["ByBlock", "ByLayer", "Continuous"], linetype);
        w.table("LAYER", "AcDbLayerTableRecord", &content.layers(), layer);
        w.table("STYLE", "AcDbTextStyleTableRecord", &["Standard"], text_style);
        w.table("VIEW", "", &[], |_, _| {});
        w.table("UCS", "", &[], |_, _| {});
        w.table("APPID", "AcDbRegAppTableRecord", &["ACAD"], |w, _| w.pair(70, 0));
        w.table("DIMSTYLE", "AcDbDimStyleTableRecord", &["Standard"], |w, _| w.pair(70, 0));
        w.table("BLOCK_RECORD", "AcDbBlockTableRecord", &["*Model_Space", "*Paper_Space"], |w, name| {
            w.handle(340, if name == "*Model_Space" { handle::MODEL_LAYOUT } else { handle::PAPER_LAYOUT });
        });
    });
    w.section("BLOCKS", |w| {
        block(w, "*Model_Space", handle::MODEL);
        block(w, "*Paper_Space", handle::PAPER);
    });
    w.section("ENTITIES", |w| w.entities(content));
    w.section("OBJECTS", |w| objects(w, content));
}

/// An empty block: model space and paper space must be there.
fn block(w: &mut Writer, name: &str, owner: u32) {
    for (kind, class) in [("BLOCK", "AcDbBlockBegin"), ("ENDBLK", "AcDbBlockEnd")] {
        w.pair(0, kind);
        let here = w.free();
        w.handle(5, here);
        w.handle(330, owner);
        w.pair(100, "AcDbEntity");
        if owner == handle::PAPER {
            w.pair(67, 1);
        }
        w.pairs(&[(8, "0"), (100, class)]);
        if kind == "BLOCK" {
            w.pairs(&[(2, name), (70, "0"), (10, "0.0"), (20, "0.0"), (30, "0.0"), (3, name), (1, "")]);
        }
    }
}

fn dictionary(w: &mut Writer, own: u32, owner: u32, entries: &[(&str, u32)]) {
    w.pair(0, "DICTIONARY");
    w.handle(5, own);
    w.handle(330, owner);
    w.pairs(&[(100, "AcDbDictionary"), (281, "1")]);
    for (name, handle) in entries {
        w.pair(3, name);
        w.handle(350, *handle);
    }
}

fn objects(w: &mut Writer, content: &Content) {
    dictionary(w, handle::ROOT, 0, &[("ACAD_GROUP", handle::GROUPS), ("ACAD_LAYOUT", handle::LAYOUTS)]);
    dictionary(w, handle::GROUPS, handle::ROOT, &[]);
    let layouts = [("Model", handle::MODEL_LAYOUT), ("Layout1", handle::PAPER_LAYOUT)];
    dictionary(w, handle::LAYOUTS, handle::ROOT, &layouts);
    layout(w, content, "Model", handle::MODEL_LAYOUT, handle::MODEL);
    layout(w, content, "Layout1", handle::PAPER_LAYOUT, handle::PAPER);
}

fn layout(w: &mut Writer, content: &Content, name: &str, own: u32, space: u32) {
    let (all, model) = (content.extents(), space == handle::MODEL);
    w.pair(0, "LAYOUT");
    w.handle(5, own);
    w.handle(330, handle::LAYOUTS);
    w.pairs(&[(100, "AcDbPlotSettings"), (1, ""), (2, "none_device"), (4, ""), (6, "")]);
    (40..50).for_each(|code| w.pair(code, "0.0"));
    w.pairs(&[(140, "0.0"), (141, "0.0"), (142, "1.0"), (143, "1.0"), (70, if model { "1024" } else { "0" })]);
    w.pairs(&[(72, "1"), (73, "0"), (74, "5"), (7, ""), (75, "16"), (147, "1.0"), (148, "0.0"), (149, "0.0")]);
    w.pairs(&[(100, "AcDbLayout"), (1, name), (70, "1"), (71, if model { "0" } else { "1" })]);
    w.pairs(&[(10, "0.0"), (20, "0.0"), (11, "420.0"), (21, "297.0"), (12, "0.0"), (22, "0.0"), (32, "0.0")]);
    let (least, greatest) = if model { all } else { (Point::ORIGIN, Point::ORIGIN) };
    w.point(14, least, true);
    w.point(15, greatest, true);
    w.pairs(&[(146, "0.0"), (13, "0.0"), (23, "0.0"), (33, "0.0"), (16, "1.0"), (26, "0.0"), (36, "0.0")]);
    w.pairs(&[(17, "0.0"), (27, "1.0"), (37, "0.0"), (76, "0")]);
    w.handle(330, space);
}
