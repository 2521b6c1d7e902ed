//! So much of something, as a cook says it: "400 g carrots", "6 eggs", "7 cloves of garlic".

use crate::foods::{Food, Kind, Measured};
use crate::kitchen::{Names, RecipeId, Ware, Whose};
use crate::measure::{Amount, Number, Quantity, Unit, Units, Word, plural_word, show, show_at_most};

use crate::words::{in_a_sentence, listed, plural};

/// "7 cloves of garlic", "6 eggs", "400 g carrots", "1 bunch of dill", "2 portions of pearl barley".
pub fn much_of(names: Names, ware: Ware, amount: &Quantity, units: Units) -> String {
    with_its_name(names, ware, amount, how_much(names, ware, amount, units))
}

/// The same with the amount in words already: "400 g" of 428 g.
pub fn with_its_name(names: Names, ware: Ware, amount: &Quantity, much: String) -> String {
    if let Quantity::Words(_, word) = amount
        && let Some(said) = said_once(&much, word, &called(names, ware, amount))
    {
        return said;
    }
    let of = match amount {
        Quantity::Words(..) | Quantity::Portions(_) => "of ",
        _ if matches!(parts(names, ware, amount), Some(Quantity::Words(..))) => "of ",
        _ => "",
    };
    let name = called(names, ware, amount);
    let name = if matches!(ware, Ware::Recipe(_)) { in_a_sentence(&name) } else { name };
    format!("{much} {of}{name}")
}

/// ", for Emil, without tahini": whose a lot is alone, behind its name; nothing of what is everybody's.
pub fn for_whom(names: Names, whose: Option<&Whose>) -> String {
    let Some(whose) = whose else { return String::new() };
    format!(", for {}{}", whose.eater, lacking(names, &whose.without))
}

/// What it was made without: ", without sesame seed".
pub fn lacking(names: Names, without: &[Ware]) -> String {
    let without: Vec<String> = without.iter().map(|ware| in_a_sentence(names.ware(*ware))).collect();
    if without.is_empty() { String::new() } else { format!(", without {}", listed(&without)) }
}

/// So much of what a recipe makes: "1.75 portions of White-bean mash", "5 flatbreads", "1 of the flatbreads".
pub fn made(names: Names, recipe: RecipeId, amount: &Quantity, units: Units) -> String {
    let (much, name) = (show(amount, units), names.recipe(recipe));
    let is_plural = name.ends_with('s') && !name.ends_with("ss");
    match amount {
        Quantity::Count(pieces) if *pieces <= 1 && is_plural => format!("{much} of the {}", in_a_sentence(name)),
        Quantity::Count(pieces) if *pieces > 1 && !is_plural => format!("{much} {}", plural(&in_a_sentence(name))),
        Quantity::Count(_) => format!("{much} {}", in_a_sentence(name)),
        _ => format!("{much} of {name}"),
    }
}

/// "2 bay leaves" for "2 leaves" of "bay leaf": where a food's name ends with the word that counts it, that word stands once. `None` where
/// it does not.
pub fn said_once(much: &str, word: &str, name: &str) -> Option<String> {
    let many = plural_word(word);
    let rest = name.strip_suffix(many).or_else(|| name.strip_suffix(word)).filter(|rest| rest.is_empty() || rest.ends_with(' '))?;
    let (number, said) = much.rsplit_once(' ').filter(|(_, said)| [word, many].contains(said))?;
    Some(format!("{number} {rest}{said}"))
}

/// The amount alone: "400 g", "6", "7 cloves".
pub fn how_much(names: Names, ware: Ware, amount: &Quantity, units: Units) -> String {
    show(parts(names, ware, amount).as_ref().unwrap_or(amount), units)
}

/// The same of what lies on a shelf, alike wherever a lot is told: never more than is there.
pub fn no_more_than(names: Names, ware: Ware, amount: &Quantity, units: Units) -> String {
    show_at_most(parts_in(names, ware, amount, Parts::There).as_ref().unwrap_or(amount), units)
}

/// What is drawn of a lot: all of it as the lot is told, else what is taken.
pub fn drawn(names: Names, ware: Ware, (amount, is_all): (&Quantity, bool), units: Units) -> String {
    if is_all { no_more_than(names, ware, amount, units) } else { how_much(names, ware, amount, units) }
}

/// The same of a lot that may lie in closed packs: "350 g", "3 × 400 g", "6 cloves", "2 bunches".
pub fn lies(names: Names, ware: Ware, amount: &Quantity, pack: Option<&Quantity>, units: Units) -> String {
    match pack.and_then(|pack| Some((amount.ratio(pack)?, pack))) {
        Some((_, Quantity::Words(one, _))) if *one == 1 => show_at_most(amount, units),
        Some((count, pack)) => format!("{count} × {}", show_at_most(pack, units)),
        None => no_more_than(names, ware, amount, units),
    }
}

/// The name beside that amount: "carrots" beside 400 g of them, "red cabbage" beside a part of one.
pub fn called(names: Names, ware: Ware, amount: &Quantity) -> String {
    let Ware::Food(food) = ware else { return names.ware(ware).to_owned() };
    let food = names.facts(food);
    let several = match amount {
        Quantity::Count(_) | Quantity::Mass(_) if food.kind == Some(Kind::Household) => {
            matches!(parts(names, ware, amount).as_ref().unwrap_or(amount), Quantity::Count(pieces) if *pieces > 1)
        }
        Quantity::Count(pieces) => {
            *pieces > 1 && parts(names, ware, amount).is_none() && !NO_PLURAL.iter().any(|word| food.name.ends_with(word))
        }
        Quantity::Mass(_) => is_several(food, amount.base()),
        _ => false,
    };
    if several { plural(&food.name) } else { food.name.clone() }
}

/// Is it "them" rather than "it", beside that amount?
pub fn several(names: Names, ware: Ware, amount: &Quantity) -> bool {
    let name = called(names, ware, amount);
    match amount {
        Quantity::Words(number, _) | Quantity::Count(number) if *number > 1 => true,
        _ => {
            name != names.ware(ware)
                || (name.ends_with('s') && !["ss", "us", "is", "as"].iter().any(|end| name.ends_with(end)))
                || name.ends_with("peas")
        }
    }
}

/// Names without a plural, by how they end.
const NO_PLURAL: [&str; 13] = [
    "garlic",
    "fennel",
    "broccoli",
    "sweetcorn",
    "celeriac",
    "okra",
    "beetroot",
    "rhubarb",
    "chicory",
    "cassava",
    "daikon",
    "kohlrabi",
    "anise",
];

/// Does a weight hold more than one of it, so that a cook says "carrots"? Of what is too small to be weighed one by one, always; of what has
/// no plural, never.
pub fn is_several(food: &Food, grams: f64) -> bool {
    const SMALL: [&str; 12] =
        ["raisin", "sultana", "currant", "berry", "cherry", "walnut", "hazelnut", "peanut", "pecan", "cashew", "pistachio", "almond"];
    if !has_a_plural(food) {
        return false;
    }
    match food.each.as_ref().map(|each| &each.value) {
        Some(Measured::Single(each)) => grams >= 1.5 * each,
        Some(Measured::Table(sizes)) => sizes.get("medium").is_some_and(|each| grams >= 1.5 * each),
        None => SMALL.iter().any(|small| food.name.ends_with(small)),
    }
}

/// "Cod" and "garlic" have none, whatever one of them weighs; of meat, the cuts that are counted.
fn has_a_plural(food: &Food) -> bool {
    const CUTS: [&str; 6] = ["chop", "steak", "sausage", "shank", "burger", "chipolata"];
    let ends = |words: &[&str]| words.iter().any(|word| food.name.ends_with(word));
    use Kind::*;
    match food.kind {
        Some(RawMeat) => ends(&CUTS),
        Some(RawFish | CookedFish | CookedMeat | Dairy | PlantProtein | Fat | Sweetener | Baking | Sauce | Drink) => false,
        _ => !ends(&NO_PLURAL),
    }
}

/// In what the kitchen counts it: cloves of garlic, sheets of kitchen paper, skewers; `None` where the amount is said as it is.
fn parts(names: Names, ware: Ware, amount: &Quantity) -> Option<Quantity> {
    parts_in(names, ware, amount, Parts::Taken)
}

/// How parts are counted: what is taken, up; what is there, down.
#[derive(Clone, Copy, PartialEq)]
enum Parts {
    Taken,
    There,
}

impl Parts {
    /// Whole ones, but for the noise of a sum, or so little that nobody cuts it off; `None` where there is not one.
    fn whole(self, parts: &Number, nothing: &Number) -> Option<Number> {
        let near = parts.round();
        let whole = match self {
            _ if (parts - &near).abs() < Number::over(1, 1_000_000) => near,
            Parts::Taken => (parts - nothing).ceil().max(Number::ONE),
            Parts::There => parts.floor(),
        };
        whole.is_positive().then_some(whole)
    }
}

fn parts_in(names: Names, ware: Ware, amount: &Quantity, counted: Parts) -> Option<Quantity> {
    let Ware::Food(food) = ware else { return None };
    let food = names.facts(food);
    match amount {
        Quantity::Count(bulbs) => cloves(food, bulbs, counted),
        Quantity::Mass(_) => household_goods(food, amount.base(), counted).or_else(|| eggs(food, amount.base())),
        _ => None,
    }
}

/// Nobody weighs skewers or kitchen paper.
fn household_goods(food: &Food, grams: f64, counted: Parts) -> Option<Quantity> {
    if food.kind != Some(Kind::Household) || grams <= 0.0 {
        return None;
    }
    let whole = |one: f64| counted.whole(&Number::from(grams / one), &Number::ZERO);
    let each = || match &food.each.as_ref()?.value {
        Measured::Single(one) if *one > 0.0 && *one < 50.0 => whole(*one).map(Quantity::Count),
        _ => None,
    };
    let sheets = food.words.get("sheet").and_then(|sheet| Some(Quantity::words(whole(sheet.value)?, "sheet")));
    sheets.or_else(each)
}

/// Eggs are counted where their weight is a number of whole ones.
fn eggs(food: &Food, grams: f64) -> Option<Quantity> {
    let one = match &food.each.as_ref()?.value {
        Measured::Single(grams) => grams,
        Measured::Table(sizes) => sizes.get("medium")?,
    };
    let number = (grams / one).round();
    let is_whole = number >= 1.0 && (grams - number * one).abs() < 0.01 * grams;
    (food.kind == Some(Kind::RawEgg) && is_whole).then(|| Quantity::Count(Number::from(number)))
}

/// "⅝ bulb garlic" in whole cloves, as the cook takes them; `None` for whole bulbs and for any other food.
pub(crate) fn part_of_a_bulb(food: &Food, amount: &Amount) -> Option<Quantity> {
    let is_bulb = matches!(amount.unit, Unit::Piece | Unit::Word(Word::Bulb | Word::Head));
    let is_whole = (amount.high.round() - &amount.high).abs() < Number::over(1, 100);
    if is_bulb && !is_whole && !amount.is_range() { cloves(food, &amount.high, Parts::Taken) } else { None }
}

/// A part of a bulb in cloves, all of them whole: nobody fetches five eighths of a garlic.
fn cloves(food: &Food, bulbs: &Number, counted: Parts) -> Option<Quantity> {
    let bulb = match &food.each.as_ref()?.value {
        Measured::Single(grams) => *grams,
        Measured::Table(sizes) => *sizes.get("medium")?,
    };
    let clove = food.words.get("clove").map(|fact| fact.value).filter(|grams| *grams > 0.0)?;
    if bulbs.ceil() == *bulbs {
        return food.words.contains_key("bulb").then(|| Quantity::words(bulbs, "bulb"));
    }
    let cloves = bulbs * Number::from(bulb) / Number::from(clove);
    // A tenth of a clove is nothing that anybody cuts off.
    counted.whole(&cloves, &Number::over(1, 10)).map(|cloves| Quantity::words(cloves, "clove"))
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::foods::Foods;
    use crate::kitchen::fixture::{empty_kitchen, recipe};

    #[test]
    fn what_lies_there_is_never_told_as_more() {
        let mut kitchen = empty_kitchen();
        kitchen.foods = Foods::reference();
        let said = |name: &str, amount: Quantity, pack: Option<Quantity>| {
            let food = Ware::Food(kitchen.foods.find(name).expect("known"));
            lies(kitchen.names(), food, &amount, pack.as_ref(), Units::Metric)
        };
        // Half a bulb of 50 g in cloves of 3.45 g: 7.2, and so seven; 0.04 of one are 0.58, and no clove.
        assert_eq!(said("garlic", Quantity::pieces(0.5), None), "7 cloves");
        assert_eq!(said("garlic", Quantity::pieces(0.04), None), "0.04");
        assert_eq!(said("garlic", Quantity::pieces(2), None), "2 bulbs");
        // What was taken as seven cloves leaves seven: 24.15 g of 50 g.
        assert_eq!(said("garlic", Quantity::pieces(24.15 / 50.0), None), "7 cloves");
        assert_eq!(said("carrot", Quantity::grams(428.0), None), "425 g");
        assert_eq!(said("tinned white beans", Quantity::grams(800.0), Some(Quantity::grams(400.0))), "2 × 400 g");
        assert_eq!(said("kitchen paper", Quantity::grams(9.0), None), "4 sheets");
        assert_eq!(said("parsley", Quantity::words(2, "bunch"), Some(Quantity::words(1, "bunch"))), "2 bunches");
    }

    #[test]
    fn an_amount_is_said_as_a_cook_says_it() {
        let mut kitchen = empty_kitchen();
        kitchen.foods = Foods::reference();
        let said = |name: &str, amount: Quantity| {
            let food = Ware::Food(kitchen.foods.find(name).expect("known"));
            much_of(kitchen.names(), food, &amount, Units::Metric)
        };
        assert_eq!(said("egg", Quantity::pieces(6)), "6 eggs");
        assert_eq!(said("lemon", Quantity::pieces(0.5)), "½ lemon");
        // Of 50 g each.
        assert_eq!(said("egg", Quantity::grams(100.0)), "2 eggs");
        assert_eq!(said("egg", Quantity::grams(120.0)), "120 g eggs");
        // Half a bulb of 50 g in cloves of 3.45 g: 7.2, and so eight.
        assert_eq!(said("garlic", Quantity::pieces(0.5)), "8 cloves of garlic");
        // Five eighths are 9.06, and so nine.
        assert_eq!(said("garlic", Quantity::pieces(0.625)), "9 cloves of garlic");
        assert_eq!(said("garlic", Quantity::pieces(2)), "2 bulbs of garlic");
        assert_eq!(said("carrot", Quantity::grams(400.0)), "400 g carrots");
        assert_eq!(said("cod", Quantity::grams(440.0)), "440 g cod");
        assert_eq!(said("beetroot", Quantity::grams(1000.0)), "1 kg beetroot");
        assert_eq!(said("red cabbage", Quantity::grams(155.0)), "155 g red cabbage");
        assert_eq!(said("raisin", Quantity::grams(90.0)), "90 g raisins");
        assert_eq!(said("plain flour", Quantity::grams(415.0)), "415 g plain flour");
        assert_eq!(said("dill", Quantity::words(1, "bunch")), "1 bunch of dill");
        assert_eq!(said("bay leaf", Quantity::words(2, "leaf")), "2 bay leaves");
        assert_eq!(said("bay leaf", Quantity::words(1, "leaf")), "1 bay leaf");
        assert_eq!(said("kitchen paper", Quantity::grams(8.0)), "4 sheets of kitchen paper");
        assert_eq!(said("skewer", Quantity::grams(18.0)), "6 skewers");
        assert_eq!(said("milk", Quantity::millilitres(500)), "500 ml milk");
    }

    #[test]
    fn what_a_recipe_makes_by_the_piece_is_said_as_it_is_counted() {
        let mut kitchen = empty_kitchen();
        kitchen.recipes = ["Flatbreads", "Flatbread", "Moon mash"].map(recipe).to_vec();
        let said = |recipe: usize, amount: Quantity| made(kitchen.names(), RecipeId(recipe), &amount, Units::Metric);
        assert_eq!(said(0, Quantity::pieces(5)), "5 flatbreads");
        assert_eq!(said(0, Quantity::pieces(1)), "1 of the flatbreads");
        assert_eq!(said(1, Quantity::pieces(5)), "5 flatbreads");
        assert_eq!(said(1, Quantity::pieces(1)), "1 flatbread");
        assert_eq!(said(2, Quantity::portions(2.0)), "2 portions of Moon mash");
    }
}
