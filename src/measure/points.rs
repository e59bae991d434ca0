//! Lengths as decimal numbers of points (1/72 in), as PDF and SVG write them.
//!
//! Everything here is whole thousandths of a point, so that the same length gives the same digits on every machine; a
//! thousandth is 0.35 micrometres on paper.

use super::Length;

/// Thousandths of a point.
pub type Milli = i64;

/// A length in thousandths of a point, rounded to the nearest.
pub fn milli(length: Length) -> Milli {
    // 12,700 raw units are a point, so 12.7 are a thousandth.
    (length.to_raw() * 20 + 127).div_euclid(254)
}

/// Writes a number of points, with at most three decimals and no needless digits: `612`, `28.346`, `-.5`.
pub fn number(out: &mut Vec<u8>, value: Milli) {
    if value < 0 {
        out.push(b'-');
    }
    let (whole, part) = (value.unsigned_abs() / 1000, value.unsigned_abs() % 1000);
    if whole > 0 || part == 0 {
        integer(out, whole);
    }
    if part > 0 {
        out.push(b'.');
        let mut rest = part;
        for unit in [100, 10, 1] {
            out.push(digit(rest / unit));
            rest %= unit;
            if rest == 0 {
                break;
            }
        }
    }
}

/// Writes a whole number.
pub fn integer(out: &mut Vec<u8>, value: u64) {
    out.extend_from_slice(itoa::Buffer::new().format(value).as_bytes());
}

/// The character of a value 0..=9.
#[allow(clippy::cast_possible_truncation, reason = "callers pass a single decimal digit")]
fn digit(value: u64) -> u8 {
    b'0' + value as u8
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn writes(value: Milli, want: &str) {
        let mut out = Vec::new();
        number(&mut out, value);
        assert_eq!(String::from_utf8(out).as_deref(), Ok(want));
    }

    #[test]
    fn numbers_carry_no_needless_digits() {
        writes(0, "0");
        writes(612_000, "612");
        writes(28_346, "28.346");
        writes(-500, "-.5");
        writes(1_050, "1.05");
        writes(7, ".007");
        writes(-1_230_400, "-1230.4");
    }

    #[test]
    fn lengths_round_to_the_nearest_thousandth_of_a_point() {
        assert_eq!(milli(Length::pt(612)), 612_000);
        // 10 mm are 28.3464... pt.
        assert_eq!(milli(Length::mm(10)), 28_346);
        assert_eq!(milli(-Length::mm(10)), -28_346);
        assert_eq!(milli(Length::pt100(75)), 750);
    }
}
