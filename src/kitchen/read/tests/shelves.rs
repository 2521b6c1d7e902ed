use super::*;
use crate::foods::Place;
use crate::kitchen::{RecipeId, Ware};
use crate::measure::Quantity;
use pretty_assertions::assert_eq;

fn pack(lines: &str) -> String {
    format!("[[shop]]\nname = \"Quay\"\n[[pack]]\nshop = \"Quay\"\nfood = \"carrot\"\n{lines}\n")
}

fn lot(lines: &str) -> String {
    format!("[[lot]]\nfood = \"carrot\"\namount = \"350 g\"\nplace = \"cupboard\"\n{lines}\n")
}

#[test]
fn cooked_and_raw_lots_are_read() {
    let pantry = format!("{}[[lot]]\nrecipe = \"barley\"\namount = \"3 portions\"\nplace = \"fridge\"\nmade = \"2026-11-29\"\n", lot(""));
    let lots = loaded(&[("recipes/barley.toml", BARLEY), ("pantry.toml", &pantry)]).kitchen.lots;
    assert_eq!((lots[0].amount.clone(), lots[0].place), (Quantity::grams(350.0), Place::Cupboard));
    assert_eq!((lots[1].of, lots[1].made), (Ware::Recipe(RecipeId(0)), Some(jiff::civil::date(2026, 11, 29))));
}

#[test]
fn dates_of_a_lot_are_in_order() {
    assert_mistake(
        &[("pantry.toml", &lot("use_by = 2026-11-02\nopened = 2026-11-03"))],
        "pantry.toml:6:10: the dates are out of order: opened 2026-11-03 lies after use_by 2026-11-02. Set right whichever of the two is wrong.",
    );
}

#[test]
fn an_amount_of_nothing_is_a_mistake() {
    for amount in ["\"0 g\"", "\"-3 g\"", "0", "-2"] {
        let pantry = format!("[[lot]]\nfood = \"carrot\"\namount = {amount}\nplace = \"cupboard\"\n");
        let said = mistakes(&[("pantry.toml", &pantry)]);
        assert_eq!(said.len(), 1, "{amount}: {said:?}");
        assert!(said[0].starts_with("pantry.toml:3:10: amount: "), "{said:?}");
    }
}

#[test]
fn a_household_says_what_is_in_100_g_of_a_food() {
    let foods = "[[food]]\nname = \"feta\"\nper_100g = { kcal = 276, protein = \"17 g\", fibre = 0, sodium = \"1040 mg\" }\nsource = \"the packet\"\n";
    let kitchen = loaded(&[("foods.toml", foods)]).kitchen;
    let feta = &kitchen.foods[kitchen.foods.find("feta").unwrap()];
    let per = feta.nutrients.as_ref().unwrap().value;
    assert_eq!((per.kcal, per.protein_g, per.fibre_g, per.sodium_mg), (Some(276.0), Some(17.0), Some(0.0), Some(1040.0)));
    // What the packet does not say stays as published: USDA SR 01019, 4.09 g carbohydrate.
    assert_eq!((per.carbohydrate_g, feta.source_of("carbohydrate", "rest")), (Some(4.09), "rest"));
    assert_eq!(feta.source_of("protein", "rest"), "the packet");
}

#[test]
fn a_household_says_what_is_not_cut_and_how_a_food_is_cooked() {
    let foods = "[[food]]\nname = \"oat groats\"\ncut = false\ncooks = \"boil 1 h 10 min\"\n";
    let kitchen = loaded(&[("foods.toml", foods)]).kitchen;
    let groats = &kitchen.foods[kitchen.foods.find("oat groats").unwrap()];
    assert_eq!(groats.cut.as_ref().map(|fact| (fact.value, fact.source.as_str())), Some((false, "foods.toml:1")));
    let cooks = &groats.cooks.as_ref().unwrap().value;
    assert_eq!((cooks.how.as_str(), cooks.minutes.0), ("boil", 70));
    for (line, wanted) in [
        ("cut = \"no\"", "foods.toml:3:7: cut: expected true or false, found a text. Write it like true, without quotes."),
        ("cooks = \"boil\"", "foods.toml:3:9: cooks: \"boil\" names no time. Write how and how long: \"boil 30 min\"."),
        ("cooks = \"30 min\"", "foods.toml:3:9: cooks: \"30 min\" does not say how. Write how and how long: \"boil 30 min\"."),
    ] {
        assert_mistake(&[("foods.toml", &format!("[[food]]\nname = \"egg\"\n{line}\n"))], wanted);
    }
}

#[test]
fn figures_that_100_g_cannot_hold_are_mistakes() {
    let food = |per: &str| format!("[[food]]\nname = \"feta\"\nper_100g = {{ {per} }}\n");
    for (per, wanted) in [
        ("kcal = 2000", "foods.toml:3:21: kcal: no food has 2000 kcal in 100 g. Write kilocalories in 100 g as a number: kcal = 402."),
        ("protein = \"120 g\"", "foods.toml:3:24: protein: 120 g do not go into 100 g. Write a weight like \"25 g\" or \"620 mg\"."),
        ("fiber = \"1 g\"", "foods.toml:3:14: unknown key \"fiber\" under [food.per_100g]. Did you mean \"fibre\"?"),
        (
            "fat = \"60 g\", protein = \"60 g\"",
            "foods.toml:3:12: per_100g: protein, carbohydrate and fat weigh 120.0 g, more than the 100 g they are in. Write the figures for 100 g.",
        ),
    ] {
        assert_mistake(&[("foods.toml", &food(per))], wanted);
    }
}

#[test]
fn a_pack_has_either_a_size_or_is_loose() {
    assert_mistake(
        &[("shops.toml", &pack(""))],
        "shops.toml:3:1: a pack has neither a size nor loose = true. Add size = \"400 g\", or loose = true.",
    );
    assert_mistake(
        &[("shops.toml", &pack("loose = true\nsize = \"1 kg\""))],
        "shops.toml:7:8: size is for packs with a size, and this food is sold loose. Take size out, or loose = true.",
    );
}

#[test]
fn prices_and_offers_are_never_negative_and_an_offer_is_for_two_or_more() {
    let said = mistakes(&[("shops.toml", &pack("size = \"1 kg\"\nprice = -0.89"))]);
    assert_eq!(said, ["shops.toml:7:9: price: -0.89 is less than nothing. Write a price of 0 or more."]);
    let said = mistakes(&[("shops.toml", &pack("size = \"1 kg\"\nprice = 1\noffer = { buy = 1, pay = 2 }"))]);
    assert_eq!(said, ["shops.toml:8:17: buy: 1 is not a whole number from 2 to 1000. Write a whole number, 2 or more."]);
    let said = mistakes(&[("shops.toml", &pack("size = \"1 kg\"\nprice = 1\noffer = { buy = 3, pay = -2 }"))]);
    assert_eq!(said, ["shops.toml:8:26: pay: -2 is less than nothing. Write a price of 0 or more."]);
}

#[test]
fn a_shop_nobody_named_is_a_mistake() {
    assert_mistake(
        &[("shops.toml", &pack("size = \"1 kg\"").replace("shop = \"Quay\"", "shop = \"Quai\""))],
        "shops.toml:4:8: there is no shop \"Quai\". Did you mean \"Quay\"?",
    );
}

#[test]
fn an_unknown_currency_and_an_unknown_allergen_are_mistakes() {
    let kitchen = HOUSEHOLD.replace("\"EUR\"", "\"EURO\"\navoid = [\"sesamy\"]");
    let said = mistakes(&[("kitchen.toml", &kitchen)]);
    assert_eq!(
        said[0],
        "kitchen.toml:5:12: currency: \"EURO\" is not a currency of ISO 4217. Write its three letters: \"EUR\", \"GBP\", \"USD\"."
    );
    assert!(
        said[1].starts_with(
            "kitchen.toml:6:10: \"sesamy\" is no allergen, no food and no kind of food that is known here. Did you mean \"sesame\"?"
        ),
        "{said:?}"
    );
}

#[test]
fn a_staple_is_not_filled_up_from_above_par() {
    let kitchen = format!("{HOUSEHOLD}\n[[staple]]\nfood = \"oat milk\"\npar = \"2 l\"\nwhen_below = \"3 l\"\n");
    assert_mistake(
        &[("kitchen.toml", &kitchen)],
        "kitchen.toml:17:14: when_below is more than par. Make when_below at most par; without it, half of par counts.",
    );
}

#[test]
fn a_food_takes_kitchen_words_but_no_unknown_keys() {
    assert_mistake(
        &[("foods.toml", "[[food]]\nname = \"carrot\"\nbunch = \"400 g\"\nedibel = \"80%\"\n")],
        "foods.toml:4:1: unknown key \"edibel\" under [[food]]. Did you mean \"edible\"?",
    );
}

#[test]
fn no_shop_sells_a_recipe() {
    let shops = pack("size = \"1 kg\"").replace("food = \"", "food = \"recipe:");
    let said = mistakes(&[("shops.toml", &shops)]);
    assert!(
        said.len() == 1 && said[0].contains("is a recipe, and no shop sells one. Write the name of a food that is bought."),
        "{said:?}"
    );
}
