//! Which names keep their capital in the middle of a sentence.

/// Words that English writes with a capital wherever they stand, as they begin the names of dishes: peoples, lands and towns, days and
/// feasts, and dishes named after somebody. General knowledge of English, no source.
#[rustfmt::skip]
const PROPER: [&str; 186] = [
    "Afghan", "African", "Albanian", "Algerian", "Alpine", "American", "Andalusian", "Arab", "Arabian", "Arabic", "Argentine",
    "Argentinian", "Armenian", "Asian", "Asturian", "Athenian", "Atlantic", "Australian", "Austrian", "Baltic", "Bangladeshi", "Basque",
    "Bavarian", "Belgian", "Bengali", "Berber", "Bohemian", "Bolognese", "Boston", "Brazilian", "Breton", "British", "Brittany", "Brussels",
    "Bulgarian", "Burgundian", "Burmese", "Caesar", "Cajun", "Californian", "Cambodian", "Canadian", "Cantonese", "Caribbean", "Catalan",
    "Celtic", "Chelsea", "Chilean", "Chinese", "Christmas", "Colombian", "Cornish", "Corsican", "Creole", "Cretan", "Croatian", "Cuban",
    "Cumberland", "Cypriot", "Czech", "Danish", "Devon", "Devonshire", "Dijon", "Dutch", "Easter", "Egyptian", "English", "Eritrean",
    "Estonian", "Ethiopian", "European", "Filipino", "Finnish", "Flemish", "Florentine", "French", "Friday", "Galician", "Genoese",
    "Georgian", "German", "Greek", "Hanukkah", "Hawaiian", "Hungarian", "Iberian", "Icelandic", "Indian", "Indonesian", "Iranian", "Iraqi",
    "Irish", "Israeli", "Italian", "Jamaican", "Japanese", "Javanese", "Jerusalem", "Jewish", "Jordanian", "Kashmiri", "Kenyan", "Kiev",
    "Korean", "Lancashire", "Latvian", "Lebanese", "Libyan", "Ligurian", "Lisbon", "Lithuanian", "London", "Lyonnaise", "Madeira", "Madras",
    "Malaysian", "Maltese", "Maori", "Mediterranean", "Mexican", "Milanese", "Monday", "Mongolian", "Moorish", "Moroccan", "Neapolitan",
    "Nepalese", "Nepali", "Nigerian", "Nordic", "Norman", "Norwegian", "Ottoman", "Pakistani", "Palestinian", "Parisian", "Passover",
    "Persian", "Peruvian", "Piedmontese", "Polish", "Portuguese", "Provençal", "Punjabi", "Quebec", "Ramadan", "Roman", "Romanian",
    "Russian", "Saturday", "Saxon", "Scandinavian", "Scottish", "Senegalese", "Serbian", "Siberian", "Sicilian", "Singapore", "Slovenian",
    "Spanish", "Sunday", "Swedish", "Swiss", "Syrian", "Thai", "Thursday", "Tibetan", "Tuesday", "Tunisian", "Turkish", "Tuscan",
    "Ukrainian", "Venetian", "Victoria", "Vienna", "Viennese", "Vietnamese", "Waldorf", "Wednesday", "Welsh", "Yemeni", "Yorkshire", "Yule",
    "Yuletide", "Zanzibar",
];

/// A name inside a sentence: "White-bean mash" becomes "white-bean mash". "BBQ sauce", "Rosa's frittata", "Greek barley" and "Summer Pudding
/// Cake" stay: all capitals, somebody's, a proper adjective, and a name of which every word has its capital.
pub fn in_a_sentence(name: &str) -> String {
    let mut letters = name.chars();
    match letters.next() {
        Some(first) if !keeps_its_capital(name) => first.to_lowercase().chain(letters).collect(),
        _ => name.to_owned(),
    }
}

fn keeps_its_capital(name: &str) -> bool {
    let first = name.split_whitespace().next().unwrap_or_default();
    let all_capitals = first.chars().nth(1).is_some_and(char::is_uppercase);
    all_capitals || is_somebody_s(first) || is_proper(first) || has_only_capitals(name)
}

fn is_somebody_s(word: &str) -> bool {
    ["'s", "’s", "s'", "s’"].iter().any(|end| word.ends_with(end))
}

/// "Greek", "Greek-style".
fn is_proper(word: &str) -> bool {
    let word = word.split(|c: char| c == '-' || !c.is_alphabetic()).next().unwrap_or_default();
    PROPER.contains(&word)
}

/// A later word has a capital that is no proper adjective's own: then the name is one, and not the words of a kitchen.
fn has_only_capitals(name: &str) -> bool {
    const SMALL: [&str; 12] = ["and", "with", "in", "of", "the", "a", "à", "la", "on", "for", "de", "or"];
    let mut later =
        name.split_whitespace().skip(1).filter(|word| !SMALL.contains(word) && word.chars().any(char::is_alphabetic)).peekable();
    let capital = |word: &str| word.chars().next().is_some_and(char::is_uppercase) && !is_proper(word) && !is_somebody_s(word);
    later.peek().is_some() && later.all(capital)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_capital_goes_inside_a_sentence_unless_the_word_is_all_capitals() {
        assert_eq!([in_a_sentence("White-bean mash"), in_a_sentence("BBQ sauce")], ["white-bean mash", "BBQ sauce"]);
    }

    #[test]
    fn names_keep_their_capital_inside_a_sentence() {
        for kept in
            ["Rosa's Irish frittata", "Rosa’s soup", "The boys' stew", "Greek barley", "Greek-style barley", "Sunday oats", "Moon Stew"]
        {
            let told = in_a_sentence(kept);
            assert_eq!(told, if kept == "The boys' stew" { "the boys' stew" } else { kept });
        }
        for (name, told) in
            [("Roast Dijon chicken", "roast Dijon chicken"), ("Salt & pepper squid", "salt & pepper squid"), ("Soup", "soup")]
        {
            assert_eq!(in_a_sentence(name), told);
        }
        assert_eq!(in_a_sentence("Écrasé of potatoes"), "écrasé of potatoes");
    }

    #[test]
    fn the_table_is_in_order_and_each_word_stands_once() {
        assert!(PROPER.is_sorted_by(|one, next| one < next));
    }
}
