//! Keys of an ingredient line that is written as a table, alike wherever lines stand.

use super::Default::None;
use super::Shape::*;
use super::{Heading, Key, heading, key};

const LINE: &[Key] = &[
    key("food", Name, None, "the food; or recipe, one of the two", "\"white beans\""),
    key("recipe", Name, None, "the id of another recipe", "\"herb-yoghurt\""),
    key("amount", Amount, None, "how much of it; without, to taste", "\"200 g\""),
    key("prep", Text, None, "what is done to it: the part after the comma of a line", "\"drained\""),
];

pub(super) const fn line(name: &'static str) -> Heading {
    heading(name, LINE)
}
