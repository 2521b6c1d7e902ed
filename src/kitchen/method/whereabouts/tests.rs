//! Where it happens, in methods of two or three sentences. Each reading was written down before the method was run; the notation is that of
//! the table of paragraphs. Three readings were then mended, in how clauses gather into steps; no appliance was.

use super::super::tests::{read, told};
use pretty_assertions::assert_eq;

type Row = (&'static [&'static str], &'static str, &'static [&'static str]);

const THIGHS: &[&str] = &["8 chicken thighs", "2 onions", "200 g rice", "1 tbsp honey"];
const ROOTS: &[&str] = &["1 kg potatoes", "2 carrots", "4 eggs", "200 g feta", "2 leeks"];
const PIE: &[&str] = &["500 g minced beef", "800 g potatoes", "1 onion", "50 g butter", "100 g peas"];
const FISH: &[&str] = &["4 salmon fillets", "1 aubergine", "200 g pasta", "30 g almonds", "2 tbsp olive oil"];

#[rustfmt::skip]
static TABLE: &[Row] = &[
    // Ovenware, and an oven that was heated.
    (THIGHS, "Preheat the oven to 200C. Arrange the chicken and onions on a baking tray. Cook for 35 minutes.", &["oven w35 c200"]),
    (THIGHS, "Heat the oven to 190C. Put the chicken in a roasting tin and cook for 35 minutes.", &["oven w35 c190"]),
    (THIGHS, "Preheat the oven to 180C. Put the chicken in an ovenproof dish. Cover with foil and cook for 1 hour.", &["oven w60 c180"]),
    (ROOTS, "Heat the oven to 180C and line a muffin tin. Beat the eggs with the feta. Spoon into the cases and cook for 20-25 minutes.", &["-", "oven w25 c180"]),
    (ROOTS, "Heat the oven to 170C. Slice the potatoes and layer them in a gratin dish. Cook for 1 hour.", &["-", "oven w60 c170"]),
    (ROOTS, "Put the carrots on a baking tray. Cook for 40 minutes.", &["oven w40"]),
    (THIGHS, "Heat the oven to 200C. Cook the chicken for 40 minutes.", &["oven w40 c200"]),
    (FISH, "Heat the oven to 200C. Wrap the salmon in foil and cook for 15 minutes.", &["oven w15 c200"]),
    // Where the oven is for something later, "cook" stays on the hob.
    (FISH, "Heat the oven to 200C. Cook the pasta for 10 minutes. Mix it with the oil and bake for 20 minutes.", &["hob w10", "oven w20 c200"]),
    (ROOTS, "Heat the oven to 200C. Cook the leeks for 8 minutes. Tip them into a baking dish, top with the feta and cook for 25 minutes.", &["hob w8", "oven w25 c200"]),
    // Laid out, and nothing else for the oven to do.
    (PIE, "Heat the oven to 200C. Fry the beef and onion for 10 minutes. Boil the potatoes for 15 minutes, drain and mash. Spread the mash over the beef and cook for 25 minutes.", &["hob h10 w15", "-", "oven w25 c200"]),
    // Other appliances that were heated.
    (FISH, "Heat the grill to high. Place the aubergine on a baking tray and cook for 10 minutes.", &["grill w10"]),
    (THIGHS, "Heat the slow cooker to low. Add the chicken. Cook for 6 hours.", &["slow cooker w360"]),
    // A pan is the hob, whatever is heated.
    (THIGHS, "Heat the oven to 200C. Cook the onions in a pan for 10 minutes. Roast the chicken for 40 minutes.", &["hob w10", "oven w40 c200"]),
    (PIE, "Heat the oven to 180C. Cook the onion in the butter for 5 minutes. Add the beef and bake for 30 minutes.", &["hob w5", "oven w30 c180"]),
    // What was put nowhere goes on the hob; what was in the oven goes on there.
    (THIGHS, "Put the chicken in the oven for 40 minutes at 200C. Meanwhile, cook the rice for 12 minutes.", &["oven w40 c200", "hob w12 ="]),
    (THIGHS, "Roast the chicken for 40 minutes at 200C. Cook the rice for 12 minutes.", &["oven w40 c200", "hob w12"]),
    (ROOTS, "Bake the potatoes at 200C for 1 hour. While they cook, cook the eggs for 8 minutes.", &["oven w60 c200", "hob w8 ="]),
    (ROOTS, "Microwave the potatoes for 10 minutes. Cook the carrots for 15 minutes.", &["microwave w10", "hob w15"]),
    (ROOTS, "Pressure cook the potatoes for 8 minutes. Cook the leeks for 15 minutes.", &["pressure cooker w8", "hob w15"]),
    (ROOTS, "Bake the potatoes at 200C for 1 hour. Chop the leeks and cook for 10 minutes.", &["oven w60 c200", "-", "hob w10"]),
    (THIGHS, "Roast the chicken at 200C for 30 minutes. Brush with the honey and cook for 10 minutes more.", &["oven w30 c200", "oven w10 c200"]),
    (THIGHS, "Roast the chicken at 200C for 30 minutes. Fry the onions for 5 minutes. Cook the chicken for 10 minutes.", &["oven w30 c200", "hob h5", "oven w10 c200"]),
    (THIGHS, "Roast the chicken at 200C for 30 minutes. Fry the onions for 5 minutes. Add them to the chicken and cook for 10 minutes.", &["oven w30 c200", "hob", "oven w10 c200"]),
    (FISH, "Bake the salmon for 15 minutes at 200C. Toast the almonds for 3 minutes.", &["oven w15 c200", "hob h3"]),
    (FISH, "Bake the salmon for 15 minutes at 200C. Take it out, scatter over the almonds, return to the oven and cook for 3 minutes.", &["oven w15 c200", "oven w3 c200"]),
];

#[test]
fn what_names_no_appliance_happens_where_its_own_food_was_put() {
    let mut wrong = Vec::new();
    for (ingredients, method, reading) in TABLE {
        let found = told(&read(ingredients, &[method]));
        if found != *reading {
            wrong.push(format!("{method:?}\n  found  {found:?}\n  wanted {reading:?}"));
        }
    }
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), TABLE.len(), wrong.join("\n"));
}

#[test]
fn an_oven_that_is_taken_against_where_the_food_was_is_told() {
    let method = "Heat the oven to 200C. Fry the beef for 10 minutes. Spread the potatoes over the beef and cook for 25 minutes.";
    let found = read(PIE, &[method]);
    assert!(found.doubts.iter().any(|(_, text)| text.contains("is planned in the oven")), "{:?}", found.doubts);
    let plain = read(THIGHS, &["Heat the oven to 200C. Cook the chicken for 40 minutes."]);
    assert_eq!(plain.doubts, []);
}

#[test]
fn an_oven_that_is_heated_for_nothing_is_told() {
    let method = "Heat the oven to 200C. Brown the beef in a pan for 5 minutes. Simmer for 30 minutes.";
    let found = read(PIE, &[method]);
    assert!(found.doubts.iter().any(|(_, text)| text.contains("heats the oven")), "{:?}", found.doubts);
}
