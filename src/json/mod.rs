//! The only room that writes the JSON of answers, and reads what was printed back to ids. It knows shapes and spellings, and no rule.

pub mod prep;
