//! The sheets as plain rectangles and runs of text; the PDF only as what is read back from it.

mod absurd;
mod checks;
mod count;
mod flow;
mod guide;
mod list;
mod pdf;
mod sample;
