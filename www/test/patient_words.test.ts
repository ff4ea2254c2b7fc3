import { describe, expect, it } from 'vitest';
import { THIRDS } from '../src/engine/types';
import type { Said } from '../src/state/patient/facts';
import type { Look } from '../src/state/patient/looks';
import type { Remedy } from '../src/state/patient/remedy_model';
import { AMOUNTS, type Clause, type Way } from '../src/state/patient/sentence_model';
import { words } from '../src/words';

const clause = (amount: Clause['amount'], ways: Way[], thirds: readonly (typeof THIRDS)[number][], mostly = false): Clause => ({ amount, ways, where: { thirds, mostly } });
const differs = (...clauses: Clause[]): Said['difference'] => ({ kind: 'differs', clauses, colourOnly: false });
const say = (difference: Said['difference'], also: Partial<Said> = {}, thing: 'crown' | 'veneer' = 'crown') => words.patient.said({ difference, remedy: null, beside: 'neighbour', partly: false, ...also }, thing);

describe('the patient’s sentence', () => {
  it('says how, compared with what, and where', () => {
    expect(say(differs(clause('little', ['brighter'], ['incisal'], true)))).toBe('Your crown is a little brighter than the tooth beside it, mostly near the edge.');
    expect(say(differs(clause('clearly', ['stronger', 'redder'], THIRDS)), { beside: 'tooth' }, 'veneer')).toBe('Your veneer is clearly stronger in colour and more reddish than the tooth it was compared with, all over.');
    expect(say(differs(clause('much', [], ['cervical', 'middle'])), { beside: 'sample' })).toBe('Your crown is very different from the sample it was compared with, near the gum and in the middle.');
    expect(say(differs(clause('much', ['brighter'], ['incisal'], true), clause('little', ['paler'], ['cervical'])))).toBe('Your crown is much brighter than the tooth beside it, mostly near the edge, and a little paler near the gum.');
    expect(say(differs(clause('clearly', ['darker'], THIRDS), clause('little', ['yellower'], ['middle'], true)))).toBe('Your crown is clearly darker than the tooth beside it, all over, and a little more yellowish, mostly in the middle.');
  });

  it('promises nothing', () => {
    const now = differs(clause('little', ['brighter'], ['incisal']));
    const after = (remedy: Remedy) => say(now, { remedy }).split('; ')[1];
    expect(after({ kind: 'together', coats: 2, price: false })).toBe('two thin coats of paint could bring them together.');
    expect(after({ kind: 'closer-maybe', coats: 1, price: false })).toBe('one thin coat of paint could bring them closer, and a small difference may stay.');
    expect(after({ kind: 'closer', coats: 5, price: false })).toBe('several thin coats of paint could bring them closer, but a difference would stay.');
    expect(after({ kind: 'together', coats: 3, price: true })).toBe('three thin coats of paint could bring them together, and your crown could look a little flatter.');
    expect(after({ kind: 'no-gain' })).toBe('painting would not bring them closer.');
    expect(after({ kind: 'darkens' })).toBe('paint of this kind can only darken, so your dentist will talk with you about other ways.');
  });

  it('says when nothing can be told, and when nothing can be seen', () => {
    expect(say({ kind: 'unsure' })).toBe('With this photo no difference can be told for certain between your crown and the tooth beside it.');
    expect(say({ kind: 'alike' })).toBe('Your crown and the tooth beside it are so alike that most people would not see a difference.');
    expect(say({ kind: 'hardly' })).toBe('Your crown and the tooth beside it are hardly different.');
    expect(say({ kind: 'alike' }, { partly: true })).toBe('As far as the photo shows them, your crown and the tooth beside it are so alike that most people would not see a difference.');
    expect(say({ kind: 'unsure' }, { partly: true })).toBe(say({ kind: 'unsure' }));
  });

  it('is one plain sentence whatever it is made of', () => {
    const ways: Way[][] = [[], ['brighter'], ['darker', 'paler'], ['stronger', 'yellower'], ['redder']];
    const remedies: (Remedy | null)[] = [null, { kind: 'darkens' }, { kind: 'no-gain' }, ...(['together', 'closer-maybe', 'closer'] as const).flatMap((kind) => [1, 2, 3, 9].map((coats) => ({ kind, coats, price: coats > 1 })))];
    const told = AMOUNTS.flatMap((amount) => ways.flatMap((w) => [differs(clause(amount, w, THIRDS)), differs(clause(amount, w, ['incisal'], true), clause('little', ['paler'], ['cervical', 'middle']))]));
    const all = [...told, ...(['unsure', 'alike', 'hardly'] as const).map((kind) => ({ kind }))].flatMap((d) => remedies.flatMap((remedy) => (['neighbour', 'tooth', 'sample'] as const).map((beside) => say(d, { remedy, beside, partly: beside === 'tooth' }))));
    expect(all.length).toBeGreaterThan(1000);
    for (const text of all) {
      expect(text).toMatch(/^[A-Z][a-z ,;]+\.$/);
      expect(text).not.toMatch(/undefined| {2}|Δ|\d|third|restoration|stain|value|chroma| ,/);
    }
  });
});

describe('what else the patient reads', () => {
  it('has no number either, wherever the slider stands', () => {
    const at = Array.from({ length: 21 }, (_, i) => words.patient.slide.at(i / 20));
    expect(at.join()).not.toMatch(/\d/);
    expect([at[0], at[10], at[20]]).toEqual(['as it is now', 'half painted', 'after painting']);
    expect(new Set(at).size).toBe(5);
  });

  it('names the pictures by what they show', () => {
    const looks: Look[] = ['now', 'grey', 'painted'];
    expect(looks.map((look) => words.patient.picture(words.patient.yours('veneer'), look))).toEqual(['Your veneer, upright, as it is', 'Your veneer, upright, its brightness only', 'Your veneer, upright, as calculated after painting']);
    expect((['neighbour', 'tooth', 'sample'] as const).map(words.patient.tooth)).toEqual(['Your tooth', 'Your tooth', 'The sample']);
  });
});
