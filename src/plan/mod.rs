//! Week -> makings in cooking sessions -> dated demand.

mod making;

pub use making::{Boxed, Demand, Draw, DrawOf, Kept, MadeAt, Making, Makings, Move, Need, NeedUse, Spare, Stated, Use, User};
