import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import '../src/words/later';
import type { PhotoNumbers } from '../src/charts/csv';
import type { LightCheck, Report, Scene } from '../src/engine/types';
import { coloursOf, reportJson, reportsJson } from '../src/state/exports/forms';
import { blocksOf, saidBelow } from '../src/views/exports/picture';
import { layoutOf, wrapped, type Block } from '../src/views/exports/picture_layout';
import { ENGLISH, language } from '../src/words';
import * as german from '../src/words/de';
import { Engine } from './fake_engine';
import { square } from './squares';

const SCENE: Scene = {
  card: { outline: square(0, 0) },
  regions: [
    { id: 'tooth-1', kind: 'tooth', name: '', outline: square(100, 100) },
    { id: 'tab-1', kind: 'tab', name: 'A2', outline: square(900, 100) },
  ],
};

function read(checks: LightCheck[] = []): PhotoNumbers & { report: Report } {
  const engine = new Engine();
  const report = { ...engine.read(engine.open(new Uint8Array([0xff])).id, SCENE, {}), checks };
  return { photo: 'a.jpg', scene: SCENE, report, guide: 'My tabs', untrusted: (region) => checks.find((c) => c.severity === 'retake' && c.region === region)?.text };
}

const check = (severity: 'retake' | 'care', region?: string): LightCheck => ({ code: 'tooth-dark', severity, text: 'Dark.', remedy: '', ...(region && { region }) });

describe('readings as JSON', () => {
  it('are the report itself, and of many photos each report by its photo', () => {
    const one = read();
    expect(JSON.parse(reportJson(one.report))).toEqual(JSON.parse(JSON.stringify(one.report)));
    const many = JSON.parse(reportsJson([one, { ...one, photo: 'b.jpg', report: 'Not read.' }]));
    expect(many).toEqual({ photos: [{ photo: 'a.jpg', report: JSON.parse(reportJson(one.report)) }, { photo: 'b.jpg', no_report_because: 'Not read.' }] });
  });

  it('go to CGATS with the names of the screen and whole seconds', () => {
    const of = coloursOf(read(), new Date(Date.UTC(2026, 4, 17, 10, 32, 5, 123)));
    expect([of.created, of.scene.regions.map((r) => r.name)]).toEqual(['2026-05-17T10:32:05Z', ['Tooth', 'A2']]);
    // What was read is not touched.
    expect(SCENE.regions[0]!.name).toBe('');
  });
});

describe('the picture with the outlines', () => {
  it('gives every outline its name and its thirds, and no number that cannot be trusted', () => {
    const blocks = blocksOf(read(), 0.5);
    expect(blocks.map((b) => b.lines[0])).toEqual(['Tooth', 'Tab A2']);
    expect(blocks[0]!.lines[1]).toMatch(/^Cervical {2}L\* 67\.1 {2}C\* [\d.]+ {2}h \d+° {2}± 0\.5$/);
    expect(blocks[0]!.lines).toHaveLength(4);
    expect(blocksOf(read([check('retake', 'tab-1')]), 0.5)[1]!.lines).toEqual(['Tab A2', 'No number here']);
    expect(blocksOf(read([check('retake')]), 0.5).flatMap((b) => b.lines.slice(1))).toEqual(['No number here', 'No number here']);
  });

  it('says below what the checks say, its size, version and date', () => {
    const said = saidBelow(read([check('care')]), { width: 600, height: 400 }, new Date(2026, 4, 17, 10, 32)).join('\n');
    for (const part of ['Care: Dark.', '600 × 400 of 1200 × 800 px', 'a.jpg · May 17, 2026', 'Tabside', 'shade guide: My tabs', 'clinician']) expect(said).toContain(part);
    expect(saidBelow(read(), { width: 1200, height: 800 }, new Date()).join('\n')).toContain('(1200 × 800 px)');
  });

  describe('in German', () => {
    beforeEach(() => void (language.value = { tag: 'de', decimal: ',', words: german.words, engine: german.engine }));
    afterEach(() => void (language.value = ENGLISH));
    it('has German numbers', () => expect(blocksOf(read(), 1)[0]!.lines[1]).toMatch(/^Zervikal {2}L\* 67,1/));
  });

  it('covers nothing: blocks stand beside the photo, apart from each other', () => {
    const wide = (text: string) => 0.5 * text.length;
    for (const n of [0, 1, 7, 40]) {
      const blocks = Array.from({ length: n }, (_, i): Block => ({ lines: ['Tab A2', 'x'.repeat(30), 'y', 'z'], at: [(i * 977) % 1700, (i * 541) % 1100] }));
      const photo = { width: 1700, height: 1100 };
      const layout = layoutOf(photo, blocks, ['said '.repeat(200).trim()], wide);
      expect(layout.blocks).toHaveLength(n);
      const boxes = layout.blocks.map((b) => ({ left: b.x, right: b.x + Math.max(...b.lines.map((l) => wide(l) * layout.letter)), top: b.y, bottom: b.y + b.lines.length * layout.line }));
      boxes.forEach((a, i) => {
        expect(a.left).toBeGreaterThanOrEqual(0);
        expect(a.right).toBeLessThanOrEqual(layout.width);
        expect(a.right <= layout.photo[0] || a.left >= layout.photo[0] + photo.width).toBe(true);
        expect(a.bottom).toBeLessThanOrEqual(layout.below.y);
        for (const b of boxes.slice(i + 1)) expect(a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top).toBe(true);
      });
      for (const line of layout.below.lines) expect(layout.below.x + wide(line) * layout.letter).toBeLessThanOrEqual(layout.width);
      expect(layout.below.y + layout.below.lines.length * layout.line).toBeLessThanOrEqual(layout.height);
    }
    expect(wrapped('a bb ccc', 4, (t) => t.length)).toEqual(['a bb', 'ccc']);
  });
});
