//! The finished answer for one part: everything that any output shows, worked out once.
//!
//! A family records its sizes, findings, steps and cautions here; the outputs only read.
//! Lengths are rounded to 0.1 µm when recorded, and the family goes on with the rounded
//! value, so that a person with the sheet and a pocket calculator gets the same findings.

use crate::record::drawing::{Drawing, Picture};
use crate::record::key::{Given, Key, Size, TableName};
use crate::record::lever::Clearing;
pub use crate::record::value::Value;

use crate::record::reading::Reading;
use crate::record::wants::Wants;
use crate::shape::{Cutting, Solid};
use crate::source::{Confirmed, Source};
use crate::units::{Angle, Length, LengthUnit};

/// From where a dimension comes.
#[derive(Clone, PartialEq, Debug)]
pub enum Origin {
    /// Written in the part file, as typed.
    Given(String),
    /// Not written; the value that the tool assumes.
    Assumed(&'static str),
    /// Worked out; the formula in the symbols of the trade.
    Computed(&'static str),
}

/// Limits of size of a dimension.
#[derive(Clone, PartialEq, Debug)]
pub struct Limits {
    /// Least size.
    pub lower: Length,
    /// Greatest size.
    pub upper: Length,
    /// What sets them: a class such as `H7`, or `ISO 2768-m`, or a sentence.
    pub by: String,
    /// How well the table behind them is confirmed.
    pub confirmed: Confirmed,
}

/// The least that a limit of size may be: below it the sheets would show nought in one unit or the other.
pub const LEAST_LIMIT: Length = Length::um(2.0);

/// Limits of an angle.
#[derive(Clone, PartialEq, Debug)]
pub struct AngleLimits {
    /// Least angle.
    pub lower: Angle,
    /// Greatest angle.
    pub upper: Angle,
    /// What sets them: `ISO 2768-m`, or a sentence.
    pub by: String,
    /// How well the table behind them is confirmed.
    pub confirmed: Confirmed,
}

/// One size or figure of the part.
#[derive(Clone, PartialEq, Debug)]
pub struct Dimension {
    /// The key of the part file, or the name of the result.
    pub key: String,
    /// What it is, in the words of the trade.
    pub label: String,
    /// How large it is.
    pub value: Value,
    /// Between which sizes it may lie, for a size that is made.
    pub limits: Option<Limits>,
    /// Its limits may be nought or less: a float, a height or a gap, not a size of the part.
    pub may_vanish: bool,
    /// The same for an angle.
    pub angle_limits: Option<AngleLimits>,
    /// Where it comes from.
    pub origin: Origin,
    /// One of the few that decide whether the part works: shown large on the sheet.
    pub principal: bool,
    /// From which inputs its spread comes, the largest first; they add up to one. None where it has none.
    pub shares: Vec<Share>,
    /// What was measured of it, in the order of the file.
    pub readings: Vec<Reading>,
}

impl Dimension {
    /// The readings that count, one of each piece, in the order of the pieces.
    pub fn measured(&self) -> Vec<&Reading> {
        let mut found: Vec<&Reading> = self.readings.iter().filter(|r| r.counts).collect();
        found.sort_by_key(|r| r.piece);
        found
    }
}

/// What one input gives to a spread.
#[derive(Clone, PartialEq, Debug)]
pub struct Share {
    /// The input.
    pub what: String,
    /// Its share of the variance, 0 to 1.
    pub share: f64,
}

/// How a check came out, by one rule for all families. Ordered from best to worst.
///
/// Every caution and every failure can be cleared by a change of the part, its work or its file. What no change clears is
/// a standing remark of the trade (a locator is not a tie-down) or a figure that nobody confirmed: that is a [`Note`] or a
/// safety line, and a sound part reads "in order".
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Verdict {
    /// In order.
    Ok,
    /// It works, but costs accuracy or life, or wants attention.
    Caution,
    /// It does not work, is unsafe, or lies beyond what the model behind the figures can say.
    Fail,
}

/// What the value of a check is held against.
#[derive(Clone, PartialEq, Debug)]
pub enum Limit {
    /// Nothing.
    None,
    /// It must not be less.
    AtLeast(Value),
    /// It must not be more.
    AtMost(Value),
    /// It is the lower end of a range, and this the upper.
    To(Value),
    /// It stands beside this one, for comparison.
    Against(Value),
}

impl Limit {
    /// The value.
    pub const fn value(&self) -> Option<&Value> {
        match self {
            Self::None => None,
            Self::AtLeast(v) | Self::AtMost(v) | Self::To(v) | Self::Against(v) => Some(v),
        }
    }

    /// What stands before the value: `at least`.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::None => "",
            Self::AtLeast(_) => "at least",
            Self::AtMost(_) => "at most",
            Self::To(_) => "to",
            Self::Against(_) => "against",
        }
    }

    /// Whether a value is beyond a bound; what is no number misses it.
    pub fn is_missed_by(&self, value: &Value) -> bool {
        match self {
            Self::AtLeast(bound) => value.number().partial_cmp(&bound.number()).is_none_or(std::cmp::Ordering::is_lt),
            Self::AtMost(bound) => value.number().partial_cmp(&bound.number()).is_none_or(std::cmp::Ordering::is_gt),
            Self::None | Self::To(_) | Self::Against(_) => false,
        }
    }
}

impl From<Option<Value>> for Limit {
    fn from(beside: Option<Value>) -> Self {
        beside.map_or(Self::None, Self::Against)
    }
}

/// One check, with its reason.
#[derive(Clone, PartialEq, Debug)]
pub struct Finding {
    /// Name of the check, stable for programs.
    pub key: String,
    /// How it came out.
    pub verdict: Verdict,
    /// What was checked, in a few words.
    pub what: String,
    /// The value found, where there is one.
    pub value: Option<Value>,
    /// The limit it was held against.
    pub limit: Limit,
    /// The reason, in one sentence.
    pub because: String,
    /// The worst that the check may become.
    pub worst: Verdict,
    /// Where the rule comes from.
    pub source: Source,
    /// What clears it, where it is not in order; worked out when the part is done.
    pub clearing: Clearing,
}

/// What a person must know and no change of the part clears.
#[derive(Clone, PartialEq, Debug)]
pub struct Note {
    /// Name of the note, stable for programs.
    pub key: &'static str,
    /// What it is about, in a few words.
    pub what: &'static str,
    /// What is to be known, in one sentence.
    pub text: String,
    /// Where it comes from.
    pub source: Source,
}

/// A table of the sheet: roughing steps, answers at three frictions.
#[derive(Clone, PartialEq, Debug)]
pub struct Table {
    /// Name of the table, stable for programs.
    pub key: &'static str,
    /// Heading.
    pub title: String,
    /// Lengths stand in the other unit as well: what is measured with whatever lies at hand.
    pub both_units: bool,
    /// Column headings, units in the cells.
    pub columns: Vec<String>,
    /// Rows of values, each as long as `columns`.
    pub rows: Vec<Vec<Value>>,
}

impl Table {
    /// A table whose lengths stand in the unit shown first.
    pub fn new(
        name: TableName,
        title: impl Into<String>,
        columns: &[&str],
        rows: impl IntoIterator<Item = Vec<Value>>,
    ) -> Self {
        let columns = columns.iter().map(|c| (*c).to_string()).collect();
        Self { key: name.name(), title: title.into(), both_units: false, columns, rows: rows.into_iter().collect() }
    }

    /// The same with its lengths in the other unit as well.
    pub fn in_both_units(self) -> Self {
        Self { both_units: true, ..self }
    }
}

/// A size to be measured at a step of the work.
#[derive(Clone, PartialEq, Debug)]
pub struct Measure {
    /// Key of the dimension in [`Design::dimensions`] that is measured.
    pub key: String,
    /// With which instrument.
    pub with: String,
    /// The shop's own instruments of that name, with U; empty where it states none.
    pub own: String,
}

impl Measure {
    /// The instrument, and what the shop states of its own.
    pub fn said(&self) -> String {
        if self.own.is_empty() { self.with.clone() } else { format!("{} ({})", self.with, self.own) }
    }
}

/// One step of the work, in the order in which it is done.
#[derive(Clone, PartialEq, Debug)]
pub struct Operation {
    /// The machine or place: `lathe`, `drill press`, `bench`.
    pub at: &'static str,
    /// What is done, one sentence, sizes written out.
    pub text: String,
    /// The table that belongs to it.
    pub table: Option<TableName>,
    /// What is measured after it.
    pub measure: Vec<Measure>,
    /// Tools of a size that it needs: `twist drill 10.2 mm`.
    pub tools: Vec<String>,
    /// It fixes the part where it belongs: what is coated or greased comes before.
    pub fixes: bool,
}

/// A size that stands on the sheet only once it was measured.
#[derive(Clone, PartialEq, Debug)]
pub struct Readable {
    /// It, as drawn.
    pub dimension: Dimension,
    /// With what it is read where nobody says.
    pub with: &'static str,
    /// What its reading goes into.
    pub into: &'static str,
}

/// A figure of the shop that the readings of a part have told: what is written in the shop's file.
#[derive(Clone, PartialEq, Debug)]
pub struct Lesson {
    /// Table and key, `printer.hole_offset`.
    pub key: &'static str,
    /// Its value as it is written there.
    pub value: String,
    /// Table and key of its uncertainty.
    pub u_key: &'static str,
    /// The uncertainty as it is written there, 95 of 100.
    pub u: String,
    /// Table and key of the day.
    pub on_key: &'static str,
    /// The day of the last reading, where one is told.
    pub on: Option<String>,
    /// Other keys that stand beside it, with what is written there.
    pub beside: Vec<(&'static str, String)>,
}

/// A safety line.
#[derive(Clone, PartialEq, Debug)]
pub struct Caution {
    /// The whole of it: read before the work begins.
    pub line: String,
    /// The same in a few words, to stand beside the work.
    pub short: &'static str,
    /// Beginnings of the places whose work it concerns: `lathe`; none where it is the part that it concerns.
    pub at: &'static [&'static str],
}

/// Names and marks of the part.
#[derive(Clone, PartialEq, Debug)]
pub struct Header {
    /// Part file as given.
    pub file: String,
    /// Stem of the output files.
    pub stem: String,
    /// Family.
    pub family: &'static str,
    /// Name on the sheet.
    pub name: String,
    /// How many are wanted.
    pub count: u32,
    /// Material as given or assumed.
    pub material: Option<String>,
    /// Note for the sheet.
    pub note: Option<String>,
    /// Unit that is shown first.
    pub unit: LengthUnit,
}

/// Bar for some of the pieces.
#[derive(Clone, PartialEq, Debug)]
pub struct Bar {
    /// Material as it is bought.
    pub material: String,
    /// Diameter; none where none so thick is sold.
    pub across: Option<Length>,
    /// So many pieces.
    pub count: u32,
    /// Length of one, with what is held in the chuck.
    pub each: Length,
    /// How much of that length is held in the chuck, and is spared where pieces follow each other from one bar.
    pub grip: Length,
    /// Which piece, where there are several: `the spacer`.
    pub what: Option<String>,
}

/// Everything about one part.
#[derive(Clone, Debug)]
pub struct Design {
    /// Names.
    pub header: Header,
    /// Sizes and figures in the order of recording.
    pub dimensions: Vec<Dimension>,
    /// Checks in the order in which they were made.
    pub findings: Vec<Finding>,
    /// Tables referred to by operations or standing alone.
    pub tables: Vec<Table>,
    /// The tables without a step that are wanted at the bench.
    pub at_hand: Vec<TableName>,
    /// The work in order.
    pub operations: Vec<Operation>,
    /// Stock, tools and instruments to lay out.
    pub tools: Vec<String>,
    /// Bars to buy for it.
    pub bars: Vec<Bar>,
    /// What the whole job needs of it.
    pub wants: Wants,
    /// What a person must know beside the checks.
    pub notes: Vec<Note>,
    /// Safety lines that apply.
    pub cautions: Vec<Caution>,
    /// The solids: one, or several for a part made in segments.
    pub solids: Vec<Solid>,
    /// Views and which sizes stand where; without it the sheets show the bare solids.
    pub drawing: Option<Drawing>,
    /// Pictures that are no views of a part.
    pub pictures: Vec<Picture>,
    /// What the laser cutter gets, for flat parts.
    pub cutting: Option<Cutting>,
    /// An outline that is wrapped round the part to scribe along, unrolled: for paper, nobody cuts metal by it.
    pub wrap: Option<Cutting>,
    /// Sizes that are told only once they were measured.
    pub readable: Vec<Readable>,
    /// The same of a part that is put together of several plates, each with the suffix of its solid's name.
    pub cut_pieces: Vec<(String, Cutting)>,
    /// What its readings teach of the shop.
    pub lessons: Vec<Lesson>,
    /// Figures of a family that do not fit the list of dimensions, for JSON only; the texts shown to a person never come from here.
    pub figures: std::collections::BTreeMap<&'static str, serde_json::Value>,
}

impl Design {
    /// An empty design.
    pub fn new(header: Header) -> Self {
        Self {
            header,
            dimensions: Vec::new(),
            findings: Vec::new(),
            tables: Vec::new(),
            at_hand: Vec::new(),
            operations: Vec::new(),
            tools: Vec::new(),
            bars: Vec::new(),
            wants: Wants::default(),
            notes: Vec::new(),
            cautions: Vec::new(),
            solids: Vec::new(),
            drawing: None,
            pictures: Vec::new(),
            cutting: None,
            readable: Vec::new(),
            cut_pieces: Vec::new(),
            wrap: None,
            lessons: Vec::new(),
            figures: std::collections::BTreeMap::new(),
        }
    }

    /// The worst verdict among the findings; `Ok` where there are none.
    pub fn verdict(&self) -> Verdict {
        self.findings.iter().map(|f| f.verdict).max().unwrap_or(Verdict::Ok)
    }

    /// Every part file that is named in what is shown: its own, and those in which a change would stand.
    pub fn files_named(&mut self) -> impl Iterator<Item = &mut String> {
        let changes = self.findings.iter_mut().flat_map(|f| f.clearing.every_change());
        std::iter::once(&mut self.header.file).chain(changes.map(|change| &mut change.file))
    }

    /// What was recorded of that size.
    pub fn dimension(&self, size: &Size) -> Option<&Dimension> {
        self.named(size.name())
    }

    /// The dimension of that name: for outputs, which read names, and for tests. A family has its handles.
    pub fn named(&self, name: &str) -> Option<&Dimension> {
        self.dimensions.iter().find(|d| d.key == name)
    }

    fn recorded(&mut self, size: &Size) -> Option<&mut Dimension> {
        self.dimensions.iter_mut().find(|d| d.key == size.name())
    }

    fn record(&mut self, size: &Size, value: Value, origin: Origin) -> &mut Dimension {
        let dimension = Dimension {
            key: size.name().into(),
            label: size.label().into(),
            value,
            limits: None,
            may_vanish: false,
            angle_limits: None,
            origin,
            principal: false,
            shares: Vec::new(),
            readings: Vec::new(),
        };
        self.dimensions.push(dimension);
        let last = self.dimensions.len() - 1;
        #[allow(clippy::indexing_slicing, reason = "pushed on the line above")]
        &mut self.dimensions[last]
    }

    /// Records a length written in the part file; gives back the recorded (rounded) length.
    pub fn given_length(&mut self, key: &'static Key, given: &Given<Length>) -> Length {
        let value = given.value.rounded();
        self.record(&key.size(), Value::Length(value), Origin::Given(given.text.clone()));
        value
    }

    /// Records a length written in the part file under a name of its own (a key of a table inside the file).
    pub fn written_length(&mut self, size: &Size, given: &Given<Length>) {
        self.record(size, Value::Length(given.value.rounded()), Origin::Given(given.text.clone()));
    }

    /// Records any other value written in the part file.
    pub fn given<T: Copy>(&mut self, key: &'static Key, given: &Given<T>, wrap: fn(T) -> Value) -> T {
        self.record(&key.size(), wrap(given.value), Origin::Given(given.text.clone()));
        given.value
    }

    /// Records a value of that key: given, or else assumed for the stated reason.
    pub fn given_or<T: Copy>(
        &mut self,
        key: &'static Key,
        given: Option<&Given<T>>,
        assumed: T,
        wrap: fn(T) -> Value,
        why: &'static str,
    ) -> T {
        match given {
            Some(given) => self.given(key, given, wrap),
            None => {
                self.assumed(&key.size(), wrap(assumed), why);
                assumed
            }
        }
    }

    /// Records a word written in the part file.
    pub fn given_text(&mut self, key: &'static Key, given: &Given<String>) {
        self.record(&key.size(), Value::Text(given.value.clone()), Origin::Given(given.text.clone()));
    }

    /// Records a length of that key: given, or else assumed for the stated reason.
    pub fn length_or(
        &mut self,
        key: &'static Key,
        given: Option<&Given<Length>>,
        assumed: Length,
        why: &'static str,
    ) -> Length {
        match given {
            Some(given) => self.given_length(key, given),
            None => {
                let value = assumed.rounded();
                self.record(&key.size(), Value::Length(value), Origin::Assumed(why));
                value
            }
        }
    }

    /// Records a computed length; gives back the recorded (rounded) length.
    pub fn computed_length(&mut self, size: &Size, value: Length, formula: &'static str) -> Length {
        let value = value.rounded();
        self.record(size, Value::Length(value), Origin::Computed(formula));
        value
    }

    /// Records any other computed value.
    pub fn computed(&mut self, size: &Size, value: Value, formula: &'static str) {
        self.record(size, value, Origin::Computed(formula));
    }

    /// Records a value that is neither given nor computed, for the stated reason.
    pub fn assumed(&mut self, size: &Size, value: Value, why: &'static str) {
        self.record(size, value, Origin::Assumed(why));
    }

    /// Sets the limits of size of a recorded dimension. A size whose least is nought is nothing that can be made:
    /// [`Design::vanishing`] tells it.
    pub fn limit(&mut self, size: &Size, limits: Limits) {
        if let Some(dimension) = self.recorded(size) {
            dimension.limits = Some(limits);
        }
    }

    /// Sets the limits of a float, a height, a gap or an error of form, which may be nought or less.
    pub fn range(&mut self, size: &Size, limits: Limits) {
        self.limit(size, limits);
        if let Some(dimension) = self.recorded(size) {
            dimension.may_vanish = true;
        }
    }

    /// Sizes whose least limit is nought or would be shown as nought.
    pub fn vanishing(&self) -> impl Iterator<Item = (&Dimension, &Limits)> {
        let limited = self.dimensions.iter().filter(|d| !d.may_vanish);
        limited.filter_map(|d| d.limits.as_ref().map(|l| (d, l))).filter(|(_, l)| l.lower < LEAST_LIMIT)
    }

    /// Sets the limits of a recorded angle.
    pub fn limit_angle(&mut self, size: &Size, limits: AngleLimits) {
        if let Some(dimension) = self.recorded(size) {
            dimension.angle_limits = Some(limits);
        }
    }

    /// Says from which inputs the spread of a recorded figure comes, the largest first. What the inputs do only together, and not
    /// each by itself, is told as such, so that all add up to one.
    pub fn comes_from(&mut self, size: &Size, shares: impl IntoIterator<Item = (String, f64)>) {
        let mut shares: Vec<Share> = shares.into_iter().map(|(what, share)| Share { what, share }).collect();
        let sum: f64 = shares.iter().map(|s| s.share).sum();
        if !sum.is_finite() || sum <= 0.0 {
            return;
        }
        if sum > 1.0 {
            shares.iter_mut().for_each(|s| s.share /= sum);
        } else if sum < 0.995 {
            shares.push(Share { what: "several of them together".into(), share: 1.0 - sum });
        }
        shares.sort_by(|a, b| b.share.total_cmp(&a.share));
        if let Some(dimension) = self.dimensions.iter_mut().find(|d| d.key == size.name()) {
            dimension.shares = shares;
        }
    }

    /// Gives a recorded dimension another label, when it turns out to be one of two of a kind.
    pub fn relabel(&mut self, size: &Size, label: &str) {
        if let Some(dimension) = self.recorded(size) {
            dimension.label = label.into();
        }
    }

    /// Marks dimensions as the ones that decide whether the part works.
    pub fn principal(&mut self, sizes: &[&Size]) {
        sizes.iter().for_each(|size| self.mark(size, true));
    }

    /// Takes that mark away again.
    pub fn secondary(&mut self, sizes: &[&Size]) {
        sizes.iter().for_each(|size| self.mark(size, false));
    }

    fn mark(&mut self, size: &Size, principal: bool) {
        if let Some(dimension) = self.recorded(size) {
            dimension.principal = principal;
        }
    }

    /// Adds a finding whose verdict was decided by the caller.
    pub fn finding(
        &mut self,
        check: &Check,
        verdict: Verdict,
        value: Option<Value>,
        limit: impl Into<Limit>,
        because: impl Into<String>,
    ) {
        self.findings.push(Finding {
            key: check.key.into(),
            verdict,
            what: check.what.into(),
            value,
            limit: limit.into(),
            because: because.into(),
            worst: check.worst,
            source: check.source,
            clearing: Clearing::default(),
        });
    }

    /// Adds a finding of what was measured, in words of its own, with what is to be done next where it is not in order.
    pub fn told(
        &mut self,
        check: &Check,
        what: String,
        verdict: Verdict,
        (value, limit): (Value, Limit),
        because: String,
        next: Option<String>,
    ) {
        self.finding(check, verdict, Some(value), limit, because);
        if let Some(last) = self.findings.last_mut() {
            last.what = what;
            last.clearing.why_none = next;
        }
    }

    /// A length that may be measured, and stands among the sizes only then.
    pub fn may_be_read(&mut self, size: &Size, drawn: Length, (with, into): (&'static str, &'static str)) {
        let before = self.dimensions.len();
        self.computed_length(size, drawn, "as drawn");
        self.readable.extend(self.dimensions.drain(before..).map(|dimension| Readable { dimension, with, into }));
    }

    /// The same of an angle.
    pub fn angle_may_be_read(&mut self, size: &Size, drawn: Angle, (with, into): (&'static str, &'static str)) {
        let before = self.dimensions.len();
        self.computed(size, Value::Angle(drawn), "as set");
        self.readable.extend(self.dimensions.drain(before..).map(|dimension| Readable { dimension, with, into }));
    }

    /// Adds a table if it has rows.
    pub fn tabulate(&mut self, table: Table) {
        if !table.rows.is_empty() {
            self.tables.push(table);
        }
    }

    /// Adds a note once.
    pub fn note(&mut self, check: &Check, text: impl Into<String>) {
        let note = Note { key: check.key, what: check.what, text: text.into(), source: check.source };
        if !self.notes.contains(&note) {
            self.notes.push(note);
        }
    }

    /// Adds a finding: the value must be at least `limit` (else fail) and should be at least `wanted` (else caution).
    pub fn at_least(
        &mut self,
        check: &Check,
        value: Value,
        limit: Value,
        wanted: Option<Value>,
        because: impl Into<String>,
    ) -> Verdict {
        self.against(check, value, Limit::AtLeast(limit), wanted.map(Limit::AtLeast), because.into())
    }

    /// Adds a finding: the value must be at most `limit` (else fail) and should be at most `wanted` (else caution).
    pub fn at_most(
        &mut self,
        check: &Check,
        value: Value,
        limit: Value,
        wanted: Option<Value>,
        because: impl Into<String>,
    ) -> Verdict {
        self.against(check, value, Limit::AtMost(limit), wanted.map(Limit::AtMost), because.into())
    }

    /// Holds a value against a hard limit (missed: fail) and a wanted one (missed: caution).
    fn against(&mut self, check: &Check, value: Value, hard: Limit, wanted: Option<Limit>, because: String) -> Verdict {
        let verdict = match &wanted {
            _ if hard.is_missed_by(&value) => Verdict::Fail,
            Some(wanted) if wanted.is_missed_by(&value) => Verdict::Caution,
            _ => Verdict::Ok,
        };
        // It shows what was met, or what was missed first.
        let shown = if verdict == Verdict::Fail { hard } else { wanted.unwrap_or(hard) };
        self.finding(check, verdict, Some(value), shown, because);
        verdict
    }

    /// Adds a step of the work.
    pub fn step(&mut self, at: &'static str, text: impl Into<String>) -> &mut Operation {
        self.step_at(self.operations.len(), at, text.into())
    }

    fn step_at(&mut self, place: usize, at: &'static str, text: String) -> &mut Operation {
        let step = Operation { at, text, table: None, measure: Vec::new(), tools: Vec::new(), fixes: false };
        self.operations.insert(place, step);
        #[allow(clippy::indexing_slicing, reason = "inserted on the line above")]
        &mut self.operations[place]
    }

    /// Adds a step before the part is fixed where it belongs, after what is welded; the last where nothing fixes it.
    pub fn step_before_fixing(&mut self, at: &'static str, text: impl Into<String>) -> &mut Operation {
        let welded = self.operations.iter().rposition(|o| o.at == "welder").map_or(0, |i| i + 1);
        let fixing = self.operations.iter().skip(welded).position(|o| o.fixes).map(|i| i + welded);
        self.step_at(fixing.unwrap_or(self.operations.len()), at, text.into())
    }

    /// Every step from that one on fixes the part where it belongs.
    pub fn fixed_from(&mut self, first: usize) {
        self.operations.iter_mut().skip(first).for_each(|step| step.fixes = true);
    }

    /// Adds a safety line once: at which places, in a few words for the bench, and in full.
    pub fn caution(&mut self, at: &'static [&'static str], short: &'static str, line: impl Into<String>) {
        let line = line.into();
        if !self.cautions.iter().any(|c| c.line == line) {
            self.cautions.push(Caution { line, short, at });
        }
    }

    /// The safety lines in full.
    pub fn safety_lines(&self) -> Vec<String> {
        self.cautions.iter().map(|c| c.line.clone()).collect()
    }
}

impl Operation {
    /// Says which tool of a size this step needs; it comes into the list of what is laid out.
    pub fn tool(&mut self, tool: impl Into<String>) -> &mut Self {
        self.tools.push(tool.into());
        self
    }

    /// Says what is measured after this step and with what.
    pub fn measure(&mut self, size: &Size, with: impl Into<String>) -> &mut Self {
        self.measure.push(Measure { key: size.name().into(), with: with.into(), own: String::new() });
        self
    }

    /// Says which table belongs to this step.
    pub fn table(&mut self, table: TableName) -> &mut Self {
        self.table = Some(table);
        self
    }
}

/// A check: its name, what it looks at, and where the rule comes from. One constant stands beside the code that judges.
#[derive(Clone, Copy, Debug)]
pub struct Check {
    /// Name, stable for programs.
    pub key: &'static str,
    /// What is checked, in a few words.
    pub what: &'static str,
    /// The worst that it may become; what is only told, never judged, is at worst in order.
    pub worst: Verdict,
    /// Where the rule comes from.
    pub source: Source,
}

impl Verdict {
    /// The word that every output prints.
    pub fn word(self) -> &'static str {
        match self {
            Self::Ok => "ok",
            Self::Caution => "caution",
            Self::Fail => "fail",
        }
    }
}
