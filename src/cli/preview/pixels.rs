//! Pages as pixels, drawn from the finished file.

use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use super::{Drawn, Planned, Shared};
use crate::cli::check::pages;
use crate::diag::Problem;
use crate::pdf::{self, Common};
use crate::raster::{self, Document};
use crate::sheets::packets::Packet;

/// Makes a file and draws the pages of it that are wanted.
pub fn draw(
    shared: &Shared,
    planned: &Planned,
    packet: &Packet<'_>,
    wanted: &[usize],
    dpi: u16,
) -> Result<Vec<Drawn>, Problem> {
    let document = Document::open(Arc::new(pdf::bytes(packet, &Common::new(&planned.family), shared.threads)?))?;
    let done = AtomicUsize::new(0);
    document.each(wanted, dpi, shared.threads, |place, picture| {
        let index = wanted[place];
        let page = packet.page(index)?.into_owned();
        let bytes = raster::encode(&picture, dpi)?;
        let count = done.fetch_add(1, Ordering::Relaxed) + 1;
        shared.progress.say(&format!("{}: {count} of {} drawn", packet.file(), pages(wanted.len())));
        Ok(Drawn { index, page, bytes })
    })
}
