//! Pixels to PNG.
//!
//! In: a [`Pixels`]. Out: the bytes of a PNG file (W3C Portable Network Graphics, third edition): grey where every pixel
//! is, with its resolution and the program that made it, and no time.

use png::{BitDepth, ColorType, Compression, Encoder, Filter, PixelDimensions, Unit};

use super::{Pixels, internal};
use crate::diag::Problem;

/// What stands in every picture; it tells pictures of ours from others.
pub const MARK: &str = concat!("Placewright ", env!("CARGO_PKG_VERSION"));

/// Millimetres to the inch, times ten.
const TENTHS: u32 = 254;

/// Writes a PNG file that says it has so many dots to the inch.
pub fn encode(picture: &Pixels, dpi: u16) -> Result<Vec<u8>, Problem> {
    let broken = |error: png::EncodingError| internal(&error.to_string());
    let grey = picture.rgb.chunks_exact(3).all(|pixel| pixel[0] == pixel[1] && pixel[1] == pixel[2]);
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, picture.width, picture.height);
    encoder.set_color(if grey { ColorType::Grayscale } else { ColorType::Rgb });
    encoder.set_depth(BitDepth::Eight);
    encoder.set_compression(Compression::High);
    encoder.set_filter(Filter::NoFilter);
    // Dots to the metre, rounded.
    let dots = (u32::from(dpi) * 10_000 + TENTHS / 2) / TENTHS;
    encoder.set_pixel_dims(Some(PixelDimensions { xppu: dots, yppu: dots, unit: Unit::Meter }));
    encoder.add_text_chunk("Software".to_owned(), MARK.to_owned()).map_err(broken)?;
    let mut writer = encoder.write_header().map_err(broken)?;
    if grey {
        let greys: Vec<u8> = picture.rgb.iter().copied().step_by(3).collect();
        writer.write_image_data(&greys).map_err(broken)?;
    } else {
        writer.write_image_data(&picture.rgb).map_err(broken)?;
    }
    writer.finish().map_err(broken)?;
    Ok(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Reads a PNG back with the library's decoder.
    fn decode(bytes: &[u8]) -> (png::OutputInfo, Vec<u8>, Option<PixelDimensions>) {
        let mut reader = png::Decoder::new(std::io::Cursor::new(bytes)).read_info().expect("a PNG");
        let mut pixels = vec![0; reader.output_buffer_size().expect("a size")];
        let info = reader.next_frame(&mut pixels).expect("pixels");
        let dims = reader.info().pixel_dims;
        (info, pixels, dims)
    }

    #[test]
    fn a_picture_comes_back_grey_or_in_colour() {
        let grey = Pixels { width: 2, height: 1, rgb: vec![9, 9, 9, 200, 200, 200] };
        let bytes = encode(&grey, 96).expect("written");
        let (info, pixels, dims) = decode(&bytes);
        assert_eq!((info.color_type, pixels), (ColorType::Grayscale, vec![9, 200]));
        // 96 dots to the inch are 3,779.53 to the metre.
        assert_eq!(dims.map(|dims| dims.xppu), Some(3780));
        assert!(bytes.windows(MARK.len()).any(|part| part == MARK.as_bytes()));
        let colour = Pixels { width: 1, height: 1, rgb: vec![1, 2, 3] };
        let (info, pixels, _) = decode(&encode(&colour, 300).expect("written"));
        assert_eq!((info.color_type, pixels), (ColorType::Rgb, vec![1, 2, 3]));
    }
}
