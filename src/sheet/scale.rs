//! Sizes of paper and scales.

/// The paper in the printer.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Paper {
    /// 210 × 297 mm (ISO 216).
    #[default]
    A4,
    /// 8-1/2 × 11 in.
    Letter,
}

impl Paper {
    /// Width and height of the upright sheet, mm.
    pub fn size(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }
}

/// A scale of drawing, such as 1:2 or 5:1.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Scale {
    /// Size on paper.
    pub paper: u32,
    /// Size of the part.
    pub part: u32,
}

impl Scale {
    /// True size.
    pub const TRUE: Self = Self { paper: 1, part: 1 };
    /// The recommended scales from large to small (ISO 5455:1979, 3: 50:1 to 1:10000; the last ones left out).
    pub const SERIES: [Self; 15] = [
        Self { paper: 50, part: 1 },
        Self { paper: 20, part: 1 },
        Self { paper: 10, part: 1 },
        Self { paper: 5, part: 1 },
        Self { paper: 2, part: 1 },
        Self::TRUE,
        Self { paper: 1, part: 2 },
        Self { paper: 1, part: 5 },
        Self { paper: 1, part: 10 },
        Self { paper: 1, part: 20 },
        Self { paper: 1, part: 50 },
        Self { paper: 1, part: 100 },
        Self { paper: 1, part: 200 },
        Self { paper: 1, part: 500 },
        Self { paper: 1, part: 1000 },
    ];

    /// Size on paper over size of the part.
    pub fn factor(self) -> f64 {
        f64::from(self.paper) / f64::from(self.part)
    }
}

impl std::fmt::Display for Scale {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}:{}", self.paper, self.part)
    }
}
