//! `waste`: thrown away, with a reason.

use super::Cli;
use super::keeping::Keeping;
use super::outcome::{Done, Failure};
use crate::book::{Bench, Booking, NotTaken, Verb, take_food, take_recipe, worth_taken};
use crate::kitchen::{LineOf, RecipeId, read_line};
use crate::measure::{Quantity, show};
use crate::shelf::Prices;

pub fn run(cli: &Cli, what: &str, why: &str) -> Done {
    let mut keeping = Keeping::open(cli)?;
    let kitchen = &keeping.setting.loaded.kitchen;
    let line = read_line(what, &kitchen.foods)
        .map_err(|error| Failure::Usage(format!("cannot read \"{what}\": {}. Instead: {}.", error.cause, error.remedy)))?;
    let mut bench = Bench::new(kitchen, keeping.shelf.clone());
    let taken = match &line.of {
        LineOf::Food { food, item: Some(item) } => match kitchen.foods.find(food) {
            Some(id) => take_food(kitchen, &mut bench, id, item),
            None => Err(NotTaken::NoLot),
        },
        LineOf::Food { item: None, .. } => return Err(Failure::Usage(format!("\"{what}\" has no amount. Write it like \"200 g feta\"."))),
        LineOf::Recipe { id, amount } => match kitchen.recipes.iter().position(|recipe| recipe.id == *id) {
            Some(index) => take_recipe(kitchen, &mut bench, RecipeId(index), &amount.most(kitchen.rules.spoons), None),
            None => Err(NotTaken::NoLot),
        },
    };
    let (missing, dimension) = taken.map_err(|not| match not {
        NotTaken::NoLot => Failure::Usage(format!("\"{what}\": there is none on the shelf. Nothing was booked.")),
        NotTaken::NotComparable => {
            Failure::Usage(format!("\"{what}\" is in another measure than what is on the shelf. Nothing was booked."))
        }
    })?;
    let mut changes = bench.finish();
    let prices = Prices::new(kitchen);
    for change in &mut changes {
        change.worth = worth_taken(kitchen, &prices, change);
    }
    let units = kitchen.print.units;
    let missing = (missing.0 > 0.0).then(|| format!("{} of it", show(&Quantity::of(&dimension, missing.0), units)));
    let mut booking = Booking::new(keeping.setting.today, Verb::Waste, format!("thrown away: {}", what.trim()), changes);
    booking.why = Some(why.trim().to_owned());
    keeping.book(booking)?;
    keeping.report(cli, missing.as_slice())
}
