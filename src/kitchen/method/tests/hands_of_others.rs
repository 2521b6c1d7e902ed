//! Paragraphs of hands that the reader had not seen: a canteen's sheet, a letter, a translated book, a magazine.

use pretty_assertions::assert_eq;

use super::{read, told};
use crate::kitchen::Piece;

#[test]
fn each_reads_as_it_is_meant() {
    let typed = ["600 g chicken thighs", "2 onions", "2 tbsp olive oil", "500 ml chicken stock", "200 g rolled oats", "1 tbsp maple syrup"];
    for (method, meant) in [
        // Sealing meat is searing it; a bag is sealed, too.
        ("Seal the chicken in the oil on all sides for 8 minutes.", &["hob h8"][..]),
        ("Seal the chicken in a bag and chill for 2 hours.", &["- w120"]),
        // Nobody pours for two hours and a half.
        (
            "Put the chicken in the casserole, pour over the stock, lid on, and into the oven at 150 for two and a half hours.",
            &["oven w150 c150"],
        ),
        (
            "Tip the oats and stock into a large microwaveable bowl. Cook on HIGH for 2 mins, stir, then cook for another 3 mins.",
            &["microwave w2", "microwave w3"],
        ),
        ("Simmer the chicken in the stock for 30 minutes. Stir occasionally.", &["hob w30"]),
        ("Simmer the chicken in the stock for 30 mins. CCP: core temp must reach 75°C for 30 seconds.", &["hob w30 i75"]),
        ("Simmer the chicken in the stock for 30 mins. Core 75 °C.", &["hob w30 i75"]),
        ("Simmer the chicken in the stock for 30 mins. Hot hold above 63°C, max 2 hours.", &["hob w30"]),
        ("Put the chicken in a dish. It goes in at gas mark 5 for three quarters of an hour.", &["oven w45 c190"]),
        ("Gratinate the chicken at 220 °C for 20 minutes.", &["oven w20 c220"]),
        ("Season the chicken, wrap in foil and bake at 200 °C for 40 minutes.", &["oven w40 c200"]),
        ("Work the oats and stock into a dough, then roll into 6. Rest for 5 minutes.", &["- w5"]),
    ] {
        let found = read(&typed, &[method]);
        assert_eq!(told(&found), meant, "{method}");
    }
}

/// Which ingredients each step names, by their places in the list.
fn named(typed: &[&str], method: &[&str]) -> Vec<Vec<usize>> {
    let of = |piece: &Piece| if let Piece::Ingredient { index, .. } = piece { Some(*index) } else { None };
    read(typed, method).steps.iter().map(|step| step.text.iter().filter_map(of).collect()).collect()
}

#[test]
fn foods_go_by_what_they_come_in_and_by_the_word_before_their_syrup() {
    let fish = ["4 mackerel fillets", "250 g cooked beetroot"];
    assert_eq!(named(&fish, &["Season the fillets and grill for 5 minutes.", "Dice the beetroot."]), [vec![0], vec![1]]);
    let tofu = ["280 g tofu", "3 tbsp soy sauce", "1 tbsp maple syrup"];
    assert_eq!(named(&tofu, &["Toss the tofu in the soy and maple."]), [vec![0, 1, 2]]);
    // What is brought after the boil is in none of its waits.
    let oats = ["500 ml water", "100 g rolled oats"];
    assert_eq!(named(&oats, &["Bring the water to the boil, sprinkle in the oats and simmer for 5 minutes."]), [vec![0], vec![1]]);
    assert_eq!(named(&oats, &["Bring the water to the boil. Oats go in. Simmer for 5 minutes."]), [vec![0], vec![1]]);
    // What is named by itself is not "everything", too.
    let beans = ["200 g bacon", "1 onion", "500 g passata"];
    assert_eq!(named(&beans, &["Put everything in the slow cooker with the passata and cook on low for 8 hours."]), [vec![0, 1, 2]]);
}

#[test]
fn heating_the_oil_is_for_what_is_at_hand() {
    let koftas = ["500 g minced lamb", "1 onion", "100 g plain yoghurt", "1 tbsp olive oil"];
    let method = [
        "Mix the lamb and onion and shape into koftas. Chill for 30 minutes.",
        "Meanwhile, stir the yoghurt.",
        "Heat the oil in a pan. Cook the koftas for 8 minutes, turning now and then.",
    ];
    let inside: Vec<Option<f64>> = read(&koftas, &method).steps.iter().map(|step| step.inside.map(|celsius| celsius.0)).collect();
    assert_eq!(inside, [None, None, Some(71.0)]);
}

#[test]
fn what_is_begun_beside_goes_on_until_something_has_cooked() {
    let typed = ["200 g brown lentils", "500 ml water", "1 onion", "2 tbsp olive oil", "400 g tomatoes"];
    let method = [
        "Simmer the lentils in the water for 20 minutes.",
        "While they cook, heat a large pan over medium heat. Once hot, add the oil and onion. Sauté for 5 minutes. Add the tomatoes.",
    ];
    assert_eq!(told(&read(&typed, &method)), ["hob w20", "hob =", "- +"]);
}

#[test]
fn an_oven_is_heated_by_what_is_put_into_it_first() {
    let dough = ["500 g strong flour", "350 ml water"];
    let method =
        ["Mix the flour and water. Put a pot with its lid into the oven and heat to 230 °C.", "Drop in the dough and bake for 30 minutes."];
    assert_eq!(told(&read(&dough, &method)).last().map(String::as_str), Some("oven w30 c230"));
}

#[test]
fn the_plural_of_what_several_lines_are_is_all_of_them() {
    let short = ["225 g butter", "225 g plain flour", "110 g rice flour"];
    assert_eq!(named(&short, &["Cream the butter, then work in both the flours."]), [vec![0, 1, 2]]);
    let peppers = ["1 red pepper", "1 yellow pepper", "1 tsp black pepper"];
    assert_eq!(named(&peppers, &["Slice the peppers. Season with the black pepper."]), [vec![0, 1, 2]]);
    assert_eq!(named(&peppers, &["Slice the red pepper. Mince the yellow pepper."]), [vec![0, 1]]);
}

#[test]
fn what_stands_until_it_is_needed_keeps_nobody_waiting() {
    let fish = ["600 g cod", "200 ml soured cream", "1 bunch dill"];
    let method = [
        "Chop the dill, stir it into the soured cream and chill until wanted.",
        "Bake the cod at 200 °C for 15 minutes. Bring to the table in its dish.",
    ];
    let found = read(&fish, &method);
    assert_eq!(told(&found), ["-", "oven w15 c200"]);
    assert_eq!(found.serve, ["Bring to the table in its dish."]);
    // At the end it is as cold as it is meant to be.
    assert_eq!(told(&read(&fish, &["Stir the dill into the soured cream and chill until needed."])), ["- w60"]);
}

#[test]
fn what_is_left_goes_by_what_is_left_of_it() {
    let plums = ["900 g plums", "100 g sugar", "4 tbsp olive oil"];
    let found = read(
        &plums,
        &[
            "Put the plums in a dish with half the sugar and 3 tbsp of the oil. Scatter with what is left of the sugar and the last of the oil.",
        ],
    );
    let words: Vec<&str> =
        found.steps[0].text.iter().filter_map(|piece| if let Piece::Words(words) = piece { Some(words.as_str()) } else { None }).collect();
    assert_eq!(words, ["Put ", " in a dish with ", " and ", ". Scatter with ", " and ", "."]);
}

#[test]
fn more_of_pages_and_leaflets_reads_as_it_is_meant() {
    for (typed, method, meant) in [
        (
            &["500 g plain flour", "2 eggs"][..],
            "Mix the flour and eggs. Bake at 180 °C for 50 minutes. Stand in pan for 5 minutes. Turn onto a wire rack to cool.",
            &["oven w50 c180", "- w5", "-"][..],
        ),
        (&["4 potatoes"], "Cook the potatoes on 100% power for 14 minutes, turning halfway.", &["microwave w14"]),
        (
            &["200 g orzo", "400 ml chicken stock", "60 g feta"],
            "Simmer the orzo in the stock for 12 minutes. Crumble over feta to serve.",
            &["hob w12"],
        ),
        (&["200 g pasta", "1 l water"], "Boil the pasta for 10 minutes. Stir once so it does not stick.", &["hob w10"]),
        (&["1 chicken, 1.2 kg"], "Simmer the chicken for 60 minutes. When it is cool, pull the meat from the bones.", &["hob w60", "-"]),
    ] {
        assert_eq!(told(&read(typed, &[method])), meant, "{method}");
    }
    // What is told how next is no step of its own, and goes on beside.
    let sauce = ["40 g butter", "40 g plain flour", "600 ml milk", "500 g passata"];
    let method = [
        "Simmer the passata for 30 minutes.",
        "Meanwhile, make the white sauce. Melt the butter, stir in the flour and cook, stirring, for 1 minute.",
    ];
    assert_eq!(told(&read(&sauce, &method)), ["hob w30", "hob ="]);
}

#[test]
fn what_a_step_does_to_foods_that_only_the_next_one_names_stands_before_its_words() {
    let roots = ["450 g potatoes", "450 g carrots", "450 g swede"];
    assert_eq!(named(&roots, &["Dice and cook the potatoes, carrots and swede in salted water for 15 minutes."]), [vec![0, 1, 2], vec![]]);
    let soda = ["450 g plain flour", "1 tsp bread soda", "400 ml buttermilk"];
    assert_eq!(named(&soda, &["Sieve the dry ingredients and pour in the milk."]), [vec![0, 1, 2]]);
}
