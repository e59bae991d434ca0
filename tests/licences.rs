//! `LICENCES.txt`: the licences of everything that is shipped, in one file that a command prints.
//!
//! It is made from what cargo knows of the libraries in the program and from the licence texts that they carry:
//! `REPLACE=1 cargo test --test all licences`.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;
use std::fs;
use std::path::Path;
use std::process::Command;

use serde_json::Value;

use crate::support::run::placewright;

/// Everything cargo knows of the packages in the lock file; those for other systems may still have to be fetched.
fn metadata() -> Value {
    let ran = Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--locked"])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("cargo runs");
    assert!(ran.status.success(), "{}", String::from_utf8_lossy(&ran.stderr));
    serde_json::from_slice(&ran.stdout).expect("JSON")
}

/// The ids of all packages that are compiled into the program on any system, without the program itself.
fn shipped(metadata: &Value) -> BTreeSet<&str> {
    let nodes: BTreeMap<&str, &Value> = metadata["resolve"]["nodes"]
        .as_array()
        .unwrap()
        .iter()
        .map(|node| (node["id"].as_str().unwrap(), node))
        .collect();
    let root = metadata["resolve"]["root"].as_str().unwrap();
    let (mut open, mut seen) = (vec![root], BTreeSet::new());
    while let Some(id) = open.pop() {
        for dependency in nodes[id]["deps"].as_array().unwrap() {
            let normal = dependency["dep_kinds"].as_array().unwrap().iter().any(|kind| kind["kind"].is_null());
            let id = dependency["pkg"].as_str().unwrap();
            if normal && seen.insert(id) {
                open.push(id);
            }
        }
    }
    seen
}

/// The licence texts of a package, without those that it only offers as another choice.
fn texts(folder: &Path, licence: &str) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter(|name| {
            let name = name.to_uppercase();
            ["LICENSE", "LICENCE", "COPYING", "COPYRIGHT", "UNLICENSE", "NOTICE"]
                .iter()
                .any(|start| name.starts_with(start))
        })
        .collect();
    names.sort();
    let is_apache = |name: &String| name.to_uppercase().contains("APACHE");
    if licence.contains("MIT")
        && licence.contains("Apache")
        && names.iter().any(|name| name.to_uppercase().contains("MIT"))
    {
        names.retain(|name| !is_apache(name));
    }
    let read = |name: &String| fs::read_to_string(folder.join(name)).ok();
    names.iter().filter_map(read).map(|text| text.replace("\r\n", "\n").trim().to_owned()).collect()
}

/// The whole file.
fn written() -> String {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let own = |name: &str| fs::read_to_string(root.join(name)).unwrap().trim().to_owned();
    let rule = "=".repeat(80);
    let mut text =
        format!("{}\n\n{rule}\n\n{}\n\n{rule}\n\n{}\n", own("LICENSE"), own("LICENSE-MIT"), own("LICENSE-APACHE"));
    for (font, folder) in [("Andika", "andika"), ("Lato", "lato")] {
        write!(text, "\n{rule}\nThe font {font}\n{rule}\n\n{}\n", own(&format!("fonts/{folder}/OFL.txt"))).unwrap();
    }
    let metadata = metadata();
    let shipped = shipped(&metadata);
    // Packages of one text stand together over it.
    let mut groups: BTreeMap<Vec<String>, Vec<String>> = BTreeMap::new();
    for package in metadata["packages"].as_array().unwrap() {
        if shipped.contains(package["id"].as_str().unwrap()) {
            let licence = package["license"].as_str().unwrap_or("see the text");
            let manifest = Path::new(package["manifest_path"].as_str().unwrap());
            let name =
                format!("{} {} ({licence})", package["name"].as_str().unwrap(), package["version"].as_str().unwrap());
            groups.entry(texts(manifest.parent().unwrap(), licence)).or_default().push(name);
        }
    }
    let mut groups: Vec<(Vec<String>, Vec<String>)> = groups.into_iter().map(|(texts, names)| (names, texts)).collect();
    groups.sort();
    for (names, texts) in groups {
        write!(text, "\n{rule}\n{}\n{rule}\n", names.join("\n")).unwrap();
        if texts.is_empty() {
            text.push_str("\nThis package carries no text of its own; its licence is named above.\n");
        }
        for part in texts {
            write!(text, "\n{part}\n").unwrap();
        }
    }
    // Old texts end their lines with spaces and their pages with a form feed.
    let lines: Vec<&str> = text.lines().map(|line| line.trim_end_matches([' ', '\t', '\u{c}'])).collect();
    lines.join("\n") + "\n"
}

#[test]
fn the_licences_are_those_of_the_libraries_in_the_program() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("LICENCES.txt");
    let written = written();
    if std::env::var_os("REPLACE").is_some() {
        fs::write(&path, &written).unwrap();
    }
    assert!(fs::read_to_string(&path).unwrap() == written, "REPLACE=1 writes LICENCES.txt again");
    let printed = placewright(["licences"]).with(0).out;
    assert!(printed.contains("SIL OPEN FONT LICENSE Version 1.1") && printed.contains("\nclap 4."));
    assert_eq!(printed, written);
}
