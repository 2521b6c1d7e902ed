//! A pack that is told by its word alone, as in "1 bottle olive oil": how much one holds, and why. The household's shops are asked before the
//! facts of the food; what was taken is told, since nobody wrote it.

use super::typed::NotTaken;
use crate::foods::{FoodId, Item, State, own_dimension};
use crate::kitchen::much::much_of;
use crate::kitchen::{Kitchen, PackKind, ShopId, Ware};
use crate::measure::{Amount, InPacks, Money, Number, Quantity, Unit, Units, Word, show};
use crate::words::listed;

/// So many of the packs, and what is said of their size.
pub(super) struct InContainers {
    pub lies: InPacks,
    /// "1 bottle of olive oil is taken as 500 ml, the smallest that is sold (500 ml, 1 l)".
    pub said: String,
}

/// `None` of a line that is no number of packs, or says their size. `cost` is what was paid for all.
///
/// # Errors
/// Where nobody knows what one holds.
pub(super) fn in_containers(kitchen: &Kitchen, food: FoodId, item: &Item, cost: Option<Money>) -> Result<Option<InContainers>, NotTaken> {
    let Unit::Word(word) = item.amount.unit else { return Ok(None) };
    let count = &item.amount.high;
    let is_plain = item.size.is_none() && item.state == State::AsPurchased && item.plus.is_empty();
    if !word.is_container() || !is_plain || !count.is_positive() {
        return Ok(None);
    }
    let named = much_of(kitchen.names(), Ware::Food(food), &item.amount.most(kitchen.rules.spoons), kitchen.print.units);
    let example = if matches!(word, Word::Bottle | Word::Carton) { "500 ml" } else { "400 g" };
    let example = format!("\"1 {} ({example}) {}\"", word.singular(), kitchen.foods[food].name);
    let Some((one, why)) = size_of_one(kitchen, food, item, paid_for_one(cost, count)) else {
        let remedy = format!("write its size, like {example}, or a pack of it into shops.toml");
        return Err(NotTaken::new(format!("nobody knows how much {named} holds"), &remedy));
    };
    let each = if *count == 1 { "" } else { " each" };
    let verb = if *count <= 1 { "is" } else { "are" };
    let said = format!("{named} {verb} taken as {}{each}, {why}. Another size is written like {example}", show(&one, Units::Metric));
    let lies = InPacks { amount: one.scaled(count), pack: count.is_whole().then_some(one) };
    Ok(Some(InContainers { lies, said }))
}

/// A pack within a tenth of the size that one is known to have counts as one.
const NEAR: f64 = 0.1;

fn paid_for_one(cost: Option<Money>, count: &Number) -> Option<Money> {
    let count = count.to_i64().filter(|count| *count > 0)?;
    cost.filter(|cost| cost.0 % count == 0).map(|cost| Money(cost.0 / count))
}

/// What one holds, and why that is taken: the pack that costs what was paid; else the one that is sold in about the size that one is known
/// to have; else the smallest that is sold, so that the shelf shows no more than is there; else what one is known to hold.
fn size_of_one(kitchen: &Kitchen, food: FoodId, item: &Item, paid: Option<Money>) -> Option<(Quantity, String)> {
    let one = Item { amount: Amount::new(1, item.amount.unit), ..item.clone() };
    let known = own_dimension(&kitchen.foods[food], &one, kitchen.rules.spoons).filter(|one| !matches!(one, Quantity::Words(..)));
    let mut sold: Vec<(&Quantity, ShopId, Option<Money>)> = Vec::new();
    for pack in kitchen.packs.iter().filter(|pack| pack.food == food) {
        if let PackKind::Sized { size, single, price, .. } = &pack.kind
            && !matches!(single, Quantity::Words(..))
        {
            sold.push((single, pack.shop, price.filter(|_| size == single)));
        }
    }
    let shop = |shop: ShopId| &kitchen.shops[shop].name;
    if let Some((size, at, price)) = sold.iter().find(|(_, _, price)| price.is_some() && *price == paid) {
        let price = price.map(|price| kitchen.names().money(price)).unwrap_or_default();
        return Some(((*size).clone(), format!("which costs {price} at {}", shop(*at))));
    }
    let apart = |size: &Quantity| {
        let ratio = known.as_ref().and_then(|known| size.ratio(known));
        ratio.map_or(f64::INFINITY, |ratio| (ratio.to_f64() - 1.0).abs())
    };
    let mut sizes: Vec<(&Quantity, ShopId)> = Vec::new();
    for (size, shop, _) in sold {
        if !sizes.iter().any(|(other, _)| *other == size) {
            sizes.push((size, shop));
        }
    }
    let near = sizes.iter().filter(|(size, _)| apart(size) <= NEAR).min_by(|(a, _), (b, _)| apart(a).total_cmp(&apart(b)));
    if let Some((size, at)) = near {
        return Some(((*size).clone(), format!("as {} sells it", shop(*at))));
    }
    sizes.sort_by(|(a, _), (b, _)| a.base().total_cmp(&b.base()));
    match sizes.as_slice() {
        [] => known.map(|known| (known, "as one is known to hold".to_owned())),
        [(size, at)] => Some(((*size).clone(), format!("as {} sells it", shop(*at)))),
        [(size, _), ..] => {
            let all: Vec<String> = sizes.iter().map(|(size, _)| show(size, Units::Metric)).collect();
            Some(((*size).clone(), format!("the smallest of those that are sold: {}", listed(&all))))
        }
    }
}
