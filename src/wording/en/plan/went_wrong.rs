//! What a child says who has found out what went wrong, in English.

use crate::number::Slip;

/// What was done, in a child's words and without its full stop.
pub(super) fn seen(slip: Slip) -> &'static str {
    match slip {
        Slip::ZeroDropped => "They left out the zero",
        Slip::ZeroMoved => "They put the zero in another place",
        Slip::TeenTy => "They mixed up teen and ty",
        Slip::TeenReversed => "They wrote the ones of the teen first",
        Slip::SoundAlike => "They mixed up two words that sound alike",
        Slip::HundredWord => "They took the other word for a hundred",
        Slip::SideBySide => "They wrote the parts one beside the other",
        Slip::BigPartThenRest => "They wrote all of the big part, then the rest behind it",
        Slip::HalfOverwritten => "They left a zero too many",
        Slip::PlaceWordWritten => "They wrote the word for a place in digits too",
        Slip::FaceValue => "They took every digit for ones",
        Slip::CountedAlike => "They counted every block as one",
        Slip::PlaceOff => "They put a digit one place off",
        Slip::ReadInPieces => "They read the number in parts, each by itself",
        Slip::FromTheOnes => "They compared the ones first",
        Slip::NotTakenAway => "They did not take away what was traded",
        Slip::OneForOne => "They traded one for one, not one for ten",
        Slip::OneTooFew => "They let nine come for each one that was traded, not ten",
        Slip::CountsSideBySide => "They wrote the counts one beside the other",
        Slip::TenLeftOut => "They forgot ten of a kind",
        Slip::TensOnesSwapped => "They mixed up the tens and the ones",
        Slip::HundredsTensSwapped => "They mixed up the hundreds and the tens",
        Slip::Reversed => "They wrote the digits from right to left",
    }
}
