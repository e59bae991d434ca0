//! What the tests share.

pub mod answers;
pub mod answers_es;
pub mod browser;
pub mod class;
pub mod desk;
pub mod explained;
pub mod html;
pub mod in_play;
pub mod matterhorn;
pub mod means;
pub mod otf;
pub mod packets;
pub mod pdf;
pub mod plain;
pub mod raster;
pub mod requests;
pub mod run;
pub mod samples;
pub mod sentences;
pub mod setup;
pub mod sheet_words;
pub mod source;
pub mod structure;
pub mod svg;
pub mod terminal;
pub mod trials;
