//! The conditions of the Matterhorn Protocol that a program can test and that touch our files (PDF/UA-1, ISO 14289-1).
//!
//! Built on `hayro-syntax` and `hayro-interpret`, which had no part in writing the files. Indices and meanings after the
//! Matterhorn Protocol 1.02 as tabulated by the PDF Association; 09-, 14-006, 26-, 28-, 30- and 31-00x are given from
//! memory. `ISO` marks what ISO 32000-1 or ISO 14289-1 asks without an index of its own.

use std::collections::{BTreeMap, BTreeSet};

use hayro_syntax::Pdf;
use hayro_syntax::object::{Array, Dict, Name, Stream};

use super::pdf::{self, Mark, Page};
use super::structure::{self, Element, Kid};

/// A condition that a file fails.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Finding {
    /// The index in the protocol, such as `13-004`.
    pub index: &'static str,
    /// Where and what.
    pub what: String,
}

/// All that is wrong with a file.
pub fn check(bytes: &[u8]) -> Vec<Finding> {
    check_read(bytes, &pdf::read(bytes))
}

/// All that is wrong with a file whose pages are read already.
pub fn check_read(bytes: &[u8], pages: &[Page]) -> Vec<Finding> {
    let mut findings = Findings(Vec::new());
    if !bytes.starts_with(b"%PDF-1.") {
        findings.add("ISO 6.1", "the header is not that of PDF 1.x");
    }
    let pdf = Pdf::new(bytes.to_vec()).unwrap_or_else(|error| panic!("the file does not open: {error:?}"));
    let Some(catalog) = pdf.xref().get::<Dict<'_>>(pdf.xref().root_id()) else {
        findings.add("ISO 7.7.2", "no catalog");
        return findings.0;
    };
    document(&catalog, &mut findings);
    content(pages, &mut findings);
    objects(&pdf, &mut findings);
    match structure::read(&pdf) {
        None => findings.add("ISO 7.1", "no structure tree"),
        Some(root) => {
            types(&catalog, &root, &mut findings);
            meaning(&root, &mut findings);
            nesting(&root, &mut findings);
            claims(&pdf, &root, pages, &mut findings);
        }
    }
    fonts(&pdf, pages, &mut findings);
    findings.0
}

/// The indices a file fails, each once.
pub fn indices(bytes: &[u8]) -> BTreeSet<&'static str> {
    check(bytes).into_iter().map(|finding| finding.index).collect()
}

struct Findings(Vec<Finding>);

impl Findings {
    fn add(&mut self, index: &'static str, what: impl Into<String>) {
        self.0.push(Finding { index, what: what.into() });
    }

    fn when(&mut self, fails: bool, index: &'static str, what: impl Into<String>) {
        if fails {
            self.add(index, what);
        }
    }
}

/// What the catalog and the metadata must say.
fn document(catalog: &Dict<'_>, findings: &mut Findings) {
    let marks = catalog.get::<Dict<'_>>("MarkInfo");
    let marked = |key: &str| marks.as_ref().and_then(|marks| marks.get::<bool>(key)).unwrap_or(false);
    findings.when(!marked("Marked"), "ISO 6.2", "the file does not say that it is tagged");
    findings.when(marked("Suspects"), "01-007", "Suspects is true");
    let metadata = catalog.get::<Stream<'_>>("Metadata").and_then(|stream| stream.decoded().ok().map(|d| d.to_vec()));
    match metadata.map(|bytes| String::from_utf8_lossy(&bytes).into_owned()) {
        None => findings.add("06-001", "no XMP metadata"),
        Some(xmp) => {
            findings.when(!xmp.contains("<pdfuaid:part>1</pdfuaid:part>"), "06-002", "no PDF/UA identifier");
            let title = xmp.split_once("<dc:title>").and_then(|(_, rest)| rest.split_once("</dc:title>"));
            let title = title.and_then(|(title, _)| title.rsplit_once("</rdf:li>")).map(|(title, _)| title);
            findings.when(title.is_none_or(|title| title.ends_with('>')), "06-003", "no dc:title");
        }
    }
    match catalog.get::<Dict<'_>>("ViewerPreferences").and_then(|v| v.get::<bool>("DisplayDocTitle")) {
        None => findings.add("07-001", "DisplayDocTitle is missing"),
        Some(shown) => findings.when(!shown, "07-002", "DisplayDocTitle is false"),
    }
    let language =
        catalog.get::<hayro_syntax::object::String<'_>>("Lang").map(|text| structure::decode(text.as_bytes()));
    // A language tag of RFC 3066: one to eight letters, then parts of one to eight letters or digits.
    let tag = |language: &String| {
        let mut parts = language.split('-');
        let first =
            parts.next().is_some_and(|p| (1..=8).contains(&p.len()) && p.bytes().all(|b| b.is_ascii_alphabetic()));
        first && parts.all(|p| (1..=8).contains(&p.len()) && p.bytes().all(|b| b.is_ascii_alphanumeric()))
    };
    if !language.as_ref().is_some_and(tag) {
        for (index, what) in [("11-001", "text"), ("11-002", "Alt"), ("11-003", "outline"), ("11-006", "metadata")] {
            findings.add(index, format!("the language of {what} is unknown"));
        }
    }
    findings.when(catalog.contains_key("OCProperties"), "20-001", "there are optional layers");
    findings.when(catalog.contains_key("AcroForm"), "25-001", "there are form fields");
}

/// Every mark on a page is tagged or an artifact, never both.
fn content(pages: &[Page], findings: &mut Findings) {
    for (k, page) in pages.iter().enumerate() {
        for (outer, inner) in &page.nesting {
            match (outer, inner) {
                (Mark::Content(_), Mark::Artifact) => {
                    findings.add("01-003", format!("page {k}: artifact inside tagged"));
                }
                (Mark::Artifact, Mark::Content(_)) => {
                    findings.add("01-004", format!("page {k}: tagged inside artifact"));
                }
                _ => {}
            }
        }
        let marks = page.texts.iter().map(|run| run.mark).chain(page.paths.iter().map(|path| path.mark));
        let loose = marks.filter(|mark| *mark == Mark::Loose).count();
        findings.when(loose > 0, "01-005", format!("page {k}: {loose} marks neither tagged nor artifact"));
    }
}

/// What pages and forms may not have.
fn objects(pdf: &Pdf, findings: &mut Findings) {
    for (k, page) in pdf.pages().iter().enumerate() {
        // Our files have no annotations; the order of tabs is set all the same.
        let tabs = page.raw().get::<Name<'_>>("Tabs");
        findings.when(tabs.is_none(), "28-008", format!("page {k}: no Tabs"));
        findings.when(tabs.is_some_and(|tabs| tabs.as_str() != "S"), "28-009", format!("page {k}: Tabs is not S"));
        findings.when(page.raw().contains_key("Annots"), "28-002", format!("page {k}: annotations"));
        let forms = page.raw().get::<Dict<'_>>("Resources").and_then(|r| r.get::<Dict<'_>>("XObject"));
        for (name, _) in forms.iter().flat_map(Dict::entries) {
            let form = forms.as_ref().and_then(|forms| forms.get::<Stream<'_>>(&*name));
            let Some(form) = form else { continue };
            findings.when(form.dict().contains_key("Ref"), "30-001", "a form refers to another file");
            let marked = form.decoded().is_ok_and(|content| content.windows(4).any(|w| w == b"MCID"));
            findings.when(marked, "30-002", format!("form {} has marked content of its own", name.as_str()));
        }
    }
}

/// The standard structure types that our files use (ISO 32000-1, 14.8.4).
const STANDARD: [&str; 20] = [
    "StructTreeRoot",
    "Document",
    "Sect",
    "H1",
    "H2",
    "H3",
    "H4",
    "H5",
    "H6",
    "P",
    "Table",
    "TR",
    "TH",
    "TD",
    "L",
    "LI",
    "Lbl",
    "LBody",
    "Figure",
    "Span",
];

fn types(catalog: &Dict<'_>, root: &Element, findings: &mut Findings) {
    let map = catalog.get::<Dict<'_>>("StructTreeRoot").and_then(|root| root.get::<Dict<'_>>("RoleMap"));
    let mapped =
        |kind: &str| map.as_ref().and_then(|map| map.get::<Name<'_>>(kind)).map(|name| name.as_str().to_owned());
    for kind in STANDARD {
        findings.when(mapped(kind).is_some(), "02-004", format!("{kind} is mapped to something else"));
    }
    let kinds: BTreeSet<&str> = root.all().iter().map(|element| element.kind.as_str()).collect();
    for kind in kinds {
        let (mut at, mut steps) = (kind.to_owned(), 0);
        while !STANDARD.contains(&at.as_str()) {
            match mapped(&at) {
                None => {
                    findings.add("02-001", format!("{kind} is no standard type"));
                    break;
                }
                Some(_) if steps > 10 => {
                    findings.add("02-003", format!("the mapping of {kind} is circular"));
                    break;
                }
                Some(next) => (at, steps) = (next, steps + 1),
            }
        }
    }
}

/// Pictures have words, headings have order, header cells say what they head.
fn meaning(root: &Element, findings: &mut Findings) {
    for figure in root.kind("Figure") {
        let words = figure.alternative.as_deref().unwrap_or("").trim();
        findings.when(words.is_empty(), "13-004", format!("figure {} has no alternative text", figure.object));
    }
    let mut level = 0;
    for element in root.all() {
        if let Some(next) = element.kind.strip_prefix('H').and_then(|n| n.parse::<u32>().ok()) {
            findings.when(level == 0 && next != 1, "14-002", format!("the first heading is H{next}"));
            findings.when(level > 0 && next > level + 1, "14-003", format!("H{next} follows H{level}"));
            level = next;
        }
    }
    findings.when(level > 0 && root.kind("H").next().is_some(), "14-007", "H and Hn are mixed");
    for list in root.kind("L").filter(|list| list.elements().any(|item| item.elements().any(|e| e.kind == "Lbl"))) {
        findings.when(
            list.numbering.is_none(),
            "ISO 7.6",
            format!("list {} does not say how it is numbered", list.object),
        );
    }
    for head in root.kind("TH") {
        let scope = matches!(head.scope.as_deref(), Some("Row" | "Column" | "Both"));
        findings.when(!scope, "15-003", format!("header cell {} has no scope", head.object));
    }
}

/// Tables hold rows hold cells; lists hold items hold labels and bodies; rows are equally long.
fn nesting(root: &Element, findings: &mut Findings) {
    for element in root.all() {
        let loose = element.kids.iter().any(|kid| matches!(kid, Kid::Content { .. }));
        for inner in element.elements() {
            let fits = match (element.kind.as_str(), inner.kind.as_str()) {
                ("Table", kind) => kind == "TR",
                ("TR", kind) => matches!(kind, "TH" | "TD"),
                (outer, "TR") => outer == "Table",
                (_, "TH" | "TD") => false,
                _ => true,
            };
            findings.when(!fits, "09-004", format!("{} inside {}", inner.kind, element.kind));
            let fits = match (element.kind.as_str(), inner.kind.as_str()) {
                ("L", kind) => kind == "LI",
                ("LI", kind) => matches!(kind, "Lbl" | "LBody"),
                (outer, "LI") => outer == "L",
                (_, "LBody") => false,
                _ => true,
            };
            findings.when(!fits, "09-005", format!("{} inside {}", inner.kind, element.kind));
        }
        match element.kind.as_str() {
            "Table" | "TR" => findings.when(loose, "09-004", format!("content right inside {}", element.kind)),
            "L" | "LI" => findings.when(loose, "09-005", format!("content right inside {}", element.kind)),
            _ => {}
        }
        if element.kind == "Table" {
            let lengths: BTreeSet<_> = element.elements().map(|row| row.elements().count()).collect();
            findings.when(lengths.len() > 1, "09-004", format!("rows of {lengths:?} cells in one table"));
        }
    }
}

/// Structure and pages agree on what belongs to what.
fn claims(pdf: &Pdf, root: &Element, pages: &[Page], findings: &mut Findings) {
    let mut claimed: BTreeMap<(usize, i32), i64> = BTreeMap::new();
    for element in root.all() {
        for inner in element.elements() {
            findings.when(
                inner.parent != element.object,
                "ISO 14.7.2",
                format!("{} names another parent", inner.object),
            );
        }
        for kid in &element.kids {
            match kid {
                Kid::Content { page: Some(page), mcid } => {
                    let twice = claimed.insert((*page, *mcid), element.object).is_some();
                    findings.when(twice, "ISO 14.7.4", format!("content {mcid} of page {page} is claimed twice"));
                }
                Kid::Content { page: None, mcid } => {
                    findings.add("ISO 14.7.4", format!("content {mcid} is claimed for no page"));
                }
                Kid::Element(_) => {}
            }
        }
    }
    let owners = structure::owners(pdf);
    for (k, page) in pages.iter().enumerate() {
        let marks = page.texts.iter().map(|run| run.mark).chain(page.paths.iter().map(|path| path.mark));
        let shown: BTreeSet<i32> = marks
            .filter_map(|mark| match mark {
                Mark::Content(mcid) => Some(mcid),
                _ => None,
            })
            .collect();
        for mcid in shown {
            let by = claimed.get(&(k, mcid)).copied();
            findings.when(by.is_none(), "01-005", format!("page {k}: content {mcid} is in no element"));
            let named = usize::try_from(mcid).ok().and_then(|mcid| owners[k].get(mcid)).copied();
            findings.when(
                named != by,
                "ISO 14.7.4",
                format!("page {k}: the parent tree is wrong about content {mcid}"),
            );
        }
    }
}

/// Fonts are embedded, complete, as wide as they say, and every code means a character.
fn fonts(pdf: &Pdf, pages: &[Page], findings: &mut Findings) {
    let mut seen = BTreeSet::new();
    for page in pdf.pages().iter() {
        let fonts = page.raw().get::<Dict<'_>>("Resources").and_then(|r| r.get::<Dict<'_>>("Font"));
        let Some(fonts) = fonts else { continue };
        for name in fonts.keys() {
            if let Some(font) = fonts.get::<Dict<'_>>(&*name)
                && seen.insert(font.obj_id().map(|id| id.obj_number))
            {
                font_dictionary(&font, findings);
            }
        }
    }
    for run in pages.iter().flat_map(|page| &page.texts) {
        for glyph in &run.glyphs {
            let code = glyph.code;
            match glyph.unicode.as_deref() {
                None => findings.add("10-001", format!("code {code:X} has no Unicode value")),
                Some(text) => {
                    findings.when(text.contains('\0'), "31-028", format!("code {code:X} means U+0000"));
                    let mark = text.contains(['\u{FEFF}', '\u{FFFE}']);
                    findings.when(mark, "31-029", format!("code {code:X} means a byte order mark"));
                }
            }
            findings.when(glyph.glyph == 0, "31-030", format!("code {code:X} shows .notdef"));
            let face = glyph.program.as_ref().and_then(|program| ttf_parser::Face::parse(program.bytes(), 0).ok());
            let Some(face) = face else { continue };
            let glyph_id = u16::try_from(glyph.glyph).unwrap_or(u16::MAX);
            findings.when(glyph_id >= face.number_of_glyphs(), "31-011", format!("code {code:X}: no such glyph"));
            let width = face
                .glyph_hor_advance(ttf_parser::GlyphId(glyph_id))
                .map_or(f32::NAN, |units| f32::from(units) * 1000.0 / f32::from(face.units_per_em()));
            let off = (width - glyph.width).abs();
            findings.when(
                off.is_nan() || off > 1.0,
                "31-016",
                format!("code {code:X}: {} is not {width}", glyph.width),
            );
        }
    }
}

fn font_dictionary(font: &Dict<'_>, findings: &mut Findings) {
    findings.when(!font.contains_key("ToUnicode"), "31-027", "a font has no ToUnicode");
    let Some(descendant) = font.get::<Array<'_>>("DescendantFonts").and_then(|fonts| fonts.iter::<Dict<'_>>().next())
    else {
        return findings.add("ISO 9.7", "a font is no composite font");
    };
    let embedded = descendant.get::<Dict<'_>>("FontDescriptor");
    let embedded =
        embedded.is_some_and(|d| ["FontFile2", "FontFile3"].iter().any(|key| d.get::<Stream<'_>>(key).is_some()));
    findings.when(!embedded, "31-009", "a font program is not embedded");
    let type_2 = descendant.get::<Name<'_>>("Subtype").is_some_and(|name| name.as_str() == "CIDFontType2");
    findings.when(type_2 && !descendant.contains_key("CIDToGIDMap"), "31-005", "no CIDToGIDMap");
    // One encoding is known to every reader, and with it no condition on maps of codes (31-001, 31-006 and 31-007 among
    // them) can be broken: two bytes a code, which is the glyph's number (ISO 32000-1, 9.7.5.2).
    let plain = font.get::<Name<'_>>("Encoding").is_some_and(|name| name.as_str() == "Identity-H");
    findings.when(!plain, "31-006", "the encoding is not Identity-H");
}
