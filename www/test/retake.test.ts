import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { CheckCode, LightCheck, Severity } from '../src/engine/types';
import { faultsOf, mayAsk, retakeText } from '../src/state/tray/retake_model';
import { gravest, markedIn } from '../src/state/tray/row_model';
import { words } from '../src/words';
import { square } from './squares';

const check = (code: CheckCode, severity: Severity, region?: string): LightCheck => ({ code, severity, text: `Said of ${code}.`, remedy: '', ...(region && { region }) });
const stated = readFileSync(new URL('../pkg/tabside.d.ts', import.meta.url), 'utf8');
const CODES = [...stated.match(/export type CheckCode = (.*);/)![1]!.matchAll(/"([^"]+)"/g)].map((m) => m[1] as CheckCode);

describe('asking for a new photo', () => {
  it('has one plain sentence for every code the engine may send, each its own', () => {
    const { faults } = words.retake;
    expect(Object.keys(faults).sort()).toEqual([...CODES].sort());
    expect(new Set(Object.values(faults)).size).toBe(CODES.length);
    for (const [code, text] of Object.entries(faults)) {
      // One sentence that begins and ends as one, says please, and knows neither numbers nor the trade's words.
      expect([code, text]).toEqual([code, expect.stringMatching(/^[A-Z][^.!?]*\.$/)]);
      expect([code, text]).toEqual([code, expect.stringContaining('please')]);
      expect([code, text]).toEqual([code, expect.not.stringMatching(/\d|[LabCh]\*|Δ|pixel|chroma|clipp|gain|channel|metadata|profile|neutral axis|alpha|\bEXIF\b|\bICC\b/i)]);
    }
  });

  it.each(CODES)('can be asked for because of %s', (code) => {
    const text = retakeText({ checks: [check(code, 'retake')] }, 'client.jpg');
    expect(text.split('\n').filter((line) => line === `- ${words.retake.faults[code]}`)).toHaveLength(1);
    expect(text).toContain('“client.jpg”');
  });

  it('names what stands in the way first, then what would help, each once, and no notes', () => {
    const checks = [check('cast-strong', 'care'), check('blur', 'retake'), check('tooth-clipped', 'care', 'a'), check('tooth-clipped', 'care', 'b'), check('light-mixed', 'retake'), check('space-assumed', 'note'), check('blur', 'care')];
    expect(faultsOf({ checks })).toEqual({ retake: ['blur', 'light-mixed'], care: ['cast-strong', 'tooth-clipped'] });
    const { faults, because, also, goodTitle, good } = words.retake;
    const lines = retakeText({ checks }, 'x.jpg').split('\n').filter(Boolean);
    expect(lines.slice(2, 9)).toEqual([because, `- ${faults.blur}`, `- ${faults['light-mixed']}`, also, `- ${faults['cast-strong']}`, `- ${faults['tooth-clipped']}`, goodTitle]);
    expect(lines.filter((l) => good.some((g) => l === `- ${g}`))).toHaveLength(good.length);
    expect(lines[0]).toBe('Hello,');
    expect(lines.at(-1)).toBe('Kind regards');
  });

  it('does not say that a photo is of no use when it is of some', () => {
    const t = words.retake;
    const text = retakeText({ checks: [check('under-exposed', 'care')] }, 'x.jpg');
    expect(text).toContain(t.could);
    expect(text).not.toContain(t.cannot);
    expect(text).not.toContain(t.because);
    expect(text).toContain(`${t.helps}\n- ${t.faults['under-exposed']}`);
  });

  it('is offered for what forbids numbers or raises doubt, not for notes', () => {
    expect([mayAsk({ checks: [check('blur', 'note')] }), mayAsk({ checks: [check('blur', 'care')] }), mayAsk({ checks: [check('blur', 'retake')] }), mayAsk({ checks: [] })]).toEqual([false, true, true, false]);
  });
});

describe('a row of the list', () => {
  it('says the gravest thing, a missing card before all, and how many more there are', () => {
    const [care, retake, missing] = [check('cast-strong', 'care'), check('blur', 'retake'), check('card-missing', 'retake')];
    expect(gravest([check('space-assumed', 'note')])).toBeNull();
    expect(gravest([care])).toEqual({ first: care, more: 0 });
    expect(gravest([care, retake, check('space-assumed', 'note')])).toEqual({ first: retake, more: 1 });
    expect(gravest([retake, care, missing])).toEqual({ first: missing, more: 2 });
  });

  it('counts what is marked', () => {
    const region = (id: string, kind: 'tooth' | 'restoration' | 'tab') => ({ id, kind, name: '', outline: square(0, 0) });
    expect(markedIn({ card: null, regions: [region('a', 'tab'), region('b', 'tooth'), region('c', 'restoration')] })).toEqual({ card: false, tabs: 1, teeth: 2 });
  });
});
