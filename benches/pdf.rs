//! Pages a second: the workload of one board, one set of strips and one answered board for each learner, every learner
//! with other numbers, against deflating and writing alone: the same page streams, and all streams of the same file, which
//! are the pages' and the structure's.
//!
//! `cargo bench --bench pdf` prints a table; with `-- --check` it only runs the smallest class once.

#![allow(clippy::pedantic, clippy::unwrap_used, reason = "tests and benches fail by unwrapping and read best plain")]

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::sync::Arc;
use std::time::Instant;

use hayro_syntax::Pdf;
use hayro_syntax::object::{Array, MaybeRef, Object, ObjectIdentifier, Stream};
use placewright::lesson::Version;
use placewright::lesson::job::PrintSides;
use placewright::measure::fonts::{Bundled, bundled};
use placewright::measure::{Family, Length, Point, Rect, Size, Weight};
use placewright::pdf::{Common, Deflater, FileHead, write_pages};
use placewright::sheets::page::{Item, Layer, Node, Page, Paint, Reader, Scope, Stock, Stroke, Symbol, Tag, Text};
use placewright::spec::SheetKind;

const ROWS: usize = 8;
const PAPER: Size = Size::new(Length::pt(612), Length::pt(792));
const OUTLINE: Stroke = Stroke { width: Length::pt100(75), paint: Paint::BLACK, dash: None };

/// What all learners share.
struct Furniture {
    /// A symbol for each digit 1..=9 of hundreds, tens and ones.
    digits: [Vec<Arc<Symbol>>; 3],
    board: Arc<Layer>,
    strips: Arc<Layer>,
}

fn rect(x: i64, y: i64, width: i64, height: i64) -> Rect {
    let tenths = |value| Length::mm100(value * 10);
    Rect::new(Point::new(tenths(x), tenths(y)), Size::new(tenths(width), tenths(height)))
}

fn outline(rect: Rect) -> Item {
    Item::Rect { rect, fill: None, stroke: Some(OUTLINE) }
}

fn text(words: &str, at: Point, size: i64) -> Node {
    Node::Item(Item::Text(Text {
        at,
        size: Length::pt(size),
        weight: Weight::Regular,
        text: words.to_owned(),
        paint: Paint::BLACK,
        reader: Reader::Learner,
        frame: Rect::new(at, Size::new(Length::mm(40), Length::mm(6))),
    }))
}

/// `count` blocks of one place side by side: flats 12 mm, rods 1.2 mm, cubes 1.2 mm wide.
fn digit(place: usize, count: i64) -> Arc<Symbol> {
    let (wide, high, step) = [(120, 120, 130), (12, 120, 15), (12, 12, 15)][place];
    let mut items = Vec::new();
    for k in 0..count {
        let block = rect(k * step, 0, wide, high);
        items.push(outline(block));
        for line in 1..10 {
            let (x, y) = (block.left() + Length::mm100(120 * line), Length::mm100(120 * line));
            if place == 0 {
                items.push(Item::Line {
                    from: Point::new(x, block.top()),
                    to: Point::new(x, block.bottom()),
                    stroke: OUTLINE,
                });
            }
            if place < 2 {
                items.push(Item::Line {
                    from: Point::new(block.left(), y),
                    to: Point::new(block.right(), y),
                    stroke: OUTLINE,
                });
            }
        }
    }
    Arc::new(Symbol { size: rect(0, 0, step * count, high).size(), items })
}

fn cell(column: usize, row: usize) -> Rect {
    let (column, row) = (i64::try_from(column).unwrap_or(0), i64::try_from(row).unwrap_or(0));
    rect(127 + column * 475, 300 + row * 290, 475, 290)
}

impl Furniture {
    fn new() -> Self {
        let digits = [0, 1, 2].map(|place| (1..=9).map(|count| digit(place, count)).collect());
        let cells = |rows: usize, columns: usize| -> Vec<Item> {
            (0..rows).flat_map(|row| (0..columns).map(move |column| outline(cell(column, row)))).collect()
        };
        let heads = ["numeral", "expanded form", "number words", "blocks"];
        let head = (0..).zip(heads).map(|(column, head)| {
            let place = cell(column, 0).origin().moved(Length::mm(2), -Length::mm(2));
            Node::Tagged(Tag::HeaderCell(Scope::Column), vec![text(head, place, 14)])
        });
        let board = Layer {
            nodes: vec![
                Node::Tagged(
                    Tag::Heading(1),
                    vec![text("Harbour stalls", Point::new(Length::mm(15), Length::mm(15)), 20)],
                ),
                Node::Artifact(cells(ROWS, 4)),
                Node::Tagged(Tag::Table, vec![Node::Tagged(Tag::Row, head.collect())]),
            ],
            ..Layer::default()
        };
        let strips = Layer { nodes: vec![Node::Artifact(cells(ROWS, 3))], ..Layer::default() };
        Self { digits, board: Arc::new(board), strips: Arc::new(strips) }
    }

    fn picture(&self, number: usize, room: Rect) -> Node {
        let digits = [number / 100, number / 10 % 10, number % 10];
        let mut at = room.origin().moved(Length::mm(2), Length::mm(2));
        let mut items = Vec::new();
        for (symbols, digit) in self.digits.iter().zip(digits).filter(|(_, digit)| *digit > 0) {
            let symbol = &symbols[digit - 1];
            items.push(Node::Item(Item::Symbol { symbol: Arc::clone(symbol), at }));
            at = at.moved(symbol.size.width + Length::mm(1), Length::ZERO);
        }
        let alternative = format!("{} flats, {} rods, {} cubes", digits[0], digits[1], digits[2]);
        Node::Tagged(Tag::Figure(alternative), items)
    }
}

fn words(number: usize) -> String {
    const ONES: [&str; 10] = ["", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"];
    const TENS: [&str; 10] = ["", "ten", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];
    format!("{} hundred {} {}", ONES[number / 100], TENS[number / 10 % 10], ONES[number % 10])
}

fn expanded(number: usize) -> String {
    format!("{} + {} + {}", number / 100 * 100, number / 10 % 10 * 10, number % 10)
}

fn page(sheet: SheetKind, learner: usize, layers: Vec<Arc<Layer>>) -> Page {
    Page {
        size: PAPER,
        sheet,
        version: Some(Version(0)),
        learner: u32::try_from(learner + 1).ok(),
        stock: Stock::Paper,
        name: sheet.word().to_owned(),
        layers,
    }
}

/// The three pages of a learner.
fn learner(learner: usize, furniture: &Furniture) -> [Page; 3] {
    let numbers: [usize; ROWS] = std::array::from_fn(|k| 100 + (learner * 97 + k * 131) % 900);
    let at = |place: Rect| place.origin().moved(Length::mm(3), Length::mm(16));
    let board = |answered: bool| {
        let rows = (0..).zip(numbers).map(|(row, number)| {
            let mut cells =
                vec![Node::Tagged(Tag::HeaderCell(Scope::Row), vec![text(&number.to_string(), at(cell(0, row)), 20)])];
            let answers = [
                text(&expanded(number), at(cell(1, row)), 14),
                text(&words(number), at(cell(2, row)), 9),
                furniture.picture(number, cell(3, row)),
            ];
            cells.extend(
                answers.map(|answer| Node::Tagged(Tag::Cell, if answered { vec![answer] } else { Vec::new() })),
            );
            Node::Tagged(Tag::Row, cells)
        });
        let own = Layer { nodes: vec![Node::Tagged(Tag::Table, rows.collect())], ..Layer::default() };
        vec![Arc::clone(&furniture.board), Arc::new(own)]
    };
    let pieces = (0..).zip(numbers).flat_map(|(row, number)| {
        [
            Node::Tagged(Tag::Paragraph, vec![text(&expanded(number), at(cell(0, row)), 14)]),
            Node::Tagged(Tag::Paragraph, vec![text(&words(number), at(cell(1, row)), 9)]),
            furniture.picture(number, cell(2, row)),
        ]
    });
    let strips = Layer { nodes: pieces.collect(), ..Layer::default() };
    [
        page(SheetKind::Board, learner, board(false)),
        page(SheetKind::Strips, learner, vec![Arc::clone(&furniture.strips), Arc::new(strips)]),
        page(SheetKind::Key, learner, board(true)),
    ]
}

/// The file of a class, whose pages are made before the clock starts; the seconds it takes.
fn ours(pages: &[Page], family: &Family, threads: usize) -> (f64, Vec<u8>) {
    let head = FileHead { title: "Harbour stalls".to_owned(), language: "en-US", sides: PrintSides::One };
    let start = Instant::now();
    let bytes = write_pages(Vec::new(), &head, &Common::new(family), threads, pages.iter())
        .unwrap_or_else(|failure| panic!("{failure:?}"));
    (start.elapsed().as_secs_f64(), bytes)
}

/// Deflates streams one by one, each as the program does, and writes them; the seconds it takes.
fn alone(streams: &[Vec<u8>]) -> f64 {
    let start = Instant::now();
    let mut deflater = Deflater::many();
    let mut out = Vec::new();
    for stream in streams {
        let deflated = deflater.deflate(stream).unwrap_or_else(|problem| panic!("{problem}"));
        out.extend_from_slice(deflated.unwrap_or(stream));
    }
    std::hint::black_box(out);
    start.elapsed().as_secs_f64()
}

/// All that a file holds in streams: what pages draw, and objects, most of them structure.
fn all_streams(pdf: &Pdf) -> Vec<Vec<u8>> {
    let streams = pdf.objects().into_iter().filter_map(|object| match object {
        Object::Stream(stream) => Some(stream.decoded().expect("whole").to_vec()),
        _ => None,
    });
    streams.collect()
}

/// What the pages of a file draw: each of their streams once, however many pages show it.
fn streams(pdf: &Pdf) -> Vec<Vec<u8>> {
    let mut seen = BTreeSet::new();
    let mut found = Vec::new();
    for page in pdf.pages().iter() {
        let contents = page.raw();
        let one = contents.get_ref("Contents").map(Into::into);
        let several = contents.get::<Array<'_>>("Contents").into_iter().flat_map(|array| {
            let ids = array.raw_iter().filter_map(|item| match item {
                MaybeRef::Ref(id) => Some(ObjectIdentifier::from(id)),
                MaybeRef::NotRef(_) => None,
            });
            ids.collect::<Vec<_>>()
        });
        let ids: Vec<ObjectIdentifier> = several.collect();
        for id in if ids.is_empty() { one.into_iter().collect() } else { ids } {
            if seen.insert(id.obj_number) {
                let stream = pdf.xref().get::<Stream<'_>>(id).expect("a content stream");
                found.push(stream.decoded().expect("whole").to_vec());
            }
        }
    }
    found
}

/// The median of five.
fn median(mut run: impl FnMut() -> f64) -> f64 {
    let mut times: Vec<f64> = (0..5).map(|_| run()).collect();
    times.sort_by(f64::total_cmp);
    times[2]
}

fn main() {
    let check = std::env::args().any(|argument| argument == "--check" || argument == "--test");
    let family = bundled(Bundled::Andika).unwrap_or_else(|problem| panic!("{problem}"));
    let furniture = Furniture::new();
    let mut table = String::from(
        "| learners | pages | threads | pages/s | deflate and write page streams alone, pages/s | ratio | all streams alone, pages/s | ratio | bytes | bytes a page |\n|--|--|--|--|--|--|--|--|--|--|\n",
    );
    for learners in if check { vec![1] } else { vec![1, 30, 300, 3000] } {
        let pages: Vec<Page> = (0..learners).flat_map(|k| learner(k, &furniture)).collect();
        let (_, bytes) = ours(&pages, &family, 1);
        let pdf = Pdf::new(bytes.clone()).unwrap_or_else(|error| panic!("{error:?}"));
        let (streams, all) = (streams(&pdf), all_streams(&pdf));
        #[allow(clippy::cast_precision_loss, reason = "counts of pages are small")]
        let count = pages.len() as f64;
        let limit = count / median(|| alone(&streams));
        let whole = count / median(|| alone(&all));
        for threads in [1, 2] {
            let speed = count / median(|| ours(&pages, &family, threads).0);
            let _ = writeln!(
                table,
                "| {learners} | {} | {threads} | {speed:.0} | {limit:.0} | {:.2} | {whole:.0} | {:.2} | {} | {} |",
                pages.len(),
                limit / speed,
                whole / speed,
                bytes.len(),
                bytes.len() / pages.len(),
            );
        }
        if let Some(path) = std::env::var_os("PLACEWRIGHT_BENCH_FILE") {
            let _ = std::fs::write(path, &bytes);
        }
    }
    println!("{table}");
}
