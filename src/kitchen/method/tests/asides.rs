//! Twenty-five paragraphs around notes, thermometers and exceptions, with the reading that a cook gives them, written down before any of
//! them was run. The notation is that of the table of paragraphs, with ": places" for the ingredients whose amounts stand in a step, and how
//! many notes there are.

pub(in super::super) type Row = (&'static [&'static str], &'static [&'static str], &'static [&'static str], usize);

const CHICKEN: &[&str] = &["1 chicken", "2 onions", "2 tbsp olive oil", "1 tbsp honey"];
const SALAD: &[&str] = &["200 g feta", "1 cucumber", "4 tomatoes", "20 g parsley", "4 tbsp olive oil"];
const BEANS: &[&str] = &["2 tins white beans", "1 onion", "2 tbsp olive oil", "1 sprig rosemary"];
const FISH: &[&str] = &["4 salmon fillets", "1 lemon", "10 g dill"];

#[rustfmt::skip]
pub(in super::super) static TABLE: &[Row] = &[
    // Notes.
    (BEANS, &["Simmer the beans with the rosemary for 15 minutes.", "TIP: for a crust, bake at 220C for 10 minutes."], &["hob w15 : 1 4"], 1),
    (BEANS, &["Simmer the beans for 15 minutes.", "Cook's note — the beans can be soaked overnight and boiled for 90 minutes."], &["hob w15 : 1"], 1),
    (BEANS, &["Simmer the beans for 15 minutes.", "Storage", "Fridge: 3 days.", "Freezer: freeze flat for 3 months; thaw overnight."], &["hob w15 : 1"], 2),
    (BEANS, &["Note: this dish needs a lid.", "Fry the onion for 5 minutes."], &["hob h5 : 2"], 1),
    (BEANS, &["3. Simmer the beans for 15 minutes. Tips: stir in the oil and chill for 2 hours."], &["hob w15 : 1"], 1),
    (BEANS, &["Make ahead: cook the beans the day before and chill overnight. Reheat for 10 minutes.", "Warm the beans for 5 minutes."], &["hob w5 : 1"], 1),
    (BEANS, &["Tip the beans into a pan, add the oil and simmer for 10 minutes."], &["hob w10 : 1 3"], 0),
    (BEANS, &["For the sauce: simmer the onion for 10 minutes.", "To serve: scatter with the rosemary."], &["hob w10 : 2"], 0),
    (BEANS, &["Simmer the beans for 15 minutes. It keeps for 3 days in the fridge and freezes well."], &["hob w15 : 1"], 0),
    (BEANS, &["If you are using dried beans, soak them overnight, drain and boil for 1 hour.", "Simmer the beans for 15 minutes."], &["hob w15 : 1"], 0),
    (BEANS, &["Boil the beans for 1 hour if using dried. Fry the onion for 5 minutes."], &["hob h5 : 2"], 0),
    // Thermometers.
    (CHICKEN, &["Heat the oven to 190C. Bake the chicken for 45 minutes, until the temperature of the meat is 75C."], &["oven w45 c190 i75 : 1"], 0),
    (CHICKEN, &["Heat the oven to 200C.", "Roast the chicken for 80 minutes, or until the thigh reaches 75C. Rest for 10 minutes."], &["oven w80 c200 i75 : 1", "- w10"], 0),
    (CHICKEN, &["Roast the chicken at 400°F until a thermometer reads 165F, about 75 minutes."], &["oven w75 c204 i74 : 1"], 0),
    (CHICKEN, &["Heat the oven to 180C. Roast the chicken for 70 minutes until its juices run clear (75C)."], &["oven w70 c180 i75 : 1"], 0),
    (FISH, &["Heat the oven to 100C. Bake the salmon for 25 minutes, to 50C in the middle."], &["oven w25 c100 i50 : 1"], 0),
    (FISH, &["Heat the oven to 180C. Bake the salmon until it is 63 °C, 15 minutes."], &["oven w15 c180 i63 : 1"], 0),
    (CHICKEN, &["Heat the oven to 190C. Roast the chicken for 1 hour. The temperature of the thigh should be 75C."], &["oven w60 c190 i75 : 1"], 0),
    (CHICKEN, &["Turn the oven down to 90C and bake the onions for 3 hours."], &["oven w180 c90 : 2"], 0),
    // Exceptions.
    (SALAD, &["Chop everything except the feta.", "Crumble over the feta."], &["- : 2 3 4 5", "- : 1"], 0),
    (SALAD, &["Mix all the ingredients but the parsley and the feta.", "Add the parsley and feta."], &["- : 2 3 5", "- : 1 4"], 0),
    (SALAD, &["Put all but the parsley in a bowl. Scatter with the parsley."], &["- : 1 2 3 4 5"], 0),
    (SALAD, &["Toss the vegetables, apart from the tomatoes, with all but 1 tbsp of the oil. Add the tomatoes and the remaining oil."], &["- : 2 3 5 5"], 0),
    (SALAD, &["Chop everything (without the feta) and chill for 1 hour."], &["- w60 : 2 3 4 5"], 0),
    (BEANS, &["Fry everything but not the beans for 5 minutes. Add the beans and simmer for 20 minutes."], &["hob w20 : 1 2 3 4"], 0),
];
