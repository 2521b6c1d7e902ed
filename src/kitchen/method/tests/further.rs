//! When, how often and where, in the words of kitchens that say little or say it oddly: each from a method that was once read otherwise.

use super::{read, told};
use crate::kitchen::method::MethodRead;
use crate::kitchen::{Appliance, Piece};
use pretty_assertions::assert_eq;

/// The ingredients that each step names, by their place in the list.
fn foods(read: &MethodRead) -> Vec<Vec<usize>> {
    let of = |piece: &Piece| if let Piece::Ingredient { index, .. } = piece { Some(*index) } else { None };
    read.steps.iter().map(|step| step.text.iter().filter_map(of).collect()).collect()
}

#[test]
fn days_before_are_ahead_and_a_maximum_is_no_wait() {
    let beef = ["1 kg beef shin", "500 ml red wine"];
    let found = read(&beef, &["Two days before, put the beef in the wine. Simmer for 2 hours."]);
    assert_eq!(found.steps.iter().map(|step| step.ahead.map(|ahead| ahead.0)).collect::<Vec<_>>(), [Some(2880), None]);
    assert_eq!(told(&found).last().map(String::as_str), Some("hob w120"));
    let found = read(&beef, &["Marinate the beef in the wine for a minimum of 4 hours and a maximum of 2 days. Fry for 10 minutes."]);
    assert_eq!(told(&found), ["- a240", "hob h10"]);
    // Where a night lies before it, the next day is the session's.
    let fruit = ["500 g strawberries", "300 g sugar"];
    assert_eq!(read(&fruit, &["Mix the fruit and sugar; leave overnight. Next day boil for 10 minutes."]).doubts, []);
}

#[test]
fn times_that_lean_on_others_are_reckoned_from_them() {
    let potatoes = ["600 g potatoes"];
    for (method, meant) in [
        // Half of 20 more.
        ("Boil for 20 minutes, then half as long again on a low heat.", vec!["hob w20", "hob w10"]),
        ("Bake at 180 °C; start checking at 25 minutes, it may need 35.", vec!["oven w35 c180"]),
        // Never less than what the text itself waits for.
        ("Simmer until tender (start checking after 20 minutes).", vec!["hob w20"]),
        ("Bring to the boil; 4 minutes for soft, 7 for medium, 9 for hard.", vec!["hob w9"]),
        ("Bake at 200 °C for 10 minutes, take off the foil, 5 minutes more.", vec!["oven w10 c200", "oven w5 c200"]),
    ] {
        assert_eq!(told(&read(&potatoes, &[method])), meant, "{method}");
    }
    let lost = read(&potatoes, &["After 20 minutes' simmering, add the peas and cook 5 minutes more."]);
    assert_eq!(lost.doubts.len(), 1, "{:?}", lost.doubts);
}

#[test]
fn rounds_that_are_counted_are_all_planned() {
    // Two batches of 5 minutes a side; 6 breads of 4 minutes; how many there are is not said.
    for (typed, method, meant, doubts) in [
        ("8 chicken thighs", "Brown the thighs in two batches, 5 minutes on each side.", "hob w0 h20", "2 rounds of 10 minutes"),
        (
            "300 g plain flour",
            "Divide into 6. Cook in a dry pan, one at a time, for 2 minutes a side.",
            "hob h0 w24",
            "6 rounds of 4 minutes",
        ),
        ("300 g plain flour", "Cook in a dry pan, one at a time, for 2 minutes a side.", "hob h0 w4", "one is planned"),
    ] {
        let found = read(&[typed], &[method]);
        let last = found.steps.last().map(|step| step.hands.0.max(step.wait.0));
        let minutes = meant.rsplit(['h', 'w']).next().and_then(|minutes| minutes.parse().ok());
        assert_eq!(last, minutes, "{method}");
        assert!(found.doubts.iter().any(|(_, text)| text.contains(doubts)), "{method}: {:?}", found.doubts);
    }
}

#[test]
fn what_goes_on_by_itself_goes_on_where_it_is() {
    let lentils = ["300 g red lentils", "600 ml water"];
    for (method, meant) in [
        ("Bring the lentils and water to a simmer and leave it ticking over for 15 minutes.", vec!["hob w6", "hob w15"]),
        ("In the microwave: poach the lentils for 4 minutes.", vec!["microwave w4"]),
        ("Lentils and water in the slow cooker. Low 6 hours.", vec!["slow cooker w360"]),
        ("Rice cooker: rinse, add water, press start (about 20 minutes).", vec!["rice cooker w20"]),
        ("Simmer for 3 hours on the lowest heat, or in the oven at 150 °C.", vec!["hob w180"]),
        ("Make a sauce with the lentils and water, boiling it for 3 minutes.", vec!["hob w3"]),
        ("Bring the water to 85 °C and hold it there for 10 minutes.", vec!["hob w10"]),
        ("Stir in the lentils and keep warm for 6 hours.", vec!["- w360"]),
        ("Heat the oven to 200 °C. Bake for 1 hour. Stir. Back in the oven 15 minutes.", vec!["oven w60 c200", "oven w15 c200"]),
    ] {
        let found = read(&lentils, &[method]);
        let told: Vec<String> = told(&found);
        assert_eq!(told.len(), meant.len(), "{method}: {told:?}");
        for (told, meant) in told.iter().zip(&meant) {
            assert!(told == meant || meant == &"hob w6" && told.starts_with("hob w"), "{method}: {told:?}");
        }
    }
    // What rests after other work is not in the cooker.
    let both = ["300 g dried chickpeas", "300 g rice"];
    let other = read(&both, &["Pressure cook the chickpeas for 20 minutes. Turn off. Fry the rice for 5 minutes. Rest for 10 minutes."]);
    assert_eq!(told(&other), ["pressure cooker w20", "hob h5", "- w10"]);
    let own = read(&both, &["Pressure cook the chickpeas for 20 minutes. Leave the chickpeas for 10 minutes."]);
    assert_eq!(told(&own), ["pressure cooker w30"]);
}

#[test]
fn foods_go_by_what_people_call_them_and_a_tin_takes_none_of_the_cake() {
    let mixed = read(&["2 eggs", "300 ml milk", "20 g butter, for frying"], &["Whisk the wet ingredients. Fry in butter for 5 minutes."]);
    assert_eq!(foods(&mixed), [vec![0, 1, 2]]);
    let berries = read(&["500 g raspberries", "50 g sugar"], &["Crush half the berries with the sugar. Top with the rest of the berries."]);
    assert_eq!(foods(&berries), [vec![0, 1, 0]]);
    let cake = read(
        &["200 g plain flour", "100 g butter"],
        &["Grease a tin and dust with flour.", "Mix everything. Bake at 180 °C for 30 minutes."],
    );
    assert_eq!(foods(&cake).last(), Some(&vec![0, 1]));
    let zest = read(&["500 g chicken thighs", "1 lemon", "2 tbsp oil"], &["Marinate the chicken in the zest, juice and oil for 1 hour."]);
    assert_eq!(told(&zest), ["- w60"]);
    // Three tins: a third, a third, and what is left.
    let tins = read(&["3 tins chopped tomatoes"], &["Add one tin of tomatoes.", "Add the second tin.", "Add the third tin."]);
    assert_eq!(foods(&tins), [vec![0], vec![0], vec![0]]);
}

#[test]
fn what_only_the_list_soaks_is_a_step_ahead_or_told() {
    let method = ["Drain the beans, cover with water and simmer for 1 hour."];
    let found = read(&["250 g dried white beans, soaked overnight"], &method);
    assert_eq!(found.steps.iter().map(|step| step.ahead.map(|ahead| ahead.0)).collect::<Vec<_>>(), [Some(480), None]);
    let vague = read(&["250 g dried white beans, soaked"], &method);
    assert_eq!((vague.steps.len(), vague.doubts.len()), (1, 1), "{:?}", vague.doubts);
    // The method says it itself.
    assert_eq!(read(&["250 g dried white beans, soaked overnight"], &["Soak the beans overnight.", method[0]]).steps.len(), 2);
}

#[test]
fn a_note_ends_with_its_sentence_where_nothing_else_is_the_method() {
    for method in
        ["To freeze: cool and freeze. Boil the potatoes for 20 minutes.", "Variation: use leeks. Boil the potatoes for 20 minutes."]
    {
        let found = read(&["800 g potatoes"], &[method]);
        assert_eq!((told(&found), found.notes.len()), (vec!["hob w20".to_owned()], 1), "{method}");
    }
    // In the midst of a paragraph it takes the rest, and that is told.
    let found =
        read(&["800 g potatoes"], &["Boil the potatoes for 20 minutes. To freeze: cool and freeze. Fry the potatoes for 5 minutes."]);
    assert_eq!((found.notes.len(), found.doubts.len()), (1, 1), "{:?}", found.doubts);
}

#[test]
fn what_a_doubt_tells_to_write_ends_it() {
    let potatoes = ["600 g potatoes"];
    for (doubtful, mended) in [
        ("Boil the potatoes for 20 minutes. Rest 5.", "Boil the potatoes for 20 minutes. Rest 5 minutes."),
        ("Roast the potatoes at 200 °C for 20 minutes per 500 g.", "Roast the potatoes at 200 °C for 25 minutes."),
        ("Fry the potatoes in batches for 5 minutes.", "Fry the potatoes for 15 minutes."),
        (
            "Heat the oven to 180 °C for the fish and 200 °C for the potatoes. Roast for 40 minutes.",
            "Roast the potatoes at 200 °C for 40 minutes.",
        ),
        ("Chill the potatoes for 9 hours or overnight. Fry for 5 minutes.", "Chill the potatoes for 9 hours. Fry for 5 minutes."),
    ] {
        assert!(!read(&potatoes, &[doubtful]).doubts.is_empty(), "{doubtful}");
        assert_eq!(read(&potatoes, &[mended]).doubts, [], "{mended}");
    }
    // "Add [[appliance]] with name = "water bath"".
    let method = ["Cook the potatoes in a water bath at 85 °C for 45 minutes."];
    assert!(read(&potatoes, &method).doubts.iter().any(|(_, text)| text.contains("with name = \"water bath\"")));
    let mut appliances = super::kitchen();
    appliances.push(Appliance { name: "water bath".to_owned(), heat: false, kind: None, ..appliances[0].clone() });
    let found = super::read_in(&appliances, &potatoes, &method);
    assert_eq!((found.steps[0].on.first().map(|on| on.0), found.steps[0].wait.0), (Some(appliances.len() - 1), 45));
    assert!(!found.doubts.iter().any(|(_, text)| text.contains("water bath in kitchen.toml")), "{:?}", found.doubts);
}
