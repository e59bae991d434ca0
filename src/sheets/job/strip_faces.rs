//! What strips look like at the places of a sheet.
//!
//! In: the strips of every version, and which versions come again at which places. Out: the front or back of any strip at
//! any place. Those that come again are drawn once and shared, as far as memory that does not grow with the class reaches.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::diag::Problem;
use crate::lesson::job::Edge;
use crate::lesson::{SortSet, Version};
use crate::sheets::job::backs;
use crate::sheets::job::strip_sheet::StripSheet;
use crate::sheets::kinds::strips;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::{Layer, Mark, Node, Piece, Says, Tag};

/// A version and a place on the sheet.
pub type FacePlace = (Version, usize);

/// How many strips at places are kept: some 50 MB, twenty times what a class of thirty with three versions has. What is
/// over is drawn anew for every sheet.
const KEPT: usize = 1 << 14;

/// A strip at a place: its front and, in two-sided jobs, its back.
#[derive(Debug, Clone)]
struct Strip {
    front: Arc<Layer>,
    back: Option<Arc<Layer>>,
}

/// The strips of all versions.
#[derive(Debug, Clone)]
pub struct StripFaces {
    sheet: StripSheet,
    edge: Option<Edge>,
    /// What is on the backs of each version's strips; empty when nothing is printed there.
    patterns: Vec<Vec<backs::SelfCheck>>,
    /// The strips of versions that come again at their places, in the order of each set.
    kept: BTreeMap<FacePlace, Vec<Strip>>,
}

impl StripFaces {
    /// Draws what comes again, and each strip of other versions once, to see that it can be.
    pub fn plan(
        desk: &Desk<'_>,
        sheet: &StripSheet,
        edge: Option<Edge>,
        recurring: impl Iterator<Item = FacePlace>,
    ) -> Result<Self, Problem> {
        let sets = &desk.lesson.sets;
        let patterns = sets.iter().filter(|_| edge.is_some()).map(|set| backs::marks(set, desk.lesson.spec.seed.value));
        let mut drawn = Self { sheet: sheet.clone(), edge, patterns: patterns.collect(), kept: BTreeMap::new() };
        let mut room = KEPT;
        for (version, place) in recurring {
            let Some(set) = set_of(desk, version) else { continue };
            let Some(left) = room.checked_sub(set.strips.len()) else { break };
            room = left;
            let strips = (0..set.strips.len()).map(|strip| drawn.strip(desk, set, strip, place));
            let strips = strips.collect::<Result<_, _>>()?;
            drawn.kept.insert((version, place), strips);
        }
        let mine = sets.iter().filter(|set| sheet.versions.contains(&set.version));
        for set in mine.filter(|set| !drawn.kept.keys().any(|(version, _)| *version == set.version)) {
            (0..set.strips.len()).try_for_each(|strip| drawn.front(desk, set, strip, 0).map(|_| ()))?;
        }
        Ok(drawn)
    }

    /// One side of a version's strip at a place, kept or drawn now; `None` where there is no such strip.
    pub fn side(
        &self,
        desk: &Desk<'_>,
        (version, place): FacePlace,
        strip: usize,
        back: bool,
    ) -> Result<Option<Arc<Layer>>, Problem> {
        if let Some(kept) = self.kept.get(&(version, place)) {
            let strip = kept.get(strip);
            return Ok(strip.and_then(|strip| if back { strip.back.clone() } else { Some(Arc::clone(&strip.front)) }));
        }
        if back {
            return Ok(self.back(desk, version, strip, place).map(Arc::new));
        }
        let set = set_of(desk, version).filter(|set| strip < set.strips.len());
        set.map(|set| self.front(desk, set, strip, place).map(Arc::new)).transpose()
    }

    fn strip(&self, desk: &Desk<'_>, set: &SortSet, strip: usize, place: usize) -> Result<Strip, Problem> {
        let front = Arc::new(self.front(desk, set, strip, place)?);
        Ok(Strip { front, back: self.back(desk, set.version, strip, place).map(Arc::new) })
    }

    fn front(&self, desk: &Desk<'_>, set: &SortSet, strip: usize, place: usize) -> Result<Layer, Problem> {
        let (rect, design) = (self.sheet.division.place(place), &self.sheet.strips);
        let content = strips::draw(desk, design, &set.strips[strip], rect)?;
        Ok(Layer {
            nodes: vec![Node::tagged(Tag::Paragraph, content)],
            pieces: vec![Piece::strip(strip, rect)],
            marks: vec![Mark { frame: design.mark(rect), says: Says::Piece }],
            ..Layer::default()
        })
    }

    fn back(&self, desk: &Desk<'_>, version: Version, strip: usize, place: usize) -> Option<Layer> {
        let (edge, size) = (self.edge?, self.sheet.division.size());
        let pattern = self.patterns.get(usize::from(version.0))?.get(strip)?;
        let drawn = pattern.draw(
            desk.lesson.wording(),
            edge.behind(self.sheet.division.place(place), size),
            edge.inverts(size),
        );
        Some(Layer { nodes: vec![Node::tagged(Tag::Section, [drawn])], ..Layer::default() })
    }
}

/// The set of a version.
pub fn set_of<'d>(desk: &Desk<'d>, version: Version) -> Option<&'d SortSet> {
    desk.lesson.sets.iter().find(|set| set.version == version)
}
