/**
 * What crosses to a worker of the single-file edition. At a file's address a worker of WebKit's can read
 * no `Blob`, neither the page's nor one of its own: bytes are handed over, and stand for it there.
 */

/** Under which name a worker is given its module. */
export const PROGRAM = 'tabsideProgram';
/** Under which name bytes stand for a file. */
const FILE = 'tabsideFile';

type Plain = Record<string, unknown>;
const isPlain = (value: unknown): value is Plain => typeof value === 'object' && value !== null && Object.getPrototypeOf(value) === Object.prototype;

const holdsFile = (value: unknown): boolean => value instanceof Blob || (Array.isArray(value) ? value.some(holdsFile) : isPlain(value) && Object.values(value).some(holdsFile));

/** The same with bytes in place of files; `bytes` are those. */
export async function withBytes(value: unknown, bytes: ArrayBuffer[]): Promise<unknown> {
  if (!holdsFile(value)) return value;
  if (value instanceof Blob) {
    const all = await value.arrayBuffer();
    bytes.push(all);
    return { [FILE]: all, type: value.type };
  }
  if (Array.isArray(value)) return Promise.all(value.map((item) => withBytes(item, bytes)));
  return Object.fromEntries(await Promise.all(Object.entries(value as Plain).map(async ([key, item]) => [key, await withBytes(item, bytes)] as const)));
}

/** The same with what can be read like a file in place of its bytes. */
export function withFiles(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withFiles);
  if (!isPlain(value)) return value;
  const bytes = value[FILE];
  if (bytes instanceof ArrayBuffer) return { size: bytes.byteLength, type: value['type'], arrayBuffer: async () => bytes };
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, withFiles(item)]));
}
