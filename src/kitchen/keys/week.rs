//! Keys of a planned week.

use super::Default::{Is, None, Required};
use super::Shape::*;
use super::line::line;
use super::meals::{COMPOSE, EACH_DAY};
use super::{File, heading, key};

pub(in crate::kitchen) static WEEK: File = File {
    name: "week",
    path: "weeks/*.toml",
    headings: &[
        heading(
            "",
            &[
                key("name", Name, Is("\"Week of 30 Nov 2026\""), "the week's name, on every sheet", "\"First week of advent\""),
                key("from", Date, Required, "its name day; meals may lie anywhere from the first trip or session on", "2026-11-30"),
                key("eaters", Number, Is("the household's"), "how many eat this week", "3").within("0.01", "10000"),
                key("for", Names, Is("all [[eater]]"), "who eats at the meals of this week", "[\"Rosa\", \"Emil\"]"),
                key(
                    "away",
                    Named(&Texts),
                    None,
                    "who is not there on which days, single ones or from/to",
                    "{ Emil = [\"2026-12-02/2026-12-04\"] }",
                ),
                key("trip", Tables("[[trip]]"), Is("one, the day before the first session or meal"), "when you shop", "[]"),
                key("session", Tables("[[session]]"), None, "when you cook, and with whom", "[]"),
                key("meal", Tables("[[meal]]"), None, "what you eat", "[]"),
                key("compose", Table("[compose]"), None, "what a composed week should be like; wins over that of kitchen.toml", "{}"),
            ],
        ),
        heading(
            "[[trip]]",
            &[
                key("on", Date, Required, "the day of shopping", "2026-11-28"),
                key("shops", Names, Is("all shops"), "where you go", "[\"Quay market\"]"),
            ],
        ),
        heading(
            "[[session]]",
            &[
                key("start", Moment, Required, "when you begin to cook", "2026-11-29T14:00"),
                key("finish_by", Time, None, "when all should be done; an overrun is told", "\"17:30\""),
                key(
                    "aim",
                    OneOf(&["soonest", "calm"]),
                    Is("\"soonest\""),
                    "the least finish; or few idle minutes and turns, with a tenth of the time kept free before finish_by",
                    "\"calm\"",
                ),
                key(
                    "without",
                    Names,
                    Is("[]"),
                    "appliances that are out of order: steps go to their or_on, if they have one",
                    "[\"oven\"]",
                ),
                key("people", TextsOr("[[session.people]]"), Required, "who cooks; a plain text is name and role", "[\"cook\"]"),
            ],
        ),
        heading(
            "[[session.people]]",
            &[
                key("name", Name, Required, "the name, as the guide says it", "\"Jo\""),
                key("as", Name, Is("the name"), "the role, for who of a step", "\"helper\""),
                key("from", Time, Is("the start"), "when this person comes", "\"15:00\""),
                key("until", Time, None, "when this person leaves", "\"16:00\""),
                key(
                    "may",
                    Names,
                    Is("everything"),
                    "what this person may do; \"heat\" is what heats, and taking out of it",
                    "[\"wash\", \"mix\"]",
                ),
            ],
        ),
        heading(
            "[[meal]]",
            &[
                key("on", Date, None, "the day; or day, one of the two", "2026-11-30"),
                key("day", Name, None, "the first such weekday on or after from", "\"mon\""),
                key("at", Name, Required, "a word of mealtimes, or a time", "\"supper\""),
                key("name", Name, None, "what the meal is called", "\"Barley plates\""),
                key("text", Text, None, "what is to be known or done at it, for the week card", "\"Bake the potatoes in their skins.\""),
                key("eaters", Number, Is("the week's"), "how many eat; nobody is named, and everybody's allergies hold", "3")
                    .within("0.01", "10000"),
                key("for", Names, Is("the week's"), "who eats, by name", "[\"Rosa\", \"Emil\"]"),
                key("guests", NumberOr("[[meal.guests]]"), None, "who eats besides, each one portion: how many, or by name", "2"),
                key(
                    "instead",
                    Named(&Lines("[[meal.each]]")),
                    None,
                    "what an eater gets in place of all of each, for a whole share",
                    "{ Emil = [\"1 portion recipe:plain-mash\"] }",
                ),
                key(
                    "without",
                    Named(&Names),
                    None,
                    "foods or recipes left out for an eater, also inside dishes",
                    "{ Emil = [\"tahini\"] }",
                ),
                key(
                    "each",
                    Lines("[[meal.each]]"),
                    None,
                    "what each eater gets; with any:WORD in it the meal is open",
                    "[\"1 portion recipe:pearl-barley\"]",
                ),
                key("shared", Lines("[[meal.each]]"), None, "what the whole table shares", "[\"1 lemon\"]"),
                key("open", TrueFalse, Is("true with a pattern or any:WORD and nothing else"), "left to spence compose", "true"),
                key("pattern", Text, None, "the pattern of meals.toml that it follows; alone, the meal is open", "\"Plate\""),
                key("ready_in", Duration, None, "of an open meal: hands and waits at the meal, heating included", "\"15 min\""),
                key("packed", TrueFalse, Is("false"), "of an open meal: eaten away and cold", "true"),
                key("skip", TrueFalse, Is("false"), "the meal falls out: it eats nothing; spence skip writes it", "true"),
            ],
        ),
        line("[[meal.each]]"),
        COMPOSE,
        EACH_DAY,
        heading(
            "[[meal.guests]]",
            &[
                key("name", Name, Required, "the guest's name", "\"Ana\""),
                key("allergic", Names, None, "allergens, foods or kinds of food, never served: a mistake", "[\"milk\"]"),
                key("avoid", Names, None, "allergens, foods or kinds of food, rather not: a warning", "[\"mushroom\"]"),
            ],
        ),
    ],
};
