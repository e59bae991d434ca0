//! The answers of a plan, worked out again from the numeral alone: nothing here is the program's but the slips' words.

use placewright::number::Slip;
use placewright::spec::Language;

/// 1, 10, 100 ...
pub fn ten_to(zeros: usize) -> u32 {
    10_u32.pow(u32::try_from(zeros).expect("few"))
}

/// The whole numbers in a text, with their marks left out.
pub fn figures(text: &str) -> Vec<u32> {
    let chars: Vec<char> = text.chars().collect();
    let mark = |k: usize| {
        chars[k] == ','
            && k > 0
            && chars[k - 1].is_ascii_digit()
            && (1..=3).all(|j| chars.get(k + j).is_some_and(char::is_ascii_digit))
    };
    let joined: String = (0..chars.len()).filter(|&k| !mark(k)).map(|k| chars[k]).collect();
    let parts = joined.split(|c: char| !c.is_ascii_digit()).filter(|part| !part.is_empty());
    parts.filter_map(|part| part.parse().ok()).collect()
}

const PLACES: [&str; 6] = ["ones", "tens", "hundreds", "thousands", "ten thousands", "hundred thousands"];

/// The digits of a numeral with their places, from the left.
pub fn digits(n: u32) -> Vec<(u32, usize)> {
    let text = n.to_string();
    text.bytes().enumerate().map(|(k, b)| (u32::from(b - b'0'), text.len() - 1 - k)).collect()
}

/// The parts of the expanded form that are not 0.
pub fn parts(n: u32) -> Vec<u32> {
    let kept: Vec<u32> = digits(n).iter().map(|(d, place)| d * ten_to(*place)).filter(|part| *part > 0).collect();
    if kept.is_empty() { vec![0] } else { kept }
}

/// The place that a text names last before "place".
fn place_in(text: &str) -> usize {
    let before = text.split(" place").next().expect("a place");
    (0..6).rev().find(|k| before.ends_with(PLACES[*k])).unwrap_or_else(|| panic!("no place: {text}"))
}

/// What counts of places are worth together: "3 hundreds 14 ones", "21 tens".
pub fn counted(text: &str) -> u32 {
    let names = text.split(|c: char| c.is_ascii_digit()).filter(|part| part.len() > 2);
    let place = |name: &str| {
        let name = name.trim_matches([' ', ',', '.']).trim_end_matches(" and").trim_end_matches('s');
        (0..6).rev().find(|k| name == PLACES[*k].trim_end_matches('s')).unwrap_or(0)
    };
    figures(text).iter().zip(names).map(|(count, name)| count * ten_to(place(name))).sum()
}

/// English number words by the plainest rules: no "and", hyphens from 21 to 99.
pub fn spelled(n: u32) -> String {
    const SMALL: [&str; 20] = [
        "zero",
        "one",
        "two",
        "three",
        "four",
        "five",
        "six",
        "seven",
        "eight",
        "nine",
        "ten",
        "eleven",
        "twelve",
        "thirteen",
        "fourteen",
        "fifteen",
        "sixteen",
        "seventeen",
        "eighteen",
        "nineteen",
    ];
    const TENS: [&str; 8] = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];
    let rest = |unit: u32, word: &str| {
        let tail = if !n.is_multiple_of(unit) { format!(" {}", spelled(n % unit)) } else { String::new() };
        format!("{} {word}{tail}", spelled(n / unit))
    };
    match n {
        0..20 => SMALL[n as usize].to_owned(),
        20..100 if n.is_multiple_of(10) => TENS[n as usize / 10 - 2].to_owned(),
        20..100 => format!("{}-{}", TENS[n as usize / 10 - 2], SMALL[n as usize % 10]),
        100..1_000 => rest(100, "hundred"),
        _ => rest(1_000, "thousand"),
    }
}

fn begins_with(answer: &str, words: &str) -> bool {
    answer.to_lowercase().starts_with(&words.to_lowercase())
}

/// Works the answer out again from the numerals of the question alone. `read` is the number that "this number" means.
pub fn check(question: &str, expect: &str, read: u32, zero_terms: bool) {
    let numbers = figures(question);
    let has = |words: &str| question.contains(words);
    let fail = || format!("{question} {expect}");
    match numbers[..] {
        [] if has("read this number") => {
            // With "and", where the class says it.
            assert_eq!(
                expect.replace(" and ", " ").replace(',', ""),
                format!("{}.", capital(&spelled(read))),
                "{}",
                fail()
            );
        }
        [digit, a, b] if has("worth the same in") => {
            let one = |n: u32| -> u32 {
                let found: Vec<_> = digits(n).into_iter().filter(|(d, _)| *d == digit).collect();
                let [(_, place)] = found[..] else { panic!("{digit} in {n}") };
                digit * ten_to(place)
            };
            assert_ne!(one(a), one(b), "{}", fail());
            assert_eq!(figures(expect), [a, one(a), b, one(b)], "{}", fail());
        }
        [digit, n] if has("What is the") && has("place of") => {
            let place = place_in(question);
            assert!(digits(n).contains(&(digit, place)), "{}", fail());
            assert_eq!(figures(expect)[0], digit * ten_to(place), "{}", fail());
        }
        [digit, n] if has("What is the") => {
            let found: Vec<_> = digits(n).into_iter().filter(|(d, _)| *d == digit).collect();
            let [(_, place)] = found[..] else { panic!("which {digit} of {n}? {question}") };
            assert_eq!(figures(expect), [digit * ten_to(place)], "{}", fail());
            assert!(expect.contains(PLACES[place]), "{}", fail());
        }
        [n, digit] if has("Which place is it in?") => {
            let found: Vec<_> = digits(n).into_iter().filter(|(d, _)| *d == digit).collect();
            let [(_, place)] = found[..] else { panic!("which {digit} of {n}? {question}") };
            assert_eq!(expect, format!("The {} place.", PLACES[place]), "{}", fail());
        }
        [n] if has("and what is it worth?") => {
            let place = place_in(question);
            let (digit, _) = digits(n).into_iter().find(|(_, at)| *at == place).expect("the place is there");
            assert_eq!(figures(expect), [digit, digit * ten_to(place)], "{}", fail());
        }
        [n] if has("How many digits does") => {
            let words = ["", "One", "Two", "Three", "Four", "Five", "Six"];
            assert!(expect.starts_with(words[n.to_string().len()]), "{}", fail());
        }
        [n] if has("How do we write") && has("expanded form") => {
            let all: Vec<u32> = digits(n).iter().map(|(d, place)| d * ten_to(*place)).collect();
            assert_eq!(figures(expect), if zero_terms { all } else { parts(n) }, "{}", fail());
        }
        [n] if has("How do we write") && has("in words") => {
            assert!(begins_with(&expect.replace(" and ", " ").replace(',', ""), &spelled(n)), "{}", fail());
        }
        [n] if has("Where does the hyphen go") => {
            let words = spelled(n);
            let joined: Vec<&str> = words.split(' ').filter(|word| word.contains('-')).collect();
            assert_eq!(joined, [expect.rsplit(' ').next().expect("words").trim_end_matches('.')], "{}", fail());
        }
        [n] if has("How many parts does") => assert_eq!((parts(n).len(), figures(expect)), (1, vec![n]), "{}", fail()),
        [n] if has("Which blocks show") || has("do the digits of") => {
            let want: Vec<u32> =
                digits(n).iter().map(|(d, _)| *d).filter(|d| *d > 0 || has("do the digits of")).collect();
            assert_eq!(figures(expect), want, "{}", fail());
        }
        [n] if has("before we say thousand") => {
            assert_eq!(figures(expect), [n / 1_000], "{}", fail());
            assert!(expect.replace(" and ", " ").contains(&spelled(n / 1_000)), "{}", fail());
        }
        [step, n, again] if has("more than") => {
            assert!(step == again && step == ten_to(step.to_string().len() - 1), "{}", fail());
            assert_eq!(figures(expect), [n + step, n - step], "{}", fail());
        }
        [n] if has("have no part for the") => {
            for (digit, place) in digits(n) {
                let named = question.split(" for the ").nth(1).expect("places");
                let says = named
                    .trim_end_matches('?')
                    .split([','])
                    .flat_map(|p| p.split(" or "))
                    .any(|p| p.trim() == PLACES[place]);
                assert_eq!(says, digit == 0, "{}", fail());
            }
            assert_eq!(figures(expect)[1..], parts(n), "{}", fail());
        }
        [n, _] if has("have a part that is 0") => assert_eq!(figures(expect).iter().sum::<u32>(), n, "{}", fail()),
        [_, n] | [n] if has("tell us?") => {
            let empty: Vec<&str> = digits(n).iter().filter(|(d, _)| *d == 0).map(|(_, p)| PLACES[*p]).collect();
            for name in empty {
                assert!(expect.to_lowercase().contains(name), "{}", fail());
            }
        }
        [_, n] | [n] if has("Why do we write the 0") => {
            let rest: u32 = n.to_string().replace('0', "").parse().expect("digits are left");
            assert_eq!(figures(expect), [rest], "{}", fail());
        }
        [0] if has("at all?") => assert!(expect.contains("none"), "{}", fail()),
        [a, b] if has("Which is greater") => {
            let answer = figures(expect);
            let (more, less) = (a.max(b), a.min(b));
            let at = (0..6).rev().find(|k| a / ten_to(*k) % 10 != b / ten_to(*k) % 10).expect("they differ");
            assert_eq!(answer, [more, more / ten_to(at) % 10, less, less / ten_to(at) % 10], "{}", fail());
        }
        [a, b] if has("do you tell") => {
            let place = place_in(expect);
            assert_eq!(figures(expect), [a, a / ten_to(place) % 10, b, b / ten_to(place) % 10], "{}", fail());
            assert!((place + 1..6).all(|k| a / ten_to(k) % 10 == b / ten_to(k) % 10), "{}", fail());
        }
        ref cards if has("Which number do the cards") => {
            let n = cards.iter().sum();
            assert_eq!((figures(expect), cards.to_vec()), (vec![n], parts(n)), "{}", fail());
        }
        [n] if has("strips belong to") => assert!(
            expect.replace(" and ", " ").replace(',', "").contains(&spelled(n))
                || figures(expect).iter().sum::<u32>() >= n,
            "{}",
            fail()
        ),
        [n] if has("else can we show") => {
            for told in expect.trim_end_matches('.').split("; ") {
                // Who writes draws: no piece has a name.
                let marks = [
                    ("boxes", "thousands"),
                    ("box", "thousand"),
                    ("square", "hundred"),
                    ("line", "ten"),
                    ("dot", "one"),
                ];
                let plain = marks.iter().fold(told.to_owned(), |text, (mark, place)| text.replace(mark, place));
                assert!(!["flat", "rod", "cube"].iter().any(|piece| told.contains(piece)), "{}: {told}", fail());
                let words = told.to_lowercase().replace(" and ", " ").replace(',', "");
                let sum: u32 = figures(told).iter().sum();
                assert!(words == spelled(n) || counted(&plain) == n || sum == n, "{}: {told}", fail());
            }
        }
        _ if has("What went wrong?") => {
            // What a child says of a slip.
            let said =
                |slip: &Slip| format!("{}. It should be ", placewright::wording::of(Language::En).went_wrong(*slip));
            let slip = Slip::all().find(|slip| expect.starts_with(&said(slip)));
            assert!(slip.is_some() && expect.starts_with("They "), "{}", fail());
        }
        _ if has("What do we call 0") => assert!(expect.starts_with("Digits")),
        [n, traded, got] if has("What do we have now?") => {
            let trade = question.split_once("trade ").and_then(|(_, rest)| rest.split_once(" for ")).expect("a trade");
            assert_eq!(counted(trade.0), counted(trade.1.split('.').next().expect("units")), "{}", fail());
            assert!(got == traded * 10, "{}", fail());
            let (now, still) = expect.split_once(". It is still ").expect("both");
            assert_eq!((counted(now), figures(still)), (n, vec![n]), "{}", fail());
        }
        _ if has("in digits?") => {
            let told = question.trim_start_matches("How do we write ").trim_end_matches(" in digits?");
            let n = figures(expect)[0];
            let units = counted(told);
            let sum: u32 = figures(told).iter().sum();
            assert!(spelled(n) == told || n == sum || n == units, "{}", fail());
        }
        _ => panic!("nobody works this out again: {}", fail()),
    }
}

fn capital(text: &str) -> String {
    text[..1].to_uppercase() + &text[1..]
}
