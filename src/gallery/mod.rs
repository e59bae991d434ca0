//! `index.html`: what every file of a lesson looks like, what it is for, who gets it and how to print it.
//!
//! In: a title and the pictures of each file. Out: the text of one page that needs no network and no scripts, reads in
//! order without its styles, and follows the colours the reader's screen is set to.

mod html;

use std::fmt::Write;

use crate::sheets::files::About;
use html::{escaped, plural};

/// The name of the page.
pub const FILE: &str = "index.html";

/// The folder of the pictures, beside the page.
pub const PICTURES: &str = "pictures";

/// What tells a page of this program from others.
pub const MARK: &str = "<meta name=\"generator\" content=\"Placewright ";

const STYLE: &str = include_str!("page.css");

/// A lesson's files.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gallery {
    /// The lesson's title.
    pub title: String,
    /// The paper, as people write it, such as "letter".
    pub paper: &'static str,
    /// Whether learners' names are on the pages.
    pub names: bool,
    /// The files in the order of the contract.
    pub files: Vec<Shown>,
}

/// A file and its pictures.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shown {
    /// What there is to say about it.
    pub about: About,
    /// How many pages it has.
    pub pages: usize,
    /// How many sheets of paper it takes to print once.
    pub sheets: usize,
    /// Whether both sides are printed.
    pub two_sided: bool,
    /// All pictured pages on one picture; none without pictures.
    pub contact: Option<Image>,
    /// The pictured pages in order.
    pub images: Vec<Image>,
}

/// A picture of a page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Image {
    /// The picture's file, with the folder.
    pub src: String,
    /// Which page, from 1; 0 for a contact sheet.
    pub page: usize,
    /// What the page is called, such as "Sorting board A".
    pub name: String,
    /// What is on such a page, in a line.
    pub holds: &'static str,
    /// Columns of pixels.
    pub width: u32,
    /// Rows of pixels.
    pub height: u32,
}

/// Writes the page.
pub fn write(gallery: &Gallery) -> String {
    let title = escaped(&gallery.title);
    let mut page = String::new();
    let _ = write!(
        page,
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta name=\"color-scheme\" content=\"light dark\">\n{MARK}{}\">\n<title>{title}: what will be printed</title>\n\
         <link rel=\"icon\" href=\"data:,\">\n<style>\n{STYLE}</style>\n</head>\n<body>\n\
         <a class=\"skip\" href=\"#files\">Skip to the files</a>\n<header>\n<h1 dir=\"auto\">{title}</h1>\n\
         <p>These are pictures of the files beside this page, to look at before anything is printed. Print the files, not \
         the pictures.</p>\n</header>\n",
        env!("CARGO_PKG_VERSION")
    );
    contents(&mut page, gallery);
    page.push_str("<main id=\"files\">\n");
    printing(&mut page, gallery);
    for file in &gallery.files {
        section(&mut page, file);
    }
    let _ = write!(
        page,
        "</main>\n<footer>\n<p>Made by Placewright {}. This page works without a network.</p>\n</footer>\n</body>\n</html>\n",
        env!("CARGO_PKG_VERSION")
    );
    page
}

/// The list of files, each with a link to its part of the page.
fn contents(page: &mut String, gallery: &Gallery) {
    page.push_str("<nav aria-label=\"Files\">\n<ul>\n");
    for file in &gallery.files {
        let About { title, reader, .. } = file.about;
        let _ = writeln!(page, "<li><a href=\"#{}\">{title}</a> <span>for the {reader}</span></li>", anchor(file));
    }
    page.push_str("</ul>\n</nav>\n");
}

/// What holds for every file.
fn printing(page: &mut String, gallery: &Gallery) {
    let _ = write!(
        page,
        "<section aria-labelledby=\"printing\" class=\"rules\">\n<h2 id=\"printing\">Before you print</h2>\n<ul>\n\
         <li>Choose <strong>actual size</strong> or <strong>100%</strong>. Never choose \u{201c}fit\u{201d}, \
         \u{201c}shrink\u{201d} or \u{201c}scale to page\u{201d}: blocks and cards would lose their true size.</li>\n\
         <li>The paper is <strong>{}</strong>.</li>\n\
         <li>Print one page first and hold a ruler to a check line. If it is not 10 cm, or 4 in, the print was \
         scaled.</li>\n",
        escaped(gallery.paper)
    );
    if gallery.names {
        page.push_str(
            "<li>Learners\u{2019} names are on the pages and in these pictures: keep them in the room.</li>\n",
        );
    }
    page.push_str("</ul>\n</section>\n");
}

fn section(page: &mut String, file: &Shown) {
    let About { file: name, title, reader, purpose, printing, .. } = file.about;
    let anchor = anchor(file);
    let sides = if file.two_sided { "both sides" } else { "one side" };
    let _ = write!(
        page,
        "<section aria-labelledby=\"{anchor}\">\n<h2 id=\"{anchor}\">{title}</h2>\n<p>{purpose}</p>\n<dl>\n\
         <dt>File</dt><dd><a href=\"{name}\">{name}</a></dd>\n<dt>For</dt><dd>the {reader}</dd>\n\
         <dt>Size</dt><dd>{} on {}</dd>\n\
         <dt>How to print</dt><dd>{printing} Actual size, {sides}.</dd>\n</dl>\n",
        plural(file.pages, "page"),
        plural(file.sheets, "sheet"),
    );
    if let Some(contact) = &file.contact {
        let all = if file.images.len() == file.pages { "All pages" } else { "The pictured pages" };
        let _ = writeln!(page, "<p><a href=\"{}\">{all} of {name} on one picture</a></p>", escaped(&contact.src));
    }
    if file.images.len() < file.pages {
        let shown = if file.images.is_empty() { "none".to_owned() } else { file.images.len().to_string() };
        let _ = writeln!(page, "<p>Pictured: {shown} of {}.</p>", plural(file.pages, "page"));
    }
    if !file.images.is_empty() {
        let _ = writeln!(page, "<h3>Pages of {name}</h3>\n<ol class=\"pages\">");
        for image in &file.images {
            figure(page, image);
        }
        page.push_str("</ol>\n");
    }
    page.push_str("</section>\n");
}

/// The link on a picture is named by the alternative text, which so says which page, and what is on it.
fn figure(page: &mut String, image: &Image) {
    let Image { src, page: number, name, holds, width, height } = image;
    let (src, name) = (escaped(src), escaped(name));
    let _ = writeln!(
        page,
        "<li><figure><a href=\"{src}\"><img src=\"{src}\" width=\"{width}\" height=\"{height}\" loading=\"lazy\" \
         alt=\"Page {number}, {name}: {}\"></a><figcaption>Page {number}: {name}</figcaption></figure></li>",
        escaped(holds)
    );
}

/// The part of the page that shows a file.
fn anchor(file: &Shown) -> String {
    file.about.file.trim_end_matches(".pdf").to_owned()
}
