//! Words by which a method means a food, and those that only say how it is: tables, common practice, no source.

use crate::kitchen::words::Words;
use crate::measure::Kind as Sign;

/// Says how a food is, and never which it is.
#[rustfmt::skip]
pub(super) const ADJECTIVES: [&str; 58] = [
    "dried", "dry", "fresh", "freshly", "chopped", "diced", "sliced", "grated", "minced", "ground", "plain", "white", "red", "green", "brown", "black", "yellow",
    "large", "small", "medium", "big", "boneless", "skinless", "cooked", "raw", "whole", "ripe", "hot", "cold", "warm", "finely", "roughly", "softened", "melted",
    "strong", "extra", "virgin", "light", "dark", "soft", "hard", "boiled", "mixed", "baby", "sweet", "double", "single", "long", "grain", "self", "raising", "low", "fat",
    "unsalted", "salted", "heavy", "hard-boiled", "old",
];
pub(super) const SKIPPED: [&str; 22] = [
    "of", "the", "a", "an", "and", "or", "for", "to", "taste", "in", "with", "about", "from", "into", "plus", "piece", "size", "approx",
    "each", "good", "quality", "handful",
];
/// What is made of another food, whose name alone does not mean it: "the chicken" is no chicken stock.
pub(super) const MADE_OF: [&str; 18] = [
    "stock", "oil", "sauce", "powder", "paste", "vinegar", "juice", "water", "milk", "syrup", "broth", "seed", "puree", "jam", "leaf",
    "flour", "sugar", "cream",
];
/// Of spices sold so, the first word alone will do; "baking" is no baking powder.
pub(super) const SOLD_AS: [&str; 3] = ["seed", "powder", "leaf"];
/// Sauces, syrups and vinegars that go by their first word.
pub(super) const SAUCES: [&str; 7] = ["soy", "worcestershire", "hoisin", "teriyaki", "oyster", "maple", "balsamic"];
/// Foods that a method means only where the list has them: else they are what is done.
pub(super) const VERBS_FIRST: [&str; 12] =
    ["sprinkle", "wrap", "skewer", "char", "string", "pulse", "slice", "roll", "crisp", "sprout", "squash", "mince"];
/// What prepares a food and names it at once: "1 lemon, juice".
pub(super) const PARTS: [&str; 7] = ["juice", "zest", "rind", "yolk", "white", "peel", "leaf"];
/// What a method takes of a whole fruit or egg, as one says it of several: "the yolks of 3 eggs".
pub fn part_of_a_fruit(word: &str) -> Option<&'static str> {
    const OF: [(&str, &str); 5] = [("juice", "juice"), ("zest", "zest"), ("rind", "rind"), ("yolk", "yolks"), ("white", "whites")];
    OF.iter().find(|(key, _)| *key == word).map(|(_, said)| *said)
}

/// "Soaked", "chopped", "hot": how a food is by now.
pub(super) fn is_state(w: &Words, at: usize) -> bool {
    let participle = |text: &str| text.len() > 4 && text.ends_with("ed");
    w.at(at).is_some_and(|token| token.kind == Sign::Word && participle(&token.text.to_lowercase()))
        || ["hot", "cold", "warm", "whole", "soft", "beaten", "frozen", "raw", "ground"].iter().any(|word| w.is(at, word))
}

/// What a food comes in, and goes by where only one does: "the fillets", "the rashers".
pub(super) const COMES_IN: [&str; 4] = ["fillet", "rasher", "clove", "sprig"];

/// Another word that a method has for a food.
pub(super) const MEANS: [(&str, &[&str]); 20] = [
    ("pasta", &["spaghetti", "macaroni", "penne", "linguine", "tagliatelle", "fusilli", "lasagne", "noodle"]),
    ("cheese", &["cheddar", "parmesan", "feta", "mozzarella", "gruyere", "halloumi", "ricotta"]),
    ("broth", &["stock"]),
    ("yolk", &["egg"]),
    ("white", &["egg"]),
    ("fish", &["cod", "salmon", "haddock", "trout", "hake", "pollock", "mackerel"]),
    ("squash", &["butternut", "pumpkin"]),
    ("fillet", &["cod", "salmon", "haddock", "trout", "hake"]),
    ("syrup", &["honey"]),
    ("nut", &["walnut", "hazelnut", "almond", "pecan", "cashew"]),
    ("pulse", &["lentil", "bean", "chickpea"]),
    ("chilli", &["chili"]),
    ("berry", &["raspberry", "strawberry", "blueberry", "blackberry", "cranberry", "gooseberry", "redcurrant", "blackcurrant"]),
    ("leaf", &["spinach", "chard", "kale", "lettuce", "rocket", "sorrel"]),
    ("spud", &["potato"]),
    ("crumb", &["breadcrumb"]),
    ("tom", &["tomato"]),
    ("milk", &["buttermilk"]),
    ("corn", &["sweetcorn"]),
    ("green", &["spinach", "kale", "chard", "cavolo"]),
];
