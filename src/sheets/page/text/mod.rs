//! Text in boxes: measured, broken into lines, fitted, placed.
//!
//! In: a text, a [`Face`] and a frame (a box with its padding taken off). Out: finished [`Text`] lines, or a [`Problem`]
//! that says what would fit. Lines break at spaces only, never before the last short word where another break serves,
//! and never between `+` or "and" and what follows it or between a numeral and its word, so that `400 + 60` and `6 ones`
//! stay readable. Broken lines are balanced: as few as possible, then as narrow as possible.

mod units;

use std::borrow::Cow;
use std::cell::OnceCell;

use crate::diag::Problem;
use crate::measure::{Family, Font, Length, Point, Rect, Size, Weight};
use crate::sheets::page::{Item, Node, Paint, Reader, Tag, Text};
use units::Units;

/// How a text is set: its type, and how large it may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Face {
    /// Regular or bold.
    pub weight: Weight,
    /// Its colour.
    pub paint: Paint,
    /// Who reads it.
    pub reader: Reader,
    /// The preferred type size: never larger.
    pub size: Length,
    /// The least type size: rather an error than smaller.
    pub least: Length,
    /// From base line to base line, in percent of the type size.
    pub leading: i64,
}

impl Face {
    /// The same face at exactly this size.
    #[must_use]
    pub fn at(self, size: Length) -> Self {
        Self { size, least: size, ..self }
    }

    /// The same face in bold.
    #[must_use]
    pub fn bold(self) -> Self {
        Self { weight: Weight::Bold, ..self }
    }

    /// The same face in regular type.
    #[must_use]
    pub fn regular(self) -> Self {
        Self { weight: Weight::Regular, ..self }
    }

    /// The same face in another colour.
    #[must_use]
    pub fn painted(self, paint: Paint) -> Self {
        Self { paint, ..self }
    }

    /// From base line to base line at the preferred size.
    pub fn pitch(&self) -> Length {
        self.size.scaled(self.leading, 100)
    }
}

/// Where lines stand from left to right.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Across {
    /// At the left edge of the frame.
    Left,
    /// In the middle.
    Centre,
    /// At the right edge of the frame.
    Right,
}

/// Where lines stand from top to bottom.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Down {
    /// From the top edge of the frame down.
    Top,
    /// Capital letters in the middle: what looks centred.
    Middle,
    /// All that is drawn in the middle, letters above and below the line among it: for pieces, which have no line to share.
    Ink,
    /// On the bottom edge of the frame.
    Bottom,
    /// The first base line exactly this far below the top of the frame: for texts that share a base line.
    Base(Length),
}

/// Where lines stand in a frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Align {
    /// From left to right.
    pub across: Across,
    /// From top to bottom.
    pub down: Down,
}

impl Align {
    /// In the middle both ways.
    pub const CENTRE: Self = Self { across: Across::Centre, down: Down::Middle };
    /// In the middle both ways by all that is drawn.
    pub const INK: Self = Self { across: Across::Centre, down: Down::Ink };
    /// At the left, in the middle from top to bottom.
    pub const LEFT: Self = Self { across: Across::Left, down: Down::Middle };
    /// In the top left corner: running text.
    pub const TOP: Self = Self { across: Across::Left, down: Down::Top };
}

/// Lines that were set.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Setting {
    /// The type size they were set at.
    pub size: Length,
    /// The lines, top to bottom.
    pub lines: Vec<Text>,
}

impl Setting {
    /// The lines as nodes, to put inside a tag.
    pub fn nodes(self) -> Vec<Node> {
        self.lines.into_iter().map(|line| Node::Item(Item::Text(line))).collect()
    }

    /// The lines inside a tag.
    pub fn tagged(self, tag: Tag) -> Node {
        Node::Tagged(tag, self.nodes())
    }

    /// The lines as something that a listener does not need.
    pub fn artifact(self) -> Node {
        Node::Artifact(self.lines.into_iter().map(Item::Text).collect())
    }

    /// The base line of the last line; `None` without lines.
    pub fn base(&self) -> Option<Length> {
        self.lines.last().map(|line| line.at.y)
    }
}

/// Sets `text` into `frame` at the largest size between the face's preferred and least size.
///
/// `frame` is the box with its padding taken off: all ink lies inside it. Fails when the text does not fit at the least
/// size, saying at what size or in what width it would, and when the font lacks a character.
pub fn set(family: &Family, text: &str, frame: Rect, face: &Face, align: Align) -> Result<Setting, Problem> {
    // Most texts fit at once, with their hundreds and thousands whole: then nothing is to be looked for.
    let font = family.font(face.weight);
    let broken = Broken::new(font, text);
    let whole = broken.sense.widest() <= Units::limit(font, frame.width(), face.size);
    if whole
        && font.lacks(text).is_none()
        && let Some(placed) = broken.place(frame, face, align)
    {
        return Ok(placed);
    }
    let size = largest(family, &[text], frame.size(), face)?;
    let placed = broken.place(frame, &face.at(size), align);
    placed.ok_or_else(|| misfit(family, text, frame.size(), face))
}

/// The largest size, in half points, between the face's preferred and least size at which each of the texts fits into
/// a frame of size `room`: for pieces that must look alike. Fails like [`set`], naming the first text that does not fit.
pub fn largest(family: &Family, texts: &[&str], room: Size, face: &Face) -> Result<Length, Problem> {
    texts.iter().try_for_each(|text| settable(family, text, face))?;
    fitting(family, texts, room, face).map_err(|text| misfit(family, text, room, face))
}

/// Fails when the font lacks a character of a text.
pub fn settable(family: &Family, text: &str, face: &Face) -> Result<(), Problem> {
    match family.font(face.weight).lacks(text) {
        None => Ok(()),
        Some(missing) => Err(Problem::new(format!("the font has no `{missing}`, needed for `{text}`"))
            .hint("choose another font: `andika` and `lato` come with Placewright")),
    }
}

/// [`largest`] without the words: on failure the first text that does not fit. Missing characters count as nothing.
pub fn fitting<'t>(family: &Family, texts: &[&'t str], room: Size, face: &Face) -> Result<Length, &'t str> {
    let frame = Rect::new(Point::ORIGIN, room);
    let font = family.font(face.weight);
    let mut size = face.size;
    for text in texts {
        let broken = Broken::new(font, text);
        // Rather a little smaller than a number broken between a digit and its hundred.
        let fit = [true, false].into_iter().find_map(|sense| {
            let units = if sense { &broken.sense } else { broken.anywhere() };
            let fits = |size: Length| {
                // Most sizes that are too large are found out by counting lines, before any is set.
                let limit = Units::limit(font, room.width, size);
                let face = face.at(size);
                units.widest() <= limit
                    && face.pitch() * units.count(limit).saturating_sub(1) + font.x_height(size) <= room.height
                    && broken.place(frame, &face, Align::CENTRE).is_some()
            };
            let smaller = |size: &Length| (*size > face.least).then(|| (*size - STEP).max(face.least));
            std::iter::successors(Some(size), smaller).find(|size| fits(*size))
        });
        size = fit.ok_or(*text)?;
    }
    Ok(size)
}

/// The texts that take the most room: each of the others breaks into as many parts, none of them wider than the part in
/// the same place of one that stays. Descenders are not looked at: check the rest once a size is found.
pub fn widest<'t>(family: &Family, weight: Weight, texts: &[&'t str]) -> Vec<&'t str> {
    let font = family.font(weight);
    let mut kept: Vec<(&str, Vec<i64>)> = Vec::new();
    let covers = |a: &[i64], b: &[i64]| a.len() == b.len() && a.iter().zip(b).all(|(a, b)| a >= b);
    for text in texts {
        let widths = Units::new(font, text, true).widths();
        if !kept.iter().any(|(_, other)| covers(other, &widths)) {
            kept.retain(|(_, other)| !covers(&widths, other));
            kept.push((text, widths));
        }
    }
    kept.into_iter().map(|(text, _)| text).collect()
}

/// Sizes are tried in steps of half a point.
const STEP: Length = Length::pt100(50);

/// Breaks `text` into balanced lines no wider than `width` at the face's preferred size. A word wider than `width` gets a
/// line of its own.
pub fn wrap(family: &Family, text: &str, width: Length, face: &Face) -> Vec<String> {
    let font = family.font(face.weight);
    let lines = Broken::new(font, text).balanced(Units::limit(font, width, face.size));
    lines.into_iter().map(Cow::into_owned).collect()
}

/// Like [`wrap`], but fills each line, as running text over more than three lines should: even lines there look like a
/// narrow column. In wide columns the last line is kept from being a single short word. A list of counts is broken between
/// counts, where they fit.
pub fn flow<'t>(family: &Family, text: &'t str, width: Length, face: &Face) -> Vec<Cow<'t, str>> {
    let font = family.font(face.weight);
    let limit = Units::limit(font, width, face.size);
    let counts = Units::of_counts(font, text).filter(|counts| counts.widest() <= limit);
    let units = counts.unwrap_or_else(|| Units::new(font, text, false));
    let mut ends = units.ends(limit);
    let lines = units.lines(&ends);
    if let [.., before, last] = lines.as_slice()
        && !last.contains(' ')
        && before.matches(' ').count() > 5
        && let [.., end, _] = ends.as_mut_slice()
        && units.wide(*end - 1..*end + 1) <= limit
    {
        *end -= 1;
        return units.lines(&ends);
    }
    lines
}

/// How wide a column must be for its widest part that [`flow`] does not break.
pub fn narrowest(family: &Family, text: &str, face: &Face) -> Length {
    let font = family.font(face.weight);
    face.size.scaled(Units::new(font, text, false).widest(), font.per_em())
}

/// How high running text of so many lines stands, from the top of its first strip to the bottom of its last.
pub fn height(lines: usize, face: &Face) -> Length {
    face.pitch() * lines
}

/// Puts lines that were broken already into `frame` at the face's preferred size; the ink of line k lies in the k-th
/// strip of [`Face::pitch`] height. What does not fit is the caller's to see: compare [`height`] first.
pub fn run(family: &Family, lines: &[impl AsRef<str>], frame: Rect, face: &Face) -> Setting {
    placed(family, lines, frame, face, Align::TOP)
}

/// The same with the lines where `align` says.
pub fn placed(family: &Family, lines: &[impl AsRef<str>], frame: Rect, face: &Face, align: Align) -> Setting {
    put(family.font(face.weight), lines, frame, face, align).0
}

/// A text with the places where it may be broken: found once, for all sizes that are tried.
struct Broken<'t, 'f> {
    font: &'f Font,
    text: &'t str,
    /// Its parts with hundreds and thousands whole.
    sense: Units<'t>,
    /// Its parts where any space will do; found when it is first asked for.
    anywhere: OnceCell<Units<'t>>,
}

impl<'t, 'f> Broken<'t, 'f> {
    fn new(font: &'f Font, text: &'t str) -> Self {
        Self { font, text, sense: Units::new(font, text, true), anywhere: OnceCell::new() }
    }

    fn anywhere(&self) -> &Units<'t> {
        self.anywhere.get_or_init(|| Units::new(self.font, self.text, false))
    }

    /// Balanced lines. Number words break after a hundred or a thousand, unless that makes a line too wide.
    fn balanced(&self, limit: i64) -> Vec<Cow<'t, str>> {
        if self.sense.widest() <= limit { self.sense.balanced(limit) } else { self.anywhere().balanced(limit) }
    }

    /// The lines at the face's preferred size, if all their ink lies inside the frame.
    fn place(&self, frame: Rect, face: &Face, align: Align) -> Option<Setting> {
        let lines = self.balanced(Units::limit(self.font, frame.width(), face.size));
        let (setting, extents) = put(self.font, &lines, frame, face, align);
        let inside = |(line, Extent { width, ink }): (&Text, &Extent)| {
            *width <= frame.width() && ink.is_none_or(|ink| frame.contains(ink.moved(line.at.x, line.at.y)))
        };
        setting.lines.iter().zip(&extents).all(inside).then_some(setting)
    }
}

/// How far a line reaches.
struct Extent {
    /// How far it moves the pen.
    width: Length,
    /// The box of its ink with its start at the origin; `None` where it has none.
    ink: Option<Rect>,
}

/// The lines in their places, whether or not they fit, and how far each reaches.
fn put<L: AsRef<str>>(font: &Font, lines: &[L], frame: Rect, face: &Face, align: Align) -> (Setting, Vec<Extent>) {
    let (size, pitch) = (face.size, face.pitch());
    let extent = |line: &str| Extent { width: font.width(line, size), ink: font.ink(line, size, Point::ORIGIN) };
    let extents: Vec<Extent> = lines.iter().map(|line| extent(line.as_ref())).collect();
    // A strip of text lies in the middle of its pitch.
    let (rise, drop) = font.strip(size);
    let rest = pitch * lines.len().saturating_sub(1);
    let deepest = extents.last().and_then(|last| last.ink).map_or(Length::ZERO, Rect::bottom);
    let highest = extents.first().and_then(|first| first.ink).map_or(Length::ZERO, |ink| -ink.top());
    let mut first = match align.down {
        Down::Top => frame.top() + (pitch - rise - drop).half().max(Length::ZERO) + rise,
        Down::Bottom => frame.bottom() - drop - rest,
        Down::Base(base) => frame.top() + base,
        Down::Ink => frame.top() + (frame.height() - highest - rest - deepest).half() + highest,
        Down::Middle => {
            let cap = font.cap_height(size);
            frame.top() + (frame.height() - cap - rest).half() + cap
        }
    };
    if !matches!(align.down, Down::Base(_)) {
        // What the eye does not count, descenders and marks above capitals, may need the room at the ends.
        first = first.min(frame.bottom() - deepest - rest).max(frame.top() + highest);
    }
    let place = |(k, (text, extent)): (i64, (&L, &Extent))| {
        let Extent { width, ink } = *extent;
        let x = match align.across {
            Across::Left => frame.left(),
            Across::Centre => frame.left() + (frame.width() - width).half(),
            Across::Right => frame.right() - width,
        };
        // A letter may stand out over its own start or end by a hair: keep its ink in the frame.
        let out = ink.map_or(Length::ZERO, |ink| (frame.left() - x - ink.left()).max(Length::ZERO));
        let over = ink.map_or(Length::ZERO, |ink| (x + ink.right() - frame.right()).max(Length::ZERO));
        let at = Point::new(if over > Length::ZERO { x - over } else { x + out }, first + pitch * k);
        let text = text.as_ref().to_owned();
        Text { at, size, weight: face.weight, text, paint: face.paint, reader: face.reader, frame }
    };
    let lines = (0..).zip(lines.iter().zip(&extents)).map(place).collect();
    (Setting { size, lines }, extents)
}

/// Says that a text does not fit, and what would.
fn misfit(family: &Family, text: &str, room: Size, face: &Face) -> Problem {
    let points = |size: Length| {
        let text = format!("{:.2}", size.to_pt());
        format!("{} pt", text.trim_end_matches('0').trim_end_matches('.'))
    };
    let broken = Broken::new(family.font(face.weight), text);
    let fits = |size: Length, room: Size| {
        broken.place(Rect::new(Point::ORIGIN, room), &face.at(size), Align::CENTRE).is_some()
    };
    let problem =
        Problem::new(format!("`{text}` does not fit into {} by {} at {}", room.width, room.height, points(face.least)));
    let size = std::iter::successors(Some(face.least - STEP), |size| Some(*size - STEP))
        .take_while(|size| *size >= Length::pt(4))
        .find(|size| fits(*size, room));
    let width = (1..=400)
        .map(|more| room.width + Length::mm(more))
        .find(|width| fits(face.least, Size::new(*width, room.height)));
    match (size, width) {
        (Some(size), Some(width)) => {
            problem.hint(format!("it would fit at {}, or {} wide at {}", points(size), width, points(face.least)))
        }
        (Some(size), None) => problem.hint(format!("it would fit at {}", points(size))),
        (None, Some(width)) => problem.hint(format!("it would fit {width} wide")),
        (None, None) => problem.hint("it needs more height and width"),
    }
}

#[cfg(test)]
mod tests;
