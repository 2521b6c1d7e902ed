//! Dishes, their ingredients, and the paragraphs of their methods with the reading of each.

type Paragraph = (&'static str, &'static [&'static str]);
pub type Dish = (&'static str, &'static [&'static str], &'static [Paragraph]);

#[rustfmt::skip]
pub static RECIPES: &[Dish] = &[
    ("Chicken braised with olives, on one pan", &["1 kg chicken thighs", "2 tbsp olive oil", "2 onions", "3 cloves garlic", "2 tins (400 g) chopped tomatoes", "100 g olives"], &[
        ("Set the oven to 180°C (160°C fan, gas mark 4). Pat the chicken dry.", &["- e : 1"]),
        ("Warm the oil in a large ovenproof pan over a medium-high heat and brown the thighs on all sides, about 8 minutes. Lift them out onto a plate.", &["hob h8+ : 2"]),
        ("Slice the onions thinly and chop the garlic; cook them in the same pan over a low heat for 10 minutes, stirring now and again, until soft.", &["- e : 3 4", "hob w10"]),
        ("Tip in the tomatoes and the olives and bring to the boil. Return the chicken, cover and put into the oven for 45 minutes.", &["hob w7 : 5 6", "oven w45 c180"]),
        ("Take off the lid and cook for a further 15 minutes, until the sauce is thick.", &["oven w15 c180"]),
    ]),
    ("Slow-cooker chicken", &["1 kg boneless chicken thighs", "1 onion, sliced", "1 tin (400 g) chopped tomatoes", "80 g olives", "1 tsp dried thyme"], &[
        ("Put the onion, tomatoes and thyme in the slow cooker and lay the chicken on top. Cover and cook on low for 6 to 8 hours or on high for 3 to 4 hours.", &["slow cooker w480 : 1 2 3 5"]),
        ("Stir in the olives. Let stand 10 minutes before serving.", &["- e w10 : 4"]),
    ]),
    ("Grilled chicken", &["800 g boneless chicken thighs", "3 tbsp plain yoghurt", "1 lemon", "2 cloves garlic"], &[
        ("Crush the garlic and stir it into the yoghurt with the juice of the lemon. Turn the chicken in it, cover, and marinate in the fridge for at least 2 hours and up to 24.", &["- e w120 : 1 2 3 4"]),
        ("Heat the grill to high. Grill the chicken for 6–7 minutes on each side, until the juices run clear and a thermometer in the thickest part reads 165°F.", &["grill w14 i74"]),
        ("Rest for 5 minutes, loosely covered with foil.", &["- w5"]),
    ]),
    ("Pearl barley, the old way", &["300 g pearl barley", "1.2 l vegetable stock", "1 bay leaf"], &[
        ("Rinse the barley in a sieve under cold water until the water runs clear.", &["- e : 1"]),
        ("Bring the stock and bay leaf to a boil in a saucepan. Add the barley, reduce the heat, cover and simmer, without stirring, for 35 to 40 min or until just tender.", &["hob w8 : 2 3", "hob w40"]),
        ("Remove from the heat and let it stand, covered, for 10 minutes. Fluff with a fork.", &["- w10", "-"]),
    ]),
    ("Pearl barley under pressure", &["250 g pearl barley", "750 ml water", "1 tbsp olive oil"], &[
        ("Stir the barley and oil together in the pressure cooker over a medium heat for 2 minutes.", &["pressure cooker h2 : 1 3"]),
        ("Pour in the water, lock the lid and cook at high pressure for 18 minutes. Allow the pressure to release naturally for 10 minutes, then release the rest.", &["pressure cooker w28 : 2"]),
    ]),
    ("White beans from dry", &["400 g dried white beans", "1 onion", "2 sprigs rosemary", "1 tsp salt"], &[
        ("The night before, cover the beans with plenty of cold water and leave them to soak.", &["- e a480 : 1"]),
        ("Drain the beans and put them in a big pot with fresh water, the halved onion and the rosemary.", &["- e : 2 3"]),
        ("Boil hard for 10 minutes, then turn down the heat and simmer gently, partly covered, for 1 to 1½ hours, topping up the water if need be.", &["hob w10", "hob w90"]),
        ("Add the salt for the last 10 minutes. Leave the beans to cool in their water for half an hour.", &["- e w30 : 4"]),
    ]),
    ("White-bean and rosemary mash", &["2 tins (400 g) white beans, drained", "4 tbsp olive oil", "3 cloves garlic", "1 sprig rosemary", "1 lemon"], &[
        ("Peel and slice the garlic. Heat 3 tbsp of the oil with the garlic and rosemary over a gentle heat for 3 minutes, but don't let it brown.", &["hob e w3 : 2 3 4"]),
        ("Tip in the beans with a splash of water and warm through for 5 minutes.", &["hob w5 : 1"]),
        ("Take out the rosemary, squeeze in half of the lemon, and mash roughly. Drizzle with the remaining oil.", &["- e : 2 5"]),
    ]),
    ("Roast beetroot and carrots", &["600 g beetroot", "500 g carrots", "2 tbsp olive oil", "1 tbsp honey", "1 tsp cumin seeds"], &[
        ("Preheat oven to 400 degrees F (200 degrees C). Line two baking trays with paper.", &["- e"]),
        ("Scrub the carrots and cut them into batons. Peel the beetroot and cut into 2 cm wedges.", &["- e : 1 2"]),
        ("Toss the vegetables with the oil and cumin, spread out on the trays and roast for 30 minutes, turning once.", &["oven e w30 c204 : 3 5"]),
        ("Drizzle over the honey and roast for 10 to 15 minutes more, until sticky and tender.", &["oven e w15 c204 : 4"]),
    ]),
    ("Beetroot in foil", &["500 g beetroot", "1 tbsp olive oil", "1 tbsp vinegar"], &[
        ("Heat the oven to 200C/180C fan/gas 6. Scrub the beetroot, rub with the oil and wrap each in foil.", &["- e : 1 2"]),
        ("Bake in the middle of the oven for 1 hr–1 hr 15 mins until a skewer slides in. Leave until cool enough to handle, then peel and slice.", &["oven w75 c200", "- e"]),
        ("Dress with the vinegar while still warm.", &["- e : 3"]),
    ]),
    ("Red cabbage and apple slaw", &["1/2 red cabbage", "2 apples", "3 tbsp vinegar", "1 tsp salt", "2 tbsp plain yoghurt"], &[
        ("Core the cabbage and shred it as finely as you can. Put it in a bowl with the salt, rub it in with your hands, and leave for 20 minutes.", &["- e w20 : 1 4"]),
        ("In the meantime, quarter, core and grate the apples; toss with the vinegar so that they don't turn brown.", &["- e = : 2 3"]),
        ("Squeeze out the cabbage, add the apples and the yoghurt and mix well. Chill until needed.", &["- e w60 + : 5"]),
    ]),
    ("Herb yoghurt", &["500 g plain yoghurt", "1/2 bunch parsley", "1/2 bunch dill", "1 clove garlic", "1 tbsp olive oil"], &[
        ("Pick the herbs and chop them finely. Grate the garlic.", &["- e : 2 3 4"]),
        ("Mix everything together in a bowl, cover and refrigerate for 30 mins so that the flavours can get to know each other.", &["- e w30 : 1 5"]),
    ]),
    ("Red-pepper sauce", &["4 red peppers", "1 onion", "3 cloves garlic", "3 tbsp olive oil", "1 tbsp vinegar"], &[
        ("Halve and deseed the peppers. Put them skin side up under a hot grill for 12-15 minutes, until black in patches.", &["- e : 1", "grill w15"]),
        ("Put in a bowl, cover with a plate and leave to steam for 10 minutes, then peel off the skins.", &["- w10", "- e"]),
        ("While the peppers steam, chop the onion and soften in 2 tbsp of the oil for 5 minutes with the garlic.", &["hob h5+ = : 2 3 4"]),
        ("Blitz the lot with the vinegar and the rest of the oil until smooth.", &["- e + : 4 5"]),
    ]),
    ("Flatbreads", &["400 g plain flour", "250 g plain yoghurt", "2 tsp baking powder", "1 tsp salt", "1 tbsp oil"], &[
        ("Sift together the dry ingredients. Make a well, add the yoghurt and bring together into a shaggy dough with your hands.", &["- e : 1 2 3 4"]),
        ("Turn out onto a floured surface and knead for 5 minutes until smooth. Cover with a damp cloth and rest for 30 minutes at room temperature.", &["- h5+ w30"]),
        ("Divide into 8 balls and roll each to a thin round. Heat a dry frying pan until very hot and brush it with the oil.", &["- e", "hob e : 5"]),
        ("Cook the breads one at a time for 1½ minutes a side, pressing down the bubbles. Keep warm in a cloth.", &["hob w3"]),
    ]),
    ("Boiled eggs", &["8 eggs"], &[
        ("Lower the eggs into a pan of simmering water. Simmer for 7 minutes for soft yolks, 10 for hard.", &["hob e w10 : 1"]),
        ("Drain, then cool in a bowl of iced water for at least 5 minutes before peeling.", &["- e w5"]),
    ]),
    ("Leek and potato soup", &["30 g butter", "600 g leeks, sliced", "400 g potatoes, diced", "1 l vegetable stock", "100 ml oat milk", "2 tbsp chopped chives"], &[
        ("Melt the butter in a heavy pot. Add the leeks and a pinch of salt and sweat, covered, over a low heat for 10–12 mins.", &["hob e w12 : 1 2"]),
        ("Stir in the potatoes and stock. Bring up to the boil, then lower the heat and simmer for 20 mins, or until the potatoes fall apart.", &["hob w7 : 3 4", "hob w20"]),
        ("Off the heat, blend until smooth. Stir through the oat milk, reheat gently for 3 minutes, and season to taste.", &["- e : 5", "hob w3", "-"]),
        ("Serve in warm bowls, scattered with the chives.", &[]),
    ]),
    ("Frittata", &["8 eggs", "300 g potatoes", "1 red pepper", "60 g feta", "2 tbsp olive oil"], &[
        ("Cook the potatoes in the microwave for 5 minutes, then slice them. Beat the eggs with the crumbled feta.", &["microwave w5 : 2", "- e : 1 4"]),
        ("Heat the oil in an ovenproof frying pan and fry the potatoes and pepper for 6 minutes, turning often.", &["hob h6+ : 3 5"]),
        ("Pour in the eggs and cook on a low heat for 8 minutes without stirring. Slide under a hot grill for 3–4 minutes to set the top.", &["hob w8", "grill w4"]),
    ]),
    ("Baked frittata", &["6 eggs", "200 g spinach", "100 ml oat milk"], &[
        ("Oven: 350°F. Grease a dish. Wilt the spinach in a pan for 2 minutes, then squeeze dry.", &["hob h2+ : 2"]),
        ("Whisk the eggs with the milk, fold in the spinach and pour into the dish. Bake 25–30 minutes, until just set and it reaches 160°F inside.", &["- e : 1 3", "oven w30 c177 i71"]),
    ]),
    ("Baked fish with dill", &["4 fillets cod", "1/2 bunch dill", "1 lemon", "20 g butter", "200 g cherry tomatoes"], &[
        ("Heat your oven to Gas Mark 5. Butter a baking dish with half of the butter and lay the fish in it.", &["- e : 1 4"]),
        ("Slice the lemon, scatter it and the dill and tomatoes over the fish and dot with the rest of the butter.", &["- e : 2 3 4 5"]),
        ("Bake, uncovered, for 18 minutes or until it flakes easily and is 63°C at its thickest. Stand 3 minutes.", &["oven w18 c190 i63", "- w3"]),
    ]),
    ("Poached fish", &["500 g haddock", "500 ml milk", "1 bay leaf", "25 g butter", "25 g plain flour"], &[
        ("Put the haddock, milk and bay leaf in a wide pan, bring just to a simmer and poach gently for 6-8 minutes. Lift out the fish and keep the milk.", &["hob w6 : 1 2 3", "hob w8", "-"]),
        ("Melt the butter, stir in the flour and cook for 1 minute, stirring. Gradually whisk in the milk and simmer for 4 minutes, whisking all the time, until thick.", &["hob h5+ : 4 5"]),
    ]),
    ("Overnight oats", &["150 g rolled oats", "300 ml oat milk", "40 g raisins", "1 apple", "1 tbsp honey"], &[
        ("The evening before: combine the oats, oat milk and raisins in a jar. Cover and leave in the fridge overnight.", &["- e a480 : 1 2 3"]),
        ("In the morning grate in the apple, skin and all, and stir in the honey.", &["- e : 4 5"]),
    ]),
];
