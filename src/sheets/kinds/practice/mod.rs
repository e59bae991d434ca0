//! Practice: the lesson's skills on one page of exercises, with a line or a ring for each answer.
//!
//! In: the lesson's [`Exercise`]s, for the class or for each of its groups. Out: pages for learners, exercises one below the
//! other at even distances; in large text there may be two.

mod draw;
mod key;

use std::ops::Range;

use crate::diag::Problem;
use crate::lesson::LessonPart;
use crate::lesson::practice::{Exercise, exercises};
use crate::measure::{Count, Length, Point, Rect, Size};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::head::{self, Head};
use crate::sheets::page::layout::{Layout, Turn};
use crate::sheets::page::text::Face;
use crate::sheets::page::{Layer, Node, Page, Reader, Tag};
use crate::spec::SheetKind;
use draw::Pen;

pub use key::key;

/// The exercises of learners with the same numbers.
struct Practice<'l> {
    part: LessonPart<'l>,
    exercises: Vec<Exercise>,
}

/// Lays the pages out, in type as large as one page holds, or else as large as it can be: the same for all learners, so
/// that no page tells whose it is. None for a lesson that has nothing to practice with.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let parts = desk.lesson.parts().into_iter();
    let parts = parts.map(|part| Practice { part, exercises: exercises(desk.lesson, &part) });
    let parts: Vec<Practice<'_>> = parts.filter(|part| !part.exercises.is_empty()).collect();
    let layout = desk.layout(SheetKind::Practice)?;
    let largest = [desk.face(layout, "ask")?, desk.face(layout, "given")?];
    let smaller = |[ask, given]: &[Face; 2]| {
        let step = |face: &Face| Face { size: (face.size - Length::pt(1)).max(face.least), ..*face };
        (ask.size > ask.least || given.size > given.least).then(|| [step(ask), step(given)])
    };
    let lettered = |pages: Vec<Vec<Page>>| desk.lettered(parts.iter().map(|own| own.part.versions).zip(pages));
    let mut first = None;
    for faces in std::iter::successors(Some(largest), smaller) {
        let all = parts.iter().map(|part| pages(desk, layout, part, faces)).collect::<Result<Vec<_>, Problem>>()?;
        if all.iter().all(|pages| pages.len() == 1) {
            return Ok(lettered(all));
        }
        first.get_or_insert(all);
    }
    Ok(lettered(first.unwrap_or_default()))
}

/// The pages in type of these sizes: what is asked, and what is given.
fn pages(
    desk: &Desk<'_>,
    layout: &Layout,
    Practice { part, exercises }: &Practice<'_>,
    [ask, given]: [Face; 2],
) -> Result<Vec<Page>, Problem> {
    let size = desk.page(layout.turns.first().copied().unwrap_or(Turn::Portrait));
    let goal = desk.lesson.can();
    let headed = |number| {
        let title = head::numbered(desk, SheetKind::Practice, number);
        let head = Head { title: &title, note: None, reader: Reader::Learner, code: true, goal: Some(&goal) };
        head::lay(desk, desk.live(size, layout), &head)
    };
    let body = headed((1, 1))?.body;
    let pen = Pen::new(desk, part.style, layout, body.width(), ask, given)?;
    let (least, most) = (layout.length("between")?, layout.length("most_between")?);
    // How high each is, drawn at the top of the page for once.
    let highs = exercises
        .iter()
        .enumerate()
        .map(|(k, exercise)| Ok(pen.draw(exercise, k + 1, body.origin())?.1))
        .collect::<Result<Vec<Length>, Problem>>()?;
    let mut pages = Vec::new();
    let ranges = shared(&highs, least, body.height())?;
    let of = ranges.len();
    for (at, page) in ranges.into_iter().enumerate() {
        let high: Length = highs[page.clone()].iter().copied().sum::<Length>() + least * (page.len() - 1);
        let gaps = page.len().wide().max(1);
        let spare = (body.height() - high).scaled(1, gaps);
        let between = (least + spare).min(most);
        let mut y = body.top();
        let mut items = Vec::new();
        for k in page {
            let (nodes, high) = pen.draw(&exercises[k], k + 1, Point::new(body.left(), y))?;
            items.push(Node::Tagged(Tag::ListItem, nodes));
            y += high + between;
        }
        let layer = Layer {
            nodes: vec![Node::Tagged(Tag::List, items)],
            boxes: vec![Rect::new(body.origin(), Size::new(body.width(), body.height()))],
            ..Layer::default()
        };
        pages.push(desk.finish(SheetKind::Practice, size, layout.stock, headed((at + 1, of))?, layer));
    }
    Ok(pages)
}

/// Which exercises go on which page: as many as fit, and where there are several pages the last two about equally full.
fn shared(highs: &[Length], between: Length, room: Length) -> Result<Vec<Range<usize>>, Problem> {
    let high = |page: &Range<usize>| highs[page.clone()].iter().copied().sum::<Length>() + between * page.len();
    let mut pages: Vec<Range<usize>> = Vec::new();
    for (k, own) in highs.iter().enumerate() {
        if *own > room {
            return Err(
                Problem::new(format!("an exercise needs {own} and the page has {room}")).hint("choose larger paper")
            );
        }
        match pages.last_mut().filter(|page| high(page) + *own <= room) {
            Some(page) => page.end = k + 1,
            None => pages.push(k..k + 1),
        }
    }
    if let [.., before, last] = pages.as_mut_slice() {
        while before.len() > 1 && high(last) + highs[before.end - 1] + between < high(before) {
            before.end -= 1;
            last.start -= 1;
        }
    }
    Ok(pages)
}
