//! Placewright: a lesson file on place value becomes print-ready PDF packets.
//!
//! Data flows one way. [`spec`] reads and checks the text of a lesson file; [`lesson`] chooses numbers, forms and strips;
//! [`sheets`] lays them out as finished pages; [`pdf`] writes the pages, [`raster`] draws pictures
//! of them and [`gallery`] shows those on one page for a browser. Below them lie [`number`] (digits, forms, slips) and
//! [`measure`] (lengths, geometry, type), which know nothing of lessons; [`wording`] holds every word on paper; [`diag`] is how every stage says what is wrong.
//! [`cli`] stands on top and alone touches files and streams.

pub mod cli;
pub mod diag;
pub mod gallery;
pub mod lesson;
pub mod manifest;
pub mod measure;
pub mod number;
pub mod pdf;
pub mod raster;
pub mod rng;
pub mod sheets;
pub mod spec;
pub mod wording;
