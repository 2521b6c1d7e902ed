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

/// The one of `known` that is a single slip away; else those, three at most, in which every word of `typed` stands, or the nearest: "leek-and-potato-soup" for "leek soup".
pub fn likely<'a>(typed: &str, known: impl IntoIterator<Item = &'a str> + Clone) -> Vec<&'a str> {
    let near = nearest_and_how_far(typed, known.clone());
    let wanted = words(typed);
    let holds_all = |name: &&str| {
        let own = words(name);
        wanted.iter().all(|word| own.contains(word))
    };
    let found: Vec<&str> = known.into_iter().filter(holds_all).collect();
    match near {
        Some((slips, name)) if slips <= 1 || wanted.is_empty() || found.is_empty() => vec![name],
        _ if wanted.is_empty() || found.len() > MOST_LIKELY => Vec::new(),
        _ => found,
    }
}

/// More than these are no hint.
const MOST_LIKELY: usize = 3;

/// "1 portion recipe:boiled-eggs" for "1 portion boiled eggs", where one of `ids` is meant.
pub fn as_of_a_recipe<'a>(line: &str, ids: impl IntoIterator<Item = &'a str> + Clone) -> Option<String> {
    let words: Vec<&str> = line.split(',').next()?.split_whitespace().collect();
    let portion = words.iter().position(|word| word.to_lowercase().starts_with("portion"))?;
    let (amount, name) = words.split_at(portion + 1);
    let name = name.strip_prefix(&["of"]).unwrap_or(name).join("-");
    let name = name.strip_prefix("recipe:").unwrap_or(&name);
    match likely(name, ids).as_slice() {
        [id] => Some(format!("{} recipe:{id}", amount.join(" "))),
        _ => None,
    }
}

fn words(name: &str) -> Vec<String> {
    name.split(|letter: char| !letter.is_alphanumeric()).filter(|word| !word.is_empty()).map(str::to_lowercase).collect()
}

/// `Did you mean "oven"?`, or else what there is to choose from.
pub fn did_you_mean<'a>(typed: &str, known: impl IntoIterator<Item = &'a str> + Clone, none: &str) -> String {
    let likely = likely(typed, known.clone());
    if !likely.is_empty() {
        let quoted: Vec<String> = likely.iter().map(|name| format!("\"{name}\"")).collect();
        return format!("Did you mean {}?", quoted.join(" or "));
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

    #[test]
    fn a_name_is_known_by_some_of_its_words() {
        let recipes = ["leek-and-potato-soup", "pearl-barley", "white-bean-mash", "bean-soup"];
        assert_eq!(likely("leek soup", recipes), ["leek-and-potato-soup"]);
        assert_eq!(likely("soup", recipes), ["leek-and-potato-soup", "bean-soup"]);
        assert!(likely("trout", recipes).is_empty() && likely("-", recipes).is_empty());
        assert_eq!(as_of_a_recipe("1 portion of Pearl Barley, warm", recipes).as_deref(), Some("1 portion recipe:pearl-barley"));
        assert_eq!(as_of_a_recipe("2 portions trout", recipes), None);
        assert_eq!(did_you_mean("leek-soup", recipes, ""), "Did you mean \"leek-and-potato-soup\"?");
    }
}
