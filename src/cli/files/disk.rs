//! What is done to the disk when something is written: one method a step.
//!
//! The program uses [`Real`] alone. The steps are methods of a trait so that tests can let any one of them fail, or end the
//! process at it, and look at what is left.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Write};
use std::path::Path;
use std::thread;
use std::time::Duration;

/// Between two looks at a lock that another run holds.
const PAUSE: Duration = Duration::from_millis(50);

/// After how many looks a run gives up: five seconds, longer than a lesson usually takes to write.
const LOOKS: u32 = 100;

/// Changes to the disk. Every method does what it says and nothing else.
pub trait Disk: Sync {
    /// Makes a folder in one that is there.
    fn create_folder(&self, path: &Path) -> io::Result<()> {
        fs::create_dir(path)
    }

    /// Makes a file that is not there yet.
    fn create_file(&self, path: &Path) -> io::Result<File> {
        File::create_new(path)
    }

    /// Writes some of the bytes, and says how many.
    fn write(&self, file: &mut File, bytes: &[u8]) -> io::Result<usize> {
        file.write(bytes)
    }

    /// Returns once a file's bytes would survive a power cut.
    fn sync(&self, file: &File) -> io::Result<()> {
        file.sync_all()
    }

    /// The same for the names in a folder, where systems have such a thing.
    fn sync_folder(&self, path: &Path) -> io::Result<()> {
        if cfg!(unix) { File::open(path)?.sync_all() } else { Ok(()) }
    }

    /// Gives a file or folder another name; a file of that name is replaced.
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)
    }

    /// Gives a file a second name, which must be free.
    fn link(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::hard_link(from, to)
    }

    /// Exchanges the names of two folders in one step: nobody ever sees either missing. Not every system and not every
    /// kind of disk can do it.
    fn exchange(&self, one: &Path, other: &Path) -> io::Result<()> {
        #[cfg(any(target_os = "linux", target_os = "android", target_vendor = "apple"))]
        {
            use rustix::fs::{CWD, RenameFlags, renameat_with};
            Ok(renameat_with(CWD, one, CWD, other, RenameFlags::EXCHANGE)?)
        }
        #[cfg(not(any(target_os = "linux", target_os = "android", target_vendor = "apple")))]
        {
            let _ = (one, other);
            Err(io::ErrorKind::Unsupported.into())
        }
    }

    /// Removes a file or a link.
    fn remove_file(&self, path: &Path) -> io::Result<()> {
        fs::remove_file(path)
    }

    /// Removes a folder that is empty.
    fn remove_folder(&self, path: &Path) -> io::Result<()> {
        fs::remove_dir(path)
    }

    /// Makes the file if need be and locks it until it is closed, which the system does for a process that is killed.
    /// `None` while another run holds it.
    fn lock(&self, path: &Path) -> io::Result<Option<File>> {
        lock(path)
    }

    /// Waits a little for another run, unless that was done often enough.
    fn wait(&self, turn: u32) -> bool {
        if turn < LOOKS {
            thread::sleep(PAUSE);
        }
        turn < LOOKS
    }
}

/// The disk itself.
#[derive(Debug, Clone, Copy)]
pub struct Real;

impl Disk for Real {}

#[cfg(not(windows))]
fn lock(path: &Path) -> io::Result<Option<File>> {
    use std::fs::TryLockError;
    let file = OpenOptions::new().read(true).write(true).create(true).truncate(false).open(path)?;
    match file.try_lock() {
        Ok(()) => {}
        Err(TryLockError::WouldBlock) => return Ok(None),
        // Some shares have no locks. Runs that meet there are rarer than shares.
        Err(TryLockError::Error(error)) if error.kind() == io::ErrorKind::Unsupported => {}
        Err(TryLockError::Error(error)) => return Err(error),
    }
    // Whoever held it may have removed it before closing it: then this is a lock on nothing.
    Ok(is_still(&file, path)?.then_some(file))
}

/// Whether an open file is the one that has this name now.
#[cfg(unix)]
fn is_still(file: &File, path: &Path) -> io::Result<bool> {
    use std::os::unix::fs::MetadataExt;
    let ours = file.metadata()?;
    match fs::symlink_metadata(path) {
        Ok(named) => Ok((ours.dev(), ours.ino()) == (named.dev(), named.ino())),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(false),
        Err(error) => Err(error),
    }
}

#[cfg(not(any(unix, windows)))]
fn is_still(_: &File, path: &Path) -> io::Result<bool> {
    path.try_exists()
}

/// On Windows a file that is opened for one alone is the lock: it cannot be opened, renamed or removed by others.
#[cfg(windows)]
fn lock(path: &Path) -> io::Result<Option<File>> {
    use std::os::windows::fs::OpenOptionsExt;
    /// "The process cannot access the file because it is being used by another process."
    const SHARING_VIOLATION: i32 = 32;
    match OpenOptions::new().write(true).create(true).truncate(false).share_mode(0).open(path) {
        Ok(file) => Ok(Some(file)),
        Err(error) if error.raw_os_error() == Some(SHARING_VIOLATION) => Ok(None),
        Err(error) => Err(error),
    }
}
