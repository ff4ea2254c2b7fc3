//! Encrypted case files, as the page's browser makes them and opens them too: AES-256-GCM under a key
//! from a passphrase.
//!
//! The first 60 bytes are plain and are authenticated with the rest: `TABSLOCK`, version 1, key
//! derivation 1, two zero bytes, iterations (big-endian), salt (16), nonce (12), check (16). The
//! passphrase, in Unicode's form NFC as UTF-8, goes through PBKDF2-HMAC-SHA-256 with salt and
//! iterations to 32 bytes, and those through HKDF-SHA-256 with the same salt to the key (`tabside case
//! key`) and to the check (`tabside case check`), which tells another passphrase from a changed file.
//! The rest of the file is the encrypted case with the tag of 16 bytes at its end.
//!
//! 600 000 iterations: OWASP Password Storage Cheat Sheet, 2023, for PBKDF2-HMAC-SHA-256.

use crate::error::{Error, Result};
use aes_gcm::aead::{Aead, KeyInit, Payload};
use aes_gcm::{Aes256Gcm, Nonce};
use hkdf::Hkdf;
use sha2::Sha256;
use unicode_normalization::UnicodeNormalization;

const MAGIC: &[u8; 8] = b"TABSLOCK";
const VERSION: u8 = 1;
const PBKDF2_HKDF: u8 = 1;
const ITERATIONS: u32 = 600_000;
/// Fewer would be no protection; more would keep a device busy for a stranger.
const SENSIBLE: std::ops::RangeInclusive<u32> = 100_000..=2_000_000;
const HEADER: usize = 60;

const AGAIN: &str = "Ask the sender for the file once more.";

/// Whether a file is an encrypted case.
pub fn is_locked(file: &[u8]) -> bool {
    file.starts_with(MAGIC)
}

struct Header {
    iterations: u32,
    salt: [u8; 16],
    nonce: [u8; 12],
}

impl Header {
    fn to_bytes(&self, check: [u8; 16]) -> Vec<u8> {
        let mut out = MAGIC.to_vec();
        out.extend([VERSION, PBKDF2_HKDF, 0, 0]);
        out.extend(self.iterations.to_be_bytes());
        out.extend(self.salt);
        out.extend(self.nonce);
        out.extend(check);
        out
    }

    /// What stands in a file, with its check.
    fn from_bytes(bytes: &[u8]) -> Result<(Self, [u8; 16])> {
        let early = || {
            Error::damaged(
                "This is no encrypted case, or its beginning is damaged.",
                AGAIN,
            )
        };
        let rest = bytes.strip_prefix(MAGIC).ok_or_else(early)?;
        let ([version, derivation, _, _], rest) = rest.split_first_chunk().ok_or_else(early)?;
        if (*version, *derivation) != (VERSION, PBKDF2_HKDF) {
            return Err(Error::unsupported(
                "This case was encrypted in a way that this version does not know.",
                "Update the program, or ask the sender for a case without a passphrase.",
            ));
        }
        let (iterations, rest) = rest.split_first_chunk().ok_or_else(early)?;
        let (salt, rest) = rest.split_first_chunk().ok_or_else(early)?;
        let (nonce, rest) = rest.split_first_chunk().ok_or_else(early)?;
        let (check, _) = rest.split_first_chunk().ok_or_else(early)?;
        let iterations = u32::from_be_bytes(*iterations);
        if !SENSIBLE.contains(&iterations) {
            return Err(early());
        }
        let header = Self {
            iterations,
            salt: *salt,
            nonce: *nonce,
        };
        Ok((header, *check))
    }

    /// The cipher, and what tells the right passphrase.
    fn derive(&self, passphrase: &str) -> Result<(Aes256Gcm, [u8; 16])> {
        let typed: String = passphrase.nfc().collect();
        let mut stretched = [0; 32];
        // A search for crashes tries thousands of files a second.
        let iterations = if cfg!(fuzzing) { 1 } else { self.iterations };
        pbkdf2::pbkdf2_hmac::<Sha256>(typed.as_bytes(), &self.salt, iterations, &mut stretched);
        let root = Hkdf::<Sha256>::new(Some(&self.salt), &stretched);
        let (mut key, mut check) = ([0; 32], [0; 16]);
        let derived = root
            .expand(b"tabside case key", &mut key)
            .and_then(|()| root.expand(b"tabside case check", &mut check));
        derived.map_err(|e| Error::internal(e.to_string()))?;
        Ok((Aes256Gcm::new(&key.into()), check))
    }
}

/// Encrypts a file.
pub fn lock(file: &[u8], passphrase: &str) -> Result<Vec<u8>> {
    let mut header = Header {
        iterations: ITERATIONS,
        salt: [0; 16],
        nonce: [0; 12],
    };
    getrandom::fill(&mut header.salt)
        .and_then(|()| getrandom::fill(&mut header.nonce))
        .map_err(|e| Error::internal(e.to_string()))?;
    let (cipher, check) = header.derive(passphrase)?;
    let mut out = header.to_bytes(check);
    let payload = Payload {
        msg: file,
        aad: &out,
    };
    let body = cipher
        .encrypt(&Nonce::from(header.nonce), payload)
        .map_err(|e| Error::internal(e.to_string()))?;
    out.extend(body);
    Ok(out)
}

/// Decrypts a file that [`lock`], or the page, encrypted.
pub fn unlock(file: &[u8], passphrase: &str) -> Result<Vec<u8>> {
    let (header, kept) = Header::from_bytes(file)?;
    let (cipher, check) = header.derive(passphrase)?;
    // Nothing secret: whoever has the file can read it there.
    if check != kept {
        return Err(Error::input(
            "The passphrase is another one, or the beginning of the file is damaged.",
            "Type it as the sender told it.",
        ));
    }
    let (aad, msg) = file.split_at_checked(HEADER).unwrap_or((file, &[]));
    cipher
        .decrypt(&Nonce::from(header.nonce), Payload { msg, aad })
        .map_err(|_| {
            Error::damaged(
                "The passphrase is right, but the file was changed or damaged after it was saved.",
                AGAIN,
            )
        })
}
