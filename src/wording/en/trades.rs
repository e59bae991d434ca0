//! What is said of trading in English.

use super::English;
use super::phrases::listed;
use super::steps::marks;
use crate::number::{Content, Counted, Names, Number, Place, Slip, Style, Task, blocks_of};
use crate::wording::digits::{counts, first_trade, over, tens_counted, trades};
use crate::wording::{Phrases, Tools};

impl English {
    /// The trades that lead from a number's digits there: "1 hundred for 10 tens".
    pub(super) fn trades(&self, number: Number, counted: &Counted) -> String {
        let trade = |[gives, takes]: [(u32, Place); 2]| {
            format!("{} for {}", self.units(gives.0, gives.1), self.units(takes.0, takes.1))
        };
        let trades: Vec<String> = trades(number, counted).into_iter().map(trade).collect();
        listed(&trades)
    }

    /// The same in a drawing: "cross out 1 square and draw 10 lines".
    pub(super) fn drawn_trades(number: Number, counted: &Counted) -> String {
        let trade = |[gives, takes]: [(u32, Place); 2]| {
            format!("cross out {} and draw {}", drawn(gives.0, gives.1), drawn(takes.0, takes.1))
        };
        let trades: Vec<String> = trades(number, counted).into_iter().map(trade).collect();
        trades.join(", then ")
    }

    /// Several pieces of a place traded one after another, without blocks.
    pub(super) fn several_trades(&self, number: Number, counted: &Counted, numeral: &str) -> String {
        let told = |[gives, takes]: [(u32, Place); 2]| {
            format!(
                "trade {} of {numeral}. For each one 10 {} come: {}",
                self.units(gives.0, gives.1),
                self.place(takes.1),
                tens_counted(gives.0)
            )
        };
        let told: Vec<String> = trades(number, counted).into_iter().map(told).collect();
        let now = counts(self, counted);
        format!("Several pieces, in the head: {}. Now we have {now}. It is still {numeral}.", told.join(". Then "))
    }

    /// That a trade need not be the one that is shown, with another one, and how to tell; `instead` where it is only written
    /// instead of matched.
    pub(super) fn any_trade(&self, numeral: &str, counted: &Counted, instead: bool) -> String {
        let others = if instead { "Written instead of matched, other trades" } else { "Other trades" };
        format!(
            "{others} are right too: {numeral} is also {}. To check one, add up what its parts are worth.",
            counts(self, counted)
        )
    }

    /// The trades that are asked for: "trade 1 hundred for tens".
    pub(super) fn trade_asked(&self, number: Number, task: Task, style: &Style) -> String {
        let counted = task.counted(number, style).unwrap_or_default();
        let trade =
            |[gives, takes]: [(u32, Place); 2]| format!("{} for {}", self.units(gives.0, gives.1), self.place(takes.1));
        let trades: Vec<String> = trades(number, &counted).into_iter().map(trade).collect();
        format!("trade {}", listed(&trades))
    }

    /// How the greatest trade is made, and what helps against a slip in it.
    pub(super) fn trade_step(&self, slip: Slip, number: Number, task: Task, tools: Tools, style: &Style) -> String {
        let asked = self.capital(&self.trade_asked(number, task, style));
        let Some([(count, gives), (come, takes)]) = first_trade(number, task, style) else {
            return String::new();
        };
        let piece = |count: u32, place: Place| self.pieces(count, place);
        match (piece(count, gives), piece(come, takes)) {
            (Some(goes), Some(comes)) if tools.blocks => match slip {
                Slip::NotTakenAway => {
                    let goes = if count == 1 { format!("{goes} goes") } else { format!("{goes} go") };
                    format!("{asked}: {goes} back to the pile before {comes} come out.")
                }
                Slip::OneForOne => {
                    let one = self.piece(gives, 1).unwrap_or_default();
                    let ten = self.piece(takes, 10).unwrap_or_default();
                    format!("Lay ten {ten} along one {one} to see that they are as much. {asked}.")
                }
                _ => format!("{asked}. Count the {comes} aloud as they come out, then count the whole column."),
            },
            (Some(_), Some(_)) if number <= Number::MAX_BLOCKS => {
                let (crossed, drawn) = (drawn(count, gives), drawn(come, takes));
                format!("{asked}: cross out {crossed}, then draw {drawn} and count them aloud.")
            }
            _ => format!(
                "{asked}: take {count} from the {} and add {come} to the {}.",
                self.place(gives),
                self.place(takes)
            ),
        }
    }

    /// What is built where counts go beyond nine, and how they are traded up.
    pub(super) fn trade_up(&self, number: Number, task: Task, tools: Tools, style: &Style) -> String {
        let counted = task.counted(number, style).unwrap_or_default();
        let pieces = blocks_of(&counted);
        if tools.blocks {
            let place = if tools.mat { " on the mat" } else { "" };
            let pieces = self.content(&Content::Blocks(pieces));
            format!("Build {pieces}{place}. Trade every ten of a kind for one of the next larger kind.")
        } else if number <= Number::MAX_BLOCKS {
            format!("Draw {}. Circle every ten of a kind, and count them as one more of the next.", marks(pieces))
        } else {
            let place = if tools.mat { "on the mat" } else { "in a chart on paper" };
            format!("Show {} {place}, each count in its own column. Trade every ten up.", counts(self, &counted))
        }
    }

    /// What to ask about a trade that went wrong.
    pub(super) fn trade_question(&self, slip: Slip, number: Number, task: Task, style: &Style) -> String {
        let Some([(count, gives), (_, takes)]) = first_trade(number, task, style) else {
            return String::new();
        };
        let (numeral, takes) = (style.numeral(number), self.place(takes));
        let asked = self.trade_asked(number, task, style);
        let gone = self.units(count, gives);
        match slip {
            Slip::NotTakenAway => {
                format!("We have {numeral} and {asked}. How many {} are left?", self.place(gives))
            }
            Slip::OneTooFew => {
                let there = if count == 1 { "Is it still there?" } else { "Are they still there?" };
                format!("We have {numeral} and {asked}. How many {takes} come for {gone}? {there}")
            }
            _ => format!("We have {numeral} and {asked}. How many {takes} come for {gone}?"),
        }
    }

    /// The answer to expect.
    pub(super) fn trade_answer(&self, slip: Slip, number: Number, task: Task, style: &Style) -> String {
        let Some([(count, gives), (come, _)]) = first_trade(number, task, style) else {
            return String::new();
        };
        let counted = task.counted(number, style).unwrap_or_default();
        let now = counts(self, &counted);
        let come = if come == 10 { "Ten".to_owned() } else { come.to_string() };
        match slip {
            Slip::NotTakenAway => {
                let left = counted[gives.index()];
                let left = if left == 0 { "None".to_owned() } else { left.to_string() };
                format!("{left}. Now we have {now}.")
            }
            Slip::OneForOne => format!("{come}. Now we have {now}."),
            Slip::OneTooFew => {
                let traded = if count == 1 { "it was" } else { "they were" };
                format!("{come}. No, {traded} traded. Now we have {now}.")
            }
            _ => {
                let over = over(&counted);
                let ups = over.iter().filter_map(|place| {
                    let next = Place::ALL.get(place.index() + 1)?;
                    Some(format!("ten {} for 1 {}", self.place(*place), self.unit(*next, 1)))
                });
                let ups = listed(&ups.collect::<Vec<_>>());
                let kinds: Vec<&str> = over.iter().map(|place| self.place(*place)).collect();
                format!("{}: {ups}. Then it is {}.", self.capital(&self.list(&kinds)), style.numeral(number))
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn trades_are_told_in_order() {
        let number = Number::new(264).expect("in range");
        assert_eq!(English.trades(number, &[14, 15, 1, 0, 0, 0]), "1 hundred for 10 tens and 1 ten for 10 ones");
        assert_eq!(counts(&English, &[4, 26, 0, 0, 0, 0]), "26 tens 4 ones");
    }
}
