//! Which of many edges come near each other, without looking at every pair: a tree of boxes.

use super::{Point, Segment};

/// Boxes at the end of a branch.
const LEAF: usize = 8;

/// Lower left and upper right corner.
type Corners = (Point, Point);

struct Node {
    corners: Corners,
    /// Two branches, or the boxes of a leaf.
    below: Below,
}

enum Below {
    Branches(usize, usize),
    Boxes(Vec<usize>),
}

/// Boxes that can be asked which of them come near each other.
struct Tree<'a> {
    boxes: &'a [Corners],
    nodes: Vec<Node>,
    reach: f64,
}

fn around(a: Corners, b: Corners) -> Corners {
    (Point::mm(a.0.x.min(b.0.x), a.0.y.min(b.0.y)), Point::mm(a.1.x.max(b.1.x), a.1.y.max(b.1.y)))
}

pub(super) fn apart(a: Corners, b: Corners, reach: f64) -> bool {
    a.0.x > b.1.x + reach || b.0.x > a.1.x + reach || a.0.y > b.1.y + reach || b.0.y > a.1.y + reach
}

/// Calls `found` for every pair of edges (the earlier first) whose boxes come within `reach` of each other, until it says
/// that it has enough.
pub(crate) fn pairs(edges: &[Segment], reach: f64, found: &mut dyn FnMut(usize, usize) -> bool) {
    let boxes: Vec<Corners> = edges.iter().map(Segment::bounds).collect();
    let mut tree = Tree { boxes: &boxes, nodes: Vec::new(), reach };
    if let Some(top) = tree.build((0..boxes.len()).collect()) {
        let _ = tree.within(top, found);
    }
}

/// `None` where enough was found.
type Going = Option<()>;

impl Tree<'_> {
    fn corners(&self, i: usize) -> Corners {
        self.boxes.get(i).copied().unwrap_or((Point::ORIGIN, Point::ORIGIN))
    }

    fn build(&mut self, mut items: Vec<usize>) -> Option<usize> {
        let corners = items.iter().map(|i| self.corners(*i)).reduce(around)?;
        let below = if items.len() <= LEAF {
            Below::Boxes(items)
        } else {
            let wide = corners.1.x - corners.0.x > corners.1.y - corners.0.y;
            let middle = |i: &usize| {
                let (lo, hi) = self.corners(*i);
                if wide { lo.x + hi.x } else { lo.y + hi.y }
            };
            let half = items.len() / 2;
            items.select_nth_unstable_by(half, |a, b| middle(a).total_cmp(&middle(b)).then(a.cmp(b)));
            let upper = items.split_off(half);
            Below::Branches(self.build(items)?, self.build(upper)?)
        };
        self.nodes.push(Node { corners, below });
        Some(self.nodes.len() - 1)
    }

    fn within(&self, node: usize, found: &mut dyn FnMut(usize, usize) -> bool) -> Going {
        match &self.nodes.get(node)?.below {
            Below::Branches(a, b) => {
                self.within(*a, found)?;
                self.within(*b, found)?;
                self.between(*a, *b, found)
            }
            Below::Boxes(boxes) => {
                let rest = |i: usize| boxes.iter().skip(i + 1);
                boxes.iter().enumerate().try_for_each(|(i, a)| rest(i).try_for_each(|b| self.pair(*a, *b, found)))
            }
        }
    }

    fn between(&self, a: usize, b: usize, found: &mut dyn FnMut(usize, usize) -> bool) -> Going {
        let (one, two) = (self.nodes.get(a)?, self.nodes.get(b)?);
        if apart(one.corners, two.corners, self.reach) {
            return Some(());
        }
        match (&one.below, &two.below) {
            (Below::Boxes(ours), Below::Boxes(theirs)) => {
                ours.iter().try_for_each(|i| theirs.iter().try_for_each(|j| self.pair(*i, *j, found)))
            }
            (Below::Branches(left, right), _) => {
                self.between(*left, b, found)?;
                self.between(*right, b, found)
            }
            (_, Below::Branches(left, right)) => {
                self.between(a, *left, found)?;
                self.between(a, *right, found)
            }
        }
    }

    fn pair(&self, a: usize, b: usize, found: &mut dyn FnMut(usize, usize) -> bool) -> Going {
        let clear = apart(self.corners(a), self.corners(b), self.reach);
        (clear || found(a.min(b), a.max(b))).then_some(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::collections::BTreeSet;

    proptest! {
        #[test]
        fn the_same_pairs_as_one_by_one(places in prop::collection::vec((0.0..99.0f64, 0.0..99.0f64, -9.0..9.0f64, -9.0..9.0f64), 1..60), reach in 0.0..3.0f64) {
            let edge = |p: &(f64, f64, f64, f64)| Segment { from: Point::mm(p.0, p.1), to: Point::mm(p.0 + p.2, p.1 + p.3), bulge: 0.0 };
            let edges: Vec<Segment> = places.iter().map(edge).collect();
            let mut found = BTreeSet::new();
            pairs(&edges, reach, &mut |a, b| found.insert((a, b)));
            let mut wanted = BTreeSet::new();
            for i in 0..edges.len() {
                for j in i + 1..edges.len() {
                    if !apart(edges[i].bounds(), edges[j].bounds(), reach) {
                        wanted.insert((i, j));
                    }
                }
            }
            prop_assert_eq!(found, wanted);
        }
    }
}
