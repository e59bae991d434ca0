//! What a Spanish plan states of the packet, statement by statement.

use super::packet::Envelope;
use super::read::whole;
use super::rules::{Check, Rule, Scene, count, holds, numbers, same};
use super::stated::{
    activity, choice, cut_out, group, group_checks, group_letters, known, learners, letters, packet, rows, slip, step,
    strip,
};
use crate::support::answers::{figures, parts};
use crate::support::answers_es::{counted, spelled, worth};
use placewright::spec::SheetKind;

/// A number, and what is said to be its words.
fn read_as(held: &Envelope, holes: &[&str]) -> Check {
    known(held, holes[0])?;
    same(holes[1].to_owned(), spelled(count(holes[0])))
}

/// "paso 4: «Suma de partes»; luego al paso 5: las palabras".
fn turned(held: &Envelope, scene: &Scene, said: &str) -> Check {
    said.split("; luego al ").try_for_each(|part| step(held, figures(part)[0], scene.number))
}

/// "18 hojas", "9 juegos", "8 placas, 9 barras y 10 cubos".
fn out_of(held: &Envelope, holes: [&str; 4]) -> Check {
    let [what, sheets, sets, each] = holes;
    cut_out(held, &[what, sheets, "", "", sets, "", each])
}

/// The cards of a number's parts.
fn cards(held: &Envelope, scene: &Scene, said: &str) -> Check {
    same(numbers(said), parts(scene.number))?;
    let pieces = held.of_kind(SheetKind::Layered).flat_map(|page| &page.layers).flat_map(|layer| &layer.pieces);
    let names: Vec<u32> = pieces.flat_map(|piece| figures(&piece.name)).collect();
    holds(numbers(said).iter().all(|part| names.contains(part)), format!("cards are {names:?}"))
}

/// A display page of a number.
fn shown(held: &Envelope, said: &str) -> Check {
    let digits = |page| -> String { whole([page]).chars().filter(char::is_ascii_digit).collect() };
    let is = held.of_kind(SheetKind::Display).any(|page| digits(page).contains(&count(said).to_string()));
    holds(is, "no such display page")
}

fn row_of(held: &Envelope, said: &str) -> Check {
    holds(figures(&whole(held.of_kind(SheetKind::Record))).contains(&count(said)), "no such row")
}

pub const RULES: &[Rule] = &[
    ("Dé un control rápido a cada estudiante: {}.", |held, _, h| group_checks(held, h[0])),
    // Before the lesson.
    ("Recorte los bloques: de {} hojas salen {} juegos, cada uno de {}.", |held, _, h| {
        out_of(held, ["bloques", h[0], h[1], h[2]])
    }),
    ("Recorte los bloques: de {} {} sale 1 juego de {}.", |held, _, h| out_of(held, ["bloques", h[0], "1", h[2]])),
    ("Recorte las tarjetas superpuestas: de {} hojas salen {} juegos, cada uno de {}.", |held, _, h| {
        out_of(held, ["tarjetas", h[0], h[1], h[2]])
    }),
    ("Recorte las tarjetas superpuestas: de {} {} sale 1 juego de {}.", |held, _, h| {
        out_of(held, ["tarjetas", h[0], "1", h[2]])
    }),
    ("Separe las filas de cubos: {} {}, {} cortes en cada uno.", |held, _, h| {
        same(count(h[0]) as usize, held.copies(SheetKind::Blocks))
    }),
    ("Recorte y pegue con cinta las {} páginas de cada tapete de valor posicional: {} en total.", |held, _, h| {
        same(count(h[0]) as usize, held.pages_of(SheetKind::Mat))?;
        same(count(h[1]) as usize, held.copies(SheetKind::Mat))
    }),
    ("Tenga {} {} {} para la pared o la cámara de documentos.", |held, _, h| {
        same(count(h[1]) as usize, held.of_kind(SheetKind::Display).count())
    }),
    ("Tenga {} {} {} para la pared o la cámara de documentos. Hoy solo se {} de {}: {} modelo {}.", |held, _, h| {
        same(count(h[1]) as usize, held.of_kind(SheetKind::Display).count())?;
        let model = |k: u32| held.lesson.chosen.model[k as usize - 1].value();
        same(numbers(h[4]), numbers(h[6]).into_iter().map(model).collect())?;
        let plan = whole(held.of_kind(SheetKind::Plan));
        let is = |n: &u32| plan.contains(&format!("Muestre la lámina de {n}"));
        holds(numbers(h[4]).iter().all(is), "another is shown")
    }),
    ("Cuente las tijeras: {}.", |held, _, h| learners(held, h[0])),
    ("Cuente las tijeras al recogerlas: {}, cerradas.", |held, _, h| learners(held, h[0])),
    ("Cuente bloques de la caja: {} {}", |held, _, h| {
        same(count(h[0]), held.learners().div_ceil(held.share(SheetKind::Mat)))
    }),
    ("Unos {} minutos para una persona. Los tiempos son aproximados.", |_, scene, h| same(count(h[0]), scene.chores)),
    (
        "Unos {} minutos para una persona. Los tiempos son aproximados. Si hay menos tiempo, empiece por arriba. Para lo que quede sin hacer, vea «Si no hubo tiempo».",
        |held, scene, h| {
            let plan = whole(held.of_kind(SheetKind::Plan));
            holds(plan.lines().any(|line| line == "Si no hubo tiempo"), "there is no such part")?;
            same(count(h[0]), scene.chores)
        },
    ),
    ("Cerca de {} minuto para una persona. Los tiempos son aproximados.", |_, scene, h| {
        same(count(h[0]), scene.chores)
    }),
    (
        "Plan de clase, {} minutos. Las líneas en negrita junto a una barra se dicen en voz alta. Los tiempos son minutos desde el comienzo.",
        |held, _, h| same(count(h[0]), held.lesson.spec.minutes.value),
    ),
    // What is done.
    ("Escriba {} donde todos lo vean. Espere un momento antes de decirlo.", |held, _, h| known(held, h[0])),
    ("Escriba {} donde los dos lo vean. Espere un momento antes de decirlo.", |held, _, h| known(held, h[0])),
    ("Escriba {} en el pizarrón.", |held, _, h| known(held, h[0])),
    ("Escriba estos números en el pizarrón: {}.", |held, _, h| known(held, h[0])),
    ("Señale otra vez {}.", |held, _, h| known(held, h[0])),
    ("Explique que {} se lee «{}», sin «y».", |held, _, h| read_as(held, h)),
    ("Explique que la «y» va solo entre decenas y unidades: {} es «{}».", |held, _, h| read_as(held, h)),
    ("Se canjea con los bloques: {}. Se cuenta lo que hay ahora: {}. Sigue siendo {}.", |held, scene, h| {
        same(counted(h[1]), scene.number)?;
        same(count(h[2]), scene.number)?;
        known(held, h[2])
    }),
    ("Se canjea en el dibujo: {}. Se cuenta lo que hay ahora: {}. Sigue siendo {}.", |held, scene, h| {
        same(counted(h[1]), scene.number)?;
        same(count(h[2]), scene.number)?;
        known(held, h[2])
    }),
    (
        "Se canjean mentalmente varias piezas: {} de {}. Por cada pieza vienen 10 {}: {}. Ahora hay {}. Sigue siendo {}.",
        |held, _, h| {
            let each = (1..=figures(h[0])[0]).map(|piece| (piece * 10).to_string()).collect::<Vec<_>>();
            same(h[3].to_owned(), each.join(", "))?;
            same(counted(h[0]), counted(&format!("{} {}", each.last().expect("pieces"), h[2])))?;
            same(counted(h[4]), count(h[1]))?;
            same(h[1], h[5])?;
            known(held, h[1])
        },
    ),
    ("Acepte otros canjes: {} es igual a {}. Para comprobarlo, sume lo que valen las partes.", |held, _, h| {
        known(held, h[0])?;
        same(counted(h[1]), count(h[0]))
    }),
    ("Los estudiantes escriben {} de la misma manera.", |held, _, h| known(held, h[0])),
    (
        "Los estudiantes escriben las cifras de {} en papelitos y los ponen en el tapete, uno en cada columna.",
        |held, _, h| {
            known(held, h[0])?;
            holds(held.has(SheetKind::Mat), "there is no mat")
        },
    ),
    ("Que la clase lo arme: {}", |_, scene, h| same(worth(h[0]), scene.number)),
    ("Que el estudiante lo arme: {}", |_, scene, h| same(worth(h[0]), scene.number)),
    ("Que pongan las tarjetas {} una sobre otra, con los bordes de la derecha juntos.", |held, scene, h| {
        cards(held, scene, h[0])
    }),
    (
        "Que el estudiante ponga las tarjetas {} una sobre otra, con los bordes de la derecha juntos.",
        |held, scene, h| cards(held, scene, h[0]),
    ),
    ("Muestre la lámina de {}. Los estudiantes la comparan con su trabajo.", |held, _, h| shown(held, h[0])),
    ("Muestre la lámina de {}. El estudiante la compara con su trabajo.", |held, _, h| shown(held, h[0])),
    ("Muestre el paso 1 de la lámina de {}: solo las cifras.", |held, _, h| step(held, 1, count(h[0]))),
    ("Muestre el paso 1 de la lámina de {}: solo las cifras. Espere un momento antes de decirlo.", |held, _, h| {
        step(held, 1, count(h[0]))
    }),
    ("Pase al {}.", |held, scene, h| turned(held, scene, h[0])),
    ("Pase al {}. {}", |held, scene, h| turned(held, scene, h[0])),
    ("Que busquen la fila de {} en la hoja de registro. Se llena en común.", |held, _, h| row_of(held, h[0])),
    ("Que el estudiante busque la fila de {} en la hoja de registro. Llénenla en común.", |held, _, h| {
        row_of(held, h[0])
    }),
    (
        "Los estudiantes hacen {} por su cuenta o en parejas. {} {} para quien tenga tiempo. Recorra el salón y mire qué escriben.",
        |held, _, h| {
            known(held, h[0])?;
            known(held, h[1])
        },
    ),
    ("Los estudiantes hacen {} por su cuenta o en parejas. Recorra el salón y mire qué escriben.", |held, _, h| {
        known(held, h[0])
    }),
    ("El estudiante hace {} por su cuenta. Si hay tiempo, también {}. Mire qué escribe.", |held, _, h| {
        known(held, h[0])?;
        known(held, h[1])
    }),
    ("El estudiante hace {} por su cuenta. Mire qué escribe.", |held, _, h| known(held, h[0])),
    // What is given out.
    (
        "Dé un paquete a cada estudiante. Quienes se sientan juntos reciben letras distintas: {}. Sacan {} y dejan lo demás para después.",
        |held, _, h| {
            packet(held, "packet", h[1])?;
            letters(held, h[0])
        },
    ),
    ("Dé un paquete a cada estudiante: {}. Sacan {} y dejan lo demás para después.", |held, _, h| {
        packet(held, "packet", h[1])?;
        group_letters(held, h[0])
    }),
    ("Los estudiantes sacan {} de su paquete.", |held, _, h| packet(held, "packet", h[0])),
    (
        "Los estudiantes recortan por las líneas: {} piezas cada uno. Las piezas de cada uno se quedan juntas.",
        |held, _, h| same(count(h[0]) as usize, held.pieces_of(SheetKind::Strips)),
    ),
    ("El estudiante recorta por las líneas: {} piezas. Las piezas se quedan juntas.", |held, _, h| {
        same(count(h[0]) as usize, held.pieces_of(SheetKind::Strips))
    }),
    ("Hay tiempo para las primeras {} filas. Quien termina pronto sigue con la próxima fila.", |held, _, h| {
        rows(held, h[0])
    }),
    ("Hay tiempo para las primeras {} filas. Si termina pronto, que siga.", |held, _, h| rows(held, h[0])),
    ("Hay tiempo para {} filas como mucho. Quien termina pronto sigue con la próxima fila.", |held, _, h| {
        let most = held.lesson.sets.iter().map(|set| set.rows.len()).max().unwrap_or(0);
        holds((count(h[0]) as usize) < most, format!("no board has more than {most}"))
    }),
    (
        "Miramos solo las primeras {} filas. Escribimos o dibujamos el mismo número en las otras casillas.",
        |held, _, h| {
            holds(held.lesson.draws_in_boxes(), "nothing is drawn")?;
            rows(held, h[0])
        },
    ),
    ("Miramos solo las primeras {} filas. Escribimos el mismo número en las otras casillas.", |held, _, h| {
        rows(held, h[0])
    }),
    (
        "Hoy hacemos las primeras {} filas del tablero. Cada una muestra {}. Buscamos las tiras que muestran el mismo número.",
        |held, _, h| rows(held, h[0]),
    ),
    ("{}: {} filas y {} tiras cada uno, números del {} al {}.", |held, _, h| group(held, h)),
    ("{} minutos: {}.", activity),
    ("Recoja los controles rápidos y cuéntelos: {}.", |held, _, h| learners(held, h[0])),
    ("Recoja las hojas y cuéntelas: {}.", |held, _, h| learners(held, h[0])),
    // What is said.
    ("En {} el {} aparece {} veces. De izquierda a derecha vale {}.", |_, _, h| {
        let (n, digit) = (count(h[0]), count(h[1]));
        let worths: Vec<u32> = parts(n).into_iter().filter(|part| part.to_string().starts_with(h[1])).collect();
        same(numbers(h[3]), worths.clone())?;
        same(count(h[2]) as usize, worths.len())?;
        holds(digit > 0, "a 0 is worth nothing")
    }),
    ("{} termina en {}. Eso es 1 decena y {}.", |_, _, h| {
        let tail = count(h[0]) % 100;
        same(h[1].to_owned(), spelled(tail))?;
        same(counted(h[2]), tail - 10)
    }),
    ("{} es 1 decena y {}.", |_, _, h| same(h[0].to_lowercase(), spelled(10 + counted(h[1])))),
    // What is looked out for.
    ("Si la tira {} está en la fila de {} (juego {}): {}. Explicado más arriba.", |held, _, h| {
        strip(held, Some(h[2]), h[0], h[1])?;
        slip(held, h[3])
    }),
    ("Si la tira {} está en la fila de {} (juego {}): {}.", |held, _, h| {
        strip(held, Some(h[2]), h[0], h[1])?;
        slip(held, h[3])
    }),
    ("Si la tira {} está en la fila de {}: {}. Explicado más arriba.", |held, _, h| {
        strip(held, None, h[0], h[1])?;
        slip(held, h[2])
    }),
    ("Si la tira {} está en la fila de {}: {}.", |held, _, h| {
        strip(held, None, h[0], h[1])?;
        slip(held, h[2])
    }),
    ("Si ve {} en vez de {}: {}. Explicado más arriba.", |held, _, h| {
        known(held, h[1])?;
        slip(held, h[2])
    }),
    ("Si ve {} en vez de {}: {}.", |held, _, h| {
        known(held, h[1])?;
        slip(held, h[2])
    }),
    ("Control {}, pregunta {}, opción {}, {}: {}. Explicado más arriba.", |held, _, h| choice(held, h)),
    ("Control {}, pregunta {}, opción {}, {}: {}.", |held, _, h| choice(held, h)),
];
