//! What stands in a line and is bought by nobody: a net under the rules that part a line into its foods.
//!
//! "1 onion, thyme and 50 g walnuts" buys an onion. Whatever is left in the words behind a food as a number, a unit and a known food
//! is told; so is how much one person gets, and what was smoked where the food behind it is raw.

use super::{Line, LineOf};
use crate::foods::{Foods, Item, Kind as FoodKind, State, key_of};
use crate::kitchen::words::Words;
use crate::measure::{Kind, Unit};

/// Before what says the same once more: "60 ml lemon juice (about 2 lemons)".
const AGAIN: [&str; 8] = ["about", "from", "of", "approx", "approximately", "or", "for", "equals"];

fn form_of(item: &Item) -> Option<&String> {
    if let State::Prepared(form) = &item.state { Some(form) } else { None }
}

impl Line {
    /// Is it measured in some form, which may say more than that?
    pub(super) fn is_prepared(&self) -> bool {
        matches!(&self.of, LineOf::Food { item: Some(item), .. } if form_of(item).is_some())
    }

    /// Tells what its words name beside its food; `bought` are the foods of the whole line.
    pub(super) fn tell_what_is_left(&mut self, bought: &[String], foods: &Foods) {
        let LineOf::Food { food, item } = &self.of else { return };
        let form = item.as_ref().and_then(form_of);
        let said = || self.prep.iter().chain(&self.remark);
        let mut told = Vec::new();
        let mut one = None;
        for text in said().filter(|text| may_tell(text)) {
            let w = Words::of(text);
            told.extend((0..w.len()).find_map(|at| unbought(&w, at, food, bought, foods)).map(|left| {
                format!("\"{left}\" stands in the words of {food} and is not bought; write it on a line of its own, if it is to be")
            }));
            one = item.as_ref().and_then(|item| for_one(&w, item.amount.unit)).map(str::to_owned).or(one);
        }
        let smoked = |text: &String| {
            let w = Words::of(text);
            // "Rubbed with smoked salt", "smoked bacon, if liked": another food is.
            (0..w.len()).any(|at| w.is(at, "smoked") && w.food(at + 1, foods).is_none_or(|(other, _)| foods[other].name == *food))
        };
        let is_raw = || foods.find_known(&key_of(food)).and_then(|id| foods[id].kind).is_some_and(FoodKind::is_raw_flesh);
        let mut smoking = said().chain(form).filter(|text| text.to_lowercase().contains("smoked"));
        if !food.contains("smoked") && smoking.any(smoked) && is_raw() {
            told.push(format!("smoked {food} is not known, and {food} is raw; describe it in foods.toml, or write another name"));
        }
        self.for_one = one;
        self.doubts.extend(told);
    }
}

/// Has it a number, or does it say for whom? Most words behind a food do neither.
fn may_tell(text: &str) -> bool {
    text.contains(char::is_numeric) || text.contains("per ") || text == "each"
}

/// "150 g per person", "per serving", "2 potatoes each".
fn for_one<'w>(w: &'w Words, unit: Unit) -> Option<&'w str> {
    const ONE: [&str; 6] = ["person", "serving", "portion", "head", "diner", "guest"];
    let counted = matches!(unit, Unit::Piece | Unit::Word(_));
    if counted && w.len() == 1 && w.is(0, "each") {
        return Some(w.text(0..1));
    }
    (0..w.len()).find(|at| w.is(*at, "per") && ONE.iter().any(|one| w.is(at + 1, one))).map(|at| w.text(at..at + 2))
}

/// A number, perhaps a unit, and a known food that is no part of the food's own name.
fn unbought(w: &Words, at: usize, own: &str, bought: &[String], foods: &Foods) -> Option<String> {
    let number = w.number(at).ok()??;
    if !w.at(at)?.is_number() || at > 0 && (w.at(at - 1)?.is_number() || AGAIN.iter().any(|word| w.is(at - 1, word))) {
        return None;
    }
    let unit = w.unit(number.end).map_or(number.end, |(_, end)| end);
    let first = unit + usize::from(w.is(unit, "of"));
    // "3 cloves" are the spice where nothing follows.
    let named = w.food(first, foods).or_else(|| w.food(number.end, foods).filter(|(_, end)| *end == w.len()));
    let (food, end) = named?;
    if w.kind(end).is_some_and(|kind| kind == Kind::Word) && !["and", "or", "to", "for"].iter().any(|word| w.is(end, word)) {
        return None;
    }
    let food = &foods[food];
    let words = |name: &str| -> Vec<String> { key_of(name).split(' ').map(str::to_owned).collect() };
    let (mine, other) = (words(own), words(&food.name));
    let same = other.iter().any(|word| mine.contains(word));
    let had = bought.contains(&food.name);
    let plain = matches!(food.kind, Some(FoodKind::Water | FoodKind::Household));
    (!same && !had && !plain).then(|| w.text(at..end).to_owned())
}

#[cfg(test)]
mod tests {
    use super::super::{LineRead, read_ingredients};
    use crate::foods::Foods;
    use crate::measure::Spoons;

    fn lines(text: &str) -> Vec<super::Line> {
        static REFERENCE: std::sync::LazyLock<Foods> = std::sync::LazyLock::new(Foods::reference);
        let Ok(LineRead::Ingredients(lines)) = read_ingredients(text, &REFERENCE, Spoons::Us) else { panic!("{text}") };
        lines
    }

    fn doubts(text: &str) -> Vec<String> {
        lines(text).into_iter().flat_map(|line| line.doubts).collect()
    }

    #[test]
    fn a_known_food_that_a_line_names_and_nobody_buys_is_told() {
        for (text, left) in
            [("1 onion, stuffed with thyme and 50 g walnuts", "50 g walnuts"), ("400 g carrots (not 50 g walnuts)", "50 g walnuts")]
        {
            let doubts = doubts(text);
            assert!(doubts.iter().any(|doubt| doubt.contains(left) && doubt.contains("is not bought")), "{text}: {doubts:?}");
        }
        for text in [
            "4 tomatoes, 2 chopped and 2 sliced",
            "60 ml lemon juice (about 2 lemons)",
            "2 tbsp lemon juice (1 lemon)",
            "400 g potatoes (about 3 medium)",
            "2 onions, cut into 8 wedges",
            "1 tsp dried yeast, dissolved in 2 tbsp water",
            "3 eggs, 1 beaten",
        ] {
            assert!(!doubts(text).iter().any(|doubt| doubt.contains("is not bought")), "{text}: {:?}", doubts(text));
        }
    }

    #[test]
    fn how_much_one_gets_is_known_by_its_words() {
        for (text, words) in [
            ("150 g pasta per person", Some("per person")),
            ("100 g rice (per person)", Some("per person")),
            ("1 salmon fillet per serving", Some("per serving")),
            ("2 potatoes each", Some("each")),
            ("2 salmon fillets, 150 g each", None),
            ("2 tsp each paprika and ground cumin", None),
        ] {
            assert!(lines(text).iter().all(|line| line.for_one.as_deref() == words), "{text}: {:?}", lines(text));
        }
    }

    #[test]
    fn what_is_smoked_is_never_the_raw_food_in_silence() {
        assert!(
            doubts("2 smoked chicken breasts").iter().any(|doubt| doubt.starts_with("smoked chicken")),
            "{:?}",
            doubts("2 smoked chicken breasts")
        );
        for text in [
            "2 smoked mackerel fillets",
            "200 g smoked mackerel fillets, skinned",
            "2 smoked trout fillets",
            "2 hot-smoked salmon fillets",
            "2 smoked haddock fillets",
        ] {
            assert!(!doubts(text).iter().any(|doubt| doubt.contains("is raw")), "{text}: {:?}", doubts(text));
        }
    }
}
