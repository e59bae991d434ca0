//! Choosing other numbers: changes of the lesson text that a teacher could have typed.
//!
//! A number is kept by asking for it by name, and left out by saying so. For another number in the place of one, all
//! others of the lesson are asked for by name: then only this one is chosen anew, among all that meet the requests. What was
//! asked for by name only for that is let go when all are chosen anew.

use serde_json::{Value, json};

use super::document;
use super::workshop::LaidLesson;
use crate::lesson::Role;

/// The key of the numbers of a role that are asked for by name.
pub fn always(role: &str) -> String {
    format!("numbers.{role}.always")
}

const NEVER: &str = "numbers.never";
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

/// Asks for a number by name.
pub fn keep(text: &str, role: &str, number: u32) -> String {
    let mut numbers = list(text, &always(role));
    if !numbers.contains(&number) {
        numbers.push(number);
    }
    with(text, &always(role), &numbers)
}

/// Asks for it no longer.
pub fn let_go(text: &str, role: &str, number: u32) -> String {
    let mut numbers = list(text, &always(role));
    numbers.retain(|other| *other != number);
    with(text, &always(role), &numbers)
}

/// Leaves a number out.
pub fn leave_out(text: &str, role: &str, number: u32) -> String {
    let text = let_go(text, role, number);
    let mut never = list(&text, NEVER);
    if !never.contains(&number) {
        never.push(number);
    }
    with(&text, NEVER, &never)
}

/// Another number in the place of one, and all others as they are. Also the numbers that were not asked for by name before.
/// For lessons without versions: a number that is asked for by name is in all of them.
pub fn another(text: &str, laid: &LaidLesson, role: &str, number: u32) -> (String, Vec<(String, u32)>) {
    let mut held = Vec::new();
    let mut text = leave_out(text, role, number);
    for set in &laid.sets {
        let path = always(set.role.word());
        for other in &set.numbers {
            if other.value != number && !list(&text, &path).contains(&other.value) {
                text = keep(&text, set.role.word(), other.value);
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
    Role::ALL.iter().fold(text.to_owned(), |text, role| document::set(&text, &always(role.word()), None))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_kept_let_go_and_left_out_in_the_text() {
        let text = "title = \"T\"\n[numbers]\nrange = [10, 99]\n";
        let kept = keep(&keep(&keep(text, "sort", 40), "sort", 41), "sort", 40);
        assert_eq!(list(&kept, "numbers.sort.always"), [40, 41]);
        let out = leave_out(&kept, "sort", 40);
        assert_eq!((list(&out, "numbers.sort.always"), list(&out, "numbers.never")), (vec![41], vec![40]));
        let fresh = fresh(&out, 9, &[("numbers.sort.always".to_owned(), 41)]);
        assert!(list(&fresh, "numbers.sort.always").is_empty());
        assert_eq!(document::get(&fresh, "seed"), Some(json!(9)));
        assert!(list(&free(&kept), "numbers.sort.always").is_empty());
    }
}
