//! What must not get out: names of learners besides on pages, and where, when and by whom something was made.

use crate::support::plain;
use std::fs;
use std::path::Path;
use std::process::Command;
use std::time::{SystemTime, UNIX_EPOCH};

use plain::{holds, plain};

const NAMES: [&str; 3] = ["Wrenholt", "Quillmarsh", "T\u{e4}nsyfield"];

/// Every file below a folder.
fn files(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let mut all = Vec::new();
    for path in fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
        let name = path.file_name().unwrap().to_str().unwrap().to_owned();
        if path.is_dir() {
            all.extend(files(&path).into_iter().map(|(inner, bytes)| (format!("{name}/{inner}"), bytes)));
        } else {
            all.push((name, fs::read(path).unwrap()));
        }
    }
    all
}

/// A class with a roster, a font and layouts of its own, all named by paths from the root, made with pictures by somebody
/// somewhere; gives the folder and the files.
fn made() -> (tempfile::TempDir, Vec<(String, Vec<u8>)>) {
    let at = tempfile::Builder::new().prefix("Zephyrholm").tempdir().unwrap();
    let path = |name: &str| at.path().join(name).to_str().unwrap().replace('\\', "/");
    fs::create_dir(path("Vaultlayouts")).unwrap();
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    fs::copy(root.join("fonts/andika/Andika-Regular.ttf"), path("Cellarfont.ttf")).unwrap();
    fs::copy(root.join("layouts/board.toml"), path("Vaultlayouts/board.toml")).unwrap();
    fs::write(path("Attic.csv"), format!("name,group\n{}\n", NAMES.map(|name| format!("{name},Gullgroup")).join("\n")))
        .unwrap();
    let (roster, font, layouts) = (path("Attic.csv"), path("Cellarfont.ttf"), path("Vaultlayouts"));
    let lesson = format!(
        "title = \"Harbour market\"\n[numbers]\nrange = [100, 999]\n[class]\nroster = \"{roster}\"\nspares = 0\n\
         [print]\nfont = \"{font}\"\n[sheets]\nlayouts = \"{layouts}\"\n\
         make = [\"display\", \"board\", \"strips\", \"exit\", \"key\", \"tally\"]\n"
    );
    fs::write(path("tram.toml"), lesson).unwrap();
    let around =
        [("USER", "Quimbyuser"), ("LOGNAME", "Quimbyuser"), ("USERNAME", "Quimbyuser"), ("HOSTNAME", "Hestiahost")];
    let ran = Command::new(env!("CARGO_BIN_EXE_placewright"))
        .args(["preview", &path("tram.toml"), "--out", &path("Kilnout")])
        .current_dir(at.path())
        .envs(around)
        .envs([("COMPUTERNAME", "Hestiahost"), ("HOME", "/home/Quimbyhome"), ("USERPROFILE", "C:\\Users\\Quimbyhome")])
        .output()
        .unwrap();
    assert!(ran.status.success(), "{}", String::from_utf8_lossy(&ran.stderr));
    let files = files(&at.path().join("Kilnout"));
    (at, files)
}

/// What must be nowhere but on pages.
fn secrets(at: &Path) -> Vec<String> {
    let mut secrets: Vec<String> = NAMES.map(str::to_owned).to_vec();
    let words =
        ["Gullgroup", "Zephyrholm", "Vaultlayouts", "Cellarfont", "Attic", "Kilnout", "Quimby", "Hestiahost", "tram"];
    secrets.extend(words.map(str::to_owned));
    // Folders of this very machine, and its name unless it is too short to mean anything.
    secrets.extend(
        [at, at.parent().unwrap(), Path::new(env!("CARGO_MANIFEST_DIR"))].map(|path| path.display().to_string()),
    );
    secrets.extend(std::env::home_dir().map(|home| format!("{}/", home.display())));
    let host = fs::read_to_string("/etc/hostname").unwrap_or_default();
    secrets.extend(Some(host.trim().to_owned()).filter(|host| host.len() > 5));
    secrets.extend(["CreationDate", "ModDate", "CreateDate", "ModifyDate", "xmp:Meta"].map(str::to_owned));
    // The year; numbers of the lesson have three digits.
    let days = SystemTime::now().duration_since(UNIX_EPOCH).unwrap().as_secs() / 86_400;
    secrets.push(format!("{}", 1970 + days * 400 / 146_097));
    secrets
}

/// What an SVG says in words; everything else in it are shapes, which are told by known names.
fn words(name: &str, bytes: &[u8]) -> Vec<u8> {
    let text = std::str::from_utf8(bytes).unwrap();
    let document = resvg::usvg::roxmltree::Document::parse(text).unwrap();
    let mut words = String::new();
    for node in document.descendants() {
        let said = node.text().filter(|_| node.is_text()).unwrap_or_default();
        let described = node.parent().is_some_and(|parent| parent.has_tag_name("desc"));
        // A description says what is on the page: on the class list, who is in the class.
        words.push_str(&if described {
            NAMES.iter().fold(said.to_owned(), |said, name| said.replace(name, ""))
        } else {
            said.to_owned()
        });
        assert!(!node.is_comment() && !node.is_pi(), "{name}");
        let known = ["svg", "title", "desc", "defs", "g", "path", "use"];
        assert!(!node.is_element() || known.contains(&node.tag_name().name()), "{name}: {node:?}");
        for attribute in node.attributes() {
            match attribute.name() {
                "d" | "x" | "y" | "id" | "href" | "fill" | "transform" | "width" | "height" | "viewBox" => {}
                "stroke" | "stroke-width" | "stroke-dasharray" | "stroke-miterlimit" => {}
                "role" | "aria-labelledby" | "aria-describedby" => {}
                "data-made-by" => words.push_str(attribute.value()),
                other => panic!("{name}: {other}"),
            }
        }
    }
    words.into_bytes()
}

#[test]
fn no_file_tells_who_where_or_when() {
    let (at, files) = made();
    assert!(files.len() > 20);
    for (name, bytes) in &files {
        let shown = if name.ends_with(".pdf") {
            let open = plain(bytes);
            // Names are there, and would be found.
            assert!(holds(&open, "Harbour market"), "{name}");
            open
        } else if name.ends_with(".svg") {
            words(name, bytes)
        } else {
            bytes.clone()
        };
        // The name of the lesson file is in no file, only on the folder.
        let inner = name.strip_prefix("tram/").unwrap();
        for secret in secrets(at.path()) {
            // Checksums and colours are digits, too: a year counts as a word.
            let found = if secret.bytes().all(|byte| byte.is_ascii_digit()) {
                is_word(&shown, &secret)
            } else {
                holds(&shown, &secret)
            };
            assert!(!found && !inner.contains(&secret), "`{secret}` in {name}");
        }
    }
}

/// Whether digits stand in a text by themselves, and are neither the number of a PDF's object nor a length.
fn is_word(bytes: &[u8], digits: &str) -> bool {
    let text = String::from_utf8_lossy(bytes);
    let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
    text.match_indices(digits).any(|(at, _)| {
        let (before, after) = (&text[..at], &text[at + digits.len()..]);
        let counted = ["/Length ", "/First "].iter().any(|key| before.ends_with(key));
        let object = after.starts_with(" 0 obj") || after.starts_with(" 0 R");
        !(counted || object || digit(before.chars().next_back()) || digit(after.chars().next()))
    })
}

/// The pictures and pages of the same class with other names differ; everything else is the same, byte by byte.
#[test]
fn names_change_pages_and_nothing_else() {
    let at = tempfile::tempdir().unwrap();
    let path = |name: &str| at.path().join(name);
    let text = "title = \"Harbour market\"\n[numbers]\nrange = [100, 999]\n[class]\nroster = \"names.csv\"\nspares = 0\n\
                [sheets]\nmake = [\"board\"]\n";
    fs::write(path("tram.toml"), text).unwrap();
    let made = |names: [&str; 3], out: &str| {
        fs::write(path("names.csv"), format!("name\n{}\n", names.join("\n"))).unwrap();
        let args = ["preview", "tram.toml", "--out", out];
        let ran = Command::new(env!("CARGO_BIN_EXE_placewright")).args(args).current_dir(at.path()).output().unwrap();
        assert!(ran.status.success(), "{}", String::from_utf8_lossy(&ran.stderr));
        let mut files = files(&path(out));
        files.sort();
        files
    };
    let (one, two) = (made(NAMES, "one"), made(["Otisfen", "Marrowby", "Kestrelton"], "two"));
    assert!(one.iter().map(|(name, _)| name).eq(two.iter().map(|(name, _)| name)));
    for ((name, one), (_, two)) in one.iter().zip(&two) {
        // The first picture of a copy room's file is its proof, which is nobody's.
        let on_pages = name.contains("copy-room-paper") && !name.ends_with("copy-room-paper-1.svg");
        assert_eq!(one != two, on_pages, "{name}");
    }
}
