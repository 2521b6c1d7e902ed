//! What the makings of a session have in them that asks for care: rice, raw meat, a blender, a knife. It must not know what is said of it.

use std::collections::BTreeSet;

use itertools::Itertools;

use super::board::is_cut;
use super::fill::is_pressure_cooker;
use super::links::holds_grain;
use super::names::handled;
use crate::foods::{Food, FoodId, Foods, Kind, Place, State};
use crate::kitchen::{Appliance, Ingredient, Kitchen, Piece, Recipe, Rules, Serve, Step, Wanted};
use crate::plan::{Kept, Making};

/// What one person does of a making.
pub(super) struct Handled<'m> {
    pub making: &'m Making,
    pub steps: Vec<usize>,
    pub boxes: bool,
}

/// What the cautions ask about a session.
#[derive(Default)]
pub(super) struct Facts {
    pub kept: bool,
    pub kept_hot: bool,
    pub reheated: bool,
    pub hot: bool,
    pub rice: bool,
    /// Something with grains in it leaves the heat and is chilled.
    pub kept_grain: bool,
    /// What has been on the heat goes into a blender.
    pub blended_hot: bool,
    pub kidney_beans: bool,
    pub pressure_cooker: bool,
    pub knives: bool,
    pub honey: bool,
    pub raw_kinds: Vec<Kind>,
    pub allergens_unknown: Vec<FoodId>,
}

impl Facts {
    pub fn of<'m>(kitchen: &Kitchen, makings: impl Iterator<Item = &'m Making>) -> Self {
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

    /// As [`Facts::of`], of what one person does of each making.
    pub fn of_one(kitchen: &Kitchen, all: &[Handled]) -> Self {
        let mut facts = Facts::default();
        for Handled { making, steps, boxes } in all {
            let recipe = &kitchen.recipes[making.recipe];
            let whole = Facts::of(kitchen, std::iter::once(*making));
            (facts.kept, facts.reheated) = (facts.kept | (*boxes && whole.kept), facts.reheated | (*boxes && whole.reheated));
            facts.kept_grain |= whole.kept_grain && (*boxes || !steps.is_empty());
            let theirs: Vec<&Step> = steps.iter().filter_map(|step| recipe.steps.get(*step)).collect();
            facts.kept_hot |= whole.kept_hot && !theirs.is_empty();
            facts.blended_hot |= whole.blended_hot && theirs.iter().any(|step| blends(step));
            theirs.iter().for_each(|step| facts.see_step(&kitchen.appliances, step));
            let lines: BTreeSet<usize> = steps.iter().flat_map(|step| handled(recipe, *step)).collect();
            for one in lines.into_iter().filter_map(|index| recipe.ingredients.get(index)) {
                facts.see_ingredient(&kitchen.foods, &kitchen.rules, one);
            }
        }
        facts
    }

    fn see_appliances(&mut self, appliances: &[Appliance], recipe: &Recipe) {
        recipe.steps.iter().for_each(|step| self.see_step(appliances, step));
    }

    fn see_step(&mut self, appliances: &[Appliance], step: &Step) {
        self.hot |= step.temperature.is_some() || step.inside.is_some();
        for id in &step.on {
            let appliance = &appliances[*id];
            self.pressure_cooker |= is_pressure_cooker(appliance);
            self.hot |= appliance.heats();
        }
    }

    pub fn see_ingredient(&mut self, foods: &Foods, rules: &Rules, one: &Ingredient) {
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

    pub fn is_raw(&self, kind: Kind) -> bool {
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

fn blends(step: &Step) -> bool {
    let words = step.text.iter().filter_map(|piece| if let Piece::Words(words) = piece { Some(words.clone()) } else { None }).join(" ");
    name_words(&words).any(|word| BLENDING.contains(&word.as_str()))
}

/// Minutes of rest after which a pot is no longer hot. Common practice, no source.
const COOL_BY: i64 = 60;

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
