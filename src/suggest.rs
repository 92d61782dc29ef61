//! "Did you mean": the known words nearest to a mistyped one.

/// Longest word that is compared; a longer one has no near neighbour worth naming.
const LONGEST: usize = 64;

/// The known words with the fewest single-letter changes (insert, drop, replace) from `wanted`,
/// all of them on a tie, in the order given. Upper and lower case count as equal. Empty when
/// even the nearest differs in more than a third of its letters (at least one may differ).
pub fn nearest<'a>(wanted: &str, known: impl IntoIterator<Item = &'a str>) -> Vec<&'a str> {
    let wanted = letters(wanted);
    let mut least = allowed(wanted.len());
    let mut found = Vec::new();
    if wanted.is_empty() || wanted.len() > LONGEST {
        return found;
    }
    for word in known {
        let other = letters(word);
        if other.len().abs_diff(wanted.len()) > least {
            continue;
        }
        let changes = distance(&wanted, &other);
        if changes < least {
            found.clear();
            least = changes;
        }
        if changes == least && changes < other.len() && !found.contains(&word) {
            found.push(word);
        }
    }
    found
}

/// The nearest of the known names; where none is near, those that hold the wanted word (`bronze` in `bronze C93200`).
pub fn nearest_names<'a>(wanted: &str, known: impl Iterator<Item = &'a str>) -> Vec<String> {
    let known: Vec<&str> = known.collect();
    let near = nearest(wanted, known.iter().copied());
    let part = wanted.trim().to_lowercase();
    let found = if near.is_empty() && part.len() >= 3 {
        known.into_iter().filter(|name| name.to_lowercase().contains(&part)).take(6).collect()
    } else {
        near
    };
    found.into_iter().map(str::to_string).collect()
}

/// How many changes still count as a slip in a word of this length.
fn allowed(length: usize) -> usize {
    (length / 3).clamp(1, 4)
}

fn letters(word: &str) -> Vec<char> {
    word.chars().flat_map(char::to_lowercase).collect()
}

/// Edit distance after Levenshtein: single-letter inserts, drops and replacements from `a` to `b`.
/// Kept as one row of the usual table.
fn distance(a: &[char], b: &[char]) -> usize {
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, x) in a.iter().enumerate() {
        let mut diagonal = i;
        let mut left = i + 1;
        for (y, cell) in b.iter().zip(row.iter_mut().skip(1)) {
            let above = *cell;
            left = (diagonal + usize::from(x != y)).min(above + 1).min(left + 1);
            diagonal = above;
            *cell = left;
        }
        if let Some(first) = row.first_mut() {
            *first = i + 1;
        }
    }
    row.last().copied().unwrap_or(a.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn between(a: &str, b: &str) -> usize {
        distance(&letters(a), &letters(b))
    }

    /// The two textbook pairs of the edit distance (printed in most texts on string algorithms).
    #[test]
    fn textbook_distances() {
        assert_eq!(between("kitten", "sitting"), 3);
        assert_eq!(between("saturday", "sunday"), 3);
        assert_eq!(between("", "abc"), 3);
        assert_eq!(between("abc", ""), 3);
        assert_eq!(between("bore", "bore"), 0);
    }

    #[test]
    fn all_on_a_tie_in_the_order_given() {
        assert_eq!(nearest("im", ["mm", "in", "ft"]), ["mm", "in"]);
        assert_eq!(nearest("base_diametr", ["base_diameter", "tip_diameter"]), ["base_diameter"]);
        assert_eq!(nearest("Base-Diameter", ["base_diameter", "tip_diameter"]), ["base_diameter"]);
    }

    #[test]
    fn nothing_when_nothing_is_near() {
        assert!(nearest("colour", ["bore", "length"]).is_empty());
        assert!(nearest("", ["bore"]).is_empty());
        assert!(nearest("x", ["y"]).is_empty());
        assert!(nearest(&"a".repeat(100), ["a"]).is_empty());
    }
}
