//! The lettering: a part of DejaVu Sans (licence beside the file), and how wide words are in it.

use std::borrow::Cow;
use std::sync::OnceLock;

use ttf_parser::Face;

/// The font file.
pub const FONT: &[u8] = include_bytes!("font/DejaVuSans-subset.ttf");
/// Height of a capital letter in parts of the em, as drawn in the font (1493 of 2048).
pub const CAPITAL: f64 = 1493.0 / 2048.0;
/// The tallest usual letter above the base line, in heights of a capital.
pub const ABOVE: f64 = 1.06;
/// The deepest usual letter below the base line, in heights of a capital.
pub const BELOW: f64 = 0.30;
/// Units of the font in one em.
pub const UNITS_PER_EM: f64 = 2048.0;

/// A letter of the font.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Glyph {
    /// Number in the font file.
    pub id: u16,
    /// Width in units of the font.
    pub advance: u16,
}

/// The font, read once; `None` cannot happen with the file that is compiled in.
pub fn face() -> Option<&'static Face<'static>> {
    static FACE: OnceLock<Option<Face<'static>>> = OnceLock::new();
    FACE.get_or_init(|| Face::parse(FONT, 0).ok()).as_ref()
}

/// The letters of the font by their characters.
struct Glyphs {
    /// Those of the Latin and Greek alphabets by their codes: nearly every letter of a sheet is one of them.
    near: Vec<Option<Glyph>>,
    /// The others, in the order of their codes.
    far: Vec<(char, Glyph)>,
}

/// Codes from this on are looked for.
const FAR: usize = 0x400;

impl Glyphs {
    fn read(face: &Face<'_>) -> Self {
        let mut glyphs = Self { near: vec![None; FAR], far: Vec::new() };
        for table in face.tables().cmap.iter().flat_map(|cmap| cmap.subtables).filter(|s| s.is_unicode()) {
            table.codepoints(|code| {
                let letter = char::from_u32(code).and_then(|c| Some((c, face.glyph_index(c)?)));
                if let Some((c, id)) = letter {
                    let glyph = Glyph { id: id.0, advance: face.glyph_hor_advance(id).unwrap_or(0) };
                    match glyphs.near.get_mut(code as usize) {
                        Some(place) => *place = Some(glyph),
                        None => glyphs.far.push((c, glyph)),
                    }
                }
            });
        }
        glyphs.far.sort_by_key(|(c, _)| *c);
        glyphs.far.dedup();
        glyphs
    }

    fn get(&self, c: char) -> Option<Glyph> {
        self.near.get(c as usize).copied().unwrap_or_else(|| {
            let found = self.far.binary_search_by_key(&c, |(c, _)| *c).ok()?;
            self.far.get(found).map(|(_, glyph)| *glyph)
        })
    }
}

fn glyphs() -> &'static Glyphs {
    static GLYPHS: OnceLock<Glyphs> = OnceLock::new();
    GLYPHS.get_or_init(|| face().map_or_else(|| Glyphs { near: Vec::new(), far: Vec::new() }, Glyphs::read))
}

/// The letter for a character; characters that the font lacks were replaced by [`printable`].
pub fn glyph(c: char) -> Glyph {
    glyphs().get(c).unwrap_or(Glyph { id: 0, advance: 1229 })
}

/// The words with every character that cannot be printed replaced, so that a gap is seen: line ends and tabs become
/// spaces, anything else `\u{FFFD}`.
pub fn printable(words: impl Into<String>) -> String {
    let (known, words) = (glyphs(), words.into());
    if words.chars().all(|c| known.get(c).is_some()) {
        return words;
    }
    let replace = |c: char| match c {
        c if known.get(c).is_some() => c,
        c if c.is_whitespace() => ' ',
        _ => '\u{FFFD}',
    };
    words.chars().map(replace).collect()
}

/// Length of the words in units of the font.
fn units(words: &str) -> u32 {
    words.chars().map(|c| u32::from(glyph(c).advance)).sum()
}

/// A length in units of the font in mm, for capitals of that height.
fn length(units: u32, height: f64) -> f64 {
    f64::from(units) / UNITS_PER_EM * height / CAPITAL
}

/// Length of the words in mm, for capitals of that height.
pub fn width(words: &str, height: f64) -> f64 {
    length(units(words), height)
}

/// The pieces at whose ends a line may be broken: words, and numbers with their unit.
pub fn pieces(words: &str) -> Vec<Cow<'_, str>> {
    let mut pieces: Vec<Cow<'_, str>> = Vec::new();
    for word in words.split_whitespace() {
        let bare = word.trim_end_matches([',', '.', ';', ':', ')', '?']);
        match pieces.last_mut() {
            Some(last)
                if is_number(last) && crate::record::show::UNITS.contains(&bare) || bare == "m" && is_newtons(last) =>
            {
                let last = last.to_mut();
                last.push(' ');
                last.push_str(word);
            }
            _ => pieces.push(word.into()),
        }
    }
    pieces
}

fn is_number(word: &str) -> bool {
    word.ends_with(|c: char| c.is_ascii_digit()) && !word.contains(|c: char| c.is_alphabetic() && c != 'Ø')
}

/// A number of newtons, which a metre makes a torque.
fn is_newtons(piece: &str) -> bool {
    piece.strip_suffix(" N").is_some_and(is_number)
}

/// Breaks words into lines that are no longer than `room`, no number apart from its unit; a word that is longer is cut.
pub fn wrap(words: &str, height: f64, room: f64) -> Vec<String> {
    let fits = |units: u32| length(units, height) <= room;
    let mut lines = Lines { lines: vec![String::new()], units: 0 };
    for piece in pieces(words) {
        let long = units(&piece);
        if fits(long) {
            lines.add(&piece, long, fits);
            continue;
        }
        for part in piece.split_whitespace().flat_map(|word| cut(word, fits)) {
            lines.add(part, units(part), fits);
        }
    }
    lines.lines
}

/// Lines that are being filled.
struct Lines {
    lines: Vec<String>,
    /// Length of the last one, in units of the font.
    units: u32,
}

impl Lines {
    /// Adds a piece to the last line, or begins another.
    fn add(&mut self, piece: &str, long: u32, fits: impl Fn(u32) -> bool) {
        let Some(line) = self.lines.last_mut() else { return };
        let gap = if line.is_empty() { "" } else { " " };
        let joined = self.units + units(gap) + long;
        if fits(joined) {
            line.push_str(gap);
            line.push_str(piece);
            self.units = joined;
        } else {
            self.lines.push(piece.into());
            self.units = long;
        }
    }
}

/// A word in pieces that fit, each of one letter at least.
fn cut(word: &str, fits: impl Fn(u32) -> bool) -> Vec<&str> {
    let (mut pieces, mut begin, mut long) = (Vec::new(), 0, 0);
    for (at, c) in word.char_indices() {
        let advance = u32::from(glyph(c).advance);
        if at > begin && !fits(long + advance) {
            pieces.extend(word.get(begin..at));
            (begin, long) = (at, 0);
        }
        long += advance;
    }
    pieces.extend(word.get(begin..));
    pieces
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sign_of_the_trade_is_in_the_font() {
        assert!(face().is_some());
        for c in "AZaz09Ø⌀±°×µμ−≤≥→←↑↓↧✓☐⚠□√½⅜⅛²³·…–—‘’“”äöüßçñłščžΔΩαβ∥⊥∠".chars()
        {
            assert_ne!(glyph(c).id, 0, "{c}");
        }
    }

    #[test]
    fn capital_height_is_the_font_s() {
        let h = face().and_then(|f| f.glyph_bounding_box(ttf_parser::GlyphId(glyph('H').id))).map(|b| b.y_max);
        assert_eq!(h.map(f64::from), Some(CAPITAL * UNITS_PER_EM));
    }

    #[test]
    fn unknown_letters_are_seen() {
        assert_eq!(printable("Rig\u{4e2d}\tA"), "Rig\u{FFFD} A");
    }

    #[test]
    fn lines_fit_their_room() {
        let text = "Turn the cone to 14.036 degrees with the top slide and averyveryverylongwordthatdoesnotfitanywhere";
        for line in wrap(text, 2.5, 40.0) {
            assert!(width(&line, 2.5) <= 40.0, "{line}");
        }
        assert_eq!(wrap("", 2.5, 40.0), vec![String::new()]);
    }

    #[test]
    fn a_number_stays_with_its_unit() {
        assert_eq!(
            pieces("take 0.015 mm, at 12 N m and M8 in"),
            ["take", "0.015 mm,", "at", "12 N m", "and", "M8", "in"]
        );
        let room = width("at least 0.015", 2.5) + 0.1;
        assert_eq!(wrap("at least 0.015 mm", 2.5, room), ["at least", "0.015 mm"]);
    }
}
