//! Words that many people misspell, each with the word that is meant. A line is read so only where it names no known food as it stands, and
//! is told.

use crate::kitchen::words::Words;

/// Common slips, in the singular. From memory.
#[rustfmt::skip]
const MISSPELT: &[(&str, &str)] = &[
    ("avacado", "avocado"), ("brocolli", "broccoli"), ("brocoli", "broccoli"), ("broccolli", "broccoli"), ("capiscum", "capsicum"),
    ("cardamon", "cardamom"), ("carrott", "carrot"), ("cauliflour", "cauliflower"), ("celary", "celery"), ("chedder", "cheddar"),
    ("chillie", "chilli"), ("choclate", "chocolate"), ("cinammon", "cinnamon"), ("cinnamin", "cinnamon"), ("corgette", "courgette"),
    ("courgete", "courgette"), ("corriander", "coriander"), ("coriandor", "coriander"), ("cummin", "cumin"), ("fettucine", "fettuccine"),
    ("fettuccini", "fettuccine"), ("garlick", "garlic"), ("hazlenut", "hazelnut"), ("jalepeno", "jalapeno"), ("letuce", "lettuce"),
    ("linguini", "linguine"), ("mayonaise", "mayonnaise"), ("mozarella", "mozzarella"), ("mozzerella", "mozzarella"), ("onoin", "onion"),
    ("oregeno", "oregano"), ("parmesean", "parmesan"), ("parsely", "parsley"), ("pistacio", "pistachio"), ("potatoe", "potato"),
    ("proscuitto", "prosciutto"), ("rasberry", "raspberry"), ("rasberries", "raspberries"), ("rosmary", "rosemary"), ("safron", "saffron"),
    ("spagetti", "spaghetti"), ("spinich", "spinach"), ("tomatoe", "tomato"), ("tumeric", "turmeric"), ("tumric", "turmeric"),
    ("vanila", "vanilla"), ("vannila", "vanilla"), ("worchestershire", "worcestershire"), ("yoghourt", "yoghurt"), ("zuchini", "zucchini"),
    ("zucchinni", "zucchini"),
];

/// The line with its slips mended, and what was mended: `"tumeric" is read as turmeric`. `None` where it has none.
pub(super) fn respelt(text: &str) -> Option<(String, Vec<String>)> {
    let words = Words::of(text);
    let mut mended = String::with_capacity(text.len());
    let mut told = Vec::new();
    let mut from = 0;
    for token in words.tokens() {
        let Some(right) = meant(&token.text.to_lowercase()) else { continue };
        mended.push_str(&text[from..token.start]);
        mended.push_str(&right);
        from = token.end();
        told.push(format!("\"{}\" is read as {right}", token.text));
    }
    mended.push_str(&text[from..]);
    (!told.is_empty()).then_some((mended, told))
}

fn meant(word: &str) -> Option<String> {
    let of = |word: &str| MISSPELT.iter().find(|row| row.0 == word).map(|row| row.1);
    // "Tomatoes" and "potatoes" are right; in the singular the "e" is the slip.
    let singular = || word.strip_suffix('s').filter(|word| !word.ends_with("toe"));
    of(word).map(str::to_owned).or_else(|| of(singular()?).map(|right| format!("{right}s")))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::foods::Foods;

    #[test]
    fn no_word_that_is_mended_is_a_food_and_every_word_that_is_meant_is() {
        let foods = Foods::reference();
        for (slip, right) in MISSPELT {
            assert!(foods.find(slip).is_none(), "{slip}");
            assert!(
                foods.iter().any(|(_, food)| crate::foods::key_of(&food.name).contains(&crate::foods::key_of(right))
                    || food.also.iter().any(|also| also.contains(right))),
                "{right}"
            );
        }
    }

    #[test]
    fn a_slip_is_mended_where_it_stands() {
        let (line, told) = respelt("2 tsp ground Tumeric, sifted").unwrap();
        assert_eq!((line.as_str(), told[0].as_str()), ("2 tsp ground turmeric, sifted", "\"Tumeric\" is read as turmeric"));
        assert_eq!(respelt("2 carrotts").map(|(line, _)| line).as_deref(), Some("2 carrots"));
        assert_eq!(respelt("2 carrots"), None);
        assert_eq!(respelt("100 g semi-dried tomatoes"), None);
        assert_eq!(respelt("1 tomatoe").map(|(line, _)| line).as_deref(), Some("1 tomato"));
    }
}
