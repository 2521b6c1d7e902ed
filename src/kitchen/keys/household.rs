//! Keys of kitchen.toml, of recipes and of foods.toml.

use super::Default::{Is, None, Required};
use super::Shape::*;
use super::line::line;
use super::meals::{COMPOSE, EACH_DAY};
use super::{File, Heading, heading, key};
use crate::foods::Kind;
use crate::kitchen::ApplianceKind;

pub(in crate::kitchen) static KITCHEN: File = File {
    name: "kitchen",
    path: "kitchen.toml",
    headings: &[
        heading(
            "",
            &[
                key("household", Table("[household]"), Required, "who eats, in which money, at which times", "{}"),
                key("print", Table("[print]"), None, "how the sheets are printed", "{}"),
                key("rules", Table("[rules]"), None, "how the household buys, cooks and reckons", "{}"),
                key("compose", Table("[compose]"), None, "what a composed week should be like; a week's own [compose] wins", "{}"),
                key("eater", Tables("[[eater]]"), None, "who eats, where the household is more than a number", "[]"),
                key("appliance", Tables("[[appliance]]"), None, "what there is to cook on and in", "[]"),
                key("staple", Tables("[[staple]]"), None, "what is filled up whenever it runs low", "[]"),
            ],
        ),
        heading(
            "[household]",
            &[
                key("name", Name, Required, "its name, at the head of every sheet", "\"Boatyard Row\""),
                key(
                    "eaters",
                    Number,
                    Is("the sum of [[eater]]"),
                    "how many eat, must be written without [[eater]]; a child may count as 0.5",
                    "3",
                )
                .within("0.01", "10000"),
                key("currency", Name, Required, "the money of all prices, by its letters in ISO 4217", "\"EUR\""),
                key(
                    "avoid",
                    Names,
                    None,
                    "allergens, foods or kinds of food that draw a warning wherever a meal contains one, or may",
                    "[\"sesame\"]",
                ),
                key(
                    "allergic",
                    Names,
                    None,
                    "allergens, foods or kinds of food that nobody of the household may be served: a mistake",
                    "[\"peanuts\"]",
                ),
                key("budget", Money, None, "what a week's shopping may cost; what is over is told, with what would save most", "\"80.00\""),
                key(
                    "mealtimes",
                    Named(&Time),
                    Is("{ breakfast = \"07:30\", lunch = \"12:30\", supper = \"18:30\" }"),
                    "the words for meals and their times, laid over the defaults",
                    "{ supper = \"19:00\" }",
                ),
                key(
                    "zone",
                    Name,
                    None,
                    "the time zone of the calendar, by its name in the IANA tz database; without it times float",
                    "\"Europe/Lisbon\"",
                ),
            ],
        ),
        heading(
            "[[eater]]",
            &[
                key("name", Name, Required, "the name, as sheets and messages say it", "\"Emil\""),
                key("share", Number, Is("1"), "how much of a portion this eater gets", "0.5").within("0.01", "100"),
                key("allergic", Names, None, "allergens, foods or kinds of food, never served: a mistake", "[\"sesame\", \"walnut\"]"),
                key("avoid", Names, None, "allergens, foods or kinds of food, rather not: a warning", "[\"mushroom\"]"),
                key("eats", Names, Is("everything"), "\"no meat\", \"no animal\", or the kinds of food that are not eaten", "\"no meat\""),
                key("sure", Texts, None, "of these one at least at every supper that is composed", "[\"pasta\", \"rice\"]"),
                key("born", Date, None, "what is not for small children follows from the age on the day", "2026-02-20"),
                key("needs", Table("[eater.needs]"), None, "what is wanted of a day, theirs to set", "{ kcal = 2000 }"),
                key(
                    "swap",
                    Named(&TextOrBlank),
                    None,
                    "in every meal, another dish or food in place of one; \"\" leaves it out",
                    "{ white-bean-mash = \"plain-mash\", tahini = \"\" }",
                ),
            ],
        ),
        COMPOSE,
        EACH_DAY,
        heading(
            "[eater.needs]",
            &[
                key("kcal", NumberOrZero, None, "energy of a day in kilocalories", "2000").within("0", "20000"),
                key("protein", Weight, None, "protein of a day", "\"50 g\""),
                key("fibre", Weight, None, "fibre of a day", "\"25 g\""),
            ],
        ),
        heading(
            "[print]",
            &[
                key("paper", OneOf(&["A4", "letter"]), Is("\"A4\""), "the paper of the sheets", "\"A4\""),
                key("units", OneOf(&["metric", "us"]), Is("\"metric\""), "how sheets print amounts and degrees", "\"metric\""),
                key(
                    "sheets",
                    Names,
                    Is("[\"list\", \"guide\", \"week\", \"labels\"]"),
                    "what print writes: list, guide, week, labels, recipes, phone, calendar",
                    "[\"list\", \"recipes\"]",
                ),
                key(
                    "under",
                    Names,
                    Is("[\"home\", \"look\", \"use-up\", \"cost\", \"left\", \"moves\", \"spare\", \"meals\"]"),
                    "what stands under the shopping list, in this order; what runs short always stands first",
                    "[\"look\", \"home\", \"cost\"]",
                ),
            ],
        ),
        heading(
            "[rules]",
            &[
                key("short_by", Share, Is("\"2%\""), "share of a demand that may stay unmet; never of counted or loose goods", "\"2%\""),
                key("choose", OneOf(&["cheapest", "least-left"]), Is("\"cheapest\""), "which packs are best", "\"cheapest\""),
                key("spoons", OneOf(&["us", "metric"]), Is("\"us\""), "US spoons and cups (NIST), or 15 ml, 5 ml and 250 ml", "\"us\""),
                key(
                    "pints",
                    OneOf(&["us", "imperial"]),
                    Is("\"us\""),
                    "pints, quarts, gallons and fluid ounces: US (473 ml a pint) or imperial (568 ml)",
                    "\"us\"",
                ),
                key("always", Names, Is("[\"water\"]"), "foods that are never bought for a recipe and never counted", "[\"water\"]"),
                key("ask", Names, Is("[]"), "foods printed as \"look before you go\" instead of counted", "[\"olive oil\"]"),
                key("ready_after", Duration, Is("\"3 h\""), "when a session without finish_by can serve a meal", "\"3 h\""),
                key("boxing", Duration, Is("\"3 min\""), "hands-on time of boxing one making; \"0 min\" leaves the task out", "\"3 min\""),
                key(
                    "cool",
                    Duration,
                    Is("\"10 min\""),
                    "what is hot is boxed at the earliest that long after it left the heat",
                    "\"10 min\"",
                ),
                key("wash", Duration, Is("\"3 min\""), "added to a step that handles raw meat, poultry, fish or egg", "\"3 min\""),
                key("wash_up", Duration, Is("\"0 min\""), "hands-on, once at the end of a session; it counts to the finish", "\"15 min\""),
                key("pace", Number, Is("1.0"), "multiplies hands-on time: 1.2 for slow hands", "1.0").within("0.01", "100"),
                key(
                    "prefer",
                    Texts,
                    Is("[\"cost\", \"variety\", \"work\"]"),
                    "what decides between composed weeks, the first first",
                    "[\"variety\", \"cost\", \"work\"]",
                ),
            ],
        ),
        heading(
            "[[appliance]]",
            &[
                key("name", Name, Required, "what the steps call it", "\"oven\""),
                key("room", WholeNumber, Is("1"), "how many loads at once: trays, rings, pots", "2").within("1", "1000"),
                key("heat", TrueFalse, Is("false"), "its loads share one temperature", "true"),
                key(
                    "near",
                    Degrees,
                    Is("\"10 °C\" with heat = true"),
                    "by how much the temperatures of one run may differ; the lowest is set",
                    "\"10 °C\"",
                ),
                key(
                    "warm_up",
                    Duration,
                    Is("\"10 min\" with heat = true"),
                    "unattended, before a run at another temperature",
                    "\"10 min\"",
                ),
                key("out", Duration, Is("\"1 min\" on what heats, else \"0 min\""), "hands-on time to take a load out", "\"1 min\""),
                key(
                    "comes_up",
                    Duration,
                    Is("\"10 min\" for a pressure cooker, else \"0 min\""),
                    "unattended, until it is under pressure: added to the wait of each of its loads",
                    "\"10 min\"",
                ),
                key("holds", Volume, None, "what one load of it holds", "\"6 l\""),
                key(
                    "kind",
                    OneOf(&ApplianceKind::NAMES),
                    Is("guessed from the name"),
                    "what kind it is: methods say \"in the oven\", whatever its name",
                    "\"oven\"",
                ),
                key("fan", TrueFalse, Is("false"), "an oven that moves its air: methods give it a lower figure", "true"),
            ],
        ),
        heading(
            "[[staple]]",
            &[
                key("food", Name, Required, "the food", "\"oat milk\""),
                key("par", Amount, Required, "the level to which it is filled up", "\"2 l\""),
                key("when_below", Amount, Is("half of par"), "it is bought when less than this is left", "\"500 ml\""),
            ],
        ),
    ],
};

pub(in crate::kitchen) static RECIPE: File = File {
    name: "recipe",
    path: "recipes/*.toml",
    headings: &[
        heading(
            "",
            &[
                key("name", Name, Required, "the name of the dish, as it is printed", "\"White-bean mash\""),
                key("makes", Amount, Required, "what one batch gives: portions, a weight, a volume or pieces", "\"6 portions\""),
                key("portion", Weight, None, "what one portion weighs; lets a meal ask in grams", "\"200 g\""),
                key("batches", OneOf(&["whole", "halves", "any"]), Is("\"halves\""), "how a batch may be cut", "\"halves\""),
                key(
                    "keeps",
                    Table("[keeps]"),
                    None,
                    "how long it keeps; without, it is eaten on the day it is made",
                    "{ fridge = \"3 days\" }",
                ),
                key(
                    "made",
                    OneOf(&["in a session", "at the meal"]),
                    Is("\"in a session\""),
                    "\"at the meal\": made fresh; its steps go on the week card",
                    "\"at the meal\"",
                ),
                key(
                    "serve",
                    OneOf(&["hot", "cold"]),
                    None,
                    "whether it is reheated; hot is straight from the pot soon after its session",
                    "\"hot\"",
                ),
                key(
                    "hold",
                    Duration,
                    Is("\"30 min\""),
                    "straight from the pot: the most from the end of its last step to the meal; \"0 min\" is served at once",
                    "\"30 min\"",
                ),
                key("hold_hot", Duration, None, "the same where it is kept at 60 °C (140 °F) or above", "\"2 h\""),
                key("fits", Texts, None, "the places in a meal that it can take; words of your own", "[\"filling\", \"protein\"]"),
                key("is", Texts, None, "what it is like at table; words of your own, for beside", "[\"soft\", \"rich\"]"),
                key("style", Text, None, "dishes of one meal share a style or have none", "\"from the sea\""),
                key("box", Table("[box]"), None, "what it is kept in", "{ name = \"flat tub\", holds = \"4 portions\" }"),
                key(
                    "ingredients",
                    Lines("[[ingredients]]"),
                    Required,
                    "one line an ingredient, as a book prints it",
                    "\"200 g white beans\"",
                ),
                key("step", Tables("[[step]]"), None, "what is done, in order, key by key", "[]"),
                key(
                    "method",
                    Texts,
                    None,
                    "in place of [[step]]: the method as a book prints it, one paragraph a line",
                    "\"Roast for 40 minutes at 190 °C.\"",
                ),
                key("trays", Number, Is("reckoned from the amount"), "trays that a batch takes in the oven, for a method", "1.5")
                    .within("0.001", "1000"),
                key(
                    "at_table",
                    Texts,
                    None,
                    "beside [[step]]: what is done at the table, printed with the dish, one text a line",
                    "\"Scatter with parsley.\"",
                ),
                key(
                    "notes",
                    Texts,
                    None,
                    "beside [[step]]: tips and the like, printed with the dish, one a line",
                    "\"Tip: better the next day.\"",
                ),
                key(
                    "source",
                    TextOr("[source]"),
                    None,
                    "where the recipe comes from; a plain text is its title",
                    "{ author = \"A. Cook\", title = \"Suppers\" }",
                ),
            ],
        ),
        heading(
            "[keeps]",
            &[
                key("fridge", Days, Is("\"0 days\""), "days in the fridge after the day it is made", "\"3 days\""),
                key("freezer", Days, None, "days in the freezer after the day it is made", "\"2 months\""),
                key("cupboard", Days, None, "days in the cupboard after the day it is made", "\"4 days\""),
            ],
        ),
        heading(
            "[box]",
            &[
                key("name", Name, Required, "what the box is called", "\"flat tub\""),
                key("holds", Amount, Required, "how much of the dish goes into one", "\"4 portions\""),
            ],
        ),
        heading(
            "[source]",
            &[
                key("author", Name, None, "who wrote it", "\"A. Cook\""),
                key("title", Name, None, "the book or the page", "\"Suppers\""),
                key("address", Text, None, "where it is found", "\"page 12\""),
            ],
        ),
        line("[[ingredients]]"),
        heading(
            "[[step]]",
            &[
                key("id", Name, None, "a name for it, for after; steps are numbered from 1 anyway", "\"warm\""),
                key(
                    "text",
                    Text,
                    Required,
                    "what is done; {food} prints the scaled amount, {food: 2 tbsp} that share",
                    "\"Warm {olive oil}.\"",
                ),
                key("hands", Duration, Is("\"0 min\""), "hands-on time at its start", "\"6 min\""),
                key("wait", Duration, Is("\"0 min\""), "unattended time after it; never grows", "\"45 min\""),
                key(
                    "scales",
                    TrueFalse,
                    Is("true without an appliance, else false"),
                    "whether hands-on time grows with the batches",
                    "true",
                ),
                key("on", Names, None, "an appliance, or a list, held from start to end", "\"hob\""),
                key("takes", Number, Is("1"), "the room that one batch takes in it", "1").within("0.001", "1000"),
                key("temperature", Temperature, None, "for an appliance with heat = true", "\"180 °C\""),
                key("or_on", Name, None, "the appliance it stands on where the one in on is out of order", "\"hob\""),
                key("or_wait", Duration, Is("wait"), "the wait there", "\"30 min\""),
                key("or_temperature", Temperature, Is("temperature where or_on has heat = true"), "the temperature there", "\"190 °C\""),
                key("or_takes", Number, Is("takes"), "the room that one batch takes there", "1").within("0.001", "1000"),
                key("inside", Temperature, None, "the inside temperature this step must reach", "\"74 °C\""),
                key("who", Name, None, "only people of this role", "\"cook\""),
                key("skill", Name, None, "only people who may do this; what heats asks for \"heat\" beside it", "\"knife\""),
                key("after", Names, Is("the step before it"), "ids or numbers of steps, or \"recipe:other\"; [] starts free", "[\"warm\"]"),
                key("gap", Duration, None, "least time from their end to its start", "\"1 h\""),
                key("within", Duration, None, "most time from their end to its start", "\"2 h\""),
                key("ahead", Duration, None, "done this long before the session starts", "\"12 h\""),
            ],
        ),
    ],
};

pub(in crate::kitchen) static FOODS: File = File {
    name: "foods",
    path: "foods.toml",
    headings: &[
        heading("", &[key("food", Tables("[[food]]"), None, "what the household knows better than the built-in reference", "[]")]),
        Heading {
            name: "[[food]]",
            keys: &[
                key("name", Name, Required, "the food; laid over the reference's entry of that name, key by key", "\"onion\""),
                key("also", Names, None, "other names", "[\"brown onion\"]"),
                key("kind", OneOf(&Kind::NAMES), None, "what kind of food it is; a raw kind brings its cautions", "\"vegetable\""),
                key("section", Name, None, "where in a shop it stands", "\"Vegetables\""),
                key("cup", WeightOrTable, None, "weight of a US cup, by form", "{ chopped = \"160 g\" }"),
                key("each", WeightOrTable, None, "weight of one as purchased, by size", "{ small = \"78 g\", medium = \"122 g\" }"),
                key("edible", Share, None, "what is left after trimming", "\"90%\"").within("1%", "100%"),
                key("cooked", Number, None, "cooked weight for each dry weight", "2.9").within("0.01", "100"),
                key("drained", Share, None, "the drained share of a tin", "\"60%\"").within("1%", "100%"),
                key(
                    "cut",
                    TrueFalse,
                    Is("as the reference says, else true"),
                    "false: only whole ones are taken, as of eggs and rolls",
                    "false",
                ),
                key("fits", Texts, None, "the places in a meal that it can take; words of your own", "[\"spread\"]"),
                key("is", Texts, None, "what it is like at table; words of your own, for beside", "[\"raw\", \"crunchy\"]"),
                key("serving", Amount, None, "one portion of it, where a pattern asks for portions", "\"40 g\""),
                key("cooks", Text, None, "how it is cooked by itself, and for how long", "\"boil 30 min\""),
                key("keeps", Table("[food.keeps]"), None, "how long it keeps: the lower published figure", "{ fridge = \"60 days\" }"),
                key("thaw", Days, None, "how long it takes to thaw in the fridge", "\"1 day\""),
                key("allergens", Allergens, None, "of EU 1169/2011 Annex II; [] is none, absent is not known", "[\"milk\"]"),
                key(
                    "per_100g",
                    Table("[food.per_100g]"),
                    None,
                    "energy and nutrients of 100 g eaten, as a packet has them",
                    "{ kcal = 276 }",
                ),
                key("source", Text, Is("file and line"), "where the figures come from", "\"the packet\""),
            ],
            open: Some(key(
                "<kitchen word>",
                WeightOrVolume,
                None,
                "weight or volume of one clove, slice, bunch, tin, carton ... as purchased",
                "\"100 g\"",
            )),
        },
        heading(
            "[food.keeps]",
            &[
                key("cupboard", Days, None, "days in the cupboard", "\"30 days\""),
                key("fridge", Days, None, "days in the fridge", "\"60 days\""),
                key("freezer", Days, None, "days in the freezer", "\"240 days\""),
                key("opened", Days, None, "days once opened", "\"7 days\""),
            ],
        ),
        heading(
            "[food.per_100g]",
            &[
                key("kcal", NumberOrZero, None, "energy in kilocalories", "276").within("0", "902"),
                key("protein", Weight, None, "protein", "\"17 g\""),
                key("carbohydrate", Weight, None, "carbohydrate", "\"0.7 g\""),
                key("fat", Weight, None, "fat", "\"23 g\""),
                key("fibre", Weight, None, "fibre", "\"2.2 g\""),
                key("sodium", Weight, None, "sodium", "\"1040 mg\""),
            ],
        ),
    ],
};
