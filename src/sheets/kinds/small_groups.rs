//! Small groups for tomorrow: how the tally is read into groups, and ten minutes of teaching for each slip in play.
//!
//! In: the lesson's [`SlipLesson`]s. Out: pages for the teacher: the groups at a glance, then slip after slip what to build,
//! what to ask, the answer to expect, three fresh numbers with what the slip would make of them, and when it is gone.

use crate::diag::Problem;
use crate::lesson::groups::{self, SlipLesson, Trial};
use crate::measure::{Length, Sides};
use crate::number::SlipFamily;
use crate::sheets::flow::list::{ListLook, ListMark};
use crate::sheets::flow::pages::{Flow, Heading, Lead, Setup};
use crate::sheets::flow::table::{Rules, Table, TableCell, TableColumn, TableLook};
use crate::sheets::flow::widths::ColumnWidth;
use crate::sheets::kinds::told::pictured as shown;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::text::Face;
use crate::sheets::page::{Page, Tag};
use crate::spec::SheetKind;

/// Lays the pages out; none where no slip is in play.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let lessons = groups::lessons(desk.lesson);
    if lessons.is_empty() {
        return Ok(Vec::new());
    }
    let layout = desk.layout(SheetKind::SmallGroups)?;
    let wording = desk.lesson.wording();
    let face = |name| desk.face(layout, name);
    let (text, part, column) = (face("text")?, face("part")?, face("column")?);
    let padding = layout.padding;
    let sides = Sides { left: padding, right: padding, top: padding.half(), bottom: padding.half() };
    let look = TableLook {
        head: (column, sides),
        cell: (text, sides),
        remark: text,
        rules: Rules::Strong,
        row_heads: true,
        pictures: None,
    };
    let (between, lines) = (layout.length("between")?, layout.length("lines")?);
    let greatest = desk.lesson.spec.numbers.range.value.1;
    let built = desk.lesson.tools(greatest).blocks;
    let title = wording.sheet_title(SheetKind::SmallGroups).to_owned();
    let first = Heading { title: title.clone(), note: Some(wording.groups_note(built).to_owned()) };
    let later = Heading { title, note: None };
    let flow = Flow::new(desk, Setup { kind: SheetKind::SmallGroups, layout, first, later, widest: None })?;
    let mut sheet = GroupPages { flow, look, text, part, between, lines };
    sheet.reading(desk, &lessons, layout.length("indent")?)?;
    for lesson in &lessons {
        sheet.lesson(desk, lesson)?;
    }
    sheet.has_it(desk)?;
    sheet.flow.finish()
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
    fn reading(&mut self, desk: &Desk<'_>, lessons: &[SlipLesson], indent: Length) -> Result<(), Problem> {
        let wording = desk.lesson.wording();
        self.heading(wording.reading_title().to_owned());
        let steps = wording.reading_steps().map(str::to_owned);
        let look = ListLook { face: self.text, mark: ListMark::Dot, indent, gap: self.lines, whole: true };
        self.flow.list(&steps, &look)?;
        self.flow.gap(self.between.half());
        let of = |family: SlipFamily| {
            let letters: Vec<String> = lessons
                .iter()
                .filter(|lesson| lesson.slip.family() == family)
                .map(|lesson| format!("{} ({})", lesson.letter, wording.slip_name(lesson.slip)))
                .collect();
            (!letters.is_empty()).then(|| {
                vec![
                    TableCell::Bold(wording.family(family).to_owned()),
                    TableCell::Text(letters.join(", ")),
                    TableCell::Text(wording.family_aim(family).to_owned()),
                ]
            })
        };
        let mut rows: Vec<Vec<TableCell>> = SlipFamily::ALL.into_iter().filter_map(of).collect();
        rows.push(vec![
            TableCell::Bold(wording.has_it().to_owned()),
            TableCell::Text(wording.no_letter().to_owned()),
            TableCell::Empty,
        ]);
        self.flow.table(&table(wording.groups_heads(), [3, 8, 9], rows), &self.look)
    }

    /// Ten minutes against one slip.
    fn lesson(&mut self, desk: &Desk<'_>, lesson: &SlipLesson) -> Result<(), Problem> {
        let Some(first) = lesson.trials.first() else { return Ok(()) };
        let (wording, style) = (desk.lesson.wording(), &desk.lesson.style);
        let tools = desk.lesson.tools(first.of);
        self.heading(wording.lesson_title(lesson.letter, lesson.slip));
        self.line(wording.build_line(
            &wording.group_build(first.of, first.task, tools, style),
            wording.slip_next(lesson.slip, tools),
        ));
        self.line(wording.ask_line(
            &wording.group_question(lesson.slip, first.of, first.task, tools, style),
            &wording.group_answer(lesson.slip, first.of, first.task, tools, style),
        ));
        self.line(wording.try_line(&wording.group_try(first.task, tools), &wording.group_gone(lesson.slip, tools)));
        let row = |trial: &Trial| {
            let wrong =
                trial.wrong.as_ref().map_or_else(|| wording.both_equal().to_owned(), |wrong| shown(desk, wrong));
            vec![
                TableCell::Text(wording.shown_in(trial.of, trial.task, style)),
                TableCell::Bold(shown(desk, &trial.right)),
                TableCell::Text(wrong),
            ]
        };
        let rows = lesson.trials.iter().map(row).collect();
        self.flow.table(&table(wording.numbers_heads(), [1, 1, 1], rows), &self.look)
    }

    /// What those do who show no slip.
    fn has_it(&mut self, desk: &Desk<'_>) -> Result<(), Problem> {
        let wording = desk.lesson.wording();
        let tasks = wording.has_it_tasks(&groups::has_it(desk.lesson), &desk.lesson.style);
        if tasks.is_empty() {
            return Ok(());
        }
        self.heading(wording.has_it().to_owned());
        let rows = tasks.into_iter().map(|(task, answer)| vec![TableCell::Text(task), TableCell::Bold(answer)]);
        let [_, right, _] = wording.numbers_heads();
        let columns = [("", 3), (right, 1)];
        let columns = columns
            .map(|(heading, parts)| TableColumn { heading: heading.to_owned(), width: ColumnWidth::Share(parts) });
        self.flow.table(&Table { columns: columns.into(), rows: rows.collect() }, &self.look)
    }
}

fn table(heads: [&str; 3], parts: [u32; 3], rows: Vec<Vec<TableCell>>) -> Table {
    let columns = heads.into_iter().zip(parts);
    let columns =
        columns.map(|(heading, parts)| TableColumn { heading: heading.to_owned(), width: ColumnWidth::Share(parts) });
    Table { columns: columns.collect(), rows }
}
