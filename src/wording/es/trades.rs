//! What is said of trading in Spanish: "canjear" (common practice, no source).

use super::Spanish;
use super::phrases::listed;
use crate::number::{Counted, Form, Names, Number, Place, Slip, Style, Task, traded};
use crate::wording::Phrases;

impl Spanish {
    /// How many of each place, without those that hold nothing: "1 centena 16 decenas 4 unidades".
    pub(super) fn counts(&self, counted: &Counted) -> String {
        let held = Place::ALL.into_iter().zip(counted).rev().filter(|(_, count)| **count > 0);
        held.map(|(place, count)| self.units(*count, place)).collect::<Vec<_>>().join(" ")
    }

    /// The trades that lead from a number's digits there: "1 centena por 10 decenas".
    pub(super) fn trades(&self, number: Number, counted: &Counted) -> String {
        let gone = traded(number, counted);
        let trades = (1..gone.len()).rev().filter(|at| gone[*at] > 0);
        let trades = trades.map(|at| {
            let (gives, takes) = (Place::ALL[at], Place::ALL[at - 1]);
            format!("{} por {}", self.units(gone[at], gives), self.units(gone[at] * 10, takes))
        });
        listed(&trades.collect::<Vec<_>>())
    }

    /// What to ask about a trade that went wrong.
    pub(super) fn trade_question(&self, slip: Slip, number: Number, task: Task, style: &Style) -> String {
        let counted = counted(number, task, style);
        let (gives, takes) = greatest(number, &counted);
        let one = self.unit(gives, 1);
        match slip {
            Slip::NotTakenAway => format!(
                "Tenemos {} y canjeamos {}. ¿Cuántas {} quedan?",
                style.numeral(number),
                self.trades(number, &counted),
                self.place(gives)
            ),
            Slip::OneTooFew => {
                format!("¿Cuántas {} recibimos por 1 {one}? ¿Sigue ahí esa {one}?", self.place(takes))
            }
            _ => format!("¿Cuántas {} recibimos por 1 {one}?", self.place(takes)),
        }
    }

    /// The answer to expect.
    pub(super) fn trade_answer(&self, slip: Slip, number: Number, task: Task, style: &Style) -> String {
        let counted = counted(number, task, style);
        let (gives, _) = greatest(number, &counted);
        let now = self.counts(&counted);
        match slip {
            Slip::NotTakenAway => {
                let left = counted[gives.index()];
                let left = if left == 0 { "Ninguna".to_owned() } else { left.to_string() };
                format!("{left}. Ahora tenemos {now}.")
            }
            Slip::OneForOne => format!("Diez. Ahora tenemos {now}."),
            Slip::OneTooFew => format!("Diez. No, se canjeó. Ahora tenemos {now}."),
            _ => {
                let full = Place::ALL.into_iter().filter(|place| counted[place.index()] > 9).collect::<Vec<_>>();
                let trades = full.iter().filter_map(|place| {
                    let next = Place::ALL.get(place.index() + 1)?;
                    Some(format!("cada diez {} por 1 {}", self.place(*place), self.unit(*next, 1)))
                });
                let trades = listed(&trades.collect::<Vec<_>>());
                format!("{}: {trades}. Así queda {}.", self.capital(&self.columns(&full)), style.numeral(number))
            }
        }
    }
}

/// How many of each place a task shows or asks for, from the ones up.
fn counted(number: Number, task: Task, style: &Style) -> Counted {
    let pictured =
        matches!(task, Task::Forms { shown: Form::Untraded, .. } | Task::Forms { asked: Form::Untraded, .. });
    let counted = if pictured { style.trading.pictured(number) } else { style.trading.told(number) };
    counted.unwrap_or_default()
}

/// The greatest place that gives, and the one that takes.
fn greatest(number: Number, counted: &Counted) -> (Place, Place) {
    let gone = traded(number, counted);
    let at = (1..gone.len()).rev().find(|at| gone[*at] > 0).unwrap_or(1);
    (Place::ALL[at], Place::ALL[at - 1])
}
