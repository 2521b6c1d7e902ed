//! Lines with a weight beside a count, and lines of several foods, each answered before it was read.

use pretty_assertions::assert_eq;

use super::*;

/// "grams" by the reference, as purchased; of several foods each.
fn bought(text: &str, foods: &Foods) -> Vec<String> {
    let Ok(LineRead::Ingredients(lines)) = read_ingredients(text, foods, Spoons::Us) else { return vec!["not read".to_owned()] };
    let grams = |line: &Line| match &line.of {
        LineOf::Food { food, item: Some(item) } => {
            let known = foods.find(food).map(|id| foods[id].clone()).unwrap_or_default();
            match as_purchased(&known, item, &Dimension::Mass, Spoons::Us) {
                Ok(grams) => format!("{food} {:.0}", grams.base()),
                Err(missing) => format!("{food} {}", missing.key),
            }
        }
        LineOf::Food { food, item: None } => format!("{food} to taste"),
        LineOf::Recipe { id, .. } => id.clone(),
    };
    lines.iter().map(grams).collect()
}

fn all_buy(table: &[(&str, &[&str])]) {
    let foods = Foods::reference();
    let read = table.iter().map(|(text, want)| (*text, want.iter().map(|row| (*row).to_owned()).collect(), bought(text, &foods)));
    let wrong: Vec<_> = read.filter(|(_, want, got): &(_, Vec<String>, _)| want != got).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn a_weight_beside_a_count_is_of_what_its_words_say() {
    // Carrots leave 0.89 of what was bought, avocados 0.74, mangoes 0.69, potatoes 0.75, chicken thighs 0.7, onions 0.9, peaches 0.96.
    all_buy(&[
        ("3 carrots (about 300 g unpeeled)", &["carrot 300"]),
        ("3 carrots (about 300 g peeled weight)", &["carrot 337"]),
        ("3 carrots, about 300 g unpeeled weight", &["carrot 300"]),
        ("3 carrots, 300 g peeled", &["carrot 337"]),
        ("3 diced carrots (300 g unpeeled)", &["carrot 300"]),
        ("4 chicken thighs (800 g with bones)", &["chicken thigh 800"]),
        ("4 chicken thighs (800 g on the bone)", &["chicken thigh 800"]),
        ("2 onions (200 g net)", &["onion 222"]),
        ("2 onions (200 g gross weight)", &["onion 200"]),
        ("2 potatoes (about 300 g, unpeeled)", &["potato 300"]),
        ("2 mangoes (400 g flesh in total)", &["mango 563"]),
        ("4 salmon fillets, each weighing 150 g", &["salmon 600"]),
        ("4 salmon fillets weighing 150 g each", &["salmon 600"]),
        ("4 salmon fillets, weighing about 600 g in total", &["salmon 600"]),
        ("2 sea bass fillets, each weighing about 120 g", &["sea bass 240"]),
        ("1 kg potatoes (peeled weight)", &["potato 1333"]),
        ("1 kg floury potatoes, peeled weight", &["potato 1333"]),
        ("1 kg potatoes (unpeeled weight)", &["potato 1000"]),
        ("500 g onions (prepared weight)", &["onion 556"]),
        ("400 g chickpeas, drained weight", &["tinned chickpeas 667"]),
        ("a 1.5 kg chicken", &["chicken 1500"]),
        ("a 2 kg leg of lamb", &["leg of lamb 2000"]),
        ("one 1.2 kg cauliflower", &["cauliflower 1200"]),
        ("an 800 g pumpkin, peeled", &["pumpkin 800"]),
        ("a 400 g tin of chickpeas", &["tinned chickpeas 400"]),
        ("50g/2oz/½ stick butter", &["butter 50"]),
    ]);
}

#[test]
fn each_food_after_a_comma_or_an_and_is_bought() {
    all_buy(&[
        ("2 carrots, 2 sticks of celery and 1 onion, all finely chopped", &["carrot 137", "celery 90", "onion 122"]),
        ("1 onion, 1 carrot and a celery stick, diced", &["onion 122", "carrot 68", "celery 45"]),
        ("1 carrot, 1 onion and 1 leek, sliced", &["carrot 68", "onion 122", "leek 202"]),
        ("400 g tomatoes, 1 cucumber and 2 peppers", &["tomato 400", "cucumber 310", "red pepper 290"]),
        ("2 cloves, 1 bay leaf and 2 green cardamoms", &["clove 0", "bay leaf 0", "cardamom pod 0"]),
        ("2 tbsp oil, 1 onion and salt", &["vegetable oil 27", "onion 122", "salt to taste"]),
        ("2 eggs, 1 tbsp milk and a pinch of salt", &["egg 100", "milk 15", "salt 0"]),
        ("salt to taste, 1/2 tsp turmeric and a pinch of asafoetida", &["salt to taste", "turmeric 2", "asafoetida 0"]),
        ("salt, pepper and 1 tsp sugar", &["salt to taste", "black pepper to taste", "sugar 4"]),
        ("salt, pepper, a pinch of nutmeg", &["salt to taste", "black pepper to taste", "nutmeg 0"]),
        ("pepper, 1 tsp salt", &["black pepper to taste", "salt 6"]),
        ("Salt, 1 tsp", &["salt 6"]),
        ("3 tbsp olive oil and the juice of 1 lemon", &["olive oil 40", "lemon 109"]),
        ("200 g feta, juice of 1 lemon", &["feta 200", "lemon 109"]),
        ("1 red, 1 yellow and 1 green pepper", &["red pepper 145", "yellow pepper 145", "green pepper 145"]),
        ("1 onion and salt", &["onion 122", "salt to taste"]),
        ("500 g flour, 7 g yeast, 10 g salt", &["plain flour 500", "yeast 7", "salt 10"]),
        // One food, whatever is done to parts of it.
        ("4 tomatoes, 2 chopped and 2 sliced", &["tomato 540"]),
        ("2 lemons, 1 juiced and 1 cut into wedges", &["lemon 218"]),
        ("3 eggs, 1 separated", &["egg 150"]),
        ("1 onion, half sliced and half chopped", &["onion 122"]),
        ("2 lemons, juice of 1 and zest of both", &["lemon 218"]),
        ("100 g sugar, 50 g for the topping", &["sugar 100"]),
        ("2 carrots, 1 cm dice", &["carrot 137"]),
        ("2 potatoes, 200 g each, peeled", &["potato 400"]),
    ]);
}

#[test]
fn what_would_do_as_well_is_kept_beside_the_food() {
    let foods = Foods::reference();
    for (text, want) in [
        ("2 tbsp butter, ghee or oil", "butter 2 tbsp or ghee or oil"),
        ("1 tbsp chopped rosemary, thyme or sage", "rosemary 1 tbsp [chopped] or thyme or sage"),
        ("200 ml milk, oat or soya", "milk 200 ml or oat or soya"),
        ("1 tsp dried or 1 tbsp fresh thyme leaves", "dried thyme 1 tsp or 1 tbsp fresh thyme leaves"),
        ("1 onion, sliced or chopped", "onion 1"),
        ("2 carrots, boiled or steamed", "carrot 2"),
    ] {
        assert_eq!(rows(text, &foods), [want], "{text}");
    }
}

#[test]
fn a_fish_that_is_counted_is_a_whole_one_unless_the_line_speaks_of_a_part_of_it() {
    all_buy(&[
        ("1 whole sea bream, scaled and gutted", &["whole sea bream 450"]),
        ("1 trout", &["whole trout 350"]),
        ("2 whole mackerel", &["whole mackerel 700"]),
        ("1 whole salmon", &["whole salmon 3000"]),
        ("4 fillets sea bass", &["sea bass 516"]),
        ("2 trout fillets", &["trout 158"]),
        ("2 skinless mackerel fillets", &["mackerel 224"]),
        ("4 salmon fillets", &["salmon 520"]),
        ("4 sea bass (about 400 g each)", &["whole sea bass 1600"]),
        ("2 sea bass fillets, 120 g each", &["sea bass 240"]),
        ("200 g trout", &["trout 200"]),
        ("1 gammon joint", &["gammon joint 1200"]),
    ]);
}

#[test]
fn meat_that_is_weighed_without_its_bones_loses_none() {
    // A thigh weighs 193 g with its bones, of which 70 % is eaten; how it is bought is no trim.
    all_buy(&[
        ("1 kg boneless chicken thighs", &["chicken thigh 1000"]),
        ("8 boneless chicken thighs", &["chicken thigh 1544"]),
        ("8 chicken thighs, boned", &["chicken thigh 1544"]),
        ("8 chicken thighs", &["chicken thigh 1544"]),
        ("1 kg boned leg of lamb", &["leg of lamb 1000"]),
        ("500 g diced boneless chicken thighs", &["chicken thigh 500"]),
        ("500 g diced chicken thighs", &["chicken thigh 714"]),
        ("4 boneless, skinless chicken thighs (600 g)", &["chicken thigh 600"]),
    ]);
    let foods = Foods::reference();
    let eaten = |text: &str| match read_line(text, &foods, Spoons::Us).map(|line| line.of) {
        Ok(LineOf::Food { food, item: Some(item) }) => foods.find(&food).map(|id| foods[id].eaten_share(&item)),
        _ => None,
    };
    for text in [
        "1 kg boneless leg of lamb",
        "1 kg pork shoulder, boned and rolled",
        "600 g boneless pork chops",
        "1 kg lamb shoulder off the bone",
    ] {
        assert_eq!(eaten(text), Some(1.0), "{text}");
    }
    for text in
        ["1 kg leg of lamb", "1 kg bone-in pork shoulder", "4 pork chops", "4 boneless pork chops", "1 kg chicken thighs on the bone"]
    {
        assert!(eaten(text).is_some_and(|share| share < 0.9), "{text}");
    }
}

#[test]
fn glasses_slips_and_words_of_other_kitchens_are_read() {
    all_buy(&[
        ("1 large glass of white wine", &["white wine 250"]),
        ("1 small glass red wine", &["red wine 125"]),
        ("2 medium glasses red wine", &["red wine 350"]),
        ("1 glass white wine", &["white wine 125"]),
        ("2 tsp ground tumeric", &["turmeric 6"]),
        ("200 g brocolli", &["broccoli 200"]),
        ("1 lb 93/7 ground turkey", &["minced turkey 454"]),
        ("500 g 80/20 minced beef", &["minced beef 500"]),
        ("Tomatoes 2 nos", &["tomato 270"]),
        ("coriander leaves a handful chopped", &["coriander 10"]),
        ("12 no-soak dried apricots", &["dried apricot 42"]),
        ("1 desertspoon honey", &["honey 14"]),
        ("(optional) 2 tbsp chopped nuts", &["nuts 16"]),
        ("enough cold water to mix", &["water to taste"]),
        ("handful coriander stalks and leaves, chopped", &["coriander 10"]),
        ("1 tbsp olive oil + extra for drizzling", &["olive oil 14"]),
        ("1 cup (250ml) thickened cream", &["whipping cream 253"]),
        ("6 walnut halves", &["walnut 12"]),
        ("1 papaya", &["papaya 500"]),
        ("10 saffron strands", &["saffron 0"]),
        ("2 scoops ice cream", &["ice cream 132"]),
        ("1 block feta", &["feta 200"]),
        ("1 cup shredded kale", &["kale 110"]),
        ("1 cup grated apple", &["apple 122"]),
        ("1 cup chopped almonds", &["almond 125"]),
        ("1 cup sliced shallots", &["shallot 131"]),
        ("1 cup flaked salmon", &["salmon 140"]),
    ]);
    let foods = Foods::reference();
    let Ok(LineRead::Ingredients(lines)) = read_ingredients("2 tsp ground tumeric", &foods, Spoons::Us) else { panic!("a heading") };
    assert!(lines[0].doubts.iter().any(|doubt| doubt == "\"tumeric\" is read as turmeric"), "{lines:?}");
    let Ok(LineRead::Ingredients(lines)) = read_ingredients("(optional) 2 tbsp nuts", &foods, Spoons::Us) else { panic!("a heading") };
    assert!(lines[0].optional);
    let Ok(LineRead::Ingredients(lines)) = read_ingredients("2 carrots and 1 parsnip, grated, to serve", &foods, Spoons::Us) else {
        panic!("a heading")
    };
    assert!(lines.len() == 2 && lines.iter().all(|line| line.optional), "{lines:?}");
    let Ok(LineRead::Ingredients(lines)) = read_ingredients("juice of 2 limes, 1 tsp honey", &foods, Spoons::Us) else {
        panic!("a heading")
    };
    assert_eq!(lines.iter().map(|line| line.prep.as_deref()).collect::<Vec<_>>(), [Some("juice"), None]);
}
