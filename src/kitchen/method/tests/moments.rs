//! What goes on after a moment's work, what sweats or steams away from the heat, and what is said again once it is used. Each reading was
//! written down before the mend that it asks for.

use super::{foods, read, told};
use crate::kitchen::method::MethodRead;
use pretty_assertions::assert_eq;

type Row = (&'static [&'static str], &'static str, &'static [&'static str]);

const THIGHS: &[&str] = &["8 chicken thighs", "2 tbsp olive oil", "1 tbsp honey", "1 tsp salt"];
const ROOTS: &[&str] = &["4 red peppers", "2 aubergines", "1 kg beetroot", "2 tsp salt", "200 g couscous", "300 ml vegetable stock"];
const LEEKS: &[&str] = &["600 g leeks", "30 g butter", "1 l vegetable stock", "1 tsp salt"];
const FISH: &[&str] = &["4 cod fillets", "200 g rice", "1/2 bunch dill"];

#[rustfmt::skip]
static GOES_ON: &[Row] = &[
    (THIGHS, "Roast the chicken at 200°C for 25 minutes, baste, then a further 20 minutes.", &["oven w25 c200", "oven w20 c200"]),
    (THIGHS, "Roast the chicken at 200°C for 25 minutes, baste, a further 20 minutes.", &["oven w25 c200", "oven w20 c200"]),
    (THIGHS, "Roast the chicken at 200°C for 25 minutes. Brush with the honey, then a further 20 minutes.", &["oven w25 c200", "oven w20 c200"]),
    (THIGHS, "Cook the chicken in the oven at 190°C for 30 minutes, spoon over the honey, then 5 minutes longer.", &["oven w30 c190", "oven w5 c190"]),
    (THIGHS, "Grill the chicken for 10 minutes, brush with oil, then 10 minutes more.", &["grill w10", "grill w10"]),
    (THIGHS, "Roast the chicken at 200°C for 20 minutes, turn the oven down to 180°C, then 15 minutes more.", &["oven w20 c200", "oven w15 c180"]),
    (LEEKS, "Microwave the leeks for 5 minutes, turn over, then another 5 minutes.", &["microwave w5", "microwave w5"]),
    (LEEKS, "Microwave the leeks for 2 minutes, stir, then 1 minute more.", &["microwave w2", "microwave w1"]),
    (LEEKS, "Microwave the leeks 5 minutes, prick, and then 3 minutes.", &["microwave w5", "microwave w3"]),
    (LEEKS, "Simmer the leeks in the stock for 10 minutes, stir, then 5 minutes more.", &["hob w10", "hob w5"]),
    (LEEKS, "Boil the leeks for 10 minutes, season with the salt, then a further 20 minutes.", &["hob w10", "hob w20"]),
    (LEEKS, "Fry the leeks for 5 minutes, stir, then 3 minutes more.", &["hob"]),
    (LEEKS, "Roast the leeks in a dry pan for 2 minutes, stir, then 1 minute more.", &["hob"]),
    // Each stage on its own: no cooking before it, a rest after it, the time of it all.
    (LEEKS, "Roast the leeks at 200°C for 20 minutes, toss, then rest for 5 minutes.", &["oven w20 c200", "- w5"]),
    (LEEKS, "Stir the leeks and salt for 2 minutes, then 3 minutes more.", &["- h5"]),
    // Covered, what was fried is left to itself.
    (LEEKS, "Fry the leeks in the butter for 5 minutes over a high heat, then for 10 minutes over a low heat, covered.", &["hob h5 w10"]),
    (LEEKS, "Fry the leeks in the butter for 5 minutes, then for 10 minutes with the lid on.", &["hob h5 w10"]),
    (LEEKS, "Fry the leeks in the butter for 5 minutes over a high heat, then for 10 minutes over a low heat.", &["hob h15"]),
];

#[rustfmt::skip]
static OFF_THE_HEAT: &[Row] = &[
    (ROOTS, "Char the peppers under the grill for 10 minutes. Put them in a bowl, cover and sweat for 10 minutes.", &["grill w10", "- w10"]),
    (ROOTS, "Grill the peppers for 10 minutes. Seal in a plastic bag and leave to sweat for 10 minutes.", &["grill w10", "- w10"]),
    (ROOTS, "Grill the peppers for 10 minutes. Sweat in a covered bowl 10 min.", &["grill w10", "- w10"]),
    (ROOTS, "Slice the aubergines, toss with the salt and leave to sweat in a colander for 30 minutes.", &["- w30"]),
    (ROOTS, "Sprinkle the aubergines with the salt and leave to sweat for 30 minutes.", &["- w30"]),
    (ROOTS, "Bake the beetroot at 200°C for 50 minutes. Cover and steam in a bowl 15 mins.", &["oven w50 c200", "- w15"]),
    (ROOTS, "Bake the beetroot at 200°C for 50 minutes, then steam under a cloth for 15 minutes.", &["oven w50 c200", "- w15"]),
    (ROOTS, "Grill the peppers for 10 minutes. Put in a bowl, cover and steam for 15 minutes.", &["grill w10", "- w15"]),
    (ROOTS, "Boil the stock for 5 minutes. Pour over the couscous, cover and steam for 5 minutes.", &["hob w5", "- w5"]),
    (FISH, "Boil the rice for 12 minutes. Take off the heat and steam, lid on, for 10 minutes.", &["hob w12", "- w10"]),
    // On the heat they stay.
    (LEEKS, "Sweat the leeks in the butter, covered, for 10 minutes.", &["hob w10"]),
    (LEEKS, "Melt the butter. Add the leeks and salt, cover and leave to sweat for 10 minutes.", &["hob w10"]),
    (FISH, "Boil the rice for 12 minutes. Put the cod in a bowl, cover and steam for 10 minutes.", &["hob w12", "hob w10"]),
    (FISH, "Boil the rice for 12 minutes, then steam the cod over it for 10 minutes.", &["hob w12", "hob w10"]),
];

fn wrong(rows: &[Row]) -> Vec<String> {
    let found = |(lines, method, meant): &Row| {
        let found: Vec<String> = told(&read(lines, &[method]));
        (found != *meant).then(|| format!("{method}\n  found  {found:?}\n  wanted {meant:?}"))
    };
    rows.iter().filter_map(found).collect()
}

#[test]
fn what_cooked_goes_on_where_it_is_after_a_moment_s_work() {
    let wrong = wrong(GOES_ON);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    let basted = read(THIGHS, &[GOES_ON[0].1]);
    assert_eq!(basted.steps.iter().map(|step| step.inside.map(|inside| inside.0)).collect::<Vec<_>>(), [None, Some(74.0)]);
    assert_eq!(basted.steps[1].hands.0, 1);
}

#[test]
fn what_sweats_or_steams_away_from_the_heat_stands_on_nothing() {
    let wrong = wrong(OFF_THE_HEAT);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn of_times_by_size_under_pressure_the_longest_is_planned_and_told() {
    let beets = ["1 kg beetroot"];
    for (method, minutes, doubts) in [
        ("Cook in the pressure cooker: 20 minutes for medium beets, 30 minutes for large, natural release.", 45, 1),
        ("Cook in the pressure cooker: 20 minutes for medium beets, 30 minutes for large, natural release 10 minutes.", 40, 1),
        ("Cook in the pressure cooker for 20 minutes with 10 minutes natural release.", 30, 0),
        ("Cook in the pressure cooker for 20 minutes, natural release for 10 minutes.", 30, 0),
    ] {
        let found = read(&beets, &[method]);
        assert_eq!(
            (found.steps.iter().map(|step| step.wait.0).sum::<i64>(), found.doubts.len()),
            (minutes, doubts),
            "{method}: {:?}",
            found.doubts
        );
    }
}

#[test]
fn what_is_said_again_once_it_is_used_takes_nothing() {
    let of = |lines: &[&str], method: &str| -> Vec<String> {
        let found: MethodRead = read(lines, &[method]);
        foods(lines, &found).concat().iter().map(ToString::to_string).collect()
    };
    let text =
        |lines: &[&str], method: &str| -> String { read(lines, &[method]).steps.iter().map(|step| super::text(lines, step)).collect() };
    let bread = ["450 g plain flour", "2 tsp baking powder", "200 ml milk", "2 tbsp olive oil", "500 g chicken thighs"];
    let mixed = "Mix the flour and baking powder. Make a well in the dry ingredients and pour in the milk and half the oil. Fry the chicken for 10 minutes. Brush with the rest of the oil.";
    assert_eq!(
        of(&bread, mixed),
        [
            "450 g plain flour",
            "2 tsp baking powder",
            "200 ml milk",
            "1 tbsp of 2 tbsp olive oil",
            "500 g chicken thighs",
            "1 tbsp of 2 tbsp olive oil"
        ]
    );
    let beaten = ["450 g plain flour", "1 tsp baking powder", "200 ml water", "100 g plain yoghurt", "2 tbsp olive oil"];
    let poured = "Mix the flour and baking powder. Beat the water with the yoghurt and 1 tbsp of the oil. Add the wet ingredients to the dry ingredients. Fry for 5 minutes, brushing with the remaining oil.";
    assert!(!text(&beaten, poured).contains("dry ingredients ("), "{}", text(&beaten, poured));
    assert!(!text(&beaten, poured).contains("wet ingredients ("), "{}", text(&beaten, poured));
    let cake = ["200 g plain flour", "200 ml oat milk", "3 tbsp oil", "50 g walnuts"];
    let folded = "Sift the flour. Mix the oat milk and oil. Add the wet ingredients to the dry ingredients and stir. Fold in the walnuts.";
    assert_eq!(of(&cake, folded), cake);
    assert!(!text(&cake, folded).contains("ingredients ("), "{}", text(&cake, folded));
    // What a later clause names is left to it.
    let carrots = ["1 tsp ground cumin", "1 tsp paprika", "500 g carrots", "1 tsp salt", "1/2 tsp chilli flakes"];
    let spiced = "Mix the cumin and paprika. Toss the carrots with the spices. Sprinkle with the chilli flakes.";
    assert!(!text(&carrots, spiced).contains("the spices ("), "{}", text(&carrots, spiced));
    let yoghurt = ["1 bunch dill", "1 bunch parsley", "300 g plain yoghurt", "1/2 bunch mint"];
    let scattered = "Chop the dill and parsley. Stir the herbs into the yoghurt. Scatter the mint over.";
    assert_eq!(of(&yoghurt, scattered), yoghurt);
    assert!(!text(&yoghurt, scattered).contains("the herbs ("), "{}", text(&yoghurt, scattered));
    // What nothing else names is meant.
    let rest = "Fry the cumin for 1 minute. Add the carrots and spices.";
    assert!(of(&carrots, rest).iter().any(|food| food == "1 tsp paprika"), "{:?}", of(&carrots, rest));
}
