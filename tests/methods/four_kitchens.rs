//! Sixty-seven paragraphs of twenty dishes, British, American, Australian and Indian. Each reading was written down before the paragraph was run. At once
//! 59 of them were read rightly; what was not, and has been mended:
//!
//! - "A 300-degree oven. Cook … adding carrots": the carrots were nowhere yet, so all of it went on the hob: silently.
//! - "To freeze, …; thaw overnight" was a night's wait at the end: silently.
//! - "Steam-dry for a min" was hands: silently.
//! - "Keeping them warm in a low oven" put the frying into the oven; "set cooker to simmer" and "heat 1 min more" stood on a wrong place.
//! - "Heat in the oven for 5 mins" and "keep aside for 30 minutes" were not planned: told.
//!
//! The roasting by weight is told and planned for one part of it, as ever.

use super::paragraphs::Dish;

#[rustfmt::skip]
pub static RECIPES: &[Dish] = &[
    ("Dal", &["1 cup toor dal", "3 cups water", "½ tsp turmeric", "1 tbsp ghee", "1 tsp cumin seeds", "2 green chillies", "1 onion", "2 tomatoes", "coriander, to garnish"], &[
        ("Pressure cook the dal with turmeric and water for 4 whistles, about 15 minutes on medium flame. Let the pressure release by itself.", &["pressure cooker e w30 : 1 2 3"]),
        ("Heat ghee in a kadai. Splutter the cumin, add slit green chillies and onion and sauté till golden, 6-7 mins.", &["hob h7+ : 4 5 6 7"]),
        ("Add tomatoes; cook till mushy, 4 mins. Pour in the cooked dal and simmer on a low flame for 5 more minutes. Garnish with coriander.", &["hob e w4 : 8", "hob e w5"]),
    ]),
    ("Oat slice (Australia)", &["1 cup rolled oats", "1 cup plain flour", "¾ cup brown sugar", "125 g butter", "2 tbsp golden syrup", "½ tsp bicarbonate of soda"], &[
        ("Preheat oven to 160°C fan-forced. Grease and line a slice pan.", &["- e"]),
        ("Melt butter and golden syrup in a small saucepan over low heat, 3 mins. Stir in bicarb.", &["hob h3+ : 4 5 6"]),
        ("Combine oats, flour and sugar in a large bowl; pour over the butter mixture and mix well. Press into pan.", &["- e : 1 2 3"]),
        ("Bake for 25–30 minutes or until golden. Cool completely in the pan before slicing.", &["oven w30 c180", "- e"]),
    ]),
    ("Pot roast (US)", &["3 lb chuck roast", "1 tbsp vegetable oil", "2 cups beef broth", "1 onion", "4 carrots", "1 1/2 lb potatoes"], &[
        ("Pat beef dry and season generously. Heat oil in a large Dutch oven over medium-high until shimmering. Sear roast 4 to 5 minutes per side; transfer to a plate.", &["hob h10+ : 1 2"]),
        ("Add onion to pot; cook, stirring occasionally, until softened, 5 min. Pour in broth, scraping up browned bits.", &["hob e w5 : 4", "- e : 3"]),
        ("Return beef to pot, cover, and transfer to a 300-degree oven. Cook until fork-tender, 3 to 3½ hours, adding carrots and potatoes during the last hour.", &["oven e w210 c149 : 5 6"]),
        ("Let meat rest 15 minutes, tented with foil, before slicing against the grain.", &["- w15"]),
    ]),
    ("Fish pie", &["600 g white fish", "500 ml milk", "1 kg potatoes", "50 g butter", "50 g plain flour", "100 g frozen peas", "75 g cheddar"], &[
        ("Boil the potatoes in salted water for 15–20 mins, until tender. Drain, then steam-dry for a min and mash with a knob of the butter.", &["hob e w20 : 3", "- e w1", "- e : 4"]),
        ("Meanwhile, put the fish in a frying pan with the milk, bring just to the boil, then turn down and poach for 5 mins. Lift out the fish and reserve the milk.", &["hob e w6 = : 1 2", "hob w5", "- e +"]),
        ("Melt the remaining butter in a pan, stir in the flour and cook for 1 min. Gradually whisk in the hot milk and simmer, stirring all the time, for 4 mins until thick.", &["hob e w1 : 4 5", "hob h4+"]),
        ("Heat oven to 200C/180C fan/gas 6. Flake the fish into a dish, add the peas, pour over the sauce and top with the mash. Scatter with the cheese and bake for 30 mins until bubbling.", &["- e : 6 7", "oven w30 c200"]),
    ]),
    ("White loaf", &["500 g strong white flour", "7 g sachet fast-action yeast", "1½ tsp salt", "320 ml warm water", "2 tbsp olive oil"], &[
        ("Tip the flour, yeast and salt into the bowl of a stand mixer. Pour in the water and oil and mix on a low speed for 2 minutes, then on medium for 6.", &["- h8+ : 1 2 3 4 5"]),
        ("Cover with a damp tea towel and prove somewhere warm for 1–1½ hrs, or until doubled in size.", &["- e w90"]),
        ("Knock back, shape into a loaf and put in a 900 g tin. Leave to prove again for 45 mins.", &["- e w45"]),
        ("Heat the oven to 220°C (200°C fan), gas mark 7, with a tray of water on the lowest shelf. Bake for 15 minutes, then lower the temperature to 190°C and bake for 20 minutes more. Turn out on to a wire rack to cool.", &["oven w15 c220", "oven w20 c190", "- e"]),
    ]),
    ("Pulao", &["1 cup basmati rice", "2 cups water", "2 tbsp ghee", "1 onion", "4 cloves", "1 bay leaf"], &[
        ("Wash the rice in 3-4 changes of water and soak for 20 minutes. Drain.", &["- e w20 : 1", "- e"]),
        ("Heat the ghee, add the cloves and bay leaf and fry for 30 seconds. Add the onion and fry until light brown, 8 to 10 minutes.", &["hob h10+ : 3 4 5 6"]),
        ("Add the rice, stir gently for a minute, pour in the water and bring to a rolling boil. Cover with a tight lid, reduce the flame to the lowest and cook for 12 minutes.", &["hob h1+ w6 : 2", "hob e w12"]),
        ("Switch off and do not open the lid for 10 minutes. Fluff up with a fork.", &["- w10", "- e"]),
    ]),
    ("Salmon on one tray (US)", &["1 1/2 lb salmon fillet", "1 lb asparagus", "2 tbsp olive oil", "1 lemon", "2 cloves garlic, minced"], &[
        ("Adjust oven rack to middle position and heat oven to 425 degrees. Toss asparagus with 1 tablespoon oil and spread on one half of a rimmed baking sheet.", &["- e : 2 3"]),
        ("Place salmon skin-side down on the other half; brush with remaining oil mixed with the garlic. Roast until center is just opaque and registers 140 to 145 degrees, 10–12 min.", &["oven e w12 c218 i63 : 1 3 5"]),
        ("Squeeze half the lemon over; cut the rest in wedges and serve alongside.", &["- e : 4"]),
    ]),
    ("Pulled pork", &["1.5 kg pork shoulder", "1 onion", "250 ml cider", "2 tbsp brown sugar", "1 tbsp smoked paprika"], &[
        ("Rub the pork all over with the sugar and paprika. Leave in the fridge overnight if you have time.", &["- e a480 : 1 4 5"]),
        ("Put the sliced onion in the base of the slow cooker, sit the pork on top and pour the cider around it. Cover and cook on Low for 8–10 hours.", &["slow cooker e w600 : 2 3"]),
        ("Lift out the meat, cover with foil and rest for 20 mins. Shred with two forks and moisten with the juices.", &["- e w20", "- e"]),
    ]),
    ("Courgette frittata", &["8 eggs", "1 tbsp olive oil", "2 courgettes", "100 g feta", "small bunch mint"], &[
        ("Preheat the grill to medium-high. Grate the courgettes, squeeze out the water in a clean cloth.", &["- e : 3"]),
        ("Heat the oil in a 24 cm ovenproof frying pan and cook the courgette for 5 minutes, stirring, until lightly coloured.", &["hob h5+ : 2"]),
        ("Beat the eggs with the mint, pour over and cook gently without stirring for 6–8 mins until the edges are set. Crumble over the feta and slide the pan under the grill for 3–4 mins until puffed.", &["- e : 1 5", "hob w8", "grill e w4 : 4"]),
        ("Leave for 5 mins, then turn out onto a board and cut into wedges.", &["- w5", "- e"]),
    ]),
    ("Shanks (Australia)", &["4 lamb shanks", "1 tbsp olive oil", "1 brown onion", "400 g can diced tomatoes", "1 cup beef stock", "2 sprigs rosemary"], &[
        ("Heat oil in pressure cooker on sauté setting. Brown shanks, in two batches, for 3 mins each side. Remove.", &["pressure cooker h6+ : 1 2"]),
        ("Cook onion for 3 min or until soft. Return shanks to cooker with tomatoes, stock and rosemary. Lock lid in place and bring to high pressure. Cook for 40 min. Release pressure using the quick release method.", &["hob e w3 : 3", "pressure cooker e w6 : 4 5 6", "pressure cooker w40"]),
        ("Set cooker to simmer, uncovered, 10 min, until sauce thickens.", &["pressure cooker w10"]),
    ]),
    ("Rice pudding", &["100 g pudding rice", "1 l whole milk", "50 g caster sugar", "1 vanilla pod", "25 g butter"], &[
        ("Set the oven to gas mark 2. Butter a 1.5 litre dish and tip in the rice and sugar.", &["- e : 1 3"]),
        ("Bring the milk and vanilla to a simmer in a pan, stirring occasionally, then pour over the rice. Dot with butter and bake on the middle shelf for 1¾ hours, stirring after 30 minutes and again after an hour.", &["hob e w7 : 2 4", "oven e w105 c150 : 5"]),
        ("Let it settle for ten minutes or so. Good cold, too, the next day.", &["- w10"]),
    ]),
    ("Barley salad", &["200 g pearl barley", "400 g tin chickpeas", "1 cucumber", "½ bunch parsley", "3 tbsp olive oil", "1 lemon"], &[
        ("Simmer the barley in plenty of salted water for 30-35 minutes; drain, rinse under the cold tap and leave to drain well.", &["hob e w35 : 1", "- e"]),
        ("Whisk the oil with the lemon zest and juice. Fold through the barley with the drained chickpeas, diced cucumber and most of the parsley. Leave at room temperature for at least half an hour for the flavours to mingle.", &["- e w30 : 2 3 4 5 6"]),
        ("Will keep, covered, in the fridge for 3 days. Scatter with the remaining parsley to serve.", &[]),
    ]),
    ("Chicken curry (India)", &["600 g chicken thigh fillets", "150 g yoghurt", "1 tbsp garam masala", "2 onions", "1 tbsp ginger-garlic paste", "200 g tomato puree", "50 ml cream"], &[
        ("Marinate the chicken in the curd, half the garam masala and salt. Keep aside for at least 30 minutes, preferably 2 hours.", &["- w30 : 1 2 3"]),
        ("Fry the onions on a medium flame till golden brown (10–12 minutes). Add the ginger-garlic paste and fry till the raw smell goes, a minute or two.", &["hob h14+ : 4 5"]),
        ("Add the tomato puree and cook until the oil separates, around 8 mins. Tip in the chicken with its marinade, cover and cook on low heat for 20 mins, stirring in between.", &["hob e w8 : 6", "hob e w20"]),
        ("Finish with cream and remaining garam masala. Rest covered for 5 min before serving with rice.", &["- e w5 : 3 7"]),
    ]),
    ("Flatbreads", &["250 g self-raising flour", "250 g yoghurt", "½ tsp salt"], &[
        ("Mix to a shaggy dough, knead for a minute or two, then cover and set aside for 15 minutes.", &["- h2+ w15"]),
        ("Divide into eight, roll each out thinly. Dry-fry in a very hot pan for about 1½ minutes on each side, keeping them warm in a low oven as you go.", &["- e", "hob h3"]),
    ]),
    ("Macaroni bake (US)", &["1 lb ground beef", "1 onion, chopped", "1 (15 oz) can tomato sauce", "8 oz macaroni", "2 cups shredded Cheddar cheese"], &[
        ("Heat oven to 350°F. Cook macaroni according to package directions; drain.", &["hob e w10 : 4", "- e"]),
        ("Meanwhile, brown beef and onion in 12-inch skillet over medium-high heat 8 minutes, breaking up meat; drain fat.", &["hob h8+ = : 1 2"]),
        ("Stir in sauce and macaroni. Spoon into ungreased 2-quart casserole; sprinkle with cheese. Bake uncovered 25 to 30 minutes or until hot in center.", &["oven e w30 c177 + : 3 5"]),
        ("Let stand 5 minutes before serving. To freeze, wrap tightly and freeze up to 3 months; thaw overnight in the refrigerator before reheating.", &["- w5"]),
    ]),
    ("Jacket potatoes quickly", &["2 large potatoes", "1 can (400 g) baked beans", "50 g grated cheddar"], &[
        ("Prick the potatoes all over, wrap in kitchen paper and microwave on high for 8-10 minutes, turning halfway. Stand for 2 mins.", &["microwave e w10 : 1", "- w2"]),
        ("Empty the beans into a bowl, cover and heat in the microwave at 800W for 2 min; stir; heat 1 min more.", &["microwave e w2 : 2", "microwave e w1"]),
        ("Cut a cross in each potato, pile on the beans and finish with cheese.", &["- e : 3"]),
    ]),
    ("Roast chicken", &["1.6 kg whole chicken", "1 lemon", "50 g butter", "1 kg potatoes", "3 tbsp sunflower oil"], &[
        ("Take the chicken out of the fridge an hour before cooking. Heat the oven to 190C/fan 170C/gas 5. Rub the butter under the skin and put the lemon in the cavity.", &["- e : 1 2 3"]),
        ("Weigh the bird and roast for 20 mins per 450 g plus 20 mins extra, basting now and then, until the juices run clear.", &["oven e w40 c190"]),
        ("Meanwhile, parboil the potatoes for 8 mins, drain and shake to roughen. Pour the oil into a roasting tin, heat in the oven for 5 mins, then add the potatoes and roast for 50 mins, turning once.", &["hob e w8 = : 4", "- e", "oven e w5 c190 + : 5", "oven e w50 c190"]),
        ("Once the chicken is done, cover loosely and rest for a good 20 minutes while you make the gravy.", &["- e w20"]),
    ]),
    ("Poached plums", &["500 g plums", "100 g sugar", "1 cinnamon stick", "150 ml water"], &[
        ("Halve and stone the plums. Dissolve the sugar in the water over a gentle heat, about 5 minutes, stirring.", &["- e : 1", "hob h5 : 2 4"]),
        ("Slip in the plums and cinnamon, cover and poach very gently for 8 to 12 minutes, depending on ripeness. Take off the heat and leave in the syrup till cold.", &["hob e w12 : 3", "- e"]),
    ]),
    ("Idli", &["2 cups idli rice", "1 cup urad dal", "1 tsp salt"], &[
        ("Soak rice and dal separately for 6 hours. Drain and grind to a smooth batter with a little water.", &["- e a1080 : 1 2", "- e a720"]),
        ("Mix in the salt and ferment overnight in a warm place, 8-12 hours.", &["- e a720 : 3"]),
        ("Steam in greased moulds for 10-12 minutes. Cool for 2 minutes, then unmould.", &["hob w12", "- w2", "- e"]),
    ]),
    ("Squash soup", &["1 butternut squash", "1 onion", "2 tbsp olive oil", "1 l vegetable stock", "400 ml coconut milk"], &[
        ("Preheat the oven to 200°C. Cut the squash in half lengthwise, scoop out the seeds and roast, cut-side down, on a lined tray for 45-50 minutes until soft.", &["- e : 1", "oven w50 c200"]),
        ("When the squash has about 10 minutes to go, soften the onion in the oil in a big pot over a medium heat for 8–10 minutes.", &["hob h10 : 2 3"]),
        ("Scoop the flesh into the pot, add the stock, bring up to a simmer and bubble for 10 mins. Off the heat, stir in the coconut milk and blitz until velvety.", &["hob e w7 : 4", "hob w10", "- e : 5"]),
    ]),
];
