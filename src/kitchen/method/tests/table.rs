//! Ingredients, paragraphs and their reading.

type Row = (&'static [&'static str], &'static [&'static str], &'static [&'static str]);

const LEEKS: &[&str] = &["600 g leeks", "400 g potatoes", "1 l vegetable stock", "30 g butter", "100 ml oat milk"];
const BEANS: &[&str] = &["450 g dried white beans", "2 cloves garlic", "4 tbsp olive oil", "2 sprigs rosemary"];
const CHICKEN: &[&str] =
    &["1 kg boneless chicken thighs", "2 tins (400 g) chopped tomatoes", "120 g olives", "1 onion", "3 tbsp olive oil"];
const FISH: &[&str] = &["350 g cod", "1/2 bunch dill", "1 lemon", "20 g butter"];
const BREAD: &[&str] = &["400 g plain flour", "250 g plain yoghurt", "2 tsp baking powder", "1 tsp salt"];
const ROOTS: &[&str] = &["500 g beetroot", "400 g carrots", "2 tbsp olive oil", "1 tbsp honey"];
const EGGS: &[&str] = &["6 eggs", "60 g feta", "1 red pepper", "1 tbsp olive oil"];
const OATS: &[&str] = &["100 g rolled oats", "200 ml oat milk", "30 g raisins", "1 apple"];
const SLAW: &[&str] = &["500 g red cabbage", "1 apple", "2 tbsp vinegar"];
const BARLEY: &[&str] = &["255 g pearl barley", "700 ml vegetable stock"];

#[rustfmt::skip]
pub(super) static TABLE: &[Row] = &[
    (LEEKS, &["Slice the leeks, then wash them well."], &["-"]),
    (LEEKS, &["Peel and dice the potatoes."], &["-"]),
    (LEEKS, &["Sweat the leeks in the butter for 8 minutes with the lid on."], &["hob w8"]),
    (LEEKS, &["Add the potatoes and stock, bring to the boil, then simmer for 20 minutes until soft."], &["hob w7", "hob w20"]),
    (LEEKS, &["Blend with the oat milk and season."], &["-"]),
    (LEEKS, &["Simmer the leeks in the stock for 20 to 25 minutes."], &["hob w25"]),
    (LEEKS, &["Cook the potatoes in the microwave for 6 minutes."], &["microwave w6"]),
    (LEEKS, &["Boil the potatoes for a quarter of an hour."], &["hob w15"]),
    (LEEKS, &["Melt the butter over a low heat, add the leeks and cook, stirring often, for 6 minutes."], &["hob"]),
    (LEEKS, &["Cook the leeks for 10 minutes, stirring from time to time."], &["hob w10"]),
    (LEEKS, &["Boil the potatoes for 12 minutes. Drain, return to the pan and mash."], &["hob w12", "-"]),
    (LEEKS, &["Put the potatoes, leeks and stock into the pressure cooker. Cook at high pressure for 7 minutes, then quick release."], &["pressure cooker w7"]),
    (BEANS, &["Soak the beans overnight in cold water.", "Drain and boil in fresh water for an hour and a half."], &["- a480", "hob w90"]),
    (BEANS, &["Soak the beans for 8 hours.", "Simmer for 1½ hours."], &["- a480", "hob w90"]),
    (BEANS, &["Cook the beans under pressure for 30 minutes; allow a natural release of 15 minutes."], &["pressure cooker w45"]),
    (BEANS, &["Warm the oil with the garlic and rosemary until it smells sweet."], &["hob"]),
    (BEANS, &["Crush the garlic. Mash everything together."], &["-"]),
    (BEANS, &["Simmer the beans for 1 hour 15 minutes. Leave to cool in their water for 30 minutes."], &["hob w75", "- w30"]),
    (BEANS, &["Boil hard for 10 minutes, skim, then simmer for 50 more minutes."], &["hob w10", "hob w50"]),
    (BEANS, &["Fry the garlic in 1 tbsp of the oil for 30 seconds."], &["hob h1"]),
    (BEANS, &["Cook the beans in the slow cooker on low for 8 hours or on high for 4 hours."], &["slow cooker w480"]),
    (CHICKEN, &["Heat the oven to 180 °C. Brown the chicken in the oil for 8 minutes.", "Add the tomatoes and olives, cover and braise in the oven for 45 minutes."], &["hob h8", "oven w45 c180"]),
    (CHICKEN, &["Fry the thighs in batches, 4 minutes a side."], &["hob h8"]),
    (CHICKEN, &["Roast at 200 °C for 35 minutes, until the inside reaches 74 °C."], &["oven w35 c200 i74"]),
    (CHICKEN, &["Bake at 400°F until it registers 165°F on a thermometer, about 30 minutes."], &["oven w30 c204 i74"]),
    (CHICKEN, &["Soften the onion in the oil for 5 minutes."], &["hob h5"]),
    (CHICKEN, &["Caramelise the onion for 20 minutes."], &["hob h20"]),
    (CHICKEN, &["Preheat the oven to gas mark 6.", "Lay the thighs on a baking tray and roast for 40 minutes. Rest for 10 minutes."], &["oven w40 c200", "- w10"]),
    (CHICKEN, &["Brown the chicken for 6 minutes.", "Meanwhile, chop the onion.", "Add the onion to the pan and cook for 5 minutes."], &["hob h6", "- =", "hob w5 +"]),
    (CHICKEN, &["Cover and chill the chicken for 2 hours."], &["- w120"]),
    (CHICKEN, &["Put the chicken in a roasting tin and roast in a hot oven for 35-40 minutes, basting every 10 minutes."], &["oven w40 c220"]),
    (CHICKEN, &["Grill for 6 minutes each side."], &["grill w12"]),
    (CHICKEN, &["Brown under the grill for 3 minutes."], &["grill w3"]),
    (CHICKEN, &["Heat oven to 220C/200C fan/gas 7. Roast for 20 mins, then reduce the oven to 180C and roast for 1 hr."], &["oven w20 c220", "oven w60 c180"]),
    (FISH, &["Preheat the oven to 375°F and butter a dish.", "Lay the fish in it and bake for 18-20 minutes."], &["-", "oven w20 c191"]),
    (FISH, &["Poach the cod gently for 8 minutes, then lift out."], &["hob w8", "-"]),
    (FISH, &["Bake in a moderate oven for half an hour."], &["oven w30 c180"]),
    (FISH, &["Steam the fish over simmering water for 10 mins."], &["hob w10"]),
    (FISH, &["Wrap the cod in paper with the lemon and dill. Bake 15 minutes at 200 °C. Leave to stand for 5 minutes before opening."], &["oven w15 c200", "- w5"]),
    (FISH, &["Fry for 3 minutes on one side."], &["hob h3"]),
    (BREAD, &["Mix the flour, yoghurt, baking powder and salt to a soft dough; cover and let it rest for 20 minutes."], &["- w20"]),
    (BREAD, &["Knead for ten minutes. Leave to rise for 1 hour or until doubled."], &["- h10 w60"]),
    (BREAD, &["Bake in a dry hot pan for two minutes a side."], &["hob h4"]),
    (BREAD, &["Bake for 25 to 30 minutes at 220 °C. Cool on a wire rack for 15 minutes."], &["oven w30 c220", "- w15"]),
    (BREAD, &["Put the dough in the fridge for 1 hour."], &["- w60"]),
    (BREAD, &["Let the dough prove overnight in the fridge.", "Bake at 230 °C for 20 minutes."], &["- a480", "oven w20 c230"]),
    (ROOTS, &["Peel the beetroot and carrots.", "Toss with the oil and roast for 45–50 minutes at 190 °C."], &["-", "oven w50 c190"]),
    (ROOTS, &["Roast for 30 minutes at 200 °C. Stir in the honey, return to the oven and cook for 15 minutes more."], &["oven w30 c200", "oven w15 c200"]),
    (ROOTS, &["While the oven heats, peel the carrots."], &["-"]),
    (ROOTS, &["Boil the beetroot for 40 minutes. When cool enough to handle, rub off the skins."], &["hob w40", "-"]),
    (EGGS, &["Beat the eggs with the feta."], &["-"]),
    (EGGS, &["Boil the eggs for 9 minutes, then plunge into cold water and leave for 5 minutes."], &["hob w9", "- w5"]),
    (EGGS, &["Soften the pepper in the oil. Pour in the eggs and cook on a low heat with the lid on for 12 minutes."], &["hob w12"]),
    (EGGS, &["Bring a pan of water to the boil. Add the eggs and simmer for 7 minutes."], &["hob w7", "hob w7"]),
    (EGGS, &["Take the eggs out of the fridge 30 minutes before cooking. Boil for 8 minutes."], &["hob w8"]),
    (OATS, &["Stir the oats, oat milk and raisins together and refrigerate overnight.", "Grate in the apple."], &["- a480", "-"]),
    (OATS, &["Microwave on high for 2 minutes, stir, then microwave for another minute."], &["microwave w2", "microwave w1"]),
    (SLAW, &["Shred the cabbage finely; grate the apple.", "Toss with the vinegar and leave to stand for half an hour."], &["-", "- w30"]),
    (SLAW, &["Chill for at least 1 hour and up to 4 hours. Keeps 3 days."], &["- w60"]),
    (BARLEY, &["Rinse the barley. Cook in the rice cooker with the stock for 40 minutes."], &["rice cooker w40"]),
    (BARLEY, &["Simmer the barley in the stock for 35–40 minutes, stirring now and then. Take off the heat and stand, covered, for 10 minutes."], &["hob w40", "- w10"]),
    (BARLEY, &["Toast the barley in a dry pan for 4 minutes, add the stock and simmer, covered, for 40 minutes."], &["hob w40"]),
];
