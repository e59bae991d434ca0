//! Every key of the lesson file: its name, what can be given, what is taken where the file is silent, and what it means.
//!
//! The readers of this folder take names, limits and defaults from here; so do the reference that the program prints, the
//! comments of a first lesson, and the schema that lets editors complete keys. What the file says comes first in
//! [`list`]; [`kind`] knows the kinds of value, [`schema`] writes the schema.

pub mod key;
pub mod kind;
pub mod list;
pub mod schema;

pub use key::{Default, GROUP, GROUP_ROLES, Key, KeyRow, Keyed, ROLE, ROLES, Usually, as_toml};
pub use kind::{Kind, PathTo, Shape};

/// The key of a table, by the table's name in a file (`numbers.sort`) and its own.
pub fn find(table: &str, name: &str) -> Option<KeyRow> {
    list::rows().into_iter().find(|row| row.name == name && row.tables().iter().any(|of| of == table))
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;
    use std::sync::Arc;

    use super::*;
    use crate::diag::Source;
    use crate::spec::read;

    #[test]
    fn every_example_is_read() {
        for row in list::rows() {
            for table in row.tables() {
                if let Some(rest) = table.strip_prefix(GROUP) {
                    let key = format!(
                        "{}{}{}",
                        rest.trim_start_matches('.'),
                        if rest.is_empty() { "" } else { "." },
                        row.name
                    );
                    let own: BTreeMap<&str, &str> =
                        [("name", "\"G\""), ("learners", "3"), (key.as_str(), row.example)].into_iter().collect();
                    let own: Vec<String> = own.iter().map(|(key, value)| format!("{key} = {value}")).collect();
                    let text = format!("title = \"T\"\n[numbers]\nrange = [100, 999]\n[[group]]\n{}", own.join("\n"));
                    let source = Arc::new(Source { name: "x.toml".to_owned(), text: text.clone() });
                    assert!(read(&source).is_ok(), "{text}{:#?}", read(&source));
                    continue;
                }
                let dotted = if table.is_empty() { row.name.to_owned() } else { format!("{table}.{}", row.name) };
                let lines = [("title", "\"T\""), ("numbers.range", "[100, 999]"), (dotted.as_str(), row.example)];
                // The last line for a key counts.
                let lines: BTreeMap<&str, &str> = lines.into_iter().collect();
                let text = lines.iter().map(|(key, value)| format!("{key} = {value}")).collect::<Vec<_>>().join("\n");
                let source = Arc::new(Source { name: "x.toml".to_owned(), text: text.clone() });
                assert!(read(&source).is_ok(), "{text}{:#?}", read(&source));
            }
        }
    }

    #[test]
    fn rows_say_what_they_are_in_a_few_words() {
        for row in list::rows() {
            assert!(!row.says.is_empty() && row.says.len() < 100 && !row.says.ends_with('.'), "{row:?}");
            assert!(!row.shape.words().is_empty() && !row.default.words().is_empty(), "{row:?}");
        }
        assert!(find("numbers.sort", "always").is_some() && find("numbers", "always").is_none());
        assert_eq!(find("print", "margin").expect("a key").default.words(), "\"6.35 mm\"");
    }
}
