//! What sheets are called.

use super::area::area;
use crate::spec::{PacketKind, SheetKind, Version};

area! {
    /// What sheets are called, on their pages, in bookmarks and wherever a text speaks of them.
    Titles;

    /// A sheet's title: the heading of its pages.
    fn sheet_title(kind: SheetKind) -> &'static str;

    /// The heading and the bookmark of the key's pages that all versions share: whether they answer quick checks, and
    /// practice, and tell slips.
    fn shared_key_title(checks: bool, practice: bool, slips: bool) -> &'static str;

    /// What pages with the quick checks from this number to that are called.
    fn checks_from(first: u32, last: u32) -> String;

    /// A sheet inside a sentence, without an article: "recording sheet" for 1, "recording sheets" for more.
    fn sheet_in_text(kind: SheetKind, count: u32) -> &'static str;

    /// A heading where what it heads goes on over a page.
    fn goes_on(title: &str) -> String;

    /// A page's name in bookmarks: the sheet's title, with its version where it has one.
    fn page_name(kind: SheetKind, version: Option<Version>) -> String;

    /// The title of a packet's document: the lesson's, and whose it is.
    fn packet_title(packet: PacketKind, lesson: &str) -> String;
}
