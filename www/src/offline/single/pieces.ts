/**
 * What the single-file edition carries: blocks of base64 in the document itself, each packed with gzip.
 * Nothing is fetched, from nowhere.
 */
export const idOf = (name: string): string => `piece-${name}`;

async function unpacked(name: string): Promise<ArrayBuffer> {
  const text = document.getElementById(idOf(name))?.textContent;
  if (!text) throw new Error(`${name}?`);
  const packed = Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
  return new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip'))).arrayBuffer();
}

const known = new Map<string, Promise<ArrayBuffer>>();

/** The same bytes each time: they are not to be changed, nor handed over. */
export function piece(name: string): Promise<ArrayBuffer> {
  let found = known.get(name);
  if (!found) known.set(name, (found = unpacked(name)));
  return found;
}

export const pieceText = async (name: string): Promise<string> => new TextDecoder().decode(await piece(name));
