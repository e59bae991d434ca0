//! What is said of trading in Spanish: "canjear" (common practice, no source).

use super::Spanish;
use super::phrases::listed;
use super::steps::marks;
use crate::number::{Content, Counted, Form, Names, Number, Place, Slip, Style, Task, blocks_of};
use crate::wording::digits::{first_trade, held, over, tens_counted, trades};
use crate::wording::{Phrases, Tools};

impl Spanish {
    /// The trades that lead from a number's digits there: "1 centena por 10 decenas".
    pub(super) fn trades(&self, number: Number, counted: &Counted) -> String {
        let trade = |[gives, takes]: [(u32, Place); 2]| {
            format!("{} por {}", self.units(gives.0, gives.1), self.units(takes.0, takes.1))
        };
        let trades: Vec<String> = trades(number, counted).into_iter().map(trade).collect();
        listed(&trades)
    }

    /// A traded form of a number as a sentence says it, with the commas that a strip does not have.
    pub(super) fn regrouped_said(&self, form: Form, number: Number, style: &Style) -> Option<String> {
        let counted = Task::forms(Form::Numeral, form).counted(number, style)?;
        Some(listed(&held(self, &counted)))
    }

    /// The same in a drawing: "se tacha 1 cuadrado y se dibujan 10 rayas".
    pub(super) fn drawn_trades(number: Number, counted: &Counted) -> String {
        let trade = |[gives, takes]: [(u32, Place); 2]| {
            let crossed = if gives.0 == 1 { "se tacha" } else { "se tachan" };
            format!("{crossed} {} y se dibujan {}", drawn(gives.0, gives.1), drawn(takes.0, takes.1))
        };
        let trades: Vec<String> = trades(number, counted).into_iter().map(trade).collect();
        trades.join(", después ")
    }

    /// Several pieces of a place traded one after another, without blocks.
    pub(super) fn several_trades(&self, number: Number, counted: &Counted, numeral: &str) -> String {
        let told = |[gives, takes]: [(u32, Place); 2]| {
            format!(
                "{} de {numeral}. Por cada pieza vienen 10 {}: {}",
                self.units(gives.0, gives.1),
                self.place(takes.1),
                tens_counted(gives.0)
            )
        };
        let told: Vec<String> = trades(number, counted).into_iter().map(told).collect();
        let now = listed(&held(self, counted));
        format!(
            "Se canjean mentalmente varias piezas: {}. Ahora hay {now}. Sigue siendo {numeral}.",
            told.join(". Después, ")
        )
    }

    /// That a trade need not be the one that is shown, with another one, and how to tell; `instead` where it is only written
    /// instead of matched.
    pub(super) fn any_trade(&self, numeral: &str, counted: &Counted, instead: bool) -> String {
        let also = if instead { "Si se escribe en lugar de emparejar, acepte" } else { "Acepte" };
        format!(
            "{also} otros canjes: {numeral} es igual a {}. Para comprobarlo, sume lo que valen las partes.",
            listed(&held(self, counted))
        )
    }

    /// The trades that are asked for: "canjeamos 1 centena por decenas".
    pub(super) fn trade_asked(&self, number: Number, task: Task, style: &Style) -> String {
        format!("canjeamos {}", self.trades_asked(number, task, style))
    }

    fn trades_asked(&self, number: Number, task: Task, style: &Style) -> String {
        let counted = task.counted(number, style).unwrap_or_default();
        let trade =
            |[gives, takes]: [(u32, Place); 2]| format!("{} por {}", self.units(gives.0, gives.1), self.place(takes.1));
        let trades: Vec<String> = trades(number, &counted).into_iter().map(trade).collect();
        listed(&trades)
    }

    /// How the greatest trade is made, and what helps against a slip in it.
    pub(super) fn trade_step(&self, slip: Slip, number: Number, task: Task, tools: Tools, style: &Style) -> String {
        let asked = self.capital(&self.trade_asked(number, task, style));
        let Some([(count, gives), (come, takes)]) = first_trade(number, task, style) else {
            return String::new();
        };
        match (self.pieces(count, gives), self.pieces(come, takes)) {
            (Some(goes), Some(comes)) if tools.blocks => match slip {
                Slip::NotTakenAway => {
                    let back = if count == 1 { "vuelve" } else { "vuelven" };
                    format!("{asked}: {goes} {back} al montón antes de que salgan {comes}.")
                }
                Slip::OneForOne => {
                    let one = self.piece(gives, 1).unwrap_or_default();
                    let ten = self.piece(takes, 10).unwrap_or_default();
                    format!("Ponemos diez {ten} junto a 1 {one} para ver que valen lo mismo. {asked}.")
                }
                _ => {
                    // Cubes are masculine, all larger pieces that come are not.
                    let (the, all) = if takes == Place::Ones { ("los", "todos los") } else { ("las", "todas las") };
                    format!("{asked}. Contamos en voz alta {the} {comes} según salen, y después {all} de la columna.")
                }
            },
            (Some(_), Some(_)) if number <= Number::MAX_BLOCKS => {
                let (crossed, drawn) = (drawn(count, gives), drawn(come, takes));
                format!("{asked}: tachamos {crossed}, y después dibujamos {drawn} contando en voz alta.")
            }
            _ => {
                let (gives, takes) = (self.place(gives), self.place(takes));
                format!("{asked}: quitamos {count} de las {gives} y sumamos {come} a las {takes}.")
            }
        }
    }

    /// What is built where counts go beyond nine, and how they are traded up.
    pub(super) fn trade_up(&self, number: Number, task: Task, tools: Tools, style: &Style) -> String {
        let counted = task.counted(number, style).unwrap_or_default();
        let pieces = blocks_of(&counted);
        if tools.blocks {
            let place = if tools.mat { " en el tapete" } else { "" };
            let pieces = self.content(&Content::Blocks(pieces));
            format!("Armamos {pieces}{place}. Canjeamos cada diez piezas de un tipo por una del tipo siguiente.")
        } else if number <= Number::MAX_BLOCKS {
            format!(
                "Dibujamos {}. Encerramos de diez en diez las marcas de un tipo y contamos cada grupo como una más del tipo siguiente.",
                marks(pieces)
            )
        } else {
            let place = if tools.mat { "en el tapete" } else { "en una tabla de papel" };
            format!(
                "Mostramos {} {place}, cada cantidad en su columna. Canjeamos cada diez.",
                listed(&held(self, &counted))
            )
        }
    }

    /// What to ask about a trade that went wrong.
    pub(super) fn trade_question(&self, slip: Slip, number: Number, task: Task, style: &Style) -> String {
        let Some([(count, gives), (_, takes)]) = first_trade(number, task, style) else {
            return String::new();
        };
        let (numeral, takes) = (style.numeral(number), self.place(takes));
        let asked = self.trades_asked(number, task, style);
        let gone = self.units(count, gives);
        match slip {
            Slip::NotTakenAway => {
                format!("Tenemos {numeral} y canjeamos {asked}. ¿Cuántas {} quedan?", self.place(gives))
            }
            Slip::OneTooFew => {
                let there = if count == 1 {
                    format!("¿Sigue ahí la {}?", self.unit(gives, 1))
                } else {
                    format!("¿Siguen ahí las {}?", self.place(gives))
                };
                format!("Tenemos {numeral} y canjeamos {asked}. ¿Cuántas {takes} recibimos por {gone}? {there}")
            }
            _ => format!("Tenemos {numeral} y canjeamos {asked}. ¿Cuántas {takes} recibimos por {gone}?"),
        }
    }

    /// The answer to expect.
    pub(super) fn trade_answer(&self, slip: Slip, number: Number, task: Task, style: &Style) -> String {
        let Some([(count, gives), (come, _)]) = first_trade(number, task, style) else {
            return String::new();
        };
        let counted = task.counted(number, style).unwrap_or_default();
        let now = listed(&held(self, &counted));
        let come = if come == 10 { "Diez".to_owned() } else { come.to_string() };
        match slip {
            Slip::NotTakenAway => {
                let left = counted[gives.index()];
                let left = if left == 0 { "Ninguna".to_owned() } else { left.to_string() };
                format!("{left}. Ahora tenemos {now}.")
            }
            Slip::OneForOne => format!("{come}. Ahora tenemos {now}."),
            Slip::OneTooFew => {
                let traded = if count == 1 { "se canjeó" } else { "se canjearon" };
                format!("{come}. No: {traded}. Ahora tenemos {now}.")
            }
            _ => {
                let over = over(&counted);
                let ups = over.iter().enumerate().filter_map(|(k, place)| {
                    let next = Place::ALL.get(place.index() + 1)?;
                    let get = if k == 0 { " recibimos" } else { "," };
                    Some(format!("por cada diez {}{get} 1 {}", self.place(*place), self.unit(*next, 1)))
                });
                let ups = self.capital(&listed(&ups.collect::<Vec<_>>()));
                let kinds: Vec<String> = over.iter().map(|place| format!("de {}", self.place(*place))).collect();
                format!("{}. {ups}. Así queda {}.", self.capital(&listed(&kinds)), style.numeral(number))
            }
        }
    }
}

/// So many marks of a place that has one.
fn drawn(count: u32, place: Place) -> String {
    let mut counts = [0; 4];
    counts[3 - place.index().min(3)] = count;
    marks(counts)
}
