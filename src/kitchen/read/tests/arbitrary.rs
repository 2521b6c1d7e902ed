use super::*;
use crate::kitchen::keys::FILES as FILES_KNOWN;
use proptest::prelude::*;

const FILES: [&str; 6] = ["kitchen.toml", "foods.toml", "shops.toml", "pantry.toml", "recipes/dish.toml", "weeks/one.toml"];

/// Lines that look like the real thing often enough to reach deep into the readers.
fn scraps() -> impl Strategy<Value = String> {
    let keys: Vec<&str> = FILES_KNOWN.iter().flat_map(|file| file.headings).flat_map(|heading| heading.names()).collect();
    let headings: Vec<&str> = FILES_KNOWN.iter().flat_map(|file| file.headings).map(|heading| heading.name).collect();
    let values = prop::sample::select(vec![
        "\"350 g\"",
        "\"dish\"",
        "\"recipe:dish\"",
        "3",
        "-1",
        "1e300",
        "nan",
        "9999-12-31",
        "0001-01-01",
        "9999-12-31T23:59",
        "23:59",
        "\"mon\"",
        "true",
        "[]",
        "[\"1 portion recipe:dish\"]",
        "[[1]]",
        "{ a = 1 }",
        "\"{onion: 2}\"",
        "\"\"\"\n1 onion\\\n\n2\"\"\"",
        "\"٣ ½ g é\"",
        "\"supper\"",
        "\"99999999999 h\"",
    ]);
    let line = prop_oneof![
        3 => (prop::sample::select(keys), values).prop_map(|(key, value)| format!("{key} = {value}")),
        1 => prop::sample::select(headings).prop_map(str::to_owned),
        1 => "\\PC{0,20}",
    ];
    prop::collection::vec(line, 0..14).prop_map(|lines| lines.join("\n"))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn scraps_of_any_file_never_panic(file in prop::sample::select(FILES.to_vec()), text in scraps()) {
        let _ = load(folder(&[("recipes/barley.toml", BARLEY), (file, &text)]).path());
    }

    #[test]
    fn bytes_of_any_kind_never_panic(file in prop::sample::select(FILES.to_vec()), bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        let folder = folder(&[("recipes/barley.toml", BARLEY), (file, "")]);
        fs::write(folder.path().join(file), bytes).unwrap();
        let _ = load(folder.path());
    }
}

#[test]
fn brackets_within_brackets_never_exhaust_the_stack() {
    let deep = format!("name = {}", "[".repeat(100_000));
    assert!(!mistakes(&[("recipes/dish.toml", &deep)]).is_empty());
}
