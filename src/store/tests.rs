use jiff::civil::date;
use pretty_assertions::assert_eq;

use super::memory::{Fault, Memory, Names};
use super::*;
use crate::book::{Book, Booking, Verb};

/// The book after `bookings` bookings: pantry.toml is "# 0", "# 1", ..., and so is shops.toml.
fn state(bookings: usize) -> (String, String) {
    let mut book = Book::default();
    for number in 0..bookings {
        let sha = |number: usize| sha256(pantry(number).as_bytes());
        let mut booking = Booking::new(date(2026, 12, 1), Verb::Waste, "feta", Vec::new());
        for name in [PANTRY, SHOPS] {
            booking.files.insert(name.to_owned(), FileChange { before: sha(number), after: sha(number + 1) });
        }
        book.append(booking);
    }
    (book.text().to_owned(), pantry(bookings))
}

fn pantry(bookings: usize) -> String {
    format!("# {bookings}\n")
}

fn names(bookings: usize) -> Names {
    let (book, pantry) = state(bookings);
    let file = |name: &str, text: &str| (name.to_owned(), text.as_bytes().to_vec());
    [file(BOOK, &book), file(PANTRY, &pantry), file(SHOPS, &pantry)].into()
}

fn book_once(files: &Memory, from: usize) -> std::io::Result<Option<std::io::Error>> {
    let ((kept, _), (book, pantry)) = (state(from), state(from + 1));
    commit(files, Added { keep: kept.len() as u64, lines: &book[kept.len()..] }, &[(PANTRY, pantry.clone()), (SHOPS, pantry)])
}

fn start_again(files: &Memory) -> std::io::Result<Recovered> {
    let text = String::from_utf8(files.read(BOOK)?.unwrap_or_default()).expect("the book is text");
    let book = Book::read(&text).expect("the book is whole");
    assert_eq!(book.fragment, None);
    recover(files, &book.bookings.last().expect("a booking").files)
}

/// Steps of one booking that nothing disturbs.
fn steps() -> usize {
    let files = Memory::new(&names(1), Fault::Never);
    assert!(book_once(&files, 1).expect("no fault").is_none());
    assert_eq!(files.after_power_cut(), names(2), "all of it is on the disk");
    files.steps()
}

#[track_caller]
fn assert_before_or_after(files: &Names) -> usize {
    match files {
        files if *files == names(1) => 1,
        files if *files == names(2) => 2,
        other => panic!("neither before nor after: {:?}", other.keys().collect::<Vec<_>>()),
    }
}

#[test]
fn stopped_at_any_write_sync_or_rename_the_state_is_the_one_before_or_the_one_after() {
    // write, sync, write, sync, write, sync, sync folder, rename, sync folder, rename, rename, sync folder
    assert_eq!(steps(), 12);
    for stop in 1..=steps() {
        let files = Memory::new(&names(1), Fault::StopAt(stop));
        let _ = book_once(&files, 1);
        for left in [files.after_kill(), files.after_power_cut()] {
            let again = Memory::new(&left, Fault::Never);
            start_again(&again).expect("it starts");
            let now = assert_before_or_after(&again.after_kill());
            assert_before_or_after(&again.after_power_cut());
            assert!(book_once(&again, now).expect("the next booking").is_none());
            assert_eq!(again.after_power_cut(), names(now + 1), "stopped at step {stop}");
        }
    }
}

#[test]
fn stopped_again_while_it_mends_it_is_mended_at_the_start_after() {
    for stop in 1..=steps() {
        let files = Memory::new(&names(1), Fault::StopAt(stop));
        let _ = book_once(&files, 1);
        for left in [files.after_kill(), files.after_power_cut()] {
            for second in 1..=5 {
                let mending = Memory::new(&left, Fault::StopAt(second));
                let _ = start_again(&mending);
                for left in [mending.after_kill(), mending.after_power_cut()] {
                    let again = Memory::new(&left, Fault::Never);
                    start_again(&again).expect("it starts");
                    assert_before_or_after(&again.after_power_cut());
                }
            }
        }
    }
}

#[test]
fn a_disk_that_is_full_at_any_step_loses_nothing() {
    for fail in 1..=steps() {
        let files = Memory::new(&names(1), Fault::FailAt(fail));
        let stands = match book_once(&files, 1) {
            Err(_) => {
                assert_eq!(files.after_kill(), names(1), "step {fail}: what was begun is cleared away");
                1
            }
            Ok(error) => {
                assert!(error.is_some(), "step {fail} is said");
                2
            }
        };
        let again = Memory::new(&files.after_kill(), Fault::Never);
        start_again(&again).expect("it starts");
        assert_eq!(again.after_kill(), names(stands));
    }
}

#[test]
fn a_booking_overtaken_by_an_edit_by_hand_is_not_written_over_it() {
    // The book is renamed, the others are not.
    let files = Memory::new(&names(1), Fault::StopAt(10));
    let _ = book_once(&files, 1);
    let mut left = files.after_kill();
    left.insert(PANTRY.to_owned(), b"# by hand\n".to_vec());
    let again = Memory::new(&left, Fault::Never);
    assert_eq!(start_again(&again).expect("it starts"), Recovered::Overtaken);
    assert_eq!(again.read(PANTRY).expect("a file"), Some(b"# by hand\n".to_vec()));
    assert_eq!(again.read(SHOPS).expect("a file"), Some(pantry(1).into_bytes()), "the prices go back with their booking");
    assert!(!left_over(&again));
}

#[test]
fn shops_edited_by_hand_before_their_prices_were_written_stay_as_they_were_edited() {
    for stop in [10, 11] {
        let files = Memory::new(&names(1), Fault::StopAt(stop));
        let _ = book_once(&files, 1);
        let mut left = files.after_kill();
        left.insert(SHOPS.to_owned(), b"# by hand\n".to_vec());
        let again = Memory::new(&left, Fault::Never);
        assert_eq!(start_again(&again).expect("it starts"), Recovered::PricesLeft);
        assert_eq!(again.read(SHOPS).expect("a file"), Some(b"# by hand\n".to_vec()));
        assert_eq!(again.read(PANTRY).expect("a file"), Some(pantry(2).into_bytes()), "the booking stands");
        assert!(!left_over(&again));
    }
}

#[test]
fn one_writer_at_a_time_and_the_lock_goes_with_its_holder() {
    let folder = tempfile::tempdir().expect("a folder");
    let disk = Disk::new(folder.path());
    let held = disk.lock(LOCK).expect("a lock");
    let file = std::fs::File::open(folder.path().join(LOCK)).expect("a file");
    assert!(file.try_lock().is_err(), "held");
    drop(held);
    assert!(file.try_lock().is_ok(), "free again");
}
