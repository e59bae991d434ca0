//! Slips and their families, by name.

/// A way of thinking that gives a wrong answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Slip {
    /// 406 written 46.
    ZeroDropped,
    /// 406 written 460.
    ZeroMoved,
    /// Six hundred fourteen taken for 640.
    TeenTy,
    /// Six hundred seventeen written 671.
    TeenReversed,
    /// Trescientos sesenta y cuatro written 374, in Spanish.
    SoundAlike,
    /// 105 written cien cinco, in Spanish.
    HundredWord,
    /// 642 written 600402.
    SideBySide,
    /// 365 written 30065.
    BigPartThenRest,
    /// 365 written 3065.
    HalfOverwritten,
    /// 642 written 610042.
    PlaceWordWritten,
    /// The 2 in 274 taken for 2 ones.
    FaceValue,
    /// 4 flats and 6 cubes counted as 10.
    CountedAlike,
    /// The 2 in 274 taken for 20.
    PlaceOff,
    /// 834 read "eighty thirty-four".
    ReadInPieces,
    /// 67 taken to be greater than 76.
    FromTheOnes,
    /// 264 taken for 2 hundreds 16 tens 4 ones.
    NotTakenAway,
    /// 264 taken for 1 hundred 7 tens 4 ones.
    OneForOne,
    /// 264 taken for 1 hundred 15 tens 4 ones.
    OneTooFew,
    /// 1 hundred 16 tens 4 ones written 1164.
    CountsSideBySide,
    /// 1 hundred 16 tens 4 ones written 164.
    TenLeftOut,
    /// 264 taken for 246.
    TensOnesSwapped,
    /// 264 taken for 624.
    HundredsTensSwapped,
    /// 264 taken for 462.
    Reversed,
}

/// Some of the slips, in no order: the tasks that provoke them give one.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct SlipSet(u32);

/// Each slip has a bit, the last one too.
const _: () = assert!((Slip::Reversed as u32) < u32::BITS);

impl SlipSet {
    /// Whether a slip is among them.
    pub const fn contains(self, slip: Slip) -> bool {
        self.0 >> slip as u32 & 1 == 1
    }

    /// How many they are.
    pub const fn count(self) -> u32 {
        self.0.count_ones()
    }
}

impl FromIterator<Slip> for SlipSet {
    fn from_iter<I: IntoIterator<Item = Slip>>(slips: I) -> Self {
        Self(slips.into_iter().fold(0, |set, slip| set | 1 << slip as u32))
    }
}

/// Slips that the same ten minutes of teaching help against.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SlipFamily {
    /// What an empty place is.
    Zeros,
    /// How teens are said and written.
    Teens,
    /// How parts make one numeral.
    Parts,
    /// What a digit or a block is worth.
    Worth,
    /// What one piece is traded for.
    Trades,
    /// Which place comes first.
    Order,
}

impl SlipFamily {
    /// All families.
    pub const ALL: [Self; 6] = [Self::Zeros, Self::Teens, Self::Parts, Self::Worth, Self::Trades, Self::Order];
}
