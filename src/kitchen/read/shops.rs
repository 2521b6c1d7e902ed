//! shops.toml: shops, their sections in walking order, packs and prices.

use super::lines::Speech;
use super::names::Names;
use super::shapes;
use super::table::Table;
use crate::foods::{FoodId, convert};
use crate::kitchen::{Offer, Pack, PackKind, Shop, ShopId, Warning};
use crate::measure::{Currency, Dimension, Money, Quantity, ReadError, UnitPrice, read_unit_price, single_of};

/// A million of a currency of two digits, in ten-thousandths of its minor unit.
const MOST_E4_OF_A_UNIT: f64 = 1e12;

pub(super) fn read_shops(top: &Table<'_>, currency: &Currency, names: &mut Names) -> Vec<Shop> {
    let mut shops = Vec::new();
    for table in top.each("shop", "[[shop]]") {
        let sections = table.texts("sections").unwrap_or_default();
        let shop = Shop {
            name: table.required("name", "\"Quay market\"", shapes::text).unwrap_or_default(),
            sections: sections.into_iter().map(|(section, _)| section).collect(),
            trip: table.optional("trip", shapes::money(currency)).unwrap_or(Money::ZERO),
            at: table.spot(),
        };
        if !shop.name.is_empty() && !names.add(&shop.name, shops.len()) {
            table.mistake("name", format!("two shops are named \"{}\"", shop.name), "Give each a name of its own.");
        }
        shops.push(shop);
    }
    shops
}

pub(super) fn read_packs(top: &Table<'_>, currency: &Currency, shops: &Names, speech: &mut Speech<'_>) -> Vec<Pack> {
    top.each("pack", "[[pack]]").iter().filter_map(|table| read_pack(table, currency, shops, speech)).collect()
}

fn read_pack(table: &Table<'_>, currency: &Currency, shops: &Names, speech: &mut Speech<'_>) -> Option<Pack> {
    let shop = table.required("shop", "\"Quay market\"", shapes::text);
    let shop = shop.and_then(|name| shops.find(&name, &table.spot_of("shop"), speech.found));
    let food = table.required("food", "\"tinned white beans\"", shapes::text);
    let food = food.filter(|name| !is_recipe(table, name)).map(|name| speech.food(&name, &table.spot_of("food")));
    let section = table.optional("section", shapes::text);
    let seen = table.optional("seen", shapes::date);
    let loose = table.optional("loose", shapes::yes_no).unwrap_or(false);
    let kind = if loose { read_loose(table, currency, speech) } else { read_sized(table, currency, food, speech) };
    Some(Pack { shop: ShopId(shop?), food: food?, kind: kind?, section, seen, at: table.spot() })
}

fn is_recipe(table: &Table<'_>, name: &str) -> bool {
    let is_one = name.starts_with("recipe:");
    if is_one {
        table.mistake("food", format!("\"{name}\" is a recipe, and no shop sells one"), "Write the name of a food that is bought.");
    }
    is_one
}

fn read_sized(table: &Table<'_>, currency: &Currency, food: Option<FoodId>, speech: &Speech<'_>) -> Option<PackKind> {
    if !table.has("size") {
        table.file.found.mistake(table.spot(), "a pack has neither a size nor loose = true", "Add size = \"400 g\", or loose = true.");
    }
    if table.has("step") {
        table.mistake(
            "step",
            "step is for loose goods, and this is a pack with a size",
            "Take it out, or write loose = true instead of size.",
        );
    }
    let size = table.optional("size", shapes::quantity(speech.spoons));
    let label = table.optional("size", shapes::text_or_digits);
    let drained = table.optional("drained", shapes::grams);
    let price = table.optional("price", shapes::money(currency));
    let offer = read_offer(table, currency);
    let (size, label) = (size?, label?);
    check_size(table, &size, drained, food, speech);
    let single = single_of(&label, &size, speech.spoons);
    Some(PackKind::Sized { size, single, label, drained, price, offer })
}

fn check_size(table: &Table<'_>, size: &Quantity, drained: Option<f64>, food: Option<FoodId>, speech: &Speech<'_>) {
    if size.dimension() == Dimension::Portion {
        table.mistake("size", "a shop does not sell portions", "Write a weight, a volume or pieces: \"400 g\", \"6\".");
    }
    if let (Dimension::Mass, Some(drained)) = (size.dimension(), drained)
        && drained > size.base()
    {
        table.mistake("drained", "what is left after draining is more than the pack", "Make drained at most the size.");
    }
    let Some(food) = food.map(|id| &speech.foods[id]) else { return };
    if let (Dimension::Word(_), Err(missing)) = (size.dimension(), convert(food, size, &Dimension::Mass)) {
        let line = table.optional("size", shapes::text_or_digits).unwrap_or_default();
        let at = table.spot_of("size");
        speech.found.warn(Warning::MissingFact { at, line, food: food.name.clone(), what: missing.what, key: missing.key });
    }
}

fn read_offer(table: &Table<'_>, currency: &Currency) -> Option<Offer> {
    let offer = table.one("offer", "[pack.offer]")?;
    if !table.has("price") {
        table.mistake("offer", "an offer without the price of one", "Add price, so that fewer than the offer can be bought too.");
    }
    let buy = offer.required("buy", "3", shapes::whole(2));
    let pay = offer.required("pay", "2.00", shapes::money(currency));
    Some(Offer { buy: buy?, pay: pay? })
}

fn read_loose(table: &Table<'_>, currency: &Currency, speech: &Speech<'_>) -> Option<PackKind> {
    for key in ["size", "drained", "offer"] {
        if table.has(key) {
            let cause = format!("{key} is for packs with a size, and this food is sold loose");
            table.mistake(key, cause, format!("Take {key} out, or loose = true."));
        }
    }
    let price = table.optional("price", |value| {
        let unit_price = read_unit_price(&shapes::text_or_digits(value)?, currency)?;
        if unit_price.per.base() < 1e-4 || unit_price.minor_e4 as f64 / unit_price.per.base() > MOST_E4_OF_A_UNIT {
            return Err(ReadError {
                cause: "no gram, millilitre or piece of anything costs as much".to_owned(),
                remedy: "Write it like \"1.40 / kg\".".to_owned(),
            });
        }
        if unit_price.minor_e4 >= 0 {
            return Ok(unit_price);
        }
        Err(ReadError { cause: "a price is less than nothing".to_owned(), remedy: "Write it like \"1.40 / kg\".".to_owned() })
    });
    let per = price.as_ref().map_or(Dimension::Mass, |price: &UnitPrice| price.per.dimension());
    let step = table.optional("step", shapes::quantity(speech.spoons));
    if let Some(step) = &step
        && step.dimension() != per
        && price.is_some()
    {
        table.mistake("step", format!("the step is not measured like the price, which is for {}", words_of(&per)), "Measure both alike.");
    }
    Some(PackKind::Loose { price, step: step.unwrap_or_else(|| Quantity::of(&per, 1.0)) })
}

fn words_of(dimension: &Dimension) -> &'static str {
    match dimension {
        Dimension::Mass => "a weight",
        Dimension::Volume => "a volume",
        _ => "a piece",
    }
}
