//! Where a temperature belongs, what is not planned, and what is left of a line, each from a method that was once read otherwise.

use super::{foods, read, told};
use pretty_assertions::assert_eq;

#[test]
fn an_inside_temperature_is_of_the_last_step_that_cooks_the_food_and_not_of_plates_bread_or_gravy() {
    let inside = |typed: &[&str], method: &[&str]| -> Vec<Option<i64>> {
        let found = read(typed, method);
        assert!(found.steps.iter().all(|step| step.inside.is_none() || step.estimated.inside), "{method:?}");
        found.steps.iter().map(|step| step.inside.map(|inside| inside.0 as i64)).collect()
    };
    let thighs = ["600 g chicken thighs", "400 g tomatoes", "1 onion"];
    let plates = "Brown the chicken for 8 minutes and set aside. Soften the onion for 8 minutes, add the tomatoes. Return the chicken and simmer for 20 minutes. Warm the plates.";
    assert_eq!(inside(&thighs, &[plates]), [None, Some(74), None]);
    let bread = ["Marinate the chicken overnight. Grill for 12 minutes. Warm the flatbreads in the oven at 150 °C for 5 minutes."];
    assert_eq!(inside(&thighs, &bread), [None, Some(74), None]);
    let gravy = ["Roast the chicken at 200 °C for 25 minutes. Make the gravy: simmer the stock for 5 minutes."];
    assert_eq!(inside(&thighs, &gravy), [Some(74), None]);
    // What was moved into the slow cooker cooks there.
    let beef = ["1 kg beef shin", "2 onions", "400 g tomatoes", "2 tbsp oil"];
    let slow = [
        "Heat the oil and brown the beef for 10 minutes; transfer to the slow cooker. Soften the onions for 10 minutes, then add to the slow cooker with the tomatoes.",
        "Cover and cook on LOW for 8 hours.",
    ];
    assert_eq!(inside(&beef, &slow).last(), Some(&Some(63)));
    assert_eq!(inside(&beef, &slow).iter().flatten().count(), 1);
    // A tip is no step.
    let fish = ["500 g cod", "1 kg potatoes"];
    let tip = read(&fish, &["Bake at 200 °C for 15 minutes.", "Good with boiled potatoes - allow 200 g per person, boil 20 minutes."]);
    assert_eq!((told(&tip), tip.notes.len(), tip.doubts.len()), (vec!["oven w15 c200".to_owned()], 1, 1));
    assert_eq!(tip.steps[0].inside.map(|inside| inside.0), Some(63.0));
}

#[test]
fn what_must_not_be_done_and_figures_of_the_whole_are_not_planned() {
    let lentils = ["500 g lentils"];
    for (method, meant, doubts) in [
        ("Simmer the lentils for 20 minutes. Do not boil for more than 5 minutes.", "hob w20", 1),
        ("There is no need to soak for 8 hours; just simmer the lentils for 25 minutes.", "hob w25", 1),
        ("Never fry the lentils for more than 1 minute. Simmer for 20 minutes.", "hob w20", 1),
        ("Prep 20 min, cook 40 min. Simmer the lentils for 40 minutes.", "hob w40", 0),
        ("Total time: 1 hour. Simmer the lentils for 40 minutes.", "hob w40", 0),
    ] {
        let found = read(&lentils, &[method]);
        assert_eq!((told(&found), found.doubts.len()), (vec![meant.to_owned()], doubts), "{method}: {:?}", found.doubts);
    }
    // Nobody lifts the lid, and so it stands: a wait, told.
    let lid = read(&lentils, &["Simmer the lentils for 25 minutes. Do not lift the lid for 10 minutes."]);
    assert_eq!((told(&lid), lid.doubts.len()), (vec!["hob w25".to_owned(), "hob w10".to_owned()], 1));
}

#[test]
fn a_time_that_hangs_on_another_is_reckoned_and_one_by_the_packet_is_told() {
    let carrots = ["500 g carrots", "300 g pasta"];
    assert_eq!(told(&read(&carrots, &["Simmer the carrots for one hour and then another half."])), ["hob w60", "hob w30"]);
    let same = "Roast the carrots at 180 °C for 20 minutes on one side, then turn and roast for the same time on the other.";
    assert_eq!(told(&read(&carrots, &[same])), ["oven w20 c180", "oven w20 c180"]);
    let pasta = read(&carrots, &["When the water boils, salt it and cook the pasta for a minute less than the packet says."]);
    assert!(pasta.steps[0].estimated.wait && pasta.doubts[0].1.contains("gives a time by the packet"), "{:?}", pasta.doubts);
    assert_eq!(told(&read(&["4 tbsp oil", "2 onions"], &["Use half of the oil for frying the onions, 5 minutes."])), ["hob h5"]);
}

#[test]
fn what_is_left_is_taken_without_its_name_and_the_parts_add_up() {
    let lines = ["6 eggs", "100 ml cream", "2 tins (400 g) chopped tomatoes", "4 tbsp oil", "2 onions"];
    for (method, meant) in [
        ("Beat 4 of the eggs with the cream. Chop the other 2.", &["4 of 6 eggs", "100 ml cream", "2 of 6 eggs"][..]),
        (
            "Mix one tin of tomatoes with the cream. Mix in the second tin.",
            &["1 tin of 2 tins (400 g) chopped tomatoes", "100 ml cream", "1 tin of 2 tins (400 g) chopped tomatoes"],
        ),
        (
            "Mix half of the oil with the cream. Mix the other half with the eggs.",
            &["2 tbsp of 4 tbsp oil", "100 ml cream", "2 tbsp of 4 tbsp oil", "6 eggs"],
        ),
        (
            "Mix a third of the oil with the cream. Mix the remaining two thirds with the eggs.",
            &["1⅓ tbsp of 4 tbsp oil", "100 ml cream", "2⅔ tbsp of 4 tbsp oil", "6 eggs"],
        ),
    ] {
        let found = read(&lines, &[method]);
        assert_eq!(foods(&lines, &found).concat(), meant, "{method}");
        assert!(found.doubts.is_empty(), "{method}: {:?}", found.doubts);
    }
    // The other side of a cake is no part of anything.
    let turned = read(
        &["4 tbsp oil", "2 onions"],
        &["Fry the onions in half the oil for 5 minutes, turn and fry the other side for 5 minutes. Add the rest of the oil."],
    );
    assert_eq!(turned.doubts, []);
}
