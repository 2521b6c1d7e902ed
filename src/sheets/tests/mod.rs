//! The sheets as plain rectangles and runs of text; the PDF only as what is read back from it.

mod absurd;
mod afternoon;
mod checks;
mod count;
mod faces;
mod flow;
mod guide;
mod handout;
mod labels;
mod list;
mod mark;
mod pages;
mod pdf;
mod recipes;
mod sample;
mod week_card;
