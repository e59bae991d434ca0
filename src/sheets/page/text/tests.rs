//! How text is cut into lines, and how high those are.

use super::*;
use crate::measure::fonts::{Bundled, bundled};

fn face(size: i64) -> Face {
    Face {
        weight: Weight::Regular,
        paint: Paint::BLACK,
        reader: Reader::Learner,
        size: Length::pt(size),
        least: Length::pt(14),
        leading: 120,
    }
}

fn room(width: i64, height: i64) -> Rect {
    Rect::new(Point::new(Length::mm(20), Length::mm(30)), Size::new(Length::mm(width), Length::mm(height)))
}

#[track_caller]
fn breaks(text: &str, width: i64, want: &[&str]) {
    let family = bundled(Bundled::Andika).unwrap();
    assert_eq!(wrap(&family, text, Length::mm(width), &face(20)), want);
}

#[test]
fn lines_break_where_the_sense_does() {
    breaks("five hundred one", 50, &["five hundred", "one"]);
    breaks("600,000 + 70,000 + 8", 60, &["600,000", "+ 70,000 + 8"]);
    breaks("8 tens 2 ones", 30, &["8 tens", "2 ones"]);
    breaks("two hundred twenty-two thousand two hundred", 80, &["two hundred", "twenty-two thousand", "two hundred"]);
    breaks("1,913 < 9,113", 20, &["1,913 < 9,113"]);
    // Too narrow for the sense: any space will do.
    breaks("seventy-eight thousand", 50, &["seventy-eight", "thousand"]);
}

#[test]
fn a_count_stays_with_all_of_its_name() {
    let family = bundled(Bundled::Andika).unwrap();
    let text = "3 hundred thousands 7 ten thousands 0 thousands 2 ones";
    let case = |width: i64, want: &[&str]| assert_eq!(flow(&family, text, Length::mm(width), &face(10)), want);
    case(55, &["3 hundred thousands", "7 ten thousands 0 thousands", "2 ones"]);
    // Too narrow for a whole count: as any text.
    case(25, &["3 hundred", "thousands", "7 ten", "thousands", "0 thousands", "2 ones"]);
}

#[test]
fn an_and_never_stands_alone() {
    let family = bundled(Bundled::Andika).unwrap();
    let text = "four thousand one hundred and ninety-three";
    let lines = set(&family, text, room(48, 40), &face(20), Align::CENTRE).unwrap().lines;
    let lines: Vec<&str> = lines.iter().map(|line| line.text.as_str()).collect();
    assert_eq!(lines, ["four thousand", "one hundred", "and ninety-three"]);
}

#[test]
fn ink_lies_inside_the_frame_wherever_it_is_aligned() {
    let family = bundled(Bundled::Andika).unwrap();
    for down in [Down::Top, Down::Middle, Down::Bottom] {
        for across in [Across::Left, Across::Centre, Across::Right] {
            for text in ["jumping quickly", "406", "Qj"] {
                let frame = room(60, 12);
                let set = set(&family, text, frame, &face(24), Align { across, down }).unwrap();
                for line in &set.lines {
                    let ink = family.regular.ink(&line.text, line.size, line.at).unwrap();
                    assert!(frame.contains(ink), "{text} {across:?} {down:?}");
                }
            }
        }
    }
}

#[test]
fn capitals_stand_in_the_middle() {
    let family = bundled(Bundled::Andika).unwrap();
    let frame = room(60, 20);
    let line = set(&family, "H", frame, &face(24), Align::CENTRE).unwrap().lines.remove(0);
    let ink = family.regular.ink("H", line.size, line.at).unwrap();
    let (above, below) = (ink.top() - frame.top(), frame.bottom() - ink.bottom());
    assert!((above - below).abs() < Length::mm100(20), "{above} {below}");
}

#[test]
fn ink_stands_in_the_middle() {
    let family = bundled(Bundled::Andika).unwrap();
    for text in ["eight", "400 + 6", "one gypsy moth in the attic"] {
        let frame = room(60, 40);
        let lines = set(&family, text, frame, &face(24), Align::INK).unwrap().lines;
        let ink = lines.iter().filter_map(|line| family.regular.ink(&line.text, line.size, line.at));
        let ink = ink.reduce(Rect::union).unwrap();
        let (above, below) = (ink.top() - frame.top(), frame.bottom() - ink.bottom());
        assert!((above - below).abs() < Length::mm100(5), "{text}: {above} {below}");
    }
}

#[test]
fn what_does_not_fit_says_what_would() {
    let family = bundled(Bundled::Andika).unwrap();
    let problem = set(&family, "seventy-seven", room(30, 10), &face(20), Align::CENTRE).unwrap_err();
    assert_eq!(problem.message, "`seventy-seven` does not fit into 30 mm by 10 mm at 14 pt");
    let hint = problem.hint.unwrap();
    let size: f64 = hint.split(' ').nth(4).unwrap().parse().unwrap();
    // Following the hint must work.
    let least = Length::pt100((size * 100.0).round() as i64);
    assert!(set(&family, "seventy-seven", room(30, 10), &face(20).at(least), Align::CENTRE).is_ok(), "{hint}");
    let missing = set(&family, "\u{2603}", room(30, 10), &face(20), Align::CENTRE).unwrap_err();
    assert!(missing.message.contains("the font has no"), "{missing}");
}
