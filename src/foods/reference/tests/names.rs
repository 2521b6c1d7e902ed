//! What a name promises: a food called by an allergen bears it, and no name is of another food.

use pretty_assertions::assert_eq;

use super::*;

/// A word of a name, by its key, and the allergen that such a food bears.
const NAMED: [(&[&str], Allergen); 13] = [
    (&["celery", "celeriac"], Allergen::Celery),
    (&["mustard"], Allergen::Mustard),
    (&["sesame", "tahini"], Allergen::Sesame),
    (&["peanut", "satay"], Allergen::Peanuts),
    (&["almond", "hazelnut", "walnut", "pecan", "cashew", "pistachio", "macadamia"], Allergen::Nuts),
    (&["prawn", "shrimp", "crab", "lobster", "crayfish", "langoustine", "scampi"], Allergen::Crustaceans),
    (&["squid", "mussel", "clam", "oyster", "scallop", "octopus", "cockle"], Allergen::Molluscs),
    (&["fish", "anchovy", "tuna", "salmon", "cod", "haddock", "mackerel", "sardine", "trout", "herring"], Allergen::Fish),
    (&["egg", "mayonnaise", "mayo"], Allergen::Egg),
    (&["milk", "cheese", "butter", "cream", "yogurt", "buttermilk", "custard", "ghee", "whey", "dairy"], Allergen::Milk),
    (&["soy", "soya", "soybean", "tofu", "miso", "edamame", "tempeh"], Allergen::Soybeans),
    (&["wheat", "bread", "barley", "rye", "spelt", "semolina"], Allergen::Gluten),
    (&["lupin"], Allergen::Lupin),
];

/// A word beside it that says it is made of something else: "oat milk", "egg-free".
const INSTEAD: [&str; 29] = [
    "vegan",
    "vegetarian",
    "plant",
    "free",
    "non",
    "eggless",
    "imitation",
    "alternative",
    "coconut",
    "almond",
    "oat",
    "soya",
    "soy",
    "soybean",
    "rice",
    "nut",
    "hemp",
    "pea",
    "flax",
    "cashew",
    "hazelnut",
    "macadamia",
    "peanut",
    "walnut",
    "pistachio",
    "sunflower",
    "apple",
    "fruit",
    "bean",
];

/// Names in which the word means something else, or of which makers leave it out.
const NOT_OF_IT: [&str; 31] = [
    // Plants.
    "crab apple",
    "crab apple jelly",
    "tuna fruit",
    "oyster mushroom",
    "king oyster mushroom",
    "oyster plant",
    "scallop squash",
    "butter lettuce",
    "custard apple",
    "cream of wheat",
    "cream of tartar",
    "cream-style corn",
    // Served with it, or in its colour and shape.
    "crab stick",
    "prawn cocktail sauce",
    "egg roll wrapper",
    "ice cream cone",
    "cream cracker",
    "butter cracker",
    "chocolate cream biscuit",
    "cream sherry",
    "marshmallow cream",
    "cookie butter",
    "salad cream",
    "custard powder",
    "custard mix",
    "instant custard",
    // In place of it, or with it for some makers alone.
    "egg replacer",
    "egg replacement powder",
    "egg substitute",
    "baby milk",
    "follow-on milk",
];

/// Distilled, refined or made of kernels: Annex II leaves them out, or the maker decides.
const REFINED: [&str; 7] =
    ["soya oil", "soybean oil", "soya bean oil", "rye whiskey", "almond extract", "almond essence", "almond liqueur"];

#[test]
fn a_food_called_by_an_allergen_bears_it_under_each_of_its_names() {
    let bears = |food: &Food, allergen: &Allergen| {
        [&food.allergens, &food.contains].into_iter().flatten().any(|fact| fact.value.contains(allergen))
    };
    let mut lost = Vec::new();
    for food in rows().into_iter().filter(|food| food.kind != Some(Kind::Household)) {
        for name in std::iter::once(&food.name).chain(&food.also) {
            let key = key_of(name);
            let words: Vec<&str> = key.split(' ').collect();
            let spared = NOT_OF_IT.iter().chain(&REFINED).any(|other| key_of(other) == key);
            for (named, allergen) in &NAMED {
                let is_named = words.iter().any(|word| named.contains(word));
                // "Almond milk" bears almonds and no milk.
                let instead = words.iter().any(|word| INSTEAD.contains(word) && !named.contains(word));
                if is_named && !spared && !instead && !bears(&food, allergen) {
                    lost.push(format!("{name} ({}): {}", food.name, allergen.name()));
                }
            }
        }
    }
    assert!(lost.is_empty(), "{lost:#?}");
}

#[test]
fn names_that_were_once_of_another_food_are_of_their_own() {
    let foods = reference();
    for (typed, food) in [
        ("celery juice", "celery juice"),
        ("mustard and cress", "mustard and cress"),
        ("mustard leaves", "mustard greens"),
        ("hot curry powder", "hot curry powder"),
        ("medium curry powder", "medium curry powder"),
        ("ready-rolled shortcrust pastry", "shortcrust pastry"),
        ("crusty bread", "crusty bread"),
        ("grappa", "grappa"),
        ("coconut rum", "coconut rum"),
        ("white rum", "white rum"),
        ("banana flour", "banana flour"),
        ("ginger preserve", "ginger preserve"),
        ("limeade", "limeade"),
        ("orange flower water", "orange blossom water"),
        ("dried lime leaves", "dried makrut lime leaf"),
        ("vegetarian hard cheese", "vegetarian hard cheese"),
        ("puttanesca sauce", "puttanesca sauce"),
        ("mushroom stock cube", "mushroom stock cube"),
        ("frozen plums", "frozen plum"),
        ("mushy peas", "mushy peas"),
        ("onion salt", "onion salt"),
    ] {
        assert_eq!(find(&foods, typed).name, food, "{typed}");
    }
}

/// A word beside the noun that makes a food another one wherever both are known.
#[test]
fn colours_and_heats_that_make_another_food_are_no_second_name_of_their_opposite() {
    let apart = [["mild", "hot"], ["sweet", "hot"], ["white", "dark"], ["vegetarian", "beef"], ["mushroom", "lamb"], ["ham", "lamb"]];
    let mixed: Vec<String> = rows()
        .into_iter()
        .flat_map(|food| food.also.clone().into_iter().map(move |also| (food.name.clone(), also)))
        .filter(|(name, also)| {
            let has = |text: &str, word: &str| key_of(text).split(' ').any(|other| other == word);
            apart.iter().any(|[one, other]| has(name, one) && has(also, other) || has(name, other) && has(also, one))
        })
        .map(|(name, also)| format!("{also} is {name}"))
        .collect();
    assert!(mixed.is_empty(), "{mixed:?}");
}

#[test]
fn of_a_food_in_three_sizes_the_medium_one_is_known() {
    let lacking: Vec<String> = rows()
        .into_iter()
        .filter(|food| matches!(food.each.as_ref().map(|each| &each.value), Some(Measured::Table(sizes)) if !sizes.contains_key("medium")))
        .map(|food| food.name)
        .collect();
    assert!(lacking.is_empty(), "{lacking:?}");
}
