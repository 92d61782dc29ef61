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
use crate::sheet::table::{Cell, Column, Row, on_the_point, widths};
use crate::sheet::{Anchor, Line, Mark, Page, Path, Text, font, title_block};

/// Height of the figures of the principal sizes, mm.
const LARGE: f64 = 5.0;
/// Least height of a row with a box to write in, mm: a finger's breadth of handwriting.
const WRITING: f64 = 10.0;
/// The same where many rows leave little room.
const WRITING_LEAN: f64 = 6.5;
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
    // A frame that finds no place has no plan, and is told all the same.
    let pictures = [&content.pictures, &content.loads, &content.further];
    if views.count() == 0 && pictures.iter().all(|p| p.is_empty()) {
        return Err("there is nothing to draw".into());
    }
    let first = First::sheet(content, style, &views)?;
    let mut bench = vec![first.page];
    // Views without a size of their own, as the picture of an assembly, do not go to the bench.
    let told = views.dimensioned().max(first.views);
    bench.extend(view_sheets(content, style, &views, first.views..told)?);
    let drawings = bench.len();
    let at_ease = at_the_bench(content, first.sizes, first.acts, Flow::new(content, style));
    // Small lettering where it spares a sheet.
    let dense = at_the_bench(content, first.sizes, first.acts, Flow::new(content, style).dense());
    let pictures = picture_sheets(content, style, &content.pictures, first.pictures);
    bench.extend(if dense.len() < at_ease.len() { dense } else { at_ease });
    bench.extend(pictures);
    title_block::number_sheets(&mut bench, content, style, true);
    let mut reasons = reasons(content, style);
    reasons.extend(view_sheets(content, style, &views, told..views.count())?);
    title_block::number_sheets(&mut reasons, content, style, false);
    Ok(Sheets { bench, drawings, reasons })
}

/// What is read at the machine: what found no room on the first sheet, what to lay out, the work in order.
fn at_the_bench(content: &Content, shown: usize, told: usize, mut flow: Flow<'_>) -> Vec<Page> {
    if told < content.look.now.len() {
        flow.heading("What to do now, continued", 12.0);
        for words in acts(content).skip(told) {
            flow.text(&words, SMALL, 0.0);
            flow.gap(1.0);
        }
    }
    let rest: Vec<&SizeRow> = content.to_make().skip(shown).collect();
    if !rest.is_empty() {
        flow.heading("Make and measure, continued", 30.0);
        let rows: Vec<Vec<Cell>> = rest.iter().map(|s| flow.lean(measure_cells(s, content.count), 3)).collect();
        let columns = measure_columns(flow.width(), content.count);
        let least = flow.writing(WRITING);
        Ruled::new(&columns, &measure_header(content.count), &rows, least).draw(0.0, &mut flow);
    }
    if !content.tools.is_empty() || !content.mind.is_empty() {
        flow.heading("Lay out before starting", 12.0);
        for line in &content.tools {
            flow.ticked(line, SMALL);
        }
        mind(&content.mind, 0.0, &mut flow);
    }
    work(content, &mut flow);
    pieces(content, &mut flow);
    let mut flow = if content.loads.is_empty() { flow } else { flow.turned() };
    for grid in &content.at_hand {
        let table = Ruled::of(grid, flow.width(), SMALL);
        flow.heading(&grid.title, table.wants());
        table.draw(0.0, &mut flow);
        flow.gap(2.0);
    }
    for (title, marks) in &content.loads {
        flow.picture(title, marks);
    }
    flow.finish()
}

/// What is not in order and what clears it, a line each.
fn acts(content: &Content) -> impl Iterator<Item = String> {
    content.look.now.iter().enumerate().map(|(i, act)| {
        let does = if act.does.is_empty() { String::new() } else { format!(" → {}", act.does) };
        format!("{} {}: {}{does}", i + 1, act.verdict, act.found)
    })
}

/// Safety lines beside the work that they concern.
fn mind(lines: &[String], indent: f64, flow: &mut Flow<'_>) {
    if !lines.is_empty() {
        flow.gap(0.5);
        flow.text(&format!("⚠ {}", lines.join(" ⚠ ")), SMALL, indent);
    }
}

/// What stands behind the figures.
fn reasons(content: &Content, style: &Style) -> Vec<Page> {
    let mut flow = Flow::new(content, style);
    findings(content, &mut flow);
    if !content.cautions.is_empty() {
        flow.heading("Caution", 12.0);
        for line in &content.cautions {
            flow.text(&format!("⚠ {line}"), SMALL, 0.0);
            flow.gap(1.0);
        }
    }
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

/// A drawing is not spread over more sheets unless that makes it so much larger.
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
    /// How many of the sizes to make it shows, how many groups of views, how many pictures, how much of what is to be done.
    sizes: usize,
    views: usize,
    pictures: usize,
    acts: usize,
}

impl First {
    fn sheet(content: &Content, style: &Style, views: &Views) -> Result<Self, String> {
        let (w, h) = style.paper.size();
        let mut page = Page::new(w, h, content.name.as_str());
        let frame = title_block::frame(&page);
        // The block is drawn last, since it shows the scale; its height does not depend on it.
        let drawn = views.count() > 0;
        let room = title_block::full(&mut page.clone(), content, style, drawn.then_some("1:1"));
        if !drawn {
            // The plan stands on the first sheet, and what is to be done over it as far as there is room for both.
            let under = |most: f64| {
                let mut strip = page.clone();
                let (height, acts) = head(&mut strip, content, frame, most);
                let table = Sizes::under(content, Area { top: frame.top - height, ..room }, usize::MAX, Form::Lean);
                strip.marks.extend(table.marks);
                let pictures = set_pictures(&mut strip, &content.pictures, table.above, 0);
                Self { page: strip, sizes: table.shown, views: 0, pictures, acts }
            };
            let holds = |first: &Self| first.pictures > 0 || content.pictures.is_empty();
            let mut first = HEADS_OF_PLAN.into_iter().map(under).find(holds).unwrap_or_else(|| under(0.0));
            title_block::full(&mut first.page, content, style, None);
            return Ok(first);
        }
        // What is to be done stands over the drawing, or overleaf where the drawing is larger for it.
        let under = |most: f64| {
            let mut strip = Page::new(w, h, "");
            let (height, acts) = head(&mut strip, content, frame, most);
            Laid::out(content, views, Area { top: frame.top - height, ..room }).map(|laid| (strip.marks, acts, laid))
        };
        let worth = |laid: &Laid| {
            let drawn = &laid.drawn;
            (laid.views, drawn.left_out.is_empty(), drawn.scale.factor(), laid.sizes, drawn.detailed)
        };
        // The figures that matter are among the sizes, and go where these have no room.
        let (mut strip, mut acts, mut laid) = under(HEAD)?;
        for less in [0.0, BARE] {
            let wanted = laid.sizes < content.to_make().count() || !content.look.now.is_empty() && less == 0.0;
            let bare = if wanted { under(less)? } else { break };
            if worth(&bare.2) > worth(&laid) {
                (strip, acts, laid) = bare;
            }
        }
        page.marks.extend(strip);
        page.marks.extend(laid.marks);
        page.marks.extend(laid.drawn.marks());
        title_block::full(&mut page, content, style, Some(&laid.drawn.scale.to_string()));
        Ok(Self { page, sizes: laid.sizes, views: laid.views, pictures: 0, acts })
    }
}

/// So many sizes stay on the first sheet whatever the drawing asks for.
const FEW: usize = 2;

/// How the sizes stand under the drawing: in large figures with the other unit, a line each, the same as low as their
/// lettering, or two to a line.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Form {
    Large,
    Lean,
    Tight,
    Double,
}

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
        let among = |most: usize, form: Form| {
            let sizes = Sizes::under(content, room, most, form);
            let (count, drawn) =
                together(views, 0, views.count(), sizes.above).filter(|(_, drawn)| drawn.left_out.is_empty())?;
            Some(Self { marks: sizes.marks, sizes: sizes.shown, views: count, drawn })
        };
        // Views with sizes matter more here than the picture of an assembly.
        let told = |laid: &Self| laid.views.min(views.dimensioned());
        let wanted = content.to_make().count();
        if let Some(roomiest) = among(FEW, Form::Lean) {
            // All sizes stand under the drawing, but for such as would squeeze it; large figures make it no smaller.
            let (best, most_told) = (roomiest.drawn.scale.factor(), told(&roomiest));
            let enough = |laid: &Self| {
                let scale = laid.drawn.scale.factor();
                let large = scale >= best || laid.drawn.smallest >= GOOD;
                large && told(laid) >= most_told
            };
            let fullest = |form: Form| (FEW..=wanted).rev().find_map(|most| among(most, form).filter(enough));
            let lean = fullest(Form::Lean).unwrap_or(roomiest);
            // Two to a line leave a box for one piece only.
            let closer = [Form::Tight, Form::Double].into_iter().filter(|f| content.count == 1 || *f == Form::Tight);
            let lean = closer.fold(lean, |lean, form| {
                let more = (lean.sizes < wanted).then(|| fullest(form)).flatten();
                more.filter(|more| more.sizes > lean.sizes).unwrap_or(lean)
            });
            let as_good = |laid: &Self| {
                laid.sizes >= lean.sizes
                    && laid.views >= lean.views
                    && laid.drawn.scale.factor() >= lean.drawn.scale.factor()
                    && laid.drawn.detailed >= lean.drawn.detailed
            };
            return Ok(among(lean.sizes, Form::Large).filter(as_good).unwrap_or(lean));
        }
        let few = Sizes::under(content, room, FEW, Form::Lean);
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
    fn under(content: &Content, room: Area, most: usize, form: Form) -> Self {
        let inner = Area { left: room.left + 3.0, right: room.right - 3.0, ..room };
        let (mut marks, shown) = size_table(content, inner, most, form);
        let bottom = if marks.is_empty() { inner.bottom } else { Area::of(&marks).top + 1.0 };
        let (noted, height) = note(content, inner, bottom);
        marks.extend(noted);
        Self { marks, shown, above: Area { bottom: bottom + height, ..room } }
    }
}

/// What is to be done takes no more of the first sheet than this, mm, where the part is drawn under it.
const HEAD: f64 = 32.0;
/// Less than that, the strip has the verdict alone.
const BARE: f64 = -1.0;
/// The same where a plan is, the first at which the plan has room.
const HEADS_OF_PLAN: [f64; 4] = [90.0, 70.0, 50.0, 30.0];

/// The strip at the top: how it stands, what to do now, the figures that matter; gives back its height and how much of
/// what is to be done it tells.
fn head(page: &mut Page, content: &Content, frame: Area, most: f64) -> (f64, usize) {
    let width = frame.width() - 6.0;
    let small = |words: &str| font::wrap(words, SMALL, width).into_iter().map(|line| (line, SMALL));
    let mut lines: Vec<(String, f64)> =
        font::wrap(&content.verdict(), SIZE, width).into_iter().map(|line| (line, SIZE)).collect();
    let figures: Vec<(String, f64)> = match content.look.figures.as_slice() {
        _ if most < 0.0 => Vec::new(),
        [] => Vec::new(),
        figures => small(&figures.join("; ")).collect(),
    };
    let height = |lines: &[(String, f64)]| lines.iter().map(|(_, h)| h * LEADING).sum::<f64>();
    let mut told = 0;
    for words in acts(content) {
        let act: Vec<(String, f64)> = small(&words).collect();
        if height(&lines) + height(&act) + height(&figures) > most {
            break;
        }
        lines.extend(act);
        told += 1;
    }
    if told < content.look.now.len() {
        let rest = if told == 0 { "What to do now".into() } else { format!("{} more", content.look.now.len() - told) };
        lines.extend(small(&format!("{rest}: on the next sheet with words.")));
    }
    lines.extend(figures);
    let strip = Area { bottom: frame.top - height(&lines) - 2.5, ..frame };
    let line = if content.look.fails { Line::Frame } else { Line::Narrow };
    page.marks.push(Mark::stroke(Path::rectangle(strip), line));
    let mut y = strip.top - 1.0;
    for (words, height) in lines {
        y -= height * LEADING;
        page.marks.push(Mark::Text(Text::new(Point::new(strip.left + 3.0, y + height * 0.4), height, words)));
    }
    (strip.height(), told)
}

/// Height of a line of the strip, in heights of its capitals.
const LEADING: f64 = 1.6;

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

/// So many sizes stand beside each other where pieces are told one by one.
const SIDE_BY_SIDE: usize = 6;
/// So many pieces get a line of their own there.
const PIECES: u32 = 60;

/// Of more pieces than have boxes beside the sizes, the others: a line each to write in.
fn pieces(content: &Content, flow: &mut Flow<'_>) {
    let sizes: Vec<&SizeRow> = content.to_make().filter(|s| s.measurable).take(SIDE_BY_SIDE).collect();
    if content.count <= BOXES || sizes.is_empty() {
        return;
    }
    let heads = sizes.iter().map(|s| Cell::new(s.what.as_str(), SMALL).and(between(s), SMALL));
    let header: Vec<Cell> = std::iter::once(Cell::new("no.", SMALL)).chain(heads).collect();
    let width = flow.width();
    let each = (width - NUMBER) / sizes.len() as f64;
    let columns: Vec<Column> =
        std::iter::once(Column::middle(NUMBER)).chain(sizes.iter().map(|_| Column::middle(each))).collect();
    // The last piece has its box beside the sizes.
    let others = BOXES..content.count.min(BOXES + PIECES);
    let row = |number: u32| {
        let first = Cell::new(number.to_string(), SMALL);
        std::iter::once(first).chain(sizes.iter().map(|_| Cell::default())).collect::<Vec<Cell>>()
    };
    let rows: Vec<Vec<Cell>> = others.map(row).collect();
    let table = Ruled::new(&columns, &header, &rows, WRITING_LEAN);
    flow.heading("Measured, piece by piece", table.wants());
    table.draw(0.0, flow);
    if content.count > BOXES + PIECES {
        flow.text("Of the pieces beyond, one in ten is measured, and all when one of them is off.", SMALL, 0.0);
    }
}

/// Width of a column of numbers of pieces, mm.
const NUMBER: f64 = 12.0;

/// Columns of the table of sizes: the last ones to write in, one for each of a few pieces.
fn measure_columns(width: f64, count: u32) -> Vec<Column> {
    let boxes = count.clamp(1, BOXES);
    let shares: &[f64] = if boxes == 1 { &[0.36, 0.18, 0.14, 0.14] } else { &[0.30, 0.16, 0.12, 0.12] };
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

/// Boxes: what was recorded of each piece, else empty; dashes for a figure that nobody can measure on the part.
fn boxes(size: &SizeRow, count: u32) -> impl Iterator<Item = Cell> {
    let piece = move |number: u32| if number == BOXES && count > BOXES { count } else { number };
    (1..=count.clamp(1, BOXES)).map(move |number| {
        let found = size.filled.iter().find(|f| f.piece == piece(number));
        match found {
            Some(found) => Cell::new(found.value.as_str(), SIZE).and(found.said.as_str(), SMALL),
            None if size.measurable => Cell::default(),
            None => Cell::new("–", SMALL),
        }
    })
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

/// Letters of a class: `H7`, `js13`.
const SHORT: usize = 6;

/// The same a line each: what it is and what sets its limits, the figures of the unit shown first.
fn lean_cells(content: &Content, size: &SizeRow, form: Form) -> Vec<Cell> {
    // The general limits are named in the title block; what takes more than a word stands among the reasons.
    let own = !size.by.is_empty() && size.by != content.general && size.by.chars().count() <= SHORT;
    let by = if own { format!(" ({})", size.by) } else { String::new() };
    let unit = if form == Form::Double { format!(" {}", content.unit) } else { String::new() };
    let one = |[first, _]: &[String; 2], height: f64| Cell::new(first.strip_suffix(&unit).unwrap_or(first), height);
    let cells = vec![
        Cell::new(format!("{}{by}", size.what), SMALL),
        one(&size.size, if size.principal && form == Form::Lean { SIZE } else { SMALL }),
        one(&size.least, SMALL),
        one(&size.most, SMALL),
    ];
    cells.into_iter().chain(boxes(size, content.count)).collect()
}

/// The sizes to make at the foot of the room, at most so many, and as many as leave the drawing its share.
fn size_table(content: &Content, room: Area, most: usize, form: Form) -> (Vec<Mark>, usize) {
    let sizes: Vec<&SizeRow> = content.to_make().take(most).collect();
    let each = if form == Form::Double { 2 } else { 1 };
    let cells = |size: &&SizeRow| match form {
        Form::Large => measure_cells(size, content.count),
        _ => lean_cells(content, size, form),
    };
    let of_row = |row: &[&SizeRow]| row.iter().flat_map(cells).collect::<Vec<Cell>>();
    let lines: Vec<(usize, Vec<Cell>)> = sizes.chunks(each).map(|row| (row.len(), of_row(row))).collect();
    let all: Vec<Vec<Cell>> = lines.iter().map(|(_, cells)| cells.clone()).collect();
    let header = match form {
        Form::Double => [double_header(content), double_header(content)].concat(),
        _ => measure_header(content.count),
    };
    let mut columns = match form {
        Form::Double => double_columns(room.width(), &header, &all),
        _ => measure_columns(room.width(), content.count),
    };
    on_the_point(&mut columns, &all);
    let least = match form {
        Form::Large => WRITING,
        Form::Tight | Form::Double => 0.0,
        Form::Lean => WRITING_LEAN,
    };
    let mut rows = vec![Row::new(&columns, &header, 0.0)];
    let mut height: f64 = rows.iter().map(|r| r.height).sum();
    let mut shown = 0;
    for (count, cells) in &lines {
        let row = Row::new(columns.get(..cells.len()).unwrap_or(&columns), cells, least);
        if height + row.height > room.height() * (1.0 - DRAWING_SHARE) && !content.drawing.views.is_empty() {
            break;
        }
        height += row.height;
        shown += count;
        rows.push(row);
    }
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

/// Two sizes beside each other, each with a box: no figure is broken, the boxes are wide enough to write in, and the names
/// have the rest.
fn double_columns(width: f64, header: &[Cell], rows: &[Vec<Cell>]) -> Vec<Column> {
    let half = header.len() / 2;
    let widest = |i: usize| {
        let rows = rows.iter().map(Vec::as_slice).chain(std::iter::once(header));
        let cells = rows.flat_map(|row| [row.get(i), row.get(i + half)]);
        cells.flatten().map(Cell::width).fold(0.0, f64::max)
    };
    let figures: Vec<f64> = (1..half.saturating_sub(1)).map(widest).collect();
    let names = width / 2.0 - figures.iter().sum::<f64>() - BOX_DOUBLE;
    let all: Vec<Column> = std::iter::once(Column::left(names))
        .chain(figures.into_iter().map(Column::middle))
        .chain(std::iter::once(Column::middle(BOX_DOUBLE)))
        .collect();
    [all.as_slice(), &all].concat()
}

/// Width of a box to write in where two sizes stand beside each other, mm.
const BOX_DOUBLE: f64 = 11.5;

fn double_header(content: &Content) -> Vec<Cell> {
    let heads = ["What", &format!("In {}", content.unit), "Least", "Most", "Is"];
    heads.map(|word| Cell::new(word, SMALL)).to_vec()
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
    mind(&step.mind, indent, flow);
    if let Some((grid, table, wants)) = table {
        flow.need(wants);
        flow.gap(1.5);
        flow.text(&grid.title, SMALL, indent);
        flow.gap(1.0);
        table.draw(indent, flow);
        flow.gap(1.0);
    }
    if !first.is_empty() {
        flow.gap(0.5);
        let each: Vec<String> = first.into_iter().map(measured_words).collect();
        flow.text(&format!("Measure {} (boxes: table of sizes).", each.join("; ")), SMALL, indent);
    }
    if !own.is_empty() {
        flow.gap(1.5);
        let columns = measured_columns(flow.width() - indent, content.count);
        let least = flow.writing(WRITING);
        for measure in own {
            flow.row(&Row::new(&columns, &measured_cells(measure, content.count), least), indent);
        }
    }
    flow.gap(if flow.is_dense() { 1.0 } else { 3.0 });
}

/// A size whose box stands in the table of sizes.
fn measured_words(measure: &MeasureRow) -> String {
    let row = &measure.row;
    format!("{} with {}, {}", row.what, measure.with, between(row))
}

/// The limits in the unit shown first, or the size where it has none.
fn between(row: &SizeRow) -> String {
    match (row.least.first(), row.most.first()) {
        (Some(least), Some(most)) if !least.is_empty() => format!("{least} to {most}"),
        _ => row.size[0].clone(),
    }
}

/// A long table of few columns stands in two or three parts beside each other.
fn folded(grid: &Grid) -> Grid {
    let (columns, rows) = (grid.columns.len(), grid.rows.len());
    // A figure keeps its unit beside it, for which a part of the width has no room.
    let bare = grid.rows.iter().flatten().all(|cell| !cell.contains(' '));
    if columns > 4 || rows < 6 || !bare {
        return grid.clone();
    }
    let parts = if columns == 3 && rows > 8 { 3 } else { 2 };
    let high = rows.div_ceil(parts);
    let cells = |i: usize| grid.rows.get(i).cloned().unwrap_or_else(|| vec![String::new(); columns]);
    let row = |i: usize| (0..parts).flat_map(|part| cells(part * high + i)).collect();
    let heads = (0..parts).flat_map(|_| grid.columns.iter().cloned()).collect();
    Grid { title: grid.title.clone(), columns: heads, rows: (0..high).map(row).collect() }
}

/// Height of a size to measure with its box, mm.
const MEASURED: f64 = 14.0;

/// The words, and boxes that share the rest.
fn measured_columns(width: f64, count: u32) -> Vec<Column> {
    let boxes = count.clamp(1, BOXES);
    let box_width = BOX_WIDTH.min(width * 0.4 / f64::from(boxes));
    let words = Column::left(width - box_width * f64::from(boxes));
    std::iter::once(words).chain((0..boxes).map(|_| Column::left(box_width))).collect()
}

/// Width of a box to write in, mm.
const BOX_WIDTH: f64 = 19.0;

/// What is measured, its size and limits, with what; then the boxes, each with the number of its piece.
fn measured_cells(measure: &MeasureRow, count: u32) -> Vec<Cell> {
    let row = &measure.row;
    let words = format!("{} {}: {}", row.what, between(row), measure.with);
    let heads = box_heads(count).into_iter().zip(boxes(row, count));
    let numbers = heads.map(|(number, own)| {
        let head = Cell::new(if count > 1 { number } else { String::new() }, SMALL);
        own.0.into_iter().fold(head, |cell, (words, height)| cell.and(words, height))
    });
    std::iter::once(Cell::new(words, SMALL)).chain(numbers).collect()
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
        let mut columns = widths(&header, &rows, room);
        on_the_point(&mut columns, &rows);
        Self::new(&columns, &header, &rows, 0.0)
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
