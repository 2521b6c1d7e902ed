//! Who is what: a listing that a person can read, and the pairs that matter most.

use pretty_assertions::assert_eq;

use super::*;

#[test]
fn every_name_of_the_table_is_the_own_name_of_a_food() {
    let foods = Foods::reference();
    let mut wrong = Vec::new();
    for [food, forms, holders, not] in rows() {
        if foods.find(food).is_none() {
            wrong.push(food);
        }
        for name in [forms, holders, not].into_iter().flat_map(names) {
            let is_kind = name.strip_prefix("kind:").is_some_and(|kind| Kind::named(kind).is_some());
            let is_own = foods.find(name).is_some_and(|id| foods[id].name == name);
            if !is_kind && !is_own {
                wrong.push(name);
            }
        }
    }
    assert_eq!(wrong, Vec::<&str>::new());
}

#[test]
fn the_foods_of_each_food_stand_in_a_list_to_be_read() {
    insta::assert_snapshot!("foods_of_each_food", listing(&Foods::reference()));
}

#[test]
fn what_a_name_says_it_is_free_of_is_not_in_it() {
    let mut foods = Foods::reference();
    for (name, asked, kinship) in [
        ("tomato-free ketchup", "tomato", Kinship::None),
        ("tomato free ketchup", "tomato", Kinship::None),
        ("house ketchup", "tomato", Kinship::MayHold),
        ("celery-free stock", "celery", Kinship::None),
        ("celery-free stock", "carrot", Kinship::MayHold),
        ("walnut-free pesto", "walnut", Kinship::None),
    ] {
        let food = foods.find(name).unwrap_or_else(|| foods.lay_over(Food { name: name.into(), ..Food::default() }));
        let asked = foods.find(asked).unwrap();
        assert_eq!(foods.kinship(food, asked, true), kinship, "{name}");
    }
}
