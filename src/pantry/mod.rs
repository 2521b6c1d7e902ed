//! Lots, and netting: first expired, first out.
