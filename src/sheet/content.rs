//! Everything that a sheet says about one part, as finished text: the sheet arranges it and works nothing out.

use crate::record::drawing::Drawing;
use crate::record::look::Look;
use crate::sheet::Mark;
use crate::sheet::scale::Paper;
use crate::sheet::symbols::Projection;
use crate::sheet::view::Labels;

/// How the sheet is made up; what is empty is left out of the title block.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Style {
    /// Paper.
    pub paper: Paper,
    /// Method of projection.
    pub projection: Projection,
    /// Date of issue, as given.
    pub date: Option<String>,
    /// Owner of the drawing.
    pub owner: Option<String>,
    /// Who drew it.
    pub creator: Option<String>,
    /// Who approved it.
    pub approved: Option<String>,
}

/// A size in the make-and-measure table.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct SizeRow {
    /// Key of the dimension.
    pub key: String,
    /// What it is.
    pub what: String,
    /// What sets its limits.
    pub by: String,
    /// Size with unit, and in the other unit.
    pub size: [String; 2],
    /// Least size, and in the other unit; empty without limits.
    pub least: [String; 2],
    /// Greatest size, and in the other unit.
    pub most: [String; 2],
    /// Where it comes from.
    pub how: String,
    /// One of the few shown large on the first sheet.
    pub principal: bool,
    /// It is made: drawn with limits on the picture of the part.
    pub made: bool,
    /// It can be measured: it is drawn, it has limits, or a step of the work says with what.
    pub measurable: bool,
    /// What was measured of it.
    pub filled: Vec<Filled>,
}

/// What was recorded of a size, for its box.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Filled {
    /// Which piece, from 1.
    pub piece: u32,
    /// The figure.
    pub value: String,
    /// Good or not, and the day.
    pub said: String,
}

/// A table of text.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Grid {
    /// Heading.
    pub title: String,
    /// Column headings.
    pub columns: Vec<String>,
    /// Rows.
    pub rows: Vec<Vec<String>>,
}

/// A size measured after a step.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct MeasureRow {
    /// The size.
    pub row: SizeRow,
    /// With which instrument.
    pub with: String,
}

/// A step of the work.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct StepText {
    /// Machine or place.
    pub at: String,
    /// What is done.
    pub text: String,
    /// The table that belongs to it.
    pub table: Option<Grid>,
    /// What is measured after it.
    pub measure: Vec<MeasureRow>,
    /// Safety lines in a few words, where the work that they concern is met first.
    pub mind: Vec<String>,
}

/// How a check came out, for the mark in front of it.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default)]
pub enum Outcome {
    /// In order.
    #[default]
    Ok,
    /// To be watched.
    Caution,
    /// Does not work.
    Fail,
}

/// A check.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct FindingText {
    /// How it came out.
    pub outcome: Outcome,
    /// What was checked.
    pub what: String,
    /// Value found; may be empty.
    pub value: String,
    /// Limit; may be empty.
    pub limit: String,
    /// The reason.
    pub because: String,
    /// Where the rule comes from.
    pub source: String,
    /// What clears it, or what is to be done; may be empty.
    pub does: String,
}

/// A picture with its title, ready to be set on a page.
pub type Titled = (String, Vec<Mark>);

/// Everything on the sheets of one part.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Content {
    /// Name of the part.
    pub name: String,
    /// Its number: the stem of its files.
    pub number: String,
    /// Changes whenever one of its figures changes.
    pub revision: String,
    /// What kind of part.
    pub kind: String,
    /// Material; may be empty.
    pub material: String,
    /// How many are wanted.
    pub count: u32,
    /// Note; may be empty.
    pub note: String,
    /// Unit of the figures on the drawing: `mm` or `in`.
    pub unit: String,
    /// Limits of sizes without limits of their own, e.g. `ISO 2768-m`; may be empty.
    pub general: String,
    /// Views.
    pub drawing: Drawing,
    /// What stands on the dimension of each key.
    pub labels: Labels,
    /// Pictures with their titles, ready to be set on a page.
    pub pictures: Vec<Titled>,
    /// Those that stand with the tables at hand, after the work.
    pub loads: Vec<Titled>,
    /// Pictures that stand among the reasons.
    pub further: Vec<Titled>,
    /// All sizes.
    pub sizes: Vec<SizeRow>,
    /// The work in order.
    pub steps: Vec<StepText>,
    /// Tables that belong to no step.
    pub tables: Vec<Grid>,
    /// Those of them that are wanted at the bench.
    pub at_hand: Vec<Grid>,
    /// How it stands, what to do now, the figures that matter.
    pub look: Look,
    /// Checks.
    pub findings: Vec<FindingText>,
    /// What is to be known beside the checks.
    pub notes: Vec<String>,
    /// From which inputs spreads come.
    pub decides: Vec<String>,
    /// Safety lines in full.
    pub cautions: Vec<String>,
    /// In a few words those that concern no step.
    pub mind: Vec<String>,
    /// Tools and stock to lay out.
    pub tools: Vec<String>,
}

impl Content {
    /// The sizes that are made or measured, those that decide first; each has a box to write in.
    pub fn to_make(&self) -> impl Iterator<Item = &SizeRow> {
        let limited = |s: &&SizeRow| s.least.iter().any(|l| !l.is_empty());
        let decide = self.sizes.iter().filter(|s| s.principal).filter(limited);
        decide.chain(self.sizes.iter().filter(|s| s.made && !s.principal))
    }

    /// The line that stands at the top of the first sheet.
    pub fn verdict(&self) -> String {
        let fail = if self.look.fails { "FAIL. Not to be made or used as it is. " } else { "" };
        format!("{fail}{}; {} checks", self.look.verdict, self.look.checks)
    }
}
