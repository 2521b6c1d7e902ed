//! A fixed sequence of numbers that look random: every run draws the same (splitmix64, Steele, Lea and Flood 2014).

#[derive(Debug, Clone)]
pub(super) struct Draw(u64);

impl Draw {
    pub fn new(seed: u64) -> Draw {
        Draw(seed)
    }

    /// From 0 to `count - 1`; 0 where there is nothing to choose.
    pub fn below(&mut self, count: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((mixed ^ (mixed >> 31)) % count.max(1) as u64) as usize
    }
}
