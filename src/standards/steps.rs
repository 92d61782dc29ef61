//! How a stepped table is read: "over 18 up to and including 30 mm" finds one row.

use crate::source::Confirmed;

/// A row of a table that goes by size steps.
pub(crate) trait Step {
    /// The row holds sizes over this one.
    fn over(&self) -> f64;
    /// The row holds sizes up to and including this one.
    fn up_to(&self) -> f64;
    /// True for a size that belongs to this row.
    fn holds(&self, size: f64) -> bool {
        self.over() < size && size <= self.up_to()
    }
}

/// The row that holds `size`, none outside the table.
pub(crate) fn step_for<R: Step>(rows: &[R], size: f64) -> Option<&R> {
    rows.iter().find(|row| row.holds(size))
}

/// One cell of a table: the printed value and how well it is confirmed.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) enum Cell {
    /// Seen in two or more publications.
    TwoOrMore(f64),
    /// Seen in one publication.
    One(f64),
    /// From memory.
    Memory(f64),
    /// The standard defines no value here.
    Nil,
}

impl Cell {
    /// The value and its confirmation, none where the standard defines no value.
    pub(crate) const fn value(self) -> Option<(f64, Confirmed)> {
        match self {
            Self::TwoOrMore(value) => Some((value, Confirmed::TwoOrMore)),
            Self::One(value) => Some((value, Confirmed::One)),
            Self::Memory(value) => Some((value, Confirmed::Memory)),
            Self::Nil => None,
        }
    }
}

/// One size step with `N` columns, and where the row is printed.
#[derive(Debug)]
pub(crate) struct Row<const N: usize> {
    over: f64,
    up_to: f64,
    /// The columns, in the order of the printed table.
    pub(crate) cells: [Cell; N],
    /// Publication.
    pub(crate) source: &'static str,
}

/// A row as it is written down in a table.
pub(crate) const fn row<const N: usize>(over: f64, up_to: f64, cells: [Cell; N], source: &'static str) -> Row<N> {
    Row { over, up_to, cells, source }
}

impl<const N: usize> Step for Row<N> {
    fn over(&self) -> f64 {
        self.over
    }
    fn up_to(&self) -> f64 {
        self.up_to
    }
}

/// One column of a table: what is needed to say a value, or from where to where there is one.
pub(crate) struct Column<'a, const N: usize> {
    /// The rows of the table.
    pub(crate) rows: &'a [Row<N>],
    /// Place of the column.
    pub(crate) at: usize,
}

/// What a column says of a size.
#[derive(Debug, PartialEq)]
pub(crate) enum Found {
    /// Value, confirmation, publication.
    Value(f64, Confirmed, &'static str),
    /// The column has values only above this size.
    StartsAbove(f64),
    /// The column has values only up to this size.
    EndsAt(f64),
}

impl<const N: usize> Column<'_, N> {
    /// The value at `size`, or the end of the column that `size` lies beyond.
    pub(crate) fn find(&self, size: f64) -> Found {
        let cell = |row: &Row<N>| row.cells.get(self.at).copied().and_then(Cell::value);
        let filled = |row: &&Row<N>| cell(row).is_some();
        let here = step_for(self.rows, size).and_then(|row| cell(row).map(|found| (found, row.source)));
        if let Some(((value, confirmed), source)) = here {
            return Found::Value(value, confirmed, source);
        }
        let start = self.rows.iter().find(filled).map_or(0.0, |row| row.over);
        let end = self.rows.iter().rev().find(filled).map_or(0.0, |row| row.up_to);
        if size <= start { Found::StartsAbove(start) } else { Found::EndsAt(end) }
    }
}

#[cfg(test)]
mod tests {
    use super::Cell::{Nil, One};
    use super::*;

    const ROWS: &[Row<1>] = &[
        row(0.0, 3.0, [Nil], ""),
        row(3.0, 6.0, [One(1.0)], "b"),
        row(6.0, 10.0, [One(2.0)], ""),
        row(10.0, 18.0, [Nil], ""),
    ];

    #[test]
    fn the_upper_bound_belongs_to_the_lower_step() {
        assert_eq!(Column { rows: ROWS, at: 0 }.find(6.0), Found::Value(1.0, Confirmed::One, "b"));
        assert_eq!(Column { rows: ROWS, at: 0 }.find(6.001), Found::Value(2.0, Confirmed::One, ""));
    }

    #[test]
    fn outside_the_column_it_names_the_end() {
        assert_eq!(Column { rows: ROWS, at: 0 }.find(3.0), Found::StartsAbove(3.0));
        assert_eq!(Column { rows: ROWS, at: 0 }.find(11.0), Found::EndsAt(10.0));
        assert!(step_for(ROWS, 18.1).is_none());
    }
}
