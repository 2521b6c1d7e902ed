//! Goods out to the kitchen: what a session takes and what it leaves cooked, and what a meal eats.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::{Date, DateTime};

use super::bench::Bench;
use super::booking::Cooked;
use super::lacks::Lack;
use super::out::{NotTaken, TookOf, take_amount, take_recipe_of};
use super::record::{Exact, LotRecord, Paid};
use super::went_in::WentIn;
use crate::foods::{FoodId, Place, as_purchased};
use crate::kitchen::much::{for_whom, made, much_of};
use crate::kitchen::{Kitchen, Made, Recipe, RecipeId, Rules, Wanted, Ware, Week, Whose};
use crate::measure::{Number, Quantity, is_nothing_of, show, steps_up};
use crate::plan::{Apart, Demanded, Draw, MadeAt, Makings, Use, User, in_makes, served_dishes, tin_of};
use crate::prep::{Batch, Turnover};
use crate::shelf::{When, after_days, rounded};

/// What a booking should have taken and the shelf does not hold.
#[derive(Debug, Clone, PartialEq)]
pub struct Missing {
    /// `None` of what nobody knows any more.
    pub of: Option<Ware>,
    /// Whose it is alone.
    pub whose: Option<Whose>,
    /// `None` where it cannot be compared with what lies there.
    pub amount: Option<Quantity>,
    /// "200 g feta"; `None` of a share that no line names.
    pub words: Option<String>,
}

impl Missing {
    /// Told, and no more.
    pub(super) fn said(words: String) -> Missing {
        Missing { of: None, whose: None, amount: None, words: Some(words) }
    }

    /// For the book, of a session or a meal that begins then.
    pub(super) fn lack(&self, kitchen: &Kitchen, at: DateTime) -> Option<Lack> {
        Some(Lack::of(kitchen, self.of?, self.whose.as_ref(), self.amount.as_ref().filter(|amount| amount.exact().is_positive())?, at))
    }
}

/// Takes what the session fetches and puts down what it boxes and what is eaten of it straight from the pot. Returns what the
/// shelf does not hold.
pub fn issue_session(kitchen: &Kitchen, bench: &mut Bench, session: &Turnover) -> Vec<Missing> {
    let on = session.start.date();
    let (mut missing, mut went_in) = (Vec::new(), WentIn::default());
    for fetch in session.fetch.iter().filter(|fetch| !fetch.amount.is_zero()) {
        match &fetch.of {
            Ok(Ware::Food(food)) => {
                for (part, tin) in in_tins(kitchen, session, *food, &fetch.amount) {
                    let cost = take_of_food(kitchen, bench, *food, (&part, tin.as_ref()), on, &mut missing);
                    went_in.add_food(*food, &part, cost);
                }
            }
            Ok(Ware::Recipe(recipe)) => {
                let cost = take_of_recipe(kitchen, bench, (*recipe, None), &fetch.amount, on, &mut missing);
                went_in.add_recipe(kitchen, *recipe, &fetch.amount, cost);
            }
            Err(name) => missing.push(Missing::said(format!("{} {name}", show(&fetch.amount, kitchen.print.units)))),
        }
    }
    let costs = went_in.into_makings(kitchen, session);
    let cost_of = |recipe: RecipeId| session.batches.iter().zip(&costs).find(|(batch, _)| batch.recipe == recipe);
    let paid = |recipe: RecipeId, amount: &Quantity| {
        let (batch, cost) = cost_of(recipe)?;
        paid_for(&kitchen.recipes[recipe], &batch.makes, amount, (*cost)?)
    };
    for boxed in &session.boxes {
        let lot = cooked(&kitchen.recipes[boxed.recipe], &boxed.amount, boxed.place, on, boxed.use_by);
        // What lacks nothing of the recipe is as good as any other box of it.
        let eater = boxed.eater.clone().filter(|_| !boxed.without.is_empty());
        let without = boxed.without.iter().map(|ware| ware.as_written(&kitchen.foods, |recipe| &kitchen.recipes[recipe].id)).collect();
        bench.put(LotRecord { paid: paid(boxed.recipe, &boxed.amount), eater, without, ..lot });
    }
    for batch in &session.batches {
        let recipe = &kitchen.recipes[batch.recipe];
        if let Some(amount) = eaten_straight(&kitchen.recipes, session, batch) {
            let lot = cooked(recipe, &amount, Place::Fridge, on, after_days(on, recipe.fridge.unwrap_or_default()));
            bench.put(LotRecord { paid: paid(batch.recipe, &amount), ..lot });
        }
    }
    missing
}

/// What a session fetches of a food: what its recipes count in tins, each with the size of one, then the rest.
fn in_tins(kitchen: &Kitchen, session: &Turnover, food: FoodId, fetched: &Quantity) -> Vec<(Quantity, Option<Quantity>)> {
    let facts = &kitchen.foods[food];
    let dimension = fetched.dimension();
    let mut left = fetched.exact().clone();
    let mut parts = Vec::new();
    for (batch, line) in
        session.batches.iter().flat_map(|batch| kitchen.recipes[batch.recipe].ingredients.iter().map(move |line| (batch, line)))
    {
        let Wanted::Food { food: named, item: Some(item) } = &line.wanted else { continue };
        let Some(tin) = tin_of(facts, item).filter(|_| *named == food) else { continue };
        let tins = steps_up(&(&item.amount.high * Number::from_ten_digits(batch.batches)), &Number::ONE);
        let whole = item.scaled(tins / &item.amount.high);
        let Ok(amount) = as_purchased(facts, &whole, &dimension, kitchen.rules.spoons) else { continue };
        let part = amount.exact().clone().min(left.clone());
        left -= &part;
        parts.push((Quantity::of(&dimension, part), Some(tin)));
    }
    parts.push((Quantity::of(&dimension, left), None));
    parts.retain(|(part, _)| !is_nothing_of(part.exact(), fetched.exact()));
    parts
}

/// A share of what a making cost, as what was paid for a lot of it.
fn paid_for(recipe: &Recipe, makes: &Quantity, lot: &Quantity, minor: f64) -> Option<Paid> {
    let one = recipe.in_makes(&Quantity::of(&lot.dimension(), 1)).filter(Number::is_positive)?;
    let times = (1..MOST_MAKINGS).find(|times| comes_to_whole(minor * *times as f64)).unwrap_or(MOST_MAKINGS);
    let makes = Quantity::of(&lot.dimension(), makes.exact() / one * times);
    Some(Paid { minor: rounded(minor * times as f64).0, amount: Exact::of(&makes) })
}

/// What was paid is told of so many makings at most: a third of a cent is a cent of three.
const MOST_MAKINGS: i64 = 1000;

/// Is it whole, but for the noise of a sum?
fn comes_to_whole(minor: f64) -> bool {
    (minor - minor.round()).abs() < 1e-6
}

/// What a session made, for the book.
pub fn made_in(recipes: &[Recipe], session: &Turnover) -> Vec<Cooked> {
    let cooked = |batch: &Batch| Cooked {
        recipe: recipes[batch.recipe].id.clone(),
        makes: Exact::of(&batch.makes),
        straight: eaten_straight(recipes, session, batch).map(|straight| Exact::of(&straight)),
    };
    session.batches.iter().map(cooked).collect()
}

/// What is made less what is boxed and what the session's own dishes take, in the unit of `makes`; `None` where that is nothing.
fn eaten_straight(recipes: &[Recipe], session: &Turnover, made: &Batch) -> Option<Quantity> {
    let recipe = &recipes[made.recipe];
    let in_unit = |amount: &Quantity| in_makes(recipe, amount).unwrap_or_default();
    let boxed: Number = session.boxes.iter().filter(|boxed| boxed.recipe == made.recipe).map(|boxed| in_unit(&boxed.amount)).sum();
    let fetched = session.fetch.iter().filter(|fetch| fetch.of == Ok(Ware::Recipe(made.recipe)));
    let fetched: Number = fetched.map(|fetch| in_unit(&fetch.amount)).sum();
    let mut used = Number::ZERO;
    for dish in &session.batches {
        for line in &recipes[dish.recipe].ingredients {
            if let Wanted::Recipe { recipe: part, most, .. } = &line.wanted
                && *part == made.recipe
            {
                used += in_unit(most) * Number::from_ten_digits(dish.batches);
            }
        }
    }
    let straight = made.makes.exact() - boxed - (used - fetched).max(Number::ZERO);
    // A plan as it was printed has ten digits of what is no decimal.
    (&straight * 1_000_000 > *made.makes.exact()).then(|| Quantity::of(&recipe.makes.dimension(), &straight))
}

fn cooked(recipe: &Recipe, amount: &Quantity, place: Place, made: Date, use_by: Date) -> LotRecord {
    LotRecord {
        food: None,
        recipe: Some(recipe.id.clone()),
        eater: None,
        without: Vec::new(),
        amount: Exact::of(amount),
        pack: None,
        place,
        best_before: None,
        use_by: Some(use_by),
        opened: None,
        since: None,
        made: Some(made),
        paid: None,
    }
}

/// What was eaten at a meal.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Ate {
    /// What the shelf does not hold.
    pub missing: Vec<Missing>,
    /// What was taken, and what it cost in minor units of money; where that is not known, nothing of it stands here.
    pub costs: Vec<(Ware, Quantity, f64)>,
}

/// Takes what is eaten at a meal: its foods, and its share of what was cooked. Returns what the shelf does not hold.
pub fn issue_meal(kitchen: &Kitchen, bench: &mut Bench, week: &Week, plan: (&Makings, &Demanded), index: usize) -> Vec<Missing> {
    eat(kitchen, bench, week, plan, index).missing
}

/// As [`issue_meal`], with what it cost.
pub fn eat(kitchen: &Kitchen, bench: &mut Bench, week: &Week, plan: (&Makings, &Demanded), index: usize) -> Ate {
    let (makings, demanded) = plan;
    let here = MadeAt::Meal(index);
    let meal = &week.meals[index];
    let on = meal.at_time.date();
    let Ate { mut missing, mut costs } = Ate::default();
    let mut of_dishes: BTreeMap<RecipeId, Option<f64>> = BTreeMap::new();
    for demand in demanded.demand.iter().filter(|demand| demand.by == here && !demand.to_taste) {
        let cost = take_of_food(kitchen, bench, demand.food, (&demand.amount, demand.tin.as_ref()), on, &mut missing);
        if let Some(dish) = demand.dish {
            let all = of_dishes.entry(dish).or_insert(Some(0.0));
            *all = all.zip(cost).map(|(all, cost)| all + cost);
        }
        costs.extend(cost.map(|cost| (Ware::Food(demand.food), demand.amount.clone(), cost)));
    }
    put_spare(kitchen, bench, makings, here, &of_dishes);
    let mut eaten: Vec<(RecipeId, Option<Whose>, Quantity)> = Vec::new();
    let in_a_session = |id: RecipeId| kitchen.recipes[id].made == Made::InASession;
    for (line, recipe, whose, times) in served_dishes(kitchen, meal) {
        if let Wanted::Recipe { most, .. } = &line.wanted
            && in_a_session(recipe)
        {
            eaten.push((recipe, whose, most.scaled(times)));
        }
    }
    for making in makings.makings.iter().filter(|making| making.at == here) {
        for line in &kitchen.recipes[making.recipe].ingredients {
            if let Wanted::Recipe { recipe, most, .. } = &line.wanted
                && in_a_session(*recipe)
            {
                let own = making.times_set_aside(&kitchen.recipes, *recipe);
                let shared = making.times(line.ware()) - own.iter().map(|(_, times)| times).sum::<Number>();
                eaten.push((*recipe, None, most.scaled(shared)));
                eaten.extend(own.into_iter().map(|(whose, times)| (*recipe, Some(whose), most.scaled(times))));
            }
        }
    }
    for draw in makings.cooked_draws.iter().filter(|draw| draw.by == [here]) {
        if let Ware::Recipe(id) = draw.of
            && !in_a_session(id)
        {
            eaten.push((id, draw.whose.clone(), draw.amount.clone()));
        }
    }
    for (recipe, whose, amount) in &eaten {
        let cost = take_of_recipe(kitchen, bench, (*recipe, whose.as_ref()), amount, on, &mut missing);
        costs.extend(cost.map(|cost| (Ware::Recipe(*recipe), amount.clone(), cost)));
    }
    let of_whom: BTreeSet<(RecipeId, Option<&Whose>)> = eaten.iter().map(|(recipe, whose, _)| (*recipe, whose.as_ref())).collect();
    for (recipe, whose) in of_whom {
        let mine = eaten.iter().filter(|(other, of, _)| (*other, of.as_ref()) == (recipe, whose));
        let asked = mine.filter_map(|(_, _, amount)| in_makes(&kitchen.recipes[recipe], amount));
        let share = given_to(makings, here, recipe, whose) - asked.sum::<Number>();
        if share.is_positive() {
            let share = Quantity::of(&kitchen.recipes[recipe].makes.dimension(), share);
            let took = take_recipe_of(&kitchen.recipes, bench, (recipe, whose), &share, &[When::On(on)]);
            let amount = took.map_or(share, |took| took.missing);
            missing.push(Missing { of: Some(Ware::Recipe(recipe)), whose: whose.cloned(), amount: Some(amount), words: None });
        }
    }
    Ate { missing, costs }
}

/// What a dish that is made at the meal leaves for later. `costs` are those of the foods of each dish.
fn put_spare(kitchen: &Kitchen, bench: &mut Bench, makings: &Makings, here: MadeAt, costs: &BTreeMap<RecipeId, Option<f64>>) {
    for making in makings.makings.iter().filter(|making| making.at == here) {
        let Some(spare) = making.spare.as_ref().filter(|spare| spare.eat_by > spare.made_on) else { continue };
        let recipe = &kitchen.recipes[making.recipe];
        let place = match (spare.frozen, recipe.cupboard > recipe.fridge) {
            (true, _) => Place::Freezer,
            (false, true) => Place::Cupboard,
            (false, false) => Place::Fridge,
        };
        // What other dishes went into it cost stands with them.
        let of_foods = !recipe.ingredients.iter().any(|line| matches!(line.wanted, Wanted::Recipe { .. }));
        let cost = costs.get(&making.recipe).copied().flatten().filter(|_| of_foods);
        let paid = cost.and_then(|cost| paid_for(recipe, &making.makes, &spare.amount, cost));
        bench.put(LotRecord { paid, ..cooked(recipe, &spare.amount, place, spare.made_on, spare.eat_by) });
    }
}

/// What a meal is given of a recipe, in the unit of its `makes`: what it asks for, and its share of what would be left over. What is set
/// aside for a single eater is told by itself.
fn given_to(makings: &Makings, here: MadeAt, recipe: RecipeId, whose: Option<&Whose>) -> Number {
    let by_it = |by: User| match by {
        User::Meal(meal) => MadeAt::Meal(meal) == here,
        User::Making(dish) => makings.makings[dish].at == here,
    };
    let made = makings.makings.iter().filter(|making| making.recipe == recipe).flat_map(|making| &making.uses);
    let drawn = makings.cooked_draws.iter().filter(|draw| draw.of == Ware::Recipe(recipe) && draw.by == [here]);
    let is_own = |apart: &&Apart| !apart.without.is_empty();
    let of_use = |use_: &Use| match whose {
        Some(whose) => use_.own.iter().filter(|own| own.who == whose.eater && own.without == whose.without).map(|own| &own.amount).sum(),
        None => use_.amount.exact() - use_.own.iter().filter(is_own).map(|own| &own.amount).sum::<Number>(),
    };
    let is_theirs = |draw: &&Draw| match (whose, &draw.whose) {
        (Some(whose), Some(drawn)) => drawn.serves(&whose.eater, &whose.without),
        (whose, drawn) => whose.is_none() && drawn.is_none(),
    };
    let made: Number = made.filter(|use_| by_it(use_.by)).map(of_use).sum();
    made + drawn.filter(is_theirs).map(|draw| draw.amount.exact()).sum::<Number>()
}

/// Gives what it cost, in minor units of money: what is missing too, since it came from somewhere.
fn take_of_food(
    kitchen: &Kitchen,
    bench: &mut Bench,
    food: FoodId,
    (amount, tin): (&Quantity, Option<&Quantity>),
    on: Date,
    missing: &mut Vec<Missing>,
) -> Option<f64> {
    let taken = take_amount(&kitchen.foods, bench, food, (amount, tin), on);
    let words = |amount: &Quantity| much_of(kitchen.names(), Ware::Food(food), amount, kitchen.print.units);
    note_missing(&kitchen.rules, (Ware::Food(food), None, &taken), words, amount, missing);
    let (lacks, cost) = taken.map_or_else(|_| (amount.clone(), Some(0.0)), |took| (took.missing, took.cost));
    if lacks.is_zero() {
        return cost;
    }
    Some(cost? + bench.prices().of_one(food, &lacks.dimension(), None)? * lacks.base())
}

fn take_of_recipe(
    kitchen: &Kitchen,
    bench: &mut Bench,
    (recipe, whose): (RecipeId, Option<&Whose>),
    amount: &Quantity,
    on: Date,
    missing: &mut Vec<Missing>,
) -> Option<f64> {
    let taken = take_recipe_of(&kitchen.recipes, bench, (recipe, whose), amount, &[When::On(on)]);
    let words = |amount: &Quantity| made(kitchen.names(), recipe, amount, kitchen.print.units) + &for_whom(kitchen.names(), whose);
    note_missing(&kitchen.rules, (Ware::Recipe(recipe), whose, &taken), words, amount, missing);
    taken.ok().filter(|took| took.missing.is_zero()).and_then(|took| took.cost)
}

/// So little that the list might have left it unbought.
fn is_small(took: &TookOf, rules: &Rules) -> bool {
    let asked = took.taken.exact() + took.missing.exact();
    *took.missing.exact() <= asked * &Number::from(rules.short_by)
}

fn note_missing(
    rules: &Rules,
    (of, whose, taken): (Ware, Option<&Whose>, &Result<TookOf, NotTaken>),
    words: impl Fn(&Quantity) -> String,
    asked: &Quantity,
    missing: &mut Vec<Missing>,
) {
    let mut note = |amount: Option<&Quantity>, words: String| {
        missing.push(Missing { of: Some(of), whose: whose.cloned(), amount: amount.cloned(), words: Some(words) });
    };
    match taken {
        // A rest is nothing that anyone would look for.
        Ok(took) if *took.missing.exact() < took.missing.dimension().rest() && is_small(took, rules) => (),
        Ok(took) => {
            let as_listed = if is_small(took, rules) { ": so little may stay unbought" } else { "" };
            note(Some(&took.missing), words(&took.missing) + as_listed);
        }
        Err(NotTaken::NoLot) => note(Some(asked), words(asked)),
        Err(NotTaken::NotComparable) => note(None, words(asked) + ": its lots are in another measure"),
    }
}
