//! The rooms of the house stand one above another, as DEVELOPERS.md has them; and the files of a room stand in no circle.

mod arrows;

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// The rooms of the table in DEVELOPERS.md, the lowest first, each with its storey: two in one row share it.
fn storeys() -> BTreeMap<String, usize> {
    let page = fs::read_to_string("DEVELOPERS.md").expect("DEVELOPERS.md");
    let rows = page.lines().skip_while(|line| !line.starts_with("| room |")).skip(2).take_while(|line| line.starts_with('|'));
    let named = rows.enumerate().flat_map(|(storey, row)| {
        let rooms = row.split('|').nth(1).unwrap_or_default();
        rooms.split('`').skip(1).step_by(2).map(|room| (room.to_owned(), storey)).collect::<Vec<_>>()
    });
    named.collect()
}

/// All Rust files below a folder but those of tests.
fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).expect("a folder of the source") {
        let path = entry.expect("an entry").path();
        let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        if name == "tests" || name == "fixture" {
            continue;
        }
        if path.is_dir() {
            found.extend(sources(&path));
        } else if path.extension().is_some_and(|end| end == "rs") {
            found.push(path);
        }
    }
    found
}

/// The lines of a file, without remarks and unit tests.
fn code(text: &str) -> String {
    let code = text.split("#[cfg(test)]\nmod tests {").next().unwrap_or_default();
    code.lines().filter(|line| !line.trim_start().starts_with("//")).map(|line| format!("{line}\n")).collect()
}

/// The rooms that a file names: `crate::plan`, and each of `crate::{plan, shelf}`. Its unit tests do not count.
fn named(text: &str) -> Vec<String> {
    let code = code(text);
    let word =
        |text: &str| text.trim_start().chars().take_while(|letter| letter.is_ascii_lowercase() || *letter == '_').collect::<String>();
    code.split("crate::")
        .skip(1)
        .flat_map(|after| match after.strip_prefix('{') {
            Some(list) => list.split("};").next().unwrap_or_default().split(',').map(word).collect(),
            None => vec![word(after)],
        })
        .collect()
}

#[test]
fn no_room_knows_one_that_stands_above_it() {
    let storeys = storeys();
    let mut wrong = Vec::new();
    for (room, storey) in &storeys {
        let place = Path::new("src").join(room);
        let files = if place.is_dir() { sources(&place) } else { vec![place.with_extension("rs")] };
        for file in files {
            let text = fs::read_to_string(&file).unwrap_or_else(|_| panic!("{} is in the table and not in src", file.display()));
            let up = named(&text).into_iter().filter(|other| other != room && storeys.get(other).is_some_and(|other| other >= storey));
            wrong.extend(up.map(|other| format!("{} knows {other}", file.display())));
        }
    }
    assert!(wrong.is_empty(), "arrows that run up:\n{}", wrong.join("\n"));
}

#[test]
fn the_table_has_every_room() {
    let storeys = storeys();
    let rooms = fs::read_dir("src").expect("src").filter_map(|entry| entry.ok()?.path().file_stem()?.to_str().map(str::to_owned));
    let missing: Vec<String> = rooms.filter(|room| !["lib", "main"].contains(&room.as_str()) && !storeys.contains_key(room)).collect();
    assert!(missing.is_empty(), "rooms without a row in DEVELOPERS.md: {missing:?}");
}

/// Circles that stand, by the files that may be in them, each with why.
#[rustfmt::skip]
const STANDING: [(&str, &str, &str); 11] = [
    ("kitchen::line", "candidate foods parts",
     "a grammar that holds itself: a line has foods, a food has parts behind it, a part may be another line"),
    ("kitchen::method", "act act::how_long act::named act::reading clauses whereabouts",
     "not parted yet: what a clause does hangs on where things are, and that on what the clauses before it did"),
    ("purchase", "joint windows",
     "not parted yet: windows are bought together where they share an offer, and what is weighed is a window's packs"),
    ("purchase", "choose line paid",
     "not parted yet: what was chosen becomes lines and payments, which look at what the chosen shop sells"),
    ("prep", "advice remedies",
     "not parted yet: advice names what would help, and whether something helps is told by the advice that is left"),
    ("prep", "links tasks theirs",
     "not parted yet: what comes after what is read off the tasks, and laid into them"),
    ("prep", "advice::say say",
     "not parted yet: what is said of a dish that waits names the same places as the sentences of the plan"),
    ("prep::schedule", "exact hands rooms",
     "one model of the constraint solver, told in three files"),
    ("prep::schedule", "close table",
     "two halves of one search: the table is bettered by setting makings close, and keeps what that reckons with"),
    ("compose", "at_once search search::first search::mend search::proof search::shake",
     "one search, told in five files; a week is what they all look at"),
    ("compose", "rules table value",
     "not parted yet: the table lays out what the rules say of each way, and rules and worth are read off the table"),
];

#[test]
fn no_file_of_a_room_leans_on_one_that_leans_on_it() {
    let place = |file: &Path| {
        let (file, mut names) = (file.with_extension(""), Vec::new());
        names.extend(file.components().skip(1).map(|name| name.as_os_str().to_string_lossy().into_owned()));
        names.retain(|name| name != "mod");
        names
    };
    let read = |file: &Path| fs::read_to_string(file).expect("a file of the source");
    let arrows = arrows::arrows(&sources(Path::new("src")).iter().map(|file| (place(file), code(&read(file)))).collect());
    let circles = arrows::circles(&arrows);
    let stands = |circle: &BTreeSet<Vec<String>>, room: &str, files: &str| {
        let files: Vec<String> = files.split(' ').map(|file| format!("{room}::{file}")).collect();
        circle.iter().all(|file| files.contains(&file.join("::")))
    };
    let new = circles.iter().filter(|circle| !STANDING.iter().any(|(room, files, _)| stands(circle, room, files)));
    let new: Vec<String> = new.map(|circle| arrows::told(&arrows, circle)).collect();
    assert!(new.is_empty(), "files that lean on one another in a circle:\n{}", new.join("\n\n"));
    let gone = STANDING.iter().filter(|(room, files, _)| !circles.iter().any(|circle| stands(circle, room, files)));
    let gone: Vec<String> = gone.map(|(room, files, _)| format!("{room}: {files}")).collect();
    assert!(gone.is_empty(), "no circle any more, so take it out of the list:\n{}", gone.join("\n"));
}
