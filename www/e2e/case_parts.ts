/** A case file taken apart and put together again, with right checksums: for what a stranger might send. */
import { createHash } from 'node:crypto';
import { crc32, inflateRawSync } from 'node:zlib';

export type Parts = Map<string, Buffer>;

export function partsOf(file: Buffer): Parts {
  const parts: Parts = new Map();
  const end = file.lastIndexOf(Buffer.from('PK\x05\x06'));
  let at = file.readUInt32LE(end + 16);
  for (let left = file.readUInt16LE(end + 10); left > 0; left--) {
    const [method, packed, name] = [file.readUInt16LE(at + 10), file.readUInt32LE(at + 20), file.readUInt16LE(at + 28)];
    const local = file.readUInt32LE(at + 42);
    const from = local + 30 + file.readUInt16LE(local + 26) + file.readUInt16LE(local + 28);
    const body = file.subarray(from, from + packed);
    parts.set(file.subarray(at + 46, at + 46 + name).toString(), method === 8 ? inflateRawSync(body) : body);
    at += 46 + name + file.readUInt16LE(at + 30) + file.readUInt16LE(at + 32);
  }
  return parts;
}

const numbers = (...fields: [bytes: 2 | 4, value: number][]): Buffer =>
  Buffer.concat(fields.map(([bytes, value]) => {
    const field = Buffer.alloc(bytes);
    field.writeUIntLE(value, 0, bytes);
    return field;
  }));

/** Stored, as an honest writer would. */
function zipOf(parts: Parts): Buffer {
  const [locals, central]: [Buffer[], Buffer[]] = [[], []];
  let offset = 0;
  for (const [name, body] of parts) {
    const bytes = Buffer.from(name);
    const common = numbers([2, 20], [2, 0x800], [2, 0], [2, 0], [2, 0x21], [4, crc32(body)], [4, body.length], [4, body.length], [2, bytes.length], [2, 0]);
    const local = Buffer.concat([Buffer.from('PK\x03\x04'), common, bytes, body]);
    central.push(Buffer.concat([Buffer.from('PK\x01\x02'), numbers([2, 20]), common, numbers([2, 0], [2, 0], [2, 0], [4, 0], [4, offset]), bytes]));
    locals.push(local);
    offset += local.length;
  }
  const directory = Buffer.concat(central);
  return Buffer.concat([...locals, directory, Buffer.from('PK\x05\x06'), numbers([2, 0], [2, 0], [2, parts.size], [2, parts.size], [4, directory.length], [4, offset], [2, 0])]);
}

/** The same file with its case (and parts) changed. */
export function changed(file: Buffer, change: (found: any, parts: Parts) => void): Buffer {
  const parts = partsOf(file);
  const found = JSON.parse(parts.get('case.json')!.toString()) as unknown;
  change(found, parts);
  parts.set('case.json', Buffer.from(JSON.stringify(found)));
  parts.delete('manifest.json');
  const listed = [...parts].map(([name, body]) => ({ name, bytes: body.length, sha256: createHash('sha256').update(body).digest('hex') }));
  parts.set('manifest.json', Buffer.from(JSON.stringify({ parts: listed })));
  return zipOf(parts);
}
