//! What a child says who has found out what went wrong, in Spanish.

use crate::number::Slip;

/// What was done, in a child's words and without its full stop.
pub(super) fn seen(slip: Slip) -> &'static str {
    match slip {
        Slip::ZeroDropped => "Dejó fuera el cero",
        Slip::ZeroMoved => "Puso el cero en otra posición",
        Slip::TeenTy => "Confundió dos palabras que terminan casi igual",
        Slip::TeenReversed => "Escribió primero las unidades",
        Slip::SoundAlike => "Confundió dos palabras que se parecen",
        Slip::HundredWord => "Usó la otra palabra para cien",
        Slip::SideBySide => "Escribió las partes una al lado de otra",
        Slip::BigPartThenRest => "Escribió entera la parte grande y detrás el resto",
        Slip::HalfOverwritten => "Dejó un cero de más",
        Slip::PlaceWordWritten => "Escribió también en cifras la palabra que nombra una posición",
        Slip::FaceValue => "Contó todas las cifras como unidades",
        Slip::CountedAlike => "Contó cada bloque como uno",
        Slip::PlaceOff => "Puso una cifra en la posición de al lado",
        Slip::ReadInPieces => "Partió el número y leyó cada parte por separado",
        Slip::FromTheOnes => "Comparó primero las unidades",
        Slip::NotTakenAway => "No quitó lo que canjeó",
        Slip::OneForOne => "Canjeó uno por uno, no uno por diez",
        Slip::OneTooFew => "Puso nueve por cada pieza que canjeó, no diez",
        Slip::CountsSideBySide => "Escribió las cantidades una al lado de otra",
        Slip::TenLeftOut => "Olvidó diez piezas de un tipo",
        Slip::TensOnesSwapped => "Confundió las decenas con las unidades",
        Slip::HundredsTensSwapped => "Confundió las centenas con las decenas",
        Slip::Reversed => "Escribió las cifras de derecha a izquierda",
    }
}
