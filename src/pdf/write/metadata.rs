//! What a file says of itself (XMP, ISO 16684-1, and the PDF/UA identifier of ISO 14289-1, clause 5).

/// The metadata stream.
pub fn xmp(title: &str, language: &str) -> String {
    let mut escaped = String::new();
    for character in title.chars() {
        match character {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            // XML has no way to write other control characters.
            c if c.is_control() => escaped.push(' '),
            c => escaped.push(c),
        }
    }
    let version = env!("CARGO_PKG_VERSION");
    format!(
        r#"<?xpacket begin="{}" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/">
<dc:title><rdf:Alt><rdf:li xml:lang="x-default">{escaped}</rdf:li></rdf:Alt></dc:title>
<dc:language><rdf:Bag><rdf:li>{language}</rdf:li></rdf:Bag></dc:language>
<dc:format>application/pdf</dc:format>
<pdf:Producer>Placewright {version}</pdf:Producer>
<pdfuaid:part>1</pdfuaid:part>
</rdf:Description></rdf:RDF></x:xmpmeta>
<?xpacket end="r"?>"#,
        '\u{FEFF}'
    )
}
