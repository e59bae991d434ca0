//! The word bank: the number words that this lesson's numbers need, beside their numerals.
//!
//! In: the words that the lesson's numbers need. Out: one page, or more where words are long and large: ones, teens, tens and
//! place words in columns that a child can scan, and how two words join; in a lesson in two languages each numeral with its
//! words in both, side by side.

use crate::diag::Problem;
use crate::lesson::words::{self, BankOf, WordEntry, WordGroup, WordNote};
use crate::measure::{Count, Length, Point, Rect, Size, Weight};
use crate::sheets::kinds::record;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::grid::Grid;
use crate::sheets::page::head::{self, Head};
use crate::sheets::page::ink;
use crate::sheets::page::layout::{Layout, Turn};
use crate::sheets::page::text::{self, Across, Align, Down, Face};
use crate::sheets::page::tongues::within;
use crate::sheets::page::{Item, Layer, Node, Page, Reader, Tag};
use crate::spec::SheetKind;

/// Lays the page out; none for a lesson without numbers.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let wording = desk.lesson.wording();
    let layout = desk.layout(SheetKind::WordBank)?;
    let size = desk.page(layout.turns.first().copied().unwrap_or(Turn::Portrait));
    let title = wording.sheet_title(SheetKind::WordBank);
    let head = Head { title, note: None, reader: Reader::Learner, code: true, goal: None };
    let body = head::lay(desk, desk.live(size, layout), &head)?.body;
    let (fitted, groups, notes) = bank(desk, layout, body)?;
    if groups.is_empty() {
        return Ok(Vec::new());
    }
    let pages = match fitted {
        Some(bank) => vec![(bank, groups, notes)],
        None => pages_of(desk, layout, body, groups, notes)?,
    };
    // All pages share one size.
    let most = pages.iter().map(|(bank, ..)| bank.word.size).min();
    let mut drawn = Vec::new();
    for (k, (bank, groups, notes)) in pages.into_iter().enumerate() {
        let larger = Some(bank.word.size) != most;
        let bank = if larger { Bank::fit(desk, layout, body, (&groups, &notes), most)? } else { bank };
        let headed = head::lay(desk, desk.live(size, layout), &head)?;
        let layer = Layer { nodes: bank.draw(desk, headed.body, &groups, &notes)?, ..Layer::default() };
        drawn.push((k + 1, desk.finish(SheetKind::WordBank, size, layout.stock, headed, layer)));
    }
    let count = drawn.len();
    let named = |(k, page): (usize, Page)| match count {
        1 => page,
        _ => Page { name: wording.sheet_of(&page.name, k, count), ..page },
    };
    Ok(drawn.into_iter().map(named).collect())
}

/// The words of the bank: where learners choose a number of their own, the words of all that they may choose, or of most, as
/// long as these fit on one page, and how they do; otherwise those of the numbers that are given, with whatever else stands under
/// the same headings as long as that fits.
fn bank(
    desk: &Desk<'_>,
    layout: &Layout,
    body: Rect,
) -> Result<(Option<Bank>, Vec<WordGroup>, Vec<WordNote>), Problem> {
    let own = desk.lesson.makes(SheetKind::Record) && record::has_own_numbers(desk)?;
    let chosen = [BankOf::Any, BankOf::Most].into_iter().filter(|_| own);
    for of in chosen.chain([BankOf::Given]) {
        let words = words::groups(desk.lesson, of);
        let notes = words::notes(desk.lesson, of, &words);
        if let Ok(bank) = Bank::fit(desk, layout, body, (&words, &notes), None) {
            return Ok((Some(bank), words, notes));
        }
    }
    let words = words::groups(desk.lesson, BankOf::Fewest);
    let notes = words::notes(desk.lesson, BankOf::Fewest, &words);
    Ok((None, words, notes))
}

/// What stands on each page: everything on one where it fits, otherwise about half the words on each, halved again as need be.
/// Notes stand at the end.
fn pages_of(
    desk: &Desk<'_>,
    layout: &Layout,
    body: Rect,
    groups: Vec<WordGroup>,
    notes: Vec<WordNote>,
) -> Result<Vec<(Bank, Vec<WordGroup>, Vec<WordNote>)>, Problem> {
    let words: usize = groups.iter().map(|group| group.words.len()).sum();
    match Bank::fit(desk, layout, body, (&groups, &notes), None) {
        Ok(bank) => Ok(vec![(bank, groups, notes)]),
        Err(problem) if words < 2 => Err(problem),
        Err(_) => {
            let at = parting(&groups, words);
            let (first, second) = halves(groups, at);
            let mut pages = pages_of(desk, layout, body, first, Vec::new())?;
            pages.extend(pages_of(desk, layout, body, second, notes)?);
            Ok(pages)
        }
    }
}

/// After how many words of all a page ends: between two groups, or in the middle of a single one.
fn parting(groups: &[WordGroup], words: usize) -> usize {
    let mut before = 0;
    let ends = groups.iter().map(|group| {
        before += group.words.len();
        before
    });
    let between = ends.filter(|end| *end < words);
    between.min_by_key(|end| (end * 2).abs_diff(words)).unwrap_or(words.div_ceil(2))
}

/// The groups up to so many words, and the rest; a group that is parted keeps its title on both pages.
fn halves(groups: Vec<WordGroup>, most: usize) -> (Vec<WordGroup>, Vec<WordGroup>) {
    let (mut first, mut second, mut left) = (Vec::new(), Vec::new(), most);
    for WordGroup { title, second: other, mut words } in groups {
        let rest = words.split_off(left.min(words.len()));
        left -= words.len();
        first.extend((!words.is_empty()).then_some(WordGroup { title: title.clone(), second: other.clone(), words }));
        second.extend((!rest.is_empty()).then_some(WordGroup { title, second: other, words: rest }));
    }
    (first, second)
}

/// Which of so many groups may stand in which column, the first choice first, each with all groups: side by side, four of them
/// in two columns of about one height, neighbours below each other, one below the other.
fn arrangements(groups: usize) -> Vec<Vec<Vec<usize>>> {
    // A column ends after a group or not: first what has the most columns.
    let mut all: Vec<Vec<Vec<usize>>> = (0..1_usize << groups.saturating_sub(1))
        .map(|ends| {
            let mut columns = vec![Vec::new()];
            for k in 0..groups {
                columns.last_mut().into_iter().for_each(|column| column.push(k));
                if k + 1 < groups && ends & (1 << k) != 0 {
                    columns.push(Vec::new());
                }
            }
            columns
        })
        .collect();
    all.sort_by_key(|columns| std::cmp::Reverse(columns.len()));
    if groups == 4 {
        all.splice(1..1, [vec![vec![0, 3], vec![1, 2]], vec![vec![0, 2], vec![1, 3]]]);
    }
    all
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
    /// The arrangement with the largest words, `most` large.
    fn fit(
        desk: &Desk<'_>,
        layout: &Layout,
        body: Rect,
        (groups, notes): (&[WordGroup], &[WordNote]),
        most: Option<Length>,
    ) -> Result<Self, Problem> {
        let (word, group) = (desk.face(layout, "word")?, desk.face(layout, "group")?);
        let note = desk.face(layout, "note")?;
        let arrangements = arrangements(groups.len());
        let mut size = most.unwrap_or(word.size);
        while size >= word.least {
            for columns in &arrangements {
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
    fn numerals(&self, desk: &Desk<'_>, groups: &[WordGroup]) -> Length {
        let bold = Face { weight: Weight::Bold, ..self.word };
        let widest = groups.iter().flat_map(|group| &group.words).map(|entry| desk.width(&entry.numeral, &bold)).max();
        widest.unwrap_or(Length::ZERO) + self.word.size.scaled(6, 10)
    }

    /// How wide the words of the lesson's language and of the second one are, with what is free between them; nothing for the
    /// second where there is none.
    fn spelt<'g>(&self, desk: &Desk<'_>, groups: impl Iterator<Item = &'g WordGroup> + Clone) -> [Length; 2] {
        let words = groups.clone().flat_map(|group| &group.words);
        let first = words.clone().map(|entry| desk.width(&entry.first, &self.word)).max().unwrap_or(Length::ZERO);
        let second = words.filter_map(|entry| entry.second.as_ref()).map(|word| desk.width(word, &self.word)).max();
        let heads = groups.filter_map(|group| group.second.as_ref()).map(|title| desk.width(title, &self.group)).max();
        match second.into_iter().chain(heads).max() {
            Some(second) => [first + self.word.size.scaled(8, 10), second],
            None => [first, Length::ZERO],
        }
    }

    /// A column for each group or pair of groups.
    fn grid(&self, body: Rect) -> Grid {
        Grid::filling(body, self.columns.len().narrow().max(1), 1, self.gutter)
    }

    fn pitch(&self) -> Length {
        self.word.size.scaled(15, 10)
    }

    fn notes_height(&self, desk: &Desk<'_>, width: Length, notes: &[WordNote]) -> Length {
        let lines: usize = notes.iter().map(|(note, _)| text::flow(desk.family, note, width, &self.note).len()).sum();
        if lines == 0 { Length::ZERO } else { text::height(lines, &self.note) + Length::mm(6) }
    }

    fn fits(&self, desk: &Desk<'_>, body: Rect, groups: &[WordGroup], notes: &[WordNote]) -> bool {
        // As wide as they are drawn, to the last hundredth of a millimetre.
        let width = self.grid(body).cell.width;
        let numerals = self.numerals(desk, groups);
        let room = body.height() - self.notes_height(desk, body.width(), notes);
        self.columns.iter().all(|column| {
            let [first, second] = self.spelt(desk, column.iter().map(|k| &groups[*k]));
            let wide = numerals + first + second <= width;
            // What is drawn is tried: a line has less room than its frame.
            let room_of_title = if second > Length::ZERO { first + numerals } else { width };
            let line = Rect::new(Point::ORIGIN, Size::new(room_of_title, self.group.pitch()));
            let align = Align { across: Across::Left, down: Down::Top };
            let titles = column.iter().all(|k| desk.set(&groups[*k].title, line, &self.group, align).is_ok());
            let high: Length = column.iter().map(|k| self.high(&groups[*k])).sum();
            wide && titles && high <= room
        })
    }

    fn high(&self, group: &WordGroup) -> Length {
        self.group.pitch() + Length::mm(2) + self.pitch() * group.words.len().wide() + Length::mm(7)
    }

    fn draw(
        &self,
        desk: &Desk<'_>,
        body: Rect,
        groups: &[WordGroup],
        notes: &[WordNote],
    ) -> Result<Vec<Node>, Problem> {
        let grid = self.grid(body);
        let numerals = self.numerals(desk, groups);
        let mut drawn = Vec::new();
        let mut lowest = body.top();
        for (area, column) in grid.cells().zip(&self.columns) {
            let mut y = area.top();
            let [first, _] = self.spelt(desk, column.iter().map(|k| &groups[*k]));
            for group in column.iter().map(|k| &groups[*k]) {
                drawn.extend(self.group(desk, area, y, [numerals, numerals + first], group)?);
                y += self.high(group);
            }
            lowest = lowest.max(y);
        }
        let mut y = lowest;
        for (note, language) in notes {
            let lines = text::flow(desk.family, note, body.width(), &self.note);
            let frame =
                Rect::new(Point::new(body.left(), y), Size::new(body.width(), text::height(lines.len(), &self.note)));
            let run = text::run(desk.family, &lines, frame, &self.note).nodes();
            drawn.push(Node::Tagged(Tag::Paragraph, within(*language, run)));
            y = frame.bottom();
        }
        Ok(drawn)
    }

    /// One group: its title, a rule and its words, each entry a paragraph for a listener. `starts` are where words of each
    /// language begin, from the left edge.
    fn group(
        &self,
        desk: &Desk<'_>,
        area: Rect,
        top: Length,
        starts: [Length; 2],
        group: &WordGroup,
    ) -> Result<Vec<Node>, Problem> {
        let line = |y: Length, high: Length, left: Length| {
            Rect::between(Point::new(area.left() + left, y), Point::new(area.right(), y + high))
        };
        let left = Align { across: Across::Left, down: Down::Top };
        let second = desk.lesson.second();
        // With one language the title is that of the whole group.
        let start = if group.second.is_some() { starts[0] } else { Length::ZERO };
        let mut title = desk.set(&group.title, line(top, self.group.pitch(), start), &self.group, left)?.nodes();
        if let Some(text) = &group.second {
            let frame = line(top, self.group.pitch(), starts[1]);
            title.extend(within(second, desk.set(text, frame, &self.group, left)?.nodes()));
        }
        let mut y = top + self.group.pitch() + Length::mm(1);
        let rule =
            Item::Line { from: Point::new(area.left(), y), to: Point::new(area.right(), y), stroke: ink::OUTLINE };
        y += Length::mm(1);
        let bold = Face { weight: Weight::Bold, ..self.word };
        let mut said = vec![Node::Tagged(Tag::Heading(2), title), Node::artifact(rule)];
        for WordEntry { numeral, first, second: other } in &group.words {
            let middle = Align { across: Across::Left, down: Down::Middle };
            let figure = Rect::new(Point::new(area.left(), y), Size::new(starts[0], self.pitch()));
            let mut entry = desk.set(numeral, figure, &bold, middle)?.nodes();
            entry.extend(desk.set(first, line(y, self.pitch(), starts[0]), &self.word, middle)?.nodes());
            if let Some(other) = other {
                let spelt = desk.set(other, line(y, self.pitch(), starts[1]), &self.word, middle)?;
                entry.extend(within(second, spelt.nodes()));
            }
            said.push(Node::Tagged(Tag::Paragraph, entry));
            y += self.pitch();
        }
        Ok(said)
    }
}
