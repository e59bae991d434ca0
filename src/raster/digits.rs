//! Page numbers on contact sheets: digits of three by five squares, so that no font is needed.

/// Rows of a digit from the top, three bits each, the left one highest.
const DIGITS: [[u8; 5]; 10] = [
    [0b111, 0b101, 0b101, 0b101, 0b111],
    [0b010, 0b110, 0b010, 0b010, 0b111],
    [0b111, 0b001, 0b111, 0b100, 0b111],
    [0b111, 0b001, 0b011, 0b001, 0b111],
    [0b101, 0b101, 0b111, 0b001, 0b001],
    [0b111, 0b100, 0b111, 0b001, 0b111],
    [0b111, 0b100, 0b111, 0b101, 0b111],
    [0b111, 0b001, 0b010, 0b010, 0b010],
    [0b111, 0b101, 0b111, 0b101, 0b111],
    [0b111, 0b101, 0b111, 0b001, 0b111],
];

/// Pixels of a square's side.
const SIDE: u32 = 3;

/// How high digits are.
pub const HEIGHT: u32 = 5 * SIDE;

/// How wide a number is: three squares a digit, one between them.
pub fn width(number: usize) -> u32 {
    let digits = u32::try_from(number.to_string().len()).unwrap_or(0);
    (digits * 4).saturating_sub(1) * SIDE
}

/// Calls `ink` for each dark pixel of a number, from its own top left corner.
pub fn draw(number: usize, mut ink: impl FnMut(u32, u32)) {
    for (place, digit) in (0..).zip(number.to_string().bytes()) {
        let rows = DIGITS[usize::from(digit - b'0')];
        for (row, bits) in (0..).zip(rows) {
            for column in (0..3).filter(|column| bits >> (2 - column) & 1 == 1) {
                for dy in 0..SIDE {
                    for dx in 0..SIDE {
                        ink((place * 4 + column) * SIDE + dx, row * SIDE + dy);
                    }
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_differ_and_stay_in_their_room() {
        for (k, digit) in DIGITS.iter().enumerate() {
            assert!(DIGITS[..k].iter().all(|other| other != digit), "{k}");
        }
        let mut seen = (0, 0);
        draw(108, |x, y| seen = (seen.0.max(x + 1), seen.1.max(y + 1)));
        assert_eq!(seen, (width(108), HEIGHT));
    }
}
