//! The list for the saw: bars of one material and diameter together, cut from the rack with the least waste.

use super::share::Share;
use crate::formulas::bars::{self, Piece, Plan, Stock};
use crate::shop::Shop;
use crate::units::{Length, LengthUnit};

/// Everything that is sawn from bars of one material and diameter.
#[derive(Clone, PartialEq, Debug)]
pub struct Sawn {
    /// Material as it is bought.
    pub material: String,
    /// Diameter; none where none so thick is sold.
    pub across: Option<Length>,
    /// Lengths of bar.
    pub stock: Vec<Stock>,
    /// No bar of it is told in the shop's file.
    pub assumed: bool,
    /// Pieces, and for what.
    pub pieces: Vec<(Piece, String)>,
    /// The plan; none where it cannot be made: there are too many pieces.
    pub plan: Option<Plan>,
}

impl Sawn {
    /// What of the bars that are begun is neither piece nor kerf.
    pub fn left_over(&self, kerf: Length) -> Vec<Length> {
        let length = |i: usize| self.pieces.get(i).map_or(Length::ZERO, |(p, _)| p.length);
        let cuts = self.plan.iter().flat_map(|p| &p.cuts);
        cuts.map(|cut| {
            let used = cut.pieces.iter().map(|(i, n)| (length(*i) + kerf) * f64::from(*n)).sum::<Length>();
            let whole = self.stock.get(cut.stock).map_or(Length::ZERO, |s| s.length);
            (whole - used).max(Length::ZERO)
        })
        .collect()
    }
}

/// The length that is bought where the shop's file tells none, as the counter sells them: the shortest off-cut that holds all
/// pieces, else a bar that holds the longest.
/// Source: common practice, no source.
fn usual(unit: LengthUnit, pieces: &[Piece], kerf: Length) -> Length {
    let by_unit = |mm: &[f64], inches: &[f64]| -> Vec<Length> {
        match unit {
            LengthUnit::Mm => mm.iter().map(|l| Length::mm(*l)).collect(),
            LengthUnit::Inch => inches.iter().map(|l| Length::inches(*l)).collect(),
        }
    };
    let off_cuts = by_unit(
        &[100.0, 150.0, 200.0, 250.0, 300.0, 400.0, 500.0, 750.0, 1000.0],
        &[4.0, 6.0, 8.0, 10.0, 12.0, 18.0, 24.0, 36.0],
    );
    let bars = by_unit(&[1000.0, 3000.0, 6000.0], &[36.0, 144.0, 240.0]);
    // The counter's cut is neither square nor to the millimetre: both ends are cleaned up.
    let ends = by_unit(&[10.0], &[0.4]).into_iter().sum::<Length>();
    let all = pieces.iter().map(|p| (p.length + kerf) * f64::from(p.count)).sum::<Length>() + ends;
    let longest = pieces.iter().map(|p| p.length).fold(Length::ZERO, Length::max);
    let holds_all = off_cuts.into_iter().find(|l| *l >= all);
    let most = bars.last().copied().unwrap_or(longest);
    holds_all.or_else(|| bars.into_iter().find(|l| *l >= longest)).unwrap_or(most)
}

/// The lists, by material and diameter.
pub fn sawn(parts: &[&Share], shop: &Shop) -> Vec<Sawn> {
    let mut all: Vec<Sawn> = Vec::new();
    for share in parts {
        for bar in share.bars.iter().filter(|b| b.count > 0) {
            let across = bar.across_mm.map(Length::mm);
            let piece = Piece { length: Length::mm(bar.each_mm), count: bar.count };
            let of = if bar.what.is_empty() { share.part.clone() } else { format!("{}, {}", share.part, bar.what) };
            match all.iter_mut().find(|s| s.material == bar.material && s.across == across) {
                Some(sawn) => sawn.pieces.push((piece, of)),
                None => all.push(Sawn {
                    material: bar.material.clone(),
                    across,
                    stock: Vec::new(),
                    assumed: false,
                    pieces: vec![(piece, of)],
                    plan: None,
                }),
            }
        }
    }
    all.sort_by(|a, b| {
        let size = |s: &Sawn| s.across.map_or(f64::INFINITY, Length::as_mm);
        a.material.cmp(&b.material).then(size(a).total_cmp(&size(b)))
    });
    all.iter_mut().for_each(|sawn| planned(sawn, shop));
    all
}

fn planned(sawn: &mut Sawn, shop: &Shop) {
    let same = |bar: &&crate::shop::RackBar| {
        let known = shop.material(&bar.material).map_or_else(|_| bar.material.clone(), |m| m.name);
        let material = [&known, &bar.material].into_iter().any(|name| {
            sawn.material.eq_ignore_ascii_case(name)
                || sawn
                    .material
                    .strip_prefix(name.trim_end_matches("hardened").trim_end())
                    .is_some_and(|r| r.starts_with(','))
        });
        material && sawn.across.is_some_and(|d| (d - bar.diameter).abs() < Length::mm(0.1))
    };
    let told = shop.rack.iter().filter(same);
    let mut stock: Vec<Stock> = told
        .map(|bar| Stock { length: bar.length.rounded(), at_hand: bar.pieces, bought: bar.pieces.is_none() })
        .collect();
    sawn.assumed = stock.is_empty();
    let pieces: Vec<Piece> = sawn.pieces.iter().map(|(p, _)| *p).collect();
    if !stock.iter().any(|s| s.bought) {
        stock.push(Stock { length: usual(shop.unit, &pieces, shop.saw_kerf()), at_hand: None, bought: true });
    }
    sawn.plan = bars::plan(&stock, &pieces, shop.saw_kerf()).ok();
    sawn.stock = stock;
}
