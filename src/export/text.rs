//! The plain bench sheet: everything about one part as text, to read in a terminal or print as it is.

use crate::record::design::{Design, Operation, Table, Verdict};
use crate::record::key::TableName;
use crate::record::look;
use crate::record::show::{self, DimensionLine};

/// Characters on a line.
const WIDTH: usize = 100;

/// The whole sheet.
pub fn bench_sheet(design: &Design) -> String {
    let mut sheet = Sheet::default();
    heading(&mut sheet, design);
    one_look(&mut sheet, design);
    sizes(&mut sheet, design);
    figures(&mut sheet, design);
    work(&mut sheet, design);
    loose_tables(&mut sheet, design);
    what_decides(&mut sheet, design);
    checks(&mut sheet, design);
    notes(&mut sheet, design);
    list(&mut sheet, "Lay out", &design.tools);
    list(&mut sheet, "Mind", &design.safety_lines());
    sheet.text
}

/// Sizes and findings without the order of work: what `check` prints.
pub fn check_sheet(design: &Design) -> String {
    let mut sheet = Sheet::default();
    heading(&mut sheet, design);
    one_look(&mut sheet, design);
    sizes(&mut sheet, design);
    figures(&mut sheet, design);
    what_decides(&mut sheet, design);
    checks(&mut sheet, design);
    notes(&mut sheet, design);
    list(&mut sheet, "Mind", &design.safety_lines());
    sheet.text
}

/// The few lines that come first: a heading, how it stands, what to do now.
pub fn look_sheet(design: &Design) -> String {
    let mut sheet = Sheet::default();
    if design.verdict() == Verdict::Ok {
        sheet.line(&format!("{}: in order ({})", design.header.name, design.header.file));
        return sheet.text;
    }
    heading(&mut sheet, design);
    one_look(&mut sheet, design);
    sheet.text
}

/// Every change that clears a finding, by finding.
pub fn change_sheet(design: &Design) -> String {
    let mut sheet = Sheet::default();
    heading(&mut sheet, design);
    for (line, finding) in show::finding_lines(design).iter().zip(&design.findings) {
        if finding.verdict == Verdict::Ok {
            continue;
        }
        sheet.wrapped(&format!("  {:<8}", line.verdict), &line.head);
        for (i, set) in finding.clearing.changes.iter().enumerate() {
            sheet.wrapped(&format!("    {:>3}  ", i + 1), &look::changes(set, &design.header.file));
        }
        if let Some(along) = &finding.clearing.along_with {
            let along = look::changes(std::slice::from_ref(along), &design.header.file);
            sheet.wrapped("    ", &format!("{along} clears another finding and this one"));
        }
        if let Some(why) = &finding.clearing.why_none {
            sheet.wrapped("    ", why);
        }
    }
    if design.verdict() == Verdict::Ok {
        sheet.line("  in order");
    }
    sheet.text
}

/// How it stands, what to do now, the figures that matter.
fn one_look(sheet: &mut Sheet, design: &Design) {
    let look = look::look(design);
    sheet.line(&format!("  {}", look.verdict));
    for (i, act) in look.now.iter().enumerate() {
        sheet.wrapped(&format!("  {:>2} {:<8}", i + 1, act.verdict), &act.found);
        if !act.does.is_empty() {
            sheet.wrapped("           > ", &act.does);
        }
    }
    if !look.figures.is_empty() {
        sheet.wrapped("  ", &look.figures.join("; "));
    }
}

/// Only the tables and findings whose keys begin with a word.
pub fn part_of_sheet(design: &Design, word: &str) -> String {
    let mut part = design.clone();
    part.tables.retain(|t| t.key.starts_with(word));
    part.findings.retain(|f| f.key.starts_with(word));
    part.operations.clear();
    let mut sheet = Sheet::default();
    headed(&mut sheet, &part, false);
    loose_tables(&mut sheet, &part);
    checks(&mut sheet, &part);
    sheet.text
}

#[derive(Default)]
struct Sheet {
    text: String,
}

impl Sheet {
    fn line(&mut self, line: &str) {
        self.text.push_str(line.trim_end());
        self.text.push('\n');
    }

    fn title(&mut self, title: &str) {
        self.line("");
        self.wrapped("", title);
        self.line(&"-".repeat(title.chars().count().min(WIDTH)));
    }

    /// Wraps after `first`, further lines indented to its width.
    fn wrapped(&mut self, first: &str, text: &str) {
        let indent = first.chars().count();
        for (i, line) in wrap(text, WIDTH.saturating_sub(indent)).iter().enumerate() {
            let head = if i == 0 { first.to_string() } else { " ".repeat(indent) };
            self.line(&format!("{head}{line}"));
        }
    }
}

/// Breaks text at spaces to lines of at most `width` characters.
pub fn wrap(text: &str, width: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let Some(last) = lines.last_mut() else { break };
        if last.is_empty() {
            last.push_str(word);
        } else if last.chars().count() + 1 + word.chars().count() <= width {
            last.push(' ');
            last.push_str(word);
        } else {
            lines.push(word.to_string());
        }
    }
    lines
}

fn heading(sheet: &mut Sheet, design: &Design) {
    headed(sheet, design, true);
}

/// With the revision, or without it where only a part of the figures is held: one file has one revision.
fn headed(sheet: &mut Sheet, design: &Design, whole: bool) {
    let h = &design.header;
    sheet.line(&h.name);
    sheet.line(&"=".repeat(h.name.chars().count().min(WIDTH)));
    let material = h.material.as_deref().map_or_else(String::new, |m| format!(", {m}"));
    let wanted = show::wanted(design).map_or_else(String::new, |words| format!(", {words}"));
    sheet.wrapped("", &format!("{}{material}{wanted}. Part file: {}", h.family, h.file));
    if whole {
        sheet.line(&format!("Revision of its figures: {}", show::revision(design)));
    }
    if let Some(note) = &h.note {
        sheet.wrapped("Note: ", note);
    }
    if design.verdict() == Verdict::Fail {
        sheet.line("");
        sheet.line("FAIL: at least one check below fails. Do not make this part as it is.");
    }
}

/// The sizes to make and measure: those with limits.
fn sizes(sheet: &mut Sheet, design: &Design) {
    let lines = show::dimension_lines(design);
    let made: Vec<&DimensionLine> = lines.iter().filter(|l| !l.least.is_empty()).collect();
    if made.is_empty() {
        return;
    }
    sheet.title(&format!(
        "Make and measure ({}, and {} under it)",
        show::unit_name(design.header.unit),
        show::unit_name(show::other_unit(design.header.unit))
    ));
    let mut rows = vec![["what", "size", "least", "most", "set by", "measured"].map(String::from)];
    for l in made {
        let boxes = if l.measured.is_empty() { "________".to_string() } else { l.measured.clone() };
        rows.push([l.label.clone(), l.size.clone(), l.least.clone(), l.most.clone(), l.by.clone(), boxes]);
        let (least, most) = l.other_limits.clone();
        rows.push([String::new(), l.other.clone(), least, most, String::new(), String::new()]);
    }
    columns(sheet, &rows);
}

/// Everything else that was given or worked out.
fn figures(sheet: &mut Sheet, design: &Design) {
    let lines = show::dimension_lines(design);
    let mut rows = vec![["what", "value", "other unit", "from"].map(String::from)];
    for l in lines.iter().filter(|l| l.least.is_empty()) {
        rows.push([l.label.clone(), l.size.clone(), l.other.clone(), l.how.clone()]);
    }
    if rows.len() > 1 {
        sheet.title("Figures");
        columns(sheet, &rows);
    }
}

/// Left-aligned columns, each as wide as its widest cell; the first row is the heading.
fn columns<const N: usize>(sheet: &mut Sheet, rows: &[[String; N]]) {
    let dynamic: Vec<Vec<String>> = rows.iter().map(|r| r.to_vec()).collect();
    for line in within(&dynamic, WIDTH - 2) {
        sheet.line(&format!("  {line}"));
    }
}

/// Rows of cells as lines of at most `room` characters, columns aligned: cells of the widest columns are broken.
fn within(rows: &[Vec<String>], room: usize) -> Vec<String> {
    let count = rows.iter().map(Vec::len).max().unwrap_or(0);
    let of =
        |i: usize, size: fn(&str) -> usize| rows.iter().filter_map(|r| r.get(i)).map(|c| size(c)).max().unwrap_or(0);
    let mut widths: Vec<usize> = (0..count).map(|i| of(i, |c| c.chars().count())).collect();
    let least: Vec<usize> = (0..count).map(|i| of(i, longest_word)).collect();
    while widths.iter().sum::<usize>() + 2 * count.saturating_sub(1) > room {
        let can = widths.iter_mut().zip(&least).filter(|(width, least)| **width > **least);
        let Some((widest, _)) = can.max_by_key(|(width, _)| **width) else { break };
        *widest -= 1;
    }
    let broken = rows.iter().flat_map(|row| {
        let cells: Vec<Vec<String>> = row.iter().zip(&widths).map(|(cell, width)| wrap(cell, *width)).collect();
        let high = cells.iter().map(Vec::len).max().unwrap_or(0);
        (0..high)
            .map(move |i| cells.iter().map(|c| c.get(i).cloned().unwrap_or_default()).collect())
            .collect::<Vec<_>>()
    });
    aligned(&broken.collect::<Vec<Vec<String>>>())
}

fn longest_word(cell: &str) -> usize {
    cell.split_whitespace().map(|word| word.chars().count()).max().unwrap_or(0)
}

/// Rows of cells as lines, columns aligned.
pub fn aligned(rows: &[Vec<String>]) -> Vec<String> {
    let count = rows.iter().map(Vec::len).max().unwrap_or(0);
    let width = |i: usize| rows.iter().filter_map(|r| r.get(i)).map(|c| c.chars().count()).max().unwrap_or(0);
    let widths: Vec<usize> = (0..count).map(width).collect();
    let pad = |(cell, w): (&String, &usize)| format!("{cell}{}", " ".repeat(w.saturating_sub(cell.chars().count())));
    rows.iter()
        .map(|row| row.iter().zip(&widths).map(pad).collect::<Vec<_>>().join("  ").trim_end().to_string())
        .collect()
}

fn work(sheet: &mut Sheet, design: &Design) {
    if design.operations.is_empty() {
        return;
    }
    sheet.title("Order of work");
    for (i, operation) in design.operations.iter().enumerate() {
        sheet.wrapped(&format!("{:>3} [ ] {}: ", i + 1, operation.at), &operation.text);
        measures(sheet, design, operation);
        if let Some(table) = operation.table.and_then(|name| design.tables.iter().find(|t| t.key == name.name())) {
            table_lines(sheet, design, table, "          ");
        }
    }
}

fn measures(sheet: &mut Sheet, design: &Design, operation: &Operation) {
    for measure in &operation.measure {
        let Some(dimension) = design.named(&measure.key) else { continue };
        let l = show::dimension_line(dimension, design.header.unit);
        let limits = if l.least.is_empty() { String::new() } else { format!(" ({} to {})", l.least, l.most) };
        let other = if l.other.is_empty() { String::new() } else { format!(", {}", l.other) };
        let measured = if l.measured.is_empty() { "________" } else { &l.measured };
        let words = format!("{} with {}: {}{limits}{other}   measured {measured}", l.label, measure.said(), l.size);
        sheet.wrapped("          measure ", &words);
    }
}

fn table_lines(sheet: &mut Sheet, design: &Design, table: &Table, indent: &str) {
    let mut rows = vec![table.columns.clone()];
    rows.extend(table.rows.iter().map(|r| r.iter().map(|v| cell(v, design)).collect()));
    for line in within(&rows, WIDTH - indent.len()) {
        sheet.line(&format!("{indent}{line}"));
    }
}

fn cell(value: &crate::record::design::Value, design: &Design) -> String {
    match value {
        crate::record::design::Value::Length(l) => show::length_both(*l, design.header.unit),
        other => show::value(other, design.header.unit),
    }
}

/// Tables that no step of the work refers to.
fn loose_tables(sheet: &mut Sheet, design: &Design) {
    let used: Vec<&str> = design.operations.iter().filter_map(|o| o.table.map(TableName::name)).collect();
    for table in design.tables.iter().filter(|t| !used.contains(&t.key)) {
        sheet.title(&table.title);
        table_lines(sheet, design, table, "  ");
    }
}

fn checks(sheet: &mut Sheet, design: &Design) {
    if design.findings.is_empty() {
        return;
    }
    sheet.title("Checks");
    for (line, finding) in show::finding_lines(design).iter().zip(&design.findings) {
        sheet
            .wrapped(&format!("  {:<8}", line.verdict), &format!("{} - {} [{}]", line.head, line.because, line.source));
        let does = look::does(&finding.clearing, &design.header.file);
        if !does.is_empty() {
            sheet.wrapped("          > ", &does);
        }
    }
}

/// From which inputs the spread of each figure comes: what to measure better, or to shim, first.
fn what_decides(sheet: &mut Sheet, design: &Design) {
    list(
        sheet,
        "What decides (shares of the variance)",
        &design.dimensions.iter().filter_map(show::shares).collect::<Vec<_>>(),
    );
}

fn notes(sheet: &mut Sheet, design: &Design) {
    list(sheet, "Notes", &design.notes.iter().map(show::note).collect::<Vec<_>>());
}

fn list(sheet: &mut Sheet, title: &str, lines: &[String]) {
    if lines.is_empty() {
        return;
    }
    sheet.title(title);
    for line in lines {
        sheet.wrapped("  - ", line);
    }
}
