use super::*;
use pretty_assertions::assert_eq;

#[test]
fn a_missing_folder_and_a_missing_kitchen_file_are_mistakes() {
    let empty = TempDir::new().unwrap();
    let said = load(&empty.path().join("nowhere")).unwrap_err();
    assert_eq!(said[0].cause, "there is no such folder");
    let said = load(empty.path()).unwrap_err();
    assert_eq!((said.len(), said[0].at.to_string()), (1, "kitchen.toml".to_owned()));
}

#[test]
fn a_kitchen_of_kitchen_toml_alone_works() {
    let loaded = loaded(&[]);
    assert_eq!((loaded.kitchen.recipes.len(), loaded.weeks.len(), loaded.kitchen.shops.len()), (0, 0, 0));
}

#[test]
fn an_empty_recipes_folder_is_fine() {
    let folder = folder(&[]);
    fs::create_dir(folder.path().join("recipes")).unwrap();
    assert!(load(folder.path()).is_ok());
}

#[test]
fn a_file_that_is_not_utf_8_names_its_line() {
    let folder = folder(&[]);
    fs::write(folder.path().join("pantry.toml"), b"# one\n# tw\xff\n").unwrap();
    let said = load(folder.path()).unwrap_err();
    assert_eq!(said[0].to_string(), "pantry.toml:2: this line is not UTF-8 text. Save the file as UTF-8.");
}

#[test]
fn a_folder_in_place_of_a_file_is_a_mistake() {
    let folder = folder(&[]);
    fs::create_dir_all(folder.path().join("recipes/mash.toml")).unwrap();
    fs::write(folder.path().join("weeks"), "").unwrap();
    let said = load(folder.path()).unwrap_err();
    assert_eq!(said[0].to_string(), "recipes/mash.toml: this is a folder, not a file. Put a file in its place, or take it away.");
    assert!(said[1].to_string().starts_with("weeks: the folder weeks cannot be read"), "{said:?}");
}

#[test]
fn an_unreadable_recipes_folder_is_the_one_mistake() {
    let week = "from = 2026-11-30\n[[meal]]\nday = \"mon\"\nat = \"supper\"\neach = [\"1 portion recipe:mash\"]\n";
    let folder = folder(&[("weeks/one.toml", week)]);
    fs::write(folder.path().join("recipes"), "").unwrap();
    let said = load(folder.path()).unwrap_err();
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(said[0].cause.starts_with("the folder recipes cannot be read"), "{said:?}");
}

#[test]
fn a_file_of_more_than_ten_million_bytes_is_refused_with_its_size() {
    let folder = folder(&[]);
    let file = fs::File::create(folder.path().join("foods.toml")).unwrap();
    file.set_len(10_000_001).unwrap();
    let said = load(folder.path()).unwrap_err();
    assert_eq!(said[0].cause, "this file has 10000001 bytes, more than the 10000000 that are read");
}

#[test]
fn the_nearest_kitchen_is_found_upwards() {
    let folder = folder(&[("recipes/deep/x.txt", "")]);
    assert_eq!(crate::kitchen::find_kitchen(&folder.path().join("recipes/deep")), Some(folder.path().to_owned()));
}

#[test]
fn what_refers_to_a_broken_file_is_not_a_mistake_too() {
    let files = [
        ("kitchen.toml", "[household\n"),
        ("recipes/dish.toml", &step("on = \"oven\"")),
        ("recipes/mash.toml", "name = “Mash”\n"),
        ("weeks/one.toml", "from = 2026-11-30\n[[meal]]\nday = \"mon\"\nat = \"tea\"\neach = [\"1 portion recipe:mash\"]\n"),
        ("pantry.toml", "[[lot]]\nrecipe = \"mash\"\namount = \"2 portions\"\nplace = \"fridge\"\n"),
    ];
    let said = mistakes(&files);
    assert_eq!(said.len(), 2, "{said:?}");
}

#[test]
fn a_new_kitchen_works_without_a_warning() {
    for today in [jiff::civil::date(2026, 11, 24), jiff::civil::date(2027, 2, 28), jiff::civil::date(2028, 2, 26)] {
        let files = crate::kitchen::starter(today);
        let files: Vec<(&str, &str)> = files.iter().map(|(path, text)| (*path, text.as_str())).collect();
        let loaded = loaded(&files);
        let warnings: Vec<String> = loaded.warnings.iter().map(|warning| warning.to_string()).collect();
        assert_eq!(warnings, Vec::<String>::new());
        assert!(loaded.weeks[0].1.trips[0].on >= today);
    }
}
