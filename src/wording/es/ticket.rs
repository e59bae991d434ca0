//! What the job ticket says in Spanish.

use super::Spanish;
use super::phrases::{counted, listed, many};
use super::titles::{in_packet, is_feminine, with_article};
use crate::measure::Count;
use crate::number::Names;
use crate::spec::{Edge, Paper, PrintSides, SheetKind, Stock};
use crate::wording::class_groups::ClassGroups;
use crate::wording::digits::figures;
use crate::wording::learner::LearnerWords;
use crate::wording::ticket::{Done, FilePart, PacketPages, PacketRun, PiecesCut, TicketWords, begun};
use crate::wording::{Phrases, Spelling, Titles};

pub(super) fn sheets(count: usize) -> String {
    many(count, "hoja", "hojas")
}

pub(super) fn piles(count: usize) -> String {
    many(count, "pila", "pilas")
}

/// What pieces are called beside others: "tiras", "bloques: placas".
pub(super) fn pieces(pieces: PiecesCut, of: Option<&str>) -> String {
    match pieces {
        PiecesCut::Strips => of.map_or("tiras".to_owned(), |of| format!("tiras {of}")),
        PiecesCut::Cards(_) => format!("tarjetas superpuestas: {}", piece_word(pieces)),
        PiecesCut::Flats | PiecesCut::RodsAndCubes => format!("bloques: {}", piece_word(pieces)),
    }
}

/// The pieces alone: "placas".
pub(super) fn piece_word(pieces: PiecesCut) -> &'static str {
    match pieces {
        PiecesCut::Strips => "tiras",
        PiecesCut::Flats => "placas",
        PiecesCut::RodsAndCubes => "barras y cubos",
        PiecesCut::Cards(place) => Spanish.place(place),
    }
}

/// A sheet's title within a sentence: "tablero"; of the page home, whose title is no noun, what it is.
fn title(kind: SheetKind) -> String {
    match kind {
        SheetKind::Family => Spanish.sheet_in_text(kind, 1).to_owned(),
        kind => Spanish.sheet_title(kind).to_lowercase(),
    }
}

/// "tapete de valor posicional y banco de palabras".
fn titles(kinds: &[SheetKind]) -> String {
    listed(&kinds.iter().map(|kind| title(*kind)).collect::<Vec<_>>())
}

impl TicketWords for Spanish {
    fn requested(&self) -> &'static str {
        "Pedido por __________________ Entregar a __________________ Para el ________________"
    }

    fn actual_size(&self) -> &'static str {
        "Imprima a tamaño real: sin escalar, 100 %. No ajuste a la página."
    }

    fn class_sets(&self, learners: u32, asked: u32, extra: u32, versions: usize) -> String {
        let spare = |count| counted(count, "juego de repuesto", "juegos de repuesto");
        let mut text = format!("Juegos para {}", self.learners(learners));
        if asked > 0 {
            text = format!("{text} y {}", spare(asked));
        }
        if extra > 0 {
            text = format!("{text}, con {} más para completar la última pila", spare(extra));
        }
        if versions > 1 { format!("{text}, en {versions} versiones.") } else { format!("{text}.") }
    }

    fn print_title(&self) -> &'static str {
        "Qué imprimir"
    }

    fn load(&self, count: usize, stocks: &[(Stock, usize)], paper: Paper) -> String {
        let loads: Vec<String> =
            stocks.iter().map(|(stock, count)| format!("{count} de {}", self.stock_name(*stock))).collect();
        let size = self.paper_size(paper);
        match stocks {
            [(stock, _)] => {
                format!("Cargue {} de {}. Tamaño del papel: {size}.", sheets(count), self.stock_name(*stock))
            }
            _ => format!("Cargue {} en total: {}. Tamaño del papel: {size}.", sheets(count), listed(&loads)),
        }
    }

    fn files_heads(&self) -> [&'static str; 6] {
        ["Archivo", "Material", "Hojas", "Impresiones", "Caras", "Tinta"]
    }

    fn stock_weights(&self, stock: Stock) -> &'static str {
        match stock {
            Stock::Paper => "papel, 75\u{2013}90 g/m\u{b2} o bond de 20\u{2013}24 lb",
            Stock::Card => "cartulina, 160\u{2013}200 g/m\u{b2} o de 65 lb (cover) a 110 lb (index)",
        }
    }

    fn stock_name(&self, stock: Stock) -> &'static str {
        match stock {
            Stock::Paper => "papel",
            Stock::Card => "cartulina",
        }
    }

    fn paper_size(&self, paper: Paper) -> &'static str {
        match paper {
            Paper::Letter => "carta, 8.5 por 11 pulgadas (216 por 279 mm)",
            Paper::Legal => "legal, 8.5 por 14 pulgadas (216 por 356 mm)",
            Paper::Tabloid => "doble carta (tabloide), 11 por 17 pulgadas (279 por 432 mm)",
            Paper::A4 => "A4, 210 por 297 mm (8.3 por 11.7 pulgadas)",
            Paper::A3 => "A3, 297 por 420 mm (11.7 por 16.5 pulgadas)",
        }
    }

    fn sides_printed(&self, sides: PrintSides) -> &'static str {
        match sides {
            PrintSides::One => "una cara",
            PrintSides::Two(Edge::Long) => "dos caras, voltear por el borde largo",
            PrintSides::Two(Edge::Short) => "dos caras, voltear por el borde corto",
        }
    }

    fn ink_name(&self, colour: bool, _spelling: Spelling) -> &'static str {
        if colour { "color" } else { "negro" }
    }

    fn kept(&self, kept: bool) -> &'static str {
        if kept { "para guardar" } else { "de un solo uso" }
    }

    fn proof_first(&self) -> &'static str {
        "La hoja 1 de cada archivo es una prueba: imprímala sola y mírela. Después imprima una vez el resto del archivo y \
         conserve su orden: ya contiene todas las copias."
    }

    fn where_title(&self) -> &'static str {
        "Qué está dónde"
    }

    fn where_heads(&self) -> [&'static str; 5] {
        ["Archivo", "Hojas", "Páginas", "Qué es", "Después"]
    }

    fn file_part(&self, part: FilePart<'_>) -> String {
        match part {
            FilePart::Proof => "prueba: se imprime primero".to_owned(),
            FilePart::SlipSheet => "hoja separadora".to_owned(),
            FilePart::Kits(kinds, kits) => format!("{} para {}", titles(kinds), many(kits, "juego", "juegos")),
            FilePart::Piles(count) => format!("tiras en {}", piles(count)),
            FilePart::Checks(slips, to_page) => {
                format!("{}: {}", self.sheet_in_text(SheetKind::Exit, slips), checks_to_page(slips, to_page))
            }
            FilePart::Packets([SheetKind::Strips], sets) => format!("{} de tiras", many(sets, "juego", "juegos")),
            FilePart::Packets([kind], sets) => format!("{sets} {}", self.sheet_in_text(*kind, sets.narrow())),
            FilePart::Packets(kinds, sets) => {
                let names: Vec<&str> = kinds.iter().copied().map(in_packet).collect();
                format!("{}: {}", many(sets, "paquete", "paquetes"), self.list(&names))
            }
        }
    }

    fn kits_at_hand(&self, file: &str, pages: &[String]) -> String {
        match pages {
            [] => format!("{file}: si la clase todavía tiene sus juegos, deje fuera este archivo."),
            _ => format!("{file}: si la clase todavía tiene sus juegos, imprima solo las páginas {}.", listed(pages)),
        }
    }

    fn print_again(&self, file: &str, packets: &PacketPages, only: Option<SheetKind>, first: bool) -> Vec<String> {
        let intro = if first {
            let what = only.map_or_else(|| "el paquete".to_owned(), |kind| with_article(kind, 1));
            format!(
                "{file}: para imprimir otra vez {what} de un estudiante, use estas páginas, contadas desde la primera del \
                 archivo. Un visor puede llamar 1-1, 1-2, etc. a las del estudiante 1."
            )
        } else {
            format!("{file}, del mismo modo:")
        };
        match packets {
            PacketPages::Runs(runs) => {
                let run = |run: &PacketRun| {
                    let pages = || many(run.each, "página", "páginas");
                    let each = if run.is_one() { String::new() } else { format!("{} cada uno, ", pages()) };
                    format!("{}: {each}{}", figures(run.learners), figures(run.pages))
                };
                let runs = runs.iter().map(run).collect::<Vec<_>>().join(" \u{b7} ");
                vec![format!("{intro} Estudiante {runs}.")]
            }
            PacketPages::Begin(begin, last) => {
                let told = format!(
                    "{intro} El último paquete termina en la página {last}. Estas son las páginas en que empiezan los paquetes."
                );
                [vec![told], begun(begin)].concat()
            }
        }
    }

    fn checks_title(&self) -> &'static str {
        "Corte los controles rápidos"
    }

    fn checks_cut(&self, count: usize, cuts: usize, groups: bool) -> String {
        let whose = if groups { self.checks_apart() } else { "Cualquier control sirve para cualquier estudiante." };
        let alike =
            if count == 1 { "" } else { ", todas cortadas igual, no más a la vez de las que admite la cortadora" };
        format!("{}{alike}: {}. {whose}", sheets(count), self.straight_cuts(cuts))
    }

    fn teacher_cuts(&self) -> (&'static str, [&'static str; 3]) {
        (
            "No es tarea de quien copia: lo cortan el docente o un ayudante antes de la clase",
            ["Hoja", "Por cortar", "Resultan"],
        )
    }

    fn learners_cut(&self, one: bool) -> (&'static str, [&'static str; 3]) {
        if one {
            ("No corte: lo hace el estudiante", ["Hoja", "El estudiante recibe", "Cortes"])
        } else {
            ("No corte: lo hacen los estudiantes", ["Hoja", "Cada estudiante recibe", "Cortes"])
        }
    }

    fn sheets(&self, count: usize) -> String {
        sheets(count)
    }

    fn pages(&self, count: usize) -> String {
        many(count, "página", "páginas")
    }

    fn straight_cuts(&self, count: usize) -> String {
        many(count, "corte recto", "cortes rectos")
    }

    fn joined(&self, sheet: SheetKind, copies: u32, pages: u32) -> String {
        let each = if copies == 1 { "" } else { "cada uno " };
        format!("{copies} {}, {each}de {pages} páginas unidas con cinta", self.sheet_in_text(sheet, copies))
    }

    fn kits_of(&self, kits: u32, pieces: usize, holds: Option<[u32; 4]>) -> String {
        let each = if kits == 1 { "1 juego".to_owned() } else { format!("{kits} juegos, cada uno") };
        let holds = holds.map_or_else(|| many(pieces, "pieza", "piezas"), |counts| self.blocks_told(counts));
        format!("{each} de {holds}")
    }

    fn up_to(&self, most: &str) -> String {
        format!("hasta {most}")
    }

    fn masters_bare(&self) -> &'static str {
        "Estas copias no llevan nada al reverso: no hay marcas que mirar."
    }

    fn cube_rows(&self) -> &'static str {
        "Filas de cubos en los juegos de bloques"
    }

    fn file_missing_title(&self) -> &'static str {
        "Si falta un archivo"
    }

    fn copy_masters(&self, sets: &[(SheetKind, Option<String>, String, bool, u32)]) -> String {
        let said = sets.iter().map(|(kind, version, pages, single, copies)| {
            let of = if *single { "página" } else { "páginas" };
            // "Controles rápidos 1 a 4", "tablero A".
            let several = version.as_ref().is_some_and(|version| version.contains(' '));
            let title = if several { self.sheet_in_text(*kind, 2).to_owned() } else { title(*kind) };
            let version = version.as_ref().map(|version| format!(" {version}")).unwrap_or_default();
            format!("{title}{version}: {of} {pages} \u{d7} {copies}")
        });
        let said = said.collect::<Vec<_>>().join(" \u{b7} ");
        format!(
            "Copie estas páginas de teacher.pdf a tamaño real, tantas veces como se indica. {}.",
            self.capital(&said)
        )
    }

    fn save_title(&self) -> &'static str {
        "Menos hojas la próxima vez, cada medida por sí sola"
    }

    fn save_sharing(&self, kind: SheetKind, learners: u32, count: usize) -> String {
        let one = match kind {
            SheetKind::Blocks => "un juego de bloques".to_owned(),
            kind if is_feminine(kind) => format!("una {}", self.sheet_in_text(kind, 1)),
            kind => format!("un {}", self.sheet_in_text(kind, 1)),
        };
        format!("comparta {one} entre {learners} estudiantes: {} menos", sheets(count))
    }

    fn save_spares(&self, count: usize) -> String {
        format!("no haga juegos de repuesto: {} menos", sheets(count))
    }

    fn save_kits(&self, count: usize) -> String {
        format!("use otra vez estos juegos: {} menos", sheets(count))
    }

    fn done_title(&self) -> &'static str {
        "Para marcar"
    }

    fn done(&self, done: Done<'_>) -> String {
        match done {
            Done::Proof => {
                "Prueba de cada archivo: las dos líneas miden lo que dicen y el marco está entero.".to_owned()
            }
            Done::ProofBack => {
                "Prueba vista a contraluz: el círculo del reverso queda alrededor de la cruz del frente.".to_owned()
            }
            Done::Printed(file, count, stock, both) => {
                let two = if both { ", por las dos caras" } else { "" };
                format!("{file} impreso: {} de {}{two}.", sheets(count), self.stock_name(stock))
            }
            Done::Cut(what, of, cuts, count) => format!(
                "{}: {} en {}.",
                self.capital(&pieces(what, of)),
                many(cuts, "corte hecho", "cortes hechos"),
                if count == 1 { "la pila".to_owned() } else { format!("cada una de {}", piles(count)) }
            ),
            Done::ChecksCut(cuts) => {
                format!("Controles rápidos separados: {} en cada hoja.", many(cuts, "corte", "cortes"))
            }
            Done::Banded(1) => "El juego de tiras sujeto, con su banda encima.".to_owned(),
            Done::Banded(sets) => format!(
                "{sets} juegos de tiras sujetos, cada uno con su banda encima, puestos en el orden de los números de los estudiantes."
            ),
            Done::Packets(sets, only) => {
                let packets = if sets == 1 { "paquete" } else { "paquetes" };
                let what = self.capital(only.map_or(packets, |kind| self.sheet_in_text(kind, sets)));
                let order = if sets == 1 { "" } else { ", un estudiante tras otro" };
                format!("{what} en el orden de impresión{order}; sin grapas, para poder extender las páginas.")
            }
        }
    }

    fn shapes_on_backs(&self) -> &'static str {
        "Las figuras del reverso de las tiras son para que los estudiantes se corrijan: todas las tiras de una fila llevan la \
         misma figura. No son un error de impresión."
    }

    fn guillotine_in_short(&self) -> &'static str {
        "Guillotina: solo adultos capacitados, con la protección puesta y los dedos detrás de la guía; primero las reglas de \
         este lugar de trabajo."
    }

    fn guillotine(&self) -> (&'static str, &'static str) {
        (
            "Cuidado con la guillotina",
            "Solo adultos capacitados, y primero las reglas de este lugar de trabajo. La protección siempre puesta. Mesa \
             plana y firme. Los dedos detrás de la guía; ropa suelta y pelo recogidos. Nunca más hojas de las que admite la \
             máquina: si hace falta, divida la pila y vuelva a ordenar las partes. Al terminar, asegure la cuchilla abajo.",
        )
    }

    fn software_title(&self) -> &'static str {
        "Para el programa de impresión"
    }

    fn attributes(&self, list: &str) -> String {
        format!("Atributos IPP de todos los archivos: copies: 1 \u{b7} {list}.")
    }

    fn commands(&self) -> &'static str {
        "Listo para ejecutar donde están los archivos (añada -d y el nombre de la impresora si no es la habitual). Cada orden \
         imprime todo lo que sigue a la prueba. Solo para la prueba, escriba -o page-ranges=1, o 1-2 si se imprimen las dos caras:"
    }

    fn file_head(&self) -> &'static str {
        "Archivo"
    }
}

/// Cuántos controles, y cuántos hay en una página.
pub(super) fn checks_to_page(slips: u32, to_page: u32) -> String {
    if to_page == 1 {
        format!("{slips}, uno por página")
    } else {
        format!("hacen falta {slips}, {to_page} por página")
    }
}
