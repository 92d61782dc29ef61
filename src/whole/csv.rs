//! All lists in one table for a spreadsheet: RFC 4180, UTF-8 with its mark, so that every program takes × and ° for what they are.

use super::lists::List;

/// Column headings.
const HEAD: [&str; 7] = ["list", "item", "count", "material", "size", "parts", "note"];

/// The table.
pub fn csv(lists: &[List]) -> Vec<u8> {
    let mut text = String::from("\u{feff}");
    row(&mut text, &HEAD);
    for list in lists {
        for line in &list.lines {
            let [item, count, material, size, parts, note] = line.cells();
            row(&mut text, &[list.key, item, count, material, size, parts, note]);
        }
    }
    text.into_bytes()
}

fn row(text: &mut String, cells: &[&str]) {
    let cells: Vec<String> = cells.iter().map(|c| cell(c)).collect();
    text.push_str(&cells.join(","));
    text.push_str("\r\n");
}

/// One cell. What a spreadsheet would take for a formula gets a quote before it, so that a name stays a name.
fn cell(words: &str) -> String {
    let formula =
        words.starts_with(['=', '+', '@', '\t', '\r']) || words.starts_with('-') && words.parse::<f64>().is_err();
    let words = if formula { format!("'{words}") } else { words.to_string() };
    if words.contains([',', '"', '\n', '\r']) { format!("\"{}\"", words.replace('"', "\"\"")) } else { words }
}

#[cfg(test)]
mod tests {
    use super::cell;

    /// RFC 4180, section 2, rules 6 and 7.
    #[test]
    fn cells_are_quoted_where_they_must_be() {
        assert_eq!(cell("aaa"), "aaa");
        assert_eq!(cell("b \"bb, c"), "\"b \"\"bb, c\"");
        assert_eq!(cell("=1+1"), "'=1+1");
        assert_eq!(cell("-0.5"), "-0.5");
    }
}
