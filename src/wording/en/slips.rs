//! What is said of slips in English.

use super::English;
use crate::number::Slip;
use crate::wording::{ReadIn, Slips, Tools};

impl Slips for English {
    fn slip_name(&self, slip: Slip) -> &'static str {
        // In English the words for programs are plain enough for people.
        slip.word()
    }

    fn slip_thinking(&self, slip: Slip, read: ReadIn) -> &'static str {
        match slip {
            Slip::ZeroDropped => "Zero stands for nothing, so it need not be written or counted.",
            Slip::ZeroMoved => "There is a zero in the number, but any place will do for it.",
            Slip::TeenTy => "Words that end in teen and in ty sound alike, so they mean the same.",
            Slip::TeenReversed => "A teen word says its ones first, so the ones are written first.",
            Slip::SoundAlike => "Words that sound alike are taken for each other.",
            Slip::HundredWord => "One word for a hundred is used everywhere.",
            Slip::SideBySide => "Each part is written out in full, one beside the other.",
            Slip::BigPartThenRest => "The biggest part is written out in full, and the rest comes after it.",
            Slip::HalfOverwritten => "The rest goes over the zeros of the biggest part, but one zero too many stays.",
            Slip::PlaceWordWritten => "A word that names a place is heard as a number, so it is written down too.",
            Slip::FaceValue => "Every digit counts that many ones, wherever it stands.",
            Slip::CountedAlike => "Every block counts as one, whatever its size.",
            Slip::PlaceOff => "A digit counts by its place, but this one is counted in the place beside its own.",
            Slip::ReadInPieces if read == ReadIn::Hundreds => {
                "The first digit is read as tens, and the rest after it as a number of its own."
            }
            Slip::ReadInPieces => "The digits are read one by one, as those of a telephone number are.",
            Slip::FromTheOnes => "Numbers are compared from the right, so the last digit that differs decides.",
            Slip::NotTakenAway => "Smaller pieces come, and what was traded for them stays.",
            Slip::OneForOne => "A piece that is traded gives one piece of the next kind, not ten.",
            Slip::OneTooFew => "A piece that is traded away counts as one of its ten, so only nine come for it.",
            Slip::CountsSideBySide => "Each count is written down as it stands, one beside the other.",
            Slip::TenLeftOut => "A column shows one digit, so what is beyond nine in it is forgotten.",
            Slip::TensOnesSwapped => "The digits are known, but not which one counts tens and which counts ones.",
            Slip::HundredsTensSwapped => {
                "The digits are known, but not which one counts hundreds and which counts tens."
            }
            Slip::Reversed => "The digits are right, but the number is put down from right to left.",
        }
    }

    fn slip_next(&self, slip: Slip, tools: Tools) -> &'static str {
        let Tools { mat, blocks, cards, read } = tools;
        match slip {
            Slip::ZeroDropped if mat && blocks => {
                "Build the number on the mat, point to the empty column, and write 0 for it."
            }
            Slip::ZeroDropped => "Write the digits under the names of their places, and find the place left empty.",
            Slip::ZeroMoved if blocks => {
                "Build the number, then change it to the learner's answer, and ask which column is empty now."
            }
            Slip::ZeroMoved => "Write the learner's answer below the number, and ask which place is empty in each.",
            Slip::TeenTy if blocks => {
                "Say a teen and its ty slowly, such as fourteen and forty, build both, and compare them."
            }
            Slip::TeenTy => "Say a teen and its ty slowly, such as fourteen and forty, draw both, and compare them.",
            Slip::TeenReversed if blocks => {
                "Build the teen as one rod and some cubes, then write the rod's digit first."
            }
            Slip::TeenReversed => "Draw the teen as one line and some dots, then write the digit of the line first.",
            Slip::SoundAlike if blocks => {
                "Say the two words slowly, such as sesenta and setenta, build both, and compare them."
            }
            Slip::SoundAlike => {
                "Say the two words slowly, such as sesenta and setenta, and write how many tens each has."
            }
            Slip::HundredWord => "Read a hundred by itself and before another number, and compare the two words.",
            Slip::SideBySide if cards => {
                "Stack the layered cards, so that each smaller part covers the zeros under it."
            }
            Slip::SideBySide => "Write the parts below each other, ones under ones, and add them up.",
            Slip::BigPartThenRest if cards => {
                "Lay the cards for the rest on top of the biggest card, and read the result."
            }
            Slip::BigPartThenRest => "Write the rest below the biggest part, ones under ones, and add them up.",
            Slip::HalfOverwritten if mat => {
                "Count the columns on the mat and the digits written: one digit for each column."
            }
            Slip::HalfOverwritten => {
                "Name the places from the left and count the digits written: one digit for each place."
            }
            Slip::PlaceWordWritten if mat => {
                "Show which word names a column of the mat; only the count in a column is written."
            }
            Slip::PlaceWordWritten => "Ask which word names a place; only the count in a place is written.",
            Slip::FaceValue if blocks => {
                "Ask which blocks each digit stands for, and lay a rod beside a cube to compare."
            }
            Slip::FaceValue => "Point to one digit after another, and ask each time: how many of what?",
            Slip::CountedAlike if blocks => {
                "Lay ten cubes along a rod, then count the picture: the largest blocks first, each kind by its worth."
            }
            Slip::CountedAlike => "Count the picture aloud: the largest blocks first, each kind by its worth.",
            Slip::PlaceOff if blocks => {
                "Name the places aloud from the ones up, a finger on each digit, and build the number."
            }
            Slip::PlaceOff => "Name the places aloud from the ones up, with a finger on each digit.",
            Slip::FromTheOnes => {
                "Write both numbers below each other, and compare the largest place first, then the next."
            }
            Slip::ReadInPieces if read == ReadIn::Periods => {
                "Cover the last three digits, read what is left and say thousand, then read the last three."
            }
            Slip::ReadInPieces => {
                "Cover all but the first digit, say it with its place, then read the rest as one number."
            }
            Slip::NotTakenAway if blocks => {
                "Trade with blocks: what is traded goes back to the pile before the smaller pieces come out."
            }
            Slip::NotTakenAway => "Draw it, cross out what is traded, and draw ten of the next kind for each piece.",
            Slip::OneForOne if blocks => "Lay ten pieces along one of the kind that is traded, and trade again.",
            Slip::OneForOne => "Ask how many of the smaller kind make one of the larger, and trade again.",
            Slip::OneTooFew if blocks => "Count the new pieces aloud as they come out, then count the whole column.",
            Slip::OneTooFew => "Draw ten pieces for each one traded, counting aloud, then count all of that kind.",
            Slip::CountsSideBySide if mat && blocks => {
                "Build it on the mat, trade every ten pieces up, and write one digit for each column."
            }
            Slip::CountsSideBySide => {
                "Circle every ten of one kind, trade them up, and write one digit for each place."
            }
            Slip::TenLeftOut if blocks => "Trade every ten pieces of a kind for one of the next, in its own column.",
            Slip::TenLeftOut => "Circle every ten of a kind, and count each ten as one more of the next.",
            Slip::TensOnesSwapped if blocks => {
                "Build the number, then change it to the learner's answer, and ask which has more tens."
            }
            Slip::TensOnesSwapped => "Write the learner's answer below the number, and ask which has more tens.",
            Slip::HundredsTensSwapped if blocks => {
                "Build the number, then change it to the learner's answer, and ask which has more hundreds."
            }
            Slip::HundredsTensSwapped => {
                "Write the learner's answer below the number, and ask which has more hundreds."
            }
            Slip::Reversed if mat => "Point to the left end of the mat, and write the largest place first.",
            Slip::Reversed => "Name the places from the left, and write the largest place first.",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sentences_are_short_and_whole() {
        for slip in Slip::all() {
            for sentence in [English.slip_thinking(slip, ReadIn::Hundreds), English.slip_next(slip, Tools::ALL)] {
                let is_sentence = sentence.starts_with(char::is_uppercase) && sentence.ends_with('.');
                assert!(is_sentence && sentence.matches('.').count() == 1, "{sentence}");
                assert!(sentence.split(' ').count() <= 22, "{sentence}");
            }
            let before = Slip::all().take_while(|other| *other != slip);
            let (name, thinking) = (English.slip_name(slip), English.slip_thinking(slip, ReadIn::Hundreds));
            assert!(name.split(' ').count() <= 4 && name == name.to_lowercase(), "{name}");
            let alone = |other: Slip| {
                English.slip_name(other) != name && English.slip_thinking(other, ReadIn::Hundreds) != thinking
            };
            assert!(before.into_iter().all(alone), "{name}");
        }
    }
}
