use jiff::civil::date;
use pretty_assertions::assert_eq;
use proptest::prelude::*;

use super::ledger::NotRead;
use super::*;
use crate::foods::{Food, FoodId, Place};
use crate::kitchen::fixture::{empty_kitchen, lot};
use crate::kitchen::{Kitchen, Lot, Ware};
use crate::measure::{Dimension, Money, Number, Quantity, Spoons, read_quantity};
use crate::shelf::{First, When};
use crate::store::sha256;

const FETA: Ware = Ware::Food(FoodId(0));

fn exact(thousandths: i64, dimension: Dimension) -> Exact {
    Exact { number: Number::over(thousandths, 1000), dimension }
}

fn feta(thousandths: i64) -> LotRecord {
    LotRecord {
        food: Some("feta".to_owned()),
        recipe: None,
        eater: None,
        without: Vec::new(),
        amount: exact(thousandths, Dimension::Mass),
        pack: None,
        place: Place::Fridge,
        best_before: None,
        use_by: None,
        opened: None,
        since: None,
        made: None,
        paid: None,
    }
}

fn cupboard(thousandths: i64) -> LotRecord {
    LotRecord { place: Place::Cupboard, ..feta(thousandths) }
}

fn booking(verb: Verb, changes: Vec<Change>) -> Booking {
    Booking::new(date(2026, 12, 1), verb, "feta", changes)
}

fn to(lot: LotRecord) -> Change {
    Change::new(None, Some(lot))
}

fn book_of(bookings: Vec<Booking>) -> Book {
    let mut book = Book::default();
    bookings.into_iter().for_each(|booking| book.append(booking));
    book
}

fn two_bookings() -> Book {
    let less = Change::new(Some(feta(200_000)), Some(feta(50_000)));
    book_of(vec![booking(Verb::Opening, vec![to(feta(200_000))]), booking(Verb::Waste, vec![less])])
}

#[test]
fn a_book_is_read_as_it_was_written() {
    let book = two_bookings();
    assert_eq!(Book::read(book.text()), Ok(book.clone()));
    assert_eq!(sum(&book.bookings), [feta(50_000)]);
    assert_eq!(book.bookings[1].previous, sha256(book.text().lines().next().expect("a line").as_bytes()));
}

#[test]
fn sha_256_is_that_of_the_standard() {
    // FIPS 180-4, example "abc", as published by NIST (CSRC, SHA256.pdf); from memory.
    assert_eq!(sha256(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

#[test]
fn a_line_edited_by_hand_is_found_wherever_it_stands() {
    let text = two_bookings().text().to_owned();
    for (line, edited) in [(1, text.replacen("200.0", "250.0", 1)), (2, text.replace("50.0", "60.0"))] {
        assert_ne!(edited, text);
        assert_eq!(Book::read(&edited).map_err(|broken| broken.line), Err(line));
    }
    let without_the_first = text.lines().nth(1).expect("a line").to_owned() + "\n";
    assert_eq!(Book::read(&without_the_first).map_err(|broken| broken.line), Err(1));
}

#[test]
fn a_last_line_cut_short_anywhere_is_set_aside_and_kept_in_the_next_booking() {
    let text = two_bookings().text().to_owned();
    let first = text.find('\n').expect("a line") + 1;
    for end in first + 1..text.len() - 1 {
        let mut book = Book::read(&text[..end]).expect("the lines before are whole");
        assert_eq!((book.bookings.len(), book.fragment.as_deref()), (1, Some(&text[first..end])));
        book.append(booking(Verb::HandEdit, Vec::new()));
        let again = Book::read(book.text()).expect("whole again");
        assert_eq!(again.bookings[1].fragment.as_deref(), Some(&text[first..end]));
    }
    // Only the line's end is missing: the line is whole.
    assert_eq!(Book::read(&text[..text.len() - 1]).map(|book| book.bookings.len()), Ok(2));
}

#[test]
fn a_lot_that_lost_some_by_hand_is_one_change_and_keeps_what_was_paid() {
    let paid = Some(Paid { minor: 240, amount: exact(200_000, Dimension::Mass) });
    let before = [LotRecord { paid: paid.clone(), ..feta(200_000) }, cupboard(10_000)];
    let changes = difference(&before, &[feta(150_000), cupboard(10_000)]);
    assert_eq!(changes, [Change::new(Some(before[0].clone()), Some(LotRecord { paid, ..feta(150_000) }))]);
    assert_eq!(difference(&before, &[cupboard(10_000), feta(200_000)]), [], "the order of the file is the household's own");
}

#[test]
fn taking_back_again_and_again_ends_at_the_opening() {
    let mut book = two_bookings();
    let last = last_standing(&book.bookings).expect("the waste").clone();
    assert_eq!(last.number, 2);
    book.append(Booking { takes_back: Some(2), ..booking(Verb::Undo, reversed(&last)) });
    assert_eq!(sum(&book.bookings), [feta(200_000)]);
    assert_eq!(last_standing(&book.bookings), None);
}

#[test]
fn a_taking_back_that_is_taken_back_stands_again() {
    let mut book = two_bookings();
    let last = last_standing(&book.bookings).expect("the waste").clone();
    book.append(Booking { takes_back: Some(2), ..booking(Verb::Undo, reversed(&last)) });
    let undo = book.bookings[2].clone();
    book.append(Booking { takes_back: Some(3), ..booking(Verb::Withdrawal, reversed(&undo)) });
    assert_eq!(sum(&book.bookings), [feta(50_000)]);
    assert_eq!(last_standing(&book.bookings).map(|booking| booking.number), Some(2));
}

#[test]
fn a_book_read_without_keeping_it_comes_to_the_same() {
    let mut book = two_bookings();
    let again = |book: &mut Book, number: u64, verb| {
        let taken = book.bookings[number as usize - 1].clone();
        book.append(Booking { takes_back: Some(number), ..booking(verb, reversed(&taken)) });
    };
    let covering =
        |cover: &str| Booking { covers: vec![cover.to_owned()], ..booking(Verb::Receive, vec![to(cupboard(7000)), to(cupboard(7000))]) };
    book.append(covering("trip 2026-11-28"));
    book.append(covering("trip 2026-12-02"));
    again(&mut book, 4, Verb::Undo);
    again(&mut book, 3, Verb::Undo);
    again(&mut book, 6, Verb::Withdrawal);
    let ledger = Ledger::read(book.text().as_bytes()).expect("it is whole");
    assert_eq!((ledger.bookings, ledger.lots(), ledger.last.clone()), (7, sum(&book.bookings), book.bookings.last().cloned()));
    assert_eq!(ledger.covers().collect::<Vec<_>>(), ["trip 2026-11-28"]);
    assert_eq!(covered(&book.bookings).iter().collect::<Vec<_>>(), ledger.covers().collect::<Vec<_>>());
    for (line, edited) in [(1, book.text().replacen("200.0", "250.0", 1)), (2, book.text().replace("50.0", "60.0"))] {
        assert!(matches!(Ledger::read(edited.as_bytes()), Err(NotRead::Broken(broken)) if broken.line == line));
    }
}

#[test]
fn what_was_thrown_away_is_summed_by_month_and_food() {
    // 1.80 and 0.45 in December, the second of which is taken back; nothing is known of the third's price.
    let waste = |on, name: &str, worth| {
        let lot = LotRecord { food: Some(name.to_owned()), ..feta(1000) };
        Booking { on, ..booking(Verb::Waste, vec![Change { worth, ..Change::new(Some(lot), None) }]) }
    };
    let mut book = book_of(vec![
        waste(date(2026, 12, 1), "feta", Some(180)),
        waste(date(2026, 12, 2), "feta", Some(45)),
        waste(date(2027, 1, 2), "rosemary", None),
    ]);
    book.append(Booking { takes_back: Some(2), ..booking(Verb::Undo, Vec::new()) });
    let (_, thrown_away) = Ledger::read_with_entries(book.text().as_bytes(), |verb| verb == Verb::Waste).expect("it is whole");
    let wasted = wasted(&thrown_away);
    let row = |month, food: &str, value| WasteRow { month, of: Named::Food(food.to_owned()), amount: Quantity::grams(1), value };
    assert_eq!(wasted.rows, [row(date(2026, 12, 1), "feta", Some(Money(180))), row(date(2027, 1, 1), "rosemary", None)]);
    assert_eq!(wasted.value, Money(180));
}

#[test]
fn amounts_are_written_as_a_person_would_and_exactly() {
    let mass = |thousandths| exact(thousandths, Dimension::Mass).text();
    assert_eq!(
        [mass(350_000), mass(1_200_000), mass(1_187_000), mass(1_187_300), mass(333_333), mass(1)],
        ["350 g", "1.2 kg", "1187 g", "1187.3 g", "333.333 g", "0.001 g"]
    );
    let of = |thousandths, dimension| exact(thousandths, dimension).text();
    assert_eq!(of(6000, Dimension::Count), "6");
    assert_eq!(of(1000, Dimension::Portion), "1 portion");
    assert_eq!(of(2500, Dimension::Portion), "2.5 portions");
    assert_eq!(of(2000, Dimension::Word("bunch".to_owned())), "2 bunches");
}

fn dimensions() -> impl Strategy<Value = Dimension> {
    let word = Dimension::Word("bunch".to_owned());
    prop::sample::select(vec![Dimension::Mass, Dimension::Volume, Dimension::Count, Dimension::Portion, word])
}

proptest! {
    #[test]
    fn every_amount_of_the_book_is_read_back_from_pantry_toml(thousandths in 1..5_000_000_000_i64, dimension in dimensions()) {
        let exact = exact(thousandths, dimension);
        let read = read_quantity(&exact.text(), Spoons::Us).map(|quantity| Exact::of(&quantity));
        prop_assert_eq!(read, Ok(exact));
    }

    #[test]
    fn fractions_are_read_back_from_pantry_toml_and_from_the_book(above in 1..50_000_i64, below in 1..1000_i64, dimension in dimensions()) {
        let exact = Exact { number: Number::over(above, below), dimension };
        let read = read_quantity(&exact.text(), Spoons::Us).map(|quantity| Exact::of(&quantity));
        prop_assert_eq!(read, Ok(exact.clone()));
        let line = serde_json::to_string(&exact).expect("JSON");
        prop_assert_eq!(serde_json::from_str::<Exact>(&line).expect("an amount"), exact);
    }

    #[test]
    fn draws_that_add_up_to_a_lot_leave_nothing(parts in 1..60_i64, whole in 1..3000_i64) {
        let whole = Number::whole(whole);
        let mut shelf = vec![LotRecord { amount: Exact { number: whole.clone(), dimension: Dimension::Mass }, ..feta(0) }];
        for part in 0..parts {
            let lots = shelf.iter().map(|record| lot(Ware::Food(FoodId(0)), record.amount.quantity(), Place::Fridge)).collect();
            let kitchen = kitchen(lots);
            let mut bench = Bench::new(&kitchen, shelf.clone());
            let _ = take(&mut bench, &(&whole / parts));
            let changes = bench.finish();
            shelf = changes.into_iter().filter_map(|change| change.to).collect();
            prop_assert!(part + 1 < parts || shelf.is_empty(), "{:?}", shelf);
        }
    }
}

const SHELF: &str = "# On the shelf\n\n[[lot]]\nfood = \"feta\"   # sheep's\namount = \"200 g\" # weighed\nplace = \"fridge\"\n\n\
                     # Cupboard\n\n[[lot]]\nfood = \"feta\"\namount = \"10 g\"\nplace = \"cupboard\"   # cold enough\n# The end\n";

fn shelf() -> [LotRecord; 2] {
    [feta(200_000), cupboard(10_000)]
}

#[test]
fn an_amount_changes_and_every_other_letter_of_the_file_stays() {
    let mut changes = [Change::new(Some(feta(200_000)), Some(feta(150_000)))];
    assert_eq!(edit_lots(SHELF, &shelf(), &mut changes), Ok(SHELF.replace("200 g", "150 g")));
}

#[test]
fn remarks_above_a_lot_stay_when_it_is_gone() {
    let mut changes = [Change::new(Some(cupboard(10_000)), None), Change::new(Some(feta(200_000)), None)];
    let text = edit_lots(SHELF, &shelf(), &mut changes).expect("it can be edited");
    for remark in ["# On the shelf", "# Cupboard", "# The end"] {
        assert!(text.contains(remark), "{remark} in {text}");
    }
    assert!(!text.contains("[[lot]]"), "{text}");
}

#[test]
fn a_lot_taken_back_comes_with_its_own_remarks() {
    let mut changes = [Change::new(Some(feta(200_000)), None)];
    let text = edit_lots(SHELF, &shelf(), &mut changes).expect("it can be edited");
    let gone = booking(Verb::Waste, changes.to_vec());
    let back = edit_lots(&text, &[cupboard(10_000)], &mut reversed(&gone)).expect("it can be edited");
    assert!(back.contains("[[lot]]\nfood = \"feta\"   # sheep's\namount = \"200 g\" # weighed\nplace = \"fridge\"\n"), "{back}");
}

#[test]
fn a_lot_taken_back_has_the_remark_behind_its_heading_again() {
    let before = "[[lot]]  # the first\nfood = \"feta\"\namount = \"200 g\"\nplace = \"fridge\"\n";
    let mut changes = [Change::new(Some(feta(200_000)), None)];
    let text = edit_lots(before, &[feta(200_000)], &mut changes).expect("it can be edited");
    let gone = booking(Verb::Waste, changes.to_vec());
    assert_eq!(edit_lots(&text, &[], &mut reversed(&gone)), Ok(before.to_owned()));
}

#[test]
fn a_new_lot_is_written_with_toml_dates() {
    let mut changes = [to(LotRecord { since: Some(date(2026, 11, 28)), ..feta(350_000) })];
    let text = edit_lots("", &[], &mut changes).expect("it can be edited");
    assert_eq!(text.trim_start(), "[[lot]]\nfood = \"feta\"\namount = \"350 g\"\nplace = \"fridge\"\nsince = 2026-11-28\n");
}

#[test]
fn a_new_lot_stands_under_the_remark_of_its_place() {
    let mut changes = [to(LotRecord { since: Some(date(2026, 11, 28)), ..feta(350_000) }), to(cupboard(5000))];
    let text = edit_lots(SHELF, &shelf(), &mut changes).expect("it can be edited");
    let new = "\n[[lot]]\nfood = \"feta\"\namount = \"350 g\"\nplace = \"fridge\"\nsince = 2026-11-28\n\n# Cupboard\n";
    assert_eq!(text.matches(new).count(), 1, "{text}");
    assert!(text.ends_with("# cold enough\n\n[[lot]]\nfood = \"feta\"\namount = \"5 g\"\nplace = \"cupboard\"\n# The end\n"), "{text}");
}

fn kitchen(lots: Vec<Lot>) -> Kitchen {
    let mut kitchen = empty_kitchen();
    kitchen.foods = [Food { name: "feta".to_owned(), ..Food::default() }].into_iter().collect();
    kitchen.lots = lots;
    kitchen
}

/// What is missing of it, past its dates or not.
fn take(bench: &mut Bench, wanted: &Number) -> Number {
    bench.take(FETA, When::Anyway(date(2026, 12, 1)), First::Opened, wanted, |_| Some(1.into())).missing
}

#[test]
fn first_expired_is_first_taken_and_what_is_missing_is_said() {
    let of = |grams, until| {
        let feta = lot(Ware::Food(FoodId(0)), Quantity::grams(grams), Place::Fridge);
        Lot { use_by: Some(until), ..feta }
    };
    let kitchen = kitchen(vec![of(100.0, date(2026, 12, 9)), of(50.0, date(2026, 11, 1))]);
    let mut bench = Bench::new(&kitchen, records(&kitchen));
    assert_eq!(take(&mut bench.clone(), &180.into()), 30);
    assert_eq!(take(&mut bench, &80.into()), 0);
    let changes = bench.finish();
    let left: Vec<_> = changes.iter().map(|change| change.to.as_ref().map(|lot| lot.amount.text())).collect();
    assert_eq!(left, [Some("70 g".to_owned()), None], "all of the past 50 g, and 30 g of the other");
}

#[test]
fn a_year_of_thirds_adds_up_exactly() {
    // Every week a lot of 1 kg comes and a third of 700 g goes, three times.
    let mut shelf: Vec<LotRecord> = Vec::new();
    let mut book = Book::default();
    let (mut came, mut went) = (Number::ZERO, Number::ZERO);
    for week in 0..52 {
        for part in 0..4 {
            let lots = shelf.iter().map(|record| lot(Ware::Food(FoodId(0)), record.amount.quantity(), Place::Fridge)).collect();
            let kitchen = kitchen(lots);
            let mut bench = Bench::new(&kitchen, shelf.clone());
            if part == 0 {
                bench.put(feta(1_000_000 + week));
                came += Number::over(1_000_000 + week, 1000);
            } else {
                assert_eq!(take(&mut bench, &Number::over(700, 3)), 0);
            }
            let mut changes = bench.finish();
            for change in changes.iter().filter(|_| part > 0) {
                let amount = |lot: &Option<LotRecord>| lot.as_ref().map_or(Number::ZERO, |lot| lot.amount.number.clone());
                went += amount(&change.from) - amount(&change.to);
            }
            let text = edit_lots("", &[], &mut shelf.iter().cloned().map(to).collect::<Vec<_>>()).expect("it can be edited");
            edit_lots(&text, &shelf, &mut changes).expect("it can be edited");
            book.append(booking(Verb::Issue, changes));
            shelf = sum(&book.bookings);
        }
    }
    let left: Number = shelf.iter().map(|lot| &lot.amount.number).sum();
    assert_eq!(came - went, left);
    assert_eq!(Book::read(book.text()).map(|read| sum(&read.bookings)), Ok(shelf));
}
