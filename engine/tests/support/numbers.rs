//! Seeded numbers: the same on every machine, every time.

/// SplitMix64 (Steele, Lea & Flood 2014, "Fast splittable pseudorandom number generators").
pub struct Numbers(u64);

impl Numbers {
    pub fn seeded(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Evenly spread from 0 to under 1.
    pub fn unit(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Evenly spread between two numbers.
    pub fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.unit()
    }

    /// About normal, by twelve even numbers: no further out than six deviations.
    pub fn normal(&mut self, mean: f64, deviation: f64) -> f64 {
        let sum: f64 = (0..12).map(|_| self.unit()).sum();
        mean + deviation * (sum - 6.0)
    }

    /// One of a list.
    pub fn pick<'a, T>(&mut self, list: &'a [T]) -> &'a T {
        &list[(self.unit() * list.len() as f64) as usize]
    }
}
