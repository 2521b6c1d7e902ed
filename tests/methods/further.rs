//! A hundred and twenty-five more paragraphs, in the manners of other cookery books: an old one, cards, notes among friends, of Britain, Australia, Canada,
//! India and the United States. Each reading was written down before the paragraph was run. What was then read wrongly, and has been mended:
//!
//! - "Give it another half an hour" and "cook at 220 °C" had lost their times or degrees: silently.
//! - "Internal temp registers 145°" and "70 °C in the middle" were no inside temperatures: silently.
//! - "Stirring at intervals" was stirred all the time: silently.
//! - "For 30 minutes while you simmer the barley for 20" was one step: told.
//! - "Come down on its own", "(or on high for 5 hours)", "turn to the lowest setting and leave" stood on a wrong appliance.
//! - "The first three ingredients" were all of them; "throw in the cumin" named none.
//!
//! The last thirteen dishes were written after those mends. Of their 38 paragraphs 33 were read rightly at once, one was told, and two lost
//! a time silently: "an hour beforehand" was a wait, "for a further 10" none. "The salt" after "until tender", "soy" and a rice cooker
//! that "will take 25 minutes" were not seen.
//!
//! "The night before, stir the oats" took eight hours of hands, silently; a recipe typed for a guide showed it.
//!
//! The leek of the barley bake is sliced in its ingredient line alone: that is a step of its own since such cutting takes time.
//!
//! Two more dishes were tried and are not here. "6½ min = soft, 8 min = firm" is told and not planned. "Let it do its thing for 8 minutes"
//! has its time, and not its place on the hob.

use super::paragraphs::Dish;

#[rustfmt::skip]
pub static RECIPES: &[Dish] = &[
    ("Leek and potato soup, from an old book", &["4 leeks", "1 lb potatoes", "2 oz butter", "2 pints vegetable stock", "1/4 pint milk"], &[
        ("Trim and wash the leeks well, and cut them into rings; peel the potatoes and slice them thin.", &["- e : 1 2"]),
        ("Melt the butter in a stewpan, put in the vegetables, and let them sweat with the lid on over a slow fire for a quarter of an hour, shaking the pan from time to time.", &["hob e w15 : 3"]),
        ("Pour over the stock, bring slowly to the boil, and simmer for three-quarters of an hour, or until all is quite soft.", &["hob e w7 : 4", "hob w45"]),
        ("Rub through a sieve, return to the pan with the milk, and heat through for five minutes, but do not let it boil. Season.", &["hob e w5 : 5", "- e"]),
    ]),
    ("Baked potatoes, a card", &["4 large potatoes", "1 tbsp oil", "60 g butter"], &[
        ("Oven 200C. Scrub potatoes, prick, rub with oil.", &["- e : 1 2"]),
        ("Bake on shelf 1¼ h, till soft when squeezed. Split; add butter.", &["oven w75 c200", "- e : 3"]),
    ]),
    ("Metric flatbreads", &["500 g plain flour", "7 g dried yeast", "300 ml warm water", "2 tbsp olive oil", "1 tsp salt"], &[
        ("Mix flour, yeast and salt, add the water and oil, and knead by machine for 6 min, then by hand for 2 min.", &["- h8+ : 1 2 3 4 5"]),
        ("Cover and leave to rise in a warm place for 1-1.5 h until doubled.", &["- e w90"]),
        ("Preheat the oven with a baking stone to 250 °C. Divide the dough into 6, roll out to 5 mm and leave for a further 10 min.", &["- e w10"]),
        ("Bake two at a time for 4–5 min each.", &["oven w5 c250"]),
    ]),
    ("Beans in the slow cooker", &["1 lb dried white beans", "1 onion, quartered", "2 bay leaves", "2 sprigs rosemary"], &[
        ("Sort and rinse beans; soak overnight in enough cold water to cover by 2 inches.", &["- e a480 : 1"]),
        ("Drain beans; transfer to a 6-quart slow cooker along with onion, bay leaves and rosemary. Add fresh water to cover.", &["- e : 2 3 4"]),
        ("Cover and cook on HIGH for 3 1/2 to 4 hours or on LOW 7 to 8 hours, or until tender.", &["slow cooker e w240"]),
        ("Turn off cooker and let beans sit in liquid, uncovered, 30 minutes.", &["- w30"]),
    ]),
    ("Roast thighs", &["8 chicken thighs", "2 lemons", "4 cloves garlic", "2 tbsp olive oil", "400 g new potatoes"], &[
        ("Preheat the oven to 200°C/180°C fan/gas 6. Halve the potatoes and parboil for 8 mins, then drain and leave to steam dry for a couple of minutes.", &["hob e w8 : 5", "- e w2"]),
        ("Tip the potatoes into a roasting tin with the thighs, lemons and garlic, drizzle with the oil and season well.", &["- e : 1 2 3 4"]),
        ("Roast for 20 mins, then reduce the oven to 180°C/160°C fan/gas 4 and cook for 25-30 mins more, basting halfway through.", &["oven w20 c200", "oven w30 c180"]),
        ("Check the chicken has reached 75°C in the thickest part, then rest for 10 mins under foil.", &["- e w10 i75"]),
    ]),
    ("Braised red cabbage", &["1 red cabbage", "2 apples", "1 onion", "3 tbsp cider vinegar", "2 tbsp brown sugar", "30 g butter"], &[
        ("Set the oven at 150C/130C fan/gas 2. Quarter and core the cabbage, then slice very finely. Peel and chop the apples and onion.", &["- e : 1 2 3"]),
        ("Layer up in a casserole with a lid, sprinkling each layer with vinegar and sugar. Dot with the butter.", &["- e : 4 5 6"]),
        ("Cover and braise in the oven for 1½ hours, stirring every 30 minutes, then take off the lid and give it another half an hour.", &["oven e w90 c150", "oven e w30 c150"]),
    ]),
    ("Barley under pressure, with peas", &["1 cup pearl barley", "3 cups vegetable stock", "1 tbsp oil", "1 onion", "100 g peas"], &[
        ("Select sauté and heat the oil; add the onion and cook 4 to 5 minutes, stirring occasionally. Stir in the barley.", &["hob e w5 : 3 4", "- e : 1"]),
        ("Add stock. Lock lid and cook on high pressure for 20 minutes; let the pressure come down on its own for 10 minutes, then quick-release any that is left.", &["pressure cooker e w30 : 2"]),
        ("Stir in the peas, put the lid back on and leave them to warm through for 3 minutes.", &["- e w3 : 5"]),
    ]),
    ("Meatballs", &["500 g minced beef", "1 egg", "50 g breadcrumbs", "1 tin (400 g) chopped tomatoes", "2 cloves garlic", "2 tbsp olive oil"], &[
        ("Combine the first three ingredients with a good pinch of salt, roll into 20 balls and chill for at least 15 minutes.", &["- e w15 : 1 2 3"]),
        ("Fry the meatballs in half the oil for 6-8 mins, turning often, until browned all over (do this in two batches). Set aside.", &["hob h8 : 6"]),
        ("In the same pan, heat the remaining oil and cook the garlic for 1 min. Tip in the tomatoes, half-fill the can with water, swirl and add that too. Bring to a simmer and bubble for 10 mins.", &["hob e w1 : 5 6", "hob e w7 : 4", "hob w10"]),
        ("Return the meatballs and simmer, covered, for another 15 mins, or until cooked through (70°C in the middle).", &["hob e w15 i70"]),
    ]),
    ("Oats in a jar", &["100 g rolled oats", "200 ml milk", "1 tbsp honey", "1 apple"], &[
        ("Stir the oats, milk and honey together, cover and pop in the fridge overnight (or for at least 4 hours).", &["- e a480 : 1 2 3"]),
        ("Next morning, grate over the apple and loosen with a splash more milk.", &["- e : 4"]),
    ]),
    ("Lentils with a tempering", &["250 g red lentils", "1.2 l water", "1 tsp ground turmeric", "1 onion", "2 tbsp oil", "1 tsp cumin seeds"], &[
        ("Wash the lentils until the water runs clear. Put in a pan with the water and turmeric, bring to the boil, skim, then lower heat and simmer, partially covered, for 25-30 minutes, stirring from time to time, until mushy.", &["hob e w8 : 1 2 3", "hob e w30"]),
        ("For the tempering: heat the oil in a small pan until shimmering, throw in the cumin seeds and, once they crackle, the onion. Fry on a medium-high flame for 10-12 minutes till deep brown.", &["hob h12+ : 4 5 6"]),
        ("Tip the sizzling onions over the lentils, cover and leave for 2 minutes. Serve piping hot.", &["- e w2"]),
    ]),
    ("Fish under the broiler", &["1 1/2 lb cod fillets", "2 tbsp butter", "1/4 cup chopped dill", "1 lemon"], &[
        ("Heat broiler with rack 6 inches from heat source. Melt butter in microwave, about 30 seconds.", &["microwave w1 : 2"]),
        ("Arrange fish in single layer in a 13 x 9-inch baking dish; brush with butter and sprinkle with dill.", &["- e : 1 3"]),
        ("Broil until fish flakes easily and internal temp registers 145°, 8-10 min. Let stand 3 min; squeeze lemon over top.", &["grill w10 i63", "- w3", "- e : 4"]),
    ]),
    ("Roots and barley at once", &["500 g carrots", "500 g beetroot", "300 g pearl barley", "3 tbsp olive oil", "1 tbsp vinegar"], &[
        ("Roast the carrots and beetroot with 2 tbsp of the oil at 200°C for 35-40 minutes while you simmer the barley in plenty of water for 30 minutes; drain.", &["oven e w40 c200 : 1 2 4", "hob e w30 = : 3", "- e"]),
        ("Whisk the vinegar with the rest of the oil and fold through the lot. Good warm or cold; keeps 4 days in the fridge.", &["- e + : 4 5"]),
    ]),
    ("Rice, terse", &["2 cups long-grain rice", "3 cups water", "1 tbsp butter"], &[
        ("Rinse rice. Combine with water in heavy saucepan, bring to boil on high, then turn to lowest setting, cover tightly and leave undisturbed 18 min. No peeking!", &["hob e w7 : 1 2", "hob e w18"]),
        ("Off heat, rest 10 min with lid on. Fork through butter.", &["- w10", "- e : 3"]),
    ]),
    ("Apple crumble", &["6 cooking apples", "200 g plain flour", "100 g butter", "100 g brown sugar"], &[
        ("Heat oven to 180 fan/200C/gas 6.", &[]),
        ("Peel, core and thickly slice the apples, spread in a deep dish. Rub the butter into the flour until it looks like crumbs, stir in the sugar and scatter over.", &["- e : 1 2 3 4"]),
        ("Bake for 40-45 mins till golden and bubbling at the edges. Stand for 10 minutes.", &["oven w45 c200", "- w10"]),
    ]),
    ("Chicken and noodle soup", &["2 tbsp butter", "1 onion, chopped", "2 stalks celery, sliced", "6 cups chicken stock", "1 lb cooked chicken, shredded", "2 carrots, sliced", "8 oz egg noodles", "1/2 tsp dried thyme"], &[
        ("In a large pot over medium heat, melt butter. Cook onion and celery in butter until just tender, 5 minutes.", &["hob e w5 : 1 2 3"]),
        ("Pour in chicken stock and stir in chicken, carrots and thyme. Bring to a boil, then reduce heat and simmer 20 minutes.", &["hob e w8 : 4 5 6 8", "hob w20"]),
        ("Stir in noodles and cook 8 to 10 minutes longer, until noodles are tender.", &["hob e w10 : 7"]),
    ]),
    ("Minced beef under mash", &["500 g minced beef", "1 onion, finely chopped", "2 carrots, diced", "1 tbsp tomato puree", "400 ml beef stock", "900 g potatoes", "50 g butter", "75 g cheddar, grated"], &[
        ("Heat a large frying pan and dry-fry the mince for 8-10 mins until browned. Tip in the onion and carrots and cook for another 8 mins until softened.", &["hob h10+ w8 : 1 2 3"]),
        ("Stir in the tomato purée and stock, bring to a simmer, cover and cook for 45 mins. Uncover and simmer for 15 mins more to thicken.", &["hob e w6 : 4 5", "hob e w45", "hob w15"]),
        ("Meanwhile, peel the potatoes and cut into chunks. Boil for 15-20 mins, drain well, then mash with the butter.", &["- e = : 6", "hob w20 +", "- e : 7"]),
        ("Heat oven to 220C/200C fan/gas 7. Spoon the mince into a dish, top with the mash, scatter over the cheese and bake for 25-30 mins.", &["oven e w30 c220 : 8"]),
    ]),
    ("Courgette and egg bake", &["5 eggs", "150 g self-raising flour", "375 g courgettes, grated", "1 onion, finely chopped", "200 g bacon, diced", "100 g cheddar, grated", "60 ml vegetable oil"], &[
        ("Preheat oven to 170°C. Grease and line a 30 x 20cm lamington pan.", &["- e"]),
        ("Beat the eggs in a large bowl until combined. Add the flour and beat until smooth, then add the remaining ingredients and stir to combine.", &["- e : 1 2 3 4 5 6 7"]),
        ("Pour into the prepared pan and bake in oven for 30 minutes or until cooked through. Stand for 10 minutes, then cut into squares.", &["oven e w30 c170", "- w10", "- e"]),
    ]),
    ("Chickpeas with cumin", &["200 g dried chickpeas", "1 onion, chopped", "2 tomatoes, chopped", "1 tsp cumin seeds", "2 tbsp oil", "1 tsp garam masala"], &[
        ("Rinse the chickpeas a few times and soak them in 3 cups of water overnight or for 8 hours. Drain.", &["- e a480 : 1", "- e"]),
        ("Pressure cook the chickpeas with 2 cups water for 20 minutes on high. Allow the pressure to release naturally.", &["pressure cooker w35"]),
        ("Heat oil in a pan on medium flame. Add the cumin seeds. When they sizzle, add the onion and sauté for 5 to 6 minutes until golden.", &["hob h6+ : 2 4 5"]),
        ("Add the tomatoes and cook for 4-5 minutes till mushy. Add the garam masala, mix well and cook for 1 minute. Pour in the chickpeas with their water and simmer on low flame for 10-12 mins, stirring at intervals.", &["hob e w5 : 3", "hob e w1 : 6", "hob e w12"]),
    ]),
    ("Ribs in foil", &["2 kg pork ribs", "1/4 cup brown sugar", "1 tbsp paprika", "1 cup ketchup", "1/4 cup vinegar"], &[
        ("Preheat oven to 300°F (150°C). Stir together the brown sugar and paprika; rub all over ribs. Refrigerate for 1 hour.", &["- e w60 : 1 2 3"]),
        ("Wrap ribs tightly in foil; bake on rimmed baking sheet until tender, about 2 1/2 hours.", &["oven e w150 c149"]),
        ("Meanwhile, in saucepan, bring ketchup and vinegar to boil; reduce heat and simmer until thickened, about 8 minutes.", &["hob e w7 = : 4 5", "hob w8"]),
        ("Unwrap ribs; brush with sauce. Broil, brushing once, until glazed, about 5 minutes.", &["grill e w5 +"]),
    ]),
    ("Boiled lamb, the old way", &["3 lb lamb shoulder", "4 carrots", "2 turnips", "1 oz butter", "1 oz plain flour", "1/2 pint milk"], &[
        ("Put the lamb into a large pot of boiling water, let it boil up, skim it, then draw aside and simmer very gently for about two hours and a half.", &["hob e w10 : 1", "hob e w150"]),
        ("An hour before it is done add the carrots and turnips, scraped and cut into neat pieces.", &["- e : 2 3"]),
        ("For the sauce: melt the butter, stir in the flour and cook for two minutes, then add the milk by degrees, and stir till it boils.", &["hob e w2 : 4 5", "hob e : 6"]),
    ]),
    ("Lukewarm lentils", &["250 g green lentils", "1 carrot", "1 onion", "2 tbsp olive oil", "700 ml vegetable stock", "1 bay leaf", "1 tbsp vinegar"], &[
        ("Finely dice the carrot and onion. Sweat in the oil over a low heat for 8 min.", &["- e : 2 3", "hob w8 : 4"]),
        ("Add the lentils, stock and bay leaf. Bring to the boil, cover, and simmer for 25–30 min. The lentils should be tender but whole.", &["hob e w7 : 1 5 6", "hob e w30"]),
        ("Remove the bay leaf, stir in the vinegar and let stand for 5 min. Serve lukewarm.", &["- e w5 : 7"]),
    ]),
    ("Pulled beef", &["1.5 kg beef brisket", "2 onions, sliced", "250 ml beef stock", "2 tbsp tomato puree", "1 tbsp oil"], &[
        ("Heat the oil in a large frying pan and sear the brisket for 3 mins on each side. Transfer to the slow cooker.", &["hob h6+ : 1 5"]),
        ("Fry the onions in the same pan for 5 mins, add the stock and tomato purée and bring to the boil, then pour over the beef.", &["hob h5+ w6 : 2 3 4", "- e"]),
        ("Cover and cook on low for 8 hours (or on high for 5 hours).", &["slow cooker e w480"]),
        ("Lift out the beef, rest for 10 mins, then shred. Meanwhile, boil the juices in a pan for 10 mins to reduce.", &["- e w10", "- e", "hob w10 ="]),
    ]),
    ("Potatoes in the microwave", &["4 baking potatoes", "2 tbsp plain yoghurt", "1 tbsp chopped chives"], &[
        ("Prick the potatoes all over and microwave on full power for 5 minutes. Turn over and cook for 4-5 minutes more.", &["microwave e w5 : 1", "microwave e w5"]),
        ("Crisp them up in the oven at 200°C for 15 minutes if you have the time.", &["oven w15 c200"]),
        ("Mix the yoghurt with the chives. Split the potatoes and spoon it over.", &["- e : 2 3"]),
    ]),
    ("Rolls", &["500 g strong white flour", "10 g salt", "7 g dried yeast", "320 ml water", "20 g butter"], &[
        ("Rub the butter into the flour, stir in the salt and yeast, then mix in the water to a soft dough. Knead for 10 minutes, or 5 in a mixer.", &["- h10+ : 1 2 3 4 5"]),
        ("Leave to prove, covered, in a warm spot for 1–1½ hours. Knock back, shape into 12 balls and place on a floured tray. Prove again for 40 minutes.", &["- w90", "- e w40"]),
        ("Heat the oven to 220°C/fan 200°C/gas 7. Bake for 15 minutes, swap the trays round, then bake for another 5 minutes until they sound hollow. Cool on a rack.", &["oven w15 c220", "oven w5 c220", "- w30"]),
    ]),
    ("Sausages in batter", &["8 pork sausages", "2 tbsp oil", "140 g plain flour", "4 eggs", "200 ml milk"], &[
        ("Put the sausages in a roasting tin with the oil and cook at 220C/200C fan/gas 7 for 15 mins.", &["oven e w15 c220 : 1 2"]),
        ("While they cook, whisk the flour and eggs, then gradually beat in the milk until smooth.", &["- e = : 3 4 5"]),
        ("Take the tin from the oven, pour in the batter quickly and return to the oven for 25-30 mins. Don't open the door for the first 20 mins.", &["oven e w30 c220 +"]),
    ]),
    ("Stirred rice", &["1 l vegetable stock", "1 onion, finely chopped", "50 g butter", "300 g risotto rice", "100 ml white wine", "50 g parmesan, grated"], &[
        ("Keep the stock warm in a pan over a low heat. Melt half the butter in a wide pan and cook the onion gently for 10 mins until soft.", &["hob e w10 : 1 2 3"]),
        ("Stir in the rice for 2 mins, then add the wine and let it bubble until absorbed. Add the stock a ladle at a time, stirring constantly, for 18-20 mins.", &["hob h2+ w5 : 4 5", "hob h20"]),
        ("Off the heat, beat in the rest of the butter and the parmesan, cover and leave for 2 mins before serving.", &["- e w2 : 3 6"]),
    ]),
    ("Carrot and lentil soup", &["1 tbsp olive oil", "1 onion, chopped", "600 g carrots, grated", "140 g red lentils", "1 l vegetable stock", "125 ml milk", "2 tsp cumin seeds"], &[
        ("Heat a large saucepan and dry-fry the cumin seeds for 1 min, or until they start to jump around the pan. Scoop out about half and set aside.", &["hob h1+ : 7"]),
        ("Add the oil, carrots, lentils, stock and milk to the pan and bring to the boil. Simmer for 15 mins until the lentils have swollen and softened.", &["hob e w8 : 1 3 4 5 6", "hob w15"]),
        ("Whizz the soup with a stick blender until smooth (or leave it chunky if you prefer). Season to taste and finish with the reserved spices.", &["- e"]),
    ]),
    ("Chicken traybake", &["8 chicken thighs", "500 g new potatoes, halved", "2 red onions, cut into wedges", "3 tbsp olive oil", "200 g cherry tomatoes", "1 lemon"], &[
        ("Heat oven to 220C/200C fan/gas 7. Toss the potatoes and onions in a roasting tin with 2 tbsp of the oil and roast for 20 mins.", &["oven e w20 c220 : 2 3 4"]),
        ("Nestle in the chicken, drizzle with the rest of the oil and return to the oven for 25 mins.", &["oven e w25 c220 : 1 4"]),
        ("Add the tomatoes and squeeze over the lemon, turn the oven down to 200C/180C fan/gas 6 and cook for a final 10-15 mins.", &["oven e w15 c200 : 5 6"]),
    ]),
    ("A pot of black beans", &["1 lb dried black beans", "1 onion, halved", "4 cloves garlic", "2 tsp salt"], &[
        ("Rinse beans and place in a large bowl; cover with water by 3 inches and let stand at room temperature at least 8 hours. Drain.", &["- e a480 : 1", "- e"]),
        ("Place beans in a Dutch oven with the onion and garlic; add fresh water to cover. Bring to a boil over high heat, skimming any foam; reduce heat to medium-low and simmer, partially covered, until tender, 1 to 1 1/2 hours, adding the salt halfway.", &["hob e w7 : 2 3", "hob e w90 : 4"]),
        ("Remove from heat and let cool in liquid 30 minutes.", &["- e w30"]),
    ]),
    ("Oat bars", &["200 g rolled oats", "100 g butter", "80 g honey", "50 g raisins"], &[
        ("Line a 20 cm square tin with paper and set the oven to 160 °C fan (180 °C).", &["- e"]),
        ("Melt the butter and honey together in a small saucepan over a gentle heat, stirring, about 3 minutes.", &["hob h3 : 2 3"]),
        ("Take off the heat, stir in the oats and raisins, press into the tin and bake for 20 to 25 minutes until golden at the edges.", &["oven e w25 c180 : 1 4"]),
        ("Leave in the tin until completely cold, then cut into 12.", &["- e"]),
    ]),
    ("Rice in the rice cooker", &["2 cups white rice", "2 1/2 cups water", "1 tbsp butter"], &[
        ("Wash the rice under running water, drain, and soak for 20 minutes in the measured water.", &["- e w20 : 1 2"]),
        ("Switch on the rice cooker; it will take around 25 minutes. Once done, leave on keep-warm for 10 minutes and fluff up with the butter.", &["rice cooker w25", "- w10", "- e : 3"]),
    ]),
    ("Sunday lamb", &["2 kg leg of lamb", "4 cloves garlic, sliced", "2 sprigs rosemary", "1 tbsp olive oil", "300 ml stock"], &[
        ("Take the lamb out of the fridge an hour beforehand. Make small cuts all over it and push in the garlic and rosemary. Rub with the oil.", &["- e : 1 2 3 4"]),
        ("Roast in a preheated oven at 230 C (gas 8) for 20 minutes. Lower the heat to 180 C (gas 4) and continue roasting for 1 hour 20 minutes for pink, or 1 hour 50 for well done.", &["oven w20 c230", "oven w80 c180"]),
        ("When it is done, wrap it loosely and let it rest somewhere warm for 20-30 minutes.", &["- e w30"]),
        ("Meanwhile, put the tin over a medium heat, pour in the stock and simmer for 5 minutes, scraping up the bits.", &["hob e w5 = : 5"]),
    ]),
    ("Tomato sauce", &["2 tins (400 g) chopped tomatoes", "3 tbsp olive oil", "3 cloves garlic, crushed", "1 tsp sugar"], &[
        ("Gently heat the oil and garlic in a wide pan till the garlic just begins to colour – about 2 mins.", &["hob w2 : 2 3"]),
        ("Add the tomatoes and sugar, half cover, and leave to blip away on the lowest heat for three quarters of an hour, giving it the odd stir.", &["hob e w45 : 1 4"]),
    ]),
    ("Steamed fish, terse", &["4 fillets cod", "20 g ginger", "2 spring onions", "2 tbsp soy sauce"], &[
        ("Shred ginger and spring onions. Lay fish on plate, scatter over half of each, steam over boiling water 8–10 min.", &["hob e w10 : 1 2 3"]),
        ("Dress with soy and rest of ginger and onions.", &["- e : 4"]),
    ]),
    ("Dinner rolls", &["4 cups plain flour", "1 tbsp sugar", "2 1/4 tsp dried yeast", "1 1/2 cups milk", "1/4 cup butter"], &[
        ("In a small saucepan, heat milk and butter until warm (120 to 130 degrees F). In a mixing bowl combine flour, sugar and yeast. Add milk mixture and beat on low speed 2 minutes, then on high 3 minutes.", &["hob h5+ : 1 2 3 4 5"]),
        ("Turn out onto a floured surface; knead until smooth and elastic, 6 to 8 minutes. Place in a greased bowl, turning once. Cover and let rise in a warm place until doubled, about 1 hour.", &["- h8+ w60"]),
        ("Punch dough down. Divide into 16 pieces; shape into balls. Place 2 in. apart on greased baking sheets. Cover and let rise 30 minutes.", &["- e w30"]),
        ("Bake at 375° for 12-15 minutes or until golden brown. Remove from pans to wire racks.", &["oven w15 c191", "- e"]),
    ]),
    ("Split pea soup", &["500 g split peas", "1 onion", "2 carrots", "1.5 l stock", "1 bay leaf"], &[
        ("Put everything in the slow cooker and give it a good stir.", &["- e : 1 2 3 4 5"]),
        ("Cook on low for 8–10 hours, or on high for 4–5. Fish out the bay leaf and blend.", &["slow cooker w600", "- e"]),
    ]),
    ("Pan pizza", &["250 g strong flour", "160 ml water", "1 tsp dried yeast", "100 ml passata", "125 g mozzarella"], &[
        ("Stir flour, yeast and water to a sticky dough; cover and refrigerate overnight or for up to 2 days.", &["- e a480 : 1 2 3"]),
        ("Next day, bring the dough to room temperature (1–2 hours), then press it into an oiled frying pan.", &["- w120", "- e"]),
        ("Spread with the passata and mozzarella. Cook over a high heat for 3 minutes, then under a very hot grill for 3–5 minutes more.", &["hob e w3 : 4 5", "grill w5"]),
    ]),
    ("Egg fried rice", &["2 tbsp oil", "3 eggs", "400 g cooked rice", "100 g peas", "2 spring onions, sliced"], &[
        ("Get a wok smoking hot over a high heat. Swirl in half the oil and the beaten eggs; scramble for 30 seconds, tip onto a plate.", &["hob h1+ : 1 2"]),
        ("Add the rest of the oil, then the rice and peas. Stir-fry for 3-4 minutes until piping hot. Return the eggs, toss through the spring onions and serve immediately.", &["hob h4+ : 1 3 4 5"]),
    ]),
    ("Barley bake", &["250 g pearl barley", "700 ml vegetable stock", "1 leek, sliced", "200 g feta", "2 tbsp olive oil"], &[
        ("Heat the oven to 180 °C top and bottom heat (160 °C fan). In a flameproof casserole, soften the leek in the oil for 5 minutes.", &["- e", "hob h5 : 3 5"]),
        ("Stir in the barley and pour on the hot stock. Cover and transfer to the oven for 50 minutes.", &["oven e w50 c180 : 1 2"]),
        ("Crumble over the feta; put back, uncovered, for a further 10.", &["oven e w10 c180 : 4"]),
        ("It keeps three days in the fridge. Reheat until steaming, 3 to 4 minutes in the microwave.", &["microwave w4"]),
    ]),
    ("Oats of the night before", &["200 g rolled oats", "400 ml oat milk", "2 tbsp honey", "1 apple"], &[
        ("The night before, stir the oats, oat milk and honey together in a bowl. Cover and leave in the fridge overnight.", &["- e a480 : 1 2 3"]),
        ("In the morning, grate in the apple and divide between four jars.", &["- e : 4"]),
    ]),
    ("Dough of the night before", &["400 g plain flour", "250 g plain yoghurt"], &[
        ("The night before, mix the flour and yoghurt and knead for 5 minutes.", &["- h5+ a480 : 1 2"]),
        ("Bake at 220 °C for 12 minutes.", &["oven w12 c220"]),
    ]),
];
