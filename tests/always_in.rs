//! Numbers that one version alone must have: against brute force, and exchanged one by one at the desk.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use placewright::diag::{Diagnostic, Source};
use placewright::lesson::choose::{Demand, choose};
use placewright::lesson::{Chosen, Role};
use placewright::number::Number;
use placewright::rng::Stream;
use placewright::spec::{self, Spec, Version};
use serde_json::{Value, json};

use crate::chooser::brute::Plain;
use crate::desk::{loaded, scene};

fn read(text: &str) -> Result<(Chosen, Spec), Vec<Diagnostic>> {
    let source = Arc::new(Source { name: "lesson.toml".into(), text: text.into() });
    let spec = spec::read(&source)?;
    Ok((choose(&spec, &source)?, spec))
}

/// What a version asks of its sort numbers.
fn demand(spec: &Spec, version: u8) -> Demand {
    let common = Demand::new(&spec.numbers, Role::Sort);
    common.of_version(&spec.numbers, Version(version)).unwrap_or(common)
}

/// A lesson of few numbers with two or three versions that ask for some by themselves.
fn lesson(stream: &mut Stream) -> String {
    let low = [10, 20, 98, 100, 395][stream.index(5)];
    let high = low + 12 + stream.below(8);
    let mut pool: Vec<u64> = (low..=high).collect();
    stream.shuffle(&mut pool);
    let count = 2 + stream.below(3);
    let versions = 2 + stream.below(2);
    let mut own = Vec::new();
    for letter in ["A", "B", "C"].into_iter().take(versions as usize) {
        let some = stream.below(count + 1) as usize;
        if some > 0 {
            own.push(format!("{letter} = {:?}", pool.split_off(pool.len() - some)));
        }
    }
    let mut asked = String::new();
    for (key, likely) in [("repeats", 2), ("teens", 3), ("same_digits", 4)] {
        if stream.below(likely) == 0 {
            // Some requests only tell versions apart.
            let least = if stream.below(2) == 0 {
                "{ min = 0, max = 4 }".to_owned()
            } else {
                (1 + stream.below(2)).to_string()
            };
            asked += &format!("{key} = {least}\n");
        }
    }
    format!(
        "title = \"Tide tables\"\nseed = {}\n[numbers]\nrange = [{low}, {high}]\nmodel.count = {}\nexit.count = 0\n\
         [numbers.sort]\ncount = {count}\n{asked}always_in = {{ {} }}\n[class]\nversions = {versions}\n",
        stream.below(1_000),
        stream.below(3),
        own.join(", ")
    )
}

#[test]
fn every_version_has_what_it_asks_for_and_meets_every_request() {
    let mut stream = Stream::new(7, "versions");
    let (mut made, mut clashed, mut unlike) = (0, 0, 0);
    for _ in 0..60 {
        let text = lesson(&mut stream);
        let source = Arc::new(Source { name: "lesson.toml".into(), text: text.clone() });
        let Ok(spec) = spec::read(&source) else { continue };
        let versions = u8::try_from(spec.class.versions.value).unwrap();
        let all: Vec<Vec<Vec<Number>>> =
            (0..versions).map(|version| Plain::new(&demand(&spec, version)).all()).collect();
        match choose(&spec, &source) {
            Err(found) => {
                clashed += 1;
                assert!(all.iter().any(Vec::is_empty), "{text}\n{found:?}");
            }
            Ok(chosen) => {
                made += 1;
                let plain = demand(&spec, 0);
                let mut profiles = BTreeSet::new();
                for (set, all) in chosen.sort.iter().zip(&all) {
                    let mut rising = set.clone();
                    rising.sort_unstable();
                    assert!(all.contains(&rising), "{set:?}\n{text}");
                    profiles.insert(plain.profile(&rising));
                }
                // As hard as each other wherever some choice is.
                let told = chosen.notes.iter().any(|note| note.contains("not equally hard"));
                assert_eq!(profiles.len() > 1, told, "{:?}\n{text}", chosen.notes);
                unlike += usize::from(told);
                let has = |sets: &[Vec<Number>]| sets.iter().map(|set| plain.profile(set)).collect::<BTreeSet<_>>();
                let common = all.iter().map(|sets| has(sets)).reduce(|one, other| &one & &other).unwrap();
                assert!(!told || common.is_empty() || chosen.notes.len() > 1, "{:?}\n{text}", chosen.notes);
            }
        }
    }
    assert!(made > 25 && clashed > 4 && unlike > 1, "{made} {clashed} {unlike}");
}

// Of version A all but one number is named: each that is left of the range comes as often as any.
#[test]
fn the_place_that_is_left_is_drawn_evenly() {
    let mut drawn: BTreeMap<u32, u32> = BTreeMap::new();
    for seed in 0..2_600 {
        let text = format!(
            "title = \"x\"\nseed = {seed}\n[numbers]\nrange = [10, 40]\nnever = [11]\nmodel.count = 0\nexit.count = 0\n\
             sort = {{ count = 3, always_in = {{ A = [12, 13], B = [20] }} }}\n[class]\nversions = 2\n"
        );
        let (chosen, _) = read(&text).unwrap();
        let open: Vec<u32> =
            chosen.sort[0].iter().map(|n| n.value()).filter(|value| !matches!(value, 12 | 13)).collect();
        assert_eq!((open.len(), chosen.notes.len()), (1, 0), "{chosen:?}");
        *drawn.entry(open[0]).or_default() += 1;
    }
    let left: Vec<u32> = (10..=40).filter(|value| !matches!(value, 11 | 12 | 13 | 20)).collect();
    assert!(drawn.keys().eq(&left), "{drawn:?}");
    let expected = 2_600.0 / left.len() as f64;
    let chi: f64 = drawn.values().map(|&count| (f64::from(count) - expected).powi(2) / expected).sum();
    // 99.99 % of chi-squared with 26 degrees of freedom lies below, by Wilson and Hilferty's approximation.
    assert!(chi < 62.0, "{chi}: {drawn:?}");
}

#[test]
fn a_version_that_cannot_be_is_told_with_its_numbers() {
    let text = "title = \"x\"\n[numbers]\nrange = [100, 999]\n[numbers.sort]\ncount = 4\nteens = { max = 0 }\n\
                always_in = { B = [111, 240] }\n[class]\nversions = 2\n";
    let found = read(text).unwrap_err();
    assert_eq!(found.len(), 1, "{found:?}");
    let message = &found[0].problem.message;
    assert!(message.contains("`sort.always_in.B with 111`") && message.contains("sort.teens"), "{message}");
    let related: Vec<(usize, usize)> = found[0]
        .related
        .iter()
        .map(|(place, _)| place.line_column())
        .chain(found[0].place.as_ref().map(|p| p.line_column()))
        .collect();
    assert!(related.iter().any(|(line, _)| *line == 7), "{related:?}");
}

#[test]
fn what_no_version_can_meet_is_told_once() {
    let text = "title = \"x\"\n[numbers]\nrange = [100, 999]\n[numbers.sort]\ncount = 4\nteens = 4\nzeros = { ones = 1 }\n\
                always_in = { A = [211], B = [312] }\n[class]\nversions = 2\n";
    let found = read(text).unwrap_err();
    assert_eq!(found.len(), 1, "{found:#?}");
    assert!(!found[0].problem.message.contains("always_in"), "{found:?}");
}

/// The numbers of the sets as the desk shows them: role, version, and whether each is kept.
fn sets(view: &Value) -> BTreeMap<(String, String), BTreeSet<u32>> {
    let mut sets: BTreeMap<(String, String), BTreeSet<u32>> = BTreeMap::new();
    for button in view["numbers"].as_str().unwrap().split("data-act=\"another\"").skip(1) {
        let part = |name: &str| {
            let tag = button.split('>').next().unwrap();
            tag.split(&format!("data-{name}=\"")).nth(1).map_or("", |rest| rest.split('"').next().unwrap()).to_owned()
        };
        sets.entry((part("role"), part("version"))).or_default().insert(part("number").parse().unwrap());
    }
    sets
}

fn exchanged(text: &str, role: &str, version: &str) {
    let (_at, desk) = scene(text);
    let page = desk.enter();
    let before = sets(&page.view());
    let key = (role.to_owned(), version.to_owned());
    let out = *before[&key].iter().nth(1).unwrap();
    let told = page.does("/number", json!({ "act": "another", "role": role, "version": version, "number": out }));
    assert_eq!(told["told"], Value::Null, "{told}");
    let view = page.view();
    let after = sets(&view);
    for (place, numbers) in &before {
        if *place == key {
            let gone: Vec<&u32> = numbers.difference(&after[place]).collect();
            assert_eq!((gone, after[place].len()), (vec![&out], numbers.len()), "{before:?} {after:?}");
        } else {
            assert_eq!(numbers, &after[place], "{place:?} {before:?} {after:?}\n{}", page.text());
        }
    }
    loaded(&page);
    // A number that is kept stays in its version when all others are new.
    let keep = *after[&key].first().unwrap();
    page.does("/number", json!({ "act": "free" }));
    page.view();
    let keep = *sets(&page.view())[&key].get(&keep).unwrap_or(sets(&page.view())[&key].first().unwrap());
    page.does("/number", json!({ "act": "keep", "role": role, "version": version, "number": keep }));
    page.does("/number", json!({ "act": "fresh" }));
    let fresh = sets(&page.view());
    assert!(fresh[&key].contains(&keep), "{keep} {fresh:?}\n{}", page.text());
    let others = fresh.iter().filter(|(place, _)| **place != key && place.0 == key.0);
    assert!(others.into_iter().all(|(_, numbers)| !numbers.contains(&keep)), "{keep} {fresh:?}");
    page.does("/number", json!({ "act": "let-go", "role": role, "version": version, "number": keep }));
    assert!(!page.text().contains("always"), "{}", page.text());
}

const CLASS: &str = "title = \"Tram stops\"\nseed = 3\n[numbers]\nrange = [100, 999]\nmodel.count = 2\nexit.count = 2\n\
                     [numbers.sort]\ncount = 5\nzeros = { tens = 1 }\n[class]\nlearners = 6\nspares = 0\nversions = 3\n\
                     [sheets]\nmake = [\"record\"]\n";

#[test]
fn a_number_of_one_version_is_exchanged_and_all_others_stay() {
    for version in ["A", "B", "C"] {
        exchanged(CLASS, "numbers.sort", version);
    }
}

#[test]
fn numbers_of_groups_are_exchanged_too() {
    let text =
        format!("{CLASS}[[group]]\nname = \"Gulls\"\nlearners = 3\nrange = [10, 99]\nversions = 2\nsort.count = 4\n");
    exchanged(&text, "group.0.sort", "B");
    exchanged(&text, "numbers.sort", "C");
}

#[test]
fn the_desk_takes_no_version_that_is_none() {
    let (_at, desk) = scene(CLASS);
    let page = desk.enter();
    page.view();
    for (role, version) in [("numbers.sort", "a"), ("numbers.sort", "AB"), ("numbers.exit", "A"), ("numbers", "A")] {
        let asked = json!({ "act": "keep", "role": role, "version": version, "number": 240 });
        assert_eq!(page.post("/number", &asked).status, 404, "{role} {version}");
    }
}
