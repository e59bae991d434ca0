//! One file or folder a sheet: each turns the lesson into the masters of its pages.

pub mod blocks;
pub mod board;
pub mod cover;
pub mod described;
pub mod display;
pub mod exit;
pub mod family;
pub mod key;
pub mod layered;
pub mod mat;
pub mod pieces;
pub mod plan;
pub mod practice;
pub mod record;
pub mod small_groups;
pub mod strips;
pub mod supply;
pub mod tally;
pub mod ticket;
pub mod warm_up;
pub mod word_bank;
