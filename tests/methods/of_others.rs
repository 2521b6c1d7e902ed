//! Paragraphs in twelve hands, a hundred and twenty-eight of them, written down with their readings before any was run. Of the first sixty-six 53
//! were read rightly at once and none silently wrong in a time or a degree; what they showed was mended, and of the next sixty-two 53 were right at
//! once, and three silently wrong:
//!
//! - "Seal on all sides (approx 8 mins)" waited on nothing.
//! - "Pour over the hot stock, lid on, and into the oven at 150 for two and a half hours" was so many hours of pouring.
//! - "A large microwaveable bowl. Cook on HIGH for 2 mins" cooked on the hob.
//!
//! The dishes that are read rightly in every paragraph are here. What is still told and not planned: "it's so much better if you let it sit in the
//! fridge for an hour", "cool to below 5 °C within 90 minutes".

use super::paragraphs::Dish;

#[rustfmt::skip]
pub static RECIPES: &[Dish] = &[
    ("Braised thighs, a British book", &["8 chicken thighs, bone in", "2 tbsp olive oil", "2 onions, sliced", "4 cloves garlic", "2 tins (400 g) chopped tomatoes", "100 g black olives, stoned", "3 sprigs thyme", "150 ml white wine"], &[
        ("Heat the oil in a wide, heavy casserole. Brown the chicken thighs, skin side down, for 6–8 minutes, then lift them out on to a plate.", &["hob e : 1 2"]),
        ("Lower the heat, add the onions and a good pinch of salt and let them soften for 10 minutes. Crush in the garlic and give it another minute.", &["hob e w10 : 3", "hob e w1 : 4"]),
        ("Pour in the wine, let it bubble for 3 minutes, then stir in the tomatoes, olives and thyme. Return the thighs to the pot, cover with a lid and simmer gently for 40 minutes, or until the juices run clear.", &["hob e w3 : 8", "hob e w40 : 5 6 7"]),
        ("Take the pot off the heat and leave it to stand for 10 minutes before you serve it with pearl barley.", &["- e w10"]),
    ]),
    ("Barley pot, a British book", &["300 g pearl barley", "1 litre vegetable stock", "2 leeks", "40 g butter", "1 lemon"], &[
        ("Trim and wash the leeks and slice them into thin rings. Finely grate the zest of the lemon and squeeze the juice.", &["- e : 3 5"]),
        ("Melt the butter in a saucepan, tip in the leeks, cover and sweat over a gentle heat for 12 minutes until silky, stirring from time to time.", &["hob e w12 : 4"]),
        ("Add the barley and stir for a minute to coat, then pour in the stock and bring it to the boil. Turn down the heat, put on the lid and leave to bubble quietly for 35 to 40 minutes.", &["hob e w9 : 1 2", "hob e w40"]),
        ("Fold in the lemon zest and juice and check the seasoning.", &["- e"]),
    ]),
    ("Baked cod, an American page", &["1 1/2 lb cod fillets", "3 tbsp butter, melted", "1 lemon", "1/4 cup chopped dill", "1/2 cup panko breadcrumbs"], &[
        ("Preheat oven to 400 degrees F with rack in center position. Grease a 13x9-inch baking dish.", &["- e"]),
        ("Pat fish dry with paper towels and arrange in prepared dish. Squeeze half the lemon over the top.", &["- e : 1 3"]),
        ("In a small bowl, stir together butter, dill and panko; sprinkle evenly over fish.", &["- e : 2 4 5"]),
        ("Bake, uncovered, 15 to 18 minutes or until fish flakes easily and internal temperature registers 145°F. Serve with remaining lemon, cut into wedges.", &["oven w18 c204 i63"]),
    ]),
    ("Pressure beans, an American page", &["1 lb dried navy beans", "8 cups water", "2 sprigs rosemary", "6 cloves garlic, peeled", "1/3 cup olive oil", "2 tsp salt"], &[
        ("Rinse beans and pick out any stones. Place in pressure cooker with the water, rosemary and garlic.", &["- e : 1 2 3 4"]),
        ("Lock the lid and cook at high pressure for 35 minutes. Let pressure release naturally for 15 minutes, then quick-release the rest.", &["pressure cooker w50"]),
        ("Drain, reserving 1 cup of the cooking liquid. Discard the rosemary.", &["- e"]),
        ("Mash beans with the oil and salt, adding liquid a splash at a time, until creamy, about 3 minutes.", &["- h3 : 5 6"]),
    ]),
    ("Overnight oats, an American page", &["2 cups rolled oats", "2 cups milk", "1 cup plain yogurt", "2 tbsp chia seeds", "1 cup blueberries"], &[
        ("In a large bowl, whisk together the milk and yogurt. Stir in oats and chia seeds.", &["- e a480 : 1 2 3 4"]),
        ("Cover and refrigerate overnight, or at least 6 hours. In the morning, top with blueberries.", &["- e a480", "- e : 5"]),
    ]),
    ("Eggs card, a card", &["8 eggs"], &[
        ("Eggs in cold water, just covered. Bring to boil.", &["hob e w7 : 1"]),
        ("Boil 7 min. Into iced water 5 min. Peel.", &["hob w7", "- w5", "- e"]),
    ]),
    ("Pepper sauce card, a card", &["6 red peppers", "3 tbsp olive oil", "3 cloves garlic", "1 tbsp red wine vinegar", "1 tsp smoked paprika"], &[
        ("Oven 220°C. Halve and seed peppers. Roast cut side down 35 min.", &["- e : 1", "oven w35 c220"]),
        ("Cover, cool 15 min, skin.", &["- e w15", "- e"]),
        ("Blend with rest. Salt.", &["- e : 2 3 4 5"]),
    ]),
    ("Soup card, a card", &["3 leeks", "600 g potatoes", "30 g butter", "1.2 l chicken stock", "100 ml double cream"], &[
        ("Peel and dice potatoes, slice leeks. Sweat leeks in butter 8 min.", &["- e : 1 2", "hob w8 : 3"]),
        ("Potatoes + stock in. Simmer 20 min, lid on.", &["hob e w20 : 4"]),
        ("Blend. Stir in cream. Do not boil.", &["- e : 5"]),
    ]),
    ("Rice card, a card", &["400 g basmati rice", "600 ml water", "1 tsp salt"], &[
        ("Wash rice till clear. Soak 30 min. Drain.", &["- e w30 : 1", "- e"]),
        ("Rice, water, salt to boil. Lid. Lowest heat 12 min. Off heat 10 min. Fork through.", &["hob e w7 : 2 3", "hob w12", "- w10", "- e"]),
    ]),
    ("Traybake blog, a blog", &["8 pork sausages", "800 g new potatoes", "2 red onions", "2 red peppers", "3 tbsp olive oil", "2 tbsp wholegrain mustard", "1 tbsp honey"], &[
        ("Crank your oven up to 200C (180C fan). While it's heating, halve the potatoes and chop the onions and peppers into big chunky wedges.", &["- e : 2 3 4"]),
        ("Chuck everything except the mustard and honey into your largest roasting tin, give it a good toss and pop it in the oven for 25 minutes.", &["oven e w25 c200 : 1 5"]),
        ("While that's happening, mix the mustard and honey together in a little cup.", &["- e = : 6 7"]),
        ("After 25 minutes, take the tin out, drizzle the sticky stuff all over and roast for a final 15–20 minutes, until everything is gorgeously golden.", &["oven e w20 c200 +"]),
    ]),
    ("Lentil blog, a blog", &["250 g red lentils", "1 tin (400 ml) coconut milk", "1 onion", "30 g ginger", "3 cloves garlic", "2 tbsp curry powder", "1 tbsp sunflower oil", "200 g spinach"], &[
        ("Start by finely chopping your onion. Peel and grate the ginger and garlic while you're at it.", &["- e : 3 4 5"]),
        ("Pop a large saucepan over a medium heat, add the oil and throw in the onion. Fry for about 5 minutes, then add the ginger, garlic and curry powder and fry for 1 more minute, stirring all the time.", &["hob e : 6 7"]),
        ("Next, tip in the lentils and coconut milk, fill the empty tin with water and pour that in, too. Let it all bubble away on a low heat for 20-25 mins, giving it a stir every now and again so that it doesn't catch.", &["- e : 1 2", "hob w25"]),
        ("Finally, stir the spinach through, wait 2 minutes for it to wilt, and that's it. You're done!", &["- e w2 : 8"]),
    ]),
    ("Haddock old, an old book", &["2 lb haddock", "1 pint milk", "2 oz butter", "1 oz flour", "2 tbsp chopped parsley", "2 eggs, hard-boiled"], &[
        ("Lay the haddock in a shallow pan, pour the milk over it, and let it simmer very gently for a quarter of an hour.", &["hob e w15 : 1 2"]),
        ("Take up the fish, remove the skin and bones, and break it into flakes.", &["- e"]),
        ("Melt the butter, stir in the flour, and add by degrees the milk in which the fish was cooked; stir over the fire until it thickens, which will take about five minutes.", &["hob e : 3 4"]),
        ("Mix in the fish, parsley and eggs, turn into a buttered pie-dish, and bake in a moderate oven for twenty minutes.", &["oven e w20 c180 : 5 6"]),
    ]),
    ("Pudding old, an old book", &["4 oz pearl barley", "2 pints milk", "2 oz sugar", "2 eggs", "1/4 tsp nutmeg"], &[
        ("Wash the barley well and soak it in cold water for three hours.", &["- e w180 : 1"]),
        ("Drain it, put it into a saucepan with the milk, and stew for an hour and a half, stirring occasionally.", &["hob e w90 : 2"]),
        ("When nearly cold add the eggs, well beaten, and the sugar; pour into a greased dish, grate the nutmeg over the top and bake in a slow oven for forty minutes.", &["oven e w40 c150 : 3 4 5"]),
    ]),
    ("Beef old, an old book", &["3 lb topside of beef", "2 oz dripping", "2 turnips", "4 carrots", "2 onions", "1 pint stock"], &[
        ("Make the dripping hot in a stewpan, put in the meat and brown it quickly on both sides.", &["hob e : 1 2"]),
        ("Cut the vegetables into dice and lay them round the meat; pour on the stock, cover closely and let all simmer slowly for three hours and a half.", &["- e : 3 4 5 6", "hob w210"]),
    ]),
    ("Manual dough, a restaurant's manual", &["1 kg bread flour", "620 g water", "14 g instant yeast", "20 g salt", "40 g olive oil"], &[
        ("Scale all ingredients. Combine flour, yeast and water in mixer fitted with dough hook; mix on low speed for 4 minutes.", &["- e : 1 2 3"]),
        ("Rest dough 20 minutes (autolyse). Add salt and oil. Mix on medium speed 6 minutes until gluten is developed.", &["- w20", "- e : 4 5"]),
        ("Bulk ferment, covered, 60 min at 24 °C.", &["- w60"]),
        ("Divide into 12 x 140 g portions. Round. Bench rest 15 min. Sheet to 4 mm.", &["- e w15", "- e"]),
        ("Cook on dry griddle or heavy pan over high heat, 90 seconds per side.", &["hob w3"]),
    ]),
    ("Frittata, a British book", &["8 eggs", "400 g waxy potatoes", "2 courgettes", "100 g feta", "1/2 bunch mint", "2 tbsp olive oil"], &[
        ("Boil the potatoes whole in salted water for about 20 minutes, until just tender. Drain, leave until cool enough to handle, then slice.", &["hob e w20 : 2", "- e"]),
        ("Preheat the grill to high. Beat the eggs with the mint and crumble in half the feta.", &["- e : 1 4 5"]),
        ("Heat the oil in a 25cm ovenproof frying pan, add the courgettes and fry for 5 minutes until golden. Add the potatoes, pour over the egg mixture and cook over a low heat for 8–10 minutes, without stirring, until nearly set.", &["hob e w10 : 3 6"]),
        ("Scatter over the remaining feta and slide under the grill for 3–4 minutes until puffed and brown. Rest for 5 minutes, then cut into wedges.", &["grill e w4 : 4", "- w5", "- e"]),
    ]),
    ("Stuffed peppers, an American page", &["6 bell peppers", "1 cup long-grain rice", "1 lb ground beef", "1 onion, chopped", "1 can (15 oz) tomato sauce", "1 cup shredded cheese"], &[
        ("Cook rice according to package directions; set aside to cool slightly.", &["hob e w10 : 2", "- e"]),
        ("In a large skillet, cook beef and onion over medium heat until meat is no longer pink, 6-8 minutes, breaking up meat into crumbles; drain.", &["hob e w8 : 3 4", "- e"]),
        ("Stir in the rice and half of the tomato sauce. Spoon into peppers. Stand upright in a baking dish; pour remaining sauce over top.", &["- e : 1 5"]),
        ("Cover and bake at 350° until peppers are tender, 45-50 minutes. Sprinkle with cheese; bake, uncovered, until cheese is melted, 5 minutes longer.", &["oven e w50 c177", "oven e w5 c177 : 6"]),
    ]),
    ("Lamb koftas, an Australian page", &["500 g lamb mince", "1 brown onion, grated", "1/4 cup chopped mint", "2 tsp ground cumin", "1 cup Greek-style yoghurt", "1 Lebanese cucumber", "1 tbsp olive oil"], &[
        ("Place mince, onion, mint and cumin in a large bowl. Season. Using damp hands, mix until well combined.", &["- e : 1 2 3 4"]),
        ("Shape tablespoons of mixture into 16 koftas. Place on a plate, cover and refrigerate for 30 minutes to firm.", &["- e w30"]),
        ("Meanwhile, coarsely grate cucumber, squeeze out excess liquid and stir into yoghurt.", &["- e = : 5 6"]),
        ("Heat oil in a large non-stick frying pan over medium-high heat. Cook koftas, in 2 batches, turning occasionally, for 6 to 8 minutes or until browned and cooked through. Serve with yoghurt.", &["hob e w16 + : 7"]),
    ]),
    ("Pumpkin soup, an Australian page", &["1.5 kg butternut pumpkin", "2 brown onions", "3 cloves garlic", "2 tbsp olive oil", "1 litre vegetable stock", "1/2 cup thickened cream"], &[
        ("Preheat oven to 200°C/180°C fan-forced. Line 2 baking trays with baking paper.", &["- e"]),
        ("Peel, deseed and chop pumpkin into 3cm pieces. Cut onions into thick wedges. Toss with garlic and half the oil on prepared trays.", &["- e : 1 2 3 4"]),
        ("Roast, swapping trays halfway through cooking, for 35 to 40 minutes or until golden and tender. Set aside for 10 minutes to cool slightly.", &["oven w40 c200", "- w10"]),
        ("Transfer vegetables to a saucepan. Add stock. Bring to the boil over high heat, then reduce heat to medium. Simmer, partially covered, for 10 minutes. Process with a stick blender until smooth. Stir in cream.", &["hob e w7 : 5", "hob w10", "- e : 6"]),
    ]),
    ("Chana, a home cook of India", &["1 cup dried chickpeas", "2 onions, finely chopped", "3 tomatoes, pureed", "1 inch ginger", "5 cloves garlic", "1 tsp cumin seeds", "2 tsp ground coriander", "3 tbsp oil", "1 tea bag"], &[
        ("Soak the chickpeas overnight in plenty of water. Next morning, drain and rinse.", &["- e a480 : 1", "- e"]),
        ("Pressure cook the chickpeas with the tea bag, salt and 3 cups water for 6 whistles (about 20 minutes on medium flame). Let the pressure settle on its own.", &["pressure cooker e w35 : 9"]),
        ("Grind the ginger and garlic to a paste. In a kadai, heat the oil. Add the cumin seeds. When they crackle, add the onions and saute till golden brown, 8-10 mins.", &["hob e : 2 4 5 6 8"]),
        ("Add the ginger-garlic paste and saute for a minute till the raw smell goes. Now add the tomatoes and ground coriander, mix well, cover and cook on low flame for 10 mins, stirring in between.", &["hob e w10 : 3 7"]),
        ("Add the chickpeas along with their water. Simmer for 15 mins. Switch off the flame and keep covered for 10 mins so the flavours mingle.", &["hob e w15", "- w10"]),
    ]),
    ("Jeera rice, a home cook of India", &["1.5 cups basmati rice", "3 cups water", "1 tbsp ghee", "1 tsp cumin seeds"], &[
        ("Wash the rice 3-4 times and soak for 20 mins. Drain completely and keep aside.", &["- e w20 : 1", "- e"]),
        ("Put rice, water, ghee and cumin in the rice cooker and switch it on. It takes about 25 minutes. Rest 5 minutes and fluff up with a fork.", &["rice cooker e w25 : 2 3 4", "- w5", "- e"]),
    ]),
    ("Hotdish, an American page", &["1 lb ground beef", "1 sm. onion, chopped", "1 can (10 oz) cream of mushroom soup", "1 lb frozen diced potatoes", "2 c. green beans", "1 c. shredded cheddar"], &[
        ("Brown beef and onion in skillet; drain fat.", &["hob e : 1 2"]),
        ("Mix in soup and beans; pour into 9x13 pan. Top with potatoes.", &["- e : 3 4 5"]),
        ("Bake at 375° for 45 min.; sprinkle with cheese last 10 min.", &["oven w45 c191", "- e : 6"]),
    ]),
    ("Refrigerator pickles, an American page", &["2 lb pickling cucumbers", "2 c. white vinegar", "1 c. sugar", "2 Tbsp. salt", "1 bunch dill"], &[
        ("Slice cucumbers 1/4 in. thick. Pack into 3 clean quart jars with dill.", &["- e : 1 5"]),
        ("Combine vinegar, sugar and salt in saucepan; heat, stirring, until sugar dissolves, about 5 min. Cool 20 min.", &["hob e w5 : 2 3 4", "- w20"]),
        ("Pour over cucumbers. Cover & refrigerate at least 24 hrs. before serving. Keeps 1 month.", &["- e w1440"]),
    ]),
    ("Biscuits, an American page", &["2 cups all-purpose flour", "1 tbsp baking powder", "1 tsp salt", "6 tbsp cold butter", "3/4 cup buttermilk"], &[
        ("Preheat oven to 450°F. Whisk flour, baking powder and salt together in a bowl. Cut in butter with two knives until mixture looks like coarse crumbs.", &["- e : 1 2 3 4"]),
        ("Add buttermilk and stir just until dough comes together. Pat out 1 inch thick on a floured board; cut with a 2-inch cutter.", &["- e : 5"]),
        ("Place biscuits close together on ungreased sheet. Bake 12 to 14 minutes or until golden. Serve warm.", &["oven e w14 c232"]),
    ]),
    ("Beetroot patties, translated", &["600 g beetroot", "100 g rolled oats", "2 eggs", "150 g feta", "3 tbsp rapeseed oil"], &[
        ("Coarsely grate the beetroot. Mix with oats, egg and crumbled feta. Let the mass swell for approx. 15 min.", &["- e w15 : 1 2 3 4"]),
        ("Form 8 patties with wet hands and fry them in oil in a hot pan, approx. 4 min on each side.", &["- e", "hob h8 : 5"]),
        ("Keep warm in the oven at 80 °C until all are ready.", &[]),
    ]),
    ("Fish dish, translated", &["800 g haddock fillets", "1 kg floury potatoes", "2 dl milk", "50 g butter", "2 egg yolks", "1 bunch dill"], &[
        ("Oven 225 °C (top and bottom heat). Peel potatoes, cut in pieces and boil soft in salted water, 15–20 min.", &["- e : 2", "hob w20"]),
        ("Pour off the water, let steam off for a couple of minutes. Press potatoes, whisk in hot milk, butter and egg yolks.", &["- e w2", "- e : 3 4 5"]),
        ("Put the fish in a greased ovenproof form, salt, strew over chopped dill and pipe the mash around. Gratinate in the middle of the oven for about 25 min.", &["- e : 1 6", "oven w25 c225"]),
    ]),
    ("Rye porridge, translated", &["2 dl rye flakes", "5 dl water", "1 pinch salt", "1 apple"], &[
        ("Bring water and salt to the boil, sprinkle in the flakes while stirring, and let simmer on low heat for 5 minutes. Stir occasionally.", &["hob e w6 : 2 3", "hob e w5 : 1"]),
        ("Draw the pan aside and let it stand for 3 min under lid. Grate the apple on top.", &["- e w3", "- e : 4"]),
    ]),
    ("Canteen traybake, a canteen's sheet", &["8 kg potatoes", "300 ml oil", "50 g paprika"], &[
        ("Pre-heat combi oven 210°C dry heat. Wash and wedge potatoes (skin on).", &["- e : 1"]),
        ("Toss in oil and paprika. Divide between 4 x GN 1/1 trays, single layer.", &["- e : 2 3"]),
        ("Cook 25 mins, turn, cook a further 10 mins. Core temp 75°C.", &["oven w25 c210", "oven e w10 c210 i75"]),
    ]),
    ("Plum letter, a letter", &["2 lb plums", "4 oz sugar", "3 oz butter", "6 oz plain flour", "2 oz oats"], &[
        ("First of all stone your plums, dear, and put them in the big pie dish with half the sugar.", &["- e : 1 2"]),
        ("Rub the butter into the flour till it looks like breadcrumbs, then stir in the oats and what is left of the sugar, and scatter it over the plums (do not press it down!).", &["- e : 2 3 4 5"]),
        ("It goes in at gas mark 5 for about three quarters of an hour. Have a look after half an hour and if it is catching put a bit of foil over.", &["oven w45 c190"]),
        ("Let it sit a good ten minutes before you dish up or it will take the skin off your tongue.", &["- w10"]),
    ]),
    ("Stew letter, a letter", &["2 lb stewing steak", "2 tbsp flour", "1 oz dripping", "2 onions", "4 carrots", "1 pint beef stock", "2 lb potatoes"], &[
        ("Cut the meat up not too small, roll it in the flour, and get it nice and brown in the dripping.", &["- e : 1 2", "hob e : 3"]),
        ("Put it in the casserole with the onions and carrots cut up chunky, pour over the hot stock, lid on, and into the oven at 150 for two and a half hours.", &["oven e w150 c150 : 4 5 6"]),
        ("About half an hour before the end peel your potatoes and boil them as usual, 20 minutes should do it.", &["hob e w20 : 7"]),
    ]),
    ("Quick oats, a British book", &["50 g porridge oats", "350 ml milk", "1 tsp honey"], &[
        ("Tip the oats and milk into a large microwaveable bowl. Cook on HIGH for 2 mins, stir, then cook for another 2-3 mins. Stand for 1 min before stirring through the honey.", &["microwave e w2 : 1 2", "microwave e w3", "- w1 : 3"]),
    ]),
    ("Slow beans, a British book", &["300 g dried haricot beans", "200 g smoked bacon lardons", "1 onion, sliced", "500 g passata", "2 tbsp black treacle", "1 tbsp English mustard"], &[
        ("Soak the beans in cold water overnight. Drain, cover with fresh water, bring to the boil and boil rapidly for 10 mins. Drain again.", &["- e a480 : 1", "hob e w7", "hob w10", "- e"]),
        ("Dry-fry the bacon until the fat runs, about 5 mins, then add the onion and cook for 5 mins more.", &["hob e w5 : 2 3"]),
        ("Scrape everything into the slow cooker with the beans, passata, treacle, mustard and 400ml boiling water. Cover and cook on High for 5 hrs or Low for 9 hrs.", &["slow cooker e w300 : 4 5 6"]),
    ]),
    ("Grilled fish, a British book", &["4 mackerel fillets", "250 g cooked beetroot", "1 tbsp horseradish", "100 g creme fraiche"], &[
        ("Get the grill really hot. Slash the skin of each fillet three times, season, and lay skin-side up on a foil-lined tray.", &["- e : 1"]),
        ("Slide under the grill for 5 mins, no need to turn, until the skin is blistered and charred. Meanwhile, dice the beetroot and fold it into the creme fraiche with the horseradish.", &["grill w5", "- e = : 2 3 4"]),
    ]),
    ("Tray tofu, a blog", &["2 blocks (280 g) firm tofu", "3 tbsp soy sauce", "1 tbsp maple syrup", "2 tbsp cornflour", "1 head broccoli", "1 tbsp sesame seeds"], &[
        ("Press the tofu: wrap it in a clean tea towel, put something heavy on top and walk away for 20 minutes.", &["- e w20 : 1"]),
        ("Tear into rough, bite-sized chunks, then toss first with the soy and maple and then with the cornflour until every piece has a dusty coating.", &["- e : 2 3 4"]),
        ("Spread out on a lined tray (space matters here, people!) and bake at 200ºC (fan) for 15 mins, flip, add the broccoli florets and give it all another 12 mins.", &["oven e w15 c220", "oven e w12 c220 : 5"]),
        ("Shower with the sesame seeds and devour immediately.", &["- e : 6"]),
    ]),
    ("Polenta, a home cook of Italy", &["300 g coarse polenta", "1.5 l water", "50 g butter", "80 g parmesan", "500 g mushrooms", "2 cloves garlic", "4 tbsp olive oil", "1 handful parsley"], &[
        ("Bring the water to the boil with a generous pinch of salt. Rain in the polenta, whisking all the while, then lower the flame as far as it will go and cook for 45 minutes, stirring every five minutes or so.", &["hob e w8 : 2", "hob e w45 : 1"]),
        ("In the meantime clean the mushrooms with a damp cloth, tear up the big ones, and saute them over a lively flame with the oil and the garlic, whole, for a scant 10 minutes.", &["- e = : 5", "hob h10 : 6 7"]),
        ("Off the heat, beat the butter and parmesan into the polenta. Spoon onto a board, mushrooms over, parsley over that.", &["- e + : 3 4 8"]),
    ]),
];
