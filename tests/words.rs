//! Number words against Unicode CLDR 48: its rule-based spell-out rules, read here by an independent reader, and values
//! that ICU 78.3 made (`fixtures/number-words.tsv`).

use std::collections::{BTreeMap, BTreeSet};

use placewright::number::{Number, Style};
use placewright::wording::{English, Spanish};

const PLAIN: Style = Style { thousands: None, ..Style::plain(&English) };
const VERBOSE: Style = Style { and: true, ..PLAIN };

fn words(value: u32, style: Style) -> String {
    style.words(Number::new(value).expect("in range"))
}

/// The rule sets of a CLDR rule-based number format: name to rules, each with its base value, divisor and text.
/// Form of the rules: Unicode Technical Standard 35, part 3, "Rule-Based Number Formatting"; ICU's `RuleBasedNumberFormat`.
struct Rules(BTreeMap<String, Vec<(u64, u64, String)>>);

impl Rules {
    fn read(text: &str) -> Self {
        let mut sets: BTreeMap<String, Vec<(u64, u64, String)>> = BTreeMap::new();
        let mut current = String::new();
        for line in text.lines() {
            if line.starts_with('%') {
                line.trim_end_matches(':').clone_into(&mut current);
                continue;
            }
            let Some((descriptor, rule)) = line.split_once(':') else { continue };
            let (base, radix) = descriptor.split_once('/').unwrap_or((descriptor, "10"));
            // Rules for negative, fractional and other special values begin with a letter or a sign.
            let (Ok(base), Ok(radix)) = (base.parse::<u64>(), radix.parse::<u64>()) else { continue };
            let divisor = if base == 0 { 1 } else { radix.pow(base.ilog(radix)) };
            let rule = rule.strip_prefix(' ').unwrap_or(rule);
            let rule = rule.strip_suffix(';').expect("a rule ends in a semicolon");
            // An apostrophe keeps a leading space.
            let rule = rule.strip_prefix('\'').unwrap_or(rule).to_owned();
            sets.entry(current.clone()).or_default().push((base, divisor, rule));
        }
        Self(sets)
    }

    fn spell(&self, set: &str, value: u64) -> String {
        let (_, divisor, rule) = self.0[set].iter().rfind(|(base, ..)| *base <= value).expect("a rule for the value");
        let mut rule = rule.clone();
        if let (Some(open), Some(close)) = (rule.find('['), rule.find(']')) {
            // Text in brackets is left out for multiples of the divisor.
            let kept = if value.is_multiple_of(*divisor) { "" } else { &rule[open + 1..close] };
            rule = format!("{}{kept}{}", &rule[..open], &rule[close + 1..]);
        }
        let mut out = String::new();
        let mut rest = rule.as_str();
        while let Some(at) = rest.find(['<', '>', '=']) {
            let sign = &rest[at..=at];
            let (name, after) = rest[at + 1..].split_once(sign).expect("a substitution closes");
            let value = match sign {
                "<" => value / divisor,
                ">" => value % divisor,
                _ => value,
            };
            out.push_str(&rest[..at]);
            out.push_str(&self.spell(if name.is_empty() { set } else { name }, value));
            rest = after;
        }
        out + rest
    }
}

fn cldr() -> Rules {
    Rules::read(include_str!("fixtures/cldr/en-SpelloutRules.txt"))
}

fn spanish() -> Rules {
    Rules::read(include_str!("fixtures/cldr/es-SpelloutRules.txt"))
}

#[track_caller]
fn agree(rules: &Rules, value: u32) {
    assert_eq!(words(value, PLAIN), rules.spell("%spellout-cardinal", value.into()));
    assert_eq!(words(value, VERBOSE), rules.spell("%spellout-cardinal-verbose", value.into()));
}

#[test]
fn words_are_those_of_cldr() {
    let rules = cldr();
    (0..=9_999).for_each(|value| agree(&rules, value));
    // Knuth's MMIX generator (constants from memory): any fixed spread over the range serves.
    let mut state = 2_u64;
    for _ in 0..10_000 {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        agree(&rules, u32::try_from((state >> 32) % 1_000_000).unwrap());
    }
    for value in [99_999, 100_000, 100_001, 100_099, 100_100, 101_000, 999_999] {
        agree(&rules, value);
    }
}

#[test]
fn words_are_those_of_icu() {
    let rows = include_str!("fixtures/number-words.tsv").lines().filter(|l| !l.starts_with('#')).skip(1);
    let mut count = 0;
    for row in rows {
        let fields: Vec<&str> = row.split('\t').collect();
        let value: u32 = fields[0].parse().unwrap();
        if value <= 999_999 {
            assert_eq!([words(value, PLAIN), words(value, VERBOSE)], [fields[1], fields[2]]);
            count += 1;
        } else {
            assert_eq!(cldr().spell("%spellout-cardinal", value.into()), fields[1], "the reader itself");
        }
    }
    assert!(count >= 200, "{count} rows");
}

// Counts that ICU 78.3 gives, from the project's references.
#[test]
fn counts_of_names() {
    let hyphenated = |end| (0..=end).filter(|n| words(*n, PLAIN).contains('-')).count();
    assert_eq!([hyphenated(99), hyphenated(999)], [72, 720]);
    assert_eq!((0..=1_000).filter(|n| words(*n, VERBOSE).contains(" and ")).count(), 891);
    assert!((0..=1_000).all(|n| !words(n, PLAIN).contains("and ")));
    assert!(!words(99_999, VERBOSE).contains(','));
    // 100,999 holds "thousand", and all others stand below 1,000.
    let names = (0..=999).chain([100_999]).map(|n| words(n, PLAIN)).collect::<Vec<_>>();
    let different: BTreeSet<&str> = names.iter().flat_map(|name| name.split([' ', '-'])).collect();
    assert_eq!(different.len(), 30);
}

#[test]
fn longest_names() {
    let longest = |end, style| {
        let lengths = (0..=end).map(|n| words(n, style).len());
        lengths.max().unwrap()
    };
    assert_eq!([longest(120, PLAIN), longest(1_000, PLAIN), longest(1_000, VERBOSE)], [21, 27, 31]);
    let at_27: Vec<u32> = (0..=1_000).filter(|n| words(*n, PLAIN).len() == 27).collect();
    assert_eq!(at_27, [373, 377, 378, 773, 777, 778, 873, 877, 878]);
    assert_eq!([longest(999_999, PLAIN), longest(999_999, VERBOSE)], [64, 73]);
    assert_eq!([words(878_878, PLAIN).len(), words(878_878, VERBOSE).len()], [64, 73]);
}

const SPANISH: Style = Style { names: &Spanish, ..PLAIN };

/// CLDR's Spanish words; it puts soft hyphens into long ones, which a class does not write.
fn spanish_cldr(rules: &Rules, value: u32) -> String {
    rules.spell("%spellout-numbering", value.into()).replace('\u{ad}', "")
}

#[test]
fn spanish_words_are_those_of_cldr() {
    let rules = spanish();
    let mut checked = 0;
    for value in (0..=9_999).chain((10_000..=999_999).step_by(61)).chain([999_999]) {
        assert_eq!(words(value, SPANISH), spanish_cldr(&rules, value), "{value}");
        checked += 1;
    }
    assert!(checked > 26_000, "{checked} numbers");
}

#[test]
fn spanish_words_are_those_of_icu() {
    let rows = include_str!("fixtures/number-words.tsv").lines().filter(|line| !line.starts_with(['#', 'n']));
    let mut checked = 0;
    for row in rows {
        let fields: Vec<&str> = row.split('\t').collect();
        let value: u32 = fields[0].parse().expect("a number");
        if value <= 999_999 {
            assert_eq!(words(value, SPANISH), fields[3], "{value}");
            checked += 1;
        }
    }
    assert!(checked > 150, "{checked} rows");
}

/// Every number to 999,999 has words of its own, with letters that Spanish has and no others.
#[test]
fn spanish_words_are_spelled_with_spanish_letters() {
    let letters: BTreeSet<char> =
        (0..=999_999).step_by(7).flat_map(|value| words(value, SPANISH).chars().collect::<Vec<_>>()).collect();
    let allowed: BTreeSet<char> = " abcdefghijlmnopqrstuvyzáéíóú".chars().collect();
    assert!(letters.is_subset(&allowed), "{letters:?}");
    let all: BTreeSet<String> = (0..=9_999).map(|value| words(value, SPANISH)).collect();
    assert_eq!(all.len(), 10_000);
}
