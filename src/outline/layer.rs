//! What a layer is for, by its name.

/// What the cutter does with what lies on a layer.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Purpose {
    /// Cut through.
    Cut,
    /// Engraved.
    Mark,
    /// A line to bend along.
    Bend,
    /// Not for the machine: centre lines, dimensions.
    Aside,
}

/// Words in the names of layers. Source: common practice, no source.
const WORDS: &[(Purpose, &[&str])] = &[
    (Purpose::Mark, &["mark", "engrav", "etch", "scribe", "gravur", "grav_"]),
    (Purpose::Bend, &["bend", "fold", "biege", "kant"]),
    (Purpose::Aside, &["dimension", "centre", "center", "construction", "hidden", "defpoints", "title"]),
];

impl Purpose {
    /// Of a layer by its name; what says nothing else is cut.
    pub fn of(name: &str) -> Self {
        let name = name.to_lowercase();
        let says = |words: &[&str]| words.iter().any(|word| name.contains(word));
        WORDS.iter().find(|(_, words)| says(words)).map_or(Self::Cut, |(purpose, _)| *purpose)
    }

    /// In words.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Cut => "cut",
            Self::Mark => "engraved",
            Self::Bend => "bend lines",
            Self::Aside => "not for the machine",
        }
    }
}
