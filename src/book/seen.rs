//! What was paid, as prices of shops.toml: of one pack, or of a unit of what is sold loose.
//!
//! A price paid goes into `shops.toml` where it is one of one pack: a whole price a pack, or of a loose unit; not of
//! several sizes, nor under an offer, unless it confirms what is known. `seen` is the trip's day, and a later one
//! stays. The booking keeps what stood there, so that undo brings it back to the letter; a price edited by hand since
//! is left. What a booking is about to write is read back by the reader of the household's files before it stands. A
//! booking whose new pantry.toml was lost stops every other until `book --finish` writes it or `undo` takes it back.
//! Whoever only asks what is booked reads the book once, forwards (`Ledger`). A goods-in sheet is read against the
//! print or the plan, whichever more of its lines agree with; a line taken out stays open, and the trip with it, until
//! it is booked or `without`.
//!
//! Prices are written into shops.toml with `toml_edit`, which keeps comments, order and blank lines; packs are told
//! apart by their place in the file.

use super::goods::Goods;
use super::record::Exact;
use crate::foods::{Foods, convert};
use crate::kitchen::{Kitchen, Offer, Pack, PackKind, SeenPrice, ShopId};
use crate::measure::{Currency, InPacks, Money, Quantity, TOLERANCE, UnitPrice};
use crate::purchase::{Packed, Seller, TripBuys};

/// Ten-thousandths of a minor unit in which a loose price is kept.
const E4: f64 = 10_000.0;

/// The prices that were paid, and of what was paid but says no price the food and why, in words. A price seen on a later day stays.
pub fn seen_prices(kitchen: &Kitchen, trip: &TripBuys, goods: &[Goods]) -> (Vec<SeenPrice>, Vec<String>) {
    let (mut prices, mut unclear) = (Vec::new(), Vec::new());
    for bought in goods.iter().filter(|bought| bought.paid) {
        let Some(cost) = bought.cost else { continue };
        match price_of(kitchen, trip, bought, cost) {
            Ok(seen) => prices.extend(seen.filter(|seen| kitchen.packs[seen.pack].seen.is_none_or(|known| known <= trip.on))),
            Err(why) => unclear.push(format!("{}: {why}", kitchen.foods[bought.food].name)),
        }
    }
    (prices, unclear)
}

/// `None` where shops.toml does not have what was bought.
fn price_of(kitchen: &Kitchen, trip: &TripBuys, bought: &Goods, cost: Money) -> Result<Option<SeenPrice>, String> {
    let fits = candidates(&kitchen.foods, &kitchen.packs, &trip.shops, bought)?;
    let (pack, count) = match fits.as_slice() {
        [] => return Ok(None),
        [one] => *one,
        _ => return Err("several packs of shops.toml are of that size".to_owned()),
    };
    let currency = &kitchen.household.currency;
    let price = match &kitchen.packs[pack].kind {
        PackKind::Sized { price, offer, .. } => {
            let packs = count.round() as i64;
            let as_known = price.filter(|price| total(*price, *offer, packs) == cost.0);
            match as_known {
                Some(price) => price.decimal(currency),
                None if offer.is_some_and(|offer| packs >= i64::from(offer.buy)) => return Err("it was bought on an offer".to_owned()),
                None if cost.0 % packs == 0 => Money(cost.0 / packs).decimal(currency),
                None => return Err(format!("{} for {packs} packs is no price of one", cost.decimal(currency))),
            }
        }
        PackKind::Loose { price, step } => {
            let per = price.as_ref().map_or_else(|| one_unit(step), |price| price.per.clone());
            // `count` is in base units; a price that comes to what was paid is confirmed as it stands.
            let known = price.as_ref().filter(|price| loose_total(price, count) == cost.0);
            let reckoned = || Money((cost.0 as f64 / count * per.base()).round() as i64).decimal(currency);
            let digits = known.map_or_else(reckoned, |price| fine_decimal(price.minor_e4, currency));
            format!("{digits} / {}", unit_text(&per))
        }
    };
    Ok(Some(SeenPrice { pack, price, seen: trip.on }))
}

/// Ten-thousandths of minor units, with as many digits as they need.
fn fine_decimal(minor_e4: i64, currency: &Currency) -> String {
    let fine = Money(minor_e4).decimal(&Currency { digits: currency.digits + 4, ..currency.clone() });
    let zeros = fine.len() - fine.trim_end_matches('0').len();
    let kept = fine.len() - zeros.min(4);
    fine[..kept].trim_end_matches('.').to_owned()
}

/// What so many packs cost, offers taken.
fn total(price: Money, offer: Option<Offer>, packs: i64) -> i64 {
    let by_one = price.0 * packs;
    offer.map_or(by_one, |offer| {
        let buy = i64::from(offer.buy).max(1);
        by_one.min(packs / buy * offer.pay.0 + packs % buy * price.0)
    })
}

fn loose_total(price: &UnitPrice, base: f64) -> i64 {
    (price.minor_e4 as f64 / E4 * base / price.per.base() + 0.5).floor() as i64
}

/// What was bought costs that much by shops.toml, at the cheapest of the visited shops; `None` where no price of it is known there.
pub(super) fn known_price(foods: &Foods, packs: &[Pack], shops: &[ShopId], bought: &Goods) -> Option<Money> {
    let fits = candidates(foods, packs, shops, bought).ok()?;
    let price = |(pack, count): (usize, f64)| match &packs[pack].kind {
        PackKind::Sized { price, offer, .. } => price.map(|price| Money(total(price, *offer, count.round() as i64))),
        PackKind::Loose { price, .. } => price.as_ref().map(|price| Money(loose_total(price, count))),
    };
    fits.into_iter().filter_map(price).min()
}

/// The packs of shops.toml that are what was bought, each with how many of it: packs, or base units of loose goods.
fn candidates(foods: &Foods, packs: &[Pack], shops: &[ShopId], bought: &Goods) -> Result<Vec<(usize, f64)>, String> {
    if bought.from == Seller::Unknown {
        return Err("the shop that was printed is not known any more".to_owned());
    }
    let [amount] = bought.amounts.as_slice() else { return Err("what several sizes cost together is no price of one".to_owned()) };
    let visited = |shop: ShopId| match bought.from {
        Seller::Shop(own) => own == shop,
        Seller::Anywhere => shops.contains(&shop),
        Seller::Unknown => false,
    };
    let there = |pack: &Pack| pack.food == bought.food && visited(pack.shop);
    let fitting = |(index, pack): (usize, &Pack)| fit(foods, pack, amount, bought.packs.first()).map(|count| (index, count));
    Ok(packs.iter().enumerate().filter(|(_, pack)| there(pack)).filter_map(fitting).collect())
}

/// "1 x 1 kg" is one pack of a kilogram and no other; "1 kg" may be any that comes to it.
fn fit(foods: &Foods, pack: &Pack, lies: &InPacks, listed: Option<&Packed>) -> Option<f64> {
    let amount = &lies.amount;
    let base_in = |amount: &Quantity, to: &Quantity| {
        let own = to.dimension();
        if amount.dimension() == own { Some(amount.base()) } else { convert(&foods[pack.food], amount, &own).ok().map(|same| same.base()) }
    };
    let base = |to: &Quantity| base_in(amount, to);
    match (&pack.kind, listed) {
        (PackKind::Sized { label, .. }, Some(Packed::Packs { count, label: listed, .. })) => (listed == label).then(|| f64::from(*count)),
        (PackKind::Sized { .. }, Some(Packed::Loose(_))) | (PackKind::Loose { .. }, Some(Packed::Packs { .. })) => None,
        (PackKind::Sized { size, .. }, None) => {
            let is_that_size = |closed| base_in(closed, size).is_some_and(|one| (one - size.base()).abs() <= TOLERANCE * one);
            if lies.pack.as_ref().is_some_and(|closed| !is_that_size(closed)) {
                return None;
            }
            let count = (size.base() > 0.0).then(|| base(size)).flatten()? / size.base();
            (count >= 0.5 && (count - count.round()).abs() <= TOLERANCE * count).then(|| count.round())
        }
        (PackKind::Loose { step, .. }, _) => base(step),
    }
}

/// A kilogram, a litre, a piece.
fn one_unit(step: &Quantity) -> Quantity {
    let base = match step {
        Quantity::Mass(_) | Quantity::Volume(_) => 1000.0,
        _ => 1.0,
    };
    Quantity::of(&step.dimension(), base)
}

/// "kg", "100 g", "each", as behind the stroke of a loose price.
fn unit_text(per: &Quantity) -> String {
    let text = Exact::of(per).text();
    match (text.as_str(), text.strip_prefix("1 ")) {
        ("1", _) => "each".to_owned(),
        (_, Some(unit)) => unit.to_owned(),
        _ => text,
    }
}
