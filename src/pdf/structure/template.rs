//! The structure elements of a page as text with gaps, filled in for each page that has the same ones.
//!
//! A class set shows the same few pages thousands of times. Their elements differ in nothing but the numbers of objects, so
//! what is between the numbers is made once.

use crate::pdf::syntax::{reference, references};

/// What stands in a gap.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Gap {
    /// A reference to the page.
    Page,
    /// A reference to an element of the page, by its place in the page's list.
    Element(u32),
}

/// The elements of a page.
#[derive(Debug, Default)]
pub struct Template {
    /// All that is between gaps, without a break.
    text: Vec<u8>,
    /// Where in the text gaps are, in order, and what stands in them.
    gaps: Vec<(usize, Gap)>,
    /// For each element where its text and its gaps end.
    ends: Vec<(usize, usize)>,
    /// For each piece of marked content the element it belongs to.
    owners: Vec<u32>,
}

/// The object numbers of a page and its elements.
#[derive(Debug, Clone, Copy)]
pub struct Numbers {
    /// The page.
    pub page: u32,
    /// The page's section.
    pub section: u32,
    /// The first of its other elements; the rest follow.
    pub inner: u32,
}

impl Template {
    /// A template for a page with these owners of marked content.
    pub fn new(owners: Vec<u32>) -> Self {
        Self { owners, ..Self::default() }
    }

    /// The text of the element that is being written.
    pub fn text(&mut self) -> &mut Vec<u8> {
        &mut self.text
    }

    /// Leaves a gap for a reference to the page.
    pub fn page(&mut self) {
        self.gaps.push((self.text.len(), Gap::Page));
    }

    /// Leaves a gap for a reference to an element.
    pub fn element(&mut self, place: u32) {
        self.gaps.push((self.text.len(), Gap::Element(place)));
    }

    /// Ends an element.
    pub fn end(&mut self) {
        self.ends.push((self.text.len(), self.gaps.len()));
    }

    /// How many elements there are.
    pub fn len(&self) -> usize {
        self.ends.len()
    }

    /// About how many bytes the elements of a page are.
    pub fn size(&self) -> usize {
        // A gap takes a number of up to seven digits, and the reference's own five characters; each element a line's end.
        self.text.len() + self.gaps.len() * 12 + self.ends.len()
    }

    /// The elements of a page, in the order of their objects; each writes itself.
    pub fn elements(&self, numbers: Numbers) -> impl Iterator<Item = impl FnOnce(&mut Vec<u8>)> {
        let starts = std::iter::once((0, 0)).chain(self.ends.iter().copied());
        starts.zip(&self.ends).map(move |((start, from), &(end, to))| {
            move |out: &mut Vec<u8>| {
                let mut at = start;
                for &(gap, what) in &self.gaps[from..to] {
                    out.extend_from_slice(&self.text[at..gap]);
                    reference(out, numbers.object(what));
                    at = gap;
                }
                out.extend_from_slice(&self.text[at..end]);
            }
        })
    }

    /// Writes the array that leads from marked content back to elements.
    pub fn owners(&self, numbers: Numbers, out: &mut Vec<u8>) {
        references(out, self.owners.iter().map(|place| numbers.object(Gap::Element(*place))));
    }
}

impl Numbers {
    fn object(self, what: Gap) -> u32 {
        match what {
            Gap::Page => self.page,
            Gap::Element(0) => self.section,
            Gap::Element(place) => self.inner + place - 1,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gaps_are_filled_for_each_page() {
        let mut template = Template::new(vec![1, 0]);
        template.text().extend_from_slice(b"<</K ");
        template.element(1);
        template.text().extend_from_slice(b">>");
        template.end();
        template.text().extend_from_slice(b"<</Pg ");
        template.page();
        template.text().extend_from_slice(b"/K 0>>");
        template.end();
        let filled = |page, section, inner| {
            let numbers = Numbers { page, section, inner };
            let mut out = Vec::new();
            template.elements(numbers).for_each(|element| element(&mut out));
            template.owners(numbers, &mut out);
            String::from_utf8(out).unwrap()
        };
        assert_eq!(filled(7, 20, 30), "<</K 30 0 R>><</Pg 7 0 R/K 0>>[30 0 R 20 0 R]");
        assert_eq!(filled(123, 4, 5), "<</K 5 0 R>><</Pg 123 0 R/K 0>>[5 0 R 4 0 R]");
    }
}
