//! What a child says who has found out what went wrong, in Spanish.

use crate::number::Slip;

/// What was done, in a child's words and without its full stop.
pub(super) fn seen(slip: Slip) -> &'static str {
    match slip {
        Slip::ZeroDropped => "Dejaron fuera el cero",
        Slip::ZeroMoved => "Pusieron el cero en otra posición",
        Slip::TeenTy => "Confundieron dos palabras que terminan casi igual",
        Slip::TeenReversed => "Escribieron primero las unidades",
        Slip::SoundAlike => "Confundieron dos palabras que se parecen",
        Slip::HundredWord => "Usaron la otra palabra para cien",
        Slip::SideBySide => "Escribieron las partes una al lado de otra",
        Slip::BigPartThenRest => "Escribieron entera la parte grande y detrás el resto",
        Slip::HalfOverwritten => "Dejaron un cero de más",
        Slip::PlaceWordWritten => "Escribieron también en cifras la palabra ciento o mil",
        Slip::FaceValue => "Contaron todas las cifras como unidades",
        Slip::CountedAlike => "Contaron cada bloque como uno",
        Slip::PlaceOff => "Pusieron una cifra en la posición de al lado",
        Slip::ReadInPieces => "Partieron el número y leyeron cada parte por separado",
        Slip::FromTheOnes => "Compararon primero las unidades",
        Slip::NotTakenAway => "No quitaron lo que canjearon",
        Slip::OneForOne => "Canjearon uno por uno, no uno por diez",
        Slip::OneTooFew => "Pusieron nueve por cada pieza que canjearon, no diez",
        Slip::CountsSideBySide => "Escribieron las cantidades una al lado de otra",
        Slip::TenLeftOut => "Olvidaron las diez piezas de más",
        Slip::TensOnesSwapped => "Confundieron las decenas con las unidades",
        Slip::HundredsTensSwapped => "Confundieron las centenas con las decenas",
        Slip::Reversed => "Escribieron las cifras de derecha a izquierda",
    }
}
