//! A form of a food is that food, and what is made of it may hold it: for who is allergic, who avoids, and the whole household.

use crate::kitchen::{Kitchen, kitchen, stderr, supper};

/// Rosa, and Emil with these words.
fn household(emil: &str) -> String {
    format!(
        "[household]\nname = \"Test row\"\ncurrency = \"EUR\"\n[[eater]]\nname = \"Rosa\"\n[[eater]]\nname = \"Emil\"\n{emil}\n[[appliance]]\nname = \"hob\"\n"
    )
}

/// Everything on one table, so that one run of the program asks for it all.
fn served(emil: &str, foods: &[&str]) -> Kitchen {
    let lines: Vec<String> = foods.iter().map(|food| format!("\"20 g {food}\"")).collect();
    kitchen().file("kitchen.toml", &household(emil)).foods("").meals(&supper("2026-12-01", &lines.join(", ")))
}

fn said(kitchen: &Kitchen) -> (Option<i32>, String) {
    let output = kitchen.run(&["check"]);
    (output.status.code(), stderr(&output))
}

/// Each food's line of what is said, from "Emil:" on; nothing where it is not named.
fn told<'s>(said: &'s str, food: &str) -> Vec<&'s str> {
    let chain = format!("Emil: {food}: ");
    said.lines().filter_map(|line| line.split_once(chain.as_str()).map(|(_, told)| told)).collect()
}

#[track_caller]
fn is_a_mistake(word: &str, foods: &[(&str, &str)]) {
    let typed: Vec<&str> = foods.iter().map(|(typed, _)| *typed).collect();
    let (status, said) = said(&served(&format!("allergic = [\"{word}\"]"), &typed));
    assert_eq!(status, Some(1), "{said}");
    for (_, name) in foods {
        assert!(said.contains(&format!("Emil: {name}: {word}")), "{name} for {word} in {said}");
    }
}

#[track_caller]
fn may_contain(word: &str, foods: &[(&str, &str)]) {
    let typed: Vec<&str> = foods.iter().map(|(typed, _)| *typed).collect();
    let (status, said) = said(&served(&format!("allergic = [\"{word}\"]"), &typed));
    assert_eq!(status, Some(0), "{said}");
    for (_, name) in foods {
        let lines = told(&said, name);
        assert!(
            lines.iter().any(|line| line.contains(word) && line.ends_with("read the packet.")),
            "{name} for {word}: {lines:?} in {said}"
        );
    }
}

#[track_caller]
fn is_not_told(word: &str, foods: &[&str]) {
    let (status, said) = said(&served(&format!("allergic = [\"{word}\"]\navoid = [\"{word}\"]"), foods));
    assert_eq!(status, Some(0), "{said}");
    assert!(!said.contains("Emil"), "{word}: {said}");
}

#[test]
fn tinned_dried_and_pressed_a_food_is_still_that_food() {
    is_a_mistake(
        "tomato",
        &[
            ("tinned chopped tomatoes", "tinned chopped tomatoes"),
            ("cherry tomatoes", "cherry tomato"),
            ("passata", "passata"),
            ("tomato puree", "tomato purée"),
            ("sun-dried tomatoes", "sun-dried tomato"),
        ],
    );
    is_a_mistake("mushroom", &[("shiitake mushrooms", "shiitake mushroom"), ("dried porcini", "dried porcini")]);
    is_a_mistake("chickpeas", &[("tinned chickpeas", "tinned chickpeas"), ("gram flour", "gram flour")]);
    is_a_mistake("coconut", &[("coconut milk", "coconut milk"), ("desiccated coconut", "desiccated coconut")]);
    is_a_mistake("chicken", &[("chicken breast", "chicken breast"), ("cooked chicken", "cooked chicken")]);
    is_a_mistake("pork", &[("bacon", "bacon"), ("ham", "ham"), ("pork chop", "pork chop")]);
    is_a_mistake("corn", &[("cornflour", "cornflour"), ("polenta", "polenta"), ("popcorn", "popcorn kernels")]);
    is_a_mistake("onion", &[("red onion", "red onion"), ("onion powder", "onion powder"), ("shallots", "shallot")]);
    is_a_mistake("peppers", &[("red pepper", "red pepper"), ("black pepper", "black pepper")]);
}

#[test]
fn what_is_made_of_a_food_may_contain_it() {
    may_contain("tomato", &[("ketchup", "tomato ketchup"), ("baked beans", "baked beans")]);
    may_contain("chickpea", &[("hummus", "hummus"), ("falafel", "falafel")]);
    may_contain("basil", &[("pesto", "pesto")]);
    may_contain("red pepper", &[("paprika", "paprika")]);
    may_contain("pork", &[("sausages", "sausage"), ("chorizo", "chorizo")]);
    may_contain("chicken", &[("chicken stock", "chicken stock")]);
    may_contain("cumin", &[("curry powder", "curry powder")]);
    may_contain("kiwi", &[("fruit salad", "fruit salad")]);
    may_contain("potato", &[("crisps", "crisps")]);
}

#[test]
fn what_is_only_called_like_a_food_is_not_told() {
    is_not_told("butter", &["butter beans"]);
    is_not_told("potato", &["sweet potatoes"]);
    is_not_told("nutmeg", &["walnuts"]);
    is_not_told("chestnut", &["water chestnuts", "chestnut mushrooms"]);
    is_not_told("oyster", &["oyster mushrooms"]);
    is_not_told("beef", &["beef tomatoes"]);
    is_not_told("lamb", &["lamb's lettuce"]);
    is_not_told("cherry", &["cherry tomatoes"]);
    is_not_told("lemon", &["lemongrass"]);
    is_not_told("pear", &["prickly pear"]);
}

#[test]
fn what_is_avoided_is_warned_of_in_all_its_forms() {
    let (status, said) = said(&served("avoid = [\"mushroom\"]", &["dried porcini", "carrots", "vegetable stock"]));
    assert_eq!(status, Some(0), "{said}");
    assert_eq!(told(&said, "dried porcini"), ["mushroom, which Emil avoids."]);
    assert_eq!(told(&said, "vegetable stock"), ["may contain mushroom, which Emil avoids: read the packet."]);
    assert!(told(&said, "carrot").is_empty(), "{said}");
}

#[test]
fn the_whole_household_avoids_it_alike() {
    let rules = household("").replace("currency = \"EUR\"\n", "currency = \"EUR\"\navoid = [\"tomato\"]\n");
    let told = |lines: &str| {
        let kitchen = kitchen().file("kitchen.toml", &rules).foods("").meals(&supper("2026-12-01", lines));
        let output = kitchen.run(&["list"]);
        assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
        stderr(&output)
    };
    let passata = told("\"20 g passata\"");
    assert!(passata.contains("passata contains tomato, which this household avoids."), "{passata}");
    let nuts = rules.replace("tomato", "walnut");
    let kitchen = kitchen().file("kitchen.toml", &nuts).foods("").meals(&supper("2026-12-01", "\"20 g mixed nuts\""));
    let mixed = stderr(&kitchen.run(&["list"]));
    assert!(mixed.contains("mixed nuts may contain walnut, which this household avoids: read the packet."), "{mixed}");
    let ketchup = told("\"20 g ketchup\"");
    assert!(ketchup.contains("tomato ketchup may contain tomato, which this household avoids: read the packet."), "{ketchup}");
}

#[test]
fn a_food_of_the_household_is_known_by_its_names() {
    let foods = "[[food]]\nname = \"heritage beef tomatoes\"\nallergens = []\n[[food]]\nname = \"smoky tomato relish\"\nallergens = []\n\
                 [[food]]\nname = \"red jar\"\nalso = [\"passata\"]\nallergens = []\n[[food]]\nname = \"vegan chicken bites\"\nallergens = []\n";
    let of = |word: &str, typed: &[&str]| said(&served(&format!("allergic = [\"{word}\"]"), typed).foods(foods));
    let (status, told_of) = of("tomato", &["heritage beef tomatoes", "red jar"]);
    assert_eq!(status, Some(1), "{told_of}");
    for name in ["heritage beef tomatoes", "red jar"] {
        assert!(told_of.contains(&format!("Emil: {name}: tomato")), "{name} in {told_of}");
    }
    let (status, told_of) = of("tomato", &["smoky tomato relish"]);
    assert_eq!(status, Some(0), "{told_of}");
    assert_eq!(told(&told_of, "smoky tomato relish"), ["may contain tomato. Emil is allergic to it: read the packet."]);
    // What stands in for something is not made of it.
    let (status, told_of) = of("chicken", &["vegan chicken bites"]);
    assert_eq!(status, Some(0), "{told_of}");
    assert!(told(&told_of, "vegan chicken bites").is_empty(), "{told_of}");
}

#[test]
fn one_form_is_akin_to_another() {
    let (status, said) = said(&served("allergic = [\"cherry tomatoes\"]", &["passata", "tomato"]));
    assert_eq!(status, Some(0), "{said}");
    for food in ["passata", "tomato"] {
        assert!(told(&said, food).iter().any(|line| line.starts_with("akin to cherry tomatoes")), "{food}: {said}");
    }
    is_not_told("black pepper", &["red pepper"]);
}

#[test]
fn shellfish_are_crustaceans_and_molluscs_both() {
    for (typed, group) in [("mussels", "molluscs"), ("squid", "molluscs"), ("prawns", "crustaceans")] {
        let (status, said) = said(&served("allergic = [\"shellfish\"]", &[typed]));
        assert_eq!(status, Some(1), "{said}");
        assert!(said.contains(&format!(": {group}")), "{said}");
    }
}

#[test]
fn a_jar_called_nut_butter_may_be_of_peanuts() {
    let (status, said) = said(&served("allergic = [\"peanut\"]", &["nut butter"]));
    assert_eq!(status, Some(0), "{said}");
    assert_eq!(told(&said, "mixed nut butter"), ["not known for Emil whether it has peanut: read the packet."]);
}

#[test]
fn a_kind_of_food_lies_in_what_is_made_of_it() {
    may_contain("pulse", &[("hummus", "hummus"), ("tofu", "tofu")]);
    may_contain("seed", &[("tahini", "tahini")]);
    may_contain("fruit", &[("strawberry jam", "strawberry jam")]);
}

#[test]
fn the_name_of_a_dish_and_the_words_of_a_meal_are_read() {
    let salad =
        "name = \"Peanut and carrot salad\"\nmakes = \"2 portions\"\ningredients = [\"100 g carrot\"]\nkeeps = { fridge = \"3 days\" }\n";
    let meal = "[[meal]]\nday = \"tue\"\nat = \"supper\"\nname = \"Peanut noodles\"\ntext = \"Scatter with walnuts.\"\neach = [\"1 portion recipe:salad\"]\n";
    let kitchen =
        kitchen().file("kitchen.toml", &household("allergic = [\"peanut\", \"walnut\"]")).foods("").recipe("salad", salad).meals(meal);
    let (status, said) = said(&kitchen);
    assert_eq!(status, Some(0), "{said}");
    for words in ["its name names Peanut", "the name of the meal names Peanut", "the text of the meal names walnuts"] {
        assert!(said.contains(words), "{words} in {said}");
    }
}

#[test]
fn an_exchange_is_held_against_what_is_served_and_none_leads_back() {
    let swapped = |swap: &str| {
        let emil = format!("allergic = [\"sesame\"]\nswap = {swap}");
        said(&served(&emil, &["hummus"]))
    };
    // 20 g of tahini take the place of the hummus; that Emil has no tahini elsewhere changes nothing of it.
    let (status, said) = swapped("{ hummus = \"tahini\", tahini = \"\" }");
    assert_eq!(status, Some(1), "{said}");
    assert!(said.contains("Emil: tahini: sesame"), "{said}");
    for ring in ["{ hummus = \"hummus\" }", "{ hummus = \"tahini\", tahini = \"hummus\" }"] {
        let (status, said) = swapped(ring);
        assert_eq!(status, Some(1), "{said}");
        assert!(said.contains("a swap that leads back to what it stands in for exchanges nothing"), "{said}");
    }
}
