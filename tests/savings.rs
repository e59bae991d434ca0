//! What the ticket and `check` say would save paper is what it saves: the class copies of the lesson that has the change.

use placewright::lesson::Lesson;
use placewright::lesson::job::{FileFacts, JobFacts, Keep, SaveBy};
use placewright::spec::SheetKind;
use toml_edit::{Array, DocumentMut, InlineTable, Item, value};

use crate::support::class::Shop;
use crate::support::run::placewright;
use crate::support::setup::planned;

/// Lessons whose copies are unlike: who cuts, sides, paper, groups, slip-sheets, classes that leave places of a pile free.
const LESSONS: [&str; 7] = [
    // Piles, two sides, groups whose sets differ in size.
    "title = \"Quarry carts\"\npaper = \"letter\"\nseed = 33\n[numbers]\nrange = [100, 999]\nsort.count = 7\nexit.count = 4\n\
     [forms]\nmatch = [\"numeral\", \"words\", \"units\", \"blocks\"]\ndecoys = 4\n\
     [class]\nlearners = 26\nspares = 3\nversions = 2\n[print]\ncut = \"stack\"\nsides = \"two\"\n\
     [[group]]\nname = \"Granite\"\nlearners = 8\nrange = [1000, 6999]\nsort.count = 8\n\
     [[group]]\nname = \"Slate\"\nlearners = 5\nsort.count = 4\ndecoys = 1\nversions = 1\n",
    // Scissors, two sides, groups, kits that are shared already.
    "title = \"Salt works\"\npaper = \"a4\"\nseed = 91\n[numbers]\nrange = [100, 799]\nsort.count = 6\nexit.count = 3\n\
     [class]\nlearners = 23\nspares = 2\nversions = 2\nshare = { blocks = 3, layered = 2, word-bank = 2 }\n\
     [print]\nsides = \"two\"\n[[group]]\nname = \"Crystal\"\nlearners = 5\ncloser = true\n\
     [[group]]\nname = \"Brine\"\nlearners = 7\nfurther = true\nversions = 1\n",
    // Legal paper, large print, piles, slip-sheets, a group of one learner.
    "title = \"Bell foundry\"\npaper = \"legal\"\nseed = 401\n[numbers]\nrange = [100, 999]\nsort.count = 6\n\
     [forms]\nmatch = [\"numeral\", \"words\", \"expanded\", \"regrouped\"]\ndecoys = 2\n\
     [class]\nlearners = 31\nspares = 4\nversions = 3\nshare = { blocks = 4, layered = 4, mat = 4 }\n\
     [print]\ncut = \"stack\"\nsides = \"two\"\ntext = \"large\"\nslip_sheets = true\n\
     [[group]]\nname = \"Clapper\"\nlearners = 1\ncloser = true\n[[group]]\nname = \"Yoke\"\nlearners = 10\nrange = [2000, 9999]\n",
    // Tabloid paper, piles, one side, two languages.
    "title = \"Moss garden\"\npaper = \"tabloid\"\nseed = 12\nsecond_language = \"es\"\n[numbers]\nrange = [20, 199]\n\
     [forms]\nmatch = [\"numeral\", \"words\", \"words2\", \"expanded\", \"blocks\"]\n\
     [class]\nlearners = 9\nspares = 3\nversions = 2\n[print]\ncut = \"stack\"\n\
     [[group]]\nname = \"Moss\"\nlearners = 3\nrange = [1000, 2999]\n[[group]]\nname = \"Fern\"\nlearners = 2\ncloser = true\n",
    // Two learners: the strips take more sheets than all else, so that one file has both sides.
    "title = \"Lock gates\"\nseed = 5\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 2\nspares = 1\n\
     [print]\ncut = \"stack\"\nsides = \"two\"\nslip_sheets = true\n",
    // A pile that spare sets fill; strips and checks alone are used up.
    "title = \"Net lofts\"\nseed = 8\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 17\nspares = 2\nversions = 3\n\
     [print]\ncut = \"stack\"\n[sheets]\nmake = [\"blocks\", \"layered\", \"mat\", \"strips\", \"exit\"]\n",
    // Scissors, one side, slip-sheets; without spare sets numbers have one digit.
    "title = \"Rope walk\"\nseed = 3\npaper = \"a3\"\n[numbers]\nrange = [10, 99]\n[class]\nlearners = 7\nspares = 4\n\
     [print]\nslip_sheets = true\n",
];

fn job(lesson: &Lesson) -> JobFacts {
    Shop::open().job(lesson)
}

fn sheets(job: &JobFacts) -> usize {
    job.files.iter().map(FileFacts::sheets).sum()
}

/// The lesson file with what a saving says done to it.
fn changed(text: &str, job: &JobFacts, by: SaveBy) -> String {
    let mut lesson: DocumentMut = text.parse().expect("a lesson");
    match by {
        SaveBy::NoSpares => lesson["class"]["spares"] = value(0),
        SaveBy::Sharing(kind, learners) => {
            let class = lesson["class"].as_table_mut().expect("a table");
            let share = class.entry("share").or_insert(value(InlineTable::new()));
            share[kind.word()] = value(i64::from(learners));
        }
        SaveBy::KeptKits => {
            let kept = |kind: &SheetKind| job.sheet(*kind).is_some_and(|sheet| sheet.keep == Keep::Kit);
            let made = planned(text).spec.sheets.make.value;
            let rest: Array = made.iter().filter(|kind| !kept(kind)).map(|kind| kind.word()).collect();
            let sheets = lesson.entry("sheets").or_insert(Item::Table(toml_edit::Table::new()));
            sheets["make"] = value(rest);
        }
    }
    lesson.to_string()
}

#[test]
fn each_saving_is_what_the_changed_lesson_saves() {
    let mut seen = [0; 3];
    for text in LESSONS {
        let now = job(&planned(text));
        for saving in &now.savings {
            let then = job(&planned(&changed(text, &now, saving.by)));
            let saved = sheets(&now) - sheets(&then);
            assert_eq!(saving.sheets, saved, "{:?} of {}, {}", saving.by, sheets(&now), &text[..22]);
            seen[match saving.by {
                SaveBy::Sharing(..) => 0,
                SaveBy::NoSpares => 1,
                SaveBy::KeptKits => 2,
            }] += 1;
        }
        let saved: Vec<usize> = now.savings.iter().map(|saving| saving.sheets).collect();
        assert!(saved.is_sorted_by(|one, next| one >= next), "{saved:?}");
    }
    assert!(seen.iter().all(|count| *count >= LESSONS.len() - 2), "{seen:?}");
}

/// What `check` says of boards with a row a page is what the lesson takes without their pictures, or on larger paper.
#[test]
fn large_pictures_cost_what_check_says() {
    let text = "title = \"Quarry carts\"\npaper = \"letter\"\nseed = 33\n[numbers]\nrange = [100, 999]\nsort.count = 5\n\
                [forms]\nmatch = [\"numeral\", \"words\", \"expanded\", \"units\", \"blocks\"]\n[class]\nlearners = 12\n[print]\ncut = \"stack\"\n\
                [sheets]\nmake = [\"board\", \"strips\"]\n[[group]]\nname = \"Granite\"\nlearners = 5\nrange = [1000, 9999]\n";
    let folder = tempfile::tempdir().expect("a folder");
    let check = |text: &str| {
        let path = folder.path().join("quarry.toml");
        std::fs::write(&path, text).expect("a file");
        let ran = placewright(["check".as_ref(), path.as_os_str()]).with(0);
        let copies = ran.out.split("class copies: ").nth(1).expect("copies").split(' ').next().map(str::to_owned);
        (copies.and_then(|copies| copies.parse::<usize>().ok()).expect("a number"), ran.err)
    };
    let (now, said) = check(text);
    let note = said.lines().find(|line| line.contains("has a page of its own")).unwrap_or_else(|| panic!("{said}"));
    assert!(note.contains(&format!("the class copies take {now} sheets, ")) && note.contains("of board B "), "{note}");
    let plain = text.replace(
        "range = [1000, 9999]\n",
        "range = [1000, 9999]\nmatch = [\"numeral\", \"words\", \"expanded\", \"units\"]\n",
    );
    for (way, text) in [
        ("without these pictures under `match`", plain),
        ("on `paper = \"legal\"`", text.replace("letter", "legal")),
        ("on `paper = \"tabloid\"`", text.replace("letter", "tabloid")),
    ] {
        let (then, said) = check(&text);
        match note.split_once(way) {
            Some((_, saved)) => {
                let saved: usize = saved.trim_start().split(' ').next().expect("a number").parse().expect("a number");
                assert_eq!(now - saved, then, "{way}: {note}");
            }
            None => assert!(then >= now, "{way}: {then}, {now}"),
        }
        assert!(!way.starts_with("without") || !said.contains("has a page of its own"), "{said}");
    }
}
