//! How piles are cut, and what a proof says, in Spanish.

use super::Spanish;
use super::phrases::{listed, many};
use super::ticket::{piece_word, pieces, piles, sheets};
use crate::spec::{Paper, PrintSides, Stock};
use crate::wording::Phrases;
use crate::wording::stamps::Stamps;
use crate::wording::ticket::{
    CuttingWords, LastPile, Least, PiecesCut, PileRun, TicketWords, paragraphs, summed, total,
};

/// Places that stay blank.
fn left(places: usize, pile: usize) -> String {
    let stay = if places == 1 { "queda" } else { "quedan" };
    format!("En la pila {pile} {stay} en blanco {}", many(places, "lugar", "lugares"))
}

impl CuttingWords for Spanish {
    fn cut_title(&self, what: PiecesCut, of: Option<&str>, cuts: usize) -> String {
        format!("Corte {}: {}", pieces(what, of), many(cuts, "corte", "cortes"))
    }

    fn cut_piles(
        &self,
        file: &str,
        count: usize,
        (sheets, single): (&[String], bool),
        wide: bool,
        ([paper, most], trimmed): ([usize; 2], &[(usize, usize)]),
    ) -> String {
        let held = if wide { "horizontal" } else { "vertical" };
        let text = format!(
            "{file}: {}, {} {}. Deje {} en el orden de impresión, con el frente y la primera hoja arriba, en \
             posición {held} para que se lea el texto.",
            piles(count),
            if single { "hoja" } else { "hojas" },
            sheets.join(" \u{b7} "),
            if count == 1 { "la pila" } else { "cada pila" },
        );
        if trimmed.is_empty() {
            return text;
        }
        let cut = trimmed.iter().map(|(pile, parts)| format!("una pila de {pile} en {parts} partes"));
        let cut = listed(&cut.collect::<Vec<_>>());
        let takes = if paper == most {
            format!("admite {most} hojas corta")
        } else {
            format!("admite {paper} hojas de papel admite {most} de cartulina y corta")
        };
        format!("{text} Una cortadora que {takes} {cut}: vuelva a ordenarlas.")
    }

    fn back_gauge(&self, across: bool, down: bool) -> &'static str {
        match (across, down) {
            (true, false) => {
                return "Tope trasero: apoye en él el borde superior del frente y corte en cada medida, de la mayor a la menor. \
                        Ese borde se conserva hasta el último corte.";
            }
            (false, true) => {
                return "Tope trasero: apoye en él el borde izquierdo del frente y corte en cada medida, de la mayor a la \
                        menor. Ese borde se conserva hasta el último corte.";
            }
            (true, true) | (false, false) => {}
        }
        "Tope trasero: primero apoye en él el borde superior del frente y corte a lo ancho en cada medida, de la mayor a la \
         menor. Después apoye cada fila por su borde izquierdo. El borde desde el que se mide se conserva hasta el último corte."
    }

    fn gauge_turned(&self) -> &'static str {
        "Donde dice girado, gire primero lo que queda, con el borde recién cortado contra el tope: el margen cae delante de la \
         cuchilla."
    }

    fn gauge_near(&self) -> &'static str {
        "Si el tope no llega a una medida de menos de 30 mm (1.2 in), ponga una tira recta de cartón entre el tope y la pila, y \
         sume su ancho a la medida."
    }

    fn turned(&self, setting: &str) -> String {
        format!("{setting}, girado")
    }

    fn cuts_heads(&self) -> [&'static str; 3] {
        ["Corte", "Desde arriba", "Desde la izquierda"]
    }

    fn strips_lie(&self) -> &'static str {
        "Después de los cortes, las piezas de cada lugar son el juego completo de un estudiante, en orden y con la banda \
         encima: no hay nada que ordenar. Sujete cada juego con una liga o un clip y tire las piezas en \
         blanco. Para repetir un juego, imprima y corte otra vez su pila y guarde ese lugar."
    }

    fn kits_lie(&self, pieces: PiecesCut) -> String {
        format!(
            "Después de los cortes, siga las filas desde la izquierda y pase a la fila siguiente: las pilas de los \
             lugares que ocupa un juego (última columna de la tabla) son {} de ese juego. Póngalas una sobre otra, con la banda encima si la hay, y tire las piezas en blanco. Todos los juegos son \
             iguales: una pila de cada tamaño forma uno.",
            piece_word(pieces)
        )
    }

    fn column(&self, column: u32) -> String {
        format!("Columna {column}")
    }

    fn pile_row(&self) -> &'static str {
        "Pila, fila"
    }

    fn more_piles(&self, piles: &[PileRun]) -> Vec<String> {
        let run = |run: &PileRun| {
            let (first, last) = run.piles;
            let piles = if first == last { format!("pila {first}") } else { format!("pilas {first} a {last}") };
            let each =
                if first == last { String::new() } else { format!(", {} cada una", many(run.each, "juego", "juegos")) };
            format!("{piles}{each}: {}", self.runs(&run.sets))
        };
        [vec!["Las demás pilas, fila por fila desde la izquierda:".to_owned()], paragraphs(piles.iter().map(run))]
            .concat()
    }

    fn kits_heads(&self) -> [&'static str; 4] {
        ["Pila", "Hojas", "Juegos, fila por fila desde la izquierda", "Cada juego ocupa"]
    }

    fn run_of(&self, first: usize, last: usize) -> String {
        match last - first {
            0 => first.to_string(),
            1 => format!("{first} y {last}"),
            _ => format!("{first} a {last}"),
        }
    }

    fn places(&self, count: usize) -> String {
        many(count, "lugar", "lugares")
    }

    fn least_sheets(&self, least: &Least) -> String {
        let need = if least.sets == 1 { "necesita" } else { "necesitan" };
        let longest = if least.sets == 1 { "del juego" } else { "de su juego más largo" };
        let text = format!(
            "{}: cada lugar da un juego entero, así que con {} por hoja {} {need} {}, y una pila tiene una hoja por \
             cada pieza {longest}, contando la banda: {}.",
            self.capital(&sheets(total(least))),
            self.places(least.places),
            many(least.sets, "juego", "juegos"),
            piles(least.piles),
            summed(least),
        );
        match least.last {
            LastPile::Full => text,
            LastPile::Spares(n) => {
                format!("{text} La última pila se completa con {}.", many(n, "juego de repuesto", "juegos de repuesto"))
            }
            LastPile::Blanks(n) => {
                format!("{text} {}: más juegos de repuesto necesitarían más hojas.", left(n, least.number))
            }
            LastPile::Left(n) => format!("{text} {}.", left(n, least.number)),
        }
    }

    fn slip_sheet_title(&self) -> &'static str {
        "Hoja separadora"
    }

    fn slip_sheet_of(&self, file: &str, (first, last): (usize, usize)) -> String {
        let which = if first == last { format!("hoja {first}") } else { format!("hojas {}", self.run_of(first, last)) };
        format!("Después de esta hoja: {which} de {file}.")
    }

    fn slip_sheet_note(&self) -> &'static str {
        "Esta es una hoja separadora. Déjela sobre su parte. Retírela antes de cortar la parte, o al preparar los juegos."
    }

    fn slip_sheets_told(&self) -> &'static str {
        "Delante de cada parte va una hoja separadora que dice lo que sigue. No se cuenta entre las hojas de la parte. \
         Retírela antes de cortar la parte, o al preparar los juegos."
    }

    fn proof_titles(&self) -> [&'static str; 3] {
        ["Prueba: imprima primero esta hoja", "Prueba", "Prueba (reverso)"]
    }

    fn proof_of(&self, file: &str, count: usize, stock: Stock, sides: PrintSides, paper: Paper) -> String {
        format!(
            "{file} \u{b7} {} de {} \u{b7} {} \u{b7} {}",
            sheets(count),
            self.stock_name(stock),
            self.sides_printed(sides),
            self.paper_size(paper)
        )
    }

    fn proof_checks(&self) -> [&'static str; 3] {
        [
            "Ponga una regla sobre las dos líneas: 10 cm la de arriba, 4 in (pulgadas) la de abajo. Si miden \
             menos, la página se escaló.",
            "El marco del borde está entero por los cuatro lados.",
            "Los tres grises se distinguen.",
        ]
    }

    fn proof_colours(&self) -> &'static str {
        "Los colores de abajo se ven en color y se distinguen unos de otros. Si salen grises, el color está desactivado."
    }

    fn proof_light(&self) -> &'static str {
        "Mire la hoja a contraluz: el círculo del reverso queda alrededor de la cruz del frente. Si no es así, la hoja se volteó \
         por el otro borde, o entre las dos caras hay un desfase de más de 2 mm."
    }

    fn proof_back(&self) -> &'static str {
        "Reverso de la prueba"
    }
}
