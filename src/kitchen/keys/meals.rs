//! Keys of meals.toml, and of `[compose]`, which stands in a week and in kitchen.toml alike.

use super::Default::{Is, None, Required};
use super::Shape::*;
use super::line::line;
use super::{File, Heading, heading, key};

pub(in crate::kitchen) static MEALS: File = File {
    name: "meals",
    path: "meals.toml",
    headings: &[
        heading("", &[key("pattern", Tables("[[pattern]]"), None, "ways to put a meal together", "[]")]),
        heading(
            "[[pattern]]",
            &[
                key("name", Text, Required, "what such a meal is called", "\"Plate\""),
                key("at", Texts, Is("every mealtime"), "words of mealtimes at which it is eaten", "[\"lunch\", \"supper\"]"),
                key(
                    "each",
                    Lines("[[meal.each]]"),
                    None,
                    "what each eater gets; any:WORD is a place for what has WORD among its fits",
                    "[\"1 portion any:grain\"]",
                ),
                key("shared", Lines("[[meal.each]]"), None, "what the whole table shares", "[\"1 lemon\"]"),
                key("at_most", WholeNumber, None, "times a week", "2"),
                key("minutes", Duration, Is("nothing is made at the meal"), "hands-on time at the meal", "\"10 min\""),
                key("style", Text, None, "dishes of one meal share a style or have none", "\"from the sea\""),
            ],
        ),
        line("[[meal.each]]"),
    ],
};

pub(super) const COMPOSE: Heading = heading(
    "[compose]",
    &[
        key(
            "taste",
            OneOf(&["varied", "cheap", "easy"]),
            Is("\"varied\""),
            "sets the finer keys at once; one that is written wins",
            "\"easy\"",
        ),
        key("recipes_at_most", WholeNumber, Is("10"), "different recipes cooked in sessions, components included", "5"),
        key("same_again_after", Days, Is("\"2 days\""), "between two meals with the same pattern and fillings", "\"2 days\""),
        key("not_again", Days, None, "no meal of the other weeks' files again within this time", "\"2 weeks\""),
        key("one_at_most", NumberOrNamed, Is("5"), "meals that name one recipe; or by the place it takes", "{ protein = 2, else = 3 }"),
        key("variety_may_cost", Share, Is("\"2%\""), "weeks within this share of the least net cost count as equally cheap", "\"0%\""),
        key("spend_at_most", Money, None, "the most that the list may cost: hard, while household.budget is advice", "\"70.00\""),
        key("each_day", Table("[compose.each_day]"), None, "floors of a day with an open meal, per whole share", "{ protein = \"50 g\" }"),
        key("beside", Named(&Text), None, "a meal with something of the one word has something of the other", "{ soft = \"crunchy\" }"),
        key("use", Texts, None, "recipes or foods that must appear", "[\"recipe:leek-soup\"]"),
        key("not", Texts, None, "recipes or foods that must not", "[\"recipe:baked-fish\"]"),
    ],
);

pub(super) const EACH_DAY: Heading = heading(
    "[compose.each_day]",
    &[
        key("kcal", NumberOrZero, None, "energy of a day in kilocalories", "1500"),
        key("protein", Weight, None, "protein of a day", "\"50 g\""),
        key("fibre", Weight, None, "fibre of a day", "\"25 g\""),
    ],
);
