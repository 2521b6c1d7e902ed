//! A recipe as it is cooked from: what this week makes of it and one batch, its lines in each size, its steps.

use jiff::civil::DateTime;

use super::line_words::{amount_alone, name_alone};
use super::step_text;
use super::text::taken_for;
use crate::kitchen::{ApplianceId, Ingredient, Kitchen, RecipeId, Serve, Source, Warning, Week};
use crate::measure::{Celsius, Days, Minutes, Number, Quantity};
use crate::plan::{Beware, Contains, MadeAt, Makings, hands_for, recipe_contains, told_of_words};

#[derive(Debug, Clone, PartialEq)]
pub struct RecipePage {
    pub recipe: RecipeId,
    /// One a making, one batch last.
    pub sizes: Vec<PageSize>,
    pub lines: Vec<PageLine>,
    pub steps: Vec<PageStep>,
    pub cupboard: Option<Days>,
    pub fridge: Option<Days>,
    pub freezer: Option<Days>,
    pub serve: Option<Serve>,
    /// What is done at the table, and the notes of its method, as written.
    pub at_table: Vec<String>,
    pub notes: Vec<String>,
    pub contains: Contains,
    /// What only its words name, for whoever may not eat it, each a sentence.
    pub only_named: Vec<String>,
    /// What of it the household avoids.
    pub beware: Option<Beware>,
    pub source: Source,
}

/// One column of amounts.
#[derive(Debug, Clone, PartialEq)]
pub struct PageSize {
    pub what: SizeOf,
    pub makes: Quantity,
}

#[derive(Debug, Clone, PartialEq)]
pub enum SizeOf {
    Session(DateTime),
    /// "Mon supper".
    Meal(String),
    /// What was asked for.
    Wanted,
    Batch,
}

#[derive(Debug, Clone, PartialEq)]
pub struct PageLine {
    /// "onions, diced".
    pub name: String,
    /// One a size; empty for "to taste".
    pub amounts: Vec<String>,
}

/// A step with the amounts and the hands of the first size.
#[derive(Debug, Clone, PartialEq)]
pub struct PageStep {
    pub text: String,
    pub hands: Minutes,
    pub wait: Minutes,
    pub ahead: Option<Minutes>,
    pub on: Vec<ApplianceId>,
    /// How much of the appliance's room these amounts take.
    pub takes: f64,
    pub at: Option<Celsius>,
    pub inside: Option<Celsius>,
}

/// Every recipe that the week makes, by name.
pub fn recipe_pages(kitchen: &Kitchen, week: &Week, makings: &Makings) -> Vec<RecipePage> {
    let mut made: Vec<RecipeId> = makings.makings.iter().map(|making| making.recipe).collect();
    made.sort_by_key(|id| (&kitchen.recipes[*id].name, *id));
    made.dedup();
    let sizes = |recipe: RecipeId| -> Vec<(SizeOf, Number)> {
        let theirs = makings.makings.iter().filter(|making| making.recipe == recipe);
        theirs.filter_map(|making| Some((place_of(week, making.at)?, making.batches.number().clone()))).collect()
    };
    made.into_iter().map(|recipe| page(kitchen, recipe, sizes(recipe))).collect()
}

/// One recipe without a week: at the number of batches that was asked for, beside one batch.
pub fn recipe_alone(kitchen: &Kitchen, recipe: RecipeId, batches: Option<Number>) -> RecipePage {
    page(kitchen, recipe, batches.map(|batches| (SizeOf::Wanted, batches)).into_iter().collect())
}

fn place_of(week: &Week, at: MadeAt) -> Option<SizeOf> {
    match at {
        MadeAt::Session(index) => week.sessions.get(index).map(|session| SizeOf::Session(session.start)),
        MadeAt::Meal(index) => week.meals.get(index).map(|meal| SizeOf::Meal(meal.label.clone())),
    }
}

fn page(kitchen: &Kitchen, id: RecipeId, mut sizes: Vec<(SizeOf, Number)>) -> RecipePage {
    let recipe = &kitchen.recipes[id];
    sizes.push((SizeOf::Batch, Number::ONE));
    let most = sizes.iter().map(|(_, batches)| batches.to_f64()).fold(0.0, f64::max);
    let taken: Vec<Vec<Number>> = sizes.iter().map(|(_, batches)| taken_for(kitchen, recipe, batches)).collect();
    let line = |(index, one): (usize, &Ingredient)| PageLine {
        name: name_alone(&kitchen.foods, &kitchen.recipes, one, most),
        amounts: taken.iter().map(|taken| amount_alone(kitchen, one, taken[index].to_f64())).collect(),
    };
    let first = sizes[0].1.to_f64();
    let step = |(number, step): (usize, &crate::kitchen::Step)| PageStep {
        text: step_text(kitchen, id, number, &sizes[0].1),
        hands: Minutes(hands_for(step, first, kitchen.rules.pace)),
        wait: step.wait,
        ahead: step.ahead,
        on: step.on.clone(),
        takes: step.takes * first,
        at: step.temperature,
        inside: step.inside,
    };
    let contains = recipe_contains(kitchen, id);
    RecipePage {
        recipe: id,
        lines: recipe.ingredients.iter().enumerate().map(line).collect(),
        steps: recipe.steps.iter().enumerate().map(step).collect(),
        cupboard: recipe.cupboard,
        fridge: recipe.fridge,
        freezer: recipe.freezer,
        serve: recipe.serve,
        at_table: recipe.at_table.clone(),
        notes: recipe.notes.clone(),
        beware: contains.beware(&kitchen.household.avoid),
        contains,
        only_named: told_of_words(kitchen, id).iter().map(Warning::words).collect(),
        source: recipe.source.clone(),
        sizes: sizes.into_iter().map(|(what, batches)| PageSize { what, makes: recipe.makes.scaled(batches) }).collect(),
    }
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::kitchen::Step;
    use crate::measure::Unit;
    use crate::prep::testing::*;

    #[test]
    fn each_size_has_its_own_amounts_and_one_batch_stands_last() {
        // 12 of 6 portions are two batches: 400 g of 200 g.
        let mut kitchen = kitchen();
        let beans = food(&mut kitchen, "dried white beans", "pulse");
        let mut mash = recipe("mash", "White-bean mash", 6.0, vec![step("Mash.")]);
        mash.ingredients = vec![ingredient("200 g dried white beans", beans, Some(item(200.0, Unit::Gram)), None)];
        kitchen.recipes = vec![mash];
        let page = recipe_alone(&kitchen, RecipeId(0), Some(Number::whole(2)));
        assert_eq!(page.lines[0].amounts, ["400 g", "200 g"]);
        assert_eq!(page.sizes.iter().map(|size| size.makes.clone()).collect::<Vec<_>>(), [Quantity::portions(12), Quantity::portions(6)]);
        assert_eq!(page.steps[0].text, "With 400 g dried white beans: Mash.");
    }

    #[test]
    fn small_volumes_of_a_page_are_in_spoons() {
        // Above four tablespoons what is poured is in millilitres.
        let mut kitchen = kitchen();
        let honey = food(&mut kitchen, "honey", "sweetener");
        let mut mash = recipe("mash", "White-bean mash", 6.0, vec![step("Mash.")]);
        mash.ingredients = vec![
            ingredient("2½ tbsp honey", honey, Some(item(2.5, Unit::Tablespoon)), None),
            ingredient("1 tsp honey", honey, Some(item(1.0, Unit::Teaspoon)), None),
            ingredient("250 ml honey", honey, Some(item(250.0, Unit::Millilitre)), None),
        ];
        kitchen.recipes = vec![mash];
        let amounts: Vec<String> =
            recipe_alone(&kitchen, RecipeId(0), None).lines.into_iter().map(|line| line.amounts[0].clone()).collect();
        assert_eq!(amounts, ["2½ tbsp", "1 tsp", "250 ml"]);
    }

    #[test]
    fn a_page_tells_the_room_that_its_amounts_take() {
        // Two loads a batch, two batches.
        let mut kitchen = kitchen();
        kitchen.recipes = vec![recipe("roots", "Roast roots", 4.0, vec![Step { takes: 2.0, ..step("Roast.") }])];
        assert_eq!(recipe_alone(&kitchen, RecipeId(0), Some(Number::whole(2))).steps[0].takes, 4.0);
        assert_eq!(recipe_alone(&kitchen, RecipeId(0), None).steps[0].takes, 2.0);
    }

    #[test]
    fn the_hands_are_those_of_the_amounts_beside_them() {
        // 15 minutes a batch, two batches, a quarter slower: 37.5; fixed hands grow with the pace alone.
        let mut kitchen = kitchen();
        kitchen.rules.pace = 1.25;
        let cut = Step { hands: Minutes(15), ..step("Peel.") };
        let turn = Step { hands: Minutes(4), scales: false, ..step("Turn.") };
        kitchen.recipes = vec![recipe("roots", "Roast roots", 4.0, vec![cut, turn])];
        let page = recipe_alone(&kitchen, RecipeId(0), Some(Number::whole(2)));
        assert_eq!(page.steps.iter().map(|step| step.hands).collect::<Vec<_>>(), [Minutes(38), Minutes(5)]);
    }
}
