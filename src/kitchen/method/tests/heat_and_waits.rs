//! Heat that turns by so much, pressure that is still there, what only the table names, and times that look like work or like waits. The
//! readings were written down before any was run.

use super::{foods, read, told};
use crate::kitchen::Appliance;
use pretty_assertions::assert_eq;

type Row = (&'static [&'static str], &'static [&'static str], &'static [&'static str]);

const THIGHS: &[&str] = &["500 g chicken thighs", "1 lemon"];
const BEANS: &[&str] = &["300 g dried chickpeas", "100 g spinach"];
const SLAW: &[&str] = &["1 red cabbage", "2 tsp salt"];
const DATES: &[&str] = &["200 g dates", "100 ml water"];
const ROOTS: &[&str] = &["600 g beetroot", "400 g carrots"];
const SOUP: &[&str] = &["1 kg potatoes", "200 g frozen peas", "1 l vegetable stock"];

/// Heat that is told from the heat before.
#[rustfmt::skip]
static HEAT: &[Row] = &[
    (THIGHS, &["Bake the thighs for 25 minutes at 200 °C, then lower the heat by 20 °C and bake for 10 more."], &["oven w25 c200", "oven w10 c180"]),
    (THIGHS, &["Roast the thighs at 200 °C for 20 minutes. Reduce the temperature by 20 degrees and roast for 40 minutes."], &["oven w20 c200", "oven w40 c180"]),
    (THIGHS, &["Roast the thighs at 200 °C for 20 minutes. Turn the oven down by 30°C and roast for 40 minutes."], &["oven w20 c200", "oven w40 c170"]),
    (THIGHS, &["Roast the thighs at 425°F for 20 minutes. Lower the oven by 50 degrees and roast for 30 minutes."], &["oven w20 c218", "oven w30 c191"]),
    (THIGHS, &["Roast the thighs at gas mark 6 for 20 minutes. Turn down two marks and roast for 30 minutes."], &["oven w20 c200", "oven w30 c180"]),
    (THIGHS, &["Roast the thighs at 180 °C for 20 minutes, increase the heat by 20 °C and roast for 10 minutes."], &["oven w20 c180", "oven w10 c200"]),
    (THIGHS, &["Roast the thighs at 200 °C for 20 minutes. Reduce to moderate and roast for 40 minutes."], &["oven w20 c200", "oven w40 c180"]),
    (THIGHS, &["Roast the thighs in a hot oven for 20 minutes. Turn the oven to low and roast for 40 minutes."], &["oven w20 c220", "oven w40 c150"]),
    (THIGHS, &["Fry the thighs for 8 minutes. Reduce the heat to low and simmer for 20 minutes."], &["hob h8 w20"]),
    (SOUP, &["Simmer the potatoes in the stock for 20 minutes. Reheat to 74 °C for at least 2 minutes."], &["hob w20", "hob w2 i74"]),
    (ROOTS, &["Roast the roots. Allow 45 minutes at 190 °C."], &["oven w40", "oven w45 c190"]),
];

/// What looks like heat, like another way, or like what must not be done.
#[rustfmt::skip]
static NO_HEAT: &[Row] = &[
    (THIGHS, &["Bake at 200 °C for 30 minutes. Turn out onto a rack to cool. Bake the second loaf for 30 minutes."], &["oven w30 c200", "oven w30 c200"]),
    (&["2 egg yolks", "200 ml oil"], &["Whisk the yolks. Add the oil drop by drop, whisking all the while, until thick; this takes about 10 minutes."], &["-"]),
    (THIGHS, &["Do not cook from frozen; roast the thighs at 200 °C for 30 minutes."], &["oven w30 c200"]),
    (THIGHS, &["On the hob: brown the thighs for 10 minutes. In the slow cooker: put them in with the lemon and cook on low for 6 hours."], &["hob h10", "slow cooker w360"]),
    (THIGHS, &["Roast the thighs at 200 °C for 20 minutes, basting every 5 minutes, then turn and roast for the same time."], &["oven w20 c200", "oven w20 c200"]),
];

/// A wait under pressure is the cooker's.
#[rustfmt::skip]
static PRESSURE: &[Row] = &[
    (BEANS, &["Pressure cook the chickpeas for 9 minutes. Leave to depressurise for 15 minutes. Drain and stir in the spinach."], &["pressure cooker w24", "-"]),
    (BEANS, &["Pressure cook the chickpeas for 9 minutes. Allow to depressurise naturally, about 15 minutes."], &["pressure cooker w24"]),
    (BEANS, &["Pressure cook the chickpeas for 9 minutes. Leave the pressure to fall for 10 minutes."], &["pressure cooker w19"]),
    (BEANS, &["Pressure cook the chickpeas for 9 minutes. Wait 10 minutes for the pin to drop."], &["pressure cooker w19"]),
    (BEANS, &["Pressure cook the chickpeas for 9 minutes. Let it come down from pressure slowly (10–15 minutes)."], &["pressure cooker w24"]),
    (BEANS, &["Pressure cook the chickpeas for 9 minutes. Leave for 10 minutes before opening."], &["pressure cooker w19"]),
    (BEANS, &["Pressure cook the chickpeas for 9 minutes. Take off the heat and stand for 10 minutes, then release the remaining pressure."], &["pressure cooker w19"]),
    (BEANS, &["Pressure cook the chickpeas for 9 minutes.", "Take off the heat and stand for 10 minutes. Open, drain and stir in the spinach."], &["pressure cooker w19", "-"]),
    (BEANS, &["Pressure cook the chickpeas for 9 minutes. NPR 10 minutes."], &["pressure cooker w19"]),
    (BEANS, &["Pressure cook the chickpeas for 9 minutes. Quick release, then leave to stand for 5 minutes."], &["pressure cooker w9", "- w5"]),
    (BEANS, &["Pressure cook the chickpeas for 9 minutes. Release the pressure, drain the chickpeas and leave to cool for 20 minutes."], &["pressure cooker w9", "- w20"]),
    (BEANS, &["Pressure cook the chickpeas for 9 minutes. Drain and leave to cool for 20 minutes."], &["pressure cooker w9", "- w20"]),
];

/// What stands by itself, what is worked at, and what goes on.
#[rustfmt::skip]
static TIMES: &[Row] = &[
    (SLAW, &["Shred the cabbage, sprinkle with the salt and leave for 30 minutes to soften."], &["- w30"]),
    (DATES, &["Pour the hot water over the dates and leave for 10 minutes to soften."], &["- w10"]),
    (&["100 g butter", "200 g plain flour"], &["Leave the butter at room temperature for 30 minutes to soften. Beat in the flour."], &["- w30", "-"]),
    (&["400 ml milk", "40 g cornflour"], &["Whisk the milk with the cornflour. Leave in the fridge for 2 hours to thicken."], &["- w120"]),
    (&["2 onions", "2 tbsp oil"], &["Fry the onions in the oil for 3 minutes, cover and leave to soften for 10 minutes."], &["hob w10"]),
    (&["4 sweet potatoes", "400 g tinned black beans"], &["Bake the sweet potatoes in the oven at 200°C for 50 minutes. While they are in the oven, warm the beans in a small pan for 5 minutes."], &["oven w50 c200", "hob w5 ="]),
    (&["4 sweet potatoes", "400 g tinned black beans"], &["Bake the sweet potatoes at 200°C for 50 minutes. While that is in the oven, simmer the beans for 10 minutes."], &["oven w50 c200", "hob w10 ="]),
    (&["800 g pork shoulder"], &["Use the sauté function to brown the pork for 10 minutes."], &["hob h10"]),
    (&["1 onion", "3 tbsp oil"], &["Use half of the oil to fry the onion for 10 minutes."], &["hob h10"]),
    (&["2 egg yolks", "1 tbsp lemon juice", "200 ml oil"], &["Whisk the yolks and lemon juice, then add the oil drop by drop, whisking all the while; this takes about 10 minutes."], &["-"]),
    (&["300 g risotto rice", "1 l vegetable stock", "1 onion"], &["Fry the onion and the rice for 3 minutes. Add the stock a ladle at a time, stirring, until the rice is tender; this should take about 18 minutes."], &["hob h21"]),
    (SOUP, &["Simmer the potatoes in the stock for 15 minutes; 5 minutes before the end, add the peas."], &["hob w15", "-"]),
    (&["1 loaf bread"], &["Turn out on a rack to cool, 20 minutes."], &["- w20"]),
    (&["500 g strong white flour", "7 g dried yeast"], &["Mix the flour and yeast and knead. Shape into rolls to prove for 40 minutes."], &["- w40"]),
    (SLAW, &["Shred the cabbage and spread out on a tray to cool for 15 minutes."], &["- w15"]),
    (BEANS, &["Simmer the chickpeas for 1hr20."], &["hob w80"]),
    (BEANS, &["Simmer the chickpeas for 20-ish minutes."], &["hob w20"]),
    (THIGHS, &["Bake the thighs at 180 °C for 1 hr. 15 min. Let stand 10 min. before slicing."], &["oven w75 c180", "- w10"]),
    (THIGHS, &["Bake the thighs at 200 °C for approx. 40 min."], &["oven w40 c200"]),
    (&["2 onions", "200 ml milk", "20 g plain flour"], &["Fry the onions for 5 minutes. Take off the heat and whisk in the milk; return to the heat and stir until it thickens."], &["hob"]),
    (THIGHS, &["Roast the thighs at 200 °C for 30 minutes. Remove from the oven, brush with lemon and return for 5 minutes."], &["oven w30 c200", "oven w5 c200"]),
    (&["4 egg whites", "200 g sugar"], &["Whisk the egg whites with the sugar. Bake the meringues at 120 °C for 1 hour, then turn off the oven and leave them inside for 2 hours."], &["oven w60 c120", "oven w120 c50"]),
    (&["500 g strong white flour", "7 g dried yeast"], &["Mix the flour and yeast. Prove in a warm oven (30 °C) for 1 hour. Bake at 220 °C for 30 minutes."], &["oven w60 c30", "oven w30 c220"]),
    (&["1 kg lamb shoulder", "1 onion", "400 g tinned tomatoes"], &["Preheat oven to 160°C/140°C fan-forced. Cook lamb, in batches, in a flameproof casserole until browned. Remove. Add onion; cook, stirring, for 5 minutes or until soft. Return lamb with tomato. Cover; bake for 2 hours 30 minutes or until tender."], &["hob w10", "hob", "oven w150 c160"]),
    (&["100 g walnuts"], &["Preheat oven to 180°C. Toast the nuts for 8 minutes on a tray. Chop."], &["oven w8 c180", "-"]),
    (&["400 g salmon fillet", "200 g white rice"], &["Simmer the rice for 12 minutes. Remove from the heat and leave, still covered, for 10 minutes. Meanwhile, heat the grill to high. Grill the salmon for 8 minutes."], &["hob w12", "- w10", "grill w8 ="]),
    (&["500 g strong white flour", "7 g dried yeast"], &["Mix the flour and yeast and prove for 1 hour. Meanwhile, heat the oven to 220 °C. Bake for 30 minutes."], &["- w60", "oven w30 c220"]),
    (&["400 g dried spaghetti", "400 g tinned tomatoes"], &["Simmer the tomatoes for 15 minutes. If the sauce is thin, simmer for 10 minutes more."], &["hob w15", "hob w10"]),
    (BEANS, &["Boil the chickpeas for 50 minutes. If not yet tender, cook for 10 minutes more."], &["hob w50", "hob w10"]),
];

fn wrong(table: &[Row]) -> Vec<String> {
    let mut wrong = Vec::new();
    for (ingredients, method, reading) in table {
        let found = read(ingredients, method);
        let reading: Vec<String> = reading.iter().map(|line| line.trim().to_owned()).collect();
        if told(&found) != reading {
            wrong.push(format!("{method:?}\n  found  {:?}\n  wanted {reading:?}\n  told {:?}", told(&found), found.doubts));
        }
    }
    wrong
}

/// Thirty paragraphs that were written for this reading, and their readings before any was run; afterwards only steps of short hands alone,
/// which the notation shows as "-", and hands in part were put right, in five of them.
#[rustfmt::skip]
static FRESH: &[Row] = &[
    (THIGHS, &["Heat the oven to 220 °C. Roast the thighs for 15 minutes, then turn the oven down by 40 °C and roast for 25 minutes more. Rest for 5 minutes."], &["oven w15 c220", "oven w25 c180", "- w5"]),
    (THIGHS, &["Put the thighs under a hot grill for 6 minutes a side, then finish in the oven at 190 °C for 12 minutes."], &["grill w12", "oven w12 c190"]),
    (THIGHS, &["Rub the thighs with the lemon and leave in the fridge for 2 hours. Bake at 200 °C for 35 minutes until the inside reaches 74 °C."], &["- w120", "oven w35 c200 i74"]),
    (BEANS, &["Soak the chickpeas overnight. Pressure cook for 12 minutes, take off the heat and wait 10 minutes for the pressure to drop. Open, drain and stir in the spinach."], &["- a480", "pressure cooker w22", "-"]),
    (BEANS, &["Pressure cook the chickpeas for 15 minutes. Meanwhile, wilt the spinach in a pan for 3 minutes. Release the pressure and leave to cool for 10 minutes."], &["pressure cooker w15", "hob h3 =", "- w10 +"]),
    (BEANS, &["Cover the chickpeas with cold water, bring to the boil and simmer for 1 hr. 20 min., topping up with water now and then."], &["hob w7", "hob w80"]),
    (ROOTS, &["Toss the roots in oil and spread over two trays. Roast at 200 °C for 25 minutes; swap the trays and roast for another 20."], &["oven w25 c200", "oven w20 c200"]),
    (ROOTS, &["Boil the beetroot for 45 minutes. Once cool enough to handle, slip off the skins. Grate the carrots."], &["hob w45", "-"]),
    (SOUP, &["Simmer the potatoes in the stock, lid on, for 20 minutes; add the peas for the last 3."], &["hob w20", "-"]),
    (SOUP, &["Bring the stock to the boil, add the potatoes and cook for 15 minutes. If it is too thick, add a little water. Add the peas and cook for 3 minutes more."], &["hob w7", "hob w15", "hob w3"]),
    (SLAW, &["Shred the cabbage finely. Toss with the salt and set aside for 20 minutes to wilt, then squeeze dry."], &["- w20", "-"]),
    (DATES, &["Simmer the dates in the water for 5 minutes, then leave to soak off the heat for 15 minutes."], &["hob w5", "- w15"]),
    (&["500 g strong white flour", "7 g dried yeast", "300 ml water"], &["Knead everything for 10 minutes. Leave in the oven with the light on to rise for 1 hour. Shape, then prove for 30 minutes while the oven heats to 230 °C. Bake for 25 minutes."], &["- h10", "oven w60 c30", "- w30", "oven w25 c230"]),
    (&["500 g strong white flour", "7 g dried yeast", "300 ml water"], &["Mix to a dough. Rest the dough in the fridge overnight. Next morning, shape and bake at 220 °C for 30 minutes."], &["- a480", "-", "oven w30 c220"]),
    (&["4 egg whites", "200 g sugar"], &["Whisk the whites and sugar for 8 minutes. Bake at 110 °C for 1½ hours. Turn the oven off and leave to cool inside for 1 hour."], &["- h8", "oven w90 c110", "oven w60 c50"]),
    (&["400 g salmon fillet", "200 g white rice"], &["Simmer the rice for 12 minutes, covered. Meanwhile, heat the oven to 200 °C. Bake the salmon for 12 minutes."], &["hob w12", "oven w12 c200 ="]),
    (&["8 eggs", "200 g spinach", "100 g feta"], &["Wilt the spinach for 2 minutes. Pour over the eggs, crumble over the feta and cook over a low heat for 10 minutes. Finish under the grill for 3 minutes."], &["hob w10", "grill w3"]),
    (&["6 eggs"], &["Boil for 9 minutes. Plunge into iced water for 5 minutes. Peel the eggs."], &["hob w9", "- w5", "-"]),
    (&["1 kg beef shin", "2 onions", "500 ml beef stock"], &["Brown the beef in batches, 4 minutes each. Add the onions and stock, cover and put in a low oven for 3 hours."], &["hob", "oven w180 c150"]),
    (&["1 kg beef shin", "2 onions", "500 ml beef stock"], &["Put everything in the slow cooker on low for 8 hours. Shred the beef and stir back in. Keep warm."], &["slow cooker w480", "-"]),
    (&["4 red peppers", "1 onion", "2 tbsp olive oil"], &["Roast the peppers at 220 °C for 30 minutes. Put in a bowl, cover and leave for 15 minutes; peel. Soften the onion in the oil for 8 minutes, add the peppers and blend for 2 minutes."], &["oven w30 c220", "- w15", "hob w8", "-"]),
    (&["200 g rolled oats", "400 ml milk", "1 apple"], &["Mix the oats and milk, cover and chill overnight. In the morning, grate in the apple."], &["- a480", "-"]),
    (&["4 cod fillets", "1 bunch dill", "30 g butter"], &["Butter a dish, lay in the fish, dot with the butter and dill and bake at 180 °C for 15–18 minutes."], &["oven w18 c180"]),
    (&["500 g plain flour", "300 g yoghurt"], &["Work the flour and yoghurt into a dough, rest for 20 minutes, then roll into 6. Cook each for 2 minutes a side in a dry pan."], &["- w20", "-", "hob w4"]),
    (&["300 g pearl barley", "1 l vegetable stock"], &["Rinse the barley, then simmer it in the stock for 30 to 35 minutes. Take off the heat and leave, lid on, for 10."], &["hob w35", "- w10"]),
    (&["1 red cabbage", "2 apples", "3 tbsp vinegar"], &["Shred the cabbage and slice the apples. Braise with the vinegar over a low heat, covered, for an hour and a quarter."], &["-", "hob w75"]),
    (&["1 chicken, 1.5 kg", "1 lemon"], &["Roast the chicken at 425°F for 20 minutes. Reduce the heat by 75 degrees and roast for 1 hour, basting twice. Leave to rest for 15 minutes."], &["oven w20 c218", "oven w60 c177", "- w15"]),
    (&["3 leeks", "500 g potatoes", "1 l chicken stock"], &["Sweat the leeks, lid on, for 10 minutes. Tip in the potatoes and stock and simmer for 1hr10. Blend."], &["hob w10", "hob w70", "-"]),
    (&["500 g raspberries", "100 g sugar"], &["Mix the raspberries with the sugar and leave at room temperature for 1 hour to soften."], &["- w60"]),
    (&["400 g dried spaghetti", "400 g tinned tomatoes"], &["Simmer the tomatoes for 15 minutes. While the sauce is on the hob, boil the spaghetti for 9 minutes. Drain and toss together."], &["hob w15", "hob w9 =", "- +"]),
];

#[test]
fn thirty_fresh_paragraphs_read_as_they_are_meant() {
    let wrong = wrong(FRESH);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn greasing_a_tin_takes_none_of_what_the_cake_is_made_of() {
    let cake = ["225 g butter", "200 g plain flour", "200 g sugar", "4 eggs"];
    let method = ["Grease a tin with butter and dust with flour. Cream the butter and sugar, beat in the eggs and fold in the flour."];
    let found = read(&cake, &method);
    let crate::kitchen::Piece::Words(first) = &found.steps[0].text[0] else { panic!("{:?}", found.steps[0].text) };
    assert!(first.starts_with("Grease a tin with butter and dust with flour."), "{first}");
    let alone = read(
        &["30 g butter", "4 cod fillets"],
        &["Rub a dish with a little butter, lay in the fish, dot with the butter and bake at 180 °C for 15 minutes."],
    );
    assert_eq!(foods(&["30 g butter", "4 cod fillets"], &alone).concat(), ["4 cod fillets", "30 g butter"]);
}

#[test]
fn heat_that_turns_by_so_much_is_told_from_the_heat_before() {
    let wrong = wrong(HEAT);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn what_only_looks_like_heat_or_like_another_way_changes_nothing() {
    let wrong = wrong(NO_HEAT);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_pressure_cooker_is_held_until_something_says_that_it_is_opened() {
    let wrong = wrong(PRESSURE);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn times_go_to_the_hands_the_heat_or_the_wait_that_they_are_of() {
    let wrong = wrong(TIMES);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn what_only_later_words_name_was_in_the_first_thing_on_the_heat() {
    let first = |typed: &[&str], method: &[&str]| foods(typed, &read(typed, method)).into_iter().next().unwrap_or_default();
    let chicken = ["500 g chicken thighs", "200 g white rice"];
    assert_eq!(
        first(&chicken, &["Roast for 40 minutes at 200 °C. Serve the chicken with the rice, boiled for 15 minutes."]),
        ["500 g chicken thighs"]
    );
    let pork = ["1 kg pork shoulder", "200 ml chicken stock"];
    let method = ["Place in a casserole, cover and bake at 150°C for 4 hours. Shred the meat."];
    assert_eq!(first(&pork, &method), ["1 kg pork shoulder", "200 ml chicken stock"]);
    let slow = ["Cook in the slow cooker on low for 8 hours. Shred the meat with two forks, stir back into the sauce."];
    assert_eq!(first(&pork, &slow), ["1 kg pork shoulder", "200 ml chicken stock"]);
    assert_eq!(read(&pork, &slow).steps[0].inside.map(|inside| inside.0), Some(63.0));
    let eggs = ["4 eggs", "4 slices bread"];
    assert_eq!(first(&eggs, &["Boil for 8 minutes. Serve the eggs on toast."]), ["4 eggs", "4 slices bread"]);
    let roots = ["600 g beetroot", "100 g yoghurt"];
    assert_eq!(first(&roots, &["Boil for 45 minutes. Serve the beetroot with the yoghurt."]), ["600 g beetroot"]);
    assert_eq!(first(&roots, &["Roast at 200 °C for 50 minutes. Slice the beetroot and serve with the yoghurt."]), ["600 g beetroot"]);
    // What is made fresh beside it stays where it is.
    let salad = ["500 g chicken thighs", "1 cucumber"];
    assert_eq!(first(&salad, &["Roast for 40 minutes at 200 °C. Slice the cucumber."]), Vec::<String>::new());
}

#[test]
fn what_nobody_cooks_is_never_kept_for_the_table_in_silence() {
    let says = |typed: &[&str], method: &[&str], words: &str| {
        let found = read(typed, method);
        assert!(found.doubts.iter().any(|(_, text)| text.contains(words)), "{method:?}: {:?}", found.doubts);
    };
    let fish = ["500 g cod fillets", "200 g white rice"];
    says(&fish, &["Bake the fish for 15 minutes at 200 °C. Serve with the rice."], "\"200 g white rice\" is named only where it is served");
    says(
        &fish,
        &["Bake the fish for 15 minutes at 200 °C. Serve with the rice, boiled for 20 minutes."],
        "gives a time that is not planned",
    );
    let bread = ["500 g cod fillets", "4 slices bread", "1 lemon", "200 g cooked white rice"];
    let quiet = read(&bread, &["Bake the fish for 15 minutes at 200 °C. Serve with the bread, the rice and lemon wedges."]);
    assert!(quiet.doubts.is_empty(), "{:?}", quiet.doubts);
}

#[test]
fn what_a_reading_leaves_out_is_told() {
    let says = |typed: &[&str], method: &[&str], words: &str| {
        let found = read(typed, method);
        assert!(found.doubts.iter().any(|(_, text)| text.contains(words)), "{method:?}: {:?}", found.doubts);
    };
    says(THIGHS, &["Roast the thighs at 200 °C for 20 minutes. Turn the oven down a little and roast for 20 minutes."], "how hot");
    says(&["500 g plain flour"], &["Roll into 8 rounds. Cook each in a dry hot pan for 1–2 minutes per side."], "one round");
    says(&["500 g plain flour"], &["Cook each flatbread for 2 minutes on each side."], "one round");
    says(&["300 g plain flour", "2 eggs"], &["Make 12 pancakes, cooking each for 1 minute a side."], "one round");
    says(
        &["500 g plain flour"],
        &["Cook the breads one by one, about 90 seconds on the first side and a minute on the second."],
        "one round",
    );
    says(SLAW, &["Shred the cabbage. Sprinkle with the salt for 30 minutes."], "what is done in it is not known");
    says(BEANS, &["Boil the chickpeas for 50 minutes; if not soft, simmer for another 10 minutes."], "done only where that is so");
    says(
        &["4 egg whites"],
        &["Bake for 1 hour at 120 °C. Switch off the oven and leave to cool in it with the door ajar for 1 hour."],
        "nothing bakes in it meanwhile",
    );
}

#[test]
fn what_heating_the_oven_says_beside_the_degrees_stays_in_the_words() {
    let text = |method: &[&str]| -> String {
        let found = read(&["500 g plain flour"], method);
        let pieces = found.steps.iter().flat_map(|step| step.text.clone());
        pieces.map(|piece| if let crate::kitchen::Piece::Words(words) = piece { words } else { String::new() }).collect()
    };
    assert!(text(&["Heat the oven to 240°C with a baking stone inside for 45 minutes. Bake for 12 minutes."]).contains("baking stone"));
    assert!(text(&["Heat the oven to 180°C for the chicken and 200°C for the potatoes. Bake for 12 minutes."]).contains("potatoes"));
    assert!(text(&["Heat oven to 450 degrees and put a heavy covered pot in the oven as it heats. Bake for 30 minutes."]).contains("pot"));
    assert_eq!(text(&["Preheat the oven to 200 °C (180 °C fan, gas 6). Bake for 12 minutes."]), "Bake for 12 minutes.");
}

#[test]
fn each_step_is_as_hot_as_its_own_oven_asks() {
    let mut appliances = super::kitchen();
    let second = Appliance { name: "top oven".to_owned(), fan: true, ..appliances[0].clone() };
    let degrees = |appliances: &[Appliance], text: &str| {
        let read = super::read_in(appliances, &["500 g carrots"], &[text]);
        read.steps.iter().filter_map(|step| step.temperature).map(|at| at.0).collect::<Vec<_>>()
    };
    appliances.push(second);
    // The first oven stands without a fan: as written. The other is 20 °C lower.
    assert_eq!(degrees(&appliances, "Roast the carrots in the oven at 200 °C for 30 minutes."), [200.0]);
    assert_eq!(degrees(&appliances, "Roast the carrots in the top oven at 200 °C for 30 minutes."), [180.0]);
    // Where the only oven has one, or the first of two.
    appliances[0].fan = true;
    assert_eq!(degrees(&appliances, "Roast the carrots at 200 °C for 30 minutes."), [180.0]);
    appliances[8].fan = false;
    assert_eq!(degrees(&appliances, "Roast the carrots at 200 °C for 30 minutes."), [180.0]);
}
