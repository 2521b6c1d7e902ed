use super::*;
use pretty_assertions::assert_eq;

fn read(text: &str, fan: bool) -> (Option<f64>, bool, Option<f64>) {
    let w = Words::of(text);
    let heat = heat(&w, 0, w.len(), fan, true);
    (heat.oven.map(|celsius| celsius.0), heat.guessed, heat.inside.map(|celsius| celsius.0))
}

#[test]
fn every_way_of_writing_degrees_is_read_and_the_first_counts() {
    for (text, celsius) in [
        ("to 190 °C", 190.0),
        ("190C", 190.0),
        ("220ºC / 425ºF", 220.0),
        ("to 375 °F", 190.6),
        ("at 375 degrees", 190.6),
        ("at 180 degrees", 180.0),
        ("to 350°", 176.7),
        ("bake at 350 for 20 minutes", 176.7),
        ("gas mark 5", 190.0),
        ("gas ½", 120.0),
        ("200C/180C fan/gas 6", 200.0),
        ("220C/fan 200C/gas 7", 220.0),
        ("200°C/400°F (180°C fan)", 200.0),
        ("400°F (200°C)", 204.4),
        ("in a 350-degree oven", 176.7),
        ("to 180 fan/200C/gas 6", 200.0),
        ("at 160° until the centre is set", 160.0),
        ("at 100°C until the centre is firm", 100.0),
        ("in the centre of the oven at 160°C", 160.0),
    ] {
        assert_eq!(read(text, false), (Some(celsius), false, None), "{text}");
    }
}

#[test]
fn an_oven_with_a_fan_takes_its_own_figure_and_what_is_reckoned_is_marked() {
    assert_eq!(read("200C/180C fan/gas 6", true), (Some(180.0), false, None));
    assert_eq!(read("180C fan", false), (Some(200.0), true, None));
    assert_eq!(read("160°C (fan)", false), (Some(180.0), true, None));
    assert_eq!(read("200C", true), (Some(180.0), true, None));
    assert_eq!(read("in a moderate oven", false), (Some(180.0), true, None));
    assert_eq!(read("in a moderately hot oven", false), (Some(200.0), true, None));
}

#[test]
fn the_inside_is_told_from_the_oven() {
    assert_eq!(read("until the inside reaches 165 °F", false), (None, false, Some(73.9)));
    assert_eq!(read("at 180 °C until it is 74 °C in the thickest part", false), (Some(180.0), false, Some(74.0)));
    assert_eq!(read("for 20 minutes with 2 tbsp oil", false), (None, false, None));
}

#[test]
fn no_food_is_as_hot_inside_as_an_oven() {
    for (text, inside) in [
        ("until the internal temperature registers 165°", 73.9),
        ("until it reaches 145°", 62.8),
        ("until it reaches 75°C", 75.0),
        ("70°C in the middle", 70.0),
        ("until it reaches 96°C inside", 96.0),
    ] {
        assert_eq!(read(text, false), (None, false, Some(inside)), "{text}");
    }
    assert_eq!(read("at 350° until a thermometer registers 165°", false), (Some(176.7), false, Some(73.9)));
    assert_eq!(read("until the oil reaches 180°C", false).2, None);
}

#[test]
fn a_fan_is_told_before_the_figure_too_and_the_first_gas_mark_counts() {
    assert_eq!(read("in a fan oven at 180C", false), (Some(200.0), true, None));
    assert_eq!(read("in a fan oven at 180C", true), (Some(180.0), false, None));
    assert_eq!(read("to 180 °C in a fan-assisted oven", false), (Some(200.0), true, None));
    assert_eq!(read("a fan-assisted oven to 180 °C", true), (Some(180.0), false, None));
    assert_eq!(read("at 200C, or 180C in a fan oven", false), (Some(200.0), false, None));
    assert_eq!(read("at 180C fan, 200C, gas 6", false), (Some(200.0), false, None));
    assert_eq!(read("gas mark 4-5", false), (Some(180.0), false, None));
}
