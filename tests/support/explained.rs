//! Which slip a wrong answer is put down to, read from all wrong answers of its task.

use placewright::number::{Content, Number, Slip, Style, Task};

/// The slip that explains an answer, if one does.
pub fn explained(task: Task, of: Number, answer: &Content, style: &Style) -> Option<Slip> {
    task.wrong(of, style).into_iter().find(|(_, content)| content == answer).map(|(slip, _)| slip)
}
