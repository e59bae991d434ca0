//! What a lesson file leaves open and what is assumed there.

use serde_json::Value;

use super::keys::{Keyed, Kind, ROLES, list};
use super::sheet_kind::SheetKind;
use super::types::{Given, Spec};

/// Every key that the file is silent about with the value assumed for it, in the order of the lesson file's full form.
/// Keys that have no default (`grade`, `roster`) are missing. Strings, lists, numbers and switches are
/// written in JSON as TOML writes them.
pub fn assumed(spec: &Spec) -> Vec<(String, Value)> {
    let mut list = List(Vec::new());
    list.add(&list::MINUTES, &spec.minutes);
    list.add(&list::PAPER, &spec.paper);
    list.add(&list::SEED, &spec.seed);
    list.add(&list::LANGUAGE, &spec.language);
    for (role, requests) in ROLES.iter().zip([&spec.numbers.model, &spec.numbers.sort, &spec.numbers.exit]) {
        list.add_as(list::COUNT.path().replace("ROLE", role), &list::COUNT, &requests.count);
        let same_digits = requests.same_digits.map(|bound| (list::SAME_DIGITS.name.to_owned(), bound));
        let features = requests.features().map(|(feature, bound)| (feature.key(), bound));
        for (key, bound) in features.chain(same_digits).filter(|(_, bound)| bound.is_assumed()) {
            list.0.push((list::COUNT.table.replace("ROLE", role) + "." + &key, bound.value.min.into()));
        }
    }
    list.add(&list::MATCH, &spec.forms.matched);
    list.add(&list::JOINER, &spec.forms.joiner);
    list.add(&list::ZERO_TERMS, &spec.forms.zero_terms);
    list.add(&list::THOUSANDS, &spec.forms.thousands);
    list.add(&list::DECOYS, &spec.forms.decoys);
    list.add(&list::LEARNERS, &spec.class.learners);
    list.add(&list::SPARES, &spec.class.spares);
    list.add(&list::VERSIONS, &spec.class.versions);
    for (kind, given) in &spec.class.share {
        if given.is_assumed() && spec.sheets.make.value.contains(kind) {
            list.0.push((format!("{}.{}", list::SHARE.path(), kind.word()), given.value.into()));
        }
    }
    list.add(&list::CUT, &spec.print.cut);
    list.add(&list::SIDES, &spec.print.sides);
    list.add(&list::INK, &spec.print.ink);
    list.add(&list::TEXT, &spec.print.text);
    list.add(&list::MARGIN, &spec.print.margin);
    list.add(&list::FONT, &spec.print.font);
    list.add(&list::SLIP_SHEETS, &spec.print.slip_sheets);
    list.add(&list::MAKE, &spec.sheets.make);
    if spec.sheets.make.value.contains(&SheetKind::Display) {
        list.add(&list::DISPLAY, &spec.sheets.display);
    }
    list.0
}

struct List(Vec<(String, Value)>);

impl List {
    fn add<K: Keyed>(&mut self, key: &K, given: &Given<<K::Kind as Kind>::Value>) {
        self.add_as(key.path(), key, given);
    }

    fn add_as<K: Keyed>(&mut self, path: String, key: &K, given: &Given<<K::Kind as Kind>::Value>) {
        if given.is_assumed() {
            self.0.push((path, key.key().kind.json(&given.value)));
        }
    }
}
