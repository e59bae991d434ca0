//! The text of the page, part by part.

use std::fmt::Write;

use super::{Gallery, Image, MARK, Set, Shown};
use crate::sheets::files::About;
use crate::svg::escaped;

const STYLE: &str = include_str!("page.css");

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
    numbers(&mut page, gallery);
    for file in &gallery.files {
        section(&mut page, file);
    }
    others(&mut page, gallery);
    let _ = write!(
        page,
        "</main>\n<footer>\n<p>Made by Placewright {}. This page works without a network.</p>\n</footer>\n</body>\n</html>\n",
        env!("CARGO_PKG_VERSION")
    );
    page
}

/// The table of files, each with a link to its part of the page.
fn contents(page: &mut String, gallery: &Gallery) {
    page.push_str(
        "<nav aria-label=\"Files\">\n<table>\n<thead><tr><th scope=\"col\">File</th><th scope=\"col\">For the</th>\
         <th scope=\"col\">Sheets of paper</th></tr></thead>\n<tbody>\n",
    );
    for file in &gallery.files {
        let About { title, reader, .. } = file.about;
        let sides = if file.two_sided { ", both sides" } else { "" };
        let _ = writeln!(
            page,
            "<tr><th scope=\"row\"><a href=\"#{}\">{title}</a></th><td>{reader}</td><td>{}{sides}</td></tr>",
            anchor(file),
            file.sheets,
        );
    }
    page.push_str("</tbody>\n</table>\n</nav>\n");
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

/// The chosen numbers, and why each is there.
fn numbers(page: &mut String, gallery: &Gallery) {
    if gallery.sets.is_empty() {
        return;
    }
    page.push_str("<section aria-labelledby=\"numbers\">\n<h2 id=\"numbers\">The numbers, and why</h2>\n");
    page.push_str("<div class=\"sets\">\n");
    for Set { name, ways, numbers } in &gallery.sets {
        let ways = if ways.is_empty() { String::new() } else { format!("<p>{}</p>\n", escaped(ways)) };
        let _ = write!(page, "<div>\n<h3>{}</h3>\n{ways}<dl>\n", escaped(&capital(name)));
        for (number, why) in numbers {
            let _ = writeln!(page, "<dt>{}</dt><dd>{}</dd>", escaped(number), escaped(why));
        }
        page.push_str("</dl>\n</div>\n");
    }
    page.push_str("</div>\n</section>\n");
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
         <dt>How to print</dt><dd>{printing} Actual size, {sides}.</dd>\n",
        plural(file.pages, "page"),
        plural(file.sheets, "sheet"),
    );
    if !file.which.is_empty() {
        let count = if file.images.is_empty() { "None".to_owned() } else { file.images.len().to_string() };
        let _ = writeln!(page, "<dt>Pictured</dt><dd>{count} of {}. {}</dd>", plural(file.pages, "page"), file.which);
    }
    page.push_str("</dl>\n");
    if !file.images.is_empty() {
        let _ = writeln!(page, "<h3>Pages of {name}</h3>\n<ol class=\"pages\">");
        for image in &file.images {
            figure(page, image);
        }
        page.push_str("</ol>\n");
    }
    page.push_str("</section>\n");
}

/// The link on a picture is named by the alternative text, which so says which page, and what is on it. How wide a page is
/// for its height decides how much of its row it takes.
fn figure(page: &mut String, image: &Image) {
    let Image { src, page: number, name, holds, size } = image;
    let (src, name) = (escaped(src), escaped(name));
    // Pixels of a style sheet are 1/96 in, and a thousandth is all that can be seen.
    let pixels = |length: crate::measure::Length| (length.to_inches() * 96.0).round();
    let (width, height) = (pixels(size.width), pixels(size.height));
    let _ = writeln!(
        page,
        "<li style=\"--wide:{:.3}\"><figure><a href=\"{src}\"><img src=\"{src}\" width=\"{width}\" height=\"{height}\" \
         loading=\"lazy\" alt=\"Page {number}, {name}: {}\"></a><figcaption>{number}: {name}</figcaption></figure></li>",
        width / height,
        escaped(holds)
    );
}

/// How to get other numbers and other pictures. The lesson file is not named: pages tell nobody where they were made.
fn others(page: &mut String, gallery: &Gallery) {
    let next = gallery.seed.checked_add(1).unwrap_or(1);
    let preview = "placewright preview <var>LESSON</var>";
    let _ = write!(
        page,
        "<section aria-labelledby=\"others\">\n<h2 id=\"others\">To see others</h2>\n\
         <p><var>LESSON</var> stands for your lesson file.</p>\n<dl class=\"ways\">\n\
         <dt>Other numbers</dt><dd><code>{preview} --seed {next}</code>, then <code>seed = {next}</code> in the lesson file \
         to keep them. These were chosen by {}.</dd>\n\
         <dt>One number in or out</dt><dd><code>always = [\u{2026}]</code> or <code>never = [\u{2026}]</code> under \
         <code>[numbers]</code> in the lesson file.</dd>\n\
         <dt>Every page</dt><dd><code>{preview} --all</code></dd>\n\
         <dt>One kind of page</dt><dd><code>{preview} --only board</code></dd>\n\
         <dt>Some pages</dt><dd><code>{preview} --pages 3-7</code></dd>\n</dl>\n</section>\n",
        gallery.seed
    );
}

/// The part of the page that shows a file.
fn anchor(file: &Shown) -> String {
    file.about.file.trim_end_matches(".pdf").to_owned()
}

/// `1 page`, `12 pages`.
fn plural(count: usize, noun: &str) -> String {
    format!("{count} {noun}{}", if count == 1 { "" } else { "s" })
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map(|first| first.to_uppercase().chain(chars).collect()).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_is_not_many() {
        assert_eq!((plural(1, "page"), plural(0, "page")), ("1 page".to_owned(), "0 pages".to_owned()));
    }
}
