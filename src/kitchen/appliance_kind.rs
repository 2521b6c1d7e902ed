//! What kind of appliance it is: given, or guessed from its name.

/// The kinds that methods and rules speak of; all of them heat.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ApplianceKind {
    Oven,
    Hob,
    Grill,
    Microwave,
    Pressure,
    Slow,
    Rice,
    Steamer,
}

impl ApplianceKind {
    /// Every kind with the word that files have for it.
    pub const ALL: [(ApplianceKind, &str); 8] = [
        (ApplianceKind::Oven, "oven"),
        (ApplianceKind::Hob, "hob"),
        (ApplianceKind::Grill, "grill"),
        (ApplianceKind::Microwave, "microwave"),
        (ApplianceKind::Pressure, "pressure cooker"),
        (ApplianceKind::Slow, "slow cooker"),
        (ApplianceKind::Rice, "rice cooker"),
        (ApplianceKind::Steamer, "steamer"),
    ];

    /// As [`ApplianceKind::ALL`], the word first.
    pub(crate) const BY_NAME: [(&'static str, ApplianceKind); 8] = {
        let mut turned = [("", ApplianceKind::Oven); 8];
        let mut index = 0;
        while index < 8 {
            turned[index] = (Self::ALL[index].1, Self::ALL[index].0);
            index += 1;
        }
        turned
    };

    /// The words alone.
    pub const NAMES: [&'static str; 8] = ["oven", "hob", "grill", "microwave", "pressure cooker", "slow cooker", "rice cooker", "steamer"];

    pub fn name(self) -> &'static str {
        Self::ALL[self as usize].1
    }

    /// The kind that a name tells: "small oven", "microwave oven", "gas stove". `None` where it tells none.
    ///
    /// ```
    /// use spence::kitchen::ApplianceKind;
    /// assert_eq!(ApplianceKind::of_name("Microwave oven"), Some(ApplianceKind::Microwave));
    /// assert_eq!(ApplianceKind::of_name("gas stove"), Some(ApplianceKind::Hob));
    /// assert_eq!(ApplianceKind::of_name("blender"), None);
    /// ```
    pub fn of_name(name: &str) -> Option<ApplianceKind> {
        let name = name.to_lowercase();
        TOLD.iter().find(|(word, _)| name.contains(word)).map(|(_, kind)| *kind)
    }
}

/// Words in an appliance's name; the first that fits counts, so a microwave oven is no oven.
const TOLD: [(&str, ApplianceKind); 16] = [
    ("microwave", ApplianceKind::Microwave),
    ("pressure", ApplianceKind::Pressure),
    ("slow cooker", ApplianceKind::Slow),
    ("rice cooker", ApplianceKind::Rice),
    ("steamer", ApplianceKind::Steamer),
    ("grill pan", ApplianceKind::Hob),
    ("grill", ApplianceKind::Grill),
    ("broiler", ApplianceKind::Grill),
    ("oven", ApplianceKind::Oven),
    ("hob", ApplianceKind::Hob),
    ("stove", ApplianceKind::Hob),
    ("cooktop", ApplianceKind::Hob),
    ("ring", ApplianceKind::Hob),
    ("hotplate", ApplianceKind::Hob),
    ("hot plate", ApplianceKind::Hob),
    ("burner", ApplianceKind::Hob),
];
