//! What the small words of a line mean: one table, a row a meaning.

use std::ops::Range;
use std::sync::LazyLock;

use crate::foods::Grade;
use crate::kitchen::words::{Phrases, Words};
use crate::measure::Kind;

/// What a word beside a food does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Class {
    /// Trimmed or worked on before it is measured: `diced`.
    Form,
    /// Says how: `finely`.
    Adverb,
    Cooked,
    Drained,
    /// The tinned kind of the food is meant: `canned`.
    Tinned,
    /// Changes nothing that is bought, and is kept as a remark: `boneless`.
    Way,
    /// Where it comes from: as a way, but told, because "Lebanese bread" may be another bread.
    Origin,
    Grade(Grade),
    /// Says nothing about what to buy, whatever the food: `ripe`.
    Plain,
    /// Dropped only before a food that is known: `cold` before water, but not of "cold brew".
    BeforeKnown,
    /// Dropped only inside a known name: "dried white cannellini beans".
    Inside,
    And,
    /// A part of the food, after its name: `halves`.
    Part,
}

#[rustfmt::skip]
const CLASSES: &[(Class, &[&str])] = &[
    (Class::Form, &[
        "chopped", "diced", "sliced", "grated", "shredded", "crushed", "mashed", "peeled", "trimmed", "halved", "quartered", "cubed",
        "julienned", "pitted", "stoned", "cored", "seeded", "deseeded", "de-seeded", "zested", "juiced", "squeezed", "melted", "softened",
        "beaten", "whisked", "sifted", "packed", "torn", "crumbled", "crumbed", "flaked", "cut", "roasted", "toasted", "fried", "grilled",
        "blanched", "soaked", "rinsed", "washed", "scrubbed", "topped", "tailed", "hulled", "husked", "skinned", "picked", "strained",
        "whipped", "pureed", "puréed", "riced", "spiralised", "spiralized", "shaved", "scored", "segmented", "wilted", "thawed",
        "defrosted", "slivered", "stemmed", "destemmed", "snipped", "bruised", "podded", "cooled", "deveined", "de-veined", "shelled and deveined",
        "dry-roasted", "cleaned", "chunked", "butterflied", "lengthways", "lengthwise", "crosswise", "crossways", "split", "separated",
        "slit", "debearded", "scraped", "wiped", "bashed", "pricked", "spooned", "leveled", "levelled", "pounded", "blitzed", "purged", "jointed",
        "spatchcocked", "flattened", "scooped", "broken", "pressed", "pared", "minced fine", "browned", "reserved", "creamed",
        "scalded", "warmed", "clarified", "reconstituted", "rehydrated", "boned", "filleted", "unwrapped", "coarse-chopped", "fine-chopped",
    ]),
    (Class::Adverb, &[
        "finely", "roughly", "coarsely", "thinly", "thickly", "freshly", "lightly", "well", "very", "loosely", "tightly", "firmly", "thoroughly",
        "gently", "neatly", "evenly", "fairly", "just", "newly", "medium-finely", "diagonally", "carefully", "super", "really", "slightly", "partly", "partially",
    ]),
    (Class::Cooked, &["cooked", "boiled", "steamed", "hard-boiled", "soft-boiled", "hard-cooked", "pre-cooked", "precooked", "ready-cooked"]),
    (Class::Drained, &["drained"]),
    (Class::Tinned, &["canned", "jarred", "cooked or canned", "canned or cooked"]),
    (Class::Way, &[
        "boneless", "skinless", "shelled", "minced", "ground", "milled", "rolled", "skin-on", "bone-in", "lean", "extra-lean", "unsmoked", "undyed",
        "low-sodium", "reduced-sodium", "low-salt", "reduced-salt", "low-fat", "reduced-fat", "half-fat", "full-fat", "light", "lite", "ready-made",
        "shop-bought", "store-bought", "homemade", "home-made", "frozen", "smoked", "rindless", "rind-on", "sharp", "extra-sharp", "dark", "soft",
        "old-fashioned", "thick-cut", "thin-cut", "centre-cut", "center-cut", "cage-free", "pasture-raised", "grass-fed", "corn-fed", "wild", "wild-caught",
        "farmed", "sustainable", "heirloom", "vine-ripened", "on the vine", "vine", "sun-ripened", "seasonal", "local", "unsweetened",
        "unflavored", "unflavoured", "superfine", "super-fine", "coarse", "flaky", "crusty", "stale", "chunky", "creamy", "smooth", "crunchy", "runny", "clear",
        "crisp", "juicy", "meaty", "tender", "mild", "medium-hot", "spicy", "strong", "no-need-to-soak", "no-soak", "stalks and leaves", "leaves and stalks", "stems and leaves", "leaves and stems", "ready-to-eat", "ready-rolled", "ready-to-roll",
        "ready-washed", "pre-washed", "prewashed", "ready-to-use", "quick-cook", "quick-cooking", "easy-cook", "stoneground", "stone-ground", "no-salt-added", 
        "unsalted", "salted", "preservative-free", "additive-free", "of your choosing", "of your choice", "of choice", "your choice", "any brand", "any kind",
        "any variety", "day-old", "leftover", "left-over", "bite-size", "bite-sized", "good-sized", "with skin", "with bone",
        "on the bone", "off the bone", "from frozen", "premium", "finest", "mature", "well-aged", "aged", "natural", "woody", 
        "pure", "wide", "narrow", "tiger", "giant", "huge", "tiny", "mini", "assorted", "multi-coloured", "multicoloured", "multicolored", "rainbow", "mixed-colour", "heavy-duty",
        "unbleached", "bleached", "unsulphured", "unsulfured", "enriched", "cold-pressed", "hormone-free", "antibiotic-free", "line-caught",
        "sushi-grade", "sashimi-grade", "outdoor-reared", "outdoor-bred", "dry-cured", "dry-aged", "slow-cooked", "hand-picked", "hand-cut", "seedless", "pitless", "boned and rolled",
        "tail-on", "tails-on", "tail-off", "shell-on", "head-on", "ready-peeled", "pre-cut", "pre-chopped", "pre-sliced", "pre-peeled", "prepared", "bagged", "bottled", "freeze-dried",
        "vacuum-packed", "vac-packed", "part-baked", "par-baked", "pre-baked", "thin-sliced", "thick-sliced", "slow-roasted", "hothouse", "hot-house", "greenhouse",
        "new-season", "maincrop", "main-crop", "waxy", "floury", "starchy", "eating", "cooking", "lightly salted", "slightly salted", "skin-off", 
        "rind off", "thick-style", "triple-washed", "fresh-squeezed", "fresh-ground",
        "well-chilled", "very cold", "ice cold", "over-ripe", "overripe", "just-ripe", "under-ripe", "underripe", "full-cream", 
        "fat-free", "nonfat", "non-fat", "thin-skinned", "thick-skinned", "well-marbled", "marbled",
        "skin-on and bone-in", "double-concentrated", "medium-ripe", "uncured", "cured", "knobbly", "gnarled", "fleshy", "fragrant", "pale", "light-coloured", "mid-sized",
        "undrained", "unpeeled", "ripe but firm", "firm but ripe", "all-butter", "whole-milk", "part-skim", "unseasoned", "unbaked", "untreated", "cold-water", "warm-water", "farmhouse", "firm-fleshed", "mealy", "semi-salted", "half-salted", "new-laid", "freshly-picked", "fancy", "regular", "standard", "ordinary", "everyday", "normal", "petite", "bulk",
    ]),
    (Class::Origin, &[
        "italian", "french", "spanish", "scotch", "scottish", "english", "british", "irish", "welsh", "american", "canadian", "mexican", "indian",
        "thai", "chinese", "japanese", "korean", "turkish", "lebanese", "moroccan", "persian", "australian", "dutch", "german", "danish", "swedish",
        "norwegian", "west indian", "sri lankan", "spanish-style", "italian-style", "mexican-style", "lebanese-style", "turkish-style", "french-style", "asian-style", "greek-style", "asian", "gluten-free", "dairy-free", "vegan", "vegetarian", "sugar-free",
        "whole-wheat", "wholewheat", "wholemeal", "wholegrain", "whole-grain", "multigrain", "seeded-crust", "polish", "hungarian", "sicilian", "tuscan", "greek", "cypriot", "middle eastern", "mediterranean", "vietnamese", "european",
    ]),
    (Class::Grade(Grade::Small), &["small", "little", "small-sized", "small-size", "sm"]),
    (Class::Grade(Grade::Medium), &["medium", "medium-sized", "medium-size", "average", "average-sized", "med"]),
    (Class::Grade(Grade::Large), &["large", "big", "large-sized", "large-size", "extra-large", "medium-large", "jumbo", "lg", "lge", "lrg"]),
    (Class::Plain, &["fresh", "ripe", "good", "quality", "good-quality", "best-quality", "high-quality", "top-quality", "organic", "free-range", "nice", "decent", "lovely", "beautiful", "perfect", "perfectly ripe", "real", "proper", "genuine", "freshest", "finest quality"]),
    (Class::BeforeKnown, &[
        "extra-virgin", "extra", "virgin", "cold", "warm", "hot", "boiling", "lukewarm", "tepid", "iced", "chilled", "room-temperature",
        "firm", "new", "whole", "best", "fine", "plump", "thick", "thin", "long", "fat", "young", "unwaxed", "raw", "dry", "uncooked", "plain",
        "free", "range", "of", "the", "your", "favourite", "favorite", "heaped", "level", "some", "more", "about", "a", "an", "any",
    ]),
    (Class::Inside, &["sweet", "red", "green", "yellow", "white", "black", "brown", "purple", "orange", "golden"]),
    (Class::And, &["and"]),
    (Class::Part, &[
        "halves", "pieces", "flesh", "meat", "portions", "threads", "strands", "tips", "rings", "fronds", "needles", "steaks", "medallions", "chunks", "matchsticks", "crumbs",
    ]),
];

static PHRASES: LazyLock<Phrases<Class>> =
    LazyLock::new(|| Phrases::of(CLASSES.iter().flat_map(|(class, phrases)| phrases.iter().map(|phrase| (*class, *phrase)))));

/// The class of the phrase that begins the range, and the place after it.
pub(super) fn class(words: &Words, within: Range<usize>) -> Option<(Class, usize)> {
    PHRASES.find(words, within)
}

/// The class of one word.
pub(super) fn class_of(words: &Words, at: usize) -> Option<Class> {
    PHRASES.get(words.key_at(at))
}

/// Words between or before a number and its unit: "2 heaped tbsp", "1 large bunch", "scant ½ cup", "a thumb-sized piece".
pub(super) fn qualifier(words: &Words, at: usize) -> Option<usize> {
    const QUALIFIERS: [&str; 20] = [
        "heaped",
        "heaping",
        "level",
        "rounded",
        "scant",
        "generous",
        "good",
        "thick",
        "thin",
        "fat",
        "big",
        "whole",
        "packed",
        "lightly",
        "firmly",
        "tightly",
        "loosely",
        "full",
        "overflowing",
        "brimming",
    ];
    if let Some((Class::Grade(_), end)) = class(words, at..words.len()) {
        return Some(end);
    }
    if let Some(end) = likened(words, at) {
        return Some(end);
    }
    QUALIFIERS.iter().any(|known| words.is(at, known)).then_some(at + 1)
}

/// "each", "ea.": the place after it.
pub(super) fn each(words: &Words, at: usize) -> Option<usize> {
    let stop = usize::from(words.is(at, "ea") && words.kind(at + 1) == Some(Kind::Stop));
    (words.is(at, "each") || words.is(at, "ea")).then_some(at + 1 + stop)
}

/// "Thumb-sized": as large as something else.
pub(super) fn likened(words: &Words, at: usize) -> Option<usize> {
    let sized = words.is_hyphen(at + 1) && (words.is(at + 2, "sized") || words.is(at + 2, "size"));
    (sized && class(words, at..at + 3).is_none()).then_some(at + 3)
}

/// A preparation begins here: "for frying", "to serve", "at room temperature".
pub(super) fn opens_preparation(words: &Words, at: usize) -> bool {
    const OPENERS: [&str; 12] = ["for", "to", "at", "from", "cut", "until", "into", "per", "plus", "preferably", "such", "including"];
    OPENERS.iter().any(|known| words.is(at, known)) || words.at(at).is_some_and(|token| token.text == "+")
}

/// "In brine" and the like, which an unknown food may have in its name.
pub(super) fn opens_preparation_of_a_known(words: &Words, at: usize) -> bool {
    const OPENERS: [&str; 15] = [
        "in",
        "with",
        "without",
        "on",
        "as",
        "if",
        "mixed",
        "dissolved",
        "blended",
        "diluted",
        "made",
        "optional",
        "removed",
        "each",
        "weighing",
    ];
    let size_of = words.is(at, "size") || words.is(at, "the") && words.is(at + 1, "size");
    opens_preparation(words, at) || OPENERS.iter().any(|known| words.is(at, known)) || size_of || quanto_basta(words, at).is_some()
}

/// "q.b.", the Italian "as much as is enough": to taste. The place after it.
pub(super) fn quanto_basta(words: &Words, at: usize) -> Option<usize> {
    let stop = |at: usize| usize::from(words.kind(at) == Some(Kind::Stop));
    let end = if words.is(at, "qb") { at + 1 } else { at + 3 };
    let is_meant = words.is(at, "qb") || words.is(at, "q") && stop(at + 1) == 1 && words.is(at + 2, "b");
    is_meant.then(|| end + stop(end))
}

/// How much, without saying it: "a few", "some", "a little". The place after it, and whether what follows a "little" might be a food of
/// that name.
pub(super) fn vague(words: &Words, at: usize) -> Option<(usize, bool)> {
    let article = words.is(at, "a");
    let mut from = at + usize::from(article);
    if article && words.is(from, "good") {
        from += 1;
    }
    let one_of = |known: &[&str]| known.iter().any(|word| words.is(from, word));
    let is_vague = one_of(&["few"])
        || article && one_of(&["little", "bit", "lot", "touch", "hint"])
        || !article && one_of(&["some", "several", "many", "plenty", "lots", "enough", "sufficient"]);
    let of = words.is(from + 1, "of");
    is_vague.then(|| (from + 1 + usize::from(of), words.is(from, "little") && !of))
}

/// A place at which the ingredient stops being needed: "optional", "to serve", "for garnish".
pub(super) fn says_optional(words: &Words, range: Range<usize>) -> bool {
    static MARKS: LazyLock<Phrases<()>> = LazyLock::new(|| {
        let marks = [
            "optional",
            "for garnish",
            "for garnishing",
            "to garnish",
            "as garnish",
            "as a garnish",
            "for the garnish",
            "garnish",
            "to serve",
            "for serving",
            "if desired",
            "if you like",
            "if liked",
            "if wished",
            "if using",
        ];
        Phrases::of(marks.map(|mark| ((), mark)))
    });
    let mut at = range.start;
    while at < range.end {
        if MARKS.find(words, at..range.end).is_some() {
            return true;
        }
        match class_of(words, at) {
            Some(Class::Form | Class::Adverb | Class::And) => at += 1,
            _ => break,
        }
    }
    range.len() > 1 && words.is(range.end - 1, "optional")
}
