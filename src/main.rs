//! Real arguments and streams in, exit status out.

use std::io::{IsTerminal, stderr, stdin, stdout};
use std::process::ExitCode;

use placewright::cli::{End, Io, run};

fn main() -> ExitCode {
    let set = |name| std::env::var_os(name).filter(|value| !value.is_empty());
    let able = set("TERM").is_none_or(|terminal| terminal != "dumb");
    let plain = set("NO_COLOR").is_some();
    let end = |is_terminal| End { terminal: is_terminal && able, colourful: is_terminal && able && !plain };
    let (out_is, err_is) = (end(stdout().is_terminal()), end(stderr().is_terminal()));
    let can_ask = stdin().is_terminal() && err_is.terminal;
    // Nobody reads what is printed, and there is a screen. Scripts have at least one of the streams at a terminal or no screen.
    let seen = [stdin().is_terminal(), stdout().is_terminal(), stderr().is_terminal()].contains(&true);
    let screen = !cfg!(target_os = "linux") || set("DISPLAY").or_else(|| set("WAYLAND_DISPLAY")).is_some();
    let clicked = !seen && screen;
    // Talk is not locked: the line that says how far the work is comes from other threads.
    let (mut out, mut err) = (stdout().lock(), stderr());
    ExitCode::from(run(std::env::args_os(), &mut Io { out: &mut out, err: &mut err, out_is, err_is, can_ask, clicked }))
}
