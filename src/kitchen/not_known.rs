//! What the packets must tell, because nobody else does.

use itertools::Itertools;

use super::Warning;
use crate::words::{listed, sentence};

/// What is not known for allergic eaters, a line an eater with the foods and dishes:
/// "Sesame not known for Emil: read the packet of oatcake (Bean mash and oatcakes)."
/// After these, what only the words of a dish name, a line each: "Leek soup: the words of step 4 name walnuts ...".
pub fn not_known<'w>(warnings: impl IntoIterator<Item = &'w Warning>) -> Vec<String> {
    let warnings: Vec<&Warning> = warnings.into_iter().collect();
    let only_named = warnings.iter().filter_map(|warning| match warning {
        Warning::OnlyNamed { text, dish, .. } => Some(format!("{dish}: {text}")),
        _ => None,
    });
    let only_named: Vec<String> = only_named.unique().collect();
    let told: Vec<(&str, &[String], &str, &str)> = warnings
        .into_iter()
        .filter_map(|warning| match warning {
            Warning::NotKnown { eater, words, food, dish, .. } => Some((eater.as_str(), words.as_slice(), food.as_str(), dish.as_str())),
            _ => None,
        })
        .collect();
    let line = |eater: &str| {
        let mine = || told.iter().filter(|(of, ..)| *of == eater);
        let words: Vec<&String> = mine().flat_map(|(_, words, ..)| *words).unique().collect();
        let dishes = |food: &str| mine().filter(|(_, _, of, _)| *of == food).map(|(.., dish)| *dish).unique().join(", ");
        let foods: Vec<String> = mine().map(|(_, _, food, _)| *food).unique().map(|food| format!("{food} ({})", dishes(food))).collect();
        format!("{} not known for {eater}: read the packet of {}.", sentence(&listed(&words)), listed(&foods))
    };
    told.iter().map(|(eater, ..)| *eater).unique().map(line).chain(only_named).collect()
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::kitchen::Spot;

    #[test]
    fn what_is_not_known_is_one_line_an_eater_with_foods_and_dishes() {
        let doubt = |food: &str, dish: &str| Warning::NotKnown {
            at: Spot::default(),
            text: String::new(),
            eater: "Emil".into(),
            words: vec!["sesame".into()],
            food: food.into(),
            dish: dish.into(),
        };
        let doubts = [doubt("oatcake", "Bean mash"), doubt("stock", "Soup"), doubt("oatcake", "Bean mash"), doubt("oatcake", "Lunch")];
        assert_eq!(not_known(&doubts), ["Sesame not known for Emil: read the packet of oatcake (Bean mash, Lunch) and stock (Soup)."]);
    }
}
