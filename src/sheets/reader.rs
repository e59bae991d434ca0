//! Who each file is for, in words for people.
//!
//! In: a file's name. Out: who gets it, what it is for and how to print it. Command line, pictures and their page say the
//! same.

/// What there is to say about a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct About {
    /// Its name.
    pub file: &'static str,
    /// What it is called.
    pub title: &'static str,
    /// Who gets it.
    pub reader: &'static str,
    /// What it is for, in a sentence.
    pub purpose: &'static str,
    /// How it is printed, in a sentence or two, besides "actual size".
    pub printing: &'static str,
}

/// Every file of a lesson that has pages, in the order of the contract.
const FILES: [About; 5] = [
    About {
        file: "teacher.pdf",
        title: "Teacher's packet",
        reader: "teacher",
        purpose: "Everything to teach the lesson from: the plan, the numbers to show, one master of every learner sheet \
                  for each version, and the answers.",
        printing: "Print it once, on paper. Keep it as the master.",
    },
    About {
        file: "copy-room-paper.pdf",
        title: "Class copies on paper",
        reader: "copy room",
        purpose: "Every learner's pages that go on paper, in the order to print.",
        printing: "Print it once, on paper, as the job ticket says. It holds every copy already: print one of it.",
    },
    About {
        file: "copy-room-card.pdf",
        title: "Class copies on card",
        reader: "copy room",
        purpose: "Every learner's pages that go on card, to be cut out, in the order to print.",
        printing: "Print it once, on card, as the job ticket says. It holds every copy already: print one of it.",
    },
    About {
        file: "copy-room-ticket.pdf",
        title: "Job ticket",
        reader: "copy room",
        purpose: "What the copy room needs to know: sheets of each stock, sides, cuts, piles and finishing.",
        printing: "Print it once, on paper, and send it along with the class copies.",
    },
    About {
        file: "substitute.pdf",
        title: "Substitute's packet",
        reader: "substitute",
        purpose: "The lesson for someone who has never seen it: what to do first, what to say, what to expect, and what \
                  to leave behind.",
        printing: "Print it once, on paper, and leave it on the desk.",
    },
];

/// What there is to say about a file of a lesson.
pub fn about(file: &'static str) -> About {
    FILES.into_iter().find(|about| about.file == file).unwrap_or(About {
        file,
        title: file,
        reader: "teacher",
        purpose: "Pages of the lesson.",
        printing: "Print it once, on paper.",
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_copy_rooms_files_are_the_copy_rooms() {
        for about in FILES {
            assert_eq!(about.reader == "copy room", about.file.starts_with("copy-room-"), "{}", about.file);
            assert_eq!(super::about(about.file), about);
        }
        assert_eq!(about("other.pdf").file, "other.pdf");
    }
}
