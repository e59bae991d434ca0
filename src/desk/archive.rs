//! The packets of a lesson as one ZIP file. They are stored as they are: what is in them is deflated already.

use std::io::{self, Write};

use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

use super::workshop::{Made, Refused, Workshop};

/// Writes the files that were made, in a folder of this name, as they come from where they are.
pub fn write(out: &mut dyn Write, folder: &str, made: &Made, workshop: &dyn Workshop) -> io::Result<()> {
    let mut zip = ZipWriter::new_stream(out);
    // No times: the same lesson gives the same bytes.
    let options = SimpleFileOptions::default().compression_method(CompressionMethod::Stored);
    for (file, bytes) in &made.files {
        let (mut content, _) = workshop.made(made, file).map_err(|why| match why {
            Refused::There => io::Error::from(io::ErrorKind::AlreadyExists),
            Refused::Because(why) => io::Error::other(why),
        })?;
        zip.start_file(format!("{folder}/{file}"), options.large_file(*bytes > u64::from(u32::MAX)))?;
        io::copy(&mut content, &mut zip)?;
    }
    zip.finish()?;
    Ok(())
}
