import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Found, FoundRegion, RegionKind, Scene } from '../src/engine/types';
import { EMPTY_DOC, EMPTY_SCENE, type Doc } from '../src/state/doc';
import { withFound } from '../src/state/found';
import { pendingRestoration, targetOf, withKind, withoutRestoration } from '../src/state/roles';
import { photoNames } from '../src/stage/photo_names';
import { words } from '../src/words';
import { square } from './squares';

const at = (kind: RegionKind, x: number, y = 0): FoundRegion => ({ kind, outline: square(x, y), cervical: [x + 5, y], incisal: [x + 5, y + 10], sure: 0.9 });

const FOUND: Found = {
  card: { outline: square(500, 500), whole: square(500, 500), sure: 1 },
  regions: [at('tooth', 0), at('tooth', 20), at('tooth', 40), at('tab', 60, 100), at('tab', 0, 100)],
  target: 1,
  restoration: 2,
};

describe('what was found', () => {
  it('goes into an empty scene: teeth in their order, tabs from the left, none with a name or as a restoration', () => {
    const { scene, proposal, card, tabs, teeth } = withFound(EMPTY_SCENE, FOUND);
    expect(scene.card).toEqual({ outline: square(500, 500) });
    expect(scene.regions.map((r) => [r.id, r.kind, r.name, r.outline[0]![0]])).toEqual([
      ['tooth-1', 'tooth', '', 0], ['tooth-2', 'tooth', '', 20], ['tooth-3', 'tooth', '', 40], ['tab-1', 'tab', '', 0], ['tab-2', 'tab', '', 60],
    ]);
    expect([card, tabs, teeth]).toEqual([true, 2, 3]);
    expect(proposal).toEqual({ target: 'tooth-2', restoration: 'tooth-3' });
  });

  it('leaves alone what is marked already, and proposes among it', () => {
    const marked: Scene = { card: { outline: square(1, 1), reflectance: 0.18 }, regions: [{ id: 'mine', kind: 'tooth', name: '11', outline: square(41, 1, 9) }] };
    const { scene, proposal, card, teeth } = withFound(marked, FOUND);
    expect(scene.card).toBe(marked.card);
    expect(scene.regions[0]).toBe(marked.regions[0]);
    expect(scene.regions).toHaveLength(5);
    expect([card, teeth]).toEqual([false, 2]);
    expect(proposal.restoration).toBe('mine');
    expect(withFound(scene, FOUND).scene).toBe(scene);
  });

  it('keeps the steps of a card as outlines without values, and only with the card they are of', () => {
    const steps = [square(500, 500, 3), square(503, 500, 3)];
    const found: Found = { ...FOUND, card: { outline: steps[1]!, whole: square(500, 500), steps, sure: 1 } };
    expect(withFound(EMPTY_SCENE, found)).toMatchObject({ scene: { card: { outline: steps[1] } }, proposal: { cardSteps: steps } });
    expect(withFound(EMPTY_SCENE, found).scene.card).not.toHaveProperty('steps');
    expect(withFound({ card: { outline: square(0, 0) }, regions: [] }, found).proposal).not.toHaveProperty('cardSteps');
  });

  it('is said in words', () => {
    expect(words.found.what(true, 4, 8)).toBe('Card, 4 tabs and 8 teeth found.');
    expect(words.found.what(false, 1, 0)).toBe('1 tab found.');
    expect(words.found.what(false, 0, 0)).toBe('');
  });
});

const docWith = (found = FOUND): Doc => {
  const { scene, proposal } = withFound(EMPTY_SCENE, found);
  return { ...EMPTY_DOC, scene, proposal };
};

describe('a proposal', () => {
  it('is asked until it is answered; yes settles what is compared with', () => {
    const doc = docWith();
    expect(pendingRestoration(doc)?.id).toBe('tooth-3');
    expect(doc.target).toBeUndefined();
    const yes = { ...doc, ...withKind(doc, 'tooth-3', 'restoration') };
    expect(pendingRestoration(yes)).toBeNull();
    expect(yes.scene.regions[2]!.kind).toBe('restoration');
    expect(yes.target).toBe('tooth-2');
    const none = { ...doc, ...withoutRestoration(doc) };
    expect([pendingRestoration(none), none.scene, targetOf(none)]).toEqual([null, doc.scene, 'tooth-2']);
  });

  it('gives way to the user’s own choice', () => {
    const doc = docWith();
    const outlined = { ...doc, scene: { ...doc.scene, regions: [...doc.scene.regions, { ...doc.scene.regions[0]!, id: 'new', kind: 'restoration' as const }] } };
    expect(pendingRestoration(outlined)).toBeNull();
    const other = { ...doc, ...withKind(doc, 'tooth-1', 'restoration') };
    expect(pendingRestoration(other)).toBeNull();
    // What was to be compared with has become the restoration itself.
    const same = { ...doc, ...withKind(doc, 'tooth-2', 'restoration') };
    expect([same.target, same.proposal]).toEqual(['tooth-1', {}]);
    expect(targetOf({ ...doc, target: 'tooth-1' })).toBe('tooth-1');
    expect(targetOf({ ...doc, target: 'gone' })).toBe('tooth-2');
  });
});

describe('what another restoration than the proposed one is compared with', () => {
  // An upper row from premolar to premolar: widths as in a mouth, touching each other.
  const WIDTHS = [7, 7.5, 6.5, 8.5, 8.5, 6.5, 7.5, 7];
  const row = (from: number, to: number): Found => {
    let x = 0;
    const teeth = WIDTHS.map((w): FoundRegion => {
      const left = x;
      x += w;
      return { kind: 'tooth', outline: [[left, 0], [x, 0], [x, w * 1.2], [left, w * 1.2]], cervical: [left + w / 2, 0], incisal: [left + w / 2, w * 1.2], sure: 0.9 };
    });
    return { regions: [...teeth.slice(from, to), at('tab', 30, 100)], restoration: 2, target: 5 };
  };
  const against = (doc: Doc, id: string): string | undefined => targetOf({ ...doc, ...withKind(doc, id, 'restoration') });

  it('is its twin on the other side, not the proposed one’s', () => {
    const doc = docWith(row(0, 8));
    expect(doc.proposal).toMatchObject({ restoration: 'tooth-3', target: 'tooth-6' });
    expect(['tooth-4', 'tooth-5', 'tooth-2', 'tooth-6'].map((id) => against(doc, id))).toEqual(['tooth-5', 'tooth-4', 'tooth-7', 'tooth-3']);
    expect(against(doc, 'tooth-3')).toBe('tooth-6');
    // The answer stands: nothing is left of the other one's target.
    expect(withKind(doc, 'tooth-4', 'restoration').proposal).toEqual({});
  });

  it('is its twin in a photo of the fixtures, whose teeth the search outlined', () => {
    const doc = docWith(JSON.parse(readFileSync(new URL('../../fixtures/scenes/other.found.json', import.meta.url), 'utf8')) as Found);
    const name = (id: string | undefined) => words.names.own(doc.scene, id ?? '');
    expect([name(doc.proposal.restoration), name(doc.proposal.target)]).toEqual(['d', 'g']);
    expect(name(against(doc, 'tooth-5'))).toBe('f');
  });

  it('is the neighbour most alike where the twin is not in the photo, never a tab', () => {
    const doc = docWith(row(2, 6));
    expect(against(doc, 'tooth-1')).toBe('tooth-4');
    expect(against(docWith(row(3, 8)), 'tooth-4')).toBe('tooth-5');
    expect(against(docWith(row(3, 4)), 'tooth-1')).toBeUndefined();
  });

  it('is chosen anew once the one before is a tooth again, but stays as long as it was the user’s choice', () => {
    const doc = docWith(row(0, 8));
    const first = { ...doc, ...withKind(doc, 'tooth-3', 'restoration') };
    expect(first.target).toBe('tooth-6');
    const back = { ...first, ...withKind(first, 'tooth-3', 'tooth') };
    expect(against(back, 'tooth-4')).toBe('tooth-5');
    expect(against({ ...doc, target: 'tooth-1' }, 'tooth-4')).toBe('tooth-1');
  });
});

describe('names', () => {
  it('stay with the others when one is named or becomes the restoration', () => {
    const doc = docWith();
    const of = (d: Doc) => d.scene.regions.map((r) => words.names.region(d.scene, r.id));
    expect(of(doc)).toEqual(['Tooth a', 'Tooth b', 'Tooth c', 'Tab 1', 'Tab 2']);
    const next = { ...doc, ...withKind(doc, 'tooth-2', 'restoration') };
    expect(of(next)).toEqual(['Tooth a', 'Restoration', 'Tooth c', 'Tab 1', 'Tab 2']);
  });

  it('replace ids in what the engine says, and nothing else', () => {
    const { scene } = docWith();
    expect(words.names.said(scene, 'Tooth “tooth-3” is small; tab-1 and tab-12 cannot be told apart.')).toBe('Tooth c is small; Tab 1 and tab-12 cannot be told apart.');
    expect(words.names.tab(scene, 'tab-2')).toBe('Tab 2');
    expect(words.names.tab(scene, 'A2')).toBe('A2');
  });

  it('are written out on the photo for what matters, where there are many', () => {
    const many: Found = { ...FOUND, regions: [...FOUND.regions, ...[60, 80, 100].map((x) => at('tooth', x))] };
    const doc = docWith(many);
    const shown = (k: number) => photoNames(doc, 'region:tooth-1', null, k).map((n) => n.text);
    expect(shown(1)).toEqual(['Card', 'Tooth b', 'Restoration?', 'Tab 1', 'Tab 2']);
    expect(shown(4)).toEqual(['Card', 'Tooth b', 'Restoration?', 'd', 'e', 'f', 'Tab 1', 'Tab 2']);
  });
});
