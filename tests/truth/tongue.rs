//! What is particular to reading a plan and a cover in a language: the words that mark its parts, its rules and its answers.

use super::packet::Envelope;
use super::read::fit;
use super::rules::{Check, Rule, Scene, judge};
use super::{cover, es_cover, es_plan, plan};
use crate::support::{answers, answers_es};
use placewright::spec::{Language, SheetKind};

/// How plans and covers of a language are read.
pub struct Tongue {
    /// What a phase's minutes look like.
    pub minutes: [&'static str; 2],
    /// The labels of questions and of what lies on the tables.
    pub ask: &'static str,
    pub table: &'static str,
    /// What stands before an answer, and before what a learner thinks.
    pub expect: &'static str,
    pub thinking: &'static str,
    /// Sentences after which a plan goes on to speak of the number in the first hole.
    pub speaks: &'static [&'static str],
    plan: &'static [Rule],
    cover: &'static [Rule],
    /// Works a question's answer out again.
    pub check: fn(&str, &str, u32, bool),
}

const ENGLISH: Tongue = Tongue {
    minutes: ["{} minutes", "{} minute"],
    ask: "Ask",
    table: "Table",
    expect: "Expect: ",
    thinking: "Thinking:",
    speaks: &[
        "Write {} where {}",
        "Write {} on the board.",
        "Point to {} again.",
        "Show step 1 of the display for {}: {}",
        "Find the row for {} on {}",
        "Everyone writes {} at {}",
        "Turn the paper over. Everyone writes {} at {}",
        "The learner writes {} at {}",
    ],
    plan: plan::RULES,
    cover: cover::RULES,
    check: answers::check,
};

const SPANISH: Tongue = Tongue {
    minutes: ["{} minutos", "{} minuto"],
    ask: "Pregunte",
    table: "Mesa",
    expect: "Respuesta: ",
    thinking: "Qu\u{e9} piensa:",
    speaks: &[
        "Escriba {} donde {}",
        "Escriba {} en el pizarr\u{f3}n.",
        "Se\u{f1}ale otra vez {}.",
        "Muestre el paso 1 de la l\u{e1}mina de {}: {}",
        "Que busquen la fila de {} en {}",
        "Que el estudiante busque la fila de {} en {}",
    ],
    plan: es_plan::RULES,
    cover: es_cover::RULES,
    check: answers_es::check,
};

impl Tongue {
    /// The language that a packet is in.
    pub fn of(held: &Envelope) -> &'static Self {
        match held.lesson.spec.language.value {
            Language::En => &ENGLISH,
            Language::Es => &SPANISH,
        }
    }

    /// Judges a statement of a plan or a cover; `None` where no rule reads it.
    pub fn judge(&self, sheet: SheetKind, held: &Envelope, scene: &Scene, text: &str) -> Option<Check> {
        judge(if sheet == SheetKind::Cover { self.cover } else { self.plan }, held, scene, text)
    }

    /// The number that a plan goes on to speak of.
    pub fn spoken_of(&self, text: &str) -> Option<u32> {
        self.speaks.iter().find_map(|start| fit(start, text)).map(|holes| super::rules::count(holes[0]))
    }
}
