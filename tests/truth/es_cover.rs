//! What a Spanish cover states of the packet, statement by statement.

use super::cover::{
    check_on, checks_key, copied, folios, keys_on, late, lists_without_copier, most_have, rows_by_hand, starts_with,
    tally_on, without_copier,
};
use super::rules::{Rule, all_pages, count, holds, numbers, same};
use placewright::spec::SheetKind;

pub const RULES: &[Rule] = &[
    ("Para quien da hoy esta clase: {} minutos, {} {}.", |held, _, h| {
        same(count(h[0]), held.lesson.spec.minutes.value)?;
        same(count(h[1]), held.learners())
    }),
    (
        "Lea el plan en {}: las líneas en negrita se dicen en voz alta, y cada pregunta lleva al lado su respuesta.",
        |held, _, h| same(all_pages(h[0]), folios(held, |page| page.sheet == SheetKind::Plan)),
    ),
    ("Deje libre el pizarrón: la clase empieza cuando escriba en él {}.", |held, _, h| {
        starts_with(held, "Escriba {} donde {}", h[0])
    }),
    ("Tenga listas las láminas: la clase empieza con el paso 1 de la lámina de {}.", |held, _, h| {
        starts_with(held, "Muestre el paso 1 de la lámina de {}: solo las cifras.{}", h[0])
    }),
    ("Las respuestas de tableros y tiras están en {}; las de los controles rápidos, en {}.", |held, _, h| {
        keys_on(held, h[0])?;
        same(all_pages(h[1]), checks_key(held))
    }),
    ("Las respuestas de tableros y tiras están en {}.", |held, _, h| {
        keys_on(held, h[0])?;
        holds(!held.has(SheetKind::Exit), "there are checks")
    }),
    ("Las respuestas de los controles rápidos están en {}.", |held, _, h| {
        holds(!held.has(SheetKind::Board) && !held.has(SheetKind::Strips), "there are boards")?;
        same(all_pages(h[0]), checks_key(held))
    }),
    (
        "La lista de la clase, en la página {}, dice el número y la letra de cada estudiante, y cada grupo.",
        |held, _, h| tally_on(held, h[0]),
    ),
    (
        "Los nombres de cada grupo van en la lista de la clase, página {}. Si no están y nadie los sabe, copie el juego {} para todos.",
        |held, _, h| {
            tally_on(held, h[0])?;
            most_have(held, h[1])
        },
    ),
    (
        "Los nombres de cada grupo van aquí. Si no están y nadie los sabe, copie el juego {} para todos.",
        |held, _, h| most_have(held, h[0]),
    ),
    ("Copie cada página las veces que dice a su lado, a tamaño real.{}", |held, _, h| copied(held, h[0])),
    ("Con {} a {} minutos: {}.", |held, _, h| late(held, &[h[0], h[1], h[2]])),
    ("Con {} minutos: {}.", |held, _, h| late(held, &[h[0], "", h[1]])),
    (
        "Sin fotocopiadora: escriba en el pizarrón los primeros {} números del tablero de cada juego. {}.",
        |held, _, h| rows_by_hand(held, h[0]),
    ),
    ("Sin fotocopiadora, escriba una lista para cada grupo. {}. Cada estudiante {}.", |held, _, h| {
        lists_without_copier(held, h[0])
    }),
    (
        "Sin fotocopiadora: escriba en el pizarrón las preguntas del control rápido {} (página {}), de una en una, con sus opciones. {}",
        |held, _, h| check_on(held, h[0], h[1]),
    ),
    ("Sin fotocopiadora: escriba {} en el pizarrón. {} {} muestra {}.", |held, _, h| {
        without_copier(held, h[0])?;
        same(numbers(h[0]).len() > 1, h[2].ends_with("los"))
    }),
];
