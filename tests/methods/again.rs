//! Sixty paragraphs more, of twenty dishes: cards, old books, notes among friends, of Britain, Australia, India and the United States. Each
//! reading was written down before the paragraph was run. 51 of the 60 were read rightly at once, 3 were silently wrong in a time or a degree. What
//! was read wrongly and has been mended:
//!
//! - "A 10-inch oven-safe skillet" was in the oven, and so was what cooked in it after: silently.
//! - "Set the pressure cooker to sauté. Melt the butter" was on the hob.
//! - "Turn the heat to its lowest. Leave for 10 minutes" was on nothing: the heat was forgotten at the full stop.
//! - "Set a timer for 7 minutes 30 seconds" was 7 minutes on nothing: told.
//! - "Flour, baking powder, salt in bowl" floured something, and "roll thin" after a number was a bread roll.
//!
//! Two paragraphs are not here. "Make the butter hot in a stout casserole … let them take colour … some ten minutes" has its time, and not its
//! place on the hob. "Pot while hot, or cool and freeze" has no half hour to cool: silently, if it is cooled.

use super::paragraphs::Dish;

#[rustfmt::skip]
pub static RECIPES: &[Dish] = &[
    ("Red-pepper sauce, from a friend", &["3 red bell peppers", "2 cloves garlic", "1/4 cup olive oil", "1 tsp smoked paprika"], &[
        ("Crank the broiler to high. Halve and seed the peppers, lay them cut side down on a sheet pan and broil until the skins blacken, 8 to 10 minutes.", &["- e : 1", "grill w10"]),
        ("Toss them in a bowl, cover, and let them steam off for 15 minutes; the skins will slip right off.", &["- e w15"]),
        ("Peel, then dump everything into a blender and blitz for a minute until smooth.", &["- h1+ : 2 3 4"]),
    ]),
    ("A pot of white beans", &["500 g dried white beans", "1 onion, halved", "2 bay leaves", "2 tsp salt"], &[
        ("Tip the beans into a big bowl, cover generously with cold water and leave overnight.", &["- e a480 : 1"]),
        ("Next day, drain and rinse them, then put in a large pan with the onion and bay and enough fresh water to cover by 5cm.", &["- e : 2 3"]),
        ("Bring to a rolling boil and boil hard for 10 mins. Skim, turn the heat right down, and simmer very gently, lid ajar, for 1 hr 15 mins - 1 hr 30 mins, or until creamy. Add the salt only at the end.", &["hob e w7", "hob w10", "hob e w90", "- e : 4"]),
    ]),
    ("Flatbreads, a card", &["250 g plain flour", "150 g plain yoghurt", "1 tsp baking powder", "1/2 tsp salt", "1 tbsp oil"], &[
        ("Flour, baking powder, salt in bowl. Yoghurt in, mix to soft dough, knead 1 min.", &["- h1+ : 1 2 3 4"]),
        ("Rest 20 min under cloth.", &["- w20"]),
        ("Divide in 6, roll thin. Fry in dry hot pan, 2 min a side till puffed. Brush w. oil.", &["- e", "hob h4+ : 5"]),
    ]),
    ("Spinach frittata", &["8 large eggs", "1/3 cup milk", "1 cup grated cheddar", "2 tbsp butter", "1 bunch spinach"], &[
        ("Heat oven to 350°F with a rack in the upper third. Whisk the eggs, milk and half the cheese in a bowl.", &["- e : 1 2 3"]),
        ("Melt the butter in a 10-inch oven-safe skillet over medium. Add the spinach by the handful and cook, stirring, until wilted, 2 to 3 minutes.", &["hob h3+ : 4 5"]),
        ("Pour in the eggs, scatter over the rest of the cheese and cook without stirring for 4 minutes, until the edges set.", &["hob e w4 : 3"]),
        ("Slide the skillet into the oven and bake until puffed and the center reads 160°F, 12–15 minutes. Cool 5 minutes before slicing.", &["oven e w15 c177 i71", "- w5"]),
    ]),
    ("Baked fish with dill and potatoes", &["4 cod fillets", "1 lemon", "2 tbsp olive oil", "20 g dill", "400 g new potatoes, halved"], &[
        ("Heat oven to 200C/180C fan/gas 6. Put the potatoes on a large baking tray, toss with 1 tbsp of the oil, and roast for 25 mins.", &["oven e w25 c200 : 3 5"]),
        ("Push the potatoes to one side, lay the fish in the gap and scatter over most of the dill and slices of the lemon. Drizzle with the remaining oil.", &["- e : 1 2 3 4"]),
        ("Return to the oven for 12-15 mins, until the fish flakes.", &["oven w15 c200"]),
        ("Finish with the rest of the dill.", &["- e : 4"]),
    ]),
    ("Overnight oats with apple", &["100 g rolled oats", "250 ml milk", "1 tbsp honey", "1 apple, grated"], &[
        ("Stir the oats, milk and honey together in a jar, cover and refrigerate overnight (or for at least 6 hours).", &["- e a480 : 1 2 3"]),
        ("In the morning, fold in the apple.", &["- e : 4"]),
        ("Eat within 2 days.", &[]),
    ]),
    ("Nutty barley under pressure", &["1 cup pearl barley", "2 1/2 cups vegetable stock", "1 tbsp butter", "1 bay leaf"], &[
        ("Set the pressure cooker to sauté. Melt the butter, then toast the barley in it, stirring, until it smells nutty, about 3 minutes.", &["pressure cooker h3+ : 1 3"]),
        ("Add the stock and bay leaf. Secure the lid, and cook on high pressure for 20 minutes. Let the pressure come down naturally for 15 minutes, then quick-release whatever is left.", &["pressure cooker e w35 : 2 4"]),
        ("Fish out the bay leaf and drain off any liquid.", &["- e"]),
    ]),
    ("Braised fowl, from an old book", &["1.5 kg whole chicken", "2 onions", "1/2 pint chicken stock", "4 tomatoes"], &[
        ("Joint the bird, and dust it with seasoned flour.", &["- e : 1"]),
        ("Throw in the onions, sliced, and the tomatoes, skinned; moisten with the stock, cover closely, and braise in a moderate oven for an hour and a quarter.", &["oven e w75 c180 : 2 3 4"]),
    ]),
    ("Sticky carrots, for a party", &["1 kg carrots", "2 tbsp olive oil", "1 tbsp honey", "1 tsp cumin seeds"], &[
        ("First things first: get that oven screaming hot – 220°C (that's 425°F for my American friends).", &[]),
        ("Give the carrots a good scrub (no need to peel!), halve them lengthways and chuck them on your biggest tray with the oil and cumin.", &["- e : 1 2 4"]),
        ("Roast for 25 minutes, give everything a shake, drizzle with the honey and pop back in for another 10, until sticky.", &["oven w25 c220", "oven e w10 c220 : 3"]),
    ]),
    ("Eggs, soft", &["6 eggs"], &[
        ("Lower the eggs into a pan of boiling water, set a timer for 7 minutes 30 seconds, and keep it at a lively simmer.", &["hob e w8 : 1"]),
        ("Straight into iced water for 5 minutes. Crack, peel.", &["- w5", "- e"]),
    ]),
    ("Leek and potato soup, for a cold night", &["3 leeks, washed and sliced", "500 g floury potatoes, peeled and cut into chunks", "50 g butter", "1 litre hot vegetable stock", "150 ml double cream"], &[
        ("Melt the butter in a large, lidded saucepan. Add the leeks and potatoes with a pinch of salt, cover and sweat gently for 15 mins, stirring from time to time.", &["hob e w15 : 1 2 3"]),
        ("Pour in the stock, bring up to a simmer and cook for 20 mins more.", &["hob e w7 : 4", "hob w20"]),
        ("Whizz until silky using a stick blender, stir through the cream and season. Warm through (don't boil) and ladle into bowls.", &["- e : 5", "hob e"]),
    ]),
    ("Cabbage and apple slaw, from a cookout", &["1/2 small red cabbage", "2 apples", "1/4 cup mayonnaise", "2 tbsp cider vinegar", "1 tsp sugar"], &[
        ("Shred cabbage and coarsely grate apples (skin on). In a large bowl, whisk mayo, vinegar, and sugar until the sugar dissolves.", &["- e : 1 2 3 4 5"]),
        ("Add cabbage and apples; toss to coat. Cover and chill for at least 30 minutes or up to 1 day.", &["- e w30"]),
    ]),
    ("Plain rice", &["300 g basmati rice", "450 ml water", "1/2 tsp salt"], &[
        ("Rinse the rice in several changes of water, soak for 30 minutes, then drain well.", &["- e w30 : 1", "- e"]),
        ("Tip into a pan with the water and salt. Bring to the boil, clamp on a tight lid, and turn the heat to its lowest. Leave for exactly 10 minutes – no peeking.", &["hob e w6 : 2 3", "hob w10"]),
        ("Off the heat, leave it another 10 minutes, lid still on. Fork through.", &["- w10", "- e"]),
    ]),
    ("Chicken and olives, left alone all day", &["2 lb boneless skinless chicken thighs", "1 (14.5 oz) can diced tomatoes", "1 cup chicken broth", "1 cup pitted green olives", "2 tsp dried oregano"], &[
        ("Place chicken in a 6-quart slow cooker. Pour tomatoes and broth over top; sprinkle with oregano.", &["- e : 1 2 3 5"]),
        ("Cover and cook on LOW 5 to 6 hours or HIGH 2½ to 3 hours. Stir in the olives during the last 30 minutes.", &["slow cooker e w360", "- e : 4"]),
        ("Shred the chicken with two forks and return it to the sauce.", &["- e"]),
    ]),
    ("A plain loaf", &["500 g bread flour", "7 g dried yeast", "1 tsp salt", "325 ml lukewarm water"], &[
        ("Combine flour, yeast and salt in the bowl of a stand mixer. With the motor running on low, add the water, then knead on medium for 8 minutes.", &["- h8+ : 1 2 3 4"]),
        ("Turn out, shape into a ball, cover and set aside in a warm spot for 1 hour or until doubled in size. Knock back, shape and prove a further 40 minutes.", &["- e w60", "- e w40"]),
        ("Preheat oven to 220°C (200°C fan-forced). Bake for 15 mins, reduce oven to 190°C (170°C fan-forced) and bake for a further 20 mins, or until the base sounds hollow. Cool on a wire rack.", &["oven w15 c220", "oven w20 c190", "- w30"]),
    ]),
    ("Red lentils with mustard seeds", &["1 cup split red lentils", "3 cups water", "1/2 tsp turmeric", "1 tbsp ghee", "1 tsp mustard seeds", "2 green chillies, slit"], &[
        ("Wash the lentils well and pressure cook with the water and turmeric for 8 minutes; let the pressure drop by itself.", &["pressure cooker e w23 : 1 2 3"]),
        ("For the tempering, heat the ghee till it shimmers, drop in the mustard seeds, and once they crackle add the chillies and fry for 30 seconds.", &["hob h1+ : 4 5 6"]),
        ("Tip this over the lentils, mix and simmer 5 min.", &["hob e w5"]),
    ]),
    ("Potatoes in a hurry", &["2 baking potatoes", "20 g butter"], &[
        ("Prick the potatoes all over and microwave on full power for 5 mins. Turn them over and give them another 4–5 mins.", &["microwave e w5 : 1", "microwave e w5"]),
        ("Stand for 2 mins. Split and fill with the butter.", &["- w2", "- e : 2"]),
    ]),
    ("Roast chicken with lemon", &["1 (4 lb) whole chicken", "2 tbsp butter", "1 lemon", "4 sprigs thyme"], &[
        ("The day before, pat the chicken dry and rub it all over with salt. Refrigerate, uncovered.", &["- e a1440 : 1"]),
        ("Take the chicken out of the fridge an hour before you want to cook it. Stuff with the lemon and thyme and rub with the butter.", &["- e : 2 3 4"]),
        ("Roast at 425 degrees for 20 minutes, then turn the oven down to 350 and continue roasting for 50 to 60 minutes, basting now and then, until a thermometer in the thickest part of the thigh reads 165°F.", &["oven w20 c218", "oven w60 c177 i74"]),
        ("Rest for at least 15 minutes before carving.", &["- w15"]),
    ]),
    ("Apple compote", &["1 kg cooking apples", "80 g sugar", "1 lemon, zest and juice"], &[
        ("Peel, core and roughly chop the apples. Put in a heavy pan with the sugar, zest and juice and 3 tbsp water.", &["- e : 1 2 3"]),
        ("Cook over a low heat, lid on, for 12–15 minutes, stirring once or twice, until collapsed. Beat with a wooden spoon.", &["hob w15", "- e"]),
    ]),
    ("Spaghetti with tomatoes and olives", &["400 g spaghetti", "4 tbsp olive oil", "3 cloves garlic, sliced", "1 tin (400 g) chopped tomatoes", "60 g olives, halved"], &[
        ("Bring a large pot of salted water to the boil and cook the spaghetti according to the packet, usually about 10 minutes.", &["hob e w7", "hob w10 : 1"]),
        ("While that's going on, gently fry the garlic in the oil until it just starts to colour, 1–2 minutes; add the tomatoes and olives and bubble for 8 minutes.", &["hob h2+ w8 = : 2 3 4 5"]),
        ("Drain the pasta, keeping back a cupful of the water. Toss with the sauce and a splash of the water over a medium heat for 1 minute.", &["hob h1+ +"]),
    ]),
    // Written later, for what goes on after a moment's work and for what is said again once it is used.
    ("Basted thighs and steamed beetroot", &["8 chicken thighs", "2 tbsp olive oil", "600 g beetroot"], &[
        ("Roast the thighs at 200°C for 25 minutes, baste with half the oil, then a further 20 minutes.", &["oven e w25 c200 : 1", "oven e w20 c200 : 2"]),
        ("Bake the beetroot at 200°C for 50 minutes. Put them in a bowl, cover and steam for 15 minutes, then peel and dress with the rest of the oil.", &["oven e w50 c200 : 3", "- e w15", "- e : 2"]),
    ]),
];
