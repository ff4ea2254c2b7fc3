import { describe, expect, it } from 'vitest';
import { EvennessKey } from '../src/charts/evenness_key';
import { evennessOf } from '../src/charts/evenness_scale';
import { ladderScale } from '../src/charts/ladder_layout';
import { passEnd, PassLane } from '../src/charts/pass_lane';
import { EvennessTable } from '../src/views/evenness';
import { words } from '../src/words';
import { elementsOf } from './vnodes';

describe('evenness', () => {
  it.each([[0, 'even'], [0.79, 'even'], [0.8, 'little'], [1.79, 'little'], [1.8, 'patchy'], [6, 'patchy']] as const)('%f is “%s”', (blotch, level) => {
    expect(evennessOf(blotch)).toBe(level);
  });

  it('is said in words with its figure, third by third', () => {
    const shown = elementsOf(<EvennessTable columns={[{ key: 'r', name: 'Restoration 21', blotch: { cervical: 0.41, incisal: 1.2 } }]} />);
    const rows = shown.filter((e) => e.type === 'tr').slice(1);
    expect(rows.map((r) => [r.props['data-zone'], elementsOf(r.props.children).find((e) => e.type === 'td')!.text])).toEqual([
      ['cervical', 'even 0.4'], ['middle', '–'], ['incisal', 'a little patchy 1.2'], ['whole', '–'],
    ]);
    expect(words.evenness.said(2)).toBe('patchy, 2.0 ΔE00');
  });

  it('has a key from dark to light whose ends are ΔE00 3', () => {
    const t = words.evenness;
    const shown = elementsOf(<EvennessKey width={300} full={3} label={t.maps.uneven.key('3')} darker={t.darker} lighter={t.lighter} none={t.maps.uneven.none} unit={t.unit} />);
    expect(shown.filter((e) => e.type === 'text').map((e) => e.text)).toEqual(['darker', 'as around it', 'lighter', 'ΔE00', '3.0', '0.8', '0.8', '3.0']);
  });
});

describe('the way of a third to its target', () => {
  it('runs from where it was to what came out, on one scale for all', () => {
    expect([passEnd([]), passEnd([3.9, 1]), passEnd([2.1])]).toEqual([3, 5, 3]);
    const x = ladderScale(5, 400);
    const shown = elementsOf(<PassLane before={3.9} left={1.1} doubt={1.7} end={5} width={400} label="Cervical" />);
    const circle = (kind: string) => shown.find((e) => e.props['class'] === kind)!.props['cx'];
    expect([circle('before'), circle('left')]).toEqual([x(3.9), x(1.1)]);
    // The doubt does not reach below nothing.
    expect(shown.find((e) => e.props['class'] === 'doubt')!.props['d']).toBe(`M${x(0)} 28v6m0 -3H${x(2.8)}m0 -3v6`);
    expect(shown.find((e) => e.props['class'] === 'threshold')!.props['d']).toContain(`M${x(0.8)} `);
  });
});
