//! How the desk begins and ends: two at once, a port that is taken, a double click, Ctrl-C, a page that is closed.

use std::fs;
#[cfg(target_os = "linux")]
use std::path::Path;

use serde_json::json;

use crate::desk::{LESSON, scene};
use crate::support::desk::Desk;
use crate::support::run::process;

#[test]
fn two_desks_are_open_at_once_and_a_port_is_taken_once() {
    let (at, desk) = scene(LESSON);
    let (page, other) = (desk.enter(), Desk::open(at.path(), &["tram.toml"]));
    let second = other.enter();
    assert_ne!(desk.host, other.host);
    // A browser sends the cookies of both to each.
    let both = format!("{}; {}", page.cookie, second.cookie);
    for desk in [&desk, &other] {
        assert_eq!(desk.ask("GET", "/", &[("Host", &desk.host), ("Cookie", &both)], b"").status, 200);
        let swapped = if desk.host == other.host { &page.cookie } else { &second.cookie };
        assert_eq!(desk.ask("GET", "/", &[("Host", &desk.host), ("Cookie", swapped)], b"").status, 403);
    }
    page.fill("minutes", json!({ "": "63" }));
    page.does("/save", json!({ "name": "tram.toml" }));
    assert_eq!(second.get("/here").json()["theirs"], true);
    let port = desk.host.rsplit(':').next().unwrap();
    let ran = process(at.path(), &["desk", "--no-browser", "--port", port]).with(3);
    assert!(ran.err.contains("another program, perhaps another desk") && ran.err.contains("--port"), "{}", ran.err);
}

#[test]
fn it_ends_when_the_page_is_closed() {
    let at = tempfile::tempdir().unwrap();
    fs::write(at.path().join("tram.toml"), LESSON).unwrap();
    let mut desk = Desk::open(at.path(), &["tram.toml", "--linger", "2"]);
    let page = desk.enter();
    page.view();
    page.does("/left", json!({}));
    assert_eq!(desk.ended(20), Some(0));

    // What is not saved is waited for, unless the page was closed.
    let mut desk = Desk::open(at.path(), &["tram.toml", "--linger", "1"]);
    let page = desk.enter();
    page.fill("minutes", json!({ "": "64" }));
    std::thread::sleep(std::time::Duration::from_secs(3));
    assert_eq!(page.get("/here").status, 200);
    page.does("/left", json!({}));
    assert_eq!(desk.ended(20), Some(0));
}

#[cfg(unix)]
#[test]
fn ctrl_c_ends_it() {
    let (_at, mut desk) = scene(LESSON);
    let kill = std::process::Command::new("kill").args(["-INT", &desk.id().to_string()]).status();
    if !kill.is_ok_and(|status| status.success()) {
        eprintln!("skipped: no kill");
        return;
    }
    assert_eq!(desk.ended(20), Some(0));
}

#[cfg(target_os = "linux")]
#[test]
fn a_double_click_opens_the_desk_in_the_browser() {
    use std::os::unix::fs::PermissionsExt;
    use std::process::{Command, Stdio};
    let at = tempfile::tempdir().unwrap();
    let opener = at.path().join("xdg-open");
    fs::write(&opener, "#!/bin/sh\nprintf '%s' \"$1\" > opened.part && mv opened.part opened\n").unwrap();
    fs::set_permissions(&opener, fs::Permissions::from_mode(0o755)).unwrap();
    let path = format!("{}:/usr/bin:/bin", at.path().display());
    let start = |screen: bool| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_placewright"));
        command.current_dir(at.path()).env("PATH", &path).env_remove("DISPLAY").env_remove("WAYLAND_DISPLAY");
        if screen {
            command.env("DISPLAY", ":0");
        }
        command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap()
    };
    // Without a screen it is a script, which is told what to type.
    assert_eq!(start(false).wait().unwrap().code(), Some(2));
    let mut child = start(true);
    let opened = at.path().join("opened");
    for _ in 0..200 {
        if opened.exists() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(50));
    }
    let address = read(&opened);
    child.kill().unwrap();
    child.wait().unwrap();
    assert!(address.starts_with("http://127.0.0.1:") && address.contains("/?key="), "{address}");
}

#[cfg(target_os = "linux")]
fn read(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_default()
}
