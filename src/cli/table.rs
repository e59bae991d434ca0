//! The closing table: which file, how much paper, for whom.

use std::fmt::Write;

use super::term::bold;
use crate::sheets::packets::Packet;

/// A line of the table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// The file as the user would open it.
    pub file: String,
    /// How many pages, if that means something.
    pub pages: Option<usize>,
    /// How many sheets of paper it takes to print.
    pub sheets: Option<usize>,
    /// Who gets it.
    pub reader: &'static str,
}

impl Row {
    /// The line of a packet, under this name.
    pub fn of(packet: &Packet<'_>, file: String) -> Self {
        let reader = packet.kind.about().reader;
        Self { file, pages: Some(packet.len()), sheets: Some(packet.sheets()), reader }
    }
}

/// Draws the table, its head bold where the stream is coloured.
pub fn draw(rows: &[Row], coloured: bool) -> String {
    let count = |count: Option<usize>| count.map_or_else(String::new, |count| count.to_string());
    let width = |head: &str, of: &dyn Fn(&Row) -> usize| rows.iter().map(of).max().unwrap_or(0).max(head.len());
    let file = width("file", &|row| row.file.chars().count());
    let pages = width("pages", &|row| count(row.pages).len());
    let sheets = width("sheets of paper", &|row| count(row.sheets).len());
    let head = format!("{:file$}  {:>pages$}  {:>sheets$}  {}", "file", "pages", "sheets of paper", "for");
    let mut text = format!("{}\n", bold(&head, coloured));
    for row in rows {
        let (n, m) = (count(row.pages), count(row.sheets));
        let _ = writeln!(text, "{:file$}  {n:>pages$}  {m:>sheets$}  {}", row.file, row.reader);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_line_up() {
        let row = |file: &str, pages, reader| Row { file: file.to_owned(), pages, sheets: pages, reader };
        let rows = [row("out/tram/teacher.pdf", Some(12), "teacher"), row("out/é.json", None, "programs")];
        let drawn = draw(&rows, false);
        assert_eq!(
            drawn,
            "file                  pages  sheets of paper  for\n\
             out/tram/teacher.pdf     12               12  teacher\n\
             out/é.json                                    programs\n"
        );
        assert!(draw(&rows, true).starts_with("\u{1b}[1mfile"));
    }
}
