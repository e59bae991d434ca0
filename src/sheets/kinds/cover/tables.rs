//! The cover's tables: what is in the packet, what to lay out, and the pages of each letter where groups have their own.

use super::form::{BELOW, CoverForm, Section};
use super::runs::PageRun;
use super::says;
use crate::diag::Problem;
use crate::lesson::Version;
use crate::lesson::job::Cutter;
use crate::lesson::teach::{Means, materials};
use crate::measure::{Count, Length, Point, Sides};
use crate::sheets::flow::table::{Rules, Table, TableCell, TableColumn, TableLook};
use crate::sheets::flow::widths::ColumnWidth;
use crate::spec::SheetKind;
use crate::wording::class_groups::GroupShare;
use crate::wording::cover::PageRange;
use crate::wording::plan::Thing;

/// Between the texts of neighbouring columns.
const APART: Length = Length::mm100(150);

impl CoverForm<'_> {
    /// What is in the packet beside what to lay out. Takes sections from `rest` into the shorter column, as far as they fit
    /// and are to go there. `paper` where learners write on paper of their own.
    pub fn contents_and_materials(
        &mut self,
        means: &Means<'_>,
        paper: bool,
        runs: &[PageRun],
        rest: &mut Vec<Section>,
    ) -> Result<(), Problem> {
        let (desk, half, look) = (self.desk, self.half(), self.table_look());
        let wording = desk.lesson.wording();
        let table = |heads: &[&str], rows| {
            let widths = [self.look.figures, Length::ZERO, self.look.copies];
            let columns = heads.iter().zip(widths).map(|(heading, wide)| column(heading, wide)).collect();
            Table { columns, rows }
        };
        let ((in_packet, page_heads), (to_lay_out, thing_heads)) = (wording.contents_heads(), wording.things_heads());
        let pages = table(&page_heads, self.contents(means, runs));
        let things = table(&thing_heads, self.things(means, paper));
        let (pages, things) = (pages.set(desk, &look, half)?, things.set(desk, &look, half)?);
        let (head, gap) = (self.head_high(), self.look.between);
        let (left, right) = (head + pages.height(), head + things.height());
        let above = if self.flow.at_top() { Length::ZERO } else { gap };
        self.flow.begin(above + left.max(right))?;
        self.flow.gap(gap);
        let (edge, top) = (self.flow.frame().left(), self.flow.column().y);
        let beside = half + self.look.gutter;
        for (x, title, table) in [(Length::ZERO, in_packet, pages), (beside, to_lay_out, things)] {
            let title = self.head_beside(title, top, x)?;
            self.flow.push(title);
            let (nodes, _) = table.draw_all(Point::new(edge + x, top + head));
            self.flow.extend(nodes);
        }
        let bottom = top + left.max(right);
        if self.set.beside {
            let (x, mut y) = if left > right { (beside, top + right) } else { (Length::ZERO, top + left) };
            for section in std::mem::take(rest) {
                if y + self.high_beside(&section) <= bottom {
                    y = self.list_beside(&section, x, y)?;
                } else {
                    rest.push(section);
                }
            }
        }
        self.flow.column().y = bottom;
        Ok(())
    }

    fn table_look(&self) -> TableLook<'static> {
        TableLook {
            head: (self.look.small, Sides { right: APART, ..Sides::default() }),
            cell: (self.look.body, Sides { right: APART, bottom: Length::mm100(40), ..Sides::default() }),
            remark: self.look.small,
            rules: Rules::Open,
            row_heads: true,
            pictures: None,
            whole: true,
        }
    }

    /// The packet's pages; those with a letter in one row, since [`letters`](Self::letters) has them.
    fn contents(&self, means: &Means<'_>, runs: &[PageRun]) -> Vec<Vec<TableCell>> {
        let lesson = self.desk.lesson;
        let apart = |run: &PageRun| !lesson.groups.is_empty() && run.is_lettered();
        let row = |run: &PageRun| {
            let copies =
                says::copies(means.job, run).map_or(TableCell::Empty, |count| TableCell::Text(count.to_string()));
            vec![TableCell::Bold(run.pages.figures()), TableCell::Text(run.name.clone()), copies]
        };
        let part = |part: &[PageRun]| match part {
            [first, .., last] => {
                let pages = PageRange { first: first.pages.first, last: last.pages.last };
                let name = lesson.wording().pages_with_letters().to_owned();
                vec![TableCell::Bold(pages.figures()), TableCell::Text(name), TableCell::Empty]
            }
            part => part.iter().flat_map(row).collect(),
        };
        runs.chunk_by(|run, next| apart(run) && apart(next)).map(part).collect()
    }

    /// What to lay out.
    fn things(&self, means: &Means<'_>, paper: bool) -> Vec<Vec<TableCell>> {
        let wording = self.desk.lesson.wording();
        let row = |(count, thing): (u32, Thing)| {
            let (what, note) = wording.thing(&thing);
            let what = if note.is_empty() { what } else { format!("{what} ({note})") };
            vec![TableCell::Bold(count.to_string()), TableCell::Text(what)]
        };
        // What this packet has itself is listed beside it.
        let here = |thing: &Thing| matches!(thing, Thing::Sheet { sheet: SheetKind::Display | SheetKind::Tally, .. });
        materials(means, paper).into_iter().filter(|(_, thing)| !here(thing)).map(row).collect()
    }

    /// Where groups have pages of their own: a row for each letter that is here, with the group's other letters, its pages and whose it is.
    pub fn letters(&mut self, means: &Means<'_>, runs: &[PageRun]) -> Result<(), Problem> {
        let (lesson, wording) = (self.desk.lesson, self.desk.lesson.wording());
        let lettered: Vec<&PageRun> = runs.iter().filter(|run| run.is_lettered()).collect();
        if lesson.groups.is_empty() || lettered.is_empty() {
            return Ok(());
        }
        let mut sheets: Vec<SheetKind> = lettered.iter().map(|run| run.sheet).collect();
        sheets.dedup();
        // Of what nobody needs no page is looked up.
        sheets.retain(|kind| means.job.sheet(*kind).is_none_or(|sheet| sheet.cutter != Cutter::Later));
        let mut letters: Vec<Version> = lettered.iter().filter_map(|run| run.version).collect();
        letters.sort_unstable();
        letters.dedup();
        let shares = lesson.shares();
        // Numbers that a roster scatters are looked up by name.
        let in_runs = shares.iter().all(|share| share.run().is_some());
        let row = |letter: &Version| {
            let of = |kind| lettered.iter().find(|run| run.version == Some(*letter) && run.sheet == kind);
            let copies = |run: &PageRun| says::copies(means.job, run).unwrap_or(0);
            let most = sheets.iter().filter_map(|kind| of(*kind)).map(|run| copies(run)).max().unwrap_or(0);
            let group = shares.iter().find(|share| share.versions.contains(letter));
            let whose = wording.whose_numbers(group.and_then(|group| group.name.as_deref()));
            // All of a group have the first of its sets where copies come from here.
            let sets = group.and_then(GroupShare::sets).unwrap_or_else(|| letter.to_string());
            let mut cells = vec![TableCell::Bold(sets), TableCell::Text(whose)];
            cells.extend(group.filter(|_| in_runs).and_then(GroupShare::run).map(TableCell::Text));
            cells.push(TableCell::Text(most.to_string()));
            cells.extend(sheets.iter().map(|kind| match of(*kind) {
                None => TableCell::Empty,
                Some(run) if copies(run) == most => TableCell::Text(run.pages.figures()),
                Some(run) => TableCell::Text(wording.pages_copied(run.pages, copies(run))),
            }));
            cells
        };
        let rows: Vec<Vec<TableCell>> = letters.iter().map(row).collect();
        let (title, [set, whose, copies]) = wording.set_heads();
        // As wide as their texts are long, so that a row is a line.
        let long = |k: usize, head: &str| {
            let text = |row: &Vec<TableCell>| match row.get(k) {
                Some(TableCell::Text(text)) => text.chars().count(),
                _ => 0,
            };
            share(head, rows.iter().map(text).max().unwrap_or(0).max(head.chars().count()).narrow())
        };
        let mut columns = vec![column(set, self.look.figures), long(1, whose)];
        columns.extend(in_runs.then(|| long(2, wording.learners_head())));
        columns.push(column(copies, self.look.copies));
        let before = columns.len();
        columns.extend(sheets.iter().enumerate().map(|(k, kind)| long(k + before, wording.sheet_title(*kind))));
        self.section(title);
        let look = self.table_look();
        self.flow.table(&Table { columns, rows }, &look)?;
        self.who_is_who(runs, &shares)
    }

    /// Where learners' names are, or room for them.
    fn who_is_who(&mut self, runs: &[PageRun], shares: &[GroupShare]) -> Result<(), Problem> {
        let (lesson, wording) = (self.desk.lesson, self.desk.lesson.wording());
        let tally = runs.iter().find(|run| run.sheet == SheetKind::Tally).map(|run| run.pages.first);
        let named = !lesson.roster.is_empty();
        self.flow.gap(BELOW);
        self.flow
            .text(&wording.who_is_who(tally, named, lesson.common_set().map(|set| set.version)), &self.look.body)?;
        if tally.is_some() || named {
            return Ok(());
        }
        let label = |share: &GroupShare| wording.whose_numbers(share.name.as_deref());
        let labels: Vec<String> = shares.iter().map(label).collect();
        let (left, right) = labels.split_at(labels.len().div_ceil(2));
        self.ruled([left, right].map(|labels| (None, labels.iter().map(String::as_str).collect())))
    }
}

/// A column of a width, or of what is left.
fn column(heading: &str, wide: Length) -> TableColumn {
    let width = ColumnWidth::Fixed(wide);
    if wide == Length::ZERO { share(heading, 1) } else { TableColumn { heading: heading.to_owned(), width } }
}

/// A column of so many shares of what is left.
fn share(heading: &str, shares: u32) -> TableColumn {
    TableColumn { heading: heading.to_owned(), width: ColumnWidth::Share(shares) }
}
