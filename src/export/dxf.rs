//! DXF for the laser: 1:1, what is cut and what is marked on layers apart, unit always stated.
//!
//! Only closed polylines with true arcs (as bulges), circles and lines; ASCII, CRLF, no clock, no random numbers.
//! The release is R2000 (AC1015) unless R12 (AC1009) is asked for. R12 has no unit variable; it is written
//! nevertheless, as readers honour it and others pass over it.

use std::fmt::Display;

use super::plain;
use crate::shape::{Circle, Contour, Cutting, Mark, Point};
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

/// Bytes of the DXF file.
pub fn dxf(cutting: &Cutting, options: Options) -> Vec<u8> {
    let mut body = Writer::new(options);
    match options.release {
        Release::R2000 => sections_2000(&mut body, cutting),
        Release::R12 => sections_12(&mut body, cutting),
    }
    body.pair(0, "EOF");
    let mut head = Writer::new(options);
    head.header(cutting, body.next_handle);
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

    fn header(&mut self, cutting: &Cutting, seed: u32) {
        let (box_, inch) = (cutting.outer().extents(), self.options.unit == LengthUnit::Inch);
        let version = if self.modern() { "AC1015" } else { "AC1009" };
        self.pairs(&[(0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, version)]);
        self.pairs(&[(9, "$DWGCODEPAGE"), (3, "ANSI_1252"), (9, "$INSUNITS"), (70, if inch { "1" } else { "4" })]);
        self.pairs(&[(9, "$MEASUREMENT"), (70, if inch { "0" } else { "1" }), (9, "$LUNITS"), (70, "2")]);
        self.pair(9, "$EXTMIN");
        self.point(10, box_.least, true);
        self.pair(9, "$EXTMAX");
        self.point(10, box_.greatest, true);
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
        if self.modern() {
            self.entity("LWPOLYLINE", CUT_LAYER, "AcDbPolyline");
            self.pair(90, contour.segments().len());
            self.pair(70, 1);
            contour.segments().iter().for_each(|s| self.corner(s.from, s.bulge));
        } else {
            self.entity("POLYLINE", CUT_LAYER, "");
            self.pairs(&[(66, "1"), (70, "1")]);
            self.point(10, Point::ORIGIN, true);
            for s in contour.segments() {
                self.entity("VERTEX", CUT_LAYER, "");
                self.corner(s.from, s.bulge);
            }
            self.entity("SEQEND", CUT_LAYER, "");
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
    fn entities(&mut self, cutting: &Cutting) {
        self.outline(cutting.outer());
        cutting.holes().iter().for_each(|hole| self.outline(hole));
        cutting.marks().iter().for_each(|mark| self.mark(mark));
    }
}

fn linetype(w: &mut Writer, name: &str) {
    let solid = if name.eq_ignore_ascii_case("CONTINUOUS") { "Solid line" } else { "" };
    w.pairs(&[(70, "0"), (3, solid), (72, "65"), (73, "0"), (40, "0.0")]);
}

fn layer(w: &mut Writer, name: &str) {
    let colour = if name == MARK_LAYER { "5" } else { "7" };
    w.pairs(&[(70, "0"), (62, colour), (6, "CONTINUOUS")]);
}

fn text_style(w: &mut Writer, _: &str) {
    w.pairs(&[(70, "0"), (40, "0.0"), (41, "1.0"), (50, "0.0"), (71, "0"), (42, "2.5"), (3, "txt"), (4, "")]);
}

/// The view that a reader opens with: the part in the middle, a tenth to spare.
fn viewport(w: &mut Writer, cutting: &Cutting) {
    let e = cutting.outer().extents();
    let middle = e.least.plus(e.greatest).times(0.5);
    w.pair(70, 0);
    w.pairs(&[(10, "0.0"), (20, "0.0"), (11, "1.0"), (21, "1.0")]);
    w.point(12, middle, false);
    w.pairs(&[(13, "0.0"), (23, "0.0"), (14, "10.0"), (24, "10.0"), (15, "10.0"), (25, "10.0")]);
    w.pairs(&[(16, "0.0"), (26, "0.0"), (36, "1.0"), (17, "0.0"), (27, "0.0"), (37, "0.0")]);
    w.length(40, 1.1 * e.height().as_mm().max(e.width().as_mm()));
    w.pairs(&[(41, "1.0"), (42, "50.0"), (43, "0.0"), (44, "0.0"), (50, "0.0"), (51, "0.0")]);
    w.pairs(&[(71, "0"), (72, "100"), (73, "1"), (74, "3"), (75, "0"), (76, "0"), (77, "0"), (78, "0")]);
}

fn sections_12(w: &mut Writer, cutting: &Cutting) {
    w.section("TABLES", |w| {
        w.table("VPORT", "", &["*ACTIVE"], |w, _| viewport(w, cutting));
        w.table("LTYPE", "", &["CONTINUOUS"], linetype);
        w.table("LAYER", "", &["0", CUT_LAYER, MARK_LAYER], layer);
        w.table("STYLE", "", &["STANDARD"], text_style);
    });
    w.section("BLOCKS", |_| {});
    w.section("ENTITIES", |w| w.entities(cutting));
}

fn sections_2000(w: &mut Writer, cutting: &Cutting) {
    w.section("CLASSES", |_| {});
    w.section("TABLES", |w| {
        w.table("VPORT", "AcDbViewportTableRecord", &["*Active"], |w, _| viewport(w, cutting));
        w.table("LTYPE", "AcDbLinetypeTableRecord", &["ByBlock", "ByLayer", "Continuous"], linetype);
        w.table("LAYER", "AcDbLayerTableRecord", &["0", CUT_LAYER, MARK_LAYER], layer);
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
    w.section("ENTITIES", |w| w.entities(cutting));
    w.section("OBJECTS", |w| objects(w, cutting));
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

fn objects(w: &mut Writer, cutting: &Cutting) {
    dictionary(w, handle::ROOT, 0, &[("ACAD_GROUP", handle::GROUPS), ("ACAD_LAYOUT", handle::LAYOUTS)]);
    dictionary(w, handle::GROUPS, handle::ROOT, &[]);
    let layouts = [("Model", handle::MODEL_LAYOUT), ("Layout1", handle::PAPER_LAYOUT)];
    dictionary(w, handle::LAYOUTS, handle::ROOT, &layouts);
    layout(w, cutting, "Model", handle::MODEL_LAYOUT, handle::MODEL);
    layout(w, cutting, "Layout1", handle::PAPER_LAYOUT, handle::PAPER);
}

fn layout(w: &mut Writer, cutting: &Cutting, name: &str, own: u32, space: u32) {
    let (e, model) = (cutting.outer().extents(), space == handle::MODEL);
    w.pair(0, "LAYOUT");
    w.handle(5, own);
    w.handle(330, handle::LAYOUTS);
    w.pairs(&[(100, "AcDbPlotSettings"), (1, ""), (2, "none_device"), (4, ""), (6, "")]);
    (40..50).for_each(|code| w.pair(code, "0.0"));
    w.pairs(&[(140, "0.0"), (141, "0.0"), (142, "1.0"), (143, "1.0"), (70, if model { "1024" } else { "0" })]);
    w.pairs(&[(72, "1"), (73, "0"), (74, "5"), (7, ""), (75, "16"), (147, "1.0"), (148, "0.0"), (149, "0.0")]);
    w.pairs(&[(100, "AcDbLayout"), (1, name), (70, "1"), (71, if model { "0" } else { "1" })]);
    w.pairs(&[(10, "0.0"), (20, "0.0"), (11, "420.0"), (21, "297.0"), (12, "0.0"), (22, "0.0"), (32, "0.0")]);
    let (least, greatest) = if model { (e.least, e.greatest) } else { (Point::ORIGIN, Point::ORIGIN) };
    w.point(14, least, true);
    w.point(15, greatest, true);
    w.pairs(&[(146, "0.0"), (13, "0.0"), (23, "0.0"), (33, "0.0"), (16, "1.0"), (26, "0.0"), (36, "0.0")]);
    w.pairs(&[(17, "0.0"), (27, "1.0"), (37, "0.0"), (76, "0")]);
    w.handle(330, space);
}
