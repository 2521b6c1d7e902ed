//! "Did you mean": the nearest of a set of names.

/// The nearest of `known` to `typed`, if any is near enough to be a slip of the hand.
pub(super) fn nearest<'a>(typed: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    nearest_and_how_far(typed, known).map(|(_, name)| name)
}

/// As [`nearest`], with the number of slips between the two.
pub(super) fn nearest_and_how_far<'a>(typed: &str, known: impl IntoIterator<Item = &'a str>) -> Option<(usize, &'a str)> {
    let typed = typed.to_lowercase();
    let mut best: Option<(usize, &str)> = None;
    for name in known {
        let distance = strsim::damerau_levenshtein(&typed, &name.to_lowercase());
        let allowed = (name.chars().count().max(typed.chars().count()) / 3).max(1);
        if distance <= allowed && best.is_none_or(|(least, _)| distance < least) {
            best = Some((distance, name));
        }
    }
    best
}

/// `Did you mean "oven"?`, or else what there is to choose from.
pub(super) fn did_you_mean<'a>(typed: &str, known: impl IntoIterator<Item = &'a str> + Clone, none: &str) -> String {
    if let Some(name) = nearest(typed, known.clone()) {
        return format!("Did you mean \"{name}\"?");
    }
    let names: Vec<&str> = known.into_iter().take(12).collect();
    if names.is_empty() { none.to_owned() } else { format!("Known: {}.", names.join(", ")) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use pretty_assertions::assert_eq;

    #[test]
    fn a_slip_of_the_hand_finds_its_key_and_a_stranger_finds_none() {
        let keys = ["batches", "makes", "keeps"];
        assert_eq!(nearest("batchs", keys), Some("batches"));
        assert_eq!(nearest("kepes", keys), Some("keeps"));
        assert_eq!(nearest("colour", keys), None);
    }
}
