//! The warm-up for the week after, in Spanish.

use super::Spanish;
use crate::wording::WarmUpWords;

impl WarmUpWords for Spanish {
    fn warm_up_note(&self, days: u32) -> String {
        format!(
            "{}, cinco minutos cada uno. Escriba el número donde todos lo vean y pregunte. Los \
             estudiantes responden primero en papel o a su pareja; luego alguien dice cómo lo sabe.",
            if days == 1 {
                "Para el día que sigue a la clase".to_owned()
            } else {
                format!("Para los {days} días que siguen a la clase")
            }
        )
    }

    fn warm_up_day(&self, day: u32, numeral: &str) -> String {
        format!("Día {day}: {numeral}")
    }

    fn warm_up_heads(&self) -> [&'static str; 2] {
        ["Pregunte", "Respuesta esperada"]
    }
}
