//! Reads and writes tolerance classes: "H7" is a hole, "g6" a shaft.

use std::fmt;

use crate::units::Length;

/// Hole (capital letter) or shaft (small letter).
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Feature {
    /// Internal feature of size.
    Hole,
    /// External feature of size.
    Shaft,
}

/// The letters in the order of the tables; the place of a letter picks its column.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
#[rustfmt::skip]
pub(crate) enum Name {
    A, B, C, Cd, D, E, Ef, F, Fg, G, H, Js, J,
    K, M, N, P, R, S, T, U,
    V, X, Y, Z, Za, Zb, Zc,
}

/// Each letter as written for a shaft and for a hole.
#[rustfmt::skip]
const LETTERS: &[(Name, &str, &str)] = &[
    (Name::A, "a", "A"), (Name::B, "b", "B"), (Name::C, "c", "C"), (Name::Cd, "cd", "CD"), (Name::D, "d", "D"),
    (Name::E, "e", "E"), (Name::Ef, "ef", "EF"), (Name::F, "f", "F"), (Name::Fg, "fg", "FG"), (Name::G, "g", "G"),
    (Name::H, "h", "H"), (Name::Js, "js", "JS"), (Name::J, "j", "J"), (Name::K, "k", "K"), (Name::M, "m", "M"),
    (Name::N, "n", "N"), (Name::P, "p", "P"), (Name::R, "r", "R"), (Name::S, "s", "S"), (Name::T, "t", "T"),
    (Name::U, "u", "U"), (Name::V, "v", "V"), (Name::X, "x", "X"), (Name::Y, "y", "Y"), (Name::Z, "z", "Z"),
    (Name::Za, "za", "ZA"), (Name::Zb, "zb", "ZB"), (Name::Zc, "zc", "ZC"),
];

/// Position of a tolerance zone, the letter of the class.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Letter(pub(crate) Name);

impl Letter {
    /// All letters in order.
    #[allow(dead_code, reason = "tests sweep the table with it")]
    pub fn all() -> impl Iterator<Item = Self> {
        LETTERS.iter().map(|&(name, _, _)| Self(name))
    }

    /// As written for a hole (capitals) or a shaft (small letters).
    pub fn text(self, feature: Feature) -> &'static str {
        let found = LETTERS.get(self.0 as usize);
        found.map_or("", |&(_, shaft, hole)| if feature == Feature::Hole { hole } else { shaft })
    }
}

/// Tolerance grade IT01, IT0, IT1 to IT18.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Grade(i8);

impl Grade {
    /// The first grade that is not used at or below 1 mm.
    pub(crate) const IT14: Self = Self(14);

    /// A grade by number, 1 to 18 (0 is IT0, -1 stands for IT01).
    pub fn new(number: i8) -> Option<Self> {
        (-1..=18).contains(&number).then_some(Self(number))
    }

    /// All grades from IT01 to IT18.
    pub fn all() -> impl Iterator<Item = Self> {
        (-1..=18).map(Self)
    }

    /// Reads "7", "IT7" or "01".
    pub fn parse(text: &str) -> Result<Self, ClassError> {
        let digits = text.strip_prefix("IT").unwrap_or(text);
        let found = Self::all().find(|grade| grade.digits() == digits);
        found.ok_or_else(|| ClassError::UnknownGrade(text.to_owned()))
    }

    /// The number; IT01 is -1.
    pub fn number(self) -> i8 {
        self.0
    }

    pub(crate) fn column(self) -> usize {
        usize::try_from(self.0 + 1).unwrap_or(0)
    }

    /// The next finer grade; IT01 stays.
    pub(crate) fn finer(self) -> Self {
        Self((self.0 - 1).max(-1))
    }

    fn digits(self) -> String {
        if self.0 < 0 { "01".to_owned() } else { self.0.to_string() }
    }
}

impl fmt::Display for Grade {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "IT{}", self.digits())
    }
}

/// A tolerance class such as H7 or js6.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct ToleranceClass {
    /// Hole or shaft, from the case of the letter.
    pub feature: Feature,
    /// Where the zone lies.
    pub letter: Letter,
    /// How wide it is.
    pub grade: Grade,
}

impl ToleranceClass {
    /// For tables of this project: a hole class.
    pub(crate) const fn hole(letter: Name, grade: i8) -> Self {
        Self { feature: Feature::Hole, letter: Letter(letter), grade: Grade(grade) }
    }

    /// For tables of this project: a shaft class.
    pub(crate) const fn shaft(letter: Name, grade: i8) -> Self {
        Self { feature: Feature::Shaft, letter: Letter(letter), grade: Grade(grade) }
    }

    /// Reads "H7", "js6", "ZC8". The case of the letters decides between hole and shaft.
    pub fn parse(text: &str) -> Result<Self, ClassError> {
        let text = text.trim();
        let split = text.find(|c: char| !c.is_ascii_alphabetic()).unwrap_or(text.len());
        let (letters, digits) = text.split_at(split);
        let wrong = |kind: fn(String) -> ClassError| Err(kind(text.to_owned()));
        if letters.is_empty() || digits.is_empty() {
            return wrong(ClassError::NotAClass);
        }
        if letters.eq_ignore_ascii_case("it") {
            return wrong(ClassError::GradeAlone);
        }
        let Some((feature, letter)) = read_letter(letters) else {
            let mixed = letters.chars().any(char::is_lowercase) && letters.chars().any(char::is_uppercase);
            return wrong(if mixed { ClassError::MixedCase } else { ClassError::UnknownLetter });
        };
        Ok(Self { feature, letter, grade: Grade::parse(digits)? })
    }
}

fn read_letter(letters: &str) -> Option<(Feature, Letter)> {
    LETTERS.iter().find_map(|&(name, shaft, hole)| match letters {
        text if text == shaft => Some((Feature::Shaft, Letter(name))),
        text if text == hole => Some((Feature::Hole, Letter(name))),
        _ => None,
    })
}

impl fmt::Display for ToleranceClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.letter.text(self.feature), self.grade.digits())
    }
}

/// Why a class cannot be read, or has no limits at a size. The text says what would be right.
#[derive(Clone, PartialEq, Debug)]
pub enum ClassError {
    /// Not letter and grade.
    NotAClass(String),
    /// A bare grade such as IT7.
    GradeAlone(String),
    /// Capital and small letters in one class.
    MixedCase(String),
    /// A letter that the standard does not use.
    UnknownLetter(String),
    /// A number outside 01 to 18.
    UnknownGrade(String),
    /// Not hole class, slash, shaft class.
    NotAFit(String),
    /// Nominal size not above 0 up to 3150 mm.
    SizeOutOfRange(Length),
    /// IT01 or IT0 above 500 mm.
    FineGradeAbove500(Grade),
    /// IT14 to IT18 at or below 1 mm.
    CoarseGradeAtTinySize(Grade),
    /// A letter that is not used at or below 1 mm.
    LetterAtTinySize(&'static str),
    /// The letter has no value at or below this size.
    StartsAbove(&'static str, Length),
    /// The letter has no value above this size.
    EndsAt(&'static str, Length),
    /// The letter exists only in some grades.
    GradesOnly(&'static str, &'static str),
}

impl fmt::Display for ClassError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotAClass(text) => {
                write!(f, "\"{text}\" is not a tolerance class: write letter and grade, such as H7 or g6")
            }
            Self::GradeAlone(text) => {
                write!(
                    f,
                    "\"{text}\" says only how wide the zone is, not where it lies: write a letter, such as H7 or js7"
                )
            }
            Self::MixedCase(text) => {
                write!(f, "\"{text}\" mixes cases: capitals for a hole (JS7), small letters for a shaft (js7)")
            }
            Self::UnknownLetter(text) => {
                write!(
                    f,
                    "\"{text}\": no such letter; known are a b c cd d e ef f fg g h js j k m n p r s t u v x y z za zb zc"
                )
            }
            Self::UnknownGrade(text) => write!(f, "\"{text}\": no such grade; grades are 01, 0 and 1 to 18"),
            Self::NotAFit(text) => {
                write!(f, "\"{text}\" is not a fit: write hole class, slash, shaft class, such as H7/g6")
            }
            Self::SizeOutOfRange(size) => {
                write!(f, "nominal size {} mm: ISO 286-1 covers sizes above 0 up to 3150 mm", size.as_mm())
            }
            Self::FineGradeAbove500(grade) => write!(f, "{grade} is not defined above 500 mm: IT01 and IT0 end there"),
            Self::CoarseGradeAtTinySize(grade) => {
                write!(f, "{grade} is not used at or below 1 mm: IT14 to IT18 start above it")
            }
            Self::LetterAtTinySize(letter) => write!(f, "{letter} is not used at or below 1 mm"),
            Self::StartsAbove(letter, size) => write!(f, "{letter} starts above {} mm", size.as_mm()),
            Self::EndsAt(letter, size) => write!(f, "{letter} is not defined above {} mm", size.as_mm()),
            Self::GradesOnly(letter, grades) => write!(f, "{letter} exists only in {grades}"),
        }
    }
}

impl std::error::Error for ClassError {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_class_reads_back() {
        for letter in Letter::all() {
            for grade in Grade::all() {
                for feature in [Feature::Hole, Feature::Shaft] {
                    let class = ToleranceClass { feature, letter, grade };
                    assert_eq!(ToleranceClass::parse(&class.to_string()), Ok(class));
                }
            }
        }
    }

    #[test]
    fn letters_stand_in_the_order_of_their_names() {
        assert!(
            LETTERS
                .iter()
                .enumerate()
                .all(|(place, &(name, shaft, hole))| { name as usize == place && shaft.to_ascii_uppercase() == hole })
        );
    }
}
