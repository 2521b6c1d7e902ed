//! Cautions of a session: a table of when each applies, what it says and who published it; and what its dishes contain. It must not know
//! how a caution is printed.

use itertools::Itertools;

use super::care::{Care, Holds};
use super::facts::{Facts, Handled};
use crate::foods::safety::{CHILLED_WITHIN, FRIDGE_AT_MOST, GRAINS_CHILLED_WITHIN, INSIDE_CHART, KEPT_HOT, REHEATED, least_inside};
use crate::foods::{Allergen, Kind};
use crate::kitchen::{Ingredient, Kitchen, RecipeId, Ware, Warning, Week, not_known};
use crate::measure::Celsius;
use crate::plan::{Making, Makings, cross_contacts, guard, recipe_contains_without};

/// One row, with a figure of [`safety`](crate::foods::safety) in place of each `{}`.
struct Caution {
    applies: fn(&Facts) -> bool,
    text: &'static str,
    figures: fn() -> Vec<Celsius>,
    source: &'static str,
}

const NONE: fn() -> Vec<Celsius> = Vec::new;
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
    told(kitchen, makings, facts)
}

/// The same of what one person does.
pub(super) fn cautions_of_one(kitchen: &Kitchen, all: &[Handled]) -> Vec<Care> {
    let makings: Vec<&Making> = all.iter().map(|one| one.making).collect();
    told(kitchen, &makings, Facts::of_one(kitchen, all))
}

fn told(kitchen: &Kitchen, makings: &[&Making], facts: Facts) -> Vec<Care> {
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

#[cfg(test)]
mod tests;
