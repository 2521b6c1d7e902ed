//! One file a verb, thin: parse, call one library function, print.
