//! Which pages of a file are pictured: enough to see what is printed, and no more than a browser shows at once.
//!
//! A class set holds every learner's copy, and copies look alike. So, unless others are asked for, one learner of each
//! version stands for all who have it, and a few sheets for those that are shared or cut in piles.

use std::collections::{BTreeMap, BTreeSet};

use crate::cli::failure::Failure;
use crate::cli::pages::Pages;
use crate::diag::Problem;
use crate::lesson::Version;
use crate::sheets::files::PacketKind;
use crate::sheets::packets::Packet;
use crate::sheets::page::entry::Entry;
use crate::spec::SheetKind;
use crate::spec::limits::grouped;

/// How many pages of a file are pictured when nobody says which.
const UNASKED: usize = 60;
/// How many of a kind that is not one learner's.
const SHARED: usize = 2;
/// How many pages of a file can be asked for: a page of more pictures is slow to open.
const MOST: usize = 1_000;

/// Which pages.
#[derive(Debug, Clone, Copy)]
pub enum Which<'w> {
    /// Those of one learner a version.
    One,
    /// All of them.
    All,
    /// These of each file.
    Listed(&'w Pages),
}

/// The pages of a file that are pictured.
pub struct Pictured {
    /// Where they are in the file, from 0, in order.
    pub pages: Vec<usize>,
    /// Why not all are, in a sentence; empty where all are.
    pub said: String,
    /// What is worth telling besides.
    pub note: Option<String>,
}

/// Chooses pages of a file.
pub fn pages(packet: &Packet<'_>, which: Which<'_>, only: &[SheetKind]) -> Result<Pictured, Failure> {
    let wanted = |entry: &Entry| only.is_empty() || only.contains(&entry.sheet);
    let entries = || (0..).zip(packet.entries()).filter(|(_, entry)| wanted(entry));
    let file = packet.file();
    let (mut pages, mut said): (Vec<usize>, String) = match which {
        Which::All => (entries().map(|(index, _)| index).take(MOST + 1).collect(), String::new()),
        Which::Listed(listed) => {
            let pages = entries().map(|(index, _)| index).filter(|index| listed.holds(index + 1));
            (pages.take(MOST + 1).collect(), "The pages that were asked for.".to_owned())
        }
        Which::One => one_a_version(packet, &wanted),
    };
    let mut note = None;
    match which {
        Which::Listed(_) if pages.len() > MOST => {
            let problem = Problem::new(format!("--pages names more than {} pages of {file}", grouped(MOST as u64)));
            return Err(Failure::Usage(problem.hint("expected fewer")));
        }
        Which::All if pages.len() > MOST => {
            pages.truncate(MOST);
            said = format!("The first {} pages.", grouped(MOST as u64));
            note = Some(format!("{file}: {} --pages names others", said.to_lowercase().replace('.', ";")));
        }
        Which::One if pages.len() > UNASKED => {
            pages.truncate(UNASKED);
            said = format!("The first {UNASKED} of these: {}", lower(&said));
        }
        _ => {}
    }
    if said.is_empty() && !only.is_empty() {
        said = String::from("The sheets that were asked for.");
    }
    Ok(Pictured { pages, said, note })
}

/// The pages of one learner of each version, and a few of every kind that is nobody's alone.
fn one_a_version(packet: &Packet<'_>, wanted: &dyn Fn(&Entry) -> bool) -> (Vec<usize>, String) {
    if !matches!(packet.kind, PacketKind::Paper | PacketKind::Card) {
        let all = (0..).zip(packet.entries()).filter(|(_, entry)| wanted(entry));
        return (all.map(|(index, _)| index).collect(), String::new());
    }
    let speakers = speakers(packet);
    let mut shared: BTreeMap<SheetKind, usize> = BTreeMap::new();
    let (mut pages, mut left) = (Vec::new(), false);
    for (index, entry) in (0..).zip(packet.entries()).filter(|(_, entry)| wanted(entry)) {
        let kept = if let Some(learner) = entry.learner {
            speakers.contains(&learner)
        } else {
            let so_far = shared.entry(entry.sheet).or_default();
            *so_far += 1;
            *so_far <= SHARED
        };
        left |= !kept;
        if kept {
            pages.push(index);
        }
    }
    let said = match (left, speakers.len()) {
        (false, _) => "",
        (true, 0) => "The first of each kind of sheet.",
        (true, 1) => "One learner\u{2019}s pages: the others look alike.",
        (true, _) => "The pages of one learner of each version: the others look alike.",
    };
    (pages, said.to_owned())
}

/// The first learner of each version; the first of all where no page has a version.
fn speakers(packet: &Packet<'_>) -> BTreeSet<u32> {
    let mut versions: BTreeMap<u32, Option<Version>> = BTreeMap::new();
    for entry in packet.entries() {
        if let Some(learner) = entry.learner {
            let version = versions.entry(learner).or_default();
            *version = version.or(entry.version);
        }
    }
    let mut first: BTreeMap<Option<Version>, u32> = BTreeMap::new();
    for (learner, version) in versions {
        first.entry(version).or_insert(learner);
    }
    if first.len() > 1 {
        first.remove(&None);
    }
    first.into_values().collect()
}

fn lower(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map(|first| first.to_lowercase().chain(chars).collect()).unwrap_or_default()
}
