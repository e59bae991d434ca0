//! Only what was meant changes.

use std::sync::Arc;

use serde_json::json;

use super::*;
use crate::diag::Source;
use crate::rng::Stream;
use crate::spec::keys::list;

const LESSON: &str = "# Ours.\ntitle = \"Tram\"  # the line\n#: grade = \"2\"            # printed on the plan\n\n# Which.\n\
    [numbers]\nrange = [10, 99]\n# At the end.\n\n[numbers.sort]   # matched\ncount = 8 # eight\nzeros = { ones = 1 }\n\n# For whom.\n[class]\n\
    learners = 24\n";

#[track_caller]
fn case(path: &str, value: impl Into<Option<Value>>, old: &str, new: &str) {
    let value = value.into();
    for (old, new, lesson) in [
        (old.to_owned(), new.to_owned(), LESSON.to_owned()),
        (old.replace('\n', "\r\n"), new.replace('\n', "\r\n"), LESSON.replace('\n', "\r\n")),
    ] {
        let changed = set(&lesson, path, value.as_ref());
        assert_eq!(changed, lesson.replacen(&old, &new, 1), "{path}");
        assert_eq!(get(&changed, path), value, "{path}");
    }
}

#[test]
fn a_value_is_replaced_where_it_stands() {
    case("title", Some(json!("A \"B\"")), "\"Tram\"", "'A \"B\"'");
    case("numbers.range", Some(json!([100, 999])), "[10, 99]", "[100, 999]");
    case("numbers.sort.count", Some(json!(6)), "count = 8 #", "count = 6 #");
    case(
        "numbers.sort.zeros",
        Some(json!({ "tens": { "min": 1, "max": 2 } })),
        "{ ones = 1 }",
        "{ tens = { min = 1, max = 2 } }",
    );
    case("class.learners", Some(json!("many")), "= 24", "= \"many\"");
}

#[test]
fn a_suggestion_is_taken_and_given_back() {
    case("grade", Some(json!("3")), "#: grade = \"2\"            # printed", "grade = \"3\"               # printed");
    case("numbers.sort.count", None, "count = 8 # eight", "#: count = 8 # eight");
    let taken = set(LESSON, "grade", Some(&json!("2")));
    assert_eq!(set(&set(&taken, "grade", None), "grade", Some(&json!("2"))), taken);
}

#[test]
fn a_new_key_joins_its_table() {
    case("minutes", Some(json!(50)), "# the line\n", "# the line\nminutes = 50\n");
    case("numbers.never", Some(json!([50])), "[10, 99]\n", "[10, 99]\nnever = [50]\n");
    case("class.learners", None, "learners = 24\n", "");
    case("class.spares", Some(json!(0)), "learners = 24\n", "learners = 24\nspares = 0\n");
}

#[test]
fn a_new_table_joins_its_family() {
    case(
        "numbers.exit.count",
        Some(json!(2)),
        "zeros = { ones = 1 }\n",
        "zeros = { ones = 1 }\n\n[numbers.exit]\ncount = 2\n",
    );
    let printed = set(LESSON, "print.cut", Some(&json!("stack")));
    assert_eq!(printed, format!("{LESSON}\n[print]\ncut = \"stack\"\n"));
    assert_eq!(set("", "title", Some(&json!("T"))), "title = \"T\"\n");
    assert_eq!(set("\u{feff}title = 1", "title", Some(&json!("T"))), "\u{feff}title = \"T\"");
}

#[test]
fn other_ways_to_write_tables_are_kept_to() {
    for (lesson, path, value, want) in [
        (
            "numbers = { range = [1, 9] } # n\n",
            "numbers.sort.count",
            json!(2),
            "numbers = { range = [1, 9] , sort = { count = 2 } } # n\n",
        ),
        ("[numbers]\nsort.count = 3 # c\n", "numbers.sort.count", json!(2), "[numbers]\nsort.count = 2 # c\n"),
        ("[numbers]\nsort.count = 3 # c\n", "numbers.sort.teens", json!(1), ""),
        ("[numbers]\nat_most.tens = 3\n", "numbers.at_most", json!({ "ones": 2 }), ""),
        ("[numbers.at_most]\ntens = 3\n", "numbers.at_most", json!({ "ones": 2 }), ""),
        (
            "[[group]]\nname = \"a\"\n[[group]]\nname = \"b\"\n",
            "group.1.name",
            json!("c"),
            "[[group]]\nname = \"a\"\n[[group]]\nname = \"c\"\n",
        ),
        (
            "[[group]]\nname = \"a\"\n[[group]]\nname = \"b\"\n",
            "group.0.learners",
            json!(3),
            "[[group]]\nname = \"a\"\nlearners = 3\n[[group]]\nname = \"b\"\n",
        ),
    ] {
        let changed = set(lesson, path, Some(&value));
        assert_eq!(get(&changed, path), Some(value), "{changed}");
        assert!(want.is_empty() || changed.replace(" ,", ",") == want.replace(" ,", ","), "{changed}");
        assert_eq!(get(&set(&changed, path, None), path), None, "{changed}");
    }
}

#[test]
fn tables_of_a_list_come_and_go() {
    let one = add_table(LESSON, "group", &[("name", json!("Gulls")), ("learners", json!(4))]);
    assert_eq!(one, format!("{LESSON}\n[[group]]\nname = \"Gulls\"\nlearners = 4\n"));
    let two = add_table(&one, "group", &[("name", json!("Terns"))]);
    let two = set(&set(&two, "group.1.learners", Some(&json!(3))), "group.0.sort.count", Some(&json!(5)));
    assert_eq!(get(&two, "group.0.sort.count"), Some(json!(5)), "{two}");
    assert_eq!((tables(&two, "group"), get(&two, "group.1.learners")), (2, Some(json!(3))));
    let left = remove_table(&two, "group", 0);
    assert_eq!((tables(&left, "group"), get(&left, "group.0.name")), (1, Some(json!("Terns"))));
    let none = remove_table(&left, "group", 0);
    assert!(tables(&none, "group") == 0 && none.contains("# For whom.") && none.starts_with("# Ours."), "{none}");
    assert_eq!(remove_table(&none, "group", 0), none);
}

#[test]
fn a_place_is_told_by_its_path() {
    for (at, want) in [
        ("\"Tram\"", Some("title")),
        ("range =", Some("numbers.range")),
        ("99", Some("numbers.range")),
        ("ones = 1", Some("numbers.sort.zeros.ones")),
        ("1 }", Some("numbers.sort.zeros.ones")),
        ("[numbers.sort]", Some("numbers.sort")),
        ("# Ours", None),
    ] {
        assert_eq!(path_at(LESSON, LESSON.find(at).expect(at)).as_deref(), want, "{at}");
    }
}

/// Every comment and every other key is still there after any change.
#[test]
fn nothing_else_changes() {
    let mut stream = Stream::new(7, "document");
    let rows = list::rows();
    let comments = |text: &str| {
        text.lines().filter_map(|line| line.split_once("# ").map(|(_, c)| c.to_owned())).collect::<Vec<_>>()
    };
    let mut text = include_str!("../../../samples/harbour.toml").to_owned();
    let before = comments(&text);
    assert!(before.len() > 10);
    for _ in 0..400 {
        let row = &rows[stream.index(rows.len())];
        let tables = row.tables();
        let table = &tables[stream.index(tables.len())];
        let path = if table.is_empty() { row.name.to_owned() } else { format!("{table}.{}", row.name) };
        let given: toml::Table = format!("x = {}", row.example).parse().expect("an example");
        let value = (stream.below(3) > 0 || path == "title" || path == "numbers.range")
            .then(|| serde_json::to_value(&given["x"]).expect("JSON"));
        let others = |text: &str| {
            let mut all = serde_json::to_value(text.parse::<toml::Table>().expect("TOML")).expect("JSON");
            let mut at = &mut all;
            for part in path.split('.') {
                at = &mut at[part];
            }
            *at = Value::Null;
            all
        };
        let changed = set(&text, &path, value.as_ref());
        assert_eq!(get(&changed, &path), value, "{path}\n{changed}");
        assert_eq!(others(&changed), others(&text), "{path}");
        text = changed;
        for comment in &before {
            assert!(text.contains(comment.trim()), "{path} lost `{comment}`:\n{text}");
        }
    }
    let source = Arc::new(Source { name: "x.toml".to_owned(), text });
    assert!(crate::spec::read(&source).is_ok() || !crate::spec::read(&source).expect_err("found").is_empty());
}
