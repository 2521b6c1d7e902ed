//! What a proposal and a clash say, on the terminal and in JSON alike.

use crate::compose::{Clashing, HowMuch, Nutrient, Share, Why, Wish};
use crate::foods::Place;
use crate::kitchen::{Kitchen, Ware, Week};
use crate::measure::{Dimension, Money, Quantity, Units, show};
use crate::plan::Unfit;
use crate::words::much::much_of;
use crate::words::{duration, in_a_sentence, plural};

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
    match why {
        Why::UsesUp { of, amount, until } => format!("uses {}, good until {}", amount_of(*of, amount), until.strftime("%a")),
        Why::FromPlace { of, amount, place } => match place {
            Place::Cupboard => format!("uses {} that is cooked already", amount_of(*of, amount)),
            _ => format!("uses {} from the {}", amount_of(*of, amount), super::place(*place)),
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
        Why::FromThePot { recipe } => format!("{} straight from the pot", in_a_sentence(names.recipe(*recipe))),
        Why::SharesPack { food, with, first: true } => format!("the {} bought serves {with}, too", names.food(*food)),
        Why::SharesPack { food, with, first: false } => format!("shares the {} bought for {with}", names.food(*food)),
        Why::NothingOf { before } => format!("nothing of {before} again"),
        Why::OfTheBest => "part of the best week that was found".to_owned(),
    }
}

fn nth_word(nth: usize) -> &'static str {
    const WORDS: [&str; 6] = ["first", "second", "third", "fourth", "fifth", "sixth"];
    WORDS.get(nth).copied().unwrap_or("a later one")
}

/// The key of a wish, as a household writes it; what it says now; and what would do.
pub fn clashing(clashing: &Clashing, kitchen: &Kitchen, week: &Week) -> [String; 3] {
    let names = kitchen.names();
    let figure = |much: &HowMuch| match much {
        HowMuch::Whole => None,
        HowMuch::Minor(minor) => Some(names.money(Money(*minor))),
        HowMuch::Times(times) => Some(times.to_string()),
        HowMuch::Days(1) => Some("1 day".to_owned()),
        HowMuch::Days(days) => Some(format!("{days} days")),
        HowMuch::Minutes(minutes) => Some(duration(*minutes)),
        HowMuch::Grams(grams) => Some(format!("{} g", down(*grams))),
        HowMuch::Kcal(kcal) => Some(format!("{}", down(*kcal))),
    };
    let label = |meal: &usize| week.meals.get(*meal).map_or("a meal", |meal| meal.label.as_str());
    let pattern = |pattern: crate::kitchen::PatternId| kitchen.together.patterns[pattern].name.as_str();
    let ware = |ware: &Ware| match ware {
        Ware::Recipe(recipe) => format!("recipe:{}", names.recipe_file(*recipe)),
        Ware::Food(food) => names.food(*food).to_owned(),
    };
    let (key, now, otherwise): (String, String, String) = match &clashing.wish {
        Wish::Spend => ("spend_at_most".into(), String::new(), String::new()),
        Wish::RecipesAtMost => ("recipes_at_most".into(), String::new(), String::new()),
        Wish::SameAgainAfter => ("same_again_after".into(), String::new(), String::new()),
        Wish::OneAtMost(None) => ("one_at_most".into(), String::new(), String::new()),
        Wish::OneAtMost(Some(place)) => (format!("one_at_most.{place}"), String::new(), String::new()),
        Wish::AtMost(id) => (format!("at_most of {}", pattern(*id)), String::new(), String::new()),
        Wish::EachDay(nutrient) => (format!("each_day.{}", nutrient_word(*nutrient)), String::new(), String::new()),
        Wish::Use(of) => ("use".into(), ware(of), format!("use without {}", ware(of))),
        Wish::Not(of) => ("not".into(), ware(of), format!("not without {}", ware(of))),
        Wish::NotAgain => ("not_again".into(), String::new(), String::new()),
        Wish::Beside(is) => {
            let now = beside(kitchen, week, is);
            (
                "beside".into(),
                now.clone(),
                format!("beside without {now}, or something that is {} for these meals", wanted(kitchen, week, is)),
            )
        }
        Wish::Style => ("style".into(), "one style a meal".into(), "another style, or none, for some dish or pattern".into()),
        Wish::Sure(eater) => {
            let eater = &kitchen.household.named[*eater];
            (format!("sure of {}", eater.name), eater.sure.join(", "), "another word in sure, or a pattern that such a dish fits".into())
        }
        Wish::FinishBy(_) => ("finish_by".into(), String::new(), String::new()),
        Wish::Minutes(Some(id)) => (format!("minutes of {}", pattern(*id)), String::new(), String::new()),
        Wish::Minutes(None) => ("minutes".into(), String::new(), String::new()),
        Wish::ReadyIn(meal) => (format!("ready_in of {}", label(meal)), String::new(), String::new()),
        Wish::Packed(meal) => {
            (format!("packed of {}", label(meal)), "true".into(), "serve = \"cold\" on a dish that fits, or packed = false".into())
        }
        Wish::Unfit(why, who, word) => {
            let key = match why {
                Unfit::Allergic => "allergic",
                Unfit::Avoided => "avoid",
                Unfit::NotEaten => "eats",
                Unfit::ForAChild => "born",
            };
            let would = match why {
                Unfit::Avoided => format!("use = [\"{word}\"], or something else that fits"),
                _ => format!("something else that fits, or instead for {who} in the meal"),
            };
            (format!("{key} of {who}"), word.clone(), would)
        }
        Wish::Flag => ("trip".into(), "bought too early to keep".into(), "a later trip, or a dish of what keeps".into()),
        Wish::Reach(meal) => (
            "session".into(),
            format!("none that serves {}", label(meal)),
            format!("a session before {}, or a dish that keeps longer", label(meal)),
        ),
        Wish::Pattern(meal) => (
            "pattern".into(),
            format!("none that fills {}", label(meal)),
            "a pattern in meals.toml for this mealtime, of which every place has something that fits".into(),
        ),
        Wish::FromShelf => ("--from-shelf".into(), "nothing is bought".into(), "a trip".into()),
        Wish::Another => ("--another".into(), "two meals otherwise".into(), "fewer of --another".into()),
    };
    let said = figure(&clashing.now).unwrap_or(now);
    let would = figure(&clashing.would_do).unwrap_or(otherwise);
    [key, said, would]
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

fn beside(kitchen: &Kitchen, week: &Week, is: &str) -> String {
    format!("{is} = \"{}\"", wanted(kitchen, week, is))
}

fn wanted(kitchen: &Kitchen, week: &Week, is: &str) -> String {
    let pairs = week.wishes.beside.iter().chain(&kitchen.together.wishes.beside).flatten();
    pairs.into_iter().find(|pair| pair.is == is).map(|pair| pair.wants.clone()).unwrap_or_default()
}
