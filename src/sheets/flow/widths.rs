//! How wide the columns of a table are: none narrower than its widest word.

use crate::diag::Problem;
use crate::measure::Length;

/// How wide a column is, where that holds its heading, its longest word and its pictures; else it is as wide as those.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ColumnWidth {
    /// This.
    Fixed(Length),
    /// This many shares of what the fixed columns leave.
    Share(u32),
}

/// The width of every column, none under what it needs, together exactly `whole` where there are shares. Fails when what
/// they need is wider than that.
pub(super) fn widths(columns: &[ColumnWidth], needs: &[Length], whole: Length) -> Result<Vec<Length>, Problem> {
    let pin = |(column, need): (&ColumnWidth, &Length)| match column {
        ColumnWidth::Fixed(width) => Some((*width).max(*need)),
        ColumnWidth::Share(_) => None,
    };
    let shares = |k: usize| if let ColumnWidth::Share(count) = columns[k] { count } else { 0 };
    let mut pinned: Vec<Option<Length>> = columns.iter().zip(needs).map(pin).collect();
    // A share too narrow for its column is given what it needs, which leaves less for the others: until none is.
    loop {
        let rest = (whole - pinned.iter().flatten().copied().sum()).max(Length::ZERO);
        let open = |k: usize| pinned[k].is_none();
        let all: u32 = (0..columns.len()).filter(|k| open(*k)).map(shares).sum();
        let mut parts = rest.split(all.max(1));
        let shared: Vec<Option<Length>> =
            (0..columns.len()).map(|k| open(k).then(|| parts.by_ref().take(shares(k) as usize).sum())).collect();
        if let Some(narrow) = (0..columns.len()).find(|k| shared[*k].is_some_and(|width| width < needs[*k])) {
            pinned[narrow] = Some(needs[narrow]);
            continue;
        }
        let widths: Vec<Length> = (0..columns.len()).filter_map(|k| pinned[k].or(shared[k])).collect();
        let sum: Length = widths.iter().copied().sum();
        return if sum <= whole { Ok(widths) } else { Err(too_wide(sum, whole)) };
    }
}

fn too_wide(sum: Length, whole: Length) -> Problem {
    Problem::new(format!("a table needs {sum} for its longest words, and there is {whole}"))
        .hint("use larger paper, a smaller margin or smaller text in this sheet's layout")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(values: &[i64]) -> Vec<Length> {
        values.iter().map(|mm| Length::mm(*mm)).collect()
    }

    #[track_caller]
    fn case(columns: &[ColumnWidth], needs: &[i64], whole: i64, want: &[i64]) {
        assert_eq!(widths(columns, &mm(needs), Length::mm(whole)).unwrap(), mm(want));
    }

    #[test]
    fn shares_divide_what_is_left_and_hold_their_words() {
        use ColumnWidth::{Fixed, Share};
        case(&[Fixed(Length::mm(20)), Share(1), Share(3)], &[5, 5, 5], 100, &[20, 20, 60]);
        // A long word takes what it needs from the others.
        case(&[Fixed(Length::mm(20)), Share(1), Share(3)], &[5, 50, 5], 100, &[20, 50, 30]);
        case(&[Fixed(Length::mm(10)), Share(1)], &[30, 5], 100, &[30, 70]);
        let problem = widths(&[Share(1), Share(1)], &mm(&[60, 50]), Length::mm(100)).unwrap_err();
        assert_eq!(problem.message, "a table needs 110 mm for its longest words, and there is 100 mm");
    }
}
