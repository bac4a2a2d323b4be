//! From a pull test to the pressure of an elastic on the body.
//!
//! A figure from here is an indicative average over a round, rigid body in full contact. Sensors
//! read up to 42 % lower on people (J. Wound Care 30(4), 2021): it promises nothing, and it is no
//! medical advice.

use crate::quantity::Ratio;

/// Newton per gram-force (standard gravity, NIST SP 811).
pub const NEWTON_PER_GRAM_FORCE: f64 = 9.806_65e-3;

/// Contact pressure of a band under tension round a girth: P = 2πT/(C·w), after Laplace, with the
/// full width in contact. Tension in newton, girth and width in mm, pressure in kPa.
pub fn laplace(tension_n: f64, girth: f64, width: f64) -> f64 {
    // N/mm² is MPa.
    1e3 * 2.0 * std::f64::consts::PI * tension_n / (girth * width)
}

/// A pull test of one flat strip: stretch in percent against tension in newton.
#[derive(Clone, Debug, PartialEq)]
pub struct Pull(Vec<(f64, f64)>);

impl Pull {
    /// Of a test in rising order of stretch, in grams-force. An unstretched strip pulls nothing.
    pub fn of(test: &[(Ratio, f64)]) -> Self {
        let mut points: Vec<(f64, f64)> = Vec::new();
        if !test.is_empty() {
            points.push((0.0, 0.0));
        }
        for (stretch, grams) in test {
            let point = (stretch.percent(), grams * NEWTON_PER_GRAM_FORCE);
            if points.last().is_some_and(|last| point.0 > last.0) {
                points.push(point);
            }
        }
        Self(points)
    }

    /// The stretches between which it was tested, percent.
    pub fn range(&self) -> Option<(f64, f64)> {
        Some((self.0.first()?.0, self.0.last()?.0))
    }

    /// Tension at a stretch in percent, newton; none without a test, or outside it.
    ///
    /// Monotone cubic interpolation (Fritsch & Carlson 1980, SIAM J. Numer. Anal. 17(2), with the
    /// three-point slopes of Fritsch & Butland 1984): it never overshoots a measured force.
    pub fn tension(&self, stretch: f64) -> Option<f64> {
        let (least, most) = self.range()?;
        // What is not stretched does not pull.
        if stretch <= least {
            return Some(0.0);
        }
        if stretch > most {
            return None;
        }
        let i = self.0.windows(2).position(|w| stretch <= w[1].0)?;
        let ((x0, y0), (x1, y1)) = (self.0[i], self.0[i + 1]);
        let (h, t) = (x1 - x0, (stretch - x0) / (x1 - x0));
        let (m0, m1) = (self.slope(i), self.slope(i + 1));
        let (t2, t3) = (t * t, t * t * t);
        Some(
            (2.0 * t3 - 3.0 * t2 + 1.0) * y0
                + (t3 - 2.0 * t2 + t) * h * m0
                + (3.0 * t2 - 2.0 * t3) * y1
                + (t3 - t2) * h * m1,
        )
    }

    fn secant(&self, i: usize) -> (f64, f64) {
        let ((x0, y0), (x1, y1)) = (self.0[i], self.0[i + 1]);
        (x1 - x0, (y1 - y0) / (x1 - x0))
    }

    /// The slope at a point of the test.
    fn slope(&self, i: usize) -> f64 {
        let last = self.0.len() - 1;
        if last == 1 {
            return self.secant(0).1;
        }
        if i == 0 {
            return end_slope(self.secant(0), self.secant(1));
        }
        if i == last {
            return end_slope(self.secant(last - 1), self.secant(last - 2));
        }
        let ((h0, d0), (h1, d1)) = (self.secant(i - 1), self.secant(i));
        if d0 * d1 <= 0.0 {
            return 0.0;
        }
        let (w0, w1) = (2.0 * h1 + h0, h1 + 2.0 * h0);
        (w0 + w1) / (w0 / d0 + w1 / d1)
    }
}

/// A one-sided slope that keeps the shape.
fn end_slope((h0, d0): (f64, f64), (h1, d1): (f64, f64)) -> f64 {
    let slope = ((2.0 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
    if slope * d0 <= 0.0 {
        0.0
    } else if d0 * d1 <= 0.0 && slope.abs() > 3.0 * d0.abs() {
        3.0 * d0
    } else {
        slope
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Pascal per mmHg (NIST SP 811).
    const MMHG: f64 = 0.133_322;

    /// T in N, C and w in mm, then kPa and mmHg: worked out by hand from the formula, as printed.
    #[test]
    fn the_table_of_pressures_comes_out_to_its_digits() {
        let table = [
            (1.0, 700.0, 10.0, "0.898", "6.73"),
            (2.0, 560.0, 10.0, "2.244", "16.83"),
            (2.0, 600.0, 8.0, "2.618", "19.64"),
            (3.0, 720.0, 25.0, "1.047", "7.85"),
            (5.0, 700.0, 30.0, "1.496", "11.22"),
            (9.80665, 250.0, 100.0, "2.465", "18.49"),
        ];
        for (t, c, w, kpa, mmhg) in table {
            let p = laplace(t, c, w);
            assert_eq!((format!("{p:.3}"), format!("{:.2}", p / MMHG)), (kpa.to_owned(), mmhg.to_owned()));
        }
    }

    /// The form used in clinics, P[mmHg] = 4621.67·T[kgf]/(C[cm]·w[cm]), follows from the units.
    #[test]
    fn the_clinical_form_is_the_same_law() {
        let factor = laplace(1e3 * NEWTON_PER_GRAM_FORCE, 10.0, 10.0) / MMHG;
        assert!((factor - 4621.67).abs() < 0.01, "{factor}");
    }

    /// One gram-force per square centimetre is 98.0665 Pa (NIST SP 811).
    #[test]
    fn grams_force_are_the_standard_ones() {
        assert!((NEWTON_PER_GRAM_FORCE / 1e-4 - 98.0665).abs() < 1e-9);
    }

    fn pull() -> Pull {
        Pull::of(&[(25.0, 60.0), (50.0, 110.0), (100.0, 220.0)].map(|(s, g)| (Ratio::from_percent(s), g)))
    }

    #[test]
    fn measured_forces_come_back_and_nothing_lies_outside_its_neighbours() {
        let pull = pull();
        let grams = |s: f64| pull.tension(s).expect("inside the test") / NEWTON_PER_GRAM_FORCE;
        for (s, g) in [(0.0, 0.0), (25.0, 60.0), (50.0, 110.0), (100.0, 220.0)] {
            assert!((grams(s) - g).abs() < 1e-9);
        }
        let values: Vec<f64> = (0..=1000).map(|i| grams(f64::from(i) * 0.1)).collect();
        assert!(values.windows(2).all(|w| w[1] > w[0]), "force grows with stretch");
    }

    /// scipy 1.17 `PchipInterpolator([0,25,50,100],[0,60,110,220])` at 10, 37.5 and 80.
    #[test]
    fn it_agrees_with_another_monotone_interpolation() {
        let pull = pull();
        for (s, g) in PCHIP {
            let ours = pull.tension(s).expect("inside") / NEWTON_PER_GRAM_FORCE;
            assert!((ours - g).abs() < 1e-9, "{s}: {ours} against {g}");
        }
    }

    const PCHIP: [(f64, f64); 3] =
        [(10.0, 25.243_636_363_636_36), (37.5, 85.305_023_923_444_98), (80.0, 174.484_210_526_315_8)];

    #[test]
    fn it_says_nothing_beyond_the_test() {
        assert_eq!(pull().tension(100.1), None);
        assert_eq!(pull().tension(-3.0), Some(0.0));
        assert_eq!(Pull::of(&[]).tension(10.0), None);
    }
}
