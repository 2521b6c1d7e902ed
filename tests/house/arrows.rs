//! Which file leans on which: the paths that the code of each file names, followed to the file that holds the thing, also where another
//! file passes its name on.

use std::collections::{BTreeMap, BTreeSet};

/// "book", "ledger": a file by its place in the house, or a path to something in it.
type Path = Vec<String>;

/// From each file, the files that it leans on, each with what is taken from there.
pub type Arrows = BTreeMap<Path, BTreeMap<Path, BTreeSet<String>>>;

/// The arrows within each room. `code` is every file by its place. What a file takes from a folder that it stands in counts only where the
/// folder's own file passes on what a third one holds.
pub fn arrows(code: &BTreeMap<Path, String>) -> Arrows {
    let passed_on: BTreeMap<&Path, BTreeMap<String, Path>> = code.iter().map(|(file, text)| (file, imports(code, file, text))).collect();
    let mut arrows = Arrows::new();
    for (file, text) in code {
        for path in ["crate::", "super::", "self::"].iter().flat_map(|start| beginning(text, start)).map(|path| absolute(file, path)) {
            let (holder, rest) = followed(code, &passed_on, path);
            if holder.len() > 1 && holder[0] == file[0] && !file.starts_with(&holder) {
                let taken = if rest.is_empty() { taken_by_its_name(text, &holder) } else { rest[..1].to_vec() };
                arrows.entry(file.clone()).or_default().entry(holder).or_default().extend(taken);
            }
        }
    }
    arrows
}

/// `heat` of `oven::heat()`, where the file was brought in as a whole.
fn taken_by_its_name(text: &str, holder: &Path) -> Vec<String> {
    let own = holder.last().map(|name| format!("{name}::")).unwrap_or_default();
    beginning(text, &own).into_iter().filter_map(|path| path.into_iter().nth(1)).collect()
}

/// Files from each of which the arrows lead to every other.
pub fn circles(arrows: &Arrows) -> Vec<BTreeSet<Path>> {
    let reached: BTreeMap<&Path, BTreeSet<&Path>> = arrows.keys().map(|file| (file, reached_from(arrows, file))).collect();
    let mut circles: Vec<BTreeSet<Path>> = Vec::new();
    for (file, ahead) in &reached {
        if ahead.contains(file) && !circles.iter().any(|circle| circle.contains(*file)) {
            let back = |other: &&&Path| reached.get(**other).is_some_and(|ahead| ahead.contains(file));
            circles.push(ahead.iter().filter(back).map(|other| (*other).clone()).collect());
        }
    }
    circles
}

/// "book::booked -> book::ledger: Ledger", a line for each arrow of a circle.
pub fn told(arrows: &Arrows, circle: &BTreeSet<Path>) -> String {
    let mut lines = Vec::new();
    for (from, to) in arrows.iter().filter(|(from, _)| circle.contains(*from)) {
        for (to, names) in to.iter().filter(|(to, _)| circle.contains(*to)) {
            let names: Vec<&str> = names.iter().map(String::as_str).collect();
            lines.push(format!("  {} -> {}: {}", from.join("::"), to.join("::"), names.join(", ")));
        }
    }
    lines.join("\n")
}

fn reached_from<'a>(arrows: &'a Arrows, file: &Path) -> BTreeSet<&'a Path> {
    let mut reached = BTreeSet::new();
    let mut next: Vec<&Path> = arrows.get(file).into_iter().flat_map(BTreeMap::keys).collect();
    while let Some(file) = next.pop() {
        if reached.insert(file) {
            next.extend(arrows.get(file).into_iter().flat_map(BTreeMap::keys));
        }
    }
    reached
}

/// The names that a file's `use` brings into it, each with its path from the top of the house.
fn imports(code: &BTreeMap<Path, String>, file: &Path, text: &str) -> BTreeMap<String, Path> {
    let mut names = BTreeMap::new();
    for path in beginning(text, "use ") {
        let child: Path = file.iter().chain(path.first()).cloned().collect();
        let path = match path.first().map(String::as_str) {
            Some("crate" | "super" | "self") => absolute(file, path),
            _ if code.contains_key(&child) => file.iter().cloned().chain(path).collect(),
            _ => continue,
        };
        names.extend(path.last().cloned().map(|name| (name, path)));
    }
    names
}

/// The file that holds what a path names, and the rest of the path within it.
fn followed(code: &BTreeMap<Path, String>, passed_on: &BTreeMap<&Path, BTreeMap<String, Path>>, mut path: Path) -> (Path, Path) {
    loop {
        let depth = (0..=path.len()).rev().find(|depth| code.contains_key(&path[..*depth])).unwrap_or(0);
        let (file, rest) = (path[..depth].to_vec(), path[depth..].to_vec());
        match rest.first().and_then(|name| passed_on.get(&file)?.get(name)) {
            Some(elsewhere) if *elsewhere != path => path = elsewhere.iter().chain(&rest[1..]).cloned().collect(),
            _ => return (file, rest),
        }
    }
}

/// A path as a file names it, from the top of the house.
fn absolute(file: &Path, path: Path) -> Path {
    let ups = path.iter().take_while(|name| *name == "super").count();
    let named = path.iter().skip_while(|name| ["crate", "self", "super"].contains(&name.as_str())).cloned();
    let kept = if path.first().is_some_and(|name| name == "crate") { 0 } else { file.len().saturating_sub(ups) };
    file[..kept].iter().cloned().chain(named).collect()
}

/// All paths that begin so: `super::{a, b::C}` is two.
fn beginning(text: &str, start: &str) -> Vec<Path> {
    let is_word_before = |at: usize| text[..at].ends_with(|letter: char| letter.is_alphanumeric() || "_:".contains(letter));
    let begins = text.match_indices(start).filter(|(at, _)| !is_word_before(*at));
    begins.flat_map(|(at, _)| paths(text[at..].strip_prefix("use ").unwrap_or(&text[at..]))).collect()
}

/// The paths of one tree of names: `a::{b, c::{D, E}}` is `a::b`, `a::c::D` and `a::c::E`.
fn paths(tree: &str) -> Vec<Path> {
    let tree = tree.trim_start();
    let name: String = tree.chars().take_while(|letter| letter.is_alphanumeric() || *letter == '_').collect();
    let Some(below) = tree[name.len()..].strip_prefix("::") else {
        return if name.is_empty() { Vec::new() } else { vec![vec![name]] };
    };
    let below = match below.strip_prefix('{') {
        Some(group) => branches(group).into_iter().flat_map(paths).collect(),
        None => paths(below),
    };
    let below = if below.is_empty() { vec![Vec::new()] } else { below };
    below.into_iter().map(|path| std::iter::once(name.clone()).chain(path).collect()).collect()
}

/// What stands between the commas of a group, up to the bracket that closes it.
fn branches(group: &str) -> Vec<&str> {
    let (mut depth, mut from, mut found) = (0, 0, Vec::new());
    for (at, letter) in group.char_indices() {
        match letter {
            '{' => depth += 1,
            '}' if depth > 0 => depth -= 1,
            ',' | '}' if depth == 0 => {
                found.push(&group[from..at]);
                from = at + 1;
                if letter == '}' {
                    break;
                }
            }
            _ => {}
        }
    }
    found
}

#[test]
fn a_circle_is_found_through_the_door_of_a_room() {
    let path = |path: &str| path.split("::").map(str::to_owned).collect::<Path>();
    let house = |oven: &str, pan: &str| {
        let code = [
            ("kitchen", "mod oven;\nmod pan;\nmod shelf;\npub use pan::Pan;"),
            ("kitchen::oven", oven),
            ("kitchen::pan", pan),
            ("kitchen::shelf", "use super::{oven::{Oven, self}, Pan};"),
        ];
        arrows(&code.into_iter().map(|(file, text)| (path(file), text.to_owned())).collect())
    };
    let round = house("use super::Pan;", "use super::oven;\nfn heat() { oven::heat(); }");
    let circle = BTreeSet::from([path("kitchen::oven"), path("kitchen::pan")]);
    assert_eq!(circles(&round), std::slice::from_ref(&circle));
    assert_eq!(told(&round, &circle), "  kitchen::oven -> kitchen::pan: Pan\n  kitchen::pan -> kitchen::oven: heat");
    assert!(circles(&house("use super::Pan;", "fn heat() {}")).is_empty());
}
