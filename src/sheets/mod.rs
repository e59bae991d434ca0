//! Pages laid out for a lesson.
//!
//! In: a [`Lesson`](crate::lesson::Lesson), layouts and fonts. Out: packets of finished pages.

pub mod page;
