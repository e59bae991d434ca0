//! What a learner can be asked to show of a number: the skills, and the tasks in which a number can show each.

use super::{Form, Number, Place, Task};

/// Something that a quick check finds out, in the order in which it asks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Skill {
    /// The numeral of a block picture.
    Picture,
    /// The numeral of number words.
    Words,
    /// The numeral of words in the second language.
    SecondWords,
    /// What a digit is worth.
    Worth,
    /// The expanded form of a numeral.
    Expanded,
    /// The numeral of places of which one is empty.
    Zero,
    /// The regrouped form of a numeral.
    Regrouping,
    /// The numeral of a picture of blocks that are not traded.
    Trading,
    /// Which of two numbers with the same digits is greater.
    Compare,
    /// The words of a numeral.
    Reading,
    /// The numeral of an expanded form.
    Joining,
}

impl Skill {
    /// All skills, those first that a check with room for few asks first. The last two only stand in for others that a lesson
    /// has no numbers or forms for.
    pub const BY_NEED: [Self; 11] = [
        Self::Words,
        Self::SecondWords,
        Self::Regrouping,
        Self::Trading,
        Self::Zero,
        Self::Worth,
        Self::Picture,
        Self::Compare,
        Self::Expanded,
        Self::Reading,
        Self::Joining,
    ];

    /// Whether it only stands in for others.
    pub const fn stands_in(self) -> bool {
        matches!(self, Self::Reading | Self::Joining)
    }

    /// The form that the lesson must match for it to be asked; none where every lesson on place value teaches it.
    pub const fn needs(self) -> Option<Form> {
        match self {
            Self::Picture => Some(Form::Blocks),
            Self::Words | Self::Reading => Some(Form::Words),
            Self::SecondWords => Some(Form::SecondWords),
            Self::Expanded | Self::Joining => Some(Form::Expanded),
            Self::Regrouping => Some(Form::Regrouped),
            Self::Trading => Some(Form::Untraded),
            Self::Worth | Self::Zero | Self::Compare => None,
        }
    }

    /// The tasks in which a number can show it.
    pub fn tasks(self, number: Number) -> Vec<Task> {
        let mut tasks = Vec::new();
        self.each_task(number, |task| tasks.push(task));
        tasks
    }

    /// Calls `found` with every task in which a number can show it: for all numbers of a range, of which a list each would be
    /// much to hold. A picture of nothing is never asked about, nor the worth of a digit that stands in the numeral twice, nor
    /// the expanded form of a single part.
    pub fn each_task(self, number: Number, mut found: impl FnMut(Task)) {
        let parts = || number.parts().count();
        let mut one = |holds: bool, shown, asked| {
            if holds {
                found(Task::forms(shown, asked));
            }
        };
        match self {
            Self::Picture => one(number > Number::MIN && number <= Number::MAX_BLOCKS, Form::Blocks, Form::Numeral),
            Self::Regrouping => one(number.len() > 1, Form::Numeral, Form::Regrouped),
            Self::Trading => one(number.len() > 1 && number <= Number::MAX_BLOCKS, Form::Untraded, Form::Numeral),
            Self::Words => one(true, Form::Words, Form::Numeral),
            Self::SecondWords => one(true, Form::SecondWords, Form::Numeral),
            Self::Reading => one(true, Form::Numeral, Form::Words),
            Self::Expanded => one(parts() > 1, Form::Numeral, Form::Expanded),
            Self::Joining => one(parts() > 1, Form::Expanded, Form::Numeral),
            Self::Zero => one(parts() < number.len() && number.len() > 1, Form::Units, Form::Numeral),
            Self::Worth => {
                let once = |digit: u8| number.digits().filter(|(_, other)| *other == digit).count() == 1;
                let asked = number.parts().filter(|(place, digit)| *place != Place::Ones && once(*digit));
                asked.for_each(|(place, _)| found(Task::Worth(place)));
            }
            Self::Compare => neighbours(number, |other| found(Task::Greater(other))),
        }
    }
}

/// The lesser numbers that have the same digits but for two that changed places.
fn neighbours(number: Number, mut found: impl FnMut(Number)) {
    for (k, (greater, large)) in number.digits().enumerate() {
        for (lesser, small) in number.digits().skip(k + 1) {
            let (large, small) = (u32::from(large), u32::from(small));
            // A leading 0 would make the other number shorter.
            if large > small && (small > 0 || k > 0) {
                let less = (large - small) * (greater.worth() - lesser.worth());
                Number::new(number.value() - less).into_iter().for_each(&mut found);
            }
        }
    }
}
