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
    // 200 g and 100 g lay there: the book says no more.
    assert!(kitchen.done(&["book"]).contains("Thrown away: 300 g moon cheese (mould)."));
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
    let before = kitchen.text(PANTRY);
    kitchen.done(&["waste", "150 g moon cheese", "--why", "mould"]);
    let text = kitchen.text(BOOK);
    // What the line was to write is in no file: 200 g are there still.
    let kitchen = kitchen.file(BOOK, &text[..text.len() - 20]).file(PANTRY, &before);
    let output = kitchen.run(&["waste", "1 g moon cheese", "--why", "mould"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    assert!(stderr(&output).contains("its last line was cut short"));
    assert!(kitchen.text(PANTRY).contains("\"199 g\""));
    assert!(kitchen.text(BOOK).contains("\"fragment\":\"{"));
    assert_level(&kitchen);
}

#[test]
fn a_book_whose_only_line_is_no_booking_is_a_warning_for_plans_and_an_error_for_bookings() {
    for strange in ["hello", "{\"number\":1}", "[1, 2"] {
        let kitchen = with_cheese().file(BOOK, strange);
        let said = refused(&kitchen, &["waste", "1 g moon cheese", "--why", "mould"], 1);
        assert!(said.contains("pantry.book.jsonl:1: this line of the book cannot be read"), "{strange}: {said}");
        assert_eq!((kitchen.text(BOOK), kitchen.text(PANTRY)), (strange.to_owned(), SHELF.to_owned()));
        let output = kitchen.run(&["list"]);
        assert_eq!(output.status.code(), Some(0));
        assert!(stderr(&output).starts_with("warning: pantry.book.jsonl:1: this line of the book cannot be read"), "{}", stderr(&output));
    }
}

#[test]
fn what_is_taken_back_lies_where_it_lay_under_its_own_remarks() {
    let lot = |food: &str, place: &str| format!("[[lot]]\nfood = \"{food}\"\namount = \"90 g\"\nplace = \"{place}\"\n");
    let shelf = format!(
        "# Fridge\n\n{}\n{}\n# Cupboard\n\n# From the mill\n{}\n{}# The end\n",
        lot("moon cheese", "fridge"),
        lot("butter", "fridge"),
        lot("honey", "cupboard"),
        lot("moon cheese", "cupboard"),
    );
    let kitchen = with_cheese().pantry(&shelf);
    let foods = ["moon cheese", "butter", "honey", "moon cheese"];
    // One after another, and two cheeses in one booking.
    for food in foods {
        kitchen.done(&["waste", &format!("90 g {food}"), "--why", "mould"]);
    }
    assert!(!kitchen.text(PANTRY).contains("[[lot]]"));
    for _ in foods {
        kitchen.done(&["undo"]);
    }
    assert_eq!(kitchen.text(PANTRY), shelf);
    kitchen.done(&["waste", "180 g moon cheese", "--why", "mould"]);
    kitchen.done(&["undo"]);
    assert_eq!(kitchen.text(PANTRY), shelf);
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

#[test]
fn what_pantry_toml_may_not_hold_is_refused_and_nothing_is_changed() {
    let kitchen = with_cheese().pantry("# Ours\n").meals(&supper("2026-11-30", "\"200 g moon cheese\""));
    for more in [["--until", "moon cheese=1026-12-04"], ["--instead", "moon cheese=3 x 999999 kg"]] {
        let said = refused(&kitchen, &[&["receive"], &more[..]].concat(), 1);
        assert!(said.contains("pantry.toml: this booking would write the line"), "{said}");
        assert!(said.contains("nothing was written"), "{said}");
        assert_eq!(kitchen.text(PANTRY), "# Ours\n");
        assert!(!kitchen.path().join(BOOK).exists());
    }
    kitchen.done(&["receive"]);
    assert_level(&kitchen);
}

#[test]
fn a_lot_corrected_by_hand_keeps_its_price_in_the_next_booking() {
    // 200 g for 2.40, found to be 150 g; 50 g of them are thrown away: 0.60.
    let kitchen = with_cheese().pantry("# Ours\n").meals(&supper("2026-11-30", "\"200 g moon cheese\""));
    kitchen.done(&["receive", "--paid", "moon cheese=2.40"]);
    let corrected = kitchen.text(PANTRY).replace("200 g", "150 g");
    let kitchen = kitchen.pantry(&corrected);
    kitchen.done(&["waste", "50 g moon cheese", "--why", "mould"]);
    assert_level(&kitchen);
    assert_eq!(json(&kitchen.run(&["--format", "json", "stock", "--waste"]))["value"], "0.60");
    for _ in 0..3 {
        kitchen.done(&["undo"]);
        assert_level(&kitchen);
    }
    assert_eq!(kitchen.text(PANTRY).trim(), "# Ours", "what never was there is not put there");
}

#[test]
fn a_booking_whose_new_file_was_lost_is_told_and_finished_or_taken_back() {
    for (way, left) in [(&["book", "--finish"][..], "\"50 g\""), (&["undo"][..], "\"200 g\"")] {
        let kitchen = with_cheese();
        kitchen.done(&["waste", "1 g moon cheese", "--why", "mould"]);
        kitchen.done(&["undo"]);
        let before = kitchen.text(PANTRY);
        kitchen.done(&["waste", "150 g moon cheese", "--why", "mould"]);
        // As after a power cut that lost the file which was to take pantry.toml's place.
        let kitchen = kitchen.pantry(&before);
        let said = refused(&kitchen, &["waste", "1 g moon cheese", "--why", "mould"], 1);
        assert!(said.contains("booking 4 (\"thrown away: 150 g moon cheese\") was cut short"), "{said}");
        assert!(said.contains("spence book --finish") && said.contains("spence undo"), "{said}");
        assert_eq!(kitchen.text(PANTRY), before);
        assert!(stderr(&kitchen.run(&["stock"])).contains("was cut short and never came into pantry.toml"));
        kitchen.done(way);
        assert!(kitchen.text(PANTRY).contains(left), "{way:?}: {}", kitchen.text(PANTRY));
        assert_level(&kitchen);
    }
}

#[cfg(unix)]
#[test]
fn links_are_written_through_and_modes_are_kept() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let kitchen = with_cheese();
    let elsewhere = tempfile::TempDir::new().expect("a folder");
    let real = elsewhere.path().join("shelf.toml");
    fs::rename(kitchen.path().join(PANTRY), &real).expect("it is moved");
    fs::set_permissions(&real, fs::Permissions::from_mode(0o600)).expect("a mode");
    symlink(&real, kitchen.path().join(PANTRY)).expect("a link");
    kitchen.done(&["waste", "150 g moon cheese", "--why", "mould"]);
    assert!(kitchen.path().join(PANTRY).is_symlink());
    assert!(fs::read_to_string(&real).expect("a file").contains("\"50 g\""));
    assert_eq!(fs::metadata(&real).expect("a file").permissions().mode() & 0o777, 0o600);
    assert_eq!(fs::read_dir(elsewhere.path()).expect("a folder").count(), 1, "nothing is left beside it");
    assert_level(&kitchen);
}

#[test]
fn line_ends_of_other_systems_stay() {
    let kitchen = with_cheese().pantry(&SHELF.replace('\n', "\r\n"));
    kitchen.done(&["waste", "150 g moon cheese", "--why", "mould"]);
    assert_eq!(kitchen.text(PANTRY), SHELF.replacen("200 g", "50 g", 1).replace('\n', "\r\n"));
}

#[test]
fn the_book_is_shown_the_last_booking_first_and_taken_back_to_a_point() {
    let kitchen = with_cheese();
    for amount in ["20 g", "30 g", "40 g", "50 g"] {
        kitchen.done(&["waste", &format!("{amount} moon cheese"), "--why", "mould"]);
    }
    kitchen.done(&["undo"]);
    let shown = kitchen.done(&["book"]);
    let lines: Vec<&str> = shown.lines().map(str::trim).collect();
    assert_eq!(lines[0], "4  Fri 27 Nov 2026  Thrown away: 40 g moon cheese (mould).", "{shown}");
    assert_eq!(lines.len(), 4, "three bookings and the opening: {shown}");
    let book = json(&kitchen.run(&["--format", "json", "book"]));
    assert_eq!(book["bookings"][0]["number"], 4);
    let said = kitchen.done(&["undo", "--back-to", "2"]);
    assert!(said.contains("Taking back 2 bookings") && said.contains("40 g moon cheese") && said.contains("30 g moon cheese"), "{said}");
    assert!(kitchen.text(PANTRY).contains("\"180 g\""), "200 g less 20 g");
    assert_level(&kitchen);
    assert!(refused(&kitchen, &["undo", "--back-to", "2"], 2).contains("nothing was booked after number 2"));
    assert!(refused(&kitchen, &["undo", "--back-to", "99"], 2).contains("no booking 99"));
    kitchen.done(&["undo", "--back-to", "1"]);
    assert_eq!(kitchen.text(PANTRY), SHELF);
}
