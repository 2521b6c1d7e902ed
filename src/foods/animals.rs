//! What comes from animals although neither its kind nor its allergens say so: fats, jellies, sauces and mixes.
//!
//! All of it is common practice, no source. What depends on the maker is not known, and a list of ingredients on the packet ends the doubt.

use super::{Food, Kind};

/// Made of meat, poultry or fish, by names of the reference.
pub const OF_FLESH: &[&str] = &[
    "lard",
    "dripping",
    "suet",
    "goose fat",
    "duck fat",
    "chicken fat",
    "gelatine",
    "bolognese sauce",
    "chicken stock",
    "turkey stock",
    "beef stock",
    "lamb stock",
    "pork stock",
    "chicken stock cube",
    "beef stock cube",
    "lamb stock cube",
    "ham stock cube",
    "chicken stock powder",
    "beef stock powder",
];

/// Of animals without being flesh, milk or egg.
pub const OF_ANIMALS: &[&str] = &["honey", "honey mustard dressing", "rennet"];

/// Some makers put meat, fish or gelatine in.
const MAY_HOLD_FLESH: &[&str] = &[
    // Gelatine.
    "jelly",
    "marshmallow",
    "gummy sweet",
    "turkish delight",
    "nougat",
    "protein powder",
    // Suet, lard, dripping.
    "mincemeat",
    "refried beans",
    "frozen roast potatoes",
    "yorkshire pudding",
    "yorkshire pudding mix",
    "mole",
    "enchilada sauce",
    "japanese curry block",
    "stuffing mix",
    // Shrimp paste, fish sauce, anchovy, bonito.
    "thai curry paste",
    "red curry paste",
    "green curry paste",
    "yellow curry paste",
    "panang curry paste",
    "massaman curry paste",
    "laksa paste",
    "rendang paste",
    "tom yum paste",
    "sambal oelek",
    "curry sauce",
    "tapenade",
    "ponzu",
    "furikake",
    "chilli crisp",
    "stir-fry sauce",
    // A filling or a soup with meat.
    "gravy",
    "filled pasta",
    "frozen pizza",
    "frozen dumplings",
    "instant noodle",
    "carbonara sauce",
];

/// Kinds of which a maker may put milk, egg, honey or an animal's fat into any.
const MIXED: [Kind; 6] = [Kind::Bread, Kind::Baking, Kind::Sweetener, Kind::Fat, Kind::Sauce, Kind::Grain];

/// Of these kinds, although their allergens are not all known, and of plants whoever makes them.
const OF_PLANTS: &[&str] = &[
    "vegetable suet",
    "tomato ketchup",
    "coconut milk",
    "coconut cream",
    "creamed coconut",
    "sweet chilli sauce",
    "chilli sauce",
    "chilli paste",
    "chilli garlic sauce",
    "hot sauce",
    "sriracha",
    "harissa",
    "hoisin sauce",
    "plum sauce",
    "teriyaki sauce",
    "yellow bean sauce",
    "black bean sauce",
    "gochujang",
    "doenjang",
    "doubanjiang",
    "ssamjang",
    "fermented tofu",
    "miso",
    "white miso",
    "red miso",
    "salsa",
    "taco sauce",
    "coconut aminos",
    "peanut sauce",
    "pizza sauce",
    "zhoug",
    "chermoula",
    "chimichurri",
    "tamarind chutney",
    "chipotle paste",
    "chipotle chillies in adobo",
    "baking powder",
    "almond extract",
    "peppermint extract",
    "lemon extract",
    "orange extract",
    "coconut extract",
    "rum extract",
    "desiccated coconut",
    "sweetened coconut",
    "cocoa nibs",
    "gluten-free flour",
    "gluten-free self-raising flour",
    "tempura flour",
    "black treacle",
    "jelly preserve",
    "redcurrant jelly",
    "apple jelly",
    "quince paste",
    "mint jelly",
    "crystallised ginger",
    "pancake syrup",
    "grenadine",
    "gluten-free oats",
    "gluten-free pasta",
    "gluten-free spaghetti",
    "puffed rice",
    "lentil pasta",
    "rice cake",
    "corn tortilla",
    "tostada",
    "taco shell",
    "matzo",
    "matzo meal",
    "poppadom",
];

/// Some makers put what is of animals into these, whatever their kind.
const MAY_HOLD_ANIMALS: &[&str] = &[
    "vegetarian sausage",
    "vegetarian burger",
    "frozen chips",
    "frozen onion rings",
    "hash brown",
    "potato croquette",
    "potato waffle",
    "rösti",
    "creamed corn",
    "crispy onions",
    "ranch seasoning",
    "onion dip mix",
    "italian dressing mix",
    "coffee liqueur",
    "smoothie",
    "infant formula",
    "bombay mix",
];

/// Is it not known whether meat, poultry or fish is in it?
pub fn may_hold_flesh(food: &Food) -> bool {
    let kinds = [Kind::Sauce, Kind::Condiment, Kind::Fat];
    is_unseen(food) || named(food, MAY_HOLD_FLESH) || food.kind.is_some_and(|kind| kinds.contains(&kind)) && nobody_read(food)
}

/// Is it not known whether anything of animals is in it?
pub fn may_hold_animals(food: &Food) -> bool {
    let depends_on_the_maker = food.allergens.is_none() && food.kind.is_some_and(|kind| MIXED.contains(&kind));
    let of_plants = || ["vegan ", "plant-based "].iter().any(|mark| food.name.starts_with(mark)) || named(food, OF_PLANTS);
    may_hold_flesh(food) || named(food, MAY_HOLD_ANIMALS) || depends_on_the_maker && !of_plants()
}

/// Of food mixed and ready to eat nobody sees what is in it.
fn is_unseen(food: &Food) -> bool {
    food.unknown || food.kind.is_none() || matches!(food.kind, Some(Kind::ReadyToEat | Kind::Stock))
}

/// A household's own food whose packet nobody has read: the reference says of each of its foods what is certain.
fn nobody_read(food: &Food) -> bool {
    food.allergens.is_none() && food.contains.is_none()
}

fn named(food: &Food, names: &[&str]) -> bool {
    names.contains(&food.name.as_str())
}

#[cfg(test)]
mod tests {
    use super::super::Foods;
    use super::*;

    #[test]
    fn every_name_here_is_the_name_of_a_food() {
        let foods = Foods::reference();
        let all = [OF_FLESH, OF_ANIMALS, MAY_HOLD_FLESH, OF_PLANTS, MAY_HOLD_ANIMALS].concat();
        let lost: Vec<_> = all.into_iter().filter(|name| foods.find(name).is_none_or(|id| foods[id].name != **name)).collect();
        assert!(lost.is_empty(), "{lost:?}");
    }

    #[test]
    fn what_a_maker_may_mix_in_is_not_known() {
        let foods = Foods::reference();
        let food = |name: &str| foods.find(name).map(|id| &foods[id]).unwrap();
        for name in ["tapenade", "gummy bears", "mincemeat", "gyoza", "ramen", "pizza", "thai red curry paste", "ready meal"] {
            assert!(may_hold_flesh(food(name)), "{name}");
        }
        for name in ["naan", "margarine", "custard powder", "puff pastry", "crumpet", "bagel", "granola", "marzipan", "batter mix"] {
            assert!(may_hold_animals(food(name)) && !may_hold_flesh(food(name)), "{name}");
        }
        for name in ["ketchup", "soy sauce", "plain flour", "vegan mayonnaise", "olive oil", "white rice", "sugar", "sultana", "mustard"] {
            assert!(!may_hold_animals(food(name)), "{name}");
        }
    }
}
