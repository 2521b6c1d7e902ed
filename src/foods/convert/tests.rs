//! Conversions against the household weights of the USDA National Nutrient Database for Standard Reference (SR), by NDB number.

use pretty_assertions::assert_eq;

use super::*;

fn fact<T>(value: T) -> Option<Fact<T>> {
    Some(Fact { value, source: "USDA SR".into() })
}

fn table(rows: &[(&str, f64)]) -> Option<Fact<Measured>> {
    fact(Measured::Table(rows.iter().map(|row| (row.0.to_owned(), row.1)).collect()))
}

fn named(name: &str) -> Food {
    Food { name: name.into(), ..Food::default() }
}

/// NDB 11282, onions, raw: cup chopped 160 g, sliced 115 g; 10 % refuse; small 70 g, medium 110 g, large 150 g of edible portion.
fn onion() -> Food {
    Food {
        cup: table(&[("chopped", 160.0), ("sliced", 115.0)]),
        each: table(&[("small", 70.0 / 0.9), ("medium", 110.0 / 0.9), ("large", 150.0 / 0.9)]),
        edible: fact(0.9),
        ..named("onion")
    }
}

/// NDB 20044, rice, white, long-grain, raw: cup 185 g.
fn rice() -> Food {
    Food { cup: table(&[("whole", 185.0), ("cooked", 158.0)]), cooked: fact(2.9), ..named("rice") }
}

fn item(number: f64, unit: Unit, state: State) -> Item {
    Item { amount: Amount::new(number, unit), size: None, grade: None, state, plus: Vec::new(), boned: false }
}

fn prepared(form: &str) -> State {
    State::Prepared(form.into())
}

fn grams(food: &Food, item: &Item) -> f64 {
    as_purchased(food, item, &Dimension::Mass, Spoons::Us).expect("the facts are there").base()
}

#[track_caller]
fn assert_grams(food: &Food, item: &Item, want: f64) {
    let found = grams(food, item);
    assert!((found - want).abs() < 1e-6 * want, "{}: {found} g, not {want} g", food.name);
}

#[test]
fn ten_household_weights_of_the_usda_come_out() {
    let cup = |state: State| item(1.0, Unit::Cup, state);
    let single = |name: &str, grams: f64| Food { cup: fact(Measured::Single(grams)), ..named(name) };
    assert_grams(&onion(), &cup(prepared("chopped")), 160.0 / 0.9); // NDB 11282
    let carrot = Food { cup: table(&[("chopped", 128.0), ("grated", 110.0)]), edible: fact(0.89), ..named("carrot") };
    assert_grams(&carrot, &cup(prepared("grated")), 110.0 / 0.89); // NDB 11124
    let garlic =
        Food { words: [("clove".to_owned(), Fact { value: 3.0, source: "USDA SR 11215".into() })].into(), ..single("garlic", 136.0) };
    assert_grams(&garlic, &item(3.0, Unit::Word(Word::Clove), State::AsPurchased), 9.0); // NDB 11215: 3 cloves 9.0 g
    assert_grams(&garlic, &item(1.0, Unit::Teaspoon, State::AsPurchased), 136.0 / 48.0); // NDB 11215 prints 2.8 g
    assert_grams(&single("wheat flour", 125.0), &item(2.0, Unit::Cup, State::AsPurchased), 250.0); // NDB 20081
    assert_grams(&rice(), &cup(State::AsPurchased), 185.0); // NDB 20044
    assert_grams(&single("pearl barley", 200.0), &item(1.5, Unit::Cup, State::AsPurchased), 300.0); // NDB 20005
    assert_grams(&single("sugar", 200.0), &item(1.0, Unit::Teaspoon, State::AsPurchased), 200.0 / 48.0); // NDB 19335 prints 4.2 g
    assert_grams(&single("olive oil", 216.0), &item(1.0, Unit::Tablespoon, State::AsPurchased), 13.5); // NDB 04053: tbsp 13.5 g
    let potato = Food { cup: table(&[("diced", 150.0)]), edible: fact(0.75), ..named("potato") };
    assert_grams(&potato, &item(0.5, Unit::Cup, prepared("diced")), 75.0 / 0.75); // NDB 11352: ½ cup, diced, 75 g
    let apple = Food { each: table(&[("medium", 182.0 / 0.9), ("large", 223.0 / 0.9)]), edible: fact(0.9), ..named("apple") };
    let two_large = Item { grade: Some(Grade::Large), ..item(2.0, Unit::Piece, State::AsPurchased) };
    assert_grams(&apple, &two_large, 2.0 * 223.0 / 0.9); // NDB 09003: large 223 g edible, 10 % refuse
}

#[test]
fn a_cup_weighs_the_same_by_whichever_spoon_rule_and_only_its_volume_changes() {
    let flour = Food { cup: fact(Measured::Single(125.0)), ..named("flour") };
    let cup = item(1.0, Unit::Cup, State::AsPurchased);
    // 250 ml of what weighs 125 g a US cup of 236.588 ml: 125 × 250 ÷ 236.588
    let metric = as_purchased(&flour, &cup, &Dimension::Mass, Spoons::Metric).expect("known").base();
    assert!((metric - 125.0 * 250.0 / 236.588_236_5).abs() < 1e-9);
}

#[test]
fn trimmed_cooked_and_drained_weights_grow_to_what_must_be_bought() {
    assert_grams(&onion(), &item(300.0, Unit::Gram, prepared("diced")), 300.0 / 0.9);
    assert_grams(&onion(), &item(300.0, Unit::Gram, State::AsPurchased), 300.0);
    assert_grams(&rice(), &item(2.0, Unit::Cup, State::Cooked), 2.0 * 158.0 / 2.9);
    let beans = Food { drained: fact(0.6), ..named("tinned white beans") };
    assert_grams(&beans, &item(240.0, Unit::Gram, State::Drained), 400.0);
    assert_grams(&named("leek"), &item(300.0, Unit::Gram, prepared("sliced")), 300.0);
}

#[test]
fn a_missing_fact_names_the_very_key_that_mends_it() {
    let key = |food: &Food, item: &Item, to: Dimension| as_purchased(food, item, &to, Spoons::Us).expect_err("a fact is missing").key;
    let bare = named("celeriac");
    let cup = |state| item(1.0, Unit::Cup, state);
    assert_eq!(key(&bare, &cup(State::AsPurchased), Dimension::Mass), "cup = \"…\"");
    assert_eq!(key(&bare, &item(1.0, Unit::Piece, State::AsPurchased), Dimension::Mass), "each = \"…\"");
    assert_eq!(key(&bare, &item(1.0, Unit::Word(Word::Sprig), State::AsPurchased), Dimension::Mass), "sprig = \"…\"");
    assert_eq!(key(&bare, &item(1.0, Unit::Gram, State::Cooked), Dimension::Mass), "cooked = …");
    assert_eq!(key(&bare, &item(1.0, Unit::Gram, State::Drained), Dimension::Mass), "drained = \"…\"");
    assert_eq!(key(&bare, &item(1.0, Unit::Gram, State::AsPurchased), Dimension::Volume), "cup = \"…\"");
    assert_eq!(key(&bare, &item(1.0, Unit::Gram, State::AsPurchased), Dimension::Count), "each = \"…\"");
    assert_eq!(key(&onion(), &cup(prepared("grated")), Dimension::Mass), "cup = { grated = \"…\" }");
    assert_eq!(key(&onion(), &cup(State::AsPurchased), Dimension::Mass), "cup = { whole = \"…\" }");
    let only_large = Food { each: table(&[("large", 200.0)]), ..named("beetroot") };
    assert_eq!(key(&only_large, &item(1.0, Unit::Piece, State::AsPurchased), Dimension::Mass), "each = { medium = \"…\" }");
}

#[test]
fn a_single_weight_serves_every_form_and_size() {
    let food = Food { cup: fact(Measured::Single(100.0)), each: fact(Measured::Single(50.0)), edible: fact(0.5), ..named("fennel") };
    assert_grams(&food, &item(1.0, Unit::Cup, prepared("shaved")), 200.0);
    assert_grams(&food, &item(1.0, Unit::Cup, State::AsPurchased), 100.0);
    let large = Item { grade: Some(Grade::Large), ..item(2.0, Unit::Piece, State::AsPurchased) };
    assert_grams(&food, &large, 100.0);
}

#[test]
fn a_count_stays_a_count_and_grams_become_pieces_by_the_medium_weight() {
    let to_count = |item: &Item| as_purchased(&onion(), item, &Dimension::Count, Spoons::Us).expect("known").base();
    let large = Item { grade: Some(Grade::Large), ..item(2.0, Unit::Piece, prepared("chopped")) };
    assert_eq!(to_count(&large), 2.0);
    // 330 g after trimming is 366.67 g as purchased; a medium onion is 122.22 g: 3.
    assert!((to_count(&item(330.0, Unit::Gram, prepared("diced"))) - 3.0).abs() < 1e-9);
    let sized = Item { size: Some(Quantity::grams(500.0)), ..item(2.0, Unit::Piece, State::AsPurchased) };
    assert_eq!(to_count(&sized), 2.0);
    assert_grams(&onion(), &sized, 1000.0);
}

#[test]
fn a_tin_with_a_size_is_that_many_sizes_and_one_without_stays_a_tin() {
    let beans = named("tinned white beans");
    let tin = item(2.0, Unit::Word(Word::Tin), State::AsPurchased);
    let sized = Item { size: Some(Quantity::grams(400.0)), ..tin.clone() };
    assert_grams(&beans, &sized, 800.0);
    assert_eq!(own_dimension(&beans, &sized, Spoons::Us), Some(Quantity::grams(800.0)));
    assert_eq!(own_dimension(&beans, &tin, Spoons::Us), Some(Quantity::words(2.0, "tin")));
}

#[test]
fn a_lines_own_dimension_needs_no_further_fact() {
    let bare = named("celeriac");
    let own = |item: &Item| own_dimension(&bare, item, Spoons::Us);
    assert_eq!(own(&item(300.0, Unit::Gram, State::AsPurchased)), Some(Quantity::grams(300.0)));
    assert_eq!(own(&item(300.0, Unit::Gram, prepared("diced"))), Some(Quantity::grams(300.0)));
    assert_eq!(own(&item(2.0, Unit::Litre, State::AsPurchased)), Some(Quantity::millilitres(2000.0)));
    assert_eq!(own(&item(2.0, Unit::Piece, State::AsPurchased)), Some(Quantity::pieces(2.0)));
    assert_eq!(own(&item(300.0, Unit::Gram, State::Cooked)), None);
    let mixed = Item { plus: vec![Amount::new(2.0, Unit::Tablespoon)], ..item(300.0, Unit::Gram, State::AsPurchased) };
    assert_eq!(own(&mixed), None);
}

#[test]
fn what_is_added_after_a_comma_is_bought_too() {
    let flour = Food { cup: fact(Measured::Single(120.0)), ..named("flour") };
    let with_more = Item { plus: vec![Amount::new(2.0, Unit::Tablespoon)], ..item(200.0, Unit::Gram, State::AsPurchased) };
    assert_grams(&flour, &with_more, 215.0); // 200 + 2 ÷ 16 × 120
}

#[test]
fn a_range_buys_for_its_upper_end() {
    let range = Item { amount: Amount::between(2, 3, Unit::Cup), ..item(1.0, Unit::Cup, State::AsPurchased) };
    assert_grams(&rice(), &range, 555.0);
}

#[test]
fn a_pinch_is_a_sixteenth_of_a_teaspoon_unless_the_food_says_otherwise() {
    let salt = Food { cup: fact(Measured::Single(288.0)), ..named("salt") };
    let pinch = item(1.0, Unit::Word(Word::Pinch), State::AsPurchased);
    assert_grams(&salt, &pinch, 0.375); // 288 ÷ 48 ÷ 16
    let own = Food { words: [("pinch".to_owned(), Fact { value: 0.5, source: "foods.toml:3".into() })].into(), ..salt };
    assert_grams(&own, &pinch, 0.5);
}

#[test]
fn plain_amounts_convert_both_ways() {
    let milk = Food { cup: fact(Measured::Single(244.0)), ..named("milk") };
    let volume = convert(&milk, &Quantity::grams(244.0), &Dimension::Volume).expect("known");
    assert!((volume.base() - US_CUP_ML.to_f64()).abs() < 1e-9);
    let back = convert(&milk, &volume, &Dimension::Mass).expect("known");
    assert!((back.base() - 244.0).abs() < 1e-9);
    let herb = Food { words: [("bunch".to_owned(), Fact { value: 40.0, source: "foods.toml:9".into() })].into(), ..named("dill") };
    assert_eq!(convert(&herb, &Quantity::words(2.0, "bunch"), &Dimension::Mass), Ok(Quantity::grams(80.0)));
    assert_eq!(convert(&herb, &Quantity::grams(80.0), &Dimension::Word("bunch".into())), Ok(Quantity::words(2.0, "bunch")));
    assert!(convert(&herb, &Quantity::portions(2.0), &Dimension::Mass).is_err());
    assert_eq!(convert(&herb, &Quantity::words(1.0, "crate"), &Dimension::Mass).expect_err("not known").key, "crate = \"…\"");
}

#[test]
fn a_cup_s_weight_used_for_a_spoon_says_what_a_cup_is() {
    // 3 × 14.78676 ÷ 236.5882 × 125 = 23.44: every step stands in the chain, also where the spoons are metric.
    let flour = Food { cup: fact(Measured::Single(125.0)), ..named("plain flour") };
    let spoons = item(3.0, Unit::Tablespoon, State::AsPurchased);
    let chain = |spoons_of| {
        let (quantity, facts) = as_purchased_with_facts(&flour, &spoons, &Dimension::Mass, spoons_of).expect("known");
        (
            (quantity.base() * 100.0).round() / 100.0,
            facts.into_iter().map(|used| format!("{} = {}", used.fact, used.value)).collect::<Vec<_>>(),
        )
    };
    let said = |facts: [&str; 3]| facts.map(str::to_owned).to_vec();
    assert_eq!(chain(Spoons::Us), (23.44, said(["1 tbsp = 14.78676 ml", "1 US cup = 236.5882 ml", "cup = 125 g"])));
    // 45 ÷ 236.5882 × 125 = 23.78
    assert_eq!(chain(Spoons::Metric), (23.78, said(["1 tbsp = 15 ml", "1 US cup = 236.5882 ml", "cup = 125 g"])));
}

#[test]
fn every_fact_that_was_used_is_told_with_its_source() {
    let cups = item(2.0, Unit::Cup, prepared("chopped"));
    let (quantity, facts) = as_purchased_with_facts(&onion(), &cups, &Dimension::Mass, Spoons::Us).expect("known");
    assert!((quantity.base() - 320.0 / 0.9).abs() < 1e-9);
    let told: Vec<_> = facts.iter().map(|used| (used.fact.as_str(), used.value.as_str(), used.source.as_str())).collect();
    assert_eq!(
        told,
        [
            ("1 US cup", "236.5882 ml", "NIST SP 811 (2008), B.8"),
            ("cup, chopped", "160 g", "USDA SR"),
            ("edible portion / as purchased", "90 %", "USDA SR"),
        ]
    );
}
