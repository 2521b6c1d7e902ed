use pretty_assertions::assert_eq;
use proptest::prelude::*;

use uom::si::mass::gram;

use super::*;

fn any_number() -> impl Strategy<Value = Number> {
    let small = (-5000i64..5000, 1i64..400).prop_map(|(above, below)| Number::over(above, below));
    let large = (any::<i64>(), 1i64..i64::MAX).prop_map(|(above, below)| Number::from_parts(above.into(), below.into()));
    prop_oneof![4 => small, 1 => large]
}

#[test]
fn three_thirds_and_seven_sevenths_are_one() {
    for parts in [3, 7, 9, 11, 13, 97] {
        assert_eq!(std::iter::repeat_n(Number::over(1, parts), parts as usize).sum::<Number>(), Number::ONE);
    }
}

#[test]
fn a_float_is_the_shortest_decimal_that_reads_as_it() {
    for (float, above, below) in
        [(0.1, 1, 10), (0.3, 3, 10), (1e-7, 1, 10_000_000), (-2.5, -5, 2), (236.588_236_5, 473_176_473, 2_000_000), (1e9, 1_000_000_000, 1)]
    {
        assert_eq!(Number::from(float), Number::over(above, below), "{float}");
    }
}

#[test]
fn what_json_wrote_of_a_third_is_read_as_a_third_and_a_thousandth_stays_one() {
    for (written, above, below) in
        [(0.333_333_333_3, 1, 3), (2.142_857_143, 15, 7), (0.333, 333, 1000), (166.666_666_7, 500, 3), (1.5, 3, 2)]
    {
        assert_eq!(Number::from_ten_digits(written), Number::over(above, below), "{written}");
    }
    assert_eq!(Number::from_ten_digits(0.123_456_789_1), Number::from(0.123_456_789_1));
}

#[test]
fn a_fraction_that_nobody_reads_becomes_the_next_thousandth_above() {
    assert_eq!(Number::over(1, 3).to_readable(), Number::over(1, 3));
    assert_eq!(Number::over(82, 89).to_readable(), Number::over(82, 89));
    assert_eq!(Number::over(1, 1001).to_readable(), Number::over(1, 1000));
    assert_eq!(Number::from(485.213_235_218_75).to_readable(), Number::from(485.214));
}

#[test]
fn numbers_print_as_decimals_or_as_fractions() {
    for (above, below, text) in [(350, 1, "350"), (5, 4, "1.25"), (1, 3, "1/3"), (7, 3, "2 1/3"), (-1, 3, "-1/3"), (1, 1000, "0.001")] {
        assert_eq!(Number::over(above, below).to_string(), text);
    }
}

#[test]
fn a_mass_over_a_volume_is_a_density_and_back() {
    let cup = volume(Number::over(473_176_473, 2_000_000));
    let density = mass(160) / cup.clone();
    assert_eq!((density * cup).value, Number::whole(160));
    // As uom reckons with its own factors, exactly.
    assert_eq!(mass(250), Mass::new::<gram>(Number::whole(250)));
}

proptest! {
    #[test]
    fn sums_and_products_are_those_of_a_big_rational(a in any_number(), b in any_number()) {
        prop_assert_eq!((&a + &b).to_big(), a.to_big() + b.to_big());
        prop_assert_eq!((&a - &b).to_big(), a.to_big() - b.to_big());
        prop_assert_eq!((&a * &b).to_big(), a.to_big() * b.to_big());
        prop_assert_eq!(a.cmp(&b), a.to_big().cmp(&b.to_big()));
        prop_assert_eq!(&a + &b - &b, a.clone());
        if !b.is_zero() {
            prop_assert_eq!((&a / &b).to_big(), a.to_big() / b.to_big());
            prop_assert_eq!(&(&a / &b) * &b, a.clone());
            prop_assert_eq!(&a % &b, Number::from_big(a.to_big() % b.to_big()));
        }
        prop_assert_eq!(a.floor().to_big(), a.to_big().floor());
        prop_assert_eq!(a.ceil().to_big(), a.to_big().ceil());
    }

    #[test]
    fn a_float_comes_back_as_it_was(value in prop_oneof![1e-6..1e9f64, -1e3..1e3f64, any::<i32>().prop_map(|n| f64::from(n) / 1000.0)]) {
        prop_assert_eq!(Number::from(value).to_f64(), value);
    }

    #[test]
    fn a_fraction_is_found_again_in_its_ten_digits(above in 1i64..100_000, below in 1i64..100) {
        let number = Number::over(above, below);
        let written = format!("{:.9e}", number.to_f64()).parse::<f64>().expect("a float");
        prop_assert_eq!(Number::from_ten_digits(written), number);
    }

    #[test]
    fn the_digits_of_a_decimal_are_its_own(above in any::<i32>(), places in 0u32..9) {
        let number = Number::over(above.into(), 10i64.pow(places));
        let text = number.decimal_text().expect("a decimal");
        let read = Number::from_decimal_text(text.trim_start_matches('-')).expect("digits");
        prop_assert_eq!(read, number.abs());
    }
}
