//! Minutes that can be kept: what is given out takes time, small children take longer, and no stretch of a long lesson is without
//! end. How long anything takes is common practice, no source.

use crate::support::means;
use crate::support::setup::planned;
use placewright::lesson::Lesson;
use placewright::lesson::teach::{Step, Teaching};
use placewright::lesson::timing::{self, Phase};
use placewright::wording::plan::{Chore, Deed};

fn of(grade: u32, minutes: u32, more: &str) -> Lesson {
    planned(&format!(
        "title = \"Kites\"\ngrade = \"{grade}\"\nminutes = {minutes}\n[numbers]\nrange = [10, 99]\n[class]\nlearners = 17\n{more}\n"
    ))
}

fn minutes(plan: &Teaching, phase: Phase) -> u32 {
    plan.phases.iter().filter(|part| part.phase == phase).map(|part| part.minutes).sum()
}

/// Mats, blocks and cards for seventeen six-year-olds, and then a number to build.
#[test]
fn kits_are_given_out_in_time() {
    let all =
        "[sheets]\nmake = [\"mat\", \"blocks\", \"layered\", \"record\", \"word-bank\", \"board\", \"exit\", \"key\"]";
    for (grade, kits, halves) in [(1, 3, 6), (2, 2, 5), (3, 2, 4)] {
        for length in [35, 40, 50, 60] {
            let lesson = of(grade, length, all);
            let load = timing::load(&lesson.fullest, length);
            let plan = means::plan(&lesson);
            let building = minutes(&plan, Phase::Building);
            assert!(
                building >= kits + (halves * load.models).div_ceil(2),
                "grade {grade}, {length}: {building} for {load:?}"
            );
            let together = minutes(&plan, Phase::Guided);
            assert!(!load.together || together >= 4, "grade {grade}, {length}: {together} for {load:?}");
        }
    }
}

/// The papers of a lesson do not hold a class all morning: it has a break, and the plan says when they are used up.
#[test]
fn a_long_lesson_has_a_break_and_an_end() {
    for grade in 1..=4 {
        for length in (90..=240).step_by(10) {
            for more in ["", "[sheets]\nmake = [\"display\", \"board\", \"strips\", \"exit\", \"key\"]"] {
                let plan = means::plan(&of(grade, length, more));
                let all: Vec<(Phase, u32)> = plan.phases.iter().map(|part| (part.phase, part.minutes)).collect();
                assert_eq!(all.iter().map(|(_, minutes)| minutes).sum::<u32>(), length, "{all:?}");
                assert!(minutes(&plan, Phase::Break) > 0, "no break in {length}: {all:?}");
                assert!(minutes(&plan, Phase::Further) <= 50, "{all:?}");
                assert!(length < 200 || minutes(&plan, Phase::Spare) > 0, "{all:?}");
                let steps = plan.phases.iter().flat_map(|part| &part.steps);
                let order = steps.filter_map(|step| match step {
                    Step::Do(Deed::PutInOrder { minutes, .. }) => Some(*minutes),
                    _ => None,
                });
                assert!(order.into_iter().all(|minutes| minutes <= 8), "{length}: {more}");
            }
        }
    }
}

/// With less time than all of it takes, what cannot be left out comes first, and the plan says so.
#[test]
fn long_preparation_says_what_comes_first() {
    let mut long = 0;
    for learners in [4, 12, 24, 30] {
        let lesson = planned(&format!(
            "title = \"Kites\"\n[numbers]\nrange = [1000, 9999]\n[class]\nlearners = {learners}\nversions = 2\n"
        ));
        let plan = means::plan(&lesson);
        let all: u32 = plan.before.iter().map(|(_, minutes)| minutes).sum();
        let note = lesson.wording().before_note(all, plan.is_hurried());
        assert_eq!(note.contains("begin at the top"), all > 25, "{learners}: {note}");
        let cut = |chore: &Chore| matches!(chore, Chore::Cut { .. } | Chore::CutCubes { .. } | Chore::Join { .. });
        let first = plan.before.iter().position(|(chore, _)| cut(chore)).expect("something to cut");
        if all > 25 {
            assert!(plan.before[first..].iter().all(|(chore, _)| cut(chore)), "{:?}", plan.before);
            long += 1;
        }
    }
    assert!(long > 1, "{long}");
}

/// What fills a lesson does not fit into less of it, and who comes later builds no more, nor does more rows unless they take the
/// place of building.
#[test]
fn a_late_start_does_less_than_all() {
    let all =
        "[sheets]\nmake = [\"mat\", \"blocks\", \"record\", \"word-bank\", \"board\", \"strips\", \"exit\", \"key\"]";
    for grade in [1, 2, 4] {
        for length in [20, 30, 45, 60, 90, 120] {
            let lesson = of(grade, length, all);
            let whole = timing::load(&lesson.fullest, length);
            let mut earlier = whole;
            for left in (10..=length - 5).rev() {
                let late = timing::late(&lesson.fullest)(left);
                let done = |load: &timing::Load| (load.models, load.rows, load.questions);
                assert!(
                    late != whole || whole == timing::load(&lesson.fullest, 10),
                    "{grade}, {length}, {left}: {late:?}"
                );
                let builds = |load: &timing::Load| load.models > 0 || load.together;
                let instead = builds(&earlier) && !builds(&late) && late.rows <= 3;
                assert!(
                    late.models <= earlier.models && (late.rows <= earlier.rows || instead),
                    "{:?} {:?}",
                    done(&late),
                    done(&earlier)
                );
                earlier = late;
            }
        }
    }
}

/// Packets are given out, a row is talked over while it is written, and then each number that is to be written alone takes as
/// long again; a question that is shared takes a minute; and scissors, strips and kits go back (common practice, no source).
#[test]
fn what_is_asked_of_a_class_fits_into_its_minutes() {
    let kits =
        "[sheets]\nmake = [\"mat\", \"blocks\", \"record\", \"word-bank\", \"board\", \"strips\", \"exit\", \"key\"]";
    let few = "[sheets]\nmake = [\"board\", \"exit\", \"key\"]";
    let mut seen = [0; 3];
    for (grade, row) in [(1, 3), (2, 2), (3, 2), (4, 2)] {
        for length in [40, 45, 50, 60, 75] {
            for (make, things) in [(kits, 2), (few, 0)] {
                let lesson = of(grade, length, make);
                let load = timing::load(&lesson.fullest, length);
                let plan = means::plan(&lesson);
                let what = format!("grade {grade}, {length}, {make}: {load:?}");
                if load.together {
                    let together = minutes(&plan, Phase::Guided);
                    let steps = plan.phases.iter().flat_map(|part| &part.steps);
                    let alone = steps.filter_map(|step| match step {
                        Step::Do(Deed::Alone(now, _)) => Some(now.len() as u32),
                        _ => None,
                    });
                    // With a single number left there is one in any case.
                    let alone = alone.sum::<u32>().saturating_sub(1);
                    assert!(together >= 1 + 2 + row + alone * row, "{together}: {what}");
                    seen[0] += 1;
                }
                if load.sharing {
                    let sharing = plan.phases.iter().find(|part| part.phase == Phase::Sharing).expect("sharing");
                    let asked = sharing.steps.iter().filter(|step| matches!(step, Step::Ask(_))).count() as u32;
                    assert!(sharing.minutes > asked, "{} for {asked}: {what}", sharing.minutes);
                    seen[1] += 1;
                }
                if load.models > 0 && load.strips != timing::StripUse::Written || things == 0 {
                    let clearing = minutes(&plan, Phase::Clearing);
                    assert!(clearing >= 2 + things, "{clearing}: {what}");
                    seen[2] += 1;
                }
            }
        }
    }
    assert!(seen.iter().all(|seen| *seen > 20), "{seen:?}");
}
