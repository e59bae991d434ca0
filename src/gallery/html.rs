//! Words as HTML.

/// A text with what HTML reserves written as references, for content and for quoted attributes.
pub fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            c => safe.push(c),
        }
    }
    safe
}

/// `1 page`, `12 pages`.
pub fn plural(count: usize, noun: &str) -> String {
    format!("{count} {noun}{}", if count == 1 { "" } else { "s" })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_gets_out_of_its_place() {
        assert_eq!(escaped("a < b & \"c\" > d"), "a &lt; b &amp; &quot;c&quot; &gt; d");
        assert_eq!((plural(1, "page"), plural(0, "page")), ("1 page".to_owned(), "0 pages".to_owned()));
    }
}
