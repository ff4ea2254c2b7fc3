//! The container of WebP (RFC 9649, 2.3 and 2.4): chunks, each with its length up front.

/// A WebP file up to the length that it says up front: what follows is no part of it. `None` when
/// it is cut off before.
pub fn riff(bytes: &[u8]) -> Option<&[u8]> {
    let said = u32::from_le_bytes(*bytes.get(4..)?.first_chunk()?) as usize;
    bytes.get(..said.checked_add(8)?)
}

/// The chunk that `rest` begins with: its content, all of it with head and filling byte, and what
/// follows. `None` when it is cut off.
pub fn chunk(rest: &[u8]) -> Option<(&[u8], &[u8], &[u8])> {
    let length = u32::from_le_bytes(*rest.get(4..)?.first_chunk()?) as usize;
    let content = rest.get(8..length.checked_add(8)?)?;
    // The filling byte of an odd length is left away by some writers at the very end.
    let padded = (8 + length + length % 2).min(rest.len());
    let (chunk, after) = rest.split_at_checked(padded)?;
    Some((content, chunk, after))
}

/// Whether every chunk ends within the file, which is cut to its length: the decoder takes as much
/// memory as a chunk says that it is long, before it reads any of it.
pub fn is_whole(riff: &[u8]) -> bool {
    let mut rest = riff.get(12..).unwrap_or_default();
    while rest.len() >= 8 {
        let Some((_, _, after)) = chunk(rest) else {
            return false;
        };
        rest = after;
    }
    true
}
