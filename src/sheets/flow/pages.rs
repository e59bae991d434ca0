//! Pages that are filled from the top, one thing below the other.
//!
//! In: how the pages are headed, and what comes next, with the room it needs to begin. Out: finished pages. A heading is
//! held back until what it heads is known, so that it never ends a page.

use crate::diag::Problem;
use crate::measure::{Length, Rect, Size};
use crate::sheets::flow::column::Column;
use crate::sheets::flow::even::{Extent, Pass, Spread};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::head::{self, Head, Headed};
use crate::sheets::page::layout::{Layout, Turn};
use crate::sheets::page::text::Face;
use crate::sheets::page::{Layer, Node, Page, Reader, Tag};
use crate::spec::SheetKind;

/// Which pages are filled.
#[derive(Debug, Clone)]
pub struct Setup<'s> {
    /// The sheet.
    pub kind: SheetKind,
    /// Its layout.
    pub layout: &'s Layout,
    /// The heading of the first page.
    pub first: Heading,
    /// The heading of each page after it.
    pub later: Heading,
    /// The widest line that is easy to read; `None` for all the room there is.
    pub widest: Option<Length>,
}

/// The heading of a page for grown-ups.
#[derive(Debug, Clone, Default)]
pub struct Heading {
    /// Its title.
    pub title: String,
    /// A line below it.
    pub note: Option<String>,
}

/// A text that stays with what follows it: a heading, or a sentence below one.
#[derive(Debug, Clone)]
pub struct Lead {
    /// The text.
    pub text: String,
    /// Its type.
    pub face: Face,
    /// What it is.
    pub tag: Tag,
    /// The room above it, which the top of a page does without.
    pub above: Length,
    /// The room below it.
    pub below: Length,
}

/// Pages that are being filled.
#[derive(Debug)]
pub struct Flow<'a> {
    desk: &'a Desk<'a>,
    setup: Setup<'a>,
    size: Size,
    done: Vec<Page>,
    /// How many pages are finished, drawn or not.
    count: usize,
    pass: Pass,
    headed: Headed,
    nodes: Vec<Node>,
    column: Column<'a>,
    /// What waits to be set, each with how high its text stands.
    waiting: Vec<(Lead, Length)>,
    /// How far down pages are filled, in percent.
    depth: i64,
    /// The heading that was set last: what goes on over a page goes on under it.
    under: Option<Lead>,
    /// Whether that heading stands again above whatever goes on over a page, not only above tables.
    sections: bool,
}

impl<'a> Flow<'a> {
    /// A first, empty page.
    pub fn new(desk: &'a Desk<'a>, setup: Setup<'a>) -> Result<Self, Problem> {
        let size = desk.page(setup.layout.turns.first().copied().unwrap_or(Turn::Portrait));
        let headed = headed(desk, &setup, size, &setup.first)?;
        let column = Column::new(desk, headed.body);
        Ok(Self {
            desk,
            setup,
            size,
            done: Vec::new(),
            count: 0,
            pass: Pass::Drawn,
            headed,
            nodes: Vec::new(),
            column,
            waiting: Vec::new(),
            depth: Spread::USUAL.depth,
            under: None,
            sections: false,
        })
    }

    /// The same, with pages that are filled so far down only; for pages on which nothing stands yet.
    #[must_use]
    pub fn to_depth(mut self, depth: i64) -> Self {
        self.depth = depth;
        self.column = Column::new(self.desk, self.deep());
        self
    }

    /// The same, drawn or only measured.
    #[must_use]
    pub fn on(mut self, pass: Pass) -> Self {
        self.pass = pass;
        self
    }

    /// Whether pages are drawn.
    pub fn draws(&self) -> bool {
        self.pass == Pass::Drawn
    }

    /// The room of a page that is filled.
    fn deep(&self) -> Rect {
        let all = self.headed.body;
        Rect::new(all.origin(), Size::new(all.width(), all.height().scaled(self.depth, 100)))
    }

    /// How much of this page is filled, in percent of all its room.
    fn filled(&self) -> i64 {
        let (used, all) = (self.column.y - self.headed.body.top(), self.headed.body.height());
        used.to_raw() * 100 / all.to_raw().max(1)
    }

    /// The finished pages. Fails when a heading that nothing followed does not fit.
    pub fn finish(self) -> Result<Vec<Page>, Problem> {
        self.laid().map(|(pages, _)| pages)
    }

    /// The finished pages, none where they were only measured, and what they come to.
    pub fn laid(mut self) -> Result<(Vec<Page>, Extent), Problem> {
        let last = self.filled();
        // The gap after the last part may reach beyond the page: that begins no other.
        if !self.waiting.is_empty() {
            self.begin(Length::ZERO)?;
        }
        self.close();
        Ok((self.done, Extent { pages: self.count, last }))
    }

    /// Names the section again on each page that begins within it.
    #[must_use]
    pub fn with_sections(mut self) -> Self {
        self.sections = true;
        self
    }

    /// What the pages are laid out on.
    pub fn desk(&self) -> &'a Desk<'a> {
        self.desk
    }

    /// The sheet's layout.
    pub fn layout(&self) -> &'a Layout {
        self.setup.layout
    }

    /// Where the next thing goes.
    pub fn column(&mut self) -> &mut Column<'a> {
        &mut self.column
    }

    /// The room of the page that is being filled.
    pub fn frame(&self) -> Rect {
        self.column.frame
    }

    /// Whether nothing stands on this page yet.
    pub fn at_top(&self) -> bool {
        self.column.y == self.column.frame.top()
    }

    /// Adds content to the page.
    pub fn push(&mut self, node: Node) {
        self.nodes.push(node);
    }

    /// Adds several.
    pub fn extend(&mut self, nodes: impl IntoIterator<Item = Node>) {
        self.nodes.extend(nodes);
    }

    /// Leaves room, except at the top of a page.
    pub fn gap(&mut self, high: Length) {
        if !self.at_top() {
            self.column.skip(high);
        }
    }

    /// A text that stays with whatever comes next.
    pub fn lead(&mut self, lead: Lead) {
        let high = self.column.height(&lead.text, &lead.face, Length::ZERO);
        self.waiting.push((lead, high));
    }

    /// The room left below what waits to be set: negative where even that does not fit.
    pub fn left(&self) -> Length {
        self.column.left() - self.waiting_high(self.at_top())
    }

    /// The room that a page of its own would leave below what waits to be set.
    pub fn whole(&self) -> Length {
        self.column.frame.height() - self.waiting_high(true)
    }

    fn waiting_high(&self, at_top: bool) -> Length {
        let high = |(k, (lead, high)): (usize, &(Lead, Length))| {
            let above = if at_top && k == 0 { Length::ZERO } else { lead.above };
            above + *high + lead.below
        };
        self.waiting.iter().enumerate().map(high).sum()
    }

    /// Finds the page for something that takes `high` to begin, and sets what waited for it. Fails when no page is so high.
    pub fn begin(&mut self, high: Length) -> Result<(), Problem> {
        if self.left() < high && !self.at_top() {
            self.turn_on()?;
        }
        if self.left() < high {
            let (whole, sheet) = (self.column.frame.height(), self.setup.kind.word());
            return Err(Problem::new(format!(
                "a part of `{sheet}` is {high} high and does not fit on a page of {whole}"
            ))
            .hint("use larger paper or a smaller margin"));
        }
        for (lead, high) in std::mem::take(&mut self.waiting) {
            self.gap(lead.above);
            if matches!(lead.tag, Tag::Heading(_)) {
                self.under = Some(lead.clone());
            }
            self.put(&lead.text, &lead.face, lead.tag, high)?;
            self.column.skip(lead.below);
        }
        Ok(())
    }

    /// Ends the page and begins another. What waits goes there.
    pub fn turn(&mut self) -> Result<(), Problem> {
        let next = headed(self.desk, &self.setup, self.size, &self.setup.later)?;
        self.close();
        self.headed = next;
        self.column = Column::new(self.desk, self.deep());
        Ok(())
    }

    /// Ends the page before whatever waits: where pages name their sections, within one unless its heading waits too.
    pub fn turn_on(&mut self) -> Result<(), Problem> {
        let headed = self.waiting.iter().any(|(lead, _)| matches!(lead.tag, Tag::Heading(_)));
        if self.sections && !headed { self.turn_within() } else { self.turn() }
    }

    /// Ends the page in the middle of something: what was set last as its heading stands above the rest, too.
    pub fn turn_within(&mut self) -> Result<(), Problem> {
        // What waits belongs to the rest.
        let waiting = std::mem::take(&mut self.waiting);
        self.turn()?;
        if let Some(lead) = self.under.clone() {
            let text = self.desk.lesson.wording().goes_on(&lead.text);
            let Lead { face, above, below, .. } = lead;
            // The heading itself is named once: a listener goes from one to the next.
            let high = self.column.height(&text, &face, Length::ZERO);
            self.begin(high)?;
            self.gap(above);
            self.put(&text, &face, Tag::Paragraph, high)?;
            self.column.skip(below.max(Length::mm(1)));
        }
        self.waiting = waiting;
        Ok(())
    }

    fn close(&mut self) {
        self.count += 1;
        if !self.draws() {
            self.nodes.clear();
            return;
        }
        let layer = Layer { nodes: std::mem::take(&mut self.nodes), ..Layer::default() };
        let (kind, stock) = (self.setup.kind, self.setup.layout.stock);
        self.done.push(self.desk.finish(kind, self.size, stock, self.headed.clone(), layer));
    }

    /// A paragraph, kept whole.
    pub fn text(&mut self, text: &str, face: &Face) -> Result<(), Problem> {
        let high = self.column.height(text, face, Length::ZERO);
        self.begin(high)?;
        self.put(text, face, Tag::Paragraph, high)
    }

    /// A text that has room, across the page, and stands so high.
    fn put(&mut self, text: &str, face: &Face, tag: Tag, high: Length) -> Result<(), Problem> {
        if self.draws() {
            let node = self.column.text(text, face, Length::ZERO, tag)?;
            self.nodes.push(node);
        } else {
            self.column.skip(high);
        }
        Ok(())
    }
}

fn headed(desk: &Desk<'_>, setup: &Setup<'_>, size: Size, heading: &Heading) -> Result<Headed, Problem> {
    let (title, note) = (&*heading.title, heading.note.as_deref());
    let head = Head { title, note, reader: Reader::Staff, code: false, goal: None };
    let live = desk.live(size, setup.layout);
    // Heading, text and foot keep together in the middle of a page that is wider than is easy to read.
    let width = setup.widest.map_or(live.width(), |widest| live.width().min(widest));
    head::lay(desk, live.centred(Size::new(width, live.height())), &head)
}
