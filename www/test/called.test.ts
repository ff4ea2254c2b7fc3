import { afterEach, describe, expect, it } from 'vitest';
import type { Lab, Scene } from '../src/engine/types';
import { workFromJson, workToJson } from '../src/state/passes/work_file';
import { calledIn, saidNames, TYPED_NAMES, type Called } from '../src/state/stains/called';
import { USUAL_LIMITS } from '../src/state/stains/stains_doc';
import type { Work } from '../src/state/stains/work';
import { ENGLISH, language } from '../src/words';
import * as german from '../src/words/de';
import * as spanish from '../src/words/es';
import { fakePlan } from './fake_stains';
import { square } from './squares';

const in_ = (tag: string, { words }: Pick<typeof german, 'words'>) => void (language.value = { tag, words });
afterEach(() => void (language.value = ENGLISH));

const scene: Scene = {
  card: null,
  regions: [
    { id: 'c', kind: 'restoration', name: '21', outline: square(0, 0) },
    { id: 't', kind: 'tooth', name: '', outline: square(0, 200) },
    { id: 'u', kind: 'tooth', name: '', outline: square(0, 400) },
  ],
};

describe('what a job calls its restoration and target', () => {
  it('follows the language of the page, whichever it was planned in', () => {
    in_('de', german);
    const names = { restoration: calledIn(scene, 'c'), target: calledIn(scene, 'u') };
    expect(saidNames(names)).toEqual({ restoration: 'Restauration 21', target: 'Zahn c' });
    in_('es', spanish);
    expect(saidNames(names)).toEqual({ restoration: 'Restauración 21', target: 'Diente c' });
    expect(saidNames(TYPED_NAMES)).toEqual({ restoration: 'Restauración (escrita)', target: '(escrito)' });
    in_('en', ENGLISH);
    expect(saidNames(names)).toEqual({ restoration: 'Restoration 21', target: 'Tooth c' });
  });

  it('is the kind alone where there is only one', () => {
    const one = { ...scene, regions: scene.regions.slice(0, 2) };
    expect(saidNames({ restoration: calledIn(one, 'c'), target: calledIn(one, 't') }).target).toBe('Tooth');
  });

  const zones = [{ zone: 'cervical' as const, from: [76, 1, 15] as Lab, to: [73, 1, 18] as Lab, doubt: 1 }];
  const plan = fakePlan({ demo: false, stains: [], swatches: [{ stain: 'grey', coats: 1, base: [78, 0, 15], after: [75, 0, 14] }] }, { zones, limits: USUAL_LIMITS });
  const saved = (restoration: unknown, target: unknown) => workToJson({ label: '', restoration: restoration as Called, target: target as Called, zones, plan, ticks: [], passes: [] } satisfies Work);

  it('comes back from a file; words from an earlier version stay as they were', () => {
    for (const [a, b] of [[calledIn(scene, 'c'), calledIn(scene, 't')], [null, null], ['Restauration 21', 'Zahn 11']]) {
      expect(workFromJson(saved(a, b))).toMatchObject({ restoration: a, target: b });
    }
    expect(saidNames(workFromJson(saved('Restauration 21', 'Zahn 11')))).toEqual({ restoration: 'Restauration 21', target: 'Zahn 11' });
  });

  it.each([7, [], {}, { kind: 'crown', own: '' }, { kind: 'tooth' }, undefined])('is refused as %j', (wrong) => {
    expect(() => workFromJson(saved(wrong, 'Tooth 11'))).toThrow();
  });
});
