use super::*;
use crate::foods::Allergen;
use crate::kitchen::{ApplianceId, BatchCut, Choose, Made, PackKind, Paper};
use crate::measure::{Currency, Days, Minutes, Money, Quantity, Spoons, Units};
use jiff::civil::time;
use pretty_assertions::assert_eq;

#[test]
fn a_household_has_the_defaults_of_the_rules() {
    let kitchen = loaded(&[]).kitchen;
    let rules = &kitchen.rules;
    assert_eq!((rules.short_by, rules.choose, rules.spoons, rules.pace), (0.02, Choose::Cheapest, Spoons::Us, 1.0));
    assert_eq!((rules.ready_after, rules.boxing, rules.wash, rules.cool), (Minutes(180), Minutes(3), Minutes(3), Minutes(10)));
    let always: Vec<&str> = rules.always.iter().map(|id| kitchen.foods[*id].name.as_str()).collect();
    assert_eq!((always, rules.ask.len()), (vec!["water"], 0));
    assert_eq!((kitchen.print.paper, kitchen.print.units), (Paper::A4, Units::Metric));
    let meals: Vec<(&str, _)> = kitchen.household.mealtimes.iter().map(|(word, time)| (word.as_str(), *time)).collect();
    assert_eq!(meals, [("breakfast", time(7, 30, 0, 0)), ("lunch", time(12, 30, 0, 0)), ("supper", time(18, 30, 0, 0))]);
}

#[test]
fn whatever_heats_takes_a_minute_to_empty_and_a_fridge_none() {
    let kitchen = loaded(&[]).kitchen;
    let [oven, hob] = &kitchen.appliances[..] else { panic!("two appliances") };
    assert_eq!((oven.room, oven.out, oven.heats()), (1, Minutes(1), true));
    assert_eq!((hob.room, hob.out, hob.heats(), hob.heat), (1, Minutes(1), true, false));
    let kitchen = format!("{HOUSEHOLD}\n[[appliance]]\nname = \"fridge\"\n[[appliance]]\nname = \"big pan\"\nkind = \"hob\"\n");
    let kitchen = loaded(&[("kitchen.toml", &kitchen)]).kitchen;
    assert_eq!(kitchen.appliances[2..].iter().map(|one| (one.out.0, one.heats())).collect::<Vec<_>>(), [(0, false), (1, true)]);
}

#[test]
fn only_what_shares_one_temperature_warms_up_and_lets_near_ones_share() {
    let kitchen = loaded(&[]).kitchen;
    let seen: Vec<_> = kitchen.appliances.iter().map(|one| (one.warm_up, one.near)).collect();
    assert_eq!(seen, [(Minutes(10), 10.0), (Minutes(0), 0.0)]);
    let own = "name = \"small oven\"\nheat = true\nwarm_up = \"0 min\"\nnear = \"0 °C\"\nout = \"0 min\"\n";
    let kitchen = loaded(&[("kitchen.toml", &format!("{HOUSEHOLD}\n[[appliance]]\n{own}"))]).kitchen;
    let small = &kitchen.appliances[2];
    assert_eq!((small.warm_up, small.near, small.out), (Minutes(0), 0.0, Minutes(0)));
}

#[test]
fn a_household_of_its_own_ways_is_read() {
    let kitchen = r#"
[household]
name = "Boatyard Row"
eaters = 2.5
currency = "jpy"
avoid = ["eggs", "tree nuts"]
mealtimes = { supper = 19:00, tea = "16:00" }
[print]
paper = "Letter"
units = "us"
[rules]
short_by = "5%"
choose = "least-left"
spoons = "metric"
boxing = "0 min"
pace = 1.2
"#;
    let kitchen = loaded(&[("kitchen.toml", kitchen)]).kitchen;
    assert_eq!(kitchen.household.eaters, 2.5);
    assert_eq!(kitchen.household.currency, Currency { code: "JPY".into(), digits: 0 });
    assert_eq!(kitchen.household.avoid, [Allergen::Egg, Allergen::Nuts]);
    assert_eq!(kitchen.household.mealtimes["supper"], time(19, 0, 0, 0));
    assert_eq!(kitchen.household.mealtimes["tea"], time(16, 0, 0, 0));
    assert_eq!(kitchen.household.mealtimes["lunch"], time(12, 30, 0, 0));
    assert_eq!((kitchen.print.paper, kitchen.print.units), (Paper::Letter, Units::Us));
    assert_eq!((kitchen.rules.short_by, kitchen.rules.boxing, kitchen.rules.spoons), (0.05, Minutes(0), Spoons::Metric));
}

#[test]
fn a_recipe_has_its_defaults() {
    let recipe = loaded(&[("recipes/dish.toml", &step(""))]).kitchen.recipes.remove(0);
    assert_eq!((recipe.id.as_str(), recipe.batches, recipe.made), ("dish", BatchCut::Halves, Made::InASession));
    assert_eq!((recipe.fridge, recipe.freezer, recipe.portion), (None, None, None));
    let step = &recipe.steps[0];
    assert_eq!((step.hands, step.wait, step.takes, step.after.clone()), (Minutes(0), Minutes(0), 1.0, None));
}

#[test]
fn hands_on_time_grows_without_an_appliance_and_not_with_one() {
    let scales = |lines: &str| loaded(&[("recipes/dish.toml", &step(lines))]).kitchen.recipes[0].steps[0].scales;
    assert!(scales(""));
    assert!(!scales("on = \"hob\""));
    assert!(scales("on = \"hob\"\nscales = true"));
}

#[test]
fn a_recipe_in_full_is_read() {
    let recipe = r#"
name = "Red-pepper sauce"
makes = "1.5 kg"
portion = "200 g"
batches = "any"
keeps = { fridge = "3 days", freezer = "2 months" }
box = { name = "jar", holds = "500 g" }
[[step]]
text = "Roast."
on = ["oven", "hob"]
takes = 0.5
temperature = "375 F"
hands = "1 h 10 min"
"#;
    let recipe = loaded(&[("recipes/sauce.toml", recipe)]).kitchen.recipes.remove(0);
    assert_eq!((recipe.makes.clone(), recipe.portion), (Quantity::grams(1500.0), Some(200.into())));
    assert_eq!((recipe.fridge, recipe.freezer), (Some(Days(3)), Some(Days(60))));
    assert_eq!(recipe.boxed.map(|boxed| boxed.holds), Some(Quantity::grams(500.0)));
    let step = &recipe.steps[0];
    assert_eq!((step.on.clone(), step.takes, step.hands), (vec![ApplianceId(0), ApplianceId(1)], 0.5, Minutes(70)));
    // (375 − 32) ÷ 1.8 = 190.56
    assert!((step.temperature.unwrap().0 - 190.56).abs() < 0.01);
}

#[test]
fn a_staple_is_filled_up_below_half_of_par_by_default() {
    let kitchen = format!("{HOUSEHOLD}\n[[staple]]\nfood = \"oat milk\"\npar = \"2 l\"\n");
    let staple = loaded(&[("kitchen.toml", &kitchen)]).kitchen.staples.remove(0);
    assert_eq!((staple.par, staple.when_below), (Quantity::millilitres(2000.0), Quantity::millilitres(1000.0)));
}

#[test]
fn prices_are_read_from_their_digits_quoted_or_not() {
    let shops = r#"
[[shop]]
name = "Quay market"
trip = "1.50"
[[pack]]
shop = "Quay market"
food = "onion"
size = 6
price = 0.89
[[pack]]
shop = "quay market"
food = "onion"
size = "1 kg"
price = "2"
offer = { buy = 3, pay = 5.00 }
[[pack]]
shop = "Quay market"
food = "carrot"
loose = true
price = "1.40 / kg"
[[pack]]
shop = "Quay market"
food = "carrot"
loose = true
price = "0.35 / each"
"#;
    let kitchen = loaded(&[("shops.toml", shops)]).kitchen;
    assert_eq!(kitchen.shops[0].trip, Money(150));
    let kinds: Vec<&PackKind> = kitchen.packs.iter().map(|pack| &pack.kind).collect();
    assert!(
        matches!(kinds[0], PackKind::Sized { size, label, price: Some(Money(89)), .. } if *size == Quantity::pieces(6.0) && label == "6")
    );
    assert!(
        matches!(kinds[1], PackKind::Sized { price: Some(Money(200)), offer: Some(offer), .. } if (offer.buy, offer.pay) == (3, Money(500)))
    );
    assert!(matches!(kinds[2], PackKind::Loose { step, .. } if *step == Quantity::grams(1.0)));
    assert!(matches!(kinds[3], PackKind::Loose { step, .. } if *step == Quantity::pieces(1.0)));
}

#[test]
fn foods_toml_is_laid_over_the_reference_key_by_key() {
    let foods = "[[food]]\nname = \"onion\"\neach = \"150 g\"\nbunch = \"100 g\"\nedible = \"88%\"\nkeeps = { opened = \"4 days\" }\n";
    let kitchen = loaded(&[("foods.toml", foods)]).kitchen;
    let onion = &kitchen.foods[kitchen.foods.find("onions").unwrap()];
    assert_eq!(onion.each.as_ref().unwrap().source, "foods.toml:1");
    assert_eq!((onion.words["bunch"].value, onion.edible.as_ref().unwrap().value), (100.0, 0.88));
    assert_eq!(onion.keeps.opened.as_ref().unwrap().value, Days(4));
    assert!(onion.cup.is_some(), "the reference's own weight of a cup stays");
}
