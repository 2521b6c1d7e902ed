//! Paragraphs with the reading that a cook gives them, written down before any of them was run.
//!
//! A line is `appliance [hN] [wN] [cN] [iN] [aN] [=|+]`, one a step: hands that the text gives, minutes of the wait, degrees Celsius, inside,
//! minutes ahead; `=` comes after what the step before came after, `+` after two. Hands that are not given are not compared.

use pretty_assertions::assert_eq;

use super::*;
use crate::foods::Foods;
use crate::kitchen::{After, ApplianceKind, LineOf, LineRead, Piece, Wanted, read_ingredients};
use crate::measure::{Minutes, Spoons};

mod asides;
mod choices;
mod figures;
mod fragments;
mod further;
mod hands;
mod hands_of_others;
mod heat_and_waits;
mod mended;
mod moments;
mod table;

pub(super) fn kitchen() -> Vec<Appliance> {
    let names = ["oven", "hob", "pressure cooker", "microwave", "slow cooker", "rice cooker", "grill", "bread machine"];
    let one = |name: &str| Appliance {
        name: name.to_owned(),
        room: 2,
        heat: name == "oven",
        near: 0.0,
        warm_up: Minutes(0),
        out: Minutes(0),
        comes_up: Minutes(0),
        holds: None,
        kind: ApplianceKind::of_name(name),
        fan: false,
        at: Spot::default(),
    };
    names.map(one).into()
}

pub(super) fn lines(typed: &[&str], foods: &mut Foods) -> Vec<Ingredient> {
    let mut all = Vec::new();
    for (index, text) in typed.iter().enumerate() {
        let Ok(LineRead::Ingredients(read)) = read_ingredients(text, foods, Spoons::Us) else { panic!("{text}") };
        for line in read {
            let LineOf::Food { food, item } = line.of else { panic!("{text}") };
            let food = foods.find(&food).unwrap_or_else(|| foods.intern_unknown(&food));
            let at = Spot { file: "recipes/test.toml".to_owned(), line: index as u32 + 1, column: 1 };
            all.push(Ingredient { prep: line.prep, ..Ingredient::of((*text).to_owned(), Wanted::Food { food, item }, at) });
        }
    }
    all
}

pub(super) fn read(typed: &[&str], method: &[&str]) -> MethodRead {
    read_in(&kitchen(), typed, method)
}

fn read_in(appliances: &[Appliance], typed: &[&str], method: &[&str]) -> MethodRead {
    static REFERENCE: std::sync::LazyLock<Foods> = std::sync::LazyLock::new(Foods::reference);
    let mut foods = REFERENCE.clone();
    let ingredients = lines(typed, &mut foods);
    let setting = Setting {
        kept: None,
        ingredients: &ingredients,
        headings: &[],
        foods: &foods,
        spoons: Spoons::Us,
        appliances,
        recipe_name: &|_| String::new(),
        trays: None,
    };
    let paragraphs: Vec<Paragraph> = method.iter().map(|text| Paragraph { text: (*text).to_owned(), at: Spot::default() }).collect();
    read_method(&paragraphs, &setting)
}

/// As the lines of the table are written.
pub(super) fn told(read: &MethodRead) -> Vec<String> {
    let appliances = kitchen();
    let told = read.steps.iter().enumerate().map(|(index, step)| {
        let mut line = step.on.first().map_or("-".to_owned(), |on| appliances[on.0].name.clone());
        if step.hands.0 > 0 && !step.estimated.hands {
            line += &format!(" h{}", step.hands.0);
        }
        if step.wait.0 > 0 {
            line += &format!(" w{}", step.wait.0);
        }
        if let Some(celsius) = step.temperature {
            line += &format!(" c{:.0}", celsius.0);
        }
        if let Some(inside) = step.inside.filter(|_| !step.estimated.inside) {
            line += &format!(" i{:.0}", inside.0);
        }
        if let Some(ahead) = step.ahead {
            line += &format!(" a{}", ahead.0);
        }
        let before = |after: &Vec<After>| after.contains(&After::Step(index.wrapping_sub(1)));
        match &step.after {
            Some(after) if after.len() > 1 => line += " +",
            Some(after) if !before(after) => line += " =",
            _ => {}
        }
        line
    });
    told.collect()
}

/// The foods of each step, with shares.
pub(super) fn foods(typed: &[&str], read: &MethodRead) -> Vec<Vec<String>> {
    let of = |step: &Step| {
        let named = step.text.iter().filter_map(|piece| match piece {
            Piece::Ingredient { index, share: None } => Some(typed[*index].to_owned()),
            Piece::Ingredient { index, share: Some(share) } => Some(format!("{share} of {}", typed[*index])),
            Piece::Words(_) => None,
        });
        named.collect()
    };
    read.steps.iter().map(of).collect()
}

#[test]
fn sixty_paragraphs_read_as_a_cook_reads_them() {
    let mut wrong = Vec::new();
    for (ingredients, method, reading) in table::TABLE {
        let found = told(&read(ingredients, method));
        if found != *reading {
            wrong.push(format!("{method:?}\n  found  {found:?}\n  wanted {reading:?}"));
        }
    }
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), table::TABLE.len(), wrong.join("\n"));
}

#[test]
fn notes_thermometers_and_exceptions_read_as_a_cook_reads_them() {
    let mut wrong = Vec::new();
    for (ingredients, method, reading, notes) in asides::TABLE {
        let found = read(ingredients, method);
        let places = |step: &Step| {
            let mut places: Vec<usize> = step
                .text
                .iter()
                .filter_map(|piece| if let Piece::Ingredient { index, .. } = piece { Some(index + 1) } else { None })
                .collect();
            places.sort();
            places.iter().map(|place| format!(" {place}")).collect::<String>()
        };
        let named = |(line, step): (String, &Step)| if places(step).is_empty() { line } else { format!("{line} :{}", places(step)) };
        let lines: Vec<String> = told(&found).into_iter().zip(&found.steps).map(named).collect();
        if lines != *reading || found.notes.len() != *notes {
            wrong.push(format!("{method:?}\n  found  {lines:?}, {:?}\n  wanted {reading:?}, {notes}", found.notes));
        }
    }
    assert!(asides::TABLE.len() >= 25);
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), asides::TABLE.len(), wrong.join("\n"));
}

#[test]
fn an_appliance_is_known_by_its_own_name_and_that_wins_over_the_words_of_kinds() {
    let mut appliances = kitchen();
    let own = |name: &str, kind| Appliance { name: name.to_owned(), kind: Some(kind), ..kitchen()[0].clone() };
    appliances.push(own("multicooker", ApplianceKind::Pressure));
    appliances.push(own("Aga", ApplianceKind::Oven));
    appliances.push(own("electric cooker", ApplianceKind::Hob));
    appliances.push(own("Betty", ApplianceKind::Slow));
    appliances.push(own("small oven", ApplianceKind::Oven));
    for (method, on) in [
        (&["Cook the carrots in the multicooker for 60 minutes."][..], &["multicooker"][..]),
        (&["Put the carrots in the Aga for 40 minutes."], &["Aga"]),
        (&["Heat the Aga to 200C. Roast the carrots for 40 minutes."], &["Aga"]),
        (&["Roast the carrots for 40 minutes."], &["oven"]),
        (&["Roast the carrots in the small oven for 40 minutes. Boil the potatoes for 20 minutes."], &["small oven", "hob"]),
        (&["Simmer the carrots on the electric cooker for 15 minutes."], &["electric cooker"]),
        (&["Cook the carrots in the Betty on low for 6 hours."], &["Betty"]),
        (&["Cook the carrots in the pressure cooker for 10 minutes."], &["pressure cooker"]),
        (
            &["Cook the carrots in the multicooker for 10 minutes. Take them out of the multicooker and rest for 5 minutes."],
            &["multicooker", ""],
        ),
        (&["Roast the carrots in the Aga for 20 minutes. Bake the potatoes in the small oven for 30 minutes."], &["Aga", "small oven"]),
        (&["Put the carrots in an oven dish and mix."], &[""]),
    ] {
        let found = read_in(&appliances, &["500 g carrots", "500 g potatoes"], method);
        let names: Vec<&str> = found.steps.iter().map(|step| step.on.first().map_or("", |on| appliances[on.0].name.as_str())).collect();
        assert_eq!(names, on, "{method:?}");
    }
}

#[test]
fn an_odd_way_of_writing_a_time_is_still_the_time_that_was_written() {
    for (text, reading) in [
        ("Simmer the leeks for 20+ minutes.", "hob w20"),
        ("Simmer the leeks 1:15.", "hob w75"),
        ("Simmer the leeks for 1:30 hours.", "hob w90"),
        ("Simmer the leeks for 40'.", "hob w40"),
        ("Simmer the leeks for 1h 20'.", "hob w80"),
        ("Bake the leeks for 40’ at 200C.", "oven w40 c200"),
    ] {
        assert_eq!(told(&read(&["500 g leeks"], &[text])), [reading], "{text}");
    }
}

#[test]
fn what_is_turned_now_and_then_waits_with_few_hands() {
    for (text, on, hands, wait) in [
        ("Fold the dough every 30 minutes for 2 hours.", "-", 4, 120),
        ("Fold the dough every half hour for 2 hours.", "-", 4, 120),
        ("Simmer the milk for 10 minutes. Stir every 5 minutes for 20 minutes.", "hob", 4, 20),
    ] {
        let found = read(&["500 g bread flour", "300 ml milk"], &[text]);
        let last = found.steps.last().unwrap();
        assert_eq!((last.hands.0, last.wait.0), (hands, wait), "{text}: {:?}", told(&found));
        assert!(last.estimated.hands && !last.estimated.wait, "{text}");
        assert!(told(&found).last().unwrap().starts_with(on), "{text}");
    }
}

#[test]
fn what_is_scattered_to_serve_takes_no_time() {
    for last in [
        "To serve, scatter with the feta.",
        "Scatter with the feta to serve.",
        "To serve: crumble over the feta.",
        "At the table, add the feta.",
    ] {
        let found = read(&["500 g leeks", "200 g feta"], &["Boil the leeks for 10 minutes.", last]);
        assert_eq!((told(&found), found.serve.len()), (vec!["hob w10".to_owned()], 1), "{last}");
    }
    let found = read(&["500 g leeks"], &["To serve, warm the leeks for 5 minutes."]);
    assert_eq!(told(&found), ["hob w5"]);
}

#[test]
fn trays_that_the_method_counts_are_taken() {
    let takes = |method: &[&str]| {
        let found = read(&["1 kg carrots", "150 g onions"], method);
        let last = found.steps.last().unwrap();
        (last.takes, last.estimated.takes)
    };
    assert_eq!(takes(&["Roast the carrots on 2 trays for 40 minutes at 200C."]), (2.0, false));
    assert_eq!(
        takes(&["Line two large baking sheets with paper. Spread the carrots on them and roast for 40 minutes at 200C."]),
        (2.0, false)
    );
    assert_eq!(takes(&["Divide the carrots between 3 trays.", "Roast for 40 minutes at 200C."]), (3.0, false));
    assert_eq!(takes(&["Roast the carrots on a tray for 40 minutes at 200C."]), (1.0, true));
}

#[test]
fn many_small_ones_take_longer_than_a_few_large() {
    let hands = |line: &str| read(&[line], &["Peel and dice the beetroot."]).steps[0].hands.0;
    for line in ["20 small beetroots (1 kg)", "20 beetroots (1 kg)", "1 kg beetroot (20 small)", "1 kg beetroot (about 20 small)"] {
        assert!((25..=32).contains(&hands(line)), "{line}: {}", hands(line));
    }
    assert!((18..=20).contains(&hands("1 kg beetroot")));
}

#[test]
fn hands_that_nobody_wrote_are_as_long_as_a_cook_needs() {
    let hands = |typed: &[&str], method: &str| read(typed, &[method]).steps[0].hands.0;
    assert_eq!(hands(&["1 kg beetroot"], "Peel the beetroot and cut it into wedges."), 12);
    assert!((18..=20).contains(&hands(&["1 kg beetroot"], "Peel and dice the beetroot.")));
    assert_eq!(hands(&["1/2 bunch parsley"], "Pick the parsley."), 4);
    assert_eq!(hands(&["500 g beetroot", "400 g carrots"], "Peel the beetroot and carrots and cut them into wedges."), 12);
}

#[test]
fn a_food_is_named_once_with_its_amount_and_shares_add_up() {
    let typed = ["4 tbsp olive oil", "200 g white beans", "1 onion", "salt, to taste"];
    let method = [
        "Fry the onion in half the oil for 5 minutes.",
        "Add the beans and the remaining oil and stir.",
        "Season with salt. Warm the beans.",
    ];
    let found = foods(&typed, &read(&typed, &method));
    assert_eq!(found[0], ["1 onion", "2 tbsp of 4 tbsp olive oil"]);
    assert_eq!(found[1], ["200 g white beans", "2 tbsp of 4 tbsp olive oil"]);
    assert_eq!(found[2..].concat(), ["salt, to taste"]);
}

#[test]
fn a_share_whose_rest_is_never_named_is_the_whole_and_told() {
    let typed = ["4 tbsp olive oil", "1 onion"];
    let found = read(&typed, &["Fry the onion in half the oil for 5 minutes."]);
    assert_eq!(foods(&typed, &found)[0], ["1 onion", "4 tbsp olive oil"]);
    assert!(found.doubts[0].1.contains("only a part of"), "{:?}", found.doubts);
}

#[test]
fn an_appliance_that_the_household_lacks_is_told_and_the_step_stands_without() {
    let found = read(&["500 g leeks"], &["Steam the leeks in the steamer for 10 minutes."]);
    assert!(found.steps[0].on.is_empty() && found.steps[0].wait.0 == 10);
    assert!(found.doubts[0].1.contains("no steamer"), "{:?}", found.doubts);
}

#[test]
fn what_is_done_at_the_table_takes_no_time() {
    let found = read(&["500 g leeks"], &["Boil the leeks for 10 minutes.", "Serve with bread. Enjoy!"]);
    assert_eq!(found.steps.len(), 1);
    assert_eq!(found.serve, ["Serve with bread.", "Enjoy."]);
}

#[test]
fn what_is_not_understood_stays_in_words() {
    let found = read(&["1 onion"], &["Qwertify the onion for 20 minutes.", "It should sing."]);
    assert_eq!(told(&found), ["- w20"]);
    assert!(found.steps[0].estimated.wait && !found.doubts.is_empty());
    let words: String =
        found.steps[0].text.iter().map(|piece| if let Piece::Words(words) = piece { words.as_str() } else { "1 onion" }).collect();
    assert_eq!(words, "Qwertify 1 onion for 20 minutes. It should sing.");
}

#[test]
fn raw_meat_reaches_its_temperature_in_the_last_step_that_heats() {
    let found =
        read(&["1 kg chicken thighs"], &["Brown the thighs for 5 minutes.", "Roast at 200 °C for 30 minutes.", "Rest for 5 minutes."]);
    assert_eq!(found.steps.iter().map(|step| step.inside.map(|inside| inside.0)).collect::<Vec<_>>(), [None, Some(74.0), None]);
    assert!(found.steps[1].estimated.inside);
}

proptest::proptest! {
    #![proptest_config(proptest::prelude::ProptestConfig::with_cases(64))]

    /// Any text is read to something, and nothing of a first paragraph's words is lost without trace.
    #[test]
    fn no_text_makes_the_reader_stumble(text in "\\PC{0,80}") {
        let _ = read(&["1 onion", "2 tbsp oil"], &[&text]);
    }

    #[test]
    fn words_of_the_kitchen_in_any_order_are_read(words in proptest::collection::vec(proptest::sample::select(vec![
        "heat", "the", "oven", "to", "200", "°", "C", "F", "for", "5", "minutes", "then", ",", "and", ";", ".", "onion", "half", "of", "oil", "rest", "until", "brown",
        "meanwhile", "a", "side", "overnight", "or", "-", "10", "gas", "mark", "(", ")", "everything", "hour", "½", "add", "simmer", "leave", "stand", "while",
    ]), 0..30)) {
        let text = words.join(" ");
        let _ = read(&["1 onion", "2 tbsp oil"], &[&text]);
    }
}

#[test]
fn what_has_boiled_is_drained_at_once_unless_the_words_say_that_it_stands() {
    let within = |method: &[&str]| {
        read(&["500 g potatoes", "200 g bacon"], method).steps.iter().map(|step| step.within.map(|m| m.0)).collect::<Vec<_>>()
    };
    assert_eq!(within(&["Boil the potatoes for 15 minutes.", "Drain and mash."]), [None, Some(2)]);
    assert_eq!(within(&["Simmer the potatoes for 15 minutes, then plunge into cold water."]), [None, Some(2)]);
    assert_eq!(within(&["Boil the potatoes for 15 minutes. Leave to stand for 5 minutes, then drain."]), [None, None, None]);
    // What also waits for another step may have to wait.
    let both = ["Boil the potatoes for 15 minutes.", "Meanwhile, fry the bacon for 5 minutes.", "Drain the potatoes and add the bacon."];
    assert_eq!(within(&both), [None, None, None]);
    assert_eq!(within(&["Roast the bacon for 15 minutes. Drain off the fat."]), [None, None]);
}

/// The text of a step, its foods as they were typed.
fn text(typed: &[&str], step: &Step) -> String {
    let piece = |piece: &Piece| match piece {
        Piece::Words(words) => words.clone(),
        Piece::Ingredient { index, share: None } => typed[*index].to_owned(),
        Piece::Ingredient { share: Some(share), .. } => share.to_string(),
    };
    step.text.iter().map(piece).collect()
}

fn tells(read: &MethodRead, words: &str) -> bool {
    read.doubts.iter().any(|(_, text)| text.contains(words))
}

#[test]
fn the_peppers_are_never_the_pepper() {
    let typed = ["2 red peppers", "1 onion", "salt", "black pepper"];
    let found = read(&typed, &["Slice the peppers and fry with the onion for 10 minutes. Season with salt and pepper."]);
    assert_eq!(foods(&typed, &found).concat(), ["2 red peppers", "1 onion", "salt", "black pepper"]);
    let two = ["1 red pepper", "1 green pepper", "black pepper"];
    assert!(!foods(&two, &read(&two, &["Roast the peppers for 30 minutes."])).concat().contains(&"black pepper".to_owned()));
    assert_eq!(
        foods(&["4 cloves", "200 g rice"], &read(&["4 cloves", "200 g rice"], &["Add the cloves to the rice and simmer."]))[0].len(),
        2
    );
}

#[test]
fn how_a_food_lies_or_is_cut_by_now_is_no_action() {
    let lies = read(&["500 g pumpkin"], &["Roast the pumpkin, cut side down, for 45 mins at gas mark 6 / 200C."]);
    assert_eq!(told(&lies), ["oven w45 c200"]);
    let cut = read(&["500 g carrots"], &["Roast the carrots, cut into batons, for 30 minutes at 200C."]);
    assert_eq!(told(&cut), ["oven w30 c200"]);
    assert_eq!(told(&read(&["500 g carrots"], &["Peel the carrots, cut into batons, and boil for 10 minutes."])), ["-", "hob w10"]);
}

#[test]
fn what_roasts_whole_is_no_layer_and_never_takes_more_than_a_tray_a_piece() {
    let takes = |typed: &[&str], method: &str| read(typed, &[method]).steps.last().map(|step| step.takes);
    assert_eq!(takes(&["1 chicken"], "Roast the chicken for 75 minutes at 200C."), Some(1.0));
    assert_eq!(takes(&["1 chicken", "1 kg potatoes"], "Put the potatoes around the chicken and roast for 75 minutes at 200C."), Some(1.0));
    assert_eq!(takes(&["2 kg pork shoulder"], "Roast the pork for 3 hours at 160C."), Some(1.0));
    // 2 kg in one layer: 2000 / 1200.
    assert_eq!(takes(&["2 kg carrots"], "Roast the carrots for 50 minutes at 190C."), Some(1.7));
    assert_eq!(takes(&["2.4 kg pork shoulder"], "Cut the pork into chunks. Roast for 1 hour at 160C."), Some(2.0));
}

#[test]
fn an_oven_step_that_names_no_food_takes_as_many_trays_as_what_it_carries() {
    let takes = |typed: &[&str], method: &[&str]| read(typed, method).steps.last().map(|step| step.takes);
    // "With 2.5 kg carrots: Roast …": 2500 / 1200 = 2.1; with the beetroot 3500 / 1200 = 2.9.
    let roast = ["Roast in one layer at 200C for 40 minutes."];
    assert_eq!(takes(&["2.5 kg carrots"], &roast), Some(2.1));
    assert_eq!(takes(&["2.5 kg carrots", "1 kg beetroot"], &roast), Some(2.9));
    // What no step names is in the first one, and goes on from there.
    assert_eq!(takes(&["2.5 kg carrots", "1 kg beetroot"], &["Peel the beetroot.", roast[0]]), Some(2.9));
    // What is only named at the table is not in the oven.
    assert_eq!(takes(&["2.5 kg carrots", "1 kg yoghurt"], &[roast[0], "Serve with the yoghurt."]), Some(2.1));
}

#[test]
fn the_inside_is_that_of_the_last_heated_step_that_the_meat_is_in() {
    let inside = |typed: &[&str], method: &[&str]| -> Vec<Option<i64>> {
        read(typed, method).steps.iter().map(|step| step.inside.map(|inside| inside.0 as i64)).collect()
    };
    let thighs = ["8 chicken thighs", "200 g rice", "30 g butter", "50 g almonds"];
    assert_eq!(inside(&thighs, &["Roast the chicken at 200C for 40 minutes. Boil the rice for 12 minutes."]), [Some(74), None]);
    assert_eq!(
        inside(&thighs, &["Fry the chicken for 10 minutes.", "Boil the rice for 12 minutes.", "Toast the almonds for 2 minutes."])[0],
        Some(74)
    );
    assert_eq!(inside(&thighs, &["Braise the chicken in the oven for 1 hour.", "Meanwhile, melt the butter."]), [Some(74), None]);
    let later =
        ["Brown the chicken for 8 minutes. Set aside.", "Simmer the rice for 5 minutes.", "Add the chicken and cook for 20 minutes."];
    assert_eq!(inside(&thighs, &later).last(), Some(&Some(74)));
    let patties = ["500 g minced beef", "2 tbsp oil", "100 g plain flour"];
    let fried = ["Mix in the flour with the beef. Shape into patties.", "Fry in the oil for 6 minutes."];
    assert_eq!(inside(&patties, &fried).last(), Some(&Some(71)));
    let eggs = ["150 g bacon", "3 eggs"];
    assert_eq!(inside(&eggs, &["Fry the bacon for 5 minutes.", "Off the heat, stir in the eggs."]), [Some(63), None]);
}

#[test]
fn shares_that_do_not_add_up_are_told() {
    let butter = ["100 g butter", "1 onion"];
    let short = read(&butter, &["Melt 80 g of the butter. Fry the onion in 50 g butter for 5 minutes."]);
    assert!(tells(&short, "where 20 g is left"), "{:?}", short.doubts);
    let knob = read(&butter, &["Melt a third of the butter. Add a knob of the butter."]);
    // A knob has a weight; what is left then goes to the last that names it.
    assert!(tells(&knob, "only a part"), "{:?}", knob.doubts);
    let eggs = read(&["4 eggs"], &["Whisk 3 of the eggs. Whisk 2 eggs."]);
    assert!(tells(&eggs, "is left of \"4 eggs\""), "{:?}", eggs.doubts);
    assert_eq!(read(&butter, &["Melt 80 g of the butter. Fry the onion in the remaining butter for 5 minutes."]).doubts, []);
}

#[test]
fn a_part_that_is_named_after_all_of_it_was_taken_is_told() {
    let oil = ["4 tbsp olive oil", "1 onion", "400 g carrots"];
    let after = read(&oil, &["Fry the onion in the oil for 5 minutes. Drizzle 1 tbsp of the oil over the carrots."]);
    assert!(tells(&after, "\"1 tbsp of the oil\" when all of \"4 tbsp olive oil\" is taken"), "{:?}", after.doubts);
    let flour = ["400 g plain flour, plus 2 tbsp", "250 g plain yoghurt"];
    let rolled = read(&flour, &["Mix the flour and yoghurt.", "Roll out on 2 tbsp of the flour."]);
    assert!(tells(&rolled, "when all of"), "{:?}", rolled.doubts);
    // Half of what is in the pot stays half of it, and what each gets is of what is there.
    let pot = ["400 g tinned white beans", "100 g plain yoghurt"];
    for last in ["Mash half the beans.", "Top each bowl with 1 tbsp of the yoghurt."] {
        assert_eq!(read(&pot, &["Simmer the beans for 10 minutes.", "Stir the yoghurt.", last]).doubts, [], "{last}");
    }
}

#[test]
fn what_a_line_has_for_later_does_not_go_in_with_the_first() {
    let typed = ["500 g plain flour, plus 2 tbsp for rolling", "300 ml water"];
    let read = read(&typed, &["Mix the flour and water and knead for 10 minutes.", "Roll each thin on the rest of the flour."]);
    assert_eq!(foods(&typed, &read)[0][0], "500 g of 500 g plain flour, plus 2 tbsp for rolling");
    assert_eq!(foods(&typed, &read)[1], ["2 tbsp of 500 g plain flour, plus 2 tbsp for rolling"]);
    assert_eq!(read.doubts, []);
    // Where nothing names it again, all of it.
    let once = self::read(&typed, &["Mix the flour and water and knead for 10 minutes.", "Roll each thin."]);
    assert_eq!(foods(&typed, &once)[0][0], typed[0]);
}

#[test]
fn a_line_of_two_amounts_is_parted_into_them() {
    let typed = ["400 g plain flour, plus 2 tbsp", "250 g plain yoghurt"];
    let parted = read(&typed, &["Mix 400 g of the plain flour with the yoghurt.", "Roll out on 2 tbsp of the plain flour."]);
    assert_eq!(foods(&typed, &parted)[0][0], "400 g of 400 g plain flour, plus 2 tbsp");
    assert_eq!(foods(&typed, &parted)[1], ["2 tbsp of 400 g plain flour, plus 2 tbsp"]);
    assert_eq!(parted.doubts, []);
    let rest = read(&typed, &["Mix 400 g of the flour with the yoghurt.", "Roll out on the rest of the flour."]);
    assert_eq!(foods(&typed, &rest)[1], ["2 tbsp of 400 g plain flour, plus 2 tbsp"]);
    // One part alone is all of it, and told; and so is what neither amount is.
    let one = read(&typed, &["Mix 400 g of the flour with the yoghurt."]);
    assert!(foods(&typed, &one)[0][0] == typed[0] && tells(&one, "only a part of"), "{:?}", one.doubts);
    assert!(tells(&read(&typed, &["Mix 100 g of the flour with the yoghurt."]), "is not known"));
    let more = read(&typed, &["Mix 400 g of the flour with the yoghurt. Roll out on 5 tbsp of the flour."]);
    assert!(tells(&more, "where 2 tbsp is left"), "{:?}", more.doubts);
}

#[test]
fn the_longest_name_is_meant() {
    let typed = ["1 tin butter beans", "25 g butter"];
    let found = read(&typed, &["Add the butter beans. Add the butter."]);
    assert_eq!(text(&typed, &found.steps[0]), "Add 1 tin butter beans. Add 25 g butter.");
    let sugar = ["200 g brown sugar", "100 g butter"];
    let told_of = read(&sugar, &["Brown sugar and butter go in the pan. Stir for 5 minutes."]);
    assert_eq!(text(&sugar, &told_of.steps[0]), "200 g brown sugar and 100 g butter go in the pan. Stir for 5 minutes.");
    assert_eq!(told(&told_of), ["hob h5"]);
    assert_eq!(told(&read(&["500 g minced beef"], &["Brown the mince for 8 minutes."])), ["hob h8"]);
}

#[test]
fn numbering_is_dropped_wherever_a_sentence_begins() {
    for text in ["a) Chop the onion.", "(3) Chop the onion.", "STEP TWO: Chop the onion.", "4 Chop the onion.", "2. Chop the onion."] {
        let found = read(&["1 onion"], &[text]);
        assert_eq!(super::tests::text(&["1 onion"], &found.steps[0]), "Chop 1 onion.", "{text}");
        assert_eq!(found.steps[0].skill.as_deref(), Some("knife"), "{text}");
    }
    let two = read(&["1 onion"], &["1. Chop the onion. 2. Fry it for 5 minutes."]);
    assert_eq!(
        two.steps.iter().map(|step| super::tests::text(&["1 onion"], step)).collect::<String>(),
        "Chop 1 onion. Fry it for 5 minutes."
    );
}

#[test]
fn a_time_of_one_round_is_taken_as_often_as_there_are_rounds_or_told() {
    let chops = read(&["8 pork chops"], &["Fry the chops 4 at a time, 5 minutes a side."]);
    assert_eq!(chops.steps[0].hands.0, 20);
    assert!(chops.steps[0].estimated.hands && tells(&chops, "2 rounds of 10 minutes"), "{:?}", chops.doubts);
    let eggs = read(&["4 eggs"], &["Poach the eggs one at a time for 3 minutes each."]);
    assert!(eggs.steps[0].wait.0 == 12 && eggs.steps[0].estimated.wait);
    let batches = read(&["300 g plain flour"], &["Bake for 5 minutes per batch at 200C."]);
    assert_eq!(told(&batches), ["oven w5 c200"]);
    assert!(tells(&batches, "time of one round"), "{:?}", batches.doubts);
    assert_eq!(told(&read(&["1 l milk"], &["Microwave for 2 x 10 minutes."])), ["microwave w20"]);
}

#[test]
fn cooling_without_a_time_is_a_step_of_words_off_the_heat() {
    let found = read(&["500 g beetroot"], &["Boil the beetroot for 40 minutes. Leave to cool, then peel."]);
    assert_eq!(told(&found), ["hob w40", "-"]);
    assert_eq!(told(&read(&["500 g beetroot"], &["Simmer for 20 minutes and cool slightly."])), ["hob w20", "-"]);
    assert_eq!(told(&read(&["500 g beetroot"], &["Simmer for 20 minutes. Leave to cool for 30 minutes."])), ["hob w20", "- w30"]);
}

#[test]
fn four_hours_or_overnight_is_told_which_is_planned_and_where() {
    for (time, step, when) in [
        ("4 hours or overnight", "- a240", "ahead of the session"),
        ("8 hours or overnight", "- a480", "ahead of the session"),
        ("2 hours or overnight", "- w120", "in the session"),
    ] {
        for verb in ["Marinate the chicken", "Chill the chicken", "Put the chicken in the fridge"] {
            let found = read(&["1 kg chicken thighs"], &[&format!("{verb} for {time}."), "Grill for 20 minutes."]);
            assert_eq!(told(&found)[0], step, "{verb} {time}");
            let doubts: Vec<&String> = found.doubts.iter().map(|(_, text)| text).collect();
            assert!(doubts.len() == 1 && doubts[0].contains(&format!("the first is planned, {when}")), "{verb} {time}: {doubts:?}");
        }
    }
}

#[test]
fn a_sentence_that_begins_with_a_food_goes_on_in_small_letters_and_a_prime_is_minutes() {
    let typed = ["4 salmon fillets"];
    let found = read(&typed, &["Bake for 15 minutes at 200C. The salmon should reach 145°F."]);
    let all: String = found.steps.iter().map(|step| text(&typed, step)).collect();
    assert!(all.contains("4 salmon fillets should reach 145°F"), "{all}");
    assert_eq!(told(&read(&["1 l milk"], &["Simmer for 40'."])), ["hob w40"]);
}
