//! Planned lessons: in every sample each strip has one home, and each decoy none (product fact 3).

use std::fs;
use std::path::Path;
use std::sync::Arc;

use crate::support::explained::explained;
use placewright::diag::Source;
use placewright::lesson::{self, Lesson, SortSet};
use placewright::number::{Content, Task};
use placewright::spec;

/// Every sample lesson with its file's name.
fn planned() -> Vec<(String, Lesson)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples");
    let mut paths: Vec<_> =
        fs::read_dir(folder).expect("samples").map(|entry| entry.expect("an entry").path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "toml"));
    paths.sort();
    let plan = |path: &Path| {
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let source =
            Arc::new(Source { name: name.clone(), text: fs::read_to_string(path).expect("a readable sample") });
        let spec = spec::read(&source).unwrap_or_else(|found| panic!("{name}: {found:?}"));
        let lesson = lesson::plan(&source, spec, Vec::new()).unwrap_or_else(|found| panic!("{name}: {found:?}"));
        (name, lesson)
    };
    let lessons: Vec<_> = paths.iter().map(|path| plan(path)).collect();
    assert!(lessons.len() >= 3);
    lessons
}

#[test]
fn every_strip_has_one_home_and_no_decoy_has_any() {
    for (name, lesson) in planned() {
        for set in &lesson.sets {
            let mut homes: Vec<(usize, usize)> = Vec::new();
            for strip in &set.strips {
                // A box wants the strip that shows its row's number in its column's form.
                let boxes = (0..set.rows.len()).flat_map(|row| (0..set.forms.len()).map(move |column| (row, column)));
                let wanted: Vec<(usize, usize)> = boxes
                    .filter(|&(row, column)| {
                        set.forms[column].content(set.rows[row], &set.style).as_ref() == Some(&strip.content)
                    })
                    .collect();
                match (strip.row, &strip.wrong) {
                    (Some(row), None) => {
                        let column = set.forms.iter().position(|form| *form == strip.form).unwrap();
                        assert!(wanted.contains(&(row, column)), "{name}: {strip:?}");
                        homes.push((row, column));
                    }
                    (None, Some((of, slip))) => {
                        assert_eq!(wanted, [], "{name}: {strip:?}");
                        let task = Task::forms(set.given, strip.form);
                        assert_eq!(explained(task, *of, &strip.content, &set.style), Some(*slip));
                        assert!(!is_printed(set, &strip.content), "{name}: {strip:?}");
                    }
                    other => panic!("{name}: {other:?}"),
                }
            }
            homes.sort_unstable();
            homes.dedup();
            assert_eq!(homes.len(), set.rows.len() * set.forms.len(), "{name}: an empty or a full box");
            assert_eq!(set.decoys().len(), lesson.spec.forms.decoys.value as usize, "{name}");
        }
    }
}

/// Whether the board prints this content in its first column.
fn is_printed(set: &SortSet, content: &Content) -> bool {
    set.rows.iter().any(|&row| set.given.content(row, &set.style).as_ref() == Some(content))
}
