//! A number for every pair of pieces, the same from either side.

/// One row and one column for each piece.
#[derive(Clone, Debug)]
pub(super) struct Pairs {
    count: usize,
    values: Vec<f64>,
}

impl Pairs {
    pub(super) fn new(count: usize, value: f64) -> Self {
        Self { count, values: vec![value; count * count] }
    }

    pub(super) fn get(&self, i: usize, j: usize) -> f64 {
        self.values[i * self.count + j]
    }

    pub(super) fn set(&mut self, i: usize, j: usize, value: f64) {
        self.values[i * self.count + j] = value;
        self.values[j * self.count + i] = value;
    }

    pub(super) fn row(&self, i: usize) -> impl Iterator<Item = f64> + '_ {
        self.values[i * self.count..(i + 1) * self.count].iter().copied()
    }

    pub(super) fn fill(&mut self, value: f64) {
        self.values.fill(value);
    }

    pub(super) fn change(&mut self, to: impl Fn(usize, usize, f64) -> f64) {
        let count = self.count;
        for (at, value) in self.values.iter_mut().enumerate() {
            *value = to(at / count, at % count, *value);
        }
    }

    /// Over all pairs.
    pub(super) fn sum_and_most(&self) -> (f64, f64) {
        (0.5 * self.values.iter().sum::<f64>(), self.values.iter().copied().fold(0.0, f64::max))
    }
}
