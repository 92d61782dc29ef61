//! The one gate for text: which characters may stand on a sheet or a terminal, and what stands in place of the others.
//!
//! A control character is obeyed by a terminal, a line break forges a line of its own, and a mark of direction shows
//! words in another order than they have. None of them belongs into the name of a part.

/// Why a character is kept out.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Unseen {
    /// It begins a new line.
    LineBreak,
    /// A tab.
    Tab,
    /// It turns the direction in which its neighbours are shown.
    Direction,
    /// Any other control character, C0 or C1.
    Control,
}

impl Unseen {
    /// What is wrong with a text that holds it, and what would be right.
    pub const fn said(self) -> (&'static str, &'static str) {
        match self {
            Self::LineBreak => ("this text goes over more than one line", "write it on one line"),
            Self::Tab => ("there is a tab in this text", "put a space in its place"),
            Self::Direction => (
                "an unseen mark in this text turns the direction in which it is shown",
                "delete the mark, or type the text anew: what is read must be what is written",
            ),
            Self::Control => {
                ("there is a control character in this text", "delete it, or type the text anew: a terminal obeys it")
            }
        }
    }
}

/// Whether a character is kept out, and why.
/// Source: Unicode Standard, general categories Cc, Zl and Zp, and property Bidi_Control.
pub const fn unseen(c: char) -> Option<Unseen> {
    match c {
        '\t' => Some(Unseen::Tab),
        '\n' | '\u{b}' | '\u{c}' | '\r' | '\u{85}' | '\u{2028}' | '\u{2029}' => Some(Unseen::LineBreak),
        '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => {
            Some(Unseen::Direction)
        }
        '\0'..='\u{1f}' | '\u{7f}'..='\u{9f}' => Some(Unseen::Control),
        _ => None,
    }
}

/// The first character of a text that is kept out, with its place in bytes.
pub fn first_unseen(text: &str) -> Option<(usize, char, Unseen)> {
    text.char_indices().find_map(|(at, c)| unseen(c).map(|why| (at, c, why)))
}

/// A text for a message: each character that is kept out becomes U+FFFD, so that places in it stay where they are.
pub fn printable(text: &str) -> String {
    text.replace(|c| unseen(c).is_some(), "\u{fffd}")
}

/// A text for a message with the characters that are kept out written as `\u{202e}`.
pub fn escaped(text: &str) -> String {
    text.chars().fold(String::new(), |mut shown, c| {
        match unseen(c) {
            Some(_) => shown.extend(c.escape_unicode()),
            None => shown.push(c),
        }
        shown
    })
}
