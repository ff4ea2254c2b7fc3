/** The program with less memory than it may have: the most of its memory section is set. */

/** A LEB128 number and where the next byte stands. */
function number(bytes: Buffer, at: number): [value: number, next: number] {
  for (let value = 0, shift = 0; ; shift += 7) {
    const byte = bytes[at++]!;
    value += (byte & 0x7f) * 2 ** shift;
    if (byte < 0x80) return [value, at];
  }
}

function encoded(value: number): Buffer {
  const out: number[] = [];
  for (; value >= 0x80; value = Math.floor(value / 128)) out.push((value % 128) | 0x80);
  return Buffer.from([...out, value]);
}

const MEMORY = 5;
const PAGE_BYTES = 65_536;

/** The same module, whose memory grows to `most` bytes and no further. */
export function withMemory(wasm: Buffer, most: number): Buffer {
  for (let at = 8; at < wasm.length; ) {
    const id = wasm[at]!;
    const [size, from] = number(wasm, at + 1);
    if (id !== MEMORY) {
      at = from + size;
      continue;
    }
    const [count, flags] = number(wasm, from);
    const [least] = number(wasm, flags + 1);
    if (count !== 1 || least * PAGE_BYTES > most) throw new Error(`The program begins with ${count} memories and ${least} pages.`);
    const section = Buffer.concat([encoded(1), Buffer.from([1]), encoded(least), encoded(Math.floor(most / PAGE_BYTES))]);
    return Buffer.concat([wasm.subarray(0, at), Buffer.from([MEMORY]), encoded(section.length), section, wasm.subarray(from + size)]);
  }
  throw new Error('The program has no memory of its own.');
}
