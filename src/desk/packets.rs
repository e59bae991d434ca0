//! The packets: how far their making is, and what was made.

use maud::{Markup, html};

use super::form::sentence;
use super::session::State;
use super::view::count;
use super::workshop::{Made, UnderWay};
use crate::sheets::files::PACKETS;
use crate::spec::limits::grouped;

/// The packets that are being made, or were; nothing before.
pub fn packets(state: &State) -> Markup {
    let Some(lesson) = state.lesson.as_ref().filter(|_| state.making.is_some() || state.made.is_some()) else {
        return html! {};
    };
    html! {
        section.packets aria-labelledby="packets-are" {
            h2 id="packets-are" { "The files to print" }
            @if let Some(under_way) = &state.making { (progress(under_way)) }
            @match &state.made {
                Some((Ok(made), text)) => (self::made(made, *text == lesson.text)),
                Some((Err(found), _)) => {
                    div.trouble role="alert" {
                        @for diagnostic in found.iter() {
                            p {
                                (sentence(&diagnostic.problem.message))
                                @if let Some(hint) = &diagnostic.problem.hint { " " (sentence(hint)) }
                            }
                        }
                    }
                }
                None => {}
            }
        }
    }
}

/// How far the making is. What changes from moment to moment is seen; only what is begun is also said aloud.
fn progress(under_way: &UnderWay) -> Markup {
    let reached = under_way.reached();
    let stopping = under_way.is_stopped();
    html! {
        div.progress {
            p role="status" {
                @if stopping { "Stopping \u{2026}" }
                @else if let Some(file) = reached.file { (file) }
                @else { "Choosing numbers and laying out pages \u{2026}" }
            }
            @if reached.pages > 0 {
                progress max=(reached.pages) value=(reached.page) aria-labelledby="packets-are" {}
                p.help {
                    "Page " (grouped(reached.page as u64)) " of " (grouped(reached.pages as u64)) ", "
                    (size(reached.bytes)) " written"
                }
            } @else {
                progress aria-labelledby="packets-are" {}
            }
            button type="button" data-go="/stop" disabled[stopping] { "Stop" }
        }
    }
}

fn made(made: &Made, fresh: bool) -> Markup {
    html! {
        @if !fresh { p.note { "The lesson was changed after these files were made." } }
        @if let Some(note) = &made.note { p.note { (sentence(note)) } }
        p { "Made " (count(made.files.len(), "file")) ", in " code { (made.folder) } ". Open a file and print it from there:
            choose " strong { "actual size" } " or " strong { "100 %" } ", never \u{201c}fit\u{201d}, and hold a ruler to a check line
            of the first page." }
        ul.made {
            @for (file, bytes) in &made.files {
                @let about = PACKETS.iter().find(|about| about.file == file);
                li {
                    @if let Some(about) = about {
                        strong { (about.title) } " " span.given { "for the " (about.reader) ", " (size(*bytes)) }
                        span.acts {
                            a.button href={ "/file/" (file) } target="_blank" rel="noopener" {
                                "Open" span.unseen { " " (about.title) }
                            }
                            a.button href={ "/save/" (file) } download=(file) {
                                "Download" span.unseen { " " (about.title) }
                            }
                        }
                        p.help { (about.printing) }
                    }
                }
            }
        }
        p.acts { a.button href="/all.zip" download { "Download all of them as one ZIP file" } }
    }
}

/// So many bytes, as people read it.
fn size(bytes: u64) -> String {
    match bytes {
        0..1_000_000 => format!("{} KB", bytes.div_ceil(1_000)),
        _ => format!("{}.{} MB", bytes / 1_000_000, bytes % 1_000_000 / 100_000),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_read_as_people_write_them() {
        assert_eq!((size(0), size(1), size(12_345)), ("0 KB".to_owned(), "1 KB".to_owned(), "13 KB".to_owned()));
        assert_eq!(size(12_345_678), "12.3 MB");
    }
}
