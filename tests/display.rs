//! The display in steps: turning a page only adds, what is new has its meaning, and the plan turns to every page there is.

use crate::support::means;
use crate::support::packets::masters;
use crate::support::setup::planned;
use placewright::lesson::Lesson;
use placewright::lesson::teach::Step;
use placewright::lesson::timing;
use placewright::measure::fonts::{Bundled, bundled};
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::sheets::page::{Item, Node, Page, Tag};
use placewright::spec::SheetKind;
use placewright::wording::plan::{Chore, Deed};

/// A lesson whose display is in steps.
fn stepped(range: &str, count: u32, tables: &str) -> Lesson {
    planned(&format!(
        "title = \"Market crates\"\n[numbers]\nrange = {range}\nmodel = {{ count = {count} }}\n{tables}[sheets]\ndisplay = \"steps\"\n"
    ))
}

fn pages(lesson: &Lesson) -> Vec<Page> {
    let (layouts, family) = (Layouts::read(&[]).expect("layouts"), bundled(Bundled::Andika).expect("a font"));
    masters(&Desk::new(lesson, &layouts, &family), SheetKind::Display).unwrap_or_else(|problem| panic!("{problem:?}"))
}

/// Everything on a page below its heading, where it stands; and what a listener hears of it, in order.
fn shown(page: &Page) -> (Vec<String>, Vec<String>) {
    let (mut drawn, mut heard) = (Vec::new(), Vec::new());
    for node in page.layers.iter().flat_map(|layer| &layer.nodes) {
        let heading = matches!(node, Node::Tagged(Tag::Heading(_), _));
        if !heading {
            node.each(&mut |item| drawn.push(format!("{item:?}")));
        }
        match node {
            Node::Tagged(Tag::Heading(_), _) | Node::Item(_) | Node::Artifact(_) => {}
            Node::Tagged(Tag::Figure(told), _) => heard.push(format!("figure: {told}")),
            Node::Tagged(Tag::Table, _) => heard.push("table".to_owned()),
            Node::Tagged(..) => {
                let mut said = Vec::new();
                node.each(&mut |item| {
                    if let Item::Text(text) = item {
                        said.push(text.text.clone());
                    }
                });
                heard.push(said.join(" "));
            }
        }
    }
    (drawn, heard)
}

#[test]
fn turning_a_page_only_adds() {
    for (range, tables, steps) in [
        ("[100, 999]", "", 5),
        ("[0, 9]", "", 5),
        ("[1000, 9999]", "[print]\nink = \"colour\"\n", 5),
        // As many blocks as there can be, in the largest text.
        ("[9899, 9999]", "[print]\ntext = \"large\"\n", 5),
        ("[100, 999]", "[print]\ntext = \"large\"\n", 5),
        ("[10000, 999999]", "[print]\ntext = \"large\"\n", 4),
        ("[9000, 12000]", "", 4),
    ] {
        let lesson = stepped(range, 3, tables);
        let pages = pages(&lesson);
        assert_eq!(pages.len(), lesson.chosen.model.len() * steps, "{range}");
        for (number, pages) in lesson.chosen.model.iter().zip(pages.chunks(steps)) {
            let style = &lesson.style;
            let all: Vec<_> = pages.iter().map(shown).collect();
            for pair in all.windows(2) {
                let ((before, heard), (after, hears)) = (&pair[0], &pair[1]);
                assert!(before.iter().all(|item| after.contains(item)), "{range}: a form moves or goes");
                // 0 is shown by no block.
                assert!(after.len() > before.len() || number.value() == 0, "{range}: nothing is new");
                assert!(heard.iter().all(|said| hears.contains(said)), "{range}: {heard:?} {hears:?}");
            }
            assert_eq!(all[0].1, [style.numeral(*number)], "the numeral by itself");
            let last = &all[steps - 1].1;
            assert!(last.contains(&"table".to_owned()) && last.contains(&style.expanded(*number)), "{last:?}");
            assert_eq!(last.last(), Some(&style.words(*number)));
            // The blocks come before the chart that names their places.
            let figure = |heard: &Vec<String>| heard.iter().any(|said| said.starts_with("figure: "));
            assert_eq!(figure(&all[1].1), steps == 5 && number.value() > 0, "{:?}", all[1].1);
            assert_eq!(all[1].1.contains(&"table".to_owned()), steps == 4);
            let names: Vec<&str> = pages.iter().map(|page| page.name.as_str()).collect();
            assert!(names[0].ends_with(&format!("step 1 of {steps}")), "{names:?}");
        }
    }
}

#[test]
fn the_plan_turns_to_every_page_once_and_in_order() {
    for (range, count, steps) in [("[100, 999]", 5, 5), ("[10000, 99999]", 3, 4), ("[20, 90]", 1, 5)] {
        let lesson = stepped(range, count, "");
        let plan = means::plan(&lesson);
        let mut turned: Vec<Vec<u32>> = Vec::new();
        for step in plan.phases.iter().flat_map(|part| &part.steps) {
            match step {
                Step::Do(Deed::ShowNumeral { .. }) => turned.push(vec![1]),
                Step::Do(Deed::TurnTo(steps)) => {
                    turned.last_mut().expect("a number").extend(steps.iter().map(|(step, _)| step));
                }
                Step::Do(Deed::TurnThrough { steps: (from, to), .. }) => {
                    turned.last_mut().expect("a number").extend(*from..=*to);
                }
                Step::Do(deed) => {
                    assert!(!matches!(deed, Deed::ShowDisplay(_)), "pages are turned to step by step: {deed:?}");
                }
                Step::Say(_) | Step::Ask(_) | Step::Watch { .. } => {}
            }
        }
        let built = timing::load(&lesson.fullest, lesson.spec.minutes.value).models as usize;
        assert_eq!(turned, vec![(1..=steps).collect::<Vec<u32>>(); built], "{range}");
        let pages = u32::try_from(pages(&lesson).len()).unwrap();
        assert!(plan.before.contains(&(Chore::Display(pages, Vec::new()), 1)), "{:?}", plan.before);
    }
}

#[test]
fn nothing_is_said_of_steps_where_there_are_none() {
    for tables in ["", "[sheets]\nmake = [\"board\", \"strips\"]\ndisplay = \"steps\"\n"] {
        let lesson = planned(&format!("title = \"T\"\n[numbers]\nrange = [100, 999]\n{tables}"));
        for step in means::plan(&lesson).phases.iter().flat_map(|part| &part.steps) {
            let turns = matches!(step, Step::Do(Deed::ShowNumeral { .. } | Deed::TurnTo(_) | Deed::TurnThrough { .. }));
            assert!(!turns, "{step:?}");
        }
    }
}
