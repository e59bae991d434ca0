//! Files that have layers, pictures, codes and fonts in common show and say what each would show and say alone.

use hayro_syntax::Pdf;

use super::samples;
use crate::support::{pdf, raster, structure};

#[test]
fn a_file_is_the_same_to_eye_and_ear_with_others_beside_it() {
    let harbour = samples::all().iter().find(|sample| sample.name == "harbour").expect("the sample");
    let mut shared = 0;
    for (packet, (name, together)) in harbour.packets.iter().zip(harbour.files(2)) {
        let alone = packet.bytes(&harbour.family, 1);
        let heard = |bytes: &[u8]| {
            let pages = pdf::read(bytes);
            structure::listen(&structure::read(&Pdf::new(bytes.to_vec()).unwrap()).unwrap(), &pages)
        };
        assert_eq!(heard(&alone), heard(&together), "{name}");
        // A copy room's pages are alike: some are enough.
        for index in (0..packet.pages.len()).step_by(if packet.pages.len() > 40 { 9 } else { 1 }) {
            let dots = |bytes| {
                let drawn = raster::draw(bytes, index, 0.75);
                let rows = (0..drawn.height).flat_map(|y| (0..drawn.width).map(move |x| (x, y)));
                rows.map(|(x, y)| drawn.grey(x, y)).collect::<Vec<u8>>()
            };
            assert!(dots(&alone) == dots(&together), "{name}, page {}", index + 1);
        }
        shared += usize::from(alone != together);
    }
    assert!(shared > 1, "nothing was shared");
}
