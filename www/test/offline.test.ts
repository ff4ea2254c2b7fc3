/** The copy's list, and what crosses to a worker of the single-file edition. */
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { entryOf } from '../scripts/service_worker.ts';
import { inlined } from '../scripts/single_file.ts';
import { withBytes, withFiles } from '../src/offline/single/handed';

describe('the list of the copy', () => {
  it('tells files apart by checksum, and shares those whose names do', () => {
    const [one, other] = [Buffer.from('one'), Buffer.from('other')];
    expect(entryOf('index.html', one).revision).not.toBe(entryOf('index.html', other).revision);
    expect(entryOf('assets/a-12345678.js', one).revision).toBe(null);
    expect(entryOf('index.html', one).integrity).toBe(`sha384-${createHash('sha384').update(one).digest('base64')}`);
  });
});

describe('the single file', () => {
  const html = '<html><head><meta http-equiv="Content-Security-Policy" content="old" /><link rel="icon" href="./icon.svg" /><link rel="manifest" href="./m" /><script type="module" crossorigin src="./a.js"></script><link rel="stylesheet" href="./a.css"></head><body><div id="page"></div></body></html>';
  const policyOf = (page: string): string => page.match(/Content-Security-Policy" content="([^"]*)"/)![1]!;

  it('allows by hash what stands in it, word for word', () => {
    const page = inlined(html, "const a = '</script>$&';", 'b{c:d}', ['<script type="text/plain">x</script>']);
    const [, script] = page.match(/<script type="module">([^]*?)<\/script>/)!;
    expect(script).toBe("const a = '<\\/script>$&';");
    expect(policyOf(page)).toContain(`'sha256-${createHash('sha256').update(script!).digest('base64')}'`);
    expect(policyOf(page)).toContain("connect-src 'none'");
    expect(page).not.toMatch(/(src|href)="\.\//);
  });

  it('refuses what would end a script or style early', () => {
    expect(() => inlined(html, "'<!--'", '', [])).toThrow(/cannot carry/);
    expect(() => inlined(html, '', 'a{}</style>', [])).toThrow(/cannot carry/);
  });

  it('hands files over as bytes, wherever they stand, and everything else as it is', async () => {
    const numbers = Float64Array.of(1, 2);
    const message = { id: 1, call: 'write', args: ['{}', [{ id: 'a', file: new Blob(['abc'], { type: 'image/jpeg' }) }], null, numbers] };
    const bytes: ArrayBuffer[] = [];
    const sent = structuredClone(await withBytes(message, bytes), { transfer: bytes });
    expect(bytes).toHaveLength(1);
    const got = withFiles(sent) as typeof message;
    const { file } = (got.args[1] as { file: Blob }[])[0]!;
    expect([new TextDecoder().decode(await file.arrayBuffer()), file.size, file.type]).toEqual(['abc', 3, 'image/jpeg']);
    expect([got.args[0], got.args[2], got.args[3]]).toEqual(['{}', null, numbers]);
    // Nothing to hand over: the very message.
    expect(await withBytes(numbers, bytes)).toBe(numbers);
  });
});
