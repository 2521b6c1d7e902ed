//! Invented lines, each with the food, amount, state and grams as purchased that a careful cook reads in it.

use pretty_assertions::assert_eq;
use proptest::prelude::*;

use super::{Line, LineOf, LineRead, read_ingredients, read_line};
use crate::foods::{Fact, Food, Foods, Grade, Item, Measured, State, as_purchased};
use crate::measure::{Amount, Dimension, Quantity, Spoons};

fn fact<T>(value: T) -> Option<Fact<T>> {
    Some(Fact { value, source: "a test".into() })
}

fn food(name: &str) -> Food {
    Food { name: name.into(), ..Food::default() }
}

fn also(names: &[&str], food: Food) -> Food {
    Food { also: names.iter().map(|name| (*name).to_owned()).collect(), ..food }
}

fn each(grams: f64, food: Food) -> Food {
    Food { each: fact(Measured::Single(grams)), ..food }
}

fn cup(grams: f64, food: Food) -> Food {
    Food { cup: fact(Measured::Single(grams)), ..food }
}

fn cups(rows: &[(&str, f64)], food: Food) -> Food {
    Food { cup: fact(Measured::Table(rows.iter().map(|row| (row.0.to_owned(), row.1)).collect())), ..food }
}

fn edible(share: f64, food: Food) -> Food {
    Food { edible: fact(share), ..food }
}

fn words(rows: &[(&str, f64)], food: Food) -> Food {
    let words = rows.iter().filter_map(|row| Some((row.0.to_owned(), fact(row.1)?))).collect();
    Food { words, ..food }
}

/// Round figures, so that every sum below can be done in the head. Real ones stand in the reference.
pub(super) fn larder() -> Foods {
    let mut foods = Foods::default();
    let sizes = [("small", 80.0), ("medium", 120.0), ("large", 160.0)].map(|row| (row.0.to_owned(), row.1));
    let onion = edible(0.9, cups(&[("chopped", 160.0), ("sliced", 115.0)], also(&["brown onion", "yellow onion"], food("onion"))));
    for entry in [
        Food { each: fact(Measured::Table(sizes.into())), ..onion },
        each(150.0, food("red onion")),
        each(15.0, food("spring onion")),
        edible(0.8, words(&[("clove", 4.0), ("head", 40.0)], cup(136.0, food("garlic")))),
        words(&[("sprig", 2.0)], food("rosemary")),
        words(&[("bunch", 100.0), ("handful", 10.0)], cup(16.0, food("coriander"))),
        words(&[("stick", 40.0), ("stalk", 40.0), ("head", 400.0)], edible(0.9, also(&["celery sticks"], food("celery")))),
        words(&[("head", 600.0)], food("broccoli")),
        words(&[("slice", 40.0)], food("bread")),
        words(&[("leaf", 0.5)], food("mint")),
        words(&[("leaf", 0.2)], each(0.2, food("bay leaf"))),
        words(&[("stick", 3.0)], food("cinnamon")),
        also(&["tomatoes in juice", "chopped tomatoes"], food("tinned tomato")),
        each(125.0, edible(0.9, cups(&[("chopped", 180.0)], food("tomato")))),
        Food { drained: fact(0.6), ..food("tinned white beans") },
        Food { cooked: fact(2.5), cup: fact(Measured::Single(200.0)), ..food("dried white beans") },
        Food { drained: fact(0.6), ..food("tinned chickpeas") },
        food("minced beef"),
        food("beef"),
        each(100.0, edible(0.8, food("chicken thigh"))),
        each(200.0, food("chicken breast")),
        food("chicken"),
        each(150.0, food("salmon fillet")),
        cup(96.0, food("ground almonds")),
        cup(240.0, food("sour cream")),
        Food { cooked: fact(3.0), ..cups(&[("whole", 180.0), ("cooked", 150.0)], also(&["basmati rice"], food("rice"))) },
        Food { cooked: fact(2.9), ..cup(200.0, food("pearl barley")) },
        cup(120.0, also(&["flour"], food("plain flour"))),
        cup(240.0, food("water")),
        cup(216.0, also(&["extra-virgin olive oil"], food("olive oil"))),
        cup(240.0, food("whole milk")),
        cup(240.0, food("milk")),
        cup(288.0, food("salt")),
        cup(110.0, food("black pepper")),
        each(50.0, food("egg")),
        each(60.0, cup(244.0, food("lemon"))),
        each(65.0, food("lime")),
        each(2500.0, food("sweet potato")),
        each(170.0, edible(0.75, cups(&[("diced", 150.0)], food("potato")))),
        also(&["new potatoes"], food("new potato")),
        words(&[("knob", 15.0), ("stick", 113.0)], cup(227.0, food("butter"))),
        words(&[("knob", 20.0)], food("ginger")),
        cup(245.0, also(&["yogurt"], food("yoghurt"))),
        food("feta"),
        food("hummus"),
        cup(175.0, food("couscous")),
        edible(0.5, food("asparagus")),
        food("smoked paprika"),
        food("frozen peas"),
        cup(145.0, edible(0.4, also(&["peas"], food("pea")))),
        each(4.0, food("radish")),
        each(8.0, food("cherry")),
        each(4.0, food("anchovy")),
        words(&[("loaf", 800.0)], food("sourdough")),
        each(1.0, food("cloves")),
        food("leek"),
        food("five spice"),
        food("spinach"),
    ] {
        foods.lay_over(entry);
    }
    foods
}

/// What a line says, in one row: food, amount, state, preparation, remark.
fn told(text: &str) -> (String, String, String) {
    let Line { of, prep, remark, instead, .. } = read_line(text, &larder(), Spoons::Us).unwrap_or_else(|error| panic!("{text}: {error:?}"));
    let (food, amount) = match of {
        LineOf::Food { food, item: None } => (food, "to taste".to_owned()),
        LineOf::Food { food, item: Some(item) } => (food, said(&item)),
        LineOf::Recipe { id, amount } => (format!("recipe:{id}"), amount.to_string()),
    };
    let remark = remark.map(|remark| format!("({remark})"));
    let instead = instead.map(|instead| format!("(or {instead})"));
    (food, amount, [prep, instead, remark].into_iter().flatten().collect::<Vec<_>>().join(" "))
}

fn said(item: &Item) -> String {
    let mut said = item.amount.to_string();
    if let Some(size) = &item.size {
        said += &format!(" of {} {}", size.base(), size.dimension());
    }
    if let Some(grade) = item.grade {
        said += &format!(" {}", grade.word());
    }
    match &item.state {
        State::AsPurchased => {}
        State::Prepared(form) => said += &format!(" [{form}]"),
        State::Cooked => said += " [cooked]",
        State::Drained => said += " [drained]",
    }
    for plus in &item.plus {
        said += &format!(" + {plus}");
    }
    said
}

fn grams(text: &str) -> String {
    let foods = larder();
    match read_line(text, &foods, Spoons::Us).map(|line| line.of) {
        Ok(LineOf::Food { food, item: Some(item) }) => {
            let food = foods.find(&food).map(|id| foods[id].clone()).unwrap_or_default();
            match as_purchased(&food, &item, &Dimension::Mass, Spoons::Us) {
                Ok(quantity) => format!("{:.2}", quantity.base()),
                Err(missing) => missing.key,
            }
        }
        other => format!("{other:?}"),
    }
}

mod beside;
mod own;
mod several;
mod table;
use own::OWN;
use table::TABLE;

/// "olive oil 2 tbsp or butter optional": what one ingredient is, in a row.
fn row(line: &Line) -> String {
    let mut row = match &line.of {
        LineOf::Food { food, item } => format!("{food} {}", item.as_ref().map_or_else(|| "to taste".to_owned(), said)),
        LineOf::Recipe { id, amount } => format!("recipe:{id} {amount}"),
    };
    row += &line.instead.as_ref().map_or_else(String::new, |instead| format!(" or {instead}"));
    row + if line.optional { " optional" } else { "" }
}

fn rows(text: &str, foods: &Foods) -> Vec<String> {
    match read_ingredients(text, foods, Spoons::Us) {
        Ok(LineRead::Ingredients(lines)) => lines.iter().map(row).collect(),
        Ok(LineRead::Heading(_)) => Vec::new(),
        Err(error) => vec![format!("{error:?}")],
    }
}

#[test]
fn lines_answered_before_they_were_read_are_read_so() {
    let foods = Foods::reference();
    let read = OWN.iter().map(|(text, want)| (text, want.iter().map(|row| (*row).to_owned()).collect(), rows(text, &foods)));
    let wrong: Vec<_> = read.filter(|(_, want, got): &(_, Vec<String>, _)| want != got).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// A household's entries over a book, as foods.toml lays them.
fn with_own(mut foods: Foods, entries: Vec<Food>) -> Foods {
    let own = entries.into_iter().map(|entry| (entry.also.clone(), foods.lay_over(entry))).map(|(also, id)| (id, also));
    let own: Vec<_> = own.collect();
    let ids = own.iter().map(|(id, _)| *id).collect();
    foods.own_names(&own, &ids);
    foods
}

#[test]
fn a_name_of_the_household_stands_before_a_tinned_food_of_the_reference() {
    let beans = with_own(Foods::reference(), vec![words(&[("tin", 400.0)], food("white beans"))]);
    let pulses = Food { kind: Some(crate::foods::Kind::Pulse), ..food("runner mix") };
    let mix = with_own(Foods::reference(), vec![also(&["white beans"], pulses)]);
    for (line, amount) in [
        ("1 tin (400 g) white beans, drained", "1 tin of 400 g"),
        ("2 tins white beans", "2 tins"),
        ("1 can white beans", "1 tin"),
        ("240 g drained white beans", "240 g [drained]"),
        ("400 g white beans, drained", "400 g"),
    ] {
        assert_eq!(rows(line, &beans), [format!("white beans {amount}")], "{line}");
        assert_eq!(rows(line, &mix), [format!("runner mix {amount}")], "{line}");
    }
    // The household's own tinned food is what comes in its tins.
    let both = with_own(Foods::reference(), vec![food("zeb"), food("tinned zeb")]);
    assert_eq!(rows("1 tin (400 g) zeb", &both), ["tinned zeb 1 tin of 400 g"]);
}

#[test]
fn a_food_that_only_its_tin_knows_is_meant_where_the_line_says_so_after_the_comma() {
    let foods = with_own(Foods::reference(), vec![Food { drained: fact(0.6), ..food("tinned zeb") }]);
    for (line, amount) in [
        ("15 oz drained zeb", "15 oz [drained]"),
        // As purchased, in tins of that size where sold.
        ("15 oz zeb, drained", "1 tin of 425.242846875 g"),
        ("400 g zeb, canned", "1 tin of 400 g"),
        ("1 tin zeb", "1 tin"),
    ] {
        assert_eq!(rows(line, &foods), [format!("tinned zeb {amount}")], "{line}");
    }
    assert_eq!(rows("400 g zeb, diced", &foods), ["zeb 400 g"]);
}

#[test]
fn several_foods_in_a_line_are_several_ingredients() {
    for (text, wanted) in [
        ("salt and freshly ground black pepper, to taste", &["salt to taste", "black pepper to taste"][..]),
        ("2 eggs plus 100 g feta", &["egg 2", "feta 100 g"]),
        ("1 tsp each salt and black pepper", &["salt 1 tsp", "black pepper 1 tsp"]),
        ("1 kg onion and potato, chopped", &["onion ½ kg", "potato ½ kg"]),
    ] {
        assert_eq!(rows(text, &larder()), wanted, "{text}");
    }
    let LineRead::Ingredients(lines) = read_ingredients("1 kg onion and potato", &larder(), Spoons::Us).expect("reads") else {
        panic!("a heading")
    };
    assert!(lines.iter().all(|line| line.doubts.iter().any(|doubt| doubt.contains("shared out equally"))), "{lines:?}");
}

#[test]
fn signs_and_words_that_are_no_number_never_become_part_of_a_name() {
    let foods = larder();
    assert!(read_ingredients("nan g flour", &foods, Spoons::Us).is_err());
    assert_eq!(rows("100 g 1000% flour", &foods), ["plain flour 100 g"]);
    assert_eq!(rows("1000% flour", &foods), ["plain flour to taste"]);
    assert_eq!(rows("2 % dragonfruits", &foods), ["dragonfruits to taste"]);
}

/// Doubts are about the words as typed; all else survives being printed.
fn without_doubts(line: Line) -> Line {
    Line { doubts: Vec::new(), ..line }
}

#[test]
fn every_line_of_the_table_is_read_as_a_cook_reads_it() {
    let wrong: Vec<_> = TABLE
        .iter()
        .map(|(text, food, amount, beside, _)| ((*text, *food, *amount, *beside), told(text)))
        .filter(|(want, (food, amount, beside))| (want.1, want.2, want.3) != (food, amount, beside))
        .map(|(want, got)| format!("{want:?}\n    read as {got:?}"))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_line_of_the_table_buys_its_grams_as_purchased() {
    let wrong: Vec<_> = TABLE
        .iter()
        .filter(|row| !row.4.is_empty())
        .map(|row| (row.0, row.4, grams(row.0)))
        .filter(|(_, want, got)| {
            let number = |text: &str| text.parse::<f64>().ok();
            match (number(want), number(got)) {
                (Some(want), Some(got)) => (want - got).abs() > 0.006,
                _ => want != got,
            }
        })
        .map(|(text, want, got)| format!("{text}: {want} wanted, {got} got"))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn a_line_that_reads_in_no_way_says_why_and_where() {
    let foods = larder();
    for (text, offset, cause) in [
        ("", 0, "empty"),
        ("   ", 0, "empty"),
        ("0 g flour", 0, "zero"),
        ("-2 g flour", 0, "negative"),
        ("−2 onions", 0, "negative"),
        ("1/0 cup flour", 0, "divides by zero"),
        ("3-2 onions", 0, "downwards"),
        ("1,000 g flour", 0, "thousand"),
        ("300 g", 5, "names no food"),
        ("2", 1, "names no food"),
        ("1 bunch", 7, "names no food"),
        ("300 g chopped", 6, "names no food"),
        ("2 tins (400 g)", 14, "names no food"),
        ("2 cups g flour", 7, "second unit"),
        ("2 tbsp tsp salt", 7, "second unit"),
        ("1 tin (400 g white beans", 6, "not closed"),
        ("1 onion (red", 8, "not closed"),
        ("1 onion) red", 7, "not opened"),
        ("200 g recipe:", 6, "names no recipe"),
        ("recipe:pearl-barley", 0, "needs an amount"),
        ("2 sprigs recipe:pearl-barley", 0, "not measured"),
        ("200 g warm recipe:pearl-barley", 6, "between"),
        ("2 portions feta", 0, "portion"),
        ("2 x onions", 0, ""),
        ("2 x 3 eggs", 4, "no weight or volume"),
        ("1..5 g flour", 1, "no unit"),
        ("1/2/3 cups flour", 3, "no unit"),
        ("1 1 eggs", 2, "no unit"),
        ("1e5 g flour", 1, "no unit"),
        ("1 to 2 to 3 eggs", 7, "follows the amount"),
        ("g flour", 0, "no number"),
        ("1 cup minus 1 tbsp flour", 6, "less another"),
        ("200 g flour, plus 0 tbsp", 13, "zero"),
        ("100 g recipe:a recipe:b", 15, "one recipe"),
    ] {
        match read_line(text, &foods, Spoons::Us) {
            Err(error) => {
                assert!(error.cause.contains(cause), "{text}: {error:?}");
                assert_eq!(error.offset, offset, "{text}: {error:?}");
                assert!(!error.remedy.is_empty(), "{text}");
            }
            Ok(line) => assert!(cause.is_empty(), "{text}: {line:?}"),
        }
    }
}

#[test]
fn a_recipe_without_an_amount_is_asked_for_in_the_measure_of_what_it_makes() {
    let remedy = read_line("recipe:mash", &larder(), Spoons::Us).unwrap_err().remedy;
    let each = ["\"1 portion recipe:mash\" where it makes portions", "\"2 recipe:mash\" where it makes pieces", "where it makes a weight"];
    assert!(
        remedy.starts_with("write an amount in the measure of what it makes") && each.iter().all(|one| remedy.contains(one)),
        "{remedy}"
    );
}

#[test]
fn what_a_line_means_does_not_hang_on_the_unknown_foods_before_it() {
    let mut foods = larder();
    let before = read_line("200 g minced dragonfruit", &foods, Spoons::Us);
    foods.intern_unknown("dragonfruit");
    assert_eq!(read_line("200 g minced dragonfruit", &foods, Spoons::Us), before);
}

#[test]
fn a_printed_line_reads_as_the_same_line() {
    let foods = larder();
    // "Chopped fresh tomatoes" prints without "fresh", and chopped tomatoes are the name of a tin.
    for (text, ..) in TABLE.iter().filter(|row| row.0 != "1 cup chopped fresh tomatoes") {
        let line = read_line(text, &foods, Spoons::Us).expect("the table reads");
        let again = read_line(&line.to_string(), &foods, Spoons::Us).map(without_doubts);
        assert_eq!(again, Ok(without_doubts(line.clone())), "{text} printed as {line}");
    }
}

fn amount() -> impl Strategy<Value = String> {
    let number = prop_oneof![
        (1u32..2000).prop_map(|n| n.to_string()),
        (1u32..99999).prop_map(|n| format!("{}", f64::from(n) / 100.0)),
        (1u32..9, 10u32..20).prop_map(|(low, high)| format!("{low}-{high}")),
        prop::sample::select(vec![
            "½",
            "1⅓",
            "1 1/2",
            "2 x 400 g",
            "half a",
            "a dozen",
            "about 4",
            "½ a",
            "between 2 and 3",
            "a few",
            "some",
            "2 cm",
            "1 (2-inch)",
        ])
        .prop_map(str::to_owned),
    ];
    let unit = prop::sample::select(vec![
        "",
        "g",
        "kg",
        "tbsp",
        "cups",
        "fl oz",
        "lb",
        "cloves",
        "tins",
        "sprigs",
        "tins (400 g)",
        "bunch",
        "dsp",
        "scant cup",
        "sprigs (5 g each)",
    ]);
    (number, unit).prop_map(|(number, unit)| {
        let unit = if number.contains('x') && !unit.starts_with("tin") { "" } else { unit };
        format!("{number} {unit}")
    })
}

fn line() -> impl Strategy<Value = String> {
    let state = prop::sample::select(vec!["", "diced", "finely chopped", "cooked", "drained", "large", "boneless", "peeled and sliced"]);
    let food =
        prop::sample::select(vec!["onions", "garlic", "white beans", "chopped tomatoes", "dragonfruit", "rice", "olive oil", "eggs"]);
    let rest = prop::sample::select(vec![
        "",
        ", peeled",
        ", plus 2 tbsp for dusting",
        " or shallots",
        " (from the market)",
        ", to taste",
        " for frying",
        " (200 g)",
        ", 200 g each",
        " (packed)",
    ]);
    (amount(), state, food, rest).prop_map(|(amount, state, food, rest)| format!("{amount} {state} {food}{rest}"))
}

proptest! {
    #[test]
    fn any_line_of_the_grammar_survives_being_printed(text in line()) {
        let foods = larder();
        if let Ok(line) = read_line(&text, &foods, Spoons::Us) {
            let again = read_line(&line.to_string(), &foods, Spoons::Us).map(without_doubts);
            prop_assert_eq!(again, Ok(without_doubts(line.clone())), "{} printed as {}", text, line);
        }
    }

    #[test]
    fn no_text_at_all_makes_the_reader_panic(text in "\\PC{0,60}") {
        let _ = read_line(&text, &Foods::default(), Spoons::Us);
    }

    #[test]
    fn no_heap_of_the_grammar_s_own_pieces_makes_the_reader_panic(
        pieces in prop::collection::vec(prop::sample::select(vec![
            "1", "2", "½", "1/2", "-", "–", "to", "or", "x", "×", "(", ")", ",", "g", "400", "tin", "fl", "oz", "onion", "diced", "plus", "recipe:",
            "recipe:a", "juice", "of", "half", "a", "dozen", "é", ".", "/", "each", " ", "and", "0", "drained", "T", "'", "large", "1,5",
        ]), 0..14),
        spaced in any::<bool>(),
    ) {
        let text = pieces.join(if spaced { " " } else { "" });
        match read_line(&text, &larder(), Spoons::Us) {
            Ok(_) => {}
            Err(error) => prop_assert!(text.is_char_boundary(error.offset), "{text}: {error:?}"),
        }
    }
}

#[test]
fn grades_and_sizes_are_kept_apart() {
    let LineOf::Food { item: Some(item), .. } = read_line("2 large onions", &larder(), Spoons::Us).expect("reads").of else {
        panic!("no food")
    };
    assert_eq!(item.grade, Some(Grade::Large));
    assert_eq!(item.amount, Amount::new(2.0, crate::measure::Unit::Piece));
    let foods = larder();
    let onion = &foods[foods.find("onion").expect("known")];
    assert_eq!(as_purchased(onion, &item, &Dimension::Count, Spoons::Us), Ok(Quantity::pieces(2.0)));
    assert_eq!(as_purchased(onion, &item, &Dimension::Mass, Spoons::Us), Ok(Quantity::grams(320.0)));
}

/// Each line with the ingredients that it says, as `amount food, prep`.
#[test]
fn what_is_said_of_several_in_a_few_words_is_all_bought() {
    let read = |text: &str| match read_ingredients(text, &Foods::reference(), Spoons::Us) {
        Ok(LineRead::Ingredients(lines)) => lines.iter().map(told).collect::<Vec<_>>().join("; "),
        other => format!("{other:?}"),
    };
    fn told(line: &Line) -> String {
        let LineOf::Food { food, item } = &line.of else { return line.of.to_string() };
        let amount = item.as_ref().map(|item| format!("{} ", item.amount)).unwrap_or_default();
        format!("{amount}{food}")
    }
    let (mut found, mut wanted) = (String::new(), String::new());
    for (line, expected) in [
        ("1 each red, yellow and green pepper", "1 red pepper; 1 yellow pepper; 1 green pepper"),
        ("½ tsp. ea. cumin and paprika", "½ tsp cumin; ½ tsp paprika"),
        ("zest of 1 orange, juice of 2", "2 orange"),
        ("1 lg. onion, 2 lb total", "1 onion"),
        ("2 med carrots", "2 carrot"),
        ("12 oz dried penne", "12 oz penne"),
        ("300 g pearl barley, 2 tbsp olive oil, 1 lemon, salt", "300 g pearl barley; 2 tbsp olive oil; 1 lemon; salt"),
        ("3 leeks, 200 g potatoes, 1 onion, butter, black pepper", "3 leek; 200 g potato; 1 onion; butter; black pepper"),
        ("2 eggs, 1 tbsp butter, softened", "2 egg; 1 tbsp butter"),
        ("1 lemon, salt", "1 lemon"),
    ] {
        found.push_str(&format!("{line}: {}\n", read(line)));
        wanted.push_str(&format!("{line}: {expected}\n"));
    }
    assert_eq!(found, wanted);
    assert!(read("1.000 g flour").contains("can be read as thousands"), "{}", read("1.000 g flour"));
    assert_eq!(read("1.500 kg flour"), "1½ kg plain flour");
}

/// Books of two columns print an amount in two systems: it is bought once.
#[test]
fn an_amount_in_two_systems_is_one_amount_and_a_sum_in_one_is_a_sum() {
    let amount = |text: &str| match read_line(text, &Foods::reference(), Spoons::Us).map(|line| line.of) {
        Ok(LineOf::Food { food, item: Some(item) }) => {
            let whole = std::iter::once(&item.amount).chain(&item.plus).map(|amount| amount.most(Spoons::Us).base()).sum::<f64>();
            format!("{:.0} {food}", whole)
        }
        other => format!("{other:?}"),
    };
    for (line, meant) in [
        ("500 g 1 lb 2 oz leeks", "500 leek"),
        ("25 g 1 oz butter", "25 butter"),
        ("4 oz 115 g flour", "113 plain flour"),
        ("300 ml ½ pint milk", "300 milk"),
        ("1 cup 240 ml water", "237 water"),
        ("2 tbsp 30 ml olive oil", "30 olive oil"),
        ("900 ml 3 3/4 cups milk", "900 milk"),
        ("300 g 1 1/2 cups pearl barley", "300 pearl barley"),
        ("1½ cups, 300 g, white rice", "300 white rice"),
        ("500 g, 1 lb 2 oz turnips", "500 turnip"),
        ("25g, 1oz sugar", "25 sugar"),
        ("1 lb 2 oz 500 g leeks", "510 leek"),
        ("500 g (1 lb 2 oz) leeks", "500 leek"),
        // Sums: 454 + 57, 237 + 30, 1,000 + 200.
        ("1 lb 2 oz leeks", "510 leek"),
        ("1 cup 2 tbsp milk", "266 milk"),
        ("1 kg 200 g leeks", "1200 leek"),
        ("1 lb plus 500 g leeks", "954 leek"),
    ] {
        assert_eq!(amount(line), meant, "{line}");
    }
}
