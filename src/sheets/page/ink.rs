//! Greys, colours and pens.
//!
//! Grey comes first: every shape, border and pattern is told apart without colour. With `ink = "colour"` each place gets a
//! fill from the "light" scheme of Paul Tol, *Colour Schemes* (SRON technical note EPS/TN/09-002), which is
//! made for areas under black lines and letters and stays distinct under the common kinds of colour blindness; beside it
//! each place has a pattern of its own, so that a grey copy loses nothing. Pens keep to the least widths that survive a
//! copy of a copy.

use crate::measure::Length;
use crate::number::Place;
use crate::sheets::page::{Paint, Stroke};
use crate::spec::Ink;

/// Text and outlines.
pub const TEXT: Paint = Paint::BLACK;
/// Text that steps back: marks, footers. 7.0 : 1 on white (WCAG 2.2 asks for 4.5 : 1).
pub const QUIET: Paint = Paint::Grey(89);
/// Fine lines that guide and carry no meaning alone. 3.7 : 1 on white.
pub const GUIDE: Paint = Paint::Grey(134);
/// The ground of a header cell; black text on it has 18 : 1.
pub const SHADE: Paint = Paint::Grey(238);

/// The least size of any text.
pub const SMALLEST: Length = Length::pt(9);

/// The edge of a box, a piece or a picture: 0.75 pt.
pub const OUTLINE: Stroke = Stroke { width: Length::pt100(75), paint: Paint::BLACK, dash: None };
/// A fine line: 0.5 pt.
pub const FINE: Stroke = Stroke { width: Length::pt100(50), paint: GUIDE, dash: None };
/// A heavy line that divides a page: 1.5 pt.
pub const HEAVY: Stroke = Stroke { width: Length::pt100(150), paint: Paint::BLACK, dash: None };
/// A dashed cut line: 0.75 pt, 6 pt on and 4 pt off.
pub const CUT_DASHED: Stroke =
    Stroke { width: Length::pt100(75), paint: Paint::BLACK, dash: Some((Length::pt(6), Length::pt(4))) };
/// A solid cut line: 0.75 pt.
pub const CUT_SOLID: Stroke = Stroke { width: Length::pt100(75), paint: Paint::BLACK, dash: None };

/// What fills a unit cell of a place, beside its colour, so that grey copies tell places apart. Marks are small, lie inside
/// the cell and never divide it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Pattern {
    /// Nothing.
    Plain,
    /// A dot in the middle.
    Dot,
    /// A ring in the middle.
    Ring,
    /// A short level bar.
    Bar,
    /// A short upright bar.
    Post,
    /// A small square.
    Square,
}

/// How the parts of a place are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Tone {
    /// The inside.
    pub fill: Paint,
    /// The mark in it; `None` with grey ink, where shapes and headings tell places apart.
    pub pattern: Pattern,
}

/// The look of a place in this ink.
pub const fn tone(ink: Ink, place: Place) -> Tone {
    match ink {
        Ink::Grey => Tone { fill: Paint::WHITE, pattern: Pattern::Plain },
        Ink::Colour => match place {
            // Light cyan, light yellow, mint, pink, light blue, orange.
            Place::Ones => Tone { fill: Paint::Rgb(0x99, 0xDD, 0xFF), pattern: Pattern::Dot },
            Place::Tens => Tone { fill: Paint::Rgb(0xEE, 0xDD, 0x88), pattern: Pattern::Post },
            Place::Hundreds => Tone { fill: Paint::Rgb(0x44, 0xBB, 0x99), pattern: Pattern::Plain },
            Place::Thousands => Tone { fill: Paint::Rgb(0xFF, 0xAA, 0xBB), pattern: Pattern::Bar },
            Place::TenThousands => Tone { fill: Paint::Rgb(0x77, 0xAA, 0xDD), pattern: Pattern::Ring },
            Place::HundredThousands => Tone { fill: Paint::Rgb(0xEE, 0x88, 0x66), pattern: Pattern::Square },
        },
    }
}
