//! Keys of the sheets that are filled in: what was counted, what a trip brought.

use super::Default::{None, Required};
use super::Shape::*;
use super::{File, heading, key};

/// A lot that a person adds may have its amount under the key of pantry.toml.
pub(in crate::kitchen) static COUNT: File = File {
    name: "count",
    path: "count-*.toml",
    headings: &[
        heading("", &[key("lot", Tables("[[lot]]"), None, "the lots of the shelf; one added by hand is new", "[]")]),
        heading(
            "[[lot]]",
            &[
                key("food", Name, None, "the food; or recipe, one of the two", "\"pearl barley\""),
                key("recipe", Name, None, "the id of a recipe: cooked portions", "\"pearl-barley\""),
                key("eater", Name, None, "of a recipe: whose it is alone; no other meal takes it", "\"Emil\""),
                key("without", Names, None, "of what is one eater's: what it lacks, foods or recipes", "[\"tahini\"]"),
                key("place", OneOf(&["cupboard", "fridge", "freezer"]), Required, "where it lies", "\"cupboard\""),
                key("best_before", Date, None, "the date of quality on the pack", "2027-03-01"),
                key("use_by", Date, None, "the date of safety on the pack", "2026-12-04"),
                key("opened", Date, None, "when it was opened", "2026-11-02"),
                key("since", Date, None, "since when it lies there", "2026-11-02"),
                key("made", Date, None, "when it was cooked", "2026-11-29"),
                key("booked", Text, None, "what the book has; leave it as it is", "\"350 g\""),
                key("counted", Text, None, "what is there: blank is unchanged, 0 is gone", "\"300 g\""),
                key("amount", Amount, None, "of a lot added by hand, in place of counted", "\"1 kg\""),
            ],
        ),
    ],
};

pub(in crate::kitchen) static GOODS: File = File {
    name: "goods",
    path: "a goods-in sheet",
    headings: &[
        heading(
            "",
            &[
                key("from", Date, Required, "the from of the week", "2026-11-30"),
                key("trip", Date, Required, "the day of the trip", "2026-11-28"),
                key("hash", Text, None, "the list that it was copied from; leave it as it is", "\"0f3a55c1d2e4\""),
                key("also", Texts, None, "what was bought besides", "[\"1 kg onions at 1.20\"]"),
                key("line", Tables("[[line]]"), None, "the lines of the list", "[]"),
            ],
        ),
        heading(
            "[[line]]",
            &[
                key("food", Name, Required, "the food of the line", "\"feta\""),
                key("packs", Text, None, "what the list says; leave it as it is", "\"1 x 200 g\""),
                key("instead", Text, None, "what was bought in its place", "\"2 x 150 g\""),
                key("without", TrueFalse, None, "true where it was not got", "true"),
                key("paid", Money, None, "what the whole line cost", "\"2.49\""),
                key("until", Date, None, "the date on the pack", "2026-12-04"),
            ],
        ),
    ],
};
