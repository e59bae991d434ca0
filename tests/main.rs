//! Every test of the whole program, in one binary: it links once, what several tests need is made once, and both cores are
//! kept busy to the end. One file a subject; what they share is in `support`.

#![allow(clippy::pedantic, clippy::unwrap_used, reason = "tests fail by unwrapping and read best plain")]

mod cells;
mod chooser;
mod class_groups;
mod class_sets;
mod cli;
mod completions;
mod default_lesson;
mod desk;
mod desk_browser;
mod desk_changes;
mod desk_guard;
mod display;
mod exit;
mod facts;
mod given_fonts;
mod groups;
mod habits;
mod layered;
mod layers;
mod lessons;
mod licences;
mod mangle;
mod mat;
mod matching;
mod messages;
mod output;
mod packing;
mod pdf_fonts;
mod pdf_reading;
mod pdf_samples;
mod pdf_ua;
mod picture;
mod pictures;
mod piles;
mod plan;
mod practice;
mod preview;
mod privacy;
mod programs;
mod readme;
mod regrouped;
mod repairs;
mod slips;
mod spanish;
mod start;
mod substitute;
mod support;
mod svg;
mod text_sheets;
mod truth;
mod usage;
mod warm_up;
mod words;
