//! Cautions of a session: a table of when each applies, what it says and who published it; and what its dishes contain.

use itertools::Itertools;

use super::cuts::is_cut;
use super::links::holds_grain;
use crate::foods::safety::{CHILLED_WITHIN, FRIDGE_AT_MOST, GRAINS_CHILLED_WITHIN, INSIDE_CHART, KEPT_HOT, REHEATED, least_inside};
use crate::foods::{Allergen, Food, FoodId, Foods, Kind, Place, State};
use crate::kitchen::not_known;
use crate::kitchen::{
    Appliance, ApplianceKind, Ingredient, Kitchen, Names, Piece, Recipe, RecipeId, Rules, Serve, Step, Wanted, Ware, Warning, Week,
};
use crate::measure::{Celsius, Units};
use crate::plan::{CrossContact, Kept, Making, Makings, cross_contacts, guard, recipe_contains_without};
use crate::words::degrees;

/// What to take care of in a session.
#[derive(Debug, Clone, PartialEq)]
pub enum Care {
    /// A row of the table: what it says, with a figure in place of each `{}`, and who published it.
    Rule { text: &'static str, figures: Vec<Celsius>, source: &'static str },
    /// What of the dishes the household avoids.
    Avoided(Vec<Holds>),
    /// What the dishes contain of the substances of Annex II.
    Contains(Vec<Holds>),
    /// Whose food is made first, and after which dishes the tools are cleaned.
    CrossContact(CrossContact),
    /// What is not known for an allergic eater, as the week's warnings say it: at the head of the guide.
    Unknown(String),
    /// What is not for a small child, as the week's warnings say it.
    Child(String),
    /// Foods whose allergens are not known.
    NotKnown(Vec<FoodId>),
    /// Whose rules come first.
    LocalRules,
}

/// A dish, and which allergens of it are meant.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Holds {
    pub recipe: RecipeId,
    pub allergens: Vec<Allergen>,
    /// Foods and kinds of food that the household avoids, in its own words.
    pub words: Vec<String>,
}

impl CrossContact {
    /// "Emil is allergic to sesame, which is in White-bean mash."
    pub fn warning(&self, names: Names) -> String {
        let dishes = self.others.iter().map(|dish| names.recipe(*dish)).join(", ");
        format!("{} is allergic to {}, which goes into {dishes}.", self.eater, self.words.join(", "))
    }
}

impl Care {
    /// Without its source.
    pub fn text(&self, names: Names) -> String {
        let dish = |one: &Holds| {
            format!(
                "{}: {}",
                names.recipe(one.recipe),
                one.allergens.iter().map(|one| one.name()).chain(one.words.iter().map(String::as_str)).join(", ")
            )
        };
        match self {
            Care::Rule { text, figures, .. } => with_figures(text, figures),
            Care::Avoided(dishes) => format!("This household avoids what is in here. {}.", dishes.iter().map(dish).join("; ")),
            Care::CrossContact(one) => {
                let dishes = |list: &[RecipeId]| list.iter().map(|dish| names.recipe(*dish)).join(", ");
                let CrossContact { eater, words, theirs, others, first, .. } = one;
                if !first {
                    return format!(
                        "{eater} is allergic to {}. Not all that {eater} eats can be made first ({}): use another board, knife and pan for it; \
                         clean board, knife, spoons and hands after {}.",
                        words.join(", "),
                        dishes(theirs),
                        dishes(others)
                    );
                }
                format!(
                    "{eater} is allergic to {}. Make what {eater} eats first ({}); clean board, knife, spoons and hands after {}.",
                    words.join(", "),
                    dishes(theirs),
                    dishes(others)
                )
            }
            Care::Child(text) | Care::Unknown(text) => text.clone(),
            Care::Contains(dishes) => format!("Allergens. {}.", dishes.iter().map(dish).join("; ")),
            Care::NotKnown(foods) => {
                format!("Allergens not known: {}. Read the labels.", foods.iter().map(|food| names.food(*food)).join(", "))
            }
            Care::LocalRules => DEFERENCE.to_owned(),
        }
    }

    pub fn source(&self) -> Option<&'static str> {
        match self {
            Care::Rule { source, .. } => Some(source),
            Care::Contains(_) => Some(ANNEX),
            Care::CrossContact(_) => Some(CROSS_CONTACT),
            Care::Avoided(_) | Care::Child(_) | Care::Unknown(_) | Care::NotKnown(_) | Care::LocalRules => None,
        }
    }

    /// "text (source)".
    pub fn with_source(&self, names: Names) -> String {
        let source = self.source().map(|source| format!(" ({source})")).unwrap_or_default();
        self.text(names) + &source
    }
}

/// As published: in both scales, Celsius first.
fn with_figures(text: &str, figures: &[Celsius]) -> String {
    figures.iter().fold(text.to_owned(), |told, figure| told.replacen("{}", &degrees(*figure, Units::Metric), 1))
}

/// One row, with a figure of [`safety`](crate::foods::safety) in place of each `{}`.
struct Caution {
    applies: fn(&Facts) -> bool,
    text: &'static str,
    figures: fn() -> Vec<Celsius>,
    source: &'static str,
}

const NONE: fn() -> Vec<Celsius> = Vec::new;
const ANNEX: &str = "those of EU Regulation 1169/2011, Annex II";
const CROSS_CONTACT: &str = "FDA and FSA on allergen cross-contact, from memory";
const PRACTICE: &str = "common practice, no source";

#[rustfmt::skip]
const CAUTIONS: &[Caution] = &[
    Caution { applies: |f| f.kept,
        text: "Chill what is kept within two hours of leaving the heat (one hour where it is hotter than 32 °C (90 °F)), in shallow boxes.",
        figures: NONE, source: CHILLED_WITHIN.source },
    Caution { applies: |f| f.kept_hot,
        text: "Keep what waits hot for its meal at {} or above, from the heat to the plate; measure it.",
        figures: || vec![KEPT_HOT.value], source: KEPT_HOT.source },
    Caution { applies: |f| f.kept || !f.raw_kinds.is_empty(),
        text: "Keep the fridge at {} or below.",
        figures: || vec![FRIDGE_AT_MOST.value], source: FRIDGE_AT_MOST.source },
    Caution { applies: |f| f.reheated,
        text: "Reheat kept food until it is {} throughout.",
        figures: || vec![REHEATED.value], source: REHEATED.source },
    Caution { applies: |f| !f.raw_kinds.is_empty(),
        text: "Keep raw meat, poultry, fish and egg apart from what is ready to eat; wash hands, board and knife after them.",
        figures: NONE, source: "USDA FSIS, Be Food Safe: Separate" },
    Caution { applies: |f| f.is_raw(Kind::RawPoultry),
        text: "Poultry: cook until the inside reaches {}.",
        figures: || inside(&[Kind::RawPoultry]), source: INSIDE_CHART },
    Caution { applies: |f| f.is_raw(Kind::RawMincedMeat),
        text: "Minced meat: cook until the inside reaches {}; minced poultry {}.",
        figures: || inside(&[Kind::RawMincedMeat, Kind::RawPoultry]), source: INSIDE_CHART },
    Caution { applies: |f| f.is_raw(Kind::RawMeat),
        text: "Whole cuts of beef, pork, veal and lamb: cook until the inside reaches {}, then rest 3 minutes.",
        figures: || inside(&[Kind::RawMeat]), source: INSIDE_CHART },
    Caution { applies: |f| f.raw_kinds.iter().any(|kind| kind.is_raw_fish()),
        text: "Fish: cook until the inside reaches {}, or until it is opaque and flakes.",
        figures: || inside(&[Kind::RawFish]), source: INSIDE_CHART },
    Caution { applies: |f| f.is_raw(Kind::RawEgg),
        text: "Eggs: cook until yolk and white are firm; egg dishes until the inside reaches {}.",
        figures: || inside(&[Kind::RawEgg]), source: INSIDE_CHART },
    Caution { applies: |f| f.kept_grain,
        text: "Cooked rice and other grains: chill what is kept within one hour of leaving the heat, spread out thinly to cool.",
        figures: NONE, source: GRAINS_CHILLED_WITHIN.source },
    Caution { applies: |f| f.rice,
        text: "Cool cooked rice at once, in a thin layer, and chill it: it must not stand warm.",
        figures: NONE, source: "FDA, Bad Bug Book, Bacillus cereus" },
    Caution { applies: |f| f.kidney_beans,
        text: "Dried kidney beans, white ones included: soak at least 5 hours, pour the water away, and boil hard in fresh water for at least 30 minutes before any \
               gentler cooking.",
        figures: NONE, source: "FDA, Bad Bug Book, Phytohaemagglutinin" },
    Caution { applies: |f| f.pressure_cooker,
        text: "Pressure cooker: fill it no more than two thirds, half for foods that swell (grains, pulses); let steam out away from hands and \
               face; never force the lid.",
        figures: NONE, source: PRACTICE },
    Caution { applies: |f| f.blended_hot,
        text: "Hot food spits in a blender: let it cool a little, fill the jug no more than half, hold the lid down with a cloth and begin slowly.",
        figures: NONE, source: PRACTICE },
    Caution { applies: |f| f.hot,
        text: "Hot trays, pots and steam: dry oven gloves, handles turned inwards, children out of reach.",
        figures: NONE, source: PRACTICE },
    Caution { applies: |f| f.knives,
        text: "Knives: sharp blade, steady board, fingers tucked in; lay a knife down in sight, never in the sink.",
        figures: NONE, source: PRACTICE },
    Caution { applies: |f| f.honey,
        text: "Honey is not for infants under 12 months.",
        figures: NONE, source: "CDC, Botulism: Prevention" },
];

const DEFERENCE: &str = "Where local food rules, a label or an appliance's instructions say otherwise, follow those.";

impl Caution {
    fn care(&self) -> Care {
        Care::Rule { text: self.text, figures: (self.figures)(), source: self.source }
    }
}

fn inside(kinds: &[Kind]) -> Vec<Celsius> {
    kinds.iter().filter_map(|kind| least_inside(*kind)).collect()
}

/// The cautions that apply to these makings, of one session or of a week; last of all, whose rules come first.
pub fn cautions(kitchen: &Kitchen, makings: &Makings, chosen: &[usize]) -> Vec<Care> {
    cautions_of(kitchen, &chosen.iter().map(|index| &makings.makings[*index]).collect::<Vec<_>>(), &[])
}

/// The same of these makings and of the foods of these lines, which a meal adds.
pub(super) fn cautions_of(kitchen: &Kitchen, makings: &[&Making], added: &[&Ingredient]) -> Vec<Care> {
    let mut facts = Facts::of(kitchen, makings.iter().copied());
    added.iter().for_each(|line| facts.see_ingredient(&kitchen.foods, &kitchen.rules, line));
    let applying = CAUTIONS.iter().filter(|caution| (caution.applies)(&facts));
    let mut said: Vec<Care> = applying.map(|row| row.care()).collect();
    said.extend(allergens(kitchen, makings.iter().copied()));
    if !facts.allergens_unknown.is_empty() {
        said.push(Care::NotKnown(facts.allergens_unknown));
    }
    if !said.is_empty() {
        said.push(Care::LocalRules);
    }
    said
}

/// What the session's cooks mind for single eaters of the week's meals: first of all whose food could be touched by what.
pub(super) fn for_eaters(kitchen: &Kitchen, week: &Week, makings: &Makings, chosen: &[usize]) -> Vec<Care> {
    let made: Vec<RecipeId> = chosen.iter().map(|index| makings.makings[*index].recipe).unique().collect();
    let chosen: Vec<&Making> = chosen.iter().map(|index| &makings.makings[*index]).collect();
    let contacts = cross_contacts(kitchen, week, &chosen).into_iter().map(Care::CrossContact);
    let guarded = guard(kitchen, week);
    let unknown = guarded.unknown.into_iter().filter(|(dishes, _)| dishes.iter().any(|dish| made.contains(dish)));
    let unknown: Vec<Warning> = unknown.map(|(_, warning)| warning).collect();
    let unknown: Vec<Care> = not_known(&unknown).into_iter().map(Care::Unknown).collect();
    let children = guarded.cautions.into_iter().filter(|one| one.dish.is_some_and(|dish| made.contains(&dish)));
    unknown.into_iter().chain(contacts).chain(children.map(|one| Care::Child(one.text))).collect()
}

/// What each dish contains, and first of all what of it the household avoids.
fn allergens<'m>(kitchen: &Kitchen, makings: impl Iterator<Item = &'m Making>) -> Vec<Care> {
    let (mut avoided, mut contained): (Vec<Holds>, Vec<Holds>) = (Vec::new(), Vec::new());
    for making in makings {
        let recipe = making.recipe;
        let in_none: Vec<Ware> =
            making.apart.iter().flat_map(|apart| &apart.without).filter(|ware| making.is_without(**ware)).copied().collect();
        let contains = recipe_contains_without(kitchen, recipe, &in_none);
        let known: Vec<Allergen> = contains.allergens.into_iter().collect();
        let met: Vec<Allergen> = known.iter().filter(|one| kitchen.household.avoid.contains(one)).copied().collect();
        let holds = |allergens: Vec<Allergen>, words: Vec<String>| {
            (!allergens.is_empty() || !words.is_empty()).then_some(Holds { recipe, allergens, words })
        };
        avoided.extend(holds(met, contains.avoided.into_iter().collect()));
        contained.extend(holds(known, Vec::new()));
    }
    let avoided = (!avoided.is_empty()).then_some(Care::Avoided(avoided));
    avoided.into_iter().chain((!contained.is_empty()).then_some(Care::Contains(contained))).collect()
}

/// What the cautions ask about a session.
#[derive(Default)]
struct Facts {
    kept: bool,
    kept_hot: bool,
    reheated: bool,
    hot: bool,
    rice: bool,
    /// Something with grains in it leaves the heat and is chilled.
    kept_grain: bool,
    /// What has been on the heat goes into a blender.
    blended_hot: bool,
    kidney_beans: bool,
    pressure_cooker: bool,
    knives: bool,
    honey: bool,
    raw_kinds: Vec<Kind>,
    allergens_unknown: Vec<FoodId>,
}

impl Facts {
    fn of<'m>(kitchen: &Kitchen, makings: impl Iterator<Item = &'m Making>) -> Self {
        let mut facts = Facts::default();
        for making in makings {
            let recipe = &kitchen.recipes[making.recipe];
            let chilled = making.boxes.iter().any(|boxed| boxed.place != Place::Cupboard);
            facts.kept |= chilled;
            facts.kept_hot |= recipe.hold_hot.is_some() && making.uses.iter().any(|one| one.kept == Kept::Straight);
            facts.reheated |= chilled && recipe.serve != Some(Serve::Cold);
            facts.see_appliances(&kitchen.appliances, recipe);
            let heated = recipe.steps.iter().any(|step| step.ahead.is_none() && heats(&kitchen.appliances, step));
            facts.kept_grain |= chilled && heated && holds_grain(kitchen, recipe);
            facts.blended_hot |= blends_hot(&kitchen.appliances, recipe);
            for one in &recipe.ingredients {
                facts.see_ingredient(&kitchen.foods, &kitchen.rules, one);
            }
        }
        facts
    }

    fn see_appliances(&mut self, appliances: &[Appliance], recipe: &Recipe) {
        for step in &recipe.steps {
            self.hot |= step.temperature.is_some() || step.inside.is_some();
            for id in &step.on {
                let appliance = &appliances[*id];
                self.pressure_cooker |= is_pressure_cooker(appliance);
                self.hot |= appliance.heats();
            }
        }
    }

    fn see_ingredient(&mut self, foods: &Foods, rules: &Rules, one: &Ingredient) {
        let Wanted::Food { food, item } = &one.wanted else { return };
        let (id, always) = (*food, rules.always.contains(food));
        let food = &foods[id];
        let state = item.as_ref().map(|item| &item.state);
        let cut = matches!(state, Some(State::Prepared(form)) if is_cut(form));
        self.knives |= cut || one.prep.as_deref().is_some_and(is_cut);
        self.rice |= is_rice(food);
        self.kidney_beans |= is_dried_kidney_bean(food);
        self.honey |= name_words(&food.name).any(|word| word == "honey");
        self.raw_kinds.extend(food.raw_kind(item.as_ref()));
        let unknown = food.allergens.is_none() && food.kind != Some(Kind::Household);
        if !always && unknown && !self.allergens_unknown.contains(&id) {
            self.allergens_unknown.push(id);
        }
    }

    fn is_raw(&self, kind: Kind) -> bool {
        self.raw_kinds.contains(&kind)
    }
}

fn heats(appliances: &[Appliance], step: &Step) -> bool {
    step.on.iter().any(|id| appliances[*id].heats())
}

/// Words of blending, in kitchens of several countries. Common practice, no source.
const BLENDING: [&str; 8] = ["blend", "blender", "liquidise", "liquidize", "liquidiser", "liquidizer", "blitz", "whizz"];

/// Whether a step blends after one that heats, unless the food has been chilled or has rested in between.
fn blends_hot(appliances: &[Appliance], recipe: &Recipe) -> bool {
    let words = |step: &Step| {
        step.text.iter().filter_map(|piece| if let Piece::Words(words) = piece { Some(words.clone()) } else { None }).join(" ")
    };
    let blends = |step: &Step| name_words(&words(step)).any(|word| BLENDING.contains(&word.as_str()));
    let mut hot = false;
    recipe.steps.iter().any(|step| {
        if step.ahead.is_some() || step.gap.is_some_and(|gap| gap.0 >= COOL_BY) {
            hot = false;
        }
        let now = hot && blends(step);
        hot |= heats(appliances, step);
        now
    })
}

/// Minutes of rest after which a pot is no longer hot. Common practice, no source.
const COOL_BY: i64 = 60;

pub(super) fn is_pressure_cooker(appliance: &Appliance) -> bool {
    appliance.kind == Some(ApplianceKind::Pressure)
}

fn name_words(name: &str) -> impl Iterator<Item = String> + '_ {
    name.split(|c: char| !c.is_alphanumeric()).map(str::to_lowercase)
}

/// Grains of rice, not what is made of it.
fn is_rice(food: &Food) -> bool {
    const MADE_OF_RICE: [&str; 9] = ["vinegar", "wine", "noodle", "noodles", "paper", "flour", "milk", "cake", "cakes"];
    name_words(&food.name).any(|word| word == "rice") && !name_words(&food.name).any(|word| MADE_OF_RICE.contains(&word.as_str()))
}

/// Kidney beans, white ones (cannellini) included, unless they come cooked in a tin or jar. "White beans" may be cannellini.
fn is_dried_kidney_bean(food: &Food) -> bool {
    let any = |wanted: &[&str]| name_words(&food.name).any(|word| wanted.contains(&word.as_str()));
    let bean = any(&["bean", "beans"]) && any(&["kidney", "cannellini", "white"]);
    bean && !any(&["tinned", "canned", "jarred", "cooked"])
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::foods::Fact;
    use crate::kitchen::{ApplianceId, Step};
    use crate::measure::{Minutes, Quantity};
    use crate::plan::Boxed;
    use crate::prep::testing::*;

    /// The cautions for one making of one recipe that uses one food.
    fn about(name: &str, kind: &str, prep: Option<&str>, kept: bool) -> Vec<String> {
        let mut kitchen = kitchen();
        let id = food(&mut kitchen, name, kind);
        kitchen.foods.all[0].allergens = Some(Fact { value: vec![], source: "from memory".into() });
        kitchen.appliances = vec![appliance("pressure cooker", 1, false)];
        let mut dish = recipe("dish", "Dish", 4.0, vec![step("Cook.")]);
        dish.ingredients = vec![ingredient(name, id, None, prep)];
        if name == "chickpeas" {
            dish.steps = vec![Step { on: vec![ApplianceId(0)], ..step("Cook.") }];
        }
        kitchen.recipes = vec![dish];
        let mut one = making(&kitchen, 0, 1.0);
        if kept {
            one.boxes = vec![Boxed {
                amount: Quantity::portions(1.0),
                place: Place::Fridge,
                use_by: one.on,
                what_for: vec![],
                parts: vec![],
                eater: None,
                without: vec![],
            }];
        }
        said(&kitchen, &makings(vec![one]))
    }

    fn said(kitchen: &Kitchen, makings: &Makings) -> Vec<String> {
        cautions(kitchen, makings, &[0]).iter().map(|one| one.with_source(kitchen.names())).collect()
    }

    fn says(cautions: &[String], words: &str) -> bool {
        cautions.iter().any(|caution| caution.contains(words))
    }

    // Figures: USDA FSIS, Safe Minimum Internal Temperature Chart, and Leftovers and Food Safety.
    #[test]
    fn each_kind_of_raw_food_has_its_inside_temperature() {
        assert!(says(&about("chicken thighs", "raw poultry", None, false), "74 °C (165 °F)"));
        assert!(says(&about("minced beef", "raw minced meat", None, false), "71 °C (160 °F)"));
        assert!(says(&about("pork loin", "raw meat", None, false), "63 °C (145 °F)"));
        assert!(says(&about("cod", "raw fish", None, false), "63 °C (145 °F)"));
        assert!(says(&about("eggs", "raw egg", None, false), "yolk and white are firm"));
    }

    #[test]
    fn no_figure_is_left_out_of_a_caution_and_the_hours_are_those_of_the_table() {
        for caution in CAUTIONS {
            assert_eq!(caution.text.matches("{}").count(), (caution.figures)().len(), "{}", caution.text);
        }
        assert_eq!(CHILLED_WITHIN.value, Minutes(2 * 60), "\"within two hours\"");
        assert_eq!(GRAINS_CHILLED_WITHIN.value, Minutes(60), "\"within one hour\"");
    }

    #[test]
    fn what_is_kept_is_chilled_within_two_hours_and_reheated() {
        let kept = about("leek", "vegetable", None, true);
        assert!(says(&kept, "within two hours") && says(&kept, "4 °C (40 °F)") && says(&kept, "74 °C (165 °F) throughout"));
        assert!(!says(&about("leek", "vegetable", None, false), "two hours"));
    }

    #[test]
    fn dried_kidney_beans_are_boiled_hard_and_tinned_ones_are_not() {
        assert!(says(&about("dried kidney beans", "pulse", None, false), "boil hard"));
        assert!(!says(&about("tinned kidney beans", "pulse", None, false), "boil hard"));
    }

    #[test]
    fn rice_is_cooled_at_once_and_rice_vinegar_need_not_be() {
        assert!(says(&about("brown rice", "grain", None, false), "rice at once"));
        assert!(!says(&about("rice vinegar", "sauce", None, false), "rice at once"));
    }

    /// A pot of one food, then `next`; kept or not.
    fn pot_and(next: Step, name: &str, kind: &str, kept: bool) -> Vec<String> {
        let mut kitchen = kitchen();
        let id = food(&mut kitchen, name, kind);
        kitchen.appliances = vec![appliance("hob", 4, false)];
        kitchen.appliances[0].kind = Some(ApplianceKind::Hob);
        let mut dish = recipe("dish", "Dish", 4.0, vec![Step { on: vec![ApplianceId(0)], ..step("Simmer.") }, next]);
        dish.ingredients = vec![ingredient(name, id, None, None)];
        kitchen.recipes = vec![dish];
        let mut one = making(&kitchen, 0, 1.0);
        let amount = Quantity::portions(1.0);
        let boxed = Boxed { amount, place: Place::Fridge, use_by: one.on, what_for: vec![], parts: vec![], eater: None, without: vec![] };
        one.boxes = kept.then_some(boxed).into_iter().collect();
        said(&kitchen, &makings(vec![one]))
    }

    // UK Food Standards Agency, Cooling, reheating and freezing food: cooked rice within one hour. From memory.
    #[test]
    fn grains_that_are_kept_are_chilled_within_one_hour_by_their_source() {
        let one_hour = |said: &[String]| says(said, "within one hour of leaving the heat") && says(said, "UK Food Standards Agency");
        assert!(one_hour(&pot_and(step("Drain."), "pearl barley", "grain", true)));
        assert!(one_hour(&pot_and(step("Drain."), "brown rice", "grain", true)));
        assert!(!one_hour(&pot_and(step("Drain."), "pearl barley", "grain", false)), "eaten at once");
        assert!(!one_hour(&pot_and(step("Drain."), "leek", "vegetable", true)), "no grain");
        assert!(!one_hour(&about("oats", "grain", None, true)), "never hot");
    }

    #[test]
    fn what_is_blended_hot_spits() {
        let spits = |next: Step| says(&pot_and(next, "leek", "vegetable", false), "spits in a blender");
        assert!(spits(step("Blend until smooth.")));
        assert!(!spits(step("Stir.")));
        assert!(!spits(Step { gap: Some(Minutes(60)), ..step("Blend until smooth.") }), "cooled for an hour");
    }

    #[test]
    fn steam_knives_and_honey_have_their_cautions_where_they_occur() {
        assert!(says(&about("chickpeas", "pulse", None, false), "two thirds, half for foods that swell"));
        assert!(says(&about("onion", "vegetable", Some("finely diced"), false), "Knives"));
        assert!(says(&about("honey", "sweetener", None, false), "under 12 months"));
        assert!(about("honey", "sweetener", None, false).ends_with(&[DEFERENCE.to_owned()]));
        assert_eq!(about("salt", "spice", None, false), Vec::<String>::new());
    }

    #[test]
    fn unknown_allergens_are_said() {
        let mut kitchen = kitchen();
        let id = food(&mut kitchen, "stock powder", "spice");
        let mut dish = recipe("dish", "Dish", 4.0, vec![step("Cook.")]);
        dish.ingredients = vec![ingredient("stock powder", id, None, None)];
        kitchen.recipes = vec![dish];
        let list = makings(vec![making(&kitchen, 0, 1.0)]);
        assert!(says(&said(&kitchen, &list), "Allergens not known: stock powder."));
    }

    #[test]
    fn what_a_dish_contains_is_said_and_what_is_avoided_first() {
        let mut kitchen = kitchen();
        let id = food(&mut kitchen, "tahini", "sauce");
        kitchen.foods.all[0].allergens = Some(Fact { value: vec![Allergen::Sesame], source: "from memory".into() });
        let mut dish = recipe("dip", "Dip", 4.0, vec![step("Stir.")]);
        dish.ingredients = vec![ingredient("tahini", id, None, None)];
        kitchen.recipes = vec![dish];
        let list = makings(vec![making(&kitchen, 0, 1.0)]);
        assert!(says(&said(&kitchen, &list), "Allergens. Dip: sesame."));
        assert!(!says(&said(&kitchen, &list), "avoids"));
        kitchen.household.avoid = vec![Allergen::Sesame];
        assert_eq!(said(&kitchen, &list)[0], "This household avoids what is in here. Dip: sesame.");
    }
}
