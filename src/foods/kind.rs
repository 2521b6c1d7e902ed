//! What a food is, as far as a rule of safety or of cooking asks.

/// The kind of a food. Files name it by the words of [`Kind::ALL`]; there is no other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    Vegetable,
    Fruit,
    Herb,
    Spice,
    Grain,
    Pulse,
    Nut,
    Seed,
    Oil,
    Fat,
    Dairy,
    RawEgg,
    RawPoultry,
    RawMincedMeat,
    RawMeat,
    RawFish,
    RawSeafood,
    CookedEgg,
    CookedMeat,
    CookedFish,
    Bread,
    Baking,
    Sweetener,
    Sauce,
    Condiment,
    Stock,
    PlantProtein,
    Drink,
    Water,
    ReadyToEat,
    Household,
}

impl Kind {
    /// Every kind, in its order, with the words that files and cards have for it.
    pub const ALL: [(Kind, &str); 31] = [
        (Kind::Vegetable, "vegetable"),
        (Kind::Fruit, "fruit"),
        (Kind::Herb, "herb"),
        (Kind::Spice, "spice"),
        (Kind::Grain, "grain"),
        (Kind::Pulse, "pulse"),
        (Kind::Nut, "nut"),
        (Kind::Seed, "seed"),
        (Kind::Oil, "oil"),
        (Kind::Fat, "fat"),
        (Kind::Dairy, "dairy"),
        (Kind::RawEgg, "raw egg"),
        (Kind::RawPoultry, "raw poultry"),
        (Kind::RawMincedMeat, "raw minced meat"),
        (Kind::RawMeat, "raw meat"),
        (Kind::RawFish, "raw fish"),
        (Kind::RawSeafood, "raw seafood"),
        (Kind::CookedEgg, "cooked egg"),
        (Kind::CookedMeat, "cooked meat"),
        (Kind::CookedFish, "cooked fish"),
        (Kind::Bread, "bread"),
        (Kind::Baking, "baking"),
        (Kind::Sweetener, "sweetener"),
        (Kind::Sauce, "sauce"),
        (Kind::Condiment, "condiment"),
        (Kind::Stock, "stock"),
        (Kind::PlantProtein, "plant protein"),
        (Kind::Drink, "drink"),
        (Kind::Water, "water"),
        (Kind::ReadyToEat, "ready to eat"),
        (Kind::Household, "household"),
    ];

    /// The words alone.
    pub const NAMES: [&'static str; Self::ALL.len()] = {
        let mut names = [""; Self::ALL.len()];
        let mut index = 0;
        while index < names.len() {
            names[index] = Self::ALL[index].1;
            index += 1;
        }
        names
    };

    pub fn name(self) -> &'static str {
        Self::ALL[self as usize].1
    }

    /// The name without its "raw": "poultry".
    pub fn name_once_cooked(self) -> &'static str {
        self.name().trim_start_matches("raw ")
    }

    /// The kind of these words, in any letter case; `None` where there is none.
    pub fn named(words: &str) -> Option<Kind> {
        Self::ALL.iter().find(|(_, name)| name.eq_ignore_ascii_case(words.trim())).map(|(kind, _)| *kind)
    }

    /// Raw food of animals. It is kept apart from what is ready to eat; hands, board and knife are washed after it.
    ///
    /// Source: USDA FSIS, "Be Food Safe: Separate": raw meat, poultry, seafood and eggs.
    pub fn is_raw(self) -> bool {
        self == Kind::RawEgg || self.is_raw_flesh()
    }

    /// Raw meat, poultry, fish or seafood.
    pub fn is_raw_flesh(self) -> bool {
        matches!(self, Kind::RawPoultry | Kind::RawMincedMeat | Kind::RawMeat) || self.is_raw_fish()
    }

    /// Raw fish or seafood.
    pub fn is_raw_fish(self) -> bool {
        matches!(self, Kind::RawFish | Kind::RawSeafood)
    }

    /// Swells as it cooks. Common practice, no source.
    pub fn swells(self) -> bool {
        matches!(self, Kind::Pulse | Kind::Grain)
    }
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;

    #[test]
    fn every_kind_is_known_by_its_own_name() {
        for (kind, name) in Kind::ALL {
            assert_eq!((kind.name(), Kind::named(name)), (name, Some(kind)));
        }
        assert_eq!(Kind::named(" Raw Poultry "), Some(Kind::RawPoultry));
        assert_eq!(Kind::named("raw poulty"), None);
    }

    #[test]
    fn what_is_called_raw_is_raw() {
        for (kind, name) in Kind::ALL {
            assert_eq!(kind.is_raw(), name.starts_with("raw "), "{name}");
        }
    }
}
