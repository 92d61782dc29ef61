//! Did you mean: the known names nearest to a name that nobody knows.

/// The known names within a third of the length of `wanted` in letters to change, nearest first, at most three.
///
/// Case is ignored. A name that holds the wanted one, or is held by it, counts as near.
pub fn nearest_names<'a>(wanted: &str, known: impl Iterator<Item = &'a str>) -> Vec<String> {
    let wanted = wanted.trim().to_lowercase();
    let allowed = (wanted.chars().count() / 3).max(1);
    let mut near: Vec<(usize, &str)> =
        known.filter_map(|name| Some((closeness(&wanted, name, allowed)?, name))).collect();
    near.sort();
    near.dedup();
    near.into_iter().take(3).map(|(_, name)| name.to_owned()).collect()
}

fn closeness(wanted: &str, name: &str, allowed: usize) -> Option<usize> {
    let lower = name.to_lowercase();
    let distance = edit_distance(wanted, &lower);
    let held = wanted.len() >= 3 && (lower.contains(wanted) || (lower.len() >= 3 && wanted.contains(&lower)));
    if distance <= allowed { Some(distance) } else { held.then_some(allowed + 1) }
}

/// Letters to insert, delete or replace to make `a` into `b`.
fn edit_distance(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (done, letter) in a.chars().enumerate() {
        let mut left = done + 1;
        let mut next = vec![left];
        for (&other, pair) in b.iter().zip(row.windows(2)) {
            let [diagonal, up] = pair else { continue };
            left = (diagonal + usize::from(letter != other)).min(up + 1).min(left + 1);
            next.push(left);
        }
        row = next;
    }
    row.last().copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn distances() {
        // the textbook example of the edit distance: 3
        assert_eq!(edit_distance("kitten", "sitting"), 3);
        assert_eq!(edit_distance("", "abc"), 3);
        assert_eq!(edit_distance("abc", ""), 3);
        assert_eq!(edit_distance("bore", "bore"), 0);
    }

    #[test]
    fn nearest_first_and_nothing_far() {
        let known = ["base_diameter", "tip_diameter", "half_angle", "height"];
        assert_eq!(nearest_names("base_diamter", known.iter().copied()), ["base_diameter"]);
        assert_eq!(nearest_names("Hight", known.iter().copied()), ["height"]);
        assert_eq!(nearest_names("angle", known.iter().copied()), ["half_angle"]);
        assert!(nearest_names("colour", known.iter().copied()).is_empty());
    }
}
