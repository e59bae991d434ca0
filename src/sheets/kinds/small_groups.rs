//! Small groups for tomorrow: how the tally is read into groups, and ten minutes of teaching for each slip in play.
//!
//! In: the lesson's [`SlipLesson`]s, for the class or for each of its groups. Out: pages for the teacher: the groups at a
//! glance, then slip after slip what to build, what to ask, the answer to expect, three fresh numbers for whoever can show the
//! slip with what it would make of them, and when it is gone.

use crate::diag::Problem;
use crate::lesson::groups::{self, SlipLesson, Trial};
use crate::lesson::{InPlay, LessonPart};
use crate::measure::Length;
use crate::number::{SlipFamily, Style};
use crate::sheets::flow::even::{Extent, Pass, Spread, even};
use crate::sheets::flow::list::{ListLook, ListMark};
use crate::sheets::flow::pages::{Flow, Heading, Lead, Setup};
use crate::sheets::flow::table::{Rules, Table, TableCell, TableColumn, TableLook};
use crate::sheets::flow::widths::ColumnWidth;
use crate::sheets::kinds::described::pictured as shown;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::text::Face;
use crate::sheets::page::{Page, Tag};
use crate::spec::SheetKind;
use crate::wording::Tools;

/// Lays the pages out; none where no slip is in play.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    if desk.lesson.slips.is_empty() {
        return Ok(Vec::new());
    }
    let parts = desk.lesson.parts();
    let own: Vec<(LessonPart<'_>, Vec<SlipLesson>)> =
        parts.into_iter().map(|part| (part, groups::lessons(desk.lesson, &part))).collect();
    even(|spread, pass| laid(desk, &own, spread, pass))
}

/// The pages for these, and what they come to.
fn laid(
    desk: &Desk<'_>,
    own: &[(LessonPart<'_>, Vec<SlipLesson>)],
    Spread { white, depth }: Spread,
    pass: Pass,
) -> Result<(Vec<Page>, Extent), Problem> {
    let layout = desk.layout(SheetKind::SmallGroups)?;
    let wording = desk.lesson.wording();
    let face = |name| desk.face(layout, name);
    let (text, part, column) = (face("text")?, face("part")?, face("column")?);
    let look = TableLook::padded(column, text, layout.padding, Rules::Strong).closer(white);
    let (between, lines) = (layout.length("between")?.scaled(white, 100), layout.length("lines")?);
    let everything: Vec<&SlipLesson> = own.iter().flat_map(|(_, lessons)| lessons).collect();
    let note = wording.groups_note(groups::table(desk.lesson, &everything));
    let title = wording.sheet_title(SheetKind::SmallGroups).to_owned();
    let first = Heading { title: title.clone(), note: Some(note) };
    let later = Heading { title, note: None };
    let flow = Flow::new(desk, Setup { kind: SheetKind::SmallGroups, layout, first, later, widest: None })?;
    let flow = flow.to_depth(depth).on(pass);
    let mut sheet = GroupPages { flow, look, text, part, between, lines };
    sheet.reading(desk, layout.length("indent")?)?;
    for in_play in groups::by_family(desk.lesson) {
        let mut mine = Vec::new();
        for (part, lessons) in own {
            let lessons = lessons.iter().filter(|lesson| lesson.slip == in_play.slip && !lesson.trials.is_empty());
            mine.extend(lessons.map(|lesson| (*part, lesson)));
        }
        sheet.lesson(desk, in_play, &mine)?;
    }
    sheet.has_it(desk)?;
    sheet.flow.laid()
}

/// The pages being filled.
struct GroupPages<'a> {
    flow: Flow<'a>,
    look: TableLook<'a>,
    text: Face,
    part: Face,
    between: Length,
    lines: Length,
}

impl GroupPages<'_> {
    fn heading(&mut self, title: String) {
        self.flow.lead(Lead {
            text: title,
            face: self.part,
            tag: Tag::Heading(2),
            above: self.between,
            below: self.lines,
        });
    }

    fn line(&mut self, text: String) {
        self.flow.lead(Lead { text, face: self.text, tag: Tag::Paragraph, above: Length::ZERO, below: self.lines });
    }

    /// How the tally is read, and the groups with their letters.
    fn reading(&mut self, desk: &Desk<'_>, indent: Length) -> Result<(), Problem> {
        let wording = desk.lesson.wording();
        let alone = desk.lesson.has_one_learner();
        self.heading(wording.reading_title(alone).to_owned());
        let apart = (desk.lesson.parts().len() > 1).then(|| wording.tasks_apart());
        let steps = wording.reading_steps(alone).into_iter().chain(apart);
        let steps: Vec<String> = steps.map(str::to_owned).collect();
        let look = ListLook { face: self.text, mark: ListMark::Dot, indent, gap: self.lines, whole: true };
        self.flow.list(&steps, &look)?;
        self.flow.gap(self.between.half());
        let of = |family: SlipFamily| {
            let letters: Vec<String> = desk
                .lesson
                .slips
                .iter()
                .filter(|lesson| lesson.slip.family() == family)
                .map(|lesson| format!("{} ({})", lesson.letter, wording.slip_name(lesson.slip)))
                .collect();
            (!letters.is_empty()).then(|| {
                vec![
                    TableCell::Bold(wording.family(family).to_owned()),
                    TableCell::Text(letters.join(", ")),
                    TableCell::Text(wording.family_aim(family).to_owned()),
                    TableCell::Empty,
                ]
            })
        };
        let mut rows: Vec<Vec<TableCell>> = SlipFamily::ALL.into_iter().filter_map(of).collect();
        rows.push(vec![
            TableCell::Bold(wording.has_it().to_owned()),
            TableCell::Text(wording.no_letter().to_owned()),
            TableCell::Empty,
            TableCell::Empty,
        ]);
        let columns: Vec<(&str, u32)> = wording.groups_heads(alone).into_iter().zip([4, 10, 12, 14]).collect();
        self.flow.table(&table(&columns, rows), &self.look)
    }

    /// Ten minutes against one slip, with numbers of their own for all who can show it.
    fn lesson(
        &mut self,
        desk: &Desk<'_>,
        InPlay { letter, slip, .. }: &InPlay,
        parts: &[(LessonPart<'_>, &SlipLesson)],
    ) -> Result<(), Problem> {
        if parts.is_empty() {
            return Ok(());
        }
        let wording = desk.lesson.wording();
        self.heading(wording.lesson_title(*letter, *slip, desk.lesson.has_one_learner()));
        let several = desk.lesson.parts().len() > 1;
        for (part, lesson) in parts {
            let Some(step) = lesson.step(part.style) else { continue };
            let build = wording.build_line(&wording.group_build(&step));
            let ask = wording.ask_line(&wording.group_question(&step), &wording.group_answer(&step));
            if several {
                self.line(wording.own_line(&wording.whose_numbers(part.name), &build, &ask));
            } else {
                self.line(build);
                self.line(ask);
            }
        }
        let asked = |(_, lesson): &(LessonPart<'_>, &SlipLesson)| {
            let first = lesson.trials.first()?;
            let tools = lesson.tools_of_each;
            let gone = wording.group_gone(*slip, lesson.tools);
            Some((
                wording.group_try(first.task, tools, desk.lesson.has_one_learner()),
                gone,
                wording.numbers_heads(first.task, tools),
            ))
        };
        // Those who are asked in one way share a table.
        for parts in parts.chunk_by(|one, other| asked(one) == asked(other)) {
            let Some((how, gone, titles)) = parts.first().and_then(asked) else { continue };
            self.line(wording.try_line(&how, &gone));
            let mut rows = Vec::new();
            for (part, lesson) in parts {
                let whose = several.then(|| TableCell::Text(wording.whose_numbers(part.name)));
                let row = |trial: &Trial| {
                    whose.clone().into_iter().chain(row(desk, part.style, trial, lesson.tools_of_each)).collect()
                };
                rows.extend(lesson.trials.iter().map(row));
            }
            self.flow.table(&table(&heads(several.then(|| wording.whose_head()), titles), rows), &self.look)?;
        }
        Ok(())
    }

    /// What those do who show no slip.
    fn has_it(&mut self, desk: &Desk<'_>) -> Result<(), Problem> {
        let (wording, parts) = (desk.lesson.wording(), desk.lesson.parts());
        let several = parts.len() > 1;
        let mut rows = Vec::new();
        for part in parts {
            let whose = several.then(|| TableCell::Text(wording.whose_numbers(part.name)));
            for (task, answer) in wording.has_it_tasks(&groups::has_it(desk.lesson, &part), part.style) {
                rows.push(whose.clone().into_iter().chain([TableCell::Text(task), TableCell::Bold(answer)]).collect());
            }
        }
        if rows.is_empty() {
            return Ok(());
        }
        self.heading(wording.has_it().to_owned());
        let whose = several.then(|| (wording.whose_head(), 1));
        let (task, right) = wording.has_it_heads();
        let columns: Vec<(&str, u32)> = whose.into_iter().chain([(task, 3), (right, 1)]).collect();
        self.flow.table(&table(&columns, rows), &self.look)
    }
}

/// A number with what is right and what the slip gives.
fn row(desk: &Desk<'_>, style: &Style, trial: &Trial, tools: Tools) -> [TableCell; 3] {
    let wording = desk.lesson.wording();
    let wrong = trial.wrong.as_ref().map_or_else(|| wording.both_equal().to_owned(), |wrong| shown(desk, wrong));
    [
        TableCell::Text(wording.shown_in(trial.of, trial.task, tools, style)),
        TableCell::Bold(shown(desk, &trial.right)),
        TableCell::Text(wrong),
    ]
}

/// Columns of equal width, the first of which tells whose numbers these are where not all learners have the same.
fn heads<'h>(whose: Option<&'h str>, heads: [&'h str; 3]) -> Vec<(&'h str, u32)> {
    whose.into_iter().chain(heads).map(|head| (head, 1)).collect()
}

fn table(columns: &[(&str, u32)], rows: Vec<Vec<TableCell>>) -> Table {
    let columns = columns
        .iter()
        .map(|(heading, parts)| TableColumn { heading: (*heading).to_owned(), width: ColumnWidth::Share(*parts) });
    Table { columns: columns.collect(), rows }
}
