//! Where the bytes of a tile come from: the caller opens, this crate reads.

use flate2::read::MultiGzDecoder;
use std::io::{self, Cursor, Read, Seek, SeekFrom};

use words::Message;

/// Bytes that can be read anywhere.
pub trait ReadSeek: Read + Seek + Send {}

impl<T: Read + Seek + Send> ReadSeek for T {}

/// Opens the bytes of one tile, as often as asked. A closure will do:
///
/// ```
/// let bytes = vec![0u8; 4];
/// let open = move || Ok(Box::new(std::io::Cursor::new(bytes.clone())) as Box<dyn terrain::source::ReadSeek>);
/// # fn takes(_: impl terrain::source::OpenTile + 'static) {}
/// takes(open);
/// ```
pub trait OpenTile: Send + Sync {
    /// The tile's bytes from the start.
    ///
    /// # Errors
    /// Whatever opening gives.
    fn open(&self) -> io::Result<Box<dyn ReadSeek>>;
}

impl<F> OpenTile for F
where
    F: Fn() -> io::Result<Box<dyn ReadSeek>> + Send + Sync,
{
    fn open(&self) -> io::Result<Box<dyn ReadSeek>> {
        self()
    }
}

/// True for the first two bytes of a gzip stream; the reader is left at its start.
pub(crate) fn is_gzip(reader: &mut dyn ReadSeek) -> io::Result<bool> {
    let mut magic = Vec::with_capacity(2);
    reader.take(2).read_to_end(&mut magic)?;
    reader.seek(SeekFrom::Start(0))?;
    Ok(magic == [0x1f, 0x8b])
}

/// The unpacked bytes of a gzip stream, refused beyond `most` bytes.
pub(crate) fn unpack(reader: Box<dyn ReadSeek>, most: u64) -> Result<Vec<u8>, Message> {
    let mut bytes = Vec::new();
    MultiGzDecoder::new(reader)
        .take(most + 1)
        .read_to_end(&mut bytes)
        .map_err(Message::foreign)?;
    if bytes.len() as u64 > most {
        return Err(Message::new("terrain-unpacked-beyond").count("most", most as i64));
    }
    Ok(bytes)
}

/// Opens a tile and unpacks it into memory if it is gzipped.
pub(crate) fn open_unpacked(tile: &dyn OpenTile, most: u64) -> Result<Box<dyn ReadSeek>, Message> {
    let mut reader = tile.open().map_err(Message::foreign)?;
    if is_gzip(reader.as_mut()).map_err(Message::foreign)? {
        Ok(Box::new(Cursor::new(unpack(reader, most)?)))
    } else {
        Ok(reader)
    }
}
