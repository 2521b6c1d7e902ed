//! What an amount of a food is worth: by what was paid for it, else by the cheapest price that is known.

use crate::foods::{FoodId, convert};
use crate::kitchen::{Kitchen, PackKind};
use crate::measure::{Dimension, Money, Quantity};

/// Ten-thousandths of a minor unit in which a loose price is kept.
const E4: f64 = 10_000.0;

/// Minor units of money for one base unit of `dimension`, by the cheapest pack, offer or loose price; `None` where none is known.
pub fn cheapest(kitchen: &Kitchen, food: FoodId, dimension: &Dimension) -> Option<f64> {
    let facts = &kitchen.foods[food];
    let each = |money: f64, amount: &Quantity| {
        let amount = if amount.dimension() == *dimension { amount.clone() } else { convert(facts, amount, dimension).ok()? };
        (amount.base() > 0.0).then(|| money / amount.base())
    };
    let packs = kitchen.packs.iter().filter(|pack| pack.food == food);
    let rates = packs.flat_map(|pack| match &pack.kind {
        PackKind::Sized { size, price, offer, .. } => {
            let one = price.and_then(|price| each(price.0 as f64, size));
            let by_offer = offer.and_then(|offer| each(offer.pay.0 as f64 / f64::from(offer.buy), size));
            [one, by_offer]
        }
        PackKind::Loose { price, .. } => [price.as_ref().and_then(|price| each(price.minor_e4 as f64 / E4, &price.per)), None],
    });
    rates.flatten().min_by(f64::total_cmp)
}

/// `amount` at that rate, half a minor unit and more rounded up.
pub fn worth(amount: &Quantity, rate: f64) -> Money {
    // Twelve digits are finer than any price and take the noise off a half.
    Money((crate::measure::tidy(amount.base() * rate) + 0.5).floor() as i64)
}
