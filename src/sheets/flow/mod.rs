//! Text and tables that fill pages: the one way for every sheet that is read rather than cut or filled in.
//!
//! A sheet says what comes next; the flow finds the page for it. [`pages`] begins pages and keeps a heading with what
//! follows it, [`column`] sets paragraphs, [`table`] sets tables whose columns hold their widest word, [`list`] sets lists
//! with dots or boxes to tick, [`framed`] sets what must not be missed and what is copied letter by letter. [`even`] keeps a last
//! page from being nearly empty.

pub mod column;
pub mod even;
pub mod framed;
pub mod list;
pub mod pages;
pub mod table;
pub mod titled;
pub mod widths;
