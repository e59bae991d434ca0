//! What is said in small groups in Spanish.

use super::Spanish;
use crate::number::{Number, SlipFamily, Style};
use crate::wording::digits::extremes;
use crate::wording::groups::{BlocksOut, GroupTable};
use crate::wording::{Groups, Phrases};

impl Groups for Spanish {
    fn groups_note(&self, table: GroupTable) -> String {
        let things = [
            (table.blocks == BlocksOut::TwoSets, "dos juegos de bloques"),
            (table.blocks == BlocksOut::OneSet, "bloques"),
            (table.mat, "un tapete"),
            (table.cards, "tarjetas superpuestas"),
            (true, "papel"),
            (true, "lápices"),
        ];
        let things: Vec<&str> = things.into_iter().filter(|(lies, _)| *lies).map(|(_, what)| what).collect();
        let each = if table.one_learner { "letra" } else { "grupo" };
        format!(
            "Para mañana, cuando haya leído la lista de la clase y los controles. Diez minutos por {each}, en una mesa con {}.",
            self.list(&things)
        )
    }

    fn reading_title(&self, one_learner: bool) -> &'static str {
        if one_learner { "De la lista a mañana" } else { "De la lista a los grupos" }
    }

    fn reading_steps(&self, one_learner: bool) -> Vec<&'static str> {
        let mark = "Corrija cada control con las respuestas. Por cada opción equivocada, ponga una marca en la lista bajo la letra del error.";
        if one_learner {
            return vec![
                mark,
                "Una sola marca puede ser casualidad: pregunte otra vez antes de decidir.",
                "Empiece por la letra con más marcas y deje la siguiente para otro día.",
                "¿Ninguna letra? Escriba en el pizarrón las tareas del final de esta hoja.",
            ];
        }
        vec![
            mark,
            "Recorra la lista. Quien tiene dos marcas bajo una letra, o marcas bajo letras de un mismo grupo, va a ese grupo. Una sola marca puede ser casualidad: pregunte otra vez antes de decidir.",
            "Tome los dos o tres grupos con más estudiantes. Quien queda sin lugar va al grupo de su primera letra, o espera un día.",
            "Quien no tiene letra ya lo sabe. Escriba en el pizarrón las tareas del final de esta hoja: las trabaja por su cuenta.",
        ]
    }

    fn groups_heads(&self, one_learner: bool) -> [&'static str; 4] {
        let (group, names) = if one_learner { ("Tema", "Día") } else { ("Grupo", "Nombres") };
        [group, "Letras en la lista", "Qué descubre", names]
    }

    fn family(&self, family: SlipFamily) -> &'static str {
        match family {
            SlipFamily::Zeros => "Ceros",
            SlipFamily::Teens => "Palabras",
            SlipFamily::Parts => "Partes",
            SlipFamily::Worth => "Valor",
            SlipFamily::Trades => "Canjes",
            SlipFamily::Order => "Orden",
        }
    }

    fn family_aim(&self, family: SlipFamily) -> &'static str {
        match family {
            SlipFamily::Zeros => "Cada columna lleva una cifra, también la vacía.",
            SlipFamily::Teens => "Palabras que se parecen dicen números distintos.",
            SlipFamily::Parts => "Las partes se juntan en un número: una cifra por columna.",
            SlipFamily::Worth => "La cifra dice cuántos hay; su posición, de qué.",
            SlipFamily::Trades => "Se va una pieza, vienen diez del tipo siguiente, y el número sigue igual.",
            SlipFamily::Order => "La posición mayor va primero, al escribir y al comparar.",
        }
    }

    fn has_it(&self) -> &'static str {
        "Ya lo sabe"
    }

    fn has_it_heads(&self) -> (&'static str, &'static str) {
        ("Escriba en el pizarrón", "Correcto")
    }

    fn no_letter(&self) -> &'static str {
        "ninguna"
    }

    fn has_it_tasks(&self, numbers: &[Number], style: &Style) -> Vec<(String, String)> {
        let task = |number: &Number| {
            let (greatest, least) = extremes(*number, style);
            let question = format!(
                "Usa todas las cifras de {}. ¿Cuáles son el número mayor y el menor que puedes formar?",
                style.numeral(*number)
            );
            (question, self.list(&[&greatest, &least]))
        };
        numbers.iter().map(task).collect()
    }
}
