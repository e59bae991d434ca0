//! What is done before the lesson, in Spanish.

use super::{first_ones, listed, rows};
use crate::number::{Content, Counted, blocks_of};
use crate::spec::SheetKind;
use crate::wording::cover::Papers;
use crate::wording::es::Spanish;
use crate::wording::es::phrases::{counted, lettered, many};
use crate::wording::es::titles::{in_packet, is_feminine};
use crate::wording::learner::LearnerWords;
use crate::wording::plan::{Chore, Phase, Prepare, RowsBy, Short, Shortcut, SortedOn, Thing};
use crate::wording::{Phrases, Titles, Usage};

impl Prepare for Spanish {
    fn before_title(&self) -> &'static str {
        "Antes de la clase"
    }

    fn before_note(&self, minutes: u32, hurried: bool) -> String {
        let hurried = if hurried {
            " Si hay menos tiempo, empiece por arriba. Para lo que quede sin hacer, vea «Si no hubo tiempo»."
        } else {
            ""
        };
        format!(
            "Unos {} para una persona. Los tiempos son aproximados.{hurried}",
            counted(minutes, "minuto", "minutos")
        )
    }

    fn chore(&self, chore: &Chore, usage: &Usage<'_>) -> String {
        match chore {
            Chore::CutCubes { copies, cuts } => {
                format!(
                    "Separe las filas de cubos: {}, {}{}.",
                    sets(*copies),
                    many(*cuts, "corte", "cortes"),
                    if *copies == 1 { "" } else { " en cada uno" }
                )
            }
            Chore::Cut { sheet, sheets, copies, holds, pieces } => {
                // Only blocks and cards are cut out, and their plurals need their own article.
                let article = if matches!(sheet, SheetKind::Blocks | SheetKind::Board) { "los" } else { "las" };
                let each = holds.map_or_else(|| many(*pieces, "pieza", "piezas"), |counts| self.blocks_told(counts));
                format!(
                    "Recorte {article} {}: de {} {}.",
                    self.sheet_in_text(*sheet, 2),
                    many(*sheets, "hoja", "hojas"),
                    match copies {
                        1 => format!("sale 1 juego de {each}"),
                        _ => format!("salen {}, cada uno de {each}", sets(*copies)),
                    }
                )
            }
            Chore::Join { sheet, copies, pages } => format!(
                "Recorte y pegue con cinta las {pages} páginas de cada {}: {copies} en total.",
                self.sheet_in_text(*sheet, 1)
            ),
            Chore::Band(sets) => format!("Sujete o embolse cada juego, {sets} en total."),
            Chore::CountOut(count, numbers) => {
                format!("Cuente bloques de la caja: {} con {}.", each(*count), needed(numbers))
            }
            Chore::LayOut { packets: false } => "Ponga todo en una mesa aparte, un montón de cada cosa.".to_owned(),
            Chore::LayOut { packets: true } if usage.one_learner => {
                "Ponga todo en una mesa aparte. El paquete del estudiante se queda junto, en orden.".to_owned()
            }
            Chore::LayOut { packets: true } => {
                "Ponga todo en una mesa aparte. El paquete de cada estudiante se queda junto, en orden.".to_owned()
            }
            Chore::KnowGroups { named: true, .. } => {
                "Vea quién está en qué grupo: lo dice la lista de la clase.".to_owned()
            }
            Chore::KnowGroups { named: false, common } => {
                let else_all = common
                    .map_or_else(String::new, |set| format!(" Si nadie lo sabe, copie el juego {set} para todos."));
                format!("Pregunte quién está en qué grupo y escriba los nombres en la lista de la clase.{else_all}")
            }
            Chore::CountScissors(_) if usage.one_learner => "Tenga a mano unas tijeras.".to_owned(),
            Chore::CountScissors(pairs) => format!("Cuente las tijeras: {pairs}."),
            Chore::Display(pages, some) => {
                let ready = if *pages == 1 { "lista 1 lámina".to_owned() } else { format!("listas {pages} láminas") };
                let ready = format!("Tenga {ready} para la pared o la cámara de documentos.");
                if some.is_empty() {
                    return ready;
                }
                let numerals: Vec<String> = some.iter().map(|(n, _)| usage.style.numeral(*n)).collect();
                let which: Vec<String> = some.iter().map(|(_, k)| k.to_string()).collect();
                let (are, numbers) = if some.len() == 1 {
                    ("se muestra la lámina de", "número")
                } else {
                    ("se muestran las láminas de", "números")
                };
                format!("{ready} Hoy solo {are} {}: {numbers} modelo {}.", listed(&numerals), listed(&which))
            }
        }
    }

    fn shortcut_title(&self) -> &'static str {
        "Si no hubo tiempo"
    }

    fn shortcut(&self, shortcut: Shortcut) -> &'static str {
        match shortcut {
            Shortcut::DrawBlocks { thousands: true, .. } => {
                "Sin bloques recortados: se dibujan. Una caja es un millar, un cuadrado una centena, una raya una decena, un \
                 punto una unidad."
            }
            Shortcut::DrawBlocks { hundreds: true, .. } => {
                "Sin bloques recortados: se dibuja un cuadrado por centena, una raya por decena, un punto por unidad."
            }
            Shortcut::DrawBlocks { .. } => {
                "Sin bloques recortados: se dibuja una raya por decena, un punto por unidad."
            }
            Shortcut::SideBySide => "Tapetes sin unir: ponga las páginas una al lado de otra.",
            Shortcut::WriteParts => {
                "Sin tarjetas recortadas: escriba las partes una debajo de otra, unidades bajo unidades, y súmelas."
            }
        }
    }

    fn thing(&self, thing: &Thing) -> (String, String) {
        let juegos = |count: u32| if count == 1 { "juego" } else { "juegos" };
        match thing {
            Thing::Sheet { sheet, copies, pages, share, letters } => {
                let what = match sheet {
                    SheetKind::Blocks => format!("{} de bloques recortados", juegos(*copies)),
                    SheetKind::Strips => format!("{} de tiras", juegos(*copies)),
                    SheetKind::Layered => format!("{} de tarjetas superpuestas", juegos(*copies)),
                    kind => self.sheet_in_text(*kind, *copies).to_owned(),
                };
                // A set is masculine; a sheet may not be.
                let feminine = is_feminine(*sheet) && !matches!(sheet, SheetKind::Blocks | SheetKind::Strips);
                let (one, each) = if feminine { ("una", "cada una") } else { ("uno", "cada uno") };
                let mut notes = Vec::new();
                match share {
                    0 | 1 => {}
                    2 => notes.push(format!("{one} por pareja")),
                    _ => notes.push(format!("{one} por cada {share} estudiantes")),
                }
                if *pages > 1 {
                    let each = if *copies == 1 { String::new() } else { format!(" {each}") };
                    notes.push(format!("{}{each}", counted(*pages, "página", "páginas")));
                }
                if letters.len() > 1 {
                    notes.push(format!("letras {}", lettered(letters)));
                }
                (what, notes.join(", "))
            }
            Thing::Packets { copies, sheets, letters } => {
                let names: Vec<&str> = sheets.iter().copied().map(in_packet).collect();
                let names = self.list(&names);
                let letters = if letters.len() > 1 { format!("; letras {}", lettered(letters)) } else { String::new() };
                (if *copies == 1 { "paquete" } else { "paquetes" }.to_owned(), format!("{names}{letters}"))
            }
            Thing::Paper(count) => {
                (if *count == 1 { "hoja de papel" } else { "hojas de papel" }.to_owned(), String::new())
            }
            Thing::TubBlocks(sets, numbers) => (
                format!("{} de bloques de la caja de la clase", juegos(*sets)),
                format!("{}con {}", if *sets == 1 { "" } else { "cada uno " }, needed(numbers)),
            ),
            Thing::Envelopes(count) => {
                (if *count == 1 { "sobre" } else { "sobres" }.to_owned(), "para las tiras".to_owned())
            }
            Thing::Scissors(_, tape) => {
                let note = if *tape { "de punta redonda; cinta" } else { "de punta redonda" };
                ("tijeras".to_owned(), note.to_owned())
            }
            Thing::Tools { tape: true } => ("guillotina y cinta adhesiva".to_owned(), "para usted".to_owned()),
            Thing::Tools { tape: false } => ("guillotina".to_owned(), "para usted".to_owned()),
            Thing::Pencils(count) => (if *count == 1 { "lápiz" } else { "lápices" }.to_owned(), String::new()),
        }
    }

    fn short(&self, short: &Short) -> String {
        let Short { minutes, models, shown, rows: (done, all), uneven, on, by, together, sharing, .. } = *short;
        let mut parts = Vec::new();
        if short.unopened {
            parts.push("sin comienzo".to_owned());
        }
        if models > 0 {
            let numbers = counted(models, "número modelo", "números modelo");
            parts.push(match shown {
                Phase::Drawing => format!("dibujar {numbers}"),
                Phase::Columns => format!("escribir {numbers} en columnas"),
                _ => format!("armar {numbers}"),
            });
        }
        if together {
            parts.push("hacer uno en común".to_owned());
        }
        if done > 0 {
            let which = match (done == all, uneven, on) {
                (true, _, SortedOn::SortingBoards) => "todas las filas".to_owned(),
                (true, _, SortedOn::ClassroomBoard) => "todos los números".to_owned(),
                (false, true, SortedOn::SortingBoards) => format!("hasta {}", counted(done, "fila", "filas")),
                (false, true, SortedOn::ClassroomBoard) => format!("hasta {}", counted(done, "número", "números")),
                (false, false, SortedOn::SortingBoards) => rows(done),
                (false, false, SortedOn::ClassroomBoard) => first_ones(done),
            };
            parts.push(match by {
                RowsBy::Matching => format!("emparejar {which}"),
                RowsBy::Writing => format!("escribir {which}"),
                RowsBy::WritingUncut => format!("escribir {which} sin recortar"),
            });
        }
        if sharing {
            parts.push("compartir".to_owned());
        }
        let (asked, all) = short.questions;
        if all > 0 {
            parts.push(match (asked == all, short.papers == Papers::Checks) {
                (true, true) => "control rápido".to_owned(),
                (false, true) => format!("{} del control rápido", counted(asked, "pregunta", "preguntas")),
                (true, false) => "preguntas al final".to_owned(),
                (false, false) => format!("{} al final", counted(asked, "pregunta", "preguntas")),
            });
        }
        let (least, most) = minutes;
        let from = if least < most { format!("{least} a ") } else { String::new() };
        format!("Con {from}{}: {}.", counted(most, "minuto", "minutos"), parts.join(", "))
    }
}

/// "1 juego", "26 juegos".
fn sets(count: u32) -> String {
    counted(count, "juego", "juegos")
}

/// "1 juego", "26 juegos, cada uno".
fn each(count: u32) -> String {
    if count == 1 { sets(count) } else { format!("{}, cada uno", sets(count)) }
}

/// So many blocks of each place, largest first.
fn needed(counted: &Counted) -> String {
    match blocks_of(counted) {
        [0, 0, 0, 0] => "nada dentro".to_owned(),
        blocks => Spanish.content(&Content::Blocks(blocks)),
    }
}
