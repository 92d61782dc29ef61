//! The sheets of one part: first the drawing with the sizes that matter in large figures, then the work in order,
//! what was checked, and what to lay out.

use std::ops::Range;

use crate::record::drawing::Stands;
use crate::sheet::SMALL;
use crate::sheet::area::{Area, Point};
use crate::sheet::arrange::{Arranged, Views};
use crate::sheet::content::{Content, FindingText, Grid, MeasureRow, Outcome, SizeRow, StepText, Style, Titled};
use crate::sheet::flow::Flow;
use crate::sheet::label::SIZE;
use crate::sheet::table::{Cell, Column, Row, widths};
use crate::sheet::{Anchor, Line, Mark, Page, Path, Text, font, title_block};

/// Height of the figures of the principal sizes, mm.
const LARGE: f64 = 5.0;
/// Least height of a row with a box to write in, mm: a finger's breadth of handwriting.
const WRITING: f64 = 10.0;
/// The share of the first sheet that the drawing keeps at least.
const DRAWING_SHARE: f64 = 0.5;

/// The sheets of a part.
pub struct Sheets {
    /// For the bench: the drawing, then the work in order.
    pub bench: Vec<Page>,
    /// How many of them, from the first on, are drawings.
    pub drawings: usize,
    /// What was checked, what every size is and why: read once, not taken to the machine.
    pub reasons: Vec<Page>,
}

/// So many sheets go to the bench, one more of an assembly, where the work finds room on them in small lettering.
const BENCH: usize = 3;

/// All sheets of a part.
///
/// # Errors
/// A drawing that would be empty, illegible or incomplete.
pub fn sheets(content: &Content, style: &Style) -> Result<Sheets, String> {
    let paired = content.drawing.views.iter().any(|v| v.stands != Stands::Alone);
    match set(content, style) {
        // What is much thicker than wide, or the reverse, has each view at a scale of its own.
        Err(_) if paired => {
            let mut apart = content.clone();
            apart.drawing.views.iter_mut().for_each(|view| view.stands = Stands::Alone);
            set(&apart, style)
        }
        done => done,
    }
}

fn set(content: &Content, style: &Style) -> Result<Sheets, String> {
    let views = Views::new(&content.drawing, &content.labels, style.projection)?;
    if views.count() == 0 && content.pictures.is_empty() {
        return Err("there is nothing to draw".into());
    }
    let first = First::sheet(content, style, &views)?;
    let mut bench = vec![first.page];
    // Views without a size of their own, as the picture of an assembly, do not go to the bench.
    let told = views.dimensioned().max(first.views);
    bench.extend(view_sheets(content, style, &views, first.views..told)?);
    let drawings = bench.len();
    let budget = if views.count() == 0 { BENCH + 1 } else { BENCH };
    let at_ease = at_the_bench(content, first.sizes, Flow::new(content, style));
    let pictures = picture_sheets(content, style, &content.pictures, first.pictures);
    if drawings + at_ease.len() + pictures.len() > budget {
        bench.extend(at_the_bench(content, first.sizes, Flow::new(content, style).dense()));
    } else {
        bench.extend(at_ease);
    }
    bench.extend(pictures);
    title_block::number_sheets(&mut bench, true);
    let mut reasons = reasons(content, style);
    reasons.extend(view_sheets(content, style, &views, told..views.count())?);
    title_block::number_sheets(&mut reasons, false);
    Ok(Sheets { bench, drawings, reasons })
}

/// What is read at the machine: what asks for attention, the sizes that found no room on the first sheet, what to lay out,
/// the work in order.
fn at_the_bench(content: &Content, shown: usize, mut flow: Flow<'_>) -> Vec<Page> {
    attention(content, &mut flow);
    let rest: Vec<&SizeRow> = content.to_make().skip(shown).collect();
    if !rest.is_empty() {
        flow.heading("Make and measure, continued", 30.0);
        let rows: Vec<Vec<Cell>> = rest.iter().map(|s| flow.lean(measure_cells(s, content.count), 3)).collect();
        let columns = measure_columns(flow.width(), content.count);
        let least = flow.writing(WRITING);
        Ruled::new(&columns, &measure_header(content.count), &rows, least).draw(0.0, &mut flow);
    }
    if !content.tools.is_empty() {
        flow.heading("Lay out before starting", 12.0);
        for line in &content.tools {
            flow.ticked(line, SMALL);
        }
    }
    work(content, &mut flow);
    if !content.cautions.is_empty() {
        flow.heading("Caution", 12.0);
        for line in &content.cautions {
            flow.text(&format!("⚠ {line}"), SMALL, 0.0);
            flow.gap(1.0);
        }
    }
    for grid in &content.at_hand {
        let table = Ruled::of(grid, flow.width(), SMALL);
        flow.heading(&grid.title, table.wants());
        table.draw(0.0, &mut flow);
        flow.gap(2.0);
    }
    flow.finish()
}

/// The checks that are not in order, in a few words each; all of them stand with their sources among the reasons.
fn attention(content: &Content, flow: &mut Flow<'_>) {
    let mut asks: Vec<&FindingText> = content.findings.iter().filter(|f| f.outcome != Outcome::Ok).collect();
    if asks.is_empty() {
        return;
    }
    asks.sort_by_key(|f| std::cmp::Reverse(f.outcome));
    flow.heading("Before the work", 12.0);
    for f in asks {
        let word = if f.outcome == Outcome::Fail { "FAIL" } else { "caution" };
        let figures: Vec<&str> =
            [&f.value, &f.limit].into_iter().filter(|t| !t.is_empty()).map(String::as_str).collect();
        let figures = if figures.is_empty() { String::new() } else { format!(": {}", figures.join(", ")) };
        flow.text(&format!("{word}: {}{figures} - {}", f.what, f.because), SMALL, 0.0);
        if !f.does.is_empty() {
            flow.text(&format!("→ {}", f.does), SMALL, 0.0);
        }
        flow.gap(1.0);
    }
}

/// What stands behind the figures.
fn reasons(content: &Content, style: &Style) -> Vec<Page> {
    let mut flow = Flow::new(content, style);
    findings(content, &mut flow);
    if !content.decides.is_empty() {
        flow.heading("What decides: shares of the variance", 12.0);
        for line in &content.decides {
            flow.text(line, SMALL, 0.0);
            flow.gap(1.0);
        }
    }
    if !content.notes.is_empty() {
        flow.heading("Notes", 12.0);
        for line in &content.notes {
            flow.text(line, SMALL, 0.0);
            flow.gap(1.0);
        }
    }
    for grid in &content.tables {
        let table = Ruled::of(grid, flow.width(), SIZE);
        flow.heading(&grid.title, table.wants());
        table.draw(0.0, &mut flow);
        flow.gap(2.0);
    }
    all_sizes(content, &mut flow);
    let mut pages = flow.finish();
    pages.extend(picture_sheets(content, style, &content.further, 0));
    pages
}

/// Free height under a picture before the title of the next, mm: a title belongs to what stands under it.
const PICTURES_APART: f64 = 9.0;

/// Pictures set one under the other in a room, from the given one on; gives back how many found room.
fn set_pictures(page: &mut Page, pictures: &[Titled], room: Area, from: usize) -> usize {
    let mut top = room.top - 4.0;
    for (i, (title, marks)) in pictures.iter().enumerate().skip(from) {
        let area = Area::of(marks);
        let height = area.height() + SIZE * 4.0;
        if top - height < room.bottom {
            return i;
        }
        let at = Point::new(room.centre().x, top - SIZE);
        page.marks.push(Mark::Text(Text::new(at, SIZE, title.as_str()).anchored(Anchor::Middle)));
        let by = Point::new(room.centre().x - area.centre().x, top - SIZE * 2.5 - area.top);
        page.marks.extend(marks.iter().map(|m| m.moved(by)));
        top -= height + PICTURES_APART;
    }
    pictures.len()
}

/// Further sheets for the pictures that the first had no room for.
fn picture_sheets(content: &Content, style: &Style, pictures: &[Titled], mut from: usize) -> Vec<Page> {
    let mut pages = Vec::new();
    while from < pictures.len() {
        let (w, h) = style.paper.size();
        let mut page = Page::new(w, h, content.name.as_str());
        let room = title_block::slim(&mut page, content, false);
        let next = set_pictures(&mut page, pictures, room, from);
        // A picture larger than a whole sheet is left out rather than asked for again for ever.
        from = next.max(from + 1);
        pages.push(page);
    }
    pages
}

/// A drawing is not spread over more sheets, nor the sizes taken from under it, unless that makes it so much larger.
const MUCH_LARGER: f64 = 2.2;

/// Views of this length, mm on paper, are large enough to leave others and the sizes their room beside them.
const GOOD: f64 = 45.0;

/// How many of the groups of views from one on stand on one sheet of that room, and how: all of them, or as many as can
/// stand there without being made much smaller than the one that needs most room would be alone.
fn together(views: &Views, from: usize, to: usize, room: Area) -> Option<(usize, Arranged)> {
    let alone = |group: usize| Some(views.fit(group..group + 1, room)?.scale.factor());
    let enough = |count: usize| {
        let least = (from..from + count).map(alone).collect::<Option<Vec<f64>>>()?.into_iter().fold(f64::MAX, f64::min);
        let drawn = views.fit(from..from + count, room)?;
        (drawn.scale.factor() * MUCH_LARGER > least || drawn.smallest >= GOOD).then_some((count, drawn))
    };
    (1..=to - from).rev().find_map(enough)
}

/// Further sheets for the views that the first had no room for.
fn view_sheets(content: &Content, style: &Style, views: &Views, groups: Range<usize>) -> Result<Vec<Page>, String> {
    let mut pages = Vec::new();
    let (mut from, to) = (groups.start, groups.end);
    while from < to {
        let (w, h) = style.paper.size();
        let mut page = Page::new(w, h, content.name.as_str());
        let room = title_block::slim(&mut page, content, true);
        let head = Area { top: room.top - SIZE * 2.5, ..room };
        let (count, drawn) = match together(views, from, to, head) {
            Some(found) => found,
            None => (1, squeezed(content, views, from, head)?),
        };
        let words = format!("Drawing, continued: scale {}", drawn.scale);
        let at = Point::new(room.left + 3.0, room.top - SIZE * 1.8);
        page.marks.push(Mark::Text(Text::new(at, SIZE, words)));
        page.marks.extend(drawn.marks());
        page.marks.extend(left_out(content, &drawn.left_out, head));
        from += count;
        pages.push(page);
    }
    Ok(pages)
}

/// One group of views in a room too small for all its sizes, with the strip that names what is left out.
fn squeezed(content: &Content, views: &Views, group: usize, room: Area) -> Result<Arranged, String> {
    let drawn = views.squeeze(group, room)?;
    let strip = Area::of(&left_out(content, &drawn.left_out, room)).height();
    views.squeeze(group, Area { bottom: room.bottom + strip + SMALL, ..room })
}

/// The first sheet.
struct First {
    page: Page,
    /// How many of the sizes to make it shows, how many groups of views, how many pictures.
    sizes: usize,
    views: usize,
    pictures: usize,
}

impl First {
    fn sheet(content: &Content, style: &Style, views: &Views) -> Result<Self, String> {
        let (w, h) = style.paper.size();
        let mut page = Page::new(w, h, content.name.as_str());
        let frame = title_block::frame(&page);
        // The block is drawn last, since it shows the scale; its height does not depend on it.
        let drawn = views.count() > 0;
        let room = title_block::full(&mut page.clone(), content, style, drawn.then_some("1:1"));
        let room = Area { top: frame.top - verdict(&mut page, content, frame), ..room };
        if !drawn {
            let table = Sizes::under(content, room, usize::MAX);
            page.marks.extend(table.marks);
            title_block::full(&mut page, content, style, None);
            let pictures = set_pictures(&mut page, &content.pictures, table.above, 0);
            return Ok(Self { page, sizes: table.shown, views: 0, pictures });
        }
        let laid = Laid::out(content, views, room)?;
        page.marks.extend(laid.marks);
        page.marks.extend(laid.drawn.marks());
        title_block::full(&mut page, content, style, Some(&laid.drawn.scale.to_string()));
        Ok(Self { page, sizes: laid.sizes, views: laid.views, pictures: 0 })
    }
}

/// So many sizes stay on the first sheet whatever the drawing asks for.
const FEW: usize = 2;

/// The first sheet but for its frame: the table of sizes and the note, the room above them and the views in it.
struct Laid {
    marks: Vec<Mark>,
    /// How many of the sizes to make it shows, and how many groups of views.
    sizes: usize,
    views: usize,
    drawn: Arranged,
}

impl Laid {
    fn out(content: &Content, views: &Views, room: Area) -> Result<Self, String> {
        let among = |most: usize| {
            let sizes = Sizes::under(content, room, most);
            let (count, drawn) =
                together(views, 0, views.count(), sizes.above).filter(|(_, drawn)| drawn.left_out.is_empty())?;
            Some(Self { marks: sizes.marks, sizes: sizes.shown, views: count, drawn })
        };
        // Views with sizes matter more here than the picture of an assembly.
        let told = |laid: &Self| laid.views.min(views.dimensioned());
        if let Some(roomiest) = among(FEW) {
            // A drawing that all the sizes would squeeze is given the room of those that can as well stand overleaf.
            let enough = |laid: &Self| {
                let (scale, best) = (laid.drawn.scale.factor(), roomiest.drawn.scale.factor());
                let large = scale >= best || (scale * MUCH_LARGER > best && laid.drawn.smallest >= GOOD);
                large && told(laid) >= told(&roomiest)
            };
            let fuller = [usize::MAX, 6, 5, 4, 3].into_iter().find_map(|most| among(most).filter(enough));
            return Ok(fuller.unwrap_or(roomiest));
        }
        let few = Sizes::under(content, room, FEW);
        let drawn = squeezed(content, views, 0, few.above)?;
        let mut marks = few.marks;
        marks.extend(left_out(content, &drawn.left_out, few.above));
        Ok(Self { marks, sizes: few.shown, views: 1, drawn })
    }
}

/// The table of sizes at the foot of the first sheet, the note over it, and the room above both.
struct Sizes {
    marks: Vec<Mark>,
    shown: usize,
    above: Area,
}

impl Sizes {
    fn under(content: &Content, room: Area, most: usize) -> Self {
        let inner = Area { left: room.left + 3.0, right: room.right - 3.0, ..room };
        let (mut marks, shown) = size_table(content, inner, most);
        let bottom = if marks.is_empty() { inner.bottom } else { Area::of(&marks).top + 1.0 };
        let (noted, height) = note(content, inner, bottom);
        marks.extend(noted);
        Self { marks, shown, above: Area { bottom: bottom + height, ..room } }
    }
}

/// The strip at the top that says whether the part may be made; gives back its height.
fn verdict(page: &mut Page, content: &Content, frame: Area) -> f64 {
    let lines = font::wrap(&content.verdict(), SIZE, frame.width() - 6.0);
    let height = lines.len() as f64 * SIZE * 1.7 + 2.5;
    let strip = Area { bottom: frame.top - height, ..frame };
    let line = if content.count_of(Outcome::Fail) > 0 { Line::Frame } else { Line::Narrow };
    page.marks.push(Mark::stroke(Path::rectangle(strip), line));
    for (i, words) in lines.into_iter().enumerate() {
        let at = Point::new(strip.left + 3.0, strip.top - 2.2 - SIZE - i as f64 * SIZE * 1.7);
        page.marks.push(Mark::Text(Text::new(at, SIZE, words)));
    }
    height
}

/// The part's note over the table, and its height.
fn note(content: &Content, room: Area, bottom: f64) -> (Vec<Mark>, f64) {
    if content.note.is_empty() {
        return (Vec::new(), 0.0);
    }
    let lines = font::wrap(&format!("Note: {}", content.note), SMALL, room.width());
    let pitch = SMALL * 1.7;
    let top = bottom + lines.len() as f64 * pitch;
    let line = |(i, words): (usize, String)| {
        Mark::Text(Text::new(Point::new(room.left, top - (i + 1) as f64 * pitch + 1.2), SMALL, words))
    };
    (lines.into_iter().enumerate().map(line).collect(), top - bottom + 1.0)
}

/// Says by name what found no room in the drawing.
fn left_out(content: &Content, names: &[String], views: Area) -> Vec<Mark> {
    if names.is_empty() {
        return Vec::new();
    }
    let named = |key: &String| content.sizes.iter().find(|s| s.key == *key).map_or(key.clone(), |s| s.what.clone());
    let all: Vec<String> = names.iter().map(named).collect();
    let words = format!("No room in the drawing, see the list of sizes: {}", all.join(", "));
    let lines = font::wrap(&words, SMALL, views.width() - 6.0);
    let count = lines.len();
    let line = |(i, words): (usize, String)| {
        let up = (count - 1 - i) as f64 * SMALL * 1.7;
        Mark::Text(Text::new(Point::new(views.left + 3.0, views.bottom + 1.2 + up), SMALL, words))
    };
    lines.into_iter().enumerate().map(line).collect()
}

/// So many pieces get a box of their own for what was measured.
const BOXES: u32 = 4;

/// Columns of the table of sizes: the last ones to write in, one for each of a few pieces.
fn measure_columns(width: f64, count: u32) -> Vec<Column> {
    let boxes = count.clamp(1, BOXES);
    let shares: &[f64] = if boxes == 1 { &[0.30, 0.20, 0.17, 0.17] } else { &[0.26, 0.16, 0.13, 0.13] };
    let rest = 1.0 - shares.iter().sum::<f64>();
    let column = |(i, share): (usize, &f64)| {
        if i == 0 { Column::left(width * share) } else { Column::middle(width * share) }
    };
    let written = (0..boxes).map(|_| Column::middle(width * rest / f64::from(boxes)));
    shares.iter().enumerate().map(column).chain(written).collect()
}

/// What stands over the boxes: `Measured`, or the numbers of the pieces.
fn box_heads(count: u32) -> Vec<String> {
    let number = |i: u32| match i {
        i if i == BOXES && count > BOXES => "last".into(),
        i => format!("no. {i}"),
    };
    if count <= 1 { vec!["Measured".into()] } else { (1..=count.min(BOXES)).map(number).collect() }
}

fn measure_header(count: u32) -> Vec<Cell> {
    let words = ["What", "Size", "Least", "Most"].map(String::from);
    words.into_iter().chain(box_heads(count)).map(|w| Cell::new(w, SMALL)).collect()
}

/// Empty boxes, or dashes for a figure that nobody can measure on the part.
fn boxes(size: &SizeRow, count: u32) -> impl Iterator<Item = Cell> {
    let cell = if size.measurable { Cell::default() } else { Cell::new("–", SMALL) };
    std::iter::repeat_n(cell, count.clamp(1, BOXES) as usize)
}

fn measure_cells(size: &SizeRow, count: u32) -> Vec<Cell> {
    let pair =
        |[first, second]: &[String; 2], height: f64| Cell::new(first.as_str(), height).and(second.as_str(), SMALL);
    let cells = vec![
        Cell::new(size.what.as_str(), SIZE).and(size.by.as_str(), SMALL),
        pair(&size.size, if size.principal { LARGE } else { SIZE }),
        pair(&size.least, SIZE),
        pair(&size.most, SIZE),
    ];
    cells.into_iter().chain(boxes(size, count)).collect()
}

/// The sizes to make at the foot of the room, at most so many, and as many as leave the drawing its share.
fn size_table(content: &Content, room: Area, most: usize) -> (Vec<Mark>, usize) {
    let columns = measure_columns(room.width(), content.count);
    let mut rows = vec![Row::new(&columns, &measure_header(content.count), 0.0)];
    let mut height: f64 = rows.iter().map(|r| r.height).sum();
    for size in content.to_make().take(most) {
        let row = Row::new(&columns, &measure_cells(size, content.count), WRITING);
        if height + row.height > room.height() * (1.0 - DRAWING_SHARE) && !content.drawing.views.is_empty() {
            break;
        }
        height += row.height;
        rows.push(row);
    }
    let shown = rows.len() - 1;
    if shown == 0 {
        return (Vec::new(), 0);
    }
    let mut marks = Vec::new();
    let mut y = room.bottom + height;
    for row in &rows {
        marks.extend(row.marks(Point::new(room.left, y)));
        y -= row.height;
    }
    (marks, shown)
}

fn work(content: &Content, flow: &mut Flow<'_>) {
    if content.steps.is_empty() {
        return;
    }
    flow.heading("Work in order", 20.0);
    for (i, step) in content.steps.iter().enumerate() {
        one_step(i + 1, step, content, flow);
    }
}

fn one_step(number: usize, step: &StepText, content: &Content, flow: &mut Flow<'_>) {
    let indent = flow.indent();
    // A table with its title, and the room that both want.
    let table = step.table.as_ref().map(|grid| {
        let table = Ruled::of(&folded(grid), flow.width() - indent, flow.size());
        let wants = 8.0 + table.wants();
        (grid, table, wants)
    });
    let boxed = |m: &&MeasureRow| !content.to_make().any(|s| s.key == m.row.key);
    let (own, first): (Vec<&MeasureRow>, Vec<&MeasureRow>) = step.measure.iter().partition(boxed);
    // A step stands on one sheet with the table that belongs to it, or at least with its beginning.
    let follows = match &table {
        Some((.., wants)) => *wants,
        None if own.is_empty() => 0.0,
        None => MEASURED,
    };
    let words = flow.step_words(&step.text);
    flow.keep(&words, follows);
    flow.step(number, &step.at, words);
    if let Some((grid, table, wants)) = table {
        flow.need(wants);
        flow.gap(1.5);
        flow.text(&grid.title, SMALL, indent);
        flow.gap(1.0);
        table.draw(indent, flow);
        flow.gap(1.0);
    }
    for measure in first {
        flow.gap(0.5);
        flow.text(&measured_words(measure), SMALL, indent);
    }
    if !own.is_empty() {
        flow.gap(1.5);
        let columns = measured_columns(flow.width() - indent, content.count);
        let words = ["Measure", "With", "Least", "Most"].map(String::from);
        let header: Vec<Cell> =
            words.into_iter().chain(box_heads(content.count)).map(|w| Cell::new(w, SMALL)).collect();
        let rows: Vec<Vec<Cell>> =
            own.iter().map(|m| flow.lean(measured_cells(m, content.count, flow.size()), 3)).collect();
        Ruled::new(&columns, &header, &rows, flow.writing(WRITING)).draw(indent, flow);
    }
    flow.gap(if flow.is_dense() { 1.5 } else { 3.0 });
}

/// A size whose box stands in the table of sizes.
fn measured_words(measure: &MeasureRow) -> String {
    let row = &measure.row;
    let between = match (row.least.first(), row.most.first()) {
        (Some(least), Some(most)) if !least.is_empty() => format!("{least} to {most}"),
        _ => row.size[0].clone(),
    };
    format!("Measure {} with {}: {between} (box: table of sizes).", row.what, measure.with)
}

/// A long table of few columns stands in two parts beside each other.
fn folded(grid: &Grid) -> Grid {
    let (columns, rows) = (grid.columns.len(), grid.rows.len());
    // A figure keeps its unit beside it, for which half the width has no room.
    let bare = grid.rows.iter().flatten().all(|cell| !cell.contains(' '));
    if columns > 4 || rows < 6 || !bare {
        return grid.clone();
    }
    let half = rows.div_ceil(2);
    let row = |i: usize| {
        let second = grid.rows.get(half + i).cloned().unwrap_or_else(|| vec![String::new(); columns]);
        grid.rows.get(i).into_iter().flatten().cloned().chain(second).collect()
    };
    let heads = grid.columns.iter().chain(&grid.columns).cloned().collect();
    Grid { title: grid.title.clone(), columns: heads, rows: (0..half).map(row).collect() }
}

/// Height of the head of a table of sizes to measure and its first row, mm.
const MEASURED: f64 = 20.0;

fn measured_columns(width: f64, count: u32) -> Vec<Column> {
    let boxes = count.clamp(1, BOXES);
    let shares: &[f64] = if boxes == 1 { &[0.32, 0.18, 0.16, 0.16] } else { &[0.24, 0.16, 0.13, 0.13] };
    let rest = (1.0 - shares.iter().sum::<f64>()) / f64::from(boxes);
    shares.iter().copied().chain((0..boxes).map(|_| rest)).map(|share| Column::left(width * share)).collect()
}

fn measured_cells(measure: &MeasureRow, count: u32, height: f64) -> Vec<Cell> {
    let row = &measure.row;
    let pair = |[first, second]: &[String; 2]| Cell::new(first.as_str(), height).and(second.as_str(), SMALL);
    let cells = vec![
        Cell::new(format!("{}: {}", row.what, row.size[0]), SMALL).and(row.size[1].as_str(), SMALL),
        Cell::new(measure.with.as_str(), SMALL),
        pair(&row.least),
        pair(&row.most),
    ];
    cells.into_iter().chain(boxes(row, count)).collect()
}

/// A table laid out.
struct Ruled {
    header: Row,
    rows: Vec<Row>,
}

/// A table no higher than this, mm, is not broken over two sheets.
const KEPT_WHOLE: f64 = 95.0;

impl Ruled {
    /// With rows at least so high.
    fn new(columns: &[Column], header: &[Cell], rows: &[Vec<Cell>], least: f64) -> Self {
        let rows = rows.iter().map(|r| Row::new(columns, r, least)).collect();
        Self { header: Row::new(columns, header, 0.0), rows }
    }

    /// A table of text, in figures as large as its columns allow.
    fn of(grid: &Grid, room: f64, height: f64) -> Self {
        let height = if grid.columns.len() <= 6 { height } else { SMALL };
        let header: Vec<Cell> = grid.columns.iter().map(|c| Cell::new(c.as_str(), SMALL)).collect();
        let cells = |r: &Vec<String>| r.iter().map(|c| Cell::new(c.as_str(), height)).collect();
        let rows: Vec<Vec<Cell>> = grid.rows.iter().map(cells).collect();
        Self::new(&widths(&header, &rows, room), &header, &rows, 0.0)
    }

    /// The room that it wants on the sheet on which it begins, mm.
    fn wants(&self) -> f64 {
        let whole: f64 = std::iter::once(&self.header).chain(&self.rows).map(|r| r.height).sum();
        if whole <= KEPT_WHOLE { whole } else { 20.0 }
    }

    fn draw(&self, indent: f64, flow: &mut Flow<'_>) {
        flow.table(&self.header, &self.rows, indent);
    }
}

fn findings(content: &Content, flow: &mut Flow<'_>) {
    if content.findings.is_empty() {
        return;
    }
    flow.heading("What was checked", 45.0);
    let width = flow.width();
    let columns: Vec<Column> = [0.12, 0.56, 0.16, 0.16].iter().map(|s| Column::left(width * s)).collect();
    let header: Vec<Cell> = ["", "Check and reason", "Found", "Limit"].iter().map(|w| Cell::new(*w, SMALL)).collect();
    let mut sorted: Vec<&FindingText> = content.findings.iter().collect();
    sorted.sort_by_key(|f| std::cmp::Reverse(f.outcome));
    let rows: Vec<Vec<Cell>> = sorted.into_iter().map(finding_cells).collect();
    Ruled::new(&columns, &header, &rows, 0.0).draw(0.0, flow);
}

fn finding_cells(f: &FindingText) -> Vec<Cell> {
    let word = match f.outcome {
        Outcome::Ok => "ok",
        Outcome::Caution => "caution",
        Outcome::Fail => "FAIL",
    };
    let mut what = Cell::new(f.what.as_str(), SIZE).and(f.because.as_str(), SMALL);
    if !f.does.is_empty() {
        what = what.and(format!("→ {}", f.does), SMALL);
    }
    let what = what.and(format!("Source: {}", f.source), SMALL);
    vec![Cell::new(word, SIZE), what, Cell::new(f.value.as_str(), SMALL), Cell::new(f.limit.as_str(), SMALL)]
}

fn all_sizes(content: &Content, flow: &mut Flow<'_>) {
    if content.sizes.is_empty() {
        return;
    }
    flow.heading("All sizes", 20.0);
    // Without a limit anywhere there is no column for them.
    let limited = content.sizes.iter().any(|s| s.least.iter().any(|l| !l.is_empty()));
    let heads: &[&str] = if limited { &["What", "Size", "Limits", "From"] } else { &["What", "Size", "From"] };
    let header: Vec<Cell> = heads.iter().map(|w| Cell::new(*w, SMALL)).collect();
    let rows: Vec<Vec<Cell>> = content.sizes.iter().map(|s| size_cells(s, limited)).collect();
    Ruled::new(&widths(&header, &rows, flow.width()), &header, &rows, 0.0).draw(0.0, flow);
}

fn size_cells(s: &SizeRow, limited: bool) -> Vec<Cell> {
    let pair = |first: &str, second: &str| Cell::new(first, SMALL).and(second, SMALL);
    // Least and greatest in one word, so that they stay on one line; the other unit under it.
    let limits = |i: usize| match (s.least.get(i), s.most.get(i)) {
        (Some(least), Some(most)) if !least.is_empty() => format!("{least}–{most}"),
        _ => String::new(),
    };
    let mut cells = vec![pair(&s.what, &s.by), pair(&s.size[0], &s.size[1])];
    if limited {
        cells.push(pair(&limits(0), &limits(1)));
    }
    cells.push(Cell::new(s.how.as_str(), SMALL));
    cells
}
