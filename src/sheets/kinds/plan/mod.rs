//! The lesson plan: the lesson minute by minute, to be read while teaching.
//!
//! In: the [`Teaching`] of a lesson. Out: one to three pages: times at the left, then a narrow column that says what kind of
//! step it is, then the step. What is said aloud is bold behind a bar, so that it is found at a glance; a question has the
//! answer to expect below it. A phase that goes on over a page is named again there.

mod step;

use crate::diag::Problem;
use crate::lesson::job::JobFacts;
use crate::lesson::teach::{self, Means, PlanPart, Teaching};
use crate::measure::{Count, Length, Point};
use crate::sheets::flow::even::{Extent, Spread, shared};
use crate::sheets::flow::list::{ListLook, ListMark, along};
use crate::sheets::flow::pages::{Flow, Heading, Lead, Setup};
use crate::sheets::kinds::record;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::ink;
use crate::sheets::page::layout::Layout;
use crate::sheets::page::text::Face;
use crate::sheets::page::{Item, Node, Page, Tag};
use crate::spec::SheetKind;

/// Lays the plan out: at the sizes of the layout, or more closely or widely where that leaves no last page nearly empty.
pub fn lay(desk: &Desk<'_>, job: &JobFacts) -> Result<Vec<Page>, Problem> {
    let teaching = teach::plan(&means(desk, job)?);
    let (usual, extent) = laid(desk, &teaching, Air(100), Spread::USUAL)?;
    if extent.is_even() {
        return Ok(usual);
    }
    for air in [Air(85), Air(70), Air(55), Air(120), Air(140), Air(170)] {
        let (pages, extent) = laid(desk, &teaching, air, Spread::USUAL)?;
        // Wider is no reason for a page more.
        if extent.is_even() && pages.len() <= usual.len() {
            return Ok(pages);
        }
    }
    let spread = shared(usual.len(), |spread| Ok(laid(desk, &teaching, Air(100), spread)?.1))?;
    spread.map_or(Ok(usual), |spread| Ok(laid(desk, &teaching, Air(100), spread)?.0))
}

/// The room between steps and phases, in percent of the layout's; where it is less, type is a little smaller too.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Air(i64);

impl Air {
    fn between(self, length: Length) -> Length {
        length.scaled(self.0, 100)
    }

    /// Type between its usual and its least size.
    fn type_of(self, face: Face) -> Face {
        let least = face.least;
        let size = face.size.scaled(self.0.min(100) + 300, 400).max(least);
        Face { size, ..face }
    }
}

/// The pages, and what they come to.
fn laid(desk: &Desk<'_>, teaching: &Teaching, air: Air, spread: Spread) -> Result<(Vec<Page>, Extent), Problem> {
    let mut script = PlanPages::new(desk, air, teaching)?;
    script.flow = script.flow.to_depth(spread.depth);
    script.aims(teaching)?;
    script.before(teaching)?;
    for part in &teaching.phases {
        script.part(part)?;
    }
    script.flow.laid()
}

/// What the class has in its hands.
pub(crate) fn means<'a>(desk: &Desk<'a>, job: &'a JobFacts) -> Result<Means<'a>, Problem> {
    let questions = crate::sheets::kinds::exit::questions(desk)?.narrow();
    let own_rows = job.has(SheetKind::Record) && record::own_rows(desk)?;
    Ok(Means { lesson: desk.lesson, job, questions, own_rows })
}

/// The faces and lengths of the plan.
struct PlanLook {
    phase: Face,
    time: Face,
    minutes: Face,
    label: Face,
    body: Face,
    speech: Face,
    small: Face,
    times: Length,
    labels: Length,
    widest: Length,
    step: Length,
    between: Length,
}

/// Between a label and what it labels, at least.
const BESIDE_LABEL: Length = Length::mm(2);

impl PlanLook {
    fn read(desk: &Desk<'_>, layout: &Layout, air: Air, teaching: &Teaching) -> Result<Self, Problem> {
        let face = |name| desk.face(layout, name).map(|face| air.type_of(face));
        let length = |name| layout.length(name);
        let (label, wording) = (face("label")?, desk.lesson.wording());
        let labels = [
            wording.label_table(),
            wording.label_do(),
            wording.label_say(),
            wording.label_ask(),
            wording.label_watch(),
        ];
        // Some languages need a longer word than the layout has room for.
        let widest = labels.into_iter().map(|text| desk.width(text, &label)).max().unwrap_or_default();
        let labels = length("labels")?.max(widest + BESIDE_LABEL);
        // "108–116" is wider than "8–16".
        let time = face("time")?;
        let clocks = teaching.phases.iter().map(|part| desk.width(&clock(part), &time) + BESIDE_LABEL);
        let times = clocks.max().unwrap_or_default().max(length("times")?);
        Ok(Self {
            phase: face("phase")?,
            time,
            minutes: face("minutes")?.painted(ink::QUIET),
            label: label.painted(ink::QUIET),
            body: face("body")?,
            speech: face("speech")?,
            small: face("small")?,
            times,
            labels,
            widest: length("widest")?,
            step: air.between(length("step")?),
            between: air.between(length("phase")?),
        })
    }
}

/// "0–3": when a phase begins and ends, in minutes.
fn clock(part: &PlanPart) -> String {
    format!("{}\u{2013}{}", part.start, part.start + part.minutes)
}

/// The plan's pages.
struct PlanPages<'a> {
    flow: Flow<'a>,
    /// Whether a single model number is shown.
    one_model: bool,
    look: PlanLook,
}

impl<'a> PlanPages<'a> {
    fn new(desk: &'a Desk<'a>, air: Air, teaching: &Teaching) -> Result<Self, Problem> {
        let layout = desk.layout(SheetKind::Plan)?;
        let look = PlanLook::read(desk, layout, air, teaching)?;
        let spec = &desk.lesson.spec;
        let wording = desk.lesson.wording();
        let note = wording.plan_note(spec.minutes.value);
        let first = Heading { title: spec.title.value.clone(), note: Some(note) };
        let later = Heading { title: wording.plan_again(&spec.title.value), note: None };
        // Not wider than is easy to read.
        let widest = Some(look.times + look.labels + look.widest);
        let one_model = teaching.one_model;
        Ok(Self {
            flow: Flow::new(desk, Setup { kind: SheetKind::Plan, layout, first, later, widest })?,
            one_model,
            look,
        })
    }

    /// What the lesson is for, under the title.
    fn aims(&mut self, teaching: &Teaching) -> Result<(), Problem> {
        for aim in &teaching.aims {
            let lesson = self.flow.desk().lesson;
            self.flow.text(&lesson.wording().aim(aim, &lesson.usage()), &self.look.body)?;
        }
        self.flow.gap(self.look.between.half());
        Ok(())
    }

    /// What to do before the class comes in, and what to do instead where nobody had time.
    fn before(&mut self, teaching: &Teaching) -> Result<(), Problem> {
        let lesson = self.flow.desk().lesson;
        let (wording, usage) = (lesson.wording(), lesson.usage());
        let PlanLook { phase, small, body, minutes, times, step, between, .. } = self.look;
        let lead = |text: &str, face, tag, above| Lead { text: text.to_owned(), face, tag, above, below: Length::ZERO };
        let all = teaching.before.iter().map(|(_, minutes)| minutes).sum();
        self.flow.lead(lead(wording.before_title(), phase, Tag::Heading(2), step));
        let note = wording.before_note(all, teaching.is_hurried());
        self.flow.lead(Lead { below: step, ..lead(&note, small, Tag::Paragraph, Length::ZERO) });
        let chores: Vec<(String, u32)> =
            teaching.before.iter().map(|(chore, takes)| (wording.chore(chore, &usage), *takes)).collect();
        let high = chores.iter().map(|(text, _)| self.flow.column().height(text, &body, times)).sum();
        self.flow.begin(high)?;
        let column = self.flow.column();
        let mut items = Vec::new();
        for (text, takes) in &chores {
            let clock = column.beside(&wording.min(*takes), &minutes, Length::ZERO, times, Tag::Label)?;
            items.push(Node::tagged(Tag::ListItem, [clock, column.text(text, &body, times, Tag::ListBody)?]));
        }
        self.flow.push(Node::Tagged(Tag::List, items));
        if !teaching.shortcuts.is_empty() {
            self.flow.lead(lead(wording.shortcut_title(), body.bold(), Tag::Heading(3), step));
            let items: Vec<String> = teaching.shortcuts.iter().map(|one| wording.shortcut(*one).to_owned()).collect();
            let look =
                ListLook { face: body, mark: ListMark::Dot, indent: Length::mm(5), gap: Length::ZERO, whole: true };
            self.flow.list(&items, &look)?;
        }
        self.flow.gap(between);
        Ok(())
    }

    /// One phase: heading, table, steps.
    fn part(&mut self, part: &PlanPart) -> Result<(), Problem> {
        let lesson = self.flow.desk().lesson;
        let wording = lesson.wording();
        let steps: Vec<step::Set> = part.steps.iter().map(|step| step::set(&self.look, step, lesson)).collect();
        let mut broken = Vec::new();
        for set in &steps {
            broken.push(set.broken(self.flow.column(), &self.look)?);
        }
        let highs: Vec<Length> = broken.iter().map(|step| step.height() + self.look.step).collect();
        let table = wording.table(&part.table, lesson.spec.class.learners.value);
        // A heading never stands alone: it takes its first two steps along.
        let head = self.look.phase.pitch() + self.table_height(&table) + self.look.step;
        self.flow.begin(head + along(&highs, 0))?;
        self.heading(part, false)?;
        if !table.is_empty() {
            let (indent, label) = (self.look.times, self.look.label);
            let (labels, text, from) = (self.look.labels, self.look.small.painted(ink::QUIET), self.indent());
            let column = self.flow.column();
            let name = column.beside(wording.label_table(), &label, indent, labels, Tag::Label)?;
            let text = column.text(&table, &text, from, Tag::ListBody)?;
            column.skip(self.look.step);
            self.flow.push(Node::tagged(Tag::List, [Node::tagged(Tag::ListItem, [name, text])]));
        }
        let mut items = Vec::new();
        for (k, step) in broken.iter().enumerate() {
            // The last step never stands alone on a page, and needs no room below it.
            if k > 0 && self.flow.left() < along(&highs, k) - self.look.step {
                self.list(&mut items);
                self.flow.turn()?;
                self.heading(part, true)?;
            }
            items.push(step.draw(self.flow.column(), &self.look)?);
            self.flow.column().skip(self.look.step);
        }
        self.list(&mut items);
        self.flow.column().skip(self.look.between - self.look.step);
        Ok(())
    }

    fn list(&mut self, items: &mut Vec<Node>) {
        if !items.is_empty() {
            self.flow.push(Node::Tagged(Tag::List, std::mem::take(items)));
        }
    }

    fn indent(&self) -> Length {
        self.look.times + self.look.labels
    }

    fn table_height(&mut self, table: &str) -> Length {
        let indent = self.indent();
        if table.is_empty() { Length::ZERO } else { self.flow.column().height(table, &self.look.small, indent) }
    }

    /// The rule, times and title of a phase.
    fn heading(&mut self, part: &PlanPart, again: bool) -> Result<(), Problem> {
        let wording = self.flow.desk().lesson.wording();
        let look = &self.look;
        let column = self.flow.column();
        let (left, right) = (column.frame.left(), column.frame.right());
        let y = column.y;
        let rule = Item::Line { from: Point::new(left, y), to: Point::new(right, y), stroke: ink::OUTLINE };
        column.skip(Length::mm(1));
        let title = wording.phase(part.phase, self.one_model);
        let title = if again { wording.goes_on(title) } else { title.to_owned() };
        let times = clock(part);
        let minutes = wording.minutes(part.minutes);
        let top = column.y;
        let rest = right - left - look.times;
        let name = column.beside(&title, &look.phase, look.times, rest, Tag::Heading(2))?;
        let clock = column.beside(&times, &look.time, Length::ZERO, look.times, Tag::Paragraph)?;
        let mut nodes = vec![Node::artifact(rule), name, clock];
        if !again {
            column.y = top + look.time.pitch();
            nodes.push(column.beside(&minutes, &look.minutes, Length::ZERO, look.times, Tag::Paragraph)?);
        }
        column.y = top + look.phase.pitch() + look.step;
        self.flow.extend(nodes);
        Ok(())
    }
}
