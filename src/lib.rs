//! Placewright: a lesson file on place value becomes print-ready PDF packets.
//!
//! Data flows one way. [`spec`] reads and checks the text of a lesson file; [`lesson`] chooses numbers, forms and strips;
//! [`sheets`] lays them out as finished pages; [`pdf`] writes the pages, [`svg`] draws pictures
//! of them, `gallery` shows those on one page for a browser, and `figure` draws single numbers for slides. Below them lie [`number`] (digits, forms, slips) and
//! [`measure`] (lengths, geometry, type), which know nothing of lessons; [`wording`] holds every word on paper; [`diag`] is how every stage says what is wrong.
//! [`cli`] stands on top and alone touches files and streams.

pub mod cli;
pub mod desk;
pub mod diag;
mod figure;
mod gallery;
pub mod lesson;
pub mod manifest;
pub mod measure;
pub mod number;
pub mod pdf;
#[cfg(feature = "png")]
pub mod raster;
pub mod rng;
pub mod sheets;
pub mod spec;
pub mod svg;
pub mod wording;
