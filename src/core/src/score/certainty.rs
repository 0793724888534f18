//! How sure a share is: Wilson's interval.
//!
//! One good run may be luck. Of `n` opportunities `r` were clean; the true share lies in this
//! interval with 95 % confidence. Few opportunities give a wide one.

/// The 0.975 quantile of the standard normal distribution.
pub const Z_95: f64 = 1.959963984540054;

/// Lower and upper end of Wilson's 95 % interval for `r` out of `n`; None without an opportunity
/// or with more hits than opportunities.
///
/// E. B. Wilson 1927; formula as in R. G. Newcombe, Statistics in Medicine 17, 1998, 857-872.
pub fn wilson(r: u32, n: u32) -> Option<(f64, f64)> {
    if n == 0 || r > n {
        return None;
    }
    let (r, n, z) = (f64::from(r), f64::from(n), Z_95);
    let p = r / n;
    let middle = 2.0 * n * p + z * z;
    let half = z * (z * z + 4.0 * n * p * (1.0 - p)).sqrt();
    let below = 2.0 * (n + z * z);
    // At the ends the exact value is 0 or 1; rounding must not say otherwise.
    let lower = if r == 0.0 { 0.0 } else { (middle - half) / below };
    let upper = if r == n { 1.0 } else { (middle + half) / below };
    Some((lower, upper))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// R. G. Newcombe, Two-sided confidence intervals for the single proportion: comparison of
    /// seven methods, Statistics in Medicine 17, 1998, 857-872, Table I, score method without
    /// continuity correction, as printed to four decimals.
    #[test]
    fn the_published_examples_come_out() {
        for (r, n, lower, upper) in [
            (81, 263, 0.2553, 0.3662),
            (15, 148, 0.0624, 0.1605),
            (0, 20, 0.0000, 0.1611),
            (1, 29, 0.0061, 0.1718),
        ] {
            let (l, u) = wilson(r, n).expect("r is not above n");
            assert!((l - lower).abs() <= 0.00005 && (u - upper).abs() <= 0.00005, "{r}/{n}");
        }
    }

    /// Computed with the exact quantile by three independent programs that agree to 1e-12; see
    /// the design notes on the score interval.
    #[test]
    fn more_digits_come_out() {
        for (r, n, lower, upper) in [
            (81, 263, 0.2552885199, 0.3662095770),
            (15, 148, 0.0623863995, 0.1604872417),
            (5, 10, 0.2365930905, 0.7634069095),
            (10, 10, 0.7224672001, 1.0),
            (23, 60, 0.2708827237, 0.5098240418),
        ] {
            let (l, u) = wilson(r, n).expect("r is not above n");
            assert!((l - lower).abs() < 1e-10 && (u - upper).abs() < 1e-10, "{r}/{n}");
        }
    }

    #[test]
    fn the_ends_are_exact_and_nothing_says_nothing() {
        assert_eq!(wilson(0, 20).map(|i| i.0), Some(0.0));
        assert_eq!(wilson(20, 20).map(|i| i.1), Some(1.0));
        assert_eq!(wilson(0, 0), None);
        assert_eq!(wilson(2, 1), None);
    }
}
