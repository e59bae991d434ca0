//! How far a run over many lessons is, and about how long the rest will take.

use std::time::Duration;

use crate::measure::Count;
use crate::spec::limits::grouped;

/// One line: lessons done of all, and the time left at the pace so far.
pub fn line(done: usize, all: usize, spent: Duration) -> String {
    let count = format!("{} of {} lessons", grouped(done as u64), grouped(all as u64));
    let left = all.saturating_sub(done).narrow();
    let Some(each) = u32::try_from(done).ok().and_then(|done| spent.checked_div(done)) else { return count };
    format!("{count}, about {} left", rough(each.saturating_mul(left)))
}

/// A time as people say it: no finer than it can be known.
fn rough(time: Duration) -> String {
    match time.as_secs() {
        seconds @ 0..60 => format!("{} s", seconds.max(1)),
        seconds @ 60..5_400 => format!("{} min", (seconds + 30) / 60),
        seconds => format!("{} h", (seconds + 1_800) / 3_600),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_time_left_follows_the_pace_so_far() {
        for (done, all, spent, want) in [
            (0, 1_000, 0, "0 of 1,000 lessons"),
            (250, 1_000, 10, "250 of 1,000 lessons, about 30 s left"),
            (10, 1_000, 2, "10 of 1,000 lessons, about 3 min left"),
            (1, 1_000, 20, "1 of 1,000 lessons, about 6 h left"),
            (1_000, 1_000, 40, "1,000 of 1,000 lessons, about 1 s left"),
        ] {
            assert_eq!(line(done, all, Duration::from_secs(spent)), want);
        }
    }
}
