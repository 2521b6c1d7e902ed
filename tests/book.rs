//! The book: bookings, hand edits, and a writer that is killed.

use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};
use std::thread::sleep;
use std::time::Instant;

use pretty_assertions::assert_eq;
use spence::book::{Book, covered, sum};
use spence::measure::{Spoons, read_quantity};
use spence::store::{BOOK, Disk, Files, LOCK, PANTRY, SHOPS, recover};

use crate::kitchen::{Kitchen, TODAY, json, kitchen, stderr, supper};

const SHELF: &str = "# Ours\n\n[[lot]]\nfood = \"moon cheese\"   # the good one\namount = \"200 g\"\nplace = \"fridge\"\nuse_by = 2026-12-01\n\n\
                     [[lot]]\nfood = \"moon cheese\"\namount = \"100 g\"\nplace = \"fridge\"\nuse_by = 2026-12-09\n";

fn with_cheese() -> Kitchen {
    kitchen()
        .foods("[[food]]\nname = \"moon cheese\"\nallergens = []\nsource = \"weighed at home\"\n")
        .shops("[[shop]]\nname = \"Stall\"\n[[pack]]\nshop = \"Stall\"\nfood = \"moon cheese\"\nsize = \"200 g\"\nprice = 2.40\n")
        .pantry(SHELF)
}

#[track_caller]
fn refused(kitchen: &Kitchen, arguments: &[&str], status: i32) -> String {
    let output = kitchen.run(arguments);
    assert_eq!(output.status.code(), Some(status), "{}", stderr(&output));
    stderr(&output)
}

/// No difference and no warning of one.
#[track_caller]
fn assert_level(kitchen: &Kitchen) {
    kitchen.done(&["--strict", "check", "--book"]);
}

#[test]
fn waste_leaves_first_expired_first_and_the_file_keeps_its_remarks() {
    let kitchen = with_cheese();
    kitchen.done(&["waste", "150 g moon cheese", "--why", "mould"]);
    assert_eq!(kitchen.text("pantry.toml"), SHELF.replacen("200 g", "50 g", 1));
    assert_level(&kitchen);
}

#[test]
fn what_is_not_on_the_shelf_is_reported_and_not_driven_below_zero() {
    let kitchen = with_cheese();
    let said = kitchen.done(&["waste", "500 g moon cheese", "--why", "mould"]);
    assert!(said.contains("Not on the shelf: 200 g"), "{said}");
    assert!(!kitchen.text("pantry.toml").contains("[[lot]]"));
    assert!(refused(&kitchen, &["waste", "1 g moon cheese", "--why", "mould"], 2).contains("none on the shelf"));
    assert_level(&kitchen);
}

#[test]
fn undo_goes_back_to_the_beginning_and_says_when_it_is_there() {
    let kitchen = with_cheese();
    for amount in ["20 g", "250 g", "5 g"] {
        kitchen.done(&["waste", &format!("{amount} moon cheese"), "--why", "mould"]);
    }
    for _ in 0..3 {
        kitchen.done(&["undo"]);
        assert_level(&kitchen);
    }
    let shelf = json(&kitchen.run(&["--format", "json", "stock"]));
    assert_eq!(shelf["places"][1]["lots"][0]["amount"]["amount"], 200.0);
    assert_eq!(shelf["places"][1]["lots"][1]["amount"]["amount"], 100.0);
    assert!(kitchen.text("pantry.toml").contains("# the good one"));
    assert!(refused(&kitchen, &["undo"], 2).contains("no booking to take back"));
}

#[test]
fn waste_is_summed_by_month_and_food_at_its_price() {
    // 200 g cost 2.40: 150 g are 1.80 and 20 g 0.24.
    let kitchen = with_cheese();
    kitchen.done(&["waste", "150 g moon cheese", "--why", "mould"]);
    kitchen.done(&["waste", "20 g moon cheese", "--why", "dropped"]);
    let waste = json(&kitchen.run(&["--format", "json", "stock", "--waste"]));
    assert_eq!(waste["waste"][0]["month"], "2026-11");
    assert_eq!(waste["waste"][0]["food"], "moon cheese");
    assert_eq!(waste["value"], "2.04");
}

#[test]
fn an_edit_by_hand_is_noticed_and_booked() {
    let kitchen = with_cheese();
    kitchen.done(&["waste", "150 g moon cheese", "--why", "mould"]);
    let edited = kitchen.text("pantry.toml").replace("\"100 g\"", "\"80 g\"");
    let kitchen = kitchen.pantry(&edited);
    assert!(stderr(&kitchen.run(&["check", "--book"])).contains("pantry.toml has 80 g of moon cheese where the book adds up to 100 g"));
    let said = kitchen.done(&["waste", "1 g moon cheese", "--why", "mould"]);
    assert!(said.contains("pantry.toml edited by hand: 1 lot"), "{said}");
    assert_eq!(kitchen.text("pantry.toml"), edited.replace("\"50 g\"", "\"49 g\""));
    assert_level(&kitchen);
}

#[test]
fn a_line_of_the_book_edited_by_hand_is_refused_and_nothing_is_written() {
    let kitchen = with_cheese();
    kitchen.done(&["waste", "150 g moon cheese", "--why", "mould"]);
    let (text, pantry) = (kitchen.text(BOOK).replace("mould", "mice"), kitchen.text(PANTRY));
    let kitchen = kitchen.file(BOOK, &text);
    let said = refused(&kitchen, &["waste", "1 g moon cheese", "--why", "mould"], 1);
    assert!(said.contains("pantry.book.jsonl:2: this line is not as it was booked"), "{said}");
    assert_eq!((kitchen.text(BOOK), kitchen.text(PANTRY)), (text, pantry));
    for verb in ["list", "stock", "check"] {
        let output = kitchen.run(&[verb]);
        assert_eq!(output.status.code(), Some(0), "{verb} does not need the book");
        let first = stderr(&output).lines().next().map(str::to_owned).unwrap_or_default();
        assert!(first.starts_with("warning: pantry.book.jsonl:2: this line is not as it was booked"), "{verb}: {first}");
        assert!(first.ends_with("from pantry.toml alone, as if nothing were booked."), "{verb}: {first}");
    }
}

#[test]
fn a_last_line_cut_short_is_said_kept_and_gone_on_from() {
    let kitchen = with_cheese();
    kitchen.done(&["waste", "150 g moon cheese", "--why", "mould"]);
    let text = kitchen.text(BOOK);
    let kitchen = kitchen.file(BOOK, &text[..text.len() - 20]);
    let output = kitchen.run(&["waste", "1 g moon cheese", "--why", "mould"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    assert!(stderr(&output).contains("its last line was cut short"));
    assert!(kitchen.text(PANTRY).contains("\"49 g\""));
    assert!(kitchen.text(BOOK).contains("\"fragment\":\"{"));
    assert_level(&kitchen);
}

/// Finishes what a killed writer left, and says what the shelf then holds: the one lot's text, read as the book reads it.
fn grams_after_a_kill(folder: &Path) -> f64 {
    let files = Disk::new(folder);
    let _lock = files.lock(LOCK).expect("the lock is free");
    let read = || Book::read(&fs::read_to_string(folder.join(BOOK)).unwrap_or_default()).expect("the book is whole");
    let last = read().bookings.last().map(|last| last.files.clone()).unwrap_or_default();
    recover(&files, &last).expect("it can be mended");
    let pantry: toml::Table = fs::read_to_string(folder.join(PANTRY)).expect("a file").parse().expect("it is TOML");
    let amount = pantry["lot"][0]["amount"].as_str().expect("an amount");
    let grams = read_quantity(amount, Spoons::Us).expect("an amount").base();
    if let [lot] = sum(&read().bookings).as_slice() {
        assert_eq!(lot.amount.quantity().base(), grams, "pantry.toml is what the book adds up to");
    }
    grams
}

/// Kills the writer 200 times, or as often as SPENCE_KILLS says, each time a little later than the time before, from its start to
/// a fifth beyond what an undisturbed one takes.
#[test]
fn a_writer_killed_at_any_moment_leaves_the_state_before_or_the_state_after() {
    let kills: u32 = std::env::var("SPENCE_KILLS").ok().and_then(|kills| kills.parse().ok()).unwrap_or(200);
    let kitchen = kitchen()
        .foods("[[food]]\nname = \"moon cheese\"\nallergens = []\nsource = \"weighed at home\"\n")
        .pantry("[[lot]]\nfood = \"moon cheese\"\namount = \"900 kg\"\nplace = \"fridge\"\n");
    let program = assert_cmd::cargo::cargo_bin("spence");
    let start = || {
        Command::new(&program)
            .arg("--kitchen")
            .arg(kitchen.path())
            .args(["--today", TODAY, "waste", "1 g moon cheese", "--why", "test"])
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("the program runs")
    };
    start().wait().expect("it ends");
    let clock = Instant::now();
    assert!(start().wait().expect("it ends").success());
    let undisturbed = clock.elapsed();
    let mut grams = grams_after_a_kill(kitchen.path());
    let mut booked = 0;
    for kill in 0..kills {
        let mut writer = start();
        sleep(undisturbed * (kill % 60) / 50);
        writer.kill().expect("it can be killed");
        writer.wait().expect("it ends");
        let now = grams_after_a_kill(kitchen.path());
        assert!(now == grams || now == grams - 1.0, "kill {kill}: {now} g after {grams} g");
        booked += u32::from(now < grams);
        grams = now;
    }
    kitchen.done(&["waste", "1 g moon cheese", "--why", "test"]);
    assert_level(&kitchen);
    println!("{kills} kills: {booked} bookings stood, {} did not", kills - booked);
}

/// Whether the trip is booked, by the book; the shelf and the price in shops.toml must agree, once what was cut short is mended.
fn trip_after_a_kill(folder: &Path) -> bool {
    let files = Disk::new(folder);
    let _lock = files.lock(LOCK).expect("the lock is free");
    let read = || Book::read(&fs::read_to_string(folder.join(BOOK)).unwrap_or_default()).expect("the book is whole");
    let last = read().bookings.last().map(|last| last.files.clone()).unwrap_or_default();
    recover(&files, &last).expect("it can be mended");
    let text = |name: &str| fs::read_to_string(folder.join(name)).unwrap_or_default();
    let booked = covered(&read().bookings).contains("trip 2026-11-28");
    assert_eq!(text(PANTRY).contains("moon cheese"), booked);
    assert_eq!((text(SHOPS).contains("2.60"), text(SHOPS).contains("2.40")), (booked, !booked));
    booked
}

/// Kills a trip with a price paid, and its undo, by turns.
#[test]
fn a_trip_killed_at_any_moment_is_booked_with_its_price_or_not_at_all() {
    let kills: u32 = std::env::var("SPENCE_KILLS").ok().and_then(|kills| kills.parse().ok()).unwrap_or(40);
    let kitchen = with_cheese().pantry("# Ours\n").meals(&supper("2026-11-30", "\"200 g moon cheese\""));
    let program = assert_cmd::cargo::cargo_bin("spence");
    let start = |booked: bool| {
        let arguments: &[&str] = if booked { &["undo"] } else { &["receive", "--paid", "moon cheese=2.60"] };
        let mut command = Command::new(&program);
        command.arg("--kitchen").arg(kitchen.path()).args(["--today", TODAY]).args(arguments);
        command.stdout(Stdio::null()).stderr(Stdio::null()).spawn().expect("the program runs")
    };
    let clock = Instant::now();
    assert!(start(false).wait().expect("it ends").success());
    let undisturbed = clock.elapsed();
    let mut booked = trip_after_a_kill(kitchen.path());
    assert!(booked);
    let mut stood = 0;
    for kill in 0..kills {
        let mut writer = start(booked);
        sleep(undisturbed * (kill % 40) / 32);
        writer.kill().expect("it can be killed");
        writer.wait().expect("it ends");
        let now = trip_after_a_kill(kitchen.path());
        stood += u32::from(now != booked);
        booked = now;
    }
    assert_level(&kitchen);
    println!("{kills} kills: {stood} bookings stood, {} did not", kills - stood);
}
