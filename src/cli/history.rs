//! `history`: what was measured of each size over time, as a table and as a picture, and whether it moves.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use clap::Args;
use rayon::prelude::*;
use serde_json::{Value as Json, json};

use super::parts::parts_and_shop;
use super::reading::{Texts, shown, text_of};
use super::{Exit, rounded, wrong};
use crate::export::text::{aligned, wrap};
use crate::families::common::measured;
use crate::formulas::trend::{self, Observed, Trend};
use crate::record::design::{Design, Dimension, Value};
use crate::record::reading::Reading;
use crate::record::show;
use crate::sheet::{Anchor, Line, Mark, Page, Point, SMALL, Text};
use crate::units::date::Date;
use crate::units::{Angle, Length};

/// Arguments of `history`.
#[derive(Args)]
pub struct History {
    /// Part files, or folders of them
    #[arg(default_value = "parts")]
    paths: Vec<PathBuf>,
    /// Write the picture of every size into this folder, one SVG each
    #[arg(long, value_name = "FOLDER")]
    pictures: Option<PathBuf>,
    /// Print JSON
    #[arg(long)]
    json: bool,
}

/// A size of one piece over time, the oldest reading first.
struct Course<'a> {
    design: &'a Design,
    dimension: &'a Dimension,
    piece: u32,
    readings: Vec<&'a Reading>,
    trend: Option<Trend>,
}

/// `history`.
pub fn history(call: &History, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Exit> {
    let (files, shop, mut exit) = match parts_and_shop(&call.paths, err)? {
        Ok(found) => found,
        Err(exit) => return Ok(exit),
    };
    let texts = Texts::default();
    // A part without readings has no history and need not be worked.
    let work = |path: &PathBuf| {
        let text = text_of(path)?;
        let has = text.contains(measured::MEASURED.name);
        has.then(|| texts.work_as(path, &text, &shop.profile)).transpose()
    };
    let worked: Vec<_> = files.par_iter().map(work).collect();
    let (mut said, mut all) = (0, Vec::new());
    for design in worked {
        match design {
            Ok(Some(design)) => {
                for course in courses(&design) {
                    said += 1;
                    if call.json {
                        all.push(as_json(&course));
                    } else {
                        write!(out, "{}", as_text(&course))?;
                    }
                    if let Some(folder) = &call.pictures
                        && let Err(error) = picture(&course, folder)
                    {
                        writeln!(err, "error: cannot write into {}: {error}", shown(folder))?;
                        return Ok(Exit::Disk);
                    }
                }
            }
            Ok(None) => {}
            Err((status, message)) => {
                writeln!(err, "{}", message.trim_end())?;
                exit = exit.max(status);
            }
        }
    }
    if call.json {
        write!(out, "{}", crate::export::json::to_text(&Json::Array(all)))?;
    } else if said == 0 && exit == Exit::Fine {
        return wrong(err, "nothing was measured yet\n  help: `setdown record PART what=value` writes a reading");
    }
    Ok(exit)
}

/// Every size of every piece that was measured.
fn courses(design: &Design) -> Vec<Course<'_>> {
    let mut found = Vec::new();
    for dimension in design.dimensions.iter().filter(|d| !d.readings.is_empty()) {
        let mut pieces: Vec<u32> = dimension.readings.iter().map(|r| r.piece).collect();
        pieces.sort_unstable();
        pieces.dedup();
        for piece in pieces {
            let mut readings: Vec<&Reading> = dimension.readings.iter().filter(|r| r.piece == piece).collect();
            // What has no day stands where the file has it, before the first that has one.
            readings.sort_by_key(|r| r.on);
            let trend = trend_of(&readings);
            found.push(Course { design, dimension, piece, readings, trend });
        }
    }
    found
}

/// The line through the readings since metal was last cut.
fn trend_of(readings: &[&Reading]) -> Option<Trend> {
    let since = readings.iter().rposition(|r| r.after_cut).unwrap_or(0);
    let point = |r: &&Reading| {
        let day = f64::from(r.on?.days());
        Some(Observed { day, value: r.value.number(), standard: r.u.number() / 2.0 })
    };
    let points: Vec<Observed> = readings.iter().skip(since).filter_map(point).collect();
    trend::trend(&points).ok()
}

impl Course<'_> {
    fn say(&self, number: f64) -> String {
        let value = match self.dimension.value {
            Value::Angle(_) => Value::Angle(Angle::degrees(number)),
            _ => Value::Length(Length::mm(number).rounded()),
        };
        show::value(&value, self.design.header.unit)
    }

    /// The limits as every sheet prints them: lengths rounded inward.
    fn between(&self, lower: f64, upper: f64) -> String {
        let unit = self.design.header.unit;
        match self.dimension.value {
            Value::Angle(_) => format!("{} to {}", self.say(lower), self.say(upper)),
            _ => {
                let [least, most] = show::limit_pair(Length::mm(lower), Length::mm(upper), unit);
                format!("{least} to {most} {}", show::unit_name(unit))
            }
        }
    }

    fn name(&self) -> String {
        let piece = if self.design.header.count > 1 { format!(", piece {}", self.piece) } else { String::new() };
        format!("{}: {}{piece}", self.design.header.name, self.dimension.label)
    }

    fn limits(&self) -> Option<(f64, f64)> {
        let (lower, upper) = measured::limits(self.dimension)?;
        Some((if lower.is_finite() { lower } else { 0.0 }, upper))
    }

    /// From where to where the picture reaches: the limits and all readings, with a tenth more on each side.
    fn reach(&self) -> (f64, f64) {
        let ends = self.readings.iter().flat_map(|r| {
            let (v, u) = (r.value.number(), r.u.number());
            [v - u, v + u]
        });
        let limits = self.limits().into_iter().flat_map(|(l, u)| [l, u]);
        let all: Vec<f64> = ends.chain(limits).collect();
        let (least, most) = all.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, m), x| (l.min(*x), m.max(*x)));
        let more = ((most - least) * 0.1).max(1e-6);
        (least - more, most + more)
    }

    /// What the trend says, one sentence; none where there are too few readings with a day.
    fn moves(&self) -> Option<String> {
        let t = self.trend?;
        let (year, open) = (t.slope * 365.25, 2.0 * t.standard_slope * 365.25);
        if !t.is_sure() {
            return Some(format!(
                "moves by {} ± {} a year: the readings cannot tell that it moves",
                self.say(year),
                self.say(open)
            ));
        }
        let mut text = format!("moves by {} ± {} a year (k = 2)", self.say(year), self.say(open));
        let (lower, upper) = self.limits()?;
        let limit = if t.slope > 0.0 { upper } else { lower };
        if let Some((from, to)) = t.reaches(limit) {
            let day = |d: f64| Date::from_days(d.clamp(-1e7, 1e7) as i32).map(|d| d.to_string());
            let when = match (day(from), day(to)) {
                (Some(from), Some(to)) => format!("between {from} and {to}"),
                (Some(from), None) => format!("not before {from}"),
                _ => "later than anybody keeps a calendar".into(),
            };
            text += &format!("; it reaches {} {when}, if it goes on so", self.say(limit));
        }
        Some(text)
    }
}

/// Characters of a picture.
const WIDE: usize = 48;

/// A reading on a line: limits as `[` and `]`, the reading as `o` where it is good, `x` where it is not, `?` between, what is open
/// of it as `-`.
fn line(course: &Course, r: &Reading) -> String {
    let (from, to) = course.reach();
    let place =
        |x: f64| (((x - from) / (to - from)) * (WIDE - 1) as f64).round().clamp(0.0, (WIDE - 1) as f64) as usize;
    let mut cells = vec![' '; WIDE];
    let (v, u) = (r.value.number(), r.u.number());
    let mut put = |at: usize, c: char| {
        if let Some(cell) = cells.get_mut(at) {
            *cell = c;
        }
    };
    (place(v - u)..=place(v + u)).for_each(|at| put(at, '-'));
    if let Some((lower, upper)) = course.limits() {
        put(place(lower), '[');
        put(place(upper), ']');
    }
    let mark = match r.decision {
        Some(crate::record::reading::Decision::Accept) | None => 'o',
        Some(crate::record::reading::Decision::Reject) => 'x',
        Some(crate::record::reading::Decision::Open) => '?',
    };
    put(place(v), mark);
    cells.into_iter().collect()
}

fn day(r: &Reading) -> String {
    r.on.map_or_else(|| "no day".into(), |d| d.to_string())
}

fn as_text(course: &Course) -> String {
    let unit = course.design.header.unit;
    let mut text = format!("{}\n", course.name());
    if let Some((lower, upper)) = course.limits() {
        text += &format!("  limits {}\n", course.between(lower, upper));
    }
    let row = |r: &&Reading| {
        let said = r.decision.map_or("", |d| d.said());
        let more = if r.after_cut { "after a cut" } else { "" };
        vec![
            day(r),
            show::value(&r.value, unit),
            format!("± {}", show::value(&r.u, unit)),
            line(course, r),
            said.into(),
            more.into(),
        ]
    };
    let rows: Vec<Vec<String>> = course.readings.iter().map(row).collect();
    for line in aligned(&rows) {
        text += &format!("  {line}\n");
    }
    if let Some(moves) = course.moves() {
        text += &format!("  {moves}\n");
    }
    text + "\n"
}

fn as_json(course: &Course) -> Json {
    let reading = |r: &&Reading| {
        json!({
            "on": r.on.map(|d| d.to_string()),
            "value": rounded(r.value.number()),
            "u": rounded(r.u.number()),
            "decision": r.decision.map(|d| d.word()),
            "after_cut": r.after_cut,
            "with": r.with,
        })
    };
    let limits = course.limits();
    json!({
        "file": course.design.header.file,
        "key": course.dimension.key,
        "label": course.dimension.label,
        "piece": course.piece,
        "unit": course.dimension.value.unit(),
        "lower": limits.map(|(l, _)| rounded(l)),
        "upper": limits.map(|(_, u)| rounded(u)),
        "readings": course.readings.iter().map(reading).collect::<Vec<_>>(),
        "per_year": course.trend.map(|t| rounded(t.slope * 365.25)),
        "per_year_u": course.trend.map(|t| rounded(2.0 * t.standard_slope * 365.25)),
        "moves": course.trend.map(|t| t.is_sure()),
        "text": course.moves(),
    })
}

/// Writes the picture of a size.
fn picture(course: &Course, folder: &Path) -> io::Result<()> {
    fs::create_dir_all(folder)?;
    let piece = if course.design.header.count > 1 { format!("-{}", course.piece) } else { String::new() };
    let name = format!("{}-{}{piece}.svg", course.design.header.stem, course.dimension.key);
    fs::write(folder.join(name), svg(course))
}

/// Paper of a picture and the room for its curve, mm.
const PAPER: (f64, f64) = (160.0, 90.0);
const LEFT: f64 = 34.0;
const RIGHT: f64 = 150.0;
const BOTTOM: f64 = 22.0;
const TOP: f64 = 74.0;

/// The readings as points with what is open of them as bars, the limits as broken lines, the trend where there is one.
fn svg(course: &Course) -> String {
    let mut page = Page::new(PAPER.0, PAPER.1, course.name());
    let (low, high) = course.reach();
    let y = |value: f64| BOTTOM + (value - low) / (high - low) * (TOP - BOTTOM);
    let days: Vec<f64> = course.readings.iter().enumerate().map(|(i, r)| day_number(course, i, r)).collect();
    let (first, last) = days.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), d| (a.min(*d), b.max(*d)));
    let x = |day: f64| LEFT + 4.0 + (day - first) / (last - first).max(1.0) * (RIGHT - LEFT - 8.0);
    let mut put = |mark: Mark| page.marks.push(mark);
    let text = |at: Point, words: String, anchor| Mark::Text(Text::new(at, SMALL, words).anchored(anchor));
    put(Mark::Text(Text::new(Point::new(LEFT, TOP + 7.0), 3.5, course.name())));
    put(Mark::line(Point::new(LEFT, BOTTOM), Point::new(RIGHT, BOTTOM), Line::Narrow));
    put(Mark::line(Point::new(LEFT, BOTTOM), Point::new(LEFT, TOP), Line::Narrow));
    for limit in course.limits().into_iter().flat_map(|(l, u)| [l, u]) {
        put(Mark::line(Point::new(LEFT, y(limit)), Point::new(RIGHT, y(limit)), Line::Hidden));
        put(text(Point::new(LEFT - 1.5, y(limit) - 1.0), course.say(limit), Anchor::End));
    }
    for (r, day) in course.readings.iter().zip(&days) {
        let (at, value, u) = (x(*day), r.value.number(), r.u.number());
        put(Mark::line(Point::new(at, y(value - u)), Point::new(at, y(value + u)), Line::Narrow));
        put(Mark::line(Point::new(at - 1.2, y(value)), Point::new(at + 1.2, y(value)), Line::Wide));
    }
    for (r, day, anchor) in
        [(course.readings.first(), first, Anchor::Start), (course.readings.last(), last, Anchor::End)]
    {
        if let Some(r) = r.filter(|_| first < last || anchor == Anchor::Start) {
            put(text(Point::new(x(day), BOTTOM - 5.0), self::day(r), anchor));
        }
    }
    if let Some(t) = course.trend {
        put(Mark::line(Point::new(x(first), y(t.at(first))), Point::new(x(last), y(t.at(last))), Line::Centre));
    }
    if let Some(moves) = course.moves() {
        for (i, line) in wrap(&moves, 75).iter().enumerate() {
            put(text(Point::new(LEFT, BOTTOM - 10.0 - 4.0 * i as f64), line.clone(), Anchor::Start));
        }
    }
    crate::export::svg::write(&page)
}

/// The day of a reading on the axis; where not all have one, its place in their order.
fn day_number(course: &Course, i: usize, r: &Reading) -> f64 {
    let all = course.readings.iter().all(|r| r.on.is_some());
    r.on.filter(|_| all).map_or(i as f64, |d| f64::from(d.days()))
}
