//! Type and layout: plain rectangles, rules and runs of text, and one small file that turns a page into PDF.
