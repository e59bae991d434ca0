//! Exact lengths.
//!
//! Owns the one number type that a distance on paper may have. Whole millimetres, hundredths of a millimetre, whole and
//! tenth points and common fractions of an inch are all whole counts of the raw unit, so sums are exact, "fits" is `<=`,
//! and every machine agrees.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Mul, Neg, Sub, SubAssign};

use crate::diag::Problem;
use crate::measure::count::Count;

/// A length on paper, signed, exact to 1/36,000 mm.
///
/// The raw unit is 1/914,400 inch: 36,000 to the millimetre, 12,700 to the point (1/72 in). It is the unit that
/// ECMA-376 (part 1, section 20.1.2.1) uses for the same reason.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Length(i64);

const PER_MM: i64 = 36_000;
const PER_PT: i64 = 12_700;
const PER_IN: i64 = 914_400;

impl Length {
    /// No length at all.
    pub const ZERO: Self = Self(0);

    /// Whole millimetres.
    pub const fn mm(millimetres: i64) -> Self {
        Self(millimetres * PER_MM)
    }

    /// Hundredths of a millimetre: `Length::mm100(635)` is 6.35 mm.
    pub const fn mm100(hundredths: i64) -> Self {
        Self(hundredths * (PER_MM / 100))
    }

    /// Whole points (1/72 in).
    pub const fn pt(points: i64) -> Self {
        Self(points * PER_PT)
    }

    /// Hundredths of a point: `Length::pt100(75)` is 0.75 pt.
    pub const fn pt100(hundredths: i64) -> Self {
        Self(hundredths * (PER_PT / 100))
    }

    /// Whole inches.
    pub const fn inches(inches: i64) -> Self {
        Self(inches * PER_IN)
    }

    /// The length of so many raw units (1/36,000 mm each).
    pub const fn from_raw(raw: i64) -> Self {
        Self(raw)
    }

    /// How many raw units (1/36,000 mm each) this length has.
    pub const fn to_raw(self) -> i64 {
        self.0
    }

    /// In millimetres, for reports.
    #[allow(clippy::cast_precision_loss, reason = "paper is far below 2^52 raw units")]
    pub fn to_mm(self) -> f64 {
        self.0 as f64 / PER_MM as f64
    }

    /// In points, for the PDF stage and for reports.
    #[allow(clippy::cast_precision_loss, reason = "paper is far below 2^52 raw units")]
    pub fn to_pt(self) -> f64 {
        self.0 as f64 / PER_PT as f64
    }

    /// In inches, for reports.
    #[allow(clippy::cast_precision_loss, reason = "paper is far below 2^52 raw units")]
    pub fn to_inches(self) -> f64 {
        self.0 as f64 / PER_IN as f64
    }

    /// This length times `over / under`, rounded towards negative infinity. `under` must be positive.
    #[allow(clippy::cast_possible_truncation, reason = "paper is far below 2^62 raw units")]
    #[must_use]
    pub const fn scaled(self, over: i64, under: i64) -> Self {
        // Type is measured millions of times: dividing 128 bits where 64 serve would be most of the time it takes.
        match self.0.checked_mul(over) {
            Some(product) => Self(product.div_euclid(under)),
            None => Self((self.0 as i128 * over as i128).div_euclid(under as i128) as i64),
        }
    }

    /// Half of this length, rounded towards negative infinity.
    #[must_use]
    pub const fn half(self) -> Self {
        self.scaled(1, 2)
    }

    /// One of `parts` equal parts, rounded towards negative infinity; the whole where `parts` is not positive.
    #[must_use]
    pub fn part(self, parts: impl Count) -> Self {
        self.scaled(1, parts.wide().max(1))
    }

    /// How many whole `piece`s go into this length; 0 when it is negative or `piece` is not positive.
    pub const fn holds(self, piece: Self) -> i64 {
        if self.0 < 0 || piece.0 <= 0 { 0 } else { self.0 / piece.0 }
    }

    /// This length cut into `parts` lengths that differ by at most one raw unit and sum to exactly the whole.
    pub fn split(self, parts: u32) -> impl Iterator<Item = Self> + Clone {
        let parts_wide = i64::from(parts);
        (0..parts_wide).map(move |k| Self(self.0 * (k + 1) / parts_wide - self.0 * k / parts_wide))
    }

    /// The distance without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.abs())
    }

    /// Reads a length such as `6.35 mm`, `1/4 in`, `1 1/2 in`, `2 cm` or `12 pt`. A unit is always needed; the number may
    /// be whole, decimal, a fraction or a whole and a fraction, and must not be negative or above 2 m. A value between
    /// raw units is rounded to the nearest.
    pub fn parse(text: &str) -> Result<Self, Problem> {
        let trimmed = text.trim();
        let split = trimmed.find(|c: char| c.is_ascii_alphabetic() || c == '"' || c == '\'').unwrap_or(trimmed.len());
        let (number, unit) = (trimmed[..split].trim(), trimmed[split..].trim());
        let per_unit = match unit {
            "mm" => PER_MM,
            "cm" => 10 * PER_MM,
            "in" => PER_IN,
            "pt" => PER_PT,
            "" => {
                return Err(Problem::new(format!("the length `{text}` has no unit")).hint(format!(
                    "expected a unit after the number: mm, cm, in or pt; for instance \"{} mm\"",
                    if number.is_empty() { "6.35" } else { number }
                )));
            }
            other if !number.is_empty() => {
                return Err(Problem::new(format!("`{other}` is not a unit of length"))
                    .hint("expected mm, cm, in or pt".to_owned()));
            }
            _ => {
                return Err(Problem::new(format!("`{text}` is not a length"))
                    .hint("expected a length such as \"6.35 mm\", \"1/4 in\" or \"12 pt\"".to_owned()));
            }
        };
        let (over, under) = ratio(number).ok_or_else(|| {
            Problem::new(format!("`{number}` is not a number"))
                .hint("expected a length such as \"6.35 mm\", \"1/4 in\" or \"12 pt\"".to_owned())
        })?;
        let raw = (over * i128::from(per_unit) * 2 + under) / (under * 2);
        match i64::try_from(raw) {
            Ok(raw) if raw <= 2_000 * PER_MM => Ok(Self(raw)),
            _ => Err(Problem::new(format!("the length `{text}` is longer than 2 m"))
                .hint("no sheet of paper is that long; check the unit".to_owned())),
        }
    }
}

/// Reads a non-negative whole, decimal, fraction or mixed number as `(over, under)`, `under > 0`.
fn ratio(text: &str) -> Option<(i128, i128)> {
    let digits = |s: &str| -> Option<i128> {
        (!s.is_empty() && s.len() <= 12 && s.bytes().all(|b| b.is_ascii_digit())).then(|| s.parse().ok())?
    };
    if let Some((whole, fraction)) = text.split_once('/') {
        let under = digits(fraction.trim()).filter(|n| *n > 0)?;
        let mut head = whole.split_whitespace();
        let (first, second) = (digits(head.next()?)?, head.next());
        if head.next().is_some() {
            return None;
        }
        return match second {
            None => Some((first, under)),
            Some(over) => Some((first * under + digits(over)?, under)),
        };
    }
    match text.split_once('.') {
        None => Some((digits(text)?, 1)),
        Some((whole, decimals)) => {
            let under = 10_i128.pow(u32::try_from(decimals.len()).ok().filter(|n| *n <= 12)?);
            let whole = if whole.is_empty() { 0 } else { digits(whole)? };
            Some((whole * under + digits(decimals)?, under))
        }
    }
}

impl fmt::Debug for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm", self.to_mm())
    }
}

impl fmt::Display for Length {
    /// In millimetres to the nearest hundredth, without trailing zeros: `6.35 mm`, `10 mm`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = format!("{:.2}", self.to_mm());
        write!(f, "{} mm", text.trim_end_matches('0').trim_end_matches('.'))
    }
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl<N: Count> Mul<N> for Length {
    type Output = Self;
    fn mul(self, times: N) -> Self {
        Self(self.0.saturating_mul(times.wide()))
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Self) {
        self.0 += other.0;
    }
}

impl SubAssign for Length {
    fn sub_assign(&mut self, other: Self) {
        self.0 -= other.0;
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::ZERO, Add::add)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn reads(text: &str, want: Length) {
        assert_eq!(Length::parse(text).expect(text), want, "{text}");
    }

    #[test]
    fn reads_every_unit_exactly() {
        reads("6.35 mm", Length::mm100(635));
        reads("1/4 in", Length::mm100(635));
        reads("1 1/2 in", Length::pt(108));
        reads("12pt", Length::pt(12));
        reads(".5 cm", Length::mm(5));
        reads("0 mm", Length::ZERO);
    }

    #[test]
    fn refuses_what_is_not_a_length() {
        for bad in [
            "",
            "6.35",
            "mm",
            "six mm",
            "6,35 mm",
            "-1 mm",
            "1e3 mm",
            "1/0 in",
            "1 / 2 / 3 in",
            "3 m",
            "2001 mm",
            "NaN mm",
            "6\"",
            "1 2 3/4 in",
            "99999999999999999999 mm",
        ] {
            assert!(Length::parse(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn an_inch_is_25_4_mm_and_72_points() {
        // ISO 31-1 and the PDF default unit (ISO 32000-1, 8.3.2.3).
        assert_eq!(Length::inches(1), Length::mm100(2540));
        assert_eq!(Length::inches(1), Length::pt(72));
    }

    #[test]
    fn split_shares_the_remainder_and_sums_to_the_whole() {
        for parts in 1..50 {
            let whole = Length::mm100(21_590);
            let pieces: Vec<_> = whole.split(parts).collect();
            assert_eq!(pieces.iter().copied().sum::<Length>(), whole);
            let (least, most) = (pieces.iter().min().expect("a part"), pieces.iter().max().expect("a part"));
            assert!((*most - *least).to_raw() <= 1);
        }
    }

    #[test]
    fn holds_counts_whole_pieces() {
        assert_eq!(Length::mm(200).holds(Length::mm(100)), 2);
        assert_eq!(Length::mm100(19_999).holds(Length::mm(100)), 1);
        assert_eq!((-Length::mm(1)).holds(Length::mm(1)), 0);
    }
}
