//! The structure tree of a PDF, read by `hayro-syntax`, and what a listener hears.

use std::collections::HashMap;
use std::fmt::Write as _;

use hayro_syntax::Pdf;
use hayro_syntax::object::{Array, Dict, MaybeRef, Name, Object, ObjectIdentifier};

use super::pdf::{Mark, Page};

/// A structure element.
#[derive(Debug, Default)]
pub struct Element {
    /// The structure type as it stands in the file.
    pub kind: String,
    /// The text that stands in for a picture.
    pub alternative: Option<String>,
    /// The language that it names.
    pub language: Option<String>,
    /// What a header cell heads.
    pub scope: Option<String>,
    /// What a list says of its labels.
    pub numbering: Option<String>,
    /// The object's number.
    pub object: i64,
    /// The object it names as its parent.
    pub parent: i64,
    pub kids: Vec<Kid>,
}

/// What an element holds.
#[derive(Debug)]
pub enum Kid {
    Element(Element),
    /// Marked content of a page, counted from 0; `None` for a page that the file does not have.
    Content {
        page: Option<usize>,
        mcid: i32,
    },
}

impl Element {
    /// The elements right inside.
    pub fn elements(&self) -> impl Iterator<Item = &Self> {
        self.kids.iter().filter_map(|kid| match kid {
            Kid::Element(element) => Some(element),
            Kid::Content { .. } => None,
        })
    }

    /// This element and all inside, in reading order.
    pub fn all(&self) -> Vec<&Self> {
        let mut all = vec![self];
        all.extend(self.elements().flat_map(Self::all));
        all
    }

    /// All elements of a type, in reading order.
    pub fn kind<'a>(&'a self, kind: &'a str) -> impl Iterator<Item = &'a Self> {
        self.all().into_iter().filter(move |element| element.kind == kind)
    }
}

/// Reads the tree from its root, whose type is given as `StructTreeRoot`; `None` for a file without one.
pub fn read(pdf: &Pdf) -> Option<Element> {
    let catalog: Dict<'_> = pdf.xref().get(pdf.xref().root_id())?;
    let root: Dict<'_> = catalog.get("StructTreeRoot")?;
    let numbers = pdf.pages().iter().enumerate();
    let pages: HashMap<_, _> = numbers.filter_map(|(k, page)| Some((page.raw().obj_id()?, k))).collect();
    let mut element = Element { kind: "StructTreeRoot".to_owned(), ..Element::default() };
    element.object = number(catalog.get_ref("StructTreeRoot").map(Into::into));
    element.kids = kids(&root, None, &pages, 0);
    Some(element)
}

fn number(id: Option<ObjectIdentifier>) -> i64 {
    id.map_or(0, |id| i64::from(id.obj_number))
}

fn kids(dict: &Dict<'_>, page: Option<usize>, pages: &HashMap<ObjectIdentifier, usize>, depth: usize) -> Vec<Kid> {
    assert!(depth < 50, "the structure tree goes round in circles");
    let one = |kid: Object<'_>| match kid {
        Object::Number(mcid) => Some(Kid::Content { page, mcid: i32::try_from(mcid.as_i64()).ok()? }),
        Object::Dict(kid) => Some(Kid::Element(element(&kid, page, pages, depth + 1))),
        _ => None,
    };
    match dict.get::<Object<'_>>("K") {
        Some(Object::Array(kids)) => kids.iter::<Object<'_>>().filter_map(one).collect(),
        Some(kid) => one(kid).into_iter().collect(),
        None => Vec::new(),
    }
}

fn element(dict: &Dict<'_>, around: Option<usize>, pages: &HashMap<ObjectIdentifier, usize>, depth: usize) -> Element {
    let page = match dict.get_ref("Pg") {
        Some(page) => pages.get(&page.into()).copied(),
        None => around,
    };
    Element {
        kind: dict.get::<Name<'_>>("S").map(|name| name.as_str().to_owned()).unwrap_or_default(),
        alternative: dict.get::<hayro_syntax::object::String<'_>>("Alt").map(|text| decode(text.as_bytes())),
        language: dict.get::<hayro_syntax::object::String<'_>>("Lang").map(|text| decode(text.as_bytes())),
        scope: attribute(dict, "Table", "Scope"),
        numbering: attribute(dict, "List", "ListNumbering"),
        object: number(dict.obj_id()),
        parent: number(dict.get_ref("P").map(Into::into)),
        kids: kids(dict, page, pages, depth),
    }
}

/// The value of an attribute that is a name.
fn attribute(dict: &Dict<'_>, owner: &str, key: &str) -> Option<String> {
    let read = |attributes: Dict<'_>| {
        let ours = attributes.get::<Name<'_>>("O")?.as_str() == owner;
        ours.then(|| attributes.get::<Name<'_>>(key).map(|value| value.as_str().to_owned()))?
    };
    match dict.get::<Object<'_>>("A")? {
        Object::Dict(attributes) => read(attributes),
        Object::Array(list) => list.iter::<Dict<'_>>().find_map(read),
        _ => None,
    }
}

/// A text string: UTF-16 behind its byte order mark, else taken as ASCII.
pub fn decode(bytes: &[u8]) -> String {
    match bytes {
        [0xFE, 0xFF, rest @ ..] => {
            let units: Vec<u16> = rest.chunks_exact(2).map(|pair| u16::from_be_bytes([pair[0], pair[1]])).collect();
            String::from_utf16_lossy(&units)
        }
        _ => bytes.iter().map(|byte| char::from(*byte)).collect(),
    }
}

/// For each page the objects that its parent tree entry names, by marked content number.
pub fn owners(pdf: &Pdf) -> Vec<Vec<i64>> {
    let mut found: HashMap<i64, Vec<i64>> = HashMap::new();
    let root = pdf.xref().get::<Dict<'_>>(pdf.xref().root_id()).and_then(|c| c.get::<Dict<'_>>("StructTreeRoot"));
    let mut open: Vec<Dict<'_>> = root.and_then(|root| root.get("ParentTree")).into_iter().collect();
    while let Some(node) = open.pop() {
        if let Some(kids) = node.get::<Array<'_>>("Kids") {
            open.extend(kids.iter::<Dict<'_>>());
        }
        if let Some(numbers) = node.get::<Array<'_>>("Nums") {
            let mut items = numbers.iter::<Object<'_>>();
            while let (Some(Object::Number(key)), Some(Object::Array(list))) = (items.next(), items.next()) {
                let objects = list.raw_iter().map(|item| match item {
                    MaybeRef::Ref(id) => number(Some(id.into())),
                    MaybeRef::NotRef(_) => 0,
                });
                found.insert(key.as_i64(), objects.collect());
            }
        }
    }
    let key = |page: &hayro_syntax::page::Page<'_>| page.raw().get::<i32>("StructParents").map(i64::from);
    pdf.pages().iter().map(|page| key(page).and_then(|key| found.remove(&key)).unwrap_or_default()).collect()
}

/// What a listener hears, an element a line, indented by depth.
pub fn listen(root: &Element, pages: &[Page]) -> String {
    let mut out = String::new();
    hear(root, pages, 0, &mut out);
    out
}

fn hear(element: &Element, pages: &[Page], depth: usize, out: &mut String) {
    let mut line = String::new();
    for kid in &element.kids {
        if let Kid::Content { page: Some(page), mcid } = kid {
            let texts = pages[*page].texts.iter().filter(|run| run.mark == Mark::Content(*mcid));
            line.extend(texts.map(super::pdf::Run::heard));
        }
    }
    let scope = element.scope.as_ref().map(|scope| format!(" ({scope})")).unwrap_or_default();
    let said = element.alternative.as_ref().unwrap_or(&line);
    let _ = writeln!(out, "{:indent$}{}{scope} {said}", "", element.kind, indent = depth * 2);
    for inner in element.elements() {
        hear(inner, pages, depth + 1, out);
    }
}
