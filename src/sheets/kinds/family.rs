//! The page for home: what was learned, words, three things to try, three questions with their answers.
//!
//! In: the [`Home`] of the lesson, or of each group of its learners. Out: a page for families, without the name of any learner; in
//! a lesson in two languages one in each, with the same numbers. Where groups have numbers of their own, there is a master for
//! each version, with its letter.

use std::sync::Arc;

use crate::diag::Problem;
use crate::lesson::LessonPart;
use crate::lesson::home::{self, Home};
use crate::measure::{Length, Point, Rect, Size};
use crate::number::{Content, Form, Number, Style, Task};
use crate::sheets::flow::list::{ListLook, ListMark};
use crate::sheets::flow::pages::{Flow, Heading, Lead, Setup};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::layout::Layout;
use crate::sheets::page::text::Face;
use crate::sheets::page::tongues;
use crate::sheets::page::{Layer, Mark, Page, Says, Tag};
use crate::spec::SheetKind;
use crate::wording::Usage;
use crate::wording::home::MOST_BEANS;

/// Lays the pages out, in type as large as one page a language holds; none for a lesson without numbers.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let second = desk.lesson.in_second().zip(desk.lesson.second());
    let second = second
        .as_ref()
        .map(|(other, language)| (Desk::new(other, desk.layouts, desk.family), other.parts(), *language));
    let mut all = Vec::new();
    for (k, part) in desk.lesson.parts().into_iter().enumerate() {
        let Some(home) = home::home(desk.lesson, &part) else { return Ok(Vec::new()) };
        let mut pages = in_one(desk, &part, &home)?;
        if let Some((there, parts, language)) = &second {
            let Some(part) = parts.get(k) else { continue };
            // Bookmarks, and tables that list the pages, are in the file's language.
            let name = desk.lesson.wording().page_name(SheetKind::Family, None);
            let named = |page| Page { name: name.clone(), ..tongues::passage(page, *language) };
            pages.extend(in_one(there, part, &home)?.into_iter().map(named));
        }
        for page in pages.iter_mut().filter(|_| !part.versions.is_empty()) {
            page.layers.push(code(desk, page)?);
        }
        all.push((part.versions, pages));
    }
    Ok(desk.lettered(all.into_iter()))
}

/// Room for the version and learner mark at the upper right: whoever hands the pages out sees whose each is.
fn code(desk: &Desk<'_>, page: &Page) -> Result<Arc<Layer>, Problem> {
    let layout = desk.layouts.page();
    // The name stands here, too, on one line: such a page has no other room for it.
    let live = desk.live(page.size, desk.layout(SheetKind::Family)?);
    let width = live.width().scaled(2, 5);
    let high = desk.face(layout, "title")?.pitch();
    let frame = Rect::new(Point::new(live.right() - width, live.top()), Size::new(width, high));
    Ok(Arc::new(Layer { marks: vec![Mark { frame, says: Says::Code }], ..Layer::default() }))
}

/// The page for a part of the class in the desk's language.
fn in_one(desk: &Desk<'_>, of: &LessonPart<'_>, home: &Home) -> Result<Vec<Page>, Problem> {
    let layout = desk.layout(SheetKind::Family)?;
    let (mut part, mut text) = (desk.face(layout, "part")?, desk.face(layout, "text")?);
    loop {
        let pages = pages(desk, layout, (of, home), part, text)?;
        if pages.len() == 1 || text.size <= text.least {
            return Ok(pages);
        }
        part.size = (part.size - STEP).max(part.least);
        text.size = (text.size - STEP).max(text.least);
    }
}

/// Type is tried in steps of this.
const STEP: Length = Length::pt100(50);

/// The page, or pages, in type of these sizes.
fn pages(
    desk: &Desk<'_>,
    layout: &Layout,
    (of, home): (&LessonPart<'_>, &Home),
    part: Face,
    text: Face,
) -> Result<Vec<Page>, Problem> {
    let most = of.numbers.range.value.1;
    // A family is told of the pieces that its own child meets.
    let own = Usage { style: of.style, greatest: most.greatest_place(), ..desk.lesson.usage() };
    let (wording, usage) = (desk.lesson.wording(), own);
    let (between, lines) = (layout.length("between")?, layout.length("lines")?);
    let title = wording.sheet_title(SheetKind::Family).to_owned();
    let (first, later) = (Heading { title: title.clone(), note: None }, Heading { title, note: None });
    let widest = Some(layout.length("measure")?);
    let mut flow = Flow::new(desk, Setup { kind: SheetKind::Family, layout, first, later, widest })?;
    flow.text(&wording.home_note(&desk.lesson.part_can(of)), &text)?;
    let look = ListLook { face: text, mark: ListMark::Dot, indent: layout.length("indent")?, gap: lines, whole: true };
    let (questions, answers) = asked(desk, of.style, home);
    let lists = [
        wording.home_learned(home.number, home.place, home.zero, &usage),
        wording.home_words(&told(desk, of), home.number, &usage),
        wording.home_tries(home.number, most, desk.lesson.teaches_trading_to(of), &usage).into(),
        questions,
    ];
    for (k, (title, items)) in wording.home_headings().into_iter().zip(lists).enumerate() {
        let lead = |text: &str, face, tag, above| Lead { text: text.to_owned(), face, tag, above, below: Length::ZERO };
        flow.lead(lead(title, part, Tag::Heading(2), between));
        flow.list(&items, &look)?;
        if k == 2 && most.value() <= MOST_BEANS {
            flow.gap(lines);
            flow.text(wording.home_caution(), &text.bold())?;
        }
    }
    flow.gap(between);
    let answers: Vec<&str> = answers.iter().map(String::as_str).collect();
    flow.text(&wording.home_answers(&answers), &text)?;
    flow.finish()
}

/// The forms that are told: words of the second language on its own page, as its words.
fn told(desk: &Desk<'_>, of: &LessonPart<'_>) -> Vec<Form> {
    let mut forms: Vec<Form> = Vec::new();
    let own = desk.lesson.sets.iter().find(|set| of.versions.contains(&set.version));
    let matched = own.map_or_else(
        || desk.lesson.spec.forms.matched.value.clone(),
        |set| std::iter::once(set.given).chain(set.forms.iter().copied()).collect(),
    );
    for form in matched {
        let form = if form.is_words() { Form::Words } else { form };
        if !forms.contains(&form) {
            forms.push(form);
        }
    }
    forms
}

/// The questions and their answers.
fn asked(desk: &Desk<'_>, style: &Style, home: &Home) -> (Vec<String>, Vec<String>) {
    let wording = desk.lesson.wording();
    let numeral = |number: Number| style.numeral(number);
    let mut all: Vec<(String, String)> = Vec::new();
    let text =
        |content: Option<Content>| content.and_then(|content| content.line().map(str::to_owned)).unwrap_or_default();
    all.extend(home.worth.map(|(number, place)| {
        let question = wording.worth_question(number.digit(place), &numeral(number));
        (question, text(Task::Worth(place).right(number, style)))
    }));
    all.extend(home.greater.map(|(one, other)| {
        (wording.greater_question(&numeral(one.min(other)), &numeral(one.max(other))), numeral(one.max(other)))
    }));
    all.extend(
        home.joined.map(|number| (wording.home_join(&text(Form::Expanded.content(number, style))), numeral(number))),
    );
    all.into_iter().unzip()
}
