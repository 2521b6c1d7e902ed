//! Numbers from a seed: the same seed, the same numbers.

/// SplitMix64 (Steele, Lea and Flood, Fast splittable pseudorandom number generators, 2014): small, and the same everywhere.
pub struct Dice(pub u64);

impl Dice {
    /// From `least` to `most`, both included.
    pub fn between(&mut self, least: i64, most: i64) -> i64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        least + ((mixed ^ (mixed >> 31)) % (most - least + 1) as u64) as i64
    }
}
