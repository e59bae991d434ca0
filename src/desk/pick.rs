//! Choosing other numbers: changes of the lesson text that a teacher could have typed.
//!
//! A number is kept by asking for it by name, and left out by saying so. For another number in the place of one, all
//! others of the lesson are asked for by name, each in its version: then only this one is chosen anew, among all that meet the requests. What was
//! asked for by name only for that is let go when all are chosen anew.

use serde_json::{Value, json};

use super::document;
use super::fields;
use super::workshop::{LaidLesson, NumberPlace};

/// What a group leaves out that says nothing of it.
const CLASS_NEVER: &str = "numbers.never";

const SEED: &str = "seed";

/// The numbers that a list of the lesson holds.
fn list(text: &str, path: &str) -> Vec<u32> {
    let listed = document::get(text, path);
    let numbers = listed.as_ref().and_then(Value::as_array).into_iter().flatten();
    numbers.filter_map(Value::as_u64).filter_map(|number| u32::try_from(number).ok()).collect()
}

/// The text with such a list; without it where it is empty.
fn with(text: &str, path: &str, numbers: &[u32]) -> String {
    let list = (!numbers.is_empty()).then(|| json!(numbers));
    let Some((path, letter)) = path.rsplit_once('.').filter(|(path, _)| path.ends_with(".always_in")) else {
        return document::set(text, path, list.as_ref());
    };
    // The lists of all versions are one value.
    let mut lists = document::get(text, path).and_then(|lists| lists.as_object().cloned()).unwrap_or_default();
    match list {
        Some(list) => drop(lists.insert(letter.to_owned(), list)),
        None => drop(lists.remove(letter)),
    }
    lists.sort_keys();
    document::set(text, path, (!lists.is_empty()).then_some(Value::Object(lists)).as_ref())
}

/// The text with a list that lacks a number.
fn without(text: &str, path: &str, number: u32) -> String {
    let mut numbers = list(text, path);
    let before = numbers.len();
    numbers.retain(|other| *other != number);
    if numbers.len() == before { text.to_owned() } else { with(text, path, &numbers) }
}

/// Whether a number is asked for by name in a set.
fn is_kept(text: &str, place: NumberPlace<'_>, number: u32) -> bool {
    [place.always(), place.own()].iter().any(|path| list(text, path).contains(&number))
}

/// Asks for a number by name.
pub fn keep(text: &str, place: NumberPlace<'_>, number: u32) -> String {
    if is_kept(text, place, number) {
        return text.to_owned();
    }
    let mut numbers = list(text, &place.own());
    numbers.push(number);
    with(text, &place.own(), &numbers)
}

/// Asks for it no longer.
pub fn let_go(text: &str, place: NumberPlace<'_>, number: u32) -> String {
    without(&without(text, &place.always(), number), &place.own(), number)
}

/// Leaves a number out.
fn leave_out(text: &str, place: NumberPlace<'_>, number: u32) -> String {
    let text = let_go(text, place, number);
    let mut out = list(&text, &place.never());
    if out.is_empty() {
        // A group's list takes the place of the class's.
        out = list(&text, CLASS_NEVER);
    }
    if !out.contains(&number) {
        out.push(number);
    }
    with(&text, &place.never(), &out)
}

/// Another number in the place of one, and all others as they are. Also the numbers that were not asked for by name before,
/// each with the key that asks for it now.
pub fn another(text: &str, laid: &LaidLesson, place: NumberPlace<'_>, number: u32) -> (String, Vec<(String, u32)>) {
    hold(&leave_out(text, place, number), laid, place, number)
}

/// All numbers as they are but one. Also those that were not asked for by name before, each with the key that does now.
pub fn hold(text: &str, laid: &LaidLesson, place: NumberPlace<'_>, number: u32) -> (String, Vec<(String, u32)>) {
    let (mut text, mut held) = (text.to_owned(), Vec::new());
    for set in &laid.sets {
        let here = set.place();
        for other in set.numbers.iter().filter(|other| here != place || other.value != number) {
            if !is_kept(&text, here, other.value) {
                text = keep(&text, here, other.value);
                held.push((here.own(), other.value));
            }
        }
    }
    (text, held)
}

/// The text without what is only held.
pub fn released(text: &str, held: &[(String, u32)]) -> String {
    held.iter().fold(text.to_owned(), |text, (path, number)| without(&text, path, *number))
}

/// Other numbers throughout: by another seed, and without those that were held for the sake of others.
pub fn fresh(text: &str, seed: u64, held: &[(String, u32)]) -> String {
    document::set(&released(text, held), SEED, Some(&json!(seed)))
}

/// Without any number that is asked for by name.
pub fn free(text: &str) -> String {
    let fields = fields::sections(text, &[], &[]).into_iter().flat_map(|section| section.fields);
    let asked = fields.filter(|field| {
        (field.path.ends_with(".always") || field.path.ends_with(".always_in")) && !field.given.is_empty()
    });
    asked.fold(text.to_owned(), |text, field| document::set(&text, &field.path, None))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::spec::Version;

    #[test]
    fn numbers_are_kept_let_go_and_left_out_in_the_text() {
        let text = "title = \"T\"\n[numbers]\nrange = [10, 99]\n";
        let sort = NumberPlace { table: "numbers.sort", version: None };
        let kept = keep(&keep(&keep(text, sort, 40), sort, 41), sort, 40);
        assert_eq!(list(&kept, "numbers.sort.always"), [40, 41]);
        let out = leave_out(&kept, sort, 40);
        assert_eq!((list(&out, "numbers.sort.always"), list(&out, "numbers.never")), (vec![41], vec![40]));
        let fresh = fresh(&out, 9, &[("numbers.sort.always".to_owned(), 41)]);
        assert!(list(&fresh, "numbers.sort.always").is_empty());
        assert_eq!(document::get(&fresh, "seed"), Some(json!(9)));
        assert!(list(&free(&kept), "numbers.sort.always").is_empty());
    }

    #[test]
    fn a_number_of_one_version_is_kept_in_it_alone() {
        let text = "title = \"T\"\n[numbers]\nrange = [10, 99]\nsort.always = [50]\n[class]\nversions = 2\n";
        let [a, b] = [0, 1].map(|at| NumberPlace { table: "numbers.sort", version: Some(Version(at)) });
        let kept = keep(&keep(&keep(&keep(text, b, 41), a, 40), b, 42), a, 50);
        assert_eq!(document::get(&kept, "numbers.sort.always_in"), Some(json!({ "A": [40], "B": [41, 42] })));
        let freed = let_go(&let_go(&let_go(&kept, b, 42), b, 41), a, 40);
        assert_eq!(document::get(&freed, "numbers.sort.always_in"), None);
        assert_eq!((list(&freed, &a.always()), list(&let_go(&freed, b, 50), &a.always())), (vec![50], vec![]));
        assert_eq!(document::get(&free(&kept), "numbers.sort.always_in"), None);
        assert_eq!(list(&fresh(&kept, 3, &[(b.own(), 41)]), &b.own()), [42]);
    }

    #[test]
    fn what_a_group_leaves_out_begins_with_what_the_class_does() {
        let text =
            "title = \"T\"\n[numbers]\nrange = [10, 99]\nnever = [12]\n[[group]]\nname = \"Gulls\"\nlearners = 2\n";
        let out = leave_out(text, NumberPlace { table: "group.0.sort", version: None }, 34);
        assert_eq!((list(&out, "group.0.never"), list(&out, "numbers.never")), (vec![12, 34], vec![12]));
    }
}
