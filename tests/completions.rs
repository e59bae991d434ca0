//! Completions, as the shells themselves offer them.

use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

use crate::support::run::placewright;
use tempfile::TempDir;

/// What is typed, what must be offered, and what must not.
const SESSIONS: [(&str, &[&str], &[&str]); 6] = [
    ("placewright ", &["check", "completions", "manual", "typeset"], &["lesson.toml"]),
    ("placewright typeset --only ", &["board", "word-bank"], &["lesson.toml"]),
    ("placewright start --paper ", &["letter", "a4"], &["lesson.toml"]),
    ("placewright start --cut ", &["scissors", "stack"], &["lesson.toml"]),
    ("placewright check --format ", &["human", "json"], &["lesson.toml"]),
    ("placewright check less", &["lesson.toml"], &["board"]),
];

/// A folder with a lesson in it and the completions of a shell; nothing where the shell is not there.
fn scene(shell: &str) -> Option<TempDir> {
    if !Command::new(shell).arg("--version").stdout(Stdio::null()).status().is_ok_and(|status| status.success()) {
        eprintln!("skipped: no {shell}");
        return None;
    }
    let at = tempfile::tempdir().unwrap();
    fs::write(at.path().join("lesson.toml"), "").unwrap();
    fs::write(at.path().join("completions"), placewright(["completions", shell]).with(0).out).unwrap();
    Some(at)
}

/// What a script prints.
fn said(at: &Path, shell: &str, args: &[&str], script: &str) -> String {
    let program = Path::new(env!("CARGO_BIN_EXE_placewright")).parent().unwrap();
    let path = std::env::join_paths(
        std::iter::once(program.to_owned()).chain(std::env::split_paths(&std::env::var_os("PATH").unwrap_or_default())),
    );
    let ran = Command::new(shell)
        .args(args)
        .args(["-c", script])
        .current_dir(at)
        .env("HOME", at)
        .env("PATH", path.unwrap())
        .env("TERM", "xterm")
        .stdin(Stdio::null())
        .output()
        .unwrap();
    String::from_utf8_lossy(&ran.stdout).into_owned() + &String::from_utf8_lossy(&ran.stderr)
}

#[track_caller]
fn check(shell: &str, typed: &str, offered: &str, wanted: &[&str], unwanted: &[&str]) {
    for word in wanted {
        assert!(offered.contains(word), "{shell}: {typed:?} lacks {word}:\n{offered}");
    }
    for word in unwanted {
        assert!(!offered.contains(word), "{shell}: {typed:?} offers {word}:\n{offered}");
    }
}

#[test]
fn bash_offers_the_words() {
    let Some(at) = scene("bash") else { return };
    for (typed, wanted, unwanted) in SESSIONS {
        // As bash itself calls the function: the words so far, the last of which is being typed.
        let script = format!(
            "source completions; line='{typed}'; read -ra COMP_WORDS <<< \"$line\"; \
             [[ $line == *' ' ]] && COMP_WORDS+=(''); COMP_CWORD=$((${{#COMP_WORDS[@]}} - 1)); \
             _placewright placewright \"${{COMP_WORDS[COMP_CWORD]}}\" \"${{COMP_WORDS[COMP_CWORD-1]}}\"; \
             if ((${{#COMPREPLY[@]}})); then printf '%s\\n' \"${{COMPREPLY[@]}}\"; \
             else compgen -f -- \"${{COMP_WORDS[COMP_CWORD]}}\"; fi"
        );
        check("bash", typed, &said(at.path(), "bash", &["--norc"], &script), wanted, unwanted);
    }
}

#[test]
fn fish_offers_the_words() {
    let Some(at) = scene("fish") else { return };
    for (typed, wanted, unwanted) in SESSIONS {
        let script = format!("source completions; complete -C '{typed}'");
        check("fish", typed, &said(at.path(), "fish", &["--no-config"], &script), wanted, unwanted);
    }
}

#[test]
fn zsh_offers_the_words() {
    let Some(at) = scene("zsh") else { return };
    fs::rename(at.path().join("completions"), at.path().join("_placewright")).unwrap();
    for (typed, wanted, unwanted) in SESSIONS {
        // A shell at a terminal of its own: keys in, what it lists out, up to a key that makes it say the end.
        let script = format!(
            "zmodload zsh/zpty; zpty z zsh -f -i; \
             zpty -w z 'PS1=; fpath=($PWD $fpath); autoload -U compinit; compinit -u -D; LISTMAX=0; \
             setopt auto_list no_menu_complete no_auto_menu; bindkey \"^X\" kill-whole-line; print rea\"\"dy'; \
             zpty -r z before '*ready*'; zpty -w -n z '{typed}'$'\\t\\t\\x18'; \
             zpty -w z 'print the\"\"end'; zpty -r z shown '*theend*'; print -r -- $shown; zpty -d z"
        );
        check("zsh", typed, &said(at.path(), "zsh", &["-f"], &script), wanted, unwanted);
    }
}
