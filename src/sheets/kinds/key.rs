//! The key: every board answered, and what each decoy reveals.
//!
//! In: the sort sets, checks and slips. Out: pages for grown-ups, version after version: the board with all its forms, then
//! the decoys, each with the slip that makes it. What all versions share comes last: the quick checks answered, and what
//! each slip's letter means and what helps. A sheet with answers of its own adds [`TitledTable`]s to [`parts`].

use std::sync::Arc;

use crate::diag::Problem;
use crate::lesson::teach::rows_written;
use crate::lesson::{InPlay, Lesson, SortSet, Strip, Version, groups};
use crate::measure::{Count, Length, Point, Rect, Size, Weight};
use crate::number::{Breadth, Content, Form, Number, Slip, Task};
use crate::sheets::blocks::geometry::{Arranged, Counts};
use crate::sheets::blocks::picture::Pictures;
use crate::sheets::flow::table::{self, Table, TableCell, TableColumn};
use crate::sheets::flow::titled::{self, TablePages, TitledTable, TitledTables};
use crate::sheets::flow::widths::ColumnWidth;
use crate::sheets::kinds::described::{cell, pictured};
use crate::sheets::kinds::pieces;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::layout::{Layout, Turn};
use crate::sheets::page::text::{Across, Align, Down, Face};
use crate::sheets::page::{Layer, Page};
use crate::spec::SheetKind;
use crate::wording::Tools;
use crate::wording::plan::RowsBy;

/// Lays the key of every version out, each beginning on a page of its own. Pictures are as large as they can be without
/// costing a page.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let mut pages = answered(desk)?;
    let mut parts = crate::sheets::kinds::exit::key(desk)?;
    parts.extend(crate::sheets::kinds::practice::key(desk));
    parts.extend(slips(desk)?);
    if !parts.is_empty() {
        let layout = desk.layout(SheetKind::Key)?;
        // What all versions share.
        let title = shared_title(desk.lesson);
        let setup = TablePages { kind: SheetKind::Key, layout, title, note: None, pictures: None };
        let laid = titled::lay(desk, &setup, &parts)?;
        pages.extend(laid.into_iter().map(|page| Page { name: title.to_owned(), ..page }));
    }
    Ok(pages)
}

/// The title of the pages that all versions share: what is answered there.
pub fn shared_title(lesson: &Lesson) -> &'static str {
    let checks = lesson.makes(SheetKind::Exit) && !lesson.checks.is_empty();
    lesson.wording().shared_key_title(checks, lesson.makes(SheetKind::Practice), !lesson.slips.is_empty())
}

/// What the letters of slips mean, here and on the tally.
fn slips(desk: &Desk<'_>) -> Result<Option<TitledTable>, Problem> {
    if desk.lesson.slips.is_empty() {
        return Ok(None);
    }
    let layout = desk.layout(SheetKind::Key)?;
    let face = desk.face(layout, "text")?;
    let tools = desk.lesson.tools(desk.lesson.spec.numbers.range.value.1);
    let kits = desk.lesson.kits();
    let row = |in_play: &InPlay| {
        // What helps, helps with all that learners can be seen to do; what is thought, with the example beside it.
        let against: Vec<Tools> =
            in_play.seen.iter().map(|wrong| groups::tools_against(desk.lesson, &kits, wrong)).collect();
        let tools = Tools {
            blocks: tools.blocks && against.iter().all(|own| own.blocks),
            cards: tools.cards && against.iter().all(|own| own.cards),
            ..tools
        };
        let example_read = against.first().map_or(tools.read, |own| own.read);
        let text = |text: &str| TableCell::Text(text.to_owned());
        vec![
            TableCell::Bold(in_play.letter.to_string()),
            TableCell::Bold(desk.lesson.wording().slip_name(in_play.slip).to_owned()),
            TableCell::Text(example(desk, in_play)),
            text(desk.lesson.wording().slip_thinking(in_play.slip, example_read)),
            text(desk.lesson.wording().slip_next(in_play.slip, tools)),
        ]
    };
    let letter = ColumnWidth::Fixed(table::natural(desk, ["m"].into_iter(), &face, layout.padding));
    let wording = desk.lesson.wording();
    let [slip, here, thinks, next] = wording.letters_heads();
    let columns = [
        ("", letter),
        (slip, ColumnWidth::Share(4)),
        (here, ColumnWidth::Share(5)),
        (thinks, ColumnWidth::Share(6)),
        (next, ColumnWidth::Share(7)),
    ];
    let (heading, note) = wording.letters();
    Ok(Some(TitledTable {
        heading: heading.to_owned(),
        note: Some(note.to_owned()),
        table: Table {
            columns: columns.into_iter().map(|(h, width)| TableColumn { heading: h.to_owned(), width }).collect(),
            rows: desk.lesson.slips.iter().map(row).collect(),
        },
    }))
}

/// What a slip looks like in this lesson: "46 for four hundred six".
pub fn example(desk: &Desk<'_>, in_play: &InPlay) -> String {
    let Some(wrong) = in_play.seen.first() else { return String::new() };
    let style = &desk.lesson.style;
    let wording = desk.lesson.wording();
    let answer = pictured(desk, &wrong.content);
    match wrong.task {
        Task::Forms { shown, .. } => {
            let shown = shown.content(wrong.of, style).map(|content| pictured(desk, &content)).unwrap_or_default();
            wording.answer_for(&answer, &shown)
        }
        Task::Worth(place) => wording.worth_taken(&answer, wrong.of.digit(place), &style.numeral(wrong.of)),
        Task::Greater(other) => {
            let (one, two) = (style.numeral(wrong.of), style.numeral(other));
            wording.greater_taken(&answer, [&one, &two])
        }
    }
}

/// The keys of all versions, with pictures at the largest unit that takes the fewest pages, and what they hold beside them.
/// Where the other columns leave no room for both, it is told in words alone: a picture that nobody can count answers nothing.
fn answered(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let layout = desk.layout(SheetKind::Key)?;
    let lesson = desk.lesson;
    let sorts = lesson.makes(SheetKind::Board) || lesson.makes(SheetKind::Strips);
    if !sorts && lesson.load().rows == 0 {
        // Nobody writes them, for want of time.
        return Ok(Vec::new());
    }
    let (least, most) = (layout.length("least_unit")?, layout.length("unit")?);
    // The same at every unit, and costly to find out.
    let told = Told { decoys: lesson.sets.iter().map(Decoy::all).collect(), written: rows_written(lesson) };
    let drawn = drawn(desk)?;
    let in_words = || keys(desk, layout, &told, None, |_| true).map(|(_, pages)| pages.unwrap_or_default());
    if drawn.is_empty() {
        return in_words();
    }
    let room = Size::new(layout.length("picture_width")?, layout.length("picture_height")?);
    let smaller = |unit: &Length| (*unit > least).then(|| (*unit - UNIT_STEP).max(least));
    let arranged = Arranged::of(&drawn);
    let mut best: Option<(usize, Pictures)> = None;
    for unit in std::iter::successors(Some(most), smaller) {
        let Some(work) = arranged.at(unit, room.width).filter(|work| work.size().fits(room)) else {
            continue;
        };
        let pictures = Pictures::new(work, desk.ink(), desk.lesson.wording());
        match keys(desk, layout, &told, Some(&pictures), |count| count == desk.lesson.sets.len()) {
            Ok((_, Some(pages))) => return Ok(pages),
            Ok((count, None)) if best.as_ref().is_none_or(|(fewest, _)| count < *fewest) => {
                best = Some((count, pictures));
            }
            Ok(_) | Err(_) => {}
        }
    }
    let Some((_, pictures)) = best else { return in_words() };
    keys(desk, layout, &told, Some(&pictures), |_| true).map(|(_, pages)| pages.unwrap_or_default())
}

/// Units are tried in steps of this.
const UNIT_STEP: Length = Length::mm100(10);

/// What keys say whatever the size of their pictures.
struct Told<'s> {
    /// The decoys of each set.
    decoys: Vec<Vec<Decoy<'s>>>,
    /// How rows are done.
    written: RowsBy,
}

/// How many pages the keys of all versions take with pictures of one size, and the pages where so many are worth drawing.
fn keys(
    desk: &Desk<'_>,
    layout: &Layout,
    told: &Told<'_>,
    pictures: Option<&Pictures>,
    worth: impl Fn(usize) -> bool,
) -> Result<(usize, Option<Vec<Page>>), Problem> {
    let mut keys = Vec::new();
    for (set, decoys) in desk.lesson.sets.iter().zip(&told.decoys) {
        let parts = [Some(board(desk, set, told.written, pictures)?), revealed(desk, set, decoys, pictures)?];
        keys.push(Key::of(desk, set, parts.into_iter().flatten().collect()));
    }
    let on: Vec<TablePages<'_>> = keys.iter().map(|key| key.on(layout, pictures)).collect();
    let (mut count, mut tables) = (0, Vec::new());
    for (key, on) in keys.iter().zip(&on) {
        let mut set = TitledTables::set(desk, on, &key.parts)?;
        let (spread, extent) = set.closer()?;
        count += extent.pages;
        tables.push((key, set, spread));
    }
    if !worth(count) {
        return Ok((count, None));
    }
    let mut pages = Vec::new();
    for (key, mut tables, spread) in tables {
        for page in tables.drawn(spread)? {
            let mut page = desk.versioned(page, key.version);
            if desk.lesson.sets.len() > 1 {
                page.layers.push(letter(desk, layout, &page, key.version)?);
            }
            pages.push(page);
        }
    }
    Ok((count, Some(pages)))
}

/// What stands in one version's key.
struct Key {
    version: Version,
    title: String,
    note: Option<String>,
    parts: Vec<TitledTable>,
}

impl Key {
    fn of(desk: &Desk<'_>, set: &SortSet, parts: Vec<TitledTable>) -> Self {
        let wording = desk.lesson.wording();
        let title = if desk.lesson.sets.len() == 1 {
            wording.sheet_title(SheetKind::Key).to_owned()
        } else {
            wording.page_name(SheetKind::Key, Some(set.version))
        };
        let shares = desk.lesson.shares();
        let note = set.group.and_then(|at| shares.get(at)).map(|share| wording.whose_key(share));
        Self { version: set.version, title, note, parts }
    }

    /// The pages that it goes on.
    fn on<'k>(&'k self, layout: &'k Layout, pictures: Option<&'k Pictures>) -> TablePages<'k> {
        TablePages { kind: SheetKind::Key, layout, title: &self.title, note: self.note.as_deref(), pictures }
    }
}

/// A set's letter at the upper right; the title says it too, so that nobody need hear it twice.
fn letter(desk: &Desk<'_>, layout: &Layout, page: &Page, version: Version) -> Result<Arc<Layer>, Problem> {
    let face = desk.face(layout, "letter")?;
    let live = desk.live(page.size, layout);
    let frame = Rect::between(
        Point::new(live.right() - face.size * 2, live.top()),
        Point::new(live.right(), live.top() + face.pitch()),
    );
    let align = Align { across: Across::Right, down: Down::Top };
    let set = desk.set(&version.to_string(), frame, &face, align)?.artifact();
    Ok(Arc::new(Layer { nodes: vec![set], ..Layer::default() }))
}

/// The board with every box filled.
fn board(desk: &Desk<'_>, set: &SortSet, written: RowsBy, pictures: Option<&Pictures>) -> Result<TitledTable, Problem> {
    let layout = desk.layout(SheetKind::Key)?;
    let face = desk.face(layout, "text")?;
    let forms: Vec<Form> = [set.given].into_iter().chain(set.forms.iter().copied()).collect();
    let mut rows = Vec::new();
    for &number in &set.rows {
        let cells = forms.iter().enumerate().map(|(k, &form)| {
            let weight = if k == 0 { Weight::Bold } else { Weight::Regular };
            Ok(shown(desk, form, &pieces::shown(set, number, form)?, weight, pictures))
        });
        rows.push(cells.collect::<Result<Vec<_>, Problem>>()?);
    }
    let columns = forms.iter().enumerate().map(|(k, form)| {
        let heading = desk.lesson.set_heading(set, *form);
        let texts = rows.iter().filter_map(|row| match row.get(k) {
            Some(TableCell::Text(text) | TableCell::Bold(text)) => Some(text.as_str()),
            _ => None,
        });
        let width = match form.breadth() {
            Breadth::Picture => {
                let cells = rows.iter().filter_map(|row| row.get(k));
                let widest = widest_picture(desk, cells, pictures, &face);
                widest.map_or(ColumnWidth::Share(4), |widest| ColumnWidth::Fixed(widest + layout.padding * 2))
            }
            Breadth::Natural => ColumnWidth::Fixed(table::natural(desk, texts.chain([heading]), &face, layout.padding)),
            Breadth::Share(parts) => ColumnWidth::Share(parts),
        };
        TableColumn { heading: heading.to_owned(), width }
    });
    let columns = columns.collect();
    Ok(TitledTable {
        heading: desk.lesson.wording().board_answered(set.version, desk.lesson.makes(SheetKind::Board)),
        note: other_trades(desk.lesson, set, written),
        table: Table { columns, rows },
    })
}

/// That other trades are right than those of the key, where learners write them.
fn other_trades(lesson: &Lesson, set: &SortSet, written: RowsBy) -> Option<String> {
    set.forms.iter().any(|form| form.is_traded()).then_some(())?;
    let instead = match written {
        RowsBy::Matching => return None,
        RowsBy::Writing => false,
        RowsBy::WritingUncut => true,
    };
    let trading = set.style.trading;
    let (number, counted) = set.rows.iter().find_map(|number| Some((*number, trading.other(*number)?)))?;
    Some(lesson.wording().other_trades(&set.style.numeral(number), &counted, instead))
}

/// A strip that a slip made of a number.
struct Decoy<'s> {
    strip: &'s Strip,
    of: Number,
    slip: Slip,
    /// The numeral of what it shows, so that nobody need count it or work it out; empty where that is no number, or is a
    /// numeral already.
    shows: String,
}

impl<'s> Decoy<'s> {
    /// What is read off a strip of a set; `None` of one that is right.
    fn read(set: &'s SortSet, strip: &'s Strip) -> Option<Self> {
        let (of, slip) = strip.wrong?;
        let worth = strip.content.worth(strip.form, set.style.names).filter(|_| strip.form != Form::Numeral);
        let shows = worth
            .and_then(|worth| Number::new(u32::try_from(worth).ok()?))
            .or_else(|| named(set, strip, of))
            .map(|worth| set.style.numeral(worth))
            .unwrap_or_default();
        Some(Self { strip, of, slip, shows })
    }

    /// Those of a set, row after row.
    fn all(set: &'s SortSet) -> Vec<Self> {
        let mut all: Vec<Self> = set.strips.iter().filter_map(|strip| Self::read(set, strip)).collect();
        all.sort_by_key(|decoy| (set.rows.iter().position(|row| *row == decoy.of), decoy.strip.form, decoy.slip));
        all
    }
}

/// What the decoys of a set reveal, if there are any.
fn revealed(
    desk: &Desk<'_>,
    set: &SortSet,
    decoys: &[Decoy<'_>],
    pictures: Option<&Pictures>,
) -> Result<Option<TitledTable>, Problem> {
    if decoys.is_empty() {
        return Ok(None);
    }
    let layout = desk.layout(SheetKind::Key)?;
    let face = desk.face(layout, "text")?;
    let mut rows = Vec::new();
    for &Decoy { strip, of, slip, ref shows } in decoys {
        let shown = shown(desk, strip.form, &strip.content, Weight::Bold, pictures);
        let (number, of) = (of, set.style.numeral(of));
        let letter = desk.lesson.letter(slip).map(|letter| format!("{letter}, ")).unwrap_or_default();
        let name = format!("{letter}{}", desk.lesson.wording().slip_name(slip));
        let thinking = desk.lesson.wording().slip_thinking(slip, desk.lesson.tools(number).read);
        let text = |text: &str| TableCell::Text(text.to_owned());
        rows.push(vec![shown, text(shows), text(&of), text(&name), text(thinking)]);
    }
    let wide =
        |rows: &[Vec<TableCell>]| widest_picture(desk, rows.iter().filter_map(|row| row.first()), pictures, &face);
    let wording = desk.lesson.wording();
    let [piece, reads, made, mistake, thinks] = wording.decoys_heads();
    let numerals: Vec<String> = set.rows.iter().map(|number| set.style.numeral(*number)).collect();
    let made_of = table::natural(desk, numerals.iter().map(String::as_str).chain([made]), &face, layout.padding);
    let values = rows.iter().filter_map(|row| match row.get(1) {
        Some(TableCell::Text(value)) => Some(value.as_str()),
        _ => None,
    });
    let shows = table::natural(desk, values.chain([reads]), &face, layout.padding);
    let names: Vec<&str> = rows
        .iter()
        .filter_map(|row| match row.get(3) {
            Some(TableCell::Text(name)) => Some(name.as_str()),
            _ => None,
        })
        .collect();
    let slip = table::natural(desk, names.iter().flat_map(|name| name.split(' ')), &face, layout.padding);
    let slip = slip.max(layout.length("slip")?);
    let mut widest = wide(&rows);
    let page = desk.live(desk.page(layout.turns.first().copied().unwrap_or(Turn::Portrait)), layout).width();
    let most = page - layout.padding * 2 - shows - made_of - slip - layout.length("thinks")?;
    if widest.is_some_and(|widest| widest > most) {
        // A line for each kind of block beside a picture leaves the most for what the learner thinks.
        for (row, decoy) in rows.iter_mut().zip(decoys) {
            if let (Some(TableCell::Picture(_, told)), Content::Blocks(counts)) =
                (row.first_mut(), &decoy.strip.content)
            {
                *told = wording.blocks_each(*counts);
            }
        }
        widest = wide(&rows);
    }
    let strip = match widest {
        Some(width) => ColumnWidth::Fixed((width + layout.padding * 2).max(layout.length("strip")?)),
        None => ColumnWidth::Share(4),
    };
    let mut columns = vec![
        (piece, strip),
        (reads, ColumnWidth::Fixed(shows)),
        (made, ColumnWidth::Fixed(made_of)),
        (mistake, ColumnWidth::Fixed(slip)),
        (thinks, ColumnWidth::Share(8)),
    ];
    if widest.is_none() {
        // A text says what it shows.
        columns.remove(1);
        for row in &mut rows {
            row.remove(1);
        }
    }
    let (heading, note) = wording.decoys();
    Ok(Some(TitledTable {
        heading: heading.to_owned(),
        note: Some(note.to_owned()),
        table: Table {
            columns: columns.into_iter().map(|(h, width)| TableColumn { heading: h.to_owned(), width }).collect(),
            rows,
        },
    }))
}

/// The number that a wrong strip's words name, of as many digits as the right one at most; none for words that name no number,
/// and for numbers so large that they are read as quickly as looked up.
fn named(set: &SortSet, strip: &Strip, made: Number) -> Option<Number> {
    if !strip.form.is_words() || made > Number::MAX_BLOCKS {
        return None;
    }
    let end = 10_u32.pow(made.len().narrow());
    let says = |number: &Number| strip.form.content(*number, &set.style).as_ref() == Some(&strip.content);
    (0..end).filter_map(Number::new).find(says)
}

/// What a strip shows, as a cell.
fn shown(desk: &Desk<'_>, form: Form, content: &Content, weight: Weight, pictures: Option<&Pictures>) -> TableCell {
    match cell(desk, form, content, weight) {
        TableCell::Picture(..) if pictures.is_none() => match weight {
            Weight::Bold => TableCell::Bold(pictured(desk, content)),
            Weight::Regular => TableCell::Text(pictured(desk, content)),
        },
        cell => cell,
    }
}

/// The widest of the pictures in some cells, with what stands beside it; none where there are no pictures.
fn widest_picture<'c>(
    desk: &Desk<'_>,
    cells: impl Iterator<Item = &'c TableCell>,
    pictures: Option<&Pictures>,
    face: &Face,
) -> Option<Length> {
    let wide = |cell| match (cell, pictures) {
        (&TableCell::Picture(counts, ref told), Some(pictures)) => {
            Some(table::pictured(desk, pictures, counts, told, face))
        }
        _ => None,
    };
    cells.filter_map(wide).max()
}

/// All pictures of all versions' keys.
fn drawn(desk: &Desk<'_>) -> Result<Vec<Counts>, Problem> {
    let mut all: Vec<Counts> = Vec::new();
    for set in &desk.lesson.sets {
        all.extend(set.strips.iter().filter_map(|strip| match strip.content {
            Content::Blocks(counts) => Some(counts),
            Content::Text(_) | Content::Both(_) => None,
        }));
        if set.given.is_picture() {
            for &number in &set.rows {
                if let Content::Blocks(counts) = pieces::shown(set, number, set.given)? {
                    all.push(counts);
                }
            }
        }
    }
    all.sort_unstable();
    all.dedup();
    Ok(all)
}
