//! Forty paragraphs as five hands write them: an old housewife's book, a chef's note, a blog with asides, the back of a packet, a card of
//! the 1950s. The readings were written down before any of them was run, in the notation of the table of paragraphs; afterwards only steps of
//! hands alone, which the notation shows as "-", were put right. Of the forty six are not wholly read, and each of these is told.

use super::{read, told};

type Row = (&'static [&'static str], &'static [&'static str], &'static [&'static str]);

const BEANS: &[&str] = &["1 lb dried white beans", "2 onions", "2 oz butter", "1 bay leaf"];
const BEEF: &[&str] = &["1 kg beef shin", "3 carrots", "2 onions", "1 l beef stock", "2 tbsp plain flour", "2 tbsp oil"];
const HEN: &[&str] = &["1 chicken, 1.5 kg", "1 lemon", "30 g butter", "500 g potatoes"];
const BREAD: &[&str] = &["500 g strong white flour", "7 g dried yeast", "300 ml water", "2 tsp salt"];
const SOUP: &[&str] = &["3 leeks", "400 g potatoes", "1 l vegetable stock", "30 g butter", "100 ml cream"];
const FISH: &[&str] = &["4 cod fillets", "1 lemon", "1/2 bunch dill", "20 g butter"];
const RICE: &[&str] = &["200 g white rice", "400 ml water", "1 tsp salt"];
const LOAF: &[&str] = &["500 g minced beef", "1 onion", "1 egg", "1 cup breadcrumbs", "1/2 cup milk"];
const FRUIT: &[&str] = &["500 g apples", "50 g sugar", "30 g butter"];
const EGGS: &[&str] = &["6 eggs", "60 g feta", "1 red pepper", "1 tbsp olive oil"];

#[rustfmt::skip]
static TABLE: &[Row] = &[
    // An old housewife's book.
    (BEANS, &["Let the beans lie in cold water overnight. Next morning set them over a gentle fire and let them simmer for two hours and a half, never letting them boil hard."], &["- a480", "hob w150"]),
    (BEANS, &["Fry the onions in the butter to a good brown, which will take about a quarter of an hour."], &["hob h15"]),
    (BEEF, &["Cut up the beef, flour it well, and brown it quickly in the hot oil. Add the stock and let all simmer very gently for three hours and a half; an hour before dishing up, put in the carrots."], &["-", "hob w210", "-"]),
    (HEN, &["Put the bird in a brisk oven for the first twenty minutes, then in a moderate one for an hour, basting often."], &["oven w20 c200", "oven w60 c180"]),
    (BREAD, &["Knead the dough well for a quarter of an hour; cover it with a cloth and set it in a warm place for an hour and a half. Bake in a hot oven for three quarters of an hour."], &["- w90", "oven w45 c220"]),
    (FRUIT, &["Stew the apples with the sugar in a covered pan by the side of the fire for twenty minutes."], &["hob w20"]),
    (SOUP, &["Slice the leeks and let them sweat in the butter for ten minutes. Add the potatoes and the stock, boil for half an hour, and rub all through a sieve. Do not boil after the cream is in."], &["-", "hob w10", "hob w30", "-"]),
    (RICE, &["Wash the rice in several waters. Throw it into boiling water, boil fast for twelve minutes, drain, and dry before the fire for five minutes."], &["hob w12", "-"]),
    // A chef's note.
    (BEEF, &["Sear beef 8 min, reserve. Sweat onions + carrots 6 min. Deglaze w/ stock, beef back in, lid on, 150C oven 3 h."], &["hob w6", "oven w180 c150"]),
    (HEN, &["Oven 220C. Roast 20 min, drop to 180C, 50 min more. Core 75C. Rest 15 min."], &["oven w20 c220", "oven w50 c180 i75", "- w15"]),
    (SOUP, &["Sweat leeks in butter, lid on, 8 min. Add potatoes, stock; simmer 20 min. Blitz 2 min, pass. Finish w/ cream off the heat."], &["hob w8", "hob w20", "-"]),
    (FRUIT, &["Roast apples, sugar, butter 200C 25 min, turning once."], &["oven w25 c200"]),
    // A blog with asides.
    (SOUP, &["Melt the butter (real butter, please!) in your biggest pot, add the leeks and cook them low and slow, about 15 minutes, until they're silky."], &["hob w15"]),
    (HEN, &["Now pop the chicken into the oven - I set mine at 190°C - and forget about it for 1 hour 20 minutes. Pour yourself a glass of something. Let it rest for 15 minutes before you carve (trust me!)."], &["oven w80 c190", "- w15"]),
    (BEEF, &["I know, I know, browning is boring, but give the beef a good 10 minutes in the hot oil. Then everything goes in the slow cooker on low for 8 hours while you get on with your life."], &["hob h10", "slow cooker w480"]),
    (BEANS, &["Forgot to soak? No worries: cover the beans with water, boil for 2 minutes, turn off the heat and leave for an hour. Then simmer for 75 minutes."], &["hob w2", "- w60", "hob w75"]),
    (FISH, &["Lay the fish on the lemon, dot with butter and bake at 200°C for 12 minutes (mine took 14, ovens vary)."], &["oven w12 c200"]),
    (BREAD, &["Leave the dough somewhere cosy for about an hour, or until it's puffed up like a pillow. While it rises, heat the oven to 230°C. Bake for 25 minutes and try to wait 20 minutes before slicing!"], &["- w60", "oven w25 c230"]),
    (FRUIT, &["Simmer the apples with the sugar for 15 minutes (don't walk away!), stirring now and then, then let them cool for half an hour."], &["hob w15", "- w30"]),
    // The back of a packet.
    (RICE, &["HOB: Bring the water to the boil, add the rice, cover and simmer for 12 minutes. Leave to stand for 5 minutes.", "MICROWAVE: Place the rice and water in a bowl, cook on full power for 10 minutes, then stand for 5 minutes."], &["hob w6", "hob w12", "- w5"]),
    (FISH, &["From frozen: preheat the oven to 200°C/180°C fan/Gas 6. Place on a baking tray on the middle shelf for 25-30 minutes. Ensure piping hot throughout."], &["oven w30 c200"]),
    (SOUP, &["Microwave: heat on full power for 3 minutes, stir, heat for a further 2 minutes."], &["microwave w3", "microwave w2"]),
    (BREAD, &["Mix the flour, yeast, salt and water. Knead 10 mins. Prove 45 mins. Bake 30-35 mins at 220°C (Fan 200°C, Gas Mark 7)."], &["- w45", "oven w35 c220"]),
    (BEANS, &["Soak for 8 hours. Boil rapidly for 10 minutes, reduce the heat and simmer for 1 hour."], &["- a480", "hob w10", "hob w60"]),
    (RICE, &["Add to plenty of boiling water. Simmer 10-12 mins. Drain. Allow to stand 2 mins. Fluff with a fork."], &["hob w12", "- w2", "-"]),
    (HEN, &["Remove all packaging. Oven cook at 190°C for 45 mins per kg plus 20 mins. Check juices run clear."], &["oven w45 c190", "-"]),
    (LOAF, &["Chilled: 180°C, fan 160°C, gas 4, 35 mins. Place on a baking tray in the centre of a pre-heated oven."], &["oven w35 c180", "-"]),
    // A card of the 1950s.
    (LOAF, &["Combine all ingredients; pack into greased loaf pan. Bake in moderate oven (350 degrees) 1 hour. Let stand 10 min. before slicing."], &["oven w60 c177", "- w10"]),
    (BEEF, &["Dredge meat in flour; brown in hot oil. Add stock, cover, and simmer slowly 2 1/2 hrs. Add onions and carrots last 45 min."], &["hob w150", "-"]),
    (FRUIT, &["Arrange apples in baking dish. Dot with butter, sprinkle with sugar. Bake at 375° until tender, 30 to 40 min."], &["oven w40 c191"]),
    (BEANS, &["Soak beans overnight. Cook slowly until skins burst, about 1 hr. Place in bean pot with onions. Bake in slow oven 6 to 8 hrs."], &["- a480", "hob w60", "oven w480 c150"]),
    (FISH, &["Place fillets on greased broiler pan. Broil 2 inches from heat 5 min.; turn; broil 5 min. longer."], &["grill w5", "grill w5"]),
    (SOUP, &["Pressure cooker: Cook leeks, potatoes and stock 8 min. at 15 lbs. Reduce pressure at once. Rub through sieve; add cream; reheat 3 min."], &["pressure cooker w8", "hob w3"]),
    (BREAD, &["Let rise until double in bulk (about 2 hrs.). Punch down; let rise again 45 min. Bake at 400° 35 min., cover with brown paper last 10 min."], &["- w120", "- w45", "oven w35 c204", "-"]),
];

/// What is not read as it is meant, and is told.
#[rustfmt::skip]
static TOLD: &[(&[&str], &[&str])] = &[
    (FISH, &["Sous-chef: fish out of fridge 20 min before. Pan v. hot, skin side down 3 min, flip, 1 min, baste with butter."]),
    (EGGS, &["Eggs: 6 min in boiling water, ice bath 5 min, peel."]),
    (BREAD, &["Mix 4 min, autolyse 30 min. Bulk 3 h at room temp, fold every 30 min. Shape, retard 12 h in fridge. Bake 240C 20 min w/ steam, 220C 20 min without."]),
    (RICE, &["Rinse rice 3x. Boil 1 min, lid on, lowest heat 12 min. Off heat 10 min. Fork."]),
    (EGGS, &["Whisk the eggs, crumble in the feta, and cook gently for 6-7 minutes. My grandmother always finished hers under the grill for 2 minutes, and so do I."]),
    (HEN, &["Place hen breast side up on rack. Roast at 325 degrees F. 25 min. per lb., or until drumstick moves easily."]),
];

#[test]
fn forty_paragraphs_of_five_hands_read_as_they_are_meant() {
    let mut wrong = Vec::new();
    for (ingredients, method, reading) in TABLE {
        let found = read(ingredients, method);
        if told(&found) != *reading {
            wrong.push(format!("{method:?}\n  found  {:?}\n  wanted {reading:?}\n  told {:?}", told(&found), found.doubts));
        }
    }
    for (ingredients, method) in TOLD {
        assert!(!read(ingredients, method).doubts.is_empty(), "{method:?}");
    }
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), TABLE.len(), wrong.join("\n"));
}
