//! What is made in which session: days, times, batches, spare, cooked lots, dishes made at the meal.

use pretty_assertions::assert_eq;

use crate::kitchen::{Kitchen, TWO_SESSIONS, assert_amount, batches, draws, has_line, kitchen, line, line_with_trip, supper};

const BLUEGRAIN: &str = "[[food]]\nname = \"bluegrain\"\nallergens = []\n";

/// A stew of 100 g bluegrain a batch; `keys` are further keys of the recipe.
fn stew(makes: &str, keys: &str) -> String {
    format!(
        "name = \"Moon stew\"\nmakes = \"{makes}\"\n{keys}\ningredients = \"\"\"\n100 g bluegrain\n\"\"\"\n[[step]]\ntext = \"Stir {{bluegrain}}.\"\nhands = \"5 min\"\n"
    )
}

fn with_stew(makes: &str, keys: &str) -> Kitchen {
    kitchen().foods(BLUEGRAIN).recipe("stew", &stew(makes, keys))
}

fn meal_at(on: &str, at: &str, each: &str) -> String {
    format!("[[meal]]\non = {on}\nat = \"{at}\"\neach = [{each}]\n")
}

#[test]
fn a_session_without_finish_by_serves_from_three_hours_after_its_start() {
    // 14:00 + 3 h = 17:00.
    let served = with_stew("4 portions", "").meals(&meal_at("2026-11-29", "17:00", "\"1 portion recipe:stew\""));
    assert_eq!(batches(&served.prep(), 0, "stew"), 0.5);
    let early = with_stew("4 portions", "").meals(&meal_at("2026-11-29", "16:59", "\"1 portion recipe:stew\""));
    early.refusal();
}

#[test]
fn ready_after_can_be_set() {
    let kitchen =
        with_stew("4 portions", "").rules("ready_after = \"1 h\"").meals(&meal_at("2026-11-29", "15:00", "\"1 portion recipe:stew\""));
    assert_eq!(batches(&kitchen.prep(), 0, "stew"), 0.5);
}

#[test]
fn a_session_serves_from_its_finish_by() {
    let week = |at: &str| {
        format!(
            "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\nfinish_by = \"15:30\"\npeople = [\"cook\"]\n{}",
            meal_at("2026-11-29", at, "\"1 portion recipe:stew\"")
        )
    };
    assert_eq!(batches(&with_stew("4 portions", "").week(&week("15:30")).prep(), 0, "stew"), 0.5);
    with_stew("4 portions", "").week(&week("15:29")).refusal();
}

#[test]
fn a_finish_by_earlier_than_the_start_is_on_the_next_day() {
    let week = |at: &str| {
        format!(
            "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T22:00\nfinish_by = \"01:00\"\npeople = [\"cook\"]\n{}",
            meal_at("2026-11-30", at, "\"1 portion recipe:stew\"")
        )
    };
    let keys = "keeps = { fridge = \"1 day\" }";
    with_stew("4 portions", keys).week(&week("00:30")).refusal();
    assert_eq!(batches(&with_stew("4 portions", keys).week(&week("breakfast")).prep(), 0, "stew"), 0.5);
}

#[test]
fn what_keeps_three_days_is_eaten_up_to_the_third_day_after() {
    // Made on 29 November, so up to 2 December, that day included.
    let keys = "keeps = { fridge = \"3 days\" }";
    let last = with_stew("4 portions", keys).meals(&supper("2026-12-02", "\"1 portion recipe:stew\""));
    assert_eq!(batches(&last.prep(), 0, "stew"), 0.5);
    let late = with_stew("4 portions", keys).meals(&supper("2026-12-03", "\"1 portion recipe:stew\""));
    late.refusal();
}

#[test]
fn without_fridge_days_it_is_eaten_on_the_day_it_is_made() {
    let today = with_stew("4 portions", "").meals(&supper("2026-11-29", "\"1 portion recipe:stew\""));
    assert_eq!(batches(&today.prep(), 0, "stew"), 0.5);
    with_stew("4 portions", "").meals(&supper("2026-11-30", "\"1 portion recipe:stew\"")).refusal();
}

#[test]
fn where_nothing_reaches_the_mistake_names_meal_dish_and_days() {
    let said = with_stew("4 portions", "keeps = { fridge = \"3 days\" }")
        .meals("[[meal]]\non = 2026-12-05\nat = \"supper\"\nname = \"Late supper\"\neach = [\"1 portion recipe:stew\"]\n")
        .refusal();
    assert!(said.contains("supper"), "the meal: {said}");
    assert!(said.contains("Moon stew"), "the dish: {said}");
    assert!(said.contains('3'), "the days it keeps: {said}");
}

#[test]
fn freezer_days_that_do_not_reach_are_refused_too() {
    // 29 November + 4 days in the freezer = 3 December.
    with_stew("4 portions", "keeps = { fridge = \"1 day\", freezer = \"4 days\" }")
        .meals(&supper("2026-12-04", "\"1 portion recipe:stew\""))
        .refusal();
}

#[test]
fn a_use_is_made_in_the_latest_session_that_can_serve_it() {
    let kitchen = with_stew("4 portions", "keeps = { fridge = \"7 days\" }")
        .week(&format!("{TWO_SESSIONS}{}", supper("2026-12-03", "\"1 portion recipe:stew\"")));
    let prep = kitchen.prep();
    assert_eq!((batches(&prep, 0, "stew"), batches(&prep, 1, "stew")), (0.0, 0.5));
}

#[test]
fn a_making_serves_every_later_use_within_its_fridge_days() {
    // Tuesday's is made on Sunday and keeps until 6 December, so it serves Thursday too: 2 portions = 0.5 batch.
    let meals = supper("2026-12-01", "\"1 portion recipe:stew\"") + &supper("2026-12-03", "\"1 portion recipe:stew\"");
    let prep = with_stew("4 portions", "keeps = { fridge = \"7 days\" }").week(&format!("{TWO_SESSIONS}{meals}")).prep();
    assert_eq!((batches(&prep, 0, "stew"), batches(&prep, 1, "stew")), (0.5, 0.0));
}

#[test]
fn what_the_fridge_does_not_reach_is_frozen_and_moved_the_day_before() {
    // 29 November + 3 days = 2 December; Friday the 4th comes out of the freezer on Thursday the 3rd.
    let kitchen = with_stew("4 portions", "keeps = { fridge = \"3 days\", freezer = \"1 month\" }")
        .meals(&supper("2026-12-04", "\"2 portions recipe:stew\""));
    let list = kitchen.list();
    assert_eq!(list["moves"].as_array().map(Vec::len), Some(1));
    assert_eq!(list["moves"][0]["at"], "2026-12-03");
    let text = list["moves"][0]["text"].as_str().unwrap_or_default();
    assert!(text.contains("2 portions") && text.contains("freezer"), "{text}");
    let prep = kitchen.prep();
    assert_eq!(prep["moves"].as_array().map(Vec::len), Some(1));
    assert_eq!(prep["sessions"][0]["boxes"][0]["place"], "freezer");
}

#[test]
fn what_one_session_makes_of_a_recipe_is_rounded_once() {
    // Tuesday 1 portion from the fridge, Friday 1.5 from the freezer: 2.5 of 4 portions = 0.625 batch, up to 1 half more = 1.
    // Rounded apart they would be 0.5 + 0.5 = 1 as well, so whole batches tell: 1, not 2.
    let meals = supper("2026-12-01", "\"1 portion recipe:stew\"") + &supper("2026-12-04", "\"1.5 portions recipe:stew\"");
    let prep = with_stew("4 portions", "batches = \"whole\"\nkeeps = { fridge = \"3 days\", freezer = \"1 month\" }").meals(&meals).prep();
    assert_eq!(batches(&prep, 0, "stew"), 1.0);
}

#[test]
fn batches_are_rounded_up_to_wholes_halves_or_not_at_all() {
    // 5 portions of a recipe for 4 are 1.25 batches.
    for (keys, expected) in [("batches = \"whole\"", 2.0), ("batches = \"halves\"", 1.5), ("batches = \"any\"", 1.25), ("", 1.5)] {
        let kitchen = with_stew("4 portions", keys).meals(&supper("2026-11-29", "\"5 portions recipe:stew\""));
        assert_eq!(batches(&kitchen.prep(), 0, "stew"), expected, "{keys}");
        // A batch takes 100 g.
        assert_amount(&line(&kitchen.list(), "bluegrain")["need"], 100.0 * expected, "g");
    }
}

#[test]
fn a_making_that_comes_out_even_is_not_rounded_up() {
    // 3 meals of 0.1 portion are 0.30000000000000004 in binary; of a recipe for 0.3 portions that is one batch.
    let meals = ["2026-11-29", "2026-11-30", "2026-12-01"].map(|on| supper(on, "\"0.1 portion recipe:stew\"")).concat();
    let prep = with_stew("0.3 portions", "batches = \"whole\"\nkeeps = { fridge = \"3 days\" }").meals(&meals).prep();
    assert_eq!(batches(&prep, 0, "stew"), 1.0);
}

#[test]
fn spare_that_cannot_be_frozen_is_reported_with_its_eat_by_day() {
    // 2 batches of 4 less 5 portions = 3; 29 November + 3 days = 2 December.
    let list = with_stew("4 portions", "batches = \"whole\"\nkeeps = { fridge = \"3 days\" }")
        .meals(&supper("2026-11-30", "\"5 portions recipe:stew\""))
        .list();
    let spare = &list["spare"][0];
    assert_eq!(spare["recipe"], "stew");
    assert_amount(&spare["amount"], 3.0, "portion");
    assert_eq!((spare["made_on"].as_str(), spare["eat_by"].as_str()), (Some("2026-11-29"), Some("2026-12-02")));
}

#[test]
fn spare_is_stated_in_the_unit_of_makes() {
    // 600 g made, 250 g eaten: halves, so 300 g made and 50 g spare.
    let list = with_stew("600 g", "keeps = { fridge = \"3 days\" }").meals(&supper("2026-11-30", "\"250 g recipe:stew\"")).list();
    assert_amount(&list["spare"][0]["amount"], 50.0, "g");
}

#[test]
fn frozen_spare_serves_the_next_use_before_another_making() {
    // Sunday makes 4 for Monday's 1; of the 3 frozen, Friday eats 2; 1 is left until 29 November + 60 days = 28 January.
    let meals = supper("2026-11-30", "\"1 portion recipe:stew\"") + &supper("2026-12-04", "\"2 portions recipe:stew\"");
    let kitchen = with_stew("4 portions", "batches = \"whole\"\nkeeps = { fridge = \"2 days\", freezer = \"2 months\" }")
        .week(&format!("{TWO_SESSIONS}{meals}"));
    let prep = kitchen.prep();
    assert_eq!((batches(&prep, 0, "stew"), batches(&prep, 1, "stew")), (1.0, 0.0));
    let list = kitchen.list();
    assert_eq!(list["spare"].as_array().map(Vec::len), Some(1));
    assert_amount(&list["spare"][0]["amount"], 1.0, "portion");
    assert_eq!(list["spare"][0]["eat_by"], "2027-01-28");
}

#[test]
fn frozen_spare_serves_part_of_a_use_and_the_rest_is_made() {
    // Of Friday's 5 portions 3 are frozen spare; 2 of 4 portions are made on Wednesday: 0.5 batch, were it not for whole ones: 1.
    let meals = supper("2026-11-30", "\"1 portion recipe:stew\"") + &supper("2026-12-04", "\"5 portions recipe:stew\"");
    let kitchen = with_stew("4 portions", "batches = \"whole\"\nkeeps = { fridge = \"2 days\", freezer = \"2 months\" }")
        .week(&format!("{TWO_SESSIONS}{meals}"));
    let prep = kitchen.prep();
    assert_eq!((batches(&prep, 0, "stew"), batches(&prep, 1, "stew")), (1.0, 1.0));
    // Made on Wednesday: 4 - 2 = 2 spare.
    assert_amount(&kitchen.list()["spare"][0]["amount"], 2.0, "portion");
}

#[test]
fn frozen_spare_does_not_serve_beyond_its_freezer_days() {
    // 29 November + 4 days = 3 December: Friday the 4th is made on Wednesday.
    let meals = supper("2026-11-30", "\"1 portion recipe:stew\"") + &supper("2026-12-04", "\"1 portion recipe:stew\"");
    let prep = with_stew("4 portions", "batches = \"whole\"\nkeeps = { fridge = \"2 days\", freezer = \"4 days\" }")
        .week(&format!("{TWO_SESSIONS}{meals}"))
        .prep();
    assert_eq!((batches(&prep, 0, "stew"), batches(&prep, 1, "stew")), (1.0, 1.0));
}

#[test]
fn a_month_in_the_freezer_is_thirty_days() {
    // 29 November + 30 days = 29 December.
    let list = with_stew("4 portions", "batches = \"whole\"\nkeeps = { fridge = \"2 days\", freezer = \"1 month\" }")
        .meals(&supper("2026-11-30", "\"1 portion recipe:stew\""))
        .list();
    assert_eq!(list["spare"][0]["eat_by"], "2026-12-29");
}

#[test]
fn cooked_lots_serve_first_and_the_rest_is_made() {
    // Monday wants 3 portions, 2 are in the fridge: 1 of 4 is made, a quarter of a batch.
    let kitchen = with_stew("4 portions", "batches = \"any\"\nkeeps = { fridge = \"3 days\" }")
        .pantry("[[lot]]\nrecipe = \"stew\"\namount = \"2 portions\"\nplace = \"fridge\"\nmade = 2026-11-28\n")
        .meals(&supper("2026-11-30", "\"3 portions recipe:stew\""));
    assert_eq!(batches(&kitchen.prep(), 0, "stew"), 0.25);
    let list = kitchen.list();
    assert_eq!(draws(&list, "stew"), [("2026-11-30".to_owned(), "fridge".to_owned(), 2.0)]);
    assert_eq!(list["from_pantry"][0]["recipe"], "stew");
    assert!(list["from_pantry"][0].get("food").is_none(), "cooked lots have recipe in place of food");
    assert_amount(&list["from_pantry"][0]["amount"], 2.0, "portion");
}

#[test]
fn cooked_lots_are_drawn_first_expired_first_out() {
    // Made on the 26th it keeps until 1 December, made on the 27th until the 2nd: Monday takes the older.
    let kitchen = with_stew("4 portions", "keeps = { fridge = \"5 days\" }")
        .foods("[[food]]\nname = \"bluegrain\"\n[[food]]\nname = \"seasalt\"\n")
        .pantry(
            "[[lot]]\nrecipe = \"stew\"\namount = \"3 portions\"\nplace = \"fridge\"\nmade = 2026-11-27\n\
             [[lot]]\nrecipe = \"stew\"\namount = \"1 portion\"\nplace = \"fridge\"\nmade = 2026-11-26\n",
        )
        .meals(&(supper("2026-11-30", "\"1 portion recipe:stew\"") + &supper("2026-12-04", "\"10 g seasalt\"")));
    let list = kitchen.list();
    assert_eq!(draws(&list, "stew"), [("2026-11-30".to_owned(), "fridge".to_owned(), 1.0)]);
    // The three of the 27th are left, and go off before Friday's meal.
    assert_eq!(list["expiring"].as_array().map(Vec::len), Some(1));
    assert_eq!(list["expiring"][0]["recipe"], "stew");
    assert_eq!(list["expiring"][0]["until"], "2026-12-02");
    assert_amount(&list["expiring"][0]["amount"], 3.0, "portion");
    assert!(!has_line(&list, "bluegrain"));
}

#[test]
fn a_cooked_lot_past_its_fridge_days_is_not_served() {
    // Made on the 26th, 3 days: until the 29th.
    let kitchen = with_stew("4 portions", "keeps = { fridge = \"3 days\" }")
        .pantry("[[lot]]\nrecipe = \"stew\"\namount = \"2 portions\"\nplace = \"fridge\"\nmade = 2026-11-26\n")
        .meals(&supper("2026-11-30", "\"2 portions recipe:stew\""));
    assert!(draws(&kitchen.list(), "stew").is_empty());
    assert_eq!(batches(&kitchen.prep(), 0, "stew"), 0.5);
}

#[test]
fn a_meal_asks_in_grams_where_the_portion_has_a_weight() {
    // 300 g of 200 g portions are 1.5; of 3 portions that is half a batch.
    let prep = with_stew("3 portions", "portion = \"200 g\"").meals(&supper("2026-11-29", "\"300 g recipe:stew\"")).prep();
    assert_eq!(batches(&prep, 0, "stew"), 0.5);
}

#[test]
fn each_is_for_every_eater_and_shared_for_the_table() {
    let meals = "[[meal]]\non = 2026-11-30\nat = \"supper\"\neaters = 2.5\neach = [\"100 g bluegrain\"]\nshared = [\"30 g bluegrain\"]\n";
    // 2.5 × 100 + 30 = 280.
    assert_amount(&line(&kitchen().foods(BLUEGRAIN).meals(meals).list(), "bluegrain")["need"], 280.0, "g");
}

#[test]
fn the_weeks_eaters_stand_over_the_households() {
    let week = format!("from = 2026-11-30\neaters = 4\n[[trip]]\non = 2026-11-28\n{}", supper("2026-11-30", "\"100 g bluegrain\""));
    assert_amount(&line(&kitchen().foods(BLUEGRAIN).week(&week).list(), "bluegrain")["need"], 400.0, "g");
}

#[test]
fn a_day_of_the_week_is_the_first_on_or_after_from() {
    // From Tuesday 1 December: "mon" is the 7th, "tue" the 1st itself.
    for (day, expected) in [("mon", "2026-12-07"), ("tue", "2026-12-01")] {
        let week = format!(
            "from = 2026-12-01\n[[trip]]\non = 2026-11-28\n[[meal]]\nday = \"{day}\"\nat = \"supper\"\neach = [\"100 g bluegrain\"]\n"
        );
        assert_eq!(line(&kitchen().foods(BLUEGRAIN).week(&week).list(), "bluegrain")["last_used"], expected);
    }
}

#[test]
fn the_households_mealtimes_are_laid_over_the_defaults() {
    // Tea at 16:00 is a word of the household's own; lunch keeps its default of 12:30.
    let household = "[household]\nname = \"Test row\"\neaters = 1\ncurrency = \"EUR\"\nmealtimes = { tea = \"16:00\" }\n";
    let meals = meal_at("2026-11-30", "tea", "\"100 g bluegrain\"") + &meal_at("2026-11-30", "lunch", "\"50 g bluegrain\"");
    let list = kitchen().file("kitchen.toml", household).foods(BLUEGRAIN).meals(&meals).list();
    assert_amount(&line(&list, "bluegrain")["need"], 150.0, "g");
}

#[test]
fn a_makings_ingredients_are_needed_on_its_sessions_date() {
    let list = with_stew("4 portions", "keeps = { fridge = \"3 days\" }").meals(&supper("2026-12-01", "\"4 portions recipe:stew\"")).list();
    let stew = line(&list, "bluegrain");
    assert_eq!(stew["last_used"], "2026-11-29");
    assert_eq!(stew["for"], serde_json::json!(["Moon stew"]));
}

const AT_THE_MEAL: &str = "batches = \"whole\"\nmade = \"at the meal\"";

#[test]
fn a_dish_made_at_the_meal_needs_no_session_and_is_one_making_a_meal() {
    // Two meals of 1 portion of a recipe for 2, in wholes: 2 batches = 200 g, and a spare portion each.
    let meals = supper("2026-11-30", "\"1 portion recipe:stew\"") + &supper("2026-12-02", "\"1 portion recipe:stew\"");
    let list = with_stew("2 portions", AT_THE_MEAL).week(&format!("from = 2026-11-30\n[[trip]]\non = 2026-11-28\n{meals}")).list();
    let (on, stew) = line_with_trip(&list, "bluegrain");
    assert_amount(&stew["need"], 200.0, "g");
    assert_eq!((on.as_str(), stew["last_used"].as_str()), ("2026-11-28", Some("2026-12-02")));
    assert_eq!(list["spare"].as_array().map(Vec::len), Some(2));
    assert_eq!(list["spare"][0]["made_on"], "2026-11-30");
    assert_amount(&list["spare"][0]["amount"], 1.0, "portion");
}

#[test]
fn a_dish_made_at_the_meal_comes_after_cooked_lots() {
    // 3 portions less 1 cooked = 2: one batch of 2.
    let list = with_stew("2 portions", &format!("{AT_THE_MEAL}\nkeeps = {{ fridge = \"3 days\" }}"))
        .pantry("[[lot]]\nrecipe = \"stew\"\namount = \"1 portion\"\nplace = \"fridge\"\nmade = 2026-11-28\n")
        .meals(&supper("2026-11-30", "\"3 portions recipe:stew\""))
        .list();
    assert_amount(&line(&list, "bluegrain")["need"], 100.0, "g");
    assert!(list["spare"].as_array().is_some_and(Vec::is_empty));
}

#[test]
fn made_counts_beside_any_other_date_of_a_cooked_lot() {
    // By its 5 days it would keep until 2 December; its use-by is the 29th. And the other way round.
    for dates in ["made = 2026-11-27\nuse_by = 2026-11-29", "made = 2026-11-24\nuse_by = 2026-12-09"] {
        let kitchen = with_stew("4 portions", "keeps = { fridge = \"5 days\" }")
            .pantry(&format!("[[lot]]\nrecipe = \"stew\"\namount = \"2 portions\"\nplace = \"fridge\"\n{dates}\n"))
            .meals(&supper("2026-11-30", "\"2 portions recipe:stew\""));
        assert!(draws(&kitchen.list(), "stew").is_empty(), "{dates}");
    }
}

#[test]
fn a_dish_that_nothing_serves_or_reaches_names_the_key_that_would_cure_it() {
    let told = with_stew("4 portions", "keeps = { fridge = \"1 day\" }");
    let week = |session: &str| {
        let session = format!("[[session]]\nstart = {session}T14:00\npeople = [\"cook\"]\n");
        format!("from = 2026-11-30\n[[trip]]\non = 2026-11-28\n{session}{}", meal_at("2026-12-01", "supper", "\"1 portion recipe:stew\""))
    };
    let told = told.week(&week("2026-12-02"));
    let refusal = told.refusal();
    assert!(refusal.contains("or write made = \"at the meal\" in recipes/stew.toml."), "{refusal}");
    let refusal = told.week(&week("2026-11-29")).refusal();
    let cure = "or say how long it keeps, as keeps = { fridge = \"3 days\", freezer = \"2 months\" }, in recipes/stew.toml.";
    assert!(refusal.contains(cure), "{refusal}");
}
