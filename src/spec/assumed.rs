//! What a lesson file leaves open and what is assumed there.

use serde_json::{Value, json};

use super::types::{Given, RoleSpec, SheetKind, Spec};
use crate::number::Form;

/// Every key that the file is silent about with the value assumed for it, in the order of the lesson file's full form.
/// Keys that have no default (`grade`, `roster`, requests of a role) are missing. Strings, lists, numbers and switches are
/// written in JSON as TOML writes them.
pub fn assumed(spec: &Spec) -> Vec<(&'static str, Value)> {
    let mut list = List(Vec::new());
    list.add("minutes", &spec.minutes, |v| json!(v));
    list.add("paper", &spec.paper, |v| json!(v.word()));
    list.add("seed", &spec.seed, |v| json!(v));
    list.add("language", &spec.language, |v| json!(v.word()));
    let roles: [(&'static str, &RoleSpec); 3] = [
        ("numbers.model.count", &spec.numbers.model),
        ("numbers.sort.count", &spec.numbers.sort),
        ("numbers.exit.count", &spec.numbers.exit),
    ];
    for (key, role) in roles {
        list.add(key, &role.count, |v| json!(v));
    }
    list.add("forms.match", &spec.forms.matched, |v| v.iter().copied().map(Form::word).collect());
    list.add("forms.joiner", &spec.forms.joiner, |v| json!(v.word()));
    list.add("forms.zero_terms", &spec.forms.zero_terms, |v| json!(v));
    list.add("forms.thousands", &spec.forms.thousands, |v| json!(v.word()));
    list.add("forms.decoys", &spec.forms.decoys, |v| json!(v));
    list.add("class.learners", &spec.class.learners, |v| json!(v));
    list.add("class.spares", &spec.class.spares, |v| json!(v));
    list.add("class.versions", &spec.class.versions, |v| json!(v));
    list.add("print.cut", &spec.print.cut, |v| json!(v.word()));
    list.add("print.sides", &spec.print.sides, |v| json!(v.word()));
    list.add("print.ink", &spec.print.ink, |v| json!(v.word()));
    list.add("print.text", &spec.print.text, |v| json!(v.word()));
    list.add("print.margin", &spec.print.margin, |v| json!(v.to_string()));
    list.add("print.font", &spec.print.font, |v| json!(v.word()));
    list.add("sheets.make", &spec.sheets.make, |v| v.iter().copied().map(SheetKind::word).collect());
    list.0
}

struct List(Vec<(&'static str, Value)>);

impl List {
    fn add<T>(&mut self, key: &'static str, given: &Given<T>, write: impl Fn(&T) -> Value) {
        if given.is_assumed() {
            self.0.push((key, write(&given.value)));
        }
    }
}
