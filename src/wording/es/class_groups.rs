//! What grown-ups read of groups in Spanish.

use super::Spanish;
use super::phrases::{counted, lettered, listed};
use super::ticket::checks_to_page;
use crate::number::{Number, Style};
use crate::spec::Version;
use crate::wording::Phrases;
use crate::wording::class_groups::{ClassGroups, GroupShare};
use crate::wording::stamps::Stamps;

/// "el grupo Gaviotas", "los demás".
fn who(share: &GroupShare) -> String {
    share.name.as_ref().map_or_else(|| "los demás".to_owned(), |name| format!("el grupo {name}"))
}

/// Its letters in a list.
fn letters(share: &GroupShare) -> String {
    lettered(&share.versions)
}

/// "control rápido 3", "controles rápidos 1 a 4".
fn checks_bare(first: u32, last: u32) -> String {
    if first == last { format!("control rápido {first}") } else { format!("controles rápidos {first} a {last}") }
}

/// "el control rápido 3", "los controles rápidos 1 a 4".
fn checks(first: u32, last: u32) -> String {
    format!("{} {}", if first == last { "el" } else { "los" }, checks_bare(first, last))
}

fn ends(share: &GroupShare) -> Option<(u32, u32)> {
    Some((*share.checks.first()?, *share.checks.last()?))
}

/// "estudiantes 1 a 6", "estudiante 3"; "1000 estudiantes" where they are all over the list.
fn learners(share: &GroupShare) -> String {
    if let Some(count) = share.scattered() {
        return counted(count, "estudiante", "estudiantes");
    }
    match share.learners.as_slice() {
        [(first, last)] if first == last => format!("estudiante {first}"),
        runs => format!("estudiantes {}", Spanish.runs(runs)),
    }
}

/// Groups first, everyone else last.
fn rest_last(shares: &[GroupShare]) -> Vec<&GroupShare> {
    let (groups, rest): (Vec<_>, Vec<_>) = shares.iter().partition(|share| share.name.is_some());
    groups.into_iter().chain(rest).collect()
}

impl ClassGroups for Spanish {
    fn board_note_any(&self, marks: bool) -> &'static str {
        if marks {
            "Coloca cada tira en su fila, si tiene una. Al terminar una fila, da vuelta a sus tiras: todas llevan la misma figura."
        } else {
            "Coloca cada tira en la fila que le toca. Si una no va en ninguna fila, déjala junto al tablero."
        }
    }

    fn whose_key(&self, share: &GroupShare) -> String {
        let several = share.versions.len() > 1;
        let which = if several { format!(" Tienen los juegos {}.", letters(share)) } else { String::new() };
        format!("Para {}: {}.{which}", who(share), learners(share))
    }

    fn whose_numbers(&self, name: Option<&str>) -> String {
        name.unwrap_or("Los demás").to_owned()
    }

    fn whose_head(&self) -> &'static str {
        "Para"
    }

    fn whose_practice(&self, share: &GroupShare) -> String {
        format!("Para {}: {}.", who(share), learners(share))
    }

    fn whose_checks(&self, share: &GroupShare) -> String {
        let Some((first, last)) = ends(share) else { return String::new() };
        let verb = if first == last { "es" } else { "son" };
        format!("{} {verb} para {}: {}.", self.capital(&checks(first, last)), who(share), learners(share))
    }

    fn tally_marks(&self, named: bool, lettered: bool) -> &'static str {
        match (named, lettered) {
            (true, true) => "El número de la izquierda está en las hojas del estudiante; la letra es la de su juego.",
            (true, false) => "El número de la izquierda está en las hojas del estudiante.",
            (false, true) => {
                "Escriba los nombres: el número de la izquierda está en las hojas del estudiante; la letra es la de su juego."
            }
            (false, false) => "Escriba los nombres: el número de la izquierda está en las hojas del estudiante.",
        }
    }

    fn belongs(&self, share: &GroupShare) -> String {
        let mut parts = vec![learners(share)];
        if !share.versions.is_empty() {
            let noun = if share.versions.len() == 1 { "juego" } else { "juegos" };
            parts.push(format!("{noun} {}", letters(share)));
        }
        parts.extend(ends(share).map(|(first, last)| checks_bare(first, last)));
        format!("{}: {}.", self.whose_numbers(share.name.as_deref()), parts.join("; "))
    }

    fn lists_by_hand(&self, lists: &[(GroupShare, Vec<Number>)], style: &Style) -> String {
        let numerals = |numbers: &[Number]| listed(&numbers.iter().map(|n| style.numeral(*n)).collect::<Vec<_>>());
        let each = lists.iter();
        // A sentence each: numerals may have commas, and lists of them semicolons.
        let each = each.map(|(share, own)| format!("{}: {}", self.capital(&who(share)), numerals(own)));
        each.collect::<Vec<_>>().join(". ")
    }

    fn learners_head(&self) -> &'static str {
        "Estudiantes"
    }

    fn tasks_apart(&self) -> &'static str {
        "Cada tarea es para el grupo de la clase que se nombra delante. Quién está en él se lee al pie de la lista."
    }

    fn who_is_who(&self, tally: Option<usize>, named: bool, common: Option<Version>) -> String {
        let place = match (tally, named) {
            (Some(page), true) => {
                return format!(
                    "La lista de la clase, en la página {page}, dice el número y la letra de cada estudiante, y cada grupo."
                );
            }
            (None, true) => return "Las hojas de cada estudiante llevan su nombre, su número y su letra.".to_owned(),
            (Some(page), false) => format!("en la lista de la clase, página {page}"),
            (None, false) => "aquí".to_owned(),
        };
        let common = common
            .map_or_else(String::new, |set| format!(" Si no están y nadie los sabe, copie el juego {set} para todos."));
        format!("Los nombres de cada grupo van {place}.{common}")
    }

    fn give_sets(&self, what: &str, shares: &[GroupShare]) -> String {
        let each = rest_last(shares).into_iter().map(|share| format!("{} para {}", letters(share), who(share)));
        format!("Dé {what} a cada estudiante: {}.", each.collect::<Vec<_>>().join(", "))
    }

    fn group_sorts(&self, share: &GroupShare, style: &Style) -> String {
        let (least, most) = share.range;
        let strips = match share.strips {
            0 => String::new(),
            strips => format!(" y {}", counted(strips, "tira", "tiras")),
        };
        format!(
            "{}: {}{strips} cada uno, números del {} al {}.",
            self.capital(&who(share)),
            counted(share.rows, "fila", "filas"),
            style.numeral(least),
            style.numeral(most)
        )
    }

    fn give_checks(&self, shares: &[GroupShare]) -> String {
        let each = rest_last(shares).into_iter().filter_map(|share| {
            let (first, last) = ends(share)?;
            Some(format!("{} para {}", checks(first, last), who(share)))
        });
        format!("Dé un control rápido a cada estudiante: {}.", each.collect::<Vec<_>>().join(", "))
    }

    fn groups_quiet(&self) -> &'static str {
        "Los estudiantes no necesitan saber quién tiene qué números: ninguna hoja suya nombra un grupo."
    }

    fn checks_printed(&self, first: u32, last: u32, slips: u32, to_page: u32) -> String {
        format!("{}: {}", checks_bare(first, last), checks_to_page(slips, to_page))
    }

    fn checks_apart(&self) -> &'static str {
        "Cada línea de controles rápidos en «Qué está dónde» es un montón aparte: no los mezcle."
    }
}
