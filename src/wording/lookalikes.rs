//! Words of a language's sentences that are numbers in another: what is quoted in one language is not taken for the other.

use super::en::English;
use super::es::Spanish;

/// Which words of the language's own sentences name a number in another language.
pub trait Lookalikes: Sync {
    /// Whether sentences say this word, in small letters, and mean no number: English "once" is no eleven.
    fn means_no_number(&self, word: &str) -> bool;
}

const ALL: [&dyn Lookalikes; 2] = [&English, &Spanish];

/// Whether a word by itself may be one of a sentence, in any language, and not a number that is quoted.
pub fn may_mean_no_number(word: &str) -> bool {
    let word = word.to_lowercase();
    ALL.iter().any(|language| language.means_no_number(&word))
}
