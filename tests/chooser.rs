//! The chooser against brute force and the plain reading of every request.

pub mod brute;

mod chi;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use brute::Plain;
use placewright::diag::{Diagnostic, Source};
use placewright::lesson::choose::{
    Constraint, Demand, NoSets, Solutions, choose, clash, example, only, spread, ways_out,
};
use placewright::lesson::{Chosen, Role};
use placewright::number::{Feature, Number, Place, Style};
use placewright::rng::Stream;
use placewright::spec::{self, Bound};
use placewright::wording::English;

/// The number `value`.
fn number(value: u32) -> Number {
    Number::new(value).unwrap()
}

/// A small lesson, drawn at random: a stretch of up to 14 numbers and a handful of requests.
fn small(stream: &mut Stream) -> Demand {
    let starts = [0, 5, 8, 10, 95, 98, 100, 104, 196, 333, 398, 995, 1_005, 9_995, 10_000, 99_995, 110_100];
    let low = match stream.below(3) {
        0 => u32::try_from(stream.below(1_200)).unwrap(),
        _ => starts[stream.index(starts.len())],
    };
    let size = 4 + u32::try_from(stream.below(11)).unwrap();
    let count = 1 + u32::try_from(stream.below(5)).unwrap();
    let bound = |stream: &mut Stream| {
        let min = u32::try_from(stream.below(u64::from(count) + 1)).unwrap();
        let max = (stream.below(3) == 0).then(|| min + u32::try_from(stream.below(3)).unwrap());
        Bound { min: if max.is_some() { min } else { min.min(3) }, max }
    };
    let mut demand = Demand::any_of(number(low), number(low + size - 1), count);
    let some = |stream: &mut Stream| number(low + u32::try_from(stream.below(u64::from(size))).unwrap());
    for _ in 0..stream.below(3) {
        demand.never.insert(some(stream));
    }
    for _ in 0..stream.below(2) {
        demand.always.insert(some(stream));
    }
    if stream.below(4) == 0 {
        demand.at_most[stream.index(3)] = 3 + u8::try_from(stream.below(6)).unwrap();
    }
    for feature in [Feature::Zero(Place::Ones), Feature::Zero(Place::Tens), Feature::Repeat, Feature::Teen] {
        if stream.below(3) == 0 {
            demand.features.insert(feature, bound(stream));
        }
    }
    if stream.below(3) == 0 {
        demand.same_digits = Some(bound(stream));
    }
    demand
}

#[test]
fn counts_equal_brute_force() {
    let mut stream = Stream::new(1, "small lessons");
    let (mut feasible, mut empty) = (0, 0);
    for case in 0..900 {
        let demand = small(&mut stream);
        let all = Plain::new(&demand).all();
        match Solutions::of(&demand) {
            Ok(solutions) => {
                assert_eq!(*solutions.count(), all.len().into(), "case {case}: {demand:?}");
                let set = solutions.draw(&mut Stream::new(case, "draw"));
                assert!(all.contains(&set) && demand.holds(&set), "case {case}: {set:?} {demand:?}");
                feasible += 1;
            }
            Err(why) => {
                assert_eq!((why, all.len()), (NoSets::Impossible, 0), "case {case}: {demand:?}");
                empty += 1;
            }
        }
    }
    assert!(feasible >= 250 && empty >= 150, "{feasible} feasible, {empty} empty");
}

/// The requests of a demand that brute force can check: those that leave the range as it is.
fn sets_of(demand: &Demand, kept: &BTreeSet<Constraint>) -> usize {
    let less = only(demand, kept);
    let pool = less.high.value() - less.low.value() + 1;
    let counts = if kept.contains(&Constraint::Count) { less.count..=less.count } else { 1..=pool };
    counts.map(|count| Plain::new(&Demand { count, ..less.clone() }).all().len()).sum()
}

#[test]
fn clash_groups_are_minimal() {
    let mut stream = Stream::new(5, "clashes");
    let (mut clashes, mut checked) = (0, 0);
    for case in 0..400 {
        let demand = small(&mut stream);
        let group = clash(&demand);
        assert_eq!(group.is_empty(), !Plain::new(&demand).all().is_empty(), "case {case}: {demand:?}");
        if group.is_empty() {
            continue;
        }
        clashes += 1;
        let kept: BTreeSet<Constraint> = group.iter().copied().collect();
        if kept.contains(&Constraint::Range) {
            checked += 1;
            assert_eq!(sets_of(&demand, &kept), 0, "case {case}: {group:?} {demand:?}");
        }
        for left_out in &group {
            let others: BTreeSet<Constraint> = kept.iter().copied().filter(|ask| ask != left_out).collect();
            let set = example(&demand, &others);
            let set = set.unwrap_or_else(|| panic!("case {case}: without {left_out:?} {group:?} still clashes"));
            let count = u32::try_from(set.len()).unwrap();
            let less = Demand {
                count: if others.contains(&Constraint::Count) { demand.count } else { count },
                ..only(&demand, &others)
            };
            assert!(Plain::one(&less, &set), "case {case}: {set:?} {less:?}");
        }
        for (ask, softer) in ways_out(&demand, &group) {
            assert!(group.contains(&ask) && Solutions::of(&softer).is_ok(), "case {case}: {ask:?}");
        }
    }
    assert!(clashes >= 80 && checked >= 50, "{clashes} clashes, {checked} checked");
}

#[test]
fn the_approximation_agrees_with_the_table() {
    for freedom in [9, 19, 99] {
        assert!((chi::wilson_hilferty(freedom) - chi::critical(freedom)).abs() < 0.2, "{freedom}");
    }
}

#[test]
fn draws_are_even_over_all_sets() {
    let mut stream = Stream::new(11, "even lessons");
    let mut done = 0;
    while done < 14 {
        let demand = small(&mut stream);
        let all = Plain::new(&demand).all();
        // Some of the lessons must have the harder requests in them.
        let hard = demand.same_digits.is_some();
        if !(20..=200).contains(&all.len()) || (done % 2 == 0 && !hard) {
            continue;
        }
        let (draws, solutions) = (30 * all.len(), Solutions::of(&demand).unwrap());
        let mut seen = vec![0; all.len()];
        for _ in 0..draws {
            let set = solutions.draw(&mut stream);
            seen[all.binary_search(&set).unwrap()] += 1;
        }
        let chi = chi::square(&seen, 30.0);
        assert!(chi < chi::critical(all.len() - 1), "{chi} over {} sets of {demand:?}", all.len());
        done += 1;
    }
}

/// What a lesson on three digits may ask.
fn three_digits() -> Demand {
    Demand::any_of(number(100), number(999), 8)
}

/// Chi-square of how often each of `pool` is drawn, corrected for drawing without replacement: times (M - 1) / (M - k).
#[track_caller]
fn inclusion(demand: &Demand, pool: impl Fn(u32) -> bool, per_draw: u32) {
    let (solutions, mut stream) = (Solutions::of(demand).unwrap(), Stream::new(2, "inclusion"));
    let cells: Vec<u32> = (100..=999).filter(|&number| pool(number)).collect();
    let draws = 20 * u32::try_from(cells.len()).unwrap() / per_draw;
    let mut seen = vec![0; cells.len()];
    for _ in 0..draws {
        for number in solutions.draw(&mut stream) {
            if let Ok(at) = cells.binary_search(&number.value()) {
                seen[at] += 1;
            }
        }
    }
    let of = f64::from(u32::try_from(cells.len()).unwrap());
    let each = f64::from(draws) * f64::from(per_draw) / of;
    let chi = chi::square(&seen, each) * (of - 1.0) / (of - f64::from(per_draw));
    assert!(chi < chi::critical(cells.len() - 1), "{chi} of {}", cells.len());
}

#[test]
fn every_number_comes_as_often_on_100_to_999() {
    inclusion(&three_digits(), |_| true, 8);
    // With exactly three that show a 0 in the tens place, those come alike, and so do the others.
    let mut demand = three_digits();
    demand.features.insert(Feature::Zero(Place::Tens), Bound { min: 3, max: Some(3) });
    inclusion(&demand, |number| number / 10 % 10 == 0, 3);
    inclusion(&demand, |number| number / 10 % 10 != 0, 5);
    // No two of the same digits: families of equal size come alike.
    let mut demand = three_digits();
    demand.same_digits = Some(Bound { min: 0, max: Some(1) });
    demand.features.insert(Feature::Repeat, Bound { min: 0, max: Some(0) });
    demand.features.insert(Feature::Zero(Place::Ones), Bound { min: 0, max: Some(0) });
    demand.features.insert(Feature::Zero(Place::Tens), Bound { min: 0, max: Some(0) });
    inclusion(
        &demand,
        |n| {
            let d = [n / 100, n / 10 % 10, n % 10];
            d[0] != d[1] && d[1] != d[2] && d[0] != d[2] && d[1] != 0 && d[2] != 0
        },
        8,
    );
}

/// A lesson file of its own range and requests, in an order of keys that `turn` decides.
fn lesson(stream: &mut Stream, turn: u64) -> String {
    let mut order = Stream::new(turn, "order of keys");
    let low = [0, 10, 11, 20, 100, 100, 101, 1_000, 9_000][stream.index(9)];
    let high = low + [29, 60, 89, 400, 899][stream.index(5)];
    let role = |stream: &mut Stream, order: &mut Stream, name: &str, most: u64| {
        let count = stream.below(most);
        let mut keys = vec![format!("count = {}", if count == 0 { 0 } else { count + 2 })];
        for (key, likely) in [("repeats", 4), ("teens", 5), ("same_digits", 5)] {
            if stream.below(likely) == 0 {
                keys.push(format!("{key} = {}", 1 + stream.below(2)));
            }
        }
        if stream.below(5) == 0 {
            let mut places =
                vec!["ones = 1".to_owned(), format!("tens = {{ min = 1, max = {} }}", 1 + stream.below(3))];
            order.shuffle(&mut places);
            keys.push(format!("zeros = {{ {} }}", places.join(", ")));
        }
        if stream.below(6) == 0 {
            let mut always = vec![low + stream.below(20), low + 20 + stream.below(5)];
            order.shuffle(&mut always);
            keys.push(format!("always = {always:?}"));
        }
        order.shuffle(&mut keys);
        format!("[numbers.{name}]\n{}\n", keys.join("\n"))
    };
    let mut tables = [
        role(stream, &mut order, "model", 4),
        role(stream, &mut order, "sort", 9),
        role(stream, &mut order, "exit", 5),
    ];
    order.shuffle(&mut tables);
    let seed = stream.below(1_000);
    let versions = 1 + stream.below(3);
    format!(
        "title = \"Tide tables\"\nseed = {seed}\n[numbers]\nrange = [{low}, {high}]\nnever = [{}]\n{}[class]\nversions = {versions}\n",
        low + 7,
        tables.concat()
    )
}

#[test]
fn every_request_holds_in_every_role_and_version() {
    let mut stream = Stream::new(4, "lessons");
    let (mut chosen_lessons, mut apart) = (0, 0);
    for case in 0..200 {
        let text = lesson(&mut stream.clone(), 0);
        let turned = lesson(&mut stream, 1 + case);
        let read = |text: &str| {
            let source = Arc::new(Source { name: "lesson.toml".into(), text: text.into() });
            let spec = spec::read(&source)?;
            Ok::<_, Vec<Diagnostic>>((choose(&spec, &source)?, spec))
        };
        let Ok((chosen, spec)) = read(&text) else {
            assert!(read(&turned).is_err(), "{text}\n{turned}");
            continue;
        };
        assert_eq!(read(&text).unwrap().0, chosen, "{text}");
        assert_eq!(read(&turned).unwrap().0, chosen, "{text}\n{turned}");
        chosen_lessons += 1;
        let mut sets = vec![(Role::Model, &chosen.model), (Role::Exit, &chosen.exit)];
        sets.extend(chosen.sort.iter().map(|set| (Role::Sort, set)));
        let mut all = Vec::new();
        let mut profiles = BTreeSet::new();
        for (role, set) in sets {
            let demand = Demand::new(&spec.numbers, role);
            let mut rising = set.clone();
            rising.sort_unstable();
            assert!(demand.count == 0 && set.is_empty() || Plain::one(&demand, &rising), "{role:?} {set:?}\n{text}");
            if role == Role::Sort {
                profiles.insert(demand.profile(&rising));
            }
            all.extend(
                rising.into_iter().map(|number| (number, role == Role::Sort && demand.always.contains(&number))),
            );
        }
        assert!(profiles.len() <= 1, "versions differ: {profiles:?}\n{text}");
        let repeated = all.len() - all.iter().map(|(number, _)| number).collect::<BTreeSet<_>>().len();
        let fixed: BTreeSet<Number> = all.iter().filter(|(_, fixed)| *fixed).map(|(number, _)| *number).collect();
        let by_request = fixed.len() * (chosen.sort.len().max(1) - 1);
        assert_eq!(
            chosen.notes.iter().any(|note| note.contains("used again")),
            repeated > by_request,
            "{chosen:?}
{text}"
        );
        apart += usize::from(repeated == by_request);
    }
    assert!(chosen_lessons >= 80 && apart >= 50, "{chosen_lessons} chosen, {apart} apart");
}

/// A lesson file's numbers, chosen.
#[track_caller]
fn chosen(text: &str) -> Chosen {
    let source = Arc::new(Source { name: "lesson.toml".into(), text: text.into() });
    let spec = spec::read(&source).unwrap_or_else(|wrong| panic!("{wrong:?}\n{text}"));
    choose(&spec, &source).unwrap_or_else(|wrong| panic!("{wrong:?}\n{text}"))
}

#[test]
fn model_and_exit_are_even_among_all_disjoint_pairs() {
    // Two of ten with a zero among them, and one of the rest that is no teen and has two different digits: a quick check
    // has nothing to ask about 22.
    let text = "title = \"t\"\nseed = SEED\n[numbers]\nrange = [15, 24]\n[numbers.model]\ncount = 2\nzeros = { ones = 1 }\n\
                [numbers.sort]\ncount = 0\n[numbers.exit]\ncount = 1\nteens = { min = 0, max = 0 }\n";
    let mut all = Vec::new();
    for (a, b) in (15..=24).flat_map(|a| (a + 1..=24).map(move |b| (a, b))).filter(|(a, b)| a % 10 == 0 || b % 10 == 0)
    {
        all.extend([20, 21, 23, 24].into_iter().filter(|exit| *exit != a && *exit != b).map(|exit| (a, b, exit)));
    }
    all.sort_unstable();
    let mut seen = vec![0; all.len()];
    for seed in 0..30 * all.len() {
        let chosen = chosen(&text.replace("SEED", &seed.to_string()));
        let (a, b) = (chosen.model[0].value(), chosen.model[1].value());
        seen[all.binary_search(&(a.min(b), a.max(b), chosen.exit[0].value())).unwrap()] += 1;
    }
    let chi = chi::square(&seen, 30.0);
    assert!(chi < chi::critical(all.len() - 1), "{chi} over {}", all.len());
}

/// The least overlap of model, two versions and exit, found by trying all of them.
fn least_overlap(demands: [&Demand; 3]) -> Option<u32> {
    let bit = |number: &Number| 1_u32 << (number.value() - demands[0].low.value());
    let bits = |set: &Vec<Number>| set.iter().fold(0, |bits, number| bits | bit(number));
    let sets = demands.map(|demand| Plain::new(demand).all());
    let fixed = demands[1].always.iter().fold(0, |bits, number| bits | bit(number));
    let mut least = None;
    for a in &sets[1] {
        for b in sets[1].iter().filter(|b| demands[1].profile(b) == demands[1].profile(a)) {
            let (a, b) = (bits(a), bits(b) & !fixed);
            for model in sets[0].iter().map(&bits) {
                for exit in sets[2].iter().map(&bits) {
                    let uses = a.count_ones() + b.count_ones() + model.count_ones() + exit.count_ones();
                    let overlap = uses - (a | b | model | exit).count_ones();
                    least = Some(least.map_or(overlap, |least: u32| least.min(overlap)));
                }
            }
        }
    }
    least
}

#[test]
fn tight_lessons_overlap_as_little_as_possible() {
    let mut stream = Stream::new(9, "tight");
    let (mut free, mut tight) = (0, 0);
    for case in 0..120 {
        let low = [15, 98, 100, 196, 210][stream.index(5)];
        let size = 5 + stream.below(4);
        let mut role = |name: &str, most: u64| {
            let mut text = format!("[numbers.{name}]\ncount = {}\n", 1 + stream.below(most));
            match stream.below(7) {
                0 => text += "repeats = 1\n",
                1 => text += "zeros = { ones = 1 }\n",
                2 => text += "zeros = { tens = { min = 0, max = 1 } }\n",
                3 => text.push_str(&["always = [", &(low + stream.below(size)).to_string(), "]\n"].concat()),
                4 => text += "same_digits = { min = 0, max = 1 }\n",
                _ => {}
            }
            text
        };
        let roles = [role("model", 2), role("sort", 3), role("exit", 2)].concat();
        let high = low + size - 1;
        let text = format!("title = \"t\"\n[numbers]\nrange = [{low}, {high}]\n{roles}[class]\nversions = 2\n");
        let source = Arc::new(Source { name: "lesson.toml".into(), text: text.clone() });
        // What no number of the range is like is told before anything is chosen.
        let Ok(spec) = spec::read(&source) else { continue };
        let demands = Role::ALL.map(|role| Demand::new(&spec.numbers, role));
        let least = least_overlap([&demands[0], &demands[1], &demands[2]]);
        let Ok(chosen) = choose(&spec, &source) else {
            assert_eq!(least, None, "case {case}: {text}");
            continue;
        };
        let mut seen = BTreeSet::new();
        let second = chosen.sort[1].iter().filter(|number| !demands[1].always.contains(number));
        let all = chosen.model.iter().chain(&chosen.sort[0]).chain(second).chain(&chosen.exit);
        let overlap = u32::try_from(all.filter(|number| !seen.insert(**number)).count()).unwrap();
        assert_eq!(Some(overlap), least, "case {case}: {chosen:?}\n{text}");
        if overlap == 0 { free += 1 } else { tight += 1 }
    }
    assert!(free >= 15 && tight >= 30, "{free} without overlap, {tight} with");
}

#[test]
fn versions_take_equally_much_work() {
    let style = Style::plain(&English);
    for seed in 0..20 {
        let chosen = chosen(&format!(
            "title = \"t\"\nseed = {seed}\n[numbers]\nrange = [100, 999]\n[numbers.sort]\ncount = 8\nrepeats = 2\nsame_digits = 3\n\
             zeros = {{ tens = 2, ones = 1 }}\n[class]\nversions = 3\n"
        ));
        let (least, most) = spread(&chosen.sort, &style).unwrap();
        assert!(most.blocks - least.blocks <= 4 && most.letters - least.letters <= 4, "{least:?} {most:?} seed {seed}");
    }
}

// A group chooses among exactly the sets that brute force finds for its own requests, away from the class's model numbers,
// and each as often as any other.
#[test]
fn groups_choose_evenly_among_all_sets_of_their_own() {
    let text = |seed: u32| {
        format!(
            "title = \"T\"\nseed = {seed}\n[numbers]\nrange = [100, 999]\nexit = {{ count = 0 }}\nmodel = {{ count = 1 }}\n\
             sort = {{ count = 2 }}\n[class]\nlearners = 9\n[forms]\nmatch = [\"numeral\", \"words\"]\ndecoys = 0\n\
             [[group]]\nname = \"Gulls\"\nlearners = 4\nrange = [10, 21]\n\
             sort = {{ count = 3, zeros = {{ ones = 1 }}, teens = {{ min = 1, max = 2 }} }}\n"
        )
    };
    let mut met: BTreeMap<Vec<Number>, u64> = BTreeMap::new();
    let mut all: Vec<Vec<Number>> = Vec::new();
    for seed in 0..2_400 {
        let source = Arc::new(Source { name: "x.toml".to_owned(), text: text(seed) });
        let spec = spec::read(&source).expect("a lesson");
        let lesson = placewright::lesson::plan(&source, spec, Vec::new()).expect("a lesson");
        let group = lesson.groups.iter().find(|group| group.name.is_some()).expect("the group");
        if all.is_empty() {
            all = Plain::new(&Demand::new(&group.numbers, Role::Sort)).all();
        }
        assert_eq!(group.solutions[&Role::Sort], all.len().to_string());
        let set = lesson.sets.iter().find(|set| group.versions.contains(&set.version)).expect("a set");
        let mut rows = set.rows.clone();
        rows.sort_unstable();
        *met.entry(rows).or_default() += 1;
    }
    assert!(met.keys().all(|set| all.contains(set)) && met.len() == all.len(), "{} of {}", met.len(), all.len());
    let expected = 2_400.0 / all.len() as f64;
    let far = met.values().map(|count| (*count as f64 - expected).abs() / expected.sqrt()).fold(0.0, f64::max);
    assert!(far < 5.0, "{far} standard deviations");
}
