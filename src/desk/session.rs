//! What lies on the desk: one lesson text, the texts before it, and what came of it.
//!
//! The text is the only state that a teacher changes; everything that is shown follows from it and from the last lesson that
//! could be made. Each change gets a number, and lessons are laid out in threads of their own: what comes of a text that
//! has been changed since is dropped, and work on it ends at the next step. One lock guards all of it and is never held
//! while a lesson is laid out, a file is read or a page is drawn.

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use tokio::sync::watch;

use super::workshop::{LaidLesson, Made, Refused, UnderWay, Workshop};
use crate::diag::{Diagnostic, Problem};

/// How many texts can be gone back to.
const BACK: usize = 500;

/// What is said when numbers that were only held are chosen anew.
const GAVE_WAY: &str = "numbers that you had not asked to keep were chosen anew: the requests left no room for them";

/// What lies on the desk.
pub struct Session {
    /// What stands behind it.
    pub workshop: Arc<dyn Workshop>,
    state: Mutex<State>,
    /// The number of the last change.
    newest: AtomicU64,
    /// Tells those who wait that something was worked out or changed.
    changed: watch::Sender<u64>,
}

/// A lesson text and where it belongs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OnDesk {
    /// The file it was read from or saved to.
    pub name: Option<String>,
    /// The text.
    pub text: String,
    /// Numbers that it asks for by name only so that they stay while another one changes, with the key they stand in.
    pub held: Vec<(String, u32)>,
}

impl OnDesk {
    /// A lesson in whose text nothing is held.
    pub fn new(name: Option<String>, text: String) -> Self {
        Self { name, text, held: Vec::new() }
    }
}

/// Everything that is shown.
#[derive(Debug, Clone, Default)]
pub struct State {
    /// The lesson; none before one was chosen.
    pub lesson: Option<OnDesk>,
    /// The number of the change that made it so.
    pub revision: u64,
    /// The last lesson that could be made, and the change it came of.
    pub laid: Option<(Arc<LaidLesson>, u64)>,
    /// The last change that was worked out, and what is wrong with the lesson since then.
    pub judged: u64,
    /// What is wrong.
    pub found: Arc<Vec<Diagnostic>>,
    /// The texts of files as they were last read or written.
    pub files: BTreeMap<String, String>,
    /// What the file says by now, where somebody else has changed it.
    pub theirs: Option<String>,
    /// Whether the file is no longer there, or cannot be read any more.
    pub gone: bool,
    /// The packets that are being made.
    pub making: Option<Arc<UnderWay>>,
    /// The packets that were made, and the text they were made of; or why not.
    pub made: Option<(Result<Made, Arc<Vec<Diagnostic>>>, String)>,
    back: Vec<OnDesk>,
    forward: Vec<OnDesk>,
    /// The key that is being typed into: a word is undone as a whole.
    typing: Option<String>,
}

impl State {
    /// Whether there is a text to go back to.
    pub fn can_go_back(&self) -> bool {
        !self.back.is_empty()
    }

    /// Whether there is one to go forward to.
    pub fn can_go_forward(&self) -> bool {
        !self.forward.is_empty()
    }

    /// Whether the text is what its file says.
    pub fn is_saved(&self) -> bool {
        let Some(lesson) = &self.lesson else { return true };
        let file = lesson.name.as_ref().and_then(|name| self.files.get(name));
        !self.gone && file.is_some_and(|text| *text == lesson.text)
    }

    /// Whether the lesson as it is was worked out.
    pub fn is_judged(&self) -> bool {
        self.lesson.is_none() || self.judged == self.revision
    }
}

impl Session {
    /// An empty desk, or one with a lesson on it.
    pub fn new(workshop: Arc<dyn Workshop>, lesson: Option<OnDesk>) -> Self {
        let mut state = State::default();
        if let Some(lesson) = lesson {
            state.files.extend(lesson.name.clone().map(|name| (name, lesson.text.clone())));
            state.lesson = Some(lesson);
            state.revision = 1;
        }
        let newest = AtomicU64::new(state.revision);
        Self { workshop, state: Mutex::new(state), newest, changed: watch::Sender::new(0) }
    }

    fn lock(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// What is shown now.
    pub fn now(&self) -> State {
        self.lock().clone()
    }

    /// Tells whenever something changed.
    pub fn watch(&self) -> watch::Receiver<u64> {
        self.changed.subscribe()
    }

    fn tell(&self) {
        self.changed.send_modify(|count| *count += 1);
    }

    /// Puts a lesson on the desk in the place of the one that lies there, which can be gone back to. Text that is typed into
    /// `typing` without a break is one change. Returns the number of the change.
    pub fn put(&self, lesson: OnDesk, typing: Option<&str>) -> u64 {
        let mut state = self.lock();
        let goes_on = typing.is_some() && state.typing.as_deref() == typing;
        state.typing = typing.map(str::to_owned);
        if state.lesson.as_ref() != Some(&lesson) {
            if state.lesson.as_ref().is_none_or(|before| before.name != lesson.name) {
                (state.theirs, state.gone) = (None, false);
            }
            let before = state.lesson.replace(lesson);
            if !goes_on {
                state.back.extend(before);
                let surplus = state.back.len().saturating_sub(BACK);
                state.back.drain(..surplus);
            }
            state.forward.clear();
            self.renew(&mut state);
        }
        state.revision
    }

    /// Gives the lesson on the desk a new number.
    fn renew(&self, state: &mut State) {
        state.revision += 1;
        self.newest.store(state.revision, Ordering::SeqCst);
    }

    /// Goes one text back, or forward.
    pub fn step(&self, back: bool) -> u64 {
        let mut state = self.lock();
        state.typing = None;
        let next = if back { state.back.pop() } else { state.forward.pop() };
        if let Some(lesson) = next {
            let before = state.lesson.replace(lesson);
            let aside = if back { &mut state.forward } else { &mut state.back };
            aside.extend(before);
            self.renew(&mut state);
        }
        state.revision
    }

    /// Changes what is remembered of the lesson without changing it.
    pub fn note(&self, note: impl FnOnce(&mut State)) {
        note(&mut self.lock());
        self.tell();
    }

    /// Lays out the lesson of a change, unless another one comes in between.
    pub fn work_out(&self, revision: u64) {
        let wanted = || self.newest.load(Ordering::SeqCst) == revision;
        let Some(lesson) = Some(self.now()).filter(|_| wanted()).and_then(|state| state.lesson) else { return };
        let name = self.file_name(&lesson);
        let Some(mut result) = self.workshop.lay(&name, &lesson.text, &wanted) else { return };
        // What is only held gives way to a request: nobody asked for it.
        let mut freed = None;
        if result.is_err() && !lesson.held.is_empty() {
            let text = super::pick::released(&lesson.text, &lesson.held);
            match self.workshop.lay(&name, &text, &wanted) {
                Some(Ok(mut laid)) => {
                    laid.notes.push(GAVE_WAY.to_owned());
                    freed = Some(OnDesk::new(lesson.name, text));
                    result = Ok(laid);
                }
                Some(Err(_)) => {}
                None => return,
            }
        }
        let mut state = self.lock();
        if state.revision != revision {
            return;
        }
        state.judged = revision;
        if freed.is_some() {
            state.lesson = freed;
        }
        match result {
            Ok(laid) => {
                state.laid = Some((Arc::new(laid), revision));
                state.found = Arc::default();
            }
            Err(found) => state.found = Arc::new(found),
        }
        drop(state);
        self.tell();
    }

    /// The file that a lesson is saved to, or would be.
    pub fn file_name(&self, lesson: &OnDesk) -> String {
        lesson.name.clone().unwrap_or_else(|| {
            let title = super::document::get(&lesson.text, "title");
            self.workshop.name_for(title.as_ref().and_then(|title| title.as_str()).unwrap_or_default())
        })
    }

    /// Looks whether somebody else has changed the file.
    pub fn look(&self) {
        let Some(OnDesk { name: Some(name), .. }) = self.now().lesson else { return };
        let text = self.workshop.open(&name).ok();
        let mut state = self.lock();
        let known = state.files.get(&name);
        let gone = known.is_some() && text.is_none();
        let theirs = text.filter(|text| known.is_some_and(|known| known != text));
        if state.theirs != theirs || state.gone != gone {
            (state.theirs, state.gone) = (theirs, gone);
            drop(state);
            self.tell();
        }
    }

    /// Saves the lesson as a file of this name. Files of others, and what others have written into this one, are replaced
    /// only where that was asked for; what is replaced can be gone back to.
    pub fn save(&self, name: &str, replace: bool) -> Result<(), Refused> {
        self.look();
        let state = self.now();
        let Some(lesson) = state.lesson.clone() else { return Ok(()) };
        let same = lesson.name.as_deref() == Some(name);
        if !replace && same && state.theirs.is_some() {
            return Err(Refused::There);
        }
        let over = (replace || same).then(|| self.workshop.open(name).ok()).flatten();
        self.workshop.save(name, &lesson.text, replace || same)?;
        let mut state = self.lock();
        let lost = over.filter(|text| *text != lesson.text && state.files.get(name) != Some(text));
        state.back.extend(lost.map(|text| OnDesk::new(Some(name.to_owned()), text)));
        state.files.insert(name.to_owned(), lesson.text);
        (state.theirs, state.gone) = (None, false);
        if let Some(lesson) = &mut state.lesson {
            lesson.name = Some(name.to_owned());
        }
        drop(state);
        self.tell();
        Ok(())
    }

    /// Makes the packets of the lesson on a thread of its own, unless some are being made: from now on the desk is busy.
    pub fn make(self: &Arc<Self>) {
        let mut state = self.lock();
        let Some(lesson) = state.lesson.clone().filter(|_| state.making.is_none()) else { return };
        let under_way = Arc::new(UnderWay::default());
        state.making = Some(Arc::clone(&under_way));
        state.made = None;
        drop(state);
        self.tell();
        let session = Arc::clone(self);
        std::thread::spawn(move || session.make_all(&lesson, &under_way));
    }

    fn make_all(&self, lesson: &OnDesk, under_way: &UnderWay) {
        let name = self.file_name(lesson);
        let made = self.workshop.make(&name, &lesson.text, under_way).map_err(|found| {
            let stopped = || vec![Problem::new("stopped; the packets are as they were before").unplaced()];
            Arc::new(if under_way.is_stopped() { stopped() } else { found })
        });
        let mut state = self.lock();
        state.making = None;
        state.made = Some((made, lesson.text.clone()));
        drop(state);
        self.tell();
    }

    /// Stops making packets.
    pub fn stop(&self) {
        if let Some(under_way) = &self.lock().making {
            under_way.stop();
        }
    }
}
