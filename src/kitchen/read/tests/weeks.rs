use super::*;
use crate::kitchen::{ShopId, Week};
use jiff::civil::{date, time};
use pretty_assertions::assert_eq;

const SHOPS: &str = "[[shop]]\nname = \"Quay\"\n[[shop]]\nname = \"Mill\"\n";

fn week(lines: &str) -> Week {
    let text = format!("from = 2026-11-30\n{lines}\n");
    loaded(&[("shops.toml", SHOPS), ("weeks/one.toml", &text)]).weeks.remove(0).1
}

fn wrong(lines: &str) -> Vec<String> {
    mistakes(&[("shops.toml", SHOPS), ("weeks/one.toml", &format!("from = 2026-11-30\n{lines}\n"))])
}

#[test]
fn a_week_without_a_name_is_called_by_its_day() {
    assert_eq!(week("").name, "Week of 30 Nov 2026");
    assert_eq!(week("name = \"Advent\"").name, "Advent");
}

#[test]
fn a_day_is_the_first_such_day_on_or_after_the_name_day() {
    let week = week("[[meal]]\nday = \"sun\"\nat = \"lunch\"\n[[meal]]\nday = \"Monday\"\nat = \"19:15\"");
    let meals: Vec<_> = week.meals.iter().map(|meal| (meal.label.as_str(), meal.at_time)).collect();
    // 2026-11-30 is a Monday.
    assert_eq!(meals, [("Mon 19:15", date(2026, 11, 30).at(19, 15, 0, 0)), ("Sun lunch", date(2026, 12, 6).at(12, 30, 0, 0))]);
}

#[test]
fn without_a_trip_there_is_one_the_day_before_the_first_session_or_meal() {
    let week = week("[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n[[meal]]\nday = \"mon\"\nat = \"supper\"");
    assert_eq!(week.trips.iter().map(|trip| (trip.on, trip.shops.clone())).collect::<Vec<_>>(), [(date(2026, 11, 28), None)]);
}

#[test]
fn trips_and_sessions_stand_in_order_of_time_and_name_their_shops() {
    let week = week(
        "[[trip]]\non = 2026-12-02\n[[trip]]\non = \"2026-11-28\"\nshops = [\"Mill\", \"Quay\"]\n[[meal]]\non = 2026-12-03\nat = \"lunch\"",
    );
    assert_eq!(week.trips[0].shops, Some(vec![ShopId(0), ShopId(1)]));
    assert_eq!(week.trips[1].on, date(2026, 12, 2));
}

#[test]
fn an_earlier_clock_time_to_finish_by_is_on_the_next_day() {
    let finish = |typed: &str| {
        week(&format!("[[session]]\nstart = \"2026-11-29 20:00\"\nfinish_by = {typed}\npeople = [\"cook\"]")).sessions[0].finish_by
    };
    assert_eq!(finish("\"23:00\""), Some(date(2026, 11, 29).at(23, 0, 0, 0)));
    assert_eq!(finish("01:00"), Some(date(2026, 11, 30).at(1, 0, 0, 0)));
}

#[test]
fn a_plain_person_is_name_and_role_and_a_helper_has_hours() {
    let people = "[\"cook\", { name = \"Jo\", as = \"helper\", from = \"15:00\", until = 16:00, may = [\"wash\"] }, { name = \"Ada\" }]";
    let session = week(&format!("[[session]]\nstart = 2026-11-29T14:00\npeople = {people}")).sessions.remove(0);
    let said: Vec<(&str, &str)> = session.people.iter().map(|person| (person.name.as_str(), person.role.as_str())).collect();
    assert_eq!(said, [("cook", "cook"), ("Jo", "helper"), ("Ada", "Ada")]);
    let jo = &session.people[1];
    assert_eq!((jo.from.unwrap().time(), jo.until.unwrap().time()), (time(15, 0, 0, 0), time(16, 0, 0, 0)));
    assert_eq!((jo.may.clone(), session.people[0].may.clone()), (Some(vec!["wash".to_owned()]), None));
}

#[test]
fn a_meal_counts_its_own_eaters_over_the_weeks_over_the_households() {
    let eaters = |lines: &str| week(&format!("{lines}[[meal]]\nday = \"mon\"\nat = \"lunch\"")).meals[0].eaters;
    assert_eq!((eaters(""), eaters("eaters = 2.5\n")), (3.0, 2.5));
    assert_eq!(week("[[meal]]\nday = \"mon\"\nat = \"lunch\"\neaters = 4").meals[0].eaters, 4.0);
}

#[test]
fn meals_at_one_time_stay_in_file_order() {
    let meal = |name: &str| format!("[[meal]]\nday = \"mon\"\nat = \"lunch\"\nname = \"{name}\"\n");
    let week = week(&(meal("Soup") + &meal("Bread")));
    let names: Vec<_> = week.meals.iter().map(|meal| meal.name.as_deref().unwrap()).collect();
    assert_eq!(names, ["Soup", "Bread"]);
}

#[test]
fn a_meal_needs_one_day_and_a_time() {
    assert_eq!(wrong("[[meal]]\nat = \"lunch\""), ["weeks/one.toml:2:1: a meal lacks its day. Add on = 2026-11-30 or day = \"mon\"."]);
    assert_eq!(
        wrong("[[meal]]\non = 2026-12-01\nday = \"mon\"\nat = \"lunch\""),
        ["weeks/one.toml:4:7: a meal has both on and day. Keep one of the two."]
    );
    assert_eq!(wrong("[[meal]]\nday = \"mon\""), ["weeks/one.toml:2:1: [[meal]] lacks \"at\". Add at = \"supper\"."]);
    assert_eq!(
        wrong("[[meal]]\nday = \"mon\"\nat = \"super\""),
        [
            "weeks/one.toml:4:6: \"super\" is neither a word of mealtimes nor a time. Did you mean \"supper\"? Write one of breakfast, lunch, supper, or \
          a time like \"19:15\"."
        ]
    );
}

#[test]
fn dates_out_of_order_are_mistakes() {
    let meal = "[[meal]]\non = 2026-12-01\nat = \"lunch\"\n";
    assert_eq!(
        wrong(&format!("{meal}[[trip]]\non = 2026-12-02\n{}", meal.replace("12-01", "12-03"))),
        [
            "weeks/one.toml:2:1: this meal on 2026-12-01 comes before the first trip or session, on 2026-12-02. Give it a later day, or the week an \
          earlier trip."
        ]
    );
    let people = "people = [{ name = \"Jo\", from = \"16:00\", until = \"15:00\" }]";
    assert_eq!(
        wrong(&format!("[[session]]\nstart = 2026-11-29T14:00\n{people}")),
        ["weeks/one.toml:4:50: until 15:00 is not after from 16:00. Make until later than from."]
    );
    assert_eq!(
        wrong("[[session]]\nstart = 2026-11-29T14:00\nfinish_by = 14:00\npeople = \"cook\""),
        ["weeks/one.toml:4:13: finish_by is not after the start. Make it later than the start."]
    );
}

#[test]
fn an_unknown_shop_of_a_trip_is_a_mistake() {
    assert_eq!(
        wrong("[[trip]]\non = 2026-11-28\nshops = [\"Quai\"]"),
        ["weeks/one.toml:4:10: there is no shop \"Quai\". Did you mean \"Quay\"?"]
    );
}
