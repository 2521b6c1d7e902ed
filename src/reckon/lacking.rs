//! What is booked already and lacked something, beside what is past and stands on no print: that was planned for it, too.

use jiff::civil::DateTime;

use super::lived::Lived;
use crate::book::Lack;
use crate::foods::{Item, State as Form};
use crate::kitchen::{Asked, Ingredient, Kitchen, Meal, RecipeId, Spot, Wanted, Ware, Week};
use crate::measure::{Amount, Quantity, Unit};
use crate::plan::State;
use crate::words::day_clock;

/// The week with all that is not booked, and of what is booked those that lacked something which a trip or a session that is taken as done
/// and was never printed should have brought: as meals that hold nothing else.
pub(super) fn not_booked_yet(kitchen: &Kitchen, lived: &Lived) -> Week {
    let mut week = lived.not_booked_yet();
    let lacks = lived.lacks();
    let lines = |at_time: DateTime, at: &Spot| -> Vec<Ingredient> {
        let of_it = lacks.iter().filter(|lack| lack.at == at_time && lived.was_planned_for(kitchen, lack));
        of_it.filter_map(|lack| line(kitchen, lack, at)).collect()
    };
    let (meals, sessions) = (
        lived.standing.meals(&lived.week, |state| state == State::Done).map(|meal| (meal.at_time, meal.label.clone(), meal.at.clone())),
        lived.standing.sessions(&lived.week, |state| state == State::Done),
    );
    let sessions = sessions.map(|session| (session.start, day_clock(session.start), session.at.clone()));
    let lacking = meals.chain(sessions).map(|(at_time, label, at)| holding(lines(at_time, &at), at_time, label, at));
    week.meals.extend(lacking.filter(|meal| !meal.shared.is_empty()));
    week.meals.sort_by_key(|meal| meal.at_time);
    week
}

/// A meal of these lines and nothing else.
fn holding(shared: Vec<Ingredient>, at_time: DateTime, label: String, at: Spot) -> Meal {
    Meal {
        at_time,
        word: label.clone(),
        label,
        name: None,
        text: None,
        eaters: 1.0,
        diners: Vec::new(),
        each: Vec::new(),
        shared,
        skip: false,
        pattern: None,
        open: None,
        asked: Asked::default(),
        at,
    }
}

/// What is set aside for one eater alone is left to the rest of its making.
fn line(kitchen: &Kitchen, lack: &Lack, at: &Spot) -> Option<Ingredient> {
    let (ware, None) = lack.ware(kitchen)? else { return None };
    let amount = lack.amount.quantity();
    let wanted = match ware {
        Ware::Recipe(recipe) => of_recipe(recipe, amount),
        Ware::Food(food) => Wanted::Food { food, item: Some(item(&amount)?) },
    };
    Some(Ingredient::of(String::new(), wanted, at.clone()))
}

fn of_recipe(recipe: RecipeId, amount: Quantity) -> Wanted {
    Wanted::Recipe { recipe, most: amount.clone(), amount }
}

/// As purchased; `None` of what is counted in a word.
fn item(amount: &Quantity) -> Option<Item> {
    let unit = match amount {
        Quantity::Mass(_) => Unit::Gram,
        Quantity::Volume(_) => Unit::Millilitre,
        Quantity::Count(_) => Unit::Piece,
        Quantity::Portions(_) | Quantity::Words(..) => return None,
    };
    let amount = Amount { low: amount.exact().clone(), high: amount.exact().clone(), unit };
    Some(Item { amount, size: None, grade: None, state: Form::AsPurchased, plus: Vec::new(), boned: false })
}
