/**
 * Encrypted case files. DEVELOPERS.md states the format, so that any program can open one:
 * AES-256-GCM under a key from the passphrase by PBKDF2-HMAC-SHA-256 and HKDF-SHA-256.
 */

/** For PBKDF2-HMAC-SHA-256: OWASP Password Storage Cheat Sheet, 2023. */
const ITERATIONS = 600_000;
/** Fewer would be no protection, more a way to keep a device busy. */
const [FEWEST, MOST] = [100_000, 2_000_000];

const MAGIC = 'TABSLOCK';
const VERSION = 1;
/** Magic 8, version 1, key derivation 1, nothing 2, iterations 4, salt 16, nonce 12, check 16. */
const HEADER = 60;
const AT = { version: 8, derivation: 9, iterations: 12, salt: 16, nonce: 32, check: 44 };

export type LockFault = 'wrongPassphrase' | 'tampered' | 'lockedDamaged' | 'lockedNewer' | 'noCipher';

export class LockError extends Error {
  override readonly name = 'LockError';
  constructor(readonly fault: LockFault) {
    super(fault);
  }
}

const bytesOf = (text: string): Uint8Array<ArrayBuffer> => new TextEncoder().encode(text);

/** By http from another machine browsers offer none. */
export const canLock = (): boolean => globalThis.crypto?.subtle !== undefined;

export const isLocked = async (file: Blob): Promise<boolean> => (await file.slice(0, MAGIC.length).text()) === MAGIC;

/** A key, and what tells the right passphrase from a changed file. */
async function derive(passphrase: string, salt: BufferSource, iterations: number): Promise<{ key: CryptoKey; check: Uint8Array }> {
  if (!canLock()) throw new LockError('noCipher');
  const { subtle } = crypto;
  // The same letters, however a keyboard composes them.
  const typed = await subtle.importKey('raw', bytesOf(passphrase.normalize('NFC')), 'PBKDF2', false, ['deriveBits']);
  const stretched = await subtle.deriveBits({ name: 'PBKDF2', hash: 'SHA-256', salt, iterations }, typed, 256);
  const root = await subtle.importKey('raw', stretched, 'HKDF', false, ['deriveBits']);
  const bits = (info: string, length: number) => subtle.deriveBits({ name: 'HKDF', hash: 'SHA-256', salt, info: bytesOf(info) }, root, length);
  const key = await subtle.importKey('raw', await bits('tabside case key', 256), 'AES-GCM', false, ['encrypt', 'decrypt']);
  return { key, check: new Uint8Array(await bits('tabside case check', 128)) };
}

export async function lock(file: Blob, passphrase: string): Promise<Blob> {
  if (!canLock()) throw new LockError('noCipher');
  const header = new Uint8Array(HEADER);
  header.set(bytesOf(MAGIC));
  header[AT.version] = VERSION;
  header[AT.derivation] = 1;
  new DataView(header.buffer).setUint32(AT.iterations, ITERATIONS);
  crypto.getRandomValues(header.subarray(AT.salt, AT.check));
  const { key, check } = await derive(passphrase, header.subarray(AT.salt, AT.nonce), ITERATIONS);
  header.set(check, AT.check);
  const iv = header.subarray(AT.nonce, AT.check);
  const body = await crypto.subtle.encrypt({ name: 'AES-GCM', iv, additionalData: header, tagLength: 128 }, key, await file.arrayBuffer());
  return new Blob([header, body], { type: 'application/octet-stream' });
}

/** Throws a `LockError` that says whether the passphrase or the file is at fault. */
export async function unlock(file: Blob, passphrase: string): Promise<Blob> {
  const header = new Uint8Array(await file.slice(0, HEADER).arrayBuffer());
  if (header.length < HEADER) throw new LockError('lockedDamaged');
  if (header[AT.version] !== VERSION || header[AT.derivation] !== 1) throw new LockError('lockedNewer');
  const iterations = new DataView(header.buffer).getUint32(AT.iterations);
  if (iterations < FEWEST || iterations > MOST) throw new LockError('lockedDamaged');
  const { key, check } = await derive(passphrase, header.subarray(AT.salt, AT.nonce), iterations);
  if (check.some((byte, i) => byte !== header[AT.check + i])) throw new LockError('wrongPassphrase');
  const iv = header.subarray(AT.nonce, AT.check);
  try {
    return new Blob([await crypto.subtle.decrypt({ name: 'AES-GCM', iv, additionalData: header, tagLength: 128 }, key, await file.slice(HEADER).arrayBuffer())]);
  } catch {
    throw new LockError('tampered');
  }
}
