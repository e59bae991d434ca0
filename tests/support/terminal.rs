//! A terminal to run the program in: keys in, what is shown out.

use std::fs::{File, OpenOptions};
use std::io::{Read, Write};
use std::os::fd::OwnedFd;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

use rustix::pty::{OpenptFlags, grantpt, openpt, ptsname, unlockpt};
use rustix::termios::{Winsize, tcsetwinsize};

/// The program at a terminal.
pub struct Terminal {
    child: Child,
    keys: File,
    shown: Arc<Mutex<Vec<u8>>>,
    /// Where looking goes on.
    at: usize,
}

/// How long to wait for something to be shown before the test fails.
const PATIENCE: Duration = Duration::from_secs(120);

impl Terminal {
    /// Starts the program in a folder; nothing where the system has no pseudo-terminals to give.
    pub fn start(folder: &Path, args: &[&str]) -> Option<Self> {
        Self::wide(folder, args, 120)
    }

    /// [`Terminal::start`] at a terminal of so many columns.
    pub fn wide(folder: &Path, args: &[&str], columns: u16) -> Option<Self> {
        let master = openpt(OpenptFlags::RDWR | OpenptFlags::NOCTTY).ok()?;
        grantpt(&master).ok()?;
        unlockpt(&master).ok()?;
        tcsetwinsize(&master, Winsize { ws_row: 40, ws_col: columns, ws_xpixel: 0, ws_ypixel: 0 }).ok()?;
        let name = ptsname(&master, Vec::new()).ok()?.into_string().ok()?;
        let end = OpenOptions::new().read(true).write(true).open(name).ok()?;
        let stdio = || Stdio::from(OwnedFd::from(end.try_clone().expect("a copy")));
        let child = Command::new(env!("CARGO_BIN_EXE_placewright"))
            .args(args)
            .current_dir(folder)
            .env("TERM", "xterm")
            .env_remove("NO_COLOR")
            .stdin(stdio())
            .stdout(stdio())
            .stderr(stdio())
            .spawn()
            .expect("the program runs");
        let keys = File::from(master);
        let mut reader = keys.try_clone().expect("a copy");
        let shown = Arc::new(Mutex::new(Vec::new()));
        let sink = Arc::clone(&shown);
        thread::spawn(move || {
            let mut piece = [0; 4096];
            // Reading fails once the program has closed its end.
            while let Ok(count @ 1..) = reader.read(&mut piece) {
                sink.lock().unwrap_or_else(PoisonError::into_inner).extend(&piece[..count]);
            }
        });
        Some(Self { child, keys, shown, at: 0 })
    }

    /// What has been shown so far.
    pub fn screen(&self) -> String {
        String::from_utf8_lossy(&self.shown.lock().unwrap_or_else(PoisonError::into_inner)).into_owned()
    }

    /// Waits for words that have not been waited for yet.
    #[track_caller]
    pub fn wait_for(&mut self, words: &str) {
        let start = Instant::now();
        loop {
            let screen = self.screen();
            if let Some(found) = screen.get(self.at..).and_then(|rest| rest.find(words)) {
                self.at += found + words.len();
                return;
            }
            assert!(start.elapsed() < PATIENCE, "`{words}` is not shown:\n{screen}");
            thread::sleep(Duration::from_millis(20));
        }
    }

    /// Presses keys.
    pub fn press(&mut self, keys: &str) {
        self.keys.write_all(keys.as_bytes()).expect("keys");
    }

    /// Waits for the end. Gives the exit status and everything shown.
    pub fn end(mut self) -> (Option<i32>, String) {
        let status = self.child.wait().expect("an end").code();
        // What was shown last may still be on its way.
        thread::sleep(Duration::from_millis(100));
        (status, self.screen())
    }
}

impl Drop for Terminal {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
