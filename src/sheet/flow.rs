//! Sheets filled from top to bottom: headings, sentences, tables; a new sheet whenever the last one is full.

use crate::sheet::SMALL;
use crate::sheet::area::{Area, Point};
use crate::sheet::content::{Content, Style};
use crate::sheet::label::SIZE;
use crate::sheet::table::{Cell, Row};
use crate::sheet::{Anchor, Line, Mark, Page, Path, Text, font, title_block};

/// Height of one line of running text, in heights of its capitals.
const LINE: f64 = 1.75;

/// Height of a heading, mm.
const HEADING: f64 = 5.0;

/// How far the words of a step stand in, mm.
const STEP_INDENT: f64 = 44.0;

/// The same in small lettering.
const STEP_DENSE: f64 = 26.0;

/// Words broken into lines.
pub struct Paragraph {
    lines: Vec<String>,
    /// Height of a line, in heights of its capitals.
    line: f64,
    /// Height of its capitals, mm.
    height: f64,
    indent: f64,
}

impl Paragraph {
    /// Height of all its lines, mm.
    fn whole(&self) -> f64 {
        self.lines.len() as f64 * self.height * self.line
    }
}

/// A pile of sheets that grows.
pub struct Flow<'a> {
    content: &'a Content,
    style: &'a Style,
    pages: Vec<Page>,
    room: Area,
    /// Height at which the next thing begins.
    y: f64,
    heading: String,
    /// Small lettering and little room between things.
    dense: bool,
}

impl<'a> Flow<'a> {
    /// No sheet yet.
    pub fn new(content: &'a Content, style: &'a Style) -> Self {
        Self { content, style, pages: Vec::new(), room: Area::EMPTY, y: 0.0, heading: String::new(), dense: false }
    }

    /// The same in small lettering.
    pub fn dense(self) -> Self {
        Self { dense: true, ..self }
    }

    /// Whether it is in small lettering.
    pub fn is_dense(&self) -> bool {
        self.dense
    }

    /// Height of running text, mm.
    pub fn size(&self) -> f64 {
        if self.dense { SMALL } else { SIZE }
    }

    /// How far what belongs to a step stands in, mm.
    pub fn indent(&self) -> f64 {
        if self.dense { STEP_DENSE } else { 16.0 }
    }

    /// In small lettering, so many of the cells after the first without the other unit under them; that stands among the
    /// reasons.
    pub fn lean(&self, mut cells: Vec<Cell>, count: usize) -> Vec<Cell> {
        if self.dense {
            cells.iter_mut().take(count + 1).for_each(|cell| cell.0.truncate(1));
            cells.iter_mut().flat_map(|cell| &mut cell.0).for_each(|(_, height)| *height = SMALL);
        }
        cells
    }

    /// Height of a line, in heights of its capitals.
    fn line(&self) -> f64 {
        if self.dense { 1.5 } else { LINE }
    }

    /// Height of a heading, mm.
    fn head(&self) -> f64 {
        if self.dense { SIZE } else { HEADING }
    }

    /// Least height of a row to write in, mm.
    pub fn writing(&self, usual: f64) -> f64 {
        if self.dense { usual * 0.65 } else { usual }
    }

    /// The finished sheets.
    pub fn finish(self) -> Vec<Page> {
        self.pages
    }

    /// Width for tables and text, mm.
    pub fn width(&self) -> f64 {
        self.style.paper.size().0 - title_block::LEFT - title_block::MARGIN - 6.0
    }

    /// Makes sure that so much height is left, or starts a sheet; true when it did.
    pub fn need(&mut self, height: f64) -> bool {
        if !self.pages.is_empty() && self.y - height >= self.room.bottom {
            return false;
        }
        let (w, h) = self.style.paper.size();
        let mut page = Page::new(w, h, self.content.name.as_str());
        let frame = title_block::slim(&mut page, self.content, false);
        self.pages.push(page);
        self.room =
            Area { left: frame.left + 3.0, right: frame.right - 3.0, bottom: frame.bottom + 2.0, top: frame.top - 3.0 };
        self.y = self.room.top;
        if !self.heading.is_empty() {
            let again = format!("{} (continued)", self.heading);
            self.draw_heading(&again);
        }
        true
    }

    fn put(&mut self, marks: impl IntoIterator<Item = Mark>) {
        if let Some(page) = self.pages.last_mut() {
            page.marks.extend(marks);
        }
    }

    /// A heading, with at least so much room for what follows.
    pub fn heading(&mut self, words: &str, with: f64) {
        self.heading.clear();
        let lines = font::wrap(words, self.head(), self.width()).len() as f64;
        self.need(lines * self.head() * 1.5 + 8.0 + with);
        self.draw_heading(words);
        self.heading = words.into();
    }

    fn draw_heading(&mut self, words: &str) {
        let (left, right) = (self.room.left, self.room.right);
        self.y -= if self.dense { 1.0 } else { 3.0 };
        for line in font::wrap(words, self.head(), self.width()) {
            self.y -= self.head() * 1.5;
            let at = Point::new(left, self.y);
            self.put([Mark::Text(Text::new(at, self.head(), line))]);
        }
        let (from, to) = (Point::new(left, self.y - 2.2), Point::new(right, self.y - 2.2));
        self.put([Mark::line(from, to, Line::Wide)]);
        self.y -= if self.dense { 3.5 } else { 5.0 };
    }

    /// Words broken to the lines of running text, with an indent.
    pub fn paragraph(&self, words: &str, height: f64, indent: f64) -> Paragraph {
        Paragraph { lines: font::wrap(words, height, self.width() - indent), line: self.line(), height, indent }
    }

    /// Words as running text, with an indent; a short paragraph stays on one sheet.
    pub fn text(&mut self, words: &str, height: f64, indent: f64) {
        self.put_paragraph(self.paragraph(words, height, indent));
    }

    fn put_paragraph(&mut self, paragraph: Paragraph) {
        self.need(paragraph.whole().min(80.0));
        let Paragraph { lines, line: pitch, height, indent } = paragraph;
        for line in lines {
            self.need(height * pitch);
            self.y -= height * pitch;
            let at = Point::new(self.room.left + indent, self.y + height * font::BELOW);
            self.put([Mark::Text(Text::new(at, height, line))]);
        }
    }

    /// A box to tick at the left, and words beside it.
    pub fn ticked(&mut self, words: &str, height: f64) {
        let paragraph = self.paragraph(words, height, 8.0);
        self.need(paragraph.whole().min(40.0) + 2.0);
        self.tick_box(height);
        self.put_paragraph(paragraph);
        self.gap(if self.dense { 0.5 } else { 1.5 });
    }

    fn tick_box(&mut self, height: f64) {
        let side = height.max(3.5);
        let corner = Area::new(self.room.left + 0.5, self.y - height * self.line() + height * font::BELOW, side, side);
        self.put([Mark::stroke(Path::rectangle(corner), Line::Wide)]);
    }

    /// The words of a step.
    pub fn step_words(&self, words: &str) -> Paragraph {
        let indent = if self.dense { STEP_DENSE } else { STEP_INDENT };
        self.paragraph(words, self.size(), indent)
    }

    /// Room for the words of a step and for what belongs to it, on a new sheet if need be.
    pub fn keep(&mut self, words: &Paragraph, follows: f64) {
        let height = words.whole() + follows;
        // More than a good half of a sheet is not worth an empty half before it.
        self.need(height.min(150.0));
    }

    /// A numbered step with a box to tick and the place in front of the words.
    pub fn step(&mut self, number: usize, at: &str, words: Paragraph) {
        self.need(words.whole().clamp(7.0, 60.0));
        let size = self.size();
        self.tick_box(if self.dense { 2.5 } else { 5.0 });
        let base = self.y - size * self.line() + size * font::BELOW;
        let left = self.room.left;
        self.put([Mark::Text(
            Text::new(Point::new(left + if self.dense { 10.3 } else { 14.0 }, base), size, number.to_string())
                .anchored(Anchor::End),
        )]);
        let place = font::wrap(at, SMALL, if self.dense { 13.5 } else { 27.0 });
        let lines = place.iter().enumerate().map(|(i, line)| {
            Mark::Text(Text::new(
                Point::new(left + if self.dense { 11.5 } else { 16.0 }, base - i as f64 * SMALL * LINE),
                SMALL,
                line.as_str(),
            ))
        });
        let (top, clear) = (self.y, if self.dense { 0.5 } else { 2.0 });
        self.put(lines.collect::<Vec<_>>());
        let pages = self.pages.len();
        self.put_paragraph(words);
        if self.pages.len() == pages {
            self.y = self
                .y
                .min(top - if self.dense { 4.0 } else { 8.0 })
                .min(top - place.len() as f64 * SMALL * LINE - clear);
        }
    }

    /// What comes now begins a sheet.
    pub fn turned(mut self) -> Self {
        self.heading.clear();
        self.y = f64::NEG_INFINITY;
        self
    }

    /// A picture under its title, whole on one sheet; none that is larger than a sheet.
    pub fn picture(&mut self, title: &str, marks: &[Mark]) {
        let area = Area::of(marks);
        self.heading.clear();
        self.need(area.height() + SIZE * 4.0);
        if area.height() + SIZE * 4.0 > self.y - self.room.bottom {
            return;
        }
        let middle = self.room.centre().x;
        let at = Point::new(middle, self.y - SIZE * 1.5);
        self.put([Mark::Text(Text::new(at, SIZE, title).anchored(Anchor::Middle))]);
        let by = Point::new(middle - area.centre().x, self.y - SIZE * 2.5 - area.top);
        self.put(marks.iter().map(|m| m.moved(by)).collect::<Vec<_>>());
        self.y -= area.height() + SIZE * 4.0;
    }

    /// Free height.
    pub fn gap(&mut self, height: f64) {
        self.y -= height;
    }

    /// A whole table: the header with at least one row on the same sheet, and again on top of each new one.
    pub fn table(&mut self, header: &Row, rows: &[Row], indent: f64) {
        self.need(header.height + rows.first().map_or(0.0, |r| r.height));
        self.row(header, indent);
        for row in rows {
            if self.need(row.height) {
                self.row(header, indent);
            }
            self.row(row, indent);
        }
    }

    /// One row of a table, indented.
    pub fn row(&mut self, row: &Row, indent: f64) {
        self.need(row.height);
        let corner = Point::new(self.room.left + indent, self.y);
        self.y -= row.height;
        self.put(row.marks(corner));
    }
}
