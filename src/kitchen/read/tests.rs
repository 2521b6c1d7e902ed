//! The promises of the reading room, one file a kind of promise.
