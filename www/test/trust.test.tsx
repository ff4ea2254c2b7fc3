import { describe, expect, it } from 'vitest';
import type { AnchorTab, LightReport, Trust } from '../src/engine/types';
import { Light, Rungs } from '../src/views/trust';
import { words } from '../src/words';
import { elementsOf } from './vnodes';

const tab = (name: string, delta: number, used = true): AnchorTab => ({ region: name, name, left_out_delta_e_00: delta, used });
const LIGHT: LightReport = { trust: 'card_and_tabs', words: 'On the card and three tabs.', raise: 'Measure your tabs.', tabs: [], falloff: 0, tone_curve: false };
const texts = (light: Partial<LightReport>) => elementsOf(<Light light={{ ...LIGHT, ...light }} />).map((e) => e.text);

describe('what the reading stands on', () => {
  it.each(Object.keys(words.trust.rungs) as Trust[])('marks %s among four rungs, in words and not by colour', (trust) => {
    const all = elementsOf(<Rungs trust={trust} />);
    const rungs = all.filter((e) => e.type === 'li');
    expect(rungs).toHaveLength(4);
    const present = rungs.filter((e) => e.props['aria-current'] === 'true');
    expect(present.map((e) => e.text)).toEqual([`${words.trust.rungs[trust]} ${words.trust.here}`]);
    expect(all.every((e) => e.props['style'] === undefined && e.props['color'] === undefined)).toBe(true);
  });

  it('says the engine’s words and what would raise it', () => {
    expect(texts({})).toEqual(expect.arrayContaining(['On the card and three tabs.', 'Measure your tabs.']));
    expect(texts({ raise: undefined as never }).some((text) => text.includes(words.trust.raise))).toBe(false);
  });

  it('lists the tabs with what the others make of them, and one that is not used outright', () => {
    const light = { ...LIGHT, tabs: [tab('A3', 0.62), tab('B1', 4.2, false), tab('C2', 1)] };
    const all = elementsOf(<Light light={light} />);
    expect(all.find((e) => e.type === 'summary')!.text).toBe('What would raise it; the 2 tabs behind it');
    const folded = elementsOf(all.find((e) => e.type === 'details')!.props.children).filter((e) => e.type === 'li').map((e) => e.text);
    expect(folded).toEqual(['A3', 'C2'].map((name, i) => `${name}: the other tabs put it within ${['0.6', '1.0'][i]} ΔE00 of its known colour.`));
    expect(all.some((e) => e.type === 'li' && e.text === 'B1 is not used: the other tabs put it 4.2 ΔE00 from its known colour.')).toBe(true);
  });

  it('says of a single tab that it was the card that judged it', () => {
    expect(texts({ tabs: [tab('A3', 0.62)] })).toContain('A3: the card alone puts it within 0.6 ΔE00 of its known colour.');
  });

  it('speaks of the falloff from 3 % on, and of a tone curve', () => {
    const falloff = (share: number) => texts({ falloff: share }).filter((text) => text.startsWith('The light differs'));
    expect(falloff(0.029)).toEqual([]);
    expect(falloff(0.052)).toEqual(['The light differs by 5 % between the outlined places; that is corrected.']);
    expect(texts({ tone_curve: true })).toContain(words.trust.toneCurve);
    expect(texts({})).not.toContain(words.trust.toneCurve);
  });
});
