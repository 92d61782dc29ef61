//! A drawing looked at as a cutter looks at it.

use std::collections::BTreeMap;

use super::doubled::{self, MOST_PAIRS, Undoubled};
use super::entities::{self, Beside, Drawn, Piece, What};
use super::fault::{Fault, Kind};
use super::join::{self, Run, TOGETHER};
use super::layer::Purpose;
use super::nested::{Outline, inside, nested};
use super::scan::{self, Refusal, Scanned};
use crate::shape::{CLOSEST_EDGES, Contour, Point, Segment, ShapeError, meeting, narrowest, near};
use crate::units::show::trimmed;
use crate::units::{Length, LengthUnit, MM_PER_INCH};

/// What is asked of a drawing.
#[derive(Clone, Copy, Debug)]
pub struct Ask {
    /// Ends within this are joined.
    pub gap: Length,
    /// Unit of the numbers, over what the file says.
    pub unit: Option<LengthUnit>,
    /// What holes and webs are held against, where the thickness is known.
    pub least: Option<Least>,
}

/// The least that may be between edges.
#[derive(Clone, Copy, Debug)]
pub struct Least {
    /// A smaller hole is asked about, one below the second is sent back.
    pub hole: (Length, Length),
    /// The same for the metal between two edges.
    pub web: (Length, Length),
}

/// A drawing inspected.
#[derive(Clone, Debug, Default)]
pub struct Inspected {
    /// What is wrong, in the order of kinds.
    pub faults: Vec<Fault>,
    /// Closed outlines that are cut.
    pub outlines: Vec<Outline>,
    /// Runs that are cut and do not close.
    pub open: Vec<Run>,
    /// Engraved lines.
    pub marks: Vec<Run>,
    /// Lines to bend along.
    pub bends: Vec<Run>,
    /// Layers as found, with what is done with them and how many entities lie there.
    pub layers: Vec<(String, Purpose, usize)>,
    /// What was put right in what is kept here, a sentence each.
    pub mended: Vec<String>,
    /// Why it cannot be put right without asking, where it cannot.
    pub unsound: Vec<String>,
    /// Unit of the file in words.
    pub unit: String,
}

/// Longest part that is believed, mm: the largest sheets that are usual. Source: common practice, no source.
const LONGEST: f64 = 6000.0;
/// Smallest part that is believed, mm. Source: common practice, no source.
const SMALLEST: f64 = 2.0;

impl Inspected {
    /// Area of the parts less their holes, as drawn, mm².
    pub fn area(&self) -> f64 {
        self.outlines.iter().map(|o| if o.is_hole() { -o.run.drawn_area() } else { o.run.drawn_area() }).sum()
    }
    /// Length of all cuts.
    pub fn cut_length(&self) -> Length {
        Length::mm(self.outlines.iter().map(|o| &o.run).chain(&self.open).map(Run::length).sum())
    }
    /// How often the cutter begins a cut.
    pub const fn pierces(&self) -> usize {
        self.outlines.len() + self.open.len()
    }
    /// A cutter would send it back.
    pub fn refused(&self) -> bool {
        self.faults.iter().any(|f| f.refused)
    }
    /// Everything that is cut or engraved, edge by edge.
    pub fn runs(&self) -> impl Iterator<Item = (&Run, Purpose)> {
        let cut = self.outlines.iter().map(|o| &o.run).chain(&self.open).map(|r| (r, Purpose::Cut));
        let marks = self.marks.iter().map(|r| (r, Purpose::Mark));
        cut.chain(marks).chain(self.bends.iter().map(|r| (r, Purpose::Bend)))
    }
    /// The closed outlines as contours, parts before their holes.
    ///
    /// # Errors
    /// One of them crosses itself.
    pub fn contours(&self) -> Result<Vec<Contour>, ShapeError> {
        let mut order: Vec<&Outline> = self.outlines.iter().collect();
        order.sort_by_key(|o| o.depth);
        order.into_iter().map(|o| Contour::from_segments(o.run.edges.clone())).collect()
    }
}

/// An edge with the number of its outline.
type Owned<'a> = (usize, &'a Segment);

struct Judge<'a> {
    scanned: &'a Scanned,
    ask: &'a Ask,
    out: Inspected,
}

/// Inspects a drawing.
///
/// # Errors
/// Why it is not read.
pub fn inspect(bytes: &[u8], ask: &Ask) -> Result<Inspected, Refusal> {
    let scanned = scan::scan(bytes)?;
    let mut judge = Judge { scanned: &scanned, ask, out: Inspected::default() };
    let scale = judge.unit();
    let taken = entities::take(&scanned, scale)?;
    judge.size(&taken.pieces);
    judge.layers(&taken);
    taken.beside.iter().for_each(|b| judge.beside(b));
    taken.pieces.iter().for_each(|p| judge.piece(p));
    let mut by_purpose: BTreeMap<Purpose, Vec<Piece>> = BTreeMap::new();
    for piece in taken.pieces {
        by_purpose.entry(Purpose::of(judge.layer(piece.layer))).or_default().push(piece);
    }
    for (purpose, pieces) in by_purpose {
        judge.purpose(purpose, pieces)?;
    }
    judge.cut()?;
    judge
        .out
        .faults
        .sort_by(|a, b| a.kind.cmp(&b.kind).then(a.at.x.total_cmp(&b.at.x)).then(a.at.y.total_cmp(&b.at.y)));
    Ok(judge.out)
}

fn mm(x: f64) -> String {
    format!("{} mm", trimmed(x, 3))
}

impl Judge<'_> {
    fn layer(&self, number: usize) -> &str {
        self.scanned.layers.get(number).map_or("", String::as_str)
    }

    fn say(&mut self, kind: Kind, layer: Option<usize>, at: Point, refused: bool, says: String) {
        let layer = layer.map(|l| self.layer(l).to_string()).unwrap_or_default();
        self.out.faults.push(Fault { kind, layer, at, says, refused });
    }

    /// Millimetres to a unit of the file.
    fn unit(&mut self) -> f64 {
        let stated = match self.scanned.unit {
            Some(1) => Some(("inch", MM_PER_INCH, true)),
            Some(2) => Some(("feet", 12.0 * MM_PER_INCH, false)),
            Some(4) => Some(("mm", 1.0, true)),
            Some(5) => Some(("cm", 10.0, false)),
            Some(6) => Some(("m", 1000.0, false)),
            _ => None,
        };
        let asked =
            self.ask.unit.map(|u| if u == LengthUnit::Mm { ("mm", 1.0, true) } else { ("inch", MM_PER_INCH, true) });
        let (word, scale, usual) = asked.or(stated).unwrap_or(("mm", 1.0, true));
        self.out.unit = word.into();
        let whole = Point::ORIGIN;
        match (asked, stated, self.scanned.unit) {
            (None, None, None | Some(0)) => {
                let says = "the file states no unit; read as mm, and so would the cutter: state it ($INSUNITS 4 for mm, 1 for inch)";
                self.say(Kind::Unit, None, whole, true, says.into());
                self.out.mended.push("the unit is stated: mm".into());
            }
            (None, None, Some(code)) => {
                let says = format!("the file states unit {code}, which no cutter uses; read as mm");
                self.say(Kind::Unit, None, whole, true, says);
                self.out.mended.push("the unit is stated: mm".into());
            }
            _ if !usual => {
                self.say(Kind::Unit, None, whole, true, format!("drawn in {word}; cutters take mm or inch"));
                self.out.mended.push(format!("{word} turned into mm"));
            }
            _ if word != "mm" => self.out.mended.push("inch turned into mm".into()),
            _ => {}
        }
        scale
    }

    fn size(&mut self, pieces: &[Piece]) {
        let boxes = pieces.iter().flat_map(|p| &p.lowered.edges).map(Segment::bounds);
        let all = boxes
            .reduce(|(a, b), (c, d)| (Point::mm(a.x.min(c.x), a.y.min(c.y)), Point::mm(b.x.max(d.x), b.y.max(d.y))));
        let Some((low, high)) = all else { return };
        let long = (high.x - low.x).max(high.y - low.y);
        let unit = self.out.unit.clone();
        let as_inch = unit == "inch" && long / MM_PER_INCH <= LONGEST;
        if long > LONGEST {
            let help = if as_inch { "; in mm it would be believable" } else { "" };
            let says = format!("read in {unit} it is {} long, longer than any usual sheet{help}", mm(long));
            self.say(Kind::Unit, None, low, true, says);
        } else if long < SMALLEST {
            let help = if unit == "mm" { "; was it drawn in inch or in metres?" } else { "" };
            let says = format!("read in {unit} it is {} long, smaller than anything that is cut{help}", mm(long));
            self.say(Kind::Unit, None, low, true, says);
        }
    }

    fn layers(&mut self, taken: &entities::Taken) {
        let mut count: BTreeMap<usize, usize> = BTreeMap::new();
        let all = taken.pieces.iter().map(|p| p.layer).chain(taken.beside.iter().map(|b| b.layer));
        all.for_each(|layer| *count.entry(layer).or_default() += 1);
        for (layer, number) in count {
            let name = self.layer(layer).to_string();
            let purpose = Purpose::of(&name);
            if purpose == Purpose::Aside {
                let at = taken.pieces.iter().find(|p| p.layer == layer).and_then(|p| p.lowered.edges.first());
                let says = "by its name not for the machine; nothing of it is counted as cut".to_string();
                self.say(Kind::Layer, Some(layer), at.map_or(Point::ORIGIN, |s| s.from), false, says);
                self.out.mended.push(format!("layer {name} left out"));
            }
            self.out.layers.push((name, purpose, number));
        }
    }

    fn beside(&mut self, b: &Beside) {
        let (layer, at) = (Some(b.layer), b.at);
        match &b.what {
            What::Block(name) => {
                self.say(Kind::Block, layer, at, true, format!("placed as the block {name}; taken apart here"));
                self.out.mended.push(format!("block {name} taken apart at {at}"));
            }
            What::OffPlane => {
                self.say(Kind::OffPlane, layer, at, true, "does not lie in the plane of the drawing".into());
                self.out.unsound.push(format!("something at {at} does not lie in the plane"));
            }
            What::FitPoints => {
                let says = "a spline by points on it only: between them the file does not say where it runs";
                self.say(Kind::Spline, layer, at, true, says.into());
                self.out.unsound.push(format!("the spline at {at} has no control points"));
            }
            What::Other(word) => {
                let kind = Kind::of(word);
                let says = match kind {
                    Kind::Text => "lettering is no outline: draw it as lines on a layer of marks, or leave it out",
                    Kind::Hatch => "a filled area is no outline",
                    Kind::Dimension => "dimensions belong on paper, not in the cutter's file",
                    Kind::Point => "a point is neither cut nor engraved",
                    _ => "no outline",
                };
                self.say(kind, layer, at, kind != Kind::Point, format!("{says} ({word})"));
                self.out.mended.push(format!("{} left out at {at} ({word})", kind.word()));
            }
        }
    }

    fn piece(&mut self, p: &Piece) {
        if Purpose::of(self.layer(p.layer)) == Purpose::Aside {
            return;
        }
        let at = p.lowered.edges.first().map_or(Point::ORIGIN, |s| s.from);
        for place in &p.lowered.nothing {
            self.say(Kind::ZeroLength, Some(p.layer), *place, true, format!("a piece of no length (line {})", p.line));
            self.out.mended.push(format!("piece of no length left out at {place}"));
        }
        let (kind, what) = match p.drawn {
            Drawn::Plain => return,
            Drawn::Ellipse => (Kind::Ellipse, "ellipse"),
            Drawn::Spline => (Kind::Spline, "spline"),
        };
        let (arcs, off) = (p.lowered.edges.len(), p.lowered.off.unwrap_or(0.0));
        let off = trimmed((off * 1e4).ceil() / 1e4, 4);
        self.say(kind, Some(p.layer), at, true, format!("as {arcs} lines and arcs it is off by at most {off} mm"));
        self.out.mended.push(format!("{what} at {at} turned into {arcs} lines and arcs, off by at most {off} mm"));
    }

    /// What lies on the layers of one purpose, put together.
    fn purpose(&mut self, purpose: Purpose, pieces: Vec<Piece>) -> Result<(), Refusal> {
        if purpose == Purpose::Aside {
            return Ok(());
        }
        let Undoubled { pieces, dropped, partly } = doubled::undoubled(pieces)?;
        for (layer, at) in dropped {
            self.say(
                Kind::Double,
                Some(layer),
                at,
                true,
                "the same line lies there twice: it would be cut twice".into(),
            );
            self.out.mended.push(format!("the second of two lines over each other left out at {at}"));
        }
        for (layer, at) in partly {
            let says = "lies over another line in part; which of them is meant, only its author knows";
            self.say(Kind::Double, Some(layer), at, true, says.into());
            if purpose == Purpose::Cut {
                self.out.unsound.push(format!("lines lie over each other in part at {at}"));
            }
        }
        let joined = join::joined(&pieces, self.ask.gap.as_mm());
        for (layer, at, wide) in &joined.gaps {
            if purpose == Purpose::Cut {
                self.say(Kind::Gap, Some(*layer), *at, false, format!("two ends lie {} apart; joined", mm(*wide)));
            }
            self.out.mended.push(format!("gap of {} closed at {at}", mm(*wide)));
        }
        match purpose {
            Purpose::Mark => self.out.marks = joined.runs,
            Purpose::Bend => self.out.bends = joined.runs,
            _ => {
                if joined.joints > 0 {
                    self.out.mended.push(format!("{} joints of separate pieces made one outline each", joined.joints));
                }
                let (closed, open) = joined.runs.into_iter().partition(|r| r.closed);
                (self.out.outlines, self.out.open) = (nested(closed)?, open);
            }
        }
        Ok(())
    }

    /// What is cut: does it close, does it cross, is there metal enough?
    fn cut(&mut self) -> Result<(), Refusal> {
        if self.out.outlines.is_empty() && self.out.open.is_empty() {
            self.say(Kind::Empty, None, Point::ORIGIN, true, "nothing in it is cut".into());
            self.out.unsound.push("there is nothing to cut".into());
        }
        for run in self.out.open.clone() {
            let (a, b) = (run.start(), run.end());
            let apart = mm(a.to(b));
            let says = format!(
                "ends at {a} and at {b}, {apart} apart; joined would be what lies within {}",
                mm(self.ask.gap.as_mm().max(TOGETHER))
            );
            self.say(Kind::Open, Some(run.layer), a, true, says);
            self.out.unsound.push(format!("an outline is open at {a}"));
        }
        let crossed = self.crossings()?;
        for (a, at) in crossed {
            let layer = self.out.outlines.get(a).map(|o| o.run.layer);
            self.say(Kind::Crossing, layer, at, true, "outlines cross or touch here".into());
            self.out.unsound.push(format!("outlines cross at {at}"));
        }
        if let Some(least) = self.ask.least {
            self.holes(&least);
            self.webs(&least)?;
        }
        Ok(())
    }

    /// Outlines that cross, each pair once.
    fn crossings(&self) -> Result<Vec<(usize, Point)>, Refusal> {
        let mut found: BTreeMap<(usize, usize), Point> = BTreeMap::new();
        for (i, o) in self.out.outlines.iter().enumerate() {
            match Contour::from_segments(o.run.edges.clone()) {
                Err(ShapeError::CrossesItself(p) | ShapeError::FoldsBack(p)) => _ = found.insert((i, i), p),
                Err(_) => _ = found.insert((i, i), o.run.start()),
                Ok(_) => {}
            }
        }
        self.near(CLOSEST_EDGES, &mut |(i, a), (j, b)| {
            if i != j && !found.contains_key(&(i, j)) {
                let (apart, p, _) = meeting::nearest(a, b);
                if apart < CLOSEST_EDGES {
                    found.insert((i, j), p);
                }
            }
        })?;
        Ok(found.into_iter().map(|((a, _), p)| (a, p)).collect())
    }

    /// Every pair of edges of closed outlines whose boxes come within reach, each edge with the number of its outline.
    fn near(&self, reach: f64, found: &mut dyn FnMut(Owned, Owned)) -> Result<(), Refusal> {
        let all = self.out.outlines.iter().enumerate();
        let owned: Vec<(usize, Segment)> = all.flat_map(|(i, o)| o.run.edges.iter().map(move |s| (i, *s))).collect();
        let edges: Vec<Segment> = owned.iter().map(|(_, s)| *s).collect();
        let mut looked = 0;
        near::pairs(&edges, reach, &mut |i, j| {
            looked += 1;
            if let (Some((a, s)), Some((b, t))) = (owned.get(i), owned.get(j)) {
                found((*a, s), (*b, t));
            }
            looked <= MOST_PAIRS
        });
        if looked > MOST_PAIRS {
            let what = "its outlines cross in more places than can be looked at".into();
            return Err(Refusal { line: None, what });
        }
        Ok(())
    }

    fn holes(&mut self, least: &Least) {
        for o in self.out.outlines.clone().iter().filter(|o| o.is_hole()) {
            let wide = narrowest(&o.run.edges);
            if wide < least.hole.0.as_mm() - 1e-9 {
                let refused = wide < least.hole.1.as_mm() - 1e-9;
                let then = if refused { "it would be burnt, not cut" } else { "it is cut badly: drill it, or ask" };
                let says =
                    format!("{} wide, in this thickness at least {}: {then}", mm(wide), mm(least.hole.0.as_mm()));
                self.say(Kind::Hole, Some(o.run.layer), o.run.start(), refused, says);
            }
        }
    }

    fn webs(&mut self, least: &Least) -> Result<(), Refusal> {
        let reach = least.web.0.as_mm();
        let mut found: BTreeMap<(usize, usize), (f64, Point)> = BTreeMap::new();
        self.near(reach, &mut |(i, a), (j, b)| {
            if i == j || !self.metal_between(i, j) {
                return;
            }
            let (apart, p, q) = meeting::nearest(a, b);
            let entry = found.entry((i, j)).or_insert((f64::INFINITY, p));
            if apart < entry.0 && apart < reach - 1e-9 {
                *entry = (apart, p.plus(q).times(0.5));
            }
        })?;
        for i in 0..self.out.outlines.len() {
            if let Some(narrow) = self.own_web(i, reach) {
                found.insert((i, i), narrow);
            }
        }
        for ((i, _), (wide, at)) in
            found.into_iter().filter(|(_, (wide, _))| wide.is_finite() && *wide >= CLOSEST_EDGES)
        {
            let layer = self.out.outlines.get(i).map(|o| o.run.layer);
            let refused = wide < least.web.1.as_mm() - 1e-9;
            let says = format!("{} of metal between two edges, in this thickness at least {}", mm(wide), mm(reach));
            self.say(Kind::Web, layer, at, refused, says);
        }
        Ok(())
    }

    /// Two outlines with metal between them: a part and its hole, or two holes of a part.
    fn metal_between(&self, i: usize, j: usize) -> bool {
        let (Some(a), Some(b)) = (self.out.outlines.get(i), self.out.outlines.get(j)) else { return false };
        let edge_and_hole = |edge: &Outline, at: usize, hole: &Outline| !edge.is_hole() && hole.within == Some(at);
        let holes = a.is_hole() && b.is_hole() && a.within == b.within;
        holes || edge_and_hole(a, i, b) || edge_and_hole(b, j, a)
    }

    /// Where an outline comes near itself with metal between.
    fn own_web(&self, i: usize, reach: f64) -> Option<(f64, Point)> {
        let o = self.out.outlines.get(i)?;
        let edges = &o.run.edges;
        let mut along = 0.0;
        let starts: Vec<f64> = edges.iter().map(|s| (along, along += s.length().as_mm()).0).collect();
        let whole = along;
        let mut best: Option<(f64, Point)> = None;
        let mut looked = 0;
        near::pairs(edges, reach, &mut |a, b| {
            looked += 1;
            if let (Some(s), Some(t), Some(x), Some(y)) = (edges.get(a), edges.get(b), starts.get(a), starts.get(b)) {
                let (apart, p, q) = meeting::nearest(s, t);
                let between = ((y + t.from.to(q)) - (x + s.from.to(p))).abs();
                let round = between.min(whole - between);
                let middle = p.plus(q).times(0.5);
                // Edges about a corner are near each other along the outline as well.
                let narrow =
                    apart < reach - 1e-9 && apart > CLOSEST_EDGES && round > 3.0 * apart && round > 2.0 * reach;
                if narrow && best.is_none_or(|(w, _)| apart < w) && inside(edges, middle) != o.is_hole() {
                    best = Some((apart, middle));
                }
            }
            looked <= MOST_PAIRS
        });
        best
    }
}
