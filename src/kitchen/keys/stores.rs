//! Keys of pantry.toml and of shops.toml.

use super::Default::{Is, None, Required};
use super::Shape::*;
use super::{File, heading, key};

pub(in crate::kitchen) static PANTRY: File = File {
    name: "pantry",
    path: "pantry.toml",
    headings: &[
        heading("", &[key("lot", Tables("[[lot]]"), None, "what is on the shelf now", "[]")]),
        heading(
            "[[lot]]",
            &[
                key("food", Name, None, "the food; or recipe, one of the two", "\"pearl barley\""),
                key("recipe", Name, None, "the id of a recipe: cooked portions", "\"pearl-barley\""),
                key("eater", Name, None, "of a recipe: whose it is alone; no other meal takes it", "\"Emil\""),
                key("without", Names, None, "of what is one eater's: what it lacks, foods or recipes", "[\"tahini\"]"),
                key("amount", Amount, Required, "how much of it", "\"350 g\""),
                key("place", OneOf(&["cupboard", "fridge", "freezer"]), Required, "where it lies", "\"cupboard\""),
                key("best_before", Date, None, "the date of quality on the pack", "2027-03-01"),
                key("use_by", Date, None, "the date of safety on the pack; not drawn after it", "2026-12-04"),
                key("opened", Date, None, "when it was opened; then the food's opened keeping counts, too", "2026-11-02"),
                key("since", Date, None, "since when it lies there; counts where there is no other date", "2026-11-02"),
                key("made", Date, None, "when it was cooked", "2026-11-29"),
            ],
        ),
    ],
};

pub(in crate::kitchen) static SHOPS: File = File {
    name: "shops",
    path: "shops.toml",
    headings: &[
        heading(
            "",
            &[
                key("shop", Tables("[[shop]]"), None, "where you buy", "[]"),
                key("pack", Tables("[[pack]]"), None, "what is sold there, in which sizes, at which price", "[]"),
            ],
        ),
        heading(
            "[[shop]]",
            &[
                key("name", Name, Required, "its name", "\"Quay market\""),
                key("sections", Names, Is("[]"), "its sections in walking order", "[\"Vegetables\", \"Tins\"]"),
                key("trip", Money, Is("\"0.00\""), "what one visit costs, fare or effort", "\"1.50\""),
            ],
        ),
        heading(
            "[[pack]]",
            &[
                key("shop", Name, Required, "the shop that sells it", "\"Quay market\""),
                key("food", Name, Required, "the food", "\"tinned white beans\""),
                key("size", Amount, None, "the size of one pack; or loose = true", "\"400 g\""),
                key("drained", Weight, None, "what counts towards a need stated as drained", "\"240 g\""),
                key("price", Money, None, "of one pack; of loose goods \"1.40 / kg\" or \"0.35 / each\"", "0.89"),
                key("section", Name, Is("the food's own"), "where it stands in this shop", "\"Tins\""),
                key("offer", Table("[pack.offer]"), None, "any so many for so much, again and again", "{ buy = 3, pay = 2.00 }"),
                key("seen", Date, None, "when the price was seen", "2026-11-02"),
                key("loose", TrueFalse, Is("false"), "sold by weight or by the piece", "true"),
                key("step", Amount, Is("1 g, 1 ml or 1 piece"), "loose amounts are rounded up to this", "\"100 g\""),
            ],
        ),
        heading(
            "[pack.offer]",
            &[
                key("buy", WholeNumber, Required, "how many packs", "3").within("2", "1000"),
                key("pay", Money, Required, "what they cost together", "2.00"),
            ],
        ),
    ],
};
