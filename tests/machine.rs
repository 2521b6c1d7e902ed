//! What the machine refuses: a full disk, a folder that may not be written. Nothing is lost, and the exit status is 3.
#![cfg(unix)]

use std::fs::{self, File, Permissions};
use std::os::unix::fs::PermissionsExt;
use std::os::unix::process::CommandExt;
use std::process::{Command, Output, Stdio};

use pretty_assertions::assert_eq;

use crate::kitchen::{Kitchen, TODAY, json, kitchen, stderr};

/// Nobody's number on most systems.
const NOBODY: u32 = 65534;

fn with_cheese() -> Kitchen {
    kitchen()
        .foods("[[food]]\nname = \"moon cheese\"\nallergens = []\nsource = \"weighed at home\"\n")
        .pantry("[[lot]]\nfood = \"moon cheese\"\namount = \"200 g\"\nplace = \"fridge\"\n")
}

fn waste(kitchen: &Kitchen) -> Command {
    let mut command = Command::new(assert_cmd::cargo::cargo_bin("spence"));
    command.arg("--kitchen").arg(kitchen.path()).args(["--today", TODAY, "waste", "1 g moon cheese", "--why", "mould"]);
    command
}

/// Names and contents of the folder's files, the lock left out.
fn files(kitchen: &Kitchen) -> Vec<(String, Vec<u8>)> {
    let entries = fs::read_dir(kitchen.path()).expect("a folder").flatten().filter(|entry| entry.path().is_file());
    let mut files: Vec<_> =
        entries.map(|entry| (entry.file_name().to_string_lossy().into_owned(), fs::read(entry.path()).expect("a file"))).collect();
    files.retain(|(name, _)| !name.starts_with('.'));
    files.sort();
    files
}

#[track_caller]
fn assert_refused(output: &Output, said: &str) {
    assert_eq!(output.status.code(), Some(3), "{}", stderr(output));
    assert!(stderr(output).contains(said), "{}", stderr(output));
    assert!(output.stdout.is_empty());
}

#[test]
fn where_nothing_more_may_be_written_nothing_is_lost_and_the_next_booking_works() {
    // No file may grow beyond one block of the shell's; the book is longer after the first bookings.
    let kitchen = with_cheese();
    for _ in 0..3 {
        assert!(waste(&kitchen).stdout(Stdio::null()).status().expect("it runs").success());
    }
    let before = files(&kitchen);
    let program = assert_cmd::cargo::cargo_bin("spence");
    let limited = Command::new("sh")
        .args(["-c", "trap '' XFSZ; ulimit -f 1; exec \"$0\" \"$@\""])
        .arg(program)
        .arg("--kitchen")
        .arg(kitchen.path())
        .args(["--today", TODAY, "waste", "1 g moon cheese", "--why", "mould"])
        .output()
        .expect("a shell");
    assert_refused(&limited, "Nothing was lost; make room and run it again");
    assert_eq!(files(&kitchen), before, "what was begun is cleared away");
    assert!(waste(&kitchen).stdout(Stdio::null()).status().expect("it runs").success());
    assert_eq!(kitchen.run(&["--strict", "check", "--book"]).status.code(), Some(0));
}

#[test]
fn a_booking_that_cannot_be_told_stands_and_says_so() {
    let Ok(full) = File::options().write(true).open("/dev/full") else { return };
    let kitchen = with_cheese();
    let output = waste(&kitchen).stdout(full).output().expect("it runs");
    assert_refused(&output, "The booking stands: do not book it again");
    assert_eq!(json(&kitchen.run(&["--format", "json", "stock"]))["places"][1]["lots"][0]["amount"]["amount"], 199.0);
}

#[test]
fn a_folder_that_may_not_be_written_is_said_and_its_list_can_still_be_read() {
    let kitchen = with_cheese();
    let before = files(&kitchen);
    fs::set_permissions(kitchen.path(), Permissions::from_mode(0o555)).expect("permissions");
    // Who may write everywhere asks as somebody who may not.
    let everywhere = File::create(kitchen.path().join("probe")).is_ok();
    let as_nobody = |mut command: Command| {
        if everywhere {
            command.uid(NOBODY).gid(NOBODY);
        }
        command.output()
    };
    if everywhere {
        fs::remove_file(kitchen.path().join("probe")).expect("a file");
    }
    let Ok(output) = as_nobody(waste(&kitchen)) else { return };
    assert_refused(&output, "no permission");
    let mut stock = Command::new(assert_cmd::cargo::cargo_bin("spence"));
    stock.arg("--kitchen").arg(kitchen.path()).args(["--today", TODAY, "stock"]);
    assert_eq!(as_nobody(stock).expect("it runs").status.code(), Some(0), "reading needs no permission to write");
    assert_eq!(files(&kitchen), before);
    fs::set_permissions(kitchen.path(), Permissions::from_mode(0o755)).expect("permissions");
}

#[test]
fn a_start_that_finds_no_room_leaves_nothing_and_can_be_run_again() {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let program = assert_cmd::cargo::cargo_bin("spence");
    for new in ["new", "deep/new", "empty"] {
        if new == "empty" {
            fs::create_dir(folder.path().join(new)).expect("a folder");
        }
        let limited = Command::new("sh")
            .args(["-c", "trap '' XFSZ; ulimit -f 1; exec \"$0\" \"$@\""])
            .arg(&program)
            .args(["--today", TODAY, "start", new])
            .current_dir(folder.path())
            .output()
            .expect("a shell");
        assert_refused(&limited, "Nothing was lost; make room and run it again");
        let left = fs::read_dir(folder.path().join(new)).map_or(0, Iterator::count);
        assert_eq!((left, folder.path().join(new).exists()), (0, new == "empty"), "{new}: what was not there before is not there now");
        let again = Command::new(&program).args(["--today", TODAY, "start", new]).current_dir(folder.path()).output().expect("it runs");
        assert_eq!(again.status.code(), Some(0), "{}", stderr(&again));
    }
}
