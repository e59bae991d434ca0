//! The display, page by page: which model number, which forms of it, and which of them is new.
//!
//! In: the lesson. Out: the pages in their order. Plan and display both count and name steps from here.

use super::Lesson;
use crate::measure::Count;
use crate::number::Number;
use crate::spec::{DisplayForm, DisplayPages};

/// A page of the display.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DisplayPage {
    /// Which of the model numbers, from 1.
    pub turn: u32,
    /// The number.
    pub number: Number,
    /// What it shows, in the order of appearance.
    pub shows: Vec<DisplayForm>,
    /// Which page of its number it is, from 1, and how many there are; none where there is one page a number.
    pub step: Option<(u32, u32)>,
}

/// The pages of the display; none without model numbers.
pub fn pages(lesson: &Lesson) -> Vec<DisplayPage> {
    let numbers = (1..).zip(lesson.chosen.model.iter().copied());
    match lesson.spec.sheets.display.value {
        DisplayPages::Whole => {
            // The chart's digits are the numeral.
            let shows = |form: &DisplayForm| *form != DisplayForm::Numeral;
            let whole = |(turn, number)| {
                let shows = forms(lesson).into_iter().filter(shows).collect();
                DisplayPage { turn, number, shows, step: None }
            };
            numbers.map(whole).collect()
        }
        DisplayPages::Steps => {
            let forms = forms(lesson);
            let steps = forms.len().narrow();
            let stepped = |(turn, number)| {
                let page = |(step, k): (u32, usize)| DisplayPage {
                    turn,
                    number,
                    shows: forms[..k].to_vec(),
                    step: Some((step, steps)),
                };
                (1..).zip(1..=forms.len()).map(page).collect::<Vec<_>>()
            };
            numbers.flat_map(stepped).collect()
        }
    }
}

/// The forms that appear step by step, each with the number of its step; empty where the display is not in steps.
pub fn steps(lesson: &Lesson) -> Vec<(u32, DisplayForm)> {
    match lesson.spec.sheets.display.value {
        DisplayPages::Whole => Vec::new(),
        DisplayPages::Steps => (1..).zip(forms(lesson)).collect(),
    }
}

/// The forms of every model number: all numbers share one arrangement, so where one is too large for blocks none has them.
fn forms(lesson: &Lesson) -> Vec<DisplayForm> {
    let drawn = lesson.chosen.model.iter().all(|number| *number <= Number::MAX_BLOCKS);
    DisplayForm::ALL.into_iter().filter(|form| drawn || *form != DisplayForm::Blocks).collect()
}
