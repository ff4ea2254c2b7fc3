/** Files as the database takes them. Some browsers refuse files there (WebKit in private windows), and take their bytes. */

export type Stored = Blob | ArrayBuffer;

let asBytes = false;
const bytes = new WeakMap<Blob, ArrayBuffer>();

/** From now on bytes are written. */
export function refuseFiles(): void {
  asBytes = true;
}

/** What `stored` needs to have read before. */
export async function makeReady(files: readonly Blob[]): Promise<void> {
  if (asBytes) for (const file of files) if (!bytes.has(file)) bytes.set(file, await file.arrayBuffer());
}

/** It is written: the bytes are not needed twice. */
export const letGo = (file: Blob): void => void bytes.delete(file);

/** `null` while its bytes are not ready. */
export const stored = (file: Blob): Stored | null => (asBytes ? (bytes.get(file) ?? null) : file);

export const fileFrom = (kept: Stored): Blob => (kept instanceof Blob ? kept : new Blob([kept]));
