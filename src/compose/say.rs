//! What a proposal and a clash say, on the terminal and in JSON alike.

use std::collections::BTreeSet;

use crate::compose::{Clashing, HowMuch, Nutrient, Served, Share, Stays, Why, Wish};
use crate::foods::Place;
use crate::kitchen::much::much_of;
use crate::kitchen::{AnyLine, Kitchen, RecipeId, Together, Ware, Week};
use crate::measure::{Dimension, Money, Quantity, Units, show};
use crate::plan::{Unfit, avoided_ware};
use crate::words::{duration, in_a_sentence, listed, plural};

/// "uses 75 g feta, good until Tue".
pub fn why(why: &Why, kitchen: &Kitchen, units: Units) -> String {
    let names = kitchen.names();
    let amount_of = |of: Ware, amount: &Quantity| match of {
        Ware::Food(_) => much_of(names, of, amount, units),
        Ware::Recipe(recipe) => {
            let dish = in_a_sentence(names.recipe(recipe));
            match amount.dimension() {
                Dimension::Count if amount.base() > 1.0 => format!("{} {}", show(amount, units), plural(&dish)),
                Dimension::Count => format!("{} of the {}", show(amount, units), plural(&dish)),
                _ => format!("{} of {dish}", show(amount, units)),
            }
        }
    };
    let wares = |wares: &[Ware]| listed(&wares.iter().map(|ware| in_a_sentence(names.ware(*ware))).collect::<Vec<_>>());
    match why {
        Why::UsesUp { of, amount, until, cooked } => {
            let on = cooked.map(|on| format!(" on {}", on.strftime("%a"))).unwrap_or_default();
            format!("uses {}{on}, good until {}", amount_of(*of, amount), until.strftime("%a"))
        }
        Why::FromPlace { of, amount, place } => match place {
            Place::Cupboard => format!("uses {} that is cooked already", amount_of(*of, amount)),
            _ => format!("uses {} from the {}", amount_of(*of, amount), crate::words::place(*place)),
        },
        Why::PartOf { recipe, nth, of, share, made_on } => {
            let dish = in_a_sentence(names.recipe(*recipe));
            let on = made_on.strftime("%A");
            match (nth, of, share) {
                (0, 2, Share::Even) => format!("first half of {on}'s {dish}"),
                (_, 2, Share::Even) => format!("second half of {on}'s {dish}"),
                (nth, of, Share::Even | Share::All) if nth + 1 == *of => format!("the rest of {on}'s {dish}"),
                (nth, of, _) => format!("{} of {of} meals from {on}'s {dish}", nth_word(*nth)),
            }
        }
        Why::CookedAnew { recipe, made_on } => {
            format!("{} cooked anew on {}, for this meal alone", in_a_sentence(names.recipe(*recipe)), made_on.strftime("%A"))
        }
        Why::FromThePot { recipe } => format!("{} straight from the pot", in_a_sentence(names.recipe(*recipe))),
        Why::SharesPack { food, with, first: true } => format!("the {} bought serves {with}, too", names.food(*food)),
        Why::SharesPack { food, with, first: false } => format!("shares the {} bought for {with}", names.food(*food)),
        Why::NothingOf { before } => format!("nothing of {before} again"),
        Why::CostsLess { by, with } => {
            format!("costs {} {} less than with {}", names.money(*by), names.currency, wares(with))
        }
        Why::NoPrice { foods, with } => {
            format!("no price is known for {}, so that it cannot be held against {}", listed(&names.foods(foods)), wares(with))
        }
        Why::Varied { with } => format!("with {} a pattern or a dish would follow itself", wares(with)),
        Why::LessToCook { with } => format!("less to cook than with {}", wares(with)),
        Why::AsGood { with } => format!("as good as with {}, which stands later in the files", wares(with)),
        Why::AlsoCheap { with } => format!("about as cheap as with {}", wares(with)),
        Why::NothingElse => "the only filling that your wishes allow beside the other meals".to_owned(),
    }
}

/// Foods to buy that are in no sum, and what follows.
pub fn no_price(foods: &[&str]) -> String {
    let (it, looks) = if foods.len() == 1 {
        ("it counts nothing, so that a dish with it", "looks cheaper than it is")
    } else {
        ("they count nothing, so that a dish with them", "looks cheaper than it is")
    };
    format!("No price is known for {}: {it} {looks}. Prices stand in shops.toml.", listed(foods))
}

fn nth_word(nth: usize) -> &'static str {
    const WORDS: [&str; 6] = ["first", "second", "third", "fourth", "fifth", "sixth"];
    WORDS.get(nth).copied().unwrap_or("a later one")
}

/// Why a meal stays open.
pub fn stays(why: &Stays, kitchen: &Kitchen) -> String {
    let wish = |week: &Week, one: &Clashing| {
        let said = self::clashing(one, kitchen, week);
        let of = said.of.map(|of| format!(" of {of}")).unwrap_or_default();
        format!("{}{of}: {}", said.key, said.now)
    };
    match why {
        Stays::NotOnTheShelf => "the shelf does not hold enough for any of its patterns".to_owned(),
        Stays::GoesOff => "what lies on the shelf is not good until then".to_owned(),
        Stays::KeptOut(clash) => {
            let wishes: Vec<String> = clash.wishes.iter().map(|one| wish(&clash.week, one)).collect();
            format!("what the shelf holds for it is kept out by {}", listed(&wishes))
        }
        Stays::Past => "it is past".to_owned(),
        Stays::NotAsked => "another meal was to be filled anew".to_owned(),
    }
}

/// One wish of a clash, in the household's words.
pub struct Said {
    /// As it is written in the files.
    pub key: String,
    /// Whose it is, where several may have such a key.
    pub of: Option<String>,
    pub now: String,
    pub would_do: String,
    /// The keys of what would have to be loosened, too, and whose they are: "each_day of fibre".
    pub besides: Vec<String>,
    /// What would be served to whom it must not be, and at which meals.
    pub served: Vec<String>,
}

/// A wish that clashes: its key, what it says now, and what would do.
pub fn clashing(clashing: &Clashing, kitchen: &Kitchen, week: &Week) -> Said {
    let figure = |much: &HowMuch| match much {
        HowMuch::Whole => None,
        HowMuch::Minor(minor) => Some(kitchen.names().money(Money(*minor))),
        HowMuch::Times(times) => Some(times.to_string()),
        HowMuch::Days(1) => Some("1 day".to_owned()),
        HowMuch::Days(days) => Some(format!("{days} days")),
        HowMuch::Minutes(minutes) => Some(duration(*minutes)),
        HowMuch::At(at, start) if at.date() == start.date() => Some(crate::words::clock(*at)),
        HowMuch::At(at, _) => Some(crate::words::day_clock(*at)),
        HowMuch::Grams(grams) => Some(format!("{} g", down(*grams))),
        HowMuch::Kcal(kcal) => Some(format!("{}", down(*kcal))),
        HowMuch::SuchAmounts(places) => Some(such_amounts(places, kitchen)),
    };
    let (key, of) = key(&clashing.wish, kitchen, week);
    let (now, otherwise) = whole(&clashing.wish, kitchen, week).unwrap_or_default();
    let beside = |wish: &Wish| match self::key(wish, kitchen, week) {
        (key, Some(of)) => format!("{key} of {of}"),
        (key, None) => key.to_owned(),
    };
    let besides = clashing.besides.iter().map(beside).collect();
    Said {
        besides,
        served: clashing.served.iter().map(|served| self::served(served, kitchen, week)).collect(),
        key: key.to_owned(),
        of,
        now: figure(&clashing.now).unwrap_or(now),
        would_do: figure(&clashing.would_do).unwrap_or(otherwise),
    }
}

/// "butter in white-bean mash at Tue supper (Plate)".
fn served(served: &Served, kitchen: &Kitchen, week: &Week) -> String {
    let names = kitchen.names();
    let dish = in_a_sentence(names.ware(served.ware));
    let what = match served.ware {
        Ware::Food(_) => dish,
        Ware::Recipe(_) => format!("{} in {dish}", listed(&served.foods.iter().map(|food| names.food(*food)).collect::<Vec<_>>())),
    };
    let patterns: Vec<&str> = served.patterns.iter().map(|pattern| kitchen.together.patterns[*pattern].name.as_str()).collect();
    let meals: Vec<&str> = served.meals.iter().filter_map(|meal| week.meals.get(*meal)).map(|meal| meal.label.as_str()).collect();
    let patterns = if patterns.is_empty() { String::new() } else { format!(" ({})", patterns.join(", ")) };
    format!("{what} at {}{patterns}", listed(&meals))
}

/// What would let something take places that nothing fills in the amount they ask for.
fn such_amounts(places: &[AnyLine], kitchen: &Kitchen) -> String {
    let files = |recipes: &mut dyn Iterator<Item = &RecipeId>| {
        let files: BTreeSet<String> = recipes.map(|recipe| kitchen.recipes[*recipe].at.file.clone()).collect();
        files.into_iter().collect::<Vec<_>>()
    };
    let mut ways = Vec::new();
    let weighed = files(&mut places.iter().flat_map(|place| &place.without_portion));
    if !weighed.is_empty() {
        ways.push(format!("portion = \"…\", what one portion weighs, in {}", either(&weighed)));
    }
    let texts: Vec<String> = places.iter().map(|place| format!("\"{}\"", place.text)).collect();
    let measured = files(&mut places.iter().flat_map(|place| &place.in_another_measure));
    let as_made = if measured.is_empty() { String::new() } else { format!(", as {} makes it", either(&measured)) };
    ways.push(format!("another amount in {}{as_made}", listed(&texts)));
    format!("{}, or something there that comes in such an amount: nothing that fits does", ways.join(", or "))
}

fn either(files: &[String]) -> String {
    files.join(" or ")
}

/// The key of a proposal that differs from those before it, what it asks for, and what would do.
pub const TWO_MEALS_OTHERWISE: (&str, &str, &str) = ("--another", "two meals otherwise", "fewer of --another");

/// The key of a wish, and whose it is.
fn key(wish: &Wish, kitchen: &Kitchen, week: &Week) -> (&'static str, Option<String>) {
    let label = |meal: &usize| week.meals.get(*meal).map(|meal| meal.label.clone());
    let pattern = |pattern: crate::kitchen::PatternId| Some(kitchen.together.patterns[pattern].name.clone());
    match wish {
        Wish::Spend => ("spend_at_most", None),
        Wish::RecipesAtMost => ("recipes_at_most", None),
        Wish::SameAgainAfter => ("same_again_after", None),
        Wish::OneAtMost(place) => ("one_at_most", place.clone()),
        Wish::AtMost(id) => ("at_most", pattern(*id)),
        Wish::EachDay(nutrient) => ("each_day", Some(nutrient_word(*nutrient).to_owned())),
        Wish::Use(_) => ("use", None),
        Wish::Not(_) => ("not", None),
        Wish::NotAgain => ("not_again", None),
        Wish::Beside(_) => ("beside", None),
        Wish::Style => ("style", None),
        Wish::Sure(eater) => ("sure", Some(kitchen.household.named[*eater].name.clone())),
        Wish::FinishBy(start) => ("finish_by", Some(crate::words::day_clock(*start))),
        Wish::Minutes(id) => ("minutes", id.and_then(pattern)),
        Wish::ReadyIn(meal) => ("ready_in", label(meal)),
        Wish::Packed(meal) => ("packed", label(meal)),
        Wish::Unfit(why, who, _) => {
            let key = match why {
                Unfit::Allergic => "allergic",
                Unfit::Avoided => "avoid",
                Unfit::NotEaten => "eats",
                Unfit::ForAChild => "born",
            };
            (key, Some(who.clone()))
        }
        Wish::Flag => ("trip", None),
        Wish::Ahead(recipe) => ("ahead", Some(in_a_sentence(kitchen.names().recipe(*recipe)))),
        Wish::Reach(_) => ("session", None),
        Wish::Pattern(_) => ("pattern", None),
        Wish::FromShelf => ("--from-shelf", None),
        Wish::Another => (TWO_MEALS_OTHERWISE.0, None),
    }
}

/// What a wish without a figure says now, and what would do.
fn whole(wish: &Wish, kitchen: &Kitchen, week: &Week) -> Option<(String, String)> {
    let names = kitchen.names();
    let label = |meal: &usize| week.meals.get(*meal).map_or("a meal", |meal| meal.label.as_str());
    let ware = |ware: &Ware| match ware {
        Ware::Recipe(recipe) => format!("recipe:{}", names.recipe_file(*recipe)),
        Ware::Food(food) => names.food(*food).to_owned(),
    };
    let (now, would_do): (String, String) = match wish {
        Wish::Use(of) => (ware(of), format!("take {} out of use", ware(of))),
        Wish::Not(of) => (ware(of), format!("take {} out of not", ware(of))),
        Wish::Beside(is) => {
            let now = beside(&kitchen.together, week, is);
            (now.clone(), format!("take {now} out of beside, or something that is {} for these meals", wanted(&kitchen.together, week, is)))
        }
        Wish::Style => ("one style a meal".into(), "another style, or none, for some dish or pattern".into()),
        Wish::Sure(eater) => {
            let words = kitchen.household.named[*eater].sure.join(", ");
            (words, "another word in sure, or a pattern that such a dish fits".into())
        }
        Wish::Packed(_) => ("true".into(), "serve = \"cold\" on a dish that fits, or packed = false".into()),
        Wish::Unfit(Unfit::Avoided, _, word) => {
            let named = avoided_ware(kitchen, word).map_or_else(|| "…".to_owned(), |of| ware(&of));
            (word.clone(), format!("use = [\"{named}\"], or something else that fits"))
        }
        Wish::Unfit(why, who, word) => (
            if *why == Unfit::NotEaten { format!("no {word}") } else { word.clone() },
            format!("something else that fits, or instead for {who} in the meal"),
        ),
        Wish::Flag => ("bought too early to keep".into(), "a later trip, or a dish of what keeps".into()),
        Wish::Ahead(_) => (
            "begun before its food is bought, or before today".into(),
            "a trip, or a session, at another time, or a dish that nothing is done ahead for".into(),
        ),
        Wish::Reach(meal) => (
            format!("none that serves {}", label(meal)),
            format!("a session before {0}, a dish that keeps longer, or {0} written by hand or skipped", label(meal)),
        ),
        Wish::Pattern(meal) => (
            format!("none that fills {}", label(meal)),
            "a pattern in meals.toml for this mealtime, of which every place has something that fits".into(),
        ),
        Wish::FromShelf => ("nothing is bought".into(), "a trip".into()),
        Wish::Another => (TWO_MEALS_OTHERWISE.1.into(), TWO_MEALS_OTHERWISE.2.into()),
        _ => return None,
    };
    Some((now, would_do))
}

fn down(figure: f64) -> f64 {
    (figure * 10.0 + 1e-6).floor() / 10.0
}

pub fn nutrient_word(nutrient: Nutrient) -> &'static str {
    match nutrient {
        Nutrient::Energy => "kcal",
        Nutrient::Protein => "protein",
        Nutrient::Fibre => "fibre",
    }
}

fn beside(together: &Together, week: &Week, is: &str) -> String {
    format!("{is} = \"{}\"", wanted(together, week, is))
}

fn wanted(together: &Together, week: &Week, is: &str) -> String {
    let pairs = week.wishes.beside.iter().chain(&together.wishes.beside).flatten();
    pairs.into_iter().find(|pair| pair.is == is).map(|pair| pair.wants.clone()).unwrap_or_default()
}
