//! Real arguments and streams in, exit status out.

use std::io::{IsTerminal, stderr, stdout};
use std::process::ExitCode;

use placewright::cli::{Io, run};

fn main() -> ExitCode {
    let (mut out, mut err) = (stdout().lock(), stderr().lock());
    let set = |name| std::env::var_os(name).filter(|value| !value.is_empty());
    let err_is_colourful =
        err.is_terminal() && set("NO_COLOR").is_none() && set("TERM").is_none_or(|terminal| terminal != "dumb");
    ExitCode::from(run(std::env::args_os(), &mut Io { out: &mut out, err: &mut err, err_is_colourful }))
}
