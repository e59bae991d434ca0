//! The word bank: the number words that this lesson's numbers need, beside their numerals.
//!
//! In: all numbers of the lesson. Out: one page: ones, teens, tens and place words in columns that a child can scan, and
//! how two words join. Only words that some number needs are there.

use std::collections::BTreeSet;

use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Size, Weight};
use crate::number::{Number, Style};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::head::{self, Head};
use crate::sheets::page::ink;
use crate::sheets::page::layout::{Layout, Turn};
use crate::sheets::page::text::{self, Across, Align, Down, Face};
use crate::sheets::page::{Item, Layer, Node, Page, Reader, Scope, Tag};
use crate::spec::SheetKind;

/// Lays the page out; none for a lesson without numbers.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let groups = groups(desk);
    if groups.is_empty() {
        return Ok(Vec::new());
    }
    let layout = desk.layout(SheetKind::WordBank)?;
    let size = desk.page(layout.turns.first().copied().unwrap_or(Turn::Portrait));
    let title = desk.lesson.wording().sheet_title(SheetKind::WordBank);
    let head = Head { title, note: None, reader: Reader::Learner, name: false, code: true };
    let headed = head::lay(desk, desk.live(size, layout), &head)?;
    let notes = notes(desk);
    let bank = Bank::fit(desk, layout, headed.body, &groups, &notes)?;
    let layer = Layer { nodes: bank.draw(desk, headed.body, &groups, &notes)?, ..Layer::default() };
    Ok(vec![desk.finish(SheetKind::WordBank, size, layout.stock, headed, layer)])
}

/// A numeral and its word.
type BankWord = (String, String);

/// Words of one kind with their numerals.
struct BankGroup {
    title: &'static str,
    entries: Vec<BankWord>,
}

/// The numbers whose names are single words, by kind.
fn groups(desk: &Desk<'_>) -> Vec<BankGroup> {
    let style = &desk.lesson.style;
    let chosen = &desk.lesson.chosen;
    let numbers = || chosen.model.iter().chain(chosen.sort.iter().flatten()).chain(&chosen.exit);
    let mut needed = BTreeSet::new();
    for number in numbers() {
        let words = style.words(*number);
        needed.extend(words.split([' ', '-']).map(|word| word.trim_end_matches(',').to_owned()));
    }
    // "one hundred" is two words: the place word is what comes after "one".
    let place =
        |n: u32| single(style, n).map(|(numeral, words)| (numeral, words.trim_start_matches("one ").to_owned()));
    let kinds: [(&str, Vec<Option<BankWord>>); 4] = [
        ("Ones", (0..=9).map(|n| single(style, n)).collect()),
        ("Ten to nineteen", (10..=19).map(|n| single(style, n)).collect()),
        ("Tens", (2..=9).map(|n| single(style, n * 10)).collect()),
        ("Places", [100, 1_000].into_iter().map(place).collect()),
    ];
    let kept = kinds.into_iter().map(|(title, entries)| BankGroup {
        title,
        entries: entries.into_iter().flatten().filter(|(_, word)| needed.contains(word)).collect(),
    });
    kept.filter(|group| !group.entries.is_empty()).collect()
}

fn single(style: &Style, value: u32) -> Option<BankWord> {
    let number = Number::new(value)?;
    Some((style.numeral(number), style.words(number)))
}

/// How words join, with this lesson's own numbers.
fn notes(desk: &Desk<'_>) -> Vec<String> {
    let style = &desk.lesson.style;
    let chosen = &desk.lesson.chosen;
    // Numbers that learners meet before they sort: no answer of a board or a check is given away.
    let mut notes = Vec::new();
    if let Some(number) = chosen.model.iter().find(|n| style.words(**n).contains('-')) {
        let words = style.words(*number);
        if let Some(joined) = words.split(' ').map(|word| word.trim_end_matches(',')).find(|word| word.contains('-')) {
            notes.push(format!("Join tens and ones with a hyphen: {joined}"));
        }
    }
    if let Some(number) = chosen.model.iter().find(|n| style.and && style.words(**n).contains(" and ")) {
        notes.push(format!("We write \u{201c}and\u{201d}: {}", style.words(*number)));
    }
    notes
}

/// Groups in columns at one type size.
struct Bank {
    word: Face,
    group: Face,
    note: Face,
    /// Which groups stand in which column.
    columns: Vec<Vec<usize>>,
    gutter: Length,
}

impl Bank {
    /// The arrangement with the largest words: groups side by side, in two columns, or one below the other.
    fn fit(
        desk: &Desk<'_>,
        layout: &Layout,
        body: Rect,
        groups: &[BankGroup],
        notes: &[String],
    ) -> Result<Self, Problem> {
        let (word, group) = (desk.face(layout, "word")?, desk.face(layout, "group")?);
        let note = desk.face(layout, "note")?;
        let each: Vec<Vec<usize>> = (0..groups.len()).map(|k| vec![k]).collect();
        let paired: Vec<Vec<usize>> = match groups.len() {
            0 | 1 => each.clone(),
            2 => vec![vec![0], vec![1]],
            3 => vec![vec![0], vec![1, 2]],
            _ => vec![vec![0, 3], vec![1, 2]],
        };
        let (paired_other, single) = (
            if groups.len() == 4 { vec![vec![0, 2], vec![1, 3]] } else { paired.clone() },
            vec![(0..groups.len()).collect::<Vec<_>>()],
        );
        let mut size = word.size;
        while size >= word.least {
            for columns in [&each, &paired, &paired_other, &single] {
                let face = word.at(size);
                let group = group.at(group.size.min(size).max(group.least));
                let note = note.at(note.size.min(size).max(note.least));
                let bank = Self { word: face, group, note, columns: columns.clone(), gutter: layout.grid.gutter };
                if bank.fits(desk, body, groups, notes) {
                    return Ok(bank);
                }
            }
            size -= Length::pt(1);
        }
        Err(Problem::new("the word bank does not fit on one page at its least type size")
            .hint("choose larger paper, or fewer numbers"))
    }

    /// How wide the numerals' column is.
    fn numerals(&self, desk: &Desk<'_>, groups: &[BankGroup]) -> Length {
        let bold = Face { weight: Weight::Bold, ..self.word };
        let widest =
            groups.iter().flat_map(|group| &group.entries).map(|(numeral, _)| desk.width(numeral, &bold)).max();
        widest.unwrap_or(Length::ZERO) + self.word.size.scaled(6, 10)
    }

    fn pitch(&self) -> Length {
        self.word.size.scaled(15, 10)
    }

    fn notes_height(&self, desk: &Desk<'_>, width: Length, notes: &[String]) -> Length {
        let lines: usize = notes.iter().map(|note| text::flow(desk.family, note, width, &self.note).len()).sum();
        if lines == 0 { Length::ZERO } else { text::height(lines, &self.note) + Length::mm(6) }
    }

    fn fits(&self, desk: &Desk<'_>, body: Rect, groups: &[BankGroup], notes: &[String]) -> bool {
        let count = i64::try_from(self.columns.len()).unwrap_or(1).max(1);
        let width = (body.width() - self.gutter * (count - 1)).scaled(1, count);
        let numerals = self.numerals(desk, groups);
        let room = body.height() - self.notes_height(desk, body.width(), notes);
        self.columns.iter().all(|column| {
            let wide = column
                .iter()
                .flat_map(|k| &groups[*k].entries)
                .all(|(_, word)| desk.width(word, &self.word) + numerals <= width);
            let titles = column.iter().all(|k| desk.width(groups[*k].title, &self.group) <= width);
            let high: Length = column.iter().map(|k| self.high(&groups[*k])).sum();
            wide && titles && high <= room
        })
    }

    fn high(&self, group: &BankGroup) -> Length {
        self.group.pitch()
            + Length::mm(2)
            + self.pitch() * i64::try_from(group.entries.len()).unwrap_or(0)
            + Length::mm(7)
    }

    fn draw(&self, desk: &Desk<'_>, body: Rect, groups: &[BankGroup], notes: &[String]) -> Result<Vec<Node>, Problem> {
        let count = u32::try_from(self.columns.len()).unwrap_or(1).max(1);
        let grid = crate::sheets::page::grid::Grid::filling(body, count, 1, self.gutter);
        let numerals = self.numerals(desk, groups);
        let mut drawn = Vec::new();
        let mut lowest = body.top();
        for (area, column) in grid.cells().zip(&self.columns) {
            let mut y = area.top();
            for group in column.iter().map(|k| &groups[*k]) {
                drawn.extend(self.group(desk, area, y, numerals, group)?);
                y += self.high(group);
            }
            lowest = lowest.max(y);
        }
        let mut y = lowest;
        for note in notes {
            let lines = text::flow(desk.family, note, body.width(), &self.note);
            let frame =
                Rect::new(Point::new(body.left(), y), Size::new(body.width(), text::height(lines.len(), &self.note)));
            drawn.push(text::run(desk.family, &lines, frame, &self.note).tagged(Tag::Paragraph));
            y = frame.bottom();
        }
        Ok(drawn)
    }

    /// One group: its title, a rule and its words, a table for a listener.
    fn group(
        &self,
        desk: &Desk<'_>,
        area: Rect,
        top: Length,
        numerals: Length,
        group: &BankGroup,
    ) -> Result<Vec<Node>, Problem> {
        let line = |y: Length, high: Length, left: Length| {
            Rect::between(Point::new(left, y), Point::new(area.right(), y + high))
        };
        let left = Align { across: Across::Left, down: Down::Top };
        let title = desk.set(group.title, line(top, self.group.pitch(), area.left()), &self.group, left)?;
        let mut y = top + self.group.pitch() + Length::mm(1);
        let rule =
            Item::Line { from: Point::new(area.left(), y), to: Point::new(area.right(), y), stroke: ink::OUTLINE };
        y += Length::mm(1);
        let bold = Face { weight: Weight::Bold, ..self.word };
        let mut rows = Vec::new();
        for (numeral, word) in &group.entries {
            let middle = Align { across: Across::Left, down: Down::Middle };
            let figure = Rect::new(Point::new(area.left(), y), Size::new(numerals, self.pitch()));
            let figure = desk.set(numeral, figure, &bold, middle)?.tagged(Tag::HeaderCell(Scope::Row));
            let spelt = desk.set(word, line(y, self.pitch(), area.left() + numerals), &self.word, middle)?;
            rows.push(Node::tagged(Tag::Row, [figure, spelt.tagged(Tag::Cell)]));
            y += self.pitch();
        }
        Ok(vec![title.tagged(Tag::Heading(2)), Node::artifact(rule), Node::Tagged(Tag::Table, rows)])
    }
}
