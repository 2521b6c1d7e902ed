//! The rooms of the house stand one above another, as DEVELOPERS.md has them.

use std::collections::BTreeMap;
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

/// The rooms that a file names: `crate::plan`, and each of `crate::{plan, shelf}`. Its unit tests do not count.
fn named(text: &str) -> Vec<String> {
    let code: String = text
        .split("#[cfg(test)]\nmod tests {")
        .next()
        .unwrap_or_default()
        .lines()
        .filter(|line| !line.trim_start().starts_with("//"))
        .collect();
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
