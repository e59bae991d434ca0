//! Chi-square, with critical values from outside.

/// Upper 0.001 values of chi-square. For 9, 19 and 99 degrees of freedom from the NIST/SEMATECH e-Handbook of Statistical
/// Methods, section 1.3.6.7.4 (the last two as given by `SciPy`); for others the Wilson-Hilferty approximation (Proceedings
/// of the National Academy of Sciences 17, 1931), which is within 0.2 of the table at these three.
pub fn critical(freedom: usize) -> f64 {
    match freedom {
        9 => 27.877,
        19 => 43.820,
        99 => 148.230,
        _ => wilson_hilferty(freedom),
    }
}

/// The approximation alone.
pub fn wilson_hilferty(freedom: usize) -> f64 {
    #[allow(clippy::cast_precision_loss, reason = "small")]
    let df = freedom as f64;
    // The upper 0.001 point of the standard normal distribution, 3.0902 (NIST/SEMATECH, section 1.3.6.7.1).
    let spread = 2.0 / (9.0 * df);
    df * (1.0 - spread + 3.0902 * spread.sqrt()).powi(3)
}

/// The sum over cells of (seen - wanted)^2 / wanted, with the same number wanted in each.
pub fn square(seen: &[u32], wanted: f64) -> f64 {
    seen.iter().map(|&n| (f64::from(n) - wanted).powi(2) / wanted).sum()
}
