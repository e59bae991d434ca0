//! A PDF laid open, for tests that search it: every deflated stream inflated, but not what pages draw.

use std::io::Read;

/// The file with every deflated stream laid open, except what pages draw: streams with text between `BT` and `ET`.
pub fn plain(file: &[u8]) -> Vec<u8> {
    let mut out = Vec::new();
    let find = |from: usize, what: &[u8]| file[from..].windows(what.len()).position(|w| w == what).map(|k| from + k);
    let mut at = 0;
    while let Some(start) = find(at, b"stream\n") {
        let end = find(start, b"endstream").expect("a stream that ends");
        out.extend(&file[at..start]);
        let mut open = Vec::new();
        if flate2::read::ZlibDecoder::new(&file[start + 7..end]).read_to_end(&mut open).is_err() {
            open = file[start..end].to_vec();
        }
        // An object stream begins with the numbers and places of its objects, which say nothing (ISO 32000-1, 7.5.7).
        let dictionary = String::from_utf8_lossy(&file[at..start]).into_owned();
        if let Some((_, first)) = dictionary.rsplit_once("/First ").filter(|_| dictionary.contains("/Type/ObjStm")) {
            let digits: String = first.chars().take_while(char::is_ascii_digit).collect();
            open.drain(..digits.parse::<usize>().expect("a number"));
        }
        let drawn = |word: &[u8]| open.split(u8::is_ascii_whitespace).any(|token| token == word);
        if !(drawn(b"BT") && drawn(b"ET")) {
            out.extend(open);
        }
        at = end + 9;
    }
    out.extend(&file[at..]);
    out
}

/// Whether the bytes hold a text: in UTF-8, in Latin-1, in the UTF-16 of PDF strings and of fonts, or as the digits of a PDF's hex string.
pub fn holds(bytes: &[u8], text: &str) -> bool {
    let wide: Vec<u8> = text.encode_utf16().flat_map(u16::to_be_bytes).collect();
    let latin = text.chars().map(u8::try_from).collect::<Result<Vec<u8>, _>>();
    let hex = |bytes: &[u8]| bytes.iter().fold(String::new(), |hex, byte| hex + &format!("{byte:02x}")).into_bytes();
    let lower = bytes.to_ascii_lowercase();
    let within = |bytes: &[u8], wanted: &[u8]| {
        let first = wanted[0];
        let mut starts = (0..bytes.len()).filter(|k| bytes[*k] == first);
        starts.any(|k| bytes[k..].starts_with(wanted))
    };
    within(bytes, text.as_bytes())
        || within(bytes, &wide)
        || latin.is_ok_and(|latin| within(bytes, &latin) || within(&lower, &hex(&latin)))
        || within(&lower, &hex(text.as_bytes()))
        || within(&lower, &hex(&wide))
}
