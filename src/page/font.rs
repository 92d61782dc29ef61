//! The lettering: a part of DejaVu Sans (licence beside the file), and how wide words are in it.

use std::collections::BTreeMap;
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

fn glyphs() -> &'static BTreeMap<char, Glyph> {
    static GLYPHS: OnceLock<BTreeMap<char, Glyph>> = OnceLock::new();
    GLYPHS.get_or_init(|| face().map(read_glyphs).unwrap_or_default())
}

fn read_glyphs(face: &Face<'_>) -> BTreeMap<char, Glyph> {
    let tables = face.tables().cmap.iter().flat_map(|cmap| cmap.subtables).filter(|s| s.is_unicode());
    let mut found = BTreeMap::new();
    for table in tables {
        table.codepoints(|code| {
            let letter = char::from_u32(code).and_then(|c| Some((c, face.glyph_index(c)?)));
            if let Some((c, id)) = letter {
                found.insert(c, Glyph { id: id.0, advance: face.glyph_hor_advance(id).unwrap_or(0) });
            }
        });
    }
    found
}

/// The letter for a character; characters that the font lacks were replaced by [`printable`].
pub fn glyph(c: char) -> Glyph {
    glyphs().get(&c).copied().unwrap_or(Glyph { id: 0, advance: 1229 })
}

/// The words with every character that cannot be printed replaced, so that a gap is seen: line ends and tabs become
/// spaces, anything else `\u{FFFD}`.
pub fn printable(words: &str) -> String {
    let known = glyphs();
    let replace = |c: char| match c {
        c if known.contains_key(&c) => c,
        c if c.is_whitespace() => ' ',
        _ => '\u{FFFD}',
    };
    words.chars().map(replace).collect()
}

/// Length of the words in mm, for capitals of that height.
pub fn width(words: &str, height: f64) -> f64 {
    let units: u32 = words.chars().map(|c| u32::from(glyph(c).advance)).sum();
    f64::from(units) / UNITS_PER_EM * height / CAPITAL
}

/// The pieces at whose ends a line may be broken: words, and numbers with their unit.
pub fn pieces(words: &str) -> Vec<String> {
    let mut pieces: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        let bare = word.trim_end_matches([',', '.', ';', ':', ')', '?']);
        match pieces.last_mut() {
            Some(last) if is_number(last) && crate::show::UNITS.contains(&bare) || bare == "m" && is_newtons(last) => {
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
    let mut lines = vec![String::new()];
    let fitting = |piece: String| {
        let apart = width(&piece, height) > room;
        if apart { piece.split_whitespace().map(String::from).collect() } else { vec![piece] }
    };
    for word in pieces(words).into_iter().flat_map(fitting) {
        for piece in cut(&word, height, room) {
            let Some(line) = lines.last_mut() else { continue };
            let joined = if line.is_empty() { piece.clone() } else { format!("{line} {piece}") };
            if width(&joined, height) <= room {
                *line = joined;
            } else {
                lines.push(piece);
            }
        }
    }
    lines
}

fn cut(word: &str, height: f64, room: f64) -> Vec<String> {
    let mut pieces = vec![String::new()];
    for c in word.chars() {
        let full = pieces.last().is_some_and(|p| !p.is_empty() && width(&format!("{p}{c}"), height) > room);
        if full {
            pieces.push(String::new());
        }
        if let Some(piece) = pieces.last_mut() {
            piece.push(c);
        }
    }
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
