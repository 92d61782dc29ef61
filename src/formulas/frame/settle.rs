//! How a frame settles straight down on its seats, its place in plan held: on the three that its load lies between.
//!
//! Of all planes through three points that stand over no other, the one under the load is the lowest; of all triples of
//! seats between which the load lies, it is the one that holds the load highest. Derived: duality of the linear programme
//! min z under the load, z at every seat at least its height.

/// Within this part of a triangle from a side of it the load lies on that side: two seats alone might carry.
const ON_A_SIDE: f64 = 1e-6;
/// More seats have too many triples.
const MOST: usize = 12;

/// Three seats with the load between them.
struct Three {
    seats: [usize; 3],
    /// Shares of the three in the height under the load.
    load: [f64; 3],
    /// The same at each seat: what lies outside has negative ones.
    at: Vec<[f64; 3]>,
}

/// The triples that may carry.
pub(super) struct Threes(Vec<Three>);

impl Threes {
    /// Of seats at these places, those that carry and those that do not, under a load at `foot`. `None` where three seats
    /// do not tell: few or too many, in one line, or the load on the line between two.
    pub(super) fn of(at: &[[f64; 2]], carries: &[bool], foot: [f64; 2]) -> Option<Self> {
        let among: Vec<(usize, [f64; 2])> = at
            .iter()
            .copied()
            .enumerate()
            .zip(carries)
            .filter(|(_, carries)| **carries)
            .map(|(seat, _)| seat)
            .collect();
        if among.len() > MOST {
            return None;
        }
        let mut found = Vec::new();
        for (n, a) in among.iter().enumerate() {
            for (m, b) in among.iter().enumerate().skip(n + 1) {
                for c in among.iter().skip(m + 1) {
                    let Some(shares) = Shares::of(a.1, b.1, c.1) else { continue };
                    let load = shares.at(foot);
                    let least = load.iter().copied().fold(f64::INFINITY, f64::min);
                    if least.abs() < ON_A_SIDE {
                        return None;
                    }
                    if least > 0.0 {
                        let at = at.iter().map(|place| shares.at(*place)).collect();
                        found.push(Three { seats: [a.0, b.0, c.0], load, at });
                    }
                }
            }
        }
        (!found.is_empty()).then_some(Self(found))
    }

    /// Gap under each seat where the seats ask for these heights.
    pub(super) fn gaps(&self, heights: &[f64], gaps: &mut Vec<f64>) {
        let of = |three: &Three| three.seats.map(|i| heights.get(i).copied().unwrap_or_default());
        let height = |shares: &[f64; 3], h: [f64; 3]| shares.iter().zip(h).map(|(share, h)| share * h).sum::<f64>();
        let highest = self.0.iter().map(|three| (three, height(&three.load, of(three))));
        let highest = highest.reduce(|best, one| if one.1 > best.1 { one } else { best });
        gaps.clear();
        if let Some((three, _)) = highest {
            let plane = of(three);
            gaps.extend(three.at.iter().zip(heights).map(|(shares, own)| height(shares, plane) - own));
        }
    }
}

/// Shares of the corners of a triangle in a linear function over the plan (barycentric coordinates).
struct Shares {
    origin: [f64; 2],
    rows: [[f64; 2]; 2],
}

impl Shares {
    /// `None` for three places in one line.
    fn of(a: [f64; 2], b: [f64; 2], c: [f64; 2]) -> Option<Self> {
        let ([bx, by], [cx, cy]) = ([b[0] - a[0], b[1] - a[1]], [c[0] - a[0], c[1] - a[1]]);
        let area = bx * cy - by * cx;
        let size = ((bx * bx + by * by) * (cx * cx + cy * cy)).sqrt();
        let rows = [[cy / area, -cx / area], [-by / area, bx / area]];
        (area.abs() > 1e-9 * size).then_some(Self { origin: a, rows })
    }

    fn at(&self, [x, y]: [f64; 2]) -> [f64; 3] {
        let (dx, dy) = (x - self.origin[0], y - self.origin[1]);
        let [b, c] = self.rows.map(|[rx, ry]| rx * dx + ry * dy);
        [1.0 - b - c, b, c]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARE: [[f64; 2]; 4] = [[1.0, 1.0], [-1.0, 1.0], [-1.0, -1.0], [1.0, -1.0]];

    fn gaps(foot: [f64; 2], heights: [f64; 4]) -> Vec<f64> {
        let mut found = Vec::new();
        Threes::of(&SQUARE, &[true; 4], foot).unwrap().gaps(&heights, &mut found);
        found
    }

    /// A table of four legs, one of them short, stands on the others or, where the load lies at the short one, rocks onto it
    /// and lifts the opposite leg by as much: opposite corners of a plane over a square add up to the same height. Derived.
    #[test]
    fn a_table_with_a_short_leg() {
        let near = |got: Vec<f64>, want: [f64; 4]| {
            assert!(got.iter().zip(want).all(|(a, b)| (a - b).abs() < 1e-15), "{got:?} {want:?}");
        };
        near(gaps([0.1, 0.2], [0.0, 0.0, -0.05, 0.0]), [0.0, 0.0, 0.05, 0.0]);
        near(gaps([0.1, 0.2], [-0.05, 0.0, 0.0, 0.0]), [0.0, 0.0, 0.05, 0.0]);
        near(gaps([0.1, 0.2], [1.0, 1.0, 1.0, 1.0]), [0.0; 4]);
    }

    /// What does not carry has a gap and carries nothing; the load on a diagonal, outside, or on two seats is for others to tell.
    #[test]
    fn where_three_do_not_tell() {
        let three = [true, true, true, false];
        let mut found = Vec::new();
        Threes::of(&SQUARE, &three, [-0.5, 0.1]).unwrap().gaps(&[0.0, 0.0, 0.0, 9.0], &mut found);
        assert_eq!(found, [0.0, 0.0, 0.0, -9.0]);
        for foot in [[0.0, 0.0], [0.3, 0.3], [2.0, 0.1], [1.0, 0.5]] {
            assert!(Threes::of(&SQUARE, &[true; 4], foot).is_none(), "{foot:?}");
        }
        assert!(Threes::of(&SQUARE, &three, [0.5, -0.1]).is_none(), "outside the three");
        assert!(Threes::of(&[[0.0, 0.0], [1.0, 0.0], [2.0, 0.0]], &[true; 3], [0.5, 0.0]).is_none(), "one line");
    }
}
