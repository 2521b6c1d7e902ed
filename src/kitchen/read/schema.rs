//! The headings of each file and the keys that may stand under them.

/// A heading and its keys.
#[derive(Debug)]
pub(super) struct Heading {
    /// As a person writes it: `[[step]]`; empty for the top of the file.
    pub name: &'static str,
    pub keys: &'static [&'static str],
}

/// All headings of one kind of file, the top first.
#[derive(Debug)]
pub(super) struct Schema {
    pub headings: &'static [Heading],
}

macro_rules! schema {
    ($($name:literal: $($key:literal)*;)*) => {
        Schema { headings: &[$(Heading { name: $name, keys: &[$($key),*] }),*] }
    };
}

pub(super) static KITCHEN: Schema = schema! {
    "": "household" "print" "rules" "appliance" "staple";
    "[household]": "name" "eaters" "currency" "avoid" "budget" "mealtimes";
    "[print]": "paper" "units";
    "[rules]": "short_by" "choose" "spoons" "always" "ask" "ready_after" "boxing" "wash" "pace";
    "[[appliance]]": "name" "room" "heat" "near" "warm_up" "out" "holds";
    "[[staple]]": "food" "par" "when_below";
};

pub(super) static RECIPE: Schema = schema! {
    "": "name" "makes" "portion" "batches" "keeps" "made" "serve" "box" "ingredients" "step";
    "[keeps]": "fridge" "freezer" "cupboard";
    "[box]": "name" "holds";
    "[[ingredients]]": "food" "recipe" "amount" "prep";
    "[[step]]": "id" "text" "hands" "wait" "scales" "on" "takes" "temperature" "inside" "who" "skill" "after" "gap" "within" "ahead";
};

pub(super) static WEEK: Schema = schema! {
    "": "name" "from" "eaters" "trip" "session" "meal";
    "[[trip]]": "on" "shops";
    "[[session]]": "start" "finish_by" "people";
    "[[session.people]]": "name" "as" "from" "until" "may";
    "[[meal]]": "on" "day" "at" "name" "eaters" "each" "shared";
    "[[meal.each]]": "food" "recipe" "amount" "prep";
};

pub(super) static PANTRY: Schema = schema! {
    "": "lot";
    "[[lot]]": "food" "recipe" "amount" "place" "best_before" "use_by" "opened" "since" "made";
};

pub(super) static SHOPS: Schema = schema! {
    "": "shop" "pack";
    "[[shop]]": "name" "sections" "trip";
    "[[pack]]": "shop" "food" "size" "drained" "price" "section" "offer" "seen" "loose" "step";
    "[pack.offer]": "buy" "pay";
};

/// Besides these, a food takes any kitchen word (clove, bunch, ...) as a key.
pub(super) static FOODS: Schema = schema! {
    "": "food";
    "[[food]]": "name" "also" "kind" "section" "cup" "each" "edible" "cooked" "drained" "cut" "cooks" "keeps" "thaw" "allergens" "per_100g" "source";
    "[food.keeps]": "cupboard" "fridge" "freezer" "opened";
    "[food.per_100g]": "kcal" "protein" "carbohydrate" "fat" "fibre" "sodium";
};

/// A count sheet: a lot that a person adds may have its amount under the key of pantry.toml.
pub(super) static COUNT: Schema = schema! {
    "": "lot";
    "[[lot]]": "food" "recipe" "place" "best_before" "use_by" "opened" "since" "made" "booked" "counted" "amount";
};

/// A goods-in sheet.
pub(super) static GOODS: Schema = schema! {
    "": "from" "trip" "also" "line";
    "[[line]]": "food" "packs" "instead" "without" "paid" "until";
};

impl Schema {
    /// The heading of that name. Headings are named by this room alone, so a wrong one is a slip of ours that any test finds.
    pub fn heading(&self, name: &str) -> &Heading {
        self.headings.iter().find(|heading| heading.name == name).unwrap_or(&self.headings[0])
    }

    /// How a key at the top of the file is written: `[rules]`, `[[step]]`, or plainly.
    pub fn written(&self, key: &str) -> String {
        let forms = [format!("[{key}]"), format!("[[{key}]]")];
        forms.into_iter().find(|form| self.headings.iter().any(|heading| heading.name == form)).unwrap_or_else(|| format!("\"{key}\""))
    }
}

/// Every kind of file.
#[cfg(test)]
pub(super) static ALL: [&Schema; 8] = [&KITCHEN, &RECIPE, &WEEK, &PANTRY, &SHOPS, &FOODS, &COUNT, &GOODS];
