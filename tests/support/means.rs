//! What is printed of a lesson and the plan that goes with it, made without laying pages out.

use placewright::lesson::Lesson;
use placewright::lesson::job::{Cutter, For, JobFacts, PrintedSheet, Stock};
use placewright::lesson::teach::{self, Means, Step, Teaching};
use placewright::lesson::timing;
use placewright::sheets::row;
use placewright::spec::SheetKind;
use placewright::wording::plan::Reply;

/// Every learner's sheet that the lesson asks for, of one page, or of as many as `pages` says.
pub fn printed(lesson: &Lesson, pages: &[(SheetKind, usize)]) -> JobFacts {
    let class = &lesson.spec.class;
    let copies = class.learners.value + class.spares.value;
    let sheet = |kind: &SheetKind| {
        let For::Learner(handling) = row(*kind).reader else { return None };
        let count = pages.iter().find(|(of, _)| of == kind).map_or(1, |(_, count)| *count);
        let whole = !matches!(kind, SheetKind::Blocks | SheetKind::Layered | SheetKind::Strips | SheetKind::Exit);
        let later = *kind == SheetKind::Strips && lesson.keeps_strips_whole();
        let cutter = if whole {
            Cutter::Nobody
        } else if later {
            Cutter::Later
        } else {
            handling.cutter(lesson.spec.print.cut.value)
        };
        Some(PrintedSheet {
            kind: *kind,
            stock: Stock::Paper,
            keep: handling.keep,
            share: 1,
            copies,
            pages: count,
            fewest: count,
            cutter,
            cuts: if whole { 0 } else { 20 * count },
            fewest_cuts: if whole { 0 } else { 20 * count },
            pieces: if whole { 0 } else { 24 * count },
            sheets: copies as usize * count,
            all_cuts: if whole { 0 } else { 20 * count * copies as usize },
            cube_cuts: 0,
            holds: None,
        })
    };
    JobFacts {
        learners: class.learners.value,
        spares: class.spares.value,
        sheets: lesson.spec.sheets.make.value.iter().filter_map(sheet).collect(),
        ..JobFacts::default()
    }
}

/// The plan of a lesson whose sheets have one page each, with every question of its quick checks.
pub fn plan(lesson: &Lesson) -> Teaching {
    let job = printed(lesson, &[]);
    teach::plan(&Means { lesson, job: &job, questions: timing::questions(&lesson.spec), own_rows: true })
}

/// What is done, said or asked in a step, and after a question its answer; nothing of what is only looked out for.
pub fn told(lesson: &Lesson, step: &Step) -> Vec<String> {
    let (wording, usage) = (lesson.wording(), lesson.usage());
    match step {
        Step::Do(deed) => vec![wording.deed(deed, &usage)],
        Step::Say(said) => vec![wording.say(said, &usage)],
        Step::Ask(asked) => {
            let Reply { question, expect } = wording.ask(asked, &usage);
            vec![question, expect]
        }
        Step::Watch { .. } => Vec::new(),
    }
}
