//! Choosing other numbers: changes of the lesson text that a teacher could have typed.
//!
//! A number is kept by asking for it by name, and left out by saying so. For another number in the place of one, all
//! others of the lesson are asked for by name: then only this one is chosen anew, among all that meet the requests. What was
//! asked for by name only for that is let go when all are chosen anew.

use serde_json::{Value, json};

use super::workshop::LaidLesson;
use super::{document, fields};

/// The key of the numbers that a role's table asks for by name.
fn always(table: &str) -> String {
    format!("{table}.always")
}

/// The key of the numbers to leave out, beside a role's table: the class's, or a group's own.
fn never(table: &str) -> String {
    format!("{}.never", table.rsplit_once('.').map_or(table, |(whose, _)| whose))
}

const SEED: &str = "seed";

/// The numbers that a list of the lesson holds.
fn list(text: &str, path: &str) -> Vec<u32> {
    let listed = document::get(text, path);
    let numbers = listed.as_ref().and_then(Value::as_array).into_iter().flatten();
    numbers.filter_map(Value::as_u64).filter_map(|number| u32::try_from(number).ok()).collect()
}

/// The text with such a list; without it where it is empty.
fn with(text: &str, path: &str, numbers: &[u32]) -> String {
    document::set(text, path, (!numbers.is_empty()).then(|| json!(numbers)).as_ref())
}

/// Asks for a number by name. `table` is the table of the set's role: `numbers.sort`, `group.0.exit`.
pub fn keep(text: &str, table: &str, number: u32) -> String {
    let mut numbers = list(text, &always(table));
    if !numbers.contains(&number) {
        numbers.push(number);
    }
    with(text, &always(table), &numbers)
}

/// Asks for it no longer.
pub fn let_go(text: &str, table: &str, number: u32) -> String {
    let mut numbers = list(text, &always(table));
    numbers.retain(|other| *other != number);
    with(text, &always(table), &numbers)
}

/// Leaves a number out.
pub fn leave_out(text: &str, table: &str, number: u32) -> String {
    let text = let_go(text, table, number);
    let mut out = list(&text, &never(table));
    if !out.contains(&number) {
        out.push(number);
    }
    with(&text, &never(table), &out)
}

/// Another number in the place of one, and all others as they are. Also the numbers that were not asked for by name before.
/// For lessons without versions: a number that is asked for by name is in all of them.
pub fn another(text: &str, laid: &LaidLesson, table: &str, number: u32) -> (String, Vec<(String, u32)>) {
    let mut held = Vec::new();
    let mut text = leave_out(text, table, number);
    for set in &laid.sets {
        let path = always(&set.table);
        for other in &set.numbers {
            if other.value != number && !list(&text, &path).contains(&other.value) {
                text = keep(&text, &set.table, other.value);
                held.push((path.clone(), other.value));
            }
        }
    }
    (text, held)
}

/// Other numbers throughout: by another seed, and without those that were held for the sake of others.
pub fn fresh(text: &str, seed: u64, held: &[(String, u32)]) -> String {
    let mut text = text.to_owned();
    for (path, number) in held {
        let mut numbers = list(&text, path);
        numbers.retain(|other| other != number);
        text = with(&text, path, &numbers);
    }
    document::set(&text, SEED, Some(&json!(seed)))
}

/// Without any number that is asked for by name.
pub fn free(text: &str) -> String {
    let fields = fields::sections(text, &[], &[]).into_iter().flat_map(|section| section.fields);
    let asked = fields.filter(|field| field.path.ends_with(".always") && !field.given.is_empty());
    asked.fold(text.to_owned(), |text, field| document::set(&text, &field.path, None))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_kept_let_go_and_left_out_in_the_text() {
        let text = "title = \"T\"\n[numbers]\nrange = [10, 99]\n";
        let kept = keep(&keep(&keep(text, "numbers.sort", 40), "numbers.sort", 41), "numbers.sort", 40);
        assert_eq!(list(&kept, "numbers.sort.always"), [40, 41]);
        let out = leave_out(&kept, "numbers.sort", 40);
        assert_eq!((list(&out, "numbers.sort.always"), list(&out, "numbers.never")), (vec![41], vec![40]));
        let fresh = fresh(&out, 9, &[("numbers.sort.always".to_owned(), 41)]);
        assert!(list(&fresh, "numbers.sort.always").is_empty());
        assert_eq!(document::get(&fresh, "seed"), Some(json!(9)));
        assert!(list(&free(&kept), "numbers.sort.always").is_empty());
    }
}
