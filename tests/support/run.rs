//! The program from outside: arguments in; exit status, results and talk out.

use std::ffi::OsString;
use std::path::Path;
use std::process::{Command, Stdio};

use placewright::cli::{Io, run};

/// What a run said.
#[derive(Debug)]
pub struct Ran {
    /// The exit status.
    pub status: u8,
    /// Results, on stdout.
    pub out: String,
    /// Talk, on stderr.
    pub err: String,
}

/// Runs the program in this process: quick, and a panic is seen at once.
pub fn placewright<I>(args: I) -> Ran
where
    I: IntoIterator,
    I::Item: Into<OsString>,
{
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let args = std::iter::once("placewright".into()).chain(args.into_iter().map(Into::into));
    let status = run(args, &mut Io::plain(&mut out, &mut err));
    let text = |bytes| String::from_utf8(bytes).expect("UTF-8");
    Ran { status, out: text(out), err: text(err) }
}

/// Runs the program as a process of its own, in a folder, with nothing to read on stdin.
pub fn process(folder: &Path, args: &[&str]) -> Ran {
    let ran = Command::new(env!("CARGO_BIN_EXE_placewright"))
        .args(args)
        .current_dir(folder)
        .env_remove("NO_COLOR")
        .stdin(Stdio::null())
        .output()
        .expect("the program runs");
    let status = ran.status.code().and_then(|code| u8::try_from(code).ok()).expect("an exit status");
    let text = |bytes| String::from_utf8(bytes).expect("UTF-8");
    Ran { status, out: text(ran.stdout), err: text(ran.stderr) }
}

impl Ran {
    /// Checks the exit status; a failing test shows what was said.
    #[track_caller]
    pub fn with(self, status: u8) -> Self {
        assert_eq!(self.status, status, "stdout:\n{}\nstderr:\n{}", self.out, self.err);
        self
    }
}
