//! What is known of one food as lines of text, each with its source; what is not known is said too.

use super::{Allergen, Fact, Food, FoodId, Foods, Kind, Measured};
use crate::measure::Days;

/// A fact's name, its value in words, and where it comes from; the source is empty where there is none to name.
pub type CardLine = (String, String, String);

const NOT_KNOWN: &str = "not known";

/// From small to large; forms stay in order of the alphabet.
const SIZES: [&str; 3] = ["small", "medium", "large"];

impl Foods {
    /// Everything known of a food, a line a fact, always in the same order; what is not known has `not known` for its value.
    ///
    /// Weights are in grams: of a US cup, of one piece or word as purchased. Nutrients are per 100 g edible portion.
    pub fn card(&self, id: FoodId) -> Vec<CardLine> {
        let food = &self[id];
        let mut card = vec![plain("name", Some(&food.name))];
        let also = self.other_names(id);
        if !also.is_empty() {
            card.push(plain("also", Some(&also.join(", "))));
        }
        card.push(plain("kind", food.kind.map(Kind::name)));
        card.push(plain("section", food.section.as_deref()));
        weights(&mut card, food);
        // Nobody eats it: nothing of food is said of it, not even that it is not known.
        if food.kind == Some(Kind::Household) {
            return card;
        }
        shares(&mut card, food);
        keeping(&mut card, food);
        card.push(allergens(food));
        nutrients(&mut card, food);
        card
    }
}

fn weights(card: &mut Vec<CardLine>, food: &Food) {
    measured(card, "cup", &food.cup, food);
    measured(card, "each", &food.each, food);
    for (word, fact) in &food.words {
        card.push((word.clone(), grams(fact.value), fact.source.clone()));
    }
    for (word, fact) in &food.volumes {
        card.push((word.clone(), format!("{} ml", figure(fact.value)), fact.source.clone()));
    }
}

fn measured(card: &mut Vec<CardLine>, name: &str, fact: &Option<Fact<Measured>>, food: &Food) {
    match fact {
        Some(Fact { value: Measured::Table(table), source }) => {
            let mut rows: Vec<_> = table.iter().collect();
            rows.sort_by_key(|(form, _)| SIZES.iter().position(|size| size == form));
            for (form, weight) in rows {
                let figure = format!("{name}, {form}");
                let source = food.source_of(&figure, source).to_owned();
                card.push((figure, grams(*weight), source));
            }
        }
        Some(Fact { value: Measured::Single(weight), source }) => card.push((name.to_owned(), grams(*weight), source.clone())),
        None if food.kind == Some(Kind::Household) => {}
        None => card.push(plain(name, None)),
    }
}

fn shares(card: &mut Vec<CardLine>, food: &Food) {
    if food.edible.is_none() && !food.unknown {
        card.push(("edible".to_owned(), "whole".to_owned(), String::new()));
    } else {
        card.push(line("edible", &food.edible, |share| percent(*share)));
    }
    // Most foods are neither cooked from dry nor tinned: a line for each that is not would say nothing.
    for (name, fact, text) in
        [("cooked weight / dry weight", &food.cooked, figure as fn(f64) -> String), ("drained share", &food.drained, percent)]
    {
        if fact.is_some() {
            card.push(line(name, fact, |value| text(*value)));
        }
    }
    if food.cut.is_some() {
        card.push(line("cut", &food.cut, |cut| if *cut { "yes" } else { "no, whole ones are taken" }.to_owned()));
    }
    if food.cooks.is_some() {
        card.push(line("cooks", &food.cooks, ToString::to_string));
    }
}

fn keeping(card: &mut Vec<CardLine>, food: &Food) {
    let keeps = &food.keeps;
    for (name, fact) in [
        ("keeps in the cupboard", &keeps.cupboard),
        ("keeps in the fridge", &keeps.fridge),
        ("keeps in the freezer", &keeps.freezer),
        ("keeps once opened", &keeps.opened),
        ("thaws in", &food.thaw),
    ] {
        card.push(line(name, fact, |days| days_text(*days)));
    }
}

fn nutrients(card: &mut Vec<CardLine>, food: &Food) {
    let Some(Fact { value, source }) = &food.nutrients else {
        card.push(plain("nutrients", None));
        return;
    };
    for (name, amount, unit) in value.rows() {
        let title = format!("{name} in 100 g");
        card.push(match amount {
            Some(amount) => (title, format!("{} {unit}", figure(amount)), food.source_of(name, source).to_owned()),
            None => plain(&title, None),
        });
    }
}

fn plain(name: &str, value: Option<&str>) -> CardLine {
    (name.to_owned(), value.unwrap_or(NOT_KNOWN).to_owned(), String::new())
}

fn line<T>(name: &str, fact: &Option<Fact<T>>, text: impl Fn(&T) -> String) -> CardLine {
    match fact {
        Some(Fact { value, source }) => (name.to_owned(), text(value), source.clone()),
        None => plain(name, None),
    }
}

/// Where it depends on the maker, what is certain, and that the packet says the rest.
fn allergens(food: &Food) -> CardLine {
    match (&food.allergens, &food.contains) {
        (None, Some(Fact { value, source })) => {
            let certain = if value.is_empty() { "none for certain".to_owned() } else { allergen_names(value) };
            ("allergens".to_owned(), format!("{certain}; a maker may add others: read the packet"), source.clone())
        }
        (known, _) => line("allergens", known, |allergens| allergen_names(allergens)),
    }
}

fn allergen_names(allergens: &[Allergen]) -> String {
    if allergens.is_empty() {
        return "none".to_owned();
    }
    allergens.iter().map(|allergen| allergen.name()).collect::<Vec<_>>().join(", ")
}

/// At most two decimals, and none that are nought.
fn figure(value: f64) -> String {
    let text = format!("{value:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn grams(value: f64) -> String {
    format!("{} g", figure(value))
}

fn percent(share: f64) -> String {
    format!("{} %", figure(share * 100.0))
}

fn days_text(days: Days) -> String {
    let unit = if days.0 == 1 { "day" } else { "days" };
    format!("{} {unit}", days.0)
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;

    fn card_of(food: Food) -> Vec<CardLine> {
        let foods = Foods::from_iter([food]);
        foods.card(FoodId(0))
    }

    fn value<'a>(card: &'a [CardLine], name: &str) -> Option<(&'a str, &'a str)> {
        card.iter().find(|line| line.0 == name).map(|line| (line.1.as_str(), line.2.as_str()))
    }

    fn fact<T>(value: T, source: &str) -> Option<Fact<T>> {
        Some(Fact { value, source: source.into() })
    }

    #[test]
    fn each_fact_stands_with_its_source() {
        let card = card_of(Food {
            name: "onion".into(),
            cup: fact(Measured::Table([("chopped".to_owned(), 160.0)].into()), "USDA SR 11282"),
            each: fact(Measured::Single(122.0), "foods.toml:12"),
            edible: fact(0.9, "USDA SR 11282"),
            thaw: fact(Days(1), "from memory"),
            allergens: fact(vec![], "EU 1169/2011 Annex II"),
            ..Food::default()
        });
        assert_eq!(value(&card, "cup, chopped"), Some(("160 g", "USDA SR 11282")));
        assert_eq!(value(&card, "each"), Some(("122 g", "foods.toml:12")));
        assert_eq!(value(&card, "edible"), Some(("90 %", "USDA SR 11282")));
        assert_eq!(value(&card, "thaws in"), Some(("1 day", "from memory")));
        assert_eq!(value(&card, "allergens"), Some(("none", "EU 1169/2011 Annex II")));
    }

    #[test]
    fn what_is_not_known_is_said_so() {
        let card = card_of(Food { name: "dragonfruit".into(), unknown: true, ..Food::default() });
        for name in ["kind", "section", "cup", "each", "edible", "keeps in the fridge", "keeps once opened", "allergens", "nutrients"] {
            assert_eq!(value(&card, name), Some((NOT_KNOWN, "")), "{name}");
        }
    }

    #[test]
    fn how_a_food_is_cooked_and_that_it_is_not_cut_stand_only_where_they_are_known() {
        let egg = card_of(Food {
            name: "egg".into(),
            cut: fact(false, "common practice"),
            cooks: fact(crate::foods::read_cooks("boil 10 min").unwrap(), "common practice"),
            ..Food::default()
        });
        assert_eq!(value(&egg, "cut"), Some(("no, whole ones are taken", "common practice")));
        assert_eq!(value(&egg, "cooks"), Some(("boil 10 min", "common practice")));
        let oil = card_of(Food { name: "olive oil".into(), ..Food::default() });
        assert_eq!((value(&oil, "cut"), value(&oil, "cooks")), (None, None));
    }

    #[test]
    fn what_every_maker_puts_in_is_said_where_the_rest_is_not_known() {
        let mayonnaise =
            Food { name: "mayonnaise".into(), contains: fact(vec![Allergen::Egg], "EU 1169/2011 Annex II"), ..Food::default() };
        let said = "egg; a maker may add others: read the packet";
        assert_eq!(value(&card_of(mayonnaise.clone()), "allergens"), Some((said, "EU 1169/2011 Annex II")));
        let mix = Food { contains: fact(vec![], "common practice"), ..mayonnaise.clone() };
        assert_eq!(
            value(&card_of(mix), "allergens"),
            Some(("none for certain; a maker may add others: read the packet", "common practice"))
        );
        let read = Food { allergens: fact(vec![Allergen::Egg, Allergen::Mustard], "foods.toml:3"), ..mayonnaise };
        assert_eq!(value(&card_of(read), "allergens"), Some(("egg, mustard", "foods.toml:3")));
    }

    #[test]
    fn of_household_goods_nothing_is_said_to_be_not_known() {
        let foil = card_of(Food { name: "foil".into(), kind: Some(Kind::Household), section: Some("Household".into()), ..Food::default() });
        let names: Vec<&str> = foil.iter().map(|line| line.0.as_str()).collect();
        assert_eq!(names, ["name", "kind", "section"]);
    }

    #[test]
    fn a_known_food_without_a_yield_is_edible_whole() {
        let card = card_of(Food { name: "olive oil".into(), ..Food::default() });
        assert_eq!(value(&card, "edible"), Some(("whole", "")));
    }

    #[test]
    fn every_allergen_has_its_own_name() {
        for (allergen, name) in Allergen::ALL {
            assert_eq!(allergen.name(), name);
        }
    }
}
