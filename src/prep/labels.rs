//! What stands on the label of a box. One label a box where the recipe says what its box holds, else one an amount that is kept together.

use jiff::civil::{Date, DateTime};

use itertools::Itertools;

use super::boxes::{counted, in_boxes};
use super::say::reheated;
use crate::foods::Place;
use crate::kitchen::{Kitchen, Names, RecipeId, Serve, Ware, Warning, Week};
use crate::measure::{Quantity, Units};
use crate::plan::{Beware, Boxed, Contains, Guarded, MadeAt, Making, Makings, guard, recipe_contains_without};
use crate::words::{in_a_sentence, listed};

/// The labels of one session's boxes.
#[derive(Debug, Clone, PartialEq)]
pub struct SessionLabels {
    pub start: DateTime,
    pub labels: Vec<Label>,
}

/// One label.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    pub recipe: RecipeId,
    pub amount: Quantity,
    pub place: Place,
    pub made_on: Date,
    pub use_by: Date,
    /// Whether it is heated; `None` where the recipe does not say.
    pub serve: Option<Serve>,
    /// Bread, biscuits and the like: its recipe keeps it in the cupboard.
    pub keeps_uncooled: bool,
    pub contains: Contains,
    /// What of it the household avoids.
    pub beware: Option<Beware>,
    /// "Mon supper"; empty for spare.
    pub what_for: Vec<String>,
    /// Whose it is, where it is a single eater's, and what it then lacks of what goes into the rest.
    pub eater: Option<String>,
    pub without: Vec<Ware>,
    /// Allergic eaters for whom something in it is not known.
    pub not_known_for: Vec<String>,
    /// Allergic eaters, each with a food that only the words of the dish name.
    pub named_for: Vec<(String, String)>,
}

impl Label {
    /// "4 portions".
    pub fn amount_text(&self, units: Units) -> String {
        counted(&self.amount, units)
    }

    /// "For Emil", "For Emil, without tahini"; nothing where it is everybody's.
    pub fn eater_text(&self, names: Names) -> Option<String> {
        let without: Vec<String> = self.without.iter().map(|ware| in_a_sentence(names.ware(*ware))).collect();
        let without = if without.is_empty() { String::new() } else { format!(", without {}", listed(&without)) };
        self.eater.as_ref().map(|eater| format!("For {eater}{without}"))
    }

    /// "milk; not known: stock; not known for Emil: read the packet", "none by recipe; read the packets",
    /// "milk; not for Emil if walnuts went in".
    pub fn allergens_text(&self) -> String {
        let if_used = self.named_for.iter().map(|(eater, named)| format!("; not for {eater} if {named} went in")).join("");
        self.known_text() + &if_used
    }

    fn known_text(&self) -> String {
        let known = self.contains.words();
        if self.not_known_for.is_empty() {
            return known.unwrap_or_else(|| "none by recipe; read the packets".to_owned());
        }
        known.into_iter().chain([format!("not known for {}: read the packet", listed(&self.not_known_for))]).join("; ")
    }

    /// "Heat to 74 °C (165 °F)", "Eat cold", "Eat cold, or heat to …".
    pub fn heating_text(&self, units: Units) -> String {
        match self.serve {
            Some(Serve::Cold) => "Eat cold".to_owned(),
            Some(Serve::Hot) => format!("Heat to {}", reheated(units)),
            None if self.keeps_uncooled => "Eat as it is".to_owned(),
            None => format!("Eat cold, or heat to {}", reheated(units)),
        }
    }
}

/// The labels of every session that boxes anything, in the order of sessions and makings.
pub fn labels(kitchen: &Kitchen, week: &Week, makings: &Makings) -> Vec<SessionLabels> {
    let guarded = guard(kitchen, week);
    let of_session = |(index, session): (usize, &crate::kitchen::Session)| {
        let made = makings.makings.iter().filter(|making| making.at == MadeAt::Session(index));
        SessionLabels { start: session.start, labels: made.flat_map(|making| of_making(kitchen, making, &guarded)).collect() }
    };
    week.sessions.iter().enumerate().map(of_session).filter(|session| !session.labels.is_empty()).collect()
}

fn of_making(kitchen: &Kitchen, making: &Making, guarded: &Guarded) -> Vec<Label> {
    let recipe = &kitchen.recipes[making.recipe];
    let label = |boxed: &Boxed, amount: Quantity, what_for: Vec<String>| {
        let contains = recipe_contains_without(kitchen, making.recipe, &boxed.without);
        Label {
            recipe: making.recipe,
            amount,
            place: boxed.place,
            made_on: making.on,
            use_by: boxed.use_by,
            serve: recipe.serve,
            keeps_uncooled: recipe.cupboard.is_some(),
            beware: contains.beware(&kitchen.household.avoid),
            not_known_for: not_known_for(guarded, making.recipe, boxed, &contains),
            named_for: named_for(guarded, making.recipe, boxed),
            contains,
            what_for,
            eater: boxed.eater.clone(),
            without: boxed.without.clone(),
        }
    };
    let of_boxed =
        |boxed: &Boxed| in_boxes(recipe, boxed).into_iter().map(|one| label(boxed, one.amount, one.what_for)).collect::<Vec<_>>();
    making.boxes.iter().flat_map(of_boxed).collect()
}

/// The allergic eaters for whom a food of the box is not known; of a box that is one eater's, that eater alone.
fn not_known_for(guarded: &Guarded, recipe: RecipeId, boxed: &Boxed, contains: &Contains) -> Vec<String> {
    let of_box = guarded.unknown.iter().filter_map(|(dishes, warning)| match warning {
        Warning::NotKnown { eater, food, .. } if dishes.contains(&recipe) && boxed.eater.as_ref().is_none_or(|own| own == eater) => {
            // A group such as "nuts", of which nobody knows which, is known of the food itself.
            (contains.unknown.is_empty() || boxed.without.is_empty() || contains.unknown.contains(food)).then(|| eater.clone())
        }
        _ => None,
    });
    of_box.unique().collect()
}

/// As [`not_known_for`], of what only words name.
fn named_for(guarded: &Guarded, recipe: RecipeId, boxed: &Boxed) -> Vec<(String, String)> {
    let of_box = guarded.unknown.iter().filter_map(|(dishes, warning)| match warning {
        Warning::OnlyNamed { eater, named, .. } if dishes.contains(&recipe) && boxed.eater.as_ref().is_none_or(|own| own == eater) => {
            Some((eater.clone(), named.clone()))
        }
        _ => None,
    });
    of_box.unique().collect()
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::foods::{Allergen, Fact};
    use crate::kitchen::{BoxKind, Recipe};
    use crate::prep::testing::{food, ingredient, kitchen, making, recipe, week};

    /// One making of a dish in flat tubs of four portions.
    fn told(amount: Quantity, change: impl Fn(&mut Recipe)) -> Vec<Label> {
        let mut kitchen = kitchen();
        let oatcake = food(&mut kitchen, "oatcake", "bread");
        let milk = food(&mut kitchen, "milk", "dairy");
        kitchen.foods.all[milk.0 as usize].allergens = Some(Fact { value: vec![Allergen::Milk], source: "from memory".into() });
        kitchen.household.avoid = vec![Allergen::Sesame];
        let boxed = Some(BoxKind { name: "flat tub".into(), holds: Quantity::portions(4.0), holds_at: Default::default() });
        let lines = vec![ingredient("1 oatcake", oatcake, None, None), ingredient("1 l milk", milk, None, None)];
        let mut one = Recipe { boxed, ingredients: lines, portion: Some(200.into()), ..recipe("mash", "White-bean mash", 6.0, vec![]) };
        change(&mut one);
        kitchen.recipes = vec![one];
        let parts = vec![amount.exact().clone()];
        let what_for = vec!["Mon supper".into()];
        let kept = Boxed { amount, place: Place::Fridge, use_by: date(2026, 12, 2), what_for, parts, eater: None, without: vec![] };
        let making = Making { boxes: vec![kept], recipe: RecipeId(0), ..making(&kitchen, 0, 1.0) };
        let told = labels(&kitchen, &week(), &Makings { makings: vec![making], ..Makings::default() });
        told.into_iter().flat_map(|session| session.labels).collect()
    }

    #[test]
    fn every_box_has_a_label_the_fullest_first() {
        // 9 portions in tubs of 4: 4, 4 and 1; 1.8 kg at 200 g a portion are 9 portions: 800 g, 800 g and 200 g.
        let amounts = |amount| told(amount, |_| {}).into_iter().map(|label| label.amount_text(Units::Metric)).collect::<Vec<_>>();
        assert_eq!(amounts(Quantity::portions(9.0)), ["4 portions", "4 portions", "1 portion"]);
        assert_eq!(amounts(Quantity::grams(1800.0)), ["800 g", "800 g", "200 g"]);
        assert_eq!(amounts(Quantity::portions(8.0)), ["4 portions", "4 portions"]);
    }

    #[test]
    fn without_a_box_in_the_recipe_what_is_kept_together_has_one_label() {
        let amounts = told(Quantity::portions(9.0), |recipe| recipe.boxed = None);
        assert_eq!(amounts.iter().map(|label| label.amount_text(Units::Metric)).collect::<Vec<_>>(), ["9 portions"]);
        // 500 portions in tubs of 4 would be 125 labels.
        assert_eq!(told(Quantity::portions(500.0), |_| {}).len(), 1);
    }

    #[test]
    fn a_label_says_when_it_was_made_and_until_when_it_is_good() {
        let label = &told(Quantity::portions(3.0), |_| {})[0];
        assert_eq!((label.made_on, label.use_by), (date(2026, 11, 29), date(2026, 12, 2)));
        assert_eq!((label.recipe, label.place), (RecipeId(0), Place::Fridge));
        assert_eq!(label.what_for, ["Mon supper"]);
    }

    #[test]
    fn cold_dishes_are_eaten_cold_and_hot_ones_heated_through() {
        let heating = |serve| told(Quantity::portions(1.0), move |recipe| recipe.serve = serve)[0].heating_text(Units::Metric);
        assert_eq!(heating(Some(Serve::Cold)), "Eat cold");
        assert_eq!(heating(Some(Serve::Hot)), "Heat to 74 °C (165 °F)");
        assert_eq!(heating(None), "Eat cold, or heat to 74 °C (165 °F)");
    }

    #[test]
    fn what_it_contains_and_what_is_not_known_of_it_stand_on_the_label() {
        let label = &told(Quantity::portions(1.0), |_| {})[0];
        assert_eq!(label.contains.words().as_deref(), Some("milk; not known: oatcake"));
        assert_eq!(
            label.beware.as_ref().map(ToString::to_string).as_deref(),
            Some("may contain sesame: the allergens of oatcake are not known")
        );
        let plain = &told(Quantity::portions(1.0), |recipe| recipe.ingredients.clear())[0];
        assert_eq!((plain.contains.words(), &plain.beware), (None, &None));
    }
}
