//! What this room promises, against published figures.

use pretty_assertions::assert_eq;
use proptest::prelude::*;

use super::*;

fn close(a: f64, b: f64, share: f64) -> bool {
    (a - b).abs() <= share * b.abs()
}

fn one(unit: Unit, spoons: Spoons) -> f64 {
    Amount::new(1.0, unit).most(spoons).base()
}

/// NIST Special Publication 811 (2008), Appendix B.8: m³ or kg, to the seven digits printed there.
#[test]
fn us_units_have_the_digits_of_nist() {
    for (unit, cubic_metres) in [
        (Unit::Cup, 2.365_882e-4),
        (Unit::FluidOunce, 2.957_353e-5),
        (Unit::Tablespoon, 1.478_676e-5),
        (Unit::Teaspoon, 4.928_922e-6),
        (Unit::Gallon, 3.785_412e-3),
        (Unit::Quart, 9.463_529e-4),
        (Unit::Pint, 4.731_765e-4),
        (Unit::Gill, 1.182_941e-4),
    ] {
        let found = one(unit, Spoons::Us) / 1e6;
        assert!(close(found, cubic_metres, 5e-7), "{unit:?}: {found}");
    }
    assert!(close(one(Unit::Pound, Spoons::Us) / 1000.0, 4.535_924e-1, 5e-7));
    assert!(close(one(Unit::Ounce, Spoons::Us) / 1000.0, 2.834_952e-2, 5e-7));
}

/// NIST Special Publication 811 (2008), Appendix B.8: gallon, quart, pint, gill and fluid ounce [Canadian and U.K. (Imperial)], in m³.
#[test]
fn imperial_pints_have_the_digits_of_nist_and_leave_spoons_and_cups_alone() {
    let (us, metric) = (Spoons::Us.with(Pints::Imperial), Spoons::Metric.with(Pints::Imperial));
    for (unit, cubic_metres) in [
        (Unit::Gallon, 4.546_09e-3),
        (Unit::Quart, 1.136_522_5e-3),
        (Unit::Pint, 5.682_612_5e-4),
        (Unit::Gill, 1.420_653e-4),
        (Unit::FluidOunce, 2.841_306e-5),
    ] {
        let found = one(unit, us) / 1e6;
        assert!(close(found, cubic_metres, 5e-7), "{unit:?}: {found}");
        assert_eq!(one(unit, metric), one(unit, us), "{unit:?}");
    }
    for unit in [Unit::Teaspoon, Unit::Tablespoon, Unit::Cup, Unit::Ounce] {
        assert_eq!((one(unit, us), one(unit, metric)), (one(unit, Spoons::Us), one(unit, Spoons::Metric)), "{unit:?}");
    }
}

#[test]
fn a_small_volume_is_told_in_spoons_up_to_four() {
    let told = |ml: f64| show_in_spoons(&Quantity::millilitres(ml), Spoons::Metric);
    // 7.5 ÷ 5; 15 ÷ 15; 30 ÷ 15; 18.75 ml are 1¼ tbsp, told as 3¾ tsp; 60 ÷ 15; more is no spoonful.
    let said = [7.5, 15.0, 30.0, 18.75, 60.0].map(|ml| told(ml).unwrap_or_default());
    assert_eq!(said, ["1½ tsp", "1 tbsp", "2 tbsp", "3¾ tsp", "4 tbsp"]);
    assert_eq!(told(5.6), Some("1 tsp".to_owned()));
    assert_eq!((told(61.0), show_in_spoons(&Quantity::grams(5.0), Spoons::Metric)), (None, None));
}

/// 21 CFR 101.9(b)(5)(viii) has 15 ml and 5 ml for labels too; its 240 ml cup and 30 ml ounce are neither of ours.
#[test]
fn metric_spoons_change_spoons_and_cup_and_nothing_else() {
    assert_eq!(one(Unit::Tablespoon, Spoons::Metric), 15.0);
    assert_eq!(one(Unit::Teaspoon, Spoons::Metric), 5.0);
    assert_eq!(one(Unit::Cup, Spoons::Metric), 250.0);
    for unit in [Unit::Pint, Unit::Quart, Unit::Gallon, Unit::FluidOunce, Unit::Litre, Unit::Ounce] {
        assert_eq!(one(unit, Spoons::Metric), one(unit, Spoons::Us), "{unit:?}");
    }
}

#[test]
fn the_larger_us_measures_are_whole_numbers_of_the_smaller() {
    for (large, count, small) in [
        (Unit::Gallon, 4.0, Unit::Quart),
        (Unit::Quart, 2.0, Unit::Pint),
        (Unit::Pint, 2.0, Unit::Cup),
        (Unit::Cup, 8.0, Unit::FluidOunce),
        (Unit::Cup, 16.0, Unit::Tablespoon),
        (Unit::Tablespoon, 3.0, Unit::Teaspoon),
        (Unit::Pound, 16.0, Unit::Ounce),
    ] {
        assert!(close(one(large, Spoons::Us), count * one(small, Spoons::Us), TOLERANCE), "{large:?}");
    }
}

#[test]
fn three_thirds_of_a_cup_are_a_cup() {
    let third = read_quantity("⅓ cup", Spoons::Us).expect("reads").base();
    assert!(at_least(3.0 * third, one(Unit::Cup, Spoons::Us)) && at_least(one(Unit::Cup, Spoons::Us), 3.0 * third));
}

/// *Recipe conversion* teaching slides: 20 servings from 5 cups rice, 2½ tsp salt, 10 cups water; for 6, 1½ cups, ¾ tsp, 3 cups.
/// *Bakery and Business Math*, chapter 21: a yield of 48 becomes 72; 2 eggs become 3, 1 cup 1½ cups, 2 tsp 3 tsp.
#[test]
fn published_recipe_conversions_come_out() {
    for (text, factor, scaled) in [
        ("5 cups", 6.0 / 20.0, "1½ cups"),
        ("2½ tsp", 6.0 / 20.0, "¾ tsp"),
        ("10 cups", 6.0 / 20.0, "3 cups"),
        ("2", 72.0 / 48.0, "3"),
        ("1 cup", 72.0 / 48.0, "1½ cups"),
        ("2 tsp", 72.0 / 48.0, "1 tbsp"),
    ] {
        let quantity = read_quantity(text, Spoons::Us).expect("reads").scaled(factor);
        assert_eq!(show(&quantity, Units::Us), scaled, "{text}");
    }
    // chefhelp.ca, "Recipe conversion": 35 portions of 185 g to 50 of 230 g is a factor of 1.77606.
    let factor: f64 = (50.0 * 230.0) / (35.0 * 185.0);
    assert!(close(factor, 1.77606, 1e-5));
    assert_eq!(show(&Quantity::grams(1000.0).scaled(factor), Units::Metric), "1.8 kg");
}

#[test]
fn whole_texts_are_amounts() {
    for (text, low, high, unit) in [
        ("350 g", 350.0, 350.0, Unit::Gram),
        ("1.5kg", 1.5, 1.5, Unit::Kilogram),
        ("2-3 tbsp", 2.0, 3.0, Unit::Tablespoon),
        ("1½ cups", 1.5, 1.5, Unit::Cup),
        ("6", 6.0, 6.0, Unit::Piece),
        ("12 pieces", 12.0, 12.0, Unit::Piece),
        ("1 bunch", 1.0, 1.0, Unit::Word(Word::Bunch)),
        ("3 portions", 3.0, 3.0, Unit::Portion),
        ("1 portion", 1.0, 1.0, Unit::Portion),
        ("2 x 400 g", 800.0, 800.0, Unit::Gram),
        ("2 tins (400 g)", 800.0, 800.0, Unit::Gram),
        (" 2 L ", 2.0, 2.0, Unit::Litre),
        ("4 fl. oz.", 4.0, 4.0, Unit::FluidOunce),
        ("500 g - 1 kg", 0.5, 1.0, Unit::Kilogram),
    ] {
        assert_eq!(read_amount(text), Ok(Amount::between(low, high, unit)), "{text}");
    }
}

#[test]
fn what_is_no_amount_is_refused_with_a_remedy() {
    for text in ["", "g", "350 q", "350 g flour", "0 g", "-5 g", "2 x", "1 tin (big)", "1,000 g", "one hundred"] {
        let error = read_amount(text).expect_err(text);
        assert!(!error.remedy.is_empty(), "{text}");
    }
    assert!(read_quantity("2-3 tbsp", Spoons::Us).is_err());
    assert_eq!(read_quantity("1 bunch", Spoons::Us), Ok(Quantity::words(1.0, "bunch")));
    assert_eq!(read_quantity("1 Tbsp", Spoons::Metric), Ok(Quantity::millilitres(15.0)));
}

#[test]
fn durations_are_whole_minutes_or_whole_days() {
    for (text, minutes) in [
        ("45 min", 45),
        ("1 h 10 min", 70),
        ("1h10m", 70),
        ("0 min", 0),
        ("3 h", 180),
        ("12 hours", 720),
        ("1.5 h", 90),
        ("2 days", 2880),
        ("90 s", -1),
        ("120 s", 2),
        ("-5 min", -1),
        ("5 min ago", -1),
        ("2 months", -1),
        ("45", -1),
        ("soon", -1),
        ("", -1),
    ] {
        assert_eq!(read_minutes(text).map_or(-1, |minutes| minutes.0), minutes, "{text}");
    }
    for (text, days) in [
        ("3 days", 3),
        ("1 day", 1),
        ("2 weeks", 14),
        ("2 months", 60),
        ("1 month", 30),
        ("1 week 2 days", 9),
        ("48 h", 2),
        ("36 h", -1),
        ("0 days", 0),
        ("-1 day", -1),
        ("3", -1),
    ] {
        assert_eq!(read_days(text).map_or(-1, |days| days.0), days, "{text}");
    }
}

#[test]
fn a_temperature_says_its_scale() {
    for (text, celsius) in [
        ("190 °C", 190.0),
        ("190 C", 190.0),
        ("190C", 190.0),
        ("190°C", 190.0),
        ("375 F", 1715.0 / 9.0),
        ("212 °F", 100.0),
        ("-18 °C", -18.0),
        ("74.5 °C", 74.5),
    ] {
        assert!((read_celsius(text).expect(text).0 - celsius).abs() < 1e-9, "{text}");
    }
    for text in ["190", "190 K", "hot", "", "°C", "1.2.3 C"] {
        assert!(read_celsius(text).is_err(), "{text}");
    }
    assert_eq!(read_kelvin("10 °C"), Ok(10.0));
    assert_eq!(read_kelvin("18 F"), Ok(10.0));
    assert!(read_kelvin("-1 °C").is_err());
}

#[test]
fn shares_are_per_cent() {
    assert_eq!(read_share("2%"), Ok(0.02));
    assert_eq!(read_share("90 %"), Ok(0.9));
    assert_eq!(read_share("2.5%"), Ok(0.025));
    assert_eq!(read_share("0%"), Ok(0.0));
    for text in ["2", "0.02", "120%", "-2%", "%", "1.2.3%"] {
        assert!(read_share(text).is_err(), "{text}");
    }
}

fn currency(digits: u32) -> Currency {
    Currency { code: "EUR".into(), digits }
}

#[test]
fn money_is_its_digits() {
    let euro = currency(2);
    for (text, minor) in [
        ("0.89", 89),
        ("1", 100),
        ("23.50", 2350),
        ("23.5", 2350),
        ("1,40", 140),
        ("0.00", 0),
        ("0.29", 29),
        ("1.15", 115),
        ("9007199254740.93", 900_719_925_474_093),
    ] {
        assert_eq!(read_money(text, &euro), Ok(Money(minor)), "{text}");
    }
    for text in ["", "0.895", "-1", "1.", ".5", "1,000.50", "€2", "1e3", "a", "99999999999999999999"] {
        assert!(read_money(text, &euro).is_err(), "{text}");
    }
    assert_eq!(read_money("150", &currency(0)), Ok(Money(150)));
    assert!(read_money("1.5", &currency(0)).is_err());
    assert_eq!(read_money("1.125", &currency(3)), Ok(Money(1125)));
}

#[test]
fn a_loose_price_says_what_it_is_for() {
    let euro = currency(2);
    for (text, minor_e4, per) in [
        ("1.40 / kg", 1_400_000, Quantity::grams(1000.0)),
        ("1.40/kg", 1_400_000, Quantity::grams(1000.0)),
        ("0.35 / each", 350_000, Quantity::pieces(1.0)),
        ("2.10 / 100 g", 2_100_000, Quantity::grams(100.0)),
        ("0.125 per l", 125_000, Quantity::millilitres(1000.0)),
        ("0.80 / bunch", 800_000, Quantity::words(1.0, "bunch")),
    ] {
        assert_eq!(read_unit_price(text, &euro), Ok(UnitPrice { minor_e4, per }), "{text}");
    }
    for text in ["1.40", "/ kg", "1.40 / stone", "1.40 / ", "-1 / kg"] {
        assert!(read_unit_price(text, &euro).is_err(), "{text}");
    }
}

#[test]
fn amounts_are_shown_as_a_cook_reads_them() {
    let words = |n: f64, word: &str| Quantity::words(n, word);
    for (quantity, metric, us) in [
        (Quantity::grams(1187.3), "1.2 kg", "2 lb 10 oz"),
        (Quantity::grams(1250.0), "1.25 kg", "2 lb 12 oz"),
        (Quantity::grams(830.0), "830 g", "1 lb 13 oz"),
        (Quantity::grams(35.2), "35 g", "1¼ oz"),
        (Quantity::grams(2.5), "2.5 g", "2.5 g"),
        (Quantity::grams(999.0), "1 kg", "2 lb 3 oz"),
        (Quantity::grams(0.02), "0.1 g", "0.1 g"),
        (Quantity::grams(12_345.0), "12.3 kg", "27 lb 3 oz"),
        (Quantity::millilitres(59.147), "60 ml", "¼ cup"),
        (Quantity::millilitres(14.787), "15 ml", "1 tbsp"),
        (Quantity::millilitres(4.929), "5 ml", "1 tsp"),
        (Quantity::millilitres(1500.0), "1.5 l", "6⅓ cups"),
        (Quantity::millilitres(315.45), "315 ml", "1⅓ cups"),
        (Quantity::millilitres(44.36), "44 ml", "3 tbsp"),
        (Quantity::millilitres(3785.4), "3.8 l", "4 quarts"),
        (Quantity::pieces(2.5), "2½", "2½"),
        (Quantity::pieces(12.0), "12", "12"),
        (Quantity::pieces(0.01), "⅛", "⅛"),
        (Quantity::portions(1.0), "1 portion", "1 portion"),
        (Quantity::portions(3.0), "3 portions", "3 portions"),
        (Quantity::portions(0.5), "½ portion", "½ portion"),
        (words(2.0, "sprig"), "2 sprigs", "2 sprigs"),
        (words(1.0, "leaf"), "1 leaf", "1 leaf"),
        (words(1.5, "leaf"), "1½ leaves", "1½ leaves"),
    ] {
        assert_eq!(show(&quantity, Units::Metric), metric, "{quantity:?}");
        assert_eq!(show(&quantity, Units::Us), us, "{quantity:?}");
    }
}

#[test]
fn every_spelling_of_a_unit_is_one_unit() {
    for (unit, spellings) in [
        (Unit::Gram, "g gram grams gramme grammes G"),
        (Unit::Kilogram, "kg kilo kilos kilogram KG"),
        (Unit::Ounce, "oz oz. ounce ounces"),
        (Unit::Pound, "lb lbs lb. pound pounds"),
        (Unit::Litre, "l L litre litres liter liters"),
        (Unit::Teaspoon, "t tsp tsp. Tsp teaspoon teaspoons"),
        (Unit::Tablespoon, "T tbsp Tbsp. TBSP tbs tablespoon tablespoons"),
        (Unit::Cup, "c cup cups Cups"),
        (Unit::Piece, "piece pieces each"),
        (Unit::Portion, "portion portions serving servings"),
        (Unit::Word(Word::Tin), "tin tins can cans"),
        (Unit::Word(Word::Packet), "packet package packages pack pkg."),
        (Unit::Word(Word::Leaf), "leaf leaves"),
        (Unit::Word(Word::Loaf), "loaf loaves"),
    ] {
        for spelling in spellings.split(' ') {
            assert_eq!(read_unit(spelling), Some(unit), "{spelling}");
        }
    }
}

fn any_unit() -> impl Strategy<Value = Unit> {
    prop::sample::select(vec![
        Unit::Milligram,
        Unit::Gram,
        Unit::Kilogram,
        Unit::Ounce,
        Unit::Pound,
        Unit::Millilitre,
        Unit::Litre,
        Unit::Teaspoon,
        Unit::Tablespoon,
        Unit::FluidOunce,
        Unit::Cup,
        Unit::Pint,
        Unit::Piece,
        Unit::Portion,
        Unit::Word(Word::Clove),
        Unit::Word(Word::Leaf),
        Unit::Word(Word::Tin),
        Unit::Word(Word::Bunch),
    ])
}

/// A need "to taste" sums up no amounts, and an empty sum of floats is minus zero.
#[test]
fn nothing_is_written_as_plain_zero() {
    let nothing: f64 = std::iter::empty::<f64>().sum();
    assert_eq!(serde_json::to_string(&Quantity::grams(nothing)).ok().as_deref(), Some(r#"{"amount":0.0,"unit":"g"}"#));
}

proptest! {
    #[test]
    fn an_amount_reads_back_as_it_was_printed(low in 1e-6..1e6f64, more in prop_oneof![Just(0.0), 1e-3..1e3f64], unit in any_unit()) {
        let amount = Amount::between(low, low + more, unit);
        prop_assert_eq!(read_amount(&amount.to_string()), Ok(amount));
    }

    #[test]
    fn kitchen_fractions_read_back_too(whole in 0u32..20, part in 0usize..18, unit in any_unit()) {
        let (_, above, below) = tokens::VULGAR[part];
        let amount = Amount::new(Number::over(above.into(), below.into()) + i64::from(whole), unit);
        prop_assert_eq!(read_amount(&amount.to_string()), Ok(amount));
    }

    #[test]
    fn thirds_sevenths_and_all_fractions_read_back_exactly(above in 1i64..5000, below in 1i64..1000, unit in any_unit()) {
        let amount = Amount::new(Number::over(above, below), unit);
        prop_assert_eq!(read_amount(&amount.to_string()), Ok(amount));
    }

    #[test]
    fn rounding_for_the_eye_moves_little(grams in 10.0..1e6f64) {
        let shown = read_quantity(&show(&Quantity::grams(grams), Units::Metric), Spoons::Us).expect("shown amounts read").base();
        let most = if grams < 50.0 { 0.05 } else { 0.051 };
        prop_assert!(close(shown, grams, most), "{grams} shown as {shown}");
    }

    #[test]
    fn nothing_typed_makes_a_reader_panic(text in "\\PC{0,24}") {
        let _ = read_amount(&text);
        let _ = read_minutes(&text);
        let _ = read_days(&text);
        let _ = read_celsius(&text);
        let _ = read_kelvin(&text);
        let _ = read_share(&text);
        let _ = read_money(&text, &currency(2));
        let _ = read_unit_price(&text, &currency(2));
    }

    #[test]
    fn money_reads_back_from_its_decimal(minor in 0i64..1_000_000_000_000) {
        let euro = currency(2);
        prop_assert_eq!(read_money(&Money(minor).decimal(&euro), &euro), Ok(Money(minor)));
    }
}

#[test]
fn sprigs_and_bunches_are_shown_in_a_cooks_fractions() {
    let shown = |n: f64, word: &'static str| show(&Quantity::words(n, word), Units::Metric);
    for (n, word, meant) in [
        (0.125, "bunch", "⅛ bunch"),
        (0.625, "bunch", "⅔ bunch"),
        (0.375, "bunch", "⅓ bunch"),
        (1.2, "bunch", "1¼ bunches"),
        (1.125, "sprig", "1 sprig"),
        (1.4, "sprig", "1⅓ sprigs"),
        (2.25, "sprig", "2⅓ sprigs"),
        (6.8, "sprig", "7 sprigs"),
        (4.5, "clove", "4½ cloves"),
        (3.0, "tin", "3 tins"),
        (0.05, "pinch", "¼ pinch"),
    ] {
        assert_eq!(shown(n, word), meant, "{n} {word}");
    }
    // What there is at most is not shown as more.
    assert_eq!(show_at_most(&Quantity::words(0.625, "bunch"), Units::Metric), "⅝ bunch");
}
