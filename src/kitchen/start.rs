//! The files of a new kitchen: short, commented, and already working. Each names its JSON Schema in the first line, as TOML editors know
//! it. Nothing is written here.

use jiff::ToSpan;
use jiff::civil::{Date, Weekday};

/// Path in the new folder, and the template of its text.
static TEMPLATES: [(&str, &str); 8] = [
    ("kitchen.toml", include_str!("starter/kitchen.toml")),
    ("foods.toml", include_str!("starter/foods.toml")),
    ("shops.toml", include_str!("starter/shops.toml")),
    ("pantry.toml", include_str!("starter/pantry.toml")),
    ("recipes/pearl-barley.toml", include_str!("starter/pearl-barley.toml")),
    ("recipes/roast-beetroot-and-carrots.toml", include_str!("starter/roast-beetroot-and-carrots.toml")),
    ("recipes/white-bean-mash.toml", include_str!("starter/white-bean-mash.toml")),
    ("weeks/first-week.toml", include_str!("starter/week.toml")),
];

/// Every file of a new kitchen with its path, relative and with forward slashes. Its week is the first whose Saturday lies on or after
/// `today`, so that shopping and cooking are still to come.
///
/// ```
/// use jiff::civil::date;
/// let files = spence::kitchen::starter(date(2026, 11, 26));
/// let week = files.iter().find(|(path, _)| *path == "weeks/first-week.toml");
/// assert!(week.is_some_and(|(_, text)| text.contains("from = 2026-11-30")));
/// ```
pub fn starter(today: Date) -> Vec<(&'static str, String)> {
    let days_to_saturday = today.weekday().until(Weekday::Saturday);
    let after = |days: i64| today.saturating_add(days.days());
    let saturday = i64::from(days_to_saturday);
    let dates = [
        ("@saturday@", after(saturday)),
        ("@sunday@", after(saturday + 1)),
        ("@monday@", after(saturday + 2)),
        ("@later@", after(saturday + 120)),
    ];
    let filled = |template: &str| dates.iter().fold(template.to_owned(), |text, (mark, date)| text.replace(mark, &date.to_string()));
    TEMPLATES.iter().map(|(path, template)| (*path, format!("{}{}", schema_comment(path), filled(template)))).collect()
}

/// `#:schema ../schemas/recipe.schema.json` and a line end.
fn schema_comment(path: &str) -> String {
    let (up, kind) = match path.split_once('/') {
        Some((folder, _)) => ("../", folder.trim_end_matches('s')),
        None => ("", path.trim_end_matches(".toml")),
    };
    format!("#:schema {up}schemas/{kind}.schema.json\n")
}
