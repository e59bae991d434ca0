//! How many sheets the copies take, settled before anything is drawn for them.
//!
//! In: the masters, and how many kits, learners and spare sets there are. Out: the files with their parts, each counted.
//! The order draws what is settled here; what it would be with a change is settled by the same code.

use std::sync::Arc;

use crate::diag::Problem;
use crate::lesson::deal::Seat;
use crate::lesson::job::{Edge, Fill, For, Keep, PrintSides, SaveBy, Stock};
use crate::measure::{Count, Size};
use crate::sheets::job::gang::SizeOfPiece;
use crate::sheets::job::impose::{self, Stacks};
use crate::sheets::job::kits::Kits;
use crate::sheets::job::packets::{self, Leaves, Packets};
use crate::sheets::job::piles;
use crate::sheets::job::settled::{Settled, SettledFile, SettledOrder, SupplyPlan};
use crate::sheets::job::shared;
use crate::sheets::job::strip_sheet::StripSheet;
use crate::sheets::kinds::pieces::{self, Designs};
use crate::sheets::kinds::{blocks, layered, strips};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::{Page, mark};
use crate::spec::{Cut, SheetKind, SidesAsked};

/// What copies are counted from: nothing here depends on how many there are.
#[derive(Debug, Clone)]
pub struct Counting<'a> {
    desk: Desk<'a>,
    /// For each size of strips the sheet that is cut as piles; none with scissors.
    pub(super) strips: Vec<StripSheet>,
    stocks: Vec<OnStock>,
}

/// What is printed on a stock.
#[derive(Debug, Clone)]
struct OnStock {
    stock: Stock,
    edge: Option<Edge>,
    /// Whether strips are cut as piles here.
    piled: bool,
    kits: Vec<KitSheets>,
    slips: Vec<Page>,
    leaves: Leaves,
}

/// A kind of kit: its pages, or the sizes of its pieces where they are cut as piles.
#[derive(Debug, Clone)]
struct KitSheets {
    kind: SheetKind,
    pages: Vec<Page>,
    sizes: Option<Vec<SizeOfPiece>>,
}

impl<'a> Counting<'a> {
    /// What the copies of these masters are counted from; `sizes` has the pieces of each kit that is cut as piles.
    pub(super) fn of(
        desk: &Desk<'a>,
        masters: &[Page],
        sizes: &[(SheetKind, Vec<SizeOfPiece>)],
    ) -> Result<Self, Problem> {
        let sorted = masters.iter().any(|page| page.sheet == SheetKind::Strips);
        Self::with_designs(desk, masters, sizes, if sorted { Some(pieces::designs(desk)?) } else { None })
    }

    /// The same where strips and boards are as large as these designs say.
    fn with_designs(
        desk: &Desk<'a>,
        masters: &[Page],
        sizes: &[(SheetKind, Vec<SizeOfPiece>)],
        designs: Option<&Designs>,
    ) -> Result<Self, Problem> {
        let stacked = desk.lesson.spec.print.cut.value == Cut::Stack;
        let piled = |page: &Page| stacked && page.sheet == SheetKind::Strips;
        let strips_on = masters.iter().find(|page| piled(page)).map(|page| page.stock);
        let designs = designs.filter(|_| strips_on.is_some());
        let strips = designs.map(|designs| StripSheet::all(desk, designs)).transpose()?.unwrap_or_default();
        let used = |page: &&Page| !piled(page) && page.sheet != SheetKind::Exit && keep(page.sheet) == Keep::UsedUp;
        let packed: Vec<Page> = masters.iter().filter(used).cloned().collect();
        let on = |stock| {
            let edge = edge(desk, masters, stock, strips.first().filter(|_| strips_on == Some(stock)));
            let of = |kind| masters.iter().filter(move |page| page.stock == stock && page.sheet == kind).cloned();
            let kit = |kind| KitSheets {
                kind,
                pages: of(kind).collect(),
                sizes: sizes.iter().find(|(of, _)| *of == kind).map(|(_, sizes)| sizes.clone()),
            };
            let kits = [SheetKind::Mat, SheetKind::WordBank, SheetKind::Blocks, SheetKind::Layered].map(kit);
            OnStock {
                stock,
                edge,
                piled: strips_on == Some(stock),
                kits: kits.into_iter().filter(|kit| !kit.pages.is_empty()).collect(),
                slips: of(SheetKind::Exit).collect(),
                leaves: packets::leaves(desk, &packed, stock, edge),
            }
        };
        let stocks = [Stock::Paper, Stock::Card].map(on).into();
        Ok(Self { desk: desk.clone(), strips, stocks })
    }

    /// The edge over which sheets of a stock are turned, where any have backs.
    pub(super) fn edge(&self, stock: Stock) -> Option<Edge> {
        self.stocks.iter().find(|on| on.stock == stock).and_then(|on| on.edge)
    }

    /// The sizes of the pieces of a kit that is cut as piles.
    pub(super) fn sizes(&self, kind: SheetKind) -> &[SizeOfPiece] {
        let mut kits = self.stocks.iter().flat_map(|on| &on.kits).filter(|kit| kit.kind == kind);
        kits.find_map(|kit| kit.sizes.as_deref()).unwrap_or_default()
    }

    /// Settles the lesson's order.
    pub(super) fn settle(&self) -> Result<SettledOrder, Problem> {
        let kit = |kit: &KitSheets| self.kit(kit, kits(&self.desk, kit.kind));
        self.order(self.desk.lesson.spec.class.spares.value, kit)
    }

    /// How many sheets there would be with a change, proofs and slip-sheets among them; `now` is the order without it.
    pub(super) fn sheets_with(&self, by: SaveBy, now: &SettledOrder, masters: &[Page]) -> Result<usize, Problem> {
        let class = &self.desk.lesson.spec.class;
        let same = |kit: &KitSheets| {
            let mut parts = now.files.iter().flat_map(|file| &file.parts);
            Ok(parts.find(|part| part.kit() == Some(kit.kind)).cloned())
        };
        let then = match by {
            SaveBy::NoSpares => match self.without_spares(masters)? {
                Some(other) => other.order(0, same)?,
                None => self.order(0, same)?,
            },
            SaveBy::KeptKits => self.order(class.spares.value, |_| Ok(None))?,
            SaveBy::Sharing(kind, learners) => self.order(class.spares.value, |kit| {
                if kit.kind == kind { self.kit(kit, class.learners.value.div_ceil(learners)) } else { same(kit) }
            })?,
        };
        let parted = self.desk.lesson.spec.print.slip_sheets.value;
        Ok(then.files.iter().map(|file| file.printed(parted)).sum())
    }

    /// What the order would be counted from without spare sets, where strips and boards would then have other sizes: groups
    /// share a cut where that takes less paper, and a number may have a digit less.
    fn without_spares(&self, masters: &[Page]) -> Result<Option<Self>, Problem> {
        let desk = &self.desk;
        if !masters.iter().any(|page| matches!(page.sheet, SheetKind::Strips | SheetKind::Board)) {
            return Ok(None);
        }
        let Some(designs) = pieces::designs(desk)?.with_spares(desk, 0)? else { return Ok(None) };
        let mut then: Vec<Page> = masters.to_vec();
        for set in &desk.lesson.sets {
            let design = designs.of(set)?;
            let counts =
                [(SheetKind::Board, design.rows_of(set).len()), (SheetKind::Strips, strips::pages(design, set))];
            for (kind, count) in counts {
                let own = |page: &Page| page.sheet == kind && page.version == Some(set.version);
                let Some(page) = then.iter().find(|page| own(page)).cloned() else { continue };
                then.retain(|page| !own(page));
                then.extend(std::iter::repeat_n(page, count));
            }
        }
        Self::with_designs(desk, &then, &[], Some(&designs)).map(Some)
    }

    /// The order with so many spare sets and these kits.
    fn order(
        &self,
        spares: u32,
        kit: impl Fn(&KitSheets) -> Result<Option<Settled>, Problem>,
    ) -> Result<SettledOrder, Problem> {
        let (seats, fill) = self.seats(spares);
        let mut files = Vec::new();
        for on in &self.stocks {
            let mut parts = Vec::new();
            for sheets in &on.kits {
                parts.extend(kit(sheets)?);
            }
            if on.piled {
                let of = |sheet: &StripSheet| piles::stacks(&self.desk, sheet, &seats);
                let stacks: Vec<Stacks> = self.strips.iter().map(of).collect();
                let (mut before, all) = (0, stacks.iter().map(Stacks::groups).sum());
                for (k, stacks) in stacks.into_iter().enumerate() {
                    let numbers = (before, all);
                    before += stacks.groups();
                    parts.push(Settled::Piles(k, stacks, numbers));
                }
            }
            let checks = shared::by_group(self.desk.lesson, &on.slips, &seats);
            parts.extend(checks.into_iter().map(Settled::Shared));
            files.extend(on.files(&seats, parts));
        }
        Ok(SettledOrder { seats, fill, files })
    }

    /// Whose sets are printed, and what fills the last pile.
    fn seats(&self, asked: u32) -> (Vec<Seat>, Fill) {
        let lesson = self.desk.lesson;
        let mut spares = asked;
        let mut fill = Fill::Even;
        if let [sheet] = self.strips.as_slice() {
            let sets = lesson.spec.class.learners.value.saturating_add(spares).index();
            let own = self.stocks.iter().map(|on| on.leaves.most()).sum();
            fill = impose::fill(sets, sheet.division.places(), piles::longest(lesson), own);
            if let Fill::Spares(more) = fill {
                // Nobody who asked for none is given any, and a number with a digit more has no room on its strips.
                if asked > 0 && (sets + more).to_string().len() <= mark::digits(&self.desk, asked) {
                    spares += more.narrow();
                } else {
                    fill = Fill::Blanks(more);
                }
            }
        } else if !self.strips.is_empty() {
            // Each size of strips has a last pile of its own, and a spare set may be of any: nobody is given more than was asked for.
            let seats = lesson.seats(spares);
            let free = |sheet: &StripSheet| {
                let sets = sheet.seats(&seats).len();
                sets.next_multiple_of(sheet.division.places()) - sets
            };
            let blanks = self.strips.iter().map(free).sum();
            fill = if blanks == 0 { Fill::Even } else { Fill::Blanks(blanks) };
        }
        (lesson.seats(spares), fill)
    }

    /// So many kits of a kind; `None` where they hold nothing.
    fn kit(&self, sheets: &KitSheets, kits: u32) -> Result<Option<Settled>, Problem> {
        let desk = &self.desk;
        let count = kits.index();
        if let Some(sizes) = &sheets.sizes {
            let runs = sizes.iter().map(|size| size.runs(count)).collect();
            return Ok(Some(Settled::Gang(sheets.kind, count, runs)));
        }
        let plan = match sheets.kind {
            SheetKind::Blocks => blocks::supply(desk, kits)?.map(SupplyPlan::Blocks),
            SheetKind::Layered => Some(SupplyPlan::Cards(layered::supply(desk, kits)?)),
            _ => return Ok(Some(Settled::Kits(Kits { pages: sheets.pages.clone(), copies: count }))),
        };
        Ok(plan.map(|plan| Settled::Supply(sheets.kind, Arc::new(plan), count)))
    }
}

impl OnStock {
    /// The files of a stock: one, or where most of its sheets are printed on one side, two.
    fn files(&self, seats: &[Seat], parts: Vec<Settled>) -> Vec<SettledFile> {
        let packets = |leaves: Leaves| Settled::Packets(Packets::plan(leaves, seats));
        let (both, one): (Vec<Settled>, Vec<Settled>) =
            parts.into_iter().partition(|part| part.backed(self.edge.is_some()));
        let (packed_both, packed_one) = (packets(self.leaves.only(true)), packets(self.leaves.only(false)));
        let sum = |parts: &[Settled], more: &Settled| parts.iter().map(Settled::leaves).sum::<usize>() + more.leaves();
        let (sheets_both, sheets_one) = (sum(&both, &packed_both), sum(&one, &packed_one));
        let two = self.edge.map_or(PrintSides::One, PrintSides::Two);
        let drafts = if sheets_both == 0 {
            vec![(PrintSides::One, [one, vec![packed_one]].concat())]
        } else if sheets_one > sheets_both {
            vec![(PrintSides::One, [one, vec![packed_one]].concat()), (two, [both, vec![packed_both]].concat())]
        } else {
            vec![(two, [both, one, vec![packets(self.leaves.clone())]].concat())]
        };
        let file = |(sides, mut parts): (PrintSides, Vec<Settled>)| {
            parts.retain(|part| part.leaves() > 0);
            SettledFile { stock: self.stock, sides, parts }
        };
        drafts.into_iter().map(file).filter(|file| !file.parts.is_empty()).collect()
    }
}

/// How many kits there are of a sheet: one for so many learners as share it. Spare sets are of what is used up.
pub fn kits(desk: &Desk<'_>, kind: SheetKind) -> u32 {
    let class = &desk.lesson.spec.class;
    class.learners.value.div_ceil(class.share(kind))
}

/// Whether a sheet is kept for other lessons.
fn keep(kind: SheetKind) -> Keep {
    match crate::sheets::row(kind).reader {
        For::Learner(handling) => handling.keep,
        For::Teacher | For::Substitute | For::CopyRoom => Keep::UsedUp,
    }
}

/// The edge over which sheets of a stock are turned, where any have backs: the one over which a book of those fronts
/// turns. What is printed behind each piece follows from it, whatever way its page is held.
fn edge(desk: &Desk<'_>, masters: &[Page], stock: Stock, piles: Option<&StripSheet>) -> Option<Edge> {
    if desk.lesson.spec.print.sides.value == SidesAsked::One {
        return None;
    }
    let front = |kind| masters.iter().find(|page| page.stock == stock && page.sheet == kind).map(|page| page.size);
    let piled: Option<Size> = piles.map(|sheet| sheet.division.size());
    let home = || front(SheetKind::Family).filter(|_| desk.lesson.second().is_some());
    piled.or_else(|| front(SheetKind::Strips)).or_else(|| front(SheetKind::Mat)).or_else(home).map(Edge::of)
}
