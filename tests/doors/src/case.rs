//! Case files: the archive, the text in it, and the envelope of a passphrase.

use crate::wrap::case_of;
use tabside::Error;
use tabside::case::{OpenedCase, PhotoBytes, lock, read, write};
use tabside::engine::case::verify;

/// A file that says it is a case.
pub fn archive(bytes: &[u8]) {
    match read(bytes) {
        Ok(opened) => use_it(&opened),
        Err(error) => assert_ne!(error.kind(), "internal", "{error}"),
    }
}

/// The text of a case, in an archive that is true of it.
pub fn text(bytes: &[u8]) {
    archive(&case_of(&[("case.json", bytes)]));
}

/// A case that opened can be saved, and is the same case then.
fn use_it(opened: &OpenedCase) {
    let _ = verify(opened);
    let photos: Vec<PhotoBytes<'_>> = opened
        .photos
        .iter()
        .map(|(id, bytes)| PhotoBytes { id, bytes })
        .collect();
    match write(&opened.case, &photos) {
        Ok(written) => {
            let again = read(&written.bytes).expect("what was written is read");
            assert_eq!(again.case, written.case);
        }
        Err(Error::Internal { what }) => panic!("{what}"),
        // A photo that is not there, or more than a file may hold.
        Err(_) => {}
    }
}

/// An encrypted case.
pub fn envelope(bytes: &[u8]) {
    if let Err(error) = lock::unlock(bytes, "passphrase") {
        assert_ne!(error.kind(), "internal", "{error}");
    }
}
