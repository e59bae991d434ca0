//! Clearing up: what was there before a packet was replaced, and what a run that was stopped has left.
//!
//! Only files that Placewright wrote are removed, one by one, and only empty folders. Whatever else turns up goes back to
//! where its owner looks for it.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::disk::{Disk, Real};
use super::ours::is_ours;
use super::place::{OutFolder, is_folder, is_there};
use crate::gallery;

/// Clears up after all runs that were stopped while they wrote into `out`. What cannot be cleared up now stays for the next
/// time, and what another run is at work on is left to it.
pub fn tidy(out: &Path) {
    for place in OutFolder::locked(out).unwrap_or_default() {
        if let Ok(Some(held)) = place.hold(&Real, false) {
            let _ = recover(&Real, &place);
            held.release();
        }
    }
}

/// Clears up at one place that is held: what lies beside it comes from a run that was stopped.
pub fn recover(disk: &dyn Disk, place: &OutFolder) -> io::Result<()> {
    let (old, swap, new) = (place.old(), place.swap(), place.fresh());
    // Stopped between the two steps of an exchange: what was there goes back.
    if is_folder(&old) && !is_there(&place.target) {
        disk.rename(&old, &place.target)?;
    }
    for (scratch, ours) in [(old, is_ours as fn(&Path) -> io::Result<bool>), (swap, is_ours), (new.clone(), is_made)] {
        if is_folder(&scratch) {
            give_back(disk, &scratch, &place.target, &ours)?;
            remove(disk, &scratch, &ours)?;
        }
    }
    // A lesson file that was not yet whole.
    if fs::symlink_metadata(&new).is_ok_and(|metadata| metadata.is_file()) {
        disk.remove_file(&new)?;
    }
    Ok(())
}

/// Whether a file in a folder that was being written is of a kind that we write; it may be torn.
pub fn is_made(path: &Path) -> io::Result<bool> {
    let known = path
        .extension()
        .is_some_and(|ending| ["pdf", "json", "html", "svg", "png"].iter().any(|known| ending == *known));
    Ok(known && fs::symlink_metadata(path)?.is_file())
}

/// Moves everything that is not ours from one folder to another, under a free name there.
pub fn give_back(disk: &dyn Disk, from: &Path, to: &Path, ours: &dyn Fn(&Path) -> io::Result<bool>) -> io::Result<()> {
    for path in entries(from)? {
        let target = to.join(path.file_name().unwrap_or_default());
        if is_pictures(&path) {
            give_back(disk, &path, &target, ours)?;
        } else if !ours(&path)? {
            make_folders(disk, to)?;
            disk.rename(&path, &free(&target))?;
        }
    }
    Ok(())
}

/// Removes everything that is ours, and the folder if nothing else is left in it.
pub fn remove(disk: &dyn Disk, folder: &Path, ours: &dyn Fn(&Path) -> io::Result<bool>) -> io::Result<()> {
    for path in entries(folder)? {
        if is_pictures(&path) {
            remove(disk, &path, ours)?;
        } else if ours(&path)? {
            disk.remove_file(&path)?;
        }
    }
    disk.remove_folder(folder)
}

/// Adds the entries that Placewright did not write. The folder of pictures is ours as far as the pictures in it are.
pub fn others(folder: &Path, found: &mut Vec<PathBuf>) -> io::Result<()> {
    for path in entries(folder)? {
        if is_pictures(&path) {
            others(&path, found)?;
        } else if !is_ours(&path)? {
            found.push(path);
        }
    }
    Ok(())
}

/// Makes a folder and those it lies in, as far as they are missing; gives those it made, outermost first.
pub fn make_folders(disk: &dyn Disk, folder: &Path) -> io::Result<Vec<PathBuf>> {
    let missing: Vec<&Path> =
        folder.ancestors().take_while(|path| !path.as_os_str().is_empty() && !path.is_dir()).collect();
    let mut made = Vec::new();
    for path in missing.into_iter().rev() {
        match disk.create_folder(path) {
            Ok(()) => made.push(path.to_owned()),
            // Another run was quicker.
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists && path.is_dir() => {}
            Err(error) => return Err(error),
        }
    }
    Ok(made)
}

fn entries(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let mut paths = fs::read_dir(folder)?.map(|entry| Ok(entry?.path())).collect::<io::Result<Vec<_>>>()?;
    paths.sort();
    Ok(paths)
}

fn is_pictures(path: &Path) -> bool {
    path.file_name().is_some_and(|name| name == gallery::PICTURES) && is_folder(path)
}

/// The path itself, or one beside it that nothing has.
fn free(path: &Path) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    while is_there(Path::new(&name)) {
        name.push(".kept");
    }
    name.into()
}
