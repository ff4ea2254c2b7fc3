"""Decrypts an encrypted case with Python's `cryptography` from the format in DEVELOPERS.md alone, and
compares it with the case that was encrypted. A changed byte and another passphrase must not decrypt.

Arguments: passphrase, then pairs of encrypted file and what it must decrypt to (`-`: any zip).
"""

import struct
import sys
import unicodedata
from pathlib import Path

from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.kdf.hkdf import HKDF
from cryptography.hazmat.primitives.kdf.pbkdf2 import PBKDF2HMAC


def derived(header: bytes, passphrase: str) -> tuple[bytes, bytes]:
    """Key and check."""
    (iterations,) = struct.unpack(">I", header[12:16])
    salt = header[16:32]
    typed = unicodedata.normalize("NFC", passphrase).encode()
    root = PBKDF2HMAC(SHA256(), 32, salt, iterations).derive(typed)
    expand = lambda info, length: HKDF(SHA256(), length, salt, info).derive(root)
    return expand(b"tabside case key", 32), expand(b"tabside case check", 16)


passphrase, *files = sys.argv[1:]
for locked_path, plain_path in zip(files[::2], files[1::2]):
    locked = Path(locked_path).read_bytes()
    header, body = locked[:60], locked[60:]
    assert header[:12] == b"TABSLOCK\x01\x01\x00\x00", header[:12]
    key, check = derived(header, passphrase)
    assert check == header[44:60], "the check differs"
    plain = AESGCM(key).decrypt(header[32:44], body, header)
    wanted = plain[:2] == b"PK" if plain_path == "-" else plain == Path(plain_path).read_bytes()
    assert wanted, "it decrypts to something else"
    changed = bytearray(body)
    changed[len(body) // 2] ^= 1
    try:
        AESGCM(key).decrypt(header[32:44], bytes(changed), header)
        raise AssertionError("a changed byte was not noticed")
    except InvalidTag:
        pass
    assert derived(header, passphrase + "x")[1] != header[44:60], "another passphrase passes"
    (iterations,) = struct.unpack(">I", header[12:16])
    print(f"cryptography decrypts {Path(locked_path).name}: {len(plain)} bytes, PBKDF2 {iterations} iterations; a changed byte is noticed")
