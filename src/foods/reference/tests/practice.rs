//! What cooks and shops know: what is not cut, where things lie, what people call them.

use pretty_assertions::assert_eq;

use super::*;

#[test]
fn every_kind_of_food_has_its_foods() {
    let kinds: BTreeSet<Kind> = rows().into_iter().filter_map(|food| food.kind).collect();
    assert_eq!(kinds, Kind::ALL.map(|(kind, _)| kind).into());
}

#[test]
fn eggs_tins_slices_and_rolls_are_not_cut() {
    let foods = reference();
    for name in
        ["egg", "tinned chickpeas", "coconut milk", "white bread", "bread roll", "flour tortilla", "lasagne sheet", "sausage", "bagel"]
    {
        assert_eq!(find(&foods, name).cut.as_ref().map(|fact| fact.value), Some(false), "{name}");
    }
    for name in ["onion", "baguette", "cheddar", "chicken breast"] {
        assert_eq!(find(&foods, name).cut, None, "{name}");
    }
}

#[test]
fn grains_pulses_pasta_potatoes_and_eggs_say_how_they_are_cooked() {
    let foods = reference();
    for (name, cooks) in [
        ("brown rice", "boil 30 min"),
        ("pearl barley", "boil 30 min"),
        ("couscous", "pour boiling water over 5 min"),
        ("penne", "boil 11 min"),
        ("baking potato", "bake 1 h 15 min"),
        ("potato", "boil 20 min"),
        ("egg", "boil 10 min"),
        ("dried chickpeas", "boil 1 h 15 min"),
        ("split mung beans", "boil 25 min"),
    ] {
        assert_eq!(find(&foods, name).cooks.as_ref().map(|fact| fact.value.to_string()).as_deref(), Some(cooks), "{name}");
    }
}

/// Where it keeps longer is where it is put.
fn longest(food: &Food) -> Option<Place> {
    [Place::Fridge, Place::Cupboard].into_iter().filter(|place| food.keeps.at(*place).is_some()).max_by_key(|place| food.keeps.at(*place))
}

#[test]
fn things_lie_where_a_household_keeps_them() {
    let foods = reference();
    for name in ["banana", "tomato", "potato", "garlic", "butternut squash", "avocado", "olive oil"] {
        assert_eq!(longest(find(&foods, name)), Some(Place::Cupboard), "{name}");
    }
    for name in ["spring onion", "carrot", "milk", "egg", "parsley", "lettuce", "ginger"] {
        assert_eq!(longest(find(&foods, name)), Some(Place::Fridge), "{name}");
    }
}

#[test]
fn what_every_maker_puts_in_is_known_where_the_rest_is_not() {
    let foods = reference();
    for (name, certain) in [
        ("mayonnaise", vec![Allergen::Egg]),
        ("mustard", vec![Allergen::Mustard]),
        ("miso", vec![Allergen::Soybeans]),
        ("panko", vec![Allergen::Gluten]),
        ("hummus", vec![Allergen::Sesame]),
        ("pesto", vec![Allergen::Milk]),
        ("white bread", vec![Allergen::Gluten]),
        ("worcestershire sauce", vec![Allergen::Fish]),
        ("stock cube", vec![]),
    ] {
        let food = find(&foods, name);
        assert_eq!(food.contains.as_ref().map(|fact| fact.value.clone()), Some(certain), "{name}");
        assert_eq!(food.allergens, None, "{name}: a maker may add others");
    }
}

#[test]
fn a_cup_of_leaves_or_of_cabbage_weighs_what_a_cook_expects() {
    let foods = reference();
    // USDA SR 02064: two tablespoons of peppermint weigh 3.2 g. SR 11109: a cup of chopped cabbage, edible, 89 g.
    assert_eq!(grams(&find(&foods, "mint").cup, "leaves"), Some(25.6));
    assert_eq!(grams(&find(&foods, "cabbage").cup, "chopped"), Some(89.0));
}

#[test]
fn household_goods_hold_no_allergen_and_nothing_to_eat() {
    let foods = reference();
    for name in ["paper towel", "foil", "baking parchment", "kitchen string", "plastic wrap", "toothpicks"] {
        let goods = find(&foods, name);
        assert_eq!(goods.kind, Some(Kind::Household), "{name}");
        assert_eq!(goods.allergens.as_ref().map(|fact| fact.value.as_slice()), Some([].as_slice()), "{name}");
        assert_eq!(goods.nutrients.as_ref().unwrap().value.rows().map(|row| row.1), [Some(0.0); 6], "{name}");
    }
}

#[test]
fn names_that_people_type_are_known() {
    let foods = reference();
    for (typed, food) in [
        ("nutritional yeast flakes", "nutritional yeast"),
        ("plant-based milk", "plant milk"),
        ("agave syrup", "agave syrup"),
        ("milled linseed", "ground flaxseed"),
        ("golden caster sugar", "golden caster sugar"),
        ("coconut yogurt", "coconut yoghurt"),
        ("moong dal", "split mung beans"),
        ("ginger garlic paste", "ginger-garlic paste"),
        ("bouillon powder", "stock powder"),
        ("beef", "beef"),
        ("lamb", "lamb"),
        ("pork", "pork"),
        ("steak", "steak"),
        ("cream of mushroom soup", "condensed mushroom soup"),
        ("lamb stock", "lamb stock"),
        ("baby corn", "baby corn"),
        ("dried porcini", "dried porcini"),
        ("tikka masala paste", "tikka masala paste"),
        ("papad", "poppadom"),
        ("vegan butter", "vegan butter"),
        ("vegan cheese", "vegan cheese"),
        ("vegan mayo", "vegan mayonnaise"),
        ("soy yogurt", "soya yoghurt"),
        ("gluten-free flour", "gluten-free flour"),
        ("textured vegetable protein", "soya mince"),
        ("smoked tofu", "smoked tofu"),
        ("lime zest", "lime zest"),
        ("pomegranate seeds", "pomegranate seeds"),
        ("broccolini", "broccolini"),
        ("palak", "spinach"),
        ("jeera", "cumin seed"),
        ("dhania", "coriander"),
        ("dhania powder", "ground coriander"),
        ("toor dal", "dried pigeon peas"),
        ("tuvar dal", "dried pigeon peas"),
        ("curd", "yoghurt"),
        ("burghul", "bulgur wheat"),
        ("SR flour", "self-raising flour"),
        ("ground cumin", "cumin"),
        ("pepper jack cheese", "pepper jack"),
        ("bouquet garni", "bouquet garni"),
        ("vegetable oil cooking spray", "cooking spray"),
    ] {
        assert_eq!(find(&foods, typed).name, food, "{typed}");
    }
}
