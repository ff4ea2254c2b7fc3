import { describe, expect, it } from 'vitest';
import type { RegionKind } from '../src/engine/types';
import { EMPTY_DOC, type Doc } from '../src/state/doc';
import { flowSteps, nextStep, suggestedTabName } from '../src/state/flow';
import { FAKE_GUIDE } from './fake_engine';

const photo = { handle: 1, name: 'p', print: '', info: {} as never, checks: [] };
const region = (kind: RegionKind, name = '') => ({ id: `${kind} ${name}`, kind, name, outline: [] });
const doc = (card: boolean, ...regions: ReturnType<typeof region>[]): Doc => ({
  ...EMPTY_DOC,
  photo,
  scene: { card: card ? { outline: [] } : null, regions },
});

describe('the guided steps', () => {
  it('go photo, card, tabs, teeth, reading', () => {
    expect(nextStep(EMPTY_DOC)).toBe('photo');
    expect(nextStep(doc(false))).toBe('card');
    expect(nextStep(doc(false, region('tooth')))).toBe('card');
    expect(nextStep(doc(true))).toBe('tabs');
    expect(nextStep(doc(true, region('tab', 'A1')))).toBe('teeth');
    expect(nextStep(doc(true, region('restoration')))).toBe('reading');
  });

  it('count what is there', () => {
    const steps = flowSteps(doc(true, region('tab', 'A1'), region('tab', 'A2'), region('tooth'), region('restoration')));
    expect(steps.map((s) => [s.name, s.count])).toEqual([['photo', 1], ['card', 1], ['tabs', 2], ['teeth', 2]]);
  });
});

describe('the suggested tab', () => {
  it('follows the last one in the guide’s order and skips those that are there', () => {
    expect(suggestedTabName(doc(true), FAKE_GUIDE)).toBe('A1');
    expect(suggestedTabName(doc(true, region('tab', 'A2')), FAKE_GUIDE)).toBe('A3');
    expect(suggestedTabName(doc(true, region('tab', 'A3'), region('tab', 'A2')), FAKE_GUIDE)).toBe('B1');
    expect(suggestedTabName(doc(true, region('tab', 'B1')), FAKE_GUIDE)).toBe('A1');
    // Those that were found and not named do not count.
    expect(suggestedTabName(doc(true, region('tab', 'A2'), region('tab')), FAKE_GUIDE)).toBe('A3');
  });

  it('is none without a guide or when all are there', () => {
    expect(suggestedTabName(doc(true), null)).toBe('');
    expect(suggestedTabName(doc(true, ...FAKE_GUIDE.tabs.map((t) => region('tab', t.name))), FAKE_GUIDE)).toBe('');
  });
});
