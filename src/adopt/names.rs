//! The name of a recipe as a person would write it: without its yield, and not in capitals.

use super::Adopted;
use super::yields::{makes, of_a_name};

/// What a bracket at the end of a name must say to be a yield.
const OF_A_YIELD: [&str; 11] =
    ["serves", "makes", "feeds", "for", "portion", "portions", "serving", "servings", "people", "pieces", "persons"];

/// "WHITE-BEAN MASH (6 portions)" is "White-bean mash" and makes 6 portions, unless the page says another figure elsewhere.
pub(super) fn tidied(recipe: &mut Adopted) {
    if let Some(name) = recipe.name.strip_suffix('.').filter(|name| !name.contains('.') && name.contains(' ')) {
        recipe.name = name.to_owned();
    }
    if let Some((name, yields)) = without_its_yield(&recipe.name)
        && recipe.makes.as_ref().is_none_or(|makes| *makes == yields)
    {
        recipe.makes = Some(yields);
        recipe.name = name;
    }
    if recipe.makes.is_none() && recipe.yields.is_none() {
        recipe.makes = of_a_name(&recipe.name);
    }
    recipe.name = without_capitals(&recipe.name);
}

/// "Mash (6 portions)", "Mash (serves 4)": the name, and what it makes.
fn without_its_yield(name: &str) -> Option<(String, String)> {
    let (rest, said) = name.strip_suffix(')')?.rsplit_once('(')?;
    let rest = rest.trim_end_matches([' ', ',', '-', '–']);
    let low = said.to_lowercase();
    let is_said = low.split(' ').any(|word| OF_A_YIELD.contains(&word.trim_matches(|c: char| !c.is_alphabetic())));
    let has_figure = low.contains(|c: char| c.is_ascii_digit()) || low.split(' ').count() == 2;
    (is_said && has_figure && !rest.is_empty()).then_some(())?;
    Some((rest.to_owned(), makes(said)?))
}

/// A name without a small letter begins with its one capital; owners and peoples keep theirs, and so does what has no vowel: "BBQ".
fn without_capitals(name: &str) -> String {
    let letters = name.chars().filter(|c| c.is_alphabetic()).count();
    if letters < 4 || name.chars().any(char::is_lowercase) {
        return name.to_owned();
    }
    let word = |(index, word): (usize, &str)| {
        let low = word.to_lowercase();
        let bare = low.trim_matches(|c: char| !c.is_alphabetic());
        let short_for = bare.len() > 1 && !bare.contains(['a', 'e', 'i', 'o', 'u', 'y']) && bare.is_ascii();
        let capital = with_capital(&low);
        let keeps_it = crate::words::in_a_sentence(&capital) == capital;
        match () {
            () if short_for => word.to_owned(),
            () if index == 0 || keeps_it => capital,
            () => low,
        }
    };
    name.split(' ').enumerate().map(word).collect::<Vec<String>>().join(" ")
}

/// Its first letter, whatever stands before it.
fn with_capital(word: &str) -> String {
    let at = word.find(char::is_alphabetic).unwrap_or(0);
    let end = at + word[at..].chars().next().map_or(0, char::len_utf8);
    format!("{}{}{}", &word[..at], word[at..end].to_uppercase(), &word[end..])
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;

    #[test]
    fn a_name_is_written_as_a_person_would() {
        for (typed, makes, name, meant) in [
            ("White-bean mash (6 portions)", None, "White-bean mash", Some("6 portions")),
            ("White-bean mash (serves 4)", None, "White-bean mash", Some("4 portions")),
            ("Flatbreads (makes 8 pieces)", None, "Flatbreads", Some("8 pieces")),
            ("White-bean mash (6 portions)", Some("6 portions"), "White-bean mash", Some("6 portions")),
            ("White-bean mash (6 portions)", Some("4 portions"), "White-bean mash (6 portions)", Some("4 portions")),
            ("Leek soup (for the freezer)", None, "Leek soup (for the freezer)", None),
            ("Slaw (the red one)", None, "Slaw (the red one)", None),
            ("LEEK AND POTATO SOUP", None, "Leek and potato soup", None),
            ("ROSA'S IRISH FRITTATA", None, "Rosa's Irish frittata", None),
            ("BBQ CHICKEN", None, "BBQ chicken", None),
            ("CRÈME BRÛLÉE (6 PORTIONS)", None, "Crème brûlée", Some("6 portions")),
            ("BLT", None, "BLT", None),
            ("Rosa's Irish frittata", None, "Rosa's Irish frittata", None),
            ("Tomato salad.", None, "Tomato salad", None),
            ("Slaw No. 5.", None, "Slaw No. 5.", None),
        ] {
            let mut recipe = Adopted { name: typed.to_owned(), makes: makes.map(str::to_owned), ..Adopted::default() };
            tidied(&mut recipe);
            assert_eq!((recipe.name.as_str(), recipe.makes.as_deref()), (name, meant), "{typed}");
        }
    }
}
