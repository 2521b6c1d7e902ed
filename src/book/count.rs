//! A stocktake: what was counted beside what is booked.
//!
//! A count holds for the moment it is booked: where a lot was booked on since its sheet was written, its line is a
//! mistake, because nobody knows which came first. A sheet is known by the SHA-256 of its text and is booked once. A
//! number without a unit is not taken for pieces of what is booked by weight. Sheets in which something is counted and
//! not booked are not written over.

use jiff::civil::Date;

use super::booked::Booked;
use super::booking::Change;
use super::goods::text_of;
use super::out::unit_price;
use super::record::{Exact, LotRecord, Named, as_lot, exactly};
use crate::foods::{Foods, Place, convert};
use crate::kitchen::{CountForm, Counted, CountedLot, Kitchen, Lot, Mistake, Recipe, RecipeId};
use crate::measure::{Dimension, InPacks, Money, Number, Quantity};
use crate::plan::in_makes;
use crate::shelf::{Prices, counts_packs, lot_dates, once_opened, worth};

/// Nobody wrote anything into a count sheet that is not booked yet.
pub fn may_be_written_over(form: &CountForm, booked: &Booked) -> bool {
    form.lots.iter().all(|lot| lot.counted.is_none()) || booked.has_count(form)
}

/// How many lots were counted, and the changes that lead from what is booked to what was found, each with its worth.
///
/// # Errors
/// What cannot be laid beside the book, at its line of the sheet: all of it at once.
pub fn count(kitchen: &Kitchen, shelf: &[LotRecord], form: &CountForm, today: Date) -> Result<(usize, Vec<Change>), Vec<Mistake>> {
    let found = matched(shelf, form);
    let (mut changes, mut mistakes) = (Vec::new(), Vec::new());
    let mut lots = 0;
    for (counted, lot) in form.lots.iter().zip(found) {
        let Some(left) = &counted.counted else { continue };
        lots += 1;
        match change(kitchen, counted, left, lot.map(|lot| &shelf[lot]), today) {
            Ok(found) => changes.extend(found),
            Err(mistake) => mistakes.push(mistake),
        }
    }
    let prices = Prices::new(kitchen);
    for change in &mut changes {
        change.worth = worth_found(kitchen, &prices, change);
    }
    if mistakes.is_empty() { Ok((lots, changes)) } else { Err(mistakes) }
}

/// The booked lot of each line: the same lot and amount before the same lot of another amount.
fn matched(shelf: &[LotRecord], form: &CountForm) -> Vec<Option<usize>> {
    let mut free = vec![true; shelf.len()];
    let mut found = vec![None; form.lots.len()];
    for exactly in [true, false] {
        for (counted, found) in form.lots.iter().zip(&mut found).filter(|(counted, found)| counted.booked.is_some() && found.is_none()) {
            let fits = |lot: usize| free[lot] && is_same(counted, &shelf[lot]) && (!exactly || is_as_booked(counted, &shelf[lot]));
            *found = (0..shelf.len()).find(|&lot| fits(lot));
            if let Some(lot) = *found {
                free[lot] = false;
            }
        }
    }
    found
}

fn is_as_booked(counted: &CountedLot, lot: &LotRecord) -> bool {
    let booked = counted.booked.as_ref().map(|booked| exactly(&booked.amount, booked.pack.as_ref()));
    booked.is_some_and(|(amount, pack)| amount == lot.amount && pack == lot.pack)
}

fn is_same(counted: &CountedLot, lot: &LotRecord) -> bool {
    let name = counted.food == lot.food && counted.recipe == lot.recipe && counted.place == lot.place;
    let dates = [counted.best_before, counted.use_by, counted.opened, counted.since, counted.made];
    name && dates == lot.dates().map(|(_, day)| day)
}

fn change(kitchen: &Kitchen, counted: &CountedLot, left: &Counted, lot: Option<&LotRecord>, today: Date) -> Result<Vec<Change>, Mistake> {
    let mistake = |cause: String, remedy: String| Mistake { at: counted.counted_at.clone(), cause, remedy };
    let name = counted.food.as_deref().or(counted.recipe.as_deref()).unwrap_or_default();
    let Some(lot) = lot else {
        return match (left, counted.booked.is_some()) {
            (Counted::Gone, _) => Ok(Vec::new()),
            (Counted::Left { .. }, true) => Err(mistake(
                format!("no lot of {name} with these dates is booked in the {} any more", crate::words::place(counted.place)),
                "Take booked out if it lies there: it is then booked as new.".to_owned(),
            )),
            (Counted::Left { amount, .. }, false) => Ok(vec![Change::new(None, Some(new_lot(counted, amount)))]),
        };
    };
    let (to, opened) = match left {
        Counted::Gone => (None, None),
        Counted::Left { amount, bare } => {
            let found =
                in_measure_of(&kitchen.foods, &kitchen.recipes, lot, amount, *bare).map_err(|(cause, remedy)| mistake(cause, remedy))?;
            as_lots(kitchen, lot, found, today)
        }
    };
    if to.as_ref() == Some(lot) && opened.is_none() {
        return Ok(Vec::new());
    }
    if !is_as_booked(counted, lot) {
        let now = lot.amount_text();
        let then = counted.booked.as_ref().map(text_of).unwrap_or_default();
        return Err(mistake(
            format!("{then} of {name} was booked when the sheet was written, and {now} is now"),
            format!("Count it again and write booked = \"{now}\", or leave it blank."),
        ));
    }
    let opened = opened.map(|opened| Change::new(None, Some(opened)));
    Ok(std::iter::once(Change::new(Some(lot.clone()), to)).chain(opened).collect())
}

fn new_lot(counted: &CountedLot, found: &InPacks) -> LotRecord {
    let CountedLot { food, recipe, place, best_before, use_by, opened, since, made, .. } = counted.clone();
    let (amount, pack) = exactly(&found.amount, found.pack.as_ref().filter(|_| food.is_some()));
    LotRecord { food, recipe, amount, pack, place, best_before, use_by, opened, since, made, paid: None }
}

/// What was found of a lot: the closed packs, or all of it where it lies loose; and a pack that somebody opened meanwhile.
fn as_lots(kitchen: &Kitchen, lot: &LotRecord, found: InPacks, today: Date) -> (Option<LotRecord>, Option<LotRecord>) {
    let (amount, pack) = exactly(&found.amount, found.pack.as_ref().filter(|_| lot.food.is_some()));
    let Some(size) = lot.pack.clone().filter(|_| pack.is_none()) else {
        return (Some(LotRecord { amount, pack, ..lot.clone() }), None);
    };
    let closed = (&amount.number / &size.number).floor() * &size.number;
    let rest = &amount.number - &closed;
    let number = |number: Number| Exact { number, dimension: amount.dimension.clone() };
    let opened = (rest >= amount.dimension.rest()).then(|| opened_rest(kitchen, lot, &number(rest).quantity(), today)).flatten();
    let to = closed.is_positive().then(|| LotRecord { amount: number(closed), ..lot.clone() });
    (to, opened)
}

fn opened_rest(kitchen: &Kitchen, lot: &LotRecord, rest: &Quantity, today: Date) -> Option<LotRecord> {
    let Lot { place, opened, .. } = once_opened(&kitchen.foods, &as_lot(kitchen, lot)?, rest.clone(), today);
    Some(LotRecord { amount: Exact::of(rest), pack: None, place, opened, ..lot.clone() })
}

/// What was found in the measure in which the lot is booked, or a cause and its remedy.
fn in_measure_of(foods: &Foods, recipes: &[Recipe], lot: &LotRecord, found: &InPacks, bare: bool) -> Result<InPacks, (String, String)> {
    let (own, example, amount) = (&lot.amount.dimension, lot.amount_text(), &found.amount);
    let loose = |amount: Quantity| InPacks { amount, pack: None };
    if let (Some(size), Dimension::Word(_)) = (&lot.pack, amount.dimension())
        && counts_packs(&amount.dimension())
    {
        return Ok(loose(size.quantity().scaled(amount.exact())));
    }
    if let (Some(size), Some(pack)) = (&lot.pack, &found.pack)
        && Exact::of(pack) != *size
    {
        return Err((format!("{} is booked in packs of {}", lot.name(), size.text()), format!("Write it like \"{example}\".")));
    }
    if amount.dimension() == *own {
        return Ok(found.clone());
    }
    if bare && matches!(own, Dimension::Mass | Dimension::Volume) {
        return Err((format!("\"{}\" has no unit", amount.base()), format!("Write it with its unit, like \"{example}\".")));
    }
    if bare {
        return Ok(loose(Quantity::of(own, amount.exact())));
    }
    let converted = match (&lot.food, &lot.recipe) {
        (Some(food), _) => foods.find(food).and_then(|food| convert(&foods[food], amount, own).ok()),
        (None, Some(recipe)) => cooked_in(recipes, recipe, amount, own),
        (None, None) => None,
    };
    let none = || (format!("{} is booked in another measure: {example}", lot.name()), format!("Write it like \"{example}\"."));
    converted.map(loose).ok_or_else(none)
}

/// An amount of a cooked recipe in the measure of a lot of it.
fn cooked_in(recipes: &[Recipe], id: &str, amount: &Quantity, own: &Dimension) -> Option<Quantity> {
    let recipe = &recipes[recipes.iter().position(|recipe| recipe.id == id).map(RecipeId)?.0];
    let one = in_makes(recipe, &Quantity::of(own, 1)).filter(|one| *one > 0)?;
    Some(Quantity::of(own, in_makes(recipe, amount)? / one))
}

/// What was found less what was booked, in minor units of money: by what was paid, else by the cheapest known price.
fn worth_found(kitchen: &Kitchen, prices: &Prices, change: &Change) -> Option<i64> {
    let lot = change.from.as_ref().or(change.to.as_ref())?;
    let more = number(&change.to) - number(&change.from);
    let rate = unit_price(kitchen, prices, lot)?;
    let much = worth(&Quantity::of(&lot.amount.dimension, more.abs()), rate).0;
    Some(if more < Number::ZERO { -much } else { much })
}

fn number(lot: &Option<LotRecord>) -> Number {
    lot.as_ref().map_or(Number::ZERO, |lot| lot.amount.number.clone())
}

/// What a count found otherwise than booked.
#[derive(Debug, Clone, PartialEq)]
pub struct Differences {
    /// In the order of the sheet.
    pub rows: Vec<Difference>,
    /// The sum of their values.
    pub value: Money,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Difference {
    pub of: Named,
    pub place: Place,
    pub until: Option<Date>,
    pub booked: Quantity,
    pub counted: Quantity,
    /// What was found less what was booked: below zero where some is missing.
    pub difference: Quantity,
    /// `None` where no price is known, and of what was cooked.
    pub value: Option<Money>,
}

pub fn differences(kitchen: &Kitchen, changes: &[Change]) -> Differences {
    let rows = changes.iter().filter(|change| !change.is_packed_otherwise()).filter_map(|change| {
        let lot = change.to.as_ref().or(change.from.as_ref())?;
        let of = |number: &Number| Quantity::of(&lot.amount.dimension, number);
        let (booked, counted) = (number(&change.from), number(&change.to));
        Some(Difference {
            of: lot.named(),
            place: lot.place,
            until: as_lot(kitchen, lot).and_then(|lot| lot_dates(&kitchen.foods, &kitchen.recipes, &lot).earliest),
            booked: of(&booked),
            counted: of(&counted),
            difference: of(&(&counted - &booked)),
            value: change.worth.map(Money),
        })
    });
    Differences { rows: rows.collect(), value: changes.iter().filter_map(|change| change.worth).map(Money).sum() }
}
