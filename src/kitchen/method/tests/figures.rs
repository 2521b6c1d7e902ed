//! A figure of time or of heat is planned, or told: none is lost without a word. Each reading was written down before it was run.

use super::{foods, read, told};
use pretty_assertions::assert_eq;

/// A method of carrots, its steps, and words of what is told; nothing is told where these are empty.
type Row = (&'static str, &'static [&'static str], &'static str);

#[rustfmt::skip]
const ROWS: &[Row] = &[
    // Degrees without a letter, where the heat is set anew.
    ("Roast at 220°C for 20 minutes, then lower the temperature to 170 and roast for 30 minutes more.", &["oven w20 c220", "oven w30 c170"], ""),
    ("Heat the oven to 425 degrees. Roast 30 minutes; lower the temperature to 350 and roast 20 minutes longer.", &["oven w30 c218", "oven w20 c177"], ""),
    ("Heat the oven to 425°F. Roast 20 minutes. Reduce heat to 350 and continue roasting for 40 minutes.", &["oven w20 c218", "oven w40 c177"], ""),
    ("Bake at 200 °C for 10 minutes, then turn it down to 160 and bake 30 minutes.", &["oven w10 c200", "oven w30 c160"], ""),
    ("Bake at 200 °C for 10 minutes. Drop the temperature to 160 and bake 30 minutes.", &["oven w10 c200", "oven w30 c160"], ""),
    // An oven that is heated beside something.
    ("Prove for 20 minutes while you heat the oven to 200°C. Bake for 25 minutes.", &["- w20", "oven w25 c200"], ""),
    ("Prove for 20 minutes while the oven heats to 230C/210C fan/gas 8, then bake for 15 minutes.", &["- w20", "oven w15 c230"], ""),
    // What is done in an appliance, by whatever verb.
    ("Dry the carrots in the oven at 60 °C for 6 hours.", &["oven w360 c60"], ""),
    ("Reheat at 180 °C for 25 minutes.", &["oven w25 c180"], ""),
    ("Glaze and crisp under the grill for 4 minutes.", &["grill w4"], ""),
    // Of two appliances the first, with its own time.
    ("Simmer for 2 hours on the hob or 25 minutes in a pressure cooker.", &["hob w120"], "another way"),
    ("Simmer the carrots very gently for 3 hrs (pressure cooker: 40 min).", &["hob w180"], "another way"),
    ("Microwave for 6 min or, in a conventional oven, bake at 180°C for 25 min.", &["microwave w6"], "may be left out"),
    // Times in words, without a unit, before a noun.
    ("Simmer for one and three-quarter hours.", &["hob w105"], ""),
    ("Simmer for two and a half hours.", &["hob w150"], ""),
    ("Simmer for 10 minutes, then a further 10 without the lid.", &["hob w10", "hob w10"], ""),
    ("Bake for 1 hr 10 at 150 °C.", &["oven w70 c150"], ""),
    ("Give the dish a 40-minute bake at 180 °C.", &["oven w40 c180"], ""),
    ("Simmer for 40-odd minutes.", &["hob w40"], ""),
    // One after the other in one clause.
    ("Bake for the first 15 minutes at 220°C and the remaining 45 minutes at 180°C.", &["oven w15 c220", "oven w45 c180"], ""),
    ("Bake at 200 °C for 10 minutes and at 160 °C for another 30.", &["oven w10 c200", "oven w30 c160"], ""),
    // Fans and gas marks.
    ("Bake at 180 °C with fan, 200 °C without, for 20 minutes.", &["oven w20 c200"], ""),
    ("Bake at Regulo 7 for 20 minutes.", &["oven w20 c220"], ""),
    ("Bake at GM 6 for 20 minutes.", &["oven w20 c200"], ""),
    ("Bake at gas ¼ for 20 minutes.", &["oven w20 c110"], ""),
    ("Bake at thermostat 6 for 20 minutes.", &["oven w20"], "not understood"),
    ("Bake at T190 for 20 minutes.", &["oven w20"], "not understood"),
    ("Bake at no. 5 for 20 min.", &["oven w20"], "not understood"),
    ("Bake at F400 for 20 min.", &["oven w20"], "not understood"),
    // What goes on by itself.
    ("Drain in a sieve for 2 hours in the fridge.", &["- w120"], ""),
    ("Dry the carrots on a rack for 30 minutes.", &["- w30"], ""),
    ("Drain in a colander for 10 minutes.", &["- h10"], ""),
    ("Knead the dough for 15 minutes.", &["- h15"], ""),
    // Where it is.
    ("Leave on the lowest possible heat, covered, for 2 hours.", &["hob w120"], ""),
    ("Cook the carrots sous-vide at 84 °C for 1 hour.", &["- w60"], "there is no sous-vide"),
    ("Tip the carrots into the rice cooker with the water and switch on.", &["rice cooker w25"], ""),
    // Told, because nothing can be planned of it.
    ("While the carrots boil (about 15 minutes), soften the leeks for 8 minutes.", &["hob w8"], "about 15 minutes"),
    ("Boil for 6 minutes (soft) or 10 minutes (hard).", &["hob w6"], "leaves a choice"),
    ("Microwave for 2 minutes, stir, repeat twice.", &["microwave w2", "-"], "of one round"),
    ("Simmer for 20 min/500 g.", &["hob w20"], "by weight"),
    ("Simmer for 20 minutes to the pound and 20 over.", &["hob w20"], "by weight"),
    ("Roast at 180 °C, 20 minutes a pound.", &["oven w20 c180"], "by weight"),
    ("Simmer for 20 minutes, or bake at 180 °C for 40 minutes.", &["hob w20"], "may be left out"),
    ("Rub with salt and cure for 48 hours.", &["- w2880"], ""),
    ("Slice; brine for 4 hours.", &["- w240"], ""),
    ("Fry or bake for 10 minutes.", &["hob h10"], ""),
    // Sister sentences of the above.
    ("Simmer for 1 hour, then for 30.", &["hob w60", "hob w30"], ""),
    ("Bake at 190 °C for 15 minutes, then 5 without the beans.", &["oven w15 c190", "oven w5 c190"], ""),
    ("Simmer for 2.30 hours.", &["hob w150"], ""),
    ("Simmer for half-an-hour.", &["hob w30"], ""),
    ("Bake in a falling oven, 200 to 160 °C, for 40 minutes.", &["oven w40 c200"], ""),
    ("Bake in the preheated oven (200) for 20 min.", &["oven w20 c200"], ""),
    ("Roast at 200 °C for 20 min; turn; 20 min.", &["oven w20 c200", "oven w20 c200"], ""),
    ("Roast at 200 °C for 20 min, turn, another 20.", &["oven w20 c200", "oven w20 c200"], ""),
    ("Keep the oven at 50 °C and dry for 8 hours.", &["oven w480 c50"], ""),
    ("Simmer for 20 minutes. Uncover for 10 minutes.", &["hob w20", "hob w10"], ""),
    ("Simmer for 40 minutes, stirring often towards the end.", &["hob w40"], ""),
    ("Mix the carrots with the salt for 1 hour.", &["- w60"], "not known"),
    ("The night before, mix the carrots. Cover and chill.", &["- w480"], ""),
    // Nothing of these is new.
    ("Simmer for 20 minutes, stirring every 5 minutes, and season after 10 minutes.", &["hob w20", "-"], ""),
    ("Simmer until soft, 20 to 25 minutes.", &["hob w25"], ""),
    ("Heat the oil to 180 °C and fry the carrots for 3 minutes.", &["hob"], ""),
    ("Bake at 190C/170C fan/gas 5 for 20 minutes.", &["oven w20 c190"], ""),
];

#[test]
fn every_figure_of_a_method_is_planned_or_told() {
    let mut wrong = Vec::new();
    for (method, steps, words) in ROWS {
        let found = read(&["500 g carrots"], &[method]);
        let doubts: Vec<&str> = found.doubts.iter().map(|(_, text)| text.as_str()).collect();
        let as_told = if words.is_empty() { doubts.is_empty() } else { doubts.iter().any(|text| text.contains(words)) };
        if told(&found) != *steps || !as_told {
            wrong.push(format!("{method}\n  {:?}, not {steps:?}; told {doubts:?}, not {words:?}", told(&found)));
        }
    }
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), ROWS.len(), wrong.join("\n"));
}

#[test]
fn what_is_soaked_stands_in_the_step_that_is_done_the_evening_before() {
    let typed = ["250 g dried white beans", "1 onion"];
    let found = read(&typed, &["Soak for one day. Simmer for 1 hour."]);
    assert_eq!(foods(&typed, &found)[0], ["250 g dried white beans"]);
    let typed = ["600 g chicken thighs", "150 g yoghurt"];
    let found = read(&typed, &["Chill overnight.", "Remove from the fridge. Roast at 200 °C for 40 minutes."]);
    // What no step names is in the first step, and roasts to its inside temperature in the last.
    assert_eq!(foods(&typed, &found)[0], typed);
    let roast = found.steps.last().unwrap();
    assert_eq!((roast.inside.map(|inside| inside.0), roast.estimated.inside), (Some(74.0), true));
}

#[test]
fn a_marinade_that_no_step_names_goes_on_with_the_meat() {
    let typed = ["500 g chicken thighs", "100 g yoghurt", "1 tbsp paprika"];
    for method in [
        &["Marinate for 4 hours. Roast at 200C for 40 minutes."][..],
        &["Marinate for 4 hours or overnight.", "Roast at 200C for 40 minutes."],
        &["Chill overnight. Roast at 200C for 40 minutes."],
    ] {
        let found = read(&typed, method);
        assert_eq!(foods(&typed, &found), [typed.to_vec(), vec![]], "{method:?}");
        assert_eq!(found.steps[1].inside.map(|inside| inside.0), Some(74.0), "{method:?}");
        assert!(found.steps[1].estimated.inside && found.steps[0].ahead.is_some());
    }
    // Where the method names the meat alone, what seasons it goes on with it; the rice stays for the pot.
    let typed = ["500 g chicken thighs", "100 g yoghurt", "1 tbsp paprika", "200 g rice", "salt, to taste"];
    let found = read(&typed, &["Marinate the chicken for 4 hours.", "Roast at 200C for 40 minutes."]);
    let mut ahead = foods(&typed, &found)[0].clone();
    ahead.sort();
    assert_eq!(ahead, ["1 tbsp paprika", "100 g yoghurt", "500 g chicken thighs"]);
    let found = read(&["400 g carrots"], &["Marinate for 4 hours. Boil for 10 minutes."]);
    assert_eq!(foods(&["400 g carrots"], &found)[0], ["400 g carrots"]);
}
