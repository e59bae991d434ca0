//! The parts of a file, drawn as they are settled.

use crate::diag::Problem;
use crate::lesson::deal::Seat;
use crate::lesson::job::Stock;
use crate::sheets::job::counting::Counting;
use crate::sheets::job::file::{Job, Part};
use crate::sheets::job::gang::Gang;
use crate::sheets::job::piles::Piles;
use crate::sheets::job::runs::Runs;
use crate::sheets::job::settled::{Settled, SettledFile};
use crate::sheets::kinds::supply::Suit;
use crate::sheets::kinds::{blocks, layered};
use crate::sheets::page::Page;
use crate::sheets::page::desk::Desk;
use crate::spec::{Cut, SheetKind};

/// The pieces of each kit that is cut as piles.
pub fn suits<'d>(desk: &'d Desk<'_>, masters: &[Page]) -> Result<Vec<(SheetKind, Vec<Suit<'d>>)>, Problem> {
    let mut all = Vec::new();
    if desk.lesson.spec.print.cut.value == Cut::Stack {
        for kind in [SheetKind::Blocks, SheetKind::Layered] {
            if masters.iter().any(|page| page.sheet == kind) {
                all.push((kind, if kind == SheetKind::Blocks { blocks::suits(desk)? } else { layered::suits(desk)? }));
            }
        }
    }
    Ok(all)
}

/// What the files are drawn from.
pub struct Draft<'d, 'a> {
    /// What pages are drawn on.
    pub desk: &'d Desk<'a>,
    /// What they are counted from.
    pub counting: &'d Counting<'a>,
    /// Whose sets they are.
    pub seats: &'d [Seat],
    /// The pieces of each kit that is cut as piles.
    pub suits: &'d [(SheetKind, Vec<Suit<'d>>)],
}

impl<'a> Draft<'_, 'a> {
    /// A file.
    pub fn job(&self, file: &SettledFile) -> Result<Job<'a>, Problem> {
        let parts = file.parts.iter().map(|part| self.part(part, file.stock)).collect::<Result<_, _>>()?;
        Ok(Job::of(self.desk, file.stock, file.sides, self.seats, parts))
    }

    /// A part of a file, drawn as it is settled.
    fn part(&self, part: &Settled, stock: Stock) -> Result<Part, Problem> {
        Ok(match part {
            Settled::Kits(kits) => Part::Kits(kits.clone()),
            Settled::Supply(_, plan, kits) => Part::Supply(plan.draw(self.desk)?, *kits),
            Settled::Gang(kind, kits, runs) => Part::Gang(Box::new(self.gang((*kind, stock, *kits), runs)?)),
            Settled::Piles(which, stacks, numbers) => {
                let (sheet, edge) = (&self.counting.strips[*which], self.counting.edge(stock));
                let plan = (stacks.clone(), *numbers);
                Part::Piles(Box::new(Piles::plan(self.desk, sheet, stock, self.seats, edge, plan)?))
            }
            Settled::Shared(slips) => Part::Shared(slips.clone()),
            Settled::Packets(packets) => Part::Packets(packets.clone()),
        })
    }
    /// Pieces of kits for the guillotine.
    fn gang(&self, of: (SheetKind, Stock, usize), runs: &[Runs]) -> Result<Gang, Problem> {
        let suits = self.suits.iter().find(|(kind, _)| *kind == of.0).map_or(&[][..], |(_, suits)| suits);
        let holds = match of.0 {
            SheetKind::Blocks => blocks::contents(self.desk)?,
            kind => self.desk.lesson.wording().sheet_title(kind).to_lowercase(),
        };
        let sizes = suits.iter().zip(self.counting.sizes(of.0)).zip(runs);
        Gang::draw(self.desk, of, holds, sizes.map(|((suit, size), runs)| (suit, size, runs)))
    }
}
