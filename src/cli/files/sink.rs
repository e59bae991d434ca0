//! A file that is being written, or found to be there already.
//!
//! What is written is compared with an earlier file as long as both are the same; nothing is put on the disk. Where they
//! part, the new file is begun with what was the same. If they never do, the earlier file gets a second name and keeps its
//! times.

use std::fs::{self, File};
use std::io::{self, BufReader, Read, Write};
use std::path::{Path, PathBuf};

use super::disk::Disk;

/// Where bytes go.
pub struct Sink<'d> {
    disk: &'d dyn Disk,
    path: PathBuf,
    state: State,
}

enum State {
    /// All bytes so far are those of an earlier file.
    Same(Earlier),
    /// The bytes are written.
    New(File),
}

/// A file that may turn out to be the same.
struct Earlier {
    path: PathBuf,
    file: BufReader<File>,
    /// How many bytes are known to be.
    same: u64,
}

impl<'d> Sink<'d> {
    /// A file at a path where none is yet; it may turn out to have the bytes of an earlier one.
    pub fn new(disk: &'d dyn Disk, path: &Path, earlier: Option<PathBuf>) -> io::Result<Self> {
        let state = match earlier.and_then(Earlier::open) {
            Some(earlier) => State::Same(earlier),
            None => State::New(disk.create_file(path)?),
        };
        Ok(Self { disk, path: path.to_owned(), state })
    }

    /// Begins the new file with what was the same.
    fn part(&mut self) -> io::Result<()> {
        let State::Same(earlier) = &self.state else { return Ok(()) };
        let mut same = File::open(&earlier.path)?.take(earlier.same);
        let count = earlier.same;
        self.state = State::New(self.disk.create_file(&self.path)?);
        if io::copy(&mut same, self)? == count { Ok(()) } else { Err(io::ErrorKind::UnexpectedEof.into()) }
    }

    /// Returns once all bytes are handed over, or with `lasting` once they would survive a power cut.
    pub fn finish(mut self, lasting: bool) -> io::Result<()> {
        if let State::Same(earlier) = &mut self.state
            && earlier.is_at_its_end()
            // Not every disk can give a file two names.
            && self.disk.link(&earlier.path, &self.path).is_ok()
        {
            return Ok(());
        }
        self.part()?;
        match &self.state {
            State::New(file) if lasting => self.disk.sync(file),
            State::New(_) | State::Same(_) => Ok(()),
        }
    }
}

impl Write for Sink<'_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        if let State::Same(earlier) = &mut self.state {
            if earlier.goes_on_with(bytes) {
                return Ok(bytes.len());
            }
            self.part()?;
        }
        match &mut self.state {
            State::New(file) => self.disk.write(file, bytes),
            State::Same(_) => Ok(0),
        }
    }

    fn flush(&mut self) -> io::Result<()> {
        match &mut self.state {
            State::New(file) => file.flush(),
            State::Same(_) => Ok(()),
        }
    }
}

impl Earlier {
    /// An ordinary file; a link may lead to a file of others.
    fn open(path: PathBuf) -> Option<Self> {
        fs::symlink_metadata(&path).ok().filter(fs::Metadata::is_file)?;
        let file = BufReader::with_capacity(1 << 16, File::open(&path).ok()?);
        Some(Self { path, file, same: 0 })
    }

    /// Whether the file's next bytes are these. Afterwards, if not, it is of no more use.
    fn goes_on_with(&mut self, bytes: &[u8]) -> bool {
        let mut theirs = vec![0; bytes.len()];
        let same = self.file.read_exact(&mut theirs).is_ok() && theirs == bytes;
        if same {
            self.same += bytes.len() as u64;
        }
        same
    }

    fn is_at_its_end(&mut self) -> bool {
        matches!(self.file.read(&mut [0]), Ok(0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cli::files::disk::Real;

    #[track_caller]
    fn case(old: Option<&[u8]>, parts: &[&[u8]], linked: bool) {
        let at = tempfile::tempdir().unwrap();
        let (earlier, path) = (at.path().join("earlier"), at.path().join("new"));
        if let Some(old) = old {
            fs::write(&earlier, old).unwrap();
        }
        let mut sink = Sink::new(&Real, &path, Some(earlier.clone())).unwrap();
        parts.iter().try_for_each(|part| sink.write_all(part)).unwrap();
        sink.finish(true).unwrap();
        assert_eq!(fs::read(&path).unwrap(), parts.concat());
        assert_eq!(fs::read(&earlier).ok().as_deref(), old);
        #[cfg(unix)]
        {
            use std::os::unix::fs::MetadataExt;
            assert_eq!(fs::metadata(&path).unwrap().nlink() == 2, linked);
        }
    }

    #[test]
    fn the_same_bytes_are_the_same_file() {
        case(Some(b"one two"), &[b"one ", b"two"], true);
        case(Some(b""), &[], true);
        case(None, &[b"one ", b"two"], false);
        // They part at once, later, at the end of either.
        case(Some(b"one two"), &[b"two ", b"one"], false);
        case(Some(b"one two"), &[b"one ", b"six"], false);
        case(Some(b"one "), &[b"one ", b"two"], false);
        case(Some(b"one two three"), &[b"one ", b"two"], false);
    }

    #[cfg(unix)]
    #[test]
    fn a_link_is_no_earlier_file() {
        let at = tempfile::tempdir().unwrap();
        fs::write(at.path().join("mine"), "one").unwrap();
        std::os::unix::fs::symlink(at.path().join("mine"), at.path().join("earlier")).unwrap();
        let mut sink = Sink::new(&Real, &at.path().join("new"), Some(at.path().join("earlier"))).unwrap();
        sink.write_all(b"one").unwrap();
        sink.finish(true).unwrap();
        assert!(fs::symlink_metadata(at.path().join("new")).unwrap().is_file());
        fs::write(at.path().join("mine"), "two").unwrap();
        assert_eq!(fs::read(at.path().join("new")).unwrap(), b"one");
    }
}
