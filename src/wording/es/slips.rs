//! What is said of slips in Spanish.

use super::Spanish;
use crate::number::Slip;
use crate::wording::{ReadIn, Slips, Tools};

impl Slips for Spanish {
    fn slip_name(&self, slip: Slip) -> &'static str {
        match slip {
            Slip::ZeroDropped => "cero omitido",
            Slip::ZeroMoved => "cero cambiado de lugar",
            Slip::TeenTy => "dieci- y decena confundidos",
            Slip::TeenReversed => "cifras del dieci- invertidas",
            Slip::SoundAlike => "palabras que se parecen",
            Slip::HundredWord => "cien y ciento confundidos",
            Slip::SideBySide => "partes una tras otra",
            Slip::BigPartThenRest => "parte mayor, luego el resto",
            Slip::HalfOverwritten => "ceros a medio tapar",
            Slip::PlaceWordWritten => "palabra de posición escrita",
            Slip::FaceValue => "cifras como unidades",
            Slip::CountedAlike => "bloques contados por igual",
            Slip::PlaceOff => "posición vecina",
            Slip::ReadInPieces => "leído por partes",
            Slip::FromTheOnes => "comparado por las unidades",
            Slip::NotTakenAway => "pieza canjeada sin quitar",
            Slip::OneForOne => "canje uno por uno",
            Slip::OneTooFew => "nueve en vez de diez",
            Slip::CountsSideBySide => "cantidades una tras otra",
            Slip::TenLeftOut => "canje olvidado",
            Slip::TensOnesSwapped => "decenas y unidades intercambiadas",
            Slip::HundredsTensSwapped => "centenas y decenas intercambiadas",
            Slip::Reversed => "cifras al revés",
        }
    }

    fn slip_thinking(&self, slip: Slip, read: ReadIn) -> &'static str {
        match slip {
            Slip::ZeroDropped => "El cero no vale nada, así que no hace falta escribirlo ni contarlo.",
            Slip::ZeroMoved => "El número lleva un cero, pero da igual en qué lugar.",
            Slip::TeenTy => "Las palabras suenan parecido, así que dicen lo mismo.",
            Slip::TeenReversed => "La palabra se escribe con sus cifras en el orden contrario.",
            Slip::SoundAlike => "Dos palabras que se parecen se toman una por otra.",
            Slip::HundredWord => "Cien y ciento se usan sin mirar lo que sigue.",
            Slip::SideBySide => "Cada parte se escribe entera, una al lado de otra.",
            Slip::BigPartThenRest => "La parte mayor se escribe entera y el resto va detrás.",
            Slip::HalfOverwritten => "El resto tapa los ceros de la parte mayor, pero queda un cero de más.",
            Slip::PlaceWordWritten => {
                "La palabra que nombra una posición se oye como un número, así que también se escribe."
            }
            Slip::FaceValue => "Cada cifra cuenta unidades, esté donde esté.",
            Slip::CountedAlike => "Cada bloque cuenta uno, sea del tamaño que sea.",
            Slip::PlaceOff => "Una cifra cuenta según su posición, pero esta se cuenta en la de al lado.",
            Slip::ReadInPieces if read == ReadIn::Hundreds => {
                "Lee la primera cifra como decenas y el resto como otro número."
            }
            Slip::ReadInPieces => "Lee las cifras una por una, como las de un número de teléfono.",
            Slip::FromTheOnes => "Los números se comparan desde la derecha: decide la última cifra distinta.",
            Slip::NotTakenAway => "Vienen piezas menores y lo que se canjeó por ellas se queda.",
            Slip::OneForOne => "Una pieza canjeada da una pieza del tipo siguiente, no diez.",
            Slip::OneTooFew => "Una pieza canjeada cuenta como una de sus diez, así que por ella solo vienen nueve.",
            Slip::CountsSideBySide => "Cada cantidad se escribe tal cual, una al lado de otra.",
            Slip::TenLeftOut => "En una columna cabe una cifra, así que lo que pasa de nueve se olvida.",
            Slip::TensOnesSwapped => "Conoce las cifras, pero no cuál cuenta decenas y cuál unidades.",
            Slip::HundredsTensSwapped => "Conoce las cifras, pero no cuál cuenta centenas y cuál decenas.",
            Slip::Reversed => "Las cifras están bien, pero el número se escribe de derecha a izquierda.",
        }
    }

    fn slip_next(&self, slip: Slip, tools: Tools) -> &'static str {
        let Tools { mat, blocks, cards, read } = tools;
        match slip {
            Slip::ZeroDropped if mat && blocks => {
                "Arme el número en el tapete, señale la columna vacía y escriba 0 en ella."
            }
            Slip::ZeroDropped => "Escriba las cifras bajo los nombres de sus posiciones y busque la que queda vacía.",
            Slip::ZeroMoved if blocks => {
                "Arme el número y después la respuesta del estudiante, y pregunte qué columna queda vacía en cada uno."
            }
            Slip::ZeroMoved => "Escriba la respuesta debajo del número y pregunte qué posición está vacía en cada uno.",
            Slip::TeenTy if blocks => {
                "Diga despacio las dos palabras, como trece y treinta, arme los dos números y compárelos."
            }
            Slip::TeenTy => {
                "Diga despacio las dos palabras, como trece y treinta, dibuje los dos números y compárelos."
            }
            Slip::TeenReversed if blocks => {
                "Arme el número con una barra y cubos; escriba primero la cifra de la barra."
            }
            Slip::TeenReversed => "Dibuje una raya y puntos; escriba primero la cifra de la raya.",
            Slip::SoundAlike if blocks => {
                "Diga despacio las dos palabras que se confunden, arme los dos números y compárelos."
            }
            Slip::SoundAlike => {
                "Diga despacio las dos palabras que se confunden y escriba cuántas decenas dice cada una."
            }
            Slip::HundredWord => "Haga leer 100 solo y seguido de otro número: «cien», pero «ciento uno».",
            Slip::SideBySide if cards => {
                "Ponga las tarjetas una sobre otra, de modo que cada parte menor tape los ceros de debajo."
            }
            Slip::SideBySide => "Escriba las partes una debajo de otra, unidades bajo unidades, y súmelas.",
            Slip::BigPartThenRest if cards => "Ponga las tarjetas del resto sobre la tarjeta mayor y lea el resultado.",
            Slip::BigPartThenRest => "Escriba el resto debajo de la parte mayor, unidades bajo unidades, y súmelos.",
            Slip::HalfOverwritten if mat => {
                "Cuente las columnas del tapete y las cifras escritas: una cifra por columna."
            }
            Slip::HalfOverwritten => {
                "Nombre las posiciones desde la izquierda y cuente las cifras: una cifra por posición."
            }
            Slip::PlaceWordWritten if mat => {
                "Muestre qué palabra nombra una columna del tapete; solo se escribe cuántos hay en cada columna."
            }
            Slip::PlaceWordWritten => {
                "Pregunte qué palabra nombra una posición; solo se escribe cuántos hay en cada posición."
            }
            Slip::FaceValue if blocks => {
                "Pregunte qué bloques representa cada cifra y ponga una barra junto a un cubo para comparar."
            }
            Slip::FaceValue => "Señale una cifra tras otra y pregunte cada vez qué cuenta.",
            Slip::CountedAlike if blocks => {
                "Ponga diez cubos junto a una barra y pida contar los bloques del dibujo: primero los mayores, cada uno por su valor."
            }
            Slip::CountedAlike => {
                "Pida contar en voz alta los bloques del dibujo: primero los mayores, cada uno por su valor."
            }
            Slip::PlaceOff if blocks => {
                "Nombre en voz alta las posiciones desde las unidades, con un dedo en cada cifra, y arme el número."
            }
            Slip::PlaceOff => "Nombre en voz alta las posiciones desde las unidades, con un dedo en cada cifra.",
            Slip::FromTheOnes => {
                "Escriba los dos números uno debajo de otro y compare primero la posición mayor, después la siguiente."
            }
            Slip::ReadInPieces if read == ReadIn::Periods => {
                "Tape las tres últimas cifras, lea lo que queda, diga mil y lea después las tres últimas."
            }
            Slip::ReadInPieces => {
                "Tape todo menos la primera cifra, dígala con su posición y lea el resto como un solo número."
            }
            Slip::NotTakenAway if blocks => {
                "Canjee con bloques: lo que se canjea vuelve al montón antes de que salgan las piezas menores."
            }
            Slip::NotTakenAway => "Dibújelo, tache lo que se canjea y dibuje diez del tipo siguiente por cada pieza.",
            Slip::OneForOne if blocks => "Ponga diez piezas junto a una del tipo que se canjea y canjee otra vez.",
            Slip::OneForOne => "Pregunte cuántas piezas del tipo menor hacen una del mayor y canjee otra vez.",
            Slip::OneTooFew if blocks => "Cuente en voz alta las piezas nuevas según salen, y después toda la columna.",
            Slip::OneTooFew => {
                "Dibuje diez piezas por cada una canjeada, contando en voz alta, y cuente después todas las de ese tipo."
            }
            Slip::CountsSideBySide if mat && blocks => {
                "Ármelo en el tapete, canjee cada diez piezas y escriba una cifra por columna."
            }
            Slip::CountsSideBySide => {
                "Encierre cada diez piezas de un tipo, canjéelas y escriba una cifra por posición."
            }
            Slip::TenLeftOut if blocks => {
                "Canjee cada diez piezas de un tipo por una del siguiente, en su propia columna."
            }
            Slip::TenLeftOut => "Encierre cada diez de un tipo y cuente cada grupo como una más del siguiente.",
            Slip::TensOnesSwapped if blocks => {
                "Arme el número y después la respuesta, y pregunte cuál tiene más decenas."
            }
            Slip::TensOnesSwapped => "Escriba la respuesta debajo del número y pregunte cuál tiene más decenas.",
            Slip::HundredsTensSwapped if blocks => {
                "Arme el número y después la respuesta, y pregunte cuál tiene más centenas."
            }
            Slip::HundredsTensSwapped => "Escriba la respuesta debajo del número y pregunte cuál tiene más centenas.",
            Slip::Reversed if mat => "Señale el extremo izquierdo del tapete y escriba primero la posición mayor.",
            Slip::Reversed => "Nombre las posiciones desde la izquierda y escriba primero la mayor.",
        }
    }
}
